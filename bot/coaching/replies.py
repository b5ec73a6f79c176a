"""What can the bot have to say? One small value for each occasion; the sentences are chat's.

A reply holds domain values and plain fields, never a finished sentence, so that the wording can change without touching a deed
and a queued reply can be read by a newer version.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from bot.training.blocks import SetPlace, SetTarget, Slot
from bot.training.kit import Kit
from bot.training.loads import Load, Unit
from bot.training.records import SetDone, SetRecord

# --- people come and go ---


@dataclass(frozen=True, slots=True)
class Stranger:
    """Somebody wrote who is in no group."""


@dataclass(frozen=True, slots=True)
class CodeNotGood:
    """A claim code that is wrong, or used; own: by this very coach."""

    own: bool = False


@dataclass(frozen=True, slots=True)
class LinkNotGood:
    """An invite or claim code that is unknown, used up or too old."""

    expired: bool = False


@dataclass(frozen=True, slots=True)
class WhatIsKept:
    """Before joining: what is kept and who sees it."""

    coach: str
    group: str
    again: bool = False


@dataclass(frozen=True, slots=True)
class AskUnit:
    unread: str = ""  # what was typed and not understood


@dataclass(frozen=True, slots=True)
class AskPlace:
    unknown: str = ""  # what was typed and not found


@dataclass(frozen=True, slots=True)
class AskWhichPlace:
    text: str


@dataclass(frozen=True, slots=True)
class AskKit:
    kit: Kit
    unit: Unit
    unread: str = ""


@dataclass(frozen=True, slots=True)
class AskDays:
    """weekdays: the coach's rhythm laid on this member's week, day number -> weekday 0..6."""

    weekdays: tuple[int, ...]
    unread: str = ""
    known: bool = True  # there is a block, so the number of days is certain


@dataclass(frozen=True, slots=True)
class AskReminder:
    default: str
    unread: str = ""


@dataclass(frozen=True, slots=True)
class Joined:
    name: str
    has_block: bool
    first_on: date | None = None


@dataclass(frozen=True, slots=True)
class SettingsShown:
    unit: Unit
    place: str
    zone: str
    kit: Kit
    days: str
    reminder: str
    rest_calls: bool


@dataclass(frozen=True, slots=True)
class Changed:
    """A setting is now this. what: "unit", "place", "kit", "days", "reminder", "rest_calls", ..."""

    what: str
    value: str = ""


@dataclass(frozen=True, slots=True)
class NewMember:
    """To the coach: somebody joined."""

    name: str
    zone: str
    kit: Kit
    lacking: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LeaveAsked:
    pass


@dataclass(frozen=True, slots=True)
class Left:
    """agreed False: they never agreed to anything, so nothing of theirs is kept."""

    agreed: bool = True


@dataclass(frozen=True, slots=True)
class Removed:
    """The coach has taken somebody out of the group."""

    coach: str


@dataclass(frozen=True, slots=True)
class HasLeft:
    """Somebody who has left writes again."""

    coach: str = ""


@dataclass(frozen=True, slots=True)
class AskStop:
    """ "Stop": what shall end?"""


@dataclass(frozen=True, slots=True)
class EraseAsked:
    records: int


@dataclass(frozen=True, slots=True)
class Erased:
    records: int


@dataclass(frozen=True, slots=True)
class File:
    """A document. caption: which sentence goes with it; data: base64 of its bytes."""

    name: str
    caption: str
    data: str


@dataclass(frozen=True, slots=True)
class DemoAsked:
    """For which exercise is the video? said: what its caption said; several: that fits more than one."""

    said: str
    several: bool = False


@dataclass(frozen=True, slots=True)
class DemoNotPlaced:
    """has_block: there are exercises, only too many to offer."""

    has_block: bool
    said: str = ""


@dataclass(frozen=True, slots=True)
class DemoKept:
    """places: where in the block the exercise stands ("day 1 B2"). replaced: there was a video before."""

    name: str
    places: tuple[str, ...]
    replaced: bool


@dataclass(frozen=True, slots=True)
class DemoShown:
    """The coach's video of an exercise, to a member. kind, file_id: the platform's."""

    label: str
    name: str
    kind: str
    file_id: str


@dataclass(frozen=True, slots=True)
class HelpShown:
    """command: what was typed with a stroke and is none of ours."""

    coach: bool = False
    command: str = ""
    coach_too: bool = False


@dataclass(frozen=True, slots=True)
class CoachNotUnderstood:
    """A coach's text that is no block, no change and no wish."""

    text: str


