"""Pain, emergencies and cautions: care before progress, and the coach hears of it.

The published pain scale (0 to 10; Thomee 1997, Silbernagel 2007: all versions agree on 5 as the ceiling) only decides when a person
must look. Nothing here treats or diagnoses.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import timedelta

from bot.coaching import replies
from bot.coaching.course import Course, course_of
from bot.coaching.log_sets import member_here
from bot.coaching.scene import Choice, Scene, deed
from bot.language.safety import EARLIER, Level, SafetyReading, read_safety
from bot.training import people
from bot.training.safety import JOINT_OF_PART, needs_a_person

_PARTS = ("shoulder", "elbow", "wrist", "neck", "upper back", "lower back", "hip", "knee", "ankle", "elsewhere")


@dataclass(frozen=True, slots=True)
class PainWhere:
    pain: int
    part: str


@dataclass(frozen=True, slots=True)
class PainHowBad:
    pain: int
    severity: int


@dataclass(frozen=True, slots=True)
class AllRight:
    """It was a manner of speaking."""


@dataclass(frozen=True, slots=True)
class NotAllRight:
    """Something is wrong after all: the gravest answer is given."""

    message: int


@dataclass(frozen=True, slots=True)
class StillHurts:
    """What hurt before hurts now as well: it is heard as pain of today."""

    message: int


@dataclass(frozen=True, slots=True)
class HurtsNoMore:
    pass


@dataclass(frozen=True, slots=True)
class OnlyMeant:
    """Alarming words were a manner of speaking: what they stopped goes on, and the coach hears that too."""

    pain: int


@dataclass(frozen=True, slots=True)
class OnlySore:
    """Not pain after all: ordinary soreness, or gone."""

    pain: int


@dataclass(frozen=True, slots=True)
class ClearPain:
    """The coach lets a stopped slot go on."""

    pain: int


def emergency(scene: Scene, member: people.Member, message: people.Message, safety: SafetyReading) -> None:
    """First the advice to stop and call; where the words may be everyday talk, the same advice with a way to say so."""
    label = _label(course_of(scene, member), safety)
    kept = _keep(scene, member, message, safety, label, emergency=True)
    if safety.doubted:
        scene.say(replies.StopAndAsk(), Choice(NotAllRight(message.id)), Choice(OnlyMeant(kept.id)), row=1, code="check")
    else:
        scene.say(replies.StopAndCall())
    _stop_slot(scene, member, label)
    _tell_coach(scene, member, kept)


def hear(scene: Scene, member: people.Member, message: people.Message, safety: SafetyReading) -> None:
    """Care for what was said: ask where and how bad, stop the slot, tell the coach."""
    if safety.level is Level.CAUTION and safety.topic == "check":
        scene.say(replies.AreYouAllRight(), Choice(AllRight()), Choice(NotAllRight(message.id)), row=1, code="check")
        return
    if safety.level is Level.CAUTION and safety.topic == "warning_signs":
        scene.say(replies.WarningSigns())
        return
    if safety.level is Level.CAUTION:
        scene.say(replies.Caution(safety.topic))
        kept = _keep(scene, member, message, safety, "")
        _tell_coach(scene, member, kept, topic=safety.topic)
        return
    course = course_of(scene, member)
    same = (
        _just_reported(scene, member) if safety.level is Level.PAIN and not safety.parts and not safety.exercise_words else None
    )
    if same is not None:
        _more_of_it(scene, member, message, same)
        return
    label = _label(course, safety)
    kept = _keep(scene, member, message, safety, label)
    _stop_slot(scene, member, label)
    _tell_coach(scene, member, kept)  # at once, with what is known; once more when the member has said how bad it is
    if safety.level is Level.SAME_DAY:
        scene.say(replies.SeeSomeoneToday())
    elif not kept.part:
        choices = [Choice(PainWhere(kept.id, part)) for part in _PARTS]
        scene.say(replies.AskPainWhere(label, _name(course, label)), *choices, Choice(OnlySore(kept.id)), row=3, code="pain")
    elif kept.severity is None:
        _ask_how_bad(scene, kept)
    else:
        _answer(scene, member, kept)


# Words of pain without a place, so soon after a report, are about the same pain (our choice).
_SAME_PAIN = timedelta(hours=1)


def _just_reported(scene: Scene, member: people.Member) -> people.Pain | None:
    """The pain that was reported a moment ago with its place."""
    newest = scene.uow.pains.newest(member_id=member.id, open=True)
    return newest if newest is not None and newest.part and scene.now - newest.at <= _SAME_PAIN else None


def _more_of_it(scene: Scene, member: people.Member, message: people.Message, pain: people.Pain) -> None:
    """More is said of a pain that is known: how bad it is is asked anew, and the coach gets the words."""
    group = scene.uow.groups.get(member.group_id)
    if group is not None:
        course = course_of(scene, member)
        name = _name(course, pain.label)
        told = replies.PainForCoach(member.name, message.text[:500], pain.part, pain.severity, pain.label, name, pain.day)
        scene.say(told, to=group.coach_chat_id, member=member.id)
    _ask_how_bad(scene, pain)


def mark_before(scene: Scene, course: Course, safety: SafetyReading) -> None:
    """Pain said beside sets: the slot is stopped before they are recorded, so that they are marked."""
    label = _label(course, safety)
    _stop_slot(scene, course.member, label)


def soreness(scene: Scene, message: people.Message, safety: SafetyReading) -> None:
    """Ordinary soreness is noted; what hurt some day before is asked about, since nothing says that it does now."""
    if safety.topic == EARLIER:
        part = safety.parts[0] if safety.parts else ""
        scene.say(replies.AskWhetherItStillHurts(part), Choice(StillHurts(message.id)), Choice(HurtsNoMore()), code="pain")
        return
    scene.say(replies.SorenessNoted(safety.parts[0] if safety.parts else ""))


def _keep(
    scene: Scene, member: people.Member, message: people.Message, safety: SafetyReading, label: str, *, emergency: bool = False
) -> people.Pain:
    course = course_of(scene, member)
    slot = course.day.slot(label) if course and course.day and label else None
    return scene.uow.pains.add(
        people.Pain(
            member_id=member.id, at=scene.now, on=scene.today(member), text=message.text[:500],
            part=safety.parts[0] if safety.parts else "", side=safety.side, severity=safety.severity, label=label,
            day=course.trainable_day if course else None, exercise=(course.exercise_of(slot) or "") if course and slot else "",
            emergency=emergency, open=safety.level is not Level.CAUTION,
        )
    )  # fmt: skip


def _label(course: Course | None, safety: SafetyReading) -> str:
    """The slot that hurt: the one named, else the last one done today, else the one that is due."""
    if course is None or course.day is None:
        return ""
    words = safety.exercise_words
    if words:
        if course.day.slot(words.upper()):
            return words.upper()
        exercises = {slot.label: course.exercise_of(slot) for slot in course.day.slots}
        known = [exercise for exercise in exercises.values() if exercise]
        found = course.catalogue.names.find(words, among=known, limit=1)
        if found:
            return next(label for label, exercise in exercises.items() if exercise == found[0].exercise)
    done = list(dict.fromkeys(kept.label for kept in reversed(course.today_records) if kept.label))
    if done:
        return next((label for label in done if _loads(course, label, safety.parts)), done[0])
    due = course.situation().due if course.session else None
    return due.label if due else ""


def _loads(course: Course, label: str, parts: tuple[str, ...]) -> bool:
    """Does a slot's exercise load the joint that hurts?"""
    slot = course.day.slot(label) if course.day else None
    entry = course.catalogue.get(course.exercise_of(slot)) if slot else None
    joints = {JOINT_OF_PART.get(part, part) for part in parts}
    return entry is not None and bool(joints & set(entry.joints))


