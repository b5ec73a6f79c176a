"""Learn what emergencies read like (bot/language/safety/likeness.py). python -m tests.builders.learn_likeness [--write]

Texts: every corpus of the tests that says what a text is. Emergencies against everything else; texts of self-harm are left out, they
have signs of their own. A logistic regression over words, pairs of words and things, each seen in three texts or more; small weights are
dropped and the rest fitted again. Prints how it does on texts left out (five folds), and with --write renews likeness.txt.
"""

from __future__ import annotations

import random
import re
import sys
from collections import Counter
from pathlib import Path
from typing import NamedTuple

import numpy as np
from scipy.optimize import minimize
from scipy.sparse import csr_matrix

from bot.language.safety.likeness import features
from bot.language.safety.reading import plain_line

ROOT = Path(__file__).resolve().parents[2]
LANGUAGE = ROOT / "tests" / "language"
WEIGHTS = ROOT / "bot" / "language" / "safety" / "likeness.txt"
SEEN_IN, HOLD = 3, 60.0  # a feature's texts at least; how little the weights are held back (both by the left-out texts)
KEPT = 0.3  # weights below this part of their spread are dropped


class Told(NamedTuple):
    features: frozenset[str]
    emergency: bool
    ordinary: bool


def told() -> list[Told]:
    """Each text once. ordinary: from corpora of sets, questions, swaps and dates, where nobody is unwell but in passing."""
    found: dict[frozenset[str], Told] = {}
    for path in sorted((LANGUAGE / "safety").glob("*.txt")):
        for line in _lines(path):
            wanted, text = line.split(" | ", 1)
            if "self_harm" not in wanted:
                _add(found, text, emergency=wanted.strip().startswith("emergency"), ordinary=False)
    for text in ordinary_texts():
        _add(found, text, emergency=False, ordinary=True)
    return list(found.values())


def ordinary_texts() -> list[str]:
    voices = [line for path in sorted((LANGUAGE / "reading" / "voices").glob("*.txt")) for line in _lines(path)]
    said = [line.split(" | ")[0] for line in voices if line[0] not in "=@" and not re.match(r"[a-z]+:", line)]
    samples = _lines(ROOT / "bot" / "language" / "questions" / "samples.txt")
    asked = [line.split(" | ", 1)[1].replace("@", "A1").replace("#", "3").replace("~", "rpe") for line in samples]
    other = [path for room in ("dates", "swaps") for path in sorted((LANGUAGE / room).glob("*.txt"))]
    return [*said, *asked, *(line.split(" | ")[0] for path in other for line in _lines(path))]


def fit(texts: list[Told]) -> dict[str, float]:
    """Feature -> weight; "=" is what every text starts from."""
    seen = Counter(feature for text in texts for feature in text.features)
    kept = sorted(feature for feature, number in seen.items() if number >= SEEN_IN)
    weights = _fitted(texts, kept)
    spread = float(np.std([weights[feature] for feature in kept]))
    return _fitted(texts, [feature for feature in kept if abs(weights[feature]) >= KEPT * spread])


def score(weights: dict[str, float], text: Told) -> float:
    known = [weights[feature] for feature in text.features if feature in weights]
    return weights["="] + sum(known) / max(1, len(known)) ** 0.5


def left_out(texts: list[Told], folds: int = 5) -> list[tuple[float, Told]]:
    """Each text scored by weights that were learned without it."""
    order = list(range(len(texts)))
    random.Random(7).shuffle(order)
    scored = []
    for fold in range(folds):
        out = set(order[fold::folds])
        weights = fit([text for number, text in enumerate(texts) if number not in out])
        scored += [(score(weights, texts[number]), texts[number]) for number in sorted(out)]
    return scored


def _fitted(texts: list[Told], kept: list[str]) -> dict[str, float]:
    place = {feature: number for number, feature in enumerate(kept)}
    rows, columns, values = [], [], []
    for row, text in enumerate(texts):
        known = [place[feature] for feature in text.features if feature in place]
        rows += [row] * len(known)
        columns += known
        values += [max(1, len(known)) ** -0.5] * len(known)
    matrix = csr_matrix((values, (rows, columns)), shape=(len(texts), len(kept)))
    sign = np.array([1.0 if text.emergency else -1.0 for text in texts])
    rare, common = (sign > 0).sum(), (sign < 0).sum()
    share = HOLD * np.where(sign > 0, len(texts) / (2 * rare), len(texts) / (2 * common))

    def loss(at: np.ndarray) -> tuple[float, np.ndarray]:
        margin = sign * (matrix @ at[1:] + at[0])
        slope = -share * sign / (1 + np.exp(margin))
        value = float((share * np.logaddexp(0, -margin)).sum() + 0.5 * at @ at)
        return value, np.concatenate([[slope.sum() + at[0]], matrix.T @ slope + at[1:]])

    best = minimize(loss, np.zeros(len(kept) + 1), jac=True, method="L-BFGS-B", options={"maxiter": 2000})
    return {"=": float(best.x[0]), **dict(zip(kept, map(float, best.x[1:]), strict=True))}


def _add(found: dict[frozenset[str], Told], text: str, *, emergency: bool, ordinary: bool) -> None:
    said = frozenset(features(plain_line(text)))
    if said not in found:
        found[said] = Told(said, emergency, ordinary)


def _lines(path: Path) -> list[str]:
    return [line for line in path.read_text(encoding="utf-8").splitlines() if line.strip() and not line.startswith("#")]


def main() -> None:
    texts = told()
    scored = left_out(texts)
    urgent = [mark for mark, text in scored if text.emergency]
    ordinary = sorted((mark for mark, text in scored if text.ordinary), reverse=True)
    others = [mark for mark, text in scored if not text.emergency and not text.ordinary]
    print(
        f"{len(urgent)} emergencies, {len(ordinary)} ordinary texts, {len(others)} look-alikes, pains and cautions; left out in turn:"
    )
    for allowed in (20, 10, 5):
        line = ordinary[allowed]
        heard, alarms = sum(mark > line for mark in urgent), sum(mark > line for mark in others)
        print(
            f"  above {line:.2f}: {heard} emergencies, {allowed} ordinary texts, {alarms} of the look-alikes, pains and cautions"
        )
    if "--write" in sys.argv:
        weights = fit(texts)
        head = "# Hundredths of a weight | word, pair of words or *thing. Made by tests/builders/learn_likeness.py; not to be mended by hand.\n"
        body = "".join(
            f"{round(weight * 100)} | {feature}\n" for feature, weight in sorted(weights.items()) if round(weight * 100)
        )
        WEIGHTS.write_text(head + body, encoding="utf-8")
        print(f"{len(weights)} weights written")


if __name__ == "__main__":
    main()
