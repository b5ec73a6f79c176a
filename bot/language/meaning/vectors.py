"""What is a text about? A row of numbers; the likeness of two texts is the product of their rows.

Problem: people find words that no list foresaw, a spasm for a cramp, a hippo for an elephant. Plan: cut each word into the
longest pieces that pieces.txt knows, add up the pieces' vectors, take off what is in the middle of all texts, and make the sum one long.
The vectors know from much ordinary text which words are used alike.

    "my calf cramps"  is nearer to "spasm in the hamstring" than to "send me the invoice"

Each vector is weighed by how telling its piece is among our own texts. vectors.npz: "vectors", a row of small whole numbers for each
line of pieces.txt; "step", what one of them counts; "middle", the middle of our texts. Made by tests/builders/make_meaning.py.

Source: the word pieces and their vectors are those of the sentence model all-MiniLM-L6-v2 (Wang et al. 2020; Reimers and Gurevych 2019;
Apache License 2.0), turned to fewer numbers by the main axes of our texts.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from functools import lru_cache
from importlib.resources import files
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

SIZE = 192
_WORD = re.compile(r"\w+|[^\w\s]")
_MOST_WORDS = 400  # a longer text is read no further

Row = NDArray[np.float32]


class _Vectors(NamedTuple):
    place: dict[str, int]
    vectors: NDArray[np.int8]
    step: float
    middle: Row


def meaning(text: str) -> Row:
    """The row of a text, of length one; zeros for a text without words."""
    known = _vectors()
    places = [place for word in words_of(text) for place in pieces_of(word)]
    if not places:
        return np.zeros(SIZE, dtype=np.float32)
    row: Row = known.vectors[places].sum(axis=0, dtype=np.float32) * np.float32(known.step) - known.middle
    length = float(np.linalg.norm(row))
    return row / np.float32(length) if length else row


def words_of(text: str) -> list[str]:
    """Words and marks, small, without accents."""
    plain = unicodedata.normalize("NFD", text.lower())
    return _WORD.findall("".join(letter for letter in plain if not unicodedata.combining(letter)))[:_MOST_WORDS]


@lru_cache(maxsize=8192)
def pieces_of(word: str) -> tuple[int, ...]:
    """The places of a word's pieces; nothing for a word that cannot be made of pieces."""
    return cut(word, _vectors().place)


def cut(word: str, place: Mapping[str, int]) -> tuple[int, ...]:
    """A word in pieces, the longest first found; nothing where a part of it is no piece. place: of each piece.

    Source: the greedy cutting of WordPiece (Devlin et al. 2019).
    """
    found: list[int] = []
    start = 0
    while start < len(word):
        ahead = "##" if start else ""
        end = next((end for end in range(len(word), start, -1) if ahead + word[start:end] in place), None)
        if end is None:
            return ()
        found.append(place[ahead + word[start:end]])
        start = end
    return tuple(found)


@lru_cache(maxsize=1)
def _vectors() -> _Vectors:
    pieces = (files(__package__) / "pieces.txt").read_text(encoding="utf-8").splitlines()
    with (files(__package__) / "vectors.npz").open("rb") as file, np.load(file) as kept:
        return _Vectors({piece: at for at, piece in enumerate(pieces)}, kept["vectors"], float(kept["step"]), kept["middle"])
