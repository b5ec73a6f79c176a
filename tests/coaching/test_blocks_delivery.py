"""A block goes all the way: sent as a file, remarked on, previewed, delivered to everyone exactly once, trained week by week."""

from __future__ import annotations

from collections import Counter
from datetime import timedelta

import pytest

from bot.cli.program import Program
from bot.coaching.publish import looks_like_block
from scenarios.blocks.gold import HERE, sent_blocks
from scenarios.player import Person
from tests.builders.stage import BLOCK, Stage, staged

SENT = {sent.name: sent for sent in sent_blocks(HERE)}
WEEKLY = """\
Weekly block, 4 weeks
Day 1 - Legs
A1 Goblet squat
week 1: 3x10
week 2: 2x12
Day 2 - Pull
A1 One-arm dumbbell row 2x8-12 each side
"""


def _arrivals(person: Person, block: str) -> int:
    return sum(f"has a new block for you: {block}" in message.text for message in person.from_bot())


@staged(block="")
async def test_a_spreadsheet_is_understood_remarked_on_previewed_and_trained(stage: Stage) -> None:
    sent = SENT["sheet_a_day"]
    assert isinstance(sent.content, bytes)
    await stage.coach.sends_file(sent.filename, sent.content)
    understood = stage.coach.last
    assert "4 days, 16 exercises, 55 sets a week." in understood.text
    assert "A colleague might say" in understood.text
    assert understood.file is not None  # the picture of the weekly sets

    await stage.coach.presses("See day 1", on=understood)
    preview = stage.coach.last.text
    assert "as your members will see it" in preview
    await stage.coach.presses("Publish now", on=understood)
    mira = await stage.member()
    await mira.says("today")

    assert _body(mira.last.text) == _body(preview)


def _body(text: str) -> list[str]:
    """The slots of a session, without its head and foot."""
    return [line for line in text.splitlines()[1:] if line.strip() and not line.startswith("Text each set")]


@pytest.mark.parametrize("name", ["semicolons", "weeks_typed", "terse_pounds"])
def test_other_styles_come_in_by_message_or_file(name: str) -> None:
    sent = SENT[name]

    @staged(block="")
    async def comes_in(stage: Stage) -> None:
        if isinstance(sent.content, str):
            await stage.coach.says(sent.content)
        else:
            await stage.coach.sends_file(sent.filename, sent.content)
        asked = "is new to me" in stage.coach.last.text
        assert asked is any("?" in line.split(":")[0] for line in sent.gold)
        assert asked or "Publish now" in stage.coach.last.labels

    comes_in()


@staged(block=WEEKLY)
async def test_each_week_shows_its_own_sets(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("today")
    assert "3 × 10" in mira.last.text
    await mira.says("16x10, 10, 10")
    await stage.program.live_until(stage.clock.now() + timedelta(days=7))

    await mira.says("today")

    assert "week 2 of 4" in mira.last.text
    assert "2 × 12" in mira.last.text
    assert "3 × 10" not in mira.last.text


@staged(block="")
async def test_a_coach_sees_beforehand_what_each_week_asks_for(stage: Stage) -> None:
    await stage.coach.says(WEEKLY)
    assert "2 exercises, 5 sets, 4 from week 2." in stage.coach.last.text

    await stage.coach.presses("See day 1")

    assert "from week 2: 2 × 12" in stage.coach.last.text


@staged()
async def test_a_restart_in_the_middle_of_a_delivery_reaches_everyone_exactly_once(stage: Stage) -> None:
    crowd = [await stage.member(f"Member {number}") for number in range(12)]
    await stage.coach.says(BLOCK.replace("Small block", "Second block"))
    stage.coach.after = None  # nobody waits for the rest of the delivery
    await stage.coach.presses("Publish now")
    await stage.standin.all_taken()
    await stage.program.settle(within_s=0.2)
    before = Counter(_arrivals(person, "Second block") for person in crowd)
    assert 0 < before[1] < 12, before  # some have it, some do not

    fresh = await _restarted(stage)
    try:
        await fresh.live_until(stage.clock.now() + timedelta(minutes=2))

        assert [_arrivals(person, "Second block") for person in crowd] == [1] * 12
    finally:
        await fresh.stop()


@staged()
async def test_a_restart_between_two_zones_mornings_goes_on_with_the_later_one(stage: Stage) -> None:
    crowd = [await stage.member("Priya", place="Kolkata"), await stage.member("Mira"), await stage.member("Dale", place="Denver")]
    await stage.coach.says(BLOCK.replace("Small block", "Second block"))
    await stage.coach.presses("Publish Tue 3 Mar")
    await stage.program.live_until(stage.clock.now() + timedelta(hours=26))  # 09:00 in Lisbon, 02:00 in Denver
    assert [_arrivals(person, "Second block") for person in crowd] == [1, 1, 0]

    fresh = await _restarted(stage)
    try:
        await fresh.live_until(stage.clock.now() + timedelta(hours=12))

        assert [_arrivals(person, "Second block") for person in crowd] == [1, 1, 1]
    finally:
        await fresh.stop()


async def _restarted(stage: Stage) -> Program:
    """The program stops and another begins on the same data."""
    old = stage.program
    await old.stop()
    fresh = Program(old.settings, stage.clock, old.hooks, ticking=False, in_loop=True)
    await fresh.start()
    stage.program = stage.play.program = fresh  # type: ignore[assignment]
    return fresh


@pytest.mark.parametrize("name", [name for name, sent in SENT.items() if isinstance(sent.content, str)])
def test_a_typed_block_is_taken_for_one(name: str) -> None:
    assert looks_like_block(str(SENT[name].content))


@pytest.mark.parametrize(
    "text",
    [
        "tell everyone: deload this week\nkeep it light\nsee you monday",
        "thanks!\nwill send the plan tomorrow\n3 sets of squats on monday for all",
        "Mira day 2 A1: 22.5 x 8-10",
        "how is the group doing?\nanyone hurt?\nwho went quiet?",
    ],
)
def test_what_a_coach_says_otherwise_is_not(text: str) -> None:
    assert not looks_like_block(text)
