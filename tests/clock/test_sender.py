"""When which message goes out, and what follows from what became of it."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from bot.clock.pace import Limits
from bot.clock.sender import MAX_IN_FLIGHT
from bot.coaching.ports import Gone, Moved, NotReached, Refused, Sent, Slower, Unclear
from tests.builders.pipes import NOON, NoHooks, SenderRig, fresh_engines

Play = Callable[[SenderRig], Awaitable[None]]


def play(tmp_path: Path, acts: Play, **how: Any) -> SenderRig:
    rig = SenderRig(fresh_engines(tmp_path), **how)

    async def whole() -> None:
        await acts(rig)
        await rig.end()

    asyncio.run(asyncio.wait_for(whole(), 60))
    return rig


def said(rig: SenderRig) -> list[Any]:
    return [n for _, _, n in rig.messenger.delivered]


def test_a_message_is_sent_once_and_marked_with_the_platforms_id(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        row_id = rig.put(7, "a")
        await rig.live(60)
        row = rig.row(row_id)
        assert (row.state, row.message_id, row.attempts) == ("sent", 1, 1)

    rig = play(tmp_path, acts)

    assert rig.messenger.delivered == [(0.0, 7, "a")]


def test_a_chats_messages_keep_their_order(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        for n in range(8):
            rig.put(7, n)
        await rig.live(60)

    rig = play(tmp_path, acts)

    assert said(rig) == list(range(8))


def test_an_answer_in_the_midst_of_a_broadcast_goes_next(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        for chat_id in range(1, 301):
            rig.put(chat_id, "block", lane="bulk")
        await rig.live(3)
        rig.put(999, "answer")
        await rig.live(60)

    rig = play(tmp_path, acts)

    at = {chat: moment for moment, chat, _ in rig.messenger.delivered}
    assert len(rig.messenger.delivered) == 301
    assert at[999] <= 3.0 + 1 / 30 + 0.001
    assert max(at.values()) >= 300 / 24 - 0.1


def test_one_chats_long_queue_does_not_crowd_others_out(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        for n in range(400):
            rig.put(-5, n, lane="bulk")
        rig.put(8, "other", lane="bulk")
        await rig.live(5)

    rig = play(tmp_path, acts)

    assert "other" in said(rig)


def test_a_message_with_a_later_moment_goes_out_at_that_moment(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        rig.put(7, "rest is over", lane="rest", not_before_utc=NOON + timedelta(seconds=90))
        await rig.live(200)

    rig = play(tmp_path, acts)

    assert rig.messenger.delivered == [(90.0, 7, "rest is over")]


def test_what_has_expired_is_dropped_and_not_sent(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        ids.append(rig.put(7, "stale", expires_at_utc=NOON))
        ids.append(rig.put(7, "fresh", expires_at_utc=NOON + timedelta(seconds=1)))
        await rig.live(5)
        states.extend(rig.row(row_id).state for row_id in ids)

    ids: list[int] = []
    states: list[str] = []
    rig = play(tmp_path, acts)

    assert said(rig) == ["fresh"]
    assert states == ["dropped", "sent"]


def test_a_chat_that_must_slow_down_waits_and_others_do_not(tmp_path: Path) -> None:
    """The wait is the platform's own figure, and not a second less; the stock limiter frees it early."""

    async def acts(rig: SenderRig) -> None:
        rig.messenger.will(7, Slower(30))
        row_id = rig.put(7, "a")
        rig.put(7, "b")
        await rig.quiet()
        for chat_id in (8, 9):
            rig.put(chat_id, "c")
        await rig.live(60)
        assert rig.row(row_id).attempts == 1

    rig = play(tmp_path, acts)

    assert [(chat, n) for _, chat, n in rig.messenger.delivered] == [(7, "a"), (8, "c"), (9, "c"), (7, "a"), (7, "b")]
    assert rig.messenger.delivered[3][0] == pytest.approx(30.0, abs=0.01)
    assert rig.messenger.delivered[2][0] < 1


