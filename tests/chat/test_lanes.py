"""Updates are handled once, each chat's in order, and a failing one is put aside without stopping anybody. Played over HTTP."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from bot.chat.lanes import IncomingFile, cleaned
from bot.chat.outgoing import Button, Outgoing
from bot.cli.program import Hooks
from scenarios.standin import bad, refuse
from tests.builders.whole_program import Whole, play


class Deeds:
    """Answers texts; "boom" fails as often as told; a press answers with its data."""

    def __init__(self, failures: int = 10**9) -> None:
        self.failures = failures
        self.files: list[IncomingFile | None] = []

    def handle(self, update: Any, raw: dict[str, Any], uow: Any, now: datetime, *, file: IncomingFile | None = None) -> None:
        if file is not None:
            self.files.append(file)
        if update.callback_query is not None:
            uow.outbox.put(update.effective_chat.id, "x", {"text": f"pressed {update.callback_query.data}"})
            return
        text = update.effective_message.text or "no text"
        uow.outbox.put(update.effective_chat.id, "x", {"text": f"heard {text}", "ask": text == "ask"})
        if text == "boom" and self.failures:
            self.failures -= 1
            raise ValueError("boom, and what the person wrote")

    def hooks(self, **more: Any) -> Hooks:
        return Hooks(handle=self.handle, render=render, **more)


def render(kind: str, fields: dict[str, Any], row: Any) -> Outgoing:
    buttons = ((Button("Yes", data="yes"),),) if fields.get("ask") else ()
    return Outgoing(text=fields["text"], buttons=buttons)


def heard(person: Any) -> list[str]:
    return [message.text for message in person.from_bot()]


def test_each_chat_gets_its_answers_in_order(tmp_path: Path) -> None:
    async def acts(whole: Whole) -> None:
        people = [whole.standin.person(name) for name in ("Mira", "Tove", "Sol")]
        for number in range(5):
            for person in people:
                await person.says(f"{number}")
        await whole.settle()
        assert [heard(person) for person in people] == [[f"heard {number}" for number in range(5)]] * 3

    play(tmp_path, Deeds().hooks(), acts)


def test_a_failing_update_is_parked_after_three_tries_and_the_next_one_is_handled(tmp_path: Path) -> None:
    told: list[str] = []

    def on_parked(uow: Any, row: Any, now: datetime, reason: str) -> None:
        told.append(reason)
        uow.outbox.put(row.chat_id, "x", {"text": "kept, not understood"})

    async def acts(whole: Whole) -> None:
        mira = whole.standin.person("Mira")
        await mira.says("boom")
        await mira.says("12")
        await whole.settle()
        assert heard(mira) == ["kept, not understood", "heard 12"]
        with whole.reads() as uow:
            assert (uow.inbox.count("parked"), uow.inbox.count("done")) == (1, 1)

    deeds = Deeds()
    play(tmp_path, deeds.hooks(on_parked=on_parked), acts)

    assert told == ["ValueError: boom, and what the person wrote"]
    assert 10**9 - deeds.failures == 3


def test_an_update_that_fails_once_is_handled_once(tmp_path: Path) -> None:
    async def acts(whole: Whole) -> None:
        mira = whole.standin.person("Mira")
        await mira.says("boom")
        await whole.settle()
        assert heard(mira) == ["heard boom"]

    play(tmp_path, Deeds(failures=1).hooks(), acts)


def test_a_failure_is_logged_without_what_the_person_wrote(tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    async def acts(whole: Whole) -> None:
        await whole.standin.person("Mira").says("boom")
        await whole.settle()

    play(tmp_path, Deeds().hooks(), acts)

    assert "inbox_deed_failed" in caplog.text
    assert "what the person wrote" not in caplog.text
    assert whole_token_free(caplog.text)


def whole_token_free(text: str) -> bool:
    return "bot123" not in text and "/bot" not in text


def test_what_cannot_be_decoded_is_parked_with_its_reason(tmp_path: Path) -> None:
    async def acts(whole: Whole) -> None:
        mira = whole.standin.person("Mira")
        whole.standin.put_update({"message": {"chat": {"id": mira.id, "type": "private"}, "date": "yesterday"}})
        await mira.says("12")
        await whole.settle()
        assert heard(mira) == ["heard 12"]
        with whole.reads() as uow:
            assert uow.inbox.count("parked") == 1

    play(tmp_path, Deeds().hooks(), acts)


def test_the_same_update_twice_is_handled_once(tmp_path: Path) -> None:
    async def acts(whole: Whole) -> None:
        mira = whole.standin.person("Mira")
        whole.standin.deliver_twice()
        await mira.says("12")
        await whole.settle()
        assert heard(mira) == ["heard 12"]

    play(tmp_path, Deeds().hooks(), acts)


def test_a_press_is_answered_and_handled_even_if_the_platform_calls_it_too_old(tmp_path: Path) -> None:
    async def acts(whole: Whole) -> None:
        mira = whole.standin.person("Mira")
        await mira.says("ask")
        await whole.settle()
        await mira.presses("Yes")
        await whole.settle()
        assert mira.press_answered
        too_old = bad("query is too old and response timeout expired or query ID is invalid")
        whole.standin.misbehave(refuse(too_old), method="answerCallbackQuery")
        await mira.presses("Yes", on=mira.from_bot()[0])
        await whole.settle()
        assert heard(mira) == ["heard ask", "pressed yes", "pressed yes"]

    play(tmp_path, Deeds().hooks(), acts)


def test_a_file_is_fetched_before_its_deed(tmp_path: Path) -> None:
    def wants_file(update: Any) -> str | None:
        document = update.effective_message.document if update.effective_message else None
        return document.file_id if document else None

    async def acts(whole: Whole) -> None:
        mira = whole.standin.person("Mira")
        await mira.sends_file("block.csv", b"day,slot\n1,A1\n")
        await whole.settle()
        assert heard(mira) == ["heard no text"]

    deeds = Deeds()
    play(tmp_path, deeds.hooks(wants_file=wants_file), acts)

    assert deeds.files == [IncomingFile(b"day,slot\n1,A1\n")]


def test_what_came_in_while_the_program_was_away_is_handled_at_the_next_start(tmp_path: Path) -> None:
    async def acts(whole: Whole) -> None:
        mira = whole.standin.person("Mira")
        await whole.program.stop()
        await mira.says("12")
        await mira.says("10")
        whole.program = whole.new_program()
        await whole.program.start()
        await whole.settle()
        assert heard(mira) == ["heard 12", "heard 10"]

    play(tmp_path, Deeds().hooks(), acts)


@pytest.mark.parametrize(
    ("sent", "kept"),
    [
        pytest.param("plain", "plain", id="plain"),
        pytest.param("żółw 🐢", "żółw 🐢", id="whole characters"),
        pytest.param("12 \ud83d", "12 \ufffd", id="half a pair"),
        pytest.param("\ud83d\udc22", "🐢", id="a pair in two halves"),
        pytest.param({"a": ["\udc22", 5, None]}, {"a": ["\ufffd", 5, None]}, id="deep inside"),
    ],
)
def test_half_characters_are_shown_as_such(sent: Any, kept: Any) -> None:
    assert cleaned(sent) == kept
