"""Which other exercise can this member do now, why, and what changes?

Hard limits first: kit at hand, the joint that hurts, room, noise, what another slot of today already is. What is left is ranked by a computed
likeness: pattern, prime and helping muscles, plane, lever, sides, stability, difficulty, phase. The coach's own substitute stands first
whenever the limits allow it. Weights and discounts below are our choice (common practice gives the order: pattern, then muscles, then the rest).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from functools import lru_cache

from bot.training.blocks import ExerciseId, Measure, Sides, Slot
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import Exercise, LoadStyle, Pattern
from bot.training.exercises.muscles import groups_of
from bot.training.kit import Kit, KitItem
from bot.training.loads import Load, LoadKind, Unit, from_kg, say_load
from bot.training.records import SetRecord
from bot.training.safety import JOINT_OF_PART


class Reason(StrEnum):
    MISSING_KIT = "missing_kit"
    PAIN = "pain"
    TOO_HARD = "too_hard"
    TOO_EASY = "too_easy"
    NO_ROOM = "no_room"
    NOISE = "noise"
    TAKEN = "taken"
    WISH = "wish"


@dataclass(frozen=True, slots=True)
class Substitute:
    """One choice. why: short reasons; change: what is different to do; load: to begin with, None if unknown. likeness 0 to 1."""

    exercise: ExerciseId
    name: str
    why: tuple[str, ...]
    change: tuple[str, ...] = ()
    by_coach: bool = False
    likeness: float = 0.0
    load: Load | None = None


# Patterns that train nearly the same and may stand in for one another, with the share of likeness that is kept.
_NEAR = {
    frozenset(pair): share
    for pair, share in (
        ((Pattern.SQUAT, Pattern.LUNGE), 0.8), ((Pattern.SQUAT, Pattern.BRIDGE), 0.45), ((Pattern.LUNGE, Pattern.BRIDGE), 0.45), ((Pattern.SQUAT, Pattern.HINGE), 0.4), ((Pattern.LUNGE, Pattern.HINGE), 0.4), ((Pattern.HINGE, Pattern.BRIDGE), 0.75), ((Pattern.VERTICAL_PULL, Pattern.HORIZONTAL_PULL), 0.65),
        ((Pattern.VERTICAL_PULL, Pattern.PULLOVER), 0.6), ((Pattern.HORIZONTAL_PUSH, Pattern.VERTICAL_PUSH), 0.5),
        ((Pattern.HORIZONTAL_PUSH, Pattern.CHEST_FLY), 0.6), ((Pattern.REAR_SHOULDER, Pattern.HORIZONTAL_PULL), 0.55),
        ((Pattern.SQUAT, Pattern.KNEE_EXTENSION), 0.45), ((Pattern.HINGE, Pattern.KNEE_FLEXION), 0.5), ((Pattern.BRIDGE, Pattern.KNEE_FLEXION), 0.45),
        ((Pattern.ANTI_EXTENSION, Pattern.TRUNK_FLEXION), 0.6), ((Pattern.ANTI_SIDE_BEND, Pattern.SIDE_BEND), 0.7),
        ((Pattern.ANTI_SIDE_BEND, Pattern.CARRY), 0.6), ((Pattern.ANTI_ROTATION, Pattern.ROTATION), 0.7), ((Pattern.ANTI_ROTATION, Pattern.ANTI_EXTENSION), 0.55),
        ((Pattern.SHOULDER_RAISE, Pattern.VERTICAL_PUSH), 0.5), ((Pattern.TRUNK_EXTENSION, Pattern.HINGE), 0.55), ((Pattern.HIP_ABDUCTION, Pattern.BRIDGE), 0.35),
        ((Pattern.CARRY, Pattern.GRIP), 0.5), ((Pattern.SHRUG, Pattern.CARRY), 0.5),
        ((Pattern.TRUNK_FLEXION, Pattern.HIP_FLEXION), 0.6), ((Pattern.ELBOW_EXTENSION, Pattern.HORIZONTAL_PUSH), 0.4),
    )
}  # fmt: skip
_LEAST = 0.42  # below this a choice would puzzle a coach
_LEAST_IN_PAIN = 0.3  # what spares a joint is rarely alike: something useful beats nothing
_LOADED = frozenset({LoadStyle.PAIR, LoadStyle.SINGLE, LoadStyle.BARBELL, LoadStyle.MACHINE})
_SOFT = frozenset({Pattern.MOBILITY, Pattern.CONDITIONING})
# Everyday words for joints that a pattern loads hard besides those the entry names, for pain.
_HARD_ON = {
    "knee": {Pattern.SQUAT, Pattern.LUNGE, Pattern.KNEE_EXTENSION}, "lower_back": {Pattern.HINGE, Pattern.TRUNK_EXTENSION, Pattern.CARRY},
    "shoulder": {Pattern.VERTICAL_PUSH, Pattern.SHOULDER_RAISE}, "elbow": {Pattern.ELBOW_EXTENSION, Pattern.ELBOW_FLEXION},
}  # fmt: skip


def can_do(exercise: Exercise, kit: Kit, missing: frozenset[KitItem] = frozenset()) -> frozenset[KitItem] | None:
    """The way of doing an exercise that this kit allows (an empty set: nothing is needed); None if there is none."""
    ways = exercise.kit or (frozenset(),)
    return next((way for way in ways if not kit.lacks(way) and not way & missing), None)


def kit_version(exercise: ExerciseId, kit: Kit, catalogue: Catalogue, *, written: str = "") -> ExerciseId:
    """The same movement with the implement this member owns: not a swap, the same exercise to the member.

    written: the coach's wording; where it names the implement, the exercise stays what it is.
    """
    entry = catalogue.get(exercise)
    if entry is None or can_do(entry, kit) is not None or _names_implement(written):
        return exercise
    fitting = [
        other
        for other in catalogue.all
        if other.id != entry.id and other.family == entry.family and other.family and other.pattern is entry.pattern
        and other.one_sided == entry.one_sided and other.measure is entry.measure and can_do(other, kit) is not None
        and other.load_style not in (LoadStyle.BAND, LoadStyle.BODY, LoadStyle.NONE)
    ]  # fmt: skip
    return max(fitting, key=lambda other: likeness(entry, other)).id if fitting else exercise


def _names_implement(written: str) -> bool:
    words = written.casefold()
    return any(
        word in words for word in ("barbell", "dumbbell", "kettlebell", "cable", "machine", "band", "smith", "bb ", "db ", "kb ")
    )


def likeness(a: Exercise, b: Exercise) -> float:
    """How alike two exercises are, 0 to 1: the weighted mean of what a coach would look at."""
    pattern = 1.0 if a.pattern is b.pattern else _NEAR.get(frozenset({a.pattern, b.pattern}), 0.0)
    prime = _overlap(groups_of(a.prime), groups_of(b.prime))
    helping = _overlap(groups_of((*a.prime, *a.helping)), groups_of((*b.prime, *b.helping)))
    near = (
        (1.0 if a.plane is b.plane else 0.5) + (1 - abs(a.lever - b.lever) / 4) + (1.0 if a.one_sided == b.one_sided else 0.4)
        + (1 - abs(a.stability - b.stability) / 4) + (1 - min(abs(a.difficulty - b.difficulty), 6) / 6) + (1.0 if a.first_phase is b.first_phase else 0.6)
        + (1.0 if a.measure is b.measure else 0.3)
    ) / 7  # fmt: skip
    family = 1.0 if a.family and a.family == b.family else 0.0
    return 0.36 * pattern + 0.27 * prime + 0.12 * helping + 0.17 * near + 0.08 * family


def _overlap(a: Iterable[object], b: Iterable[object]) -> float:
    one, two = set(a), set(b)
    return len(one & two) / len(one | two) if one | two else 0.0


@lru_cache(maxsize=4096)
def _alike(catalogue_id: int, catalogue: _Held, exercise: ExerciseId) -> tuple[tuple[float, Exercise], ...]:
    """Everything that is like enough, likeliest first, regardless of kit; remembered for each catalogue."""
    entry = catalogue.of.get(exercise)
    if entry is None:
        return ()
    soft = entry.pattern in _SOFT
    scored = (
        (likeness(entry, other), other) for other in catalogue.of.all if other.id != entry.id and (other.pattern in _SOFT) == soft
    )
    return tuple(
        sorted(((score, other) for score, other in scored if score >= _LEAST_IN_PAIN), key=lambda pair: (-pair[0], pair[1].id))
    )


@dataclass(frozen=True)
class _Held:
    """Lets a catalogue be a cache's key by its identity."""

    of: Catalogue

    def __hash__(self) -> int:
        return id(self.of)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Held) and self.of is other.of


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
) -> tuple[Substitute, ...]:
    """Rank what can be done instead.

    own: the coach's substitutes by name. hurting: parts of the body in everyday words. missing: kit not at hand now (KitItem values).
    today: the exercises of today's other slots. records: the member's, for a load to begin with.
    """
    entry = catalogue.get(exercise)
    if entry is None:
        return ()
    gone = _gone(entry, kit, reason, missing)
    joints = {JOINT_OF_PART.get(part, part.replace(" ", "_")) for part in hurting}
    chosen: list[Substitute] = []
    for name in own:
        found = catalogue.names.find(name, limit=1)
        other = catalogue.get(found[0].exercise) if found and found[0].score >= 0.8 else None
        if other and other.id != entry.id and _allowed(entry, other, kit, gone, joints, reason, today):
            chosen.append(_substitute(entry, other, kit, gone, reason, joints, records, slot, unit, by_coach=True))
    ranked = _ranked(entry, catalogue, kit, gone, joints, reason, today)
    families = {_kind(catalogue.get(one.exercise)) for one in chosen}
    spare: list[Exercise] = []
    for _, other in ranked:
        if len(chosen) >= limit:
            break
        if any(one.exercise == other.id for one in chosen):
            continue
        if _kind(other) in families:
            spare.append(other)
            continue
        families.add(_kind(other))
        chosen.append(_substitute(entry, other, kit, gone, reason, joints, records, slot, unit))
    for other in spare[: limit - len(chosen)]:
        chosen.append(_substitute(entry, other, kit, gone, reason, joints, records, slot, unit))
    return tuple(chosen[:limit])


