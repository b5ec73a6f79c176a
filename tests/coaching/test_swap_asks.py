"""A wish for another exercise that names none: asked for among those that are still to be done."""

from __future__ import annotations

from tests.builders.stage import Stage, staged


@staged()
async def test_a_slot_that_is_done_is_not_offered_for_a_swap(stage: Stage) -> None:
    mira = await stage.member("Mira")
    await mira.says("A1 16x12, 12, 11")
    await mira.says("can I swap the calf raise?")

    assert mira.last.labels == ["A2 Push-up", "B1 Romanian deadlift"]


@staged()
async def test_all_are_offered_when_all_are_done(stage: Stage) -> None:
    mira = await stage.member("Mira")
    for text in ("A1 16x12, 12, 11", "A2 12, 11", "B1 24x12, 12"):
        await mira.says(text)
    await mira.says("can I swap something?")

    assert mira.last.labels == ["A1 Goblet squat", "A2 Push-up", "B1 Romanian deadlift"]
