"""A coach's block: read, asked about, looked over, published now or later, amended; and what each member does with it.

    text or file -> understood, unknown names asked about one by one -> remarks and picture -> preview, publish, schedule, withdraw
    published -> one message to each member, by the outbox -> a member without a block begins, one on another block chooses when

A published revision never changes. An amendment is the next revision; a session under way keeps the one it began under.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from bot.coaching import beginning, replies, settings
from bot.coaching.course import Course, course_of
from bot.coaching.own_exercises import of_pattern, remember_name
from bot.coaching.ports import KeptMessage
from bot.coaching.scene import Choice, Scene, close_questions, deed, unpack
from bot.coaching.targets import slot_line
from bot.language.blocks import BlockReading, read_amendment, read_block
from bot.language.blocks.amend_words import weeks_said
from bot.language.blocks.letters import count_words_as_figures, even
from bot.language.blocks.tables import looks_like_table
from bot.training import people
from bot.training.block_checks import MemberKit, check_block
from bot.training.blocks import Block, Day, ExerciseId, Slot, block_in_week, work_sets
from bot.training.changes import changes_between
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import Pattern
from bot.training.kit import Kit
from bot.training.plan import Mode
from bot.training.substitutes import Reason, can_do, kit_version, substitutes_for
from bot.training.volume import session_minutes, weekly_sets

_PUBLISH_HOUR = 8
_OTHER_DAYS = "Other days"
_NAME_ASKED = "name"  # the code of the question which exercise a new name means


@dataclass(frozen=True, slots=True)
class NameMeans:
    """The coach's word for an exercise means this one, from now on."""

    revision: int
    name: str
    exercise: ExerciseId


@dataclass(frozen=True, slots=True)
class KeepOwn:
    """The name is an exercise of the coach's own."""

    revision: int
    name: str


@dataclass(frozen=True, slots=True)
class OwnPattern:
    revision: int
    name: str
    pattern: Pattern


@dataclass(frozen=True, slots=True)
class Preview:
    revision: int
    day: int
    repeatable: bool = True


@dataclass(frozen=True, slots=True)
class PublishNow:
    revision: int


@dataclass(frozen=True, slots=True)
class PublishOn:
    revision: int
    on: date


@dataclass(frozen=True, slots=True)
class Withdraw:
    revision: int


@dataclass(frozen=True, slots=True)
class WhoHasIt:
    revision: int
    repeatable: bool = True


@dataclass(frozen=True, slots=True)
class TryAgain:
    """Send the block once more to those whom it did not reach."""

    revision: int


@dataclass(frozen=True, slots=True)
class ChangeOver:
    """The member begins the new block: on its next first day."""

    series: int


@dataclass(frozen=True, slots=True)
class FinishFirst:
    """The member stays on the running block till its weeks are over."""

    series: int


@dataclass(frozen=True, slots=True)
class StayLonger:
    """Two more weeks on the running block, as far as the coach's bounds go."""

    weeks: int = 2


def looks_like_block(text: str) -> bool:
    """Does a coach's text carry a whole block? Several lines, of which some begin with a slot or name a day."""
    if looks_like_table(text):
        return True
    lines = [line.strip(" #*") for line in count_words_as_figures(even(text)).splitlines() if line.strip(" #*")]
    slots = sum(bool(re.match(r"(?:[-*•]\s*)?[A-Za-z]\d[).:\s]", line)) for line in lines)
    sets = sum(
        bool(
            re.search(
                r"\d\s*x\s*\d|\d\s+(?:sets|rounds|holds)\b|\d\s*(?:s|sec\w*)\s+on\b|[/|]\s*\d{1,2}\s*[/|]\s*(?:\d|amrap|max)",
                line,
                re.I,
            )
        )
        for line in lines
    )
    days = sum(
        bool(re.match(r"(?:day|workout|session|tag)\s*[\dA-F]|(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\b", line, re.I))
        for line in lines
    )
    return len(lines) >= 3 and (slots >= 2 or sets >= 3 or (days >= 1 and sets >= 1))


