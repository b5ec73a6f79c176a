"""Which words would a coach say about the order of coming sessions? Advice, never a lock.

Two rules: no two hard lower-body days back to back without a word about it (common practice), and an easier time after an absence, for a
week after two weeks away and for up to four after long ones (limits in the first 2 to 4 weeks after a break of two weeks or more:
Caterisano et al. 2019, Strength Cond J 41(3):1-23; half as long as the absence: common practice).
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from bot.training.blocks import Block, work_sets
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import Pattern
from bot.training.plan import PlannedSession

_LOWER = frozenset({Pattern.SQUAT, Pattern.HINGE, Pattern.LUNGE, Pattern.BRIDGE})
_HARD_SETS = 6  # so many lower-body work sets make a hard lower-body day (our choice)
_AWAY_DAYS = 14  # from a break of two weeks on (Caterisano 2019)
_EASY_DAYS = (7, 28)  # the least and the most days that are taken easily afterwards


def remarks(sessions: Sequence[PlannedSession], block: Block, catalogue: Catalogue) -> tuple[str, ...]:
    """A sentence for each pair of hard lower-body days on consecutive dates. sessions: in order of date."""
    hard = {day.number for day in block.days if _lower_sets(block, day.number, catalogue) >= _HARD_SETS}
    found = []
    for before, after in itertools.pairwise(sessions):
        if after.date - before.date == timedelta(days=1) and {before.day_number, after.day_number} <= hard:
            found.append(f"Day {before.day_number} and day {after.day_number} are both hard on the legs and now back to back.")
    return tuple(found)


def _lower_sets(block: Block, number: int, catalogue: Catalogue) -> int:
    day = block.day(number)
    slots = day.slots if day else ()
    entries = ((slot, catalogue.get(slot.exercise)) for slot in slots)
    return sum(len(work_sets(slot)) for slot, entry in entries if entry is not None and entry.pattern in _LOWER)


def is_easing_in(done: Iterable[date], on: date) -> bool:
    """Is a session on this date within the easy days after two weeks or more away? Somebody who never trained is not coming back.

    done: dates of sessions, in any order; those from `on` on are left aside.
    """
    dates = [*sorted({day for day in done if day < on}), on]
    least, most = _EASY_DAYS
    for before, back in itertools.pairwise(dates):
        away = (back - before).days
        if away >= _AWAY_DAYS and (on - back).days < min(most, max(least, away // 2)):
            return True
    return False
