"""Learn what each sample of a question counts for each topic (bot/language/questions/samples.py). python -m tests.builders.learn_questions [--write]

A ridge regression over the samples. Prints how many samples find their topic when each is left out in turn, and with --write renews
weights.txt.
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from bot.language.questions.samples import ALONE, MEANINGS, PARTS, WEIGHTS, Samples, samples

FILE = Path(__file__).resolve().parents[2] / "bot" / "language" / "questions" / WEIGHTS
SMOOTH = 0.1  # how far single samples are smoothed over; by leaving out each in turn

Table = NDArray[np.float64]


def learnt() -> NDArray[np.int64]:
    """Samples by topics, as weights.txt holds them."""
    weights, _ = _solved(samples())
    return np.rint(weights * PARTS).astype(np.int64)


def kept() -> NDArray[np.int64]:
    """What weights.txt holds now."""
    lines = FILE.read_text(encoding="utf-8").splitlines()
    return np.array([line.split() for line in lines if not line.startswith("#")], dtype=np.int64)


def left_out() -> float:
    """The share of samples that find their topic by the others alone.

    Source: the left-out residual of a ridge regression is its weight over the inverse's diagonal (Allen 1974).
    """
    known = samples()
    weights, diagonal = _solved(known)
    wanted = _wanted(known)
    scores = wanted - weights / diagonal[:, None]
    return float((scores.argmax(axis=1) == wanted.argmax(axis=1)).mean())


def _solved(known: Samples) -> tuple[Table, NDArray[np.float64]]:
    """The weights, and the diagonal of the inverted table of likenesses."""
    number = len(known.wanted)
    table = ALONE + MEANINGS * (known.about @ known.about.T).astype(float)
    for numbers, weights in known.index.values():
        table[np.ix_(numbers, numbers)] += (1 - MEANINGS) * np.outer(weights, weights)
    inverse = np.linalg.inv(table**2 + SMOOTH * np.eye(number))
    return inverse @ (_wanted(known) - known.shares), inverse.diagonal()


def _wanted(known: Samples) -> Table:
    return np.array([[topic == each for each in known.topics] for topic in known.wanted], dtype=float)


def main() -> None:
    print(f"{left_out():.1%} of {len(samples().wanted)} samples find their topic when left out")
    if "--write" in sys.argv:
        head = f"# A line for each sample, in thousandths: {' '.join(samples().topics)}. Made by tests/builders/learn_questions.py.\n"
        FILE.write_text(head + "".join(" ".join(map(str, row)) + "\n" for row in learnt()), encoding="utf-8")


if __name__ == "__main__":
    main()
