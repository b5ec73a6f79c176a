"""When is a member reminded? At a wall time in their own zone, on training days, outside their quiet hours.

| kind of due work | too late after | why |
|---|---|---|
| reminder | 4 h | later the day is over or the session done |
| reminder_again | 2 h | it is a nudge, not a record |
| rest_over | 60 s | a late call is noise |
| week_end | 36 h | the week's advice is good until the new week is under way |
| group_week | 36 h | likewise for the coach |

Publishing and delivering a block are never too late. A wall time inside the spring gap is taken an hour later, as a clock on the wall
would show it; one that comes twice in autumn is taken the first time.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from bot.training.plan import Plan, PlannedSession

TOO_LATE_S = {"reminder": 4 * 3600, "reminder_again": 2 * 3600, "rest_over": 60, "week_end": 36 * 3600, "group_week": 36 * 3600}


@dataclass(frozen=True, slots=True)
class ReminderDue:
    """The session to remind of, and the moment."""

    session: PlannedSession
    at_utc: datetime


def moment_of(on: date, at: time, zone: str) -> datetime:
    """The moment of a wall time, in UTC; inside a spring gap the time that the clock shows after the jump."""
    local = datetime.combine(on, at, ZoneInfo(zone))
    return local.astimezone(UTC)  # zoneinfo reads a missing time with the offset before the jump: an hour later on the wall


def wall_time(plan: Plan, at: time) -> time:
    """The reminder's time moved out of the quiet hours: to their end in the morning, to their start in the evening."""
    begin, end = plan.quiet_from, plan.quiet_until
    if begin is not None and end is not None and begin < end:  # quiet hours within one day: only what lies inside is moved
        return end if begin <= at < end else at
    if end is not None and at < end:
        return end
    if begin is not None and at >= begin:
        return begin
    return at


def is_quiet(plan: Plan, at: time) -> bool:
    """Does a wall time lie in the quiet hours? One side alone holds to, or from, midnight."""
    begin, end = plan.quiet_from, plan.quiet_until
    if begin is not None and end is not None and begin < end:
        return begin <= at < end
    return (begin is not None and at >= begin) or (end is not None and at < end)


def next_reminder(plan: Plan, planned: Iterable[PlannedSession], *, zone: str, after_utc: datetime) -> ReminderDue | None:
    """The first reminder later than a moment. planned: sessions to come, in order of date; None if no reminder is wanted or due."""
    if plan.reminder_local is None:
        return None
    for session in planned:
        if session.date.weekday() in plan.silent_weekdays or plan.is_away(session.date):
            continue
        at = moment_of(session.date, wall_time(plan, plan.reminder_local), zone)
        if at > after_utc:
            return ReminderDue(session, at)
    return None


def second_reminder(plan: Plan, session: PlannedSession, *, zone: str, after_utc: datetime) -> datetime | None:
    """The moment of the second reminder, if one is wanted and still falls on the session's own day, outside the quiet hours."""
    if plan.again_after_min is None:
        return None
    at = after_utc + timedelta(minutes=plan.again_after_min)
    local = at.astimezone(ZoneInfo(zone))
    return None if local.date() != session.date or is_quiet(plan, local.time()) else at
