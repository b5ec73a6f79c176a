"""Words about the order of coming sessions: two hard leg days back to back, and the first session after an absence."""

from __future__ import annotations

from datetime import date

import pytest

from bot.training.blocks import Block, Day, ExerciseId, SetTarget, Slot
from bot.training.exercises.catalogue import load_catalogue
from bot.training.order_rules import is_easing_in, remarks
from bot.training.plan import PlannedSession

CATALOGUE = load_catalogue()


def _day(number: int, exercise: str, sets: int) -> Day:
    return Day(number, "", (Slot("A1", exercise, (SetTarget(8, 8),) * sets, ExerciseId(exercise)),))


def _said(first: Day, second: Day, dates: tuple[int, int]) -> tuple[str, ...]:
    sessions = [PlannedSession(date(2026, 3, day), number) for number, day in enumerate(dates, 1)]
    return remarks(sessions, Block("Block", (first, second)), CATALOGUE)


@pytest.mark.parametrize(
    ("first", "second", "dates", "speaks"),
    [
        (("goblet_squat", 6), ("romanian_deadlift", 6), (3, 4), True),
        (("goblet_squat", 6), ("romanian_deadlift", 6), (3, 5), False),  # a day between
        (("goblet_squat", 6), ("romanian_deadlift", 5), (3, 4), False),  # not hard
        (("goblet_squat", 6), ("bench_press", 9), (3, 4), False),  # not the legs
    ],
)
def test_two_hard_leg_days_back_to_back_are_remarked(
    first: tuple[str, int], second: tuple[str, int], dates: tuple[int, int], speaks: bool
) -> None:
    found = _said(_day(1, *first), _day(2, *second), dates)
    assert found == (("Day 1 and day 2 are both hard on the legs and now back to back.",) if speaks else ())


@pytest.mark.parametrize(
    ("done", "easing"),
    [
        ((date(2026, 2, 18),), True),  # 14 days: two weeks (Caterisano et al. 2019)
        ((date(2026, 2, 19),), False),
        ((date(2026, 1, 5), date(2026, 3, 2)), True),  # eight weeks away, two days after the return
        ((date(2026, 2, 1), date(2026, 2, 25), date(2026, 2, 28)), True),  # 24 days away: twelve easy days
        ((date(2026, 2, 1), date(2026, 2, 19), date(2026, 2, 28)), False),  # 18 days away: nine easy days are over
        (
            (date(2025, 9, 1), date(2026, 2, 4), date(2026, 2, 15), date(2026, 2, 26)),
            False,
        ),  # however long away, four weeks are enough
        ((date(2025, 9, 1), date(2026, 2, 5), date(2026, 2, 15), date(2026, 2, 26)), True),  # the last of the four weeks
        ((), False),  # never trained is not coming back
        ((date(2026, 3, 9),), False),  # only later ones
    ],
)
def test_training_is_easy_for_half_as_long_as_the_absence_one_to_four_weeks(done: tuple[date, ...], easing: bool) -> None:
    assert is_easing_in(done, date(2026, 3, 4)) is easing
