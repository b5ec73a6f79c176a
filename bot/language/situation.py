"""In the light of what is a text read? A situation: plain values that a test can write by hand in a few lines.

Situation(now=datetime(2026, 3, 4, 18, 30, tzinfo=ZoneInfo("Europe/Dublin")), day=day)
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from bot.training.blocks import Block, Day, ExerciseId, SetPlace, Slot, order_of
from bot.training.kit import Kit
from bot.training.loads import Unit
from bot.training.records import SetRecord

# The order of a day is asked for several times a text; days are kept here by identity, so that their number stays theirs.
_ORDERS: dict[int, tuple[Day, tuple[SetPlace, ...]]] = {}
_MOST_ORDERS = 256
# One text asks for the set that is due many times over: the latest answer is kept, with the situation it was for.
_LAST_DUE: list[tuple[object, SetPlace | None] | None] = [None]


def _order(day: Day) -> tuple[SetPlace, ...]:
    known = _ORDERS.get(id(day))
    if known is None or known[0] is not day:
        if len(_ORDERS) >= _MOST_ORDERS:
            _ORDERS.clear()
        known = _ORDERS[id(day)] = (day, order_of(day))
    return known[1]


@dataclass(frozen=True, slots=True)
class Habits:
    """What this member's earlier answers taught.

    bare_pair: what "20 10" means for this member: "load_reps", "reps_load", or "" while unknown.
    times: what "8x12" means: "load_reps", "sets_reps", "reps_load", or "".
    nicknames: the member's own names, folded to lower case -> exercise id.
    """

    bare_pair: str = ""
    times: str = ""
    nicknames: tuple[tuple[str, ExerciseId], ...] = ()


@dataclass(frozen=True, slots=True)
class Situation:
    """What is known when a text arrives.

    now: aware, in the member's zone. day: today's day of the split with its slots, None on a rest day. block: the whole block,
    for backdated sets and names of other days.
    today: this session's records, oldest first. last_time: for the slots of `day`, the records of
    the latest earlier session, oldest first. earlier: other records of the last weeks (backdated sessions to correct).
    swaps: slot label -> the exercise taken in its place. on_rest: the message came within a running session.
    """

    now: datetime
    day: Day | None = None
    block: Block | None = None
    today: tuple[SetRecord, ...] = ()
    last_time: tuple[SetRecord, ...] = ()
    earlier: tuple[SetRecord, ...] = ()
    kit: Kit = Kit()
    unit: Unit = Unit.KG
    habits: Habits = Habits()
    swaps: tuple[tuple[str, ExerciseId], ...] = ()
    skipped: tuple[SetPlace, ...] = ()
    due_override: SetPlace | None = None  # the member pointed elsewhere ("doing B1 first")
    last_text: str = ""  # the member's message just before, for "sorry sent twice"
    body_weight_kg: float | None = None
    planned: tuple[tuple[date, int], ...] = ()  # the last weeks' plan: (date, day of the split), for "yesterday: ..."
    session_on: date | None = None  # the session's own date where it is not now's (past midnight)

    @property
    def on(self) -> date:
        return self.session_on or self.now.date()

    @property
    def due(self) -> SetPlace | None:
        """The set that comes next in the order.

        After the last recorded one comes the first slot with a set that is neither on record nor skipped, and of that slot its first such
        set: whoever did all of A1 at once goes on with A2 set 1. What was begun together is ended together: A2 comes before B1, also
        where it has fewer sets than A1.
        """
        if self.day is None:
            return None
        if self.due_override is not None:
            return self.due_override
        known = _LAST_DUE[0]
        if known is not None and known[0] is self:
            return known[1]
        due = self._worked_out_due(self.day)
        _LAST_DUE[0] = (self, due)
        return due

    def _worked_out_due(self, day: Day) -> SetPlace | None:
        order = _order(day)
        gone = {record.place for record in self.today if record.place} | set(self.skipped)
        last = next((record.place for record in reversed(self.today) if record.place), None)
        start = order.index(last) + 1 if last in order else 0
        after = (*order[start:], *order[:start])
        group = day.slot(last.label) if last else None
        if group is not None:
            letters = {slot.label for slot in day.slots if slot.group == group.group}
            after = (*(place for place in after if place.label in letters), *after)
        slot = next((place.label for place in after if place not in gone), None)
        return next((place for place in order if place.label == slot and place not in gone), None)

    def slot(self, label: str) -> Slot | None:
        return self.day.slot(label) if self.day else None

    def exercise_of(self, slot: Slot) -> ExerciseId | None:
        """The exercise done in a slot today: the swap taken, else the coach's."""
        return dict(self.swaps).get(slot.label, slot.exercise)
