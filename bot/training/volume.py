"""How many hard sets a week does each muscle group get, and how long does a session take?

Weekly sets are counted in three named ways, because published work counts them so (Pelland et al., preprint 2024): a set counts
whole for the groups that the exercise trains directly; for a group that only helps it counts 0 ("direct"), one half
("fractional", which fitted results best) or 1 ("total"). Warm-up sets do not count, both sides of a one-sided exercise are one set, and the two
exercises of a superset are two sets (common practice).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import ceil, floor

from bot.training.blocks import Block, Day, Measure, SetKind, SetTarget, Sides, Slot, work_sets
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import Exercise, Pattern
from bot.training.exercises.muscles import helping_groups, prime_groups

HELPING_SHARE = Fraction(1, 2)  # Pelland et al. 2024: "fractional"
EASY_RIR, EASY_RPE = Decimal(5), Decimal(5)  # further from failure than this is no hard set (common practice)
NOT_COUNTED = frozenset({Pattern.MOBILITY, Pattern.CONDITIONING})

# Spreads for what a coach leaves unsaid, (low, high).
NATURAL_REP_S = (2.0, 4.0)  # a rep without a tempo, from memory
OPEN_COUNT = {Measure.REPS: (8, 20), Measure.SECONDS: (20, 60), Measure.STEPS: (20, 40), Measure.METRES: (20, 40)}  # AMRAP; ours
STEP_S = (0.6, 1.2)  # loaded walking, common practice
METRE_S = (0.8, 1.6)
UNSAID_REST_S = (60, 120)  # NSCA hypertrophy 30-90 s, Singer et al. 2024 favours a little longer
CHANGE_OVER_S = (10, 30)  # from one exercise of a superset to the next, at home
TRANSITION_S = (60, 120)  # to the next exercise: put away, set up (120 s is a usual figure)
DROP_S = (15, 40)  # change the load, go on
WARM_UP_S = (300, 600)


@dataclass(frozen=True, slots=True)
class WeeklySets:
    """Hard sets a week by muscle group (the everyday name), most first; three ways of counting over the same keys.

    unmatched: names of exercises that are not known, so not counted.
    """

    direct: Mapping[str, Decimal]
    fractional: Mapping[str, Decimal]
    total: Mapping[str, Decimal]
    unmatched: tuple[str, ...] = ()


def is_hard(target: SetTarget) -> bool:
    """Does a set count as hard? Not a warm-up, and not asked for far from failure."""
    if target.kind is SetKind.WARM_UP:
        return False
    return not (target.rir is not None and target.rir >= EASY_RIR) and not (target.rpe is not None and target.rpe <= EASY_RPE)


def hard_sets(slot: Slot) -> int:
    return sum(is_hard(target) for target in slot.sets)


def days_a_week(block: Block) -> Fraction:
    """How often a week each day of the split comes round: 1 for a seven-day rhythm with as many on-days as days."""
    if not block.days or not block.rhythm:
        return Fraction(0)
    return Fraction(sum(block.rhythm) * 7, len(block.rhythm) * len(block.days))


def weekly_sets(block: Block, catalogue: Catalogue) -> WeeklySets:
    """Count the week's hard sets for every muscle group, in three ways."""
    direct: dict[str, Fraction] = {}
    helping: dict[str, Fraction] = {}
    unmatched: dict[str, None] = {}
    often = days_a_week(block)
    for day in block.days:
        for slot in day.slots:
            exercise = catalogue.get(slot.exercise)
            if exercise is None:
                unmatched[slot.exercise_name] = None
            elif exercise.pattern not in NOT_COUNTED:
                _add(direct, helping, exercise, hard_sets(slot) * often)
    groups = sorted({*direct, *helping}, key=lambda group: (-_fractional(direct, helping, group), group))
    return WeeklySets(
        {group: _decimal(direct.get(group, Fraction(0))) for group in groups},
        {group: _decimal(_fractional(direct, helping, group)) for group in groups},
        {group: _decimal(direct.get(group, Fraction(0)) + helping.get(group, Fraction(0))) for group in groups},
        tuple(unmatched),
    )


def _add(direct: dict[str, Fraction], helping: dict[str, Fraction], exercise: Exercise, sets: Fraction) -> None:
    for group in prime_groups(exercise):
        direct[group.value] = direct.get(group.value, Fraction(0)) + sets
    for group in helping_groups(exercise):
        helping[group.value] = helping.get(group.value, Fraction(0)) + sets


def _fractional(direct: dict[str, Fraction], helping: dict[str, Fraction], group: str) -> Fraction:
    return direct.get(group, Fraction(0)) + HELPING_SHARE * helping.get(group, Fraction(0))


