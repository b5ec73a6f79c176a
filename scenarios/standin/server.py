"""How does a bot reach the stand-in? Over HTTP on loopback, by the same addresses, forms and answers as the platform.

    standin = StandIn(clock)
    await standin.start()
    ... Bot(standin.token, base_url=f"{standin.url}/bot", base_file_url=f"{standin.url}/file/bot") ...
    await standin.stop()

| address | answers |
|---|---|
| /bot<token>/<method> | the method; GET or POST; query, form, multipart or JSON |
| /file/bot<token>/<path> | the bytes of a file that getFile named |
"""

from __future__ import annotations

import asyncio
import json
import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any
from urllib.parse import parse_qsl, unquote

from aiohttp import web

from scenarios.standin import changing, sending, telling
from scenarios.standin.calls import Call, CallLog
from scenarios.standin.chats import Chat
from scenarios.standin.faults import Fault, Faults
from scenarios.standin.files import MAX_UPLOAD
from scenarios.standin.flood import Flood
from scenarios.standin.platform import MADE_UP_TOKEN, Platform
from scenarios.standin.queue import Waiting
from scenarios.standin.refusal import Refusal, bad, too_many
from scenarios.standin.sending import Method
from scenarios.standin.signatures import SIGNATURES, Signature, Upload, checked
from scenarios.standin.wall import Clock, WallClock
from scenarios.standin.webhook import Webhook

if TYPE_CHECKING:
    from scenarios.player.group import Group
    from scenarios.player.person import Person

_METHODS: dict[str, Method] = {
    name.lower(): method for table in (sending.METHODS, changing.METHODS, telling.METHODS) for name, method in table.items()
}
_BOT_PATH = re.compile(r"/bot([^/]+)/([^/]+)/?")
_FILE_PATH = re.compile(r"/file/bot([^/]+)/(.+)")
_TOKEN = re.compile(r"\d+:[A-Za-z0-9_-]+")
_SECRET = re.compile(r"[A-Za-z0-9_-]{1,256}")
_WEBHOOK_ON = "can't use getUpdates method while webhook is active; use deleteWebhook to delete the webhook first"


