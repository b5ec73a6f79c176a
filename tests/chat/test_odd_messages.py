"""What fits nowhere is answered in plain words, once, and by who is speaking: stranger, member or coach."""

from __future__ import annotations

import io
from typing import Any

import pytest
from PIL import Image

from scenarios.player import Person
from tests.builders.stage import KIT, Stage, staged


def picture() -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (40, 40)).save(out, "PNG")
    return out.getvalue()


async def arrives(stage: Stage, person: Person, message_id: int, **what: Any) -> None:
    """A message of a kind that the player cannot send, in the platform's own JSON."""
    private = {"id": person.id, "type": "private", "first_name": person.name}
    sender = {"id": person.id, "is_bot": False, "first_name": person.name}
    message = {"message_id": message_id, "date": int(stage.clock.now().timestamp()), "chat": private, "from": sender, **what}
    stage.standin.put_update({"message": message})
    await stage.play.settle()


def new_texts(person: Person, since: int) -> list[str]:
    return [message.text for message in person.from_bot()[since:]]


@staged()
async def test_strangers_hear_what_the_bot_is_for_whatever_they_send(stage: Stage) -> None:
    stranger = stage.play.person("Xavi")
    for act in (stranger.starts(), stranger.says("hello?"), stranger.sends_photo(picture()), stranger.sends_voice(b"x")):
        await act
        assert stranger.last.text.startswith("Hello. I work for a coach")


@staged()
async def test_a_wrong_code_and_a_used_one_are_told_apart_from_invites(stage: Stage) -> None:
    stranger = stage.play.person("Xavi")
    await stranger.says("dead-beef-cafe")
    assert stranger.last.text.startswith("That code is not right, or somebody has used it.")
    await stranger.starts("some-invite_1")
    assert stranger.last.text.startswith("I do not know this invite.")
    await stage.coach.starts(stage.claim_code)
    assert stage.coach.last.text.startswith("You are the coach already")


@staged(block="")
async def test_a_code_may_be_typed_with_capitals_and_spaces(stage: Stage) -> None:
    """Typed from a terminal to a phone: the stage's own coach has used it as printed."""
    await stage.coach.says(stage.claim_code.upper().replace("-", " "))

    assert not stage.coach.last.text.startswith("That code is not right")


@staged()
async def test_the_words_under_a_picture_are_read(stage: Stage) -> None:
    mira = await stage.member("Mira")
    seen = len(mira.from_bot())
    await mira.sends_photo(picture(), "A1 16x12")

    assert stage.records(mira) == ["A1.1 16 kg x 12"]
    assert new_texts(mira, seen)[-1] == "I read your words; I cannot look at pictures."


@staged()
async def test_an_album_is_answered_once(stage: Stage) -> None:
    mira = await stage.member("Mira")
    seen = len(mira.from_bot())
    photo = [{"file_id": "p", "file_unique_id": "p", "width": 40, "height": 40}]
    for number in range(4):
        await arrives(stage, mira, 9_000 + number, photo=photo, media_group_id="13")

    assert new_texts(mira, seen) == [
        "I can only read text, not pictures. Please type it: your sets, like 20x12, or your question."
    ]


@pytest.mark.parametrize(
    ("what", "said"),
    [
        ({"sticker": {"file_id": "s", "file_unique_id": "s", "type": "regular", "width": 9, "height": 9, "is_animated": False, "is_video": False}}, "stickers"),
        ({"location": {"latitude": 38.7, "longitude": -9.1}}, "places on a map"),
        ({"contact": {"phone_number": "+1", "first_name": "X"}}, "contacts"),
        ({"video_note": {"file_id": "v", "file_unique_id": "v", "length": 9, "duration": 3}}, "videos"),
        ({"animation": {"file_id": "g", "file_unique_id": "g", "width": 9, "height": 9, "duration": 3},
          "document": {"file_id": "g", "file_unique_id": "g", "mime_type": "video/mp4"}}, "videos"),
        ({"dice": {"emoji": "🎲", "value": 3}}, "that"),
    ],
    ids=lambda value: next(iter(value)) if isinstance(value, dict) else "",
)  # fmt: skip
def test_each_kind_without_words_is_named(what: dict[str, Any], said: str) -> None:
    @staged()
    async def acts(stage: Stage) -> None:
        mira = await stage.member("Mira")
        await arrives(stage, mira, 9_000, **what)
        assert mira.last.text.startswith(f"I can only read text, not {said}. Please type it")

    acts()


@staged()
async def test_what_merely_happened_to_the_chat_gets_no_answer(stage: Stage) -> None:
    mira = await stage.member("Mira")
    seen = len(mira.from_bot())
    await arrives(stage, mira, 9_000, message_auto_delete_timer_changed={"message_auto_delete_time": 86_400})
    await arrives(stage, mira, 9_001, new_chat_title="x")

    assert new_texts(mira, seen) == []


@staged()
async def test_a_forwarded_text_is_read_like_any_other(stage: Stage) -> None:
    mira = await stage.member("Mira")
    origin = {"type": "hidden_user", "sender_user_name": "Somebody", "date": 1_700_000_000}
    await arrives(stage, mira, 9_000, text="A1 16x12", forward_origin=origin)

    assert stage.records(mira) == ["A1.1 16 kg x 12"]


