"""What is done beyond the plain set: drops, part-range reps, warm-up sets, a burnout?

"last set drop 20% x 2"      -> two drops on the last set        "+ 5 partials at the bottom"  -> five, after the full reps
"2 warm-up sets of 10"       -> two sets without a number        "last set burnout"            -> that set, till nothing is left
"""

from __future__ import annotations

import re

from bot.language.blocks import counts
from bot.language.blocks.amounts import LOAD_PATTERN, read_load
from bot.language.blocks.scan import Mark, Scan, Scheme, Which
from bot.training.blocks import Drop, Partials, SetKind

_DROP = re.compile(
    rf"(?:(?:then|with|plus|\+|and|into|followed by|do|a|an|(?P<lead>\d|one|two|three|double|triple|single)(?=\s*(?:x\s*)?(?:drop|strip))(?:\s*x)?)\s*)*"
    rf"(?<!no )(?<!you )(?<!you'd )\b(?:drop|strip)(?:\s*-?\s*sets?|s)?\b(?!\s+(?:the\s+|some\s+)?(?:weight|load|hips|knee|to\s+(?:the\s+)?(?:floor|one|knees)|into|down|your|elbows|shoulders|a\s+knee))"
    rf"(?:\s*[:,(-]?\s*(?:by\s*|of\s*|-\s*)?(?P<cut>\d{{1,2}})\s*(?:-\s*(?P<cut_to>\d{{1,2}})\s*)?%(?:\s*(?:of\s+the\s+)?(?:weight|load))?)?(?:\s*to\s*(?P<load>(?:\+|-|pair of\s+)?{LOAD_PATTERN}(?:\s+of\s+help)?(?:\s+(?!for\b|x\b|and\b|then\b)[a-z_]+)?|[a-z]+(?:\s*\+\s*[a-z]+)*\s+bands?(?:\s+of\s+help)?|body\s?weight))?"
    r"(?:\s*(?:x|for|,)?\s*(?:another\s+)?(?:(?P<times>\d)\s*x?(?=\s*(?:drops?|times)\b)|twice|x\s*(?P<times2>\d)(?![\d-])))?"
    r"(?:\s*,?\s*(?:and|then)?\s*(?:(?:for|to|do|go|get)\s+(?:another\s+)?(?P<low>\d{1,3})(?:\s*(?:-|to)\s*(?P<high>\d{1,3}))?(?!\s*(?:%|kg|lb|x))(?:\s*(?:more\s+)?reps?|\s*more)?|(?P<low2>\d{1,3})(?:\s*(?:-|to)\s*(?P<high2>\d{1,3}))?\s*(?:more\s+reps|more|reps)\b))?"
    r"(?:\s*(?:,|and|then|for|go|rep(?:s)?(?:\s+out)?)?\s*(?:to\s+failure|amrap|max(?:\s+reps)?))?(?P<each>\s*(?:each|per|every)\s+drop)?",
    re.I,
)
_DROPS_COUNTED = re.compile(r"\(\s*(?P<times>\d)\s+drops?\s*\)", re.I)
_TIMES_WORDS = {"one": 1, "two": 2, "three": 3, "single": 1, "double": 2, "triple": 3}


def take_drops(scan: Scan) -> None:
    counted = next(scan.take(_DROPS_COUNTED), None) if _DROP.search(_DROPS_COUNTED.sub("", scan.left)) else None
    for found in scan.take(_DROP):
        text = found[0].lower()
        said = found["times"] or found["times2"] or (found["lead"] or "")
        said = counted["times"] if counted else said
        times = _TIMES_WORDS.get(said.lower()) or (int(said) if said.isdigit() else 2 if "twice" in text else 1)
        low, high = found["low"] or found["low2"], found["high"] or found["high2"]
        load = read_load(found["load"]) if found["load"] else None
        if found["cut_to"]:
            scan.doubt(found, f"a drop of {found['cut']}-{found['cut_to']}% is kept as {found['cut']}%")
        drop = Drop(
            int(found["cut"]) if found["cut"] else None, load, int(low) if low else None, int(high or low) if low else None
        )
        which = scan.which(found.start()) or scan.which(found.end() - 1) or Which(last=1)
        scan.out.marks.append(Mark("drops", ((drop,) * min(times, 5),), found.start(), which, scan.original(found)))


