"""`companion backup FILE`: a copy of the one file of data, whole and consistent, taken while the program runs."""

from __future__ import annotations

import argparse
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

from bot.cli.data_file import NotDone, add_command, fault_of, with_data_file


class NotBackedUp(NotDone):
    """Why there is no copy; one sentence for the operator."""


def add_parser(subparsers: Any) -> argparse.ArgumentParser:
    return add_command(
        subparsers,
        "backup",
        help="copy all data into one file, also while the companion runs",
        file="where the copy goes; must not be there yet",
    )


def run(args: argparse.Namespace) -> int:
    def act(database: Path) -> str:
        kib = back_up(database, args.file) / 1024
        return f"Backed up to {args.file}, {kib:.0f} KiB, checked. Keep it where this machine's end would not take it along."

    return with_data_file(args, act, elsewhere="use that database's own backup, such as pg_dump")


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
