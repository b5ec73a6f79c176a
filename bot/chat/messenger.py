"""How does a queued row become a message on the platform, and what became of it? One call, one outcome; nothing is retried here.

The sender knows only outcomes; every word of the platform's errors is understood in this module (Bot API server, Client.cpp):

| the platform says | outcome |
|---|---|
| message is not modified | Sent: it already reads so |
| can't parse entities | once more as plain text |
| message to edit is gone | once more as a new message |
| 429 | Slower |
| 403, chat not found | Gone |
| upgraded to a supergroup | Moved |
| any other 4xx | Refused |
| 5xx, timeout, cut, an answer that is none | Unclear |
| no connection, token refused | NotReached |

A person never waits for nothing: in the place of a message that cannot be rendered, or that the platform refuses, a private chat
gets a plain sentence (`instead`). The row still ends as Refused with its reason, for the operator.
"""

from __future__ import annotations

import asyncio
import logging
import re
from collections.abc import Callable, Collection
from dataclasses import replace
from datetime import timedelta
from typing import Any

from telegram import (
    Bot,
    InlineKeyboardButton,
    InlineKeyboardMarkup,
    LinkPreviewOptions,
    ReplyKeyboardMarkup,
    ReplyKeyboardRemove,
    ReplyParameters,
)
from telegram.error import BadRequest, ChatMigrated, Forbidden, InvalidToken, NetworkError, RetryAfter, TelegramError

from bot.chat.outgoing import Outgoing, parts_of
from bot.chat.split import plain
from bot.chat.transport import NotConnected
from bot.coaching.faults import where
from bot.coaching.ports import Gone, Moved, NotReached, OutboxRow, Outcome, Refused, Sent, Slower, Unclear

LOG = logging.getLogger(__name__)
Render = Callable[[str, dict[str, Any], OutboxRow], Outgoing]
NO_PREVIEW = LinkPreviewOptions(is_disabled=True)
GONE_CHAT = ("chat not found", "user not found", "peer_id_invalid", "group chat was deactivated")
GONE_EDIT = (
    "message to edit not found",
    "message can't be edited",
    "message_id_invalid",
    "there is no text in the message to edit",
)


