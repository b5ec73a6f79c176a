"""A session ends: by its last set or the member's word; how hard it was, and what is still in doubt.

last set, "done", "finish" -> closed, with what was left out; asked how hard it was; a doubt that was passed over is put once more
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from decimal import Decimal
from typing import Any

from bot.coaching import replies
from bot.coaching.course import Course
from bot.coaching.scene import Choice, Scene, close_questions, deed, unpack
from bot.language.readings import FinishHeard, SetsHeard
from bot.training import people
from bot.training.blocks import SetPlace, order_of
from bot.training.records import SetRecord

# A session's effort is put right by a bare number for so long (our choice).
_EFFORT_WITHIN = timedelta(hours=2)


@dataclass(frozen=True, slots=True)
class NoteEffort:
    session: int
    effort: Decimal


def finish(scene: Scene, course: Course) -> None:
    """The member says that the session is over."""
    close_session(scene, course, FinishHeard())


def close_session(scene: Scene, course: Course, heard: FinishHeard) -> None:
    """Close the session; ask how hard it was, unless that was said."""
    session = course.session
    if session is None or not course.today_records:
        if not _ask_again(scene):
            scene.say(replies.NothingDoneYet())
        return
    scene.uow.due.cancel("rest_over", str(course.member.id))
    first = min(kept.said_at for kept in course.today_records)
    minutes = heard.minutes or round((scene.now - first).total_seconds() / 60) or None
    effort = Decimal(str(heard.effort)) if heard.effort is not None else session.effort
    ended = replace(session, state=people.SessionState.DONE, ended_at=scene.now, minutes=minutes, effort=effort)
    scene.uow.sessions.save(ended)
    planned = len(order_of(course.day)) if course.day else 0
    done = sum(1 for kept in course.today_records if kept.number)
    touched = {kept.label for kept in course.today_records}
    left_out = tuple(slot.label for slot in course.day.slots if slot.label not in touched) if course.day else ()
    said = replies.SessionFinished(done, planned, minutes, left_out, effort)
    if effort is None:
        scene.say(said, *(Choice(NoteEffort(session.id, Decimal(n)), str(n)) for n in range(1, 11)), row=5, code="effort")
    else:
        scene.say(said)
    _ask_again(scene)


# A doubt about a set is put once more at the session's end if it is no older than this (our choice).
_DOUBT_LIVES = timedelta(hours=8)


def _ask_again(scene: Scene) -> bool:
    """Put the newest doubt that was passed over once more, so that no set stays off the record by being forgotten.

    One whose sets have been told in other words since is settled.
    """
    asked = scene.uow.asked.newest(chat_id=scene.chat_id, code="reading")
    message = scene.uow.messages.get(asked.message_id) if asked and asked.message_id is not None else None
    if asked is None or message is None or asked.chosen is not None or scene.now - asked.asked_at > _DOUBT_LIVES:
        return False
    if scene.uow.asked.count(chat_id=scene.chat_id, code="reading", message_id=asked.message_id) > 1:
        return False  # put once more already
    deeds = [unpack(data) for _, data in asked.answers]
    places = {(one.on, one.place) for one in _sets_in(deeds) if one.place is not None}
    kept = scene.uow.records.find(member_id=message.member_id, active=True)
    on_record = {(one.on, SetPlace(one.label, one.number)) for one in kept}
    if not places or places & on_record:
        return False
    close_questions(scene, ("reading",))
    choices = [Choice(deed, words) for deed, (words, _) in zip(deeds, asked.answers, strict=True)]
    said = replies.AskReading("still_open", message.text[:80], message.text[:200])
    scene.say(said, *choices, row=1, code="reading", about=message.id)
    return True


def _sets_in(deeds: Sequence[Any]) -> list[SetRecord]:
    """All sets that the offered readings would record."""
    heard = [part for one in deeds for part in getattr(one, "heard", ())]
    return [record for part in heard if isinstance(part, SetsHeard) for record in part.sets]


@deed(NoteEffort)
def note_effort(scene: Scene, wish: NoteEffort) -> None:
    session = scene.uow.sessions.get(wish.session)
    if session:
        scene.uow.sessions.save(replace(session, effort=wish.effort))
        scene.say(replies.EffortNoted(wish.effort))


_ANOTHER_EFFORT = re.compile(
    r"\W*(?:actually|no|nah|sorry|oops|rather|make (?:it|that)|i meant?|more like|it was)\W+(?:(?:more like|rather|a|an|it was|make it)\W+)*"
    r"(?P<effort>10|[1-9](?:[.,]5)?)(?:\s*(?:/|of|out of)\s*10)?\W*",
    re.IGNORECASE,
)


def hear_effort(scene: Scene, text: str) -> bool:
    """ "actually 8", right after the session's effort was said: the effort is corrected, no set."""
    found = _ANOTHER_EFFORT.fullmatch(text)
    asked = scene.uow.asked.newest(chat_id=scene.chat_id)
    if found is None or asked is None or asked.code != "effort" or asked.chosen is None:
        return False
    since = scene.uow.messages.count(chat_id=scene.chat_id, id=(asked.after + 1, 2**62))
    if since > 2 or scene.now - asked.asked_at > _EFFORT_WITHIN:  # the number itself, and this one
        return False
    note_effort(scene, NoteEffort(unpack(asked.answers[0][1]).session, Decimal(found["effort"].replace(",", "."))))
    return True
