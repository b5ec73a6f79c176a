"""How people ask for another exercise, with gold: the day they are on, and how a reading stands to the gold."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from bot.language.situation import Situation
from bot.language.swaps import SwapAsked, read_swap
from bot.training.blocks import Day, ExerciseId, SetPlace, SetTarget, Slot
from bot.training.exercises.catalogue import load_catalogue
from bot.training.kit import Kit, KitItem
from bot.training.loads import weight
from bot.training.records import SetDone, SetRecord

_EXERCISES = {
    "A1": "goblet_squat", "A2": "push_up", "B1": "barbell_row", "B2": "bulgarian_split_squat", "C1": "romanian_deadlift", "C2": "pull_up",
    "D1": "dumbbell_bench_press", "D2": "hanging_leg_raise", "E1": "burpee", "E2": "farmer_carry",
}  # fmt: skip


def _slot(label: str, exercise: str) -> Slot:
    entry = load_catalogue().get(exercise)
    assert entry is not None
    return Slot(label, entry.name, (SetTarget(8, 12),) * 3, ExerciseId(exercise))


DAY = Day(1, "Whole body", tuple(_slot(label, exercise) for label, exercise in _EXERCISES.items()))
SITUATION = Situation(
    datetime(2026, 3, 4, 18, 30, tzinfo=ZoneInfo("Europe/Dublin")),
    DAY,
    today=(
        SetRecord(SetDone(count=12, load=weight(20)), SetPlace("A1", 1), date(2026, 3, 4), ExerciseId("goblet_squat"), 1),
        SetRecord(SetDone(count=12), SetPlace("A2", 1), date(2026, 3, 4), ExerciseId("push_up"), 1),
    ),
    kit=Kit(frozenset({KitItem.DUMBBELL, KitItem.BARBELL, KitItem.BENCH, KitItem.PULL_UP_BAR})),
)  # due: A1, set 2


@dataclass(frozen=True, slots=True)
class Phrase:
    line: int
    text: str
    is_swap: bool
    label: str = ""
    reason: str = ""
    extras: dict[str, str] = field(default_factory=dict)

    def read(self) -> SwapAsked | None:
        return read_swap(self.text, SITUATION, load_catalogue())

    def faults(self, sure: float) -> list[str]:
        """What differs from the gold; empty if all is right. sure: below this certainty a reading counts as none."""
        asked = self.read()
        if asked is None or asked.certainty < sure:
            return ["not heard"] if self.is_swap else []
        if not self.is_swap:
            return [f"heard {asked}"]
        found = [] if asked.label == self.label else [f"slot {asked.label or '-'} for {self.label or '-'}"]
        if asked.undo != ("undo" in self.extras):
            found.append(f"undo {asked.undo}")
        if asked.reason.value != self.reason:
            found.append(f"reason {asked.reason.value} for {self.reason}")
        if "part" in self.extras and asked.part != self.extras["part"].replace("_", " "):
            found.append(f"part {asked.part!r}")
        if "missing" in self.extras and ",".join(asked.missing) != self.extras["missing"].replace("-", ""):
            found.append(f"missing {asked.missing}")
        if "wanted" in self.extras and asked.wanted not in self.extras["wanted"].split("/"):
            found.append(f"wanted {asked.wanted}")
        return found


def phrases(path: Path) -> tuple[Phrase, ...]:
    lines = enumerate(path.read_text("utf-8").splitlines(), start=1)
    return tuple(_phrase(number, line) for number, line in lines if line.strip() and not line.startswith("#"))


def _phrase(number: int, line: str) -> Phrase:
    text, label, *rest = (part.strip() for part in line.split(" | "))
    if label == "none":
        return Phrase(number, text, False)
    extras = dict(each.partition("=")[::2] for each in (rest[1].split() if len(rest) > 1 else ()))
    return Phrase(number, text, True, "" if label == "-" else label, rest[0], extras)
