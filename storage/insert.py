"""How is a row inserted that may be there already? The same words on SQLite and PostgreSQL."""

from __future__ import annotations

from typing import Any

from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session

from storage.base import Base


def ignoring(table: type[Base], *, unique: str) -> dict[str, Any]:
    """The statement that inserts rows and leaves what is on record as it is, by dialect; nothing comes back."""
    return {
        name: make(table.__table__).on_conflict_do_nothing(index_elements=[unique])  # type: ignore[arg-type]
        for name, make in (("sqlite", sqlite.insert), ("postgresql", postgresql.insert))
    }


def insert_or_ignore(session: Session, table: type[Base], rows: list[dict[str, Any]], *, unique: str) -> list[int]:
    """Insert rows; one whose `unique` column is on record changes nothing. Returns the ids of the new ones, in no set order."""
    return [row_id for row_id, _ in inserted(session, table, rows, unique=unique)]


def inserted(session: Session, table: type[Base], rows: list[dict[str, Any]], *, unique: str) -> list[tuple[int, Any]]:
    """The same; returns (id, value of `unique`) of the new ones, oldest first."""
    connection = session.connection()
    make = sqlite.insert if connection.dialect.name == "sqlite" else postgresql.insert
    columns = table.__table__.c
    statement = make(table.__table__).on_conflict_do_nothing(index_elements=[unique])  # type: ignore[arg-type]
    # What came back is what is new: drivers disagree on row counts of many.
    new = connection.execute(statement.returning(columns.id, columns[unique]), rows).all()
    return sorted(((int(row[0]), row[1]) for row in new), key=lambda row: row[0])
