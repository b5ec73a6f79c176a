"""The whole program on a stage: stand-in, played clock, coach, and members who have joined. For tests of what people live through.

@staged()
async def test_something(stage: Stage) -> None:
    mira = await stage.member("Mira")
    await mira.says("20x12")
    assert stage.records(mira) == [...]
"""

from __future__ import annotations

import asyncio
import re
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from bot.cli.program import Program
from bot.training import people
from scenarios.clock import PlayedClock
from scenarios.player import Person, Play, opened
from scenarios.standin import StandIn
from tests.builders.bot_api_check import problems_of

MONDAY_MORNING = datetime(2026, 3, 2, 7, 0, tzinfo=UTC)
BLOCK = """\
Small block
Day 1 - Legs
A1 Goblet squat 3x8-12 @ 3-1-1-0
A2 Push-up 2x8-15
B1 Romanian deadlift 2x8-12, rest 60s
Rest
Day 2 - Pull
A1 One-arm dumbbell row 2x8-12 each side
B1 Dumbbell curl 2x10-12
Rest
"""
KIT = "dumbbells 2-30 by 2, bench, pull up bar, bands: yellow red black"


@dataclass
class Stage:
    """What a test works with."""

    play: Play
    program: Program
    clock: PlayedClock
    standin: StandIn
    claim_code: str
    coach: Person
    link: str = ""

    async def open(self, block: str = BLOCK) -> None:
        """The coach comes, and publishes a block unless it is empty."""
        await self.coach.follows_link(f"https://t.me/{self.standin.username}?start={self.claim_code}")
        found = re.search(r"https://t\.me/\S+", self.coach.last.text)
        assert found, self.coach.last.text
        self.link = found[0].rstrip(".,")
        if block:
            await self.publish(block)

    async def publish(self, block: str) -> None:
        await self.coach.says(block)
        assert "Publish now" in self.coach.last.labels, self.coach.last.text
        await self.coach.presses("Publish now")

    async def member(
        self, name: str = "Mira", *, unit: str = "kilograms", place: str = "Lisbon", kit: str = KIT, day: str = "Monday"
    ) -> Person:
        """Somebody who has joined with all questions answered."""
        person = self.play.person(name)
        await person.follows_link(self.link)
        await person.presses("Yes, I agree")
        await person.presses(unit)
        await person.says(place)
        await person.presses(person.last.labels[0])
        await person.says(kit)
        await person.presses("Done")
        await person.presses(day)
        await person.says("17:30")
        return person

    def uow(self) -> Any:
        return self.program.open_uow(reads=True)

    def member_of(self, person: Person) -> people.Member:
        with self.uow() as uow:
            found = uow.members.newest(chat_id=person.id)
        assert found is not None
        return found

    def kept(self, person: Person, **keys: Any) -> list[people.KeptRecord]:
        """The person's set records that stand, oldest first."""
        member = self.member_of(person)
        with self.uow() as uow:
            return uow.records.find(member_id=member.id, **({"active": True} | keys))

    def records(self, person: Person) -> list[str]:
        """The same, shortly: "A1.1 20 kg x 12"."""
        from bot.training.loads import say_load

        said = []
        for kept in self.kept(person):
            done = kept.record.done
            load = f"{say_load(done.load)} x " if done.load else ""
            count = done.count if done.count is not None else f"L{done.left} R{done.right}"
            said.append(f"{kept.label}.{kept.number} {load}{count}")
        return said


def staged(
    block: str = BLOCK, start: datetime = MONDAY_MORNING
) -> Callable[[Callable[[Stage], Awaitable[None]]], Callable[[], None]]:
    """Turn an async test into one that pytest calls; afterwards every call the program made is held against the typed API."""

    def around(test: Callable[[Stage], Awaitable[None]]) -> Callable[[], None]:
        def run() -> None:
            asyncio.run(_on_stage(test, block, start))

        run.__name__, run.__doc__ = test.__name__, test.__doc__
        return run

    return around


async def _on_stage(test: Callable[[Stage], Awaitable[None]], block: str, start: datetime) -> None:
    async with opened(start) as play:
        stage = Stage(play, play.program, play.clock, play.standin, play.claim_code, play.person("Ines"))
        await stage.open(block)
        await test(stage)
        assert problems_of(play.standin.calls) == []
