"""Which words do the signs know, that a misspelt one may be mended to?"""

from __future__ import annotations

import re
from functools import lru_cache

from bot.language.safety import things
from bot.language.safety.signs import CAUTION, EMERGENCY, GROUPS, PAIN, SAME_DAY, SORENESS, Level
from bot.language.safety.words import clauses_of
from bot.training.safety import PART_OF_WORD

TABLES = (
    (Level.EMERGENCY, EMERGENCY),
    (Level.SAME_DAY, SAME_DAY),
    (Level.PAIN, PAIN),
    (Level.CAUTION, CAUTION),
    (Level.SORENESS, SORENESS),
)


@lru_cache(maxsize=1)
def vocabulary() -> frozenset[str]:
    """Every word of the tables: what a misspelt word may be mended to."""
    lines = [line for _, table in TABLES for signs in table.values() for line in signs]
    text = " ".join([*lines, *GROUPS.values(), *PART_OF_WORD])
    return frozenset(re.findall(r"[a-z]{3,}", text.replace("_", " "))) | things.words()


def mended_line(text: str) -> str:
    """A text as one line of folded, mended words: what likeness looks at."""
    return "".join(clause.line for clause in clauses_of(text, vocabulary()))
