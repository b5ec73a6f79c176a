"""Blocks from tables, spreadsheets and foreign files, amendments, and what was written read back."""

from __future__ import annotations

import io
import zipfile
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import Workbook

from bot.language.blocks import (
    read_amendment,
    read_block,
    template_text,
    template_xlsx,
    write_text,
    write_xlsx,
)
from bot.training.blocks import Block, Day, LoadRule, Rest, SetTarget, Sides, Slot
from bot.training.exercises.catalogue import load_catalogue
from bot.training.tempo import parse_tempo

CATALOGUE = load_catalogue()


def _block(content: str | bytes, filename: str = "") -> Block:
    reading = read_block(content, filename=filename, catalogue=CATALOGUE)
    assert reading.block is not None, [problem.sentence for problem in reading.problems]
    return reading.block


def _sentences(content: str | bytes, filename: str = "") -> list[str]:
    reading = read_block(content, filename=filename, catalogue=CATALOGUE)
    assert reading.block is None
    return [problem.sentence for problem in reading.errors]


def _shape(block: Block) -> list[tuple[int, str, str | None, int, int | None, int | None]]:
    """Day, label, exercise, number of sets and the first set's range: what every way of sending must agree on."""
    return [
        (day.number, slot.label, slot.exercise, len(slot.sets), slot.sets[0].low, slot.sets[0].high)
        for day in block.days
        for slot in day.slots
    ]


def _xlsx(rows: list[list[object]], title: str = "Block") -> bytes:
    book = Workbook()
    sheet = book.create_sheet(title, 0)
    book.remove(book.worksheets[1])
    for row in rows:
        sheet.append(row)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


TABLE = [
    ["Day", "Slot", "Exercise", "Sets", "Reps", "Tempo", "Rest"],
    ["Day 1 - Legs", "A1", "Goblet squat", "3", "8-12", "3-1-1-0", "60"],
    ["Day 1 - Legs", "A2", "Push-up", "3", "6-15", "", ""],
    ["Day 2 - Pull", "A1", "One-arm dumbbell row", "4", "10", "", "90"],
]
EXPECTED = [
    (1, "A1", "goblet_squat", 3, 8, 12),
    (1, "A2", "push_up", 3, 6, 15),
    (2, "A1", "one_arm_dumbbell_row", 4, 10, 10),
]


@pytest.mark.parametrize("mark", [",", ";", "\t", "|"])
def test_a_table_reads_the_same_whatever_parts_its_cells(mark: str) -> None:
    block = _block("\n".join(mark.join(row) for row in TABLE), "plan.csv")
    assert _shape(block) == EXPECTED
    assert [day.name for day in block.days] == ["Legs", "Pull"]
    first = block.days[0].slots[0]
    assert first.rest == Rest(60, 60)
    assert str(first.sets[0].tempo) == "3-1-1-0"


def test_a_spreadsheet_reads_as_the_table_does() -> None:
    assert _block(_xlsx([list(row) for row in TABLE])) == _block("\n".join(",".join(row) for row in TABLE), "plan.csv")


def test_columns_may_stand_in_any_order_with_other_words() -> None:
    text = "Reps;Movement;Rounds;Notes;Session\n8-12;Goblet squat;3;slow;1\n6-15;Push-up;3;;1\n10;One-arm dumbbell row;4;;2"
    assert [(day, exercise, *rest) for day, _, exercise, *rest in _shape(_block(text, "x.csv"))] == [
        (day, exercise, *rest) for day, _, exercise, *rest in EXPECTED
    ]


def test_lines_without_a_header_are_read_as_typed() -> None:
    text = "Day 1,,\nA1,Goblet squat,3x8-12\nA2,Push-up,3x6-15\nDay 2,,\nA1,One-arm dumbbell row,4x10"
    assert _shape(_block(text, "plan.csv")) == EXPECTED


def test_a_quoted_cell_may_hold_the_mark() -> None:
    text = 'Day,Slot,Exercise,Sets,Reps,Cue\n1,A1,Goblet squat,3,8-12,"chest tall, heels down"\n'
    cues = _block(text, "plan.csv").days[0].slots[0].cues
    assert "chest tall" in " ".join(cues)
    assert "heels down" in " ".join(cues)


def test_both_templates_read_without_a_remark() -> None:
    for content in (template_text(), template_xlsx()):
        reading = read_block(content, catalogue=CATALOGUE)
        assert reading.block is not None
        assert reading.problems == ()
        assert reading.unknown == ()
        assert len(reading.block.days) == 2


