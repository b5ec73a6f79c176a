"""What of a text is told at all, once greetings, sighs and slips of the thumb are set aside?

    "ok coach,  20x12  lol 💪"   -> "20x12"
    "phew, sorry that was 18"    -> "sorry that was 18"
    "wamrup 40x8, then tewnty"   -> "warmup 40x8, then twenty"

Every character that stays knows its place in the text as it was sent, so that a reading can still say which words gave which numbers.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, replace
from functools import lru_cache

from bot.language.reading.numbers import NUMBER_WORDS, PLURAL_WORDS
from bot.language.reading.words import LEXICON, PHRASES
from bot.language.readings import Reading
from bot.language.tokens import fold

_SIGHS = "ok okay okey k hey hi hello hiya heya yo ahoy phew whew oof ooof uff ugh argh lol lmao haha hahaha hehe omg wow woo yep yup yeah yes um uhm uh erm er hmm ah oh so well alright coach man mate bro dude pal boss"
_OPENING = re.compile(
    r"\W*(?:(?:"
    + "|".join(_SIGHS.split())
    + r"|good (?:morning|evening|afternoon|day)|morning|evening|(?:all )?done(?=:)|finished(?=:)|right(?=,? (?:so|then)\b))(?![\w'])[ ,.!:;…-]*)+(?=\S)"
)
_GREETED_AGAIN = re.compile(r"\W*(?:hi|hey|hello|hiya|good (?:morning|evening|afternoon)|morning|evening|yo) again\b")
_ENDING = re.compile(
    r"(?<=[\w)%\"'½¼¾.!,])(?:[ ,.!…-]*(?<![\w'])(?:lol|lmao|haha|hahaha|hehe|phew|whew|thanks|thank you|thx|ty|cheers|coach|ta)(?![\w']))+[ .!…]*$"
)
_KISSES = re.compile(r"(?<=[a-z][ .!])x{1,3}[ .!]*$")
_DOTS = re.compile(r"(?:\.\.+|…|!+)[ .!…]*$")
_DONE_SIGNS = frozenset("✓✔✅☑❌❎✖➕➖🆗💯👍👎")  # these say something
_DOUBLED = re.compile(r"(?<=\S)[ \t\u00a0]{2,}(?=\S)")
_WORD = re.compile(r"[a-z]{4,}")
_SHORTEST_GARBLED = 4
_THERE_SETS = re.compile(r"there (?=(?:sets|rounds|reps|times)\b)")  # a slip of "three" that is a word itself
# Words that patterns look for, and that stand in no table of single words.
_OFTEN_SAID = (
    "yesterday monday tuesday wednesday thursday friday saturday sunday tomorrow tonight skipped skipping skip undo delete remove twice supposed "
    "reserve minus warmup warming dumbbell dumbbells kettlebell kettlebells backpack rucksack sandbag bucket barbell tempo second third first fourth "
    "straight correction mistake wanted planned missed failed failure rushed matched slipped kept wobbled halfway superset push pull supersets bench press presses curls squat squats lunge lunges plank planks raise raises deadlift "
    "deadlifts swings bridge bridges thrust thrusts shoulder overhead incline pulldown pulldowns pushdown pushdowns extension extensions"
)


@dataclass(frozen=True, slots=True)
class Tidied:
    """text: what is told. places: for each of its characters, and its end, where it stands in the text as sent."""

    text: str
    places: tuple[int, ...]

    def put_back(self, reading: Reading, text: str) -> Reading:
        """A reading of what is told as one of the text that was sent."""
        last = len(self.places) - 1
        why = tuple(
            replace(one, start=self.places[min(one.start, last)], end=self.places[min(one.end, last)]) for one in reading.why
        )
        return replace(reading, text=text, why=why)


def tidied(text: str) -> Tidied | None:
    """What a text tells; None where there is nothing to set aside, or nothing else in it."""
    folded = fold(text)
    start = 0
    opening = _OPENING.match(folded)
    if opening and not _GREETED_AGAIN.match(folded):
        start = opening.end()
    end = _end_of(folded, start)
    if not any(letter.isalnum() for letter in folded[start:end]):
        return None
    doubled = [found.span() for found in _DOUBLED.finditer(folded, start, end)]
    slips = _slips(folded, start, end)
    if not (start or doubled or slips or end < len(folded.rstrip())):
        return None
    kept = [place for place in range(start, end) if not any(first < place < stop for first, stop in doubled)]
    letters = list(text)
    for place, word in slips:
        letters[place : place + len(word)] = word
    return Tidied("".join(letters[place] for place in kept), (*kept, end))


def _end_of(folded: str, start: int) -> int:
    end = len(folded)
    while end > start:
        before = end
        while end > start and (folded[end - 1].isspace() or _says_nothing(folded[end - 1])):
            end -= 1
        for pattern in (_ENDING, _KISSES, _DOTS):
            found = pattern.search(folded, start, end)
            if found and found.start() > start:
                end = found.start()
        if end == before:
            return end
    return end


def _says_nothing(letter: str) -> bool:
    return (
        letter > "\u2000"
        and letter not in _DONE_SIGNS
        and (letter in "\ufe0f\u200d" or unicodedata.category(letter) in ("So", "Sk"))
    )


def _slips(folded: str, start: int, end: int) -> list[tuple[int, str]]:
    """(place, the word meant) of each word in which two neighbouring letters changed places."""
    found: list[tuple[int, str]] = []
    for said in _WORD.finditer(folded, start, end):
        meant = "three" if _THERE_SETS.match(folded, said.start()) else _meant(said.group())
        if meant:
            found.append((said.start(), meant))
    return found


def _known() -> frozenset[str]:
    phrases = {word for first, ways in PHRASES.items() for word in (first, *(each for rest, _ in ways for each in rest))}
    return frozenset(word for word in {*LEXICON, *phrases, *NUMBER_WORDS, *PLURAL_WORDS, *_OFTEN_SAID.split()} if word.isalpha())


_KNOWN = _known()
_BY_LETTERS: dict[str, list[str]] = {}
for _word in sorted(_KNOWN):
    if len(_word) >= _SHORTEST_GARBLED and _word.isascii():
        _BY_LETTERS.setdefault("".join(sorted(_word)), []).append(_word)


@lru_cache(maxsize=4096)
def _meant(word: str) -> str:
    """The known word of which this is a slip; "" where it is known itself, or a slip of none or of several."""
    if len(word) < _SHORTEST_GARBLED or word in _KNOWN:
        return ""
    near = [other for other in _BY_LETTERS.get("".join(sorted(word)), ()) if _swapped(word, other)]
    return near[0] if len(near) == 1 else ""


def _swapped(word: str, other: str) -> bool:
    """Do two neighbouring letters, and nothing else, stand the other way round?"""
    apart = [place for place, (one, two) in enumerate(zip(word, other, strict=True)) if one != two]
    return len(apart) == 2 and apart[1] == apart[0] + 1 and (len(word) > 4 or apart[0] > 0)
