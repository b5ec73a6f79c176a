"""What comes again every day or week goes on: after a machine that was off, after a long absence."""

from __future__ import annotations

from datetime import timedelta

from tests.builders.stage import Stage, staged


@staged()
async def test_reminders_weeks_and_pictures_go_on_after_nine_days_without_power(stage: Stage) -> None:
    mira = await stage.member("Mira")  # Monday, reminded at 17:30; the plan trains most days
    await stage.clock.advance_to(
        stage.clock.now() + timedelta(days=9)
    )  # nobody sweeps: the reminder, the week's end, the picture pass

    seen, shown = len(mira.from_bot()), len(stage.coach.from_bot())
    await mira.says("day 1")
    await mira.says("A1 16x12")
    await stage.play.pass_time(days=14)

    texts = [message.text for message in mira.from_bot()[seen:]]
    assert sum(text.startswith("Today: day") for text in texts) >= 3
    assert any(text.startswith("Week ") for text in texts), texts
    assert any("week of" in message.text for message in stage.coach.from_bot()[shown:])


@staged()
async def test_reminders_come_again_after_a_long_absence(stage: Stage) -> None:
    mira = await stage.member("Mira")
    await mira.says("away from 3 march to 29 march")
    assert mira.last.text.startswith("You are away")
    await stage.play.pass_time(days=21)

    seen = len(mira.from_bot())
    await stage.play.pass_time(days=14)

    assert sum(message.text.startswith("Today: day") for message in mira.from_bot()[seen:]) == 2
