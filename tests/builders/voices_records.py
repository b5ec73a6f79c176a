"""Sets in a short notation: "A1.1-3 20kg 12,11,10 rpe8" -> three records.

A set is a place, a load and a count, then what else was said of it. Sets are parted by "; ".

    place   A1.2, or A1.1-3 for several sets; with `warm` a bare A1: a warm-up for A1
    load    20kg, 45lb, 12kg*2 a pair, +5kg added, -15kg helped, -green helped by a band, red+blue, bw,
            ? not known, any (not compared)
    count   12 reps, 45s, 40m, 20st, in the slot's own measure; L9/R7 the sides apart; 12,11,10 one a set
    more    rpe8 rir2 fail form- tempo+ tempo- part3 bouts10+4+3 drop:8kg:10 about warm on-1 (the day before)
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from bot.training.blocks import Day, Measure, SetKind, SetPlace
from bot.training.loads import BODY_WEIGHT, Load, LoadKind, Unit
from bot.training.records import DropDone, SetDone, SetRecord

MEASURES = {"": Measure.REPS, "s": Measure.SECONDS, "m": Measure.METRES, "st": Measure.STEPS}
_PLACES = re.compile(r"([A-Z]+\d+)(?:\.(\d+)(?:-(\d+))?)?")
_WEIGHT = re.compile(r"([+-]?)(\d+(?:\.\d+)?)(kg|lb)(\*2)?")
_BANDS = re.compile(r"(-?)([a-z]+(?:\+[a-z]+)*)")
_COUNT = re.compile(r"(?:(\d+)|L(\d+)|R(\d+)|L(\d+)/R(\d+))(s|m|st|)")
_KINDS = {"": LoadKind.IMPLEMENT, "+": LoadKind.ADDED, "-": LoadKind.ASSISTED}
_WORDS: dict[str, dict[str, Any]] = {
    "fail": {"failure": True},
    "form+": {"form_kept": True},
    "form-": {"form_kept": False},
    "tempo+": {"tempo_kept": True},
    "tempo-": {"tempo_kept": False},
    "about": {"about": True},
    "warm": {"kind": SetKind.WARM_UP},
}


@dataclass(frozen=True)
class Noted:
    """A record as it was noted down. any_load: the notation leaves the load open."""

    record: SetRecord
    any_load: bool = False


def noted(text: str, day: Day, on: date) -> tuple[Noted, ...]:
    """Every set of a text, in order. Raises ValueError with the part that is not in the notation."""
    return tuple(one for part in text.split(";") if part.strip() for one in _noted_part(part.strip(), day, on))


def places(text: str) -> tuple[SetPlace, ...]:
    """ "A1.2" -> one place, "A1.1-3" -> three."""
    found = _PLACES.fullmatch(text)
    if not found or not found[2]:
        raise ValueError(f"{text!r} is no place such as A1.2 or A1.1-3")
    return tuple(SetPlace(found[1], number) for number in range(int(found[2]), int(found[3] or found[2]) + 1))


def load(text: str) -> Load | None:
    """ "12kg*2" -> a pair of 12 kg; None for "?" and "any"."""
    if text in ("?", "any"):
        return None
    if text == "bw":
        return BODY_WEIGHT
    if found := _WEIGHT.fullmatch(text):
        return Load(_KINDS[found[1]], Decimal(found[2]), Unit(found[3]), pair=bool(found[4]))
    if found := _BANDS.fullmatch(text):
        return Load(LoadKind.ASSISTED if found[1] else LoadKind.BAND, bands=tuple(found[2].split("+")))
    raise ValueError(f"{text!r} is no load such as 20kg, 12kg*2, +5kg, red or bw")


def _noted_part(part: str, day: Day, on: date) -> tuple[Noted, ...]:
    where, what, counts, *more = part.split()
    slot = day.slot(where.partition(".")[0])
    if slot is None:
        raise ValueError(f"{part!r}: the day has no slot {where}")
    their_places = (None,) if "warm" in more else places(where)
    each = counts.split(",")
    if len(each) not in (1, len(their_places)):
        raise ValueError(f"{part!r}: {len(each)} counts for {len(their_places)} sets")
    measure = slot.sets[0].measure
    told, days = _told(more)
    return tuple(
        Noted(
            SetRecord(
                SetDone(measure=measure, load=load(what), **_count(count, measure), **told),
                place,
                on + timedelta(days=days),
                exercise=slot.exercise,
                day=day.number,
            ),
            any_load=what == "any",
        )
        for place, count in zip(their_places, each * len(their_places) if len(each) == 1 else each, strict=True)
    )


def _count(text: str, measure: Measure) -> dict[str, Any]:
    """ "12" or "L9/R7" as fields of SetDone."""
    found = _COUNT.fullmatch(text)
    if not found or MEASURES[found[6]] is not measure:
        raise ValueError(f"{text!r} is no count in {measure.value}")
    both, left, right = found[1], found[2] or found[4], found[3] or found[5]
    # Even sides are one count that holds for each: that is how a record keeps them.
    if both or left == right:
        return {"count": int(both or left)}
    return {side: int(value) for side, value in (("left", left), ("right", right)) if value}


def _told(words: list[str]) -> tuple[dict[str, Any], int]:
    """What the words behind a count say: fields of SetDone, and the days from today."""
    told: dict[str, Any] = {}
    days = 0
    for word in words:
        if word in _WORDS:
            told |= _WORDS[word]
        elif found := re.fullmatch(r"(rpe|rir)(\d+(?:\.\d+)?)", word):
            told[found[1]] = Decimal(found[2])
        elif found := re.fullmatch(r"part(\d+)", word):
            told["partials"] = int(found[1])
        elif found := re.fullmatch(r"bouts(\d+(?:\+\d+)*)", word):
            told["bouts"] = tuple(map(int, found[1].split("+")))
        elif found := re.fullmatch(r"drop:([^:]+):(\d+)", word):
            told["drops"] = (*told.get("drops", ()), DropDone(load(found[1]), int(found[2])))
        elif found := re.fullmatch(r"on(-\d+)", word):
            days = int(found[1])
        else:
            raise ValueError(f"{word!r} is not a word of the notation")
    return told, days
