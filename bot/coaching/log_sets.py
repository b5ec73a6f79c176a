"""A member's sets go on record: recorded, corrected, skipped, taken back, put back, and the session's end.

Nothing is ever overwritten. A correction is a new row that names the row it replaces; taking back switches rows off and switches
those they had replaced on again; redo does the reverse.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from bot.coaching import replies
from bot.coaching.course import Course, course_of, with_id
from bot.coaching.scene import Choice, Scene, choose, close_questions, deed
from bot.coaching.session_end import close_session
from bot.coaching.targets import next_up, targets_of
from bot.language.readings import (
    CorrectionHeard,
    FinishHeard,
    Heard,
    PointHeard,
    RepeatHeard,
    SetsHeard,
    SkipHeard,
    UndoHeard,
)
from bot.training import people
from bot.training.blocks import SetPlace, order_of, work_sets
from bot.training.records import SetRecord

# Taking back reaches as far as this; older sets are corrected by saying so (our choice).
_UNDO_WITHIN = timedelta(hours=36)


@dataclass(frozen=True, slots=True)
class CarryOut:
    """Chosen from the buttons of a question about a text: do what this reading says. habit: (name, value) to remember."""

    message: int
    heard: tuple[Heard, ...]
    habit: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True)
class LeaveIt:
    """None of the offered readings: nothing is recorded."""


@dataclass(frozen=True, slots=True)
class DoAfterAll:
    """These sets, left out before, are to be done."""

    session: int
    places: tuple[SetPlace, ...]


_SKIPPED = "skipped"  # the code of the message that says what was left out


@dataclass(frozen=True, slots=True)
class TakeBack:
    redo: bool = False


def carry_out(
    scene: Scene,
    course: Course,
    message: people.Message,
    heard: tuple[Heard, ...],
    *,
    unread: tuple[str, ...] = (),
) -> None:
    """Do all that one text said, in its order, and answer it."""
    corrected = [part for part in heard if isinstance(part, CorrectionHeard)]
    for part in heard:
        match part:
            case SetsHeard():
                _record(scene, course, message, part, unread)
            case CorrectionHeard():
                if part is corrected[-1]:
                    _correct(scene, course, message, corrected)
            case SkipHeard():
                _skip(scene, course, part)
            case UndoHeard():
                take_back(scene, course.member, redo=part.redo)
            case RepeatHeard():
                scene.say(replies.AlreadyOnRecord(next_up(course, course.situation()), nothing=not course.today_records))
            case FinishHeard():
                close_session(scene, course, part)
            case PointHeard():
                _point(scene, course, part)
        fresh = course_of(scene, course.member)
        course = fresh or course


def point_to(scene: Scene, course: Course, label: str) -> bool:
    """A slot named alone: what comes next is its first set that is still to be done. False if today's day has no such slot."""
    slot = course.day.slot(label) if course.day else None
    if slot is None:
        return False
    done = {kept.number for kept in course.today_records if kept.label == label}
    left = [number for number in range(1, len(work_sets(slot)) + 1) if number not in done]
    if not left:
        return False
    _point(scene, course, PointHeard(SetPlace(label, left[0])))
    return True


def session_for(scene: Scene, course: Course, on: date, day: int) -> people.Session:
    """The session that a set belongs to; begun now if there is none."""
    found = scene.uow.sessions.find(member_id=course.member.id, on=on, day=day)
    if found:
        return found[-1]
    # A session opened under a new revision; an earlier day's is filed under the same (what was prescribed then is not known better).
    state = people.SessionState.OPEN if on == course.today else people.SessionState.DONE
    session = people.Session(
        member_id=course.member.id, on=on, day=day, revision_id=course.revision.id, started_at=scene.now, state=state,
        ended_at=None if on == course.today else scene.now,
    )  # fmt: skip
    if on < course.assignment.started_on:
        # Somebody could not wait for the first day: the block begins with this session.
        scene.uow.assignments.save(replace(course.assignment, started_on=on))
    if on == course.today:
        for key in (f"{course.member.id}:{on}", f"{course.member.id}:{on}:once"):
            scene.uow.due.cancel("reminder_again", key)
        close_questions(scene, ("effort",))
    return scene.uow.sessions.add(session)


