"""What is told of one set beside load and count: the sides apart, how hard it was, how it went, and what there is to tell of the day."""

from __future__ import annotations

from random import Random

from bot.training.blocks import Measure
from tests.builders.spoken.done import Spoken, draw_done, is_loaded
from tests.builders.spoken.doubts import is_doubtful
from tests.builders.spoken.words import draw_words

# a is left, b is right.
SIDES = (
    "L{a} R{b} @ {load}", "left {a} right {b} with {load}", "{a} left {b} right, {load}", "{load}: left {a}, right {b}",
    "right {b}, left {a} @ {load}", "got {a} on the left and {b} on the right with {load}", "{load} L {a} R {b}", "{load} x {a} left, {b} right",
    "{load} r{b} l{a}", "with {load}: {a} left, {b} right", "{load} L{a}/R{b}", "left: {a}, right: {b}, {load}", "{load} {a}L {b}R",
    "{a} L / {b} R at {load}", "left {limb} {a} right {limb} {b} {load}", "right side {b} left side only {a}, {load}", "{load} {a}l/{b}r",
    "{a} on left, {b} on right @ {load}", "{load} - l: {a} r: {b}", "{b} right {a} left, {load}", "{load} left {limb} {a}, right {limb} {b}",
    "{load}\nleft {a}\nright {b}", "{name} {load} L{a} R{b}", "{name}: {a} left / {b} right, {load}",
    "left {a}, but {b} on the right ({load})", "{load} got {b} right and only {a} left", "lhs {a} rhs {b} with {load}",
    "{load} {a} reps left, {b} reps right",
)  # fmt: skip
SIDES_HELD = (
    "left {a}s right {b}s", "L {a} R {b}", "{a} sec left, {b} sec right", "left side {a}, right side {b}", "{a}s left / {b}s right",
    "right {b}s left {a}s", "{name} left {a} right {b}", "L{a}s R{b}s", "{a} left and {b} right",
)  # fmt: skip
EFFORTS = {
    "": (", good form", ", nice and smooth", ", felt light", ", solid"),
    "rpe8": (" rpe 8", " RPE8", " @ rpe 8", " effort 8/10", ", felt like an 8", " rpe: 8", ", rpe8", " (RPE 8)", ", 8 out of 10", ". rpe 8"),
    "rpe7.5": (", rpe 7.5", " RPE 7,5", " rpe 7.5!"),
    "rpe9": (" rpe: 9", ", felt like rpe 9", " @rpe9", ", 9/10 effort"),
    "rpe8.5": (" (rpe 8-9)", " rpe 8.5"),
    "rir2": (
        " 2 rir", " RIR 2", ", 2 in reserve", ", 2 left in the tank", ", could have done 2 more", ", maybe 2 left", ", about 2 reps left",
        ", two left", " 2RIR", ", two more in me", " with 2 in the tank", ", 2 to spare", ", couple more in me",
    ),
    "rir1": (
        ", rir 1", ", 1 more in me", ", could have done one more", ", couldve got another one", ", one rep in reserve", " 1rir",
        ", one left in the tank", ", had one more",
    ),
    "rir3": (", had 3 more in me", " rir3", ", 3 reps in the tank", ", three left"),
    "rir0": (", nothing left", ", zero left in the tank", " 0 rir", ", none left", " rir 0"),
    "rir2.5": (", 2-3 left in the tank", ", 2-3 rir"),
    "fail": (" to failure", ", failed on the last", " till failure", ", went to failure", " (failure)"),
    "form-": (", form broke down", ", form went on the last one", ", last two were ugly", ", last rep was sloppy", ", form was bad"),
    "tempo+": (", tempo kept", ", on tempo", ", kept the tempo"),
    "tempo-": (", lost the tempo", ", rushed the tempo", ", too fast on the way down"),
}  # fmt: skip
PLAIN = (
    "{load}x{n}{each}", "{load} x {n}{each}", "{count} @ {load}", "{load} for {n}{each}", "{count} with {load}",
    "{load} {n} reps{each}",
)  # fmt: skip
# g: what was aimed at and missed.
AIMED = (
    "{load} x {n}{each}, was going for {g}", "wanted {g}, got {count} @ {load}", "went for {g} but got {count} with {load}",
    "{load} x {n}{each} (target {g})", "{load} x {n}{each} instead of {g}", "{count} with {load}, plan was {g}", "aimed for {g}, did {count} at {load}",
    "{load} for {n}{each}, not the {g} i wanted", "tried for {g}, only {count} @ {load}", "{load} x {n}{each}, supposed to be {g}",
)  # fmt: skip
YESTERDAY = (
    "yesterday: {name} {load} x {n}{each}", "yesterday {name} {load} x {n}{each}", "{name} {load} x {n}{each} yesterday",
    "from yesterday: {name} {count} @ {load}", "forgot to log yesterday, {name} {load} x {n}{each}", "yesterday i did {name} {count} with {load}",
    "did {name} yesterday, {load} x {n}{each}", "last night: {name} {load} x {n}{each}",
)  # fmt: skip
TOLD_BEFORE = (
    "after 5h sleep: ", "baby was up at 3 so only ", "late start, 20 min behind. ", "back from work at 7. ", "day 4 of no sugar. ",
    "2nd coffee kicking in. ", "finally home. ", "was aiming for more. ", "gym was packed with 15 people. ", "ok week 3 lets go. ",
    "playlist on shuffle, ", "30 degrees out there. ", "just turned 50 and still: ", "4 weeks in. ", "took the 9am bus. ", "one kid asleep. ",
    "hotel gym, 3rd floor. ", "my knee is fine today btw. ", "only had 40 minutes. ", "had pizza at 1, regret it. ",
)  # fmt: skip
TOLD_BEHIND = (
    ", kid is 4 and climbing on me", ", last week was 3 less", ", phone at 5%", ", took 3 min rest before it", ", rested 90s",
    ", dog needs out by 8", ", leaving in 10 min", ", 2 more exercises to go", ", 30 degrees in here", ", heart rate 150", ", slept 6 hours",
    ", neighbour complained at 7", ", bus in 15 min", ", third day in a row", ", my son counted", ", wife laughed", ", 1st time at this weight",
    ", see you at 7:30", ", feeling 7/10 today", ", had 2 eggs before", ", 20 minutes left", ", two years ago i couldnt lift this",
    ", watched 2 episodes already", ", its 9pm here", ", my 3 year old wants to play", ", lost 2 kilos this month",
    ", windows open and 12 degrees", ", half an hour to go", ", page 40 of my book between sets",
)  # fmt: skip


