"""A kept answer goes to who asks the same, seldom to who asks something else: counted on pairs, half of them put aside."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.language.alike import SURELY_ALIKE, best_match, likeness

HERE = Path(__file__).parent
# Of each half: the least that get their kept answer at once, and the most that get one to another question. The pairs that ask
# something else are near misses by design ("before" for "after", gloves for shoes); each costs one press of a button.
FLOORS = {"alike_tuned.txt": (0.6, 0.12), "alike_aside.txt": (0.45, 0.1)}


def pairs(name: str) -> list[tuple[bool, str, str]]:
    lines = (HERE / name).read_text(encoding="utf-8").splitlines()
    parts = [line.split(" | ") for line in lines if line.strip() and not line.startswith("#")]
    return [(same == "yes", kept, asked) for same, kept, asked in parts]


@pytest.mark.parametrize("name", FLOORS)
def test_kept_answers_go_to_who_asks_the_same(name: str) -> None:
    same = [(likeness(asked, kept), kept, asked) for wanted, kept, asked in pairs(name) if wanted]
    other = [(likeness(asked, kept), kept, asked) for wanted, kept, asked in pairs(name) if not wanted]
    answered = [pair for pair in same if pair[0] >= SURELY_ALIKE]
    wrongly = [pair for pair in other if pair[0] >= SURELY_ALIKE]
    least, most = FLOORS[name]

    assert len(answered) >= least * len(same), sorted(same)
    assert len(wrongly) <= most * len(other), wrongly


def test_there_are_as_many_pairs_as_are_said() -> None:
    assert sum(len(pairs(name)) for name in FLOORS) >= 60


def test_the_likeliest_of_several_kept_questions_is_taken() -> None:
    kept = ("can I run on rest days?", "which shoes are best for training?", "should I wear a belt?")

    found = best_match("what shoes do I train in", kept)

    assert found is not None
    assert found.index == 1
