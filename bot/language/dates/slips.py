"""Which date word did a hurried thumb mean? "wedneday" is wednesday, "tommorow" tomorrow; "sundry", "holiday" and "mandy" are none.

Plan: only words near a weekday, a month, or today's neighbours are looked at: the same first letter, the ending still there, one slip
in a short word and two in a long one (a letter left out, added, changed, or two changed round). Words of the language that lie as
near are named and left alone. Short months stand too close to other words ("march", "match"), so they are not guessed.
"""

from __future__ import annotations

import re
from functools import lru_cache

from rapidfuzz.distance import OSA

_DAYS = (
    "monday",
    "tuesday",
    "wednesday",
    "thursday",
    "friday",
    "saturday",
    "sunday",
    "tomorrow",
    "yesterday",
    "weekend",
    "fortnight",
)
_MONTHS = ("january", "february", "august", "september", "october", "november", "december")
_SHORT = {
    "apirl": "april",
    "aprl": "april",
    "aprill": "april",
    "marhc": "march",
    "jully": "july",
    "tuseday": "tuesday",
    "thrs": "thursday",
}
_REAL = frozenset({"sundry", "sundae", "sturdy", "friary"})
_LONG = 8  # letters from which on two slips are forgiven
_WORD = re.compile(r"(?<![\w./])[a-z]{5,11}(?![\w])")


def mend_slips(words: str) -> str:
    """A lower-case text with its misspelt weekdays, months and near days put right."""
    return _WORD.sub(lambda found: _meant(found[0]), words)


@lru_cache(maxsize=4096)
def _meant(word: str) -> str:
    if word in _SHORT:
        return _SHORT[word]
    stem = word.removesuffix("s")
    if word in _REAL or stem in _REAL or stem in _DAYS or stem in _MONTHS:
        return word
    near = [(distance, right) for right in (*_DAYS, *_MONTHS) if (distance := _slips(stem, right)) is not None]
    if not near:
        return word
    distance, right = min(near)
    if sum(one == distance for one, _ in near) > 1:
        return word
    return right + word[len(stem) :]


def _slips(word: str, right: str) -> int | None:
    """How many slips lie between, if few enough."""
    if word[0] != right[0] or word[-1] not in right[-2:] or abs(len(word) - len(right)) > 2:
        return None
    most = 2 if len(right) >= _LONG else 1
    distance = OSA.distance(word, right, score_cutoff=most)
    return distance if distance <= most else None
