"""Messages with gold beside each, in a format that a coach can read, and what came of them.

    @home A1.1=20x12            a situation: base, what is on record today, what is due
    20x11 | A1.2 20kg 11        a message and what it means; \\n in it is a line break
    12 | ask                    truly unclear: a question is right
    see you at 7:30 | none      not about sets

Sets: place, load (20kg, 16kg*2 a pair, +5kg added, -15kg helped, bw, red+blue, ^20kg carried over, =20kg assumed, ? not known), count (12, 45s,
40m, 20st, L9/R7), then rpe8 rir2 fail form+ form- tempo+ tempo- part3 bouts10+4+3 drop:8kg:10 about warm. Parted by "; ".
Others: fix PLACE LOAD COUNT, skip PLACE ..., undo, redo, repeat, finish, point PLACE. "& pain", "& question" name asides that must be there.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

from bot.language import Reading, Verdict, read
from bot.language.readings import (
    CorrectionHeard,
    FinishHeard,
    PointHeard,
    RepeatHeard,
    SetsHeard,
    SkipHeard,
    UndoHeard,
)
from bot.training.blocks import Measure, SetKind
from bot.training.loads import Load, LoadKind, say_amount
from bot.training.records import SetDone, SetRecord, Source
from tests.builders.situations import NOW, situation

_UNITS = {Measure.REPS: "", Measure.SECONDS: "s", Measure.METRES: "m", Measure.STEPS: "st"}


@dataclass(frozen=True)
class Case:
    situation: str
    text: str
    gold: str
    line: int

    def reading(self) -> Reading:
        return read(self.text, situation(self.situation))


@dataclass(frozen=True)
class Outcome:
    """kind: "right", "asked", "wrong", "missed" for clear messages; "unclear asked", "unclear wrong", "none right", "none wrong" for others."""

    case: Case
    kind: str
    got: str
    certainty: float


def cases(path: Path) -> list[Case]:
    found: list[Case] = []
    where = "home"
    for number, line in enumerate(path.read_text("utf-8").splitlines(), start=1):
        if line.startswith("@"):
            where = line[1:].split("#")[0].strip()
        elif line.strip() and not line.startswith("#"):
            text, _, gold = line.rpartition(" | ")
            assert text, f"{path.name}:{number} has no gold"
            found.append(Case(where, text.replace("\\n", "\n"), gold.strip(), number))
    return found


def outcome(case: Case) -> Outcome:
    reading = case.reading()
    got = said(reading)
    gold, *asides = (part.strip() for part in case.gold.split(" & "))
    heard = {aside.kind.value for aside in reading.asides}
    right = (got == _normal(gold)) and set(asides) <= heard
    if gold == "ask":
        kind = (
            "unclear asked"
            if got.startswith("ask")
            else "unclear wrong"
            if reading.verdict is Verdict.RECORD
            else "unclear missed"
        )
    elif gold == "none":
        kind = "none right" if got == "none" and set(asides) <= heard else "none asked" if got.startswith("ask") else "none wrong"
    elif right:
        kind = "right"
    elif reading.verdict is Verdict.ASK:
        kind = "asked"
    elif reading.verdict is Verdict.NOT_SETS:
        kind = "missed"
    else:
        kind = "wrong"
    return Outcome(case, kind, got + "".join(f" & {one}" for one in sorted(heard - {"chat"})), reading.certainty)


def _normal(gold: str) -> str:
    return " ".join(gold.split())


def said(reading: Reading) -> str:
    """A reading in the corpus' own words."""
    if reading.verdict is Verdict.ASK:
        assert reading.question is not None
        return f"ask:{reading.question.code}"
    if reading.verdict is Verdict.NOT_SETS:
        return "none"
    parts: list[str] = []
    for heard in reading.heard:
        match heard:
            case SetsHeard():
                parts += [say_record(one) for one in heard.sets]
            case CorrectionHeard():
                parts.append(f"fix {say_record(heard.new, plain=True)}")
            case SkipHeard():
                parts.append("skip " + " ".join(sorted(f"{p.label}.{p.number}" for p in heard.places)))
            case UndoHeard():
                parts.append("redo" if heard.redo else "undo")
            case RepeatHeard():
                parts.append("repeat")
            case FinishHeard():
                tail = f":{heard.effort:g}" if heard.effort is not None else ""
                parts.append("finish" + tail + (f":{heard.minutes}min" if heard.minutes is not None else ""))
            case PointHeard():
                parts.append(f"point {heard.place.label}.{heard.place.number}")
    return "; ".join(parts)


def say_record(one: SetRecord, *, plain: bool = False) -> str:
    done = one.done
    words = [f"{one.place.label}.{one.place.number}" if one.place else "warm", _load(done, plain), _count(done)]
    words += _marks(done)
    if one.on != NOW.date():
        words.append(f"on{(one.on - NOW.date()).days}")
    if one.day not in (1, None):
        words.append(f"day{one.day}")
    return " ".join(words)


def _load(done: SetDone, plain: bool) -> str:
    source = {Source.CARRIED: "^", Source.ASSUMED: "=", Source.SAID: ""}[done.load_source]
    text = _amount(done.load)
    return text if plain or text in ("bw", "?") else source + text


def _amount(load: Load | None) -> str:
    if load is None:
        return "?"
    if load.kind is LoadKind.BODY:
        return "bw"
    if load.bands:
        return ("-" if load.kind is LoadKind.ASSISTED else "") + "+".join(load.bands)
    assert load.amount is not None and load.unit is not None
    sign = {LoadKind.ADDED: "+", LoadKind.ASSISTED: "-"}.get(load.kind, "")
    return f"{sign}{say_amount(load.amount)}{load.unit.value}{'*2' if load.pair else ''}"


def _count(done: SetDone) -> str:
    if done.count is not None:
        return f"{done.count}{_UNITS[done.measure]}"
    sides = "/".join(f"{name}{side}" for name, side in (("L", done.left), ("R", done.right)) if side is not None)
    return (sides or "?") + _UNITS[done.measure]


def _marks(done: SetDone) -> list[str]:
    marks = [f"{name}{say_amount(Decimal(value))}" for name, value in (("rpe", done.rpe), ("rir", done.rir)) if value is not None]
    marks += ["fail"] if done.failure else []
    marks += [] if done.form_kept is None else ["form+" if done.form_kept else "form-"]
    marks += [] if done.tempo_kept is None else ["tempo+" if done.tempo_kept else "tempo-"]
    marks += [f"part{done.partials}"] if done.partials else []
    marks += ["bouts" + "+".join(map(str, done.bouts))] if done.bouts else []
    marks += [f"drop:{_amount(drop.load)}:{drop.count}" for drop in done.drops]
    marks += ["about"] if done.about else []
    marks += ["burnout"] if done.kind is SetKind.BURNOUT else []
    return marks
