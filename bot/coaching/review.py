"""The week ends: every member's next targets with their reasons, and the coach's picture of the group.

The member's review computes one suggestion for each slot, keeps it (so that next week can be held against it, and so that each
session shows its targets), and queues one message. The coach's picture is gathered from the same values.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from bot.coaching import replies
from bot.coaching.course import Course, course_of
from bot.coaching.scene import Choice, Scene
from bot.training import people
from bot.training.blocks import Day, SetTarget, Slot, work_sets
from bot.training.exercises.entry import Exercise
from bot.training.forecast import pairs_of, score_pairs
from bot.training.loads import Unit, from_kg
from bot.training.plain import from_plain, to_plain
from bot.training.progression import CoachTarget, Kind, SetAim, SlotCase, Suggestion, WeekOfRecords, reason_sentence, target_words
from bot.training.progression.values import NoteCode, Reason, Why
from bot.training.reminders import TOO_LATE_S
from bot.training.reviews import (
    ExerciseReview,
    SessionRated,
    SlotReview,
    WeekReview,
    first_against_last,
    review_slot,
    review_week,
    stalls_among,
)
from bot.training.trend import Verdict

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
        _member_week(scene, course, last)
        if course.week_of(last) >= course.assignment.weeks:
            _end_of_block(scene, course, last)
    reminders.check_silence(scene, member)
    reminders.schedule_week_end(scene, member)
    reminders.schedule(scene, member)  # none is planned while an absence is longer than reminders look ahead


def _member_week(scene: Scene, course: Course, last: date) -> None:
    first = last - timedelta(days=6)
    week = course.week_of(last)
    sessions = [session for session in course.sessions if first <= session.on <= last]
    planned = course.planned(first, last)
    places, review = suggest_week(scene, course, last)
    if not sessions and not (planned and places):
        return  # a pause, or nothing was ever done: there is nothing to review
    lines = [_advice_line(course, day, slot, one.suggestion) for (day, slot), one in zip(places, review.slots, strict=True)]
    shown = _worth_saying(lines, idle=not sessions)
    closing = week >= course.assignment.weeks and not course.assignment.reviewed
    if closing and _next_block(course) is not None:
        lines, shown = [], []  # the next block is here: these targets will hardly be trained for
    reply = replies.WeekReviewed(
        week=week,
        weeks=course.assignment.weeks,
        done=len(sessions),
        planned=max(len(planned), len(sessions)),
        well=review.well,
        lines=tuple(shown),
        more=len(lines) - len(shown),
        totals=_totals(review, course.member.unit),
        questions=review.questions[:2],
        chart=_chart(course, week, review.slots) if sessions else None,
        closing=closing,
        days_away=_days_away(course, last) if not sessions else None,
    )
    scene.say(reply, lane="weekly", key=f"week:{course.member.id}:{last}")


def _worth_saying(lines: list[replies.AdviceLine], *, idle: bool) -> list[replies.AdviceLine]:
    """The lines for a phone, in the block's order. After a week with nothing done only what the coach or pain says."""
    if idle:
        return [line for line in lines if _TELLING.get(Kind(line.kind), 3) == 0]
    first = sorted(lines, key=lambda line: _TELLING.get(Kind(line.kind), 3))[:_SHOWN_SLOTS]
    return [line for line in lines if line in first]


# What is worth the member's attention first; the rest stands in the whole table.
_TELLING = {
    Kind.AFTER_PAIN: 0, Kind.COACH_SAYS: 0, Kind.ASK_SLIP: 0, Kind.ADD_LOAD: 1, Kind.EASE: 1, Kind.HARDER_VARIATION: 1, Kind.NEXT_BAND: 1,
    Kind.SLOWER: 2, Kind.ADD_HOLD_LOAD: 2, Kind.BACK_IN: 2, Kind.LESS_HELP: 2, Kind.HOLD: 4, Kind.FIRST_WEEK: 4,
}  # fmt: skip


