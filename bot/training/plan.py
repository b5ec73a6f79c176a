"""What does a wish about days do to a member's plan, and which dates does that touch?

apply(plan, Move(on=thursday, to=saturday)) -> the plan with one change more; the old plan is the undo
describe_change(before, after, ...)         -> the dates that differ: what stood there, what stands there now
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, time, timedelta

from bot.training.plan_days import sessions_between
from bot.training.plan_told import Touch, Touched, describe_change
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
    RemindOnce,
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
    "PlannedSession", "QuietHours", "RemindOnce", "ReminderAgain", "ReminderAt", "Resume", "Rolling", "Shift", "SilentDays", "Skip",
    "StartBlock", "Swap", "Touch", "Touched", "Weekdays", "ZoneMove", "apply", "default_plan", "describe_change", "going_on", "next_free_day",
    "sessions_between",
]  # fmt: skip

_DAY = timedelta(days=1)
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
        case Move(on, to, other_to, _) if other_to == on:
            return _with(plan, Change(ChangeKind.SWAPPED, on, to), today)
        case Move(on, to, other_to, _):
            aside = plan if other_to is None else _with(plan, Change(ChangeKind.MOVED, to, other_to), today)
            return _with(aside, Change(ChangeKind.MOVED, on, to), today)
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


def going_on(deed: Deed, sessions: Sequence[PlannedSession], *, day_count: int, done: Mapping[date, int] | None = None) -> Deed:
    """A new rule that goes on with the day that is due, instead of beginning the split anew; other wishes as they are.

    sessions: of the plan as it is, in order of date.
    """
    if not isinstance(deed, Weekdays | Rolling) or deed.first_day is not None:
        return deed
    if deed.since in (done or {}):  # that day's session was done by the rule as it was
        deed = replace(deed, since=deed.since + _DAY)
    if isinstance(deed, Weekdays) and len(deed.weekdays) == day_count:
        return deed  # each weekday has its own day of the split
    coming = [one for one in sessions if one.date >= deed.since and one.date not in (done or {})]
    return replace(deed, first_day=coming[0].day_number if coming else 1)


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
        case Weekdays(weekdays, since, first_day) if plan.mode is Mode.WEEKDAYS:
            if weekdays == plan.weekdays:
                return plan
            return replace(plan, weekdays=weekdays, start=since, first_day=first_day or 1, former=_former(plan, since))
        case Weekdays(weekdays, since, first_day):
            new = replace(plan, mode=Mode.WEEKDAYS, weekdays=weekdays, start=since, first_day=first_day or 1, rhythm=None)
            return replace(new, former=(), changes=_spans_after(plan, since), previous=_behind(plan, since))
        case Rolling(since, rhythm, first_day):
            new = replace(plan, mode=Mode.ROLLING, start=since, first_day=first_day or 1, rhythm=rhythm)
            return replace(new, former=(), changes=_spans_after(plan, since), previous=_behind(plan, since))
        case StartBlock(on) if plan.mode is Mode.ROLLING:
            return replace(plan, start=on, first_day=1, changes=_spans_after(plan, on), previous=_behind(plan, on))
        case StartBlock(on):
            weekdays = _from_weekday(plan.weekdays, on.weekday())
            former = _former(plan, on)
            return replace(plan, start=on, weekdays=weekdays, first_day=1, former=former, changes=_changes_until(plan, on))


def _former(plan: Plan, since: date) -> tuple[FormerDays, ...]:
    """The rules that held before a date; one that was chosen and changed again before it began never held."""
    kept = tuple(old for old in plan.former if old.before < since)
    return (*kept, replace(plan.rule_on(since - _DAY), before=since))


def _behind(plan: Plan, since: date) -> Plan:
    """The plan that holds before a date. Of those before it only what may still be asked for is kept."""
    old = since - timedelta(days=_FORGET_AFTER_DAYS)
    # A rule that was chosen and changed again before it began never held.
    while plan.previous is not None and plan.start >= since:
        plan = plan.previous
    return replace(plan, previous=None) if plan.start < old else plan


def _changes_until(plan: Plan, on: date) -> tuple[Change, ...]:
    """What was changed before a new block stays; an open shift of the old one ends with it."""
    kept = [change for change in plan.changes if change.kind in SPANS or change.first < on]
    return tuple(replace(c, second=on) if c.kind is ChangeKind.SHIFTED and (c.second or on) >= on else c for c in kept)


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


def next_free_day(sessions: Sequence[PlannedSession], after: date, *, plan: Plan, within: int = 7) -> date | None:
    """The first date after one that holds no session and no absence; None if there is none within so many days."""
    taken = {session.date for session in sessions}
    dates = (after + timedelta(days=n) for n in range(1, within + 1))
    return next((on for on in dates if on not in taken and not plan.is_away(on)), None)
