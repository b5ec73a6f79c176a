"""What does a wish about days do to a member's plan, and which dates does that touch?

apply(plan, Move(on=thursday, to=saturday)) -> the plan with one change more; the old plan is the undo
describe_change(before, after, ...)         -> the dates that differ: what stood there, what stands there now
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, time, timedelta
from enum import StrEnum

from bot.training.plan_days import sessions_between
from bot.training.plan_values import (
    DEFAULT_RHYTHM,
    SPANS,
    Away,
    Backdate,
    Change,
    ChangeKind,
    Deed,
    FormerDays,
    Missed,
    Mode,
    Move,
    Pause,
    Plan,
    PlannedSession,
    QuietHours,
    ReminderAgain,
    ReminderAt,
    Resume,
    Rolling,
    Shift,
    SilentDays,
    Skip,
    StartBlock,
    Swap,
    Weekdays,
    ZoneMove,
)

__all__ = [
    "DEFAULT_RHYTHM", "Away", "Backdate", "Change", "ChangeKind", "Deed", "Missed", "Mode", "Move", "Pause", "Plan",
    "PlannedSession", "QuietHours", "ReminderAgain", "ReminderAt", "Resume", "Rolling", "Shift", "SilentDays", "Skip",
    "StartBlock", "Swap", "Touch", "Touched", "Weekdays", "ZoneMove", "apply", "default_plan", "describe_change", "next_free_day",
    "sessions_between",
]  # fmt: skip

_DAY = timedelta(days=1)
_LOOK_AHEAD_DAYS = 28  # how far ahead the dates of a change are listed (our choice: four weeks)
_FORGET_AFTER_DAYS = 120  # changes so far behind touch no date that anybody asks for


def default_plan(
    *,
    start: date,
    weekdays: tuple[int, ...] = (0, 1, 2, 4, 5),
    reminder_local: time | None = None,
    week_start: int = 0,
    mode: Mode = Mode.WEEKDAYS,
) -> Plan:
    """The coach's default: three on, one off, two on, one off, day 1 on a Monday."""
    return Plan(start=start, mode=mode, weekdays=weekdays, reminder_local=reminder_local, week_start=week_start)


def apply(plan: Plan, deed: Deed, *, today: date) -> Plan:
    """Carry a wish out on the plan; a wish that concerns no plan (a zone, a session done earlier) gives the same plan."""
    match deed:
        case Move(on, to):
            return _with(plan, Change(ChangeKind.MOVED, on, to), today)
        case Swap(first, second):
            return _with(plan, Change(ChangeKind.SWAPPED, first, second), today)
        case Skip(on):
            return _with(plan, Change(ChangeKind.SKIPPED, on), today)
        case Shift(first, days):
            return _with(plan, Change(ChangeKind.SHIFTED, first, _shift_end(plan, first, days), days), today)
        case Away(first, last):
            return _with(plan, Change(ChangeKind.AWAY, first, last), today)
        case Pause(first, last):
            return _with(plan, Change(ChangeKind.PAUSED, first, last), today)
        case Resume(on):
            return replace(plan, changes=_ended(plan.changes, on))
        case Weekdays() | Rolling() | StartBlock():
            return _new_rule(plan, deed)
    return _with_reminders(plan, deed)


def _with(plan: Plan, change: Change, today: date) -> Plan:
    old = today - timedelta(days=_FORGET_AFTER_DAYS)
    if plan.mode is Mode.ROLLING:
        old = date.min  # a rolling plan is walked from its start, so nothing may be forgotten
    kept = tuple(one for one in plan.changes if (one.second or one.first) >= old or _is_open(one))
    return replace(plan, changes=(*kept, change))


def _is_open(change: Change) -> bool:
    return change.second is None and change.kind in (*SPANS, ChangeKind.SHIFTED)


def _shift_end(plan: Plan, first: date, days: int) -> date | None:
    """Where a shift stops: by whole weeks it goes on for ever; else a plan by weekdays is itself again with the next day 1."""
    if plan.mode is Mode.ROLLING or days % 7 == 0 or not plan.weekdays:
        return None
    return first + timedelta(days=(plan.weekdays[0] - first.weekday()) % 7 or 7)


def _ended(changes: tuple[Change, ...], on: date) -> tuple[Change, ...]:
    kept: list[Change] = []
    for change in changes:
        if change.kind not in SPANS or not change.covers(on):
            kept.append(change)
        elif change.first < on:
            kept.append(replace(change, second=on - _DAY))
    return tuple(kept)


