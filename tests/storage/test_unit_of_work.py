"""All of a deed or nothing."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

import pytest

from storage.engine import Engines
from storage.outbox import OutboxRow
from storage.unit_of_work import UnitOfWork


def test_what_is_not_committed_did_not_happen(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        uow.outbox.put(7, "x", {})
        uow.due.put("reminder", "7", noon, {}, too_late_after_s=None)
    with pytest.raises(RuntimeError), UnitOfWork(engines, lambda: noon) as uow:
        uow.inbox.store([{"update_id": 1}])
        raise RuntimeError

    with UnitOfWork(engines, lambda: noon, reads=True) as uow:
        assert (uow.outbox.count("waiting"), uow.due.count("open"), uow.inbox.count("waiting")) == (0, 0, 0)


def test_the_sender_is_told_after_the_commit(engines: Engines, noon: datetime) -> None:
    told: list[int] = []

    def look(rows: Sequence[OutboxRow]) -> None:
        with UnitOfWork(engines, lambda: noon, reads=True) as other:
            told.append(other.outbox.count("waiting"))
        assert [other.outbox.get(row.id) for row in rows] == list(rows)

    with UnitOfWork(engines, lambda: noon, on_queued=look) as uow:
        uow.outbox.put(7, "x", {})
        assert told == []
        uow.commit()
        uow.commit()
    with UnitOfWork(engines, lambda: noon, on_queued=look) as uow:
        uow.due.put("reminder", "7", noon, {}, too_late_after_s=None)
        uow.commit()

    assert told == [1]


def test_a_part_that_fails_is_undone_alone(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        first = uow.outbox.put(7, "x", {})
        with pytest.raises(RuntimeError), uow.savepoint():
            uow.outbox.put(7, "y", {})
            raise RuntimeError
        with uow.savepoint():
            third = uow.outbox.put(7, "z", {})
        assert [row.id for row in uow.outbox.new] == [first, third]
        uow.commit()

    with UnitOfWork(engines, lambda: noon, reads=True) as uow:
        rows = uow.outbox.waiting(noon, lanes=range(5), held=(), full=(), limit=9)
        assert [(row.kind, row.id) for row in rows] == [("x", first), ("z", third)]


def test_what_is_gathered_is_seen_and_undone(engines: Engines, noon: datetime) -> None:
    """Gathering is about cost alone: whoever looks sees the rows, and a part that fails takes its own along."""
    with UnitOfWork(engines, lambda: noon) as uow:
        with uow.gathered(5):
            first = uow.outbox.put(7, "x", {}, key="k")
            assert [row.id for row in (uow.outbox.find("k"), uow.outbox.get(first)) if row] == [first, first]
            uow.due.put("reminder", "7", noon, {}, too_late_after_s=None)
            assert uow.due.find("reminder", "7") is not None
            second = uow.outbox.put(8, "x", {})
            with pytest.raises(RuntimeError), uow.savepoint():
                uow.outbox.put(7, "y", {})
                uow.due.put("reminder", "8", noon, {}, too_late_after_s=None)
                raise RuntimeError
            third = uow.outbox.put(-5, "z", {})
            uow.rewrite_chat_id(-5, -1005)
        assert [row.id for row in uow.outbox.new] == [first, second, third]
        uow.commit()

    with UnitOfWork(engines, lambda: noon, reads=True) as uow:
        rows = uow.outbox.waiting(noon, lanes=range(5), held=(), full=(), limit=9)
        assert [(row.id, row.chat_id) for row in rows] == [(first, 7), (second, 8), (third, -1005)]
        assert [uow.due.find("reminder", key) is not None for key in "78"] == [True, False]


def test_a_gathering_that_fails_leaves_nothing(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        with pytest.raises(RuntimeError), uow.savepoint(), uow.gathered(5):
            uow.outbox.put(7, "x", {})
            uow.due.put("reminder", "7", noon, {}, too_late_after_s=None)
            raise RuntimeError
        last = uow.outbox.put(8, "x", {})
        assert [row.id for row in uow.outbox.new] == [last]
        uow.commit()

    with UnitOfWork(engines, lambda: noon, reads=True) as uow:
        assert (uow.outbox.count("waiting"), uow.due.count("open")) == (1, 0)


def test_a_moved_group_keeps_its_rows(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        uow.outbox.put(-5, "x", {})
        uow.outbox.put(7, "x", {})
        uow.inbox.store([{"update_id": 1, "message": {"chat": {"id": -5}}}])
        uow.rewrite_chat_id(-5, -1005)
        uow.commit()

    with UnitOfWork(engines, lambda: noon, reads=True) as uow:
        assert [row.chat_id for row in uow.outbox.waiting(noon, lanes=range(5), held=(), full=(), limit=9)] == [-1005, 7]
        assert [row.chat_id for row in uow.inbox.waiting(limit=9)] == [-1005]


def test_a_subclass_hangs_its_own_repositories_on_it(engines: Engines, noon: datetime) -> None:
    class Wider(UnitOfWork):
        def attach(self) -> None:
            self.bound_to = self.session

    with Wider(engines, lambda: noon) as uow:
        assert uow.bound_to is uow.session
