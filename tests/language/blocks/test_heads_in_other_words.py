"""Which columns has a table whose head is in another language, in words of the coach's own, or begins with the day's name?"""

from __future__ import annotations

import pytest

from bot.language.blocks import read_block
from bot.training.exercises.catalogue import load_catalogue
from scenarios.blocks.gold import tell

CATALOGUE = load_catalogue()


@pytest.mark.parametrize(
    ("table", "expected"),
    [
        pytest.param(
            "Dzień;Ćwiczenie;Serie;Powtórzenia;Przerwa\nPoniedziałek;Back squat;4;6;120 s\nCzwartek;Split squat;3;8 na nogę;60 s\n",
            ["day 1", "A1 back_squat : 4*6 rest 120", "day 2", "A1 split_squat each : 3*8 rest 60"],
            id="Polish heads and weekdays",
        ),
        pytest.param(
            "Dag;Övning;Set;Reps;Vila;Anteckningar\nMåndag;Back squat;4;6;120 s;\nTorsdag;Split squat;3;8 per ben;60 s;annars: step-up\n",
            ["day 1", "A1 back_squat : 4*6 rest 120", "day 2", "A1 split_squat each : 3*8 rest 60 or step-up"],
            id="Swedish, with a substitute among the notes",
        ),
        pytest.param(
            "Foo;Bar;Baz;Qux\nMon;Back squat;4x6;2 min\nFri;Split squat;3x8 each leg;60 s\n;Plank;3x30 s;45 s\n",
            ["day 1", "A1 back_squat : 4*6 rest 120", "day 2", "A1 split_squat each : 3*8 rest 60", "B1 plank : 3*30s rest 45"],
            id="heads that say nothing, columns that do",
        ),
        pytest.param(
            "Lower;Warm-up;Set 1;Set 2;Pause\n1 Back squat;8 @ 40%;8 @ 60%;6 @ 70%;2 min\n2 1 arm dumbbell row;;10;10;60 s\n"
            "Upper;Warm-up;Set 1;Set 2;Pause\n1 Push-up;;max;max;60 s\n",
            [
                *("day 1 Lower", "A1 back_squat : warm8%40 8%60 6%70 rest 120", "B1 one_arm_dumbbell_row : 2*10 rest 60"),
                *("day 2 Upper", "A1 push_up : 2*amrap rest 60"),
            ],
            id="heads that begin with the day's name",
        ),
    ],
)
def test_a_table_is_read_by_its_heads_or_by_its_cells(table: str, expected: list[str]) -> None:
    reading = read_block(table.encode(), filename="plan.csv", catalogue=CATALOGUE)

    assert reading.block is not None, [problem.sentence for problem in reading.problems]
    assert tell(reading.block) == expected
