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
    "day 1: drop A2": ["Day 1, A2 Push-up: taken out."],
    "take A2 out of day 1": ["Day 1, A2 Push-up: taken out."],
    "please leave out the push-ups on day 1": ["Day 1, A2 Push-up: taken out."],
    "drop B1": ["Day 2, B1 Plank: taken out."],
    "day 1: add B1 Plank 3x30s": ["Day 1, B1 Plank: new, 3 x 30 s."],
    "add B1 Plank 3x30s to day 1": ["Day 1, B1 Plank: new, 3 x 30 s."],
    "swap A1 day 1 for front squat": [
        "Day 1, A1 front squat: in place of Goblet squat.",
        "Day 1, A1 front squat: cues taken out (was ribs down).",
    ],
    "day 2: replace the plank with side plank": ["Day 2, B1 side plank: in place of Plank."],
    "make it 6 weeks": ["Block: length now 6 weeks (4 to 10) (was 4 weeks (4 to 10))."],
    "let's run it for six weeks": ["Block: length now 6 weeks (4 to 10) (was 4 weeks (4 to 10))."],
    "the block should be 12 weeks": ["Block: length now 12 weeks (4 to 12) (was 4 weeks (4 to 10))."],
    "day 1 add B1 Plank 3x30s": ["Day 1, B1 Plank: new, 3 x 30 s."],
}
WEEKLY = read_block("Day 1\nA1 Back squat\nweek 1: 3x10 RIR 3\nweek 2: 3x9\nweek 4: 2x8\n", catalogue=CATALOGUE).block
CHANGES_OF_WEEKS = {
    "day 1 A1 week 2: 4x9": ["Day 1, A1 Back squat: sets from week 2 on now 4 x 9 reps (was 3 x 9 reps)."],
    "day 1 A1 week 3: 4x8": ["Day 1, A1 Back squat: sets from week 3 on now 4 x 8 reps (was 3 x 9 reps)."],
    "day 1 A1: 5x5": [
        "Day 1, A1 Back squat: sets now 5 x 5 reps, RIR 3 (was 3 x 10 reps, RIR 3).",
        "Day 1, A1 Back squat: sets from week 2 on now 5 x 5 reps, RIR 3 (was 3 x 9 reps).",
        "Day 1, A1 Back squat: sets from week 4 on now 5 x 5 reps, RIR 3 (was 2 x 8 reps).",
    ],
    "day 1 A1 set 3: 6 reps": [  # week 4 has no third set, and stays
        "Day 1, A1 Back squat: set 3 now 6 reps, RIR 3 (was 10 reps, RIR 3).",
        "Day 1, A1 Back squat: sets from week 2 on now 2 x 9 reps; 1 x 6 reps (was 3 x 9 reps).",
    ],
}
SLOW = read_block("Day 1\nA1 Goblet squat 3x10 @ 3-1-1-0, RIR 2\nA2 Plank 3x30s @ 16kg\n", catalogue=CATALOGUE).block
CHANGES_THAT_KEEP = {
    "day 1 A1: 4x6-8": "sets now 4 x 6-8 reps, tempo 3-1-1-0, RIR 2 (was 3 x 10 reps, tempo 3-1-1-0, RIR 2).",
    "day 1 A1: 4x6-8 @ 2-0-2-0": "sets now 4 x 6-8 reps, tempo 2-0-2-0, RIR 2 (was 3 x 10 reps, tempo 3-1-1-0, RIR 2).",
    "day 1 A1: 4x6-8 RPE 9": "sets now 4 x 6-8 reps, tempo 3-1-1-0, RPE 9 (was 3 x 10 reps, tempo 3-1-1-0, RIR 2).",
}
MISTAKES = {
    "drop A1": "It may be meant of day 1, 2; name the day as well, like: day 1: drop B1.",
    "add C1 Plank 3x30s": "It may be meant of day 1, 2; name the day as well, like: day 1: drop B1.",
    "make it 40 weeks": "40 weeks cannot be; write 1 to 16 weeks.",
    "make it 4 weeks": "That changes nothing: the block has 4 weeks already; write another number of weeks.",
    "day 1: drop C3": "The block, slot C3: there is no C3 on day 1; name the day and the slot that are there.",
    "day 9 A1 3x8": "The block, slot A1: there is no A1 on day 9; name the day and the slot, like: day 2 A1: 4x8-10.",
    "day 1 A2 3x": 'The block, slot A2: "3x" is half of a prescription; write sets x reps, such as 3x10.',
}


@pytest.mark.parametrize("text", CHANGES)
def test_a_change_says_just_what_is_different(text: str) -> None:
    assert BLOCK is not None

    reading = read_amendment(text, BLOCK, catalogue=CATALOGUE)

    assert [change.sentence for change in reading.changes] == CHANGES[text]


@pytest.mark.parametrize("text", CHANGES_OF_WEEKS)
def test_a_change_of_a_slot_with_weeks_says_which_weeks_are_different(text: str) -> None:
    assert WEEKLY is not None

    reading = read_amendment(text, WEEKLY, catalogue=CATALOGUE)

    assert [change.sentence for change in reading.changes] == CHANGES_OF_WEEKS[text]


@pytest.mark.parametrize("text", CHANGES_THAT_KEEP)
def test_what_is_not_said_of_a_set_stays(text: str) -> None:
    assert SLOW is not None

    reading = read_amendment(text, SLOW, catalogue=CATALOGUE)

    assert [change.sentence for change in reading.changes] == [f"Day 1, A1 Goblet squat: {CHANGES_THAT_KEEP[text]}"]


@pytest.mark.parametrize("text", MISTAKES)
def test_a_change_that_cannot_be_read_leaves_the_block_alone(text: str) -> None:
    assert BLOCK is not None

    reading = read_amendment(text, BLOCK, catalogue=CATALOGUE)

    assert reading.block is None
    assert [problem.sentence for problem in reading.problems] == [MISTAKES[text]]
