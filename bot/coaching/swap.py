"""A member cannot, or would rather not, do an exercise: at most three ranked choices, one tap to take, one tap back.

A substitute is taken for today or for the whole block. The slot stays what it is; sets recorded under the substitute belong to it.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass, replace

from bot.coaching import replies
from bot.coaching.course import Course, course_of
from bot.coaching.log_sets import member_here
from bot.coaching.own_exercises import own_id, remember_name, stand_in_for
from bot.coaching.scene import Choice, Scene, close_questions, deed, is_very_next
from bot.coaching.targets import next_up
from bot.language.situation import Situation
from bot.language.swaps import SwapAsked, read_swap, things_named
from bot.training import people
from bot.training.blocks import ExerciseId, Slot
from bot.training.exercises.entry import Exercise
from bot.training.kit import KitItem
from bot.training.substitutes import Reason, Substitute, coachs_own, substitutes_for, unknown_of


@dataclass(frozen=True, slots=True)
class SwapSlot:
    """Show choices for a slot (chosen when the request did not say which)."""

    label: str
    reason: Reason
    part: str = ""
    repeatable: bool = True
    missing: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class TakeSwap:
    label: str
    day: int
    exercise: ExerciseId
    reason: str
    whole_block: bool = False


@dataclass(frozen=True, slots=True)
class UndoSwap:
    label: str
    day: int


def hear(scene: Scene, member: people.Member, message: people.Message, text: str, situation: Situation, *, sure: float) -> bool:
    """Is this a request for another exercise? Then offer some."""
    course = course_of(scene, member)
    if course is None or course.day is None:
        return False
    asked = read_swap(text, situation, course.catalogue)
    if asked is None or asked.certainty < sure:
        return False
    if asked.undo:
        if asked.label in course.swaps:
            _undo(scene, course, asked.label, course.day.number)
        else:
            _undo_newest(scene, course)
        return True
    label = asked.label or _only_lacking(course) if asked.reason is Reason.MISSING_KIT else asked.label
    if not label:
        _ask_which(scene, course, asked)
        return True
    offer(scene, course, label, asked.reason, asked.part, asked.missing, wanted=asked.wanted)
    return True


_NONE = re.compile(
    r"\W*(?:no(?:ne|pe)?|neither|nothing|no thanks?|none of (?:these|them|those)|never ?mind|forget it|leave it|keep (?:it|the old one)(?: as it is)?)\W*",
    re.IGNORECASE,
)


def hear_none(scene: Scene, text: str) -> bool:
    """None of the offered substitutes: said as the very next thing, it ends the matter."""
    asked = scene.uow.asked.newest(chat_id=scene.chat_id, open=True)
    if asked is None or asked.code != "swap" or not _NONE.fullmatch(text) or not is_very_next(scene, asked):
        return False
    close_questions(scene, ("swap",))
    scene.say(replies.CoachSaysSentence("left_it"))
    return True


def _only_lacking(course: Course) -> str:
    """The one slot of today that the member lacks the kit for, or "" if none or several."""
    day = course.day
    lacking = []
    for slot in day.slots if day else ():
        exercise = course.exercise_of(slot)
        entry = course.catalogue.get(exercise) if exercise else None
        if entry and entry.kit and all(course.member.kit.lacks(way) for way in entry.kit):
            lacking.append(slot.label)
    return lacking[0] if len(lacking) == 1 else ""


def _ask_which(scene: Scene, course: Course, asked: SwapAsked) -> None:
    choices = [
        Choice(SwapSlot(slot.label, asked.reason, asked.part, missing=asked.missing), f"{slot.label} {course.name_of(slot)}"[:40])
        for slot in _slots_left(course)
    ]
    scene.say(replies.AskWhichSlot("swap"), *choices, row=1, code="swap")


def _slots_left(course: Course) -> list[Slot]:
    """The day's slots with sets still to do; all of them where none has."""
    done = Counter(kept.label for kept in course.today_records if kept.number)
    slots = list(course.day.slots) if course.day else []
    return [slot for slot in slots if done[slot.label] < len(slot.sets)] or slots


@deed(SwapSlot)
def swap_slot(scene: Scene, wish: SwapSlot) -> None:
    member = member_here(scene)
    course = course_of(scene, member) if member else None
    if course is not None:
        offer(scene, course, wish.label, wish.reason, wish.part, wish.missing)


