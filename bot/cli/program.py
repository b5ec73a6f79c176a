"""How do the parts make one program? Here the edges meet: settings, clock, database, platform, and the hooks of chat.

    program = Program(settings, clock, hooks)
    await program.start()      # migrates, checks the token, opens the lanes, the sender and the intake
    ...
    await program.stop()       # takes nothing more, ends what is in hand; seconds at most

For players and tests with a clock of their own: `settle()` and `live_until(moment)`.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Callable, Collection, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Any, TypeVar

from telegram import Update
from telegram.error import InvalidToken, TelegramError

from bot.chat.intake import LONG_POLL_S, Intake, TokenRefused
from bot.chat.lanes import Handle, Lanes
from bot.chat.messenger import Messenger, Render
from bot.chat.outgoing import Outgoing
from bot.chat.transport import Transport, open_bot
from bot.chat.webhook import WebServer, announce, make_app, take_back
from bot.clock.pace import Limits, Pace
from bot.clock.sender import Sender
from bot.clock.sweep import Deed, Foresee, Sweep, Swept
from bot.coaching.faults import where
from bot.coaching.ports import Clock, InboxRow, OutboxRow
from bot.settings import Settings
from storage.engine import Engines, open_engines, try_to_lead
from storage.migrations import migrate
from storage.unit_of_work import UnitOfWork, is_storage_trouble

if TYPE_CHECKING:
    from aiohttp import web

LOG = logging.getLogger(__name__)
T = TypeVar("T")
SWEEP_EVERY_S = 5
LOOK_EVERY_TICKS = 12  # a minute: what another program has taken back in, or put there, comes without a sign
LOOK_EVERY_S = 1.0
STOP_WITHIN_S = 8.0
HOUSEKEEPING_EVERY = timedelta(hours=24)
SWEEPS_AT_MOST = 300  # of settling at one moment; more means that something goes round in circles


@dataclass
class Hooks:
    """What chat and coaching plug in. All but on_start's lines run inside the transaction that they are given.

    handle: the deed for an update. render: a row's message. deeds: what runs when a due row's time has come, by kind; missed: what runs
    in the place of one that came too late or was given up; foresee: reads ahead for many rows of a kind.
    on_start: returns lines for the operator's terminal. on_bot: told the bot's own name and id once the platform has said it.
    instead: what stands in for a message of a kind that cannot be rendered or is refused. wants_file: the id of a file that `handle` needs, or None. heavy: kinds of messages whose rendering takes long.
    routes: further paths of the web server. unit_of_work: the class with the domain's repositories on it.
    """

    handle: Handle
    render: Render
    deeds: Mapping[str, Deed] = field(default_factory=dict)
    missed: Mapping[str, Deed] = field(default_factory=dict)
    foresee: Mapping[str, Foresee] = field(default_factory=dict)
    on_start: Callable[[Any, datetime], Sequence[str]] | None = None
    on_bot: Callable[[str, int], None] | None = None
    on_sent: Callable[[Any, OutboxRow, dict[str, Any]], None] | None = None
    on_unreachable: Callable[[Any, int], None] | None = None
    on_moved: Callable[[Any, int, int], None] | None = None
    on_parked: Callable[[Any, InboxRow, datetime, str], None] | None = None
    instead: Callable[[str], Outgoing] | None = None
    wants_file: Callable[[Update], str | None] | None = None
    heavy: Collection[str] = ()
    routes: Callable[[Program], Sequence[web.RouteDef]] | None = None
    unit_of_work: type[UnitOfWork] = UnitOfWork


class Program:
    """The whole companion.

    For players of time, who wait for each act anyway: ticking False leaves the sweep to them, and in_loop True does the database's
    work in the loop itself instead of a thread beside it.
    """

    def __init__(
        self,
        settings: Settings,
        clock: Clock,
        hooks: Hooks,
        *,
        ticking: bool = True,
        in_loop: bool = False,
        limits: Limits | None = None,
    ) -> None:
        self.settings, self.clock, self.hooks, self._ticking, self._in_loop = settings, clock, hooks, ticking, in_loop
        self.engines: Engines = open_engines(settings.database)
        # SQLite has one writer: one thread makes everybody take turns without waiting for a lock.
        self._threads = ThreadPoolExecutor(1 if self.engines.is_sqlite else 8, thread_name_prefix="database")
        self.transport = Transport()
        self.bot = open_bot(settings.token.get_secret_value(), settings.base_url, self.transport)
        messenger = Messenger(self.bot, hooks.render, heavy=hooks.heavy, instead=hooks.instead)
        self.sender = Sender(
            open_uow=self.open_uow, in_database=self.in_database, messenger=messenger, clock=clock,
            pace=Pace(limits or Limits(all_per_s=settings.sends_per_s, others_per_s=0.8 * settings.sends_per_s)), hooks=hooks,
        )  # fmt: skip
        self.lanes = Lanes(
            open_uow=self.open_uow, in_database=self.in_database, is_trouble=is_storage_trouble, bot=self.bot, hooks=hooks,
            clock=clock, workers=1 if self.engines.is_sqlite else 4,
        )  # fmt: skip
        self.sweep = Sweep(
            open_uow=self.open_uow,
            in_database=self.in_database,
            deeds=hooks.deeds,
            missed=hooks.missed,
            foresee=hooks.foresee,
            clock=clock,
            alone=self.engines.is_sqlite,
        )
        self.web: WebServer | None = None
        self.web_port = 0
        self._tasks: list[asyncio.Task[Any]] = []
        self._intake_task: asyncio.Task[Any] | None = None
        self._scheduler: Any = None
        self._loop: asyncio.AbstractEventLoop | None = None
        self._housekept_at: datetime | None = None
        self._storing, self._ticks = 0, 0
        self._lead: Any = None
        self._looking: asyncio.Task[Any] | None = None

    # The database

    def open_uow(self, *, reads: bool = False) -> UnitOfWork:
        """A unit of work; the sender hears of what it queues once it is committed."""
        return self.hooks.unit_of_work(
            self.engines, self.clock.now, reads=reads, on_queued=self._tell_sender, on_taken_back=self._tell_taken_back,
            on_planned=lambda at: self.sweep.planned(at),
        )  # fmt: skip

    async def in_database(self, work: Callable[..., T], *given: Any) -> T:
        """Run blocking database work in the database's thread."""
        if self._in_loop:
            return work(*given)
        return await asyncio.get_running_loop().run_in_executor(self._threads, work, *given)

    def _tell_sender(self, rows: Sequence[OutboxRow]) -> None:
        self._tell(self.sender.hand, rows)

    def _tell_taken_back(self) -> None:
        self._tell(self.sender.look_through)

    def _tell(self, part: Callable[..., None], *given: Any) -> None:
        """Tell a part of the loop, from whichever thread."""
        if self._in_loop:
            part(*given)
        elif self._loop is not None and not self._loop.is_closed():
            self._loop.call_soon_threadsafe(part, *given)

    async def store(self, updates: Sequence[Any]) -> int:
        """Keep raw updates and let the lanes know; returns how many are new."""

        def store() -> list[InboxRow]:
            with self.open_uow() as uow:
                new = uow.inbox.store(updates)
                uow.commit()
                return list(new)

        self._storing += 1
        try:
            new = await self.in_database(store)
            self.lanes.hand(new)
        finally:
            self._storing -= 1
        return len(new)

    # Starting and stopping

    async def start(self) -> list[str]:
        """Start everything; returns lines for the operator's terminal.

        Raises:
            NewerDatabase: a newer version has written the database.
            TokenRefused: the platform does not know the token.
        """
        self._loop = asyncio.get_running_loop()
        await self.in_database(migrate, self.engines.write)
        await self.transport.initialize()
        await self._meet_platform()
        lines = await self.in_database(self._first_deed)
        self._tasks = [asyncio.create_task(self.lanes.run()), asyncio.create_task(self._send())]
        await self._open_web()
        self._intake_task = asyncio.create_task(self._take_in())
        if self._ticking:
            self._start_ticking()
        LOG.info("started mode=%s", self.settings.mode)
        if not _is_known(self.bot):
            lines.append(f"{self.settings.base_url} is not reached: is this machine online? The companion goes on trying.")
        return lines

    async def wait(self) -> None:
        """Come back when a part that should run for ever has ended, with its error.

        Raises:
            TokenRefused: the platform does not know the token any more.
        """
        intake = self._intake_task
        assert intake is not None
        running = (
            {*self._tasks}
            if self.settings.mode == "webhook" and intake.done() and not intake.exception()
            else {*self._tasks, intake}
        )
        while running:
            done, running = await asyncio.wait(running, return_when=asyncio.FIRST_COMPLETED)
            for task in done:
                task.result()
                if task is not intake:
                    return

    async def stop(self) -> None:
        """Take nothing more, end what is in hand, close everything."""
        if self._scheduler is not None:
            self._scheduler.shutdown(wait=False)
        if self._intake_task is not None:
            self._intake_task.cancel()
            with suppress(asyncio.CancelledError, Exception):
                await self._intake_task
        if self.web is not None:
            await self.web.stop()
        await self.lanes.stop()
        await self.sender.stop()
        if self._tasks:
            _, waiting = await asyncio.wait(self._tasks, timeout=STOP_WITHIN_S)
            for task in waiting:
                task.cancel()
            await asyncio.gather(*self._tasks, return_exceptions=True)
        if self._looking is not None:
            self._looking.cancel()
        if self._lead is not None:
            self._lead.close()
        await self.transport.shutdown()
        await asyncio.get_running_loop().run_in_executor(None, self._threads.shutdown)
        self.engines.close()
        LOG.info("stopped")

    async def _send(self) -> None:
        """Send as the one sender of this database; where several programs share it, the others stand by."""
        if not self.engines.is_sqlite:
            self._lead = await self.in_database(try_to_lead, self.engines)
            while self._lead is None:
                await self.clock.sleep(LOOK_EVERY_S)
                self._lead = await self.in_database(try_to_lead, self.engines)
            self._looking = asyncio.create_task(self._look_for_others())
        await self.sender.run()

    async def _look_for_others(self) -> None:
        """Other programs' rows come without a sign: look for them every second."""
        while True:
            await self.clock.sleep(LOOK_EVERY_S)
            self.sender.wake()
            self.lanes.wake()

    def _first_deed(self) -> list[str]:
        if self.hooks.on_start is None:
            return []
        with self.open_uow() as uow:
            lines = list(self.hooks.on_start(uow, self.clock.now()))
            uow.commit()
            return lines

    async def _meet_platform(self) -> None:
        """Ask the platform who this bot is. Without a network the program starts all the same, and works when it comes."""
        try:
            await self.bot.initialize()
        except InvalidToken:
            raise TokenRefused from None
        except TelegramError as error:
            LOG.warning("platform_not_reached cause=%r", error.message)
            return
        if self.hooks.on_bot is not None:
            self.hooks.on_bot(self.bot.username, self.bot.id)

    async def _meet_later(self) -> None:
        pause = 1.0
        while not _is_known(self.bot):
            await self.clock.sleep(pause)
            pause = min(2 * pause, 60.0)
            await self._meet_platform()

    async def _open_web(self) -> None:
        takes_pushes = self.settings.mode == "webhook"
        routes = list(self.hooks.routes(self)) if self.hooks.routes is not None else []
        if not (takes_pushes or self.settings.port):
            return
        app = make_app(
            store=self.store,
            is_healthy=lambda: all(not task.done() for task in self._tasks),
            secret=self.settings.secret.get_secret_value() if takes_pushes else None,
            routes=routes,
        )
        self.web = WebServer(app, host=self.settings.web_host, port=self.settings.port)
        self.web_port = await self.web.start()

    async def _take_in(self) -> None:
        await self._meet_later()
        if self.settings.mode == "webhook":
            secret = self.settings.secret.get_secret_value()
            await announce(self.bot, public_url=self.settings.public_url, secret=secret, clock=self.clock)
            return
        await take_back(self.bot, clock=self.clock)
        root = self.settings.base_url.rstrip("/")
        url = f"{root}/bot{self.settings.token.get_secret_value()}/getUpdates"
        await Intake(
            exchange=self.transport.exchange, method_url=url, store=self.store, clock=self.clock, long_poll_s=LONG_POLL_S
        ).run()

    # The sweep

    def _start_ticking(self) -> None:
        from apscheduler.schedulers.asyncio import AsyncIOScheduler
        from apscheduler.triggers.interval import IntervalTrigger

        self._scheduler = AsyncIOScheduler(timezone="UTC")
        # Late is late, but done, and once: the library's own grace of a second drops what it was too busy for.
        self._scheduler.add_job(
            self._tick,
            IntervalTrigger(seconds=SWEEP_EVERY_S, timezone="UTC"),
            misfire_grace_time=None,
            coalesce=True,
            max_instances=1,
        )
        self._scheduler.start()

    async def _tick(self) -> None:
        self._ticks += 1
        if self._ticks % LOOK_EVERY_TICKS == 0:
            self.lanes.wake()
        try:
            await self.sweep_once()
        except Exception as error:
            LOG.warning("sweep_failed cause=%r", where(error))

    async def sweep_once(self) -> Swept:
        """Do all that is due at this moment, and once a day forget what is long done."""
        swept = await self.sweep.once()
        now = self.clock.now()
        if self._housekept_at is None or now - self._housekept_at >= HOUSEKEEPING_EVERY:
            self._housekept_at = now
            await self.in_database(self._keep_house, now)
        return swept

    def _keep_house(self, now: datetime) -> None:
        with self.open_uow() as uow:
            counts = uow.inbox.forget_done(now), uow.outbox.forget_finished(now), uow.due.forget_finished(now)
            uow.commit()
        if any(counts):
            LOG.info("housekeeping inbox=%d outbox=%d due=%d", *counts)

    # For players and tests, whose clock moves only when told

    def is_idle(self) -> bool:
        """Nothing is being stored, handled, swept or sent at this moment, and nothing could be sent."""
        return not self._storing and self.lanes.is_idle() and not self.sweep.is_busy and self.sender.is_idle()

    async def settle(self, *, within_s: float = 600.0) -> None:
        """Come back when the inbox is empty, the lanes are idle, nothing is due and nothing waits to be sent.

        A clock that can be moved (`advance_to`) is moved on as far as the sends' pacing needs, at most `within_s` seconds.

        Raises:
            RuntimeError: it does not settle.
        """
        until = self.clock.now() + timedelta(seconds=within_s)
        sweeps = 0
        while sweeps < SWEEPS_AT_MOST:
            await self._quiet()
            if (await self.sweep_once()).total:
                sweeps += 1
                continue
            sweeps = 0
            await self._quiet()
            moment = self.sender.next_paced_at()
            if moment is None or moment > until or not hasattr(self.clock, "advance_to"):
                return
            await self.clock.advance_to(moment)
        raise RuntimeError("the program does not settle: what is due keeps planning more that is due at once")

    async def live_until(self, moment: datetime) -> None:
        """Move the clock on to a moment, doing on the way all that becomes due, each thing at its own time."""
        advance_to = getattr(self.clock, "advance_to")  # noqa: B009  (only a played clock has it)
        await self.settle()
        while True:
            first = await self.next_moment()
            if first is None or first > moment:
                break
            await advance_to(max(first, self.clock.now()))
            await self.settle()
        await advance_to(moment)
        await self.settle()

    async def next_moment(self) -> datetime | None:
        """When the next thing is due or may be sent; None when nothing is planned."""
        moments = [m for m in (await self.sweep.next_at(), self.sender.next_at()) if m is not None]
        return min(moments) if moments else None

    async def _quiet(self) -> None:
        rounds = 0
        while not self.is_idle():
            for task in self._tasks:
                if task.done():
                    task.result()
                    raise RuntimeError("a part of the program has ended")
            rounds += 1
            # A real, short pause: what is waited for happens in another thread or on a socket.
            await asyncio.sleep(0 if rounds < 50 else 0.001)


def _is_known(bot: Any) -> bool:
    """Has the platform said who this bot is?"""
    try:
        return bool(bot.id)
    except RuntimeError:
        return False
