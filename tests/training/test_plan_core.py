"""A member's plan: the rule, every wish carried out and taken back, and what no change may do: lose, double or rewrite sessions.

The rule's dates come from outside: dateutil.rrule (RFC 5545) for weekdays, itertools.cycle for a rhythm.
"""

from __future__ import annotations

import itertools
from collections import Counter
from dataclasses import replace
from datetime import date, datetime, time, timedelta

import pytest
from dateutil.rrule import WEEKLY, rrule
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bot.training.plain import from_plain, to_plain
from bot.training.plan import (
    DEFAULT_RHYTHM,
    Away,
    Backdate,
    Deed,
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
    Touch,
    Weekdays,
    ZoneMove,
    apply,
    default_plan,
    describe_change,
    going_on,
    sessions_between,
)
from bot.training.plan_doubts import Doubt, Way, doubt_about

START = date(2026, 3, 2)  # a Monday
TODAY = date(2026, 3, 4)
DAY = timedelta(days=1)


def _plan(mode: Mode = Mode.WEEKDAYS) -> Plan:
    return default_plan(start=START, mode=mode)


def _sessions(
    plan: Plan, first: date = START, last: date = date(2026, 3, 22), *, done: dict[date, int] | None = None, today: date = START
) -> tuple[PlannedSession, ...]:
    return sessions_between(plan, DEFAULT_RHYTHM, 5, first, last, done, today=today)


def _days(plan: Plan, first: int, last: int, *, done: dict[date, int] | None = None, today: date = START) -> str:
    """March's sessions as "date:day" words."""
    found = _sessions(plan, date(2026, 3, first), date(2026, 3, last), done=done, today=today)
    return " ".join(f"{one.date.day}:{one.day_number}" for one in found)


def _march(day: int) -> date:
    return date(2026, 3, day)


@pytest.mark.parametrize("weekdays", [(0, 1, 2, 4, 5), (5, 6, 0, 2, 3), (6, 0, 1, 3, 4)])
def test_five_weekdays_carry_the_five_days_of_the_split_all_year(weekdays: tuple[int, ...]) -> None:
    last = START + timedelta(days=365)
    rule = rrule(WEEKLY, byweekday=weekdays, dtstart=datetime.combine(START, time()), until=datetime.combine(last, time()))
    expected = [(one.date(), weekdays.index(one.weekday()) + 1) for one in rule]
    found = _sessions(default_plan(start=START, weekdays=weekdays), START, last)
    assert [(one.date, one.day_number) for one in found] == expected


@pytest.mark.parametrize("weekdays", [(0, 2, 4), (1, 3), (0, 1, 2, 3, 4, 5), (6,)])
def test_on_more_or_fewer_weekdays_the_days_of_the_split_follow_one_another(weekdays: tuple[int, ...]) -> None:
    last = START + timedelta(days=120)
    rule = rrule(WEEKLY, byweekday=weekdays, dtstart=datetime.combine(START, time()), until=datetime.combine(last, time()))
    expected = list(zip((one.date() for one in rule), itertools.cycle((1, 2, 3, 4, 5)), strict=False))
    found = _sessions(default_plan(start=START, weekdays=weekdays), START, last)
    assert [(one.date, one.day_number) for one in found] == expected


@pytest.mark.parametrize("rhythm", [None, (True, True, False), (True, False), (True, True, True, True, False, False)])
def test_a_rolling_plan_without_a_miss_is_its_rhythm_going_round(rhythm: tuple[bool, ...] | None) -> None:
    plan = apply(_plan(Mode.ROLLING), Rolling(START, rhythm), today=START)
    days = [START + timedelta(days=n) for n in range(90)]
    on = [day for day, trains in zip(days, itertools.cycle(rhythm or DEFAULT_RHYTHM), strict=False) if trains]
    assert [(one.date, one.day_number) for one in _sessions(plan, START, days[-1])] == list(
        zip(on, itertools.cycle((1, 2, 3, 4, 5)), strict=False)
    )


def test_what_is_missed_moves_a_rolling_plan_along() -> None:
    plan = _plan(Mode.ROLLING)
    assert _days(plan, 2, 12, done={START: 1}, today=_march(5)) == "2:1 5:2 6:3 8:4 9:5 11:1 12:2"


