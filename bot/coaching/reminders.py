"""Who is reminded when: one due row for each member's next reminder, week's end and check for silence."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from bot.coaching import replies
from bot.coaching.course import Course, course_of
from bot.coaching.scene import Scene
from bot.coaching.targets import next_up, rests
from bot.training import people
from bot.training.blocks import Slot
from bot.training.order_rules import is_easing_in
from bot.training.plan import Pause, PlannedSession, apply
from bot.training.reminders import TOO_LATE_S, moment_of, next_reminder, second_reminder
from bot.training.volume import session_minutes

# After so many days without a word one kind message; after as many again the coach hears of it (issue: a week).
_QUIET_DAYS = 7
# Whoever has not answered for so long is reminded no more: it would only lead to the bot being blocked (our choice).
_REST_AFTER_DAYS = 28
_LOOK_AHEAD = timedelta(days=15)


def schedule(scene: Scene, member: people.Member) -> None:
    """Plan the member's next reminder anew, after anything that may have moved it."""
    scene.uow.due.cancel_all(member_id=int(member.id), kind="reminder")
    course = course_of(scene, member)
    if course is None or member.plan is None or member.state is not people.MemberState.ACTIVE:
        return
    today = scene.today(member)
    planned = [one for one in course.planned(today, today + _LOOK_AHEAD) if one.date not in course.done_days()]
    found = next_reminder(member.plan, planned, zone=member.zone, after_utc=scene.now)
    if found is not None:
        key = f"{member.id}:{found.session.date}"
        fields = {"member": int(member.id), "on": found.session.date.isoformat()}
        scene.uow.due.put(
            "reminder", key, found.at_utc, fields, member_id=int(member.id), too_late_after_s=TOO_LATE_S["reminder"]
        )


def remind_once(scene: Scene, member: people.Member, at: datetime) -> str:
    """Plan one more reminder of today's session, asked for by the member; says why if there is none: "rest", "begun" or "day".

    at: wall time in the member's zone. It comes in place of the usual second one.
    """
    course, today = course_of(scene, member), scene.today(member)
    if course is not None and today in course.done_days():
        return "begun"
    if course is None or not course.planned(today, today):
        return "rest"
    if at.date() != today:
        return "day"
    scene.uow.due.cancel("reminder_again", f"{member.id}:{today}")
    fields = {"member": int(member.id), "on": today.isoformat(), "once": f"{at:%H:%M}"}
    scene.uow.due.put(
        "reminder_again", f"{member.id}:{today}:once", moment_of(today, at.time(), member.zone), fields,
        member_id=int(member.id), too_late_after_s=TOO_LATE_S["reminder_again"],
    )  # fmt: skip
    return ""


def remind(scene: Scene, member_id: int, on: date, *, second: bool = False, once: str = "") -> None:
    """A reminder is due: sent unless the session was begun, moved or is over; then the next one is planned."""
    member = scene.uow.members.get(member_id)
    if member is None or member.state is not people.MemberState.ACTIVE or not member.reachable:
        return
    course = course_of(scene, member)
    planned = [one for one in course.planned(on, on) if on not in course.done_days()] if course else []
    if course is not None and planned and scene.today(member) == on:
        _send(scene, member, course, planned[0], second, once)
    if not second:
        schedule(scene, member)


def _send(scene: Scene, member: people.Member, course: Course, planned: PlannedSession, second: bool, once: str) -> None:
    day = course.block.day(planned.day_number)
    if day is None or member.plan is None:
        return
    _, minutes = session_minutes(day, course.catalogue)
    names = tuple(_name(course, slot, day.number) for slot in day.slots)
    done = [session.on for session in course.sessions]
    easing = is_easing_in(done, planned.date)
    expires = _end_of_day(planned.date, member.zone)
    key = f"reminder:{member.id}:{planned.date}:{once or int(second)}"
    scene.say(
        replies.Reminder(planned.date, day.number, day.name, names, minutes, second, easing),
        to=member.chat_id, lane="reminder", key=key, expires_at=expires,
    )  # fmt: skip
    again = None if second else second_reminder(member.plan, planned, zone=member.zone, after_utc=scene.now)
    if again is not None:
        fields = {"member": int(member.id), "on": planned.date.isoformat()}
        scene.uow.due.put(
            "reminder_again", f"{member.id}:{planned.date}", again, fields,
            member_id=int(member.id), too_late_after_s=TOO_LATE_S["reminder_again"],
        )  # fmt: skip


