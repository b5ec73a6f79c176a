"""`companion run`: the real thing, until it is told to stop."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import Any


def add_parser(subparsers: Any) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = subparsers.add_parser(
        "run", help="run the companion; settings come from the environment or a file"
    )
    parser.add_argument("--settings", type=Path, metavar="FILE", help="settings file, lines like COMPANION_TOKEN=...")
    return parser


def run(args: argparse.Namespace) -> int:
    """Start, serve until SIGTERM or SIGINT, stop cleanly. All that is wrong with the settings is said at once."""
    from bot.settings import SettingsProblems, read_settings

    try:
        settings = read_settings(args.settings)
    except SettingsProblems as found:
        print("The companion cannot start:", *(f"  - {problem}" for problem in found.problems), sep="\n", file=sys.stderr)
        return 2

    from bot.cli.service import serve

    return serve(settings, _hooks(settings))


def _hooks(settings: Any) -> Any:
    from bot.cli.wiring import make_hooks

    return make_hooks(settings.public_url)
