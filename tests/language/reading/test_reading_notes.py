"""Words beside the numbers stay with the set, and a reason with what was left out."""

from __future__ import annotations

import pytest

from bot.language import read
from bot.language.readings import SetsHeard, SkipHeard
from tests.builders.situations import situation


@pytest.mark.parametrize(
    ("text", "note"),
    [
        ("A1 20x12 grip slipped on the last two", "grip slipped on the last two"),
        ("A1 20x12, slept badly", "slept badly"),
        ("ok so A1 20x12, dog barked the whole time", "dog barked the whole time"),
        ("A1 20x12", ""),
        ("A1 20x12 done", ""),
        ("A1 20x12 rpe 8", ""),
        ("A1 20 kg x 12 reps!", ""),
    ],
)
def test_what_is_said_of_a_set_is_kept_with_it(text: str, note: str) -> None:
    heard = read(text, situation("home")).heard[0]

    assert isinstance(heard, SetsHeard)
    assert heard.sets[-1].done.note == note


@pytest.mark.parametrize(
    ("text", "reason"),
    [("skipped C1, knee felt odd", "knee felt odd"), ("skip C1 because of the neighbours", "the neighbours"), ("skipped C1", "")],
)
def test_why_a_set_was_left_out_is_kept_with_the_skip(text: str, reason: str) -> None:
    skipped = [part for part in read(text, situation("home")).heard if isinstance(part, SkipHeard)]

    assert [part.reason for part in skipped] == [reason]
