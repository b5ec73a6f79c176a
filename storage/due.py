"""What is to happen because time passes: one row a thing and a moment.

| promised | enforced by | shown in tests/storage/test_due.py |
|---|---|---|
| a thing is planned once | unique (kind, key), one statement inserts or re-dates | a_planned_thing_is_planned_once |
| what has happened does not happen again | a finished row opens for a later moment only | what_has_happened_stays_so |
| its deed and "done" are one | same transaction (`storage.unit_of_work`) | (tests/clock/test_sweep.py) |
| two workers never take the same row | SKIP LOCKED; on SQLite BEGIN IMMEDIATE | two_workers_never_share_a_row |
| many plans cost few statements | gathered, and written in one go | many_plans_are_written_in_few_statements |
| a try is on disk before it begins, and one worker's alone | counted and set off in one statement | a_counted_try_is_one_workers_alone |
| looking costs what is due, not what is planned | partial index on open rows | (tests/bench/bench_sweep.py) |

Not promised: the exact second. A row is seen by the next sweep, and a late one may be dropped by its own limit.

States: open -> done | dropped (too late) | failed; any of these -> open for a later moment; a cancelled row is removed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import CheckConstraint, Connection, Index, String, UniqueConstraint, bindparam, delete, func, select, text, update
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Mapped, Session, mapped_column

from storage.base import Base, BigId

KEEP_FINISHED_FOR = timedelta(days=60)
OPEN = text("state = 'open'")


class DueTable(Base):
    __tablename__ = "due"
    __table_args__ = (
        UniqueConstraint("kind", "key"),
        CheckConstraint("state in ('open', 'done', 'dropped', 'failed')", name="state_known"),
        Index("ix_due_open", "try_at_utc", sqlite_where=OPEN, postgresql_where=OPEN),
        Index("ix_due_member_id", "member_id"),
        {"comment": "What is to happen, and when."},
    )

    id: Mapped[int] = mapped_column(BigId, primary_key=True)
    kind: Mapped[str] = mapped_column(String(60))
    key: Mapped[str] = mapped_column(String(200), comment="Names the thing: member and local date, or the like.")
    member_id: Mapped[int | None] = mapped_column(BigId)
    due_at_utc: Mapped[datetime]
    try_at_utc: Mapped[datetime] = mapped_column(comment="When to look at it: its moment, or after a failure a later one.")
    fields: Mapped[dict[str, Any]]
    too_late_after_s: Mapped[int | None] = mapped_column(
        comment="Seconds after which it is dropped instead; empty: never too late."
    )
    state: Mapped[str] = mapped_column(String(10), default="open")
    attempts: Mapped[int] = mapped_column(default=0)
    finished_at_utc: Mapped[datetime | None]
    last_error: Mapped[str | None] = mapped_column(String(300))


@dataclass(frozen=True)
class DueRow:
    """A thing that is to happen."""

    id: int
    kind: str
    key: str
    due_at_utc: datetime
    fields: dict[str, Any]
    member_id: int | None
    too_late_after_s: int | None
    attempts: int
    state: str = "open"


C = DueTable.__table__.c
_COLUMNS = tuple(C[name] for name in DueRow.__dataclass_fields__)
# Where rows are named by id. Said like this because PostgreSQL, as long as it has no statistics, reads the whole index of open rows
# for an equality here: 2 ms for each statement among 100,000.
_STILL_OPEN = C.state.not_in(["done", "dropped", "failed"])
# Built once: putting a statement together takes longer than running it.
_GIVEN = ("due_at_utc", "try_at_utc", "fields", "member_id", "too_late_after_s")


def _upsert(make: Any) -> Any:
    """Insert or re-date in one statement; it touches a row when the thing is open now."""
    statement = make(DueTable.__table__)
    fresh = {name: statement.excluded[name] for name in _GIVEN} | {"state": "open", "attempts": 0, "finished_at_utc": None}
    later = (C.state == "open") | (statement.excluded.due_at_utc > C.due_at_utc)
    return statement.on_conflict_do_update(index_elements=["kind", "key"], set_=fresh, where=later)


_UPSERT_MANY = {"sqlite": _upsert(sqlite.insert), "postgresql": _upsert(postgresql.insert)}
_UPSERT = {name: statement.returning(C.id) for name, statement in _UPSERT_MANY.items()}
_CLAIM = (
    select(*_COLUMNS)
    .where(C.state == "open", C.try_at_utc <= bindparam("now"))
    .order_by(C.try_at_utc, C.id)
    .limit(bindparam("most"))
    .with_for_update(skip_locked=True)
)
_DONE = (
    update(DueTable.__table__)  # type: ignore[arg-type]
    .where(C.id == bindparam("row"), _STILL_OPEN)
    .values(state="done", finished_at_utc=bindparam("now"))
)
_DONE_ALL = (
    update(DueTable.__table__)  # type: ignore[arg-type]
    .where(C.id.in_(bindparam("rows", expanding=True)), _STILL_OPEN)
    .values(state="done", finished_at_utc=bindparam("now"))
)
_TAKE = select(C.id).where(C.id.in_(bindparam("rows", expanding=True)), _STILL_OPEN).with_for_update(skip_locked=True)
_CANCEL_MANY = delete(DueTable.__table__).where(  # type: ignore[arg-type]
    C.kind == bindparam("of_kind"), C.member_id.in_(bindparam("members", expanding=True)), C.state == "open"
)


class DueList:
    """The due rows as one transaction sees them."""

    def __init__(self, session: Session, now: datetime) -> None:
        self._session, self._now = session, now
        self.planned_at: datetime | None = None  # the earliest of what was planned: whoever commits tells the sweep
        self._gathers = False
        self._gathered: dict[tuple[str, str], dict[str, Any]] = {}
        self._cancelled: dict[str, set[int]] = {}  # kind -> members whose open rows go before anything gathered comes

    def gather(self) -> None:
        """Keep what is planned and cancelled from now on until `write_gathered`, or until the table is asked something."""
        self._gathers = True

    def write_gathered(self) -> None:
        """Write all that was gathered, in a statement for each kind cancelled and one for all that is planned."""
        cancelled, self._cancelled = self._cancelled, {}
        rows, self._gathered = list(self._gathered.values()), {}
        if not (cancelled or rows):
            return
        connection = self._session.connection()
        for kind, members in cancelled.items():
            connection.execute(_CANCEL_MANY, {"of_kind": kind, "members": list(members)})
        if rows:
            connection.execute(_UPSERT_MANY[connection.dialect.name], rows)

    def end_gathering(self) -> None:
        """From now on each row is written at once again; what was gathered and not written is forgotten."""
        self._gathered.clear()
        self._cancelled.clear()
        self._gathers = False

    def put(
        self,
        kind: str,
        key: str,
        due_at_utc: datetime,
        fields: dict[str, Any],
        *,
        member_id: int | None = None,
        too_late_after_s: int | None,
    ) -> bool:
        """Plan something; says whether it is open now.

        An open (kind, key) is re-dated. One that has happened opens again only for a moment later than its own: planning the same
        thing twice does nothing, and a thing that comes back (the next rest call) may keep its key. While rows are gathered, the
        answer is True, and the table decides when they are written.
        """
        values = {
            "due_at_utc": due_at_utc, "try_at_utc": due_at_utc, "fields": fields, "member_id": member_id,
            "too_late_after_s": too_late_after_s,
        }  # fmt: skip
        row = {"kind": kind, "key": key, "state": "open", "attempts": 0, **values}
        if self._gathers:
            if (kind, key) in self._gathered:
                self.write_gathered()
            self._gathered[kind, key] = row
            self._note(due_at_utc)
            return True
        connection = self._session.connection()
        is_open = connection.execute(_UPSERT[connection.dialect.name], row).first() is not None
        if is_open:
            self._note(due_at_utc)
        return is_open

    def cancel(self, kind: str, key: str) -> bool:
        """Take one back; says whether it was open."""
        return self._run(delete(DueTable).where(DueTable.kind == kind, DueTable.key == key, DueTable.state == "open")) == 1

    def cancel_all(self, *, member_id: int | None = None, kind: str | None = None) -> int:
        """Take back all open ones of a member, of a kind, or both; returns how many. Never without either.

        A member's of a kind are gathered as plans are; the answer is 0 then.
        """
        if member_id is None and kind is None:
            raise ValueError("cancel_all needs a member or a kind")
        if self._gathers and member_id is not None and kind is not None:
            if any(row["kind"] == kind and row["member_id"] == member_id for row in self._gathered.values()):
                self.write_gathered()
            self._cancelled.setdefault(kind, set()).add(member_id)
            return 0
        query = delete(DueTable).where(DueTable.state == "open")
        query = query.where(DueTable.member_id == member_id) if member_id is not None else query
        return self._run(query.where(DueTable.kind == kind) if kind is not None else query)

    def erase(self, member_id: int) -> int:
        """Remove all of a member's rows, open or not, for good; returns how many."""
        return self._run(delete(DueTable).where(DueTable.member_id == member_id))

    def find(self, kind: str, key: str) -> DueRow | None:
        row = self._connection().execute(select(*_COLUMNS).where(C.kind == kind, C.key == key)).first()
        return DueRow(*row) if row else None

    def of_member(self, member_id: int, *, kind: str | None = None) -> list[DueRow]:
        """A member's open rows, first due first."""
        query = select(*_COLUMNS).where(C.member_id == member_id, C.state == "open").order_by(C.due_at_utc, C.id)
        rows = self._connection().execute(query.where(C.kind == kind) if kind is not None else query)
        return [DueRow(*row) for row in rows]

    def claim(self, now: datetime, limit: int) -> Sequence[DueRow]:
        """What is due, oldest first, kept from other workers until the transaction ends."""
        return [DueRow(*row) for row in self._connection().execute(_CLAIM, {"now": now, "most": limit})]

    def next_due_at(self) -> datetime | None:
        """The moment of the first open row; for one that failed, of its next try."""
        query = select(C.try_at_utc).where(C.state == "open").order_by(C.try_at_utc).limit(1)
        return self._connection().execute(query).scalar()

    def done(self, row_id: int, now: datetime) -> None:
        self._connection().execute(_DONE, {"row": row_id, "now": now})

    def done_all(self, row_ids: Sequence[int], now: datetime) -> None:
        # Not `_connection`: what was gathered may open one of these again for its next time, and has to come after this.
        if row_ids:
            self._session.connection().execute(_DONE_ALL, {"rows": list(row_ids), "now": now})

    def drop(self, row_id: int, now: datetime, reason: str) -> None:
        self._move(row_id, state="dropped", finished_at_utc=now, last_error=reason[:300])

    def count_try(self, row_id: int) -> None:
        """Count a try, whatever becomes of it."""
        self._move(row_id, attempts=C.attempts + 1)

    def count_tries(self, row_ids: Sequence[int], now: datetime, set_off_until: datetime | None) -> set[int]:
        """Count a try of each before it begins, to be committed at once; returns those that are this worker's to run.

        set_off_until: other workers leave them alone until then; a worker that ends meanwhile leaves them to whoever comes.
        """
        values: dict[str, Any] = {"attempts": C.attempts + 1}
        if set_off_until is not None:
            values["try_at_utc"] = set_off_until
        tried = update(DueTable.__table__).where(C.id.in_(list(row_ids)), _STILL_OPEN, C.try_at_utc <= now)  # type: ignore[arg-type]
        return set(self._connection().execute(tried.values(values).returning(C.id)).scalars())

    def uncount(self, row_ids: Sequence[int], now: datetime) -> None:
        """They were counted, but their turn did not come: take the count back and have them looked at again at once."""
        if row_ids:
            # One that was planned anew meanwhile has no tries, and a moment of its own.
            counted = update(DueTable.__table__).where(C.id.in_(list(row_ids)), _STILL_OPEN, C.attempts > 0)  # type: ignore[arg-type]
            self._run(counted.values(attempts=C.attempts - 1, try_at_utc=now))

    def take(self, row_ids: Sequence[int]) -> set[int]:
        """Those of the rows that are still open and nobody else has, kept from other workers until the transaction ends."""
        return set(self._connection().execute(_TAKE, {"rows": list(row_ids)}).scalars())

    def try_again(self, row_id: int, at_utc: datetime, reason: str) -> None:
        """It failed, and is to be tried again at this moment."""
        self._move(row_id, try_at_utc=at_utc, last_error=reason[:300])

    def give_up(self, row_id: int, now: datetime, reason: str) -> None:
        """It failed, and is tried no more."""
        self._move(row_id, state="failed", finished_at_utc=now, last_error=reason[:300])

    def count(self, state: str) -> int:
        return self._connection().scalar(select(func.count()).select_from(DueTable).where(DueTable.state == state)) or 0

    def forget_finished(self, now: datetime) -> int:
        """Remove what ended more than sixty days ago; returns how many."""
        return self._run(delete(DueTable).where(DueTable.state != "open", DueTable.finished_at_utc < now - KEEP_FINISHED_FOR))

    def _connection(self) -> Connection:
        """To ask or change the table: what was gathered is part of it."""
        self.write_gathered()
        return self._session.connection()

    def _note(self, moment: datetime) -> None:
        self.planned_at = moment if self.planned_at is None else min(self.planned_at, moment)

    def _move(self, row_id: int, **values: Any) -> None:
        # A deed may cancel or erase its own row (an erased member): then there is nothing left to move.
        self._run(update(DueTable.__table__).where(C.id == row_id, _STILL_OPEN).values(**values))  # type: ignore[arg-type]

    def _run(self, query: Any) -> int:
        return int(self._connection().execute(query).rowcount)
