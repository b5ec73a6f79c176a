"""A change to a published block touches what was said and nothing else."""

import pytest

from bot.language.blocks import read_amendment, read_block
from bot.training.exercises.catalogue import load_catalogue

CATALOGUE = load_catalogue()
BLOCK = read_block(
    "Day 1\nA1 Goblet squat 3x10 rest 60s\ncue: ribs down\nA2 Push-up 3x8\nDay 2\nA1 Ring row 3x8\nB1 Plank 3x30s\n",
    catalogue=CATALOGUE,
).block

CHANGES = {
    "day 2 A1: 4x8-10 @ 3-1-1-0": ["Day 2, A1 Ring row: sets now 4 x 8-10 reps, tempo 3-1-1-0 (was 3 x 8 reps)."],
    "B1 day 2 swap to side plank": ["Day 2, B1 side plank: in place of Plank."],
    "day 1 A1: rest 90s": ["Day 1, A1 Goblet squat: rest now 90 s (was 60 s)."],
    "day 1 A1 set 2: 8 reps": ["Day 1, A1 Goblet squat: set 2 now 8 reps (was 10 reps)."],
    "day 1 A1 cue: chest up": ["Day 1, A1 Goblet squat: cues now chest up (was ribs down)."],
    "remove day 1 A2": ["Day 1, A2 Push-up: taken out."],
    "day 1 add B1 Plank 3x30s": ["Day 1, B1 Plank: new, 3 x 30 s."],
}
MISTAKES = {
    "day 9 A1 3x8": "The block, slot A1: there is no A1 on day 9; name the day and the slot, like: day 2 A1: 4x8-10.",
    "day 1 A2 3x": 'The block, slot A2: "3x" is half of a prescription; write sets x reps, such as 3x10.',
}


@pytest.mark.parametrize("text", CHANGES)
def test_a_change_says_just_what_is_different(text: str) -> None:
    assert BLOCK is not None

    reading = read_amendment(text, BLOCK, catalogue=CATALOGUE)

    assert [change.sentence for change in reading.changes] == CHANGES[text]


@pytest.mark.parametrize("text", MISTAKES)
def test_a_change_that_cannot_be_read_leaves_the_block_alone(text: str) -> None:
    assert BLOCK is not None

    reading = read_amendment(text, BLOCK, catalogue=CATALOGUE)

    assert reading.block is None
    assert [problem.sentence for problem in reading.problems] == [MISTAKES[text]]
