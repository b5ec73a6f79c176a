"""Which numbers in set talk are no sets at all? Rests, pulse, clock times, weeks, things that broke, names that hold a number.

"20x12 tempo 3110"          -> "20x12           "
"20x12 after 2 min of rest" -> "20x12                    "
"""

from __future__ import annotations

import re

from bot.language.reading.clauses import FULL_SET, NO_LIFT
from bot.language.reading.retelling.rewriting import NTH, NUMBER, UNIT, Rewriting, digit_after, digit_beside
from bot.language.reading.words import COLOURS, SHADES

# "three point row": the number of a name
POINT_ROW = Rewriting(
    re.compile(r"\b(?:3|three)[ -]*(?:pt|points?)(?= (?:rows?|plank|hold)\b)"),
    words=("hold", "plank", "row"),
)
# "w/u 20x12": a warm-up
WARM_UP = Rewriting(
    re.compile(r"\bw\s?/\s?u(?:ps?)?\b"),
    "wu",
)

# "hi again", "feeling good again": a greeting or a mood that came back, and no set done once more
BACK_AGAIN = Rewriting(
    re.compile(
        r"(?P<said>\b(?:hi|hello|hey|hiya|morning|evening|welcome|good|great|fine|strong|well|better|ill|sick|sore|tired|late|raining|feeling|is|am|i'?m|back|here we|there we|"
        r"running|happen\w*|see you|thanks|start\w*|lost|broke\w*|forgot\w*|work|home|online|alive|normal|human) (?:(?:at|to|in|on|it|go|coach|all|me|my|the) )*)again\b"
    ),
    "{said}",
    words=("again",),
)


def _set_beside(found: re.Match[str]) -> bool:
    """Whether the rest of the text tells a set with its load and count."""
    return bool(FULL_SET.search(found.string[: found.start()] + "|" + found.string[found.end() :]))


# "20x12 before the 7:30 train", where a set is told beside it
TIME_OF_DAY = Rewriting(
    re.compile(
        r"\b(?:the |at |by |before |after |till |until |around )*(?:\d{1,2}\s*(?:o'?clock|am|pm)|(?:[01]?\d|2[0-3])[:.][0-5]\d(?= (?:to|train|bus|service|shift|class|flight|ferry|meeting|call|mass|start|finish|appointment|tram|boat)\b))"
    ),
    where=_set_beside,
    words=(
        "am",
        "appointment",
        "boat",
        "bus",
        "call",
        "class",
        "clock",
        "ferry",
        "finish",
        "flight",
        "mass",
        "meeting",
        "pm",
        "service",
        "shift",
        "start",
        "to",
        "train",
    ),
)
# "20x12, done by 7"
DONE_BY = Rewriting(
    re.compile(
        r"\b(?:done|finished|out|home|back|over|through|leaving|off) (?:by|at|before) (?:about )?\d{1,2}\b(?!\s*(?:kg|reps?|lb|x))"
    ),
    words=("back", "done", "finished", "home", "leaving", "off", "out", "over", "through"),
)


def _other_band(found: re.Match[str]) -> bool:
    """Whether a band is named in the rest of the text too."""
    return bool(re.search(rf"\b(?:{COLOURS})\b", found.string[: found.start()] + found.string[found.end() :]))


