"""What do deeds, the clock and the chat need from outside? Protocols; storage and chat fit them without importing them.

Time comes from a `Clock`; what is to be said goes into an `Outbox` as data (a kind and plain fields); what is to happen later
goes into the `DueList`. All of a deed's writes share one `UnitOfWork` and become real together.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Iterable, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from datetime import datetime
from enum import IntEnum
from typing import Any, Protocol


class Clock(Protocol):
    """Where the program takes the time from."""

    def now(self) -> datetime:
        """The present moment, aware, in UTC."""

    def sleep(self, seconds: float) -> Awaitable[None]:
        """Come back when this clock has gone on by so many seconds."""


class Lane(IntEnum):
    """Which messages go first. Lower is sooner."""

    ANSWER = 0
    REST = 1
    REMINDER = 2
    WEEKLY = 3
    BULK = 4


# Outcomes of one try to send, as the messenger reports them to the sender.


@dataclass(frozen=True)
class Sent:
    """The platform has it. `message` is the platform's own JSON; `parts_left` counts messages of the same row still to go."""

    message: dict[str, Any]
    parts_left: int = 0


@dataclass(frozen=True)
class Slower:
    """The platform asks to wait."""

    seconds: float


@dataclass(frozen=True)
class Gone:
    """This chat cannot be written to any more: blocked, deleted, left, or never started."""

    reason: str


@dataclass(frozen=True)
class Moved:
    """The group has a new id."""

    new_chat_id: int


@dataclass(frozen=True)
class Unclear:
    """It may or may not have arrived: a timeout, a cut connection, a server's own error."""

    reason: str


@dataclass(frozen=True)
class NotReached:
    """It cannot have arrived: no connection was made, or the token was not accepted."""

    reason: str


@dataclass(frozen=True)
class Refused:
    """The platform will never take this message."""

    reason: str


Outcome = Sent | Slower | Gone | Moved | Unclear | NotReached | Refused


class OutboxRow(Protocol):
    """A message to be sent, as data."""

    @property
    def id(self) -> int: ...
    @property
    def chat_id(self) -> int: ...
    @property
    def thread_id(self) -> int | None: ...
    @property
    def kind(self) -> str: ...
    @property
    def fields(self) -> dict[str, Any]: ...
    @property
    def lane(self) -> int: ...
    @property
    def expires_at_utc(self) -> datetime | None: ...
    @property
    def created_at_utc(self) -> datetime: ...
    @property
    def attempts(self) -> int: ...
    @property
    def parts_sent(self) -> int: ...
    @property
    def ready_at_utc(self) -> datetime | None: ...


class KeptMessage(OutboxRow, Protocol):
    """A message and what became of it."""

    @property
    def key(self) -> str | None: ...
    @property
    def state(self) -> str: ...
    @property
    def message_id(self) -> int | None: ...


class Outbox(Protocol):
    """Messages on their way out."""

    def put(
        self,
        chat_id: int,
        kind: str,
        fields: dict[str, Any],
        *,
        lane: int | str = Lane.ANSWER,
        not_before_utc: datetime | None = None,
        expires_at_utc: datetime | None = None,
        key: str | None = None,
        thread_id: int | None = None,
    ) -> int:
        """Queue a message; returns its id. A second put of a key changes nothing and returns 0."""

    def drop(self, key: str) -> bool:
        """Take back a message that has not gone out yet; says whether it did."""

    def erase(self, chat_id: int) -> int:
        """Remove all messages to a chat, sent or not, for good; returns how many."""

    def find(self, key: str) -> KeptMessage | None:
        """The message of a key, whatever became of it."""

    def sent(self, chat_id: int, message_id: int) -> KeptMessage | None:
        """The message that the platform knows in a chat by this id."""

    def waiting(
        self, now: datetime, *, lanes: Sequence[int], held: Iterable[int], full: Iterable[int], limit: int
    ) -> Sequence[OutboxRow]:
        """What may go out now, first lanes first; without rows that are held and chats that are full."""

    def still_waiting(self, row_ids: Iterable[int]) -> set[int]:
        """Those of the rows that have not been finished, taken back or erased meanwhile."""

    def next_ready_at(self, now: datetime) -> datetime | None:
        """The earliest later moment at which a waiting message may go out."""

    def mark_sent(self, row_id: int, now: datetime, message_id: int | None) -> None: ...
    def mark_part_sent(self, row_id: int) -> None: ...
    def mark_dropped(self, row_id: int, now: datetime, reason: str) -> None: ...
    def mark_failed(self, row_id: int, now: datetime, reason: str) -> None: ...
    def mark_tried(self, row_id: int, reason: str) -> None: ...
    def mark_chat_unreachable(self, chat_id: int, now: datetime, reason: str) -> int: ...


