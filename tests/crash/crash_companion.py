"""Kill the companion with its real deeds at random moments: `python -m tests.crash.crash_companion [kills] [seed]`.

A coach opens a group and publishes a block, members join, then text one set after the other while the program is killed (SIGKILL) and
started again. Judged by the database file alone, text by text: each stands once in `message`, and the set that it tells stands once, and
rightly, in `set_record`, so that no loss is made up for by a double. Where the kills fell is counted too: those that met nothing tell nothing.

`--after S` kills up to S seconds after the program's next call instead of at any moment: the thick of its work. `--slow S` lets
the platform take S seconds over each message, so that answers are on the wire at the kill. `--pause S` is the mean time between kills.
"""

from __future__ import annotations

import argparse
import asyncio
import json
import os
import random
import re
import signal
import sqlite3
import sys
import tempfile
from collections import Counter
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from scenarios.player import Person
from scenarios.standin import NotPossible, StandIn, slow
from tests.builders.stage import BLOCK, KIT

MEMBERS = 6
SLOTS = (("A1", 3), ("A2", 2), ("B1", 2))  # of the block's first day


async def until(true: Callable[[], Any], *, within_s: float = 40.0) -> Any:
    """Wait until something is there; real time, since a real process is watched."""
    for _ in range(int(within_s / 0.05)):
        try:
            if found := true():
                return found
        except NotPossible:
            pass
        await asyncio.sleep(0.05)
    raise TimeoutError("the program did not answer")


async def start(environment: dict[str, str]) -> asyncio.subprocess.Process:
    return await asyncio.create_subprocess_exec(
        sys.executable, "-m", "bot", "run", env=environment, stdout=asyncio.subprocess.PIPE, stderr=asyncio.subprocess.DEVNULL
    )


async def open_group(standin: StandIn, program: asyncio.subprocess.Process, people: list[Person]) -> None:
    assert program.stdout is not None
    code = ""
    while not code:
        line = (await program.stdout.readline()).decode().strip()
        code = line if re.fullmatch(r"[0-9a-f]{4}(?:-[0-9a-f]{4}){2}", line) else ""
    coach = standin.person("Ines")
    await coach.follows_link(f"https://t.me/{standin.username}?start={code}")
    link = (await until(lambda: re.search(r"https://t\.me/\S+", coach.last.text)))[0].rstrip(".,")
    await coach.says(BLOCK)
    await until(lambda: "Publish now" in coach.last.labels)
    await coach.presses("Publish now")
    for person in people:
        await person.follows_link(link)
        for label in ("Yes, I agree", "kilograms"):
            await until(lambda person=person, label=label: label in person.last.labels)  # type: ignore[misc]
            await person.presses(label)
        await until(lambda person=person: "In which town" in person.last.text)  # type: ignore[misc]
        await person.says("Lisbon")
        await until(lambda person=person: "Which one is it" in person.last.text)  # type: ignore[misc]
        await person.presses(person.last.labels[0])
        await until(lambda person=person: "Done" in person.last.labels)  # type: ignore[misc]
        await person.says(KIT)
        await until(lambda person=person: "So far" in person.last.text)  # type: ignore[misc]
        await person.presses("Done")
        await until(lambda person=person: "Monday" in person.last.labels)  # type: ignore[misc]
        await person.presses("Monday")
        await until(lambda person=person: "No reminders" in person.last.labels)  # type: ignore[misc]
        await person.presses("No reminders")
        await until(lambda person=person: "You are in" in person.last.text)  # type: ignore[misc]


def texts_of(number: int) -> list[str]:
    """One text for each set of the day, all different."""
    load = {"A1": "16x", "A2": "", "B1": "24x"}
    return [f"{label} {load[label]}{8 + (number + n) % 5}" for label, sets in SLOTS for n in range(sets)]


Sent = dict[tuple[int, int], str]  # (chat, platform message) -> text


async def write(people: list[Person], pause_s: float, chance: random.Random, sent: Sent) -> None:
    for n in range(sum(sets for _, sets in SLOTS)):
        for number, person in enumerate(people):
            text = texts_of(number)[n]
            message = await person.says(text)
            sent[person.id, message.id] = text
            await asyncio.sleep(chance.uniform(0, 2 * pause_s))


def asked(folder: Path, query: str) -> list[tuple[Any, ...]]:
    with closing(sqlite3.connect(folder / "companion.sqlite3", timeout=10)) as connection:
        return connection.execute(query).fetchall()


def waiting(folder: Path, table: str) -> int:
    return int(asked(folder, f"SELECT count(*) FROM {table} WHERE state = 'waiting'")[0][0])


@dataclass
class Met:
    """What the kills met."""

    program_not_calling: int = 0
    updates_unconfirmed: int = 0
    stored_unhandled: int = 0
    answers_unsent: int = 0

    def __str__(self) -> str:
        return (
            f"a program not calling yet {self.program_not_calling}, updates unconfirmed {self.updates_unconfirmed}, "
            f"stored and unhandled {self.stored_unhandled}, answers unsent {self.answers_unsent}"
        )