@dataclass(frozen=True, slots=True)
class PrivacyShown:
    coach: str


# --- a session ---


@dataclass(frozen=True, slots=True)
class SlotLine:
    """One slot of a session as the member sees it. name: the exercise to do; instead_of: the coach's, if swapped.

    last: what was done last time, in order; target: loads and reps to aim at today, in order; done: what is on record today.
    stopped: for pain, today; rests: for pain reported before and not cleared yet.
    """

    slot: Slot
    name: str
    unit: Unit
    instead_of: str = ""
    last: tuple[SetDone, ...] = ()
    target: tuple[SetTarget, ...] = ()
    done: tuple[SetDone, ...] = ()
    skipped: bool = False
    stopped: bool = False
    rests: bool = False
    cue: str = ""


@dataclass(frozen=True, slots=True)
class SessionShown:
    """Today's session. preview: as the coach sees it before publishing."""

    on: date
    day: int
    day_name: str
    week: int
    weeks: int
    lines: tuple[SlotLine, ...]
    warm_up: tuple[str, ...] = ()
    aim: str = ""
    note: str = ""
    remark: str = ""
    preview: bool = False


@dataclass(frozen=True, slots=True)
class NothingToday:
    next_on: date | None = None
    next_day: int | None = None
    next_name: str = ""
    today: date | None = None
    away: bool = False


@dataclass(frozen=True, slots=True)
class NoBlock:
    coach: str = ""


@dataclass(frozen=True, slots=True)
class WeekShown:
    """The coming sessions: (date, day number, day's name, done)."""

    today: date
    sessions: tuple[tuple[date, int, str, bool], ...]
    next_week: date | None = None  # from here on they belong to the week after; None: all are next week's
    remarks: tuple[str, ...] = ()


# --- sets ---


@dataclass(frozen=True, slots=True)
class SetLine:
    """One recorded set as it is said back. before: the same set last time."""

    record: SetRecord
    name: str
    before: SetDone | None = None
    target: SetTarget | None = None


@dataclass(frozen=True, slots=True)
class NextUp:
    """What comes next in the order."""

    place: SetPlace
    name: str
    target: SetTarget
    load: Load | None = None
    last: SetDone | None = None
    sides: str = ""
    rest_s: int | None = None
    of: int = 0


@dataclass(frozen=True, slots=True)
class SetsRecorded:
    lines: tuple[SetLine, ...]
    next: NextUp | None = None
    on: date | None = None  # where it is not today
    skipped: tuple[SetPlace, ...] = ()
    unread: tuple[str, ...] = ()
    left: int = 0  # work sets still open today
    edited: bool = False  # they stand in place of what the message said before


@dataclass(frozen=True, slots=True)
class SetsCorrected:
    """was, lines: each set as it stood and as it stands now. on: the session's date, where it is not today's."""

    was: tuple[SetRecord, ...]
    lines: tuple[SetLine, ...]
    next: NextUp | None = None
    on: date | None = None


@dataclass(frozen=True, slots=True)
class SetsSkipped:
    places: tuple[SetPlace, ...]
    next: NextUp | None = None


@dataclass(frozen=True, slots=True)
class DueAgain:
    """Sets that had been left out are to be done."""

    places: tuple[SetPlace, ...]
    next: NextUp | None = None


@dataclass(frozen=True, slots=True)
class TakenBack:
    """The last message's sets are off (or, redo, on again)."""

    lines: tuple[SetLine, ...]
    redo: bool = False
    next: NextUp | None = None
    again: tuple[SetLine, ...] = ()  # what they had replaced, and which stands again


@dataclass(frozen=True, slots=True)
class NothingToTakeBack:
    pass


@dataclass(frozen=True, slots=True)
class AlreadyOnRecord:
    """A text sent twice. nothing: there is no set of today's that it could have doubled."""

    next: NextUp | None = None
    nothing: bool = False


@dataclass(frozen=True, slots=True)
class GoingOn:
    next: NextUp


@dataclass(frozen=True, slots=True)
class NothingDoneYet:
    """ "Done", with nothing on record today."""


@dataclass(frozen=True, slots=True)
class AskReading:
    """The one question about a text. code and about are the reading's."""

    code: str
    about: str
    said: str


