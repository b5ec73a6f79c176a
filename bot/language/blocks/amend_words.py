"""A coach's change in everyday words, turned into the short form in which changes are read.

    "day 1: drop B1", "take B1 out of day 1"                  -> "remove day 1 B1"
    "add C1 plank 3x30s to day 2", "day 2: add C1 plank 3x30s" -> "day 2 add C1 plank 3x30s"
    "swap A1 day 1 for front squat"                           -> "day 1 A1 swap to front squat"
    "drop the plank on day 2"                                 -> "remove day 2 B1", by the name that stands there

A text in another shape comes back as it was. A length ("make it 6 weeks") is read apart.
"""

from __future__ import annotations

import re

from bot.training.blocks import Block, Day

_DAY = r"(?:(?:on|of|from|in|to|,|for)\s*)?day\s*(?P<{0}>\d+)\s*[:,]?"
_DROP = r"(?:drop|remove|delete|take\s+out|leave\s+out|cut|scrap|lose|take\s+away|kick\s+out)"
_SWAP = r"(?:swap|replace|change|switch|exchange)"
_WHAT = r"(?:the\s+)?(?P<what>[A-Za-z]\d|[A-Za-z][A-Za-z' -]{2,40}?)"
_PLEASE = r"^\s*(?:please\s+|ok(?:ay)?[,\s]+|can\s+(?:you|we)\s+|could\s+(?:you|we)\s+|let'?s\s+|amend\s*:?\s*)*"
_END = r"\s*(?:please|thanks)?\s*[.!]?\s*$"


def _shapes(*shapes: str) -> tuple[re.Pattern[str], ...]:
    return tuple(re.compile(_PLEASE + shape + _END, re.IGNORECASE | re.DOTALL) for shape in shapes)


_DROPS = _shapes(
    rf"{_DAY.format('day')}\s*{_DROP}\s+{_WHAT}",
    rf"{_DROP}\s+{_DAY.format('day')}\s*{_WHAT}",
    rf"(?:{_DROP}|take)\s+{_WHAT}(?:\s+out)?\s*(?:(?:out\s+)?{_DAY.format('day')})?",
)
_ADDS = _shapes(
    rf"{_DAY.format('day')}\s*(?:add|put\s+in|plus)\s*:?\s+(?P<line>[A-Za-z]\d\b.+?)",
    rf"(?:add|put\s+in)\s+{_DAY.format('day')}\s*(?P<line>[A-Za-z]\d\b.+?)",
    rf"(?:add|put\s+in)\s*:?\s+(?P<line>[A-Za-z]\d\b.+?)\s+{_DAY.format('day')}",
    r"(?:add|put\s+in)\s*:?\s+(?P<line>[A-Za-z]\d\b.+?)",
)
_FOR = r"\s*(?:for|with|to|by|->|→)\s+(?P<new>.+?)"
_SWAPS = _shapes(
    rf"{_DAY.format('day')}\s*{_SWAP}\s+{_WHAT}{_FOR}",
    rf"{_SWAP}\s+{_DAY.format('day')}\s*{_WHAT}{_FOR}",
    rf"{_SWAP}\s+{_WHAT}\s+{_DAY.format('day')}{_FOR}",
    rf"{_SWAP}\s+{_WHAT}{_FOR}\s+{_DAY.format('day')}",
    rf"{_SWAP}\s+{_WHAT}{_FOR}",
)
_COUNTS = {"four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "three": 3, "twelve": 12}
_LENGTH = re.compile(
    _PLEASE
    + r"(?:(?:make|let|change|extend|shorten|cut|set|run|stretch)\s+(?:it|this|the\s+block|block|the\s+length|length)?\s*(?:run\s+|last\s+|be\s+|for\s+|to\s+)*|(?:it|the\s+block|block)\s+(?:is|lasts|runs|should\s+(?:be|last|run)|shall\s+be)\s+(?:for\s+)?|length\s*:?\s*)"
    rf"(?P<count>\d{{1,2}}|{'|'.join(_COUNTS)})[\s-]*weeks?(?:\s+(?:long|instead(?:\s+of\s+\w+)?|now|in\s+all|in\s+total))*"
    + _END,
    re.IGNORECASE,
)


def weeks_said(text: str) -> int | None:
    """How long the block is to be, where a text says only that: "make it 6 weeks"."""
    found = _LENGTH.match(text)
    return None if found is None else _COUNTS.get(found["count"].lower()) or int(found["count"])


def in_short(text: str, block: Block) -> str:
    """The change in the short form; the text itself where it is in no known shape, or its day or slot is not clear."""
    for shapes, form in ((_DROPS, "remove {at}"), (_SWAPS, "{at} swap to {new}"), (_ADDS, "day {at} add {line}")):
        for shape in shapes:
            found = shape.match(text)
            if found is None:
                continue
            said = {name: value for name, value in found.groupdict().items() if value is not None}
            day = said.get("day")
            at = _place(block, said["what"], day) if "what" in said else day or _only_day(block)
            if at is not None:
                return form.format(at=at, **said)
    return text


def lacks_its_day(text: str) -> bool:
    """Is it a change in everyday words of which only the day is missing?"""
    found = next((found for shape in (*_DROPS, *_SWAPS, *_ADDS) if (found := shape.match(text))), None)
    return found is not None and found.groupdict().get("day") is None


def _only_day(block: Block) -> str | None:
    return str(block.days[0].number) if len(block.days) == 1 else None


def _place(block: Block, what: str, day: str | None) -> str | None:
    """ "day 1 B1" of a label or a name; None unless it stands in exactly one place."""
    days = [each for each in block.days if day is None or each.number == int(day)]
    places = [f"day {each.number} {label}" for each in days for label in _labels(each, what)]
    if not places and day is not None and re.fullmatch(r"[A-Za-z]\d", what):
        return f"day {day} {what.upper()}"  # so that what is missing is said of that place
    return places[0] if len(places) == 1 else None


def _labels(day: Day, what: str) -> list[str]:
    words = what.strip().lower().removesuffix("s")
    return [
        slot.label
        for slot in day.slots
        if slot.label.lower() == what.lower() or (len(words) > 2 and words in slot.exercise_name.lower())
    ]
