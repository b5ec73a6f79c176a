"""Which three are offered? The coach's own first, then the likeliest that the limits allow, not three of a kind."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from bot.training.blocks import ExerciseId, Measure, Slot, work_sets
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import Exercise, FirstPhase
from bot.training.exercises.muscles import groups_of
from bot.training.kit import ALWAYS_AT_HAND, Kit
from bot.training.loads import Unit
from bot.training.records import SetRecord
from bot.training.substitutes.changes import WEIGHTED, change_to, is_quick, is_weighted
from bot.training.substitutes.likeness import kin_of, likeness, nearness
from bot.training.substitutes.limits import Limits, limits_of
from bot.training.substitutes.renown import renown
from bot.training.substitutes.same import kit_version
from bot.training.substitutes.values import Reason, Substitute
from bot.training.substitutes.words import is_last_resort, reasons_alone, reasons_for

# All figures below are our choice, set on tests/training/substitutes/cases.txt.
_LEAST = 0.42  # less alike would puzzle a coach
_LEAST_IN_NEED = 0.27  # where nothing better is left: it is said to be a stand-in
_LEAST_IN_PAIN = 0.2  # what spares a joint is rarely alike
_BEHIND_BEST = 0.27  # a second or third choice may be so much less alike than the first
_NAME_IS_SURE = 0.8
_SLOW_S = 3  # a way down of so many seconds is what the set is about
_FEW_REPS = 6  # sets of so few reps want a weight
_STRAIN_COST = 0.05
_CLOSE_PATTERN = 0.7
_STEP_WISHED = {Reason.TOO_HARD: -3, Reason.TOO_EASY: 2}


def substitutes_for(
    exercise: ExerciseId,
    *,
    kit: Kit,
    reason: Reason,
    catalogue: Catalogue,
    own: Sequence[str] = (),
    hurting: Sequence[str] = (),
    missing: Sequence[str] = (),
    today: Sequence[ExerciseId] = (),
    records: Sequence[SetRecord] = (),
    slot: Slot | None = None,
    unit: Unit = Unit.KG,
    limit: int = 3,
    on: date | None = None,
    wanted: ExerciseId | None = None,
) -> tuple[Substitute, ...]:
    """Rank what can be done instead, best first; empty where nothing sensible is left.

    Args:
        own: The coach's substitutes by name, in the coach's order.
        hurting: Parts of the body in everyday words ("knee", "lower back").
        missing: Kit that is not at hand now (KitItem values or plain words).
        today: The exercises of today's other slots.
        records: The member's, for a load to begin with.
        slot: The slot that it is for; gives reps and tempo.
        on: Today in the member's zone, to tell old records from fresh ones.
        wanted: An exercise that the member named; stands after the coach's own where the limits allow it.
    """
    entry = catalogue.get(exercise)
    if entry is None or limit <= 0:
        return ()
    limits = limits_of(entry, kit=kit, reason=reason, hurting=hurting, missing=missing, today=today)
    coachs = _of_the_coach(limits, own, catalogue)
    first = [*coachs, *_wanted(limits, wanted, catalogue, coachs)][:limit]
    ranked = [pair for pair in _ranked(limits, catalogue, slot, today) if pair[1] not in first]
    found = []
    for other in (*first, *_varied(ranked, first, limit - len(first))):
        way = limits.way(other) or frozenset()
        change = change_to(entry, other, way=way, kit=kit, records=records, slot=slot, catalogue=catalogue, unit=unit, on=on)
        chosen_by_someone = other in first
        alike = likeness(entry, other)
        found.append(
            Substitute(
                other.id,
                other.name,
                reasons_for(limits, other, wanted=chosen_by_someone and other not in coachs),
                change.words,
                other in coachs,
                alike,
                change.load,
                change.sets,
                not chosen_by_someone and is_last_resort(entry, other, alike),
            )
        )
    return tuple(found)


def coachs_own(
    own: Sequence[str],
    *,
    kit: Kit,
    reason: Reason,
    catalogue: Catalogue,
    hurting: Sequence[str] = (),
    missing: Sequence[str] = (),
    today: Sequence[ExerciseId] = (),
) -> tuple[Substitute, ...]:
    """The coach's substitutes that this member can do, where nothing is known of the slot's own exercise to be like.

    Likeness is 0 and nothing is said of what changes: there is nothing to compare with. Arguments as for `substitutes_for`.
    """
    found: dict[ExerciseId, Substitute] = {}
    for name in own:
        matches = catalogue.names.find(name, limit=1)
        other = catalogue.get(kit_version(matches[0].exercise, kit, catalogue, written=name)) if matches else None
        if other is None or matches[0].score < _NAME_IS_SURE:
            continue
        limits = limits_of(other, kit=kit, reason=reason, hurting=hurting, missing=missing, today=today)
        if limits.allow_alone():
            found.setdefault(other.id, Substitute(other.id, other.name, reasons_alone(limits), by_coach=True))
    return tuple(found.values())


def unknown_of(own: Sequence[str], catalogue: Catalogue) -> tuple[str, ...]:
    """The coach's substitutes that no exercise is known for, as written."""
    sure = {name: catalogue.names.find(name, limit=1) for name in own}
    return tuple(name for name, matches in sure.items() if not matches or matches[0].score < _NAME_IS_SURE)


