"""How strong does a set show a member to be? The estimated one-rep maximum (e1RM), with its error.

Seven published equations and the published load-repetition curve, each inside the range it is good for. Reps in reserve count as
reps ("20 kg x 8 with 2 left" is read as 10 reps). A true single is its own maximum: no equation is asked. Above 19 reps nothing is
estimated. Estimates are rules of thumb, not measurements: expect 10 % either way for one person.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from math import exp, sqrt
from statistics import median

from bot.training.curve import HardSet, ln_per_rep, member_bend, people_sd_reps, reps_at, share_for
from bot.training.effort import OutsideRange, rir_sd_reps

__all__ = [
    "E1rm",
    "Equation",
    "HardSet",
    "OutsideRange",
    "e1rm_estimates",
    "estimate_e1rm",
    "member_bend",
    "reps_at",
    "share_for",
]


class Equation(StrEnum):
    """Where an estimate comes from. Spellings as in the literature, which is not of one mind (Wathan is also Wathen)."""

    EPLEY = "epley"
    BRZYCKI = "brzycki"
    LANDER = "lander"
    LOMBARDI = "lombardi"
    MAYHEW = "mayhew"
    OCONNER = "oconner"
    WATHAN = "wathan"
    NUZZO = "nuzzo"  # the curve of bot.training.curve turned round


@dataclass(frozen=True, slots=True)
class _Rule:
    reps_max: float
    per_kg: Callable[[float], float]  # 1RM per unit of load, at so many reps


# Linear and hyperbolic forms hold to 10 reps (Reynolds et al. 2006; Mayhew 2008: beyond it Brzycki's mean error is +27 %). The two
# exponential ones stay within 7 % of the population mean to 15 (computed from Nuzzo's means); the curve's own table ends at 19.5.
_RULES: Mapping[Equation, _Rule] = {
    Equation.EPLEY: _Rule(10, lambda r: 1 + r / 30),  # Epley 1985
    Equation.BRZYCKI: _Rule(10, lambda r: 36 / (37 - r)),  # Brzycki 1993, JOPERD 64(1):88-90
    Equation.LANDER: _Rule(10, lambda r: 100 / (101.3 - 2.67123 * r)),  # Lander 1985
    Equation.LOMBARDI: _Rule(10, lambda r: r**0.10),  # Lombardi 1989
    Equation.MAYHEW: _Rule(15, lambda r: 100 / (52.2 + 41.9 * exp(-0.055 * r))),  # Mayhew et al. 1992
    Equation.OCONNER: _Rule(10, lambda r: 1 + r / 40),  # O'Conner, Simmons, O'Shea 1989
    Equation.WATHAN: _Rule(15, lambda r: 100 / (48.8 + 53.8 * exp(-0.075 * r))),  # Wathen 1994
    Equation.NUZZO: _Rule(19, lambda r: 1 / share_for(r)),  # Nuzzo et al. 2024
}
MOST_REPS = max(rule.reps_max for rule in _RULES.values())
RETEST_CV = 0.042  # Grgic et al. 2020, Sports Med Open 6:31: median typical error of a 1RM test
EQUATION_ERROR = 0.105  # Mayhew 2008, JSCR 22:1570-1577: SD of the error of one person's estimate, 10 reps or fewer


@dataclass(frozen=True, slots=True)
class E1rm:
    """An estimated one-rep maximum.

    kg: middle of the equations that hold here; sd_kg: one standard deviation; low_kg, high_kg: two of them either side.
    reps: reps counted, reserve included. equations: each one's own figure in kg.
    """

    kg: Decimal
    sd_kg: Decimal
    reps: Decimal
    equations: Mapping[Equation, Decimal]

    @property
    def low_kg(self) -> Decimal:
        return max(Decimal(0), self.kg - 2 * self.sd_kg)

    @property
    def high_kg(self) -> Decimal:
        return self.kg + 2 * self.sd_kg

    @property
    def beyond_ten(self) -> bool:
        """More reps than most equations hold for: a weak witness."""
        return self.reps > 10


def e1rm_estimates(
    *, load_kg: Decimal, reps: int, rir: Decimal = Decimal(0), equations: tuple[Equation, ...] = ()
) -> Mapping[Equation, Decimal]:
    """One figure (kg, not rounded) for each equation that holds at so many reps.

    Args:
        load_kg: Whole outside load, both hands together; above 0.
        reps: Full reps, 1 or more. Partial reps are not counted.
        rir: Reps in reserve as said; 0 for a set to failure. An unknown reserve makes the figure too low, never too high.
        equations: Only these; asking for one outside its range is refused. Empty: all that hold.

    Raises:
        OutsideRange: load, reps or rir are not possible; the count lies beyond every (or the asked) equation's range.
    """
    counted = _counted(load_kg, reps, rir)
    if counted == 1:
        return dict.fromkeys(equations or tuple(_RULES), load_kg)
    for name in equations:
        if counted > _RULES[name].reps_max:
            raise OutsideRange(f"{name.value}: reps={counted:g}, expected 1 to {_RULES[name].reps_max:g}")
    chosen = equations or tuple(name for name, rule in _RULES.items() if counted <= rule.reps_max)
    if not chosen:
        raise OutsideRange(f"reps={counted:g}, expected 1 to {MOST_REPS:g} with the reserve")
    return {name: load_kg * Decimal(repr(_RULES[name].per_kg(counted))) for name in chosen}


def estimate_e1rm(*, load_kg: Decimal, reps: int, rir: Decimal = Decimal(0)) -> E1rm:
    """Estimate the heaviest single a member could lift, from one hard set, with its error.

    Arguments, errors: as `e1rm_estimates`. A single with nothing left is the load itself, with a retest's error (Grgic et al. 2020).
    Otherwise the middle of the equations that hold, with the published error of a single estimate (Mayhew 2008), growing above 10
    reps as people differ more there (Nuzzo et al. 2024), and with the error of a stated reserve (Hackett et al. 2017).
    """
    found = e1rm_estimates(load_kg=load_kg, reps=reps, rir=rir)
    counted = reps + float(rir)
    middle = median(found.values())
    if counted == 1:
        share = RETEST_CV
    else:
        share = EQUATION_ERROR * max(1.0, _people_spread(counted) / _people_spread(10))
    reserve = rir_sd_reps(float(rir)) * ln_per_rep(counted) if rir > 0 else 0.0
    return E1rm(middle, middle * Decimal(repr(sqrt(share**2 + reserve**2))), Decimal(reps) + rir, found)


def _people_spread(reps: float) -> float:
    """How far people's 1RM lie apart (share) who get the same reps with the same load."""
    return people_sd_reps(share_for(reps)) * ln_per_rep(reps)


def _counted(load_kg: Decimal, reps: int, rir: Decimal) -> float:
    if load_kg <= 0:
        raise OutsideRange(f"load_kg={load_kg!r}, expected above 0")
    if reps < 1 or rir < 0:
        raise OutsideRange(f"reps={reps!r}, rir={rir!r}, expected 1 or more and 0 or more")
    return reps + float(rir)
