"""Several answers in one message, each said by its own words."""

from __future__ import annotations

from bot.chat.wording import says
from bot.chat.wording.answers import say_answer
from bot.coaching import replies
from bot.coaching.answers import ANSWERS
from bot.training.plain import from_plain


@says(replies.Answered)
def answered(reply: replies.Answered) -> str:
    return "\n\n".join(say_answer(from_plain(data, ANSWERS[data["_"]])) for data in reply.answers)
