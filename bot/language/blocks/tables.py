"""Which block does a table describe? Each row becomes the typed line that its coach would have written, and is read by the same reader.

Headers in any order and wording ("Exercise", "Movement", "Sets", "Reps", "Tempo", "Rest", "Notes", "Sub"), or none; the day as a column
or as a heading row; sets as columns ("Set 1", "Set 2"). A mistake keeps its place: the line of a CSV, the sheet and cell of a spreadsheet.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Mapping, Sequence
from itertools import islice, pairwise

from bot.language.blocks.assemble import Assembler
from bot.language.blocks.column_heads import NUMBERED, Column, column_of, header_of
from bot.language.blocks.headings import MAIN_PART, WARM_UP, read_day, read_label, read_superset
from bot.language.blocks.letters import even, without_marks
from bot.language.blocks.results import BlockReading
from bot.language.blocks.side_by_side import each_day_by_itself, one_below_other, weeks_beside
from bot.language.blocks.spaced import rows_of_spaced
from bot.language.blocks.typed import TypedReader
from bot.language.problems import Place, error, quoted
from bot.training.blocks import ExerciseId
from bot.training.exercises.catalogue import Catalogue

Row = Sequence[str]
PlaceOf = Callable[[int, int], Place]  # (row, column), both from 0


def looks_like_table(text: str, filename: str = "") -> bool:
    """A CSV by its name, or lines that share a delimiter in a regular way and name at least two known columns."""
    if filename.lower().endswith((".csv", ".tsv")):
        return True
    lines = [line for line in text.splitlines() if line.strip()][:30]
    if len(lines) < 3:
        return False
    if rows_of_spaced("\n".join(lines), lambda row: bool(header_of(row))):
        return True
    if any(_looks_filled(lines, mark) for mark in ("|", "\t")):
        return True
    return any(
        header_of([cell.strip() for cell in line.split(mark)])
        for mark in ("\t", ";", "|", ",")
        for line in lines[:6]
        if line.count(mark) >= 2
    )


_SETS_CELL = re.compile(r"[1-9]|10")
_REPS_CELL = re.compile(
    r"(?:\d{1,3}(?:\s*[-–/]\s*\d{1,3})*\+?|amrap|max)\s*(?:reps?|s|secs?|steps|m|each|ea|e/s)?\s*(?:(?:/|per|each)\s*\w+)?", re.I
)


def _looks_filled(lines: Sequence[str], mark: str) -> bool:
    """Rows of a table without a head: words, then a cell of sets beside a cell of reps, in most lines that have cells at all."""
    rows = [[cell.strip() for cell in line.strip(f" {mark}").split(mark)] for line in lines if line.count(mark) >= 2]
    fitting = sum(
        any(_SETS_CELL.fullmatch(one) and _REPS_CELL.fullmatch(other) for one, other in pairwise(row[1:])) for row in rows
    )
    return fitting >= 3 and fitting * 3 >= len(rows) * 2


def read_table_text(text: str, *, catalogue: Catalogue, own_names: Mapping[str, ExerciseId]) -> BlockReading:
    """Read a CSV, whatever its delimiter."""
    rows = rows_of_spaced(text, lambda row: bool(header_of(row)))
    rows = rows or [[cell.strip() for cell in row] for row in csv.reader(io.StringIO(text), delimiter=_delimiter(text))]
    reader = TypedReader(Assembler(catalogue, own_names))
    feed(reader, rows, lambda row, column: Place(line=row + 1))
    return reader.to.reading()


def _delimiter(text: str) -> str:
    lines = [line for line in text.splitlines() if line.strip()][:40]
    return max("\t;|,", key=lambda mark: (sum(line.count(mark) >= 2 for line in lines), sum(line.count(mark) for line in lines)))


def _week_of(cell: str) -> int:
    column = column_of(cell)
    return column.number if column is not None and column.name == "week_n" else 0


def _is_exercise_head(cell: str) -> bool:
    column = column_of(cell)
    return column is not None and column.name == "exercise"


def _is_day(cell: str) -> bool:
    heading = read_day(even(cell))
    return heading is not None and not (heading.is_rest and heading.weekday is None and heading.number is None)


def feed(reader: TypedReader, rows: Sequence[Row], place_of: PlaceOf) -> None:
    """Hand a table's rows to the reader of typed lines, row by row; days that stand side by side one after the other."""
    rows = weeks_beside(rows, _week_of, lambda cell: column_of(cell) is not None)
    placed = each_day_by_itself(rows, _is_day, _is_exercise_head) or one_below_other(rows, _is_day, _is_exercise_head)
    _feed(reader, [line.cells for line in placed], lambda at, column: place_of(placed[at].row, placed[at].column + column))


