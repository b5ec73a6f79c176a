"""Which rest is asked for: "rest 60-90s", "2 min between sets", "rest as needed, about 1 min", "no rest"?"""

from __future__ import annotations

import re

from bot.language.blocks.amounts import TIME_PATTERN, read_rest
from bot.language.blocks.phrases.free_words import add_keyed
from bot.language.blocks.scan import Scan
from bot.language.problems import quoted

_NO_REST = re.compile(
    r"\b(?:no|zero|without(?:\s+any)?|minimal)\s+rest(?:\s+(?:between|before)\s+\w+(?:\s+(?:and|&)\s+\w+)?)?\b", re.I
)
_REST_FREE = re.compile(
    r"\brest(?:ing)?\s*[:=]?\s*(?:as\s+(?:needed|required|long\s+as\s+you\s+(?:need|like|want))|(?:as\s+)?(?:little|much)\s+as\s+\w+(?:\s+need(?:ed)?)?)"
    rf"(?:\s*[,;(-]?\s*(?:about|around|roughly|usually|say)\s+(?P<time>{TIME_PATTERN}))?",
    re.I,
)
_REST = re.compile(
    rf"\b(?:rest|resting|recovery|recover|break)(?!\s*-?\s*pause)s?(?:\s+(?:between|after|period|time|interval|for|of|about|approx|is|are|stays?(?:\s+at)?)(?:\s+(?:sets?|rounds?|each\s+(?:set|round)|both|exercises|\w\d(?:\s*/\s*\w\d)?))?)*\s*[:=~]?\s*"
    rf"(?P<time>{TIME_PATTERN})(?:\s*(?:rest|between\s+(?:sets|rounds)|after\s+each\s+(?:set|round)|after\s+[A-H]\d\b|after\s+the\s+(?:pair|super-?set|last)|per\s+set))?|"
    rf"(?<![\d.x@-])(?P<time2>\d+(?:[.,:]\d+)?(?:\s*(?:-|to)\s*\d+(?:[.,]\d+)?)?\s*(?:minutes?|mins?|m|seconds?|secs?|s|\"|'))\s*(?:of\s+|'s\s+)?(?:rest\b(?!\s*-?\s*pause)(?:\s+(?:between|after|per)\s+(?:each\s+)?(?:sets?|rounds?))?|recovery\b|(?:off\s+)?(?:in\s+)?between(?:\s+(?:the\s+|each\s+)?(?:sets?|rounds?|exercises|both|them))?\b|off\b(?=\s*(?:$|[,;.)]))|after\s+(?:the|each|every|both)\b(?:\s+(?:pair|super-?set|tri-?set|circuit|round|set|two|exercise|one|both))?|break\b)|"
    r"(?<![\w])R\s*[:=]?\s*(?P<time3>\d+(?:\s*-\s*\d+)?\s*(?:s|sec|min|m|\"|')(?![a-z])|\d:\d\d(?!\d)|\d{2,3}(?:\s*-\s*\d{2,3})?(?![\w%/.]))",
    re.I,
)


def take_rests(scan: Scan) -> None:
    for found in scan.take(_REST_FREE):
        scan.out.fields.setdefault("note", "rest as needed")
        about = read_rest(found["time"]) if found["time"] else None
        if about is not None:
            scan.out.fields["rest"] = about
    for found in scan.take(_NO_REST):
        if re.search(r"between|before", found[0], re.I):
            add_keyed(scan.out.fields, "note", scan.original(found))
        else:
            scan.out.fields["rest"] = read_rest("0")
    for found in scan.take(_REST, lambda found: read_rest(_time_of(found)) is not None or found["time"] is not None):
        rest = read_rest(_time_of(found))
        if rest is None or re.match(r"\s*(?:hours?|hrs?|h|days?)\b", scan.raw[found.end() :], re.I):
            scan.fault(
                found,
                f"{quoted(_with_word_behind(scan.raw, found))} is no rest up to 15 minutes",
                "write it with its unit, such as 90 s or 2 min",
            )
            continue
        if re.fullmatch(r"\s*[1-5](?:[.,]\d)?\s*", _time_of(found)):
            scan.doubt(
                found,
                f'a rest of "{_time_of(found).strip()}" without a unit is read as minutes',
                "write 2 min or 120 s to be sure",
            )
        scan.out.fields["rest"] = rest


def _with_word_behind(text: str, found: re.Match[str]) -> str:
    """What was found, with the unit that the recogniser does not know."""
    more = re.match(r"\s*[a-z]+", text[found.end() :], re.I)
    return text[found.start() : found.end() + (more.end() if more else 0)]


def _time_of(found: re.Match[str]) -> str:
    return found["time"] or found["time2"] or found["time3"] or ""
