"""When does which message go out, and what follows from what became of it? One sender a database.

Problem: many messages wait, each class, chat and the whole have limits, and any send may end in seven ways.
Plan: one loop owns all state. It takes a bounded number of waiting rows into hand, starts those whose time has come (answers
first, one at a time in a chat), collects what became of them, and writes that down in one transaction with the next look.

| outcome | what follows |
|---|---|
| Sent | marked; or the next part of a long text |
| Slower | the chat waits as long as told; everything waits if it came for a weekly or bulk message; no try is counted |
| Gone | all that waits for the chat is given up, and the deed that hears of it runs in the same transaction |
| Moved | every table gets the new id in that transaction; then it is sent there |
| Unclear | sent again after a growing pause, unless it has expired meanwhile: an answer may come twice, a stale reminder never |
| NotReached | everything waits a growing while; no try is counted |
| Refused | given up, with the reason |

A crash loses nothing: rows in hand are marked only when their end is known. What was in flight is sent again.
"""

from __future__ import annotations

import asyncio
import heapq
import logging
from collections import Counter
from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from typing import Any, Protocol

from bot.clock.pace import Pace
from bot.coaching.faults import where
from bot.coaching.pauses import growing_pause_s
from bot.coaching.ports import (
    Clock,
    Gone,
    Lane,
    Moved,
    NotReached,
    OutboxRow,
    Outcome,
    Queues,
    Refused,
    Sent,
    Slower,
    Unclear,
    UnitOfWorkFactory,
)

LOG = logging.getLogger(__name__)
MAX_IN_FLIGHT = 32
LOOK_AT_MOST = 100
HOLD_ANSWERS = 128
HOLD_OTHERS = 32  # of each class; more than goes out before the next look
HOLD_A_CHAT = 20  # one chat's long queue must not crowd the others out of hand
GIVE_UP_AFTER = timedelta(hours=24)
MAX_PAUSE_S = 60.0


class Messenger(Protocol):
    """Carries one message out."""

    async def deliver(self, row: OutboxRow) -> Outcome: ...


class SenderHooks(Protocol):
    """What deeds want to hear; each runs in the transaction that writes the outcome down."""

    on_sent: Callable[[Any, OutboxRow, dict[str, Any]], None] | None
    on_unreachable: Callable[[Any, int], None] | None
    on_moved: Callable[[Any, int, int], None] | None


@dataclass(frozen=True)
class Expired:
    """Its time ran out before it was sent."""

    reason: str = "expired"


@dataclass
class _Line:
    """What is in hand for one chat, first to go first."""

    rows: list[tuple[int, int, OutboxRow]] = field(default_factory=list)
    in_flight: bool = False


