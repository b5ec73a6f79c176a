"""Whole sessions in one message, laid out as people lay them out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from random import Random

from bot.training.blocks import Measure
from tests.builders.spoken.done import Done, Spoken, draw_sets
from tests.builders.spoken.doubts import is_doubtful
from tests.builders.spoken.people import CALLED, PEOPLE
from tests.builders.spoken.words import draw_words

GREETINGS = (
    "todays session\n", "done, heres mine:\n", "all sets from today\n", "workout 💪\n", "evening! here goes\n",
    "Session log\n",
)  # fmt: skip
FAREWELLS = ("\nthanks", "\nthat was hard", "\nphew", "\nsee you thursday", "\n😅")
FINISHED = ("Session done!\n", "all done 💪\n", "Finished!\n")
_SHARE_GREETED = 0.15
ONE_OF_A_ROUND = (
    "{name} {load} x {n}{each}", "{label} {load} x {n}{each}", "{load} x {n}{each} {name}", "{name} {n}{each} @ {load}",
)  # fmt: skip
ONE_WITHOUT_LOAD = ("{name} {count}", "{label} {count}", "{count} {name}", "{name} x {n}{each}")


@dataclass(frozen=True)
class Line:
    """What one line of a session says, each part as this person says it in every line."""

    place: int
    label: str
    name: str
    load: str
    counts: tuple[int, ...]
    joint: str
    unit: str

    @property
    def listed(self) -> str:
        return self.joint.join(map(str, self.counts)) + self.unit

    @property
    def short(self) -> str:
        """ "3x10" where the sets are alike, else every count."""
        alike = len(set(self.counts)) == 1
        return f"{len(self.counts)}x{self.counts[0]}{self.unit}" if alike else self.listed

    @property
    def each(self) -> list[str]:
        return [f"{count}{self.unit}" for count in self.counts]


Layout = Callable[[Line], str]


def _words(*parts: str) -> str:
    return " ".join(filter(None, parts))


LAYOUTS: dict[str, Layout] = {
    "names": lambda one: _words(one.name, one.load, one.listed),
    "labels": lambda one: _words(one.label, one.load, one.listed),
    "labels and names": lambda one: _words(one.label, one.name, one.load, one.listed),
    "colons": lambda one: f"{one.name}: " + _words(one.load, one.load and "x", one.listed),
    "label colons": lambda one: f"{one.label}: " + _words(one.load, one.listed),
    "at": lambda one: _words(one.name, one.short, one.load and f"@ {one.load}"),
    "with": lambda one: _words(one.name, one.short, one.load and f"with {one.load}"),
    "short": lambda one: _words(one.name, one.load, one.short),
    "brackets": lambda one: _words(one.name, one.load and f"({one.load})", one.listed),
    "headings": lambda one: "\n".join(
        [one.name.capitalize(), *(_words(one.load, one.load and "x", count) for count in one.each)]
    ),
    "numbered": lambda one: f"{one.place}. " + _words(one.name, one.load, one.listed),
    "bullets": lambda one: "- " + _words(one.name, one.load, one.listed),
    "table": lambda one: f"{one.name} | {one.load or 'bw'} | {one.listed}",
    "dashes": lambda one: " - ".join(filter(None, (one.name, one.load, one.listed))),
    "every set": lambda one: f"{one.name} " + ", ".join(_words(one.load, one.load and "x", count) for count in one.each),
    "counts first": lambda one: _words(one.listed, one.name, one.load and f"@ {one.load}"),
}


def sessions(draw: Random) -> Spoken:
    """Two slots or more from the first on, all their sets."""
    person = draw.choice(PEOPLE)
    slots = person.plan.slots[: draw.randint(2, len(person.plan.slots))]
    said = [draw_sets(draw, person, slot, len(slot.sets)) for slot in slots]
    layout = draw.choice(sorted(LAYOUTS))
    text = "\n".join(map(LAYOUTS[layout], _lines(draw, said)))
    gold = "; ".join(one.gold() for one in said)
    if len(slots) == len(person.plan.slots) and draw.random() < _SHARE_GREETED:
        return Spoken(person, "", draw.choice(FINISHED) + text, (gold, f"{gold}; finish"))
    greeting = draw.choice(GREETINGS) if draw.random() < _SHARE_GREETED else ""
    farewell = draw.choice(FAREWELLS) if draw.random() < _SHARE_GREETED else ""
    return Spoken(person, "", greeting + text + farewell, (gold,))


def in_one_line(draw: Random) -> Spoken:
    """Two or three exercises behind each other, each by its name, as they are said in one breath."""
    person = draw.choice(PEOPLE)
    slots = person.plan.slots[: draw.randint(2, 3)]
    said = [draw_sets(draw, person, slot, len(slot.sets)) for slot in slots]
    lines = [replace(one, joint=" ") for one in _lines(draw, said)]
    text = draw.choice((", ", "; ", ". ")).join(_words(one.name, one.load, one.short) for one in lines)
    return Spoken(person, "", text, ("; ".join(one.gold() for one in said),))


def rounds(draw: Random) -> Spoken:
    """One set of each exercise of a superset, named in the same way."""
    person = draw.choice([one for one in PEOPLE if not all(map(one.is_alone, one.plan.slots))])
    group = next(slot.group for slot in person.plan.slots if not person.is_alone(slot))
    said = [draw_sets(draw, person, slot, 1) for slot in person.plan.slots if slot.group == group]
    form = draw.randrange(len(ONE_OF_A_ROUND))
    words = [draw_words(draw, one) for one in said]
    parts = [one.fill((ONE_WITHOUT_LOAD if one.done.load == "bw" else ONE_OF_A_ROUND)[form]) for one in words]
    text = draw.choice((", ", " / ", " + ", " then ", " and ", "\n", "; ")).join(parts)
    doubtful = any(is_doubtful(part, one) for part, one in zip(parts, words, strict=True))
    return Spoken(person, said[0].moment(), text, ("; ".join(one.gold() for one in said),), doubtful)


def _lines(draw: Random, said: list[Done]) -> list[Line]:
    """The sets as lines in one person's habit: one joint, one way of units, capitals throughout or not at all."""
    joint = draw.choice((" ", ", ", "/", ","))
    says_units = draw.random() < 0.5
    says_pairs = draw.random() < 0.3
    capital = draw.random() < 0.4
    lines: list[Line] = []
    for place, done in enumerate(said, start=1):
        name = draw.choice(CALLED[done.exercise.id])
        load = _load(draw, done, says_units=says_units, says_pairs=says_pairs)
        name = name[0].upper() + name[1:] if capital else name
        lines.append(Line(place, done.slot.label, name, load, done.counts, joint, _unit(draw, done)))
    return lines


def _load(draw: Random, done: Done, *, says_units: bool, says_pairs: bool) -> str:
    if done.band:
        return done.band + draw.choice(("", " band"))
    if done.amount is None:
        return ""
    if says_pairs and done.is_pair:
        return f"{done.amount}s"
    return f"{done.amount}{done.person.unit.value if says_units else ''}"


def _unit(draw: Random, done: Done) -> str:
    return draw.choice(
        {Measure.REPS: ("",), Measure.SECONDS: ("s", "s", " sec"), Measure.STEPS: ("", " steps"), Measure.METRES: ("m", " m")}[
            done.measure
        ]
    )
