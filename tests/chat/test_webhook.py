"""Updates by push: the secret is checked, the update is stored, and only then is the platform told so."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Sequence
from typing import Any

import aiohttp
import pytest

from bot.chat.webhook import MAX_BODY, SECRET_HEADER, WebServer, make_app

SECRET = "s3cret_-"


class Rig:
    def __init__(self) -> None:
        self.stored: list[Any] = []
        self.fails = self.is_well = False
        self.url = ""

    async def store(self, updates: Sequence[Any]) -> int:
        if self.fails:
            raise OSError("disk full")
        self.stored += updates
        return len(updates)

    async def post(self, body: bytes, **headers: str) -> tuple[int, str]:
        async with aiohttp.ClientSession() as session, session.post(f"{self.url}/updates", data=body, headers=headers) as answer:
            return answer.status, answer.headers.get("Retry-After", "")

    async def health(self) -> int:
        async with aiohttp.ClientSession() as session, session.get(f"{self.url}/health") as answer:
            return answer.status


def play(acts: Callable[[Rig], Awaitable[None]], *, secret: str | None = SECRET) -> Rig:
    rig = Rig()

    async def run() -> None:
        server = WebServer(make_app(store=rig.store, is_healthy=lambda: rig.is_well, secret=secret), host="127.0.0.1", port=0)
        rig.url = f"http://127.0.0.1:{await server.start()}"
        await acts(rig)
        await server.stop()

    asyncio.run(asyncio.wait_for(run(), 20))
    return rig


def test_an_update_with_the_secret_is_stored_and_answered_200() -> None:
    async def acts(rig: Rig) -> None:
        assert (await rig.post(b'{"update_id": 5}', **{SECRET_HEADER: SECRET}))[0] == 200

    assert play(acts).stored == [{"update_id": 5}]


@pytest.mark.parametrize("headers", [{}, {SECRET_HEADER: ""}, {SECRET_HEADER: SECRET + "x"}, {SECRET_HEADER: SECRET.upper()}])
def test_an_update_without_the_secret_is_turned_away(headers: dict[str, str]) -> None:
    async def acts(rig: Rig) -> None:
        assert (await rig.post(b'{"update_id": 5}', **headers))[0] == 403

    assert play(acts).stored == []


def test_what_could_not_be_stored_is_asked_for_again() -> None:
    async def acts(rig: Rig) -> None:
        rig.fails = True
        assert await rig.post(b'{"update_id": 5}', **{SECRET_HEADER: SECRET}) == (503, "5")

    play(acts)


def test_a_body_that_is_no_json_is_kept_and_not_asked_for_again() -> None:
    async def acts(rig: Rig) -> None:
        assert (await rig.post(b"<html>\xff", **{SECRET_HEADER: SECRET}))[0] == 200

    assert play(acts).stored == [{"unreadable": "<html>\ufffd"}]


def test_a_body_beyond_the_bound_is_refused() -> None:
    async def acts(rig: Rig) -> None:
        assert (await rig.post(b"1" * (MAX_BODY + 1), **{SECRET_HEADER: SECRET}))[0] == 413

    assert play(acts).stored == []


def test_the_health_path_says_how_it_is() -> None:
    async def acts(rig: Rig) -> None:
        assert await rig.health() == 503
        rig.is_well = True
        assert await rig.health() == 200

    play(acts)


def test_when_polling_no_pushes_are_taken() -> None:
    async def acts(rig: Rig) -> None:
        assert (await rig.post(b'{"update_id": 5}', **{SECRET_HEADER: SECRET}))[0] == 404

    play(acts, secret=None)
