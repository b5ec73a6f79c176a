"""What should a member aim at today, set by set, and what comes next?"""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from bot.coaching.course import Course
from bot.coaching.replies import NextUp, SlotLine
from bot.language.situation import Situation
from bot.training.blocks import SetPlace, SetTarget, Sides, Slot, slot_in_week, work_sets
from bot.training.loads import Load
from bot.training.plain import from_plain
from bot.training.progression import SetAim, SlotCase, Suggestion, WeekOfRecords, Why, reason_sentence, suggest
from bot.training.records import SetDone, SetRecord

# How far back a best single is looked for: strength is kept for some weeks and gone after months (Encarnacao 2022; our choice).
_LATELY_DAYS = 120


def targets_of(course: Course, slot: Slot, day: int) -> tuple[SetTarget, ...]:
    """The prescription, sharpened by the newest suggestion for this week: loads and reps to aim at, work sets only.

    A suggestion for another exercise than the one done now (a swap came since) is not used.
    """
    prescribed = work_sets(slot)
    advice = course.scene.uow.advice.newest(member_id=course.member.id, series=course.revision.series, day=day, label=slot.label)
    if advice is None or advice.week_start > course.today:
        by_share = share_of_best(course, slot)
        return prescribed if by_share is None else _all_sharpened(prescribed, by_share)
    suggestion = from_plain(advice.suggestion, Suggestion)
    if suggestion.exercise is not None and suggestion.exercise != course.exercise_of(slot):
        return prescribed
    if slot_in_week(slot, course.week_of(advice.week_start)).sets != slot.sets:
        return prescribed  # the coach asks for other sets in this week of the block than in the one that was suggested for
    return _all_sharpened(prescribed, suggestion)


def share_of_best(course: Course, slot: Slot) -> Suggestion | None:
    """Loads for a share of 1RM before the first suggestion: from what this member did in the exercise anywhere lately.

    Without a set of it on record the suggestion asks for a first try. None where the slot asks for no share.
    """
    if not any(target.percent_1rm for target in work_sets(slot)):
        return None
    exercise = course.exercise_of(slot)
    entry = course.catalogue.get(exercise) if exercise else None
    since = course.today - timedelta(days=_LATELY_DAYS)
    kept = course.scene.uow.records.find(member_id=course.member.id, on=(since, course.today - timedelta(days=1)), active=True)
    records = [
        _in_slot(one.record, slot.label) for one in kept if exercise and one.record.exercise == exercise and one.record.place
    ]
    weeks = (WeekOfRecords(since, tuple(records)),) if records else ()
    week = course.week_of(course.today)
    return suggest(
        SlotCase(slot, course.member.kit, course.member.unit, week=week, history=weeks, exercise=entry, on=course.today)
    )


def _in_slot(record: SetRecord, label: str) -> SetRecord:
    return replace(record, place=SetPlace(label, record.place.number if record.place else 1))


def _all_sharpened(prescribed: tuple[SetTarget, ...], suggestion: Suggestion) -> tuple[SetTarget, ...]:
    sharpened = tuple(_sharpened(target, aim) for target, aim in zip(prescribed, suggestion.sets, strict=False))
    return (*sharpened, *prescribed[len(sharpened) :])


def _sharpened(target: SetTarget, aim: SetAim) -> SetTarget:
    """A set's prescription with the suggestion's load, reps, tempo and extras."""
    return replace(
        target,
        load=aim.load or target.load,
        low=aim.aim if aim.aim is not None and not aim.amrap else target.low,
        high=aim.high if aim.high is not None and aim.aim is not None and aim.high >= aim.aim else aim.aim or target.high,
        tempo=aim.tempo or target.tempo,
        partials=aim.partials or target.partials,
        drops=aim.drops or target.drops,
    )


def slot_line(course: Course, slot: Slot, day: int) -> SlotLine:
    """One slot as the member sees it: prescription, last time, today's target, what is on record."""
    session = course.session
    before = session.on if session else course.today
    last = [kept.record.done for kept in course.last_records(day, before) if kept.label == slot.label and kept.number]
    done = [kept.record.done for kept in course.today_records if kept.label == slot.label and kept.number]
    swapped = slot.label in course.swaps
    exercise = course.exercise_of(slot)
    entry = course.catalogue.get(exercise) if exercise else None
    places = {SetPlace(slot.label, n) for n in range(1, len(work_sets(slot)) + 1)}
    resting = not swapped and rests(course, slot.label, day)
    return SlotLine(
        slot=slot,
        name=course.name_of(slot),
        unit=course.member.unit,
        instead_of=slot.exercise_name if swapped else "",
        last=tuple(last),
        target=work_sets(slot) if resting else targets_of(course, slot, day),
        done=tuple(done),
        skipped=bool(session and places and places <= set(session.skipped)),
        stopped=bool(session and slot.label in session.stopped),
        rests=resting,
        cue=_first_try(course, slot, last)
        or (slot.cues[0] if slot.cues and not swapped else entry.cues[0] if swapped and entry and entry.cues else ""),
    )


def rests(course: Course, label: str, day: int) -> bool:
    """Does a pain report on this slot wait for the coach to clear it?"""
    pains = course.scene.uow.pains.find(member_id=course.member.id, open=True)
    return any(pain.label == label and pain.day in (None, day) for pain in pains)


def _first_try(course: Course, slot: Slot, last: list[SetDone]) -> str:
    """How to find a first load where the plan asks for a share of a best single that is not known; "" elsewhere."""
    found = share_of_best(course, slot) if not last else None
    return reason_sentence(found) if found is not None and found.reason.why is Why.PERCENT_UNKNOWN else ""


def next_up(course: Course, situation: Situation) -> NextUp | None:
    """What comes next in the order, with its target, its load and last time's numbers; None when nothing is left."""
    place = situation.due
    slot = situation.slot(place.label) if place else None
    if place is None or slot is None or situation.day is None:
        return None
    targets = targets_of(course, slot, situation.day.number)
    target = targets[min(place.number, len(targets)) - 1]
    return NextUp(
        place=place,
        name=course.name_of(slot),
        target=target,
        load=target.load or _load_before(situation, place),
        last=_same_set(situation, place),
        sides="" if slot.sides is Sides.BOTH else slot.sides.value,
        of=len(targets),
    )


def _load_before(situation: Situation, place: SetPlace) -> Load | None:
    """The load this slot was last done with: today, else last time."""
    for records in (situation.today, situation.last_time):
        loads = [r.done.load for r in records if r.place and r.place.label == place.label and r.done.load]
        if loads:
            return loads[-1]
    return None


def _same_set(situation: Situation, place: SetPlace) -> SetDone | None:
    return next((record.done for record in situation.last_time if record.place == place), None)
