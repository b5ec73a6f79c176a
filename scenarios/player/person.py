"""What can a person do with the bot? Write, press, edit, send files, block it, and look at the chat.

Every act is over when it has been done on the platform and, within a `Play`, when the program has dealt with it.

    mira = standin.person("Mira")
    await mira.follows_link("https://t.me/stand_in_coach_bot?start=abc")
    await mira.presses("Agree")
    assert "Welcome" in mira.last.text
"""

from __future__ import annotations

import re
from collections.abc import Awaitable, Callable, Sequence
from typing import TYPE_CHECKING, TypeVar
from urllib.parse import parse_qs, urlsplit

from scenarios.standin import arrivals
from scenarios.standin.arrivals import NotPossible
from scenarios.standin.chats import Chat, Message, User
from scenarios.standin.markup import Button
from scenarios.standin.platform import Query
from scenarios.standin.signatures import Upload

if TYPE_CHECKING:
    from scenarios.player.group import Group
    from scenarios.standin.server import StandIn

T = TypeVar("T")
_PAYLOAD = re.compile(r"[A-Za-z0-9_-]{0,64}")  # manual, "Deep linking"
After = Callable[["Person"], Awaitable[None]]


class Person:
    """One person. Acts go to the private chat with the bot unless a group is named. after: awaited after each act."""

    def __init__(self, standin: StandIn, user: User) -> None:
        self.user = user
        self.after: After | None = None
        self._platform = standin.platform
        self._last_query: Query | None = None

    @property
    def id(self) -> int:
        """Of the person and of their private chat alike."""
        return self.user.id

    @property
    def name(self) -> str:
        return self.user.first_name

    # What they see

    @property
    def chat(self) -> Chat:
        return self._platform.chats[self.user.id]

    def sees(self, *, group: Group | None = None) -> list[Message]:
        """What the chat shows now, oldest first, edits applied and deleted messages gone."""
        return self._in(group).shown()

    def from_bot(self, *, group: Group | None = None) -> list[Message]:
        """The bot's messages among them."""
        return [message for message in self.sees(group=group) if message.from_bot]

    def since(self, message: Message) -> list[Message]:
        """The bot's messages that came after this one in its chat."""
        return [each for each in message.chat.shown() if each.from_bot and each.id > message.id]

    @property
    def last(self) -> Message:
        """The bot's newest message in the private chat."""
        messages = self.from_bot()
        if not messages:
            raise NotPossible(f"the bot has not written to {self.name} yet")
        return messages[-1]

    @property
    def keyboard(self) -> list[str]:
        """The texts offered in place of the keyboard."""
        return [label for row in self.chat.reply_rows for label in row]

    @property
    def commands(self) -> list[str]:
        """The commands that the private chat's menu lists, in their order."""
        return [command["command"] for command in self._platform.commands_for(self.user, self.chat)]

    @property
    def toast(self) -> str:
        """What the bot's answer to the newest press said in passing, "" for nothing."""
        return self._last_query.toast if self._last_query else ""

    @property
    def press_answered(self) -> bool:
        """The newest press has been answered, so no button keeps spinning."""
        return self._last_query is None or self._last_query.answered

    # What they do

    async def says(self, text: str, *, group: Group | None = None) -> Message:
        """Write a text. Longer than a message may be, it goes as several; the first is returned."""
        message = arrivals.says(self._platform, self.user, self._in(group), text)[0]
        return await self._done(message)

    async def replies(self, message: Message, text: str) -> Message:
        """Answer a message."""
        return await self._done(arrivals.says(self._platform, self.user, message.chat, text, reply_to=message)[0])

    async def presses(self, label: str, *, on: Message | None = None, group: Group | None = None) -> Message:
        """Press a button by its label, or a part of it if only one has that; on the newest message that offers it.

        Returns the message. Raises NotPossible, which lists what is offered, when there is no such button, or two.
        """
        message, button = self._find_button(label, on, group)
        self._last_query = arrivals.presses(self._platform, self.user, message, button) or self._last_query
        return await self._done(message)

    async def presses_old(self, message: Message, button: Button) -> Message:
        """Press a button that stood under a message once, as a screen that was not redrawn still allows."""
        self._last_query = arrivals.presses(self._platform, self.user, message, button)
        return await self._done(message)

    async def taps(self, label: str) -> Message:
        """Send one of the texts offered in place of the keyboard."""
        if label not in self.keyboard:
            raise NotPossible(f"{label!r} is not offered to {self.name}; offered: {self.keyboard}")
        return await self.says(label)

    async def edits(self, message: Message, text: str) -> Message:
        """Change one's own message."""
        arrivals.edits(self._platform, message, text)
        return await self._done(message)

    async def deletes(self, message: Message) -> Message:
        """Remove a message; the bot does not hear of it."""
        arrivals.deletes(message)
        return await self._done(message)

    async def sends_file(
        self,
        name: str,
        content: bytes,
        caption: str = "",
        *,
        mime: str = "",
        group: Group | None = None,
        reply_to: Message | None = None,
    ) -> Message:
        """Send a document."""
        return await self._sends("document", Upload(name, content, mime), caption, group=group, reply_to=reply_to)

    async def sends_photo(
        self, content: bytes, caption: str = "", *, name: str = "photo.jpg", group: Group | None = None
    ) -> Message:
        """Send a picture."""
        return await self._sends("photo", Upload(name, content, ""), caption, group=group)

    async def sends_video(
        self, content: bytes, caption: str = "", *, name: str = "clip.mp4", group: Group | None = None
    ) -> Message:
        """Send a video."""
        return await self._sends("video", Upload(name, content, "video/mp4"), caption, group=group)

    async def sends_voice(self, content: bytes, *, duration_s: int = 1, group: Group | None = None) -> Message:
        """Send a spoken message."""
        return await self._sends("voice", Upload("voice.ogg", content, "audio/ogg"), "", group=group, duration_s=duration_s)

    async def reacts(self, message: Message, *signs: str) -> Message:
        """Put signs under a message, instead of those put before."""
        arrivals.reacts(self._platform, self.user, message, list(signs))
        return await self._done(message)

    async def votes(self, message: Message, *options: int) -> Message:
        """Vote in a poll, by the places of the options, from 0."""
        arrivals.votes(self._platform, self.user, message, list(options))
        return await self._done(message)

    async def starts(self, payload: str = "") -> Message:
        """Press Start, with or without an invite's payload."""
        return await self.says(f"/start {payload}".rstrip())

    async def follows_link(self, url: str) -> Message:
        """Open a link to the bot, such as https://t.me/<bot>?start=<payload>, and press Start."""
        parts = urlsplit(url)
        name = parts.path.strip("/")
        if parts.netloc != "t.me" or name.lower() != str(self._platform.bot.username).lower():
            raise NotPossible(f"{url!r} does not lead to this bot, whose link is https://t.me/{self._platform.bot.username}")
        payload = parse_qs(parts.query).get("start", [""])[0]
        if not _PAYLOAD.fullmatch(payload):
            raise NotPossible(f"no client takes the payload {payload!r}: up to 64 of A-Z a-z 0-9 _ - are possible")
        return await self.starts(payload)

    async def blocks_bot(self) -> None:
        arrivals.blocks(self._platform, self.user)
        await self._done(None)

    async def unblocks_bot(self) -> None:
        arrivals.unblocks(self._platform, self.user)
        await self._done(None)

    async def deletes_account(self) -> None:
        """Be gone for good; the bot is not told, it finds out when it writes."""
        self.chat.deactivated = True
        await self._done(None)

    # Behind

    def _in(self, group: Group | None) -> Chat:
        return group.chat if group else self.chat

    async def _sends(
        self,
        kind: str,
        upload: Upload,
        caption: str,
        *,
        group: Group | None,
        duration_s: int = 0,
        reply_to: Message | None = None,
    ) -> Message:
        chat = self._in(group)
        message = arrivals.sends(
            self._platform, self.user, chat, kind, upload, caption=caption, duration=duration_s, reply_to=reply_to
        )
        return await self._done(message)

    async def _done(self, message: T) -> T:
        if self.after:
            await self.after(self)
        return message

    def _find_button(self, label: str, on: Message | None, group: Group | None) -> tuple[Message, Button]:
        messages = [on] if on else [message for message in reversed(self.sees(group=group)) if message.buttons]
        for message in messages:
            found = matching(message, label)
            if len(found) > 1:
                raise NotPossible(f"{label!r} fits several buttons: {[button.label for button in found]}")
            if found:
                return message, found[0]
        offered = [message.labels for message in messages[:3]]
        raise NotPossible(f"no button {label!r} for {self.name}; the newest messages offer {offered}")


def matching(message: Message, label: str) -> Sequence[Button]:
    """The buttons of a message with this label, else those whose label has it as a part, letter case aside."""
    buttons = [button for row in message.buttons for button in row]
    exact = [button for button in buttons if button.label == label]
    return exact[:1] or [button for button in buttons if label.casefold() in button.label.casefold()]
