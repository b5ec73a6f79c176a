"""Reminders through whole years: exactly one on each training day, at the member's wall time.

What is expected comes from outside: dateutil.rrule (RFC 5545, weekly BYDAY) and zoneinfo's own tables (IANA).
"""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from dateutil.rrule import FR, MO, SA, TU, WE, WEEKLY, rrule

from bot.training.plan import (
    DEFAULT_RHYTHM,
    Away,
    Plan,
    PlannedSession,
    SilentDays,
    apply,
    default_plan,
    sessions_between,
)
from bot.training.reminders import moment_of, next_reminder, second_reminder, wall_time

ZONES = (
    "Europe/Lisbon", "America/New_York", "America/Denver", "Asia/Kolkata",
    "Australia/Adelaide", "Pacific/Auckland", "America/St_Johns", "America/Sao_Paulo",
)  # fmt: skip
START = date(2025, 12, 29)  # the Monday before the year
FIRST, LAST = date(2026, 1, 1), date(2026, 12, 31)


def _stepped(plan: Plan, zone: str, first: date = FIRST, last: date = LAST) -> list[tuple[date, datetime]]:
    """Every reminder between two dates, each asked for at the moment of the one before."""
    planned = sessions_between(plan, DEFAULT_RHYTHM, 5, first, last, today=first)
    after = datetime.combine(first, time(0), ZoneInfo(zone)).astimezone(UTC) - timedelta(seconds=1)
    found = []
    while due := next_reminder(plan, planned, zone=zone, after_utc=after):
        found.append((due.session.date, due.at_utc))
        after = due.at_utc
    return found


def _training_dates(first: date = FIRST, last: date = LAST) -> list[date]:
    rule = rrule(
        WEEKLY,
        byweekday=(MO, TU, WE, FR, SA),
        dtstart=datetime.combine(first, time(0)),
        until=datetime.combine(last, time(0)),
    )
    return [one.date() for one in rule]


@pytest.mark.parametrize("at", [time(0, 5), time(7, 0), time(18, 30), time(23, 50)])
@pytest.mark.parametrize("zone", ZONES)
def test_a_year_has_one_reminder_on_each_training_day_at_the_wall_time(zone: str, at: time) -> None:
    found = _stepped(default_plan(start=START, reminder_local=at), zone)
    assert [day for day, _ in found] == _training_dates()
    local = [moment.astimezone(ZoneInfo(zone)) for _, moment in found]
    assert [(one.date(), one.time()) for one in local] == [(day, at) for day in _training_dates()]


@pytest.mark.parametrize(
    ("zone", "gap", "at", "shown"),
    [
        ("Europe/Lisbon", date(2026, 3, 29), time(1, 30), time(2, 30)),
        ("America/New_York", date(2026, 3, 8), time(2, 30), time(3, 30)),
        ("America/Denver", date(2026, 3, 8), time(2, 0), time(3, 0)),
        ("America/St_Johns", date(2026, 3, 8), time(2, 59), time(3, 59)),
        ("Australia/Adelaide", date(2026, 10, 4), time(2, 15), time(3, 15)),
        ("Pacific/Auckland", date(2026, 9, 27), time(2, 30), time(3, 30)),
    ],
)
def test_a_wall_time_that_the_spring_leaves_out_is_an_hour_later(zone: str, gap: date, at: time, shown: time) -> None:
    local = moment_of(gap, at, zone).astimezone(ZoneInfo(zone))
    assert (local.date(), local.time()) == (gap, shown)


@pytest.mark.parametrize(
    ("zone", "fold", "at", "utc"),
    [
        ("Europe/Lisbon", date(2026, 10, 25), time(1, 30), datetime(2026, 10, 25, 0, 30, tzinfo=UTC)),
        ("America/New_York", date(2026, 11, 1), time(1, 30), datetime(2026, 11, 1, 5, 30, tzinfo=UTC)),
        ("Pacific/Auckland", date(2026, 4, 5), time(2, 30), datetime(2026, 4, 4, 13, 30, tzinfo=UTC)),
    ],
)
def test_a_wall_time_that_comes_twice_is_taken_the_first_time(zone: str, fold: date, at: time, utc: datetime) -> None:
    assert moment_of(fold, at, zone) == utc


