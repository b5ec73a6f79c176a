"""Builds updates in the platform's own JSON, for tests that need one without a stand-in."""

from __future__ import annotations

import itertools
from typing import Any

_ids = itertools.count(900_001)
MONDAY_NOON = 1_767_614_400  # Monday 5 January 2026, 12:00 UTC


def a_user(user_id: int = 5_000_000_001, first_name: str = "Mira", **more: Any) -> dict[str, Any]:
    return {"id": user_id, "is_bot": False, "first_name": first_name, "language_code": "en", **more}


def a_message(
    text: str = "20 x 12", *, user_id: int = 5_000_000_001, message_id: int = 10, date: int = MONDAY_NOON, **more: Any
) -> dict[str, Any]:
    """A private message. A text that begins with a command is marked as one."""
    command = text.split()[0] if text.startswith("/") else ""
    marks = {"entities": [{"type": "bot_command", "offset": 0, "length": len(command)}]} if command else {}
    chat = {"id": user_id, "type": "private", "first_name": "Mira"}
    return {"message_id": message_id, "from": a_user(user_id), "chat": chat, "date": date, "text": text, **marks, **more}


def a_text_update(text: str = "20 x 12", *, update_id: int | None = None, **about: Any) -> dict[str, Any]:
    return {"update_id": update_id or next(_ids), "message": a_message(text, **about)}


def an_edit_update(text: str, *, message_id: int, update_id: int | None = None, **about: Any) -> dict[str, Any]:
    edited = a_message(text, message_id=message_id, edit_date=MONDAY_NOON + 60, **about)
    return {"update_id": update_id or next(_ids), "edited_message": edited}


def a_press_update(
    data: str, *, user_id: int = 5_000_000_001, message_id: int = 11, update_id: int | None = None
) -> dict[str, Any]:
    pressed = a_message("Which one?", user_id=user_id, message_id=message_id)
    query = {"id": "4400000000000001", "from": a_user(user_id), "message": pressed, "chat_instance": "-7", "data": data}
    return {"update_id": update_id or next(_ids), "callback_query": query}
