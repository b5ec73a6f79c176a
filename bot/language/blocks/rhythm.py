"""On which days of its cycle is a block trained? As the coach says it, else by the weekdays and rest days that are written, else evenly spread."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from bot.language.blocks.headings import DayHeading
from bot.training.blocks import Block

_DEFAULT = Block("", ()).rhythm
# On and off days for splits whose coach writes none: evenly spread over a week (common practice).
_USUAL = {1: "1000000", 2: "1001000", 3: "1010100", 4: "1101100", 5: "1110110", 6: "1111110", 7: "1111111"}
_ORDER = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def rhythm_of(headings: Sequence[DayHeading], *, weekdays: Sequence[int], days_off: Sequence[str]) -> tuple[bool, ...]:
    """The rhythm that the days tell.

    headings: of all days in their order, rest days among them. weekdays: that the coach says the group trains on, Monday 0.
    days_off: their numbers or weekdays.
    """
    training = [heading.weekday for heading in headings if not heading.is_rest]
    count = len(training)
    if training and all(weekday is not None for weekday in training) and len(set(training)) == count:
        first = training[0] or 0
        return tuple((first + step) % 7 in training for step in range(7))
    if len(weekdays) == count > 1:
        return tuple((weekdays[0] + step) % 7 in weekdays for step in range(7))
    without = _without(days_off) if days_off else ()
    if without:
        return without
    flags = _from_training(not heading.is_rest for heading in headings)
    if flags and not all(flags):
        return flags + (False,) * (7 - len(flags)) if len(flags) < 7 else flags
    if count in (0, 5):
        return _DEFAULT
    if count in _USUAL:
        return tuple(sign == "1" for sign in _USUAL[count])
    return tuple(flag for number in range(count) for flag in ((True, False) if number % 3 == 2 else (True,)))


def _without(days_off: Sequence[str]) -> tuple[bool, ...]:
    """A week without the days named: by number, or by weekday from Monday."""
    off = {int(word) - 1 if word.isdigit() else _ORDER.index(word) for word in days_off}
    flags = _from_training(number not in off for number in range(7))
    return flags if any(flags) else ()


def _from_training(days: Iterable[bool]) -> tuple[bool, ...]:
    """The days from the first training day on."""
    flags = list(days)
    while any(flags) and not flags[0]:
        flags = [*flags[1:], flags[0]]
    return tuple(flags)
