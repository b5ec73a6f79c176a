"""How is a value kept? Whole, in one JSON column, with what it is looked up by in columns of its own.

A shelf holds the values of one class. The table names its key columns; their values are copied out of the value at each save, so
that a key can never say something else than the value. Storage needs no mapping code for each class, and a new field with a
default needs no migration; a new key column does.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Generic, TypeVar

from sqlalchemy import delete, func, select
from sqlalchemy.orm import Session

from bot.training.plain import from_plain, to_plain

V = TypeVar("V")


class Shelf(Generic[V]):
    """The values of one class.

    Looking up: `find(member_id=3)` equals; `find(on=(first, last))` both ends included; `find(day=[1, 2])` any of them.
    Oldest (lowest id) first.
    """

    def __init__(self, session: Session, table: Any, value_class: type[V]) -> None:
        self._session, self._table, self._class = session, table, value_class
        self._keys = tuple(c.name for c in table.__table__.columns if c.name not in ("id", "value"))

    def add(self, value: V) -> V:
        """Store a new value; returns it with its id."""
        row = self._table(value=to_plain(value), **{key: getattr(value, key) for key in self._keys})
        self._session.add(row)
        self._session.flush()
        return replace(value, id=row.id)  # type: ignore[type-var]

    def save(self, value: V) -> V:
        """Store a value that has an id; returns it."""
        row = self._session.get(self._table, value.id)  # type: ignore[attr-defined]
        if row is None:
            raise LookupError(f"nothing on record to save over: {type(value).__name__} {value.id}")  # type: ignore[attr-defined]
        row.value = to_plain(value)
        for key in self._keys:
            setattr(row, key, getattr(value, key))
        self._session.flush()
        return value

    def get(self, value_id: int) -> V | None:
        row = self._session.get(self._table, value_id)
        return self._value(row) if row is not None else None

    def find(self, **keys: Any) -> list[V]:
        rows = self._session.scalars(select(self._table).where(*self._conditions(keys)).order_by(self._table.id))
        return [self._value(row) for row in rows]

    def newest(self, **keys: Any) -> V | None:
        """The one stored last among those that match, or None."""
        query = select(self._table).where(*self._conditions(keys)).order_by(self._table.id.desc()).limit(1)
        row = self._session.scalars(query).first()
        return self._value(row) if row is not None else None

    def count(self, **keys: Any) -> int:
        return self._session.scalar(select(func.count()).select_from(self._table).where(*self._conditions(keys))) or 0

    def remove(self, **keys: Any) -> int:
        """Erase the values that match, for good; returns how many. Never without a key."""
        if not keys:
            raise ValueError("remove needs at least one key")
        return self._session.execute(delete(self._table).where(*self._conditions(keys))).rowcount  # type: ignore[attr-defined]

    def _value(self, row: Any) -> V:
        return replace(from_plain(row.value, self._class), id=row.id)  # type: ignore[type-var]

    def _conditions(self, keys: dict[str, Any]) -> list[Any]:
        conditions = []
        for key, wanted in keys.items():
            column = getattr(self._table, key)
            if isinstance(wanted, tuple):
                conditions.append(column.between(*wanted))
            elif isinstance(wanted, list):
                conditions.append(column.in_(wanted))
            else:
                conditions.append(column == wanted if wanted is not None else column.is_(None))
        return conditions
