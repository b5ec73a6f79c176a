"""The stand-in pushes to a webhook as the platform does (open server, WebhookActor.cpp)."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import Any

import pytest
from aiohttp import web
from telegram.error import BadRequest

from tests.builders.meeting import Meeting, meeting


class Receiver:
    """A bot's own server: notes what comes and answers as told. gates: chat id to an event that its pushes wait for."""

    def __init__(self) -> None:
        self.came: list[dict[str, Any]] = []
        self.secrets: list[str | None] = []
        self.statuses: list[tuple[int, dict[str, str]]] = []
        self.gates: dict[int, asyncio.Event] = {}
        self.under_way = 0
        self.changed = asyncio.Condition()

    async def start(self) -> str:
        app = web.Application()
        app.router.add_post("/hook", self._take)
        self._runner = web.AppRunner(app, access_log=None, shutdown_timeout=0.1)
        await self._runner.setup()
        await web.TCPSite(self._runner, "127.0.0.1", 0).start()
        host, port = self._runner.addresses[0]
        return f"http://{host}:{port}/hook"

    async def stop(self) -> None:
        for gate in self.gates.values():
            gate.set()
        await self._runner.cleanup()

    async def until(self, holds: Callable[[], bool]) -> None:
        async with self.changed:
            await asyncio.wait_for(self.changed.wait_for(holds), 10)

    @property
    def texts(self) -> list[str]:
        return [body["message"]["text"] for body in self.came if "message" in body]

    async def _take(self, request: web.Request) -> web.Response:
        body = await request.json()
        await self._note(body, request.headers.get("X-Telegram-Bot-Api-Secret-Token"))
        gate = self.gates.get(body.get("message", {}).get("chat", {}).get("id", 0))
        if gate:
            await gate.wait()
        status, headers = self.statuses.pop(0) if self.statuses else (200, {})
        return web.Response(status=status, headers=headers)

    async def _note(self, body: dict[str, Any], secret: str | None) -> None:
        async with self.changed:
            self.came.append(body)
            self.secrets.append(secret)
            self.changed.notify_all()


async def hooked(at: Meeting, **how: Any) -> Receiver:
    receiver = Receiver()
    await at.bot.set_webhook(await receiver.start(), secret_token="word-1_A", **how)
    return receiver


@meeting()
async def test_updates_are_pushed_with_the_secret_and_are_gone_once_accepted(at: Meeting) -> None:
    mira = at.standin.person("Mira")
    await mira.says("sent before the webhook was set")
    receiver = await hooked(at)
    await mira.says("20 x 12")

    await at.standin.all_taken()

    assert receiver.texts == ["sent before the webhook was set", "20 x 12"]
    assert receiver.secrets == ["word-1_A"] * 2
    assert (await at.bot.get_webhook_info()).pending_update_count == 0
    await receiver.stop()


@meeting()
async def test_what_is_not_accepted_is_repeated_at_once_then_after_2_and_4_seconds(at: Meeting) -> None:
    mira = at.standin.person("Mira")
    receiver = await hooked(at)
    receiver.statuses = [(500, {})] * 3
    await mira.says("20 x 12")

    await receiver.until(lambda: len(receiver.came) == 2)
    await _sleeper(at, 2)
    await at.clock.advance(1.9)
    assert len(receiver.came) == 2
    await at.clock.advance(0.1)
    await receiver.until(lambda: len(receiver.came) == 3)
    await _sleeper(at, 4)
    assert (await at.bot.get_webhook_info()).last_error_message == "Wrong response from the webhook: 500"
    await at.clock.advance(4)
    await at.standin.all_taken()

    assert len(receiver.came) == 4
    await receiver.stop()


@meeting()
async def test_a_pause_that_the_bot_asks_for_is_kept(at: Meeting) -> None:
    mira = at.standin.person("Mira")
    receiver = await hooked(at)
    receiver.statuses = [(503, {"Retry-After": "30"})]
    await mira.says("20 x 12")

    await receiver.until(lambda: len(receiver.came) == 1)
    await _sleeper(at, 30)
    await at.clock.advance(30)
    await at.standin.all_taken()

    assert receiver.texts == ["20 x 12"] * 2
    await receiver.stop()


