"""What do people do, and which updates does the bot get for it? The other direction of the platform.

Nothing here waits; each act changes the chats at once and queues what the bot is to hear of.
"""

from __future__ import annotations

import itertools
from typing import Any

from scenarios.standin.chats import Chat, Message, Press, User, Version
from scenarios.standin.entities import utf16_length
from scenarios.standin.files import StoredFile
from scenarios.standin.markup import Button
from scenarios.standin.platform import Platform, Query
from scenarios.standin.signatures import Upload
from scenarios.standin.wording import MAX_TEXT

_query_numbers = itertools.count(4_400_000_000_000_001)


class NotPossible(Exception):
    """A person tried what the chat does not offer, such as a button that is not there. The text says what is."""


def says(platform: Platform, user: User, chat: Chat, text: str, *, reply_to: Message | None = None) -> list[Message]:
    """A person writes. Longer than a message may be, it becomes several, as in any client."""
    _begin(platform, user, chat)
    posted = []
    for part in _parts(text):
        message = platform.post(chat, user, part, entities=platform.marked(part), reply_to=reply_to)
        platform.tell_message(message)
        posted.append(message)
    return posted


def sends(
    platform: Platform, user: User, chat: Chat, kind: str, upload: Upload, *, caption: str = "", duration: int = 0,
    reply_to: Message | None = None,
) -> Message:  # fmt: skip
    """A person sends a file: photo, document, voice, audio or video."""
    _begin(platform, user, chat)
    file = platform.files.keep(kind, upload, duration=duration)
    return send_again(platform, user, chat, file, caption=caption, reply_to=reply_to)


def send_again(
    platform: Platform, user: User, chat: Chat, file: StoredFile, *, caption: str = "", reply_to: Message | None = None
) -> Message:
    """A person sends a file that the platform has already."""
    message = platform.post(chat, user, caption, entities=platform.marked(caption), file=file, reply_to=reply_to)
    platform.tell_message(message)
    return message


def edits(platform: Platform, message: Message, text: str) -> None:
    """A person changes what they wrote."""
    if message.from_bot or message.deleted:
        raise NotPossible("only one's own message that still stands can be edited")
    now = platform.now()
    message.earlier.append(Version(message.text, message.entities, message.buttons, now))
    message.text, message.entities, message.edited_at = text, tuple(platform.marked(text)), now
    if platform.bot_sees(message):
        platform.queue.put("edited_message", message.to_json(), lane=f"chat {message.chat.id}", dated=now.timestamp())


def deletes(message: Message) -> None:
    """A person removes a message; the bot is not told (section 1.1 of the platform notes)."""
    message.deleted = True


def presses(platform: Platform, user: User, message: Message, button: Button) -> Query | None:
    """A person presses a button under a message. A button that opens an address tells the bot nothing."""
    _begin(platform, user, message.chat)
    message.presses.append(Press(user, button.label, button.data, platform.now()))
    if not button.data:
        return None
    query = Query(str(next(_query_numbers)), user, message, platform.now())
    platform.queries[query.id] = query
    body: dict[str, Any] = {
        "id": query.id,
        "from": user.to_json(),
        "message": message.to_json(),
        "chat_instance": str(-7_000_000_000 - abs(message.chat.id)),
        "data": button.data,
    }
    platform.queue.put("callback_query", body, lane=f"presses {user.id}")
    return query


def blocks(platform: Platform, user: User) -> None:
    """A person blocks the bot."""
    chat = platform.chats[user.id]
    if chat.started and not chat.blocked:
        platform.tell_bot_member(chat, user, before="member", after="kicked")
        chat.blocked = True


def unblocks(platform: Platform, user: User) -> None:
    """A person lets the bot in again."""
    chat = platform.chats[user.id]
    if chat.blocked:
        chat.blocked = False
        platform.tell_bot_member(chat, user, before="kicked", after="member")


def reacts(platform: Platform, user: User, message: Message, signs: list[str]) -> None:
    """A person reacts to a message; the bot hears of it only if it asked for that, and in a group only as an admin."""
    before = message.reactions.get(user.id, [])
    message.reactions[user.id] = signs
    if not message.chat.is_private and not message.chat.bot_is_admin:
        return
    body = {
        "chat": message.chat.to_json(), "message_id": message.id, "user": user.to_json(), "date": int(platform.now().timestamp()),
        "old_reaction": [{"type": "emoji", "emoji": sign} for sign in before],
        "new_reaction": [{"type": "emoji", "emoji": sign} for sign in signs],
    }  # fmt: skip
    platform.queue.put("message_reaction", body, lane=f"chat {message.chat.id}")


def votes(platform: Platform, user: User, message: Message, options: list[int]) -> None:
    """A person votes in a poll."""
    if message.poll is None:
        raise NotPossible("there is no poll in this message")
    for option in options:
        message.poll["options"][option]["voter_count"] += 1
    message.poll["total_voter_count"] += 1
    if not message.poll["is_anonymous"]:
        ids = [str(option) for option in options]
        body = {"poll_id": message.poll["id"], "user": user.to_json(), "option_ids": options, "option_persistent_ids": ids}
        platform.queue.put("poll_answer", body, lane=f"user {user.id}")


def joins(platform: Platform, user: User, chat: Chat) -> None:
    """A person enters a group."""
    chat.members[user.id] = user
    platform.tell_service(chat, user, {"new_chat_members": [user.to_json()]})


def leaves(platform: Platform, user: User, chat: Chat) -> None:
    """A person leaves a group."""
    chat.members.pop(user.id, None)
    platform.tell_service(chat, user, {"left_chat_member": user.to_json()})


def adds_bot(platform: Platform, user: User, chat: Chat) -> None:
    """A person brings the bot into a group."""
    chat.bot_inside = True
    status = "administrator" if chat.bot_is_admin else "member"
    platform.tell_bot_member(chat, user, before="left", after=status)
    platform.tell_service(chat, user, {"new_chat_members": [platform.bot.to_json()]})


def removes_bot(platform: Platform, user: User, chat: Chat) -> None:
    """A person puts the bot out of a group."""
    platform.tell_bot_member(chat, user, before="administrator" if chat.bot_is_admin else "member", after="kicked")
    chat.bot_inside = False


def _begin(platform: Platform, user: User, chat: Chat) -> None:
    if chat.is_private:
        if chat.blocked:
            unblocks(platform, user)  # writing to a blocked bot lifts the block, as a client asks first
        chat.started = True
    elif user.id not in chat.members:
        raise NotPossible(f"{user.first_name} is not in {chat.title!r}")


def _parts(text: str) -> list[str]:
    if utf16_length(text) <= MAX_TEXT:
        return [text]
    parts: list[str] = []
    part: list[str] = []
    units = 0
    for character in text:
        width = 2 if ord(character) > 0xFFFF else 1
        if units + width > MAX_TEXT:
            parts.append("".join(part))
            part, units = [], 0
        part.append(character)
        units += width
    return [*parts, "".join(part)]
