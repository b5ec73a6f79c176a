"""Which moves of a session must be asked about before they are made? A taken day, and a rest day moved as if it held a session.

what_moving_does(Move(fri, sat)) with a session on Saturday -> TAKEN, and the ways out: slide the other along, change places, both
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from bot.training.plan import next_free_day
from bot.training.plan_values import Deed, Mode, Move, Plan, PlannedSession, Shift, Swap

_NEAR = timedelta(days=4)  # a session so near to a rest day may be the one that was meant (our choice)


class Way(StrEnum):
    """One way out of a doubt."""

    SLIDE = "slide"  # what stands there goes to the next free day
    SLIDE_ALL = "slide_all"  # everything from the moved session on goes later
    SWAP = "swap"  # the two change places
    BOTH = "both"  # two sessions on one day
    OTHER_SESSION = "other_session"  # another session was meant


class Doubt(StrEnum):
    TAKEN = "taken"
    REST_DAY = "rest_day"


@dataclass(frozen=True, slots=True)
class Asked:
    """A doubt about a move, with the deeds that settle it, likeliest first. session: what stands on the taken day."""

    doubt: Doubt
    on: date
    ways: tuple[tuple[Way, Deed], ...]
    session: PlannedSession | None = None


def doubt_about(move: Move, sessions: Sequence[PlannedSession], *, plan: Plan, done: Sequence[date] = ()) -> Asked | None:
    """The question that a move raises; None if it is clear. sessions: in order of date, from a week before to a month after.

    done: dates of sessions begun; those cannot be moved, and their day is taken all the same.
    """
    open_on = {session.date: session for session in sessions if session.date not in done}
    if move.on not in open_on:
        near = sorted(
            (on for on in open_on if abs(on - move.on) <= _NEAR and on != move.to),
            key=lambda on: (abs(on - move.on), on < move.on),
        )
        ways = tuple((Way.OTHER_SESSION, Move(on, move.to)) for on in sorted(near[:3]))
        return Asked(Doubt.REST_DAY, move.on, ways)
    if move.both or move.other_to is not None or not any(session.date == move.to for session in sessions):
        return None
    there = open_on.get(move.to)
    if there is None:  # done already: nothing to push aside
        return Asked(Doubt.TAKEN, move.to, ((Way.BOTH, Move(move.on, move.to, both=True)),))
    return Asked(Doubt.TAKEN, move.to, _ways(move, sessions, plan), there)


def _ways(move: Move, sessions: Sequence[PlannedSession], plan: Plan) -> tuple[tuple[Way, Deed], ...]:
    ways: list[tuple[Way, Deed]] = []
    free = next_free_day(sessions, move.to, plan=plan)
    if plan.mode is Mode.ROLLING and timedelta() < move.to - move.on <= _NEAR:
        ways.append((Way.SLIDE_ALL, Shift(move.on, (move.to - move.on).days)))
    elif free is not None:
        ways.append((Way.SLIDE, Move(move.on, move.to, other_to=free)))
    ways.append((Way.SWAP, Swap(move.on, move.to)))
    ways.append((Way.BOTH, Move(move.on, move.to, both=True)))
    return tuple(ways)
