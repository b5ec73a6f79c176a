"""Who trains with whom, on which block, and what was said? The values that are kept, one class a table.

Every value has an id that is 0 until it is stored. Moments are aware and UTC; dates are the member's own.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime
from decimal import Decimal
from enum import StrEnum
from typing import Any, NewType

from bot.training.blocks import Block, ExerciseId, SetPlace
from bot.training.kit import Kit
from bot.training.loads import Unit
from bot.training.plan import Plan
from bot.training.records import SetRecord

MemberId = NewType("MemberId", int)
GroupId = NewType("GroupId", int)
RevisionId = NewType("RevisionId", int)


@dataclass(frozen=True, slots=True)
class Group:
    """A coach and the people who follow that coach's blocks. shared_chat_id: the group's common chat, if one was linked."""

    coach_chat_id: int
    coach_name: str
    name: str = ""
    zone: str = "UTC"
    locale: str = "en"
    shared_chat_id: int | None = None
    calendar_week_start: int = 0
    id: GroupId = GroupId(0)


@dataclass(frozen=True, slots=True)
class Invite:
    """A link by which people join a group, until a moment and for a number of people."""

    code: str
    group_id: GroupId
    expires_at: datetime
    uses_left: int = 100
    id: int = 0


@dataclass(frozen=True, slots=True)
class Claim:
    """The operator's one-time code that makes the person who sends it a coach."""

    code: str
    made_at: datetime
    used_by: int | None = None
    id: int = 0


class MemberState(StrEnum):
    JOINING = "joining"  # has seen what is kept; not agreed to it or not through the questions yet
    ACTIVE = "active"
    LEFT = "left"  # asked to leave; nothing is sent any more


@dataclass(frozen=True, slots=True)
class Member:
    """One member, as set up by the member.

    step: the joining question that is open, "" when through. expecting: the next free text answers this (a deed's name and its
    plain fields). habits: what earlier answers taught (language.situation.Habits as plain data). reachable: False after a block.
    """

    group_id: GroupId
    chat_id: int
    name: str
    joined_at: datetime
    state: MemberState = MemberState.JOINING
    step: str = ""
    unit: Unit = Unit.KG
    place: str = ""
    zone: str = "UTC"
    locale: str = "en"
    kit: Kit = field(default_factory=Kit)
    plan: Plan | None = None
    habits: dict[str, Any] = field(default_factory=dict)
    expecting: dict[str, Any] = field(default_factory=dict)
    reachable: bool = True
    last_heard_at: datetime | None = None
    last_text: str = ""
    feed_key: str = ""
    rest_calls: bool = True
    silence_told: bool = False
    id: MemberId = MemberId(0)


class RevisionState(StrEnum):
    DRAFT = "draft"
    SCHEDULED = "scheduled"
    PUBLISHED = "published"
    WITHDRAWN = "withdrawn"


@dataclass(frozen=True, slots=True)
class Revision:
    """One version of a block. series: the block's running number in its group; number: 1, 2, ... within the series."""

    group_id: GroupId
    series: int
    number: int
    block: Block
    made_at: datetime
    state: RevisionState = RevisionState.DRAFT
    publish_on: date | None = None  # a date in each member's own zone
    publish_hour: int = 8
    published_at: datetime | None = None
    id: RevisionId = RevisionId(0)


@dataclass(frozen=True, slots=True)
class Assignment:
    """A member follows a block from a day on. ended_on None: the one they are on."""

    member_id: MemberId
    series: int
    started_on: date
    weeks: int
    ended_on: date | None = None
    reviewed: bool = False
    id: int = 0


class SessionState(StrEnum):
    OPEN = "open"
    DONE = "done"


@dataclass(frozen=True, slots=True)
class Session:
    """One member's training on one date, under the revision that was current when it began."""

    member_id: MemberId
    on: date
    day: int
    revision_id: RevisionId
    started_at: datetime
    state: SessionState = SessionState.OPEN
    ended_at: datetime | None = None
    swaps: tuple[tuple[str, ExerciseId], ...] = ()
    skipped: tuple[SetPlace, ...] = ()
    stopped: tuple[str, ...] = ()  # slots stopped for pain
    pointer: SetPlace | None = None
    effort: Decimal | None = None
    minutes: int | None = None
    note: str = ""
    id: int = 0


@dataclass(frozen=True, slots=True)
class Message:
    """What a member typed, as typed, and what was made of it. undone: its records were taken back."""

    member_id: MemberId
    chat_id: int
    message_id: int
    text: str
    at: datetime
    certainty: float | None = None
    undone: bool = False
    edit_of: int | None = None
    id: int = 0


@dataclass(frozen=True, slots=True)
class KeptRecord:
    """A set on record. active False: superseded by a correction, or undone; the row stays."""

    member_id: MemberId
    session_id: int
    message_id: int
    on: date
    day: int
    label: str
    number: int
    exercise: str
    record: SetRecord
    said_at: datetime
    active: bool = True
    replaces: int | None = None
    id: int = 0


@dataclass(frozen=True, slots=True)
class Asked:
    """A question with buttons that the bot asked. answers: (button's words, deed as plain data) in order; chosen once.

    after: the newest Message.id of the chat when it was asked, so that a bare number answers it only as the very next message.
    """

    chat_id: int
    code: str
    answers: tuple[tuple[str, dict[str, Any]], ...]
    asked_at: datetime
    message_id: int | None = None  # Message.id that gave rise to it
    after: int = 0
    chosen: int | None = None
    open: bool = True
    id: int = 0


@dataclass(frozen=True, slots=True)
class Pain:
    """A report of pain. part "" while not said. cleared_at: when the coach (or the member) said that the slot may go on."""

    member_id: MemberId
    at: datetime
    on: date
    text: str
    part: str = ""
    side: str = ""
    severity: int | None = None
    label: str = ""
    day: int | None = None
    exercise: str = ""
    emergency: bool = False
    open: bool = True
    cleared_at: datetime | None = None
    id: int = 0


@dataclass(frozen=True, slots=True)
class Relay:
    """A member's question that went to the coach, and the answer that came back. kept: the group's answer from now on."""

    group_id: GroupId
    member_id: MemberId
    text: str
    context: str
    asked_at: datetime
    answer: str = ""
    answered_at: datetime | None = None
    kept: bool = False
    id: int = 0


@dataclass(frozen=True, slots=True)
class SwapTaken:
    """A substitute taken: for one session, or for the whole block (session_id None). undone keeps the row."""

    member_id: MemberId
    series: int
    day: int
    label: str
    exercise: ExerciseId
    instead_of: str
    reason: str
    at: datetime
    session_id: int | None = None
    active: bool = True
    id: int = 0


@dataclass(frozen=True, slots=True)
class Advice:
    """A week's suggestion for one slot, kept so that next week can be held against it. suggestion: as plain data."""

    member_id: MemberId
    series: int
    week_start: date  # the first day of the week that the target is for
    day: int
    label: str
    suggestion: dict[str, Any]
    made_at: datetime
    by_coach: bool = False
    id: int = 0


@dataclass(frozen=True, slots=True)
class OwnName:
    """A name that this group's coach uses for an exercise; exercise may be the coach's own ("own:...")."""

    group_id: GroupId
    name: str
    exercise: ExerciseId
    entry: dict[str, Any] = field(default_factory=dict)  # the coach's own Exercise as plain data
    demo: str = ""
    id: int = 0
