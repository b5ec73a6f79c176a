"""Reads a text as a wish for another exercise: is it one at all, why, which slot, and is one named that is wanted?

Plan: fold; refuse what is about sets, days or settings; hear an undo; find kit, exercises and parts of the body; settle the reason;
then the slot: named, by its exercise, by the kit it needs, by what hurts or is loud, else the one that is due.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from bot.language.questions import is_plainly_asked
from bot.language.situation import Situation
from bot.language.swaps import words as w
from bot.language.swaps.slots import Mentions, find_mentions, find_slot
from bot.training.blocks import ExerciseId
from bot.training.exercises.catalogue import Catalogue
from bot.training.kit import ALWAYS_AT_HAND, KitItem
from bot.training.safety import PART_OF_WORD
from bot.training.substitutes import Reason

_LONGEST = 300
_DIGITS = re.compile(r"\d+")
_KIT_REASONS = (Reason.MISSING_KIT, Reason.TAKEN)
# Words of the other reasons stand in many a question: "never done curls, how heavy", "straight over to the other side?".
_SAID_PLAINLY = (*_KIT_REASONS, Reason.PAIN, Reason.NO_ROOM, Reason.NOISE)


@dataclass(frozen=True, slots=True)
class SwapAsked:
    """A wish for another exercise.

    label: the slot, "" where it is not clear. certainty: 0 to 1. part: of the body, for pain. missing: KitItem values not at hand.
    undo: back to the coach's exercise. wanted: the exercise that the member would like instead.
    """

    label: str
    reason: Reason
    certainty: float
    exercise: ExerciseId | None = None
    part: str = ""
    missing: tuple[str, ...] = ()
    undo: bool = False
    wanted: ExerciseId | None = None


def read_swap(text: str, situation: Situation, catalogue: Catalogue) -> SwapAsked | None:
    """Read a text as a wish for another exercise; None if it is none, or on a day without slots."""
    if situation.day is None or not text.strip() or len(text) > _LONGEST:
        return None
    said = w.fold(text)
    if _is_about_something_else(said, situation):
        return None
    mentions = find_mentions(said, situation, catalogue)
    if _undoes(said, mentions):
        return SwapAsked(mentions.label, Reason.WISH, 0.9, mentions.exercise, undo=True)
    kit = _kit_in(_clause_about_kit(said), mentions, catalogue)
    part = _part_in(said)
    heard = _reason(said, kit, part, mentions)
    if heard is None:
        return None
    reason, certainty = heard
    if reason not in _SAID_PLAINLY and is_plainly_asked(text, situation, catalogue):
        return None
    gone = kit if reason in _KIT_REASONS else ()
    label, exercise = find_slot(said, situation, catalogue, mentions, reason=reason, gone=gone, part=part)
    missing = _missing(said, kit, reason) if reason in _KIT_REASONS else ()
    part = part if reason is Reason.PAIN else ""
    return SwapAsked(label, reason, certainty, exercise, part, missing, wanted=mentions.wanted)


def _is_about_something_else(said: str, situation: Situation) -> bool:
    """Sets, corrections, days, reminders, units: other readers have those."""
    if w.SET_LIKE.search(said) or w.CORRECTING.search(said) or w.COMPARING.search(said):
        return True
    numbers = _DIGITS.findall(w.LABEL.sub(" ", said))
    if len(numbers) >= 2 or (numbers and not w.OTHER.search(said)):
        return True
    named = any(situation.slot(label.upper()) for label in w.LABEL.findall(said))
    return bool(w.DAYS.search(said)) and bool(w.OTHER.search(said)) and not named and not _names_cause(said)


def _names_cause(said: str) -> bool:
    """ "cant jump tonight, neighbours asleep, what instead" has a day's word in it and is about an exercise all the same."""
    return bool(
        w.STRONG_NOISE.search(said) or w.ROOM.search(said) or w.LACK.search(said) or w.TAKEN.search(said) or w.PAIN.search(said)
    )


