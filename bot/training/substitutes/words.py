"""Why is this a substitute? Short reasons, most telling first."""

from __future__ import annotations

from bot.training.exercises.entry import Exercise
from bot.training.exercises.muscles import groups_of
from bot.training.kit import ALWAYS_AT_HAND, KitItem
from bot.training.substitutes.likeness import LAST_RESORT, likeness, nearness
from bot.training.substitutes.limits import Limits, strain
from bot.training.substitutes.values import Reason

# How a thing is said where its value is not its plain plural or name.
_SAID = {
    KitItem.DUMBBELL: "dumbbells", KitItem.BAND: "band", KitItem.RINGS: "rings", KitItem.DIP_BARS: "dip bars", KitItem.INCLINE_BENCH: "bench",
    KitItem.PULL_UP_BAR: "pull-up bar", KitItem.SLIDER: "sliders", KitItem.SMITH_MACHINE: "guided-bar machine", KitItem.EZ_BAR: "curl bar",
}  # fmt: skip

_HARDLY_ALIKE = 0.38  # our choice: below this the words say that it is a stand-in


def reasons_for(limits: Limits, other: Exercise, *, wanted: bool = False) -> tuple[str, ...]:
    """Reasons in a few words each. That it is the coach's own is told by the substitute itself."""
    entry = limits.entry
    why = ["what you asked for"] if wanted else []
    shared = [str(group.value) for group in groups_of(entry.prime) if group in groups_of(other.prime)]
    if other.pattern is entry.pattern:
        why.append("same movement")
    if is_last_resort(entry, other, likeness(entry, other)):
        why.append("a stand-in at best" + _works_only(other))
    elif shared:
        why.append("trains your " + _listed(shared[:2]))
    elif other.pattern is not entry.pattern:
        why.append("the nearest that can be done here")
    why.append(_needs(limits.way(other) or frozenset()))
    why += _spares(limits, other)
    if limits.reason is Reason.NOISE:
        why.append("quiet")
    elif limits.reason is Reason.NO_ROOM:
        why.append("stays on one spot")
    elif limits.reason in (Reason.TOO_HARD, Reason.TOO_EASY) and other.pattern is entry.pattern:
        step = other.difficulty - entry.difficulty
        if step:
            why.append(("a step " if abs(step) <= 2 else "") + ("harder" if step > 0 else "easier"))
    return tuple(why)


def reasons_alone(limits: Limits) -> tuple[str, ...]:
    """For an exercise that stands by itself: what it needs and what it spares."""
    return (_needs(limits.way(limits.entry) or frozenset()), *_spares(limits, limits.entry))


def is_last_resort(entry: Exercise, other: Exercise, alike: float) -> bool:
    """Is it a stand-in at best? alike: the likeness of the two."""
    return nearness(entry, other) <= LAST_RESORT or alike < _HARDLY_ALIKE


def _works_only(other: Exercise) -> str:
    groups = [str(group.value) for group in groups_of(other.prime)]
    return f": works only your {_listed(groups[:2])}" if groups else ""


def _needs(way: frozenset[KitItem]) -> str:
    own = sorted(_SAID.get(item, item.value.replace("_", " ")) for item in way - ALWAYS_AT_HAND)
    household = sorted(f"a {item.value}" for item in way & ALWAYS_AT_HAND)
    things = ([f"your {_listed(own)}"] if own else []) + household
    return f"needs only {_listed(things)}" if things else "needs no kit"


def _spares(limits: Limits, other: Exercise) -> list[str]:
    spared = [part for part in limits.parts if strain(other, part) == 0]
    little = [part for part in limits.parts if strain(other, part) == 1]
    said = [f"spares the {_listed(spared)}"] if spared else []
    return said + ([f"asks little of the {_listed(little)}"] if little else [])


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + f" and {words[-1]}"
