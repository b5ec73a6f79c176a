"""Is a superset told round by round? Then each line holds a cell for each of its exercises, and it is written anew, a line per set.

pull/push            ->   A1 8
8/20                      A2 20
7/18                      A1 7
                          A2 18
"""

from __future__ import annotations

import re
from decimal import Decimal

from bot.language.reading.ranking import fit_count
from bot.language.reading.setting import setting_for
from bot.language.reading.telling import HARDLY
from bot.language.situation import Situation
from bot.training.blocks import Slot
from bot.training.exercises.catalogue import Catalogue

_WORDS = r"[a-z][a-z -]{0,20}?"
_HEAD = r"\W*(?:(?:round|rnd|rd|tour|runde|ronde|lap|circuit|set|r)\s*\d*\s*[:.)-]?\s*|\d(?:st|nd|rd|th)\s*(?:go|round|set)?\s*[:.)-]?\s*)?"


def _cell(name: str) -> str:
    """A count, with its load before it or none, and a name on either side of it."""
    load = r"(?:\d+(?:[.,]\d+)?\s*(?:kg|kgs|lbs?|'?s)?\s*[x×@]\s*)?"
    return rf"(?:{_WORDS}\s*:?\s*)?(?P<{name}>{load}\d{{1,3}})\s*(?:reps?)?(?:\s+{_WORDS})?"


_LINE = re.compile(rf"{_HEAD}{_cell('one')}\s*[/+&,-]\s*{_cell('two')}\W*")
_COUNT = re.compile(r"\d{1,3}$")
_FEWEST = 2  # lines; one alone is read as any other text


def line_by_line(folded: str, situation: Situation, catalogue: Catalogue) -> str | None:
    """The text with its rounds written a line per set, each under its slot; None if it is told otherwise."""
    day, due = situation.day, situation.due
    if day is None or due is None or folded.count("\n") < _FEWEST - 1:
        return None
    group = day.slot(due.label)
    slots = [slot for slot in day.slots if group is not None and slot.group == group.group]
    if len(slots) != 2 or slots[0].label != due.label:
        return None
    written: list[str] = []
    told = 0
    for line in folded.split("\n"):
        found = _LINE.fullmatch(line.strip())
        if found is None:
            if told and not re.search(r"\d", line) and line.strip():
                return None  # words below the rounds: somebody else's layout
            if told or re.search(r"\d", line):
                written.append(line)
            continue
        told += 1
        written += [f"{slots[0].label.lower()} {found['one']}", f"{slots[1].label.lower()} {found['two']}"]
        if not all(_suits(found[cell], slot, situation, catalogue) for cell, slot in zip(("one", "two"), slots, strict=True)):
            return None
    if told < _FEWEST or told > max(len(slot.sets) for slot in slots):
        return None
    return "\n".join(written)


def _suits(cell: str, slot: Slot, situation: Situation, catalogue: Catalogue) -> bool:
    """May the cell's count be one of this slot's, told with its load where one is needed and not known?"""
    setting = setting_for(situation, catalogue, slot)
    count = _COUNT.search(cell)
    if count is None or (setting.needs_load and not re.search(r"[x×@]", cell) and setting.load_before(99) is None):
        return False
    return fit_count(Decimal(count.group()), setting.target(1), setting) > HARDLY
