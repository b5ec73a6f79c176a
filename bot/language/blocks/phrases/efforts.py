"""How hard is a set to be: RIR, RPE, a share of the 1RM?"""

from __future__ import annotations

import re
from typing import Any

from bot.language.blocks import counts
from bot.language.blocks.amounts import decimal
from bot.language.blocks.phrases.free_words import add_keyed
from bot.language.blocks.scan import Scan, Scheme
from bot.language.problems import quoted

_NUM = r"\d{1,2}(?:[.,]5|[.,]0)?"
_NUM_LIST = rf"{_NUM}(?:\s*-\s*{_NUM}|(?:\s*[,/]\s*{_NUM}(?!\d|\.\d|\s*x|\s*[a-z%°\"'-]))+)?"
_RIR = re.compile(
    rf"(?:@\s*)?\brir\s*(?:of\s+)?[:=@]?\s*(?P<list>{_NUM_LIST})|(?:@\s*)?(?<![\d.x])(?P<list2>{_NUM_LIST})\s*(?:rir\b(?!\s*[:=]?\s*\d)|(?:(?:clean|good|solid|more)\s+)?(?:reps?\s+)?(?:left\s+)?in\s+(?:the\s+)?(?:reserve|tank)\b)|\b(?:leave|leaving|keep|stop(?:ping)?)\s+(?:at\s+|with\s+)?(?P<list3>{_NUM_LIST})\s*(?:reps?\b)?(?:\s*(?:left|in\s+(?:the\s+)?(?:tank|reserve)|(?:before|short\s+of|shy\s+of|from|away\s+from)\s+failure))?|\b(?:stop|finish|end)\s+(?:\w+\s+){{0,2}}?(?:when|while|with)\s+(?:(?:you|there)(?:\s+(?:still|have|are|only|could|do)|'ve)*\s+)?(?P<list5>{_NUM_LIST})\s*(?:reps?|good\s+ones?)?\s*(?:more\s+)?(?:left|to\s+go)\b|(?<![\d.x])(?P<list4>{_NUM_LIST})\s*(?:reps?\s+)?(?:before|short\s+of|shy\s+of|(?:away\s+)?from)\s+failure\b",
    re.I,
)
_RPE = re.compile(
    rf"(?:@\s*)?\brpe\s*(?:of\s+)?[:=@]?\s*(?P<list>{_NUM_LIST})|(?:@\s*)?(?<![\d.x])(?P<list2>{_NUM_LIST})\s*rpe\b(?!\s*[:=]?\s*\d)|(?:effort\s+(?:of\s+|about\s+|around\s+)?)?(?<![\d.x/])(?P<list4>{_NUM})\s*(?:out\s+of|/)\s*10\b(?:\s+effort)?|@\s*(?P<list3>(?:10|[5-9](?:[.,]5)?)(?:\s*-\s*(?:10|[5-9](?:[.,]5)?))?)(?![\d.x%/-]|\s*(?:kg|lb|s\b|sec|min|%))",
    re.I,
)


_AMRAP_LESS = re.compile(r"(?<=amrap)\s*-\s*(?P<left>[1-5])\b(?!\s*-)", re.I)  # "AMRAP-2" leaves two in reserve


def take_efforts(scan: Scan) -> None:
    for found in scan.take(_AMRAP_LESS):
        scan.mark("rir", (decimal(found["left"]),), found)
    for name, pattern, top in (("rir", _RIR, 10), ("rpe", _RPE, 10)):
        for found in scan.take(pattern):
            said = next(found[group] for group in ("list", "list2", "list3", "list4", "list5") if found.groupdict().get(group))
            values = _effort_values(said)
            if any(value > top or (name == "rpe" and value < 1) for value in values):
                scan.fault(
                    found,
                    f"{name.upper()} {said} is outside the scale",
                    "write RIR 0 to 10" if name == "rir" else "write RPE 1 to 10",
                )
                continue
            if "-" in said:
                low, high = (decimal(part) for part in re.split(r"\s*-\s*", said))
                if abs(high - low) > 1:
                    scan.doubt(
                        found,
                        f"{name.upper()} {said} is kept as its middle, {values[0].normalize():f}",
                        "write one number a set to be exact",
                    )
            scan.mark(name, values, found)


def _effort_values(said: str) -> tuple[Any, ...]:
    """A span of one step has its own point on the scale, halfway ("8-9" is 8.5)."""
    if "-" in said:
        low, high = (decimal(part) for part in re.split(r"\s*-\s*", said))
        return ((low + high) / 2,)
    return tuple(decimal(part) for part in re.split(r"\s*[,/]\s*", said))


_PCT = r"\d{2,3}(?:[.,]\d)?"
_PERCENT = re.compile(
    rf"(?:(?:@|at)\s*)?(?P<list>{_PCT}%?(?:\s*(?:-|to)\s*{_PCT}|(?:\s*[,/]\s*{_PCT}%?)+)?)\s*%(?:\s*(?:of\s+)?(?:your\s+|the\s+)?(?:e?\s?1\s*rm|max|one\s+rep\s+max))?",
    re.I,
)


_ONE_PERCENT = r"\d{2,3}\s*%\s*(?:x|for|of|-|:)?\s*\d{1,2}\+?(?![\d%]|\s*x)"
_ONE_TURNED = r"(?<![\dx])\d{1,2}\+?\s*(?:reps?\s*)?@\s*\d{2,3}\s*%"
_PERCENTS_WITH_REPS = tuple(
    re.compile(rf"(?P<list>{one}(?:\s*(?:[,;/]|then|and)\s*{one})+)", re.I) for one in (_ONE_PERCENT, _ONE_TURNED)
)
_PERCENT_FIGURE = re.compile(r"(?P<percent>\d{2,3})\s*%")


def take_percents_with_reps(scan: Scan) -> None:
    """ "60% 5, 70% 5, 80% 5+", "5@60%, 5@70%, 5+@80%": one set each."""
    for pattern in _PERCENTS_WITH_REPS:
        for found in scan.take(pattern):
            percents = tuple(decimal(percent) for percent in _PERCENT_FIGURE.findall(found["list"]))
            bare = re.sub(r"@|\bx\b|\bfor\b|\breps?\b|[:-]", " ", _PERCENT_FIGURE.sub(" ", found["list"]), flags=re.I)
            parts = tuple(counts.read_counts(part)[0] for part in re.split(r"[,;/]|\bthen\b|\band\b", bare))
            if any(not 20 <= percent <= 110 for percent in percents):
                scan.fault(found, f"{quoted(found['list'])} has a percentage outside 20 to 110", "write a percentage such as 70%")
                continue
            scan.out.schemes.append(Scheme(len(parts), parts, found.start(), scan.original(found)))
            scan.mark("percent_1rm", percents, found)


def take_percents(scan: Scan) -> None:
    take_percents_with_reps(scan)
    for found in scan.take(_PERCENT):
        said = found["list"].replace("%", "")
        spread = re.split(r"\s*(?:-|to)\s*", said)
        if len(spread) == 2:
            values: tuple[Any, ...] = (min(decimal(spread[0]), decimal(spread[1])),)
            add_keyed(scan.out.fields, "note", scan.original(found))
            scan.doubt(found, f"{said}% is read as {values[0].normalize():f}% to begin with, and kept as a note")
        else:
            values = tuple(decimal(part) for part in re.split(r"\s*[,/]\s*", said))
        if any(not 20 <= value <= 110 for value in values):
            scan.fault(found, f"{said}% of the 1RM is outside 20 to 110", "write a percentage such as 70%")
        else:
            scan.mark("percent_1rm", values, found)