def _new_rule(plan: Plan, deed: Weekdays | Rolling | StartBlock) -> Plan:
    match deed:
        case Weekdays(weekdays, since):
            former = (*plan.former, FormerDays(since, plan.weekdays)) if plan.mode is Mode.WEEKDAYS else ()
            start = plan.start if plan.mode is Mode.WEEKDAYS else since
            return replace(plan, mode=Mode.WEEKDAYS, weekdays=weekdays, former=former, start=start)
        case Rolling(since):
            return replace(plan, mode=Mode.ROLLING, start=since, former=(), changes=_spans_after(plan, since))
        case StartBlock(on):
            weekdays = _from_weekday(plan.weekdays, on.weekday())
            return replace(plan, start=on, weekdays=weekdays, former=(), changes=_spans_after(plan, on))


def _spans_after(plan: Plan, since: date) -> tuple[Change, ...]:
    """Absences outlive a new rule; single sessions that were moved do not."""
    return tuple(c for c in plan.changes if c.kind in SPANS and (c.second is None or c.second >= since))


def _from_weekday(weekdays: tuple[int, ...], first: int) -> tuple[int, ...]:
    """The same weekdays, day 1 on the first of them that comes; unchanged if day 1 is that one already."""
    if not weekdays:
        return weekdays
    coming = min(weekdays, key=lambda weekday: (weekday - first) % 7)
    if coming == weekdays[0]:
        return weekdays
    return tuple(sorted(weekdays, key=lambda weekday: (weekday - coming) % 7))


def _with_reminders(plan: Plan, deed: Deed) -> Plan:
    match deed:
        case ReminderAt(at):
            return replace(plan, reminder_local=at)
        case ReminderAgain(after_min):
            return replace(plan, again_after_min=after_min)
        case SilentDays(weekdays):
            return replace(plan, silent_weekdays=weekdays)
        case QuietHours(start, end):
            return replace(plan, quiet_from=start or plan.quiet_from, quiet_until=end or plan.quiet_until)
    return plan


class Touch(StrEnum):
    COMES = "comes"  # a session stands here now
    GOES = "goes"  # the session that stood here is elsewhere now
    DROPS = "drops"  # the session that stood here is left out


@dataclass(frozen=True, slots=True)
class Touched:
    """One date that a change touches. other: where the session came from or went to, if anywhere."""

    on: date
    day_number: int
    touch: Touch
    other: date | None = None


def describe_change(
    before: Plan,
    after: Plan,
    *,
    today: date,
    day_count: int,
    rhythm: Sequence[bool] = DEFAULT_RHYTHM,
    done: Mapping[date, int] | None = None,
    days: int = _LOOK_AHEAD_DAYS,
) -> tuple[Touched, ...]:
    """The dates on which two plans differ within the next weeks, in order: concrete enough to be shown as they are."""
    first, last = min(today, before.week_start_for(today)), today + timedelta(days=days)
    old = set(_places(sessions_between(before, rhythm, day_count, first, last, done, today=today)))
    new = set(_places(sessions_between(after, rhythm, day_count, first, last, done, today=today)))
    left, come = sorted(old - new), sorted(new - old)
    touched: list[Touched] = []
    for on, number in left:
        to = next((one for one in come if one[1] == number), None)
        if to is None:
            touched.append(Touched(on, number, Touch.DROPS))
            continue
        come.remove(to)
        touched += [Touched(on, number, Touch.GOES, to[0]), Touched(to[0], number, Touch.COMES, on)]
    touched += [Touched(on, number, Touch.COMES) for on, number in come]
    return tuple(sorted(touched, key=lambda one: (one.on, one.touch is Touch.COMES, one.day_number)))


def _places(sessions: Sequence[PlannedSession]) -> list[tuple[date, int]]:
    return [(session.date, session.day_number) for session in sessions]


def next_free_day(sessions: Sequence[PlannedSession], after: date, *, plan: Plan, within: int = 7) -> date | None:
    """The first date after one that holds no session and no absence; None if there is none within so many days."""
    taken = {session.date for session in sessions}
    dates = (after + timedelta(days=n) for n in range(1, within + 1))
    return next((on for on in dates if on not in taken and not plan.is_away(on)), None)
