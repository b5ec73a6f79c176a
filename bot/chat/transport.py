"""How do calls reach the platform? Through the Bot library's own request seam, carried by aiohttp.

The library's stock carrier slows down when it sends side by side; this one does not. It adds one distinction that the sender
needs: `NotConnected` means that nothing can have arrived. No error it raises holds a URL, because the URL holds the token.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from typing import Any
from urllib.request import getproxies

import aiohttp
from telegram import Bot
from telegram.error import NetworkError, TimedOut
from telegram.request import BaseRequest, RequestData

CONNECT_S = 10.0
READ_S = 20.0  # the platform answers in well under a second; past this the outcome counts as unknown
MEDIA_READ_S = 90.0
PARALLEL = 64


class NotConnected(NetworkError):
    """No connection was made, so nothing can have arrived."""


class Transport(BaseRequest):
    """The Bot library's requests over one aiohttp session, opened by `initialize`."""

    def __init__(self) -> None:
        self._session: aiohttp.ClientSession | None = None

    @property
    def read_timeout(self) -> float:
        return READ_S

    async def initialize(self) -> None:
        if self._session is None or self._session.closed:
            self._session = aiohttp.ClientSession(
                connector=aiohttp.TCPConnector(limit=PARALLEL, keepalive_timeout=75),
                cookie_jar=aiohttp.DummyCookieJar(),
                headers={"User-Agent": self.USER_AGENT},
                trust_env=bool(getproxies()),  # asked for always, it would read a netrc file before each request
            )

    async def shutdown(self) -> None:
        if self._session is not None:
            await self._session.close()
            self._session = None

    async def do_request(
        self,
        url: str,
        method: str,
        request_data: RequestData | None = None,
        read_timeout: Any = BaseRequest.DEFAULT_NONE,
        write_timeout: Any = BaseRequest.DEFAULT_NONE,
        connect_timeout: Any = BaseRequest.DEFAULT_NONE,
        pool_timeout: Any = BaseRequest.DEFAULT_NONE,
    ) -> tuple[int, bytes]:
        """Carry one call; returns the status and the body.

        Raises:
            NotConnected: nothing can have arrived.
            TimedOut, NetworkError: it may have arrived.
        """
        files = request_data.multipart_data if request_data else {}
        fields = request_data.json_parameters if request_data else {}
        standard = MEDIA_READ_S if files or method == "GET" else READ_S
        return await self.exchange(
            url,
            method,
            _form(fields, files) if files else fields,
            read_s=_seconds(read_timeout, standard),
            connect_s=_seconds(connect_timeout, CONNECT_S),
        )

    async def exchange(
        self, url: str, method: str, data: Any, *, read_s: float | None = READ_S, connect_s: float | None = CONNECT_S
    ) -> tuple[int, bytes]:
        """Carry raw form fields; for calls whose answer the library is not to decode."""
        if self._session is None:
            raise RuntimeError("the transport is not open: call initialize() first")
        timeout = aiohttp.ClientTimeout(total=None, sock_connect=connect_s, sock_read=read_s)
        try:
            async with self._session.request(method, url, data=data, timeout=timeout) as answer:
                return answer.status, await answer.read()
        except aiohttp.ConnectionTimeoutError as error:
            raise NotConnected("connecting took too long") from error
        except aiohttp.ClientConnectorError as error:
            raise NotConnected(f"no connection: {type(error).__name__}") from error
        except TimeoutError as error:
            raise TimedOut from error
        except aiohttp.InvalidURL:
            raise NotConnected("the base URL is not a URL") from None  # its text would show the token
        except aiohttp.ClientError as error:
            raise NetworkError(f"connection broke: {type(error).__name__}") from error


def open_bot(token: str, base_url: str, transport: Transport) -> Bot:
    """The library's Bot on this transport. base_url: root of the platform's server; methods and files are below it."""
    os.environ.setdefault("PTB_TIMEDELTA", "true")  # the coming form of retry_after; without it each one warns
    root = base_url.rstrip("/")
    return Bot(token, base_url=f"{root}/bot", base_file_url=f"{root}/file/bot", request=transport, get_updates_request=transport)


def _form(fields: Mapping[str, str], files: Mapping[str, tuple[str, Any, str]]) -> aiohttp.FormData:
    form = aiohttp.FormData(quote_fields=False)
    for name, value in fields.items():
        form.add_field(name, value)
    for name, (filename, content, mime) in files.items():
        form.add_field(name, content, filename=filename, content_type=mime)
    return form


def _seconds(given: Any, standard: float) -> float | None:
    return given if given is None or isinstance(given, int | float) else standard
