"""How does the platform say no? One exception that carries the status, the words and what a client needs to act.

The words are those of the open server's source (tdlib/telegram-bot-api, Client.cpp) where it could be read; the others are
from memory of the platform's behaviour.
"""

from __future__ import annotations

from typing import Any

PREFIXES = {
    400: "Bad Request",
    401: "Unauthorized",
    403: "Forbidden",
    404: "Not Found",
    409: "Conflict",
    413: "Request Entity Too Large",
}


class Refusal(Exception):
    """An answer with ok=false. description: the words after "Bad Request: " and the like; parameters: retry_after and such."""

    def __init__(self, status: int, description: str = "", parameters: dict[str, Any] | None = None) -> None:
        prefix = PREFIXES.get(status, "")
        self.status = status
        self.description = f"{prefix}: {description}" if prefix and description else description or prefix
        self.parameters = parameters or {}
        super().__init__(f"{status} {self.description}")

    def body(self) -> dict[str, Any]:
        """The answer as JSON data."""
        said: dict[str, Any] = {"ok": False, "error_code": self.status, "description": self.description}
        return said | ({"parameters": self.parameters} if self.parameters else {})


def bad(description: str) -> Refusal:
    """A 400."""
    return Refusal(400, description)


def too_many(retry_after: int) -> Refusal:
    """A 429 that names its pause in whole seconds."""
    return Refusal(429, f"Too Many Requests: retry after {retry_after}", {"retry_after": retry_after})


def blocked() -> Refusal:
    """What a bot hears from a person who blocked it."""
    return Refusal(403, "bot was blocked by the user")


def moved(new_chat_id: int) -> Refusal:
    """What a bot hears from a group that has become a supergroup."""
    return Refusal(400, "group chat was upgraded to a supergroup chat", {"migrate_to_chat_id": new_chat_id})


def server_error(status: int = 502) -> Refusal:
    """A failure of the platform itself; what became of the call is unknown."""
    return Refusal(status, {500: "Internal Server Error", 502: "Bad Gateway", 504: "Gateway Timeout"}.get(status, "Server Error"))
