"""What goes into a suggestion and what comes out: plain values that a test writes by hand in a few lines.

slot = Slot("A1", "Goblet squat", (SetTarget(8, 12),) * 3)
week = week_of(date(2026, 3, 2), "A1", weight(20), (12, 12, 12))
suggest(SlotCase(slot, kit=kit, week=2, history=(week,)))
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from bot.training.blocks import Drop, ExerciseId, Measure, Partials, PolicyKind, SetPlace, Sides, Slot
from bot.training.exercises.entry import Exercise
from bot.training.kit import Kit
from bot.training.loads import Load, Unit
from bot.training.records import SetDone, SetRecord
from bot.training.tempo import Tempo


@dataclass(frozen=True, slots=True)
class WeekOfRecords:
    """One member's sets of one slot in one week, oldest first.

    missed: the session was planned and not done. notes: what the member wrote beside it, as written. poor_sleep: said of that week
    (a note that says so counts as well).
    """

    week_start: date
    records: tuple[SetRecord, ...] = ()
    missed: bool = False
    notes: tuple[str, ...] = ()
    poor_sleep: bool = False


def week_of(
    start: date,
    label: str,
    load: Load | None,
    counts: Sequence[int],
    *,
    measure: Measure = Measure.REPS,
    rir: Decimal | int | None = None,
    exercise: ExerciseId | None = None,
) -> WeekOfRecords:
    """Straight sets of one week in a line: week_of(monday, "A1", weight(20), (12, 11, 10))."""
    rir = None if rir is None else Decimal(rir)
    done = [SetDone(measure=measure, count=count, load=load, rir=rir) for count in counts]
    return WeekOfRecords(start, tuple(SetRecord(one, SetPlace(label, n), start, exercise) for n, one in enumerate(done, 1)))


@dataclass(frozen=True, slots=True)
class CoachTarget:
    """What the coach set for one member's slot. Fields left None follow the prescription; hold: keep last week's.

    knows_of_pain: it was set after the pain was reported, so it is not held back for it.
    """

    load: Load | None = None
    low: int | None = None
    high: int | None = None
    tempo: Tempo | None = None
    hold: bool = False
    note: str = ""
    knows_of_pain: bool = False


@dataclass(frozen=True, slots=True)
class SlotCase:
    """Everything one suggestion is made from.

    week: the block's week that the targets are FOR, from 1; weeks_in_block: how many there are.
    history: oldest first, weeks of an earlier block may stand in front; other exercises' records are left out of account.
    unit: the member's. exercise: the one done in the slot now. harder: variations to offer, best first; empty: the catalogue's.
    policy: the coach's for the slot; None: the slot's own. override: the coach's word for this member.
    on: the date the targets are for, to count the days since the last session; days_away: that number where it is known better.
    painful: a pain report on this slot is open. poor_sleep: said this week. before: last week's suggestion (its tempo holds on, and
    its forecast is what happened is held against).
    """

    slot: Slot
    kit: Kit = Kit()
    unit: Unit = Unit.KG
    week: int = 2
    weeks_in_block: int = 4
    history: tuple[WeekOfRecords, ...] = ()
    exercise: Exercise | None = None
    harder: tuple[Exercise, ...] = ()
    policy: PolicyKind | None = None
    override: CoachTarget | None = None
    on: date | None = None
    days_away: int | None = None
    painful: bool = False
    poor_sleep: bool = False
    before: Suggestion | None = None


class Kind(StrEnum):
    """What the suggestion is, in one word for buttons, counts and the coach's table."""

    ADD_LOAD = "add_load"
    ADD_REPS = "add_reps"
    ADD_BOTH = "add_both"  # a fine step of load at the same reps
    ADD_TIME = "add_time"  # seconds of a hold
    ADD_DISTANCE = "add_distance"  # steps or metres
    ADD_HOLD_LOAD = "add_hold_load"  # weight on a timed hold
    NEXT_BAND = "next_band"
    LESS_HELP = "less_help"
    SLOWER = "slower"
    LONGER_PAUSE = "longer_pause"
    PARTIALS = "partials"
    HARDER_VARIATION = "harder_variation"
    HOLD = "hold"
    EASE = "ease"
    BACK_IN = "back_in"
    AFTER_PAIN = "after_pain"
    FIRST_WEEK = "first_week"
    COACH_SAYS = "coach_says"
    ASK_SLIP = "ask_slip"


RAISES = frozenset(
    {
        Kind.ADD_LOAD, Kind.ADD_REPS, Kind.ADD_BOTH, Kind.ADD_TIME, Kind.ADD_DISTANCE, Kind.ADD_HOLD_LOAD, Kind.NEXT_BAND,
        Kind.LESS_HELP, Kind.SLOWER, Kind.LONGER_PAUSE, Kind.PARTIALS, Kind.HARDER_VARIATION,
    }
)  # fmt: skip


