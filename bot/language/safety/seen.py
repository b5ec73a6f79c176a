"""A sign that was seen in a text and weighed."""

from __future__ import annotations

from dataclasses import dataclass, field

from bot.language.safety.signs import Level

CHECK = "check"  # topic: hard work or a joke that sounds like a sign
DIZZY = "dizziness"  # topic: dizzy and nothing more: sit down, stop, and look whether it passes
EARLIER = "earlier"  # topic: it hurt some day before, and nothing says that it does today
# Certainty of words that alarm and may be everyday talk: the same first step is said, with a question beside it.
DOUBTED = 0.6
WARNING_SIGNS = "warning_signs"  # topic: asked about signs without having them


@dataclass(slots=True)
class Seen:
    """One sign that was seen and weighed."""

    level: Level
    name: str
    words: str
    certainty: float
    topic: str = ""
    eased: bool = False  # an emergency's sign, and something said beside it made it less
    rank: int = field(init=False)

    def __post_init__(self) -> None:
        self.rank = list(Level).index(self.level)