def _totals(review: WeekReview, unit: Unit) -> tuple[str, ...]:
    """One line of what the week came to, in the member's unit."""
    totals = review.totals
    parts = [f"{totals.sets} set{'' if totals.sets == 1 else 's'}"]
    if totals.volume_load_kg:
        parts.append(f"{from_kg(totals.volume_load_kg, unit):,.0f} {unit.value} moved in all")
    if totals.effort is not None:
        rated = f"; {totals.effort.missing} without rating or length" if totals.effort.missing else ""
        total = f"{totals.effort.total_au:,.0f}"
        parts.append(f"{total} for how hard it all was (session RPE: each session’s rating times its minutes{rated})")
    return (", ".join(parts) + ".",) if totals.sets else ()


def suggest_week(scene: Scene, course: Course, last: date) -> tuple[list[tuple[Day, Slot]], WeekReview]:
    """Compute, keep and return next week's suggestion for every slot that has records or a word of the coach."""
    start = last + timedelta(days=1)
    places, cases = [], []
    for day, slot, case in _cases(scene, course, last):
        places.append((day, slot))
        cases.append(case)
    rated = tuple(SessionRated(s.on, s.effort, s.minutes) for s in course.sessions if last - timedelta(days=6) <= s.on <= last)
    review = review_week(cases, sessions=rated)
    for (day, slot), one in zip(places, review.slots, strict=True):
        _keep(scene, course, start, day.number, slot.label, one.suggestion)
    return places, review


def _cases(scene: Scene, course: Course, last: date) -> list[tuple[Day, Slot, SlotCase]]:
    """What each slot's suggestion is made from."""
    start = last + timedelta(days=1)
    history = _history(course, last)
    pains = scene.uow.pains.find(member_id=course.member.id, open=True)
    found = []
    for day in course.block_on(start).days:
        for slot in day.slots:
            weeks = history.get((day.number, slot.label), [])
            override = _override(scene, course, day.number, slot.label)
            if not any(week.records for week in weeks) and override is None:
                continue
            exercise = _as_named(course, slot, course.catalogue.get(_exercise_done(course, day, slot)))
            case = SlotCase(
                slot=slot,
                kit=course.member.kit,
                unit=course.member.unit,
                week=course.week_of(start),
                weeks_in_block=course.assignment.weeks,
                history=tuple(weeks),
                exercise=exercise,
                override=override,
                painful=any(pain.label == slot.label and pain.day in (None, day.number) for pain in pains),
                on=start,
                days_away=_days_away(course, last),
                policy=slot.policy if slot.policy.value != "usual" else course.block.policy,
                before=_last_suggestion(scene, course, day.number, slot.label, start),
            )
            found.append((day, slot, case))
    return found


def _as_named(course: Course, slot: Slot, exercise: Exercise | None) -> Exercise | None:
    """The exercise under the coach's name for it, unless another is done in its place."""
    if exercise is None or exercise.id not in (slot.exercise, course.own_version(slot)):
        return exercise
    return replace(exercise, name=slot.exercise_name)


def _last_suggestion(scene: Scene, course: Course, day: int, label: str, start: date) -> Suggestion | None:
    """The suggestion for the week that has just ended."""
    advice = scene.uow.advice.newest(member_id=course.member.id, series=course.revision.series, day=day, label=label)
    if advice is None or advice.by_coach or advice.week_start >= start:
        return None
    return from_plain(advice.suggestion, Suggestion)


def _exercise_done(course: Course, day: Day, slot: Slot) -> Any:
    """The exercise that next week's target is for: a block-wide substitute, else the coach's in this member's kit."""
    taken = course.scene.uow.swaps.find(
        member_id=course.member.id, series=course.revision.series, day=day.number, label=slot.label, active=True, session_id=None
    )
    return taken[-1].exercise if taken else course.own_version(slot)


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


def _override(scene: Scene, course: Course, day: int, label: str) -> CoachTarget | None:
    """The coach's own target for this member and slot, set in the week that has just ended."""
    advice = scene.uow.advice.newest(member_id=course.member.id, series=course.revision.series, day=day, label=label)
    if advice is None or not advice.by_coach or advice.week_start < course.today - timedelta(days=7):
        return None
    aim = from_plain(advice.suggestion, Suggestion).sets[0]
    return CoachTarget(aim.load, aim.low, aim.high, knows_of_pain=True)


