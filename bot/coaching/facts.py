"""What has to be looked up before a member's question can be answered?"""

from __future__ import annotations

from datetime import timedelta

from bot.coaching.answers import Facts, Planned
from bot.coaching.course import Course, with_id
from bot.coaching.demos import demos_of
from bot.coaching.scene import Scene
from bot.coaching.targets import targets_of
from bot.training import people

_BACK = timedelta(days=14)
_AHEAD = timedelta(days=21)


def facts_for(scene: Scene, member: people.Member, course: Course | None, *, aims: bool = False) -> Facts:
    """Earlier records, the plan's coming and missed sessions, the place in the block; aims: today's targets too."""
    group = scene.uow.groups.get(member.group_id)
    coach = group.coach_name if group else ""
    if course is None:
        return Facts(coach=coach, catalogue=scene.catalogue(member.group_id), demos=demos_of(scene, member.group_id))
    today, done = course.today, course.done_days()
    names = {day.number: day.name for day in course.block.days}
    planned = course.planned(today - _BACK, today + _AHEAD)
    as_fact = [Planned(one.date, one.day_number, names.get(one.day_number, "")) for one in planned if one.date not in done]
    begin, weeks = course.assignment.started_on, course.assignment.weeks
    return Facts(
        records=tuple(with_id(kept) for kept in scene.uow.records.find(member_id=member.id, active=True)),
        coming=tuple(one for one in as_fact if one.on >= today),
        missed=tuple(one for one in as_fact if one.on < today),
        week=course.week_of(today),
        weeks=weeks,
        ends_on=begin + timedelta(weeks=weeks, days=-1),
        coach=coach,
        catalogue=course.catalogue,
        demos=demos_of(scene, member.group_id),
        aims={slot.label: targets_of(course, slot, course.day.number) for slot in course.day.slots}
        if aims and course.day
        else {},
    )
