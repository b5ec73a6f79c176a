"""Updates by polling: stored first, acknowledged after; nothing but a refused token stops it."""

from __future__ import annotations

import asyncio
import json
import logging
from collections import deque
from collections.abc import Sequence
from typing import Any

import pytest
from telegram.error import NetworkError, TimedOut

from bot.chat.intake import ALLOWED_UPDATES, Intake, TokenRefused
from scenarios.clock import PlayedClock
from tests.builders.pipes import NOON


def batch(*ids: int) -> tuple[int, bytes]:
    return 200, json.dumps({"ok": True, "result": [{"update_id": id_, "message": {"chat": {"id": 7}}} for id_ in ids]}).encode()


def failure(status: int, description: str = "", **parameters: Any) -> tuple[int, bytes]:
    return status, json.dumps({"ok": False, "error_code": status, "description": description, "parameters": parameters}).encode()


class Rig:
    """An intake whose platform answers by script."""

    def __init__(self, *answers: tuple[int, bytes] | Exception, store_fails: int = 0) -> None:
        self.answers = deque(answers)
        self.asked: list[dict[str, str]] = []
        self.stored: list[Any] = []
        self.log: list[str] = []  # what happened in which order
        self.store_fails = store_fails
        self.clock = PlayedClock(NOON)
        self.intake = Intake(exchange=self.exchange, method_url="http://x/getUpdates", store=self.store, clock=self.clock)

    async def exchange(self, url: str, method: str, data: Any, *, read_s: float | None) -> tuple[int, bytes]:
        self.asked.append(data)
        self.log.append(f"fetch {data.get('offset')}")
        answer = self.answers.popleft()
        if isinstance(answer, Exception):
            raise answer
        return answer

    async def store(self, updates: Sequence[Any]) -> int:
        if self.store_fails:
            self.store_fails -= 1
            raise OSError("disk full")
        self.stored += updates
        self.log.append(f"store {[u.get('update_id') if isinstance(u, dict) else u for u in updates]}")
        return len(updates)

    def run(self) -> float:
        """Step through all answers; returns the seconds waited in between."""

        async def go() -> None:
            while self.answers:
                step = asyncio.create_task(self.intake.step())
                while not step.done():
                    await asyncio.sleep(0)
                    if (wake_at := self.clock.next_wake_at()) is not None:
                        await self.clock.advance_to(wake_at)
                await step

        asyncio.run(go())
        return (self.clock.now() - NOON).total_seconds()


def test_a_batch_is_stored_before_a_higher_offset_is_asked_for() -> None:
    rig = Rig(batch(100, 101), batch(102), batch())

    rig.run()

    assert rig.log == ["fetch None", "store [100, 101]", "fetch 102", "store [102]", "fetch 103"]


def test_every_call_says_which_updates_it_wants_and_how_long_it_waits() -> None:
    rig = Rig(batch())

    rig.run()

    assert rig.asked == [{"timeout": "50", "limit": "100", "allowed_updates": json.dumps(ALLOWED_UPDATES)}]


def test_an_acknowledged_offset_is_forgotten_so_that_random_new_ids_are_seen() -> None:
    """After a week without updates ids start at a random number, maybe a lower one (Bot API manual, type Update)."""
    rig = Rig(batch(900), batch(), batch(12), batch())

    rig.run()

    assert rig.log == ["fetch None", "store [900]", "fetch 901", "fetch None", "store [12]", "fetch 13"]


def test_what_could_not_be_stored_is_not_acknowledged() -> None:
    rig = Rig(batch(100), batch(100), batch(), store_fails=1)

    rig.run()

    assert rig.log == ["fetch None", "fetch None", "store [100]", "fetch 101"]


def test_nonsense_among_updates_is_stored_with_them_and_stops_nothing() -> None:
    body = json.dumps({"ok": True, "result": ["?", {"update_id": 5}, {"no": "id"}]}).encode()
    rig = Rig((200, body), batch())

    rig.run()

    assert rig.stored == ["?", {"update_id": 5}, {"no": "id"}]
    assert rig.asked[1]["offset"] == "6"


@pytest.mark.parametrize(
    ("answer", "waits_s"),
    [
        pytest.param(NetworkError("no connection"), 1, id="no network"),
        pytest.param(TimedOut(), 1, id="no answer"),
        pytest.param((502, b"<html>Bad Gateway</html>"), 1, id="a page"),
        pytest.param((200, b"[]"), 1, id="a list"),
        pytest.param(failure(500, "Internal"), 1, id="server error"),
        pytest.param(failure(429, "Too Many Requests", retry_after=17), 17, id="too many"),
        pytest.param(failure(409, "Conflict: terminated by other getUpdates request"), 5, id="another poller"),
    ],
)
def test_trouble_is_waited_out_and_the_next_fetch_asks_the_same(answer: Any, waits_s: float) -> None:
    rig = Rig(batch(100), answer, batch(101))

    waited = rig.run()

    assert rig.log == ["fetch None", "store [100]", "fetch 101", "fetch 101", "store [101]"]
    assert waited == waits_s


def test_pauses_grow_and_shrink_again_after_a_success() -> None:
    rig = Rig(*[NetworkError("x")] * 9, batch(1), NetworkError("x"), batch(2))

    assert rig.run() == 1 + 2 + 4 + 8 + 16 + 32 + 60 * 3 + 1


def test_a_conflict_is_said(caplog: pytest.LogCaptureFixture) -> None:
    rig = Rig(failure(409, "Conflict: terminated by other getUpdates request"), batch())
    with caplog.at_level(logging.WARNING):
        rig.run()

    assert "another program fetches this bot's updates; stop it, only one may" in caplog.text


@pytest.mark.parametrize("status", [401, 404])
def test_a_refused_token_ends_it_with_a_sentence(status: int) -> None:
    with pytest.raises(TokenRefused) as caught:
        Rig(failure(status, "Unauthorized")).run()

    assert str(caught.value) == (
        "The platform does not accept the token (COMPANION_TOKEN): copy it again from the chat where the bot was created, "
        "or ask there for a new one; it looks like 123456789:AAE... and belongs to one bot only."
    )


def test_a_day_without_a_network_is_waited_out() -> None:
    rig = Rig(*[NetworkError("no route")] * 1_500, batch(7))

    waited_s = rig.run()

    assert [update["update_id"] for update in rig.stored] == [7]
    assert waited_s > 86_000 / 4
