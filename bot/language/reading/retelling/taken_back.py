"""What is taken back as soon as it is said? Only what is said last counts.

"20x12 no wait 22x10"        -> "              22x10"
"18 kg 9 reps, i mean 16 kg" -> "16 kg 9 reps              "
"""

from __future__ import annotations

import re

from bot.language.reading.retelling.rewriting import NUMBER, UNIT, Rewriting

_PAIR = rf"{NUMBER}\s*(?:'?s|{UNIT})?\s*(?:[x×*@]|for|with|at)\s*(?:the\s+)?{NUMBER}\s*(?:{UNIT}|reps?)?"
_TAKING_BACK = r"(?:no wait|wait no|sorry no|no sorry|no no|no|wait|scratch that|strike that|i mean|i meant|sorry|oops|actually|make that|correction|edit|or rather|rather)"
_WORDS = (
    "actually",
    "correction",
    "edit",
    "i mean",
    "make that",
    "no",
    "oops",
    "rather",
    "scratch that",
    "sorry",
    "strike that",
    "wait",
)
# "20x12 no wait 22x10": the second pair
PAIR_AGAIN = Rewriting(
    re.compile(rf"{_PAIR}[\s,.…(-]*\b{_TAKING_BACK}\b[\s,.:-]*(?={_PAIR})"),
    words=_WORDS,
)
# "18 kg 9 reps, i mean 16 kg": the load said last, in the place of the first
LOAD_AGAIN = Rewriting(
    re.compile(
        rf"(?P<old>{NUMBER})(?P<mid>\s*(?P<unit>{UNIT})\b.{{0,24}}?)[\s,.(]+{_TAKING_BACK}[\s,.:]+(?P<new>{NUMBER})\s*(?P=unit)\b\)?"
    ),
    "{new}{mid}",
    words=("kg", "kilo", "lb", "pound"),
)
# "20x12, sorry 11": the count said last
COUNT_AGAIN = Rewriting(
    re.compile(
        rf"(?P<joint>[x×*@]|\bfor|\bgot|\bdid)(?P<gap>\s*){NUMBER}(?P<reps>\s*reps?)?[\s,.…(]+(?:{_TAKING_BACK})[\s,.:]+(?P<new>{NUMBER})\s*(?:reps?)?\)?(?=[\s.!,]*$)"
    ),
    "{joint}{gap}{new}",
    words=_WORDS,
)
# "12... 11 actually": the number before it goes
NOW_THIS = Rewriting(
    re.compile(rf"(?<![\w.]){NUMBER}[\s.…]+(?P<new>{NUMBER})\s+(?:actually|sorry|i mean|even|no)\b[\s.!]*$"),
    lambda found: found["new"].rjust(len(found.group())),
    words=("actually", "even", "i mean", "no", "sorry"),
)
# "44s ... no 40s x9": the number taken back goes
NOT_THAT = Rewriting(
    re.compile(
        rf"(?P<wrong>(?:{NUMBER})(?:'?s|\s*{UNIT}|\s*reps?)?[\s.,…-]*\b(?:no wait|no sorry|wait no|oops no|no no|no|scratch that|i mean|sorry|actually|make that)[\s,.:]+)(?=(?:{NUMBER})(?!\s*(?:more|in|left)\b))"
    ),
    words=("actually", "i mean", "make that", "no", "scratch that", "sorry"),
)
# "scratch the last one, i counted wrong, it was four": what the last one was
LAST_ONE_WAS = Rewriting(
    re.compile(
        r"\b(?:scratch|strike|forget|ignore|scrap) (?:the|that|my) last(?: one| set| entry)?\b[^.\d]*?\b(?:it was|was|should be|make it|i meant)(?= [\w.]+\W*$)"
    ),
    "the last one was",
    words=("forget", "ignore", "scrap", "scratch", "strike"),
)
_COLOUR = r"(?:red|blue|green|yellow|black|purple|orange|grey|gray|pink|white|violet|silver|gold|light|medium|heavy)"
# "blue was too fierce so back to red": the band it came to
TOO_MUCH = Rewriting(
    re.compile(
        rf"\b(?:the )?{_COLOUR}(?: band| one)? (?:was|is|felt|got) (?:way |far |a bit |just |much )*too [a-z]+[\s,;:.]*(?:so |and )?(?:i )?(?:went |moved |switched |dropped |swapped |then )?(?:back |down |up )?(?:to|used|with|took) (?:the )?(?={_COLOUR}\b)"
    ),
    words=("too",),
)
