"""A crowd on the stage: one member's plan, block and assignment under many names, without a month of chat for each."""

from __future__ import annotations

from dataclasses import replace

from bot.coaching import reminders
from bot.coaching.scene import Desk, Scene
from bot.training import people
from bot.training.exercises.catalogue import load_catalogue
from scenarios.player import Person
from tests.builders.stage import Stage

FIRST_CHAT = 5_000_000


def crowd_like(stage: Stage, person: Person, many: int) -> list[people.Member]:
    """So many members who joined as this person did, each with the next reminder planned."""
    like = stage.member_of(person)
    desk = Desk(catalogue=load_catalogue(), button_words=str)
    crowd = []
    with stage.program.open_uow() as uow:
        assignment = uow.assignments.newest(member_id=like.id, ended_on=None)
        scene = Scene(uow=uow, now=stage.clock.now(), desk=desk, chat_id=0)
        first = FIRST_CHAT + uow.members.count()
        for chat_id in range(first, first + many):
            member = uow.members.add(replace(like, id=people.MemberId(0), chat_id=chat_id, feed_key=f"feed {chat_id}"))
            uow.assignments.add(replace(assignment, id=0, member_id=member.id))
            reminders.schedule(scene, member)
            crowd.append(member)
        uow.commit()
    return crowd