_CHANGES_IN_WORDS = re.compile(
    r"\s*(?:please\s+|ok(?:ay)?[,\s]+)*(?:day\s*\d+\s*[:,]?\s*)?(?:add|drop|remove|delete|take|leave|cut|scrap|swap|replace|switch|put)\b.*\bday\s*\d|"
    r"\s*day\s*\d+\s*[:,]?\s*(?:add|drop|remove|delete|take\s+out|leave\s+out|cut|scrap|swap|replace|switch|put)\b",
    re.IGNORECASE | re.DOTALL,
)


_CHANGE_OF_A_SLOT = re.compile(
    r"\s*(?:please\s+|ok(?:ay)?[,\s]+)*(?:add|drop|remove|delete|take\s+out|leave\s+out|cut|scrap|swap|replace|switch|put\s+in)\s+(?:the\s+)?[A-Z]\d\b",
    re.IGNORECASE,
)


def names_a_slot_to_change(text: str) -> bool:
    """ "Drop B1", without a day: the coach's, unless they train along and may mean their own session."""
    return len(text) < 300 and _CHANGE_OF_A_SLOT.match(text) is not None


def looks_like_amendment(text: str) -> bool:
    """Does a text name a day and what to change there, or the block's length?"""
    if len(text) < 300 and (_CHANGES_IN_WORDS.match(text) or weeks_said(text) is not None):
        return True
    return bool(re.match(r"\s*(?:amend|change|day\s*\d+\s*[:,]?\s*[A-Z]\d|[A-Z]\d\s+day\s*\d)", text, re.I)) and len(text) < 1500


def hear_block(scene: Scene, group: people.Group, content: str | bytes, filename: str = "") -> None:
    """A block came as text or file: refuse it with every mistake named, or keep it as a draft and go on."""
    own = {name.name: name.exercise for name in scene.uow.own_names.find(group_id=group.id)}
    catalogue = scene.catalogue(group.id)
    reading = read_block(content, filename=filename, catalogue=catalogue, own_names=own)
    if reading.block is None:
        errors, warnings = _sentences(reading)
        scene.say(replies.BlockRefused(errors, warnings))
        return
    newest = scene.uow.revisions.find(group_id=group.id)
    for old in newest:
        if old.state is people.RevisionState.DRAFT:
            scene.uow.revisions.save(replace(old, state=people.RevisionState.WITHDRAWN))
    series = max((revision.series for revision in newest), default=0) + 1
    # Everybody hears of the block by its name; one that the coach gave none gets a plain one.
    block = reading.block if reading.block.name.strip() else replace(reading.block, name=f"Block {series}")
    draft = scene.uow.revisions.add(people.Revision(group_id=group.id, series=series, number=1, block=block, made_at=scene.now))
    _, warnings = _sentences(reading)
    _next_step(scene, group, draft, warnings)


def _sentences(reading: BlockReading) -> tuple[tuple[str, ...], tuple[str, ...]]:
    errors = tuple(problem.sentence for problem in reading.problems if problem.is_error)
    return errors, tuple(problem.sentence for problem in reading.problems if not problem.is_error)


def hear_amendment(scene: Scene, group: people.Group, text: str) -> bool:
    """A change to the draft that waits for its publishing, or a new revision of the newest published block. False if there is neither."""
    draft = scene.uow.revisions.newest(group_id=group.id, state=people.RevisionState.DRAFT)
    published = newest_published(scene, group)
    current = draft or published
    if current is None:
        return False
    own = {name.name: name.exercise for name in scene.uow.own_names.find(group_id=group.id)}
    reading = read_amendment(
        re.sub(r"^\s*amend\s*:?\s*", "", text, flags=re.I), current.block, catalogue=scene.catalogue(group.id), own_names=own
    )
    if reading.block is None:
        scene.say(replies.BlockRefused(tuple(problem.sentence for problem in reading.problems), amendment=True))
        return True
    if draft is not None:
        _next_step(scene, group, scene.uow.revisions.save(replace(draft, block=reading.block)), ())
        return True
    number = max(r.number for r in scene.uow.revisions.find(group_id=group.id, series=current.series)) + 1
    draft = scene.uow.revisions.add(
        people.Revision(group_id=group.id, series=current.series, number=number, block=reading.block, made_at=scene.now)
    )
    _next_step(scene, group, draft, ())
    return True