_LIGHTER = re.compile(
    r"\b(?:then\s+|and\s+)*(?:take|grab|pick\s+up|switch\s+to|change\s+to|go\s+to|get)\s+(?:a\s+)?lighter(?:\s+(?:weight|one|pair|dumbbells?|load|band))?s?\s*,?\s*(?:and|then)\s+(?:carry\s+on|keep\s+going|continue|go\s+(?:on|again)|rep\s+out)",
    re.I,
)
# "Drop the weight by 30% and keep going" is a drop of that set; "drop the weight each set" is a load that falls.
_DROP_SAID = re.compile(
    r"\b(?:then\s+|and\s+)?(?:drop|lower|reduce|cut|strip|take)\s+(?:off\s+)?(?:the\s+|your\s+)?(?:weight|load)?s?\s*(?:off\s+)?(?:by\s+)?(?P<cut>\d{1,2})\s*%(?:\s+(?:of\s+the\s+(?:weight|load)|off))?"
    r"(?:[\s,]*(?:and\s+|then\s+)?(?P<on>keep\s+going|go\s+(?:again|on|to\s+failure)|carry\s+on|continue|rep\s+out|amrap|(?:to|till|until)\s+failure|repeat))?(?!\s*(?:each|every|per)\b)",
    re.I,
)


def take_drops_said(scan: Scan) -> None:
    for found in scan.take(_LIGHTER):
        which = scan.which(found.start()) or scan.which(found.end() - 1) or Which(last=1)
        scan.out.marks.append(Mark("drops", ((Drop(),),), found.start(), which, scan.original(found)))
    for found in scan.take(_DROP_SAID, lambda found: bool(found["on"]) or scan.which(found.start()) is not None):
        which = scan.which(found.start()) or Which(last=1)
        scan.out.marks.append(Mark("drops", ((Drop(int(found["cut"])),),), found.start(), which, scan.original(found)))


_DROP_AMOUNT = re.compile(
    rf"(?:(?:then\s+)?(?:a\s+)?(?:double|triple|single)?\s*drops?(?:\s*sets?)?\s*:\s*)?(?:then\s+|and\s+)?\bdrop\s+(?:the\s+weight\s+(?:by\s+)?|by\s+)?(?P<amount>{LOAD_PATTERN})(?:\s+more)?(?!\s*(?:each|every|per))",
    re.I,
)


def take_drops_by_amount(scan: Scan) -> None:
    """ "drop 5 lb, drop 5 lb more": two drops; by how much is kept in words, since the load they start from is not known."""
    for found in scan.take(_DROP_AMOUNT):
        which = scan.which(found.end() - 1) or Which(last=1)
        scan.out.marks.append(Mark("drops", ((Drop(),),), found.start(), which, scan.original(found)))
        scan.out.marks.append(
            Mark("note", (f"drop {scan.raw[found.start('amount') : found.end('amount')]}",), found.start(), which, "")
        )


_LEAD = r"(?:(?P<plus>\+|\bplus\b|\bthen\b|\band\b|\bwith\b|\bfollowed by\b|\bfinish(?:\s+with)?\b)\s*)"
_WHERE = r"(?:\s*(?:at|in|from|through|of|off|out of)?\s*(?:the\s+)?(?P<where>top|bottom|lower|upper|stretch(?:ed position)?|lengthened(?: position)?|hole)(?:\s+(?:half|quarter|position|end|range))?)?"
_PARTIAL_WORDS = r"(?:(?P<size>quarter|half|1/4|1/2)[\s-]*(?:reps?|range(?:\s*reps?)?|partials?|pulses?)|(?P<before>top|bottom|lower|upper|lengthened)[\s-]*(?:half|quarter|end)?[\s-]*(?:partials?|pulses?|reps?|halves)|(?:lengthened\s+)?partials?(?:\s*reps?)?|pulses?|short\s+reps?)"
_PARTIALS = re.compile(
    rf"{_LEAD}?(?<![\d.x])(?P<count>\d{{1,2}})(?:\s*-\s*\d{{1,2}})?\s*{_PARTIAL_WORDS}{_WHERE}|{_LEAD}{_PARTIAL_WORDS.replace('?P<size>', '?P<size2>').replace('?P<before>', '?P<before2>')}{_WHERE.replace('?P<where>', '?P<where2>')}".replace(
        "?P<plus>", "?:"
    ),
    re.I,
)


