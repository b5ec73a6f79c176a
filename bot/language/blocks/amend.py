"""Which part of a published block does a coach change, and to what?

"day 2 A1: 4x8-10 @ 3-1-1-0"        that slot's prescription; its name, cues and substitutes stay
"B2 day 3 swap to ring row 3x8"      another exercise in that slot
"day 1 A1: rest 90s", "A1 set 2: 8"  just that; the rest of the slot stays
"day 1 add B2 plank 3x30s"           one more slot        "remove day 1 B2"   one less
"day 5:" and a whole day below it    the whole day
"make it 6 weeks"                    the block's length

Everyday words ("day 1: drop B1") are put into these forms first. What is not said anew of a set's tempo, effort or load stays.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from bot.language.blocks.amend_words import in_short, lacks_its_day, weeks_said
from bot.language.blocks.clauses import read_clauses
from bot.language.blocks.letters import even
from bot.language.blocks.results import AmendmentReading, UnknownName
from bot.language.blocks.slot_draft import SlotDraft
from bot.language.blocks.slots import finish
from bot.language.blocks.typed import read_typed
from bot.language.blocks.weeks import WeekPart, split_weeks
from bot.language.blocks.written import slot_lines
from bot.language.problems import Place, error
from bot.training.blocks import Block, Day, ExerciseId, Rest, SetKind, SetTarget, Slot, with_weeks
from bot.training.changes import changes_between
from bot.training.exercises.catalogue import Catalogue

_ONE = re.compile(
    r"^\s*(?:change\s+)?(?:day\s*(?P<day>\d+)\s*[,:]?\s*(?P<label>[A-Za-z]\d)|(?P<label2>[A-Za-z]\d)\s*(?:on|of|,)?\s*day\s*(?P<day2>\d+)|(?P<label3>[A-Za-z]\d))"
    r"\s*(?:[:=,-]+>?|→|to\b)?\s*(?P<swap>(?:swap|change|switch)(?:ped)?\s+(?:to|for)\s+)?(?P<what>.+)$",
    re.IGNORECASE | re.DOTALL,
)
_ADD = re.compile(r"^\s*(?:add\s+(?:to\s+)?)?day\s*(?P<day>\d+)\s*[:,]?\s*(?:add\s+)?(?P<line>[A-Za-z]\d\s+.+)$", re.IGNORECASE)
_REMOVE = re.compile(
    r"^\s*(?:(?:remove|delete|take out|leave out)\s+(?:day\s*(?P<day>\d+)\s*[,:]?\s*(?P<label>[A-Za-z]\d)|(?P<label2>[A-Za-z]\d)\s*(?:on|of|from|,)?\s*day\s*(?P<day2>\d+))"
    r"|day\s*(?P<day3>\d+)\s*[,:]?\s*(?P<label3>[A-Za-z]\d)\s*:?\s*(?:remove|delete|take out|leave out))[.!]?\s*$",
    re.IGNORECASE,
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
    if (weeks := weeks_said(text)) is not None:
        return _of_length(block, weeks)
    text = in_short(text, block)
    whole = _DAY.match(text)
    if whole:
        return _whole_day(text, int(whole["day"]), block, catalogue, own_names)
    gone = _REMOVE.match(text)
    if gone:
        return _without(
            block, int(gone["day"] or gone["day2"] or gone["day3"]), (gone["label"] or gone["label2"] or gone["label3"]).upper()
        )
    more = _ADD.match(text)
    if more and re.search(r"\badd\b", text, re.IGNORECASE):
        return _with_slot(block, int(more["day"]), more["line"], catalogue, own_names)
    if lacks_its_day(text):
        days = ", ".join(str(each.number) for each in block.days)
        wrong = f"it may be meant of day {days}" if len(block.days) > 1 else "there is no such slot"
        return AmendmentReading(None, (), (error(Place(), text, wrong, "name the day as well, like: day 1: drop B1"),))
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
    before, weeks = split_weeks(even(what))
    if weeks and not re.search(r"\w", before):
        return _weeks_of_slot(weeks, slot, day, block)
    named = swaps or (
        bool(re.match(r"[A-Za-z]{3,}", what))
        and not re.match(r"(?:tempo|rest|rpe|rir|amrap|each|per|sets?|reps?)\b", what, re.IGNORECASE)
    )
    has_sets = bool(re.search(r"\d\s*[x×]|\bamrap\b|\d\s+sets", what, re.IGNORECASE))
    if (
        not has_sets
        and not swaps
        and (not named or re.match(r"(?:cues?|subs?|notes?|grip|kit|demo|tempo|load)\s*:", what, re.IGNORECASE))
    ):
        return _part_in_each_week(what, slot, day, block, catalogue, own_names)
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
        sets=_kept(new.sets, slot.sets) if has_sets and not named else new.sets if has_sets or not named else slot.sets,
        weeks=new.weeks if has_sets or not named else slot.weeks,
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


# What a set keeps of what stood there before, where the change says nothing about it. One wish for effort takes the other's place.
_KEPT = (("tempo",), ("rir", "rpe"), ("load", "percent_1rm"))


def _kept(new: tuple[SetTarget, ...], old: tuple[SetTarget, ...]) -> tuple[SetTarget, ...]:
    """The new sets, each with the tempo, effort and load of the set in its place (the last one's beyond them) unless said anew."""
    work = [target for target in old if target.kind is SetKind.WORK]
    said = {
        field for fields in _KEPT if any(getattr(one, name) is not None for one in new for name in fields) for field in fields
    }
    kept: list[SetTarget] = []
    for target in new:
        if target.kind is not SetKind.WORK or not work or target.measure is not work[0].measure:
            kept.append(target)
            continue
        before = work[min(sum(one.kind is SetKind.WORK for one in kept), len(work) - 1)]
        kept.append(replace(target, **{name: getattr(before, name) for fields in _KEPT for name in fields if name not in said}))
    return tuple(kept)


_LONGEST_WEEKS = 16  # longer is no block any more (our choice; ten is the usual most)


def _of_length(block: Block, weeks: int) -> AmendmentReading:
    named = max((change.week for day in block.days for slot in day.slots for change in slot.weeks), default=1)
    if not 1 <= weeks <= _LONGEST_WEEKS or weeks < named:
        wrong = f"{weeks} weeks cannot be" if weeks >= named else f"the block says its sets up to week {named}"
        least = f"write {max(named, 1)} to {_LONGEST_WEEKS} weeks"
        return AmendmentReading(None, (), (error(Place(), str(weeks), wrong, least),))
    changed = replace(block, weeks_default=weeks, weeks_min=min(block.weeks_min, weeks), weeks_max=max(block.weeks_max, weeks))
    changes = changes_between(block, changed)
    if not changes:
        wrong = f"that changes nothing: the block has {weeks} weeks already"
        return AmendmentReading(None, (), (error(Place(), str(weeks), wrong, "write another number of weeks"),))
    return AmendmentReading(changed, changes, ())


def _weeks_of_slot(weeks: tuple[WeekPart, ...], slot: Slot, day: Day, block: Block) -> AmendmentReading:
    """ "day 1 A1 week 3: 4x8": the sets from that week on, until the next week that the block names."""
    draft = SlotDraft(Place(slot=slot.label), slot.label, slot.exercise_name)
    for part in weeks:
        draft.add_week(part.week, part.said, Place())
    new = finish(draft, kit_of=lambda _: frozenset(), later=True)
    if any(problem.is_error for problem in draft.problems):
        return AmendmentReading(None, (), tuple(draft.problems))
    by_week = (
        {1: slot.sets} | {change.week: change.sets for change in slot.weeks} | {change.week: change.sets for change in new.weeks}
    )
    return _with_day(block, _with_slot_in(day, with_weeks(slot, by_week, _rests(slot) | draft.rests)), ())


def _rests(slot: Slot) -> dict[int, Rest]:
    return {change.week: change.rest for change in slot.weeks if change.rest is not None}


def _part_in_each_week(
    what: str, slot: Slot, day: Day, block: Block, catalogue: Catalogue, own_names: Mapping[str, ExerciseId]
) -> AmendmentReading:
    """A wish about some part of a slot holds for all its weeks; a week whose sets it does not fit stays as it is."""
    reading = _part_of_slot(what, replace(slot, weeks=()), day, block, catalogue, own_names)
    first = reading.block.day(day.number) if reading.block else None
    changed = first.slot(slot.label) if first else None
    if changed is None or not slot.weeks:
        return reading
    by_week = {1: changed.sets}
    for change in slot.weeks:
        again = _part_of_slot(what, replace(slot, sets=change.sets, weeks=()), day, block, catalogue, own_names)
        there = again.block.day(day.number) if again.block else None
        found = there.slot(slot.label) if there else None
        grows = found is not None and len(found.sets) - len(change.sets) != len(changed.sets) - len(slot.sets)
        by_week[change.week] = found.sets if found and not grows else change.sets
    return _with_day(block, _with_slot_in(day, with_weeks(changed, by_week, _rests(slot))), ())


def _with_slot_in(day: Day, slot: Slot) -> Day:
    return replace(day, slots=tuple(slot if each.label == slot.label else each for each in day.slots))


def _part_of_slot(
    what: str, slot: Slot, day: Day, block: Block, catalogue: Catalogue, own_names: Mapping[str, ExerciseId]
) -> AmendmentReading:
    """The slot as it is written, without what is said anew, and below it the coach's words."""
    said = read_clauses(what, has_name=False)
    anew = {mark.field for mark in said.marks if mark.which is None}
    anew_some = {mark.field for mark in said.marks if mark.which is not None and mark.field in ("tempo", "drops")}
    plain = SetTarget()
    sets = tuple(replace(target, **{name: getattr(plain, name) for name in anew}) for target in slot.sets)
    base = replace(slot, sets=sets)
    if "cues" in said.fields:
        base = replace(base, cues=())
    if "substitutes" in said.fields:
        base = replace(base, substitutes=())
    if "drops" in anew_some:
        base = replace(base, sets=tuple(replace(target, drops=()) for target in base.sets))
    own = {**own_names, **({slot.exercise_name: slot.exercise} if slot.exercise else {})}
    reading = read_typed("\n".join(["Day 1", *slot_lines(base), what]), catalogue=catalogue, own_names=own)
    if reading.block is None or len(reading.block.days[0].slots) != 1:
        problems = tuple(replace(problem, where=Place(slot=slot.label)) for problem in reading.problems if problem.is_error)
        return AmendmentReading(
            None, (), problems or (error(Place(slot=slot.label), what, "this is no change that I can read", _LIKE),)
        )
    new = replace(reading.block.days[0].slots[0], label=slot.label)
    return _with_day(block, replace(day, slots=tuple(new if each.label == slot.label else each for each in day.slots)), ())


_LIKE = "write it like: day 2 A1: 4x8-10 @ 3-1-1-0"


def _without(block: Block, number: int, label: str) -> AmendmentReading:
    day = block.day(number)
    if day is None or day.slot(label) is None:
        wrong = f"there is no {label} on day {number}"
        return AmendmentReading(None, (), (error(Place(slot=label), label, wrong, "name the day and the slot that are there"),))
    if len(day.slots) == 1:
        wrong = f"{label} is all there is on day {number}"
        return AmendmentReading(
            None, (), (error(Place(slot=label), label, wrong, "write the whole day anew, or send a new block"),)
        )
    return _with_day(block, replace(day, slots=tuple(slot for slot in day.slots if slot.label != label)), ())


def _with_slot(
    block: Block, number: int, line: str, catalogue: Catalogue, own_names: Mapping[str, ExerciseId]
) -> AmendmentReading:
    day = block.day(number)
    reading = read_typed(f"Day 1\n{line}", catalogue=catalogue, own_names=own_names)
    if day is None or reading.block is None:
        there = () if day else (error(Place(), line, f"the block has no day {number}", f"days go from 1 to {len(block.days)}"),)
        return AmendmentReading(None, (), (*there, *reading.problems), reading.unknown)
    new = reading.block.days[0].slots[0]
    if day.slot(new.label):
        wrong = f"{new.label} is there already on day {number}"
        return AmendmentReading(
            None, (), (error(Place(slot=new.label), line, wrong, "take the next free label, or leave out the word add"),)
        )
    slots = tuple(
        sorted((*day.slots, new), key=lambda slot: (len(slot.group), slot.group, int(slot.label[len(slot.group) :] or 0)))
    )
    return _with_day(
        block, replace(day, slots=slots), tuple(replace(name, slots=((number, new.label),)) for name in reading.unknown)
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


def _with_day(block: Block, day: Day, unknown: tuple[UnknownName, ...]) -> AmendmentReading:
    changed = replace(block, days=tuple(day if each.number == day.number else each for each in block.days))
    changes = changes_between(block, changed)
    if not changes:
        return AmendmentReading(
            None, (), (error(Place(), "", "that changes nothing: the block reads so already", "check the day and the slot"),)
        )
    return AmendmentReading(changed, changes, (), unknown)
