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
    """Several sets in a line; a slot is named once."""
    parts: list[str] = []
    label = ""
    for record in records:
        here = record.place.label if record.place else ""
        parts.append(say_record(record) if here != label or not here else say_done(record.done))
        label = here
    return ", ".join(parts)


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
