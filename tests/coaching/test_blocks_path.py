"""The coach's block: refused with every mistake, published, scheduled across zones, amended, changed over."""

from __future__ import annotations

from datetime import timedelta
from typing import Any
from zoneinfo import ZoneInfo

from scenarios.standin import blocked, refuse
from tests.builders.stage import BLOCK, Stage, staged

SECOND = BLOCK.replace("Small block", "Second block").replace("3x8-12", "4x6-8")


@staged(block="")
async def test_a_block_with_mistakes_is_refused_with_all_of_them(stage: Stage) -> None:
    await stage.coach.says("Day 1\nA1 Goblet squat 3x8-12 @ 3-1-\nA2 Push-up 3x\nB1 Romanian deadlift 3x10")

    text = stage.coach.last.text
    assert text.startswith("Not published: 2 problems to mend first.")
    assert "Line 2" in text
    assert "Line 3" in text
    with stage.uow() as uow:
        assert uow.revisions.find() == []


@staged(block="")
async def test_an_unknown_name_is_asked_about_once_and_remembered(stage: Stage) -> None:
    strange = BLOCK.replace("Goblet squat", "Harbour wobble")
    await stage.coach.says(strange)
    assert "“Harbour wobble” (day 1, A1) is new to me." in stage.coach.last.text
    await stage.coach.presses("It is my own exercise")
    await stage.coach.presses("squat")
    assert "Publish now" in stage.coach.last.labels

    await stage.coach.says(strange)

    assert "Publish now" in stage.coach.last.labels


@staged()
async def test_a_scheduled_block_comes_at_eight_in_everybodys_own_morning(stage: Stage) -> None:
    zones = {"Mira": ("Lisbon", "Europe/Lisbon"), "Dale": ("Denver", "America/Denver"), "Priya": ("Kolkata", "Asia/Kolkata")}
    crowd = {name: await stage.member(name, place=place) for name, (place, _) in zones.items()}
    await stage.coach.says(SECOND)
    await stage.coach.presses("Publish Tue 3 Mar")

    await stage.program.live_until(stage.clock.now() + timedelta(days=2))

    for name, person in crowd.items():
        arrived = next(message for message in person.from_bot() if "Second block" in message.text)
        assert arrived.at.astimezone(ZoneInfo(zones[name][1])).strftime("%d %H:%M") == "03 08:00"


@staged()
async def test_a_withdrawn_block_reaches_nobody(stage: Stage) -> None:
    mira = await stage.member()
    await stage.coach.says(SECOND)
    await stage.coach.presses("Publish Tue 3 Mar")
    await stage.coach.presses("Withdraw")

    await stage.program.live_until(stage.clock.now() + timedelta(days=3))

    assert not any("Second block" in message.text for message in mira.from_bot())


@staged()
async def test_the_coach_sees_who_has_it_and_who_blocked_the_bot(stage: Stage) -> None:
    mira, noor = await stage.member("Mira"), await stage.member("Noor")
    stage.standin.misbehave(refuse(blocked()), times=None, chat_id=noor.id)
    await stage.publish(SECOND)

    await stage.coach.presses("Who has it", on=next(m for m in reversed(stage.coach.from_bot()) if m.labels == ["Who has it"]))

    shown = next(message for message in reversed(stage.coach.from_bot()) if "Has it:" in message.text)
    assert "Has it: Mira." in shown.text
    assert "Not reached (blocked the bot or gone): Noor." in shown.text
    assert mira.last.text.startswith("Ines has a new block for you")


@staged()
async def test_who_blocked_the_bot_is_not_counted_among_those_a_block_goes_to(stage: Stage) -> None:
    await stage.member("Mira")
    noor = await stage.member("Noor")
    await noor.blocks_bot()

    await stage.publish(SECOND)

    said = next(message for message in reversed(stage.coach.from_bot()) if "on its way" in message.text)
    assert said.text == "Second block is on its way to 1 member. 1 cannot be reached now (blocked me, or gone)."


