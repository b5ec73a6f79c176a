"""Where does one field of a line end and the next begin, where a dash or comma between figures could as well be a range or a list?

"rest 120 sec - 2 reps in reserve"    -> parted: a time, and reps left over
"RPE 8 - 90 s"                        -> parted: an effort and a time
"x 6 a side, 60 secs"                 -> parted: what a round asks for, and the rest behind it
"4 x 40 m, 60 secs"                   -> parted: metres and a time
"3 x 30 sec - 45 sec"                 -> parted: to hold, and to rest
"rest 60 - 90 s", "3 x 30 - 45 s"     -> one range
"2 x 10, 12 reps"                     -> one list

Two amounts of different kinds are two fields, whatever stands between them.
"""

from __future__ import annotations

import re
from decimal import Decimal

_KINDS = (
    ("effort", r"(?:reps?\s+)?(?:(?:left|still)\s+)?in\s+(?:the\s+)?(?:reserve|tank)\b|rir\b|rpe\b"),
    ("time", r"(?:seconds?|secs?|s|minutes?|mins?)(?![a-z])|[\"']"),
    ("length", r"(?:metres?|meters?|m|steps?|feet|ft|yards?|yds?)(?![a-z])"),
    ("load", r"(?:kgs?|kilos?|lbs?|pounds?)\b"),
    ("reps", r"(?:reps?|repetitions?)\b"),
    ("share", r"%"),
    ("sets", r"x\s*(?:\d|amrap|max)|(?:sets?|rounds?)\b"),
)
_UNIT = "|".join(f"(?P<{name}{{0}}>{pattern})" for name, pattern in _KINDS)
_FIGURE = r"\d{1,3}(?:[.,]\d)?(?::\d\d)?"
_BETWEEN = re.compile(
    rf"(?<![\d.,:/-])(?P<head>(?:rpe|rir)\s*[:@]?\s*|(?P<count>\d{{1,2}})\s*(?:x|sets?\s+(?:of|x))\s*(?:{_FIGURE}\s*-\s*)?|(?<=\w\s)x\s*(?:{_FIGURE}\s*-\s*)?)?"
    rf"(?P<one>{_FIGURE}|(?<![a-z])(?:max|amrap)(?![a-z]))\s*(?:{_UNIT.format(1)})?(?:\s+(?:an?|per|each|every)(?:\s+(?:side|leg|arm|way|hand))?\b)?(?P<mark>\s+-+\s+|\s*,\s+|\s*;\s*)(?=(?P<two>{_FIGURE})(?:\s*-\s*{_FIGURE})?\s*(?:{_UNIT.format(2)}))",
    re.I,
)
_NEVER_TOGETHER = frozenset(("effort", "load", "share"))
_GOES_ON = re.compile(r"\S+(?:\s*(?:seconds?|secs?|s|minutes?|mins?)\b)?\s*,\s*\d", re.I)  # one more figure of a list
_FAR = 3  # a second figure so many times the first ends no range: "3 x 10 - 60 s"


def parted(text: str) -> str:
    """The text with a bar for each such mark; every character keeps its place."""
    while found := next((match for match in _BETWEEN.finditer(text) if _are_two(match)), None):
        start, end = found.span("mark")
        text = text[:start] + re.sub("[-,;]", "|", found["mark"]) + text[end:]
    return text


def _are_two(found: re.Match[str]) -> bool:
    one, two = _kind(found, 1), _kind(found, 2)
    head = (found["head"] or "").lower()
    if head.startswith(("rpe", "rir")) and not one:
        return two not in ("", "effort")
    is_list = "-" not in found["mark"]
    if one == two == "time" and found["count"] is not None and not is_list:
        return True  # "3x30 sec - 45 sec": with its unit said twice, the second is the rest
    if one == two == "time" and found["count"] not in (None, "2"):
        return not _GOES_ON.match(found.string, found.end())  # "3x30 s, 45 s" is no list for three sets
    if one and two:
        return one != two and {one, two} != {"reps", "sets"}
    if one or (two != "time" and two not in _NEVER_TOGETHER):
        return False
    if found["count"] is None:
        return bool(head) or (two == "time" and is_list and _is_far(found))  # "box jump x 3, 2 mins", "ring row 10, 90 s"
    if two in _NEVER_TOGETHER:
        return True
    return found["count"] != "2" if is_list else _is_far(found)


def _kind(found: re.Match[str], which: int) -> str:
    return next((name for name, _ in _KINDS if found[f"{name}{which}"]), "")


def _is_far(found: re.Match[str]) -> bool:
    """Is the second, a time, too long to be counted with the first?"""
    seconds = _amount(found["two"]) * (60 if re.match(r"min|'", found["time2"], re.I) else 1)
    return seconds >= _FAR * _amount(found["one"])


def _amount(figure: str) -> Decimal:
    """A count; nothing for as many as possible, which no time is near to."""
    if figure.isalpha():
        return Decimal(0)
    return Decimal(figure.replace(",", ".").split(":")[0])
