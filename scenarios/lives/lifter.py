"""What could this invented person lift today? Hidden strength, slow gains, day noise; the person only sees what the bot shows."""

from __future__ import annotations

import random
from dataclasses import dataclass, field

# First guesses of a ten-rep load for a middling person, kg per implement, and of body-weight counts. Invented.
_TEN_REP_KG = {
    "goblet squat": 16, "romanian deadlift": 18, "one-arm dumbbell row": 18, "dumbbell curl": 9, "dumbbell bench press": 16,
    "dumbbell shoulder press": 11, "lateral raise": 5, "triceps extension": 9, "bulgarian split squat": 9, "hip thrust": 30,
    "single-leg romanian deadlift": 10, "bent-over row": 17, "hammer curl": 9, "standing calf raise": 18, "suitcase carry": 18,
    "farmer carry": 18, "face pull": 8, "bent-over rear delt raise": 6, "floor press": 15, "kettlebell": 14,
}  # fmt: skip
_COUNTS = {"push-up": 11, "pull-up": 6, "inverted row": 9, "dead bug": 9, "plank": 45, "side plank": 30, "glute bridge": 25}


@dataclass
class Lifter:
    """One person's body. strength: 1.0 is middling; gain: share won each week; kind: a seed, so that every play is the same."""

    strength: float
    gain: float
    seed: int
    held_back: float = 0.0
    _chance: random.Random = field(init=False)

    def __post_init__(self) -> None:
        self._chance = random.Random(self.seed)

    def ten_rep_kg(self, exercise: str, week: int) -> float | None:
        """The load this person can move ten times, or None for what is done with body weight."""
        base = next((kg for name, kg in _TEN_REP_KG.items() if name in exercise.lower()), None)
        return None if base is None else base * self.strength * (1 + self.gain * (week - 1))

    def reps(self, exercise: str, load_kg: float, week: int) -> int:
        """Reps got with a load; the published load-repetition relation in its simplest form (Epley 1985), turned round."""
        ten = self.ten_rep_kg(exercise, week) or load_kg
        best = ten * (1 + 10 / 30)
        reps = 30 * (best / max(load_kg, 0.5) - 1) + self._chance.gauss(0, 0.6) - self.held_back
        return max(3, min(30, round(reps)))

    def count(self, exercise: str, week: int) -> int:
        """Reps or seconds of what is done without load."""
        base = next((n for name, n in _COUNTS.items() if name in exercise.lower()), 12)
        return max(2, round(base * (0.6 + 0.4 * self.strength) * (1 + 1.5 * self.gain * (week - 1)) + self._chance.gauss(0, 0.7)))

    def tired(self, n: int) -> int:
        """How many reps a later set loses."""
        return min(n, self._chance.choice((0, 0, 1, 1, 2)))
