"""How long does a search for substitutes take? Every exercise, every reason, with three kits; cold means never asked before.

Time of the processor, so that other work on the machine does not count.
"""

from __future__ import annotations

import gc
from pathlib import Path
from statistics import median
from time import thread_time_ns

from bot.training.exercises.catalogue import Catalogue, load_catalogue
from bot.training.substitutes import Reason, substitutes_for
from tests.builders.substitute_corpus import KITS
from tests.builders.swap_phrases import phrases


def _search_ms(catalogue: Catalogue, kit: str) -> tuple[list[float], list[float]]:
    cold: list[float] = []
    warm: list[float] = []
    for entry in catalogue:
        for number, reason in enumerate(Reason):
            began = thread_time_ns()
            substitutes_for(
                entry.id, kit=KITS[kit], reason=reason, catalogue=catalogue, hurting=("knee",) if reason is Reason.PAIN else ()
            )
            (warm if number else cold).append((thread_time_ns() - began) / 1e6)
    return cold, warm


def _say(what: str, figures: list[float]) -> None:
    ordered = sorted(figures)
    p99 = ordered[int(len(ordered) * 0.99)]
    print(f"{what:34} {len(ordered):5} times  median {median(ordered):6.3f} ms  p99 {p99:6.3f} ms  worst {ordered[-1]:6.3f} ms")


def main() -> None:
    gc.disable()
    for kit in ("nothing", "home", "gym"):
        catalogue = Catalogue(load_catalogue().all)  # a new one, so that nothing is remembered
        began = thread_time_ns()
        substitutes_for(catalogue.all[0].id, kit=KITS[kit], reason=Reason.WISH, catalogue=catalogue)
        print(f"first search in a new catalogue: {(thread_time_ns() - began) / 1e6:.1f} ms")
        cold, warm = _search_ms(catalogue, kit)
        _say(f"{kit}: exercise asked first time", cold)
        _say(f"{kit}: asked again, other reason", warm)
    texts = phrases(Path(__file__).parents[1] / "language" / "swaps" / "phrases.txt")
    readings: list[float] = []
    for _ in range(3):
        for phrase in texts:
            began = thread_time_ns()
            phrase.read()
            readings.append((thread_time_ns() - began) / 1e6)
    _say("reading a wish", readings)


if __name__ == "__main__":
    main()
