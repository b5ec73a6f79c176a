"""What happens because time passed? One sweep claims what is due and runs its deed.

| promised | enforced by | shown in tests/clock/test_sweep.py |
|---|---|---|
| a deed and its row's "done" are one | one transaction | a_deed_and_its_done_are_one |
| one deed's failure harms no other | a savepoint for a batch, and each alone when one failed | a_failing_deed_harms_no_other |
| a batch costs a few statements, not some for each row | what its deeds queue and plan is gathered | a_batch_costs_a_few_statements |
| a late thing is done late or dropped, as its own limit says | too_late_after_s | what_is_too_late_is_dropped_and_counted |
| a failing deed is tried again, then given up | five tries, growing pauses | a_deed_that_keeps_failing_is_given_up |
| a deed that ends the whole program is given up as well | what was due at the start counts its try first | a_deed_that_ends_the_program_is_given_up |
| the same where several programs share a database | a counted row is left to its program for a while | (tests/storage/test_shared_sweep.py) |
| what comes again comes again although one time was missed | `missed` runs in its place | after_a_missed_time_the_next_one_is_planned |
| answers wait for one batch at most | a batch ends after a twentieth of a second | (tests/bench/bench_sweep.py) |
"""

from __future__ import annotations

import asyncio
import logging
import time
from collections.abc import Awaitable, Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from bot.coaching.faults import where
from bot.coaching.ports import Clock, DueRow, Queues, UnitOfWorkFactory

LOG = logging.getLogger(__name__)
Deed = Callable[[Any, dict[str, Any], DueRow, datetime], None]
Foresee = Callable[[Any, Sequence[DueRow], datetime], None]
BATCH = 100
BATCH_FOR_S = 0.05  # then what is done is committed; the rest is claimed anew, so that nobody waits long for a crowd
STEP = 10  # so many deeds before the first look at the watch, then twice as many, and so on
SET_OFF = timedelta(seconds=10)  # between the count of a try and its beginning lies one commit; ten seconds are plenty
MAX_TRIES = 5


@dataclass
class Swept:
    """What a sweep did."""

    done: int = 0
    too_late: int = 0
    failed: int = 0

    @property
    def total(self) -> int:
        return self.done + self.too_late + self.failed


