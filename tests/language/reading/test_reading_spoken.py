"""Four thousand messages spoken from sets that are known, in the ways people say them, held against what they were spoken from.

Today, over all: of 3,974 clear messages 3,920 (98.6 %) are recorded exactly, 45 asked about, 7 taken for no sets and 2 recorded
wrong. The forms are those of the builder's tables: a way of speaking that stands in none is not measured here.
"""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from functools import cache

import pytest

from tests.builders.spoken import FAMILIES, spoken
from tests.builders.spoken.done import Done
from tests.builders.spoken.doubts import is_doubtful
from tests.builders.spoken.people import PEOPLE
from tests.builders.spoken.words import Words
from tests.builders.voices import Mark, Outcome, outcome

SEED = 2026
EACH_FAMILY = 115
# The least share of a family's clear messages recorded exactly, in percent: a little under today's figure, which stands behind it.
FLOORS = {
    "one set": 96.0,  # 98.2
    "sets alike": 98.0,  # 100.0
    "sets listed": 96.0,  # 97.9
    "later sets": 97.0,  # 99.0
    "numbered set": 98.0,  # 100.0
    "numbered sets": 98.0,  # 100.0
    "other unit": 98.0,  # 100.0
    "body weight": 98.0,  # 100.0
    "bands": 98.0,  # 100.0
    "plates": 96.0,  # 98.3
    "added load": 98.0,  # 100.0
    "helped by a band": 98.0,  # 100.0
    "holds": 98.0,  # 100.0
    "several holds": 98.0,  # 100.0
    "carries": 91.5,  # 93.7
    "several carries": 89.0,  # 90.9
    "sides apart": 97.0,  # 99.1
    "sides held": 98.0,  # 100.0
    "efforts": 97.0,  # 99.1
    "aims": 98.0,  # 100.0
    "yesterday": 98.0,  # 100.0
    "stories": 90.0,  # 92.0
    "dictated": 98.0,  # 100.0
    "same again": 98.0,  # 100.0
    "put right": 93.5,  # 95.7
    "drops": 97.0,  # 99.0
    "rest-pauses": 98.0,  # 100.0
    "partials": 97.0,  # 99.1
    "warm-ups": 93.5,  # 95.7
    "taken back": 98.0,  # 100.0
    "left out": 98.0,  # 100.0
    "ended": 98.0,  # 100.0
    "sessions": 97.0,  # 99.1
    "in one line": 98.0,  # 100.0
    "rounds": 98.0,  # 100.0
    "slips": 91.0,  # 93.0
}


@cache
def outcomes(family: str) -> tuple[Outcome, ...]:
    return tuple(map(outcome, spoken(family, seed=SEED, number=EACH_FAMILY)))


def every() -> list[Outcome]:
    return [one for family in FLOORS for one in outcomes(family)]


def listed(found: list[Outcome]) -> str:
    return "\n".join(map(str, found))


def test_every_family_has_its_floor() -> None:
    assert list(FLOORS) == list(FAMILIES)


@pytest.mark.parametrize("family", FLOORS)
def test_each_way_of_speaking_is_understood(family: str) -> None:
    clear = [one for one in outcomes(family) if one.message.mark is Mark.CLEAR]
    otherwise = [one for one in clear if one.kind != "right"]

    assert 100 * (len(clear) - len(otherwise)) >= FLOORS[family] * len(clear), listed(otherwise)


def test_at_most_three_in_a_thousand_records_are_wrong_without_a_question() -> None:
    recorded = [one for one in every() if one.recorded]
    wrong = [one for one in recorded if one.kind == "wrong"]

    assert len(wrong) <= 0.003 * len(recorded), listed(wrong)


def test_most_messages_are_clear_and_hardly_two_are_the_same() -> None:
    """What may be asked about is the exception, and what is drawn is a wide choice."""
    marks = Counter(one.message.mark for one in every())
    texts = {(one.message.who, one.message.text) for one in every()}

    assert marks.total() == EACH_FAMILY * len(FAMILIES) >= 4000
    assert marks[Mark.CLEAR] > 0.9 * marks.total()
    assert len(texts) > 0.85 * marks.total()


def test_the_same_seed_gives_the_same_messages_and_another_gives_others() -> None:
    first = [one.text for one in spoken("one set", seed=1, number=20)]

    assert [one.text for one in spoken("one set", seed=1, number=20)] == first
    assert not set(first) & {one.text for one in spoken("one set", seed=2, number=20)}


@pytest.mark.parametrize(
    ("who", "label", "counts", "load", "text", "doubtful"),
    [
        pytest.param("Oona", "A1", (10,), "8", "8 x 10", True, id="eight kilos or eight reps"),
        pytest.param("Oona", "A1", (10,), "8kg", "8kg x 10", False, id="the unit says which"),
        pytest.param("Oona", "A1", (10,), "8", "10 @ 8", False, id="a word says which"),
        pytest.param("Oona", "A1", (10,), "20", "20 x 10", False, id="nobody does twenty"),
        pytest.param("Oona", "A1", (10,), "20", "10 x 20", True, id="the load stands behind"),
        pytest.param("Oona", "B1", (9, 7), "16kg", "16kg 9/7", True, id="two sets or two sides"),
        pytest.param("Oona", "B1", (9, 7, 8), "16kg", "16kg 9/7/8", False, id="three are no sides"),
        pytest.param("Oona", "A1", (9, 7), "16kg", "16kg 9 7", False, id="no sides to speak of"),
        pytest.param("Anton", "A1", (7, 5), "", "7,5", True, id="two counts or a decimal"),
        pytest.param("Anton", "A1", (7, 5), "", "7 5", False, id="two counts"),
        pytest.param("Ines", "A2", (12, 9), "", "12 9", True, id="two sets or a round of a superset"),
        pytest.param("Ines", "A2", (12, 9), "", "press ups 12 9", False, id="the exercise is named"),
        pytest.param("Bram", "C1", (40, 40), "20", "20 40 and 40 m", True, id="forty kilos for forty metres"),
        pytest.param("Bram", "C1", (40, 40), "20kg", "20kg 40 and 40 m", False, id="two carries with a load"),
    ],
)
def test_only_what_fits_the_moment_in_two_ways_may_be_asked_about(
    who: str, label: str, counts: tuple[int, ...], load: str, text: str, doubtful: bool
) -> None:
    person = next(one for one in PEOPLE if one.name == who)
    slot = person.plan.slot(label)
    assert slot is not None
    amount = Decimal(load.removesuffix("kg")) if load else None
    unit = " m" if text.endswith(" m") else ""
    joint = next(one for one in (" and ", "/", ",", " ") if one in text)
    words = Words(Done(person, slot, 1, counts, amount), load, "", unit, "", joint, "press ups", load.isdecimal())

    assert is_doubtful(text, words) is doubtful
