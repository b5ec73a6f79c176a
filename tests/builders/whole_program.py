"""The whole program against the stand-in on a played clock, for tests that play a few acts."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any

from pydantic import SecretStr

from bot.cli.program import Hooks, Program
from bot.settings import Settings
from scenarios.clock import PlayedClock
from scenarios.standin import StandIn
from storage.unit_of_work import UnitOfWork
from tests.builders.bot_api_check import problems_of
from tests.builders.pipes import NOON

PATIENCE_S = 30


class Whole:
    """A running program, its stand-in and its clock."""

    def __init__(self, folder: Path, hooks: Hooks, *, in_loop: bool = False, **settings: Any) -> None:
        self.folder, self.hooks, self.in_loop, self.more = folder, hooks, in_loop, settings
        self.clock = PlayedClock(NOON)
        self.standin = StandIn(self.clock)
        self.program: Program

    def new_program(self) -> Program:
        given = {"token": SecretStr(self.standin.token), "base_url": self.standin.url, "data": self.folder, **self.more}
        return Program(Settings(**given), self.clock, self.hooks, ticking=False, in_loop=self.in_loop)

    async def settle(self) -> None:
        await asyncio.wait_for(self.standin.all_taken(), PATIENCE_S)
        await self.program.settle()

    def reads(self) -> UnitOfWork:
        return self.program.open_uow(reads=True)


def play(
    folder: Path, hooks: Hooks, acts: Callable[[Whole], Awaitable[None]], *, in_loop: bool = False, **settings: Any
) -> Whole:
    """Run the acts against a started program; every call that it made must fit the Bot API."""
    whole = Whole(folder, hooks, in_loop=in_loop, **settings)

    async def run() -> None:
        async with whole.standin:
            whole.program = whole.new_program()
            await whole.program.start()
            try:
                await acts(whole)
            finally:
                await whole.program.stop()
            assert problems_of(whole.standin.calls) == []

    asyncio.run(asyncio.wait_for(run(), PATIENCE_S))
    return whole
