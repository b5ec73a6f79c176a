"""How hard was it, and how was it done? What was left, what failed, an effort of ten, a tempo that was kept.

"20x12 could have done 2 more" -> "20x12 rir 2                 "
"20x12 rpe 8-9"                -> "20x12 rpe 8.5"
"20x10 failed on the 11th"     -> "20x10 failed            "
"""

from __future__ import annotations

import re

from bot.language.reading.retelling.rewriting import FEW, NTH, UNIT, Rewriting, counted_before, digit_before, digit_beside, fits

_TEN = r"(?:10|\d(?:[.,]5)?)"
# "20x12 held the slow tempo"
KEPT_TEMPO = Rewriting(
    re.compile(
        r"\b(?:kept|held|stuck|keeping|holding) (?:to )?(?:(?:the|a|that) )?(?:(?:slow|full|right|given|same|proper|whole) )?tempo\b"
    ),
    "tempo kept",
    words=("tempo",),
)
# "plank three quarters of a minute"
QUARTERS = Rewriting(
    re.compile(r"\b(?P<n>three|3|a|one)?[ -]?quarters? of a min(?:ute)?\b|\bthree[- ]quarter minute\b"),
    lambda found: "45 seconds" if (found["n"] or "three")[0] in "t3" else "15 seconds",
    words=("of a min", "quarter minute"),
)
# "20x12, could have done 15": only what was done counts
COULD_HAVE = Rewriting(
    re.compile(
        rf"\bcould(?:'?ve| have|a)?\s+(?:easily\s+|maybe\s+|probably\s+)?(?:done|got|gone|managed|hit|do)\s+(?:about\s+|like\s+|maybe\s+)?{NTH}\b(?!\s*(?:more|in|extra|left))(?:\s+but\b)?"
    ),
    where=digit_beside,
    once=True,
    words=("could",),
)
# "16s (12), easily 3 more": what was left over
EASILY_MORE = Rewriting(
    re.compile(r"\beasily (?:another )?(?P<n>one|two|three|four|[1-4]) more\b"),
    lambda found: f"rir {FEW.get(found['n'], found['n'])}",
    where=counted_before,
    once=True,
    words=("easily",),
)
# "20x10, the 11th got stuck"
STUCK = Rewriting(
    re.compile(
        rf"\b{NTH}(?:\s+(?:one|rep))?\s+(?:got stuck|was stuck|stuck|didn'?t go(?: up)?|would(?: not|n'?t) go(?: up)?(?: at all)?|no go|didn'?t move|stalled|died|wouldn'?t move|came back down|got pinned|went nowhere|stayed down|did not (?:go|move))\b"
    ),
    "failed",
    where=digit_beside,
    once=True,
    words=(
        "came back down",
        "didn",
        "died",
        "did not",
        "got pinned",
        "no go",
        "nowhere",
        "stayed down",
        "stalled",
        "stuck",
        "t move",
        "would not go",
        "wouldn",
    ),
)
_AS_ASKED = re.compile(r"\b(?:like|as) (?:asked|told|you said|planned|written|prescribed)\b")


def _as_asked(found: re.Match[str]) -> str:
    """A tempo that was asked for was kept; any other says nothing of the set."""
    if not _AS_ASKED.search(found.string):
        return ""
    return "on tempo" if fits("on tempo", found.group()) else "tempo"


# "20x12, 3 seconds down like asked"
DOWN = Rewriting(
    re.compile(
        r"(?P<a>\b(?:every rep|each rep|each one|all reps?)\s+)?(?:(?<![\d.,])\d+\s?(?:s|secs?|seconds?|counts?)?|\b(?:two|three|four|five|six)[ -](?:secs?|seconds?|counts?))\s+(?:down|lowering|up|on the way down|negatives?)\b(?=\s*(?:$|[,.;!]|like|as|on(?! the (?:left|right))|each|every))"
    ),
    _as_asked,
    where=digit_beside,
    once=True,
    words=("down", "lowering", "negative", "up"),
)
# "20x12, a couple left in me"
COUPLE_LEFT = Rewriting(
    re.compile(
        r"(?<=\w)[\s,.]+(?:maybe |about |probably |had |a )*(?P<n>couple|few|one|two|three|[1-5])(?: of)?(?: more)?(?: reps?)? (?:left )?(?:in me|in the tank|in reserve|to spare)\b"
    ),
    lambda found: f", rir {FEW.get(found['n'], found['n'])}",
    once=True,
    words=("in me", "in reserve", "in the tank", "to spare"),
)


def _number_before(found: re.Match[str]) -> bool:
    before = found.string[: found.start()]
    return bool(re.search(r"\d|\b(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)\b", before))


