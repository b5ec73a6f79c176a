"""Questions: answered from the block and the member's own numbers where that can be done, brought to the coach where it cannot."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from bot.coaching import replies
from bot.coaching.answers import HowToSaid, answer
from bot.coaching.course import Course, course_of
from bot.coaching.demos import file_of
from bot.coaching.facts import facts_for
from bot.coaching.log_sets import member_here
from bot.coaching.scene import Choice, Scene, deed
from bot.language.alike import SURELY_ALIKE, best_match
from bot.language.questions import Asked, Topic
from bot.language.situation import Situation
from bot.training import people
from bot.training.blocks import work_sets
from bot.training.exercises.entry import FirstPhase
from bot.training.plain import to_plain

_SMALL_TALK = re.compile(
    r"^(?:\W*(?:hi|hello|hey|thanks?|thank you|thx|ty|ok(?:ay)?|cool|great|nice|good (?:morning|evening|night|afternoon)|"
    r"perfect|awesome|lol|haha+|yes|yep|yeah|no|nope|cheers|merci|danke|gracias|done|will do|got it|sounds good|see you|bye|"
    r"love it|phew|ouf|wow|finally|let'?s go|so|much|very|all|coach|bot|a lot|later|not (?:now|yet)|in a bit|snooze|"
    r"that was (?:hard|brutal|tough|fun|easy|great)|(?:sorry|apologies|oops|my bad)(?: (?:for|about) (?:the|that|my))? (?:double|duplicate|extra) (?:texts?|messages?|posts?)|sorry|my bad)\b\W*)+$|^\W*$",
    re.IGNORECASE,
)
_QUESTION = re.compile(
    r"\?|^\s*(?:who|what|when|where|why|how|which|can|could|should|shall|is|are|do|does|did|may|will|would|am i)\b", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class SendToCoach:
    """Bring this message of the member's to the coach."""

    message: int


@dataclass(frozen=True, slots=True)
class AskAnyway:
    """The kept answer was to another question: bring this message to the coach after all."""

    message: int


@dataclass(frozen=True, slots=True)
class PassOn:
    """Bring this picture, video or voice to the coach. kind and id: the platform's."""

    kind: str
    file_id: str


@dataclass(frozen=True, slots=True)
class KeepAnswer:
    relay: int


# What is answered from today's targets.
_NEEDS_AIMS = (Topic.NEXT, Topic.START_WEIGHT)


# How somebody is, in a few words and without a wish: kind -> the words. What is more than a mood is heard before (safety, swaps, days).
_MOODS: tuple[tuple[str, re.Pattern[str]], ...] = tuple(
    (
        kind,
        re.compile(
            rf"\W*(?:(?:i'?m|i am|i feel|im|feeling|feel|so|just|really|very|a bit|today|that was|it was|what a|you are|you'?re)\W+)*(?:{words})(?:\W+(?:today|now|session|workout|one|this|it|you|so much|already|coach|bot))*\W*",
            re.IGNORECASE,
        ),
    )
    for kind, words in (
        (
            "low",
            r"tired|exhausted|knackered|wiped(?: out)?|shattered|sleepy|not in the mood|unmotivated|lazy|bored|boring|stressed|no energy",
        ),
        (
            "glad",
            r"great|strong|awesome|amazing|fantastic|proud|happy|motivated|pumped|on fire|the best|love(?: it)?|i love|good|well done|brilliant|perfect",
        ),
        ("cross", r"fuck|shit|damn|screw|stupid|useless|annoying|hate|i hate|dumb|rubbish|terrible|awful"),
    )
)


# What a face alone tells.
_FACES = (("unwell", "🤢🤮🤒🤕🥴😵🤧"), ("low", "😭😢😞😔😩😫😖😣😓🥵😴🥱💀😪😥😰☹🙁"), ("cross", "😡😠🤬👎"))


def is_small_talk(text: str) -> bool:
    return bool(_SMALL_TALK.match(text)) or _mood(text) != ""


def _mood(text: str) -> str:
    if not re.search(r"\w", text):
        return next((kind for kind, faces in _FACES if any(face in text for face in faces)), "")
    return next((kind for kind, words in _MOODS if len(text) <= 60 and words.fullmatch(text)), "")


def small_talk_kind(text: str) -> str:
    """ "thanks", "greeting", a mood ("low", "glad", "cross") or ""."""
    if re.search(r"\b(?:thanks?|thx|ty|cheers|merci|danke|gracias)\b", text, re.IGNORECASE):
        return "thanks"
    if re.match(r"\W*(?:hi|hello|hey|good (?:morning|evening|afternoon))\b", text, re.IGNORECASE):
        return "greeting"
    return _mood(text) if not (re.search(r"\w", text) and _SMALL_TALK.match(text)) else ""