# Files that are no block, each with the one sentence that its sender reads.


def _archive(parts: dict[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in parts.items():
            archive.writestr(name, data)
    return out.getvalue()


WAYS = "send the block as a message, a .txt, a .csv or an .xlsx."


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"%PDF-1.7 ...", f"The file is a PDF, not a block; {WAYS}"),
        (b"\x89PNG\r\n\x1a\n....", f"The file is a picture, not a block; {WAYS}"),
        (b"MZ\x90\x00\x03", f"The file is a program, not a block; {WAYS}"),
        (b"<!DOCTYPE html><p>A1 squat 3x10", f"The file is a web page or XML, not a block; {WAYS}"),
        (b" \r\n", f"The file is empty; {WAYS}"),
        (
            b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1....",
            "The file is an old or a password-protected spreadsheet or document; save it as .xlsx without a password: "
            "I read a message, a .txt, a .csv and an .xlsx.",
        ),
        (
            b"PK\x03\x04 broken",
            "The file is a damaged archive, not a spreadsheet; send the block as .xlsx without macros, as .csv, or as a message.",
        ),
        (
            _archive({"word/document.xml": b"<w/>"}),
            "The file is an archive or another kind of document, not a spreadsheet; "
            "send the block as .xlsx without macros, as .csv, or as a message.",
        ),
        (
            _archive({"xl/workbook.xml": b"<w/>", "xl/vbaProject.bin": b"x"}),
            "The spreadsheet holds macros, which are not opened; "
            "send the block as .xlsx without macros, as .csv, or as a message.",
        ),
        (
            _archive({"xl/workbook.xml": b"<w/>", "xl/worksheets/sheet1.xml": b"0" * 31_000_000}),
            "The spreadsheet unpacks to far more than a block; send one block only, in a fresh file.",
        ),
        (
            _archive({"xl/workbook.xml": b"<w/>", "xl/worksheets/sheet1.xml": b"0" * 2_000_000}),
            "The spreadsheet unpacks to far more than a block; send one block only, in a fresh file.",
        ),
        (
            _archive({"xl/workbook.xml": b"not a workbook"}),
            "The spreadsheet is damaged or not a spreadsheet; open it, save it again as .xlsx and send that.",
        ),
    ],
    ids=["pdf", "png", "program", "page", "empty", "old", "damaged", "other", "macro", "bomb", "steep_bomb", "no_book"],
)
def test_a_file_that_is_no_block_is_refused_in_one_sentence(content: bytes, sentence: str) -> None:
    assert _sentences(content) == [sentence]


def test_a_formula_is_refused_with_its_cell() -> None:
    rows: list[list[object]] = [["Exercise", "Sets", "Reps"], ["Goblet squat", "=1+2", "10"]]
    assert _sentences(_xlsx(rows))[0] == (
        'Sheet "Block", cell B2: the cell holds a formula, which is not computed here; write its result as plain text.'
    )


def test_a_range_that_became_a_date_is_refused_with_its_cell_and_the_way_out() -> None:
    rows: list[list[object]] = [["Exercise", "Sets", "Reps"], ["Goblet squat", 3, date(2026, 12, 10)]]
    assert _sentences(_xlsx(rows))[0] == (
        'Sheet "Block", cell C2: the cell holds the date 10 Dec 2026, which the spreadsheet made of something like 10-12; '
        "format the cell as text and write 10-12 (or 12-10) again."
    )


def test_a_mistake_in_a_table_names_its_line() -> None:
    text = "Day,Slot,Exercise,Sets,Reps,Tempo\n1,A1,Goblet squat,3,8-12,3-1-1-0\n1,A2,Push-up,3,6-15,3-1\n"
    assert _sentences(text, "plan.csv")[0].startswith("Line 3")


# What was written is read back.

EXERCISES = (
    ("goblet_squat", Sides.BOTH),
    ("push_up", Sides.BOTH),
    ("one_arm_dumbbell_row", Sides.EACH),
    ("romanian_deadlift", Sides.BOTH),
    ("dumbbell_curl", Sides.BOTH),
    ("lateral_raise", Sides.BOTH),
    ("reverse_lunge", Sides.EACH),
)
TEMPI = tuple(parse_tempo(text) for text in ("3-1-1-0", "2-0-2-1", "4-0-1-0"))


