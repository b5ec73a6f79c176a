"""Alembic's way in: always inside a transaction that the caller has begun, with a connection that the caller owns."""

from __future__ import annotations

from typing import Any, Literal

from alembic import context

from storage.base import Base, BigId, UtcDateTime
from storage.migrations import import_tables


def in_our_words(kind: str, item: Any, _context: Any) -> str | Literal[False]:
    """Write our own column types by our own names in a new step."""
    if kind == "type" and isinstance(item, UtcDateTime):
        return "UtcDateTime()"
    return "BigId" if kind == "type" and item is BigId else False


import_tables()
context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Base.metadata,
    render_as_batch=True,  # SQLite alters a table by rewriting it
    transactional_ddl=True,  # on SQLite as well, since we begin transactions ourselves
    transaction_per_migration=False,
    compare_type=True,
    render_item=in_our_words,
)
context.run_migrations()
