"""`companion demo`: a month in the life of an invented group, played through the whole program; no account, no network, no token."""

from __future__ import annotations

import argparse
import asyncio
import sys
from pathlib import Path
from typing import Any


def add_parser(subparsers: Any) -> argparse.ArgumentParser:
    parser: argparse.ArgumentParser = subparsers.add_parser(
        "demo", help="play a month of an invented group; leaves chats, charts and records in a folder"
    )
    parser.add_argument("--folder", type=Path, default=Path("demo"), metavar="FOLDER", help="where to leave them (default: demo)")
    return parser


def run(args: argparse.Namespace) -> int:
    """Play, print the conversation as it goes, and leave the folder."""
    try:
        args.folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        print(f"The demo cannot write to {args.folder}: {error.strerror}. Name another with --folder.", file=sys.stderr)
        return 1
    asyncio.run(_play(args.folder))
    return 0


async def _play(folder: Path) -> None:
    from bot.cli.service import open_log
    from scenarios.lives.month import BEFORE, Month
    from scenarios.player import opened
    from scenarios.printing import Printer

    open_log("ERROR")
    async with opened(BEFORE) as play:
        printer = Printer(sys.stdout)
        month = Month(play)
        month.tell = Telling(printer, month)
        await month.run()
        printer.finish()
        _leave(folder, play.program, month)
    print(f"\nThe chats, charts and records are in {folder}. Begin with {folder / 'index.html'}.")


class Telling:
    """Prints what is new in every chat, in order of time, after each act of the play."""

    def __init__(self, printer: Any, month: Any) -> None:
        self._printer, self._month = printer, month
        self._shown: dict[int, int] = {}

    def __call__(self, share: float, what: str) -> None:
        new = []
        for person, zone in self._month.chats():
            messages = person.sees()
            new += [(m.at, m.id, m, zone, person.name) for m in messages[self._shown.get(person.id, 0) :]]
            self._shown[person.id] = len(messages)
        for _, _, message, zone, name in sorted(new, key=lambda each: each[:2]):
            self._printer.message(message, zone=zone, chat=name)
        self._printer.progress(round(1000 * share), 1000, what)


def _leave(folder: Path, program: Any, month: Any) -> None:
    """Each chat as a page, every picture that was sent, all set records as one table."""
    import csv
    import io

    from bot.coaching.own_data import records_csv
    from scenarios.pages import Entry, chat_page, index_page, write_page

    entries = []
    for person, zone in month.chats():
        about = month.about(person)
        file = f"{person.name.lower()}.html"
        write_page(folder, file, chat_page(person.chat, zone=zone, title=f"{person.name}'s chat", about=about))
        entries.append(Entry(file, person.name, about))
    write_page(
        folder, "index.html", index_page(entries, title="The harbour group's month", about="Played through the whole program.")
    )
    for person, _ in month.chats():
        pictures = [m for m in person.from_bot() if m.file is not None and m.file.kind == "photo"]
        for number, message in enumerate(pictures, 1):
            (folder / f"{person.name.lower()}-{number}-{message.at:%m-%d}.png").write_bytes(message.file.content)
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    with program.open_uow(reads=True) as uow:
        for number, member in enumerate(uow.members.find()):
            texts = {message.id: message.text for message in uow.messages.find(member_id=member.id)}
            rows = list(csv.reader(io.StringIO(records_csv(uow.records.find(member_id=member.id, active=True), texts))))
            if number == 0:
                writer.writerow(["member", *rows[0]])
            writer.writerows([member.name, *row] for row in rows[1:])
    (folder / "sets.csv").write_text(out.getvalue(), encoding="utf-8", newline="")
