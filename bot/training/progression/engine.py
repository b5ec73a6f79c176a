"""Which rule speaks? The coach first, then care (pain, slips, absence, sleep, falling weeks), then the usual progression.

Order and sources: the coach's word wins (but a raise waits while a pain report is open); pain never raises anything (common practice; the
pain model of Silbernagel 2007 is a clinician's tool and not used); doubtful numbers are asked about; two weeks and more away come back lighter
(Caterisano et al. 2019, Strength Cond J 41(3):1-23, limits the first weeks; the shares are ours); one missed week repeats; two falling weeks
ease by about a tenth (deload: Bell et al. 2023; size is common practice); bad sleep waits.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from itertools import pairwise
from math import log
from statistics import fmean as mean

from bot.training.blocks import LoadRule, Measure, PolicyKind, slot_in_week
from bot.training.exercises.entry import LoadStyle
from bot.training.loads import BODY_WEIGHT, Load, LoadKind, say_load_within
from bot.training.outliers import Slip, find_slips, slip_questions, standing_slips
from bot.training.progression.aims import carried_on, forecasts, with_drops
from bot.training.progression.asked import Decision, aim_for, asked_of, target_at
from bot.training.progression.chances import slowed_from
from bot.training.progression.fitting import by_new_range, by_percent
from bot.training.progression.history import Did, exercise_id, has_usable, hurts_in, last_week, slept_badly
from bot.training.progression.other_ways import beyond
from bot.training.progression.rules import decide
from bot.training.progression.scene import Scene, groups_of, scene_of
from bot.training.progression.steps import at_most, ladder_for
from bot.training.progression.values import CoachNote, Kind, NoteCode, Reason, SetAim, SlotCase, Suggestion, WeekOfRecords, Why
from bot.training.records import SetRecord

AWAY_DAYS = 14
_BACK_SHARES = (
    (56, 0.70),
    (35, 0.80),
    (21, 0.85),
    (14, 0.90),
)  # days away -> share of the load (ours; strength itself falls less)
_EASY_RIR = Decimal(3)  # reps left over in a week that is easy on purpose (common practice)
_PAIN_SHARE = 0.8  # of the load that hurt, once the slot may be done again (ours)
_FAR_UNDER = 0.12  # a setting that lies so much further down than was meant is no lighter week, but a different exercise (ours)
_FALL = 0.02  # ln capacity a week on the average of the sets: about one rep
# The order in which one word stands for a slot whose sets got different advice.
_LOUDEST = (
    Kind.EASE, Kind.ADD_LOAD, Kind.NEXT_BAND, Kind.LESS_HELP, Kind.ADD_HOLD_LOAD, Kind.ADD_BOTH, Kind.HARDER_VARIATION, Kind.SLOWER,
    Kind.LONGER_PAUSE, Kind.PARTIALS, Kind.ADD_REPS, Kind.ADD_TIME, Kind.ADD_DISTANCE, Kind.HOLD,
)  # fmt: skip


def suggest(case: SlotCase) -> Suggestion:
    """Next week's advice for one slot: targets a set, why, what to expect, and what the coach should hear. Never raises for odd history."""
    return look_at(case)[0]


def look_at(case: SlotCase) -> tuple[Suggestion, Scene]:
    """The suggestion beside everything that it was made from, so that a review need not work it out again."""
    case = replace(case, slot=slot_in_week(case.slot, case.week))
    case = _without(case, standing_slips(_mine(case, case.history[:-1])))
    slips = _slips(case)
    scene = scene_of(_without(case, [slip.record for slip in slips]))
    return _suggestion(scene, slips), scene


def _suggestion(scene: Scene, slips: Sequence[Slip]) -> Suggestion:
    case = scene.case
    question = slip_questions(slips)
    decision, note = _decide(scene, slips)
    aims = with_drops(scene, carried_on(scene, decision.aims))
    return Suggestion(
        decision.kind, case.slot.label, aims, decision.reason, exercise_id(case),
        case.exercise.name if case.exercise else case.slot.exercise_name, case.unit, forecasts(scene, aims),
        None if not decision.variation else decision.variation, note, question, case.week,  # type: ignore[arg-type]
    )  # fmt: skip


