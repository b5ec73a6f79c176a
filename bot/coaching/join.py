"""Somebody joins: the invite, what is kept and who sees it, then five short questions, each with buttons and a default.

    consent -> unit -> place -> kit -> days -> reminder -> through

Each step can be answered by a button or in words, comes again if the answer was not understood, and can be changed later.
"""

from __future__ import annotations

import secrets
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, time, timedelta

from bot.coaching import replies
from bot.coaching.beginning import weekdays_from
from bot.coaching.course import course_of
from bot.coaching.log_sets import member_here
from bot.coaching.scene import Choice, Scene, close_questions, deed
from bot.language.dates import read_time_of_day
from bot.language.kit_words import read_kit
from bot.language.places import find_places
from bot.training import people
from bot.training.blocks import Block
from bot.training.kit import Kit, KitItem
from bot.training.loads import Unit
from bot.training.plan import Plan, Weekdays, default_plan

# The things most often found at home, offered as buttons; everything else can be said in words (our choice).
_OFFERED_KIT = (
    KitItem.DUMBBELL, KitItem.BARBELL, KitItem.KETTLEBELL, KitItem.BAND, KitItem.BENCH, KitItem.PULL_UP_BAR,
    KitItem.MINI_BAND, KitItem.RINGS, KitItem.BOX, KitItem.RACK,
)  # fmt: skip
_REMINDER_TIMES = ("06:30", "07:30", "12:00", "17:30", "18:30", "20:00")
_DEFAULT_REMINDER = time(17, 30)


@dataclass(frozen=True, slots=True)
class Agree:
    pass


@dataclass(frozen=True, slots=True)
class Decline:
    pass


@dataclass(frozen=True, slots=True)
class ChooseUnit:
    unit: Unit


@dataclass(frozen=True, slots=True)
class ChoosePlace:
    name: str
    zone: str


@dataclass(frozen=True, slots=True)
class ToggleKit:
    item: KitItem
    repeatable: bool = True


@dataclass(frozen=True, slots=True)
class KitIsRight:
    pass


@dataclass(frozen=True, slots=True)
class ChooseStart:
    """The weekday (0 Monday) on which the split's first day falls."""

    weekday: int


@dataclass(frozen=True, slots=True)
class ChooseReminder:
    """at: "HH:MM", or "" for none."""

    at: str


def start(scene: Scene, code: str) -> None:
    """Somebody opened an invite link."""
    invite = scene.uow.invites.newest(code=code)
    if invite is None or invite.expires_at < scene.now or invite.uses_left < 1:
        scene.say(replies.LinkNotGood(expired=invite is not None))
        return
    group = scene.uow.groups.get(invite.group_id)
    assert group is not None
    known = next(iter(scene.uow.members.find(group_id=group.id, chat_id=scene.chat_id)), None)
    if known and known.state is people.MemberState.ACTIVE:
        scene.say(replies.Joined(known.name, course_of(scene, known) is not None))
        return
    if known is None:
        scene.uow.invites.save(replace(invite, uses_left=invite.uses_left - 1))
        known = scene.uow.members.add(
            people.Member(
                group_id=group.id,
                chat_id=scene.chat_id,
                name=scene.person_name or "Member",
                joined_at=scene.now,
                locale=scene.locale,
            )
        )
    member = scene.uow.members.save(replace(known, state=people.MemberState.JOINING, step="consent", reachable=True))
    _ask(scene, member)


def hear_step(scene: Scene, member: people.Member, text: str) -> None:
    """A typed answer to the open joining question."""
    step = member.step
    words = text.casefold().strip(" .,!?")
    if step == "consent":
        if words in (
            "yes",
            "agree",
            "i agree",
            "ok",
            "okay",
            "y",
            "sure",
            "fine",
            "👍",
            "yes please",
            "of course",
            "alright",
            "all right",
        ):
            agree(scene, Agree())
        elif words in ("no", "leave", "stop", "n"):
            decline(scene, Decline())
        else:
            _ask(scene, member, text)
    elif step == "unit":
        unit = unit_word(words)
        if unit:
            choose_unit(scene, ChooseUnit(unit))
        else:
            _ask(scene, member, text)
    elif step == "place":
        hear_place(scene, member, text)
    elif step == "kit":
        hear_kit(scene, member, text)
    elif step == "days":
        hear_days(scene, member, text)
    elif step == "reminder":
        hear_reminder(scene, member, text)


