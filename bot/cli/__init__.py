"""The commands of the program: `companion <command>`. Each is a module of its own; what is heavy is imported when it runs."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from importlib import import_module

COMMANDS = ("run", "demo", "coach", "backup", "restore", "aside", "understand", "template")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a command; returns what the shell shall see: 0 well, 1 failed, 2 wrongly called."""
    parser = argparse.ArgumentParser(
        prog="companion", description="A training-block companion for a coach and a group that trains alone."
    )
    commands = parser.add_subparsers(title="commands", metavar="<command>", required=True)
    for name in COMMANDS:
        module = import_module(f"bot.cli.{name}")
        module.add_parser(commands).set_defaults(run=module.run)
    given = parser.parse_args(sys.argv[1:] if arguments is None else arguments)
    try:
        return int(given.run(given))
    except KeyboardInterrupt:
        return 130
