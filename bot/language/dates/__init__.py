"""Wishes about days, reminders and places in words: `read_plan_words` gives the deed with concrete dates, or the one question."""

from bot.language.dates.desk import PlanOption, PlanQuestion, PlanReading
from bot.language.dates.moments import read_date
from bot.language.dates.times import read_time_of_day
from bot.language.dates.wishes import question_about, read_plan_words

__all__ = ["PlanOption", "PlanQuestion", "PlanReading", "question_about", "read_date", "read_plan_words", "read_time_of_day"]
