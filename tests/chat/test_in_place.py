"""A reply that cannot be put into words: its deed stays on record, and the person is told something true instead."""

from __future__ import annotations

from typing import Any

import pytest

from bot.chat import wording
from bot.chat.wording.in_place import in_place_of
from tests.builders.stage import Stage, staged


def test_sets_stay_on_record_although_their_line_cannot_be_said(monkeypatch: pytest.MonkeyPatch) -> None:
    @staged()
    async def acts(stage: Stage) -> None:
        mira = await stage.member("Mira")
        wording.load_wording()
        with monkeypatch.context() as broken:
            broken.setitem(wording._WORDINGS, "SetsRecorded", fails)
            await mira.says("16x12")
        assert stage.records(mira) == ["A1.1 16 kg x 12"]
        assert mira.last.text == in_place_of("SetsRecorded").text
        await mira.says("A1 16x11")
        assert stage.records(mira) == ["A1.1 16 kg x 12", "A1.2 16 kg x 11"]
        with stage.uow() as uow:
            assert (uow.outbox.count("failed"), uow.inbox.count("parked")) == (1, 0)

    acts()


def fails(reply: Any) -> str:
    raise KeyError("no such word")


@pytest.mark.parametrize("kind", ["StopAndCall", "StopAndAsk", "SeeSomeoneToday", "AreYouAllRight", "WarningSigns"])
def test_the_advice_of_an_emergency_is_given_in_any_case(kind: str) -> None:
    said = in_place_of(kind).text

    assert said.startswith("Stop training now.")
    assert "call your local emergency number" in said
