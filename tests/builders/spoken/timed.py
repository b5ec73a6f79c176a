"""Holds in seconds, as a clock shows them or in words, and carries in metres and steps."""

from __future__ import annotations

from random import Random

from bot.training.blocks import Measure
from tests.builders.spoken.done import Spoken, draw_done
from tests.builders.spoken.doubts import is_doubtful
from tests.builders.spoken.sets import ALIKE, ALIKE_ALONE, LISTED, LISTED_ALONE, before, dressed
from tests.builders.spoken.words import draw_words

HELD = (
    "{time}{each}", "held {time}{each}", "{time} hold{each}", "got {time}{each}", "{name} {time}{each}", "{name}: {time}{each}",
    "did {time}{each}", "{time}{each} {name}", "managed {time}{each}", "{time}{each} today", "just {time}{each}", "{name} for {time}{each}",
)  # fmt: skip
SHORT_TIMES = ("{s}s", "{s} sec", "{s} seconds", "{s}sec", "{s} secs", "0:{s:02}", "{s}''", '{s}"', "00:{s:02}")
LONG_TIMES = (
    "{m}:{s:02}", "{m} min {s}", "{m}m{s}s", "{m} min {s} sec", "{m}min {s}s", "{m} minute {s}", "{all}s", "{all} seconds",
)  # fmt: skip
A_MINUTE = ("a minute", "1 min", "1 minute", "one minute", "1:00", "60s", "60 sec", "a full minute")
HALF_A_MINUTE = ("half a minute", "30s", "0:30", "30 sec")
CARRIED = (
    "{load} x {n}{unit}", "{count} @ {load}", "{count} with {load}", "{load} for {count}", "{load} {count}", "{load}, {count}",
    "{load}: {count}", "{count} carrying {load}", "carried {load} {count}", "{name} {count} with {load}", "{name}: {load}, {count}",
    "walked {count} with {load}",
)  # fmt: skip


def holds(draw: Random) -> Spoken:
    """One hold, told as a time."""
    done = draw_done(draw, lambda one: one.measure is Measure.SECONDS)
    words = draw_words(draw, done)
    form = draw.choice(HELD)
    text = words.fill(before(draw, done, form) + form, time=say_time(draw, done.counts[0]))
    return Spoken(done.person, done.moment(), text, (done.gold(),))


def several_holds(draw: Random) -> Spoken:
    done = draw_done(draw, lambda one: one.measure is Measure.SECONDS, sets=draw.choice((2, None)))
    return dressed(draw, draw_words(draw, done), (*ALIKE_ALONE, *LISTED_ALONE) if done.is_even else LISTED_ALONE)


def carries(draw: Random) -> Spoken:
    done = draw_done(draw, lambda one: one.amount is not None and one.measure is not Measure.REPS)
    words = draw_words(draw, done)
    form = draw.choice(CARRIED)
    text = words.fill(before(draw, done, form) + form, unit=words.count_unit)
    return Spoken(done.person, done.moment(), text, (done.gold(),), is_doubtful(text, words))


def several_carries(draw: Random) -> Spoken:
    done = draw_done(draw, lambda one: one.amount is not None and one.measure is not Measure.REPS, sets=draw.choice((2, None)))
    return dressed(draw, draw_words(draw, done), (*ALIKE, *LISTED) if done.is_even else LISTED)


def say_time(draw: Random, seconds: int) -> str:
    minutes, rest = divmod(seconds, 60)
    if seconds in (30, 60):
        return draw.choice(HALF_A_MINUTE if seconds == 30 else A_MINUTE)
    return draw.choice(LONG_TIMES if minutes else SHORT_TIMES).format(m=minutes, s=rest, all=seconds)
