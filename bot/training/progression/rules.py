"""The rules for sets that moved together: through the range with reps, then on to the next load in the kit.

Sources: reps first, then load (double progression) is common practice; two or more reps above the goal in the last set, twice running
(NSCA Essentials, "2-for-2"); steps of 2-10 % once 1-2 reps above the wished number are done (ACSM 2009, MSSE 41:687-708). A step is taken when
the forecast says that the sets will land (bot.training.progression.chances); otherwise other ways come first (other_ways).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import floor
from statistics import fmean

from bot.training.blocks import LoadRule, Measure, PolicyKind
from bot.training.loads import Load, LoadKind
from bot.training.progression.asked import (
    Decision,
    Group,
    aim_for,
    all_done,
    asked_of,
    clamp,
    has_half,
    more_kind,
    more_of,
    sides_of,
    spare,
    too_hard,
)
from bot.training.progression.chances import (
    EASE_CHANCE,
    STEP_CHANCE,
    cap_of,
    chances,
    choose_step,
    expected,
    rough_share,
    said_percent,
    two_for_two,
    wanted_for,
)
from bot.training.progression.history import Did
from bot.training.progression.other_ways import beyond, instead_of_load, may_take_band, neighbours, slower
from bot.training.progression.scene import Scene, same_load
from bot.training.progression.timed import open_ended, topped_time
from bot.training.progression.values import Kind, Reason, SetAim, Why

HOLD_CHANCE = 0.45  # below the range, the same load is tried once more with at least that chance (ours)
FINE_STEP = 0.035  # a step so small comes together with the reps (ours; fractional plates, pound stacks)
FINE_CHANCE = 0.93  # of every set to land at the finer step (chosen on simulated members; 0.85 failed more sets for no gain)
BUILD_UP = 0.6  # a hold or carry of which so much is there is built up at the same load (ours)
BAND_NEAR = 0.75  # of the low end, with a band that is new: its step of 23-40 % is built up to rather than given back (ours)
COARSE_DOWN = 0.15  # a step down of more than that is a big one (ours)
_TIRED = 1 / 3  # from first to last set such a share of the reps is lost: the rest was short (ours)
STAND_STILL = 4  # sessions without a rep more before something else is advised (custom is three; ours is one more)


def decide(scene: Scene, sets: Sequence[Did]) -> Decision:
    group = asked_of(scene, sets)
    counts = tuple(one.did.said for one in group)
    left, right = sides_of(group)
    low, high = _one_range(group)
    numbers = tuple(one.number for one in group) if len(group) < len(scene.last.sets) else ()
    reason = Reason(
        Why.LOW_IN_RANGE, counts, group[0].load, low=low, high=high, measure=scene.measure, left=left, right=right, numbers=numbers
    )  # fmt: skip
    open_sets = any(one.high is None for one in group)
    if any(one.did.loose for one in group):
        return _loose(scene, group, reason)
    if open_sets:
        short = any(one.low is not None and one.count < one.low for one in group)
        return _below(scene, group, reason) if short else open_ended(scene, group, reason)
    reached = [one.count + spare(scene, one) for one in group]
    if any(count < one.least for count, one in zip(reached, group, strict=True)):
        return _below(scene, group, reason)
    if too_hard(group):
        return _hold(scene, group, replace(reason, why=Why.EFFORT_HIGH, rir=group[-1].did.rir))
    if all(count >= one.most for count, one in zip(reached, group, strict=True)) and all_done(scene):
        return _topped(scene, group, reason, by_reserve=any(one.count < one.most for one in group))
    return _inside(scene, group, reason)


def _one_range(group: Group) -> tuple[int | None, int | None]:
    """The range that the group shares; none to speak of where its sets have several."""
    found = {(one.low, one.high) for one in group}
    return next(iter(found)) if len(found) == 1 else (None, None)


def _hold(scene: Scene, group: Group, reason: Reason) -> Decision:
    aims = tuple(aim_for(scene, one.number, one.low, one.high, clamp(one.count, one.low, one.high), one.load) for one in group)
    return Decision(Kind.HOLD, aims, reason)


def _loose(scene: Scene, group: Group, reason: Reason) -> Decision:
    """Form or tempo given up: the same load again, done well; lighter where the range was missed too, or it is the second time."""
    before = scene.sessions[-2] if len(scene.sessions) > 1 else None
    again = before is not None and any(did.loose and same_load(did.load, group[0].load) for did in before.sets)
    short = any(one.low is not None and one.count < one.low for one in group)
    down = scene.down(group[0].load)
    if (again or short) and down:
        return _to(scene, group, down[0], Kind.EASE, replace(reason, why=Why.FORM_AGAIN, next_load=down[0]))
    return _hold(scene, group, replace(reason, why=Why.FORM))


# --- inside the range ---


def _inside(scene: Scene, group: Group, reason: Reason) -> Decision:
    if scene.policy is PolicyKind.LOAD_ONLY and all_done(scene):
        return _load_only(scene, group, reason)
    again = _back_up(scene, group, reason) or _fine_step(scene, group, reason)
    if again is not None:
        return again
    kind = more_kind(scene.measure)
    if any(one.count < one.most for one in group) and _stands_still(scene, group):
        return Decision(kind, _a_little_more(scene, group), replace(reason, why=Why.STANDING_STILL, weeks=STAND_STILL))
    at_top = any(one.count >= one.most for one in group)
    low_half = fmean(one.count for one in group) < fmean((one.least + one.most) / 2 for one in group)
    why = Why.LOW_IN_RANGE if low_half else Why.SOME_SETS_TOPPED if at_top else Why.IN_BETWEEN
    if at_top and not low_half and len(scene.last.sets) < len(scene.targets):
        why = Why.SETS_LEFT_OUT
    if at_top and has_half(scene):
        why = Why.ONE_SIDE
    if reason.left is not None and max(reason.left, reason.right or 0) >= group[0].most > group[0].count:
        why = Why.WEAKER_SIDE
    return Decision(kind, _a_little_more(scene, group), replace(reason, why=why))


def _a_little_more(scene: Scene, group: Group) -> tuple[SetAim, ...]:
    """A rep more on each set (two or more where more were left over), up to the top; a later set that failed keeps its count."""
    aims = []
    for n, one in enumerate(group):
        more = one.count if one.did.done.failure and n else more_of(scene.measure, one.count)
        more = max(more, one.count + spare(scene, one) - 1)
        top = None if one.target.amrap else one.high
        aims.append(aim_for(scene, one.number, one.low, one.high, clamp(more, one.low, top), one.load))
    return tuple(aims)


def _fine_step(scene: Scene, group: Group, reason: Reason) -> Decision | None:
    """A little of both: in the upper half of the range, a step so fine that the reps stay."""
    load = group[0].load
    ranged = all(one.most > one.least for one in group)
    upper = fmean(one.count for one in group) >= fmean((one.least + one.most) / 2 for one in group)
    if scene.policy is not PolicyKind.USUAL or scene.measure is not Measure.REPS or not (ranged and upper and all_done(scene)):
        return None
    step = next(iter(scene.up(load)), None)
    share = rough_share(scene, load, step)
    if step is None or share is None or load is None or load.kind is not LoadKind.IMPLEMENT or share > FINE_STEP:
        return None
    if min(chances(scene, group, step)) < FINE_CHANCE:
        return None
    aims = tuple(aim_for(scene, one.number, one.low, one.high, clamp(one.count, one.low, one.high), step) for one in group)
    percent = said_percent(load, step)
    return Decision(Kind.ADD_BOTH, aims, replace(reason, why=Why.FINE_STEP, next_load=step, percent=percent))


def _back_up(scene: Scene, group: Group, reason: Reason) -> Decision | None:
    """After a lighter week: back to a heavier load that was in the range before, one step at a time."""
    step = next(iter(scene.up(group[0].load)), None)
    if step is None or step.kg is None or group[0].load is None or step.kind is not LoadKind.IMPLEMENT or not all_done(scene):
        return None
    numbers = {one.number: one for one in group}
    known = any(
        did.kg is not None and did.kg >= step.kg and did.count >= numbers[did.number].least
        for session in scene.sessions[-8:-1]
        for did in session.sets
        if did.number in numbers and did.load is not None and did.load.kind is LoadKind.IMPLEMENT
    )
    if not known or min(chances(scene, group, step)) < EASE_CHANCE or scene.policy in (PolicyKind.REPS_ONLY, PolicyKind.TEMPO):
        return None
    return step_up(scene, group, step, replace(reason, why=Why.BACK_UP))


def _stands_still(scene: Scene, group: Group) -> bool:
    """The same load for four sessions and more, none of the later ones above the first on the sets they share."""
    recent = scene.sessions[-STAND_STILL:]
    numbers = {one.number for one in group}
    if len(recent) < STAND_STILL or any(numbers - {did.number for did in session.sets} for session in recent):
        return False
    if not all(same_load(session.set(n).load, group[0].load) for session in recent for n in numbers):  # type: ignore[union-attr]
        return False
    totals = [sum(did.count for did in session.sets if did.number in numbers) for session in recent]
    return max(totals[1:]) <= totals[0]


# --- the top of the range ---


def _topped(scene: Scene, group: Group, reason: Reason, *, by_reserve: bool) -> Decision:
    if _lags(scene, group):
        return _hold(scene, group, replace(reason, why=Why.SAME_LOAD_FIRST))
    if scene.policy is PolicyKind.REPS_ONLY:
        return beyond(scene, group, replace(reason, why=Why.POLICY_REPS), wanted=None)
    if scene.policy is PolicyKind.TEMPO and (slow := slower(scene, group, replace(reason, why=Why.POLICY_TEMPO))):
        return slow
    load = group[0].load
    if load is None:
        return beyond(scene, group, replace(reason, why=Why.LOAD_UNKNOWN), wanted=None)
    if scene.measure is not Measure.REPS:
        return topped_time(scene, group, reason)
    steps = scene.up(load)
    cap = min(cap_of(one) for one in group)
    if not steps:
        why = Why.BAND_ORDER_UNKNOWN if _order_unknown(scene, load) else Why.NOTHING_HEAVIER
        return instead_of_load(scene, group, replace(reason, why=why), cap=cap, step=None)
    step = choose_step(scene, group, steps)
    if step is None:
        return _not_yet(scene, group, steps[0], reason, cap)
    return step_up(scene, group, step, replace(reason, why=_why_up(scene, group, step, steps[0], by_reserve=by_reserve)))


def _lags(scene: Scene, group: Group) -> bool:
    """Straight sets of which the member did some lighter: the heaviest load waits until all sets are done with it."""
    if scene.case.slot.load_rule in (LoadRule.RISES, LoadRule.FALLS) or group[0].did.kg is None:
        return False
    others = [did for did in scene.last.sets if did.number not in {one.number for one in group} and did.kg is not None]
    straight = len({(target.low, target.high) for target in scene.targets if not target.amrap}) <= 1
    named = any(target.load is not None for target in scene.targets)
    return straight and not named and any(did.kg < group[0].did.kg for did in others if did.kg is not None)


def _order_unknown(scene: Scene, load: Load) -> bool:
    """A band that the member never listed, or several at once: which comes next is not known."""
    order = [name.lower() for name in scene.case.kit.bands]
    return bool(load.bands) and (len(load.bands) > 1 or load.bands[0].lower() not in order)


def _why_up(scene: Scene, group: Group, step: Load, first: Load, *, by_reserve: bool) -> Why:
    if by_reserve:
        return Why.RESERVE
    if step is not first:
        return Why.FAR_TOO_LIGHT
    return Why.TWO_FOR_TWO if two_for_two(scene, group) else Why.TOPPED


def _not_yet(scene: Scene, group: Group, step: Load, reason: Reason, cap: int) -> Decision:
    """The next load is too far away: say what it would bring (where kilograms allow it), and what would bring it into reach."""
    banded = bool(step.bands) or bool(group[0].load and group[0].load.bands)
    rough = banded or step.kind is not LoadKind.IMPLEMENT
    wanted = wanted_for(scene, group, step)
    told = replace(
        reason,
        why=Why.BAND_STEP if banded else Why.STEP_TOO_BIG,
        next_load=step,
        percent=said_percent(group[0].load, step),
        expected=None if rough or reason.high is None else max(0, floor(fmean(expected(scene, group, step)) + 0.5)),
        wanted=None if reason.high is None or wanted > cap else wanted,  # past the cap something else comes before the step
    )
    if scene.policy is PolicyKind.LOAD_ONLY:
        return _hold(scene, group, replace(told, why=Why.WAIT_FOR_LOAD))
    if all(one.least == one.most for one in group):
        return _single_goal(scene, group, told, cap)
    return instead_of_load(scene, group, told, cap=min(cap, wanted), step=step)


def _single_goal(scene: Scene, group: Group, told: Reason, cap: int) -> Decision:
    """A single number as the goal: two above it, twice, is the sign; done once, it is to be done again before anything else."""
    before = [scene.sessions[-2].set(one.number) for one in group] if len(scene.sessions) > 1 else []
    twice = before and all(did is not None and same_load(did.load, group[0].load) and did.count >= cap for did in before)
    if min(one.count for one in group) >= cap and not twice:
        aims = tuple(aim_for(scene, one.number, one.most, one.count, one.count, one.load) for one in group)
        return Decision(Kind.HOLD, aims, replace(told, why=Why.ONCE_MORE, wanted=cap))
    return instead_of_load(scene, group, told, cap=cap, step=told.next_load)


def step_up(scene: Scene, group: Group, step: Load, reason: Reason) -> Decision:
    """The next load, aimed at the low end; where the forecast gives more, up to the middle of the range."""
    load = group[0].load
    kind = Kind.ADD_LOAD
    if load is not None and load.kind is LoadKind.BAND:
        kind = Kind.NEXT_BAND
    elif load is not None and load.kind is LoadKind.ASSISTED:
        kind = Kind.LESS_HELP
    decision = _to(scene, group, step, kind, replace(reason, next_load=step, percent=said_percent(load, step)))
    # A slower tempo or a longer pause was a way round the coarse kit: with the new load the block's own tempo is back.
    aims = tuple(replace(aim, tempo=one.target.tempo) for aim, one in zip(decision.aims, group, strict=True))
    return replace(decision, aims=aims)


def _to(scene: Scene, group: Group, step: Load, kind: Kind, reason: Reason) -> Decision:
    """Every set at another load, aimed between the low end and the middle; a single goal may be aimed two lower, to be built up."""
    aims: list[SetAim] = []
    for one, count in zip(group, expected(scene, group, step), strict=True):
        if one.high is None:
            aims.append(aim_for(scene, one.number, one.low, None, max(one.least, floor(count)), step))
            continue
        low = one.least
        if one.least == one.most:
            low = max(1, min(one.most, max(one.most - 3, floor(count + 0.5))))
        top = one.middle if scene.measure is Measure.REPS else one.most
        aims.append(aim_for(scene, one.number, low, one.most, clamp(floor(count), low, max(low, top)), step))
    return Decision(kind, tuple(aims), reason)


def _load_only(scene: Scene, group: Group, reason: Reason) -> Decision:
    step = next(iter(scene.up(group[0].load)), None)
    if step is not None and fmean(chances(scene, group, step)) >= STEP_CHANCE:
        return step_up(scene, group, step, replace(reason, why=Why.POLICY_LOAD))
    return _hold(scene, group, replace(reason, why=Why.WAIT_FOR_LOAD, next_load=step))


# --- below the range ---


def _below(scene: Scene, group: Group, reason: Reason) -> Decision:
    """Below the range: hold once if it will likely be reached at this load; ease when it happened twice or is far away."""
    twice = _was_below(scene, group)
    if scene.measure is not Measure.REPS and not twice and all(one.count >= one.least * BUILD_UP for one in group):
        return _built_up(scene, group, reason)
    if not twice and _is_near(scene, group):
        one_tempo = len({one.target.tempo for one in group}) == 1
        tired = one_tempo and group[0].count >= group[0].least and group[-1].count <= group[0].count * (1 - _TIRED)
        return Decision(Kind.HOLD, _up_to_range(scene, group), replace(reason, why=Why.REST_LONGER if tired else Why.BELOW_ONCE))
    down = scene.down(group[0].load)
    if scene.measure is Measure.REPS and _is_climbing(scene, group):
        return Decision(Kind.HOLD, _up_to_range(scene, group), replace(reason, why=Why.CLIMBING))
    if down and scene.measure is Measure.REPS and _better_here(scene, group, down[0]):
        return replace(_built_up(scene, group, reason), kind=Kind.HOLD)
    if not down and scene.measure is not Measure.REPS:
        return _built_up(scene, group, reason)
    found = next((step for step in down if fmean(chances(scene, group, step)) >= EASE_CHANCE), down[-1] if down else None)
    if found is not None:
        if min(one.count for one in group) == 0:  # not one rep: how much too heavy is not known, so one step further
            found = down[min(len(down) - 1, down.index(found) + 1)]
        return _to(scene, group, found, Kind.EASE, replace(reason, why=Why.BELOW, next_load=found, weeks=2 if twice else 1))
    return _nothing_lighter(scene, group, replace(reason, weeks=2 if twice else 1))


def _better_here(scene: Scene, group: Group, lower: Load) -> bool:
    """Nearly in the range, and the next lighter load is so much lighter that nothing would be learnt there (a band always is)."""
    share = rough_share(scene, group[0].load, lower)
    mean, low = fmean(one.count for one in group), fmean(one.least for one in group)
    if lower.bands:
        return mean >= low * BAND_NEAR
    return share is not None and share < -COARSE_DOWN and mean >= low - 1


def _is_climbing(scene: Scene, group: Group) -> bool:
    """More than the time before at the same load, and the low end is one good session away."""
    before = [scene.sessions[-2].set(one.number) for one in group] if len(scene.sessions) > 1 else []
    if not before or any(did is None or not same_load(did.load, group[0].load) for did in before):
        return False
    gained = sum(one.count for one in group) - sum(did.count for did in before if did is not None)
    return gained > 0 and all(one.count >= one.least - 1 for one in group)


def _is_near(scene: Scene, group: Group) -> bool:
    counts = [one.count for one in group]
    if fmean(counts) >= fmean(one.least for one in group) or fmean(chances(scene, group, group[0].load)) >= HOLD_CHANCE:
        return True
    if scene.measure is not Measure.REPS:
        return all(one.count >= one.least * 0.8 for one in group)
    return counts[0] >= group[0].least and all(one.count >= one.least - 2 for one in group)


def _up_to_range(scene: Scene, group: Group) -> tuple[SetAim, ...]:
    return tuple(
        aim_for(scene, one.number, one.low, one.high, clamp(more_of(scene.measure, one.count), one.least, one.high), one.load)
        for one in group
    )


def _built_up(scene: Scene, group: Group, reason: Reason) -> Decision:
    """A hold or a distance on its way to the target: a little more each week at the same load."""
    weakest = max(1, min(one.count for one in group))
    aims = tuple(
        aim_for(
            scene, one.number, min(one.least, weakest), one.high,
            clamp(more_of(scene.measure, one.count), None, one.high), one.load,
        )
        for one in group
    )  # fmt: skip
    return Decision(more_kind(scene.measure), aims, replace(reason, why=Why.BUILD_UP))


def _nothing_lighter(scene: Scene, group: Group, reason: Reason) -> Decision:
    """Nothing lighter to hand: an easier variation or a helping band is offered, and the reps are built up from where they are."""
    body = group[0].load is not None and group[0].load.kind is LoadKind.BODY
    weakest = min(one.count for one in group)
    aims = tuple(
        aim_for(
            scene, one.number, max(1, min(one.least, weakest)), one.high,
            clamp(more_of(scene.measure, one.count), None, one.high), one.load,
        )
        for one in group
    )  # fmt: skip
    easier = next(iter(neighbours(scene, (), up=False)), None)
    told = replace(reason, why=Why.NOTHING_LIGHTER)
    if body and may_take_band(scene):
        return Decision(Kind.EASE, aims, replace(told, words=f"let your {scene.case.kit.bands[-1]} band help"))
    if easier is not None:
        return Decision(Kind.EASE, aims, replace(told, words=f"try {easier.name}"), easier.id)
    return Decision(Kind.EASE, aims, told)


def _was_below(scene: Scene, group: Group) -> bool:
    if len(scene.sessions) < 2:
        return False
    before = [(scene.sessions[-2].set(one.number), one) for one in group]
    known = [(did, one) for did, one in before if did is not None]
    return bool(known) and same_load(known[0][0].load, group[0].load) and any(did.count < one.least for did, one in known)
