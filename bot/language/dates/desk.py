"""What a wish about days is read in the light of, and what a reading may be."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta

from bot.language.dates.moments import DAY, number_of, read_date, read_period, weekday_of
from bot.language.dates.times import times_of_day
from bot.training.plan import Deed, Plan, PlannedSession, next_free_day

DEFAULT_SURE = 0.9
LESS_SURE = 0.8


@dataclass(frozen=True, slots=True)
class PlanOption:
    label: str
    deed: Deed


@dataclass(frozen=True, slots=True)
class PlanQuestion:
    """code: which kind of doubt; about: the words in doubt."""

    code: str
    about: str
    options: tuple[PlanOption, ...]


@dataclass(frozen=True, slots=True)
class PlanReading:
    """deeds: in order, empty if nothing was understood as a wish about days; question: what has to be asked. certainty 0 to 1."""

    deeds: tuple[Deed, ...] = ()
    question: PlanQuestion | None = None
    certainty: float = 0.0


NOTHING = PlanReading()


def sure(*deeds: Deed, certainty: float = DEFAULT_SURE) -> PlanReading:
    return PlanReading(deeds, None, certainty)


def ask(code: str, about: str, options: Sequence[tuple[str, Deed]]) -> PlanReading:
    return PlanReading((), PlanQuestion(code, about, tuple(PlanOption(label, deed) for label, deed in options)), DEFAULT_SURE)


def say(on: date) -> str:
    return f"{on:%a} {on.day} {on:%b}"


@dataclass
class Desk:
    """The situation of one reading. rhythm: the block's. said: the marks of the text; session_marks: those of them said of a session ("friday's workout"). mentioned: dates of clauses read before, for "it" and "then"; just_said: those of the last one.

    span: a stretch spoken of in a clause that wished nothing itself. whole: the clause is the whole text. now: wall time in the member's zone.
    """

    today: date
    plan: Plan
    names: Mapping[int, str]
    rhythm: tuple[bool, ...]
    sessions: tuple[PlannedSession, ...]
    done: Mapping[date, int]
    locale: str
    now: datetime
    said: Mapping[str, str] = field(default_factory=dict)
    session_marks: frozenset[str] = frozenset()
    mentioned: tuple[date, ...] = ()
    just_said: tuple[date, ...] = ()
    cannot: date | None = None
    span: tuple[date, date] | None = None
    next_week: bool = False
    whole: bool = False

    def words(self, mark: str) -> str:
        return self.said.get(mark, mark)

    def dates(self, mark: str, *, past: bool = False) -> tuple[date, ...]:
        """The dates that a mark may mean, likeliest first."""
        words = re.sub(r"^(?:every|each) ", "", self.words(mark))
        for tried in (words, words.removesuffix("s")):
            said = read_date(tried, today=self.today, locale=self.locale, past=past)
            if said:
                shift = self.next_week and re.fullmatch(rf"(?:on )?{DAY}", tried) is not None
                return tuple(self._in_next_week(on) for on in said.dates) if shift else said.dates
        return ()

    def _in_next_week(self, on: date) -> date:
        monday = self.today - timedelta(days=self.today.weekday()) + timedelta(days=7)
        return monday + timedelta(days=on.weekday())

    def period(self, mark: str) -> tuple[tuple[date, date], ...]:
        return read_period(self.words(mark), today=self.today)

    def times(self, mark: str) -> tuple[time, ...]:
        return times_of_day(self.words(mark))

    def days_of(self, mark: str) -> int | None:
        """A count of days: "two weeks", "ten days", "a month"; None if it is one of hours."""
        found = re.fullmatch(r"(?:(.+?) ?(?:full |whole |more )?(day|week|wk|month|fortnight)s?)", self.words(mark))
        if self.words(mark).endswith("fortnight"):
            return 14
        count = number_of(found[1]) if found else None
        if found is None or count is None:
            return None
        return count * {"day": 1, "week": 7, "wk": 7, "month": 28, "fortnight": 14}[found[2]]

    def minutes_of(self, mark: str) -> int | None:
        """A count of minutes; None if it is one of days."""
        words = self.words(mark)
        whole = {
            "half an hour": 30,
            "half hour": 30,
            "an hour and a half": 90,
            "a quarter of an hour": 15,
            "quarter of an hour": 15,
        }
        if words in whole:
            return whole[words]
        found = re.fullmatch(r"(.+?) ?(?:full |whole |more )?(h|m)\w*", words)
        count = number_of(found[1]) if found else None
        if found is None or count is None or re.search(r"month|day|week", words):
            return None
        return count * (60 if found[2] == "h" else 1)

    def weekdays(self, mark: str) -> list[int]:
        """The weekdays that a mark names as such: "sundays", "weekends", "mwf"."""
        words = self.words(mark)
        if "weekend" in words:
            return [5, 6]
        if re.search(r"week ?day", words):
            return [0, 1, 2, 3, 4]
        if words in ("mwf", "m/w/f"):
            return [0, 2, 4]
        if words == "t/th":
            return [1, 3]
        if mark.startswith("W"):
            return list(range(7))
        named = [weekday_of(word) for word in re.findall(DAY, words)]
        return [day for day in named if day is not None]

    def is_plural(self, mark: str) -> bool:
        """ "Sundays" and "every sunday" speak of the rule; "sunday" of one date."""
        words = self.words(mark)
        if re.match(r"(?:to|yester)?(?:day|morrow|night)", words) or words in ("tues", "weds", "thurs", "thus"):
            return False
        return re.search(r"(?:day|sat|sun|mon|fri|tues|wed|thu|thurs)s$|^(?:every|each) ", words) is not None

    def open_on(self, on: date) -> PlannedSession | None:
        """The session of a date that was not begun yet."""
        return next((one for one in self.sessions if one.date == on and on not in self.done), None)

    def next_of(self, number: int) -> date | None:
        """When a day of the split comes next."""
        return next((one.date for one in self.sessions if one.day_number == number and one.date >= self.today), None)

    def numbers(self, mark: str) -> tuple[int, ...]:
        """The days of the split that a session's mark names."""
        words = self.words(mark)
        numbered = re.fullmatch(r"day (\d)", words)
        if numbered:
            return (int(numbered[1]),) if not self.names or int(numbered[1]) in self.names else ()
        exact = tuple(number for number, name in self.names.items() if name.lower() == words)
        stem = re.sub(r"\b(?:day|session|workout|training)s?\b", "", words).strip().removesuffix("s")
        near = tuple(n for n, name in self.names.items() if len(stem) >= 3 and re.search(rf"\b{re.escape(stem)}", name.lower()))
        return exact or near

    def what(self, words: str) -> tuple[date, ...]:
        """The dates of the session that marks or "it" name: D0, S0, "D0 S1", "it" (mentioned before, else today's)."""
        marks = re.findall(r"[DS]\d+", words)
        if not marks:
            return self.it()
        dates = next((self.dates(mark) for mark in marks if mark[0] == "D"), ())
        numbers = next((self.numbers(mark) for mark in marks if mark[0] == "S"), ())
        if not numbers:
            return dates
        if dates:
            planned = {one.date: one.day_number for one in self.sessions}
            return tuple(on for on in dates if planned.get(on) in numbers)
        found = [on for on in map(self.next_of, numbers) if on is not None]
        return (min(found),) if found else ()

    def it(self) -> tuple[date, ...]:
        spoken = self.mentioned[-1:] if not self.cannot else (self.cannot,)
        held = tuple(on for on in spoken if self.open_on(on))
        return held or ((self.today,) if self.open_on(self.today) and not spoken else ())

    def free_after(self, on: date, *, most: int = 1) -> list[date]:
        """The next dates without a session, the nearest first."""
        free: list[date] = []
        while len(free) < most and (found := next_free_day(self.sessions, free[-1] if free else on, plan=self.plan)):
            free.append(found)
        return free
