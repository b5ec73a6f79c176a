"""Which words of a plan written in German stand for which of the trade's English ones? Only what gives a plan its shape.

    "Tag 1 Beine" -> "Day 1 Beine"      "10 pro Seite" -> "10 per side"      "3 Sätze à 45 Sek" -> "3 sets of 45 sec"

Names of exercises stay as they are: the coach is asked about each once, and the answer is remembered.
"""

from __future__ import annotations

import re

# Two different ones of these say that the plan is German; none of them is a word of an English plan.
_MARKS = re.compile(
    r"\b(wdh|wiederholungen|s(?:ä|ae)tze|(?:ü|ue)bung(?:en)?|ruhetag|tag\s+\d|wochen|pro\s+seite|je\s+seite|sek(?:unden)?|aufw(?:ä|ae)rmen)\b",
    re.I,
)
_WORDS = (
    (r"(?:trainings)?tag(?=\s*(?:\d|[a-f]\b))", "Day"),
    (r"einheit(?=\s*\d)", "Session"),
    (r"ruhetage?|pausentag|trainingsfrei", "Rest day"),
    (r"wochen", "Weeks"),
    (r"woche(?=\s*\d)", "Week"),
    (r"s(?:ä|ae)tze?\s+(?:à|a|mit|je)", "sets of"),
    (r"s(?:ä|ae)tze", "sets"),
    (r"satz(?=\s*\d)", "set"),
    (r"wdh\.?|wiederholungen", "reps"),
    (r"sek(?:unden)?\b\.?", "sec"),
    (r"minuten?", "min"),
    (r"schritte", "steps"),
    (r"(?:pro|je)\s+(?:seite|bein|arm)", "per side"),
    (r"links\s+(?:zuerst|beginnen|anfangen)", "left side first"),
    (r"rechts\s+(?:zuerst|beginnen|anfangen)", "right side first"),
    (r"schwache\s+seite\s+zuerst", "weaker side first"),
    (r"aufw(?:ä|ae)rmen", "Warm-up"),
    (r"pause(?=\s*[:=]?\s*\d)", "rest"),
    (r"bis\s+zum\s+(?:muskel)?versagen|so\s+viele\s+wie\s+m(?:ö|oe)glich", "AMRAP"),
    (r"oder(?=\s)", "or"),
    (r"ersatz(?=\s*:)", "sub"),
    (r"montag", "Monday"), (r"dienstag", "Tuesday"), (r"mittwoch", "Wednesday"), (r"donnerstag", "Thursday"), (r"freitag", "Friday"),
    (r"samstag|sonnabend", "Saturday"), (r"sonntag", "Sunday"),
)  # fmt: skip
_EACH = tuple((re.compile(rf"(?<![\w-]){pattern}(?!\w)", re.I), word) for pattern, word in _WORDS)


def is_german(text: str) -> bool:
    return len({found.lower().split()[0] for found in _MARKS.findall(text[:20_000])}) >= 2


def in_english(text: str) -> str:
    """The plan's own words in English, all else as it is."""
    for pattern, word in _EACH:
        text = pattern.sub(word, text)
    return text
