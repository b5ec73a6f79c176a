"""How does one person say load, counts and sides in one message? The words are drawn once and fill the forms of every family.

A form is a text with fields in braces:

    {load}   20kg, the 16s, red band         {n}      12: the first count, bare
    {list}   12, 11, 10 reps each            {count}  12 reps each side: the first count with all that is said of it
    {k}      how many sets                   {each}   each side, or nothing
    {name}   the exercise as people call it  {label}  B1
    {limb}   leg or arm
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from bot.training.blocks import Measure
from bot.training.exercises.entry import LoadStyle
from bot.training.kit import KitItem
from bot.training.loads import Unit
from tests.builders.spoken.done import Done
from tests.builders.spoken.people import CALLED

# Sayings are repeated where people use them more often.
UNITS = {
    Unit.KG: ("", "", "", "kg", "kg", "kg", " kg", " kilos", "kgs", "k"),
    Unit.LB: ("", "", "", "lb", "lbs", "lb", " lbs", " lb", " pounds"),
}
ONE_IMPLEMENT = {
    LoadStyle.PAIR: (
        "{n}s", "{n}'s", "the {n}s", "two {n}s", "2 {n}s", "{n}{unit} each hand", "{n}{unit} in each hand", "{n}{unit} dbs",
        "{n}{unit} dumbbells", "pair of {n}s", "double {n}s",
    ),
    LoadStyle.SINGLE: ("the {n}", "the {n}{unit}", "my {n}{unit}", "{n}{unit} db", "a {n}{unit} dumbbell", "one {n}{unit}"),
    LoadStyle.BARBELL: ("{n}{unit} bar", "{n}{unit} on the bar", "{n}{unit} total"),
    LoadStyle.MACHINE: ("{n}{unit} stack", "{n}{unit} on the stack", "the {n}{unit}", "pin at {n}{unit}"),
}  # fmt: skip
ONE_BELL = ("the {n}", "the {n}{unit}", "my {n}", "{n}{unit} kb", "{n}{unit} bell", "the {n}{unit} kettlebell", "kb {n}")
BANDS = ("{band}", "{band} band", "the {band} band", "{band} one", "the {band} one", "{band} loop")
COUNT_UNITS = {
    Measure.REPS: ("", "", "", " reps", "reps"),
    Measure.SECONDS: ("s", " sec", " secs", "s", " seconds", "sec", "secs"),
    Measure.STEPS: (" steps", "", " steps"),
    Measure.METRES: ("m", " m", " metres", " meters"),
}
SIDES = ("", "", " each", " each side", " e/s", " per side", " ea", "/side", " a side", " both sides")
LEG_OR_ARM = (" each {limb}", " per {limb}", "/{limb}")
_LEG = re.compile(r"squat|step|lunge|leg|pistol")
_SHARE_WITH_COMMA = 0.2  # of numbers that have a decimal point
_SHARE_WITH_OWN_WORDS = 0.35  # of loads said by their thing ("the 16s") rather than by the amount alone


@dataclass(frozen=True)
class Words:
    """The words of one message. is_bare: the load is said as a number and nothing else."""

    done: Done
    load: str
    unit: str
    count_unit: str
    each: str
    joint: str
    name: str
    is_bare: bool

    def fill(self, form: str, **more: object) -> str:
        """Put the words into a form. Raises KeyError for a field that is none."""
        count = self.done.counts[0]
        fields: dict[str, object] = {
            "load": self.load,
            "n": count,
            "count": self.count(count),
            "list": self.listed(),
            "k": len(self.done.counts),
            "each": self.each,
            "limb": limb(self.done),
            "name": self.name,
            "label": self.done.slot.label,
        }
        return _apart(form.format(**{**fields, **more}))

    def count(self, count: int) -> str:
        return f"{count}{self.count_unit}{self.each}"

    def listed(self) -> str:
        return f"{join(self.done.counts, self.joint)}{self.count_unit}{self.each}"


def draw_words(draw: Random, done: Done) -> Words:
    unit = draw.choice(UNITS[done.person.unit])
    load, is_bare = _load(draw, done, unit)
    return Words(
        done,
        load,
        unit,
        draw.choice(COUNT_UNITS[done.measure]),
        _each(draw, done),
        draw.choice(_joints(done)),
        draw.choice(CALLED[done.exercise.id]),
        is_bare,
    )


def join(counts: Sequence[int], joint: str) -> str:
    """ "12, 11, 10"; the joints " and " and " then " stand before the last only."""
    said = [str(count) for count in counts]
    if joint in (" and ", " then ") and len(said) > 1:
        return ", ".join(said[:-1]) + joint + said[-1]
    return joint.join(said)


def limb(done: Done) -> str:
    return "leg" if _LEG.search(done.exercise.id) else "arm"


def _load(draw: Random, done: Done, unit: str) -> tuple[str, bool]:
    """The load in words, and whether that is a bare number."""
    if done.band:
        return draw.choice(BANDS).format(band=done.band), False
    if done.amount is None:
        return "", False
    number = f"{done.amount:f}"
    if draw.random() < _SHARE_WITH_COMMA:
        number = number.replace(".", ",")
    if draw.random() >= _SHARE_WITH_OWN_WORDS:
        return number + unit, not unit
    return draw.choice(_things(done)).format(n=number, unit=unit), False


def _things(done: Done) -> Sequence[str]:
    style = done.exercise.load_style
    only_bells = any(ladder.item is KitItem.KETTLEBELL for ladder in done.person.situation.kit.ladders)
    if style is LoadStyle.SINGLE and (only_bells or done.exercise.id.startswith("kettlebell")):
        return ONE_BELL
    if style is LoadStyle.PAIR and done.is_sided:
        return tuple(saying for saying in ONE_IMPLEMENT[style] if "each" not in saying)  # it would speak of the sides
    return ONE_IMPLEMENT.get(style, ("{n}{unit}",))


def _each(draw: Random, done: Done) -> str:
    if not done.is_sided:
        return ""
    has_limb = done.measure is Measure.REPS and not done.exercise.id.endswith(("bug", "dog"))
    return draw.choice((*SIDES, *LEG_OR_ARM) if has_limb else SIDES).format(limb=limb(done))


def _joints(done: Done) -> Sequence[str]:
    """Hyphens are for three reps or more: two numbers with one between them are a range."""
    joints = (" ", ", ", ",", "/", " / ", " and ", " then ")
    return (*joints, "-") if done.measure is Measure.REPS and len(done.counts) > 2 else joints


def _apart(text: str) -> str:
    """ "20 kilosx12" as people write it: a word keeps off a number and off a multiplication sign."""
    return re.sub(r"(?<=[a-z]{3})(?<!kgx)(?<!lbx)(?=\d)|(?<=[a-z]{3})(?=[x×]\d)", " ", text)
