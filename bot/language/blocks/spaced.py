"""Which cells stand in a table whose columns are set off by spaces alone, as in the text of a PDF?

    Order  Exercise        Sets  Reps
    A1     Bench press     4     8-10       -> ["A1", "Bench press", "4", "8-10"]
           Push-up               AMRAP      -> ["", "Push-up", "", "AMRAP"]: each below the head that it is nearest to

A line of one cell stays one, so that headings between the rows are read as such.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

_CELL = re.compile(r"\S+(?: \S+)*")
_PAGE = re.compile(r"\s*\bpage\s+\d+(?:\s*(?:of|/)\s*\d+)?\s*$", re.I)
_LEAST_COLUMNS = 3

Cells = list[tuple[int, str]]  # where each begins, and its words


def rows_of_spaced(text: str, is_head: Callable[[Sequence[str]], bool]) -> list[list[str]]:
    """The rows of such a table; empty where no line is its head."""
    if "\t" in text:
        return []  # tabs part the cells surely
    lines = [_cells(_PAGE.sub("", line)) for line in text.splitlines()]
    if not any(_is_head(cells, is_head) for cells in lines):
        return []
    rows: list[list[str]] = []
    head: Cells = []
    for cells in lines:
        head = cells if _is_head(cells, is_head) else head
        rows.append(_below(head, cells) if head and len(cells) > 1 else [words for _, words in cells])
    return rows


def _cells(line: str) -> Cells:
    return [(found.start(), found[0]) for found in _CELL.finditer(line)]


def _is_head(cells: Cells, is_head: Callable[[Sequence[str]], bool]) -> bool:
    return len(cells) >= _LEAST_COLUMNS and is_head([words for _, words in cells])


def _below(head: Cells, cells: Cells) -> list[str]:
    if len(cells) == len(head):
        return [words for _, words in cells]
    row = [""] * len(head)
    for start, words in cells:
        nearest = min(range(len(head)), key=lambda n: abs(head[n][0] - start))
        row[nearest] = f"{row[nearest]} {words}".strip()
    return row
