"""A slot's case in a line: kits, slots, weeks of records, and the parts of a suggestion that tests look at."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from decimal import Decimal

from bot.training.blocks import SetPlace, SetTarget, Slot
from bot.training.exercises.catalogue import load_catalogue
from bot.training.exercises.entry import Exercise
from bot.training.kit import Kit, KitItem, Ladder, barbell_ladder, even_ladder
from bot.training.loads import Load, Unit
from bot.training.progression import SlotCase, Suggestion, WeekOfRecords, suggest, week_of
from bot.training.records import SetDone, SetRecord

MONDAY = date(2026, 3, 2)
BANDS = ("yellow", "red", "green")


def dumbbells(*amounts: str | int, unit: Unit = Unit.KG) -> Kit:
    """Exactly these dumbbells, in pairs, and three bands."""
    ladder = Ladder(KitItem.DUMBBELL, unit, tuple(Decimal(str(amount)) for amount in amounts), pairs=True)
    return Kit(frozenset({KitItem.DUMBBELL}), (ladder,), bands=BANDS)


def stepped(step: str | int, *, low: int = 2, high: int = 60, unit: Unit = Unit.KG) -> Kit:
    """Dumbbells with even steps."""
    return Kit(frozenset({KitItem.DUMBBELL}), (even_ladder(KitItem.DUMBBELL, low=low, high=high, step=step, unit=unit),), BANDS)


def barbell() -> Kit:
    """A bar of 20 kg with plates from 1.25 kg: whole bars in steps of 2.5 kg."""
    plates = ((Decimal("1.25"), 1), (Decimal("2.5"), 1), (Decimal(5), 1), (Decimal(10), 3))
    ladder = barbell_ladder(bar=Decimal(20), plates_each_side=plates, unit=Unit.KG)
    return Kit(frozenset({KitItem.BARBELL}), (ladder,))


COARSE = dumbbells(5, 10, 15, 20)
USUAL = stepped("2.5", low=5, high=30)
NOTHING = Kit()


def slot(*targets: SetTarget, **more: object) -> Slot:
    return Slot("A1", "Lift", tuple(targets), **more)  # type: ignore[arg-type]


def straight(low: int | None, high: int | None, sets: int = 3, **target: object) -> Slot:
    """So many sets alike."""
    return slot(*(SetTarget(low, high, **target),) * sets)  # type: ignore[arg-type]


def week(n: int, load: Load | None, *counts: int, **more: object) -> WeekOfRecords:
    """Straight sets in week n, from 0."""
    return week_of(MONDAY + timedelta(weeks=n), "A1", load, counts, **more)  # type: ignore[arg-type]


def sets(n: int, *done: SetDone, **more: object) -> WeekOfRecords:
    """Any sets in week n, from 0."""
    on = MONDAY + timedelta(weeks=n)
    records = tuple(SetRecord(one, SetPlace("A1", number), on) for number, one in enumerate(done, 1))
    return WeekOfRecords(on, records, **more)  # type: ignore[arg-type]


def missed(n: int) -> WeekOfRecords:
    return WeekOfRecords(MONDAY + timedelta(weeks=n), missed=True)


def exercise(name: str) -> Exercise:
    found = load_catalogue().get(name)
    assert found is not None, name
    return found


def ask(slot_: Slot, *weeks: WeekOfRecords, kit: Kit = USUAL, **more: object) -> Suggestion:
    """The suggestion for the week after the last one."""
    at = more.pop("week", max(2, len(weeks) + 1))
    return suggest(SlotCase(slot_, kit=kit, history=weeks, week=at, **more))  # type: ignore[arg-type]


def aims(found: Suggestion) -> list[int | None]:
    return [aim.aim for aim in found.sets]


def amounts(found: Suggestion) -> list[str]:
    """The load of each set as an amount, "" where it has none."""
    return [
        f"{aim.load.amount.normalize():f}" if aim.load is not None and aim.load.amount is not None else "" for aim in found.sets
    ]


def ranges(found: Suggestion) -> list[tuple[int | None, int | None]]:
    return [(aim.low, aim.high) for aim in found.sets]


def in_a_row(slot_: Slot, history: Sequence[WeekOfRecords], *, kit: Kit = USUAL, **more: object) -> list[Suggestion]:
    """Week after week, each suggestion handed on as the one before."""
    found: list[Suggestion] = []
    for n in range(1, len(history) + 1):
        found.append(ask(slot_, *history[:n], kit=kit, before=found[-1] if found else None, **more))
    return found
