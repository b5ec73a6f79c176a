"""How many sets are told at once, and which? Sets counted, listed, repeated.

"3 sets 7 155 lbs"   -> "3x7 @ 155 lbs   "
"all 3 sets, all 12" -> "3x12              "
"""

from __future__ import annotations

import re

from bot.language.reading.numbers import PLURAL_WORDS
from bot.language.reading.retelling.rewriting import NUMBER, UNIT, Rewriting, without_digits
from bot.language.reading.words import COLOURS

# "2 sets 14 @ 50"
SETS_AT = Rewriting(
    re.compile(r"\b(?P<k>[2-6]) sets (?P<n>\d{1,3})(?=\s*(?:reps?\s*)?(?:@|at\b|with\b|per side\b|each\b|e/s\b|a side\b))"),
    "{k} x {n}",
    words=("sets",),
)


def _parted_bands(found: re.Match[str]) -> str:
    words = found.group().split(" ")
    return "".join(word if n == 0 else (";" if n % 2 == 0 else " ") + word for n, word in enumerate(words))


# "yellow 15 green 14 green 12": each count with its own band, parted by signs where blanks stood
BANDS_IN_TURN = Rewriting(
    re.compile(
        rf"\b(?:(?:{COLOURS}) \d{{1,3}}(?: (?:{COLOURS}) \d{{1,3}})+|\d{{1,3}} (?:{COLOURS})(?: \d{{1,3}} (?:{COLOURS}))+)\b"
    ),
    _parted_bands,
    words=("black", "blue", "brown", "gold", "gr", "orange", "pink", "purple", "red", "silver", "white", "yellow"),
)
# "80x5 then the same again": told of two sets
AND_SAME = Rewriting(
    re.compile(
        rf"^\s*(?P<load>{NUMBER}\s*{UNIT}?\s*(?:[x×@]|for)\s*)?(?P<n>\d+)(?P<reps>\s*reps?)?(?:\s*,?\s+(?:then|and|and then) (?:the )?same(?: again| one)?|\s*,\s*(?:the )?same again)[\s.!]*$"
    ),
    lambda found: f"{found['load']}{found['n']} x2" if found["load"] else f"{found['n']}, {found['n']}",
    words=("same",),
)
# "20x12 and same for the next 2"
SAME_FOR_NEXT = Rewriting(
    re.compile(
        r"\bsame (?:again )?(?:for |on |in )?(?:the )?next (?P<n>[23])(?: (?:sets?|ones?|rounds?))?\b|^(?P<times>[23]) ?[x×] (?:the )?same(?: again)?\b"
    ),
    lambda found: f"same x{found['n'] or found['times']}",
    words=("same",),
)
# "20x12 next set 11"; every set so called, where one is called the next
NEXT_SET = Rewriting(
    re.compile(r"(?<=\d)\s*[.,;]?\s*(?:and |then )?(?:the )?(?:next|last|final) (?:set|one)(?=[\s:]*(?:was |got )?\d)"),
    lambda found: ",".rjust(len(found.group())),
    where=lambda found: "next set" in found.string or "next one" in found.string,
    words=("one", "set"),
)
# "green 12 each side, twice"
TWICE = Rewriting(
    re.compile(r"(?<=[\d\w)]),\s+twice(?=\s*(?:[.!]|$))"),
    " x2sets",
    words=("twice",),
)
# "20x12 that set nearly killed me": speaks of the set, and names no second one
THAT_SET = Rewriting(
    re.compile(
        r"(?<=\d)(?P<gap>[ ,.]*)\b(?:that|this|the last|last) (?:set|one)\b(?=\s+(?:was|is|felt|feels|nearly|almost|really|absolutely|just|totally)?\s*"
        r"(?:killed|destroyed|wrecked|sucked|kicked|got|hard|brutal|tough|easy|rough|felt|crushed|smoked|ended|hurt|awful|great|good|bad|killer)\b)"
    ),
    words=("one", "set"),
)
# "20x12 on my last set", "last set: 20x12": which set it was goes without saying
THIS_SET = Rewriting(
    re.compile(
        r"(?<=\d)(?P<a>[ ,.]+(?:for |on )?(?:my |the )?(?:last|final|this|that) set)\b(?!\s*(?:was|were|is|should|of|[:=x@\d]))"
        r"|^(?P<b>\s*(?:(?:ok|and|so|for|on|my|the)\s+)*(?:last|final|this) set[ ,:-]+)(?=(?:only |just |got |with |at )*\d)"
    ),
    words=("set",),
)


def _sums_up(found: re.Match[str]) -> bool:
    """Where parts were counted before, and no set was told with its load."""
    before = found["before"]
    return len(re.findall(r"\d+", before)) > 1 and not re.search(r"\d\s*(?:kg|lbs?|x)", before)