def scheduled_block(scene: Scene, group: people.Group) -> people.Revision | None:
    return scene.uow.revisions.newest(group_id=group.id, state=people.RevisionState.SCHEDULED)


def say_scheduled(scene: Scene, group: people.Group) -> bool:
    """The block that waits for its date, with the way to take it back. False if there is none."""
    waits = scheduled_block(scene, group)
    if waits is None or waits.publish_on is None:
        return False
    said = replies.CoachSaysSentence(
        "block_waits", (waits.block.name or "The block", f"{waits.publish_on:%a} {waits.publish_on.day} {waits.publish_on:%b}")
    )
    scene.say(said, Choice(Withdraw(waits.id)), code="published")
    return True


def newest_published(scene: Scene, group: people.Group) -> people.Revision | None:
    return scene.uow.revisions.newest(group_id=group.id, state=people.RevisionState.PUBLISHED)


def _unknown(block: Block) -> list[tuple[str, str]]:
    """(name, where) of slots whose exercise is not known yet, each name once."""
    seen: dict[str, str] = {}
    for day in block.days:
        for slot in day.slots:
            if slot.exercise is None:
                seen.setdefault(slot.exercise_name, f"day {day.number}, {slot.label}")
    return list(seen.items())


def _next_step(scene: Scene, group: people.Group, draft: people.Revision, warnings: tuple[str, ...]) -> None:
    unknown = _unknown(draft.block)
    if not unknown:
        _show_draft(scene, group, draft, warnings)
        return
    _ask_exercise(scene, group, draft, unknown)


def _ask_exercise(
    scene: Scene, group: people.Group, draft: people.Revision, unknown: list[tuple[str, str]], typed: str = ""
) -> None:
    """Ask what the first unknown name means. typed: what the coach wrote instead of taking one of the buttons."""
    name, where = unknown[0]
    catalogue = scene.catalogue(group.id)
    near = [catalogue.get(match.exercise) for match in catalogue.names.find(typed or name, limit=4)]
    choices = [Choice(NameMeans(draft.id, name, entry.id), entry.name) for entry in near if entry]
    asked = replies.AskExercise(name, where, len(unknown) - 1, typed[:60])
    scene.say(asked, *choices, Choice(KeepOwn(draft.id, name)), row=1, code=_NAME_ASKED)


def hear_name(scene: Scene, group: people.Group, text: str) -> bool:
    """A typed answer to the question which exercise a new name means."""
    asked = scene.uow.asked.newest(chat_id=scene.chat_id, open=True)
    if asked is None or asked.code != _NAME_ASKED or len(text) > 60 or re.search(r"[\n:@]|\d\s*x\s*\d", text, re.IGNORECASE):
        return False
    own = unpack(asked.answers[-1][1])
    found = _draft(scene, own.revision)
    unknown = _unknown(found[0].block) if found else []
    if found is None or not unknown:
        return False
    close_questions(scene, (_NAME_ASKED,))
    catalogue = scene.catalogue(group.id)
    best = next(iter(catalogue.names.find(text, limit=1)), None)
    if best is not None and best.exact:
        name_means(scene, NameMeans(own.revision, own.name, best.exercise))
    else:
        _ask_exercise(scene, group, found[0], unknown, text)
    return True


def _resolve(scene: Scene, draft: people.Revision, name: str, exercise: ExerciseId) -> people.Revision:
    days = tuple(
        replace(
            day, slots=tuple(replace(s, exercise=exercise) if s.exercise is None and s.exercise_name == name else s for s in day.slots)
        )
        for day in draft.block.days
    )  # fmt: skip
    return scene.uow.revisions.save(replace(draft, block=replace(draft.block, days=days)))


def _draft(scene: Scene, revision_id: int) -> tuple[people.Revision, people.Group] | None:
    """The version of a block that a button speaks of, if it is this chat's group's."""
    revision = scene.uow.revisions.get(revision_id)
    group = scene.uow.groups.get(revision.group_id) if revision else None
    if revision is None or group is None or group.coach_chat_id != scene.chat_id:
        return None
    return revision, group


