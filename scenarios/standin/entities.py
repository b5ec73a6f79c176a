"""What does a formatted text say once its marks are taken out, and what is marked in it?

    "<b>20 kg</b> &amp; up"   ->  "20 kg & up", [{"type": "bold", "offset": 0, "length": 5}]
    "<b>20 kg"                ->  can't parse entities: Can't find end tag corresponding to start tag "b"

Offsets and lengths count UTF-16 code units (Bot API manual, "MessageEntity"); places in errors are bytes of the UTF-8 text.
The tags are those of the manual's "HTML style"; the error words are from memory of the open server's library.
"""

from __future__ import annotations

import html as html_text
import re
from collections.abc import Iterable, Sequence
from typing import Any

from scenarios.standin.refusal import bad

MAX_ENTITIES = 100
Entity = dict[str, Any]

_KINDS = {
    "b": "bold", "strong": "bold", "i": "italic", "em": "italic", "u": "underline", "ins": "underline", "s": "strikethrough",
    "strike": "strikethrough", "del": "strikethrough", "tg-spoiler": "spoiler", "span": "spoiler", "a": "text_link",
    "code": "code", "pre": "pre", "blockquote": "blockquote", "tg-emoji": "custom_emoji", "tg-time": "date_time",
}  # fmt: skip
_TAG = re.compile(r"<(/?)([A-Za-z0-9-]*)((?:[^<>\"']|\"[^\"]*\"|'[^']*')*)>")
_ATTRIBUTE = re.compile(r"([A-Za-z0-9-]+)(?:\s*=\s*(\"[^\"]*\"|'[^']*'|[^\s\"'>]+))?")
_CHARACTER = re.compile(r"&(#\d{1,8}|#x[0-9a-fA-F]{1,6}|lt|gt|amp|quot);")
_PIECE = re.compile(r"[<&]")

_FOUND_BY_PLATFORM = (
    ("bot_command", re.compile(r"(?<![\w/@])/[A-Za-z0-9_]{1,64}(?:@[A-Za-z0-9_]{3,32})?(?![\w/])")),
    ("mention", re.compile(r"(?<![\w@.])@[A-Za-z0-9_]{4,32}\b")),
    ("email", re.compile(r"(?<!\S)[\w.+-]+@[\w-]+\.[A-Za-z]{2,}\b")),
    ("url", re.compile(r"(?<!\S)(?:https?://\S+|t\.me/\S+)")),
    ("hashtag", re.compile(r"(?<![\w#&])#[^\W\d]\w{0,255}")),
)


def utf16_length(text: str) -> int:
    """UTF-16 code units: what the platform counts as characters."""
    return len(text) if text.isascii() else len(text.encode("utf-16-le")) // 2


def entities_in_plain(text: str) -> list[Entity]:
    """What the platform marks of its own accord: commands, mentions, addresses, hashtags; in order of place."""
    if not any(sign in text for sign in "/@#."):
        return []
    found = [
        {"type": kind, "offset": utf16_length(text[: hit.start()]), "length": utf16_length(hit.group())}
        for kind, pattern in _FOUND_BY_PLATFORM
        for hit in pattern.finditer(text)
    ]
    return sorted(found, key=lambda entity: entity["offset"])


def read_html(text: str) -> tuple[str, list[Entity]]:
    """Take the marks out of a text in HTML mode; entities in order of place, outer before inner.

    Raises:
        Refusal: 400 "can't parse entities", with what is wrong and where.
    """
    shown: list[str] = []
    units = at = 0
    open_tags: list[tuple[str, int, Entity]] = []
    entities: list[Entity] = []
    while (hit := _PIECE.search(text, at)) is not None:
        before, at = text[at : hit.start()], hit.start()
        shown.append(before)
        units += utf16_length(before)
        if hit.group() == "&":
            character, at = _character(text, at)
            shown.append(character)
            units += utf16_length(character)
            continue
        tag = _TAG.match(text, at)
        if tag is None or (not tag.group(2) and not tag.group(1)):
            raise _unreadable("Unclosed start tag" if tag is None else f'Unsupported start tag "{tag.group(2)}"', text, at)
        if tag.group(1):
            _close(open_tags, tag, units, entities, text)
        else:
            _open(open_tags, tag, units, text)
        at = tag.end()
    shown.append(text[at:])
    if open_tags:
        raise bad(f"can't parse entities: Can't find end tag corresponding to start tag \"{open_tags[-1][0]}\"")
    return "".join(shown), _in_order(entities)


