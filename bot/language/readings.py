"""What did a text mean? The values that a reading of sets is made of."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from bot.training.blocks import SetPlace
from bot.training.records import SetRecord


class Verdict(StrEnum):
    RECORD = "record"  # sure enough: carry out `heard`
    ASK = "ask"  # one question, with buttons
    NOT_SETS = "not_sets"  # nothing here is about sets: the other readers have it


class AsideKind(StrEnum):
    QUESTION = "question"
    PAIN = "pain"
    SWAP = "swap"
    DATE = "date"
    CHAT = "chat"


@dataclass(frozen=True, slots=True)
class Aside:
    """A part of the text that is not about sets, for the other readers."""

    kind: AsideKind
    text: str


@dataclass(frozen=True, slots=True)
class SetsHeard:
    """Sets to record, in order. Every record carries its place, date and exercise."""

    sets: tuple[SetRecord, ...]


@dataclass(frozen=True, slots=True)
class CorrectionHeard:
    """A set on record is to be replaced. old is the record meant; new the whole record that supersedes it."""

    old: SetRecord
    new: SetRecord


@dataclass(frozen=True, slots=True)
class SkipHeard:
    """Sets that will not be done. reason: the member's words, "" if none."""

    places: tuple[SetPlace, ...]
    reason: str = ""


@dataclass(frozen=True, slots=True)
class UndoHeard:
    """Take the last message's records back. redo: put them back again."""

    redo: bool = False


@dataclass(frozen=True, slots=True)
class RepeatHeard:
    """The text repeats what is on record: nothing changes, and the reply says so."""


@dataclass(frozen=True, slots=True)
class FinishHeard:
    """The session is over; sets still open stay undone. effort: session RPE 0-10 if said; minutes if said."""

    effort: float | None = None
    minutes: int | None = None


@dataclass(frozen=True, slots=True)
class PointHeard:
    """The member goes on elsewhere in the order ("doing B1 first"): nothing to record yet."""

    place: SetPlace


Heard = SetsHeard | CorrectionHeard | SkipHeard | UndoHeard | RepeatHeard | FinishHeard | PointHeard


@dataclass(frozen=True, slots=True)
class Why:
    """Which words gave which meaning: text[start:end] -> meaning, in plain words."""

    start: int
    end: int
    meaning: str


@dataclass(frozen=True, slots=True)
class Option:
    """One answer to the question: the button's words, what then happens, and how likely it is.

    habit: what choosing it teaches, as (Habits field, value), or None.
    """

    label: str
    heard: tuple[Heard, ...]
    certainty: float
    habit: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True)
class Question:
    """One good question. code: which kind of doubt ("load_or_reps", "which_exercise", "missing_load", "surprise" ...).

    about: the words in doubt.
    """

    code: str
    about: str
    options: tuple[Option, ...]


@dataclass(frozen=True, slots=True)
class Reading:
    """What was understood of a text.

    certainty: 0 to 1, calibrated, of `heard` as a whole. unread: parts about sets that could not be read, in the member's words.
    """

    text: str
    verdict: Verdict
    heard: tuple[Heard, ...] = ()
    certainty: float = 0.0
    question: Question | None = None
    asides: tuple[Aside, ...] = ()
    unread: tuple[str, ...] = ()
    why: tuple[Why, ...] = ()
