"""What the coach does besides blocks: becomes coach, invites, looks at the group, speaks to everyone, sets one member's target."""

from __future__ import annotations

import hashlib
import re
import secrets
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from bot.coaching import ask_coach, outside, publish, replies, review, to_member
from bot.coaching.course import course_of
from bot.coaching.scene import Choice, Scene, answer_by_words, deed
from bot.coaching.targets import rests
from bot.language.reading.targets import read_target
from bot.training import people
from bot.training.blocks import SetTarget
from bot.training.loads import say_load

_INVITE_DAYS = 30


@dataclass(frozen=True, slots=True)
class TellEveryone:
    text: str


@dataclass(frozen=True, slots=True)
class DoNothing:
    pass


def new_claim(scene_uow: object, now: datetime, *, besides: bool = False) -> str | None:
    """Make the one-time code for the operator's terminal; None if there is a coach already. Only its hash is kept.

    besides: one more coach is wanted beside those there are.
    """
    uow = scene_uow
    if uow.groups.count() and not besides:  # type: ignore[attr-defined]
        return None
    code = "-".join(secrets.token_hex(2) for _ in range(3))
    for old in uow.claims.find(used_by=None):  # type: ignore[attr-defined]
        uow.claims.remove(id=old.id)  # type: ignore[attr-defined]
    uow.claims.add(people.Claim(code=_hash(code), made_at=now))  # type: ignore[attr-defined]
    return code


def _hash(code: str) -> str:
    bare = re.sub(r"[\s-]", "", code.lower())
    return hashlib.sha256("-".join(bare[at : at + 4] for at in range(0, len(bare), 4)).encode()).hexdigest()


def claim(scene: Scene, code: str) -> bool:
    """Become coach by the operator's code, or hear that it is none. False if the text has not the shape of one."""
    if not re.fullmatch(r"\s*[0-9a-f]{4}(?:[- ][0-9a-f]{4}){2}\s*", code, re.IGNORECASE):
        return False
    found = scene.uow.claims.newest(code=_hash(code))
    if found is None or found.used_by is not None:
        scene.say(replies.CodeNotGood(own=found is not None and found.used_by == scene.chat_id))
        return True
    scene.uow.claims.save(replace(found, used_by=scene.chat_id))
    name = scene.person_name or "Coach"
    group = scene.uow.groups.add(
        people.Group(coach_chat_id=scene.chat_id, coach_name=name, name=f"{name}'s group", locale=scene.locale)
    )
    invite = new_invite(scene, group)
    review.schedule_group(scene, group)
    scene.say(replies.CoachWelcome(name, link_of(scene, invite)))
    return True


def new_invite(scene: Scene, group: people.Group) -> people.Invite:
    code = secrets.token_hex(8)  # letters and digits alone: a link that ends in a sign is cut short by some clients
    return scene.uow.invites.add(people.Invite(code=code, group_id=group.id, expires_at=scene.now + timedelta(days=_INVITE_DAYS)))


def link_of(scene: Scene, invite: people.Invite) -> str:
    return f"https://t.me/{scene.desk.bot_name}?start={invite.code}"


def hear(scene: Scene, group: people.Group, text: str) -> None:
    """Answer one text of the coach's."""
    if text.startswith("/"):
        _command(scene, group, text)
        return
    if ask_coach.coach_replies(scene, group, text) or to_member.hear_reply(scene, group, text):
        return
    changes = publish.looks_like_amendment(text) or publish.names_a_slot_to_change(text)
    if changes and publish.hear_amendment(scene, group, text):
        return
    if publish.looks_like_block(text):
        publish.hear_block(scene, group, text)
    elif not any(hears(scene, group, text) for hears in _HEARS):
        scene.say(replies.CoachNotUnderstood(text[:60]))


def speaks_as_coach(scene: Scene, group: people.Group, text: str) -> bool:
    """A coach who trains with the group writes: are these the coach's words, or the member's?"""
    if publish.looks_like_block(text) or publish.looks_like_amendment(text):
        return True
    if text.startswith("/"):
        return _command_in(text) in _COMMANDS
    about = scene.reply_to is not None and to_member.member_told_of(scene, group) is not None
    return about or any(pattern.match(text) for pattern in _COACHS_OWN) or _member_targeted(scene, group, text)


def _member_targeted(scene: Scene, group: people.Group, text: str) -> bool:
    """ "Mira day 2 A1: 22.5 x 8", where somebody is called so."""
    found = _OVERRIDE.match(text)
    return found is not None and len(to_member.members_called(scene, group, found["who"])) == 1


def _small_talk(scene: Scene, group: people.Group, text: str) -> bool:
    found = ask_coach.is_small_talk(text)
    if found:
        scene.say(replies.Acknowledged(ask_coach.small_talk_kind(text), coach=True))
    return found


def _typed_answer(scene: Scene, group: people.Group, text: str) -> bool:
    return answer_by_words(scene, text)


def _emergency(scene: Scene, group: people.Group, text: str) -> bool:
    return outside.hear_emergency(scene, text)


_COMMANDS = ("invite", "group", "members", "picture", "template", "block")


