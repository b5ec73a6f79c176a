"""From a short text to a record and one short line back; asked where unsure; mended, taken back, put back."""

from __future__ import annotations

import pytest

from tests.builders.stage import Stage, staged


@staged()
async def test_a_set_is_recorded_and_said_back_with_what_comes_next(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("16x12")

    assert stage.records(mira) == ["A1.1 16 kg x 12"]
    assert mira.last.text == "A1 set 1 16 kg × 12\nNext: A2 Push-up, set 1 of 2: 8–15."


@staged()
async def test_sets_alternate_within_a_letter(stage: Stage) -> None:
    mira = await stage.member()
    for text in ("16x12", "12", "16x11", "11", "16x10", "A1 16x9"):
        await mira.says(text)

    assert stage.records(mira)[:5] == [
        "A1.1 16 kg x 12",
        "A2.1 body weight x 12",
        "A1.2 16 kg x 11",
        "A2.2 body weight x 11",
        "A1.3 16 kg x 10",
    ]


@staged()
async def test_last_weeks_numbers_are_compared(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x11")
    await mira.says("done")
    await stage.play.pass_time(days=7)

    await mira.says("16x12")

    assert mira.last.text.startswith("A1 set 1 16 kg × 12: 1 rep more than last time")


@staged()
async def test_undo_can_be_undone(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")
    await mira.says("undo")
    assert stage.records(mira) == []

    await mira.presses("Put it back")

    assert stage.records(mira) == ["A1.1 16 kg x 12"]


@staged()
async def test_an_edited_message_changes_its_set_and_keeps_the_old_row(stage: Stage) -> None:
    mira = await stage.member()
    sent = await mira.says("16x12")
    await mira.says("10")

    await mira.edits(sent, "16x10")

    assert sorted(stage.records(mira)) == ["A1.1 16 kg x 10", "A2.1 body weight x 10"]
    assert len(stage.kept(mira, active=False)) == 1


@staged()
async def test_a_correction_supersedes_and_never_overwrites(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")

    await mira.says("last one was 11")

    assert stage.records(mira) == ["A1.1 16 kg x 11"]
    old = stage.kept(mira, active=False)
    assert [row.record.done.count for row in old] == [12]
    assert stage.kept(mira)[0].replaces == old[0].id


@staged()
async def test_a_surprising_number_is_asked_about_before_it_counts(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")
    await mira.says("12")

    await mira.says("160x12")

    assert stage.records(mira) == ["A1.1 16 kg x 12", "A2.1 body weight x 12"]
    assert "None of these" in mira.last.labels


@staged()
async def test_a_question_is_answered_once_by_press_or_by_the_same_words(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("160x12")
    question = mira.last
    label = question.labels[0]
    await mira.says(label)
    recorded = stage.records(mira)
    assert len(recorded) == 1

    await mira.presses(label, on=question)

    assert stage.records(mira) == recorded
    assert mira.last.text == "That question is closed: it was answered, or we have moved on. To change something, just type it."


@staged()
async def test_the_same_update_twice_is_one_record(stage: Stage) -> None:
    mira = await stage.member()
    stage.standin.deliver_twice(1)

    await mira.says("16x12")
    await stage.play.settle()

    assert stage.records(mira) == ["A1.1 16 kg x 12"]


@staged()
async def test_a_set_for_yesterday_goes_into_yesterdays_session(stage: Stage) -> None:
    mira = await stage.member()
    await stage.play.pass_time(days=1)

    await mira.says("yesterday: A1 16x12, 12, 11")

    kept = stage.kept(mira)
    assert [(str(row.on), row.label, row.number) for row in kept] == [("2026-03-02", "A1", n) for n in (1, 2, 3)]


@staged()
async def test_a_pasted_session_is_recorded_whole(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("A1 goblet squat 16kg: 12 12 11\nA2 push ups: 14, 12\nB1 rdl 24 x 10, 10")

    assert sorted(stage.records(mira)) == [
        "A1.1 16 kg x 12", "A1.2 16 kg x 12", "A1.3 16 kg x 11", "A2.1 body weight x 14", "A2.2 body weight x 12",
        "B1.1 pair of 24 kg x 10", "B1.2 pair of 24 kg x 10",
    ]  # fmt: skip


@staged()
async def test_skips_are_kept_apart_from_sets_and_the_order_goes_on(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")

    await mira.says("skip A2")

    assert "Left out: A2" in mira.last.text
    assert "Next: A1" in mira.last.text


@staged()
async def test_after_the_last_set_the_session_closes_and_effort_is_asked_once(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("A1 16x12, 12, 12\nA2 15, 15\nB1 20x12, 12")
    assert "Session complete: 7 of 7 sets" in mira.last.text

    await mira.says("8")

    assert mira.last.text == "Effort 8 of 10, noted. Well done."
    member = stage.member_of(mira)
    with stage.uow() as uow:
        assert [str(session.effort) for session in uow.sessions.find(member_id=member.id)] == ["8"]


@staged()
async def test_sets_beside_a_question_are_kept_and_the_question_answered(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("16x12, what does 3-1-1-0 mean?")

    assert stage.records(mira) == ["A1.1 16 kg x 12"]
    assert "3 s" in mira.last.text


@pytest.mark.parametrize("text", ["😀" * 4096, "(" * 3000, "12, " * 1000, "\u202e\u0000x", "/", "///", "½⅓¼", "-", "1" * 400])
def test_nonsense_gets_an_answer_and_breaks_nothing(text: str) -> None:
    @staged()
    async def play(stage: Stage) -> None:
        mira = await stage.member()
        before = len(mira.from_bot())
        await mira.says(text)
        await mira.says("16x12")
        assert len(mira.from_bot()) > before
        assert "A1.1 16 kg x 12" in stage.records(mira)
        with stage.program.open_uow(reads=True) as uow:
            assert uow.inbox.count("parked") == 0

    play()


@staged()
async def test_yesterdays_sets_are_corrected_by_words_and_today_stays_as_it_is(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("A1 16x12, 12, 11")
    await stage.play.pass_time(days=1)

    await mira.says("yesterday's goblet squats were 18 not 16")

    assert stage.records(mira) == ["A1.1 18 kg x 12", "A1.2 18 kg x 12", "A1.3 18 kg x 11"]
    assert "Corrected for" in mira.last.text
    assert {row.on for row in stage.kept(mira)} == {row.on for row in stage.kept(mira, active=False)}
