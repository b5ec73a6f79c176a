"""Who plays? One coach and six members with different kit, zones, habits and spelling. All invented."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from scenarios.lives.lifter import Lifter

COACH = "Ines"
Said = tuple[float | None, list[int]]  # (load in the member's unit, counts set by set)


@dataclass(frozen=True)
class Role:
    """One member. steps: a dumbbell's settings in the member's own unit (empty: body weight only). how: the way of texting a slot."""

    name: str
    language: str
    unit: str
    place: str
    kit: str
    first_day: str
    reminder: str
    trains_at: tuple[int, int]
    steps: Sequence[float]
    lifter: Lifter
    how: Callable[[str, str, Said, str], list[str]]
    swaps: bool = False


def _n(value: float | None, comma: bool = False) -> str:
    text = f"{value:g}" if value is not None else ""
    return text.replace(".", ",") if comma else text


def tidy(label: str, name: str, said: Said, unit: str) -> list[str]:
    """Short, a slot a line: "A1 16x12, 12, 11" (and set by set in the first days)."""
    load, counts = said
    listed = ", ".join(f"{count}{unit}" for count in counts)
    return [f"{label} {_n(load)}x{listed}" if load and not unit else f"{label} {_n(load) + 'kg x ' if load else ''}{listed}"]


def comma(label: str, name: str, said: Said, unit: str) -> list[str]:
    """A slot in one line, with decimal commas: "17,5 x 12, 11, 10"."""
    load, counts = said
    listed = ", ".join(f"{count}{unit}" for count in counts)
    return [f"{label} {_n(load, True)} kg x {listed}" if load else f"{label} {listed}"]


def chatty(label: str, name: str, said: Said, unit: str) -> list[str]:
    """Tells it: "ok b1 done, 12 12 and 10 with 8kg"."""
    load, counts = said
    listed = " ".join(f"{count}{unit}" for count in counts[:-1]) + (" and " if len(counts) > 1 else "") + f"{counts[-1]}{unit}"
    return [f"ok {label.lower()} done, {listed} with {_n(load)}kg" if load else f"{label.lower()} {listed}"]


def pounds(label: str, name: str, said: Said, unit: str) -> list[str]:
    """Short and in pounds: "25# x 12, 12, 10"."""
    load, counts = said
    listed = ", ".join(f"{count}{unit}" for count in counts)
    return [f"{label}: {_n(load)}# x {listed}" if load else f"{label} {listed}"]


def slashes(label: str, name: str, said: Said, unit: str) -> list[str]:
    """By exercise name: "goblet squat 12/12/10 w 16"."""
    load, counts = said
    listed = "/".join(str(count) for count in counts) + (f" {unit}" if unit else "")
    return [f"{name.lower()} {listed} w {_n(load)}" if load else f"{label} {listed}"]


def pasted(label: str, name: str, said: Said, unit: str) -> list[str]:
    """A line of a session that is pasted whole at the end."""
    load, counts = said
    listed = " ".join(f"{count}{unit}" for count in counts)
    return [f"{label} {name} {_n(load)}kg: {listed}" if load else f"{label} {name}: {listed}"]


CAST: tuple[Role, ...] = (
    Role("Mira", "en", "kilograms", "Lisbon", "dumbbells 2-24 by 2, bench, pull up bar, bands: yellow red black", "Monday", "17:30",
         (18, 0), tuple(range(2, 25, 2)), Lifter(1.0, 0.025, 11), tidy),
    Role("Jonas", "de", "kilograms", "Berlin", "dumbbells 2.5-30 by 2.5, barbell 20 with plates 4x10 2x5 2x2.5, bench, pull-up bar", "Monday", "06:30",
         (6, 50), tuple(n * 2.5 for n in range(1, 13)), Lifter(1.35, 0.02, 22), comma),
    Role("Priya", "en", "kilograms", "Kolkata", "kettlebells 8, 12, 16 and long bands red green, box", "Tuesday", "06:30",
         (7, 10), (8, 12, 16), Lifter(0.8, 0.03, 33), chatty, swaps=True),
    Role("Dale", "en", "pounds", "Denver", "dumbbells 5-50 by 5, adjustable bench, bands: light medium heavy, pull up bar", "Monday", "12:00",
         (12, 20), tuple(range(5, 51, 5)), Lifter(1.2, 0.02, 44), pounds),
    Role("Noor", "en", "kilograms", "Adelaide", "dumbbells 1-20 by 1, bench, mini bands, pull up bar", "Monday", "18:30",
         (19, 0), tuple(range(1, 21)), Lifter(0.85, 0.03, 55), slashes),
    Role("Teo", "en", "kilograms", "Sao Paulo", "dumbbells 2-20 by 2, rings", "Wednesday", "20:00",
         (20, 15), tuple(range(2, 21, 2)), Lifter(0.95, 0.0, 66), pasted),
)  # fmt: skip
