"""Sets of one exercise: one, several alike, several that differ; with a load, with a band, with nothing but the body."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from bot.training.blocks import Measure
from tests.builders.spoken.done import Done, Spoken, draw_done, draw_sets, is_loaded
from tests.builders.spoken.doubts import as_right, is_doubtful
from tests.builders.spoken.people import AMOUNTS, KG, LB
from tests.builders.spoken.words import UNITS, Words, draw_words

LOAD_THEN_COUNT = (
    "{load}x{n}{each}", "{load} x {count}", "{load} × {n}{each}", "{load} * {n}{each}", "{load} for {count}", "{load}, {count}",
    "{load} got {count}", "{load} - {count}", "{load} {count}", "{load}: {count}", "used {load}, did {count}", "{load} / {n} reps{each}",
    "{load}. {count}", "{load} → {count}", "{load} = {count}", "{load} by {n}{each}",
)  # fmt: skip
COUNT_THEN_LOAD = (
    "{count} @ {load}", "{n}@{load}", "{count} @{load}", "{count} with {load}", "{count} w {load}", "{count} w/ {load}", "{count} at {load}",
    "did {count} with {load}", "{count} using {load}", "{count} ({load})", "did {count}, {load}", "{count} on {load}", "got {count} at {load}",
)  # fmt: skip
COUNT_ALONE = (
    "{count}", "got {count}", "did {count}", "{count} done", "managed {count}", "just {count}", "{count} today", "only {count}",
    "{count} of them", "x{n}{each}", "i did {count}", "{name} {count}", "{count} {name}", "{name}: {count}", "{name} x {n}{each}",
)  # fmt: skip
ALIKE = (
    "{k}x{count} @ {load}", "{k}x{count} with {load}", "{k} sets of {count} with {load}", "{k} sets of {count} at {load}",
    "{load} {k}x{n}{each}", "{load}: {k}x{count}", "{load} for {k} sets of {count}", "{load} x {n} x {k}",
    "{load} x {n}{each} for {k} sets", "{k}x{n} {load}", "{k} x {n} x {load}", "{load}, {k} x {count}",
    "{k} times {count} with {load}", "{n} reps x {k} sets @ {load}", "all {k} sets {count} @ {load}", "{k}×{n}{each} {load}",
    "{k} sets {count} {load}", "{load} x {n}{each}, {k} sets",
)  # fmt: skip
ALIKE_ALONE = (
    "{k}x{count}", "{k} x {count}", "{k} sets of {count}", "{count} x {k} sets", "{k} sets {count}", "all {k} sets {count}",
    "{k} times {count}", "{name} {k}x{count}", "{k}x{count} {name}", "{name}: {k} sets of {count}", "{k} × {count}",
)  # fmt: skip
LISTED = (
    "{load}: {list}", "{load} {list}", "{load} x {list}", "{list} @ {load}", "{list} with {load}", "{list} w {load}", "{list} at {load}",
    "{load} for {list}", "{load} - {list}", "{load}, {list}", "{list} ({load})", "used {load}: {list}",
    "{load} all sets: {list}", "did {list} using {load}", "{list}, all with {load}",
)  # fmt: skip
LISTED_ALONE = (
    "{list}", "got {list}", "did {list}", "{name} {list}", "{name}: {list}", "{list} {name}", "{list} done", "{label} {list}", "i got {list}",
)  # fmt: skip
EACH_SET = ("{load}x{n}{each}", "{n}{each} @ {load}", "{load} x {n}{each}", "{load} for {n}{each}")
NUMBERED = (
    "set {number}: {one}", "set {number} {one}", "{number}) {one}", "{number}. {one}", "s{number} {one}", "{number}: {one}", "{nth} set {one}",
)  # fmt: skip
ONE_NUMBERED = (
    "set {number}: {load} x {n}{each}", "set {number} {load} x {n}{each}", "{nth} set {load} x {n}{each}", "{nth} set: {count} @ {load}",
    "{label} set {number}: {load} x {n}{each}", "{name} set {number}: {count} with {load}", "set {number} was {load} x {n}{each}",
    "set {number} done, {load} x {n}{each}", "{load} x {n}{each} for set {number}",
)  # fmt: skip
NTH = {1: ("1st", "first"), 2: ("2nd", "second"), 3: ("3rd", "third"), 4: ("4th", "fourth"), 5: ("5th", "fifth")}
WITH_BAND = (
    "{count} {load}", "{count} with {load}", "{load} x {n}{each}", "{load} {n}{each}", "{load}, {count}", "{load}: {count}", "{count} on {load}",
    "{count} ({load})", "{load} x{n}{each}", "{load} for {count}", "used {load}, {count}", "{count} w/ {load}", "{count} @ {load}",
)  # fmt: skip
BANDS_ALIKE = (
    "{k}x{count} {load}", "{load} {k}x{n}{each}", "{k} sets of {count} with {load}", "{k} x {count}, {load}",
    "{load}: {k}x{n}",
)  # fmt: skip
BANDS_LISTED = ("{load} {list}", "{load}: {list}", "{list} with {load}", "{list} {load}", "{list}, {load}", "{load} - {list}")

# What people write around a set. Effort stands behind it with what it comes to.
BEFORE = (
    "ok ", "just did ", "did ", "done, ", "hey coach ", "yep ", "so ", "there: ", "first one ", "well... ", "hi! ",
    "{label} ", "{label}: ", "{label} - ", "{label}) ", "{name} ", "{name}: ", "{name} - ", "{name}, ", "{name}\n", "set 1: ", "set 1 ",
)  # fmt: skip
BEHIND = {
    "": (
        " easy", ", felt heavy", "!!", " 😅", " was tough", ". grip gone", " rested 2 min", " phew", ", sweating", " - felt good", " not bad",
        " heavy today", ", that was brutal", " lol", " thanks", " slow and controlled", ", music helped", " better than last week", " 💪",
        ", dog watching me", " 🔥🔥", " ✅", "...", " haha", " yesss", ", pretty happy with that", " (new pb!)", " woo", ". next!",
    ),
    "rpe8": (" rpe 8", " RPE 8", " (rpe 8)"),
    "rpe8.5": (", rpe 8.5",),
    "rpe9": (" @rpe 9", ", RPE: 9"),
    "rir2": (" 2 in the tank", " 2 rir", ", 2 left"),
    "rir1": (", 1 left in the tank", " RIR 1"),
    "fail": (" to failure",),
}  # fmt: skip
_SHARE_PLAIN = 0.5  # of messages with nothing before the set, and of those with nothing behind it
_SHARE_WITHOUT_EFFORT = 0.6
_SHARE_WITH_LAST_TIME = 0.3
_SHARE_SET_BY_SET = 0.2


def one_set(draw: Random) -> Spoken:
    done = draw_done(draw, is_loaded)
    return dressed(draw, draw_words(draw, done), draw.choice((LOAD_THEN_COUNT, COUNT_THEN_LOAD)))


def alike_sets(draw: Random) -> Spoken:
    done = draw_done(draw, lambda one: is_loaded(one) and one.is_even, sets=draw.choice((2, 3, None)))
    return dressed(draw, draw_words(draw, done), ALIKE)


def listed_sets(draw: Random) -> Spoken:
    done = draw_done(draw, lambda one: is_loaded(one) and not one.is_even, sets=draw.choice((2, 3, None)))
    words = draw_words(draw, done)
    if draw.random() < _SHARE_SET_BY_SET:
        return _set_by_set(draw, words)
    return dressed(draw, words, LISTED)


def later_sets(draw: Random) -> Spoken:
    """From the second set on: what is said continues what is on record."""
    begun = draw_done(draw, lambda one: is_loaded(one) and len(one.slot.sets) > 2, alone=True)
    done = _later(draw, begun, sets=draw.choice((1, 1, 2)))
    forms = LISTED if len(done.counts) > 1 else draw.choice((LOAD_THEN_COUNT, COUNT_THEN_LOAD))
    return dressed(draw, draw_words(draw, done), forms)


def numbered_set(draw: Random) -> Spoken:
    """The set that is due, with its number."""
    begun = draw_done(draw, lambda one: is_loaded(one) and len(one.slot.sets) > 2, alone=True)
    words = draw_words(draw, _later(draw, begun, sets=1))
    first = words.done.first
    text = words.fill(draw.choice(ONE_NUMBERED), number=first, nth=draw.choice(NTH[first]))
    return Spoken(words.done.person, words.done.moment(), text, (words.done.gold(),))


def numbered_sets(draw: Random) -> Spoken:
    """A line for every set, numbered."""
    done = draw_done(draw, is_loaded, sets=draw.choice((2, None)))
    words = draw_words(draw, done)
    form = draw.choice(NUMBERED)
    ones = [words.fill("{load} x {n}{each}", n=count) for count in done.counts]
    lines = [form.format(number=number, nth=NTH[number][0], one=one) for number, one in enumerate(ones, start=1)]
    return Spoken(
        done.person, done.moment(), draw.choice(("\n", ", ", "\n")).join(lines), (done.gold(),), is_doubtful(lines[0], words)
    )


def other_unit(draw: Random) -> Spoken:
    """Somebody who counts in kilograms lifts a thing that is marked in pounds, or the other way round.

    Nobody whose loads are known: a load that is not among them is rightly asked about.
    """
    done = draw_done(draw, lambda one: is_loaded(one) and not one.person.situation.kit.ladders)
    other = LB if done.person.unit is KG else KG
    amount = draw.choice(AMOUNTS[other][done.exercise.load_style].split())
    unit = draw.choice([unit for unit in UNITS[other] if len(unit) > 1])
    words = replace(draw_words(draw, done), load=f"{amount}{unit}", is_bare=False)
    text = words.fill(draw.choice((*LOAD_THEN_COUNT, *COUNT_THEN_LOAD)))
    pair = "*2" if done.is_pair else ""
    return Spoken(done.person, done.moment(), text, (done.said(str(done.counts[0]), load=f"{amount}{other.value}{pair}"),))


def body_weight(draw: Random) -> Spoken:
    sets = draw.choice((1, 1, 2, None))
    done = draw_done(draw, lambda one: one.load == "bw" and one.measure is Measure.REPS, sets=sets)
    return dressed(draw, draw_words(draw, done), _forms(done, COUNT_ALONE, ALIKE_ALONE, LISTED_ALONE))


def banded(draw: Random) -> Spoken:
    done = draw_done(draw, lambda one: bool(one.band), sets=draw.choice((1, 1, 2, None)))
    return dressed(draw, draw_words(draw, done), _forms(done, WITH_BAND, BANDS_ALIKE, BANDS_LISTED))


def dressed(draw: Random, words: Words, forms: tuple[str, ...]) -> Spoken:
    """A form filled, with what people write around it."""
    done = words.done
    form = draw.choice([one for one in forms if _suits(one, done)])
    text = words.fill(before(draw, done, form) + form)
    effort, behind = _behind(draw)
    golds = (*done.golds(effort), *as_right(text, words, effort))
    moment = done.moment(with_last_time=draw.random() < _SHARE_WITH_LAST_TIME)
    return Spoken(done.person, moment, text + behind, golds, is_doubtful(text, words))


def before(draw: Random, done: Done, form: str) -> str:
    """What stands before a set, as a form: nothing, a word or two, the slot or the exercise; not what the form says itself."""
    if draw.random() < _SHARE_PLAIN:
        return ""
    is_first = done.first == 1 and len(done.counts) == 1
    fitting = [one for one in BEFORE if is_first or not one.startswith(("set 1", "first"))]
    if "{name}" in form or "did" in form or "used" in form:
        fitting = [one for one in fitting if "did" not in one and "{name}" not in one]
    return draw.choice(fitting)


def _suits(form: str, done: Done) -> bool:
    """ "all 3 sets" is said of all that were asked for, and "reps" of reps."""
    if "all" in form and len(done.counts) < len(done.slot.sets):
        return False
    return "reps" not in form or done.measure is Measure.REPS


def _later(draw: Random, done: Done, *, sets: int) -> Done:
    """The same exercise at the same load, begun before."""
    first = draw.randint(2, len(done.slot.sets) - sets + 1)
    again = draw_sets(draw, done.person, done.slot, sets, first=first)
    return replace(done, first=first, counts=again.counts)


def _behind(draw: Random) -> tuple[str, str]:
    """What is said behind a set, and the effort that it tells."""
    if draw.random() < _SHARE_PLAIN:
        return "", ""
    effort = "" if draw.random() < _SHARE_WITHOUT_EFFORT else draw.choice(sorted(BEHIND))
    return effort, draw.choice(BEHIND[effort])


def _set_by_set(draw: Random, words: Words) -> Spoken:
    """Every set with its load: "20x12, 20x11", or a line each."""
    done = words.done
    form = draw.choice(EACH_SET)
    text = draw.choice((", ", "\n", "; ", " then ", " / ")).join(words.fill(form, n=count) for count in done.counts)
    return Spoken(done.person, done.moment(), text, (done.gold(),), is_doubtful(text, words))


def _forms(done: Done, one: tuple[str, ...], alike: tuple[str, ...], listed: tuple[str, ...]) -> tuple[str, ...]:
    if len(done.counts) == 1:
        return one
    return (*alike, *listed) if done.is_even else listed
