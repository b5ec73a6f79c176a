"""What should a member do next week in one slot, and why? The public door: `suggest(SlotCase(...)) -> Suggestion`."""

from bot.training.progression.engine import AWAY_DAYS, suggest
from bot.training.progression.reasons import reason_sentence
from bot.training.progression.sentences import question_sentence, target_words
from bot.training.progression.values import (
    CoachNote,
    CoachTarget,
    Kind,
    NoteCode,
    Reason,
    SetAim,
    SetForecast,
    SlotCase,
    Suggestion,
    WeekOfRecords,
    Why,
    week_of,
)

__all__ = [
    "AWAY_DAYS",
    "CoachNote",
    "CoachTarget",
    "Kind",
    "NoteCode",
    "Reason",
    "SetAim",
    "SetForecast",
    "SlotCase",
    "Suggestion",
    "WeekOfRecords",
    "Why",
    "question_sentence",
    "reason_sentence",
    "suggest",
    "target_words",
    "week_of",
]
