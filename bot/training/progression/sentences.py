"""How is a suggestion said to the member? One sentence for the reason, one line for the targets, in own numbers and own unit."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal

from bot.training.blocks import Measure, Sides
from bot.training.loads import Load, say_amount, say_load
from bot.training.prescriptions import say_range
from bot.training.progression.values import Kind, Reason, SetAim, Suggestion, Why

_UNITS = {Measure.REPS: "reps", Measure.SECONDS: "s", Measure.STEPS: "steps", Measure.METRES: "m"}


def target_words(suggestion: Suggestion, *, short: bool = False) -> str:
    """ "22.5 kg: 8, 8, 8 (range 8-12)"; sets with other loads or tempos one after the other. short: without the range."""
    runs: list[list[SetAim]] = []
    for aim in suggestion.sets:
        if runs and (runs[-1][0].load, runs[-1][0].tempo, runs[-1][0].low, runs[-1][0].high) == (
            aim.load,
            aim.tempo,
            aim.low,
            aim.high,
        ):
            runs[-1].append(aim)
        else:
            runs.append([aim])
    return "; ".join(_run(run, short=short) for run in runs)


def _run(run: list[SetAim], *, short: bool) -> str:
    first = run[0]
    unit = {Measure.REPS: "", Measure.SECONDS: " s", Measure.STEPS: " steps", Measure.METRES: " m"}[first.measure]
    aims = ", ".join("max" if aim.aim is None else f"{aim.aim}{'+' if aim.amrap else ''}" for aim in run)
    span = say_range(first.low, first.high)
    words = f"{say_load(first.load)}: " if first.load is not None else ""
    words += aims + unit + (f" (range {span})" if span and not short and first.low != first.high and not first.amrap else "")
    words += " each side" if first.sides is not Sides.BOTH else ""
    words += f", tempo {first.tempo}" if first.tempo is not None else ""
    words += f", then {run[-1].partials.count} partials" if run[-1].partials is not None and run[-1].partials.count else ""
    return words


def question_sentence(suggestion: Suggestion) -> str:
    """What has to be asked, "" if nothing."""
    return suggestion.question


def reason_sentence(suggestion: Suggestion) -> str:
    """Why, in one sentence with the member's own numbers."""
    return _SAY[suggestion.reason.why](suggestion, suggestion.reason)


def _did(r: Reason) -> str:
    """ "12, 12, 12 with 20 kg", "45, 40 s"."""
    counts = ", ".join(str(count) for count in r.counts) + ("" if r.measure is Measure.REPS else f" {_UNITS[r.measure]}")
    return counts + (f" with {_with(r.load)}" if r.load is not None else "")


def _with(load: Load | None) -> str:
    return say_load(load) if load is not None else "the same load"


def _span(r: Reason) -> str:
    span = say_range(r.low, r.high)
    return f"{span} {_UNITS[r.measure]}" if span else "what is asked"


def _go(s: Suggestion) -> str:
    return ", ".join(str(aim.aim) for aim in s.sets if aim.aim is not None)


def _to(r: Reason) -> str:
    return _with(r.next_load) + (f" ({r.percent:+d}%)" if r.percent else "")


def _up(s: Suggestion, r: Reason) -> str:
    return f"You did {_did(r)}, the top of {_span(r)}: go to {_to(r)} and start near the low end, {_go(s)}."


def _coarse(s: Suggestion, r: Reason) -> str:
    """Kit too coarse, by what is done instead."""
    if r.why is Why.NOTHING_HEAVIER:
        head = f"You did {_did(r)}, the top of {_span(r)}, and your kit has nothing heavier for it"
    elif r.why is Why.BAND_STEP:
        head = f"You did {_did(r)}, the top of {_span(r)}, but bands step up a lot and {_with(r.next_load)} would likely cut you below it"
    else:
        head = f"You did {_did(r)}, but {_to(r)} would likely give you only about {r.expected}"
    return f"{head}: {_instead(s, r)}."


def _instead(s: Suggestion, r: Reason) -> str:
    if s.kind is Kind.SLOWER:
        return f"lower more slowly first, tempo {r.tempo}"
    if s.kind is Kind.LONGER_PAUSE:
        return f"pause longer at the bottom first, tempo {r.tempo}"
    if s.kind is Kind.PARTIALS:
        return "add a few part-range reps after the last set first"
    if s.kind is Kind.HARDER_VARIATION:
        return f"try {r.words}, or keep these reps"
    if s.kind is Kind.HOLD:
        return "keep it, your coach is told"
    wanted = f", and {r.wanted} bring the step into reach" if r.wanted else ""
    return f"stay and go for {_go(s)}{wanted}"


def _more(s: Suggestion, r: Reason) -> str:
    return (
        f"You did {_did(r)}, inside {_span(r)}: same load, go for {_go(s)}." if r.high else f"You did {_did(r)}: go for {_go(s)}."
    )


def _weaker(s: Suggestion, r: Reason) -> str:
    side = "left" if (r.left or 0) < (r.right or 0) else "right"
    return f"Left {r.left}, right {r.right}: the {side} side leads, go for {_go(s)} and let the other match it."