class Sender:
    """Run with `run()`; tell it of news with `hand()` or `wake()`, from the loop's own thread."""

    def __init__(
        self,
        *,
        open_uow: UnitOfWorkFactory,
        in_database: Callable[..., Awaitable[Any]],
        messenger: Messenger,
        clock: Clock,
        pace: Pace,
        hooks: SenderHooks,
    ) -> None:
        self._open_uow, self._in_database, self._messenger = open_uow, in_database, messenger
        self._clock, self._pace, self._hooks = clock, pace, hooks
        self._lines: dict[int, _Line] = {}
        self._held: dict[int, int] = {}  # row id -> lane
        self._ready: list[tuple[int, int, int]] = []  # (lane, row id, chat id); stale entries are skipped
        self._later: list[tuple[float, int]] = []  # (moment, chat id)
        self._ended: list[tuple[OutboxRow, Outcome | Expired]] = []
        self._flights: set[asyncio.Task[None]] = set()
        self._news, self._left_behind, self._working, self._stopping = True, False, False, False
        self._next_ready_at: datetime | None = None
        self._unreached, self._recheck = 0, False
        self._event = asyncio.Event()
        self.counts: Counter[str] = Counter()

    # What the program needs to know

    def wake(self) -> None:
        """There may be new messages."""
        self._news = True
        self._event.set()

    def hand(self, rows: Sequence[OutboxRow]) -> None:
        """Give it new rows just committed, so that it need not look for them; where older ones may wait in the table it looks."""
        now = self._clock.now()
        ready = [row for row in rows if row.ready_at_utc is None or row.ready_at_utc <= now]
        full = len(self._held) + len(ready) > HOLD_OTHERS // 2
        if self._news or self._working or self._left_behind or self._stopping or full:
            self.wake()
            return
        later = [row.ready_at_utc for row in rows if row.ready_at_utc is not None and row.ready_at_utc > now]
        self._next_ready_at = min((moment for moment in (*later, self._next_ready_at) if moment is not None), default=None)
        self._take_in_hand(ready)
        self._event.set()

    def look_through(self) -> None:
        """What is in hand may have been taken back."""
        self._recheck = True
        self.wake()

    @property
    def in_flight(self) -> int:
        return len(self._flights)

    def is_idle(self) -> bool:
        """Nothing is being sent, and nothing could be at this moment."""
        if self._flights or self._ended or self._news or self._working:
            return False
        moment = self.next_at()
        return moment is None or moment > self._clock.now()

    def next_at(self) -> datetime | None:
        """The next moment at which a message in hand or in the table may start; None when nothing waits."""
        moments = [moment for moment, _ in self._later]
        if self._ready:
            moments.append(self._pace.all_free_at(is_answer=self._ready[0][0] == Lane.ANSWER))
        if self._next_ready_at is not None:
            moments.append(self._next_ready_at.timestamp())
        return self._first(moments)

    def next_paced_at(self) -> datetime | None:
        """The same for messages whose own moment has come, and which only the pacing holds back."""
        moments = [moment for moment, chat_id in self._later if chat_id in self._lines and self._lines[chat_id].rows]
        if self._ready:
            moments.append(self._pace.all_free_at(is_answer=self._ready[0][0] == Lane.ANSWER))
        return self._first(moments)

    @staticmethod
    def _first(moments: Sequence[float]) -> datetime | None:
        # Rounded up to the clock's own fineness: a moment cut down by a hair would be waited for without end.
        return _moment(min(moments)) if moments else None

    # The loop

    async def run(self) -> None:
        """Send until `stop`. Trouble with the database is waited out; what was sent is remembered meanwhile."""
        trouble = 0
        while not self._is_over():
            self._event.clear()
            self._working = True
            if self._next_ready_at is not None and self._next_ready_at <= self._clock.now():
                self._news = True
            if self._ended or (self._news and not self._stopping):
                try:
                    await self._write_down_and_look()
                    trouble = 0
                except Exception as error:
                    trouble += 1
                    LOG.warning("outbox_database_trouble cause=%s tries=%d", type(error).__name__, trouble)
                    self._working = False
                    await self._clock.sleep(growing_pause_s(trouble, first_s=0.4, most_s=MAX_PAUSE_S))
                    continue
            if not self._stopping:
                self._start_all_that_may()
            self._working = False
            if not (self._is_over() or self._ended or (self._news and not self._stopping)):
                await self._wait()

    async def stop(self) -> None:
        """Start nothing more; `run` ends when what is in flight has ended and is written down."""
        self._stopping = True
        self._event.set()

    def _is_over(self) -> bool:
        return self._stopping and not self._flights and not self._ended

    async def _wait(self) -> None:
        moment = None if self._stopping or self.in_flight >= MAX_IN_FLIGHT else self.next_at()
        if moment is None:
            await self._event.wait()
            return
        seconds = (moment - self._clock.now()).total_seconds()
        if seconds <= 0:
            await asyncio.sleep(0)
            return
        waits = {asyncio.ensure_future(self._event.wait()), asyncio.ensure_future(self._clock.sleep(seconds))}
        _, pending = await asyncio.wait(waits, return_when=asyncio.FIRST_COMPLETED)
        for task in pending:
            task.cancel()

    def _start_all_that_may(self) -> None:
        at = self._clock.now().timestamp()
        while self._later and self._later[0][0] <= at:
            self._offer(heapq.heappop(self._later)[1], at)
        while self._ready and self.in_flight < MAX_IN_FLIGHT:
            now = self._clock.now()  # anew each time: each start takes time, and the next one's moment may have come by then
            at = now.timestamp()
            lane, row_id, chat_id = self._ready[0]
            line = self._lines.get(chat_id)
            if line is None or line.in_flight or not line.rows or line.rows[0][1] != row_id:
                heapq.heappop(self._ready)
                continue
            if self._pace.chat_free_at(chat_id, at) > at:  # it was offered before its chat was told to wait
                heapq.heappop(self._ready)
                self._offer(chat_id, at)
                continue
            row = line.rows[0][2]
            if row.expires_at_utc is not None and row.expires_at_utc <= now:
                heapq.heappop(self._ready)
                line.in_flight = True
                self._ended.append((row, Expired()))
                continue
            if self._pace.all_free_at(is_answer=lane == Lane.ANSWER) > at:
                break
            heapq.heappop(self._ready)
            line.in_flight = True
            self._pace.started(chat_id, at, is_answer=lane == Lane.ANSWER)
            task = asyncio.create_task(self._fly(row))
            self._flights.add(task)

    async def _fly(self, row: OutboxRow) -> None:
        try:
            outcome = await self._messenger.deliver(row)
        except Exception as error:  # a fault of ours must neither stop the sender nor lose the row
            LOG.error("outbox_send_failed message=%s cause=%r", row.id, where(error))
            outcome = Unclear(f"{type(error).__name__}: {error}")
        self._ended.append((row, outcome))
        task = asyncio.current_task()
        if task is not None:
            self._flights.discard(task)
        self._event.set()

    # Lines in hand

    def _take_in_hand(self, rows: Sequence[OutboxRow]) -> None:
        at = self._clock.now().timestamp()
        for row in rows:
            line = self._lines.setdefault(row.chat_id, _Line())
            heapq.heappush(line.rows, (row.lane, row.id, row))
            self._held[row.id] = row.lane
        for chat_id in {row.chat_id for row in rows}:
            self._offer(chat_id, at)

    def _offer(self, chat_id: int, at: float) -> None:
        """Put a chat's first row where it will be found: among those that may go, or among those whose time comes."""
        line = self._lines.get(chat_id)
        if line is None or line.in_flight:
            return
        if not line.rows:
            del self._lines[chat_id]
            return
        free_at = self._pace.chat_free_at(chat_id, at)
        if free_at > at:
            heapq.heappush(self._later, (free_at, chat_id))
        else:
            lane, row_id, _ = line.rows[0]
            heapq.heappush(self._ready, (lane, row_id, chat_id))

    def _let_go(self, row: OutboxRow, *, again: OutboxRow | None = None) -> None:
        """A row has come back: out of hand, or `again` in its place."""
        line = self._lines[row.chat_id]
        line.in_flight = False
        line.rows = [entry for entry in line.rows if entry[1] != row.id]
        heapq.heapify(line.rows)
        if again is not None:
            heapq.heappush(line.rows, (again.lane, again.id, again))
        else:
            self._held.pop(row.id, None)
        self._offer(row.chat_id, self._clock.now().timestamp())

    def _let_chat_go(self, chat_id: int) -> None:
        line = self._lines.pop(chat_id, _Line())
        for _, row_id, _ in line.rows:
            self._held.pop(row_id, None)

    def _forget(self, gone: set[int]) -> None:
        """Drop what was taken back, except what is in flight: that has left already."""
        if not gone:
            return
        at = self._clock.now().timestamp()
        for chat_id, line in list(self._lines.items()):
            dropped = {row_id for _, row_id, _ in line.rows if row_id in gone}
            if dropped and not line.in_flight:
                line.rows = [entry for entry in line.rows if entry[1] not in dropped]
                heapq.heapify(line.rows)
                for row_id in dropped:
                    self._held.pop(row_id, None)
                self._offer(chat_id, at)
            elif dropped:
                self._recheck = True  # looked through again when the one in flight is down

    # The database

    async def _write_down_and_look(self) -> None:
        # What was queued here was handed over, so that most often nothing is to be looked for when a message has gone out.
        ended, looks = self._ended, not self._stopping and (self._news or self._left_behind or self._recheck)
        self._ended = []
        self._news = False
        crowded = {chat_id for chat_id, line in self._lines.items() if len(line.rows) >= HOLD_A_CHAT}
        in_hand = Counter(lane for chat_id, line in self._lines.items() if chat_id not in crowded for lane, _, _ in line.rows)
        # Only a class that is half used up is looked for: with a long queue each look would bring one row at the price of many.
        lanes = [lane for lane in Lane if in_hand[lane] < (HOLD_ANSWERS if lane == Lane.ANSWER else HOLD_OTHERS) // 2]
        held = list(self._held)
        now, recheck = self._clock.now(), self._recheck
        self._recheck = False
        try:
            rows, next_ready_at, gone = await self._in_database(
                self._transact, ended, now, lanes if looks else None, held, list(crowded), recheck
            )
        except BaseException:
            self._ended = ended + self._ended  # they have been sent: write them down later, never send them again
            self._news, self._recheck = True, self._recheck or recheck
            raise
        if looks:
            self._next_ready_at = next_ready_at
        for row, outcome in ended:
            self._follow(row, outcome, now)
        self._forget(gone)
        if ended and self._left_behind:
            self._news = True
        if looks:
            self._left_behind = len(rows) == LOOK_AT_MOST or len(lanes) < len(Lane) or bool(crowded)
            self._news = self._news or len(rows) == LOOK_AT_MOST
        fresh = [row for row in rows if row.id not in self._held]
        self._take_in_hand(fresh)

    def _transact(
        self,
        ended: Sequence[tuple[OutboxRow, Outcome | Expired]],
        now: datetime,
        lanes: Sequence[int] | None,
        held: list[int],
        full: list[int],
        recheck: bool,
    ) -> tuple[Sequence[OutboxRow], datetime | None, set[int]]:
        """Runs in the database's thread: all outcomes written down, then what else may go out, unless lanes is None."""
        uow: Queues
        with self._open_uow() as uow:
            for row, outcome in ended:
                self._write_down(uow, row, outcome, now)
            rows = uow.outbox.waiting(now, lanes=lanes, held=held, full=full, limit=LOOK_AT_MOST) if lanes else ()
            next_ready_at = uow.outbox.next_ready_at(now) if lanes is not None else None
            gone = set(held) - uow.outbox.still_waiting(held) if recheck else set()
            if ended:
                uow.commit()
        return rows, next_ready_at, gone

    def _write_down(self, uow: Queues, row: OutboxRow, outcome: Outcome | Expired, now: datetime) -> None:
        match outcome:
            case Sent(message, parts_left):
                if parts_left:
                    uow.outbox.mark_part_sent(row.id)
                else:
                    uow.outbox.mark_sent(row.id, now, message.get("message_id"))
                self._tell(uow, self._hooks.on_sent, row, message)
            case Gone(reason):
                uow.outbox.mark_chat_unreachable(row.chat_id, now, reason)
                self._tell(uow, self._hooks.on_unreachable, row.chat_id)
            case Moved(new_chat_id):
                uow.rewrite_chat_id(row.chat_id, new_chat_id)
                self._tell(uow, self._hooks.on_moved, row.chat_id, new_chat_id)
            case Unclear(reason):
                if self._gives_up(row, now):
                    uow.outbox.mark_failed(row.id, now, reason)
                elif row.expires_at_utc is not None and row.expires_at_utc <= now:
                    uow.outbox.mark_dropped(row.id, now, f"expired after: {reason}")
                else:
                    uow.outbox.mark_tried(row.id, reason)
            case Expired(reason):
                uow.outbox.mark_dropped(row.id, now, reason)
            case Refused(reason):
                uow.outbox.mark_failed(row.id, now, reason)
            case Slower() | NotReached():
                pass

    def _tell(self, uow: Queues, hook: Callable[..., None] | None, *told: Any) -> None:
        if hook is None:
            return
        try:
            with uow.savepoint():
                hook(uow, *told)
        except Exception as error:
            LOG.error("outbox_hook_failed hook=%s cause=%r", getattr(hook, "__name__", "hook"), where(error))

    def _follow(self, row: OutboxRow, outcome: Outcome | Expired, now: datetime) -> None:
        """What an outcome means for what is in hand."""
        at = now.timestamp()
        self.counts[type(outcome).__name__] += 1
        if not isinstance(outcome, NotReached):
            self._unreached = 0
        match outcome:
            case Sent(_, parts_left) if parts_left:
                self._let_go(row, again=_with(row, parts_sent=row.parts_sent + 1))
            case Slower(seconds):
                if row.lane >= Lane.WEEKLY:
                    self._pace.pause_all(at + seconds)
                self._pace.pause_chat(row.chat_id, at + seconds)
                LOG.info("outbox_slower message=%s seconds=%.0f all=%s", row.id, seconds, row.lane >= Lane.WEEKLY)
                self._let_go(row, again=row)
            case NotReached(reason):
                self._unreached += 1
                pause = growing_pause_s(self._unreached, first_s=2.0, most_s=MAX_PAUSE_S)
                self._pace.pause_all(at + pause)
                LOG.warning("outbox_not_reached cause=%r next_in_s=%.0f", reason, pause)
                self._let_go(row, again=row)
            case Unclear(reason) if not (
                self._gives_up(row, now) or (row.expires_at_utc is not None and row.expires_at_utc <= now)
            ):
                pause = growing_pause_s(row.attempts + 1, first_s=1.0, most_s=MAX_PAUSE_S)
                self._pace.pause_chat(row.chat_id, at + pause)
                LOG.info("outbox_retry message=%s attempt=%d cause=%r next_in_s=%.0f", row.id, row.attempts + 1, reason, pause)
                self._let_go(row, again=_with(row, attempts=row.attempts + 1))
            case Gone(reason):
                LOG.info("outbox_unreachable message=%s cause=%r", row.id, reason)
                self._let_chat_go(row.chat_id)
            case Moved():
                LOG.info("outbox_chat_moved message=%s", row.id)
                self._let_chat_go(row.chat_id)
                self._news = True
            case _:
                if isinstance(outcome, Refused | Unclear):
                    LOG.warning("outbox_failed message=%s kind=%s cause=%r", row.id, row.kind, outcome.reason)
                self._let_go(row)

    def _gives_up(self, row: OutboxRow, now: datetime) -> bool:
        return row.attempts > 0 and now - row.created_at_utc > GIVE_UP_AFTER


def _with(row: OutboxRow, **changes: Any) -> OutboxRow:
    changed: OutboxRow = replace(row, **changes)  # type: ignore[type-var]
    return changed


def _moment(at: float) -> datetime:
    return datetime.fromtimestamp(at, UTC) + timedelta(microseconds=1)
