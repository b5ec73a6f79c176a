"""What holds for every exercise that says nothing else? Coaches say it once, above the days.

"everything is reps x sets"                  -> "8x4" is four sets of eight
"rest 90 unless I say otherwise"             -> the rest of each exercise without one
"all sets RIR 2", "tempo 3010 throughout"    -> the same for effort and tempo
"M W F", "Mo Di Do Fr", "L X V"              -> weekdays by their first letters, also at the head of a day
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from bot.language.blocks.amounts import read_rest
from bot.language.blocks.clauses import read_clauses
from bot.language.blocks.counts import SETS_LIMIT
from bot.language.blocks.growth import MoreSets, more_sets_in
from bot.language.blocks.letters import count_words_as_figures
from bot.language.blocks.prose import sentences
from bot.language.blocks.scan import Mark
from bot.training.blocks import Rest
from bot.training.loads import Unit


@dataclass(slots=True)
class Conventions:
    """unit: of loads without one. initials: how the coach shortens weekdays, in lower case, to their number (Monday 0)."""

    unit: Unit | None = None
    reps_first: bool = False
    bracketed: str = ""  # what a lone figure in brackets is: "rir" or "rpe"
    week_in_brackets: int = 0  # the week that sets in brackets are for
    weights: dict[str, str] = field(default_factory=dict)  # loads named above the days, with their unit
    rest_unit: str = ""  # of rests that are said without one
    rest: Rest | None = None
    marks: dict[str, Mark] = field(default_factory=dict)
    initials: dict[str, int] = field(default_factory=dict)
    more_sets: MoreSets | None = None  # on top in later weeks


_HOLDS = re.compile(
    r"\b(?:unless|otherwise|throughout|everywhere|every\s?thing|always|by\s+default|default|standard|all\s+(?:sets|exercises|lifts|moves|work|rests?|tempos?)|"
    r"(?:on|for|of|in|after)\s+(?:all|every)(?:\s+(?:sets?|exercises?|lifts?|moves?))?|whole\s+block|as\s+usual|(?:if|when|where)\s+(?:i\s+(?:say|write|give|put)\s+)?(?:nothing|none)(?:\s+else)?|(?:if|when|where)\s+i\s+(?:don't|do\s+not)\s+(?:say|write|give|put)\b|(?:if|when|where)\s+(?:none|not|nothing)\s+(?:is\s+)?(?:written|said|given|stated|there))\b",
    re.I,
)
_REPS_FIRST = re.compile(
    r"\breps?\s*(?:x|by|first\b|before\b|then\b)\s*(?:sets?\b)?|\breps\s+(?:come|go|are\s+written|stand)\s+first\b", re.I
)


_IN_BRACKETS = re.compile(
    r"\b(?P<what>rir|rpe|rests?)\s+(?:is\s+|are\s+|stands?\s+)?(?:in|within|inside)\s+(?:the\s+)?(?:\(\s*\)|\[\s*\]|brackets|parenthes[ie]s)|(?:\(\s*\)|\[\s*\]|[(\[]\d[)\]]|brackets|parenthes[ie]s)\s*(?:=|is|are|means?|:)\s*(?:the\s+)?(?P<what2>rir|rpe|rests?)\b",
    re.I,
)
_BRACKETED = re.compile(r"[(\[]\s*(?P<figure>\d{1,2}(?:[.,]5)?(?:\s*-\s*\d{1,2})?)\s*[)\]]")
_REST_BRACKETED = re.compile(
    r"[(\[]\s*(?P<figure>\d{1,3}(?::\d\d)?(?:\s*-\s*\d{1,3})?\s*(?:s|secs?|m|mins?|'|\")?)\s*[)\]]", re.I
)
_RESTS_IN = re.compile(
    r"\b(?:all\s+)?rests?(?:\s+times?)?\s*(?:\(\s*|(?:is|are)\s+)*(?:given\s+|written\s+)?(?:in\s+)?(?P<unit>secs?\b|seconds|mins?\b|minutes)",
    re.I,
)
_REST_IF_NONE = re.compile(
    r"\brest.*\b(?:if|when|where)\s+(?:none|nothing|not)\s+(?:is\s+)?(?:written|said|given|stated|there)\s*[,:=]*\s*(?:(?:it's|its|it\s+is|then|take|do|use|rest)\s+)*(?P<time>\d+(?::\d\d)?\s*(?:s|secs?|mins?|m)?)\b",
    re.I,
)
_WEEK_IN_BRACKETS = re.compile(
    r"(?:\(\s*\)|\(\.+\)|brackets|parenthes[ie]s)\s*(?:=|is|are|means?|:|for)\s*(?:for\s+)?(?:from\s+)?w(?:ee)?ks?\s*(?P<week>\d{1,2})",
    re.I,
)
_SETS_IN_BRACKETS = re.compile(r"\((?P<sets>\d{1,2}\s*x\s*[^()]+)\)", re.I)


_WEIGHTS = re.compile(
    r"(?P<figures>\d{1,3}(?:[.,]\d)?(?:\s*(?:,|/|&|\+|and|or)\s*\d{1,3}(?:[.,]\d)?)+)\s*(?P<unit>kgs?|kilos?|lbs?|pounds?)\b",
    re.I,
)


def with_weights_named(text: str, weights: Mapping[str, str]) -> str:
    """ "4x5 (16)" as "4x5 (16 kg)", where the coach said that there are 16 and 24 kg."""
    return re.sub(
        r"\((\d{1,3}(?:[.,]\d)?)\)", lambda found: f"({found[1]} {weights[found[1]]})" if found[1] in weights else found[0], text
    )


def with_weeks_named(text: str, week: int) -> str:
    """ "4x10 (4x8)" as "4x10 (week 3: 4x8)", for a coach who writes later weeks so."""
    return _SETS_IN_BRACKETS.sub(lambda found: f"(week {week}: {found['sets']})", text)


def with_brackets_named(text: str, what: str) -> str:
    """ "3x10 (2)" as "3x10 RIR 2", for a coach who writes it so."""
    word = "rest" if what.startswith("rest") else what.upper()
    return (_REST_BRACKETED if word == "rest" else _BRACKETED).sub(lambda found: f"{word} {found['figure']}", text)


def holds_for_all(text: str) -> bool:
    """Does a line speak of every exercise at once?"""
    return bool(_HOLDS.search(text))


def take_conventions(into: Conventions, text: str) -> bool:
    """Keep what a line above the days says of all exercises; False where it says nothing of them."""
    return any([_take_one(into, part) for part in sentences(text) or (text,)])  # noqa: C419 - each sentence is looked at


def _take_one(into: Conventions, text: str) -> bool:
    more = more_sets_in(count_words_as_figures(text))
    if more is not None:
        into.more_sets = more
        return True
    turned = bool(_REPS_FIRST.search(text)) and not re.search(r"\bsets?\s*(?:x|by)\s*reps?\b", text, re.I)
    into.reps_first = into.reps_first or turned
    for weights in _WEIGHTS.finditer(text):
        into.weights |= dict.fromkeys(re.findall(r"\d+(?:[.,]\d)?", weights["figures"]), weights["unit"])
    rests = _RESTS_IN.search(text)
    into.rest_unit = into.rest_unit or (rests["unit"][0].lower().replace("m", "min") if rests else "")
    week = _WEEK_IN_BRACKETS.search(text)
    into.week_in_brackets = into.week_in_brackets or (int(week["week"]) if week else 0)
    bracketed = _IN_BRACKETS.search(text)
    into.bracketed = into.bracketed or ((bracketed["what"] or bracketed["what2"]).lower() if bracketed else "")
    if not holds_for_all(text) or re.search(r"\bw(?:ee)?ks?\s*\d", text, re.I):
        return turned
    otherwise = _REST_IF_NONE.search(text)
    if otherwise:
        into.rest = read_rest(f"{otherwise['time']} {into.rest_unit}" if otherwise["time"].isdigit() else otherwise["time"])
        return True
    said = read_clauses(text, has_name=False)
    if said.schemes or said.faults:
        return turned
    rest = said.fields.get("rest")
    marks = {mark.field: mark for mark in said.marks if mark.field in ("tempo", "rir", "rpe") and len(mark.values) == 1}
    into.rest = into.rest or rest
    into.marks = {**marks, **into.marks}
    return turned or rest is not None or bool(marks)


_COUNT = r"(?:\d{1,3}(?:\s*-\s*\d{1,3})?(?:\s*/\s*\d{1,3})*\+?\s*(?:reps?|s|secs?|seconds|min|m|steps)?|amrap|max)"
_TURNED = re.compile(rf"(?<![\w./-])(?P<count>{_COUNT})\s*x\s*(?P<sets>\d{{1,2}})(?![\w.]|\s*x)", re.I)


def sets_first(text: str) -> str:
    """ "8x4" as "4x8", for a coach who writes the reps first."""
    return _TURNED.sub(
        lambda found: f"{found['sets']}x{found['count'].strip()}" if int(found["sets"]) <= SETS_LIMIT else found[0], text
    )


# How weekdays are shortened, Monday first: English, German, Spanish, French or Italian, Dutch.
_ALPHABETS = (
    ("m|mo", "t|tu", "w|we", "t|th|r", "f|fr", "s|sa", "s|su"),
    ("mo", "di", "mi", "do", "fr", "sa", "so"),
    ("l|lu", "m|ma", "x|mi", "j|ju", "v|vi", "s|sa", "d|do"),
    ("l|lu", "ma", "me", "j|g|je|gi", "v|ve", "s|sa", "d|di|do"),
    ("ma", "di", "wo", "do", "vr", "za", "zo"),
)
_LETTERS = re.compile(r"(?<![\w'.])(?:[A-Z][A-Za-z]?\s*(?:[,/&+-]|\b(?:and|und|y|et|en|e)\b)?\s*){2,7}(?![\w'])")


_GLUED = re.compile(r"(?<![\w'])(?:M|T[uh]?|W|Th|F|Sa?|Su)(?:T[uh]?|W|F|S[au]?){2,5}(?![\w'])")  # "MWF"


def weekdays_by_letters(text: str) -> dict[str, int]:
    """ "M W F" -> {"m": 0, "w": 2, "f": 4}; empty where the letters are no weekdays in their order."""
    text = _GLUED.sub(lambda found: " ".join(re.findall("[A-Z][a-z]?", found[0])), text)
    for found in _LETTERS.finditer(text):
        words = [word.lower() for word in re.findall(r"\b[A-Z][A-Za-z]?\b", found[0])]
        if len(words) < 2 or (len(words) == 2 and not re.search(r"[/&+,]", found[0])):
            continue
        for alphabet in _ALPHABETS:
            if days := _in_order(words, alphabet):
                return dict(zip(words, days, strict=True))
    return {}


def _in_order(words: list[str], alphabet: tuple[str, ...]) -> list[int]:
    days: list[int] = []
    for word in words:
        after = days[-1] + 1 if days else 0
        day = next((n for n in range(after, 7) if word in alphabet[n].split("|")), None)
        if day is None:
            return []
        days.append(day)
    return days
