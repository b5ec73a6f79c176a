"""Why? Every rule's one sentence for the member, with the member's own numbers in the member's own unit."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal

from bot.training.blocks import Measure
from bot.training.loads import Load, LoadKind, say_amount, say_load_within
from bot.training.prescriptions import UNIT_WORDS, say_range
from bot.training.progression.values import Kind, Reason, Suggestion, Why

_NUMBER_WORDS = {Decimal(0): "no", Decimal(1): "one", Decimal(2): "two", Decimal(3): "three", Decimal(4): "four"}


def reason_sentence(suggestion: Suggestion) -> str:
    """Why, in one sentence with the member's own numbers."""
    return _SAY[suggestion.reason.why](suggestion, suggestion.reason)


def _did(r: Reason) -> str:
    """ "You did 12, 12, 12 with 20 kg", "You did 45, 40 s with body weight", "You did 12 on set 3 with a pair of 10 kg"."""
    counts = ", ".join(str(count) for count in r.counts) + ("" if r.measure is Measure.REPS else f" {UNIT_WORDS[r.measure]}")
    side = f" on the weaker {_weaker_side(r)} side" if r.left is not None and r.right is not None else ""
    return f"You did {counts}{side}{_on(r)}" + (f" with {_with(r.load)}" if r.load is not None else "")


def _on(r: Reason) -> str:
    """Which sets, where the others get another answer."""
    if not r.numbers:
        return ""
    listed = ", ".join(map(str, r.numbers[:-1])) + (" and " if len(r.numbers) > 1 else "") + str(r.numbers[-1])
    return f" on set{'s' if len(r.numbers) > 1 else ''} {listed}"


def _weaker_side(r: Reason) -> str:
    return "left" if (r.left or 0) < (r.right or 0) else "right"


def _with(load: Load | None) -> str:
    return say_load_within(load) if load is not None else "the same load"


def _asked(r: Reason) -> str:
    span = say_range(r.low, r.high)
    unit = UNIT_WORDS[r.measure]
    one = span == "1" and r.measure in (Measure.REPS, Measure.STEPS)
    return f"{span} {unit.removesuffix('s') if one else unit}" if span else "what is asked"


def _top(r: Reason) -> str:
    return f"the top of {_asked(r)}" if r.low != r.high else f"all {_asked(r)}" if r.low is not None else "all that is asked"


def _go(s: Suggestion) -> str:
    """The counts to go for, of the sets spoken of, with their unit."""
    meant = [aim for aim in s.sets if aim.aim is not None and (not s.reason.numbers or aim.number in s.reason.numbers)]
    unit = "" if not meant or meant[0].measure is Measure.REPS else f" {UNIT_WORDS[meant[0].measure]}"
    return ", ".join(str(aim.aim) for aim in meant) + unit


def _to(r: Reason) -> str:
    return _with(r.next_load) + (f" ({r.percent:+d}%)" if r.percent else "")


def _up(s: Suggestion, r: Reason) -> str:
    start = f" and start near the low end, {_go(s)}" if r.low != r.high else f" for {_go(s)}"
    return f"{_did(r)}, {_top(r)}: go to {_to(r)}{start}."


def _too_light(s: Suggestion, r: Reason) -> str:
    if r.low is not None:
        return f"{_did(r)}, far past {_asked(r)}: go to {_to(r)}, about {_go(s)}."
    return f"{_did(r)}; from here weight does more than reps: go to {_to(r)}, about {_go(s)}."


def _coarse(s: Suggestion, r: Reason) -> str:
    """Kit too coarse, by what is done instead."""
    return f"{_did(r)}, {_hindrance(r)}: {_instead(s, r)}."


def _hindrance(r: Reason) -> str:
    if r.why is Why.NOTHING_HEAVIER and r.high is None:
        return "so many that this is too easy now, and your kit has nothing heavier for it"
    if r.why is Why.NOTHING_HEAVIER:
        return f"{_top(r)}, and your kit has nothing heavier for it"
    if r.why is Why.BAND_ORDER_UNKNOWN:
        return f"{_top(r)}, and which band comes next is not known here"
    if r.why is Why.BAND_STEP:
        return f"{_top(r)}, but bands step up a lot and {_with(r.next_load)} would likely cut you below it"
    if r.expected is None:
        return f"{_top(r)}, but {_to(r)} is too big a step yet"
    if r.low is not None and r.expected >= r.low:
        return f"but {_to(r)} would likely put you at the very bottom of {_asked(r)}"
    return f"but {_to(r)} would likely give you " + (f"only about {r.expected}" if r.expected > 1 else "hardly any")