def _stop_slot(scene: Scene, member: people.Member, label: str) -> None:
    course = course_of(scene, member)
    session = course.session if course else None
    if course is None or session is None or not label or label in session.stopped:
        return
    scene.uow.sessions.save(replace(session, stopped=(*session.stopped, label), pointer=None))
    for kept in course.today_records:
        if kept.label == label:
            scene.uow.records.save(replace(kept, record=replace(kept.record, painful=True)))


def _name(course: Course | None, label: str) -> str:
    slot = course.day.slot(label) if course and course.day and label else None
    return course.name_of(slot) if course and slot else ""


def _ask_how_bad(scene: Scene, kept: people.Pain) -> None:
    choices = [Choice(PainHowBad(kept.id, n), str(n)) for n in range(11)]
    scene.say(replies.AskPainHowBad(kept.part), *choices, row=6, code="pain")


def _answer(scene: Scene, member: people.Member, kept: people.Pain) -> None:
    from bot.coaching import swap

    course = course_of(scene, member)
    scene.say(replies.PainNoted(kept.part, kept.severity, kept.label, _name(course, kept.label), needs_a_person(kept.severity)))
    if kept.label and not needs_a_person(kept.severity) and course is not None:
        swap.offer_for_pain(scene, course, kept)
    _tell_coach(scene, member, kept)


