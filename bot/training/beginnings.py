"""Which weight to begin with, from a member's own records on related lifts? A cautious first try, never invented.

Plan: take the closest relative with a record (same exercise, same family, same pattern), estimate what a hard set of it says about
the load for the new exercise's reps, cut that by how far the relative is, round down to what the member's kit can be set to.

    goblet squat 20 kg x 10 last week, asked for the goblet squat for 10        -> 20 kg, no cut
    dumbbell row, pair of 20 kg x 10, asked for the chest-supported row for 10  -> 20 % off, with a rep or two to spare

With no relative on record there is no answer: the caller says so, and how to find the weight by feel.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import ROUND_FLOOR, Decimal

from bot.training.blocks import Measure, SetKind
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import Exercise, LoadStyle
from bot.training.kit import Kit, KitItem
from bot.training.loads import Load, LoadKind, Unit, from_kg
from bot.training.records import SetRecord
from bot.training.strength import estimate_e1rm

# Cuts in percent (common practice: begin light, the second session corrects). A dumbbell lift is about 17 % below the barbell's
# (Saeterbakken 2011), so another implement costs more than that.
SAME_CUT = 0
FAMILY_CUT = 20
PATTERN_CUT = 35
OTHER_STYLE_CUT = 20
STALE_CUT = 10
_STALE = timedelta(days=21)  # from three weeks on strength may have gone (McMaster 2013, range from memory)
_TOO_OLD = timedelta(days=183)
_RESERVE = 2  # reps to spare in the first set
_MOST_REPS = 15  # above this a set says too little about a load
_STEP = {Unit.KG: Decimal("1"), Unit.LB: Decimal("2.5")}  # where no ladder is known
_ITEM = {LoadStyle.PAIR: KitItem.DUMBBELL, LoadStyle.SINGLE: KitItem.DUMBBELL, LoadStyle.BARBELL: KitItem.BARBELL}


@dataclass(frozen=True, slots=True)
class Beginning:
    """A first try and why.

    load: per implement, in the member's unit. seen: the record it is built on; relation: "same", "family" or "pattern".
    cut_percent: taken off what the record would allow, all reasons together. stale: the record is three weeks old or more.
    """

    load: Load
    seen: SetRecord
    seen_name: str
    relation: str
    cut_percent: int
    stale: bool = False


def suggest_beginning(
    exercise: Exercise, records: Sequence[SetRecord], catalogue: Catalogue, *, kit: Kit, unit: Unit, reps: int, on: date
) -> Beginning | None:
    """The load for a first set of so many reps; None where no related lift is on record or the load has no kilograms.

    records: this member's, in any order. reps: the top of the prescribed range. on: today, in the member's zone.
    """
    if exercise.load_style not in _ITEM or exercise.measure is not Measure.REPS:
        return None
    ranked = sorted((one for record in records if (one := _witness(exercise, record, catalogue, on))), key=_rank)
    if not ranked:
        return None
    relation, other, record = ranked[0].relation, ranked[0].exercise, ranked[0].record
    stale = on - record.on >= _STALE
    if relation == "same" and not stale and _fits(record, reps):
        load = record.done.load
        assert load is not None
        return Beginning(load, record, other.name, relation, SAME_CUT)
    cut = {"same": SAME_CUT, "family": FAMILY_CUT, "pattern": PATTERN_CUT}[relation]
    cut += OTHER_STYLE_CUT if other.load_style is not exercise.load_style else 0
    cut += STALE_CUT if stale else 0
    kg = _for_reps(record, other, reps) * (100 - cut) / 100
    amount = _settable(kg if exercise.load_style is not LoadStyle.BARBELL else kg * 2, exercise, kit, unit)
    if amount is None:
        return None
    return Beginning(
        Load(LoadKind.IMPLEMENT, amount, unit, pair=exercise.load_style is LoadStyle.PAIR),
        record,
        other.name,
        relation,
        cut,
        stale,
    )


@dataclass(frozen=True, slots=True)
class _Witness:
    relation: str
    exercise: Exercise
    record: SetRecord


def _witness(exercise: Exercise, record: SetRecord, catalogue: Catalogue, on: date) -> _Witness | None:
    """The record as something to build on; None if it is none: painful, in doubt, old, of another kind of load or lift."""
    done, other = record.done, catalogue.get(record.exercise)
    if other is None or record.painful or record.doubtful or done.kind is SetKind.WARM_UP or on - record.on > _TOO_OLD:
        return None
    if done.load is None or done.load.kind is not LoadKind.IMPLEMENT or done.load.kg is None:
        return None
    if done.measure is not Measure.REPS or not 1 <= (done.worst_count or 0) <= _MOST_REPS:
        return None
    if other.id == exercise.id:
        return _Witness("same", other, record)
    if other.load_style not in _ITEM or other.one_sided is not exercise.one_sided:
        return None  # one leg for two is no relative whose load could be scaled with confidence
    if exercise.family and other.family == exercise.family:
        return _Witness("family", other, record)
    return _Witness("pattern", other, record) if other.pattern is exercise.pattern else None


def _rank(one: _Witness) -> tuple[int, int, float]:
    """Closest first, then newest, then heaviest."""
    return (("same", "family", "pattern").index(one.relation), -one.record.on.toordinal(), -float(one.record.done.load.kg or 0))  # type: ignore[union-attr]


def _fits(record: SetRecord, reps: int) -> bool:
    count = record.done.worst_count or 0
    return reps - 4 <= count


def _for_reps(record: SetRecord, exercise: Exercise, reps: int) -> Decimal:
    """Kilograms in each hand for so many reps with two to spare, by the inverse of Epley (1985) from the record's estimate.

    A barbell counts half in each hand; the record's own load is never exceeded.
    """
    load = record.done.load
    assert load is not None and load.kg is not None
    hand = load.kg / 2 if exercise.load_style is LoadStyle.BARBELL else load.kg
    best = estimate_e1rm(load_kg=hand, reps=record.done.worst_count or 1, rir=record.done.rir or Decimal(0)).kg
    return min(hand, best / (1 + Decimal(reps + _RESERVE) / 30))


def _settable(kg: Decimal, exercise: Exercise, kit: Kit, unit: Unit) -> Decimal | None:
    """The heaviest setting at or below, in the member's unit; without a ladder a whole step; None below the lightest."""
    amount = from_kg(kg, unit)
    ladder = kit.ladder(_ITEM[exercise.load_style])
    if ladder is not None:
        steps = [from_kg(_kg(step, ladder.unit), unit) if ladder.unit is not unit else step for step in ladder.amounts]
        return max((step for step in steps if step <= amount + Decimal("0.001")), default=None)
    floor = (amount / _STEP[unit]).to_integral_value(ROUND_FLOOR) * _STEP[unit]
    return floor if floor > 0 else None


def _kg(amount: Decimal, unit: Unit) -> Decimal:
    from bot.training.loads import to_kg

    return to_kg(amount, unit)