def _instead(s: Suggestion, r: Reason) -> str:
    if s.kind is Kind.SLOWER:
        return f"lower more slowly first, tempo {r.tempo}"
    if s.kind is Kind.LONGER_PAUSE:
        return f"pause longer at the bottom first, tempo {r.tempo}"
    if s.kind is Kind.PARTIALS:
        return "add a few part-range reps after the last set first"
    if s.kind is Kind.HARDER_VARIATION:
        return f"try {r.words}, or stay with this"
    if s.kind is Kind.HOLD:
        return "keep it as it is, your coach is told"
    every = " on every set" if len(r.counts) > 1 else ""
    wanted = f"; at {r.wanted}{every} the step is within reach" if r.wanted and r.wanted > _most(s) else ""
    return f"stay with it and go for {_go(s)}{wanted}"


def _most(s: Suggestion) -> int:
    return max((aim.aim or 0 for aim in s.sets), default=0)


def _more(s: Suggestion, r: Reason) -> str:
    return f"{_did(r)}, inside {_asked(r)}: same load, go for {_go(s)}." if r.high else f"{_did(r)}: go for {_go(s)}."


def _weaker(s: Suggestion, r: Reason) -> str:
    return f"Left {r.left}, right {r.right}: the {_weaker_side(r)} side leads, go for {_go(s)} and let the other match it."


def _rest_longer(s: Suggestion, r: Reason) -> str:
    return f"{_did(r)}, a steep drop from set to set: same load, rest a minute longer in between, go for {_go(s)}."


_MORE = {
    Measure.REPS: "more reps", Measure.SECONDS: "more time", Measure.STEPS: "more steps", Measure.METRES: "more distance",
}  # fmt: skip


def _missing(s: Suggestion, r: Reason) -> str:
    left_out = len(s.sets) - len(r.counts)
    return f"{left_out} of {len(s.sets)} sets {'is' if left_out == 1 else 'are'} missing"


def _down_to(r: Reason) -> str:
    helped = r.next_load is not None and r.next_load.kind is LoadKind.ASSISTED
    return f"take {_with(r.next_load)}" if helped else f"go down to {_with(r.next_load)}"


def _under(r: Reason) -> str:
    return f"under {_asked(r)}" if r.low is not None or r.high is not None else "too few to build on"


def _nothing_lighter(s: Suggestion, r: Reason) -> str:
    offer = f"{r.words}, or " if r.words else ""
    return f"{_did(r)}, under {_asked(r)}, and there is nothing lighter: {offer}build up from here, {_go(s)}."


def _away(s: Suggestion, r: Reason) -> str:
    helped = r.next_load is not None and r.next_load.kind is LoadKind.ASSISTED
    start = (
        f"start {'with more help' if helped else 'lighter'}, {_with(r.next_load)}" if r.next_load != r.load else "start with less"
    )
    return f"{r.days} days away: {start}, about {_go(s)}, and {_easy(r)}; it comes back fast."


def _easy(r: Reason) -> str:
    """How an easy set is told from a hard one: reps in reserve where reps are counted."""
    if r.measure is not Measure.REPS:
        return "stop well before you have to"
    return f"leave {_reserve(r)} in reserve"


def _reserve(r: Reason) -> str:
    """ "three reps", "1.5 reps"; three where no number was given."""
    if r.rir is None:
        return "three reps"
    return f"{_NUMBER_WORDS.get(r.rir) or say_amount(r.rir)} rep{'' if r.rir == 1 else 's'}"


def _pain_open(s: Suggestion, r: Reason) -> str:
    light = f" with {_with(r.next_load)}" if r.next_load and r.next_load.kind is not LoadKind.BODY else ""
    return (
        f"You reported pain here. Leave it out or swap it until your coach lets it go on; after that, start light{light}. "
        "See a professional if the pain stays."
    )


