"""Robust slopes against scipy, smallest real change against Hopkins 2000, and how often flat members raise an alarm."""

import random
from datetime import date, timedelta

import pytest
from scipy import stats  # type: ignore[import-untyped]

from bot.training.trend import Point, Verdict, has_dropped, smallest_real_change, theil_sen, trend_of

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
