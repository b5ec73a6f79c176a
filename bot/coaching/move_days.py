"""A member's days change: moved, swapped, left out, away, paused, other reminders; shown in concrete dates, one tap to undo."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import date, timedelta

from bot.coaching import join, reminders, replies
from bot.coaching.course import Course, course_of
from bot.coaching.log_sets import member_here
from bot.coaching.scene import Choice, Scene, close_questions, deed, is_very_next
from bot.language.dates import PlanOption, PlanQuestion, PlanReading, question_about, read_plan_words
from bot.language.places import find_places
from bot.training import people
from bot.training.order_rules import remarks
from bot.training.plan import (
    DEFAULT_RHYTHM,
    Away,
    Backdate,
    Deed,
    Move,
    Pause,
    Plan,
    QuietHours,
    ReminderAgain,
    ReminderAt,
    RemindOnce,
    Resume,
    Rolling,
    SilentDays,
    Skip,
    StartBlock,
    Swap,
    Touch,
    Weekdays,
    ZoneMove,
    apply,
    describe_change,
    going_on,
)

_ROWS_OF_A_RULE = 6
_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


@dataclass(frozen=True, slots=True)
class ChangePlan:
    """Do this to the member's plan (chosen from the buttons of a question)."""

    change: Deed


@dataclass(frozen=True, slots=True)
class RestorePlan:
    """Back to the plan as it was before a change."""

    plan: Plan


@dataclass(frozen=True, slots=True)
class KeepPlan:
    """None of what was offered: the plan stays."""


@dataclass(frozen=True, slots=True)
class TakeBackSession:
    """A session noted for an earlier date was not meant so."""

    session_id: int


def hear(scene: Scene, member: people.Member, message: people.Message, text: str, *, sure: float) -> bool:
    """Is this a wish about days, reminders or place? Then do it, or ask the one question."""
    if member.plan is None:
        return False
    reading = _read(scene, member, text)
    if reading.certainty < sure or not (reading.deeds or reading.question):
        return False
    if any(isinstance(each, ZoneMove) and not find_places(each.place) for each in reading.deeds):
        return False  # "moved to dumbbells": no such place
    for each in reading.deeds:
        fresh = scene.uow.members.get(member.id)
        if fresh is not None:
            change(scene, fresh, each)
    if reading.question is not None:
        _ask(scene, reading.question)
    return True


def _read(scene: Scene, member: people.Member, text: str) -> PlanReading:
    assert member.plan is not None
    course = course_of(scene, member)
    block = course.block if course else None
    return read_plan_words(
        text,
        now=scene.local(member.zone),
        plan=member.plan,
        rhythm=block.rhythm if block else DEFAULT_RHYTHM,
        day_names={day.number: day.name for day in block.days} if block else {},
        done=course.done_days() if course else {},
        locale=member.locale,
    )


_BACK = re.compile(
    r"\W*(?:(?:ok(?:ay)?|hi|hey|hello|so)\W+)*(?:i'?m |i am |and )?back(?: (?:again|now|home|today|in town))*(?: (?:coach|bot))?\W*",
    re.IGNORECASE,
)


def hear_back(scene: Scene, member: people.Member, text: str) -> bool:
    """ "back", the word that somebody away was told to say. From anybody else it may be a part of the body."""
    today = scene.today(member)
    if member.plan is None or not _BACK.fullmatch(text) or not member.plan.is_away(today):
        return False
    change(scene, member, Resume(today))
    return True


def _ask(scene: Scene, question: PlanQuestion) -> None:
    choices = [Choice(ChangePlan(option.deed), option.label[:60]) for option in question.options]
    code = question.code if question.code == _PUT_OFF else "days"
    scene.say(replies.AskDate(question.code, question.about), *choices, Choice(KeepPlan()), row=1, code=code)


_PUT_OFF = "put_off"


def hear_when(scene: Scene, member: people.Member, text: str) -> bool:
    """ "In an hour", "at 8", "friday" right after the question when a session that was put off shall be thought of."""
    asked = scene.uow.asked.newest(chat_id=scene.chat_id, open=True)
    if asked is None or asked.code != _PUT_OFF or member.plan is None or not is_very_next(scene, asked):
        return False
    for said in (f"remind me {text}", f"remind me at {text} today", f"remind me {text} today", f"i'll do it {text}"):
        reading = _read(scene, member, said)
        if len(reading.deeds) == 1 and isinstance(reading.deeds[0], RemindOnce | Move):
            close_questions(scene, (_PUT_OFF,))
            change(scene, member, reading.deeds[0])
            return True
    return False


