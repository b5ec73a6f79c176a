"""A coach's video: kept for an exercise by its caption, asked about where that leaves it open, sent to members who ask how it is done."""

from __future__ import annotations

from tests.builders.stage import Stage, staged

CLIP = b"\x00\x00\x00\x18ftypmp42"  # how such files begin; nothing here looks inside


async def _video(stage: Stage, caption: str = "") -> None:
    await stage.coach.sends_video(CLIP, caption)


@staged()
async def test_a_video_with_a_slot_below_it_reaches_the_member_who_asks(stage: Stage) -> None:
    mira = await stage.member()
    await _video(stage, "day 2 B1")
    assert stage.coach.last.text.startswith("Kept for Dumbbell curl (day 2 B1).")

    await mira.says("how do I do dumbbell curls?")

    assert mira.last.file is not None
    assert mira.last.file.kind == "video"
    assert "Dumbbell curl" in mira.last.text


@staged()
async def test_the_members_own_slot_is_meant_by_its_label(stage: Stage) -> None:
    mira = await stage.member()
    await _video(stage, "goblet squat")

    await mira.says("how do I do A1?")

    assert mira.last.file is not None
    assert "A1 Goblet squat" in mira.last.text


@staged()
async def test_a_video_without_words_is_asked_about_with_the_blocks_exercises(stage: Stage) -> None:
    await _video(stage)
    assert "Which exercise does the video show?" in stage.coach.last.text
    assert "Push-up" in stage.coach.last.labels

    await stage.coach.presses("Push-up")

    assert stage.coach.last.text.startswith("Kept for Push-up (day 1 A2).")


@staged()
async def test_a_label_on_several_days_is_asked_about(stage: Stage) -> None:
    await _video(stage, "A1")
    assert stage.coach.last.labels == ["Goblet squat", "One-arm dumbbell row"]


@staged()
async def test_another_video_takes_the_place_of_the_first_and_can_be_taken_off(stage: Stage) -> None:
    mira = await stage.member()
    await _video(stage, "push-up")
    await _video(stage, "push-up")
    assert "in place of the earlier video" in stage.coach.last.text

    await stage.coach.presses("Take it off")
    await mira.says("how do I do push-ups?")

    assert mira.last.file is None


@staged(block="")
async def test_a_video_before_any_block_is_answered_with_what_to_do_first(stage: Stage) -> None:
    await _video(stage, "B1")
    assert "no block yet" in stage.coach.last.text


@staged()
async def test_a_members_video_is_not_kept(stage: Stage) -> None:
    mira = await stage.member()
    await mira.sends_video(CLIP, "A1")

    with stage.uow() as uow:
        assert not [name for name in uow.own_names.find() if name.demo]
    assert "video" in mira.last.text
