"""Clear messages as hurried thumbs send them: shouted, run together, a letter wrong."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from random import Random

from bot.training.exercises.folding import word_set
from tests.builders.spoken import extras, sets, timed, told_apart
from tests.builders.spoken.done import Spoken
from tests.builders.spoken.people import CALLED

WELL_PUT = (
    sets.one_set,
    sets.one_set,
    sets.alike_sets,
    sets.later_sets,
    sets.body_weight,
    timed.holds,
    timed.carries,
    told_apart.efforts,
    extras.added,
)
# Words in which a wrong letter leaves no doubt: what exercises are called, and the longer words of a set.
MISSPELT = word_set(" ".join(name.lower() for names in CALLED.values() for name in names)) | word_set(
    "kilos pounds seconds minute steps metres meters dumbbell dumbbells kettlebell managed today heavy"
)
_LONG_ENOUGH = 5

Slip = Callable[[Random, str], str]


def slips(draw: Random) -> Spoken:
    """A clear message with one slip that changes it; its meaning stays."""
    slip = draw.choice(SLIPS)
    while True:
        put = draw.choice(WELL_PUT)(draw)
        text = slip(draw, put.text)
        if text != put.text and not put.asks_ok:
            return replace(put, text=text)


def shouted(draw: Random, text: str) -> str:
    return text.upper()


def capital_and_stop(draw: Random, text: str) -> str:
    """As a careful writer, or a phone, would have it."""
    return text[0].upper() + text[1:] + ("" if re.search(r"\W$", text) else ".")


def run_together(draw: Random, text: str) -> str:
    """A space lost between number and word, or beside a sign."""
    places = [found.start() for found in re.finditer(r"(?<=\d) (?=[a-z]{2})|(?<=[\w]) (?=[x×@]\s?\d)|(?<=[x×@]) (?=\d)", text)]
    place = draw.choice(places) if places else None
    return text if place is None else text[:place] + text[place + 1 :]


def spread_out(draw: Random, text: str) -> str:
    return text.replace(" ", "  ", 1) + draw.choice(("", " ", "  "))


def letter_wrong(draw: Random, text: str) -> str:
    """Two letters swapped, one left out, or one doubled, inside a word."""
    places = [
        found for found in re.finditer(r"[A-Za-z]+", text) if len(found[0]) >= _LONG_ENOUGH and found[0].lower() in MISSPELT
    ]
    if not places:
        return text
    word = draw.choice(places)
    place = draw.randrange(word.start() + 1, word.end() - 2)
    first, second = text[place], text[place + 1]
    return text[:place] + draw.choice((second + first, first, first * 2 + second)) + text[place + 2 :]


def other_sign(draw: Random, text: str) -> str:
    """Another sign for "times"."""
    return re.sub(r"(?<=[\d\s])x(?=\s?\d)", draw.choice(("X", "*", "×")), text)


def with_a_smile(draw: Random, text: str) -> str:
    return text + draw.choice((" 😅", "🔥", " 💪💪", " 🥵", " 👍", "✅", " 😤 done"))


SLIPS: tuple[Slip, ...] = (
    shouted, capital_and_stop, run_together, run_together, spread_out, letter_wrong, letter_wrong, letter_wrong, other_sign, with_a_smile,
)  # fmt: skip
