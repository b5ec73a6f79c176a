"""What is different to do under a substitute: the load to begin with, reps or seconds, sides, tempo."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from bot.training.beginnings import suggest_beginning
from bot.training.blocks import Measure, SetTarget, Sides, Slot, work_sets
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import Exercise, FirstPhase, LoadStyle, Pattern, in_a_sentence
from bot.training.kit import Kit, KitItem
from bot.training.loads import Load, Unit, say_load
from bot.training.records import SetRecord
from bot.training.tempo import time_under_tension_s

WEIGHTED = frozenset({LoadStyle.PAIR, LoadStyle.SINGLE, LoadStyle.BARBELL, LoadStyle.MACHINE})
_WEIGHTS = frozenset({KitItem.DUMBBELL, KitItem.BARBELL, KitItem.KETTLEBELL, KitItem.PLATE, KitItem.BACKPACK, KitItem.SANDBAG,
                      KitItem.MEDICINE_BALL, KitItem.EZ_BAR, KitItem.TRAP_BAR, KitItem.WEIGHT_VEST, KitItem.ANKLE_WEIGHT})  # fmt: skip
_MACHINE_LIKE = frozenset({KitItem.CABLE, KitItem.LAT_PULLDOWN, KitItem.LEG_PRESS, KitItem.LEG_CURL, KitItem.LEG_EXTENSION,
                           KitItem.SMITH_MACHINE, KitItem.CHEST_MACHINE, KitItem.ROW_MACHINE, KitItem.CALF_MACHINE})  # fmt: skip
_USUAL_REPS = 10
# A hold, walk or count that stands in for reps (common practice), and the seconds that a hold may be asked for.
_USUAL_SPAN = {Measure.SECONDS: (20, 40), Measure.STEPS: (20, 40), Measure.METRES: (20, 40), Measure.REPS: (8, 15)}
_SHORTEST_HOLD_S, _LONGEST_HOLD_S = 15, 60
_QUICK_FAMILIES = frozenset({"swing", "jumps"})
_NOT_QUICK = frozenset({"band_pull_through"})


@dataclass(frozen=True, slots=True)
class Change:
    words: tuple[str, ...]
    load: Load | None = None
    sets: tuple[SetTarget, ...] | None = None


def change_to(
    entry: Exercise, other: Exercise, *, way: frozenset[KitItem], kit: Kit, records: Sequence[SetRecord], slot: Slot | None,
    catalogue: Catalogue, unit: Unit, on: date | None,
) -> Change:  # fmt: skip
    """What to do differently. way: the kit it is done with here. on: today; without it the member's newest record's date."""
    load, load_words = _begin_with(entry, other, way, kit, records, slot, catalogue, unit, on)
    words = [
        load_words,
        _counting(entry, other, slot),
        _sides(entry, other),
        _effort(entry, other, way),
        _tempo(entry, other, slot),
    ]
    sets = tuple(_target(target, entry, other, load) for target in slot.sets) if slot is not None else None
    return Change(tuple(each for each in words if each), load, sets)


def slot_under(slot: Slot, entry: Exercise, other: Exercise) -> Slot:
    """The slot as it is trained with a substitute: its sets and sides; the coach's load belonged to the other exercise."""
    sides = slot.sides
    if other.one_sided is not entry.one_sided:
        sides = Sides.EACH if other.one_sided else Sides.BOTH
    return replace(slot, sets=tuple(_target(target, entry, other, None) for target in slot.sets), sides=sides)


def is_quick(exercise: Exercise) -> bool:
    """Jumps, swings and the like: reps that a slow tempo cannot be asked of."""
    if exercise.id in _NOT_QUICK:
        return False
    jumps = exercise.load_style is LoadStyle.BODY and not exercise.quiet
    return jumps or exercise.family in _QUICK_FAMILIES or exercise.pattern is Pattern.CONDITIONING


def is_weighted(exercise: Exercise, way: frozenset[KitItem]) -> bool:
    """Is it done with a weight here? A split squat without kit is not, though it takes dumbbells elsewhere."""
    return exercise.load_style in WEIGHTED and bool(way & (_WEIGHTS | _MACHINE_LIKE))


def _begin_with(
    entry: Exercise, other: Exercise, way: frozenset[KitItem], kit: Kit, records: Sequence[SetRecord], slot: Slot | None,
    catalogue: Catalogue, unit: Unit, on: date | None,
) -> tuple[Load | None, str]:  # fmt: skip
    if other.load_style is LoadStyle.BAND and way & {KitItem.BAND, KitItem.MINI_BAND}:
        lightest = f", your {kit.bands[0]} one" if len(kit.bands) > 1 and KitItem.BAND in way else ""
        return None, f"begin with a light band{lightest}"
    if not is_weighted(other, way):
        return None, ""
    by_feel = "begin light: about 3 reps should be left after the first set"
    if way & _MACHINE_LIKE or not way & {KitItem.DUMBBELL, KitItem.BARBELL}:
        return None, by_feel
    known = [record for record in records if record.exercise in (other.id, entry.id)] or list(records)
    if not known:
        return None, by_feel
    today = on or max(record.on for record in known)
    found = suggest_beginning(_as_held(other, way), known, catalogue, kit=kit, unit=unit, reps=_most_reps(slot), on=today)
    if found is None:
        return None, by_feel
    if found.relation == "same":
        return found.load, f"begin with {say_load(found.load)}, as you did it before"
    return found.load, f"first try {say_load(found.load)}: a cautious guess from your {in_a_sentence(found.seen_name)}"