def unit_word(words: str) -> Unit | None:
    if words.startswith(("kg", "kilo")):
        return Unit.KG
    return Unit.LB if words.startswith(("lb", "pound", "#")) else None


def ask_again(scene: Scene, member: people.Member) -> None:
    """The open question once more: something else was typed that cannot be done yet."""
    _ask(scene, member)


def _ask(scene: Scene, member: people.Member, unread: str = "") -> None:
    """Put the member's open joining question. unread: what was typed and is no answer to it."""
    _QUESTIONS[member.step](scene, member, unread[:60])


def _ask_consent(scene: Scene, member: people.Member, unread: str) -> None:
    group = scene.uow.groups.get(member.group_id)
    assert group is not None
    kept = replies.WhatIsKept(group.coach_name, group.name, again=bool(unread))
    scene.say(kept, Choice(Agree()), Choice(Decline()), code="join")


def ask_unit(scene: Scene, member: people.Member, unread: str = "") -> None:
    scene.say(replies.AskUnit(unread), Choice(ChooseUnit(Unit.KG)), Choice(ChooseUnit(Unit.LB)), code="join")


def ask_place(scene: Scene, member: people.Member, unread: str = "") -> None:
    group = scene.uow.groups.get(member.group_id)
    choices = [Choice(ChoosePlace(group.zone, group.zone))] if group and group.zone != "UTC" else []
    scene.say(replies.AskPlace(unread), *choices, code="join", row=1)


def ask_kit(scene: Scene, member: people.Member, unread: str = "", *, edit: bool = False) -> None:
    choices = [Choice(ToggleKit(item), _kit_words(scene, item, member.kit)) for item in _OFFERED_KIT]
    scene.say(replies.AskKit(member.kit, member.unit, unread), *choices, Choice(KitIsRight()), code="join", edit=edit)


def _kit_words(scene: Scene, item: KitItem, kit: Kit) -> str:
    words = scene.desk.button_words(ToggleKit(item))
    return f"[x] {words}" if item in kit.items else words


def ask_days(scene: Scene, member: people.Member, unread: str = "") -> None:
    block = _block_for(scene, member)
    group = scene.uow.groups.get(member.group_id)
    first = group.calendar_week_start if group else 0
    choices = [Choice(ChooseStart(day)) for day in ((first + n) % 7 for n in range(7))]
    scene.say(
        replies.AskDays(weekdays_from(block.rhythm, first), unread, known=_has_block(scene, member)), *choices, code="join", row=4
    )


def ask_reminder(scene: Scene, member: people.Member, unread: str = "") -> None:
    choices = [Choice(ChooseReminder(at), at) for at in _REMINDER_TIMES]
    scene.say(replies.AskReminder("17:30", unread), *choices, Choice(ChooseReminder("")), code="join", row=3)


_QUESTIONS: dict[str, Callable[[Scene, people.Member, str], None]] = {
    "consent": _ask_consent,
    "unit": ask_unit,
    "place": ask_place,
    "kit": ask_kit,
    "days": ask_days,
    "reminder": ask_reminder,
}
_ORDER = tuple(_QUESTIONS)


def _block_for(scene: Scene, member: people.Member) -> Block:
    """The block that the member will begin with; the usual rhythm where there is none yet."""
    published = scene.uow.revisions.newest(group_id=member.group_id, state=people.RevisionState.PUBLISHED)
    return published.block if published else Block("", ())


def _has_block(scene: Scene, member: people.Member) -> bool:
    return scene.uow.revisions.newest(group_id=member.group_id, state=people.RevisionState.PUBLISHED) is not None


def _advance(scene: Scene, member: people.Member) -> None:
    """After an answered step: the next question, or through. A member who changes a setting later is through already."""
    if member.state is not people.MemberState.JOINING:
        return
    place = _ORDER.index(member.step) + 1
    if place < len(_ORDER):
        member = scene.uow.members.save(replace(member, step=_ORDER[place]))
        _ask(scene, member)
    else:
        _through(scene, member)


