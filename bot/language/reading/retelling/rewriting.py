"""How is one thing told in a roundabout way told by most people? A rewriting, and the loop that applies rewritings in order.

A rewriting keeps the text's length, so that places stay places: what is shorter is padded with blanks, and what would be longer is
left as it was told.

    Rewriting(re.compile(r"tempo \\d{4}"))          "20x12 tempo 3110" -> "20x12           "
    Rewriting(re.compile(r"both sets"), "2 sets")  "20x12 both sets"  -> "20x12 2 sets   "
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass

NUMBER = r"\d+(?:[.,]\d+)?"
UNIT = r"(?:kg|kgs|kilos?|lbs?|pounds?)"
NTH = (
    r"(?:\d+(?:st|nd|rd|th)?|(?:four|six|seven|eigh|nin|ten|eleven|twelf|thirteen|fourteen|fifteen)th|second|third|fifth|"
    r"two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen)"
)
FEW = {
    "another one": 1,
    "another": 1,
    "one": 1,
    "two": 2,
    "three": 3,
    "four": 4,
    "couple": 2,
    "a couple": 2,
    "a couple of": 2,
    "few": 3,
    "a few": 3,
}
_COUNT = re.compile(rf"\d|\b{NTH}\b")
_DIGIT = re.compile(r"\d")


@dataclass(frozen=True, slots=True)
class Rewriting:
    """What is told so, and what it becomes.

    Args:
        pattern: What is told.
        becomes: The words in its place; groups of the pattern by name in braces. Or what makes them. Nothing said: blanks.
        where: Whether it holds, judged at the first place found. Nothing said: always.
        once: Only the first place is rewritten, not every one.
        words: At least one of them stands in any text that the pattern finds something in, so that other texts are not
            searched. None: any text may hold it.
    """

    pattern: re.Pattern[str]
    becomes: str | Callable[[re.Match[str]], str] = ""
    where: Callable[[re.Match[str]], bool] | None = None
    once: bool = False
    words: tuple[str, ...] = ()

    def of(self, text: str) -> str:
        """The text rewritten, of the same length."""
        found = self.pattern.search(text)
        if found is None or (self.where is not None and not self.where(found)):
            return text
        return self.pattern.sub(self._instead, text, count=1 if self.once else 0)

    def _instead(self, found: re.Match[str]) -> str:
        if isinstance(self.becomes, str):
            return padded(self.becomes.format_map(found.groupdict(default="")), found.group())
        return padded(self.becomes(found), found.group())


def rewritten(text: str, rewritings: Iterable[Rewriting]) -> str:
    """The text with each rewriting applied to what the ones before it left; the same length."""
    for each in rewritings:
        for word in each.words:
            if word in text:
                break
        else:
            if each.words:
                continue
        text = each.of(text)
    return text


def padded(words: str, told: str) -> str:
    """The words, filled up with blanks to the room of what was told; what was told where they need more."""
    return words.ljust(len(told)) if fits(words, told) else told


def fits(words: str, told: str) -> bool:
    """Whether there is room for the words where it was told."""
    return len(words) <= len(told)


def without_digits(text: str) -> str:
    """ "at 7 or 8" -> "at   or  "."""
    return _DIGIT.sub(" ", text)


def digit_before(found: re.Match[str]) -> bool:
    """Whether a number in digits is told before it."""
    return bool(_DIGIT.search(found.string[: found.start()]))


def digit_after(found: re.Match[str]) -> bool:
    """Whether a number in digits is told after it."""
    return bool(_DIGIT.search(found.string[found.end() :]))


def digit_beside(found: re.Match[str]) -> bool:
    """Whether a number in digits is told elsewhere in the text."""
    return digit_before(found) or digit_after(found)


def counted_before(found: re.Match[str]) -> bool:
    """Whether a number is told before it, in digits or words."""
    return bool(_COUNT.search(found.string[: found.start()]))


def counted_after(found: re.Match[str]) -> bool:
    """Whether a number is told after it, in digits or words."""
    return bool(_COUNT.search(found.string[found.end() :]))