def _feed(reader: TypedReader, rows: Sequence[Row], place_of: PlaceOf) -> None:
    columns: dict[int, Column] = {}
    guess: dict[int, Column] | None = None
    day = ""
    headed = _day_rows(rows)
    last_head = max((number for number, row in enumerate(rows) if header_of(row)), default=-1)
    day_heads = _day_heads(rows, reader.to)
    for number, row in enumerate(rows):
        cells = {n: cell for n, cell in enumerate(row) if cell}
        if not cells:
            continue
        if reader.to.gives_up(place_of(number, min(cells))):
            return
        header = _with_days(header_of(row), rows[number + 1 :]) or (
            {} if columns else _unnamed(row, rows[number + 1 :], reader.to)
        )
        if number in headed:
            reader.open_day(headed[number], place_of(number, min(cells)))
        elif number in day_heads:
            columns = _with_units(day_heads[number], rows[number + 1 :])
            reader.open_day(cells[min(cells)], place_of(number, min(cells)))
        elif header:
            columns = _with_units(header, rows[number + 1 :])
            _outside(reader, {n: cell for n, cell in cells.items() if n not in header}, number, place_of)
        elif all(re.fullmatch(r"[-:=_\s]*", cell) for cell in cells.values()):
            continue  # the rule below a table's head
        elif (
            not columns
            and number > last_head
            and len(cells) > 2
            and (guess := _guessed(rows, reader.to) if guess is None else guess)
        ):
            columns = guess
            if _is_unknown_head(cells, guess, reader):
                continue
            day = _row(reader, cells, columns, day, number, place_of)
        elif not columns or len(cells) == 1:
            reader.take(_as_line(list(cells.values())), place_of(number, min(cells)), _next_words(rows, number))
        else:
            day = _row(reader, cells, columns, day, number, place_of)


def _day_rows(rows: Sequence[Row]) -> dict[int, str]:
    """Rows of one cell that are the days' names, whatever the words: each stands above a head or a full row, and no other is a day's."""
    alone: dict[int, str] = {}
    seen_head = False
    has_column = False
    for number, row in enumerate(rows):
        cells = [cell for cell in row if cell]
        header = header_of(row)
        if header:
            seen_head = True
            has_column = has_column or any(column.name == "day" for column in header.values())
        if len(cells) != 1:
            continue
        text = even(cells[0]).strip()
        if read_day(text) is not None and not re.match(r"\d", text):
            return {}
        after = next((later for later in rows[number + 1 : number + 4] if any(later)), ())
        to_head = bool(header_of(after))
        if to_head or (seen_head and sum(bool(cell) for cell in after) > 2):
            name = re.sub(r"^\d{1,2}\s*[.)]\s*", "", text).strip(" :-=*#")
            words = 0 < len(name.split()) <= 7 and not re.search(r"\d\s*x|\bsets?\b|\breps?\b|\brounds?\b", name, re.I)
            if words and read_superset(text) is None and not WARM_UP.match(text) and not MAIN_PART.match(text):
                alone[number] = name
    return alone if not has_column and len(alone) >= 2 else {}


def _day_heads(rows: Sequence[Row], to: Assembler) -> dict[int, dict[int, Column]]:
    """Heads of tables one below the other, each of which begins with its day's name: "Heavy day | Set 1 | Set 2 | Pause"."""
    heads: dict[int, dict[int, Column]] = {}
    for number, row in enumerate(rows):
        first = next((n for n, cell in enumerate(row) if cell), -1)
        if first >= 0 and column_of(row[first]) is None and not header_of(row):
            found = _unnamed(row, rows[number + 1 :], to)
            if found.get(first) == Column("exercise"):
                heads[number] = found
    names = {next(cell for cell in rows[number] if cell).lower() for number in heads}
    return heads if 1 < len(heads) == len(names) else {}


def _is_unknown_head(cells: Mapping[int, str], guess: Mapping[int, Column], reader: TypedReader) -> bool:
    """Is the first row of a table the head of its columns, in words that are none of ours?"""
    exercise = next(cells.get(n, "") for n, column in guess.items() if column.name == "exercise")
    return not any(re.search(r"\d", cell) for cell in cells.values()) and not reader.slots.knows(exercise)


def _as_line(cells: list[str]) -> str:
    """ "Block" beside "Spring" is "Block: Spring"."""
    keyed = len(cells) == 2 and re.fullmatch(
        r"(?:block|title|program(?:me)?|plan|name|weeks?|length|split|rhythm|notes?)\s*:?", cells[0], re.I
    )
    return f"{cells[0].rstrip(': ')}: {cells[1]}" if keyed else " ".join(cells)