def _record(scene: Scene, course: Course, message: people.Message, heard: SetsHeard, unread: tuple[str, ...]) -> None:
    kept = [_keep(scene, course, message, record) for record in heard.sets]
    sessions = {one.session_id for one in kept}
    for session_id in sessions:
        session = scene.uow.sessions.get(session_id)
        if session:
            _move_on(scene, session, kept)
    after = course_of(scene, course.member) or course
    situation = after.situation()
    backdated = next((one.on for one in kept if one.on != situation.on), None)
    left = _left(after)
    lines = tuple(_line(course, one) for one in kept)
    coming = None if backdated else next_up(after, situation)
    scene.say(replies.SetsRecorded(lines, coming, backdated, unread=unread, left=left, edited=message.edit_of is not None))
    if backdated is None:
        _rest_call(scene, after, kept[-1], coming)
    if left == 0 and backdated is None and any(one.number for one in kept):
        close_session(scene, after, FinishHeard())


def _keep(
    scene: Scene, course: Course, message: people.Message, record: SetRecord, *, replaces: people.KeptRecord | None = None
) -> people.KeptRecord:
    """One set into its session. A set that stands at the same place already is superseded, not doubled."""
    day = record.day if record.day is not None else (course.trainable_day or 1)
    session = session_for(scene, course, record.on, day)
    label, number = (record.place.label, record.place.number) if record.place else (_label_of_warm_up(course, record), 0)
    if replaces is None and number:
        replaces = scene.uow.records.newest(session_id=session.id, label=label, number=number, active=True)
    if replaces is not None:
        scene.uow.records.save(replace(replaces, active=False))
    painful = bool(label and label in session.stopped)
    return scene.uow.records.add(
        people.KeptRecord(
            member_id=course.member.id, session_id=session.id, message_id=message.id, on=record.on, day=day, label=label,
            number=number, exercise=record.exercise or "", record=replace(record, day=day, painful=record.painful or painful, record_id=None),
            said_at=scene.now, replaces=replaces.id if replaces else None,
        )
    )  # fmt: skip


def _label_of_warm_up(course: Course, record: SetRecord) -> str:
    slots = course.day.slots if course.day else ()
    return next((slot.label for slot in slots if course.exercise_of(slot) == record.exercise), "")


def _move_on(scene: Scene, session: people.Session, kept: list[people.KeptRecord]) -> None:
    """A set that was skipped and then done is done; the pointer that led here has served."""
    places = {SetPlace(one.label, one.number) for one in kept if one.session_id == session.id and one.number}
    skipped = tuple(place for place in session.skipped if place not in places)
    scene.uow.sessions.save(replace(session, skipped=skipped, pointer=None))


def _line(course: Course, kept: people.KeptRecord) -> replies.SetLine:
    """A set as it is said back, beside the same set of last time."""
    before = next(
        (old.record.done for old in course.last_records(kept.day, kept.on) if old.label == kept.label and old.number == kept.number and kept.number),
        None,
    )  # fmt: skip
    day = course.block.day(kept.day)
    slot = day.slot(kept.label) if day else None
    entry = course.catalogue.get(kept.record.exercise) if kept.record.exercise else None
    target = None
    if slot and kept.number:
        targets = targets_of(course, slot, kept.day)
        target = targets[kept.number - 1] if kept.number <= len(targets) else None
    name = course.name_of(slot) if slot else entry.name if entry else ""
    return replies.SetLine(with_id(kept), name, before, target)


