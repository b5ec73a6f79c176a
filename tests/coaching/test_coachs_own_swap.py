"""A substitute that the coach wrote and no catalogue knows is taken like any other, and its sets stay the slot's."""

from __future__ import annotations

from tests.builders.stage import Stage, staged

WRITTEN = """\
Written block
Day 1 - Pull
A1 One-arm dumbbell row 2x8-12 each side, sub: Kelp heave
B1 Plank 2x30s, sub: Band swoop
Rest
"""


@staged(WRITTEN)
async def test_the_tap_takes_it_and_its_sets_stay_with_the_slot(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("swap A1")

    assert mira.last.labels[0] == "Kelp heave"
    assert "1. Kelp heave: your coach's choice; as written beside it" in mira.last.text

    await mira.presses("Kelp heave")

    assert mira.last.text.startswith("A1 is Kelp heave today, instead of One-arm dumbbell row.")
    await mira.says("14x10")
    await mira.says("kelp heave 14x9")
    assert stage.records(mira) == ["A1.1 14 kg x 10", "A1.2 14 kg x 9"]
    assert {str(kept.record.exercise) for kept in stage.kept(mira)} == {"own:kelp_heave"}
    assert {kept.record.day for kept in stage.kept(mira)} == {1}


@staged(WRITTEN)
async def test_the_way_back_and_the_whole_block_work_for_it_too(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("swap A1")
    await mira.presses("Kelp heave")
    await mira.presses("For the whole block")

    assert mira.last.text.startswith("A1 is Kelp heave for the rest of the block, instead of One-arm dumbbell row.")

    await mira.says("what's today")
    assert "A1 Kelp heave" in mira.last.text
    await mira.says("undo swap")
    assert mira.last.text == "A1 is One-arm dumbbell row again."


@staged(WRITTEN)
async def test_a_second_member_finds_it_known_and_is_offered_it_once(stage: Stage) -> None:
    mira, tom = await stage.member(), await stage.member("Tom")
    await mira.says("swap A1")
    await mira.presses("Kelp heave")
    await tom.says("swap A1")

    assert tom.last.labels.count("Kelp heave") == 1


@staged(WRITTEN)
async def test_it_is_not_offered_where_its_name_says_it_cannot_be_done(stage: Stage) -> None:
    mira = await stage.member(kit="dumbbells 2-30 by 2")
    await mira.says("swap B1")

    assert "Band swoop" not in mira.last.labels


@staged(WRITTEN)
async def test_it_is_not_offered_for_pain_since_nobody_knows_what_it_spares(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("14x10")
    await mira.says("my left shoulder hurts 3/10")

    assert all("Kelp heave" not in message.labels for message in mira.from_bot())
