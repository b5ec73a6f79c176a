"""Which way of setting targets serves members better? The advice, a fixed rule, and keeping everything, on the same hidden members.

    python -m scenarios.simulator.compare --members 500 --weeks 8 --seed 1

(a) the advice; (b) top of the range on all sets -> next load, else the same; (c) the first load kept. Shares carry 95 % intervals over
members (normal approximation).
"""

from __future__ import annotations

import argparse
from dataclasses import dataclass, field
from datetime import date, timedelta
from decimal import Decimal
from math import sqrt
from statistics import mean, stdev

from bot.training.blocks import SetPlace, SetTarget, Slot
from bot.training.kit import Kit, KitItem, Ladder
from bot.training.loads import Unit, weight
from bot.training.progression import SlotCase, Suggestion, WeekOfRecords, suggest
from bot.training.progression.history import sessions_of
from bot.training.records import SetDone, SetRecord
from bot.training.reviews import strength_points
from bot.training.trend import has_stalled
from scenarios.simulator.members import HiddenMember, make_member

RANGES = ((8, 12), (6, 10), (10, 15), (8, 10))
START = date(2026, 3, 2)


@dataclass
class Tally:
    """One value a member."""

    landed: list[float] = field(default_factory=list)
    failed: list[float] = field(default_factory=list)
    gain: list[float] = field(default_factory=list)
    stalls: list[float] = field(default_factory=list)
    brier: list[float] = field(default_factory=list)
    said: list[float] = field(default_factory=list)


def live(
    member: HiddenMember, low: int, high: int, weeks: int, way: str
) -> tuple[float, float, float, float, list[tuple[float, bool]]]:
    slot = Slot("A1", "Lift", (SetTarget(low, high),) * 3)
    kit = Kit(frozenset({KitItem.DUMBBELL}), (Ladder(KitItem.DUMBBELL, Unit.KG, tuple(Decimal(str(s)) for s in member.steps)),))
    start = member.best_kg
    guess = start / (1 + ((low + high) / 2 + 2) / 30)
    load = max((s for s in member.steps if s <= guess), default=member.steps[0])
    history: list[WeekOfRecords] = []
    aims: list[tuple[float, int, int, int]] = [(load, low, high, low)] * 3
    sets = hits = fails = 0
    said: list[tuple[float, bool]] = []
    advice: Suggestion | None = None
    for week in range(weeks):
        day, on, records = member.day(), START + timedelta(weeks=week), []
        hard = 0.0
        for number, (kg, lo, hi, _) in enumerate(aims, 1):
            most = member.capacity(kg, number, day)
            got = min(most, hi) if member.stops else max(min(most, hi), most - 1)
            left = most - got
            sets, hits = sets + 1, hits + (lo <= got)
            fails += got < lo
            hard += 1.0 if left <= 3 and got >= lo else 0.4
            rir = Decimal(min(left, 5)) if member.chance.random() < member.says_reserve else None
            told = kg * 10 if member.chance.random() < member.slips / 3 else kg
            done = SetDone(count=got, load=weight(Decimal(str(told))), rir=rir, failure=False)
            records.append(SetRecord(done, SetPlace("A1", number), on, doubtful=False))
            if advice is not None:
                said += [(f.chance, got >= lo) for f in advice.forecast if f.number == number]
        member.grow(hard / 3)
        history.append(WeekOfRecords(on, tuple(records)))
        counts = [r.done.count or 0 for r in records]
        if way == "advice":
            advice = suggest(SlotCase(slot, kit=kit, week=week + 2, weeks_in_block=weeks, history=tuple(history), before=advice))
            aims = [
                (float(a.load.amount if a.load and a.load.amount else load), a.low or low, a.high or high, 0) for a in advice.sets
            ]
        elif way == "fixed" and min(counts) >= high:
            load = next((s for s in member.steps if s > load), load)
            aims = [(load, low, high, low)] * 3
    case = SlotCase(slot, kit=kit, week=weeks + 1, history=tuple(history))
    stalled = has_stalled(strength_points(case, sessions_of(case))) and member.gain > 0.005
    return hits / sets, fails / sets, (member.best_kg / start - 1) / weeks, float(stalled), said


def compare(members: int, weeks: int, seed: int) -> dict[str, Tally]:
    found = {way: Tally() for way in ("advice", "fixed", "keep")}
    for n in range(members):
        low, high = RANGES[n % len(RANGES)]
        for way, tally in found.items():
            landed, failed, gain, stall, said = live(make_member(seed * 100_000 + n), low, high, weeks, way)
            tally.landed.append(landed)
            tally.failed.append(failed)
            tally.gain.append(gain)
            tally.stalls.append(stall)
            if said:
                tally.brier.append(mean((p - hit) ** 2 for p, hit in said))
                tally.said.append(mean(p for p, _ in said))
    return found


def _with_interval(values: list[float], *, percent: int = 1) -> str:
    if len(values) < 2:
        return "-"
    half = 1.96 * stdev(values) / sqrt(len(values))
    return f"{100 * mean(values):.{percent}f} +/- {100 * half:.{percent}f}"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--members", type=int, default=500)
    parser.add_argument("--weeks", type=int, default=8)
    parser.add_argument("--seed", type=int, default=1)
    args = parser.parse_args()
    for way, tally in compare(args.members, args.weeks, args.seed).items():
        print(f"{way:7} landed %: {_with_interval(tally.landed)}   failed %: {_with_interval(tally.failed)}   "
              f"gain % a week: {_with_interval(tally.gain, percent=2)}   false stalls %: {_with_interval(tally.stalls)}   "
              f"said %: {_with_interval(tally.said)}   Brier: {mean(tally.brier) if tally.brier else float('nan'):.3f}")  # fmt: skip


if __name__ == "__main__":
    main()
