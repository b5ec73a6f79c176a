"""What the outbox promises: one key one message, answers first, and a finished message moves no more."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

import pytest
from sqlalchemy import event

from storage.engine import Engines
from storage.outbox import Outbox, OutboxRow
from storage.unit_of_work import UnitOfWork

ALL = range(5)


def ready(uow: UnitOfWork, now: datetime, **more: object) -> list[int]:
    limits = {"lanes": ALL, "held": (), "full": (), "limit": 100, **more}
    return [row.id for row in uow.outbox.waiting(now, **limits)]  # type: ignore[arg-type]


def test_a_message_comes_back_as_it_was_put(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        row_id = uow.outbox.put(
            -100123,
            "set_kept",
            {"text": "żółw 🐢", "reps": [12, 12]},
            lane="reminder",
            expires_at_utc=noon + timedelta(hours=1),
            key="k",
            thread_id=4,
        )
        uow.commit()

    with UnitOfWork(engines, lambda: noon, reads=True) as uow:
        assert uow.outbox.find("k") == OutboxRow(
            id=row_id, chat_id=-100123, thread_id=4, kind="set_kept", fields={"text": "żółw 🐢", "reps": [12, 12]}, lane=2,
            key="k", created_at_utc=noon, expires_at_utc=noon + timedelta(hours=1), attempts=0, parts_sent=0,
            ready_at_utc=noon,
        )  # fmt: skip


def test_a_second_put_of_a_key_changes_nothing(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        first = uow.outbox.put(7, "reminder", {"day": 1}, key="reminder:7:2026-03-02")
        second = uow.outbox.put(7, "reminder", {"day": 2}, key="reminder:7:2026-03-02")
        uow.outbox.mark_sent(first, noon, 55)
        third = uow.outbox.put(7, "reminder", {"day": 3}, key="reminder:7:2026-03-02")
        kept = uow.outbox.get(first)

    assert (second, third) == (0, 0)
    assert kept is not None
    assert (kept.fields, kept.state, kept.message_id) == ({"day": 1}, "sent", 55)


def test_a_sent_message_is_found_by_the_platforms_id_in_its_own_chat(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        row_id = uow.outbox.put(7, "question", {"member": 3})
        uow.outbox.put(8, "question", {"member": 4})
        uow.outbox.mark_sent(row_id, noon, 55)

        found = uow.outbox.sent(7, 55)

        assert found is not None
        assert (found.id, found.fields) == (row_id, {"member": 3})
        assert (uow.outbox.sent(8, 55), uow.outbox.sent(7, 56)) == (None, None)


def test_answers_come_before_bulk(engines: Engines, noon: datetime) -> None:
    lanes = ("bulk", "weekly", "reminder", "rest", "answer", "answer")
    with UnitOfWork(engines, lambda: noon) as uow:
        ids = {lane: uow.outbox.put(7, "x", {"lane": lane}, lane=lane) for lane in lanes[:5]}
        later_answer = uow.outbox.put(8, "x", {}, lane="answer")

        assert ready(uow, noon) == [ids["answer"], later_answer, ids["rest"], ids["reminder"], ids["weekly"], ids["bulk"]]


def test_a_lane_that_is_not_known_is_refused(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow, pytest.raises(ValueError, match="soon"):
        uow.outbox.put(7, "x", {}, lane="soon")


def test_a_message_waits_for_its_moment(engines: Engines, noon: datetime) -> None:
    later = noon + timedelta(seconds=90)
    with UnitOfWork(engines, lambda: noon) as uow:
        row_id = uow.outbox.put(7, "rest_over", {}, lane="rest", not_before_utc=later)

        assert ready(uow, later - timedelta(microseconds=1)) == []
        assert uow.outbox.next_ready_at(noon) == later
        assert ready(uow, later) == [row_id]
        assert uow.outbox.next_ready_at(later) is None


def test_what_is_in_hand_and_who_is_full_is_left_out(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        first, _, third = (uow.outbox.put(chat_id, "x", {}) for chat_id in (7, 8, 9))
        bulk = uow.outbox.put(9, "x", {}, lane="bulk")

        assert ready(uow, noon, held=[first], full=[8]) == [third, bulk]
        assert ready(uow, noon, held=[first], full=[8], lanes=[0]) == [third]
        assert ready(uow, noon, held=[first], full=[8], limit=1) == [third]


MOVES: dict[str, Callable[[Outbox, int, datetime], object]] = {
    "sent": lambda outbox, row_id, now: outbox.mark_sent(row_id, now, 1),
    "dropped": lambda outbox, row_id, now: outbox.mark_dropped(row_id, now, "expired"),
    "failed": lambda outbox, row_id, now: outbox.mark_failed(row_id, now, "refused"),
    "unreachable": lambda outbox, row_id, now: outbox.mark_chat_unreachable(7, now, "blocked"),
}


@pytest.mark.parametrize("end", MOVES)
@pytest.mark.parametrize("then", MOVES)
def test_a_finished_message_moves_no_more(engines: Engines, noon: datetime, end: str, then: str) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        row_id = uow.outbox.put(7, "x", {}, key="k")
        MOVES[end](uow.outbox, row_id, noon)
        MOVES[then](uow.outbox, row_id, noon)
        uow.outbox.drop("k")
        kept = uow.outbox.get(row_id)

        assert kept is not None
        assert kept.state == end
        assert ready(uow, noon) == []


def test_a_try_without_a_known_end_is_counted_and_the_message_still_waits(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        row_id = uow.outbox.put(7, "x", {})
        uow.outbox.mark_tried(row_id, "timed out")
        uow.outbox.mark_part_sent(row_id)
        kept = uow.outbox.get(row_id)

        assert kept is not None
        assert (kept.state, kept.attempts, kept.parts_sent) == ("waiting", 1, 1)


def test_an_unreachable_chat_loses_what_waits_and_keeps_what_was_sent(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        sent, elsewhere = uow.outbox.put(7, "x", {}), uow.outbox.put(8, "x", {})
        uow.outbox.mark_sent(sent, noon, 1)
        for _ in range(3):
            uow.outbox.put(7, "x", {})

        assert uow.outbox.mark_chat_unreachable(7, noon, "blocked") == 3
        assert ready(uow, noon) == [elsewhere]
        assert uow.outbox.count("sent", chat_id=7) == 1


def test_a_message_can_be_taken_back_until_it_is_sent(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        uow.outbox.put(7, "x", {}, key="a")
        uow.outbox.mark_sent(uow.outbox.put(7, "x", {}, key="b"), noon, 1)

        assert [uow.outbox.drop(key) for key in ("a", "b", "c")] == [True, False, False]


def test_erasing_a_chat_leaves_nothing_of_it(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        row_id = uow.outbox.put(7, "x", {})
        uow.outbox.mark_sent(row_id, noon, 1)
        uow.outbox.put(7, "x", {})
        uow.outbox.put(8, "x", {})

        assert uow.outbox.erase(7) == 2
        assert uow.outbox.get(row_id) is None


def test_finished_messages_are_forgotten_after_sixty_days_and_waiting_ones_never(engines: Engines, noon: datetime) -> None:
    with UnitOfWork(engines, lambda: noon) as uow:
        uow.outbox.mark_sent(uow.outbox.put(7, "x", {}), noon, 1)
        uow.outbox.put(7, "x", {})

        assert uow.outbox.forget_finished(noon + timedelta(days=60)) == 0
        assert uow.outbox.forget_finished(noon + timedelta(days=60, seconds=1)) == 1
        assert uow.outbox.count("waiting") == 1


def test_many_messages_are_written_in_few_statements(engines: Engines, noon: datetime) -> None:
    """Ids are told at once and keep the order; a key that is on record, or comes twice, makes no second message."""
    with UnitOfWork(engines, lambda: noon) as uow:
        first = uow.outbox.put(7, "x", {"n": 0}, key="there")
        uow.commit()

    told: list[OutboxRow] = []
    statements: list[str] = []
    event.listen(engines.write, "before_cursor_execute", lambda *said: statements.append(said[2]))
    with UnitOfWork(engines, lambda: noon, on_queued=told.extend) as uow:
        with uow.gathered(2):
            ids = [
                uow.outbox.put(7, "x", {"n": n}, key=key) for n, key in enumerate((None, "there", "new", "new", None), start=1)
            ]
            assert [word for word in statements if word.startswith("INSERT")] == []
        uow.commit()
    assert len([word for word in statements if word.startswith("INSERT")]) == 1

    with UnitOfWork(engines, lambda: noon, reads=True) as uow:
        rows = uow.outbox.waiting(noon, lanes=range(5), held=(), full=(), limit=9)
        assert [(row.id, row.fields["n"]) for row in rows] == [(first, 0), (ids[0], 1), (ids[2], 3), (ids[4], 5)]
        assert told == rows[1:]
