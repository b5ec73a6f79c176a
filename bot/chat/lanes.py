"""In which order are updates handled, and what if one fails? One chat in order of arrival, chats side by side.

One update: a press is answered at once and outside; the update is decoded; a file that the deed needs is fetched; then the deed,
its replies and "done" are one transaction in the database's thread, with no call over the network inside.

| what goes wrong | what follows |
|---|---|
| it cannot be decoded | parked at once, with the reason |
| the deed fails | tried again, three times in all, then parked; the deed that hears of it may tell the person |
| the database is in trouble | tried again for ever, after growing pauses; the update is not to blame |
| the file does not come | tried again after pauses; then the deed runs and is told so |
| the program is killed | what was not done is handled at the next start, once |
| the deed itself ends the program | what waits at a start counts its tries on disk before them, alone; after three it is parked |
"""

from __future__ import annotations

import asyncio
import json
import logging
import time
from collections import deque
from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Protocol

from telegram import Bot, Update
from telegram.error import InvalidToken, TelegramError

from bot.coaching.faults import where
from bot.coaching.pauses import growing_pause_s
from bot.coaching.ports import Clock, InboxRow, Queues, UnitOfWorkFactory

LOG = logging.getLogger(__name__)
LOOK_AT_MOST = 200
MAX_TRIES = 3
LIVED_S = 10.0  # a program is killed from outside as well, again and again: the last try is made when it has lived for a while
FILE_TRIES = 4
STOP_WITHIN_S = 5.0
SHARE_AT_MOST = 32
SHARE_FOR_S = 0.02  # then what is done is committed, so that nobody waits long for a crowd
MAX_FILE_BYTES = 20 * 1024 * 1024  # what the platform's public server hands out


@dataclass(frozen=True)
class IncomingFile:
    """A file that came with an update: its content, or a problem: "too big" or "not fetched"."""

    content: bytes = b""
    problem: str = ""


class Handle(Protocol):
    """The deed for an update; runs inside the transaction. `file` is given where `wants_file` asked for one."""

    def __call__(
        self, update: Update, raw: dict[str, Any], uow: Any, now: datetime, *, file: IncomingFile | None = None
    ) -> None: ...


class LaneHooks(Protocol):
    """What lanes ask of the rest of chat."""

    handle: Handle
    wants_file: Callable[[Update], str | None] | None  # gives the file's id
    on_parked: Callable[[Any, InboxRow, datetime, str], None] | None
    on_moved: Callable[[Any, int, int], None] | None


@dataclass
class Job:
    """An update on its way through the database's thread; `end` is told what became of it."""

    row: InboxRow
    update: Update
    raw: dict[str, Any]
    file: IncomingFile | None
    end: asyncio.Future[bool] | None = None
    counts: bool = False  # its try is to be on disk before it begins


class Unreadable(ValueError):
    """An update that is not one."""


