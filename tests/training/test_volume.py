"""Weekly sets in three ways of counting, and how long a day takes, by hand."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from bot.training.blocks import Block, Day, Drop, ExerciseId, Measure, Partials, Rest, SetKind, SetTarget, Sides, Slot
from bot.training.exercises.catalogue import load_catalogue
from bot.training.tempo import parse_tempo
from bot.training.volume import days_a_week, hard_sets, session_minutes, session_seconds, weekly_sets

CATALOGUE = load_catalogue()
TEN = SetTarget(10, 10, tempo=parse_tempo("2-0-2-0"))
FOUR_A_REP = parse_tempo("2-0-2-0")


def _slot(
    label: str, sets: tuple[SetTarget, ...], *, rest: int | None = None, sides: Sides = Sides.BOTH, exercise: str = ""
) -> Slot:
    return Slot(
        label, "x", sets, ExerciseId(exercise) if exercise else None, sides, rest=None if rest is None else Rest(rest, rest)
    )


def test_the_worked_example_of_a_session_takes_38_minutes() -> None:
    """Five exercises of 3 x 10 at 2-0-2-0: 600 s of work, 900 s of rest, 480 s between exercises, 300 s of warm-up.

    Plain arithmetic; no published standard was found.
    """
    day = Day(1, "", tuple(_slot(f"{letter}1", (TEN,) * 3, rest=90) for letter in "ABCDE"), ("five minutes",))

    low, high = session_seconds(day, transition_s=(120, 120), warm_up_s=(300, 300))

    assert (low, high) == (2280, 2280)


# What one set, or one group, takes in seconds: (low, high), nothing between or before it.
ALONE = {
    "a tempo": (_slot("A1", (TEN,)), (40, 40)),
    "a rep without a tempo is two to four seconds": (_slot("A1", (SetTarget(10, 10),)), (20, 40)),
    "a range": (_slot("A1", (SetTarget(8, 12, tempo=FOUR_A_REP),)), (32, 48)),
    "both sides take twice the time": (_slot("A1", (TEN,), sides=Sides.EACH), (80, 80)),
    "the catalogue knows what is done side by side": (_slot("A1", (TEN,), exercise="split_squat"), (80, 80)),
    "a hold": (_slot("A1", (SetTarget(30, 45, Measure.SECONDS),)), (30, 45)),
    "an open hold": (_slot("A1", (SetTarget(measure=Measure.SECONDS, amrap=True),)), (20, 60)),
    "a drop": (_slot("A1", (SetTarget(10, 10, tempo=FOUR_A_REP, drops=(Drop(20),)),)), (55, 80)),
    "partial reps take half": (_slot("A1", (SetTarget(10, 10, tempo=FOUR_A_REP, partials=Partials(4, "top")),)), (48, 48)),
    "no rest after the last set": (_slot("A1", (TEN, TEN), rest=60), (140, 140)),
    "no rest said": (_slot("A1", (TEN, TEN)), (140, 200)),
    "intervals": (_slot("A1", (SetTarget(20, 20, Measure.SECONDS),) * 4, rest=40), (200, 200)),
    "a rest of none": (_slot("A1", (TEN, TEN), rest=0), (80, 80)),
}


@pytest.mark.parametrize("name", ALONE)
def test_a_slot_takes_the_time_of_its_work_and_its_rests(name: str) -> None:
    slot, seconds = ALONE[name]
    assert session_seconds(Day(1, "", (slot,)), CATALOGUE, warm_up_s=(0, 0)) == seconds


def test_a_superset_rests_after_its_last_exercise_only() -> None:
    """Two rounds of 40 s and 40 s, ten to thirty seconds from one to the other, 90 s after the round."""
    day = Day(1, "", (_slot("A1", (TEN, TEN)), _slot("A2", (TEN, TEN), rest=90)))
    assert session_seconds(day, CATALOGUE, warm_up_s=(0, 0)) == (160 + 20 + 90, 160 + 60 + 90)


def test_minutes_are_whole_and_never_promise_too_little() -> None:
    assert session_minutes(Day(1, "", (_slot("A1", (TEN,)),)), CATALOGUE) == (0, 6)
    assert session_minutes(Day(1, "", ()), CATALOGUE) == (0, 0)


@pytest.mark.parametrize(
    ("target", "hard"),
    [
        (SetTarget(8, 10), True),
        (SetTarget(8, 10, kind=SetKind.WARM_UP), False),
        (SetTarget(8, 10, rir=Decimal(4)), True),
        (SetTarget(8, 10, rir=Decimal(5)), False),
        (SetTarget(8, 10, rpe=Decimal("5.5")), True),
        (SetTarget(8, 10, rpe=Decimal(5)), False),
        (SetTarget(amrap=True, kind=SetKind.BURNOUT), True),
    ],
)
def test_warm_ups_and_sets_far_from_failure_are_not_hard(target: SetTarget, hard: bool) -> None:
    assert hard_sets(_slot("A1", (target,))) == int(hard)


@pytest.mark.parametrize(
    ("days", "rhythm", "often"),
    [
        (3, "1010100", Fraction(1)),
        (2, "1010100", Fraction(3, 2)),
        (2, "110", Fraction(7, 3)),
        (5, "1110110", Fraction(1)),
        (0, "1", Fraction(0)),
    ],
)
def test_how_often_a_day_comes_round_follows_from_the_rhythm(days: int, rhythm: str, often: Fraction) -> None:
    block = Block("", tuple(Day(n, "", ()) for n in range(1, days + 1)), rhythm=tuple(sign == "1" for sign in rhythm))
    assert days_a_week(block) == often


def test_both_exercises_of_a_superset_count_and_sides_are_one_set() -> None:
    slots = (
        _slot("A1", (TEN,) * 3, exercise="split_squat", sides=Sides.EACH),
        _slot("A2", (TEN,) * 3, exercise="goblet_squat"),
        _slot("B1", (TEN,) * 2, exercise="cat_cow"),  # moving a joint through its range is no hard set
    )
    found = weekly_sets(Block("", (Day(1, "", slots),), rhythm=(True, *(False,) * 6)), CATALOGUE)
    assert found.direct["quadriceps"] == 6
    assert set(found.direct) == set(found.fractional) == set(found.total)