class DueRow(Protocol):
    """Something that is to happen at a moment."""

    @property
    def id(self) -> int: ...
    @property
    def kind(self) -> str: ...
    @property
    def key(self) -> str: ...
    @property
    def due_at_utc(self) -> datetime: ...
    @property
    def fields(self) -> dict[str, Any]: ...
    @property
    def member_id(self) -> int | None: ...
    @property
    def too_late_after_s(self) -> int | None: ...
    @property
    def attempts(self) -> int: ...


class DueList(Protocol):
    """What is to happen later."""

    def put(
        self,
        kind: str,
        key: str,
        due_at_utc: datetime,
        fields: dict[str, Any],
        *,
        member_id: int | None = None,
        too_late_after_s: int | None,
    ) -> bool:
        """Plan something; says whether it is open now. See storage.due for a (kind, key) that is there already."""

    def cancel(self, kind: str, key: str) -> bool:
        """Take one back; says whether it was open."""

    def cancel_all(self, *, member_id: int | None = None, kind: str | None = None) -> int:
        """Take back all open ones of a member (of one kind); returns how many."""

    def erase(self, member_id: int) -> int:
        """Remove all of a member's rows, open or not, for good; returns how many."""

    def claim(self, now: datetime, limit: int) -> Sequence[DueRow]:
        """What is due, oldest first, kept from other workers until the transaction ends."""

    def next_due_at(self) -> datetime | None:
        """The moment of the first open row."""

    def done(self, row_id: int, now: datetime) -> None: ...
    def done_all(self, row_ids: Sequence[int], now: datetime) -> None: ...
    def count_tries(self, row_ids: Sequence[int], now: datetime, set_off_until: datetime | None) -> set[int]:
        """Count a try of each before it begins, to be committed at once; returns those that are this worker's to run."""

    def uncount(self, row_ids: Sequence[int], now: datetime) -> None:
        """Take the count of a try back: its turn did not come."""

    def take(self, row_ids: Sequence[int]) -> set[int]:
        """Those of the rows that are still open and nobody else has, kept from other workers until the transaction ends."""

    def drop(self, row_id: int, now: datetime, reason: str) -> None: ...
    def count_try(self, row_id: int) -> None: ...
    def try_again(self, row_id: int, at_utc: datetime, reason: str) -> None: ...
    def give_up(self, row_id: int, now: datetime, reason: str) -> None: ...


class InboxRow(Protocol):
    """One update as it came."""

    @property
    def id(self) -> int: ...
    @property
    def update_id(self) -> int | None: ...
    @property
    def chat_id(self) -> int | None: ...
    @property
    def body(self) -> Any: ...
    @property
    def attempts(self) -> int: ...


class Inbox(Protocol):
    """What came in."""

    def store(self, updates: Sequence[Any]) -> Sequence[InboxRow]:
        """Keep raw updates; those already on record change nothing. Returns the new ones that can be handled."""

    def waiting(self, *, held: Iterable[int] = (), limit: int) -> Sequence[InboxRow]:
        """Updates not handled yet, in order of arrival, without those that are `held` already."""

    def take(self, row_id: int) -> bool:
        """Take one for this transaction. False when it is done, taken elsewhere, or an older one of its chat still waits."""

    def erase(self, chat_id: int) -> int:
        """Remove all of a chat's updates that are not waiting, for good; returns how many."""

    def done(self, row_id: int, now: datetime) -> None: ...
    def park(self, row_id: int, now: datetime, reason: str) -> None: ...
    def failed(self, row_id: int, reason: str) -> int:
        """Count a failure; returns how many there were."""

    def count_try(self, row_id: int) -> bool:
        """Count a try before it begins, to be committed at once; False when the update does not wait any more."""

    def last_id(self) -> int:
        """The newest update's row, whatever became of it; 0 when there is none."""


class Queues(Protocol):
    """A unit of work, as far as the pipes use it: leaves by rollback unless committed."""

    @property
    def inbox(self) -> Inbox: ...
    @property
    def outbox(self) -> Outbox: ...
    @property
    def due(self) -> DueList: ...

    def commit(self) -> None: ...
    def savepoint(self) -> AbstractContextManager[Any]:
        """A part that may fail alone: an error inside undoes it and is raised again."""

    def gathered(self, most: int) -> AbstractContextManager[Any]:
        """Many deeds in one go: what they queue and plan is written at the end, in a few statements for all."""

    def rewrite_chat_id(self, old_id: int, new_id: int) -> None:
        """A group got a new id: say so in every table that has a chat_id."""


UnitOfWorkFactory = Callable[..., AbstractContextManager[Any]]  # reads=True: the reading engine