def _slips(case: SlotCase) -> tuple[Slip, ...]:
    week = last_week(case)
    if week is None:
        return ()
    new = [record for record in _mine(case, (week,)) if not record.painful]
    return find_slips(_mine(case, case.history[:-1]), new)


def _mine(case: SlotCase, weeks: Sequence[WeekOfRecords]) -> list[SetRecord]:
    label = case.slot.label
    return [r for week in weeks for r in week.records if r.place is not None and r.place.label == label]


def _without(case: SlotCase, records: Sequence[SetRecord]) -> SlotCase:
    """The case without some of its records."""
    if not records:
        return case
    bad = {id(record) for record in records}
    weeks = (replace(week, records=tuple(r for r in week.records if id(r) not in bad)) for week in case.history)
    return replace(case, history=tuple(weeks))


def _decide(scene: Scene, slips: Sequence[Slip]) -> tuple[Decision, CoachNote | None]:
    case = scene.case
    if not scene.targets:
        return Decision(Kind.HOLD, (), Reason(Why.NO_RECORDS)), None
    hurts = case.painful or hurts_in(case.history[-2:], case.slot.label)
    if case.override is not None:
        return _coach(scene, hurts)
    if hurts:
        return _after_pain(scene, is_open=case.painful)
    if slips:
        note = CoachNote(NoteCode.SLIP, f"{case.slot.label}: a doubtful entry was asked about and not built on.")
        return _same_again(scene, Kind.ASK_SLIP, Reason(Why.SLIP)), note
    if not scene.sessions or case.week <= 1:
        return by_percent(scene) or _first(scene), None
    away = _days_away(scene)
    if away is not None:
        return _back_in(scene, away), CoachNote(NoteCode.AWAY, f"{case.slot.label}: back after {away} days, starts lighter.")
    if _missed(case):
        return _same_again(scene, Kind.HOLD, Reason(Why.MISSED_WEEK)), None
    if scene.policy is PolicyKind.HOLD:
        return _same_again(scene, Kind.HOLD, Reason(Why.POLICY_HOLD)), None
    if slept_badly(case):
        return _same_again(scene, Kind.HOLD, Reason(Why.POOR_SLEEP)), None
    if _two_falling(scene):
        note = CoachNote(
            NoteCode.FALLING, f"{case.slot.label} {case.slot.exercise_name}: lower two weeks running; a lighter week is set."
        )
        return _lighter_week(scene), note
    return _usual(scene)


def _usual(scene: Scene) -> tuple[Decision, CoachNote | None]:
    fitted = by_percent(scene) or by_new_range(scene)
    if fitted is not None:
        return fitted, None
    groups = groups_of(scene)
    parts = _in_order(scene, groups, [decide(scene, group) for group in groups])
    lead = min(parts, key=lambda part: _LOUDEST.index(part.kind))
    aims = tuple(sorted((aim for part in parts for aim in part.aims), key=lambda aim: aim.number))
    return Decision(lead.kind, aims, lead.reason, lead.variation), _note(scene, lead)


def _in_order(scene: Scene, groups: Sequence[Sequence[Did]], parts: list[Decision]) -> list[Decision]:
    """Where the coach wants the load to change from set to set, no set is raised to the one that should be heavier than it."""
    rule = scene.case.slot.load_rule
    if rule not in (LoadRule.RISES, LoadRule.FALLS):
        return parts
    lighter_first = list(range(len(parts))) if rule is LoadRule.RISES else list(reversed(range(len(parts))))
    for at, above in reversed(list(pairwise(lighter_first))):
        was, now = groups[at][0], parts[at].aims[0].load
        over, limit = groups[above][0], parts[above].aims[0].load
        known = was.kg is not None and over.kg is not None and was.kg < over.kg
        raised = parts[at].kind is Kind.ADD_LOAD and now is not None and limit is not None
        if known and raised and now.kg is not None and limit.kg is not None and now.kg >= limit.kg:  # type: ignore[union-attr]
            told = replace(parts[at].reason, why=Why.KEEPS_ORDER, next_load=now)
            parts[at] = beyond(scene, asked_of(scene, groups[at]), told, wanted=None)
    return parts