def test_everything_waits_if_a_broadcast_must_slow_down(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        rig.messenger.will(7, Slower(10))
        rig.put(7, "block", lane="bulk")
        await rig.quiet()
        rig.put(8, "answer")
        await rig.live(60)

    rig = play(tmp_path, acts)

    assert [(chat, n) for _, chat, n in rig.messenger.delivered] == [(7, "block"), (8, "answer"), (7, "block")]
    assert rig.messenger.delivered[1][0] == pytest.approx(10.0, abs=0.01)


def test_who_cannot_be_reached_is_given_up_and_the_deed_hears_of_it_once(tmp_path: Path) -> None:
    heard: list[int] = []

    def on_unreachable(uow: Any, chat_id: int) -> None:
        heard.append(chat_id)
        uow.due.cancel_all(member_id=chat_id)

    async def acts(rig: SenderRig) -> None:
        with rig.open_uow() as uow:
            uow.due.put("reminder", "7", NOON, {}, member_id=7, too_late_after_s=None)
            uow.commit()
        rig.messenger.will(7, Gone("Forbidden: bot was blocked by the user"))
        ids.extend(rig.put(7, n) for n in range(30))
        other = rig.put(8, "other")
        await rig.live(60)
        states.extend({rig.row(row_id).state for row_id in ids})
        assert rig.row(other).state == "sent"
        with rig.open_uow() as uow:
            assert uow.due.count("open") == 0

    ids: list[int] = []
    states: list[str] = []
    rig = play(tmp_path, acts, hooks=NoHooks(on_unreachable=on_unreachable))

    assert states == ["unreachable"]
    assert heard == [7]
    assert len(said(rig)) == 2


def test_a_moved_group_gets_its_messages_under_the_new_id(tmp_path: Path) -> None:
    heard: list[tuple[int, int]] = []

    async def acts(rig: SenderRig) -> None:
        rig.messenger.will(-5, Moved(-1005))
        for n in range(3):
            rig.put(-5, n)
        await rig.live(60)

    rig = play(tmp_path, acts, hooks=NoHooks(on_moved=lambda uow, old, new: heard.append((old, new))))

    assert [(chat, n) for _, chat, n in rig.messenger.delivered] == [(-5, 0), (-1005, 0), (-1005, 1), (-1005, 2)]
    assert heard == [(-5, -1005)]


def test_an_answer_of_unclear_end_is_sent_again_before_the_next_one(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        rig.messenger.will(7, Unclear("timed out"), Unclear("timed out"))
        row_id = rig.put(7, "a")
        rig.put(7, "b")
        await rig.live(60)
        assert (rig.row(row_id).state, rig.row(row_id).attempts) == ("sent", 3)

    rig = play(tmp_path, acts)

    assert said(rig) == ["a", "a", "a", "b"]
    assert [moment for moment, _, _ in rig.messenger.delivered][:3] == pytest.approx([0, 1, 3], abs=0.01)


def test_an_expired_reminder_of_unclear_end_is_not_sent_again(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        rig.messenger.will(7, Unclear("timed out"))
        row_id = rig.put(7, "reminder", lane="reminder", expires_at_utc=NOON + timedelta(milliseconds=500))
        await rig.live(600)
        assert rig.row(row_id).state == "dropped"

    assert said(play(tmp_path, acts)) == ["reminder"]


def test_after_a_day_of_unclear_ends_it_is_given_up(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        rig.messenger.will(7, *[Unclear("timed out")] * 5_000)
        row_id = rig.put(7, "a")
        await rig.live(25 * 3_600)
        assert rig.row(row_id).state == "failed"

    rig = play(tmp_path, acts)

    assert 1_400 < len(said(rig)) < 1_460  # once a minute at most


def test_without_a_network_everything_waits_and_no_try_is_counted(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        rig.messenger.will(7, *[NotReached("no connection")] * 4)
        row_id = rig.put(7, "a")
        other = rig.put(8, "b")
        await rig.live(120)
        assert [(rig.row(i).state, rig.row(i).attempts) for i in (row_id, other)] == [("sent", 1), ("sent", 1)]

    rig = play(tmp_path, acts)

    assert said(rig).count("a") == 5


def test_what_the_platform_refuses_is_given_up_and_the_next_one_goes_out(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        rig.messenger.will(7, Refused("Bad Request: message is too long"))
        row_id = rig.put(7, "a")
        rig.put(7, "b")
        await rig.live(5)
        assert rig.row(row_id).state == "failed"

    assert said(play(tmp_path, acts)) == ["a", "b"]


def test_a_long_text_goes_on_where_it_stopped(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        first, second, third = (
            Sent({"message_id": 11}, parts_left=2),
            Sent({"message_id": 12}, parts_left=1),
            Sent({"message_id": 13}),
        )
        rig.messenger.will(7, first, Unclear("cut"), second, third)
        row_id = rig.put(7, "long")
        rig.put(7, "next")
        await rig.live(60)
        row = rig.row(row_id)
        assert (row.state, row.parts_sent, row.message_id) == ("sent", 2, 13)

    assert said(play(tmp_path, acts)) == ["long", "long", "long", "long", "next"]


def test_the_deed_hears_of_what_was_sent_in_the_marking_transaction_and_its_failure_unmarks_nothing(tmp_path: Path) -> None:
    heard: list[Any] = []

    def on_sent(uow: Any, row: Any, message: dict[str, Any]) -> None:
        heard.append((row.fields["n"], message["message_id"]))
        uow.due.put("seen", str(row.id), NOON, {}, too_late_after_s=None)
        if row.fields["n"] == "b":
            raise RuntimeError

    async def acts(rig: SenderRig) -> None:
        ids = [rig.put(7, "a"), rig.put(7, "b")]
        await rig.live(5)
        assert [rig.row(row_id).state for row_id in ids] == ["sent", "sent"]
        with rig.open_uow() as uow:
            assert [row.key for row in uow.due.claim(NOON, 9)] == [str(ids[0])]

    play(tmp_path, acts, hooks=NoHooks(on_sent=on_sent))

    assert heard == [("a", 1), ("b", 2)]


def test_what_was_sent_is_not_sent_again_when_the_database_fails_to_hear_of_it(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        failures = 3

        async def stubborn(work: Callable[..., Any], *given: Any) -> Any:
            nonlocal failures
            if given and given[0] and failures:
                failures -= 1
                raise OSError("disk full")
            return work(*given)

        rig.sender._in_database = stubborn
        row_id = rig.put(7, "a")
        rig.task = asyncio.create_task(rig.sender.run())
        for _ in range(60):
            await asyncio.sleep(0)
            await rig.clock.advance(1)
        assert rig.row(row_id).state == "sent"

    assert said(play(tmp_path, acts)) == ["a"]


def test_a_new_sender_sends_what_the_killed_one_had_in_flight(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        rig.messenger.gate = asyncio.Event()
        for chat_id in (7, 8):
            rig.put(chat_id, chat_id)
        killed = asyncio.create_task(rig.sender.run())
        for _ in range(50):
            await asyncio.sleep(0)
            await rig.clock.advance(0.1)
        killed.cancel()
        rig.messenger.gate = None
        rig.sender = rig.new_sender()
        await rig.live(60)

    rig = play(tmp_path, acts)

    assert sorted(said(rig)) == [7, 7, 8, 8]


def test_it_stops_after_what_is_in_flight_and_starts_nothing_more(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        rig.messenger.gate = asyncio.Event()
        first = rig.put(7, "a")
        rig.task = asyncio.create_task(rig.sender.run())
        for _ in range(50):
            await asyncio.sleep(0)
        second = rig.put(8, "b")
        await rig.sender.stop()
        rig.messenger.gate.set()
        await rig.task
        assert [rig.row(row_id).state for row_id in (first, second)] == ["sent", "waiting"]

    assert said(play(tmp_path, acts)) == ["a"]


def test_what_is_taken_back_or_erased_is_not_sent_although_it_was_in_hand(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        for n in range(8):
            rig.put(7, n, key=f"seven:{n}")
            rig.put(8, n, lane="bulk")
        await rig.quiet()
        with rig.open_uow() as uow:
            assert uow.outbox.drop("seven:5")
            uow.outbox.erase(8)
            uow.commit()
        await rig.live(60)

    rig = play(tmp_path, acts)

    assert [n for _, chat, n in rig.messenger.delivered if chat == 7] == [0, 1, 2, 3, 4, 6, 7]
    assert len([n for _, chat, n in rig.messenger.delivered if chat == 8]) <= 1


def test_a_chat_that_must_slow_down_waits_also_when_its_message_was_offered_twice(tmp_path: Path) -> None:
    """It waits already when more messages come for it; when its time comes, as many as may are in flight."""

    async def acts(rig: SenderRig) -> None:
        gate = asyncio.Event()
        deliver = rig.messenger.deliver

        async def slowly(row: Any) -> Any:
            outcome = await deliver(row)
            if row.chat_id != 7:
                await gate.wait()
            return outcome

        rig.messenger.deliver = slowly  # type: ignore[method-assign]
        rig.messenger.will(7, Slower(5), Slower(30))
        rig.put(7, "a")
        await rig.quiet()
        for n in "bc":
            with rig.open_uow() as uow:
                uow.outbox.put(7, "x", {"n": n})
                new = list(uow.outbox.new)
                uow.commit()
            rig.sender.hand(new)
        for chat_id in range(100, 100 + MAX_IN_FLIGHT - 1):
            rig.put(chat_id, "other")
        await some_turns()
        await rig.clock.advance(5.1)
        await some_turns()
        gate.set()
        await rig.live(60)

    rig = play(tmp_path, acts, limits=Limits(all_per_s=1e12, others_per_s=1e12))

    sevens = [(moment, n) for moment, chat, n in rig.messenger.delivered if chat == 7]
    assert [n for _, n in sevens] == ["a", "a", "a", "b", "c"]
    assert [round(moment) for moment, _ in sevens[:3]] == [0, 5, 35]


def test_a_day_of_trouble_with_the_database_is_waited_out(tmp_path: Path) -> None:
    async def acts(rig: SenderRig) -> None:
        await rig.quiet()
        transact = rig.sender._transact
        rig.sender._transact = _fails  # type: ignore[method-assign]
        rig.put(7, "a")
        for _ in range(1_500):
            await rig.clock.advance(60)
        rig.sender._transact = transact  # type: ignore[method-assign]
        await rig.clock.advance(60)
        await rig.live(1)

    assert said(play(tmp_path, acts)) == ["a"]


async def some_turns() -> None:
    """Let all tasks go on for a while."""
    for _ in range(100):
        await asyncio.sleep(0)


def _fails(*given: Any) -> Any:
    raise OSError("disk full")