def _waiting(scene: Scene, revision_id: int) -> tuple[people.Revision, people.Group] | None:
    """The same, for a button that does something with it: one that has been replaced, withdrawn or published says so instead."""
    found = _draft(scene, revision_id)
    if found is None:
        return None
    state, name = found[0].state, found[0].block.name or "That block"
    if state in (people.RevisionState.DRAFT, people.RevisionState.SCHEDULED):
        return found
    scene.say(replies.CoachSaysSentence("is_out" if state is people.RevisionState.PUBLISHED else "set_aside", (name,)))
    return None


@deed(NameMeans)
def name_means(scene: Scene, wish: NameMeans) -> None:
    found = _waiting(scene, wish.revision)
    if found is None:
        return
    draft, group = found
    remember_name(scene, group.id, wish.name, wish.exercise)
    _next_step(scene, group, _resolve(scene, draft, wish.name, wish.exercise), ())


@deed(KeepOwn)
def keep_own(scene: Scene, wish: KeepOwn) -> None:
    if _waiting(scene, wish.revision) is None:
        return
    patterns = [p for p in Pattern if p not in (Pattern.GRIP, Pattern.WRIST, Pattern.SHIN)]
    choices = [Choice(OwnPattern(wish.revision, wish.name, pattern), pattern.value.replace("_", " ")) for pattern in patterns]
    scene.say(replies.OwnExerciseAsked(wish.name), *choices, row=3, code="block")


@deed(OwnPattern)
def own_pattern(scene: Scene, wish: OwnPattern) -> None:
    """Keep an exercise of the coach's own, with what its pattern tells of muscles and kit."""
    found = _waiting(scene, wish.revision)
    if found is None:
        return
    draft, group = found
    model = next((entry for entry in scene.desk.catalogue.all if entry.pattern is wish.pattern), None)
    entry = of_pattern(wish.name, wish.pattern, model)
    remember_name(scene, group.id, wish.name, entry.id, entry)
    _next_step(scene, group, _resolve(scene, draft, wish.name, entry.id), ())


def _show_draft(scene: Scene, group: people.Group, draft: people.Revision, warnings: tuple[str, ...]) -> None:
    """What was understood, what a colleague would say, and the next steps as buttons."""
    block, catalogue = draft.block, scene.catalogue(group.id)
    last = _before(scene, group, draft)
    members = active_members(scene, group)
    kits = [MemberKit(member.name, member.kit) for member in members]
    remarks = check_block(block, catalogue=catalogue, last_block=last, members=kits, substitutes=_stand_in(catalogue))
    minutes = tuple((day.name or f"Day {day.number}", _minutes(day, catalogue)) for day in block.days)
    amendment = draft.number > 1
    changes = tuple(change.sentence for change in changes_between(last, block)) if amendment and last else ()
    picture = {
        "now": {group_name: float(n) for group_name, n in weekly_sets(block, catalogue).fractional.items()},
        "before": {name: float(n) for name, n in weekly_sets(last, catalogue).fractional.items()} if last else {},
    }
    sets = _count_sets(block)
    weeks = sorted({change.week for day in block.days for slot in day.slots for change in slot.weeks})
    understood = replies.BlockUnderstood(
        block.name, len(block.days), sum(len(day.slots) for day in block.days), sets, minutes, warnings,
        tuple(f"{remark.text} ({remark.source})" for remark in remarks), changes, amendment, None if amendment else picture,
        tuple((week, _count_sets(block_in_week(block, week))) for week in weeks),
    )  # fmt: skip
    later = [Choice(PublishOn(draft.id, day)) for day in _publish_days(scene, group)] if not amendment else []
    scene.say(
        understood,
        Choice(PublishNow(draft.id)),
        *later,
        *(Choice(Preview(draft.id, day.number)) for day in block.days[:7]),
        Choice(Withdraw(draft.id)),
        code="publish",
    )


def _count_sets(block: Block) -> int:
    return sum(len(work_sets(slot)) for day in block.days for slot in day.slots)


