"""How is a value kept? Whole, as JSON text in one column, with what it is looked up by in columns of its own.

A shelf holds the values of one class. The table names its key columns; their values are copied out of the value at each save, so
that a key can never say something else than the value. Storage needs no mapping code for each class, and a new field with a
default needs no migration; a new key column does.

Deeds look the same things up many times within one transaction, in which nobody else writes what they see (BEGIN IMMEDIATE; on
PostgreSQL one chat is one lane). So a shelf remembers what it found until something is written that the finding may concern, and the
decoding of a text into its frozen value is remembered for the process. Statements are built once for each shape of question.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Iterable
from dataclasses import replace
from functools import lru_cache
from typing import Any, Generic, TypeVar

from sqlalchemy import Select, bindparam, delete, func, insert, select, update
from sqlalchemy.orm import Session

from bot.training.plain import from_plain, to_plain

V = TypeVar("V")
_DECODED = 20_000  # values remembered; a set's text and value are about 1.5 KB together


class Shelf(Generic[V]):
    """The values of one class.

    Looking up: `find(member_id=3)` equals; `find(on=(first, last))` both ends included; `find(day=[1, 2])` any of them.
    Oldest (lowest id) first.
    """

    def __init__(self, session: Session, table: Any, value_class: type[V]) -> None:
        self._session, self._table, self._class = session, table.__table__, value_class
        self._keys = _keys_of(self._table)
        self._found: dict[Any, list[V]] = {}
        self._newest: dict[Any, V | None] = {}

    def add(self, value: V) -> V:
        """Store a new value; returns it with its id."""
        result = self._session.connection().execute(_insert(self._table), self._row(value))
        added: V = replace(value, id=int(result.inserted_primary_key[0]))  # type: ignore[type-var,index]
        self._forget_about(added)
        return added

    def save(self, value: V) -> V:
        """Store a value that has an id; returns it."""
        self._forget_about(value)
        row = self._row(value) | {"the_id": value.id}  # type: ignore[attr-defined]
        if self._session.connection().execute(_update(self._table, self._keys), row).rowcount == 0:
            raise LookupError(f"nothing on record to save over: {type(value).__name__} {value.id}")  # type: ignore[attr-defined]
        return value

    def forget(self) -> None:
        """Look everything up anew."""
        self._found.clear()
        self._newest.clear()

    def get(self, value_id: int) -> V | None:
        found = self.find(id=value_id)
        return found[0] if found else None

    def find(self, **keys: Any) -> list[V]:
        shape, asked = _shape(keys), _asked(keys)
        if (shape, asked) not in self._found:
            rows = self._session.connection().execute(_select(self._table, shape), _given(keys))
            self._found[shape, asked] = [self._value(*row) for row in rows]
        return list(self._found[shape, asked])

    def newest(self, **keys: Any) -> V | None:
        """The one stored last among those that match, or None."""
        shape, asked = _shape(keys), _asked(keys)
        if (shape, asked) not in self._newest:
            row = self._session.connection().execute(_newest(self._table, shape), _given(keys)).first()
            self._newest[shape, asked] = self._value(*row) if row is not None else None
        return self._newest[shape, asked]

    def foresee(self, key: str, wanted: Collection[int], **same: Any) -> None:
        """Look up for many at once what `find` and `newest` will be asked for each: `foresee("member_id", [3, 4], active=True)`."""
        names = {one: (_shape(keys := {key: one, **same}), _asked(keys)) for one in wanted}
        found: dict[int, list[V]] = {one: [] for one, name in names.items() if name not in self._found}
        for value in self.find(**{key: sorted(found)}, **same) if found else ():
            found[getattr(value, key)].append(value)
        for one, values in found.items():
            self._found[names[one]] = values
            self._newest[names[one]] = values[-1] if values else None

    def count(self, **keys: Any) -> int:
        query = select(func.count()).select_from(self._table).where(*_conditions(self._table, _shape(keys)))
        return int(self._session.connection().execute(query, _given(keys)).scalar_one())

    def remove(self, **keys: Any) -> int:
        """Erase the values that match, for good; returns how many. Never without a key."""
        if not keys:
            raise ValueError("remove needs at least one key")
        self.forget()
        query = delete(self._table).where(*_conditions(self._table, _shape(keys)))
        return self._session.connection().execute(query, _given(keys)).rowcount

    def _forget_about(self, value: V) -> None:
        """Look anew where this value was found, or would be found now."""
        the_id = value.id  # type: ignore[attr-defined]
        for asked, values in list(self._found.items()):
            if _fits(value, *asked) or any(one.id == the_id for one in values):  # type: ignore[attr-defined]
                del self._found[asked]
        for asked, newest in list(self._newest.items()):
            if _fits(value, *asked) or (newest is not None and newest.id == the_id):  # type: ignore[attr-defined]
                del self._newest[asked]

    def _row(self, value: V) -> dict[str, Any]:
        keys = {key: getattr(value, key) for key in self._keys}
        return {"value": json.dumps(to_plain(value), ensure_ascii=False, separators=(",", ":")), **keys}

    def _value(self, row_id: int, text: str) -> V:
        kind: Any = self._class
        value: V = _decoded(kind, row_id, text)
        return value


@lru_cache(maxsize=100)
def _keys_of(table: Any) -> tuple[str, ...]:
    return tuple(column.name for column in table.columns if column.name not in ("id", "value"))


@lru_cache(maxsize=_DECODED)
def _decoded(kind: type[Any], row_id: int, text: str) -> Any:
    return replace(from_plain(json.loads(text), kind), id=row_id)


Shape = tuple[tuple[str, str], ...]


def _shape(keys: dict[str, Any]) -> Shape:
    """Which keys are asked for, in the order of their names, and how: "=", "between", "in", "null"."""
    return tuple((key, _how(keys[key])) for key in sorted(keys))


def _how(wanted: Any) -> str:
    if wanted is None:
        return "null"
    return "between" if isinstance(wanted, tuple) else "in" if isinstance(wanted, list) else "="


def _asked(keys: dict[str, Any]) -> tuple[Any, ...]:
    """What the keys are asked to be, in the order of their names, as it can be remembered by."""
    return tuple(tuple(wanted) if isinstance(wanted := keys[key], list) else wanted for key in sorted(keys))


def _fits(value: Any, shape: Shape, asked: tuple[Any, ...]) -> bool:
    """Would the question find this value?"""
    return all(_matches(getattr(value, key), how, wanted) for (key, how), wanted in zip(shape, asked, strict=True))


def _matches(has: Any, how: str, wanted: Any) -> bool:
    if has is None or how == "null":
        return has is None and how == "null"
    if how == "between":
        return bool(wanted[0] <= has <= wanted[1])
    return has in wanted if how == "in" else bool(has == wanted)


def _given(keys: dict[str, Any]) -> dict[str, Any]:
    given: dict[str, Any] = {}
    for key, wanted in keys.items():
        if isinstance(wanted, tuple):
            given[f"{key}_from"], given[f"{key}_to"] = wanted
        elif wanted is not None:
            given[f"{key}_is"] = wanted
    return given


def _conditions(table: Any, shape: Iterable[tuple[str, str]]) -> list[Any]:
    conditions = []
    for key, how in shape:
        column = table.c[key]
        if how == "null":
            conditions.append(column.is_(None))
        elif how == "between":
            conditions.append(
                column.between(bindparam(f"{key}_from", type_=column.type), bindparam(f"{key}_to", type_=column.type))
            )
        elif how == "in":
            conditions.append(column.in_(bindparam(f"{key}_is", expanding=True, type_=column.type)))
        else:
            conditions.append(column == bindparam(f"{key}_is", type_=column.type))
    return conditions


@lru_cache(maxsize=500)
def _select(table: Any, shape: Shape) -> Select[Any]:
    return select(table.c.id, table.c.value).where(*_conditions(table, shape)).order_by(table.c.id)


@lru_cache(maxsize=500)
def _newest(table: Any, shape: Shape) -> Select[Any]:
    return select(table.c.id, table.c.value).where(*_conditions(table, shape)).order_by(table.c.id.desc()).limit(1)


@lru_cache(maxsize=100)
def _insert(table: Any) -> Any:
    return insert(table)


@lru_cache(maxsize=100)
def _update(table: Any, keys: tuple[str, ...]) -> Any:
    return update(table).where(table.c.id == bindparam("the_id")).values({name: bindparam(name) for name in (*keys, "value")})
