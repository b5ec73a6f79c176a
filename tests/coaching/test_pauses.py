"""Pauses grow to their limit and stay there, however long the trouble lasts."""

from __future__ import annotations

from bot.coaching.pauses import growing_pause_s


def test_a_pause_doubles_up_to_its_limit() -> None:
    assert [growing_pause_s(failures, first_s=0.4, most_s=3) for failures in (1, 2, 3, 4, 5)] == [0.4, 0.8, 1.6, 3, 3]


def test_a_week_of_failures_is_waited_out() -> None:
    assert {growing_pause_s(failures, first_s=1.0, most_s=60.0) for failures in range(7, 12_000)} == {60.0}
