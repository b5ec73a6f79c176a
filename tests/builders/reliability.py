"""Is a certainty worth its number? Records by how certain the reading was, against the share that is right."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

EDGES = (0.8, 0.9, 0.95, 0.98, 1.0)


@dataclass(frozen=True)
class Band:
    """The records with a certainty from low up to high, high itself only in the last band."""

    low: float
    high: float
    right: int
    records: int

    @property
    def share(self) -> float:
        return self.right / self.records if self.records else 1.0

    def __str__(self) -> str:
        return f"{self.low:.2f} to {self.high:.2f}: {self.right} of {self.records} right, {100 * self.share:.1f} %"


def reliability(records: Iterable[tuple[float, bool]]) -> list[Band]:
    """Sort records, each a certainty and whether it is right, into bands; the least certain first."""
    known = list(records)
    bands = []
    for low, high in pairwise(EDGES):
        within = [right for certainty, right in known if low <= certainty < high or (high == EDGES[-1] and certainty == high)]
        bands.append(Band(low, high, sum(within), len(within)))
    return bands
