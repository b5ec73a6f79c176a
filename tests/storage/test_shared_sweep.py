"""Several programs sweep one database: each thing once, and one that ends whoever tries it is set aside all the same."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

import pytest

from bot.clock.sweep import MAX_TRIES, SET_OFF, Sweep, Swept
from storage.due import DueList
from storage.engine import Engines
from storage.unit_of_work import UnitOfWork
from tests.builders.pipes import at_once


class Killed(BaseException):
    """Stands for the end of the process: nothing of the program catches it."""


def say(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
    if fields["key"] == "poison":
        raise Killed
    uow.outbox.put(7, "said", {"key": fields["key"]})


@dataclass
class Watch:
    """A clock that is set by hand, also in the middle of a sweep."""

    at: datetime

    def now(self) -> datetime:
        return self.at

    async def sleep(self, seconds: float) -> None:
        raise AssertionError("a sweep does not sleep")


class Shared:
    """One database, and programs on it that begin when they are asked for."""

    def __init__(self, engines: Engines, noon: datetime) -> None:
        self.engines, self.clock = engines, Watch(noon)

    def open_uow(self, *, reads: bool = False) -> UnitOfWork:
        return UnitOfWork(self.engines, self.clock.now, reads=reads)

    def program(self) -> Sweep:
        return Sweep(open_uow=self.open_uow, in_database=at_once, deeds={"reminder": say}, clock=self.clock)

    def plan(self, *keys: str) -> None:
        with self.open_uow() as uow:
            for key in keys:
                uow.due.put("reminder", key, self.clock.now(), {"key": key}, too_late_after_s=None)
            uow.commit()

    def pass_time(self, much: timedelta) -> None:
        self.clock.at += much

    def spoken(self) -> list[str]:
        with self.open_uow(reads=True) as uow:
            rows = uow.outbox.waiting(self.clock.now(), lanes=range(5), held=(), full=(), limit=99)
            return sorted(row.fields["key"] for row in rows)

    def count(self, state: str) -> int:
        with self.open_uow(reads=True) as uow:
            return uow.due.count(state)


def test_a_deed_that_ends_every_program_is_given_up(engines: Engines, noon: datetime) -> None:
    """Each program may fall once to what became due while it ran; whoever starts again counts first."""
    shared = Shared(engines, noon)
    programs = [shared.program(), shared.program()]
    shared.pass_time(timedelta(minutes=1))
    shared.plan("a", "poison", "z")
    ended = 0
    for turn in range(40):
        try:
            asyncio.run(programs[turn % 2].once())
        except Killed:
            ended += 1
            programs[turn % 2] = shared.program()
        shared.pass_time(timedelta(seconds=11))

    assert ended == len(programs) + MAX_TRIES
    assert (shared.spoken(), shared.count("failed"), shared.count("done")) == (["a", "z"], 1, 2)


def test_what_one_program_has_counted_another_leaves_alone(
    engines: Engines, noon: datetime, monkeypatch: pytest.MonkeyPatch
) -> None:
    shared = Shared(engines, noon)
    shared.plan("a", "b")
    one, other = shared.program(), shared.program()
    meanwhile: list[Swept] = []
    before_take(monkeypatch, lambda: meanwhile.append(swept(other)))

    assert (swept(one), meanwhile) == (Swept(done=2), [Swept()])
    assert shared.spoken() == ["a", "b"]


def test_a_program_that_comes_back_too_late_finds_its_rows_done(
    engines: Engines, noon: datetime, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It counted, then stood still for longer than it may: another has done the deeds, and they are not done twice."""
    shared = Shared(engines, noon)
    shared.plan("a", "b")
    one, other = shared.program(), shared.program()
    meanwhile: list[Swept] = []

    def stand_still() -> None:
        shared.pass_time(SET_OFF)
        meanwhile.append(swept(other))

    before_take(monkeypatch, stand_still)

    assert (swept(one), meanwhile) == (Swept(), [Swept(done=2)])
    assert shared.spoken() == ["a", "b"]


def test_a_program_that_ends_leaves_its_rows_to_the_others(
    engines: Engines, noon: datetime, monkeypatch: pytest.MonkeyPatch
) -> None:
    shared = Shared(engines, noon)
    shared.plan("a")
    one, other = shared.program(), shared.program()

    def end() -> None:
        raise Killed

    before_take(monkeypatch, end)
    with suppress(Killed):
        swept(one)
    assert swept(other) == Swept()
    shared.pass_time(SET_OFF)
    assert swept(other) == Swept(done=1)


def swept(program: Sweep) -> Swept:
    """One sweep, also from within another one's."""
    steps = program.once()
    try:
        steps.send(None)
    except StopIteration as end:
        found: Swept = end.value
        return found
    raise AssertionError("the sweep waits for something")


def before_take(monkeypatch: pytest.MonkeyPatch, act: Callable[[], None]) -> None:
    """Between the count of a try and its beginning, once, something happens."""
    take = DueList.take
    acts = [act]

    def later(self: DueList, row_ids: Any) -> set[int]:
        if acts:
            self._session.rollback()  # lets the other in, on one file as well
            acts.pop()()
        return take(self, row_ids)

    monkeypatch.setattr(DueList, "take", later)
