"""Sets with more to them: drops, rest-pause, part reps, warm-ups; and body weight with something added or helped by a band."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from random import Random

from bot.training.exercises.entry import LoadStyle
from tests.builders.spoken.done import Done, Spoken, draw_done, is_loaded
from tests.builders.spoken.words import draw_words

# l: the load, m: a lighter one, c: the count, d: the count with the lighter one.
DROPS = (
    "{l}x{c} drop {m}x{d}", "{l}x{c}, drop set {m}x{d}", "{l} x {c}, dropped to {m} for {d} more", "{l}x{c} then drop to {m} x {d}",
    "{c} @ {l}, drop set: {m} x {d}", "{l} {c} reps, drop {m} {d} reps", "{l} x {c} + drop {m} x {d}", "{l}x{c}, straight into {m}x{d}",
    "{l} x {c} (drop {m} x {d})", "{l}x{c}, dropset {m}x{d}", "{l} x {c}\ndrop: {m} x {d}", "{l} for {c}, drop to {m} for {d}",
)  # fmt: skip
DROPS_OR_NEXT = ("{l} for {c} then dropped to {m} for {d}", "{l} x {c}, then {m} x {d}", "{l}x{c}, went down to {m} for {d}")
RESTED = (
    "{l} {bouts} rest pause", "{bouts} rest-pause @ {l}", "rest pause {bouts} with {l}", "{l} x {bouts} (rest pause)", "{l}: {bouts} rest pause",
    "{l} {bouts} restpause", "{l} x {bouts}, rest-pause", "{bouts} with {l}, rest pause", "{bouts} RP @ {l}",
)  # fmt: skip
PARTIALS = (
    "{l}x{c} + {p} partials", "{c} + {p} halves with {l}", "{l} {c} reps plus {p} partials", "{l}x{c} and {p} half reps",
    "{c} full + {p} partials @ {l}", "{l} x {c}, then {p} partials", "{l} x {c} (+{p} partials)", "{l} for {c} and {p} partials",
    "{c} full reps and {p} partials with {l}",
)  # fmt: skip
WARM_UPS = (
    "warm up {m}x{d}, then {l}x{c}", "warmup {m} x {d}. work set {l} x {c}", "wu {m}x{d}, {l}x{c}", "warm-up: {m} x {d}\n{l} x {c}",
    "{m}x{d} warmup, {l}x{c}", "warm up set {m}x{d}, working set {l}x{c}", "{m} x {d} (warm up), {l} x {c}", "w/u {m}x{d}\n{l}x{c}",
    "warmed up with {m} x {d}, then {l} x {c}",
)  # fmt: skip
ADDED = (
    "+{l} x {c}", "{c} @ +{l}", "{c} with {l}", "{c} with +{l}", "{c} with {l} added", "{l} belt, {c}", "{c} with a {l} vest", "+{l} {c} reps",
    "{name} +{l} x {c}", "{name} {c} with {l} extra", "bw+{l} x {c}", "weighted, {l} x {c}", "{l} added, {c} reps", "bodyweight + {l} x {c}",
)  # fmt: skip
HELPED = (
    "{c} with the {band} band", "{c} assisted with {band}", "{band} band assist, {c}", "{c} with {band} band help", "{name} {c}, {band} band",
    "assisted {c}, {band} band", "{band} band x {c}", "{c} using the {band} band for help", "{band}-assisted {c}", "{c} ({band} band)",
)  # fmt: skip
PLATES = (
    "{p} a side x {c}", "bar + {p} a side, {c}", "{p} per side, {c} reps", "{c} @ {p} a side", "{p} each side of the bar, {c} reps",
    "{c} reps with {p} per side", "{name} {p} a side, {c} reps", "bar plus {p} per side x {c}", "{p}/side for {c}",
)  # fmt: skip
_PLATES_OF = {"kg": ("10", "15", "20", "22.5", "25", "30"), "lb": ("25", "35", "45", "55")}
_ADDED_TO = {"kg": ("2.5", "5", "7.5", "10", "12", "15"), "lb": ("5", "10", "15", "25")}
_SHARE_OF_DROPS_OR_NEXT = 0.1
_TAKES_MORE = ("pull_up", "chin_up", "dip")


def drops(draw: Random) -> Spoken:
    done, lighter, fewer = _with_lighter(draw, at_most=Decimal("0.8"))
    gold = done.gold(f"drop:{done.weigh(lighter)}:{fewer}")
    if draw.random() < _SHARE_OF_DROPS_OR_NEXT:
        return replace(_spoken(draw, done, DROPS_OR_NEXT, gold, m=lighter, d=fewer), asks_ok=True)
    return _spoken(draw, done, DROPS, gold, m=lighter, d=fewer)


def rest_pauses(draw: Random) -> Spoken:
    done = draw_done(draw, lambda one: is_loaded(one) and not one.is_sided)
    bouts = [*done.counts, draw.randint(2, 4), draw.randint(1, 3)]
    told = "bouts" + "+".join(map(str, bouts))
    return _spoken(draw, done, RESTED, done.said(str(sum(bouts)), told), bouts=draw.choice(("+", " + ")).join(map(str, bouts)))


def partials(draw: Random) -> Spoken:
    done = draw_done(draw, lambda one: is_loaded(one) and not one.is_sided)
    part = draw.randint(2, 4)
    return _spoken(draw, done, PARTIALS, done.gold(f"part{part}"), p=part)


def warm_ups(draw: Random) -> Spoken:
    done, lighter, count = _with_lighter(draw, at_most=Decimal("0.7"))
    warm = f"{done.slot.label} {done.weigh(lighter)} {count} warm"
    return _spoken(draw, done, WARM_UPS, f"{warm}; {done.gold()}", m=lighter, d=count)


def plates(draw: Random) -> Spoken:
    """A bar told by what hangs on each end."""
    done = draw_done(draw, lambda one: bool(one.person.bar) and one.exercise.load_style is LoadStyle.BARBELL and not one.is_sided)
    bar = done.person.situation.kit.bar
    assert bar is not None
    plate = Decimal(draw.choice(_PLATES_OF[done.person.unit.value]))
    whole = replace(done, amount=bar[0] + 2 * plate)
    unit = draw.choice(("", done.person.unit.value))
    return _spoken(draw, whole, PLATES, p=f"{plate}{unit}")


def added(draw: Random) -> Spoken:
    done = draw_done(draw, lambda one: one.exercise.id in _TAKES_MORE)
    amount = Decimal(draw.choice(_ADDED_TO[done.person.unit.value]))
    return _spoken(draw, replace(done, amount=amount, sign="+"), ADDED)


def helped(draw: Random) -> Spoken:
    done = draw_done(draw, lambda one: one.exercise.id in _TAKES_MORE and bool(one.person.bands))
    return _spoken(draw, replace(done, band=draw.choice(done.person.bands.split()), sign="-"), HELPED)


def _with_lighter(draw: Random, *, at_most: Decimal) -> tuple[Done, Decimal, int]:
    """A set, a load that is lighter by enough, and a count for it."""
    done = draw_done(draw, lambda one: is_loaded(one) and not one.is_sided and bool(_lighter(one, at_most)))
    return done, draw.choice(_lighter(done, at_most)[-3:]), draw.randint(4, 9)


def _lighter(done: Done, at_most: Decimal) -> list[Decimal]:
    assert done.amount is not None
    return [one for one in done.person.amounts(done.exercise) if one <= at_most * done.amount]


def _spoken(draw: Random, done: Done, forms: tuple[str, ...], gold: str = "", m: Decimal | None = None, **more: object) -> Spoken:
    """A form filled; both loads are said with their unit or bare, and never bare where one is added to the body."""
    unit = draw.choice((done.person.unit.value,) if done.sign else ("", done.person.unit.value))
    loads = {"l": f"{done.amount}{unit}", "m": f"{m}{unit}", "band": done.band}
    text = draw_words(draw, done).fill(draw.choice(forms), c=done.counts[0], **loads, **more)
    return Spoken(done.person, done.moment(), text, (gold or done.gold(),))
