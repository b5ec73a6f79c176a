"""What did the coach write? A block: weeks, days, slots, and for every set a prescription.

A block is a plain value, the same whether it came from a text, a CSV or a spreadsheet. A published block never changes; an
amendment is a new revision, and a set record names the revision it was done under.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from enum import StrEnum
from types import MappingProxyType
from typing import NewType

from bot.training.kit import KitItem
from bot.training.loads import Load
from bot.training.tempo import Tempo

ExerciseId = NewType("ExerciseId", str)  # catalogue id such as "goblet_squat"; a coach's own begins with "own:"


class Measure(StrEnum):
    """What is counted in a set."""

    REPS = "reps"
    SECONDS = "seconds"
    STEPS = "steps"
    METRES = "metres"


class SetKind(StrEnum):
    WORK = "work"
    WARM_UP = "warm_up"
    BURNOUT = "burnout"


class Sides(StrEnum):
    """How the two sides of the body share a set."""

    BOTH = "both"  # together: no sides to count
    EACH = "each"  # the count is for each side, in any order
    LEFT_FIRST = "left_first"
    RIGHT_FIRST = "right_first"
    WEAKER_FIRST = "weaker_first"  # the other side matches
    ONE_SIDE_THROUGH = "one_side_through"  # all sets of one side before the other
    ALTERNATING = "alternating"  # left, right, left ...; the count is for each side


class LoadRule(StrEnum):
    """How the load moves from set to set of one slot."""

    FREE = "free"  # nothing said: the member chooses; straight sets usually keep one load
    SAME = "same"  # one load over all sets, said by the coach
    RISES = "rises"
    FALLS = "falls"


@dataclass(frozen=True, slots=True)
class Partials:
    """Part-range reps beside or instead of full ones. where: "top", "bottom", "quarter", "half", or "" if not said."""

    count: int | None = None
    where: str = ""


@dataclass(frozen=True, slots=True)
class Drop:
    """A load cut straight after a set. Either may be unsaid. cut_percent is of the set's load."""

    cut_percent: int | None = None
    load: Load | None = None
    low: int | None = None
    high: int | None = None  # None with low None: as many as possible


