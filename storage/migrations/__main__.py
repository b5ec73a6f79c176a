"""Write the next migration step: `python -m storage.migrations "why this step"`."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from alembic import command
from alembic.config import Config

from storage.engine import open_engines, sqlite_url
from storage.migrations import HERE, migrate


def write_step(message: str) -> None:
    """Compare the models with the last step, on a passing database, and write the difference as a new step."""
    with tempfile.TemporaryDirectory() as folder:
        engines = open_engines(sqlite_url(Path(folder) / "passing.sqlite3"))
        migrate(engines.write)
        config = Config()
        config.set_main_option("script_location", str(HERE))
        config.set_main_option("path_separator", "newline")
        number = f"{len(list((HERE / 'versions').glob('[0-9]*.py'))) + 1:04d}"
        with engines.write.begin() as connection:
            config.attributes["connection"] = connection
            command.revision(config, message, autogenerate=True, rev_id=number)
        engines.close()


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit('usage: python -m storage.migrations "why this step"')
    write_step(sys.argv[1])
