"""The stand-in takes and refuses calls as the platform does; each call made is checked by another library's models too."""

from __future__ import annotations

import io
import json

import pytest
from PIL import Image
from telegram import (
    BotCommand,
    BotCommandScopeChat,
    InlineKeyboardButton,
    InlineKeyboardMarkup,
    InputMediaDocument,
    MenuButtonCommands,
    ReplyKeyboardMarkup,
    ReplyParameters,
)
from telegram.error import BadRequest, ChatMigrated, Forbidden, NetworkError, RetryAfter

from scenarios.standin import cut_after, cut_before, held, refuse, server_error, too_many
from tests.builders.bot_api_check import problems_of, problems_of_answers
from tests.builders.meeting import Meeting, meeting


def a_picture(width: int = 40, height: int = 30) -> bytes:
    content = io.BytesIO()
    Image.new("RGB", (width, height), "teal").save(content, "PNG")
    return content.getvalue()


@meeting()
async def test_a_message_shows_without_its_marks_and_with_its_buttons(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    buttons = InlineKeyboardMarkup(
        [[InlineKeyboardButton("Done", callback_data="d:1")], [InlineKeyboardButton("Plan", url="https://example.org")]]
    )

    sent = await at.bot.send_message(mira.id, "💪 <b>20 kg</b> &lt; 22", parse_mode="HTML", reply_markup=buttons)

    assert mira.last.text == "💪 20 kg < 22"
    assert mira.last.labels == ["Done", "Plan"]
    assert sent.entities[0].offset == 3  # UTF-16: the arm takes two units
    assert sent.parse_entity(sent.entities[0]) == "20 kg"
    assert problems_of(at.standin.calls) == []


@meeting()
async def test_every_method_a_bot_like_ours_uses_passes_the_other_librarys_models(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    group = at.standin.group("Lifters", mira, bot_is_admin=True)
    bot = at.bot
    text = await bot.send_message(
        mira.id, "one", reply_markup=ReplyKeyboardMarkup([["12", "10"]], input_field_placeholder="reps")
    )
    await bot.send_message(mira.id, "two", reply_parameters=ReplyParameters(text.message_id))
    await text.edit_text("one, again")
    await text.edit_reply_markup(InlineKeyboardMarkup([[InlineKeyboardButton("Go", callback_data="go")]]))
    document = await bot.send_document(mira.id, b"x;y", filename="sets.csv", caption="your sets")
    await document.edit_caption("your <i>own</i> sets", parse_mode="HTML")
    await bot.send_document(mira.id, document.document.file_id)
    photo = await bot.send_photo(mira.id, a_picture())
    await bot.send_voice(mira.id, b"OggS....", duration=3)
    await bot.send_audio(mira.id, b"ID3.....", title="beat")
    await bot.send_video(mira.id, b"....ftyp", duration=2)
    await bot.send_media_group(mira.id, [InputMediaDocument(b"1", filename="a.txt"), InputMediaDocument(b"2", filename="b.txt")])
    await bot.send_poll(group.id, "How sore?", ["not", "a bit", "very"], is_anonymous=False)
    await bot.send_chat_action(mira.id, "typing")
    await bot.set_message_reaction(mira.id, text.message_id, "👍")
    await bot.pin_chat_message(mira.id, text.message_id)
    await bot.forward_message(group.id, mira.id, text.message_id)
    await bot.copy_message(group.id, mira.id, text.message_id)
    await mira.presses("Go")
    (press,) = [update for update in await at.take_all() if update.callback_query]
    await press.callback_query.answer("noted")
    await bot.set_my_commands([BotCommand("today", "Today's session")], scope=BotCommandScopeChat(mira.id))
    commands = await bot.get_my_commands(scope=BotCommandScopeChat(mira.id))
    await bot.delete_my_commands(scope=BotCommandScopeChat(mira.id))
    await bot.set_my_description("Blocks and sets")
    await bot.set_my_short_description("Blocks")
    await bot.set_chat_menu_button(menu_button=MenuButtonCommands())
    chat, member, admins = (
        await bot.get_chat(group.id),
        await bot.get_chat_member(group.id, mira.id),
        await bot.get_chat_administrators(group.id),
    )
    link = await bot.create_chat_invite_link(group.id, name="spring")
    await bot.export_chat_invite_link(group.id)
    await bot.delete_message(mira.id, document.message_id)
    await bot.leave_chat(group.id)

    assert [call.description for call in at.standin.calls.refused()] == []
    assert problems_of(at.standin.calls) == []
    assert problems_of_answers(at.standin.calls) == []
    assert (photo.photo[-1].width, photo.photo[-1].height) == (40, 30)
    assert (chat.title, member.status, len(admins), commands[0].command) == ("Lifters", "creator", 2, "today")
    assert link.invite_link.startswith("https://t.me/+")
    assert mira.toast == "noted"
    assert mira.keyboard == ["12", "10"]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("<b>20 kg", "can't parse entities: Can't find end tag corresponding to start tag \"b\""),
        ("20 < 22", "can't parse entities: Unclosed start tag at byte offset 3"),
        ("é <blink>x</blink>", 'can\'t parse entities: Unsupported start tag "blink" at byte offset 3'),
        ("<b>x</i>", 'can\'t parse entities: Unmatched end tag at byte offset 4, expected "</b>", found "</i>"'),
        ("x</b>", "can't parse entities: Unexpected end tag at byte offset 1"),
        ("  <b> </b> ", "message text is empty"),
        ("x" * 4097, "message is too long"),
        ("💪" * 2049, "message is too long"),
    ],
)
def test_a_text_the_platform_would_not_take_is_refused_in_its_words(text: str, words: str) -> None:
    @meeting()
    async def play(at: Meeting) -> None:
        mira = await at.newcomer("Mira")
        with pytest.raises(BadRequest) as refused:
            await at.bot.send_message(mira.id, text, parse_mode="HTML")
        assert refused.value.message.removeprefix("Bad Request: ").lower() == words.lower()
        assert mira.from_bot() == []

    play()


