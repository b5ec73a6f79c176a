"""What comes of reading a block or a change to one."""

from __future__ import annotations

from dataclasses import dataclass

from bot.language.problems import Problem
from bot.training.blocks import Block
from bot.training.changes import Change
from bot.training.exercises.names import NameMatch


@dataclass(frozen=True, slots=True)
class UnknownName:
    """An exercise name that the catalogue does not surely know: asked about once. slots: (day number, label) of each place."""

    name: str
    slots: tuple[tuple[int, str], ...]
    nearest: tuple[NameMatch, ...] = ()


@dataclass(frozen=True, slots=True)
class Understood:
    """How much was read: training days, slots, sets (warm-ups not counted)."""

    days: int = 0
    slots: int = 0
    sets: int = 0


@dataclass(frozen=True, slots=True)
class BlockReading:
    """block is None when any problem is an error: nothing half-read is kept. problems: in the order of the text."""

    block: Block | None
    problems: tuple[Problem, ...] = ()
    unknown: tuple[UnknownName, ...] = ()
    understood: Understood = Understood()

    @property
    def errors(self) -> tuple[Problem, ...]:
        return tuple(problem for problem in self.problems if problem.is_error)


@dataclass(frozen=True, slots=True)
class AmendmentReading:
    """block: the whole block as changed, None if any problem is an error or nothing was understood."""

    block: Block | None
    changes: tuple[Change, ...] = ()
    problems: tuple[Problem, ...] = ()
    unknown: tuple[UnknownName, ...] = ()
