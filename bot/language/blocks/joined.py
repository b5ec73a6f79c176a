"""Which exercises does a line join into a superset by their numbers?

"(3 and 4 are a superset)", "superset B and C", "do 2, 3 and 4 together"   -> these, under one letter
"2. Row 3x10 (superset with 3)", "... , ss w/ next"                        -> that one and its partner
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from bot.language.blocks.headings import letters_of
from bot.language.blocks.slot_draft import SlotDraft

_MARK = r"#?(?:[A-H]\d?|\d{1,2})(?![\w%])"
_LIST = rf"(?P<marks>{_MARK}(?:\s*(?:,|&|\+|/|-|\band\b|\bthen\b|\bwith\b|w/)\s*{_MARK})+)"
_WORD = r"(?:super-?\s?sets?(?:ted)?|tri-?\s?sets?|giant\s+sets?|pair(?:s|ed)?|ss|circuits?|alternat(?:e|ed|ing)|together|back[\s-]to[\s-]back|one\s+after\s+the\s+other)"
_FILL = (
    r"(?:\s|[:=-]|\b(?:are|is|as|an?|the|do|done|go|in|of|nos?|numbers?|exercises?|both|all|please|these|superset|between)\b)*"
)
_JOINS = (
    re.compile(rf"^\W*{_FILL}{_LIST}{_FILL}{_WORD}{_FILL}\W*$", re.I),
    re.compile(rf"^\W*{_FILL}{_WORD}{_FILL}{_LIST}{_FILL}\W*$", re.I),
)
_PARTNER = re.compile(
    rf"[\s,;(-]*\b(?:super-?\s?set(?:ted|s)?|ss|paired?)\s*(?:with|w/|w)\s*(?:(?:no\.?|number|the)\s*)?(?P<mark>{_MARK}|next(?:\s+(?:one|exercise))?|(?:one\s+)?below|above|previous(?:\s+one)?)\s*\)?\s*$",
    re.I,
)


def joined_in(text: str) -> tuple[str, ...]:
    """The numbers or letters that a line of its own joins; empty where it says something else."""
    found = next((match for pattern in _JOINS if (match := pattern.match(text))), None)
    return (
        tuple(mark.upper() for mark in re.findall(r"(?<![\w])(?:[A-H]\d?|\d{1,2})(?!\w)", found["marks"], re.I)) if found else ()
    )


def partner_in(text: str) -> tuple[str, str]:
    """(the line without it, the partner) of "Row 3x10 (superset with 3)"; the partner is "" where none is said, or "next" or "above"."""
    found = _PARTNER.search(text)
    if not found or not found.start():
        return text, ""
    mark = found["mark"].lower().lstrip("#")
    mark = (
        "next"
        if mark.startswith("next") or "below" in mark
        else "above"
        if mark in ("above",) or mark.startswith("prev")
        else mark
    )
    return text[: found.start()], mark if mark in ("next", "above") else mark.upper()


def join(slots: Sequence[SlotDraft], marks: Sequence[str]) -> bool:
    """Put slots under one letter and letter the whole day anew; False where one of them is not there yet."""
    named = [
        next((slot for slot in slots if mark in (slot.said_label, slot.label, slot.label.removesuffix("1"))), None)
        for mark in marks
    ]
    partners = [slot for slot in named if slot is not None]
    if len(partners) < len(marks):
        return False
    _letter_anew(slots, partners)
    return True


def _letter_anew(slots: Sequence[SlotDraft], partners: Sequence[SlotDraft]) -> None:
    groups = [slot.label.rstrip("0123456789") for slot in slots]
    one = {slot.label.rstrip("0123456789") for slot in partners}
    target = min(one, key=groups.index)
    groups = [target if group in one else group for group in groups]
    letters = {group: letters_of(n) for n, group in enumerate(dict.fromkeys(groups), start=1)}
    counted: dict[str, int] = {}
    for slot, group in zip(slots, groups, strict=True):
        counted[group] = counted.get(group, 0) + 1
        slot.label = f"{letters[group]}{counted[group]}"