def sounds_like_question(text: str) -> bool:
    return bool(_QUESTION.search(text))


_TO_COACH = (
    r"\W*(?:(?:please|pls|can you|could you|i want to|i need to) )*(?:"
    r"(?:tell|ask|inform|message|text|write|write to|talk to|speak to) (?:my |the )?(?:coach|trainer|{name})\b|"
    r"let (?:my |the )?(?:coach|trainer|{name}) know\b|"
    r"(?:a )?(?:message|question|note|word) (?:for|to) (?:my |the )?(?:coach|trainer|{name})\b)"
)
_TO_COACH_BY_NAME = r"\W*(?:(?:hey |hi |dear )?coach|{name})(?:\s*:|, )"


def hear_wish(scene: Scene, member: people.Member, text: str, *, sets: bool) -> bool:
    """ "Tell my coach that ...", "ask Ines if ...": said to be for the coach, so it goes there, whatever else it may mean.

    sets: the text tells of sets; then "Coach, 20x12" is only a manner of speaking.
    """
    group = scene.uow.groups.get(member.group_id)
    if group is None:
        return False
    patterns = (_TO_COACH,) if sets else (_TO_COACH, _TO_COACH_BY_NAME)
    name = re.escape(group.coach_name)
    if not any(re.match(pattern.replace("{name}", name), text, re.IGNORECASE) for pattern in patterns):
        return False
    relay(scene, member, text, to_coach=True)
    return True


def hear_reply(scene: Scene, member: people.Member, text: str) -> bool:
    """The member replied to words of the coach's: the coach gets what was said."""
    row = scene.uow.outbox.sent(scene.chat_id, scene.reply_to) if scene.reply_to is not None else None
    if row is None or row.kind not in ("FromCoach", "CoachSays"):
        return False
    relay(scene, member, text, to_coach=True)
    return True


def answer_questions(scene: Scene, member: people.Member, asked: Sequence[Asked], situation: Situation, text: str) -> None:
    """Answer each question once; those for the coach go there together."""
    course = course_of(scene, member)
    facts = facts_for(scene, member, course, aims=any(one.topic in _NEEDS_AIMS for one in asked))
    answers, videos = [], []
    for one in asked:
        if one.topic is Topic.FOR_COACH:
            continue
        given = answer(one, situation, facts)
        if isinstance(given, HowToSaid) and (file := file_of(given.video)):
            videos.append(replies.DemoShown(given.label, given.name, *file))
            if not given.cues:
                continue
        if given is not None:
            answers.append({"_": type(given).__name__, **to_plain(given)})
    if answers:
        scene.say(replies.Answered(tuple(answers)))
    for video in dict.fromkeys(videos):
        scene.say(video)
    if any(one.topic is Topic.FOR_COACH for one in asked) or not (answers or videos):
        relay(scene, member, text)


def relay(scene: Scene, member: people.Member, text: str, *, message: int | None = None, to_coach: bool = False) -> None:
    """Give the group's kept answer to such a question, or bring it to the coach with its context. to_coach: in any case."""
    kept = [r for r in scene.uow.relays.find(group_id=member.group_id, kept=True) if r.answer] if not to_coach else []
    if kept:
        found = best_match(text, [one.text for one in kept])
        newest = scene.uow.messages.newest(chat_id=member.chat_id)
        about = message or (newest.id if newest else 0)
        if found is not None and found.certainty >= SURELY_ALIKE:
            answered = kept[found.index]
            given = replies.CoachSays(answered.text[:300], answered.answer, kept=True)
            scene.say(given, Choice(AskAnyway(about)), code="kept_given")
            return
    group = scene.uow.groups.get(member.group_id)
    if group is None:
        return
    context = _context(scene, member)
    asked = scene.uow.relays.add(
        people.Relay(group_id=member.group_id, member_id=member.id, text=text[:1000], context=context, asked_at=scene.now)
    )
    to_coach_said = replies.QuestionForCoach(member.name, text[:1000], context, asks=sounds_like_question(text))
    scene.say(to_coach_said, to=group.coach_chat_id, key=f"relay:{asked.id}", member=member.id)
    if scene.attached is not None:
        scene.say(replies.FromMember(member.name, *scene.attached), to=group.coach_chat_id, member=member.id)
        scene.passed_on = True
    scene.say(replies.CoachAsked(text[:200], asked=sounds_like_question(text)))


