"""How fast does a text get its answer? The whole program against the stand-in, beside a bare floor measured in the same run.

    python -m tests.bench.bench_pipes [texts]

The floor does the least that anybody could: the same transport, polling and answering with nothing stored. Both share this machine's
cores with the stand-in. Pacing is lifted for the flood (limits of 1,000,000/s); everything else is as in `companion run`, synchronous
FULL included.
"""

from __future__ import annotations

import asyncio
import json
import logging
import statistics
import sys
import tempfile
import time
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any

from pydantic import SecretStr

from bot.chat.transport import Transport, open_bot
from bot.cli.program import Program
from bot.cli.service import RealClock
from bot.clock.pace import Limits
from bot.settings import Settings
from scenarios.standin import StandIn
from tests.crash.echo_program import echo_hooks

NO_LIMIT = Limits(all_per_s=1e6, others_per_s=1e6, chat_per_s=1e6, chat_burst=100, group_per_minute=100_000)
PEOPLE = 100


class Stopwatch:
    """Notes when each text was said and when its answer stood in the chat."""

    def __init__(self, standin: StandIn) -> None:
        self.standin = standin
        self.crowd = [standin.person(f"P{number}") for number in range(PEOPLE)]
        self.said: dict[str, float] = {}
        self.shown: dict[str, float] = {}
        post = standin.platform.post

        def posted(*given: Any, **more: Any) -> Any:
            message = post(*given, **more)
            if message.from_bot:
                self.shown.setdefault(message.text, time.perf_counter())
            return message

        standin.platform.post = posted  # type: ignore[method-assign]

    async def say(self, number: int, label: str) -> None:
        text = f"{label} {number}"
        self.said[text] = time.perf_counter()
        await self.crowd[number % PEOPLE].says(text)

    async def all_shown(self, label: str, count: int, patience_s: float = 120.0) -> None:
        end = time.perf_counter() + patience_s
        while sum(text.startswith(label) for text in self.shown) < count:
            if time.perf_counter() > end:
                raise TimeoutError(f"{label}: not all answered")
            await asyncio.sleep(0.01)

    async def flood(self, label: str, count: int) -> float:
        """Texts a second, from the first one said to the last one answered."""
        for number in range(count):
            await self.say(number, label)
        await self.all_shown(label, count)
        return count / (
            max(self.shown[t] for t in self.shown if t.startswith(label))
            - min(self.said[t] for t in self.said if t.startswith(label))
        )

    async def steady(self, label: str, *, per_s: float, seconds: float) -> list[float]:
        """Milliseconds from said to shown, at an even rate."""
        count = int(per_s * seconds)
        begun = time.perf_counter()
        for number in range(count):
            await asyncio.sleep(max(0.0, begun + number / per_s - time.perf_counter()))
            await self.say(number, label)
        await self.all_shown(label, count)
        return sorted((self.shown[f"{label} {n}"] - self.said[f"{label} {n}"]) * 1_000 for n in range(count))


async def with_floor(standin: StandIn, work: Callable[[], Awaitable[Any]]) -> Any:
    """Run the least that could answer."""
    transport = Transport()
    await transport.initialize()
    bot = open_bot(standin.token, standin.url, transport)
    url, tasks = f"{standin.url}/bot{standin.token}/getUpdates", set()

    async def poll() -> None:
        offset = 0
        while True:
            _, body = await transport.exchange(url, "POST", {"offset": str(offset), "timeout": "50", "limit": "100"}, read_s=60)
            for update in json.loads(body)["result"]:
                offset = max(offset, update["update_id"] + 1)
                message = update["message"]
                task = asyncio.create_task(bot.send_message(message["chat"]["id"], message["text"]))
                tasks.add(task)
                task.add_done_callback(tasks.discard)

    polling = asyncio.create_task(poll())
    result = await work()
    polling.cancel()
    await transport.shutdown()
    return result


async def with_program(standin: StandIn, folder: Path, work: Callable[[], Awaitable[Any]]) -> Any:
    settings = Settings(token=SecretStr(standin.token), base_url=standin.url, data=folder)
    program = Program(settings, RealClock(), echo_hooks(), limits=NO_LIMIT)
    await program.start()
    try:
        return await work()
    finally:
        await program.stop()


async def measure(texts: int) -> None:
    async with StandIn() as standin:
        watch = Stopwatch(standin)
        with tempfile.TemporaryDirectory() as folder:
            floor = await with_floor(standin, lambda: watch.flood("floor", texts))
            whole = await with_program(standin, Path(folder), lambda: watch.flood("whole", texts))
            print(f"flood of {texts}: floor {floor:.0f}/s, whole program {whole:.0f}/s, ratio {whole / floor:.2f}")
            slow_floor = await with_floor(standin, lambda: watch.steady("floor50", per_s=50, seconds=10))
            slow_whole = await with_program(standin, Path(folder), lambda: watch.steady("whole50", per_s=50, seconds=10))
            for name, took in (("floor", slow_floor), ("whole program", slow_whole)):
                print(f"50/s, {name}: p50 {statistics.median(took):.1f} ms, p99 {took[int(len(took) * 0.99)]:.1f} ms")


def main() -> None:
    logging.disable(logging.CRITICAL)
    asyncio.run(measure(int(sys.argv[1]) if len(sys.argv) > 1 else 3_000))


if __name__ == "__main__":
    main()
