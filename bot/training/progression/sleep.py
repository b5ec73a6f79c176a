"""Does a note speak of a bad night? A few patterns on purpose: the member is asked nothing, and the answer is only to wait.

"slept badly", "only 4 hours of sleep", "baby had me up all night" -> yes; "8 hours sleep, felt great", "slept like a log", "no trouble
sleeping", "slept better than last week" -> no. Fewer than six hours count as short (adults: seven or more, consensus of the American
Academy of Sleep Medicine and the Sleep Research Society, 2015; six is ours, so that one ordinary night does not stop anything).
"""

from __future__ import annotations

import re

SHORT_NIGHT_H = 6
_WORDS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10}
_NUMBER = r"(\d{1,2}(?:[.,]\d)?|" + "|".join(_WORDS) + r")(?:\s*(?:-|to|or)\s*(?:\d{1,2}|" + "|".join(_WORDS) + r"))?"
_HOURS = re.compile(
    rf"\b{_NUMBER}\s*(?:h|hr|hrs|hours?)\b(?:\s+\w+){{0,2}}?\s*(?:sleep|kip|shut ?eye|in bed)|"
    rf"\b(?:slept|sleep|sleeping|asleep)\b(?:\s+\w+){{0,3}}?\s+{_NUMBER}\s*(?:h|hr|hrs|hours?)(?:\b|\d\d\b)"
)
_BAD = (
    r"(?:badly|bad|poor(?:ly)?|terribl[ey]|aw?ful(?:ly)?|horribl[ey]|rough(?:ly)?|crap(?:py)?|sh[i*]t(?:ty|e)?|lous(?:y|ily)|rubbish|"
    r"broken|restless(?:ly)?|short|little|hardly|barely|lack|deprived|less|not enough|not much|not well|not great|none|worse|interrupted|light(?:ly)?)"
)
_NEAR = r"(?:\W+\w+){0,3}?\W+"
_BAD_SLEEP = re.compile(
    rf"\b(?:slept|sleep|sleeping|nights?)\b{_NEAR}{_BAD}\b|\b{_BAD}\b{_NEAR}(?:sleep|slept|nights?|kip)\b|"
    r"\b(?:no|without|zero)(?: \w+)? sleep\b(?! (?:issue|problem|trouble))|"
    r"\b(?:did ?n[o']?t|could ?n[o']?t|could not|did not|cannot|can't|cant|unable to) (?:really |properly |get to )*(?:sleep|get (?:any|much|enough) (?:sleep|rest))|"
    r"\bsleep ?less\b|\binsomnia|\b(?:up|awake) (?:all|half|most of) (?:the )?night|\bawake (?:since|until|till)\b|\btossed and turned|"
    r"\b(?:kept|had) (?:me|us) (?:up|awake)\b|\bup (?:\w+ ){0,3}with (?:the|a|my|our) (?:\w+ )?(?:baby|kid|kids|child|son|daughter|toddler|newborn)|"
    r"\bnight shifts?\b|\ball.?nighter\b"
)
_GOOD = re.compile(
    r"\b(?:not|n't|no|never|without|wasn't|isn't)\W+(?:\w+\W+){0,2}?(?:bad|badly|poor|terrible|awful|too bad|trouble|problem)|"
    r"\b(?:slept|sleep|sleeping|night)\b\W+(?:\w+\W+){0,2}?(?:great|well|better|good|fine|like a (?:log|baby|rock)|amazing|brilliant)|"
    r"\b(?:great|good|better|best|proper|full) (?:night|sleep)"
)
_NOT_GOOD = re.compile(r"(?:not|n't|never|hardly|barely)\W+(?:\w+\W+){0,3}?(?:well|great|good|fine|better)")


def speaks_of_bad_sleep(text: str) -> bool:
    """Is a bad or short night told in these words?"""
    lowered = text.lower().replace("’", "'")
    hours = [_hours(found) for found in _HOURS.finditer(lowered)]
    if hours:
        return min(hours) < SHORT_NIGHT_H
    return any(_clause_is_bad(clause) for clause in re.split(r"[.;!?\n]|,|\bbut\b", lowered))


def _clause_is_bad(clause: str) -> bool:
    if _BAD_SLEEP.search(clause):
        return _GOOD.search(clause) is None or _NOT_GOOD.search(clause) is not None
    return bool(re.search(r"\b(?:slept|sleep|sleeping|night)\b", clause)) and _NOT_GOOD.search(clause) is not None


def _hours(found: re.Match[str]) -> float:
    said = found.group(1) or found.group(2)
    return float(_WORDS.get(said) or said.replace(",", "."))
