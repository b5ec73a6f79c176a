"""Somebody is ill: a kind word, rest, a pause, and the coach knows."""

from __future__ import annotations

import pytest

from bot.coaching.illness import with_illness
from bot.language.safety import Level, SafetyReading
from tests.builders.stage import Stage, staged


@pytest.mark.parametrize(
    "said", ["I'm ill", "im sick today", "I feel unwell", "down with the flu", "got a fever", "caught a bad cold"]
)
def test_whoever_is_ill_gets_a_kind_word_a_pause_and_the_coach_hears(said: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()

        sent = await mira.says(said)

        texts = [message.text for message in mira.since(sent)]
        assert texts[0].startswith("Sorry to hear that. Rest first: no training with a fever")
        assert texts[1].startswith(("You are away: ", "Get well soon. How long shall I leave you in peace?"))
        assert said in stage.coach.last.text

    play()


@staged()
async def test_how_long_to_rest_is_a_tap(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("under the weather today")

    await mira.presses("A week")

    assert mira.last.text.startswith("You are away: until Sun 8 Mar.")


@pytest.mark.parametrize(
    "said",
    ["sick of burpees", "that was sick", "I was ill last week, back now", "I'm not ill", "my son is ill", "ill do it later", "what if I'm ill?",
     "I'm better", "got a cold bar"],
)  # fmt: skip
def test_what_tells_of_no_illness_now_is_left_alone(said: str) -> None:
    assert with_illness(SafetyReading(level=Level.NONE), said) == SafetyReading(level=Level.NONE)
