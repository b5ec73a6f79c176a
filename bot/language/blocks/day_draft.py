"""A day of a block, and a superset of it, while their lines come in."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any

from bot.language.blocks.amounts import TIME_PATTERN, read_rest
from bot.language.blocks.headings import DayHeading
from bot.language.blocks.scan import Scheme
from bot.language.blocks.slot_draft import SlotDraft
from bot.language.problems import Place
from bot.training.blocks import Rest

# "30 s between exercises and 2 min between rounds"
REST_BETWEEN = re.compile(
    rf"[\s,;.(-]*\b(?:rest\s+(?:for\s+)?)?(?P<between>{TIME_PATTERN})\s*(?:of\s+)?(?:rest\s+)?(?:between|after)\s+(?:the\s+|each\s+|every\s+)?(?:exercises?|moves?|movements?|stations?)\s*(?:,|and|&|then|;|/)*\s*(?:then\s+|rest\s+)?(?P<after>{TIME_PATTERN})\s*(?:of\s+)?(?:rest\s+)?(?:between|after|at\s+the\s+end\s+of)\s+(?:the\s+|each\s+|every\s+|a\s+)?(?:rounds?|circuits?|sets?)[\s.)]*",
    re.I,
)


@dataclass(slots=True)
class DayDraft:
    heading: DayHeading
    place: Place
    slots: list[SlotDraft] = field(default_factory=list)
    warm_up: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    is_given: bool = True  # False: no heading was written
    rest_below: Rest | None = None  # said in a line of its own below the last exercise
    joined: list[tuple[str, ...]] = field(default_factory=list)  # numbers of exercises that are a superset, not all there yet
    week: int = 1  # above 1: the day of an earlier week, written out again with that week's sets


@dataclass(slots=True)
class Superset:
    letter: str
    rounds: int | None
    fields: dict[str, Any] = field(default_factory=dict)
    slots: list[SlotDraft] = field(default_factory=list)
    intervals: Scheme | None = None  # sets of seconds that each exercise gets, and with them its rest
    is_timed: bool = False  # rounds by the clock, of which there may be many
    counts_letters: bool = False  # its exercises are lettered a, b, c themselves

    between: Rest | None = None  # between its exercises, where that is said apart

    def take_rests(self, found: re.Match[str]) -> None:
        """Both rests of "30 s between exercises and 2 min between rounds"."""
        self.between, after = read_rest(found["between"]), read_rest(found["after"])
        if after is not None:
            self.fields["rest"] = after
