"""Wishes about days as a member lives them: what is asked, what is done, what the week shows afterwards, and the way back."""

from __future__ import annotations

from tests.builders.stage import Stage, staged

# The stage: Monday 2 March 2026, 7:00; day 1 on Mondays, day 2 on Wednesdays.


async def _week(mira: object) -> list[str]:
    await mira.says("week")  # type: ignore[attr-defined]
    return [line for line in mira.last.text.splitlines() if "day " in line]  # type: ignore[attr-defined]


@staged()
async def test_a_move_onto_a_taken_day_asks_and_slides_the_other_along(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("move today to wednesday")
    assert "Wed 4 Mar has a session of its own" in mira.last.text
    assert mira.last.labels == [
        "Its own session goes to Thu 5 Mar",
        "The two change places",
        "Both on Wed 4 Mar",
        "Leave it as it is",
    ]
    await mira.presses("Its own session goes to Thu 5 Mar")

    shown = await _week(mira)
    assert any("Wed 4 Mar" in line and "day 1" in line for line in shown), shown
    assert any("Thu 5 Mar" in line and "day 2" in line for line in shown), shown


@staged()
async def test_every_question_about_days_can_be_left(stage: Stage) -> None:
    mira = await stage.member()
    before = await _week(mira)

    await mira.says("maybe skip wednesday")
    assert mira.last.labels == ["Leave out Wed 4 Mar", "Leave it as it is"]
    await mira.presses("Leave it as it is")

    assert await _week(mira) == before


@staged()
async def test_two_sessions_on_one_day_only_when_the_member_says_so(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("move today to wednesday")
    await mira.presses("Both on Wed 4 Mar")

    shown = [line for line in await _week(mira) if "Wed 4 Mar" in line]
    assert len(shown) == 2


@staged()
async def test_a_date_chosen_from_buttons_is_asked_about_again_when_it_is_taken(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("move monday to next wednesday")  # this week's or next week's: both hold a session
    await mira.presses(mira.last.labels[0])

    assert "has a session of its own" in mira.last.text


@staged()
async def test_a_rest_day_moved_asks_which_session_is_meant(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("move tuesday to friday")

    assert "Nothing is planned on Tue 3 Mar" in mira.last.text
    await mira.presses("Wed 4 Mar to Fri 6 Mar")
    assert any("Fri 6 Mar" in line and "day 2" in line for line in await _week(mira))


@staged()
async def test_the_sure_part_is_done_and_the_doubtful_part_asked(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("no reminders before 9am, and I can't train on wednesday")

    texts = [message.text for message in mira.from_bot()][-2:]
    assert "Quiet hours set" in texts[0]
    assert "shall I move the session, or leave it out?" in texts[1]


@staged()
async def test_an_absence_empties_the_week_and_being_back_fills_it_again(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("got the flu, out until thursday week")
    assert "You are away" in mira.last.text
    assert await _week(mira) == []
    await mira.says("im back")

    assert any("Mon 2 Mar" in line for line in await _week(mira))


@staged()
async def test_an_absence_says_until_when(stage: Stage) -> None:
    mira = await stage.member()

    heads = []
    for wish in ("away from 12 march to 17 march", "im ill", "out until friday", "pause me for two weeks", "away on saturday"):
        await mira.says(wish)
        heads.append(mira.last.text.splitlines()[0])

    assert heads == [
        "You are away: from Thu 12 Mar until Tue 17 Mar.",
        "You are away: from today, with no end told. Say “back” when you are.",
        "You are away: until Thu 5 Mar.",
        "Paused: until Sun 15 Mar.",
        "You are away: on Sat 7 Mar.",
    ]


@staged()
async def test_other_weekdays_go_on_with_the_day_that_is_due(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")  # day 1 is begun

    await mira.says("i train tue thu sat now")

    shown = await _week(mira)
    assert any("Tue 3 Mar" in line and "day 2" in line for line in shown), shown
    assert any("Thu 5 Mar" in line and "day 1" in line for line in shown), shown
    await mira.presses("Undo")
    assert any("Wed 4 Mar" in line and "day 2" in line for line in await _week(mira))


@staged()
async def test_a_rhythm_of_one_s_own_is_said_in_words_and_taken_back_with_one_tap(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("two on one off please")

    shown = [line for line in await _week(mira) if "Mar" in line]
    assert [line.split("  ")[0] for line in shown] == [
        "Mon 2 Mar",
        "Tue 3 Mar",
        "Thu 5 Mar",
        "Fri 6 Mar",
        "Sun 8 Mar",
        "Mon 9 Mar",
        "Wed 11 Mar",
    ]
    await mira.presses("Undo")
    assert any("Wed 4 Mar" in line for line in await _week(mira))


@staged()
async def test_a_reminder_moves_from_where_it_is(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("remind me at 18:30")

    await mira.says("remind me an hour earlier")

    assert mira.last.text.startswith("Reminder changed: 17:30")


@staged()
async def test_a_session_noted_for_yesterday_is_taken_back_with_one_tap_unless_it_has_sets(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("i did day 2 yesterday")
    assert mira.last.text.startswith("Noted for that day")
    await mira.presses("Undo")
    assert mira.last.text == "Everything is as it was before."

    await mira.says("i did day 2 yesterday")
    noted = mira.last
    await mira.says("yesterday: A1 20x12")
    await mira.presses("Undo", on=noted)

    assert "it has sets by now, so it stays" in mira.last.text


@staged()
async def test_a_day_without_a_session_left_out_says_that_nothing_was_planned(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("skip tuesday")

    assert mira.last.text.startswith("Left out: nothing was planned on Tue 3 Mar")
