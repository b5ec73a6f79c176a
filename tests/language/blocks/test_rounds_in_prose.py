"""What do a pair of exercises in one sentence, and changes in the lines below a repeated day, mean?"""

from __future__ import annotations

import pytest

from bot.language.blocks import read_block
from bot.training.exercises.catalogue import load_catalogue
from scenarios.blocks.gold import tell

CATALOGUE = load_catalogue()
MONDAY = "MON\nA1 Back squat 3x5, rest 2 min\nB1 Ring row 3x10, rest 60 s\nC1 Copenhagen plank 2x20 s, rest 45 s\n"


def _told(text: str) -> list[str]:
    reading = read_block(text, catalogue=CATALOGUE)
    assert reading.block is not None, [problem.sentence for problem in reading.problems]
    return tell(reading.block)


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        pytest.param(
            "4 rounds: trap bar deadlift x 5 into box jump x 3, 2 mins",
            ["A1 trap_bar_deadlift : 4*5", "A2 box_jump : 4*3 rest 120"],
            id="rounds first",
        ),
        pytest.param(
            "Split squat x 8 a leg and dead bugs x 6, 3 rounds, 60 secs",
            ["A1 split_squat each : 3*8", "A2 dead_bug : 3*6 rest 60"],
            id="rounds behind",
        ),
        pytest.param(
            "4 rounds: push press x 6 into chin ups x max, 2 mins",
            ["A1 push_press : 4*6", "A2 chin_up : 4*amrap rest 120"],
            id="as many as possible, and the rest behind it",
        ),
    ],
)
def test_the_rest_behind_a_pair_is_that_of_its_second(line: str, expected: list[str]) -> None:
    assert _told(f"Day 1\n{line}\n") == ["day 1", *expected]


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        pytest.param(
            "- swap the ring row for pull ups x 6",
            ["A1 back_squat : 3*5 rest 120", "B1 pull_up : 3*6 rest 60", "C1 copenhagen_plank : 2*20s rest 45"],
            id="another exercise",
        ),
        pytest.param(
            "- no Copenhagens, do sled push 4 x 20 m, 90 secs",
            ["A1 back_squat : 3*5 rest 120", "B1 ring_row : 3*10 rest 60", "C1 sled_push : 4*20m rest 90"],
            id="another one in its place",
        ),
        pytest.param(
            "- back squat x 3 and ring row x 8 for 5 rounds",
            ["A1 back_squat : 5*3 rest 120", "B1 ring_row : 5*8 rest 60", "C1 copenhagen_plank : 2*20s rest 45"],
            id="other sets for two",
        ),
    ],
)
def test_lines_below_a_repeated_day_change_it(changes: str, expected: list[str]) -> None:
    assert _told(f"{MONDAY}\nTHU same as Mon only\n{changes}\n")[-3:] == expected
