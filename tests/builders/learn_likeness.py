"""Learn what emergencies, pain and the rest read like (bot/language/safety/likeness.py). python -m tests.builders.learn_likeness [--write]

Texts: every corpus of the tests that says what a text is, and a share of those of sets, questions, swaps and dates, where nobody is
unwell but in passing. Prints how it does on texts of authors (files) that it has not learned from, and with --write renews likeness.npz.
"""

from __future__ import annotations

import re
import sys
from collections import Counter
from pathlib import Path
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import inv
from scipy.sparse import csr_matrix

from bot.language.meaning import meaning
from bot.language.safety.likeness import ALONE, KINDS, PAIR_WEIGHT, features
from bot.language.safety.vocabulary import mended_line

ROOT = Path(__file__).resolve().parents[2]
LANGUAGE = ROOT / "tests" / "language"
FILE = ROOT / "bot" / "language" / "safety" / "likeness.npz"
ORDINARY = "ordinary"  # author of the texts where nobody is unwell
# By the texts left out: how far single texts are smoothed over, what an ordinary text counts beside one of the corpora, how many
# ordinary ones are taken, how much meanings count beside words, and how often a feature must be seen.
SMOOTH, ORDINARY_WEIGHT, EVERY, MEANINGS, SEEN_IN = 0.1, 0.4, 2, 0.5, 2
TAPER = 0.7  # how far rarity is tapered
FEWEST_WORDS = 3  # an ordinary text of fewer is not learned from: it is never weighed
# An ordinary text with one of these may be of somebody unwell in passing.
_UNWELL = re.compile(
    r"\b(?:pain|hurt|sore|ache|achy|aching|twing|sting|tingl|numb\b|agony|injur|stiff|dizz|faint|sharp|doms|tweak|swoll|click|pinch|crank|complain|off today|niggl|"
    r"sick|ill\b|blood|breath|heart|bad (?:knee|back|shoulder|wrist)|pull(?:ed)? (?:a|my)\b|"
    r"(?:knees?|back|shoulders?|wrists?|elbows?|hips?|ankles?) (?:is|are|feels?|felt|was|has|still|acting|complain)\b)",
    re.IGNORECASE,
)
_WORDS = re.compile(r"[^\W\d_]{2,}")

Table = NDArray[np.floating]


class Told(NamedTuple):
    author: str
    kind: str
    line: str


class Fit(NamedTuple):
    """weights: texts by kinds. inverse: of the table of likenesses. wanted: texts by kinds, 1 or -1."""

    weights: Table
    inverse: Table
    wanted: Table
    base: Table
    words: csr_matrix
    about: Table
    names: list[str]
    rarity: Table


def told() -> list[Told]:
    """Each text once."""
    found: dict[str, Told] = {}
    for author, kind, text in _texts():
        line = mended_line(text)
        if line.strip():
            found.setdefault(line, Told(author, kind, line))
    return list(found.values())


def told_texts() -> list[tuple[str, str]]:
    """Kind and text of each line of the corpora."""
    return [(kind, text) for author, kind, text in _texts() if author != ORDINARY]


def ordinary_texts() -> list[str]:
    voices = [line for path in sorted((LANGUAGE / "reading" / "voices").glob("*.txt")) for line in _lines(path)]
    said = [line.split(" | ")[0] for line in voices if line[0] not in "=@" and not re.match(r"[a-z]+:", line)]
    samples = _lines(ROOT / "bot" / "language" / "questions" / "samples.txt")
    asked = [line.split(" | ", 1)[1].replace("@", "A1").replace("#", "3").replace("~", "rpe") for line in samples]
    other = [path for room in ("dates", "swaps") for path in sorted((LANGUAGE / room).glob("*.txt"))]
    return [*said, *asked, *(line.split(" | ")[0] for path in other for line in _lines(path))]


def fit(texts: list[Told]) -> Fit:
    """Source: ridge regression in dual variables (Saunders, Gammerman and Vovk 1998)."""
    words, names, rarity = _words(texts)
    about = np.array([meaning(text.line) for text in texts])
    table = MEANINGS * (about @ about.T + ALONE) ** 2
    table += (1 - MEANINGS) * (words @ words.T).toarray().astype(np.float32)
    counts = np.array([ORDINARY_WEIGHT if text.author == ORDINARY else 1.0 for text in texts])
    table[np.diag_indices(len(texts))] += SMOOTH / counts
    wanted = np.array([[1.0 if text.kind == kind else -1.0 for kind in KINDS] for text in texts])
    base = (wanted * counts[:, None]).sum(axis=0) / counts.sum()
    inverse = inv(table, assume_a="pos", overwrite_a=True, check_finite=False)
    return Fit(inverse @ (wanted - base), inverse, wanted, base, words, about, names, rarity)


