"""The week ends: every member's next targets with their reasons, and the coach's picture of the group.

The member's review computes one suggestion for each slot, keeps it (so that next week can be held against it, and so that each
session shows its targets), and queues one message. The coach's picture is gathered from the same values.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from bot.coaching import replies
from bot.coaching.course import Course, course_of
from bot.coaching.scene import Choice, Scene
from bot.training import people
from bot.training.blocks import Day, SetTarget, Slot, work_sets
from bot.training.plain import from_plain, to_plain
from bot.training.progression import SlotCase, Suggestion, WeekOfRecords, reason_sentence, suggest, target_words
from bot.training.reminders import TOO_LATE_S
from bot.training.reviews import find_questions, forecast_sentence, lift_series, slot_trend, week_totals, went_well

# So many slots stand in the weekly message; the whole table is one word away (our choice for a phone).
_SHOWN_SLOTS = 6
_CHARTED = 4
_COACH_HOUR = 20


# --- one member's week ---


def member_week_due(scene: Scene, member_id: int, last: date) -> None:
    """A member's week has ended on `last`, in their own zone."""
    from bot.coaching import reminders

    member = scene.uow.members.get(member_id)
    if member is None or member.state is not people.MemberState.ACTIVE:
        return
    scene = scene.in_chat(member.chat_id)
    course = course_of(scene, member)
    if course is not None and course.assignment.started_on <= last:
        if course.week_of(last) >= course.assignment.weeks:
            _end_of_block(scene, course, last)
        _member_week(scene, course, last)
    reminders.check_silence(scene, member)
    reminders.schedule_week_end(scene, member)


def _member_week(scene: Scene, course: Course, last: date) -> None:
    first = last - timedelta(days=6)
    week = course.week_of(last)
    sessions = [session for session in course.sessions if first <= session.on <= last]
    planned = course.planned(first, last)
    suggestions = suggest_week(scene, course, last)
    if not sessions and not any(kept for kept in suggestions):
        return
    lines = [_advice_line(course, day, slot, suggestion) for day, slot, suggestion in suggestions]
    ordered = sorted(lines, key=lambda line: _TELLING.get(line.kind, 5))[:_SHOWN_SLOTS]
    shown = [line for line in lines if line in ordered]
    records = [kept.record for session in sessions for kept in course.records_of(session)]
    reply = replies.WeekReviewed(
        week=week,
        weeks=course.assignment.weeks,
        done=len(sessions),
        planned=max(len(planned), len(sessions)),
        well=tuple(went_well(records, _records_before(course, first), course.catalogue)[:3]),
        lines=tuple(shown),
        more=len(lines) - len(shown),
        totals=tuple(week_totals(records, course.catalogue, [(s.effort, s.minutes) for s in sessions])),
        questions=tuple(find_questions(records, _records_before(course, first))[:2]),
        chart=_chart(course, week, suggestions),
    )
    scene.say(reply, lane="weekly", key=f"week:{course.member.id}:{last}")


# What is worth the member's attention first; the rest stands in the whole table.
_TELLING = {
    "after_pain": 0, "coach_says": 0, "add_load": 1, "ease": 1, "harder_variation": 1, "slower": 2, "add_hold_load": 2, "back_in": 2,
    "add_reps": 3, "hold": 4, "first_week": 4,
}  # fmt: skip


def suggest_week(scene: Scene, course: Course, last: date) -> list[tuple[Day, Slot, Suggestion]]:
    """Compute, keep and return next week's suggestion for every slot that has records."""
    start = last + timedelta(days=1)
    history = _history(course, last)
    pains = scene.uow.pains.find(member_id=course.member.id, open=True)
    found = []
    for day in course.block.days:
        for slot in day.slots:
            weeks = history.get((day.number, slot.label), ())
            override = _override(scene, course, day.number, slot.label)
            if not any(week.records for week in weeks) and override is None:
                continue
            painful = any(pain.label == slot.label and pain.day in (None, day.number) for pain in pains)
            exercise = _exercise_done(course, day, slot)
            case = SlotCase(
                slot=slot,
                kit=course.member.kit,
                unit=course.member.unit,
                week=course.week_of(start),
                weeks_in_block=course.assignment.weeks,
                history=tuple(weeks),
                exercise=course.catalogue.get(exercise) if exercise else None,
                override=override,
                painful=painful,
                days_away=_days_away(course, last),
                policy=slot.policy if slot.policy.value != "usual" else course.block.policy,
            )
            suggestion = suggest(case)
            _keep(scene, course, start, day.number, slot.label, suggestion)
            found.append((day, slot, suggestion))
    return found


