"""Blocks in the styles of different coaches are read as their gold, written by hand, says; and come back from our own layout."""

from __future__ import annotations

import pytest

from bot.language.blocks import read_block, write_text, write_xlsx
from bot.training.exercises.catalogue import load_catalogue
from scenarios.blocks.gold import HERE, Broken, Sent, broken_blocks, sent_blocks, tell

CATALOGUE = load_catalogue()
SENT = list(sent_blocks())
BROKEN = list(broken_blocks(HERE / "broken.txt"))


def test_there_are_six_styles_and_eight_broken_blocks() -> None:
    assert len(SENT) >= 6
    assert len(BROKEN) >= 8


@pytest.mark.parametrize("sent", SENT, ids=lambda sent: sent.name)
def test_a_block_means_what_its_coach_wrote(sent: Sent) -> None:
    reading = read_block(sent.content, filename=sent.filename, catalogue=CATALOGUE)

    assert reading.block is not None, [problem.sentence for problem in reading.problems]
    assert tell(reading.block, sent.gold) == list(sent.gold)


@pytest.mark.parametrize("sent", SENT, ids=lambda sent: sent.name)
def test_a_coachs_block_written_back_in_our_layout_is_the_same_block(sent: Sent) -> None:
    block = read_block(sent.content, filename=sent.filename, catalogue=CATALOGUE).block
    assert block is not None

    for written in (write_text(block), write_xlsx(block)):
        assert read_block(written, filename="block.xlsx", catalogue=CATALOGUE).block == block


@pytest.mark.parametrize("broken", BROKEN, ids=lambda broken: broken.name)
def test_a_broken_block_gets_the_sentences_that_mend_it_and_nothing_is_kept(broken: Broken) -> None:
    reading = read_block(broken.content, filename=broken.filename, catalogue=CATALOGUE)

    assert reading.block is None
    assert [problem.sentence for problem in reading.errors] == list(broken.sentences)