def left_out(texts: list[Told], found: Fit) -> Table:
    """Each text's scores (texts by kinds) by what is learned without its author; an ordinary text's without itself.

    Source: the residual of a left-out group is its block of the inverse, inverted, times its weights (Allen 1974, for groups).
    """
    scores = found.wanted - found.weights / found.inverse.diagonal()[:, None]
    for author in {text.author for text in texts} - {ORDINARY}:
        at = np.array([number for number, text in enumerate(texts) if text.author == author])
        scores[at] = found.wanted[at] - np.linalg.solve(found.inverse[np.ix_(at, at)], found.weights[at])
    return scores


def learnt(found: Fit) -> dict[str, NDArray[np.generic]]:
    """The same in its primal form, as likeness.npz holds it."""
    weights, about = found.weights, found.about
    return {
        "features": np.array(found.names),
        "rarity": found.rarity.astype(np.float16),
        "start": (found.base + MEANINGS * ALONE**2 * weights.sum(axis=0)).astype(np.float32),
        "words": ((1 - MEANINGS) * (found.words.T @ weights)).astype(np.float16),
        "alone": (2 * MEANINGS * ALONE * about.T @ weights).astype(np.float32),
        "twos": np.array([MEANINGS * (about * weights[:, [kind]]).T @ about for kind in range(len(KINDS))]).astype(np.float16),
    }


def _words(texts: list[Told]) -> tuple[csr_matrix, list[str], Table]:
    """Texts by features, each row of length one; the features' names and rarities."""
    said = [features(text.line) for text in texts]
    seen = Counter(feature for each in said for feature in each)
    names = sorted(feature for feature, number in seen.items() if number >= SEEN_IN)
    place = {feature: number for number, feature in enumerate(names)}
    rarity = np.array([np.log(len(texts) / seen[name]) ** TAPER * (PAIR_WEIGHT if " " in name else 1.0) for name in names])
    rows, columns, values = [], [], []
    for row, each in enumerate(said):
        known = sorted(place[feature] for feature in each if feature in place)
        rows += [row] * len(known)
        columns += known
        values += list(rarity[known] / (np.linalg.norm(rarity[known]) or 1.0))
    return csr_matrix((values, (rows, columns)), shape=(len(texts), len(names))), names, rarity


def _texts() -> list[tuple[str, str, str]]:
    """Author, kind and text."""
    found = []
    for path in sorted((LANGUAGE / "safety").glob("*.txt")):
        for line in _lines(path):
            wanted, text = line.split(" | ", 1)
            found.append((path.stem, _kind(wanted.strip()), text))
    ordinary = [text for text in ordinary_texts() if len(_WORDS.findall(text)) >= FEWEST_WORDS and not _UNWELL.search(text)]
    return found + [(ORDINARY, "none", text) for text in ordinary[::EVERY]]


def _kind(wanted: str) -> str:
    if "self_harm" in wanted:
        return "self_harm"
    level = re.split("[/:]", wanted)[0]
    return {"same_day": "pain", "soreness": "none"}.get(level, level)


def _lines(path: Path) -> list[str]:
    return [line for line in path.read_text(encoding="utf-8").splitlines() if line.strip() and not line.startswith("#")]


def main() -> None:
    texts = told()
    found = fit(texts)
    scores = left_out(texts, found)
    for author in sorted({text.author for text in texts}):
        at = [number for number, text in enumerate(texts) if text.author == author]
        print(author, _figures([texts[number] for number in at], scores[at]))
    if "--write" in sys.argv:
        np.savez_compressed(FILE, **learnt(found))
        print(f"{len(found.names)} features of {len(texts)} texts")


def _figures(texts: list[Told], scores: Table) -> str:
    """Of each kind: how many, and how many lie above 0 as an emergency, and are most like their own kind."""
    said = []
    for kind in KINDS:
        at = [number for number, text in enumerate(texts) if text.kind == kind]
        if at:
            above, own = (scores[at, 0] > 0).sum(), (scores[at].argmax(axis=1) == KINDS.index(kind)).sum()
            said.append(f"{kind} {len(at)}: {above} above, {own} found")
    return "; ".join(said)


if __name__ == "__main__":
    main()
