"""Is a keyboard one that the platform would show? Sizes: the manual, "InlineKeyboardButton", and the limits that PTB names.

An inline keyboard sits under one message; a reply keyboard is offered to the chat and sends plain text.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from scenarios.standin.refusal import bad

MAX_BUTTONS = 100
MAX_IN_ROW = 8
MAX_DATA_BYTES = 64
_ACTIONS = {"callback_data", "url", "web_app", "login_url", "switch_inline_query", "switch_inline_query_current_chat",
            "copy_text", "pay", "switch_inline_query_chosen_chat", "callback_game"}  # fmt: skip
_INLINE_LOOKS = {"text", "style", "icon_custom_emoji_id"}
_REPLY = {"keyboard", "is_persistent", "resize_keyboard", "one_time_keyboard", "input_field_placeholder", "selective"}
_REPLY_BUTTON = {"text", "style", "icon_custom_emoji_id", "request_users", "request_chat", "request_contact", "request_location",
                 "request_poll", "web_app"}  # fmt: skip
_REMOVE = {"remove_keyboard", "selective"}
_FORCE = {"force_reply", "input_field_placeholder", "selective"}
_STYLES = {"danger", "success", "primary"}


@dataclass(frozen=True)
class Button:
    """A button as offered. data is what a press sends; url is what it opens."""

    label: str
    data: str = ""
    url: str = ""
    style: str = ""


Rows = tuple[tuple[Button, ...], ...]


@dataclass(frozen=True)
class Markup:
    """What came with a message. inline: buttons under it; reply: texts offered, None when unsaid, () when taken away."""

    inline: Rows = ()
    reply: tuple[tuple[str, ...], ...] | None = None
    placeholder: str = ""
    one_time: bool = False
    raw: dict[str, Any] | None = None


NOTHING = Markup()


def read_markup(raw: dict[str, Any] | None, *, inline_only: bool = False) -> Markup:
    """Check a reply_markup and read it.

    Raises:
        Refusal: 400 for a shape, a size or a button that the platform would not take.
    """
    if raw is None or raw == {}:
        return NOTHING
    if "inline_keyboard" in raw:
        _only(raw, {"inline_keyboard"}, "inline keyboard")
        rows = tuple(tuple(_inline(button) for button in row) for row in _rows(raw["inline_keyboard"]))
        return Markup(inline=tuple(row for row in rows if row), raw=raw)
    if inline_only:
        raise bad("inline keyboard expected")
    if "keyboard" in raw:
        _only(raw, _REPLY, "reply keyboard")
        if len(raw.get("input_field_placeholder", "")) > 64:
            raise bad("input field placeholder is too long")
        labels = tuple(tuple(_label(button) for button in row) for row in _rows(raw["keyboard"]))
        if not any(labels):
            raise bad("reply keyboard is empty")
        return Markup(
            reply=labels, placeholder=raw.get("input_field_placeholder", ""), one_time=bool(raw.get("one_time_keyboard")), raw=raw
        )
    if raw.get("remove_keyboard") is True:
        _only(raw, _REMOVE, "keyboard removal")
        return Markup(reply=(), raw=raw)
    if raw.get("force_reply") is True:
        _only(raw, _FORCE, "forced reply")
        return Markup(raw=raw)
    raise bad("object expected as reply markup")


def _only(raw: dict[str, Any], known: set[str], what: str) -> None:
    strange = sorted(set(raw) - known)
    if strange:
        raise bad(f'can\'t parse {what}: unknown field "{strange[0]}"')


def _rows(raw: Any) -> list[list[Any]]:
    if not isinstance(raw, list) or not all(isinstance(row, list) for row in raw):
        raise bad("can't parse keyboard: array of arrays expected")
    if sum(len(row) for row in raw) > MAX_BUTTONS or any(len(row) > MAX_IN_ROW for row in raw):
        raise bad("reply markup is too long")
    return raw


def _inline(raw: Any) -> Button:
    if not isinstance(raw, dict) or not isinstance(raw.get("text"), str) or not raw["text"].strip():
        raise bad('can\'t parse inline keyboard button: field "text" must be a non-empty string')
    _only(raw, _ACTIONS | _INLINE_LOOKS, "inline keyboard button")
    actions = [name for name in _ACTIONS if name in raw]
    if len(actions) != 1:
        raise bad(
            "text buttons are unallowed in the inline keyboard" if not actions else "inline keyboard button must have one action"
        )
    if raw.get("style", "primary") not in _STYLES:
        raise bad("unknown button style")
    data, url = raw.get("callback_data", ""), raw.get("url", "")
    if "callback_data" in raw and not (isinstance(data, str) and 1 <= len(data.encode()) <= MAX_DATA_BYTES):
        raise bad("BUTTON_DATA_INVALID")
    if "url" in raw and not (isinstance(url, str) and url.startswith(("http://", "https://", "tg://"))):
        raise bad(f"inline keyboard button URL '{url}' is invalid: Wrong HTTP URL")
    return Button(raw["text"], data, url, raw.get("style", ""))


def _label(raw: Any) -> str:
    label = raw if isinstance(raw, str) else raw.get("text") if isinstance(raw, dict) else None
    if not isinstance(label, str) or not label.strip():
        raise bad('can\'t parse keyboard button: field "text" must be a non-empty string')
    if isinstance(raw, dict):
        _only(raw, _REPLY_BUTTON, "keyboard button")
    return label
