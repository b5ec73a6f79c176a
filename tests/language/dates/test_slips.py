"""Misspelt date words are put right; words that only lie near are left alone."""

import pytest

from bot.language.dates.slips import mend_slips


@pytest.mark.parametrize(
    ("slipped", "meant"),
    [
        ("wedneday", "wednesday"),
        ("wendsday", "wednesday"),
        ("thurday", "thursday"),
        ("thirsday", "thursday"),
        ("saterday", "saturday"),
        ("satudray", "saturday"),
        ("fryday", "friday"),
        ("firday", "friday"),
        ("sundys", "sundays"),
        ("moday", "monday"),
        ("tusday", "tuesday"),
        ("tommorow", "tomorrow"),
        ("yesteday", "yesterday"),
        ("febuary", "february"),
        ("septmber", "september"),
        ("octobre", "october"),
        ("apirl", "april"),
        ("weeknd", "weekend"),
        ("fornight", "fortnight"),
    ],
)
def test_a_slipped_date_word_is_put_right(slipped: str, meant: str) -> None:
    assert mend_slips(f"move it to {slipped} please") == f"move it to {meant} please"


@pytest.mark.parametrize(
    "word",
    ["sundry", "sundae", "sturdy", "mandy", "sunny", "midday", "holiday", "birthday", "payday", "remember", "member", "match", "marching", "today",
     "monday", "sundays", "thirsty", "mundane", "weakened", "friend", "someday", "disgust", "thursday", "augusta"],
)  # fmt: skip
def test_a_word_that_only_lies_near_is_left_alone(word: str) -> None:
    assert mend_slips(f"a {word} it was") == f"a {word} it was"