def _as_held(exercise: Exercise, way: frozenset[KitItem]) -> Exercise:
    """A bar's exercise done with dumbbells takes a pair, and a pair's done with a bar takes the bar."""
    if exercise.load_style is LoadStyle.BARBELL and KitItem.BARBELL not in way:
        return replace(exercise, load_style=LoadStyle.PAIR)
    if exercise.load_style is LoadStyle.PAIR and KitItem.BARBELL in way:
        return replace(exercise, load_style=LoadStyle.BARBELL)
    return exercise


def _most_reps(slot: Slot | None) -> int:
    reps = [target.high or target.low or 0 for target in work_sets(slot)] if slot is not None else []
    return max(reps, default=0) or _USUAL_REPS


def _counting(entry: Exercise, other: Exercise, slot: Slot | None) -> str:
    if other.measure is entry.measure:
        return ""
    low, high = _span(slot, other)
    span = f"{low} to {high}" if high != low else f"{low}"
    return {
        Measure.SECONDS: f"{'hold it' if other.first_phase is FirstPhase.HOLD else 'keep going'} for {span} s a set",
        Measure.STEPS: f"count steps: {span} a set",
        Measure.METRES: f"count metres: {span} a set",
        Measure.REPS: f"count reps: {span} a set",
    }[other.measure]


def _span(slot: Slot | None, other: Exercise) -> tuple[int, int]:
    """The count that replaces the prescription's. A hold lasts as long as the set's tempo would (rounded to 5 s)."""
    first = work_sets(slot)[0] if slot is not None and work_sets(slot) else None
    if other.measure is not Measure.SECONDS or first is None or first.tempo is None or first.measure is not Measure.REPS:
        return _USUAL_SPAN[other.measure]
    if first.high is None:
        return _USUAL_SPAN[other.measure]
    low, high = (
        min(max(5 * round(time_under_tension_s(first.tempo, reps) / 5), _SHORTEST_HOLD_S), _LONGEST_HOLD_S)
        for reps in (first.low or first.high, first.high)
    )
    return low, high


def _sides(entry: Exercise, other: Exercise) -> str:
    if other.one_sided is entry.one_sided:
        return ""
    return "the count is for each side" if other.one_sided else "both sides at once: the count is no longer for each side"


def _effort(entry: Exercise, other: Exercise, way: frozenset[KitItem]) -> str:
    if other.measure is not Measure.REPS or entry.measure is not Measure.REPS:
        return ""
    unweighted = entry.load_style in WEIGHTED and not is_weighted(other, way) and other.load_style is not LoadStyle.BAND
    same_pattern = other.pattern is entry.pattern
    if same_pattern and other.difficulty - entry.difficulty >= 2:
        return "harder: expect fewer reps and stop with 2 left"
    if unweighted and (not same_pattern or other.difficulty <= entry.difficulty):
        return "no weight: go on until about 2 reps are left, with a slow way down"
    if same_pattern and entry.difficulty - other.difficulty >= 2 and not is_weighted(other, way):
        return "easier: more reps, or a slower way down"
    return ""


def _tempo(entry: Exercise, other: Exercise, slot: Slot | None) -> str:
    tempo = next((target.tempo for target in slot.sets if target.tempo), None) if slot is not None else None
    if tempo is None or other.first_phase is FirstPhase.HOLD:
        return ""
    if is_quick(other):
        return "no tempo to count here: quick, clean reps"
    if other.first_phase is not entry.first_phase and entry.first_phase is not FirstPhase.HOLD:
        way = "up" if other.first_phase is FirstPhase.CONCENTRIC else "down"
        return f"same tempo {tempo}, but each rep begins with the way {way}"
    return ""


def _target(target: SetTarget, entry: Exercise, other: Exercise, load: Load | None) -> SetTarget:
    """One set's prescription for the substitute: the coach's load and percentage belonged to the other exercise."""
    kept = replace(target, load=load, percent_1rm=None, drops=tuple(replace(drop, load=None) for drop in target.drops))
    if is_quick(other) or other.first_phase is FirstPhase.HOLD:
        kept = replace(kept, tempo=None, partials=None)
    if other.measure is not target.measure and other.measure is not entry.measure:
        low, high = _span(Slot("", "", (target,)), other)
        kept = replace(kept, low=low, high=high, measure=other.measure, partials=None, drops=())
    return kept
