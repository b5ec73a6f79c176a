"""A kept video goes out by its id, through the call that its kind needs (Bot API manual: an id is good for one type of file)."""

from __future__ import annotations

import asyncio
from dataclasses import dataclass, field
from types import SimpleNamespace
from typing import Any

import pytest

from bot.chat.messenger import Messenger
from bot.chat.wording import render
from bot.coaching import replies
from bot.coaching.ports import Sent
from bot.training.plain import to_plain


@dataclass
class Recorder:
    """Stands for the Bot library: keeps which call was made, with what."""

    calls: list[tuple[str, dict[str, Any]]] = field(default_factory=list)

    def __getattr__(self, name: str) -> Any:
        async def call(**given: Any) -> Any:
            self.calls.append((name, given))
            return SimpleNamespace(to_dict=lambda: {"message_id": 7})

        return call


KINDS = {
    "video": ("send_video", "video"),
    "animation": ("send_animation", "animation"),
    "document": ("send_document", "document"),
    "video_note": ("send_video_note", "video_note"),
}


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_of_video_is_sent_by_its_own_call(kind: str) -> None:
    bot = Recorder()
    fields = {"reply": to_plain(replies.DemoShown("B1", "Ring row", kind, "AgACAgQ"))}
    row: Any = SimpleNamespace(id=1, chat_id=5, thread_id=None, kind="DemoShown", fields=fields, parts_sent=0)

    outcome = asyncio.run(Messenger(bot, render).deliver(row))  # type: ignore[arg-type]

    name, parameter = KINDS[kind]
    assert isinstance(outcome, Sent)
    assert [(called, given[parameter]) for called, given in bot.calls] == [(name, "AgACAgQ")]
    assert ("caption" in bot.calls[0][1]) is (kind != "video_note")
