"""Which exercises does a text name? Found by the catalogue, by the coach's own wording and by the member's nicknames."""

from __future__ import annotations

import re
from functools import lru_cache

from bot.language.reading.words import LEXICON
from bot.language.situation import Situation
from bot.language.tokens import Token, fold
from bot.training.blocks import Day
from bot.training.exercises.catalogue import Catalogue

# Everyday words of set talk that are also exercise names; they name one only where it is on the day's plan.
_EVERYDAY = frozenset(
    ["step", "steps", "hold", "holds", "press", "pressed", "curl", "curled", "row", "rowed", "band", "bands", "bar", "bench", "plank", "planks", "raise", "raises", "side", "sides", "weight", "weights", "single"]
)

_VERBS = frozenset("benched squatted pressed rowed curled planked deadlifted lunged".split())
_MOST_TOKENS = 700  # a session of sixty lines has fewer; beyond, no names are looked for


def names_in(folded: str, tokens: list[Token], situation: Situation, catalogue: Catalogue) -> list[tuple[int, int, str]]:
    """(start, end, slot label) for exercises of the day; (start, end, "ex:" + id) for others. In reading order, not overlapping."""
    if not any(token.kind == "w" and len(token.text) > 1 and _may_name(token.text) for token in tokens):
        return []
    day = situation.day
    days = [day] if day else []
    if situation.block:
        days += [other for other in situation.block.days if day is None or other.number != day.number]
    own = _own_names(folded, day, situation)
    here = {situation.exercise_of(slot): slot.label for slot in reversed(day.slots)} if day else {}
    planned = {slot.exercise: slot.label for slot in reversed(day.slots)} if day else {}
    due = situation.due
    among = [exercise for exercise in (*here, *planned) if exercise is not None]
    first, last = tokens[0].start, tokens[min(len(tokens), _MOST_TOKENS) - 1].end
    found = list(own)
    for mention in catalogue.names.mentions(folded[first:last], among=among):
        start, end = mention.start + first, mention.end + first
        if any(start < stop and begin < end for begin, stop, _ in own):
            continue
        exercise = mention.match.exercise
        label = here.get(exercise) or planned.get(exercise)
        if label and due and (slot := situation.slot(due.label)) and situation.exercise_of(slot) == exercise:
            label = due.label
        words = re.findall(r"[^\W\d_]+", folded[start:end])
        if all(LEXICON.get(word, "?") in "cbkuQq.x" for word in words):
            continue
        if label is None and all(word in _EVERYDAY or word in LEXICON for word in words):
            continue
        if (
            label is not None
            and all(word in ("step", "steps", "hold", "held", "holding", "band", "bands", "bar") for word in words)
            and len(words) == 1
            and len(among) > 1
        ):
            continue
        found.append((start, end, label or f"ex:{exercise}"))
    return sorted(found)


def _may_name(word: str) -> bool:
    kind = LEXICON.get(word)
    return kind is None or kind in "bI" or word in _EVERYDAY or word in _VERBS


def _own_names(folded: str, day: Day | None, situation: Situation) -> list[tuple[int, int, str]]:
    """The coach's own wording, block aliases and the member's nicknames, as slots of the day."""
    if day is None:
        return []
    found: list[tuple[int, int, str]] = []
    for name, label in _own_wording(
        day, situation.block.aliases if situation.block else (), situation.habits.nicknames, situation.swaps
    ):
        for match in re.finditer(rf"(?<![^\W\d_]){re.escape(name)}(?:e?s)?(?![^\W\d_])", folded):
            if not any(match.start() < stop and begin < match.end() for begin, stop, _ in found):
                found.append((match.start(), match.end(), label))
    return found


@lru_cache(maxsize=256)
def _own_wording(
    day: Day, aliases: tuple[tuple[str, str], ...], nicknames: tuple[tuple[str, str], ...], swaps: tuple[tuple[str, str], ...]
) -> tuple[tuple[str, str], ...]:
    swapped = dict(swaps)
    pairs: list[tuple[str, str]] = []
    for slot in day.slots:
        if slot.label not in swapped or slot.exercise is None:
            pairs.append((fold(slot.exercise_name), slot.label))
        pairs += [(fold(alias), slot.label) for alias, name in aliases if fold(name) == fold(slot.exercise_name)]
        pairs += [
            (fold(name), slot.label) for name, exercise in nicknames if exercise in (slot.exercise, swapped.get(slot.label))
        ]
    known = [(name.strip(), label) for name, label in pairs if len(name.strip()) > 1]
    return tuple(sorted(dict(reversed(known)).items(), key=lambda pair: -len(pair[0])))
