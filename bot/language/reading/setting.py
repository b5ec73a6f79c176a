"""What is known of the slot that a text speaks of: its targets, its loads of today and last time, its kit, how it is counted."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Any, Generic, TypeVar, overload

from bot.language.situation import Situation
from bot.training.blocks import Day, ExerciseId, LoadRule, Measure, SetKind, SetPlace, SetTarget, Sides, Slot, work_sets
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import Exercise, LoadStyle, Pattern
from bot.training.kit import KitItem, Ladder
from bot.training.loads import Load, LoadKind
from bot.training.records import SetRecord

_HELPED_PATTERNS = frozenset((Pattern.VERTICAL_PULL,))
_NEEDS_LOAD = frozenset((LoadStyle.PAIR, LoadStyle.SINGLE, LoadStyle.BARBELL, LoadStyle.MACHINE, LoadStyle.BAND))
_STYLE_ITEM = {LoadStyle.PAIR: KitItem.DUMBBELL, LoadStyle.SINGLE: KitItem.DUMBBELL, LoadStyle.BARBELL: KitItem.BARBELL}


Value = TypeVar("Value")


class kept(Generic[Value]):
    """A property that is worked out once. The library's own takes a lock at each first use, which here cost as much as the work."""

    def __init__(self, work_out: Callable[[Any], Value]) -> None:
        self.work_out = work_out
        self.name = work_out.__name__
        self.__doc__ = work_out.__doc__

    @overload
    def __get__(self, setting: None, owner: Any = None) -> kept[Value]: ...
    @overload
    def __get__(self, setting: object, owner: Any = None) -> Value: ...
    def __get__(self, setting: object | None, owner: Any = None) -> kept[Value] | Value:
        if setting is None:
            return self
        value = setting.__dict__[self.name] = self.work_out(setting)
        return value