def sides_apart(draw: Random) -> Spoken:
    done = draw_done(draw, lambda one: one.is_sided and is_loaded(one))
    words = draw_words(draw, done)
    left = done.counts[0]
    right = max(1, left + draw.choice((-2, -1, 1, 2)))
    text = words.fill(draw.choice(SIDES), a=left, b=right)
    return Spoken(done.person, done.moment(), text, (done.said(f"L{left}/R{right}"),))


def sides_held(draw: Random) -> Spoken:
    done = draw_done(draw, lambda one: one.is_sided and one.measure is Measure.SECONDS)
    left = done.counts[0]
    right = left + draw.choice((-5, -3, 2, 5))
    text = draw_words(draw, done).fill(draw.choice(SIDES_HELD), a=left, b=right)
    return Spoken(done.person, done.moment(), text, (done.said(f"L{left}/R{right}"),))


def efforts(draw: Random) -> Spoken:
    done = draw_done(draw, is_loaded)
    words = draw_words(draw, done)
    effort = draw.choice(sorted(EFFORTS))
    body = words.fill(draw.choice(PLAIN))
    text = body + draw.choice(EFFORTS[effort])
    return Spoken(done.person, done.moment(), text, (done.gold(effort),), is_doubtful(body, words))


def aims(draw: Random) -> Spoken:
    """What was aimed at stands beside what was done."""
    done = draw_done(draw, is_loaded)
    words = draw_words(draw, done)
    text = words.fill(draw.choice(AIMED), g=done.counts[0] + draw.randint(1, 3))
    return Spoken(done.person, done.moment(), text, (done.gold(),), is_doubtful(text, words))


def yesterday(draw: Random) -> Spoken:
    """A set of the session before, with nothing on record today."""
    done = draw_done(draw, is_loaded, alone=True)
    words = draw_words(draw, done)
    text = words.fill(draw.choice(YESTERDAY))
    return Spoken(done.person, "", text, (done.gold("on-1"),), is_doubtful(text, words))


def stories(draw: Random) -> Spoken:
    """Numbers of other things stand around the set."""
    done = draw_done(draw, is_loaded)
    words = draw_words(draw, done)
    body = words.fill(draw.choice(PLAIN))
    front = draw.choice(("", "", *TOLD_BEFORE))
    back = draw.choice(("", *TOLD_BEHIND) if front else TOLD_BEHIND)
    return Spoken(done.person, done.moment(), front + body + back, (done.gold(),), is_doubtful(body, words))