def _through(scene: Scene, member: people.Member) -> None:
    from bot.coaching import publish, reminders

    close_questions(scene, ("join",))
    member = scene.uow.members.save(
        replace(member, state=people.MemberState.ACTIVE, step="", last_heard_at=scene.now, feed_key=secrets.token_urlsafe(24))
    )
    publish.give_newest(scene, member)
    course = course_of(scene, member)
    reminders.schedule(scene, member)
    reminders.schedule_week_end(scene, member)
    first = course.planned(scene.today(member), scene.today(member) + timedelta(days=13)) if course else ()
    scene.say(replies.Joined(member.name, course is not None, first[0].date if first else None))
    group = scene.uow.groups.get(member.group_id)
    if group:
        lacking = publish.lacking_names(scene, member, course.block) if course else ()
        scene.say(replies.NewMember(member.name, member.zone, member.kit, lacking), to=group.coach_chat_id, member=member.id)


def _here(scene: Scene) -> people.Member:
    member = member_here(scene)
    assert member is not None, "a joining button in a chat without a member"
    return member


@deed(Agree)
def agree(scene: Scene, wish: Agree) -> None:
    member = _here(scene)
    if member.step == "consent":
        _advance(scene, member)


@deed(Decline)
def decline(scene: Scene, wish: Decline) -> None:
    """Nothing of somebody who did not agree is kept."""
    member = _here(scene)
    for asked in scene.uow.asked.find(chat_id=scene.chat_id, open=True):
        scene.uow.asked.save(replace(asked, open=False))
    scene.uow.messages.remove(member_id=member.id)
    scene.uow.members.remove(id=member.id)
    scene.say(replies.Left(agreed=False))


@deed(ChooseUnit)
def choose_unit(scene: Scene, wish: ChooseUnit) -> None:
    member = scene.uow.members.save(replace(_here(scene), unit=wish.unit, expecting={}))
    _said(scene, member, "unit", wish.unit.value)


@deed(ChoosePlace)
def choose_place(scene: Scene, wish: ChoosePlace) -> None:
    from bot.coaching import reminders

    member = scene.uow.members.save(replace(_here(scene), place=wish.name, zone=wish.zone, expecting={}))
    if member.state is people.MemberState.ACTIVE:
        reminders.schedule(scene, member)
        reminders.schedule_week_end(scene, member)
    _said(scene, member, "place", f"{wish.name}, {scene.local(wish.zone):%H:%M}")


def hear_place(scene: Scene, member: people.Member, text: str) -> None:
    """Find the zone of a place; the person confirms unless the place is the only one of its name."""
    found = find_places(text)[:4]
    if not found:
        scene.say(replies.AskPlace(unknown=text[:60]), code="join")
        return
    choices = [Choice(ChoosePlace(place.name, place.zone), str(place)[:60]) for place in found]
    scene.say(replies.AskWhichPlace(text[:60]), *choices, code="join", row=1)


@deed(ToggleKit)
def toggle_kit(scene: Scene, wish: ToggleKit) -> None:
    member = _here(scene)
    kit = member.kit
    items = kit.items ^ {wish.item}
    ladders = tuple(ladder for ladder in kit.ladders if ladder.item in items)
    member = scene.uow.members.save(replace(member, kit=replace(kit, items=items, ladders=ladders)))
    ask_kit(scene, member, edit=True)


@deed(KitIsRight)
def kit_is_right(scene: Scene, wish: KitIsRight) -> None:
    member = _here(scene)
    member = scene.uow.members.save(replace(member, expecting={}))
    _said(scene, member, "kit", "")


def hear_kit(scene: Scene, member: people.Member, text: str) -> None:
    """Kit in words is added to what is chosen and shown back; "done" or "nothing" ends the step."""
    if text.casefold().strip() in ("done", "ok", "that's all", "thats all", "that is all", "fertig", "yes"):
        kit_is_right(scene, KitIsRight())
        return
    reading = read_kit(text, member.unit)
    if reading.nothing_owned:
        member = scene.uow.members.save(replace(member, kit=Kit()))
        kit_is_right(scene, KitIsRight())
        return
    if reading.unread:
        ask_kit(scene, member, text[:60])
        return
    member = scene.uow.members.save(replace(member, kit=_joined(member.kit, reading.kit)))
    ask_kit(scene, member)


