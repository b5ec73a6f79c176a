"""What came in from the platform, kept before it is acknowledged.

| promised | enforced by | shown in tests/storage/test_inbox.py |
|---|---|---|
| an update is handled once | unique update_id, insert-or-ignore | a_second_delivery_of_the_same_update_changes_nothing |
| one chat's updates are handled in order of arrival | `take` refuses | take_refuses_while_an_older_update_of_the_chat_waits |
| what cannot be read is kept, with a reason, and stops nothing | state parked | an_update_that_makes_no_sense_is_parked |
| "done" and what was done about it are one | same transaction as the deed | (the crash script in tests/crash) |

Not promised: that update ids rise. After a quiet week the platform starts again at a random number, so order is order of arrival,
and done updates are forgotten after three days (the platform repeats none after one day), before a random id could meet one.

States: waiting -> done | parked; parked -> waiting (by the operator). Nothing else.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import CheckConstraint, Index, String, bindparam, delete, exists, func, select, text, update
from sqlalchemy.orm import Mapped, Session, mapped_column

from storage.base import Base, BigId
from storage.insert import inserted

KEEP_DONE_FOR = timedelta(days=3)
LARGEST_ID = 2**63 - 1
MAX_WALK = 2_000  # places looked at in one update; real ones have some dozens


class InboxTable(Base):
    __tablename__ = "inbox"
    __table_args__ = (
        CheckConstraint("state in ('waiting', 'done', 'parked')", name="state_known"),
        Index("ix_inbox_waiting", "id", sqlite_where=text("state = 'waiting'"), postgresql_where=text("state = 'waiting'")),
        Index("ix_inbox_chat_id", "chat_id"),
        {"comment": "Updates as they came; the order of arrival is the id."},
    )

    id: Mapped[int] = mapped_column(BigId, primary_key=True)
    update_id: Mapped[int | None] = mapped_column(
        BigId, unique=True, comment="The platform's; empty only where it made no sense."
    )
    chat_id: Mapped[int | None] = mapped_column(BigId)
    body: Mapped[dict[str, Any]]
    state: Mapped[str] = mapped_column(String(10), default="waiting")
    attempts: Mapped[int] = mapped_column(default=0)
    reason: Mapped[str | None] = mapped_column(String(300), comment="Why it is parked, or failed last.")
    received_at_utc: Mapped[datetime]
    handled_at_utc: Mapped[datetime | None]


# Built once: putting a statement together takes longer than running it.
_C = InboxTable.__table__.c
_OLDER = InboxTable.__table__.alias("older")
_WAITING = (
    select(_C.id, _C.update_id, _C.chat_id, _C.body, _C.attempts)
    .where(_C.state == "waiting", _C.id.not_in(bindparam("held", expanding=True)))
    .order_by(_C.id)
    .limit(bindparam("most"))
)
_TAKE = (
    select(exists().where(_OLDER.c.state == "waiting", _OLDER.c.chat_id == _C.chat_id, _OLDER.c.id < _C.id))
    .where(_C.id == bindparam("row"), _C.state == "waiting")
    .with_for_update(skip_locked=True, of=InboxTable.__table__)
)
_DONE = (
    update(InboxTable.__table__)  # type: ignore[arg-type]
    .where(_C.id == bindparam("row"), _C.state == "waiting")
    .values(state="done", handled_at_utc=bindparam("now"))
)


@dataclass(frozen=True)
class InboxRow:
    """An update as it came."""

    id: int
    update_id: int | None
    chat_id: int | None
    body: Any
    attempts: int


@dataclass(frozen=True)
class ParkedRow:
    """An update that was set aside."""

    id: int
    chat_id: int | None
    body: Any
    reason: str | None
    received_at_utc: datetime


class Inbox:
    """The inbox as one transaction sees it."""

    def __init__(self, session: Session, now: datetime) -> None:
        self._session, self._now = session, now

    def store(self, updates: Sequence[Any]) -> list[InboxRow]:
        """Keep raw updates (decoded JSON, any shape); those on record change nothing. Returns the new ones that can be handled."""
        rows = [self._as_row(raw) for raw in updates]
        if not rows:
            return []
        given = {row["update_id"]: row for row in reversed(rows)}  # of two with one id the first is kept
        new = inserted(self._session, InboxTable, rows, unique="update_id")
        return [
            InboxRow(row_id, update_id, given[update_id]["chat_id"], given[update_id]["body"], 0)
            for row_id, update_id in new
            if update_id is not None
        ]

    def waiting(self, *, held: Iterable[int] = (), limit: int) -> Sequence[InboxRow]:
        """Updates not handled yet, in order of arrival, without those that are `held` already."""
        given = {"held": list(held), "most": limit}
        return [InboxRow(*row) for row in self._session.connection().execute(_WAITING, given)]

    def take(self, row_id: int) -> bool:
        """Take one for this transaction. False when it is done, taken elsewhere, or an older one of its chat still waits."""
        older_waits = self._session.connection().execute(_TAKE, {"row": row_id}).scalar()
        return older_waits is not None and not older_waits

    def done(self, row_id: int, now: datetime) -> None:
        if self._session.connection().execute(_DONE, {"row": row_id, "now": now}).rowcount != 1:
            raise LookupError(f"inbox row {row_id} does not wait any more")

    def park(self, row_id: int, now: datetime, reason: str) -> None:
        """Put one aside for the operator; its text stays on record."""
        self._move(row_id, state="parked", handled_at_utc=now, reason=reason[:300])

    def failed(self, row_id: int, reason: str) -> int:
        """Count a failure; returns how many there were."""
        attempts = self._session.scalar(select(InboxTable.attempts).where(InboxTable.id == row_id)) or 0
        self._move(row_id, attempts=attempts + 1, reason=reason[:300])
        return attempts + 1

    def count_try(self, row_id: int) -> bool:
        """Count a try before it begins, to be committed at once; False when the update does not wait any more."""
        tried = update(InboxTable).where(InboxTable.id == row_id, InboxTable.state == "waiting")
        return _changed(self._session, tried.values(attempts=InboxTable.attempts + 1, reason="the program ended at it")) == 1

    def last_id(self) -> int:
        """The newest update's row, whatever became of it; 0 when there is none."""
        return self._session.scalar(select(func.max(InboxTable.id))) or 0

    def parked(self) -> list[ParkedRow]:
        """What was set aside, oldest first."""
        query = select(_C.id, _C.chat_id, _C.body, _C.reason, _C.received_at_utc).where(_C.state == "parked").order_by(_C.id)
        return [ParkedRow(*row) for row in self._session.connection().execute(query)]

    def unpark(self, row_id: int) -> bool:
        """Let a parked update be tried again."""
        query = (
            update(InboxTable).where(InboxTable.id == row_id, InboxTable.state == "parked").values(state="waiting", attempts=0)
        )
        return _changed(self._session, query) == 1

    def count(self, state: str) -> int:
        return self._session.scalar(select(func.count()).select_from(InboxTable).where(InboxTable.state == state)) or 0

    def erase(self, chat_id: int) -> int:
        """Remove all of a chat's updates that are not waiting, for good; returns how many."""
        return _changed(self._session, delete(InboxTable).where(InboxTable.chat_id == chat_id, InboxTable.state != "waiting"))

    def forget_done(self, now: datetime) -> int:
        """Remove what was done more than three days ago; returns how many."""
        old = delete(InboxTable).where(InboxTable.state == "done", InboxTable.handled_at_utc < now - KEEP_DONE_FOR)
        return _changed(self._session, old)

    def _move(self, row_id: int, **values: Any) -> None:
        query = update(InboxTable.__table__).where(InboxTable.__table__.c.id == row_id, InboxTable.__table__.c.state == "waiting")  # type: ignore[arg-type]
        if self._session.connection().execute(query.values(values)).rowcount != 1:
            raise LookupError(f"inbox row {row_id} does not wait any more")

    def _as_row(self, raw: Any) -> dict[str, Any]:
        update_id = raw.get("update_id") if isinstance(raw, dict) else None
        reason = None
        if not _is_id(update_id):
            update_id, reason = None, "has no update_id that is a whole number"
        return {
            "update_id": update_id,
            "chat_id": chat_id_of(raw),
            "body": raw,
            "state": "parked" if reason else "waiting",
            "attempts": 0,
            "reason": reason,
            "received_at_utc": self._now,
            "handled_at_utc": self._now if reason else None,
        }


