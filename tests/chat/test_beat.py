"""The tempo as sound: as long as the set, in the order of the lift, in the platform's voice format."""

from __future__ import annotations

import io

import pytest
import soundfile

from bot.chat.beat import beat, phases_of
from bot.training.exercises.entry import FirstPhase
from bot.training.tempo import Tempo, time_under_tension_s

T3110 = Tempo(3, 1, 1, 0)


def test_a_squat_begins_on_the_way_down_and_a_pull_up_on_the_way_up() -> None:
    assert phases_of(T3110, FirstPhase.ECCENTRIC) == (("lowering", 3), ("stretched", 1), ("lifting", 1))
    assert phases_of(T3110, FirstPhase.CONCENTRIC) == (("lifting", 1), ("lowering", 3), ("stretched", 1))


def test_as_fast_as_possible_takes_a_second_of_its_own() -> None:
    assert phases_of(Tempo(2, 0, None, 1), FirstPhase.ECCENTRIC) == (("lowering", 2), ("lifting", 1), ("squeezed", 1))


@pytest.mark.parametrize(("tempo", "reps"), [(T3110, 5), (Tempo(4, 0, 2, 0), 3), (Tempo(2, 0, None, 0), 8)])
def test_the_beat_lasts_as_long_as_the_set_and_its_count_in(tempo: Tempo, reps: int) -> None:
    """Decoded by an independent library; the length is time under tension (reps times the sum of the fields) and three seconds."""
    content = beat(tempo, reps, FirstPhase.ECCENTRIC)

    info = soundfile.info(io.BytesIO(content))

    assert content[:4] == b"OggS"
    assert (info.format, info.subtype) == ("OGG", "OPUS")
    assert info.duration == pytest.approx(3 + time_under_tension_s(tempo, reps), abs=0.05)
