"""What does a line ask for in single weeks of the block?

"3x10 (wk 2 3x9, wk 3 4x8), rest 90"       -> "3x10, rest 90" and two weeks
"week 1 12 reps, week 2 10 reps"           -> "" and two weeks
"weeks 1-4: 3x12, 3x10, 4x8, 2x10"         -> four weeks, one scheme each
"week 3: one set more"                     -> no week of sets: an aim, which others read
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from bot.language.blocks.clauses import read_clauses
from bot.language.blocks.scan import Clauses

WEEKS_LIMIT = 16
_MARK = re.compile(
    r"(?P<open>[(\[]\s*)?(?<![\w-])(?:in\s+|on\s+)?(?:weeks?|wks?|w)\.?\s?(?P<low>\d{1,2})(?:\s*(?:-|to|&|\+|and|/)\s*(?:w(?:ee)?k?s?\s?)?(?P<high>\d{1,2}))?"
    r"(?P<on>\+|\s+on(?:wards?)?)?\s*(?:\)|[:=>-]+)?\s*(?=\d|rir\b|rpe\b|amrap|max\b|@|as\s+many|tempo\b)(?!\d+\s*(?:weeks?|wks?)\b)",
    re.I,
)
_RELATIVE = re.compile(
    r"^[+-]|\b(?:more|extra|less|fewer|another|added?|drop\s+(?:a|one)\s+set|than|beat|same|increase)\b|(?<!load )\+\s?\d+(?:[.,]\d+)?\s*(?:kg|lb|reps?|sets?|%|s\b)",
    re.I,
)


@dataclass(frozen=True, slots=True)
class WeekPart:
    """The words about one week, from `start` in the line on."""

    week: int
    said: Clauses
    start: int


def split_weeks(text: str) -> tuple[str, tuple[WeekPart, ...]]:
    """(the line without its weeks, the weeks); the line as it is and nothing where no week's sets are said."""
    marks = list(_MARK.finditer(text))
    if not marks or any(int(mark["low"]) not in range(1, WEEKS_LIMIT + 1) for mark in marks):
        return text, ()
    parts: list[WeekPart] = []
    base, at = "", 0
    for number, mark in enumerate(marks):
        end = marks[number + 1].start() if number + 1 < len(marks) else len(text)
        end, closing = _end(text, marks, number, end)
        words = text[mark.end() : end].strip(" ,;|/()[]")
        said = read_clauses(words, has_name=False)
        if _RELATIVE.search(words) or not (said.schemes or said.marks) or said.left:
            return text, ()
        base += text[at : mark.start()].rstrip(" ,;|/") + " "
        at = end + closing
        parts += _spread(mark, said)
    return (base + text[at:]).strip(), tuple(parts)


def _end(text: str, marks: list[re.Match[str]], number: int, end: int) -> tuple[int, int]:
    """Where the words of a week end, and how many characters close them: the bracket that was opened before the first week."""
    opened = any(mark["open"] for mark in marks[: number + 1])
    close = re.search(r"[)\]]", text[marks[number].end() : end]) if opened else None
    if close and text.count("(", marks[number].end(), marks[number].end() + close.start()) == 0:
        return marks[number].end() + close.start(), 1
    stop = re.search(r"[;|\n](?!\s*(?:w|week|wk)\s?\d)", text[marks[number].end() : end])
    return (marks[number].end() + stop.start(), 0) if stop else (end, 0)


def _spread(mark: re.Match[str], said: Clauses) -> list[WeekPart]:
    """ "weeks 1-4: 3x12, 3x10, 4x8, 2x10" gives each week its own; any other range gives all its weeks the same."""
    low = int(mark["low"])
    high = max(low, min(int(mark["high"] or low), WEEKS_LIMIT))
    weeks = range(low, high + 1)
    own = [scheme for scheme in said.schemes if scheme.which is None]
    if len(weeks) > 1 and len(own) == len(weeks) and not said.marks:
        return [WeekPart(week, replace(said, schemes=[scheme]), mark.start()) for week, scheme in zip(weeks, own, strict=True)]
    return [WeekPart(week, said, mark.start()) for week in weeks]
