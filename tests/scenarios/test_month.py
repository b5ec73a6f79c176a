"""The demo's first two weeks, played over HTTP through the whole program: what is on record, and what each chat received."""

from __future__ import annotations

import asyncio
from datetime import date
from typing import Any

from scenarios.lives.month import BEFORE, START, Month
from scenarios.player import opened
from tests.builders.bot_api_check import problems_of


def test_two_weeks_of_the_group_are_on_record_and_in_the_chats() -> None:
    asyncio.run(_two_weeks())


async def _two_weeks() -> None:
    async with opened(BEFORE) as play:
        month = Month(play, weeks=2)
        await month.run()
        _check_records(play.program, month)
        _check_chats(month)
        assert problems_of(play.standin.calls) == []


def _check_records(program: Any, month: Month) -> None:
    with program.open_uow(reads=True) as uow:
        members = {member.name: member for member in uow.members.find()}
        assert set(members) == {"Mira", "Jonas", "Priya", "Dale", "Noor", "Teo"}
        assert uow.inbox.count("parked") == 0
        for member in members.values():
            rows = uow.records.find(member_id=member.id, active=True)
            places = [(row.session_id, row.label, row.number) for row in rows if row.number]
            assert len(places) == len(set(places)), f"{member.name}: a set stands twice"
            assert len(rows) > 60, f"{member.name}: only {len(rows)} sets in two weeks"
        jonas = uow.records.find(member_id=members["Jonas"].id, on=(START, START), label="A2", active=True)
        assert [row.record.done.count for row in jonas][-1] == 9, "the corrected set"
        assert {
            row.record.done.load.unit.value
            for row in uow.records.find(member_id=members["Dale"].id)
            if row.record.done.load and row.record.done.load.unit
        } == {"lb"}
        noor = uow.pains.find(member_id=members["Noor"].id)
        assert [(pain.part, pain.severity, pain.label, pain.open) for pain in noor] == [("knee", 4, "A1", True)]
        assert all(
            row.record.painful
            for row in uow.records.find(member_id=members["Noor"].id, on=(date(2026, 3, 9), date(2026, 3, 9)), label="A1")
        )
        assert {swap.reason for swap in uow.swaps.find(member_id=members["Priya"].id, active=True)} == {"missing_kit"}
        assert uow.advice.count(member_id=members["Mira"].id) > 20


def _check_chats(month: Month) -> None:
    coach = [message.text for message in month.coach.from_bot()]
    assert any(text.startswith("Not published: 1 problem to mend first.\n– Line 10, slot A1: tempo") for text in coach)
    assert any("Noor reports pain: knee, 4 of 10" in text for text in coach)
    assert sum("week of" in text for text in coach) == 2
    for life in month.lives:
        texts = [message.text for message in life.person.from_bot()]
        assert any(text.startswith("Week 1 of 4: ") for text in texts), life.role.name
        assert any(text.startswith("Today: day 1") for text in texts), life.role.name
    priya = [message.text for message in month.lives[2].person.from_bot()]
    assert any("tempo 3-1-1-0: lower 3 s" in text for text in priya)
