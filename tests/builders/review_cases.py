"""Members with weeks of records, for reviews and their measurements: hand-made values, nothing random beyond a seed."""

from __future__ import annotations

import random
from datetime import date, timedelta
from decimal import Decimal

from bot.training.blocks import SetPlace, SetTarget, Sides, Slot
from bot.training.exercises.catalogue import load_catalogue
from bot.training.kit import Kit, KitItem, barbell_ladder, even_ladder
from bot.training.loads import BODY_WEIGHT, Load, Unit, band, weight
from bot.training.progression import SlotCase, WeekOfRecords
from bot.training.records import SetDone, SetRecord
from bot.training.tempo import Tempo

MONDAY = date(2026, 1, 5)
_EXERCISES = ("goblet_squat", "push_up", "dumbbell_bench_press", "romanian_deadlift", "pull_up")
_BAR = barbell_ladder(
    bar=Decimal(20), plates_each_side=((Decimal("1.25"), 1), (Decimal("2.5"), 1), (Decimal(5), 1), (Decimal(10), 2)), unit=Unit.KG
)
HOME = Kit(
    frozenset({KitItem.DUMBBELL, KitItem.BARBELL, KitItem.BAND}),
    (even_ladder(KitItem.DUMBBELL, low=4, high=40, step=2), _BAR),
    bands=("yellow", "red", "green"),
)


def full_member(*, slots: int = 25, weeks: int = 10, seed: int = 7) -> list[SlotCase]:
    """One member's cases: so many slots over five days, so many weeks of three sets each."""
    chance = random.Random(seed)
    catalogue = load_catalogue()
    return [_case(chance, n, weeks, catalogue.get(_EXERCISES[n % len(_EXERCISES)])) for n in range(slots)]  # type: ignore[arg-type]


def _case(chance: random.Random, n: int, weeks: int, exercise) -> SlotCase:  # type: ignore[no-untyped-def]
    label = f"{'ABCDE'[n % 5]}{n // 5 + 1}"
    low, high = ((8, 12), (6, 10), (10, 15))[n % 3]
    sets = (SetTarget(low, high, tempo=Tempo(3, 1, 1, 0)),) * 3
    slot = Slot(label, f"Lift {n}", sets, exercise.id if exercise else None, sides=Sides.EACH if n % 7 == 0 else Sides.BOTH)
    load: Load = (weight(20), BODY_WEIGHT, weight(24), weight(40), band("red"))[n % 5]
    history = tuple(_week(chance, label, load, low, high, w) for w in range(weeks))
    return SlotCase(slot, HOME, week=weeks + 1, weeks_in_block=weeks, history=history, exercise=exercise)


def _week(chance: random.Random, label: str, load: Load, low: int, high: int, w: int) -> WeekOfRecords:
    on = MONDAY + timedelta(weeks=w, days=1)
    now = load if load.kg is None else weight(load.kg + 2 * (w // 4))
    counts = [max(1, low + (w % 4) + chance.choice((-1, 0, 0, 1)) - n) for n in range(3)]
    records = [SetRecord(SetDone(count=min(c, high), load=now), SetPlace(label, n), on) for n, c in enumerate(counts, 1)]
    return WeekOfRecords(on - timedelta(days=1), tuple(records))
