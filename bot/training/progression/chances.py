"""Will the sets land at another load, and which load is the next one to take?

A step is taken when the forecast says that the sets will reach the low end; or when it is a step of the published size (2-10 %, ACSM 2009)
after the top was reached; or after two or more reps above the goal in the last set of two sessions running (NSCA Essentials, "2-for-2").
"""

from __future__ import annotations

from math import ceil
from statistics import fmean

from bot.training.blocks import Measure
from bot.training.curve import reps_at, share_for
from bot.training.loads import Load, LoadKind
from bot.training.progression.asked import Asked, Group, target_at
from bot.training.progression.outlook import reserve_guess
from bot.training.progression.scene import Scene, same_load
from bot.training.progression.steps import step_share

STEP_CHANCE = 0.55  # mean chance of the sets to reach the low end at the next load (our choice)
EASE_CHANCE = 0.75  # chance to land that an eased or a newly fitted load has to give (ours)
USUAL_STEP = 0.10  # ACSM 2009: 2-10 %
COMMON_STEP = 0.13  # the step of most dumbbells, 20 to 22.5 kg: taken when a range with room in it was topped (ours)
SINGLE_GOAL_STEP = 0.05  # all sets at a single number earn a step this small at once (common practice: 2.5 kg on a bar)
# How far a load may be raised at once that was far too light (ours): by more, the further the count lay above the range.
FAR_STEP, FURTHER_STEP = 0.25, 0.40
_SLACK = 1e-6


def chances(scene: Scene, group: Group, load: Load | None, *, low: int | None = None) -> list[float]:
    """The chance of each set to reach its low end at a load."""
    ends = [one.least if low is None else low for one in group]
    found = [scene.outlook.forecast(one.number, load, end, None, week=scene.week) for one, end in zip(group, ends, strict=True)]
    return [one.chance for one in found if one is not None] or [0.0]


def expected(scene: Scene, group: Group, load: Load | None) -> list[float]:
    """The mean count forecast for each set at a load."""
    found = [scene.outlook.expect(one.number, load, week=scene.week) for one in group]
    return [one[0] for one in found if one is not None] or [0.0] * len(group)


def rough_share(scene: Scene, load: Load | None, other: Load | None) -> float | None:
    """How much harder another load is, as a share; for weight on the body or help the body counts as well (as 75 kg, rough)."""
    if load is None or other is None or load.kind is LoadKind.BAND or other.kind is LoadKind.BAND or load.bands or other.bands:
        return None
    if load.kind is LoadKind.IMPLEMENT:
        return step_share(load, other)
    return scene.outlook.effective_kg(other) / scene.outlook.effective_kg(load) - 1


def said_percent(load: Load | None, other: Load | None) -> int | None:
    """The step as a percentage that may be said: only of an implement, whose kilograms are all there is."""
    if load is None or other is None or load.kind is not LoadKind.IMPLEMENT:
        return None
    share = step_share(load, other)
    return None if share is None else round(share * 100)


def choose_step(scene: Scene, group: Group, steps: list[Load]) -> Load | None:
    """The nearest step if its sets will likely land; a further one where the load was far too light. None: not yet."""
    if not _is_due(scene, group, steps[0]):
        return None
    above = min(one.count - one.most for one in group)
    if above < 4:
        return steps[0]
    limit = FURTHER_STEP if above >= 8 else FAR_STEP
    best = steps[0]
    for step in steps[1:]:
        share = rough_share(scene, group[0].load, step)
        if share is None or share > limit + _SLACK or min(chances(scene, group, step)) < 0.8:
            break
        best = step
    return best


def _is_due(scene: Scene, group: Group, step: Load) -> bool:
    if fmean(chances(scene, group, step)) >= STEP_CHANCE:
        return True
    share = rough_share(scene, group[0].load, step)
    likely = max(fmean(expected(scene, group, step)), _shown(scene, group, step))
    low = fmean(one.least for one in group)
    single = all(one.least == one.most for one in group)
    twice = two_for_two(scene, group)
    if share is None:  # bands: an order without kilograms
        past = topped_before(scene, group) and min(one.count - one.most for one in group) >= 2
        return likely >= low - 1.5 or past
    if single:
        return (
            share <= SINGLE_GOAL_STEP + _SLACK
            or (twice and likely >= low - 3)
            or (share <= USUAL_STEP + _SLACK and likely >= low - 1.5)
        )
    if _done_today(scene, step):
        return likely >= low - 1.5
    return share <= COMMON_STEP + _SLACK and likely >= low - (1.5 if twice else 0.5)


def _shown(scene: Scene, group: Group, step: Load) -> float:
    """What the last session alone shows of the next load: an earlier weak week does not take back what was just done."""
    if scene.measure is not Measure.REPS:
        return 0.0
    outlook = scene.outlook
    bend, there = outlook.bend, outlook.effective_kg(step)
    at_failure = [one.count + reserve_guess(one.did, one.target)[0] for one in group]
    loads = [outlook.effective_kg(one.load) for one in group]
    return fmean(reps_at(there * share_for(reps, bend) / kg, bend) for reps, kg in zip(at_failure, loads, strict=True))


def _done_today(scene: Scene, step: Load) -> bool:
    """Was the next load in the range on another set of the same session?"""
    return step.kg is not None and any(
        did.kg is not None and did.kg >= step.kg and did.count >= (target_at(scene, did.number).low or 1)
        for did in scene.last.sets
    )


def two_for_two(scene: Scene, group: Group) -> bool:
    """Two or more above the goal, in the last set, in the last two sessions, at the same load (NSCA Essentials, read second hand)."""
    if len(scene.sessions) < 2:
        return False
    last = group[-1]
    before, goal = scene.sessions[-2].set(last.number), last.high
    if before is None or goal is None:
        return False
    return same_load(before.load, last.load) and min(before.count, last.count) >= goal + 2


def topped_before(scene: Scene, group: Group) -> bool:
    """Did the session before reach the top as well, at the same load?"""
    if len(scene.sessions) < 2:
        return False
    before = [scene.sessions[-2].set(one.number) for one in group]
    pairs = [(did, one) for did, one in zip(before, group, strict=True) if did is not None]
    return bool(pairs) and all(same_load(did.load, one.load) and did.count >= (one.high or 0) for did, one in pairs)


def slowed(scene: Scene, group: Group) -> bool:
    """Has an earlier suggestion made the tempo slower than the block's?"""
    return any(scene.tempo(one.number) != target_at(scene, one.number).tempo for one in group)


def slowed_from(scene: Scene) -> bool:
    """As `slowed`, over all prescribed sets: counts before and after the change cannot be compared."""
    return any(scene.tempo(number) != target.tempo for number, target in enumerate(scene.targets, 1))


def cap_of(one: Asked) -> int:
    """How far reps go beyond the range before something else comes: 3 at least, two fifths at most (ours).

    A single number is a goal, not a range: two above it, twice, is the published sign (2-for-2).
    """
    return one.most + 2 if one.least == one.most else one.most + max(3, ceil(one.most * 0.4))


def wanted_for(scene: Scene, group: Group, step: Load) -> int:
    """Reps now at which the next load would bring the low end, nothing left over."""
    ratio = scene.outlook.effective_kg(group[0].load) / scene.outlook.effective_kg(step)
    share = share_for(group[0].least + 0.5, scene.outlook.bend) * ratio
    return max(ceil(reps_at(share, scene.outlook.bend)), max(one.count for one in group) + 1)