class Why(StrEnum):
    """The rule that spoke. Each has one sentence in sentences.py and one source in the rule's docstring."""

    TOPPED = "topped"
    RESERVE = "reserve"  # reps left over say the same as reps done
    FAR_TOO_LIGHT = "far_too_light"
    TWO_FOR_TWO = "two_for_two"
    LOW_IN_RANGE = "low_in_range"
    IN_BETWEEN = "in_between"
    FINE_STEP = "fine_step"
    SOME_SETS_TOPPED = "some_sets_topped"
    STEP_TOO_BIG = "step_too_big"
    NOTHING_HEAVIER = "nothing_heavier"
    PAST_TARGET = "past_target"
    WEAKER_SIDE = "weaker_side"
    BELOW_ONCE = "below_once"
    BELOW = "below"
    NOTHING_LIGHTER = "nothing_lighter"
    TWO_FALLING = "two_falling"
    EFFORT_HIGH = "effort_high"
    FORM = "form"
    MISSED_WEEK = "missed_week"
    AWAY = "away"
    POOR_SLEEP = "poor_sleep"
    PAIN_OPEN = "pain_open"
    PAIN_LATELY = "pain_lately"
    WEEK_ONE = "week_one"
    NO_RECORDS = "no_records"
    LOAD_UNKNOWN = "load_unknown"
    POLICY_HOLD = "policy_hold"
    POLICY_REPS = "policy_reps"
    POLICY_TEMPO = "policy_tempo"
    WAIT_FOR_LOAD = "wait_for_load"
    COACH = "coach"
    SLIP = "slip"
    BAND_STEP = "band_step"
    PERCENT = "percent"
    PERCENT_UNKNOWN = "percent_unknown"  # a share of a best single that is not known yet
    NEW_RANGE = "new_range"  # the block asks for other counts this week
    LONGER = "longer"  # a hold at its top, but not past it
    BUILD_UP = "build_up"
    REST_LONGER = "rest_longer"
    STANDING_STILL = "standing_still"
    SETS_LEFT_OUT = "sets_left_out"
    BACK_UP = "back_up"  # after a lighter week, to a load that went before
    ONE_SIDE = "one_side"  # only one side is on record
    SAME_LOAD_FIRST = "same_load_first"
    ONCE_MORE = "once_more"  # two above the goal, once: the same again makes it twice
    THE_JUMP = "the_jump"
    FORM_AGAIN = "form_again"
    POLICY_LOAD = "policy_load"
    BAND_ORDER_UNKNOWN = "band_order_unknown"
    KEEPS_ORDER = "keeps_order"  # the load rises or falls from set to set, and this set would catch up with another
    CLIMBING = "climbing"  # still a little below, but more than the time before


@dataclass(frozen=True, slots=True)
class SetAim:
    """The target of one set: load, low..high to land in, aim to go for (all counts in `measure`), tempo, drops.

    load None: not known or none asked for. high None: as many as possible. sides: as the slot says; counts hold for each side.
    """

    number: int
    low: int | None = None
    high: int | None = None
    aim: int | None = None
    load: Load | None = None
    measure: Measure = Measure.REPS
    amrap: bool = False
    sides: Sides = Sides.BOTH
    tempo: Tempo | None = None
    partials: Partials | None = None
    drops: tuple[Drop, ...] = ()
    rir: Decimal | None = None


@dataclass(frozen=True, slots=True)
class SetForecast:
    """What is expected of one set under its target: count (mean) with sd, and the chance (0 to 1) to land in low..high.

    A member who stops at the top lands by reaching the low end. rough: no published curve stands behind it (bands, holds).
    """

    number: int
    expected: float
    sd: float
    chance: float
    low: int | None = None
    high: int | None = None
    rough: bool = False


@dataclass(frozen=True, slots=True)
class Reason:
    """Why, as numbers. counts: last time's, one a set (the weaker side's); load, next_load: last time's and the one spoken of.

    low, high: the range they were held against. measure: the unit of counts, low, high, expected, wanted. expected: the mean
    count forecast at next_load. wanted: the count at which the step is in reach. percent: size of the step spoken of. weeks, days: how
    many. left, right: last count of each side, where they differ. words: free text of the coach or a name. numbers: the sets spoken of,
    where they are not all of the slot's.
    """

    why: Why
    counts: tuple[int, ...] = ()
    load: Load | None = None
    next_load: Load | None = None
    low: int | None = None
    high: int | None = None
    measure: Measure = Measure.REPS
    expected: int | None = None
    wanted: int | None = None
    percent: int | None = None
    weeks: int | None = None
    days: int | None = None
    left: int | None = None
    right: int | None = None
    rir: Decimal | None = None
    tempo: Tempo | None = None
    words: str = ""
    numbers: tuple[int, ...] = ()


class NoteCode(StrEnum):
    PAIN = "pain"
    FALLING = "falling"
    STALLED = "stalled"
    BELOW = "below"
    UNEVEN = "uneven"
    TOO_COARSE = "too_coarse"
    SLIP = "slip"
    AWAY = "away"
    OVERRIDE_WAITS = "override_waits"
    POOR_SLEEP = "poor_sleep"


@dataclass(frozen=True, slots=True)
class CoachNote:
    """What the coach should hear of one slot. numbers are as in the suggestion's reason."""

    code: NoteCode
    text: str


@dataclass(frozen=True, slots=True)
class Suggestion:
    """Next week's advice for one slot.

    sets: one aim a work set, in order. reason: the rule with its numbers; reason_sentence(...) says it. variation: a harder
    exercise offered beside the targets (its name in reason.words). coach_note: what the coach should hear, or None.
    question: doubtful entries that have to be asked about, as plain sentences.
    """

    kind: Kind
    label: str
    sets: tuple[SetAim, ...]
    reason: Reason
    exercise: ExerciseId | None = None
    exercise_name: str = ""
    unit: Unit = Unit.KG
    forecast: tuple[SetForecast, ...] = ()
    variation: ExerciseId | None = None
    coach_note: CoachNote | None = None
    question: str = ""
    week: int | None = None

    @property
    def raises(self) -> bool:
        """Does it ask for more than last time?"""
        return self.kind in RAISES
