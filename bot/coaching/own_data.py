"""A member's own data: all of it sent, all of it erased, the group left, the sessions as a calendar file."""

from __future__ import annotations

import base64
import csv
import io
import json
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Any

from bot.coaching import replies
from bot.coaching.course import course_of
from bot.coaching.log_sets import CarryOut, member_here
from bot.coaching.scene import Choice, Scene, deed
from bot.language.readings import FinishHeard
from bot.training import people
from bot.training.loads import say_amount
from bot.training.plain import to_plain
from bot.training.plan import ReminderAt

CSV_COLUMNS = (
    "date", "day", "slot", "set", "kind", "exercise", "load_kind", "load", "unit", "pair", "bands", "measure", "count", "left", "right", "rpe",
    "rir", "failure", "partials", "bouts", "drops", "about", "painful", "note", "typed", "said_at_utc",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Leave:
    pass


@dataclass(frozen=True, slots=True)
class Erase:
    pass


def records_csv(rows: list[people.KeptRecord], texts: dict[int, str]) -> str:
    """All sets on record, one a line, oldest first. texts: Message.id -> what was typed."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")  # RFC 4180
    writer.writerow(CSV_COLUMNS)
    for kept in sorted(rows, key=lambda kept: (kept.on, kept.said_at, kept.id)):
        done, load = kept.record.done, kept.record.done.load
        writer.writerow([
            kept.on, kept.day, kept.label, kept.number or "", done.kind.value, kept.exercise,
            load.kind.value if load else "", say_amount(load.amount) if load and load.amount is not None else "",
            load.unit.value if load and load.unit else "", int(load.pair) if load else "", " + ".join(load.bands) if load else "",
            done.measure.value, _blank(done.count), _blank(done.left), _blank(done.right), _blank(done.rpe), _blank(done.rir),
            int(done.failure), done.partials or "", "+".join(map(str, done.bouts)),
            "; ".join(f"{say_amount(d.load.amount) if d.load and d.load.amount is not None else ''}x{d.count}" for d in done.drops),
            int(done.about), int(kept.record.painful), _safe(done.note), _safe(texts.get(kept.message_id, "")), kept.said_at.isoformat(),
        ])  # fmt: skip
    return out.getvalue()


def _blank(value: Any) -> Any:
    return "" if value is None else value


def _safe(text: str) -> str:
    """A person's words in a cell: never a formula to a spreadsheet (common practice against injected formulas)."""
    return f"'{text}" if text[:1] in "=+-@\t\r" and text[:1] else text


def export(scene: Scene, member: people.Member) -> None:
    """Send the member everything that is kept about them: the sets as a table, all the rest as plain data."""
    uow = scene.uow
    rows = uow.records.find(member_id=member.id, active=True)
    messages = uow.messages.find(member_id=member.id)
    table = records_csv(rows, {message.id: message.text for message in messages})
    scene.say(replies.File("my-sets.csv", "export", _packed(table)))
    everything = {
        "member": to_plain(member),
        "messages": [to_plain(message) for message in messages],
        "sessions": [to_plain(session) for session in uow.sessions.find(member_id=member.id)],
        "set_records": [to_plain(record) for record in uow.records.find(member_id=member.id)],
        "pain_reports": [to_plain(pain) for pain in uow.pains.find(member_id=member.id)],
        "swaps": [to_plain(swap) for swap in uow.swaps.find(member_id=member.id)],
        "questions": [to_plain(asked) for asked in uow.relays.find(member_id=member.id)],
        "blocks_followed": [to_plain(one) for one in uow.assignments.find(member_id=member.id)],
        "suggestions": [to_plain(one) for one in uow.advice.find(member_id=member.id)],
    }
    scene.say(replies.File("my-data.json", "export_all", _packed(json.dumps(everything, indent=1, ensure_ascii=False))))


def _packed(text: str) -> str:
    return base64.b64encode(text.encode()).decode()


def calendar(scene: Scene, member: people.Member) -> None:
    """The coming two months of sessions as a calendar file."""
    course = course_of(scene, member)
    if course is None:
        group = scene.uow.groups.get(member.group_id)
        scene.say(replies.NoBlock(group.coach_name if group else ""))
        return
    data = calendar_bytes(scene, member)
    scene.say(replies.File("sessions.ics", "calendar", base64.b64encode(data).decode()))


# Set by cli: the calendar's format lives in chat, which coaching does not import.
_CALENDAR: list[Callable[..., bytes]] = []


def use_calendar(writer: Callable[..., bytes]) -> None:
    _CALENDAR[:] = [writer]


def calendar_bytes(scene: Scene, member: people.Member) -> bytes:
    course = course_of(scene, member)
    assert course is not None and member.plan is not None
    planned = course.planned(course.today - timedelta(days=14), course.today + timedelta(days=60))
    names = {day.number: day.name for day in course.block.days}
    return _CALENDAR[0](
        planned, names=names, zone=member.zone, plan=member.plan, owner=f"member-{member.id}", stamp_utc=scene.now
    )


def ask_leave(scene: Scene, member: people.Member) -> None:
    scene.say(replies.LeaveAsked(), Choice(Leave()), Choice(Stay()), code="leave")


def ask_erase(scene: Scene, member: people.Member) -> None:
    count = scene.uow.records.count(member_id=member.id)
    scene.say(replies.EraseAsked(count), Choice(Erase()), Choice(Stay()), code="erase")


def ask_stop(scene: Scene, member: people.Member) -> None:
    """ "stop", without a word of what: each thing that can end, as a button."""
    from bot.coaching import move_days

    course = course_of(scene, member)
    message = scene.uow.messages.newest(chat_id=scene.chat_id)
    choices = []
    if course is not None and course.session is not None and course.today_records and message is not None:
        choices.append(Choice(CarryOut(message.id, (FinishHeard(),)), "Today's session"))
    if member.plan is not None and member.plan.reminder_local is not None:
        choices.append(Choice(move_days.ChangePlan(ReminderAt(None)), "The reminders"))
    scene.say(replies.AskStop(), *choices, Choice(AskLeave()), Choice(Stay()), row=1, code="stop")


@dataclass(frozen=True, slots=True)
class AskLeave:
    """All of it: asked once more, since it ends the membership."""


@deed(AskLeave)
def leave_wanted(scene: Scene, wish: AskLeave) -> None:
    member = member_here(scene)
    if member:
        ask_leave(scene, member)


@dataclass(frozen=True, slots=True)
class Stay:
    pass


@deed(Stay)
def stay(scene: Scene, wish: Stay) -> None:
    scene.say(replies.CoachSaysSentence("left_it"))


@deed(Leave)
def leave(scene: Scene, wish: Leave) -> None:
    member = member_here(scene)
    if member:
        scene.uow.due.cancel_all(member_id=int(member.id))
        scene.uow.members.save(replace(member, state=people.MemberState.LEFT))
        scene.say(replies.Left())
        if member.state is people.MemberState.ACTIVE:
            _tell_coach(scene, member)


def _tell_coach(scene: Scene, member: people.Member) -> None:
    group = scene.uow.groups.get(member.group_id)
    if group:
        scene.say(replies.CoachSaysSentence("member_left", (member.name,)), to=group.coach_chat_id)


def former_member(scene: Scene) -> people.Member | None:
    """The newest membership that this chat has left: what is kept of it is theirs still."""
    return scene.uow.members.newest(chat_id=scene.chat_id, state=people.MemberState.LEFT)


@deed(Erase)
def erase(scene: Scene, wish: Erase) -> None:
    """Remove every row about this member, then say so. Rows go children first, so that no key is left hanging."""
    member = member_here(scene) or former_member(scene)
    if member is None:
        return
    uow = scene.uow
    count = uow.records.count(member_id=member.id)
    for shelf in (uow.records, uow.swaps, uow.pains, uow.relays, uow.advice, uow.assignments, uow.sessions, uow.messages):
        shelf.remove(member_id=member.id)
    uow.asked.remove(chat_id=member.chat_id)
    uow.outbox.erase(member.chat_id)
    uow.inbox.erase(member.chat_id)
    uow.due.erase(int(member.id))
    uow.members.remove(id=member.id)
    scene.say(replies.Erased(count))