# "8, then 4 more, so 12 in total": only the total counts
SO_IN_TOTAL = Rewriting(
    re.compile(
        r"(?s:\A(?P<before>.*?))\b(?P<so>so\s+(?:that'?s |it'?s |it was |that makes )?)(?=\d+ (?:in total|total|altogether|all in|overall|in the end)\b)"
    ),
    lambda found: without_digits(found["before"]) + found["so"],
    where=_sums_up,
    words=("all in", "altogether", "in the end", "overall", "total"),
)
# "all 3 sets, all 12"
ALL_SETS_ALL = Rewriting(
    re.compile(r"\ball (?P<n>[2-6]) sets?[\s,]+(?:all|each|every one|every set)(?: of)?\s+(?P<count>\d+)(?:'?s)?\b"),
    "{n}x{count}",
    words=("all",),
)


def _sets_of(found: re.Match[str]) -> str:
    plainly = found["unit"] or found["load"] != found["m"] or float(found["m"].replace(",", ".")) >= 2 * int(found["n"])
    return f"{found['k']}x{found['n']} @ {found['load']}" if plainly else found.group()


# "3 sets 7 155 lbs": three sets of seven, where the last number is plainly a load and no second count
K_SETS = Rewriting(
    re.compile(
        rf"\b(?P<k>[2-6])\s*sets?[\s,]+(?P<n>\d+)(?P<reps>\s*reps?)?(?P<gap>[\s,]+)(?P<load>(?:the\s+|two\s+|2\s+|a\s+pair\s+of\s+|pair\s+of\s+)?(?P<m>{NUMBER})\s*(?P<unit>'?s\b|k\b|{UNIT}\b)?)(?![\s,/]*\d)"
    ),
    _sets_of,
    words=("set",),
)
# "all 3 sets 12 with 20"
ALL_K_SETS = Rewriting(
    re.compile(r"\ball (?P<k>[2-6]) sets?[:\s,]+(?P<n>\d+)(?=\s*(?:reps?\s*)?(?:@|at|with|w|x)\b)"),
    "{k}x{n}",
    words=("all",),
)
# "all the sets 12, 11, 10"
ALL_SETS_LIST = Rewriting(
    re.compile(r"\ball (?:the )?sets\b\s*:?(?=\s*\d+[\s,/]+\d)"),
    ":",
    words=("all",),
)
# "12, 11, 10 all with 20"
ALL_WITH = Rewriting(
    re.compile(r"\ball (?=(?:with|at|@|on|w)\b)"),
    words=("all",),
)
# "200 single rep"
SINGLE = Rewriting(
    re.compile(r"(?<=\d)(?P<unit>\s*(?:kgs?|lbs?|kilos?|pounds?)?)[\s,]+(?:for )?(?:an? )?single\b(?:(?= rep\b)|(?=[.,!;]|$))"),
    "{unit} x 1",
    words=("single",),
)
# "3 12s at 20"
SETS_OF = Rewriting(
    re.compile(r"\b(?P<n>[2-6])\s+(?P<count>\d+)s(?=\s+(?:at|@|with|w)\b)"),
    "{n}x{count}",
)
# "20 x12 same-11": a dash that parts
SAME_DASH = Rewriting(
    re.compile(r"\b(?P<same>same|idem|ditto)-(?=\d)"),
    "{same}",
    words=("ditto", "idem", "same"),
)
# "20 kg, tens across the board"
ACROSS = Rewriting(
    re.compile(r"\b(?P<n>threes|fours|fives|sixes|eights|tens|\d+)'?s?\s+across(?: the board| all sets| the sets)?\b"),
    lambda found: f"{PLURAL_WORDS.get(found['n'], found['n'])} all",
    words=("across",),
)
_TIMES = {"both": 2, "two": 2, "three": 3, "four": 4, "all three": 3, "all four": 4}
# "20x12 both times"
BOTH_TIMES = Rewriting(
    re.compile(r"\b(?P<n>both|two|three|four|all three|all four) times\b"),
    lambda found: f"x {_TIMES[found['n']]} sets",
    words=("times",),
)
# "20x12 for the first two sets"
FIRST_SETS = Rewriting(
    re.compile(
        r"(?<=[\ds])(?P<gap>\s+)(?:on|for|in)\s+(?:the\s+|my\s+|all\s+)?(?:first|last|next)\s+(?P<n>two|three|four|[2-5])\s+sets?\b"
    ),
    " x {n} sets",
    words=("set",),
)
# "first two sets were 12"
FIRST_TWO = Rewriting(
    re.compile(
        r"\bfirst\s+(?P<n>two|three|four|[2-4])\s+(?:sets\s+(?:were\s+|was\s+|at\s+|[:=]\s*)?|were\s+|was\s+|at\s+|[:=]\s*)(?P<count>\d+)\b(?!\s*(?:kg|lbs?|kilos?|pounds?))"
    ),
    "{count} x {n} sets",
    words=("first",),
)
# "20x12 both sets"
BOTH_SETS = Rewriting(
    re.compile(r"\bboth sets\b(?!\s+(?:was|were|with|should))"),
    "2 sets",
    words=("both sets",),
)
