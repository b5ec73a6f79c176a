"""How is a target said to the member? One line, in own numbers and own unit."""

from __future__ import annotations

from bot.training.blocks import Drop, Measure, Sides
from bot.training.loads import say_load
from bot.training.prescriptions import say_range
from bot.training.progression.values import SetAim, Suggestion


def target_words(suggestion: Suggestion, *, short: bool = False) -> str:
    """ "22.5 kg: 8, 8, 8 (range 8-12)"; sets with other loads or tempos one after the other. short: without the range."""
    runs: list[list[SetAim]] = []
    for aim in suggestion.sets:
        if runs and not runs[-1][-1].drops and _alike(runs[-1][0], aim):
            runs[-1].append(aim)
        else:
            runs.append([aim])
    return "; ".join(_run(run, short=short) for run in runs)


def _alike(a: SetAim, b: SetAim) -> bool:
    return (a.load, a.tempo, a.low, a.high, a.amrap) == (b.load, b.tempo, b.low, b.high, b.amrap)


def _run(run: list[SetAim], *, short: bool) -> str:
    first = run[0]
    unit = {Measure.REPS: "", Measure.SECONDS: " s", Measure.STEPS: " steps", Measure.METRES: " m"}[first.measure]
    aims = ", ".join("max" if aim.aim is None else f"{aim.aim}{'+' if aim.amrap else ''}" for aim in run)
    span = say_range(first.low, first.high)
    words = f"{say_load(first.load)}: " if first.load is not None else ""
    ranged = first.low is not None and first.high is not None and first.low != first.high and not first.amrap
    words += aims + unit + (f" (range {span})" if ranged and not short else "")
    words += " each side" if first.sides is not Sides.BOTH else ""
    words += f", tempo {first.tempo}" if first.tempo is not None else ""
    words += f", then {run[-1].partials.count} partials" if run[-1].partials is not None and run[-1].partials.count else ""
    words += "".join(_drop(drop) for drop in run[-1].drops)
    return words


def _drop(drop: Drop) -> str:
    count = say_range(drop.low, drop.high) or "max"
    cut = say_load(drop.load) if drop.load is not None else f"{drop.cut_percent}% lighter" if drop.cut_percent else "lighter"
    return f", then drop to {cut}: {count}" if drop.load is not None else f", then drop, {cut}: {count}"


def question_sentence(suggestion: Suggestion) -> str:
    """What has to be asked, "" if nothing."""
    return suggestion.question
