"""Which exercises are known? Reads the data files beside this module into values and an index of names.

A data file is TOML. A top table is a family: its plain keys are what the entries below share, its sub-tables are the entries, and an
entry's own key replaces the shared one. Lists are written as one string, so that a line reads like a line and loads fast.
The head of data/squat.toml teaches the format by an example.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property, lru_cache
from importlib.resources import files
from typing import Any, TypeVar

from bot.training.blocks import ExerciseId, Measure
from bot.training.exercises.entry import Exercise, FirstPhase, LoadStyle, Pattern, Plane
from bot.training.exercises.names import NameIndex
from bot.training.kit import KitItem

KEYS = frozenset(
    "names pattern prime helping joints moves kit load first measure sides plane grade easier harder quiet room tempo cues".split()
)
NO_KIT = "nothing"
_E = TypeVar("_E", bound=StrEnum)


class CatalogueFault(ValueError):
    """A data file says something that cannot be. Names file and entry, and what to write instead."""

    def __init__(self, where: str, what: str) -> None:
        super().__init__(f"{where}: {what}")
        self.where, self.what = where, what


@dataclass(frozen=True)
class Catalogue:
    """Every exercise known, in the order of the files; a coach's own stand last."""

    all: tuple[Exercise, ...]

    @cached_property
    def by_id(self) -> Mapping[ExerciseId, Exercise]:
        return {exercise.id: exercise for exercise in self.all}

    @cached_property
    def names(self) -> NameIndex:
        return NameIndex(self.all)

    def get(self, exercise_id: ExerciseId | str | None) -> Exercise | None:
        return None if exercise_id is None else self.by_id.get(ExerciseId(exercise_id))

    def with_own(self, own: tuple[Exercise, ...]) -> Catalogue:
        """Add a coach's own exercises, or replace entries by the coach's version of them (same id); this one stays as it is."""
        if not own:
            return self
        theirs = {exercise.id: exercise for exercise in own}
        kept = tuple(theirs.pop(exercise.id, exercise) for exercise in self.all)
        return Catalogue((*kept, *theirs.values()))

    def __iter__(self) -> Iterator[Exercise]:
        return iter(self.all)

    def __len__(self) -> int:
        return len(self.all)


@lru_cache(maxsize=1)
def load_catalogue() -> Catalogue:
    """The catalogue that comes with the program, read once a process.

    Raises:
        CatalogueFault: a data file is wrong; the message names file and entry.
    """
    folder = files("bot.training.exercises") / "data"
    paths = sorted((path for path in folder.iterdir() if path.name.endswith(".toml")), key=lambda path: path.name)
    return Catalogue(linked(exercise for path in paths for exercise in read_data(path.read_text("utf-8"), path.name)))


def read_data(text: str, filename: str) -> list[Exercise]:
    """Read one data file. Neighbours that the file does not write are still empty: `linked` fills them in.

    Raises:
        CatalogueFault: not TOML, no source, or an entry that cannot be; the message names file and entry.
    """
    try:
        content = tomllib.loads(text)
    except tomllib.TOMLDecodeError as cause:
        raise CatalogueFault(filename, f"is not valid TOML: {cause}") from cause
    source = content.pop("source", "")
    if not source:
        raise CatalogueFault(filename, 'says no source; write source = "..." as its first line')
    exercises: list[Exercise] = []
    for family, table in content.items():
        if not isinstance(table, dict):
            raise CatalogueFault(f"{filename} [{family}]", "a family is a table, such as [squat]")
        shared = {key: value for key, value in table.items() if not isinstance(value, dict)}
        entries = {key: value for key, value in table.items() if isinstance(value, dict)}
        exercises += [_exercise(key, shared | own, family, filename, source) for key, own in entries.items()]
    return exercises


