"""The stand-in runs by itself, for programs in another process."""

from __future__ import annotations

import json
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Iterator
from typing import Any

import pytest


@pytest.fixture
def alone() -> Iterator[tuple[str, str]]:
    """A stand-in in a process of its own: its URL and token."""
    process = subprocess.Popen([sys.executable, "-m", "scenarios.standin", "--port", "0"], stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    url, token = process.stdout.readline().strip(), process.stdout.readline().split()[1]
    yield url, token
    process.terminate()
    assert process.wait(10) == 0


def ask(url: str, body: Any = None) -> Any:
    data = None if body is None else json.dumps(body).encode()
    request = urllib.request.Request(url, data=data, headers={"Content-Type": "application/json"})
    try:
        with urllib.request.urlopen(request, timeout=10) as answer:
            return json.load(answer)
    except urllib.error.HTTPError as error:
        return json.load(error)


def test_a_whole_exchange_over_http(alone: tuple[str, str]) -> None:
    url, token = alone
    me = ask(f"{url}/act", {"person": "Mira", "text": "/start"})["person"]
    updates = ask(f"{url}/bot{token}/getUpdates?timeout=0")["result"]
    keyboard = {"inline_keyboard": [[{"text": "Go", "callback_data": "go"}]]}
    ask(f"{url}/bot{token}/sendMessage", {"chat_id": me, "text": "Hello", "reply_markup": keyboard})
    chat = ask(f"{url}/act", {"person": "Mira", "does": "presses", "text": "Go"})
    presses = ask(f"{url}/bot{token}/getUpdates", {"offset": updates[-1]["update_id"] + 1})["result"]

    assert [update["message"]["text"] for update in updates] == ["/start"]
    assert [(message["text"], message["buttons"]) for message in chat["messages"]] == [("/start", []), ("Hello", ["Go"])]
    assert presses[0]["callback_query"]["data"] == "go"


def test_faults_are_set_and_lifted_over_http(alone: tuple[str, str]) -> None:
    url, token = alone
    me = ask(f"{url}/act", {"person": "Mira", "does": "starts"})["person"]
    ask(f"{url}/misbehave", {"fault": "too_many", "seconds": 7, "times": None})
    refused = ask(f"{url}/bot{token}/sendMessage", {"chat_id": me, "text": "Hello"})
    ask(f"{url}/behave", {})
    taken = ask(f"{url}/bot{token}/sendMessage", {"chat_id": me, "text": "Hello"})
    calls = ask(f"{url}/calls?after=1")

    assert refused["parameters"] == {"retry_after": 7}
    assert taken["ok"]
    assert [call["status"] for call in calls] == [200]


def test_what_cannot_be_done_is_said(alone: tuple[str, str]) -> None:
    url, token = alone
    assert "no button 'Go' for Mira" in ask(f"{url}/act", {"person": "Mira", "does": "presses", "text": "Go"})["problem"]
    assert "nobody can 'sings'" in ask(f"{url}/act", {"person": "Mira", "does": "sings"})["problem"]
    assert "too_many" in ask(f"{url}/misbehave", {"fault": "mood"})["faults"]
    assert ask(f"{url}/bot{token}/fly") == {"ok": False, "error_code": 404, "description": "Not Found: method not found"}
    assert ask(f"{url}/bot1:x/getMe")["error_code"] == 401
    assert ask(f"{url}/botnothing/getMe")["error_code"] == 404