def _tell_coach(scene: Scene, member: people.Member, kept: people.Pain, *, topic: str = "") -> None:
    group = scene.uow.groups.get(member.group_id)
    if group is None:
        return
    course = course_of(scene, member)
    clear = (Choice(ClearPain(kept.id)),) if kept.label and not topic else ()
    reply = replies.PainForCoach(
        member.name, kept.text, kept.part, kept.severity, kept.label, _name(course, kept.label), kept.day, kept.emergency, topic
    )
    scene.say(
        reply, *clear, to=group.coach_chat_id, code="pain_for_coach", key=f"pain:{kept.id}:{kept.severity}", member=member.id
    )


# How somebody says that what hurt is over, and what turns such words round.
_OVER = re.compile(
    r"\b(?:fine|ok(?:ay)?|better|well|good|gone|all right|alright|great|recovered|healed|over it|pain[- ]?free|passed|"
    r"(?:no|without)(?: more)? pain|(?:doesn'?t|does not|not|no longer|stopped) hurt(?:s|ing)?(?: any ?more)?)\b",
    re.IGNORECASE,
)
_NOT_OVER = re.compile(
    r"\?|\b(?:not|isn'?t|aren'?t|wasn'?t|never|hardly|no) (?:\w+ )?(?:fine|ok(?:ay)?|better|well|good|gone|all right|alright|great)\b|"
    r"\b(?:still|worse|but|unless|hopefully|should|if)\b",
    re.IGNORECASE,
)


def hear_better(scene: Scene, member: people.Member, text: str) -> bool:
    """ "Knee is fine now", after pain was reported: the coach hears it, and decides; nothing goes on by itself."""
    waiting = scene.uow.pains.find(member_id=member.id, open=True)
    group = scene.uow.groups.get(member.group_id)
    if not waiting or group is None or len(text) > 160 or not _OVER.search(text) or _NOT_OVER.search(text):
        return False
    emergency = any(pain.emergency for pain in waiting)
    scene.say(replies.BetterHeard(group.coach_name, emergency=emergency, rests=any(pain.label for pain in waiting)))
    clear = [
        Choice(ClearPain(pain.id), f"Let {pain.label} go on ({pain.part or 'pain'})")
        for pain in list({(pain.day, pain.label): pain for pain in waiting if pain.label}.values())[-3:]
    ]
    told = replies.BetterForCoach(member.name, text[:400], emergency=emergency)
    scene.say(told, *clear, to=group.coach_chat_id, code="pain_for_coach", row=1, member=member.id)
    return True


def _whose(scene: Scene, kept: people.Pain | None) -> people.Member | None:
    """Who told of a pain: somebody of two groups may be answering for the first while joining the second."""
    member = scene.uow.members.get(kept.member_id) if kept else None
    return member if member is not None and member.chat_id == scene.chat_id else None