def _kind(exercise: Exercise | None) -> tuple[str, str]:
    """What counts as "the same again" among three choices: one family done the same way."""
    return (exercise.family or exercise.id, exercise.load_style.value) if exercise else ("", "")


def _gone(entry: Exercise, kit: Kit, reason: Reason, missing: Sequence[str]) -> frozenset[KitItem]:
    """The kit that is not at hand now: what was said, else for a taken thing what the exercise itself needs."""
    said = frozenset(KitItem(item) for item in missing if item in KitItem._value2member_map_)
    if said or reason is not Reason.TAKEN:
        return said
    way = can_do(entry, kit) or (entry.kit[0] if entry.kit else frozenset())
    return frozenset(sorted(way)[:1])


def _allowed(
    entry: Exercise,
    other: Exercise,
    kit: Kit,
    gone: frozenset[KitItem],
    joints: set[str],
    reason: Reason,
    today: Sequence[ExerciseId],
) -> bool:
    """The hard limits."""
    if can_do(other, kit, gone) is None or other.id in today:
        return False
    if joints and (joints & set(other.joints) or any(other.pattern in _HARD_ON.get(joint, ()) for joint in joints)):
        return False
    if reason is Reason.NOISE and not other.quiet:
        return False
    if reason is Reason.NO_ROOM and other.room == "walk":
        return False
    if reason is Reason.TOO_HARD and other.difficulty >= entry.difficulty:
        return False
    return not (reason is Reason.TOO_EASY and other.difficulty <= entry.difficulty)


