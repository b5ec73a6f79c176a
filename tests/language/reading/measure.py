"""Measure the reading: python tests/language/reading/measure.py [corpus file ...] [-q]. Prints what was not as the gold says.

Without files it goes over the corpus and the voices, and ends with a table: how certain the readings were against how many were right.
With `spoken 7` it goes over messages spoken from the seed 7: another seed, other messages.
"""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).resolve().parents[3]
sys.path.insert(0, str(ROOT))

from tests.builders import set_corpus, voices  # noqa: E402
from tests.builders.reliability import reliability  # noqa: E402
from tests.builders.spoken import FAMILIES, spoken  # noqa: E402

CORPUS = Path(__file__).parent / "corpus"
VOICES = Path(__file__).parent / "voices"
SPOKEN_EACH = 200
GOOD = {"right", "unclear asked", "none right"}
RECORDED = {"right", "wrong", "unclear wrong", "none wrong"}
Record = tuple[float, bool]  # how certain, and whether it is right


def main(arguments: list[str]) -> None:
    names = [name for name in arguments if not name.startswith("-")]
    quiet = "-q" in arguments
    if names[:1] == ["spoken"]:
        spoken_records(int(names[1]) if len(names) > 1 else 1, quiet=quiet)
        return
    if names:
        corpus_records([CORPUS / name for name in names], quiet=quiet)
        return
    tuned = sorted(path for path in CORPUS.glob("*.txt") if "held_out" not in path.name)
    records = corpus_records(tuned, quiet=quiet) + voices_records(quiet=quiet)
    print("certainty of what was recorded, corpus and voices:")
    for band in reliability(records):
        print(f"  {band}")


def corpus_records(paths: list[Path], *, quiet: bool) -> list[Record]:
    records: list[Record] = []
    total: Counter[str] = Counter()
    for path in paths:
        for case in set_corpus.cases(path):
            result = set_corpus.outcome(case)
            total[result.kind] += 1
            if result.kind in RECORDED:
                records.append((result.certainty, result.kind == "right"))
            if result.kind not in GOOD and not quiet:
                print(
                    f"{path.stem[:8]}:{case.line} [{result.kind}] {case.text!r} | {case.gold}\n      got {result.got} ({result.certainty:.2f})"
                )
    print(dict(total), total.total())
    return records


def voices_records(*, quiet: bool) -> list[Record]:
    return outcome_records({path.stem: voices.outcomes(path) for path in sorted(VOICES.glob("*.txt"))}, quiet=quiet)


def spoken_records(seed: int, *, quiet: bool) -> list[Record]:
    families = {family: spoken(family, seed=seed, number=SPOKEN_EACH) for family in FAMILIES}
    return outcome_records({family: tuple(map(voices.outcome, said)) for family, said in families.items()}, quiet=quiet)


def outcome_records(found: dict[str, tuple[voices.Outcome, ...]], *, quiet: bool) -> list[Record]:
    """Print what was not as the gold says, and a line for each name with the share of clear messages recorded exactly."""
    records: list[Record] = []
    total: Counter[str] = Counter()
    for name, outcomes in found.items():
        marks: Counter[str] = Counter()
        for result in outcomes:
            mark = result.message.mark
            marks[f"{mark} {result.kind}"] += 1
            if result.recorded:
                records.append((result.certainty, result.kind == "right"))
            if not quiet and (result.kind in ("wrong", "missed") or (mark is voices.Mark.CLEAR and result.kind != "right")):
                print(f"{name}:{result}")
        clear = sum(count for kind, count in marks.items() if kind.startswith(voices.Mark.CLEAR))
        print(f"{name}: {marks['clear right']} of {clear} clear ones, {100 * marks['clear right'] / clear:.1f} %")
        total += marks
    print(dict(total), total.total())
    return records


if __name__ == "__main__":
    main(sys.argv[1:])
