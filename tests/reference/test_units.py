"""Loads against published figures."""

from decimal import Decimal

import pytest
from scipy import constants  # type: ignore[import-untyped]

from bot.training.loads import KG_PER_LB, Unit, from_kg, to_kg, weight


def test_the_pound_is_the_international_one() -> None:
    """1 lb = 0.45359237 kg exactly (1959 agreement); scipy.constants holds the same value."""
    assert Decimal("0.45359237") == KG_PER_LB
    assert float(KG_PER_LB) == pytest.approx(constants.lb, rel=1e-15)


@pytest.mark.parametrize(
    ("pounds", "kg"),
    [
        ("1.25", "0.5670"), ("2.5", "1.1340"), ("5", "2.2680"), ("10", "4.5359"), ("15", "6.8039"), ("20", "9.0718"),
        ("25", "11.3398"), ("30", "13.6078"), ("35", "15.8757"), ("45", "20.4117"), ("50", "22.6796"),
    ],
)  # fmt: skip
def test_plates_in_pounds_weigh_what_the_table_says(pounds: str, kg: str) -> None:
    """Computed from the exact factor, to 0.1 g."""
    assert to_kg(Decimal(pounds), Unit.LB).quantize(Decimal("0.0001")) == Decimal(kg)


@pytest.mark.parametrize(("kg", "pounds"), [("0.5", "1.1023"), ("20", "44.0925"), ("22.5", "49.6040"), ("55", "121.2542")])
def test_kilograms_weigh_what_the_table_says_in_pounds(kg: str, pounds: str) -> None:
    """Same table; the last from 1 kg = 2.2046226218 lb."""
    assert from_kg(Decimal(kg), Unit.LB).quantize(Decimal("0.0001")) == Decimal(pounds)


def test_what_was_said_comes_back_as_said_after_any_number_of_looks_in_kilograms() -> None:
    load = weight("45", Unit.LB)

    for _ in range(100):
        assert load.kg is not None

    assert (load.amount, load.unit) == (Decimal(45), Unit.LB)
