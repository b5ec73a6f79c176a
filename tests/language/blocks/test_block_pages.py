"""What the shape of a page tells: headings of days, days side by side, exercises joined by their numbers."""

from __future__ import annotations

import pytest

from bot.language.blocks import read_block
from bot.language.blocks.joined import joined_in, partner_in
from bot.language.blocks.page import days_by_shape
from bot.language.blocks.side_by_side import one_below_other
from bot.training.exercises.catalogue import load_catalogue

CATALOGUE = load_catalogue()


@pytest.mark.parametrize(
    ("page", "names"),
    [
        ("D1 SQUAT\nBack squat 5x5\n\nD2 BENCH\nBench press 5x5", ["SQUAT", "BENCH"]),
        ("~ the long one ~\nPush-up 3x10\n\n~ the short one ~\nPlank 3x30s", ["the long one", "the short one"]),
        ("Garage\n\nPush-up 3x10\nRow 3x8\n\nPark\n\nChin-up 3x5\nDip 3x8", ["Garage", "Park"]),
        ("Day 1\nMAIN LIFT\nBack squat 5x5\n\nDay 2\nEXTRAS\nBench press 5x5", []),  # the days are numbered, so these are none
        ("ONE THING\nPush-up 3x10\n\nONE THING\nPlank 3x30s", []),  # what comes back is a part of a day
        ("A1 Squat\n3x5\n\nA2 Row\n3x8", []),  # exercises with their sets below
    ],
)
def test_a_days_heading_is_found_by_the_shape_of_the_page(page: str, names: list[str]) -> None:
    found = days_by_shape(page.split("\n"), lambda words: False)

    assert [heading.name for heading in found.values()] == names


def test_days_side_by_side_are_put_one_below_the_other_and_keep_their_places() -> None:
    rows = [["Mon", "", "", "Wed", ""], ["Exercise", "Sets", "", "Exercise", "Sets"], ["Squat", "3", "", "Row", "4"]]

    placed = one_below_other(rows, lambda cell: cell in ("Mon", "Wed"), lambda cell: cell == "Exercise")

    assert [(line.cells[0], line.row, line.column) for line in placed] == [
        ("Mon", 0, 0), ("Exercise", 1, 0), ("Squat", 2, 0), ("Wed", 0, 3), ("Exercise", 1, 3), ("Row", 2, 3),
    ]  # fmt: skip


def test_a_table_of_one_day_stays_as_it_is() -> None:
    rows = [["Exercise", "Sets"], ["Squat", "3"]]

    assert [line.cells for line in one_below_other(rows, lambda cell: False, lambda cell: cell == "Exercise")] == rows


@pytest.mark.parametrize(
    ("text", "marks"),
    [
        ("(3 and 4 are a superset)", ("3", "4")),
        ("superset B and C", ("B", "C")),
        ("do 2, 3 and 4 together", ("2", "3", "4")),
        ("B1/B2 back to back", ("B1", "B2")),
        ("3 sets, then rest", ()),
        ("superset curls and dips", ()),
        ("2 and 3 min walk", ()),
    ],
)
def test_a_line_joins_exercises_by_their_numbers(text: str, marks: tuple[str, ...]) -> None:
    assert joined_in(text) == marks


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Row 3x10 (superset with 3)", ("Row 3x10", "3")),
        ("Row 3x10, ss w/ next", ("Row 3x10", "next")),
        ("Row 3x10 superset with push-ups 3x12", ("Row 3x10 superset with push-ups 3x12", "")),
    ],
)
def test_an_exercise_says_its_partner(text: str, expected: tuple[str, str]) -> None:
    assert partner_in(text) == expected


def test_joined_exercises_share_a_letter_and_those_behind_move_up() -> None:
    page = "Day 1\n1. Goblet squat 3x10\n2. Push-up 3x8\n3. Plank 3x30s\n(2 and 3 are a superset)\n4. Dead bug 3x8"

    reading = read_block(page, catalogue=CATALOGUE)

    assert reading.block is not None, [problem.sentence for problem in reading.problems]
    assert [slot.label for slot in reading.block.days[0].slots] == ["A1", "B1", "B2", "C1"]


def test_a_rest_behind_every_exercise_is_told_once() -> None:
    page = 'Day 1\nGoblet squat 3x10 60"\nPush-up 3x8 60"\nPlank 3x30s 45"\nDead bug 3x8 2\'30'

    reading = read_block(page, catalogue=CATALOGUE)

    assert reading.block is not None
    assert [slot.rest.low_s for slot in reading.block.days[0].slots if slot.rest] == [60, 60, 45, 150]
    assert [problem.sentence for problem in reading.problems if "rest" in problem.sentence] == [
        'Line 2, slot A1: "60"" behind the sets is read as the rest, and so in 4 places; write rest 60" to be sure.'
    ]


@pytest.mark.parametrize(
    ("line", "sets"),
    [
        ("Lateral raise 3x15 + 1 burnout", "15 15 15 burnout"),
        ("Bench dip 2 sets of 10 and then one all-out set", "10 10 amrap"),
        ("Bench press 2 w/u x5, then 3x5", "warm 5 warm 5 5 5 5"),
    ],
)
def test_sets_beyond_those_counted(line: str, sets: str) -> None:
    reading = read_block(f"Day 1\nA1 {line}", catalogue=CATALOGUE)

    assert reading.block is not None, [problem.sentence for problem in reading.problems]
    said = [
        " ".join([{"warm_up": "warm"}.get(one.kind, one.kind) if one.kind != "work" else "", str(one.low or "")]).strip()
        or "amrap"
        for one in reading.block.days[0].slots[0].sets
    ]
    assert " ".join(said) == sets


def test_columns_are_known_by_many_names() -> None:
    head = "Day;Activity;How many sets;Amount;How hard;Time off;Plan B"

    reading = read_block(
        f"{head}\nMon;Goblet squat;3;10-12;8;90;box squat\nThu;Deadlift;4;5;7;120;", filename="t.csv", catalogue=CATALOGUE
    )

    assert reading.block is not None, [problem.sentence for problem in reading.problems]
    slot = reading.block.days[0].slots[0]
    assert (len(slot.sets), slot.sets[0].low, slot.sets[0].high, slot.sets[0].rpe) == (3, 10, 12, 8)
    assert (slot.rest.low_s if slot.rest else None, slot.substitutes) == (90, ("box squat",))


@pytest.mark.parametrize("line", ["Goblet squat 7-5-x", "Goblet squat 12 12", "Push-up 50%", "Push-up 8 / 3", "Squat: 40-50"])
def test_figures_beside_a_known_exercise_are_never_taken_for_the_one_above(line: str) -> None:
    reading = read_block(f"Day 1\nPlank 3x30s\n{line}", catalogue=CATALOGUE)

    assert [problem.sentence for problem in reading.errors] == [
        f'Line 3: "{line}" names an exercise, but its figures I cannot read; write sets and reps such as 3x10, or put it behind Note:.'
    ]


def test_a_squat_with_a_bars_load_is_the_one_with_a_bar_and_the_coach_is_told() -> None:
    reading = read_block("Day 1\nSquat 100 kg 5x5\nPush-up 3x8", catalogue=CATALOGUE)

    assert reading.block is not None
    assert [slot.exercise for slot in reading.block.days[0].slots] == ["back_squat", "push_up"]
    assert [problem.sentence for problem in reading.problems] == [
        'Line 2, slot A1: "Squat" with that load is taken as Barbell back squat; write its whole name to be sure.',
    ]