def _pain_lately(s: Suggestion, r: Reason) -> str:
    at_most = f", {_with(r.next_load)} at most" if r.next_load and r.next_load.kind is not LoadKind.BODY else ""
    return f"There was pain here lately: nothing goes up yet{at_most}. Stop if it hurts, and say so."


def _week_one(s: Suggestion, r: Reason) -> str:
    if r.next_load is None:
        return f"Week 1 is for getting used to it: {_choose(r)}."
    return f"Week 1 is for getting used to it: {_with(r.next_load)}, and {_easy(r)}."


def _choose(r: Reason) -> str:
    """How to find a first load; with the body alone there is none to choose."""
    if r.load is not None and r.load.kind is LoadKind.BODY:
        return _easy(r)
    return f"take a load that leaves {_reserve(r)} in reserve" if r.measure is Measure.REPS else f"start light, and {_easy(r)}"


def _percent(s: Suggestion, r: Reason) -> str:
    return f"The plan asks for {r.percent}% of your best single, which your sets put at {r.words}: {_with(r.next_load)}."


def _percent_unknown(s: Suggestion, r: Reason) -> str:
    return (
        f"The plan asks for {r.percent}% of your best single, which is not known yet: take a load that you could lift "
        f"about {r.wanted} times, do {_go(s) or 'the set'} and send it with its weight."
    )


def _two_falling(s: Suggestion, r: Reason) -> str:
    week = f"a lighter week with {_with(r.next_load)}" if r.next_load != r.load else "an easier week"
    return f"It went down two weeks running, last time {_bare(r)}: {week}, then up again."


def _left(r: Reason) -> str:
    return f"{say_amount(r.rir)} rep{'' if r.rir == 1 else 's'}" if r.rir else "nothing"


def _goal(r: Reason) -> str:
    if r.high is None:
        return "its goal"
    return str(r.high) if r.measure is Measure.REPS else f"{r.high} {UNIT_WORDS[r.measure]}"


def _last_set(r: Reason) -> str:
    return f"set {r.numbers[-1]}" if r.numbers else "your last set"


def _bare(r: Reason) -> str:
    return _did(r).removeprefix("You did ")


