"""A block begins for a member on days that fit it, from its first day on, with reminders, whether it came before them or after."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from bot.coaching.beginning import fitting_weekdays
from scenarios.player import Person
from tests.builders.stage import BLOCK, Stage, staged

USUAL = (True, True, True, False, True, True, False)
TWO = (True, False, True, False)
THREE = "Bigger block\n" + "\n".join(
    f"Day {n}\nA1 Goblet squat 3x8-12\nB1 Push-up 3x8-12\n{'Rest' if n < 3 else ''}" for n in (1, 2, 3)
)


@pytest.mark.parametrize(
    ("weekdays", "new", "old", "expected"),
    [
        ((0, 1, 2, 4, 5), TWO, None, (0, 2)),
        ((3, 4, 5, 0, 1), TWO, None, (3, 5)),
        ((0, 1, 2, 4, 5), USUAL, None, (0, 1, 2, 4, 5)),
        ((0, 3, 5), TWO, None, (0, 3)),
        ((5,), TWO, None, (5,)),
        ((0, 2), USUAL, TWO, (0, 1, 2, 4, 5)),
        ((1, 5), USUAL, TWO, (1, 5)),
        ((0, 2, 4), TWO, TWO, (0, 2, 4)),
        ((0, 1, 2, 3, 4), TWO, USUAL, (0, 1)),
    ],
    ids=[
        "usual to two", "usual from Thursday", "usual stays", "own three, the surplus left out", "own one", "two grow by the rhythm",
        "own two do not grow", "a day more was meant so", "own five shrink",
    ],
)  # fmt: skip
def test_days_fit_the_block(
    weekdays: tuple[int, ...], new: tuple[bool, ...], old: tuple[bool, ...] | None, expected: tuple[int, ...]
) -> None:
    assert fitting_weekdays(weekdays, new, old=old) == expected


def _texts(person: Person, begins: str) -> list[str]:
    return [message.text for message in person.from_bot() if message.text.startswith(begins)]


@staged(block="")
async def test_who_joined_before_the_first_block_trains_as_often_as_it_says(stage: Stage) -> None:
    mira = await stage.member()

    await stage.publish(BLOCK)
    assert "Your days: Mon, Wed.\nFirst session: Mon 2 Mar." in mira.last.text
    assert mira.last.labels == ["Other days"]
    await mira.says("week")

    assert mira.last.text == (
        "Your week\nMon 2 Mar  day 1 Legs  today\nWed 4 Mar  day 2 Pull\n\nAfter that\nMon 9 Mar  day 1 Legs\nWed 11 Mar  day 2 Pull\n\n"
        "To change it: move tomorrow to saturday"
    )


@staged(block="")
async def test_who_joined_before_the_first_block_is_reminded_from_its_first_session_on(stage: Stage) -> None:
    mira = await stage.member()
    await stage.publish(BLOCK)

    await stage.play.until(datetime(2026, 3, 2, 18, 0, tzinfo=UTC))

    assert [text.splitlines()[0] for text in _texts(mira, "Today:")] == ["Today: day 1 · Legs, about 20 min"]


@staged(block="")
async def test_a_block_that_comes_in_mid_week_begins_with_its_first_day(stage: Stage) -> None:
    mira = await stage.member()
    await stage.play.until(datetime(2026, 3, 4, 9, 0, tzinfo=UTC))

    await stage.publish(BLOCK)
    await stage.play.until(datetime(2026, 3, 9, 18, 0, tzinfo=UTC))

    assert [text.splitlines()[0] for text in _texts(mira, "Today:")] == ["Today: day 1 · Legs, about 20 min"]


@staged()
async def test_a_new_block_with_more_days_is_trained_on_as_many(stage: Stage) -> None:
    mira = await stage.member()
    await stage.publish(THREE)

    await mira.presses("Begin the new one")

    assert mira.last.text.startswith("You are on Bigger block now. First session: Mon 2 Mar. Your days: Mon, Wed, Fri.")
    assert mira.last.labels == ["Other days"]
    await mira.presses("Other days")
    await mira.says("tue thu sun")
    assert mira.last.text.startswith(
        "Your days are changed: Tue, Thu, Sun.\nTue 3 Mar  day 1\nThu 5 Mar  day 2\nSun 8 Mar  day 3"
    )
    assert mira.last.labels == ["Undo"]


@staged(block="")
async def test_before_the_first_block_nobody_is_asked_for_a_number_of_days_that_nobody_knows(stage: Stage) -> None:
    uma = stage.play.person("Uma")
    await uma.follows_link(stage.link)
    for label in ("Yes, I agree", "kilograms"):
        await uma.presses(label)
    await uma.says("Lisbon")
    await uma.presses(uma.last.labels[0])
    await uma.presses("Done")
    assert uma.last.text.startswith("On which weekday shall your training week begin?")

    await uma.says("tue thu sat")

    assert uma.last.text.startswith("When shall I remind you")
    await uma.presses("No reminders")
    await stage.publish(BLOCK)
    assert "Your days: Tue, Thu." in uma.last.text


@staged()
async def test_days_changed_in_the_settings_move_the_reminder_and_keep_the_holiday(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("away from 16 march until 22 march")
    assert "You are away" in mira.last.text
    await mira.says("settings")
    await mira.presses("Days")

    await mira.says("tue fri")
    await stage.play.until(datetime(2026, 3, 3, 18, 0, tzinfo=UTC))

    assert _texts(mira, "Today:")[-1].startswith("Today: day 1 · Legs")
    plan = stage.member_of(mira).plan
    assert plan is not None
    assert plan.is_away(date(2026, 3, 17))


@staged()
async def test_a_swap_of_two_rest_days_changes_nothing_and_says_so(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("swap tomorrow and thursday")

    assert mira.last.text == "Nothing changed: nothing is planned on Tue 3 Mar or Thu 5 Mar."


@staged()
async def test_a_session_left_out_is_named_once(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("skip today's session")

    assert mira.last.text.startswith("Left out.\nMon 2 Mar  day 1 Legs")
    assert mira.last.text.count("eft out") == 1


@staged()
async def test_beyond_the_end_of_a_block_only_the_week_is_counted(stage: Stage) -> None:
    mira = await stage.member()
    await stage.play.until(datetime(2026, 3, 23, 9, 0, tzinfo=UTC))
    await mira.says("hello")
    await stage.play.until(datetime(2026, 4, 6, 9, 0, tzinfo=UTC))

    await mira.says("today")

    assert mira.last.text.startswith("Day 1 · Legs  Mon 6 Apr, week 6\n")


@staged()
async def test_a_reminder_says_which_exercise_rests(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("20x12")
    await mira.says("my knee hurts 3/10")

    await stage.play.until(datetime(2026, 3, 9, 18, 0, tzinfo=UTC))

    assert "A1 Goblet squat (rests), A2 Push-up, B1 Romanian deadlift" in _texts(mira, "Today:")[-1]


OTHER = BLOCK.replace("Small block", "Other block")


@staged()
async def test_who_finishes_first_begins_the_next_block_by_itself(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("20x12")
    await stage.publish(OTHER)
    await mira.presses("Finish this one first")
    assert mira.last.text == "You stay on Small block until Sun 29 Mar. Other block begins after that, by itself."

    await stage.play.until(datetime(2026, 3, 29, 22, 0, tzinfo=UTC))

    ends, begins = mira.from_bot()[-2:]
    assert ends.text.startswith("Small block is over.")
    assert ends.text.endswith("Your next block begins now, as you wished.")
    assert ends.labels == []
    assert begins.text.startswith("You are on Other block now. First session: Mon 30 Mar.")


@staged()
async def test_a_block_that_is_begun_already_says_so(stage: Stage) -> None:
    mira = await stage.member()
    await stage.publish(OTHER)
    asked = mira.last
    await mira.presses("Finish this one first", on=asked)
    stays = mira.last
    await stage.play.until(datetime(2026, 3, 29, 22, 0, tzinfo=UTC))

    await mira.presses("Begin the new one", on=stays)

    assert mira.last.text == "You are on Other block already. Send today for the session."


@staged()
async def test_who_has_been_silent_for_weeks_is_left_in_peace_until_they_come_back(stage: Stage) -> None:
    mira = await stage.member()
    await stage.play.until(datetime(2026, 4, 6, 8, 0, tzinfo=UTC))

    assert mira.last.text.startswith("Hi Mira, I will stop reminding you now")
    assert any("I remind them no more until they write." in message.text for message in stage.coach.from_bot())
    seen = len(mira.from_bot())
    await stage.play.until(datetime(2026, 4, 20, 8, 0, tzinfo=UTC))
    assert len(mira.from_bot()) == seen

    await mira.says("back")
    assert mira.last.text.startswith("Going on.")
    await stage.play.until(datetime(2026, 4, 20, 18, 0, tzinfo=UTC))
    assert _texts(mira, "Today:")[-1].startswith("Today: day 1 · Legs")


@staged()
async def test_own_days_may_be_fewer_than_the_block_has(stage: Stage) -> None:
    uma = stage.play.person("Uma")
    await uma.follows_link(stage.link)
    await uma.says("ok!")
    await uma.presses("kilograms")
    await uma.says("Lisbon")
    await uma.presses(uma.last.labels[0])
    await uma.presses("Done")
    assert "best 2 of them, like tue thu." in uma.last.text

    await uma.says("mon wed fri")

    assert uma.last.text.startswith("When shall I remind you")
    plan = stage.member_of(uma).plan
    assert plan is not None
    assert plan.weekdays == (0, 2, 4)


@staged()
async def test_the_week_names_the_next_session_however_far_it_is(stage: Stage) -> None:
    mira = await stage.member(day="Sunday")
    await mira.says("20x12")

    await mira.says("week")

    assert "\nMon 2 Mar  day 1 Legs  done" in mira.last.text
    assert "day 2 Pull" in mira.last.text
