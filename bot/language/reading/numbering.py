"""Sets counted out by the person who did them, "1: 20x10, 2: 20x9" or "set 1 ... set 2 ...", told as sets in a row."""

from __future__ import annotations

import re
from dataclasses import replace

from bot.language.reading.words import SET_NUMBERS
from bot.language.readings import Heard, Reading, SetsHeard, Verdict
from bot.language.situation import Situation

_NUMBER = "|".join(sorted(SET_NUMBERS, key=len, reverse=True))
_NTH = "|".join(
    word for word in SET_NUMBERS if not word.isdecimal() and (word[0].isdecimal() or word.endswith(("st", "nd", "rd", "th")))
)
_WAYS = (
    re.compile(rf"(?:(?<=[\s,;|/(])|^)(?:set|s|satz|serie|série)\s?#?(?P<n>{_NUMBER})(?:\s*[:.)=–-]+\s*|\s+(?:was |were |is |of )?)"),
    re.compile(rf"(?:(?<=[\s,;|/(])|^)(?:the )?(?P<n>{_NTH})(?:\s+(?:set|one|go))?(?:\s*[:=–-]+\s*|\s+(?:was |were )?)"),
    re.compile(r"(?:(?<=\n)|^)[ ]*(?P<n>\d)[ ]+(?=\d+(?:[.,]\d+)?\s*(?:kg|lbs?)?[ |x×@]+\d+\s*(?:reps?\s*)?[.!]*\s*(?:\n|$))"),
    re.compile(r"(?:(?<=[\n;|])|(?<=, )|(?<=,)|^)[ ]*(?P<n>\d)(?:\)\s*|[:.]\s+|\s+[–-]\s+)(?=\S)"),
)  # fmt: skip
_SAYS = re.compile(
    r"\d|\b(?:same|again|ditto|"
    + "|".join(word for word in SET_NUMBERS if word.isalpha())
    + r"|seven|eight|nine|ten|eleven|twelve|fifteen|twenty)\b"
)
_BEHIND = re.compile(
    r"(?P<told>[^\n]*\d[^\n]*?)[\s,]+(?:(?:for|on|in|as|that'?s|was|is) )?(?:my |the )?(?<!drop )(?<!more )(?<!up )(?<!super )set\s?#?(?P<n>[1-9])[\s.!)]*"
)
_CERTAIN = 0.9
_LOOKS = re.compile(r"\d[:.)]|\bs(?:et|atz|erie|érie)?\s?#?(?:1|one)\b|\b(?:1st|first)\b|\d\s+[–-]|(?:^|\n)\s*1\s+\d")


def without_set_numbers(text: str, situation: Situation) -> tuple[str, int]:
    """
    The folded text with the numbers of its sets blanked out, its length unchanged, where they do no more than count on; and how many.

    They count on where two or more stand one after another from 1, or from the set that is due, each with something told behind it.
    A number that leads elsewhere is left: it points to a set. One that stands behind a set is put before it.
    """
    behind = _BEHIND.fullmatch(text) if " set" in text else None
    if behind is not None and "set" not in behind["told"]:
        return f"set {behind['n']} {behind['told'].strip(' (')}".ljust(len(text)), 0  # "115 x 5 for set 2"
    if not _LOOKS.search(text):
        return text, 0
    for way in _WAYS:
        found = list(way.finditer(text))
        if len(found) < 2 or not _counts_on([SET_NUMBERS.get(one["n"], 0) for one in found], situation):
            continue
        ends = [one.start() for one in found[1:]] + [len(text)]
        if all(_SAYS.search(text[one.end() : end]) for one, end in zip(found, ends, strict=True)):
            return _blanked(text, found), len(found)
    return text, 0


def as_numbered(reading: Reading, sets: int) -> Reading:
    """A reading in doubt settled by its numbers: so many sets, counted on, are sets of one exercise."""
    if reading.question is None or not sets:
        return reading
    fitting = [option for option in reading.question.options if _are_sets_of_one(option.heard, sets)]
    if len(fitting) != 1:
        return reading
    return replace(reading, verdict=Verdict.RECORD, heard=fitting[0].heard, certainty=_CERTAIN, question=None)


def _are_sets_of_one(heard: tuple[Heard, ...], sets: int) -> bool:
    records = [record for one in heard if isinstance(one, SetsHeard) for record in one.sets]
    return len(records) == sets and len({record.place.label if record.place else "" for record in records}) == 1


def _counts_on(numbers: list[int], situation: Situation) -> bool:
    due = situation.due.number if situation.due is not None else 1
    return numbers[0] in (1, due) and numbers == list(range(numbers[0], numbers[0] + len(numbers)))


def _blanked(text: str, found: list[re.Match[str]]) -> str:
    """A comma stands for each number but the first, so that what it parted stays apart."""
    for one in reversed(found):
        long = one.end() - one.start()
        before = text[: one.start()].rstrip(" ")
        if before and before[-1] == "/":
            before = before[:-1] + ";"  # "set1 80kg 8 / set2 82.5kg 7"
            text = before.ljust(one.start()) + text[one.start() :]
        apart = not before or before[-1] in ",;\n|:"
        text = text[: one.start()] + (" " * long if apart or long < 2 else "," + " " * (long - 1)) + text[one.end() :]
    return text
