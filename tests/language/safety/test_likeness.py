"""The last net under signs and pictures: what it tells apart in texts that it has not learned from."""

from __future__ import annotations

import pytest

from bot.language.safety import Level, read_safety
from bot.language.safety.likeness import LIKE, likeness
from bot.language.safety.reading import plain_line
from tests.builders.learn_likeness import left_out, told

# Of the texts left out while learning: emergencies heard, and everyday messages that it takes for one.
LEAST_HEARD, MOST_ORDINARY, MOST_OTHERS = 0.70, 0.003, 0.06


def test_most_emergencies_left_out_are_heard_and_few_other_texts() -> None:
    scored = left_out(told())
    urgent = [mark for mark, text in scored if text.emergency]
    ordinary = [mark for mark, text in scored if text.ordinary]
    others = [mark for mark, text in scored if not text.emergency and not text.ordinary]

    assert sum(mark >= LIKE for mark in urgent) / len(urgent) >= LEAST_HEARD
    assert sum(mark >= LIKE for mark in ordinary) / len(ordinary) <= MOST_ORDINARY
    assert sum(mark >= LIKE for mark in others) / len(others) <= MOST_OTHERS


@pytest.mark.parametrize(
    "text", ["20x12", "3 x 10 at 16 kg, last one hard", "what was my best on b1", "cant make friday, move it to sunday"]
)
def test_everyday_messages_read_like_no_emergency(text: str) -> None:
    assert likeness(plain_line(text)) < 0


def test_what_only_reads_like_an_emergency_is_asked_about() -> None:
    read = read_safety("there was a noise and the noise was me hitting the floor")

    assert (read.level, read.doubted) == (Level.EMERGENCY, True)


@pytest.mark.parametrize(
    "text",
    ["no chest pain, no dizziness", "what if i get chest pain during a set", "fainted once as a kid, fine since"],
    ids=["denied", "only imagined", "long ago"],
)
def test_it_does_not_overrule_what_was_weighed_down(text: str) -> None:
    assert read_safety(text).level is not Level.EMERGENCY