BOTH_WAYS: tuple[tuple[Deed, str, str], ...] = (
    # wish, by weekdays, rolling; the plan before: 2:1 3:2 4:3 6:4 7:5 9:1 10:2 11:3 13:4 14:5
    (Move(_march(6), _march(8)), "2:1 3:2 4:3 7:5 8:4 9:1 10:2 11:3 13:4 14:5", "2:1 3:2 4:3 7:5 8:4 9:1 10:2 11:3 13:4 14:5"),
    (Move(_march(6), _march(5)), "2:1 3:2 4:3 5:4 7:5 9:1 10:2 11:3 13:4 14:5", "2:1 3:2 4:3 5:4 7:5 9:1 10:2 11:3 13:4 14:5"),
    (
        Move(_march(6), _march(7), other_to=_march(8)),
        "2:1 3:2 4:3 7:4 8:5 9:1 10:2 11:3 13:4 14:5",
        "2:1 3:2 4:3 7:4 8:5 9:1 10:2 11:3 13:4 14:5",
    ),
    (
        Move(_march(6), _march(7), both=True),
        "2:1 3:2 4:3 7:5 7:4 9:1 10:2 11:3 13:4 14:5",
        "2:1 3:2 4:3 7:5 7:4 9:1 10:2 11:3 13:4 14:5",
    ),
    (Swap(_march(6), _march(7)), "2:1 3:2 4:3 6:5 7:4 9:1 10:2 11:3 13:4 14:5", "2:1 3:2 4:3 6:5 7:4 9:1 10:2 11:3 13:4 14:5"),
    (Swap(_march(7), _march(8)), "2:1 3:2 4:3 6:4 8:5 9:1 10:2 11:3 13:4 14:5", "2:1 3:2 4:3 6:4 8:5 9:1 10:2 11:3 13:4 14:5"),
    (Skip(_march(6)), "2:1 3:2 4:3 7:5 9:1 10:2 11:3 13:4 14:5", "2:1 3:2 4:3 7:5 9:1 10:2 11:3 13:4 14:5"),
    (Shift(_march(4), 1), "2:1 3:2 5:3 7:4 8:5 9:1 10:2 11:3 13:4 14:5", "2:1 3:2 5:3 7:4 8:5 10:1 11:2 12:3 14:4"),
    (Shift(_march(4), 7), "2:1 3:2 11:3 13:4 14:5", "2:1 3:2 11:3 13:4 14:5"),
    (Away(_march(4), _march(6)), "2:1 3:2 7:5 9:1 10:2 11:3 13:4 14:5", "2:1 3:2 7:3 9:4 10:5 12:1 13:2 14:3"),
    (Pause(_march(4)), "2:1 3:2", "2:1 3:2"),
    (Backdate(START, 1), "2:1 3:2 4:3 6:4 7:5 9:1 10:2 11:3 13:4 14:5", "2:1 3:2 4:3 6:4 7:5 9:1 10:2 11:3 13:4 14:5"),
    (ZoneMove("lima"), "2:1 3:2 4:3 6:4 7:5 9:1 10:2 11:3 13:4 14:5", "2:1 3:2 4:3 6:4 7:5 9:1 10:2 11:3 13:4 14:5"),
    (Weekdays((1, 2, 3, 5, 6), _march(9)), "2:1 3:2 4:3 6:4 7:5 10:1 11:2 12:3 14:4", "2:1 3:2 4:3 6:4 7:5 10:1 11:2 12:3 14:4"),
    (Weekdays((1, 3), _march(5), 4), "2:1 3:2 4:3 5:4 10:5 12:1", "2:1 3:2 4:3 5:4 10:5 12:1"),
    (Rolling(_march(5), (True, False), 4), "2:1 3:2 4:3 5:4 7:5 9:1 11:2 13:3", "2:1 3:2 4:3 5:4 7:5 9:1 11:2 13:3"),
    (Rolling(_march(5), None, 4), "2:1 3:2 4:3 5:4 6:5 8:1 9:2 10:3 12:4 13:5", "2:1 3:2 4:3 5:4 6:5 8:1 9:2 10:3 12:4 13:5"),
    (StartBlock(_march(9)), "2:1 3:2 4:3 6:4 7:5 9:1 10:2 11:3 13:4 14:5", "2:1 3:2 4:3 6:4 7:5 9:1 10:2 11:3 13:4 14:5"),
    (StartBlock(_march(11)), "2:1 3:2 4:3 6:4 7:5 9:1 10:2 11:1 13:2 14:3", "2:1 3:2 4:3 6:4 7:5 9:1 10:2 11:1 12:2 13:3"),
)  # fmt: skip


