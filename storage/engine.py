"""How is the database opened? Two engines on one file: one that writes, one that only reads.

| promised | enforced by | shown in tests/storage/test_engine.py |
|---|---|---|
| what is committed survives a power cut | WAL with synchronous FULL | the_file_is_opened_for_safety |
| writers take turns, none fails half-way | BEGIN IMMEDIATE, busy_timeout | two_writers_take_turns |
| one program sends, however many share a database | advisory lock on PostgreSQL | one_program_leads_until_it_lets_go |
| a reader changes nothing | query_only on the read engine | the_reading_engine_cannot_write |

Not promised: several machines on one SQLite file. Use PostgreSQL for that; the same code runs on both.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event, text
from sqlalchemy.engine import make_url

SENDER_KEY = 7_300_211  # an advisory lock is a number that all programs on one database agree on; any will do
BUSY_TIMEOUT_MS = 10_000  # a backup or a second program may hold the file for a moment; longer than that is worth an error


@dataclass(frozen=True)
class Engines:
    """The database's two doors."""

    write: Engine
    read: Engine

    @property
    def is_sqlite(self) -> bool:
        return self.write.dialect.name == "sqlite"

    def close(self) -> None:
        self.write.dispose()
        self.read.dispose()


def sqlite_url(path: Path) -> str:
    """The database URL of a file."""
    return f"sqlite:///{path}"


def open_engines(url: str) -> Engines:
    """Open a database by URL: `sqlite:////data/companion.sqlite3` or `postgresql://user@host/name`; connects when used."""
    if make_url(url).get_backend_name() == "sqlite":
        return Engines(write=_sqlite(url, writes=True), read=_sqlite(url, writes=False))
    engine = create_engine(url, json_serializer=_to_json, pool_size=10, pool_pre_ping=True)
    return Engines(write=engine, read=engine.execution_options(postgresql_readonly=True))


def try_to_lead(engines: Engines) -> Connection | None:
    """On PostgreSQL: become the one program that sends, as long as the returned connection stays open; None when another is."""
    connection = engines.read.connect().execution_options(isolation_level="AUTOCOMMIT")
    if connection.execute(text("SELECT pg_try_advisory_lock(:key)"), {"key": SENDER_KEY}).scalar():
        return connection
    connection.close()
    return None


def _sqlite(url: str, *, writes: bool) -> Engine:
    engine = create_engine(
        url, json_serializer=_to_json, connect_args={"check_same_thread": False, "timeout": BUSY_TIMEOUT_MS / 1000}
    )

    @event.listens_for(engine, "connect")
    def prepare(connection: Any, _record: Any) -> None:
        # Python 3.11's driver begins transactions by its own rules unless it is told to keep out of it.
        connection.isolation_level = None
        cursor = connection.cursor()
        cursor.execute(f"PRAGMA busy_timeout = {BUSY_TIMEOUT_MS}")
        if writes:
            cursor.execute("PRAGMA journal_mode = WAL")
        else:
            cursor.execute("PRAGMA query_only = ON")
        cursor.execute("PRAGMA synchronous = FULL")
        cursor.execute("PRAGMA foreign_keys = ON")
        cursor.close()

    @event.listens_for(engine, "begin")
    def begin(connection: Any) -> None:
        # A deferred transaction that reads and later writes fails at once if another wrote in between, whatever the timeout.
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")

    return engine


def _to_json(value: Any) -> str:
    # Escaped to ASCII: half a surrogate pair, which a chat can send, has no UTF-8 form and would make the row unstorable.
    return json.dumps(value, separators=(",", ":"))
