"""Which date does one short field name? Weekdays and the trade's words are ours; dateparser reads what is left.

dateparser is asked one cut-out field at a time, in English, and only for fields that carry a month or a plain date: alone it takes "10",
"may", "sat" and "8" for dates and fills what was not said (platform measurements: "friday" and "next friday" are one to it).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime, timedelta

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
DAY = (
    r"(?:mon(?:day)?s?|tues?(?:day)?s?|tuseday|wed(?:s|nesday)?s?|wensday|wednsday|wedensday|thur?s?(?:day)?s?|thrusday|thrs|fri(?:day)?s?|"
    r"sat(?:urday)?s?|saterday|sun(?:day)?s?)"
)
_PART = r"(?: (?:morning|afternoon|evening|night|nite|lunchtime|noon))?"
_FEAST = r"(?:xmas eve|christmas eve|xmas(?: day)?|christmas(?: day)?|boxing day|new years? eve|new years(?: day)?|(?<=and )new year|(?<=to )new year|(?<=until )new year|(?<=till )new year|easter(?: sunday| monday)?|good friday)"
MONTH = r"(?:jan|feb|mar|apr|may|jun|jul|aug|sep|sept|oct|nov|dec)[a-z]*"
_FULL_MONTH = r"(?:january|february|march|april|may|june|july|august|september|october|november|december)"
_MONTHS = (
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
)
TODAY = r"(?:later today|today|tonight|2day|tonite|2nite|this (?:morning|afternoon|evening|arvo))"
TOMORROW = r"(?:tomorrow|tomorow|tommorow|tommorrow|tomorro|tmrw|tmrow|tmr|tmw|2moro|2morrow|tom)"
YESTERDAY = r"(?:yesterday|yday|yest|yesterdy|ystrday|last night)"
# One date as people say it; longer forms first.
DATE = (
    r"(?:"
    rf"(?:{DAY},? )?(?:the )?\d{{1,2}}(?:st|nd|rd|th)?(?: of)? {MONTH}(?: \d{{4}})?|{MONTH} (?:the )?\d{{1,2}}(?:st|nd|rd|th)?(?:,? \d{{4}})?|"
    rf"(?:{DAY},? )?(?:the |(?<=from )|(?<=to )|(?<=till )|(?<=til )|(?<=until )|(?<=and )|(?<=on )|(?<=by )|(?<=thru )|(?<=through )|(?<=day ))"
    r"\d{1,2}(?:st|nd|rd|th)|"
    rf"{DAY},? \d{{1,2}}(?:st|nd|rd|th)|\d{{1,2}}(?:st|nd|rd|th)(?= (?:to|till|til|until|through|thru) (?:the )?\d{{1,2}}(?:st|nd|rd|th))|"
    rf"the day after {TOMORROW}|day after {TOMORROW}|{TODAY}|{TOMORROW}{_PART}|{YESTERDAY}{_PART}|the day before yesterday|"
    rf"{DAY} week\b|(?<!for )(?<!for a )(?<!the )(?:a )?week (?:on|from) {DAY}|{DAY} (?:after next|(?:of )?(?:next|last) week|this week|coming)|last week (?:on )?{DAY}|"
    rf"next week (?:on )?{DAY}|"
    rf"(?:next|this|coming|the coming|this coming|last|every|each) {DAY}{_PART}|{DAY}{_PART}(?! \d{{1,2}}(?:st|nd|rd|th))|"
    r"\d{4}-\d{2}-\d{2}|\d{1,2}[./]\d{1,2}(?:[./](?:\d{4}|\d{2}))?(?!\d| ?(?:am|pm|kg|lbs?))|"
    rf"(?:(?<=till )|(?<=til )|(?<=until )|(?<=before )|(?<=from )){MONTH}|"
    rf"(?:the )?(?:end|start|beginning|middle) of {_FULL_MONTH}|mid[ -]?{_FULL_MONTH}|(?:the )?end of (?:the|this|next) (?:week|month)|"
    r"in (?:\d{1,2}|a|one|two|three|four|five|six|seven|ten) (?:days?|weeks?)(?: time)?|"
    r"(?:a|one|two|three|four|\d{1,2}) (?:days?|weeks?) (?:from now|from today)|" + _FEAST + r")"
)
_NUMBER = {
    "a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
    "eleven": 11, "twelve": 12, "fifteen": 15, "twenty": 20, "thirty": 30, "forty five": 45, "forty": 40, "sixty": 60, "ninety": 90,
    "couple of": 2, "a couple of": 2, "couple": 2, "a couple": 2, "few": 3, "a few": 3, "another": 1,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Said:
    """The dates that a field may mean, likeliest first: one when it is clear."""

    dates: tuple[date, ...]

    @property
    def only(self) -> date | None:
        return self.dates[0] if len(self.dates) == 1 else None


def weekday_of(word: str) -> int | None:
    """Monday 0 to Sunday 6 for a weekday however short; None if it is none."""
    folded = word.lower().rstrip("s") if word.lower() not in ("wed", "thu") else word.lower()
    slips = {"tuseday": 1, "wensday": 2, "wednsday": 2, "wedensday": 2, "thrusday": 3, "thr": 3, "saterday": 5}
    if folded in slips:
        return slips[folded]
    return next(
        (n for n, name in enumerate(WEEKDAYS) if len(folded) >= 3 and (name.startswith(folded) or folded.startswith(name[:3]))),
        None,
    )


def number_of(word: str) -> int | None:
    return int(word) if word.isdigit() else _NUMBER.get(word)


def read_date(field: str, *, today: date, locale: str = "en", past: bool = False) -> Said | None:
    """Read one date field; several dates where it is unclear ("5/12", "next friday"); None if it is none.

    past: the field is about something done, so weekdays look back.
    """
    text = re.sub(r"\s+", " ", field.lower().strip(" .,!?"))
    text = re.sub(r"^(?:on|for|to|by|until|till|til|from) ", "", text)
    if re.fullmatch(TODAY, text):
        return Said((today,))
    text = re.sub(rf"(?<=[a-z]){_PART}$", "", text) if text != "last night" else "yesterday"
    text = re.sub(rf"^{DAY},? (?=(?:the )?\d)", "", text)  # "thursday 12th": the figure says it
    if text == "the day before yesterday":
        return Said((today - timedelta(days=2),))
    if re.fullmatch(rf"(?:the )?day after {TOMORROW}", text):
        return Said((today + timedelta(days=2),))
    if re.fullmatch(TOMORROW, text):
        return Said((today + timedelta(days=1),))
    if re.fullmatch(YESTERDAY, text):
        return Said((today - timedelta(days=1),))
    return _by_weekday(text, today, past) or _by_span(text, today) or _by_calendar(text, today, locale, past)


def _by_weekday(text: str, today: date, past: bool) -> Said | None:
    found = re.fullmatch(
        rf"(?P<week>(?:a )?week (?:on|from) )?(?:(?P<how>next|this|coming|the coming|this coming|last|every|each) )?(?P<day>{DAY})"
        r"(?: (?P<after>week|after next|next week|of next week|of last week|last week|this week|coming))?",
        re.sub(rf"^(next|this|last) week (?:on )?({DAY})$", r"\2 \1 week", text),
    )
    number = weekday_of(found["day"]) if found else None
    if found is None or number is None:
        return None
    monday = today - timedelta(days=today.weekday())
    if found["after"] in ("last week", "of last week"):
        return Said((monday + timedelta(days=number - 7),))
    if past or found["how"] == "last":
        back = (today.weekday() - number) % 7
        return Said((today - timedelta(days=back or (7 if found["how"] == "last" else 0)),))
    ahead = (number - today.weekday()) % 7
    first = today + timedelta(days=ahead)
    if found["week"] or found["after"] == "week":
        return Said((first + timedelta(days=7),))
    if found["after"] == "this week":
        return Said((monday + timedelta(days=number),))
    if found["after"] in ("next week", "of next week"):
        return Said((monday + timedelta(days=7 + number),))
    if found["after"] == "after next":
        return Said(((first if ahead else first + timedelta(days=7)) + timedelta(days=7),))
    if found["how"] == "next":
        # "Next friday" is this week's to some and the week after's to others; only from the weekend on do both agree.
        nearest = first if ahead else first + timedelta(days=7)
        following_week = today - timedelta(days=today.weekday()) + timedelta(days=7 + number)
        return Said((nearest,)) if nearest == following_week else Said((nearest, following_week))
    return Said((first,))


def _by_span(text: str, today: date) -> Said | None:
    found = re.fullmatch(r"(?:in )?(\w+) (day|week)s?(?: time| from now| from today)?", text)
    if found and re.match(r"in |.* from ", text):
        count = number_of(found[1])
        return Said((today + timedelta(days=count * (7 if found[2] == "week" else 1)),)) if count else None
    if text == "next week":
        return Said((today - timedelta(days=today.weekday()) + timedelta(days=7),))
    if text in ("the weekend", "this weekend"):
        saturday = today + timedelta(days=(5 - today.weekday()) % 7)
        return Said((saturday, saturday + timedelta(days=1)))
    if re.fullmatch(MONTH, text):
        return _month(text, today)
    if found := re.fullmatch(rf"(?:the )?(?:(end|start|beginning|middle) of |mid[ -]?)({_FULL_MONTH})", text):
        return _in_month(found[1] or "middle", found[2], today)
    end = re.fullmatch(r"(?:the )?end of (the|this|next) (week|month)", text)
    if end:
        periods = read_period(("next " if end[1] == "next" else "this ") + end[2], today=today)
        return Said((periods[0][1],))
    return _feast(text, today)


def _month(text: str, today: date) -> Said | None:
    """A month alone: its first day to come."""
    number = [name[:3] for name in _MONTHS].index(text[:3]) + 1
    if not _MONTHS[number - 1].startswith(text) and text not in ("sept",):
        return None
    return Said((date(today.year + (number <= today.month), number, 1),))


def _in_month(part: str, name: str, today: date) -> Said:
    """ "The end of june", "mid june": the next one to come."""
    number = _MONTHS.index(name) + 1
    for year in (today.year, today.year + 1):
        first = date(year, number, 1)
        last = (first + timedelta(days=32)).replace(day=1) - timedelta(days=1)
        on = {"end": last, "middle": first.replace(day=15)}.get(part, first)
        if on >= today:
            return Said((on,))
    raise AssertionError("a month comes every year")


def _feast(text: str, today: date) -> Said | None:
    """Feasts whose date everybody takes for known: the next one to come."""
    fixed = {"eve": (12, 24), "boxing": (12, 26), "new years eve": (12, 31), "new year eve": (12, 31)}
    if re.match(r"(?:xmas|christmas)", text):
        month, day = fixed["eve"] if text.endswith("eve") else (12, 25)
    elif text == "boxing day":
        month, day = fixed["boxing"]
    elif re.match(r"new year", text):
        month, day = (12, 31) if text.endswith("eve") else (1, 1)
    elif re.match(r"easter|good friday", text):
        away = {"good friday": -2, "easter monday": 1}.get(text, 0)
        days = (_easter(year) + timedelta(days=away) for year in (today.year, today.year + 1))
        return Said((next(on for on in days if on >= today),))
    else:
        return None
    on = date(today.year, month, day)
    return Said((on if on >= today else date(today.year + 1, month, day),))


def feast_span(text: str, *, today: date) -> tuple[date, date] | None:
    """The days that "over christmas", "over easter" take in; None if the words name no feast."""
    said = _feast(text, today)
    if said is None:
        return None
    on = said.dates[0]
    if "easter" in text or "good friday" in text:
        from_day = {"good friday": 0, "easter monday": -3}.get(text, -2)
        first = on + timedelta(days=from_day)
        return first, first + timedelta(days=3)
    if re.match(r"(?:xmas|christmas)", text):
        return on.replace(day=24), on.replace(day=26)
    return (on, on + timedelta(days=1)) if text.endswith("eve") else (on - timedelta(days=1), on)


def _easter(year: int) -> date:
    """Western Easter Sunday. Source: the anonymous Gregorian computus, as in Meeus 1991, Astronomical Algorithms, ch. 8 (from memory)."""
    century, rest = divmod(year, 100)
    moon = (19 * (year % 19) + century - century // 4 - (century - (century + 8) // 25 + 1) // 3 + 15) % 30
    week = (32 + 2 * (century % 4) + 2 * (rest // 4) - moon - rest % 4) % 7
    late = (year % 19 + 11 * moon + 22 * week) // 451
    month, day = divmod(moon + week - 7 * late + 114, 31)
    return date(year, month, day + 1)


PERIOD = (
    rf"(?:(?:(?:all|the whole|whole)(?: of)? |(?<=in )|(?<=for )|(?<=during )){_FULL_MONTH}|"
    r"(?:the )?rest of (?:(?:the|this|next) )?(?:week|month)|(?<=skip )the week|(?<=cancel )the week|(?<=miss )the week|(?:all|the whole|whole|the entire|most of)(?: of)? (?:this |the next |the coming |the following |next |the )?(?:week(?:end)?|month)|the next week(?! \d)|"
    r"(?:this|next|the coming|this coming|the following) (?:week(?:end)?|month)|the week after next|over the weekend|the weekend|weekend(?= (?:is|looks)\b))"
)


def read_period(text: str, *, today: date) -> tuple[tuple[date, date], ...]:
    """The first and last dates of "next week", "the weekend", "rest of the month": what is left of it, from today; two if unclear."""
    monday = today - timedelta(days=today.weekday())
    if month := re.search(rf"{_FULL_MONTH}$", text):
        number = _MONTHS.index(month[0]) + 1
        first = date(today.year + (number < today.month), number, 1)
        return ((max(first, today), (first + timedelta(days=32)).replace(day=1) - timedelta(days=1)),)
    if "month" in text:
        first = today.replace(day=1)
        after = (first + timedelta(days=32)).replace(day=1)
        if "next" in text or "following" in text or "coming" in text:
            return ((after, (after + timedelta(days=32)).replace(day=1) - timedelta(days=1)),)
        return ((today, after - timedelta(days=1)),)
    if "weekend" in text:
        saturday = monday + timedelta(days=5)
        here = (max(today, saturday), saturday + timedelta(days=1))
        if "next" not in text:
            return (here,)
        later = (saturday + timedelta(days=7), saturday + timedelta(days=8))
        return (later,) if today >= saturday else (here, later)  # "next weekend" is this one to some
    if text == "the week after next":
        return ((monday + timedelta(days=14), monday + timedelta(days=20)),)
    if "next" in text or "following" in text or "coming" in text:
        return ((monday + timedelta(days=7), monday + timedelta(days=13)),)
    return ((today, monday + timedelta(days=6)),)


def _by_calendar(text: str, today: date, locale: str, past: bool) -> Said | None:
    ordinal = re.fullmatch(r"(?:the )?(\d{1,2})(?:st|nd|rd|th)", text)
    if ordinal:
        return _day_of_month(int(ordinal[1]), today, past)
    figures = re.fullmatch(r"(\d{1,2})([./])(\d{1,2})(?:[./](\d{4}|\d{2}))?", text)
    if figures:
        return _figures(int(figures[1]), int(figures[3]), figures[4], figures[2], today, locale, past)
    if not re.search(rf"\b{MONTH}\b|\d{{4}}-\d{{2}}-\d{{2}}", text) or not re.search(r"\d", text):
        return None
    import dateparser

    base = datetime(today.year, today.month, today.day, 12)  # noqa: DTZ001  (dateparser wants the zone's own wall time)
    read = dateparser.parse(
        re.sub(r"\bof\b|\bthe\b", "", text),
        languages=["en"],
        settings={"RELATIVE_BASE": base, "PREFER_DATES_FROM": "past" if past else "future", "REQUIRE_PARTS": ["day", "month"]},
    )
    return Said((read.date(),)) if read else None


def _day_of_month(day: int, today: date, past: bool) -> Said | None:
    """ "the 3rd": the nearest one to come (or behind, for what was done)."""
    for step in range(62):
        on = today - timedelta(days=step) if past else today + timedelta(days=step)
        if on.day == day:
            return Said((on,))
    return None


def _figures(one: int, two: int, year: str | None, mark: str, today: date, locale: str, past: bool) -> Said | None:
    """ "5/12": day first, month first, or both where only a person can tell. A dot is day first (common practice where it is used)."""
    readings = []
    orders = ((one, two),) if mark == "." else ((one, two), (two, one))
    if mark == "/" and locale.lower().replace("_", "-") == "en-us":
        orders = ((two, one),) if two <= 31 and one <= 12 else orders
    for day, month in orders:
        on = _near(day, month, year, today, past)
        if on is not None and on not in readings:
            readings.append(on)
    return Said(tuple(readings)) if readings else None


def _near(day: int, month: int, year: str | None, today: date, past: bool) -> date | None:
    years = (
        [int(year) + (2000 if len(year) == 2 else 0)]
        if year
        else ([today.year, today.year - 1] if past else [today.year, today.year + 1])
    )
    for candidate in years:
        try:
            on = date(candidate, month, day)
        except ValueError:
            continue
        if year or (on <= today if past else on >= today):
            return on
    return None
