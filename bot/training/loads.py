"""What is a load? An amount as it was said, its unit, and the way it acts on the body.

Five kinds that are never mixed or compared with one another: the outside weight of an implement, body weight alone, weight
added to the body, help that takes body weight off, and bands. A pair of dumbbells is the amount of one, marked as a pair; a
barbell is the whole bar. What was said is kept as said; kilograms are computed beside it, exactly.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

# The international avoirdupois pound, exact since the agreement of 1959 (also scipy.constants.lb).
KG_PER_LB = Decimal("0.45359237")


class Unit(StrEnum):
    KG = "kg"
    LB = "lb"


class LoadKind(StrEnum):
    IMPLEMENT = "implement"  # dumbbell, barbell, kettlebell, backpack: an outside weight that is moved
    BODY = "body"  # body weight alone
    ADDED = "added"  # weight worn or hung on top of body weight
    ASSISTED = "assisted"  # help that takes body weight off: an amount, or a band
    BAND = "band"  # a band is the resistance


def to_kg(amount: Decimal, unit: Unit) -> Decimal:
    """Convert a said amount to kilograms, exactly."""
    return amount if unit is Unit.KG else amount * KG_PER_LB


def from_kg(amount_kg: Decimal, unit: Unit) -> Decimal:
    """Convert kilograms to a unit. Exact for kg; for lb rounded to a millionth, since the quotient has no end."""
    return amount_kg if unit is Unit.KG else (amount_kg / KG_PER_LB).quantize(Decimal("0.000001"))


@dataclass(frozen=True, slots=True)
class Load:
    """One set's load, as said.

    amount is per implement and above 0 (0 is body weight: say kind BODY); None for BODY and for bands.
    bands holds the names the member uses, several when stacked; order inside the tuple means nothing.
    implement is the thing as said when it was said ("backpack", "kettlebell"), else None.
    """

    kind: LoadKind
    amount: Decimal | None = None
    unit: Unit | None = None
    pair: bool = False
    bands: tuple[str, ...] = ()
    implement: str | None = None

    @property
    def kg(self) -> Decimal | None:
        """Kilograms of one implement; None where the load has no kilograms (bands, body weight)."""
        if self.amount is None or self.unit is None:
            return None
        return to_kg(self.amount, self.unit)

    @property
    def total_kg(self) -> Decimal | None:
        """Kilograms in both hands together."""
        kg = self.kg
        return kg * 2 if kg is not None and self.pair else kg


BODY_WEIGHT = Load(LoadKind.BODY)


def weight(amount: Decimal | int | str, unit: Unit = Unit.KG, *, pair: bool = False) -> Load:
    """Build an implement's load in a line: weight(20), weight("17.5"), weight(45, Unit.LB)."""
    return Load(LoadKind.IMPLEMENT, Decimal(amount), unit, pair=pair)


def band(*names: str) -> Load:
    return Load(LoadKind.BAND, bands=names)


def say_amount(amount: Decimal) -> str:
    """Write an amount as people do: no trailing zeros, never an exponent."""
    text = format(amount.normalize(), "f")
    return "0" if text == "-0" else text


def say_load_within(load: Load) -> str:
    """As it stands in a sentence: "20 kg", "a pair of 12 kg", "20 kg of help", "the red band", "the red band's help"."""
    if load.kind is LoadKind.ASSISTED and load.amount is not None:
        return f"{say_load(load).removeprefix('-')} of help"
    if load.kind is LoadKind.ASSISTED and load.bands:
        whose = "'" if len(load.bands) > 1 else "'s"
        return f"the {say_load(load).removesuffix(' helping')}{whose} help"
    article = "a " if load.pair else "the " if load.bands else ""
    return f"{article}{say_load(load)}"


def say_load(load: Load) -> str:
    """Write a load shortly in its own unit: "20 kg", "pair of 12 kg", "+10 kg", "red band", "body weight"."""
    if load.kind is LoadKind.BODY:
        return "body weight"
    if load.bands:
        words = " + ".join(load.bands) + (" band" if len(load.bands) == 1 else " bands")
        return f"{words} helping" if load.kind is LoadKind.ASSISTED else words
    if load.amount is None or load.unit is None:
        return load.kind.value
    amount = f"{say_amount(load.amount)} {load.unit.value}"
    if load.kind is LoadKind.ADDED:
        return f"+{amount}"
    if load.kind is LoadKind.ASSISTED:
        return f"-{amount}"
    if load.pair:
        return f"pair of {amount}"
    return f"{load.implement} {amount}" if load.implement else amount
