"""The whole corpus against its gold: floors for what is right, ceilings for what is wrong in silence."""

from __future__ import annotations

from collections import Counter
from functools import cache
from pathlib import Path

import pytest

from tests.builders import voices
from tests.builders.reliability import reliability
from tests.builders.set_corpus import Outcome, cases, outcome

CORPUS = Path(__file__).parent / "corpus"
VOICES = sorted((Path(__file__).parent / "voices").glob("*.txt"))
TUNED = sorted(path.name for path in CORPUS.glob("*.txt") if "held_out" not in path.name)


@cache
def outcomes(name: str) -> tuple[Outcome, ...]:
    return tuple(outcome(case) for case in cases(CORPUS / name))


def listed(found: list[Outcome]) -> str:
    return "\n".join(
        f"{one.case.line}: {one.case.text!r} should be {one.case.gold}, was {one.got} ({one.certainty:.2f})" for one in found
    )


@pytest.mark.parametrize("name", TUNED)
def test_of_clear_messages_ninety_seven_in_a_hundred_are_recorded_exactly(name: str) -> None:
    kinds = Counter(one.kind for one in outcomes(name))
    clear = sum(kinds[kind] for kind in ("right", "asked", "wrong", "missed"))

    assert kinds["right"] >= 0.97 * clear, listed([one for one in outcomes(name) if one.kind in ("asked", "wrong", "missed")])


def test_fewer_than_one_in_two_hundred_records_are_wrong_in_silence() -> None:
    every = [one for name in TUNED for one in outcomes(name)]
    wrong = [one for one in every if one.kind in ("wrong", "unclear wrong", "none wrong")]
    recorded = [one for one in every if one.kind in ("right", "wrong", "unclear wrong", "none wrong")]

    assert len(wrong) < 0.005 * len(recorded), listed(wrong)


def test_what_is_not_about_sets_is_never_recorded() -> None:
    others = [one for name in TUNED for one in outcomes(name) if one.case.gold.startswith("none")]

    assert len(others) >= 50
    assert not [one for one in others if one.kind == "none wrong"], listed(others)


def test_unclear_messages_are_asked_about() -> None:
    unclear = [one for name in TUNED for one in outcomes(name) if one.case.gold == "ask"]
    asked = [one for one in unclear if one.kind == "unclear asked"]

    assert len(asked) >= 0.80 * len(unclear), listed([one for one in unclear if one.kind != "unclear asked"])


def test_certainty_is_calibrated() -> None:
    """Of the records in each band of certainty, over the corpus and the voices, at least so many are right as the band promises."""
    recorded = [one for name in TUNED for one in outcomes(name) if one.kind in ("right", "wrong", "unclear wrong", "none wrong")]
    told = [one for path in VOICES for one in voices.outcomes(path) if one.recorded]
    bands = reliability((one.certainty, one.kind == "right") for one in (*recorded, *told))

    # Two in a hundred are allowed for: the least certain bands hold a few dozen records each.
    assert all(band.share >= band.low - 0.02 for band in bands), "\n".join(
        map(str, (*bands, *(one for one in told if one.kind != "right")))
    )
    assert sum(band.records for band in bands) == len(recorded) + len(told)


@pytest.mark.parametrize("name", [path.name for path in sorted(CORPUS.glob("held_out*.txt"))])
def test_messages_never_tuned_on_keep_a_floor(name: str) -> None:
    kinds = Counter(one.kind for one in outcomes(name))
    clear = sum(kinds[kind] for kind in ("right", "asked", "wrong", "missed"))

    assert kinds["right"] >= 0.80 * clear
    assert kinds["wrong"] <= 0.06 * clear
