"""A row becomes one call, and the platform's answer one outcome. Played against the stand-in, calls checked against another library."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

import pytest
from telegram.error import BadRequest, ChatMigrated, Forbidden, InvalidToken, NetworkError, TimedOut

from bot.chat.messenger import Messenger, outcome_of
from bot.chat.outgoing import Button, Outgoing
from bot.chat.transport import NotConnected, Transport, open_bot
from bot.coaching.ports import Gone, Moved, NotReached, Outcome, Refused, Sent, Slower, Unclear
from scenarios.clock import PlayedClock
from scenarios.standin import StandIn, bad, cut_after, garbage, refuse, server_error, too_many
from tests.builders.bot_api_check import problems_of
from tests.builders.pipes import NOON


@dataclass
class Row:
    """A row as the outbox hands it out."""

    chat_id: int
    fields: dict[str, Any] = field(default_factory=dict)
    id: int = 1
    thread_id: int | None = None
    kind: str = "x"
    lane: int = 0
    expires_at_utc: datetime | None = None
    created_at_utc: datetime = NOON
    attempts: int = 0
    parts_sent: int = 0
    ready_at_utc: datetime | None = None


@pytest.mark.parametrize(
    ("error", "outcome"),
    [
        (Forbidden("Forbidden: bot was blocked by the user"), Gone("Forbidden: bot was blocked by the user")),
        (Forbidden("Forbidden: user is deactivated"), Gone("Forbidden: user is deactivated")),
        (BadRequest("Chat not found"), Gone("Chat not found")),
        (ChatMigrated(-1005), Moved(-1005)),
        (TimedOut(), Unclear("Timed out")),
        (NetworkError("Bad Gateway"), Unclear("Bad Gateway")),
        (NetworkError("Internal Server Error (500)"), Unclear("Internal Server Error (500)")),
        (NetworkError("Request Entity Too Large (413)"), Refused("Request Entity Too Large (413)")),
        (NotConnected("no connection"), NotReached("no connection")),
        (InvalidToken(), NotReached("the token is not accepted")),
        (BadRequest("Message is too long"), Refused("Message is too long")),
        (
            BadRequest("Not enough rights to send text messages to the chat"),
            Refused("Not enough rights to send text messages to the chat"),
        ),
    ],
)
def test_each_answer_of_the_platform_means_one_outcome(error: Any, outcome: Outcome) -> None:
    """Texts: Bot API server, Client.cpp."""
    assert outcome_of(error) == outcome


class Rig:
    def __init__(self) -> None:
        self.standin = StandIn(PlayedClock(NOON))
        self.transport = Transport()
        self.outgoing = Outgoing(text="x")

    async def deliver(self, chat_id: int, outgoing: Outgoing, **row: Any) -> Outcome:
        messenger = Messenger(open_bot(self.standin.token, self.standin.url, self.transport), lambda kind, fields, row: outgoing)
        return await messenger.deliver(Row(chat_id, **row))


def play(acts: Callable[[Rig], Awaitable[None]]) -> None:
    rig = Rig()

    async def run() -> None:
        async with rig.standin:
            await rig.transport.initialize()
            await acts(rig)
            await rig.transport.shutdown()
        assert problems_of(rig.standin.calls) == []

    asyncio.run(asyncio.wait_for(run(), 20))


def test_text_buttons_and_keyboards_arrive_as_they_were_meant() -> None:
    async def acts(rig: Rig) -> None:
        mira = rig.standin.person("Mira")
        await mira.starts()
        buttons = ((Button("12", data="a:1:0"), Button("10", data="a:1:1")), (Button("More", url="https://example.org"),))
        outcome = await rig.deliver(mira.id, Outgoing(text="<b>A1</b> 12 &lt; 13", buttons=buttons))
        assert isinstance(outcome, Sent)
        assert (outcome.message["message_id"], outcome.parts_left) == (mira.last.id, 0)
        assert (mira.last.html, mira.last.labels) == ("<b>A1</b> 12 &lt; 13", ["12", "10", "More"])
        await rig.deliver(mira.id, Outgoing(text="units?", reply_rows=(("kg", "lb"),)))
        assert mira.keyboard == ["kg", "lb"]

    play(acts)


def test_an_edit_changes_the_message_and_an_edit_to_the_same_is_well() -> None:
    async def acts(rig: Rig) -> None:
        mira = rig.standin.person("Mira")
        await mira.starts()
        await rig.deliver(mira.id, Outgoing(text="before"))
        number = mira.last.id
        for _ in range(2):
            outcome = await rig.deliver(mira.id, Outgoing(text="after", edit_message_id=number))
            assert isinstance(outcome, Sent)
            assert outcome.message["message_id"] == number
        assert [message.text for message in mira.from_bot()] == ["after"]

    play(acts)


def test_an_edit_of_a_message_that_is_gone_is_sent_anew() -> None:
    async def acts(rig: Rig) -> None:
        mira = rig.standin.person("Mira")
        await mira.starts()
        assert isinstance(await rig.deliver(mira.id, Outgoing(text="after", edit_message_id=4_711)), Sent)
        assert mira.last.text == "after"

    play(acts)


def test_marks_that_do_not_close_are_sent_as_plain_text() -> None:
    async def acts(rig: Rig) -> None:
        mira = rig.standin.person("Mira")
        await mira.starts()
        assert isinstance(await rig.deliver(mira.id, Outgoing(text="<b>12 &amp; 10")), Sent)
        assert mira.last.text == "12 & 10"

    play(acts)


def test_files_go_up_and_may_be_sent_again_by_their_id() -> None:
    async def acts(rig: Rig) -> None:
        mira = rig.standin.person("Mira")
        await mira.starts()
        outcome = await rig.deliver(mira.id, Outgoing(text="your sets", document=b"day,slot\n", filename="sets.csv"))
        assert isinstance(outcome, Sent)
        file_id = outcome.message["document"]["file_id"]
        assert isinstance(await rig.deliver(mira.id, Outgoing(file_id=file_id, file_kind="document")), Sent)
        assert len(mira.from_bot()) == 2

    play(acts)


def test_a_long_text_arrives_in_parts_one_call_each() -> None:
    async def acts(rig: Rig) -> None:
        mira = rig.standin.person("Mira")
        await mira.starts()
        long = Outgoing(text="\n".join(f"line {n}" for n in range(1_000)))
        first = await rig.deliver(mira.id, long)
        assert isinstance(first, Sent)
        for sent in range(1, first.parts_left + 1):
            outcome = await rig.deliver(mira.id, long, parts_sent=sent)
            assert isinstance(outcome, Sent)
            assert outcome.parts_left == first.parts_left - sent
        assert "\n".join(message.text for message in mira.from_bot()) == long.text

    play(acts)


@pytest.mark.parametrize(
    ("fault", "outcome"),
    [
        pytest.param(lambda: refuse(server_error()), Unclear, id="5xx"),
        pytest.param(cut_after, Unclear, id="answer lost"),
        pytest.param(garbage, Unclear, id="a page instead of an answer"),
        pytest.param(lambda: refuse(bad("have no rights to send a message")), Refused, id="no rights"),
    ],
)
def test_misbehaviour_becomes_its_outcome(fault: Any, outcome: type[Outcome]) -> None:
    async def acts(rig: Rig) -> None:
        mira = rig.standin.person("Mira")
        await mira.starts()
        rig.standin.misbehave(fault())
        assert isinstance(await rig.deliver(mira.id, Outgoing(text="x")), outcome)

    play(acts)


def test_a_wait_is_as_long_as_the_platform_says() -> None:
    async def acts(rig: Rig) -> None:
        mira = rig.standin.person("Mira")
        await mira.starts()
        rig.standin.misbehave(refuse(too_many(9)))
        assert await rig.deliver(mira.id, Outgoing(text="x")) == Slower(9.0)

    play(acts)


def test_who_never_started_or_blocked_the_bot_is_gone() -> None:
    async def acts(rig: Rig) -> None:
        stranger, mira = rig.standin.person("Sol"), rig.standin.person("Mira")
        assert isinstance(await rig.deliver(stranger.id, Outgoing(text="x")), Gone)
        await mira.starts()
        await mira.blocks_bot()
        assert isinstance(await rig.deliver(mira.id, Outgoing(text="x")), Gone)

    play(acts)


def test_without_a_server_nothing_is_reached_and_no_error_shows_the_token() -> None:
    async def run() -> Outcome:
        transport = Transport()
        await transport.initialize()
        bot = open_bot("123456:AAsecret-secret", "http://127.0.0.1:9", transport)
        outcome = await Messenger(bot, lambda kind, fields, row: Outgoing(text="x")).deliver(Row(7))
        await transport.shutdown()
        return outcome

    outcome = asyncio.run(run())

    assert isinstance(outcome, NotReached)
    assert "secret" not in outcome.reason


def test_a_message_that_cannot_be_rendered_is_given_up_and_not_tried_for_ever() -> None:
    def render(kind: str, fields: dict[str, Any], row: Any) -> Outgoing:
        raise KeyError("reply")

    messenger = Messenger(open_bot("123456:AAsecret-secret", "http://127.0.0.1:9", Transport()), render)

    assert asyncio.run(messenger.deliver(Row(7))) == Refused("not rendered: KeyError: 'reply'")


def unrenderable(kind: str, fields: dict[str, Any], row: Any) -> Outgoing:
    raise KeyError("reply")


def instead(kind: str) -> Outgoing:
    return Outgoing(text=f"a sentence for {kind}")


@pytest.mark.parametrize(
    ("render", "fault", "why"),
    [
        pytest.param(unrenderable, None, "not rendered: KeyError: 'reply'", id="it cannot be rendered"),
        pytest.param(lambda *_: Outgoing(text="Which?"), bad("BUTTON_DATA_INVALID"), "Button_data_invalid", id="it is refused"),
        pytest.param(
            lambda *_: Outgoing(text="Which?", buttons=((object(),),)),  # type: ignore[arg-type]
            None,
            "not called: AttributeError",
            id="a fault of ours on the way",
        ),
    ],
)
def test_in_the_place_of_a_message_that_fails_the_person_gets_a_sentence(render: Any, fault: Any, why: str) -> None:
    async def acts(rig: Rig) -> None:
        mira = rig.standin.person("Mira")
        await mira.starts()
        if fault is not None:
            rig.standin.misbehave(refuse(fault), method="sendMessage", times=1)
        messenger = Messenger(open_bot(rig.standin.token, rig.standin.url, rig.transport), render, instead=instead)
        outcome = await messenger.deliver(Row(mira.id))
        assert isinstance(outcome, Refused)
        assert outcome.reason.startswith(why)
        assert [message.text for message in mira.from_bot()] == ["a sentence for x"]

    play(acts)


def test_a_sentence_that_does_not_get_through_leaves_the_message_waiting() -> None:
    async def acts(rig: Rig) -> None:
        mira = rig.standin.person("Mira")
        await mira.starts()
        rig.standin.misbehave(refuse(too_many(3)), method="sendMessage", times=1)
        messenger = Messenger(open_bot(rig.standin.token, rig.standin.url, rig.transport), unrenderable, instead=instead)
        assert await messenger.deliver(Row(mira.id)) == Slower(3)

    play(acts)


def test_a_group_hears_of_no_fault() -> None:
    messenger = Messenger(
        open_bot("123456:AAsecret-secret", "http://127.0.0.1:9", Transport()), unrenderable, instead=instead
    )  # a call would raise: the transport is not open

    assert asyncio.run(messenger.deliver(Row(-7))) == Refused("not rendered: KeyError: 'reply'")
