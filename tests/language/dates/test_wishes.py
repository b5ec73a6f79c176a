"""Wishes about days against people's texts: every line of the files of wishes that are not put aside holds.

What was put aside is only counted, as it was measured when it was first heard: see FIRST_HEARD. Gold is by judgement of what the
person wants; two golds with " or " between them are both to a coach's content.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from bot.language.dates import PlanReading, read_plan_words
from bot.training.plan import (
    Away,
    Backdate,
    Change,
    ChangeKind,
    Deed,
    Missed,
    Mode,
    Move,
    Pause,
    Plan,
    QuietHours,
    ReminderAgain,
    ReminderAt,
    RemindOnce,
    Resume,
    Rolling,
    Shift,
    SilentDays,
    Skip,
    StartBlock,
    Swap,
    Weekdays,
    ZoneMove,
    default_plan,
)

# File -> right ones when first heard, before anything was mended after them.
FIRST_HEARD = {"wishes_aside.txt": 35, "wishes_voices_aside.txt": 41}
HERE = Path(__file__).parent
NOW = datetime(2026, 3, 4, 18, 30, tzinfo=ZoneInfo("Europe/Lisbon"))
NAMES = {1: "Legs", 2: "Pull", 3: "Push", 4: "Hips", 5: "All of it"}
WEEK = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def _lines(name: str) -> Iterator[tuple[str, str]]:
    for line in (HERE / name).read_text().splitlines():
        if line and line[0] not in "#[":
            text, gold = line.rsplit(" | ", 1)
            yield text, gold


def _day(on: date | None) -> str:
    return f"{on.day}.{on.month}" if on else ""


def _at(at: time | None) -> str:
    return f"{at:%H:%M}" if at else ""


def _week(days: tuple[int, ...]) -> str:
    return ",".join(WEEK[day] for day in days)


def _shown(deed: Deed) -> str:
    """A deed in the corpus's short form."""
    match deed:
        case Move(on, to):
            return f"move {_day(on)}>{_day(to)}"
        case Swap(first, second):
            return f"swap {_day(first)}={_day(second)}"
        case Skip(on):
            return f"skip {_day(on)}"
        case Shift(first, days):
            return f"shift {_day(first)} {days:+}"
        case Away(first, last):
            return f"away {_day(first)}..{_day(last)}"
        case Pause(first, last):
            return f"pause {_day(first)}..{_day(last)}"
        case Resume(on):
            return f"back {_day(on)}"
        case ReminderAt(at):
            return f"remind {_at(at) or 'off'}"
        case ReminderAgain(after):
            return f"again {after or 'off'}"
        case RemindOnce(at):
            return f"once {at:%H:%M}"
        case SilentDays(days):
            return f"silent {_week(days)}"
        case QuietHours(start, end):
            return f"quiet {_at(start)}-{_at(end)}"
        case Weekdays(days, since):
            return f"days {_week(days)} {_day(since)}"
        case Rolling(since, rhythm):
            return f"rolling {_day(since)} {''.join('01'[on] for on in rhythm or ())}".strip()
        case StartBlock(on):
            return f"start {_day(on)}"
        case ZoneMove(place):
            return f"zone {place.lower()}"
        case Backdate(on, number):
            return f"done {_day(on)}" + (f" {number}" if number else "")


@dataclass(frozen=True)
class Life:
    now: datetime
    plan: Plan
    names: dict[int, str]
    locale: str = "en"


FIVE = {1: "Legs", 2: "Push", 3: "Pull", 4: "Hips", 5: "Arms and core"}
LISBON = Life(NOW, default_plan(start=date(2026, 3, 2), reminder_local=time(18)), NAMES)
LIVES = {
    "dublin": Life(datetime(2026, 4, 14, 18, 30, tzinfo=ZoneInfo("Europe/Dublin")), Plan(start=date(2026, 3, 30)), FIVE),
    "auckland": Life(
        datetime(2026, 12, 11, 7, 15, tzinfo=ZoneInfo("Pacific/Auckland")), Plan(start=date(2026, 12, 7), mode=Mode.ROLLING), FIVE
    ),
    "new york": Life(
        datetime(2026, 2, 22, 21, 40, tzinfo=ZoneInfo("America/New_York")),
        Plan(start=date(2026, 2, 2), weekdays=(0, 2, 4), missed=Missed.SLIDES),
        {1: "Lower", 2: "Upper", 3: "Full body"},
        "en_US",
    ),
    "delhi": Life(
        datetime(2026, 8, 6, 0, 20, tzinfo=ZoneInfo("Asia/Kolkata")),
        Plan(start=date(2026, 8, 3), missed=Missed.DROPS, reminder_local=time(7)),
        FIVE,
    ),
}


