"""What was asked? The values of a read question."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from bot.training.blocks import ExerciseId
from bot.training.tempo import Tempo


class Topic(StrEnum):
    TEMPO = "tempo"
    TERM = "term"
    NEXT = "next"  # which set or exercise comes now
    WHY_ALTERNATE = "why_alternate"
    REST = "rest"
    TARGET = "target"  # what is prescribed for a slot: reps, sets, sides, effort
    START_WEIGHT = "start_weight"
    GO_UP = "go_up"
    BLOCK_LENGTH = "block_length"
    DURATION = "duration"  # how long a session takes
    MISSED = "missed"
    SETS_LEFT = "sets_left"
    LAST_TIME = "last_time"
    BEST = "best"
    TODAY = "today"
    NEXT_SESSION = "next_session"
    HOW_TO = "how_to"
    ABOUT_ME = "about_me"
    HELP = "help"
    FOR_COACH = "for_coach"


@dataclass(frozen=True, slots=True)
class Asked:
    """One question.

    label: the slot it is about, "" if none was named. exercise: the one named (catalogue id), else the slot's. tempo: one that
    stands in the text. term: id of a word of the trade. weekday: 0 to 6 where a day was named; "tomorrow" is days_ahead 1.
    text: the member's words. certainty: 0 to 1.
    """

    topic: Topic
    text: str
    certainty: float
    label: str = ""
    exercise: ExerciseId | None = None
    exercise_words: str = ""
    tempo: Tempo | None = None
    term: str = ""
    weekday: int | None = None
    days_ahead: int | None = None
