"""A program is killed again and again while people write to it. What became of what they wrote?

    report = await harry([sys.executable, "-m", "tests.crash.echo_program"], folder=..., people=60, texts_each=12, kills=20, seed=1)

Reusable with any command that reads the usual settings from its environment. `record_of` counts what is on record for each text, in
the database file; by default the outbox rows of the echo deed.

Judged by the stand-in and the database file alone, never by the program's own word:
- lost: texts that were sent to the bot and are not on record in the end;
- doubled records: texts on record more than once;
- doubled answers: answers that a chat shows more than once; allowed are those that were in flight at a kill: on the
  wire, or arrived and not marked yet.
"""

from __future__ import annotations

import asyncio
import json
import os
import random
import signal
import sqlite3
from collections import Counter
from collections.abc import Callable, Sequence
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path

from scenarios.standin import StandIn, slow

Record = Callable[[Path], Counter[str]]


@dataclass
class Report:
    """What was found."""

    texts: int = 0
    kills: int = 0
    lost: list[str] = field(default_factory=list)
    unanswered: list[str] = field(default_factory=list)
    doubled_records: list[str] = field(default_factory=list)
    doubled_answers: int = 0
    arrived_but_unmarked: int = 0
    most_unmarked_at_a_kill: int = 0

    @property
    def passed(self) -> bool:
        return not (self.lost or self.unanswered or self.doubled_records) and self.doubled_answers <= self.arrived_but_unmarked

    def __str__(self) -> str:
        return (
            f"{self.texts} texts, {self.kills} kills: {len(self.lost)} lost, {len(self.unanswered)} unanswered, "
            f"{len(self.doubled_records)} doubled records, {self.doubled_answers} doubled answers "
            f"(arrived but unmarked at the kills: {self.arrived_but_unmarked}, at most {self.most_unmarked_at_a_kill} at one)"
        )


async def harry(
    command: Sequence[str],
    *,
    folder: Path,
    people: int,
    texts_each: int,
    kills: int,
    seed: int,
    record_of: Record | None = None,
    settings: dict[str, str] | None = None,
    answer_takes_s: float = 0.05,
) -> Report:
    """Let people write while the program is killed at random moments and started again; then let it finish, and count.

    answer_takes_s: how long the platform takes over each send, so that there is something in flight to be killed.
    """
    chance = random.Random(seed)
    record_of = record_of or echoes_on_record
    async with StandIn() as standin:
        environment = {
            **os.environ, "COMPANION_TOKEN": standin.token, "COMPANION_BASE_URL": standin.url, "COMPANION_DATA": str(folder),
            "COMPANION_SENDS_PER_S": "1000", "COMPANION_LOG_LEVEL": "WARNING", **(settings or {}),
        }  # fmt: skip
        standin.misbehave(slow(answer_takes_s), times=None, method="sendMessage")
        crowd = [standin.person(f"Person {number}") for number in range(people)]
        texts = [(person, f"{person.name} text {number}") for number in range(texts_each) for person in crowd]
        writing = asyncio.create_task(_write(texts, over_s=0.9 * kills, chance=chance))
        report = Report(texts=len(texts), kills=kills)
        answers = Answers(standin)
        for _ in range(kills):
            program = await _started(command, environment)
            await asyncio.sleep(
                chance.uniform(0.6, 2.2)
            )  # the moment of the kill: from the middle of its start to the thick of it
            program.send_signal(signal.SIGKILL)
            await program.wait()
            await asyncio.sleep(2 * answer_takes_s + 0.1)  # what was on the wire arrives although its sender is dead
            shown = answers.count()
            unmarked = sum(shown[text] > 0 for text in _waiting(folder))
            report.arrived_but_unmarked += unmarked
            report.most_unmarked_at_a_kill = max(report.most_unmarked_at_a_kill, unmarked)
        await writing
        program = await _started(command, environment)
        await _finished(standin, folder, answers)
        program.send_signal(signal.SIGTERM)
        await asyncio.wait_for(program.wait(), 15)
        kept, shown = record_of(folder), answers.count()
        for _, text in texts:
            report.lost += [text] if not kept[text] else []
            report.unanswered += [text] if not shown[text] else []
            report.doubled_records += [text] if kept[text] > 1 else []
            report.doubled_answers += max(0, shown[text] - 1)
        return report


class Answers:
    """What the chats show from the bot, by text."""

    def __init__(self, standin: StandIn) -> None:
        self._standin = standin

    def count(self) -> Counter[str]:
        return Counter(m.text for chat in self._standin.chats for m in chat.messages.values() if m.from_bot)


def echoes_on_record(folder: Path) -> Counter[str]:
    """The echo deed's answers in the outbox, by text."""
    with closing(sqlite3.connect(folder / "companion.sqlite3")) as connection:
        return Counter(json.loads(fields)["text"] for (fields,) in connection.execute("SELECT fields FROM outbox"))


def _waiting(folder: Path) -> list[str]:
    path = folder / "companion.sqlite3"
    if not path.exists():
        return []
    with closing(sqlite3.connect(path)) as connection:
        try:
            rows = connection.execute("SELECT fields FROM outbox WHERE state = 'waiting'").fetchall()
        except sqlite3.OperationalError:  # killed before the tables were made
            return []
    return [json.loads(fields).get("text", "") for (fields,) in rows]


async def _started(command: Sequence[str], environment: dict[str, str]) -> asyncio.subprocess.Process:
    return await asyncio.create_subprocess_exec(*command, env=environment)


async def _write(texts: Sequence[tuple[object, str]], *, over_s: float, chance: random.Random) -> None:
    pause = over_s / max(1, len(texts))
    for person, text in texts:
        await person.says(text)  # type: ignore[attr-defined]
        await asyncio.sleep(chance.uniform(0, 2 * pause))


async def _finished(standin: StandIn, folder: Path, answers: Answers) -> None:
    """Wait until everything has been taken and sent; gives up when nothing moves for twenty seconds."""
    await asyncio.wait_for(standin.all_taken(), 60)
    still, before = 0, -1
    while still < 80:
        shown = sum(answers.count().values())
        with closing(sqlite3.connect(folder / "companion.sqlite3")) as connection:
            open_rows = connection.execute(
                "SELECT (SELECT count(*) FROM inbox WHERE state = 'waiting') + (SELECT count(*) FROM outbox WHERE state = 'waiting')"
            ).fetchone()[0]
        if not open_rows:
            return
        still, before = (still + 1, shown) if shown == before else (0, shown)
        await asyncio.sleep(0.25)
