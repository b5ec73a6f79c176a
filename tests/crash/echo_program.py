"""The whole program with the plainest deed there is: each text is answered once. Run as `python -m tests.crash.echo_program`."""

from __future__ import annotations

import sys
from datetime import datetime
from typing import Any

from telegram import Update

from bot.chat.outgoing import Outgoing
from bot.cli.program import Hooks
from bot.cli.service import serve
from bot.settings import read_settings


def handle(update: Update, raw: dict[str, Any], uow: Any, now: datetime, *, file: Any = None) -> None:
    """Queue one answer without a key: a text that were handled twice would stand twice in the table."""
    message = update.effective_message
    if message is not None and update.callback_query is None and message.text:
        uow.outbox.put(message.chat.id, "echo", {"text": message.text})


def echo_hooks() -> Hooks:
    return Hooks(handle=handle, render=lambda kind, fields, row: Outgoing(text=fields["text"]))


if __name__ == "__main__":
    sys.exit(serve(read_settings(), echo_hooks()))
