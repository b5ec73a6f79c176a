"""What the due list promises: planned once, done once, and a worker of its own for each row."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest
from sqlalchemy import event

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


def test_many_plans_are_written_in_few_statements(engines: Engines, noon: datetime) -> None:
    """The same comes of it as of one by one: cancelled first, then planned; what has happened stays so."""
    with UnitOfWork(engines, lambda: noon) as uow:
        for number in range(3):
            uow.due.put("reminder", f"{number}:old", noon + HOUR, {}, member_id=number, too_late_after_s=None)
        uow.due.put("reminder", "1:done", noon, {}, member_id=1, too_late_after_s=None)
        uow.due.done_all([row.id for row in uow.due.claim(noon, 9)], noon)
        uow.commit()

    statements: list[str] = []
    event.listen(engines.write, "before_cursor_execute", lambda *told: statements.append(told[2]))
    with UnitOfWork(engines, lambda: noon) as uow, uow.gathered(9):
        for number in range(2):
            uow.due.cancel_all(member_id=number, kind="reminder")
            uow.due.put("reminder", f"{number}:new", noon + 2 * HOUR, {"n": number}, member_id=number, too_late_after_s=None)
        uow.due.put("reminder", "1:done", noon, {}, member_id=1, too_late_after_s=None)
        assert [word for word in statements if "due" in word] == []
        uow.commit()
    assert len([word for word in statements if "due" in word]) == 2

    with UnitOfWork(engines, lambda: noon, reads=True) as uow:
        planned = {number: [row.key for row in uow.due.of_member(number)] for number in range(3)}
        assert planned == {0: ["0:new"], 1: ["1:new"], 2: ["2:old"]}
        assert uow.due.count("done") == 1


def test_what_is_gathered_twice_and_cancelled_between_ends_as_said_last(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        with uow.gathered(9):
            uow.due.put("reminder", "a", noon + HOUR, {"n": 1}, member_id=7, too_late_after_s=None)
            uow.due.put("reminder", "a", noon + 2 * HOUR, {"n": 2}, member_id=7, too_late_after_s=None)
            uow.due.put("reminder", "b", noon + HOUR, {}, member_id=7, too_late_after_s=None)
            uow.due.cancel_all(member_id=7, kind="reminder")
            uow.due.put("reminder", "a", noon + 3 * HOUR, {"n": 3}, member_id=7, too_late_after_s=None)
        uow.commit()

    with UnitOfWork(engines, lambda: noon, reads=True) as uow:
        assert [(row.key, row.due_at_utc, row.fields) for row in uow.due.of_member(7)] == [("a", noon + 3 * HOUR, {"n": 3})]


def test_a_counted_try_is_one_workers_alone(engines: Engines, noon: datetime) -> None:
    """Two workers see the same row; it is counted once, and left alone until the set-off is over."""
    with UnitOfWork(engines, lambda: noon) as uow:
        uow.due.put("reminder", "7", noon, {}, too_late_after_s=None)
        uow.commit()
    with UnitOfWork(engines, lambda: noon) as uow:
        (row,) = uow.due.claim(noon, 9)

    counted = []
    for _ in range(2):
        with UnitOfWork(engines, lambda: noon) as uow:
            counted.append(uow.due.count_tries([row.id], noon, noon + HOUR))
            uow.commit()

    assert counted == [{row.id}, set()]
    with UnitOfWork(engines, lambda: noon) as uow:
        assert [list(uow.due.claim(noon, 9)), [one.attempts for one in uow.due.claim(noon + HOUR, 9)]] == [[], [1]]
        uow.due.uncount([row.id], noon)
        assert [one.attempts for one in uow.due.claim(noon, 9)] == [0]
