"""What does it cost to ask whether a text is a wish about days? Every text that is no set and no command passes through here.

python -m tests.bench.bench_dates
Beside it, as floor and ceiling: one compiled expression over the same texts, and dateparser (English only, as the project calls it) over
the cut-out date fields alone.
"""

from __future__ import annotations

import re
import statistics
import time
from collections.abc import Callable
from datetime import date, datetime
from datetime import time as wall_time
from pathlib import Path
from zoneinfo import ZoneInfo

import dateparser

from bot.language.dates import read_plan_words
from bot.training.plan import Mode, Plan, default_plan

HERE = Path(__file__).parent.parent / "language"
NOW = datetime(2026, 3, 4, 18, 30, tzinfo=ZoneInfo("Europe/Lisbon"))
NAMES = {1: "Legs", 2: "Pull", 3: "Push", 4: "Hips", 5: "All of it"}
PLANS = {
    "by weekdays": default_plan(start=date(2026, 3, 2), reminder_local=wall_time(18)),
    "rolling for a year": Plan(start=date(2025, 3, 3), mode=Mode.ROLLING, reminder_local=wall_time(18)),
}
FIELDS = ("12 march", "march 14", "the 3rd of april", "2026-04-01", "5 dec")


def _texts(*names: str) -> list[str]:
    lines = [line for name in names for line in (HERE / name).read_text().splitlines()]
    return [line.rsplit(" | ", 1)[0] for line in lines if line and line[0] not in "#["]


def _hostile() -> list[str]:
    return [
        "move " * 79, "friday " * 57, "cant train friday and " * 18, "no reminders before 9 and after 9 " * 11, "12, " * 100, "D0 S1 T2 " * 44,
        "i was away from monday to tuesday and from friday to sunday but then i moved everything by a day or two or three days " * 3,
        "a" * 400, "-" * 400, "3 on 1 off " * 36, "im in " + "a b " * 98, "back " * 80, "please can you " * 26,
    ]  # fmt: skip


def _spread(took: list[float]) -> str:
    took = sorted(took)
    return f"median {statistics.median(took) * 1e6:.0f} us, p99 {took[int(len(took) * 0.99)] * 1e6:.0f} us, most {took[-1] * 1e3:.2f} ms"


def _each(texts: list[str], read: Callable[[str], object], rounds: int = 5) -> list[float]:
    took = []
    for text in texts:
        best = float("inf")
        for _ in range(rounds):
            begun = time.perf_counter()
            read(text)
            best = min(best, time.perf_counter() - begun)
        took.append(best)
    return took


def main() -> None:
    wishes = _texts("dates/wishes.txt", "dates/wishes_voices.txt", "dates/wishes_lives.txt")
    talk = [text[:300] for text in _texts("safety/lookalikes.txt", "swaps/phrases.txt")]
    read_plan_words("move 12 march to 13 march", now=NOW, plan=PLANS["by weekdays"])  # dateparser is loaded once
    for name, plan in PLANS.items():
        for kind, texts in (("wishes", wishes), ("other talk", talk), ("hostile", _hostile())):
            took = _each(texts, lambda text, plan=plan: read_plan_words(text, now=NOW, plan=plan, day_names=NAMES))  # type: ignore[misc]
            print(f"{name}, {len(texts)} {kind}: {_spread(took)}")
    floor = re.compile(r"\b(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?\b")
    print(f"one expression over the wishes: {_spread(_each(wishes, floor.search))}")
    english = {"languages": ["en"], "settings": {"RELATIVE_BASE": NOW.replace(tzinfo=None), "PREFER_DATES_FROM": "future"}}
    print(
        f"dateparser over {len(FIELDS)} cut-out fields: {_spread(_each(list(FIELDS), lambda text: dateparser.parse(text, **english)))}"
    )


if __name__ == "__main__":
    main()
