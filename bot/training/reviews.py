"""What did a week, and a block, come to for one member?

review_week: what went well, a suggestion a slot, totals. review_block: first week against last, per exercise, with honest error.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from itertools import groupby
from math import exp, floor, log

from bot.training.blocks import ExerciseId, Measure, SetKind, SetTarget
from bot.training.effort import WeekEffort, session_effort_au, week_effort
from bot.training.exercises.muscles import prime_groups
from bot.training.loads import LoadKind, say_load, say_load_within
from bot.training.progression.chances import slowed_from
from bot.training.progression.engine import look_at
from bot.training.progression.history import SessionDone, exercise_id, hurts_in, measure_of, sessions_of, targets
from bot.training.progression.outlook import HOLD_NOISE, Outlook, outlook_of
from bot.training.progression.scene import Scene, same_load
from bot.training.progression.sentences import target_words
from bot.training.progression.values import Kind, SlotCase, Suggestion, Why
from bot.training.records import SetRecord
from bot.training.trend import (
    SESSION_ERROR,
    TYPICAL_ERROR,
    Gain,
    Point,
    Trend,
    Verdict,
    gain_of,
    has_dropped,
    has_stalled,
    smallest_real_change,
    stall_together,
    trend_of,
)

UNITS = {Measure.REPS: "reps", Measure.SECONDS: "s", Measure.STEPS: "steps", Measure.METRES: "m"}
# How much more a hold's time moves by itself than strength does, so its trend needs as much more to be sure (ours, as in the outlook).
_HOLD_ERROR = HOLD_NOISE / TYPICAL_ERROR


@dataclass(frozen=True, slots=True)
class SeriesPoint:
    """One session in a chart: week of the block from 1, counts a set, the load in words; unsure: painful or doubtful."""

    week: int
    counts: tuple[int, ...]
    load: str = ""
    unsure: bool = False


@dataclass(frozen=True, slots=True)
class Series:
    """One lift for the chart. low, high: the band the counts aim at; unit: "reps", "s"; next: next target in words; trend: a verdict.

    rests: the slot waits for pain to be cleared, and next says so.
    """

    name: str
    points: tuple[SeriesPoint, ...]
    low: int | None = None
    high: int | None = None
    unit: str = "reps"
    next: str = ""
    trend: str = ""
    rests: bool = False

    @property
    def weeks(self) -> int:
        """In how many weeks there is something that counts."""
        return len({point.week for point in self.points if not point.unsure})


@dataclass(frozen=True, slots=True)
class SessionRated:
    """One session: its date, and session RPE and minutes if the member gave them."""

    on: date
    rpe: Decimal | None = None
    minutes: int | None = None


@dataclass(frozen=True, slots=True)
class WeekTotals:
    """hard_sets: (muscle group, work sets) by prime movers, most first. volume_load_kg: reps x kg, both hands, both sides counted once.

    under_tension_s: where a tempo was prescribed. effort: None without a rated session.
    """

    sets: int
    hard_sets: tuple[tuple[str, int], ...]
    volume_load_kg: Decimal
    under_tension_s: int
    effort: WeekEffort | None


@dataclass(frozen=True, slots=True)
class SlotReview:
    """One slot: next week's suggestion, the trend over all weeks, its chart. stalled, dropped: see bot.training.trend.

    gain: for judging lifts together, None where nothing can be said. pattern: the exercise's, "" where none is known.
    """

    suggestion: Suggestion
    trend: Trend | None
    series: Series
    stalled: bool = False
    dropped: bool = False
    gain: Gain | None = None
    pattern: str = ""


@dataclass(frozen=True, slots=True)
class WeekReview:
    slots: tuple[SlotReview, ...]
    well: tuple[str, ...]
    totals: WeekTotals

    @property
    def questions(self) -> tuple[str, ...]:
        return tuple(slot.suggestion.question for slot in self.slots if slot.suggestion.question)


def review_week(cases: Sequence[SlotCase], *, sessions: Sequence[SessionRated] = ()) -> WeekReview:
    """Review the last week of each case's history. sessions: those of that week."""
    looks = [look_at(case) for case in cases]
    slots = tuple(_review(case, suggestion, scene) for case, (suggestion, scene) in zip(cases, looks, strict=True))
    return WeekReview(slots, _well([scene for _, scene in looks]), _totals(cases, sessions))


def review_slot(case: SlotCase) -> SlotReview:
    return _review(case, *look_at(case))


