"""Members of eight zones, what each is to be reminded of, and what they heard. What is expected comes from dateutil.rrule and zoneinfo."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from typing import TypeVar
from zoneinfo import ZoneInfo

from dateutil.rrule import WEEKLY, rrule

from scenarios.player import Person
from tests.builders.stage import Stage

T = TypeVar("T")
START = date(2026, 3, 2)
AT = time(17, 30)  # on the stage every member chooses this time when joining
PLACES = {
    "Lisbon": "Europe/Lisbon", "New York": "America/New_York", "Denver": "America/Denver", "Kolkata": "Asia/Kolkata",
    "Adelaide": "Australia/Adelaide", "Auckland": "Pacific/Auckland", "St. John's": "America/St_Johns", "Sao Paulo": "America/Sao_Paulo",
}  # fmt: skip


@dataclass
class Life:
    """One member: the zone, weekdays and time that hold from a date on, and the stretches without training."""

    person: Person
    zones: list[tuple[date, str]]
    weekdays: list[tuple[date, tuple[int, ...]]] = field(default_factory=lambda: [(START, (0, 2))])
    times: list[tuple[date, time]] = field(default_factory=lambda: [(START, AT)])
    away: list[tuple[date, date]] = field(default_factory=list)

    def expected(self, until: date, after_utc: datetime) -> list[datetime]:
        """The moments of all reminders before a date, later than the moment of joining."""
        moments = []
        for on in self._days(until):
            if not any(first <= on <= last for first, last in self.away):
                local = datetime.combine(on, _held(self.times, on), ZoneInfo(_held(self.zones, on)))
                moments.append(local.astimezone(UTC))
        return [moment for moment in moments if moment > after_utc]

    def _days(self, until: date) -> list[date]:
        found: list[date] = []
        for place, (since, days) in enumerate(self.weekdays):
            end = self.weekdays[place + 1][0] if place + 1 < len(self.weekdays) else until
            last = datetime.combine(end - timedelta(days=1), time())
            found += [one.date() for one in rrule(WEEKLY, byweekday=days, dtstart=datetime.combine(since, time()), until=last)]
        return found

    def heard(self) -> list[datetime]:
        """The minutes in which a reminder came (a second or two go by on the way)."""
        came = [message.at for message in self.person.from_bot() if message.text.startswith("Today: day")]
        return [at.replace(second=0, microsecond=0) for at in came]


def _held(values: list[tuple[date, T]], on: date) -> T:
    return [value for since, value in values if since <= on][-1]


async def lives_in(stage: Stage, places: tuple[str, ...] = tuple(PLACES)) -> dict[str, Life]:
    """A member in each of the places."""
    return {
        place: Life(await stage.member(f"Member {number}", place=place), [(START, PLACES[place])])
        for number, place in enumerate(places)
    }


async def live_until(stage: Stage, lives: dict[str, Life], moment: datetime) -> None:
    """Live on to a moment. Everybody says hello every two weeks, since whoever is silent for long is not reminded any more."""
    while (coming := stage.clock.now() + timedelta(days=14)) < moment:
        await stage.program.live_until(coming)
        for life in lives.values():
            await life.person.says("hello")
    await stage.program.live_until(moment)
