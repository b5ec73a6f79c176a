"""Every sentence the bot says, by occasion: each module words the replies of one part of the conversation.

A function registered with `@says(Reply)` turns one reply into its text, or into a whole message where pictures or files belong to
it. `render` is what the sender calls for each queued row.
"""

from __future__ import annotations

import importlib
import logging
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from typing import Any

from bot.chat.outgoing import Button, Outgoing, rows_of
from bot.coaching import replies
from bot.coaching.faults import where
from bot.training.plain import from_plain

LOG = logging.getLogger(__name__)
Wording = Callable[[Any], "str | Outgoing"]
_WORDINGS: dict[str, Wording] = {}
_MODULES = ("answers_said", "coach", "days", "demos", "joining", "pain", "session", "sets", "swaps", "week")
# Drawn or computed at sending, so rendered beside the event loop.
HEAVY = frozenset({"Beat", "WeekReviewed", "BlockUnderstood", "GroupWeek", "BlockReviewed"})


def says(kind: type[Any]) -> Callable[[Wording], Wording]:
    """Register the wording of one reply."""

    def register(wording: Wording) -> Wording:
        _WORDINGS[kind.__name__] = wording
        return wording

    return register


def with_picture(text: str, draw: Callable[[], bytes], filename: str) -> Outgoing:
    """The words with a picture; the words alone where the drawing fails, since the words are what must arrive."""
    try:
        return Outgoing(text=text, photo=draw(), filename=filename)
    except Exception as error:
        LOG.warning("picture_not_drawn file=%s cause=%s", filename, where(error))
        return Outgoing(text=text)


def wording_of(reply: Any) -> Outgoing:
    """One reply as a message, without its buttons."""
    load_wording()
    said = _WORDINGS[type(reply).__name__](reply)
    return Outgoing(text=said) if isinstance(said, str) else said


def render(kind: str, fields: dict[str, Any], row: Any = None) -> Outgoing:
    """A queued row as a message.

    fields: the reply as plain data under "reply"; "buttons" as [words, data] pairs, "row" of them beside each other; "edit" the
    message to change.
    """
    message = wording_of(from_plain(fields["reply"], getattr(replies, kind)))
    buttons = tuple(Button(words, data) for words, data in fields.get("buttons", ()))
    laid = rows_of(buttons, per_row=fields.get("row", 2)) if buttons else message.buttons
    return replace(message, buttons=laid, edit_message_id=fields.get("edit") or message.edit_message_id)


@cache
def load_wording() -> None:
    """Let every module of sentences register what it says; done at the first use if not before."""
    for name in _MODULES:
        importlib.import_module(f"{__name__}.{name}")