@dataclass
class Setting:
    """One slot of one session, as its sets are read. slot None: an exercise outside the day."""

    situation: Situation
    catalogue: Catalogue
    slot: Slot | None
    exercise_id: ExerciseId | None
    on: date
    day: Day | None
    records: tuple[SetRecord, ...]  # of that session and slot, work sets only, oldest first
    start_at: int = 1  # the set number that comes next
    session: bool = False  # several exercises were told in the same text
    load_first: bool = False  # other exercises of the same text were told with the load before the counts

    @kept
    def entry(self) -> Exercise | None:
        return self.catalogue.get(self.exercise_id)

    @kept
    def style(self) -> LoadStyle:
        if self.entry is not None:
            return self.entry.load_style
        said = (target.load for target in self.targets)
        return next((LoadStyle.PAIR if load.pair else LoadStyle.SINGLE for load in said if load is not None), LoadStyle.SINGLE)

    @kept
    def targets(self) -> tuple[SetTarget, ...]:
        return work_sets(self.slot) if self.slot else ()

    def target(self, number: int) -> SetTarget | None:
        return self.targets[number - 1] if 0 < number <= len(self.targets) else self.targets[-1] if self.targets else None

    @kept
    def measure(self) -> Measure:
        if self.targets:
            return self.targets[0].measure
        return self.entry.measure if self.entry else Measure.REPS

    @kept
    def sided(self) -> bool:
        if self.slot is not None and self.slot.sides is not Sides.BOTH:
            return True
        if self.measure in (Measure.STEPS, Measure.METRES):
            return False  # "3 x 20 steps": of both legs together, where the coach says nothing else
        return self.entry is not None and self.entry.one_sided

    @property
    def needs_load(self) -> bool:
        return self.style in _NEEDS_LOAD

    @property
    def helped(self) -> bool:
        """Does a band help here, rather than resist? Pull-ups and dips."""
        entry = self.entry
        if entry is None or entry.load_style is not LoadStyle.BODY:
            return False
        return entry.pattern in _HELPED_PATTERNS or "dip" in entry.id

    @kept
    def free_numbers(self) -> tuple[int, ...]:
        """The set numbers still to do, the next one first."""
        gone = {record.place.number for record in self.records if record.place}
        if self.slot and self.on == self.situation.on:
            gone |= {place.number for place in self.situation.skipped if place.label == self.slot.label}
        numbers = range(1, len(self.targets) + 1)
        later = [n for n in numbers if n >= self.start_at and n not in gone]
        return (*later, *(n for n in numbers if n < self.start_at and n not in gone))

    @kept
    def last(self) -> tuple[SetRecord, ...]:
        """This slot's work sets of the latest earlier session."""
        label = self.slot.label if self.slot else ""
        return tuple(
            record
            for record in self.situation.last_time
            if record.place and record.place.label == label and record.done.kind is not SetKind.WARM_UP
        )

    def last_set(self, number: int) -> SetRecord | None:
        same = [record for record in self.last if record.place and record.place.number == number]
        return same[-1] if same else self.last[-1] if self.last else None

    @kept
    def known_loads(self) -> tuple[tuple[float, float], ...]:
        """(kilograms, how much they say) of loads that this member has used here, or that the coach named."""
        found: list[tuple[float, float]] = []
        for record in self.records:
            if record.done.load and record.done.load.kg is not None:
                found.append((float(record.done.load.kg), 1.0))
        for record in self.last:
            if record.done.load and record.done.load.kg is not None and self._same_exercise(record):
                found.append((float(record.done.load.kg), 1.0))
        for target in self.targets:
            if target.load and target.load.kg is not None:
                found.append((float(target.load.kg), 1.0))
        return tuple(found)

    def _same_exercise(self, record: SetRecord) -> bool:
        return record.exercise is None or record.exercise == self.exercise_id

    @kept
    def ladder(self) -> Ladder | None:
        """The settings of the implement that this exercise is loaded with, where the member's kit has them."""
        kit = self.situation.kit
        if self.entry is not None:
            for way in self.entry.kit:
                for item in way:
                    ladder = kit.ladder(item)
                    if ladder is not None:
                        return ladder
        usual = _STYLE_ITEM.get(self.style)
        return kit.ladder(usual) if usual else None

    @kept
    def in_turns(self) -> bool:
        """Is a superset that this slot belongs to under way?"""
        day, slot = self.situation.day, self.slot
        if day is None or slot is None or self.on != self.situation.on:
            return False
        partners = {other.label for other in day.slots if other.group == slot.group and other.label != slot.label}
        return any(record.place is not None and record.place.label in partners for record in self.situation.today)

    @kept
    def steady(self) -> bool:
        """Does one load stay over all sets, so that an unsaid load is that of the set before?"""
        if self.slot is not None and self.slot.load_rule in (LoadRule.RISES, LoadRule.FALLS):
            return False
        loads = {target.load for target in self.targets if target.load is not None}
        percents = {target.percent_1rm for target in self.targets}
        return len(loads) <= 1 and len(percents) <= 1

    def load_before(self, number: int) -> Load | None:
        """The load of the set before this one today; of any set today where numbers are out of order."""
        earlier = [r for r in self.records if r.place and r.place.number < number and r.done.load] or [
            r for r in self.records if r.done.load
        ]
        return earlier[-1].done.load if earlier else None

    def has_extra_load(self) -> bool:
        """Was this body-weight exercise last done with added load or help?"""
        return any(r.done.load is not None and r.done.load.kind not in (LoadKind.BODY,) for r in self.last)


def setting_for(
    situation: Situation, catalogue: Catalogue, slot: Slot | None, *, exercise: ExerciseId | None = None, on: date | None = None,
    day: Day | None = None,
) -> Setting:  # fmt: skip
    """The setting of a slot; today's unless a date and day are said."""
    when = on or situation.on
    day = day or situation.day
    whose = exercise or (situation.exercise_of(slot) if slot and when == situation.on else slot.exercise if slot else None)
    pool = situation.today if when == situation.on else situation.earlier
    records = tuple(
        r for r in pool
        if slot and r.place and r.place.label == slot.label and r.on == when and r.done.kind is not SetKind.WARM_UP
        and (when == situation.on or r.day is None or day is None or r.day == day.number)
    )  # fmt: skip
    due = situation.due if when == situation.on else None
    start = 1
    if slot and due and due.label == slot.label:
        start = due.number
    elif records and records[-1].place:
        start = records[-1].place.number + 1
    return Setting(situation, catalogue, slot, whose, when, day, records, start)


def place_of(setting: Setting, number: int) -> SetPlace | None:
    return SetPlace(setting.slot.label, number) if setting.slot else None
