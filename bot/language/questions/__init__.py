"""Questions that members ask in the middle of a workout."""

from bot.language.questions.asked import Asked, Topic
from bot.language.questions.reading import is_plainly_asked, read_questions

__all__ = ["Asked", "Topic", "is_plainly_asked", "read_questions"]
