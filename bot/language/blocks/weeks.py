"""What does a line ask for in single weeks of the block?

"3x10 (wk 2 3x9, wk 3 4x8), rest 90"       -> "3x10, rest 90" and two weeks
"week 1 12 reps, week 2 10 reps"           -> "" and two weeks
"weeks 1-4: 3x12, 3x10, 4x8, 2x10"         -> four weeks, one scheme each
"3x8 wk1+2, 4x8 wk3", "2x15 in week 1, 3x15 after that"   -> the same with the week behind
"3x12 (wk4 only 2 sets)"                   -> week 4 with fewer sets of the same
"rest 2 min, from wk 3 on 2:30"            -> another rest from week 3 on
"week 3: one set more"                     -> no week of sets: an aim, which others read
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from bot.language.blocks.clauses import read_clauses
from bot.language.blocks.scan import Clauses

WEEKS_LIMIT = 16
_MARK = re.compile(
    r"(?P<open>[(\[]\s*)?(?<![\w-])(?:(?:in|on|from|then|and|but)\s+)*(?:weeks?|wks?|w)\.?\s?(?P<low>\d{1,2})(?:\s*(?:-|to|&|\+|and|/)\s*(?:w(?:ee)?k?s?\s?)?(?P<high>\d{1,2}))?"
    r"(?P<on>\+|\s+on(?:wards?)?)?\s*(?:\)|[:=>-]+)?\s*(?:(?:it's|is|are|go|only|just|down\s+to|back\s+to|up\s+to|drop\s+to|do)\s+)*(?=\d|rest\b|rir\b|rpe\b|amrap|max\b|@|as\s+many|tempo\b)(?!\d+\s*(?:weeks?|wks?)\b)",
    re.I,
)
_RELATIVE = re.compile(
    r"^[+-]|\b(?:more|extra|less|fewer|another|added?|drop\s+(?:a|one)\s+set|than|beat|same|increase)\b|(?<!load )\+\s?\d+(?:[.,]\d+)?\s*(?:kg|lb|reps?|sets?|%|s\b)",
    re.I,
)


@dataclass(frozen=True, slots=True)
class WeekPart:
    """The words about one week, from `start` in the line on. rests_so: a rest in them is of this week only."""

    week: int
    said: Clauses
    start: int
    rests_so: bool = True


_ONLY_TIME = re.compile(r"\d+(?::\d\d)?\s*(?:s|secs?|seconds?|m|mins?|minutes?|\"|')?", re.I)
_REST_BEFORE = re.compile(r"\brest(?:ing)?s?\b[^,;]*[,;(]?\s*$", re.I)
_WEEK = r"(?:weeks?|wks?|w)\.?\s?(?P<week>\d{1,2}(?:\s*(?:-|to|&|\+|and|/)\s*(?:w(?:ee)?k?s?\s?)?\d{1,2})?)"
_BEHIND = re.compile(
    rf"(?P<what>\d{{1,2}}(?:\s*x\s*|\s+sets?\b)[^,;()\n]*?)\s+(?:\(\s*)?(?:(?:in|for|on|during)\s+)?(?:{_WEEK}|(?P<after>(?:after\s+(?:that|this)|afterwards|thereafter|from\s+(?:then|there)(?:\s+on)?|the\s+other\s+weeks|for\s+the\s+rest)\b))\s*\)?(?=\s*(?:[,;.)]|$|then\b|and\b))",
    re.I,
)


def _weeks_before(text: str) -> str:
    """ "3x8 wk1, 4x8 after that" with each week before its sets."""
    behind = list(_BEHIND.finditer(text))
    if not any(found["week"] for found in behind):
        return text
    last = 0
    out, at = "", 0
    for found in behind:
        if found["week"]:
            week = found["week"]
            last = int(re.findall(r"\d+", week)[-1])
        else:
            week = str(last + 1)
        out += f"{text[at : found.start()]}week {week}: {found['what']}"
        at = found.end()
    return out + text[at:]


def split_weeks(text: str) -> tuple[str, tuple[WeekPart, ...]]:
    """(the line without its weeks, the weeks); the line as it is and nothing where no week's sets are said."""
    text = _weeks_before(text)
    marks = list(_MARK.finditer(text))
    if not marks or any(int(mark["low"]) not in range(1, WEEKS_LIMIT + 1) for mark in marks):
        return text, ()
    parts: list[WeekPart] = []
    base, at = "", 0
    for number, mark in enumerate(marks):
        end = marks[number + 1].start() if number + 1 < len(marks) else len(text)
        end, closing = _end(text, marks, number, end)
        words = text[mark.end() : end].strip(" ,;|/()[]")
        if _ONLY_TIME.fullmatch(words) and _REST_BEFORE.search(text[: mark.start()]):
            words = f"rest {words}"
        said = read_clauses(words, has_name=False)
        if _RELATIVE.search(words) or not (said.schemes or said.marks or said.fields.keys() & {"rest", "set_count"}) or said.left:
            return text, ()
        base += text[at : mark.start()].rstrip(" ,;|/") + " "
        at = end + closing
        parts += _spread(mark, said)
    base = (base + text[at:]).strip()
    rests = [part for part in parts if "rest" in part.said.fields]
    # "wk1 3x8 wk2 4x8, rest 90": said once behind sets, it is the rest of all weeks.
    if len(rests) == 1 and rests[0].said.schemes and (len(parts) > 1 or re.search(r"\d", base)):
        parts = [replace(part, rests_so=False) for part in parts]
    return base, tuple(parts)


def _end(text: str, marks: list[re.Match[str]], number: int, end: int) -> tuple[int, int]:
    """Where the words of a week end, and how many characters close them: the bracket that was opened before the first week."""
    opened = any(mark["open"] for mark in marks[: number + 1])
    close = re.search(r"[)\]]", text[marks[number].end() : end]) if opened else None
    if close and text.count("(", marks[number].end(), marks[number].end() + close.start()) == 0:
        return marks[number].end() + close.start(), 1
    stop = re.search(r"(?:[;|\n]|\.(?=\s+[a-z]))(?!\s*(?:w|week|wk)\s?\d)", text[marks[number].end() : end], re.I)
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
