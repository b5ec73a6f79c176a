"""An update whose deed ends the whole program is put aside after three starts, and nobody else's with it."""

from __future__ import annotations

import asyncio
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from bot.chat.lanes import Lanes
from bot.chat.transport import Transport, open_bot
from bot.cli.program import Hooks
from scenarios.clock import PlayedClock
from storage.engine import Engines
from storage.unit_of_work import UnitOfWork, is_storage_trouble
from tests.builders.pipes import NOON, at_once, fresh_engines
from tests.builders.updates import a_text_update


class Killed(BaseException):
    """Stands for the end of the process: nothing of the program catches it."""


class Deeds:
    """Notes every text that it begins with; "poison" ends the program, "boom" fails."""

    def __init__(self) -> None:
        self.begun: list[str] = []
        self.told: list[tuple[int | None, str]] = []
        self.dead, self.killed_at = False, "poison"

    def handle(self, update: Any, raw: dict[str, Any], uow: Any, now: datetime, *, file: Any = None) -> None:
        text = update.effective_message.text
        self.begun.append(text)
        if text == self.killed_at:
            self.dead = True
            raise Killed
        if text == "boom":
            raise ValueError("boom")

    def on_parked(self, uow: Any, row: Any, now: datetime, reason: str) -> None:
        self.told.append((row.chat_id, reason))


def one_life(engines: Engines, deeds: Deeds, *, lives_s: float = 60.0, steps: int = 1_000) -> None:
    """From a start of the lanes to their end by a kill, or until they have nothing more to do.

    lives_s: how long the program is there at most. steps: how many turns of the loop it gets.
    """

    async def live() -> None:
        clock = PlayedClock(NOON)
        hooks: Any = Hooks(handle=deeds.handle, render=lambda *_: None, on_parked=deeds.on_parked)  # type: ignore[arg-type,return-value]
        lanes = Lanes(
            open_uow=lambda **how: UnitOfWork(engines, clock.now, **how), in_database=at_once, is_trouble=is_storage_trouble,
            bot=open_bot("123456:AAsecret-secret", "http://127.0.0.1:9", Transport()), hooks=hooks, clock=clock,
        )  # fmt: skip
        deeds.dead = False
        running = asyncio.create_task(lanes.run())
        for _ in range(steps):
            await asyncio.sleep(0)
            if deeds.dead or lanes.is_idle():
                break
            if (wakes_at := clock.next_wake_at()) is not None and lives_s >= (wakes_at - NOON).total_seconds():
                await clock.advance_to(wakes_at)
        running.cancel()

    asyncio.run(live())


def store(engines: Engines, *texts: tuple[int, str]) -> None:
    with UnitOfWork(engines, lambda: NOON) as uow:
        uow.inbox.store([a_text_update(text, user_id=chat) for chat, text in texts])
        uow.commit()


def count(engines: Engines, state: str) -> int:
    with UnitOfWork(engines, lambda: NOON, reads=True) as uow:
        return uow.inbox.count(state)


@pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning")
def test_a_deed_that_ends_the_program_is_tried_at_three_starts_and_then_put_aside(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    engines, deeds = fresh_engines(tmp_path), Deeds()
    store(engines, (7, "poison"), (7, "12"), (8, "10"))

    lives = 0
    while count(engines, "waiting"):
        one_life(engines, deeds)
        lives += 1
        assert lives < 10

    assert deeds.begun.count("poison") == 3
    assert (deeds.begun.count("12"), deeds.begun.count("10")) == (1, 1)
    assert (count(engines, "parked"), count(engines, "done")) == (1, 2)
    assert deeds.told == [(7, "ended the program: 3 starts ended while it was handled")]
    assert "inbox_parked row=1 kind=ended the program" in caplog.text


def test_what_waits_at_many_starts_for_another_reason_is_not_put_aside(tmp_path: Path) -> None:
    """Only a try that began is counted: a chat's later messages wait through every start of the poison before them."""
    engines, deeds = fresh_engines(tmp_path), Deeds()
    store(engines, (7, "poison"), *((7, f"{n}") for n in range(5)))

    while count(engines, "waiting"):
        one_life(engines, deeds)

    assert deeds.begun[3:] == [f"{n}" for n in range(5)]


@pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning")
def test_a_message_is_not_put_aside_because_somebody_kills_the_program_at_each_start(tmp_path: Path) -> None:
    """Killed from outside, at the worst moment each time: after the try is counted and before its deed is done."""
    engines, deeds = fresh_engines(tmp_path), Deeds()
    store(engines, (7, "12"))
    deeds.killed_at = "12"

    for _ in range(20):
        one_life(engines, deeds, lives_s=9)
    deeds.killed_at = "poison"
    one_life(engines, deeds)

    assert deeds.begun == ["12"] * 3
    assert (count(engines, "parked"), count(engines, "done")) == (0, 1)


def test_a_failure_of_what_waited_at_the_start_is_counted_once_a_try(tmp_path: Path) -> None:
    engines, deeds = fresh_engines(tmp_path), Deeds()
    store(engines, (7, "boom"), (7, "12"))

    one_life(engines, deeds)

    assert deeds.begun == ["boom", "boom", "boom", "12"]
    assert deeds.told == [(7, "ValueError: boom")]
