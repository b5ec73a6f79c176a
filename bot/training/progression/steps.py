"""Which load comes next, in this member's kit?

A ladder says what can be set; without one the usual step of such an implement is taken and said to be a guess of ours. Bands are an order
within the member's own set: the next one, never a number of kilograms. Help (a machine's or a band's) goes the other way round.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal

from bot.training.exercises.entry import Exercise, LoadStyle
from bot.training.kit import Kit, KitItem, Ladder
from bot.training.loads import Load, LoadKind, Unit, from_kg, to_kg

_BY_STYLE = {
    LoadStyle.PAIR: (KitItem.DUMBBELL, KitItem.KETTLEBELL),
    LoadStyle.SINGLE: (KitItem.DUMBBELL, KitItem.KETTLEBELL, KitItem.PLATE, KitItem.SANDBAG, KitItem.MEDICINE_BALL, KitItem.BACKPACK),
    LoadStyle.BARBELL: (KitItem.BARBELL, KitItem.EZ_BAR, KitItem.TRAP_BAR, KitItem.SMITH_MACHINE),
    LoadStyle.MACHINE: (
        KitItem.CABLE, KitItem.LAT_PULLDOWN, KitItem.LEG_PRESS, KitItem.LEG_CURL, KitItem.LEG_EXTENSION, KitItem.CHEST_MACHINE,
        KitItem.ROW_MACHINE, KitItem.CALF_MACHINE, KitItem.SMITH_MACHINE,
    ),
}  # fmt: skip
_ON_BODY = (KitItem.WEIGHT_VEST, KitItem.PLATE, KitItem.DUMBBELL, KitItem.KETTLEBELL, KitItem.BACKPACK, KitItem.SANDBAG)
_WORN = (KitItem.WEIGHT_VEST, KitItem.PLATE, KitItem.BACKPACK, KitItem.SANDBAG)
_LEAST_ADDED_KG = Decimal("1.5")  # two per cent of a body of 75 kg
_ANY = (KitItem.DUMBBELL, KitItem.BARBELL, KitItem.KETTLEBELL)
_ROUNDED_NEAR = Decimal("0.03")
_PULLS_NEAR = Decimal("0.02")  # a step of less than 2 % is none (ACSM 2009: 2-10 %)


def ladder_for(load: Load, kit: Kit, exercise: Exercise | None, wanted: frozenset[KitItem] = frozenset()) -> Ladder | None:
    """The ladder that this load stands on: the implement that was said, else the exercise's usual one, else one that has the load."""
    named = _named(load)
    if named is not None:
        return _usable(kit.ladder(named), load)
    if load.kind in (LoadKind.ADDED, LoadKind.ASSISTED):
        order: tuple[KitItem, ...] = _ON_BODY if load.kind is LoadKind.ADDED else ()
    else:
        order = _BY_STYLE.get(exercise.load_style, _ANY) if exercise is not None else _ANY
    first = tuple(item for item in order if item in wanted)
    found = [ladder for item in (*first, *order) if (ladder := _usable(kit.ladder(item), load)) is not None]
    if not found and exercise is None:
        found = [ladder for ladder in kit.ladders if _usable(ladder, load) is not None]
    if load.amount is None or load.unit is None:
        return found[0] if found else None
    amount, unit = load.amount, load.unit
    return next((ladder for ladder in found if ladder.has(amount, unit)), found[0] if found else None)


def _named(load: Load) -> KitItem | None:
    if not load.implement:
        return None
    word = load.implement.lower().replace("-", "_").replace(" ", "_").removesuffix("s")
    return KitItem(word) if word in KitItem._value2member_map_ else None


def _usable(ladder: Ladder | None, load: Load) -> Ladder | None:
    if ladder is None or not ladder.amounts or (load.pair and not ladder.pairs and ladder.item is KitItem.DUMBBELL):
        return None
    return ladder


def usual_step(load: Load, exercise: Exercise | None) -> Decimal:
    """The step where no ladder is known, in the load's unit (sold steps, common practice: plates 2 x 1.25 kg, dumbbells 1 to 2.5 kg)."""
    amount, pounds = load.amount or Decimal(0), load.unit is Unit.LB
    if exercise is not None and exercise.load_style is LoadStyle.BARBELL:
        return Decimal(5) if pounds else Decimal("2.5")
    if pounds:
        return Decimal("2.5") if amount < 20 else Decimal(5)
    if amount < 10:
        return Decimal(1)
    return Decimal(2) if amount < 30 else Decimal("2.5")


