"""The program as a whole: what is due happens on its own day, limits hold, and it starts and stops as it should."""

from __future__ import annotations

import asyncio
import socket
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from pydantic import SecretStr
from sqlalchemy import text

from bot.chat.intake import TokenRefused
from bot.chat.outgoing import Outgoing
from bot.cli.program import Hooks, Program
from bot.settings import Settings
from scenarios.clock import PlayedClock
from scenarios.standin import StandIn, refuse, server_error
from storage.migrations import NewerDatabase
from tests.builders.pipes import NOON
from tests.builders.whole_program import Whole, play


def handle(update: Any, raw: dict[str, Any], uow: Any, now: datetime, *, file: Any = None) -> None:
    chat_id = update.effective_chat.id
    if update.my_chat_member is not None:
        return
    uow.outbox.put(chat_id, "x", {"text": f"heard {update.effective_message.text}"})
    uow.due.put(
        "daily", str(chat_id), now + timedelta(days=1), {"chat": chat_id, "left": 30}, member_id=chat_id, too_late_after_s=600
    )


def daily(uow: Any, fields: dict[str, Any], row: Any, now: datetime) -> None:
    uow.outbox.put(fields["chat"], "x", {"text": f"{now:%d.%m. %H:%M}"}, lane="reminder", expires_at_utc=now + timedelta(hours=1))
    if fields["left"] > 1:
        later = {**fields, "left": fields["left"] - 1}
        uow.due.put(row.kind, row.key, row.due_at_utc + timedelta(days=1), later, member_id=row.member_id, too_late_after_s=600)


def hooks(**more: Any) -> Hooks:
    return Hooks(handle=handle, render=lambda kind, fields, row: Outgoing(text=fields["text"]), deeds={"daily": daily}, **more)


@pytest.mark.parametrize("in_loop", [False, True], ids=["database in a thread", "database in the loop"])
def test_a_month_of_reminders_comes_each_at_its_own_moment(tmp_path: Path, in_loop: bool) -> None:
    async def acts(whole: Whole) -> None:
        mira = whole.standin.person("Mira")
        await mira.says("hi")
        await whole.settle()
        await whole.program.live_until(NOON + timedelta(days=40))
        assert whole.clock.now() == NOON + timedelta(days=40)
        said = [message.text for message in mira.from_bot()]
        assert said == ["heard hi", *(f"{NOON + timedelta(days=day):%d.%m. %H:%M}" for day in range(1, 31))]
        assert [message.at for message in mira.from_bot()] == [NOON + timedelta(days=day) for day in range(31)]

    play(tmp_path, hooks(), acts, in_loop=in_loop)


def test_who_blocks_the_bot_gets_no_more_and_the_deed_hears_of_it(tmp_path: Path) -> None:
    heard: list[int] = []

    def on_unreachable(uow: Any, chat_id: int) -> None:
        heard.append(chat_id)
        uow.due.cancel_all(member_id=chat_id)

    async def acts(whole: Whole) -> None:
        mira = whole.standin.person("Mira")
        await mira.says("hi")
        await whole.settle()
        await mira.blocks_bot()
        await whole.program.live_until(NOON + timedelta(days=10))
        assert heard == [mira.id]
        assert len(mira.from_bot()) == 1

    play(tmp_path, hooks(on_unreachable=on_unreachable), acts)


def test_a_group_that_moves_is_answered_at_its_new_place(tmp_path: Path) -> None:
    async def acts(whole: Whole) -> None:
        mira = whole.standin.person("Mira")
        group = whole.standin.group("Home strength", mira, bot_is_admin=True)
        await mira.says("hi", group=group)
        await whole.settle()
        new = whole.standin.migrate(group)
        await whole.settle()
        await whole.program.live_until(NOON + timedelta(days=1, minutes=1))
        assert any(
            message.from_bot and message.text == f"{NOON + timedelta(days=1):%d.%m. %H:%M}"
            for message in new.chat.messages.values()
        )

    def note_move(uow: Any, old: int, new: int) -> None:
        for row in uow.due.of_member(old):
            uow.due.put(row.kind, row.key, row.due_at_utc, {**row.fields, "chat": new}, member_id=old, too_late_after_s=600)

    play(tmp_path, hooks(on_moved=note_move), acts)


def test_a_platform_that_stumbles_for_a_while_costs_nothing(tmp_path: Path) -> None:
    async def acts(whole: Whole) -> None:
        mira = whole.standin.person("Mira")
        whole.standin.misbehave(refuse(server_error()), times=4, method="sendMessage")
        for number in range(3):
            await mira.says(str(number))
        await whole.settle()
        assert [message.text for message in mira.from_bot()] == ["heard 0", "heard 1", "heard 2"]

    play(tmp_path, hooks(), acts)


def test_a_block_for_four_hundred_goes_out_in_one_settling(tmp_path: Path) -> None:
    async def acts(whole: Whole) -> None:
        people = [whole.standin.person(f"P{number}") for number in range(400)]
        for person in people:
            await person.starts()
        await whole.settle()
        with whole.program.open_uow() as uow:
            for person in people:
                uow.outbox.put(person.id, "x", {"text": "the block"}, lane="bulk")
            uow.commit()
        begun = whole.clock.now()
        await whole.settle()
        assert all(person.last.text == "the block" for person in people)
        assert 400 / 24 - 0.1 <= (whole.clock.now() - begun).total_seconds() < 17

    play(tmp_path, hooks(), acts)


def test_a_refused_token_is_said_at_the_start(tmp_path: Path) -> None:
    async def run() -> None:
        async with StandIn(PlayedClock(NOON)) as standin:
            settings = Settings(token="123456789:AAwrongwrongwrong", base_url=standin.url, data=tmp_path)  # type: ignore[arg-type]
            program = Program(settings, PlayedClock(NOON), hooks(), ticking=False)
            with pytest.raises(TokenRefused, match="does not accept the token"):
                await program.start()
            await program.stop()

    asyncio.run(asyncio.wait_for(run(), 20))


def test_a_database_of_a_newer_version_is_refused_at_the_start(tmp_path: Path) -> None:
    async def acts(whole: Whole) -> None:
        await whole.program.stop()
        whole.program = whole.new_program()
        with whole.program.engines.write.begin() as connection:
            connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))
        with pytest.raises(NewerDatabase):
            await whole.program.start()

    play(tmp_path, hooks(), acts)


def test_the_operators_lines_come_from_the_first_deed(tmp_path: Path) -> None:
    async def acts(whole: Whole) -> None:
        await whole.program.stop()
        whole.program = whole.new_program()
        assert await whole.program.start() == ["Claim code: 12-34"]

    play(tmp_path, hooks(on_start=lambda uow, now: ["Claim code: 12-34"]), acts)


def test_by_push_the_same_things_happen(tmp_path: Path) -> None:
    """Webhook mode has https in front; the stand-in is told the plain address behind it."""

    async def run() -> None:
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            port = probe.getsockname()[1]
        whole = Whole(
            tmp_path, hooks(), mode="webhook", port=port, public_url=f"http://127.0.0.1:{port}", secret=SecretStr("s3cret")
        )
        async with whole.standin:
            whole.program = whole.new_program()
            await whole.program.start()
            mira = whole.standin.person("Mira")
            for words in ("12", "10"):
                await mira.says(words)
            await whole.settle()
            assert [message.text for message in mira.from_bot()] == ["heard 12", "heard 10"]
            assert "getUpdates" not in {call.method for call in whole.standin.calls}
            await whole.program.stop()

    asyncio.run(asyncio.wait_for(run(), 20))
