"""The calendar file against RFC 5545 and two general-purpose readers, icalendar and vobject."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import icalendar
import pytest
import vobject

from bot.chat.calendar_file import calendar_of
from bot.training.plan import DEFAULT_RHYTHM, default_plan, sessions_between

STAMP = datetime(2026, 3, 4, 18, 30, tzinfo=UTC)
PLAN = default_plan(start=date(2026, 3, 2), reminder_local=time(7, 15))
SESSIONS = sessions_between(PLAN, DEFAULT_RHYTHM, 5, date(2026, 3, 2), date(2026, 4, 12))
NAMES = {
    1: "Legs",
    2: "Pull",
    3: "Push; shoulders, chest\\arms",
    4: "Hüfte und Rumpf – ruhig anfangen, dann Schritt für Schritt mehr, bis es nicht mehr geht",
    5: "",
}


def _file(zone: str = "Europe/Lisbon") -> bytes:
    return calendar_of(SESSIONS, names=NAMES, zone=zone, plan=PLAN, owner="m17", stamp_utc=STAMP)


def test_lines_end_in_crlf_and_hold_at_most_75_octets() -> None:
    """RFC 5545, 3.1: content lines are delimited by CRLF and should not be longer than 75 octets without it."""
    data = _file()
    assert data.endswith(b"\r\n")
    lines = data.split(b"\r\n")
    assert not any(b"\n" in line or b"\r" in line for line in lines)
    assert max(map(len, lines)) <= 75
    assert any(line.startswith(b" ") for line in lines)  # the long name was folded
    for line in lines:
        line.decode("utf-8")  # never folded inside a letter


def test_each_session_is_one_event_with_its_own_id_and_the_stamp() -> None:
    """RFC 5545, 3.6.1: UID and DTSTAMP are required, and UID is globally unique."""
    events = icalendar.Calendar.from_ical(_file()).walk("VEVENT")
    assert len(events) == len(SESSIONS) == 30
    assert len({str(event["UID"]) for event in events}) == 30
    assert {event["DTSTAMP"].dt for event in events} == {STAMP}


@pytest.mark.parametrize("zone", ["Europe/Lisbon", "America/St_Johns", "Pacific/Auckland"])
def test_events_begin_at_the_member_s_wall_time_across_the_change_of_clocks(zone: str) -> None:
    events = icalendar.Calendar.from_ical(_file(zone)).walk("VEVENT")
    begins = [event["DTSTART"].dt.astimezone(ZoneInfo(zone)) for event in events]
    assert [one.date() for one in begins] == [session.date for session in SESSIONS]
    assert {one.time() for one in begins} == {time(7, 15)}
    assert all(event["DTEND"].dt - event["DTSTART"].dt == timedelta(hours=1) for event in events)


def test_names_with_marks_and_long_names_come_back_as_they_were() -> None:
    summaries = {str(event["SUMMARY"]) for event in icalendar.Calendar.from_ical(_file()).walk("VEVENT")}
    assert summaries == {f"Training day {number}" + (f": {name}" if name else "") for number, name in NAMES.items()}


def test_a_second_reader_finds_the_calendar_valid() -> None:
    read = vobject.readOne(_file().decode("utf-8"))
    assert read.validate(raiseException=True)
    assert read.version.value == "2.0"
    assert len(read.vevent_list) == 30
    assert read.vevent_list[0].dtstart.value == datetime(2026, 3, 2, 7, 15, tzinfo=UTC)


def test_the_same_sessions_written_later_keep_their_ids() -> None:
    later = calendar_of(SESSIONS, names={}, zone="Asia/Tokyo", plan=PLAN, owner="m17", stamp_utc=STAMP + timedelta(days=3))
    ids = [[str(event["UID"]) for event in icalendar.Calendar.from_ical(data).walk("VEVENT")] for data in (_file(), later)]
    assert ids[0] == ids[1]


def test_two_members_never_share_an_id() -> None:
    other = calendar_of(SESSIONS, names=NAMES, zone="Europe/Lisbon", plan=PLAN, owner="m18", stamp_utc=STAMP)
    ids = [{str(event["UID"]) for event in icalendar.Calendar.from_ical(data).walk("VEVENT")} for data in (_file(), other)]
    assert not ids[0] & ids[1]


def test_a_calendar_without_sessions_is_still_a_calendar() -> None:
    data = calendar_of((), names={}, zone="Europe/Lisbon", plan=PLAN, owner="m17", stamp_utc=STAMP)
    assert icalendar.Calendar.from_ical(data).walk("VEVENT") == []
