"""Which signs and words only lay a message out? Numbers of lines, dates on top, names of rounds, stops that were dictated.

"1. squats 60 8 8"            -> "   squats 60 8 8"
"20x12 full stop next 20x10"  -> "20x12.          next 20x10"
"""

from __future__ import annotations

import re

from bot.language.reading.retelling.rewriting import NUMBER, UNIT, Rewriting, without_digits

# "20x12 full stop next 20x10", dictated: a full stop
SPOKEN_STOP = Rewriting(
    re.compile(r"(?<=\d)\s+(?:period|full stop)(?=\s*(?:$|next|last|second|third|then|now|set|and|left|right|\d))"),
    ".",
    words=("full stop", "period"),
)
# "20x12 and that's me done": the rest is a sentence of its own
AND_DONE = Rewriting(
    re.compile(
        r"(?<=\w)\s*,?\s*\b(?:and|so|then)\s+(?:then |now )?(?=(?:i'?m|i am|that'?s me|that is me) (?:all )?done(?: for (?:today|the day|tonight|now))?[\s.!]*$)"
    ),
    ".",
    words=("done",),
)


def _counts_lines(found: re.Match[str]) -> bool:
    """Where several lines are numbered, or the first is called 1."""
    numbers = found.re.findall(found.string)
    return len(numbers) > 1 or numbers[0].strip() in ("1.", "1)")


# "1. squats 60 8 8" and "2. rows 40 10": the number of the line
LINE_NUMBER = Rewriting(
    re.compile(r"(?m)^[ ]*\d{1,2}[.)][ ]+(?=[a-z]{2})(?!(?:left|right|set|same|sets|reps)\b)"),
    where=_counts_lines,
)
# "12/3" on a line of its own above the sets
DATE_LINE = Rewriting(
    re.compile(r"^\s*\(?\d{1,2}[/.-]\d{1,2}(?:[/.-]\d{2,4})?\)?\s*:?[ ]*(?=\n)"),
    words=("\n",),
)
# "round 2: 20x12" below a line of round 1: the name of the round
ROUND_HEAD = Rewriting(
    re.compile(
        r"(?m)^[ ]*(?:round|rnd|rd|tour|runde|ronde|circuit|lap|giro|vuelta|r)[ ]*(?:\d|one|two|three|four|five)[ ]*[:.)-]?[ ]*(?=[^\n]*\d)(?![x×*@])"
    ),
    where=lambda found: "\n" in found.string,
)
# "1O": the letter for the figure
LETTER_O = Rewriting(
    re.compile(r"(?<=\d)o(?=[^\w]|kg|lb|x\d|$)"),
    "0",
)
# "20kg.12": a point that parts
POINT_BETWEEN = Rewriting(
    re.compile(r"(?<=\d(?:kg|lb))\.(?=\d)"),
    words=("kg", "lb"),
)
# "squat | 60 | 8": the load and its counts
ROW_OF_TABLE = Rewriting(
    re.compile(r"(?m)(^[^|\n]*[a-z][^|\n]*\|\s*\d+(?:[.,]\d+)?\s*(?:kg|lbs?)?\s*)\|(?=\s*\d)"),
    lambda found: f"{found[1]}:",
    words=("|",),
)
# "x12 x10 @ 20": counts of one load, each with its sign of times
LONE_TIMES = Rewriting(
    re.compile(r"\A\s*x\d+(?:[\s,]+x\d+)+\s*(?:@|at\b|with\b|w\b|$)(?s:.*)"),
    lambda found: re.sub(r"(?<![\w.])x(?=\d)", " ", found.group()),
)
# "20kg -> 12, 12, 10", "a1 20 > 12": a load and its counts
ARROW = Rewriting(
    re.compile(
        rf"(?P<load>(?:{NUMBER}\s*(?:k|{UNIT})|\d+[.,]\d+))\s*(?:->|=>|>)\s*(?=\d)|^(?P<head>\s*[a-z]\d\s*:?\s*{NUMBER}\s*(?:k|{UNIT})?)\s*(?:->|=>|>)\s*(?=\d)"
    ),
    lambda found: f"{found['load'] or found['head']}: ",
    words=(">",),
)
# "right so 20x12": no side
RIGHT_SO = Rewriting(
    re.compile(r"^\s*(?:ok |okay )?right\b[\s,]+(?=so\b|then\b|that|i\b|now\b|well\b|lads|folks|first\b|done\b|we\b|just\b)"),
    words=("right",),
)
_OTHER_NUMBER = re.compile(
    r"(?<=\bat )\d+(?=\s+[a-z])|(?<=\bin )\d+(?=\s+[a-z])|(?<=\btill )\d+|(?<=\buntil )\d+|(?<=\bby )\d+|(?<=\broom )\d+|(?<=\bbus )\d+|(?<=\bline )\d+"
    r"|(?<![\d.,])\d+(?=\s+(?!ki+l|reps|sets|kgs|kilos|lbs|pounds|steps|rounds|plates|bands|seconds|secs|metres)[a-z]{4,}s\b)|\b\d+(?=\s*(?:am|pm|mins?|minutes?|hours?|h|hrs?|days?|weeks?|months?|years?|kids?|people|emails?|meetings?|calls?|patients?|km|miles|o'?clock)\b)"
)


def _without_preface(found: re.Match[str]) -> str:
    said = _OTHER_NUMBER.sub(lambda other: without_digits(other.group()), found["said"])
    return said + found.group()[len(said) :]


# "choir practice at 7 so quick one: 50 x 11": numbers of other things before the colon go
PREFACE = Rewriting(
    re.compile(r"^(?P<said>[^\n:]{6,70}):\s*(?=\d+(?:[.,]\d+)?\s*(?:(?:kg|lbs?|'?s)?\s*(?:[x×*@]|for)\s*|(?:kg|lbs?)\s+)\d)"),
    _without_preface,
    words=(":",),
)