@st.composite
def _slots(draw: st.DrawFn) -> tuple[Slot, ...]:
    slots = []
    for letter in "ABC"[: draw(st.integers(1, 3))]:
        for number in range(1, draw(st.integers(1, 2)) + 1):
            exercise, sides = draw(st.sampled_from(EXERCISES))
            low = draw(st.integers(3, 15))
            target = SetTarget(
                low,
                low + draw(st.integers(0, 5)),
                tempo=draw(st.none() | st.sampled_from(TEMPI)),
                rir=draw(st.none() | st.sampled_from((Decimal(1), Decimal(2)))),
            )
            rest = draw(st.none() | st.sampled_from((Rest(60, 60), Rest(90, 120))))
            entry = CATALOGUE.get(exercise)
            assert entry is not None
            slots.append(
                Slot(
                    f"{letter}{number}",
                    entry.name,
                    (target,) * draw(st.integers(1, 5)),
                    entry.id,
                    sides=sides,
                    load_rule=draw(st.sampled_from((LoadRule.FREE, LoadRule.RISES))),
                    rest=rest,
                    cues=draw(st.sampled_from(((), ("chest tall",), ("slow down", "heels stay")))),
                    substitutes=draw(st.sampled_from(((), ("box squat",)))),
                )
            )
    return tuple(slots)


BLOCKS = st.lists(_slots(), min_size=1, max_size=4).map(
    lambda days: Block(
        "Spring block",
        tuple(Day(number, f"Part {['one', 'two', 'three', 'four'][number - 1]}", slots) for number, slots in enumerate(days, 1)),
    )
)


@settings(max_examples=40, deadline=None)
@given(BLOCKS)
def test_a_block_written_as_text_reads_back_to_the_same_block(block: Block) -> None:
    assert _block(write_text(block)) == block


@settings(max_examples=12, deadline=None)
@given(BLOCKS)
def test_a_block_written_as_a_spreadsheet_reads_back_to_the_same_block(block: Block) -> None:
    assert _block(write_xlsx(block)) == block


# Amendments.

BASE = _block(
    "Day 1 - Legs\nA1 Goblet squat 3x8-12, rest 60 s\ncue: chest tall\nA2 Push-up 3x6-15\nDay 2 - Pull\nA1 Dumbbell row 3x10\nB2 Dumbbell curl 2x12"
)


def _amended(text: str, day: int | None = None) -> Block:
    reading = read_amendment(text, BASE, catalogue=CATALOGUE, day=day)
    assert reading.block is not None, [problem.sentence for problem in reading.problems]
    assert reading.changes
    return reading.block


def test_an_amended_slot_takes_the_new_sets_and_keeps_name_rest_and_cues() -> None:
    old, new = BASE.days[0].slots[0], _amended("day 1 A1: 4x6-8 @ 3-1-1-0").days[0].slots[0]
    assert (new.exercise, new.rest, new.cues) == (old.exercise, old.rest, old.cues)
    assert len(new.sets) == 4
    assert (new.sets[0].low, new.sets[0].high, str(new.sets[0].tempo)) == (6, 8, "3-1-1-0")


def test_an_amendment_touches_no_other_slot() -> None:
    changed = _amended("B2: 3x10")
    assert changed.days[0] == BASE.days[0]
    assert changed.days[1].slots[0] == BASE.days[1].slots[0]
    assert len(changed.days[1].slots[1].sets) == 3


def test_another_exercise_takes_a_slot_and_its_own_sets() -> None:
    slot = _amended("A2 day 1 swap to incline push-up 4x8").days[0].slots[1]
    assert slot.exercise == "incline_push_up"
    assert [target.low for target in slot.sets] == [8] * 4


def test_another_exercise_without_sets_keeps_those_that_stood_there() -> None:
    slot = _amended("day 1 A2: swap to incline push-up").days[0].slots[1]
    assert slot.sets == BASE.days[0].slots[1].sets


