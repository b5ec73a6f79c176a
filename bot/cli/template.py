"""`companion template`: a block to start from, as text and as a spreadsheet of our own layout."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any


def add_parser(subparsers: Any) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = subparsers.add_parser(
        "template", help="write a block to start from, as text and as a spreadsheet"
    )
    parser.add_argument("--folder", type=Path, default=Path(), metavar="FOLDER", help="where to put them (default: here)")
    return parser


def run(args: argparse.Namespace) -> int:
    from bot.language.blocks import template_text, template_xlsx

    args.folder.mkdir(parents=True, exist_ok=True)
    (args.folder / "block-template.txt").write_text(template_text(), encoding="utf-8")
    (args.folder / "block-template.xlsx").write_bytes(template_xlsx())
    print(f"block-template.txt and block-template.xlsx are in {args.folder.resolve()}.")
    return 0
