"""How many slots of the blocks in scenarios/blocks are read as their gold says? `python tests/language/blocks/measure_blocks.py [--aside]`"""

from __future__ import annotations

import difflib
import sys

from bot.language.blocks import read_block
from bot.training.exercises.catalogue import load_catalogue
from scenarios.blocks.gold import ASIDE, HERE, sent_blocks, tell


def main(aside: bool, loud: bool) -> None:
    catalogue = load_catalogue()
    right = total = 0
    for sent in sent_blocks(ASIDE if aside else HERE):
        reading = read_block(sent.content, filename=sent.filename, catalogue=catalogue)
        told = tell(reading.block, sent.gold) if reading.block else []
        same = sum(line in told for line in sent.gold)
        right, total = right + same, total + len(sent.gold)
        print(f"{sent.name}: {same} of {len(sent.gold)} lines, {'read' if reading.block else 'refused'}")
        if loud:
            print("\n".join(f"    {line}" for line in difflib.unified_diff(sent.gold, told, n=0, lineterm="")))
            print("\n".join(f"    ! {problem.sentence}" for problem in reading.problems))
            print("\n".join(f"    ? {name.name}" for name in reading.unknown))
    print(f"{right} of {total} lines ({100 * right / total:.0f}%)")


if __name__ == "__main__":
    main("--aside" in sys.argv, "--quiet" not in sys.argv)