def take_partials(scan: Scan) -> None:
    for found in scan.take(_PARTIALS):
        size = (found["size"] or found["size2"] or "").lower()
        size = {"1/4": "quarter", "1/2": "half"}.get(size, size)
        said = (found["where"] or found["where2"] or found["before"] or found["before2"] or "").lower()
        where = "" if not said else "top" if said in ("top", "upper") else "bottom"
        scan.mark("partials", (Partials(int(found["count"]) if found["count"] else None, where or size),), found)
        if where and size:
            scan.mark("note", (f"{size} reps at the {where}",), found)


_WARM_SETS = re.compile(
    rf"(?P<sets>\d)(?:\s*-\s*\d)?\s*(?:light(?:er)?\s+)?(?:x\s*)?(?:(?:warm|ramp)(?:ing)?[\s-]*ups?(?:\s+sets?)|w/?ups?(?:\s+sets?)?|w/u(?:\s+sets?)?)(?:\s*(?:of|x|:)?\s*(?P<list>{counts.LIST}))?|(?:warm[\s-]*up|w/?up?\b)(?:\s+sets?)?\s*:?\s*(?P<sets2>\d)\s*x\s*(?P<list2>{counts.LIST})|\bwarm[\s-]*up\s+(?P<sets3>\d)\s*x\s*(?P<free>as needed)",
    re.I | re.X,
)


def take_warm_up_sets(scan: Scan) -> None:
    for found in scan.take(_WARM_SETS):
        said = found["list"] or found["list2"]
        parts = counts.read_counts(said) if said else (counts.Count(),)
        sets = int(found["sets"] or found["sets2"] or found["sets3"])
        scan.out.schemes.append(Scheme(sets, parts, found.start(), scan.original(found), SetKind.WARM_UP))


_ONE_MORE = re.compile(
    r"(?:(?:\+|&|\band\b|\bthen\b|\bplus\b|\bfollowed\s+by\b|,)\s*)+(?:do\s+)?(?P<sets>1|an?)\s*x?\s*(?:last\s+|final\s+)?(?:(?P<burnout>burn-?\s?out)(?:\s+set)?|(?:all[\s-]?out|max(?:[\s-]?(?:effort|reps?))?|amrap|failure)\s+set|set\s+(?:all[\s-]?out|to\s+failure)|(?:max|amrap|(?:to\s+)?failure)(?=\s*(?:$|[,;.)(])))\b(?!\s*:)",
    re.I,
)


def take_one_more(scan: Scan) -> None:
    """ "3x15 + 1 burnout", "2 sets and then one all-out set": one set more than those counted, till nothing is left."""
    for found in scan.take(_ONE_MORE):
        kind = SetKind.BURNOUT if found["burnout"] else SetKind.WORK
        scan.out.schemes.append(Scheme(1, (counts.Count(amrap=True),), found.start(), scan.original(found), kind))


_BURNOUT_SET = re.compile(r"\b(?:is\s+|as\s+)?(?:an?\s+|the\s+|your\s+)?burn-?\s?out(?:\s+set)?\b(?!\s*:)", re.I)


def take_burnout_sets(scan: Scan) -> None:
    """ "last set burnout": a set that is there already, done till nothing is left."""
    for found in scan.take(_BURNOUT_SET, lambda found: _near(scan, found) is not None):
        scan.out.marks.append(Mark("kind", (SetKind.BURNOUT,), found.start(), _near(scan, found), scan.original(found)))


def _near(scan: Scan, found: re.Match[str]) -> Which | None:
    return scan.which(found.start()) or scan.which(found.end() - 1)
