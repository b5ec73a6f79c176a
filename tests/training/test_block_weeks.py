"""A block may ask for other sets in later weeks; each week has its own, and what comes after the last is the last."""

import pytest

from bot.training.blocks import Block, Day, SetTarget, Slot, WeekSets, block_in_week, slot_in_week
from bot.training.changes import changes_between


def _sets(count: int, reps: int) -> tuple[SetTarget, ...]:
    return (SetTarget(reps, reps),) * count


SQUAT = Slot("A1", "Back squat", _sets(3, 10), weeks=(WeekSets(2, _sets(3, 9)), WeekSets(4, _sets(2, 8))))
BLOCK = Block("", (Day(1, "", (SQUAT, Slot("B1", "Plank", _sets(2, 30)))),))


@pytest.mark.parametrize(("week", "expected"), [(1, (3, 10)), (2, (3, 9)), (3, (3, 9)), (4, (2, 8)), (9, (2, 8)), (0, (3, 10))])
def test_each_week_has_its_own_sets_until_a_later_one_says_otherwise(week: int, expected: tuple[int, int]) -> None:
    assert slot_in_week(SQUAT, week).sets == _sets(*expected)


def test_a_block_read_in_one_week_can_be_read_in_another() -> None:
    assert block_in_week(block_in_week(BLOCK, 4), 1).days[0].slots[0].sets == SQUAT.sets


def test_a_block_without_weeks_is_the_same_value_in_every_week() -> None:
    plain = Block("", (Day(1, "", (Slot("A1", "Plank", _sets(2, 30)),)),))
    assert block_in_week(plain, 3) is plain


def test_a_change_of_one_week_is_told_as_that() -> None:
    changed = Slot("A1", "Back squat", SQUAT.sets, weeks=(WeekSets(2, _sets(4, 9)), WeekSets(4, _sets(2, 8))))
    after = Block("", (Day(1, "", (changed, BLOCK.days[0].slots[1])),))

    assert [change.sentence for change in changes_between(BLOCK, after)] == [
        "Day 1, A1 Back squat: sets from week 2 on now 4 x 9 reps (was 3 x 9 reps)."
    ]


def test_weeks_taken_away_are_told_for_each_week_that_comes_out_differently() -> None:
    after = Block("", (Day(1, "", (Slot("A1", "Back squat", SQUAT.sets), BLOCK.days[0].slots[1])),))

    assert [change.sentence for change in changes_between(BLOCK, after)] == [
        "Day 1, A1 Back squat: sets from week 2 on now 3 x 10 reps (was 3 x 9 reps).",
        "Day 1, A1 Back squat: sets from week 4 on now 3 x 10 reps (was 2 x 8 reps).",
    ]
