"""Estimated one-rep maxima against the published equations' worked figures (computed from the formulas as printed)."""

from decimal import Decimal

import pytest

from bot.training.curve import reps_at, share_for
from bot.training.effort import OutsideRange, rir_of_rpe, week_effort
from bot.training.strength import Equation, e1rm_estimates, estimate_e1rm

ROWS = {  # 100 kg x 3, 5, 8, 10
    Equation.EPLEY: (110.0, 116.7, 126.7, 133.3),
    Equation.BRZYCKI: (105.9, 112.5, 124.1, 133.3),
    Equation.LANDER: (107.2, 113.7, 125.1, 134.1),
    Equation.LOMBARDI: (111.6, 117.5, 123.1, 125.9),
    Equation.MAYHEW: (114.0, 119.0, 126.3, 130.9),
    Equation.OCONNER: (107.5, 112.5, 120.0, 125.0),
    Equation.WATHAN: (109.0, 116.6, 127.7, 134.7),
}


@pytest.mark.parametrize("equation", ROWS, ids=lambda e: e.value)
def test_equations_give_their_published_figures(equation: Equation) -> None:
    found = [e1rm_estimates(load_kg=Decimal(100), reps=reps)[equation] for reps in (3, 5, 8, 10)]

    assert [float(kg) for kg in found] == pytest.approx(ROWS[equation], abs=0.05)


def test_a_true_single_is_its_own_maximum() -> None:
    assert estimate_e1rm(load_kg=Decimal(100), reps=1).kg == 100


def test_a_reserve_counts_as_reps() -> None:
    """20 kg x 8 with 2 left is 10 reps: 26.7 kg by Epley and by Brzycki."""
    found = e1rm_estimates(load_kg=Decimal(20), reps=8, rir=Decimal(2))

    assert [round(float(found[e]), 1) for e in (Equation.EPLEY, Equation.BRZYCKI)] == [26.7, 26.7]


@pytest.mark.parametrize(("reps", "equations"), [(11, (Equation.BRZYCKI,)), (37, ()), (20, ())])
def test_counts_outside_the_range_are_refused(reps: int, equations: tuple[Equation, ...]) -> None:
    with pytest.raises(OutsideRange):
        e1rm_estimates(load_kg=Decimal(100), reps=reps, equations=equations)


@pytest.mark.parametrize(("share", "reps"), [(0.9, 4.94), (0.85, 7.15), (0.8, 9.75), (0.75, 12.37), (0.7, 14.80), (0.6, 19.53)])
def test_the_curve_is_nuzzos(share: float, reps: float) -> None:
    """Nuzzo et al. 2024, main table, read second hand."""
    assert reps_at(share) == pytest.approx(reps)
    assert share_for(reps) == pytest.approx(share)


def test_rpe_speaks_of_reps_from_six_up() -> None:
    assert [rir_of_rpe(Decimal(r)) for r in ("10", "9", "8.5", "6", "5.5")] == [0, 1, Decimal("1.5"), 4, None]


def test_a_worked_week_of_session_effort() -> None:
    """315, 300, 320, rest, 315, 360, rest: sum 1610, monotony 1.57, strain 2528 with the SD over n (computed)."""
    found = week_effort([Decimal(d) for d in (315, 300, 320, 0, 315, 360, 0)])

    assert found.total_au == 1610
    assert found.monotony == pytest.approx(1.57, abs=0.005)
    assert found.strain_au == pytest.approx(2528, abs=1)
    assert week_effort([Decimal(100)] * 7).monotony is None
    assert week_effort([Decimal(100), None, *[Decimal(0)] * 5]).monotony is None
