"""Which numbers look like a slip of the thumb? They are asked about and never built on.

    20 kg after 20 kg, then 200         -> a factor of ten: 20?
    10 kg x 20 after 20 kg x 10         -> load and reps swapped?
    44 kg after 20 kg                   -> pounds meant?
    120 reps where 12 were usual        -> 12?
A number is a slip only if it is far from what this member did in this exercise, and close to it once the slip is undone; or so
far away that a coach would ask whatever the reason.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from enum import StrEnum
from statistics import median

from bot.training.blocks import Measure
from bot.training.loads import Load, LoadKind, Unit, say_amount, say_load, to_kg
from bot.training.records import SetDone, SetRecord

# Further than that from the middle of the last sets a coach would ask. Ours: steps of a kit are rarely above a third, and a deload
# rarely below a half.
_LOAD_FAR, _COUNT_FAR, _COUNT_FAR_REPS = 1.75, 2.5, 12
_NEAR = 0.30
_UNIT_NEAR = 0.08
_NOBODY_KG = Decimal(500)
_NOBODY = {Measure.REPS: 200, Measure.SECONDS: 3600, Measure.STEPS: 5000, Measure.METRES: 10000}


class SlipKind(StrEnum):
    TEN_TIMES = "ten_times"
    SWAPPED = "swapped"
    UNIT = "unit"
    FAR = "far"
    DOUBTFUL = "doubtful"  # marked when it came in, and never confirmed


@dataclass(frozen=True, slots=True)
class Slip:
    """A doubtful record. meant: the likeliest other reading, None where there is none. usual: load and count lately."""

    record: SetRecord
    kind: SlipKind
    meant: SetDone | None
    usual_load: Load | None = None
    usual_count: int | None = None


def find_slips(history: Sequence[SetRecord], new: Sequence[SetRecord]) -> tuple[Slip, ...]:
    """Doubtful ones among new records of one slot, held against its earlier records (any order; painful, doubtful ones left out)."""
    sure = [record for record in history if not record.doubtful and not record.painful]
    found = []
    for record in new:
        rest = [*sure, *(other for other in new if other is not record and not other.doubtful)]
        slip = _slip(record, _alike(rest, record))
        if slip is not None:
            found.append(slip)
    return tuple(found)


def standing_slips(records: Sequence[SetRecord]) -> tuple[SetRecord, ...]:
    """Records of earlier weeks that still look like slips of the thumb: nobody answered for them, so nothing is built on them.

    Only those for which another reading lies close to everything else; a plain large number was asked about when it came.
    """
    loads = [kg for record in records if (kg := _kg(record))]
    counts = [count for record in records if (count := record.done.worst_count)]
    far_load = bool(loads) and _far(max(loads), min(loads))
    far_count = bool(counts) and max(counts) > _COUNT_FAR * min(counts)
    if not (far_load or far_count):
        return ()
    middle_kg, middle = (median(loads) if loads else None), (median(counts) if counts else 0)
    odd = [
        record
        for record in records
        if ((kg := _kg(record)) and middle_kg and _far(kg, middle_kg)) or (record.done.worst_count or 0) > _COUNT_FAR * middle
    ]
    marked = {id(record) for record in odd}
    usual = [record for record in records if id(record) not in marked]
    return tuple(slip.record for slip in find_slips(usual, odd) if slip.meant is not None)


def _kg(record: SetRecord) -> Decimal | None:
    load = record.done.load
    return load.kg if load is not None and load.kind is LoadKind.IMPLEMENT else None


def _alike(records: Sequence[SetRecord], record: SetRecord) -> list[SetRecord]:
    """The last dozen records of the same exercise, measure and kind of load; the same day's stand first for a first session."""
    load = record.done.load
    return [
        other
        for other in records
        if other.done.measure is record.done.measure
        and (other.exercise is None or record.exercise is None or other.exercise == record.exercise)
        and (load is None or other.done.load is None or other.done.load.kind is load.kind)
    ][-12:]