def offer(
    scene: Scene,
    course: Course,
    label: str,
    reason: Reason,
    part: str = "",
    missing: tuple[str, ...] = (),
    *,
    wanted: ExerciseId | None = None,
) -> None:
    """Offer what suits this member now, the coach's own first, then the one that the member named."""
    day = course.day
    slot = day.slot(label) if day else None
    if day is None or slot is None:
        scene.say(replies.NoSwapFound(label, label))
        return
    found = _find(course, slot, reason, part, missing, wanted)
    name = course.name_of(slot)
    if not found:
        scene.say(replies.NoSwapFound(label, name, slot.substitutes))
        return
    choices = _choices(found)
    buttons = [Choice(TakeSwap(label, day.number, one.exercise, reason.value), one.name[:40]) for one in found]
    scene.say(replies.SwapsOffered(label, name, reason.value, choices, part), *buttons, row=1, code="swap")


def _find(
    course: Course, slot: Slot, reason: Reason, part: str, missing: tuple[str, ...], wanted: ExerciseId | None = None
) -> tuple[Substitute, ...]:
    """Ranked choices; first those that the coach wrote beside the slot, an unknown one as it is written."""
    written = _unknown(course, slot, reason, missing)
    ranked = _ranked(course, slot, reason, part, missing, wanted)
    coachs = [one for one in ranked if one.by_coach]
    return (*coachs, *written, *(one for one in ranked if not one.by_coach))[:_MOST]


_MOST = 3  # choices


def _unknown(course: Course, slot: Slot, reason: Reason, missing: tuple[str, ...]) -> tuple[Substitute, ...]:
    """What the coach wrote and no catalogue has. Nothing tells what it spares, so none for pain; none that names a thing that is not here."""
    if reason is Reason.PAIN:
        return ()
    gone = frozenset(item for item in KitItem if item.value in missing)
    return tuple(
        Substitute(own_id(name), name, ("as written beside it",), ("sets and reps stay",), by_coach=True)
        for name in unknown_of(_written(course, slot), course.catalogue)
        if not things_named(name) & gone and not course.member.kit.lacks(things_named(name))
    )


def _written(course: Course, slot: Slot) -> tuple[str, ...]:
    """The coach's substitutes by name, those that the coach has said the meaning of by the catalogue's."""
    names = []
    for name in slot.substitutes:
        said = course.scene.uow.own_names.newest(group_id=course.member.group_id, name=name)
        entry = course.catalogue.get(said.exercise) if said else None
        names.append(entry.name if entry else name)
    return tuple(names)


def _ranked(
    course: Course, slot: Slot, reason: Reason, part: str, missing: tuple[str, ...], wanted: ExerciseId | None
) -> tuple[Substitute, ...]:
    exercise = course.exercise_of(slot)
    others = [course.exercise_of(other) for other in (course.day.slots if course.day else ()) if other.label != slot.label]
    records = course.scene.uow.records.find(member_id=course.member.id, active=True)
    pains = tuple(pain.part for pain in course.scene.uow.pains.find(member_id=course.member.id, open=True) if pain.part)
    hurting = tuple(dict.fromkeys((*((part,) if part else ()), *pains)))
    today = tuple(one for one in others if one)
    if exercise is None:
        kit, catalogue = course.member.kit, course.catalogue
        return coachs_own(
            _written(course, slot), kit=kit, reason=reason, catalogue=catalogue, hurting=hurting, missing=missing, today=today
        )
    return substitutes_for(
        exercise,
        kit=course.member.kit,
        reason=reason,
        catalogue=course.catalogue,
        own=_written(course, slot),
        hurting=hurting,
        missing=missing,
        today=today,
        records=tuple(kept.record for kept in records),
        slot=slot,
        unit=course.member.unit,
        wanted=wanted,
        on=course.today,
    )


def _choices(found: tuple[Substitute, ...]) -> tuple[replies.SwapChoice, ...]:
    return tuple(replies.SwapChoice(one.exercise, one.name, one.why, one.change, one.by_coach, one.last_resort) for one in found)


