"""Which load fits what is asked this week, where last week's cannot simply be carried on?

A share of the best single (percent of 1RM): the load is that share of this member's estimate, said with its doubt; without an estimate
a first try is asked for. And a block that asks for other counts this week than last: the load follows the reps, through the forecast.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from math import exp, floor, sqrt

from bot.training.blocks import Measure, SetTarget, slot_in_week, work_sets
from bot.training.curve import reps_at
from bot.training.loads import Load, LoadKind
from bot.training.progression.asked import Decision, aim_for, clamp
from bot.training.progression.chances import EASE_CHANCE, FAR_STEP
from bot.training.progression.scene import Scene
from bot.training.progression.steps import step_share
from bot.training.progression.values import Kind, Reason, SetAim, Why
from bot.training.strength import EQUATION_ERROR

_NEAR = 0.08  # a setting within a usual step of what a share asks for needs no word (ours)


def by_percent(scene: Scene) -> Decision | None:
    """Loads by the prescribed share of 1RM; None where no set has one, or kilograms make no sense here."""
    if not any(target.percent_1rm for target in scene.targets) or scene.measure is not Measure.REPS:
        return None
    load = _last_load(scene)
    if load is not None and load.kind is not LoadKind.IMPLEMENT:
        return None
    best = _best_single_kg(scene)
    if load is None or best is None:
        return _first_try(scene)
    best_kg, doubt = best
    aims = tuple(_share_aim(scene, n, target, load, best_kg) for n, target in enumerate(scene.targets, 1))
    lead = next(n for n, target in enumerate(scene.targets) if target.percent_1rm)
    reason = Reason(
        Why.PERCENT, scene.last.said, load, aims[lead].load, percent=round(scene.targets[lead].percent_1rm or 0),
        words=f"{_in_unit(best_kg, load)}, give or take {_in_unit(best_kg * doubt, load)}{_if_far(scene, best_kg, lead, aims[lead])}",
    )  # fmt: skip
    return Decision(_kind_by_load(load, aims[lead].load), aims, reason)


def _if_far(scene: Scene, best_kg: float, lead: int, aim: SetAim) -> str:
    """Where the kit has nothing near the share, both numbers are said."""
    wanted_kg = best_kg * float(scene.targets[lead].percent_1rm or 0) / 100
    if aim.load is None or aim.load.kg is None or abs(float(aim.load.kg) - wanted_kg) <= wanted_kg * _NEAR:
        return ""
    return f", so about {_in_unit(wanted_kg, aim.load)}; the nearest you have"


def _last_load(scene: Scene) -> Load | None:
    loads = [did.load for session in reversed(scene.sessions) for did in session.sets if did.load is not None]
    return loads[0] if loads else None


def _best_single_kg(scene: Scene) -> tuple[float, float] | None:
    """The member's estimated 1RM in kg of one implement, and its doubt as a share (equation error: Mayhew 2008)."""
    if not scene.outlook.levels:
        return None
    level = max(scene.outlook.levels.values(), key=lambda one: one.mean)
    return exp(level.mean), sqrt(level.var + EQUATION_ERROR**2)


def _in_unit(kg: float, load: Load) -> str:
    per_unit = float(load.kg or 1) / float(load.amount or 1)
    return f"{kg / per_unit:.0f} {load.unit.value if load.unit else 'kg'}"


def _share_aim(scene: Scene, number: int, target: SetTarget, load: Load, best_kg: float) -> SetAim:
    if not target.percent_1rm:
        did = scene.last.set(number)
        return aim_for(scene, number, target.low, target.high, target.low, target.load or (did.load if did else load))
    wanted_kg = best_kg * float(target.percent_1rm) / 100
    near = _nearest(scene, load, wanted_kg)
    return aim_for(scene, number, target.low, target.high, target.low, near)


def _nearest(scene: Scene, load: Load, wanted_kg: float) -> Load:
    """The kit's setting closest to a number of kilograms, the lighter of two alike."""
    choices = [*reversed(scene.down(load)), load, *scene.up(load)]
    return min(choices, key=lambda one: (abs(float(one.kg or 0) - wanted_kg), one.kg or Decimal(0)))


def _kind_by_load(before: Load, now: Load | None) -> Kind:
    if now is None or now.kg is None or before.kg is None or now.kg == before.kg:
        return Kind.HOLD
    return Kind.ADD_LOAD if now.kg > before.kg else Kind.EASE


def _first_try(scene: Scene) -> Decision:
    """No estimate yet: a load that goes about as often as the share's reps at failure, and fewer of them."""
    aims = tuple(
        replace(aim_for(scene, n, target.low, target.high, target.low, target.load), rir=target.rir)
        for n, target in enumerate(scene.targets, 1)
    )
    percent = next(target.percent_1rm for target in scene.targets if target.percent_1rm)
    reps = max(1, floor(reps_at(float(percent) / 100)))
    return Decision(Kind.FIRST_WEEK, aims, Reason(Why.PERCENT_UNKNOWN, percent=round(percent), wanted=reps))


def by_new_range(scene: Scene) -> Decision | None:
    """The block asks for other counts than last week: the load with which they will likely be reached. None where it does not."""
    slot, week = scene.case.slot, scene.case.week
    if week < 2 or not slot.weeks or scene.measure is not Measure.REPS:
        return None
    before = work_sets(slot_in_week(slot, week - 1))
    if [(t.low, t.high, t.amrap) for t in before] == [(t.low, t.high, t.amrap) for t in scene.targets]:
        return None
    aims = tuple(_fitted(scene, n, target) for n, target in enumerate(scene.targets, 1))
    last = scene.last
    lead = next(iter(scene.targets))
    reason = Reason(Why.NEW_RANGE, last.said, last.sets[0].load, aims[0].load, lead.low or lead.high, lead.high or lead.low)
    first, now = last.sets[0].load, aims[0].load
    kind = _kind_by_load(first, now) if first is not None else Kind.HOLD
    return Decision(kind, aims, reason)


def _fitted(scene: Scene, number: int, target: SetTarget) -> SetAim:
    did = scene.last.set(number) or scene.last.sets[-1]
    low = target.low or target.high
    if target.load is not None or did.load is None or low is None:
        return aim_for(scene, number, target.low, target.high, target.low, target.load or did.load)
    load = _load_for(scene, number, did.load, low)
    seen = scene.outlook.expect(number, load, week=scene.week)
    most = target.high or low
    count = floor(seen[0]) if seen is not None else low
    return aim_for(scene, number, target.low, target.high, clamp(count, low, max(low, (low + most) // 2)), load)


def _load_for(scene: Scene, number: int, load: Load, low: int) -> Load:
    """The heaviest near load at which the low end is likely; not more than a quarter above what was done."""

    def chance(one: Load) -> float:
        found = scene.outlook.forecast(number, one, low, None, week=scene.week)
        return found.chance if found is not None else 0.0

    if chance(load) < EASE_CHANCE:
        return next((one for one in scene.down(load) if chance(one) >= EASE_CHANCE), load)
    best = load
    for one in scene.up(load):
        share = step_share(load, one)
        if chance(one) < EASE_CHANCE or (share is not None and share > FAR_STEP):
            break
        best = one
    return best