# "green band today, as the red felt easy": why another band was taken
BAND_EXCUSE = Rewriting(
    re.compile(
        rf"\b(?:as|because|cos|cuz|since|cause) (?:the |my )?(?:{COLOURS})(?: band| one)? (?:felt|was|is|feels|got|had got)(?: [a-z]+){{1,3}}"
    ),
    where=_other_band,
    once=True,
    words=("as", "cause", "cos", "cuz", "since"),
)
# "20x12 (red band snapped)"
BAND_GONE = Rewriting(
    re.compile(
        r"\(?(?:the |my )?(?:yellow|red|green|blue|black|silver|gold|orange|purple|pink|gr[ae]y|white) (?:band |one )?(?:just )?(?:snapped|broke|is broken|ripped|died|is gone|went missing|is lost)[^,.;\d]*\)?"
    ),
    where=digit_beside,
    words=("broke", "died", "is gone", "is lost", "ripped", "snapped", "went missing"),
)
_HELPERS = re.compile(r"band|spot|assist|machine|partner|mate\b|\d helped|helped (?:by|with|on|me (?:with|on|through))")
# "20x12, music helped": no help with the lift
HELPED = Rewriting(
    re.compile(r"helped"),
    where=lambda found: not _HELPERS.search(found.string),
    words=("helped",),
)
# "2 more bottles more, 12 kg now"
MORE_THINGS = Rewriting(
    re.compile(rf"\b\d+ (?:more )?[a-z]+ more,?\s*(?={NUMBER}\s*{UNIT}\s+now\b)"),
    words=("more",),
)
# "20x12 after 3 weeks off"
WEEKS = Rewriting(
    re.compile(r"\b(?:in |for |after |of )?\d+ (?:weeks?|days?(?!\s+ago\b)|months?|years?)\b(?: off| away| out| now)?"),
    where=digit_beside,
    once=True,
    words=("day", "month", "week", "year"),
)
# "20x12, ran 5 km": what is no lift, where a set is told beside it
NO_LIFTS = Rewriting(
    NO_LIFT,
    where=_set_beside,
    once=True,
)
# "the red was too light so went to blue 12"
GIVEN_UP = Rewriting(
    re.compile(
        rf"\b(?:(?:the|with)\s+)*(?:(?:{SHADES})(?:\s+(?:band|one))?|{NUMBER}\s*(?:kg|kgs|kilos?|lbs?|pounds?)?)\s+(?:was|were|is|felt)\s+(?:way\s+|just\s+|a bit\s+|far\s+|much\s+)*"
        r"too\s+(?:much|heavy|hard|strong|light|easy|thick|thin)\b[ ,.]*(?:so\s+|and\s+|but\s+)*(?:(?:i\s+)?(?:went\s+|dropped\s+|moved\s+|switched\s+)?(?:back|down|up)?\s*to\b|used\b|took\b|did\b|(?=\d|the\b|with\b|"
        + SHADES
        + r"))"
    ),
    where=digit_after,
    once=True,
    words=("too",),
)
# "7 + 3 + 1 with ten breaths between"
BREATHS = Rewriting(
    re.compile(rf"\b(?:with |after )?(?:\d+|{NTH}) (?:deep |big )?breaths(?: (?:in )?between(?: (?:each|them))?)?\b"),
    where=digit_beside,
    words=("breath",),
)
_FOUR = re.compile(r"(?<![\d.@])\s*(\d)\s?-\s?(\d)\s?-\s?(\d)\s?-\s?(\d)(?![\d.])")


def _unless_four_counts(found: re.Match[str]) -> str:
    """A tempo goes; "40 kg: 8-8-7-6" is none, for no phase lasts so long and no other count is said in its line."""
    four = _FOUR.fullmatch(found.group())
    if four is not None:
        phases = [int(each) for each in four.groups()]
        before, after = found.string[: found.start()], found.string[found.end() :]
        others = re.findall(r"\d+", before[before.rfind("\n") + 1 :] + " " + after.partition("\n")[0])
        if min(phases) >= 3 and (max(phases) >= 7 or len(others) < 2):
            return found.group().replace("-", ",")
    return ""