def _wanted(limits: Limits, wanted: ExerciseId | None, catalogue: Catalogue, taken: Sequence[Exercise]) -> list[Exercise]:
    """The member's own wish with the implement that is owned; nothing where a hard limit forbids it."""
    if wanted is None:
        return []
    other = catalogue.get(kit_version(wanted, limits.kit, catalogue))
    return [other] if other is not None and other not in taken and limits.allow(other) else []


def _of_the_coach(limits: Limits, own: Sequence[str], catalogue: Catalogue) -> list[Exercise]:
    """The coach's own that this member can do, each with the implement the member owns."""
    found: list[Exercise] = []
    for name in own:
        matches = catalogue.names.find(name, limit=1)
        if not matches or matches[0].score < _NAME_IS_SURE:
            continue
        other = catalogue.get(kit_version(matches[0].exercise, limits.kit, catalogue, written=name))
        if other is not None and other not in found and limits.allow(other):
            found.append(other)
    return found


@dataclass(frozen=True, slots=True)
class _Wish:
    """What the search is after, looked up once."""

    limits: Limits
    slow: bool
    few_reps: bool
    busy: frozenset[object]  # groups that today already works twice and that the slot is not about
    families: frozenset[str]


def _ranked(limits: Limits, catalogue: Catalogue, slot: Slot | None, today: Sequence[ExerciseId]) -> list[tuple[float, Exercise]]:
    others = [found for one in today if (found := catalogue.get(one))]
    counts = Counter(group for other in others for group in groups_of(other.prime))
    own_groups = set(groups_of(limits.entry.prime))
    wish = _Wish(
        limits,
        slow=_slow(slot),
        few_reps=_few_reps(slot),
        busy=frozenset(group for group, count in counts.items() if count >= 2 and group not in own_groups),
        families=frozenset(other.family for other in others),
    )
    least = _LEAST_IN_PAIN if limits.parts else _LEAST_IN_NEED
    allowed = [
        (alike, other)
        for alike, other in kin_of(catalogue).of(limits.entry)
        if alike >= least and nearness(limits.entry, other) and limits.allow(other)
    ]
    fitting = [pair for pair in allowed if _right_grade(limits, pair[1])] or (
        [] if limits.reason is Reason.TOO_EASY else [pair for pair in allowed if pair[1].difficulty <= limits.entry.difficulty]
    )
    scored = sorted(
        ((_score(wish, other, alike), alike, other) for alike, other in fitting), key=lambda one: (-one[0], one[2].id)
    )
    enough = [
        (score, other) for score, alike, other in scored if score >= _LEAST and not is_last_resort(limits.entry, other, alike)
    ]
    if not enough:
        return [(score, other) for score, _, other in scored if score >= least - 0.1][:2]
    return [pair for pair in enough if pair[0] >= enough[0][0] - _BEHIND_BEST]


def _slow(slot: Slot | None) -> bool:
    return slot is not None and any(target.tempo and target.tempo.eccentric_s >= _SLOW_S for target in slot.sets)


