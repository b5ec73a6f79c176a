"""How heavy was it, told in other words? Steps up, pairs, things of equal weight, water.

"20x12 with 2.5 kg more"          -> "20x12 with up 2.5 kg  "
"two bottles of water, 5 kg each" -> "5kg each hand                  "
"""

from __future__ import annotations

import re

from bot.language.reading.retelling.rewriting import NTH, NUMBER, UNIT, Rewriting

_WAYS = {
    "extra": "up",
    "fewer": "down",
    "heavier": "up",
    "up": "up",
    "more": "up",
    "lighter": "down",
    "less": "down",
    "down": "down",
}


def _stepped_by(found: re.Match[str]) -> str:
    if found["by2"]:
        return f"{_WAYS[found['way2']]} {found['by2']} {found['unit2']}"
    return f"{_WAYS[found['way']]} {found['by']}"


# "2.5 kg heavier", "10 more lbs": up or down by so much
HEAVIER = Rewriting(
    re.compile(
        rf"\b(?P<by2>{NUMBER})\s+(?P<way2>more|extra|less|fewer)\s+(?P<unit2>{UNIT})\b(?!\s+(?:than|in|left))|\b(?P<by>{NUMBER}\s*{UNIT})\s+(?P<way>heavier|lighter|up|more|less|down)\b(?!\s+(?:in|left|to|reps?)\b|\s+than\s+(?!last|before|the last|the one before))(?:\s+than\b)?"
    ),
    _stepped_by,
    words=("extra", "fewer", "kg", "kilo", "lb", "less", "more", "pound"),
)
# "moved up to 22": the load from here on
MOVED_TO = Rewriting(
    re.compile(
        r"\b(?:bumped|moved|switched|changed|increased|raised|upped|stepped|jumped|lowered|reduced|loaded)(?: (?:it|them|the weight|weight|up|down))* to (?=(?:the |a )?\d)(?!\d+ ?(?:reps?|times|sec|s\b|min))"
    ),
    "weight",
    words=("to",),
)
# "double 20s": a pair
DOUBLE = Rewriting(
    re.compile(r"\bdouble (?=\d+(?:\.\d+)?'?s\b)"),
    "2",
    words=("double",),
)
# "a pair of 50s": two of them
PAIR_OF = Rewriting(
    re.compile(rf"\b(?:a |the |my )?(?:pair|couple) of (?={NUMBER}(?:'?s|\s*{UNIT})\b)"),
    "2 ",
    words=("pair of", "couple of"),
)
# "squats with 2x8 kg: 12 and 12": two of eight
WITH_TWO_OF = Rewriting(
    re.compile(rf"\b(?:with|w/|w|using|holding)(?P<gap> ?)(?P<the>the |my )?2 ?[x×*] ?(?P<load>{NUMBER}\s*{UNIT})\b"),
    "w 2 {load}",
    words=("w", "using", "holding"),
)
# "dips 25 hanging, 6": what hangs from the belt is added
HANGING = Rewriting(
    re.compile(
        rf"(?P<load>(?<![\d.,x×+]){NUMBER}\s*(?:{UNIT})?) (?:hanging|hung|dangling|strapped|hanging off me)\b(?: on| off me)?(?! (?:knee|leg|from))"
    ),
    "+{load}",
    words=("hanging", "hung", "dangling", "strapped"),
)
_LEAST_LOAD = 16  # below it an arrow may as well lead from count to count


def _heavy_first(found: re.Match[str]) -> str:
    alone = not re.search(r"->|=>|>", found.string[: found.start()] + found.string[found.end() :])
    load = float(found["load"].replace(",", "."))
    return (
        f"{found['load']}{found['unit'] or ''} x {found['count']}"
        if alone and load >= _LEAST_LOAD and load > int(found["count"]) * 1.5
        else found.group()
    )