def _note(scene: Scene, decision: Decision) -> CoachNote | None:
    label, name = scene.case.slot.label, scene.case.slot.exercise_name
    why, reason = decision.reason.why, decision.reason
    if why is Why.FORM_AGAIN:
        return CoachNote(NoteCode.BELOW, f"{label} {name}: form gave way with {_load(reason.load)}; eased.")
    if why is Why.NOTHING_LIGHTER:
        return CoachNote(
            NoteCode.BELOW, f"{label} {name}: below the range with {_load(reason.load)}, and nothing lighter to hand."
        )
    if why is Why.BELOW:
        return CoachNote(NoteCode.BELOW, f"{label} {name}: below the range with {_load(reason.load)}; eased.")
    if decision.kind is Kind.HARDER_VARIATION:
        return CoachNote(NoteCode.TOO_COARSE, f"{label} {name}: outgrown with {_load(reason.load)}; {reason.words} was offered.")
    if decision.kind in (Kind.SLOWER, Kind.LONGER_PAUSE, Kind.PARTIALS) and why is not Why.POLICY_TEMPO:
        return CoachNote(NoteCode.TOO_COARSE, f"{label} {name}: the kit has no fitting next step after {_load(reason.load)}.")
    if reason.left and reason.right and abs(reason.left - reason.right) >= 0.2 * max(reason.left, reason.right):
        return CoachNote(NoteCode.UNEVEN, f"{label} {name}: sides apart, left {reason.left}, right {reason.right}.")
    if why is Why.STANDING_STILL:
        more = {Measure.REPS: "a rep", Measure.SECONDS: "a second"}.get(scene.measure, "a step")
        text = f"{label} {name}: {reason.weeks} sessions without {more} more at {_load(reason.load)}."
        return CoachNote(NoteCode.STALLED, text)
    return None


def _load(load: Load | None) -> str:
    return say_load_within(load) if load is not None else "no load said"


def _coach(scene: Scene, hurts: bool) -> tuple[Decision, CoachNote | None]:
    said = scene.case.override
    assert said is not None
    last = scene.last if scene.sessions else None
    heaviest = max((did.kg for did in last.sets if did.kg is not None), default=None) if last else None
    raises = said.load is not None and said.load.kg is not None and (heaviest is None or said.load.kg > heaviest)
    if hurts and not said.knows_of_pain and (raises or said.load is None):
        decision, _ = _after_pain(scene, is_open=scene.case.painful)
        return decision, CoachNote(
            NoteCode.OVERRIDE_WAITS, f"{scene.case.slot.label}: your target waits, pain was reported. Confirm it to set it."
        )
    aims = []
    for number, target in enumerate(scene.targets, 1):
        did = last.set(number) if last else None
        low = said.low if said.low is not None else target.low
        high = said.high if said.high is not None else said.low if said.low is not None else target.high
        load = said.load or (did.load if did else None) or target.load
        aim = did.count if said.hold and did else low
        aims.append(replace(aim_for(scene, number, low, high, aim, load), tempo=said.tempo or scene.tempo(number)))
    return Decision(Kind.COACH_SAYS, tuple(aims), Reason(Why.COACH, next_load=said.load, words=said.note)), None


def _same_again(scene: Scene, kind: Kind, reason: Reason) -> Decision:
    """Last session's loads and counts once more: no more than was done, and no more than the top of the range."""
    if not scene.sessions:
        return replace(_first(scene), kind=kind, reason=reason)
    aims = []
    weakest = max(1, min(scene.last.counts))
    for did in scene.last.sets:
        target = target_at(scene, did.number)
        aim = max(1, did.count if target.high is None else min(did.count, target.high))
        low = target.low if target.low is None else min(target.low, weakest)
        aims.append(aim_for(scene, did.number, low, target.high, aim, did.load))
    first = scene.last.sets[0]
    return Decision(kind, tuple(aims), replace(reason, counts=scene.last.said, load=first.load, measure=scene.measure))