def _next_words(rows: Sequence[Row], number: int) -> str:
    """The next row that says anything, as one line."""
    return next((" ".join(cell for cell in row if cell) for row in rows[number + 1 : number + 6] if any(row)), "")


_GUESSED_FROM = 50  # rows
_WORD = re.compile(r"[^\W\d_]{3}")


def _guessed(rows: Sequence[Row], to: Assembler, *, least: int = 3) -> dict[int, Column]:
    """Columns of a table without a head, by what most of their cells look like; empty where no column holds exercises."""
    full = [row for row in rows if sum(bool(cell) for cell in row) >= least][:_GUESSED_FROM]
    width = max((len(row) for row in full), default=0)
    columns = {n: [row[n] for row in full if n < len(row) and row[n].strip(" -–")] for n in range(width)}
    known = {
        n: sum(bool(_WORD.search(cell)) and to.names.find(_unlabelled(cell))[0] is not None for cell in cells)
        for n, cells in columns.items()
    }
    exercise = max(known, key=lambda n: known[n], default=0)
    if not full or known.get(exercise, 0) * 2 < len(full):
        return {}
    found = {exercise: Column("exercise")}
    days = (n for n, cells in columns.items() if n < exercise and cells and 2 * sum(map(_is_day, cells)) >= len(cells))
    found |= dict.fromkeys(islice(days, 1), Column("day"))
    for name, pattern in _LOOKS:
        for n, cells in columns.items():
            behind = pattern == _WHOLE_SCHEME or (name == "slot") == (n < exercise)
            taken = name in [other.name for other in found.values()]
            if (
                n not in found
                and behind
                and not taken
                and cells
                and 2 * sum(bool(re.fullmatch(pattern, c, re.I)) for c in cells) > len(cells)
            ):
                found[n] = Column(name)
    return found


def _with_units(header: dict[int, Column], below: Sequence[Row]) -> dict[int, Column]:
    """Loads of a column are in the unit that any of its cells names."""
    units = {
        n: found["unit"].lower()
        for n, column in header.items()
        if column.name == "load" and not column.unit
        for row in below
        if n < len(row) and (found := re.search(r"\d\s*(?P<unit>kgs?|lbs?)\b", row[n], re.I))
    }
    return {n: column._replace(unit=units.get(n, column.unit)) for n, column in header.items()}


def _with_days(header: dict[int, Column], below: Sequence[Row]) -> dict[int, Column]:
    """A head that leaves out the word above the days: the column before the others, all of whose cells name one."""
    if not header or any(column.name == "day" for column in header.values()):
        return header
    for n in range(min(header)):
        cells = [row[n] for row in below if n < len(row) and row[n]]
        full = [row for row in below if sum(bool(cell) for cell in row) > 2]
        if cells and all(_is_day(cell) for cell in cells) and any(row[n] for row in full if n < len(row)):
            return {**header, n: Column("day")}
    return header


def _unnamed(row: Row, below: Sequence[Row], to: Assembler) -> dict[int, Column]:
    """A head that leaves out who needs no name: the exercise's column, and that of the labels before it, are found by their cells."""
    named = {n: column for n, cell in enumerate(row) if cell and (column := column_of(cell))}
    told = [column.name for column in named.values()]
    if len(named) < 2 or "exercise" in told or not {"sets", "reps", "week_n", "set_n"} & set(told):
        return {}
    guessed = _guessed([[cell if n not in named else "" for n, cell in enumerate(line)] for line in below], to, least=1)
    found = {n: column for n, column in guessed.items() if n not in named and column.name in ("exercise", "slot", "day")}
    return {**named, **found} if found else {}


def _unlabelled(cell: str) -> str:
    """The exercise of "a1 back squat" and "2a Barbell row"."""
    labelled = read_label(without_marks(even(cell)))
    return labelled[1] if labelled else _number_apart(cell)[1]


_NUMBERED_CELL = re.compile(
    r"(?P<number>\d{1,2}[a-f]?)\s+(?P<name>(?!(?:arm|leg|hand|side)[\s-])(?:[12][\s-](?=arm|leg))?[^\W\d_]{2}.*)", re.I
)


def _number_apart(cell: str) -> tuple[str, str]:
    """("2a", "Barbell row") of "2a Barbell row"; ("", the cell) where no number stands before the exercise."""
    found = _NUMBERED_CELL.fullmatch(cell)
    return (found["number"], found["name"]) if found else ("", cell)