def _left(course: Course) -> int:
    """Work sets of today's day that are neither on record nor skipped."""
    day = course.day
    if day is None or course.session is None:
        return -1
    situation = course.situation()
    gone = {record.place for record in situation.today if record.place} | set(situation.skipped)
    return sum(place not in gone for place in order_of(day))


def _rest_call(scene: Scene, course: Course, last: people.KeptRecord, coming: replies.NextUp | None) -> None:
    """Where the block limits rest, a call when it is over; any earlier call falls silent with this set."""
    key = str(course.member.id)
    scene.uow.due.cancel("rest_over", key)
    slot = course.day.slot(last.label) if course.day else None
    if slot is None or slot.rest is None or coming is None or not course.member.rest_calls:
        return
    due = scene.now + timedelta(seconds=slot.rest.high_s)
    scene.uow.due.put(
        "rest_over", key, due, {"member": int(course.member.id)}, member_id=int(course.member.id), too_late_after_s=60
    )


def _correct(scene: Scene, course: Course, message: people.Message, heard: Sequence[CorrectionHeard]) -> None:
    """Sets of one text that supersede what is on record, answered together."""
    lines: list[replies.SetLine] = []
    was: list[SetRecord] = []
    for one in heard:
        old = scene.uow.records.get(one.old.record_id or 0)
        if old is None or old.member_id != course.member.id:
            continue
        new = _keep(scene, course, message, one.new, replaces=old)
        lines.append(_line(course, new))
        was.append(old.record)
    if not lines:
        scene.say(replies.NothingToTakeBack())
        return
    after = course_of(scene, course.member) or course
    situation = after.situation()
    on = lines[-1].record.on
    backdated = on if on != situation.on else None
    coming = None if backdated else next_up(after, situation)
    scene.say(replies.SetsCorrected(tuple(was), tuple(lines), coming, backdated))


def _skip(scene: Scene, course: Course, heard: SkipHeard) -> None:
    number = course.trainable_day
    if number is None:
        scene.say(replies.NothingToTakeBack())
        return
    session = course.session or session_for(scene, course, course.today, number)
    skipped = tuple(dict.fromkeys((*session.skipped, *heard.places)))
    note = "; ".join(part for part in (session.note, heard.reason) if part)
    scene.uow.sessions.save(replace(session, skipped=skipped, note=note, pointer=None))
    after = course_of(scene, course.member) or course
    fresh = tuple(place for place in heard.places if place not in session.skipped)
    said = replies.SetsSkipped(heard.places, next_up(after, after.situation()))
    scene.say(said, Choice(DoAfterAll(session.id, fresh)), code=_SKIPPED)
    if _left(after) == 0:
        close_session(scene, after, FinishHeard())


@deed(DoAfterAll)
def do_after_all(scene: Scene, wish: DoAfterAll) -> None:
    """What was left out is due again."""
    member, session = member_here(scene), scene.uow.sessions.get(wish.session)
    if member is None or session is None or session.member_id != member.id:
        return
    kept = tuple(place for place in session.skipped if place not in wish.places)
    reopened = session.state is people.SessionState.DONE and session.on == scene.today(member)
    state = people.SessionState.OPEN if reopened else session.state
    scene.uow.sessions.save(
        replace(session, skipped=kept, state=state, ended_at=None if reopened else session.ended_at, pointer=None)
    )
    course = course_of(scene, member)
    coming = next_up(course, course.situation()) if course else None
    scene.say(replies.DueAgain(wish.places, coming))


def _undo_skip(scene: Scene) -> bool:
    """ "undo" right after something was left out means that."""
    asked = scene.uow.asked.newest(chat_id=scene.chat_id, open=True, code=_SKIPPED)
    if asked is None or scene.now - asked.asked_at > _UNDO_WITHIN:
        return False
    member = member_here(scene)
    last = _last_message(scene, member, undone=False) if member else None
    return (last is None or last.id <= asked.after) and choose(scene, asked, 0)


