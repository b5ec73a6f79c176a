"""Which block does a spreadsheet hold? One sheet a day or all in one; read by the same reader as tables and typed lines.

Hostile files are refused before they are opened: too many parts, parts that unpack to too much, macros. Formula cells are refused with their
cell named, and so are cells that the spreadsheet program turned into a date ("10-12" became the 10th of December).
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Mapping
from datetime import date, datetime, time

from bot.language.blocks.assemble import Assembler
from bot.language.blocks.headings import read_day
from bot.language.blocks.letters import even
from bot.language.blocks.other_languages import other_language
from bot.language.blocks.results import BlockReading
from bot.language.blocks.tables import feed
from bot.language.blocks.typed import TypedReader
from bot.language.problems import Place, Problem, error
from bot.training.blocks import ExerciseId
from bot.training.exercises.catalogue import Catalogue

_UNPACKED = 6_000_000  # bytes; a block of 60 slots unpacks to about 0.3 MB
_STYLES = 1_000_000  # bytes; openpyxl builds an object for every style, about thirty times as large
_RATIO = 150  # unpacked to packed of one part; honest sheets stay under 40
_ROWS, _COLUMNS, _SHEETS = 400, 60, 30


def read_sheets(content: bytes, *, catalogue: Catalogue, own_names: Mapping[str, ExerciseId]) -> BlockReading:
    """Read an .xlsx. Never raises: what is wrong is in the reading."""
    refused = _refusal(content)
    if refused:
        return BlockReading(None, (refused,))
    from openpyxl import load_workbook

    try:
        book = load_workbook(io.BytesIO(content), read_only=True, data_only=False, keep_links=False)
    except Exception:  # openpyxl raises a dozen kinds for damaged files; each means the same to the coach
        return BlockReading(
            None,
            (
                error(
                    Place(),
                    "",
                    "the spreadsheet is damaged or not a spreadsheet",
                    "open it, save it again as .xlsx and send that",
                ),
            ),
        )
    reader = TypedReader(Assembler(catalogue, own_names))
    problems: list[Problem] = []
    sheets = [(sheet, *_rows(sheet)) for sheet in book.worksheets[:_SHEETS]]
    language = other_language("\n".join(cell for _, rows, _ in sheets for row in rows for cell in row if cell))
    for sheet, rows, found in sheets:
        problems += found
        if language is not None:
            rows = [[language.in_english(cell) for cell in row] for row in rows]
        if not any(any(row) for row in rows):
            continue
        week = re.match(r"(?:week|wk|w)\s*(\d{1,2})\b", sheet.title, re.IGNORECASE)
        if week:
            reader.open_week(int(week[1]))
        elif read_day(even(sheet.title)) is not None:
            first = next(cell for row in rows for cell in row if cell)
            if not re.match(r"(?:day|workout|session)\b", first, re.IGNORECASE):
                reader.take(sheet.title, Place(sheet=sheet.title))
        title = sheet.title
        feed(reader, rows, lambda row, column, title=title: Place(sheet=title, cell=f"{_letters(column)}{row + 1}"))  # type: ignore[misc]
    reading = reader.to.reading()
    if not problems:
        return reading
    # What else is wrong with a row that has a formula or a date in it comes from the cell that could not be read.
    spoiled = {(problem.where.sheet, _row_of(problem.where.cell)) for problem in problems}
    others = [p for p in reading.problems if (p.where.sheet, _row_of(p.where.cell)) not in spoiled]
    return BlockReading(None, (*problems, *others), reading.unknown, reading.understood)


def _row_of(cell: str) -> str:
    return cell.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")


def _refusal(content: bytes) -> Problem | None:
    instead = "send the block as .xlsx without macros, as .csv, or as a message"
    try:
        parts = zipfile.ZipFile(io.BytesIO(content)).infolist()
    except zipfile.BadZipFile:
        return error(Place(), "", "the file is a damaged archive, not a spreadsheet", instead)
    names = {part.filename for part in parts}
    if not any(name.startswith("xl/") for name in names):
        return error(Place(), "", "the file is an archive or another kind of document, not a spreadsheet", instead)
    if any("vbaproject" in name.lower() for name in names):
        return error(Place(), "", "the spreadsheet holds macros, which are not opened", instead)
    heavy = sum(part.file_size for part in parts) > _UNPACKED or len(parts) > 500
    heavy = heavy or any(
        part.file_size > _STYLES for part in parts if "worksheets/" not in part.filename and "media/" not in part.filename
    )
    if heavy or any(part.file_size > 1_000_000 and part.file_size > _RATIO * max(1, part.compress_size) for part in parts):
        return error(Place(), "", "the spreadsheet unpacks to far more than a block", "send one block only, in a fresh file")
    return None


def _rows(sheet: object) -> tuple[list[list[str]], list[Problem]]:
    rows: list[list[str]] = []
    problems: list[Problem] = []
    for number, row in enumerate(sheet.iter_rows(max_row=_ROWS)):  # type: ignore[attr-defined]
        cells = []
        for column, cell in enumerate(row[:_COLUMNS]):  # asked for as max_col, every row would be filled up to it
            value = cell.value
            if value is None:
                cells.append("")
                continue
            if isinstance(value, int | float) and "%" in str(getattr(cell, "number_format", "")):
                value = f"{round(value * 100, 1):g}%"  # a spreadsheet keeps 80% as 0.8
            where = Place(sheet=sheet.title, cell=f"{_letters(column)}{number + 1}")  # type: ignore[attr-defined]
            text, problem = _text(value, where)
            cells.append(text)
            if problem:
                problems.append(problem)
        rows.append(cells)
    while rows and not any(rows[-1]):
        rows.pop()
    return rows, problems


def _text(value: object, where: Place) -> tuple[str, Problem | None]:
    """A cell as text; formulas and dates are mistakes with their place."""
    if value is None:
        return "", None
    if isinstance(value, datetime | date) and not isinstance(value, time):
        said = f"{value.day}-{value.month}"
        wrong = f"the cell holds the date {value:%d %b %Y}, which the spreadsheet made of something like {said}"
        return "", error(where, said, wrong, f"format the cell as text and write {said} (or {value.month}-{value.day}) again")
    if isinstance(value, time):
        return f"{value:%H:%M}", None
    if isinstance(value, float) and value.is_integer():
        return str(int(value)), None
    text = str(value).strip()
    if text.startswith("=") or type(value).__name__ in ("ArrayFormula", "DataTableFormula"):
        return "", error(where, text, "the cell holds a formula, which is not computed here", "write its result as plain text")
    return " / ".join(part.strip() for part in text.splitlines() if part.strip()) if "\n" in text else text, None


def _letters(column: int) -> str:
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(65 + rest) + letters
    return letters
