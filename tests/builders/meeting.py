"""Lets a test meet a stand-in on a played clock, with the client library's own Bot as the bot.

@meeting()
async def test_something(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    await at.bot.send_message(mira.id, "Hello")
"""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from telegram import Bot

from bot.chat.transport import Transport, open_bot
from scenarios.clock import PlayedClock
from scenarios.player import Person
from scenarios.standin import StandIn

MONDAY_NOON = datetime(2026, 1, 5, 12, tzinfo=UTC)


@dataclass
class Meeting:
    """What a test works with."""

    standin: StandIn
    bot: Bot
    transport: Transport
    clock: PlayedClock

    async def newcomer(self, first_name: str, **about: Any) -> Person:
        """A person who has pressed Start, with that update taken."""
        person = self.standin.person(first_name, **about)
        await person.starts()
        await self.take_all()
        return person

    async def take_all(self, **how: Any) -> list[Any]:
        """Fetch and confirm what waits, as the library's own objects."""
        taken: list[Any] = []
        while updates := await self.bot.get_updates(offset=taken[-1].update_id + 1 if taken else None, **how):
            taken.extend(updates)
        return taken

    async def ask(self, method: str, **fields: Any) -> Any:
        """Call a method with bare form fields; returns the whole answer."""
        import json

        url = f"{self.standin.url}/bot{self.standin.token}/{method}"
        _, body = await self.transport.exchange(url, "POST", {name: str(value) for name, value in fields.items()})
        return json.loads(body)


def meeting(**how: Any) -> Callable[[Callable[..., Awaitable[None]]], Callable[[], None]]:
    """Turn an async test into one that pytest calls; `how` goes to the stand-in."""

    def around(test: Callable[..., Awaitable[None]]) -> Callable[[], None]:
        def run() -> None:
            asyncio.run(_meet(test, how))

        run.__name__, run.__doc__ = test.__name__, test.__doc__
        return run

    return around


async def _meet(test: Callable[..., Awaitable[None]], how: dict[str, Any]) -> None:
    clock = PlayedClock(MONDAY_NOON)
    async with StandIn(clock, **how) as standin:
        transport = Transport()
        async with open_bot(standin.token, standin.url, transport) as bot:
            await test(Meeting(standin, bot, transport, clock))