def _kit_said_late(scene: Scene, member: people.Member, text: str) -> bool:
    """Who remembers more kit while being asked something else: it is noted, and the question put again."""
    reading = read_kit(text, member.unit)
    if member.state is not people.MemberState.JOINING or reading.unread or reading.nothing_owned:
        return False
    member = scene.uow.members.save(replace(member, kit=_joined(member.kit, reading.kit)))
    scene.say(replies.Changed("kit", ""))
    _ask(scene, member)
    return True


def _joined(old: Kit, new: Kit) -> Kit:
    """What was said now over what was known."""
    said = {ladder.item for ladder in new.ladders}
    ladders = (*(ladder for ladder in old.ladders if ladder.item not in said), *new.ladders)
    return Kit(old.items | new.items, ladders, new.bands or old.bands, new.bar or old.bar)


@deed(ChooseStart)
def choose_start(scene: Scene, wish: ChooseStart) -> None:
    member = _here(scene)
    _take_days(scene, member, weekdays_from(_block_for(scene, member).rhythm, wish.weekday))


def _take_days(scene: Scene, member: people.Member, weekdays: tuple[int, ...]) -> None:
    """The training days were chosen. Later on that is a change like any other: absences and moved sessions are kept, one tap undoes it."""
    from bot.coaching import move_days

    today = scene.today(member)
    if member.state is people.MemberState.ACTIVE and member.plan is not None:
        member = scene.uow.members.save(replace(member, expecting={}))
        move_days.change(scene, member, Weekdays(weekdays, today))
        return
    reminder = member.plan.reminder_local if member.plan else _DEFAULT_REMINDER
    member = scene.uow.members.save(replace(member, plan=_plan(today, weekdays, reminder), expecting={}))
    _said(scene, member, "days", ",".join(str(day) for day in weekdays))


def _plan(today: date, weekdays: tuple[int, ...], reminder: time | None) -> Plan:
    """The member's week begins with day 1."""
    start = _start_on(today, weekdays[0])
    return default_plan(start=start, weekdays=weekdays, reminder_local=reminder, week_start=weekdays[0])


def _start_on(today: date, weekday: int) -> date:
    """The next date on which day 1 falls; whoever wants to begin earlier just texts sets."""
    return today + timedelta(days=(weekday - today.weekday()) % 7)


def hear_days(scene: Scene, member: people.Member, text: str) -> None:
    """Days in words: "monday" for the coach's rhythm from there on, or their own days, as many as they have."""
    names = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
    said = [names.index(word[:3]) for word in text.casefold().replace(",", " ").split() if word[:3] in names]
    if len(said) == 1:
        choose_start(scene, ChooseStart(said[0]))
        return
    if not said or len(set(said)) != len(said):
        if not _kit_said_late(scene, member, text):
            ask_days(scene, member, text[:60])
        return
    _take_days(scene, member, tuple(said))


@deed(ChooseReminder)
def choose_reminder(scene: Scene, wish: ChooseReminder) -> None:
    from bot.coaching import reminders

    member = _here(scene)
    assert member.plan is not None, "the reminder is asked after the days"
    at = time.fromisoformat(wish.at) if wish.at else None
    member = scene.uow.members.save(replace(member, plan=replace(member.plan, reminder_local=at), expecting={}))
    if member.state is people.MemberState.ACTIVE:
        reminders.schedule(scene, member)
    _said(scene, member, "reminder", wish.at)


def hear_reminder(scene: Scene, member: people.Member, text: str) -> None:
    if wants_no_reminder(text):
        choose_reminder(scene, ChooseReminder(""))
        return
    at = read_time_of_day(text)
    if at is None:
        if not _kit_said_late(scene, member, text):
            ask_reminder(scene, member, text[:60])
    else:
        choose_reminder(scene, ChooseReminder(at.strftime("%H:%M")))


def wants_no_reminder(text: str) -> bool:
    return text.casefold().strip(" .!") in ("no", "none", "never", "no reminder", "no reminders", "off", "without", "no thanks")


def _said(scene: Scene, member: people.Member, what: str, value: str) -> None:
    """Say a changed setting back, or go on to the next joining question."""
    if member.state is people.MemberState.JOINING:
        if member.step == what:
            _advance(scene, member)
    else:
        close_questions(scene, ("join",))  # its words, such as "done", belong to the training again
        scene.say(replies.Changed(what, value))
