"""Which words beside an exercise are free text: a link, a part said by name ("cue: ...", "sub: ..."), another exercise in brackets?"""

from __future__ import annotations

import re
from typing import Any

from bot.language.blocks.scan import GONE, Scan

_URL = re.compile(
    r"(?:(?:demo|video|link|watch)\s*[:=]?\s*)?(?:\b(?P<url>https?://[^\s|)\]>,;]+|www\.[^\s|)\]>,;]+)|\b(?P<file>file:(?:[a-z_]+:)?[\w-]{8,}))",
    re.I,
)


def take_links(scan: Scan) -> None:
    for found in scan.take(_URL):
        scan.out.fields.setdefault("demo", (found["url"] or found["file"]).rstrip("."))


KEYS = {
    "cue": "cues", "cues": "cues", "coaching cue": "cues", "coaching cues": "cues", "focus": "cues", "focus on": "cues", "think": "cues",
    "sub": "substitutes", "subs": "substitutes", "substitute": "substitutes", "substitutes": "substitutes", "substitution": "substitutes",
    "alt": "substitutes", "alternative": "substitutes", "alternatives": "substitutes", "swap": "substitutes", "swaps": "substitutes",
    "instead": "substitutes", "or": "substitutes", "backup": "substitutes", "option": "substitutes", "options": "substitutes",
    "kit": "kit", "equipment": "kit", "needs": "kit", "gear": "kit", "you need": "kit",
    "note": "note", "notes": "note", "comment": "note", "comments": "note", "nb": "note", "remark": "note", "instructions": "note",
    "grip": "grip", "demo": "demo", "video": "demo", "link": "demo", "progress": "policy", "progression": "policy",
}  # fmt: skip
_KEY_WORDS = "|".join(sorted(KEYS, key=len, reverse=True))
_KEYED = re.compile(
    rf"(?<![\w-])(?P<key>{_KEY_WORDS})\s*[:=]\s*(?P<value>[^|\n]+?)(?=\s*(?:[|\n{GONE}]|$|[;,.(]?\s*(?<![\w-])(?:{_KEY_WORDS}|tempo|rest|sets?|reps?|burnout)\s*[:=]))",
    re.I,
)


def take_keyed(scan: Scan) -> None:
    for found in scan.take(_KEYED):
        add_keyed(
            scan.out.fields, KEYS[found["key"].lower()], scan.raw[found.start("value") : found.end("value")].strip(" ;,.)(")
        )


def add_keyed(fields: dict[str, Any], name: str, value: str) -> None:
    """Put a part said by name ("sub: ring row / band row") into a slot's fields."""
    if not value:
        return
    if name == "substitutes":
        fields[name] = (*fields.get(name, ()), *split_names(value))
    elif name == "cues":
        fields[name] = (*fields.get(name, ()), *(cue.strip() for cue in re.split(r"\s*[;\n]\s*", value) if cue.strip()))
    elif name == "note":
        fields[name] = "; ".join(part for part in (fields.get(name, ""), value) if part)
    else:
        fields[name] = value


def split_names(text: str) -> tuple[str, ...]:
    parts = re.split(r"\s*[/,;\n]\s*(?!\d)|\s+or\s+", text)
    return tuple(part.strip(" .()") for part in parts if part.strip(" .()"))


_OR = re.compile(
    r"[(\[]\s*(?:or|sub(?:stitute)?s?|alt(?:ernative)?s?|swap|no [\w -]+\?|if no [\w -]+?[:,]|can'?t\?|if (?:it'?s )?(?:too|your?|the) [\w' -]+?[:,]|(?:no (?!rest|pause|more|less)|too |can'?t |without )[\w' -]{2,30}?:)[:\s]*(?:use |do |with |for |take |try )?(?P<names>[^)\]]+)[)\]]",
    re.I,
)
_NO_KIT = re.compile(
    r"(?<![\w(])(?:no [a-z -]+\?|too [a-z]{3,10}\s*[:?]|if (?:you have )?no [a-z -]+?[:,]|no (?!rest|pause|momentum|kipping|cheat|swing|bounc|stop|break)[a-z -]{2,20}:)\s*(?:(?:then|just|use|do|try|take|have|go for)\s+)*(?:the\s+|some\s+|an?\s+)?(?P<names>[^|\n.;)]+)",
    re.I,
)


def take_alternatives(scan: Scan) -> None:
    for pattern in (_OR, _NO_KIT):
        for found in scan.take(pattern):
            add_keyed(scan.out.fields, "substitutes", scan.raw[found.start("names") : found.end("names")].strip())