def offer_rest(scene: Scene, member: people.Member) -> None:
    """Whoever is ill is asked how long to be left in peace, unless that was said or holds already."""
    today = scene.today(member)
    if member.plan is None or member.plan.is_away(today):
        return
    spans = (("Only today", today), ("A week", today + timedelta(days=6)), ("Until I say so", None))
    options = tuple(PlanOption(label, Away(today, last)) for label, last in spans)
    _ask(scene, PlanQuestion("how_long", "", options))


@deed(KeepPlan)
def keep_plan(scene: Scene, wish: KeepPlan) -> None:
    scene.say(replies.PlanRestored())


@deed(ChangePlan)
def change_plan(scene: Scene, wish: ChangePlan) -> None:
    member = member_here(scene)
    if member is None or member.plan is None:
        return
    question = _doubt(scene, member, wish.change)
    if question is not None:
        _ask(scene, question)
    else:
        change(scene, member, wish.change)


def _doubt(scene: Scene, member: people.Member, change: Deed) -> PlanQuestion | None:
    """A date chosen from buttons may be taken by now, or have been from the first."""
    course = course_of(scene, member)
    if not isinstance(change, Move) or course is None or member.plan is None:
        return None
    sessions = course.planned(course.today - timedelta(days=8), course.today + timedelta(days=35))
    return question_about(change, sessions=sessions, plan=member.plan, done=course.done_days())


def change(scene: Scene, member: people.Member, wish: Deed) -> None:
    """Carry out one wish, and say the dates it touches."""
    if isinstance(wish, ZoneMove):
        join.hear_place(scene, member, wish.place)
        return
    if isinstance(wish, Backdate):
        _backdate(scene, member, wish)
        return
    if isinstance(wish, RemindOnce):
        scene.say(replies.RemindedOnce(wish.at, reminders.remind_once(scene, member, wish.at)))
        return
    before = member.plan
    assert before is not None
    course = course_of(scene, member)
    if isinstance(wish, StartBlock) and course is not None and not course.sessions:
        scene.uow.assignments.save(replace(course.assignment, started_on=wish.on))
    today = scene.today(member)
    if course is not None:
        coming = course.planned(today, today + timedelta(days=28))
        wish = going_on(wish, coming, day_count=len(course.block.days), done=course.done_days())
    after = before if _touches_nothing(course, wish) else apply(before, wish, today=today)
    member = scene.uow.members.save(replace(member, plan=after))
    reminders.schedule(scene, member)
    reminders.schedule_week_end(scene, member)
    undo = [Choice(RestorePlan(before))] if before != after else []
    scene.say(_said(scene, member, course, before, after, wish), *undo, code="plan")


def _touches_nothing(course: Course | None, wish: Deed) -> bool:
    """Two rest days that are swapped: kept out of the plan, where they would come to mean something once the days change."""
    if course is None or not isinstance(wish, Swap):
        return False
    return not (course.planned(wish.first, wish.first) or course.planned(wish.second, wish.second))


def _said(
    scene: Scene, member: people.Member, course: Course | None, before: Plan, after: Plan, change: Deed
) -> replies.PlanChanged:
    if isinstance(change, ReminderAt | ReminderAgain | QuietHours | SilentDays):
        return replies.PlanChanged(type(change).__name__, (), value=_value(change, scene.today(member)))
    block = course.block if course else None
    today = scene.today(member)
    touched = describe_change(
        before,
        after,
        today=today,
        day_count=len(block.days) if block else 5,
        rhythm=block.rhythm if block else DEFAULT_RHYTHM,
        done=course.done_days() if course else {},
        days=14,
    )
    names = {day.number: day.name for day in block.days} if block else {}
    rows = []
    fresh = course_of(scene, member)
    if isinstance(change, Weekdays | Rolling | StartBlock) and fresh is not None and before != after:
        # Under a new rule everything moves; what helps is how it goes on, not what became of each old date.
        coming = fresh.planned(today, today + timedelta(days=14))
        rows = [(one.date, one.day_number, names.get(one.day_number, "")) for one in coming[:_ROWS_OF_A_RULE]]
        touched = ()
    for one in touched:
        name = names.get(one.day_number, "")
        if one.touch is Touch.COMES:
            rows.append((one.on, one.day_number, name))
        elif one.touch is Touch.DROPS:
            rows.append((one.on, one.day_number, name if isinstance(change, Skip) else f"{name} left out".strip()))
        elif one.other is None or one.other > today + timedelta(days=14):
            rows.append((one.on, one.day_number, f"{name} later".strip()))
    said = (
        tuple(remarks(fresh.planned(today, today + timedelta(days=10)), block, course.catalogue))
        if fresh and block and course
        else ()
    )
    value = _value(change, today)
    if isinstance(change, Skip) and not rows:
        value = f"nothing was planned on {_day(change.on)}"
    elif isinstance(change, Swap) and not rows:
        value = f"nothing is planned on {_day(change.first)} or {_day(change.second)}"
    elif before == after and value:
        value += ", as before"
    return replies.PlanChanged(type(change).__name__, tuple(rows), said, value)


