"""The domain's tables: one for each class in bot.training.people, the value in one column, its keys in others.

| table       | promise                                                    | enforced by                     |
| ----------- | ---------------------------------------------------------- | ------------------------------- |
| member      | one chat is one member of a group                          | unique (group_id, chat_id)      |
| invite      | a code leads to one group                                  | unique code                     |
| revision    | a block's versions are numbered without gaps or twins      | unique (group, series, number)  |
| session     | one session for a member and date and day                  | unique (member_id, on, day)     |
| set_record  | a message's record of one set is stored once               | the inbox row of its update     |
| own_name    | a coach's name means one exercise                          | unique (group_id, name)         |
"""

from __future__ import annotations

from datetime import date

from sqlalchemy import BigInteger, Date, ForeignKey, Index, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from storage.base import Base, BigId


class _Kept:
    """Every table of values: a running id and the value as JSON text."""

    id: Mapped[int] = mapped_column(BigId, primary_key=True, autoincrement=True)
    value: Mapped[str] = mapped_column(Text)


class GroupRow(_Kept, Base):
    __tablename__ = "coach_group"
    coach_chat_id: Mapped[int] = mapped_column(BigInteger, index=True)
    shared_chat_id: Mapped[int | None] = mapped_column(BigInteger, index=True)


class InviteRow(_Kept, Base):
    __tablename__ = "invite"
    code: Mapped[str] = mapped_column(String(64), unique=True)
    group_id: Mapped[int] = mapped_column(ForeignKey("coach_group.id"))


class ClaimRow(_Kept, Base):
    __tablename__ = "claim"
    code: Mapped[str] = mapped_column(String(64), unique=True)
    used_by: Mapped[int | None] = mapped_column(BigInteger)


class MemberRow(_Kept, Base):
    __tablename__ = "member"
    __table_args__ = (UniqueConstraint("group_id", "chat_id"),)
    group_id: Mapped[int] = mapped_column(ForeignKey("coach_group.id"))
    chat_id: Mapped[int] = mapped_column(BigInteger, index=True)
    state: Mapped[str] = mapped_column(String(16))
    feed_key: Mapped[str] = mapped_column(String(64), index=True)


class RevisionRow(_Kept, Base):
    __tablename__ = "revision"
    __table_args__ = (UniqueConstraint("group_id", "series", "number"),)
    group_id: Mapped[int] = mapped_column(ForeignKey("coach_group.id"))
    series: Mapped[int]
    number: Mapped[int]
    state: Mapped[str] = mapped_column(String(16))


class AssignmentRow(_Kept, Base):
    __tablename__ = "assignment"
    __table_args__ = (Index("ix_assignment_member", "member_id", "ended_on"),)
    member_id: Mapped[int] = mapped_column(ForeignKey("member.id"))
    series: Mapped[int]
    started_on: Mapped[date] = mapped_column(Date)
    ended_on: Mapped[date | None] = mapped_column(Date)


class SessionRow(_Kept, Base):
    __tablename__ = "session"
    __table_args__ = (UniqueConstraint("member_id", "on", "day"),)
    member_id: Mapped[int] = mapped_column(ForeignKey("member.id"))
    on: Mapped[date] = mapped_column(Date)
    day: Mapped[int]
    state: Mapped[str] = mapped_column(String(16))


class MessageRow(_Kept, Base):
    __tablename__ = "message"
    __table_args__ = (Index("ix_message_source", "chat_id", "message_id"),)
    member_id: Mapped[int] = mapped_column(ForeignKey("member.id"), index=True)
    chat_id: Mapped[int] = mapped_column(BigInteger)
    message_id: Mapped[int] = mapped_column(BigInteger)
    undone: Mapped[bool]


class RecordRow(_Kept, Base):
    __tablename__ = "set_record"
    __table_args__ = (
        Index("ix_set_record_day", "member_id", "on", "active"),
        Index("ix_set_record_slot", "member_id", "day", "label", "active"),
        Index("ix_set_record_exercise", "member_id", "exercise", "active"),
    )
    member_id: Mapped[int] = mapped_column(ForeignKey("member.id"))
    session_id: Mapped[int] = mapped_column(ForeignKey("session.id"), index=True)
    message_id: Mapped[int] = mapped_column(BigInteger, index=True)
    on: Mapped[date] = mapped_column(Date)
    day: Mapped[int]
    label: Mapped[str] = mapped_column(String(8))
    number: Mapped[int]
    exercise: Mapped[str] = mapped_column(String(80))
    active: Mapped[bool]
    replaces: Mapped[int | None] = mapped_column(BigInteger)


class AskedRow(_Kept, Base):
    __tablename__ = "asked"
    __table_args__ = (Index("ix_asked_open", "chat_id", "open"),)
    chat_id: Mapped[int] = mapped_column(BigInteger)
    code: Mapped[str] = mapped_column(String(40))
    open: Mapped[bool]
    message_id: Mapped[int | None] = mapped_column(BigInteger)


class PainRow(_Kept, Base):
    __tablename__ = "pain"
    member_id: Mapped[int] = mapped_column(ForeignKey("member.id"), index=True)
    open: Mapped[bool]
    label: Mapped[str] = mapped_column(String(8))


class RelayRow(_Kept, Base):
    __tablename__ = "relay"
    group_id: Mapped[int] = mapped_column(ForeignKey("coach_group.id"), index=True)
    member_id: Mapped[int] = mapped_column(ForeignKey("member.id"))
    kept: Mapped[bool]


class SwapRow(_Kept, Base):
    __tablename__ = "swap_taken"
    member_id: Mapped[int] = mapped_column(ForeignKey("member.id"), index=True)
    series: Mapped[int]
    day: Mapped[int]
    label: Mapped[str] = mapped_column(String(8))
    session_id: Mapped[int | None] = mapped_column(ForeignKey("session.id"))
    active: Mapped[bool]


class AdviceRow(_Kept, Base):
    __tablename__ = "advice"
    __table_args__ = (UniqueConstraint("member_id", "series", "week_start", "day", "label"),)
    member_id: Mapped[int] = mapped_column(ForeignKey("member.id"))
    series: Mapped[int]
    week_start: Mapped[date] = mapped_column(Date)
    day: Mapped[int]
    label: Mapped[str] = mapped_column(String(8))


class OwnNameRow(_Kept, Base):
    __tablename__ = "own_name"
    __table_args__ = (UniqueConstraint("group_id", "name"),)
    group_id: Mapped[int] = mapped_column(ForeignKey("coach_group.id"))
    name: Mapped[str] = mapped_column(String(120))
    exercise: Mapped[str] = mapped_column(String(80))