def _minutes(day: Day, catalogue: Catalogue) -> str:
    low, high = session_minutes(day, catalogue)
    return f"{low}" if low == high else f"{low}-{high}"


def _publish_days(scene: Scene, group: people.Group) -> list[date]:
    """Tomorrow, and the next Monday if that is another day: most blocks begin with the week (common practice)."""
    today = scene.local(group.zone).date()
    monday = today + timedelta(days=(7 - today.weekday()) % 7 or 7)
    return sorted({today + timedelta(days=1), monday})


def _before(scene: Scene, group: people.Group, draft: people.Revision) -> Block | None:
    """The block to compare with: the revision before, or the last block."""
    published = scene.uow.revisions.find(group_id=group.id, state=people.RevisionState.PUBLISHED)
    return published[-1].block if published else None


def _stand_in(catalogue: Catalogue) -> Callable[[Slot, Kit], str | None]:
    def find(slot: Slot, kit: Kit) -> str | None:
        if slot.exercise is None:
            return None
        found = substitutes_for(slot.exercise, kit=kit, reason=Reason.MISSING_KIT, catalogue=catalogue, own=slot.substitutes)
        return found[0].name if found else None

    return find


def lacking_names(scene: Scene, member: people.Member, block: Block) -> tuple[str, ...]:
    """Slots whose exercise this member has not the kit for, as "day 1 A2 Pull-up"."""
    catalogue = scene.catalogue(member.group_id)
    lacking = []
    for day in block.days:
        for slot in day.slots:
            own = kit_version(slot.exercise, member.kit, catalogue, written=slot.exercise_name) if slot.exercise else None
            entry = catalogue.get(own)
            if entry and can_do(entry, member.kit) is None:
                lacking.append(f"day {day.number} {slot.label} {slot.exercise_name}")
    return tuple(lacking)


@deed(Preview)
def preview(scene: Scene, wish: Preview) -> None:
    """A day exactly as a member will see it (nobody's records in it)."""
    found = _draft(scene, wish.revision)
    day = found[0].block.day(wish.day) if found else None
    if found is None or day is None:
        return
    draft, group = found
    nobody = people.Member(group_id=group.id, chat_id=0, name="", joined_at=scene.now)
    assignment = people.Assignment(
        member_id=nobody.id, series=draft.series, started_on=scene.now.date(), weeks=draft.block.weeks_default
    )
    course = Course(scene, nobody, assignment, draft)
    lines = tuple(slot_line(course, slot, day.number) for slot in day.slots)
    aim = draft.block.week_aims[0] if draft.block.week_aims else ""
    scene.say(
        replies.SessionShown(
            scene.local(group.zone).date(),
            day.number,
            day.name,
            1,
            draft.block.weeks_default,
            lines,
            day.warm_up,
            aim,
            day.note,
            preview=True,
        )
    )


def active_members(scene: Scene, group: people.Group) -> list[people.Member]:
    return scene.uow.members.find(group_id=group.id, state=people.MemberState.ACTIVE)


@deed(PublishNow)
def publish_now(scene: Scene, wish: PublishNow) -> None:
    found = _waiting(scene, wish.revision)
    if found is None:
        return
    draft, group = found
    if draft.state is people.RevisionState.SCHEDULED:
        _cancel_schedule(scene, group, draft)
    last = _before(scene, group, draft)
    published = scene.uow.revisions.save(replace(draft, state=people.RevisionState.PUBLISHED, published_at=scene.now))
    _with_its_length(scene, published, last)
    told = [member for member in active_members(scene, group) if deliver(scene, member, published, last)]
    _to_shared_chat(scene, group, published)
    scene.say(_published(published, told), Choice(WhoHasIt(published.id)), code="published")


def _with_its_length(scene: Scene, published: people.Revision, last: Block | None) -> None:
    """A change of the block's length holds for those who are on it; weeks that somebody added stay added."""
    more = published.block.weeks_default - last.weeks_default if last is not None and published.number > 1 else 0
    for assignment in scene.uow.assignments.find(series=published.series, ended_on=None) if more else ():
        scene.uow.assignments.save(replace(assignment, weeks=max(1, assignment.weeks + more)))


