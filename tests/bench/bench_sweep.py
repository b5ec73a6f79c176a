"""What does a sweep cost? 100,000 planned things of which 1,000 are due; then a sweep with nothing due; then real reminders.

python -m tests.bench.bench_sweep
SQLite in a temporary folder; PostgreSQL as well where COMPANION_TEST_POSTGRES names an empty database (its public schema is made anew).
"""

from __future__ import annotations

import asyncio
import logging
import os
import statistics
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from sqlalchemy import insert, text

from bot.clock.sweep import Sweep
from scenarios.clock import PlayedClock
from storage.due import DueTable
from storage.engine import Engines, open_engines, sqlite_url
from storage.migrations import migrate
from storage.unit_of_work import UnitOfWork
from tests.builders.crowd import crowd_like
from tests.builders.stage import Stage, staged

NOW = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)
PLANNED, DUE = 100_000, 1_000
ROUNDS, IDLE = 5, 200
REMINDED = 500


@staged()
async def real_reminders(stage: Stage) -> None:
    """The reminder as members get it: their plan, their block, their swaps read, and the next one planned."""
    crowd_like(stage, await stage.member("Mira"), REMINDED - 1)
    at = await stage.program.sweep.next_at()
    assert at is not None
    await stage.clock.advance_to(at)
    begun = time.perf_counter()
    swept = await stage.program.sweep.once()
    took = time.perf_counter() - begun
    assert swept.done == REMINDED, swept
    print(f"SQLite: {REMINDED} real reminders at one moment: {took * 1_000:.0f} ms, {took * 1e6 / REMINDED:.0f} us each")


async def at_once(work: Callable[..., Any], *given: Any) -> Any:
    return work(*given)


def remind(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
    """What a reminder does: one message, and the next one planned."""
    uow.outbox.put(row.member_id, "reminder", fields, lane="reminder", expires_at_utc=now + timedelta(hours=2))
    uow.due.put(row.kind, row.key, row.due_at_utc + timedelta(days=1), fields, member_id=row.member_id, too_late_after_s=7_200)


def _plan(engines: Engines) -> None:
    """100,000 members; a thousand of them due on each of the days that follow, so that every round finds as many."""
    rows = [
        {
            "kind": "reminder", "key": str(n), "member_id": n, "fields": {"n": n}, "too_late_after_s": 7_200, "state": "open",
            "attempts": 0, "due_at_utc": (at := NOW if n < DUE else NOW + timedelta(days=30, seconds=n)), "try_at_utc": at,
        }
        for n in range(PLANNED)
    ]  # fmt: skip
    with engines.write.begin() as connection:
        connection.execute(insert(DueTable), rows)


def measure(engines: Engines, name: str) -> None:
    """Print the medians of a few full sweeps and of many idle ones."""
    _plan(engines)
    clock = PlayedClock(NOW)
    sweep = Sweep(
        open_uow=lambda **how: UnitOfWork(engines, clock.now, **how), in_database=at_once, deeds={"reminder": remind}, clock=clock
    )
    full: list[float] = []
    worked: list[float] = []
    for turn in range(ROUNDS):
        asyncio.run(clock.advance_to(NOW + timedelta(days=turn)))
        begun, worked_before = time.perf_counter(), time.process_time()
        swept = asyncio.run(sweep.once())
        full.append(time.perf_counter() - begun)
        worked.append(time.process_time() - worked_before)
        assert swept.done == DUE, swept
    idle: list[float] = []
    for _ in range(IDLE):
        begun = time.perf_counter()
        assert asyncio.run(sweep.once()).total == 0
        idle.append(time.perf_counter() - begun)
    each = ", ".join(f"{took * 1_000:.0f}" for took in full)
    print(
        f"{name}: {DUE} due of {PLANNED}: median {statistics.median(full) * 1_000:.0f} ms ({each}), "
        f"{statistics.median(worked) * 1_000:.0f} ms of it this process's own work; message and next time included"
    )
    print(f"{name}: nothing due: median {statistics.median(idle) * 1e6:.0f} us of {IDLE} (an event loop started for each)")


def main() -> None:
    logging.disable(logging.CRITICAL)
    with tempfile.TemporaryDirectory() as folder:
        engines = open_engines(sqlite_url(Path(folder) / "bench.sqlite3"))
        migrate(engines.write)
        measure(engines, "SQLite")
        engines.close()
    real_reminders()
    url = os.environ.get("COMPANION_TEST_POSTGRES", "")
    if not url:
        print("PostgreSQL: not measured; COMPANION_TEST_POSTGRES names no database")
        return
    engines = open_engines(url)
    with engines.write.begin() as connection:
        connection.execute(text("DROP SCHEMA public CASCADE"))
        connection.execute(text("CREATE SCHEMA public"))
    migrate(engines.write)
    measure(engines, "PostgreSQL")
    engines.close()


if __name__ == "__main__":
    main()
