"""How is a wish's shape written down? A pattern over marked words, each mark under a name, and the function that reads it.

    shapes(read_move, "move <X what> to <D to>")  matches "move D0 to D1" and "move it to D1"

<D name>, <N name>, <P name>, <T name>, <S name>: one mark of that letter. <X name>: a session, by date, by name, or "it". <L name>: a list
of weekdays. <V name>: a verb phrase given in `verbs`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from bot.language.dates.clauses import Clause
from bot.language.dates.desk import Desk, PlanReading

Reader = Callable[[Desk, Mapping[str, str], Clause], PlanReading | None]

IT = (
    r"(?:it|this|that|this one|that one|them|mine|(?:the|my|our|this|that|todays) (?:session|workout|training|class|exercise|one|gym|lift|practice)|"
    r"session|workout|training|class|practice)"
)
_SESSION = r"(?:D\d+ S\d+|S\d+(?: (?:on |from )?D\d+)?|D\d+)"
_LIST = (
    r"[DW]\d+(?:(?:,? and|,| plus| or|) ?[DW]\d+)*(?: (?:but(?: not)?|except|not|apart from|besides|minus|without|bar) (?:on |for )?"
    r"[DW]\d+(?:(?:,? and|,|) ?[DW]\d+)*)?"
)


@dataclass(frozen=True)
class Shape:
    pattern: re.Pattern[str]
    reader: Reader

    def read(self, desk: Desk, words: str, clause: Clause) -> PlanReading | None:
        found = self.pattern.fullmatch(words)
        if found is None:
            return None
        return self.reader(desk, {name: said for name, said in found.groupdict().items() if said is not None}, clause)


def shapes(reader: Reader, *patterns: str) -> tuple[Shape, ...]:
    return tuple(Shape(re.compile(_written_out(pattern)), reader) for pattern in patterns)


def _written_out(pattern: str) -> str:
    def name(found: re.Match[str]) -> str:
        letter, group = found[1], found[2]
        what = {"X": rf"{_SESSION}|{IT}", "L": _LIST, "Y": _SESSION}.get(letter, rf"{letter}\d+")
        return rf"(?P<{group}>{what})"

    return re.sub(r"<([DNPTSWXLY]) (\w+)>", name, pattern)
