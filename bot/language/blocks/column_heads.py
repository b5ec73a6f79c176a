"""What does a column of a table hold, by the words of its head? In any order and wording, also one thing of single weeks."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple


class Column(NamedTuple):
    """What a column holds. number: of the set or week; unit: as its head says ("Rest (min)", "kg", "RIR")."""

    name: str
    number: int = 0
    unit: str = ""


_COLUMNS: tuple[tuple[str, str], ...] = (
    ("set_n", r"set\s*#?\s*(\d{1,2})"),
    ("week_n", r"(?:week|wk|woche|w)\s*#?\s*(\d{1,2})"),
    ("day", r"day|session|workout|training day|training|weekday|tag|trainingstag|einheit"),
    ("slot", r"slot|order|#|id|ex\.?\s*#|no\.?|nr\.?|number|label|code|group|superset|block|pos(?:ition)?|platz|nummer|reihenfolge|station|spot"),
    ("exercise", r"(?:main\s+)?(?:exercises?|movements?|lifts?|drills?)(?:\s*(?:name|/\s*\w+))?|activit(?:y|ies)|names?(?:\s+of\s+(?:the\s+)?(?:exercise|movement|lift|drill))?|what|uebung|übung|übungen"),
    ("sets", r"(?:#|no\.?|number)?\s*(?:of\s+)?(?:working\s+|work\s+)?sets?|series|rounds?|s|set\s+count|how\s+many\s+sets|sätze|saetze"),
    ("reps", r"r|(?:target\s+)?(?:reps?|repetitions?)(?:\s*(?:range|per set|each set|target|goal|/\s*\w+|\(.*\)))?|rep range|wdh\.?|wiederholungen|how many|how much|what to do|what you do|dose|target|duration|time|volume|sets\s*(?:x|×|&|and|/)\s*reps|prescription|scheme|amount|count|reps?\s+or\s+(?:time|secs?|seconds|distance)|time\s*/\s*reps|work"),
    ("tempo", r"(?:rep\s+)?tempo(?:\s*\(.*\))?|speed|cadence"),
    ("rest", r"rests?(?:\s*(?:time|period|between sets|interval))?(?:\s*\(?(?:s|secs?|seconds|min)\)?)?|rest\s+after|recover|time\s+off|down\s?time|pause|pausen|recovery|breaks?(?:\s*\(?(?:s|secs?|seconds|min)\)?)?"),
    ("load", r"(?:start(?:ing)?\s+|working\s+|suggested\s+|target\s+)?(?:load|weight)s?|intensity|kg|kilos?|lbs?|pounds?|%\s*1rm|last|gewicht"),
    ("effort", r"(?:target\s+)?(?:rpe|rir)|rpe\s*/\s*rir|effort|how\s+hard|feel"),
    ("sides", r"sides?|per side"),
    ("kit", r"kit|equipment|gear|tools?|what\s+you\s+need"),
    ("sub", r"subs?|substitutes?|alternatives?|alt\.?|swaps?|instead|regression|option|plan\s+b|or|if\s+not|easier(?:\s+option)?|replacement|replace\s+with|no\s+kit\??"),
    ("cue", r"cues?|tips?|hints?|coaching cues?|focus|technique|form|key\s+points?|points|watch\s+out|how(?:\s+to)?"),
    ("demo", r"demo|video|link|url"),
    ("note", r"(?:coach(?:'s|es|ing)?\s+|your\s+|extra\s+)?notes?|comments?|remarks?|details?|info|hinweise?|bemerkung(?:en)?|notiz(?:en)?"),
)  # fmt: skip


NUMBERED = ("set_n", "week_n")
_UNIT = re.compile(r"\b(?:s|secs?|seconds|sek|min(?:s|utes)?|kgs?|kilos?|lbs?|pounds?|rir|rpe)\b|%")


@lru_cache(maxsize=2048)
def column_of(cell: str) -> Column | None:
    """The column whose head a cell is; None for other words."""
    words = re.sub(r"[:*_]+", " ", cell.lower()).strip()
    bare = re.sub(r"\s*(?:\([^)]*\)|\[[^\]]*\]|in\s+(?:kg|lbs?|sec|min|s))$", "", words).strip()
    unit = _UNIT.search(words)
    for name, pattern in _COLUMNS:
        found = re.fullmatch(pattern, words) or re.fullmatch(pattern, bare)
        if found:
            return Column(name, int(found[1]) if name in NUMBERED else 0, unit[0] if unit else "")
    return _of_week(words)


_OF_WEEK = re.compile(
    r"(?P<before>.*?)[\s(]*\b(?:weeks?|wks?|wochen?|w)\s*#?(?P<week>\d{1,2})(?:\s*(?:-|–|to)\s*(?:w(?:ee)?k?)?\s*\d{1,2}|\s*\+)?[\s):]*(?P<behind>.*)"
)
_BY_WEEK = ("sets", "reps", "tempo", "rest", "load", "effort")


def _of_week(words: str) -> Column | None:
    """ "Rest W3-4", "Week 2 reps": one thing of the weeks from that one on."""
    found = _OF_WEEK.fullmatch(words)
    what = f"{found['before']} {found['behind']}".strip() if found else ""
    column = column_of(what) if what else None
    return Column(column.name, int(found["week"]), column.unit) if found and column and column.name in _BY_WEEK else None


def header_of(row: Sequence[str]) -> dict[int, Column]:
    """Column -> what it holds, if this row is a header: it names the exercise and at least one more column."""
    named = {n: column for n, cell in enumerate(row) if cell and (column := column_of(cell))}
    names = [column.name for column in named.values()]
    return named if "exercise" in names and len(names) >= 2 else {}