# "90 -> 8": the load, and how often
ARROW = Rewriting(
    re.compile(
        rf"(?<![\d.,x×@/])(?P<load>{NUMBER})(?P<unit>\s*{UNIT})?\s*[-=]?>\s*(?P<count>\d+)(?![.,]?\d|\s*(?:{UNIT}|[x×@/>=]|->))"
    ),
    _heavy_first,
    words=(">",),
)
# "add 2.5, still 8": up by so much
ADDED = Rewriting(
    re.compile(
        rf"^(?P<lead>\W*)(?:add|added|adding|put on|stuck on|slapped on) (?:another |an extra )?(?P<by>{NUMBER}(?:\s*{UNIT})?)(?: more)?(?: on)?(?=[\s,]+(?:(?:still|for|got|and|did|another)\s+)*\d+\s*(?:reps?)?(?:\W|haha|lol)*$)"
    ),
    "{lead}up {by},",
    words=("add", "on"),
)
# "12 on 20": the count, then the load
ON_LOAD = Rewriting(
    re.compile(
        rf"^(?P<count>\s*(?:(?:did|got|just|managed|hit|ok)\s+)*\d+(?:\s*reps?)?)\s+on\s+(?:the\s+)?(?={NUMBER}(?!\s*(?:left|right)))"
    ),
    "{count} @ ",
    words=("on",),
)
# "20x12, then more 2 kg on the bar": up by so much
MORE_ON_IT = Rewriting(
    re.compile(
        rf"\bmore (?P<by>{NUMBER}\s*(?:{UNIT})?) on (?:the |my |each |it)?(?:bar|side|bell|dumbbells?)?\b|\b(?P<by2>{NUMBER}\s*{UNIT}) (?:erbij|mehr|de plus|más|di più)(?![^\W_])"
    ),
    lambda found: f"up {found['by'] or found['by2']},",
    words=("de plus", "di più", "erbij", "mehr", "more", "más"),
)
# "2 more so it's 22 kg": the load from here on
SO_NOW = Rewriting(
    re.compile(
        rf"(?:\b\d+\s+)?\b(?:added|more|in|extra|on)\b[^\d,.]{{0,24}}?\bso\s+(?:it'?s |that'?s |now )?(?={NUMBER}\s*{UNIT})"
    ),
    "weight",
    words=("so",),
)


def _half_more(found: re.Match[str]) -> str:
    before, after = found.string[: found.start()], found.string[found.end() :]
    alone = not re.search(r"\d", before + after) or re.search(r"(?:[x×*@]|\bfor|\bgot|\bdid)\s*$", before)
    return f"{found['n']} +1 half" if alone else f"{found['n']}.5"


# "5 and a half": five reps and a half one, where that is all that is counted; else a load of halves
AND_A_HALF = Rewriting(
    re.compile(rf"\b(?P<n>\d+) (?:and|n|&) a half\b(?!\s*(?:{UNIT}|min|plates?))"),
    _half_more,
    words=("a half",),
)
# "with 10 kg and 10": one in each hand
TWO_ALIKE = Rewriting(
    re.compile(
        rf"\b(?:with|w|holding|using)\s+(?:a\s+)?(?P<n>{NUMBER})\s*(?P<unit>{UNIT})?\s*(?:and|&|\+)\s*(?:a\s+|another\s+)?(?P=n)(?!\d|[.,]\d|\s*(?:reps?|x))\b"
    ),
    lambda found: f"w {found['n']}{found['unit'] or 's'} {'each hand' if found['unit'] else ''}",
    words=("&", "+", "and"),
)
# "put another 2 kg in the bag": up by so much
PUT_IN = Rewriting(
    re.compile(
        rf"\b(?:put|added|add|adding|chucked|threw|stuck)\s+(?:in\s+)?(?:another|an extra|extra|a|the)?\s*(?P<by>{NUMBER}\s*{UNIT})\s+(?:more\s+)?(?:in|on|into|onto|to)(?:\s+(?:the|my)\s+\w+)?"
    ),
    "up {by},",
    words=("add", "chucked", "put", "stuck", "threw"),
)
# "bumped it 10 lbs still 8": up by so much
BUMPED = Rewriting(
    re.compile(
        rf"\b(?:bumped|upped|raised|increased)(?: (?:it|them|that|up|by|the (?:weight|load|bar)))* (?P<by>{NUMBER}\s*{UNIT}|\d+[.,]5)\b(?! to\b)"
    ),
    "up {by},",
    words=("bumped", "increased", "raised", "upped"),
)
_TRIPLES = {"single": 1, "double": 2, "triple": 3}
# "80 for a hard triple"
FOR_A_TRIPLE = Rewriting(
    re.compile(
        r"\b(?P<joint>for|x|hit|got|did|made)\s+(?:(?:a|an|one|my|easy|hard|heavy|solid|nice|good|clean|ugly|grindy|smooth)\s+)+(?P<n>single|double|triple)\b(?!\s+(?:drop|leg|arm))"
    ),
    lambda found: f"{found['joint']} {_TRIPLES[found['n']]}",
    words=("double", "single", "triple"),
)
# "two bottles of water, 5 kg each": a pair
TWO_THINGS = Rewriting(
    re.compile(
        rf"\b(?:2|two)\s+(?P<thing>(?:[a-z]+\s+){{0,2}}?(?:bottles?|jugs?|cans?|tins?|dumbbells?|dbs?|kettlebells?|kbs?|bells?|plates?|bags?|buckets?|weights?|canisters?|containers?|boxes|bricks|packs?))"
        rf"(?:\s+of\s+[a-z]+)?[\s,(]*(?:at|of|with|weighing)?\s*(?P<n>{NUMBER})\s*(?P<unit>{UNIT})\s*(?:each|apiece|per hand|a piece)\)?"
    ),
    "{n}{unit} each hand",
    words=("a piece", "apiece", "each", "per hand"),
)