class Sweep:
    """Call `once()` every few seconds; calls that meet take turns.

    missed: what runs, by kind, in the place of a deed that came too late or was given up, so that its next time is planned.
    foresee: what reads for many rows of a kind at once that which their deeds will ask for one by one.
    alone: all work on this database takes turns in one thread, and whoever plans calls `planned()`; so one look holds for long.
    """

    def __init__(
        self,
        *,
        open_uow: UnitOfWorkFactory,
        in_database: Callable[..., Awaitable[Any]],
        deeds: Mapping[str, Deed],
        clock: Clock,
        missed: Mapping[str, Deed] | None = None,
        foresee: Mapping[str, Foresee] | None = None,
        alone: bool = False,
    ) -> None:
        self._missed, self._foresee, self._started_at = missed or {}, foresee or {}, clock.now()
        self._open_uow, self._in_database, self._deeds, self._clock = open_uow, in_database, deeds, clock
        self._turn = asyncio.Lock()
        self._alone, self._is_seen = alone, False
        self._next_at: datetime | None = None

    def planned(self, at: datetime) -> None:
        """Something new is due at this moment."""
        if self._next_at is None or at < self._next_at:
            self._next_at = at

    async def next_at(self) -> datetime | None:
        """A moment before which nothing is due; None when nothing is planned. What was taken back may still be counted."""
        if not self._is_seen:
            await self._in_database(self._look)
        return self._next_at

    @property
    def is_busy(self) -> bool:
        return self._turn.locked()

    async def once(self) -> Swept:
        """Do all that is due at this moment, batch by batch; returns what was done."""
        whole = Swept()
        if self._is_seen and (self._next_at is None or self._next_at > self._clock.now()):
            return whole
        async with self._turn:
            first: datetime | None = await self._in_database(self._look)
            is_more = first is not None and first <= self._clock.now()
            while is_more:
                is_more = await self._in_database(self._batch, self._clock.now(), whole)
        return whole

    def _look(self) -> datetime | None:
        """Runs in the database's thread. Most sweeps find nothing: a look with the reading engine leaves the writer alone."""
        with self._open_uow(reads=True) as uow:
            self._next_at = uow.due.next_due_at()
        self._is_seen = self._alone
        return self._next_at

    def _batch(self, now: datetime, swept: Swept) -> bool:
        """Runs in the database's thread; counts what it did in `swept`, and says whether there may be more."""
        self._is_seen = False  # those that are done, and those to be tried again, are known to the table only
        uow: Queues
        with self._open_uow() as uow:
            rows = uow.due.claim(now, BATCH)
            fresh, suspect = self._sorted_out(uow, rows, now, swept)
            ran = self._run_fresh(uow, fresh, now, swept)
            if len(rows) > len(suspect):
                uow.commit()
        # What was tried before goes alone, so that it cannot be blamed for another, nor another for it.
        untried = [row for row in suspect if not row.attempts]
        alone = [[row] for row in suspect if row.attempts]
        for group in [untried, *alone] if untried else alone:
            ran += self._run_counted(group, now, swept)
        return len(rows) == BATCH or ran < len(fresh) + len(suspect)

    def _sorted_out(self, uow: Queues, rows: Sequence[DueRow], now: datetime, swept: Swept) -> tuple[list[DueRow], list[DueRow]]:
        """Drop and give up what is to be; returns what is tried for the first time, and what may have ended a program before."""
        fresh: list[DueRow] = []
        suspect: list[DueRow] = []
        for row in rows:
            late_s = (now - row.due_at_utc).total_seconds()
            if row.too_late_after_s is not None and late_s > row.too_late_after_s:
                uow.due.drop(row.id, now, f"{late_s:.0f} s late")
                swept.too_late += 1
                LOG.info("due_too_late row=%s kind=%s late_s=%.0f", row.id, row.kind, late_s)
                self._plan_next(uow, row, now)
            elif row.attempts >= MAX_TRIES:
                LOG.error("due_given_up row=%s kind=%s tries=%d", row.id, row.kind, row.attempts)
                uow.due.give_up(row.id, now, f"{row.attempts} tries, and the program ended at the last")
                swept.failed += 1
                self._plan_next(uow, row, now)
            else:
                (suspect if row.attempts or row.due_at_utc <= self._started_at else fresh).append(row)
        return fresh, suspect

    def _run_fresh(self, uow: Queues, rows: Sequence[DueRow], now: datetime, swept: Swept) -> int:
        """Run those that are tried for the first time until the batch's time is over; returns how many ran."""
        if len(rows) > 1 and (done := self._run_together(uow, rows, now)):
            swept.done += done
            return done
        until = time.perf_counter() + BATCH_FOR_S
        for ran, row in enumerate(rows):
            if ran and time.perf_counter() > until:
                return ran
            self._note(swept, self._run(uow, row, now))
        return len(rows)

    def _run_counted(self, rows: Sequence[DueRow], now: datetime, swept: Swept) -> int:
        """Those that were due when the program started may be what ended it: their try is on disk before it begins.

        Returns how many ran, here or in another program.
        """
        uow: Queues
        with self._open_uow() as uow:
            # Counting lets go of the rows: other programs leave them alone for a while, and take them over if this one ends.
            mine = uow.due.count_tries([row.id for row in rows], now, None if self._alone else now + SET_OFF)
            uow.commit()
        left: Sequence[DueRow] = ()
        with self._open_uow() as uow:
            mine &= uow.due.take(list(mine))
            taken = [row for row in rows if row.id in mine]
            done = self._run_together(uow, taken, now) if len(taken) > 1 else 0
            if done:
                swept.done += done
                left = taken[done:]
                uow.due.uncount([row.id for row in left], now)
            else:
                for row in taken:
                    self._note(swept, self._run(uow, row, now, is_counted=True))
            uow.commit()
        return len(rows) - len(left)

    @staticmethod
    def _note(swept: Swept, went_well: bool) -> None:
        if went_well:
            swept.done += 1
        else:
            swept.failed += 1

    def _plan_next(self, uow: Queues, row: DueRow, now: datetime) -> None:
        """This time is missed; what comes again must come again all the same."""
        deed = self._missed.get(row.kind)
        if deed is None:
            return
        try:
            with uow.savepoint():
                deed(uow, row.fields, row, now)
        except Exception as error:
            LOG.error("due_next_not_planned row=%s kind=%s cause=%r", row.id, row.kind, where(error))

    def _run_together(self, uow: Queues, rows: Sequence[DueRow], now: datetime) -> int:
        """As many as the batch's time has room for, under one savepoint; returns how many.

        When one fails all are undone, to be run one by one, and the answer is 0.
        """
        until, done, step_of = time.perf_counter() + BATCH_FOR_S, 0, STEP
        try:
            with uow.savepoint(), uow.gathered(len(rows)):
                while done < len(rows) and (not done or time.perf_counter() < until):
                    step, step_of = rows[done : done + step_of], 2 * step_of
                    uow.due.done_all([row.id for row in step], now)
                    for kind, foresee in self._foresee.items():
                        if of_kind := [row for row in step if row.kind == kind]:
                            foresee(uow, of_kind, now)
                    for row in step:
                        self._deeds[row.kind](uow, row.fields, row, now)
                    done += len(step)
            return done
        except Exception:  # said by the one that fails again alone
            return 0

    def _run(self, uow: Queues, row: DueRow, now: datetime, *, is_counted: bool = False) -> bool:
        deed = self._deeds.get(row.kind)
        try:
            if deed is None:
                raise LookupError(f"no deed is registered for {row.kind!r}")
            with uow.savepoint():
                # "Done" first: a deed may plan the thing's next time under the same key, which opens the row again.
                uow.due.done(row.id, now)
                deed(uow, row.fields, row, now)
            return True
        except Exception as error:
            tries = row.attempts + 1
            again = None if tries >= MAX_TRIES else now + timedelta(seconds=30 * 4 ** (tries - 1))
            next_at = again.isoformat() if again else None
            LOG.error("due_failed row=%s kind=%s attempt=%d cause=%r next_at=%s", row.id, row.kind, tries, where(error), next_at)
            if not is_counted:
                uow.due.count_try(row.id)
            reason = f"{type(error).__name__}: {error}"
            if again is None:
                uow.due.give_up(row.id, now, reason)
                self._plan_next(uow, row, now)
            else:
                uow.due.try_again(row.id, again, reason)
            return False
