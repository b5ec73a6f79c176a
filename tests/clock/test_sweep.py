"""What happens because time passed: each thing once, late or dropped, and no failure harms another."""

from __future__ import annotations

import asyncio
from collections.abc import Mapping
from contextlib import suppress
from datetime import datetime, timedelta
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import event

from bot.clock.sweep import BATCH, MAX_TRIES, STEP, Sweep, Swept
from scenarios.clock import PlayedClock
from storage.engine import Engines
from storage.unit_of_work import UnitOfWork
from tests.builders.pipes import NOON, at_once, fresh_engines


class Rig:
    def __init__(self, folder: Path, deeds: Mapping[str, Any], *, alone: bool = False, **more: Any) -> None:
        self.engines: Engines = fresh_engines(folder)
        self.clock = PlayedClock(NOON)
        self._how: dict[str, Any] = {"deeds": deeds, "alone": alone, **more}
        self.start()

    def start(self) -> None:
        """The program's start: a new sweep on the same tables."""
        self.sweep = Sweep(open_uow=self.open_uow, in_database=at_once, clock=self.clock, **self._how)

    def open_uow(self, *, reads: bool = False) -> UnitOfWork:
        return UnitOfWork(self.engines, self.clock.now, reads=reads, on_planned=lambda at: self.sweep.planned(at))

    def plan(self, key: str, moment: datetime, *, kind: str = "reminder", too_late_after_s: int | None = None) -> None:
        with self.open_uow() as uow:
            uow.due.put(kind, key, moment, {"key": key}, too_late_after_s=too_late_after_s)
            uow.commit()

    def sweep_at(self, moment: datetime) -> Swept:
        async def go() -> Swept:
            await self.clock.advance_to(moment)
            return await self.sweep.once()

        return asyncio.run(go())

    def count(self, state: str) -> int:
        with self.open_uow() as uow:
            return uow.due.count(state)


