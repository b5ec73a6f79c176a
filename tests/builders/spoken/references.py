"""What stands on the set before: the same again, one more, up a little, and what was put wrong."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from random import Random

from tests.builders.spoken.done import Done, Spoken, draw_count, draw_done, is_loaded
from tests.builders.spoken.words import draw_words

# c: the count before, l: the load before, d: another count, m: another load.
SAME = (
    "same", "same again", "Same.", "ditto", "and again", "same thing", "repeat", "another one the same", "same as before", "same as the first",
    "exactly the same", "{l} x {c} again", "again {c}", "{c} again", "same weight, same reps", "same same", "SAME", "same!", "again", "idem",
    "same reps same weight", "as before",
)  # fmt: skip
OTHER_COUNT = (
    "same but {d}", "same weight, {d}", "same weight {d} reps", "{d} this time", "{d}", "got {d}", "{l} again, {d}", "{l} again {d}",
    "same load, {d}", "only {d} this time", "{d} reps same weight", "same again but {d} reps", "still {l}, {d}", "stayed at {l}, got {d}",
    "kept {l} for {d}", "{d} with the same", "same weight but only {d}", "and {d}", "then {d}", "next set {d}", "set 2: {d}",
)  # fmt: skip
OTHER_LOAD = (
    "same reps with {m}", "same reps @ {m}", "same reps but {m}", "{m} same reps", "{m}, same reps", "same number with {m}",
)  # fmt: skip
UP = (
    "up to {m}, {d}", "went up to {m} and got {d}", "moved up to {m} for {d}", "bumped it to {m}, {d}", "heavier: {m} x {d}",
    "{m} now, {d}",
)  # fmt: skip
DOWN = (
    "down to {m}, {d}", "dropped to {m}, {d}", "went down to {m} for {d}", "lighter, {m} x {d}", "back down to {m}, {d}",
    "{m} now, {d}",
)  # fmt: skip
UP_BY = (
    "up {s}, {d}", "+{s} got {d}", "{s} more, {d} reps", "added {s}, {d} reps", "went up {s} and got {d}", "{s} heavier, {d}",
)  # fmt: skip
ONE_MORE = ("one more than last set", "one rep more than before", "same plus one", "same +1")
ONE_LESS = ("one less", "same, minus one", "one rep less", "same but one less", "one fewer")
TRAILS = ("", "", "", "", " phew", ", harder now", "!", " 😅", ", ok", " 💪")

COUNT_WRONG = (
    "that was {d} not {c}", "last one was {d} reps", "sorry {d} reps not {c}", "oops, {d} reps", "no, {d} reps", "actually {d} reps",
    "make that {d} reps", "should be {d} reps", "meant {d} reps", "i meant {d} reps", "*{d} reps", "it was {d} reps", "wait {d} reps",
    "correction: {d} reps", "last set was only {d} reps", "that should say {d} reps", "sorry, that was {d} reps", "typo, {d} reps",
    "{d} reps sorry", "{d} reps, not {c}", "i miscounted, it was {d}", "change that to {d} reps", "{d} not {c}",
    "that last set was {d}", "Sorry! {d} reps", "edit: {d} reps", "hang on, {d} reps not {c}", "fix: {d} reps",
    "scratch that, {d} reps", "my mistake, {d} reps",
)  # fmt: skip
LOAD_WRONG = (
    "that was {m} not {l}", "last one was {m}", "sorry {m} not {l}", "oops, {m}", "weight was {m}", "actually {m}", "make that {m}",
    "should be {m}", "meant {m}", "*{m}", "it was {m}", "wrong weight, {m}", "correction {m}", "last set was with {m}", "that should be {m}",
    "not {l}, {m}", "it was the {m}", "sorry that was with {m}", "i used {m} not {l}", "change the weight to {m}", "typo: {m}",
    "the weight should be {m}", "i had {m} on, not {l}", "load was {m} actually",
)  # fmt: skip
FIRST_COUNT_WRONG = (
    "set 1 was {d} reps", "first set was {d} reps", "set 1 should be {d} reps", "{label} set 1 was {d} reps", "first one was {d} reps",
    "change set 1 to {d} reps", "my first set was {d} reps not {c}", "{label} set 1: {d} reps not {c}", "set one was {d} not {c}",
    "1st set was {d} reps", "the first set should say {d} reps", "sorry, set 1 was {d}", "{name} set 1 was {d} reps",
)  # fmt: skip
FIRST_LOAD_WRONG = (
    "set 1 was {m}", "first set was {m}", "set 1 should be {m}", "{label} set 1 was {m}", "first set was with {m}", "change set 1 to {m}",
    "the first one was {m} not {l}", "1st set was with {m}", "set one was {m} not {l}", "{name} set 1 was {m}",
)  # fmt: skip
ALL_LOADS_WRONG = (
    "both sets were {m}", "both were {m} not {l}", "all sets were with {m}", "both sets with {m}, sorry",
    "all of them were {m}",
)  # fmt: skip


@dataclass(frozen=True)
class Before:
    """A set on record and what may stand beside it: another count, another load."""

    done: Done
    count: int
    other_count: int
    load: Decimal
    other_load: Decimal

    def fields(self, say_unit: str) -> dict[str, object]:
        said = {"l": f"{self.load:f}{say_unit}", "m": f"{self.other_load:f}{say_unit}"}
        return {"c": self.count, "d": self.other_count, **said}


def again(draw: Random) -> Spoken:
    """The set that follows one on record, told by it."""
    was = _before(draw, sets=1)
    forms, count, load = draw.choice(_ways(was))
    text = _fill(draw, was, draw.choice(forms)) + draw.choice(TRAILS)
    gold = was.done.said(str(count), load=was.done.weigh(load))
    return Spoken(was.done.person, was.done.moment(so_far=was.count), text, (gold,))


def put_right(draw: Random) -> Spoken:
    """A set on record that was put wrong: the last one, the first one, or both."""
    was = _before(draw, sets=2)
    load = was.done.weigh(was.other_load)
    place = {first: replace(was.done, first=first) for first in (1, 2)}
    forms, fixes = draw.choice(
        (
            (COUNT_WRONG, [place[2].said(str(was.other_count))]),
            (LOAD_WRONG, [place[2].said(str(was.count), load=load)]),
            (FIRST_COUNT_WRONG, [place[1].said(str(was.other_count))]),
            (FIRST_LOAD_WRONG, [place[1].said(str(was.count), load=load)]),
            (ALL_LOADS_WRONG, [place[1].said(str(was.count), load=load), place[2].said(str(was.count), load=load)]),
        )
    )
    text = _fill(draw, was, draw.choice(forms))
    gold = "; ".join(f"fix {one}" for one in fixes)
    return Spoken(was.done.person, was.done.moment(so_far=was.count), text, (gold,))


def _ways(was: Before) -> list[tuple[tuple[str, ...], int, Decimal]]:
    """Forms with the count and the load they tell."""
    step = was.other_load - was.load
    ways = [
        (SAME, was.count, was.load),
        (OTHER_COUNT, was.other_count, was.load),
        (OTHER_LOAD, was.count, was.other_load),
        (UP if step > 0 else DOWN, was.other_count, was.other_load),
        (ONE_MORE, was.count + 1, was.load),
        (ONE_LESS, was.count - 1, was.load),
    ]
    return [*ways, (UP_BY, was.other_count, was.other_load)] if step > 0 else ways


def _fill(draw: Random, was: Before, form: str) -> str:
    unit = was.done.person.unit.value
    words = draw_words(draw, was.done)
    step = f"{was.other_load - was.load:f}{unit}"
    return words.fill(form, **was.fields(draw.choice((unit, f" {unit}"))), s=step)


def _before(draw: Random, *, sets: int) -> Before:
    """A slot on its own with so many sets on record, and room for one more.

    The other load is a neighbour of the first, so that a change of it is nothing to wonder at.
    """
    done = draw_done(draw, lambda one: is_loaded(one) and len(one.slot.sets) > 2 and one.counts[0] > 2, alone=True)
    assert done.amount is not None
    amounts = done.person.amounts(done.exercise)
    near = [one for one in amounts if one != done.amount and Decimal("0.7") < one / done.amount < Decimal("1.4")]
    if not near:
        return _before(draw, sets=sets)
    count = done.counts[0]
    other = next(one for one in iter(lambda: draw_count(draw, done.slot), 0) if one != count)
    return Before(replace(done, first=sets + 1), count, other, done.amount, draw.choice(near))