# What cells of a table without a head look like; the first that fits, from left to right.
_WHOLE_SCHEME = r"\d{1,2}\s*[x×]\s*\S.*"
_LOOKS = (
    ("reps", _WHOLE_SCHEME),  # sets and reps in one cell, wherever it stands
    ("slot", r"[A-Z]\d{1,2}[.)]?|\d{1,2}[a-f]?[.)]?"),
    ("tempo", r"\d[-/.:]?\d[-/.:]?[\dx](?:[-/.:]?[\dx])"),
    ("rest", r"\d{2,3}|\d+(?:\s*-\s*\d+)?\s*(?:s|secs?|sek|seg|min|m|\"|')(?:\d\d\"?)?|\d:\d\d"),
    ("sets", r"[1-9]|10"),
    (
        "reps",
        r"\d{1,3}(?:\s*(?:-|–|to|/|,)\s*\d{1,3})*\+?\s*(?:reps?|s|secs?|steps|m|each|e/s|/side|each side|/\s*[a-z]+)?|amrap|max|\d+\s*x\s*.+",
    ),
)


def _outside(reader: TypedReader, cells: Mapping[int, str], number: int, place_of: PlaceOf) -> None:
    """A heading that shares the header's row, such as the day's name in its first cell."""
    for column, cell in cells.items():
        if column == 0 or read_day(even(cell)) is not None:
            reader.take(cell, place_of(number, column))


_DATE = re.compile(
    r"\b(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\b|^\d{4}-\d\d-\d\d|^\d{1,2}[./]\d{1,2}[./](?:19|20)\d\d$", re.I
)


def _row(
    reader: TypedReader,
    cells: Mapping[int, str],
    columns: Mapping[int, Column],
    day: str,
    number: int,
    place_of: PlaceOf,
) -> str:
    said: dict[str, str] = {}
    at: dict[str, int] = {}
    sets: dict[int, str] = {}
    weeks: dict[int, str] = {}
    weekly: dict[int, dict[str, str]] = {}
    ramp: list[str] = []  # sets to warm up with
    for column, cell in cells.items():
        name, which, unit = columns.get(column, _NOTE)
        if name == "warm_up":
            if any(other.name == "set_n" for other in columns.values()) and re.search(r"\d", cell):
                ramp.append(cell)
            else:
                said["note"] = "; ".join(part for part in (said.get("note", ""), f"warm-up: {cell}") if part)
                at.setdefault("note", column)
        elif name == "set_n":
            sets[which] = cell
            at.setdefault("reps", column)
        elif name == "week_n":
            weeks[which] = cell
            at.setdefault("reps", column)
        elif which > 1:
            weekly.setdefault(which, {})[name] = _with_unit(name, cell, unit, reader)
            at.setdefault("reps", column)
        else:
            cell = _with_unit(name, cell, unit, reader)
            said[name] = f"{said[name]}; {cell}" if name in said else cell
            at.setdefault(name, column)
    place = place_of(number, at.get("exercise", min(cells)))
    for column, cell in cells.items():
        if columns.get(column, _NOTE).name in ("sets", "reps", "tempo", *NUMBERED) and _DATE.search(cell):
            wrong = f"{quoted(cell)} is a date, which a spreadsheet made of a range such as 10-12"
            reader.to.problems.append(
                error(place_of(number, column), cell, wrong, "format the column as text and write the range again")
            )
    if said.get("day") and said["day"] != day:
        day = said["day"]
        reader.open_day(f"Day {day}" if re.fullmatch(r"\d|[A-Ha-h]", day) else day, place_of(number, at["day"]))
    exercise = said.get("exercise", "")
    number_apart, name_apart = _number_apart(exercise)
    if number_apart and "slot" not in said and reader.slots.knows(name_apart):
        said["slot"], exercise = number_apart, name_apart
    other = _OTHER_IN_CELL.search(exercise)
    if other and other.start():
        said["sub"] = "; ".join(part for part in (other["other"], said.get("sub", "")) if part)
        at.setdefault("sub", at["exercise"])
        exercise = exercise[: other.start()]
    if not exercise:
        reader.take(" ".join(cells.values()), place)
        return day
    if re.fullmatch(r"(?:rest|off)(?: day)?", exercise.lower()):
        reader.take("Rest", place)
        return day
    reader.is_exercise = True
    reader.take(
        _slot_line({**said, "sets": ""} if weeks else said, exercise, sets),
        place_of(number, at.get("reps", at.get("sets", at.get("exercise", 0)))),
        "3x10" if weeks or not _alike(sets) else "",  # its figures follow, from columns of their own
    )
    reader.is_exercise = False
    for week, cell in sorted(weeks.items()):
        count = said.get("sets", "")
        whole = f"{count}x{cell}" if count.isdigit() and not re.search(r"\d\s*[x×]|sets?\b", cell) else cell
        if re.search(r"\d|amrap|max", whole, re.I):
            reader.take(f"week {week}: {whole}", place_of(number, at["reps"]))
    for week, parts in sorted(weekly.items()):
        line = _slot_line({**({"sets": said.get("sets", "")} if "reps" in parts else {}), **parts}, "", {}).strip(" ,")
        reader.take(f"week {week}: {line}", place_of(number, at["reps"]))
    if said.get("note"):
        reader.slots.remark(said.pop("note"), place_of(number, at["note"]))
    if said.get("cue"):
        reader.slots.remark(said.pop("cue"), place_of(number, at["cue"]), is_cue=True)
    for name, key in (("sub", "sub"), ("kit", "kit"), ("demo", "demo")):
        if said.get(name):
            reader.take(f"{key}: {said[name]}", place_of(number, at[name]))
    for cell in ramp:
        reader.take(f"warm-up set: {cell}", place)
    for which, cell in sorted(sets.items()) if not _alike(sets) else ():
        reader.take(f"set {which}: {cell}", place)
    return day


