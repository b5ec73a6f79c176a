"""What does a member own, and to which loads can it be set?"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from itertools import product

from bot.training.loads import Unit, to_kg


class KitItem(StrEnum):
    """Every thing an exercise may need. Home kit first, then what only a gym has."""

    DUMBBELL = "dumbbell"
    BARBELL = "barbell"
    KETTLEBELL = "kettlebell"
    PLATE = "plate"
    BAND = "band"  # long loop or tube
    MINI_BAND = "mini_band"  # short loop, worn round legs or wrists
    BENCH = "bench"  # flat
    INCLINE_BENCH = "incline_bench"  # adjustable; serves as flat too
    RACK = "rack"  # holds a barbell at shoulder height
    PULL_UP_BAR = "pull_up_bar"
    DIP_BARS = "dip_bars"
    RINGS = "rings"  # rings or suspension straps
    BOX = "box"  # box, step or sturdy low table
    CHAIR = "chair"
    WALL = "wall"
    TOWEL = "towel"
    SLIDER = "slider"  # sliders, or a towel on a smooth floor
    BACKPACK = "backpack"
    SANDBAG = "sandbag"
    BALL = "ball"  # large inflatable exercise ball
    MEDICINE_BALL = "medicine_ball"
    AB_WHEEL = "ab_wheel"
    WEIGHT_VEST = "weight_vest"
    ANKLE_WEIGHT = "ankle_weight"
    DOOR_ANCHOR = "door_anchor"
    FOAM_ROLLER = "foam_roller"
    BIKE = "bike"  # on the road or standing still
    EZ_BAR = "ez_bar"
    TRAP_BAR = "trap_bar"
    CABLE = "cable"
    LAT_PULLDOWN = "lat_pulldown"
    LEG_PRESS = "leg_press"
    LEG_CURL = "leg_curl"
    LEG_EXTENSION = "leg_extension"
    SMITH_MACHINE = "smith_machine"
    CHEST_MACHINE = "chest_machine"
    ROW_MACHINE = "row_machine"
    CALF_MACHINE = "calf_machine"
    BACK_EXTENSION_BENCH = "back_extension_bench"
    LANDMINE = "landmine"
    SLED = "sled"


# Found in every home, so never asked about and never missing.
ALWAYS_AT_HAND = frozenset({KitItem.WALL, KitItem.TOWEL, KitItem.CHAIR, KitItem.BACKPACK})
# One thing that serves where another is asked for.
SERVES_AS = {KitItem.INCLINE_BENCH: frozenset({KitItem.BENCH}), KitItem.BENCH: frozenset({KitItem.BOX})}


@dataclass(frozen=True, slots=True)
class Ladder:
    """The loads one kind of implement can be set to: per implement, in one unit, lightest first, no repeats.

    For a barbell the amounts are whole bars, bar included. pairs says that two of each are owned.
    """

    item: KitItem
    unit: Unit
    amounts: tuple[Decimal, ...]
    pairs: bool = False

    def next_above(self, amount: Decimal, unit: Unit) -> Decimal | None:
        """The next heavier setting, in this ladder's unit; None at the top. A hair (1 g) of unit noise is ignored."""
        kg = to_kg(amount, unit) + Decimal("0.001")
        return next((step for step in self.amounts if to_kg(step, self.unit) > kg), None)

    def next_below(self, amount: Decimal, unit: Unit) -> Decimal | None:
        kg = to_kg(amount, unit) - Decimal("0.001")
        return next((step for step in reversed(self.amounts) if to_kg(step, self.unit) < kg), None)

    def nearest(self, amount: Decimal, unit: Unit) -> Decimal:
        """The closest setting; the lighter of two equally close."""
        kg = to_kg(amount, unit)
        return min(self.amounts, key=lambda step: (abs(to_kg(step, self.unit) - kg), step))

    def has(self, amount: Decimal, unit: Unit) -> bool:
        """Is this a setting of the ladder? Within 1 % or 50 g, so that a rounded pound plate counts."""
        if unit is self.unit and amount in self.amounts:
            return True
        kg = to_kg(amount, unit)
        room = max(Decimal("0.05"), kg / 100)
        return any(abs(to_kg(step, self.unit) - kg) <= room for step in self.amounts)


@dataclass(frozen=True, slots=True)
class Kit:
    """What a member owns.

    items: the things. ladders: settings for the things that have weights; a thing without a ladder may have any load.
    bands: the member's own band names, lightest first (an order inside this one set, no kilograms).
    bar: the empty bar as (amount, unit), for members who say plates per side; None if unknown.
    """

    items: frozenset[KitItem] = frozenset()
    ladders: tuple[Ladder, ...] = ()
    bands: tuple[str, ...] = ()
    bar: tuple[Decimal, Unit] | None = None

    def ladder(self, item: KitItem) -> Ladder | None:
        return next((ladder for ladder in self.ladders if ladder.item is item), None)

    def has(self, item: KitItem) -> bool:
        if item in self.items or item in ALWAYS_AT_HAND:
            return True
        return any(item in SERVES_AS.get(owned, ()) for owned in self.items)

    def lacks(self, items: frozenset[KitItem]) -> frozenset[KitItem]:
        return frozenset(item for item in items if not self.has(item))


def barbell_ladder(*, bar: Decimal, plates_each_side: tuple[tuple[Decimal, int], ...], unit: Unit) -> Ladder:
    """Every whole-bar load that the plates allow.

    plates_each_side: (plate amount, how many of it go on one side), in the bar's unit.
    """
    choices = [[plate * n for n in range(count + 1)] for plate, count in plates_each_side]
    sums = {bar + 2 * sum(side, Decimal(0)) for side in product(*choices)}
    return Ladder(KitItem.BARBELL, unit, tuple(sorted(sums)))


def even_ladder(
    item: KitItem,
    *,
    low: Decimal | int,
    high: Decimal | int,
    step: Decimal | int | str,
    unit: Unit = Unit.KG,
    pairs: bool = True,
) -> Ladder:
    """A ladder with equal steps, both ends included."""
    first, last, gap = Decimal(low), Decimal(high), Decimal(step)
    count = int((last - first) / gap)
    return Ladder(item, unit, tuple(first + gap * n for n in range(count + 1)), pairs)
