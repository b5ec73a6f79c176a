"""Files of kinds that are not read: the coach hears which are, and how to get there."""

from __future__ import annotations

import pytest

from bot.language.blocks import read_block
from bot.training.exercises.catalogue import load_catalogue

CATALOGUE = load_catalogue()
READ = "I read a message, a .txt, a .csv and an .xlsx."


@pytest.mark.parametrize(
    ("filename", "content", "sentence"),
    [
        ("block.xls", b"\x09\x08\x10\x00\x00\x06\x05\x00" + b"Goblet squat 3x8" * 9, f"The file is a spreadsheet of an old kind; save it as .xlsx: {READ}"),
        ("block.xls", b"some words, but no plan", f".xls is a kind of file that I cannot read; save it as .xlsx and send that: {READ}"),
        ("Block.NUMBERS", b"\x01\x02 bplist", f".numbers is a kind of file that I cannot read; save it as .xlsx and send that: {READ}"),
    ],
    ids=["old stream", "words", "another program"],
)  # fmt: skip
def test_a_kind_that_is_not_read_names_those_that_are(filename: str, content: bytes, sentence: str) -> None:
    reading = read_block(content, filename=filename, catalogue=CATALOGUE)

    assert reading.block is None
    assert [problem.sentence for problem in reading.problems] == [sentence]


def test_plain_text_under_an_old_name_is_read() -> None:
    reading = read_block(b"Day 1\nA1 Goblet squat 3x10\nA2 Push-up 3x8\n", filename="block.xls", catalogue=CATALOGUE)

    assert reading.block is not None
