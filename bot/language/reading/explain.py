"""How is a reading said in few words? For buttons, and for an operator who wants to know why."""

from __future__ import annotations

from collections.abc import Iterable

from bot.language.readings import (
    CorrectionHeard,
    FinishHeard,
    Heard,
    PointHeard,
    Reading,
    RepeatHeard,
    SetsHeard,
    SkipHeard,
    UndoHeard,
)
from bot.training.blocks import Measure, SetKind
from bot.training.loads import LoadKind, say_amount, say_load
from bot.training.records import SetDone, SetRecord

_MEASURES = {Measure.REPS: "", Measure.SECONDS: " s", Measure.STEPS: " steps", Measure.METRES: " m"}


def say_done(done: SetDone) -> str:
    """ "20 kg × 12", "red band × 15", "12" for body weight, "left 9 right 7"."""
    if done.count is not None:
        count = f"{done.count}{_MEASURES[done.measure]}"
    elif done.left is None and done.right is None:
        count = "?"
    else:
        count = " ".join(f"{name} {side}" for name, side in (("left", done.left), ("right", done.right)) if side is not None)
    text = count if done.load is None or done.load.kind is LoadKind.BODY else f"{say_load(done.load)} × {count}"
    if done.partials:
        text += f" + {done.partials} partial"
    for drop in done.drops:
        text += f" > {say_load(drop.load) if drop.load else ''} × {drop.count}"
    if done.rpe is not None:
        text += f", RPE {say_amount(done.rpe)}"
    if done.rir is not None:
        text += f", {say_amount(done.rir)} in reserve"
    return text


def say_record(record: SetRecord) -> str:
    where = (
        "warm-up"
        if record.done.kind is SetKind.WARM_UP or record.place is None
        else f"{record.place.label} set {record.place.number}"
    )
    return f"{where}: {say_done(record.done)}"


def say_sets(records: Iterable[SetRecord]) -> str:
    """Several sets in a line; a slot is named once, and so is a load that stays: "A1 sets 1-3: 20 kg × 12, 11, 10"."""
    runs: list[list[SetRecord]] = []
    for record in records:
        if runs and _go_on(runs[-1][-1], record):
            runs[-1].append(record)
        else:
            runs.append([record])
    parts: list[str] = []
    label = ""
    for run in runs:
        first, last = run[0], run[-1]
        here = first.place.label if first.place else ""
        counts = "".join(f", {last_word}" for last_word in (_count_words(record.done) for record in run[1:]))
        if here == label and here:
            parts.append(say_done(first.done) + counts)
        elif len(run) > 1 and first.place and last.place:
            parts.append(f"{here} sets {first.place.number}-{last.place.number}: {say_done(first.done)}{counts}")
        else:
            parts.append(say_record(first))
        label = here
    return ", ".join(parts)


def _go_on(one: SetRecord, other: SetRecord) -> bool:
    """Is the other the next set of the slot, with the same load and nothing else said of either?"""
    if (
        one.place is None
        or other.place is None
        or (other.place.label, other.place.number - 1) != (one.place.label, one.place.number)
    ):
        return False
    plain = all(
        record.done.count is not None and say_done(record.done).endswith(_count_words(record.done)) for record in (one, other)
    )
    return plain and one.done.load == other.done.load


def _count_words(done: SetDone) -> str:
    return f"{done.count}{_MEASURES[done.measure]}"


def say_heard(heard: Iterable[Heard]) -> str:
    """What would be carried out, shortly."""
    said: list[str] = []
    for part in heard:
        match part:
            case SetsHeard():
                said.append(say_sets(part.sets))
            case CorrectionHeard():
                said.append(f"change {say_record(part.new)}")
            case SkipHeard():
                said.append("skip " + ", ".join(f"{place.label} set {place.number}" for place in part.places))
            case UndoHeard():
                said.append("put back" if part.redo else "take back the last")
            case RepeatHeard():
                said.append("already on record")
            case FinishHeard():
                said.append("session over")
            case PointHeard():
                said.append(f"go on with {part.place.label}")
    return "; ".join(said)


def explain(reading: Reading) -> str:
    """The whole reading, line by line, with which words gave what."""
    lines = [f"{reading.verdict.value}, certainty {reading.certainty:.2f}"]
    if reading.heard:
        lines.append(f"heard: {say_heard(reading.heard)}")
    if reading.question is not None:
        lines.append(f"asks ({reading.question.code}) about {reading.question.about!r}:")
        lines += [f"  {option.certainty:.2f}  {option.label}" for option in reading.question.options]
    lines += [f'"{reading.text[why.start : why.end]}" -> {why.meaning}' for why in reading.why]
    lines += [f"aside ({aside.kind.value}): {aside.text}" for aside in reading.asides]
    lines += [f"not read: {part}" for part in reading.unread]
    return "\n".join(lines)
