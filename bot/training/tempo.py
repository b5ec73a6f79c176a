"""What does a tempo such as 3-1-X-0 ask for, phase by phase?

Four fields, always in this order: lowering, pause stretched, lifting, pause squeezed. The order is lowering-first even for lifts
that begin with the way up (Wilk 2018, PMC6006544, uses 2/0/2/0; common practice for rows and pull-ups).

    "3110"    -> 3 s down, 1 s at the stretch, 1 s up, no pause
    "3-1-X-0" -> the way up as fast as possible
    "3-1-1"   -> the last pause left out: 0
    "10-0-5-0" needs its dashes
"""

from __future__ import annotations

import re
from dataclasses import dataclass

# X has no number of seconds; one second is our convention for adding up.
EXPLOSIVE_S = 1


@dataclass(frozen=True, slots=True)
class Tempo:
    """Seconds of each phase; concentric_s None means X, as fast as possible."""

    eccentric_s: int
    stretched_s: int
    concentric_s: int | None
    squeezed_s: int = 0

    @property
    def seconds_a_rep(self) -> int:
        lifting = EXPLOSIVE_S if self.concentric_s is None else self.concentric_s
        return self.eccentric_s + self.stretched_s + lifting + self.squeezed_s

    def __str__(self) -> str:
        lifting = "X" if self.concentric_s is None else str(self.concentric_s)
        return f"{self.eccentric_s}-{self.stretched_s}-{lifting}-{self.squeezed_s}"


_SEPARATED = re.compile(r"\s*(\d{1,2})\s*([-–—/.:])\s*(\d{1,2})\s*\2\s*(\d{1,2}|[xX])(?:\s*\2\s*(\d{1,2}|[xX]))?\s*")
_PACKED = re.compile(r"\s*(\d)(\d)(\d|[xX])(\d|[xX])?\s*")


def parse_tempo(text: str) -> Tempo | None:
    """Read a tempo; None if the text is none. X in the last field (a slip some make) counts as 0 there."""
    separated = _SEPARATED.fullmatch(text)
    if separated:
        down, _, stretch, up, squeeze = separated.groups()
    else:
        packed = _PACKED.fullmatch(text)
        if not packed:
            return None
        down, stretch, up, squeeze = packed.groups()
    last = 0 if squeeze is None or squeeze in "xX" else int(squeeze)
    return Tempo(int(down), int(stretch), None if up in "xX" else int(up), last)


def time_under_tension_s(tempo: Tempo, reps: int) -> int:
    """Seconds that a set of this many reps takes, X counted as one second."""
    return tempo.seconds_a_rep * reps
