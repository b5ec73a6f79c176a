"""One more coach: `companion coach` makes the code, and whoever sends it to the bot has a group apart."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from bot.cli import main
from tests.builders.stage import Stage, staged


def test_a_second_coach_gets_a_code_while_the_companion_runs_and_a_group_apart(capsys: pytest.CaptureFixture[str]) -> None:
    @staged()
    async def acts(stage: Stage) -> None:
        await stage.member("Mira")
        code = _code(stage, capsys)

        second = stage.play.person("Tomasz")
        await second.says(code)
        assert second.last.text.startswith("Welcome, Tomasz")
        await second.says("/group")

        assert "Nobody has joined yet" in second.last.text
        await stage.coach.says("/group")
        assert "Mira" in stage.coach.last.text
        third = stage.play.person("Uma")
        await third.says(code)  # it works once
        assert third.last.text.startswith("That code is not right, or somebody has used it.")

    acts()


def test_a_member_may_become_a_coach_as_well(capsys: pytest.CaptureFixture[str]) -> None:
    @staged()
    async def acts(stage: Stage) -> None:
        mira = await stage.member("Mira")

        await mira.says(f"/claim {_code(stage, capsys)}")

        assert mira.last.text.startswith("Welcome, Mira")
        await mira.says("16x12")
        assert stage.records(mira) == ["A1.1 16 kg x 12"]

    acts()


def test_without_data_the_operator_hears_how_to_begin(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    settings = tmp_path / "companion.env"
    settings.write_text(f"COMPANION_DATA={tmp_path / 'nowhere'}\n")

    assert main(["coach", "--settings", str(settings)]) == 1

    said = capsys.readouterr().err
    assert said.startswith("There is no data yet:")
    assert said.endswith("Start the companion first; it shows the first coach's code.\n")
    assert not list((tmp_path / "nowhere").glob("*"))


def _code(stage: Stage, capsys: pytest.CaptureFixture[str]) -> str:
    data = stage.program.settings.data
    (data / "more.env").write_text(f"COMPANION_DATA={data}\n")
    capsys.readouterr()
    assert main(["coach", "--settings", str(data / "more.env")]) == 0
    found = re.search(r"[0-9a-f]{4}(?:-[0-9a-f]{4}){2}", capsys.readouterr().out)
    assert found
    return found[0]
