"""A small platform for tests of the pipes alone: updates wait until an offset is above them; calls are answered by a script."""

from __future__ import annotations

import asyncio
import json
from collections import deque
from collections.abc import Callable
from typing import Any

from aiohttp import web

TOKEN = "123456789:AAtesttokentesttoken"


class FakePlatform:
    """Answers calls on loopback. `script`: answers to give instead of the usual ones, first come first served, by method."""

    def __init__(self) -> None:
        self.calls: list[tuple[str, dict[str, str]]] = []
        self.updates: list[Any] = []
        self.script: dict[str, deque[Callable[[], web.StreamResponse] | Exception]] = {}
        self.url = ""
        self._next_id = 100
        self._next_message = 1
        self._news = asyncio.Event()

    async def start(self) -> str:
        app = web.Application()
        app.router.add_route("*", "/bot{token}/{method}", self._answer)
        app.router.add_get("/file/bot{token}/{path:.*}", self._file)
        self._runner = web.AppRunner(app, access_log=None, shutdown_timeout=0.1)
        await self._runner.setup()
        site = web.TCPSite(self._runner, "127.0.0.1", 0)
        await site.start()
        self.url = f"http://127.0.0.1:{self._runner.addresses[0][1]}"
        return self.url

    async def stop(self) -> None:
        await self._runner.cleanup()

    def sent(self, method: str = "sendMessage") -> list[dict[str, str]]:
        return [data for name, data in self.calls if name == method]

    def texts(self, chat_id: int | None = None) -> list[str]:
        return [data["text"] for data in self.sent() if chat_id is None or data["chat_id"] == str(chat_id)]

    def message(self, chat_id: int, text: str, **more: Any) -> dict[str, Any]:
        """Queue a message from a person in a private chat."""
        person = {"id": abs(chat_id), "is_bot": False, "first_name": "Ila"}
        chat = {"id": chat_id, "type": "private" if chat_id > 0 else "group"}
        self._next_message += 1
        message = {"message_id": self._next_message, "date": 1_790_000_000, "chat": chat, "from": person, "text": text}
        return self.push({"message": {**message, **more}})

    def press(self, chat_id: int, data: str) -> dict[str, Any]:
        person = {"id": chat_id, "is_bot": False, "first_name": "Ila"}
        message = {"message_id": 5, "date": 1_790_000_000, "chat": {"id": chat_id, "type": "private"}, "text": "?"}
        return self.push(
            {"callback_query": {"id": str(self._next_id), "from": person, "chat_instance": "1", "data": data, "message": message}}
        )

    def push(self, update: dict[str, Any]) -> dict[str, Any]:
        update = {"update_id": self._next_id, **update}
        self._next_id += 1
        self.updates.append(update)
        self._news.set()
        return update

    def misbehave(self, method: str, status: int, description: str = "", **parameters: Any) -> None:
        """Let the next call of a method fail so."""
        body = {"ok": False, "error_code": status, "description": description, "parameters": parameters}
        self.script.setdefault(method, deque()).append(lambda: web.json_response(body, status=status))

    def cut(self, method: str) -> None:
        """Let the next call of a method arrive, and its answer be lost."""
        self.script.setdefault(method, deque()).append(ConnectionResetError())

    async def _answer(self, request: web.Request) -> web.StreamResponse:
        method = request.match_info["method"]
        form = await request.post()
        data = {key: value if isinstance(value, str) else f"<file {value.filename}>" for key, value in form.items()}  # type: ignore[union-attr]
        if request.match_info["token"] != TOKEN:
            return web.json_response({"ok": False, "error_code": 401, "description": "Unauthorized"}, status=401)
        if method != "getUpdates":
            self.calls.append((method, data))
        if self.script.get(method):
            step = self.script[method].popleft()
            if isinstance(step, Exception):
                assert request.transport is not None
                request.transport.close()
                return web.Response()
            return step()
        return web.json_response({"ok": True, "result": await self._result(method, data)}, dumps=lambda o: json.dumps(o))

    async def _result(self, method: str, data: dict[str, str]) -> Any:
        if method == "getMe":
            return {"id": 1, "is_bot": True, "first_name": "Companion", "username": "companion_bot"}
        if method == "getUpdates":
            if "offset" in data:
                self.updates = [u for u in self.updates if u.get("update_id", 0) >= int(data["offset"])]
            if not self.updates:
                self._news.clear()
                await self._news.wait()
            return self.updates[: int(data.get("limit", 100))]
        if method == "getFile":
            return {"file_id": data["file_id"], "file_unique_id": "u", "file_size": 5, "file_path": "documents/a.txt"}
        if method.startswith(("send", "edit")):
            self._next_message += 1
            number = int(data.get("message_id", self._next_message))
            chat = {"id": int(data["chat_id"]), "type": "private"}
            return {"message_id": number, "date": 1_790_000_000, "chat": chat, "text": data.get("text", "")}
        return True

    async def _file(self, _request: web.Request) -> web.Response:
        return web.Response(body=b"12345")