# "20x10, quit before the 11th"
BEFORE_NTH = Rewriting(
    re.compile(rf"\b(?:quit|stopped|gave up|done|died|dropped it) (?:just )?before (?:the |rep )?{NTH}\b"),
    where=_number_before,
    once=True,
    words=("before",),
)
# "20x12 nothing left in the tank"
NOTHING_LEFT = Rewriting(
    re.compile(
        r"(?<=[\d ,.])(?:absolutely )?(?:nothing|none|zero|nil) (?:left|more)(?: in (?:the tank|me|reserve))?\b|\bnothing in the tank\b"
    ),
    "rir 0",
    words=("left", "more", "nothing in the tank"),
)


def _without_the_place(found: re.Match[str]) -> str:
    """ "form went after the 9th": that form went stays."""
    return found.group().removesuffix(found["after"]) if found["after"] else ""


# "20x12, form went after the 9th"
AT_REP = Rewriting(
    re.compile(
        rf"\b(?:at|on|by|from|around|about|until|till|after)\s+(?:the\s+)?(?:rep|reps|number)\s+{NTH}\b(?:\s*(?:through|thru|to|-|and|&)\s*{NTH}\b)?|(?:tempo|form|grip|balance|technique|it|speed|breath|shape)\b[^,.;\d]{{0,24}}\b(?P<after>(?:after|from|at|around|by|on|past)\s+(?:about\s+)?(?:the\s+)?(?:rep\s+)?{NTH})\b(?!\s*(?:{UNIT}|x|reps?\s+(?:with|at)))"
    ),
    _without_the_place,
    where=digit_beside,
    once=True,
    words=("after", "around", "at", "by", "from", "number", "on", "past", "rep"),
)
# "20x12, could have done 2 more"
MORE_LEFT = Rewriting(
    re.compile(
        r"\b(?:i )?(?:could(?:'?ve| have| of|a)?|had|felt like i had|probably had|think i had|still had)\s+(?:(?:easily|still|maybe|probably|perhaps|definitely|just about|about|at least)\s+)*"
        r"(?:(?:done|do|got|get|gotten|had|squeezed|squeeze|managed|manage|gone|ground|hit|pushed)\s+)?(?:out\s+)?(?:for\s+)?(?:(?:easily|still|maybe|probably|perhaps|at least)\s+)*"
        r"(?P<n>another one|another|one|two|three|four|a couple|a couple of|a few|[1-5])\s*(?:more|extra|left|in me|in the tank|in reserve|or so|reps?|\s)*(?<=[a-z\d])(?=\s*(?:[,.;!)]|$|\band\b|\bif\b|\bbut\b|i'?d say|i (?:think|reckon|guess)|for sure|easily|easy))"
    ),
    lambda found: f"rir {FEW.get(found['n'], found['n'])}",
    where=counted_before,
    once=True,
    words=("could", "had"),
)
# "20x12, felt like 8 out of 10"
OF_TEN = Rewriting(
    re.compile(
        rf"(rpe\s*(?:of|:|was)?\s*)({_TEN})\s*(?:/|out of)\s*10\b|\b(?:effort|felt like|hard(?:ness)?|difficulty)\s*(?:(?:was|:|about|around|maybe|like|an?)\s*)*({_TEN})\s*(?:/|(?:out )?of)\s*10\b|(?<=[\s,(])()({_TEN})\s*(?:/|out of)\s*10\s*(?:effort|difficulty|hard|for effort|rpe)"
    ),
    lambda found: f"rpe {found[2] or found[3] or found[5]}",
    words=("difficulty", "effort", "felt like", "hard", "rpe"),
)
# "85x11, 8 out of 10"
OF_TEN_BEHIND = Rewriting(
    re.compile(
        r"(?<=\d)(?P<set>\s*(?:kgs?|lbs?|kilos?|reps?)?\s*(?:[x×@]|for\b|with\b)\s*(?:the\s+)?\d+(?:[.,]\d+)?\s*(?:kgs?|lbs?|kilos?|reps?)?)"
        rf"(?P<said>,\s+(?P<n>{_TEN})\s*(?:/|out of)\s*10)(?=[^\w]*$|\s*[.!])"
    ),
    lambda found: found["set"] + f" rpe {found['n']}",
    words=("10",),
)


def _mean(low: str, high: str) -> str:
    """ "8", "9" -> "8.5"; the lower one where they are far apart (a slip)."""
    one, two = float(low.replace(",", ".")), float(high.replace(",", "."))
    return f"{(one + two) / 2:g}" if abs(two - one) <= 2 else f"{one:g}"


