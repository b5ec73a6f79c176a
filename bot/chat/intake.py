"""How do updates come in by polling, so that none is lost? Stored first, acknowledged after.

Asking the platform for updates beyond an id is what deletes those up to it. So: fetch raw JSON, store the batch in one
transaction, and only then ask with the higher offset.

- It starts without an offset, and goes back to none once a batch is acknowledged: after a quiet week the platform's ids start
  again at a random number, and an old offset might lie above them.
- What the library could not decode is stored as well; lanes park it. Nothing can stop the loop but a token that is not accepted.
- A conflict (another poller, or a webhook) is said, and waited out.
"""

from __future__ import annotations

import json
import logging
from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass
from typing import Any, Protocol

from telegram.error import NetworkError

from bot.coaching.pauses import growing_pause_s
from bot.coaching.ports import Clock

LOG = logging.getLogger(__name__)
LONG_POLL_S = 50  # the server's own cap
BATCH = 100
MAX_PAUSE_S = 60.0
# Always sent: a setting left out would stay as an earlier program has set it.
ALLOWED_UPDATES = ("message", "edited_message", "callback_query", "my_chat_member", "poll_answer")


class TokenRefused(RuntimeError):
    """The platform does not know the token; says what the operator can do."""

    def __init__(self) -> None:
        super().__init__(
            "The platform does not accept the token (COMPANION_TOKEN): copy it again from the chat where the bot was created, "
            "or ask there for a new one; it looks like 123456789:AAE... and belongs to one bot only."
        )


class Exchange(Protocol):
    """One raw HTTP exchange; see bot.chat.transport.Transport."""

    def __call__(self, url: str, method: str, data: Any, *, read_s: float | None) -> Awaitable[tuple[int, bytes]]: ...


@dataclass(frozen=True)
class Fetched:
    """What one call brought: updates, or how long to wait and why."""

    updates: Sequence[Any] = ()
    pause_s: float | None = None
    problem: str = ""


class Intake:
    """Run with `run()`; end with cancelling it: a batch is either stored or not acknowledged."""

    def __init__(
        self,
        *,
        exchange: Exchange,
        method_url: str,
        store: Callable[[Sequence[Any]], Awaitable[int]],
        clock: Clock,
        long_poll_s: int = LONG_POLL_S,
    ) -> None:
        self._exchange, self._url, self._store = exchange, method_url, store
        self._clock, self._long_poll_s = clock, long_poll_s
        self._offset: int | None = None
        self._failures = 0

    async def run(self) -> None:
        """Fetch and store until cancelled.

        Raises:
            TokenRefused: nothing more can come in.
        """
        while True:
            await self.step()

    async def step(self) -> None:
        """One fetch, and what follows from it."""
        fetched = await self._fetch()
        if fetched.pause_s is not None:
            await self._pause(fetched)
            return
        if not fetched.updates:
            self._offset, self._failures = None, 0
            return
        try:
            await self._store(fetched.updates)
        except Exception as error:  # not stored, so not acknowledged: the same batch comes again
            await self._pause(Fetched(pause_s=0, problem=f"not stored: {type(error).__name__}"))
            return
        above = [id_ + 1 for update in fetched.updates if (id_ := _update_id(update)) is not None]
        if not above:
            await self._pause(Fetched(pause_s=0, problem="a whole batch without update ids"))
            return
        self._offset, self._failures = max(above), 0

    async def _fetch(self) -> Fetched:
        data = {"timeout": str(self._long_poll_s), "limit": str(BATCH), "allowed_updates": json.dumps(ALLOWED_UPDATES)}
        if self._offset is not None:
            data["offset"] = str(self._offset)
        try:
            status, body = await self._exchange(self._url, "POST", data, read_s=self._long_poll_s + 15.0)
        except NetworkError as error:
            return Fetched(pause_s=0, problem=f"the platform is not reached: {error.message}")
        return _understood(status, body)

    async def _pause(self, fetched: Fetched) -> None:
        self._failures += 1
        pause = max(fetched.pause_s or 0.0, growing_pause_s(self._failures, first_s=1.0, most_s=MAX_PAUSE_S))
        LOG.warning("intake_waits cause=%r failures=%d next_in_s=%.0f", fetched.problem, self._failures, pause)
        await self._clock.sleep(pause)


def _understood(status: int, body: bytes) -> Fetched:
    """What an answer of the platform means.

    Raises:
        TokenRefused: for 401 and 404, which it answers to a token that it does not know.
    """
    if status in (401, 404):
        raise TokenRefused
    try:
        answer = json.loads(body)
        result = answer.get("result")
    except (ValueError, AttributeError):
        return Fetched(pause_s=0, problem=f"an answer that is not the platform's (status {status})")
    if status == 200 and isinstance(result, list):
        return Fetched(updates=result)
    if status == 409:
        return Fetched(
            pause_s=5,
            problem="another program fetches this bot's updates; stop it, only one may: " + str(answer.get("description")),
        )
    parameters = answer.get("parameters")
    wait = parameters.get("retry_after") if isinstance(parameters, dict) else None
    return Fetched(pause_s=float(wait) if isinstance(wait, int | float) else 0, problem=f"the platform answers {status}")


def _update_id(update: Any) -> int | None:
    value = update.get("update_id") if isinstance(update, dict) else None
    if isinstance(value, str) and value.isdecimal():
        return int(value)
    return value if isinstance(value, int) and not isinstance(value, bool) else None