@dataclass(frozen=True, slots=True)
class SessionFinished:
    done: int
    planned: int
    minutes: int | None
    left_out: tuple[str, ...] = ()
    effort: Decimal | None = None


@dataclass(frozen=True, slots=True)
class EffortNoted:
    effort: Decimal


@dataclass(frozen=True, slots=True)
class NotUnderstood:
    text: str
    in_session: bool = False


@dataclass(frozen=True, slots=True)
class Acknowledged:
    """A friendly word, or a mood, that asks for nothing. kind: "thanks", "greeting", "low", "glad", "cross", "unwell", or "" for any other."""

    kind: str = ""
    coach: bool = False


@dataclass(frozen=True, slots=True)
class OnlyText:
    """Something came that the bot cannot read (sticker, photo, voice ...)."""

    what: str
    coach: bool = False
    beside_words: bool = False  # its caption was read
    passed_on: bool = False  # the coach has it


@dataclass(frozen=True, slots=True)
class AnswerOver:
    """A button of a question that was answered before, or is gone."""


@dataclass(frozen=True, slots=True)
class RestOver:
    next: NextUp | None


# --- pain ---


@dataclass(frozen=True, slots=True)
class StopAndCall:
    """Signs of an emergency: the only thing said."""

    coach_told: bool = True


@dataclass(frozen=True, slots=True)
class StopAndAsk:
    """Alarming words that may be everyday talk: the same first step, and the question whether it is happening."""


@dataclass(frozen=True, slots=True)
class OnlyWords:
    """To the coach: the member says that the alarming words were a manner of speaking."""

    member: str


@dataclass(frozen=True, slots=True)
class SeeSomeoneToday:
    pass


@dataclass(frozen=True, slots=True)
class AreYouAllRight:
    """Hard work or a joke that sounds like a sign."""


@dataclass(frozen=True, slots=True)
class WarningSigns:
    """Asked which signs mean stop."""


@dataclass(frozen=True, slots=True)
class Caution:
    """Pregnancy, medication, diet, diagnosis, minor ...: a caution, and the coach is told."""

    topic: str


@dataclass(frozen=True, slots=True)
class AskWhetherItStillHurts:
    """It hurt some day before; nothing says that it does today."""

    part: str = ""


@dataclass(frozen=True, slots=True)
class AskPainWhere:
    label: str = ""
    name: str = ""


@dataclass(frozen=True, slots=True)
class AskPainHowBad:
    part: str


@dataclass(frozen=True, slots=True)
class PainNoted:
    """part, severity as said; look: a person should look at it; label: the slot that is stopped."""

    part: str
    severity: int | None
    label: str
    name: str
    look: bool


@dataclass(frozen=True, slots=True)
class PainForCoach:
    member: str
    text: str
    part: str
    severity: int | None
    label: str
    name: str
    day: int | None
    emergency: bool = False
    topic: str = ""


@dataclass(frozen=True, slots=True)
class PainCleared:
    name: str
    member: str = ""
    to_coach: bool = False


@dataclass(frozen=True, slots=True)
class BetterHeard:
    """What was reported is said to be over. rests: an exercise waits for the coach's word."""

    coach: str
    emergency: bool = False
    rests: bool = False


@dataclass(frozen=True, slots=True)
class BetterForCoach:
    member: str
    text: str
    emergency: bool = False


@dataclass(frozen=True, slots=True)
class SorenessNoted:
    part: str


# --- swaps ---


@dataclass(frozen=True, slots=True)
class SwapChoice:
    """One offered substitute. why, change: short reasons as the substitutes engine gives them. last_resort: far from the slot's."""

    exercise: str
    name: str
    why: tuple[str, ...]
    change: tuple[str, ...]
    by_coach: bool = False
    last_resort: bool = False


@dataclass(frozen=True, slots=True)
class SwapsOffered:
    """part: what hurts, where that is the reason."""

    label: str
    name: str
    reason: str
    choices: tuple[SwapChoice, ...]
    part: str = ""


@dataclass(frozen=True, slots=True)
class NoSwapFound:
    """written: substitutes that the coach wrote beside the slot and that cannot be offered here."""

    label: str
    name: str
    written: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class AskWhichSlot:
    what: str


@dataclass(frozen=True, slots=True)
class SwapDone:
    label: str
    name: str
    instead_of: str
    whole_block: bool
    next: NextUp | None = None