class Messenger:
    """Turns rows into calls.

    heavy: kinds whose rendering takes long (pictures); they are rendered aside. instead: what stands in for a message of a kind.
    """

    def __init__(
        self, bot: Bot, render: Render, *, heavy: Collection[str] = (), instead: Callable[[str], Outgoing] | None = None
    ) -> None:
        self._bot, self._render, self._heavy, self._instead = bot, render, heavy, instead

    async def deliver(self, row: OutboxRow) -> Outcome:
        """Send the next part of a row."""
        try:
            if row.kind in self._heavy:
                outgoing = await asyncio.to_thread(self._render, row.kind, row.fields, row)
            else:
                outgoing = self._render(row.kind, row.fields, row)
            parts = parts_of(outgoing)
        except Exception as error:
            LOG.error("outbox_not_rendered message=%s kind=%s cause=%r", row.id, row.kind, where(error))
            return await self._say_instead(row, Refused(f"not rendered: {type(error).__name__}: {error}"))
        if row.parts_sent >= len(parts):
            return Sent({})
        outcome = await self._try(row, parts[row.parts_sent])
        if isinstance(outcome, Refused):
            return await self._say_instead(row, outcome)
        return replace(outcome, parts_left=len(parts) - row.parts_sent - 1) if isinstance(outcome, Sent) else outcome

    async def _say_instead(self, row: OutboxRow, why: Refused) -> Outcome:
        """Send the sentence that stands in. What keeps it from arriving is the outcome, so that the row is tried again."""
        if self._instead is None or row.chat_id < 0:
            return why
        outcome = await self._try(row, self._instead(row.kind))
        return why if isinstance(outcome, Sent | Refused) else outcome

    async def _try(self, row: OutboxRow, part: Outgoing, *, as_html: bool = True) -> Outcome:
        try:
            return Sent(await self._call(row, part, as_html=as_html))
        except BadRequest as error:
            said = error.message.lower()
            if "message is not modified" in said:
                return Sent({"message_id": part.edit_message_id})
            if "can't parse entities" in said and as_html:
                LOG.warning("outbox_sent_plain message=%s kind=%s", row.id, row.kind)
                return await self._try(row, part, as_html=False)
            if part.edit_message_id and any(words in said for words in GONE_EDIT):
                return await self._try(row, replace(part, edit_message_id=None), as_html=as_html)
            return outcome_of(error)
        except TelegramError as error:
            return outcome_of(error)
        except Exception as error:  # a fault of ours: trying again would end the same way
            LOG.error("outbox_not_called message=%s kind=%s cause=%r", row.id, row.kind, where(error))
            return Refused(f"not called: {type(error).__name__}: {error}")

    async def _call(self, row: OutboxRow, part: Outgoing, *, as_html: bool) -> dict[str, Any]:
        text = part.text if as_html else plain(part.text)
        mode = "HTML" if as_html else None
        inline = _inline(part)
        if part.edit_message_id:
            edited = await self._bot.edit_message_text(
                text,
                chat_id=row.chat_id,
                message_id=part.edit_message_id,
                parse_mode=mode,
                reply_markup=inline,
                link_preview_options=NO_PREVIEW,
            )
            return edited.to_dict() if not isinstance(edited, bool) else {"message_id": part.edit_message_id}
        how: dict[str, Any] = {
            "chat_id": row.chat_id,
            "message_thread_id": row.thread_id,
            "parse_mode": mode,
            "reply_markup": inline or _keyboard(part),
            "disable_notification": part.silent or None,
            "reply_parameters": ReplyParameters(part.reply_to, allow_sending_without_reply=True) if part.reply_to else None,
        }
        if not part.has_media:
            return (await self._bot.send_message(text=text, link_preview_options=NO_PREVIEW, **how)).to_dict()
        return (await self._send_file(part, caption=text or None, how=how)).to_dict()

    async def _send_file(self, part: Outgoing, *, caption: str | None, how: dict[str, Any]) -> Any:
        name = part.filename or None
        if part.photo is not None or part.file_kind == "photo":
            return await self._bot.send_photo(photo=part.photo or part.file_id, filename=name, caption=caption, **how)
        if part.voice is not None or part.file_kind == "voice":
            return await self._bot.send_voice(voice=part.voice or part.file_id, filename=name, caption=caption, **how)
        if part.file_kind == "video":
            return await self._bot.send_video(video=part.file_id, caption=caption, **how)
        if part.file_kind == "animation":
            return await self._bot.send_animation(animation=part.file_id, caption=caption, **how)
        if part.file_kind == "video_note":  # the round kind bears no caption
            return await self._bot.send_video_note(video_note=part.file_id, **{k: v for k, v in how.items() if k != "parse_mode"})
        return await self._bot.send_document(document=part.document or part.file_id, filename=name, caption=caption, **how)


def outcome_of(error: TelegramError) -> Outcome:
    """What a failed call means for the message."""
    said = error.message
    match error:
        case RetryAfter():
            wait = error.retry_after
            return Slower(wait.total_seconds() if isinstance(wait, timedelta) else float(wait))
        case ChatMigrated():
            return Moved(error.new_chat_id)
        case Forbidden():
            return Gone(said)
        case InvalidToken():
            return NotReached("the token is not accepted")
        case NotConnected():
            return NotReached(said)
        case BadRequest():
            return Gone(said) if any(words in said.lower() for words in GONE_CHAT) else Refused(said)
        case NetworkError() if re.search(r"\(4\d\d\)$", said) or "entity too large" in said.lower():
            return Refused(said)
        case _:  # among others an answer that is not the platform's: a page of some machine in between
            return Unclear(said)


def _inline(part: Outgoing) -> InlineKeyboardMarkup | None:
    if not part.buttons:
        return None
    rows = [
        [InlineKeyboardButton(b.label, callback_data=b.data) if b.data else InlineKeyboardButton(b.label, url=b.url) for b in row]
        for row in part.buttons
    ]
    return InlineKeyboardMarkup(rows)


def _keyboard(part: Outgoing) -> ReplyKeyboardMarkup | ReplyKeyboardRemove | None:
    if part.reply_rows:
        return ReplyKeyboardMarkup(
            [list(row) for row in part.reply_rows], resize_keyboard=True, input_field_placeholder=part.placeholder[:64] or None
        )
    return ReplyKeyboardRemove() if part.remove_keyboard else None
