"""The count of the crash check, held against tables in which something is wrong."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tests.crash.crash_companion import Found, judge

SENT = {(7, 1): "A1 16x8", (7, 2): "A1 16x9", (7, 3): "A2 12"}
MESSAGES = [(10, 7, 1), (11, 7, 2), (12, 7, 3)]
SETS = [(1, "A1", 1, 10, 8), (1, "A1", 2, 11, 9), (1, "A2", 1, 12, 12)]


def tables(folder: Path, messages: list[tuple[int, int, int]], sets: list[tuple[int, str, int, int, int]]) -> Path:
    """messages: (id, chat, platform message). sets: (session, label, number, message id, count)."""
    with closing(sqlite3.connect(folder / "companion.sqlite3")) as connection:
        connection.execute("CREATE TABLE message (id, chat_id, message_id)")
        connection.execute("CREATE TABLE set_record (session_id, label, number, message_id, value, active)")
        connection.executemany("INSERT INTO message VALUES (?, ?, ?)", messages)
        rows = [(*row[:4], json.dumps({"record": {"done": {"count": row[4]}}})) for row in sets]
        connection.executemany("INSERT INTO set_record VALUES (?, ?, ?, ?, ?, 1)", rows)
        connection.commit()
    return folder


@pytest.mark.parametrize(
    ("messages", "sets", "found"),
    [
        pytest.param(MESSAGES, SETS, Found(), id="all is well"),
        pytest.param(MESSAGES[1:], SETS[1:], Found(lost_messages=["A1 16x8"], lost_sets=["A1 16x8"]), id="a message is lost"),
        pytest.param([*MESSAGES, (13, 7, 3)], SETS, Found(doubled_messages=["A2 12"]), id="a message stands twice"),
        pytest.param(
            MESSAGES,
            [SETS[0], (1, "A1", 2, 10, 8), SETS[2]],
            Found(lost_sets=["A1 16x9"], doubled_sets=["A1 16x8"], wrong_sets=["A1 16x8: ('A1', 2, 8)"]),
            id="a doubled set does not make up for a lost one",
        ),
        pytest.param(
            MESSAGES,
            [*SETS[:2], (1, "A2", 1, 12, 21)],
            Found(wrong_sets=["A2 12: ('A2', 1, 21)"]),
            id="a count is not what was said",
        ),
        pytest.param(
            [*MESSAGES, (14, 7, 9)],
            [*SETS, (1, "B1", 1, 14, 5)],
            Found(wrong_sets=["('B1', 1, 5) of no text"]),
            id="a set that nobody told",
        ),
    ],
)
def test_the_count_sees_each_fault(
    tmp_path: Path, messages: list[tuple[int, int, int]], sets: list[tuple[int, str, int, int, int]], found: Found
) -> None:
    assert judge(tables(tmp_path, messages, sets), SENT) == found
