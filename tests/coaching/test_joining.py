"""People come, answer five short questions, change their minds, and go."""

from __future__ import annotations

from datetime import time, timedelta

from bot.training import people
from bot.training.kit import KitItem
from bot.training.loads import Unit
from tests.builders.stage import Stage, staged


@staged()
async def test_who_joins_is_set_up_as_they_said(stage: Stage) -> None:
    mira = await stage.member("Mira", unit="pounds", place="Denver", kit="dumbbells 5-50 by 5 and a pull up bar", day="Tuesday")

    member = stage.member_of(mira)
    assert (member.state, member.unit, member.zone) == (people.MemberState.ACTIVE, Unit.LB, "America/Denver")
    assert member.kit.items == {KitItem.DUMBBELL, KitItem.PULL_UP_BAR}
    assert member.plan is not None
    assert (member.plan.weekdays, member.plan.reminder_local) == ((1, 3), time(17, 30))
    assert "Mira</b> has joined" in stage.coach.last.html


@staged()
async def test_who_declines_leaves_nothing_behind(stage: Stage) -> None:
    someone = stage.play.person("Uma")
    await someone.follows_link(stage.link)

    await someone.presses("No, leave")

    assert "nothing more from me" in someone.last.text
    with stage.uow() as uow:
        assert uow.members.find(chat_id=someone.id) == []
        assert uow.messages.find(chat_id=someone.id) == []


@staged()
async def test_the_questions_can_be_answered_in_words(stage: Stage) -> None:
    someone = stage.play.person("Uma")
    await someone.follows_link(stage.link)
    for words in ("yes", "lbs", "Lisbon"):
        await someone.says(words)
    await someone.presses(someone.last.labels[0])
    for words in ("nothing", "thursday", "6:45"):
        await someone.says(words)

    member = stage.member_of(someone)
    assert member.state is people.MemberState.ACTIVE
    assert member.plan is not None
    assert (member.unit, member.plan.weekdays[0], member.plan.reminder_local) == (Unit.LB, 3, time(6, 45))


@staged()
async def test_an_unknown_place_is_asked_for_again(stage: Stage) -> None:
    someone = stage.play.person("Uma")
    await someone.follows_link(stage.link)
    await someone.presses("Yes, I agree")
    await someone.presses("kilograms")

    await someone.says("qqzzxx")

    assert someone.last.text.startswith("I know no place called “qqzzxx”.")


@staged()
async def test_kit_is_ticked_and_unticked_in_the_same_message(stage: Stage) -> None:
    someone = stage.play.person("Uma")
    await someone.follows_link(stage.link)
    await someone.presses("Yes, I agree")
    await someone.presses("kilograms")
    await someone.says("Lisbon")
    await someone.presses(someone.last.labels[0])
    asked = someone.last

    await someone.presses("bench")
    assert "[x] bench" in asked.labels
    await someone.presses("[x] bench")

    assert "bench" in asked.labels
    assert someone.last is asked


@staged()
async def test_a_stranger_and_an_old_invite_get_a_sentence(stage: Stage) -> None:
    stranger = stage.play.person("Nobody")
    await stranger.starts()
    assert stranger.last.text.startswith("Hello. I work for a coach")

    await stage.play.pass_time(days=31)
    late = stage.play.person("Late")
    await late.follows_link(stage.link)

    assert late.last.text == "This invite has run out. Ask your coach for a new link and open that one."


@staged()
async def test_a_claim_code_works_once(stage: Stage) -> None:
    second = stage.play.person("Second")

    await second.follows_link(f"https://t.me/{stage.standin.username}?start={stage.claim_code}")

    assert second.last.text.startswith("That code is not right, or somebody has used it.")


@staged()
async def test_settings_change_later_and_are_said_back(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("settings")
    await mira.presses("Reminder")
    await mira.says("7:15")

    assert mira.last.text == "Reminder at 07:15."
    await mira.says("use pounds")
    assert mira.last.text == "Units: lb."


@staged()
async def test_everything_is_sent_and_erased_on_wish(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("today")
    await mira.says("A1 16x12")

    await mira.says("/mydata")
    files = [message.file for message in mira.from_bot() if message.file]
    assert [file.name for file in files if file] == ["my-sets.csv", "my-data.json"]
    assert files[0] is not None
    assert b"A1,1,work,goblet_squat,implement,16,kg" in files[0].content

    await mira.says("/erase")
    await mira.presses("Yes, erase all")

    assert mira.last.text == "Everything about you is erased (1 set). Take care."
    with stage.uow() as uow:
        assert uow.members.find(chat_id=mira.id) == []
        assert uow.records.find() == []
        assert uow.messages.find(chat_id=mira.id) == []


@staged()
async def test_who_leaves_hears_nothing_more(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("/leave")
    await mira.presses("Yes, leave")
    left = mira.last

    await stage.play.until(stage.clock.now() + timedelta(days=10))

    assert mira.last is left
    assert stage.coach.last.text != ""
