"""A member's sessions as a calendar file (RFC 5545): stable ids, moments in UTC, so that no reader needs our zone tables."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, datetime, time, timedelta

from icalendar import Calendar, Event

from bot.training.plan import Plan, PlannedSession
from bot.training.reminders import moment_of

_LENGTH = timedelta(minutes=60)
_NOON = time(12, 0)


def calendar_of(
    sessions: Sequence[PlannedSession], *, names: Mapping[int, str], zone: str, plan: Plan, owner: str, stamp_utc: datetime
) -> bytes:
    """The sessions as one calendar, CRLF lines folded at 75 octets.

    names: day number -> the day's name. owner: a stable word for the member, part of each event's id: a session moved to another
    date is another event, and a file read again changes the events it brought before instead of doubling them.
    """
    calendar = Calendar()
    calendar.add("prodid", "-//training-block companion//sessions//EN")
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("x-wr-calname", "Training sessions")
    for session in sessions:
        calendar.add_component(_event(session, names.get(session.day_number, ""), zone, plan, owner, stamp_utc))
    data: bytes = calendar.to_ical()
    return data


def _event(session: PlannedSession, name: str, zone: str, plan: Plan, owner: str, stamp_utc: datetime) -> Event:
    begin = moment_of(session.date, plan.reminder_local or _NOON, zone)
    event = Event()
    event.add("uid", _uid(session.date, session.day_number, owner))
    event.add("dtstamp", stamp_utc)
    event.add("dtstart", begin)
    event.add("dtend", begin + _LENGTH)
    event.add("summary", f"Training day {session.day_number}" + (f": {name}" if name else ""))
    return event


def _uid(on: date, day: int, owner: str) -> str:
    return f"{owner}-{on.isoformat()}-{day}@training-block-companion"
