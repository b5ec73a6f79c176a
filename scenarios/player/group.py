"""What is a group to the people in it? A chat with several of them and the bot."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scenarios.standin import arrivals
from scenarios.standin.chats import Chat, Message

if TYPE_CHECKING:
    from scenarios.player.person import Person
    from scenarios.standin.server import StandIn


class Group:
    """A group chat. Its people write with `person.says(text, group=group)`."""

    def __init__(self, standin: StandIn, chat: Chat) -> None:
        self.chat = chat
        self._platform = standin.platform

    @property
    def id(self) -> int:
        """Below 0."""
        return self.chat.id

    def sees(self) -> list[Message]:
        """What the group shows now, oldest first."""
        return self.chat.shown()

    def from_bot(self) -> list[Message]:
        return [message for message in self.sees() if message.from_bot]

    def joins(self, person: Person) -> None:
        arrivals.joins(self._platform, person.user, self.chat)

    def leaves(self, person: Person) -> None:
        arrivals.leaves(self._platform, person.user, self.chat)

    async def adds_bot(self, by: Person, payload: str = "") -> None:
        """Bring the bot in, by a link with a payload if one is given (?startgroup=<payload>)."""
        arrivals.adds_bot(self._platform, by.user, self.chat)
        if payload:
            await by.says(f"/start@{self._platform.bot.username} {payload}", group=self)

    def removes_bot(self, by: Person) -> None:
        arrivals.removes_bot(self._platform, by.user, self.chat)

    def opens_topic(self, number: int, name: str) -> None:
        """Let the group have a topic that messages can be sent into."""
        self.chat.topics[number] = name
