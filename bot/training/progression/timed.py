"""Sets that have no top, and sets that are not counted in reps: AMRAP, holds, carries.

Holds grow by seconds up to their target, then take weight; carries take weight as soon as the distance is there (common practice).
"""

from __future__ import annotations

from dataclasses import replace
from statistics import fmean

from bot.training.blocks import Measure, PolicyKind
from bot.training.loads import Load, LoadKind
from bot.training.progression.asked import Decision, Group, aim_for, more_kind, more_of
from bot.training.progression.chances import FURTHER_STEP, STEP_CHANCE, chances, expected, rough_share, topped_before
from bot.training.progression.other_ways import beyond, harder
from bot.training.progression.scene import Scene
from bot.training.progression.values import Kind, Reason, Why

LONG_HOLD_S = 60  # from here on weight comes before time (the target named in the brief of most coaches; common practice)
PAST = 1.2  # a fifth past a shorter target
CARRY_STEP = 0.15  # a carry's load may rise by so much at once; more needs a third more distance first (ours)
# A first weight on the body: how much of it an exercise moves is not known, so no more than this share of the whole (ours).
FIRST_ADDED = 0.15
FEW_REPS = 3  # under it an open set's load is too heavy to learn from (ours)
MANY_REPS = 25  # past it an open set's load or variation is too easy (ours)


def topped_time(scene: Scene, group: Group, reason: Reason) -> Decision:
    """A hold or carry that reached its target: load where it is due and there is one, else longer, else harder."""
    counts = [one.count for one in group]
    load = group[0].load
    steps = scene.up(load)
    if scene.measure is Measure.SECONDS:
        due = all(one.count >= max(LONG_HOLD_S, one.most) or one.count >= one.most * PAST for one in group)
        due = due or topped_before(scene, group)
    else:
        due = True
        if steps and not _carry_fits(scene, group, load, steps[0]):
            too_big = replace(reason, why=Why.STEP_TOO_BIG, next_load=steps[0], percent=_percent(scene, load, steps[0]))
            return beyond(scene, group, too_big, wanted=None)
    if steps and due:
        return _loaded(scene, group, reason, steps[0])
    if steps or not due:
        return beyond(scene, group, replace(reason, why=Why.LONGER), wanted=None)
    nothing = replace(reason, why=Why.NOTHING_HEAVIER)
    body = load is not None and load.kind is LoadKind.BODY
    variation = harder(scene, group, nothing) if body and min(counts) >= min(one.most for one in group) else None
    return variation or beyond(scene, group, nothing, wanted=None)


def _percent(scene: Scene, load: Load | None, step: Load) -> int | None:
    share = rough_share(scene, load, step)
    return None if share is None else round(share * 100)


def _carry_fits(scene: Scene, group: Group, load: Load | None, step: Load) -> bool:
    share = rough_share(scene, load, step)
    return share is None or share <= CARRY_STEP or all(one.count >= one.most * 1.3 for one in group)


def _loaded(scene: Scene, group: Group, reason: Reason, step: Load) -> Decision:
    aims = []
    for one in group:
        back = one.least if one.most > one.least else max(5, round(one.most * 0.7 / 5) * 5)
        aims.append(aim_for(scene, one.number, back, max(one.most, back), back, step))
    kind = Kind.ADD_HOLD_LOAD if scene.measure is Measure.SECONDS else Kind.ADD_LOAD
    return Decision(kind, tuple(aims), replace(reason, why=Why.PAST_TARGET, next_load=step))


def open_ended(scene: Scene, group: Group, reason: Reason) -> Decision:
    """AMRAP at the same load: one more than last time; past 25 reps the load or the variation is too easy."""
    counts = [one.count for one in group]
    eased = _too_heavy(scene, group, reason)
    if eased is not None:
        return eased
    few = min(counts) < MANY_REPS or scene.measure is not Measure.REPS
    if not few and scene.policy in (PolicyKind.USUAL, PolicyKind.LOAD_ONLY):
        wanted = group[0].low or 10
        step = _heavy_enough(scene, group, wanted)
        if step is not None:
            aims = tuple(
                aim_for(scene, one.number, wanted, None, max(wanted, int(count)), step)
                for one, count in zip(group, expected(scene, group, step), strict=True)
            )
            return Decision(Kind.ADD_LOAD, aims, replace(reason, why=Why.FAR_TOO_LIGHT, next_load=step))
        variation = harder(scene, group, replace(reason, why=Why.NOTHING_HEAVIER)) if _is_body(group) else None
        if variation:
            return variation
    aims = tuple(
        aim_for(scene, one.number, one.low or max(1, one.count - 2), None, more_of(scene.measure, one.count), one.load)
        for one in group
    )
    return Decision(more_kind(scene.measure), aims, replace(reason, why=Why.IN_BETWEEN))


def _too_heavy(scene: Scene, group: Group, reason: Reason) -> Decision | None:
    """Hardly a rep on any set: the nearest lighter load that gives some."""
    down = scene.down(group[0].load)
    if scene.measure is not Measure.REPS or not down or max(one.count for one in group) >= FEW_REPS:
        return None
    step = next((load for load in down if fmean(expected(scene, group, load)) >= FEW_REPS + 2), down[-1])
    aims = tuple(
        aim_for(scene, one.number, one.low, None, max(1, int(count)), step)
        for one, count in zip(group, expected(scene, group, step), strict=True)
    )
    return Decision(Kind.EASE, aims, replace(reason, why=Why.BELOW, next_load=step))


def _heavy_enough(scene: Scene, group: Group, wanted: int) -> Load | None:
    """The load that brings an open set down to twenty reps and fewer, or the nearest to it that still lands and is no leap."""
    most = FIRST_ADDED if _is_body(group) else FURTHER_STEP
    found = None
    for step in scene.up(group[0].load):
        share = rough_share(scene, group[0].load, step)
        leap = found is not None and share is not None and share > most
        if leap or min(chances(scene, group, step, low=wanted)) < STEP_CHANCE:
            break
        found = step
        if fmean(expected(scene, group, step)) <= MANY_REPS - 5:
            break
    return found


def _is_body(group: Group) -> bool:
    return group[0].load is not None and group[0].load.kind is LoadKind.BODY
