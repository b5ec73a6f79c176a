"""How is a row inserted that may be there already? The same words on SQLite and PostgreSQL."""

from __future__ import annotations

from typing import Any

from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session

from storage.base import Base


def insert_or_ignore(session: Session, table: type[Base], rows: list[dict[str, Any]], *, unique: str) -> int:
    """Insert rows; one whose `unique` column is on record changes nothing. Returns how many are new."""
    connection = session.connection()
    make = sqlite.insert if connection.dialect.name == "sqlite" else postgresql.insert
    columns = table.__table__.c
    statement = make(table.__table__).on_conflict_do_nothing(index_elements=[unique]).returning(columns.id)  # type: ignore[arg-type]
    return len(connection.execute(statement, rows).all())  # counted by what came back: drivers disagree on row counts of many