_NOTE = Column("note")
_OTHER_IN_CELL = re.compile(
    r"\s*[/,;(|-]*\s*\b(?:or|subs?|alt|else|otherwise|instead|if\s+not)\s*[:=]\s*(?P<other>[^()]+?)\)?$", re.I
)  # "Chin-up / or: lat pulldown"
_PAIR = re.compile(r"(?:2\s*[x×]|two\s|pair\s+of\s)\s*(?P<each>\d{1,3}(?:[.,]\d{1,2})?)", re.I)
_BARE = re.compile(r"\d{1,3}(?:[.,]\d{1,2})?(?:\s*[-–]\s*\d{1,3}(?:[.,]\d{1,2})?)?")


def _with_unit(name: str, cell: str, unit: str, reader: TypedReader) -> str:
    """A bare figure gets the unit that its column's head names; a rest is in seconds from 10 up, an effort is RPE."""
    pair = _PAIR.fullmatch(cell.strip()) if name == "load" else None
    if pair:
        return f"pair of {_with_unit(name, pair['each'], unit, reader)}"
    if not _BARE.fullmatch(cell.strip()):
        return cell
    if name == "rest":
        return f"{cell} {unit}" if unit else f"{cell} s" if re.match(r"\d{2}", cell) else cell
    if name == "load":
        unit = unit or (reader.to.conventions.unit.value if reader.to.conventions.unit else "")
        return f"{cell}{unit}" if unit == "%" else f"{cell} {unit}".strip()
    return f"{'RIR' if unit == 'rir' else 'RPE'} {cell}" if name == "effort" else cell


def _alike(sets: Mapping[int, str]) -> bool:
    return len(set(sets.values())) <= 1 or all(re.fullmatch(r"\d{1,3}", cell) for cell in sets.values())


def _slot_line(said: Mapping[str, str], exercise: str, sets: Mapping[int, str]) -> str:
    """The line a coach would type: "A1 Goblet squat 3x8-12 tempo 3-1-1-0 rest 60 s RPE 8"."""
    label = said.get("slot", "").strip()
    label = f"{label.rstrip('.):')}) " if re.fullmatch(r"[A-Za-z]\d{0,2}[.):]?|\d{1,2}\s?[A-Fa-f]?[.):]?", label) else ""
    count, reps = said.get("sets", "").strip(), said.get("reps", "").strip()
    if sets and not reps:
        figures = [cell for _, cell in sorted(sets.items())]
        scheme = f"{len(figures)}x{figures[0]}" if len(set(figures)) == 1 else "/".join(figures) if _alike(sets) else ""
    elif reps and count and not re.search(r"\d\s*[x×]", reps):
        scheme = f"{count}x{reps}" if re.fullmatch(r"\d{1,2}", count) else f"{count} x {reps}"
    else:
        scheme = reps or count
    tempo = said.get("tempo", "").strip()
    rest = said.get("rest", "").strip()
    parts = [
        f"{label}{exercise} {scheme}".strip(),
        f"tempo {tempo}" if tempo and tempo not in "-–" else "",
        f"rest {rest}" if rest and rest not in "-–" and "rest" not in rest.lower() else rest if "rest" in rest.lower() else "",
        said.get("load", "") if re.search(r"\d|same|ris|fall", said.get("load", "").lower()) else "",
        said.get("effort", ""),
        said.get("sides", ""),
    ]
    return ", ".join(part for part in parts if part)
