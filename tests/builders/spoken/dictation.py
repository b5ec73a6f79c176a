"""Sets dictated to a phone: every number is a word."""

from __future__ import annotations

from decimal import Decimal
from random import Random

from tests.builders.spoken.done import Done, Spoken, draw_done, is_loaded
from tests.builders.spoken.words import draw_words

ONE = (
    "{l} {unit} for {c}{each}", "{c} reps{each} with {l} {unit}", "{l} for {c}{each}", "{c} at {l} {unit}{each}", "did {c} with the {l} {unit}{each}",
    "{l} {unit} {c} reps{each}", "I did {c} reps{each} at {l} {unit}", "{name} {l} {unit} for {c}{each}", "okay so that was {c} with {l} {unit}{each}",
    "{l} {unit} times {c}{each}", "so I got {c} reps{each} using {l} {unit}", "{l} {unit}, {c} reps{each}",
    "{name} {c} reps{each} at {l} {unit}", "just finished {c} reps{each} with {l} {unit}", "{l} {unit} by {c}{each}",
)  # fmt: skip
ALIKE = (
    "{k} sets of {c}{each} with {l} {unit}", "{k} sets of {c}{each} at {l}", "I did {k} sets of {c} reps{each} at {l} {unit}",
    "{l} {unit} for {k} sets of {c}{each}", "{k} by {c} at {l} {unit}", "all {k} sets of {c} reps{each} with {l} {unit}",
)  # fmt: skip
LISTED = ("{l} {unit} {cs}{each}", "{cs}{each} with {l} {unit}", "{l} {unit} for {cs}{each}", "I got {cs}{each} at {l} {unit}")
UNITS = {"kg": ("kilos", "kilograms", "kg", "kilo"), "lb": ("pounds", "lbs", "pound")}
SIDES = ("", " each side", " per side", " each")
_SHARE_PUNCTUATED = 0.4
_ONES = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen",
    "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = ("zero", "ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")


def dictated(draw: Random) -> Spoken:
    sets = draw.choice((1, 1, 2, None))
    done = draw_done(draw, is_loaded, sets=sets, alone=True)
    assert done.amount is not None
    text = draw_words(draw, done).fill(
        draw.choice(_forms(done)),
        l=say_number(draw, done.amount),
        c=say_number(draw, done.counts[0]),
        cs=draw.choice((" ", ", ", " then ")).join(say_number(draw, one) for one in done.counts),
        k=say_number(draw, len(done.counts)),
        unit=draw.choice(UNITS[done.person.unit.value]),
        each=draw.choice(SIDES) if done.is_sided else "",
    )
    text = text[0].upper() + text[1:] + "." if draw.random() < _SHARE_PUNCTUATED else text
    # Two counts of a one-sided exercise are two sets by custom, and may well be left and right.
    return Spoken(done.person, done.moment(), text, (done.gold(),), asks_ok=done.is_sided and len(done.counts) == 2)


def say_number(draw: Random, number: Decimal | int) -> str:
    """ "fifty-two point five", "a hundred and ten", "two hundred twenty five"."""
    whole = int(number)
    if whole != number:
        return f"{say_number(draw, whole)} point {_ONES[int((number - whole) * 10)]}"
    if whole < len(_ONES):
        return _ONES[whole]
    if whole < 100:
        tens, ones = divmod(whole, 10)
        return _TENS[tens] + (draw.choice("- ") + _ONES[ones] if ones else "")
    hundreds, rest = divmod(whole, 100)
    head = draw.choice(("a hundred", "one hundred")) if hundreds == 1 else f"{_ONES[hundreds]} hundred"
    return head + (draw.choice((" and ", " ")) + say_number(draw, rest) if rest else "")


def _forms(done: Done) -> list[str]:
    if len(done.counts) == 1:
        return list(ONE)
    if not done.is_even:
        return list(LISTED)
    return [form for form in ALIKE if "all" not in form or len(done.counts) == len(done.slot.sets)]
