"""The operator moves to a new machine: a backup taken while people train, restored into an empty place, and everybody goes on."""

from __future__ import annotations

from pathlib import Path

from pydantic import SecretStr

from bot.cli.backup import back_up
from bot.cli.program import Program
from bot.cli.restore import restore
from bot.cli.wiring import make_hooks
from bot.settings import Settings
from tests.builders.stage import Stage, staged


def test_everything_is_there_after_a_backup_a_restore_and_a_start(tmp_path: Path) -> None:
    @staged()
    async def acts(stage: Stage) -> None:
        mira = await stage.member("Mira")
        await mira.says("16x12")
        await mira.says("A2 12, 11")
        old = stage.program
        assert old.settings.database_file is not None
        back_up(old.settings.database_file, tmp_path / "copy.sqlite3")
        await mira.says("A1 16x11")  # too late for the copy
        await old.stop()

        new_place = Settings(token=SecretStr(stage.standin.token), data=tmp_path / "new", base_url=stage.standin.url)
        new_place.data.mkdir()
        assert new_place.database_file is not None
        assert restore(tmp_path / "copy.sqlite3", new_place.database_file) is None
        new = Program(new_place, stage.clock, make_hooks(), ticking=False, in_loop=True)
        lines = await new.start()
        stage.program = stage.play.program = new
        try:
            assert lines == []  # there is a coach: no new claim code
            assert stage.records(mira) == ["A1.1 16 kg x 12", "A2.1 body weight x 12", "A2.2 body weight x 11"]
            await mira.says("A1 16x11")
            assert stage.records(mira)[-1] == "A1.2 16 kg x 11"
            await stage.coach.says("/group")
            assert "Mira" in stage.coach.last.text
            reminded = len(mira.from_bot())
            await stage.play.pass_time(days=7)
            assert len(mira.from_bot()) > reminded  # what was planned before the move happens after it
        finally:
            await new.stop()

    acts()
