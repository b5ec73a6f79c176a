"""What waits for the bot? Updates, each with the moment after which it is gone, handed out by long polling or pushed.

| rule | source |
|---|---|
| an update is confirmed, and gone, by a call with an offset above its id | manual, "getUpdates" |
| a negative offset throws away all but the last so many | manual, "getUpdates" |
| 24 h from the message's date or its edit date; 150 s for a press | open server, Client.cpp |
| a second poll ends the first with 409 | open server, Client.cpp |
| after a week without updates the next id is a random one | manual, "Update" |
| an offset far above every id counts as none | open server's library, from memory |
| kinds not asked for are not queued; member changes and reactions must be named | manual, "getUpdates" |
"""

from __future__ import annotations

import asyncio
import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from scenarios.standin.refusal import Refusal

KEPT_S = 24 * 3600
QUIET_S = 7 * 24 * 3600
PRESS_KEPT_S = 150
MAX_POLL_S = 50
FIRST_ID = 500_001
NAMED_ONLY = frozenset({"chat_member", "message_reaction", "message_reaction_count"})


@dataclass
class Waiting:
    """One update. lane: updates of a lane are pushed one after the other. owed: is handed out although it was confirmed."""

    id: int
    body: Any
    expires_at: float
    lane: str
    repeats: int = 0
    owed: bool = False


class UpdateQueue:
    """now: seconds on the stand-in's clock."""

    def __init__(self, now: Callable[[], float]) -> None:
        self._now = now
        self._next_id = FIRST_ID
        self._last_at = now()
        self._random = random.Random(FIRST_ID)  # the same jumps in every run
        self._waiting: list[Waiting] = []
        self._allowed: frozenset[str] | None = None
        self._poll: asyncio.Future[None] | None = None
        self._emptied: list[asyncio.Future[None]] = []
        self._repeat_next = 0
        self.on_new: Callable[[Waiting], None] | None = None

    def __len__(self) -> int:
        self._expire()
        return len(self._waiting)

    @property
    def allowed(self) -> list[str]:
        """What the bot asked for; empty for the usual kinds."""
        return sorted(self._allowed or ())

    def allow(self, kinds: Sequence[Any] | None) -> None:
        """Remember which kinds are wanted. None leaves it as it was; an empty list means the usual kinds."""
        if kinds is not None:
            self._allowed = frozenset(str(kind) for kind in kinds) or None

    def wants(self, kind: str) -> bool:
        return kind in self._allowed if self._allowed is not None else kind not in NAMED_ONLY

    def put(self, kind: str, body: Any, *, lane: str, kept_s: float | None = None, dated: float | None = None) -> int | None:
        """Queue an update of a kind; returns its id, or None if the bot did not ask for this kind."""
        if not self.wants(kind):
            return None
        number = self._number()
        kept_s = kept_s if kept_s is not None else PRESS_KEPT_S if kind == "callback_query" else KEPT_S
        expires_at = (self._now() if dated is None else dated) + kept_s
        self._add(Waiting(number, {"update_id": number, kind: body}, expires_at, lane))
        return number

    def put_raw(self, body: Any) -> int:
        """Queue whatever it is, as if the platform had sent it; update_id is added to an object that has none."""
        number = self._number()
        if isinstance(body, dict):
            body = {"update_id": number, **body}
        self._add(Waiting(number, body, self._now() + KEPT_S, "raw"))
        return number

    def repeat_next(self, times: int) -> None:
        """The next so many updates will each be handed out once more after they were confirmed."""
        self._repeat_next += times

    async def poll(self, *, offset: int, limit: int, timeout: float) -> list[Any]:
        """One getUpdates call."""
        if self._poll is not None and not self._poll.done():
            self._poll.set_exception(
                Refusal(409, "terminated by other getUpdates request; make sure that only one bot instance is running")
            )
        if offset > self._next_id + 10:
            offset = 0
        mine = self._poll = asyncio.get_running_loop().create_future()
        self._confirm(offset)
        if not len(self) and timeout > 0:
            try:
                await asyncio.wait_for(asyncio.shield(mine), min(timeout, MAX_POLL_S))
            except TimeoutError:
                pass
            finally:
                if not mine.done():
                    mine.cancel()
        elif not mine.done():
            mine.cancel()
        self._expire()
        start = offset if offset > 0 else 0
        bodies = [waiting.body for waiting in self._waiting if waiting.owed or waiting.id >= start]
        return bodies[: max(1, min(limit or 100, 100))]

    def drop_all(self) -> None:
        self._waiting.clear()
        self._tell_emptied()

    def remove(self, waiting: Waiting) -> None:
        """One was pushed and acknowledged, or gave up its time."""
        if waiting in self._waiting:
            self._waiting.remove(waiting)
        self._tell_emptied()

    def all_waiting(self) -> list[Waiting]:
        self._expire()
        return list(self._waiting)

    def is_over(self, waiting: Waiting) -> bool:
        return self._now() >= waiting.expires_at

    async def emptied(self) -> None:
        """Come back when nothing waits any more."""
        if len(self):
            future = asyncio.get_running_loop().create_future()
            self._emptied.append(future)
            await future

    def end_poll(self, refusal: Refusal) -> None:
        if self._poll is not None and not self._poll.done():
            self._poll.set_exception(refusal)

    def _number(self) -> int:
        quiet_s, self._last_at = self._now() - self._last_at, self._now()
        return self._random.randrange(100_000_000, 900_000_000) if quiet_s >= QUIET_S else self._next_id

    def _add(self, waiting: Waiting) -> None:
        self._next_id = waiting.id + 1
        if self._repeat_next:
            self._repeat_next -= 1
            waiting.repeats = 1
        self._waiting.append(waiting)
        if self._poll is not None and not self._poll.done():
            self._poll.set_result(None)
        if self.on_new:
            self.on_new(waiting)

    def _confirm(self, offset: int) -> None:
        if offset < 0:
            self._waiting = self._waiting[offset:]
        elif offset > 0:
            kept = []
            for waiting in self._waiting:
                if waiting.id >= offset:
                    kept.append(waiting)
                elif waiting.repeats:  # the platform never does this; a client that lost its offset would see the same
                    waiting.repeats, waiting.owed = waiting.repeats - 1, True
                    kept.append(waiting)
            self._waiting = kept
        self._tell_emptied()

    def _expire(self) -> None:
        now = self._now()
        if any(waiting.expires_at <= now for waiting in self._waiting):
            self._waiting = [waiting for waiting in self._waiting if waiting.expires_at > now]
            self._tell_emptied()

    def _tell_emptied(self) -> None:
        if not self._waiting:
            for future in self._emptied:
                if not future.done():
                    future.set_result(None)
            self._emptied.clear()