def _context(scene: Scene, member: people.Member) -> str:
    """Where the member stood when asking: day, slot, set and the last numbers."""
    from bot.coaching.targets import next_up
    from bot.training.loads import say_load

    course = course_of(scene, member)
    if course is None or course.day is None:
        return ""
    parts = [f"week {course.week_of(course.today)}, day {course.day.number}"]
    coming = next_up(course, course.situation()) if course.session else None
    if coming:
        parts.append(f"{coming.place.label} {coming.name}, set {coming.place.number}")
    done = [kept for kept in course.today_records if kept.number]
    if done:
        last = done[-1].record.done
        load = f"{say_load(last.load)} x " if last.load else ""
        parts.append(f"last: {done[-1].label} {load}{last.worst_count}")
    return ", ".join(parts)


_BEAT = re.compile(
    r"\W*(?:(?:play|send|give)(?: me)? )?(?:the |a |my )?(?:tempo )?beat(?: (?:for|of|on))?(?: (?:the )?(?P<label>[a-z]\d))?(?: please| pls)?\W*",
    re.IGNORECASE,
)


def wants_beat(scene: Scene, course: Course, text: str) -> bool:
    """ "beat", "beat for A1": the tempo of the slot (the one that is due) as a voice message."""
    asked = _BEAT.fullmatch(text)
    situation = course.situation() if asked else None
    if asked is None or situation is None or situation.day is None:
        return False
    due = situation.due
    label = (asked["label"] or (due.label if due else "")).upper()
    slot = situation.slot(label)
    if slot is None:
        return False
    targets = work_sets(slot)
    target = next((one for one in targets if one.tempo), None)
    entry = course.catalogue.get(course.exercise_of(slot))
    if target is None or target.tempo is None:
        scene.say(replies.NoTempo(label, course.name_of(slot)))
        return True
    starts_up = entry is not None and entry.first_phase is FirstPhase.CONCENTRIC
    scene.say(replies.Beat(label, course.name_of(slot), str(target.tempo), target.high or target.low or 8, starts_up))
    return True


@deed(SendToCoach)
def send_to_coach(scene: Scene, wish: SendToCoach) -> None:
    member, message = member_here(scene), scene.uow.messages.get(wish.message)
    if member and message and message.member_id == member.id:
        relay(scene, member, message.text, message=message.id)


@deed(PassOn)
def pass_on(scene: Scene, wish: PassOn) -> None:
    member = member_here(scene)
    group = scene.uow.groups.get(member.group_id) if member else None
    if member and group:
        scene.say(replies.FromMember(member.name, wish.kind, wish.file_id), to=group.coach_chat_id, member=member.id)
        scene.say(replies.CoachAsked("", asked=False))


@deed(AskAnyway)
def ask_anyway(scene: Scene, wish: AskAnyway) -> None:
    member, message = member_here(scene), scene.uow.messages.get(wish.message)
    if member and message and message.member_id == member.id:
        relay(scene, member, message.text, to_coach=True)


def coach_replies(scene: Scene, group: people.Group, text: str) -> bool:
    """The coach answered a relayed question by replying to it. False if the reply was to something else."""
    asked = _relay_replied_to(scene, group)
    member = scene.uow.members.get(asked.member_id) if asked else None
    if asked is None or member is None:
        return False
    answered = scene.uow.relays.save(replace(asked, answer=text[:3000], answered_at=scene.now))
    scene.say(replies.CoachSays(asked.text[:300], answered.answer), to=member.chat_id)
    scene.say(replies.AnswerDelivered(member.name), Choice(KeepAnswer(asked.id)), code="kept_answer")
    return True


def _relay_replied_to(scene: Scene, group: people.Group) -> people.Relay | None:
    """Which relayed question stands in the message that the coach replied to."""
    row = scene.uow.outbox.sent(scene.chat_id, scene.reply_to) if scene.reply_to is not None else None
    found = re.fullmatch(r"relay:(\d+)", row.key or "") if row is not None else None
    asked = scene.uow.relays.get(int(found[1])) if found else None
    return asked if asked is not None and asked.group_id == group.id else None


@deed(KeepAnswer)
def keep_answer(scene: Scene, wish: KeepAnswer) -> None:
    asked = scene.uow.relays.get(wish.relay)
    group = scene.uow.groups.get(asked.group_id) if asked else None
    if asked and group and group.coach_chat_id == scene.chat_id:
        scene.uow.relays.save(replace(asked, kept=True))
        scene.say(replies.AnswerKept())
