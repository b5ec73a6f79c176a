"""Words that make something of the numbers: where nothing heard answers to them, the member is asked before anything counts."""

from __future__ import annotations

import pytest

from bot.language import Verdict, read
from bot.language.reading.account import unaccounted
from bot.language.readings import SetsHeard
from bot.training.blocks import SetPlace
from bot.training.loads import weight
from bot.training.records import SetDone, SetRecord
from tests.builders.situations import NOW, situation

_HEARD = (SetsHeard((SetRecord(SetDone(count=10, load=weight("20")), SetPlace("A1", 1), NOW.date()),)),)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("my cousin managed 20x10 in his garage", "my cousin"),
        ("they did 20x10", "they did"),
        ("sorry first lot was 10 with 20", "sorry first lot was"),
        ("the first was 10, not 9", "not 9"),
        ("20x10, a typo", "typo"),
        ("20x10 for 30 quid", "quid"),
        ("9 on one leg, 8 on the other", "on one leg, 8 on the other"),
        ("20x10 not sure that one went through", "went through"),
        ("20x10 (came through twice)", "came through twice"),
        ("squats from tuesday 20x10", "from tuesday"),
        ("20x10 done on friday", "done on friday"),
        ("aim is 20x10", "aim"),
        ("20x10, wish me luck", "wish me luck"),
        ("20x10 but no time for the others", "no time"),
        ("20x10, leaving the last one", "leaving the last one"),
        ("20x10 both sets", "both sets"),
        ("20x10 just as written", "just as written"),
    ],
)
def test_a_weighty_word_that_nothing_answers_to_is_found(text: str, words: str) -> None:
    assert unaccounted(text, _HEARD, (), situation("new")) == words


@pytest.mark.parametrize(
    "text",
    [
        "20x10",
        "20x10, my brother said hi",
        "20x10 with my mate's dumbbell",
        "2 more than on friday, 20x10",
        "20x10 today, friday is busy",
        "was aiming for 12, got 10 with 20",
        "20x10, could have done one more, maybe two",
        "20x10 but skipped lunch",
        "20x10 form went on the last two",
        "20x10, shoulder clicked twice",
        "20x10 not bad",
        "20x10 instead of 12",
        "20x10, not the 12 i wanted",
    ],
)
def test_words_that_change_nothing_are_no_reason_to_ask(text: str) -> None:
    assert unaccounted(text, _HEARD, (), situation("new")) == ""


def test_what_is_left_unanswered_is_asked_with_the_reading_as_its_answer() -> None:
    reading = read("20x12 came through twice", situation("new"))

    assert reading.verdict is Verdict.ASK
    assert not reading.heard
    assert reading.question is not None
    assert [len(heard.sets) for option in reading.question.options for heard in option.heard if isinstance(heard, SetsHeard)] == [
        1
    ]