def heavier(load: Load, ladder: Ladder | None, exercise: Exercise | None) -> Iterator[Load]:
    """Heavier loads of the same kind, nearest first; ends at the top of the ladder, without one after twelve steps.

    Steps under 2 % are passed over: they are none.
    """
    if load.amount is None or load.unit is None:
        return
    # Across units a setting may be the very same thing, rounded when it was said (45 lb is 20.4 kg, said "20").
    near = _PULLS_NEAR if ladder is None or ladder.unit is load.unit else _ROUNDED_NEAR
    least = load.amount * (1 + near)
    if ladder is not None:
        for amount in ladder.amounts:
            said = _said(amount, ladder.unit, load.unit)
            if said >= least or (said > load.amount and amount == ladder.amounts[-1]):
                yield replace(load, amount=said)
        return
    step = usual_step(load, exercise)
    for n in range(1, 13):
        if load.amount + n * step >= least:
            yield replace(load, amount=load.amount + n * step)


def lighter(load: Load, ladder: Ladder | None, exercise: Exercise | None) -> Iterator[Load]:
    """Lighter loads of the same kind, nearest first; ends at the bottom of the ladder."""
    if load.amount is None or load.unit is None:
        return
    if ladder is not None:
        for amount in reversed(ladder.amounts):
            said = _said(amount, ladder.unit, load.unit)
            if said < load.amount - max(Decimal("0.01"), load.amount * (_ROUNDED_NEAR if ladder.unit is not load.unit else 0)):
                yield replace(load, amount=said)
        return
    step = usual_step(load, exercise)
    amount = load.amount - step
    while amount > 0:
        yield replace(load, amount=amount)
        amount -= step


def _said(amount: Decimal, held_in: Unit, said_in: Unit) -> Decimal:
    """A ladder's setting in the unit the member speaks; across units to a tenth."""
    if held_in is said_in:
        return amount
    return from_kg(to_kg(amount, held_in), said_in).quantize(Decimal("0.1"), ROUND_HALF_UP)


def step_share(load: Load, other: Load) -> float | None:
    """How much heavier the other load is, as a share; None where the two have no kilograms in common."""
    if load.kind is not other.kind or load.kg is None or other.kg is None or load.kg == 0:
        return None
    return float(other.kg / load.kg) - 1


def next_band(load: Load, kit: Kit, *, up: bool) -> Load | None:
    """The neighbour in the member's own order; None at the end, for stacked bands and for bands that the member never listed."""
    if len(load.bands) != 1:
        return None
    order = [name.lower() for name in kit.bands]
    name = load.bands[0].lower()
    if name not in order:
        return None
    at = order.index(name) + (1 if up else -1)
    return replace(load, bands=(kit.bands[at],)) if 0 <= at < len(order) else None


def added_loads(kit: Kit, unit: Unit, *, in_hand: bool = True) -> list[Load]:
    """The weights worth wearing or hanging on the body with this kit, lightest first; none without one that has settings.

    in_hand: whether a dumbbell or a kettlebell will do, held between the feet or at the chest.
    """
    for item in _ON_BODY if in_hand else _WORN:
        ladder = kit.ladder(item)
        found = [a for a in ladder.amounts if to_kg(a, ladder.unit) >= _LEAST_ADDED_KG] if ladder is not None else []
        if ladder is not None and found:
            return [Load(LoadKind.ADDED, _said(amount, ladder.unit, unit), unit, implement=_word(item)) for amount in found]
    return []


def _word(item: KitItem) -> str:
    return item.value.replace("_", " ")


def at_most(share: float, load: Load, ladder: Ladder | None, exercise: Exercise | None) -> Load:
    """The heaviest load that is not above a share of this one; the lightest there is where none is."""
    if load.amount is None:
        return load
    limit = load.amount * Decimal(repr(share)) + Decimal("0.0001")
    found = load
    for one in lighter(load, ladder, exercise):
        found = one
        if one.amount is not None and one.amount <= limit:
            return one
    return found
