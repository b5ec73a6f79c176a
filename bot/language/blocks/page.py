"""Which lines of a page are the headings of its days, by the page's shape rather than by their words?

    *** THE LONG ONE ***        short, without sets, in the dress of the other headings
    Sled push 4 x 20 m          with exercises below it

Words alone are looked at elsewhere (headings.py). Where these find no day, or only some of those in one dress, the shape tells: a short
line above lines with sets, that is no exercise itself and does not come back. A line that comes back ("Main lift") is a part of a day.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from bot.language.blocks.headings import COOL_DOWN, MAIN_PART, WARM_UP, DayHeading, read_day, read_label, read_superset
from bot.language.blocks.letters import count_words_as_figures, even, without_marks
from bot.language.blocks.phrases.free_words import KEYS

_SETS = re.compile(r"\d\s*x\s*\d|\bx\s*\d|\d\s*x\b|\d\s*(?:sets?|rounds?|reps?)\b|\bamrap\b|\b(?:sets?|reps?)\s*[:=]\s*\d", re.I)
_BEGINS_WITH_SETS = re.compile(r"^\W*(?:\d|sets?\b|reps?\b|amrap\b|rest\b|tempo\b|w(?:ee)?k\s?\d)", re.I)
_NUMBERED = re.compile(r"^(?P<word>[a-z]{0,12})\s?#?(?P<number>[1-7])\s*[.:)-]*\s*(?P<name>(?:[^\d\s][^\d]*)?)$", re.I)
_SENTENCE = re.compile(
    r"[.!?]\s+\S|[,;]\s*\S+\s+\S+\s+\S+\s+\S|\b(?:you|your|we|i|the same|don't|please|if|hi|hello|hey)\b", re.I
)
_KEYED = re.compile(rf"^(?:{'|'.join(sorted(KEYS, key=len, reverse=True))}|rest|tempo|sides?|load|angle|aim|goal)\s*[:=]", re.I)
WORDS_LIMIT = 7
_PART_LIMIT = 30  # characters
_NEAR = 3  # lines below a heading that may be of a warm-up or a note before the first exercise


@dataclass(frozen=True, slots=True)
class _Line:
    """A line that could be a heading. dress: what sets it off, the same for all headings of one page."""

    at: int
    text: str
    dress: tuple[object, ...]


def days_by_shape(lines: Sequence[str], is_exercise: Callable[[str], bool]) -> dict[int, DayHeading]:
    """Headings of days that their words do not tell, by the number of their line from 0."""
    plain = [even(line) for line in lines]
    shown = [n for n, line in enumerate(plain) if re.search(r"\w", line)]
    could = [_Line(n, _bare(plain[n]), _dress(plain, n)) for place, n in enumerate(shown) if _is_short(plain, shown, place)]
    if not could or any(heading.number is not None for n in shown if (heading := read_day(_bare(plain[n]))) is not None):
        return {}  # beside "Day 1" and "Day 2" nothing else that stands out is a day
    counted = _numbered(could, plain)
    if counted:
        return {line.at: _heading(line.text) for line in counted}
    known = [line for line in could if read_day(line.text) is not None]
    others = [line for line in could if line not in known and not is_exercise(line.text)]
    if known:
        dresses = {line.dress for line in known}
        others = [line for line in others if len(dresses) == 1 and line.dress in dresses and _stands_out(line.dress)]
    else:
        others = _of_one_dress(others)
    return {line.at: _heading(line.text) for line in others}


def parts_by_shape(lines: Sequence[str]) -> frozenset[str]:
    """Short lines that come back, such as "Main:" and "Core:", name parts of each day; none where weeks are written out one by one."""
    bare = [_bare(even(line)).lower() for line in lines if line.strip() and len(line) <= _PART_LIMIT]
    if any(re.match(r"w(?:ee)?k\s?\d", text) for text in bare):
        return frozenset()
    words = [text for text in bare if text and not re.search(r"\d", text)]
    return frozenset(text for text in words if words.count(text) > 1)


def bare_words(text: str) -> str:
    """A line's words as `parts_by_shape` knows them."""
    return _bare(text).lower()


def _bare(line: str) -> str:
    return without_marks(line).strip(" -=_*~#|<>[](){}:.+/\\").strip()


def _is_short(plain: Sequence[str], shown: Sequence[int], place: int) -> bool:
    """Is a line a few words without sets, with exercises below it?"""
    text = _bare(plain[shown[place]])
    if not re.search(r"[^\W\d_]", text) or len(text.split()) > WORDS_LIMIT or len(text) > 50:
        return False
    if _SETS.search(count_words_as_figures(text)) or _SENTENCE.search(text) or _KEYED.match(text):
        return False
    if any(pattern.match(text) for pattern in (WARM_UP, COOL_DOWN, MAIN_PART)) or read_superset(text) is not None:
        return False
    below = [plain[n] for n in shown[place + 1 : place + 1 + _NEAR]]
    if not below or (_BEGINS_WITH_SETS.match(below[0]) and read_label(without_marks(below[0])) is None):
        return False
    return any(_is_slot(line) for line in below)


def _is_slot(line: str) -> bool:
    return bool(_SETS.search(count_words_as_figures(line)) and re.search(r"[^\W\d_]{3}", line))


def _dress(plain: Sequence[str], at: int) -> tuple[object, ...]:
    line = plain[at].strip()
    marks = re.match(r"^\W*", line), re.search(r"\W*$", line)
    letters = re.sub(r"[^^\W\d_]", "", line)
    apart = at == 0 or not plain[at - 1].strip()
    return (*(found[0].strip() if found else "" for found in marks), letters.isupper(), apart)


def _stands_out(dress: tuple[object, ...]) -> bool:
    lead, trail, upper, _ = dress
    return bool(lead or trail or upper)


def _numbered(lines: Sequence[_Line], plain: Sequence[str]) -> list[_Line]:
    """ "D1 SQUAT", "D2 BENCH", "sesh #3": one word and numbers from 1 on; labels of exercises begin with A."""
    found = [(line, _NUMBERED.match(line.text)) for line in lines]
    counted = [(line, match) for line, match in found if match]
    words = {match["word"].lower() for _, match in counted}
    numbers = [int(match["number"]) for _, match in counted]
    if len(counted) < 2 or len(words) != 1 or numbers != list(range(1, len(numbers) + 1)):
        return []
    before = [read_label(without_marks(line)) for line in plain[: counted[0][0].at]]
    if any(label is not None and label[0] in ("A", "A1") for label in before):
        return []
    return [line for line, _ in counted]


def _of_one_dress(lines: Sequence[_Line]) -> list[_Line]:
    """The first lines of one dress, none of which comes back; at least two."""
    for dress in dict.fromkeys(line.dress for line in lines):
        alike = [line for line in lines if line.dress == dress]
        texts = [line.text.lower() for line in alike]
        if len(alike) > 1 and len(set(texts)) == len(texts) and (_stands_out(dress) or dress[3]):
            return alike
    return []


def _heading(text: str) -> DayHeading:
    numbered = _NUMBERED.match(text)
    if numbered and numbered["word"] in ("", "d", "D"):
        return DayHeading(numbered["name"].strip(" -:.") or text, int(numbered["number"]))
    return DayHeading(text)
