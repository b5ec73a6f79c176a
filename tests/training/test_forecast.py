"""Forecasts scored against what happened: Brier score, bias and calibration, with scikit-free arithmetic as the oracle.

Brier 1950, Monthly Weather Review 78:1-3: the mean of the squared differences between chance and outcome.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from bot.training.blocks import SetPlace
from bot.training.forecast import pairs_of, score_forecasts, score_pairs
from bot.training.loads import weight
from bot.training.progression import SetForecast
from bot.training.records import SetDone, SetRecord
from tests.builders.slot_cases import ask, straight, week

ADVICE = ask(straight(8, 12), week(0, weight(20), 10, 10, 10))


def forecast(chance: float, *, low: int | None = 8, expected: float = 10.0) -> SetForecast:
    return SetForecast(1, expected, 1.5, chance, low, 12)


def done(number: int, count: int, **more: object) -> SetRecord:
    place = SetPlace("A1", number)
    return SetRecord(SetDone(count=count, load=more.pop("load", weight(20))), place, date(2026, 3, 9), **more)  # type: ignore[arg-type]


def test_the_score_is_the_published_one() -> None:
    chances, counts = np.array([0.9, 0.8, 0.6, 0.3]), [10, 7, 8, 6]
    hits = np.array([count >= 8 for count in counts], dtype=float)
    found = score_pairs([(forecast(chance), count) for chance, count in zip(chances, counts, strict=True)])

    assert found.brier == pytest.approx(float(((chances - hits) ** 2).mean()))
    assert (found.sets, found.landed, found.said) == (4, 0.5, pytest.approx(0.65))
    assert found.bias == pytest.approx(np.mean(counts) - 10)


@pytest.mark.parametrize(("chance", "count", "brier"), [(1.0, 8, 0.0), (1.0, 7, 1.0), (0.5, 7, 0.25), (0.0, 7, 0.0)])
def test_both_sides_of_the_low_end(chance: float, count: int, brier: float) -> None:
    assert score_pairs([(forecast(chance), count)]).brier == pytest.approx(brier)


def test_an_open_set_lands_whatever_it_is() -> None:
    assert score_pairs([(forecast(1.0, low=None), 1)]).landed == 1


def test_of_the_sets_said_to_land_so_often_so_many_did() -> None:
    pairs = [(forecast(0.9), 10)] * 9 + [(forecast(0.9), 5)] + [(forecast(0.6), 10), (forecast(0.6), 5)]
    bins = {(one.low, one.high): (one.sets, round(one.said, 3), round(one.landed, 3)) for one in score_pairs(pairs).bins}

    assert bins == {(0.5, 0.7): (2, 0.6, 0.5), (0.85, 1.0): (10, 0.9, 0.9)}


def test_nothing_to_score_is_no_score() -> None:
    found = score_pairs([])

    assert (found.sets, found.brier, found.landed, found.bias) == (0, None, None, None)


def test_sets_done_otherwise_than_advised_are_no_witness() -> None:
    """Another load, pain, doubt, another slot, a set that was not done."""
    records = [done(1, 11), done(2, 11, painful=True), done(3, 11, doubtful=True)]
    other_load = [done(1, 11, load=weight(25))]
    elsewhere = [replace(done(1, 11), place=SetPlace("B1", 1)), replace(done(1, 11), place=None)]

    assert [count for _, count in pairs_of(ADVICE, records)] == [11]
    assert pairs_of(ADVICE, other_load) == []
    assert pairs_of(ADVICE, elsewhere) == []
    assert score_forecasts([ADVICE], records).sets == 1


def test_a_forecast_names_its_range_and_a_chance_between_none_and_all() -> None:
    for one in ADVICE.forecast:
        assert (one.low, one.high) == (8, 12)
        assert 0 <= one.chance <= 1 and one.sd > 0 and 8 <= one.expected <= 12
