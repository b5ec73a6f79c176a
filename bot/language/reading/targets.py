"""What target does a coach set for one person? "22.5 x 8-10", "20kg 10", "8-10", "45s"."""

from __future__ import annotations

import re
from decimal import Decimal

from bot.training.blocks import Measure, SetTarget
from bot.training.loads import Load, LoadKind, Unit

_TARGET = re.compile(
    r"\s*(?:(?P<added>\+)?(?P<load>\d+(?:[.,]\d+)?)\s*(?P<unit>kg|kgs|kilos?|lbs?|pounds?|#)?\s*(?:[x×*@]|for)\s*)?"
    r"(?P<low>\d{1,3})(?:\s*(?:-|–|to)\s*(?P<high>\d{1,3}))?\s*(?P<measure>s|sec|secs|seconds|steps|m|metres|meters|reps?)?\s*",
    re.IGNORECASE,
)
_MEASURES = {"s": Measure.SECONDS, "st": Measure.STEPS, "m": Measure.METRES, "r": Measure.REPS}


def read_target(text: str, unit: Unit) -> SetTarget | None:
    """Read a target; None if the text is none. A load without a unit is in the member's."""
    found = _TARGET.fullmatch(text)
    if not found:
        return None
    low = int(found["low"])
    high = int(found["high"] or low)
    if low > high or low < 1:
        return None
    word = (found["measure"] or "r").lower()
    measure = _MEASURES["st" if word.startswith("st") else word[0]]
    load = None
    if found["load"]:
        said = (found["unit"] or "").lower()
        own = unit if not said else Unit.KG if said.startswith("k") else Unit.LB
        kind = LoadKind.ADDED if found["added"] else LoadKind.IMPLEMENT
        load = Load(kind, Decimal(found["load"].replace(",", ".")), own)
    return SetTarget(low, high, measure, load=load)
