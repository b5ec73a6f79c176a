"""People and what they write in the middle of a session, with what each message should come to.

    = Moira: 61, retired nurse                       a person: who it is
    day: A1 goblet_squat 3x10-12; C1 side_plank 2x30-45 s each; D1 push_up 3xamrap
    unit: lb                                         lines that may be left out: kg, Europe/Dublin, no kit named
    zone: America/Recife
    kit: bench; dumbbell 5 7.5 10 kg in pairs        things, each with the loads it can be set to where known
    bands: green black                               lightest first
    bar: 20kg                                        the empty bar
    @ A1.1 20kg 12 | last: A1.1-3 20kg 11 | before: 20x12 | due: C1.1 | rest
    20 kg for 11 | A1.2 20kg 11                      a clear message and its gold; \\n in it is a line break

The @ line tells what is on record today, what last time, the message before, the set pointed to, and that it is a rest day. It
holds for every message until the next one, and a bare @ clears it. The gold (see voices_gold) also says how clear a message is:
"GOLD or ask" may be asked about, "ask" and "ask or GOLD" are truly unclear, "none" is not about sets.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import timedelta
from decimal import Decimal
from enum import StrEnum
from functools import cache
from pathlib import Path
from zoneinfo import ZoneInfo

from bot.language import Reading, Verdict, read
from bot.language.situation import Situation
from bot.training.blocks import Block, Day, ExerciseId, LoadRule, Measure, SetTarget, Sides, Slot
from bot.training.exercises.catalogue import load_catalogue
from bot.training.kit import Kit, KitItem, Ladder
from bot.training.loads import Unit
from bot.training.records import SetRecord
from tests.builders.set_corpus import said
from tests.builders.situations import NOW
from tests.builders.voices_gold import Gold, differences, gold
from tests.builders.voices_records import MEASURES, noted, places

_PLANNED_DAYS_AGO = (0, 1, 2, 7)


class Mark(StrEnum):
    CLEAR = "clear"
    ASKS_OK = "asks ok"
    UNCLEAR = "unclear"
    NOT_SETS = "not sets"


@dataclass(frozen=True)
class Message:
    """One text, when and by whom it is written (situation), and every outcome that is right."""

    who: str
    situation: Situation
    text: str
    mark: Mark
    gold: str
    golds: tuple[Gold, ...]
    line: int


@dataclass(frozen=True)
class Outcome:
    """What became of a message.

    kind: "right" (for an unclear one: a right guess), "asked" with the gold among the answers, "asked beside" without it,
    "wrong" on record, "missed" as not about sets. got: in the words of the corpus, a question with its answers. recorded: with
    nothing asked.
    """

    message: Message
    kind: str
    got: str
    differs: tuple[str, ...]
    certainty: float
    recorded: bool

    def __str__(self) -> str:
        one = self.message
        differs = f" [{'; '.join(self.differs)}]" if self.differs else ""
        got = f"{self.got} ({self.certainty:.2f}){differs}"
        return f"{one.line} {one.who} ({one.mark}): {one.text!r} should be {one.gold}, {self.kind}: {got}"


def messages(path: Path) -> list[Message]:
    """Every message of a file, in order. Raises ValueError with the file and line that is not in the format."""
    return messages_in(path.read_text("utf-8").splitlines(), path.name)


def messages_in(written: Iterable[str], name: str) -> list[Message]:
    """Every message of these lines, in order. Raises ValueError with the name and the line that is not in the format."""
    found: list[Message] = []
    who, base, now = "", Situation(NOW), Situation(NOW)
    lines = enumerate(written, start=1)
    for number, line in lines:
        try:
            if line.startswith("= "):
                who = line[2:].partition(":")[0]
                base, first = _person(lines)
                now = _moment(first, base)
            elif line.startswith("@"):
                now = _moment(line, base)
            elif line.strip() and not line.startswith("#"):
                found.append(_message(line, who, now, number))
        except (ValueError, KeyError) as error:
            raise ValueError(f"{name}:{number}: {error}") from error
    return found


@cache
def outcomes(path: Path) -> tuple[Outcome, ...]:
    """What becomes of every message of a file, read once."""
    return tuple(outcome(message) for message in messages(path))


def outcome(message: Message) -> Outcome:
    """Read a message in its situation, and hold what came of it against its gold."""
    reading = read(message.text, message.situation)
    kind, differs = _compared(message, reading)
    got = said(reading)
    if reading.question:
        got += " " + " / ".join(option.label for option in reading.question.options)
    return Outcome(message, kind, got, tuple(differs), reading.certainty, reading.verdict is Verdict.RECORD)


def _compared(message: Message, reading: Reading) -> tuple[str, list[str]]:
    if message.mark is Mark.NOT_SETS:
        return {Verdict.NOT_SETS: "right", Verdict.ASK: "asked", Verdict.RECORD: "wrong"}[reading.verdict], []
    if reading.verdict is Verdict.NOT_SETS:
        return "missed", []
    if reading.verdict is Verdict.RECORD:
        nearest = min((differences(one, reading.heard) for one in message.golds), key=len, default=["nothing to record"])
        return ("wrong", nearest) if nearest else ("right", [])
    options = reading.question.options if reading.question else ()
    offered = not message.golds or any(not differences(one, option.heard) for one in message.golds for option in options)
    return ("asked" if offered else "asked beside"), []


def _message(line: str, who: str, now: Situation, number: int) -> Message:
    text, _, wanted = line.rpartition(" | ")
    if not text or now.block is None:
        raise ValueError(f"{line!r} has no gold or nobody who wrote it")
    outcomes = wanted.split(" or ")
    golds = tuple(gold(one, now.block.days[0], now.on) for one in outcomes if one not in ("ask", "none"))
    if outcomes[0] == "none":
        mark = Mark.NOT_SETS
    elif outcomes[0] == "ask":
        mark = Mark.UNCLEAR
    else:
        mark = Mark.ASKS_OK if "ask" in outcomes else Mark.CLEAR
    return Message(who, now, text.replace("\\n", "\n"), mark, wanted, golds, number)


def _person(lines: Iterator[tuple[int, str]]) -> tuple[Situation, str]:
    """The lines under a person's name: that person's day with nothing on record, and the first line with "@", which ends them."""
    told: dict[str, str] = {}
    first = "@"
    for _, line in lines:
        if line.startswith("@"):
            first = line
            break
        key, _, value = line.partition(": ")
        told[key] = value
    return situation_of(told), first


def situation_of(told: dict[str, str]) -> Situation:
    """The day of a person with nothing on record, from the lines under the name. Raises ValueError for a key that is none."""
    unknown = told.keys() - {"day", "unit", "zone", "kit", "bands", "bar"}
    if unknown:
        raise ValueError(f"{sorted(unknown)} is nothing to tell of a person")
    day = Day(1, "Day one", tuple(map(_slot, told["day"].split("; "))))
    now = NOW.replace(tzinfo=ZoneInfo(told.get("zone", "Europe/Dublin")))
    planned = tuple((now.date() - timedelta(days=days), day.number) for days in _PLANNED_DAYS_AGO)
    unit = Unit(told.get("unit", "kg"))
    return Situation(now, day, Block("March", (day,)), kit=_kit(told), unit=unit, planned=planned)


def _slot(text: str) -> Slot:
    """ "C1 side_plank 2x30-45 s each": label, exercise, sets and range, then measure, sides and load rule where they matter."""
    label, exercise, sets, *more = text.split()
    found = re.fullmatch(r"(\d+)x(?:(amrap)|(\d+)(?:-(\d+))?)", sets)
    if not found:
        raise ValueError(f"{sets!r} is no prescription such as 3x12, 3x8-10 or 3xamrap")
    measure = next((MEASURES[word] for word in more if word in MEASURES), Measure.REPS)
    if unknown := set(more) - {*MEASURES, *Sides, *LoadRule}:
        raise ValueError(f"{sorted(unknown)} is nothing to say of a slot")
    low = int(found[3]) if found[3] else None
    target = SetTarget(low, int(found[4]) if found[4] else low, measure, amrap=bool(found[2]))
    sides = next((Sides(word) for word in more if word in list(Sides)), Sides.BOTH)
    rule = next((LoadRule(word) for word in more if word in list(LoadRule)), LoadRule.FREE)
    name = load_catalogue().by_id[ExerciseId(exercise)].name
    return Slot(label, name, (target,) * int(found[1]), ExerciseId(exercise), sides, rule)


def _kit(told: dict[str, str]) -> Kit:
    items: set[KitItem] = set()
    ladders: list[Ladder] = []
    for thing in filter(None, told.get("kit", "").split("; ")):
        name, *rest = thing.split()
        items.add(KitItem(name))
        if rest:
            pairs = rest[-2:] == ["in", "pairs"]
            *amounts, unit = rest[:-2] if pairs else rest
            ladders.append(Ladder(KitItem(name), Unit(unit), tuple(map(Decimal, amounts)), pairs))
    bar = re.fullmatch(r"([\d.]+)(kg|lb)", told["bar"]) if "bar" in told else None
    bands = tuple(told.get("bands", "").split())
    return Kit(frozenset(items), tuple(ladders), bands, (Decimal(bar[1]), Unit(bar[2])) if bar else None)


def _moment(text: str, base: Situation) -> Situation:
    """ "@ A1.1 20kg 12 | before: 20x12": the person's situation at that moment."""
    now = base
    for part in filter(None, (part.strip() for part in text.removeprefix("@").split(" | "))):
        key, _, value = part.partition(": ")
        if key == "last":
            now = replace(now, last_time=_records(value, base, -7))
        elif key == "before":
            now = replace(now, last_text=value.replace("\\n", "\n"))
        elif key == "due":
            now = replace(now, due_override=places(value)[0])
        elif part == "rest":
            now = replace(now, day=None)
        else:
            now = replace(now, today=_records(part, base, 0))
    return now


def _records(text: str, base: Situation, days: int) -> tuple[SetRecord, ...]:
    assert base.day is not None
    return tuple(one.record for one in noted(text, base.day, base.on + timedelta(days=days)))
