"""A whole year of reminders lived by the whole program in eight zones, with moves to other zones, absences, other days and times on the way.

python -m tests.bench.bench_year
It checks as it measures: any reminder that is missing, doubled or at a wrong minute is named, and the exit code is 1.
"""

from __future__ import annotations

import logging
import sys
import time as stopwatch
from datetime import UTC, date, datetime, time

from tests.builders.stage import Stage, staged
from tests.builders.year import Life, live_until, lives_in

END = date(2027, 3, 1)
WRONG: list[str] = []


async def _until(stage: Stage, lives: dict[str, Life], *moment: int) -> None:
    await live_until(stage, lives, datetime(*moment, tzinfo=UTC))


async def _live(stage: Stage, lives: dict[str, Life]) -> None:
    """The year, with what some of them wish on the way. A wish is said at noon UTC of its date."""
    await _until(stage, lives, 2026, 5, 5, 12)
    await lives["Lisbon"].person.says("i've moved to Denver")
    await lives["Lisbon"].person.presses(lives["Lisbon"].person.last.labels[0])
    lives["Lisbon"].zones.append((date(2026, 5, 5), "America/Denver"))
    await _until(stage, lives, 2026, 6, 2, 12)
    await lives["New York"].person.says("remind me an hour earlier")
    lives["New York"].times.append((date(2026, 6, 2), time(16, 30)))
    await lives["Kolkata"].person.says("away from 8 june to 28 june")
    lives["Kolkata"].away.append((date(2026, 6, 8), date(2026, 6, 28)))
    await _until(stage, lives, 2026, 9, 1, 12)
    await lives["Auckland"].person.says("i train tue thu sat from next week")
    lives["Auckland"].weekdays.append((date(2026, 9, 7), (1, 3, 5)))
    await lives["Denver"].person.says("pause for two weeks")
    lives["Denver"].away.append((date(2026, 9, 1), date(2026, 9, 14)))
    await _until(stage, lives, 2026, 11, 3, 12)
    await lives["Sao Paulo"].person.says("ive moved to Adelaide")
    await lives["Sao Paulo"].person.presses(lives["Sao Paulo"].person.last.labels[0])
    lives["Sao Paulo"].zones.append((date(2026, 11, 3), "Australia/Adelaide"))
    await _until(stage, lives, END.year, END.month, END.day)


@staged()
async def year(stage: Stage) -> None:
    lives = await lives_in(stage)
    joined = stage.clock.now()
    begun = stopwatch.perf_counter()
    await _live(stage, lives)
    took = stopwatch.perf_counter() - begun
    ended = datetime(END.year, END.month, END.day, tzinfo=UTC)
    total = 0
    for place, life in lives.items():
        expected = [at for at in life.expected(END, joined) if at < ended]
        heard = life.heard()
        total += len(heard)
        if heard != expected:
            missing, extra = sorted(set(expected) - set(heard)), sorted(set(heard) - set(expected))
            first = ", ".join(f"{at:%d %b %Y %H:%M}" for at in (missing + extra)[:3])
            WRONG.append(f"{place}: {len(missing)} missing, {len(extra)} unexpected (UTC: {first})")
    print(f"{total} reminders of {len(lives)} members in a year: {len(WRONG)} members with a wrong one; lived in {took:.1f} s")
    print("\n".join(WRONG))


def main() -> int:
    logging.disable(logging.CRITICAL)
    year()
    return 1 if WRONG else 0


if __name__ == "__main__":
    sys.exit(main())
