"""A program of its own against a stand-in of its own, on a played clock: what every play of the real deeds begins with.

async with opened(datetime(2026, 3, 2, 7, 0, tzinfo=UTC)) as play:
    await play.person("Ines").starts(play.claim_code)
"""

from __future__ import annotations

import tempfile
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from scenarios.clock import PlayedClock
from scenarios.player.play import Play
from scenarios.standin import StandIn

if TYPE_CHECKING:
    from bot.cli.program import Program


class OpenedPlay(Play):
    """A play that knows its program, and the code that makes the first who sends it coach."""

    program: Program
    clock: PlayedClock

    def __init__(self, standin: StandIn, program: Program, clock: PlayedClock, claim_code: str) -> None:
        super().__init__(standin, program, clock)
        self.claim_code = claim_code


@asynccontextmanager
async def opened(start: datetime) -> AsyncIterator[OpenedPlay]:
    """The companion with all its deeds, started at this moment on an empty database, which goes with the play."""
    from pydantic import SecretStr

    from bot.cli.program import Program
    from bot.cli.wiring import make_hooks
    from bot.settings import Settings

    clock = PlayedClock(start)
    with tempfile.TemporaryDirectory() as data:
        async with StandIn(clock) as standin:
            settings = Settings(token=SecretStr(standin.token), data=Path(data), base_url=standin.url)
            program = Program(settings, clock, make_hooks(), ticking=False, in_loop=True)
            lines = await program.start()
            try:
                async with OpenedPlay(standin, program, clock, lines[-1].strip()) as play:
                    yield play
            finally:
                await program.stop()
