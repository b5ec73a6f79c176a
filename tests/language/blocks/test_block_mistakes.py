"""Every mistake in a block gets its place, what is wrong and what to write instead; all at once, and nothing is kept."""

import io
import zipfile

import pytest

from bot.language.blocks import read_block
from bot.training.exercises.catalogue import load_catalogue

CATALOGUE = load_catalogue()

MISTAKES = {
    "A1 Goblet squat 3x8 tempo 3-1": 'tempo "3-1" has two numbers where four are needed; write lowering, pause, lifting, pause, such as 3-1-1-0.',
    "A1 Goblet squat 4x8 @31": 'tempo "31" has two numbers where four are needed; write lowering, pause, lifting, pause, such as 3-1-1-0.',
    "A1 Goblet squat 3x12-8": 'the range "12-8" runs downwards; write 8-12 for a range, or 12, 8 for one number a set.',
    "A1 Goblet squat 4x12/10/8": '"4x12/10/8" has 4 sets but 3 rep numbers; write one number for all sets, or one for each.',
    "A1 Goblet squat": '"Goblet squat" has no sets and reps; write them behind the name, such as 3x8-10.',
    "A1 Goblet squat 3 sets": '"Goblet squat" has sets but no reps; write both, such as 3x10.',
    "A1 Goblet squat 3x": '"3x" is half of a prescription; write sets x reps, such as 3x10.',
    "A1 Goblet squat 0x5": '"0x5" has no sets; write 1 or more, or leave the exercise out.',
    "A1 Goblet squat 3x8 RPE 12": "RPE 12 is outside the scale; write RPE 1 to 10.",
    "A1 Goblet squat 3x8 @ 140%": "140% of the 1RM is outside 20 to 110; write a percentage such as 70%.",
    "A1 Goblet squat 3x10, then split squat 3x8": 'several exercises stand in one line, also "split squat"; write each on a line of its own.',
}


@pytest.mark.parametrize("line", MISTAKES)
def test_a_mistake_is_named_with_its_place_and_its_cure(line: str) -> None:
    reading = read_block(f"Day 1\n{line}\n", catalogue=CATALOGUE)

    assert reading.block is None
    assert f"Line 2, slot A1: {MISTAKES[line]}" in [problem.sentence for problem in reading.errors]


def test_all_mistakes_are_named_at_once() -> None:
    text = "Day 1\nA1 Goblet squat 3x12-8\nA2 Push-up 3 sets\nB1 Plank 3x30s tempo 3-1\n"

    reading = read_block(text, catalogue=CATALOGUE)

    assert [problem.where.line for problem in reading.errors] == [2, 3, 4]


def test_a_range_that_a_spreadsheet_made_a_date_is_named_and_never_read_as_reps() -> None:
    reading = read_block("Day,Exercise,Sets,Reps\n1,Goblet squat,3,10-Dec\n", filename="plan.csv", catalogue=CATALOGUE)

    assert [problem.sentence for problem in reading.errors] == [
        'Line 2: "10-Dec" is a date, which a spreadsheet made of a range such as 10-12; format the column as text and write the range again.'
    ]


def archive(**parts: bytes) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as book:
        for name, content in parts.items():
            book.writestr(f"xl/{name.replace('__', '/').replace('_xml', '.xml')}", content)
    return out.getvalue()


HOSTILE = {
    "a sheet that unpacks to 200 MB": archive(worksheets__sheet1_xml=b" " * 200_000_000),
    "a stylesheet of 25 MB": archive(styles_xml=b'<font><sz val="11"/></font>' * 900_000),
    "macros": archive(vbaProject=b"x"),
    "no spreadsheet at all": b"PK\x03\x04" + b"\x01" * 5_000,
    "too large": b"A1 Goblet squat 3x8\n" * 100_000,
    "an old or protected file": b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\x00" * 600,
}


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_or_foreign_file_is_refused_with_one_sentence(name: str) -> None:
    reading = read_block(HOSTILE[name], filename="plan.xlsx", catalogue=CATALOGUE)

    assert reading.block is None
    assert len(reading.problems) == 1


def test_after_sixty_mistakes_reading_stops_and_says_so() -> None:
    reading = read_block("Day 1\n" + "A1 Goblet squat 3x8\n" * 90, catalogue=CATALOGUE)

    said = "Line 63: there are more than 60 mistakes up to here, so I stopped reading; mend these and send it again."
    assert said in [problem.sentence for problem in reading.errors]
    assert len(reading.errors) == 62


def test_far_more_exercises_than_a_block_has_are_no_block() -> None:
    days = "\n".join(
        f"Day {day}\n" + "\n".join(f"{letter}1 Goblet squat 3x8" for letter in "ABCDEFGHIJKLMN") for day in range(1, 26)
    )

    reading = read_block(days, catalogue=CATALOGUE)

    assert "there are more than 300 exercises up to here; send the plan of one block only." in reading.errors[0].sentence