@meeting()
async def test_one_chat_is_pushed_in_order_while_others_go_on(at: Meeting) -> None:
    mira, tom = at.standin.person("Mira"), at.standin.person("Tom")
    receiver = await hooked(at)
    receiver.gates[mira.id] = asyncio.Event()
    await mira.says("12")
    await mira.says("10")
    await tom.says("8")

    await receiver.until(lambda: len(receiver.came) == 2)
    assert sorted(receiver.texts) == ["12", "8"]
    receiver.gates[mira.id].set()
    await at.standin.all_taken()

    assert receiver.texts[-1] == "10"
    await receiver.stop()


@meeting()
async def test_no_more_pushes_run_side_by_side_than_asked_for(at: Meeting) -> None:
    people = [at.standin.person(name) for name in ("Mira", "Tom", "Ana")]
    receiver = await hooked(at, max_connections=2)
    for person in people:
        receiver.gates[person.id] = asyncio.Event()
        await person.says("12")

    await receiver.until(lambda: len(receiver.came) == 2)
    for gate in receiver.gates.values():
        gate.set()
    await at.standin.all_taken()

    assert len(receiver.came) == 3
    await receiver.stop()


@meeting()
async def test_a_press_does_not_wait_behind_a_text_of_the_same_person(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    await at.ask(
        "sendMessage", chat_id=mira.id, text="?", reply_markup='{"inline_keyboard":[[{"text":"Go","callback_data":"go"}]]}'
    )
    receiver = await hooked(at)
    receiver.gates[mira.id] = asyncio.Event()
    await mira.says("12")
    await mira.presses("Go")

    await receiver.until(lambda: len(receiver.came) == 2)
    assert {"message", "callback_query"} <= {kind for body in receiver.came for kind in body}
    receiver.gates[mira.id].set()
    await at.standin.all_taken()
    await receiver.stop()


@meeting()
async def test_an_update_is_dropped_once_it_outlives_its_time(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    await at.ask(
        "sendMessage", chat_id=mira.id, text="?", reply_markup='{"inline_keyboard":[[{"text":"Go","callback_data":"go"}]]}'
    )
    receiver = await hooked(at)
    receiver.statuses = [(500, {})] * 3 + [(503, {"Retry-After": "3600"})]
    await mira.presses("Go")
    await receiver.until(lambda: len(receiver.came) == 2)
    await _sleeper(at, 2)

    await at.clock.advance(151)
    await at.standin.all_taken()

    assert len(receiver.came) == 2
    await receiver.stop()


@meeting()
async def test_a_webhook_needs_an_address_and_a_plain_secret(at: Meeting) -> None:
    with pytest.raises(BadRequest, match="Bad webhook"):
        await at.bot.set_webhook("ftp://example.org")
    with pytest.raises(BadRequest, match="Secret token contains unallowed characters"):
        await at.bot.set_webhook("https://example.org/hook", secret_token="né")


async def _sleeper(at: Meeting, seconds: float) -> None:
    """Come back when somebody sleeps until so many seconds from now."""
    while (wake_at := at.clock.next_wake_at()) is None or (wake_at - at.clock.now()).total_seconds() != seconds:
        await asyncio.sleep(0)


@meeting()
async def test_a_day_of_gone_closes_the_webhook_and_polling_works_again(at: Meeting) -> None:
    mira = at.standin.person("Mira")
    receiver = await hooked(at)
    receiver.statuses = [(410, {"Retry-After": "3600"})] * 30
    await mira.says("20 x 12")

    for hour in range(1, 24):
        await receiver.until(lambda: len(receiver.came) >= hour)  # noqa: B023
        await _sleeper(at, 3600)
        assert (await at.bot.get_webhook_info()).url
        await at.clock.advance(3600)
    await receiver.until(lambda: len(receiver.came) == 24)
    while (await at.bot.get_webhook_info()).url:
        await asyncio.sleep(0)

    assert [update.message.text for update in await at.bot.get_updates()] == ["20 x 12"]
    await receiver.stop()
