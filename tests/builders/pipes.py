"""Parts of the pipes on a real database and a played clock, for tests that drive one of them alone."""

from __future__ import annotations

import asyncio
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from bot.clock.pace import Limits, Pace
from bot.clock.sender import Sender
from bot.coaching.ports import Outcome, Sent
from scenarios.clock import PlayedClock
from storage.engine import Engines, open_engines, sqlite_url
from storage.migrations import migrate
from storage.outbox import OutboxRow
from storage.unit_of_work import UnitOfWork

NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)


def fresh_engines(folder: Path) -> Engines:
    """A migrated database file of its own."""
    engines = open_engines(sqlite_url(folder / "companion.sqlite3"))
    migrate(engines.write)
    return engines


async def at_once(work: Callable[..., Any], *given: Any) -> Any:
    """Stands for the database's thread: runs the work here and now."""
    return work(*given)


@dataclass
class NoHooks:
    """Hooks for a sender that nobody listens to."""

    on_sent: Any = None
    on_unreachable: Any = None
    on_moved: Any = None


class ScriptedMessenger:
    """Notes what is to be delivered and when, and answers by script: first the chat's, else Sent."""

    def __init__(self, clock: PlayedClock) -> None:
        self._clock = clock
        self.delivered: list[tuple[float, int, Any]] = []  # (seconds since noon, chat, fields["n"])
        self.script: dict[int, deque[Outcome]] = {}
        self.gate: asyncio.Event | None = None  # set: deliveries wait for it
        self._message_id = 0

    def will(self, chat_id: int, *outcomes: Outcome) -> None:
        self.script.setdefault(chat_id, deque()).extend(outcomes)

    async def deliver(self, row: Any) -> Outcome:
        self.delivered.append((round((self._clock.now() - NOON).total_seconds(), 3), row.chat_id, row.fields.get("n")))
        if self.gate is not None:
            await self.gate.wait()
        planned = self.script.get(row.chat_id)
        self._message_id += 1
        return planned.popleft() if planned else Sent({"message_id": self._message_id})


@dataclass
class SenderRig:
    """A sender on a real outbox."""

    engines: Engines
    limits: Limits | None = None
    hooks: Any = field(default_factory=NoHooks)
    clock: PlayedClock = field(default_factory=lambda: PlayedClock(NOON))

    def __post_init__(self) -> None:
        self.messenger = ScriptedMessenger(self.clock)
        self.sender = self.new_sender()
        self.task: asyncio.Task[None] | None = None

    def new_sender(self) -> Sender:
        return Sender(
            open_uow=self.open_uow,
            in_database=at_once,
            messenger=self.messenger,
            clock=self.clock,
            pace=Pace(self.limits),
            hooks=self.hooks,
        )

    def open_uow(self) -> UnitOfWork:
        return UnitOfWork(self.engines, self.clock.now, on_taken_back=lambda: self.sender.look_through())

    def put(self, chat_id: int, n: Any, **how: Any) -> int:
        with self.open_uow() as uow:
            row_id = uow.outbox.put(chat_id, "x", {"n": n}, **how)
            uow.commit()
        self.sender.wake()
        return row_id

    def row(self, row_id: int) -> OutboxRow:
        with UnitOfWork(self.engines, self.clock.now, reads=True) as uow:
            row = uow.outbox.get(row_id)
        assert row is not None
        return row

    async def quiet(self) -> None:
        """Let the sender do all that it can do at this moment."""
        if self.task is None:
            self.task = asyncio.create_task(self.sender.run())
        for _ in range(2_000):
            await asyncio.sleep(0)
            if self.sender.is_idle():
                return
        raise AssertionError("the sender does not come to rest")

    async def live(self, seconds: float) -> None:
        """Let so many seconds pass, each send at its own moment."""
        end = self.clock.now().timestamp() + seconds
        await self.quiet()
        while (moment := self.sender.next_at()) is not None and moment.timestamp() <= end:
            await self.clock.advance_to(moment)
            await self.quiet()
        await self.clock.advance_to(datetime.fromtimestamp(end, UTC))
        await self.quiet()

    async def end(self) -> None:
        await self.sender.stop()
        if self.task is not None:
            await self.task
        self.engines.close()
