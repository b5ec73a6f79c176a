"""What a week and a block come to in words: weeks with nothing done, pain, newcomers, the block's end."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from scenarios.player import Person
from tests.builders.stage import Stage, staged


def weekly(person: Person) -> list[str]:
    return [message.text for message in person.from_bot() if message.text.startswith("Week ")]


def group_weeks(stage: Stage) -> list[str]:
    return [message.text for message in stage.coach.from_bot() if "week of" in message.text]


@staged()
async def test_a_week_with_nothing_done_is_told_in_a_sentence_without_a_chart(stage: Stage) -> None:
    mira = await stage.member()
    for _ in range(2):
        await mira.says("A1 16x12, 12, 12\nA2 12, 11\nB1 20x12, 12")
        await stage.program.live_until(stage.clock.now() + timedelta(days=7))

    await stage.program.live_until(datetime(2026, 3, 23, 6, 0, tzinfo=UTC))

    idle = next(message for message in mira.from_bot() if message.text.startswith("Week 3 of 4"))
    assert (
        idle.text
        == "Week 3 of 4: no session. Nothing is lost: the next session takes up where you were.\nSend more for your targets."
    )
    assert idle.file is None
    drawn = next(message for message in mira.from_bot() if message.text.startswith("Week 2 of 4"))
    assert drawn.file is not None


@staged()
async def test_a_slot_that_hurts_is_said_to_rest_in_the_week_and_in_the_session(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("A1 16x8 and my left knee hurts going down, 4 of 10")

    await stage.program.live_until(datetime(2026, 3, 9, 6, 0, tzinfo=UTC))
    await mira.says("today")

    assert "A1 Goblet squat: rests until cleared\n" in weekly(mira)[0]
    assert "max" not in weekly(mira)[0]
    shown = next(message.text for message in reversed(mira.from_bot()) if "A2 Push-up" in message.text)
    assert "A1 Goblet squat (pain: rests until your coach clears it)" in shown


@staged()
async def test_newcomers_are_told_by_what_is_awaited_of_them(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("A1 16x12, 12, 12")
    await stage.program.live_until(datetime(2026, 3, 8, 9, 0, tzinfo=UTC))
    await stage.member("Teo")
    await stage.play.person("Noor").follows_link(stage.link)

    await stage.program.live_until(datetime(2026, 3, 9, 6, 0, tzinfo=UTC))

    picture = group_weeks(stage)[0]
    assert "Teo: here since Sun 8 Mar, first session awaited on Mon 9 Mar" in picture
    assert "Noor: here since Sun 8 Mar, still at the first questions" in picture
    assert "0 of 0" not in picture and "too little to say" not in picture


@staged()
async def test_the_block_s_last_week_comes_before_its_review_and_the_review_sorts_what_is_sure(stage: Stage) -> None:
    mira = await stage.member()
    for week in range(4):
        await mira.says(f"A1 {14 + 2 * week}x10, 10, 10\nA2 {12 + week}, 11\nB1 20x10, 10")
        await stage.program.live_until(datetime(2026, 3, 9 + 7 * week if week < 3 else 30, 6, 0, tzinfo=UTC))

    texts = [message.text for message in mira.from_bot()]
    last_week = next(n for n, text in enumerate(texts) if text.startswith("Week 4 of 4"))
    review = next(n for n, text in enumerate(texts) if " is over. First week against last:" in text)
    assert last_week < review
    assert "If you stay on this block, aim at this next:" in texts[last_week]
    assert "For sure\n– Goblet squat: 14 kg × 10, 10, 10 → 20 kg × 10, 10, 10, stronger by about" in texts[review]
    assert "Up, but not for sure\n– Push-up: 12, 11 reps → 15, 11 reps" in texts[review]
    assert "As it was: Romanian deadlift." in texts[review]
    assert "Trends show" not in group_weeks(stage)[-1]


@staged()
async def test_what_a_single_slot_has_for_the_coach_stands_in_the_group_s_week(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("A1 20x6, 5, 4\nA2 12, 11")

    await stage.program.live_until(datetime(2026, 3, 9, 6, 0, tzinfo=UTC))

    assert "– A1 Goblet squat: below the range with 20 kg; eased" in group_weeks(stage)[0]


@staged()
async def test_pounds_stay_pounds_in_the_totals(stage: Stage) -> None:
    dale = await stage.member("Dale", unit="pounds", kit="dumbbells 5-50 by 5, bench")
    await dale.says("A1 40x10, 10, 10")

    await stage.program.live_until(datetime(2026, 3, 9, 6, 0, tzinfo=UTC))

    assert "3 sets, 1,200 lb moved in all." in weekly(dale)[0]
