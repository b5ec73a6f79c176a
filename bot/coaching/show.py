"""A member looks: today's session, the week, the settings, help, what is kept about them."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import timedelta

from bot.coaching import replies
from bot.coaching.course import Course, course_of
from bot.coaching.log_sets import member_here, take_back
from bot.coaching.scene import Choice, Scene, deed
from bot.coaching.session_end import finish
from bot.coaching.targets import slot_line
from bot.training import people
from bot.training.order_rules import is_easing_in


@dataclass(frozen=True, slots=True)
class ShowToday:
    repeatable: bool = True


@dataclass(frozen=True, slots=True)
class ShowWeek:
    repeatable: bool = True


@dataclass(frozen=True, slots=True)
class ShowDay:
    """A session of another day, to look at or to do instead."""

    day: int
    repeatable: bool = True


def today(scene: Scene, member: people.Member) -> None:
    """Today's session; on a rest day what comes next."""
    course = course_of(scene, member)
    if course is None:
        no_block(scene, member)
        return
    if course.day_number is None:
        _nothing_today(scene, course)
        return
    scene.say(session_shown(course, course.day_number))


def no_block(scene: Scene, member: people.Member) -> None:
    group = scene.uow.groups.get(member.group_id)
    scene.say(replies.NoBlock(group.coach_name if group else ""))


def session_shown(course: Course, number: int) -> replies.SessionShown:
    day = course.day if course.day and course.day.number == number else course.block_of(None).day(number)
    assert day is not None, f"the plan names day {number}, which the block has not"
    on = course.session.on if course.session else course.today
    week = course.week_of(on)
    aims = course.block.week_aims
    aim = aims[min(week, len(aims)) - 1] if aims else ""
    lines = tuple(slot_line(course, slot, number) for slot in day.slots)
    easing = is_easing_in([session.on for session in course.sessions if session.on != on], on)
    return replies.SessionShown(
        on, number, day.name, week, course.assignment.weeks, lines, day.warm_up, aim, day.note, "easing_in" if easing else ""
    )


def _nothing_today(scene: Scene, course: Course) -> None:
    coming = [p for p in course.planned(course.today, course.today + timedelta(days=14)) if p.date > course.today]
    first = coming[0] if coming else None
    day = course.block.day(first.day_number) if first else None
    choices = []
    trainable = course.trainable_day
    if trainable is not None:
        choices.append(Choice(ShowDay(trainable)))
    nothing = replies.NothingToday(
        first.date if first else None,
        first.day_number if first else None,
        day.name if day else "",
        course.today,
        away=course.member.plan is not None and course.member.plan.is_away(course.today),
    )
    scene.say(nothing, *choices, code="today")


def week(scene: Scene, member: people.Member) -> None:
    """The sessions of this week and the next few days."""
    _week(scene, member, later=0, days=10)


def next_week(scene: Scene, member: people.Member) -> None:
    _week(scene, member, later=7, days=7)


def _week(scene: Scene, member: people.Member, *, later: int, days: int) -> None:
    course = course_of(scene, member)
    if course is None or member.plan is None:
        no_block(scene, member)
        return
    first = member.plan.week_start_for(course.today) + timedelta(days=later)
    last = first + timedelta(days=days - 1)
    done = course.done_days()
    rows = []
    for planned in course.planned(first, last):
        day = course.block.day(planned.day_number)
        rows.append((planned.date, planned.day_number, day.name if day else "", planned.date in done))
    listed = {row[0] for row in rows}
    for on, number in done.items():
        if first <= on <= last and on not in listed:
            day = course.block.day(number)
            rows.append((on, number, day.name if day else "", True))
    if rows and not later and not any(row[0] > course.today for row in rows):
        coming = course.planned(course.today + timedelta(days=1), course.today + timedelta(days=28))[:1]
        names = {day.number: day.name for day in course.block.days}
        rows += [(one.date, one.day_number, names.get(one.day_number, ""), False) for one in coming]
    scene.say(replies.WeekShown(course.today, tuple(sorted(rows)), None if later else first + timedelta(days=7)))


def help_shown(scene: Scene, member: people.Member) -> None:
    coach_too = scene.uow.groups.newest(coach_chat_id=scene.chat_id) is not None
    scene.say(replies.HelpShown(coach_too=coach_too))


def no_such_command(scene: Scene, command: str) -> None:
    scene.say(replies.HelpShown(command=command[:30]))


def privacy(scene: Scene, member: people.Member) -> None:
    group = scene.uow.groups.get(member.group_id)
    scene.say(replies.PrivacyShown(group.coach_name if group else ""))


def undo(scene: Scene, member: people.Member) -> None:
    take_back(scene, member)


@deed(ShowToday)
def show_today(scene: Scene, wish: ShowToday) -> None:
    member = member_here(scene)
    if member:
        today(scene, member)


@deed(ShowWeek)
def show_week(scene: Scene, wish: ShowWeek) -> None:
    member = member_here(scene)
    if member:
        week(scene, member)


