"""What `backup` and `restore` share: their words on the command line, and the one file of data that both are about."""

from __future__ import annotations

import argparse
import sqlite3
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any


class NotDone(RuntimeError):
    """Why nothing was copied; one sentence for the operator."""


def add_command(subparsers: Any, name: str, *, help: str, file: str) -> argparse.ArgumentParser:
    """A command that takes one file, and the settings that say where the data is."""
    parser: argparse.ArgumentParser = subparsers.add_parser(name, help=help)
    parser.add_argument("file", type=Path, help=file)
    parser.add_argument("--settings", type=Path, metavar="FILE", help="settings file, lines like COMPANION_DATA=...")
    return parser


def with_data_file(args: argparse.Namespace, act: Callable[[Path], str], *, elsewhere: str) -> int:
    """Do something with the file of data and print what it says; returns what the shell shall see.

    elsewhere: what to do instead where the data is in a database of its own.
    """
    from bot.settings import SettingsProblems, read_settings

    try:
        settings = read_settings(args.settings, needs_token=False)
        if settings.database_file is None:
            raise NotDone(f"The data is in a database of its own (COMPANION_DATABASE_URL): {elsewhere}.")
        print(act(settings.database_file))
    except (SettingsProblems, NotDone) as error:
        print(error, file=sys.stderr)
        return 1
    return 0


def fault_of(connection: sqlite3.Connection) -> str | None:
    """What is wrong with a database file; None when it is whole."""
    try:
        said = connection.execute("PRAGMA integrity_check(1)").fetchone()[0]
    except sqlite3.DatabaseError as error:
        return str(error)
    return None if said == "ok" else str(said)