def set_target(scene: Scene, course: Course, day: Day, label: str, target: SetTarget) -> None:
    """The coach sets one member's target: it stands from now on, before any computed one."""
    slot = day.slot(label)
    assert slot is not None and course.member.plan is not None
    aims = tuple(
        SetAim(
            n,
            target.low,
            target.high,
            target.high if target.low is None else target.low,
            target.load or old.load,
            old.measure,
            sides=slot.sides,
            tempo=old.tempo,
        )
        for n, old in enumerate(work_sets(slot), 1)
    )
    suggestion = Suggestion(
        Kind.COACH_SAYS, label, aims, Reason(Why.COACH), course.own_version(slot), slot.exercise_name, course.member.unit
    )
    start = course.member.plan.week_start_for(course.today)
    _keep(scene, course, start, day.number, label, suggestion, by_coach=True)


def _advice_line(course: Course, day: Day, slot: Slot, suggestion: Suggestion) -> replies.AdviceLine:
    entry = _as_named(course, slot, course.catalogue.get(suggestion.exercise))
    shown = entry.name if entry else slot.exercise_name
    shown = shown[:1].upper() + shown[1:]
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


def show_progress(scene: Scene, member: people.Member) -> None:
    """How the block goes so far: of every slot the first session against the latest."""
    course = course_of(scene, member)
    if course is None:
        group = scene.uow.groups.get(member.group_id)
        scene.say(replies.NoBlock(group.coach_name if group else ""))
        return
    scene.say(replace(_block_reviewed(course, _compared(scene, course, course.today), False), so_far=True))


def _chart(course: Course, week: int, slots: Sequence[SlotReview]) -> dict[str, Any] | None:
    """The lifts with the most to show, as data for the picture; None before there are two weeks to compare."""
    series = [one.series for one in slots if one.series.weeks >= 2]
    if week < 2 or not series:
        return None
    best = sorted(series, key=lambda one: (-one.weeks, not one.points[0].load))[:_CHARTED]
    return {"series": [to_plain(one) for one in best], "title": f"{course.block.name}, week {week}"}


def _end_of_block(scene: Scene, course: Course, last: date) -> None:
    """The block's weeks are over: first week against last, and what can be done next."""
    from bot.coaching.publish import ChangeOver, StayLonger, begin_next, finishes_first

    if course.assignment.reviewed:
        return
    scene.uow.assignments.save(replace(course.assignment, reviewed=True))
    later = _next_block(course)
    begins = later is not None and finishes_first(scene, course.member, later)
    choices = [Choice(ChangeOver(later))] if later is not None and not begins else []
    if course.assignment.weeks < course.block.weeks_max and not begins:
        choices.append(Choice(StayLonger()))
    review = replace(_block_reviewed(course, _compared(scene, course, last), later is not None), begins=begins)
    key = f"block-end:{course.assignment.id}:{course.assignment.weeks}"
    scene.say(review, *choices, lane="weekly", key=key, code="block_end")
    if begins and later is not None:
        begin_next(scene, course.member, later, lane="weekly")


def _next_block(course: Course) -> int | None:
    """The series of a published block that comes after the member's own; None where there is none yet."""
    newest = course.scene.uow.revisions.newest(group_id=course.member.group_id, state=people.RevisionState.PUBLISHED)
    return newest.series if newest is not None and newest.series > course.revision.series else None


def _compared(scene: Scene, course: Course, last: date) -> list[ExerciseReview]:
    """First session against last of every slot; a name that stands on several days has its day beside it."""
    found = [(day, one) for day, _, case in _cases(scene, course, last) if (one := first_against_last(case)) is not None]
    often = Counter(one.name for _, one in found)
    return [replace(one, name=f"{one.name} (day {day.number})") if often[one.name] > 1 else one for day, one in found]


