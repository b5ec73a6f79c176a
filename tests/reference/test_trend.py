"""Robust slopes against scipy, smallest real change against Hopkins 2000, and how often flat members raise an alarm."""

import random
from datetime import date, timedelta

import pytest
from scipy import stats  # type: ignore[import-untyped]

from bot.training.trend import (
    Gain,
    Point,
    Verdict,
    gain_of,
    has_dropped,
    has_stalled,
    smallest_real_change,
    stall_together,
    theil_sen,
    trend_of,
)

CASES = [
    (range(8), [60, 60.5, 61.5, 55, 62, 63, 63.5, 64]),
    (range(8), [60, 60, 60.5, 59.5, 60, 60.5, 60, 60]),
    (range(6), [50, 49, 49.5, 48, 47.5, 46]),
    ([0, 1, 2, 5, 6], [40, 41, 41.5, 44, 44.5]),
    (range(4), [20, 20, 22, 22]),
]


@pytest.mark.parametrize(("x", "y"), CASES)
def test_the_slope_and_its_interval_are_scipys(x: list[float], y: list[float]) -> None:
    oracle = stats.theilslopes(y, x, 0.95)
    found = theil_sen([float(v) for v in x], [float(v) for v in y])

    assert (found.per_day, found.low, found.high) == pytest.approx((oracle.slope, oracle.low_slope, oracle.high_slope))


def test_two_sessions_need_the_published_smallest_change() -> None:
    """CV 4.2 % gives 11.6 % (1.96 x sqrt 2 x typical error; Hopkins 2000)."""
    assert smallest_real_change([0, 7]) == pytest.approx(0.116, abs=0.0005)


def _flat(chance: random.Random, weeks: int) -> list[Point]:
    return [Point(date(2026, 1, 5) + timedelta(weeks=n), 50 * (1 + chance.gauss(0, 0.042))) for n in range(weeks)]


def test_flat_members_seldom_raise_an_alarm() -> None:
    """2000 simulated flat members, 8 weeks, noise 4.2 %: under 5 % are called better or worse, under 5 % called dropped."""
    chance = random.Random(41)
    members = [_flat(chance, 8) for _ in range(2000)]

    called = sum(trend_of(points).verdict in (Verdict.BETTER, Verdict.WORSE) for points in members)
    dropped = sum(has_dropped(points) for points in members)
    assert called / 2000 < 0.05
    assert dropped / 2000 < 0.05


def _gaining(chance: random.Random, weeks: int, gain: float) -> list[Point]:
    start = date(2026, 1, 5)
    return [Point(start + timedelta(weeks=n), 50 * (1 + gain) ** n * (1 + chance.gauss(0, 0.025))) for n in range(weeks)]


@pytest.mark.parametrize("weeks", [5, 6, 8, 10])
def test_members_who_gain_are_seldom_said_to_stand_still(weeks: int) -> None:
    """1000 simulated members at each length who gain 0.9 % a week, sessions 2.5 % apart by chance: under 5 %."""
    chance = random.Random(43)

    assert sum(has_stalled(gain_of(_gaining(chance, weeks, 0.009))) for _ in range(1000)) / 1000 < 0.05


def test_members_who_stand_still_are_found_more_often_the_longer_they_do() -> None:
    chance = random.Random(44)
    found = [sum(has_stalled(gain_of(_gaining(chance, weeks, 0.0))) for _ in range(1000)) / 1000 for weeks in (4, 6, 8, 10)]

    assert found == sorted(found)
    assert found[0] == 0  # four weekly sessions span three weeks: too short to say
    assert found[3] > 0.5


def test_what_no_lift_shows_by_itself_several_show_together() -> None:
    """Three lifts of one pattern with the same slope of nothing: one is not sure enough, their mean is."""
    still, gaining = Gain(0.0, 0.005), Gain(0.012, 0.005)

    assert not has_stalled(still) and not has_stalled(still, among_others=True)
    assert stall_together([still] * 3)
    assert not stall_together([still, gaining, gaining])
    assert not stall_together([Gain(-0.02, 0.001)])  # one lift is not several


def test_lifts_judged_together_cry_wolf_no_more_often_and_find_more() -> None:
    """Three lifts a member, ten weeks, sessions 2.5 % apart by chance: false alarms stay under 5 % of lifts."""
    chance = random.Random(45)

    def named(gain: float) -> float:
        hits = 0
        for _ in range(400):
            gains = [found for _ in range(3) if (found := gain_of(_gaining(chance, 10, gain))) is not None]
            together = stall_together(gains)
            hits += sum(together or has_stalled(one, among_others=True) for one in gains)
        return hits / 1200

    alone = sum(has_stalled(gain_of(_gaining(chance, 10, 0.0))) for _ in range(1200)) / 1200
    assert named(0.009) < 0.05
    assert named(0.0) > alone + 0.1
