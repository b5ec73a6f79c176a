"""Invented members with a hidden strength: what would each of them get on a set?

Built apart from the advice that is tried on them: nothing here imports it. Reps follow Epley 1985 turned round, bent a little for each member
(another curve than the advice's own, on purpose), minus tiredness from set to set, plus the day's noise, minus what is left of last week's
fatigue. The sizes are ours; where something published lies behind them it is named beside them.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

# A set to failure costs strength for a while, a set with reps left hardly (ours; a week takes half of it away).
_FATIGUE_AT_FAILURE, _FATIGUE_NEAR, _RECOVERY = 0.0025, 0.001, 0.5
_LOST_A_SECOND = 0.07  # slower lowering lowers what can be moved (Wilk et al. 2020); this size in reps is ours
_DECAY_A_MISSED_WEEK = 0.002  # one to two weeks away cost 0-2 % (rough, from memory)


@dataclass
class HiddenMember:
    """best_kg: the hidden one-rep maximum. gain: share won by a week of hard sets. bend: reps beyond the published curve.

    tiring: reps lost a set. day_sd: ln, noise of a day; set_sd: reps. says_reserve: chance that a reserve is told. stops: goes no further than
    the top of the range. slips: chance of a typing slip a week. misses: chance of a missed week. steps: the loads owned, kg, lightest first.
    fatigue: share of the strength that is not there today.
    """

    best_kg: float
    gain: float
    bend: float
    tiring: float
    day_sd: float
    set_sd: float
    says_reserve: float
    stops: bool
    slips: float
    misses: float
    steps: tuple[float, ...]
    chance: random.Random
    fatigue: float = 0.0

    def capacity(self, load_kg: float, number: int, day: float, *, slower_s: int = 0) -> int:
        """Reps to failure on set `number` (from 1) of a day. slower_s: seconds that a rep takes longer than usual."""
        ratio = self.best_kg * (1 - self.fatigue) * day / load_kg
        reps = 30 * (ratio - 1) * self.bend - self.tiring * (number - 1) + self.chance.gauss(0, self.set_sd)
        reps *= max(0.5, 1 - _LOST_A_SECOND * slower_s)
        return max(0, round(reps))

    def day(self) -> float:
        return 1 + self.chance.gauss(0, self.day_sd)

    def after(self, left: list[int], landed: list[bool]) -> None:
        """A week's outcome: full gain for sets near their limit, less for easy or failed ones; fatigue for the hardest."""
        stimulus = sum(_stimulus(reps, is_in) for reps, is_in in zip(left, landed, strict=True)) / len(left)
        self.best_kg *= 1 + self.gain * stimulus
        cost = sum(_FATIGUE_AT_FAILURE if reps == 0 else _FATIGUE_NEAR if reps <= 2 else 0.0 for reps in left)
        self.fatigue = self.fatigue * _RECOVERY + cost

    def away(self) -> None:
        """A week without a session."""
        self.best_kg *= 1 - _DECAY_A_MISSED_WEEK
        self.fatigue *= _RECOVERY**2


def _stimulus(left: int, landed: bool) -> float:
    """How much of the week's gain a set earns: near failure as much as at it (Grgic et al. 2022), far from it little, failed sets less."""
    if not landed:
        return 0.5
    return 1.0 if left <= 3 else max(0.2, 1.0 - 0.15 * (left - 3))


KITS = {
    "fine": tuple(2 + 0.5 * n for n in range(200)),
    "plates": tuple(2.5 * n for n in range(1, 60)),
    "two_kilo": tuple(float(2 * n) for n in range(1, 31)),
    "coarse": (4.0, 6.0, 8.0, 10.0, 12.5, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0),
}


def make_member(seed: int, *, gain: float | None = None) -> HiddenMember:
    """One member; gain: fixed instead of drawn (0 for somebody who stands still)."""
    chance = random.Random(seed)
    best = chance.uniform(14, 90)
    drawn = max(0.0, chance.gauss(0.009, 0.005))
    return HiddenMember(
        best_kg=best,
        gain=drawn if gain is None else gain,
        bend=chance.lognormvariate(0, 0.2),
        tiring=chance.uniform(0.2, 1.4),
        day_sd=chance.uniform(0.012, 0.035),
        set_sd=chance.uniform(0.3, 0.8),
        says_reserve=chance.choice((0.0, 0.0, 0.3, 0.9)),
        stops=chance.random() < 0.7,
        slips=0.01,
        misses=chance.choice((0.0, 0.0, 0.05, 0.15)),
        steps=KITS[chance.choice(tuple(KITS))],
        chance=chance,
    )