@dataclass(frozen=True, slots=True)
class SwapUndone:
    label: str
    name: str


# --- questions ---


@dataclass(frozen=True, slots=True)
class Answered:
    """Answers from bot.coaching.answers, as plain data with the class's name under "_"."""

    answers: tuple[dict[str, Any], ...]


@dataclass(frozen=True, slots=True)
class Beat:
    """The tempo of one slot's set as sound. tempo: as written; starts_up: the lift begins with the way up."""

    label: str
    name: str
    tempo: str
    reps: int
    starts_up: bool


@dataclass(frozen=True, slots=True)
class NoTempo:
    label: str
    name: str


@dataclass(frozen=True, slots=True)
class CoachAsked:
    question: str
    asked: bool = True


@dataclass(frozen=True, slots=True)
class QuestionForCoach:
    member: str
    question: str
    context: str
    asks: bool = True


@dataclass(frozen=True, slots=True)
class FromMember:
    """A member's picture, video or voice, for the coach to see or hear. kind: as the platform calls the file."""

    member: str
    kind: str
    file_id: str


@dataclass(frozen=True, slots=True)
class CoachSays:
    """The coach's answer, brought back. kept: it is the group's kept answer to such a question."""

    question: str
    answer: str
    kept: bool = False


@dataclass(frozen=True, slots=True)
class AnswerDelivered:
    member: str


@dataclass(frozen=True, slots=True)
class AnswerKept:
    pass


# --- days ---


@dataclass(frozen=True, slots=True)
class PlanChanged:
    """A change of days in concrete dates. kind: the deed's class name; dates: (date, day number or None, what) in order."""

    kind: str
    dates: tuple[tuple[date, int | None, str], ...]
    remarks: tuple[str, ...] = ()
    value: str = ""


@dataclass(frozen=True, slots=True)
class RemindedOnce:
    """One more reminder is set, for this session only. nothing: why none is ("rest", "begun" or "day"); at: wall time."""

    at: datetime
    nothing: str = ""


@dataclass(frozen=True, slots=True)
class AskDate:
    """A question about a day or time. code and about are the reading's."""

    code: str
    about: str


@dataclass(frozen=True, slots=True)
class PlanRestored:
    pass


@dataclass(frozen=True, slots=True)
class Reminder:
    """Today's session in brief."""

    on: date
    day: int
    day_name: str
    slots: tuple[str, ...]
    minutes: int | None = None
    second: bool = False
    easing: bool = False


@dataclass(frozen=True, slots=True)
class MissYou:
    """The one kind message after a week of silence."""

    name: str


# --- the week's end ---


@dataclass(frozen=True, slots=True)
class LeftInPeace:
    """To a member who has not written for weeks: no more reminders until they come back."""

    name: str


@dataclass(frozen=True, slots=True)
class AdviceLine:
    """One slot's next target: label, exercise and the sentences that say target and reason."""

    day: int
    label: str
    name: str
    target: str
    reason: str
    kind: str = ""


@dataclass(frozen=True, slots=True)
class WeekReviewed:
    """A member's week. lines: what is worth saying now; more: how many further slots the whole table has.

    closing: the block's last week. days_away: since the last session, where nothing was done this week.
    """

    week: int
    weeks: int
    done: int
    planned: int
    well: tuple[str, ...]
    lines: tuple[AdviceLine, ...]
    more: int = 0
    totals: tuple[str, ...] = ()
    questions: tuple[str, ...] = ()
    chart: dict[str, Any] | None = None
    closing: bool = False
    days_away: int | None = None


@dataclass(frozen=True, slots=True)
class WholeAdvice:
    week: int
    lines: tuple[AdviceLine, ...]


@dataclass(frozen=True, slots=True)
class BlockReviewed:
    """First session against last. lines: what is sure; up, down: what moved within a good or a bad day's reach; same, hurt: names."""

    name: str
    lines: tuple[str, ...]
    next_known: bool
    up: tuple[str, ...] = ()
    down: tuple[str, ...] = ()
    same: tuple[str, ...] = ()
    hurt: tuple[str, ...] = ()
    begins: bool = False  # the next block begins by itself now
    so_far: bool = False  # asked for in the middle of the block