def _exercise_done(course: Course, day: Day, slot: Slot) -> Any:
    """The exercise that next week's target is for: a block-wide substitute, else the coach's."""
    taken = course.scene.uow.swaps.find(
        member_id=course.member.id, series=course.revision.series, day=day.number, label=slot.label, active=True, session_id=None
    )
    return taken[-1].exercise if taken else slot.exercise


def _history(course: Course, last: date) -> dict[tuple[int, str], list[WeekOfRecords]]:
    """Each slot's records by week of the block, oldest first, up to the week that ends on `last`."""
    first = course.assignment.started_on
    weeks = (last - first).days // 7 + 1
    starts = [last - timedelta(days=7 * n + 6) for n in reversed(range(max(weeks, 1)))]
    slots: dict[tuple[int, str], dict[date, list[people.KeptRecord]]] = {}
    for kept in course.scene.uow.records.find(member_id=course.member.id, on=(first, last), active=True):
        if kept.label:
            start = next(start for start in reversed([first, *starts]) if start <= kept.on)
            slots.setdefault((kept.day, kept.label), {}).setdefault(max(start, starts[0]), []).append(kept)
    notes = {session.on: session.note for session in course.sessions if session.note}
    return {
        key: [
            WeekOfRecords(
                week_start=start,
                records=tuple(kept.record for kept in by_week.get(start, ())),
                missed=not by_week.get(start),
                notes=tuple(note for on, note in notes.items() if start <= on <= start + timedelta(days=6)),
            )
            for start in starts
        ]
        for key, by_week in slots.items()
    }


def _records_before(course: Course, first: date) -> list[Any]:
    kept = course.scene.uow.records.find(
        member_id=course.member.id, on=(course.assignment.started_on, first - timedelta(days=1)), active=True
    )
    return [one.record for one in kept]


def _days_away(course: Course, last: date) -> int:
    """Days since the last session, at the week's end."""
    trained = [session.on for session in course.sessions if session.on <= last]
    return (last - max(trained)).days if trained else 0


def _keep(
    scene: Scene, course: Course, start: date, day: int, label: str, suggestion: Suggestion, *, by_coach: bool = False
) -> None:
    keys: dict[str, Any] = {
        "member_id": course.member.id, "series": course.revision.series, "week_start": start, "day": day, "label": label,
    }  # fmt: skip
    standing = scene.uow.advice.newest(**keys)
    value = people.Advice(**keys, suggestion=to_plain(suggestion), made_at=scene.now, by_coach=by_coach)
    if standing is None:
        scene.uow.advice.add(value)
    elif by_coach or not standing.by_coach:
        scene.uow.advice.save(replace(value, id=standing.id))


def _override(scene: Scene, course: Course, day: int, label: str) -> tuple[SetTarget, ...] | None:
    """The coach's own target for this member and slot, while it is for a week to come."""
    advice = scene.uow.advice.newest(member_id=course.member.id, series=course.revision.series, day=day, label=label)
    if advice is None or not advice.by_coach or advice.week_start <= course.today:
        return None
    return from_plain(advice.suggestion, Suggestion).sets


def set_target(scene: Scene, course: Course, day: Day, label: str, target: SetTarget) -> None:
    """The coach sets one member's target: it stands from now on, before any computed one."""
    slot = day.slot(label)
    assert slot is not None
    sets = tuple(replace(old, load=target.load or old.load, low=target.low, high=target.high) for old in work_sets(slot))
    suggestion = Suggestion.by_coach(slot, sets)
    assert course.member.plan is not None
    start = course.member.plan.week_start_for(course.today)
    _keep(scene, course, start, day.number, label, suggestion, by_coach=True)


