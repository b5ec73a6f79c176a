"""What does a person see when the bot shows a session? They read the message, as anyone would; nothing is told behind its back."""

from __future__ import annotations

import re
from dataclasses import dataclass


@dataclass(frozen=True)
class ShownSlot:
    """One slot as it stands on the screen. target_load in the shown unit; low, high: the count asked for."""

    label: str
    name: str
    sets: int
    low: int | None
    high: int | None
    unit_of_count: str
    each_side: bool
    target_load: float | None
    load_unit: str
    last_load: float | None
    rising: bool


_HEAD = re.compile(r"^([A-Z]\d) (.+)$")
_LOAD = re.compile(r"(\d+(?:\.\d+)?) (kg|lb)")


def read_session(text: str) -> list[ShownSlot]:
    """The slots of a shown session, in order. text: plain, as it is on the screen."""
    blocks: list[list[str]] = []
    for line in text.splitlines():
        if _HEAD.match(line):
            blocks.append([line])
        elif blocks and line.strip():
            blocks[-1].append(line)
    return [_slot(lines) for lines in blocks]


def _slot(lines: list[str]) -> ShownSlot:
    head = _HEAD.match(lines[0])
    assert head is not None
    name = re.sub(r" (?:for [A-Z].*|\(.*\))$", "", head[2])
    written = lines[1] if len(lines) > 1 else ""
    today = next((line for line in lines if line.startswith("today ")), "")
    last = next((line for line in lines if line.startswith("last time ")), "")
    load = _LOAD.search(today)
    last_load = _LOAD.search(last)
    low, high, sets, unit = _count(written)
    return ShownSlot(
        head[1], name, sets, low, high, unit, "each side" in written, float(load[1]) if load else None, load[2] if load else "",
        float(last_load[1]) if last_load else None, "load rises" in written,
    )  # fmt: skip


def _count(written: str) -> tuple[int | None, int | None, int, str]:
    """(low, high, number of sets, unit) of a prescription line such as "3 × 8–12 · tempo 3-1-1-0" or "12, 10, 8 · load rises"."""
    first = written.split(" · ")[0]
    unit = "s" if re.search(r"\d s\b", first) else "steps" if "steps" in first else "m" if re.search(r"\d m\b", first) else ""
    straight = re.match(r"(\d+) × (?:(\d+)(?:–(\d+))?|AMRAP)", first)
    if straight:
        low = int(straight[2]) if straight[2] else None
        return low, int(straight[3]) if straight[3] else low, int(straight[1]), unit
    numbers = [int(n) for n in re.findall(r"\d+", first)]
    return (min(numbers), max(numbers), len(numbers), unit) if numbers else (None, None, 1, unit)
