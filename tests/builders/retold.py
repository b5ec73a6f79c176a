"""The same told a little otherwise: greetings, sighs, signs, units, slips of the thumb. What a message says must not change with them."""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Iterator

from bot.language.reading.numbers import NUMBER_WORDS

_OPENINGS = (
    "ok ",
    "hey coach ",
    "phew, ",
    "right so ",
    "so ",
    "yep ",
    "hi! ",
    "oof ",
    "ok done: ",
    "good morning coach, ",
    "lol ",
    "um ",
)
_ENDINGS = (
    " lol", " phew", " 💪", "!!", "...", " haha", ", that was tough", " feeling good", ", tired today", ". water break now", " x", " 😅😅",
    " coach", " thanks", ", music on full", " and i'm sweating", ", legs like jelly", " (finally)", ". next!",
)  # fmt: skip
_SAID = {value: word for word, value in NUMBER_WORDS.items() if 2 <= value <= 20 and word not in ("twelf", "eigth", "fiveteen", "fifthteen", "dozen", "fiver", "tenner", "tweny", "twenny")}  # fmt: skip
_GLUED = re.compile(r"[a-z]\d|\d[a-z:/.,+x@×]|\d\s?[x@/.:+]|\n|\d½", re.IGNORECASE)


def _opened(text: str, rng: random.Random) -> str:
    return rng.choice(_OPENINGS) + text


def _ended(text: str, rng: random.Random) -> str:
    return text + rng.choice(_ENDINGS)


def _both(text: str, rng: random.Random) -> str:
    return _opened(_ended(text, rng), rng)


def _loud(text: str, rng: random.Random) -> str:
    return text.upper()


def _wide(text: str, rng: random.Random) -> str:
    return text.replace(" ", "  ")


def _other_times(text: str, rng: random.Random) -> str:
    return re.sub(r"(?<=\d)\s?x\s?(?=\d)", rng.choice((" x ", "×", " × ", "*", "X")), text)


def _other_units(text: str, rng: random.Random) -> str:
    text = re.sub(r"(?<=\d)\s?kg\b", rng.choice((" kg", " kilos", "kgs", "KG")), text)
    return re.sub(r"(?<=\d)\s?lbs?\b", rng.choice((" lb", "lbs", " pounds")), text)


def _slipped(text: str, rng: random.Random) -> str:
    """Two letters inside a longer word change places."""
    words = list(re.finditer(r"[a-z]{5,}", text))
    if not words:
        return text
    word = rng.choice(words)
    at = rng.randrange(word.start() + 1, word.end() - 2)
    return text[:at] + text[at + 1] + text[at] + text[at + 2 :]


def _spelled(text: str, rng: random.Random) -> str:
    """One number as a word, where all numbers stand apart from letters and signs."""
    found = [one for one in re.finditer(r"(?<![\d.,])\d{1,2}(?![\d.,])", text) if int(one.group()) in _SAID]
    if _GLUED.search(text) or not found:
        return text
    one = rng.choice(found)
    return text[: one.start()] + _SAID[int(one.group())] + text[one.end() :]


CHANGES: dict[str, Callable[[str, random.Random], str]] = {
    "opened": _opened, "ended": _ended, "both": _both, "loud": _loud, "wide": _wide, "times": _other_times, "units": _other_units,
    "slipped": _slipped, "spelled": _spelled,
}  # fmt: skip


def retold(text: str, rng: random.Random) -> Iterator[tuple[str, str]]:
    """(what was changed, the text as it is told then), where it changes at all."""
    for name, change in CHANGES.items():
        other = change(text, rng)
        if other != text:
            yield name, other