# "20x12 tempo 3110", "rest 90 s", "pulse 140", "next time 22", "2 sets left", "up from 18"; a tempo goes, four counts stay
NO_COUNTS = Rewriting(
    re.compile(
        rf"(?:@|at|with)?\s*(?:a\s+)?(?:tempo\s*(?:of\s*)?)?(?<![\d.,a-z-])(?<!\d - )\d\s?[-–:]\s?\d\s?[-–:]\s?[\dx]\s?[-–:]\s?[\dx](?![\d.]|\s?[-–]\s?\d)|(?:@\s*|at\s+|with\s+)?tempo\s*(?:of\s*|was\s*|:\s*)?[\dx]{{3,4}}\b"
        rf"|(?:with\s+|w/?\s*)?(?:an?\s+)?{NUMBER}\s?(?:-\s?{NUMBER}\s?)?(?:s|sec|secs|seconds?|count)\s+(?:breaths?|breathers?|rests?(?!\s*-?\s*paus)|breaks?|gaps?|negatives?|eccentrics?|lowering|pauses?|descents?|tempo|on the way (?:down|up)|down(?=\b(?! to))|holds? at|squeezes?)\b"
        rf"|\b(?:heart ?rate|hr|pulse|bpm)\s*(?:(?:of|was|at|is|around|about|:|got|went|hit|peaked|up|to|reached|showing|says|said)\s*)*\d{{2,3}}\b|\b\d{{2,3}}\s*bpm\b"
        rf"|\b(?:ready for|(?:next (?:time|week|session)|volgende keer|nächstes mal|la prochaine fois|próxima vez|nästa gång)(?: i'?ll)?(?: try| do| go(?: for)?| use| with)?|(?:will|i'?ll|gonna|going to) (?:try|do|go(?: for| to| up to)?|use)|could (?:go|use|try|handle)|could do(?=\s+(?:the\s+)?{NUMBER}\s*(?:kg|kgs|lbs?|kilos?|pounds?|next\b)))\s+(?:the\s+|for\s+|with\s+)?{NUMBER}\s*(?:kg|kgs|lbs?|kilos?|pounds?)?(?:\s+next (?:time|week|session|set))?"
        rf"|\b(?:after|took|in|for|needed|had|with)\s+(?:a\s+|about\s+)?{NUMBER}\s*(?:min|mins|minutes?|m|s|sec|secs|seconds?)\s+(?:of\s+)?(?:rest|break|breather|off|between)\b|\b{NUMBER}\s*(?:min|mins|minutes?|s|sec|secs|seconds?)\s+(?:rest(?!\s*-?\s*paus)|break|breather|between)\b"
        rf"|\b(?:rest|rested|resting|rests|breaks?)\s*(?:of|for|was|:|in between|between sets)?\s*(?:about\s+|only\s+)?{NUMBER}\s*(?:(?:minutes?|mins?|m|seconds?|secs?|s)\b|\"|')?(?:\s+between(?: sets)?)?"
        rf"|(?<=\d)\s+(?:reps?\s+)?in\s+(?:the|a|one|1|under a)\s+(?:minute|min)\b|(?<=\d) in \d+\s?(?:s|secs?|seconds)\b"
        rf"|\b{NUMBER}\s*-?(?:litres?|liters?|ltr)\b(?=.*\d\s*(?:kg|lb|kilo|pound))|\b{NUMBER}l\b(?=.*\d\s*(?:kg|lb|kilo|pound))(?!.*\d\s?r\b)|(?<!\S)(?:\d|10)/10(?=\s+(?:would|from me|for (?:the|that|this)|recommend|session|workout))"
        rf"|\b(?:\d|one|two|three|four)\s+(?:more\s+)?(?:sets?|exercises?|rounds?|things?|moves?|supersets?)\s+(?:left|to go|to do|remaining|more to go|more)\b(?=\D*\d)|(?<=\w)[\s,.]+(?:only\s+)?(?:\d|one|two|three|four)\s+(?:more\s+)?(?:sets?|exercises?|rounds?|things?|moves?|supersets?)\s+(?:left|to go|to do|remaining|more to go)\b|\bout of \d+ (?:sets|planned)\b|\(?\b(?:up|down) from (?:the\s+)?{NUMBER}\s*(?:kg|kgs|kilos?|lbs?|pounds?|s\b|reps?)?(?:\s+last (?:week|time))?\)?|(?<!last )(?<!this )\bweek \d+\b(?!\s*reps?)|\b(?:round|rd|lap) \d+ (?:done|complete|completed|finished|over|in the bag)\b"
    ),
    _unless_four_counts,
)