def test_a_whole_day_is_replaced_under_its_number_and_name() -> None:
    changed = _amended("day 2:\nA1 Lat pulldown 3x10\nB1 Hammer curl 2x12")
    assert (changed.days[1].number, changed.days[1].name) == (2, "Pull")
    assert [slot.label for slot in changed.days[1].slots] == ["A1", "B1"]
    assert changed.days[0] == BASE.days[0]


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("A1: 4x8", "The block, slot A1: A1 stands on day 1, day 2; name the day and the slot, like: day 2 A1: 4x8-10."),
        ("day 2 C1: 4x8", "The block, slot C1: there is no C1 on day 2; name the day and the slot, like: day 2 A1: 4x8-10."),
        ("day 7:\nA1 Plank 3x30s", "The block has no day 7; days go from 1 to 2."),
        ("make it harder", "This is no change that I can read; write it like: day 2 A1: 4x8-10 @ 3-1-1-0."),
        ("day 2 A1: 3x10", "That changes nothing: the block reads so already; check the day and the slot."),
    ],
)
def test_an_amendment_that_cannot_be_carried_out_says_why(text: str, sentence: str) -> None:
    reading = read_amendment(text, BASE, catalogue=CATALOGUE)
    assert reading.block is None
    assert [problem.sentence for problem in reading.problems] == [sentence]


# Sets that change from week to week, and intervals: each way of writing them gives the same block.

BY_WEEK = {
    "a line a week": "A1 Back squat\nweek 1: 3x10\nweek 2: 3x9\nweek 3: 4x8",
    "in brackets": "A1 Back squat 3x10 (wk 2 3x9, wk 3 4x8)",
    "short": "A1 Back squat W1 3x10 W2 3x9 W3 4x8",
    "a range with one scheme each": "A1 Back squat weeks 1-3: 3x10, 3x9, 4x8",
    "week 1 as the rule": "A1 Back squat 3x10\nweek 2: 3x9\nweek 3: 4x8",
    "whole days again": "A1 Back squat 3x10\nWeek 2\nDay 1\nA1 Back squat 3x9\nWeek 3\nDay 1\nA1 Back squat 4x8",
}


def _by_week(block: Block) -> list[tuple[int, int, int | None]]:
    slot = block.days[0].slots[0]
    return [(1, len(slot.sets), slot.sets[0].low)] + [
        (change.week, len(change.sets), change.sets[0].low) for change in slot.weeks
    ]


@pytest.mark.parametrize("name", BY_WEEK)
def test_sets_of_single_weeks_are_kept_with_their_week(name: str) -> None:
    assert _by_week(_block(f"Day 1\n{BY_WEEK[name]}\n")) == [(1, 3, 10), (2, 3, 9), (3, 4, 8)]


def test_columns_of_weeks_are_weeks_and_equal_weeks_are_told_once() -> None:
    text = "Day,Exercise,Week 1,Week 2,Week 3,Rest\n1,Back squat,3x10,3x10,4x8,90\n"
    block = _block(text, "plan.csv")
    assert _by_week(block) == [(1, 3, 10), (3, 4, 8)]
    assert block.days[0].slots[0].rest == Rest(90, 90)


def test_what_holds_for_all_weeks_is_not_lost_in_a_later_one() -> None:
    slot = _block("Day 1\nA1 Back squat 3x10 @3110 RIR 3, rest 90s\nweek 2: 3x9 RIR 2\n").days[0].slots[0]
    assert [(str(target.tempo), target.rir) for target in (slot.sets[0], slot.weeks[0].sets[0])] == [
        ("3-1-1-0", Decimal(3)),
        ("3-1-1-0", Decimal(2)),
    ]


def test_an_aim_of_a_week_stays_an_aim() -> None:
    block = _block("Week 1: get used to it\nWeek 2: one rep more\nDay 1\nA1 Back squat 3x10\n")
    assert block.week_aims == ("get used to it", "one rep more")
    assert block.days[0].slots[0].weeks == ()


INTERVALS = [
    "20s on 40s off x4",
    "4 x 20s on / 40s off",
    "4 rounds of 20 sec work, 40 sec rest",
    "20s/40s x 4",
    "on 20s, off 40s, 4 times",
    "work 20 sec, rest 40 sec, 4 rounds",
]


@pytest.mark.parametrize("said", INTERVALS)
def test_intervals_are_sets_of_seconds_with_their_rest(said: str) -> None:
    slot = _block(f"Day 1\nA1 Burpees {said}\nB1 Push-up 3x10\n").days[0].slots[0]
    assert ([(target.low, target.measure.value) for target in slot.sets], slot.rest) == ([(20, "seconds")] * 4, Rest(40, 40))


def test_two_numbers_with_a_stroke_are_intervals_only_where_that_is_spoken_of() -> None:
    block = _block("Day 1 - Intervals\nA1 Burpees 30/15 x5\nDay 2\nA1 Push-up 2x12/10\n")
    assert [len(block.days[0].slots[0].sets), block.days[0].slots[0].sets[0].low, block.days[0].slots[0].rest] == [
        5,
        30,
        Rest(15, 15),
    ]
    assert [target.low for target in block.days[1].slots[0].sets] == [12, 10]


