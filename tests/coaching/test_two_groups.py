"""Somebody who trains in one group is answering the first questions of another."""

from __future__ import annotations

import re
from typing import Any

import pytest

from bot.coaching.coach import new_claim
from bot.training import people
from scenarios.player import Person
from tests.builders.stage import Stage, staged


async def _joining_a_second(stage: Stage, *answers: str) -> Person:
    """Mira trains with Ines, and has followed the link of a second coach's group."""
    mira = await stage.member()
    opened: Any = stage.program.open_uow()
    with opened as uow:
        code = new_claim(uow, stage.clock.now(), besides=True)
        uow.commit()
    otto = stage.play.person("Otto")
    await otto.follows_link(f"https://t.me/{stage.standin.username}?start={code}")
    link = re.search(r"https://t\.me/\S+", otto.last.text)
    assert link, otto.last.text
    await mira.follows_link(link[0].rstrip(".,"))
    for answer in answers:
        await mira.says(answer)
    return mira


def _sets_of_first(stage: Stage, person: Person) -> list[str]:
    with stage.uow() as uow:
        first = uow.members.find(chat_id=person.id)[0]
        kept = uow.records.find(member_id=first.id, active=True)
    return [f"{one.label}.{one.number}" for one in kept]


@pytest.mark.parametrize(
    "answers", [(), ("yes",), ("yes", "kg"), ("yes", "kg", "Lisbon", "yes")], ids=["consent", "unit", "place", "kit"]
)
def test_sets_go_to_the_group_that_is_trained_with(answers: tuple[str, ...]) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await _joining_a_second(stage, *answers)

        await mira.says("A1 20x12, 12")

        assert _sets_of_first(stage, mira) == ["A1.1", "A1.2"]
        assert mira.last.text.startswith("A1 Goblet squat: 20 kg × 12, 12")

    play()


@staged()
async def test_an_answer_of_joining_is_no_set(stage: Stage) -> None:
    mira = await _joining_a_second(stage, "yes", "kg", "Lisbon")
    await mira.presses(mira.last.labels[0])

    await mira.says("dumbbells 2x10kg, 12, 14")

    assert _sets_of_first(stage, mira) == []
    with stage.uow() as uow:
        joining = uow.members.newest(chat_id=mira.id, state=people.MemberState.JOINING)
    assert joining is not None
    assert joining.kit.items


@staged()
async def test_pain_while_joining_another_group_is_told_to_the_coach_of_the_first(stage: Stage) -> None:
    mira = await _joining_a_second(stage, "yes")
    await mira.says("A1 20x12")

    await mira.says("my knee hurts")
    await mira.says("3")

    assert "Noted: knee, 3 of 10. A1 Goblet squat stays out today" in "\n".join(message.text for message in mira.from_bot())
    assert "knee" in stage.coach.last.text
