"""Which days stand beside each other in a sheet? They are put one below the other, each cell keeping its place.

    Mon - Legs  |      |      |   | Wed - Upper  |      |             Mon - Legs
    Exercise    | Sets | Reps |   | Exercise     | Sets | Reps   ->   Exercise   | Sets | Reps
    Hack squat  | 4    | 8    |   | Lat pulldown | 4    | 10          Hack squat | 4    | 8
                                                                      Wed - Upper
                                                                      ...

Plan: a row that names several days, or a head that names the exercise several times, parts the sheet into bands; they reach down to the
next such row.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

Row = Sequence[str]
SETS_HEAD = "Reps"


class Placed(NamedTuple):
    """A row as it is to be read, and where its first cell stands in the sheet, from 0."""

    cells: Row
    row: int
    column: int


def one_below_other(rows: Sequence[Row], is_day: Callable[[str], bool], is_exercise_head: Callable[[str], bool]) -> list[Placed]:
    """The rows of a sheet, band after band where days stand side by side."""
    starts = {number: bands for number, row in enumerate(rows) if (bands := _bands(row, is_day, is_exercise_head))}
    parts = _joined(starts, rows)
    if not parts:
        return [Placed(row, number, 0) for number, row in enumerate(rows)]
    first = min(parts)
    return [*(Placed(row, number, 0) for number, row in enumerate(rows[:first])), *_unfolded(rows, parts)]


def each_day_by_itself(
    rows: Sequence[Row], is_day: Callable[[str], bool], is_exercise_head: Callable[[str], bool]
) -> list[Placed] | None:
    """A table whose columns are days ("Exercise | Mon | Wed"), as one table a day; None for any other."""
    head = next((n for n, row in enumerate(rows) if any(cell and is_exercise_head(cell) for cell in row)), None)
    days = [n for n, cell in enumerate(rows[head]) if cell and is_day(cell)] if head is not None else []
    if head is None or len(days) < 2:
        return None
    placed = [Placed(row, number, 0) for number, row in enumerate(rows[:head])]
    for day in days:
        others = [n for n in days if n != day]
        placed.append(Placed([cell if n == day else "" for n, cell in enumerate(rows[head])], head, 0))
        placed.append(
            Placed(["" if n in others else SETS_HEAD if n == day else cell for n, cell in enumerate(rows[head])], head, 0)
        )
        for number, row in enumerate(rows[head + 1 :], start=head + 1):
            if day < len(row) and row[day]:
                placed.append(Placed(["" if n in others else cell for n, cell in enumerate(row)], number, 0))
    return placed


def weeks_beside(rows: Sequence[Row], week_of: Callable[[str], int], is_column: Callable[[str], bool]) -> list[Row]:
    """ "Week 1 | | Week 2" above "Sets | Reps | Sets | Reps": the week of each column is written into the head below it."""
    made: list[Row] = list(rows)
    for above, head in pairwise(range(len(rows))):
        weeks = {n: week_of(cell) for n, cell in enumerate(rows[above]) if cell}
        if len(weeks) < 2 or not all(weeks.values()) or sum(is_column(cell) for cell in rows[head] if cell) < 2 * len(weeks):
            continue
        of = [next((weeks[start] for start in sorted(weeks, reverse=True) if start <= n), 0) for n in range(len(rows[head]))]
        made[head] = [f"week {week} {cell}" if cell and week > 1 else cell for week, cell in zip(of, rows[head], strict=True)]
        made[above] = [""] * len(rows[above])
    return made


def _bands(row: Row, is_day: Callable[[str], bool], is_exercise_head: Callable[[str], bool]) -> tuple[int, ...]:
    """The columns where bands begin; empty for a row that parts nothing."""
    days = [n for n, cell in enumerate(row) if cell and is_day(cell)]
    if len(days) > 1 and len(days) == sum(bool(cell) for cell in row):
        return tuple(days)
    heads = [n for n, cell in enumerate(row) if cell and is_exercise_head(cell)]
    if len(heads) < 2:
        return ()
    before = heads[0] - next(n for n, cell in enumerate(row) if cell)  # a column of labels stands before the exercise
    return tuple(max(0, n - before) for n in heads)


def _joined(starts: dict[int, tuple[int, ...]], rows: Sequence[Row]) -> dict[int, tuple[int, ...]]:
    """Where each part of the sheet begins: the days' names and the head below them are one start, a head takes the row above it along."""
    parts: dict[int, tuple[int, ...]] = {}
    for number, bands in sorted(starts.items()):
        above = number - 1
        if above in parts:
            parts[above] = (
                tuple(min(pair) for pair in zip(parts[above], bands, strict=True)) if len(bands) == len(parts[above]) else bands
            )
        elif above >= 0 and sum(bool(cell) for cell in rows[above]) > 1 and _fits(rows[above], bands):
            parts[above] = bands
        else:
            parts[number] = bands
    return parts


def _fits(row: Row, bands: Iterable[int]) -> bool:
    """Does a row have a cell at the start of bands and nowhere else?"""
    return {n for n, cell in enumerate(row) if cell} <= set(bands)


def _unfolded(rows: Sequence[Row], parts: dict[int, tuple[int, ...]]) -> Iterator[Placed]:
    begins = sorted(parts)
    for begin, end in zip(begins, [*begins[1:], len(rows)], strict=True):
        bands = parts[begin]
        for low, high in zip(bands, [*bands[1:], None], strict=True):
            start = 0 if low == bands[0] else low
            for number in range(begin, end):
                yield Placed(rows[number][start:high], number, start)
