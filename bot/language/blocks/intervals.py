"""Which work and which rest do intervals ask for?

"20s on 40s off x4"            -> four sets of 20 s, 40 s of rest         "4 rounds of 40s work / 20s rest"
"30/15 x 8" among intervals    -> eight of 30 s, 15 s of rest             "on 1 min, off 1 min, 5 times"
"""

from __future__ import annotations

import re

from bot.language.blocks.counts import Count
from bot.language.blocks.scan import Scan, Scheme
from bot.training.blocks import Measure, Rest

_UNIT = r"(?:s|secs?|seconds?|\"|mins?|minutes?|m|')"
_ON = r"(?:on|work(?:ing)?|go|hard|effort|fast)"
_OFF = r"(?:off|rest(?:ing)?|easy|recover(?:y|ing)?|pause|break|slow)"
_BEFORE = r"(?:(?P<sets>\d{1,2})\s*(?:x|rounds?(?:\s+of)?|sets?(?:\s+of)?|times)\s*)?"
_AFTER = r"(?:[\s,;:(-]*(?:for\s+)?(?:x\s*(?P<sets2>\d{1,2})(?![\d.]|\s*(?:kg|lb))|(?P<sets3>\d{1,2})\s*(?:x(?!\s*\d)|rounds?\b|sets?\b|times\b))\)?)?"
_JOIN = r"[\s,/:;&+|-]*(?:(?:then|and|with|by|to)\s+)?"
_INTERVALS = tuple(
    re.compile(pattern, re.I)
    for pattern in (
        rf"{_BEFORE}(?<![\d.])(?P<work>\d{{1,3}})\s*-?\s*(?P<unit>{_UNIT})?\s*{_ON}\b{_JOIN}(?P<rest>\d{{1,3}})\s*-?\s*(?P<unit2>{_UNIT})?\s*{_OFF}\b{_AFTER}",
        rf"{_BEFORE}\b{_ON}\s+(?:for\s+)?(?P<work>\d{{1,3}})\s*(?P<unit>{_UNIT})?{_JOIN}{_OFF}\s+(?:for\s+)?(?P<rest>\d{{1,3}})\s*(?P<unit2>{_UNIT})?(?!\w){_AFTER}",
        rf"{_BEFORE}(?<![\d.])(?P<work>\d{{1,3}})\s*(?P<unit>{_UNIT})\s*[/:]\s*(?P<rest>\d{{1,3}})\s*(?P<unit2>{_UNIT})(?!\w){_AFTER}",
    )
)
# Two figures with a stroke are intervals only where that is spoken of: "12/10 x 3" may be a list of reps.
_BARE = re.compile(
    rf"{_BEFORE}(?<![\d./])(?P<work>[1-9]\d)\s*(?P<unit>{_UNIT})?\s*/\s*(?P<rest>[1-9]\d)\s*(?P<unit2>{_UNIT})?(?![\d/]){_AFTER}",
    re.I,
)
SPOKEN_OF = re.compile(r"\b(?:intervals?|hiit|tabata|circuit|on\s*/\s*off|work\s*/\s*rest)\b", re.I)


_EVERY = r"(?:emom|every\s+minute(?:\s+on\s+the\s+minute)?)"
_MINUTES = r"(?P<{}>\d{{1,2}})\s*-?\s*(?:min(?:ute)?s?|mins?|rounds?|')"
_EVERY_MINUTE = re.compile(
    rf"\b{_EVERY}\b[\s,:-]*(?:for\s+|x\s*)?(?:{_MINUTES.format('minutes')})?|{_MINUTES.format('minutes2')}\s*(?:of\s+)?\b{_EVERY}\b",
    re.I,
)


def take_every_minute(scan: Scan) -> None:
    """ "EMOM 10 min x 8": ten sets, one a minute; kept as that many sets, and the way to do them as a note."""
    for found in scan.take(_EVERY_MINUTE):
        minutes = found["minutes"] or found["minutes2"]
        scan.out.fields["note"] = "every minute on the minute" + (f" for {minutes} min" if minutes else "")
        scan.out.fields["intervals"] = True
        if minutes:
            scan.out.fields["set_count"] = (int(minutes), None, scan.original(found))


def take_intervals(scan: Scan, *, spoken_of: bool = False) -> None:
    """Take intervals out of the text: sets of seconds, and the rest between them. spoken_of: the lines around are intervals."""
    patterns = (*_INTERVALS, _BARE) if spoken_of or SPOKEN_OF.search(scan.left) else _INTERVALS
    for pattern in patterns:
        for found in scan.take(pattern):
            unit, unit2 = found["unit"] or found["unit2"] or "s", found["unit2"] or found["unit"] or "s"
            work, rest = _seconds(found["work"], unit), _seconds(found["rest"], unit2)
            sets = found["sets"] or found["sets2"] or found["sets3"]
            count = Count(work, work, Measure.SECONDS)
            scan.out.schemes.append(Scheme(int(sets) if sets else None, (count,), found.start(), scan.original(found)))
            scan.out.fields["rest"] = Rest(rest, rest)
            scan.out.fields["intervals"] = True


def _seconds(number: str, unit: str) -> int:
    return int(number) * (60 if unit[0].lower() == "m" or unit == "'" else 1)
