"""How many reps go with which share of the one-rep maximum, for people at large and for one member?

The published curve is the main table of Nuzzo et al. 2024 (Sports Medicine 54:303-321; 952 tests, 7289 people), joined to one rep
at 100 %. Between its points we go straight; beyond 60 % and 19.5 reps it is not continued for estimates.

    reps_at(0.80) -> 9.75        share_for(9.75) -> 0.80
A member differs by one number, the bend: reps beyond the first are multiplied by it. Where a member's loads lie close together
the data cannot tell, and the bend stays 1.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import exp, log

# Share of 1RM, mean reps, SD between people (Nuzzo et al. 2024, fig. 2; transcribed second hand). One rep at 100 % by definition.
NUZZO = (
    (0.90, 4.94, 1.90),
    (0.85, 7.15, 2.19),
    (0.80, 9.75, 2.51),
    (0.75, 12.37, 2.88),
    (0.70, 14.80, 3.31),
    (0.65, 17.11, 3.80),
    (0.60, 19.53, 4.37),
)
MOST_REPS = 19.53
# Below the table the last step is continued for forecasts only: a guess must not stop at 20 reps.
_REPS = (1.0, *(reps for _, reps, _ in NUZZO), 31.6, 62.0)
_SHARES = (1.0, *(share for share, _, _ in NUZZO), 0.40, 0.15)
_SLOPES = tuple((s2 - s1) / (r2 - r1) for (r1, s1), (r2, s2) in pairwise(zip(_REPS, _SHARES, strict=True)))
BEND_SD = 0.26  # ln scale: 2.51 reps of 9.75 at 80 % (Nuzzo et al. 2024)
_BENDS = (0.65, 0.75, 0.87, 1.0, 1.15, 1.32, 1.52)
_LOADS_APART = 0.08  # ln: loads closer than that cannot show a bend through a day's noise (our choice)


# Counts and bends come back again and again while a member is followed, so the three below remember (a review takes half the time).
@lru_cache(maxsize=4096)
def share_for(reps: float, bend: float = 1.0) -> float:
    """The share of the one-rep maximum that can be moved so many times; falls with reps, 1 for one rep and fewer."""
    seen = 1 + (reps - 1) / bend
    if seen <= 1:
        return 1.0 + (1 - seen) * 0.03  # less than one rep: heavier than the maximum, on a line
    at = min(bisect_right(_REPS, seen), len(_REPS) - 1) - 1
    return max(0.05, _SHARES[at] + _SLOPES[at] * (seen - _REPS[at]))


def reps_at(share: float, bend: float = 1.0) -> float:
    """How many reps go with a share of the one-rep maximum; under 1 above the maximum, not below 0."""
    if share >= 1:
        return max(0.0, 1 - (share - 1) / 0.03 * bend)
    at = 0
    while at < len(_SLOPES) - 1 and share < _SHARES[at + 1]:
        at += 1
    seen = _REPS[at] + (share - _SHARES[at]) / _SLOPES[at]
    return 1 + (seen - 1) * bend


@lru_cache(maxsize=4096)
def ln_share_for(reps: float, bend: float = 1.0) -> float:
    """ln of `share_for`."""
    return log(share_for(reps, bend))


@lru_cache(maxsize=4096)
def ln_per_rep(reps: float, bend: float = 1.0) -> float:
    """By how much ln(load) falls for one rep more, near so many reps."""
    return abs(ln_share_for(reps + 0.5, bend) - ln_share_for(max(1.0, reps - 0.5), bend)) / min(1.0, reps or 1.0)


def people_sd_reps(share: float) -> float:
    """SD between people at a share of 1RM: Nuzzo's linear model on the log scale, ln SD = ln 2.51 - 2.776 (share - 0.8)."""
    return exp(log(2.51) - 2.776 * (share - 0.80))


@dataclass(frozen=True, slots=True)
class HardSet:
    """A set near its limit: load in kg, reps counted up to failure, and which set of the session it was."""

    load_kg: float
    reps_to_failure: float
    number: int = 1
    week: float = 0.0


def member_bend(sets: Sequence[HardSet], *, noise: float = 0.04, gain_a_week: float = 0.005) -> float:
    """Estimate one member's bend, pooled toward the published curve.

    Each bend makes a capacity of every set; the likeliest bend is the one under which the capacities of one set number agree best
    (noise: SD of ln capacity from day to day), weighed against how people differ. 1 while the loads lie within 8 %.
    """
    loads = [one.load_kg for one in sets]
    if len(sets) < 3 or log(max(loads) / min(loads)) < _LOADS_APART:
        return 1.0
    plain_ln = [log(one.load_kg) - gain_a_week * one.week for one in sets]
    best, best_cost = 1.0, float("inf")
    for bend in _BENDS:
        cost = (log(bend) / BEND_SD) ** 2 + _scatter(sets, plain_ln, bend) / noise**2
        if cost < best_cost:
            best, best_cost = bend, cost
    return best


def _scatter(sets: Sequence[HardSet], plain_ln: Sequence[float], bend: float) -> float:
    by_number: dict[int, list[float]] = {}
    for one, plain in zip(sets, plain_ln, strict=True):
        by_number.setdefault(one.number, []).append(plain - ln_share_for(one.reps_to_failure, bend))
    total = 0.0
    for values in by_number.values():
        mean = sum(values) / len(values)
        total += sum((value - mean) ** 2 for value in values)
    # Sets of one session share the day's noise, so they count as one and a half, not as three (our choice).
    return total * min(1.0, 1.5 / max(1, len(by_number)))
