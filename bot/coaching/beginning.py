"""A member begins a block: on which date, on which of their weekdays, reminded when?

The coach's rhythm says how many days a week a block has. Who trained by the rhythm before trains by the new one; days that a member
chose are kept, the surplus left out. Nobody is given a day that they neither chose nor were used to.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from bot.coaching.scene import Scene
from bot.training import people
from bot.training.blocks import Block
from bot.training.plan import DEFAULT_RHYTHM, Mode, Plan, StartBlock, Weekdays, apply


def begin(
    scene: Scene, member: people.Member, revision: people.Revision, on: date, *, before: Block | None = None
) -> people.Member:
    """Start a member on a block, on the first date from one on that begins their week; their days and reminders follow.

    before: the block that they come from.
    """
    from bot.coaching import reminders

    start = _next_first_day(member.plan, on)
    if member.plan is not None:
        plan = _fitted(member.plan, revision.block, before, start=start, today=scene.today(member))
        member = scene.uow.members.save(replace(member, plan=plan))
    scene.uow.assignments.add(
        people.Assignment(member_id=member.id, series=revision.series, started_on=start, weeks=revision.block.weeks_default)
    )
    reminders.schedule(scene, member)
    return member


def weekdays_from(rhythm: tuple[bool, ...], first: int) -> tuple[int, ...]:
    """On which weekday each day of the split falls when day 1 falls on `first` (0 Monday)."""
    return tuple((first + n) % 7 for n, on in enumerate(rhythm) if on)


def fitting_weekdays(weekdays: tuple[int, ...], new: tuple[bool, ...], *, old: tuple[bool, ...] | None = None) -> tuple[int, ...]:
    """A member's training days under a new rhythm. old: the rhythm of the block that they come from, None for their first.

    Monday, Tuesday, Wednesday, Friday, Saturday, taken from the usual rhythm, under "on, rest, on" -> Monday, Wednesday
    """
    wanted = sum(new)
    if not weekdays or len(weekdays) == wanted or len(new) > 7:
        return weekdays
    known = old if old is not None else DEFAULT_RHYTHM
    if weekdays == weekdays_from(known, weekdays[0]):
        return weekdays_from(new, weekdays[0])
    # More or fewer days than a block has are meant so by whoever chose them under it; before the first one nobody could know.
    meant = old is not None and len(weekdays) != sum(old)
    return weekdays if meant else weekdays[:wanted]


def _next_first_day(plan: Plan | None, on: date) -> date:
    """The first date from one on that begins the member's week."""
    if plan is None:
        return on
    week = plan.week_start_for(on)
    return week if week >= on else week + timedelta(days=7)


def _fitted(plan: Plan, block: Block, before: Block | None, *, start: date, today: date) -> Plan:
    if plan.mode is Mode.WEEKDAYS:
        days = fitting_weekdays(plan.weekdays, block.rhythm, old=before.rhythm if before is not None else None)
        if days != plan.weekdays:
            plan = apply(plan, Weekdays(days, start, first_day=1), today=today)
    return apply(plan, StartBlock(start), today=today) if plan.start < start else plan
