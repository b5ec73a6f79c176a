"""From a decision to one aim for every prescribed set: sets not done last time, drops, forecasts."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from math import floor

from bot.training.blocks import Drop
from bot.training.loads import Load, LoadKind
from bot.training.progression.asked import aim_for, clamp
from bot.training.progression.scene import Scene
from bot.training.progression.steps import at_most, ladder_for
from bot.training.progression.values import SetAim, SetForecast

USUAL_DROP = Decimal("0.8")  # a cut of 20-25 % is common practice


def carried_on(scene: Scene, aims: tuple[SetAim, ...]) -> tuple[SetAim, ...]:
    """Fill up to the prescribed number of sets: one that was not done takes the load of the set before it."""
    by_number = {aim.number: aim for aim in aims}
    full: list[SetAim] = []
    for number, target in enumerate(scene.targets, 1):
        aim = by_number.get(number)
        if aim is None and (full or aims):
            near = full[-1] if full else aims[0]
            load = target.load or near.load
            low = target.low
            if (
                low is not None
                and near.aim is not None
                and near.aim < low
                and near.measure is target.measure
                and load == near.load
            ):
                low = near.low  # the sets beside it are built up from below the range, and so is this one
            seen = scene.outlook.expect(number, load, week=scene.week)
            likely = low if seen is None or low is None else max(low, floor(seen[0]))
            goal = likely if near.aim is None or likely is None or near.measure is not target.measure else min(likely, near.aim)
            aim = aim_for(scene, number, low, target.high, goal if goal is None else clamp(goal, low, target.high), load)
        if aim is not None:
            full.append(aim)
    return tuple(full)


def with_drops(scene: Scene, aims: tuple[SetAim, ...]) -> tuple[SetAim, ...]:
    """Drops follow the new load: the prescribed cut, rounded down to what the kit can be set to."""
    return tuple(replace(aim, drops=_drops(scene, aim)) if aim.drops else aim for aim in aims)


def _drops(scene: Scene, aim: SetAim) -> tuple[Drop, ...]:
    found: list[Drop] = []
    load = aim.load
    for drop in aim.drops:
        if load is None or load.amount is None or load.kind is not LoadKind.IMPLEMENT:
            found.append(drop)
            continue
        share = 1 - Decimal(drop.cut_percent) / 100 if drop.cut_percent is not None else USUAL_DROP
        lower = _cut(scene, load, float(share))
        if lower == load:  # the kit has nothing lighter: the drop stays as the coach wrote it, with no load to it
            found.append(drop)
            continue
        load = lower
        found.append(replace(drop, load=load))
    return tuple(found)


def _cut(scene: Scene, load: Load, share: float) -> Load:
    return at_most(share, load, ladder_for(load, scene.case.kit, scene.case.exercise, scene.case.slot.kit), scene.case.exercise)


def forecasts(scene: Scene, aims: tuple[SetAim, ...]) -> tuple[SetForecast, ...]:
    """What each set is expected to bring; a set of which nothing is known has none."""
    found = []
    for aim in aims:
        prescribed = scene.targets[aim.number - 1].tempo if aim.number <= len(scene.targets) else None
        slower = aim.tempo is not None and aim.tempo != prescribed
        # A rep that takes longer costs reps; how many is not well known, so a rough tenth of a load is taken (ours).
        one = scene.outlook.forecast(aim.number, aim.load, aim.low, aim.high, week=scene.week, bonus=-0.06 if slower else 0.0)
        if one is not None:
            found.append(replace(one, rough=one.rough or slower))
    return tuple(found)
