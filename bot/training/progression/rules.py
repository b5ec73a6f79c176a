"""The rules for sets that moved together: through the range with reps, then on to the next load in the kit.

Sources: reps first, then load (double progression) is common practice; two or more reps above the goal in the last set, twice running
(NSCA Essentials, "2-for-2"); steps of 2-10 % once 1-2 reps above the wished number are done (ACSM 2009, MSSE 41:687-708). A step is taken when
the forecast says that the sets will land; otherwise reps beyond the range, a slower lowering, a longer pause, partials or a harder variation
come first (common practice for coarse kit).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from math import ceil, floor
from statistics import fmean as mean

from bot.training.blocks import Measure, Partials, PolicyKind
from bot.training.curve import reps_at, share_for
from bot.training.loads import Load, LoadKind
from bot.training.progression.history import Did
from bot.training.progression.scene import Scene, same_load
from bot.training.progression.steps import step_share
from bot.training.progression.values import Kind, Reason, SetAim, Why
from bot.training.tempo import Tempo

STEP_CHANCE = 0.55  # mean chance of the sets to reach the low end at the next load (our choice)
EASE_CHANCE = 0.75
HOLD_CHANCE = 0.45
FINE_STEP = 0.035
USUAL_STEP, FIRST_WEEKS_STEP = 0.10, 0.20  # ACSM 2009; a first guess of a load may be off by more
SLOWEST_DOWN_S, LONGEST_PAUSE_S = 5, 2  # a rep stays within 8 s (Schoenfeld 2015, Sports Med 45:577-585)


@dataclass(frozen=True, slots=True)
class Decision:
    """What a group of sets gets: the aims in set order, the rule, and a variation to offer."""

    kind: Kind
    aims: tuple[SetAim, ...]
    reason: Reason
    variation: str = ""


def decide(scene: Scene, group: Sequence[Did]) -> Decision:
    low, high = _range(scene, group)
    counts = tuple(did.count for did in group)
    left, right = _sides(group)
    reason = Reason(Why.LOW_IN_RANGE, counts, group[0].load, low=low, high=high, measure=scene.measure, left=left, right=right)
    if any(did.loose for did in group):
        return _hold(scene, group, low, high, replace(reason, why=Why.FORM))
    if high is None:
        return _open_ended(scene, group, reason)
    spare = [did.count + _spare(scene, did) for did in group]
    if low is not None and (min(counts) < low and min(spare) < low):
        return _below(scene, group, low, high, reason)
    if min(spare) >= high and _all_done(scene, group):
        if _too_hard(scene, group):
            return _hold(scene, group, low, high, replace(reason, why=Why.EFFORT_HIGH, rir=group[-1].rir))
        return _topped(scene, group, low or high, high, reason, by_reserve=min(counts) < high)
    return _inside(scene, group, low or 1, high, reason)


def _range(scene: Scene, group: Sequence[Did]) -> tuple[int | None, int | None]:
    """The range of the group: the first set with two ends speaks for the AMRAP sets beside it."""
    for did in group:
        target = scene.targets[min(did.number, len(scene.targets)) - 1]
        if not target.amrap and (target.high is not None or target.low is not None):
            return (target.low if target.low is not None else target.high), (
                target.high if target.high is not None else target.low
            )
    target = scene.targets[min(group[0].number, len(scene.targets)) - 1]
    return target.low, None


def _sides(group: Sequence[Did]) -> tuple[int | None, int | None]:
    for did in group:
        if did.done.left is not None and did.done.right is not None and did.done.left != did.done.right:
            return did.done.left, did.done.right
    return None, None


def _spare(scene: Scene, did: Did) -> int:
    """Reps that a said reserve adds: only what lies two or more above the reserve that was wished for (1 where none was)."""
    if did.rir is None or scene.measure is not Measure.REPS:
        return 0
    extra = did.rir - _wished(scene, did)
    return int(extra) if extra >= 2 else 0


def _wished(scene: Scene, did: Did) -> Decimal:
    target = scene.targets[min(did.number, len(scene.targets)) - 1]
    if target.rir is not None:
        return target.rir
    return 10 - target.rpe if target.rpe is not None and target.rpe >= 6 else Decimal(1)


def _too_hard(scene: Scene, group: Sequence[Did]) -> bool:
    """The range was reached, but with two reps less in reserve than the coach wished, on most sets."""
    asked = [
        did for did in group if (t := scene.targets[min(did.number, len(scene.targets)) - 1]).rir is not None or t.rpe is not None
    ]
    hard = [did for did in asked if did.rir is not None and _wished(scene, did) - did.rir >= 2]
    return bool(asked) and len(hard) * 2 > len(asked)


def _all_done(scene: Scene, group: Sequence[Did]) -> bool:
    """Were all the prescribed sets done? A topped set out of three shows little."""
    return len(scene.last.sets) >= len(scene.targets)


def aim_for(scene: Scene, did_number: int, low: int | None, high: int | None, aim: int | None, load: Load | None) -> SetAim:
    target = scene.targets[min(did_number, len(scene.targets)) - 1]
    return SetAim(
        did_number, low, None if target.amrap else high, aim, load, target.measure, target.amrap, scene.case.slot.sides,
        scene.tempo(did_number), target.partials, target.drops, target.rir,
    )  # fmt: skip


def _hold(scene: Scene, group: Sequence[Did], low: int | None, high: int | None, reason: Reason) -> Decision:
    return Decision(
        Kind.HOLD, tuple(aim_for(scene, d.number, low, high, _clamp(d.count, low, high), d.load) for d in group), reason
    )


def _clamp(count: int, low: int | None, high: int | None) -> int:
    count = count if low is None else max(low, count)
    return count if high is None else min(high, count)


def more_of(measure: Measure, count: int) -> int:
    """A little more: a rep; 5 s on a hold of 20 s and more, else 2; a tenth of a distance, in fives (common practice)."""
    if measure is Measure.REPS:
        return count + 1
    if measure is Measure.SECONDS:
        return count + (5 if count >= 20 else 2)
    return count + max(2, 5 * round(count / 50)) if count >= 25 else count + 2


def more_kind(measure: Measure) -> Kind:
    return {Measure.REPS: Kind.ADD_REPS, Measure.SECONDS: Kind.ADD_TIME}.get(measure, Kind.ADD_DISTANCE)


def _inside(scene: Scene, group: Sequence[Did], low: int, high: int, reason: Reason) -> Decision:
    counts = reason.counts
    middle = (low + high) / 2
    if scene.policy is PolicyKind.LOAD_ONLY and min(counts) >= low and _all_done(scene, group):
        return _load_only(scene, group, low, high, reason)
    fine = scene.up(group[0].load)[:1]
    usual = scene.policy is PolicyKind.USUAL and scene.measure is Measure.REPS and _all_done(scene, group)
    if usual and high > low and fine and mean(counts) >= middle and group[0].load is not None:
        share = step_share(group[0].load, fine[0])
        if share is not None and share <= FINE_STEP and min(chances(scene, group, fine[0], low)) >= 0.85:
            aims = tuple(aim_for(scene, d.number, low, high, _clamp(d.count, low, high), fine[0]) for d in group)
            return Decision(
                Kind.ADD_BOTH, aims, replace(reason, why=Why.FINE_STEP, next_load=fine[0], percent=round(share * 100))
            )
    why = Why.LOW_IN_RANGE if mean(counts) < middle else Why.SOME_SETS_TOPPED if max(counts) >= high else Why.IN_BETWEEN
    if reason.left is not None and max(reason.left, reason.right or 0) >= high > min(counts):
        why = Why.WEAKER_SIDE
    aims = tuple(
        aim_for(
            scene,
            d.number,
            low,
            high,
            _clamp(d.count if d.done.failure and n else more_of(scene.measure, d.count), low, high),
            d.load,
        )
        for n, d in enumerate(group)
    )
    return Decision(more_kind(scene.measure), aims, replace(reason, why=why))


def chances(scene: Scene, group: Sequence[Did], load: Load | None, low: int, *, bonus: float = 0.0) -> list[float]:
    """The chance of each set to reach the low end at a load."""
    found = [scene.outlook.forecast(did.number, load, low, None, week=scene.week, bonus=bonus) for did in group]
    return [one.chance for one in found if one is not None] or [0.0]


def _expected(scene: Scene, group: Sequence[Did], load: Load | None) -> list[float]:
    found = [scene.outlook.expect(did.number, load, week=scene.week) for did in group]
    return [one[0] for one in found if one is not None] or [0.0]


def _topped(scene: Scene, group: Sequence[Did], low: int, high: int, reason: Reason, *, by_reserve: bool) -> Decision:
    if scene.policy is PolicyKind.REPS_ONLY:
        return _beyond(scene, group, low, high, replace(reason, why=Why.POLICY_REPS), wanted=None)
    if scene.policy is PolicyKind.TEMPO and (slow := _slower(scene, group, low, high, replace(reason, why=Why.POLICY_TEMPO))):
        return slow
    load = group[0].load
    if load is None:
        return _beyond(scene, group, low, high, replace(reason, why=Why.LOAD_UNKNOWN), wanted=None)
    if scene.measure is not Measure.REPS:
        return _topped_time(scene, group, low, high, reason)
    steps = scene.up(load)
    if not steps:
        return _without_step(scene, group, low, high, replace(reason, why=Why.NOTHING_HEAVIER), cap=_cap(high))
    step = _choose_step(scene, group, steps, low, high)
    share = step_share(load, steps[0])
    percent = None if share is None else round(share * 100)
    if step is None:
        wanted = _wanted(scene, group, steps[0], low)
        expected = floor(mean(_expected(scene, group, steps[0])) + 0.5)
        band = load.kind is LoadKind.BAND
        why = Why.BAND_STEP if band else Why.STEP_TOO_BIG
        told = replace(
            reason, why=why, next_load=steps[0], percent=percent, expected=None if band else max(0, expected), wanted=wanted
        )
        if scene.policy is PolicyKind.LOAD_ONLY:
            return _hold(scene, group, low, high, replace(told, why=Why.WAIT_FOR_LOAD))
        # A single number is a goal, not a range: two above it, twice, is the published sign (2-for-2).
        cap = high + 2 if low == high else _cap(high)
        return _without_step(scene, group, low, high, replace(told, wanted=min(wanted, cap)), cap=min(cap, wanted))
    why = (
        Why.RESERVE
        if by_reserve
        else Why.FAR_TOO_LIGHT
        if step is not steps[0]
        else Why.TWO_FOR_TWO
        if _two_for_two(scene, high)
        else Why.TOPPED
    )
    return _step_up(scene, group, low, high, step, replace(reason, why=why))


def _step_up(scene: Scene, group: Sequence[Did], low: int, high: int, step: Load, reason: Reason) -> Decision:
    """The next load, aimed at the low end, or at what the forecast gives beyond it."""
    load = group[0].load
    aims = []
    for did, expected in zip(group, _expected(scene, group, step), strict=False):
        aims.append(aim_for(scene, did.number, low, high, _clamp(floor(expected), low, high), step))
    share = step_share(load, step) if load is not None else None
    kind = Kind.ADD_LOAD
    if load is not None and load.kind is LoadKind.BAND:
        kind = Kind.NEXT_BAND
    elif load is not None and load.kind is LoadKind.ASSISTED:
        kind = Kind.LESS_HELP
    if kind is Kind.ADD_LOAD:
        aims = [replace(aim, tempo=scene.targets[min(aim.number, len(scene.targets)) - 1].tempo) for aim in aims]
    return Decision(kind, tuple(aims), replace(reason, next_load=step, percent=None if share is None else round(share * 100)))


def _choose_step(scene: Scene, group: Sequence[Did], steps: list[Load], low: int, high: int) -> Load | None:
    """The nearest step if its sets will likely land; a further one where the load was far too light. None: not yet."""
    load = group[0].load
    counts = [did.count for did in group]
    far_too_light = min(counts) >= high + 4
    limit = FIRST_WEEKS_STEP if scene.case.week <= 2 or far_too_light else USUAL_STEP
    first = steps[0]
    share = step_share(load, first) if load is not None else None
    slowed = any(_slowed_by(scene, did.number) for did in group)
    bonus = 0.03 if slowed else 0.0
    expected = mean(_expected(scene, group, first))
    lands = mean(chances(scene, group, first, low, bonus=bonus)) >= STEP_CHANCE
    within = share is not None and share <= USUAL_STEP + 1e-6 and high > low and expected >= low - 0.5
    twice = _two_for_two(scene, high) and share is not None and share <= USUAL_STEP + 1e-6 and expected >= low - 1.5
    if load is not None and load.kind in (LoadKind.BAND, LoadKind.ASSISTED, LoadKind.BODY):
        lands = lands or expected >= low - 1.5 or (_topped_before(scene, high) and min(counts) >= high + 2)
    if not (lands or within or twice):
        return None
    if not far_too_light:
        return first
    best = first
    for step in steps[1:]:
        further = step_share(load, step) if load is not None else None
        if further is None or further > limit + 1e-6 or min(chances(scene, group, step, low)) < 0.8:
            break
        best = step
    return best


def _slowed_by(scene: Scene, number: int) -> bool:
    prescribed = scene.targets[min(number, len(scene.targets)) - 1].tempo
    return scene.tempo(number) != prescribed


def _two_for_two(scene: Scene, high: int) -> bool:
    """Two or more above the goal, in the last set, in the last two sessions, at the same load (NSCA Essentials, read second hand)."""
    if len(scene.sessions) < 2:
        return False
    before, last = (session.sets[-1] for session in scene.sessions[-2:])
    return same_load(before.load, last.load) and min(before.count, last.count) >= high + 2


def _topped_before(scene: Scene, high: int) -> bool:
    if len(scene.sessions) < 2:
        return False
    before = scene.sessions[-2]
    return same_load(before.sets[0].load, scene.last.sets[0].load) and min(before.counts) >= high


def _cap(high: int) -> int:
    """How far reps go beyond the range before something else comes: 3 at least, two fifths at most (ours)."""
    return high + max(3, ceil(high * 0.4))


def _wanted(scene: Scene, group: Sequence[Did], step: Load, low: int) -> int:
    """Reps now at which the next load would bring the low end, nothing left over."""
    ratio = scene.outlook.effective_kg(group[0].load) / scene.outlook.effective_kg(step)
    share = share_for(low + 0.5, scene.outlook.bend) * ratio
    return max(ceil(reps_at(share, scene.outlook.bend)), max(did.count for did in group) + 1)


def _without_step(scene: Scene, group: Sequence[Did], low: int, high: int, reason: Reason, *, cap: int) -> Decision:
    if min(reason.counts) < cap:
        return _beyond(scene, group, low, high, reason, wanted=cap)
    body = group[0].load is not None and group[0].load.kind is LoadKind.BODY
    harder = _harder(scene, group, low, high, reason)
    if body and harder:
        return harder
    return (
        _slower(scene, group, low, high, reason)
        or _longer_pause(scene, group, low, high, reason)
        or _partials(scene, group, low, high, reason)
        or harder
        or _hold(scene, group, high, cap, reason)
    )


def _beyond(scene: Scene, group: Sequence[Did], low: int, high: int, reason: Reason, *, wanted: int | None) -> Decision:
    top = max(wanted or 0, more_of(scene.measure, max(reason.counts)))
    floor_ = max(low, min(high, min(reason.counts)) - (1 if scene.measure is Measure.REPS else 5))
    aims = tuple(aim_for(scene, d.number, floor_, top, min(top, more_of(scene.measure, d.count)), d.load) for d in group)
    return Decision(more_kind(scene.measure), aims, reason)


def _slower(scene: Scene, group: Sequence[Did], low: int, high: int, reason: Reason) -> Decision | None:
    aims = []
    for did in group:
        now = scene.tempo(did.number) or Tempo(2, 0, 1, 0)
        slow = replace(now, eccentric_s=min(SLOWEST_DOWN_S, now.eccentric_s + 2))
        if slow.eccentric_s <= now.eccentric_s or slow.seconds_a_rep > 8:
            return None
        aims.append(replace(aim_for(scene, did.number, low, high, low + (high - low) // 2, did.load), tempo=slow))
    return Decision(Kind.SLOWER, tuple(aims), replace(reason, tempo=aims[0].tempo))


def _longer_pause(scene: Scene, group: Sequence[Did], low: int, high: int, reason: Reason) -> Decision | None:
    aims = []
    for did in group:
        now = scene.tempo(did.number) or Tempo(2, 0, 1, 0)
        paused = replace(now, stretched_s=min(LONGEST_PAUSE_S, now.stretched_s + 2))
        if paused.stretched_s <= now.stretched_s or paused.seconds_a_rep > 9:
            return None
        aims.append(replace(aim_for(scene, did.number, low, high, low + (high - low) // 2, did.load), tempo=paused))
    return Decision(Kind.LONGER_PAUSE, tuple(aims), replace(reason, tempo=aims[0].tempo))


def _partials(scene: Scene, group: Sequence[Did], low: int, high: int, reason: Reason) -> Decision | None:
    """Part-range reps after the last full one; once only (evidence for them is mixed, so no ladder is built on it)."""
    before = scene.case.before
    if before is not None and (before.kind is Kind.PARTIALS or any(aim.partials for aim in before.sets)):
        return None
    last = group[-1].number
    aims = [aim_for(scene, did.number, low, high, high, did.load) for did in group]
    return Decision(Kind.PARTIALS, tuple(replace(a, partials=Partials(4)) if a.number == last else a for a in aims), reason)


def _harder(scene: Scene, group: Sequence[Did], low: int, high: int, reason: Reason) -> Decision | None:
    """A harder variation that the kit allows. The targets stay those of the exercise done now, in case it is not wanted."""
    for one in harder_of(scene):
        aims = tuple(aim_for(scene, d.number, high, max(high + 1, d.count), d.count, d.load) for d in group)
        return Decision(Kind.HARDER_VARIATION, aims, replace(reason, words=one.name), one.id)
    return None


def harder_of(scene: Scene):  # type: ignore[no-untyped-def]
    case = scene.case
    found = list(case.harder)
    if not found and case.exercise is not None and case.exercise.harder:
        from bot.training.exercises.catalogue import load_catalogue

        found = [entry for name in case.exercise.harder if (entry := load_catalogue().get(name)) is not None]
    return [one for one in found if not one.kit or any(not case.kit.lacks(need) for need in one.kit)]


def _topped_time(scene: Scene, group: Sequence[Did], low: int, high: int, reason: Reason) -> Decision:
    """Holds and carries: past the target (60 s and more, or a fifth past a shorter one, or topped twice) -> load; else a little longer."""
    counts = reason.counts
    past = min(counts) >= max(60, high) or min(counts) >= high * 1.2 or _topped_before(scene, high)
    steps = scene.up(group[0].load)
    if scene.measure is not Measure.SECONDS:
        past = True
        steps = [step for step in steps[:1] if (step_share(group[0].load, step) or 0) <= 0.15 or min(counts) >= high * 1.3]  # type: ignore[arg-type]
    if not past or (scene.policy is PolicyKind.LOAD_ONLY and not steps):
        return _beyond(scene, group, low, high, reason, wanted=None)
    if not steps:
        body = group[0].load is not None and group[0].load.kind is LoadKind.BODY
        harder = (
            _harder(scene, group, low, high, replace(reason, why=Why.NOTHING_HEAVIER)) if body and min(counts) >= high else None
        )
        return harder or _beyond(scene, group, low, high, replace(reason, why=Why.NOTHING_HEAVIER), wanted=None)
    back = low if high > low else max(5, round(high * 0.7 / 5) * 5)
    aims = tuple(aim_for(scene, d.number, back, max(high, back), back, steps[0]) for d in group)
    kind = Kind.ADD_HOLD_LOAD if scene.measure is Measure.SECONDS else Kind.ADD_LOAD
    return Decision(kind, aims, replace(reason, why=Why.PAST_TARGET, next_load=steps[0]))


def _open_ended(scene: Scene, group: Sequence[Did], reason: Reason) -> Decision:
    """AMRAP at the same load: one more than last time; past 25 reps the load or the variation is too easy (our limit)."""
    low = reason.low
    if low is not None and min(reason.counts) < low:
        return _below(scene, group, low, low + 4, reason)
    if min(reason.counts) >= 25 and scene.measure is Measure.REPS and scene.policy is not PolicyKind.REPS_ONLY:
        steps = scene.up(group[0].load)
        if steps and min(chances(scene, group, steps[0], low or 8)) >= STEP_CHANCE:
            return _step_up(scene, group, low or 8, 25, steps[0], replace(reason, why=Why.FAR_TOO_LIGHT))
        harder = _harder(scene, group, low or 8, 25, replace(reason, why=Why.NOTHING_HEAVIER))
        if harder:
            return harder
    aims = tuple(
        aim_for(scene, d.number, low or max(1, d.count - 2), None, more_of(scene.measure, d.count), d.load) for d in group
    )
    return Decision(more_kind(scene.measure), aims, replace(reason, why=Why.IN_BETWEEN))


def _load_only(scene: Scene, group: Sequence[Did], low: int, high: int, reason: Reason) -> Decision:
    steps = scene.up(group[0].load)
    if steps and mean(chances(scene, group, steps[0], low)) >= STEP_CHANCE:
        return _step_up(scene, group, low, high, steps[0], replace(reason, why=Why.TOPPED))
    return _hold(scene, group, low, high, replace(reason, why=Why.WAIT_FOR_LOAD, next_load=steps[0] if steps else None))


def _below(scene: Scene, group: Sequence[Did], low: int, high: int, reason: Reason) -> Decision:
    """Below the range: hold once if it will likely be reached at this load; ease when it happened twice or is far away."""
    same = chances(scene, group, group[0].load, low)
    twice = len(scene.sessions) > 1 and _was_below(scene, low, group)
    near = min(reason.counts) >= low - 2 if scene.measure is Measure.REPS else min(reason.counts) >= low * 0.8
    if mean(reason.counts) >= low or (not twice and (mean(same) >= HOLD_CHANCE or (near and reason.counts[0] >= low))):
        aims = tuple(
            aim_for(scene, d.number, low, high, _clamp(more_of(scene.measure, d.count), low, high), d.load) for d in group
        )
        return Decision(Kind.HOLD, aims, replace(reason, why=Why.BELOW_ONCE))
    down = scene.down(group[0].load)
    if scene.measure is not Measure.REPS and not down:
        aims = tuple(
            aim_for(scene, d.number, min(low, d.count), high, min(high, more_of(scene.measure, d.count)), d.load) for d in group
        )
        return Decision(more_kind(scene.measure), aims, replace(reason, why=Why.BELOW_ONCE))
    for step in down:
        if mean(chances(scene, group, step, low)) >= EASE_CHANCE or step is down[-1]:
            expected = _expected(scene, group, step)
            aims = tuple(
                aim_for(scene, d.number, low, high, _clamp(floor(e), low, high), step)
                for d, e in zip(group, expected, strict=False)
            )
            return Decision(Kind.EASE, aims, replace(reason, why=Why.BELOW, next_load=step, weeks=2 if twice else 1))
    lowered = tuple(
        aim_for(scene, d.number, max(1, min(low, d.count - 1)), high, more_of(scene.measure, d.count), d.load) for d in group
    )
    return Decision(Kind.EASE, lowered, replace(reason, why=Why.NOTHING_LIGHTER, weeks=2 if twice else 1))


def _was_below(scene: Scene, low: int, group: Sequence[Did]) -> bool:
    before = [did for did in scene.sessions[-2].sets if did.number in {d.number for d in group}]
    return bool(before) and same_load(before[0].load, group[0].load) and min(did.count for did in before) < low
