"""Which slot does a wish for another exercise mean, and which exercise is named as wanted?"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from rapidfuzz.distance import OSA

from bot.language.situation import Situation
from bot.language.swaps import words as w
from bot.training.blocks import ExerciseId
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import Exercise, Pattern
from bot.training.kit import KitItem
from bot.training.substitutes import Reason, can_do
from bot.training.substitutes.limits import strain, takes_much_room

_SURE_NAME = 0.84
_ALSO_EXERCISES = frozenset({KitItem.LEG_PRESS, KitItem.LAT_PULLDOWN})
# What stands before the exercise that is wanted in another's place.
_WANT = r"\b(?:for|with|to|by)\s+(?:the |my |some )?"


@dataclass(frozen=True, slots=True)
class Mentions:
    """label, exercise: of today, as named ("" and None if not). elsewhere: an exercise named that is not today's.

    wanted: named as what to do in its place. spans: the words of exercises, as (start, end).
    """

    label: str = ""
    exercise: ExerciseId | None = None
    pattern: Pattern | None = None
    elsewhere: ExerciseId | None = None
    wanted: ExerciseId | None = None
    spans: tuple[tuple[int, int], ...] = ()


def find_mentions(said: str, situation: Situation, catalogue: Catalogue) -> Mentions:
    day = situation.day
    if day is None:
        return Mentions()
    todays = {slot.label: situation.exercise_of(slot) for slot in day.slots}
    originals = {slot.label: slot.exercise for slot in day.slots}
    known = list(dict.fromkeys(one for one in (*todays.values(), *originals.values()) if one))
    label = next((each.upper() for each in w.LABEL.findall(said) if day.slot(each.upper())), "")
    plain = _without_things(_mended(said, known, catalogue))
    inside = [
        one
        for one in catalogue.names.mentions(plain, among=known)
        if one.match.score >= _SURE_NAME and one.match.exercise in known
    ]
    anywhere = [one for one in catalogue.names.mentions(plain) if one.match.score >= _SURE_NAME]
    spans = tuple((one.start, one.end) for one in (*inside, *anywhere))
    wanted_at = _wanted_at(plain)
    wanted = next((one.match.exercise for one in anywhere if _within(one.start, wanted_at)), None)
    going = [one.match.exercise for one in inside if not _within(one.start, wanted_at)]
    others = [one.match.exercise for one in anywhere if not _within(one.start, wanted_at)]
    going = going or [kin for one in others if (kin := _kin_of_today(one, known, catalogue))]
    if not label and going:
        label = next(each for each, one in (*todays.items(), *originals.items()) if one == going[0])
    exercise = todays.get(label) if label else None
    entry = catalogue.get(exercise)
    elsewhere = next(iter(others), None) if not label else None
    return Mentions(label, exercise, entry.pattern if entry else None, elsewhere, wanted if wanted != exercise else None, spans)


def _kin_of_today(named: ExerciseId, known: list[ExerciseId], catalogue: Catalogue) -> ExerciseId | None:
    """ "leg raises" said on a day with hanging leg raises: the one of today that is of the same family."""
    family = getattr(catalogue.get(named), "family", "")
    kin = [one for one in known if family and getattr(catalogue.get(one), "family", "") == family]
    return kin[0] if len(kin) == 1 else None


def _mended(said: str, known: list[ExerciseId], catalogue: Catalogue) -> str:
    """Slips of a letter or two in the words of today's exercises put right, the length kept."""
    vocabulary = frozenset().union(*(_words_of(entry.name, *entry.aliases) for one in known if (entry := catalogue.get(one))))
    return re.sub(r"[a-z]{6,}", lambda word: _nearest(word[0], vocabulary), said)


@lru_cache(maxsize=1024)
def _words_of(*names: str) -> frozenset[str]:
    """Words of five letters and more in the names, singular and plural."""
    words = {word for name in names for word in re.findall(r"[a-z]{5,}", name.lower())}
    return frozenset(words | {word + "s" for word in words})


def _nearest(word: str, vocabulary: frozenset[str]) -> str:
    if word in vocabulary or word.removesuffix("s") in vocabulary:
        return word
    near = [known for known in vocabulary if known[0] == word[0] and OSA.distance(word, known, score_cutoff=1) <= 1]
    return near[0][: len(word)].ljust(len(word)) if near and word not in w.PLAIN_WORDS else word


