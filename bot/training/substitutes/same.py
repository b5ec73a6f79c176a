"""Is this the same exercise with another implement? Then it is no swap: the member simply does it with what is there.

"Romanian deadlift" in the catalogue is the barbell's; who owns dumbbells only does it with dumbbells, and would call it the same.
Two entries are the same when their names are equal once the implement is taken out of them.
"""

from __future__ import annotations

import re
from functools import lru_cache

from bot.training.blocks import ExerciseId
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import Exercise, LoadStyle
from bot.training.kit import Kit
from bot.training.substitutes.likeness import likeness
from bot.training.substitutes.values import can_do

# Words that name what is held, not what is done.
_IMPLEMENTS = re.compile(
    r"\b(?:barbells?|bar|bb|dumb ?bells?|dbs?|kettle ?bells?|kbs?|cables?|machines?|smith|bands?|banded|ez|trap|hex|landmine|backpack"
    r"|sandbag|plates?|rings?|straps?|vest|goblet|double|weighted)\b"
)
_WEIGHTS = frozenset({LoadStyle.PAIR, LoadStyle.SINGLE, LoadStyle.BARBELL, LoadStyle.MACHINE})


def kit_version(exercise: ExerciseId, kit: Kit, catalogue: Catalogue, *, written: str = "") -> ExerciseId:
    """The same movement with an implement that this member owns; the exercise itself where it can be done, or nothing is the same.

    written: the coach's wording. Where it names the implement, the exercise stays what it is.
    """
    entry = catalogue.get(exercise)
    if entry is None or can_do(entry, kit) is not None or _IMPLEMENTS.search(written.casefold().replace("-", " ")):
        return exercise
    fitting = [other for other in catalogue if _same_exercise(entry, other) and can_do(other, kit) is not None]
    return max(fitting, key=lambda other: (likeness(entry, other), other.id)).id if fitting else exercise


def _same_exercise(entry: Exercise, other: Exercise) -> bool:
    return (
        other.pattern is entry.pattern
        and other.family == entry.family != ""
        and other.id != entry.id
        and other.one_sided is entry.one_sided
        and other.measure is entry.measure
        and other.load_style in _WEIGHTS
        and not _cores(entry.name, *entry.aliases).isdisjoint(_cores(other.name, *other.aliases))
    )


@lru_cache(maxsize=2048)
def _cores(*names: str) -> frozenset[frozenset[str]]:
    """Each name as the set of its words, without the implement and plurals; empty ones left out."""
    plain = (_IMPLEMENTS.sub(" ", name.casefold().replace("-", " ")) for name in names)
    words = (frozenset(word.removesuffix("s") for word in re.findall(r"[a-z]+", each)) for each in plain)
    return frozenset(each for each in words if each)
