"""Pain brings care, not progress; signs of an emergency come before everything; the coach hears of both."""

from __future__ import annotations

from tests.builders.stage import Stage, staged


@staged()
async def test_an_emergency_gets_one_answer_and_the_coach_is_told(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")
    sent = await mira.says("my chest is tight and i cant catch my breath")

    answers = mira.since(sent)
    assert len(answers) == 1
    assert answers[0].text.startswith("Stop training now.")
    assert "local emergency number" in answers[0].text
    assert stage.coach.last.text.startswith("Mira may have an emergency.")


@staged()
async def test_sets_said_beside_an_emergency_are_kept_without_a_word(stage: Stage) -> None:
    mira = await stage.member()

    sent = await mira.says("A1 16x12\nthen I passed out")

    assert [message.text[:18] for message in mira.since(sent)] == ["Stop training now."]
    assert stage.records(mira) == ["A1.1 16 kg x 12"]


@staged()
async def test_pain_stops_the_slot_marks_its_sets_and_asks_how_bad(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")
    await mira.says("my left knee hurts")
    assert "How bad is it" in mira.last.text

    await mira.presses("7")

    assert any("doctor or physiotherapist" in message.text for message in mira.from_bot())
    assert all(row.record.painful for row in stage.kept(mira) if row.label == "A1")
    assert "Mira reports pain: knee, 7 of 10" in stage.coach.last.text


@staged()
async def test_sets_beside_pain_stay_on_record_marked(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("16x8 and my knee hurts going down")

    kept = stage.kept(mira)
    assert [(row.label, row.record.done.count, row.record.painful) for row in kept] == [("A1", 8, True)]


@staged()
async def test_only_the_coach_lets_a_stopped_slot_go_on(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")
    await mira.says("my knee hurts 3/10")

    await stage.coach.presses("Let it go on")

    assert "lets you go on" in mira.last.text
    member = stage.member_of(mira)
    with stage.uow() as uow:
        assert [pain.open for pain in uow.pains.find(member_id=member.id)] == [False]


@staged()
async def test_a_manner_of_speaking_is_no_emergency(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("16x12 that set killed me lol")

    assert stage.records(mira) == ["A1.1 16 kg x 12"]
    assert not any("Stop training" in message.text for message in mira.from_bot())


@staged()
async def test_a_question_for_people_goes_to_the_coach_comes_back_and_is_kept(stage: Stage) -> None:
    mira, noor = await stage.member("Mira"), await stage.member("Noor")
    await mira.says("is it ok to train in a cold garage?")
    assert mira.last.text == "I have asked your coach; the answer comes here."

    await stage.coach.replies(stage.coach.last, "Yes, warm up twice as long.")
    assert mira.last.text.endswith("Yes, warm up twice as long.")
    await stage.coach.presses("Yes, keep it")
    await noor.says("can I train in my cold garage?")

    assert noor.last.text == (
        "Your coach has answered this before, to “is it ok to train in a cold garage?”:\nYes, warm up twice as long."
    )
    await noor.presses("I asked something else")
    assert noor.last.text == "I have asked your coach; the answer comes here."
    assert "Noor asks:" in stage.coach.last.text


@staged()
async def test_the_tempo_of_a_slot_is_sent_as_a_voice_message(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("beat A1")
    assert mira.last.file is not None
    assert mira.last.file.kind == "voice"
    assert mira.last.file.content[:4] == b"OggS"

    await mira.says("beat for A2")
    assert mira.last.text.startswith("A2 Push-up has no tempo written")


@staged()
async def test_alarming_words_that_may_be_talk_get_the_same_first_step_and_one_question(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")
    await mira.says("something is very wrong with me")

    assert mira.last.text.startswith("Stop training now")
    assert "local emergency number" in mira.last.text
    assert stage.coach.last.text.startswith("Mira may have an emergency.")

    await mira.presses("Only a manner of speaking, all is well")

    assert stage.coach.last.text == "Mira says it was only a manner of speaking."
    await mira.says("A1 12")
    assert stage.records(mira) == ["A1.1 16 kg x 12", "A1.2 16 kg x 12"]


@staged()
async def test_what_hurt_days_ago_is_asked_about_and_stops_nothing(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")

    await mira.says("my knees were sore after monday")

    assert mira.last.text == "Noted. Does your knee hurt today as well?"
    assert not any("reports pain" in message.text for message in stage.coach.from_bot())
    await mira.says("A1 12")
    assert not any(row.record.painful for row in stage.kept(mira))


@staged()
async def test_what_still_hurts_is_pain_of_today(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")
    await mira.says("my left knee was hurting on friday")

    await mira.presses("Yes, it hurts today")

    assert "How bad is it, your knee" in mira.last.text
    assert stage.coach.last.text.startswith("Mira reports pain: knee")


@staged()
async def test_how_bad_it_is_may_come_after_a_word_in_between(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")
    await mira.says("my shoulder hurts")
    await mira.says("sorry, phone rang")

    await mira.says("4")

    assert "shoulder, 4 of 10" in "".join(message.text for message in stage.coach.from_bot())
    assert stage.records(mira) == ["A1.1 16 kg x 12"]


@staged()
async def test_more_words_of_the_same_pain_stop_no_other_exercise(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")
    await mira.says("12")
    await mira.says("my knee hurts 3/10")

    await mira.says("it hurts more now")

    assert mira.last.text.startswith("How bad is it, your knee")
    assert "“it hurts more now”" in stage.coach.last.text
    with stage.uow() as uow:
        assert [(pain.part, pain.label) for pain in uow.pains.find(member_id=stage.member_of(mira).id)] == [("knee", "A1")]


@staged()
async def test_dizziness_alone_is_told_to_sit_down_and_the_coach_hears(stage: Stage) -> None:
    mira = await stage.member()
    await mira.says("16x12")

    await mira.says("i feel dizzy")

    assert mira.last.text.startswith("Stop, and sit or lie down now")
    assert stage.coach.last.text.startswith("Mira wrote about dizziness.")


@staged()
async def test_sore_muscles_without_a_wish_get_no_other_exercise(stage: Stage) -> None:
    mira = await stage.member()

    await mira.says("quads a little sore from yesterday")
    assert mira.last.text.startswith("Sore muscles in your thigh are common")

    await mira.says("quads sore, something else for A1?")
    assert "instead of A1 Goblet squat" in mira.last.text
