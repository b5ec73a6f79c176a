"""The played clock: time moves only when told, and who sleeps wakes at their own moment."""

from __future__ import annotations

import asyncio
from datetime import datetime, timedelta

import pytest

from scenarios.clock import PlayedClock
from tests.builders.pipes import NOON


def test_sleepers_wake_in_order_each_at_its_own_moment() -> None:
    clock = PlayedClock(NOON)
    woke: list[tuple[int, float]] = []

    async def sleeper(seconds: int) -> None:
        await clock.sleep(seconds)
        woke.append((seconds, (clock.now() - NOON).total_seconds()))
        if seconds == 5:
            await sleeper(2)

    async def run() -> None:
        tasks = [asyncio.create_task(sleeper(seconds)) for seconds in (30, 5, 10)]
        await asyncio.sleep(0)
        await clock.advance_to(NOON + timedelta(seconds=20))
        assert [seconds for seconds, _ in woke] == [5, 2, 10]
        await clock.advance(10)
        await asyncio.gather(*tasks)

    asyncio.run(run())

    assert woke == [(5, 5.0), (2, 7.0), (10, 10.0), (30, 30.0)]


def test_a_sleep_counts_from_the_call_and_one_that_was_given_up_is_passed_over() -> None:
    clock = PlayedClock(NOON)

    async def run() -> None:
        later = clock.sleep(5)
        given_up = asyncio.ensure_future(clock.sleep(3))
        await asyncio.sleep(0)
        given_up.cancel()
        await asyncio.sleep(0)
        await clock.advance(5)
        await asyncio.wait_for(later, 5)
        assert clock.now() == NOON + timedelta(seconds=5)
        assert clock.next_wake_at() is None

    asyncio.run(run())


def test_it_never_goes_back_and_needs_a_zone() -> None:
    clock = PlayedClock(NOON)
    asyncio.run(clock.advance_to(NOON - timedelta(hours=1)))

    assert clock.now() == NOON
    with pytest.raises(ValueError, match="a moment with a zone"):
        PlayedClock(datetime(2026, 3, 2))  # noqa: DTZ001
