"""What was done: the meaning that a message is spoken from, and the gold that it comes to."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import Decimal
from random import Random

from bot.training.blocks import Measure, Sides, Slot
from bot.training.exercises.entry import Exercise, LoadStyle
from tests.builders.spoken.people import PEOPLE, Person, exercise_of
from tests.builders.voices_records import MEASURES

_SUFFIX = {measure: suffix for suffix, measure in MEASURES.items()}
_SHARE_ALIKE = 0.4  # of several sets that are alike whatever was drawn
_DRAWS = 10_000  # far more than any wish needs


@dataclass(frozen=True)
class Spoken:
    """A message: who wrote it at which moment, and every outcome that is right. asks_ok: it may be taken two ways."""

    person: Person
    moment: str
    text: str
    golds: tuple[str, ...]
    asks_ok: bool = False

    def lines(self) -> list[str]:
        """The message as a file of voices of its own."""
        text = self.text.replace("\n", "\\n")
        gold = " or ".join((*self.golds, "ask") if self.asks_ok else self.golds)
        return [*self.person.lines(), f"@ {self.moment}", f"{text} | {gold}"]


@dataclass(frozen=True)
class Done:
    """Sets of one slot, from `first` on. amount: of an implement; without it and without a band it is body weight.

    sign: "+" for a load added to the body, "-" for help.
    """

    person: Person
    slot: Slot
    first: int
    counts: tuple[int, ...]
    amount: Decimal | None = None
    band: str = ""
    sign: str = ""

    @property
    def exercise(self) -> Exercise:
        return exercise_of(self.slot)

    @property
    def measure(self) -> Measure:
        return self.slot.sets[0].measure

    @property
    def is_sided(self) -> bool:
        return self.slot.sides is not Sides.BOTH

    @property
    def is_even(self) -> bool:
        return len(set(self.counts)) == 1

    @property
    def is_pair(self) -> bool:
        return self.exercise.load_style is LoadStyle.PAIR and self.amount is not None

    @property
    def load(self) -> str:
        """The load as the gold says it."""
        return self.sign + (self.band or self.weigh(self.amount)) if self.band or self.amount is not None else "bw"

    def weigh(self, amount: Decimal) -> str:
        """An amount as the gold says it, of this exercise's implement."""
        return f"{amount:f}{self.person.unit.value}{'*2' if self.exercise.load_style is LoadStyle.PAIR else ''}"

    def gold(self, more: str = "") -> str:
        """The sets in the notation of voices; `more` holds for each."""
        last = self.first + len(self.counts) - 1
        places = f"{self.slot.label}.{self.first}" + (f"-{last}" if last > self.first else "")
        counts = ",".join(f"{count}{_SUFFIX[self.measure]}" for count in self.counts)
        return f"{places} {self.load} {counts} {more}".strip()

    def said(self, count: str, more: str = "", *, load: str = "") -> str:
        """One set, the first of these, with another count or load than was drawn."""
        return f"{self.slot.label}.{self.first} {load or self.load} {count}{_SUFFIX[self.measure]} {more}".strip()

    def golds(self, effort: str) -> tuple[str, ...]:
        """What may be recorded of an effort told once, behind all sets: it speaks of the last, or of each."""
        if not effort or len(self.counts) == 1:
            return (self.gold(effort),)
        return (f"{self.part(0, -1).gold()}; {self.part(-1, None).gold(effort)}", self.gold(effort))

    def part(self, start: int, stop: int | None) -> Done:
        counts = self.counts[start:stop]
        first = self.first + (start if start >= 0 else len(self.counts) + start)
        return replace(self, first=first, counts=counts)

    def moment(self, *, so_far: int | None = None, with_last_time: bool = False) -> str:
        """What is on record: every slot before this one, and the sets before `first`, at the same load.

        so_far: the count of those sets, the least asked for where none is told. With with_last_time the sets of the week before
        are told too, at the same load and the least count.
        """
        slots = self.person.plan.slots
        least = range_of(self.slot)[0]
        told = [_all_sets(self.person, slot) for slot in slots[: slots.index(self.slot)]]
        if self.first > 1:
            told.append(replace(self, first=1, counts=(so_far or least,) * (self.first - 1)).gold())
        last = f"last: {replace(self, first=1, counts=(least,) * len(self.slot.sets)).gold()}"
        return " | ".join(filter(None, ("; ".join(told), last if with_last_time else "")))


Wish = Callable[[Done], bool]


def draw_done(draw: Random, wish: Wish = lambda done: True, *, sets: int | None = 1, alone: bool = False) -> Done:
    """Draw sets that somebody may have done. sets: how many, None for all of the slot; alone: not in a superset."""
    for _ in range(_DRAWS):
        person = draw.choice(PEOPLE)
        slot = draw.choice(person.plan.slots)
        if alone and not person.is_alone(slot):
            continue
        number = min(sets or len(slot.sets), len(slot.sets))
        done = draw_sets(draw, person, slot, number)
        if wish(done):
            return done
    raise AssertionError("nobody's day has such sets")


def draw_sets(draw: Random, person: Person, slot: Slot, number: int, *, first: int = 1) -> Done:
    """So many sets of one slot, with a load that the person has."""
    exercise = exercise_of(slot)
    amounts = person.amounts(exercise)
    band = draw.choice(person.bands.split()) if exercise.load_style is LoadStyle.BAND else ""
    counts = tuple(draw_count(draw, slot) for _ in range(number))
    counts = counts[:1] * number if draw.random() < _SHARE_ALIKE else counts
    return Done(person, slot, first, counts, draw.choice(amounts) if amounts else None, band)


def draw_count(draw: Random, slot: Slot) -> int:
    """Reps run one out of the range, holds and distances in steps of five inside it."""
    low, high = range_of(slot)
    if slot.sets[0].measure is Measure.REPS:
        return draw.randint(max(1, low - 1), high + 1)
    return draw.choice(range(low, high + 1, 5))


def range_of(slot: Slot) -> tuple[int, int]:
    target = slot.sets[0]
    assert target.low is not None
    return target.low, target.high or target.low


def is_loaded(done: Done) -> bool:
    """Reps with an implement."""
    return done.amount is not None and done.measure is Measure.REPS


def _all_sets(person: Person, slot: Slot) -> str:
    """Every set of a slot at its least count, with a load from the middle of what the person has."""
    amounts = person.amounts(exercise_of(slot))
    band = person.bands.split()[0] if exercise_of(slot).load_style is LoadStyle.BAND else ""
    least = (range_of(slot)[0],) * len(slot.sets)
    return Done(person, slot, 1, least, amounts[len(amounts) // 2] if amounts else None, band).gold()