def _until(first: date, last: date | None, today: date) -> str:
    """ "until Sun 8 Mar", "from Fri 6 Mar, with no end told": a member shall see what was understood."""
    begins = "" if first <= today else f"from {_day(first)}"
    if last is None:
        return f"{begins or 'from today'}, with no end told. Say “back” when you are"
    if first == last:
        return "today" if first == today else f"on {_day(first)}"
    return f"{begins} until {_day(last)}".strip()


def _day(on: date) -> str:
    return f"{on:%a} {on.day} {on:%b}"


def _value(change: Deed, today: date) -> str:
    """What is said of a change beside its dates."""
    match change:
        case ReminderAt(at):
            return f"{at:%H:%M}" if at else "none from now on"
        case ReminderAgain(after_min):
            return f"a second one {after_min} minutes later" if after_min else "no second one"
        case Away(first, last) | Pause(first, last):
            return _until(first, last, today)
        case QuietHours(start, end):
            return ", ".join(
                part for part in (f"from {start:%H:%M}" if start else "", f"until {end:%H:%M}" if end else "") if part
            )
        case SilentDays(weekdays):
            return "none on " + ", ".join(_WEEKDAYS[day] for day in weekdays) if weekdays else "on every training day"
        case Weekdays(weekdays, _):
            return ", ".join(_WEEKDAYS[day] for day in weekdays)
        case Rolling():
            return "moving along with your sessions"
    return ""


def _backdate(scene: Scene, member: people.Member, change: Backdate) -> None:
    """A session done on an earlier date, said without its sets: it counts as done, and its sets may follow."""
    course = course_of(scene, member)
    if course is None:
        return
    planned = course.planned(change.on, change.on)
    number = change.day_number or (planned[0].day_number if planned else None)
    day = course.block.day(number) if number else None
    if number is None or day is None:
        scene.say(replies.CoachSaysSentence("backdate_which_day"))
        return
    undo: list[Choice] = []
    if not scene.uow.sessions.find(member_id=member.id, on=change.on, day=number):
        noted = scene.uow.sessions.add(
            people.Session(
                member_id=member.id, on=change.on, day=number, revision_id=course.revision.id, started_at=scene.now,
                state=people.SessionState.DONE, ended_at=scene.now,
            )
        )  # fmt: skip
        undo.append(Choice(TakeBackSession(noted.id)))
    reminders.schedule(scene, member)
    value = "send its sets any time, like “yesterday: A1 20x12”"
    scene.say(replies.PlanChanged("Backdate", ((change.on, number, day.name),), value=value), *undo, code="plan")


@deed(TakeBackSession)
def take_back_session(scene: Scene, wish: TakeBackSession) -> None:
    """Undo a session noted without sets; one that has got sets since stays, for nothing that was sent is lost."""
    member = member_here(scene)
    session = scene.uow.sessions.get(wish.session_id)
    if member is None or session is None or session.member_id != member.id:
        return
    if scene.uow.records.find(session_id=session.id):
        scene.say(replies.PlanChanged("Backdate", (), value="it has sets by now, so it stays"))
        return
    scene.uow.sessions.remove(id=session.id)
    reminders.schedule(scene, member)
    scene.say(replies.PlanRestored())


@deed(RestorePlan)
def restore_plan(scene: Scene, wish: RestorePlan) -> None:
    member = member_here(scene)
    if member is None:
        return
    member = scene.uow.members.save(replace(member, plan=wish.plan))
    reminders.schedule(scene, member)
    scene.say(replies.PlanRestored())