@pytest.mark.parametrize("mode", list(Mode))
@pytest.mark.parametrize(("deed", "weekly", "rolling"), BOTH_WAYS, ids=[str(row[0]) for row in BOTH_WAYS])
def test_each_wish_gives_the_dates_that_a_coach_would_write_down(deed: Deed, weekly: str, rolling: str, mode: Mode) -> None:
    after = apply(_plan(mode), deed, today=TODAY)
    assert _days(after, 2, 14) == (weekly if mode is Mode.WEEKDAYS else rolling)


@pytest.mark.parametrize("mode", list(Mode))
def test_back_again_ends_an_absence_from_that_date_on(mode: Mode) -> None:
    away = apply(_plan(mode), Away(_march(6)), today=TODAY)
    back = apply(away, Resume(_march(8)), today=_march(8))
    assert not back.is_away(_march(8))
    assert back.is_away(_march(7))
    assert _days(back, 2, 10) == ("2:1 3:2 4:3 9:1 10:2" if mode is Mode.WEEKDAYS else "2:1 3:2 4:3 8:4 9:5")


@pytest.mark.parametrize(
    ("deed", "fields"),
    [
        (ReminderAt(time(6, 30)), {"reminder_local": time(6, 30)}),
        (ReminderAt(None), {"reminder_local": None}),
        (ReminderAgain(90), {"again_after_min": 90}),
        (SilentDays((5, 6)), {"silent_weekdays": (5, 6)}),
        (QuietHours(start=time(21)), {"quiet_from": time(21), "quiet_until": time(7)}),
        (QuietHours(end=time(9)), {"quiet_from": time(22), "quiet_until": time(9)}),
    ],
)
def test_wishes_about_reminders_touch_reminders_alone(deed: Deed, fields: dict[str, object]) -> None:
    plan = replace(_plan(), reminder_local=time(18), quiet_from=time(22), quiet_until=time(7))
    assert apply(plan, deed, today=TODAY) == replace(plan, **fields)  # type: ignore[arg-type]


# --- what may never happen ---

ANY_DAY = st.integers(0, 40).map(lambda n: TODAY + timedelta(days=n))
SINGLE = st.one_of(
    st.builds(Move, ANY_DAY, ANY_DAY),
    st.builds(Swap, ANY_DAY, ANY_DAY),
    st.builds(Shift, ANY_DAY, st.sampled_from((7, 14))),
)
WISHES = st.one_of(
    SINGLE,
    st.builds(Skip, ANY_DAY),
    st.builds(Shift, ANY_DAY, st.integers(-3, 10).filter(bool)),
    st.builds(lambda first, n: Away(first, first + timedelta(days=n)), ANY_DAY, st.integers(0, 20)),
    st.builds(Pause, ANY_DAY),
    st.builds(Resume, ANY_DAY),
    st.builds(Weekdays, st.lists(st.integers(0, 6), min_size=1, max_size=7, unique=True).map(tuple), ANY_DAY, st.integers(1, 5)),
    st.builds(Rolling, ANY_DAY, st.none() | st.just((True, True, False)), st.integers(1, 5)),
    st.builds(StartBlock, ANY_DAY),
)
MODES = st.sampled_from(Mode)


@settings(max_examples=100, deadline=None)
@given(MODES, st.lists(SINGLE, max_size=6))
def test_moves_and_swaps_lose_no_session_and_double_none(mode: Mode, deeds: list[Deed]) -> None:
    before = plan = _plan(mode)
    for deed in deeds:
        if isinstance(deed, Move):
            assume(deed.on != deed.to)
        plan = apply(plan, deed, today=TODAY)
    far = START + timedelta(days=280)
    weeks = sum(deed.days for deed in deeds if isinstance(deed, Shift))
    kept = Counter(one.day_number for one in _sessions(plan, START, far + timedelta(days=weeks), today=TODAY))
    assert kept == Counter(one.day_number for one in _sessions(before, START, far, today=TODAY))


