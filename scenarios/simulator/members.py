"""Invented members with a hidden strength: what would each of them get on a set?

Built apart from the advice that is tried on them: nothing here imports it. Reps follow Epley 1985 turned round, bent a little for each member
(another curve than the advice's own, on purpose), minus tiredness from set to set, plus the day's noise.
"""

from __future__ import annotations

import random
from dataclasses import dataclass


@dataclass
class HiddenMember:
    """best_kg: the hidden one-rep maximum. gain: share won by a week of hard sets. bend: reps beyond the published curve.

    tiring: reps lost a set. day_sd: ln, noise of a day; set_sd: reps. says_reserve: chance that a reserve is told. stops: goes no further than
    the top of the range. slips: chance of a typing slip a week. steps: the loads owned, kg, lightest first.
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
    steps: tuple[float, ...]
    chance: random.Random

    def capacity(self, load_kg: float, number: int, day: float) -> int:
        """Reps to failure on set `number` (from 1) of a day."""
        ratio = self.best_kg * day / load_kg
        reps = 30 * (ratio - 1) * self.bend - self.tiring * (number - 1) + self.chance.gauss(0, self.set_sd)
        return max(0, round(reps))

    def day(self) -> float:
        return 1 + self.chance.gauss(0, self.day_sd)

    def grow(self, hard_share: float) -> None:
        """A week's gain: full for sets near their limit, little for easy or for failed ones."""
        self.best_kg *= 1 + self.gain * hard_share


KITS = {
    "fine": tuple(2 + 0.5 * n for n in range(200)),
    "plates": tuple(2.5 * n for n in range(1, 60)),
    "two_kilo": tuple(float(2 * n) for n in range(1, 31)),
    "coarse": (4.0, 6.0, 8.0, 10.0, 12.5, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0),
}


def make_member(seed: int) -> HiddenMember:
    chance = random.Random(seed)
    best = chance.uniform(14, 90)
    return HiddenMember(
        best_kg=best,
        gain=max(0.0, chance.gauss(0.009, 0.005)),
        bend=chance.lognormvariate(0, 0.2),
        tiring=chance.uniform(0.2, 1.4),
        day_sd=chance.uniform(0.012, 0.035),
        set_sd=chance.uniform(0.3, 0.8),
        says_reserve=chance.choice((0.0, 0.0, 0.3, 0.9)),
        stops=chance.random() < 0.7,
        slips=0.01,
        steps=KITS[chance.choice(tuple(KITS))],
        chance=chance,
    )
