"""Exercises of a coach's own: kept by name for the group, so that its catalogue knows them."""

from __future__ import annotations

import re
from dataclasses import replace

from bot.coaching.scene import Scene
from bot.training import people
from bot.training.blocks import ExerciseId
from bot.training.exercises.entry import Exercise, FirstPhase, LoadStyle, Pattern
from bot.training.plain import to_plain

_LONGEST_ID = 80  # the column's


def own_id(name: str) -> ExerciseId:
    """The id under which an exercise of the coach's own is kept: "Towel row" -> own:towel_row."""
    return ExerciseId(("own:" + re.sub(r"\W+", "_", name.casefold()).strip("_"))[:_LONGEST_ID])


def remember_name(scene: Scene, group_id: people.GroupId, name: str, exercise: ExerciseId, entry: Exercise | None = None) -> None:
    """From now on this name means this exercise in the group; entry: where it is the coach's own."""
    known = scene.uow.own_names.newest(group_id=group_id, name=name)
    value = people.OwnName(group_id=group_id, name=name, exercise=exercise, entry=to_plain(entry) if entry else {})
    if known:
        scene.uow.own_names.save(replace(value, id=known.id, demo=known.demo))
    else:
        scene.uow.own_names.add(value)


def of_pattern(name: str, pattern: Pattern, model: Exercise | None) -> Exercise:
    """An exercise of the coach's own, with the muscles and joints of another of its pattern."""
    return Exercise(
        id=own_id(name), name=name, pattern=pattern, prime=model.prime if model else (), helping=model.helping if model else (),
        joints=model.joints if model else (), kit=(), load_style=LoadStyle.SINGLE, first_phase=FirstPhase.ECCENTRIC,
        source="the coach's own; muscles as usual for its pattern",
    )  # fmt: skip


def stand_in_for(name: str, instead_of: Exercise | None) -> Exercise:
    """What is known of a substitute of the coach's own: it does the work of the exercise it stands for, counted and told alike.

    Its kit, load and cues are not known: nothing is asked of the kit, and no load is carried over.
    """
    if instead_of is None:  # no muscles: it counts for none
        return replace(of_pattern(name, Pattern.CONDITIONING, None), source="the coach's own; nothing known but its name")
    entry = of_pattern(name, instead_of.pattern, instead_of)
    return replace(
        entry, load_style=instead_of.load_style, first_phase=instead_of.first_phase, measure=instead_of.measure,
        one_sided=instead_of.one_sided, plane=instead_of.plane, difficulty=instead_of.difficulty, stability=instead_of.stability,
        lever=instead_of.lever, quiet=instead_of.quiet, room=instead_of.room, source=f"the coach's own; taken to work as {instead_of.name} does",
    )  # fmt: skip
