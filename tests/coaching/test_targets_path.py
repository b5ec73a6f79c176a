"""Targets as a member lives them: a share of a best single, first unknown and then worked out."""

from __future__ import annotations

from datetime import UTC, datetime

from tests.builders.stage import Stage, staged

BY_SHARE = """\
Share block
Day 1 - Legs
A1 Goblet squat 3x5 @ 80%
Rest
"""


@staged(block=BY_SHARE)
async def test_a_share_of_an_unknown_best_single_asks_for_a_first_try_and_then_names_the_load(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("today")
    assert "80% of your best single, which is not known yet" in mira.last.text

    await mira.says("A1 20x5, 5, 5")
    await stage.program.live_until(datetime(2026, 3, 9, 9, 0, tzinfo=UTC))
    await mira.says("today")

    assert "20 kg" in mira.last.text and "not known yet" not in mira.last.text


@staged()
async def test_the_coachs_range_for_one_member_is_the_one_the_member_sees(stage: Stage) -> None:
    mira = await stage.member()
    await stage.coach.says("Mira day 1 A1: 22 x 8-10")
    await mira.says("today")

    assert "today 3 sets: 22 kg × 8–10" in mira.last.text