@deed(AllRight)
def all_right(scene: Scene, wish: AllRight) -> None:
    scene.say(replies.Acknowledged())


@deed(NotAllRight)
def not_all_right(scene: Scene, wish: NotAllRight) -> None:
    member, message = member_here(scene), scene.uow.messages.get(wish.message)
    if member and message:
        emergency(scene, member, message, SafetyReading(level=Level.EMERGENCY))


@deed(StillHurts)
def still_hurts(scene: Scene, wish: StillHurts) -> None:
    member, message = member_here(scene), scene.uow.messages.get(wish.message)
    if member and message:
        hear(scene, member, message, replace(read_safety(message.text), level=Level.PAIN, topic=""))


@deed(HurtsNoMore)
def hurts_no_more(scene: Scene, wish: HurtsNoMore) -> None:
    scene.say(replies.Acknowledged())


@deed(OnlyMeant)
def only_meant(scene: Scene, wish: OnlyMeant) -> None:
    kept = scene.uow.pains.get(wish.pain)
    member = _whose(scene, kept)
    if kept is None or member is None or not kept.open:
        return
    scene.uow.pains.save(replace(kept, open=False, cleared_at=scene.now))
    _let_go_on(scene, member, kept)
    scene.say(replies.Acknowledged())
    group = scene.uow.groups.get(member.group_id)
    if group:
        scene.say(replies.OnlyWords(member.name), to=group.coach_chat_id, key=f"meant:{kept.id}", member=member.id)


@deed(PainWhere)
def pain_where(scene: Scene, wish: PainWhere) -> None:
    kept = scene.uow.pains.get(wish.pain)
    if kept:
        kept = scene.uow.pains.save(replace(kept, part=wish.part))
        _ask_how_bad(scene, kept)


@deed(PainHowBad)
def pain_how_bad(scene: Scene, wish: PainHowBad) -> None:
    kept = scene.uow.pains.get(wish.pain)
    member = _whose(scene, kept)
    if kept and member:
        kept = scene.uow.pains.save(replace(kept, severity=wish.severity))
        _answer(scene, member, kept)


@deed(OnlySore)
def only_sore(scene: Scene, wish: OnlySore) -> None:
    kept = scene.uow.pains.get(wish.pain)
    member = _whose(scene, kept)
    if kept is None or member is None:
        return
    scene.uow.pains.save(replace(kept, open=False, cleared_at=scene.now))
    _let_go_on(scene, member, kept)
    scene.say(replies.SorenessNoted(kept.part))


@deed(ClearPain)
def clear_pain(scene: Scene, wish: ClearPain) -> None:
    """Pressed by the coach: the slot may be done and progressed again from now on."""
    kept = scene.uow.pains.get(wish.pain)
    member = scene.uow.members.get(kept.member_id) if kept else None
    group = scene.uow.groups.get(member.group_id) if member else None
    if kept is None or member is None or group is None or group.coach_chat_id != scene.chat_id or not kept.open:
        return
    for one in scene.uow.pains.find(member_id=member.id, open=True):
        if (one.day, one.label) == (kept.day, kept.label):  # reported twice, it is let go on once
            scene.uow.pains.save(replace(one, open=False, cleared_at=scene.now))
            _let_go_on(scene, member, one)
    course = course_of(scene, member)
    entry = course.catalogue.get(kept.exercise) if course and kept.exercise else None
    name = entry.name if entry else kept.label
    scene.say(replies.PainCleared(name, member.name, to_coach=True))
    scene.say(replies.PainCleared(name), to=member.chat_id)


def _let_go_on(scene: Scene, member: people.Member, kept: people.Pain) -> None:
    for session in scene.uow.sessions.find(member_id=member.id, on=kept.on):
        stopped = tuple(label for label in session.stopped if label != kept.label)
        scene.uow.sessions.save(replace(session, stopped=stopped))
