"""Where does one field of a line end, by the kinds of the figures around a mark?"""

from __future__ import annotations

import pytest

from bot.language.blocks.parted import parted


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        pytest.param("rest 120 sec - 2 reps in reserve", "rest 120 sec | 2 reps in reserve", id="time and reserve"),
        pytest.param("rest 60 - 90 sec", "rest 60 - 90 sec", id="one range of times"),
        pytest.param("RPE 8 - 90 s", "RPE 8 | 90 s", id="effort and time"),
        pytest.param("RPE 7 - 8", "RPE 7 - 8", id="one range of efforts"),
        pytest.param("4 x 40 m, 60 secs", "4 x 40 m| 60 secs", id="metres and time"),
        pytest.param("3 x 8 - 10 - 75 s", "3 x 8 - 10 | 75 s", id="a range, then the rest"),
        pytest.param("3 x 30 - 45 s", "3 x 30 - 45 s", id="a range of holds"),
        pytest.param("3 x 10 - 60 s", "3 x 10 | 60 s", id="too far apart for a range"),
        pytest.param("3 x 30 secs, 45 secs", "3 x 30 secs| 45 secs", id="two figures for three sets"),
        pytest.param("3x30s, 40s, 50s", "3x30s, 40s, 50s", id="a figure a set"),
        pytest.param("2 x 30, 45 s", "2 x 30, 45 s", id="one number a set"),
        pytest.param("10 reps, 3 sets", "10 reps, 3 sets", id="reps before sets"),
    ],
)
def test_amounts_of_different_kinds_are_two_fields(text: str, expected: str) -> None:
    assert parted(text) == expected
