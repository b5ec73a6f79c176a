"""Substitutes against a coach's gold: floors for what is acceptable, none for what is wrong.

The gold is our own (tests/training/substitutes/*.txt, common practice). held_out.txt was written first and never tuned on.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from bot.training.exercises.catalogue import load_catalogue
from bot.training.substitutes import Reason, substitutes_for
from bot.training.substitutes.limits import strain
from tests.builders.substitute_corpus import KITS, Score, score

HERE = Path(__file__).parent


@cache
def scored(name: str) -> Score:
    return score(HERE / f"{name}.txt")


@pytest.mark.parametrize(("name", "first", "every"), [("cases", 0.98, 0.9), ("held_out", 0.9, 0.75)])
def test_the_first_choice_is_nearly_always_acceptable_and_so_are_most_triples(name: str, first: float, every: float) -> None:
    found = scored(name)

    assert found.first_good >= first * found.cases, "\n".join(found.listed)
    assert found.all_good >= every * found.cases, "\n".join(found.listed)


@pytest.mark.parametrize(("name", "most"), [("cases", 0.01), ("held_out", 0.03)])
def test_hardly_any_answer_would_puzzle_a_coach(name: str, most: float) -> None:
    found = scored(name)

    assert found.answers > 2 * found.cases
    assert found.wrong_answers <= most * found.answers, "\n".join(found.listed)


@pytest.mark.parametrize("kit", sorted(KITS))
@pytest.mark.parametrize("reason", list(Reason))
def test_over_the_whole_catalogue_no_hard_limit_is_ever_broken(kit: str, reason: Reason) -> None:
    owned = KITS[kit]
    for entry in load_catalogue():
        parts = ("knee", "lower back") if reason is Reason.PAIN else ()
        for one in substitutes_for(
            entry.id, kit=owned, reason=reason, catalogue=load_catalogue(), hurting=parts, today=(entry.id,)
        ):
            other = load_catalogue().by_id[one.exercise]
            where = f"{entry.id} -> {other.id}"
            assert other.id != entry.id, where
            assert not other.kit or any(not owned.lacks(way) for way in other.kit), where
            assert all(strain(other, part) < 2 for part in parts), where
            assert reason is not Reason.NOISE or other.quiet, where
            assert reason is not Reason.NO_ROOM or other.room != "walk", where
            assert (entry.pattern.value == "mobility") == (other.pattern.value == "mobility"), where
            assert one.why, where


@pytest.mark.parametrize("kit", ["nothing", "dumbbells", "bands"])
def test_few_exercises_are_left_without_anything_when_their_kit_is_missing(kit: str) -> None:
    """Never nothing where a body-weight or household exercise is sensible."""
    lacking = [entry for entry in load_catalogue() if entry.kit and all(KITS[kit].lacks(way) for way in entry.kit)]
    empty = [
        entry.id
        for entry in lacking
        if not substitutes_for(entry.id, kit=KITS[kit], reason=Reason.MISSING_KIT, catalogue=load_catalogue())
    ]

    assert len(lacking) > 100
    assert len(empty) <= 0.01 * len(lacking), empty
