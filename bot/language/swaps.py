"""Does a text ask for another exercise? For which slot, and why: missing kit, pain, too hard, too easy, no room, noise, taken.

"no barbell, what instead of C1?" -> C1, missing kit, barbell
"knees bad today"                 -> the slot that is due, pain, knee (the reader of pain has it first)
"swap tue and thu"                -> nothing: days, not exercises
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from bot.language.situation import Situation
from bot.training.blocks import ExerciseId
from bot.training.exercises.catalogue import Catalogue
from bot.training.kit import KitItem
from bot.training.substitutes import Reason, can_do


@dataclass(frozen=True, slots=True)
class SwapAsked:
    """label: the slot, "" where it is not clear. part: of the body, for pain. missing: KitItem values. undo: back to the coach's exercise.

    wanted: the exercise that the member would like instead.
    """

    label: str
    reason: Reason
    certainty: float
    exercise: ExerciseId | None = None
    part: str = ""
    missing: tuple[str, ...] = ()
    undo: bool = False
    wanted: ExerciseId | None = None


_DAYS = re.compile(r"\b(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\b|\b(?:tomorrow|tmrw|session|days?|week)\b")
_LABEL = re.compile(r"\b([a-h][1-6])\b")
_INSTEAD = re.compile(
    r"\b(?:instead|alternatives?|alternativ\w*|substitut\w*|replac\w*|swap\w*|switch|sub for|exchange|something (?:else|different|other)|anything else|"
    r"other (?:exercise|option|move|one)|another (?:exercise|option|move|one)|different (?:exercise|one|move)|what else|plan b|options? for|variation)\b"
)
_ASKING = re.compile(
    r"\?|\b(?:what|any|anything|something|can i|could i|could you|can you|give me|need|is there|got a|have you|want|suggest|please|pls|how about)\b"
)
_UNDO = re.compile(
    r"\b(?:undo (?:the |my )?swap|(?:back|return|go back) to (?:the )?(?:original|old|coach\w*|normal|planned)\b|cancel (?:the )?swap|swap (?:it )?back|original exercise)"
)
_CANNOT = re.compile(r"\b(?:cant|cannot|can not|not able to|unable to|couldnt)\s+(?:really |even )?(?:do|manage|perform|get)\b")
_HAVE_NOT = re.compile(
    r"\b(?:no|dont have|do not have|havent got|havent|i lack|lack|without|missing|dont own|got no|theres no|there is no|forgot (?:my|the)|left (?:my|the)|"
    r"broken?|snapped|ripped|tore|burst|popped|lost (?:my|the)|isnt here|not here|wont fit)\b"
)
_TAKEN = re.compile(r"\b(?:taken|in use|occupied|busy|being used|someone(?:s| is)? (?:on|using)|not free|full)\b")
_HARD = re.compile(
    r"\b(?:too (?:hard|heavy|difficult|tough|advanced|much)|easier|cant manage|not strong enough|struggl\w+ with|regression|simpler)\b"
)
_EASY = re.compile(
    r"\b(?:too (?:easy|light)|harder (?!than)|more (?:difficult|challenging)|progression for|not challenging|boring)\b|\bharder\b(?= (?:version|variation|one|than|option))|something harder"
)
_ROOM = re.compile(
    r"\b(?:no (?:space|room)|not enough (?:space|room)|tiny (?:room|flat|hotel)|small (?:room|flat)|too little space|no place)\b"
)
_NOISE = re.compile(
    r"\b(?:noise|noisy|quiet(?:er)?|loud|neighbou?rs?|baby|kids? (?:are |is )?(?:asleep|sleeping)|no jump\w*|downstairs|silent)\b"
)
_WISH = re.compile(r"\b(?:hate|dont like|do not like|bored of|sick of|not a fan of|rather not)\b")
_PAIN = re.compile(r"\b(?:hurts?|hurting|pain\w*|sore|bad|aching|aches|sensitive|dodgy|cranky|achy|irritated)\b")
_PARTS = {
    "knee": "knee", "back": "lower back", "shoulder": "shoulder", "wrist": "wrist", "elbow": "elbow", "hip": "hip", "neck": "neck", "ankle": "ankle",
}  # fmt: skip
_KIT_WORDS: tuple[tuple[str, KitItem], ...] = (
    ("pull ?-?up bar", KitItem.PULL_UP_BAR), ("chin ?-?up bar", KitItem.PULL_UP_BAR), ("barbell", KitItem.BARBELL), ("dumbbells?|dumbells?|dbs?", KitItem.DUMBBELL),
    ("kettle ?bells?|kbs?", KitItem.KETTLEBELL), ("mini ?bands?|short bands?", KitItem.MINI_BAND), ("bands?", KitItem.BAND), ("incline bench", KitItem.INCLINE_BENCH),
    ("bench", KitItem.BENCH), ("rack", KitItem.RACK), ("rings?|straps", KitItem.RINGS), ("box|step", KitItem.BOX), ("dip bars?", KitItem.DIP_BARS),
    ("cable", KitItem.CABLE), ("plates?", KitItem.PLATE), ("wheel", KitItem.AB_WHEEL), ("ball", KitItem.BALL), ("chair", KitItem.CHAIR), ("bar", KitItem.BARBELL),
    ("vest", KitItem.WEIGHT_VEST), ("backpack", KitItem.BACKPACK), ("sliders?", KitItem.SLIDER),
)  # fmt: skip
_KIT = tuple((re.compile(rf"\b(?:{words})\b"), item) for words, item in _KIT_WORDS)


def read_swap(text: str, situation: Situation, catalogue: Catalogue) -> SwapAsked | None:
    """Read a text as a wish for another exercise; None if it is none. Without a slot: the one that is due."""
    words = re.sub(r"\s+", " ", text.lower().replace("’", "'").replace("'", "")).strip()
    if not words or len(words) > 300 or situation.day is None:
        return None
    if _UNDO.search(words):
        return SwapAsked(_said_label(words, situation), Reason.WISH, 0.9, undo=True)
    asks_other = bool(_INSTEAD.search(words))
    if asks_other and _DAYS.search(words) and not _LABEL.search(words):
        return None
    if re.search(r"\d\s*[x×]\s*\d|\d instead of \d|instead of \d", words):
        return None
    kit = _kit_in(words)
    reason, certainty = _reason(words, kit, asks_other)
    if reason is None:
        return None
    label, exercise = _slot(words, situation, catalogue, kit if reason in (Reason.MISSING_KIT, Reason.TAKEN) else ())
    if reason is Reason.WISH and not asks_other and not label:
        return None
    part = (
        next((part for word, part in _PARTS.items() if re.search(rf"\b{word}s?\b", words)), "") if reason is Reason.PAIN else ""
    )
    missing = tuple(item.value for item in kit) if reason in (Reason.MISSING_KIT, Reason.TAKEN) else ()
    return SwapAsked(label, reason, certainty, exercise, part, missing)


def _reason(words: str, kit: tuple[KitItem, ...], asks_other: bool) -> tuple[Reason | None, float]:
    """Why, and how sure it is that another exercise is wanted at all."""
    asking = asks_other or bool(_ASKING.search(words))
    named = bool(_LABEL.search(words))
    for pattern, reason, alone in (
        (_NOISE, Reason.NOISE, 0.0),
        (_ROOM, Reason.NO_ROOM, 0.75),
        (_EASY, Reason.TOO_EASY, 0.0),
        (_HARD, Reason.TOO_HARD, 0.0),
    ):
        if pattern.search(words):
            if asks_other or asking or (named and reason in (Reason.TOO_HARD, Reason.TOO_EASY)):
                return reason, 0.9
            return (reason, alone) if alone else (None, 0.0)
    if _TAKEN.search(words) and kit:
        return Reason.TAKEN, 0.9
    if kit and _HAVE_NOT.search(words):
        return Reason.MISSING_KIT, 0.92 if asking else 0.75
    if re.search(r"\b(?:kit|equipment|gear)\b", words) and (_HAVE_NOT.search(words) or asks_other):
        return Reason.MISSING_KIT, 0.9
    if _PAIN.search(words) and any(re.search(rf"\b{word}s?\b", words) for word in _PARTS):
        return Reason.PAIN, 0.85 if asking else 0.65
    if _CANNOT.search(words) and not re.search(r"\b(?:today|tomorrow|session|set|rep)s?\b(?! instead)", words):
        return Reason.WISH if kit else Reason.TOO_HARD, 0.8
    if _WISH.search(words):
        return Reason.WISH, 0.8 if asking else 0.6
    if kit and re.search(r"\b(?:use|with|do it with)\b", words) and re.search(r"\b(?:can i|could i|instead)\b", words):
        return Reason.WISH, 0.75
    return (Reason.WISH, 0.85) if asks_other else (None, 0.0)


def _kit_in(words: str) -> tuple[KitItem, ...]:
    found = []
    rest = words
    for pattern, item in _KIT:
        if pattern.search(rest):
            found.append(item)
            rest = pattern.sub(" ", rest)
    return tuple(found)


def _said_label(words: str, situation: Situation) -> str:
    labels = [found.upper() for found in _LABEL.findall(words) if situation.slot(found.upper())]
    return labels[0] if labels else ""


def _slot(words: str, situation: Situation, catalogue: Catalogue, kit: tuple[KitItem, ...]) -> tuple[str, ExerciseId | None]:
    """The slot that is meant: named, by its exercise, by the kit that it needs, else the one that is due."""
    label = _said_label(words, situation)
    day = situation.day
    assert day is not None
    if label:
        slot = day.slot(label)
        return label, situation.exercise_of(slot) if slot else None
    todays = {slot.label: situation.exercise_of(slot) for slot in day.slots}
    known = [exercise for exercise in todays.values() if exercise]
    mentioned = [m for m in catalogue.names.mentions(words, among=known) if m.match.exercise in known]
    if mentioned:
        exercise = mentioned[0].match.exercise
        return next(label for label, each in todays.items() if each == exercise), exercise
    needing = [slot for slot in day.slots if kit and _needs(situation.exercise_of(slot), situation, catalogue, kit)]
    due = situation.due
    if len(needing) == 1:
        return needing[0].label, situation.exercise_of(needing[0])
    if needing:
        return (due.label, todays.get(due.label)) if due and any(slot.label == due.label for slot in needing) else ("", None)
    if due and not kit and (situation.today or re.search(r"\b(?:this|it|that|next|now)\b", words)):
        return due.label, todays.get(due.label)
    return "", None


def _needs(exercise: ExerciseId | None, situation: Situation, catalogue: Catalogue, kit: tuple[KitItem, ...]) -> bool:
    """Does an exercise need one of these things in every way that this member could do it?"""
    entry = catalogue.get(exercise)
    return (
        entry is not None
        and bool(entry.kit)
        and can_do(entry, situation.kit, frozenset(kit)) is None
        and any(set(kit) & way for way in entry.kit)
    )