# "20x12, 1-2 left"
RANGE_LEFT = Rewriting(
    re.compile(
        r"\b(\d)\s*(?:-|/|or|to|–)\s*(\d)(?=\s*(?:more\s+)?(?:reps?\s+)?(?:in reserve|in the tank|rir\b|left|more in me|more\b|to spare|from failure|shy))"
    ),
    lambda found: _mean(found[1], found[2]),
    words=("from failure", "in reserve", "in the tank", "left", "more", "rir", "shy", "to spare"),
)
# "20x12 rir 1-2"
RANGE_RIR = Rewriting(
    re.compile(r"(?<=rir)(\s*:?\s*)(\d)\s*[-/–]\s*(\d)\b"),
    lambda found: found[1] + _mean(found[2], found[3]),
    words=("rir",),
)
# "20x12 rpe 8-9"
RANGE_RPE = Rewriting(
    re.compile(rf"(?<=rpe)(\s*(?:of|:|was|about|around|~)?\s*)({_TEN})\s*(?:-|/|or|to|–)\s*({_TEN})\b"),
    lambda found: found[1] + _mean(found[2], found[3]),
    words=("rpe",),
)
# "20x10 failed on the 11th"
FAILED = Rewriting(
    re.compile(
        rf"\b(?:couldn'?t|could not|didn'?t|cldnt|can'?t)\s+(?:quite\s+)?(?:get|do|finish|manage|hit|make|complete|lock out|budge|move|press|lift|grind)(?:\s+(?:the|rep|number|that))*\s+{NTH}\b(?:\s+(?:rep|one))?"
        rf"|\bfail(?:ed|ing|s|ure(?=\s+(?:at|on|in|during)))?\s+(?:at|on|the|in|during|rep|my|with|attempting|trying|number|\s)*\s*(?:the\s+|rep\s+)?{NTH}\b(?:\s+(?:rep|one))?|\bmissed\s+(?:the\s+|rep\s+|on\s+)*{NTH}\b(?:\s+rep)?(?!\s+(?:set|sets|reps|days?|sessions?)\b)"
    ),
    "failed",
    where=digit_beside,
    once=True,
    words=("can", "cldnt", "could not", "couldn", "didn", "fail", "missed"),
)
# "20x10, 2 short"
LESS = Rewriting(
    re.compile(
        r"\b\d+\s+(?:reps?\s+)?(?:less|fewer|more|short)\b(?!\s*(?:than|in|left|to|sets?|rounds?)\b)\s*,?\s*(?:so|=|i\.?e\.?|meaning)?(?=\D*\d)|\b\d+\s+(?:reps?\s+)?short\b"
    ),
    where=digit_beside,
    once=True,
    words=("fewer", "less", "more", "short"),
)
# "20x12 felt like an 8"
AN_EIGHT = Rewriting(
    re.compile(
        r"(?:\b(?:was|felt like|feels like|like|rated|call(?:ed)? it|i'?d say|rate it|probably|solid|easy|hard|about)\s+)+(?:about\s+|a solid\s+|a hard\s+|maybe\s+)?an?\s+([5-9](?:[.,]5)?|10)\b(?!\s*(?:kg|lb|reps?|x|sec|min|s\b|/|rir|more|:|left))"
    ),
    lambda found: f"rpe {found[1]}",
    where=digit_before,
    once=True,
    words=("about", "call", "d say", "easy", "hard", "like", "probably", "rate it", "rated", "solid", "was"),
)


def _bouts(found: re.Match[str]) -> str:
    return "rest pause " + ", ".join(re.findall(r"\d+", found["counts"]))


# "+15 rest-paused: 3, then 2, then 1"
REST_PAUSED = Rewriting(
    re.compile(r"\brest[ -]?paus(?:e|ed|ing)\b[\s:,]*(?P<counts>\d+(?:(?:\s*,)?\s+(?:and )?then \d+)+)"),
    _bouts,
    words=("rest",),
)


def _last_one_partial(found: re.Match[str]) -> str:
    if int(found["nth"]) != int(found["count"]) or int(found["count"]) < 2:
        return found.group()
    return f"{int(found['count']) - 1}, 1 half"


# "175 x 8 but the 8th only halfway": seven, and a half one
ONLY_HALFWAY = Rewriting(
    re.compile(
        r"(?<![\d.,])(?P<count>\d+)(?: reps?)?[\s,(]+(?:but |though |and )?(?:the )?(?P<nth>\d+)(?:st|nd|rd|th)(?: one| rep)? (?:was |went |came |got )?(?:only )?(?:half(?:way| way| up)?|partial)\b\)?"
    ),
    _last_one_partial,
    words=("half", "partial"),
)
