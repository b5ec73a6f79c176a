"""`companion coach`: a one-time code for one more coach, also while the companion runs. Each coach has a group of their own."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import Any


def add_parser(subparsers: Any) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = subparsers.add_parser(
        "coach", help="show a one-time code that makes whoever sends it to the bot a coach"
    )
    parser.add_argument("--settings", type=Path, metavar="FILE", help="settings file, lines like COMPANION_DATA=...")
    return parser


def run(args: argparse.Namespace) -> int:
    from bot.settings import SettingsProblems, read_settings

    try:
        settings = read_settings(args.settings, needs_token=False)
    except SettingsProblems as error:
        print(error, file=sys.stderr)
        return 1
    where = settings.database_file
    if where is not None and not where.is_file():
        print(
            f"There is no data yet: {where} is not there. Start the companion first; it shows the first coach's code.",
            file=sys.stderr,
        )
        return 1
    code = _made(settings)
    if code is None:
        print(f"{where or 'The database'} cannot be used: has the companion been started with it, is it free?", file=sys.stderr)
        return 1
    print(
        "Whoever sends this code to the bot becomes a coach with a group of their own; it works once, and an earlier unused one no more:"
    )
    print(f"    {code}")
    return 0


def _made(settings: Any) -> str | None:
    """The code, kept as its hash alone; None where the database does not serve."""
    from bot.cli.service import RealClock
    from bot.cli.wiring import CompanionUnitOfWork
    from bot.coaching.coach import new_claim
    from storage.engine import open_engines
    from storage.unit_of_work import is_storage_trouble

    clock = RealClock()
    engines = open_engines(settings.database)
    try:
        with CompanionUnitOfWork(engines, clock.now) as uow:
            code = new_claim(uow, clock.now(), besides=True)
            uow.commit()
            return code
    except Exception as error:
        if not is_storage_trouble(error):
            raise
        return None
    finally:
        engines.close()
