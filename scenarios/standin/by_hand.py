"""How is a stand-in in another process used? By a few addresses of its own, beside those of the platform.

| address | body | answers |
|---|---|---|
| POST /act | {"person": "Mira", "does": "says", "text": "20 x 12"} | what the chat shows |
| GET /chat/<person> | | what the chat shows |
| POST /misbehave | {"fault": "too_many", "seconds": 3, "times": 1, "method": "sendMessage"} | {} |
| POST /behave | | {} |
| GET /calls | ?after=<number> | the log |

What a person does: says, presses, starts, edits (the own newest message), blocks, unblocks; one who is named for the first time
comes into being. Faults: too_many, blocked, server_error, cut_before, cut_after, slow.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

from aiohttp import web

from scenarios.player.person import Person
from scenarios.standin.arrivals import NotPossible
from scenarios.standin.faults import Fault, cut_after, cut_before, refuse, slow
from scenarios.standin.refusal import blocked, server_error, too_many
from scenarios.standin.server import StandIn

_FAULTS: dict[str, Callable[[float], Fault]] = {
    "too_many": lambda seconds: refuse(too_many(int(seconds))),
    "blocked": lambda _: refuse(blocked()),
    "server_error": lambda _: refuse(server_error()),
    "cut_before": lambda _: cut_before(),
    "cut_after": lambda _: cut_after(),
    "slow": slow,
}


class OpenStandIn(StandIn):
    """A stand-in that takes acts and faults over HTTP too."""

    def __init__(self, **how: Any) -> None:
        super().__init__(**how)
        self._by_name: dict[str, Person] = {}

    def _add_routes(self, app: web.Application) -> None:
        app.router.add_post("/act", self._act)
        app.router.add_get("/chat/{person}", self._chat)
        app.router.add_post("/misbehave", self._misbehave)
        app.router.add_post("/behave", self._behave)
        app.router.add_get("/calls", self._calls)
        super()._add_routes(app)

    async def _act(self, request: web.Request) -> web.Response:
        try:
            asked = await request.json()
            person = self._named(asked["person"])
            await _carry_out(person, asked.get("does", "says"), asked.get("text", ""))
        except (NotPossible, KeyError, TypeError, json.JSONDecodeError) as error:
            return web.json_response({"problem": f"{type(error).__name__}: {error}"}, status=400)
        return web.json_response(_shown(person))

    async def _chat(self, request: web.Request) -> web.Response:
        return web.json_response(_shown(self._named(request.match_info["person"])))

    async def _misbehave(self, request: web.Request) -> web.Response:
        try:
            asked = await request.json()
            fault = _FAULTS[asked["fault"]](float(asked.get("seconds", 1)))
        except (KeyError, TypeError, ValueError) as error:
            return web.json_response({"problem": f"{type(error).__name__}: {error}", "faults": sorted(_FAULTS)}, status=400)
        self.misbehave(fault, times=asked.get("times", 1), method=asked.get("method"), after=asked.get("after", 0))
        return web.json_response({})

    async def _behave(self, _: web.Request) -> web.Response:
        self.behave()
        return web.json_response({})

    async def _calls(self, request: web.Request) -> web.Response:
        after = int(request.query.get("after", 0))
        return web.json_response(
            [
                {
                    "number": call.number,
                    "method": call.method,
                    "fields": call.fields,
                    "status": call.status,
                    "outcome": call.outcome,
                }
                for call in self.calls[after:]
            ]
        )

    def _named(self, name: str) -> Person:
        if name not in self._by_name:
            self._by_name[name] = self.person(name)
        return self._by_name[name]


async def _carry_out(person: Person, does: str, text: str) -> None:
    if does == "says":
        await person.says(text)
    elif does == "presses":
        await person.presses(text)
    elif does == "starts":
        await person.starts(text)
    elif does == "edits":
        await person.edits([message for message in person.sees() if not message.from_bot][-1], text)
    elif does == "blocks":
        await person.blocks_bot()
    elif does == "unblocks":
        await person.unblocks_bot()
    else:
        raise NotPossible(f"nobody can {does!r}; says, presses, starts, edits, blocks and unblocks are possible")


def _shown(person: Person) -> dict[str, Any]:
    messages = [
        {"id": message.id, "from": message.sender.first_name, "text": message.text, "buttons": message.labels}
        for message in person.sees()
    ]
    return {"person": person.id, "keyboard": person.keyboard, "messages": messages}
