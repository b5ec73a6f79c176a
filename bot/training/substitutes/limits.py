"""What may not be offered at all? Kit that is not at hand, a part that hurts, too little room, noise, what today already is.

Nothing here is a diagnosis: an exercise that is known to load a part that hurts is left out, whatever else speaks for it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bot.training.blocks import ExerciseId
from bot.training.exercises.entry import Exercise, LoadStyle, Pattern
from bot.training.kit import ALWAYS_AT_HAND, Kit, KitItem
from bot.training.safety import JOINT_OF_PART, PART_OF_WORD
from bot.training.substitutes.values import Reason, can_do

P = Pattern
_PORTABLE = frozenset({KitItem.DUMBBELL, KitItem.KETTLEBELL, KitItem.PLATE, KitItem.BAND, KitItem.MINI_BAND}) | ALWAYS_AT_HAND
_WEIGHTS = frozenset({KitItem.DUMBBELL, KitItem.KETTLEBELL, KitItem.BARBELL})
# Parts that are muscles rather than joints: what trains them is left out (common practice).
_MUSCLES_OF_PART: dict[str, frozenset[str]] = {
    "hamstring": frozenset({"hamstrings"}),
    "thigh": frozenset({"quadriceps femoris", "rectus femoris"}),
    "calf": frozenset({"gastrocnemius", "soleus"}),
    "shin": frozenset({"tibialis anterior"}),
    "glute": frozenset({"gluteus maximus", "gluteus medius", "gluteus minimus"}),
    "groin": frozenset({"adductor magnus", "adductor longus", "adductor brevis", "gracilis", "pectineus"}),
    "chest": frozenset({"pectoralis major", "upper pectoralis major", "lower pectoralis major"}),
    "ribs": frozenset({"obliques", "pectoralis major", "serratus anterior"}),
    "belly": frozenset({"rectus abdominis", "obliques", "transversus abdominis", "iliopsoas"}),
    "upper back": frozenset({"rhomboids", "middle trapezius", "upper trapezius", "lower trapezius", "thoracic erector spinae"}),
    "upper arm": frozenset({"biceps brachii", "brachialis", "triceps brachii"}),
    "forearm": frozenset({"brachioradialis", "wrist flexors", "wrist extensors", "finger flexors", "pronators", "supinator"}),
    "hand": frozenset({"finger flexors"}),
}
# These parts are muscles alone; every other part has a joint of its own in the catalogue.
_NO_JOINT = frozenset({"hamstring", "thigh", "glute", "chest", "ribs", "belly"})
# Patterns that load a joint hard, also where an entry does not name it.
_HARD_ON: dict[str, frozenset[Pattern]] = {
    "knee": frozenset({P.SQUAT, P.LUNGE, P.KNEE_EXTENSION}),
    "lower_back": frozenset({P.HINGE, P.TRUNK_EXTENSION, P.CARRY, P.SIDE_BEND, P.ROTATION, P.TRUNK_FLEXION}),
    "shoulder": frozenset({P.VERTICAL_PUSH, P.SHOULDER_RAISE}),
    "elbow": frozenset({P.ELBOW_EXTENSION, P.ELBOW_FLEXION}),
    "wrist": frozenset({P.WRIST}),
    "ankle": frozenset({P.CALF, P.SHIN}),
    "neck": frozenset({P.SHRUG}),
}
# Joints that these patterns name but load lightly (common practice): allowed, marked down, and never called spared.
_LIGHT_ON: dict[str, frozenset[Pattern]] = {
    "knee": frozenset({P.BRIDGE}),
    "lower_back": frozenset({P.ANTI_EXTENSION, P.ANTI_ROTATION}),
}
# Hands-and-knees work that asks little of the back, though its pattern is trunk extension (common practice).
_GENTLE = frozenset({"bird_dog"})
# Families whose steps, jumps or swings need more room than standing does.
_SWEEPING = frozenset({"lunge", "jumps", "swing", "on_the_spot"})
_STAY_PUT = frozenset({"step_jack", "brisk_march", "shadow_boxing", "cycling", "slider_reverse_lunge"})


@dataclass(frozen=True, slots=True)
class Limits:
    """The limits of one search. parts: everyday names of what hurts, folded to the words of training/safety.py."""

    entry: Exercise
    kit: Kit
    reason: Reason
    gone: frozenset[KitItem]
    parts: tuple[str, ...]
    today: frozenset[ExerciseId]
    at_hand: frozenset[KitItem]

    @property
    def has_weights(self) -> bool:
        """Are real weights at hand?"""
        return bool((self.kit.items - self.gone) & _WEIGHTS)

    def way(self, other: Exercise) -> frozenset[KitItem] | None:
        """How the other can be done here and now; None if it cannot (see can_do; the things at hand are looked up once)."""
        return next((way for way in other.kit if way <= self.at_hand), None) if other.kit else frozenset()

    def allow_alone(self) -> bool:
        """May the exercise itself be done here and now, with nothing to compare it with?"""
        entry = self.entry
        return self._can_be_done(entry) and not any(strain(entry, part) > 1 for part in self.parts) and self._fits_here(entry)

    def allow(self, other: Exercise) -> bool:
        if other.id == self.entry.id or not self._can_be_done(other):
            return False
        if any(strain(other, part) > self._allowed_strain(other, part) for part in self.parts):
            return False
        return self._fits_here(other)

    def _can_be_done(self, other: Exercise) -> bool:
        return other.id not in self.today and self.way(other) is not None

    def _fits_here(self, other: Exercise) -> bool:
        if self.reason is Reason.NOISE and (not other.quiet or "jump" in other.id):
            return False
        return self.reason is not Reason.NO_ROOM or _takes_less_room(other, self.entry)

    def _allowed_strain(self, other: Exercise, part: str) -> int:
        """A little, if it is less than, or plainly easier than, what hurt."""
        hurt = strain(self.entry, part)
        return 1 if hurt != 1 or other.pattern is not self.entry.pattern or other.difficulty < self.entry.difficulty else 0

    def strain(self, other: Exercise) -> int:
        return max((strain(other, part) for part in self.parts), default=0)


def limits_of(
    entry: Exercise,
    *,
    kit: Kit,
    reason: Reason,
    hurting: Sequence[str] = (),
    missing: Sequence[str] = (),
    today: Sequence[ExerciseId] = (),
) -> Limits:
    parts = tuple(dict.fromkeys(_part(word) for word in hurting if word.strip()))
    gone = _gone(entry, kit, reason, missing)
    left = Kit(kit.items - gone)
    at_hand = frozenset(item for item in KitItem if left.has(item)) - gone
    return Limits(entry, kit, reason, gone, parts, frozenset(today), at_hand)


def strain(exercise: Exercise, part: str) -> int:
    """How much an exercise asks of a part that hurts: 0 nothing, 1 little, 2 too much."""
    worst = 0
    muscles = _MUSCLES_OF_PART.get(part, frozenset())
    if muscles & set(exercise.prime):
        return 2
    if muscles & set(exercise.helping):
        worst = 1
    if part in _NO_JOINT:
        return worst
    joint = JOINT_OF_PART.get(part, part.replace(" ", "_"))
    if exercise.pattern in _HARD_ON.get(joint, ()):
        return max(worst, 1) if exercise.id in _GENTLE else 2
    if joint in ("knee", "ankle") and not exercise.quiet and exercise.load_style is LoadStyle.BODY:
        return 2  # a jump lands on both
    if joint in exercise.joints:
        light = exercise.pattern in _LIGHT_ON.get(joint, ()) and exercise.difficulty <= 4
        return max(worst, 1) if light else 2
    return worst


def _part(word: str) -> str:
    """ "left knee", "knees", "lower back" -> the part as training/safety.py names it; the word itself where it is unknown."""
    said = word.casefold().replace("_", " ").strip()
    for phrase in ("lower back", "upper back", "upper arm"):
        if phrase in said:
            return phrase
    known = (PART_OF_WORD.get(each, each if each in JOINT_OF_PART else "") for each in said.split())
    return next((part for part in known if part), said)


def _gone(entry: Exercise, kit: Kit, reason: Reason, missing: Sequence[str]) -> frozenset[KitItem]:
    """What is not at hand now: what was said; else, where the kit alone would not be the obstacle, what the exercise itself needs."""
    said = {item for word in missing if (item := _item(word))}
    if not said and reason in (Reason.TAKEN, Reason.MISSING_KIT):
        way = can_do(entry, kit)
        if reason is Reason.TAKEN:
            way = way or (entry.kit[0] if entry.kit else frozenset())
            said = set(way - _PORTABLE) or set(way)
        elif way and entry.kit and way == entry.kit[0]:
            said = set(way - ALWAYS_AT_HAND)
    if KitItem.BENCH in said:
        said.add(KitItem.INCLINE_BENCH)  # whoever says "no bench" means any
    return frozenset(said)


def _item(word: str) -> KitItem | None:
    folded = word.casefold().strip().replace(" ", "_").replace("-", "_")
    for each in (folded, folded.removesuffix("s"), folded.removesuffix("es")):
        if each in KitItem._value2member_map_:
            return KitItem(each)
    return None


def takes_much_room(exercise: Exercise) -> bool:
    """Does it need more than the spot one stands or lies on?"""
    return exercise.room == "walk" or (exercise.family in _SWEEPING and exercise.id not in _STAY_PUT)


def _takes_less_room(other: Exercise, entry: Exercise) -> bool:
    """No room to walk: stay on the spot. No room to lie down: stand."""
    if takes_much_room(other):
        return False
    return entry.room != "mat" or other.room == "stand"
