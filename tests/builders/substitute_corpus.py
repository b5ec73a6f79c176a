"""Cases for substitutes: what a coach accepts, what would puzzle one, and how an answer stands to that."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from bot.training.blocks import ExerciseId
from bot.training.exercises.catalogue import Catalogue, load_catalogue
from bot.training.kit import Kit, KitItem, even_ladder
from bot.training.substitutes import Reason, Substitute, substitutes_for

K = KitItem
_PAIRS = even_ladder(K.DUMBBELL, low=2, high=24, step=2)
KITS: dict[str, Kit] = {
    "nothing": Kit(),
    "backpack": Kit(frozenset({K.BACKPACK})),
    "bands": Kit(frozenset({K.BAND, K.MINI_BAND, K.DOOR_ANCHOR}), bands=("yellow", "red", "black")),
    "dumbbells": Kit(frozenset({K.DUMBBELL}), (_PAIRS,)),
    "dumbbells_flat_bench": Kit(frozenset({K.DUMBBELL, K.BENCH}), (_PAIRS,)),
    "kettlebell": Kit(frozenset({K.KETTLEBELL}), (even_ladder(K.KETTLEBELL, low=16, high=16, step=1, pairs=False),)),
    "pull_up_bar": Kit(frozenset({K.PULL_UP_BAR, K.BAND})),
    "rings_only": Kit(frozenset({K.RINGS})),
    "home_no_bar": Kit(frozenset({K.DUMBBELL, K.BAND, K.DOOR_ANCHOR, K.INCLINE_BENCH}), (_PAIRS,)),
    "home": Kit(
        frozenset({K.DUMBBELL, K.BARBELL, K.PLATE, K.INCLINE_BENCH, K.PULL_UP_BAR, K.BAND, K.MINI_BAND, K.DOOR_ANCHOR}), (_PAIRS,)
    ),
    "gym": Kit(frozenset(KitItem) - {K.SANDBAG, K.SLIDER}),
}
REASONS = {"missing": Reason.MISSING_KIT, "pain": Reason.PAIN, "hard": Reason.TOO_HARD, "easy": Reason.TOO_EASY,
           "room": Reason.NO_ROOM, "noise": Reason.NOISE, "taken": Reason.TAKEN, "wish": Reason.WISH}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Case:
    line: int
    exercise: ExerciseId
    kit: str
    reason: Reason
    words: tuple[str, ...]  # parts that hurt, or things that are gone
    good: frozenset[str]
    bad: frozenset[str]
    nothing_is_fine: bool

    def ask(self, catalogue: Catalogue | None = None) -> tuple[Substitute, ...]:
        words = tuple(word.replace("_", " ") for word in self.words) if self.reason is Reason.PAIN else self.words
        return substitutes_for(
            self.exercise,
            kit=KITS[self.kit],
            reason=self.reason,
            catalogue=catalogue or load_catalogue(),
            hurting=words if self.reason is Reason.PAIN else (),
            missing=() if self.reason is Reason.PAIN else words,
        )

    def judge(self, exercise: str) -> str:
        """ "good", "bad", or "doubtful" where the gold names it on neither side."""
        return "good" if exercise in self.good else "bad" if exercise in self.bad else "doubtful"


def cases(path: Path) -> tuple[Case, ...]:
    lines = enumerate(path.read_text("utf-8").splitlines(), start=1)
    return tuple(_case(number, line) for number, line in lines if line.strip() and not line.startswith("#"))


def _case(number: int, line: str) -> Case:
    exercise, kit, reason, good, bad = (field.strip() for field in line.split("|"))
    catalogue = load_catalogue()
    assert catalogue.get(exercise) is not None and kit in KITS, f"line {number}: {exercise!r} or kit {kit!r} is unknown"
    kind, *words = reason.split()
    named, wrong = _weights(good.split(), number), _weights(bad.split(), number)
    return Case(
        number, ExerciseId(exercise), kit, REASONS[kind], tuple(words),
        frozenset(one for one, weight in named.items() if weight > wrong.get(one, 0)),
        frozenset(one for one, weight in wrong.items() if weight >= named.get(one, 0)),
        "nothing" in good.split(),
    )  # fmt: skip


def _weights(words: Iterable[str], line: int) -> dict[str, int]:
    """Each exercise named, and how exactly: by its id (3), its family (2), its pattern (1). The more exact word wins over the other side."""
    found: dict[str, int] = {}
    for word in words:
        if word == "nothing":
            continue
        kin = {str(one.id) for one in load_catalogue() if word in (one.id, f"@{one.family}", f"~{one.pattern.value}")}
        assert kin, f"line {line}: {word!r} is no exercise, family or pattern"
        weight = {"@": 2, "~": 1}.get(word[0], 3)
        found |= {one: max(weight, found.get(one, 0)) for one in kin}
    return found


@dataclass(frozen=True, slots=True)
class Score:
    cases: int
    first_good: int
    all_good: int
    wrong_answers: int
    answers: int
    listed: tuple[str, ...]


def score(path: Path) -> Score:
    """First choice acceptable, all choices acceptable, and wrong answers, over a file of cases."""
    counts: Counter[str] = Counter()
    listed = []
    for case in cases(path):
        found = case.ask()
        verdicts = [case.judge(one.exercise) for one in found]
        counts["answers"] += len(found)
        counts["wrong"] += verdicts.count("bad")
        first = case.nothing_is_fine if not found else verdicts[0] == "good"
        every = case.nothing_is_fine if not found else set(verdicts) == {"good"}
        counts["first"] += first
        counts["all"] += every
        if not every:
            answers = ", ".join(f"{one.exercise} ({verdict})" for one, verdict in zip(found, verdicts, strict=True)) or "nothing"
            listed.append(
                f"line {case.line}: {case.exercise}, {case.kit}, {case.reason.value} {' '.join(case.words)} -> {answers}"
            )
    return Score(len(cases(path)), counts["first"], counts["all"], counts["wrong"], counts["answers"], tuple(listed))