@meeting()
async def test_marks_do_not_count_towards_the_length(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    await at.bot.send_message(mira.id, f"<b>{'x' * 4096}</b> \n", parse_mode="HTML")
    with pytest.raises(BadRequest, match="caption is too long"):
        await at.bot.send_document(mira.id, b"1", caption="x" * 1025)
    assert len(mira.last.text) == 4096


@pytest.mark.parametrize(
    ("markup", "words"),
    [
        ({"inline_keyboard": [[{"text": "x", "callback_data": "é" * 33}]]}, "BUTTON_DATA_INVALID"),
        ({"inline_keyboard": [[{"text": "x"}]]}, "text buttons are unallowed in the inline keyboard"),
        ({"inline_keyboard": [[{"text": "x", "callback_data": "1"}] * 9]}, "reply markup is too long"),
        ({"inline_keyboard": [[{"text": "x", "callback_data": "1"}] * 5] * 21}, "reply markup is too long"),
        ({"inline_keyboard": [[{"text": "x", "callback_data": "1", "colour": "red"}]]}, 'unknown field "colour"'),
        ({"buttons": []}, "object expected as reply markup"),
    ],
)
def test_a_keyboard_the_platform_would_not_show_is_refused(markup: dict[str, object], words: str) -> None:
    @meeting()
    async def play(at: Meeting) -> None:
        mira = await at.newcomer("Mira")
        answer = await at.ask("sendMessage", chat_id=mira.id, text="x", reply_markup=json.dumps(markup))
        assert answer["error_code"] == 400
        assert words in answer["description"]

    play()


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"text": "x", "colour": "red"}, 'unknown parameter "colour" of sendMessage'),
        ({"text": "x", "disable_notification": "maybe"}, 'parameter "disable_notification" must be of type Boolean'),
        ({"text": "x", "message_thread_id": "first"}, 'parameter "message_thread_id" must be of type Integer'),
        ({"text": "x", "reply_markup": "[1"}, 'parameter "reply_markup" must be a JSON object'),
        ({}, "message text is empty"),
        ({"text": "x", "parse_mode": "rich"}, "unsupported parse_mode"),
        ({"text": "x", "reply_parameters": '{"message_id": 99}'}, "message to be replied not found"),
    ],
)
def test_malformed_calls_are_refused(fields: dict[str, str], words: str) -> None:
    @meeting()
    async def play(at: Meeting) -> None:
        mira = await at.newcomer("Mira")
        answer = await at.ask("sendMessage", chat_id=mira.id, **fields)
        assert answer == {"ok": False, "error_code": 400, "description": f"Bad Request: {words}"}

    play()


@meeting()
async def test_a_person_who_never_pressed_start_cannot_be_written_to(at: Meeting) -> None:
    mira = at.standin.person("Mira")
    with pytest.raises(BadRequest, match="Chat not found"):
        await at.bot.send_message(mira.id, "Hello")


