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
    statement = make(table.__table__).on_conflict_do_nothing(index_elements=[unique])  # type: ignore[arg-type]
    return max(0, int(connection.execute(statement, rows).rowcount))
