"""Which time does the stand-in keep? Its own, as any server does: a played clock when it is handed one, else this machine's."""

from __future__ import annotations

import asyncio
from datetime import UTC, datetime
from typing import Protocol


class Clock(Protocol):
    """Where the stand-in takes the time from."""

    def now(self) -> datetime: ...
    async def sleep(self, seconds: float) -> None: ...


class WallClock:
    """This machine's time: the stand-in is a server apart from the program, which has its own."""

    def now(self) -> datetime:
        return datetime.now(UTC)  # noqa: TID251

    async def sleep(self, seconds: float) -> None:
        await asyncio.sleep(seconds)
