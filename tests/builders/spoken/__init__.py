"""Messages whose meaning is known beforehand: sets are drawn, said in one of the ways people say them, and read back.

`spoken("sides", seed=1, number=100)` gives a hundred messages about sides told apart, each with its person, day, moment and gold in
the notation of voices. The forms stand in tables, a module for each phenomenon; who speaks is in people, how load and counts are said
in words, and which messages may be asked about in doubts.
"""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from tests.builders.spoken import dictation, extras, references, sessions, sets, slips, timed, told_apart, turns
from tests.builders.spoken.done import Spoken
from tests.builders.voices import Message, messages_in

Family = Callable[[Random], Spoken]
FAMILIES: dict[str, Family] = {
    "one set": sets.one_set,
    "sets alike": sets.alike_sets,
    "sets listed": sets.listed_sets,
    "later sets": sets.later_sets,
    "numbered set": sets.numbered_set,
    "numbered sets": sets.numbered_sets,
    "other unit": sets.other_unit,
    "body weight": sets.body_weight,
    "bands": sets.banded,
    "plates": extras.plates,
    "added load": extras.added,
    "helped by a band": extras.helped,
    "holds": timed.holds,
    "several holds": timed.several_holds,
    "carries": timed.carries,
    "several carries": timed.several_carries,
    "sides apart": told_apart.sides_apart,
    "sides held": told_apart.sides_held,
    "efforts": told_apart.efforts,
    "aims": told_apart.aims,
    "yesterday": told_apart.yesterday,
    "stories": told_apart.stories,
    "dictated": dictation.dictated,
    "same again": references.again,
    "put right": references.put_right,
    "drops": extras.drops,
    "rest-pauses": extras.rest_pauses,
    "partials": extras.partials,
    "warm-ups": extras.warm_ups,
    "taken back": turns.taken_back,
    "left out": turns.left_out,
    "ended": turns.ended,
    "sessions": sessions.sessions,
    "in one line": sessions.in_one_line,
    "rounds": sessions.rounds,
    "slips": slips.slips,
}


def spoken(family: str, *, seed: int, number: int) -> list[Message]:
    """Messages of one family; the same for the same seed."""
    draw = Random(f"{family} {seed}")
    return [message for _ in range(number) for message in messages_in(FAMILIES[family](draw).lines(), family)]
