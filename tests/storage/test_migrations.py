"""A database climbs to this version by itself, equals the models then, and one of a newer version is refused."""

from __future__ import annotations

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import inspect, text

from storage.base import Base
from storage.engine import Engines
from storage.migrations import NewerDatabase, import_tables, migrate


def test_the_migrated_tables_equal_the_models(engines: Engines) -> None:
    """What this lists, `python -m storage.migrations "why"` writes as the next step."""
    import_tables()
    with engines.write.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})

        assert compare_metadata(context, Base.metadata) == []


def test_a_second_start_changes_nothing(engines: Engines) -> None:
    first = migrate(engines.write)

    assert migrate(engines.write) == first


def test_a_database_of_a_newer_version_is_refused_and_left_alone(engines: Engines) -> None:
    known = migrate(engines.write)
    with engines.write.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))

    with pytest.raises(NewerDatabase) as caught:
        migrate(engines.write)

    assert str(caught.value) == (
        f"The database was last used by a newer version (it stands at step 9999, this version knows steps up to {known}): "
        "install that version again, or restore a backup made before the upgrade."
    )
    with engines.write.connect() as connection:
        assert connection.execute(text("SELECT version_num FROM alembic_version")).scalar() == "9999"


def test_an_upgrade_that_fails_half_way_leaves_nothing_behind(engines: Engines, monkeypatch: pytest.MonkeyPatch) -> None:
    """The steps run in one transaction, also on SQLite."""
    with engines.write.begin() as connection:
        for table in reversed(inspect(connection).get_table_names()):
            connection.execute(text(f'DROP TABLE "{table}"' + ("" if engines.is_sqlite else " CASCADE")))
        connection.execute(text("CREATE TABLE outbox (id INTEGER)"))  # in the way of the first step's second table

    with pytest.raises(Exception, match="outbox"):
        migrate(engines.write)

    with engines.write.connect() as connection:
        assert [name for name in inspect(connection).get_table_names() if name != "outbox"] == []
