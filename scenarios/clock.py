"""A clock that moves only when it is told: a month takes no time, and every pause ends at its own moment."""

from __future__ import annotations

import asyncio
import heapq
from collections.abc import Coroutine
from datetime import UTC, datetime, timedelta
from typing import Any


class PlayedClock:
    """Fits `bot.coaching.ports.Clock`."""

    def __init__(self, start: datetime) -> None:
        """start: an aware moment."""
        if start.tzinfo is None:
            raise ValueError(f"the clock needs a moment with a zone: {start!r}")
        self._now = start.astimezone(UTC)
        self._sleepers: list[tuple[datetime, int, asyncio.Future[None]]] = []
        self._count = 0

    def now(self) -> datetime:
        return self._now

    def sleep(self, seconds: float) -> Coroutine[Any, Any, None]:
        """Counts from the call, not from when it is awaited: the clock may be moved in between."""
        woken: asyncio.Future[None] = asyncio.get_running_loop().create_future()
        if seconds > 0:
            self._count += 1
            heapq.heappush(self._sleepers, (self._now + timedelta(seconds=seconds), self._count, woken))
        else:
            woken.set_result(None)
        return _until(woken)

    def next_wake_at(self) -> datetime | None:
        """When the first sleeper wakes; None when nobody sleeps."""
        while self._sleepers and self._sleepers[0][2].done():
            heapq.heappop(self._sleepers)
        return self._sleepers[0][0] if self._sleepers else None

    async def advance_to(self, moment: datetime) -> None:
        """Move on to a moment; whoever sleeps until a moment on the way wakes at that moment. Never goes back."""
        while (wake_at := self.next_wake_at()) is not None and wake_at <= moment:
            self._now = max(self._now, wake_at)
            heapq.heappop(self._sleepers)[2].set_result(None)
            await asyncio.sleep(0)
            await asyncio.sleep(0)
        self._now = max(self._now, moment.astimezone(UTC))
        await asyncio.sleep(0)

    async def advance(self, seconds: float) -> None:
        """Move on by so many seconds."""
        await self.advance_to(self._now + timedelta(seconds=seconds))


async def _until(woken: asyncio.Future[None]) -> None:
    if woken.done():
        await asyncio.sleep(0)
    await woken
