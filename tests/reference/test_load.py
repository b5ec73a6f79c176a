"""Training load against published forms and worked figures: session RPE, monotony and strain, volume load, time under tension, effort scales.

Sources: Foster et al. 2001, JSCR 15:109-115 (session RPE times minutes); Foster 1998, MSSE 30:1164-1168 (monotony, strain; formula read second
hand; sources disagree on n or n-1 in the SD, ours is n); Zourdos et al. 2016, JSCR 30:267-275 (RPE and reps in reserve); Wilk 2018, PMC6006544
(four-part tempo). The figures are worked out here from those forms.
"""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import numpy as np
import pytest

from bot.training.blocks import SetPlace, SetTarget, Slot
from bot.training.effort import OutsideRange, rir_of_rpe, rir_sd_reps, rpe_of_rir, session_effort_au, week_effort
from bot.training.loads import Load, weight
from bot.training.progression import SlotCase, WeekOfRecords
from bot.training.records import SetDone, SetRecord
from bot.training.reviews import SessionRated, review_week
from bot.training.tempo import parse_tempo, time_under_tension_s

MONDAY = date(2026, 3, 2)
RATED = ((7, 45), (6, 50), (8, 40), None, (7, 45), (6, 60), None)  # three on, one off, two on, one off


def _days() -> list[Decimal]:
    return [session_effort_au(rpe=Decimal(one[0]), minutes=one[1]) if one else Decimal(0) for one in RATED]


def test_a_session_is_its_rpe_times_its_minutes() -> None:
    assert _days() == [315, 300, 320, 0, 315, 360, 0]


def test_a_worked_week_of_load_monotony_and_strain() -> None:
    """Sum 1610, mean 230, SD (n) 146.46, monotony 1.57, strain 2528; numpy as the oracle."""
    found = week_effort(_days())
    days = np.array([float(day) for day in _days()])

    assert found.total_au == 1610
    assert found.monotony == pytest.approx(days.mean() / days.std()) == pytest.approx(1.57, abs=0.005)
    assert found.strain_au == pytest.approx(days.sum() * days.mean() / days.std()) == pytest.approx(2528, abs=1)


def test_rest_days_count_and_a_missing_report_is_no_rest_day() -> None:
    """Left out, the rest days would make it 14.29; a session that nobody rated leaves monotony unsaid."""
    unrated: list[Decimal | None] = list(_days())
    unrated[1] = None

    found = week_effort(unrated)
    assert (found.total_au, found.monotony, found.strain_au, found.missing) == (1310, None, None, 1)


def test_equal_days_have_no_monotony() -> None:
    assert week_effort([Decimal(200)] * 7).monotony is None


@pytest.mark.parametrize("days", [6, 8])
def test_a_week_has_seven_days(days: int) -> None:
    with pytest.raises(OutsideRange):
        week_effort([Decimal(0)] * days)


def test_the_members_week_adds_up_the_same_sessions() -> None:
    rated = [SessionRated(MONDAY + timedelta(days=n), Decimal(one[0]), one[1]) for n, one in enumerate(RATED) if one]
    effort = review_week([], sessions=rated).totals.effort

    assert effort is not None and effort == week_effort(_days())


@pytest.mark.parametrize(
    ("rpe", "rir"), [("10", 0), ("9.5", Decimal("0.5")), ("9", 1), ("8", 2), ("7", 3), ("6", 4), ("5.5", None), ("1", None)]
)
def test_rpe_and_reps_in_reserve(rpe: str, rir: Decimal | None) -> None:
    """10 is none left, 9 one, and so on (Zourdos et al. 2016); under 6 the scale names no number."""
    assert rir_of_rpe(Decimal(rpe)) == rir
    if rir is not None:
        assert rpe_of_rir(Decimal(rir)) == Decimal(rpe)


def test_a_reserve_is_told_within_a_rep_near_failure_and_worse_far_from_it() -> None:
    """Hackett et al. 2017, JSCR 31:2162-2168: about 1 rep when 0-5 remain, over 2 when 7-10 remain."""
    assert (rir_sd_reps(0), rir_sd_reps(5)) == (1.0, 1.0)
    assert rir_sd_reps(8) > 2


@pytest.mark.parametrize(
    ("text", "reps", "seconds"),
    [("3-1-1-0", 10, 50), ("4-0-2-0", 8, 48), ("2-0-1-0", 12, 36), ("3-1-X-0", 6, 30), ("5-0-3-0", 8, 64), ("6-0-4-0", 6, 60)],
)
def test_time_under_tension(text: str, reps: int, seconds: int) -> None:
    """Reps times the sum of the four fields; X counts one second (our convention; it has no number)."""
    tempo = parse_tempo(text)

    assert tempo is not None and time_under_tension_s(tempo, reps) == seconds


def _case(load: Load | None, counts: tuple[int, ...], tempo: str = "") -> SlotCase:
    records = tuple(SetRecord(SetDone(count=count, load=load), SetPlace("A1", n), MONDAY) for n, count in enumerate(counts, 1))
    target = SetTarget(8, 12, tempo=parse_tempo(tempo) if tempo else None)
    return SlotCase(Slot("A1", "Lift", (target,) * len(counts)), history=(WeekOfRecords(MONDAY, records),))


@pytest.mark.parametrize(
    ("load", "volume"), [(weight(20), 600), (weight(20, pair=True), 1200), (None, 0), (weight("22.5"), 675)], ids=str
)
def test_volume_load_is_reps_times_load_with_both_hands(load: Load | None, volume: int) -> None:
    """Sets x reps x load (the common definition); 3 x 10 with a pair of 20 kg is 1200 kg."""
    assert review_week([_case(load, (10, 10, 10))]).totals.volume_load_kg == volume


def test_a_weeks_tension_is_counted_where_a_tempo_was_prescribed() -> None:
    assert review_week([_case(weight(20), (10, 10), "3-1-1-0")]).totals.under_tension_s == 100
    assert review_week([_case(weight(20), (10, 10))]).totals.under_tension_s == 0
