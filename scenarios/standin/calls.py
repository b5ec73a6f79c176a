"""What did the bot ask for, and what came of it? The log that tests assert on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any


@dataclass
class Call:
    """One request. fields: as given (text from a form, values from JSON), unchecked. files: parameter to (name, bytes, kind).

    status: of the answer. outcome: "answered", or "cut before" or "cut after" its effect. at: UTC, the stand-in's clock.
    """

    number: int
    at: datetime
    method: str
    fields: dict[str, Any]
    files: dict[str, tuple[str, int, str]] = field(default_factory=dict)
    status: int = 0
    answer: Any = None
    outcome: str = "under way"

    @property
    def ok(self) -> bool:
        """It had its effect."""
        return self.status == 200 and self.outcome != "cut before"

    @property
    def chat_id(self) -> int | None:
        try:
            return int(self.fields.get("chat_id") or 0) or None
        except (TypeError, ValueError):
            return None

    @property
    def description(self) -> str:
        """The error's words, or ""."""
        return self.answer.get("description", "") if isinstance(self.answer, dict) else ""


class CallLog(list[Call]):
    """All calls, oldest first."""

    def of(self, *methods: str, chat_id: int | None = None) -> list[Call]:
        """The calls of these methods (to one chat)."""
        wanted = {method.lower() for method in methods}
        return [call for call in self if call.method.lower() in wanted and chat_id in (None, call.chat_id)]

    def sends(self, chat_id: int | None = None) -> list[Call]:
        """The calls that put a message into a chat and had their effect."""
        return [
            call
            for call in self
            if call.ok and call.method.startswith(("send", "forward", "copy")) and call.method != "sendChatAction"
            and chat_id in (None, call.chat_id)
        ]  # fmt: skip

    def refused(self) -> Iterator[Call]:
        """The calls that were answered with an error."""
        return (call for call in self if call.status >= 400)

    def busiest(self, window_s: float, *, chat_id: int | None = None) -> int:
        """The largest number of sends within any window of so many seconds of the stand-in's clock."""
        moments = sorted(call.at.timestamp() for call in self.sends(chat_id))
        first = most = 0
        for last, moment in enumerate(moments):
            while moments[first] <= moment - window_s:
                first += 1
            most = max(most, last - first + 1)
        return most
