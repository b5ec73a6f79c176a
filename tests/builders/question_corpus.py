"""The corpora of questions, and how well the reader does on one of them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from pathlib import Path
from zoneinfo import ZoneInfo

from bot.language.questions import read_questions
from bot.language.situation import Situation
from bot.training.blocks import Block, Day, ExerciseId, SetPlace, SetTarget, Slot
from bot.training.exercises.catalogue import load_catalogue
from bot.training.exercises.entry import Exercise
from bot.training.kit import Kit
from bot.training.loads import Load, LoadKind, Unit
from bot.training.records import SetDone, SetRecord

HERE = Path(__file__).parent.parent / "language" / "questions"
_DAY = (
    ("A1", "goblet_bulgarian_split_squat", 3, 10),
    ("A2", "pull_up", 3, 6),
    ("B1", "dumbbell_romanian_deadlift", 4, 10),
    ("B2", "side_plank", 3, 30),
    ("C1", "hammer_curl", 3, 12),
    ("C2", "standing_calf_raise", 3, 15),
)


@dataclass(frozen=True, slots=True)
class Case:
    wanted: tuple[str, ...]
    text: str


def cases(name: str) -> list[Case]:
    """Each line's topics and text; a "#" starts a comment line; "none" wants nothing; "a/b" is met by either."""
    lines = (HERE / name).read_text(encoding="utf-8").splitlines()
    pairs = [line.split(" | ", 1) for line in lines if line.strip() and not line.startswith("#")]
    return [
        Case(() if wanted.strip() == "none" else tuple(topic.strip() for topic in wanted.split(",")), text)
        for wanted, text in pairs
    ]


def situation() -> Situation:
    """A member in the middle of a day, with one set on record and a week behind."""
    catalogue = load_catalogue()
    slots = tuple(
        Slot(label, _name(catalogue.get(ExerciseId(exercise))), (SetTarget(low=count, high=count),) * sets, ExerciseId(exercise))
        for label, exercise, sets, count in _DAY
    )
    day = Day(1, "Legs and pull", slots)
    now = datetime(2026, 4, 15, 18, 30, tzinfo=ZoneInfo("Europe/Dublin"))

    def done(label: str, number: int, on: date) -> SetRecord:
        load = Load(LoadKind.IMPLEMENT, Decimal(16), Unit.KG)
        slot = day.slot(label)
        assert slot is not None
        return SetRecord(SetDone(count=10, load=load), SetPlace(label, number), on, exercise=slot.exercise, day=1)

    before = now.date() - timedelta(days=7)
    last = tuple(done(label, number, before) for label in ("A1", "B1") for number in (1, 2, 3))
    return Situation(
        now=now, day=day, block=Block("April", (day,)), today=(done("A1", 1, now.date()),), last_time=last, kit=Kit()
    )


def meets(case: Case, here: Situation) -> bool:
    got = [one.topic.value for one in read_questions(case.text, here)]
    return len(got) == len(case.wanted) and all(any(topic in got for topic in wanted.split("/")) for wanted in case.wanted)


def misses(name: str) -> list[str]:
    here = situation()
    return [
        f"{', '.join(case.wanted) or 'none'} != {', '.join(one.topic.value for one in read_questions(case.text, here))}: {case.text}"
        for case in cases(name)
        if not meets(case, here)
    ]


def _name(entry: Exercise | None) -> str:
    assert entry is not None
    return entry.name
