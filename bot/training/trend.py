"""Is somebody getting better, or is it noise? A robust slope over real time, held against the smallest real change.

Slope: Theil-Sen, the median of all slopes between two sessions (Theil 1950; Sen 1968, JASA 63:1379-1389), x in days, so a gap of two
weeks counts as two weeks; its interval from Kendall's S with ties (as scipy's theilslopes, the oracle of the reference test).
Smallest real change: what a repeated test differs by for nothing. For two tests it is 1.96 * sqrt(2) * typical error (Hopkins 2000,
Weir 2005); over many sessions the ends of a fitted line are surer than two single tests, and the same rule gives
1.96 * typical error * span / sqrt(sum (x - mean)^2), which is the first for two sessions.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from math import log, sqrt
from statistics import NormalDist, median

TYPICAL_ERROR = 0.042  # median CV of 1RM tests (Grgic et al. 2020, Sports Med Open 6:31)
_PRIOR_SESSIONS = 6  # how many sessions the published error counts for beside a member's own scatter (our choice)
_LEAST_SESSIONS, _LEAST_DAYS = 4, 14
_SAME_SESSIONS, _SAME_DAYS = 5, 21
_STILL_SESSIONS, _STILL_DAYS = 5, 28
_STILL_DOUBTS, _STILL_AMONG_OTHERS, _STILL_TOGETHER = 1.4, 1.6, 1.8  # standard errors (chosen on simulated members)
# A member in training gains about so much a week (ours, low within the published gains of beginners to trained people, 0.3 to 1.5 %).
USUAL_GAIN_A_WEEK = 0.006
SESSION_ERROR = 0.03  # a session's mean over its sets is steadier than a single test of the maximum (ours)


class Verdict(StrEnum):
    BETTER = "better"
    SAME = "same"
    WORSE = "worse"
    TOO_LITTLE = "too_little_to_say"


@dataclass(frozen=True, slots=True)
class Point:
    """One session's value: an e1RM, a load or a count, above 0. Values of one trend share exercise, implement and tempo."""

    on: date
    value: float


@dataclass(frozen=True, slots=True)
class Slope:
    """A slope per day with its interval, in the value's unit."""

    per_day: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Trend:
    """What a member's sessions show.

    per_week, low, high: change a week as a share of the level, with its interval. change: over the whole span, as a share.
    smallest_real: a change below that is noise. verdict: what may be said. sessions, days: what it rests on.
    """

    verdict: Verdict
    per_week: float
    low: float
    high: float
    change: float
    smallest_real: float
    sessions: int
    days: int


def theil_sen(x: Sequence[float], y: Sequence[float], *, certainty: float = 0.95) -> Slope:
    """Median slope and its interval, y per x.

    Raises:
        ValueError: fewer than two different x.
    Source: Sen 1968, interval from Kendall's S with its variance corrected for ties in x and y.
    """
    pairs = [(j, i) for j in range(len(x)) for i in range(j) if x[j] != x[i]]
    slopes = sorted((y[j] - y[i]) / (x[j] - x[i]) for j, i in pairs)
    if not slopes:
        raise ValueError(f"x={list(x)!r}, expected two different values at least")
    n = len(x)
    ties = sum(k * (k - 1) * (2 * k + 5) for values in (x, y) for k in Counter(values).values() if k > 1)
    spread = sqrt(max(0.0, (n * (n - 1) * (2 * n + 5) - ties) / 18))
    reach = NormalDist().inv_cdf(0.5 + certainty / 2) * spread
    low_at = max(0, round((len(slopes) - reach) / 2) - 1)
    high_at = min(len(slopes) - 1, round((len(slopes) + reach) / 2))
    return Slope(median(slopes), slopes[low_at], slopes[high_at])


def smallest_real_change(x: Sequence[float], *, typical_error: float = TYPICAL_ERROR) -> float:
    """The change from first to last session, as a share, that noise alone passes one time in twenty."""
    mean = sum(x) / len(x)
    spread = sqrt(sum((value - mean) ** 2 for value in x))
    return 1.96 * typical_error * (max(x) - min(x)) / spread if spread else float("inf")


def trend_of(points: Sequence[Point], *, typical_error: float = TYPICAL_ERROR) -> Trend:
    """Judge a series of sessions, in any order; equal dates count as one day's several tries.

    better, worse: the slope's interval leaves 0 out and the change passes the smallest real one. same: enough sessions (5 over 21
    days) and neither. Everything else is too little to say: below 4 sessions or 14 days nothing is claimed.
    Raises:
        ValueError: a value is not above 0.
    """
    ordered = sorted(points, key=lambda point: point.on)
    if any(point.value <= 0 for point in ordered):
        raise ValueError("values of a trend have to lie above 0")
    days = (ordered[-1].on - ordered[0].on).days if ordered else 0
    if len(ordered) < 2 or days == 0:
        return Trend(Verdict.TOO_LITTLE, 0.0, float("-inf"), float("inf"), 0.0, float("inf"), len(ordered), days)
    x = [float((point.on - ordered[0].on).days) for point in ordered]
    y = [log(point.value) for point in ordered]
    slope = theil_sen(x, y)
    change = slope.per_day * days
    real = smallest_real_change(x, typical_error=_own_error(x, y, slope.per_day, typical_error))
    verdict = _verdict(len(ordered), days, change, real, slope)
    return Trend(verdict, slope.per_day * 7, slope.low * 7, slope.high * 7, change, real, len(ordered), days)


