"""How hard was a set, and how hard was a week?

A set: RPE 10 is nothing left, 9 one rep left, and so on down to 6 (Zourdos et al. 2016, JSCR 30:267-275; half points from memory).
A week: session RPE (0-10) times minutes, its sum, and how evenly it is spread (Foster et al. 2001, JSCR 15:109-115; Foster 1998).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from math import sqrt

LOWEST_RPE_WITH_REPS = Decimal(6)  # below it the scale speaks of effort, not of reps left (Zourdos et al. 2016; from memory)
# People have about one rep more than they say when 0-5 remain (Halperin et al. 2022: 0.95, 95 % CI 0.17 to 1.73).
SAID_TOO_FEW_REPS = 0.95


class OutsideRange(ValueError):
    """A number lies outside what an equation or a scale is valid for."""


def rir_of_rpe(rpe: Decimal) -> Decimal | None:
    """Reps in reserve for an RPE of 6 to 10; None below 6, where the scale names no number of reps.

    Raises:
        OutsideRange: rpe is not 0 to 10.
    """
    if not 0 <= rpe <= 10:
        raise OutsideRange(f"rpe={rpe!r}, expected 0 to 10")
    return 10 - rpe if rpe >= LOWEST_RPE_WITH_REPS else None


def rpe_of_rir(rir: Decimal) -> Decimal | None:
    """RPE for 0 to 4 reps in reserve; None for more."""
    if rir < 0:
        raise OutsideRange(f"rir={rir!r}, expected 0 or more")
    return 10 - rir if rir <= 4 else None


def rir_sd_reps(rir: float) -> float:
    """How far a stated reserve is off, as one standard deviation in reps.

    Source: Hackett et al. 2017, JSCR 31:2162-2168: about 1 rep when 0-5 remain, over 2 when 7-10 remain; in between on a line.
    """
    return 1.0 if rir <= 5 else min(2.5, 1.0 + 0.5 * (rir - 5))


def session_effort_au(*, rpe: Decimal, minutes: int) -> Decimal:
    """Session RPE times minutes, in arbitrary units (Foster et al. 2001).

    Raises:
        OutsideRange: rpe is not 0 to 10, or minutes are negative.
    """
    if not 0 <= rpe <= 10 or minutes < 0:
        raise OutsideRange(f"rpe={rpe!r}, minutes={minutes!r}, expected 0 to 10 and 0 or more")
    return rpe * minutes


@dataclass(frozen=True, slots=True)
class WeekEffort:
    """A week's effort in arbitrary units.

    monotony: mean over SD of the days, with n in the SD (sources disagree on n or n-1; ours is n, so a little higher). None
    where it has no value: all days alike, or a day's report missing. strain: sum times monotony, None with it.
    missing: sessions that were done and not rated; they are no rest days.
    """

    total_au: Decimal
    monotony: float | None
    strain_au: float | None
    missing: int = 0


def week_effort(days_au: Sequence[Decimal | None]) -> WeekEffort:
    """Add up seven days: 0 for a rest day, None for a session that nobody rated.

    Source: Foster 1998, MSSE 30:1164-1168 (formula read second hand; over 2.0 counts as high, second hand as well).
    Raises:
        OutsideRange: there are not seven days.
    """
    if len(days_au) != 7:
        raise OutsideRange(f"days={len(days_au)}, expected 7 (rest days count as 0)")
    known = [day for day in days_au if day is not None]
    total = sum(known, Decimal(0))
    missing = len(days_au) - len(known)
    mean = float(total) / 7
    spread = sqrt(sum((float(day) - mean) ** 2 for day in known) / 7)
    if missing or spread == 0:
        return WeekEffort(total, None, None, missing)
    return WeekEffort(total, mean / spread, float(total) * mean / spread)
