"""How long does the companion need for an answer, on the whole program against the stand-in?

    python -m tests.bench.bench_answers [rounds]

Every message goes the real way: over HTTP into the inbox, through the deed and its commit on SQLite, into the outbox and out over
HTTP. "Own time" is the deed with its commit, by the clock on the wall and by the processor's; "whole way" is from the person's
message to the bot's answer on the stand-in, both HTTP ways and the stand-in itself included, all in one process. The first round, when nothing was ever asked, is told apart.
"""

from __future__ import annotations

import asyncio
import sys
from collections.abc import Callable
from statistics import median
from time import perf_counter_ns, thread_time_ns
from typing import Any

from bot.chat import lanes
from scenarios.player import opened
from tests.builders.stage import MONDAY_MORNING, Stage

ASKED = {
    "question": ("what's next?", "how long do I rest", "what does 3-1-1-0 mean on A1", "last time A1?", "how many sets left", "how do I do a goblet squat",
                 "what weight for B1", "what is RIR", "whats on tomorrow", "when do I go up"),
    "several questions": ("what does 3-1-1-0 mean and how long do I rest", "what did I do last time on A2, and what should I start with on B1"),
    "swap": ("no barbell, what instead of B1?", "something easier than A2", "knees bad today, what instead of A1", "can't do push ups"),
    "pain": ("my left knee hurts 3/10", "shoulder pinches on A2"),
    "emergency": ("chest feels tight and my left arm is numb", "nearly fainted"),
    "sets": ("A1 16x12", "12", "A2 10", "same"),
    "coach's": ("why did you pick goblet squats for us?",),
}  # fmt: skip
FIRST = "first round"
_Timed = tuple[float, float]


def _watch(times: list[_Timed]) -> None:
    """Put a stopwatch around every deed with its commit."""
    real: Callable[..., Any] = lanes.Lanes._transact

    def timed(self: Any, *given: Any) -> Any:
        wall, own = perf_counter_ns(), thread_time_ns()
        try:
            return real(self, *given)
        finally:
            times.append(((perf_counter_ns() - wall) / 1e6, (thread_time_ns() - own) / 1e6))

    lanes.Lanes._transact = timed  # type: ignore[method-assign]


async def _measure(rounds: int) -> dict[str, list[tuple[float, float, float]]]:
    deeds: list[_Timed] = []
    _watch(deeds)
    found: dict[str, list[tuple[float, float, float]]] = {kind: [] for kind in (*ASKED, FIRST)}
    async with opened(MONDAY_MORNING) as play:
        stage = Stage(play, play.program, play.clock, play.standin, play.claim_code, play.person("Ines"))
        await stage.open()
        for number in range(rounds):
            member = await stage.member(f"Mira{number}")
            for kind, texts in ASKED.items():
                for text in texts:
                    deeds.clear()
                    began = perf_counter_ns()
                    await member.says(text)
                    whole = (perf_counter_ns() - began) / 1e6
                    found[kind if number else FIRST].append((*deeds[0], whole))
    return found


def _say(what: str, figures: list[float]) -> str:
    ordered = sorted(figures)
    return f"{what}: median {median(ordered):6.2f}  p99 {ordered[min(len(ordered) - 1, int(len(ordered) * 0.99))]:6.2f}  worst {ordered[-1]:6.2f}"


def main() -> None:
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 20
    found = asyncio.run(_measure(rounds))
    everything = [one for kind, figures in found.items() if kind != FIRST for one in figures]
    for kind, figures in {**found, "all": everything}.items():
        wall, own, whole = (list(column) for column in zip(*figures, strict=True))
        print(
            f"{kind:18} {len(figures):5} x  ms  {_say('own, wall', wall)} | {_say('own, processor', own)} | {_say('whole way', whole)}"
        )


if __name__ == "__main__":
    main()