@settings(max_examples=100, deadline=None)
@given(MODES, st.lists(WISHES, min_size=1, max_size=6))
def test_undo_gives_back_the_plan_that_was_even_after_it_was_stored(mode: Mode, deeds: list[Deed]) -> None:
    plan = _plan(mode)
    for deed in deeds:
        seen = _sessions(plan, today=TODAY)
        after = apply(plan, deed, today=TODAY)
        assert from_plain(to_plain(plan), Plan) == plan
        assert _sessions(plan, today=TODAY) == seen
        assert describe_change(after, after, today=TODAY, day_count=5) == ()
        plan = after


@settings(max_examples=100, deadline=None)
@given(MODES, st.lists(WISHES, max_size=4), WISHES)
def test_no_wish_about_days_to_come_rewrites_the_days_behind(mode: Mode, deeds: list[Deed], last: Deed) -> None:
    plan = _plan(mode)
    for deed in deeds:
        plan = apply(plan, deed, today=TODAY)
    done = {START: 1, _march(3): 2}
    earlier = [_sessions(each, START, TODAY - DAY, done=done, today=TODAY) for each in (plan, apply(plan, last, today=TODAY))]
    assume(not (isinstance(last, Shift) and last.days < 0))
    assert earlier[0] == earlier[1]


@settings(max_examples=100, deadline=None)
@given(MODES, st.lists(WISHES, max_size=5), st.integers(0, 25), st.integers(0, 25))
def test_a_part_of_a_span_holds_what_the_whole_holds_there(mode: Mode, deeds: list[Deed], skip: int, length: int) -> None:
    plan = _plan(mode)
    for deed in deeds:
        plan = apply(plan, deed, today=TODAY)
    first, last = START + timedelta(days=skip), START + timedelta(days=skip + length)
    whole = [one for one in _sessions(plan, START, START + timedelta(days=60), today=TODAY) if first <= one.date <= last]
    assert list(_sessions(plan, first, last, today=TODAY)) == whole


@pytest.mark.parametrize("mode", list(Mode))
def test_a_new_rule_leaves_the_weeks_behind_as_they_were(mode: Mode) -> None:
    done = {_march(day): number for day, number in ((2, 1), (3, 2), (4, 3), (6, 4), (7, 5), (9, 1))}
    plan = _plan(mode)
    for deed in (Rolling(_march(10), (True, False), 2), Weekdays((0, 3), _march(12), 4), Rolling(_march(16), None, 1)):
        plan = apply(plan, deed, today=deed.since)
        assert _days(plan, 2, 9, done=done, today=deed.since) == "2:1 3:2 4:3 6:4 7:5 9:1"


def test_an_absence_outlives_a_new_rule() -> None:
    plan = apply(_plan(), Away(_march(9), _march(12)), today=TODAY)
    plan = apply(plan, Rolling(_march(6), (True, False), 4), today=TODAY)
    assert _days(plan, 2, 14) == "2:1 3:2 4:3 6:4 8:5 13:1"


@pytest.mark.parametrize(
    ("deed", "first"),
    [
        (Rolling(_march(5)), 4),
        (Weekdays((1, 3), _march(5)), 4),
        (Weekdays((1, 3), _march(9)), 1),
        (Weekdays((1, 2, 3, 4, 5), _march(5)), None),  # as many as days in the split: each has its own
        (Weekdays((1, 3), _march(5), 2), 2),
    ],
)
def test_a_new_rule_goes_on_with_the_day_that_is_due(deed: Weekdays | Rolling, first: int | None) -> None:
    done = {START: 1, _march(3): 2, TODAY: 3}
    found = going_on(deed, _sessions(_plan(), done=done), day_count=5, done=done)
    assert isinstance(found, Weekdays | Rolling)
    assert found.first_day == first


def test_a_new_rule_begins_the_day_after_when_that_day_s_session_is_done() -> None:
    deed = going_on(Weekdays((1, 3), TODAY), _sessions(_plan(), done={TODAY: 3}), day_count=5, done={TODAY: 3})
    assert deed == Weekdays((1, 3), _march(5), 4)