@deed(ShowDay)
def show_day(scene: Scene, wish: ShowDay) -> None:
    member = member_here(scene)
    course = course_of(scene, member) if member else None
    if course is not None and course.block.day(wish.day):
        scene.say(session_shown(course, wish.day))


def _settings(scene: Scene, member: people.Member) -> None:
    from bot.coaching import settings

    settings.show(scene, member)


def _export(scene: Scene, member: people.Member) -> None:
    from bot.coaching import own_data

    own_data.export(scene, member)


def _leave(scene: Scene, member: people.Member) -> None:
    from bot.coaching import own_data

    own_data.ask_leave(scene, member)


def _erase(scene: Scene, member: people.Member) -> None:
    from bot.coaching import own_data

    own_data.ask_erase(scene, member)


def _stop(scene: Scene, member: people.Member) -> None:
    from bot.coaching import own_data

    own_data.ask_stop(scene, member)


def _finish(scene: Scene, member: people.Member) -> None:
    course = course_of(scene, member)
    if course is None:
        no_block(scene, member)
    else:
        finish(scene, course)


def _calendar(scene: Scene, member: people.Member) -> None:
    from bot.coaching import own_data

    own_data.calendar(scene, member)


def _advice(scene: Scene, member: people.Member) -> None:
    from bot.coaching import review

    review.show_whole(scene, member)


def _progress(scene: Scene, member: people.Member) -> None:
    from bot.coaching import review

    review.show_progress(scene, member)


Shower = Callable[[Scene, people.Member], None]
COMMANDS: dict[str, Shower] = {
    "today": today,
    "week": week,
    "undo": undo,
    "settings": _settings,
    "targets": _advice,
    "calendar": _calendar,
    "mydata": _export,
    "erase": _erase,
    "leave": _leave,
    "stop": _stop,
    "privacy": privacy,
    "help": help_shown,
}
# The same in words, for whole texts only, so that "today" inside a sentence about sets does nothing.
_WORDS: tuple[tuple[re.Pattern[str], Shower], ...] = tuple(
    (re.compile(rf"\W*(?:{pattern})\W*", re.IGNORECASE), shower)
    for pattern, shower in (
        (
            r"today|todays?'?s? (?:session|workout|training|plan)|what(?:'?s| is) (?:on )?today|show (?:me )?today|start(?: session)?|let'?s go",
            today,
        ),
        (r"week|this week|my week|show (?:me )?(?:my |the )?week|what(?:'?s| is) (?:on )?this week", week),
        (r"next week|my next week|(?:show (?:me )?|what'?s (?:on )?)next week(?:'s (?:plan|sessions))?", next_week),
        (
            r"settings?|my settings?|change (?:my )?settings?|(?:(?:what|when) are |whats? |show (?:me )?)?(?:all )?(?:my |the )?reminders?(?: set (?:to|for))?|"
            r"(?:when|at what time|what time) (?:do|will|would) (?:you|i) (?:remind me|get (?:my |the |a )?reminders?|get reminded)|what(?:'?s| is) my reminder(?: time)?",
            _settings,
        ),
        (r"help|\?|what can (?:you|i) do|commands?", help_shown),
        (
            r"(?:how (?:am|are) (?:i|we) (?:doing|getting on|progressing)(?: so far| overall| this week| lately)?|(?:show (?:me )?)?(?:my )?progress(?: report| so far)?|"
            r"(?:am i (?:making progress|getting (?:stronger|better))))(?:,? (?:coach|please|pls))?",
            _progress,
        ),
        (r"more|targets?|my targets?|whole table|all targets|next week'?s targets?", _advice),
        (r"calendar|my calendar|ical|add to (?:my )?calendar", _calendar),
        (
            r"(?:(?:export|download|send me) )?(?:all )?my (?:data|sets)(?: (?:as|in) (?:a )?(?:csv|file|spreadsheet|excel|table))?|export",
            _export,
        ),
        (r"(?:delete|erase) (?:all )?my data|forget me|erase me", _erase),
        (r"(?:i want to |i'?d like to )?(?:leave|quit)(?: (?:the|this) group)?|unsubscribe", _leave),
        (
            r"(?:finish|end|close)(?: (?:the |my |this )?(?:session|workout|training))?|(?:session|workout) (?:over|finished|done)|"
            r"(?:i (?:want|need|have|would like) to |i'?d like to |let'?s |can i |i'?ll |i will )?(?:end|finish|stop) it (?:here|there) for (?:today|tonight|now)",
            _finish,
        ),
        (r"(?:cancel|abort)(?: (?:the |my |this )?(?:session|workout|training))?", _stop),
        (r"(?:please |pls )?stop(?: it| this| please| pls| everything| writing(?: to)? me| messaging me| texting me)*", _stop),
        (r"privacy|what do you (?:know|keep|store)(?: about me)?|who sees (?:this|my data|my sets)", privacy),
    )
)


def word_for(text: str) -> Shower | None:
    """The command that a whole text is in words, if it is one."""
    if len(text) > 60:
        return None
    return next((shower for pattern, shower in _WORDS if pattern.fullmatch(text.strip())), None)
