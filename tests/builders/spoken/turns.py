"""What turns the session rather than adding to it: taking back, leaving out, ending."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from tests.builders.spoken.done import Spoken, draw_done, is_loaded
from tests.builders.spoken.words import draw_words

TAKEN_BACK = (
    "undo", "Undo", "undo that", "delete that", "delete the last set", "remove the last one", "scrap that", "take that back", "scratch that",
    "remove last set", "oops delete that", "undo last", "cancel that one", "forget that last set", "please delete my last set",
)  # fmt: skip
LEFT_OUT = (
    "skip {label}", "skipping {label} today", "skip {name}", "skipping {name} today", "no {name} today", "leaving out {name}",
    "not doing {name} today", "can't do {name} today, skip", "{label} skipped", "skip the {name}", "going to skip {name}", "won't do {name}",
    "{name} skipped", "gonna skip {label}", "i'll skip {name}",
)  # fmt: skip
ENDED = (
    "done for today", "that's it for today", "finished", "all done", "I'm done", "session over", "calling it a day", "that's me done",
    "done!", "finito", "wrapping up here", "thats all folks", "finished for today 💪", "ok done for today", "that's me for today",
)  # fmt: skip


def taken_back(draw: Random) -> Spoken:
    done = draw_done(draw, lambda one: is_loaded(one) and len(one.slot.sets) > 2, alone=True)
    return Spoken(done.person, replace(done, first=2).moment(), draw.choice(TAKEN_BACK), ("undo",))


def left_out(draw: Random) -> Spoken:
    """A slot not begun, which is due now."""
    done = draw_done(draw, alone=True)
    text = draw_words(draw, done).fill(draw.choice(LEFT_OUT))
    return Spoken(done.person, done.moment(), text, (f"skip {done.slot.label}.1-{len(done.slot.sets)}",))


def ended(draw: Random) -> Spoken:
    done = draw_done(draw, lambda one: one.slot == one.person.plan.slots[-1])
    return Spoken(done.person, done.moment(), draw.choice(ENDED), ("finish",))