def test_a_session_done_on_another_day_leaves_its_place() -> None:
    assert _days(_plan(), 2, 8, done={_march(5): 4}, today=_march(5)) == "2:1 3:2 4:3 7:5"


# --- what a change is told as ---


def _told(before: Plan, deed: Deed) -> list[tuple[int, int, str]]:
    touched = describe_change(before, apply(before, deed, today=TODAY), today=TODAY, day_count=5, days=8)
    return [(one.on.day, one.day_number, one.touch.value) for one in touched if one.touch is not Touch.GOES]


@pytest.mark.parametrize("mode", list(Mode))
def test_a_shift_by_a_week_is_told_as_every_session_a_week_later(mode: Mode) -> None:
    touched = describe_change(_plan(mode), apply(_plan(mode), Shift(TODAY, 7), today=TODAY), today=START, day_count=5, days=16)
    come = [(one.on, one.other) for one in touched if one.touch is Touch.COMES]
    assert [on.day for on, _ in come] == [11, 13, 14, 16, 17, 18]
    assert all(on - other == timedelta(days=7) for on, other in come if other)
    assert not any(one.touch is Touch.DROPS for one in touched)


def test_a_move_is_told_by_its_two_dates_and_a_skip_as_left_out() -> None:
    assert _told(_plan(), Move(_march(6), _march(8))) == [(8, 4, "comes")]
    assert _told(_plan(), Move(_march(6), _march(7), other_to=_march(8))) == [(7, 4, "comes"), (8, 5, "comes")]
    assert _told(_plan(), Skip(_march(6))) == [(6, 4, "drops")]
    assert _told(_plan(), Skip(_march(5))) == []


# --- moves that must be asked about ---


def _doubt(move: Move, mode: Mode = Mode.WEEKDAYS, done: tuple[date, ...] = ()) -> tuple[Doubt, list[tuple[Way, Deed]]] | None:
    asked = doubt_about(move, _sessions(_plan(mode)), plan=_plan(mode), done=done)
    return (asked.doubt, list(asked.ways)) if asked else None


def test_a_move_to_a_free_day_raises_no_question() -> None:
    assert _doubt(Move(_march(6), _march(8))) is None


def test_a_move_onto_a_taken_day_offers_to_slide_swap_or_double() -> None:
    on, to = _march(6), _march(7)
    assert _doubt(Move(on, to)) == (
        Doubt.TAKEN,
        [(Way.SLIDE, Move(on, to, other_to=_march(8))), (Way.SWAP, Swap(on, to)), (Way.BOTH, Move(on, to, both=True))],
    )


def test_in_a_rolling_plan_everything_slides_along() -> None:
    on, to = _march(6), _march(7)
    asked = _doubt(Move(on, to), Mode.ROLLING)
    assert asked is not None
    assert asked[1][0] == (Way.SLIDE_ALL, Shift(on, 1))


def test_a_day_on_which_a_session_was_done_can_only_take_a_second_one() -> None:
    on, to = _march(6), _march(4)
    assert _doubt(Move(on, to), done=(to,)) == (Doubt.TAKEN, [(Way.BOTH, Move(on, to, both=True))])


def test_a_rest_day_moved_asks_which_session_was_meant() -> None:
    asked = _doubt(Move(_march(5), _march(8)))
    assert asked is not None
    assert asked[0] is Doubt.REST_DAY
    assert [deed for _, deed in asked[1]] == [Move(_march(day), _march(8)) for day in (4, 6, 7)]


@settings(max_examples=100, deadline=None)
@given(MODES, ANY_DAY, ANY_DAY)
def test_every_way_out_of_a_doubt_keeps_each_session_and_is_itself_clear(mode: Mode, on: date, to: date) -> None:
    assume(on != to)
    plan = _plan(mode)
    far = START + timedelta(days=120)
    asked = doubt_about(Move(on, to), _sessions(plan, START, far), plan=plan)
    for way, deed in asked.ways if asked else ():
        after = apply(plan, deed, today=TODAY)
        if way is not Way.OTHER_SESSION:
            most = max(Counter(one.date for one in _sessions(after, START, far)).values())
            assert most == (2 if way is Way.BOTH else 1)
        assert Counter(one.day_number for one in _sessions(after, START, far + timedelta(days=14))) >= Counter(
            one.day_number for one in _sessions(plan, START, far)
        )