def _block_reviewed(course: Course, found: Sequence[ExerciseReview], next_known: bool) -> replies.BlockReviewed:
    """What is sure comes first, then what moved within a good day's reach, then the names of the rest."""
    well = [one for one in found if not one.hurt]
    sure = [one for one in well if one.verdict in (Verdict.BETTER, Verdict.WORSE)]
    rest = [one for one in well if one not in sure]
    return replies.BlockReviewed(
        course.block.name,
        tuple(one.sentence for one in sure),
        next_known,
        up=tuple(one.facts for one in rest if one.moved > 0),
        down=tuple(one.facts for one in rest if one.moved < 0),
        same=tuple(one.name for one in rest if one.moved == 0),
        hurt=tuple(one.name for one in found if one.hurt),
    )


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
        if _has_begun(there, group):
            group_week(there, group)
        schedule_group(there, group)


def _has_begun(scene: Scene, group: people.Group) -> bool:
    """Has anybody's block begun? Before that there is nothing to picture."""
    members = scene.uow.members.find(group_id=group.id, state=people.MemberState.ACTIVE)
    courses = [course_of(scene, member) for member in members]
    return any(course is not None and course.assignment.started_on < course.today for course in courses)


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
    for member in scene.uow.members.find(group_id=group.id, state=people.MemberState.JOINING):
        since = member.joined_at.astimezone(ZoneInfo(member.zone)).date()
        weeks.append(replies.MemberWeek(member.name, 0, 0, "", since=since, joining=True, reachable=member.reachable))
    asked = [r for r in scene.uow.relays.find(group_id=group.id) if r.asked_at >= scene.now - timedelta(days=7)]
    slots = tuple(f"{sign}: {count} members" for sign, count in slot_signs.most_common(5) if count >= 2)
    picture = replies.GroupWeek(group.name, first, tuple(weeks), slots, len(asked), _forecast(scored))
    scene.say(picture, lane="weekly")


def _member_for_coach(scene: Scene, member: people.Member, course: Course | None) -> tuple[replies.MemberWeek, list[str]]:
    since = member.joined_at.astimezone(ZoneInfo(member.zone)).date()
    if course is None:
        return replies.MemberWeek(member.name, 0, 0, "", since=since, reachable=member.reachable), []
    last = course.today
    first = last - timedelta(days=6)
    sessions = [session for session in course.sessions if first <= session.on <= last]
    done = course.done_days()
    planned = [one for one in course.planned(first, last) if one.date < last or one.date in done]
    if not course.sessions and not planned:
        coming = course.planned(last, last + timedelta(days=14))
        awaited = coming[0].date if coming else course.assignment.started_on
        return replies.MemberWeek(member.name, 0, 0, "", since=since, awaited_on=awaited, reachable=member.reachable), []
    trends = _trends(course, last)
    better, worse = trends.better, trends.worse
    still = trends.stalls + [name for names in trends.together for name in names]
    signs = [f"falling back on {name}" for name in worse] + [f"standing still on {name}" for name in still]
    pains = [_pain_words(pain) for pain in scene.uow.pains.find(member_id=member.id, open=True)]
    swaps = [s for s in scene.uow.swaps.find(member_id=member.id, active=True) if s.at >= scene.now - timedelta(days=7)]
    swap_words = tuple(dict.fromkeys(f"{swap.label} {swap.instead_of} ({swap.reason.replace('_', ' ')})" for swap in swaps))
    signs += [f"swapped {swap.instead_of}" for swap in swaps]
    quiet = (scene.now - (member.last_heard_at or member.joined_at)).days
    trend = "better" if len(better) > len(worse) else "worse" if len(worse) > len(better) else "same" if trends.said else ""
    left = Counter(label for session in sessions for label in _left_out(course, session))
    notes = tuple(f"left out {label} {count} times" for label, count in left.most_common(2) if count >= 2)
    notes += _advice_notes(course, told={*worse, *still})
    week = replies.MemberWeek(
        member.name, len(sessions), max(len(planned), len(sessions)), trend, tuple(better), trends.stall_words, tuple(worse), tuple(dict.fromkeys(pains)),
        swap_words, quiet if quiet >= 7 else None, notes, member.reachable, since if not course.sessions else None,
    )  # fmt: skip
    return week, list(dict.fromkeys(signs))


