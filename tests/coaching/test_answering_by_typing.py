"""A doubt about a set may be answered by typing what was missing, and by yes or no."""

from __future__ import annotations

import pytest

from tests.builders.stage import Stage, staged


@pytest.mark.parametrize(
    ("first", "answer", "record"),
    [
        ("12 reps", "16", "A1.1 16 kg x 12"),
        ("12 reps", "with the 16kg", "A1.1 16 kg x 12"),
        ("16 kg", "11", "A1.1 16 kg x 11"),
        ("16 kg", "11 reps", "A1.1 16 kg x 11"),
        ("16 kg", "18x9", "A1.1 18 kg x 9"),
    ],
)
def test_a_typed_answer_completes_the_set_that_was_asked_about(first: str, answer: str, record: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()
        await mira.says(first)
        assert stage.records(mira) == []

        await mira.says(answer)

        assert stage.records(mira) == [record]

    play()


@staged()
async def test_yes_takes_the_one_reading_that_was_offered(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")
    await mira.says("12")
    await mira.says("28x12")  # far from what was done a moment ago

    await mira.says("no")

    assert len(stage.records(mira)) == 2
