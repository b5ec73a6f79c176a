"""Which part of a coach's sentence is the exercise, and what do sentences above the days say of the block?

"We start with goblet squats, 4 sets of 8"            -> goblet squats
"Then superset rows 3x10 with push-ups 3x12"          -> two exercises
"It runs 6 weeks. We train mon, tue, thu and fri."    -> six weeks, four weekdays
"All weights in lb"                                   -> the unit of loads without one
"""

from __future__ import annotations

import re
from collections.abc import Callable

from bot.language.blocks.headings import WEEKDAYS
from bot.language.blocks.letters import count_words_as_figures
from bot.training.loads import Unit

_FIRST = r"(?:and|then|next|now|first(?:ly)?|second(?:ly)?|third(?:ly)?|finally|last(?:ly)?|also|today|so|ok(?:ay)?|please|here|after\s+(?:that|this)|from\s+there)"
_WHO = r"(?:we(?:'ll|\s+will|\s+are\s+going\s+to)?|you(?:'ll|\s+will)?|i\s+want\s+you\s+to|i'd\s+like\s+you\s+to|let's|it's|this\s+is)"
_DOES = r"(?:start(?:s|ing)?|begin(?:s|ning)?|open(?:s|ing)?|kick(?:ing)?|finish(?:es|ing)?|end(?:s|ing)?|clos(?:e|ing)|continu(?:e|ing)|carry(?:ing)?|mov(?:e|ing)|go(?:ing)?|follow(?:ed|ing)?|do(?:ing)?|perform|add|hit|get|have|comes?|round)"
_HOW = r"(?:off|up|out|on|it|this|that|things|the\s+day|straight)"
_WITH = r"(?:with|by|into|to|onto|doing|some|is|are|a|an|the|your)"
_LEAD = re.compile(rf"^(?:(?:{_FIRST}|{_WHO}|{_DOES}|{_HOW}|{_WITH})[\s,:]+)+", re.I)
_PAIRED = re.compile(
    rf"^(?:(?:{_FIRST}|{_WHO})[\s,:]+)*(?:super-?\s?set|pair|alternate|combine|tri-?set)\s+(?:of\s+)?(?P<rest>\S.+)$", re.I
)
_BETWEEN = re.compile(r"\s*(?:,\s*)?\b(?:with|and|plus)\s+|\s*[+&]\s*", re.I)


def without_lead(text: str) -> str:
    """The words behind "then", "we finish with" and their like."""
    return _LEAD.sub("", text, count=1)


def paired(text: str, is_exercise: Callable[[str], bool]) -> tuple[str, ...]:
    """The parts of "superset X 3x10 with Y 3x12", each beginning with its exercise; empty where that is not said."""
    found = _PAIRED.match(text)
    if not found:
        return ()
    parts: list[str] = []
    at = 0
    rest = found["rest"]
    for cut in _BETWEEN.finditer(rest):
        if _begins(rest[cut.end() :], is_exercise) and _begins(rest[at : cut.start()], is_exercise):
            parts.append(rest[at : cut.start()])
            at = cut.end()
    return (*parts, rest[at:]) if parts else ()


def _begins(text: str, is_exercise: Callable[[str], bool]) -> bool:
    words = re.match(r"[^\d,;:(]+", text)
    return words is not None and is_exercise(re.sub(r"\s+(?:for|x|of)$", "", words[0].strip(), flags=re.I))


_WEEKS = re.compile(
    r"(?<![\w.])(?P<low>\d{1,2})(?:\s*(?:-|to|or)\s*(?P<high>\d{1,2}))?[\s-]*(?:weeks?|wks?)\b(?!\s*(?:ago|in\b|off|out|apart))",
    re.I,
)


def weeks_in(text: str) -> tuple[int, int | None, int | None] | None:
    """(usual, least, most) of a length said within a sentence, or None."""
    found = _WEEKS.search(count_words_as_figures(text))
    if not found or not 1 <= int(found["low"]) <= 52:
        return None
    low, high = int(found["low"]), int(found["high"]) if found["high"] else None
    return (low, low, high) if high and high > low else (low, None, None)


_DAY = r"(?:mon(?:days?)?|tue(?:s(?:days?)?)?|wed(?:nesdays?|s)?|thu(?:r(?:s(?:days?)?)?)?|fri(?:days?)?|sat(?:urdays?)?|sun(?:days?)?)"
_TRAINS = re.compile(
    rf"\b(?:train(?:ing)?|work(?:ing)?\s*outs?|sessions?|lift(?:ing)?|days?|gym)\b[^.;\n]{{0,15}}?\b(?P<days>{_DAY}\b(?:\s*[,/+]\s*{_DAY}\b)*(?:\s*,?\s*(?:and|&)\s*{_DAY}\b)?)",
    re.I,
)


def training_weekdays(text: str) -> tuple[int, ...]:
    """Weekdays (Monday 0) of "we train mon, tue and fri"; empty where none are said."""
    found = _TRAINS.search(text)
    if not found or re.match(r"[^.;\n]{0,12}\b(?:off|rest|free)\b", text[found.end() :], re.I):
        return ()
    named = [word.lower()[:3] for word in re.findall(_DAY, found["days"], re.I)]
    return tuple(dict.fromkeys(next(n for n, day in enumerate(WEEKDAYS) if day.startswith(word)) for word in named))


_UNIT = re.compile(
    r"\b(?:all|weights?|loads?|everything|dumbbells?|numbers?|figures?|units?)\b[^.;\n\d]*?\b(?P<unit>lbs?|pounds?|kgs?|kilos?|kilograms?)\b",
    re.I,
)


def unit_in(text: str) -> Unit | None:
    """The unit that loads of the block are in, where a sentence says so."""
    found = _UNIT.search(text)
    return None if not found else Unit.KG if found["unit"].lower().startswith("k") else Unit.LB


def alternatives(name: str, is_exercise: Callable[[str], bool]) -> tuple[str, ...]:
    """ "chin-ups or band pulldowns" as a list; empty where the parts are no exercises of their own."""
    parts = [part.strip(" .,()") for part in re.split(r"\s*[,/]?\s+or\s+(?:do\s+|use\s+)?", name, flags=re.I)]
    return tuple(parts) if len(parts) > 1 and all(part and is_exercise(part) for part in parts) else ()
