"""Somebody writes who trains with nobody here: a stranger, one who has left, a coach whose words are none of a coach's.

Signs of an emergency are answered whoever writes. Who has left can still have everything sent or erased.
"""

from __future__ import annotations

import re

from bot.coaching import replies, show
from bot.coaching.scene import Scene, answer_by_words
from bot.language.safety import Level, read_safety
from bot.training import people

# What may still be asked for after leaving.
_STILL = ("mydata", "erase", "privacy")


def hear_emergency(scene: Scene, text: str) -> bool:
    """The advice to stop and call, for somebody without a coach who could be told. False if the text speaks of no emergency."""
    found = read_safety(text).level is Level.EMERGENCY
    if found:
        scene.say(replies.StopAndCall(coach_told=False))
    return found


def hear_former(scene: Scene, member: people.Member, text: str) -> None:
    """One text of somebody who has left: their data is theirs, all else needs coming back first."""
    if answer_by_words(scene, text):
        return
    name = re.split(r"[\s@]", text[1:], maxsplit=1)[0].lower() if text.startswith("/") else ""
    wish = show.COMMANDS.get(name) if name else show.word_for(text)
    if wish in [show.COMMANDS[one] for one in _STILL]:
        assert wish is not None
        wish(scene, member)
        return
    group = scene.uow.groups.get(member.group_id)
    scene.say(replies.HasLeft(group.coach_name if group else ""))
