"""Which time of day does one short field name? "6:30am", "7", "half past six", "noon"; two where people differ ("half six")."""

from __future__ import annotations

import re
from datetime import time


def read_time_of_day(text: str) -> time | None:
    """A time as people write it: "6:30am", "7", "18h", "half past six pm", "noon". A bare hour of 1 to 4 is taken as afternoon.

    None where it is none, or unclear ("half six", which is 6:30 to some and 5:30 to others).
    """
    readings = times_of_day(text)
    return readings[0] if len(readings) == 1 else None


def times_of_day(text: str) -> tuple[time, ...]:
    """Every time that a field may mean, likeliest first."""
    words = re.sub(r"\s+", " ", text.lower().strip(" .,!?"))
    words = re.sub(r"^(?:at|around|about|by) ", "", words).replace("o'clock", "").replace("oclock", "").strip()
    if words in ("noon", "midday", "12 noon"):
        return (time(12),)
    if words == "midnight":
        return (time(0),)
    words = _in_figures(words)
    if re.match(
        r"half|(?:a )?quarter|\d{1,2}(?: min(?:ute)?s?)? (?:past|to)\b", words
    ):  # "half past 6 in the evening" is "half past 6 pm"
        words = re.sub(r" (?:in the )?(?:(morning)|afternoon|evening|night)$", lambda said: " am" if said[1] else " pm", words)
    halves = re.fullmatch(r"half (past )?(\d{1,2}) ?(am|pm)?", words)
    if halves:
        hour = int(halves[2])
        if not 1 <= hour <= 12:
            return ()
        past, before = _clock(hour, 30, halves[3]), _clock(hour - 1 or 12, 30, halves[3])
        return tuple(at for at in ((past,) if halves[1] else (past, before)) if at)
    beside = re.fullmatch(r"(?:(?:a )?(quarter)|(\d{1,2})(?: min(?:ute)?s?)?) (past|to) (\d{1,2}) ?(am|pm)?", words)
    if beside:
        minutes, hour = 15 if beside[1] else int(beside[2]), int(beside[4])
        if not 0 < minutes < 30 or not 1 <= hour <= 12:
            return ()
        at = (
            _clock(hour, minutes, beside[5])
            if beside[3] == "past"
            else _clock(hour - 1 or 12, 60 - minutes, _before(hour, beside[5]))
        )
        return (at,) if at else ()
    part = r"(?: ?(?P<half>am|pm|a\.m\.?|p\.m\.?|a|p))?(?: (?:in the )?(?P<part>morning|afternoon|evening|night|tonight))?"
    found = re.fullmatch(rf"(?P<hour>\d{{1,2}})(?:[:.h](?P<minute>\d{{2}})|h|(?P<packed>\d{{2}}))?(?: ?uhr)?{part}", words)
    if not found:
        return ()
    half = (found["half"] or "")[:1]
    if found["part"]:
        half = "a" if found["part"] == "morning" else "p"
    at = _clock(int(found["hour"]), int(found["minute"] or found["packed"] or 0), {"a": "am", "p": "pm"}.get(half))
    return (at,) if at else ()


def _in_figures(words: str) -> str:
    names = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
    words = words.replace("twenty five", "25").replace("twenty", "20")
    for number, name in enumerate(names, 1):
        words = re.sub(rf"\b{name}\b", str(number), words)
    return re.sub(r"\b(\d{1,2}) thirty\b", r"\1:30", words)


def _before(hour: int, half: str | None) -> str | None:
    """ "Quarter to 12 pm" is still morning."""
    return {"am": "pm", "pm": "am"}[half] if hour == 12 and half else half


def _clock(hour: int, minute: int, half: str | None) -> time | None:
    if minute > 59 or hour > 23 or (half and not 1 <= hour <= 12):
        return None
    if half == "pm" and hour < 12:
        hour += 12
    elif half == "am" and hour == 12:
        hour = 0
    elif not half and 1 <= hour <= 4:
        hour += 12  # nobody asks to be reminded at three at night
    return time(hour, minute)
