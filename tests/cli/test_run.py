"""`companion run` says in a sentence why it cannot start, and its commands start fast."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from bot.chat.outgoing import Outgoing
from bot.cli import main
from bot.cli.program import Hooks
from bot.cli.service import serve
from bot.settings import Settings
from tests.builders.pipes import fresh_engines

TOKEN = "123456789:AAtesttokentesttoken"


@pytest.fixture(autouse=True)
def no_settings_around(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    for name in list(os.environ):
        if name.startswith("COMPANION_"):
            monkeypatch.delenv(name)
    monkeypatch.chdir(tmp_path)


def hooks() -> Hooks:
    return Hooks(handle=lambda *given, **named: None, render=lambda kind, fields, row: Outgoing(text="x"))


def test_without_settings_it_lists_what_is_missing(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["run"]) == 2

    assert capsys.readouterr().err == (
        "The companion cannot start:\n  - COMPANION_TOKEN is missing; it should be the bot's token, such as 123456789:AAE...; "
        "the platform's own bot for making bots hands it out.\n"
    )


def test_a_database_that_is_none_is_said(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    (tmp_path / "companion.sqlite3").write_bytes(b"no database at all, but long enough to be read as a page " * 20)

    assert serve(Settings(token=TOKEN, data=tmp_path, base_url="http://127.0.0.1:9"), hooks()) == 1  # type: ignore[arg-type]

    assert f"The companion cannot start: {tmp_path / 'companion.sqlite3'} cannot be used" in capsys.readouterr().err


def test_a_port_that_is_taken_is_said(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]

        assert serve(Settings(token=TOKEN, data=tmp_path, base_url="http://127.0.0.1:9", port=port), hooks()) == 1  # type: ignore[arg-type]

    said = capsys.readouterr().err
    assert f"127.0.0.1:{port} cannot be opened" in said
    assert "set COMPANION_PORT to a free port" in said
    assert TOKEN not in said


def test_a_newer_database_is_said(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    engines = fresh_engines(tmp_path)
    with engines.write.begin() as connection:
        connection.exec_driver_sql("UPDATE alembic_version SET version_num = '9999'")
    engines.close()

    assert serve(Settings(token=TOKEN, data=tmp_path, base_url="http://127.0.0.1:9"), hooks()) == 1  # type: ignore[arg-type]

    assert "The companion cannot start: The database was last used by a newer version" in capsys.readouterr().err


@pytest.mark.parametrize("heavy", ["scipy", "PIL", "openpyxl", "dateparser", "telegram", "sqlalchemy", "aiohttp", "pydantic"])
def test_asking_for_help_imports_nothing_heavy(heavy: str) -> None:
    asked = f"import sys, contextlib, bot.cli\nwith contextlib.suppress(SystemExit): bot.cli.main(['--help'])\nprint('{heavy}' in sys.modules)"
    root = Path(__file__).parents[2]

    said = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True, cwd=root).stdout

    assert said.splitlines()[-1] == "False"
