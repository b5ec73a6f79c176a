"""From words to meaning. Pure functions from a text and a situation to a reading."""

from bot.language.reading.door import read
from bot.language.readings import Reading, Verdict
from bot.language.situation import Habits, Situation

__all__ = ["Habits", "Reading", "Situation", "Verdict", "read"]
