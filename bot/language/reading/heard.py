"""What was heard, put together: sets of one text as one value, its words for a button, whether it repeats what stands."""

from __future__ import annotations

from collections.abc import Sequence

from bot.language.reading.explain import say_heard
from bot.language.reading.placing import same_numbers
from bot.language.readings import Heard, RepeatHeard, SetsHeard
from bot.training.records import SetRecord

LONGEST_LABEL = 60  # characters of a button


def joined(heard: Sequence[Heard]) -> tuple[Heard, ...]:
    """Sets of several slots in one value, in the order told; repeats drop out where anything new was said."""
    sets = [record for part in heard if isinstance(part, SetsHeard) for record in part.sets]
    others = [part for part in heard if not isinstance(part, SetsHeard | RepeatHeard)]
    repeats = [part for part in heard if isinstance(part, RepeatHeard)]
    result: list[Heard] = [SetsHeard(tuple(sets))] if sets else []
    result += others
    return tuple(result) if result else tuple(repeats[:1])


def label_of(heard: Sequence[Heard]) -> str:
    """The words of a button that carries this out."""
    return say_heard(heard)[:LONGEST_LABEL]


def same_as_last(heard: Sequence[Heard], last: SetRecord | None) -> bool:
    """Does it say the load and counts of the last set on record?"""
    if last is None or len(heard) != 1 or not isinstance(heard[0], SetsHeard):
        return False
    sets = heard[0].sets
    return len(sets) == 1 and same_numbers(sets[0].done, last.done)