def _command_in(text: str) -> str:
    return re.split(r"[\s@]", text[1:], maxsplit=1)[0].lower()


def _command(scene: Scene, group: people.Group, text: str) -> None:
    name = _command_in(text)
    if name == "invite":
        invite = new_invite(scene, group)
        scene.say(replies.InviteMade(link_of(scene, invite), invite.expires_at))
    elif name in ("group", "members"):
        show_members(scene, group)
    elif name == "picture":
        review.group_week(scene, group)
    elif name == "template":
        _template(scene)
    elif name == "block":
        _current_block(scene, group)
    else:
        scene.say(replies.HelpShown(coach=True, command="" if name in ("help", "start") else name[:30]))


_EVERYONE = re.compile(
    r"\s*(?:(?:tell|message) (?:everyone|everybody|all|the group)(?:\s*[:,–-]\s*|\s+(?:that\s+)?)|to (?:everyone|everybody|all)\s*:\s*)(.+)",
    re.IGNORECASE | re.DOTALL,
)
_CALL_GROUP = re.compile(r"\s*(?:call|name) (?:my |the )?group\s*:?\s*(.{1,60})", re.IGNORECASE)
_OVERRIDE = re.compile(r"\s*(?P<who>[^\d:]{2,40}?)\s+(?:day\s*(?P<day>\d)\s+)?(?P<label>[A-Za-z]\d)\s*[:=]\s*(?P<what>.+)")
_INVITE = re.compile(r"\s*(?:new )?invite(?: link)?[?.! ]*$", re.IGNORECASE)
# What only a coach says, so that a coach who trains too is heard as one.
_COACHS_OWN = (_EVERYONE, to_member.TELL, _CALL_GROUP, _INVITE)


def _wish(scene: Scene, group: people.Group, text: str) -> bool:
    everyone = _EVERYONE.match(text)
    if everyone:
        said = everyone[1].strip()[:3000]
        count = len(publish.active_members(scene, group))
        scene.say(
            replies.CoachSaysSentence("tell_everyone", (f"{count} member{'' if count == 1 else 's'}", said)),
            Choice(TellEveryone(said)),
            Choice(DoNothing()),
            code="tell",
        )
        return True
    words = text.strip().casefold().rstrip("?.! ")
    for pattern, does in (
        (r"|help|help me|what can (?:i|you) do|how does (?:this|it) work|commands?|menu|who are you|what are you", "/help"),
        (r"invite|new invite|invite link", "/invite"),
        (r"group|members|who is in|who has (?:it|the block)", "/group"),
        (
            r"(?:how is|how's|how are) (?:everyone|everybody|the group|they|it|[\w ]{2,30})(?: doing| going)?|picture|week|this week",
            "/picture",
        ),
        (r"(?:what|how) did [\w ]{2,30} do(?: this week| last week| today)?", "/picture"),
        (r"template|block template", "/template"),
        (
            r"block|current block|show (?:me )?(?:the )?block|when (?:does|will|is) (?:it|the block|the next block) (?:go out|out|published|come)",
            "/block",
        ),
    ):
        if re.fullmatch(pattern, words):
            _command(scene, group, does)
            return True
    if to_member.hear(scene, group, text) or _removal(scene, group, text):
        return True
    return _override(scene, group, text) or _call_group(scene, group, text) or _coach_zone(scene, group, text)


# Who looks at a coach's text, one after another, after blocks and changes.
_HEARS: tuple[Callable[[Scene, people.Group, str], bool], ...] = (
    _typed_answer,
    _wish,
    _emergency,
    _small_talk,
    publish.hear_name,
)