def chat_id_of(raw: Any) -> int | None:
    """The chat that an update belongs to, by a tolerant walk: the shallowest `chat`, else the shallowest person.

    {"message": {"chat": {"id": 7}}}                                -> 7
    {"callback_query": {"from": {"id": 7}, "message": {...chat 9}}} -> 9
    {"poll_answer": {"user": {"id": 7}}}                            -> 7   (a private chat has its person's id)
    "nonsense"                                                      -> None
    """
    person = None
    for key, value in _shallow_first(raw):
        if isinstance(value, dict) and _is_id(value.get("id")):
            if key == "chat":
                return int(value["id"])
            if key in ("from", "user") and person is None:
                person = int(value["id"])
    return person


def _shallow_first(raw: Any) -> Iterator[tuple[str, Any]]:
    queue: deque[Any] = deque([raw])
    seen = 0
    while queue and seen < MAX_WALK:
        at = queue.popleft()
        pairs = at.items() if isinstance(at, dict) else (("", item) for item in at) if isinstance(at, list) else ()
        for key, value in pairs:
            seen += 1
            yield key, value
            if isinstance(value, dict | list):
                queue.append(value)


def _is_id(value: Any) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and abs(value) <= LARGEST_ID


def _changed(session: Session, query: Any) -> int:
    return int(session.connection().execute(query).rowcount)
