"""How much does a text read like an emergency, going by the words of those that were heard before? The last net, under signs and pictures.

A phrase or a picture has to be foreseen; this only weighs: each word, pair of neighbouring words and thing of the pictures (things.py)
that a text holds counts for or against, by how it stood in the texts of the tests' corpora, emergencies against everything else.
likeness.txt holds the weights; tests/builders/learn_likeness.py makes it from the corpora and says how well it does on texts left out.

    "my words are porridge"      -> above LIKE: first step and a question
    "my words to that, brilliant" -> far below

It only speaks where no sign was seen, and never surely: what it hears is asked about.
"""

from __future__ import annotations

import math
from functools import lru_cache
from importlib.resources import files
from itertools import pairwise

from bot.language.safety.things import things_in

# From here on a text counts. Chosen on left-out texts: some 2 in 1,000 ordinary messages lie above it (learn_likeness.py prints it).
LIKE = 2.0
_BASE = "="  # the weight that every text starts from


def likeness(line: str) -> float:
    """How like an emergency a line of folded words reads: above 0 more than not. line: as things.py takes it."""
    weights = _weights()
    known = [weights[feature] for feature in features(line) if feature in weights]
    return weights[_BASE] + sum(known) / math.sqrt(len(known) or 1)


def features(line: str) -> set[str]:
    """The words of a line, its pairs of neighbours with the edges marked, and the things it speaks of (with a star)."""
    words = line.split()
    edged = ["^", *words, "$"]
    pairs = {f"{one} {two}" for one, two in pairwise(edged)}
    return {*words, *pairs, *(f"*{thing}" for thing, _, _ in things_in(line))}


@lru_cache(maxsize=1)
def _weights() -> dict[str, float]:
    lines = (files(__package__) / "likeness.txt").read_text(encoding="utf-8").splitlines()
    pairs = [line.split(" | ", 1) for line in lines if line and not line.startswith("#")]
    return {feature: int(hundredths) / 100 for hundredths, feature in pairs}
