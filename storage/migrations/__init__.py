"""How does a database of an older version become one of this version? By the steps in `versions/`, on start, in one transaction.

    python -m storage.migrations "why this step"     writes the next step, from what the models say beyond the last one

A database that a newer version has written is refused: its newer columns would be lost on the way.
"""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import Engine

HERE = Path(__file__).parent


class NewerDatabase(RuntimeError):
    """The database knows steps that this version does not."""

    def __init__(self, *, found: str, newest_known: str) -> None:
        self.found, self.newest_known = found, newest_known
        super().__init__(
            f"The database was last used by a newer version (it stands at step {found}, this version knows steps up to "
            f"{newest_known}): install that version again, or restore a backup made before the upgrade."
        )


def migrate(engine: Engine) -> str:
    """Bring a database up to date; creates an empty one's tables. Returns the step it stands at.

    Raises:
        NewerDatabase: a newer version has written it; nothing is changed.
    """
    from alembic import command
    from alembic.config import Config
    from alembic.runtime.migration import MigrationContext
    from alembic.script import ScriptDirectory

    config = Config()
    config.set_main_option("script_location", str(HERE).replace("%", "%%"))
    config.set_main_option("path_separator", "newline")
    script = ScriptDirectory.from_config(config)
    head = script.get_current_head() or ""
    with engine.begin() as connection:
        found = MigrationContext.configure(connection).get_current_revision()
        if found == head:
            return head
        if found is not None and found not in {step.revision for step in script.walk_revisions()}:
            raise NewerDatabase(found=found, newest_known=head)
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
    return head


def import_tables() -> None:
    """Import every module that declares tables, so that the models' metadata is whole."""
    import importlib
    import pkgutil

    import storage

    for module in pkgutil.iter_modules(storage.__path__):
        if module.name in ("inbox", "outbox", "due") or module.name.startswith("tables"):
            importlib.import_module(f"storage.{module.name}")