# Rarer ways of writing a line, each beside the sets that it means.

FORMS = {
    "20 swings in a circuit": ("Circuit, 4 rounds:\n- 20 kb swings\n- 10 push-ups\n", [["20"] * 4, ["10"] * 4]),
    "x behind the name in rounds": ("then 3 rounds:\nA1. Push-up x10\nA2. Plank x30s\n", [["10"] * 3, ["30s"] * 3]),
    "a total": ("A Step-ups 100 total\nB Plank 2x30s\n", [["100"], ["30s"] * 2]),
    "one exercise on the minute": ("A EMOM 10 min: kb swing x12\nB Plank 2x30s\n", [["12"] * 10, ["30s"] * 2]),
    "a heading on the minute": ("EMOM 15 min:\nA1 Push-up x10\nA2 KB swing x15\n", [["10"] * 15, ["15"] * 15]),
    "two in one line": ("Biceps curl + band pushdown superset 3x12\n", [["12"] * 3, ["12"] * 3]),
    "two labels in one line": ("A1) Push-up 3x12 // A2) Plank 3x30s\n", [["12"] * 3, ["30s"] * 3]),
    "a heading word before it": ("Top set: Back squat 1x3 @ 85%\nBack-off: Back squat 3x5 @ 75%\n", [["3"], ["5"] * 3]),
    "a burnout in the line": ("A Plank 2x30s\nB Push-up burnout\n", [["30s"] * 2, [""]]),
    "effort and no reps": ("A Pull-up 5 sets, stop 2 reps before failure\n", [[""] * 5]),
    "percentages with strokes": ("A Deadlift 5/3/1 @ 75/85/95%\n", [["5", "3", "1"]]),
    "numbers in words": ("A Push-up: three sets of twelve to fifteen reps\n", [["12-15"] * 3]),
    "two equal numbers": ("A Split squat 3x8/8\n", [["8"] * 3]),
    "a list without marks": ("1 Push-up 3x10\n2 Romanian deadlift with dumbbells 2x8\n", [["10"] * 3, ["8"] * 2]),
    "intervals over a list": ("40/20 x 5 rounds:\n- Burpees\n- High knees\n", [["40s"] * 5, ["40s"] * 5]),
    "loads before reps": ("A Bench press 60x8, 65x6, 70x4\n", [["8", "6", "4"]]),
}


def _said(target: SetTarget) -> str:
    if target.low is None:
        return ""
    unit = "s" if target.measure.value == "seconds" else ""
    return f"{target.low}{unit}" if target.low == target.high else f"{target.low}-{target.high}{unit}"


@pytest.mark.parametrize("name", FORMS)
def test_a_rarer_form_means_what_its_coach_meant(name: str) -> None:
    text, expected = FORMS[name]
    assert [[_said(target) for target in slot.sets] for slot in _block(f"Day 1\n{text}").days[0].slots] == expected


def test_a_day_for_two_days_is_written_out_for_both() -> None:
    block = _block("Day 1 & 3\nA Push-up 3x10\nDay 2 & 4\nA Goblet squat 3x8\n")
    assert [(day.number, day.slots[0].exercise) for day in block.days] == [
        (1, "push_up"),
        (2, "goblet_squat"),
        (3, "push_up"),
        (4, "goblet_squat"),
    ]


def test_elbows_at_an_angle_say_nothing_of_the_bench() -> None:
    text = "Day,Exercise,Sets,Reps,Notes\n1,Push-up,3,10,elbows at 45 degrees to the body\n1,Incline dumbbell press,3,10,bench at 30°\n"
    assert [slot.angle_deg for slot in _block(text, "x.csv").days[0].slots] == [None, 30]


def test_the_only_rest_of_a_day_below_its_last_exercise_is_for_all_and_said_so() -> None:
    reading = read_block("Day 1\n- Push-up 3x10\n- Plank 3x30s\n- Goblet squat 3x8\nrest 1 min\n", catalogue=CATALOGUE)
    assert reading.block is not None
    assert [slot.rest for slot in reading.block.days[0].slots] == [Rest(60, 60)] * 3
    assert any("taken for all exercises of the day" in problem.sentence for problem in reading.problems)
