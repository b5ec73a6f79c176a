"""A session put off within its day, and the one reminder asked for."""

from __future__ import annotations

from datetime import UTC, datetime, time

import pytest

from tests.builders.stage import Stage, staged

REMINDED = datetime(2026, 3, 2, 17, 40, tzinfo=UTC)
REST_DAY = datetime(2026, 3, 3, 9, 0, tzinfo=UTC)
WEEK_OVER = datetime(2026, 3, 8, 12, 0, tzinfo=UTC)


@staged()
async def test_a_reminder_asked_for_comes_once_and_never_again(stage: Stage) -> None:
    mira = await stage.member()
    await stage.program.live_until(REMINDED)

    await mira.says("remind me again in an hour")
    said = mira.last.text
    await stage.program.live_until(WEEK_OVER)

    assert said == "All right, I remind you at 18:40, this once."
    again = [message.at for message in mira.from_bot() if message.text.startswith("Still time")]
    assert again == [datetime(2026, 3, 2, 18, 40, tzinfo=UTC)]
    plan = stage.member_of(mira).plan
    assert plan is not None
    assert (plan.reminder_local, plan.again_after_min) == (time(17, 30), None)


@staged()
async def test_a_reminder_can_be_asked_for_again_after_it_came(stage: Stage) -> None:
    mira = await stage.member()
    await stage.program.live_until(REMINDED)
    await mira.says("snooze 30 min")
    await stage.program.live_until(datetime(2026, 3, 2, 18, 15, tzinfo=UTC))

    await mira.says("snooze 30 min")
    await stage.program.live_until(WEEK_OVER)

    again = [message.at for message in mira.from_bot() if message.text.startswith("Still time")]
    assert again == [datetime(2026, 3, 2, 18, 10, tzinfo=UTC), datetime(2026, 3, 2, 18, 45, tzinfo=UTC)]


@staged()
async def test_a_session_begun_needs_no_reminder_that_was_asked_for(stage: Stage) -> None:
    mira = await stage.member()
    await stage.program.live_until(REMINDED)
    await mira.says("remind me in 2 hours")

    await mira.says("20x12")
    await stage.program.live_until(datetime(2026, 3, 3, 8, 0, tzinfo=UTC))

    assert not any(message.text.startswith("Still time") for message in mira.from_bot())


@pytest.mark.parametrize(
    ("at", "before", "answer"),
    [
        (REST_DAY, (), "Nothing is planned today, so there is nothing to remind you of."),
        (REMINDED, ("20x12",), "Today's session is under way or done already, so I leave it at that."),
        (
            REMINDED.replace(hour=23),
            (),
            "By then the day of this session is over. Say move today to ... and it waits for you there.",
        ),
    ],
    ids=["rest day", "begun", "past midnight"],
)
def test_where_no_reminder_makes_sense_that_is_said(at: datetime, before: tuple[str, ...], answer: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()
        await stage.program.live_until(at)
        for text in before:
            await mira.says(text)

        await mira.says("remind me in an hour")

        assert mira.last.text == answer

    play()


@pytest.mark.parametrize(
    ("said", "answer"),
    [
        ("in an hour", "All right, I remind you at 18:40, this once."),
        ("at 8", "All right, I remind you at 20:00, this once."),
        ("20:30", "All right, I remind you at 20:30, this once."),
        ("friday", "Moved.\nFri 6 Mar  day 1 Legs"),
        ("At 19:40", "All right, I remind you at 19:40, this once."),
    ],
)
def test_later_asks_when_and_takes_the_answer_in_words(said: str, answer: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()
        await stage.program.live_until(REMINDED)
        await mira.says("later")
        assert mira.last.text.startswith("No hurry. When shall I remind you, once?")
        assert mira.last.labels == ["At 18:40", "At 19:40", "At 20:40", "Move it to Tue 3 Mar", "Leave it as it is"]

        await mira.says(said)

        assert mira.last.text.startswith(answer)
        assert stage.records(mira) == []

    play()


@staged()
async def test_a_set_after_later_is_a_set(stage: Stage) -> None:
    mira = await stage.member()
    await stage.program.live_until(REMINDED)
    await mira.says("later")

    await mira.says("20x12")

    assert stage.records(mira) == ["A1.1 20 kg x 12"]


@staged()
async def test_later_with_nothing_to_do_is_small_talk(stage: Stage) -> None:
    mira = await stage.member()
    await stage.program.live_until(REST_DAY)

    await mira.says("later")

    assert mira.last.text == "Good."


@pytest.mark.parametrize("said", ["double text my bad", "sorry for the double text"])
def test_a_text_sent_twice_before_any_set_asks_nothing(said: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()
        await stage.program.live_until(REMINDED)

        await mira.says(said)

        assert mira.last.labels == []
        assert "on record" not in mira.last.text

    play()