def _name(course: Course, slot: Slot, day: int) -> str:
    """ "A1 Goblet squat"; what waits for the coach after pain is said to rest."""
    resting = slot.label not in course.swaps and rests(course, slot.label, day)
    return f"{slot.label} {course.name_of(slot)}{' (rests)' if resting else ''}"


def _end_of_day(on: date, zone: str) -> datetime:
    return datetime.combine(on + timedelta(days=1), time(), ZoneInfo(zone)).astimezone(UTC)


def schedule_week_end(scene: Scene, member: people.Member) -> None:
    """Plan the member's next weekly review: the evening of the last day of their own week."""
    scene.uow.due.cancel_all(member_id=int(member.id), kind="week_end")
    if member.plan is None or member.state is not people.MemberState.ACTIVE:
        return
    local = scene.local(member.zone)
    last = member.plan.week_start_for(local.date()) + timedelta(days=6)
    at = datetime.combine(last, time(19, 0), ZoneInfo(member.zone)).astimezone(UTC)
    if at <= scene.now:
        last += timedelta(days=7)
        at = datetime.combine(last, time(19, 0), ZoneInfo(member.zone)).astimezone(UTC)
    fields = {"member": int(member.id), "last": last.isoformat()}
    scene.uow.due.put(
        "week_end", f"{member.id}:{last}", at, fields, member_id=int(member.id), too_late_after_s=TOO_LATE_S["week_end"]
    )


def rest_over(scene: Scene, member_id: int) -> None:
    member = scene.uow.members.get(member_id)
    course = course_of(scene, member) if member else None
    if member is None or course is None or course.session is None or course.session.state is not people.SessionState.OPEN:
        return
    expires = scene.now + timedelta(seconds=TOO_LATE_S["rest_over"])
    scene.say(replies.RestOver(next_up(course, course.situation())), to=member.chat_id, lane="rest", expires_at=expires)


def check_silence(scene: Scene, member: people.Member) -> None:
    """Once a week: a week without a word earns one kind message; of the next silent weeks only the coach hears. Then reminders rest."""
    heard = member.last_heard_at or member.joined_at
    days = (scene.now - heard).days
    group = scene.uow.groups.get(member.group_id)
    if days < _QUIET_DAYS or group is None or (member.plan is not None and member.plan.is_away(scene.today(member))):
        return
    if not member.silence_told:
        scene.say(replies.MissYou(member.name), to=member.chat_id, lane="weekly", key=f"miss:{member.id}:{heard.date()}")
        scene.uow.members.save(replace(member, silence_told=True))
    elif days >= _REST_AFTER_DAYS and member.plan is not None:
        plan = apply(member.plan, Pause(scene.today(member)), today=scene.today(member))
        member = scene.uow.members.save(replace(member, plan=plan))
        schedule(scene, member)
        scene.say(replies.LeftInPeace(member.name), to=member.chat_id, lane="weekly", key=f"peace:{member.id}:{heard.date()}")
        scene.say(
            replies.WentQuiet(member.name, days, paused=True), to=group.coach_chat_id, lane="weekly",
            key=f"quiet:{member.id}:{heard.date()}:{days // 7}", member=member.id,
        )  # fmt: skip
    else:
        scene.say(
            replies.WentQuiet(member.name, days),
            to=group.coach_chat_id,
            lane="weekly",
            key=f"quiet:{member.id}:{heard.date()}:{days // 7}",
            member=member.id,
        )
