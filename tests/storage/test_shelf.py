"""Values are kept whole, and found by their keys."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import event

from bot.cli.wiring import CompanionUnitOfWork
from bot.training import people
from bot.training.blocks import SetPlace
from bot.training.loads import weight
from bot.training.records import SetDone, SetRecord
from storage.engine import Engines, open_engines, sqlite_url
from storage.migrations import migrate
from storage.shelves import Shelves
from storage.unit_of_work import UnitOfWork

NOW = datetime(2026, 3, 4, 18, 30, tzinfo=UTC)


@pytest.fixture
def shelves(tmp_path: Path) -> Iterator[Shelves]:
    engines = open_engines(sqlite_url(tmp_path / "shelf.sqlite3"))
    migrate(engines.write)
    with UnitOfWork(engines, lambda: NOW) as uow:
        yield Shelves(uow.session)
    engines.close()


def _member(shelves: Shelves) -> people.Member:
    group = shelves.groups.add(people.Group(coach_chat_id=1, coach_name="Ines"))
    return shelves.members.add(people.Member(group_id=group.id, chat_id=2, name="Mira", joined_at=NOW))


def _record(shelves: Shelves, member: people.Member, on: date) -> people.KeptRecord:
    session = shelves.sessions.add(
        people.Session(member_id=member.id, on=on, day=1, revision_id=people.RevisionId(1), started_at=NOW)
    )
    done = SetRecord(SetDone(count=12, load=weight("17.5")), SetPlace("A1", 1), on)
    return shelves.records.add(
        people.KeptRecord(
            member_id=member.id, session_id=session.id, message_id=1, on=on, day=1, label="A1", number=1, exercise="goblet_squat",
            record=done, said_at=NOW,
        )
    )  # fmt: skip


def test_a_value_comes_back_whole_with_its_id(shelves: Shelves) -> None:
    member = _member(shelves)
    kept = _record(shelves, member, date(2026, 3, 4))

    assert kept.id > 0
    assert shelves.records.get(kept.id) == kept


def test_saving_moves_the_keys_along_with_the_value(shelves: Shelves) -> None:
    kept = _record(shelves, _member(shelves), date(2026, 3, 4))

    shelves.records.save(replace(kept, active=False))

    assert shelves.records.find(active=True) == []
    assert [row.active for row in shelves.records.find(active=False)] == [False]


def test_dates_are_found_between_both_ends(shelves: Shelves) -> None:
    member = _member(shelves)
    days = [date(2026, 3, day) for day in (1, 2, 3, 4)]
    for day in days:
        _record(shelves, member, day)

    found = shelves.records.find(member_id=member.id, on=(days[1], days[2]))

    assert [row.on for row in found] == days[1:3]


def test_the_newest_is_the_one_stored_last(shelves: Shelves) -> None:
    member = _member(shelves)
    _record(shelves, member, date(2026, 3, 4))
    last = _record(shelves, member, date(2026, 3, 1))

    assert shelves.records.newest(member_id=member.id) == last


def test_saving_what_was_never_stored_is_refused(shelves: Shelves) -> None:
    with pytest.raises(LookupError):
        shelves.groups.save(people.Group(coach_chat_id=1, coach_name="Ines", id=people.GroupId(99)))


def test_nothing_is_erased_without_saying_what(shelves: Shelves) -> None:
    with pytest.raises(ValueError):
        shelves.members.remove()


def test_what_is_remembered_gives_way_to_what_is_stored(shelves: Shelves) -> None:
    member = _member(shelves)
    assert (shelves.records.newest(member_id=member.id), shelves.records.find(member_id=member.id)) == (None, [])

    kept = _record(shelves, member, date(2026, 3, 4))
    assert (shelves.records.newest(member_id=member.id), shelves.records.find(member_id=member.id)) == (kept, [kept])

    shelves.records.remove(member_id=member.id)
    assert (shelves.records.newest(member_id=member.id), shelves.records.find(member_id=member.id)) == (None, [])


def test_what_an_undone_part_of_a_transaction_saw_is_not_remembered(engines: Engines) -> None:
    with CompanionUnitOfWork(engines, lambda: NOW) as opened:
        uow: Any = opened
        with pytest.raises(RuntimeError), uow.savepoint():
            claim = uow.claims.add(people.Claim("abc", NOW))
            assert (uow.claims.newest(code="abc"), uow.claims.find(code="abc")) == (claim, [claim])
            raise RuntimeError

        assert (uow.claims.newest(code="abc"), uow.claims.find(code="abc")) == (None, [])


def test_what_is_foreseen_is_what_would_be_found(shelves: Shelves) -> None:
    """One question for many answers each of theirs, also for those who have nothing, until something is written."""
    first = _member(shelves)
    second = shelves.members.add(replace(first, id=0, chat_id=3))
    kept = [_record(shelves, member, date(2026, 3, day)) for member in (first, second) for day in (4, 5)]
    shelves.records.save(replace(kept[0], active=False))
    asked: list[str] = []
    event.listen(shelves.records._session.connection(), "before_cursor_execute", lambda *told: asked.append(told[2]))

    shelves.records.foresee("member_id", {first.id, second.id, 99}, active=True)
    shelves.members.foresee("id", [first.id, 99])
    found = {who: shelves.records.find(active=True, member_id=who) for who in (first.id, second.id, 99)}
    newest = [shelves.records.newest(member_id=who, active=True) for who in (first.id, second.id, 99)]
    members = [shelves.members.get(first.id), shelves.members.get(99)]

    assert found == {first.id: kept[1:2], second.id: kept[2:], 99: []}
    assert newest == [kept[1], kept[3], None]
    assert members == [first, None]
    assert len(asked) == 2
    shelves.records.save(replace(kept[1], active=False))
    assert shelves.records.find(member_id=first.id, active=True) == []


def test_a_write_is_seen_by_every_question_that_it_concerns(shelves: Shelves) -> None:
    """What was found before is remembered, so each way of asking is asked before and after each way of writing."""
    member = _member(shelves)
    day = date(2026, 3, 4)
    first = _record(shelves, member, day)
    questions: list[dict[str, Any]] = [
        {"id": first.id}, {"member_id": member.id}, {"member_id": 99}, {"active": True}, {"active": False}, {"on": (day, day)},
        {"on": (date(2026, 3, 5), date.max)}, {"label": ["A1", "B1"]}, {"label": ["C1"]}, {"replaces": None}, {"replaces": first.id},
        {"member_id": member.id, "on": (date.min, day), "active": True}, {},
    ]  # fmt: skip

    def answers(asked: Any) -> list[Any]:
        return [(asked.find(**keys), asked.newest(**keys)) for keys in questions]

    def fresh() -> list[Any]:
        return answers(Shelves(shelves.members._session).records)

    assert answers(shelves.records) == fresh()
    later = shelves.records.add(replace(first, id=0, on=date(2026, 3, 6), label="C1", replaces=first.id))
    assert answers(shelves.records) == fresh()
    for change in ({"active": False}, {"label": "B1"}, {"on": date(2026, 3, 7)}, {"replaces": None}, {"member_id": member.id}):
        for kept in (first, later):
            shelves.records.save(replace(shelves.records.get(kept.id), **change))  # type: ignore[type-var,arg-type]
            assert answers(shelves.records) == fresh(), (change, kept.id)
    shelves.records.remove(id=later.id)
    assert answers(shelves.records) == fresh()