def _review(case: SlotCase, suggestion: Suggestion, scene: Scene) -> SlotReview:
    """case: as handed in, slips and all; the scene has none of them."""
    sessions = scene.sessions
    points = _points(scene.outlook, sessions)
    # A slower tempo lowers what can be done; what lies before and after it makes no trend (Wilk et al. 2020, PMC7196738).
    comparable = not slowed_from(scene)
    wider = _error_of(scene.measure)
    trend = trend_of(points, typical_error=TYPICAL_ERROR * wider) if len(points) > 1 and comparable else None
    series = series_of(case, sessions, suggestion, trend)
    told = comparable and not _stopped_at_top(scene)
    gain = gain_of(points, typical_error=SESSION_ERROR * wider, trend=trend) if told else None
    dropped = comparable and not _was_eased(case) and has_dropped(points, typical_error=TYPICAL_ERROR * wider)
    pattern = case.exercise.pattern.value if case.exercise is not None else ""
    return SlotReview(suggestion, trend, series, has_stalled(gain), dropped, gain, pattern)


def stalls_among(slots: Sequence[SlotReview]) -> tuple[list[int], list[list[int]]]:
    """Which of a member's slots stand still, by their place in the order given: each by itself, and those that do so only together."""
    by_pattern: dict[str, list[int]] = {}
    for at, slot in enumerate(slots):
        if slot.gain is not None:
            by_pattern.setdefault(slot.pattern or f"alone {at}", []).append(at)
    alone, together = [], []
    for places in by_pattern.values():
        own = [at for at in places if has_stalled(slots[at].gain, among_others=len(places) > 1)]
        if len(own) < len(places) and stall_together([gain for at in places if (gain := slots[at].gain) is not None]):
            together.append(places)
        else:
            alone += own
    return sorted(alone), together


def _error_of(measure: Measure) -> float:
    return 1.0 if measure is Measure.REPS else _HOLD_ERROR


def name_of(case: SlotCase) -> str:
    """The exercise as it begins a line, whichever way the coach wrote it."""
    name = case.exercise.name if case.exercise else case.slot.exercise_name
    return name[:1].upper() + name[1:]


def _stopped_at_top(scene: Scene) -> bool:
    """Every set ended where the range ends: how much more was there is not known, so nothing stands still."""
    return bool(scene.sessions and scene.targets) and _at_top(scene.case, scene.last)


def _at_top(case: SlotCase, session: SessionDone) -> bool:
    asked = targets(case.slot)
    tops = [asked[min(did.number, len(asked)) - 1].high for did in session.sets] if asked else []
    return bool(tops) and all(top is not None and did.count >= top for top, did in zip(tops, session.sets, strict=True))


def _was_eased(case: SlotCase) -> bool:
    """Was the last week lighter on purpose?"""
    return case.before is not None and case.before.kind in (Kind.EASE, Kind.BACK_IN, Kind.AFTER_PAIN)


def strength_points(case: SlotCase, sessions: Sequence[SessionDone]) -> list[Point]:
    """One value a session: the capacity its sets show together (kg of one implement), or their count where there are no kilograms."""
    return _points(outlook_of(sessions, targets(case.slot), measure=measure_of(case), bands=case.kit.bands), sessions)


def _points(outlook: Outlook, sessions: Sequence[SessionDone]) -> list[Point]:
    """The sets of a session together say more than its best one. Each set number is first brought to the level of the first,

    so that a session cut short does not look stronger than one with the tired sets in it.
    """
    capacities = [{did.number: log(outlook.capacity(did)) for did in session.sets} for session in sessions]
    fades: dict[int, list[float]] = {}
    for by_number in capacities:
        if 1 in by_number:
            first = by_number[1]
            for number, value in by_number.items():
                fades.setdefault(number, []).append(value - first)
    fade = {number: sum(values) / len(values) for number, values in fades.items()}
    found = []
    for session, by_number in zip(sessions, capacities, strict=True):
        level = sum(value - fade.get(number, 0.0) for number, value in by_number.items()) / len(by_number)
        found.append(Point(session.on, exp(level)))
    return found


def series_of(case: SlotCase, sessions: Sequence[SessionDone], suggestion: Suggestion, trend: Trend | None) -> Series:
    target = suggestion.sets[0] if suggestion.sets else None
    low, high = _band(targets(case.slot))
    points = (*(_point(case, session) for session in sessions), *_unsure(case, {session.on for session in sessions}))
    return Series(
        name_of(case),
        tuple(sorted(points, key=lambda point: point.week)),
        low,
        high,
        UNITS[target.measure if target else Measure.REPS],
        target_words(suggestion, short=True),
        trend.verdict.value if trend else "",
        rests=suggestion.reason.why is Why.PAIN_OPEN,
    )


def _band(asked: Sequence[SetTarget]) -> tuple[int | None, int | None]:
    """What all the sets aim at together; an open set beside straight ones adds nothing."""
    closed = [target for target in asked if not target.amrap] or list(asked)
    lows = [target.low for target in closed if target.low is not None]
    highs = [target.high for target in closed if target.high is not None]
    return min(lows, default=None), max(highs, default=None)


