"""Which sets of a slot is a phrase about?

"last set drop 20%" -> the last        "set 1-2: @3110" -> 1 and 2        "each set" -> all
The piece between commas that it stands in belongs to it, or, after a colon, everything up to the next such mark.
"""

from __future__ import annotations

import re

from bot.language.blocks.scan import ALL, GONE, Scan, Which

_WHICH = re.compile(
    r"\b(?:(?:on|for|in|during)\s+)?(?:the\s+|your\s+)?(?:"
    r"(?P<word>last|final|first|1st|second|2nd|third|3rd|each|every|all)\s+(?:(?P<many>\d|two|three)\s+)?(?:of\s+)?(?:the\s+)?(?:working\s+)?sets?(?:\s+only)?|(?P<word2>last|final)\s+(?:one|go|round)\b|"
    r"sets?\s*#?\s*(?P<from>\d(?!\d|\s*\+\s*(?:$|[),;])))(?:\s*(?P<join>-|to|and|&|\+|,)\s*(?P<to>\d{1,2})(?!\s*(?:x|rep)))?)"
    r"(?P<colon>\s*[:=])?(?!\s*[:=]?\s*\d+\s*(?:x|sets))",
    re.I,
)
_ORDINALS = {"first": 1, "1st": 1, "second": 2, "2nd": 2, "third": 3, "3rd": 3}


def take_regions(scan: Scan) -> None:
    found_all = [found for found in _WHICH.finditer(scan.left) if GONE not in found[0]]
    found_all = [
        found
        for found in found_all
        if found["word"] is None or found["word"].lower() not in ("each", "every", "all") or not _is_rule(scan.left, found)
    ]
    for at, found in enumerate(found_all):
        limit = found_all[at + 1].start() if at + 1 < len(found_all) else len(scan.left)
        floor = found_all[at - 1].end() if at else 0
        start, end = _region(scan.left, found, floor, limit)
        scan.regions.append((start, end, _which(found)))
    for found in found_all:
        scan.blank(found.start(), found.end())


def _is_rule(text: str, found: re.Match[str]) -> bool:
    """ "add weight each set" speaks of the load over the sets, "all sets left" of the sides; neither picks sets."""
    before, after = text[max(0, found.start() - 45) : found.start()], text[found.end() : found.end() + 25]
    return bool(
        re.search(r"(?:weight|load|heavier|lighter|up|increase|reps)[\w ,]*$", before, re.I)
        or re.match(r"\s*(?:on\s+|of\s+|for\s+)?(?:the\s+)?(?:left|right|one|weak)", after, re.I)
    )


def _which(found: re.Match[str]) -> Which:
    if found["from"]:
        low = int(found["from"])
        high = int(found["to"] or low)
        spread = range(low, high + 1) if found["join"] in ("-", "to", "–") else (low, high)
        return Which(numbers=tuple(dict.fromkeys(spread)))
    word = (found["word"] or found["word2"]).lower()
    many = {"two": 2, "three": 3}.get((found["many"] or "1").lower()) or int(found["many"] or 1)
    if word in ("last", "final"):
        return Which(last=many)
    if word in _ORDINALS:
        return Which(numbers=tuple(range(_ORDINALS[word], _ORDINALS[word] + many)))
    return ALL


def _region(text: str, found: re.Match[str], floor: int, limit: int) -> tuple[int, int]:
    """The characters that belong to a mark: after a colon up to the next mark, else its piece between commas."""
    if found["colon"]:
        stop = re.search(r"[;\n|]", text[found.end() : limit])
        return found.start(), found.end() + stop.start() if stop else limit
    before = [cut.end() for cut in re.finditer(r"[,;.(|\n](?=\s|$)|\(|\s-\s|\band\b|\bthen\b", text[floor : found.start()])]
    start = floor + before[-1] if before else floor
    after = re.search(r"[,;|\n)]|\.(?=\s|$)", text[found.end() : limit])
    end = found.end() + after.start() if after else limit
    alone = not re.search(r"\w", text[start : found.start()]) and not re.search(r"\w", text[found.end() : end])
    if alone and after:
        more = re.search(r"[,;|\n)]", text[end + 1 : limit])
        end = end + 1 + more.start() if more else limit
    if re.search(r"\d\s*x\s*\d|\d\s+sets\b", text[start : found.start()], re.I):
        start = found.start()
    return start, end
