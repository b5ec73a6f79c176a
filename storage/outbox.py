"""What is to be said, kept as data until the platform has it.

| promised | enforced by | shown in tests/storage/test_outbox.py |
|---|---|---|
| a reply exists exactly if the deed happened | same transaction as the deed | (the crash script in tests/crash) |
| one key, one message | unique key, insert-or-ignore | a_second_put_of_a_key_changes_nothing |
| a sent message is never sent again | states move one way only | a_finished_message_moves_no_more |
| answers go before bulk | order by lane, then id | answers_come_before_bulk |
| no one but the sender turns rows into messages | a row holds a kind and fields, no text | (by shape) |
| many messages cost few statements | gathered, and written in one go | many_messages_are_written_in_few_statements |

Not promised: exactly one arrival. When the platform's answer is lost, the message is sent again unless it has expired meanwhile:
an answer may come twice, an expired reminder may not come at all.

States: waiting -> sent | dropped (expired or taken back) | failed (the platform refuses it) | unreachable. Nothing else.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import CheckConstraint, Connection, Index, String, bindparam, delete, func, insert, select, text, update
from sqlalchemy.orm import Mapped, Session, mapped_column

from storage.base import Base, BigId
from storage.insert import ignoring, insert_or_ignore

LANES = ("answer", "rest", "reminder", "weekly", "bulk")  # in this order they go out
KEEP_FINISHED_FOR = timedelta(days=60)
OPEN = text("state = 'waiting'")


class OutboxTable(Base):
    __tablename__ = "outbox"
    __table_args__ = (
        CheckConstraint("state in ('waiting', 'sent', 'dropped', 'failed', 'unreachable')", name="state_known"),
        CheckConstraint("lane between 0 and 4", name="lane_known"),
        Index("ix_outbox_waiting", "lane", "id", sqlite_where=OPEN, postgresql_where=OPEN),
        Index("ix_outbox_ready", "ready_at_utc", sqlite_where=OPEN, postgresql_where=OPEN),
        Index("ix_outbox_chat_id", "chat_id"),
        {"comment": "Messages as data; only the sender makes text of them."},
    )

    id: Mapped[int] = mapped_column(BigId, primary_key=True)
    chat_id: Mapped[int] = mapped_column(BigId)
    thread_id: Mapped[int | None]
    kind: Mapped[str] = mapped_column(String(60))
    fields: Mapped[dict[str, Any]]
    lane: Mapped[int]
    key: Mapped[str | None] = mapped_column(
        String(200), unique=True, comment="Given, it makes the message one of its kind for ever."
    )
    state: Mapped[str] = mapped_column(String(12), default="waiting")
    created_at_utc: Mapped[datetime]
    ready_at_utc: Mapped[datetime]
    expires_at_utc: Mapped[datetime | None]
    attempts: Mapped[int] = mapped_column(default=0)
    parts_sent: Mapped[int] = mapped_column(default=0, comment="Of a text too long for one message.")
    message_id: Mapped[int | None] = mapped_column(BigId, comment="The platform's, of the last part.")
    finished_at_utc: Mapped[datetime | None]
    last_error: Mapped[str | None] = mapped_column(String(300))


@dataclass(frozen=True)
class OutboxRow:
    """A message as data."""

    id: int
    chat_id: int
    thread_id: int | None
    kind: str
    fields: dict[str, Any]
    lane: int
    key: str | None
    created_at_utc: datetime
    expires_at_utc: datetime | None
    attempts: int
    parts_sent: int
    state: str = "waiting"
    message_id: int | None = None
    ready_at_utc: datetime | None = None


C = OutboxTable.__table__.c
_COLUMNS = tuple(C[name] for name in OutboxRow.__dataclass_fields__)
_GIVEN = tuple(name for name in OutboxRow.__dataclass_fields__ if name not in ("id", "message_id"))
# Built once: putting a statement together takes longer than running it.
_INSERT = insert(OutboxTable.__table__)  # type: ignore[arg-type]
_WAITING = (
    select(*_COLUMNS)
    .where(C.state == "waiting", C.lane.in_(bindparam("lanes", expanding=True)), C.ready_at_utc <= bindparam("now"))
    .where(C.id.not_in(bindparam("held", expanding=True)), C.chat_id.not_in(bindparam("full", expanding=True)))
    .order_by(C.lane, C.id)
    .limit(bindparam("most"))
)
_NEXT_READY = (
    select(C.ready_at_utc).where(C.state == "waiting", C.ready_at_utc > bindparam("now")).order_by(C.ready_at_utc).limit(1)
)
_GATHERED = ignoring(OutboxTable, unique="key")
_OF_THESE = select(C.id).where(C.id.in_(bindparam("rows", expanding=True)))
_LAST_ID = select(func.coalesce(func.max(C.id), 0))
_RESERVE = text("SELECT nextval('outbox_id_seq') FROM generate_series(1, :most)")
_SENT = (
    update(OutboxTable.__table__)  # type: ignore[arg-type]
    .where(C.id == bindparam("row"), C.state == "waiting")
    .values(state="sent", message_id=bindparam("message"), finished_at_utc=bindparam("now"), attempts=C.attempts + 1)
)


class Outbox:
    """The outbox as one transaction sees it."""

    def __init__(self, session: Session, now: datetime) -> None:
        self._session, self._now = session, now
        self.new: list[OutboxRow] = []  # what was put: whoever commits tells the sender
        self.took_back = False  # something was taken back or erased: the sender may have it in hand
        self._gathered: list[dict[str, Any]] = []
        self._ids: deque[int] = deque()  # reserved for what is gathered
        self._gathers = 0  # how many ids are reserved at a time; 0 while each row is written at once

    def gather(self, most: int) -> None:
        """Keep what is put from now on until `write_gathered`, or until the table is asked something. About `most` are expected."""
        self._gathers = max(most, 1)

    def write_gathered(self) -> None:
        """Write all that was gathered, in a statement or two."""
        if not self._gathered:
            return
        rows, self._gathered = self._gathered, []
        connection = self._session.connection()
        connection.execute(_GATHERED[connection.dialect.name], rows)
        if keyed := {row["id"] for row in rows if row["key"] is not None}:
            twice = keyed.difference(connection.execute(_OF_THESE, {"rows": list(keyed)}).scalars())
            self.new = [row for row in self.new if row.id not in twice]

    def end_gathering(self) -> None:
        """From now on each row is written at once again; what was gathered and not written is forgotten."""
        self._gathered.clear()
        self._ids.clear()
        self._gathers = 0

    def put(
        self,
        chat_id: int,
        kind: str,
        fields: dict[str, Any],
        *,
        lane: int | str = "answer",
        not_before_utc: datetime | None = None,
        expires_at_utc: datetime | None = None,
        key: str | None = None,
        thread_id: int | None = None,
    ) -> int:
        """Queue a message; returns its id. A second put of a key changes nothing and returns 0.

        lane: one of LANES, by name or place. While rows are gathered, whether a key is new shows only when they are written: the id
        returned is then that of no message.
        """
        row: dict[str, Any] = {
            "chat_id": chat_id, "thread_id": thread_id, "kind": kind, "fields": fields, "lane": _place(lane), "key": key,
            "state": "waiting", "created_at_utc": self._now, "ready_at_utc": not_before_utc or self._now,
            "expires_at_utc": expires_at_utc, "attempts": 0, "parts_sent": 0,
        }  # fmt: skip
        if self._gathers:
            row_id = self._next_id()
            self._gathered.append({"id": row_id, **row})
        elif key is None:
            result = self._session.connection().execute(_INSERT, row)
            row_id = int(result.inserted_primary_key[0])  # type: ignore[index]
        elif ids := insert_or_ignore(self._session, OutboxTable, [row], unique="key"):
            row_id = ids[0]
        else:
            return 0
        self.new.append(OutboxRow(id=row_id, **{name: row[name] for name in _GIVEN}))
        return row_id

    def drop(self, key: str) -> bool:
        """Take back a message that has not gone out yet; says whether it did."""
        self.took_back = True
        query = update(OutboxTable).where(OutboxTable.key == key, OutboxTable.state == "waiting")
        return self._run(query.values(state="dropped", last_error="taken back", finished_at_utc=self._now)) == 1

    def erase(self, chat_id: int) -> int:
        """Remove all messages to a chat, sent or not, for good; returns how many."""
        self.took_back = True
        return self._run(delete(OutboxTable).where(OutboxTable.chat_id == chat_id))

    def get(self, row_id: int) -> OutboxRow | None:
        row = self._connection().execute(select(*_COLUMNS).where(C.id == row_id)).first()
        return OutboxRow(*row) if row else None

    def find(self, key: str) -> OutboxRow | None:
        """The message of a key, whatever became of it."""
        row = self._connection().execute(select(*_COLUMNS).where(C.key == key)).first()
        return OutboxRow(*row) if row else None

    def sent(self, chat_id: int, message_id: int) -> OutboxRow | None:
        """The message that the platform knows in a chat by this id."""
        query = select(*_COLUMNS).where(C.chat_id == chat_id, C.message_id == message_id).order_by(C.id.desc())
        row = self._connection().execute(query).first()
        return OutboxRow(*row) if row else None

    def count(self, state: str, *, chat_id: int | None = None) -> int:
        query = select(func.count()).select_from(OutboxTable).where(OutboxTable.state == state)
        return self._connection().scalar(query.where(OutboxTable.chat_id == chat_id) if chat_id is not None else query) or 0

    def waiting(
        self, now: datetime, *, lanes: Sequence[int], held: Iterable[int], full: Iterable[int], limit: int
    ) -> Sequence[OutboxRow]:
        """What may go out now, first lanes first; without rows that are `held` and chats that are `full`."""
        given = {"now": now, "lanes": list(lanes), "held": list(held), "full": list(full), "most": limit}
        return [OutboxRow(*row) for row in self._connection().execute(_WAITING, given)]

    def still_waiting(self, row_ids: Iterable[int]) -> set[int]:
        """Those of the rows that have not been finished, taken back or erased meanwhile."""
        query = select(C.id).where(C.id.in_(list(row_ids)), C.state == "waiting")
        return set(self._connection().execute(query).scalars())

    def next_ready_at(self, now: datetime) -> datetime | None:
        """The earliest later moment at which a waiting message may go out."""
        return self._connection().execute(_NEXT_READY, {"now": now}).scalar()

    def mark_sent(self, row_id: int, now: datetime, message_id: int | None) -> None:
        self._connection().execute(_SENT, {"row": row_id, "now": now, "message": message_id})

    def mark_part_sent(self, row_id: int) -> None:
        """Remember that one more part of a long message has arrived."""
        self._finish(row_id, None, parts_sent=C.parts_sent + 1)

    def mark_dropped(self, row_id: int, now: datetime, reason: str) -> None:
        self._finish(row_id, now, state="dropped", last_error=reason[:300])

    def mark_failed(self, row_id: int, now: datetime, reason: str) -> None:
        self._finish(row_id, now, state="failed", last_error=reason[:300], attempts=C.attempts + 1)

    def mark_tried(self, row_id: int, reason: str) -> None:
        """Count a try without a known good end; the message still waits."""
        self._finish(row_id, None, attempts=C.attempts + 1, last_error=reason[:300])

    def mark_chat_unreachable(self, chat_id: int, now: datetime, reason: str) -> int:
        """Give up all that waits for a chat; returns how many."""
        query = update(OutboxTable).where(OutboxTable.chat_id == chat_id, OutboxTable.state == "waiting")
        return self._run(query.values(state="unreachable", last_error=reason[:300], finished_at_utc=now))

    def forget_finished(self, now: datetime) -> int:
        """Remove what was finished more than sixty days ago; returns how many."""
        return self._run(
            delete(OutboxTable).where(OutboxTable.state != "waiting", OutboxTable.finished_at_utc < now - KEEP_FINISHED_FOR)
        )

    def _next_id(self) -> int:
        if not self._ids:
            connection = self._session.connection()
            if connection.dialect.name == "sqlite":  # nobody else writes until this transaction ends
                last = self._gathered[-1]["id"] if self._gathered else int(connection.execute(_LAST_ID).scalar_one())
                self._ids.extend(range(last + 1, last + 1 + self._gathers))
            else:
                self._ids.extend(sorted(connection.execute(_RESERVE, {"most": self._gathers}).scalars()))
        return self._ids.popleft()

    def _connection(self) -> Connection:
        """To ask or change the table: what was gathered is part of it."""
        self.write_gathered()
        return self._session.connection()

    def _finish(self, row_id: int, now: datetime | None, **values: Any) -> None:
        # A row that was erased, dropped or moved on meanwhile is left as it is: what is finished moves no more.
        finished = {"finished_at_utc": now} if now else {}
        self._run(update(OutboxTable.__table__).where(C.id == row_id, C.state == "waiting").values(**values, **finished))  # type: ignore[arg-type]

    def _run(self, query: Any) -> int:
        return int(self._connection().execute(query).rowcount)


def _place(lane: int | str) -> int:
    if isinstance(lane, str):
        if lane not in LANES:
            raise ValueError(f"lane={lane!r}, expected one of {', '.join(LANES)}")
        return LANES.index(lane)
    return int(lane)
