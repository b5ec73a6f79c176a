"""What is read out of a line, and the line while it is read: what each recogniser took, and what no one has taken yet."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

from bot.language.blocks.counts import Count
from bot.language.blocks.letters import count_words_as_figures, even
from bot.language.blocks.parted import parted
from bot.training.blocks import SetKind

GONE = "\x00"
_COLON = re.compile(r"(?<=[x\s(]):([1-5]\d)(?![\d:])")  # "3 x :30" is thirty seconds
_SEK = re.compile(r"(?<=[\d\s])sek\b", re.I)


@dataclass(frozen=True, slots=True)
class Which:
    """Which sets a phrase is about: numbers from 1 (last: counted from the end), or all."""

    numbers: tuple[int, ...] = ()
    last: int = 0  # how many from the end
    every: bool = False


ALL = Which(every=True)


@dataclass(frozen=True, slots=True)
class Scheme:
    """Sets as one phrase gives them. sets None: a lone list or count."""

    sets: int | None
    counts: tuple[Count, ...]
    start: int
    found: str
    kind: SetKind = SetKind.WORK
    which: Which | None = None
    sets_to: int | None = None


@dataclass(frozen=True, slots=True)
class Mark:
    """A wish about sets: a field of SetTarget and its values, one for all or one a set."""

    field: str
    values: tuple[Any, ...]
    start: int
    which: Which | None
    found: str


@dataclass(slots=True)
class Clauses:
    """All that a text was found to say. left: pieces that no recogniser took, as (start, text as sent)."""

    schemes: list[Scheme] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    fields: dict[str, Any] = field(default_factory=dict)  # fields of Slot
    left: list[tuple[int, str]] = field(default_factory=list)
    faults: list[tuple[int, str, str, str]] = field(default_factory=list)  # (start, found, wrong, write instead)
    doubts: list[tuple[int, str, str, str]] = field(default_factory=list)
    first_start: int | None = None  # where the first phrase begins


class Scan:
    """The text while it is read: `left` is what no recogniser has taken yet."""

    def __init__(self, text: str) -> None:
        self.raw = text
        self.left = parted(_COLON.sub(r"\1s", _SEK.sub("sec", count_words_as_figures(even(text)))))
        self.out = Clauses()
        self.regions: list[tuple[int, int, Which]] = []

    def take(self, pattern: re.Pattern[str], accept: Callable[[re.Match[str]], bool] | None = None) -> Iterator[re.Match[str]]:
        for found in list(pattern.finditer(self.left)):
            if GONE in found[0] or not found[0] or (accept and not accept(found)):
                continue
            self.blank(found.start(), found.end())
            yield found

    def blank(self, start: int, end: int, *, counts_as_phrase: bool = True) -> None:
        self.left = self.left[:start] + GONE * (end - start) + self.left[end:]
        if counts_as_phrase and (self.out.first_start is None or start < self.out.first_start):
            self.out.first_start = start

    def which(self, start: int) -> Which | None:
        return next((which for low, high, which in self.regions if low <= start < high), None)

    def mark(self, name: str, values: tuple[Any, ...], found: re.Match[str]) -> None:
        self.out.marks.append(
            Mark(name, values, found.start(), self.which(found.start()) or self.which(found.end() - 1), self.original(found))
        )

    def original(self, found: re.Match[str]) -> str:
        return self.raw[found.start() : found.end()].strip()

    def fault(self, found: re.Match[str], wrong: str, instead: str) -> None:
        self.out.faults.append((found.start(), self.original(found), wrong, instead))

    def doubt(self, found: re.Match[str], wrong: str, instead: str = "") -> None:
        self.out.doubts.append((found.start(), self.original(found), wrong, instead))
