"""What differs between two revisions is told place by place, and nothing else is told."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from bot.training.blocks import Block, Day, LoadRule, PolicyKind, Rest, SetKind, SetTarget, Sides, Slot
from bot.training.changes import changes_between
from bot.training.kit import KitItem
from bot.training.tempo import parse_tempo

TEN = SetTarget(10, 10)
SQUAT = Slot("A1", "Goblet squat", (TEN,) * 3, rest=Rest(60, 60), cues=("ribs down",))
PUSH = Slot("A2", "Push-up", (TEN,) * 2)
ROW = Slot("A1", "Ring row", (TEN,) * 2)
BLOCK = Block("Spring", (Day(1, "Legs", (SQUAT, PUSH)), Day(2, "Pull", (ROW,))))


def _with_squat(**changed: object) -> Block:
    return replace(BLOCK, days=(Day(1, "Legs", (replace(SQUAT, **changed), PUSH)), BLOCK.days[1]))  # type: ignore[arg-type]


def _with_day(day: Day) -> Block:
    return replace(BLOCK, days=(day, BLOCK.days[1]))


CHANGED = {
    "more sets": (_with_squat(sets=(TEN,) * 4), "Day 1, A1 Goblet squat: sets now 4 x 10 reps (was 3 x 10 reps)."),
    "one set": (
        _with_squat(sets=(TEN, replace(TEN, tempo=parse_tempo("3110")), TEN)),
        "Day 1, A1 Goblet squat: set 2 now 10 reps, tempo 3-1-1-0 (was 10 reps).",
    ),
    "a warm-up set before the others": (
        _with_squat(sets=(SetTarget(5, 5, kind=SetKind.WARM_UP), TEN, TEN)),
        "Day 1, A1 Goblet squat: sets now warm-up 1 x 5 reps; 2 x 10 reps (was 3 x 10 reps).",
    ),
    "effort of all sets": (
        _with_squat(sets=(replace(TEN, rir=Decimal(2)),) * 3),
        "Day 1, A1 Goblet squat: sets now 3 x 10 reps, RIR 2 (was 3 x 10 reps).",
    ),
    "another exercise": (_with_squat(exercise_name="Box squat"), "Day 1, A1 Box squat: in place of Goblet squat."),
    "the rest": (_with_squat(rest=Rest(90, 120)), "Day 1, A1 Goblet squat: rest now 90-120 s (was 60 s)."),
    "no rest any more": (_with_squat(rest=None), "Day 1, A1 Goblet squat: rest taken out (was 60 s)."),
    "the sides": (_with_squat(sides=Sides.EACH), "Day 1, A1 Goblet squat: sides now each side (was both together)."),
    "the load over the sets": (
        _with_squat(load_rule=LoadRule.RISES),
        "Day 1, A1 Goblet squat: load over the sets now rises (was free).",
    ),
    "an angle": (_with_squat(angle_deg=30), "Day 1, A1 Goblet squat: angle now 30°."),
    "the kit": (
        _with_squat(kit=frozenset({KitItem.DUMBBELL, KitItem.BENCH})),
        "Day 1, A1 Goblet squat: kit now bench; dumbbell.",
    ),
    "a substitute": (_with_squat(substitutes=("Box squat",)), "Day 1, A1 Goblet squat: substitutes now Box squat."),
    "the way to progress": (
        _with_squat(policy=PolicyKind.REPS_ONLY),
        "Day 1, A1 Goblet squat: way to progress now reps only (was usual).",
    ),
    "one more slot": (
        _with_day(Day(1, "Legs", (SQUAT, PUSH, Slot("B1", "Plank", (TEN,))))),
        "Day 1, B1 Plank: new, 1 x 10 reps.",
    ),
    "one slot less": (_with_day(Day(1, "Legs", (SQUAT,))), "Day 1, A2 Push-up: taken out."),
    "the day's name": (_with_day(Day(1, "Lower", (SQUAT, PUSH))), "Day 1: name now Lower (was Legs)."),
    "a warm-up": (_with_day(Day(1, "Legs", (SQUAT, PUSH), ("5 min walk",))), "Day 1: warm-up now 5 min walk."),
    "one more day": (
        replace(BLOCK, days=(*BLOCK.days, Day(3, "Arms", (replace(ROW, exercise_name="Curl"),)))),
        "Day 3: new: Arms: A1 Curl.",
    ),
    "one day less": (replace(BLOCK, days=BLOCK.days[:1]), "Day 2: taken out."),
    "the length": (replace(BLOCK, weeks_default=6), "Block: length now 6 weeks (4 to 10) (was 4 weeks (4 to 10))."),
    "the rhythm": (
        replace(BLOCK, rhythm=(True, False)),
        "Block: rhythm of on and off days now on, off (was on, on, on, off, on, on, off).",
    ),
}


@pytest.mark.parametrize("name", CHANGED)
def test_a_change_is_told_in_one_sentence(name: str) -> None:
    after, sentence = CHANGED[name]
    assert [change.sentence for change in changes_between(BLOCK, after)] == [sentence]


def test_the_same_block_has_no_changes() -> None:
    assert changes_between(BLOCK, BLOCK) == ()


def test_several_changes_are_told_in_the_order_of_the_block() -> None:
    after = replace(
        BLOCK,
        name="Summer",
        days=(Day(1, "Legs", (SQUAT, replace(PUSH, sets=(TEN,) * 3))), Day(2, "Pull", (replace(ROW, rest=Rest(60, 60)),))),
    )
    assert [(change.day, change.label, change.subject) for change in changes_between(BLOCK, after)] == [
        (None, "", "name"),
        (1, "A2", "sets"),
        (2, "A1", "rest"),
    ]