class Lanes:
    """Run with `run()`; tell it of news with `hand()` or `wake()`, from the loop's own thread."""

    def __init__(
        self,
        *,
        open_uow: UnitOfWorkFactory,
        in_database: Callable[..., Awaitable[Any]],
        is_trouble: Callable[[BaseException], bool],
        bot: Bot,
        hooks: LaneHooks,
        clock: Clock,
        workers: int = 1,
    ) -> None:
        self._jobs: deque[Job] = deque()
        self._workers, self._most_workers = 0, workers
        self._working: set[asyncio.Task[None]] = set()
        self._open_uow, self._in_database, self._is_trouble = open_uow, in_database, is_trouble
        self._bot, self._hooks, self._clock = bot, hooks, clock
        self._lanes: dict[int, deque[InboxRow]] = {}
        self._held: set[int] = set()
        self._tasks: set[asyncio.Task[None]] = set()
        self._answering: set[asyncio.Task[None]] = set()
        self._event = asyncio.Event()
        self._news, self._looking, self._left_behind, self._stopping = True, False, False, False
        self._last_before: int | None = None  # the newest row that was there when this program started

    def wake(self) -> None:
        """There may be new updates."""
        self._news = True
        self._event.set()

    def hand(self, rows: Sequence[InboxRow]) -> None:
        """Give it new rows just stored, so that it need not look for them; where older ones may wait in the table it looks."""
        if self._news or self._looking or self._left_behind or self._stopping or len(self._held) + len(rows) > LOOK_AT_MOST:
            self.wake()
        else:
            self._line_up(rows)

    def is_idle(self) -> bool:
        return not (self._tasks or self._held or self._news or self._looking)

    async def run(self) -> None:
        """Handle updates until `stop`."""
        while not self._stopping:
            await self._event.wait() if not self._news else None
            self._event.clear()
            if not self._news or self._stopping:
                continue
            self._news, self._looking = False, True
            try:
                await self._look()
            except Exception as error:
                LOG.warning("inbox_database_trouble cause=%s", type(error).__name__)
                self._news = True
                await self._clock.sleep(1.0)
            self._looking = False

    async def stop(self) -> None:
        """Take no more; ends when what is being handled is done, or has been waiting for something for too long."""
        self._stopping = True
        self._event.set()
        busy = self._tasks | self._answering
        if busy:
            _, waiting = await asyncio.wait(busy, timeout=STOP_WITHIN_S)
            for task in waiting:
                task.cancel()

    async def _look(self) -> None:
        def look() -> list[InboxRow]:
            with self._open_uow() as uow:
                if self._last_before is None:
                    self._last_before = uow.inbox.last_id()
                return list(uow.inbox.waiting(held=self._held, limit=LOOK_AT_MOST))

        room = LOOK_AT_MOST * 2 - len(self._held)
        rows = await self._in_database(look) if room > 0 else []
        self._line_up(rows)
        if len(rows) == LOOK_AT_MOST or room <= 0:
            self._left_behind = True

    def _line_up(self, rows: Sequence[InboxRow]) -> None:
        for row in rows:
            self._held.add(row.id)
            lane_key = row.chat_id if row.chat_id is not None else 0
            if lane_key in self._lanes:
                self._lanes[lane_key].append(row)
            else:
                self._lanes[lane_key] = deque([row])
                task = asyncio.create_task(self._serve(lane_key))
                self._tasks.add(task)
                task.add_done_callback(self._tasks.discard)

    async def _serve(self, lane_key: int) -> None:
        """Handle one chat's updates one after the other, as long as there are any."""
        lane = self._lanes[lane_key]
        try:
            while lane and not self._stopping:
                try:
                    await self._handle(lane[0])
                except Exception as error:  # the database failed while a failure was being written down
                    LOG.error("inbox_lane_failed row=%s cause=%r", lane[0].id, where(error))
                    await self._clock.sleep(1.0)
                    continue
                self._held.discard(lane.popleft().id)
        finally:
            self._held.difference_update(row.id for row in lane)
            del self._lanes[lane_key]
            if self._left_behind and len(self._held) < LOOK_AT_MOST:
                self._left_behind = False
                self.wake()

    async def _handle(self, row: InboxRow) -> None:
        try:
            raw = cleaned(row.body)
            update = decoded(raw, self._bot)
        except Unreadable as problem:
            await self._park(row, f"unreadable: {problem}")
            return
        if update.callback_query is not None:
            self._answer(update)
        file = await self._fetch_file(update)
        tries, trouble, is_counted = row.attempts, 0, False
        from_before = row.id <= (self._last_before or 0)
        while not self._stopping:
            if from_before and tries >= MAX_TRIES and not is_counted:
                await self._park(row, f"ended the program: {tries} starts ended while it was handled")
                return
            if from_before and tries == MAX_TRIES - 1 and not is_counted:
                await self._clock.sleep(LIVED_S)
            job = Job(row, update, raw, file, counts=from_before and not is_counted)
            try:
                taken = await self._do(job)
                if not taken:  # another program has it, or an older one of this chat
                    LOG.info("inbox_left_to_another row=%s", row.id)
                return
            except Exception as error:
                is_counted = from_before and not job.counts
                if self._is_trouble(error):
                    trouble += 1
                    pause = growing_pause_s(trouble, first_s=1.0, most_s=30.0)
                    LOG.warning("inbox_database_trouble row=%s cause=%s next_in_s=%.0f", row.id, type(error).__name__, pause)
                    await self._clock.sleep(pause)
                    continue
                tries += 1
                LOG.error("inbox_deed_failed row=%s attempt=%d cause=%r", row.id, tries, where(error))
                reason = f"{type(error).__name__}: {error}"
                if tries >= MAX_TRIES:
                    await self._park(row, reason)
                    return
                if not is_counted:
                    await self._in_database(self._count_failure, row, reason)
                is_counted = False

    async def _do(self, job: Job) -> bool:
        """Have a job done in the database's thread; jobs of other chats that come meanwhile share the next transaction.

        Each chat has one job at a time here, so that sharing changes no order.
        """
        if job.counts:
            ((_, result),) = await self._in_database(self._alone, job)
            if isinstance(result, BaseException):
                raise result
            return result
        job.end = asyncio.get_running_loop().create_future()
        self._jobs.append(job)
        if self._workers < self._most_workers:
            self._workers += 1
            task = asyncio.create_task(self._work())
            self._working.add(task)
            task.add_done_callback(self._working.discard)
        return await job.end

    async def _work(self) -> None:
        try:
            while self._jobs:
                ended = await self._in_database(self._transact, self._jobs)
                for job, result in ended:
                    if job.end is None or job.end.done():
                        continue
                    if isinstance(result, BaseException):
                        job.end.set_exception(result)
                    else:
                        job.end.set_result(result)
        finally:
            self._workers -= 1

    def _alone(self, job: Job) -> list[tuple[Job, bool | BaseException]]:
        """Runs in the database's thread: note on disk that this one is tried, then try it, and nothing beside it.

        It was there when the program started, so it may be what ended the one before; those beside it must not be blamed.
        """
        try:
            with self._open_uow() as uow:
                if not uow.inbox.count_try(job.row.id):
                    return [(job, False)]
                uow.commit()
        except Exception as error:
            return [(job, error)]
        job.counts = False
        return self._transact(deque([job]))

    def _transact(self, jobs: deque[Job]) -> list[tuple[Job, bool | BaseException]]:
        """Runs in the database's thread: the deeds, their replies and "done" become real together, or each undone alone.

        A sync to disk costs more than most deeds, so that a crowd shares one; a single job pays for nothing but itself.
        """
        now = self._clock.now()
        begun = time.perf_counter()
        ended: list[tuple[Job, bool | BaseException]] = []
        mine: list[Job] = []
        try:
            with self._open_uow() as uow:
                while jobs and len(mine) < SHARE_AT_MOST and time.perf_counter() - begun < SHARE_FOR_S:
                    try:
                        job = jobs.popleft()
                    except IndexError:  # another thread was faster
                        break
                    mine.append(job)
                    if len(mine) == 1 and not jobs:  # alone it needs no savepoint: the transaction is its own
                        ended.append((job, self._deed(uow, job, now)))
                        break
                    try:
                        with uow.savepoint():
                            ended.append((job, self._deed(uow, job, now)))
                    except Exception as error:
                        if self._is_trouble(error):
                            raise
                        ended.append((job, error))
                uow.commit()
        except Exception as error:  # nothing of it is real
            return [(job, error) for job in mine]
        return ended

    def _deed(self, uow: Any, job: Job, now: datetime) -> bool:
        if not uow.inbox.take(job.row.id):
            return False
        self._note_move(uow, job.update)
        if job.file is None:
            self._hooks.handle(job.update, job.raw, uow, now)
        else:
            self._hooks.handle(job.update, job.raw, uow, now, file=job.file)
        uow.inbox.done(job.row.id, now)
        return True

    def _note_move(self, uow: Queues, update: Update) -> None:
        message = update.message
        if message is not None and message.migrate_to_chat_id:
            uow.rewrite_chat_id(message.chat.id, message.migrate_to_chat_id)
            if self._hooks.on_moved is not None:
                self._hooks.on_moved(uow, message.chat.id, message.migrate_to_chat_id)

    async def _park(self, row: InboxRow, reason: str) -> None:
        def park() -> None:
            now = self._clock.now()
            with self._open_uow() as uow:
                uow.inbox.park(row.id, now, reason)
                if self._hooks.on_parked is not None:
                    try:
                        with uow.savepoint():
                            self._hooks.on_parked(uow, row, now, reason)
                    except Exception as error:
                        LOG.error("inbox_hook_failed row=%s cause=%r", row.id, where(error))
                uow.commit()

        LOG.error("inbox_parked row=%s kind=%s", row.id, reason.split(":")[0])
        await self._in_database(park)

    def _count_failure(self, row: InboxRow, reason: str) -> None:
        with self._open_uow() as uow:
            uow.inbox.failed(row.id, reason)
            uow.commit()

    def _answer(self, update: Update) -> None:
        """Let the button stop turning; whether that works says nothing about the deed."""
        query = update.callback_query
        assert query is not None

        async def answer() -> None:
            try:
                await self._bot.answer_callback_query(query.id)
            except TelegramError as error:  # too old, most often: pressed while the program was away
                LOG.info("press_not_answered cause=%r", error.message)

        task = asyncio.create_task(answer())
        self._answering.add(task)
        task.add_done_callback(self._answering.discard)

    async def _fetch_file(self, update: Update) -> IncomingFile | None:
        file_id = self._hooks.wants_file(update) if self._hooks.wants_file is not None else None
        if file_id is None:
            return None
        for tries in range(1, FILE_TRIES + 1):
            try:
                found = await self._bot.get_file(file_id)
                if (found.file_size or 0) > MAX_FILE_BYTES:
                    return IncomingFile(problem="too big")
                return IncomingFile(bytes(await found.download_as_bytearray()))
            except InvalidToken:
                break
            except TelegramError as error:
                if "too big" in error.message.lower():
                    return IncomingFile(problem="too big")
                LOG.info("file_not_fetched attempt=%d cause=%r", tries, error.message)
                if tries < FILE_TRIES:
                    await self._clock.sleep(2.0**tries)
        return IncomingFile(problem="not fetched")


def decoded(raw: Any, bot: Bot | None) -> Update:
    """The library's view of an update.

    Raises:
        Unreadable: it is none.
    """
    try:
        if not isinstance(raw, dict):
            raise TypeError("it is no object")
        update = Update.de_json(raw, bot)
    except Exception as error:
        raise Unreadable(f"{type(error).__name__}: {error}") from error
    return update


def cleaned(raw: Any) -> Any:
    """The same data with half characters and zero bytes, which nothing further on can store, shown as such."""
    try:
        json.dumps(raw, ensure_ascii=False).encode()
    except UnicodeEncodeError:
        return _mended(raw)
    return raw


def _mended(value: Any) -> Any:
    if isinstance(value, str):
        return value.encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    if isinstance(value, dict):
        return {_mended(key): _mended(item) for key, item in value.items()}
    return [_mended(item) for item in value] if isinstance(value, list) else value