def _point(case: SlotCase, session: SessionDone) -> SeriesPoint:
    load = session.sets[0].load
    return SeriesPoint(_week_number(case, session.on), session.counts, say_load(load) if load is not None else "")


def _unsure(case: SlotCase, sure: set[date]) -> list[SeriesPoint]:
    """Sessions of which nothing is built on: pain, or a number that looked like a slip."""
    counts: dict[date, list[int]] = {}
    wanted, measure = (exercise_id(case), None), measure_of(case)
    for record in (record for week in case.history for record in week.records if record.on not in sure):
        mine = record.place is not None and record.place.label == case.slot.label and record.done.measure is measure
        same = record.exercise in wanted or wanted[0] is None
        if mine and same and record.done.worst_count:
            counts.setdefault(record.on, []).append(record.done.worst_count)
    return [SeriesPoint(_week_number(case, on), tuple(found), unsure=True) for on, found in counts.items()]


def _week_number(case: SlotCase, on: date) -> int:
    """The block's week of a date; the last week of the history is the one before the targets' week. 0 and less: before the block."""
    last = case.history[-1].week_start
    start = max((week.week_start for week in case.history if week.week_start <= on), default=case.history[0].week_start)
    return case.week - 1 - (last - start).days // 7


def _well(scenes: Sequence[Scene]) -> tuple[str, ...]:
    """Up to three gains on the same set at the same load, or a heavier load, the largest first."""
    found: list[tuple[float, str]] = []
    for scene in scenes:
        case, sessions = scene.case, scene.sessions
        if len(sessions) < 2 or not case.history or sessions[-1].on < case.history[-1].week_start:
            continue
        before, last = sessions[-2], sessions[-1]
        name = name_of(case)
        a, b = before.sets[0], last.sets[0]
        gained = sum(last.counts) - sum(before.counts)
        if (
            a.kg
            and b.kg
            and a.load
            and b.load
            and a.load.kind is b.load.kind
            and b.load.kind is not LoadKind.ASSISTED
            and b.kg > a.kg
        ):
            found.append((float(b.kg / a.kg), f"{name} went up to {say_load_within(b.load)}"))
        elif gained > 0 and a.kg == b.kg and len(before.sets) == len(last.sets):
            found.append(
                (gained / max(1, sum(before.counts)), f"{name}: {_so_many(gained, scene.measure)} more than the time before")
            )
    return tuple(words for _, words in sorted(found, key=lambda one: -one[0])[:3])


def _so_many(count: int, measure: Measure) -> str:
    """ "1 rep", "3 reps", "5 s"."""
    return f"{count} {UNITS[measure].removesuffix('s') if count == 1 and measure in (Measure.REPS, Measure.STEPS) else UNITS[measure]}"


def _totals(cases: Sequence[SlotCase], rated: Sequence[SessionRated]) -> WeekTotals:
    groups: dict[str, int] = {}
    sets = tension = 0
    volume = Decimal(0)
    for case in cases:
        records, asked = _work(case), targets(case.slot)
        sets += len(records)
        if case.exercise is not None:
            for group in prime_groups(case.exercise):
                groups[group.value] = groups.get(group.value, 0) + len(records)
        for record in records:
            count = record.done.worst_count or 0
            target = asked[min(record.place.number, len(asked)) - 1] if record.place and asked else None
            if record.done.measure is Measure.SECONDS:
                tension += count
            elif record.done.measure is Measure.REPS:
                load = record.done.load
                volume += count * (load.total_kg or 0) if load is not None and load.kind is LoadKind.IMPLEMENT else 0
                tension += target.tempo.seconds_a_rep * count if target is not None and target.tempo is not None else 0
    return WeekTotals(sets, tuple(sorted(groups.items(), key=lambda one: (-one[1], one[0]))), volume, tension, _effort(rated))


def _work(case: SlotCase) -> list[SetRecord]:
    records = case.history[-1].records if case.history else ()
    mine = [r for r in records if r.place is not None and r.place.label == case.slot.label]
    return [r for r in mine if r.done.kind is not SetKind.WARM_UP and not r.doubtful]


def _effort(rated: Sequence[SessionRated]) -> WeekEffort | None:
    if not any(one.rpe is not None and one.minutes is not None for one in rated):
        return None
    first = min(one.on for one in rated)
    monday = first - timedelta(days=first.weekday())
    days: list[Decimal | None] = [Decimal(0)] * 7
    for one in rated:
        at = (one.on - monday).days
        if 0 <= at < 7:
            known = one.rpe is not None and one.minutes is not None
            day = days[at]
            days[at] = day + session_effort_au(rpe=one.rpe, minutes=one.minutes) if known and day is not None else None  # type: ignore[arg-type]
    return week_effort(days)


