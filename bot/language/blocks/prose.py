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
from bot.language.blocks.letters import NUMBER_WORDS, count_words_as_figures
from bot.training.loads import Unit

_FIRST = r"(?:(?:the\s+)?(?:first|second|third|next|last|main|final|other)\s+(?:job|thing|up|exercises?|move(?:ment)?s?|lift|one|bit|piece)|up\s+next|to\s+(?:start|begin|finish|end|close)(?:\s+(?:with|off|on|things?\s+off))?|and|then|next|now|first(?:ly)?|second(?:ly)?|third(?:ly)?|last\s+of\s+all|most\s+of\s+all|finally|last(?:ly)?|also|today|so|ok(?:ay)?|please|here|after\s+(?:that|this)|from\s+there)"
_WHO = r"(?:we(?:'ll|\s+will|\s+are\s+going\s+to)?|you(?:'ll|\s+will)?|i\s+want\s+you\s+to|i'd\s+like\s+you\s+to|let's|it's|this\s+is)"
_DOES = r"(?:start(?:s|ing)?|begin(?:s|ning)?|open(?:s|ing)?|kick(?:ing)?|finish(?:es|ing)?|end(?:s|ing)?|clos(?:e|ing)|continu(?:e|ing)|carry(?:ing)?|mov(?:e|ing)|go(?:ing)?|follow(?:ed|ing)?|do(?:ing)?|perform|add|hit|get|have|comes?|round)"
_HOW = r"(?:off|up|out|on|it|this|that|things|the\s+day|straight)"
_WITH = r"(?:with|by|into|to|onto|doing|some|is|are|a|an|the|your)"
_LEAD = re.compile(rf"^(?:(?:{_FIRST}|{_WHO}|{_DOES}|{_HOW}|{_WITH})[\s,:]+)+", re.I)
_PAIRED = re.compile(
    rf"^(?:(?:{_FIRST}|{_WHO})[\s,:]+)*(?:(?:super-?\s?set|pair|alternate|combine|tri-?\s?set)s?\s*:?\s+(?:of\s+|between\s+)?|(?:go(?:ing)?\s+)?(?:back\s+and\s+forth|alternat\w+|switch\w*)\s+between\s+)(?P<rest>\S.+)$",
    re.I,
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


_LIST = re.compile(
    r"\s*[,;+&]\s*(?:and\s+|then\s+|plus\s+)?|\s+(?:and\s+then|and|plus|then|(?:straight\s+|right\s+)?into)\s+", re.I
)


def listed(text: str, is_exercise: Callable[[str], bool]) -> tuple[str, ...]:
    """The parts of "lunges, 10 each leg, and push-ups, max reps", each beginning with its exercise; empty for fewer than two."""
    starts = [0, *(cut.end() for cut in _LIST.finditer(text))]
    ends = [*(cut.start() for cut in _LIST.finditer(text)), len(text)]
    begins = [
        n
        for n, (start, end) in enumerate(zip(starts, ends, strict=True))
        if _begins(text[start:], is_exercise) or _begins(text[start:end], is_exercise)
    ]
    if len(begins) < 2 or begins[0] != 0:
        return ()
    stops = [*(ends[n - 1] for n in begins[1:]), len(text)]
    return tuple(text[starts[n] : stop] for n, stop in zip(begins, stops, strict=True))


def with_shared_sets(parts: tuple[str, ...]) -> tuple[str, ...]:
    """ "rows", "raises, 3 sets of 12 of each": sets said once behind the last are those of all."""
    said = (
        re.search(
            r"\s*[,:-]?\s*(?P<sets>\d.*?)(?:\s+(?:of\s+|for\s+)?(?:each|both)\b)?(?=[.;]\s|\s*$|\s*,\s*rest|\s+\d+\s*(?:s|secs?|seconds?|mins?|minutes?)\s+(?:of\s+)?(?:rest|after|between))",
            parts[-1],
        )
        if parts
        else None
    )
    if said is None or any(re.search(r"\d", part) for part in parts[:-1]):
        return parts
    last = f"{parts[-1][: said.start()]}, {said['sets']}{parts[-1][said.end() :]}"
    return (*(f"{part}, {said['sets']}" for part in parts[:-1]), last)


_COUNT_AND_NAME = re.compile(
    r"(?P<count>\d{1,3}(?:\s*(?:-|to)\s*\d{1,3})?)\s+(?P<name>[a-z][a-z -]*?)(?P<side>\s+(?:an?|each|per|every)\s+(?:side|leg|arm|hand))?(?=\s+and\s+\d|\s*[,.;]|\s+\d|\s*$)",
    re.I,
)


def with_counts_by_name(parts: tuple[str, ...], same: Callable[[str, str], bool]) -> tuple[str, ...]:
    """ "calf raises", "dead bugs 3 rounds 15 calf raises and 8 dead bugs a side, 60 s after each": each gets the count that names it."""
    rounds = (
        re.search(r"[\s,:]*(?P<sets>\d{1,2})\s*(?:rounds?|sets?|times)(?:\s+of)?\s+(?P<rest>\d.*)$", parts[-1], re.I)
        if parts
        else None
    )
    if rounds is None:
        return parts
    names = [*parts[:-1], parts[-1][: rounds.start()]]
    told = {
        number: found
        for found in _COUNT_AND_NAME.finditer(rounds["rest"])
        for number, name in enumerate(names)
        if same(name, found["name"])
    }
    if len(told) < len(parts):
        return parts
    tail = rounds["rest"][max(found.end() for found in told.values()) :]
    made = [
        f"{name}, {rounds['sets']} x {told[number]['count']}{told[number]['side'] or ''}" for number, name in enumerate(names)
    ]
    return (*made[:-1], made[-1] + tail)


_ROUNDS_BEHIND = re.compile(
    r"^(?P<list>[a-z].*?)[\s,;]*(?:\bfor\s+)?(?<![\dx] )(?<![\dx-])(?P<rounds>\d{1,2})\s+(?:rounds?|times\s+(?:through|round))\b(?P<tail>.*)$",
    re.I,
)


def rounds_first(text: str, is_exercise: Callable[[str], bool]) -> str:
    """ "squats x 3 and box jumps x 3 for 5 rounds, 2 min" as "5 rounds: squats x 3 and box jumps x 3, 2 min"; else the text."""
    found = _ROUNDS_BEHIND.match(text)
    parts = listed(found["list"], is_exercise) if found else ()
    if found is None or len(parts) < 2 or not all(re.search(r"\d|\b(?:max|amrap)\b", part, re.I) for part in parts):
        return text
    return f"{found['rounds']} rounds: {found['list']}{found['tail']}"


_STOP = re.compile(
    r"(?<!\s[a-z])(?<!\d)(?<!min)(?<!sec)(?<!\bex)(?<!\bea)(?<!approx)(?<!\bvs)(?<!\bca)(?<!\bno)(?<!\bnr)[.!?]+[)\"']?\s+(?=\S)|(?<=\d)[.!?]+\s+(?=[A-Z])",
    re.I,
)


def sentences(text: str) -> tuple[str, ...]:
    """The sentences of a paragraph, without their stops."""
    parts: list[str] = []
    at = 0
    for stop in _STOP.finditer(text):
        parts.append(text[at : stop.start()].strip())
        at = stop.end()
    return tuple(part for part in (*parts, text[at:].strip().rstrip(".!")) if part)


def without_tail(name: str, is_exercise: Callable[[str], bool]) -> tuple[str, str]:
    """("hammer curls", "for the beach"): the name, and words behind it that are none of it."""
    for cut in reversed(
        list(
            re.finditer(
                r"[\s,]+(?=(?:for|with|to|in|on|at|under|over|from|off|against|as|(?<!leg )(?<!side )(?<!arm )first|next|again|today|now|after|please|done|then|using)\b)",
                name,
                re.I,
            )
        )
    ):
        if is_exercise(name[: cut.start()]):
            return name[: cut.start()], name[cut.end() :]
    return name, ""


def _begins(text: str, is_exercise: Callable[[str], bool]) -> bool:
    words = re.match(r"[^\d,;:(]+", text)
    if words is None:
        return False
    name = re.sub(r"^(?:the|some|your|an?)\s+|\s+(?:for|x|of)(?:\s+(?:max|amrap)\b.*)?$", "", words[0].strip(), flags=re.I)
    return is_exercise(name) or is_exercise(without_tail(name, is_exercise)[0])


_WEEKS = re.compile(
    r"(?<![\w.])(?<!\bcyc )(?<!\bcycle )(?<!\bblock )(?<!\bphase )(?<!\bplan )(?<!\bno )(?<!#)(?P<low>\d{1,2})(?:\s*(?:-|to|or)\s*(?P<high>\d{1,2}))?[\s-]*(?:weeks?|wks?)\b(?!\s*(?:ago|in\b|off|out|apart))",
    re.I,
)


_LONGER = re.compile(
    rf"\b(?:stretch|extend|prolong|repeat|go\s+on|carry\s+on|stay(?:\s+on\s+it)?|(?:up|run|last|longer|more))\b[^.\n]*?\b(?:up\s+)?to\s+(?P<most>\d{{1,2}}|{'|'.join(NUMBER_WORDS)})\b(?!\s*(?:reps?|sets?|%|kg|lb|min|sec))",
    re.I,
)


def weeks_in(text: str) -> tuple[int, int | None, int | None] | None:
    """(usual, least, most) of a length said within a sentence, or None."""
    found = _WEEKS.search(count_words_as_figures(text))
    if not found or not 1 <= int(found["low"]) <= 52:
        return None
    low, high = int(found["low"]), int(found["high"]) if found["high"] else None
    longer = _LONGER.search(text)
    if longer and high is None:
        most = int(longer["most"]) if longer["most"].isdigit() else NUMBER_WORDS[longer["most"].lower()]
        return (low, min(low, 4), most) if most > low else (low, None, None)
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
