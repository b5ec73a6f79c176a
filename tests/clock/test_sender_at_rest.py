"""While the clock stands and nothing can be sent, the sender sleeps: it neither turns in circles nor asks the database again."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

import pytest

from bot.coaching.ports import NotReached, Refused, Slower, Unclear
from tests.builders.pipes import NOON, SenderRig, fresh_engines

Prepare = Callable[[SenderRig], None]
SECOND = timedelta(seconds=1)


def flood_wait(rig: SenderRig) -> None:
    rig.messenger.will(7, Slower(30))
    rig.put(7, "a")
    rig.put(7, "b")


def broadcast_wait(rig: SenderRig) -> None:
    rig.messenger.will(7, Slower(30))
    for chat_id in (7, 8, 9):
        rig.put(chat_id, "a", lane="bulk")


def taken_back(rig: SenderRig) -> None:
    flood_wait(rig)
    with rig.open_uow() as uow:
        uow.outbox.put(7, "x", {"n": "c"}, key="c")
        uow.outbox.drop("c")
        uow.commit()


def expired_while_it_waits(rig: SenderRig) -> None:
    flood_wait(rig)
    rig.put(7, "c", expires_at_utc=NOON + SECOND)
    rig.put(8, "d", expires_at_utc=NOON - SECOND)


def ready_later(rig: SenderRig) -> None:
    rig.put(7, "a", not_before_utc=NOON + timedelta(microseconds=1))
    rig.put(7, "b", not_before_utc=NOON + 9 * SECOND)


def ready_later_in_a_chat_that_waits(rig: SenderRig) -> None:
    flood_wait(rig)
    rig.put(7, "c", not_before_utc=NOON + SECOND)


def given_up_elsewhere(rig: SenderRig) -> None:
    """Another program, or a deed, has settled the rows that are in hand."""
    flood_wait(rig)
    with rig.open_uow() as uow:
        uow.outbox.mark_chat_unreachable(7, NOON, "blocked")
        uow.commit()


def full_group(rig: SenderRig) -> None:
    for n in range(45):
        rig.put(-5, n, lane="bulk")


def no_network(rig: SenderRig) -> None:
    rig.messenger.will(7, *[NotReached("no route")] * 3)
    rig.put(7, "a")
    rig.put(8, "b")


def unclear_and_refused(rig: SenderRig) -> None:
    rig.messenger.will(7, Unclear("timeout"), Refused("bad"))
    rig.put(7, "a")


def clock_set_back(rig: SenderRig) -> None:
    rig.put(7, "a", not_before_utc=NOON + 9 * SECOND)
    rig.clock._now -= 3_600 * SECOND
    rig.put(7, "b")


CASES = (
    flood_wait, broadcast_wait, taken_back, expired_while_it_waits, ready_later, ready_later_in_a_chat_that_waits,
    given_up_elsewhere, full_group, no_network, unclear_and_refused, clock_set_back,
)  # fmt: skip


@pytest.mark.parametrize("prepare", CASES, ids=lambda case: case.__name__)
def test_a_sender_that_can_send_nothing_sleeps(prepare: Prepare, tmp_path: Path) -> None:
    """At each moment of the next minutes, down to the sender's own next one; and in the end nothing waits any more."""
    rig = SenderRig(fresh_engines(tmp_path))
    turns: list[str] = []
    start_all, look = rig.sender._start_all_that_may, rig.sender._transact

    def started() -> None:
        turns.append("turn")
        start_all()

    def looked(*given: object) -> object:
        turns.append("look")
        return look(*given)  # type: ignore[arg-type]

    rig.sender._start_all_that_may, rig.sender._transact = started, looked  # type: ignore[method-assign,assignment]

    async def live() -> None:
        await rig.quiet()
        prepare(rig)
        for _ in range(400):
            await rig.quiet()
            turns.clear()
            for _ in range(50):
                await asyncio.sleep(0)
            assert turns == [], (rig.clock.now(), rig.sender.next_at())
            moment = rig.sender.next_at()
            if moment is None:
                break
            assert moment > rig.clock.now()
            await rig.clock.advance_to(moment)
        await rig.end()

    asyncio.run(asyncio.wait_for(live(), 60))
    with rig.open_uow() as uow:
        assert uow.outbox.count("waiting") == 0
