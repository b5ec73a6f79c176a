"""When may a spoken message be asked about? Where its words fit the moment in two ways, by the rules below and no others."""

from __future__ import annotations

import re

from bot.training.blocks import Measure
from tests.builders.spoken.done import range_of
from tests.builders.spoken.words import Words

_NAMES_THE_LOAD = re.compile(r"@|\bw/|\b(?:with|w|at|for|used|using|on|got|sets? of)\b")
_NAMES_THE_COUNT = re.compile(r"(?:\b|\d)reps?\b")
_NAMES_THE_SLOT = re.compile(r"\b[a-e][1-3]\b", re.IGNORECASE)
_SLACK = 3  # how far outside the range a count is still likely


def is_doubtful(text: str, words: Words) -> bool:
    """May the text, spoken with these words, be taken in another way?"""
    return (
        _load_may_be_a_count(text, words)
        or _counts_may_be_sides(text, words)
        or _counts_may_be_one_number(text, words)
        or _counts_may_go_round(text, words)
        or _first_may_be_a_load(text, words)
    )


def as_right(text: str, words: Words, effort: str) -> tuple[str, ...]:
    """What else is as right to record: "20 and 20 s" of a one-sided exercise is two sets, or one with both sides alike."""
    done = words.done
    return (done.said(str(done.counts[0]), effort),) if done.is_even and _counts_may_be_sides(text, words) else ()


def _load_may_be_a_count(text: str, words: Words) -> bool:
    """ "8x10" with nothing that says which: the bare load would do as a count or as a number of sets, the count as a load."""
    done = words.done
    if not words.is_bare or done.amount is None or _NAMES_THE_LOAD.search(text) or f"{words.load}:" in text:
        return False
    if len(done.counts) == 1 and _NAMES_THE_COUNT.search(text):
        return False
    if words.fill("{n}") in text.partition(words.load)[0]:
        return True  # By custom the load stands first; here a count does.
    low, high = range_of(done.slot)
    as_count = low - _SLACK <= done.amount <= high + _SLACK and done.amount == int(done.amount)
    as_sets = done.amount <= len(done.slot.sets) + 1
    amounts = done.person.amounts(done.exercise)
    as_load = any(amounts[0] <= count <= amounts[-1] for count in done.counts)
    return (as_count and as_load) or as_sets


def _counts_may_be_sides(text: str, words: Words) -> bool:
    """ "9/7" of an exercise done side by side, by the plan or by its nature: two sets, or left and right."""
    is_sided = words.done.is_sided or words.done.exercise.one_sided
    return is_sided and len(words.done.counts) == 2 and words.listed() in text


def _counts_may_be_one_number(text: str, words: Words) -> bool:
    """ "12,5" is two counts or a number with a decimal comma; with a slash it may be a fraction."""
    return words.joint in (",", "/") and len(words.done.counts) == 2 and words.listed() in text


def _counts_may_go_round(text: str, words: Words) -> bool:
    """Counts alone in a superset, with neither exercise nor slot named: sets of one, or a round of all."""
    done = words.done
    if done.load != "bw" or len(done.counts) == 1 or done.person.is_alone(done.slot):
        return False
    return words.listed() in text and words.name.lower() not in text.lower() and not _NAMES_THE_SLOT.search(text)


def _first_may_be_a_load(text: str, words: Words) -> bool:
    """ "40 and 40 m" beside a bare load: two sets, or forty kilos for forty metres, since the unit stands behind the last only."""
    done = words.done
    told_last = done.measure is not Measure.REPS and words.count_unit != "" and len(done.counts) == 2
    return words.is_bare and told_last and words.listed() in text