def _decimal(value: Fraction) -> Decimal:
    return (Decimal(value.numerator) / Decimal(value.denominator)).quantize(Decimal("0.1"))


def say_sets(sets: Decimal, *, up: bool = False) -> str:
    """A number of sets as people count them: wholes and halves ("6", "6.5"); down to the half below, or up to the one above.

    A rhythm that is no week leaves sevenths and eighths, which nobody can do. Down beside "too few" and up beside "too many", so that
    the number said never contradicts the limit it is held against.
    """
    halves = ceil(sets * 2) if up else floor(sets * 2)
    return f"{halves / 2:g}"


def session_minutes(day: Day, catalogue: Catalogue | None = None) -> tuple[int, int]:
    """How long a day takes, (low, high) in whole minutes; see `session_seconds`."""
    low, high = session_seconds(day, catalogue)
    return floor(low / 60), ceil(high / 60)


def session_seconds(
    day: Day,
    catalogue: Catalogue | None = None,
    *,
    transition_s: tuple[int, int] = TRANSITION_S,
    warm_up_s: tuple[int, int] | None = None,
) -> tuple[float, float]:
    """Seconds of a day, (low, high): work from counts and tempo, rests, ways between exercises, warm-up.

    Both sides of a one-sided exercise take twice the time; the catalogue, when given, tells which those are where the coach did
    not say. The last set of a group of slots is followed by the way to the next group instead of a rest.
    warm_up_s: (0, 300) if the coach wrote no warm-up, else 5 to 10 minutes.

    Source: plain arithmetic, with a worked example of 38 minutes in the tests.
    """
    if not day.slots:
        return 0.0, 0.0
    groups: dict[str, list[Slot]] = {}
    for slot in day.slots:
        groups.setdefault(slot.group, []).append(slot)
    warm = warm_up_s or (WARM_UP_S if day.warm_up else (0, WARM_UP_S[0]))
    totals = [float(warm[end]) + transition_s[end] * (len(groups) - 1) for end in (0, 1)]
    for slots in groups.values():
        for end, seconds in enumerate(_group_s(slots, catalogue)):
            totals[end] += seconds
    return totals[0], totals[1]


def _group_s(slots: list[Slot], catalogue: Catalogue | None) -> tuple[float, float]:
    low = high = 0.0
    rests: list[tuple[float, float]] = []
    rounds = max(len(slot.sets) for slot in slots)
    for number in range(rounds):
        turn = [slot for slot in slots if number < len(slot.sets)]
        for at, slot in enumerate(turn):
            work = _set_s(slot.sets[number], _has_sides(slot, catalogue))
            low, high = low + work[0], high + work[1]
            rests.append(_rest_s(slot, is_last_of_round=at == len(turn) - 1))
    return low + sum(rest[0] for rest in rests[:-1]), high + sum(rest[1] for rest in rests[:-1])


def _rest_s(slot: Slot, *, is_last_of_round: bool) -> tuple[float, float]:
    if slot.rest is not None:
        return slot.rest.low_s, slot.rest.high_s
    return UNSAID_REST_S if is_last_of_round else CHANGE_OVER_S


def _has_sides(slot: Slot, catalogue: Catalogue | None) -> bool:
    exercise = catalogue.get(slot.exercise) if catalogue else None
    return slot.sides is not Sides.BOTH or bool(exercise and exercise.one_sided)


def _set_s(target: SetTarget, has_sides: bool) -> tuple[float, float]:
    open_low, open_high = OPEN_COUNT[target.measure]
    low = target.low if target.low is not None else open_low
    high = target.high if target.high is not None else open_high
    if target.amrap:
        high = max(high, open_high)
    each = _unit_s(target)
    partials = (target.partials.count or 5) if target.partials else 0  # a partial rep takes about half a rep's time (ours)
    sides = 2 if has_sides else 1
    drops = len(target.drops)
    return (
        sides * (low * each[0] + partials * each[0] / 2) + drops * DROP_S[0],
        sides * (high * each[1] + partials * each[1] / 2) + drops * DROP_S[1],
    )


def _unit_s(target: SetTarget) -> tuple[float, float]:
    if target.measure is Measure.SECONDS:
        return 1.0, 1.0
    if target.measure is Measure.STEPS:
        return STEP_S
    if target.measure is Measure.METRES:
        return METRE_S
    if target.tempo is not None and target.tempo.seconds_a_rep > 0:
        return float(target.tempo.seconds_a_rep), float(target.tempo.seconds_a_rep)
    return NATURAL_REP_S


def set_count(block: Block) -> int:
    """Numbered sets over one round of the split."""
    return sum(len(work_sets(slot)) for day in block.days for slot in day.slots)