# What the coach hears of single slots, the most pressing first; pain, absence and slips are told elsewhere.
_NOTED = (NoteCode.OVERRIDE_WAITS, NoteCode.FALLING, NoteCode.STALLED, NoteCode.UNEVEN, NoteCode.BELOW, NoteCode.TOO_COARSE)
_NOTES_SHOWN = 3


def _advice_notes(course: Course, told: set[str]) -> tuple[str, ...]:
    """What the newest advice has for the coach. told: exercises that are named in the member's lines anyway."""
    advice = course.scene.uow.advice.find(member_id=course.member.id, series=course.revision.series)
    newest = max((one.week_start for one in advice), default=None)
    made = [from_plain(one.suggestion, Suggestion) for one in advice if one.week_start == newest]
    notes = [
        one.coach_note
        for one in made
        if one.coach_note is not None and one.coach_note.code in _NOTED and one.exercise_name not in told
    ]
    notes.sort(key=lambda note: _NOTED.index(note.code))
    shown = list(dict.fromkeys(note.text.rstrip(".") for note in notes))
    more = len(shown) - _NOTES_SHOWN
    return (*shown[:_NOTES_SHOWN], *((f"and {more} more of the kind",) if more > 0 else ()))


def _left_out(course: Course, session: people.Session) -> list[str]:
    return sorted({place.label for place in session.skipped})


def _pain_words(pain: people.Pain) -> str:
    bad = f" {pain.severity}/10" if pain.severity is not None else ""
    return f"{pain.part or 'place not said'}{bad}" + (f" on {pain.label}" if pain.label else "")


@dataclass(frozen=True, slots=True)
class _Trends:
    """Exercises by name on which a member is better, stands still, is worse; only what the noise allows to be said.

    together: several of one movement that stand still only as a whole. said: could anything be said, "about the same" included?
    """

    better: list[str]
    stalls: list[str]
    worse: list[str]
    together: list[list[str]]
    said: bool

    @property
    def stall_words(self) -> tuple[str, ...]:
        joined = [f"{', '.join(names[:-1])} and {names[-1]} taken together" for names in self.together]
        return (*self.stalls, *joined)


def _trends(course: Course, last: date) -> _Trends:
    reviews = [review_slot(case) for _, _, case in _cases(course.scene, course, last)]
    verdicts = [one.trend.verdict if one.trend is not None else Verdict.TOO_LITTLE for one in reviews]
    worse = [at for at, one in enumerate(reviews) if one.dropped or verdicts[at] is Verdict.WORSE]
    better = [at for at, verdict in enumerate(verdicts) if verdict is Verdict.BETTER and at not in worse]
    alone, together = stalls_among(reviews)
    moving = {*better, *worse}

    def named(places: Sequence[int]) -> list[str]:
        return list(dict.fromkeys(reviews[at].suggestion.exercise_name for at in places))

    joined = [named([at for at in places if at not in moving]) for places in together]
    stalls = named([at for at in alone if at not in moving]) + [name for names in joined if len(names) == 1 for name in names]
    said = any(one.dropped or verdict is not Verdict.TOO_LITTLE for one, verdict in zip(reviews, verdicts, strict=True))
    return _Trends(named(better), list(dict.fromkeys(stalls)), named(worse), [names for names in joined if len(names) > 1], said)


def _scored(scene: Scene, course: Course) -> list[Any]:
    """Last week's forecasts beside what happened."""
    pairs: list[Any] = []
    start = None
    for advice in reversed(scene.uow.advice.find(member_id=course.member.id, series=course.revision.series)):
        if advice.week_start > course.today or (start is not None and advice.week_start != start):
            continue
        start = advice.week_start
        until = start + timedelta(days=6)
        rows = scene.uow.records.find(
            member_id=course.member.id, day=advice.day, label=advice.label, on=(start, until), active=True
        )
        pairs += pairs_of(from_plain(advice.suggestion, Suggestion), [row.record for row in rows])
    return pairs


def _forecast(pairs: Sequence[Any]) -> str:
    """How good the advice has been, in one sentence for the coach."""
    score = score_pairs(list(pairs))
    if not score.sets or score.landed is None or score.said is None:
        return ""
    return f"Last week's targets: {score.landed:.0%} of {score.sets} sets reached theirs; {score.said:.0%} were expected to."
