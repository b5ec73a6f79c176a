"""What did a week, and a block, come to for one member?

review_week: what went well, a suggestion a slot, totals. review_block: first week against last, per exercise, with honest error.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from math import exp, log

from bot.training.blocks import ExerciseId, Measure, SetKind
from bot.training.effort import WeekEffort, session_effort_au, week_effort
from bot.training.exercises.muscles import prime_groups
from bot.training.loads import LoadKind, say_load
from bot.training.progression.asked import target_at
from bot.training.progression.chances import slowed_from
from bot.training.progression.engine import look_at
from bot.training.progression.history import SessionDone, exercise_id, measure_of, sessions_of, targets
from bot.training.progression.outlook import Outlook, outlook_of
from bot.training.progression.scene import Scene
from bot.training.progression.sentences import target_words
from bot.training.progression.values import Kind, SlotCase, Suggestion
from bot.training.records import SetRecord
from bot.training.trend import Point, Trend, Verdict, has_dropped, has_stalled, smallest_real_change, trend_of

UNITS = {Measure.REPS: "reps", Measure.SECONDS: "s", Measure.STEPS: "steps", Measure.METRES: "m"}


@dataclass(frozen=True, slots=True)
class SeriesPoint:
    """One session in a chart: week of the block from 1, counts a set, the load in words; unsure: painful or doubtful."""

    week: int
    counts: tuple[int, ...]
    load: str = ""
    unsure: bool = False


@dataclass(frozen=True, slots=True)
class Series:
    """One lift for the chart. low, high: the band the counts aim at; unit: "reps", "s"; next: next target in words; trend: a verdict."""

    name: str
    points: tuple[SeriesPoint, ...]
    low: int | None = None
    high: int | None = None
    unit: str = "reps"
    next: str = ""
    trend: str = ""


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
    """One slot: next week's suggestion, the trend over all weeks, its chart. stalled, dropped: see bot.training.trend."""

    suggestion: Suggestion
    trend: Trend | None
    series: Series
    stalled: bool = False
    dropped: bool = False


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
    trend = trend_of(points) if len(points) > 1 and comparable else None
    series = series_of(case, sessions, suggestion, trend)
    stalled = comparable and not _stopped_at_top(scene) and has_stalled(points)
    dropped = comparable and not _was_eased(case) and has_dropped(points)
    return SlotReview(suggestion, trend, series, stalled, dropped)


def _stopped_at_top(scene: Scene) -> bool:
    """Every set ended where the range ends: how much more was there is not known, so nothing stands still."""
    tops = [target_at(scene, did.number).high for did in scene.last.sets] if scene.sessions and scene.targets else []
    return bool(tops) and all(top is not None and did.count >= top for top, did in zip(tops, scene.last.sets, strict=True))


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
        for number, value in by_number.items():
            if 1 in by_number:
                fades.setdefault(number, []).append(value - by_number[1])
    fade = {number: sum(values) / len(values) for number, values in fades.items()}
    found = []
    for session, by_number in zip(sessions, capacities, strict=True):
        level = sum(value - fade.get(number, 0.0) for number, value in by_number.items()) / len(by_number)
        found.append(Point(session.on, exp(level)))
    return found


def series_of(case: SlotCase, sessions: Sequence[SessionDone], suggestion: Suggestion, trend: Trend | None) -> Series:
    target = suggestion.sets[0] if suggestion.sets else None
    prescribed = case.slot.sets[0] if case.slot.sets else None
    points = (*(_point(case, session) for session in sessions), *_unsure(case, {session.on for session in sessions}))
    return Series(
        case.exercise.name if case.exercise else case.slot.exercise_name,
        tuple(sorted(points, key=lambda point: point.week)),
        prescribed.low if prescribed else None,
        prescribed.high if prescribed else None,
        UNITS[target.measure if target else Measure.REPS],
        target_words(suggestion, short=True),
        trend.verdict.value if trend else "",
    )


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
        name = case.exercise.name if case.exercise else case.slot.exercise_name
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
            found.append((float(b.kg / a.kg), f"{name} went up to {say_load(b.load)}"))
        elif gained > 0 and a.kg == b.kg and len(before.sets) == len(last.sets):
            unit = UNITS[scene.measure]
            found.append((gained / max(1, sum(before.counts)), f"{name}: {gained} {unit} more than the time before"))
    return tuple(words for _, words in sorted(found, key=lambda one: -one[0])[:3])


def _totals(cases: Sequence[SlotCase], rated: Sequence[SessionRated]) -> WeekTotals:
    groups: dict[str, int] = {}
    sets = tension = 0
    volume = Decimal(0)
    for case in cases:
        records = _work(case)
        sets += len(records)
        if case.exercise is not None:
            for group in prime_groups(case.exercise):
                groups[group.value] = groups.get(group.value, 0) + len(records)
        for record in records:
            count = record.done.worst_count or 0
            target = (
                case.slot.sets[min(record.place.number, len(case.slot.sets)) - 1] if record.place and case.slot.sets else None
            )
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

    first, last: load and counts in words.
    """

    name: str
    exercise: ExerciseId | None
    first: str
    last: str
    change: float
    real: float
    verdict: Verdict
    sessions: int

    @property
    def sentence(self) -> str:
        sure = {
            Verdict.BETTER: f"stronger by about {self.change:.0%} (anything over {self.real:.0%} is more than noise)",
            Verdict.WORSE: f"down by about {abs(self.change):.0%} (anything over {self.real:.0%} is more than noise)",
            Verdict.SAME: f"about the same ({self.change:+.0%}, and up to {self.real:.0%} is noise)",
            Verdict.TOO_LITTLE: "too few sessions to say",
        }[self.verdict]
        return f"{self.name}: {self.first} -> {self.last}, {sure}."


def review_block(cases: Sequence[SlotCase]) -> tuple[ExerciseReview, ...]:
    """Review a whole block: each slot's first session against its last, the verdict from all between. Slots never done are left out."""
    found = []
    for case in cases:
        sessions = sessions_of(case)
        points = strength_points(case, sessions)
        if len(points) < 2:
            continue
        trend = trend_of(points)
        days = [float((point.on - points[0].on).days) for point in points]
        real = trend.smallest_real if trend.days else smallest_real_change(days)
        name = case.exercise.name if case.exercise else case.slot.exercise_name
        found.append(
            ExerciseReview(
                name, exercise_id(case), _say(sessions[0]), _say(sessions[-1]), trend.change, real, trend.verdict, len(sessions)
            )
        )
    return tuple(found)


def _say(session: SessionDone) -> str:
    load = session.sets[0].load
    counts = ", ".join(str(count) for count in session.counts)
    return f"{say_load(load)} x {counts}" if load is not None else counts