def say(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
    uow.outbox.put(7, "said", {"key": fields["key"], "at": now.isoformat()})


def spoken(rig: Rig) -> list[str]:
    with rig.open_uow() as uow:
        return [row.fields["key"] for row in uow.outbox.waiting(rig.clock.now(), lanes=range(5), held=(), full=(), limit=10_000)]


def test_what_is_due_is_done_once(tmp_path: Path) -> None:
    rig = Rig(tmp_path, {"reminder": say})
    rig.plan("later", NOON + timedelta(seconds=1))
    rig.plan("now", NOON)

    assert rig.sweep_at(NOON) == Swept(done=1)
    assert rig.sweep_at(NOON) == Swept()
    assert rig.sweep_at(NOON + timedelta(hours=9)) == Swept(done=1)
    assert spoken(rig) == ["now", "later"]


def test_more_than_a_batch_is_done_in_one_go(tmp_path: Path) -> None:
    rig = Rig(tmp_path, {"reminder": say})
    for number in range(2 * BATCH + 3):
        rig.plan(str(number), NOON)

    assert rig.sweep_at(NOON) == Swept(done=2 * BATCH + 3)
    assert len(set(spoken(rig))) == 2 * BATCH + 3


def test_a_deed_and_its_done_are_one(tmp_path: Path) -> None:
    """The worker dies between the deed and the commit: nothing of the deed is left, and it is done again."""
    killed = False

    def dies_once(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
        nonlocal killed
        say(uow, fields, row, now)
        if not killed:
            killed = True
            raise KeyboardInterrupt

    rig = Rig(tmp_path, {"reminder": dies_once}, alone=True)
    rig.plan("a", NOON)

    with pytest.raises(KeyboardInterrupt):
        rig.sweep_at(NOON)
    assert (killed, spoken(rig), rig.count("open")) == (True, [], 1)
    assert rig.sweep_at(NOON) == Swept(done=1)
    assert spoken(rig) == ["a"]


def test_a_failing_deed_harms_no_other(tmp_path: Path) -> None:
    def fails_for_b(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
        say(uow, fields, row, now)
        if fields["key"] == "b":
            raise ValueError

    rig = Rig(tmp_path, {"reminder": fails_for_b})
    for key in "abc":
        rig.plan(key, NOON)

    assert rig.sweep_at(NOON) == Swept(done=2, failed=1)
    assert spoken(rig) == ["a", "c"]


def test_one_that_failed_before_does_not_make_the_others_run_twice(tmp_path: Path) -> None:
    runs: list[str] = []

    def fails_for_b(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
        runs.append(fields["key"])
        if fields["key"] == "b":
            raise ValueError

    rig = Rig(tmp_path, {"reminder": fails_for_b})
    rig.plan("b", NOON)
    rig.sweep_at(NOON)
    again_at = NOON + timedelta(minutes=10)
    for key in "ac":
        rig.plan(key, again_at)

    assert rig.sweep_at(again_at) == Swept(done=2, failed=1)
    assert sorted(runs) == ["a", "b", "b", "c"]


def test_a_deed_that_keeps_failing_is_given_up(tmp_path: Path) -> None:
    calls: list[datetime] = []

    def fails(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
        calls.append(now)
        raise ValueError

    rig = Rig(tmp_path, {"reminder": fails})
    rig.plan("a", NOON)
    for minutes in range(600):
        rig.sweep_at(NOON + timedelta(minutes=minutes))

    assert len(calls) == MAX_TRIES
    assert rig.count("failed") == 1
    gaps = [later - earlier for earlier, later in pairwise(calls)]
    assert gaps == sorted(gaps)


def test_what_is_too_late_is_dropped_and_counted(tmp_path: Path) -> None:
    rig = Rig(tmp_path, {"reminder": say})
    rig.plan("edge", NOON, too_late_after_s=600)
    rig.plan("late", NOON - timedelta(seconds=1), too_late_after_s=600)
    rig.plan("never too late", NOON - timedelta(days=9))

    assert rig.sweep_at(NOON + timedelta(seconds=600)) == Swept(done=2, too_late=1)
    assert spoken(rig) == ["never too late", "edge"]


def test_a_thing_that_comes_back_plans_its_next_time_under_its_own_key(tmp_path: Path) -> None:
    def daily(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
        say(uow, fields, row, now)
        uow.due.put(row.kind, row.key, row.due_at_utc + timedelta(days=1), fields, too_late_after_s=None)

    rig = Rig(tmp_path, {"reminder": daily})
    rig.plan("a", NOON)
    for days in range(4):
        assert rig.sweep_at(NOON + timedelta(days=days)) == Swept(done=1)

    assert spoken(rig) == ["a"] * 4
    assert rig.count("open") == 1


def test_a_batch_costs_a_few_statements(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """However many are due: their messages are written together, and so are their next times."""
    monkeypatch.setattr("bot.clock.sweep.BATCH_FOR_S", 60.0)  # a busy machine makes no more batches of it

    def remind(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
        say(uow, fields, row, now)
        uow.outbox.put(7, "reminder", fields, key=f"reminder:{row.key}")
        uow.due.cancel_all(member_id=int(row.key), kind="reminder")
        uow.due.put(
            "reminder", row.key, row.due_at_utc + timedelta(days=1), fields, member_id=int(row.key), too_late_after_s=None
        )

    rig = Rig(tmp_path, {"reminder": remind})
    statements: list[str] = []
    event.listen(rig.engines.write, "before_cursor_execute", lambda *told: statements.append(told[2]))
    counts = []
    for day, many in enumerate((10, BATCH), start=1):
        for number in range(many):
            rig.plan(str(number), NOON + timedelta(days=day))
        statements.clear()
        assert rig.sweep_at(NOON + timedelta(days=day)) == Swept(done=many)
        counts.append(len(statements))

    assert len(spoken(rig)) == 10 + BATCH + BATCH  # each day's; the keyed ones of ten came on the first day already
    assert rig.count("open") == BATCH
    assert counts[1] <= counts[0] + 10, statements


def test_a_long_batch_ends_early_and_the_rest_follows(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever waits for the database waits for one batch; what was counted as tried and had no turn is as if untouched."""
    ticks = iter(range(100_000))
    monkeypatch.setattr("bot.clock.sweep.time.perf_counter", lambda: next(ticks))
    rig = Rig(tmp_path, {"reminder": say}, alone=True)
    for number in range(3 * STEP):
        rig.plan(f"at the start {number}", NOON)
        rig.plan(f"after it {number}", NOON + timedelta(seconds=1))
    batches = []
    transact = rig.sweep._batch

    def counted(now: datetime, swept: Swept) -> bool:
        before = swept.total
        is_more = transact(now, swept)
        batches.append(swept.total - before)
        return is_more

    rig.sweep._batch = counted  # type: ignore[method-assign]
    assert rig.sweep_at(NOON + timedelta(minutes=1)) == Swept(done=6 * STEP)
    assert max(batches) <= 2 * STEP
    assert len(set(spoken(rig))) == 6 * STEP
    with rig.open_uow() as uow:
        attempts = [uow.due.find("reminder", f"at the start {number}").attempts for number in range(3 * STEP)]
    assert attempts == [1] * 3 * STEP


def test_a_kind_that_nobody_knows_is_kept_as_failed_and_stops_nothing(tmp_path: Path) -> None:
    rig = Rig(tmp_path, {"reminder": say})
    rig.plan("a", NOON, kind="from a later version")
    rig.plan("b", NOON)

    assert rig.sweep_at(NOON) == Swept(done=1, failed=1)
    assert rig.count("open") == 1


class Killed(BaseException):
    """Stands for the end of the process: nothing of the program catches it."""


def test_a_deed_that_ends_the_program_is_given_up(tmp_path: Path) -> None:
    begun: list[str] = []

    def poison(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
        begun.append(fields["key"])
        if fields["key"] == "poison":
            raise Killed
        say(uow, fields, row, now)

    rig = Rig(tmp_path, {"reminder": poison}, alone=True)
    rig.plan("poison", NOON)
    rig.plan("a", NOON + timedelta(seconds=1))
    lives = 0
    while rig.count("open"):
        lives += 1
        assert lives < 20
        rig.start()
        with suppress(Killed):
            rig.sweep_at(NOON + timedelta(minutes=1))

    assert begun.count("poison") == MAX_TRIES
    assert begun.count("a") == 1
    assert (spoken(rig), rig.count("failed"), rig.count("done")) == (["a"], 1, 1)


def test_beside_a_deed_that_ends_the_program_all_others_are_done(tmp_path: Path) -> None:
    """Those that wait at a start are tried in one crowd; once it has gone wrong each goes alone."""

    def poison(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
        if fields["key"] == "poison":
            raise Killed
        say(uow, fields, row, now)

    rig = Rig(tmp_path, {"reminder": poison}, alone=True)
    keys = [f"before {number}" for number in range(20)] + ["poison"] + [f"after {number}" for number in range(20)]
    for seconds, key in enumerate(keys):
        rig.plan(key, NOON - timedelta(minutes=1) + timedelta(seconds=seconds))
    lives = 0
    while rig.count("open"):
        lives += 1
        rig.start()
        with suppress(Killed):
            rig.sweep_at(NOON)

    assert lives == MAX_TRIES + 1
    assert sorted(spoken(rig)) == sorted(set(keys) - {"poison"})
    assert (rig.count("failed"), rig.count("done")) == (1, 40)


def test_after_a_missed_time_the_next_one_is_planned(tmp_path: Path) -> None:
    """Missed because the machine was off, or because the deed kept failing."""

    def fails(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
        raise ValueError

    def plan_next(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
        uow.due.put("daily", fields["key"], row.due_at_utc + timedelta(days=30), fields, too_late_after_s=600)

    rig = Rig(tmp_path, {"daily": fails}, missed={"daily": plan_next})
    rig.plan("late", NOON - timedelta(days=1), kind="daily", too_late_after_s=600)
    rig.plan("failing", NOON, kind="daily")
    for minutes in range(600):
        rig.sweep_at(NOON + timedelta(minutes=minutes))

    with rig.open_uow() as uow:
        planned = [
            (key, row.due_at_utc) for key in ("late", "failing") if (row := uow.due.find("daily", key)) and row.state == "open"
        ]
    assert planned == [("late", NOON + timedelta(days=29)), ("failing", NOON + timedelta(days=30))]


def test_the_sweep_of_one_alone_knows_what_is_due_without_looking(tmp_path: Path) -> None:
    rig = Rig(tmp_path, {"reminder": say}, alone=True)
    looks = 0
    look = rig.sweep._look

    def counted() -> datetime | None:
        nonlocal looks
        looks += 1
        return look()

    rig.sweep._look = counted  # type: ignore[method-assign]
    rig.plan("a", NOON + timedelta(hours=5))
    assert [rig.sweep_at(NOON + timedelta(minutes=minutes)) for minutes in range(60)] == [Swept()] * 60
    assert looks == 1

    rig.plan("b", NOON + timedelta(minutes=90))
    assert rig.sweep_at(NOON + timedelta(minutes=89)) == Swept()
    assert rig.sweep_at(NOON + timedelta(minutes=90)) == Swept(done=1)
    assert rig.sweep_at(NOON + timedelta(hours=5)) == Swept(done=1)
    assert spoken(rig) == ["b", "a"]
