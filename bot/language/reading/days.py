"""To which date and day of the split do sets of another day belong? "yesterday: ...", "monday ...", "day 2: ..."."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from bot.language.situation import Situation
from bot.training.blocks import Day

NamesThere = Callable[[Situation], Sequence[tuple[int, int, str]]]
_WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


@dataclass(frozen=True, slots=True)
class ToldDay:
    """on: the date. day: its day of the split, None where it is not known. options: days it may have been."""

    on: date
    day: Day | None
    options: tuple[Day, ...] = ()


def told_day(when: str, names_there: NamesThere, situation: Situation) -> ToldDay:
    """The date that the words name, never in the future, and the day of the split done then.

    names_there: the names that the text holds, were a given situation's day meant.
    """
    number = re.fullmatch(r"day (\d{1,2})(?:'?s)?", when)
    block = situation.block
    if number and block:
        day = block.day(int(number[1]))
        if day is not None and situation.day is not None and day.number == situation.day.number:
            return ToldDay(situation.on, situation.day)
        latest = max((r.on for r in situation.earlier if day and r.day == day.number), default=None)
        return ToldDay(latest or situation.on, day)
    on = date_of(when, situation.now.date())
    if on == situation.on:
        return ToldDay(on, situation.day)
    return ToldDay(on, _day_on(on, names_there, situation))


def date_of(when: str, today: date) -> date:
    """The date that the words name, on or before today."""
    if when.startswith(("day before", "two", "2")):
        return today - timedelta(days=2)
    if when.startswith(("three", "3")):
        return today - timedelta(days=3)
    for number, name in enumerate(_WEEKDAYS):
        if re.search(rf"\b{name}", when):
            back = (today.weekday() - number) % 7
            return today - timedelta(days=back or 7)
    return today - timedelta(days=1)


def _day_on(on: date, names_there: NamesThere, situation: Situation) -> Day | None:
    """The day on record or planned for that date; else the one that holds the exercises named; else the one before today's."""
    block = situation.block
    if block is None:
        return situation.day
    recorded = {record.day for record in (*situation.earlier, *situation.last_time) if record.on == on and record.day is not None}
    if recorded:
        return block.day(max(recorded))
    planned = dict(situation.planned).get(on)
    if planned is not None:
        return block.day(planned)
    held = {day.number: _held(day, names_there, situation) for day in block.days}
    most = max(held.values(), default=0)
    fitting = [day for day in block.days if held[day.number] == most] if most else list(block.days)
    if len(fitting) == 1:
        return fitting[0]
    last_done = max(((r.on, r.day) for r in situation.earlier if r.day is not None and r.on < on), default=None)
    expected = None
    if last_done is not None:
        expected = last_done[1] % len(block.days) + 1
    elif situation.day is not None and situation.now.date() - on == timedelta(days=1):
        expected = (situation.day.number - 2) % len(block.days) + 1
    return next((day for day in fitting if day.number == expected), None)


def _held(day: Day, names_there: NamesThere, situation: Situation) -> int:
    """How many of the names in the text are exercises of this day."""
    there = replace(situation, day=day, today=(), due_override=None, swaps=(), skipped=())
    return sum(day.slot(name) is not None for _, _, name in names_there(there))
