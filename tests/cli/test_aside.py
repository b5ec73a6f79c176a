"""What could not be handled is listed for the operator, and goes back in on a word; also while the companion runs."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from bot.chat.outgoing import Outgoing
from bot.cli import main
from bot.cli.aside import listed, take_back
from bot.cli.program import LOOK_EVERY_TICKS, Hooks
from storage.unit_of_work import UnitOfWork
from tests.builders.pipes import NOON, fresh_engines
from tests.builders.whole_program import Whole, play


@pytest.fixture
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A data folder with three updates set aside and one that waits."""
    monkeypatch.setenv("COMPANION_DATA", str(tmp_path))
    engines = fresh_engines(tmp_path)
    with UnitOfWork(engines, lambda: NOON) as uow:
        updates = [{"update_id": n, "message": {"chat": {"id": 7}, "text": "my knee hurts"}} for n in (1, 2)]
        uow.inbox.store([*updates, {"update_id": 3, "callback_query": {"from": {"id": 8}}}, "no update at all"])
        uow.inbox.park(2, NOON, "ValueError: my knee hurts")
        uow.inbox.park(3, NOON, "ended the program: 3 starts ended while it was handled")
        uow.commit()
    engines.close()
    return tmp_path


def test_the_list_says_what_when_and_why_but_nobodys_words(data: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["aside"]) == 0

    assert capsys.readouterr().out == (
        "Set aside: 3.\n"
        "       2  2026-03-02 12:00 UTC  message           ValueError\n"
        "       3  2026-03-02 12:00 UTC  callback_query    ended the program: 3 starts ended while it was handled\n"
        "       4  2026-03-02 12:00 UTC  of no known kind  has no update_id that is a whole number\n"
        "`companion aside NUMBER` takes one back in, to be handled again.\n"
    )


def test_one_goes_back_in_and_only_once(data: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert [main(["aside", number]) for number in ("2", "2", "1", "99")] == [0, 1, 1, 1]

    said = capsys.readouterr()
    assert said.out == "Number 2 is taken back in. A companion that runs handles it within a minute, else the next start does.\n"
    assert said.err.splitlines() == [
        f"Number {number} is not set aside; `companion aside` lists those that are." for number in (2, 1, 99)
    ]


def test_nothing_set_aside_and_no_data_are_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("COMPANION_DATA", str(tmp_path))
    without = main(["aside"])
    fresh_engines(tmp_path).close()
    empty = main(["aside"])
    (tmp_path / "companion.sqlite3").write_bytes(b"")
    unready = main(["aside"])

    said = capsys.readouterr()
    assert (without, empty, unready) == (1, 0, 1)
    assert said.out == "Nothing is set aside.\n"
    assert said.err.splitlines() == [
        f"There is no data yet: {tmp_path / 'companion.sqlite3'} is not there.",
        "The database cannot be used (OperationalError); `companion run` makes it ready.",
    ]


def test_a_running_companion_handles_what_is_taken_back_in_before_what_came_later(tmp_path: Path) -> None:
    is_mended = False

    def handle(update: Any, raw: dict[str, Any], uow: Any, now: datetime, *, file: Any = None) -> None:
        text = update.effective_message.text
        if text == "first" and not is_mended:
            raise ValueError
        uow.outbox.put(update.effective_chat.id, "x", {"text": f"heard {text}"})

    async def acts(whole: Whole) -> None:
        nonlocal is_mended
        mira = whole.standin.person("Mira")
        await mira.says("first")
        await whole.settle()
        assert "ValueError" in listed(whole.program.engines)
        is_mended = True
        number = int(listed(whole.program.engines).split()[3])
        take_back(whole.program.engines, number)
        await mira.says("second")
        await whole.settle()
        for _ in range(LOOK_EVERY_TICKS):
            await whole.program._tick()
            await whole.settle()
        assert [message.text for message in mira.from_bot()] == ["heard first", "heard second"]

    play(tmp_path, Hooks(handle=handle, render=lambda kind, fields, row: Outgoing(text=fields["text"])), acts)