@pytest.mark.parametrize("zone", ["Europe/Lisbon", "America/New_York"])
def test_a_reminder_in_the_gap_or_the_fold_still_comes_exactly_once(zone: str) -> None:
    """Every day is a training day here, so both nights of the change are met."""
    plan = default_plan(start=START, reminder_local=time(1, 30), weekdays=(0, 1, 2, 3, 4, 5, 6))
    days = [FIRST + timedelta(days=n) for n in range((LAST - FIRST).days + 1)]
    planned = [PlannedSession(day, 1) for day in days]
    after = datetime(2025, 12, 31, 12, tzinfo=UTC)
    seen = []
    while due := next_reminder(plan, planned, zone=zone, after_utc=after):
        seen.append(due.session.date)
        after = due.at_utc
    assert seen == days


def test_the_leap_day_of_2028_is_a_training_day_like_any_tuesday() -> None:
    first, last = date(2028, 2, 21), date(2028, 3, 7)
    plan = default_plan(start=date(2028, 2, 21), reminder_local=time(6, 45))
    found = _stepped(plan, "America/Denver", first, last)
    assert [day for day, _ in found] == _training_dates(first, last)
    assert dict(found)[date(2028, 2, 29)] == datetime(2028, 2, 29, 13, 45, tzinfo=UTC)  # Denver is seven hours behind in winter


def test_a_reminder_at_midnight_stays_on_the_session_s_own_date() -> None:
    for zone in ZONES:
        for day, moment in _stepped(default_plan(start=START, reminder_local=time(0, 0)), zone):
            assert moment.astimezone(ZoneInfo(zone)).date() == day


def test_quiet_hours_within_one_day_silence_the_second_reminder_only_inside_them() -> None:
    plan = Plan(START, quiet_from=time(13, 0), quiet_until=time(15, 0), again_after_min=60)
    session = PlannedSession(date(2026, 3, 4), 3)
    hours = [hour for hour in range(6, 22) if second_reminder(
        plan, session, zone="Europe/Lisbon", after_utc=datetime(2026, 3, 4, hour, tzinfo=UTC)) is None]  # fmt: skip
    assert hours == [12, 13]


QUIET = Plan(START, quiet_from=time(21, 0), quiet_until=time(7, 30))


@pytest.mark.parametrize(
    ("at", "moved"),
    [
        (time(6, 0), time(7, 30)),
        (time(7, 29), time(7, 30)),
        (time(7, 30), time(7, 30)),
        (time(20, 59), time(20, 59)),
        (time(21, 0), time(21, 0)),
        (time(22, 15), time(21, 0)),
    ],
)
def test_a_reminder_is_moved_to_the_edge_of_the_quiet_hours(at: time, moved: time) -> None:
    assert wall_time(QUIET, at) == moved


def test_no_reminder_is_due_when_none_is_wanted() -> None:
    planned = [PlannedSession(date(2026, 3, 4), 3)]
    assert next_reminder(Plan(START), planned, zone="Europe/Lisbon", after_utc=datetime(2026, 1, 1, tzinfo=UTC)) is None


def test_silent_weekdays_and_absences_are_passed_over() -> None:
    plan = default_plan(start=date(2026, 3, 2), reminder_local=time(8))
    plan = apply(plan, SilentDays((4,)), today=date(2026, 3, 2))
    plan = apply(plan, Away(date(2026, 3, 9), date(2026, 3, 11)), today=date(2026, 3, 2))
    days = [day for day, _ in _stepped(plan, "Asia/Kolkata", date(2026, 3, 2), date(2026, 3, 15))]
    assert days == [date(2026, 3, day) for day in (2, 3, 4, 7, 14)]


@pytest.mark.parametrize(
    ("after", "expected"),
    [
        (datetime(2026, 3, 4, 8, 0, tzinfo=UTC), datetime(2026, 3, 4, 10, 0, tzinfo=UTC)),
        (datetime(2026, 3, 4, 18, 59, tzinfo=UTC), datetime(2026, 3, 4, 20, 59, tzinfo=UTC)),
        (datetime(2026, 3, 4, 19, 0, tzinfo=UTC), None),  # it would fall on 21:00, where the quiet hours begin
        (datetime(2026, 3, 4, 23, 0, tzinfo=UTC), None),  # it would fall on the next day
        (datetime(2026, 3, 4, 5, 15, tzinfo=UTC), None),  # 7:15 is quiet still
        (datetime(2026, 3, 4, 5, 30, tzinfo=UTC), datetime(2026, 3, 4, 7, 30, tzinfo=UTC)),
    ],
)
def test_the_second_reminder_stays_on_the_session_s_day_and_out_of_the_quiet_hours(
    after: datetime, expected: datetime | None
) -> None:
    plan = replace(QUIET, again_after_min=120)
    assert second_reminder(plan, PlannedSession(date(2026, 3, 4), 3), zone="Europe/Lisbon", after_utc=after) == expected
