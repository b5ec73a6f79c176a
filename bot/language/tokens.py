"""Which words, numbers and signs does a text hold, and where?

    "20kgx12"       -> 20 · kg · x · 12
    "17,5 x 10"     -> 17.5 (written with a comma) · x · 10
    "12,12,10"      -> 12 · , · 12 · , · 10
    "twenty two"    -> 22
    "1:05"          -> a clock time of 65 seconds
    "20's", "15s"   -> 20 and 15, marked as plural; so is the German "14er"

Folding never moves a character, so that start and end are places in the text as it was sent.
"""

from __future__ import annotations

import re
import unicodedata
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from bot.language.reading.numbers import NUMBER_WORDS, PLURAL_WORDS, join_number_words

_SAME_LENGTH = {
    "×": "x", "✕": "x", "✖": "x", "⨯": "x", "х": "x", "·": ".", "–": "-", "—": "-", "−": "-", "‐": "-", "‑": "-", "’": "'", "‘": "'",
    "`": "'", "´": "'", "“": '"', "”": '"', "″": '"', "′": "'", "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\u200b": " ",
    "\ufe0f": " ", "\u20e3": " ", "\t": " ", "\r": " ", "＠": "@", "＋": "+", "，": ",", "、": ",", "：": ":", "；": ";", "／": "/",
    "➡": ">", "→": ">", "≈": "~", "•": "\n", "●": "\n", "▪": "\n", "…": " ", "ä": "ä",
}  # fmt: skip
_FRACTIONS = {"½": Decimal("0.5"), "¼": Decimal("0.25"), "¾": Decimal("0.75")}
# A comma makes a decimal only before the fractions that loads have; "12,10" is a list. Before a unit any fraction is one.
_SCAN = re.compile(
    r"""
    (?P<clock>(?<![\d:])\d{1,2}:[0-5]\d(?![\d:]|/\d{1,2}(?!\d?:)))
  | (?P<num>(?:\d{1,6}(?:\.\d{1,3}(?!\.?\d)|(?<!\d,\d)(?<!\d,\d\d),(?:5|25|75|50|125|0)(?![\d]|,\d)|(?<!x\d)(?<!x\d\d)(?<!x\ \d)(?<!x\ \d\d),\d{1,2}(?=\s?(?:kg|kilo|lb|pound)))?
            (?:\ ?[½¼¾]|\ [1-3]/[248](?!\d))?)|[½¼¾]|(?<![^\W_])\.\d{1,3})(?P<plural>(?:'?s|'?ers?)(?:(?![^\W\d_])|(?=x\d)))?(?P<ordinal>(?:st|nd|rd|th)\b)?
  | (?P<word>(?:kgs?|k|lbs?|reps?|kilos?)(?=(?:for|at|with|w|by|x)\s?\d)|(?:kgs?|k|lbs?|reps?|sets?|kilos?|pounds?|each|hand|side|arm|leg|band|bar|steps?|dbs?|bodyweight)(?=x\s?\d)|x(?=\s?\d)|(?:kg|lbs?|reps?)(?=\d)|(?:[^\W\d_]|[\u0300-\u036f])+(?:'(?:[^\W\d_])+)*'?)
  | (?P<break>\n)
  | (?P<sign>[^\s])
    """,
    re.VERBOSE,
)


class Token(NamedTuple):
    """kind: "n" number, "c" clock, "w" word, "b" line break, "s" sign. text is folded. value: of numbers; seconds of clocks."""

    kind: str
    text: str
    start: int
    end: int
    value: Decimal | None = None
    plural: bool = False
    comma: bool = False  # written with a decimal comma, which may have been a list of two
    ordinal: bool = False
    glued: bool = False  # no space before it


@lru_cache(maxsize=8192)
def _fold_character(letter: str) -> str:
    if letter in _SAME_LENGTH:
        return _SAME_LENGTH[letter]
    if letter not in "²³¹" and unicodedata.decimal(letter, None) is not None:
        return str(unicodedata.decimal(letter))
    wide = unicodedata.normalize("NFKC", letter) if "\uff00" <= letter <= "\uffef" else letter
    lower = wide.lower()
    return lower if len(lower) == 1 else letter


def fold(text: str) -> str:
    """Lower case, one form of each sign and digit; as long as the text itself."""
    if text.isascii():
        return text.lower().replace("\t", " ").replace("\r", " ").replace("`", "'")
    return "".join(map(_fold_character, text))


def tokens_of(folded: str) -> list[Token]:
    """Scan a folded text. Number words are joined to numbers where they are ones."""
    found: list[Token] = []
    words = False
    end = -1
    for match in _SCAN.finditer(folded):
        kind = match.lastgroup
        start, stop = match.span()
        glued = start == end
        end = stop
        piece = match.group()
        if kind == "word":
            words = words or piece in NUMBER_WORDS or piece in PLURAL_WORDS
            found.append(Token("w", piece, start, stop, glued=glued))
        elif kind == "clock":
            minutes, seconds = piece.split(":")
            found.append(Token("c", piece, start, stop, Decimal(int(minutes) * 60 + int(seconds)), glued=glued))
        elif kind == "break":
            found.append(Token("b", "\n", start, stop))
        elif kind == "sign":
            found.append(Token("s", piece, start, stop, glued=glued))
        else:
            figure = match["num"]
            value = _value(figure)
            found.append(
                Token(
                    "n",
                    piece,
                    start,
                    stop,
                    value,
                    match["plural"] is not None,
                    "," in figure and figure.replace(",", "").isdecimal(),  # "20,0 ½" was never a list
                    match["ordinal"] is not None,
                    glued,
                )
            )
    return join_number_words(found) if words else found


def _value(figure: str) -> Decimal:
    if figure.isdecimal():
        return Decimal(figure)
    for sign, part in _FRACTIONS.items():
        if sign in figure:
            whole = figure.replace(sign, "").strip().replace(",", ".")
            return (Decimal(whole) if whole else Decimal(0)) + part
    whole, _, fraction = figure.partition(" ")
    value = Decimal(whole.replace(",", "."))
    if fraction:
        top, bottom = fraction.split("/")
        value += Decimal(top) / Decimal(bottom)
    return value