_SAY: Mapping[Why, Callable[[Suggestion, Reason], str]] = {
    Why.TOPPED: _up,
    Why.RESERVE: lambda s, r: f"{_did(r)} and had reps to spare, which is as good as {_top(r)}: go to {_to(r)}, about {_go(s)}.",
    Why.FAR_TOO_LIGHT: _too_light,
    Why.TWO_FOR_TWO: lambda s, r: f"Two weeks running {_last_set(r)} was two or more above {_goal(r)} with {_with(r.load)}: go to {_to(r)} for {_go(s)}.",
    Why.LOW_IN_RANGE: _more,
    Why.IN_BETWEEN: _more,
    Why.SOME_SETS_TOPPED: lambda s, r: f"{_did(r)}, some sets at the top of {_asked(r)}: same load until all are, go for {_go(s)}.",
    Why.SETS_LEFT_OUT: lambda s, r: f"{_did(r)}, at the top, but {_missing(s, r)}: same load, all {len(s.sets)} sets, {_go(s)}.",
    Why.BACK_UP: lambda s, r: f"{_did(r)} after the lighter week: back to {_to(r)}, about {_go(s)}.",
    Why.ONE_SIDE: lambda s, r: f"{_did(r)}, with one side only on record: do both and send both, {_go(s)}.",
    Why.SAME_LOAD_FIRST: lambda s, r: f"{_did(r)}, and the other sets were lighter: bring them up to it before it goes up, {_go(s)}.",
    Why.STANDING_STILL: lambda s, r: f"{_did(r)}, no rep more in {r.weeks} sessions: rest a minute longer before each set and go for {_go(s)}; your coach is told.",
    Why.FINE_STEP: lambda s, r: f"{_did(r)}, well inside {_asked(r)}: a small step to {_to(r)} at the same reps, {_go(s)}.",
    Why.STEP_TOO_BIG: _coarse,
    Why.NOTHING_HEAVIER: _coarse,
    Why.BAND_STEP: _coarse,
    Why.BAND_ORDER_UNKNOWN: _coarse,
    Why.ONCE_MORE: lambda s, r: f"{_did(r)}, two above the goal: the same once more, then {_to(r)} is next.",
    Why.THE_JUMP: lambda s, r: f"{_did(r)}, and every other way is used up: take {_to(r)} for about {_go(s)} clean ones and build up from there.",
    Why.PAST_TARGET: lambda s, r: f"{_did(r)}, the whole target: take {_with(r.next_load)} and start at {_go(s)}.",
    Why.LONGER: lambda s, r: f"{_did(r)}, {_top(r)}: a little longer first, {_go(s)}, then weight.",
    Why.BUILD_UP: lambda s, r: f"{_did(r)}, on the way to {_asked(r)}: same load, go for {_go(s)}.",
    Why.WEAKER_SIDE: _weaker,
    Why.BELOW_ONCE: lambda s, r: f"{_did(r)}, a little under {_asked(r)}: same load once more, go for {_go(s)}.",
    Why.CLIMBING: lambda s, r: f"{_did(r)}, more than the time before and nearly in {_asked(r)}: same load, go for {_go(s)}.",
    Why.REST_LONGER: _rest_longer,
    Why.KEEPS_ORDER: lambda s, r: f"{_did(r)}, {_top(r)}, but {_with(r.next_load)} belongs to the next set still: go for {_go(s)}.",
    Why.BELOW: lambda s, r: f"{_did(r)}, {_under(r)}: {_down_to(r)} and do clean sets of {_go(s)}.",
    Why.NOTHING_LIGHTER: _nothing_lighter,
    Why.TWO_FALLING: _two_falling,
    Why.EFFORT_HIGH: lambda s, r: f"{_did(r)} and had {_left(r)} left, harder than planned: same again until it is easier.",
    Why.FORM: lambda s, r: f"{_did(r)}, not quite as clean as planned: same again, form first.",
    Why.FORM_AGAIN: lambda s, r: f"{_did(r)}, and form gave way: {_down_to(r)} and do clean sets of {_go(s)}.",
    Why.MISSED_WEEK: lambda s, r: f"Not done last week, so take it up where you were: {_bare(r)}.",
    Why.AWAY: _away,
    Why.POOR_SLEEP: lambda s, r: f"You slept badly: same as last time ({_bare(r)}), the next step waits.",
    Why.PAIN_OPEN: _pain_open,
    Why.PAIN_LATELY: _pain_lately,
    Why.WEEK_ONE: _week_one,
    Why.NO_RECORDS: lambda s, r: f"Nothing is on record here yet: {_choose(r)}.",
    Why.LOAD_UNKNOWN: lambda s, r: f"{_did(r)}, {_top(r)}; send the weight as well next time, then the next step can be worked out.",
    Why.NEW_RANGE: lambda s, r: f"{_did(r)}; this week asks for {_asked(r)}, so {_with(r.next_load)}, about {_go(s)}.",
    Why.POLICY_HOLD: lambda s, r: f"Your coach wants this kept as it is: {_bare(r)}.",
    Why.POLICY_REPS: lambda s, r: f"{_did(r)}: your coach wants {_MORE[r.measure]} here, not more load, so go for {_go(s)}.",
    Why.POLICY_LOAD: lambda s, r: f"{_did(r)}: your coach wants load before reps here, so go to {_to(r)}, about {_go(s)}.",
    Why.POLICY_TEMPO: lambda s, r: f"{_did(r)}: your coach wants slower before heavier, so take tempo {r.tempo} now.",
    Why.WAIT_FOR_LOAD: lambda s, r: f"{_did(r)}: keep it until {_with(r.next_load) if r.next_load else 'more load'} is in reach.",
    Why.COACH: lambda s, r: "Your coach set this for you" + (f": {r.words.rstrip('.')}." if r.words else "."),
    Why.SLIP: lambda s, r: "An entry here looks like a slip, so nothing is built on it until you say what it was" + (f"; {_bare(r)} stands." if r.counts else "."),
    Why.PERCENT: _percent,
    Why.PERCENT_UNKNOWN: _percent_unknown,
}  # fmt: skip