def offer_for_pain(scene: Scene, course: Course, pain: people.Pain) -> None:
    """After pain that may go on elsewhere: something that spares the joint."""
    day = course.day
    slot = day.slot(pain.label) if day else None
    found = _find(course, slot, Reason.PAIN, pain.part, ()) if slot else ()
    if day is None or slot is None or not found:
        return
    choices = _choices(found)
    buttons = [Choice(TakeSwap(pain.label, day.number, one.exercise, Reason.PAIN.value), one.name[:40]) for one in found]
    offered = replies.SwapsOffered(pain.label, course.name_of(slot), Reason.PAIN.value, choices, pain.part)
    scene.say(offered, *buttons, row=1, code="swap")


@deed(TakeSwap)
def take_swap(scene: Scene, wish: TakeSwap) -> None:
    """Do this one instead: from now on today, or for the whole block."""
    from bot.coaching.log_sets import session_for

    member = member_here(scene)
    course = course_of(scene, member) if member else None
    day = course.block.day(wish.day) if course else None
    slot = day.slot(wish.label) if day else None
    if member is None or course is None or slot is None:
        return
    entry = course.catalogue.get(wish.exercise) or _keep_written(scene, course, slot, wish.exercise)
    if entry is None:
        return
    session = None
    if not wish.whole_block:
        session = session_for(scene, course, course.session.on if course.session else course.today, wish.day)
        swaps = tuple(pair for pair in session.swaps if pair[0] != wish.label)
        stopped = tuple(label for label in session.stopped if label != wish.label)
        session = scene.uow.sessions.save(replace(session, swaps=(*swaps, (wish.label, wish.exercise)), stopped=stopped))
    _retire(scene, course, wish.label, wish.day, None if wish.whole_block else session)
    scene.uow.swaps.add(
        people.SwapTaken(
            member_id=member.id, series=course.revision.series, day=wish.day, label=wish.label, exercise=wish.exercise,
            instead_of=slot.exercise_name, reason=wish.reason, at=scene.now, session_id=session.id if session else None,
        )
    )  # fmt: skip
    after = course_of(scene, member) or course
    buttons = [Choice(UndoSwap(wish.label, wish.day))]
    if not wish.whole_block:
        buttons.insert(0, Choice(replace(wish, whole_block=True)))
    done = replies.SwapDone(wish.label, entry.name, slot.exercise_name, wish.whole_block, next_up(after, after.situation()))
    scene.say(done, *buttons, code="swap_done")


def _keep_written(scene: Scene, course: Course, slot: Slot, exercise: ExerciseId) -> Exercise | None:
    """A substitute that the coach wrote and no catalogue has: kept as the coach's own from the first time it is taken."""
    name = next((name for name in slot.substitutes if own_id(name) == exercise), "")
    if not name:
        return None
    entry = stand_in_for(name, course.catalogue.get(slot.exercise))
    remember_name(scene, course.member.group_id, name, entry.id, entry)
    return entry


def _retire(scene: Scene, course: Course, label: str, day: int, session: people.Session | None) -> None:
    """Switch off the swaps that a new one of the same reach replaces."""
    standing = scene.uow.swaps.find(member_id=course.member.id, series=course.revision.series, day=day, label=label, active=True)
    for old in standing:
        if old.session_id == (session.id if session else None):
            scene.uow.swaps.save(replace(old, active=False))


@deed(UndoSwap)
def undo_swap(scene: Scene, wish: UndoSwap) -> None:
    member = member_here(scene)
    course = course_of(scene, member) if member else None
    if course is not None:
        _undo(scene, course, wish.label, wish.day)


def _undo_newest(scene: Scene, course: Course) -> None:
    swap = scene.uow.swaps.newest(member_id=course.member.id, series=course.revision.series, active=True)
    if swap is None:
        scene.say(replies.NothingToTakeBack())
    else:
        _undo(scene, course, swap.label, swap.day)


def _undo(scene: Scene, course: Course, label: str, day: int) -> None:
    for swap in scene.uow.swaps.find(
        member_id=course.member.id, series=course.revision.series, day=day, label=label, active=True
    ):
        scene.uow.swaps.save(replace(swap, active=False))
    session = course.session
    if session and session.day == day:
        scene.uow.sessions.save(replace(session, swaps=tuple(pair for pair in session.swaps if pair[0] != label)))
    slot_day = course.block.day(day)
    slot = slot_day.slot(label) if slot_day else None
    scene.say(replies.SwapUndone(label, slot.exercise_name if slot else label))