@dataclass
class Found:
    """Every text held against the tables; the lists name the texts."""

    lost_messages: list[str] = field(default_factory=list)
    doubled_messages: list[str] = field(default_factory=list)
    lost_sets: list[str] = field(default_factory=list)
    doubled_sets: list[str] = field(default_factory=list)
    wrong_sets: list[str] = field(default_factory=list)

    def __str__(self) -> str:
        return ", ".join(f"{len(texts)} {name.replace('_', ' ')}" for name, texts in vars(self).items())


_SETS = """\
SELECT m.chat_id, m.message_id, r.label, r.number, r.value FROM set_record r JOIN message m ON m.id = r.message_id WHERE r.active = 1"""
_TWINS = "SELECT session_id, label, number FROM set_record WHERE active = 1 GROUP BY 1, 2, 3 HAVING count(*) > 1"


def judge(folder: Path, sent: Sent) -> Found:
    """Each text against the tables: it is kept once, and its set is on record once, in its place, with its count."""
    found = Found()
    kept = Counter(asked(folder, "SELECT chat_id, message_id FROM message"))
    sets: dict[tuple[int, int], list[tuple[str, int, int]]] = {}
    for chat, message, label, number, value in asked(folder, _SETS):
        sets.setdefault((chat, message), []).append((label, number, json.loads(value)["record"]["done"]["count"]))
    told: Counter[tuple[int, str]] = Counter()
    for key, text in sent.items():
        label, count = text.split()[0], int(re.split(r"[ x]", text)[-1])
        told[key[0], label] += 1
        mine = sets.pop(key, [])
        if kept[key] != 1:
            (found.doubled_messages if kept[key] else found.lost_messages).append(text)
        if len(mine) != 1:
            (found.doubled_sets if mine else found.lost_sets).append(text)
        found.wrong_sets += [f"{text}: {got}" for got in mine if got != (label, told[key[0], label], count)]
    found.doubled_sets += [f"session {session} {label}.{number}" for session, label, number in asked(folder, _TWINS)]
    found.wrong_sets += [f"{extra} of no text" for rows in sets.values() for extra in rows]
    return found


async def kill(program: asyncio.subprocess.Process, standin: StandIn, given: argparse.Namespace, chance: random.Random) -> bool:
    """Kill at a random moment; says whether the program had called the platform since it was started."""
    calls = len(standin.calls)
    if given.after:
        await until(lambda: len(standin.calls) > calls)
        await asyncio.sleep(chance.uniform(0, given.after))
    else:
        await asyncio.sleep(chance.uniform(0.2, 1.8) * given.pause)
    program.send_signal(signal.SIGKILL)
    await program.wait()
    return len(standin.calls) > calls


async def harry(standin: StandIn, folder: Path, given: argparse.Namespace) -> tuple[Sent, Met, str]:
    """Let people train while the program is killed again and again; then let it finish."""
    chance, sent, met = random.Random(given.seed), Sent(), Met()
    environment = {
        **os.environ, "COMPANION_TOKEN": standin.token, "COMPANION_BASE_URL": standin.url, "COMPANION_DATA": str(folder),
        "COMPANION_SENDS_PER_S": "1000", "COMPANION_LOG_LEVEL": "ERROR",
    }  # fmt: skip
    program = await start(environment)
    people = [standin.person(f"Member {n}") for n in range(MEMBERS)]
    await open_group(standin, program, people)
    if given.slow:
        standin.misbehave(slow(given.slow), times=None, method="sendMessage")
    texts = MEMBERS * sum(sets for _, sets in SLOTS)
    writing = asyncio.create_task(write(people, 1.2 * given.pause * given.kills / texts, chance, sent))
    for _ in range(given.kills):
        met.program_not_calling += not await kill(program, standin, given, chance)
        met.updates_unconfirmed += standin.waiting > 0
        met.stored_unhandled += waiting(folder, "inbox") > 0
        met.answers_unsent += waiting(folder, "outbox") > 0
        program = await start(environment)
    await writing
    stuck = ""
    try:
        await asyncio.wait_for(standin.all_taken(), 60)
        await until(lambda: not waiting(folder, "inbox"), within_s=90)
    except TimeoutError:
        stuck = f"never finished: {standin.waiting} unconfirmed, {waiting(folder, 'inbox')} unhandled"
    program.send_signal(signal.SIGTERM)
    await asyncio.wait_for(program.wait(), 20)
    return sent, met, stuck


async def main(given: argparse.Namespace) -> int:
    with tempfile.TemporaryDirectory() as data:
        async with StandIn() as standin:
            sent, met, stuck = await harry(standin, Path(data), given)
        found = judge(Path(data), sent)
    print(f"{given.kills} kills, seed {given.seed}, {len(sent)} texts: {found}")
    print(f"of the kills met: {met}")
    for name, texts in vars(found).items():
        if texts:
            print(f"{name.replace('_', ' ')}: {', '.join(texts[:10])}")
    if stuck:
        print(stuck)
    return 1 if stuck or any(vars(found).values()) else 0


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("kills", type=int, nargs="?", default=20)
    parser.add_argument("seed", type=int, nargs="?", default=1)
    parser.add_argument("--after", type=float, default=0.0)
    parser.add_argument("--slow", type=float, default=0.0)
    parser.add_argument("--pause", type=float, default=2.2)
    sys.exit(asyncio.run(main(parser.parse_args())))
