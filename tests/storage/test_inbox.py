"""What the inbox promises: once, in order, nothing lost to nonsense."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

import pytest

from storage.engine import Engines
from storage.inbox import chat_id_of
from storage.unit_of_work import UnitOfWork


def text_from(chat_id: int, update_id: int, text: str = "12, 12, 10") -> dict[str, Any]:
    return {
        "update_id": update_id,
        "message": {"message_id": update_id, "chat": {"id": chat_id, "type": "private"}, "text": text},
    }


def store(engines: Engines, now: datetime, *updates: Any) -> int:
    with UnitOfWork(engines, lambda: now) as uow:
        new = len(uow.inbox.store(updates))
        uow.commit()
        return new


def waiting_ids(engines: Engines, now: datetime) -> list[int | None]:
    with UnitOfWork(engines, lambda: now, reads=True) as uow:
        return [row.update_id for row in uow.inbox.waiting(limit=100)]


def test_a_second_delivery_of_the_same_update_changes_nothing(engines: Engines, noon: datetime) -> None:
    first = store(engines, noon, text_from(7, 100), text_from(8, 101))
    second = store(engines, noon, text_from(7, 100, "changed"), text_from(7, 102))

    with UnitOfWork(engines, lambda: noon, reads=True) as uow:
        rows = uow.inbox.waiting(limit=100)
    assert (first, second) == (2, 1)
    assert [(row.update_id, row.body["message"]["text"]) for row in rows] == [
        (100, "12, 12, 10"),
        (101, "12, 12, 10"),
        (102, "12, 12, 10"),
    ]


def test_a_handled_update_that_comes_again_stays_handled(engines: Engines, noon: datetime) -> None:
    store(engines, noon, text_from(7, 100))
    with UnitOfWork(engines, lambda: noon) as uow:
        uow.inbox.done(uow.inbox.waiting(limit=1)[0].id, noon)
        uow.commit()

    assert store(engines, noon, text_from(7, 100)) == 0
    assert waiting_ids(engines, noon) == []


def test_order_is_order_of_arrival_and_not_of_ids(engines: Engines, noon: datetime) -> None:
    """After a week without updates the platform starts at a random id (Bot API manual, type Update)."""
    store(engines, noon, text_from(7, 900_000))
    store(engines, noon, text_from(7, 17))

    assert waiting_ids(engines, noon) == [900_000, 17]


def test_take_refuses_while_an_older_update_of_the_chat_waits(engines: Engines, noon: datetime) -> None:
    store(engines, noon, text_from(7, 100), text_from(7, 101), text_from(8, 102))
    with UnitOfWork(engines, lambda: noon) as uow:
        first, second, elsewhere = (row.id for row in uow.inbox.waiting(limit=9))
        before = [uow.inbox.take(row_id) for row_id in (second, elsewhere, first)]
        uow.inbox.done(first, noon)
        after = [uow.inbox.take(row_id) for row_id in (first, second)]

    assert before == [False, True, True]
    assert after == [False, True]


@pytest.mark.parametrize(
    "nonsense",
    [
        pytest.param("text", id="no object"),
        pytest.param(None, id="null"),
        pytest.param({}, id="no id"),
        pytest.param({"update_id": "soon"}, id="id in words"),
        pytest.param({"update_id": True}, id="id that is a yes"),
        pytest.param({"update_id": 2**70}, id="id wider than any database's"),
        pytest.param({"unreadable": "<html>"}, id="a page instead of an update"),
    ],
)
def test_an_update_that_makes_no_sense_is_parked(engines: Engines, noon: datetime, nonsense: Any) -> None:
    store(engines, noon, nonsense, text_from(7, 100))

    with UnitOfWork(engines, lambda: noon, reads=True) as uow:
        assert uow.inbox.count("parked") == 1
    assert waiting_ids(engines, noon) == [100]


def test_half_a_character_is_kept(engines: Engines, noon: datetime) -> None:
    """A lone surrogate has no UTF-8 form; stored as it is, it would make its whole batch unstorable, again and again."""
    store(engines, noon, text_from(7, 100, "12 \ud83d"))

    with UnitOfWork(engines, lambda: noon, reads=True) as uow:
        assert uow.inbox.waiting(limit=1)[0].body["message"]["text"] == "12 \ud83d"


def test_a_parked_update_may_be_tried_again_and_a_done_one_not(engines: Engines, noon: datetime) -> None:
    store(engines, noon, text_from(7, 100), text_from(7, 101))
    with UnitOfWork(engines, lambda: noon) as uow:
        first, second = (row.id for row in uow.inbox.waiting(limit=2))
        uow.inbox.park(first, noon, "the deed failed")
        uow.inbox.done(second, noon)
        again = [uow.inbox.unpark(row_id) for row_id in (first, second)]
        uow.commit()

    assert again == [True, False]
    assert waiting_ids(engines, noon) == [100]


@pytest.mark.parametrize("move", ["done", "park"])
def test_what_is_finished_moves_no_more(engines: Engines, noon: datetime, move: str) -> None:
    store(engines, noon, text_from(7, 100))
    with UnitOfWork(engines, lambda: noon) as uow:
        row_id = uow.inbox.waiting(limit=1)[0].id
        uow.inbox.done(row_id, noon)
        with pytest.raises(LookupError, match="does not wait"):
            uow.inbox.done(row_id, noon) if move == "done" else uow.inbox.park(row_id, noon, "late")


def test_failures_are_counted(engines: Engines, noon: datetime) -> None:
    store(engines, noon, text_from(7, 100))
    with UnitOfWork(engines, lambda: noon) as uow:
        row_id = uow.inbox.waiting(limit=1)[0].id
        counted = [uow.inbox.failed(row_id, "ValueError") for _ in range(3)]
        attempts = uow.inbox.waiting(limit=1)[0].attempts

    assert (counted, attempts) == ([1, 2, 3], 3)


def test_done_updates_are_forgotten_after_three_days_and_waiting_ones_never(engines: Engines, noon: datetime) -> None:
    store(engines, noon, text_from(7, 100), text_from(7, 101))
    with UnitOfWork(engines, lambda: noon) as uow:
        uow.inbox.done(uow.inbox.waiting(limit=1)[0].id, noon)
        early = uow.inbox.forget_done(noon + timedelta(days=3))
        late = uow.inbox.forget_done(noon + timedelta(days=3, seconds=1))
        uow.commit()

    assert (early, late) == (0, 1)
    assert waiting_ids(engines, noon) == [101]


def test_erasing_a_chat_takes_all_that_is_handled(engines: Engines, noon: datetime) -> None:
    store(engines, noon, text_from(7, 100), text_from(7, 101), text_from(8, 102))
    with UnitOfWork(engines, lambda: noon) as uow:
        for row in uow.inbox.waiting(limit=9):
            if row.update_id != 101:  # the one that asks for the erasing still waits while its deed runs
                uow.inbox.done(row.id, noon)
        assert uow.inbox.erase(7) == 1
        assert uow.inbox.count("done") == 1


@pytest.mark.parametrize(
    ("raw", "chat_id"),
    [
        pytest.param({"message": {"from": {"id": 3}, "chat": {"id": 7}}}, 7, id="message"),
        pytest.param({"edited_message": {"chat": {"id": -100123}}}, -100123, id="group"),
        pytest.param({"callback_query": {"from": {"id": 3}, "message": {"chat": {"id": 9}}}}, 9, id="press in a group"),
        pytest.param({"callback_query": {"from": {"id": 3}, "inline_message_id": "x"}}, 3, id="press without a message"),
        pytest.param({"my_chat_member": {"chat": {"id": 7}, "from": {"id": 3}}}, 7, id="blocked or unblocked"),
        pytest.param({"poll_answer": {"poll_id": "1", "user": {"id": 3}}}, 3, id="poll answer"),
        pytest.param(
            {"message": {"forward_origin": {"type": "chat", "sender_chat": {"id": 4}, "chat": {"id": 5}}, "chat": {"id": 7}}},
            7,
            id="forwarded",
        ),
        pytest.param({"message": {"reply_to_message": {"chat": {"id": 5}}, "chat": {"id": 7}}}, 7, id="reply"),
        pytest.param({"something_new": [{"chat": {"id": 7}}]}, 7, id="kind that is not known yet"),
        pytest.param({"message": {"chat": {"id": "seven"}}}, None, id="id in words"),
        pytest.param({"message": {"chat": 7}}, None, id="chat without id"),
        pytest.param({"poll": {"id": "1"}}, None, id="nobody's"),
        pytest.param("nonsense", None, id="nonsense"),
        pytest.param(None, None, id="null"),
    ],
)
def test_the_chat_is_found_by_a_tolerant_walk(raw: Any, chat_id: int | None) -> None:
    assert chat_id_of(raw) == chat_id


def test_a_thing_of_endless_depth_does_not_stop_the_walk() -> None:
    deep: Any = {}
    for _ in range(5_000):
        deep = {"a": deep, "b": [1, 2, 3]}

    assert chat_id_of({"message": deep}) is None
