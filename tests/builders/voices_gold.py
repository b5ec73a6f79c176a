"""What should a message come to, and what is different in what it came to?

A gold is one or more outcomes parted by " or "; an outcome is sets (see voices_records) and deeds parted by "; ":

    A1.1-3 20kg 12,11,10            sets on record
    fix A1.2 20kg 11                the set on record there becomes this
    skip B1.2-3 C1.1                sets that will not be done
    undo, redo, repeat, finish      and `point B1.1`: going on elsewhere
    ask, none                       a question is right; not about sets
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from bot.language.readings import CorrectionHeard, Heard, PointHeard, SetsHeard, SkipHeard, UndoHeard
from bot.training.blocks import Day, SetPlace
from bot.training.exercises.catalogue import load_catalogue
from bot.training.exercises.entry import LoadStyle
from bot.training.loads import Load
from bot.training.records import SetDone, SetRecord
from tests.builders.voices_records import Noted, noted, places

DEEDS = ("undo", "redo", "repeat", "finish")


@dataclass(frozen=True)
class Gold:
    """One outcome that is right. Sets and corrections in order; skipped places and deeds in any."""

    sets: tuple[Noted, ...] = ()
    fixes: tuple[Noted, ...] = ()
    skipped: frozenset[SetPlace] = frozenset()
    pointed: frozenset[SetPlace] = frozenset()
    deeds: frozenset[str] = frozenset()


def gold(text: str, day: Day, on: date) -> Gold:
    """Read one outcome. Raises ValueError for what is not in the notation."""
    sets: list[str] = []
    fixes: list[str] = []
    named: dict[str, set[SetPlace]] = {"skip": set(), "point": set()}
    deeds: set[str] = set()
    for part in filter(None, (part.strip() for part in text.split(";"))):
        verb, _, rest = part.partition(" ")
        if verb in named:
            named[verb] |= {place for word in rest.split() for place in places(word)}
        elif verb == "fix":
            fixes.append(rest)
        elif part in DEEDS:
            deeds.add(part)
        else:
            sets.append(part)
    return Gold(
        noted(";".join(sets), day, on),
        noted(";".join(fixes), day, on),
        frozenset(named["skip"]),
        frozenset(named["point"]),
        frozenset(deeds),
    )


def differences(want: Gold, heard: tuple[Heard, ...]) -> list[str]:
    """What was heard otherwise than wanted, in a few words each; empty where it is the same."""
    corrections = [one for one in heard if isinstance(one, CorrectionHeard)]
    found = _set_differences(want.sets, [record for one in heard if isinstance(one, SetsHeard) for record in one.sets], "sets")
    found += _set_differences(want.fixes, [one.new for one in corrections], "corrections")
    found += [
        f"corrects {_say(one.old.place)}"
        for one, fix in zip(corrections, want.fixes, strict=False)
        if one.old.place != fix.record.place
    ]
    skipped = frozenset(place for one in heard if isinstance(one, SkipHeard) for place in one.places)
    pointed = frozenset(one.place for one in heard if isinstance(one, PointHeard))
    deeds = frozenset(name for one in heard if (name := _deed(one)))
    found += [f"skips {_say_all(skipped)}"] if skipped != want.skipped else []
    found += [f"points to {_say_all(pointed)}"] if pointed != want.pointed else []
    found += [f"deeds {sorted(deeds)}"] if deeds != want.deeds else []
    return found


def _deed(heard: Heard) -> str:
    if isinstance(heard, UndoHeard):
        return "redo" if heard.redo else "undo"
    name = type(heard).__name__.removesuffix("Heard").lower()
    return name if name in DEEDS else ""


def _set_differences(want: tuple[Noted, ...], got: list[SetRecord], what: str) -> list[str]:
    if len(want) != len(got):
        return [f"{len(got)} {what}, not {len(want)}"]
    return [word for wanted, record in zip(want, got, strict=True) for word in _record_differences(wanted, record)]


def _record_differences(want: Noted, got: SetRecord) -> list[str]:
    mine, theirs = want.record.done, got.done
    names = ["measure", "kind", "rpe", "rir", "failure", "partials", "bouts"]
    # Whether form and tempo were kept, and a count said with doubt, is compared only where the gold speaks of it.
    names += [name for name in ("form_kept", "tempo_kept") if getattr(mine, name) is not None]
    names += ["about"] if mine.about else []
    pairs: list[tuple[str, object, object]] = [(name, getattr(mine, name), getattr(theirs, name)) for name in names]
    pairs += [
        ("place", want.record.place, got.place),
        ("on", want.record.on, got.on),
        ("count", _counts(mine), _counts(theirs)),
        ("drops", [(_key(d.load), d.count) for d in mine.drops], [(_key(d.load), d.count) for d in theirs.drops]),
    ]
    if want.record.place and got.exercise is not None:
        pairs.append(("exercise", want.record.exercise, got.exercise))
    found = [f"{name} {was}" for name, wanted, was in pairs if wanted != was]
    return found if want.any_load else found + _load_differences(want.record, theirs.load)


def _counts(done: SetDone) -> tuple[int | None, ...]:
    even = done.left is not None and done.left == done.right
    return (done.left, None, None) if even else (done.count, done.left, done.right)


def _key(load: Load | None) -> object:
    return load and (load.kind, load.amount, load.unit, frozenset(band.lower() for band in load.bands))


def _load_differences(want: SetRecord, got: Load | None) -> list[str]:
    """A pair must be heard as one. Where the exercise takes a pair, "12 kg" may be heard as one too."""
    mine = want.done.load
    if _key(mine) != _key(got):
        return [f"load {got}"]
    if mine is None or got is None or mine.pair == got.pair:
        return []
    style = load_catalogue().by_id[want.exercise].load_style if want.exercise else None
    return [] if got.pair and style is LoadStyle.PAIR else ["a pair" if got.pair else "not a pair"]


def _say(place: SetPlace | None) -> str:
    return f"{place.label}.{place.number}" if place else "a warm-up"


def _say_all(found: Iterable[SetPlace]) -> str:
    return " ".join(sorted(map(_say, found))) or "nothing"
