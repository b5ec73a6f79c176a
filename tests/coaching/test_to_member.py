"""Words travel between a coach and one member, both ways, whichever message was replied to."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from scenarios.player import Person
from scenarios.standin.chats import Message
from tests.builders.stage import BLOCK, Stage, staged


def _told(person: Person, words: str) -> Message:
    """The newest message of the bot's that has these words in it."""
    return next(message for message in reversed(person.from_bot()) if words in message.text)


async def _trains_too(stage: Stage) -> Person:
    """The coach joins the own group."""
    coach = stage.coach
    await coach.follows_link(stage.link)
    for label in ("Yes, I agree", "kilograms"):
        await coach.presses(label)
    await coach.says("Lisbon")
    await coach.presses(coach.last.labels[0])
    for label in ("Done", "Monday", "No reminders"):
        await coach.presses(label)
    return coach


@staged()
async def test_a_reply_to_a_report_of_pain_reaches_the_member(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")
    await mira.says("my knee hurts 3/10")

    await stage.coach.replies(_told(stage.coach, "reports pain"), "leave the squats till Friday")

    assert mira.last.text == "Ines: leave the squats till Friday"
    assert stage.coach.last.text == "Sent to Mira."


@staged()
async def test_a_reply_to_an_emergency_reaches_the_member(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("I have chest pain and cannot breathe")

    await stage.coach.replies(_told(stage.coach, "may have an emergency"), "calling you now")

    assert mira.last.text == "Ines: calling you now"


@staged()
async def test_a_reply_to_who_joined_reaches_them(stage: Stage) -> None:
    mira = await stage.member()

    await stage.coach.replies(_told(stage.coach, "has joined"), "Welcome!")

    assert mira.last.text == "Ines: Welcome!"


@staged()
async def test_a_reply_about_somebody_who_left_goes_nowhere_and_says_so(stage: Stage) -> None:
    mira = await stage.member()
    joined = _told(stage.coach, "has joined")
    await mira.says("/leave")
    await mira.presses("Yes, leave")

    sent = await stage.coach.replies(joined, "come back!")

    assert stage.coach.last.text == "Mira has left the group, so I cannot write to them."
    assert [message for message in mira.since(sent) if "come back" in message.text] == []


@staged()
async def test_the_coach_writes_to_one_member_by_name(stage: Stage) -> None:
    mira, jonas = await stage.member("Mira"), await stage.member("Jonas")

    await stage.coach.says("tell mira: well done this week")
    assert stage.coach.last.text == "To Mira: “well done this week” Send it?"
    await stage.coach.presses("Yes, send it")

    assert mira.last.text == "Ines: well done this week"
    assert "well done" not in jonas.last.text


@staged()
async def test_a_name_that_nobody_or_several_have_is_not_guessed(stage: Stage) -> None:
    await stage.member("Anna")
    await stage.member("Annika")

    for who in ("Bob", "Ann"):
        await stage.coach.says(f"tell {who}: hello")
        assert stage.coach.last.text.startswith(f"I find no single member called {who}.")
    await stage.coach.says("tell anna: hello")
    assert stage.coach.last.text.startswith("To Anna:")


@staged()
async def test_who_cannot_be_reached_is_not_counted_as_told(stage: Stage) -> None:
    await stage.member("Mira")
    jonas = await stage.member("Jonas")
    await jonas.blocks_bot()

    await stage.coach.says("tell everyone: closed on Friday")
    await stage.coach.presses("Yes, send it")
    assert stage.coach.last.text == "On its way to 1 member. 1 cannot be reached now (blocked me, or gone)."

    await stage.coach.says("tell jonas: all well?")
    await stage.coach.presses("Yes, send it")
    assert stage.coach.last.text == "Jonas cannot be reached now (blocked me, or gone), so nothing was sent."


@pytest.mark.parametrize(
    "said",
    [
        "tell my coach I'm moving house in May",
        "ask my coach if I can do yoga on rest days",
        "please let Ines know that I'm late this week",
        "message for coach: the new bands came",
        "Coach, the new bands came",
    ],
)
def test_what_is_said_to_be_for_the_coach_goes_there(said: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()

        await mira.says(said)

        assert said in stage.coach.last.text
        assert mira.last.text in ("I have passed it on to your coach.", "I have asked your coach; the answer comes here.")

    play()


@staged()
async def test_sets_told_to_the_coach_by_name_are_sets(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("Coach, 20x12")

    assert stage.records(mira) == ["A1.1 20 kg x 12"]


@staged()
async def test_sets_in_words_for_the_coach_are_kept_as_well(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("tell my coach A1 20x12")

    assert stage.records(mira) == ["A1.1 20 kg x 12"]
    assert "tell my coach A1 20x12" in stage.coach.last.text


@staged()
async def test_a_statement_is_not_called_a_question(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("tell my coach the new bands came")

    assert stage.coach.last.text.startswith("Mira writes:")


@staged()
async def test_a_reply_to_the_coachs_words_reaches_the_coach(stage: Stage) -> None:
    mira = await stage.member()
    await stage.coach.says("tell mira: are you coming to the park run?")
    await stage.coach.presses("Yes, send it")

    await mira.replies(mira.last, "yes, with my sister")

    assert "yes, with my sister" in stage.coach.last.text


@pytest.mark.parametrize("said", ["knee is fine now", "I'm ok now", "it doesn't hurt anymore", "all good now, thanks"])
def test_pain_said_to_be_over_reaches_the_coach_who_decides(said: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()
        await mira.says("16x12")
        await mira.says("my knee hurts 3/10")

        await mira.says(said)

        assert mira.last.text == ("Good to hear. I have told Ines. What I stopped stays out until you hear from your coach.")
        assert stage.coach.last.text == f"Mira says it is better:\n“{said}”"
        await stage.coach.presses("Let A1 go on (knee)")
        assert "lets you go on" in mira.last.text
        with stage.uow() as uow:
            assert [pain.open for pain in uow.pains.find(member_id=stage.member_of(mira).id)] == [False]

    play()


@pytest.mark.parametrize("said", ["knee is still not fine", "not ok", "is it gone for good?"])
def test_pain_that_goes_on_is_not_heard_as_over(said: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()
        await mira.says("16x12")
        await mira.says("my knee hurts 3/10")

        await mira.says(said)

        assert "Good to hear" not in mira.last.text

    play()


@staged()
async def test_after_an_emergency_a_doctor_comes_before_going_on(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("I have chest pain and cannot breathe")

    await mira.says("I'm ok now")

    assert mira.last.text.startswith("Good to hear. Still, have a doctor look at it before you train again.")
    assert "I asked them to have a doctor look at it first." in stage.coach.last.text


@staged()
async def test_what_was_reported_twice_is_let_go_on_once(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")
    await mira.says("my knee hurts 3/10")
    await mira.says("my knee hurts 4/10")

    await stage.coach.presses("Let it go on")

    with stage.uow() as uow:
        assert uow.pains.find(member_id=stage.member_of(mira).id, open=True) == []


def _texts(messages: Sequence[Message]) -> list[str]:
    return [message.text for message in messages]


@staged()
async def test_a_coach_who_trains_too_is_heard_as_coach_where_only_a_coach_speaks_so(stage: Stage) -> None:
    await stage.member("Mira")
    coach = await _trains_too(stage)
    await coach.says("20x12")
    assert coach.last.text.startswith("A1 set 1")

    for said, answered in (
        ("call my group Owls", "The group is called Owls now."),
        ("Mira day 1 A1: 22.5 x 8", "Mira's next target in day 1 A1 is yours"),
        ("invite", "A new link"),
        ("tell mira: hello", "To Mira"),
        ("/group", "Mira: Small block"),
    ):
        await coach.says(said)
        assert coach.last.text.startswith(answered), (said, coach.last.text)
    await coach.says("12")

    assert coach.last.text.startswith("A2 set 1")


@staged()
async def test_help_for_a_coach_who_trains_too_names_both(stage: Stage) -> None:
    coach = await _trains_too(stage)

    await coach.says("help")

    assert "20x12" in coach.last.text
    assert "/group" in coach.last.text


@pytest.mark.parametrize(
    ("said", "answered"),
    [
        ("help", "What you can send me"),
        ("what can I do?", "What you can send me"),
        ("hi", "Hello. Send me a block"),
        ("thanks!", "You are welcome."),
        ("how is mira doing", "Ines's group"),
    ],
)
def test_a_coachs_everyday_words_are_understood(said: str, answered: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        await stage.member("Mira")

        await stage.coach.says(said)

        assert stage.coach.last.text.startswith(answered)

    play()


NEW_NAME = BLOCK.replace("Goblet squat", "Harbour wobble")


@staged(block="")
async def test_the_exercise_that_a_new_name_means_can_be_typed(stage: Stage) -> None:
    await stage.coach.says(NEW_NAME)
    assert "Harbour wobble" in stage.coach.last.text

    await stage.coach.says("front squat")

    assert "Publish now" in stage.coach.last.labels
    with stage.uow() as uow:
        kept = uow.own_names.newest(name="Harbour wobble")
    assert kept is not None
    assert "front_squat" in kept.exercise


@staged(block="")
async def test_a_typed_name_that_is_unknown_too_is_asked_about_again(stage: Stage) -> None:
    await stage.coach.says(NEW_NAME)

    await stage.coach.says("seaside shuffle squat")

    assert stage.coach.last.text.startswith("“seaside shuffle squat” I do not know for sure either.")
    assert "It is my own exercise" in stage.coach.last.labels
