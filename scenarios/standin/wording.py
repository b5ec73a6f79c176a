"""What text does a call carry, once its marks are taken out, and is it short enough?

Sizes after entity parsing, in UTF-16 units (Bot API manual, "sendMessage", "sendPhoto").
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from scenarios.standin.entities import MAX_ENTITIES, Entity, entities_in_plain, read_html, trimmed, utf16_length
from scenarios.standin.refusal import bad

MAX_TEXT = 4096
MAX_CAPTION = 1024


def read_text(values: Mapping[str, Any]) -> tuple[str, list[Entity]]:
    """The text of a message; never empty."""
    text, entities = _worded(values, "text", "entities")
    if not text:
        raise bad("message text is empty")
    if utf16_length(text) > MAX_TEXT:
        raise bad("message is too long")
    return text, entities


def read_caption(values: Mapping[str, Any]) -> tuple[str, list[Entity]]:
    """The caption of a file; empty when there is none."""
    text, entities = _worded(values, "caption", "caption_entities")
    if utf16_length(text) > MAX_CAPTION:
        raise bad("message caption is too long")
    return text, entities


def _worded(values: Mapping[str, Any], name: str, entities_name: str) -> tuple[str, list[Entity]]:
    raw = values.get(name, "")
    if not isinstance(raw, str):
        raise bad(f'parameter "{name}" must be a string')
    mode = str(values.get("parse_mode", "")).lower()
    if mode == "html":
        text, entities = read_html(raw)
    elif mode in ("", "none"):
        text, entities = raw, [_checked(entity, raw) for entity in values.get(entities_name, [])]
    elif mode in ("markdown", "markdownv2"):
        raise bad("the stand-in reads parse_mode HTML and plain entities only")
    else:
        raise bad("unsupported parse_mode")
    text, entities = trimmed(text, entities)
    found = entities or entities_in_plain(text)
    return text, found[:MAX_ENTITIES]


def _checked(entity: Any, text: str) -> Entity:
    if not isinstance(entity, dict) or not isinstance(entity.get("type"), str):
        raise bad('can\'t parse MessageEntity: field "type" must be a string')
    offset, length = entity.get("offset"), entity.get("length")
    if (
        not isinstance(offset, int)
        or not isinstance(length, int)
        or offset < 0
        or length <= 0
        or offset + length > utf16_length(text)
    ):
        raise bad(f"can't parse MessageEntity: offset {offset} and length {length} lie outside the text")
    return entity
