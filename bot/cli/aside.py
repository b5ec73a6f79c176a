"""`companion aside`: which updates were set aside because they could not be handled, and take one back in."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from storage.inbox import ParkedRow

AGAIN = "`companion aside NUMBER` takes one back in, to be handled again."


class NotThere(RuntimeError):
    """What was asked for is not there; one sentence for the operator."""


def add_parser(subparsers: Any) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = subparsers.add_parser(
        "aside", help="list the updates that could not be handled, or take one back in"
    )
    parser.add_argument("number", type=int, nargs="?", help="the one to take back in; without it all are listed")
    parser.add_argument("--settings", type=Path, metavar="FILE", help="settings file, lines like COMPANION_DATA=...")
    return parser


def run(args: argparse.Namespace) -> int:
    """Print the list, or what became of the one; 1 if there is nothing to look at."""
    from sqlalchemy.exc import DBAPIError

    from bot.settings import SettingsProblems, read_settings
    from storage.engine import open_engines

    try:
        settings = read_settings(args.settings, needs_token=False)
        if settings.database_file is not None and not settings.database_file.is_file():
            raise NotThere(f"There is no data yet: {settings.database_file} is not there.")
        engines = open_engines(settings.database)
        try:
            print(listed(engines) if args.number is None else take_back(engines, args.number))
        finally:
            engines.close()
    except (SettingsProblems, NotThere) as error:
        print(error, file=sys.stderr)
        return 1
    except DBAPIError as error:
        print(f"The database cannot be used ({type(error.orig).__name__}); `companion run` makes it ready.", file=sys.stderr)
        return 1
    return 0


def listed(engines: Any) -> str:
    """Number, moment, kind and cause of each, oldest first. Never what somebody wrote."""
    from storage.unit_of_work import UnitOfWork

    with UnitOfWork(engines, _no_time, reads=True) as uow:
        rows: Sequence[ParkedRow] = uow.inbox.parked()
    if not rows:
        return "Nothing is set aside."
    lines = [
        f"{row.id:>8}  {row.received_at_utc:%Y-%m-%d %H:%M} UTC  {_kind(row.body):<16}  {_cause(row.reason or '')}"
        for row in rows
    ]
    return "\n".join([f"Set aside: {len(rows)}.", *lines, AGAIN])


def take_back(engines: Any, number: int) -> str:
    """Let one be handled again; says what happens next.

    Raises:
        NotThere: no such update is set aside.
    """
    from storage.unit_of_work import UnitOfWork

    with UnitOfWork(engines, _no_time) as uow:
        if not uow.inbox.unpark(number):
            raise NotThere(f"Number {number} is not set aside; `companion aside` lists those that are.")
        uow.commit()
    return f"Number {number} is taken back in. A companion that runs handles it within a minute, else the next start does."


def _no_time() -> Any:
    """Neither listing nor taking back depends on the moment."""
    return None


def _kind(body: Any) -> str:
    """What sort of update: `message`, `callback_query` ..., never its content."""
    from bot.chat.intake import ALLOWED_UPDATES

    return next((kind for kind in ALLOWED_UPDATES if isinstance(body, dict) and kind in body), "of no known kind")


def _cause(reason: str) -> str:
    """The part of the reason that holds nobody's words: the error's name, or our own sentence."""
    head, colon, _ = reason.partition(": ")
    return reason if head == "ended the program" or not colon else head
