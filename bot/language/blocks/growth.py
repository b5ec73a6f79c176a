"""Which line asks for a little more each week, and which sets is that in the weeks of the block?

"Side plank 2x30s, add 5s every week"                 -> 30, 35, 40, 45 s over four weeks
"... add 5s every week, week 4 back to 30"            -> 30, 35, 40, 30 s
"add 2.5 kg every week"                               -> no count: it stays a note

"For weeks 3 and 4, add 1 set to number 1 of every day" -> that many sets of the first exercises from week 3 on

Only sets that are all written in one way grow; where weeks are written out, those stand.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from bot.language.blocks.counts import Count
from bot.language.blocks.slot_draft import Growth, SetLine, SlotDraft
from bot.language.blocks.slots import with_number_of_sets
from bot.training.blocks import Measure, SetKind

_WORDS = {"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "five": 5, "ten": 10}
_UNITS = (("s", Measure.SECONDS), ("r", Measure.REPS), ("m", Measure.METRES))
_GROWS = re.compile(
    r"[\s,;(]*(?:\b(?:and|then)\s+)?(?:\b(?:add(?:ing)?|go(?:ing)?\s+up|up|plus|increas(?:e|ing)(?:\s+by)?)\s+(?:by\s+)?|\+\s?)(?P<more>\d{1,2}|an?|one|two|three|five|ten)\s*"
    r"(?P<unit>reps?\b|s\b|secs?\b|seconds?\b|steps?\b|m\b|met(?:re|er)s?\b)(?:\s+(?:to|on)\s+(?:it|each\s+set|every\s+set|all\s+sets))?\s*(?:(?:each|every|per|a)\s+week|weekly)\b\)?",
    re.I,
)
_BACK = re.compile(
    r"[\s,;(]*(?:\b(?:and|then|but)\s+)?(?:in\s+)?w(?:ee)?k\.?\s?(?P<week>\d{1,2})\s*[:=-]?\s*(?:(?:goes|go|is|drop|comes?)\s+)?back\s+(?:down\s+)?to\s+(?P<to>\d{1,3}|the\s+start|week\s?1|where\s+we\s+(?:began|started)|normal)(?:\s*(?:s|secs?|seconds?|reps?|m)\b)?\)?",
    re.I,
)


@dataclass(frozen=True, slots=True)
class MoreSets:
    """Sets that come on top from one week to another. only_first: of the first exercise of each day, not of all."""

    low: int
    high: int | None
    sets: int
    only_first: bool


_MORE_SETS = (
    re.compile(
        r"\b(?:for|in|from|on)?\s*w(?:ee)?ks?\s*(?P<low>\d{1,2})(?:\s*(?:and|&|to|-|,|\+)\s*(?:w(?:ee)?k\s*)?(?P<high>\d{1,2})|(?P<on>\s*(?:\+|on(?:wards?)?\b)))?\s*[,:;-]*\s*"
        r"(?:(?:we|you|please|then|just)\s+)*(?:add|do|plus|have)\s+(?P<sets>[1-3]|an?|one|two)\s*(?:more\s+|extra\s+)?sets?\s+(?:to|on|for|of|in)\s+(?P<what>.+)",
        re.I,
    ),
    re.compile(
        r"\b(?:add|do|plus|have)\s+(?P<sets>[1-3]|an?|one|two)\s*(?:more\s+|extra\s+)?sets?\s+(?:to|on|for|of|in)\s+(?P<what>.+?)\s+(?:for|in|from|on)\s+w(?:ee)?ks?\s*(?P<low>\d{1,2})"
        r"(?:\s*(?:and|&|to|-|,|\+)\s*(?:w(?:ee)?k\s*)?(?P<high>\d{1,2})|(?P<on>\s*(?:\+|on(?:wards?)?\b)))?\W*$",
        re.I,
    ),
)
_FIRST_OF_EACH = re.compile(
    r"(?:the\s+|each\s+|every\s+)?(?:day'?s?\s+)?(?:exercise\s+|number\s+|no\.?\s*|nr\.?\s*|#\s*)?(?:1(?:st)?|a1?|first|main|opening)(?:\s+(?:exercises?|lifts?|moves?|ones?))?(?:\s+(?:of|on|in)\s+(?:every|each|all)\s*(?:the\s+)?(?:days?|sessions?|workouts?)?)?\W*",
    re.I,
)
_OF_ALL = re.compile(r"(?:all|every|each)(?:thing|\s+(?:of\s+them|(?:the\s+)?(?:exercises?|lifts?|moves?)))?\W*", re.I)


def more_sets_in(text: str) -> MoreSets | None:
    """Sets on top that a line above the days asks of every day; None where it says something else."""
    found = next((match for pattern in _MORE_SETS if (match := pattern.search(text))), None)
    first = bool(found and _FIRST_OF_EACH.fullmatch(found["what"]))
    if found is None or not (first or _OF_ALL.fullmatch(found["what"])):
        return None
    sets = int(found["sets"]) if found["sets"].isdigit() else _WORDS[found["sets"].lower()]
    low = int(found["low"])
    high = int(found["high"]) if found["high"] else None if found["on"] else low
    return MoreSets(low, high, sets, only_first=first)


def add_sets(draft: SlotDraft, more: MoreSets, weeks: int) -> bool:
    """Write the weeks with sets on top out, and the one that goes back; False where the sets do not allow it."""
    parts = [part for part in draft.said if isinstance(part, SetLine) or part[0].schemes]
    if draft.weeks or len(parts) != 1 or isinstance(parts[0], SetLine) or more.low < 2:
        return False
    clauses, place = parts[0]
    counted = draft.rounds or (draft.fields["set_count"][0] if "set_count" in draft.fields else None)
    schemes = [scheme for scheme in clauses.schemes if scheme.kind is SetKind.WORK and scheme.which is None]
    sets = schemes[0].sets or counted if len(schemes) == 1 else None
    if sets is None:
        return False
    changes = {more.low: sets + more.sets}
    if more.high is not None and more.high < weeks:
        changes[more.high + 1] = sets
    for week, number in changes.items():
        said = replace(clauses, schemes=[with_number_of_sets(schemes[0], number)], marks=[], fields={}, faults=[], doubts=[])
        draft.add_week(week, said, place)
    return True


def growth_in(text: str) -> tuple[str, Growth | None]:
    """(the line without its growth, the growth)."""
    found = _GROWS.search(text)
    if not found:
        return text, None
    unit = found["unit"].lower()
    measure = Measure.STEPS if unit.startswith("st") else next(measure for start, measure in _UNITS if unit.startswith(start))
    more = int(found["more"]) if found["more"].isdigit() else _WORDS[found["more"].lower()]
    rest = text[found.end() :]
    back = tuple((int(one["week"]), int(one["to"]) if one["to"].isdigit() else None) for one in _BACK.finditer(rest))
    return text[: found.start()] + _BACK.sub("", rest), Growth(more, measure, back)


def grow(draft: SlotDraft, growth: Growth, weeks: int) -> bool:
    """Write the weeks out; False where the sets do not allow it."""
    parts = [part for part in draft.said if isinstance(part, SetLine) or part[0].schemes]
    if draft.weeks or len(parts) != 1 or isinstance(parts[0], SetLine):
        return False
    clauses, place = parts[0]
    schemes = [scheme for scheme in clauses.schemes if scheme.kind is not SetKind.WARM_UP]
    if len(schemes) != 1 or any(count.low is None or count.wrong for count in schemes[0].counts):
        return False
    measure = schemes[0].counts[0].measure or draft.measure or Measure.REPS
    if measure is not growth.measure:
        return False
    back = dict(growth.back)
    for week in range(2, weeks + 1):
        counts = tuple(
            _grown(count, growth.more * (week - 1), again=week in back, to=back.get(week)) for count in schemes[0].counts
        )
        draft.add_week(
            week, replace(clauses, schemes=[replace(schemes[0], counts=counts)], marks=[], fields={}, faults=[], doubts=[]), place
        )
    return True


def _grown(count: Count, more: int, *, again: bool, to: int | None) -> Count:
    if again:
        return count if to is None else replace(count, low=to, high=to)
    assert count.low is not None
    return replace(count, low=count.low + more, high=(count.high or count.low) + more)
