"""Which set comes next, however the member takes the day."""

from __future__ import annotations

import pytest

from tests.builders.situations import situation

_A = "A1.1=20x12 A1.2=20x12 A1.3=20x11"
_AB = f"{_A} A2.1=12 A2.2=11 A2.3=10 B1.1=18x12 B1.2=18x12 B1.3=18x11 B2.1=16x10 B2.2=16x9 B2.3=16x9"


@pytest.mark.parametrize(
    ("done", "due"),
    [
        pytest.param("", "A1.1", id="nothing done"),
        pytest.param("A1.1=20x12", "A2.1", id="the partner comes in between"),
        pytest.param(_A, "A2.1", id="all of A1 at once, then A2"),
        pytest.param(_AB, "C1.1", id="A and B done"),
        pytest.param(f"{_AB} C1.1=45 C1.2=40 C1.3=40", "C2.1", id="all of C1, whose partner has fewer sets: C2, not D1"),
        pytest.param(f"{_AB} C1.1=45 C2.1=24x40 C1.2=40 C2.2=24x40", "C1.3", id="the longer one alone at its end"),
        pytest.param(f"{_AB} C1.1=45 C2.1=24x40 C1.2=40 C2.2=24x40 C1.3=40", "D1.1", id="all of C done"),
        pytest.param(f"{_A} B1.1=18x12", "B2.1", id="A2 left out on purpose: on with B"),
        pytest.param(f"{_A} B1.1=18x12 skip=A2.1 skip=A2.2 skip=A2.3", "B2.1", id="A2 skipped"),
    ],
)
def test_the_set_that_is_due(done: str, due: str) -> None:
    place = situation(f"home {done}").due

    assert place is not None
    assert f"{place.label}.{place.number}" == due
