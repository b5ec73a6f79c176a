"""How is a target said to the member? One line, in own numbers and own unit."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from bot.training.blocks import Drop, Measure, Sides
from bot.training.loads import say_amount, say_load
from bot.training.prescriptions import say_range
from bot.training.progression.values import SetAim, Suggestion, Why

RESTS = "rests until cleared"
_EASY = frozenset({Why.TWO_FALLING, Why.AWAY, Why.PAIN_LATELY})  # the low end is the aim here, and a range would only tempt


def target_words(suggestion: Suggestion, *, short: bool = False) -> str:
    """ "22.5 kg: 8, 8, 8 (range 8-12)"; sets with other loads or tempos one after the other. short: without the range.

    A slot that hurts gets no target: it rests, and what it starts with again is said in the reason.
    """
    if suggestion.reason.why is Why.PAIN_OPEN:
        return RESTS
    short = short or suggestion.reason.why in _EASY
    runs: list[list[SetAim]] = []
    for aim in suggestion.sets:
        if runs and not runs[-1][-1].drops and _alike(runs[-1][0], aim):
            runs[-1].append(aim)
        else:
            runs.append([aim])
    return "; ".join(_run(run, short=short) for run in runs)


def _alike(a: SetAim, b: SetAim) -> bool:
    return (a.load, a.tempo, a.measure) == (b.load, b.tempo, b.measure)


def _run(run: list[SetAim], *, short: bool) -> str:
    first, last = run[0], run[-1]
    unit = {Measure.REPS: "", Measure.SECONDS: " s", Measure.STEPS: " steps", Measure.METRES: " m"}[first.measure]
    words = f"{say_load(first.load)}: " if first.load is not None else ""
    words += _counts(run, unit, short=short)
    words += " each side" if first.sides is not Sides.BOTH else ""
    words += f", tempo {first.tempo}" if first.tempo is not None else ""
    words += f", then {last.partials.count} partials" if last.partials is not None and last.partials.count else ""
    words += "".join(_drop(drop) for drop in last.drops)
    return words


def _counts(run: Sequence[SetAim], unit: str, *, short: bool) -> str:
    """ "8, 8, 8 (range 8-12)"; where the sets have ranges of their own, each behind its sets: "13 (range 12-14), 10, 8"."""
    ends = [(_range_of(aim), aim) for aim in run]
    numbers = all(_count(aim)[0].isdigit() for aim in run)  # a unit stands once behind numbers, never behind words
    parts = []
    for span, alike in groupby(ends, key=lambda one: one[0]):
        counts = _listed([_count(aim) for _, aim in alike], "" if numbers else unit)
        parts.append(counts if not span or short else f"{counts} (range {span})")
    if not numbers:
        return ", ".join(parts)
    if len(parts) == 1 and "(" in parts[0]:
        return parts[0].replace(" (", f"{unit} (", 1)
    return ", ".join(parts) + unit


def _listed(counts: list[str], unit: str) -> str:
    """ "8, 8, 8"; words, the same for every set, only once: "3 sets, as many as go cleanly"."""
    if len(counts) > 1 and len(set(counts)) == 1 and not counts[0][0].isdigit():
        return f"{len(counts)} sets, {counts[0]}"
    return ", ".join(f"{count}{unit}" if count[-1].isdigit() or count[-1] == "+" else count for count in counts)


def _range_of(aim: SetAim) -> str:
    """The range worth saying: none around a single number or an open set."""
    ranged = aim.low is not None and aim.high is not None and aim.low != aim.high and not aim.amrap
    return say_range(aim.low, aim.high) if ranged else ""


def _count(aim: SetAim) -> str:
    if aim.aim is not None:
        return f"{aim.aim}{'+' if aim.amrap else ''}"
    if aim.amrap and aim.rir is not None and aim.rir >= 1 and aim.measure is Measure.REPS:
        return f"until {say_amount(aim.rir)} {'rep is' if aim.rir == 1 else 'reps are'} left"
    if aim.amrap:
        return "as many as go cleanly" if aim.measure is Measure.REPS else "as long as it stays clean"
    return f"up to {aim.high}" if aim.high is not None else "as needed"


def _drop(drop: Drop) -> str:
    count = say_range(drop.low, drop.high) or "as many as go"
    cut = f"to {say_load(drop.load)}" if drop.load is not None else f"by {drop.cut_percent}%" if drop.cut_percent else "lighter"
    return f", then drop {cut}: {count}"


def question_sentence(suggestion: Suggestion) -> str:
    """What has to be asked, "" if nothing."""
    return suggestion.question
