"""What happens because time passed: reminders, rest calls, the week's end, silence."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from tests.builders.stage import Stage, staged


@staged()
async def test_a_member_is_reminded_at_their_own_time_on_training_days_only(stage: Stage) -> None:
    mira = await stage.member(place="Denver")

    await stage.program.live_until(datetime(2026, 3, 9, 0, 0, tzinfo=UTC))

    reminders = [message for message in mira.from_bot() if message.text.startswith("Today: day")]
    assert [message.at for message in reminders] == [datetime(2026, 3, day, 0, 30, tzinfo=UTC) for day in (3, 5)]


@staged()
async def test_no_reminder_once_the_session_was_begun(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")

    await stage.program.live_until(datetime(2026, 3, 3, 0, 0, tzinfo=UTC))

    assert not any(message.text.startswith("Today: day") for message in mira.from_bot())


@staged()
async def test_a_moved_session_is_shown_in_dates_reminded_there_and_moved_back_with_one_tap(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("move wednesday to thursday")
    assert "Thu 5 Mar" in mira.last.text

    await mira.presses("Undo")
    await mira.says("week")

    assert "Wed 4 Mar  day 2" in mira.last.text


@staged()
async def test_a_stated_rest_is_called_when_it_is_over_and_silenced_by_the_next_set(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("A1 16x12, 12, 12\nA2 15, 15")
    await mira.says("B1 20x12")
    at = stage.clock.now()

    await stage.program.live_until(at + timedelta(seconds=65))

    calls = [message for message in mira.from_bot() if message.text.startswith("Rest is over.")]
    # The set itself was heard up to two seconds before `at`: the platform's pacing lies between.
    assert len(calls) == 1
    assert 58 <= (calls[0].at - at).total_seconds() <= 60


@staged()
async def test_no_rest_is_called_where_none_is_stated(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")

    await stage.program.live_until(stage.clock.now() + timedelta(minutes=10))

    assert not any(message.text.startswith("Rest is over.") for message in mira.from_bot())


@staged()
async def test_the_week_ends_with_a_target_and_its_reason_and_the_coach_sees_the_group(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("A1 16x12, 12, 12\nA2 12, 11\nB1 20x12, 12")

    await stage.program.live_until(datetime(2026, 3, 9, 6, 0, tzinfo=UTC))

    review = next(message for message in mira.from_bot() if message.text.startswith("Week 1 of 4"))
    assert "A1 Goblet squat: " in review.text
    assert "12" in review.text
    picture = next(message for message in stage.coach.from_bot() if "week of" in message.text)
    assert "Mira: 1 of 2 sessions" in picture.text
    await mira.says("today")
    assert "today" in mira.last.text


@staged()
async def test_a_silent_week_earns_one_kind_word_and_then_the_coach_hears(stage: Stage) -> None:
    mira = await stage.member()

    await stage.program.live_until(stage.clock.now() + timedelta(days=29))

    kind = [message for message in mira.from_bot() if message.text.startswith("Hi Mira, a week without a set.")]
    assert len(kind) == 1
    assert any("has been quiet for" in message.text for message in stage.coach.from_bot())


@staged()
async def test_what_was_due_while_the_machine_was_off_is_dropped_when_it_is_no_use_any_more(stage: Stage) -> None:
    mira = await stage.member()
    await stage.clock.advance_to(datetime(2026, 3, 3, 9, 0, tzinfo=UTC))  # nothing ran all night

    await stage.program.settle()

    assert not any(message.text.startswith("Today: day") for message in mira.from_bot())


@staged()
async def test_the_weeks_effort_is_said_in_plain_words(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("A1 16x12, 12, 12\nA2 12, 11\nB1 20x12, 12")
    await mira.says("done 40 min")
    await mira.says("7")

    await stage.program.live_until(datetime(2026, 3, 9, 6, 0, tzinfo=UTC))

    review = next(message for message in mira.from_bot() if message.text.startswith("Week 1 of 4"))
    assert "for how hard it all was (session RPE: each session’s rating times its minutes" in review.text
    assert "RPE ×" not in review.text