_REMOVE = re.compile(
    r"\s*(?:remove|kick(?: out)?|take out|throw out|drop)\s+(?P<who>[^\d:,\n]{2,40}?)(?: (?:from|out of) (?:the|my) group)?[.! ]*$",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Remove:
    """The coach takes somebody out of the group."""

    member: int


def _removal(scene: Scene, group: people.Group, text: str) -> bool:
    found = _REMOVE.match(text)
    if found is None:
        return False
    members = to_member.members_called(scene, group, found["who"])
    if len(members) != 1:  # "remove the plank" is none of a member
        return False
    asked = replies.CoachSaysSentence("remove_whom", (members[0].name,))
    scene.say(asked, Choice(Remove(int(members[0].id))), Choice(DoNothing()), code="remove")
    return True


@deed(Remove)
def remove(scene: Scene, wish: Remove) -> None:
    group, member = group_here(scene), scene.uow.members.get(wish.member)
    if group is None or member is None or member.group_id != group.id or member.state is people.MemberState.LEFT:
        return
    scene.uow.due.cancel_all(member_id=int(member.id))
    scene.uow.members.save(replace(member, state=people.MemberState.LEFT))
    scene.say(replies.Removed(group.coach_name), to=member.chat_id)
    scene.say(replies.CoachSaysSentence("removed", (member.name,)))


def _call_group(scene: Scene, group: people.Group, text: str) -> bool:
    named = _CALL_GROUP.fullmatch(text)
    if named:
        scene.uow.groups.save(replace(group, name=named[1].strip()))
        scene.say(replies.CoachSaysSentence("group_named", (named[1].strip(),)))
    return bool(named)


def _coach_zone(scene: Scene, group: people.Group, text: str) -> bool:
    from bot.language.places import find_places

    named = re.fullmatch(r"\s*(?:i live in|i am in|i'm in|my place is|my zone is)\s+(.{2,60})", text, re.IGNORECASE)
    found = find_places(named[1]) if named else ()
    if len({place.zone for place in found}) > 1:
        choices = [Choice(CoachLives(place.name, place.zone), str(place)[:60]) for place in found[:4]]
        assert named is not None
        scene.say(replies.AskWhichPlace(named[1].strip()[:60]), *choices, row=1, code="coach_zone")
    elif found:
        coach_lives(scene, CoachLives(found[0].name, found[0].zone))
    return bool(found)


@dataclass(frozen=True, slots=True)
class CoachLives:
    place: str
    zone: str


@deed(CoachLives)
def coach_lives(scene: Scene, wish: CoachLives) -> None:
    group = group_here(scene)
    if group is not None:
        group = scene.uow.groups.save(replace(group, zone=wish.zone))
        review.schedule_group(scene, group)
        scene.say(replies.CoachSaysSentence("coach_zone", (wish.place, wish.zone)))


def _override(scene: Scene, group: people.Group, text: str) -> bool:
    """ "Mira day 2 A1: 22.5 x 8-10": this member's next target in a slot is the coach's."""
    found = _OVERRIDE.match(text)
    if not found:
        return False
    members = to_member.members_called(scene, group, found["who"])
    course = course_of(scene, members[0]) if len(members) == 1 else None
    if len(members) != 1 or course is None:
        scene.say(replies.CoachSaysSentence("which_member", (found["who"].strip(),)))
        return True
    member, label = members[0], found["label"].upper()
    days = [day for day in course.block.days if day.slot(label) and (not found["day"] or day.number == int(found["day"]))]
    target = read_target(found["what"], member.unit)
    if len(days) != 1 or target is None:
        where = ", ".join(f"day {day.number}" for day in days) or label
        scene.say(replies.CoachSaysSentence("which_slot" if target else "no_target", (label, where, found["what"].strip())))
        return True
    review.set_target(scene, course, days[0], label, target)
    scene.say(replies.TargetSet(member.name, f"day {days[0].number} {label}", say_target(target)))
    if rests(course, label, days[0].number):
        scene.say(replies.CoachSaysSentence("rests_for_pain", (member.name, f"day {days[0].number} {label}")))
    return True


def say_target(target: SetTarget) -> str:
    reps = "" if target.low is None else f"{target.low}" if target.low == target.high else f"{target.low}-{target.high}"
    return " x ".join(part for part in (say_load(target.load) if target.load else "", reps) if part)


@deed(TellEveryone)
def tell_everyone(scene: Scene, wish: TellEveryone) -> None:
    group = group_here(scene)
    if group is None:
        return
    members = publish.active_members(scene, group)
    reached = [member for member in members if member.reachable]
    for member in reached:
        scene.say(replies.FromCoach(group.coach_name, wish.text), to=member.chat_id, lane="bulk")
    scene.say(replies.BroadcastSent(len(reached), len(members) - len(reached)))


@deed(DoNothing)
def do_nothing(scene: Scene, wish: DoNothing) -> None:
    scene.say(replies.CoachSaysSentence("left_it"))


def group_here(scene: Scene) -> people.Group | None:
    """The group whose coach this chat is."""
    return scene.uow.groups.newest(coach_chat_id=scene.chat_id)


def show_members(scene: Scene, group: people.Group) -> None:
    rows = []
    for member in scene.uow.members.find(group_id=group.id):
        if member.state is people.MemberState.LEFT:
            continue
        course = course_of(scene, member)
        where = f"{course.block.name}, week {course.week_of(course.today)} of {course.assignment.weeks}" if course else ""
        rows.append((member.name, member.state.value, where, member.reachable))
    scene.say(replies.MembersShown(tuple(rows)))


def _template(scene: Scene) -> None:
    import base64

    from bot.language.blocks import template_text, template_xlsx

    text = base64.b64encode(template_text().encode()).decode()
    scene.say(replies.File("block-template.txt", "template", text))
    scene.say(replies.File("block-template.xlsx", "template_sheet", base64.b64encode(template_xlsx()).decode()))


def _current_block(scene: Scene, group: people.Group) -> None:
    import base64

    from bot.language.blocks import write_text

    newest = publish.newest_published(scene, group)
    waits = publish.say_scheduled(scene, group)
    if newest is None:
        if not waits:
            scene.say(replies.CoachSaysSentence("no_block_yet"))
        return
    data = base64.b64encode(write_text(newest.block).encode()).decode()
    scene.say(replies.File("block.txt", "block_as_text", data))
    choices = [Choice(publish.Preview(newest.id, day.number)) for day in newest.block.days[:7]]
    scene.say(replies.CoachSaysSentence("look_at_day"), *choices, Choice(publish.WhoHasIt(newest.id)), code="block_shown")
