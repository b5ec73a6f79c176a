"""What a coach presses and writes is answered: an outdated draft, a block that waits, a change refused, somebody taken out."""

from __future__ import annotations

import pytest

from tests.builders.stage import BLOCK, KIT, Stage, staged


@pytest.mark.parametrize("label", ["Publish now", "Publish Mon 9 Mar", "Withdraw"])
def test_a_button_of_a_draft_that_was_replaced_says_so(label: str) -> None:
    @staged(block="")
    async def play(stage: Stage) -> None:
        await stage.coach.says(BLOCK)
        old = stage.coach.last
        await stage.coach.says(BLOCK.replace("3x8-12", "4x8-12"))

        await stage.coach.presses(label, on=old)

        assert stage.coach.last.text.startswith("That version of Small block is set aside.")

    play()


@staged(block="")
async def test_a_scheduled_block_is_shown_with_the_way_to_take_it_back(stage: Stage) -> None:
    await stage.coach.says(BLOCK)
    await stage.coach.presses("Publish Mon 9 Mar")

    await stage.coach.says("/block")

    assert stage.coach.last.text == "Small block waits for Mon 9 Mar, 8:00, each in their own time."
    await stage.coach.presses("Withdraw")
    assert stage.coach.last.text == "Small block is withdrawn. Nobody gets it."


@staged()
async def test_a_refused_change_asks_for_the_change_again(stage: Stage) -> None:
    await stage.coach.says("day 7 A1: 3x8")

    lines = stage.coach.last.text.splitlines()
    assert (lines[0], lines[-1]) == ("Nothing changed: 1 problem to mend first.", "Send the change again.")


@staged()
async def test_a_place_of_many_is_asked_about(stage: Stage) -> None:
    await stage.coach.says("I live in Springfield")
    assert stage.coach.last.text.startswith("Which one is it?")

    await stage.coach.presses(stage.coach.last.labels[0])

    assert stage.coach.last.text.startswith("Your own times follow Springfield")


@staged()
async def test_a_target_for_a_resting_exercise_tells_that_it_rests(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("20x12")
    await mira.says("my knee hurts 3/10")

    await stage.coach.says("Mira day 1 A1: 22.5 x 8")

    assert stage.coach.last.text == "Mira has reported pain at day 1 A1: it rests until you let it go on, and the target waits."


@staged()
async def test_the_coach_takes_somebody_out(stage: Stage) -> None:
    mira = await stage.member("Mira", kit=KIT)
    await stage.coach.says("remove Mira")
    await stage.coach.presses("Yes, take them out")

    assert stage.coach.last.text == "Mira is out of the group."
    assert mira.last.text.startswith("Ines has ended your time in the group, so I stop here.")
    await stage.coach.says("/group")
    assert "Mira" not in stage.coach.last.text


@staged()
async def test_a_wish_to_change_the_block_takes_nobody_out(stage: Stage) -> None:
    await stage.member("Mira")

    await stage.coach.says("remove the push-ups")

    assert "Take" not in stage.coach.last.text


@staged()
async def test_a_block_without_a_name_is_given_one(stage: Stage) -> None:
    mira = await stage.member("Mira")

    await stage.publish("\n".join(BLOCK.splitlines()[1:]))

    assert mira.last.text.startswith("Ines has a new block for you: Block 2, 2 days a week")
    assert stage.coach.last.text == "Block 2 is on its way to 1 member."


@staged(block="")
async def test_what_is_no_name_does_not_answer_the_question_for_one(stage: Stage) -> None:
    await stage.coach.says(BLOCK.replace("Goblet squat", "Harbour wobble"))

    await stage.coach.says("A1: 3x10")

    assert "I do not know for sure" not in stage.coach.last.text


@staged()
async def test_an_invite_ends_in_no_sign_that_a_client_would_cut_off(stage: Stage) -> None:
    links = [stage.link]
    for _ in range(5):
        await stage.coach.says("/invite")
        links.append(stage.coach.last.text.split()[-1])

    assert all(link.rpartition("=")[2].isalnum() for link in links)
