"""The net under signs and pictures: what it tells apart in texts of authors that it has not learned from."""

from __future__ import annotations

import numpy as np
import pytest

from bot.language.safety import Level, read_safety
from bot.language.safety.likeness import KINDS, likeness
from bot.language.safety.vocabulary import mended_line
from tests.builders.learn_likeness import ORDINARY, SMOOTH, fit, left_out, told

# Of the texts of authors left out while learning: emergencies that read like one, and other texts that do.
LEAST_HEARD, MOST_ORDINARY, MOST_OTHERS = 0.88, 0.006, 0.09

# Of the texts of the corpora: those that the weights kept tell as the ones learned again do.
LEAST_SAME = 0.99


@pytest.fixture(scope="module")
def texts_and_fit():
    texts = told()
    return texts, fit(texts)


def test_most_emergencies_left_out_are_heard_and_few_other_texts(texts_and_fit) -> None:
    texts, found = texts_and_fit
    first = left_out(texts, found).argmax(axis=1)
    alarmed = {
        kind: [KINDS[first[at]] == "emergency" for at, text in enumerate(texts) if _group(text) == kind]
        for kind in ("emergency", "other", ORDINARY)
    }

    assert np.mean(alarmed["emergency"]) >= LEAST_HEARD
    assert np.mean(alarmed[ORDINARY]) <= MOST_ORDINARY
    assert np.mean(alarmed["other"]) <= MOST_OTHERS


def test_learning_again_tells_as_what_is_kept(texts_and_fit) -> None:
    """Fails when the corpora have moved on: python -m tests.builders.learn_likeness --write."""
    texts, found = texts_and_fit
    again = (found.wanted - SMOOTH * found.weights).argmax(axis=1)
    same = [likeness(text.line)[KINDS[kind]] > 0 for text, kind in zip(texts, again, strict=True) if text.author != ORDINARY]

    assert np.mean(same) >= LEAST_SAME


def _group(text) -> str:
    return text.kind if text.kind == "emergency" else ORDINARY if text.author == ORDINARY else "other"


@pytest.mark.parametrize(
    "text", ["20x12", "3 x 10 at 16 kg, last one hard", "what was my best on b1", "cant make friday, move it to sunday"]
)
def test_everyday_messages_read_like_no_emergency(text: str) -> None:
    assert likeness(mended_line(text))["emergency"] < -0.5


def test_what_only_reads_like_an_emergency_is_asked_about() -> None:
    read = read_safety("there was a noise and the noise was me hitting the floor")

    assert (read.level, read.doubted) == (Level.EMERGENCY, True)


@pytest.mark.parametrize(
    "text",
    [
        "our new wardrobe collapsed under all the jumpers, so i am putting screws in it instead of training",
        "my laptop had a stroke so sending this from the phone",
    ],
)
def test_signs_in_a_text_that_reads_like_none_are_asked_about(text: str) -> None:
    """ "Collapsed" is a sign, "had a stroke" as well; the rest is about a wardrobe, a laptop."""
    read = read_safety(text)

    assert read.doubted or (read.level, read.topic) == (Level.CAUTION, "check")


@pytest.mark.parametrize(
    "text",
    ["no chest pain, no dizziness", "what if i get chest pain during a set", "fainted once as a kid, fine since"],
    ids=["denied", "only imagined", "long ago"],
)
def test_it_does_not_overrule_what_was_weighed_down(text: str) -> None:
    assert read_safety(text).level is not Level.EMERGENCY