def _life(line: str) -> tuple[str, Life]:
    """ "[leeds] 2026-06-11 07:50 Europe/London; mon tue thu fri from 2026-06-01; ask; Push, Pull, Legs, Hips; en_GB; away 2026-06-04..2026-06-18"."""
    name, _, told = line.removeprefix("[").partition("] ")
    moment, rule, missed, names, locale, *more = told.split("; ")
    day, clock, zone = moment.split()
    days, _, start = rule.partition(" from ")
    plan = Plan(start=date.fromisoformat(start), missed=Missed(missed))
    plan = replace(plan, mode=Mode.ROLLING) if days == "rolling" else replace(plan, weekdays=tuple(map(WEEK.index, days.split())))
    for kind, said in (one.split(" ", 1) for one in more):
        if kind == "remind":
            plan = replace(plan, reminder_local=time.fromisoformat(said))
        elif kind == "again":
            plan = replace(plan, again_after_min=int(said))
        else:
            first, _, last = said.partition("..")
            span = Change(ChangeKind(kind), date.fromisoformat(first), date.fromisoformat(last) if last else None)
            plan = replace(plan, changes=(span,))
    now = datetime.fromisoformat(f"{day} {clock}").replace(tzinfo=ZoneInfo(zone))
    return name, Life(now, plan, dict(enumerate(names.split(", "), start=1)), locale)


def _lived(file: str) -> Iterator[tuple[str, str, str]]:
    life = ""
    for line in (HERE / file).read_text().splitlines():
        if line.startswith("["):
            life = line[1:].partition("]")[0]
            if life not in LIVES:
                LIVES.update([_life(line)])
        elif line and not line.startswith("#"):
            text, gold = line.rsplit(" | ", 1)
            yield life, text, gold


def _read(text: str, life: Life = LISBON) -> PlanReading:
    return read_plan_words(text, now=life.now, plan=life.plan, day_names=life.names, locale=life.locale)


def _heard(text: str, life: Life = LISBON) -> str:
    reading = _read(text, life)
    deeds = " and ".join(map(_shown, reading.deeds))
    if reading.question:
        return f"{deeds} and ask" if deeds else "ask"
    return deeds or "-"


def _fits(reading: PlanReading, heard: str, gold: str) -> bool:
    """Is a reading one of the golds? "ask a, b" wants a question that offers both."""
    for one in gold.split(" or "):
        if one.startswith("ask ") and reading.question is not None:
            if set(one.removeprefix("ask ").split(", ")) <= {_shown(option.deed) for option in reading.question.options}:
                return True
        elif one == heard:
            return True
    return False


@pytest.mark.parametrize(("text", "gold"), [*_lines("wishes.txt"), *_lines("wishes_voices.txt"), *_lines("wishes_anyhow.txt")])
def test_a_wish_about_days_is_heard_as_the_person_means_it(text: str, gold: str) -> None:
    heard = _heard(text)
    assert _fits(_read(text), heard, gold), f"{text!r}: heard {heard}, wanted {gold}"


@pytest.mark.parametrize(("life", "text", "gold"), [*_lived("wishes_lives.txt"), *_lived("wishes_strangers.txt")])
def test_a_wish_is_heard_in_the_light_of_the_member_s_own_life(life: str, text: str, gold: str) -> None:
    heard = _heard(text, LIVES[life])
    assert _fits(_read(text, LIVES[life]), heard, gold), f"{text!r} in {life}: heard {heard}, wanted {gold}"


@pytest.mark.parametrize(("name", "right"), FIRST_HEARD.items())
def test_the_put_aside_texts_are_understood_no_worse_than_when_they_were_first_heard(name: str, right: int) -> None:
    assert sum(_fits(_read(text), _heard(text), gold) for text, gold in _lines(name)) >= right


@pytest.mark.parametrize("text", [text for name in FIRST_HEARD for text, gold in _lines(name) if gold == "-"])
def test_put_aside_talk_and_sets_never_become_a_wish_about_days(text: str) -> None:
    assert _heard(text) == "-"


def test_move_without_a_day_offers_the_free_days_that_follow() -> None:
    question = _read("move friday").question
    assert question is not None
    assert [_shown(option.deed) for option in question.options] == ["move 6.3>8.3", "move 6.3>12.3", "move 6.3>15.3"]
