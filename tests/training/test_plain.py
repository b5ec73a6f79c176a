"""Values survive the way into plain data and back, whole."""

import json
from datetime import date
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from bot.language.readings import Option, SetsHeard, UndoHeard
from bot.training.blocks import SetPlace
from bot.training.kit import Kit, KitItem, even_ladder
from bot.training.loads import Load, LoadKind, Unit, weight
from bot.training.plain import from_plain, to_plain
from bot.training.records import DropDone, SetDone, SetRecord

AMOUNTS = st.decimals(min_value="0.25", max_value="500", places=2)
LOADS = st.builds(Load, kind=st.sampled_from(LoadKind), amount=AMOUNTS, unit=st.sampled_from(Unit), pair=st.booleans())
DONE = st.builds(
    SetDone,
    count=st.integers(0, 300) | st.none(),
    load=LOADS | st.none(),
    bouts=st.lists(st.integers(1, 30), max_size=4).map(tuple),
    drops=st.lists(st.builds(DropDone, load=LOADS, count=st.integers(0, 30)), max_size=2).map(tuple),
)


@given(DONE)
def test_a_set_survives_being_kept_as_json(done: SetDone) -> None:
    record = SetRecord(done, SetPlace("A1", 1), date(2026, 3, 4))

    assert from_plain(json.loads(json.dumps(to_plain(record))), SetRecord) == record


def test_kit_survives_with_its_set_of_things() -> None:
    kit = Kit(frozenset({KitItem.BENCH, KitItem.DUMBBELL}), (even_ladder(KitItem.DUMBBELL, low=2, high=10, step=2),), ("red",))

    assert from_plain(json.loads(json.dumps(to_plain(kit))), Kit) == kit


def test_one_of_several_classes_comes_back_as_itself() -> None:
    record = SetRecord(SetDone(count=12, load=weight("17.5")), SetPlace("A1", 1), date(2026, 3, 4))
    option = Option("20 kg x 12", (SetsHeard((record,)), UndoHeard()), 0.7, ("times", "load_reps"))

    assert from_plain(json.loads(json.dumps(to_plain(option))), Option) == option


def test_an_amount_never_passes_through_a_float() -> None:
    assert to_plain(weight("17.35"))["amount"] == "17.35"
    assert from_plain(to_plain(weight("0.1")), Load).amount == Decimal("0.1")


def test_a_newer_rows_unknown_field_is_left_alone() -> None:
    assert from_plain({"kind": "implement", "amount": "5", "unit": "kg", "from_the_future": 1}, Load) == weight(5)