def _slip(record: SetRecord, others: Sequence[SetRecord]) -> Slip | None:
    done = record.done
    counts = [other.done.worst_count for other in others if other.done.worst_count]
    loads = [other.done.load for other in others if other.done.load is not None and other.done.load.kg]
    usual_count = round(median(count for count in counts if count)) if counts else None
    usual_load = sorted(loads, key=lambda load: load.kg or 0)[len(loads) // 2] if loads else None
    kind, meant = _judge(done, usual_load, usual_count)
    if kind is None and record.doubtful:
        kind = SlipKind.DOUBTFUL
    return None if kind is None else Slip(record, kind, meant, usual_load, usual_count)


def _judge(done: SetDone, load: Load | None, count: int | None) -> tuple[SlipKind | None, SetDone | None]:
    said = done.load.kg if done.load is not None else None
    usual = load.kg if load is not None else None
    if said and usual and _far(said, usual):
        return _load_slip(done, said, usual, count)
    if said and said > _NOBODY_KG:
        return SlipKind.FAR, None
    got = done.worst_count
    if got is not None and got > _NOBODY[done.measure]:
        return SlipKind.FAR, None
    if got and count and got > count * _COUNT_FAR and got - count > _COUNT_FAR_REPS:
        for tenth in (got // 10, got % 100):
            if tenth and abs(tenth - count) <= max(2, count * _NEAR):
                return SlipKind.TEN_TIMES, replace(done, count=tenth, left=None, right=None)
        return SlipKind.FAR, None
    return None, None


def _far(said: Decimal, usual: Decimal) -> bool:
    return float(max(said, usual) / min(said, usual)) >= _LOAD_FAR


def _load_slip(done: SetDone, said: Decimal, usual: Decimal, count: int | None) -> tuple[SlipKind | None, SetDone | None]:
    load = done.load
    assert load is not None and load.amount is not None and load.unit is not None
    for factor in (Decimal(10), Decimal(100)):
        for amount in (load.amount / factor, load.amount * factor):
            if _near(to_kg(amount, load.unit), usual, _NEAR):
                return SlipKind.TEN_TIMES, replace(done, load=replace(load, amount=amount))
    got = done.worst_count
    if (
        got
        and count
        and _near(to_kg(Decimal(got), load.unit), usual, _NEAR)
        and abs(int(load.amount) - count) <= max(2, count * _NEAR)
    ):
        swapped = replace(load, amount=Decimal(got))
        return SlipKind.SWAPPED, replace(done, load=swapped, count=int(load.amount), left=None, right=None)
    other = Unit.LB if load.unit is Unit.KG else Unit.KG
    if _near(to_kg(load.amount, other), usual, _UNIT_NEAR) and load.kind is not LoadKind.BAND:
        return SlipKind.UNIT, replace(done, load=replace(load, unit=other))
    # A lighter set is common (a warm-up, a drop, a bad day); a much lighter one is not worth a question, a much heavier one is.
    heavier_and_as_many = said > usual and (count is None or got is None or got > count * 0.4)
    return (SlipKind.FAR, None) if heavier_and_as_many else (None, None)


def _near(value: Decimal, usual: Decimal, room: float) -> bool:
    return abs(float(value / usual) - 1) <= room


def slip_question(slip: Slip) -> str:
    """One sentence that asks, in the member's own numbers."""
    said = _say(slip.record.done)
    place = slip.record.place
    where = f"{place.label} set {place.number}: " if place else ""
    if slip.meant is not None:
        return f"{where}you wrote {said}. Did you mean {_say(slip.meant)}?"
    usual = _usual(slip)
    return f"{where}you wrote {said}{usual}. Is that right?"


def slip_questions(slips: Sequence[Slip]) -> str:
    """The questions of one slot, sets with the same doubt asked about together: "A1 sets 1-3: you wrote ...?"."""
    asked: dict[str, list[Slip]] = {}
    for slip in slips:
        place = slip.record.place
        asked.setdefault(slip_question(slip).split(": ", 1)[-1] if place else slip_question(slip), []).append(slip)
    return " ".join(_where(alike) + words for words, alike in asked.items())


def _where(slips: Sequence[Slip]) -> str:
    places = [slip.record.place for slip in slips if slip.record.place is not None]
    if not places:
        return ""
    numbers = sorted(place.number for place in places)
    listed = ", ".join(map(str, numbers[:-1])) + (" and " if len(numbers) > 1 else "") + str(numbers[-1])
    return f"{places[0].label} set{'s' if len(numbers) > 1 else ''} {listed}: "


def _usual(slip: Slip) -> str:
    parts = [say_load(slip.usual_load)] if slip.usual_load is not None else []
    parts += [str(slip.usual_count)] if slip.usual_count is not None else []
    return f", usually it is about {' x '.join(parts)}" if parts else ""


def _say(done: SetDone) -> str:
    words = {Measure.REPS: "", Measure.SECONDS: " s", Measure.STEPS: " steps", Measure.METRES: " m"}[done.measure]
    count = done.worst_count
    number = "" if count is None else f"{say_amount(Decimal(count))}{words}"
    return " x ".join(part for part in ((say_load(done.load) if done.load else ""), number) if part)
