"""Five weeks lived by the whole program: a spring change early in March, an autumn one with half-hours in April, none at all.

The whole year in eight zones, with wishes on the way: python -m tests.bench.bench_year.
"""

from __future__ import annotations

from datetime import UTC, date, datetime

from tests.builders.stage import Stage, staged
from tests.builders.year import live_until, lives_in


@staged()
async def test_each_member_is_reminded_once_a_training_day_at_the_wall_time_across_clock_changes(stage: Stage) -> None:
    lives = await lives_in(stage, ("New York", "Adelaide", "Kolkata"))
    joined = stage.clock.now()

    await live_until(stage, lives, datetime(2026, 4, 8, 0, 0, tzinfo=UTC))

    for place, life in lives.items():
        expected = [at for at in life.expected(date(2026, 4, 8), joined) if at < datetime(2026, 4, 8, tzinfo=UTC)]
        assert life.heard() == expected, place
