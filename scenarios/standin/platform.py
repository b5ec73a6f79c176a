"""What does the platform know at this moment, and who may write where? The state behind all methods, without any HTTP."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from scenarios.standin.chats import Chat, Message, User
from scenarios.standin.entities import Entity, entities_in_plain
from scenarios.standin.files import FileShelf, StoredFile
from scenarios.standin.markup import NOTHING, Markup
from scenarios.standin.queue import PRESS_KEPT_S, UpdateQueue
from scenarios.standin.refusal import Refusal, bad, blocked, moved
from scenarios.standin.wall import Clock

BOT_ID = 700_100
FIRST_PERSON_ID = 5_000_000_001  # above 32 bits on purpose: ids have up to 52 (manual, "User")
FIRST_GROUP_ID = -4_000_001
SUPERGROUP_BASE = -1_000_000_000_000
MADE_UP_TOKEN = f"{BOT_ID}:made-up-token-for-the-stand-in-00001"


def scope_key(scope: dict[str, Any], language: str) -> str:
    """Under what name a list of commands is kept. Ids may come as text."""
    plain = {name: int(value) if name.endswith("_id") else value for name, value in scope.items()}
    return json.dumps([plain, language], sort_keys=True)


@dataclass
class Query:
    """A press waiting for its answer. toast: what the bot answered."""

    id: str
    user: User
    message: Message
    at: datetime
    answered: bool = False
    toast: str = ""
    alert: bool = False


class Platform:
    """One bot, the people around it, and their chats. privacy: in groups the bot sees only what is meant for it."""

    def __init__(
        self, clock: Clock, *, username: str = "stand_in_coach_bot", name: str = "Companion", privacy: bool = True
    ) -> None:
        self.clock = clock
        self.bot = User(BOT_ID, name, username=username, is_bot=True)
        self.privacy = privacy
        self.people: dict[int, User] = {}
        self.chats: dict[int, Chat] = {}
        self.files = FileShelf()
        self.queue = UpdateQueue(lambda: self.clock.now().timestamp())
        self.queries: dict[str, Query] = {}
        self.commands: dict[str, list[dict[str, str]]] = {}
        self.texts: dict[tuple[str, str], str] = {}
        self.menu_button: dict[str, Any] = {"type": "commands"}
        self._albums = 0

    def now(self) -> datetime:
        return self.clock.now()

    # People and chats

    def add_person(
        self, first_name: str, *, language_code: str | None = "en", username: str | None = None, last_name: str | None = None
    ) -> User:
        """A new person, with a private chat that is not started yet."""
        user = User(FIRST_PERSON_ID + len(self.people), first_name, language_code, username, last_name)
        self.people[user.id] = user
        self.chats[user.id] = Chat(user.id, "private", person=user)
        return user

    def add_group(self, title: str, members: list[User], *, supergroup: bool = False, bot_is_admin: bool = False) -> Chat:
        """A new group with the bot in it; the first member owns it."""
        number = FIRST_GROUP_ID - sum(1 for chat in self.chats.values() if not chat.is_private)
        chat = Chat(SUPERGROUP_BASE + number if supergroup else number, "supergroup" if supergroup else "group", title)
        chat.members = {user.id: user for user in members}
        chat.admins = {members[0].id} if members else set()
        chat.bot_is_admin = bot_is_admin
        self.chats[chat.id] = chat
        return chat

    def migrate(self, group: Chat) -> Chat:
        """The group becomes a supergroup with a new id; both chats get their service message."""
        grown = Chat(SUPERGROUP_BASE + group.id, "supergroup", group.title, bot_is_admin=group.bot_is_admin)
        grown.members, grown.admins = dict(group.members), set(group.admins)
        self.chats[grown.id] = grown
        owner = next(iter(group.members.values()), self.bot)
        self.tell_service(group, owner, {"migrate_to_chat_id": grown.id})
        self.tell_service(grown, owner, {"migrate_from_chat_id": group.id})
        group.moved_to = grown.id
        return grown

    def chat(self, wanted: int | str) -> Chat:
        """The chat that a call names.

        Raises:
            Refusal: 400 "chat not found"; also for a person who never started the bot.
        """
        if isinstance(wanted, str):
            named = next((chat for chat in self.chats.values() if chat.person and f"@{chat.person.username}" == wanted), None)
        else:
            named = self.chats.get(wanted)
        if named is None or (named.is_private and not named.started):
            raise bad("chat not found")
        return named

    def chat_to_write(self, wanted: int | str) -> Chat:
        """The chat that a call wants to change something in.

        Raises:
            Refusal: 403 when the bot is shut out, 400 when the group has moved.
        """
        chat = self.chat(wanted)
        if chat.moved_to:
            raise moved(chat.moved_to)
        if chat.deactivated:
            raise Refusal(403, "user is deactivated")
        if chat.blocked:
            raise blocked()
        if not chat.bot_inside:
            raise Refusal(403, f"bot was kicked from the {'supergroup' if chat.kind == 'supergroup' else 'group'} chat")
        return chat

    # Messages

    def post(
        self, chat: Chat, sender: User, text: str = "", *, entities: list[Entity] | None = None, file: StoredFile | None = None,
        markup: Markup = NOTHING, reply_to: Message | None = None, thread_id: int | None = None, silent: bool = False,
        album: str | None = None, poll: dict[str, Any] | None = None,
    ) -> Message:  # fmt: skip
        """Put a message into a chat; nobody is told of it yet."""
        message = Message(
            chat.next_id(), chat, sender, self.now(), text, tuple(entities or ()), file, markup.inline,
            markup.raw if markup.inline else None, reply_to, thread_id, silent, album, poll,
        )  # fmt: skip
        if markup.reply is not None:
            chat.reply_rows, chat.placeholder = markup.reply, markup.placeholder
        chat.doing = ""
        return chat.add(message)

    def next_album(self) -> str:
        self._albums += 1
        return str(13_000_000_000_000_000 + self._albums)

    def tell_message(self, message: Message) -> int | None:
        """Queue a person's message for the bot, if the bot may see it."""
        if not self.bot_sees(message):
            return None
        return self.queue.put("message", message.to_json(), lane=f"chat {message.chat.id}", dated=message.at.timestamp())

    def tell_service(self, chat: Chat, sender: User, service: dict[str, Any]) -> Message:
        """A message about the chat itself."""
        message = chat.add(Message(chat.next_id(), chat, sender, self.now(), service=service))
        self.queue.put("message", message.to_json(), lane=f"chat {chat.id}")
        return message

    def tell_bot_member(self, chat: Chat, user: User, *, before: str, after: str) -> None:
        """The bot's own standing in a chat has changed."""
        body = {
            "chat": chat.to_json(),
            "from": user.to_json(),
            "date": int(self.now().timestamp()),
            "old_chat_member": self.bot_member(before),
            "new_chat_member": self.bot_member(after),
        }
        self.queue.put("my_chat_member", body, lane=f"chat {chat.id}")

    def bot_member(self, status: str) -> dict[str, Any]:
        """The bot as a chat member of this status."""
        more: dict[str, Any] = {"until_date": 0} if status == "kicked" else {}
        if status == "administrator":
            rights = (
                "can_be_edited can_manage_chat can_change_info can_delete_messages can_invite_users can_restrict_members"
                " can_pin_messages can_promote_members can_manage_video_chats can_post_stories can_edit_stories"
                " can_delete_stories is_anonymous can_send_welcome_messages"
            )
            more = {
                right: right in ("can_manage_chat", "can_delete_messages", "can_pin_messages", "can_invite_users")
                for right in rights.split()
            }
        return {"user": self.bot.to_json(), "status": status, **more}

    def bot_sees(self, message: Message) -> bool:
        """Privacy mode (Bots FAQ): in a group only commands, replies to the bot, and mentions of it reach it."""
        chat = message.chat
        if chat.is_private:
            return not chat.blocked
        if not chat.bot_inside:
            return False
        if not self.privacy or chat.bot_is_admin:
            return True
        answers_bot = message.reply_to is not None and message.reply_to.from_bot
        name = f"@{self.bot.username}"
        commands = [each for each in message.entities if each["type"] == "bot_command" and each["offset"] == 0]
        is_command = bool(commands) and ("@" not in message.text.split()[0] or name in message.text.split()[0])
        return answers_bot or is_command or name in message.text

    def query(self, query_id: str) -> Query:
        """A press that can still be answered."""
        query = self.queries.get(query_id)
        if query is None or (self.now() - query.at).total_seconds() > PRESS_KEPT_S:
            raise bad("query is too old and response timeout expired or query ID is invalid")
        return query

    def commands_for(self, user: User, chat: Chat) -> list[dict[str, str]]:
        """What the menu of a chat lists for a person: the narrowest scope that was set, their language before none.

        Source: Bot API manual, "Determining list of commands".
        """
        one = {"type": "chat_member", "chat_id": chat.id, "user_id": user.id}
        admin = [{"type": "chat_administrators", "chat_id": chat.id}] if user.id in chat.admins else []
        all_admins = [{"type": "all_chat_administrators"}] if user.id in chat.admins else []
        of_chat, of_kind = {"type": "chat", "chat_id": chat.id}, f"all_{'private' if chat.is_private else 'group'}_chats"
        scopes: list[dict[str, Any]] = [of_chat] if chat.is_private else [one, *admin, of_chat, *all_admins]
        for scope in [*scopes, {"type": of_kind}, {"type": "default"}]:
            for language in (user.language_code or "", ""):
                found = self.commands.get(scope_key(scope, language))
                if found:
                    return found
        return []

    def marked(self, text: str) -> list[Entity]:
        """What the platform itself marks in a person's text."""
        return entities_in_plain(text)
