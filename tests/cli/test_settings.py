"""Settings: all that is missing or wrong is said at once, each with what it should look like."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.settings import SettingsProblems, read_settings

TOKEN = "123456789:AAtesttokentesttoken"


@pytest.fixture(autouse=True)
def no_settings_around(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    import os

    for name in list(os.environ):
        if name.startswith("COMPANION_"):
            monkeypatch.delenv(name)
    monkeypatch.setenv("COMPANION_DATA", str(tmp_path / "data"))


def problems(file: Path | None = None) -> list[str]:
    with pytest.raises(SettingsProblems) as caught:
        read_settings(file)
    return caught.value.problems


def test_without_any_settings_the_token_is_asked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    assert problems() == [
        "COMPANION_TOKEN is missing; it should be the bot's token, such as 123456789:AAE...; the platform's own bot for making bots hands it out."
    ]


def test_all_that_is_wrong_is_listed_and_the_token_is_never_shown(monkeypatch: pytest.MonkeyPatch) -> None:
    for name, value in {
        "TOKEN": "my secret",
        "MODE": "webhook",
        "PUBLIC_URL": "http://here",
        "BASE_URL": "nowhere",
        "LOG_LEVEL": "loud",
    }.items():
        monkeypatch.setenv(f"COMPANION_{name}", value)

    found = problems()

    assert [problem.split(" ")[0] for problem in found] == [
        "COMPANION_TOKEN", "COMPANION_BASE_URL", "COMPANION_LOG_LEVEL", "COMPANION_PUBLIC_URL", "COMPANION_SECRET", "COMPANION_PORT",
    ]  # fmt: skip
    assert "my secret" not in "".join(found)


@pytest.mark.parametrize(("name", "value"), [("MODE", "pigeon"), ("PORT", "eighty")])
def test_a_value_of_the_wrong_kind_is_named(monkeypatch: pytest.MonkeyPatch, name: str, value: str) -> None:
    monkeypatch.setenv("COMPANION_TOKEN", TOKEN)
    monkeypatch.setenv(f"COMPANION_{name}", value)

    assert problems()[0].startswith(f"COMPANION_{name} is not right; it should be ")


def test_a_folder_that_cannot_be_used_is_named(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    monkeypatch.setenv("COMPANION_TOKEN", TOKEN)
    monkeypatch.setenv("COMPANION_DATA", str(tmp_path / "file"))

    assert problems() == [f"COMPANION_DATA: {tmp_path / 'file'} is a file; it should be a folder that this program may write to."]


def test_a_settings_file_is_read_and_the_environment_wins(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    file = tmp_path / "mine.env"
    file.write_text(f"COMPANION_TOKEN={TOKEN}\nCOMPANION_PORT=8080\nCOMPANION_UNKNOWN=x\n")
    monkeypatch.setenv("COMPANION_PORT", "9090")

    settings = read_settings(file)

    assert (settings.token.get_secret_value(), settings.port) == (TOKEN, 9090)


def test_the_file_in_the_data_folder_is_found_by_itself(tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / "companion.env").write_text(f"COMPANION_TOKEN={TOKEN}\n")

    settings = read_settings()

    assert settings.database == f"sqlite:///{tmp_path / 'data' / 'companion.sqlite3'}"
    assert TOKEN not in repr(settings)


def test_a_settings_file_that_is_not_there_is_named(tmp_path: Path) -> None:
    assert problems(tmp_path / "none.env") == [f"There is no settings file {tmp_path / 'none.env'}."]
