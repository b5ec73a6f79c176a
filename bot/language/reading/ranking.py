"""How well do numbers fit what is prescribed, what this member has lifted, and the kit? Log weights: 0 is a perfect fit."""

from __future__ import annotations

from decimal import Decimal
from math import exp, log

from bot.language.reading.setting import Setting
from bot.training.blocks import Measure, SetTarget
from bot.training.exercises.entry import LoadStyle, Pattern
from bot.training.kit import KitItem, Ladder
from bot.training.loads import Unit, to_kg

# Judged so that 12 where 20 is usual costs about what reading "a x b" the seldom way costs (the corpus checks it).
_LOAD_SLOPE = 4.0
_COUNT_SLOPE = 5.0
_LOOSE_SLOPE = 2.0
_OFF_LADDER = -2.6
_IMPOSSIBLE = -40.0
_NONE_OF_THESE = -9.0
# Heavier than this, where nothing is known of the member, is rather another exercise or a slip (common practice: what homes hold).
_HEAVY_IN_HAND = {LoadStyle.PAIR: 32.0, LoadStyle.SINGLE: 45.0}
_HEAVY = 220.0
_BIG = frozenset(
    [
        KitItem.BARBELL, KitItem.EZ_BAR, KitItem.TRAP_BAR, KitItem.CABLE, KitItem.LAT_PULLDOWN, KitItem.LEG_PRESS, KitItem.LEG_CURL,
        KitItem.LEG_EXTENSION, KitItem.SMITH_MACHINE, KitItem.CHEST_MACHINE, KitItem.ROW_MACHINE, KitItem.CALF_MACHINE, KitItem.SLED,
    ]
)  # fmt: skip
_ODD = -1.2  # log weight
LIGHTEST_BAR = 7.0  # kg; bars for beginners weigh 7 to 10 kg (common practice)


def fit_count(value: Decimal, target: SetTarget | None, setting: Setting) -> float:
    """Does a set of this many suit its target?"""
    if value != value.to_integral_value() or value < 0:
        return _IMPOSSIBLE
    count = float(value)
    if count == 0:
        return -4.0
    measure = target.measure if target else setting.measure
    top = {Measure.REPS: 120, Measure.SECONDS: 1200, Measure.STEPS: 2000, Measure.METRES: 5000}[measure]
    if count > top:
        return _IMPOSSIBLE
    low, high = (target.low, target.high) if target else (None, None)
    if low is None and high is None:
        if measure is Measure.REPS:
            return 0.0 if count <= 25 else -_LOOSE_SLOPE * log(count / 25)
        return 0.0 if count >= 10 else -1.5
    low = low if low is not None else high
    high = high if high is not None else low
    assert low is not None and high is not None
    if low <= count <= high:
        return 0.0
    loose = (target is not None and target.amrap) or measure is not Measure.REPS
    slope = _LOOSE_SLOPE if loose else _COUNT_SLOPE
    if count > high:
        away = log(count / max(high, 1))
        return -slope * away * 1.1
    return -slope * log(max(low, 1) / count) * 0.7


def fit_load(amount: Decimal, unit: Unit, setting: Setting, *, whole: bool = True, thing: str = "") -> float:
    """Is this a load that this member uses here? whole: compare with known loads (not for drops). thing: what was named."""
    if amount <= 0 or amount > 1000:
        return _IMPOSSIBLE
    kg = float(to_kg(amount, unit))
    score = 0.0
    ladder = setting.ladder
    if ladder is not None and thing in ("", ladder.item.value) and setting.needs_load and not on_ladder(ladder, amount, unit):
        score += _OFF_LADDER
    if whole and setting.known_loads:
        score += max(-_LOAD_SLOPE * abs(log(kg / known)) / weight for known, weight in setting.known_loads if known > 0)
    elif ladder is None:
        score += -1.2 if kg < 3 else -0.35 if kg < 4 else 0.0
        score += _ODD if _seldom_made(amount, unit) else 0.0
        score += -_LOAD_SLOPE * max(0.0, log(kg / heavy_for(setting)))
        score += -4.0 if setting.style is LoadStyle.BARBELL and kg < LIGHTEST_BAR else 0.0
    return max(score, _IMPOSSIBLE)


def _seldom_made(amount: Decimal, unit: Unit) -> bool:
    """Loads above ten come in steps of 2 or 2.5 kg, and in pounds of 2.5 or 5 (common practice): 13, 17, 19 are rather counts."""
    if amount <= 10:
        return False
    return all(amount % step for step in ((Decimal(2), Decimal("2.5")) if unit is Unit.KG else (Decimal("2.5"), Decimal(4))))


def heavy_for(setting: Setting) -> float:
    """Kilograms beyond which a load is unusual for this exercise: less where only hands hold it."""
    kit = setting.entry.kit if setting.entry is not None else ()
    bridged = setting.entry is not None and setting.entry.pattern is Pattern.BRIDGE  # a bar may lie across the hips
    if bridged or any(item in _BIG for way in kit for item in way):
        return _HEAVY
    return _HEAVY_IN_HAND.get(setting.style, _HEAVY)


def on_ladder(ladder: Ladder, amount: Decimal, unit: Unit) -> bool:
    """Is it a setting of the ladder? A load said in the other unit may be rounded: 4 % are allowed then."""
    if ladder.has(amount, unit):
        return True
    if unit is ladder.unit or not ladder.amounts:
        return False
    kg = to_kg(amount, unit)
    nearest = to_kg(ladder.nearest(amount, unit), ladder.unit)
    return abs(nearest - kg) <= kg * Decimal("0.04")


def fit_sets(number: Decimal, setting: Setting) -> float:
    """May this be how many sets were done?"""
    if number != number.to_integral_value() or not 1 <= number <= 10:
        return _IMPOSSIBLE
    left = len(setting.free_numbers)
    if number == len(setting.targets) or number == left:
        return 0.6
    if number <= left:
        return -0.2
    return -3.0 if setting.targets else -0.5


def certainties(scores: list[float]) -> list[float]:
    """Shares of the candidates, with a rest for "none of these"."""
    weights = [exp(max(score, -60.0)) for score in scores]
    total = sum(weights) + exp(_NONE_OF_THESE)
    return [weight / total for weight in weights]