@meeting()
async def test_edits_obey_the_platforms_rules(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    sent = await at.bot.send_message(mira.id, "<b>12</b>", parse_mode="HTML")
    file = await at.bot.send_document(mira.id, b"1")

    with pytest.raises(BadRequest, match="Message is not modified"):
        await sent.edit_text("<b>12</b>", parse_mode="HTML")
    with pytest.raises(BadRequest, match="Message to edit not found"):
        await at.bot.edit_message_text("x", mira.id, 999)
    with pytest.raises(BadRequest, match="Message can't be edited"):
        await at.bot.edit_message_text("x", mira.id, mira.sees()[0].id)
    with pytest.raises(BadRequest, match="There is no text in the message to edit"):
        await at.bot.edit_message_text("x", mira.id, file.message_id)
    await sent.edit_text("12")  # the same words, marked otherwise, are a change

    shown = mira.sees()[1]
    assert (shown.html, [version.html for version in shown.earlier]) == ("12", ["<b>12</b>"])


@meeting()
async def test_an_old_press_cannot_be_answered(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    await at.bot.send_message(mira.id, "?", reply_markup=InlineKeyboardMarkup([[InlineKeyboardButton("Go", callback_data="go")]]))
    await mira.presses("Go")
    (update,) = await at.take_all()
    await at.clock.advance(151)

    with pytest.raises(BadRequest, match="Query is too old and response timeout expired or query id is invalid"):
        await update.callback_query.answer()
    assert not mira.press_answered


@meeting()
async def test_a_group_that_grows_says_its_new_id(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    group = at.standin.group("Lifters", mira)
    grown = at.standin.migrate(group)

    with pytest.raises(ChatMigrated) as moved:
        await at.bot.send_message(group.id, "Week 2")
    await at.bot.send_message(grown.id, "Week 2")

    assert moved.value.new_chat_id == grown.id
    old, new = await at.take_all()
    assert (old.message.migrate_to_chat_id, new.message.migrate_from_chat_id) == (grown.id, group.id)


@meeting()
async def test_files_are_sent_again_by_their_id_and_only_as_what_they_are(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    sent = await at.bot.send_photo(mira.id, a_picture())
    again = await at.bot.send_photo(mira.id, sent.photo[-1].file_id)

    with pytest.raises(BadRequest, match="file of type photo as document"):
        await at.bot.send_document(mira.id, sent.photo[-1].file_id)
    with pytest.raises(BadRequest, match="Image_process_failed"):
        await at.bot.send_photo(mira.id, b"no picture at all")
    with pytest.raises(BadRequest, match="Photo_invalid_dimensions"):
        await at.bot.send_photo(mira.id, a_picture(2_100, 100))
    with pytest.raises(BadRequest, match="too big for a photo"):
        await at.bot.send_photo(mira.id, b"x" * (10 * 1024 * 1024 + 1))
    assert again.photo[-1].file_id == sent.photo[-1].file_id


@meeting()
async def test_it_misbehaves_as_told_and_then_behaves(at: Meeting) -> None:
    mira, tom = await at.newcomer("Mira"), await at.newcomer("Tom")
    at.standin.misbehave(refuse(too_many(3)), chat_id=mira.id, times=2)

    for _ in range(2):
        with pytest.raises(RetryAfter) as slower:
            await at.bot.send_message(mira.id, "12")
        assert int(slower.value.retry_after.total_seconds()) == 3
    await at.bot.send_message(tom.id, "12")
    await at.bot.send_message(mira.id, "12")
    at.standin.misbehave(refuse(server_error(502)), method="sendMessage")
    with pytest.raises(NetworkError, match="Bad Gateway"):
        await at.bot.send_message(mira.id, "10")

    assert [len(person.from_bot()) for person in (mira, tom)] == [1, 1]


@meeting()
async def test_a_cut_connection_may_or_may_not_have_had_its_effect(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    at.standin.misbehave(cut_before())
    at.standin.misbehave(cut_after())

    for text in ("lost", "arrived"):
        with pytest.raises(NetworkError, match="connection broke"):
            await at.bot.send_message(mira.id, text)

    assert [message.text for message in mira.from_bot()] == ["arrived"]
    assert [call.outcome for call in at.standin.calls.of("sendMessage")] == ["cut before", "cut after"]


@meeting()
async def test_a_held_call_waits_for_its_release(at: Meeting) -> None:
    import asyncio

    mira = await at.newcomer("Mira")
    hold = at.standin.misbehave(held())
    sending = asyncio.create_task(at.bot.send_message(mira.id, "12"))
    while not at.standin.calls.of("sendMessage"):
        await asyncio.sleep(0)
    assert mira.from_bot() == []

    hold.release()
    await sending

    assert mira.last.text == "12"


@meeting(keep_limits=True)
async def test_told_to_keep_the_published_limits_it_says_when_to_come_back(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    group = at.standin.group("Lifters", mira)
    for number in range(5):
        await at.bot.send_message(mira.id, str(number))
    with pytest.raises(RetryAfter) as slower:
        await at.bot.send_message(mira.id, "six")
    for number in range(20):
        await at.clock.advance(0.1)
        await at.bot.send_message(group.id, str(number))
    with pytest.raises(RetryAfter) as group_slower:
        await at.bot.send_message(group.id, "too much")

    assert int(slower.value.retry_after.total_seconds()) == 1
    assert int(group_slower.value.retry_after.total_seconds()) == 59
    assert at.standin.calls.busiest(60, chat_id=group.id) == 20


@meeting()
async def test_a_bot_put_out_of_a_group_cannot_write_there(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    group = at.standin.group("Lifters", mira)
    group.removes_bot(mira)

    with pytest.raises(Forbidden, match="bot was kicked from the group chat"):
        await at.bot.send_message(group.id, "Week 2")


@meeting()
async def test_an_upload_past_50_megabytes_is_refused(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    with pytest.raises(NetworkError, match="Request Entity Too Large"):
        await at.bot.send_document(mira.id, b"x" * (50 * 1024 * 1024 + 1))


@meeting()
async def test_the_other_librarys_models_find_what_is_wrong(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    await at.ask("sendMessage", chat_id=mira.id, text="x", colour="red")
    await at.ask("sendMessage", chat_id=mira.id)
    await at.ask("sendMessage", chat_id=mira.id, text="x" * 4097)
    await at.ask(
        "sendMessage",
        chat_id=mira.id,
        text="x",
        reply_markup='{"inline_keyboard": [[{"text": "a", "callback_data": "1", "glow": 1}]]}',
    )
    await at.ask("sendMessage", chat_id=mira.id, text="x", disable_notification="maybe")
    await at.ask("sendTelepathy", chat_id=mira.id)

    problems = [problem.partition(": ")[2] for problem in problems_of(at.standin.calls)]
    assert problems[0] == "unknown parameters ['colour']"
    assert problems[1].startswith("text: Field required")
    assert problems[2] == "text of 4097 UTF-16 units, expected 1 to 4096"
    assert problems[3] == "reply_markup.inline_keyboard[0][0]: unknown fields ['glow']"
    assert any("disable_notification" in problem for problem in problems)
    assert problems[-1] == "no such method"


@pytest.mark.parametrize(
    ("kinds", "taken"),
    [(["photo"], False), (["photo"] * 2, True), (["photo"] * 10, True), (["photo"] * 11, False), (["photo", "document"], False)],
    ids=["one", "two", "ten", "eleven", "mixed"],
)
def test_an_album_has_2_to_10_files_of_kinds_that_go_together(kinds: list[str], taken: bool) -> None:
    """Bot API manual, "sendMediaGroup"."""

    @meeting()
    async def play(at: Meeting) -> None:
        mira = await at.newcomer("Mira")
        photo = (await at.bot.send_photo(mira.id, a_picture())).photo[-1].file_id
        document = (await at.bot.send_document(mira.id, b"1")).document.file_id
        media = [{"type": kind, "media": photo if kind == "photo" else document} for kind in kinds]
        answer = await at.ask("sendMediaGroup", chat_id=mira.id, media=json.dumps(media))
        assert answer["ok"] is taken
        assert len({message.album for message in mira.from_bot()[2:]}) == (1 if taken else 0)

    play()


@meeting()
async def test_messages_can_be_deleted_for_two_days_and_in_groups_only_ones_own(at: Meeting) -> None:
    """Bot API manual, "deleteMessage"."""
    mira = await at.newcomer("Mira")
    group = at.standin.group("Lifters", mira)
    old, newer = await at.bot.send_message(mira.id, "1"), await at.bot.send_message(group.id, "2")
    said = await mira.says("3", group=group)

    with pytest.raises(BadRequest, match="Message can't be deleted"):
        await at.bot.delete_message(group.id, said.id)
    assert await newer.delete()
    await at.clock.advance(48 * 3600 + 1)
    with pytest.raises(BadRequest, match="Message can't be deleted"):
        await old.delete()
    with pytest.raises(BadRequest, match="Message to delete not found"):
        await newer.delete()

    assert [message.text for message in group.sees()] == ["3"]


@meeting()
async def test_an_account_that_is_gone_is_said_to_be(at: Meeting) -> None:
    mira = await at.newcomer("Mira")
    await mira.deletes_account()
    with pytest.raises(Forbidden, match="user is deactivated"):
        await at.bot.send_message(mira.id, "Still there?")