def _ranked(
    entry: Exercise,
    catalogue: Catalogue,
    kit: Kit,
    gone: frozenset[KitItem],
    joints: set[str],
    reason: Reason,
    today: Sequence[ExerciseId],
) -> list[tuple[float, Exercise]]:
    held = _Held(catalogue)
    busy = [groups_of(other.prime) for other in (catalogue.get(one) for one in today) if other]
    found = []
    for score, other in _alike(id(catalogue), held, entry.id):
        if (score < _LEAST and not joints) or not _allowed(entry, other, kit, gone, joints, reason, today):
            continue
        if reason in (Reason.TOO_HARD, Reason.TOO_EASY):
            score += 0.12 if other.family == entry.family else 0.0
            score -= 0.03 * max(0, abs(other.difficulty - entry.difficulty) - 2)
        # What today already works is marked down, less for the muscle that the slot is meant for.
        extra = {group for groups in busy for group in groups} - set(groups_of(entry.prime))
        score -= 0.05 * len(extra & set(groups_of(other.prime)))
        score -= 0.06 if other.load_style is LoadStyle.NONE else 0.0
        score -= 0.05 if entry.load_style in _LOADED and other.load_style not in _LOADED else 0.0
        found.append((score, other))
    return sorted(found, key=lambda pair: (-pair[0], pair[1].id))


def _substitute(
    entry: Exercise, other: Exercise, kit: Kit, gone: frozenset[KitItem], reason: Reason, joints: set[str], records: Sequence[SetRecord],
    slot: Slot | None, unit: Unit, *, by_coach: bool = False,
) -> Substitute:  # fmt: skip
    load, words = _begin_with(entry, other, records, unit, kit)
    return Substitute(
        other.id,
        other.name,
        _why(entry, other, kit, gone, reason, joints),
        _change(entry, other, slot, words),
        by_coach,
        likeness(entry, other),
        load,
    )


