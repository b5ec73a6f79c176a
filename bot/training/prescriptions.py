"""How is what a coach prescribed said in words? The same words a block is written in, so that reading them gives the same again.

SetTarget(8, 10, tempo=Tempo(3, 1, 1, 0), rir=Decimal(2)) -> "8-10 reps, tempo 3-1-1-0, RIR 2"
three such sets                                           -> "3 x 8-10 reps, tempo 3-1-1-0, RIR 2"
"""

from __future__ import annotations

from bot.training.blocks import Drop, Measure, Partials, Rest, SetKind, SetTarget, Sides, Slot
from bot.training.loads import Load, LoadKind, say_amount

UNIT_WORDS = {Measure.REPS: "reps", Measure.SECONDS: "s", Measure.STEPS: "steps", Measure.METRES: "m"}
SIDE_WORDS = {
    Sides.BOTH: "",
    Sides.EACH: "each side",
    Sides.LEFT_FIRST: "left side first",
    Sides.RIGHT_FIRST: "right side first",
    Sides.WEAKER_FIRST: "weaker side first",
    Sides.ONE_SIDE_THROUGH: "all sets one side, then the other",
    Sides.ALTERNATING: "alternating sides",
}
_OPEN_WORDS = {
    Measure.REPS: "AMRAP reps",
    Measure.SECONDS: "AMRAP seconds",
    Measure.STEPS: "AMRAP steps",
    Measure.METRES: "AMRAP metres",
}


def say_range(low: int | None, high: int | None) -> str:
    """ "8-10", or "8" where both ends are the same; "" where nothing is asked for."""
    if low is None or high is None or low == high:
        only = low if low is not None else high
        return "" if only is None else str(only)
    return f"{low}-{high}"


def say_count(target: SetTarget) -> str:
    """What is counted in a set: "8-10 reps", "30 s", "AMRAP reps", "8+ reps"; "as needed" where no count is asked for."""
    span = say_range(target.low, target.high)
    if not span:
        return _OPEN_WORDS[target.measure] if target.amrap else f"as needed {UNIT_WORDS[target.measure]}"
    return f"{span}{'+' if target.amrap else ''} {UNIT_WORDS[target.measure]}"


def say_prescribed_load(load: Load) -> str:
    """ "20 kg", "pair of 12 kg", "10 kg backpack", "+10 kg", "10 kg of help", "red + black band", "body weight"."""
    help_words = " of help" if load.kind is LoadKind.ASSISTED else ""
    if load.kind is LoadKind.BODY:
        return "body weight"
    if load.bands:
        return " + ".join(load.bands) + " band" + help_words
    if load.amount is None or load.unit is None:
        return load.kind.value
    amount = f"{say_amount(load.amount)} {load.unit.value}"
    sign = "+" if load.kind is LoadKind.ADDED else "pair of " if load.pair else ""
    return f"{sign}{amount}{help_words}" + (f" {load.implement}" if load.implement else "")


def say_partials(partials: Partials) -> str:
    """ "+ 5 partials at the bottom", "+ quarter reps"."""
    count = f"{partials.count} " if partials.count is not None else ""
    if partials.where in ("quarter", "half"):
        return f"+ {count}{partials.where} reps"
    return f"+ {count}partials" + (f" at the {partials.where}" if partials.where else "")


def say_drop(drop: Drop) -> str:
    """ "drop", "drop 20%", "drop to 15 kg", "drop 20% for 8-10"."""
    words = ["drop"]
    if drop.cut_percent is not None:
        words.append(f"{drop.cut_percent}%")
    if drop.load is not None:
        words.append(f"to {say_prescribed_load(drop.load)}")
    span = say_range(drop.low, drop.high)
    if span:
        words.append(f"for {span}")
    return " ".join(words)


def say_target(target: SetTarget) -> str:
    """One set, whole: everything that the coach asked of it, its kind excepted."""
    parts = [say_count(target)]
    if target.tempo is not None:
        parts.append(f"tempo {target.tempo}")
    if target.rir is not None:
        parts.append(f"RIR {say_amount(target.rir)}")
    if target.rpe is not None:
        parts.append(f"RPE {say_amount(target.rpe)}")
    if target.percent_1rm is not None:
        parts.append(f"{say_amount(target.percent_1rm)}% 1RM")
    if target.load is not None:
        parts.append(f"load {say_prescribed_load(target.load)}")
    if target.partials is not None:
        parts.append(say_partials(target.partials))
    parts += [say_drop(drop) for drop in target.drops]
    if target.note:
        parts.append(f"note: {target.note}")
    return ", ".join(parts)


def say_sets(slot: Slot) -> str:
    """A slot's sets in one line: alike ones together, in order."""
    runs: list[tuple[int, SetTarget]] = []
    for target in slot.sets:
        if runs and runs[-1][1] == target:
            runs[-1] = (runs[-1][0] + 1, target)
        else:
            runs.append((1, target))
    return "; ".join(_run(count, target) for count, target in runs)


def _run(count: int, target: SetTarget) -> str:
    kind = {SetKind.WARM_UP: "warm-up ", SetKind.BURNOUT: "burnout ", SetKind.WORK: ""}[target.kind]
    return f"{kind}{count} x {say_target(target)}"


def say_rest(rest: Rest) -> str:
    """ "60 s", "60-90 s"."""
    return f"{say_range(rest.low_s, rest.high_s)} s"
