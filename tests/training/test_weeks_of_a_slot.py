"""A slot whose sets or rest change from week to week."""

from __future__ import annotations

from bot.training.blocks import Block, Day, Rest, SetTarget, Slot, WeekSets, slot_in_week, with_weeks
from bot.training.changes import changes_between

TEN, EIGHT = (SetTarget(10, 10),) * 3, (SetTarget(8, 8),) * 4
SLOT = Slot("A1", "Goblet squat", TEN, rest=Rest(90, 90))


def test_sets_and_rests_hold_until_a_later_week_says_otherwise() -> None:
    slot = with_weeks(SLOT, {1: TEN, 2: TEN, 4: EIGHT}, {3: Rest(120, 120)})

    assert slot.weeks == (WeekSets(3, TEN, Rest(120, 120)), WeekSets(4, EIGHT))
    assert [(slot_in_week(slot, week).sets, slot_in_week(slot, week).rest) for week in (1, 2, 3, 4, 9)] == [
        (TEN, Rest(90, 90)),
        (TEN, Rest(90, 90)),
        (TEN, Rest(120, 120)),
        (EIGHT, Rest(120, 120)),
        (EIGHT, Rest(120, 120)),
    ]


def test_a_slot_of_one_week_gives_another_when_asked_again() -> None:
    slot = with_weeks(SLOT, {1: TEN}, {3: Rest(120, 120)})

    assert slot_in_week(slot_in_week(slot, 5), 1).rest == Rest(90, 90)


def test_a_rest_that_changes_in_a_later_week_is_told_as_a_change() -> None:
    before = Block("", (Day(1, "", (SLOT,)),))
    after = Block("", (Day(1, "", (with_weeks(SLOT, {1: TEN}, {3: Rest(120, 120)}),)),))

    assert [(change.subject, change.before, change.after) for change in changes_between(before, after)] == [
        ("rest from week 3 on", "90 s", "120 s")
    ]
