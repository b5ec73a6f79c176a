"""A slot of a block while its lines come in: what was said of it, in order, and what is wrong with it."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any

from bot.language.blocks.scan import Clauses, Scheme
from bot.language.problems import Place, Problem, error, quoted, warning
from bot.training.blocks import Measure, Rest, SetKind


@dataclass(frozen=True, slots=True)
class SetLine:
    """A line of its own for one set: "Set 2: 8 reps, tempo 3-1-1-0"; number None for warm-ups."""

    number: int | None
    kind: SetKind
    said: Clauses
    place: Place
    note: str = ""


@dataclass(frozen=True, slots=True)
class Growth:
    """So much more each week. back: weeks that begin again, with their count (None: that of week 1)."""

    more: int
    measure: Measure
    back: tuple[tuple[int, int | None], ...] = ()


@dataclass(slots=True)
class SlotDraft:
    """A slot while its lines come in. said: (clauses, place) and set lines, in order."""

    place: Place
    label: str
    name: str
    said: list[tuple[Clauses, Place] | SetLine] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    fields: dict[str, Any] = field(default_factory=dict)
    rounds: int | None = None  # sets said once for a whole superset or circuit
    kind: SetKind = SetKind.WORK
    measure: Measure | None = None  # the exercise's own, for counts without a unit
    default: Scheme | None = None  # what a heading such as "20 s on, 40 s off x 4" gives every exercise below it
    weeks: dict[int, list[tuple[Clauses, Place] | SetLine]] = field(default_factory=dict)
    rests: dict[int, Rest] = field(default_factory=dict)  # of weeks after the first that have one of their own
    week: int | None = None  # the week that lines of single sets belong to now
    problems: list[Problem] = field(default_factory=list)
    grows: Growth | None = None
    has_label: bool = False  # the coach wrote one
    said_label: str = ""  # as the coach wrote it: "3"
    joins_next: bool = False  # "superset with next"
    is_copy: bool = False  # taken over from another day; a line of its own takes its place
    rests_later: bool = False  # the rest of its superset comes behind another exercise

    @property
    def has_sets(self) -> bool:
        return bool(self.weeks or self.default) or self.has_own_sets

    @property
    def has_own_sets(self) -> bool:
        """Are there sets that are not said for one week only?"""
        return any(isinstance(part, SetLine) or part[0].schemes or "set_count" in part[0].fields for part in self.said)

    def says(self, name: str) -> bool:
        """Is this wish about sets ("tempo", "rir") said anywhere?"""
        parts = [*self.said, *(part for parts in self.weeks.values() for part in parts)]
        said = [part.said if isinstance(part, SetLine) else part[0] for part in parts]
        return any(mark.field == name for clauses in said for mark in clauses.marks)

    def add(self, clauses: Clauses, place: Place) -> None:
        place = place.of_slot(self.label)
        self.said.append((clauses, place))
        self.problems += [error(place, found, wrong, instead) for _, found, wrong, instead in clauses.faults]
        self.problems += [warning(place, found, _worded(found, wrong), instead) for _, found, wrong, instead in clauses.doubts]
        merge_fields(self.fields, clauses.fields)

    def add_week(self, week: int, clauses: Clauses, place: Place, *, rests_so: bool = True) -> None:
        """Sets and wishes of one week; a cue said beside them holds for the slot, and so does a rest unless rests_so."""
        place = place.of_slot(self.label)
        self.weeks.setdefault(week, []).append((clauses, place))
        self.problems += [error(place, found, wrong, instead) for _, found, wrong, instead in clauses.faults]
        self.problems += [warning(place, found, _worded(found, wrong), instead) for _, found, wrong, instead in clauses.doubts]
        kept = {
            name: value
            for name, value in clauses.fields.items()
            if name != "set_count" and (name != "rest" or week == 1 or not rests_so)
        }
        merge_fields(self.fields, kept)
        if week > 1 and rests_so and "rest" in clauses.fields:
            self.rests[week] = clauses.fields["rest"]

    def add_set_line(self, line: SetLine) -> None:
        place = line.place.of_slot(self.label)
        line = replace(line, place=place)
        (self.said if self.week is None else self.weeks.setdefault(self.week, [])).append(line)
        self.problems += [error(place, found, wrong, instead) for _, found, wrong, instead in line.said.faults]
        self.problems += [warning(place, found, _worded(found, wrong), instead) for _, found, wrong, instead in line.said.doubts]
        merge_fields(self.fields, line.said.fields)


def _worded(found: str, wrong: str) -> str:
    return f"{quoted(found)} {wrong}" if wrong.startswith("is ") else wrong


_ADDING = frozenset({"substitutes", "cues"})


def merge_fields(into: dict[str, Any], fields: dict[str, Any]) -> None:
    for name, value in fields.items():
        if name in _ADDING:
            into[name] = (*into.get(name, ()), *value)
        elif name == "note" and into.get("note"):
            into["note"] = f"{into['note']}; {value}"
        elif name == "load_rule" and "load_rule" in into:
            continue
        else:
            into[name] = value