@staged()
async def test_a_command_that_is_none_is_said_to_be_none(stage: Stage) -> None:
    mira = await stage.member("Mira")
    await mira.says("/foo bar")
    assert mira.last.text.startswith("I do not know /foo.")
    await stage.coach.says("/foo")
    assert stage.coach.last.text.startswith("I do not know /foo.")


@staged()
async def test_a_coachs_stray_words_and_pictures_get_a_short_pointer(stage: Stage) -> None:
    await stage.coach.says("hello there")
    assert stage.coach.last.text.startswith("I am not sure what to do with “hello there”.")
    await stage.coach.sends_photo(picture())
    assert (
        stage.coach.last.text
        == "I can only read text and files (txt, csv, xlsx), not pictures. Please type it, or send it as a file."
    )


@pytest.mark.parametrize(
    "text", ["tell everyone: rest well", "tell everyone rest well", "Tell everybody that rest well", "to all: rest well"]
)
def test_a_word_to_everyone_needs_no_colon(text: str) -> None:
    @staged()
    async def acts(stage: Stage) -> None:
        mira = await stage.member("Mira")
        await stage.coach.says(text)
        await stage.coach.says("yes")
        await stage.play.pass_time(minutes=1)
        assert mira.last.text == "Ines: rest well"

    acts()


@staged()
async def test_yes_and_no_answer_the_question_that_was_just_asked(stage: Stage) -> None:
    mira = await stage.member("Mira")
    await mira.says("16x12")
    await mira.says("/erase")
    await mira.says("no")
    assert stage.records(mira) == ["A1.1 16 kg x 12"]
    await mira.says("yes")  # answers nothing any more
    assert stage.records(mira) == ["A1.1 16 kg x 12"]
    await mira.says("/erase")
    await mira.says("A2 12")
    await mira.says("yes")  # something else came in between
    assert stage.records(mira) == ["A1.1 16 kg x 12", "A2.1 body weight x 12"]
    await mira.says("/erase")
    await mira.says("yes")
    assert mira.last.text.startswith("Everything about you is erased")


@staged()
async def test_questions_of_the_beginning_say_what_was_not_understood(stage: Stage) -> None:
    mira = stage.play.person("Mira")
    await mira.follows_link(stage.link)
    await mira.says("what is this")
    assert "as written above" in mira.last.text
    assert mira.last.labels == ["Yes, I agree", "No, leave"]
    await mira.says("yes")
    await mira.says("stone")
    assert mira.last.text == "“stone” is none of the two I know. Do you think in kilograms or in pounds?"
    await mira.says("kg")
    await mira.says("none of those, Lisbon")
    await mira.presses("Lisbon")
    await mira.says("nothing")
    await mira.says(KIT)
    assert mira.from_bot()[-2].text == "Your kit is noted."
    assert stage.member_of(mira).kit.items
    await mira.says("whenever")
    assert mira.last.text.startswith("I could not read “whenever” as days.")
    await mira.presses("Monday")
    await mira.says("25:00")
    assert mira.last.text.startswith("I could not read “25:00” as a time of day.")
    await mira.says("17:30")
    assert mira.last.text.startswith("You are in, Mira.")


@staged()
async def test_the_coach_hears_who_is_gone_and_who_is_back(stage: Stage) -> None:
    mira = await stage.member("Mira")
    await mira.blocks_bot()
    assert stage.coach.last.text == "Mira has blocked me or is gone; I have stopped writing to them."
    await stage.coach.says("/group")
    assert "cannot be reached: has blocked me, or is gone" in stage.coach.last.text
    await mira.unblocks_bot()
    assert stage.coach.last.text == "Mira is back: I can write to them again."


@staged()
async def test_a_block_published_to_nobody_says_so(stage: Stage) -> None:
    assert stage.coach.last.text == "Small block is published. Nobody has joined yet; whoever joins gets it."


@staged()
async def test_a_button_pressed_twice_acts_once_and_an_old_one_says_that_it_is_old(stage: Stage) -> None:
    mira = await stage.member("Mira")
    await mira.says("16x12")
    await mira.says("swap a2")
    offered = mira.last
    first, second = (button for row in offered.buttons[:2] for button in row)
    await mira.presses(first.label)
    chosen = mira.last.text
    await mira.presses_old(offered, first)
    await stage.play.pass_time(days=8)
    await mira.presses_old(offered, second)

    assert chosen.startswith(f"A2 is {first.label} today")
    assert mira.last.text == "That question is closed: it was answered, or we have moved on. To change something, just type it."
    member = stage.member_of(mira)
    with stage.uow() as uow:
        assert len(uow.swaps.find(member_id=member.id)) == 1


@staged()
async def test_a_question_under_a_video_reaches_the_coach_with_the_video(stage: Stage) -> None:
    mira = await stage.member("Mira")
    await mira.sends_video(b"film", "is my form ok?")

    assert mira.last.text == "Your coach has it, with your words."
    shown = stage.coach.last
    assert (shown.file.kind if shown.file else "", shown.text) == ("video", "From Mira. Reply to answer.")
    await stage.coach.replies(shown, "knees out a little more")
    assert mira.last.text == "Ines: knees out a little more"


@staged()
async def test_a_voice_message_can_be_sent_on_to_the_coach(stage: Stage) -> None:
    mira = await stage.member("Mira")
    await mira.sends_voice(b"OggS")

    await mira.presses("Send it to my coach")

    assert mira.last.text == "I have passed it on to your coach."
    assert stage.coach.last.file is not None
    assert stage.coach.last.file.kind == "voice"
