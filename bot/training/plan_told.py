"""On which dates do two plans differ, and what became of each session?

Problem: a shift by a week gives the same dates and day numbers as before, and yet every session has moved.
Plan: pair each session of the old plan with itself in the new one, by where the rule puts it, in a rolling plan by its turn; only what
is left over is paired by its day number and nearness; what then has no partner is dropped, or comes anew.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from bot.training.plan_days import sessions_between
from bot.training.plan_values import DEFAULT_RHYTHM, Mode, Plan, PlannedSession

_LOOK_AHEAD_DAYS = 28  # how far ahead the dates of a change are listed (our choice: four weeks)
_BEYOND_DAYS = 35  # so far behind the last listed date partners are looked for
_NEAR_DAYS = 6  # a day of the split this near is the same one moved, not another round


class Touch(StrEnum):
    COMES = "comes"  # a session stands here now
    GOES = "goes"  # the session that stood here is elsewhere now
    DROPS = "drops"  # the session that stood here is left out


@dataclass(frozen=True, slots=True)
class Touched:
    """One date that a change touches. other: where the session came from or went to, if anywhere."""

    on: date
    day_number: int
    touch: Touch
    other: date | None = None


def describe_change(
    before: Plan,
    after: Plan,
    *,
    today: date,
    day_count: int,
    rhythm: Sequence[bool] = DEFAULT_RHYTHM,
    done: Mapping[date, int] | None = None,
    days: int = _LOOK_AHEAD_DAYS,
) -> tuple[Touched, ...]:
    """The dates on which two plans differ within the next weeks, in order: concrete enough to be shown as they are."""
    first, last = today - timedelta(days=_NEAR_DAYS), today + timedelta(days=days)
    beyond = last + timedelta(days=_BEYOND_DAYS)
    old = sessions_between(before, rhythm, day_count, first, beyond, done, today=today)
    new = sessions_between(after, rhythm, day_count, first, beyond, done, today=today)
    by_turn = before.mode is Mode.ROLLING and after.mode is Mode.ROLLING and _same_turns(old, new)
    touched: list[Touched] = []
    for one, other in zip(old, new, strict=False) if by_turn else _pairs(old, new):
        if one is None and other is not None:
            touched.append(Touched(other.date, other.day_number, Touch.COMES))
        elif other is None and one is not None and one.date >= today:
            touched.append(Touched(one.date, one.day_number, Touch.DROPS))
        elif one is not None and other is not None and one.date != other.date:
            touched.append(Touched(one.date, one.day_number, Touch.GOES, other.date))
            touched.append(Touched(other.date, other.day_number, Touch.COMES, one.date))
    near = [one for one in touched if one.on <= last]
    return tuple(sorted(near, key=lambda one: (one.on, one.touch is Touch.COMES, one.day_number)))


_Pair = tuple[PlannedSession | None, PlannedSession | None]


def _same_turns(old: Sequence[PlannedSession], new: Sequence[PlannedSession]) -> bool:
    """Do the days of the split follow one another alike? Then a rolling plan was pushed along as a whole."""
    return all(one.day_number == other.day_number for one, other in zip(old, new, strict=False))


def _pairs(old: Sequence[PlannedSession], new: Sequence[PlannedSession]) -> list[_Pair]:
    """Each session beside itself; None where it is missing."""
    left, come = list(old), list(new)
    pairs: list[_Pair] = []
    for same in (_is_origin, _is_near):
        for one in list(left):
            other = next((each for each in come if same(one, each)), None)
            if other is not None:
                left.remove(one)
                come.remove(other)
                pairs.append((one, other))
    return pairs + [(one, None) for one in left] + [(None, other) for other in come]


def _is_origin(old: PlannedSession, new: PlannedSession) -> bool:
    """By the rule's own place: both were put there by it, or moved from there."""
    if old.day_number != new.day_number:
        return False
    moved = old.moved_from is not None or new.moved_from is not None
    return (old.moved_from or old.date) == (new.moved_from or new.date) if moved else old.date == new.date


def _is_near(old: PlannedSession, new: PlannedSession) -> bool:
    return old.day_number == new.day_number and new.moved_from is None and abs((new.date - old.date).days) <= _NEAR_DAYS