def _few_reps(slot: Slot | None) -> bool:
    sets = work_sets(slot) if slot is not None else ()
    highs = [target.high for target in sets if target.high and target.measure is Measure.REPS]
    return bool(highs) and max(highs) <= _FEW_REPS


def _right_grade(limits: Limits, other: Exercise) -> bool:
    """Too hard wants easier, too easy harder; neither ever turns a steady lift into jumps or throws.

    Grades are told inside a pattern only. From a near pattern only what is easy anyway is easier, and only a close one is harder.
    """
    entry, step = limits.entry, other.difficulty - limits.entry.difficulty
    if limits.reason not in _STEP_WISHED or (is_quick(other) and not is_quick(entry)):
        return limits.reason not in _STEP_WISHED
    same = other.pattern is entry.pattern
    if limits.reason is Reason.TOO_HARD:
        if not same:
            return other.difficulty <= min(4, entry.difficulty - 1)
        return step < 0 or (step == 0 and entry.difficulty <= 2)  # at the foot of the ladder a lighter way of the same
    one_side_more = other.one_sided and not entry.one_sided
    return (same or nearness(entry, other) >= _CLOSE_PATTERN) and (step > 0 or (step == 0 and one_side_more))


def _score(wish: _Wish, other: Exercise, score: float) -> float:
    limits, entry = wish.limits, wish.limits.entry
    way = limits.way(other) or frozenset()
    same_pattern = other.pattern is entry.pattern
    step = other.difficulty - entry.difficulty if same_pattern else 0
    score -= _STRAIN_COST * limits.strain(other)
    score -= _grade_cost(limits.reason, step, same_pattern, entry, other)
    if entry.load_style in WEIGHTED and not is_weighted(other, way):
        score -= 0.10 if wish.few_reps or limits.reason is Reason.TOO_EASY else 0.05
    if other.load_style in WEIGHTED and not is_weighted(other, way):
        score -= 0.08  # its name promises a weight that is not there
    if way and way <= ALWAYS_AT_HAND and entry.kit and limits.has_weights:
        score -= 0.05  # a backpack or towel where real weights are at hand
    score += renown(other)
    if is_quick(other) and not is_quick(entry):
        score -= 0.12 + (0.1 if wish.slow else 0)
    if limits.reason is Reason.PAIN and not other.quiet:
        score -= 0.15  # no jumps and drops where something hurts
    if limits.reason is Reason.WISH and other.family == entry.family:
        score -= 0.05  # whoever is tired of it wants something else
    if wish.slow and other.first_phase is FirstPhase.HOLD:
        score -= 0.15
    score -= 0.06 * len(wish.busy & set(groups_of(other.prime)))
    score -= 0.05 if other.family in wish.families and other.family != entry.family else 0.0
    return score


def _grade_cost(reason: Reason, step: int, same_pattern: bool, entry: Exercise, other: Exercise) -> float:
    wished = _STEP_WISHED.get(reason)
    if wished is not None:
        return 0.03 * abs(step - wished) if same_pattern else 0.15
    if not same_pattern:  # grades are told inside a pattern; across two only the ends of the scale mean something
        much_too_easy = 0.05 if entry.difficulty >= 5 and other.difficulty <= 2 and reason is not Reason.PAIN else 0.0
        return 0.03 * max(0, other.difficulty - 5) + much_too_easy
    return 0.03 * max(0, step - 1) + (0.06 if step >= 3 else 0.0) + 0.015 * max(0, -step - 2)


def _varied(ranked: list[tuple[float, Exercise]], taken: Sequence[Exercise], count: int) -> list[Exercise]:
    """The best, each further one marked down by how much it is the same again as those before it."""
    chosen: list[Exercise] = []
    pool = ranked[:40]
    while pool and len(chosen) < count:
        before = [*taken, *chosen]
        best = max(pool, key=lambda pair: (pair[0] - max((_again(pair[1], one) for one in before), default=0.0), pair[1].id))
        pool.remove(best)
        chosen.append(best[1])
    return chosen


def _again(one: Exercise, other: Exercise) -> float:
    if one.family != other.family or nearness(one, other) < 1:
        return 0.0
    return 0.05 if one.load_style is other.load_style and one.one_sided is other.one_sided else 0.025
