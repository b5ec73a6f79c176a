"""A typed answer to a question about a set: "20" after "with which load?" completes what was said before."""

from __future__ import annotations

from bot.coaching.course import Course
from bot.coaching.scene import Scene, is_very_next
from bot.language import read
from bot.language.reading.completion import completed
from bot.language.readings import Reading, Verdict


def read_with_question(scene: Scene, course: Course, text: str) -> Reading | None:
    """The reading of the text together with the one that was asked about; None if it does not complete that one."""
    asked = scene.uow.asked.newest(chat_id=scene.chat_id, open=True)
    if asked is None or asked.code != "reading" or asked.message_id is None or not is_very_next(scene, asked):
        return None
    before = scene.uow.messages.get(asked.message_id)
    if before is None:
        return None
    situation = course.situation()
    question = read(before.text, situation, course.catalogue).question
    whole = completed(before.text, question.code, text) if question is not None else None
    if whole is None:
        return None
    reading = read(whole, situation, course.catalogue)
    return reading if reading.verdict is Verdict.RECORD else None
