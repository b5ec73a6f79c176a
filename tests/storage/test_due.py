"""What the due list promises: planned once, done once, and a worker of its own for each row."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from storage.due import DueRow
from storage.engine import Engines
from storage.unit_of_work import UnitOfWork

HOUR = timedelta(hours=1)


def test_a_planned_thing_is_planned_once(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        for hours in (1, 2, 1):
            assert uow.due.put("reminder", "7:2026-03-02", noon + hours * HOUR, {"h": hours}, member_id=7, too_late_after_s=600)

        assert uow.due.claim(noon + HOUR, 10) == [
            DueRow(uow.due.claim(noon + HOUR, 1)[0].id, "reminder", "7:2026-03-02", noon + HOUR, {"h": 1}, 7, 600, 0)
        ]


def test_what_has_happened_stays_so(engines: Engines, noon: datetime) -> None:
    """The same moment again is the same thing; a later one is its next time."""
    with UnitOfWork(engines, lambda: noon) as uow:
        uow.due.put("rest_over", "7", noon, {}, too_late_after_s=60)
        uow.due.done(uow.due.claim(noon, 1)[0].id, noon)

        assert not uow.due.put("rest_over", "7", noon, {}, too_late_after_s=60)
        assert not uow.due.put("rest_over", "7", noon - HOUR, {}, too_late_after_s=60)
        assert uow.due.claim(noon + HOUR, 9) == []
        assert uow.due.put("rest_over", "7", noon + timedelta(seconds=90), {}, too_late_after_s=60)
        assert [row.due_at_utc for row in uow.due.claim(noon + HOUR, 9)] == [noon + timedelta(seconds=90)]


def test_what_is_due_comes_oldest_first_and_nothing_else_comes(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        for key, moment in (("b", noon), ("c", noon + timedelta(microseconds=1)), ("a", noon - HOUR)):
            uow.due.put("reminder", key, moment, {}, too_late_after_s=None)

        assert [row.key for row in uow.due.claim(noon, 9)] == ["a", "b"]
        assert [row.key for row in uow.due.claim(noon, 1)] == ["a"]
        assert uow.due.next_due_at() == noon - HOUR


def test_what_is_taken_back_does_not_come(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        for member in (7, 8):
            for kind in ("reminder", "weekly"):
                uow.due.put(kind, str(member), noon, {}, member_id=member, too_late_after_s=None)

        assert [uow.due.cancel("reminder", "7"), uow.due.cancel("reminder", "7")] == [True, False]
        assert uow.due.cancel_all(member_id=7) == 1
        assert uow.due.cancel_all(member_id=8, kind="weekly") == 1
        assert [(row.kind, row.key) for row in uow.due.claim(noon, 9)] == [("reminder", "8")]
        assert uow.due.cancel_all(kind="reminder") == 1
        with pytest.raises(ValueError, match="a member or a kind"):
            uow.due.cancel_all()


def test_a_cancelled_thing_may_be_planned_again(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        uow.due.put("reminder", "7", noon, {}, too_late_after_s=None)
        uow.due.cancel("reminder", "7")

        assert uow.due.put("reminder", "7", noon, {}, too_late_after_s=None)
        assert len(uow.due.claim(noon, 9)) == 1


def test_a_failed_thing_waits_for_its_next_try_and_is_given_up_without_one(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        uow.due.put("weekly", "7", noon, {}, too_late_after_s=None)
        row = uow.due.claim(noon, 1)[0]
        uow.due.count_try(row.id)
        uow.due.try_again(row.id, noon + HOUR, "ValueError")

        assert uow.due.claim(noon + HOUR - timedelta(seconds=1), 9) == []
        assert uow.due.next_due_at() == noon + HOUR
        assert [(again.attempts, again.due_at_utc) for again in uow.due.claim(noon + HOUR, 9)] == [(1, noon)]
        uow.due.give_up(row.id, noon + HOUR, "ValueError")
        assert (uow.due.claim(noon + 9 * HOUR, 9), uow.due.count("failed"), uow.due.next_due_at()) == ([], 1, None)


def test_two_workers_never_share_a_row(engines: Engines, noon: datetime) -> None:
    if engines.is_sqlite:
        pytest.skip("SQLite has one writer at a time")
    with UnitOfWork(engines, lambda: noon) as uow:
        for number in range(8):
            uow.due.put("reminder", str(number), noon, {}, too_late_after_s=None)
        uow.commit()

    with UnitOfWork(engines, lambda: noon) as one, UnitOfWork(engines, lambda: noon) as other:
        assert [row.key for row in one.due.claim(noon, 4)] == ["0", "1", "2", "3"]
        assert [row.key for row in other.due.claim(noon, 9)] == ["4", "5", "6", "7"]


def test_erasing_a_member_leaves_nothing_planned_or_done(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        for key in ("a", "b"):
            uow.due.put("reminder", key, noon, {}, member_id=7, too_late_after_s=None)
        uow.due.done(uow.due.claim(noon, 1)[0].id, noon)

        assert [row.key for row in uow.due.of_member(7)] == ["b"]
        assert uow.due.erase(7) == 2


def test_finished_rows_are_forgotten_after_sixty_days(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        uow.due.put("reminder", "a", noon, {}, too_late_after_s=None)
        uow.due.put("reminder", "b", noon, {}, too_late_after_s=None)
        uow.due.drop(uow.due.claim(noon, 1)[0].id, noon, "late")

        assert uow.due.forget_finished(noon + timedelta(days=60)) == 0
        assert uow.due.forget_finished(noon + timedelta(days=61)) == 1
        assert uow.due.count("open") == 1
