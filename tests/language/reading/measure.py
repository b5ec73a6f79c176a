"""Measure the corpus: python tests/language/reading/measure.py [file ...] [-v]. Prints what was not as the gold says."""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).resolve().parents[3]
sys.path.insert(0, str(ROOT))

from tests.builders.set_corpus import cases, outcome  # noqa: E402

CORPUS = Path(__file__).parent / "corpus"
GOOD = {"right", "unclear asked", "none right"}


def main(arguments: list[str]) -> None:
    names = [name for name in arguments if not name.startswith("-")]
    quiet = "-q" in arguments
    paths = [CORPUS / name for name in names] or sorted(path for path in CORPUS.glob("*.txt") if "held_out" not in path.name)
    total: Counter[str] = Counter()
    for path in paths:
        for case in cases(path):
            result = outcome(case)
            total[result.kind] += 1
            if result.kind not in GOOD and not quiet:
                print(
                    f"{path.stem[:8]}:{case.line} [{result.kind}] {case.text!r} | {case.gold}\n      got {result.got} ({result.certainty:.2f})"
                )
    print(dict(total), sum(total.values()))


if __name__ == "__main__":
    main(sys.argv[1:])
