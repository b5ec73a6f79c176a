"""Which line asks for a little more each week, and which sets is that in the weeks of the block?

"Side plank 2x30s, add 5s every week"                 -> 30, 35, 40, 45 s over four weeks
"... add 5s every week, week 4 back to 30"            -> 30, 35, 40, 30 s
"add 2.5 kg every week"                               -> no count: it stays a note

Only sets that are all written in one way grow; where weeks are written out, those stand.
"""

from __future__ import annotations

import re
from dataclasses import replace

from bot.language.blocks.counts import Count
from bot.language.blocks.slot_draft import Growth, SetLine, SlotDraft
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
