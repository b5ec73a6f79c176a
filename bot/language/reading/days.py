"""To which date and day of the split do sets of another day belong? "yesterday: ...", "monday ...", "day 2: ..."."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from bot.language.situation import Situation
from bot.language.tokens import Token
from bot.training.blocks import Day

_WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


@dataclass(frozen=True, slots=True)
class ToldDay:
    """on: the date. day: its day of the split, None where it is not known. options: days it may have been."""

    on: date
    day: Day | None
    options: tuple[Day, ...] = ()


def told_day(when: str, names: Sequence[tuple[int, int, str]], tokens: Sequence[Token], situation: Situation) -> ToldDay:
    """The date that the words name, never in the future, and the day of the split done then."""
    number = re.fullmatch(r"day (\d{1,2})(?:'?s)?", when)
    block = situation.block
    if number and block:
        day = block.day(int(number[1]))
        if day is not None and situation.day is not None and day.number == situation.day.number:
            return ToldDay(situation.on, situation.day)
        latest = max((r.on for r in situation.earlier if day and r.day == day.number), default=None)
        return ToldDay(latest or situation.on, day)
    on = _date(when, situation.now.date())
    if on == situation.on:
        return ToldDay(on, situation.day)
    day = _day_on(on, names, tokens, situation)
    return ToldDay(on, day)


def _date(when: str, today: date) -> date:
    if when.startswith(("day before", "two", "2")):
        return today - timedelta(days=2)
    if when.startswith(("three", "3")):
        return today - timedelta(days=3)
    for number, name in enumerate(_WEEKDAYS):
        if re.search(rf"\b{name}", when):
            back = (today.weekday() - number) % 7
            return today - timedelta(days=back or 7)
    return today - timedelta(days=1)


def _day_on(on: date, names: Sequence[tuple[int, int, str]], tokens: Sequence[Token], situation: Situation) -> Day | None:
    """The day on record for that date; else the one whose exercises or slots are named; else the one before today's."""
    block = situation.block
    if block is None:
        return situation.day
    recorded = {record.day for record in (*situation.earlier, *situation.last_time) if record.on == on and record.day is not None}
    if recorded:
        return block.day(max(recorded))
    others = [day for day in block.days if situation.day is None or day.number != situation.day.number]
    exercises = {name.removeprefix("ex:") for _, _, name in names if name.startswith("ex:")}
    fitting = [day for day in others if exercises and any(slot.exercise in exercises for slot in day.slots)]
    if len(fitting) == 1:
        return fitting[0]
    last_done = max(((r.on, r.day) for r in situation.earlier if r.day is not None and r.on < on), default=None)
    if situation.day is not None and situation.now.date() - on == timedelta(days=1):
        before = (situation.day.number - 2) % len(block.days) + 1
        return block.day(before)
    if last_done is not None:
        return block.day(last_done[1] % len(block.days) + 1)
    if situation.day is not None:
        return situation.day if len(block.days) == 1 else None
    return None
