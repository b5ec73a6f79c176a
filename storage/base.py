"""What do all tables share? One metadata with a naming convention, and a moment that is never naive.

Names of constraints come from the convention, so that a migration on any database can speak of them.
"""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any, ClassVar

from sqlalchemy import JSON, BigInteger, DateTime, Dialect, Integer, MetaData, TypeDecorator
from sqlalchemy.orm import DeclarativeBase

NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}

# Platform ids need up to 52 bits. SQLite's INTEGER has 64, and only under that name does a key become the row's own number.
BigId = BigInteger().with_variant(Integer, "sqlite")


class NaiveMoment(ValueError):
    """A moment without a zone was about to be stored."""


class UtcDateTime(TypeDecorator[datetime]):
    """A moment. Goes in aware (any zone), comes out aware in UTC; a naive one is refused."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        if value is None:
            return None
        if value.tzinfo is None:
            raise NaiveMoment(f"a stored moment needs a zone: {value!r}")
        in_utc = value.astimezone(UTC)
        return in_utc.replace(tzinfo=None) if dialect.name == "sqlite" else in_utc

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


class Base(DeclarativeBase):
    """Parent of all tables."""

    metadata = MetaData(naming_convention=NAMES)
    type_annotation_map: ClassVar[dict[Any, Any]] = {datetime: UtcDateTime(), dict[str, Any]: JSON(), list[Any]: JSON()}
