"""Sets of what was skipped, or stopped after pain, told all the same."""

from __future__ import annotations

import pytest

from tests.builders.stage import Stage, staged


@pytest.mark.parametrize(
    ("before", "said", "kept"),
    [
        (("A1 20x12", "skip A1"), "A1 20x12", ["A1.1 20 kg x 12", "A1.2 20 kg x 12"]),
        (("skip A1",), "20x12 goblet squat", ["A1.1 20 kg x 12"]),
        (("skip A1",), "A1 20x12, 12, 11", ["A1.1 20 kg x 12", "A1.2 20 kg x 12", "A1.3 20 kg x 11"]),
        (("A1 20x12, 12", "skip the rest of A1"), "A1 20x10", ["A1.1 20 kg x 12", "A1.2 20 kg x 12", "A1.3 20 kg x 10"]),
        (("skip everything",), "A1 20x12", ["A1.1 20 kg x 12"]),
    ],
)
def test_what_was_skipped_and_then_done_goes_on_record_in_its_place(before: tuple[str, ...], said: str, kept: list[str]) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()
        for text in before:
            await mira.says(text)

        await mira.says(said)

        assert stage.records(mira) == kept
        assert "on record already" not in mira.last.text

    play()


@staged()
async def test_a_set_where_it_hurt_is_asked_about_by_what_is_so(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("A1 20x12")
    await mira.says("my knee hurts, 3")

    await mira.says("A1 20x11")
    asked = mira.last
    await mira.presses("Yes, record it")

    assert (
        asked.text
        == "“A1 20x11”: that one rests today, since it hurt. Did you do this set all the same? If it hurts again, stop."
    )
    assert asked.labels == ["Yes, record it", "No"]
    assert stage.records(mira) == ["A1.1 20 kg x 12", "A1.2 20 kg x 11"]
    assert [kept.record.painful for kept in stage.kept(mira)] == [True, True]


@staged()
async def test_a_set_where_it_hurt_that_was_not_done_is_not_kept(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("A1 20x12")
    await mira.says("my knee hurts, 3")
    await mira.says("A1 20x11")

    await mira.says("no")

    assert stage.records(mira) == ["A1.1 20 kg x 12"]


@staged()
async def test_a_set_beyond_a_plan_that_is_all_on_record_is_still_asked_about(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("A1 20x12, 12, 12")

    await mira.says("A1 20x12, 10")

    assert "A1 sets 4, 5: 20 kg × 12, 10" in mira.last.labels or "that one rests" not in mira.last.text
    assert len(stage.records(mira)) == 3