@staged()
async def test_a_block_sent_once_more_shows_as_arrived(stage: Stage) -> None:
    noor = await stage.member("Noor")
    await noor.blocks_bot()
    await stage.publish(SECOND)
    published = next(message for message in reversed(stage.coach.from_bot()) if message.labels == ["Who has it"])
    await stage.coach.presses("Who has it", on=published)
    assert "Not reached (blocked the bot or gone): Noor." in _shown(stage)

    await noor.unblocks_bot()
    await stage.coach.presses("Try again", on=_delivery(stage))
    await stage.coach.presses("Who has it", on=_delivery(stage))

    assert _shown(stage) == "Second block\nHas it: Noor."
    assert sum("has a new block for you: Second block" in message.text for message in noor.from_bot()) == 1


def _delivery(stage: Stage) -> Any:
    return next(message for message in reversed(stage.coach.from_bot()) if "Has it:" in message.text)


def _shown(stage: Stage) -> str:
    return str(_delivery(stage).text)


@staged()
async def test_a_new_block_waits_until_the_member_changes_over_and_records_stay(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")
    await stage.publish(SECOND)

    await mira.presses("Finish this one first")
    assert "You stay on Small block" in mira.last.text
    await mira.presses("Begin the new one")

    assert mira.last.text.startswith("You are on Second block now.")
    assert stage.records(mira) == ["A1.1 16 kg x 12"]


@staged()
async def test_an_amendment_tells_just_what_changed_and_leaves_a_session_under_way_alone(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")
    await stage.coach.says("day 1 A1: 4x6-8")
    await stage.coach.presses("Publish now")

    assert mira.last.text.startswith("Your coach changed Small block:")
    await mira.says("today")
    assert "3 × 8–12" in mira.last.text
    member = stage.member_of(mira)
    with stage.uow() as uow:
        assert len(uow.revisions.find(series=1)) == 2
        assert uow.sessions.find(member_id=member.id)[0].revision_id == uow.revisions.find(series=1)[0].id


@staged()
async def test_a_file_that_is_no_block_gets_a_sentence(stage: Stage) -> None:
    await stage.coach.sends_file("cat.pdf", b"%PDF-1.7 \x00\x01\x02")

    assert stage.coach.last.text.startswith("Not published:")


@staged()
async def test_a_file_that_is_too_large_is_refused_before_it_is_fetched(stage: Stage) -> None:
    await stage.coach.sends_file("block.txt", b"x" * 2_100_000)

    assert stage.coach.last.text.startswith("That file is larger than 2 MB.")
    assert not stage.standin.calls.of("getFile")


@staged()
async def test_a_slot_that_stands_once_is_changed_without_its_day(stage: Stage) -> None:
    await stage.member()

    await stage.coach.says("drop A2")

    assert "Day 1, A2 Push-up: taken out." in stage.coach.last.text


@staged()
async def test_a_draft_is_changed_in_words_before_it_goes_out(stage: Stage) -> None:
    mira = await stage.member()
    await stage.coach.says(SECOND)

    await stage.coach.says("day 1: drop B1")
    await stage.coach.says("make it 6 weeks")
    await stage.coach.presses("Publish now")

    with stage.uow() as uow:
        newest = uow.revisions.newest(series=2)
    assert newest is not None
    assert [slot.label for slot in newest.block.days[0].slots] == ["A1", "A2"]
    assert newest.block.weeks_default == 6
    assert mira.last.text.startswith("Ines has a new block for you")


@staged()
async def test_a_longer_block_is_longer_for_those_who_are_on_it(stage: Stage) -> None:
    mira = await stage.member()

    await stage.coach.says("make it 6 weeks")
    await stage.coach.presses("Publish now")

    with stage.uow() as uow:
        assigned = uow.assignments.newest(member_id=stage.member_of(mira).id, ended_on=None)
    assert assigned is not None
    assert assigned.weeks == 6
    assert mira.last.text.startswith("Your coach changed Small block:")