def _spaces(found: re.Match[str]) -> str:
    return " " * len(found[0])


def _without_things(said: str) -> str:
    """Blanks out kit that is meant as a thing ("no bench", "the pull up bar is broken"), and words of weight and ease.

    "bench press" and "barbell rows" stay: there the thing is part of an exercise's name.
    """
    blank = w.WEIGHT_WORDS.sub(_spaces, said)
    for thing, item in w.THINGS:
        if item not in _ALSO_EXERCISES and not (item is KitItem.BENCH and w.PAIN.search(said)):
            blank = thing.sub(_spaces, blank)
    return blank


def _wanted_at(said: str) -> tuple[int, int] | None:
    """Where in the text the wanted exercise would stand: "X instead of Y", "swap Y for X"."""
    before = re.search(r"\b(?:instead of|in place of|rather than)\b", said)
    if before:
        lead = re.search(r"\b(?:can|could|may|should) (?:i|we) (?:do|try|use|have)\b|^", said)
        assert lead is not None
        return (lead.end(), before.start())
    alone = re.search(r"\binstead\b", said)
    if alone and not re.search(r"\b(?:what|whats|anything|something|option)\b", said[: alone.start()]):
        return (0, alone.start())
    verb = re.search(r"\b(?:swap(?:ping)?|switch|trade|replace|exchange|change)\b", said)
    target = re.search(_WANT, said[verb.end() :]) if verb else None
    if verb and target:
        return (verb.end() + target.end(), len(said))
    asked = re.search(r"\b(?:can|could) (?:i|we) (?:do|try)\s+(.+?)\s+(?:instead|for (?:this|it|[a-h][1-9]))\b", said)
    return (asked.start(1), asked.end(1)) if asked else None


def _within(start: int, span: tuple[int, int] | None) -> bool:
    return span is not None and span[0] <= start < span[1]


def find_slot(
    said: str,
    situation: Situation,
    catalogue: Catalogue,
    mentions: Mentions,
    *,
    reason: Reason,
    gone: tuple[KitItem, ...],
    part: str,
) -> tuple[str, ExerciseId | None]:
    """The slot that is meant, and the exercise now in it; ("", None) where it is not clear."""
    day = situation.day
    assert day is not None
    todays = {slot.label: situation.exercise_of(slot) for slot in day.slots}
    if mentions.label:
        return mentions.label, todays[mentions.label]
    if mentions.elsewhere is not None:
        return "", None  # an exercise that today has not: ask which slot
    due = situation.due
    due_label = due.label if due else ""
    entries = {label: entry for label, one in todays.items() if (entry := catalogue.get(one))}
    fitting = _fitting(entries, situation, reason=reason, gone=gone, part=part)
    if fitting is not None:
        clear = len(fitting) == 1 or (reason is Reason.PAIN and bool(fitting))
        chosen = due_label if due_label in fitting else fitting[0] if clear else ""
        return (chosen, todays[chosen]) if chosen else ("", None)
    general = reason is Reason.MISSING_KIT or not due_label
    started = bool(situation.today) or situation.due_override is not None
    if general or not (started or w.THIS.search(said)):
        return "", None
    return due_label, todays.get(due_label)


def _fitting(
    entries: dict[str, Exercise], situation: Situation, *, reason: Reason, gone: tuple[KitItem, ...], part: str
) -> list[str] | None:
    """Labels that the cause itself points at; None where it points at none in particular."""
    if gone:
        return [label for label, entry in entries.items() if _needs(entry, situation, frozenset(gone))]
    if reason is Reason.PAIN and part:
        return [label for label, entry in entries.items() if strain(entry, part) > 1]
    if reason is Reason.NOISE:
        return [label for label, entry in entries.items() if not entry.quiet] or None
    if reason is Reason.NO_ROOM:
        return [label for label, entry in entries.items() if takes_much_room(entry)] or None
    return None


def _needs(entry: Exercise, situation: Situation, gone: frozenset[KitItem]) -> bool:
    """Does an exercise need one of these things in every way that this member could do it?"""
    return bool(entry.kit) and can_do(entry, situation.kit, gone) is None and any(gone & way for way in entry.kit)
