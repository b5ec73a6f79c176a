"""The coach writes to one member: by replying to a message about them, or with "tell Mira: ..."."""

from __future__ import annotations

import re
from dataclasses import dataclass

from bot.coaching import replies
from bot.coaching.scene import Choice, Scene, deed
from bot.training import people

# "my coach" is no member: a coach who trains too speaks to themself so.
TELL = re.compile(
    r"\s*(?:(?:tell|message|text|write(?: to)?|let)\s+)(?P<who>(?!(?:my |the )?(?:coach|me)\b)[^\d:,\n]{2,40}?)\s*(?:[:,]|\s(?:that|know)\b)\s*(?P<what>.+)",
    re.IGNORECASE | re.DOTALL,
)
_LONGEST = 3000


@dataclass(frozen=True, slots=True)
class TellOne:
    member: int
    text: str


@dataclass(frozen=True, slots=True)
class TellNobody:
    pass


def members_called(scene: Scene, group: people.Group, name: str) -> list[people.Member]:
    """The group's active members of that name; those whose name begins so where none is called just that."""
    who = name.strip().casefold()
    members = scene.uow.members.find(group_id=group.id, state=people.MemberState.ACTIVE)
    exact = [member for member in members if member.name.casefold() == who]
    return exact or [member for member in members if member.name.casefold().startswith(who)]


def hear_reply(scene: Scene, group: people.Group, text: str) -> bool:
    """The coach replied to a message that tells of a member (pain, silence, joining): the words go to that member."""
    about = member_told_of(scene, group)
    if about is None:
        return False
    _send(scene, group, about, text)
    return True


def member_told_of(scene: Scene, group: people.Group) -> people.Member | None:
    """The member whom the message is about that the coach replies to."""
    row = scene.uow.outbox.sent(scene.chat_id, scene.reply_to) if scene.reply_to is not None else None
    member = scene.uow.members.get(row.fields.get("member", 0)) if row is not None else None
    return member if member is not None and member.group_id == group.id else None


def hear(scene: Scene, group: people.Group, text: str) -> bool:
    """ "tell Mira: well done": asked once more before it goes out."""
    said = TELL.match(text)
    if said is None:
        return False
    found = members_called(scene, group, said["who"])
    if len(found) != 1:
        scene.say(replies.CoachSaysSentence("which_member", (said["who"].strip(),)))
        return True
    words = said["what"].strip()[:_LONGEST]
    asked = replies.CoachSaysSentence("tell_one", (found[0].name, words))
    scene.say(asked, Choice(TellOne(int(found[0].id), words)), Choice(TellNobody()), code="tell")
    return True


@deed(TellOne)
def tell_one(scene: Scene, wish: TellOne) -> None:
    group = scene.uow.groups.newest(coach_chat_id=scene.chat_id)
    member = scene.uow.members.get(wish.member)
    if group is not None and member is not None and member.group_id == group.id:
        _send(scene, group, member, wish.text)


@deed(TellNobody)
def tell_nobody(scene: Scene, wish: TellNobody) -> None:
    scene.say(replies.CoachSaysSentence("left_it"))


def _send(scene: Scene, group: people.Group, member: people.Member, text: str) -> None:
    if member.state is people.MemberState.LEFT or not member.reachable:
        why = "has_left" if member.state is people.MemberState.LEFT else "not_reached"
        scene.say(replies.CoachSaysSentence(why, (member.name,)))
        return
    scene.say(replies.FromCoach(group.coach_name, text[:_LONGEST]), to=member.chat_id)
    scene.say(replies.CoachSaysSentence("told_one", (member.name,)))
