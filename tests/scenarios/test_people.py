"""People use the stand-in as a person uses a chat, and a play waits for the program after each act."""

from __future__ import annotations

import asyncio
from datetime import datetime, timedelta
from typing import Any

import pytest
from telegram import BotCommandScopeChat, InlineKeyboardButton, InlineKeyboardMarkup, ReplyKeyboardMarkup
from telegram.error import BadRequest

from scenarios.player import Play
from scenarios.standin import NotPossible
from tests.builders.meeting import MONDAY_NOON, Meeting, meeting


def buttons(*labels: str) -> InlineKeyboardMarkup:
    return InlineKeyboardMarkup([[InlineKeyboardButton(label, callback_data=label.lower()) for label in labels]])


@meeting()
async def test_a_press_goes_to_the_newest_message_that_offers_it(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    old = await at.bot.send_message(mira.id, "first", reply_markup=buttons("Done", "Skip"))
    new = await at.bot.send_message(mira.id, "second", reply_markup=buttons("Done ✔"))
    await at.bot.send_message(mira.id, "third")

    await mira.presses("done")
    await mira.presses("Skip")
    await mira.presses("Done", on=mira.sees()[1])

    pressed = [(update.callback_query.message.message_id, update.callback_query.data) for update in await at.take_all()]
    assert pressed == [(new.message_id, "done ✔"), (old.message_id, "skip"), (old.message_id, "done")]


@meeting()
async def test_a_button_that_is_not_there_or_not_clear_is_said_with_what_is_offered(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    await at.bot.send_message(mira.id, "?", reply_markup=buttons("10 kg", "12 kg"))

    with pytest.raises(NotPossible, match=r"no button 'Agree' for Mira; the newest messages offer \[\['10 kg', '12 kg'\]\]"):
        await mira.presses("Agree")
    with pytest.raises(NotPossible, match=r"'kg' fits several buttons: \['10 kg', '12 kg'\]"):
        await mira.presses("kg")


@meeting()
async def test_a_button_gone_after_an_edit_can_only_be_pressed_as_an_old_one(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    sent = await at.bot.send_message(mira.id, "?", reply_markup=buttons("Undo"))
    button = mira.last.buttons[0][0]
    await sent.edit_text("12 again")

    with pytest.raises(NotPossible):
        await mira.presses("Undo")
    await mira.presses_old(mira.last, button)

    (update,) = await at.take_all()
    assert update.callback_query.data == "undo"


@meeting()
async def test_a_link_to_the_bot_starts_it_with_its_payload(at: Meeting) -> None:
    mira = at.standin.person("Mira")

    await mira.follows_link("https://t.me/stand_in_coach_bot?start=spring-42")
    with pytest.raises(NotPossible, match="does not lead to this bot"):
        await mira.follows_link("https://t.me/some_other_bot?start=1")

    (update,) = await at.take_all()
    assert update.message.text == "/start spring-42"
    assert update.message.entities[0].type == "bot_command"


@meeting()
async def test_offered_texts_can_be_tapped(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    await at.bot.send_message(mira.id, "reps?", reply_markup=ReplyKeyboardMarkup([["12", "10"]]))

    await mira.taps("10")
    with pytest.raises(NotPossible):
        await mira.taps("11")

    assert [update.message.text for update in await at.take_all()] == ["10"]


@meeting()
async def test_replies_voices_and_deletions_look_like_a_persons(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    await at.bot.send_message(mira.id, "How was it?")
    await mira.replies(mira.last, "fine")
    await mira.sends_voice(b"OggS....", duration_s=4)
    gone = await mira.says("oops")
    await mira.deletes(gone)

    reply, voice, oops = await at.take_all()
    assert reply.message.reply_to_message.text == "How was it?"
    assert voice.message.voice.duration == timedelta(seconds=4)
    assert oops.message.text == "oops"
    assert gone not in mira.sees()


class Echo:
    """A program that answers each text with itself; all but "12" five seconds later."""

    def __init__(self, at: Meeting) -> None:
        self.at = at
        self.due: list[tuple[datetime, Any]] = []

    async def run(self) -> None:
        offset = None
        while True:
            for update in await self.at.bot.get_updates(offset=offset, timeout=30):
                offset = update.update_id + 1
                wait = timedelta(seconds=0 if update.message.text == "12" else 5)
                self.due.append((self.at.clock.now() + wait, update.message))

    async def settle(self) -> None:
        for entry in [entry for entry in self.due if entry[0] <= self.at.clock.now()]:
            self.due.remove(entry)
            await self.at.bot.send_message(entry[1].chat_id, f"you said {entry[1].text}")


@meeting()
async def test_in_a_play_the_answer_is_there_when_the_act_comes_back(at: Meeting) -> None:
    program = Echo(at)
    polling = asyncio.create_task(program.run())
    async with Play(at.standin, program, at.clock) as play:
        mira = play.person("Mira")

        await mira.says("12")
        assert mira.last.text == "you said 12"
        await mira.says("10")
        assert mira.last.text == "you said 12"

        await play.pass_time(hours=2)
        assert mira.last.text == "you said 10"
        assert at.clock.now() == MONDAY_NOON + timedelta(hours=2)
    polling.cancel()


@meeting()
async def test_a_play_lets_time_pass_after_each_act_if_told_to(at: Meeting) -> None:
    program = Echo(at)
    polling = asyncio.create_task(program.run())
    async with Play(at.standin, program, at.clock, act_takes=timedelta(seconds=5)) as play:
        mira = play.person("Mira")
        await mira.says("12")
        await mira.says("10")

        assert [message.text for message in mira.from_bot()] == ["you said 12", "you said 10"]
        assert at.clock.now() == MONDAY_NOON + timedelta(seconds=10)
    polling.cancel()


@meeting()
async def test_a_payload_that_no_client_would_take_is_refused(at: Meeting) -> None:
    mira = at.standin.person("Mira")
    for payload in ("x" * 65, "a.b", "a b"):
        with pytest.raises(NotPossible, match="no client takes the payload"):
            await mira.follows_link(f"https://t.me/stand_in_coach_bot?start={payload}")


@meeting()
async def test_each_person_sees_the_commands_of_the_narrowest_scope(at: Meeting) -> None:
    rosa, mira = await at.newcomer("Rosa"), await at.newcomer("Mira", language_code="pl")
    await at.bot.set_my_commands([("today", "Today's session")])
    await at.bot.set_my_commands([("dzisiaj", "Dzisiejszy trening")], language_code="pl")
    await at.bot.set_my_commands([("group", "How the group is doing")], scope=BotCommandScopeChat(rosa.id))

    assert (rosa.commands, mira.commands) == (["group"], ["dzisiaj"])


@meeting()
async def test_a_group_with_topics_takes_messages_into_those_it_has(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    group = at.standin.group("Lifters", mira, supergroup=True)
    group.opens_topic(7, "Week 2")
    await at.bot.send_message(group.id, "Week 2 is out", message_thread_id=7)

    with pytest.raises(BadRequest, match="Message thread not found"):
        await at.bot.send_message(group.id, "Week 3 is out", message_thread_id=8)
    assert [message.thread_id for message in group.from_bot()] == [7]


@meeting()
async def test_a_link_into_a_group_brings_the_bot_in_with_its_payload(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    group = at.standin.group("Lifters", mira)
    group.removes_bot(mira)
    await group.adds_bot(mira, "spring-42")

    updates = await at.take_all()
    assert [update.my_chat_member.new_chat_member.status for update in updates if update.my_chat_member] == ["kicked", "member"]
    assert updates[-1].message.text == "/start@stand_in_coach_bot spring-42"
