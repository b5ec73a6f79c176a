"""How fast are the catalogue and its names? Run by hand: python tests/bench/bench_names.py."""

from __future__ import annotations

import statistics
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from time import perf_counter

from bot.training.exercises.catalogue import load_catalogue
from bot.training.exercises.names import NameIndex

CORPORA = Path(__file__).parents[1] / "training" / "exercises"
TODAY = ("goblet_squat", "dumbbell_bench_press", "one_arm_dumbbell_row", "lateral_raise", "hammer_curl", "plank")
TEXTS = ("goblet squat 20x12, rdl 40x10", "rows 20 12 11 9\nlat raises 8x15", "good morning, did my rows and curls, felt fine")
LOAD = (
    "from time import perf_counter as t; import bot.training.exercises.catalogue as c; a = t(); x = c.load_catalogue(); b = t();"
    " x.names; print((b - a) * 1e3, (t() - b) * 1e3)"
)


def typed() -> list[str]:
    lines = [
        line for name in ("names_typed.txt", "names_held_out.txt") for line in (CORPORA / name).read_text("utf-8").splitlines()
    ]
    return [line.split("|")[0] for line in lines if line and not line.startswith("#")]


def seconds(deed: Callable[[], object]) -> float:
    start = perf_counter()
    deed()
    return perf_counter() - start


def report(what: str, times: list[float]) -> None:
    ordered = sorted(times)
    print(f"{what}: median {statistics.median(ordered) * 1e6:.0f} us, 99th {ordered[int(len(ordered) * 0.99)] * 1e6:.0f} us")


def main() -> None:
    fresh = [subprocess.run([sys.executable, "-c", LOAD], capture_output=True, text=True, check=True).stdout for _ in range(9)]
    loads, indexes = zip(*(map(float, line.split()) for line in fresh), strict=True)
    print(f"load, fresh process: median {statistics.median(loads):.1f} ms, names prepared in {statistics.median(indexes):.1f} ms")
    catalogue = load_catalogue()
    cold = NameIndex(catalogue.all)  # nothing mended yet, so every misspelling pays its full price
    report("find, every text new", [seconds(lambda text=text: cold.find(text)) for text in typed()])  # type: ignore[misc]
    report("find, again", [seconds(lambda text=text: cold.find(text)) for _ in range(10) for text in typed()])  # type: ignore[misc]
    report("find among today's", [seconds(lambda text=text: cold.find(text, among=TODAY)) for text in typed()])  # type: ignore[misc,arg-type]
    report("mentions", [seconds(lambda text=text: cold.mentions(text, among=TODAY)) for _ in range(50) for text in TEXTS])  # type: ignore[misc,arg-type]


if __name__ == "__main__":
    main()
