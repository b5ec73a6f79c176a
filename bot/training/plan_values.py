"""On which days does a member train, and what was changed about it? Plain values: the old plan is the undo of any change.

A plan says the usual rule (weekdays, or a rolling rhythm); its changes say, in the order in which they were made, where one
member's life departs from the rule. Dates are the member's own, never moments.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from enum import StrEnum

Date = date  # a field of that name would hide the class from what follows it
DEFAULT_RHYTHM = (True, True, True, False, True, True, False)  # three on, one off, two on, one off


class Mode(StrEnum):
    WEEKDAYS = "weekdays"  # the same weekdays every week
    ROLLING = "rolling"  # on and off days in turn; what is missed moves everything along


class Missed(StrEnum):
    """What becomes of a session that cannot be done on its day."""

    ASK = "ask"
    SLIDES = "slides"  # it goes to the next free day
    DROPS = "drops"


class ChangeKind(StrEnum):
    MOVED = "moved"  # what stood on `first` stands on `second`
    SWAPPED = "swapped"  # `first` and `second` change places
    SKIPPED = "skipped"  # nothing on `first`
    SHIFTED = "shifted"  # everything from `first`, before `second` if given, goes `days` later (earlier if below 0)
    AWAY = "away"  # nothing from `first` to `second`, both included; without `second` until told otherwise
    PAUSED = "paused"  # as AWAY, by wish


@dataclass(frozen=True, slots=True)
class Change:
    kind: ChangeKind
    first: date
    second: date | None = None
    days: int = 0

    def covers(self, on: date) -> bool:
        """For spans: is this date inside?"""
        return self.first <= on and (self.second is None or on <= self.second)


SPANS = (ChangeKind.AWAY, ChangeKind.PAUSED)


@dataclass(frozen=True, slots=True)
class FormerDays:
    """Weekdays and start that held before a date, so that a new choice does not rewrite the weeks behind."""

    before: date
    weekdays: tuple[int, ...]
    start: date
    first_day: int = 1


@dataclass(frozen=True, slots=True)
class Plan:
    """A member's own week.

    start: the first day of the split, or later. weekdays: the weekday (Monday 0) of day 1, day 2, ...; when there are more or
    fewer of them than days in the split, the days simply follow one another, from first_day on. rhythm: the member's own turns
    of on and off days for a rolling plan, None for the block's. reminder_local, quiet_from, quiet_until: wall time;
    no reminder goes out from quiet_from on and before quiet_until. silent_weekdays: training days without a reminder.
    again_after_min: minutes until a second reminder, None for none. week_start: the weekday on which a week begins.
    previous: the plan that held before `start`, when the rule was of another mode; a new rule never rewrites the days behind.
    """

    start: date
    mode: Mode = Mode.WEEKDAYS
    weekdays: tuple[int, ...] = (0, 1, 2, 4, 5)
    changes: tuple[Change, ...] = ()
    former: tuple[FormerDays, ...] = ()
    missed: Missed = Missed.ASK
    reminder_local: time | None = None
    again_after_min: int | None = None
    quiet_from: time | None = None
    quiet_until: time | None = None
    silent_weekdays: tuple[int, ...] = ()
    week_start: int = 0
    first_day: int = 1
    rhythm: tuple[bool, ...] | None = None
    previous: Plan | None = None

    def week_start_for(self, on: date) -> date:
        """The first day of the week that holds a date."""
        return on - timedelta(days=(on.weekday() - self.week_start) % 7)

    def is_away(self, on: date) -> bool:
        """Is the member away, ill or pausing on this date?"""
        if any(change.kind in SPANS and change.covers(on) for change in self.changes):
            return True
        return self.previous is not None and on < self.start and self.previous.is_away(on)

    def rule_on(self, on: date) -> FormerDays:
        """The start, the weekdays and the first day of the split that held on a date."""
        now = FormerDays(date.max, self.weekdays, self.start, self.first_day)
        return next((old for old in self.former if on < old.before), now)


_Date = date  # the class below has a field of that name


@dataclass(frozen=True, slots=True)
class PlannedSession:
    """One session to come (or that was to come). moved_from: the date that the rule alone would give it, if another."""

    date: date
    day_number: int
    moved_from: _Date | None = None


# What a member may wish, as concrete dates. Each is carried out by bot.training.plan.apply.


@dataclass(frozen=True, slots=True)
class Move:
    """What stands on `on` goes to `to`. other_to: where the session goes that stands on `to`. both: it stays, two on that day."""

    on: date
    to: date
    other_to: date | None = None
    both: bool = False


@dataclass(frozen=True, slots=True)
class Swap:
    first: date
    second: date


@dataclass(frozen=True, slots=True)
class Skip:
    on: date


@dataclass(frozen=True, slots=True)
class Shift:
    """Everything from `first` on goes so many days later; earlier if below 0."""

    first: date
    days: int


@dataclass(frozen=True, slots=True)
class Away:
    """No training from first to last, both included; last None: until further notice."""

    first: date
    last: date | None = None


@dataclass(frozen=True, slots=True)
class Pause:
    first: date
    last: date | None = None


@dataclass(frozen=True, slots=True)
class Resume:
    """Back to training on this date: what remains of an absence ends the day before."""

    on: date


@dataclass(frozen=True, slots=True)
class ReminderAt:
    """Remind at this wall time; None: no reminders."""

    at: time | None


@dataclass(frozen=True, slots=True)
class ReminderAgain:
    """A second reminder so many minutes after the first; None: none."""

    after_min: int | None


@dataclass(frozen=True, slots=True)
class RemindOnce:
    """One more reminder, this once. at: wall time in the member's own zone; the plan stays as it is."""

    at: datetime


@dataclass(frozen=True, slots=True)
class SilentDays:
    """No reminders on these weekdays (Monday 0), whatever is trained then."""

    weekdays: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class QuietHours:
    """No reminder from `start` on, nor before `end`; None leaves that side as it is."""

    start: time | None = None
    end: time | None = None


@dataclass(frozen=True, slots=True)
class Weekdays:
    """Train on these weekdays (Monday 0), day 1 on the first named, from a date on.

    first_day: with more or fewer weekdays than days in the split, the day with which they begin; None: the one that is due.
    """

    weekdays: tuple[int, ...]
    since: date
    first_day: int | None = None


@dataclass(frozen=True, slots=True)
class Rolling:
    """Train by a rhythm of on and off days, from a date on; rhythm None: the block's. first_day: as in Weekdays."""

    since: date
    rhythm: tuple[bool, ...] | None = None
    first_day: int | None = None


@dataclass(frozen=True, slots=True)
class StartBlock:
    on: date


@dataclass(frozen=True, slots=True)
class ZoneMove:
    """The member lives by another place's clock now. place: the words as said; the person confirms which one."""

    place: str


@dataclass(frozen=True, slots=True)
class Backdate:
    """A session was done on an earlier date. day_number None: the one planned then."""

    on: date
    day_number: int | None = None


Deed = (
    Move | Swap | Skip | Shift | Away | Pause | Resume | ReminderAt | ReminderAgain | RemindOnce | SilentDays | QuietHours | Weekdays
    | Rolling | StartBlock | ZoneMove | Backdate
)  # fmt: skip