_SAY: Mapping[Why, Callable[[Suggestion, Reason], str]] = {
    Why.TOPPED: _up,
    Why.RESERVE: lambda s, r: f"You did {_did(r)} with reps to spare, as good as the top of {_span(r)}: go to {_to(r)}, about {_go(s)}.",
    Why.FAR_TOO_LIGHT: lambda s, r: f"You did {_did(r)}, far past {_span(r)}: go to {_to(r)}, about {_go(s)}.",
    Why.TWO_FOR_TWO: lambda s, r: f"Two weeks running your last set was two or more above {r.high} with {_with(r.load)}: go to {_to(r)}, {_go(s)}.",
    Why.LOW_IN_RANGE: _more,
    Why.IN_BETWEEN: _more,
    Why.SOME_SETS_TOPPED: lambda s, r: f"You did {_did(r)}, some sets at the top of {_span(r)}: same load until all are, go for {_go(s)}.",
    Why.FINE_STEP: lambda s, r: f"You did {_did(r)}, well inside {_span(r)}: a small step to {_to(r)} at the same reps, {_go(s)}.",
    Why.STEP_TOO_BIG: _coarse,
    Why.NOTHING_HEAVIER: _coarse,
    Why.BAND_STEP: _coarse,
    Why.PAST_TARGET: lambda s, r: f"You did {_did(r)}, past the target of {r.high} {_UNITS[r.measure]}: take {_with(r.next_load)} and start at {_go(s)}.",
    Why.WEAKER_SIDE: _weaker,
    Why.BELOW_ONCE: lambda s, r: f"You did {_did(r)}, a little under {_span(r)}: same load once more, go for {_go(s)}.",
    Why.BELOW: lambda s, r: f"You did {_did(r)}, under {_span(r)}: go down to {_with(r.next_load)} and do clean sets of {_go(s)}.",
    Why.NOTHING_LIGHTER: lambda s, r: f"You did {_did(r)}, under {_span(r)}, and there is nothing lighter: build up from there, {_go(s)}.",
    Why.TWO_FALLING: lambda s, r: f"It went down two weeks running, last {_did(r)}: a lighter week with {_with(r.next_load)}, then up again.",
    Why.EFFORT_HIGH: lambda s, r: f"You did {_did(r)} with {_rir(r)} left, harder than planned: same again until it is easier.",
    Why.FORM: lambda s, r: f"You did {_did(r)}, not quite as clean as planned: same again, form first.",
    Why.MISSED_WEEK: lambda s, r: f"Last week did not happen here, so take up where you were: {_did(r)}.",
    Why.AWAY: lambda s, r: f"{r.days} days away: start lighter with {_with(r.next_load)}, about {_go(s)}, three reps in reserve; it comes back fast.",
    Why.POOR_SLEEP: lambda s, r: f"You slept badly: same as last time ({_did(r)}), the next step waits.",
    Why.PAIN_OPEN: lambda s, r: "You reported pain here: leave it out or swap it; if it is free of pain, only light and easy"
    + (f", {_with(r.next_load)}" if r.next_load else "")
    + ", and see a professional if it stays.",
    Why.PAIN_LATELY: lambda s, r: f"There was pain lately: nothing goes up{f', {_with(r.next_load)} at most' if r.next_load else ''}; stop if it hurts.",
    Why.WEEK_ONE: lambda s, r: "Week 1 is for getting used to it: "
    + (f"{_with(r.next_load)}, " if r.next_load else "take a load that leaves ")
    + ("leave three reps in reserve." if r.next_load else "three reps in reserve."),
    Why.NO_RECORDS: lambda s, r: "There is nothing on record here yet: take a load that leaves three reps in reserve.",
    Why.LOAD_UNKNOWN: lambda s, r: f"You did {_did(r)}, the top of {_span(r)}; send the weight as well next time, then the next step can be worked out.",
    Why.POLICY_HOLD: lambda s, r: f"Your coach wants this kept as it is: {_did(r)}.",
    Why.POLICY_REPS: lambda s, r: f"You did {_did(r)}: your coach wants more reps here, not more load, so go for {_go(s)}.",
    Why.POLICY_TEMPO: lambda s, r: f"You did {_did(r)}: your coach wants slower before heavier, so tempo {r.tempo} now.",
    Why.WAIT_FOR_LOAD: lambda s, r: f"You did {_did(r)}: keep it until {_with(r.next_load) if r.next_load else 'more load'} is in reach.",
    Why.COACH: lambda s, r: "Your coach set this for you" + (f": {r.words.rstrip('.')}." if r.words else "."),
    Why.SLIP: lambda s, r: f"One entry looks like a slip, so nothing is built on it: {r.words}",
    Why.PERCENT: lambda s, r: f"The plan asks for a share of your best single: {_with(r.next_load)}.",
}  # fmt: skip


def _rir(r: Reason) -> str:
    return say_amount(r.rir) if r.rir is not None else say_amount(Decimal(0))
