"""A text and a situation give a reading: the way from words to sets.

    tidied -> folded -> short commands -> retold plainly -> parts (sets, question, pain ...) -> terms -> entries -> all ways to read them
           -> the best, in the light of the situation -> places and loads -> surprise check -> held to account -> record, or one question

Sure parts of a text are heard even where another part has to be asked about.
"""

from __future__ import annotations

import re
from dataclasses import replace

from bot.language.reading import commands
from bot.language.reading.account import held_to_account
from bot.language.reading.heard import same_as_last
from bot.language.reading.message import LONGEST, Message
from bot.language.reading.noise import without_noise
from bot.language.reading.numbering import as_numbered, without_set_numbers
from bot.language.reading.rounds import line_by_line
from bot.language.reading.setting import setting_for
from bot.language.reading.tidy import tidied
from bot.language.readings import (
    Reading,
    RepeatHeard,
    Verdict,
    Why,
)
from bot.language.situation import Situation
from bot.language.tokens import fold
from bot.training.exercises.catalogue import Catalogue, load_catalogue

_COMMAND_CERTAINTY = 0.97
_PLAIN = re.compile(r"\s*\d[\d\s.,x@/]*(?:(?:kgs?|lbs?|reps?|kilos?)(?![^\W\d_])[\d\s.,x@/]*)*")


def read(text: str, situation: Situation, catalogue: Catalogue | None = None) -> Reading:
    """Read a member's text. Never raises; what is not about sets comes back as NOT_SETS with its asides."""
    known = catalogue if catalogue is not None else load_catalogue()
    if _PLAIN.fullmatch(text):
        return _read(text, situation, known)
    told = tidied(text[:LONGEST])
    return told.put_back(_read(told.text, situation, known), text) if told is not None else _read(text, situation, known)


def _read(text: str, situation: Situation, known: Catalogue) -> Reading:
    folded = fold(text[:LONGEST])
    if not folded.strip():
        return Reading(text, Verdict.NOT_SETS)
    plain, sets = without_set_numbers(folded, situation)
    if not sets and "\n" not in folded and _PLAIN.fullmatch(folded):
        return Message(text, folded, situation, known).read_plain()
    short = commands.short_command(folded, situation)
    if short is not None:
        return Reading(text, Verdict.RECORD, short, _COMMAND_CERTAINTY, why=(Why(0, len(folded), "about what is on record"),))
    once = commands.told_twice(folded)
    if once is not None:
        return _once(_read(text[: len(once)], situation, known), text, situation)
    ended = commands.finish(folded) if situation.day is not None else None
    due = situation.slot(situation.due.label) if situation.due else None
    if ended is not None and not commands.rather_a_set(folded, ended, setting_for(situation, known, due) if due else None):
        return Reading(text, Verdict.RECORD, (ended,), 0.95, why=(Why(0, len(folded), "the session is over"),))
    clean = without_noise(plain)
    by_set = line_by_line(clean, situation, known) if "\n" in clean else None
    if by_set is not None:
        told = Message(by_set, by_set, situation, known).read()
        return replace(told, text=text, why=(Why(0, len(folded), "a line for each round"),))
    return held_to_account(as_numbered(Message(text, clean, situation, known).read(), sets), folded, situation)


def _once(reading: Reading, text: str, situation: Situation) -> Reading:
    """A set that its sender says was sent twice: where it is on record nothing changes, else it is recorded once."""
    last = next((record for record in reversed(situation.today) if record.place), None)
    ways = [reading.heard, *(option.heard for option in reading.question.options)] if reading.question else [reading.heard]
    if any(same_as_last(heard, last) for heard in ways):
        return Reading(text, Verdict.RECORD, (RepeatHeard(),), _COMMAND_CERTAINTY, why=(Why(0, len(text), "sent twice"),))
    return replace(reading, text=text)
