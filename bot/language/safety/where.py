"""Where, on which side and how badly does a text say that it hurts, and at which exercise?"""

from __future__ import annotations

import re

from bot.language.safety.harmless import without_harmless
from bot.language.safety.words import Clause
from bot.training.safety import PART_OF_WORD, WORST_PAIN

_SEVERITY = (
    re.compile(r"(?<![\d.])(10|\d)\s*(?:/|out of|of)\s*10\b"),
    re.compile(
        r"\b(?:pain|hurts?|ache|aching|severity|level|scale|sore|bad|painful)\b(?:\W+(?:is|was|at|a|about|around|like|level|of|maybe|say|score|its|it|s|an?|to|feels?|on|scale|now|only|just|roughly|probably|still)){0,4}\W+(10|\d)(?![\d./]|\s*(?:kg|lbs?|reps?|sets?|min|sec|x|days?|weeks?|times|hours?|months?|years?|of\b))"
    ),
    re.compile(r"(?<![\d.])(10|\d)\s*(?:on (?:the|a) (?:pain )?scale|pain\b(?! free))"),
    re.compile(r"\b(10|\d)\s*[-–]\s*(10|\d)\s*/\s*10"),
)
_WORD_SEVERITY = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10}
_WORDED = re.compile(r"\b(one|two|three|four|five|six|seven|eight|nine|ten) (?:out of|of|on) (?:ten|10)\b")
_SLOT = re.compile(r"\b([a-h][1-9])\b", re.IGNORECASE)
_BACK = re.compile(r" (lower|low|upper|mid|middle|bottom|top|small)(?: of(?: my| the)?)? (?:back|spine)(?= |$)")
_NOT_THE_PART = re.compile(
    r" (?:(?:came|come|go|going|went|get|got|be|been|put|step|set|hold|held|cut|scale|pull|fall|fell|am|im|bounce|welcome|right|straight|day|text|write|feed|hear) back|back (?:to|at|on|in|then|from|up|off|again)|"
    r"on (?:the )?other hand|head (?:to|off|up|over)|foot elevated|hand (?:weights?|held)|by hand|first hand|leg day|arm day|back day)(?= |$)"
)


def parts_in(clauses: tuple[Clause, ...]) -> tuple[str, ...]:
    found: dict[str, None] = {}
    for clause in clauses:
        line = _NOT_THE_PART.sub(lambda match: " " + "·" * (len(match.group()) - 1), without_harmless(clause.line))
        where = {match.end(): match.group(1) for match in _BACK.finditer(line)}
        at = 0
        for word in line.split(" ")[1:]:
            at += 1 + len(word)
            part = PART_OF_WORD.get(word)
            if part == "back":
                said = where.get(at, "")
                part = (
                    "upper back"
                    if said in ("upper", "mid", "middle", "top") or word.startswith(("lat", "trap"))
                    else "lower back"
                    if said
                    else "back"
                )
                part = "lower back" if word in ("lumbar", "si", "tailbone") else part
            if part:
                found[part] = None
    return tuple(found)


def side_of(clauses: tuple[Clause, ...], parts: tuple[str, ...]) -> str:
    said = {word.word for clause in clauses for word in clause.words}
    if "both" in said or {"left", "right"} <= said:
        return "both"
    if "left" in said or ("l" in said and parts):
        return "left"
    # "right" is a side only beside a part of the body: "right in the middle", "all right".
    line = "".join(clause.line for clause in clauses)
    words = "|".join(PART_OF_WORD)
    return "right" if re.search(rf" (?:right|r) (?:\S+ )?(?:{words}|side)(?= |$)|(?:{words}) (?:on the )?right", line) else ""


def severity_of(text: str) -> int | None:
    lowered = text.lower()
    span = _SEVERITY[3].search(lowered)
    if span:
        return max(int(span.group(1)), int(span.group(2)))
    for pattern in _SEVERITY[:3]:
        for match in pattern.finditer(lowered):
            if not re.search(r"(?:rpe|effort|rir)\W*(?:was|of|about|is)?\W*$", lowered[: match.start(1)]):
                return min(int(match.group(1)), WORST_PAIN)
    worded = _WORDED.search(lowered)
    return _WORD_SEVERITY[worded.group(1)] if worded else None


def exercise_words_in(text: str) -> str:
    slot = _SLOT.search(text)
    if slot:
        return slot.group(1).upper()
    from bot.training.exercises.catalogue import load_catalogue

    mentions = load_catalogue().names.mentions(text)
    return text[mentions[0].start : mentions[0].end] if mentions else ""
