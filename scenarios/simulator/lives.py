"""Weeks of one hidden member under one way of setting targets: what was done, what was asked for, what came of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, timedelta
from decimal import Decimal

from bot.training.blocks import SetPlace, SetTarget, Slot
from bot.training.kit import Kit, KitItem, Ladder
from bot.training.loads import Unit, weight
from bot.training.progression import SlotCase, Suggestion, WeekOfRecords, suggest
from bot.training.records import SetDone, SetRecord
from scenarios.simulator.members import HiddenMember

START = date(2026, 3, 2)
SETS = 3
_USUAL_REP_S = 3


@dataclass(frozen=True, slots=True)
class Aim:
    """What one set is to be: load, the counts to land in, and by how many seconds a rep is slower than usual."""

    kg: float
    low: int
    high: int
    slower_s: int = 0


@dataclass
class Life:
    """What came of it. sets: all sets; in_range: those at or above the coach's low end (below it a set has failed), and in_target those
    that reached the target's own low end. forecasts: (chance said, landed). growth: share of strength won a week.
    """

    case: SlotCase
    sets: int = 0
    in_range: int = 0
    in_target: int = 0
    growth: float = 0.0
    forecasts: list[tuple[float, bool]] = field(default_factory=list)


Way = Callable[[SlotCase, list[Aim], tuple[float, ...]], tuple[list[Aim], Suggestion | None]]


def by_advice(case: SlotCase, before: list[Aim], steps: tuple[float, ...]) -> tuple[list[Aim], Suggestion | None]:
    advice = suggest(case)
    aims = []
    for aim, old in zip(advice.sets, before, strict=False):
        kg = float(aim.load.amount) if aim.load is not None and aim.load.amount else old.kg
        slower_s = aim.tempo.seconds_a_rep - _USUAL_REP_S if aim.tempo is not None else 0
        aims.append(Aim(kg, aim.low or old.low, aim.high or old.high, max(0, slower_s)))
    return aims or before, advice


def by_fixed_rule(case: SlotCase, before: list[Aim], steps: tuple[float, ...]) -> tuple[list[Aim], Suggestion | None]:
    """Top of the range on all sets -> the next load; else the same again."""
    counts = [record.done.count or 0 for record in case.history[-1].records]
    if counts and min(counts) >= before[0].high:
        heavier = next((kg for kg in steps if kg > before[0].kg), before[0].kg)
        return [Aim(heavier, aim.low, aim.high) for aim in before], None
    return before, None


def by_keeping(case: SlotCase, before: list[Aim], steps: tuple[float, ...]) -> tuple[list[Aim], Suggestion | None]:
    return before, None


WAYS: dict[str, Way] = {"advice": by_advice, "fixed": by_fixed_rule, "keep": by_keeping}


def live(member: HiddenMember, low: int, high: int, weeks: int, way: Way, *, still_from: int | None = None) -> Life:
    """Play so many weeks. still_from: from this week on (0 first) no set brings any gain."""
    kit = Kit(frozenset({KitItem.DUMBBELL}), (Ladder(KitItem.DUMBBELL, Unit.KG, tuple(Decimal(str(s)) for s in member.steps)),))
    case = SlotCase(Slot("A1", "Lift", (SetTarget(low, high),) * SETS), kit=kit, weeks_in_block=weeks)
    guess = member.best_kg / (1 + ((low + high) / 2 + 2) / 30)
    first_kg = max((s for s in member.steps if s <= guess), default=member.steps[0])
    aims, advice = [Aim(first_kg, low, high)] * SETS, None
    life, start_kg = Life(case), member.best_kg
    for week in range(weeks):
        on = START + timedelta(weeks=week)
        if week == still_from:
            member.gain = 0.0
        if week and member.chance.random() < member.misses:
            member.away()
            done = WeekOfRecords(on, missed=True)
        else:
            done = _train(member, life, aims, advice, on, low)
        case = SlotCase(case.slot, kit=kit, week=week + 2, weeks_in_block=weeks, history=(*case.history, done), before=advice)
        aims, advice = way(case, aims, member.steps)
    life.case = case
    life.growth = (member.best_kg / start_kg - 1) / weeks
    return life


def _train(member: HiddenMember, life: Life, aims: list[Aim], advice: Suggestion | None, on: date, low: int) -> WeekOfRecords:
    day, records, left, landed = member.day(), [], [], []
    for number, aim in enumerate(aims, 1):
        most = member.capacity(aim.kg, number, day, slower_s=aim.slower_s)
        got = min(most, aim.high) if member.stops else max(min(most, aim.high), most - 1)
        left.append(most - got)
        landed.append(got >= low)
        life.sets, life.in_range, life.in_target = life.sets + 1, life.in_range + (got >= low), life.in_target + (got >= aim.low)
        rir = Decimal(min(left[-1], 5)) if member.chance.random() < member.says_reserve else None
        told = aim.kg * 10 if member.chance.random() < member.slips / 3 else aim.kg
        done = SetDone(count=got, load=weight(Decimal(str(told))), rir=rir)
        records.append(SetRecord(done, SetPlace("A1", number), on))
        if advice is not None:
            life.forecasts += [(f.chance, got >= aim.low) for f in advice.forecast if f.number == number]
    member.after(left, landed)
    return WeekOfRecords(on, tuple(records))