def _advice_line(course: Course, day: Day, slot: Slot, suggestion: Suggestion) -> replies.AdviceLine:
    name = course.catalogue.get(suggestion.exercise)
    shown = name.name if name and suggestion.exercise != slot.exercise else slot.exercise_name
    return replies.AdviceLine(
        day.number, slot.label, shown, target_words(suggestion), reason_sentence(suggestion), suggestion.kind.value
    )


def show_whole(scene: Scene, member: people.Member) -> None:
    """All of this week's targets."""
    course = course_of(scene, member)
    lines = []
    for day in course.block.days if course else ():
        for slot in day.slots:
            assert course is not None
            advice = scene.uow.advice.newest(member_id=member.id, series=course.revision.series, day=day.number, label=slot.label)
            if advice is not None:
                lines.append(_advice_line(course, day, slot, from_plain(advice.suggestion, Suggestion)))
    week = course.week_of(course.today) if course else 1
    scene.say(replies.WholeAdvice(week, tuple(lines)))


def _chart(course: Course, week: int, suggestions: list[tuple[Day, Slot, Suggestion]]) -> dict[str, Any] | None:
    """The lifts with the most to show, as data for the picture; None before there are two weeks to compare."""
    if week < 2:
        return None
    history = _history(course, course.today)
    series = []
    for day, slot, suggestion in suggestions:
        weeks = history.get((day.number, slot.label), [])
        one = lift_series(slot, weeks, suggestion, unit=course.member.unit)
        if one is not None:
            series.append(one)
    best = sorted(series, key=lambda one: -len(one.points))[:_CHARTED]
    return {"series": [to_plain(one) for one in best], "title": f"{course.block.name}, week {week}"} if best else None


def _end_of_block(scene: Scene, course: Course, last: date) -> None:
    """The block's weeks are over: first week against last, and what can be done next."""
    from bot.coaching.publish import ChangeOver, StayLonger
    from bot.training.reviews import block_lines

    if course.assignment.reviewed:
        return
    scene.uow.assignments.save(replace(course.assignment, reviewed=True))
    newest = scene.uow.revisions.newest(group_id=course.member.group_id, state=people.RevisionState.PUBLISHED)
    later = newest is not None and newest.series > course.revision.series
    histories = _history(course, last)
    slots = [(day, slot) for day in course.block.days for slot in day.slots]
    entries = [(slot, histories.get((day.number, slot.label), [])) for day, slot in slots]
    choices = [Choice(ChangeOver(newest.series))] if newest is not None and later else []
    if course.assignment.weeks < course.block.weeks_max:
        choices.append(Choice(StayLonger()))
    review = replies.BlockReviewed(course.block.name, tuple(block_lines(entries, course.catalogue)), later)
    scene.say(review, *choices, lane="weekly", key=f"block-end:{course.assignment.id}", code="block_end")


# --- the coach's picture ---


def schedule_group(scene: Scene, group: people.Group) -> None:
    """Plan the coach's next weekly picture: Sunday evening in the coach's own zone."""
    local = scene.local(group.zone)
    sunday = local.date() + timedelta(days=(6 - local.weekday()) % 7)
    at = datetime.combine(sunday, time(_COACH_HOUR), ZoneInfo(group.zone)).astimezone(UTC)
    if at <= scene.now:
        at = datetime.combine(sunday + timedelta(days=7), time(_COACH_HOUR), ZoneInfo(group.zone)).astimezone(UTC)
    scene.uow.due.put("group_week", str(group.id), at, {"group": int(group.id)}, too_late_after_s=TOO_LATE_S["group_week"])


def group_week_due(scene: Scene, group_id: int) -> None:
    group = scene.uow.groups.get(group_id)
    if group is not None:
        there = scene.in_chat(group.coach_chat_id)
        if scene.uow.members.count(group_id=group.id, state=people.MemberState.ACTIVE):
            group_week(there, group)
        schedule_group(there, group)


