"""The platform's limits, as moments. Source of the figures: Bots FAQ (30 a second over all, 1 a chat, 20 a minute a group)."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.clock.pace import Limits, Pace

START = 1_000_000.0


def played(wishes: list[tuple[int, bool]], limits: Limits | None = None) -> list[tuple[float, int, bool]]:
    """Start each wish (chat, is answer) as early as it may, one after the other; returns what started when."""
    pace, now, starts = Pace(limits), START, []
    for chat_id, is_answer in wishes:
        now = max(now, pace.chat_free_at(chat_id, now), pace.all_free_at(is_answer=is_answer))
        pace.started(chat_id, now, is_answer=is_answer)
        starts.append((now, chat_id, is_answer))
    return starts


def most_within(moments: list[float], seconds: float) -> int:
    return max((sum(first <= other < first + seconds - 1e-6 for other in moments) for first in moments), default=0)


def test_over_all_they_are_strictly_spaced_and_saved_time_is_not_spent() -> None:
    pace = Pace()
    pace.started(1, START, is_answer=True)
    later = START + 100.0
    pace.started(2, later, is_answer=True)

    assert pace.all_free_at(is_answer=True) == later + 1 / 30


def test_thirty_a_second_and_not_one_more() -> None:
    moments = [at for at, _, _ in played([(chat, True) for chat in range(1, 200)])]

    assert most_within(moments, 1.0) == 30


def test_a_share_is_kept_for_answers() -> None:
    """A broadcast takes 24 of the 30; an answer in its midst starts within one space of the limit over all."""
    pace = Pace()
    pace.started(1, START, is_answer=False)

    assert pace.all_free_at(is_answer=True) == START + 1 / 30
    assert pace.all_free_at(is_answer=False) == START + 1 / 24
    moments = [at for at, _, _ in played([(chat, False) for chat in range(1, 200)])]
    assert most_within(moments, 1.0) == 24


def test_a_person_gets_three_at_once_and_then_one_a_second() -> None:
    starts = [round(at - START, 2) for at, _, _ in played([(7, True)] * 6)]

    assert starts == [0.0, 0.03, 0.07, 1.0, 2.0, 3.0]


def test_a_quiet_person_has_three_in_hand_again() -> None:
    pace = Pace()
    for at in (START, START + 0.1, START + 0.2):
        pace.started(7, at, is_answer=True)

    assert pace.chat_free_at(7, START + 0.3) == START + 1.0
    assert pace.chat_free_at(7, START + 3.0) <= START + 3.0
    pace.started(7, START + 3.0, is_answer=True)
    pace.started(7, START + 3.1, is_answer=True)
    assert pace.chat_free_at(7, START + 3.2) <= START + 3.2


def test_a_group_gets_twenty_a_minute() -> None:
    moments = [at for at, _, _ in played([(-5, False)] * 65)]

    assert most_within(moments, 60.0) == 20


def test_a_pause_holds_the_chat_and_no_other() -> None:
    pace = Pace()
    pace.pause_chat(7, START + 30)

    assert pace.chat_free_at(7, START) == START + 30
    assert pace.chat_free_at(8, START) <= START
    pace.pause_chat(7, START + 10)
    assert pace.chat_free_at(7, START) == START + 30
    pace.pause_all(START + 5)
    assert pace.all_free_at(is_answer=True) == START + 5


def test_a_clock_that_is_set_back_does_not_stop_the_sender() -> None:
    pace = Pace()
    pace.started(7, START, is_answer=True)
    back = START - 3_600

    assert pace.chat_free_at(7, back) <= back
    assert pace.all_free_at(is_answer=True) <= back


def test_quiet_chats_are_forgotten() -> None:
    pace = Pace()
    for number in range(5_000):
        pace.started(number + 1, START + number, is_answer=True)

    assert len(pace._chats) <= 1_200


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.sampled_from([1, 2, 3, -4, -5]), st.booleans()), max_size=120))
def test_no_limit_is_ever_passed(wishes: list[tuple[int, bool]]) -> None:
    starts = played(wishes)

    assert most_within([at for at, _, _ in starts], 1.0) <= 30
    for chat_id in {chat for _, chat, _ in starts}:
        own = [at for at, chat, _ in starts if chat == chat_id]
        assert most_within(own, 10.0) <= 12  # one a second, and three in hand at the start
        if chat_id < 0:
            assert most_within(own, 60.0) <= 20
