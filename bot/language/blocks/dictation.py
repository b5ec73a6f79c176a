"""Which figures does a plan say that was spoken into a phone? One without figures gets them, and stays line by line what it was.

"three sets of eight to ten tempo three zero one zero ninety seconds rest"   -> "3 sets of 8 to 10 tempo 3010 90 seconds rest"
"farmers walk three times one hundred feet", "fifty feet each hand twice"    -> "farmers walk 3 x 100 feet", "50 feet each hand x 2"
"""

from __future__ import annotations

import re

_UNITS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
    "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen")  # fmt: skip
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_UNIT_WORD = "|".join(sorted(_UNITS, key=len, reverse=True))
_TEN_WORD = "|".join(_TENS)
_SMALL = rf"(?:(?:{_TEN_WORD})(?:[\s-](?:{'|'.join(_UNITS[1:10])})\b)?|(?:{_UNIT_WORD}))"
_NUMBER = re.compile(rf"\b(?:(?:an?|{'|'.join(_UNITS[1:10])})\s+hundred(?:\s+(?:and\s+)?{_SMALL}\b)?|{_SMALL}\b)", re.I)
# Words of number that count nothing: "last one", "one arm row", "this is the new one".
_NO_COUNT = re.compile(
    r"(?:\b(?:last|next|new|this|that|the|first|second|third|other|each|every)\s+)one\b|\b(?:one|two|single)(?=[\s-]+(?:arm|leg|hand|foot)(?:ed)?\b)",
    re.I,
)
_TEMPO = re.compile(r"\btempo(?:\s+of)?((?:\s+\d){4})\b", re.I)
_TIMES = re.compile(r"(?<=\d)\s+times\s+(?=\d)", re.I)
_LEAST_WORDS, _MOST_FIGURES = 8, 3


def spoken(text: str) -> bool:
    """Does a plan say its numbers in words?"""
    return len(re.findall(r"\d", text)) <= _MOST_FIGURES and len(_NUMBER.findall(text)) >= _LEAST_WORDS


def with_figures(text: str) -> str:
    """The plan with figures where it has words of number."""
    kept = [found.span() for found in _NO_COUNT.finditer(text)]
    text = _NUMBER.sub(
        lambda found: found[0] if any(low <= found.start() < high for low, high in kept) else str(_value(found[0])), text
    )
    text = _TEMPO.sub(lambda found: f"tempo {''.join(found[1].split())}", text)
    text = _TIMES.sub(" x ", text)
    return re.sub(r"\btwice\b", "x 2", text, flags=re.I)


def _value(words: str) -> int:
    before, hundred, behind = re.sub(r"[\s-]+|\band\b", " ", words.lower()).partition("hundred")
    if hundred:
        return (_sum(before) or 1) * 100 + _sum(behind)
    return _sum(before)


def _sum(words: str) -> int:
    return sum(
        _UNITS.index(word) if word in _UNITS else 20 + 10 * _TENS.index(word) if word in _TENS else 0 for word in words.split()
    )