def trimmed(text: str, entities: Sequence[Entity]) -> tuple[str, list[Entity]]:
    """Without the white space around, as the platform stores it; entities moved along, empty ones gone."""
    kept = text.strip()
    if kept == text:
        return text, [entity for entity in entities if entity["length"] > 0]
    cut, room = utf16_length(text[: len(text) - len(text.lstrip())]), utf16_length(kept)
    moved = []
    for entity in entities:
        start = max(entity["offset"] - cut, 0)
        end = min(entity["offset"] + entity["length"] - cut, room)
        if end > start:
            moved.append({**entity, "offset": start, "length": end - start})
    return kept, moved


def as_html(text: str, entities: Iterable[Entity]) -> str:
    """The text with its marks as safe HTML for a page: all that was written is escaped; spoilers and emoji marks are dropped."""
    data = text.encode("utf-16-le")
    marks: list[tuple[int, int, str]] = []
    for depth, entity in enumerate(entities):
        start, end = entity["offset"], entity["offset"] + entity["length"]
        opening, closing = _page_tags(entity)
        if opening:
            marks.append((start, 1000 + depth, opening))
            marks.append((end, 999 - depth, closing))
    pieces, at = [], 0
    for place, _, mark in sorted(marks, key=lambda each: each[:2]):
        pieces.append(html_text.escape(data[2 * at : 2 * place].decode("utf-16-le", "replace")))
        pieces.append(mark)
        at = place
    pieces.append(html_text.escape(data[2 * at :].decode("utf-16-le", "replace")))
    return "".join(pieces)


def _page_tags(entity: Entity) -> tuple[str, str]:
    if entity["type"] == "text_link":
        return f'<a href="{html_text.escape(entity["url"])}">', "</a>"
    plain = {
        "bold": "b",
        "italic": "i",
        "underline": "u",
        "strikethrough": "s",
        "code": "code",
        "pre": "pre",
        "blockquote": "blockquote",
    }
    tag = plain.get(entity["type"], "")
    return (f"<{tag}>", f"</{tag}>") if tag else ("", "")


def _character(text: str, at: int) -> tuple[str, int]:
    hit = _CHARACTER.match(text, at)
    if hit is None:
        return "&", at + 1  # a bare ampersand is taken as itself
    return html_text.unescape(hit.group()), hit.end()


def _open(open_tags: list[tuple[str, int, Entity]], tag: re.Match[str], units: int, text: str) -> None:
    name = tag.group(2).lower()
    attributes = {key.lower(): html_text.unescape(value.strip("\"'")) for key, value in _ATTRIBUTE.findall(tag.group(3))}
    if name not in _KINDS or (name == "span" and attributes.get("class") != "tg-spoiler"):
        raise _unreadable(f'Unsupported start tag "{name}"', text, tag.start())
    entity: Entity = {"type": _KINDS[name]}
    if name == "a":
        entity["url"] = attributes.get("href", "")
    elif name == "blockquote" and "expandable" in attributes:
        entity["type"] = "expandable_blockquote"
    elif name == "tg-emoji":
        entity["custom_emoji_id"] = attributes.get("emoji-id", "")
    elif name == "tg-time":
        entity["unix_time"] = int(attributes.get("unix", "0") or 0)
    elif name == "code" and open_tags and open_tags[-1][0] == "pre" and attributes.get("class", "").startswith("language-"):
        open_tags[-1][2]["language"] = attributes["class"].removeprefix("language-")
    open_tags.append((name, units, entity))


def _close(open_tags: list[tuple[str, int, Entity]], tag: re.Match[str], units: int, entities: list[Entity], text: str) -> None:
    name = tag.group(2).lower()
    if not open_tags:
        raise _unreadable("Unexpected end tag", text, tag.start())
    opened, start, entity = open_tags.pop()
    if name and name != opened:
        raise _unreadable("Unmatched end tag", text, tag.start(), f', expected "</{opened}>", found "</{name}>"')
    inside_pre = opened == "code" and open_tags and open_tags[-1][0] == "pre"
    if units > start and not inside_pre and not (opened == "a" and not entity["url"]):
        entities.append({"type": entity.pop("type"), "offset": start, "length": units - start, **entity})


def _in_order(entities: list[Entity]) -> list[Entity]:
    return sorted(entities, key=lambda entity: (entity["offset"], -entity["length"]))


def _unreadable(what: str, text: str, at: int, more: str = "") -> Exception:
    return bad(f"can't parse entities: {what} at byte offset {len(text[:at].encode())}{more}")
