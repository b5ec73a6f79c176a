"""What is a substitute, and why is one wanted?"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from bot.training.blocks import ExerciseId, SetTarget
from bot.training.exercises.entry import Exercise
from bot.training.kit import Kit, KitItem
from bot.training.loads import Load


class Reason(StrEnum):
    """Why the exercise of the slot is not wanted now."""

    MISSING_KIT = "missing_kit"
    PAIN = "pain"
    TOO_HARD = "too_hard"
    TOO_EASY = "too_easy"
    NO_ROOM = "no_room"
    NOISE = "noise"
    TAKEN = "taken"  # the thing is there, but somebody else uses it
    WISH = "wish"  # no reason said


@dataclass(frozen=True, slots=True)
class Substitute:
    """One choice.

    why: short reasons, most telling first. change: what is different to do. by_coach: the coach wrote it beside the slot.
    likeness: 0 to 1, to the exercise of the slot. load: to begin with, None where unknown or none is needed.
    sets: the slot's prescription for this exercise; None when no slot was given. last_resort: far from the exercise of the slot.
    """

    exercise: ExerciseId
    name: str
    why: tuple[str, ...]
    change: tuple[str, ...] = ()
    by_coach: bool = False
    likeness: float = 0.0
    load: Load | None = None
    sets: tuple[SetTarget, ...] | None = None
    last_resort: bool = False


def can_do(exercise: Exercise, kit: Kit, missing: frozenset[KitItem] = frozenset()) -> frozenset[KitItem] | None:
    """The way of doing an exercise that this kit allows (an empty set: nothing is needed); None if there is none.

    missing: things that are not at hand now, owned or not.
    """
    if missing:
        kit = Kit(kit.items - missing)
    ways = exercise.kit or (frozenset(),)
    if not exercise.quiet and KitItem.BOX not in kit.items:
        ways = tuple(way for way in ways if KitItem.BOX not in way)  # nobody jumps onto a bench
    return next((way for way in ways if not kit.lacks(way) and not way & missing), None)
