"""What does a message look like just before it leaves? Plain values; the messenger turns them into platform calls.

Sizes are the platform's (Bot API manual, "sendMessage", "InlineKeyboardButton"): text 4096 and caption 1024 UTF-16 units
after the marks are taken out, button data 64 bytes, 100 buttons, 8 a row.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from bot.chat.split import MAX_CAPTION, MAX_TEXT, shown_length, split_html

MAX_BUTTONS = 100
MAX_IN_ROW = 8
MAX_DATA_BYTES = 64
FILE_KINDS = ("photo", "document", "voice", "video", "animation", "video_note")


@dataclass(frozen=True)
class Button:
    """A button under a message: sends `data` back when pressed, or opens `url`."""

    label: str
    data: str = ""
    url: str = ""

    def __post_init__(self) -> None:
        if bool(self.data) == bool(self.url):
            raise ValueError(f"button {self.label!r} needs either data or a url")
        if len(self.data.encode()) > MAX_DATA_BYTES:
            raise ValueError(f"button {self.label!r}: data of {len(self.data.encode())} bytes, at most {MAX_DATA_BYTES}")


@dataclass(frozen=True)
class Outgoing:
    """One message. text: HTML as the platform reads it; with media it is the caption.

    buttons: rows of buttons under the message. reply_rows: rows of texts offered as a keyboard; remove_keyboard takes that away.
    photo, document, voice: content as bytes with a `filename`, or a `file_id` that the platform gave before. Videos and animations
    are only ever sent by their id.
    edit_message_id: change that message instead of sending one; if it is gone, a new one is sent.
    """

    text: str = ""
    buttons: tuple[tuple[Button, ...], ...] = ()
    photo: bytes | None = None
    document: bytes | None = None
    voice: bytes | None = None
    filename: str = ""
    file_id: str = ""
    file_kind: str = ""  # one of FILE_KINDS, where file_id is given
    edit_message_id: int | None = None
    reply_to: int | None = None
    silent: bool = False
    reply_rows: tuple[tuple[str, ...], ...] = ()
    remove_keyboard: bool = False
    placeholder: str = ""

    def __post_init__(self) -> None:
        if sum(len(row) for row in self.buttons) > MAX_BUTTONS or any(len(row) > MAX_IN_ROW for row in self.buttons):
            raise ValueError(f"at most {MAX_BUTTONS} buttons, {MAX_IN_ROW} a row")
        if self.file_id and self.file_kind not in FILE_KINDS:
            raise ValueError(f"file_kind={self.file_kind!r}, expected one of {', '.join(FILE_KINDS)}")
        if not self.text and not self.has_media:
            raise ValueError("a message needs a text or a file")

    @property
    def has_media(self) -> bool:
        return bool(self.file_id) or any(content is not None for content in (self.photo, self.document, self.voice))


def rows_of(buttons: Iterable[Button], *, per_row: int) -> tuple[tuple[Button, ...], ...]:
    """Lay buttons out, so many a row."""
    laid = tuple(buttons)
    return tuple(laid[at : at + per_row] for at in range(0, len(laid), per_row))


def parts_of(outgoing: Outgoing) -> list[Outgoing]:
    """The messages that one too long for the platform becomes: buttons under the last, the edit and the reply on the first."""
    if outgoing.has_media:
        if shown_length(outgoing.text) <= MAX_CAPTION:
            return [outgoing]
        bare = replace(outgoing, text="", buttons=(), reply_rows=(), remove_keyboard=False)
        words = Outgoing(
            text=outgoing.text, buttons=outgoing.buttons, silent=outgoing.silent, reply_rows=outgoing.reply_rows,
            remove_keyboard=outgoing.remove_keyboard, placeholder=outgoing.placeholder,
        )  # fmt: skip
        return [bare, *parts_of(words)]
    texts = split_html(outgoing.text, limit=MAX_TEXT)
    if len(texts) == 1:
        return [outgoing]
    first = replace(outgoing, text=texts[0], buttons=(), reply_rows=(), remove_keyboard=False)
    middle = [Outgoing(text=text, silent=True) for text in texts[1:-1]]
    last = replace(outgoing, text=texts[-1], edit_message_id=None, reply_to=None, silent=True)
    return [first, *middle, last]