def _drop_said(found: re.Match[str]) -> str:
    if not (found["another"] or found["more"]):
        return found.group()
    return f"drop to{found['load']}{found['gap']}{found['count']}"


# "dropped to 10s for 8 more": more of the same set, so a drop and no next set
DROPPED_FOR_MORE = Rewriting(
    re.compile(
        rf"\b(?:(?:then|and|so) )?(?:dropped|went|drop|stripped|straight|down)(?: (?:down|it|them|the weight))* (?:to|with)(?P<load> (?:the )?{NUMBER}\s*(?:'?s|{UNIT})?)(?P<gap>(?: (?:for|x|and|got|did|burn(?:ed|t) out|ground out|squeezed out)|,)* )"
        rf"(?:(?P<another>another|a further) )?(?P<count>{NTH})(?: (?P<more>more|extra))?\b"
    ),
    _drop_said,
    words=("down", "drop", "straight", "stripped", "went"),
)


def _each_hand(found: re.Match[str]) -> str:
    return f"{found['one']}{found['unit'] or ''} each hand" if found["one"] == found["two"] else found.group()


# "16 in one hand and 16 in the other": a pair; two different loads stay as they are
BOTH_HANDS = Rewriting(
    re.compile(
        rf"(?P<one>{NUMBER})\s*(?P<unit>{UNIT})?\s*(?:in|on) (?:one|my left|the left|left|my right|the right|right|each|the one)(?: hand| side)?,?\s*(?:and|&|plus|,)\s*(?:a |an |another )?(?P<two>{NUMBER})\s*(?:{UNIT})?\s*(?:in|on) (?:the other|my right|the right|right|my left|my other)(?: hand| side| one)?"
    ),
    _each_hand,
    words=("my left", "my other", "right", "the other"),
)
# "5 l of water": a litre of water weighs a kilogram
WATER = Rewriting(
    re.compile(
        rf"(?<![\d.,])(?P<n>{NUMBER})\s?(?:l|lt|ltr|litres?|liters?)\s+(?:of\s+)?(?P<what>water|jugs?|bottles?|canisters?|containers?)\b"
    ),
    "{n}kg",
    words=("bottle", "canister", "container", "jug", "water"),
)
# "w20 r12"
W_AND_R = Rewriting(
    re.compile(rf"\bw\s?(?P<load>{NUMBER})\s*[,/ ]?\s*r\s?(?P<count>\d+)\b"),
    "{load}x{count}",
)


def _total(found: re.Match[str]) -> str:
    before = re.search(r"(\d+)\s*[a-z]*\s*$", found.string[: found.start()])
    if before is None or int(before[1]) != int(found["one"]) + int(found["two"]):
        return found.group()
    said = re.search(r"\btotal\b", found.string[: found.start()])
    return "" if said else "total"


# "24kg (12+12)": the parts of what was said just before, which is the total then
PARTS_OF_TOTAL = Rewriting(
    re.compile(r"\(\s*(?P<one>\d+)\s*\+\s*(?P<two>\d+)\s*\)"),
    _total,
    words=("(",),
)
