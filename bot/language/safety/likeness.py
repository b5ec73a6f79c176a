"""How much does a text read like an emergency, like pain, like none of it, going by texts that were heard before?

A phrase or a picture has to be foreseen; this only weighs. Plan: a text's words and pairs of neighbouring words count for or against,
by how they stood in the texts of the tests' corpora; and so does what it is about (bot/language/meaning), by twos: a chest and a weight
together are more than each alone. So it also tells for words that no corpus has.

    "my words are porridge"      -> emergency well above 0
    "my words to that, brilliant" -> far below

likeness.npz holds what was learnt; tests/builders/learn_likeness.py makes it and says how well it does on texts left out.

Source: ridge regression (Saunders, Gammerman and Vovk 1998) on the sum of a linear and a quadratic kernel, in its primal form.
"""

from __future__ import annotations

from functools import lru_cache
from importlib.resources import files
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from bot.language.meaning import SIZE, meaning

KINDS = ("emergency", "self_harm", "pain", "caution", "none")
PAIR_WEIGHT = 0.7  # a pair of words beside a word
ALONE = 0.2  # how much one thing in common counts beside two

Numbers = NDArray[np.float32]


class Learnt(NamedTuple):
    """Of each kind: what every text starts from, what a feature counts, what a number of the meaning counts alone and by twos.

    place: feature -> its row in rarity and words. Shapes: start (kinds), words (features, kinds), alone (SIZE, kinds),
    twos (kinds, SIZE, SIZE).
    """

    place: dict[str, int]
    rarity: Numbers
    start: Numbers
    words: Numbers
    alone: Numbers
    twos: Numbers


@lru_cache(maxsize=256)
def likeness(line: str) -> dict[str, float]:
    """Kind -> how much more like it a text reads than like any other kind, some -2 to 2. line: mended words (words.py)."""
    scores = _scores(line)
    return {kind: score - max(other for name, other in scores.items() if name != kind) for kind, score in scores.items()}


def _scores(line: str) -> dict[str, float]:
    learnt = _learnt()
    about = meaning(line)
    scores = learnt.start + about @ learnt.alone + (learnt.twos @ about) @ about
    known = [learnt.place[feature] for feature in features(line) if feature in learnt.place]
    if known:
        share = learnt.rarity[known]
        scores = scores + (share @ learnt.words[known]) / np.sqrt(share @ share)
    return dict(zip(KINDS, map(float, scores), strict=True))


def features(line: str) -> set[str]:
    """The words of a line and its pairs of neighbours, with a space between; "^" and "$" are the ends."""
    words = line.split()
    return {*words, *(f"{one} {two}" for one, two in pairwise(["^", *words, "$"]))}


@lru_cache(maxsize=1)
def _learnt() -> Learnt:
    with (files(__package__) / "likeness.npz").open("rb") as file, np.load(file) as kept:
        numbers = {name: kept[name].astype(np.float32) for name in ("rarity", "start", "words", "alone", "twos")}
        place = {str(feature): at for at, feature in enumerate(kept["features"])}
    assert numbers["alone"].shape[0] == SIZE
    return Learnt(place, **numbers)