def _cut(scene: Scene, share: float, count_share: float, kind: Kind, reason: Reason, *, at_any_price: bool = False) -> Decision:
    """Loads at a share of last time's, counts at the low end and never above last time's."""
    aims = []
    for did in scene.last.sets:
        target = target_at(scene, did.number)
        load = _lighter_load(scene, did.load, share, at_any_price=at_any_price)
        top = did.count if load != did.load else max(1, int(did.count * count_share))
        low = min(target.low or top, top)
        aim = aim_for(scene, did.number, low, max(low, min(target.high or top, top)), low, load)
        aims.append(replace(aim, rir=_EASY_RIR if scene.measure is Measure.REPS else None))
    first = scene.last.sets[0]
    return Decision(
        kind,
        tuple(aims),
        replace(reason, counts=scene.last.said, load=first.load, next_load=aims[0].load, measure=scene.measure),
    )


def _lighter_load(scene: Scene, load: Load | None, share: float, *, at_any_price: bool) -> Load | None:
    """The setting at or under a share of the load. Where the kit's next one lies far under it, the load stays and the counts give,

    unless it has to be lighter at any price (pain).
    """
    if load is None or load.amount is None or load.kind is LoadKind.ASSISTED:
        easier = scene.down(load)
        return easier[0] if easier else load
    found = at_most(share, load, ladder_for(load, scene.case.kit, scene.case.exercise, scene.case.slot.kit), scene.case.exercise)
    too_far = (
        load.kind is LoadKind.IMPLEMENT and found.amount is not None and float(found.amount / load.amount) < share - _FAR_UNDER
    )
    return load if too_far and not at_any_price else found


def _after_pain(scene: Scene, *, is_open: bool) -> tuple[Decision, CoachNote]:
    label = scene.case.slot.label
    note = CoachNote(NoteCode.PAIN, f"{label} {scene.case.slot.exercise_name}: pain reported; nothing is raised.")
    reason = Reason(Why.PAIN_OPEN if is_open else Why.PAIN_LATELY, measure=scene.measure)
    hurt = [
        record.done.load
        for week in scene.case.history[-2:]
        for record in week.records
        if record.painful and record.place and record.place.label == label and record.done.load
    ]
    if not scene.sessions:
        return _from_painful_sets(scene, hurt, reason), note
    # What was eased for this pain already and went well is not eased once more, week after week.
    eases = is_open and not _is_eased_for_pain(scene)
    share, count_share = (_PAIN_SHARE, 0.6) if eases else (1.0, 1.0)
    decision = _cut(scene, share, count_share, Kind.AFTER_PAIN, reason, at_any_price=eases)
    # The first week after it hurt stays clearly under what hurt, the next one at most there.
    fresh = Decimal(repr(_PAIN_SHARE)) if hurts_in(scene.case.history[-1:], label) else Decimal(1)
    painful = {load.kg * fresh for load in hurt if load.kg}
    capped = tuple(_no_heavier(scene, aim, painful) for aim in decision.aims)
    return replace(decision, aims=capped, reason=replace(decision.reason, next_load=capped[0].load)), note


def _is_eased_for_pain(scene: Scene) -> bool:
    """Did the last advice ease this slot for pain, and was no more than that done since, without pain?"""
    before = scene.case.before
    if before is None or before.kind is not Kind.AFTER_PAIN or hurts_in(scene.case.history[-1:], scene.case.slot.label):
        return False
    aims = {aim.number: aim for aim in before.sets}
    pairs = [(did, aims.get(did.number)) for did in scene.last.sets]
    return all(
        aim is not None and (did.kg is None or aim.load is None or aim.load.kg is None or did.kg <= aim.load.kg)
        for did, aim in pairs
    )


def _from_painful_sets(scene: Scene, hurt: Sequence[Load], reason: Reason) -> Decision:
    """Only painful sets are known: the low end, four reps left over, with clearly less than what hurt."""
    lightest = min(hurt, key=lambda load: load.kg or Decimal(0), default=None)
    load = None if lightest is None else _lighter_load(scene, lightest, _PAIN_SHARE, at_any_price=True)
    aims = tuple(
        replace(aim_for(scene, n, target.low, target.high, target.low, load), rir=Decimal(4))
        for n, target in enumerate(scene.targets, 1)
    )
    return Decision(Kind.AFTER_PAIN, aims, replace(reason, next_load=load))


