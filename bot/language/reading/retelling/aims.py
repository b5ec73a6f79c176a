"""What was wanted, or done another day, and is no set of today? Aims, hopes, last week.

"went for 5, got 4 with 80" -> "     got        4 with 80"
"20x12, last week i got 10" -> "20x12                    "
"""

from __future__ import annotations

import re

from bot.language.reading.retelling.rewriting import NTH, NUMBER, UNIT, Rewriting, counted_after, without_digits

_OF_TODAY = re.compile(r"\b(?:today|tonight|now|this (?:week|time|session|one)|same|again|then|but|so|just)\b")
# "last week the 24 flew up, 10 10 10": told of a day gone by
OF_LAST_TIME = Rewriting(
    re.compile(
        r"(?:^|(?<=[.!?\n]))\s*(?:last (?:week|time|session|month)\b[^.!?\n:]*\b(?:flew|felt|went|moved|killed)\b"
        r"|[^.!?\n]*\b(?:sore|hurt|ached|stiff|wrecked)\b[^.!?\n]*\blast (?:week|time|session))(?:(?!\.\d)[^!?\n.]|\.\d)*"
    ),
    lambda found: found.group() if _OF_TODAY.search(found.group()) else "",
    words=("last",),
)
_DONE_WORDS = re.compile(r"\b(?:got|did|made|managed|but|hit(?! me)|had|ended|done|just|was|so far)\b")
# "aiming for 3x12 today": nothing is done yet
INTENDS = Rewriting(
    re.compile(
        r"\A\s*(?:(?:ok|okay|so|right|the|my|today|tonight|coach)[\s,:]+)*(?:aim(?:ing)?|goal|target|plan(?:ning)?|going|gonna go|hoping|shooting)\b[\s:]*"
        r"(?:(?:is|for|to|do|get|hit|today|tonight|the|on)[\s:]+)*\d[^,\n]*(?:,\s*[^\d\n]*)?$"
    ),
    lambda found: without_digits(found.group()),
    where=lambda found: not _DONE_WORDS.search(found.string),
    words=("aim", "goal", "going", "gonna go", "hoping", "plan", "shooting", "target"),
)
# "like last time but 11": the same
LIKE_LAST = Rewriting(
    re.compile(
        r"^(?P<lead>\s*(?:(?:ok|okay|just|did|done|all|exactly|it|pretty much|was|hey|hi|yes|yep)[ ,]+)*)like(?= (?:last (?:time|week|session|one|set)|the last)\b)"
    ),
    "{lead}same",
    words=("like",),
)
# "20 like last week": the same
AS_LAST = Rewriting(
    re.compile(r"\blike(?= (?:last (?:time|week|session)|the last time)\b)"),
    "same",
    words=("like",),
)
# "same as b4": no number
B_FOUR = Rewriting(
    re.compile(r"(?<=\bas )b4\b"),
    words=("as",),
)
# "i beat last week by one rep"
BEAT_BY = Rewriting(
    re.compile(r"\bbeat last (?P<when>week|time) by (?P<n>one|two|1|2)(?: reps?)?\b"),
    "{n} more than last {when}",
    words=("beat last",),
)
# "thought i had 12, got 10"
EXPECTED = Rewriting(
    re.compile(
        rf"\b(?:thought|figured|reckoned|expected|expecting|hoped)\s+(?:(?:i|to|for|i'?d|had|have|get|got|do|would|could|it|was|were|at|least)\s+)*{NTH}\b(?:\s+(?:reps?|in me|in the tank|more|for sure))*"
    ),
    where=counted_after,
    once=True,
    words=("expected", "expecting", "figured", "hoped", "reckoned", "thought"),
)


def _got_instead(found: re.Match[str]) -> str:
    return f"{' ' * 4}{found['load'] or ''} got"


# "went for 5, got 4", "aiming for ten with the fifties and my grip quit at eight": what was aimed at is no count
WENT_FOR = Rewriting(
    re.compile(
        rf"\b(?:went|was going|going|aiming|aimed|shooting|shot|tried|trying|hoping|hoped|reaching|planned|wanted)\s+(?:for\s+|to get\s+|to do\s+)?(?P<aim>{NTH})\b(?P<load>\s+(?:with|at|@|on)\s+(?:the\s+)?[\w.]+)?"
        rf"(?P<gap>[\s,.]*(?:(?:reps?|but|and|only|just|i|my|grip|it|legs|arms|body|form|everything)[\s,.]+)*)(?P<verb>got|made|managed|did|hit|had|quit at|stopped at|failed at|died at|gave out at|gave up at|packed in at|went at|ended (?:at|up with|with|on))(?= (?:only |just |about )?{NTH}(?:reps?)?\b)"
    ),
    _got_instead,
    words=(
        "aimed",
        "aiming",
        "going",
        "hoped",
        "hoping",
        "planned",
        "reaching",
        "shooting",
        "shot",
        "tried",
        "trying",
        "wanted",
        "went",
    ),
)
# "20x12, last week i got 10"
LAST_WEEK = Rewriting(
    re.compile(
        rf"(?<=[\w)])[\s,.(-]+(?:(?:but|and|when|whereas|while|cos|because)\s+)?(?:last (?:week|time|month|session|mon|tues|wednes|thurs|fri|satur|sun)\w*|a (?:week|month) ago|before)\s+(?:(?:i|it|was|could|only|barely|just|got|did|do|managed|manage|had|with|stuck|on|at|get|the|used|needed|hit)\s+)+{NUMBER}\s*(?:'?s|{UNIT}|reps?)?\b\)?"
        rf"|(?<=[\w)])[\s,.(-]+(?:(?:vs|versus|was|it was|compared (?:to|with)|from|beats|beating|better than|instead of|not)\s+)(?:the\s+)?{NUMBER}\s*(?:'?s|{UNIT}|reps?)?\s+(?:last (?:week|time|month|session)|before)\)?"
        rf"|\(\s*(?:did |was |got )?{NUMBER}\s*(?:'?s|{UNIT}|reps?)?\s+last (?:week|time|month|session)\s*\)"
    ),
    where=lambda found: bool(re.search(r"\d", found.string[: found.start() + 1])),
    words=("ago", "before", "last"),
)
# "lost two reps", "as before less two reps": so many fewer than the set before
FEWER = Rewriting(
    re.compile(
        r"(?P<lead>^\W*|\b(?:same|before|again|weight|load)[\s,]+(?:but )?)(?:less|minus|lost|dropped|down(?: by)?) (?P<n>[123])\s+reps?(?=\W*$)"
    ),
    "{lead}{n} fewer",
    words=("less", "minus", "lost", "dropped", "down"),
)
