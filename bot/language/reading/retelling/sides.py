"""Which count belongs to which side, and which words name no side at all?

"8/7 (right first)"                            -> "r8 l7            "
"11 on the good arm (right), 9 on the bad one" -> "11 on right               , 9 on left       "
"""

from __future__ import annotations

import re

from bot.language.reading.retelling.rewriting import NUMBER, UNIT, Rewriting, padded

# "10 left 9 right (20kg)": the load stands first
SIDES_FIRST = Rewriting(
    re.compile(
        rf"\A(?P<sides>[^()\n]*\b(?:left|right)\b[^()\n]*\b(?:left|right)(?: (?:side|leg|arm|hand))?)[\s,]*\((?P<load>{NUMBER}(?:'?s|\s*{UNIT})?)\)[\s.!]*\Z"
    ),
    "{load}: {sides}",
    words=("left", "right"),
)
# "7 reps left, 6 reps right": none in reserve
REPS_LEFT = Rewriting(
    re.compile(r"reps left"),
    "left",
    where=lambda found: "right" in found.string,
    words=("reps left",),
)
# "knee felt tight on the left": a side of the body, not of the set
BODY_SIDE = Rewriting(
    re.compile(
        r"\b(?:knee|shoulder|hip|back|elbow|wrist|ankle|hamstring|hammy|calf|quad|glute|neck|groin)\b[^,.;\d]{0,12}\b(?:talk\w*|complain\w*|grumbl\w*|niggl\w*|twing\w*|tight|sore|click\w*|moan\w*|achy?|feels?|felt|bit|funny)\b[^,.;\d]{0,16}?\b(?:on|in) (?:the|my) (?:left|right)\b(?: side)?"
    ),
    words=("left", "right"),
)
# "8 right, and stopped the left at 8 to match"
MATCHED = Rewriting(
    re.compile(
        r"\b(?:and )?(?:made|had|let|cut|kept|stopped) (?:the |my )?(?:left|right|l|r|other)(?: (?:side|leg|arm))?(?: off| back)?(?: to| at \d+\w*)?(?: to)? match(?:ed)?\b"
    ),
    "matched",
    words=("match",),
)


def _sides_in_order(found: re.Match[str]) -> str:
    one, two = ("right", "left") if found["side"].startswith("r") else ("left", "right")
    return f"{one[0]}{found['one']} {two[0]}{found['two']}"


# "8/7 (right first)": which of the two counts is whose
FIRST_SIDE = Rewriting(
    re.compile(
        r"\b(?P<one>\d+)\s*(?:/|and|&|,|-|then)\s*(?P<two>\d+)\s*[,(]?\s*\(?(?P<side>right|left|r|l)\s*(?:(?:side|arm|leg|hand)\s*)?(?:first\b|/\s*(?:left|right|l|r)\b|then (?:left|right|l|r)\b)\)?"
    ),
    _sides_in_order,
    words=("/", "first", "then"),
)
# "20 m one hand then 20 the other": as much on each side
ONE_THEN_OTHER = Rewriting(
    re.compile(
        r"\b(?P<n>\d+)(?P<unit>\s*(?:m|metres|meters|s|secs?|seconds|steps|reps?)?) (?:on |with |in )?(?:the |my )?one (?:hand|arm|leg|side),? (?:then|and|,) (?P=n)(?: (?:m|metres|meters|s|secs?|seconds|steps|reps?))? (?:on |with |in )?(?:the |my )?other(?: (?:hand|arm|leg|side|one))?"
    ),
    "{n}{unit} each side",
    words=("other",),
)
_OTHER_SIDE = re.compile(
    r"\b(?:(?:my|the)\s+)?(?:good|bad|weak|weaker|strong|stronger|dominant|better|worse|dodgy|main|other)\s+(?:arm|leg|side|hand|one)\b(?!\s*[(])|\bthe other\b"
)


def _by_their_names(found: re.Match[str]) -> str:
    text = found["before"] + found["side"].ljust(len(found["told"])) + found["after"]
    if re.search(r"\b(?:left|right)\b", found["before"] + found["after"]):
        return text  # "8 on the good leg (right), 6 on the left": both are said
    other = "left" if found["side"] == "right" else "right"
    return _OTHER_SIDE.sub(lambda named: padded(other, named.group()), text)


# "11 on the good arm (right), 9 on the bad one": which side is the good one is said, so the bad one is the other
NAMED_SIDES = Rewriting(
    re.compile(
        r"(?s:\A(?P<before>.*?))"
        r"(?P<told>\b(?:(?:my|the)\s+)?(?P<word>good|bad|weak|weaker|strong|stronger|dominant|better|worse|dodgy|main)\s+(?:arm|leg|side|hand|one)?\s*[(=,]?\s*(?:which is\s+|that'?s\s+|is\s+)?(?:the\s+|my\s+)?(?P<side>left|right)\b(?:\s*\)|\s+one\b,?)?)"
        r"(?s:(?P<after>.*))"
    ),
    _by_their_names,
    words=("left", "right"),
)
