"""A member's text arrives: which deed is it?

The order is the safety order. Signs of an emergency come before everything. Then the words of an open button, then what a question of
ours is waiting for (a place, a kit). Then sets, which the member sends most; beside them or instead of them pain, a swap, a
change of days, a question. What nobody claims goes to the coach only when it asks something.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from bot.coaching import ask_coach, join, move_days, pain, replies, settings, show, swap
from bot.coaching.after_all import RESTS, read_after_all
from bot.coaching.completing import read_with_question
from bot.coaching.course import Course, bare_situation, course_of
from bot.coaching.illness import ILLNESS, with_illness
from bot.coaching.log_sets import CarryOut, LeaveIt, carry_out, point_to
from bot.coaching.scene import Choice, Scene, answer_by_words, close_questions
from bot.coaching.session_end import hear_effort
from bot.language import read
from bot.language.kit_words import read_kit
from bot.language.questions import read_questions
from bot.language.readings import Aside, AsideKind, Option, Reading, SetsHeard, Verdict
from bot.language.safety import Level, SafetyReading, read_safety
from bot.language.situation import Situation
from bot.training import people
from bot.training.blocks import SetPlace

# How sure a reader must be before its reading of a whole text is taken (our choice; each reader's figures are in its tests).
_SURE = 0.6
_WISHED = 0.8  # of a swap for sore muscles: the wish itself is said, beside the muscles
# The platform's longest text; what is longer never arrives in one piece.
_LONGEST = 4096


def hear(scene: Scene, member: people.Member, text: str) -> None:
    """Answer one text of one member. Keeps it as typed, whatever comes of it."""
    text = text[:_LONGEST]
    message = scene.uow.messages.add(
        people.Message(member_id=member.id, chat_id=scene.chat_id, message_id=scene.message_id, text=text, at=scene.now)
    )
    before = member.last_text
    member = scene.uow.members.save(replace(member, last_heard_at=scene.now, last_text=text, silence_told=False, reachable=True))
    member = replace(member, last_text=before)  # the reading wants the text before this one
    safety = read_safety(text)
    if safety.level is Level.EMERGENCY:
        _emergency(scene, member, message, safety)
        return
    safety = with_illness(safety, text)
    if member.state is people.MemberState.JOINING:
        if not (
            answer_by_words(scene, text)
            or _while_joining(scene, member, text)
            or _of_another_group(scene, member, message, text, safety)
        ):
            join.hear_step(scene, member, text)
        return
    if text.startswith("/"):
        command(scene, member, text)
        return
    if answer_by_words(scene, text):
        return
    if hear_effort(scene, text) or move_days.hear_when(scene, member, text):
        return
    if member.expecting and show.word_for(text) is None and settings.hear_expected(scene, member, text):
        return
    _understand(scene, member, message, text, safety)


# What somebody may ask for before the first questions are answered: what is kept of them, and the way out.
_ANY_TIME = ("mydata", "erase", "privacy", "leave")


def _while_joining(scene: Scene, member: people.Member, text: str) -> bool:
    """A command in the middle of the first questions. What needs a member who is through gets the open question again."""
    if not text.startswith("/"):
        return False
    name = _command_in(text)
    if name == "leave" and member.step == "consent":
        join.decline(scene, join.Decline())
    elif name in _ANY_TIME:
        show.COMMANDS[name](scene, member)
    else:
        join.ask_again(scene, member)
    return True


# Figures alone answer a question of joining: weights at home, an hour, a day.
_FIGURES_ALONE = re.compile(r"[\d\s.,:;h/-]+(?:am|pm|kg|lbs?)?", re.IGNORECASE)


def _of_another_group(scene: Scene, joining: people.Member, message: people.Message, text: str, safety: SafetyReading) -> bool:
    """Sets and pain told to the group that somebody trains with already, while the questions of a second one are open."""
    others = scene.uow.members.find(chat_id=scene.chat_id, state=people.MemberState.ACTIVE)
    member = others[-1] if others else None
    course = course_of(scene, member) if member else None
    if member is None or course is None:
        return False
    hurts = safety.level in (Level.PAIN, Level.SAME_DAY)
    answers = _FIGURES_ALONE.fullmatch(text) or (joining.step == "kit" and not read_kit(text, joining.unit).unread)
    reading = None if answers else read(text, course.situation(), course.catalogue)
    sets = reading is not None and reading.verdict is Verdict.RECORD
    if not (sets or hurts):
        return False
    message = scene.uow.messages.save(replace(message, member_id=member.id))
    if hurts:
        pain.mark_before(scene, course, safety)
    if sets and reading is not None:
        carry_out(scene, course, message, reading.heard, unread=reading.unread)
    if hurts:
        pain.hear(scene, member, message, safety)
    return True


def _command_in(text: str) -> str:
    return re.split(r"[\s@]", text[1:], maxsplit=1)[0].lower()


def command(scene: Scene, member: people.Member, text: str) -> None:
    name = _command_in(text)
    if name in show.COMMANDS:
        show.COMMANDS[name](scene, member)
    elif name in ("", "start"):
        show.help_shown(scene, member)
    else:
        show.no_such_command(scene, name)


def _emergency(scene: Scene, member: people.Member, message: people.Message, safety: SafetyReading) -> None:
    """First and only the advice to stop and call; sets that were plainly said beside it are kept without a word."""
    pain.emergency(scene, member, message, safety)
    course = course_of(scene, member)
    if course is None:
        return
    reading = read(message.text, course.situation(), course.catalogue)
    if reading.verdict is Verdict.RECORD:
        muted: Any = _Muted(scene.uow)
        quiet = replace(scene, uow=muted)
        carry_out(quiet, replace(course, scene=quiet), message, reading.heard)


class _Nowhere:
    def put(self, *_: object, **__: object) -> int:
        return 0


class _Muted:
    """A unit of work whose outbox swallows: for records that must be kept while only one thing may be said."""

    def __init__(self, uow: object) -> None:
        self._uow = uow
        self.outbox = _Nowhere()

    def __getattr__(self, name: str) -> object:
        return getattr(self._uow, name)


def _understand(scene: Scene, member: people.Member, message: people.Message, text: str, safety: SafetyReading) -> None:
    course = course_of(scene, member)
    situation = course.situation() if course else bare_situation(scene, member)
    catalogue = course.catalogue if course else scene.catalogue(member.group_id)
    word = show.word_for(text)
    if word is not None:
        word(scene, member)
        return
    if course is not None and ask_coach.wants_beat(scene, course, text):
        return
    named = re.fullmatch(r"\W*([a-z]\d)\W*", text, re.IGNORECASE) if "?" not in text else None
    if named and course is not None and point_to(scene, course, named[1].upper()):
        return
    if swap.hear_none(scene, text):
        return
    reading = (read_with_question(scene, course, text) if course else None) or read(text, situation, catalogue)
    reading = read_after_all(course, situation, text, reading) if course else reading
    scene.uow.messages.save(replace(message, certainty=reading.certainty))
    cared_for = safety.level in (Level.PAIN, Level.SAME_DAY, Level.CAUTION)
    sets = reading.verdict is Verdict.RECORD
    if not cared_for and ask_coach.hear_wish(scene, member, text, sets=sets) and not sets:
        return
    if reading.verdict is not Verdict.NOT_SETS and course is not None:
        hurts = safety.level in (Level.PAIN, Level.SAME_DAY)
        unsure = reading.verdict is Verdict.ASK and not hurts
        if unsure and _others_claim(scene, member, message, text, safety, situation, reading):
            return
        if hurts:
            pain.mark_before(scene, course, safety)
        sets_answered = _sets(scene, course, message, reading)
        _asides(scene, member, message, reading.asides, safety, situation, answered=sets_answered)
        return
    if not cared_for and ask_coach.hear_reply(scene, member, text):
        return
    if _others_claim(scene, member, message, text, safety, situation, reading):
        return
    if course is None and re.search(r"\d", text):
        show.no_block(scene, member)
        return
    if pain.hear_better(scene, member, text):
        return
    chat_only = all(aside.kind is AsideKind.CHAT for aside in reading.asides)
    if chat_only and ask_coach.is_small_talk(text):
        scene.say(replies.Acknowledged(ask_coach.small_talk_kind(text)))
    elif ask_coach.sounds_like_question(text):
        ask_coach.relay(scene, member, text)
    else:
        scene.say(
            replies.NotUnderstood(text[:200], in_session=bool(course and course.session)),
            Choice(ask_coach.SendToCoach(message.id)),
            code="not_understood",
            about=message.id,
        )


def _sets(scene: Scene, course: Course, message: people.Message, reading: Reading) -> bool:
    if reading.verdict is Verdict.RECORD:
        close_questions(scene, ("reading", "not_understood"))
        carry_out(scene, course, message, reading.heard, unread=reading.unread)
        return True
    question = reading.question
    if question is None:
        return False
    close_questions(scene, ("reading",))
    choices = [Choice(CarryOut(message.id, option.heard, option.habit), _words(option)) for option in question.options]
    choices.append(Choice(LeaveIt(), "No" if question.code == RESTS else "" if choices else "Never mind"))
    # Sets of the same text that were sure go on record at once; only the doubtful part is asked about.
    if reading.heard:
        carry_out(scene, course, message, reading.heard)
    code = (
        "surprise_first" if question.code == "surprise" and not _done_before(scene, course, question.options) else question.code
    )
    scene.say(replies.AskReading(code, question.about, message.text[:200]), *choices, row=1, code="reading", about=message.id)
    return True


def _done_before(scene: Scene, course: Course, options: tuple[Option, ...]) -> bool:
    """Has the member any set of these exercises on record, so that there is a usual?"""
    exercises = {one.exercise for option in options for part in option.heard if isinstance(part, SetsHeard) for one in part.sets}
    kept = scene.uow.records.find(member_id=course.member.id, active=True)
    return any(one.record.exercise in exercises for one in kept)


def _words(option: Option) -> str:
    return option.label[:60]


def _others_claim(
    scene: Scene,
    member: people.Member,
    message: people.Message,
    text: str,
    safety: SafetyReading,
    situation: Situation,
    reading: Reading,
) -> bool:
    """Let the readers of pain, swaps, days and questions look at the whole text, most careful first. True if one answered."""
    if safety.level in (Level.SAME_DAY, Level.PAIN, Level.CAUTION):
        pain.hear(scene, member, message, safety)
        # "Got the flu, move today to Friday": the wish about days is heard beside the caution.
        if safety.level is Level.CAUTION:
            heard = move_days.hear(scene, member, message, text, sure=_SURE)
            if safety.topic == ILLNESS and not heard:
                move_days.offer_rest(scene, member)
        return True
    if (
        move_days.hear_back(scene, member, text)
        or settings.hear_loss(scene, member, text)
        or swap.hear(scene, member, message, text, situation, sure=_WISHED if safety.level is Level.SORENESS else _SURE)
    ):
        return True
    if move_days.hear(scene, member, message, text, sure=_SURE):
        return True
    if settings.hear(scene, member, text):
        return True
    asked = read_questions(text, situation, scene.catalogue(member.group_id))
    if reading.verdict is Verdict.ASK:
        asked = tuple(one for one in asked if one.certainty >= 0.85)
    if asked:
        ask_coach.answer_questions(scene, member, asked, situation, text)
        return True
    if safety.level is Level.SORENESS:
        pain.soreness(scene, message, safety)
        return True
    return False


def _asides(
    scene: Scene,
    member: people.Member,
    message: people.Message,
    asides: tuple[Aside, ...],
    safety: SafetyReading,
    situation: Situation,
    *,
    answered: bool,
) -> None:
    """What was said beside sets: heard as well, each part by its own reader."""
    if safety.level in (Level.SAME_DAY, Level.PAIN, Level.CAUTION):
        pain.hear(scene, member, message, safety)
    for aside in asides:
        if aside.kind is AsideKind.SWAP:
            swap.hear(scene, member, message, aside.text, situation, sure=_SURE)
        elif aside.kind is AsideKind.DATE:
            move_days.hear(scene, member, message, aside.text, sure=_SURE)
        elif aside.kind is AsideKind.QUESTION:
            asked = read_questions(aside.text, situation, scene.catalogue(member.group_id))
            if asked:
                ask_coach.answer_questions(scene, member, asked, situation, aside.text)
            elif not swap.hear(scene, member, message, aside.text, situation, sure=_SURE):
                ask_coach.relay(scene, member, aside.text)


def hear_edit(scene: Scene, member: people.Member, text: str) -> None:
    """An earlier message was edited: its sets are read anew, as of the moment they were first sent, and superseded."""
    text = text[:_LONGEST]
    sources = scene.uow.messages.find(chat_id=scene.chat_id, message_id=scene.message_id)
    course = course_of(scene, member)
    if course is None or not sources or sources[-1].text == text:
        return
    if read_safety(text).level is not Level.NONE and read_safety(sources[-1].text).level is Level.NONE:
        hear(scene, member, text)
        return
    rows = [row for source in sources for row in scene.uow.records.find(message_id=source.id, active=True)]
    edited = scene.uow.messages.add(
        people.Message(
            member_id=member.id,
            chat_id=scene.chat_id,
            message_id=scene.message_id,
            text=text,
            at=scene.now,
            edit_of=sources[-1].id,
        )
    )
    if not rows:
        asked = [a for source in sources for a in scene.uow.asked.find(chat_id=scene.chat_id, open=True, message_id=source.id)]
        for question in asked:
            scene.uow.asked.save(replace(question, open=False))
        _understand(scene, member, edited, text, read_safety(text))
        return
    for row in rows:
        scene.uow.records.save(replace(row, active=False))
    reading, without = _read_as_of(scene, member, rows, text)
    if reading.verdict is Verdict.RECORD:
        carry_out(scene, without, edited, reading.heard, unread=reading.unread)
        return
    for row in rows:
        scene.uow.records.save(replace(row, active=True))
    if reading.verdict is Verdict.ASK and reading.question:
        _sets(scene, without, edited, replace(reading, heard=()))
    else:
        scene.say(replies.CoachSaysSentence("edit_kept", (text[:100],)))


def _read_as_of(scene: Scene, member: people.Member, rows: list[people.KeptRecord], text: str) -> tuple[Reading, Course]:
    """Read an edited text where its own sets are off again and the first of them is due."""
    course = course_of(scene, member)
    assert course is not None
    situation = course.situation()
    first = next((SetPlace(row.label, row.number) for row in rows if row.number), None)
    on = rows[0].on
    situation = replace(situation, due_override=first if on == situation.on else situation.due_override)
    return read(text, situation, course.catalogue), course