@deed(PublishOn)
def publish_on(scene: Scene, wish: PublishOn) -> None:
    """Plan the delivery: at eight in the morning of that date, in each member's own zone."""
    found = _waiting(scene, wish.revision)
    if found is None:
        return
    draft, group = found
    if draft.state is people.RevisionState.SCHEDULED:
        _cancel_schedule(scene, group, draft)
    scheduled = scene.uow.revisions.save(
        replace(draft, state=people.RevisionState.SCHEDULED, publish_on=wish.on, publish_hour=_PUBLISH_HOUR)
    )
    members = active_members(scene, group)
    for member in members:
        plan_delivery(scene, member, scheduled)
    # For a group without members yet, and for those who join in between, the coach's own morning publishes it.
    at = _at(wish.on, _PUBLISH_HOUR, group.zone)
    scene.uow.due.put("publish", str(scheduled.id), at, {"revision": int(scheduled.id)}, too_late_after_s=None)
    scene.say(_published(scheduled, members, on=wish.on), Choice(Withdraw(scheduled.id)), code="published")


def _published(revision: people.Revision, members: Sequence[people.Member], *, on: date | None = None) -> replies.BlockPublished:
    """What the coach hears: to how many it goes. Who blocked the bot is not counted among them, though it waits for them, too."""
    reached = sum(member.reachable for member in members)
    return replies.BlockPublished(
        revision.block.name, reached, on, amendment=revision.number > 1, unreachable=len(members) - reached
    )


def plan_delivery(scene: Scene, member: people.Member, revision: people.Revision) -> None:
    assert revision.publish_on is not None
    at = _at(revision.publish_on, revision.publish_hour, member.zone)
    fields = {"revision": int(revision.id), "member": int(member.id)}
    scene.uow.due.put("deliver", f"{revision.id}:{member.id}", at, fields, member_id=int(member.id), too_late_after_s=None)


def _at(on: date, hour: int, zone: str) -> datetime:
    return datetime.combine(on, time(hour), ZoneInfo(zone)).astimezone(UTC)


def _cancel_schedule(scene: Scene, group: people.Group, revision: people.Revision) -> None:
    scene.uow.due.cancel("publish", str(revision.id))
    for member in active_members(scene, group):
        scene.uow.due.cancel("deliver", f"{revision.id}:{member.id}")


def publish_due(scene: Scene, revision_id: int) -> None:
    """The coach's own morning of a scheduled block: from now on it is the group's newest."""
    revision = scene.uow.revisions.get(revision_id)
    if revision is None or revision.state is not people.RevisionState.SCHEDULED:
        return
    group = scene.uow.groups.get(revision.group_id)
    assert group is not None
    published = _mark_published(scene, revision)
    _to_shared_chat(scene, group, published)
    said = _published(published, active_members(scene, group))
    scene.in_chat(group.coach_chat_id).say(said, Choice(WhoHasIt(published.id)), code="published")


def _mark_published(scene: Scene, revision: people.Revision) -> people.Revision:
    if revision.state is people.RevisionState.PUBLISHED:
        return revision
    return scene.uow.revisions.save(replace(revision, state=people.RevisionState.PUBLISHED, published_at=scene.now))


def deliver_due(scene: Scene, revision_id: int, member_id: int) -> None:
    """One member's morning of a scheduled block."""
    revision, member = scene.uow.revisions.get(revision_id), scene.uow.members.get(member_id)
    if revision is None or member is None or member.state is not people.MemberState.ACTIVE:
        return
    if revision.state in (people.RevisionState.SCHEDULED, people.RevisionState.PUBLISHED):
        deliver(scene, member, _mark_published(scene, revision), None)


def _key(revision: people.Revision, member: people.Member, attempt: int = 1) -> str:
    """The key of a delivery in the outbox; one of its own for each further attempt."""
    return f"block:{revision.id}:{member.id}" + (f":{attempt}" if attempt > 1 else "")