class StandIn:
    """The whole thing: a server, what it keeps, its log, and how it misbehaves.

    clock: played or real; username and name: the bot's; privacy: what it hears in groups, as in the platform's own setting;
    keep_limits: answer 429 past the published sending limits.
    """

    def __init__(
        self, clock: Clock | None = None, *, token: str = MADE_UP_TOKEN, username: str = "stand_in_coach_bot",
        name: str = "Companion", privacy: bool = True, keep_limits: bool = False,
    ) -> None:  # fmt: skip
        self.clock = clock or WallClock()
        self.token = token
        self.platform = Platform(self.clock, username=username, name=name, privacy=privacy)
        self.calls = CallLog()
        self.url = ""
        self._faults = Faults()
        self._flood = Flood() if keep_limits else None
        self._webhook: Webhook | None = None
        self._closing: set[asyncio.Task[None]] = set()
        self._runner: web.AppRunner | None = None
        self._token_accepted = True
        self.platform.queue.on_new = self._push

    # The server

    async def start(self, *, host: str = "127.0.0.1", port: int = 0) -> str:
        """Listen; port 0 takes a free one. Returns the URL."""
        app = web.Application(client_max_size=MAX_UPLOAD + 1024 * 1024)
        self._add_routes(app)
        self._runner = web.AppRunner(app, access_log=None, handle_signals=False, shutdown_timeout=0.2)
        await self._runner.setup()
        site = web.TCPSite(self._runner, host, port)
        await site.start()
        bound = self._runner.addresses[0]
        self.url = f"http://{bound[0]}:{bound[1]}"
        return self.url

    def _add_routes(self, app: web.Application) -> None:
        app.router.add_route("*", "/{path:.*}", self._answer)

    async def stop(self) -> None:
        """Hang up on everybody."""
        self._faults.clear()
        self.platform.queue.end_poll(Refusal(502, "Bad Gateway"))
        await self._drop_webhook()
        if self._runner:
            await self._runner.cleanup()
            self._runner = None

    async def __aenter__(self) -> StandIn:
        await self.start()
        return self

    async def __aexit__(self, *_: object) -> None:
        await self.stop()

    # People

    def person(
        self, first_name: str, *, language_code: str | None = "en", username: str | None = None, last_name: str | None = None
    ) -> Person:
        """A new person who can use the bot."""
        from scenarios.player.person import Person

        user = self.platform.add_person(first_name, language_code=language_code, username=username, last_name=last_name)
        return Person(self, user)

    def group(self, title: str, *people: Person, supergroup: bool = False, bot_is_admin: bool = False) -> Group:
        """A new group of these people with the bot in it; the first one owns it."""
        from scenarios.player.group import Group

        users = [person.user for person in people]
        return Group(self, self.platform.add_group(title, users, supergroup=supergroup, bot_is_admin=bot_is_admin))

    def migrate(self, group: Group) -> Group:
        """Turn a group into a supergroup with a new id."""
        from scenarios.player.group import Group

        return Group(self, self.platform.migrate(group.chat))

    @property
    def username(self) -> str:
        """The bot's, for links such as https://t.me/<username>?start=<payload>."""
        return self.platform.bot.username or ""

    @property
    def chats(self) -> list[Chat]:
        """All chats in which something was written, in order of creation."""
        return [chat for chat in self.platform.chats.values() if chat.messages]

    # Misbehaving

    def misbehave(
        self, fault: Fault, *, times: int | None = 1, method: str | None = None, chat_id: int | None = None, after: int = 0
    ) -> Fault:
        """Spoil the next `times` fitting calls (None: all), leaving the first `after` alone.

        Without a method: any but getUpdates.
        """
        self._faults.add(fault, times=times, method=method, chat_id=chat_id, after=after)
        return fault

    def behave(self) -> None:
        """Forget all faults; held calls go on, the token is good again."""
        self._faults.clear()
        self._token_accepted = True

    def revoke_token(self) -> None:
        """From now on every call is answered with 401."""
        self._token_accepted = False
        self.platform.queue.end_poll(Refusal(401))

    def deliver_twice(self, times: int = 1) -> None:
        """The next so many updates each arrive a second time, under the same id."""
        self.platform.queue.repeat_next(times)

    def put_update(self, body: Any) -> int:
        """Queue any body as an update, decodable or not; returns its id."""
        return self.platform.queue.put_raw(body)

    @property
    def waiting(self) -> int:
        """Updates that the bot has not confirmed yet."""
        return len(self.platform.queue)

    async def all_taken(self) -> None:
        """Come back when the bot has confirmed every update."""
        await self.platform.queue.emptied()

    # One request

    async def _answer(self, request: web.Request) -> web.StreamResponse:
        path = request.rel_url.raw_path
        hit = _BOT_PATH.fullmatch(path)
        if hit is None:
            return self._file(path)
        token, name = unquote(hit.group(1)), hit.group(2)
        signature = SIGNATURES.get(name.lower())
        call = Call(len(self.calls) + 1, self.clock.now(), signature.name if signature else name, {})
        self.calls.append(call)
        fault: Fault | None = None
        try:
            self._let_in(token)
            if signature is None:
                raise Refusal(404, "method not found")
            uploads = await self._read_body(request, call)
            fault = self._faults.for_call(name.lower(), call.fields.get("chat_id"))
            if fault and await self._spoilt_before(fault):
                call.outcome = "cut before"
                return self._cut(request)
            result = await self._perform(signature, call.fields, uploads)
            call.status, call.answer = 200, result
            body: dict[str, Any] = {"ok": True, "result": result}
        except Refusal as refusal:
            body = refusal.body()
            call.status, call.answer = refusal.status, body
        if fault and fault.cut == "after":
            call.outcome = "cut after"
            return self._cut(request)
        call.outcome = "answered"
        if fault and fault.garbage is not None:
            return web.Response(body=fault.garbage, content_type="text/html")
        headers = {"Retry-After": str(call.answer["parameters"]["retry_after"])} if call.status == 429 else None
        return web.Response(
            body=json.dumps(body, ensure_ascii=False).encode("utf-8", "surrogatepass"),
            status=call.status,
            content_type="application/json",
            headers=headers,
        )

    def _let_in(self, token: str) -> None:
        if not _TOKEN.fullmatch(token):
            raise Refusal(404)
        if token != self.token or not self._token_accepted:
            raise Refusal(401)

    async def _read_body(self, request: web.Request, call: Call) -> dict[str, Upload]:
        call.fields.update(
            parse_qsl(request.rel_url.raw_query_string, keep_blank_values=True) if request.rel_url.raw_query_string else ()
        )
        if not request.can_read_body:
            return {}
        try:
            if request.content_type == "application/json":
                data = json.loads(await request.read() or b"{}")
                if not isinstance(data, dict):
                    raise bad("can't parse JSON object")
                call.fields.update(data)
                return {}
            if request.content_type != "multipart/form-data":
                text = (await request.read()).decode()
                call.fields.update(parse_qsl(text, keep_blank_values=True, errors="strict"))
                return {}
            return await self._read_parts(request, call)
        except web.HTTPRequestEntityTooLarge:
            raise Refusal(413) from None
        except UnicodeDecodeError:
            raise bad("strings must be encoded in UTF-8") from None
        except json.JSONDecodeError:
            raise bad("can't parse JSON object") from None

    async def _read_parts(self, request: web.Request, call: Call) -> dict[str, Upload]:
        uploads: dict[str, Upload] = {}
        for name, value in (await request.post()).items():
            if isinstance(value, web.FileField):
                uploads[name] = Upload(value.filename, value.file.read(), value.content_type)
            else:
                call.fields[name] = value if isinstance(value, str) else bytes(value).decode()
        call.files = {name: (upload.filename, len(upload.content), upload.mime) for name, upload in uploads.items()}
        return uploads

    async def _spoilt_before(self, fault: Fault) -> bool:
        """Carry out the part of a fault that comes before the effect; says whether the connection is to be cut."""
        if fault.gate:
            await fault.gate.wait()
        if fault.slow_s:
            await asyncio.sleep(fault.slow_s)
        if fault.refusal:
            raise fault.refusal
        return fault.cut == "before"

    def _cut(self, request: web.Request) -> web.StreamResponse:
        if request.transport:
            request.transport.abort()
        return web.Response()

    def _file(self, path: str) -> web.StreamResponse:
        hit = _FILE_PATH.fullmatch(path)
        if hit is None:
            return web.json_response(Refusal(404).body(), status=404)
        if unquote(hit.group(1)) != self.token or not self._token_accepted:
            return web.json_response(Refusal(401).body(), status=401)
        stored = self.platform.files.at_path(unquote(hit.group(2)))
        if stored is None:
            return web.json_response(Refusal(404).body(), status=404)
        return web.Response(body=stored.content, content_type="application/octet-stream")

    async def _perform(self, signature: Signature, given: Mapping[str, Any], uploads: Mapping[str, Upload]) -> Any:
        values = checked(signature, given, uploads)
        method = _METHODS.get(signature.name.lower())
        if method is None:
            return await self._on_delivery(signature.name, values)
        if (
            self._flood
            and isinstance(values.get("chat_id"), int)
            and signature.name.startswith(("send", "copy", "forward", "edit"))
        ):
            wait_s = self._flood.wait_for(values["chat_id"], self.clock.now().timestamp())
            if wait_s:
                raise too_many(wait_s)
        return method(self.platform, values, uploads)

    # How updates are fetched or pushed

    async def _on_delivery(self, name: str, values: Mapping[str, Any]) -> Any:
        queue = self.platform.queue
        if name == "getUpdates":
            if self._webhook:
                raise Refusal(409, _WEBHOOK_ON)
            queue.allow(values.get("allowed_updates"))
            return await queue.poll(
                offset=values.get("offset", 0), limit=values.get("limit", 100), timeout=values.get("timeout", 0)
            )
        if name == "setWebhook":
            await self._set_webhook(values)
        elif name == "deleteWebhook":
            await self._drop_webhook()
            if values.get("drop_pending_updates"):
                queue.drop_all()
        elif name == "getWebhookInfo":
            return self._webhook_info()
        return True  # also logOut and close, which have nothing to do here

    async def _set_webhook(self, values: Mapping[str, Any]) -> None:
        url, secret, parallel = values.get("url", ""), values.get("secret_token", ""), values.get("max_connections", 40)
        if not url:
            await self._drop_webhook()  # an empty address removes it (manual, "setWebhook")
            return
        if not re.match(r"https?://[^/]+", url):
            raise bad("bad webhook: An HTTPS URL must be provided for webhook")
        if secret and not _SECRET.fullmatch(secret):
            raise bad("secret token contains unallowed characters")
        await self._drop_webhook()
        if values.get("drop_pending_updates"):
            self.platform.queue.drop_all()
        self.platform.queue.allow(values.get("allowed_updates"))
        self._webhook = Webhook(
            self.platform.queue,
            self.clock,
            url=url,
            secret=secret,
            parallel=max(1, min(parallel, 100)),
            on_closed=self._webhook_closed,
        )
        self.platform.queue.end_poll(Refusal(409, "terminated by setWebhook request"))
        self._webhook.start()

    async def _drop_webhook(self) -> None:
        webhook, self._webhook = self._webhook, None
        if webhook:
            await webhook.stop()

    def _webhook_closed(self) -> None:
        task = asyncio.ensure_future(self._drop_webhook())
        self._closing.add(task)
        task.add_done_callback(self._closing.discard)

    def _push(self, waiting: Waiting) -> None:
        if self._webhook:
            self._webhook.push(waiting)

    def _webhook_info(self) -> dict[str, Any]:
        hook = self._webhook
        info: dict[str, Any] = {
            "url": hook.url if hook else "",
            "has_custom_certificate": False,
            "pending_update_count": self.waiting,
        }
        if hook:
            info["max_connections"] = hook.parallel
            if hook.last_error:
                info["last_error_date"], info["last_error_message"] = hook.last_error
        return info | ({"allowed_updates": self.platform.queue.allowed} if self.platform.queue.allowed else {})
