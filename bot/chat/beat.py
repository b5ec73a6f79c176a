"""How does a tempo sound? A short voice message that counts the phases of one set, with a count-in.

A low tone opens the lowering, a high one the lifting, a middle one each pause; within a phase every second ticks softly. X is a lift as
fast as possible: one second in which only its own tone sounds. Written as OGG Opus, the platform's voice format.
"""

from __future__ import annotations

import io
from typing import Any

from bot.training.exercises.entry import FirstPhase
from bot.training.tempo import EXPLOSIVE_S, Tempo

RATE = 24_000  # one of the rates Opus takes
_TONES = {"lowering": 440.0, "stretched": 587.0, "lifting": 880.0, "squeezed": 659.0, "count": 330.0, "tick": 1200.0}
_MOST_S = 240


def phases_of(tempo: Tempo, first: FirstPhase) -> tuple[tuple[str, int], ...]:
    """The phases of one rep with their seconds, in the order in which they are done; those of no length are left out."""
    lifting = EXPLOSIVE_S if tempo.concentric_s is None else tempo.concentric_s
    down = (("lowering", tempo.eccentric_s), ("stretched", tempo.stretched_s))
    up = (("lifting", lifting), ("squeezed", tempo.squeezed_s))
    order = (*up, *down) if first is FirstPhase.CONCENTRIC else (*down, *up)
    return tuple((name, seconds) for name, seconds in order if seconds > 0)


def beat(tempo: Tempo, reps: int, first: FirstPhase, *, count_in: int = 3) -> bytes:
    """The beat of one set as OGG Opus: count_in seconds, then reps times the phases. At most four minutes are written."""
    import numpy as np
    import soundfile

    plan: list[tuple[str, int]] = [("count", 1)] * count_in
    for _ in range(reps):
        plan += phases_of(tempo, first)
    sound = np.zeros(0, dtype=np.float32)
    parts = [_phase(np, name, seconds) for name, seconds in plan]
    sound = np.concatenate(parts)[: _MOST_S * RATE] if parts else sound
    out = io.BytesIO()
    soundfile.write(out, sound, RATE, format="OGG", subtype="OPUS")
    return out.getvalue()


def _phase(np: Any, name: str, seconds: int) -> Any:
    """One phase: its tone at the start, a soft tick at each further second."""
    sound = np.zeros(seconds * RATE, dtype=np.float32)
    for second in range(seconds):
        tone = _tone(np, _TONES[name], 0.22, 0.5) if second == 0 else _tone(np, _TONES["tick"], 0.04, 0.15)
        start = second * RATE
        sound[start : start + len(tone)] += tone
    return sound


def _tone(np: Any, hertz: float, seconds: float, loudness: float) -> Any:
    at = np.arange(int(seconds * RATE), dtype=np.float32) / RATE
    fade = np.minimum(1.0, np.minimum(at, seconds - at) / 0.01)  # ten milliseconds, so that it does not click
    return (loudness * fade * np.sin(2 * np.pi * hertz * at)).astype(np.float32)
