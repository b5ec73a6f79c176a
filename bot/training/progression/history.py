"""What did this member do in this slot, session by session, as far as advice may be built on it?

Left out: painful and doubtful records, warm-ups, sets of another exercise, counts of another measure. The rest is grouped by date and
set number, so that a set is compared with the same set of last time.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from bot.training.blocks import ExerciseId, Measure, SetKind, SetTarget, Sides, Slot, work_sets
from bot.training.effort import rir_of_rpe
from bot.training.loads import Load
from bot.training.progression.sleep import speaks_of_bad_sleep
from bot.training.progression.values import SlotCase, WeekOfRecords
from bot.training.records import SetDone, SetRecord


@dataclass(frozen=True, slots=True)
class Did:
    """One usable set. count: the weaker side's; rir: reserve as said, 0 at failure, None if nothing was said."""

    number: int
    count: int
    load: Load | None
    rir: Decimal | None
    done: SetDone

    @property
    def said(self) -> int:
        """The count as the member said it: one said with doubt is built on a rep lower, and spoken of as it was."""
        return self.count if self.done.worst_count is None else self.done.worst_count

    @property
    def kg(self) -> Decimal | None:
        return self.load.kg if self.load is not None else None

    @property
    def loose(self) -> bool:
        """Was it said to be done less well than asked: form or tempo given up?"""
        return self.done.form_kept is False or self.done.tempo_kept is False


@dataclass(frozen=True, slots=True)
class SessionDone:
    """The usable sets of one slot on one date, by number in order. week: how many weeks before the targets' week, as a float."""

    on: date
    sets: tuple[Did, ...]

    @property
    def counts(self) -> tuple[int, ...]:
        return tuple(did.count for did in self.sets)

    @property
    def said(self) -> tuple[int, ...]:
        return tuple(did.said for did in self.sets)

    def set(self, number: int) -> Did | None:
        return next((did for did in self.sets if did.number == number), None)


def exercise_id(case: SlotCase) -> ExerciseId | None:
    return case.exercise.id if case.exercise is not None else case.slot.exercise


def targets(slot: Slot) -> tuple[SetTarget, ...]:
    return work_sets(slot)


def measure_of(case: SlotCase) -> Measure:
    return next((target.measure for target in case.slot.sets if target.kind is not SetKind.WARM_UP), Measure.REPS)


def sessions_of(case: SlotCase) -> tuple[SessionDone, ...]:
    """Usable sessions, oldest first; a session with nothing usable is left out."""
    by_date: dict[date, dict[int, Did]] = {}
    wanted, measure = exercise_id(case), measure_of(case)
    for week in case.history:
        for record in week.records:
            did = _usable(record, case.slot.label, wanted, measure)
            if did is not None:
                by_date.setdefault(record.on, {})[did.number] = did
    return tuple(SessionDone(on, tuple(sets[n] for n in sorted(sets))) for on, sets in sorted(by_date.items()))


def has_usable(week: WeekOfRecords, case: SlotCase) -> bool:
    """Is there anything in one week that advice may be built on?"""
    wanted, measure = exercise_id(case), measure_of(case)
    return any(_usable(record, case.slot.label, wanted, measure) is not None for record in week.records)


def _usable(record: SetRecord, label: str, wanted: ExerciseId | None, measure: Measure) -> Did | None:
    done = record.done
    if record.place is None or record.place.label != label or done.kind is SetKind.WARM_UP:
        return None
    if record.painful or record.doubtful or (wanted and record.exercise and record.exercise != wanted):
        return None
    count = done.worst_count
    if count is None or count < 0 or done.measure is not measure:
        return None
    if done.about:
        count = max(0, count - 1)  # "about 12" is no witness for 12 (our choice)
    return Did(record.place.number, count, done.load, reserve_of(done), done)


def reserve_of(done: SetDone) -> Decimal | None:
    """Reps in reserve: said, or from an RPE of 6 and more; 0 where a rep failed."""
    if done.failure:
        return Decimal(0)
    if done.rir is not None:
        return done.rir
    return rir_of_rpe(done.rpe) if done.rpe is not None and 0 <= done.rpe <= 10 else None


def last_week(case: SlotCase) -> WeekOfRecords | None:
    return case.history[-1] if case.history else None


def hurts_in(weeks: Sequence[WeekOfRecords], label: str) -> bool:
    return any(record.painful and (record.place is None or record.place.label == label) for w in weeks for record in w.records)


def slept_badly(case: SlotCase) -> bool:
    """Said of this week, or in last week's notes or beside its sets."""
    week = last_week(case)
    if case.poor_sleep or (week is not None and week.poor_sleep):
        return True
    said = [] if week is None else [*week.notes, *(record.done.note for record in week.records)]
    return any(speaks_of_bad_sleep(text) for text in said if text)


def has_sides(case: SlotCase) -> bool:
    return case.slot.sides is not Sides.BOTH or bool(case.exercise and case.exercise.one_sided)
