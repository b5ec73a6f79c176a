"""`companion restore FILE`: put a backup in the place of the data; what was there is kept beside it."""

from __future__ import annotations

import argparse
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

from bot.cli.data_file import NotDone, add_command, fault_of, with_data_file


class NotRestored(NotDone):
    """Why nothing was restored; one sentence for the operator."""


def add_parser(subparsers: Any) -> argparse.ArgumentParser:
    return add_command(
        subparsers,
        "restore",
        help="put a backup in the place of the data; stop the companion first",
        file="a file that `companion backup` has written",
    )


def run(args: argparse.Namespace) -> int:
    def act(database: Path) -> str:
        aside = restore(args.file, database)
        kept = f" What was there before is kept as {aside}." if aside else ""
        return f"Restored from {args.file}.{kept} Start the companion again."

    return with_data_file(args, act, elsewhere="use that database's own tools")


def restore(backup: Path, database: Path) -> Path | None:
    """Put a checked copy of a backup in the database's place; returns where the former data is kept, if there was any.

    Raises:
        NotRestored: the backup is not whole, or the data is in use; nothing is changed.
    """
    if not backup.is_file():
        raise NotRestored(f"There is no file {backup}.")
    try:
        with closing(sqlite3.connect(f"file:{backup}?mode=ro&immutable=1", uri=True)) as connection:
            fault = fault_of(connection)
            ours = (
                connection.execute("SELECT count(*) FROM sqlite_master WHERE name IN ('inbox', 'outbox', 'due')").fetchone()[0]
                == 3
            )
    except sqlite3.Error as error:
        raise NotRestored(f"{backup} is not a backup of the companion ({error}).") from None
    if fault or not ours:
        raise NotRestored(f"{backup} is not a whole backup of the companion ({fault or 'its tables are missing'}).")
    new = database.with_name(database.name + ".restoring")
    shutil.copyfile(backup, new)
    aside = _set_aside(database) if database.exists() else None
    new.replace(database)
    return aside


def _set_aside(database: Path) -> Path:
    """Move the data out of the way, its log folded in; refuses while another program has it open."""
    try:
        with closing(sqlite3.connect(database, timeout=0.5)) as connection:
            connection.execute("PRAGMA locking_mode = EXCLUSIVE")
            # Leaving the log mode needs the file for oneself: it fails while any other program has it open.
            mode = connection.execute("PRAGMA journal_mode = DELETE").fetchone()[0]
            if mode != "delete":
                raise sqlite3.OperationalError("in use")
        for ending in ("-wal", "-shm"):  # folded in by now
            database.with_name(database.name + ending).unlink(missing_ok=True)
    except sqlite3.OperationalError:
        raise NotRestored("The data is in use: stop the companion first, then restore.") from None
    except sqlite3.DatabaseError:
        pass  # damaged: moved aside as it is, with what lies beside it
    number = 1
    while (aside := database.with_name(f"{database.stem}.before-restore-{number}{database.suffix}")).exists():
        number += 1
    for ending in ("-wal", "-shm"):
        beside = database.with_name(database.name + ending)
        if beside.exists():
            beside.rename(aside.with_name(aside.name + ending))
    return database.rename(aside)
