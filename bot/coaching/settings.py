"""A member changes a setting: units, place, kit, days, reminder, rest calls. Each with buttons, each in words."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from bot.coaching import join, replies
from bot.coaching.log_sets import member_here
from bot.coaching.scene import Choice, Scene, close_questions, deed
from bot.language.dates import read_time_of_day
from bot.language.kit_words import read_kit
from bot.training import people
from bot.training.kit import Kit


@dataclass(frozen=True, slots=True)
class ChangeSetting:
    what: str
    repeatable: bool = True


@dataclass(frozen=True, slots=True)
class RestCalls:
    on: bool


_KIT_NEWS = re.compile(
    r"^\s*(?:i(?:'ve| have)? (?:just )?(?:got|bought|have got)|i now have|new kit:?|my kit(?: is)?:?|i (?:also )?own|kit:)\s+(.+)$",
    re.IGNORECASE | re.DOTALL,
)
_WHOLE_KIT = re.compile(r"\s*(?:my )?kit(?: is)?:?\s", re.IGNORECASE)  # all of it, not one thing more
_REST = (
    r"\W*(?:please |pls )?(?P<before>(?:i (?:don'?t )?want|no(?: more)?|stop|start|turn on|turn off|switch on|switch off|without|with) )?(?:the |my |any )?"
    r"rest (?:calls?|timers?|alarms?|reminders?)(?P<after> (?:on|off)(?: again)?)?(?: again| please| pls)*\W*"
)
_WHAT = ("unit", "place", "kit", "days", "reminder")


def show(scene: Scene, member: people.Member) -> None:
    reminder = member.plan.reminder_local.strftime("%H:%M") if member.plan and member.plan.reminder_local else ""
    days = ",".join(str(day) for day in member.plan.weekdays) if member.plan else ""
    shown = replies.SettingsShown(member.unit, member.place, member.zone, member.kit, days, reminder, member.rest_calls)
    choices = [Choice(ChangeSetting(what)) for what in _WHAT]
    scene.say(shown, *choices, Choice(RestCalls(not member.rest_calls)), code="settings")


@deed(ChangeSetting)
def change_setting(scene: Scene, wish: ChangeSetting) -> None:
    member = member_here(scene)
    if member is None:
        return
    member = scene.uow.members.save(replace(member, expecting={"what": wish.what}))
    ask = {
        "unit": join.ask_unit,
        "place": join.ask_place,
        "kit": join.ask_kit,
        "days": join.ask_days,
        "reminder": join.ask_reminder,
    }[wish.what]
    ask(scene, member)


@deed(RestCalls)
def rest_calls(scene: Scene, wish: RestCalls) -> None:
    member = member_here(scene)
    if member:
        scene.uow.members.save(replace(member, rest_calls=wish.on))
        scene.say(replies.Changed("rest_calls", "on" if wish.on else "off"))


def hear_expected(scene: Scene, member: people.Member, text: str) -> bool:
    """A typed answer to a setting that was just asked for. A text that is plainly something else (sets) is left alone."""
    what = member.expecting.get("what", "")
    unit = join.unit_word(text.casefold().strip()) if what == "unit" else None
    if unit is not None:
        join.choose_unit(scene, join.ChooseUnit(unit))
        return True
    if what == "place" and not re.search(r"\d", text):
        join.hear_place(scene, member, text)
        return True
    if what == "kit" and not read_kit(text, member.unit).unread:
        join.hear_kit(scene, member, text)
        return True
    if what == "reminder" and (read_time_of_day(text) or join.wants_no_reminder(text)):
        join.hear_reminder(scene, member, text)
        return True
    if what == "days" and re.match(r"\s*(?:mon|tue|wed|thu|fri|sat|sun)", text, re.IGNORECASE):
        join.hear_days(scene, member, text)
        return True
    scene.uow.members.save(replace(member, expecting={}))
    close_questions(scene, ("join",))
    return False


_LOSS = re.compile(
    r"\W*(?:i(?:'ve| have)? )?(?:just )?(?:sold|gave away|given away|got rid of|lost|returned) (?:my |the |all my |both )?(?P<sold>[\w -]{2,60})|"
    r"\W*i (?:no longer (?:have|own)|(?:don'?t|do not) (?:have|own)|have no) (?:a |an |my |the |any )?(?P<gone>[\w -]{2,60}?) ?(?P<more>any ?more|now)?",
    re.IGNORECASE,
)


def hear_loss(scene: Scene, member: people.Member, text: str) -> bool:
    """ "Sold my dumbbells": they are no longer part of the kit. Only what is said to be gone for good; "no bench today" is a swap."""
    found = _LOSS.fullmatch(text.strip(" .!"))
    if found is None or (found["gone"] and not found["more"] and "no longer" not in text.casefold()):
        return False
    gone = read_kit(found["sold"] or found["gone"], member.unit)
    kept = member.kit.items - gone.kit.items
    if gone.unread or kept == member.kit.items:
        return False
    ladders = tuple(ladder for ladder in member.kit.ladders if ladder.item in kept)
    member = scene.uow.members.save(replace(member, kit=replace(member.kit, items=kept, ladders=ladders)))
    join.ask_kit(scene, member)
    return True


def hear(scene: Scene, member: people.Member, text: str) -> bool:
    """A setting said in words without being asked: new kit, units."""
    news = _KIT_NEWS.match(text)
    if news and not read_kit(news[1], member.unit).unread:
        if _WHOLE_KIT.match(text):
            member = scene.uow.members.save(replace(member, kit=Kit()))
        join.hear_kit(scene, member, news[1])
        return True
    unit = re.fullmatch(r"\W*(?:use|switch to|change to|i use|i think in)\s+(kg|kilos?|lbs?|pounds?)\W*", text, re.IGNORECASE)
    if unit:
        from bot.training.loads import Unit

        join.choose_unit(scene, join.ChooseUnit(Unit.KG if unit[1].lower().startswith("k") else Unit.LB))
        return True
    rest = re.fullmatch(_REST, text, re.IGNORECASE)
    if rest:
        said = f"{rest['before'] or ''} {rest['after'] or ''}".casefold()
        rest_calls(scene, RestCalls(not re.search(r"\b(?:no|stop|off|without|don'?t want)\b", said)))
        return True
    return False
