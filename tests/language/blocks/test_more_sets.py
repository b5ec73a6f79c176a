"""Which sets come on top in later weeks, where the coach says it once above the days?"""

from __future__ import annotations

import pytest

from bot.language.blocks import read_block
from bot.training.exercises.catalogue import load_catalogue
from scenarios.blocks.gold import tell

CATALOGUE = load_catalogue()
FIRST, SECOND = "A1 back_squat : 4*5", "B1 ring_row : 3*10"


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        pytest.param("For weeks 3 and 4, add 1 set to number 1 of every day!", [FIRST, "  week 3 : 5*5", SECOND], id="the first"),
        pytest.param(
            "Weeks 2-3: add a set to the first exercise of each day",
            [FIRST, "  week 2 : 5*5", "  week 4 : 4*5", SECOND],
            id="and back again",
        ),
        pytest.param(
            "From week 3 on do 1 extra set on all exercises",
            [FIRST, "  week 3 : 5*5", SECOND, "  week 3 : 4*10"],
            id="all",
        ),
        pytest.param("Add a set to the shrugs in week 2", [FIRST, SECOND], id="of an exercise that is not there"),
    ],
)
def test_sets_on_top_are_written_out_for_their_weeks(said: str, expected: list[str]) -> None:
    reading = read_block(f"Block 12, 4 weeks\n{said}\n\nDay 1\n1. Back squat 4x5\n2. Ring row 3x10\n", catalogue=CATALOGUE)

    assert reading.block is not None, [problem.sentence for problem in reading.problems]
    assert tell(reading.block) == ["day 1", *expected]
