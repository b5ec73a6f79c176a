"""What a substitute asks for is what the member sees and logs, and no more is promised than can be kept."""

from __future__ import annotations

from tests.builders.stage import Stage, staged

HELD = """\
Held block
Day 1 - Legs
A1 Goblet squat 3x8-12
B1 Plank 3x30s, or dead bug
Rest
"""


@staged(HELD)
async def test_the_sets_of_a_substitute_are_counted_in_its_own_way(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("swap B1")

    await mira.presses("Dead bug")
    await mira.says("what's today")

    assert "8–15" in mira.last.text  # reps, where the plank was held for seconds
    assert "30 s" not in mira.last.text


@staged()
async def test_what_is_offered_for_pain_promises_no_more_than_it_can(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")

    await mira.says("my left knee hurts 3/10")

    offered = next(message.text for message in mira.from_bot() if "instead of" in message.text)
    assert offered.startswith("This should be easier on your knee, instead of A1 Goblet squat; stop if it is not:")
