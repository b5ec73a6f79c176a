"""Who trains with nobody here still gets what matters: help in an emergency, the way out, and their own data."""

from __future__ import annotations

import pytest

from bot.training import people
from scenarios.player import Person
from tests.builders.stage import Stage, staged

ALARM = "I have chest pain and cannot breathe"


async def _halfway(stage: Stage, *, agreed: bool = True) -> Person:
    """Somebody in the middle of the first questions: asked for a place."""
    someone = stage.play.person("Uma")
    await someone.follows_link(stage.link)
    if agreed:
        await someone.presses("Yes, I agree")
        await someone.presses("kilograms")
    return someone


async def _leaves(person: Person) -> None:
    await person.says("/leave")
    await person.presses("Yes, leave")


@staged()
async def test_a_strangers_emergency_is_answered_as_one(stage: Stage) -> None:
    stranger = stage.play.person("Nobody")

    await stranger.says(ALARM)

    assert stranger.last.text.startswith("Stop training now.")
    assert "coach" not in stranger.last.text


@staged()
async def test_an_emergency_after_leaving_is_answered_as_one(stage: Stage) -> None:
    mira = await stage.member()
    await _leaves(mira)

    await mira.says(ALARM)

    assert mira.last.text.startswith("Stop training now.")


@staged()
async def test_a_coachs_own_emergency_is_answered_as_one(stage: Stage) -> None:
    await stage.coach.says(ALARM)

    assert stage.coach.last.text.startswith("Stop training now.")


@staged()
async def test_who_has_left_can_have_everything_sent_and_erased(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("20x12")
    await _leaves(mira)
    assert "/mydata sends it, /erase removes it" in mira.last.text

    sent = await mira.says("/mydata")
    assert len(mira.since(sent)) == 2
    await mira.says("/erase")
    await mira.presses("Yes, erase all")

    assert mira.last.text == "Everything about you is erased (1 set). Take care."
    with stage.uow() as uow:
        assert uow.members.find(chat_id=mira.id) == []


@staged()
async def test_who_has_left_hears_how_to_come_back(stage: Stage) -> None:
    mira = await stage.member()
    await _leaves(mira)

    await mira.says("20x12")

    assert mira.last.text.startswith("You are not in Ines's group any more, so I keep no sets and pass nothing on.")
    await mira.follows_link(stage.link)
    assert mira.last.labels == ["Yes, I agree", "No, leave"]


@staged()
async def test_the_first_questions_can_be_left_by_command(stage: Stage) -> None:
    uma = await _halfway(stage)

    await _leaves(uma)

    with stage.uow() as uow:
        assert [one.state for one in uow.members.find(chat_id=uma.id)] == [people.MemberState.LEFT]
    assert not any("has left" in message.text for message in stage.coach.from_bot())


@staged()
async def test_leaving_before_agreeing_keeps_nothing(stage: Stage) -> None:
    uma = await _halfway(stage, agreed=False)

    await uma.says("/leave")

    assert uma.last.text == "All right, nothing more from me. If you change your mind, open your coach's invite link again."
    with stage.uow() as uow:
        assert uow.members.find(chat_id=uma.id) == []


@staged()
async def test_data_can_be_erased_in_the_middle_of_the_first_questions(stage: Stage) -> None:
    uma = await _halfway(stage)

    await uma.says("/erase")
    await uma.presses("Yes, erase all")

    with stage.uow() as uow:
        assert uow.members.find(chat_id=uma.id) == []


@staged()
async def test_other_commands_get_the_open_question_again(stage: Stage) -> None:
    uma = await _halfway(stage)

    await uma.says("/today")

    assert uma.last.text.startswith("In which town")


@pytest.mark.parametrize("said", ["stop", "STOP!", "please stop", "stop messaging me", "/stop"])
def test_stop_asks_what_shall_stop(said: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()
        await mira.says("20x12")

        await mira.says(said)

        assert mira.last.text == "What shall stop?"
        assert mira.last.labels == ["Today's session", "The reminders", "All of it, I leave the group", "No, stay"]

    play()


@staged()
async def test_what_was_chosen_stops(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("20x12")
    await mira.says("stop")
    await mira.presses("Today's session")
    assert mira.last.text.startswith("Session closed: 1 of 7 sets")

    await mira.says("stop")
    await mira.presses("The reminders")
    assert mira.last.text == "Reminder changed: none from now on."

    await mira.says("stop")
    assert "The reminders" not in mira.last.labels
    await mira.presses("All of it")
    assert mira.last.text.startswith("Leave the group?")


@staged()
async def test_every_command_that_an_answer_names_is_known(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("what do you know about me?")
    await mira.says("who can see my numbers?")

    assert "/mydata" in mira.last.text
    assert "/export" not in "".join(message.text for message in mira.from_bot())
