"""Situations for reading tests, written in a line: `home A1.1=20x12 due=B1.1`."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

from bot.language.situation import Situation
from bot.training.blocks import Block, Day, Drop, ExerciseId, LoadRule, Measure, SetPlace, SetTarget, Sides, Slot
from bot.training.exercises.catalogue import load_catalogue
from bot.training.exercises.entry import LoadStyle
from bot.training.kit import Kit, KitItem, even_ladder
from bot.training.loads import BODY_WEIGHT, Load, LoadKind, Unit, band, weight
from bot.training.records import SetDone, SetRecord

NOW = datetime(2026, 3, 4, 18, 30, tzinfo=ZoneInfo("Europe/Dublin"))  # a Wednesday


def slot(label: str, exercise: str, sets: int, low: int | None, high: int | None = None, **more: object) -> Slot:
    """A slot of equal sets; measure, amrap, load and drops go into its targets, the rest into the slot."""
    into_target = {key: more.pop(key) for key in ("measure", "amrap", "load", "drops") if key in more}
    target = SetTarget(low, high if high is not None else low, **into_target)  # type: ignore[arg-type]
    entry = load_catalogue().get(exercise)
    name = entry.name if entry else exercise
    return Slot(label, name, (target,) * sets, ExerciseId(exercise), **more)  # type: ignore[arg-type]


HOME = Day(1, "Whole body", (
    slot("A1", "goblet_squat", 3, 10, 12),
    slot("A2", "push_up", 3, 8, 15),
    slot("B1", "one_arm_dumbbell_row", 3, 10, 12, sides=Sides.EACH),
    slot("B2", "dumbbell_bench_press", 3, 8, 10),
    slot("C1", "plank", 3, 45, measure=Measure.SECONDS),
    slot("C2", "farmer_carry", 2, 40, measure=Measure.METRES),
    slot("D1", "pull_up", 3, 5, 8),
    slot("E1", "band_pull_apart", 2, 15, 20),
    slot("F1", "lateral_raise", 3, 12, 15, drops=(Drop(cut_percent=30),)),
    slot("G1", "dumbbell_curl", 3, 10, 12, load_rule=LoadRule.RISES),
))  # fmt: skip
BAR = Day(1, "Bar", (
    slot("A1", "back_squat", 5, 5),
    slot("B1", "bench_press", 4, 6, 8),
    slot("C1", "romanian_deadlift", 3, 8, 10),
    slot("D1", "bulgarian_split_squat", 3, 8, 10, sides=Sides.EACH),
))  # fmt: skip
SECOND = Day(2, "Legs", (
    slot("A1", "dumbbell_romanian_deadlift", 3, 8, 10),
    slot("A2", "reverse_lunge", 3, 10, sides=Sides.EACH),
    slot("B1", "side_plank", 2, 30, measure=Measure.SECONDS, sides=Sides.EACH),
))  # fmt: skip
_HOME_KIT = Kit(
    frozenset({KitItem.DUMBBELL, KitItem.BAND, KitItem.PULL_UP_BAR, KitItem.BENCH}),
    (even_ladder(KitItem.DUMBBELL, low=2, high=24, step=2),),
    ("yellow", "red", "blue"),
)
_BAR_KIT = Kit(frozenset({KitItem.BARBELL, KitItem.RACK, KitItem.BENCH, KitItem.DUMBBELL}), bar=(Decimal(45), Unit.LB))
_HOME_LAST = (
    "A1.1=20x12 A1.2=20x12 A1.3=20x11 A2.1=12 A2.2=11 A2.3=10 B1.1=18x12 B1.2=18x12 B1.3=18x11 B2.1=16x10 B2.2=16x9 B2.3=16x9"
)
_HOME_LAST += (
    " C1.1=45 C1.2=40 C1.3=40 C2.1=24x40 C2.2=24x40 D1.1=7 D1.2=6 D1.3=5 E1.1=redx20 E1.2=redx18 F1.1=8x14 F1.2=8x13 F1.3=8x12"
)
_HOME_LAST += " G1.1=10x12 G1.2=12x11 G1.3=14x10"
_BAR_LAST = "A1.1=185x5 A1.2=185x5 A1.3=185x5 A1.4=185x5 A1.5=185x5 B1.1=135x8 B1.2=135x7 B1.3=135x7 B1.4=135x6 C1.1=155x10 C1.2=155x9 C1.3=155x9"
_BAR_LAST += " D1.1=25x10 D1.2=25x10 D1.3=25x9"


def situation(line: str) -> Situation:
    """Build a situation from a line: a base ("home", "bar", "new", "rest"), records of today ("A1.1=20x12"), due=B1.1, skip=C1.1."""
    base, *rest = line.split()
    day, unit, kit, last = {
        "home": (HOME, Unit.KG, _HOME_KIT, _HOME_LAST),
        "new": (HOME, Unit.KG, _HOME_KIT, ""),
        "bar": (BAR, Unit.LB, _BAR_KIT, _BAR_LAST),
        "rest": (None, Unit.KG, _HOME_KIT, ""),
    }[base]
    block = Block("Winter", (day or HOME, SECOND))
    made = Situation(NOW, day, block, kit=kit, unit=unit)
    made = replace(made, last_time=tuple(record(word, HOME if day is None else day, unit, days_ago=7) for word in last.split()))
    today: list[SetRecord] = []
    for word in rest:
        key, _, value = word.partition("=")
        if key == "due":
            made = replace(made, due_override=_place(value))
        elif key == "skip":
            made = replace(made, skipped=(*made.skipped, _place(value)))
        elif key == "fresh":
            made = replace(made, last_time=())
        else:
            assert day is not None
            today.append(record(word, day, unit))
    return replace(made, today=tuple(replace(r, record_id=n + 1) for n, r in enumerate(today)))


def record(word: str, day: Day, unit: Unit, *, days_ago: int = 0) -> SetRecord:
    """ "A1.1=20x12", "A2.1=12" (body weight), "E1.1=redx20", "C2.1=24x40"."""
    where, value = word.split("=")
    place = _place(where)
    its_slot = day.slot(place.label)
    assert its_slot is not None
    left, _, right = value.rpartition("x")
    style = load_catalogue().by_id[its_slot.exercise].load_style  # type: ignore[index]
    load: Load = BODY_WEIGHT
    if left.startswith("+"):
        load = Load(LoadKind.ADDED, Decimal(left[1:]), unit)
    elif left and left[0].isdigit():
        load = weight(left, unit, pair=style is LoadStyle.PAIR)
    elif left:
        load = band(left)
    target = its_slot.sets[0]
    sides = (
        dict(zip(("left", "right"), map(int, right[1:].split("R")), strict=True))
        if right.startswith("L")
        else {"count": int(right)}
    )
    done = SetDone(measure=target.measure, load=load, **sides)  # type: ignore[arg-type]
    return SetRecord(done, place, (NOW - timedelta(days=days_ago)).date(), its_slot.exercise, day.number)


def _place(text: str) -> SetPlace:
    label, number = text.split(".")
    return SetPlace(label, int(number))
