"""How do people, program and clock stay in step? After each act the play waits until the program has nothing left to do.

async with Play(standin, program, clock) as play:
    mira = play.person("Mira")
    await mira.says("20 x 12")          # comes back when the answer is there
    await play.until(monday_7am)        # reminders that fall due on the way have gone out
"""

from __future__ import annotations

import asyncio
from datetime import datetime, timedelta
from typing import Any, Protocol, Self

from scenarios.player.group import Group
from scenarios.player.person import Person
from scenarios.standin.server import StandIn

ROUNDS = 100  # of the program's resting and then calling again; more means that it tries something again without end
PATIENCE_S = 30.0  # wall time after which a program that never takes its updates counts as stuck


class Settles(Protocol):
    """The program, as far as a play needs it."""

    async def settle(self) -> Any:
        """Come back when all that came in is dealt with and nothing more can go out at the present moment."""


class MovingClock(Protocol):
    """A played clock."""

    def now(self) -> datetime: ...
    async def advance_to(self, moment: datetime, /) -> Any: ...


class Stuck(Exception):
    """The program did not come to rest. The text says what it has not taken."""


class Play:
    """One play. Everybody who comes in through it is waited for after each act.

    act_takes: how far the clock goes on after each act; a program that spaces its messages out gets them all through in it.
    """

    def __init__(self, standin: StandIn, program: Settles, clock: MovingClock, *, act_takes: timedelta = timedelta(0)) -> None:
        self.standin, self.program, self.clock, self.act_takes = standin, program, clock, act_takes
        self.people: list[Person] = []

    def person(self, first_name: str, **about: Any) -> Person:
        """A new person; see `StandIn.person`."""
        person = self.standin.person(first_name, **about)
        person.after = self._settle_for
        self.people.append(person)
        return person

    def group(self, title: str, *people: Person, supergroup: bool = False, bot_is_admin: bool = False) -> Group:
        """A new group of these people; see `StandIn.group`."""
        return self.standin.group(title, *people, supergroup=supergroup, bot_is_admin=bot_is_admin)

    async def settle(self) -> None:
        """Wait until the bot has taken every update and the program has come to rest.

        Raises:
            Stuck: nothing took the updates for a long while, or the calls have no end.
        """
        for _ in range(ROUNDS):
            before = len(self.standin.calls)
            try:
                await asyncio.wait_for(self.standin.all_taken(), PATIENCE_S)
            except TimeoutError:
                raise Stuck(f"{self.standin.waiting} updates were not taken within {PATIENCE_S:.0f} s") from None
            await self.program.settle()
            quiet = all(call.method == "getUpdates" for call in self.standin.calls[before:])
            if quiet and not self.standin.waiting:
                return
        raise Stuck(f"the program goes on calling; at last {self.standin.calls[-1].method} was {self.standin.calls[-1].outcome}")

    async def until(self, moment: datetime, *, step: timedelta | None = None) -> None:
        """Move the clock to a moment, with what falls due on the way done at its own time.

        A program that can do that by itself (`live_until`) is asked to; for others the play looks at each step and at the end.
        """
        if hasattr(self.program, "live_until"):
            await self.settle()
            await self.program.live_until(moment)
            await self.settle()
            return
        while step and self.clock.now() + step < moment:
            await self.clock.advance_to(self.clock.now() + step)
            await self.settle()
        await self.clock.advance_to(moment)
        await self.settle()

    async def pass_time(self, **length: float) -> None:
        """Let time go by, in the words of `timedelta`: minutes=3, days=1."""
        await self.until(self.clock.now() + timedelta(**length))

    async def __aenter__(self) -> Self:
        return self

    async def __aexit__(self, *_: object) -> None:
        for person in self.people:
            person.after = None

    async def _settle_for(self, _: Person) -> None:
        await self.settle()
        if self.act_takes:
            await self.until(self.clock.now() + self.act_takes)
