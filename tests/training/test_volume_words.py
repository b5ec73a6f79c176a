"""Weekly sets are said in wholes and halves, and the number said never contradicts the limit it is held against."""

from decimal import Decimal

import pytest

from bot.training.block_checks import check_block
from bot.training.blocks import Block, Day, ExerciseId, SetTarget, Slot
from bot.training.exercises.catalogue import load_catalogue
from bot.training.volume import say_sets, weekly_sets


@pytest.mark.parametrize(
    ("sets", "down", "up"),
    [("6", "6", "6"), ("6.1", "6", "6.5"), ("6.5", "6.5", "6.5"), ("4.9", "4.5", "5"), ("20.1", "20", "20.5"), ("0", "0", "0")],
)
def test_sets_are_wholes_and_halves(sets: str, down: str, up: str) -> None:
    assert (say_sets(Decimal(sets)), say_sets(Decimal(sets), up=True)) == (down, up)


def test_a_rhythm_that_is_no_week_leaves_no_sevenths_in_the_remarks() -> None:
    """Two on, one off, with one day: four and two thirds rounds a week."""
    catalogue = load_catalogue()
    day = Day(1, "", (Slot("A1", "Bench press", (SetTarget(8, 10),) * 5, ExerciseId("bench_press")),))
    block = Block("Block", (day,), rhythm=(True, True, False))
    counted = weekly_sets(block, catalogue)
    texts = [remark.text for remark in check_block(block, catalogue=catalogue) if remark.rule in ("few_sets", "many_sets")]

    assert counted.direct["chest"] == Decimal("23.3")
    assert any("chest 23.5" in text for text in texts)


def test_the_published_example_of_three_ways_to_count() -> None:
    """4 sets of dumbbell bench press, 3 of overhead press, 3 of one triceps exercise: triceps 10 in total, 6.5 fractional, 3 direct.

    Direct 1 and helping 1, one half or none (Pelland et al., preprint 2024); the count is worked out from it.
    """
    exercises = (("dumbbell_bench_press", 4), ("overhead_press", 3), ("triceps_kickback", 3))
    catalogue = load_catalogue()
    slots = tuple(
        Slot(f"{'ABC'[n]}1", name, (SetTarget(8, 12),) * sets, ExerciseId(name)) for n, (name, sets) in enumerate(exercises)
    )
    assert all(catalogue.get(ExerciseId(name)) is not None for name, _ in exercises)
    found = weekly_sets(Block("Block", (Day(1, "", slots),), rhythm=(True, *(False,) * 6)), catalogue)

    assert (found.total["triceps"], found.fractional["triceps"], found.direct["triceps"]) == (10, Decimal("6.5"), 3)
