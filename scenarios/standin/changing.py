"""What happens when the bot changes what is there? Edits, removals, reactions, pins, answers to presses."""

from __future__ import annotations

from typing import Any

from scenarios.standin.chats import Chat, Message, Version
from scenarios.standin.entities import Entity, utf16_length
from scenarios.standin.markup import NOTHING, Markup, read_markup
from scenarios.standin.platform import Platform
from scenarios.standin.refusal import bad
from scenarios.standin.sending import Method, Uploads, Values
from scenarios.standin.wording import read_caption, read_text

DELETABLE_S = 48 * 3600  # manual, "deleteMessage"
MAX_TOAST = 200
SAME = (
    "message is not modified: specified new message content and reply markup are exactly the same as a current content and"
    " reply markup of the message"
)
# A part of the fixed list of the manual's "ReactionTypeEmoji"; anything else is refused.
REACTIONS = frozenset("👍👎❤🔥🥰👏😁🤔🤯😱😢🎉🤩🙏👌🕊🤡🥱🥴😍💯🤣⚡🏆💔🤨😐🍓😈😴😭🤓👻👀🎃🙈😇😨🤝🤗🫡🆒💘😎🤷")


def edit_text(platform: Platform, values: Values, _: Uploads) -> Any:
    message = _to_edit(platform, values)
    text, entities = read_text(values)
    if message.file or message.poll:
        raise bad("there is no text in the message to edit")
    return _changed(platform, message, text, entities, _markup(values))


def edit_caption(platform: Platform, values: Values, _: Uploads) -> Any:
    message = _to_edit(platform, values)
    text, entities = read_caption(values)
    if not message.file:
        raise bad("there is no caption in the message to edit")
    return _changed(platform, message, text, entities, _markup(values))


def edit_buttons(platform: Platform, values: Values, _: Uploads) -> Any:
    message = _to_edit(platform, values)
    return _changed(platform, message, message.text, list(message.entities), _markup(values))


def delete_message(platform: Platform, values: Values, _: Uploads) -> Any:
    _delete(platform, platform.chat_to_write(values["chat_id"]), values["message_id"])
    return True


def delete_messages(platform: Platform, values: Values, _: Uploads) -> Any:
    chat = platform.chat_to_write(values["chat_id"])
    if not 1 <= len(values["message_ids"]) <= 100:
        raise bad("message identifiers are not specified")
    for number in values["message_ids"]:
        if number in chat.messages and not chat.messages[number].deleted:
            _delete(platform, chat, number)
    return True


def answer_press(platform: Platform, values: Values, _: Uploads) -> Any:
    query = platform.query(values["callback_query_id"])
    text = values.get("text", "")
    if utf16_length(text) > MAX_TOAST:
        raise bad("MESSAGE_TOO_LONG")
    query.answered, query.toast, query.alert = True, text, values.get("show_alert", False)
    return True


def set_reaction(platform: Platform, values: Values, _: Uploads) -> Any:
    message = _there(platform.chat_to_write(values["chat_id"]), values["message_id"], "message to react not found")
    wanted = values.get("reaction", [])
    if len(wanted) > 1:
        raise bad("REACTIONS_TOO_MANY")  # manual: a bot may put one
    signs = [each.get("emoji", "") if isinstance(each, dict) else "" for each in wanted]
    if not all(sign in REACTIONS for sign in signs):
        raise bad("REACTION_INVALID")
    message.reactions[platform.bot.id] = signs
    return True


def pin(platform: Platform, values: Values, _: Uploads) -> Any:
    chat = platform.chat_to_write(values["chat_id"])
    message = _there(chat, values["message_id"], "message to pin not found")
    if not chat.is_private and not chat.bot_is_admin:
        raise bad("not enough rights to manage pinned messages in the chat")
    chat.pinned.append(message.id)
    return True


def unpin(platform: Platform, values: Values, _: Uploads) -> Any:
    chat = platform.chat_to_write(values["chat_id"])
    number = values.get("message_id", chat.pinned[-1] if chat.pinned else 0)
    if number not in chat.pinned:
        raise bad("message to unpin not found")
    chat.pinned.remove(number)
    return True


METHODS: dict[str, Method] = {
    "editMessageText": edit_text,
    "editMessageCaption": edit_caption,
    "editMessageReplyMarkup": edit_buttons,
    "deleteMessage": delete_message,
    "deleteMessages": delete_messages,
    "answerCallbackQuery": answer_press,
    "setMessageReaction": set_reaction,
    "pinChatMessage": pin,
    "unpinChatMessage": unpin,
}


def _to_edit(platform: Platform, values: Values) -> Message:
    if "chat_id" not in values:
        raise bad("chat_id is empty")
    if "message_id" not in values:
        raise bad("message identifier is not specified")
    message = _there(platform.chat_to_write(values["chat_id"]), values["message_id"], "message to edit not found")
    if not message.from_bot or message.forwarded_from:
        raise bad("message can't be edited")
    return message


def _there(chat: Chat, number: int, missing: str) -> Message:
    message = chat.messages.get(number)
    if message is None or message.deleted:
        raise bad(missing)
    return message


def _markup(values: Values) -> Markup:
    return read_markup(values["reply_markup"], inline_only=True) if "reply_markup" in values else NOTHING


def _changed(platform: Platform, message: Message, text: str, entities: list[Entity], markup: Markup) -> Any:
    if (text, tuple(entities), markup.inline) == (message.text, message.entities, message.buttons):
        raise bad(SAME)
    now = platform.now()
    message.earlier.append(Version(message.text, message.entities, message.buttons, now))
    message.text, message.entities = text, tuple(entities)
    message.buttons, message.buttons_raw = markup.inline, markup.raw if markup.inline else None
    message.edited_at = now
    return message.to_json()


def _delete(platform: Platform, chat: Chat, number: int) -> None:
    message = _there(chat, number, "message to delete not found")
    too_old = (platform.now() - message.at).total_seconds() > DELETABLE_S
    others = not message.from_bot and not chat.is_private and not chat.bot_is_admin
    if too_old or others:
        raise bad("message can't be deleted")
    message.deleted = True
    if number in chat.pinned:
        chat.pinned.remove(number)
