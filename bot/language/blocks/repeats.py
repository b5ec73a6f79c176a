"""Which lines ask for something that is written above, in whole or with a change?

"Hammer curl, ditto", "Curl: same as above"         -> the sets of the exercise before
"Shoulder press: same sets as B1 but 8-10 reps"     -> the sets of B1, in all its weeks, with these reps
"""

from __future__ import annotations

import re
from copy import deepcopy
from dataclasses import dataclass, replace

from bot.language.blocks.counts import Count
from bot.language.blocks.scan import Clauses, Scheme
from bot.language.blocks.slot_draft import SetLine, SlotDraft
from bot.language.blocks.slots import with_number_of_sets
from bot.language.problems import Place
from bot.training.blocks import SetKind

_SAME = re.compile(
    r"[\s,;:(=-]*\b(?:(?P<ditto>ditto)|(?:the\s+)?same\s+(?P<what>sets(?:\s*(?:and|&|x|/)\s*reps)?|scheme|reps|rep\s+scheme|prescription)?\s*"
    r"(?:(?:as|like)\s+(?:for\s+|in\s+|the\s+|on\s+)*(?P<label>[A-Z]\d?(?![\w'])|above|before|(?:last|previous)(?:\s+(?:one|exercise|move(?:ment)?))?|(?:the\s+)?(?:one|exercise)\s+(?:above|before))|again\b|here\b|deal\b|(?<=sets|heme|reps)(?=\s*(?:$|[,;.)])))|as\s+(?:above|before)\b)"
    r"\)?\s*(?:[,;:]?\s*\b(?:but|with|only|just|except|though|for)\b(?:\s+(?:with|for|do|only|just))*)?",
    re.I,
)


@dataclass(frozen=True, slots=True)
class Repeat:
    """label: the slot that is meant, "" for the one before. text: the line without the words that say so."""

    label: str
    text: str


def repeated_in(text: str) -> Repeat | None:
    """What a line of an exercise takes over from another; None where it stands for itself."""
    found = _SAME.search(text)
    if not found:
        return None
    label = found["label"] or ""
    label = label.upper() if re.fullmatch(r"[A-Z]\d?", label, re.I) else ""
    return Repeat(label, f"{text[: found.start()].rstrip()}, {text[found.end() :].strip()}".strip(" ,"))


def take_over(slot: SlotDraft, of: SlotDraft) -> None:
    """Give a slot the sets of another, except for what its own line says."""
    own = [part for part in slot.said if not isinstance(part, SetLine)]
    said_now = {mark.field for clauses, _ in own for mark in clauses.marks}
    counts = next((scheme.counts for clauses, _ in own for scheme in clauses.schemes), None)
    sets = next((clauses.fields["set_count"][0] for clauses, _ in own if "set_count" in clauses.fields), None)
    whole = any(scheme.sets is not None for clauses, _ in own for scheme in clauses.schemes)
    if whole:
        return  # the line gives its sets itself

    def changed(part: tuple[Clauses, Place] | SetLine) -> tuple[Clauses, Place] | SetLine:
        if isinstance(part, SetLine):
            return part
        clauses, place = part
        schemes = [_changed(scheme, counts, sets) for scheme in clauses.schemes]
        return replace(clauses, schemes=schemes, marks=[mark for mark in clauses.marks if mark.field not in said_now]), place

    bare = [(replace(clauses, schemes=[]), place) for clauses, place in own]
    slot.said = [*(changed(part) for part in deepcopy(of.said)), *bare]
    slot.weeks = {week: [changed(part) for part in parts] for week, parts in deepcopy(of.weeks).items()}
    slot.rounds, slot.default = slot.rounds or of.rounds, slot.default or of.default
    slot.rests = {**of.rests, **slot.rests}
    for name in ("set_count", "rest", "intervals"):
        if name in of.fields:
            slot.fields.setdefault(name, of.fields[name])


def _changed(scheme: Scheme, counts: tuple[Count, ...] | None, sets: int | None) -> Scheme:
    if scheme.kind is SetKind.WARM_UP:
        return scheme
    if counts is not None:
        scheme = replace(scheme, counts=counts)
    return with_number_of_sets(scheme, sets) if sets is not None else scheme
