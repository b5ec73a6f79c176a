"""What comes instead of the next load: more reps than the range, a slower lowering, a longer pause, partials, a harder variation.

Common practice for coarse kit, in this order; for body weight the harder variation comes right after the reps. Each rung is topped before the
next is taken, and only when all are used up is the big jump made, with whatever clean reps it allows.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import floor

from bot.training.blocks import LoadRule, Measure, Partials
from bot.training.exercises.entry import Exercise
from bot.training.kit import KitItem
from bot.training.loads import Load, LoadKind
from bot.training.progression.asked import Decision, Group, aim_for, clamp, more_kind, more_of
from bot.training.progression.chances import expected, slowed
from bot.training.progression.scene import Scene
from bot.training.progression.values import Kind, Reason, SetAim, Why
from bot.training.tempo import Tempo

SLOWEST_DOWN_S, LONGEST_PAUSE_S = 5, 2  # a rep stays within 8 s (Schoenfeld 2015, Sports Med 45:577-585)
_LONGEST_REP_S = 8
_USUAL = Tempo(2, 0, 1, 0)  # a rep of which no tempo was said (2-4 s, common practice)


def instead_of_load(scene: Scene, group: Group, reason: Reason, *, cap: int, step: Load | None) -> Decision:
    """Reps up to the cap, then the other ways one after the other. step: the load that is too far away, None if there is none."""
    is_slowed = slowed(scene, group)
    limit = max(one.most for one in group) if is_slowed else cap  # at a slower tempo the range is not left once more
    if min(one.count for one in group) < limit:
        return beyond(scene, group, reason, wanted=limit)
    if scene.case.slot.load_rule in (LoadRule.RISES, LoadRule.FALLS) and len(group) < len(scene.last.sets):
        return _kept(scene, group, reason)  # one set of a pyramid is not slowed beside the others
    body = group[0].load is not None and group[0].load.kind is LoadKind.BODY
    variation = harder(scene, group, reason)
    if body and variation:
        return variation
    return (
        slower(scene, group, reason)
        or longer_pause(scene, group, reason)
        or partials(scene, group, reason)
        or variation
        or _jump(scene, group, reason, step)
        or _kept(scene, group, reason)
    )


def beyond(scene: Scene, group: Group, reason: Reason, *, wanted: int | None) -> Decision:
    """A little more than last time, above the range. The range shown begins a little under its top, so that a plain day still lands."""
    less = 1 if scene.measure is Measure.REPS else 5
    shared = wanted if len({(one.low, one.high) for one in group}) == 1 else None
    aims = []
    for one in group:
        goal = more_of(scene.measure, one.count)
        top = max(shared or 0, goal)
        floor_ = max(one.least, min(one.most, one.count) - less)
        aims.append(aim_for(scene, one.number, floor_, top, min(top, goal), one.load))
    return Decision(more_kind(scene.measure), tuple(aims), reason)


def slower(scene: Scene, group: Group, reason: Reason) -> Decision | None:
    """Two seconds more on the way down, aimed at the middle of the range."""
    return _with_tempo(scene, group, reason, Kind.SLOWER, _lowered)


def longer_pause(scene: Scene, group: Group, reason: Reason) -> Decision | None:
    """Two seconds more at the stretched end."""
    return _with_tempo(scene, group, reason, Kind.LONGER_PAUSE, _paused)


def _lowered(now: Tempo) -> Tempo:
    return replace(now, eccentric_s=max(now.eccentric_s, min(SLOWEST_DOWN_S, now.eccentric_s + 2)))


def _paused(now: Tempo) -> Tempo:
    return replace(now, stretched_s=max(now.stretched_s, min(LONGEST_PAUSE_S, now.stretched_s + 2)))


def _with_tempo(scene: Scene, group: Group, reason: Reason, kind: Kind, change) -> Decision | None:  # type: ignore[no-untyped-def]
    aims = []
    for one in group:
        now = scene.tempo(one.number) or _USUAL
        changed = change(now)
        if changed == now or changed.seconds_a_rep > _LONGEST_REP_S:
            return None
        aims.append(replace(aim_for(scene, one.number, one.least, one.most, one.middle, one.load), tempo=changed))
    return Decision(kind, tuple(aims), replace(reason, tempo=aims[0].tempo))


def partials(scene: Scene, group: Group, reason: Reason) -> Decision | None:
    """Part-range reps after the last full one; once only (evidence for them is mixed, so no ladder is built on it)."""
    before = scene.case.before
    if scene.measure is not Measure.REPS or (before is not None and any(aim.partials for aim in before.sets)):
        return None
    last = group[-1].number
    aims = [aim_for(scene, one.number, one.least, one.most, one.most, one.load) for one in group]
    return Decision(Kind.PARTIALS, tuple(replace(a, partials=Partials(4)) if a.number == last else a for a in aims), reason)


def harder(scene: Scene, group: Group, reason: Reason) -> Decision | None:
    """A harder variation that the kit allows. The targets stay those of the exercise done now, in case it is not wanted."""
    found = next(iter(neighbours(scene, scene.case.harder, up=True)), None)
    if found is None:
        return None
    aims = _as_done(scene, group)
    return Decision(Kind.HARDER_VARIATION, aims, replace(reason, words=found.name), found.id)


def neighbours(scene: Scene, offered: Sequence[Exercise], *, up: bool) -> list[Exercise]:
    """Harder (or easier) exercises of the family that the kit allows: those handed in, else the catalogue's, best first."""
    found = list(offered)
    exercise = scene.case.exercise
    names = () if exercise is None else exercise.harder if up else exercise.easier
    if not found and names:
        from bot.training.exercises.catalogue import load_catalogue

        found = [entry for name in names if (entry := load_catalogue().get(name)) is not None]
    return [one for one in found if not one.kit or any(not scene.case.kit.lacks(need) for need in one.kit)]


def _jump(scene: Scene, group: Group, reason: Reason, step: Load | None) -> Decision | None:
    """The big step after all: for the clean reps that the forecast gives, at least 3 and a third of the low end."""
    if step is None:
        return None
    counts = [floor(count) for count in expected(scene, group, step)]
    if min(counts) < max(3, group[0].least / 3):
        return None
    aims = tuple(
        replace(aim_for(scene, one.number, min(count, one.least), one.most, min(count, one.least), step), tempo=one.target.tempo)
        for one, count in zip(group, counts, strict=True)
    )
    kind = Kind.NEXT_BAND if step.kind is LoadKind.BAND else Kind.ADD_LOAD
    return Decision(kind, aims, replace(reason, why=Why.THE_JUMP, next_load=step))


def _kept(scene: Scene, group: Group, reason: Reason) -> Decision:
    return Decision(Kind.HOLD, _as_done(scene, group), reason)


def _as_done(scene: Scene, group: Group) -> tuple[SetAim, ...]:
    """The counts of last time, which lie at or above the range."""
    top = max(max(one.high or 0, one.count) for one in group)
    same = len({(one.low, one.high) for one in group}) == 1  # sets with one range keep one range
    return tuple(
        aim_for(
            scene, one.number, one.least, top if same else max(one.high or 0, one.count), clamp(one.count, one.least, None), one.load
        )
        for one in group
    )  # fmt: skip


def may_take_band(scene: Scene) -> bool:
    """Can a band take body weight off here: a pull or a dip, with bands in the house?"""
    exercise = scene.case.exercise
    hangs = exercise is not None and any({KitItem.PULL_UP_BAR, KitItem.DIP_BARS, KitItem.RINGS} & need for need in exercise.kit)
    return hangs and bool(scene.case.kit.bands)
