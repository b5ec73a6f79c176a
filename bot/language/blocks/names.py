"""Which exercise, and which kit, do a coach's words mean? Own names first, then the catalogue, then short forms of its words."""

from __future__ import annotations

import re
from collections.abc import Mapping

from bot.language.kit_words import read_kit
from bot.training.blocks import ExerciseId
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import LoadStyle
from bot.training.exercises.names import NameMatch
from bot.training.kit import KitItem
from bot.training.loads import Unit

SURE, AHEAD = 0.9, 0.05  # a name is taken without asking when it fits so well and the next is so far behind
NEAREST = 4
_HELD = re.compile(r"(?:goblet|weighted|loaded)\s+(?P<plain>\S.*)", re.I)
_ATTACHMENTS = re.compile(r"(?:with\s+)?(?:a\s+|the\s+)?(?:rope|cables?|machine|straight\s+bar|v[\s-]?bar)(?:\s+attachment)?")


class Names:
    """Which exercise does the coach's word mean? Own names first, then the catalogue."""

    def __init__(self, catalogue: Catalogue, own_names: Mapping[str, ExerciseId]) -> None:
        self.catalogue = catalogue
        self._own = {folded(name): exercise for name, exercise in own_names.items()}
        self.aliases: dict[str, str] = {}
        self._found: dict[str, tuple[ExerciseId | None, tuple[NameMatch, ...], bool]] = {}

    def is_sure(self, name: str) -> bool:
        exercise, _, mended = self.find(name)
        return exercise is not None and not mended

    def find(self, name: str) -> tuple[ExerciseId | None, tuple[NameMatch, ...], bool]:
        """(exercise or None, nearest names, whether a slip was mended)."""
        key = folded(name)
        if key not in self._found:
            self._found[key] = self._look(key, name)
        return self._found[key]

    def _look(self, key: str, name: str) -> tuple[ExerciseId | None, tuple[NameMatch, ...], bool]:
        if key in self._own:
            return self._own[key], (), False
        target = self.aliases.get(key)
        if target is not None and folded(target) != key:
            return self.find(target)
        matches = self.catalogue.names.find(name, limit=NEAREST)
        if not (matches and matches[0].score >= SURE) and (spelled := spelled_out(name)) != name:
            matches = self.catalogue.names.find(spelled, limit=NEAREST) or matches
        if matches and matches[0].exact:
            return matches[0].exercise, matches, False
        if matches and matches[0].score >= SURE and (len(matches) == 1 or matches[0].score - matches[1].score >= AHEAD):
            return matches[0].exercise, matches, True
        held = self._without_hold(name)
        if held is not None:
            return held.exercise, (held, *matches), True
        return None, matches, False

    def with_attachment(self, name: str, beside: str) -> str:
        """ "Triceps pushdown" beside "rope" is the one on the cable, where the catalogue has one of that name."""
        word = beside.strip(" .()").lower()
        if not _ATTACHMENTS.fullmatch(word):
            return name
        exact = (f"{kit} {name}" for kit in (word, "cable") if (found := self._best(f"{kit} {name}")) and found.exact)
        return next(exact, name)

    def _best(self, name: str) -> NameMatch | None:
        return next(iter(self.catalogue.names.find(name, limit=1)), None)

    def _without_hold(self, name: str) -> NameMatch | None:
        """ "Goblet side lunge": an exercise done with one bell, and how that is held."""
        found = _HELD.match(name.strip())
        plain = self._best(found["plain"]) if found else None
        entry = self.catalogue.get(plain.exercise) if plain and plain.exact else None
        return plain if entry is not None and entry.load_style in (LoadStyle.SINGLE, LoadStyle.PAIR) else None

    def forget(self) -> None:
        self._found.clear()


# Short forms that coaches write, beside those that every name is folded by (common practice); only tried where the words as written
# name nothing.
_SHORT = {
    "dead": "deadlift", "dbl": "double", "assist": "assisted", "sgl": "single", "std": "standing", "cg": "close grip", "wg": "wide grip",
    "ng": "neutral grip", "dec": "decline", "lat": "lateral", "rev": "reverse", "cs": "chest supported", "ff": "front foot",
    "rfe": "rear foot elevated", "pu": "push up", "w": "with", "shldr": "shoulder",
}  # fmt: skip


def spelled_out(name: str) -> str:
    """ "REV LUNGE" -> "reverse lunge"."""
    return " ".join(_SHORT.get(word, word) for word in re.sub(r"[./]", " ", name.lower()).split())


def folded(name: str) -> str:
    return " ".join(name.casefold().split())


def kit_named(text: str) -> frozenset[KitItem]:
    """Things said beside an exercise: "dumbbell, bench"; names of things as this program writes them, or as people say them."""
    items: set[KitItem] = set()
    for part in re.split(r"\s*[,/+;&]\s*|\s+and\s+|\s+or\s+", text.strip()):
        word = part.strip(" .").lower().replace(" ", "_").replace("-", "_")
        if word in KitItem._value2member_map_:
            items.add(KitItem(word))
        else:
            items |= read_kit(part, Unit.KG).kit.items
    return frozenset(items)
