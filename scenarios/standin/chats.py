"""What does the platform keep? People, chats, and messages with everything that ever stood in them."""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from scenarios.standin.entities import Entity, as_html
from scenarios.standin.files import StoredFile
from scenarios.standin.markup import Rows

Json = dict[str, Any]


@dataclass
class User:
    """A person or the bot."""

    id: int
    first_name: str
    language_code: str | None = None
    username: str | None = None
    last_name: str | None = None
    is_bot: bool = False

    def to_json(self) -> Json:
        said = {"id": self.id, "is_bot": self.is_bot, "first_name": self.first_name}
        more = {"last_name": self.last_name, "username": self.username, "language_code": self.language_code}
        return said | {name: value for name, value in more.items() if value}


@dataclass(frozen=True)
class Version:
    """What a message showed until it was edited."""

    text: str
    entities: tuple[Entity, ...]
    buttons: Rows
    until: datetime

    @property
    def html(self) -> str:
        return as_html(self.text, self.entities)


@dataclass(frozen=True)
class Press:
    """Somebody pressed a button. toast: what the bot answered the press with, if anything."""

    user: User
    label: str
    data: str
    at: datetime


@dataclass
class Message:
    """A message as it stands now. text: the words, or the caption of a file. Times are UTC."""

    id: int
    chat: Chat
    sender: User
    at: datetime
    text: str = ""
    entities: tuple[Entity, ...] = ()
    file: StoredFile | None = None
    buttons: Rows = ()
    buttons_raw: Json | None = None
    reply_to: Message | None = None
    thread_id: int | None = None
    silent: bool = False
    album: str | None = None
    poll: Json | None = None
    service: Json = field(default_factory=dict)
    forwarded_from: User | None = None
    edited_at: datetime | None = None
    earlier: list[Version] = field(default_factory=list)
    presses: list[Press] = field(default_factory=list)
    reactions: dict[int, list[str]] = field(default_factory=dict)
    deleted: bool = False

    @property
    def from_bot(self) -> bool:
        return self.sender.is_bot

    @property
    def html(self) -> str:
        """The text with its marks, everything else escaped."""
        return as_html(self.text, self.entities)

    @property
    def labels(self) -> list[str]:
        """The labels of the buttons under it, row by row."""
        return [button.label for row in self.buttons for button in row]

    def to_json(self, *, with_reply: bool = True) -> Json:
        """The message in the platform's own form."""
        said: Json = {
            "message_id": self.id,
            "from": self.sender.to_json(),
            "chat": self.chat.to_json(),
            "date": int(self.at.timestamp()),
            **self.service,
        }
        if self.edited_at:
            said["edit_date"] = int(self.edited_at.timestamp())
        if self.thread_id:
            said["message_thread_id"] = self.thread_id
        if self.file:
            said |= self.file.in_message()
            said |= {"caption": self.text} if self.text else {}
            said |= {"caption_entities": list(self.entities)} if self.entities else {}
        elif self.text:
            said["text"] = self.text
            said |= {"entities": list(self.entities)} if self.entities else {}
        if self.poll:
            said["poll"] = self.poll
        if self.buttons_raw:
            said["reply_markup"] = self.buttons_raw
        if self.album:
            said["media_group_id"] = self.album
        if self.forwarded_from:
            said["forward_origin"] = {"type": "user", "date": said["date"], "sender_user": self.forwarded_from.to_json()}
        if self.reply_to and with_reply and not self.reply_to.deleted:
            said["reply_to_message"] = self.reply_to.to_json(with_reply=False)
        return said


@dataclass
class Chat:
    """A private chat (id above 0) or a group (below 0). Message ids rise within it."""

    id: int
    kind: str
    title: str = ""
    person: User | None = None
    started: bool = False
    blocked: bool = False
    bot_inside: bool = True
    bot_is_admin: bool = False
    moved_to: int | None = None
    members: dict[int, User] = field(default_factory=dict)
    admins: set[int] = field(default_factory=set)
    messages: OrderedDict[int, Message] = field(default_factory=OrderedDict)
    last_id: int = 0
    reply_rows: tuple[tuple[str, ...], ...] = ()
    placeholder: str = ""
    doing: str = ""
    pinned: list[int] = field(default_factory=list)
    invite_links: int = 0
    topics: dict[int, str] = field(default_factory=dict)
    deactivated: bool = False
    menu_button: Json | None = None

    @property
    def is_private(self) -> bool:
        return self.kind == "private"

    @property
    def name(self) -> str:
        return self.person.first_name if self.person else self.title

    def to_json(self) -> Json:
        if self.person:
            person = self.person
            named = {"first_name": person.first_name, "last_name": person.last_name, "username": person.username}
            return {"id": self.id, "type": "private", **{name: value for name, value in named.items() if value}}
        return {"id": self.id, "type": self.kind, "title": self.title}

    def add(self, message: Message) -> Message:
        self.messages[message.id] = message
        return message

    def next_id(self) -> int:
        self.last_id += 1
        return self.last_id

    def shown(self) -> list[Message]:
        """What stands in the chat now, oldest first."""
        return [message for message in self.messages.values() if not message.deleted]