@dataclass(frozen=True, slots=True)
class SetTarget:
    """The prescription of one set.

    low..high: the range in the measure's own unit, equal for a single number; both None for a bare AMRAP. With amrap set, low
    is the least hoped for. rir, rpe: wished effort. load: one that the coach names.
    """

    low: int | None = None
    high: int | None = None
    measure: Measure = Measure.REPS
    amrap: bool = False
    kind: SetKind = SetKind.WORK
    tempo: Tempo | None = None
    rir: Decimal | None = None
    rpe: Decimal | None = None
    percent_1rm: Decimal | None = None
    load: Load | None = None
    partials: Partials | None = None
    drops: tuple[Drop, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Rest:
    """Seconds between sets; equal for a single number. A rest the coach did not state is None, never 0."""

    low_s: int
    high_s: int


class PolicyKind(StrEnum):
    """How a slot is to progress, when the coach says so."""

    USUAL = "usual"  # reps through the range, then load
    REPS_ONLY = "reps_only"
    LOAD_ONLY = "load_only"
    HOLD = "hold"  # keep as it is
    TEMPO = "tempo"  # slower before heavier


@dataclass(frozen=True, slots=True)
class WeekSets:
    """The sets of a slot from this week of the block on (2, 3, ...), until a later week says otherwise.

    rest: between them; None where it stays as it was the week before.
    """

    week: int
    sets: tuple[SetTarget, ...]
    rest: Rest | None = None


@dataclass(frozen=True, slots=True)
class Slot:
    """An exercise's place in the order of a day.

    label: "A1". Slots of one letter alternate (superset). exercise_name is the coach's own wording; exercise the catalogue's id,
    or None while not matched. sets: in order, warm-ups included only when the coach prescribes them as sets; those of week 1
    where the coach writes other sets for later weeks (weeks, by week).
    """

    label: str
    exercise_name: str
    sets: tuple[SetTarget, ...]
    exercise: ExerciseId | None = None
    sides: Sides = Sides.BOTH
    load_rule: LoadRule = LoadRule.FREE
    rest: Rest | None = None
    cues: tuple[str, ...] = ()
    substitutes: tuple[str, ...] = ()  # the coach's own, in the coach's order; names as written
    kit: frozenset[KitItem] = frozenset()  # said beside the exercise, on top of the catalogue's
    grip: str = ""
    angle_deg: int | None = None
    demo: str = ""  # a link, or the platform's file id after "file:"
    policy: PolicyKind = PolicyKind.USUAL
    note: str = ""
    weeks: tuple[WeekSets, ...] = ()

    @property
    def group(self) -> str:
        """The letter(s) that slots of one superset share: "A" of "A1"."""
        return self.label.rstrip("0123456789")


@dataclass(frozen=True, slots=True)
class Day:
    """One training day of the split, numbered from 1 in the block's order."""

    number: int
    name: str
    slots: tuple[Slot, ...]
    warm_up: tuple[str, ...] = ()
    note: str = ""

    def slot(self, label: str) -> Slot | None:
        return next((slot for slot in self.slots if slot.label == label), None)


@dataclass(frozen=True, slots=True)
class Block:
    """A month's (or more) plan.

    rhythm: the split as on and off days, True for training; the first True is day 1. Three on, one off, two on, one off by
    default. week_aims: what the coach wants of week 1, 2, ...; the last holds on.
    """

    name: str
    days: tuple[Day, ...]
    rhythm: tuple[bool, ...] = (True, True, True, False, True, True, False)
    weeks_default: int = 4
    weeks_min: int = 4
    weeks_max: int = 10
    week_aims: tuple[str, ...] = ()
    note: str = ""
    policy: PolicyKind = PolicyKind.USUAL
    aliases: tuple[tuple[str, str], ...] = field(default=())  # the coach's own short names: (alias, exercise_name)

    def day(self, number: int) -> Day | None:
        return next((day for day in self.days if day.number == number), None)


@dataclass(frozen=True, slots=True, order=True)
class SetPlace:
    """Which set: slot label and set number from 1. Warm-up sets have no number, so no place."""

    label: str
    number: int


def work_sets(slot: Slot) -> tuple[SetTarget, ...]:
    """The numbered sets of a slot: all but its warm-ups."""
    return tuple(target for target in slot.sets if target.kind is not SetKind.WARM_UP)


def slot_in_week(slot: Slot, week: int) -> Slot:
    """The slot with the sets and the rest that it has in a week of the block, counted from 1; asked again, it gives another's."""
    if not slot.weeks:
        return slot
    weeks = slot.weeks if slot.weeks[0].week == 1 else (WeekSets(1, slot.sets, slot.rest), *slot.weeks)
    held = [change for change in weeks if change.week <= max(1, week)]
    rest = next((change.rest for change in reversed(held) if change.rest is not None), None)
    return replace(slot, sets=held[-1].sets, rest=rest, weeks=weeks)


def with_weeks(
    slot: Slot, by_week: Mapping[int, tuple[SetTarget, ...]], rests: Mapping[int, Rest] = MappingProxyType({})
) -> Slot:
    """The slot with these sets, and these rests, in these weeks; a week like the one before it needs no word. by_week has week 1."""
    weeks: list[WeekSets] = []
    sets, rest = by_week[1], slot.rest
    for week in sorted({*by_week, *rests} - {1}):
        now, pause = by_week.get(week, sets), rests.get(week, rest)
        if (now, pause) != (sets, rest):
            weeks.append(WeekSets(week, now, pause if pause != rest else None))
        sets, rest = now, pause
    return replace(slot, sets=by_week[1], weeks=tuple(weeks))


def block_in_week(block: Block, week: int) -> Block:
    """The block as it is to be trained in one of its weeks: the same value where no slot's sets change by week."""
    if not any(slot.weeks for day in block.days for slot in day.slots):
        return block
    days = tuple(replace(day, slots=tuple(slot_in_week(slot, week) for slot in day.slots)) for day in block.days)
    return replace(block, days=days)


def order_of(day: Day) -> tuple[SetPlace, ...]:
    """The order in which a day's sets are done: A1 set 1, A2 set 1, A1 set 2 ..., then B1.

    Slots of one letter alternate, a slot with fewer sets drops out early (common practice for supersets).
    """
    places: list[SetPlace] = []
    groups: dict[str, list[Slot]] = {}
    for slot in day.slots:
        groups.setdefault(slot.group, []).append(slot)
    for slots in groups.values():
        rounds = max((len(work_sets(slot)) for slot in slots), default=0)
        for number in range(1, rounds + 1):
            places += [SetPlace(slot.label, number) for slot in slots if number <= len(work_sets(slot))]
    return tuple(places)
