"""A set of what was left out is told after all: which set is it, and is it to be asked about?

    skip A1 ... "A1 20x12"            -> set 1 of A1: who leaves something out may do it all the same
    A1 hurts, stopped ... "A1 20x12"  -> its next set, and asked about first: it rests

The reader of sets takes what was left out for settled, so that nothing unnamed falls there. Only where it found no place for a
set that was named is the text read once more, with those slots open again.
"""

from __future__ import annotations

from dataclasses import replace

from bot.coaching.course import Course
from bot.language import read
from bot.language.readings import Option, Question, Reading, SetsHeard, Verdict
from bot.language.situation import Situation
from bot.training.blocks import SetPlace, work_sets

RESTS = "rests"  # the code of the doubt about a set where pain was told


def read_after_all(course: Course, situation: Situation, text: str, reading: Reading) -> Reading:
    """The reading of a text, or the one that it has where the left-out slots it speaks of are open again."""
    labels = _left_out_but_named(situation, reading)
    if not labels:
        return reading
    opened = replace(situation, skipped=tuple(place for place in situation.skipped if place.label not in labels))
    again = read(text, opened, course.catalogue)
    if again.verdict is Verdict.NOT_SETS:
        return reading
    stopped = labels & set(course.session.stopped if course.session else ())
    if not stopped or again.verdict is not Verdict.RECORD:
        return again
    question = Question(RESTS, text[:200], (Option("Yes, record it", again.heard, again.certainty),))
    return replace(again, verdict=Verdict.ASK, heard=(), question=question)


def _left_out_but_named(situation: Situation, reading: Reading) -> set[str]:
    """Slots with sets left out, for which a doubtful reading has only numbers beyond the plan."""
    options = reading.question.options if reading.verdict is Verdict.ASK and reading.question is not None else ()
    places = {record.place for option in options for part in option.heard if isinstance(part, SetsHeard) for record in part.sets}
    beyond = {place.label for place in places if place is not None and _is_beyond(situation, place)}
    return beyond & {place.label for place in situation.skipped}


def _is_beyond(situation: Situation, place: SetPlace) -> bool:
    slot = situation.slot(place.label)
    return slot is not None and place.number > len(work_sets(slot))
