"""What did a member say beside the numbers? Words about how a set was stay with it; words about why one was left out, with the skip.

"20x12 grip slipped on the last two"   -> note "grip slipped on the last two"
"20x12, slept badly"                   -> note "slept badly"
"skipped C1, knee felt off"            -> reason "knee felt off"
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

from bot.language.reading.words import LEXICON, REMARKS
from bot.language.readings import Heard, SetsHeard, SkipHeard

LONGEST = 160
_WORD = re.compile(r"[^\W\d_]{3,}(?:'[^\W\d_]+)?")
_UNIT_FIRST = re.compile(
    r"\s*(?:'?s\b|kgs?\b|lbs?\b|kilos?\b|pounds?\b|reps?\b|each\b(?: side| leg| arm| way)?|sec\w*\b|min\w*\b|steps?\b|m\b|in the tank|in reserve|left\b|x\b|[\s,.;:()!-])*"
)
_REASON = re.compile(r"(?:\b(?:because(?: of)?|cos|cuz|since|due to|as)\b|[,:(]|\s-\s)\s*(?P<why>[^\d]{3,})$")
_EMPTY = frozenset(
    [
        "and",
        "but",
        "the",
        "for",
        "with",
        "then",
        "that",
        "this",
        "was",
        "were",
        "just",
        "only",
        "today",
        "now",
        "got",
        "did",
        "coach",
    ]
)


def with_notes(heard: Sequence[Heard], text: str, told_to: int, said_beside: Iterable[str]) -> tuple[Heard, ...]:
    """The same, with the words that were no numbers kept in their place.

    text: the whole message. told_to: where its last figure or exercise name ends. said_beside: its parts that are not about sets, pain, questions, days or swaps.
    """
    beside = [part for part in (each.strip(" ,.;:-()\n") for each in said_beside) if _tells_something(part)]
    trailing = _after_numbers(text, told_to)
    noted: list[Heard] = []
    for number, part in enumerate(heard):
        last = number == len(heard) - 1
        if isinstance(part, SetsHeard) and part.sets:
            words = [w for w in (trailing if last or not _skips_after(heard, number) else "", *beside) if w]
            note = "; ".join(w for w in dict.fromkeys(words) if not any(w != other and w in other for other in words))[:LONGEST]
            *before, latest = part.sets
            kept = replace(latest, done=replace(latest.done, note=note)) if note and not latest.done.note else latest
            noted.append(SetsHeard((*before, kept)))
        elif isinstance(part, SkipHeard) and not part.reason:
            why = _why(text)
            words = [why, *(w for w in beside if not why or why not in w)]  # "because of the neighbours" says why but once
            noted.append(replace(part, reason="; ".join(dict.fromkeys(w for w in words if w))[:LONGEST]))
        else:
            noted.append(part)
    return tuple(noted)


def _skips_after(heard: Sequence[Heard], number: int) -> bool:
    return any(isinstance(part, SkipHeard) for part in heard[number + 1 :])


def _after_numbers(text: str, told_to: int) -> str:
    """The words after the last figure or name, if they say how the set was. Of several lines none does."""
    if "\n" in text.strip() or not told_to:
        return ""
    rest = text[told_to:]
    unit = _UNIT_FIRST.match(rest.lower())
    rest = rest[unit.end() if unit else 0 :].strip(" ,.;:-()!")
    if any(letter.isdigit() for letter in rest):
        return ""
    return rest if _tells_something(rest) else ""


def _tells_something(words: str) -> bool:
    """More than fillers: a remark, or words that are not of the sets' own talk."""
    for word in (each.lower() for each in _WORD.findall(words)):
        if word in _EMPTY:
            continue
        if word in REMARKS or LEXICON.get(word) in (None, "G", "T", "g", "t"):
            return True
    return False


def _why(text: str) -> str:
    """Why something was left out: the words after because, a comma or a dash, at the end of the line."""
    found = _REASON.search(text.split("\n", maxsplit=1)[0].rstrip(" .!)"))
    return found["why"].strip(" ,.()") if found and _tells_something(found["why"]) else ""
