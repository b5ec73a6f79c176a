"""Where is a member in the block, and in the light of what is a text of theirs read?"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import cached_property

from bot.coaching.scene import Scene
from bot.language.situation import Habits, Situation
from bot.training import people
from bot.training.blocks import Block, Day, ExerciseId, SetPlace, Slot, block_in_week
from bot.training.exercises.catalogue import Catalogue
from bot.training.plain import from_plain
from bot.training.plan import PlannedSession, sessions_between
from bot.training.records import SetRecord
from bot.training.substitutes import kit_version, slot_under

# A session begun in the evening may run past midnight; so long after its start it still takes the sets (our choice).
_SESSION_HOURS = 5
# How far back a missed session is offered when somebody trains on a rest day (our choice: the split has at most one rest day in a row).
_MISSED_DAYS = 2


@dataclass(frozen=True)
class Course:
    """A member on a block: the assignment, the newest revision, and everything that is looked up around them."""

    scene: Scene
    member: people.Member
    assignment: people.Assignment
    revision: people.Revision

    @cached_property
    def block(self) -> Block:
        """The block with the sets of the week that is now (of the session's week while one runs)."""
        return self.block_on(self.session.on if self.session else self.today)

    def block_on(self, on: date) -> Block:
        """The block with the sets of the week that a date is in."""
        return block_in_week(self.revision.block, self.week_of(on))

    @cached_property
    def catalogue(self) -> Catalogue:
        return self.scene.catalogue(self.member.group_id)

    @cached_property
    def today(self) -> date:
        return self.scene.today(self.member)

    def week_of(self, on: date) -> int:
        """The block's week on a date, from 1; the first day of the assignment is in week 1."""
        return max(1, (on - self.assignment.started_on).days // 7 + 1)

    @cached_property
    def sessions(self) -> list[people.Session]:
        """All sessions of this member since the block began, oldest first."""
        found = self.scene.uow.sessions.find(member_id=self.member.id, on=(self.assignment.started_on, date.max))
        return sorted(found, key=lambda session: (session.on, session.id))

    def done_days(self) -> dict[date, int]:
        return {session.on: session.day for session in self.sessions}

    def planned(self, first: date, last: date) -> tuple[PlannedSession, ...]:
        """The plan's sessions from first to last, both included, none before the block begins."""
        if self.member.plan is None:
            return ()
        begin = max(first, self.assignment.started_on)
        rhythm = self.revision.block.rhythm
        return sessions_between(
            self.member.plan, rhythm, len(self.revision.block.days), begin, last, self.done_days(), today=self.today
        )

    @cached_property
    def session(self) -> people.Session | None:
        """The session that sets go into now: today's, or last evening's while it is still running."""
        todays = [session for session in self.sessions if session.on == self.today]
        if todays:
            running = [session for session in todays if session.state is people.SessionState.OPEN]
            return (running or todays)[-1]
        late = self.scene.now - timedelta(hours=_SESSION_HOURS)
        for session in reversed(self.sessions):
            if session.state is people.SessionState.OPEN and session.started_at >= late:
                return session
        return None

    @cached_property
    def day_number(self) -> int | None:
        """The day of the split for today: the session's, else the plan's. None on a rest day."""
        if self.session is not None:
            return self.session.day
        planned = self.planned(self.today, self.today)
        return planned[0].day_number if planned else None

    @cached_property
    def trainable_day(self) -> int | None:
        """Today's day; on a rest day the one that was missed just before, else the one that comes next."""
        if self.day_number is not None:
            return self.day_number
        done = self.done_days()
        missed = [p for p in self.planned(self.today - timedelta(days=_MISSED_DAYS), self.today) if p.date not in done]
        coming = self.planned(self.today, self.today + timedelta(days=7))
        return missed[-1].day_number if missed else coming[0].day_number if coming else None

    def block_of(self, session: people.Session | None) -> Block:
        """The block as it was when the session began: one under way keeps its revision."""
        if session is None or session.revision_id == self.revision.id:
            return self.block if session is None else self.block_on(session.on)
        kept = self.scene.uow.revisions.get(session.revision_id)
        return block_in_week(kept.block, self.week_of(session.on)) if kept else self.block

    @cached_property
    def day(self) -> Day | None:
        """Today's day, each slot that was swapped with the sets and sides that its substitute asks for."""
        number = self.trainable_day
        day = self.block_of(self.session).day(number) if number is not None else None
        return replace(day, slots=tuple(self._as_trained(slot) for slot in day.slots)) if day and self.swaps else day

    def _as_trained(self, slot: Slot) -> Slot:
        entry = self.catalogue.get(slot.exercise) if slot.exercise else None
        other = self.catalogue.get(self.swaps[slot.label]) if slot.label in self.swaps else None
        return slot_under(slot, entry, other) if entry and other else slot

    def records_of(self, session: people.Session) -> list[people.KeptRecord]:
        return self.scene.uow.records.find(session_id=session.id, active=True)

    @cached_property
    def today_records(self) -> list[people.KeptRecord]:
        return self.records_of(self.session) if self.session else []

    def earlier_sessions(self, day: int, before: date) -> list[people.Session]:
        """Sessions of one day of this block before a date, newest first."""
        return [s for s in reversed(self.sessions) if s.day == day and s.on < before]

    def last_records(self, day: int, before: date) -> list[people.KeptRecord]:
        """Each slot's records from the latest earlier session in which it was done, as one list."""
        seen: set[str] = set()
        found: list[people.KeptRecord] = []
        for session in self.earlier_sessions(day, before)[:6]:
            fresh = [kept for kept in self.records_of(session) if kept.label and kept.label not in seen]
            seen |= {kept.label for kept in fresh}
            found += fresh
        return found

    @cached_property
    def swaps(self) -> dict[str, ExerciseId]:
        """Slot label -> substitute, for today's day: the block-wide ones, then this session's own."""
        if self.trainable_day is None:
            return {}
        taken = self.scene.uow.swaps.find(member_id=self.member.id, series=self.revision.series, active=True)
        todays = [swap for swap in taken if swap.day == self.trainable_day]
        block_wide = {swap.label: swap.exercise for swap in todays if swap.session_id is None}
        return block_wide | (dict(self.session.swaps) if self.session else {})

    def own_version(self, slot: Slot) -> ExerciseId | None:
        """The coach's exercise with the implement that this member owns: a dumbbell Romanian deadlift where there is no bar."""
        if slot.exercise is None:
            return None
        return kit_version(slot.exercise, self.member.kit, self.catalogue, written=slot.exercise_name)

    def _versions(self, day: Day | None) -> dict[str, ExerciseId]:
        """The slots of a day that this member does with another implement than the catalogue's."""
        owned = {slot.label: self.own_version(slot) for slot in day.slots} if day else {}
        return {label: exercise for label, exercise in owned.items() if exercise and day and exercise != _exercise(day, label)}

    def exercise_of(self, slot: Slot) -> ExerciseId | None:
        return self.swaps.get(slot.label, self.own_version(slot))

    def name_of(self, slot: Slot) -> str:
        """What the member is to do in a slot, by name."""
        swapped = self.swaps.get(slot.label)
        entry = self.catalogue.get(swapped) if swapped else None
        return entry.name if entry else slot.exercise_name

    def situation(self) -> Situation:
        """What a text is read in the light of, now."""
        member, session = self.member, self.session
        now = self.scene.local(member.zone)
        day = self.day
        versions = self._versions(day)
        records = [with_id(kept) for kept in self.today_records]
        last = [with_id(kept) for kept in self.last_records(day.number, session.on if session else self.today)] if day else []
        since = self.today - timedelta(days=15)
        earlier = self.scene.uow.records.find(member_id=member.id, on=(since, self.today), active=True)
        own = {kept.id for kept in self.today_records}
        skipped = session.skipped if session else ()
        if session and session.stopped and day:
            skipped += tuple(
                SetPlace(label, n) for label in session.stopped if (slot := day.slot(label)) for n in range(1, len(slot.sets) + 1)
            )
        return Situation(
            now=now,
            day=day,
            block=self.block_of(session),
            today=tuple(records),
            last_time=tuple(last),
            earlier=tuple(with_id(kept) for kept in earlier if kept.id not in own),
            kit=member.kit,
            unit=member.unit,
            habits=from_plain(member.habits, Habits),
            swaps=tuple((versions | self.swaps).items()),
            skipped=skipped,
            due_override=session.pointer if session else None,
            last_text=member.last_text,
            planned=tuple((one.date, one.day_number) for one in self.planned(since, self.today)),
            session_on=session.on if session else None,
        )


def _exercise(day: Day, label: str) -> ExerciseId | None:
    slot = day.slot(label)
    return slot.exercise if slot else None


def with_id(kept: people.KeptRecord) -> SetRecord:
    """The set record, knowing its row."""
    return replace(kept.record, record_id=kept.id)


def course_of(scene: Scene, member: people.Member) -> Course | None:
    """The block that a member is on today, with its newest published revision; None before the first."""
    assignment = scene.uow.assignments.newest(member_id=member.id, ended_on=None)
    if assignment is None:
        return None
    revisions = scene.uow.revisions.find(group_id=member.group_id, series=assignment.series, state=people.RevisionState.PUBLISHED)
    return Course(scene, member, assignment, revisions[-1]) if revisions else None


def foresee_courses(scene: Scene, member_ids: Collection[int]) -> None:
    """Look up for many members at once what the courses of all of them will ask for."""
    uow = scene.uow
    uow.members.foresee("id", member_ids)
    uow.assignments.foresee("member_id", member_ids, ended_on=None)
    uow.pains.foresee("member_id", member_ids, open=True)
    of_series, of_start = defaultdict[int, set[int]](set), defaultdict[date, set[int]](set)
    for member_id in member_ids:
        assignment = uow.assignments.newest(member_id=member_id, ended_on=None)
        if assignment is not None:
            of_series[assignment.series].add(member_id)
            of_start[assignment.started_on].add(member_id)
    for series, members in of_series.items():
        uow.swaps.foresee("member_id", members, series=series, active=True)
    for started_on, members in of_start.items():
        uow.sessions.foresee("member_id", members, on=(started_on, date.max))


def bare_situation(scene: Scene, member: people.Member) -> Situation:
    """For a member who has no block yet."""
    return Situation(now=scene.local(member.zone), kit=member.kit, unit=member.unit, habits=from_plain(member.habits, Habits))
