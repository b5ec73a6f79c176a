"""Each test gets a migrated database of its own: SQLite always, PostgreSQL as well where COMPANION_TEST_POSTGRES names one."""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sqlalchemy import text

from storage.engine import Engines, open_engines, sqlite_url
from storage.migrations import migrate

POSTGRES = os.environ.get("COMPANION_TEST_POSTGRES", "")
NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)


@pytest.fixture(params=["sqlite", *(["postgresql"] if POSTGRES else [])])
def engines(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Engines]:
    opened = open_engines(POSTGRES if request.param == "postgresql" else sqlite_url(tmp_path / "companion.sqlite3"))
    if request.param == "postgresql":
        with opened.write.begin() as connection:
            connection.execute(text("DROP SCHEMA public CASCADE"))
            connection.execute(text("CREATE SCHEMA public"))
    migrate(opened.write)
    yield opened
    opened.close()


@pytest.fixture
def noon() -> datetime:
    return NOON
