"""How does a conversation read in a terminal while it goes on? Hour, who, what, buttons in a row.

    Mon 5 Jan 2026
    18:02  Mira       20 x 12
           Coach bot  A1 set 1: 12 x 20 kg (last time 10). Next A2.
                      [ Undo ]  [ Note ]

One more line says how far it is. Colour and the moving progress line are used on a terminal only; into a file or a pipe
goes plain text.
"""

from __future__ import annotations

import shutil
import textwrap
import unicodedata
from collections.abc import Iterable
from datetime import date, tzinfo
from typing import TextIO

from scenarios.standin.chats import Message

HOUR, NAME, LEAST_TEXT = 7, 12, 24
_BOT, _PERSON, _FAINT, _PLAIN = "\x1b[36m", "\x1b[33m", "\x1b[2m", "\x1b[0m"


class Printer:
    """Prints to a stream. colour: None asks the stream whether it is a terminal; width: None asks the terminal, each time."""

    def __init__(self, stream: TextIO, *, colour: bool | None = None, width: int | None = None) -> None:
        self._stream, self._width = stream, width
        self.on_terminal = stream.isatty() if colour is None else colour
        self._day: date | None = None
        self._progress = ""
        self._tenths = 0

    def message(self, message: Message, *, zone: tzinfo, chat: str = "") -> None:
        """Print one message. zone: whose hour is shown.

        chat: whose chat it is, for when several are told at once; the weekday then stands beside the hour.
        """
        local = message.at.astimezone(zone)
        self._wipe()
        if self._day is None or local.date() > self._day:  # chats in several zones are on different days at one moment
            self._day = local.date()
            self._line(f"{local:%a} {local.day} {local:%b %Y}", _FAINT)
        colour = _BOT if message.from_bot else _PERSON
        name = f"to {chat}" if chat and message.from_bot else message.sender.first_name
        hour = HOUR if not chat else HOUR + 4
        lines = lines_of(message, self._room(hour))
        first = f"{local:{'%a %H:%M' if chat else '%H:%M'}}".ljust(hour) + _fitted(name, NAME - 1) + " "
        for at, line in enumerate(lines or [""]):
            self._line((first if at == 0 else " " * (hour + NAME)) + line, colour if at == 0 else "", colour_until=hour + NAME)
        self._show_progress()

    def line(self, text: str) -> None:
        """Print a plain line of the teller's own."""
        self._wipe()
        for part in textwrap.wrap(text, self._columns()) or [""]:
            self._line(part, "")
        self._show_progress()

    def progress(self, done: int, whole: int, what: str = "") -> None:
        """Say how far it is. On a terminal the last line moves; elsewhere a line is printed at each tenth."""
        share = min(max(done / whole, 0.0), 1.0) if whole > 0 else 1.0
        if self.on_terminal:
            bar = "=" * round(share * 20)
            self._wipe()
            self._progress = _fitted(f"[{bar:<20}] {share:4.0%} {what}", self._columns() - 1).rstrip()
            self._show_progress()
        elif int(share * 10) > self._tenths:
            self._tenths = int(share * 10)
            self._line(f"-- {share:.0%} {what}".rstrip(), "")

    def finish(self) -> None:
        """Take the progress line away."""
        self._wipe()
        self._progress = ""

    # Behind

    def _columns(self) -> int:
        return self._width or shutil.get_terminal_size((80, 24)).columns

    def _room(self, hour: int) -> int:
        return max(self._columns() - hour - NAME - 1, LEAST_TEXT)

    def _line(self, text: str, colour: str, *, colour_until: int | None = None) -> None:
        if self.on_terminal and colour:
            head, tail = (text, "") if colour_until is None else (text[:colour_until], text[colour_until:])
            text = f"{colour}{head}{_PLAIN}{tail}"
        self._stream.write(f"{text}\n")

    def _wipe(self) -> None:
        if self._progress:
            self._stream.write("\r\x1b[K")

    def _show_progress(self) -> None:
        if self._progress:
            self._stream.write(self._progress)
            self._stream.flush()


def lines_of(message: Message, room: int) -> list[str]:
    """What a message says as lines of at most `room` columns: words, then what is attached, then buttons."""
    lines: list[str] = []
    if message.file:
        lines.append(f"({message.file.kind}: {message.file.name}, {len(message.file.content):,} bytes)")
    for paragraph in _safe(message.text).split("\n") if message.text else []:
        lines.extend(_wrapped(paragraph, room))
    if message.poll:
        lines.extend(
            _wrapped(f"{message.poll['question']} ({', '.join(each['text'] for each in message.poll['options'])})", room)
        )
    for row in message.buttons:
        lines.extend(_packed((f"[ {_safe(button.label)} ]" for button in row), room))
    if message.edited_at:
        lines.append("(changed)")
    return lines


def columns_of(text: str) -> int:
    """How many columns a text takes: wide signs two, marks that sit on the sign before none."""
    return sum(0 if unicodedata.combining(sign) or sign in "\u200d\ufe0f" else 2 if _is_wide(sign) else 1 for sign in text)


def _is_wide(sign: str) -> bool:
    return unicodedata.east_asian_width(sign) in "WF"


def _safe(text: str) -> str:
    """Without anything that would steer the terminal: a member's text must not move its cursor."""
    return "".join(
        sign if sign == "\n" or unicodedata.category(sign) not in ("Cc", "Cf") or sign == "\u200d" else " " for sign in text
    )


def _wrapped(paragraph: str, room: int) -> list[str]:
    lines, line, used = [], "", 0
    indent = paragraph[: len(paragraph) - len(paragraph.lstrip(" "))]
    for word in _words(paragraph.strip(" "), room - len(indent)):
        width = columns_of(word)
        if line and used + 1 + width > room:
            lines.append(line)
            line, used = "", 0
        line, used = (f"{line} {word}", used + 1 + width) if line else (indent + word, len(indent) + width)
    return [*lines, line]


def _words(text: str, room: int) -> Iterable[str]:
    for word in text.split(" "):
        piece = ""
        for sign in word:
            if columns_of(piece + sign) > max(room, 2):
                yield piece
                piece = ""
            piece += sign
        yield piece


def _packed(pieces: Iterable[str], room: int) -> list[str]:
    lines: list[str] = []
    for piece in pieces:
        if lines and columns_of(lines[-1]) + 2 + columns_of(piece) <= room:
            lines[-1] = f"{lines[-1]}  {piece}"
        else:
            lines.append(piece)
    return lines


def _fitted(text: str, columns: int) -> str:
    """Cut or filled to so many columns."""
    text = _safe(text)
    if columns_of(text) > columns:
        while columns_of(text) > columns - 1:
            text = text[:-1]
        text += "…"
    return text + " " * (columns - columns_of(text))