def _deliveries(scene: Scene, revision: people.Revision, member: people.Member) -> list[KeptMessage]:
    """Every attempt to bring a revision to a member, the first one first."""
    attempts: list[KeptMessage] = []
    while (row := scene.uow.outbox.find(_key(revision, member, len(attempts) + 1))) is not None:
        attempts.append(row)
    return attempts


def deliver(scene: Scene, member: people.Member, revision: people.Revision, last: Block | None) -> bool:
    """Give a member a published revision: a new block to begin or choose, or just what changed. False if it does not concern them."""
    key = _key(revision, member)
    if revision.number > 1:
        running = scene.uow.assignments.newest(member_id=member.id, ended_on=None)
        if running is None or running.series != revision.series:
            return False
        changes = tuple(change.sentence for change in changes_between(last, revision.block)) if last else ()
        scene.say(replies.BlockChanged(revision.block.name, changes), to=member.chat_id, lane="bulk", key=key)
        return True
    running_course = course_of(scene, member)
    group = scene.uow.groups.get(member.group_id)
    coach = group.coach_name if group else ""
    aim = revision.block.week_aims[0] if revision.block.week_aims else ""
    lacking = lacking_names(scene, member, revision.block)
    if running_course is None:
        member = beginning.begin(scene, member, revision, scene.today(member))
        course = course_of(scene, member)
        first = course.planned(scene.today(member), scene.today(member) + timedelta(days=13)) if course else ()
        arrived = replies.BlockArrived(
            revision.block.name,
            coach,
            len(revision.block.days),
            revision.block.weeks_default,
            first[0].date if first else None,
            aim,
            "",
            lacking,
            _days_of(member),
        )
        others = [Choice(settings.ChangeSetting("days"), _OTHER_DAYS)] if member.plan else []
        scene.say(arrived, *others, to=member.chat_id, lane="bulk", key=key, code="days_shown")
        return True
    arrived = replies.BlockArrived(
        revision.block.name,
        coach,
        len(revision.block.days),
        revision.block.weeks_default,
        None,
        aim,
        running_course.block.name,
        lacking,
    )
    choices = (Choice(ChangeOver(revision.series)), Choice(FinishFirst(revision.series)))
    scene.say(arrived, *choices, to=member.chat_id, lane="bulk", key=key, code="change_over", row=1)
    return True


def _days_of(member: people.Member) -> tuple[int, ...]:
    return member.plan.weekdays if member.plan is not None and member.plan.mode is Mode.WEEKDAYS else ()


def give_newest(scene: Scene, member: people.Member) -> None:
    """A member who just joined begins the group's newest block; a scheduled one will reach them too."""
    group = scene.uow.groups.get(member.group_id)
    revision = newest_published(scene, group) if group else None
    if revision and course_of(scene, member) is None:
        member = beginning.begin(scene, member, revision, scene.today(member))
    for scheduled in scene.uow.revisions.find(group_id=member.group_id, state=people.RevisionState.SCHEDULED):
        plan_delivery(scene, member, scheduled)


def _to_shared_chat(scene: Scene, group: people.Group, revision: people.Revision) -> None:
    if group.shared_chat_id is None:
        return
    link = f"https://t.me/{scene.desk.bot_name}"
    in_group = replies.BlockInGroup(revision.block.name, group.coach_name, link)
    scene.say(in_group, to=group.shared_chat_id, lane="bulk", key=f"block:{revision.id}:shared")


@deed(Withdraw)
def withdraw(scene: Scene, wish: Withdraw) -> None:
    found = _waiting(scene, wish.revision)
    if found is None:
        return
    draft, group = found
    _cancel_schedule(scene, group, draft)
    scene.uow.revisions.save(replace(draft, state=people.RevisionState.WITHDRAWN))
    scene.say(replies.BlockWithdrawn(draft.block.name))