def _point(scene: Scene, course: Course, heard: PointHeard) -> None:
    number = course.trainable_day
    if number is None:
        return
    session = course.session or session_for(scene, course, course.today, number)
    scene.uow.sessions.save(replace(session, pointer=heard.place))
    after = course_of(scene, course.member) or course
    coming = next_up(after, after.situation())
    if coming:
        scene.say(replies.GoingOn(coming))


@deed(LeaveIt)
def leave_it(scene: Scene, wish: LeaveIt) -> None:
    scene.say(replies.CoachSaysSentence("not_recorded"))


@deed(TakeBack)
def take_back_pressed(scene: Scene, wish: TakeBack) -> None:
    member = member_here(scene)
    if member:
        take_back(scene, member, redo=wish.redo)


def member_here(scene: Scene) -> people.Member | None:
    """The active (or joining) member that this chat is."""
    members = scene.uow.members.find(chat_id=scene.chat_id)
    return next((m for m in reversed(members) if m.state is not people.MemberState.LEFT), None)


@deed(CarryOut)
def carry_out_chosen(scene: Scene, wish: CarryOut) -> None:
    member = member_here(scene)
    message = scene.uow.messages.get(wish.message)
    course = course_of(scene, member) if member else None
    if member is None or message is None or course is None:
        return
    if wish.habit:
        name, value = wish.habit
        habits = dict(member.habits)
        if name.startswith("nickname:"):
            habits["nicknames"] = [*habits.get("nicknames", []), [name.removeprefix("nickname:"), value]]
        else:
            habits[name] = value
        scene.uow.members.save(replace(member, habits=habits))
        course = course_of(scene, replace(member, habits=habits)) or course
    carry_out(scene, course, message, wish.heard)


def take_back(scene: Scene, member: people.Member, *, redo: bool = False) -> None:
    """Switch the last message's sets off, or (redo) the last ones switched off on again."""
    if not redo and _undo_skip(scene):
        return
    course = course_of(scene, member)
    message = _last_message(scene, member, undone=redo)
    if course is None or message is None:
        scene.say(replies.NothingToTakeBack())
        return
    rows = scene.uow.records.find(message_id=message.id, active=not redo)
    restored = []
    for row in rows:
        if redo and _place_taken(scene, row):
            continue
        scene.uow.records.save(replace(row, active=redo))
        if row.replaces:
            old = scene.uow.records.get(row.replaces)
            if old:
                restored.append(scene.uow.records.save(replace(old, active=not redo)))
    scene.uow.messages.save(replace(message, undone=not redo))
    session = scene.uow.sessions.get(rows[0].session_id) if rows else None
    if session and session.state is people.SessionState.DONE and session.on == course.today and not redo:
        scene.uow.sessions.save(replace(session, state=people.SessionState.OPEN, ended_at=None))
    scene.uow.due.cancel("rest_over", str(member.id))
    after = course_of(scene, member) or course
    lines = tuple(_line(course, row) for row in rows)
    again = (Choice(TakeBack(redo=True)),) if not redo else ()
    standing = tuple(_line(course, row) for row in restored) if not redo else ()
    said = replies.TakenBack(lines, redo, next_up(after, after.situation()), standing)
    scene.say(said, *again, code="taken_back")


def _place_taken(scene: Scene, row: people.KeptRecord) -> bool:
    """Has something newer taken this set's place since?"""
    standing = scene.uow.records.find(session_id=row.session_id, label=row.label, number=row.number, active=True)
    return bool(row.number) and any(other.id not in (row.id, row.replaces) for other in standing)


def _last_message(scene: Scene, member: people.Member, *, undone: bool) -> people.Message | None:
    """The newest message whose sets can be taken back (or put back)."""
    for message in reversed(scene.uow.messages.find(member_id=member.id, undone=undone)):
        if scene.now - message.at > _UNDO_WITHIN:
            return None
        rows = scene.uow.records.find(message_id=message.id)
        if undone and rows:
            return message
        if any(row.active for row in rows):
            return message
    return None
