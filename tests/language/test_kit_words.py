"""What a member says about the kit, beside what is understood."""

from decimal import Decimal

import pytest

from bot.language.kit_words import read_kit
from bot.training.kit import KitItem
from bot.training.loads import Unit

D = KitItem.DUMBBELL


def _amounts(text: str, item: KitItem, unit: Unit = Unit.KG) -> tuple[list[str], bool]:
    ladder = read_kit(text, unit).kit.ladder(item)
    assert ladder is not None, f"{text!r}: no settings read for {item}"
    return [str(amount.normalize()) if amount % 10 else str(int(amount)) for amount in ladder.amounts], ladder.pairs


@pytest.mark.parametrize(
    ("text", "items"),
    [
        ("dumbbells 2-24 by 2, a bench and a pull up bar", {D, KitItem.BENCH, KitItem.PULL_UP_BAR}),
        ("pullup bar and rings", {KitItem.PULL_UP_BAR, KitItem.RINGS}),
        ("kettlebells 8, 12, 16, 24; dip station", {KitItem.KETTLEBELL, KitItem.DIP_BARS}),
        ("db 5-50 lbs in 5s, incline bench", {D, KitItem.INCLINE_BENCH}),
        ("just mini bands", {KitItem.MINI_BAND}),
        ("a yoga ball & an ab wheel", {KitItem.BALL, KitItem.AB_WHEEL}),
    ],
)
def test_things_are_known_by_the_names_people_use(text: str, items: set[KitItem]) -> None:
    assert read_kit(text, Unit.KG).kit.items == items


@pytest.mark.parametrize(
    ("text", "item", "amounts", "pairs"),
    [
        ("two dumbbells 5, 8 and 12kg", D, ["5", "8", "12"], True),
        ("a pair of 10 kg dumbbells", D, ["10"], True),
        ("one kettlebell 16kg", KitItem.KETTLEBELL, ["16"], False),
        ("adjustable dumbbells up to 8 kg", D, ["1", "2", "3", "4", "5", "6", "7", "8"], True),
        ("dumbbells 5-20 by 5", D, ["5", "10", "15", "20"], True),
    ],
)
def test_settings_are_read_beside_their_thing(text: str, item: KitItem, amounts: list[str], pairs: bool) -> None:
    assert _amounts(text, item) == (amounts, pairs)


def test_plates_make_every_bar_they_allow() -> None:
    """Two 10s and two 5s on a 20 bar: 20, 30, 40, 50 (half of the owned plates go on each side)."""
    kit = read_kit("barbell 20 with plates 2x10 2x5", Unit.KG).kit

    assert kit.bar == (Decimal(20), Unit.KG)
    assert _amounts("barbell 20 with plates 2x10 2x5", KitItem.BARBELL)[0] == ["20", "30", "40", "50"]


def test_bands_keep_the_order_they_are_said_in() -> None:
    assert read_kit("red and black bands", Unit.KG).kit.bands == ("red", "black")


def test_a_said_unit_wins_over_the_members_own() -> None:
    ladder = read_kit("dumbbells 10 15 20 lb", Unit.KG).kit.ladder(D)
    assert ladder is not None
    assert ladder.unit is Unit.LB


def test_nothing_is_an_answer_and_nonsense_is_none() -> None:
    assert read_kit("nothing", Unit.KG).nothing_owned
    assert read_kit("asdf", Unit.KG).unread
    assert not read_kit("asdf", Unit.KG).nothing_owned
