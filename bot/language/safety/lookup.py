"""Which of a table's lines can a text match at all? Most texts share no word with most lines, so those need no look.

Each line needs one of some words: those of its choice with the fewest. A line whose every choice is open (a number's pattern) is
always looked at.

    "{chest} ~3 {press}"  needs one of chest, sternum, breastbone ...
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from functools import lru_cache
from typing import NamedTuple

from bot.language.safety.signs import choices_of, compiled

_PLAIN = re.compile(r"[a-z ,/&]+")


class Way(NamedTuple):
    """One way of saying something. key: what it belongs to; pattern: over a clause's line."""

    key: tuple[str, str]
    pattern: re.Pattern[str]


class Lookup:
    """The ways of a table, found by the words of a text, in the table's order."""

    def __init__(self, lines: Iterable[tuple[tuple[str, str], str]]) -> None:
        self._ways: list[Way] = []
        self._always: list[int] = []
        self._by_word: dict[str, list[int]] = {}
        for number, (key, line) in enumerate(lines):
            self._ways.append(Way(key, compiled(line)))
            needed = needed_words(line)
            if needed is None:
                self._always.append(number)
            for word in needed or ():
                self._by_word.setdefault(word, []).append(number)

    def ways(self, words: Collection[str]) -> list[Way]:
        numbers = set(self._always)
        for word in words:
            numbers.update(self._by_word.get(word, ()))
        return [self._ways[number] for number in sorted(numbers)]


@lru_cache(maxsize=2048)
def needed_words(line: str) -> frozenset[str] | None:
    """Words of which one must stand in a text that this line matches; None where that can't be said."""
    found = [
        frozenset(way.split()[0] for way in ways)
        for ways in choices_of(line)
        if all(_PLAIN.fullmatch(way) and way.strip() for way in ways)
    ]
    return min(found, key=len) if found else None