def _no_heavier(scene: Scene, aim: SetAim, painful: set[Decimal]) -> SetAim:
    """Never above a limit taken from the lightest load that hurt. painful: kilograms."""
    if (
        aim.load is None
        or aim.load.kg is None
        or not painful
        or aim.load.kg <= min(painful)
        or aim.load.kind is LoadKind.ASSISTED
    ):
        return aim
    ladder = ladder_for(aim.load, scene.case.kit, scene.case.exercise, scene.case.slot.kit)
    return replace(aim, load=at_most(float(min(painful) / aim.load.kg), aim.load, ladder, scene.case.exercise))


def _first(scene: Scene) -> Decision:
    """Week 1 is for getting used to the block: never above what was done before, three reps in reserve."""
    why = Why.WEEK_ONE if scene.case.week <= 1 else Why.NO_RECORDS
    aims = []
    for number, target in enumerate(scene.targets, 1):
        did = scene.last.set(number) or scene.last.sets[-1] if scene.sessions else None
        load = target.load or (did.load if did else None)
        if did is not None and target.load is None and load is not None and target.low is not None:
            for step in (load, *scene.down(load)):
                load = step
                seen = scene.outlook.expect(number, step, week=scene.week)
                if seen is not None and seen[0] >= target.low + 2:
                    break
        rir = target.rir if target.rir is not None else _EASY_RIR
        aims.append(replace(aim_for(scene, number, target.low, target.high, target.low, load), rir=rir))
    body = scene.case.exercise is not None and scene.case.exercise.load_style in (LoadStyle.BODY, LoadStyle.NONE)
    reason = Reason(
        why, load=BODY_WEIGHT if body else None, next_load=aims[0].load if aims else None, rir=aims[0].rir if aims else None,
        measure=scene.measure,
    )  # fmt: skip
    return Decision(Kind.FIRST_WEEK, tuple(aims), reason)


def _days_away(scene: Scene) -> int | None:
    case = scene.case
    if case.days_away is not None:
        return case.days_away if case.days_away >= AWAY_DAYS else None
    since = (scene.on - scene.last.on).days
    # A session a week ago is no absence, and one missed week makes fourteen days between two sessions.
    return since - 7 if since >= AWAY_DAYS + 7 else None


def _missed(case: SlotCase) -> bool:
    week = last_week(case)
    return week is None or week.missed or not has_usable(week, case)


def _back_in(scene: Scene, days: int) -> Decision:
    share = next(share for least, share in _BACK_SHARES if days >= least)
    return _cut(scene, share, share - 0.1, Kind.BACK_IN, Reason(Why.AWAY, days=days, percent=round((1 - share) * 100)))


def _lighter_week(scene: Scene) -> Decision:
    return _cut(scene, 0.9, 0.85, Kind.EASE, Reason(Why.TWO_FALLING, weeks=2))


def _two_falling(scene: Scene) -> bool:
    """Lower twice running on the sets that all three sessions share, and not at the top of the range now.

    Bad nights, a slower tempo and a week that was made lighter on purpose do not count; neither does a reserve, which is told one week and not
    the next.
    """
    before = scene.case.before
    eased = before is not None and before.kind in (Kind.EASE, Kind.BACK_IN, Kind.AFTER_PAIN, Kind.COACH_SAYS)
    if len(scene.sessions) < 3 or eased or any(week.poor_sleep for week in scene.case.history[-2:]) or slowed_from(scene):
        return False
    by_number = [{did.number: did for did in session.sets} for session in scene.sessions[-3:]]
    shared = set(by_number[0]) & set(by_number[1]) & set(by_number[2])
    if not shared or all(_at_top(scene, by_number[2][n]) for n in shared):
        return False
    scale = 1.0 if scene.measure is Measure.REPS else 2.0  # a hold's time moves twice as much as strength does
    levels = [mean(log(scene.outlook.counted(sets[n])) / scale for n in shared) for sets in by_number]
    return levels[1] <= levels[0] - _FALL and levels[2] <= levels[1] - _FALL


def _at_top(scene: Scene, did: Did) -> bool:
    high = target_at(scene, did.number).high
    return high is not None and did.count >= high
