"""`companion understand "TEXT"`: how is a member's text read, and which words gave which numbers?"""

from __future__ import annotations

import argparse
import json
import sys
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any


def add_parser(subparsers: Any) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = subparsers.add_parser("understand", help="show how a text about sets is read, and why")
    parser.add_argument("text", help="the message, as a member would send it")
    parser.add_argument("--json", action="store_true", help="print the reading as JSON")
    parser.add_argument("--block", type=Path, metavar="FILE", help="the block to read it against, as the coach writes it")
    parser.add_argument("--day", type=int, default=1, metavar="N", help="which day of the block is today's (1)")
    parser.add_argument("--slot", metavar="LABEL", help="the slot that is due, such as B1 (the first)")
    parser.add_argument("--now", metavar="TIME", help="the moment, such as 2026-03-04T18:30+00:00")
    parser.add_argument("--unit", choices=("kg", "lb"), default="kg", help="the member's unit (kg)")
    return parser


def run(args: argparse.Namespace) -> int:
    """Print the reading; 2 if the block, slot or time given cannot be used."""
    from bot.language import Situation, read
    from bot.language.reading.explain import explain
    from bot.training.blocks import SetPlace
    from bot.training.loads import Unit
    from bot.training.plain import to_plain

    try:
        now = datetime.fromisoformat(args.now) if args.now else datetime.now(UTC)  # noqa: TID251
        now = now if now.tzinfo else now.replace(tzinfo=UTC)
        block = _block(args.block)
    except (ValueError, OSError) as error:
        print(f"That cannot be used: {error}", file=sys.stderr)
        return 2
    day = block.day(args.day)
    if day is None or (args.slot and day.slot(args.slot.upper()) is None):
        print(f"The block has no day {args.day}{f' with a slot {args.slot}' if args.slot else ''}.", file=sys.stderr)
        return 2
    situation = Situation(now=now, day=day, block=block, unit=Unit(args.unit))
    if args.slot:
        situation = replace(situation, due_override=SetPlace(args.slot.upper(), 1))
    reading = read(args.text, situation)
    print(json.dumps(to_plain(reading), indent=2, ensure_ascii=False, default=str) if args.json else explain(reading))
    return 0


def _block(path: Path | None) -> Any:
    """The block of a file, or a small one to try things with."""
    from bot.training.blocks import Block, Day, ExerciseId, Measure, SetTarget, Sides, Slot

    if path is not None:
        from bot.language.blocks import read_block
        from bot.training.exercises.catalogue import load_catalogue

        reading = read_block(path.read_bytes(), filename=path.name, catalogue=load_catalogue())
        if reading.block is None:
            raise ValueError("; ".join(problem.sentence for problem in reading.problems) or f"{path} holds no block")
        return reading.block
    reps, seconds = SetTarget(10, 12), SetTarget(45, 45, Measure.SECONDS)
    slots = (
        Slot("A1", "Goblet squat", (reps,) * 3, ExerciseId("goblet_squat")),
        Slot("A2", "Push-up", (reps,) * 3, ExerciseId("push_up")),
        Slot("B1", "One-arm dumbbell row", (reps,) * 3, ExerciseId("one_arm_dumbbell_row"), Sides.EACH),
        Slot("B2", "Plank", (seconds,) * 3, ExerciseId("plank")),
    )
    return Block("To try things with", (Day(1, "Whole body", slots),))
