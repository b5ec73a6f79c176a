"""How the database is opened: safe against a power cut, writers in turn, readers that cannot write."""

from __future__ import annotations

import threading
from datetime import datetime

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from storage.base import NaiveMoment
from storage.engine import Engines, try_to_lead
from storage.unit_of_work import UnitOfWork


def test_the_file_is_opened_for_safety(engines: Engines) -> None:
    """Values: SQLite pragma documentation; synchronous 2 is FULL."""
    if not engines.is_sqlite:
        pytest.skip("pragmas are SQLite's")
    with engines.write.begin() as connection:
        found = [
            connection.execute(text(f"PRAGMA {name}")).scalar()
            for name in ("journal_mode", "synchronous", "foreign_keys", "busy_timeout")
        ]

    assert found == ["wal", 2, 1, 10_000]


def test_two_writers_take_turns(engines: Engines, noon: datetime) -> None:
    """Read, then write, from two threads that start together: with a deferred transaction nearly all of these fail."""
    meet = threading.Barrier(2)
    failures: list[BaseException] = []

    def add_one_by_one() -> None:
        meet.wait()
        try:
            for _ in range(25):
                with UnitOfWork(engines, lambda: noon) as uow:
                    uow.session.execute(text("UPDATE outbox SET attempts = attempts + 1 WHERE id = 1"))
                    uow.outbox.count("waiting")
                    uow.commit()
        except BaseException as error:
            failures.append(error)

    with UnitOfWork(engines, lambda: noon) as uow:
        uow.outbox.put(7, "hello", {})
        uow.commit()
    threads = [threading.Thread(target=add_one_by_one) for _ in range(2)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    with UnitOfWork(engines, lambda: noon, reads=True) as uow:
        row = uow.outbox.get(1)
    assert failures == []
    assert row is not None
    assert row.attempts == 50


def test_the_reading_engine_cannot_write(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon, reads=True) as uow, pytest.raises(DBAPIError):
        uow.outbox.put(7, "hello", {})


def test_a_moment_without_a_zone_is_refused(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow, pytest.raises(Exception, match="needs a zone") as caught:
        uow.due.put("reminder", "7", datetime(2026, 3, 2, 12, 0), {}, too_late_after_s=None)  # noqa: DTZ001

    assert isinstance(caught.value, NaiveMoment) or isinstance(caught.value.__cause__, NaiveMoment)


def test_one_program_leads_until_it_lets_go(engines: Engines) -> None:
    if engines.is_sqlite:
        pytest.skip("one program has the file")
    first = try_to_lead(engines)
    assert first is not None
    assert try_to_lead(engines) is None
    first.close()
    engines.read.dispose()
    again = try_to_lead(engines)
    assert again is not None
    again.close()
