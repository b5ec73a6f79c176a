"""A bad night told in a note is heard; a good one, or a word that only sounds like it, is not."""

import pytest

from bot.training.progression.sleep import speaks_of_bad_sleep

BAD = (
    "slept badly all week", "Not much sleep, baby", "only 4 hours of sleep", "4h sleep", "slept maybe 5 hours", "three hours sleep again",
    "bad night", "rough night with the kids", "couldn't sleep", "couldnt sleep at all", "didn't get enough sleep", "up all night",
    "awake half the night", "poor sleep this week", "sleep was terrible", "hardly slept", "barely any sleep", "I slept like crap",
    "insomnia again", "the baby kept me up", "was up twice with the baby", "sleep deprived", "no sleep", "my sleep has been pretty poor lately",
    "night shift before this", "lack of sleep is killing me", "didn’t sleep well", "not sleeping well", "slept 5h30", "sleepless night",
    "felt ok but slept badly", "short night", "tossed and turned", "not a great night",
)  # fmt: skip
FINE = (
    "8 hours sleep, felt great", "slept great", "slept well", "slept like a log", "no trouble sleeping", "slept better than last week",
    "good night's sleep", "good night coach", "not a bad night", "7.5h of sleep", "slept 9 hours", "feeling strong", "grip was poor",
    "bad form on the last set", "short rest today", "trained at night, little space", "tired legs", "4 sets in an hour", "",
    "sleeping fine, thanks", "sleep wasn't bad", "hardly a challenge", "rest was less than planned",
)  # fmt: skip


@pytest.mark.parametrize("note", BAD)
def test_a_bad_night_is_heard(note: str) -> None:
    assert speaks_of_bad_sleep(note)


@pytest.mark.parametrize("note", FINE)
def test_a_good_night_and_other_words_are_not_taken_for_one(note: str) -> None:
    assert not speaks_of_bad_sleep(note)


@pytest.mark.parametrize(("hours", "bad"), [("5.5", True), ("6", False), ("5", True), ("7", False)])
def test_fewer_than_six_hours_are_a_short_night(hours: str, bad: bool) -> None:
    assert speaks_of_bad_sleep(f"{hours} hours of sleep") is bad
