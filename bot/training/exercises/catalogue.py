"""Which exercises are known? Reads the data files beside this module into values and an index of names.

A data file is TOML. A top table is a family: its plain keys are what the entries below share, its sub-tables are the entries, and
an entry's own key replaces the shared one. Lists are written as one string, in single quotes where there is no apostrophe: a line
then reads like a line, and the standard library's reader takes half the time.
The head of data/squat.toml teaches the format by an example.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property, lru_cache
from importlib.resources import files
from typing import Any, TypeVar

from bot.training.blocks import ExerciseId, Measure
from bot.training.exercises.entry import Exercise, FirstPhase, LoadStyle, Pattern, Plane
from bot.training.exercises.folding import word_set
from bot.training.exercises.names import NameIndex
from bot.training.kit import KitItem

KEYS = word_set("""names pattern prime helping joints moves kit load first measure sides plane grade easier harder quiet room
    tempo cues family source""")
NO_KIT = "nothing"
_USUAL_GRADE = "5 3 3"
_GRADE = re.compile(r"(?:10|[1-9]) [1-5] [1-5]")  # difficulty, stability, lever
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
    return Catalogue(tuple(exercise for path in paths for exercise in read_data(path.read_text("utf-8"), path.name)))


def read_data(text: str, filename: str) -> list[Exercise]:
    """Read one data file. Neighbours that it does not write are the family's nearest grades below and above.

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
        whole = {key: shared | own | {"family": family, "source": source} for key, own in entries.items()}
        where = {key: f"{filename} [{family}.{key}]" for key in entries}
        for key, fields in whole.items():
            _check_keys(fields, where[key])
        rungs = _rungs(whole)
        exercises += [_exercise(key, fields, rungs[key], where[key]) for key, fields in whole.items()]
    return exercises


def _rungs(entries: Mapping[str, Mapping[str, Any]]) -> dict[str, tuple[tuple[ExerciseId, ...], tuple[ExerciseId, ...]]]:
    """Each entry's neighbours (easier, harder): all entries of the family one difficulty below and above it."""
    by_level: dict[int, tuple[ExerciseId, ...]] = {}
    level_of = {key: int(str(fields.get("grade", _USUAL_GRADE)).split()[0]) for key, fields in entries.items()}
    for key, level in level_of.items():
        by_level[level] = (*by_level.get(level, ()), ExerciseId(key))
    ladder = ((), *(by_level[level] for level in sorted(by_level)), ())
    step = {level: place for place, level in enumerate(sorted(by_level), start=1)}
    return {key: (ladder[step[level] - 1], ladder[step[level] + 1]) for key, level in level_of.items()}


def _check_keys(fields: Mapping[str, Any], where: str) -> None:
    unknown = fields.keys() - KEYS
    if unknown:
        raise CatalogueFault(where, f"has unknown keys {sorted(unknown)}; known are {sorted(KEYS)}")
    if not _list(fields.get("names", ""), ";"):
        raise CatalogueFault(where, "has no names; write names = 'Name; other name'")
    if not _GRADE.fullmatch(fields.get("grade", _USUAL_GRADE)):
        raise CatalogueFault(
            where, f"grade {fields['grade']!r} must be difficulty 1-10, stability 1-5, lever 1-5, such as '6 3 2'"
        )


def _exercise(
    key: str, fields: Mapping[str, Any], rungs: tuple[tuple[ExerciseId, ...], tuple[ExerciseId, ...]], where: str
) -> Exercise:
    names = _list(fields["names"], ";")
    difficulty, stability, lever = map(int, fields.get("grade", _USUAL_GRADE).split())
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
        family=fields["family"],
        difficulty=difficulty,
        stability=stability,
        lever=lever,
        easier=tuple(map(ExerciseId, _list(fields["easier"]))) if "easier" in fields else rungs[0],
        harder=tuple(map(ExerciseId, _list(fields["harder"]))) if "harder" in fields else rungs[1],
        quiet=bool(fields.get("quiet", True)),
        room=str(fields.get("room", "stand")),
        tempo_note=str(fields.get("tempo", "")),
        cues=_list(fields.get("cues", ""), ";"),
        source=fields["source"],
    )


@lru_cache(maxsize=4096)  # a family's shared lines are read once
def _list(text: str, mark: str = ",") -> tuple[str, ...]:
    return tuple(part for part in map(str.strip, text.split(mark)) if part)


def _choice(kind: type[_E], word: str, where: str) -> _E:
    try:
        return kind(word)
    except ValueError:
        known = ", ".join(kind)
        raise CatalogueFault(where, f"{kind.__name__} {word!r} is none of {known}") from None


@lru_cache(maxsize=512)
def _kit(text: str, where: str) -> tuple[frozenset[KitItem], ...]:
    """Read "dumbbell + bench / barbell + rack / nothing": alternatives, each a set that suffices alone."""
    if text == NO_KIT:
        return ()
    ways = [way.strip() for way in text.split("/")]
    return tuple(_way(way, where) for way in ways)


def _way(way: str, where: str) -> frozenset[KitItem]:
    return frozenset() if way == NO_KIT else frozenset(_choice(KitItem, item.strip(), where) for item in way.split("+"))