def linked(exercises: Iterable[Exercise]) -> tuple[Exercise, ...]:
    """Fill in neighbours: what a file leaves unsaid is the nearest rung below and above in the family, by difficulty."""
    everything = tuple(exercises)
    families: dict[str, list[Exercise]] = {}
    for exercise in everything:
        families.setdefault(exercise.family, []).append(exercise)
    return tuple(
        replace(
            exercise,
            easier=exercise.easier or _rung(exercise, families[exercise.family], below=True),
            harder=exercise.harder or _rung(exercise, families[exercise.family], below=False),
        )
        for exercise in everything
    )


def _rung(exercise: Exercise, family: list[Exercise], *, below: bool) -> tuple[ExerciseId, ...]:
    levels = [other.difficulty for other in family if (other.difficulty < exercise.difficulty) is below]
    levels = [level for level in levels if level != exercise.difficulty]
    if not levels:
        return ()
    nearest = max(levels) if below else min(levels)
    return tuple(other.id for other in family if other.difficulty == nearest)


def _exercise(key: str, fields: Mapping[str, Any], family: str, filename: str, source: str) -> Exercise:
    where = f"{filename} [{family}.{key}]"
    unknown = fields.keys() - KEYS
    if unknown:
        raise CatalogueFault(where, f"has unknown keys {sorted(unknown)}; known are {sorted(KEYS)}")
    names = _list(fields.get("names", ""), ";")
    if not names:
        raise CatalogueFault(where, 'has no names; write names = "Name; other name"')
    difficulty, stability, lever = _grade(str(fields.get("grade", "5 3 3")), where)
    return Exercise(
        id=ExerciseId(key),
        name=names[0],
        aliases=names[1:],
        pattern=_choice(Pattern, fields.get("pattern", ""), where),
        prime=_list(fields.get("prime", "")),
        helping=_list(fields.get("helping", "")),
        joints=_list(fields.get("joints", "")),
        joint_actions=_list(fields.get("moves", "")),
        kit=_kit(str(fields.get("kit", NO_KIT)), where),
        load_style=_choice(LoadStyle, fields.get("load", ""), where),
        first_phase=_choice(FirstPhase, fields.get("first", ""), where),
        measure=_choice(Measure, fields.get("measure", "reps"), where),
        one_sided=fields.get("sides", "both") == "one",
        plane=_choice(Plane, fields.get("plane", "sagittal"), where),
        family=family,
        difficulty=difficulty,
        stability=stability,
        lever=lever,
        easier=tuple(ExerciseId(name) for name in _list(fields.get("easier", ""))),
        harder=tuple(ExerciseId(name) for name in _list(fields.get("harder", ""))),
        quiet=bool(fields.get("quiet", True)),
        room=str(fields.get("room", "stand")),
        tempo_note=str(fields.get("tempo", "")),
        cues=_list(fields.get("cues", ""), ";"),
        source=source,
    )


def _list(text: str, mark: str = ",") -> tuple[str, ...]:
    return tuple(part for part in map(str.strip, text.split(mark)) if part)


def _choice(kind: type[_E], word: str, where: str) -> _E:
    try:
        return kind(word)
    except ValueError:
        known = ", ".join(kind)
        raise CatalogueFault(where, f"{kind.__name__} {word!r} is none of {known}") from None


def _kit(text: str, where: str) -> tuple[frozenset[KitItem], ...]:
    """Read "dumbbell + bench / barbell + rack / nothing": alternatives, each a set that suffices alone."""
    if text == NO_KIT:
        return ()
    ways = [way.strip() for way in text.split("/")]
    return tuple(
        frozenset() if way == NO_KIT else frozenset(_choice(KitItem, item.strip(), where) for item in way.split("+")) for way in ways
    )


def _grade(text: str, where: str) -> tuple[int, int, int]:
    """Read "6 3 2": difficulty 1 to 10, stability 1 to 5, lever 1 to 5."""
    numbers = tuple(int(word) for word in text.split() if word.isdigit())
    if len(numbers) != 3 or not (1 <= numbers[0] <= 10 and 1 <= numbers[1] <= 5 and 1 <= numbers[2] <= 5):
        raise CatalogueFault(where, f'grade {text!r} must be difficulty 1-10, stability 1-5, lever 1-5, such as "6 3 2"')
    return numbers[0], numbers[1], numbers[2]
