"""Seven weeks lived by the whole program in eight zones: two spring changes, two autumn ones, half-hour zones, one without any change."""

from __future__ import annotations

from datetime import UTC, date, datetime

from tests.builders.stage import Stage, staged
from tests.builders.year import eight_lives


@staged()
async def test_each_member_is_reminded_once_a_training_day_at_the_wall_time_across_clock_changes(stage: Stage) -> None:
    lives = await eight_lives(stage)
    joined = stage.clock.now()

    await stage.program.live_until(datetime(2026, 4, 20, 0, 0, tzinfo=UTC))

    for place, life in lives.items():
        expected = [at for at in life.expected(date(2026, 4, 20), joined) if at < datetime(2026, 4, 20, tzinfo=UTC)]
        assert life.heard() == expected, place
