"""What is wrong with something a coach sent: where, what stands there, what to write instead.

Problem(True, Place(line=14, slot="B2"), "3-1", 'tempo "3-1" has two numbers', "write four, such as 3-1-1-0").sentence
    -> 'Line 14, slot B2: tempo "3-1" has two numbers; write four, such as 3-1-1-0.'
"""

from __future__ import annotations

from dataclasses import dataclass, replace

_SHOWN = 60  # characters of what was found that a sentence repeats


@dataclass(frozen=True, slots=True)
class Place:
    """Where in what was sent. line from 1 (text, CSV); sheet and cell ("C4") in a spreadsheet; slot where one is known."""

    line: int | None = None
    sheet: str = ""
    cell: str = ""
    slot: str = ""

    def of_slot(self, label: str) -> Place:
        return replace(self, slot=label)

    def __str__(self) -> str:
        if self.sheet:
            spot = f'Sheet "{self.sheet}"' + (f", cell {self.cell}" if self.cell else "")
        elif self.line:
            spot = f"Line {self.line}"
        else:
            spot = "The block" if self.slot else ""
        return ", ".join(part for part in (spot, f"slot {self.slot}" if self.slot else "") if part)


@dataclass(frozen=True, slots=True)
class Problem:
    """One mistake (is_error: nothing is kept before it is mended) or one thing to look at (a warning).

    found: the characters in question as sent. wrong: what is the matter with them. write_instead: a clause that says what to do.
    """

    is_error: bool
    where: Place
    found: str
    wrong: str
    write_instead: str = ""

    @property
    def sentence(self) -> str:
        place = str(self.where)
        text = f"{place}: {self.wrong}" if place else self.wrong[:1].upper() + self.wrong[1:]
        if self.write_instead:
            text += f"; {self.write_instead}"
        return text if text.endswith((".", "!", "?")) else text + "."


def quoted(found: str) -> str:
    """What stands there, in quotes, cut to a length that a sentence bears."""
    text = " ".join(found.split())
    return f'"{text}"' if len(text) <= _SHOWN else f'"{text[: _SHOWN - 3]}..."'


def error(where: Place, found: str, wrong: str, write_instead: str = "") -> Problem:
    return Problem(True, where, found, wrong, write_instead)


def warning(where: Place, found: str, wrong: str, write_instead: str = "") -> Problem:
    return Problem(False, where, found, wrong, write_instead)
