"""What does a sweep cost? 100,000 planned things of which 1,000 are due; then a sweep with nothing due.

python -m tests.bench.bench_sweep
"""

from __future__ import annotations

import asyncio
import logging
import statistics
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from sqlalchemy import insert

from bot.clock.sweep import Sweep
from scenarios.clock import PlayedClock
from storage.due import DueTable
from storage.engine import open_engines, sqlite_url
from storage.migrations import migrate
from storage.unit_of_work import UnitOfWork

NOW = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)
PLANNED, DUE = 100_000, 1_000


async def at_once(work: Callable[..., Any], *given: Any) -> Any:
    return work(*given)


def remind(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
    """What a reminder does: one message, and the next one planned."""
    uow.outbox.put(row.member_id, "reminder", fields, lane="reminder", expires_at_utc=now + timedelta(hours=2))
    uow.due.put(row.kind, row.key, row.due_at_utc + timedelta(days=1), fields, member_id=row.member_id, too_late_after_s=7_200)


def main() -> None:
    logging.disable(logging.CRITICAL)
    with tempfile.TemporaryDirectory() as folder:
        engines = open_engines(sqlite_url(Path(folder) / "bench.sqlite3"))
        migrate(engines.write)
        with engines.write.begin() as connection:
            connection.execute(
                insert(DueTable),
                [
                    {
                        "kind": "reminder", "key": str(n), "member_id": n, "fields": {"n": n}, "too_late_after_s": 7_200, "state": "open",
                        "attempts": 0, "due_at_utc": (at := NOW if n < DUE else NOW + timedelta(hours=2, seconds=n)), "try_at_utc": at,
                    }
                    for n in range(PLANNED)
                ],
            )  # fmt: skip
        clock = PlayedClock(NOW)
        sweep = Sweep(
            open_uow=lambda: UnitOfWork(engines, clock.now), in_database=at_once, deeds={"reminder": remind}, clock=clock
        )
        begun = time.perf_counter()
        swept = asyncio.run(sweep.once())
        took = time.perf_counter() - begun
        print(
            f"{swept.done} due of {PLANNED}: {took * 1_000:.0f} ms, {took / max(1, swept.done) * 1e6:.0f} us each, message and next time included"
        )
        idle = []
        for _ in range(200):
            begun = time.perf_counter()
            assert asyncio.run(sweep.once()).total == 0
            idle.append(time.perf_counter() - begun)
        print(f"nothing due: {statistics.median(idle) * 1e6:.0f} us median of {len(idle)} (an event loop started for each)")
        engines.close()


if __name__ == "__main__":
    main()
