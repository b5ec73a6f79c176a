"""A member's week and block in review: what went well, the trend with its doubt, the chart's series, who stands still."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal

import pytest

from bot.training.blocks import Measure, SetKind, SetTarget
from bot.training.loads import BODY_WEIGHT, Load, LoadKind, Unit, weight
from bot.training.progression import Kind, SlotCase, WeekOfRecords
from bot.training.progression.history import sessions_of
from bot.training.reviews import SeriesPoint, review_block, review_slot, review_week, stalls_among, strength_points
from bot.training.trend import Gain, Verdict
from tests.builders.slot_cases import MONDAY, USUAL, ask, exercise, missed, slot, straight, week

RANGED = straight(8, 12)


def case(*weeks: WeekOfRecords, **more: object) -> SlotCase:
    at = more.pop("week", max(2, len(weeks) + 1))
    return SlotCase(RANGED, USUAL, week=at, history=weeks, **more)  # type: ignore[arg-type]


def rising(weeks: int, *, from_kg: float = 20.0, gain: float = 0.02) -> list[WeekOfRecords]:
    return [week(n, weight(str(round(from_kg * (1 + gain * n), 1))), 10, 10, 10) for n in range(weeks)]


def test_the_best_three_gains_are_told_the_largest_first() -> None:
    cases = [
        case(week(0, weight(20), 10, 10, 10), week(1, weight(20), 11, 10, 10)),
        case(week(0, weight(20), 10, 10, 10), week(1, weight(25), 8, 8, 8)),
        case(week(0, weight(20), 10, 10, 10), week(1, weight(20), 12, 12, 12)),
        case(week(0, weight(20), 10, 10, 10), week(1, weight(20), 9, 9, 9)),
        case(week(0, BODY_WEIGHT, 10, 10, 10), week(1, BODY_WEIGHT, 10, 10, 12)),
    ]

    assert review_week(cases).well == (
        "Lift went up to 25 kg", "Lift: 6 reps more than the time before", "Lift: 2 reps more than the time before",
    )  # fmt: skip


def test_a_lift_that_was_missed_this_week_is_not_praised_for_the_last() -> None:
    assert review_week([case(week(0, weight(20), 10, 10, 10), week(1, weight(25), 8, 8, 8), missed(2))]).well == ()


@pytest.mark.parametrize(
    ("gain", "weeks", "verdict"),
    [(0.03, 8, Verdict.BETTER), (0.0, 8, Verdict.SAME), (-0.03, 8, Verdict.WORSE), (0.03, 3, Verdict.TOO_LITTLE)],
)
def test_better_same_and_worse_mean_more_than_noise(gain: float, weeks: int, verdict: Verdict) -> None:
    trend = review_slot(case(*rising(weeks, gain=gain))).trend

    assert trend is not None and trend.verdict is verdict


def test_a_session_cut_short_does_not_look_stronger() -> None:
    """The first set alone, where three with the usual fading were done before and after."""
    weeks = [week(n, weight(20), 12, 10, 8) for n in range(6)]
    weeks[3] = week(3, weight(20), 12)
    one = case(*weeks)
    values = [point.value for point in strength_points(one, sessions_of(one))]

    assert max(values) / min(values) == pytest.approx(1, abs=1e-6)


def test_a_member_who_stands_still_is_told_to_the_coach_and_one_who_gains_is_not() -> None:
    still = [week(n, weight(20), 10, 9, 8) for n in range(8)]

    assert review_slot(case(*still)).stalled
    assert not review_slot(case(*rising(8, gain=0.015))).stalled
    assert not review_slot(case(*still[:4])).stalled  # too short to say


def test_lifts_of_one_pattern_are_judged_together_and_others_by_themselves() -> None:
    """None of the three is sure enough alone; the two squats together are."""
    wobble = ((10, 9, 8), (10, 10, 8), (10, 9, 9), (9, 9, 8), (10, 9, 8), (10, 9, 8))
    cases = [
        case(*(week(n, weight(20), *one) for n, one in enumerate(wobble)), exercise=exercise(name))
        for name in ("goblet_squat", "box_squat", "dumbbell_curl")
    ]
    reviews = [review_slot(one) for one in cases]
    alone, together = stalls_among([replace(one, gain=Gain(0.0, 0.0045)) for one in reviews])

    assert (alone, together) == ([], [[0, 1]])
    assert stalls_among([replace(one, gain=None) for one in reviews]) == ([], [])
    assert stalls_among([replace(one, gain=Gain(0.0, 0.001)) for one in reviews]) == ([0, 1, 2], [])


def test_who_stops_at_the_top_every_week_does_not_stand_still() -> None:
    """How much more was there is not known."""
    assert not review_slot(case(*(week(n, weight(20), 12, 12, 12) for n in range(8)))).stalled


def test_a_slower_tempo_makes_no_trend_with_what_was_before() -> None:
    before = ask(RANGED, week(0, weight(30), 17, 17, 17))
    assert before.kind is Kind.SLOWER
    slowed = case(
        *(week(n, weight(30), 17, 17, 17) for n in range(6)),
        week(6, weight(30), 9, 9, 9),
        week(7, weight(30), 9, 9, 9),
        before=before,
    )
    found = review_slot(slowed)

    assert (found.trend, found.dropped, found.stalled) == (None, False, False)


@pytest.mark.parametrize(
    ("counts", "dropped"), [(((6, 6, 5), (6, 5, 5)), True), (((6, 6, 5), (10, 10, 10)), False), (((9, 9, 9), (9, 9, 9)), False)]
)
def test_two_clearly_lower_sessions_are_a_drop(counts: tuple[tuple[int, ...], ...], dropped: bool) -> None:
    weeks = [week(n, weight(20), 11, 11, 11) for n in range(6)]
    lower = [week(6 + n, weight(20), *one) for n, one in enumerate(counts)]

    assert review_slot(case(*weeks, *lower)).dropped is dropped


# --- the chart's series ---


def test_a_series_holds_the_weeks_the_band_and_the_next_target() -> None:
    series = review_slot(case(week(0, weight(20), 10, 9, 8), missed(1), week(2, weight("22.5"), 9, 8, 8))).series

    assert series.points == (SeriesPoint(1, (10, 9, 8), "20 kg"), SeriesPoint(3, (9, 8, 8), "22.5 kg"))
    assert (series.low, series.high, series.unit) == (8, 12, "reps")
    assert series.next == "22.5 kg: 10, 9, 9"


def test_the_band_of_a_pyramid_spans_all_its_sets_and_no_warm_up() -> None:
    pyramid = slot(
        SetTarget(20, 20, kind=SetKind.WARM_UP), SetTarget(12, 12), SetTarget(10, 10), SetTarget(6, 8), SetTarget(8, amrap=True)
    )
    series = review_slot(SlotCase(pyramid, USUAL, week=2, history=(week(0, weight(20), 12, 10, 8, 9),))).series

    assert (series.low, series.high) == (6, 12)


def test_weeks_of_a_series_count_only_what_counts() -> None:
    """Two sessions in one week, and a slip in another, make no line."""
    twice = week(0, weight(20), 10)
    twice = replace(twice, records=(*twice.records, *(replace(r, on=r.on + timedelta(days=3)) for r in twice.records)))

    assert review_slot(case(twice, week(1, weight(200), 10))).series.weeks == 1


def test_what_is_not_built_on_is_marked_and_kept_apart() -> None:
    hurt = week(1, weight(20), 8, 8, 8)
    hurt = replace(hurt, records=tuple(replace(record, painful=True) for record in hurt.records))
    slipped = week(2, weight(200), 12, 12, 12)
    points = review_slot(case(week(0, weight(20), 10, 10, 10), hurt, slipped)).series.points

    assert points == (
        SeriesPoint(1, (10, 10, 10), "20 kg"), SeriesPoint(2, (8, 8, 8), unsure=True), SeriesPoint(3, (12, 12, 12), unsure=True),
    )  # fmt: skip


def test_weeks_are_the_blocks_even_when_the_day_of_the_week_moves() -> None:
    late, early = week(0, weight(20), 10), week(1, weight(20), 10)
    late = replace(late, records=tuple(replace(record, on=MONDAY + timedelta(days=5)) for record in late.records))
    points = review_slot(case(late, early)).series.points

    assert [point.week for point in points] == [1, 2]


# --- the block ---


def test_a_block_is_reviewed_first_week_against_last_with_honest_error() -> None:
    still = [week(n, weight(20), 10, 9, 8) for n in range(8)]
    better, same, short = review_block([case(*rising(8, gain=0.03)), case(*still), case(*rising(2))])

    assert better.verdict is Verdict.BETTER and "stronger by about" in better.sentence and "can be chance" in better.sentence
    assert better.sentence.startswith("Lift: 20 kg × 10, 10, 10 → 24.2 kg × 10, 10, 10, ")
    assert same.verdict is Verdict.SAME and "about the same" in same.sentence
    assert short.verdict is Verdict.TOO_LITTLE and "too few sessions to be sure" in short.sentence


def held(*seconds: int, load: Load = BODY_WEIGHT) -> SlotCase:
    weeks = tuple(week(n, load, one, one, measure=Measure.SECONDS) for n, one in enumerate(seconds))
    return SlotCase(straight(20, 60, 2, measure=Measure.SECONDS), USUAL, week=len(weeks) + 1, history=weeks)


def test_a_holds_time_moves_more_by_itself_than_strength_does() -> None:
    """44 to 50 s is a good day; to 90 s it is not."""
    (little,), (much,) = (review_block([held(*seconds)]) for seconds in ((44, 46, 48, 49, 50), (44, 55, 66, 80, 90)))

    assert little.verdict is not Verdict.BETTER
    assert much.verdict is Verdict.BETTER and "longer by about" in much.sentence and "stronger" not in much.sentence


def test_no_share_is_said_where_ours_is_the_only_scale() -> None:
    """A heavier carry or another band is more; how much more strength that is, nobody knows."""
    loads = [weight(16 + 2 * n, pair=True) for n in range(5)]
    weeks = tuple(week(n, load, 40, 40, measure=Measure.STEPS) for n, load in enumerate(loads))
    (carry,) = review_block([SlotCase(straight(40, 40, 2, measure=Measure.STEPS), USUAL, week=6, history=weeks)])

    assert carry.verdict is Verdict.BETTER and carry.moved == 1
    assert "%" not in carry.sentence
    assert carry.sentence.startswith("Lift: pair of 16 kg × 40, 40 steps → pair of 24 kg × 40, 40 steps")


@pytest.mark.parametrize(
    ("first", "last", "moved"),
    [
        (week(0, weight(20), 10, 10, 10), week(1, weight("22.5"), 8, 8, 8), 1),
        (week(0, weight(20), 10, 10, 10), week(1, weight(20), 11, 10, 10), 1),
        (week(0, weight(20), 10, 10, 10), week(1, weight(20), 11, 10), 1),
        (week(0, weight(20), 10, 10, 10), week(1, weight(20), 10, 10, 10), 0),
        (week(0, weight(20), 10, 10, 10), week(1, weight(20), 9, 9, 10), -1),
        (week(0, Load(LoadKind.ASSISTED, Decimal(20), Unit.KG), 8), week(1, Load(LoadKind.ASSISTED, Decimal(15), Unit.KG), 8), 1),
        (week(0, weight(20), 15, 15, 15), week(1, weight(20), 12, 12, 12), 0),  # the coach asks for no more than twelve by now
    ],
)
def test_what_moved_is_told_apart_from_what_is_sure(first: WeekOfRecords, last: WeekOfRecords, moved: int) -> None:
    (found,) = review_block([case(first, last)])

    assert (found.moved, found.verdict) == (moved, Verdict.TOO_LITTLE)


def test_what_hurt_is_marked_so_that_it_is_not_compared() -> None:
    hurt = week(1, weight(20), 8)
    hurt = replace(hurt, records=tuple(replace(record, painful=True) for record in hurt.records))
    (found,) = review_block([case(week(0, weight(20), 10, 10), hurt, week(2, weight(10), 10, 10))])

    assert found.hurt


def test_one_rep_more_is_one_rep() -> None:
    assert review_week([case(week(0, weight(20), 10, 10, 10), week(1, weight(20), 11, 10, 10))]).well == (
        "Lift: 1 rep more than the time before",
    )


def test_a_slot_done_once_or_never_is_left_out_of_the_blocks_review() -> None:
    assert review_block([case(week(0, weight(20), 10, 10, 10)), case(missed(0))]) == ()


def test_totals_count_work_sets_groups_and_nothing_doubtful() -> None:
    plain = case(week(0, weight(20), 10, 10, 10), exercise=exercise("goblet_squat"))
    doubtful = week(0, weight(20), 10, 10)
    doubtful = replace(doubtful, records=tuple(replace(record, doubtful=True) for record in doubtful.records))
    totals = review_week([plain, case(doubtful)]).totals

    assert (totals.sets, totals.volume_load_kg) == (3, 600)
    assert dict(totals.hard_sets)["quadriceps"] == 3


def test_a_week_without_anything_is_a_review_without_anything() -> None:
    found = review_week([])

    assert (found.slots, found.well, found.totals.sets, found.questions) == ((), (), 0, ())
