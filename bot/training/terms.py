"""What do the words of the trade mean? Read from terms.toml, explained in our own words."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files


@dataclass(frozen=True, slots=True)
class Term:
    """id; names as people write them, the first to be shown; says: one or two sentences."""

    id: str
    names: tuple[str, ...]
    says: str


@lru_cache(maxsize=1)
def all_terms() -> dict[str, Term]:
    data = tomllib.loads((files(__package__) / "terms.toml").read_text(encoding="utf-8"))
    return {
        key: Term(key, tuple(name.strip() for name in entry["names"].split(";")), entry["says"]) for key, entry in data.items()
    }


def fold_term(text: str) -> str:
    """Case, hyphens and other marks away: "B-Stance" -> "b stance"."""
    return " ".join(re.findall(r"[a-z]+|\d+", text.lower()))


@lru_cache(maxsize=1)
def _by_name() -> dict[str, str]:
    names: dict[str, str] = {}
    for term in all_terms().values():
        for name in term.names:
            names.setdefault(fold_term(name), term.id)
    return names


@lru_cache(maxsize=1)
def terms_by_name() -> tuple[tuple[str, str], ...]:
    """(folded name, id) of every term, the longest name first."""
    return tuple(sorted(_by_name().items(), key=lambda pair: (-len(pair[0]), pair[0])))


@lru_cache(maxsize=1)
def _finder() -> re.Pattern[str]:
    longest_first = sorted(_by_name(), key=len, reverse=True)
    return re.compile(r"(?<!\S)(?:" + "|".join(re.escape(name) for name in longest_first) + r")s?(?!\S)")


def terms_in(text: str) -> tuple[str, ...]:
    """Ids of the terms a text names, in its order, the longest name at each place, each once."""
    found: dict[str, None] = {}
    for match in _finder().finditer(fold_term(text)):
        name = match.group()
        found[_by_name().get(name) or _by_name()[name.removesuffix("s")]] = None
    return tuple(found)


def explain(term_id: str) -> Term | None:
    return all_terms().get(term_id)