def _verdict(sessions: int, days: int, change: float, real: float, slope: Slope) -> Verdict:
    if sessions < _LEAST_SESSIONS or days < _LEAST_DAYS:
        return Verdict.TOO_LITTLE
    if change >= real and slope.low > 0:
        return Verdict.BETTER
    if change <= -real and slope.high < 0:
        return Verdict.WORSE
    return Verdict.SAME if sessions >= _SAME_SESSIONS and days >= _SAME_DAYS else Verdict.TOO_LITTLE


def _own_error(x: Sequence[float], y: Sequence[float], per_day: float, published: float) -> float:
    """The published typical error and the member's own scatter round the line, pooled by how many sessions stand behind each."""
    free = len(x) - 2
    if free < 1:
        return published
    level = median(value - per_day * at for at, value in zip(x, y, strict=True))
    own = sum((value - level - per_day * at) ** 2 for at, value in zip(x, y, strict=True))
    return sqrt((_PRIOR_SESSIONS * published**2 + own) / (_PRIOR_SESSIONS + free))


@dataclass(frozen=True, slots=True)
class Gain:
    """What one lift gains a week, as a share, and the standard error of it."""

    per_week: float
    doubt: float


def gain_of(points: Sequence[Point], *, typical_error: float = SESSION_ERROR, trend: Trend | None = None) -> Gain | None:
    """The robust slope with its doubt; None before five sessions over four weeks, where nothing can be said of standing still.

    trend: of the same points, so that the slope need not be worked out again.
    """
    ordered = sorted(points, key=lambda point: point.on)
    days = (ordered[-1].on - ordered[0].on).days if ordered else 0
    if len(ordered) < _STILL_SESSIONS or days < _STILL_DAYS:
        return None
    x = [float((point.on - ordered[0].on).days) for point in ordered]
    y = [log(point.value) for point in ordered]
    per_day = trend.per_week / 7 if trend is not None else theil_sen(x, y).per_day
    middle = sum(x) / len(x)
    spread = sqrt(sum((value - middle) ** 2 for value in x))
    return Gain(per_day * 7, _own_error(x, y, per_day, typical_error) / spread * 7)


def has_stalled(gain: Gain | None, *, among_others: bool = False) -> bool:
    """Has a lift stood still: is the gain that people usually make ruled out by its slope?

    No published threshold exists. Ours: the slope's upper bound (1.4 standard errors) does not reach 0.6 % a week. among_others: lifts
    of the same pattern are judged together as well (`stall_together`); then each by itself has to be a little surer, so that the two
    together cry wolf no more often than one alone. scenarios.simulator.stalls measures how often they do and how many they find.
    """
    doubts = _STILL_AMONG_OTHERS if among_others else _STILL_DOUBTS
    return gain is not None and gain.per_week + doubts * gain.doubt <= USUAL_GAIN_A_WEEK


def stall_together(gains: Sequence[Gain]) -> bool:
    """Do several lifts of one pattern stand still, taken together? Their slopes are averaged, the surer ones counting for more.

    A night's bad sleep hits one session of one lift; a body that does not recover hits them all. So what no lift shows by itself their
    mean can show. Fewer than two lifts are not together.
    """
    if len(gains) < 2:
        return False
    weights = [1 / gain.doubt**2 for gain in gains]
    mean = sum(weight * gain.per_week for weight, gain in zip(weights, gains, strict=True)) / sum(weights)
    return mean + _STILL_TOGETHER / sqrt(sum(weights)) <= USUAL_GAIN_A_WEEK


def has_dropped(points: Sequence[Point], *, typical_error: float = TYPICAL_ERROR) -> bool:
    """Have the last two sessions both fallen clearly below what came before (the middle of up to five earlier sessions)?

    Both lie at least 1.3 typical errors below it, and together they lie two below. For a flat member with the published noise both
    happen by chance in the share that the reference test measures.
    """
    ordered = sorted(points, key=lambda point: point.on)
    if len(ordered) < 5:
        return False
    before = median(log(point.value) for point in ordered[-7:-2])
    falls = [before - log(point.value) for point in ordered[-2:]]
    return min(falls) >= 1.3 * typical_error and sum(falls) / 2 >= 2.0 * typical_error