def group_week(scene: Scene, group: people.Group) -> None:
    """Who progresses, stalls, hurts or has gone quiet, and what single slots show across the group."""
    today = scene.local(group.zone).date()
    first = today - timedelta(days=6)
    weeks, slot_signs, scored = [], Counter[str](), []
    for member in scene.uow.members.find(group_id=group.id, state=people.MemberState.ACTIVE):
        course = course_of(scene, member)
        week, signs = _member_for_coach(scene, member, course)
        weeks.append(week)
        slot_signs.update(signs)
        scored += _scored(scene, course) if course else []
    asked = [r for r in scene.uow.relays.find(group_id=group.id) if r.asked_at >= scene.now - timedelta(days=7)]
    slots = tuple(f"{sign}: {count} members" for sign, count in slot_signs.most_common(5) if count >= 2)
    picture = replies.GroupWeek(group.name, first, tuple(weeks), slots, len(asked), forecast_sentence(scored))
    scene.say(picture, lane="weekly")


def _member_for_coach(scene: Scene, member: people.Member, course: Course | None) -> tuple[replies.MemberWeek, list[str]]:
    if course is None:
        return replies.MemberWeek(member.name, 0, 0, "", notes=("no block yet",), reachable=member.reachable), []
    last = course.today
    first = last - timedelta(days=6)
    sessions = [session for session in course.sessions if first <= session.on <= last]
    planned = course.planned(first, last)
    better, same, worse = _trends(course, last)
    signs = [f"stall on {name}" for name in same] + [f"falling on {name}" for name in worse]
    pains = [_pain_words(pain) for pain in scene.uow.pains.find(member_id=member.id, open=True)]
    swaps = [s for s in scene.uow.swaps.find(member_id=member.id, active=True) if s.at >= scene.now - timedelta(days=7)]
    swap_words = tuple(dict.fromkeys(f"{swap.label} {swap.instead_of} ({swap.reason.replace('_', ' ')})" for swap in swaps))
    signs += [f"swapped {swap.instead_of}" for swap in swaps]
    quiet = (scene.now - (member.last_heard_at or member.joined_at)).days
    trend = (
        "better"
        if len(better) > len(worse)
        else "worse"
        if len(worse) > len(better)
        else "same"
        if better or same or worse
        else ""
    )
    left = Counter(label for session in sessions for label in _left_out(course, session))
    notes = tuple(f"left out {label} {count} times" for label, count in left.most_common(2) if count >= 2)
    week = replies.MemberWeek(
        member.name, len(sessions), max(len(planned), len(sessions)), trend, tuple(better), tuple(same), tuple(worse), tuple(dict.fromkeys(pains)),
        swap_words, quiet if quiet >= 7 else None, notes, member.reachable,
    )  # fmt: skip
    return week, list(dict.fromkeys(signs))


def _left_out(course: Course, session: people.Session) -> list[str]:
    return sorted({place.label for place in session.skipped})


def _pain_words(pain: people.Pain) -> str:
    bad = f" {pain.severity}/10" if pain.severity is not None else ""
    return f"{pain.part or 'place not said'}{bad}" + (f" on {pain.label}" if pain.label else "")


def _trends(course: Course, last: date) -> tuple[list[str], list[str], list[str]]:
    """Exercises on which this member is better, stalls, is worse; only what the noise allows to be said."""
    better: list[str] = []
    same: list[str] = []
    worse: list[str] = []
    for (number, label), weeks in _history(course, last).items():
        day = course.block.day(number)
        slot = day.slot(label) if day else None
        if slot is None:
            continue
        verdict = slot_trend(slot, weeks)
        {"better": better, "stall": same, "worse": worse}.get(verdict, []).append(slot.exercise_name)
    return list(dict.fromkeys(better)), list(dict.fromkeys(same)), list(dict.fromkeys(worse))


def _scored(scene: Scene, course: Course) -> Sequence[Any]:
    """Last week's forecasts beside what happened, as (Suggestion, records)."""
    pairs = []
    start = None
    for advice in reversed(scene.uow.advice.find(member_id=course.member.id, series=course.revision.series)):
        if advice.week_start > course.today or (start is not None and advice.week_start != start):
            continue
        start = advice.week_start
        until = start + timedelta(days=6)
        rows = scene.uow.records.find(
            member_id=course.member.id, day=advice.day, label=advice.label, on=(start, until), active=True
        )
        if rows:
            pairs.append((from_plain(advice.suggestion, Suggestion), [row.record for row in rows]))
    return pairs
