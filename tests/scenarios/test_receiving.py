"""The stand-in hands out updates as the platform does (Bot API manual, "getUpdates"; open server, Client.cpp)."""

from __future__ import annotations

import asyncio

import pytest
from telegram.error import Conflict, InvalidToken

from scenarios.standin import cut_after
from tests.builders.bot_api_check import problems_of_answers
from tests.builders.meeting import Meeting, meeting


@meeting()
async def test_an_update_stays_until_a_later_offset_is_asked_for(at: Meeting) -> None:
    mira = at.standin.person("Mira")
    for text in ("12", "10", "8"):
        await mira.says(text)

    first = await at.bot.get_updates(limit=2)
    again = await at.bot.get_updates(limit=2)
    rest = await at.bot.get_updates(offset=first[0].update_id + 1)

    assert [update.message.text for update in first] == ["12", "10"]
    assert again == first
    assert [update.message.text for update in rest] == ["10", "8"]


@meeting()
async def test_a_negative_offset_throws_away_all_but_the_last(at: Meeting) -> None:
    mira = at.standin.person("Mira")
    for text in ("12", "10", "8"):
        await mira.says(text)

    kept = await at.bot.get_updates(offset=-1)

    assert [update.message.text for update in kept] == ["8"]
    assert at.standin.waiting == 1


@meeting()
async def test_a_waiting_poll_is_answered_by_the_next_message(at: Meeting) -> None:
    mira = at.standin.person("Mira")
    poll = asyncio.create_task(at.bot.get_updates(timeout=30))
    while not at.standin.calls.of("getUpdates"):
        await asyncio.sleep(0)

    await mira.says("20 x 12")

    assert [update.message.text for update in await poll] == ["20 x 12"]


@meeting()
async def test_a_second_poller_ends_the_first_with_a_conflict(at: Meeting) -> None:
    first = asyncio.create_task(at.bot.get_updates(timeout=30))
    while at.standin.platform.queue._poll is None:
        await asyncio.sleep(0)

    assert await at.bot.get_updates() == ()
    with pytest.raises(Conflict, match="terminated by other getUpdates request"):
        await first


@meeting()
async def test_polling_while_a_webhook_is_set_is_a_conflict(at: Meeting) -> None:
    await at.bot.set_webhook("http://127.0.0.1:9/nobody")

    with pytest.raises(Conflict, match="webhook is active"):
        await at.bot.get_updates()
    await at.bot.delete_webhook()
    assert await at.bot.get_updates() == ()


