"""How alike are two exercises, 0 to 1? The weighted mean of what a coach would look at.

Common practice gives the order (movement pattern, then muscles, then how it is done); the weights are our choice, set on the cases
in tests/training/substitutes. The features of an exercise, and everything that is like it, are computed once for each catalogue.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from bot.training.blocks import ExerciseId, Measure
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import Exercise, Pattern
from bot.training.exercises.muscles import GROUP_OF, MuscleGroup

P = Pattern
# Patterns that train nearly the same, with the share of likeness that is kept when one stands in for the other.
_NEAR: dict[frozenset[Pattern], float] = {
    frozenset(pair): share
    for share, pairs in {
        0.8: ((P.SQUAT, P.LUNGE),),
        0.7: ((P.HINGE, P.BRIDGE), (P.ANTI_SIDE_BEND, P.SIDE_BEND), (P.ANTI_ROTATION, P.ROTATION), (P.VERTICAL_PULL, P.HORIZONTAL_PULL)),
        0.6: (
            (P.VERTICAL_PULL, P.PULLOVER), (P.HORIZONTAL_PUSH, P.CHEST_FLY), (P.ANTI_EXTENSION, P.TRUNK_FLEXION),
            (P.TRUNK_FLEXION, P.HIP_FLEXION), (P.ANTI_SIDE_BEND, P.CARRY), (P.CARRY, P.GRIP),
        ),
        0.55: (
            (P.HORIZONTAL_PULL, P.REAR_SHOULDER), (P.TRUNK_EXTENSION, P.HINGE), (P.ANTI_ROTATION, P.ANTI_EXTENSION),
            (P.SQUAT, P.KNEE_EXTENSION), (P.HINGE, P.KNEE_FLEXION), (P.SHOULDER_RAISE, P.VERTICAL_PUSH), (P.SHRUG, P.CARRY),
        ),
        0.45: (
            (P.HORIZONTAL_PUSH, P.VERTICAL_PUSH), (P.BRIDGE, P.KNEE_FLEXION), (P.SQUAT, P.BRIDGE), (P.LUNGE, P.BRIDGE),
            (P.TRUNK_EXTENSION, P.BRIDGE), (P.HORIZONTAL_PULL, P.PULLOVER), (P.ANTI_SIDE_BEND, P.ANTI_ROTATION),
            (P.LUNGE, P.KNEE_EXTENSION), (P.CONDITIONING, P.SQUAT), (P.SHOULDER_ROTATION, P.REAR_SHOULDER), (P.GRIP, P.WRIST),
        ),
        0.4: ((P.SQUAT, P.HINGE), (P.LUNGE, P.HINGE), (P.HIP_ABDUCTION, P.BRIDGE), (P.CONDITIONING, P.LUNGE)),
        # Stand-ins at best: the small muscles of a big movement. Offered only when nothing nearer is left, and said so.
        0.25: (
            (P.HORIZONTAL_PUSH, P.ELBOW_EXTENSION), (P.VERTICAL_PUSH, P.ELBOW_EXTENSION), (P.VERTICAL_PULL, P.ELBOW_FLEXION),
            (P.HORIZONTAL_PULL, P.ELBOW_FLEXION), (P.ROTATION, P.TRUNK_FLEXION), (P.VERTICAL_PULL, P.REAR_SHOULDER),
        ),
    }.items()
    for pair in pairs
}  # fmt: skip
LAST_RESORT = 0.3  # a nearness of patterns up to this is a stand-in at best
_PRIME_WEIGHTS = (1.0, 0.85, 0.7, 0.6)  # most important first
_HELPING_WEIGHT = 0.35
_LEAST_KEPT = 0.2  # below this nothing is ever offered, whatever hurts


@dataclass(frozen=True, slots=True)
class _Features:
    entry: Exercise
    muscles: Mapping[MuscleGroup, float]
    prime: Mapping[MuscleGroup, float]
    named: frozenset[str]  # prime muscles themselves, parts of one muscle taken as one


def nearness(a: Exercise, b: Exercise) -> float:
    """How near two movement patterns are: 1 for the same one, 0 for strangers."""
    return _share(a.pattern, b.pattern)


def _share(one: Pattern, other: Pattern) -> float:
    return 1.0 if one is other else _NEAR.get(frozenset((one, other)), 0.0)


def likeness(a: Exercise, b: Exercise) -> float:
    """How alike two exercises are, 0 to 1."""
    return _likeness(_features(a), _features(b))


def _features(entry: Exercise) -> _Features:
    prime: dict[MuscleGroup, float] = {}
    for place, muscle in enumerate(entry.prime):
        if muscle in GROUP_OF:
            prime.setdefault(GROUP_OF[muscle], _PRIME_WEIGHTS[min(place, len(_PRIME_WEIGHTS) - 1)])
    helping = {GROUP_OF[muscle]: _HELPING_WEIGHT for muscle in entry.helping if muscle in GROUP_OF}
    named = frozenset(muscle.removeprefix("upper ").removeprefix("lower ") for muscle in entry.prime)
    return _Features(entry, helping | prime, prime, named)


def _likeness(one: _Features, two: _Features) -> float:
    a, b = one.entry, two.entry
    same_pattern = a.pattern is b.pattern
    # One group, other muscles: wrist flexors for extensors, an inward turn of the arm for an outward one.
    opposed = same_pattern and one.named and two.named and one.named.isdisjoint(two.named)
    family = 1.0 if a.family and a.family == b.family else 0.0
    return (
        (0.2 if opposed else 0.36 * nearness(a, b))
        + 0.26 * _overlap(one.prime, two.prime) * (0.5 if opposed else 1)
        + 0.12 * _overlap(one.muscles, two.muscles)
        + 0.18 * _manner(a, b, same_pattern)
        + 0.08 * family
    )


def _manner(a: Exercise, b: Exercise, same_pattern: bool) -> float:
    """How it is done. Difficulty is told inside a pattern only, so that between patterns it counts as half alike."""
    return (
        (1.0 if a.plane is b.plane else 0.5)
        + (1 - abs(a.lever - b.lever) / 4)
        + (1.0 if a.one_sided is b.one_sided else 0.4)
        + (1 - abs(a.stability - b.stability) / 4)
        + ((1 - min(abs(a.difficulty - b.difficulty), 6) / 6) if same_pattern else 0.5)
        + (1.0 if a.first_phase is b.first_phase else 0.6)
        + 2 * (1.0 if a.measure is b.measure else 0.2 if Measure.REPS in (a.measure, b.measure) else 0.6)
    ) / 8


def _overlap(a: Mapping[MuscleGroup, float], b: Mapping[MuscleGroup, float]) -> float:
    """Shared weight over all weight (weighted Jaccard)."""
    shared = sum(min(weight, b[group]) for group, weight in a.items() if group in b)
    whole = sum(a.values()) + sum(b.values()) - shared
    return shared / whole if whole else 0.0


@dataclass(slots=True)
class Kin:
    """Everything of a near pattern that is like an exercise, likeliest first; each exercise is looked at once."""

    catalogue: Catalogue
    _features: dict[Pattern, list[_Features]] = field(default_factory=dict)
    _of: dict[ExerciseId, tuple[tuple[float, Exercise], ...]] = field(default_factory=dict)

    def of(self, entry: Exercise) -> tuple[tuple[float, Exercise], ...]:
        known = self._of.get(entry.id)
        if known is None:
            known = self._of[entry.id] = self._search(entry)
        return known

    def _search(self, entry: Exercise) -> tuple[tuple[float, Exercise], ...]:
        if not self._features:
            for each in self.catalogue:
                self._features.setdefault(each.pattern, []).append(_features(each))
        one = _features(entry)
        scored = (
            (_likeness(one, two), two.entry)
            for pattern, those in self._features.items()
            if _share(entry.pattern, pattern) and _same_world(entry.pattern, pattern)
            for two in those
            if two.entry.id != entry.id and _share_a_muscle(one, two)
        )
        return tuple(sorted((pair for pair in scored if pair[0] >= _LEAST_KEPT), key=lambda pair: (-pair[0], pair[1].id)))


def _share_a_muscle(one: _Features, two: _Features) -> bool:
    """What works nothing that the other works is no substitute; an exercise of a coach's own may name no muscles."""
    return not one.muscles or not two.muscles or not one.muscles.keys().isdisjoint(two.muscles)


def _same_world(pattern: Pattern, other: Pattern) -> bool:
    """Mobility is no substitute for strength work, nor the other way round; conditioning may fall back on squats and lunges."""
    if pattern is P.CONDITIONING:
        return other in (P.CONDITIONING, P.SQUAT, P.LUNGE)
    return other not in (P.MOBILITY, P.CONDITIONING) if pattern is not P.MOBILITY else other is P.MOBILITY


# Catalogues by identity; each is kept alive here, so that its number stays its own. One, and one a group with exercises of its own.
_KIN: dict[int, Kin] = {}
_MOST_CATALOGUES = 64


def kin_of(catalogue: Catalogue) -> Kin:
    known = _KIN.get(id(catalogue))
    if known is None:
        if len(_KIN) >= _MOST_CATALOGUES:
            _KIN.clear()
        known = _KIN[id(catalogue)] = Kin(catalogue)
    return known
