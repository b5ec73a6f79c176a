"""Texts about like things lie near each other, also where they share no word."""

from __future__ import annotations

import numpy as np
import pytest

from bot.language.meaning import SIZE, meaning
from bot.language.meaning.vectors import pieces_of, words_of


@pytest.mark.parametrize(
    ("text", "like", "unlike"),
    [
        ("a hippo sits on my ribs", "an elephant on my chest", "a tiger in the zoo"),
        ("my calf cramps", "spasm in the hamstring", "send me the invoice"),
        ("which kettlebell shall I take", "what weight do I use", "is the session on tuesday"),
        ("mum fainted", "father passed out", "father cooks dinner"),
    ],
)
def test_a_text_is_nearer_to_one_about_the_same(text: str, like: str, unlike: str) -> None:
    assert meaning(text) @ meaning(like) > meaning(text) @ meaning(unlike)


@pytest.mark.parametrize("text", ["20x12", "Schmerzen in der Brust", "x" * 5000, "word " * 3000, "!?"])
def test_a_row_is_one_long(text: str) -> None:
    assert meaning(text).shape == (SIZE,)
    assert np.linalg.norm(meaning(text)) == pytest.approx(1, abs=1e-4)


@pytest.mark.parametrize("text", ["", "  ", "漢字", "\x00"])
def test_a_text_without_known_words_is_all_zeros(text: str) -> None:
    assert not meaning(text).any()


def test_accents_and_capitals_make_no_difference() -> None:
    assert words_of("Düsseldorf, GENÈVE") == ["dusseldorf", ",", "geneve"]


def test_a_word_is_cut_into_the_longest_pieces() -> None:
    assert len(pieces_of("chest")) == 1
    assert len(pieces_of("breastbone")) == 2
