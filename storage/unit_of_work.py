"""How do a deed's writes become real together? One session, one transaction, everything a deed needs as attributes.

    with open_uow() as uow:
        uow.outbox.put(...)
        uow.commit()          # without it, leaving undoes everything

| promised | enforced by | shown in tests/storage/test_unit_of_work.py |
|---|---|---|
| all of a deed or nothing | one transaction; leaving without commit rolls back | what_is_not_committed_did_not_happen |
| the sender hears of new messages only when they are real | told after the commit | the_sender_is_told_after_the_commit |
| gathered rows are read, undone and committed like all others | written before anything looks | what_is_gathered_is_seen_and_undone |
| what a failed part did is not seen by the next | rows and memories are dropped with its savepoint | a_part_that_fails_is_undone_alone |
| a group's new id is new everywhere | every table with a chat_id is rewritten in one go | a_moved_group_keeps_its_rows |

Domain repositories join by a subclass that says what it carries:

    class WholeUnitOfWork(UnitOfWork):
        def attach(self) -> None:
            self.members = Shelf(self.session, MemberTable, Member)
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import datetime
from types import TracebackType
from typing import Self

from sqlalchemy import update
from sqlalchemy.exc import DatabaseError, DBAPIError, InterfaceError, OperationalError
from sqlalchemy.orm import Session

from storage.base import Base
from storage.due import DueList
from storage.engine import Engines
from storage.inbox import Inbox
from storage.outbox import Outbox, OutboxRow


class UnitOfWork:
    """One transaction. `reads` uses the reading engine: nothing can be written, and no writer waits."""

    session: Session
    now: datetime
    inbox: Inbox
    outbox: Outbox
    due: DueList

    def __init__(
        self,
        engines: Engines,
        now: Callable[[], datetime],
        *,
        reads: bool = False,
        on_queued: Callable[[Sequence[OutboxRow]], None] | None = None,
        on_taken_back: Callable[[], None] | None = None,
        on_planned: Callable[[datetime], None] | None = None,
    ) -> None:
        """on_queued: told the new messages; on_taken_back: some were taken back; on_planned: told the earliest due. After the commit."""
        self._engine = engines.read if reads else engines.write
        self._now, self._on_queued, self._on_taken_back, self._on_planned = now, on_queued, on_taken_back, on_planned

    def __enter__(self) -> Self:
        now = self.now = self._now()
        self.session = Session(self._engine, expire_on_commit=False)
        self.inbox, self.outbox, self.due = Inbox(self.session, now), Outbox(self.session, now), DueList(self.session, now)
        self.attach()
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        self.session.close()  # rolls back whatever is not committed

    def attach(self) -> None:
        """Hang domain repositories on this unit of work; for subclasses."""

    def commit(self) -> None:
        self._write_gathered()
        self.session.commit()
        if self.outbox.took_back and self._on_taken_back:
            self.outbox.took_back = False
            self._on_taken_back()
        if self.due.planned_at is not None and self._on_planned:
            planned_at, self.due.planned_at = self.due.planned_at, None
            self._on_planned(planned_at)
        if self.outbox.new and self._on_queued:
            new, self.outbox.new = self.outbox.new, []
            self._on_queued(new)

    @contextmanager
    def savepoint(self) -> Iterator[None]:
        """A part that may fail alone: an error inside undoes it and is raised again."""
        self._write_gathered()
        before = len(self.outbox.new)
        try:
            with self.session.begin_nested():
                yield
                self._write_gathered()
        except BaseException:
            self._end_gathering()
            del self.outbox.new[before:]
            self.undone()
            raise

    @contextmanager
    def gathered(self, most: int) -> Iterator[None]:
        """Many deeds in one go: what they queue and plan is written at the end, in a few statements for all. About `most` are expected."""
        self.outbox.gather(most)
        self.due.gather()
        try:
            yield
            self._write_gathered()
        finally:
            self._end_gathering()

    def _write_gathered(self) -> None:
        self.outbox.write_gathered()
        self.due.write_gathered()

    def _end_gathering(self) -> None:
        self.outbox.end_gathering()
        self.due.end_gathering()

    def undone(self) -> None:
        """A part was undone: what was read in it may not be there any more; for subclasses that remember."""

    def rewrite_chat_id(self, old_id: int, new_id: int) -> None:
        """A group got a new id: say so in every table that has a chat_id. Values kept as JSON are the caller's."""
        self._write_gathered()
        for table in Base.metadata.sorted_tables:
            if "chat_id" in table.c:
                self.session.execute(update(table).where(table.c.chat_id == old_id).values(chat_id=new_id))


def is_storage_trouble(error: BaseException) -> bool:
    """Is the machine to blame (locked, full, unplugged) and not what was being written? Then trying again later helps."""
    if isinstance(error, DBAPIError) and error.connection_invalidated:
        return True
    # The bare DatabaseError is a damaged file; its other children are about what was being written.
    return isinstance(error, OperationalError | InterfaceError) or type(error) is DatabaseError
