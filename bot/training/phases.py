"""What does a tempo ask for in this exercise: phase by phase, in the order in which a rep is done?

The fields are always lowering, stretch, lifting, squeeze. A pull-up, a deadlift, a row begin with the way up, so their first rep is
lifting, squeeze, lowering, stretch:

    explain_tempo(3-1-X-0, goblet squat) -> lower 3 s, hold at the bottom 1 s, up as fast as you can
    explain_tempo(3-1-X-0, pull-up)      -> up as fast as you can, lower 3 s, hang 1 s
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from bot.training.exercises.entry import Exercise, FirstPhase, Pattern
from bot.training.tempo import EXPLOSIVE_S, Tempo


class Phase(StrEnum):
    LOWERING = "lowering"
    STRETCHED = "stretched"
    LIFTING = "lifting"
    SQUEEZED = "squeezed"


@dataclass(frozen=True, slots=True)
class PhaseWords:
    """One phase of a rep: its seconds (None: X, as fast as possible) and what to do in this exercise."""

    phase: Phase
    seconds: int | None
    words: str


# What each phase is called where "down" and "up" would be wrong or vague: (lowering, stretched, lifting, squeezed).
_PULL = ("let your arms straighten", "hold with arms long", "pull", "hold with elbows pulled back")
_WORDS: dict[Pattern, tuple[str, str, str, str]] = {
    Pattern.SQUAT: ("go down", "hold at the bottom", "stand up", "hold at the top"),
    Pattern.LUNGE: ("go down", "hold at the bottom", "stand up", "hold at the top"),
    Pattern.HINGE: ("lower, hips back", "hold at the bottom", "stand up", "squeeze standing"),
    Pattern.BRIDGE: ("lower the hips", "hold at the bottom", "drive the hips up", "squeeze at the top"),
    Pattern.HORIZONTAL_PUSH: ("lower", "hold at the bottom", "press", "hold with arms straight"),
    Pattern.VERTICAL_PUSH: ("lower", "hold at the bottom", "press up", "hold overhead"),
    Pattern.HORIZONTAL_PULL: _PULL,
    Pattern.VERTICAL_PULL: ("lower yourself", "hang with arms long", "pull up", "hold at the top"),
    Pattern.ELBOW_FLEXION: ("lower", "hold with arms long", "curl up", "squeeze at the top"),
    Pattern.ELBOW_EXTENSION: ("let the elbows bend", "hold at the stretch", "straighten the arms", "squeeze with arms straight"),
    Pattern.SHOULDER_RAISE: ("lower", "hold at the bottom", "raise", "hold at the top"),
    Pattern.REAR_SHOULDER: ("let the arms come back", "hold at the stretch", "open the arms", "squeeze"),
    Pattern.CHEST_FLY: ("open the arms", "hold at the stretch", "close the arms", "squeeze"),
    Pattern.SHRUG: ("lower the shoulders", "hold low", "shrug up", "hold high"),
    Pattern.PULLOVER: ("reach back", "hold at the stretch", "pull over", "squeeze"),
    Pattern.KNEE_FLEXION: ("straighten the legs", "hold at the stretch", "curl the heels in", "squeeze"),
    Pattern.KNEE_EXTENSION: ("bend the knees", "hold at the stretch", "straighten the knees", "squeeze"),
    Pattern.CALF: ("lower the heels", "hold at the stretch", "rise on your toes", "hold at the top"),
    Pattern.SHIN: ("let the toes down", "hold low", "pull the toes up", "hold high"),
    Pattern.HIP_ABDUCTION: ("let the leg come back", "hold", "lift the leg out", "hold out"),
    Pattern.TRUNK_FLEXION: ("lower", "hold at the stretch", "curl up", "squeeze"),
    Pattern.TRUNK_EXTENSION: ("lower", "hold at the stretch", "raise", "squeeze at the top"),
}
_PLAIN = ("lower", "hold at the stretch", "lift", "squeeze")
_LAT_PULLDOWN = ("let the bar up", "hold with arms long", "pull down", "hold at the chest")
# Vertical pulls that bring the load down to a body which stays: their "lifting" goes down.
_PULLED_DOWN = ("pulldown", "pull down", "pull-down")


def explain_tempo(tempo: Tempo, exercise: Exercise | None) -> tuple[PhaseWords, ...]:
    """The phases in the order of a rep; those of 0 seconds are left out, the two movements never.

    exercise None: plain words, lowering first.
    """
    words = _words_for(exercise)
    down = PhaseWords(Phase.LOWERING, tempo.eccentric_s, words[0])
    stretch = PhaseWords(Phase.STRETCHED, tempo.stretched_s, words[1])
    up = PhaseWords(Phase.LIFTING, tempo.concentric_s, words[2])
    squeeze = PhaseWords(Phase.SQUEEZED, tempo.squeezed_s, words[3])
    order = (up, squeeze, down, stretch) if begins_with_way_up(exercise) else (down, stretch, up, squeeze)
    moving = (Phase.LOWERING, Phase.LIFTING)
    return tuple(phase for phase in order if phase.seconds != 0 or phase.phase in moving)


def begins_with_way_up(exercise: Exercise | None) -> bool:
    return exercise is not None and exercise.first_phase is FirstPhase.CONCENTRIC


def say_phase(phase: PhaseWords) -> str:
    """ "go down 3 s", "stand up as fast as you can", "lower without a count"."""
    if phase.seconds is None:
        return f"{phase.words} as fast as you can"
    if phase.seconds == 0:
        return f"{phase.words} without a count, under control"
    return f"{phase.words} {phase.seconds} s"


def seconds_of(phase: PhaseWords) -> int:
    """For adding up and for the beat: X counts as one second."""
    return EXPLOSIVE_S if phase.seconds is None else phase.seconds


def _words_for(exercise: Exercise | None) -> tuple[str, str, str, str]:
    if exercise is None:
        return _PLAIN
    if any(word in exercise.name.lower() for word in _PULLED_DOWN):
        return _LAT_PULLDOWN
    return _WORDS.get(exercise.pattern, _PLAIN)