@meeting()
async def test_texts_are_kept_for_a_day_and_presses_for_150_seconds(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    await at.ask(
        "sendMessage", chat_id=mira.id, text="Ready?", reply_markup='{"inline_keyboard":[[{"text":"Go","callback_data":"go"}]]}'
    )
    await mira.says("20 x 12")
    await mira.presses("Go")

    await at.clock.advance(149)
    assert at.standin.waiting == 2
    await at.clock.advance(1)
    assert at.standin.waiting == 1
    await at.clock.advance(24 * 3600 - 151)
    assert at.standin.waiting == 1
    await at.clock.advance(1)
    assert at.standin.waiting == 0


@meeting()
async def test_an_edit_is_kept_for_a_day_from_the_edit(at: Meeting) -> None:
    mira = at.standin.person("Mira")
    said = await mira.says("12")
    await at.clock.advance(20 * 3600)
    await mira.edits(said, "10")

    await at.clock.advance(5 * 3600)

    (update,) = await at.bot.get_updates()
    assert (update.edited_message.text, update.edited_message.message_id) == ("10", said.id)


@meeting()
async def test_kinds_not_asked_for_do_not_come_and_the_wish_is_remembered(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    sent = await at.bot.send_message(mira.id, "Well done")
    shown = mira.last

    await mira.reacts(shown, "👍")  # must be named (manual)
    await at.bot.get_updates(allowed_updates=["message_reaction"])
    await mira.reacts(shown, "🔥")
    await mira.says("thanks")

    (update,) = await at.bot.get_updates()
    assert update.message_reaction.message_id == sent.message_id
    assert [sign.emoji for sign in update.message_reaction.new_reaction] == ["🔥"]


@meeting()
async def test_a_lost_answer_to_a_poll_loses_nothing(at: Meeting) -> None:
    mira = at.standin.person("Mira")
    await mira.says("20 x 12")
    at.standin.misbehave(cut_after(), method="getUpdates")

    with pytest.raises(Exception, match="connection broke"):
        await at.bot.get_updates()

    assert [update.message.text for update in await at.bot.get_updates()] == ["20 x 12"]


@meeting()
async def test_the_same_update_can_be_made_to_come_twice(at: Meeting) -> None:
    mira = at.standin.person("Mira")
    at.standin.deliver_twice()
    await mira.says("12")
    await mira.says("10")

    first = await at.bot.get_updates()
    second = await at.bot.get_updates(offset=first[-1].update_id + 1)
    third = await at.bot.get_updates(offset=first[-1].update_id + 1)

    assert [update.message.text for update in first] == ["12", "10"]
    assert [update.update_id for update in second] == [first[0].update_id]
    assert third == ()


@meeting()
async def test_after_a_quiet_week_the_next_id_is_any_number(at: Meeting) -> None:
    """A bot may not take a smaller id for an old one, nor a stale offset for a reason to hear nothing."""
    mira = at.standin.person("Mira")
    ids = []
    for _ in range(4):
        await mira.says("back again")
        (update,) = await at.bot.get_updates(offset=ids[-1] + 1 if ids else None)
        ids.append(update.update_id)
        await at.clock.advance(7 * 24 * 3600)

    assert len(set(ids)) == 4
    assert ids != sorted(ids)


@meeting()
async def test_every_kind_of_update_is_what_another_library_expects(at: Meeting) -> None:
    """Validated by aiogram's model of an update, 3.31; a field that it does not know counts as wrong."""
    mira, tom = at.standin.person("Mira", username="mira_lifts"), at.standin.person("Tom", language_code=None)
    await at.bot.get_updates(
        allowed_updates=["message", "edited_message", "callback_query", "my_chat_member", "message_reaction", "poll_answer"]
    )
    said = await mira.says("/start see @mira_lifts, me@example.org, https://example.org #week2 😀 /today")
    await mira.edits(said, "12")
    keyboard = '{"inline_keyboard":[[{"text":"Go","callback_data":"go"}]]}'
    await at.ask("sendMessage", chat_id=mira.id, text="?", reply_markup=keyboard)
    await mira.presses("Go")
    await mira.reacts(mira.last, "👍")
    await mira.replies(mira.last, "yes")
    await mira.sends_file("sets.csv", b"1;2", "mine")
    await mira.sends_voice(b"OggS")
    group = at.standin.group("Lifters", mira, bot_is_admin=True)
    group.joins(tom)
    poll = await at.bot.send_poll(group.id, "Sore?", ["no", "yes"], is_anonymous=False)
    await tom.votes(next(message for message in group.sees() if message.id == poll.message_id), 1)
    group.leaves(tom)
    group.removes_bot(mira)
    await group.adds_bot(mira)
    await mira.blocks_bot()
    await mira.unblocks_bot()
    at.standin.migrate(group)

    await at.take_all()

    assert [len(call.answer) for call in at.standin.calls.of("getUpdates")][1] == 17
    assert problems_of_answers(at.standin.calls) == []


@meeting()
async def test_bodies_that_no_library_can_decode_are_handed_out_as_they_are(at: Meeting) -> None:
    number = at.standin.put_update({"message": {"date": "yesterday"}})
    at.standin.put_update(["not", "even", "an object"])

    answer = await at.ask("getUpdates")

    assert answer["result"] == [{"update_id": number, "message": {"date": "yesterday"}}, ["not", "even", "an object"]]


@meeting()
async def test_a_wrong_token_is_refused(at: Meeting) -> None:
    at.standin.revoke_token()
    with pytest.raises(InvalidToken):
        await at.bot.get_me()

    at.standin.behave()
    assert (await at.bot.get_me()).is_bot


@meeting()
async def test_blocking_tells_the_bot_and_shuts_it_out(at: Meeting) -> None:
    mira = await at.newcomer("Mira")

    await mira.blocks_bot()
    answer = await at.ask("sendMessage", chat_id=mira.id, text="Still there?")
    await mira.says("back again")

    assert answer == {"ok": False, "error_code": 403, "description": "Forbidden: bot was blocked by the user"}
    left, returned, said = await at.take_all()
    assert (left.my_chat_member.new_chat_member.status, returned.my_chat_member.new_chat_member.status) == ("kicked", "member")
    assert said.message.text == "back again"


@meeting()
async def test_in_a_group_with_privacy_the_bot_hears_only_what_is_meant_for_it(at: Meeting) -> None:
    mira, tom = at.standin.person("Mira"), at.standin.person("Tom")
    group = at.standin.group("Tuesday lifters", mira, tom)
    await at.bot.send_message(group.id, "Week 2 is out")

    await mira.says("morning all", group=group)
    await tom.says("/today", group=group)
    await mira.says("/today@some_other_bot", group=group)
    await tom.replies(group.from_bot()[-1], "nice")
    await mira.says("what next, @stand_in_coach_bot?", group=group)

    heard = [update.message.text for update in await at.take_all()]
    assert heard == ["/today", "nice", "what next, @stand_in_coach_bot?"]


@meeting()
async def test_a_text_longer_than_a_message_arrives_as_several(at: Meeting) -> None:
    mira = at.standin.person("Mira")

    await mira.says("💪" * 4096)

    parts = [update.message.text for update in await at.take_all()]
    assert [len(part) for part in parts] == [2048, 2048]
    assert "".join(parts) == "💪" * 4096


@meeting()
async def test_files_come_down_as_they_were_sent_up_to_20_megabytes(at: Meeting) -> None:
    mira = at.standin.person("Mira")
    await mira.sends_file("block.csv", b"A1;goblet squat;3x10", "my block")
    await mira.sends_file("film.bin", b"x" * (20 * 1024 * 1024 + 1))

    small, large = await at.take_all()
    content = await (await small.message.document.get_file()).download_as_bytearray()
    refusal = await at.ask("getFile", file_id=large.message.document.file_id)

    assert (small.message.document.file_name, small.message.caption, bytes(content)) == (
        "block.csv",
        "my block",
        b"A1;goblet squat;3x10",
    )
    assert refusal["description"] == "Bad Request: file is too big"


@meeting()
async def test_an_admin_bot_hears_everything_in_its_group(at: Meeting) -> None:
    mira = at.standin.person("Mira")
    group = at.standin.group("Lifters", mira, bot_is_admin=True)
    await mira.says("morning all", group=group)
    assert [update.message.text for update in await at.take_all()] == ["morning all"]


@meeting(privacy=False)
async def test_a_bot_without_privacy_hears_everything_too(at: Meeting) -> None:
    mira = at.standin.person("Mira")
    await mira.says("morning all", group=at.standin.group("Lifters", mira))
    assert [update.message.text for update in await at.take_all()] == ["morning all"]