@dataclass(frozen=True, slots=True)
class ExerciseReview:
    """First week against last. change: share; real: the smallest change that is no noise; verdict as a trend's.

    first, last: load and counts in words. rough: no kilograms or several loads on a scale of ours, so that no share may be said.
    moved: 1 where the load or, at the same load, the counts are higher at the end, -1 lower, 0 alike. hurt: pain was on record.
    """

    name: str
    exercise: ExerciseId | None
    first: str
    last: str
    change: float
    real: float
    verdict: Verdict
    sessions: int
    measure: Measure = Measure.REPS
    rough: bool = False
    moved: int = 0
    hurt: bool = False

    @property
    def facts(self) -> str:
        return f"{self.name}: {self.first}" + (f" → {self.last}" if self.last != self.first else " both times")

    @property
    def sentence(self) -> str:
        return f"{self.facts}, {self._judged()}."

    def _judged(self) -> str:
        if self.verdict is Verdict.TOO_LITTLE:
            return "too few sessions to be sure"
        if self.verdict is Verdict.SAME:
            return (
                "about the same"
                if self.rough
                else f"about the same ({_percent(self.change):+}%; up to {floor(self.real * 100)}% can be chance)"
            )
        if self.rough:
            return "clearly more than chance makes" if self.verdict is Verdict.BETTER else "clearly down"
        up, down = {Measure.REPS: ("stronger", "down"), Measure.SECONDS: ("longer", "shorter")}.get(
            self.measure, ("further", "shorter")
        )
        word = up if self.verdict is Verdict.BETTER else down
        change, real = abs(self.change) * 100, floor(self.real * 100)
        said = f"{change:.0f}" if round(change) > real else f"{change:.1f}"
        return f"{word} by about {said}% (up to {real}% can be chance)"


def _percent(share: float) -> int:
    return round(share * 100)


def review_block(cases: Sequence[SlotCase]) -> tuple[ExerciseReview, ...]:
    """Review a whole block, each slot by itself. Slots done once or never are left out."""
    return tuple(found for case in cases if (found := first_against_last(case)) is not None)


def first_against_last(case: SlotCase) -> ExerciseReview | None:
    """One slot's first session against its last, the verdict from all between; None where there are not two."""
    sessions = sessions_of(case)
    measure = measure_of(case)
    outlook = outlook_of(sessions, targets(case.slot), measure=measure, bands=case.kit.bands)
    points = _points(outlook, sessions)
    if len(points) < 2:
        return None
    error = TYPICAL_ERROR * _error_of(measure)
    trend = trend_of(points, typical_error=error)
    days = [float((point.on - points[0].on).days) for point in points]
    real = trend.smallest_real if trend.days else smallest_real_change(days, typical_error=error)
    several = any(not same_load(session.sets[0].load, sessions[0].sets[0].load) for session in sessions)
    first, last = sessions[0], sessions[-1]
    moved = _moved(first, last)
    if moved < 0 and _at_top(case, last):
        moved = 0  # the coach asks for less by now, and that was done
    return ExerciseReview(
        name_of(case), exercise_id(case), _say(first, measure), _say(last, measure), trend.change, real, trend.verdict,
        len(sessions), measure, outlook.rough and several, moved, case.painful or hurts_in(case.history, case.slot.label),
    )  # fmt: skip


def _moved(first: SessionDone, last: SessionDone) -> int:
    """Is there more at the end: load, or counts at the same load? Only the sets that both sessions have are held together."""
    a, b = first.sets[0], last.sets[0]
    if not same_load(a.load, b.load):
        if a.kg is None or b.kg is None or a.load is None or b.load is None or a.load.kind is not b.load.kind:
            return 0
        up = b.kg > a.kg
        return 1 if up is not (a.load.kind is LoadKind.ASSISTED) else -1
    pairs = [(x.count, y.count) for x in first.sets if (y := last.set(x.number)) is not None]
    gained = sum(y - x for x, y in pairs)
    return (gained > 0) - (gained < 0)


def _say(session: SessionDone, measure: Measure) -> str:
    """ "20 kg × 12, 10, 10", "10 kg × 12; 12 kg × 10, 8", "45, 40 s"."""
    parts = []
    for load, alike in groupby(session.sets, key=lambda did: did.load):
        counts = ", ".join(str(did.said) for did in alike)
        bare = load is None or load.kind is LoadKind.BODY
        unit = ("" if not bare else " reps") if measure is Measure.REPS else f" {UNITS[measure]}"
        parts.append(f"{counts}{unit}" if load is None or bare else f"{say_load(load)} × {counts}{unit}")
    return "; ".join(parts)
