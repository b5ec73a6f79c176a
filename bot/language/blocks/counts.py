"""How many sets of how much? Reads the figures at the heart of a prescription.

"3x10"              three sets of 10             "3 x 12/10/8"     one number a set
"4x8-10"            a range                      "12, 10, 8"       one number a set, sets counted
"3 sets of 8 to 10" the same in words            "4x AMRAP"        as many as possible
"10 reps x 3 sets"  the other way round          "3x8+"            at least 8
"3x30s", "2x20 steps", "3x40m", "2 x 1 min"      seconds, steps, metres
"3x100 ft"                                       whole metres, and the feet as said
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from bot.training.blocks import Measure

SETS_LIMIT, COUNT_LIMIT = 12, 300

# Units after a count. Those that the bot does not count in are recognised, so that the mistake can be named.
_UNIT = r"""(?:reps?\b|repetitions?\b|seconds?\b|secs?\b|s(?![a-z'])|"|minutes?\b|mins?\b|'|steps?\b|paces?\b|metres?\b|meters?\b|m(?![a-z'])|
            yards?\b|yds?\b|feet\b|ft\b|breaths?\b|cals?\b|calories\b|laps?\b|lengths?\b|miles?\b|km\b)"""
_AMRAP = r"""(?:amrap|a\.m\.r\.a\.p\.?|as\s+many(?:\s+(?:good|clean))?(?:\s+reps?)?\s+as\s+(?:possible|you\s+can)|max(?:imum)?(?:\s*(?:reps?|effort|out))?\b|
             (?:just\s+)?keep\s+going\s+(?:till|until)\s+you\s+(?:can't|cannot|drop|fail)(?:\s+any\s*more)?|(?:till|until)\s+(?:you\s+(?:can't|cannot|drop|fail)(?:\s+any\s*more)?|nothing(?:'s|\s+is)?\s+left)|(?:to\s+|till\s+|until\s+)?(?:near\s+|technical\s+)?fail(?:ure)?\b|all\s+out\b|as\s+long\s+as\s+(?:possible|you\s+can(?:\s+(?:hold|manage|hang|last))?))"""
# What may follow a number that is no count: a load, an effort, a phase, a week ...
_NOT_AFTER = r"""(?!\s*(?:x\s*\d|kgs?\b|kilos?\b|lbs?\b|pounds?\b|%|rir\b|rpe\b|°|deg|in\s+(?:reserve|the\s+tank)|(?:bottom|top|lower|upper|half|quarter|short)?[\s-]*
             (?:partials?|pulses?|quarter|half|short)\b|(?:s|secs?|seconds?)\s+(?:rest|pause|hold\s+at|down|up|eccentric|lower|negative|squeeze|stretch)|
             (?:m|mins?|minutes?)\s+rest|(?:rest|pause|squeeze|stretch|down|up(?!\s+to)|eccentric|lower(?:ing)?|negatives?)\b|weeks?\b|sets?\b|rounds?\b|drops?\b))"""
_NUMBER = r"(?<![\d.:])\d{1,3}(?:\.\d)?(?::\d\d)?(?![\d:])"
_SPAN = rf"{_NUMBER}(?:\s*(?:-|to)\s*{_NUMBER})?"
COUNT = rf"(?:{_SPAN}(?:\s*\+(?!\s*\d))?(?:\s*{_UNIT})?(?:\s*{_AMRAP}\b)?|as\s+needed(?:\s*{_UNIT})?|{_AMRAP}(?:\s*(?:reps|seconds|secs?|steps|metres|meters|hold)\b)?(?:\s*\(?\s*(?:min(?:imum)?|at\s+least)\.?\s*\d+\)?)?)"
_ITEM = rf"{COUNT}{_NOT_AFTER}"
LIST = rf"(?:{_ITEM}(?:\s*[,/]\s*(?:then\s+)?{_ITEM}|\s*(?:,\s*)?\bthen\s+{_ITEM}|\s*-\s*(?=\d+\s*-|\d+\b){_ITEM})*)"
SETS = r"(?P<sets>\d{1,2})(?:\s*(?:-|to)\s*(?P<sets_to>\d{1,2}))?"

SCHEME = re.compile(
    rf"(?<![\d.x/-]){SETS}\s*(?:(?:total\s+|working\s+|work\s+|hard\s+)?sets?\s*(?:of|x|@|:|-|,|to)?|rounds?\s*(?:of|x|:)?|(?:holds?|trips?|lengths?|carries|bouts?|lots?|goes|turns|efforts?|runs?)\s+of|times(?:\s+for)?|by(?=\s*\d)|x)\s*(?P<list>{LIST})",
    re.I | re.X,
)
REVERSED = re.compile(
    rf"(?P<list>{COUNT}){_NOT_AFTER}\s*(?:x|for|,|/)?\s*(?P<sets>\d{{1,2}})\s*(?:total\s+|working\s+|work\s+)?(?:sets?|rounds?)\b",
    re.I | re.X,
)
UNIT_TIMES = re.compile(
    rf"(?<![\d.x-])(?P<list>{_SPAN}\s*{_UNIT}|{_AMRAP})\s*x\s*(?P<sets>\d{{1,2}})(?![\d.]|\s*(?:kg|lb))", re.I | re.X
)
SET_COUNT = re.compile(rf"(?<![\d.x/-]){SETS}\s*(?:total\s+|working\s+|work\s+|hard\s+)?(?:sets?|rounds?)\b", re.I | re.X)
KEYED_SETS = re.compile(rf"\b(?:sets?|rounds?)\s*[:=]\s*{SETS}(?!\s*x)", re.I | re.X)
KEYED_COUNT = re.compile(
    rf"\b(?:reps?|repetitions?|time|hold|distance|duration)\s*[:=]\s*(?!\d+\s*(?:holds?|sets?|rounds?|times|x)\b)(?P<list>{LIST})",
    re.I | re.X,
)
BARE_LIST = re.compile(
    rf"(?<![\d.x/-])(?P<list>{_ITEM}(?:(?:\s*[,/]\s*(?:then\s+)?{_ITEM}){{2,}}|(?:\s*-\s*\d{{1,3}}(?![\d.x])){{2,}}))(?:\s*reps?\b)?",
    re.I | re.X,
)
BARE_COUNT = re.compile(rf"(?<![\d.x/-])(?P<list>{_SPAN}(?:\s*\+(?!\s*\d))?\s*{_UNIT}|{_AMRAP}){_NOT_AFTER}", re.I | re.X)
ANY_LIST = re.compile(rf"(?<![\d.x/-])(?P<list>{LIST})", re.I | re.X)

_ONE = re.compile(
    rf"(?:(?P<low>{_NUMBER})(?:\s*(?:-|to)\s*(?P<high>{_NUMBER}))?\s*(?P<plus>\+)?\s*(?P<unit>{_UNIT})?\s*(?P<open>{_AMRAP})?|"
    rf"(?P<amrap>{_AMRAP})\s*(?P<open_unit>reps|seconds|secs?|steps|metres|meters|hold)?(?:\s*\(?\s*(?:min(?:imum)?|at\s+least)\.?\s*(?P<least>\d+)\)?)?)",
    re.I | re.X,
)
_SPLIT = re.compile(r"\s*[,/]\s*(?:then\s+)?|\s*\bthen\s+", re.I)


@dataclass(frozen=True, slots=True)
class Count:
    """What one set asks for. measure None: no unit was written. wrong: what is the matter with it, "" if nothing.

    said: the count as written where it was turned into metres, such as "100 ft"; else "".
    """

    low: int | None = None
    high: int | None = None
    measure: Measure | None = None
    amrap: bool = False
    wrong: str = ""
    instead: str = ""
    said: str = ""


def read_counts(text: str) -> tuple[Count, ...]:
    """Every count of a list; a unit or a plus said at the end ("12/10/8 reps") is the unit of all."""
    dashed = re.fullmatch(rf"\s*{_NUMBER}(?:\s*-\s*{_NUMBER}){{2,}}\s*({_UNIT})?\s*", text, re.I | re.X)
    parts = re.findall(r"\d+", text) if dashed else [part for part in _SPLIT.split(text.strip()) if part]
    counts = [_one(part) for part in parts]
    unit = (
        _measure(dashed[1])
        if dashed and dashed[1]
        else next((count.measure for count in reversed(counts) if count.measure), None)
    )
    return tuple(_with_unit(count, unit) for count in counts)


def _with_unit(count: Count, unit: Measure | None) -> Count:
    if count.measure is not None or unit is None:
        return count
    return replace(count, measure=unit)


def _one(text: str) -> Count:
    found = _ONE.fullmatch(text.strip().rstrip("."))
    needed = re.fullmatch(rf"as\s+needed\s*({_UNIT})?", text.strip(), re.I | re.X)
    if needed:
        return Count(measure=_measure(needed[1]) if needed[1] else None)
    if not found:
        return Count(wrong=f'"{text.strip()}" is no number of reps', instead="write a number, a range such as 8-10, or AMRAP")
    if found["amrap"]:
        least = int(found["least"]) if found["least"] else None
        measure = _measure(found["open_unit"]) if found["open_unit"] else None
        if measure is None and re.search("long", found["amrap"], re.I):
            measure = Measure.SECONDS
        return Count(least, least, measure, amrap=True)
    unit = (found["unit"] or "").lower()
    low, high = _figure(found["low"], unit), _figure(found["high"] or found["low"], unit)
    wrong, instead = _faults(text.strip(), low, high, unit)
    measure = _measure(unit) if unit else _clock(found["low"])
    said = text.strip() if _in_metres(unit) else ""
    return Count(low, high, measure, bool(found["plus"] or found["open"]), wrong, instead, said)


def _clock(number: str) -> Measure | None:
    return Measure.SECONDS if ":" in number else None


def _figure(number: str, unit: str) -> int:
    if ":" in number:
        minutes, seconds = number.split(":")
        return int(float(minutes)) * 60 + int(seconds)
    value = float(number)
    metres = _in_metres(unit)
    if metres:
        return round(value * metres)
    return round(value * 60) if unit.startswith("min") or unit == "'" else int(value)


def _measure(unit: str) -> Measure | None:
    word = unit.lower()
    if word.startswith("rep"):
        return Measure.REPS
    if word.startswith(("st", "pa")):
        return Measure.STEPS
    if word.startswith(("min", "s", "hold")) or word in ('"', "'"):
        return Measure.SECONDS
    if word.startswith("met") or word == "m" or _in_metres(word):
        return Measure.METRES
    return None


# The international yard of 1959 is exactly 0.9144 m, a foot a third of it, a mile 1760 of it (NIST SP 811, appendix B).
_METRES = {"y": 0.9144, "f": 0.3048, "mil": 1609.344, "km": 1000.0}


def _in_metres(unit: str) -> float:
    """How many metres a unit of length has that is none itself; 0 for every other word."""
    return next((metres for start, metres in _METRES.items() if unit.lower().startswith(start)), 0)


def _faults(text: str, low: int, high: int, unit: str) -> tuple[str, str]:
    if unit and _measure(unit) is None:
        return f'"{text}" is counted in {unit}, which I cannot count', "write reps, seconds, steps or metres"
    if low > high:
        return f'the range "{text}" runs downwards', f"write {high}-{low} for a range, or {low}, {high} for one number a set"
    if low < 1:
        return f'"{text}" asks for nothing', "write 1 or more, or leave the set out"
    limit = COUNT_LIMIT * 12 if unit and _measure(unit) is not Measure.REPS else COUNT_LIMIT
    if high > limit:
        return f'"{text}" is more than a set can hold', "write the count of one set"
    return "", ""
