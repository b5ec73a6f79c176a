"""`companion backup FILE`: a copy of the one file of data, whole and consistent, taken while the program runs."""

from __future__ import annotations

import argparse
import sqlite3
import sys
from contextlib import closing
from pathlib import Path
from typing import Any


class NotBackedUp(RuntimeError):
    """Why there is no copy; one sentence for the operator."""


def add_parser(subparsers: Any) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = subparsers.add_parser(
        "backup", help="copy all data into one file, also while the companion runs"
    )
    parser.add_argument("file", type=Path, help="where the copy goes; must not be there yet")
    parser.add_argument("--settings", type=Path, metavar="FILE", help="settings file, lines like COMPANION_DATA=...")
    return parser


def run(args: argparse.Namespace) -> int:
    from bot.settings import SettingsProblems, read_settings

    try:
        settings = read_settings(args.settings, needs_token=False)
        if settings.database_file is None:
            raise NotBackedUp(
                "The data is in a database of its own (COMPANION_DATABASE_URL): use that database's own backup, such as pg_dump."
            )
        size = back_up(settings.database_file, args.file)
    except (SettingsProblems, NotBackedUp) as error:
        print(error, file=sys.stderr)
        return 1
    print(f"Backed up to {args.file}, {size / 1024:.0f} KiB, checked. Keep it where this machine's end would not take it along.")
    return 0


def back_up(database: Path, target: Path) -> int:
    """Copy a database that may be in use, and check the copy; returns its size in bytes.

    Raises:
        NotBackedUp: nothing to copy, the target is there, or the copy does not check.
    """
    if not database.is_file():
        raise NotBackedUp(f"There is no data yet: {database} is not there.")
    if target.exists():
        raise NotBackedUp(f"{target} is there already; name a file that is not.")
    half = target.with_name(target.name + ".part")  # a broken-off copy must not look like a backup
    try:
        half.unlink(missing_ok=True)
        with closing(sqlite3.connect(f"file:{database}?mode=ro", uri=True)) as source, closing(sqlite3.connect(half)) as copy:
            source.backup(copy, pages=1_000)
            copy.execute("PRAGMA journal_mode = DELETE")  # one file, with no log beside it
            if (found := fault_of(copy)) is not None:
                raise NotBackedUp(f"The copy does not check ({found}): the data file may be damaged; keep your earlier backups.")
        half.rename(target)
    except (sqlite3.Error, OSError) as error:
        raise NotBackedUp(f"The copy could not be written to {target} ({error}).") from error
    finally:
        half.unlink(missing_ok=True)
    return target.stat().st_size


def fault_of(connection: sqlite3.Connection) -> str | None:
    """What is wrong with a database file; None when it is whole."""
    try:
        said = connection.execute("PRAGMA integrity_check(1)").fetchone()[0]
    except sqlite3.DatabaseError as error:
        return str(error)
    return None if said == "ok" else str(said)
