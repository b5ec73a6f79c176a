"""Where in a line does it speak of a thing that pictures are made of? The things and their words stand in things.txt.

A way of saying is looked up by its first word and read on from there, the longest first, so the cost grows with the text and hardly with
the table.

    " cant catch my breath"  ->  ("cant", 0, 5), ("breath", 14, 21)
"""

from __future__ import annotations

import re
from functools import lru_cache
from importlib.resources import files

from bot.language.safety.signs import GROUPS


@lru_cache(maxsize=16)
def things_in(line: str) -> tuple[tuple[str, int, int], ...]:
    """(thing, start, end) of each place where a thing is said, in the line's order. line: folded words, a space before each."""
    by_word, patterns = _table()
    found: list[tuple[str, int, int]] = []
    words = line.split(" ")[1:]
    ends: dict[str, int] = {}
    start = 0
    for number, word in enumerate(words):
        for rest, names in by_word.get(word, ()):
            if tuple(words[number + 1 : number + 1 + len(rest)]) != rest:
                continue
            end = start + 1 + len(word) + sum(len(other) + 1 for other in rest)
            for name in names:
                if ends.get(name, 0) <= start:
                    ends[name] = end
                    found.append((name, start, end))
        start += 1 + len(word)
    for name, pattern in patterns:
        found += [(name, match.start(), match.end()) for match in pattern.finditer(line)]
    return tuple(found)


def words() -> frozenset[str]:
    """Every word of the things: what a misspelt word may be mended to."""
    return frozenset(word for ways in things().values() for way in ways for word in re.findall(r"[a-z]{3,}", way))


@lru_cache(maxsize=1)
def things() -> dict[str, tuple[str, ...]]:
    """Thing -> its ways of saying, groups opened."""
    text = (files(__package__) / "things.txt").read_text(encoding="utf-8")
    lines = re.sub(r"\n[ ]+", " ", text).splitlines()
    pairs = [line.split(": ", 1) for line in lines if line and not line.startswith("#")]
    return {name: tuple(dict.fromkeys(way for said in ways.split(", ") for way in _opened(said.strip()))) for name, ways in pairs}


def _opened(way: str) -> list[str]:
    group = re.fullmatch(r"\{([a-z]+)\}", way)
    return GROUPS[group.group(1)].split("|") if group else [way]


Rests = list[tuple[tuple[str, ...], tuple[str, ...]]]


@lru_cache(maxsize=1)
def _table() -> tuple[dict[str, Rests], list[tuple[str, re.Pattern[str]]]]:
    """First word -> the rest of each way, the longest first, and the things it says; beside them the ways that are patterns."""
    said: dict[str, dict[tuple[str, ...], list[str]]] = {}
    patterns: dict[str, list[str]] = {}
    for name, ways in things().items():
        for way in ways:
            if "[" in way:
                patterns.setdefault(name, []).append(way)
                continue
            first, *rest = way.split(" ")
            said.setdefault(first, {}).setdefault(tuple(rest), []).append(name)
    by_word = {
        first: sorted(((rest, tuple(names)) for rest, names in ways.items()), key=lambda one: -len(one[0]))
        for first, ways in said.items()
    }
    return by_word, [(name, re.compile(rf" (?:{'|'.join(ways)})(?= |$)")) for name, ways in patterns.items()]
