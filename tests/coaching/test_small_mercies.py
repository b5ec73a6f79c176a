"""What people say in passing is taken as meant: a number put right, a thing left out after all, a pick from a list, a setting in words."""

from __future__ import annotations

from datetime import UTC, datetime, time

import pytest

from bot.training.kit import KitItem
from bot.training.loads import Unit
from tests.builders.stage import BLOCK, Stage, staged


@staged()
async def test_an_effort_put_right_changes_no_set(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("20x12")
    await mira.says("done")
    await mira.says("7")

    await mira.says("actually 8")

    assert mira.last.text == "Effort 8 of 10, noted. Well done."
    assert stage.records(mira) == ["A1.1 20 kg x 12"]


@staged()
async def test_a_number_put_right_between_sets_is_the_sets(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("20x12")

    await mira.says("actually 8")

    assert stage.records(mira) == ["A1.1 20 kg x 8"]


@pytest.mark.parametrize("how", ["button", "word"])
def test_what_was_left_out_can_be_done_after_all(how: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()
        await mira.says("20x12")
        await mira.says("skip B1")

        if how == "button":
            await mira.presses("Undo")
        else:
            await mira.says("undo")

        assert mira.last.text.startswith("To be done after all: B1 sets 1, 2.")
        await mira.says("B1 30x10")
        assert stage.records(mira) == ["A1.1 20 kg x 12", "B1.1 pair of 30 kg x 10"]

    play()


@staged()
async def test_undo_after_a_set_that_followed_a_skip_takes_the_set(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("skip B1")
    await mira.says("20x12")

    await mira.says("undo")

    assert mira.last.text.startswith("Taken back: A1 set 1 20 kg × 12.")


@staged()
async def test_what_stands_again_after_a_correction_is_taken_back_is_said(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("20x12")
    await mira.says("that was 8")

    await mira.says("undo")

    assert mira.last.text.startswith("Taken back: A1 set 1 20 kg × 8. What was there before stands again: A1 set 1 20 kg × 12.")


@staged()
async def test_an_edited_set_is_said_to_be_changed(stage: Stage) -> None:
    mira = await stage.member()
    first = await mira.says("20x12")

    await mira.edits(first, "22x12")

    assert mira.last.text.startswith("Changed: A1 set 1 22 kg × 12")


@pytest.mark.parametrize(("said", "taken"), [("1", 0), ("the second one", 1), ("number 3", 2), ("last one", 2)])
def test_an_offered_substitute_is_picked_by_its_number(said: str, taken: int) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()
        await mira.says("what instead of A1?")
        offered = mira.last.labels

        await mira.says(said)

        assert mira.last.text.startswith(f"A1 is {offered[taken]} today")

    play()


@staged()
async def test_a_number_later_on_is_a_set_again(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("20x12")
    await mira.says("what instead of A2?")
    await mira.says("what's next?")

    await mira.says("3")

    assert "instead of" not in mira.last.text


@staged()
async def test_which_slot_to_swap_is_picked_by_its_label(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("I want another exercise")
    assert mira.last.text == "Which one do you want to replace?"

    await mira.says("b1")

    assert mira.last.text.startswith("Instead of B1 Romanian deadlift:")


@staged()
async def test_units_asked_for_are_read_as_people_write_them(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("settings")
    await mira.presses("Units")

    await mira.says("lbs")

    assert stage.member_of(mira).unit is Unit.LB


@pytest.mark.parametrize(
    ("said", "at"), [("half past six in the morning", time(6, 30)), ("6.30", time(6, 30)), ("noon", time(12)), ("none", None)]
)
def test_a_reminder_asked_for_is_read_as_people_say_it(said: str, at: time | None) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()
        await mira.says("settings")
        await mira.presses("Reminder")

        await mira.says(said)

        plan = stage.member_of(mira).plan
        assert plan is not None
        assert plan.reminder_local == at
        assert stage.records(mira) == []

    play()


@staged()
async def test_a_word_for_something_else_is_no_place(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("settings")
    await mira.presses("Place")

    await mira.says("today")

    assert mira.last.text.startswith("Day 1 · Legs")


@pytest.mark.parametrize(
    ("said", "on"),
    [("rest calls on", True), ("turn on rest calls", True), ("no rest timer please", False), ("stop the rest reminders", False),
     ("I don't want rest calls", False)],
)  # fmt: skip
def test_rest_calls_are_turned_on_and_off_in_words(said: str, on: bool) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()

        await mira.says(said)

        assert mira.last.text == f"Rest calls are {'on' if on else 'off'}."
        assert stage.member_of(mira).rest_calls is on

    play()


@pytest.mark.parametrize("said", ["sold my dumbbells", "I don't have dumbbells any more", "I no longer own the dumbbells"])
def test_kit_that_is_gone_for_good_is_taken_off(said: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()

        await mira.says(said)

        kit = stage.member_of(mira).kit
        assert KitItem.DUMBBELL not in kit.items
        assert kit.ladder(KitItem.DUMBBELL) is None
        assert mira.last.text.startswith("What do you have to train with?")

    play()


@staged()
async def test_kit_that_is_not_here_today_stays_on_the_list(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("no dumbbells today")

    assert KitItem.DUMBBELL in stage.member_of(mira).kit.items


@staged()
async def test_my_kit_is_said_anew_as_a_whole(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("my kit: kettlebell 16, bench")

    assert stage.member_of(mira).kit.items == {KitItem.KETTLEBELL, KitItem.BENCH}


@staged()
async def test_a_first_set_beyond_the_kit_is_not_held_against_what_was_never_done(stage: Stage) -> None:
    mira = await stage.member(kit="dumbbells 3kg")

    await mira.says("40x12")

    assert mira.last.text == "“40x12” is not what your kit and your plan made me expect. Is it right?"


@staged()
async def test_a_block_with_nothing_on_record_is_closed_in_a_sentence(stage: Stage) -> None:
    mira = await stage.member()

    await stage.play.until(datetime(2026, 3, 30, 8, 0, tzinfo=UTC))

    closing = [message.text for message in mira.from_bot() if "is over" in message.text]
    assert [text.splitlines()[0] for text in closing] == [
        "Small block is over. There is too little on record to hold its weeks against each other."
    ]


@staged()
async def test_done_on_the_day_of_joining_ends_the_session(stage: Stage) -> None:
    """The kit question of joining has a button of that word, and its earlier message still stands."""
    mira = await stage.member()
    await mira.says("20x12")

    await mira.says("done")

    assert mira.last.text.startswith("Session closed: 1 of 7 sets")


@staged()
async def test_done_after_a_setting_was_left_unanswered_ends_the_session(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("settings")
    await mira.presses("Kit")
    await mira.says("20x12")

    await mira.says("done")

    assert mira.last.text.startswith("Session closed: 1 of 7 sets")


@staged()
async def test_undo_after_a_set_that_followed_a_change_of_days_takes_the_set(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("remind me at 7:15")
    await mira.says("20x12")

    await mira.says("undo")

    assert mira.last.text.startswith("Taken back: A1 set 1 20 kg × 12.")
    plan = stage.member_of(mira).plan
    assert plan is not None
    assert plan.reminder_local == time(7, 15)


@pytest.mark.parametrize("said", ["back", "I'm back", "ok, back now", "back home"])
def test_the_word_that_somebody_away_was_told_to_say_is_heard(said: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()
        await mira.says("I'm ill")
        assert "Say “back” when you are." in mira.last.text

        await mira.says(said)

        assert mira.last.text.startswith("Going on.\nMon 2 Mar  day 1 Legs")

    play()


@staged()
async def test_a_bare_back_of_somebody_who_is_here_changes_no_days(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("back")

    assert "Going on" not in mira.last.text


@staged()
async def test_somebody_away_who_looks_hears_how_to_come_back(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("I'm ill")

    await mira.says("today")

    assert mira.last.text == "You are away, so nothing is planned. Say back when you are, or just text your sets."


@staged()
async def test_next_week_is_shown_by_itself(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("next week")

    assert mira.last.text.startswith("Next week\nMon 9 Mar  day 1 Legs\nWed 11 Mar  day 2 Pull\n\nTo change it")


@pytest.mark.parametrize(
    ("said", "begins"),
    [
        ("I'm so tired today", "Some days are like that."),
        ("I feel great today", "Good to hear."),
        ("great session!", "Good to hear."),
        ("fuck this", "Fair enough."),
        ("good night", "Good."),
    ],
)
def test_a_mood_gets_a_kind_word(said: str, begins: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()
        await mira.says("20x12")

        await mira.says(said)

        assert mira.last.text.startswith(begins)
        assert stage.records(mira) == ["A1.1 20 kg x 12"]

    play()


@staged()
async def test_staying_on_a_block_names_its_last_day(stage: Stage) -> None:
    mira = await stage.member()
    await stage.publish(BLOCK.replace("Small block", "Other block"))

    await mira.presses("Finish this one first")

    assert mira.last.text == "You stay on Small block until Sun 29 Mar. Other block begins after that, by itself."


@staged()
async def test_what_changed_nothing_needs_no_undo(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("swap tomorrow and thursday")

    assert mira.last.labels == []


@staged()
async def test_done_with_nothing_on_record_says_what_to_send(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("done")

    assert mira.last.text.startswith("Nothing is on record today yet. Send your sets")


@staged()
async def test_done_with_a_doubt_passed_over_puts_it_again(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("A1 16x12, 12, 11, 10")
    assert "is more than is left to do here" in mira.last.text
    offered = mira.last.labels

    await mira.says("done")
    assert mira.last.text == "“A1 16x12, 12, 11, 10” is not on record yet. How shall I take it?"
    assert mira.last.labels == offered
    await mira.presses("A1 sets 1-4")

    assert len(stage.records(mira)) == 4


@staged()
async def test_a_session_that_ends_with_a_doubt_passed_over_puts_it_again(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("A1 16x12, 12, 11, 10")
    await mira.says("A2 12, 10")

    sent = await mira.says("done")

    said = [message.text for message in mira.since(sent)]
    assert said[0].startswith("Session closed: 2 of 7 sets.")
    assert said[1].startswith("“A1 16x12, 12, 11, 10” is not on record yet.")


@staged()
async def test_none_of_these_says_how_to_go_on(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("A1 16x12, 12, 11, 10")

    await mira.presses("None of these")

    assert mira.last.text == "Then nothing of it is recorded. Say it in other words, one set a line, like 20x12."


@staged()
async def test_a_question_without_offers_has_no_none_of_these(stage: Stage) -> None:
    mira = await stage.member(kit="nothing")

    await mira.says("12")

    assert "None of these" not in mira.last.labels


@pytest.mark.parametrize(
    ("face", "begins"), [("🤮", "If you feel unwell"), ("😭", "Some days are like that."), ("💪", "Good."), ("...", "Good.")]
)
def test_a_face_is_answered_by_what_it_tells(face: str, begins: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()

        await mira.says(face)

        assert mira.last.text.startswith(begins)

    play()


@pytest.mark.parametrize("said", ["finish", "end session", "workout over"])
def test_a_session_ends_in_other_words_too(said: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()
        await mira.says("20x12")

        await mira.says(said)

        assert mira.last.text.startswith("Session closed: 1 of 7 sets")

    play()


@staged()
async def test_a_slot_named_alone_is_next(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("b1")
    assert mira.last.text.startswith("Next: B1 Romanian deadlift, set 1 of 2")

    await mira.says("30x10")

    assert stage.records(mira) == ["B1.1 pair of 30 kg x 10"]


@pytest.mark.parametrize("said", ["none of these", "no", "never mind", "keep it as it is"])
def test_none_of_the_offered_substitutes_ends_the_matter(said: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()
        await mira.says("what instead of A1?")

        await mira.says(said)

        assert mira.last.text == "All right, nothing changes."

    play()


@staged()
async def test_a_doubt_is_put_again_once_and_no_more(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("A1 16x12, 12, 11, 10")
    await mira.says("A2 12, 10")
    await mira.says("done")

    sent = await mira.says("that's it")

    assert not any("not on record yet" in message.text for message in mira.since(sent))
