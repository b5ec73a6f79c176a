"""A backup is whole, may be taken while the companion runs, and restores; what was there is never thrown away."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from bot.cli.backup import NotBackedUp, back_up
from bot.cli.restore import NotRestored, restore
from storage.unit_of_work import UnitOfWork
from tests.builders.pipes import NOON, fresh_engines


def kinds(path: Path) -> list[str]:
    with sqlite3.connect(path) as connection:
        return [kind for (kind,) in connection.execute("SELECT kind FROM outbox ORDER BY id")]


def filled(folder: Path, *said: str) -> Path:
    engines = fresh_engines(folder)
    with UnitOfWork(engines, lambda: NOON) as uow:
        for kind in said:
            uow.outbox.put(7, kind, {})
        uow.commit()
    engines.close()
    return folder / "companion.sqlite3"


def test_a_backup_taken_in_the_middle_of_writing_holds_what_was_committed(tmp_path: Path) -> None:
    engines = fresh_engines(tmp_path)
    with UnitOfWork(engines, lambda: NOON) as uow:
        uow.outbox.put(7, "committed", {})
        uow.commit()
    with UnitOfWork(engines, lambda: NOON) as uow:
        uow.outbox.put(7, "not committed", {})
        size = back_up(tmp_path / "companion.sqlite3", tmp_path / "copy.sqlite3")
    engines.close()

    assert size == (tmp_path / "copy.sqlite3").stat().st_size > 0
    assert kinds(tmp_path / "copy.sqlite3") == ["committed"]
    assert sorted(path.name for path in tmp_path.glob("copy*")) == ["copy.sqlite3"]


def test_a_restore_brings_back_the_copy_and_keeps_what_was_there(tmp_path: Path) -> None:
    data = filled(tmp_path, "old")
    back_up(data, tmp_path / "copy.sqlite3")
    filled(tmp_path, "newer")

    aside = restore(tmp_path / "copy.sqlite3", data)

    assert kinds(data) == ["old"]
    assert aside == tmp_path / "companion.before-restore-1.sqlite3"
    assert kinds(aside) == ["old", "newer"]


def test_a_restore_while_the_companion_runs_is_refused(tmp_path: Path) -> None:
    back_up(filled(tmp_path, "old"), tmp_path / "copy.sqlite3")
    engines = fresh_engines(tmp_path)
    with UnitOfWork(engines, lambda: NOON) as uow:
        uow.outbox.put(7, "newer", {})
        uow.commit()

    with pytest.raises(NotRestored, match=r"The data is in use: stop the companion first, then restore."):
        restore(tmp_path / "copy.sqlite3", tmp_path / "companion.sqlite3")

    engines.close()
    assert kinds(tmp_path / "companion.sqlite3") == ["old", "newer"]


def test_a_restore_into_an_empty_folder_needs_nothing_to_keep(tmp_path: Path) -> None:
    back_up(filled(tmp_path, "old"), tmp_path / "copy.sqlite3")
    (tmp_path / "new").mkdir()

    assert restore(tmp_path / "copy.sqlite3", tmp_path / "new" / "companion.sqlite3") is None
    assert kinds(tmp_path / "new" / "companion.sqlite3") == ["old"]


@pytest.mark.parametrize("content", [b"", b"no database at all", b"SQLite format 3\x00" + b"\x00" * 100])
def test_what_is_no_backup_is_refused_and_changes_nothing(tmp_path: Path, content: bytes) -> None:
    data = filled(tmp_path, "old")
    (tmp_path / "wrong").write_bytes(content)

    with pytest.raises(NotRestored, match=r"is not a (whole )?backup of the companion"):
        restore(tmp_path / "wrong", data)

    assert kinds(data) == ["old"]


def test_a_backup_never_overwrites_and_says_when_there_is_nothing(tmp_path: Path) -> None:
    data = filled(tmp_path, "old")
    (tmp_path / "there").write_text("mine")

    with pytest.raises(NotBackedUp, match="is there already; name a file that is not"):
        back_up(data, tmp_path / "there")
    with pytest.raises(NotBackedUp, match="There is no data yet"):
        back_up(tmp_path / "nothing.sqlite3", tmp_path / "copy")
    with pytest.raises(NotBackedUp, match="could not be written"):
        back_up(data, tmp_path / "no folder" / "copy")
