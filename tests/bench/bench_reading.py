"""How fast are sets read? python tests/bench/bench_reading.py

Short entries (median, p99), a pasted session of 60 lines, time against length from 10 to 4,096 characters, hostile inputs; and the same
short messages through general-purpose text libraries in the same run (they do less: dateparser looks for dates, rapidfuzz for one name).
"""

from __future__ import annotations

import gc
import statistics
import sys
from pathlib import Path
from time import perf_counter

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

import dateparser.search
from rapidfuzz import process

from bot.language import read
from bot.training.exercises.catalogue import load_catalogue
from tests.builders.set_corpus import cases
from tests.builders.situations import situation

CORPUS = Path(__file__).resolve().parents[1] / "language" / "reading" / "corpus"
SESSION = "\n".join(
    f"{name} {load}x12 rpe 8"
    for load in (18, 20)
    for name in ("A1", "B1", "goblet squat", "rows", "B2", "curls")
    for _ in range(5)
)
HOSTILE = {
    "digits": "1" * 4096, "x": "x" * 4096, "20x": "20x" * 1365, "numbers": "12 " * 1365, "commas": "1," * 2048, "a1": "a1 " * 1365,
    "words": "goblet squat " * 315, "and": "and " * 1024, "signs": "@/-+:" * 819, "spaces": " " * 4096, "skip": "skip " * 819,
    "no pain": "no " * 1365, "questions": "can i " * 682, "was": "that was " * 455, "ok": "ok " * 1365, "letters": "q" * 4096,
    "sides": "l12 r10 " * 512, "pairs": "20x12 " * 682, "done": "done " * 819, "kg": "20kg " * 819, "emoji": "💪" * 2048, "not": "not 12 " * 585,
}  # fmt: skip


def timed(text: str, where: object, times: int = 5) -> float:
    """Least of several runs, in microseconds."""
    best = float("inf")
    for _ in range(times):
        began = perf_counter()
        read(text, where)  # type: ignore[arg-type]
        best = min(best, perf_counter() - began)
    return best * 1e6


def main() -> None:
    load_catalogue().names.find("goblet squat")
    all_cases = [case for path in sorted(CORPUS.glob("*.txt")) for case in cases(path)]
    short = [(case.text, situation(case.situation)) for case in all_cases if len(case.text) <= 30]
    for text, where in short:
        read(text, where)
    gc.collect()
    gc.freeze()
    once = sorted(timed(text, where, 3) for text, where in short)
    single = [
        t
        for text, where in short
        if text.replace(" ", "").replace("kg", "").replace("x", "").isdigit()
        for t in [timed(text, where, 3)]
    ]
    print(
        f"short entries: {len(short)}, median {statistics.median(once):.0f} us, p99 {once[int(len(once) * 0.99)]:.0f} us, worst {once[-1]:.0f} us"
    )
    print(f"bare numbers such as 20x12: {len(single)}, median {statistics.median(single):.0f} us")
    print(f"60-line session: {timed(SESSION, situation('home')) / 1000:.2f} ms")
    for length in (10, 32, 100, 316, 1000, 2000, 4096):
        told = ("20x12, 12, 11 rpe 8 and then B1 18x12 each side " * 100)[:length]
        print(
            f"length {length:5}: {timed(told, situation('home')):8.0f} us, {timed(told, situation('home')) / length:.2f} us a character"
        )
    worst = {name: timed(text, situation("home A1.1=20x12"), 2) / 1000 for name, text in HOSTILE.items()}
    for name, took in sorted(worst.items(), key=lambda pair: -pair[1])[:6]:
        print(f"hostile {name}: {took:.2f} ms")
    names = [name for exercise in load_catalogue() for name in (exercise.name, *exercise.aliases)]
    texts = [text for text, _ in short][:150]
    for label, job in (
        ("dateparser.search, one language", lambda text: dateparser.search.search_dates(text, languages=["en"])),
        ("rapidfuzz, best of all names", lambda text: process.extractOne(text, names)),
    ):
        took = []
        for text in texts:
            began = perf_counter()
            job(text)
            took.append((perf_counter() - began) * 1e6)
        print(f"{label}: median {statistics.median(took):.0f} us, p99 {sorted(took)[int(len(took) * 0.99)]:.0f} us")


if __name__ == "__main__":
    main()
