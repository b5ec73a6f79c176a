"""What is told at all: greetings, sighs, double spaces and slips of the thumb set aside, every character knowing its place."""

from __future__ import annotations

import pytest

from bot.language import read
from bot.language.reading.tidy import tidied
from tests.builders.situations import situation


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("ok coach,  20x12  lol 💪", "20x12"),
        ("phew, sorry that was 18", "sorry that was 18"),
        ("wamrup 40x8, then tewnty", "warmup 40x8, then twenty"),
        ("did all there sets", "did all three sets"),
        ("12...", "12"),
        ("done: 20x12", "20x12"),
        ("Yesetrday: 20x12!!", "yesterday: 20x12"),
    ],
)
def test_what_says_nothing_is_set_aside(text: str, told: str) -> None:
    found = tidied(text)

    assert found is not None
    assert found.text.lower() == told


@pytest.mark.parametrize("text", ["20x12", "ok", "haha 💪", "A1 ✅", "there we go", "no, 11", "form was fine"])
def test_what_says_something_or_all_there_is_stays(text: str) -> None:
    assert tidied(text) is None


def test_a_reading_still_points_at_the_words_that_were_sent() -> None:
    text = "hey coach,  20kg   x 12 lol"
    reading = read(text, situation("new"))

    assert reading.text == text
    assert [text[why.start : why.end] for why in reading.why] == ["20kg", "12"]