def _undoes(said: str, mentions: Mentions) -> bool:
    if w.UNDO.search(said):
        return not re.search(r"\bno swap\w* (?:for|needed)\b", said)
    asks_why = re.search(r"\b(?:why|how come|then back|and back|back and forth|reason)\b", said)
    return bool(w.BACK_TO.search(said)) and bool(mentions.label) and not _part_in(said) and not asks_why


def _clause_about_kit(said: str) -> str:
    """The part that says what is missing, taken or all there is: "no barbell but I have dumbbells" is about the barbell."""
    if w.ONLY_HAVE.search(said):
        return w.ONLY_HAVE.split(said, maxsplit=1)[-1]
    about = [clause for clause in w.CLAUSE.split(said) if w.LACK.search(clause) or w.TAKEN.search(clause)]
    return " , ".join(about) or said


def things_named(name: str) -> frozenset[KitItem]:
    """The things that stand in an exercise's name: "band row" needs a band."""
    rest, found = w.fold(name), set()
    for pattern, item in w.KIT_WORDS:
        if pattern.search(rest):
            found.add(item)
        rest = pattern.sub(lambda match: " " * len(match[0]), rest)
    return frozenset(found)


def _kit_in(said: str, mentions: Mentions, catalogue: Catalogue) -> tuple[KitItem, ...]:
    """Things named, but not where they are part of an exercise's name ("barbell rows", "bench press")."""
    rest = said
    found: list[KitItem] = []
    for (pattern, item), (thing, _) in zip(w.KIT_WORDS, w.THINGS, strict=True):
        if thing.search(rest):
            found.append(item)
        rest = pattern.sub(lambda match: " " * len(match[0]), rest)
    entry = catalogue.get(mentions.exercise)
    hangs = entry is not None and any(KitItem.PULL_UP_BAR in way for way in entry.kit)
    if KitItem.BARBELL in found and "barbell" not in said and hangs:
        found[found.index(KitItem.BARBELL)] = KitItem.PULL_UP_BAR  # "a bar": the one that is hung from
    return tuple(dict.fromkeys(found))


def _missing(said: str, kit: tuple[KitItem, ...], reason: Reason) -> tuple[str, ...]:
    """ "I only have bands": all else is missing; otherwise what was named."""
    if kit and reason is Reason.MISSING_KIT and w.ONLY_HAVE.search(said):
        return tuple(item.value for item in KitItem if item not in kit and item not in ALWAYS_AT_HAND)
    if not kit and re.search(r"\b(?:no|without|any) (?:kit|equipment|gear|weights)\b", said):
        return tuple(item.value for item in KitItem if item not in ALWAYS_AT_HAND)
    return tuple(item.value for item in kit)


def _part_in(said: str) -> str:
    lowered = re.search(r"\b(lower|upper) back\b", said)
    if lowered:
        return f"{lowered[1]} back"
    found = (PART_OF_WORD.get(word, "") for word in re.findall(r"[a-z]+", said) if word not in _NO_PARTS)
    part = next((each for each in found if each), "")
    if part == "back":
        return (
            "lower back"
            if re.search(r"\b(?:my|the|bad|sore|lower) back\b|\bback (?:is|hurts?|pain|feels|a|was)\b|^back\b", said)
            else ""
        )
    return part


# Words of PART_OF_WORD that mostly name exercises or people here ("leg raises", "arm row", "hip thrust" are mentions).
_NO_PARTS = frozenset(
    {"leg", "legs", "lat", "lats", "traps", "trap", "calf", "head", "eye", "eyes", "heel", "heels", "arch", "si", "arm", "hand"}
)


# It hurt some day before: told, and no wish by itself.
_OF_BEFORE = re.compile(
    r"\b(?:was|were|hurt|felt|had)\b.*\b(?:yesterday|last (?:week|time|session|night)|days ago|(?:mon|tues|wednes|thurs|fri|satur|sun)days?)\b"
)


