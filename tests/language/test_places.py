"""Places in people's words against the zones that the IANA data base gives them (cities and zones from memory)."""

from __future__ import annotations

import pytest

from bot.language.places import find_places


@pytest.mark.parametrize(
    ("text", "zone"),
    [
        ("Lisbon", "Europe/Lisbon"),
        ("i live in Denver", "America/Denver"),
        ("I'm in tokyo", "Asia/Tokyo"),
        ("new york", "America/New_York"),
        ("NYC", "America/New_York"),
        ("são paulo", "America/Sao_Paulo"),
        ("sao paulo", "America/Sao_Paulo"),
        ("Zürich", "Europe/Zurich"),
        ("Mumbai", "Asia/Kolkata"),
        ("Adelaide", "Australia/Adelaide"),
        ("melborne", "Australia/Melbourne"),
        ("Europe/Lisbon", "Europe/Lisbon"),
        ("america/st_johns", "America/St_Johns"),
        ("UTC+5:30", "Asia/Kolkata"),
        ("gmt+3", "Africa/Nairobi"),
    ],
)
def test_a_place_is_found_with_its_zone_the_likeliest_first(text: str, zone: str) -> None:
    assert find_places(text)[0].zone == zone


@pytest.mark.parametrize("text", ["", "x", "20x12", "qqqqzzzz", "utc+99"])
def test_what_is_no_place_finds_none(text: str) -> None:
    assert find_places(text) == ()


def test_a_name_that_several_places_share_offers_several() -> None:
    assert len({place.zone for place in find_places("Birmingham")}) >= 2
