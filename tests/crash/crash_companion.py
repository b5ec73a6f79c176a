"""Kill the companion with its real deeds at random moments: `python -m tests.crash.crash_companion [kills] [seed]`.

A coach opens a group and publishes a block, members join, then text one set after the other while the program is killed (SIGKILL) and
started again. Judged by the database file alone: as many sets stand as were sent, no message row and no set stands twice. A missing message row is
not seen here, nor a loss that an extra record makes up for; many kills fall into the start of the program, not the thick of its work.
"""

from __future__ import annotations

import asyncio
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
from pathlib import Path
from typing import Any

from scenarios.player import Person
from scenarios.standin import NotPossible, StandIn
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


async def write(people: list[Person], pause_s: float, chance: random.Random) -> None:
    for n in range(sum(sets for _, sets in SLOTS)):
        for number, person in enumerate(people):
            await person.says(texts_of(number)[n])
            await asyncio.sleep(chance.uniform(0, 2 * pause_s))


def count(folder: Path) -> tuple[Counter[tuple[int, int]], Counter[tuple[Any, ...]]]:
    """How often each platform message was kept, and how often each set of a session stands."""
    with closing(sqlite3.connect(folder / "companion.sqlite3")) as connection:
        messages = Counter(connection.execute("SELECT chat_id, message_id FROM message").fetchall())
        records = Counter(connection.execute("SELECT session_id, label, number FROM set_record WHERE active = 1").fetchall())
    return messages, records


async def main(kills: int, seed: int) -> int:
    chance = random.Random(seed)
    with tempfile.TemporaryDirectory() as data:
        async with StandIn() as standin:
            environment = {
                **os.environ, "COMPANION_TOKEN": standin.token, "COMPANION_BASE_URL": standin.url, "COMPANION_DATA": data,
                "COMPANION_SENDS_PER_S": "1000", "COMPANION_LOG_LEVEL": "ERROR",
            }  # fmt: skip
            program = await start(environment)
            people = [standin.person(f"Member {n}") for n in range(MEMBERS)]
            await open_group(standin, program, people)
            texts = MEMBERS * sum(sets for _, sets in SLOTS)
            writing = asyncio.create_task(write(people, 2.6 * kills / texts, chance))
            for _ in range(kills):
                await asyncio.sleep(chance.uniform(0.4, 4.0))
                program.send_signal(signal.SIGKILL)
                await program.wait()
                program = await start(environment)
            await writing
            await asyncio.wait_for(standin.all_taken(), 60)
            await until(lambda: sum(count(Path(data))[1].values()) >= texts, within_s=20)
            program.send_signal(signal.SIGTERM)
            await asyncio.wait_for(program.wait(), 20)
            messages, records = count(Path(data))
    lost = texts - sum(records.values())
    doubled = sum(n - 1 for n in (*messages.values(), *records.values()) if n > 1)
    print(f"kills {kills}, set texts {texts}, on record {sum(records.values())}, lost {lost}, doubled {doubled}")
    return 0 if lost == 0 and doubled == 0 else 1


if __name__ == "__main__":
    kills, seed = (int(given) for given in (*sys.argv[1:], *("20", "1")[len(sys.argv) - 1 :]))
    sys.exit(asyncio.run(main(kills, seed)))