def _reason(said: str, kit: tuple[KitItem, ...], part: str, mentions: Mentions) -> tuple[Reason, float] | None:
    """Why, and how sure it is that another exercise is wanted at all."""
    other = bool(w.OTHER.search(said))
    asking = other or bool(w.ASKING.search(said))
    named = bool(mentions.label) or bool(mentions.elsewhere)
    if part and w.PAIN.search(said) and not w.NO_PAIN.search(said) and (asking or not _OF_BEFORE.search(said)):
        return Reason.PAIN, 0.88 if asking else 0.66
    if w.NOISE.search(said) and (other or named or w.STRONG_NOISE.search(said) or (asking and "quiet" in said)):
        return Reason.NOISE, 0.9 if other or named else 0.72
    if w.ROOM.search(said):
        return Reason.NO_ROOM, 0.9 if named or asking else 0.75
    return (
        _about_kit(said, kit, asking, other, named)
        or _about_grade(said, asking, other, named)
        or _about_wish(said, kit, asking, other, named, mentions)
    )


def _about_kit(said: str, kit: tuple[KitItem, ...], asking: bool, other: bool, named: bool) -> tuple[Reason, float] | None:
    if kit and w.TAKEN.search(said):
        return Reason.TAKEN, 0.9
    if kit and w.ONLY_HAVE.search(said) and (asking or named):
        return Reason.MISSING_KIT, 0.88
    if kit and w.LACK.search(said) and not re.search(r"\bno (?:problem|idea|worries|thanks|pain)\b", said):
        return Reason.MISSING_KIT, 0.92 if asking or named else 0.8
    at_all = w.KIT_AT_ALL.search(said)
    if at_all and w.LACK.search(said) and not re.search(r"\bweights? (?:is|was|are|were)\b", said):
        return Reason.MISSING_KIT, 0.88 if asking or named else 0.75
    return None


def _about_grade(said: str, asking: bool, other: bool, named: bool) -> tuple[Reason, float] | None:
    comparing = re.search(r"\b(?:easier|harder|tougher) than (?:last|before|it|usual|expected|i)\b", said)
    if w.SHORT_WISH.fullmatch(said.rstrip(" ?!.")):
        return (Reason.TOO_EASY if w.EASY.search(said) else Reason.TOO_HARD), 0.68
    past = re.search(r"\b(?:was|were|felt|got|did)\b", said)
    if w.EASY.search(said) and not comparing and (named or other or (asking and not past)):
        return Reason.TOO_EASY, 0.9 if asking or not past else 0.7
    if w.HARD.search(said) and not comparing and (named or other or (asking and not past)):
        return Reason.TOO_HARD, 0.9 if asking or not past else 0.7
    if w.CANNOT.search(said) and named:
        return Reason.TOO_HARD, 0.85
    return None


# A whole day or session, which is no slot's substitute.
_ALL_OF_IT = re.compile(r"\b(?:all of (?:it|this|that|them)|everything|the (?:whole|entire) (?:thing|day|session|lot|workout))\b")


def _about_wish(
    said: str, kit: tuple[KitItem, ...], asking: bool, other: bool, named: bool, mentions: Mentions
) -> tuple[Reason, float] | None:
    if w.DISLIKE.search(said) and named:
        return Reason.WISH, 0.88 if asking else 0.75
    if mentions.wanted and named and re.search(r"\b(?:change|trade|exchange)\b", said):
        return Reason.WISH, 0.8  # "could I change the pull ups for rows"
    if not other or re.search(r"\b(?:thanks|thank you|thx|nothing)\b", said):
        return None
    strong = bool(w.OTHER.search(w.WEAK_OTHER.sub(" ", said)))
    if strong and _ALL_OF_IT.search(said) and not mentions.label:
        return Reason.WISH, 0.5
    if strong:
        if named or mentions.wanted or w.THIS.search(said) or len(said.split()) <= 2:
            return Reason.WISH, 0.8
        aside = re.search(r"\bswap\w*|\bswitch|\btrade|\bchange", said) and not re.search(r"\b(?:exercises?|moves?)\b|\?", said)
        return (Reason.WISH, 0.5 if aside else 0.78) if len(said.split()) <= 8 else None
    if kit and re.search(r"\b(?:use|do|try)\b", said) and (named or w.THIS.search(said)):
        return Reason.WISH, 0.78  # "can I use dumbbells for this"
    if mentions.wanted and named:
        return Reason.WISH, 0.75
    return (Reason.WISH, 0.65) if named and re.search(r"\b(?:options?|choices?|ideas?)\b", said) else None
