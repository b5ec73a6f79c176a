"""How is a block written as a spreadsheet? One column, the lines of the text: what was written is read back to the same block."""

from __future__ import annotations

import io

from bot.language.blocks.written import write_text
from bot.training.blocks import Block

_EXAMPLE = """\
My block
4 weeks
Week 1: get used to it
Week 2: a little more than week 1

Day 1 - Legs
Warm-up: 3 min easy marching
A1 Goblet squat 3x8-12 @ 3-1-1-0, rest 60 s
cue: chest tall
sub: box squat
A2 Push-up 3x6-15
B1 Side plank 2x20-40s each side, weak side first
Rest
Day 2 - Pull
A1 One-arm dumbbell row 3x8-12 each side
week 3: 4x8-10
B1 Dumbbell curl 2x10-12
B2 Jumping jacks, 20s on 40s off x4
"""


def write_xlsx(block: Block) -> bytes:
    """The block as an .xlsx that reads back to the same block."""
    return _lines(write_text(block).splitlines())


def template_text() -> str:
    """A small block to start from, as text."""
    return _EXAMPLE


def template_xlsx() -> bytes:
    """The same as a spreadsheet with columns."""
    from openpyxl import Workbook

    book = Workbook()
    sheet = book.create_sheet("Block", 0)
    book.remove(book.worksheets[1])
    rows: list[tuple[str | int, ...]] = [
        ("Day", "Slot", "Exercise", "Sets", "Reps", "Tempo", "Rest", "Sub", "Cue"),
        ("Day 1 - Legs", "A1", "Goblet squat", 3, "8-12 reps", "3-1-1-0", "60 s", "box squat", "chest tall"),
        ("Day 1 - Legs", "A2", "Push-up", 3, "6-15 reps", "", "", "incline push-up", ""),
        ("Day 2 - Pull", "A1", "One-arm dumbbell row", 3, "8-12 each side", "", "", "", ""),
        ("Day 2 - Pull", "B1", "Dumbbell curl", 2, "10-12 reps", "", "", "", ""),
    ]
    for row in rows:
        sheet.append(list(row))
    for cells in sheet.iter_rows():
        for cell in cells:
            cell.number_format = "@"  # text, so that 10-12 never becomes a date
    return _bytes(book)


def _lines(lines: list[str]) -> bytes:
    from openpyxl import Workbook

    book = Workbook()
    sheet = book.create_sheet("Block", 0)
    book.remove(book.worksheets[1])
    for number, line in enumerate(lines, 1):
        cell = sheet.cell(number, 1)
        cell.value = line
        cell.data_type = "s"  # never a formula
        cell.number_format = "@"
    return _bytes(book)


def _bytes(book: object) -> bytes:
    out = io.BytesIO()
    book.save(out)  # type: ignore[attr-defined]
    return out.getvalue()
