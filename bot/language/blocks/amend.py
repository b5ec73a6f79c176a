"""Which part of a published block does a coach change, and to what?

"day 2 A1: 4x8-10 @ 3-1-1-0"        that slot's prescription; its name, cues and substitutes stay
"B2 day 3 swap to ring row 3x8"      another exercise in that slot
"day 5:" and a whole day below it    the whole day
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from bot.language.blocks.results import AmendmentReading
from bot.language.blocks.typed import read_typed
from bot.language.problems import Place, error
from bot.training.blocks import Block, Day, ExerciseId, Slot
from bot.training.changes import changes_between
from bot.training.exercises.catalogue import Catalogue

_ONE = re.compile(
    r"^\s*(?:change\s+)?(?:day\s*(?P<day>\d+)\s*[,:]?\s*(?P<label>[A-Za-z]\d)|(?P<label2>[A-Za-z]\d)\s*(?:on|of|,)?\s*day\s*(?P<day2>\d+)|(?P<label3>[A-Za-z]\d))"
    r"\s*(?:[:=,-]|to)?\s*(?P<swap>(?:swap|change|switch)(?:ped)?\s+(?:to|for)\s+)?(?P<what>.+)$",
    re.IGNORECASE | re.DOTALL,
)
_DAY = re.compile(r"^\s*day\s*(?P<day>\d+)\b[^\n]*\n(?P<rest>.+)$", re.IGNORECASE | re.DOTALL)


def read_amendment(
    text: str,
    block: Block,
    *,
    catalogue: Catalogue,
    own_names: Mapping[str, ExerciseId] = {},
    day: int | None = None,
) -> AmendmentReading:
    """Read a change to a block. day: where the text names none. Never raises."""
    whole = _DAY.match(text)
    if whole:
        return _whole_day(text, int(whole["day"]), block, catalogue, own_names)
    one = _ONE.match(text)
    if not one:
        return AmendmentReading(
            None, (), (error(Place(), text, "this is no change that I can read", "write it like: day 2 A1: 4x8-10 @ 3-1-1-0"),)
        )
    label = (one["label"] or one["label2"] or one["label3"]).upper()
    said = one["day"] or one["day2"]
    number = int(said) if said else day
    fitting = [each for each in block.days if each.slot(label) and number in (None, each.number)]
    if len(fitting) != 1:
        where = ", ".join(f"day {each.number}" for each in block.days if each.slot(label))
        wrong = (
            f"{label} stands on {where}"
            if where and number is None
            else f"there is no {label} on day {number}"
            if number
            else f"there is no {label}"
        )
        return AmendmentReading(
            None, (), (error(Place(slot=label), text, wrong, "name the day and the slot, like: day 2 A1: 4x8-10"),)
        )
    target = fitting[0]
    slot = target.slot(label)
    assert slot is not None
    return _one_slot(one["what"].strip(), bool(one["swap"]), slot, target, block, catalogue, own_names)


def _one_slot(
    what: str, swaps: bool, slot: Slot, day: Day, block: Block, catalogue: Catalogue, own_names: Mapping[str, ExerciseId]
) -> AmendmentReading:
    named = swaps or (
        bool(re.match(r"[A-Za-z]{3,}", what))
        and not re.match(r"(?:tempo|rest|rpe|rir|amrap|each|per|sets?|reps?)\b", what, re.IGNORECASE)
    )
    has_sets = bool(re.search(r"\d\s*[x×]|\bamrap\b|\d\s+sets", what, re.IGNORECASE))
    line = what if named else f"{slot.exercise_name} {what}"
    reading = read_typed(f"Day 1\n{slot.label} {line}", catalogue=catalogue, own_names=own_names)
    if named and not has_sets:
        reading = read_typed(f"Day 1\n{slot.label} {line} 1x1", catalogue=catalogue, own_names=own_names)
    if reading.block is None:
        return AmendmentReading(
            None, (), tuple(replace(problem, where=Place(slot=slot.label)) for problem in reading.problems), reading.unknown
        )
    new = reading.block.days[0].slots[0]
    changed = replace(
        slot,
        sets=new.sets if has_sets or not named else slot.sets,
        exercise_name=new.exercise_name if named else slot.exercise_name,
        exercise=new.exercise if named else slot.exercise,
        rest=new.rest or slot.rest,
        sides=new.sides if new.sides is not slot.sides and re.search(r"side|each|weak", what, re.IGNORECASE) else slot.sides,
        load_rule=new.load_rule if has_sets else slot.load_rule,
        substitutes=new.substitutes or (() if named else slot.substitutes),
        cues=new.cues or (() if named else slot.cues),
    )
    return _with_day(
        block, replace(day, slots=tuple(changed if each.label == slot.label else each for each in day.slots)), reading.unknown
    )


def _whole_day(
    text: str, number: int, block: Block, catalogue: Catalogue, own_names: Mapping[str, ExerciseId]
) -> AmendmentReading:
    old = block.day(number)
    if old is None:
        return AmendmentReading(
            None, (), (error(Place(), text, f"the block has no day {number}", f"days go from 1 to {len(block.days)}"),)
        )
    reading = read_typed(text, catalogue=catalogue, own_names=own_names)
    if reading.block is None or len(reading.block.days) != 1:
        return AmendmentReading(None, (), reading.problems, reading.unknown)
    new = reading.block.days[0]
    return _with_day(
        block, replace(new, number=number, name=new.name or old.name, warm_up=new.warm_up or old.warm_up), reading.unknown
    )


def _with_day(block: Block, day: Day, unknown: tuple) -> AmendmentReading:  # type: ignore[type-arg]
    changed = replace(block, days=tuple(day if each.number == day.number else each for each in block.days))
    changes = changes_between(block, changed)
    if not changes:
        return AmendmentReading(
            None, (), (error(Place(), "", "that changes nothing: the block reads so already", "check the day and the slot"),)
        )
    return AmendmentReading(changed, changes, (), unknown)
