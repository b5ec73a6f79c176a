"""How do updates come in by push, so that none is lost? Stored first, answered 200 after.

Also the program's own small web server: a health path, and whatever routes the program adds (the calendar feed).
"""

from __future__ import annotations

import hmac
import json
import logging
from collections.abc import Awaitable, Callable, Iterable, Sequence
from typing import Any

from aiohttp import web
from telegram import Bot
from telegram.error import InvalidToken, TelegramError

from bot.chat.intake import ALLOWED_UPDATES, TokenRefused
from bot.chat.messenger import outcome_of
from bot.coaching.pauses import growing_pause_s
from bot.coaching.ports import Clock, Slower

LOG = logging.getLogger(__name__)
SECRET_HEADER = "X-Telegram-Bot-Api-Secret-Token"
UPDATES_PATH = "/updates"
HEALTH_PATH = "/health"
MAX_BODY = 1024 * 1024  # an update is some kilobytes; files come by their id only


def make_app(
    *,
    store: Callable[[Sequence[Any]], Awaitable[int]],
    is_healthy: Callable[[], bool],
    secret: str | None,
    routes: Iterable[web.RouteDef] = (),
) -> web.Application:
    """The web application. secret: what the platform must send along; None takes no updates at all (polling)."""
    app = web.Application(client_max_size=MAX_BODY)

    async def health(_request: web.Request) -> web.Response:
        well = is_healthy()
        return web.json_response({"ok": well}, status=200 if well else 503)

    async def updates(request: web.Request) -> web.Response:
        assert secret is not None
        if not hmac.compare_digest(request.headers.get(SECRET_HEADER, "").encode(), secret.encode()):
            return web.Response(status=403)
        body = await request.read()
        try:
            update = json.loads(body)
        except ValueError:
            update = {"unreadable": body.decode(errors="replace")}  # parked: refusing it would only bring it again
        try:
            await store([update])
        except Exception as error:
            LOG.warning("webhook_not_stored cause=%s", type(error).__name__)
            return web.Response(status=503, headers={"Retry-After": "5"})
        return web.Response()

    app.router.add_get(HEALTH_PATH, health)
    if secret is not None:
        app.router.add_post(UPDATES_PATH, updates)
    app.router.add_routes(list(routes))
    return app


class WebServer:
    """Serves an application on one address."""

    def __init__(self, app: web.Application, *, host: str, port: int) -> None:
        self._runner = web.AppRunner(app, access_log=None)  # its lines would hold paths that are secrets
        self._host, self._port = host, port

    async def start(self) -> int:
        """Open the port; returns it (0 asks for any free one)."""
        await self._runner.setup()
        site = web.TCPSite(self._runner, self._host, self._port)
        await site.start()
        return int(self._runner.addresses[0][1])

    async def stop(self) -> None:
        await self._runner.cleanup()


async def announce(bot: Bot, *, public_url: str, secret: str, clock: Clock) -> None:
    """Tell the platform where to push, again and again until it has heard.

    Raises:
        TokenRefused: it does not know the token.
    """
    await _until_heard(
        lambda: bot.set_webhook(
            public_url.rstrip("/") + UPDATES_PATH, secret_token=secret, allowed_updates=list(ALLOWED_UPDATES), max_connections=40
        ),
        clock,
    )


async def take_back(bot: Bot, *, clock: Clock) -> None:
    """Tell the platform to push no more, so that polling may begin; nothing that waits there is thrown away."""
    await _until_heard(lambda: bot.delete_webhook(drop_pending_updates=False), clock)


async def _until_heard(call: Callable[[], Awaitable[Any]], clock: Clock) -> None:
    tries = 0
    while True:
        try:
            await call()
            return
        except InvalidToken:
            raise TokenRefused from None
        except TelegramError as error:
            tries += 1
            outcome = outcome_of(error)
            pause = max(outcome.seconds if isinstance(outcome, Slower) else 0.0, growing_pause_s(tries, first_s=2.0, most_s=60.0))
            LOG.warning("platform_not_told cause=%r tries=%d next_in_s=%.0f", error.message, tries, pause)
            await clock.sleep(pause)
