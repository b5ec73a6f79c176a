"""The whole program, with deeds that only echo, over HTTP on a stand-in: people's acts come back once they are answered."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from telegram import Update

from bot.chat.outgoing import Button, Outgoing
from bot.cli.program import Hooks, Program
from bot.settings import read_settings
from scenarios.clock import PlayedClock
from scenarios.player import Play
from scenarios.standin import StandIn, cut_after, refuse, too_many
from tests.builders.bot_api_check import problems_of, problems_of_answers
from tests.builders.meeting import MONDAY_NOON


def handle(update: Update, raw: dict[str, Any], uow: Any, now: datetime, **_: Any) -> None:
    """Answers texts and presses, and plans a reminder an hour later for who asks."""
    chat = update.effective_chat
    if update.callback_query:
        uow.outbox.put(chat.id, "echo", {"text": f"pressed {update.callback_query.data}"})
    elif update.message and update.message.text:
        uow.outbox.put(chat.id, "echo", {"text": f"heard {update.message.text}", "buttons": True})
        if update.message.text == "remind me":
            uow.due.put("reminder", f"r{chat.id}", now + timedelta(hours=1), {"chat_id": chat.id}, too_late_after_s=None)


def remind(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
    uow.outbox.put(fields["chat_id"], "echo", {"text": f"time to train, it is {now:%H:%M}"})


def render(kind: str, fields: dict[str, Any], row: Any) -> Outgoing:
    return Outgoing(fields["text"], buttons=((Button("Undo", data="undo"),),) if fields.get("buttons") else ())


@dataclass
class Stage:
    standin: StandIn
    program: Program
    play: Play


def on_stage(folder: Path, act: Callable[[Stage], Awaitable[None]]) -> None:
    async def run() -> None:
        clock = PlayedClock(MONDAY_NOON)
        async with StandIn(clock, keep_limits=True) as standin:
            settings = read_settings(token=standin.token, data=folder, base_url=standin.url)
            program = Program(settings, clock, Hooks(handle=handle, render=render, deeds={"reminder": remind}), ticking=False)
            await program.start()
            try:
                async with Play(standin, program, clock) as play:
                    await act(Stage(standin, program, play))
            finally:
                with suppress(asyncio.CancelledError):
                    await program.stop()
            assert problems_of(standin.calls) == []
            assert problems_of_answers(standin.calls) == []

    asyncio.run(run())


def test_every_act_is_answered_when_it_comes_back(tmp_path: Path) -> None:
    async def act(on: Stage) -> None:
        mira, tom = on.play.person("Mira"), on.play.person("Tom")
        for text in ("12", "11", "10", "9", "8", "7"):
            await mira.says(text)
            assert mira.last.text == f"heard {text}"
        await tom.says("remind me")
        await tom.presses("Undo")
        assert tom.last.text == "pressed undo"
        await on.play.pass_time(hours=2)
        assert tom.last.text == "time to train, it is 13:00"
        assert [call.status for call in on.standin.calls.refused()] == []  # the published limits were kept

    on_stage(tmp_path, act)


def test_refused_and_lost_answers_lose_no_message(tmp_path: Path) -> None:
    async def act(on: Stage) -> None:
        mira = on.play.person("Mira")
        on.standin.misbehave(refuse(too_many(5)), method="sendMessage")
        on.standin.misbehave(cut_after(), method="sendMessage")
        await mira.says("12")
        await on.play.pass_time(minutes=5)
        assert {message.text for message in mira.from_bot()} == {"heard 12"}
        assert len(mira.from_bot()) == 2  # the answer to the first was lost: it may come twice, it may not be missing

    on_stage(tmp_path, act)


def test_the_same_update_twice_is_answered_once(tmp_path: Path) -> None:
    async def act(on: Stage) -> None:
        mira = on.play.person("Mira")
        on.standin.deliver_twice()
        await mira.says("12")
        await mira.says("11")
        assert [message.text for message in mira.from_bot()] == ["heard 12", "heard 11"]

    on_stage(tmp_path, act)
