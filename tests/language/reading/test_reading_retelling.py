"""What is told in a roundabout way is told plainly, in the same room, and no row is kept from a text that it has something to say to."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from bot.language.reading.noise import AMONG_WORDS, FIRST, without_noise
from bot.language.reading.retelling import aims, efforts, layout, lists, loads, others, sides, taken_back
from bot.language.reading.retelling.rewriting import Rewriting, rewritten
from bot.language.tokens import fold
from tests.builders.spoken import FAMILIES, spoken
from tests.builders.voices import messages
from tests.language.reading.test_reading_voices import VOICES

_ROWS = FIRST + AMONG_WORDS
_THEMES = (aims, efforts, layout, lists, loads, others, sides, taken_back)


def _texts() -> list[str]:
    told = [message.text for path in sorted(VOICES.iterdir()) for message in messages(path)]
    made = [one.text for family in FAMILIES for one in spoken(family, seed=5, number=100)]
    return [fold(text) for text in told + made]


@pytest.mark.parametrize(
    ("told", "plainly"),
    [
        ("8/7 (right first)", "r8 l7"),
        ("20x12 full stop next 20x10", "20x12.          next 20x10"),
        ("18 kg 9 reps, i mean 16 kg", "16 kg 9 reps"),
        ("3 sets 7 155 lbs", "3x7 @ 155 lbs"),
        ("two bottles of water, 5 kg each", "5kg each hand"),
        ("20x12 could have done 2 more", "20x12 rir 2"),
        ("went for 5, got 4 with 80", "     got        4 with 80"),
        ("20x12 tempo 3110", "20x12"),
        ("90 -> 8", "90 x 8"),
        ("12 -> 14", "12 -> 14"),
        ("a pair of 50s for 35", "2         50s for 35"),
        ("dips 25 hanging, 6", "dips +25       , 6"),
        ("squat w/ 2x8 kg: 12", "squat w 2 8 kg : 12"),
        ("add 2.5, still 8", "up 2.5,, still 8"),
        ("hi again, 20x12", "hi      , 20x12"),
        ("blue was too fierce so back to red, 12", "                               " + "red, 12"),
        ("rest-paused 3, then 2, then 1", "rest pause 3, 2, 1"),
        ("175 x 8 but the 8th only halfway", "175 x 7, 1 half"),
        ("lost two reps", "2 fewer"),
        ("8, then 4 more, so 12 in total", " , then   more, so 12 in total"),
        ("11 on the good arm (right), 9 on the bad one", "11 on right               , 9 on left"),
    ],
)
def test_what_is_told_in_a_roundabout_way_is_told_plainly(told: str, plainly: str) -> None:
    assert without_noise(told).rstrip() == plainly


def test_a_text_keeps_its_length() -> None:
    for text in [*_texts(), "green 12 each side, twice", "20x12, 3 down like asked"]:
        assert len(without_noise(text)) == len(text), text


def test_no_row_is_kept_from_a_text_by_its_words() -> None:
    """A text in which none of a row's words stands holds nothing that its pattern finds."""
    texts = _texts()
    for row in _ROWS:
        if row.words:
            unguarded = [text for text in texts if not any(word in text for word in row.words)]
            assert [text for text in unguarded if row.pattern.search(text)] == [], row.words


def test_every_row_has_its_one_place_in_the_order() -> None:
    told = [row for theme in _THEMES for row in vars(theme).values() if isinstance(row, Rewriting)]

    assert Counter(map(id, _ROWS)) == Counter(map(id, told))


def test_a_row_that_needs_more_room_than_there_is_leaves_the_text() -> None:
    row = Rewriting(re.compile("up"), "heavier")

    assert rewritten("2 up", [row]) == "2 up"
