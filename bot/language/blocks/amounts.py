"""Which amount do a few words give: a rest, a load, an effort?

"60-90s" -> Rest(60, 90)      "2 min" -> Rest(120, 120)      "1:30" -> Rest(90, 90)
"pair of 12 kg" -> a pair of 12s      "red + black band" -> two bands stacked      "10 kg of help" -> assistance
"""

from __future__ import annotations

import re
from decimal import Decimal

from bot.training.blocks import Rest
from bot.training.loads import BODY_WEIGHT, Load, LoadKind, Unit

REST_LIMIT_S = 900
_TIME = re.compile(
    r"""(?P<low>\d+(?:[.,]\d+)?)(?::(?P<low_s>\d\d))?\s*(?P<unit1>minutes?|mins?|m|seconds?|secs?|s|"|')?(?:\s?(?P<tail>\d\d)(?:\s?(?:s|secs?|seconds?))?)?"?
        (?:\s*(?:-|to|–)\s*(?P<high>\d+(?:[.,]\d+)?)(?::(?P<high_s>\d\d))?\s*(?P<unit2>minutes?|mins?|m|seconds?|secs?|s|"|')?)?""",
    re.I | re.X,
)
TIME_PATTERN = r"""\d+(?:[.,]\d+)?(?::\d\d)?\s*(?:minutes?|mins?|m(?![a-z])|seconds?|secs?|s(?![a-z])|"|')?(?:\d\d"?|(?<=min)\s\d\d\b(?!\s*(?:x|reps?|sets?|-))(?:\s?s(?:ecs?)?\b)?)?(?:\s*(?:-|to)\s*\d+(?:[.,]\d+)?(?::\d\d)?)?\s*(?:minutes?\b|mins?\b|m(?![a-z])|seconds?\b|secs?\b|s(?![a-z])|"|')?"""

_UNIT = {"k": Unit.KG, "l": Unit.LB, "p": Unit.LB, "#": Unit.LB}
LOAD_PATTERN = r"\d+(?:[.,]\d+)?\s*(?:kgs?\b|kilos?\b|kilograms?\b|lbs?\b|pounds?\b|#)"
_WEIGHED = re.compile(
    r"(?P<sign>[+-])?\s*(?P<pair>pair of |2\s*x\s*|two )?(?P<amount>\d+(?:[.,]\d+)?)\s*(?P<unit>kgs?|kilos?|kilograms?|lbs?|pounds?|#)"
    r"(?P<help>\s*(?:of )?(?:help|assist(?:ed|ance)))?\s*(?P<rest>[^,;]*)",
    re.I,
)
_BANDS = re.compile(r"(?P<names>[^,;]+?)\s+bands?(?P<help>\s*(?:of )?(?:help|helping|assist(?:ed|ance)))?", re.I)
_BODY = re.compile(r"body\s?-?weight|bw", re.I)


def read_rest(text: str) -> Rest | None:
    """Seconds of a rest; a bare number is seconds from 10 up, minutes up to 5. None if it is no time, or longer than 15 minutes."""
    found = _TIME.fullmatch(text.strip().rstrip("."))
    if not found:
        return None
    unit = found["unit2"] or found["unit1"] or ""
    low = _seconds(found["low"], found["low_s"] or found["tail"], found["unit1"] or unit)
    high = _seconds(found["high"], found["high_s"], unit) if found["high"] else low
    if low is None or high is None or not 0 <= low <= high <= REST_LIMIT_S:
        return None
    return Rest(low, high)


def _seconds(number: str, seconds: str | None, unit: str) -> int | None:
    value = Decimal(number.replace(",", "."))
    if seconds is not None:
        return int(value) * 60 + int(seconds)
    if unit[:1].lower() == "m" or unit == "'":
        return int(value * 60)
    if unit or value >= 10 or value == 0:
        return int(value)
    return int(value * 60) if value <= 5 else None


def read_load(text: str) -> Load | None:
    """A load that a coach names; None if the words are none."""
    said = " ".join(text.split()).strip(" .@")
    if _BODY.fullmatch(said):
        return BODY_WEIGHT
    weighed = _WEIGHED.fullmatch(said)
    if weighed:
        return _weighed(weighed)
    bands = _BANDS.fullmatch(said)
    if bands:
        names = tuple(name.strip() for name in re.split(r"\s*\+\s*|\s+and\s+", bands["names"]) if name.strip())
        kind = LoadKind.ASSISTED if bands["help"] else LoadKind.BAND
        return Load(kind, bands=names) if names else None
    return None


def _weighed(found: re.Match[str]) -> Load | None:
    amount = Decimal(found["amount"].replace(",", "."))
    if amount <= 0 or amount > 1000:
        return None
    rest = re.sub(r"^(?:each|per hand|in each hand|total)\b\s*", "", found["rest"].strip(), flags=re.I)
    kind = LoadKind.IMPLEMENT
    if found["sign"] == "+":
        kind = LoadKind.ADDED
    elif found["sign"] == "-" or found["help"]:
        kind = LoadKind.ASSISTED
    pair = bool(found["pair"]) or bool(re.match(r"(?:each hand|per hand|in each hand)", found["rest"].strip(), re.I))
    return Load(kind, amount, _UNIT[found["unit"][0].lower()], pair=pair, implement=rest or None)


def decimal(text: str) -> Decimal:
    return Decimal(text.replace(",", "."))