@deed(WhoHasIt)
def who_has_it(scene: Scene, wish: WhoHasIt) -> None:
    found = _draft(scene, wish.revision)
    if found is None:
        return
    revision, group = found
    states: dict[str, list[str]] = {"sent": [], "waiting": [], "unreachable": []}
    for member in active_members(scene, group):
        attempts = _deliveries(scene, revision, member)
        state = attempts[-1].state if attempts else ("sent" if course_of(scene, member) else "waiting")
        states[state if state in states else "unreachable"].append(member.name)
    again = [Choice(TryAgain(revision.id))] if states["unreachable"] else []
    shown = replies.DeliveryShown(revision.block.name, *(tuple(states[state]) for state in ("sent", "waiting", "unreachable")))
    scene.say(shown, Choice(WhoHasIt(revision.id)), *again, edit=True, code="published")


@deed(TryAgain)
def try_again(scene: Scene, wish: TryAgain) -> None:
    found = _draft(scene, wish.revision)
    if found is None:
        return
    revision, group = found
    for member in active_members(scene, group):
        attempts = _deliveries(scene, revision, member)
        if attempts and attempts[-1].state in ("unreachable", "failed", "dropped"):
            key = _key(revision, member, len(attempts) + 1)
            scene.uow.outbox.put(member.chat_id, attempts[-1].kind, dict(attempts[-1].fields), lane="bulk", key=key)
    who_has_it(scene, WhoHasIt(revision.id))


@deed(ChangeOver)
def change_over(scene: Scene, wish: ChangeOver) -> None:
    from bot.coaching.log_sets import member_here

    member = member_here(scene)
    if member is not None:
        begin_next(scene, member, wish.series)


def begin_next(scene: Scene, member: people.Member, series: int, *, lane: str = "answer") -> None:
    """The member leaves the running block for another, from the next first day on. lane: of the message that says so."""
    course = course_of(scene, member)
    revision = scene.uow.revisions.newest(group_id=member.group_id, series=series, state=people.RevisionState.PUBLISHED)
    if revision is None:
        return
    if course and course.revision.series == series:
        scene.say(replies.CoachSaysSentence("on_it_already", (course.block.name,)))
        return
    if course:
        scene.uow.assignments.save(replace(course.assignment, ended_on=scene.today(member)))
    begin = scene.today(member)
    if course and course.session and course.session.on == begin:
        begin += timedelta(days=1)  # today's session belongs to the old block
    member = beginning.begin(scene, member, revision, begin, before=course.block if course else None)
    fresh = course_of(scene, member)
    first = fresh.planned(begin, begin + timedelta(days=13)) if fresh else ()
    said = replies.ChangedOver(revision.block.name, first[0].date if first else None, _days_of(member))
    others = [Choice(settings.ChangeSetting("days"), _OTHER_DAYS)] if member.plan else []
    scene.say(said, *others, lane=lane, code="days_shown")


def finishes_first(scene: Scene, member: people.Member, series: int) -> bool:
    """Did the member say to a new block that the running one shall be finished first?"""
    for asked in reversed(scene.uow.asked.find(chat_id=member.chat_id, code="change_over")):
        if asked.chosen is not None and unpack(asked.answers[asked.chosen][1]) == FinishFirst(series):
            return True
    return False


def _last_day(assignment: people.Assignment) -> date:
    return assignment.started_on + timedelta(weeks=assignment.weeks) - timedelta(days=1)


@deed(FinishFirst)
def finish_first(scene: Scene, wish: FinishFirst) -> None:
    from bot.coaching.log_sets import member_here

    member = member_here(scene)
    course = course_of(scene, member) if member else None
    if member is None or course is None:
        return
    coming = scene.uow.revisions.newest(group_id=member.group_id, series=wish.series, state=people.RevisionState.PUBLISHED)
    said = replies.StayedOn(course.block.name, _last_day(course.assignment), coming.block.name if coming else "")
    scene.say(said, Choice(ChangeOver(wish.series)), code="change_over")


@deed(StayLonger)
def stay_longer(scene: Scene, wish: StayLonger) -> None:
    from bot.coaching.log_sets import member_here

    member = member_here(scene)
    course = course_of(scene, member) if member else None
    if member is None or course is None:
        return
    weeks = min(course.assignment.weeks + wish.weeks, course.block.weeks_max)
    longer = scene.uow.assignments.save(replace(course.assignment, weeks=weeks, reviewed=False))
    scene.say(replies.StayedOn(course.block.name, _last_day(longer)))
