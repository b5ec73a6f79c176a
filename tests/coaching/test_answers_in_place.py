"""Answers in the middle of a workout, word for word: short, about the slot that is meant, in the block's and the member's own numbers."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.builders.stage import MONDAY_MORNING, Stage, staged

BLOCK = """\
Spring block
Day 1 - Legs and pull
A1 Goblet squat 3x8-12 @ 3-1-1-0
A2 Pull-up 3x5-8 @ 3-0-X-1
B1 Romanian deadlift 3x8-12, rest 90s, cue: push the hips back
B2 Side plank 2x30s each side
C1 Hammer curl 2x12 rpe 8
Rest
Day 2 - Push
A1 Push-up 3xAMRAP
Rest
"""
ASKED = {
    "what's next": "Next: A2 Pull-up, set 1 of 3: body weight × 7–8. Last time: 6 reps.",
    "how long do i rest": "A2 Pull-up: rest 60–90 s (the block does not say; usual for such reps). A1 and A2 go in turn: rest after both.",
    "do i rest between sides on the side plank?": "B2 Side plank: both sides are one set, so go straight over; a breath or two is fine. Then rest 90 s (as the block says).",
    "what weight for B1": "B1 Dumbbell Romanian deadlift: pair of 26 kg × 10–12 today. Last time pair of 24 kg × 12.",
    "is 18 my best": "A1 Goblet squat: your best so far is 18 kg × 10, Mon 9 Mar. That suggests a single of about 23.8 kg in all, give or take a tenth.",
    "what does 3-1-1-0 mean": "A1 Goblet squat, tempo 3-1-1-0: go down 3 s, hold at the bottom 1 s, stand up 1 s. 12 reps are about 60 s under load.",
    "what is a superset": "Superset: Two exercises in turn: a set of one, then a set of the other. They share the rest, so it saves time.",
    "what's a rep": "Rep and set: A rep is the movement done once, down and up. A set is several reps in a row; then you rest.",
    "how do i do the romanian deadlift": "B1 Dumbbell Romanian deadlift: Your coach: push the hips back.",
    "what muscles does the rdl work": "B1 Dumbbell Romanian deadlift: works your hamstrings and glutes. Your coach: push the hips back.",
    "can i do c1 first": "Your coach’s order is A → B → C: what wants you fresh comes first. If it has to be another today, go ahead; put the slot in front of the set, like C1 12.",
    "can i do the Bs before the As": "Your coach’s order is A → B → C: what wants you fresh comes first. If it has to be another today, go ahead; put the slot in front of the set, like B1 12.",
    "how many rounds of b": "B1 Dumbbell Romanian deadlift: 3 × 8–12 · rest 90 s.",
    "can i send voice notes": "Only text: I cannot listen to voice messages. Dictating into the keyboard works.",
    "how do i log the side plank": "B2 Side plank: send the seconds, like B2 30s.",
    "how do i undo": "Send “undo” to take the last one back, or “no, 11” to correct it. You can also edit the message itself.",
    "which kit have you got down for me": "I have down for you: long band (yellow, red, black; lightest first), bench, dumbbell (2–30 by 2 kg), pull-up bar. Change it in /settings, or tell me, like I now have a bench.",
    "i only have 15 minutes": 'The whole session takes about 17 to 35 minutes. In 15, do what comes first: A1, A2. Leave out what is left at the end, not the warm-up.',
    "got an hour and a half, 90 minutes, does it all fit": 'About 17 to 35 minutes with rests and warm-up, so 90 are enough.',
    "who is my coach": 'Your coach is Ines. Write “tell my coach ...” and I pass it on.',
    "what did i do on monday": 'On Mon 2 Mar:\nA1 Goblet squat: 16 kg × 12, 12, 10\nA2 Pull-up: 6, 6, 5\nB1 Dumbbell Romanian deadlift: pair of 24 kg × 12, 12, 12\nB2 Side plank: 30 s, 30 s',
    "what did i do yesterday": 'On Mon 2 Mar:\nA1 Goblet squat: 16 kg × 12, 12, 10\nA2 Pull-up: 6, 6, 5\nB1 Romanian deadlift: pair of 24 kg × 12, 12, 12\nB2 Side plank: 30 s, 30 s',
    "progress": 'Spring block so far, your first session against your latest:\n\nUp, but not for sure\n– Goblet squat: 16 kg × 12, 12, 10 → 18 kg × 10\n\nFor sure: more than a good or a bad day makes.\n\n“week” shows your sessions, “more” all your targets.',
    "when do the new shirts arrive": 'I have asked your coach; the answer comes here.',
    "how many sessions this week": "In the next seven days: Wed 11 Mar day 2, Push; Mon 16 Mar day 1, Legs and pull.",
}  # fmt: skip


@staged(BLOCK)
async def _answers(stage: Stage) -> None:
    mira = await stage.member()
    for text in ("A1 16x12, 12, 10", "A2 6, 6, 5", "B1 24x12, 12, 12", "B2 30, 30"):
        await mira.says(text)
    await stage.play.until(MONDAY_MORNING + timedelta(days=7, hours=2))
    await mira.says("A1 18x10")
    for text in ASKED:
        await mira.says(text)
        SAID[text] = mira.last.text


SAID: dict[str, str] = {}


@pytest.mark.parametrize("text", ASKED)
def test_the_answer_is_about_the_slot_that_is_meant(text: str) -> None:
    if not SAID:
        _answers()

    assert SAID[text] == ASKED[text]