@dataclass(frozen=True, slots=True)
class MemberWeek:
    """One member in the coach's week. trend: "better", "same", "worse" or "" (too little to say).

    since: the day of joining, of somebody without a session yet; awaited_on: the day their first session is planned for;
    joining: still at the first questions.
    """

    name: str
    done: int
    planned: int
    trend: str
    better: tuple[str, ...] = ()
    stalls: tuple[str, ...] = ()
    worse: tuple[str, ...] = ()
    pains: tuple[str, ...] = ()
    swaps: tuple[str, ...] = ()
    quiet_days: int | None = None
    notes: tuple[str, ...] = ()
    reachable: bool = True
    since: date | None = None
    awaited_on: date | None = None
    joining: bool = False


@dataclass(frozen=True, slots=True)
class GroupWeek:
    """The coach's picture of a week. slots: what the whole group shows about single slots; forecast: how good the advice was."""

    group: str
    week_of: date
    members: tuple[MemberWeek, ...]
    slots: tuple[str, ...] = ()
    questions: int = 0
    forecast: str = ""


# --- the coach ---


@dataclass(frozen=True, slots=True)
class CoachWelcome:
    name: str
    invite: str


@dataclass(frozen=True, slots=True)
class InviteMade:
    link: str
    expires_at: datetime


@dataclass(frozen=True, slots=True)
class MembersShown:
    """Who has what: (name, state words, block series or None, reachable)."""

    rows: tuple[tuple[str, str, str, bool], ...]


@dataclass(frozen=True, slots=True)
class BlockUnderstood:
    """What was read: counts, and the remarks of a colleague."""

    name: str
    days: int
    slots: int
    sets: int
    minutes: tuple[tuple[str, str], ...]
    warnings: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    changes: tuple[str, ...] = ()
    amendment: bool = False
    picture: dict[str, Any] | None = None
    by_week: tuple[tuple[int, int], ...] = ()  # (week, sets from then on), where the sets change from week to week


@dataclass(frozen=True, slots=True)
class BlockRefused:
    problems: tuple[str, ...]
    warnings: tuple[str, ...] = ()
    amendment: bool = False


@dataclass(frozen=True, slots=True)
class AskExercise:
    """Which exercise does the coach mean by this name?"""

    name: str
    where: str
    left: int = 0
    typed: str = ""  # what the coach wrote to the same question before, and was not sure enough


@dataclass(frozen=True, slots=True)
class OwnExerciseAsked:
    """The coach keeps an exercise of their own: of which pattern?"""

    name: str


@dataclass(frozen=True, slots=True)
class BlockPublished:
    """to: how many it goes to; unreachable: how many more it cannot reach now."""

    name: str
    to: int
    on: date | None = None
    amendment: bool = False
    unreachable: int = 0


@dataclass(frozen=True, slots=True)
class BlockWithdrawn:
    name: str


@dataclass(frozen=True, slots=True)
class BlockArrived:
    """To a member: a new block is here."""

    name: str
    coach: str
    days: int
    weeks: int
    first_on: date | None
    aim: str = ""
    running: str = ""  # the name of the block that is still under way
    lacking: tuple[str, ...] = ()
    weekdays: tuple[int, ...] = ()  # the member's own training days under it


@dataclass(frozen=True, slots=True)
class BlockChanged:
    """To a member: just what changed."""

    name: str
    changes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BlockInGroup:
    """To the shared chat."""

    name: str
    coach: str
    link: str


@dataclass(frozen=True, slots=True)
class DeliveryShown:
    """Who has the block: names by state."""

    name: str
    got: tuple[str, ...]
    waiting: tuple[str, ...]
    unreachable: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ChangedOver:
    name: str
    first_on: date | None
    weekdays: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class StayedOn:
    """then: the block that begins by itself afterwards, "" for none."""

    name: str
    until: date
    then: str = ""


@dataclass(frozen=True, slots=True)
class BroadcastSent:
    to: int
    unreachable: int = 0


@dataclass(frozen=True, slots=True)
class FromCoach:
    coach: str
    text: str


@dataclass(frozen=True, slots=True)
class TargetSet:
    member: str
    label: str
    target: str


@dataclass(frozen=True, slots=True)
class CoachSaysSentence:
    """A plain sentence for the coach that needs data only. code: which; values fill it."""

    code: str
    values: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WentQuiet:
    member: str
    days: int
    paused: bool = False  # from now on they are not reminded any more


@dataclass(frozen=True, slots=True)
class Unreachable:
    """back: who had blocked the bot can be written to again."""

    member: str
    back: bool = False
