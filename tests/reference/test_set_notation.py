"""Typed notation and units as the books mean them.

Notation: "sets x reps x load" as strength textbooks write it (Baechle and Earle, Essentials of Strength Training and Conditioning, write 3 x 10 as
three sets of ten; from memory, not looked up). Units: the avoirdupois pound is 0.45359237 kg exactly (international agreement of 1959), read
here from scipy.constants.
"""

from __future__ import annotations

from decimal import Decimal
from itertools import pairwise

import pytest
from scipy import constants

from bot.language import read
from bot.language.readings import SetsHeard
from bot.training.loads import Unit
from bot.training.records import SetRecord
from tests.builders.situations import situation


def sets(text: str, line: str = "home") -> tuple[SetRecord, ...]:
    (heard,) = read(text, situation(line)).heard
    assert isinstance(heard, SetsHeard)
    return heard.sets


@pytest.mark.parametrize("text", ["3 x 12 x 20", "3x12x20kg", "3 × 12 × 20 kg", "3 x 12 @ 20 kg", "3 sets of 12 with 20 kg"])
def test_sets_times_reps_times_load_is_three_sets_of_twelve_with_twenty(text: str) -> None:
    told = sets(text)

    assert [(record.done.count, record.done.load.kg) for record in told if record.done.load] == [(12, Decimal(20))] * 3
    assert all(before.place.number + 1 == after.place.number for before, after in pairwise(told) if before.place and after.place)


@pytest.mark.parametrize("text", ["5 x 5 x 185", "5x5 @ 185", "5 x 5 at 185 lb"])
def test_five_by_five_is_five_sets_of_five(text: str) -> None:
    assert [record.done.count for record in sets(text, "bar")] == [5] * 5


@pytest.mark.parametrize("pounds", ["45", "2.5", "187.5"])
def test_pounds_become_kilograms_exactly(pounds: str) -> None:
    (record,) = sets(f"{pounds} lb x 5", "bar fresh")[:1]

    load = record.done.load
    assert load is not None and load.unit is Unit.LB and load.amount == Decimal(pounds)
    assert load.kg == Decimal(pounds) * Decimal("0.45359237")
    assert float(load.kg) == pytest.approx(float(pounds) * constants.lb, rel=1e-12)