def _why(
    entry: Exercise, other: Exercise, kit: Kit, gone: frozenset[KitItem], reason: Reason, joints: set[str]
) -> tuple[str, ...]:
    why = []
    shared = [str(group.value) for group in groups_of(entry.prime) if group in groups_of(other.prime)]
    if other.pattern is entry.pattern:
        why.append("same movement")
    if shared:
        why.append("trains your " + " and ".join(shared[:2]))
    elif other.pattern is not entry.pattern:
        why.append("the nearest that your kit allows")
    way = can_do(other, kit, gone) or frozenset()
    items = sorted(item.value.replace("_", " ") for item in way)
    why.append(f"needs only {' and '.join(items)}" if items else "needs no kit")
    if joints:
        why.append("spares the " + " and ".join(sorted(joint.replace("_", " ") for joint in joints)))
    if reason is Reason.NOISE:
        why.append("quiet")
    if reason is Reason.TOO_HARD:
        why.append("easier")
    elif reason is Reason.TOO_EASY:
        why.append("harder")
    return tuple(why)


def _change(entry: Exercise, other: Exercise, slot: Slot | None, load_words: str) -> tuple[str, ...]:
    change = [load_words] if load_words else []
    if other.measure is not entry.measure:
        words = {
            Measure.SECONDS: "hold it: 20 to 40 s a set",
            Measure.STEPS: "count steps, 20 to 40 a set",
            Measure.METRES: "count metres, 20 to 40 a set",
        }
        change.append(words.get(other.measure, "count reps, 8 to 15 a set"))
    if other.one_sided and not entry.one_sided:
        change.append("the reps are for each side")
    elif entry.one_sided and not other.one_sided and slot is not None and slot.sides is not Sides.BOTH:
        change.append("both sides together: the same reps")
    if other.difficulty - entry.difficulty >= 2:
        change.append("harder: expect fewer reps")
    elif entry.difficulty - other.difficulty >= 2 and other.load_style in (LoadStyle.BODY, LoadStyle.BAND):
        change.append("easier: more reps, or a slower way down")
    return tuple(change)


_ACROSS_KIN, _ACROSS_PATTERN = Decimal("0.85"), Decimal("0.7")


def _begin_with(entry: Exercise, other: Exercise, records: Sequence[SetRecord], unit: Unit, kit: Kit) -> tuple[Load | None, str]:
    """A load to begin with from the member's own sets: last time's on the exercise itself, else a cautious share of the original's.

    The share (85 % inside a family, 70 % across) is common practice: a first try should feel light.
    """
    if other.load_style in (LoadStyle.BODY, LoadStyle.BAND, LoadStyle.NONE, LoadStyle.MACHINE):
        return None, ""
    known = _last(records, other.id)
    if known is not None:
        return known, f"last time {say_load(known)}"
    base = _last(records, entry.id)
    if base is None or base.kg is None or base.kind is not LoadKind.IMPLEMENT:
        return None, "begin light and see"
    share = _ACROSS_KIN if entry.family == other.family else _ACROSS_PATTERN
    total = base.total_kg if base.total_kg is not None else base.kg
    each = total * share / (2 if other.load_style is LoadStyle.PAIR else 1)
    item = {LoadStyle.BARBELL: KitItem.BARBELL}.get(other.load_style, KitItem.DUMBBELL)
    ladder = kit.ladder(item)
    if ladder is not None and ladder.amounts:
        under = [amount for amount in ladder.amounts if Load(LoadKind.IMPLEMENT, amount, ladder.unit).kg <= each]  # type: ignore[operator]
        load = Load(
            LoadKind.IMPLEMENT, under[-1] if under else ladder.amounts[0], ladder.unit, pair=other.load_style is LoadStyle.PAIR
        )
    else:
        amount = from_kg(each, unit).quantize(Decimal(1))
        load = Load(LoadKind.IMPLEMENT, max(amount, Decimal(1)), unit, pair=other.load_style is LoadStyle.PAIR)
    return load, f"first try about {say_load(load)}, a cautious guess from {entry.name.lower()}"


def _last(records: Sequence[SetRecord], exercise: ExerciseId) -> Load | None:
    fitting = [r for r in records if r.exercise == exercise and r.done.load is not None and not (r.painful or r.doubtful)]
    return max(fitting, key=lambda record: record.on).done.load if fitting else None
