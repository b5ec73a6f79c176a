"""Make what bot/language/meaning reads. python -m tests.builders.make_meaning FOLDER

FOLDER holds the model that its docstring names: tokenizer.json and model.safetensors. Keeps the pieces of Latin letters, figures and
marks, weighs each vector by how telling its piece is among our texts, turns them to SIZE numbers and writes pieces.txt and vectors.npz.
"""

from __future__ import annotations

import json
import re
import sys
from collections import Counter
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from bot.language.meaning import SIZE
from bot.language.meaning.vectors import cut, words_of
from tests.builders.learn_likeness import ordinary_texts, told_texts

ROOM = Path(__file__).resolve().parents[2] / "bot" / "language" / "meaning"
TAPER = 0.7  # how far rarity is tapered
SPREAD = 6.0  # values beyond so many times the usual one are cut
_KEPT = re.compile(r"(?:##)?[a-z0-9]+|[!-/:-@\[-`{-~£€°]")


def main() -> None:
    folder = Path(sys.argv[1])
    vocabulary: dict[str, int] = json.loads((folder / "tokenizer.json").read_text(encoding="utf-8"))["model"]["vocab"]
    pieces = [piece for piece in vocabulary if _KEPT.fullmatch(piece)]
    vectors = _embeddings(folder / "model.safetensors")[[vocabulary[piece] for piece in pieces]]
    place = {piece: at for at, piece in enumerate(pieces)}
    texts = [_places(text, place) for text in [*ordinary_texts(), *(text for _, text in told_texts())]]
    seen = Counter(at for text in texts for at in set(text))
    rarity = np.array([np.log(1 + len(texts) / (seen[at] + 1)) ** TAPER for at in range(len(pieces))])
    vectors = vectors * rarity[:, None]
    sums = np.array([vectors[text].sum(axis=0) for text in texts if text])
    sums -= sums.mean(axis=0)
    _, axes = np.linalg.eigh(sums.T @ sums)
    turned = vectors @ axes[:, ::-1][:, :SIZE]
    step = float(turned.std()) * SPREAD / 127
    small = np.clip(np.rint(turned / step), -127, 127).astype(np.int8)
    middle = np.mean([small[text].sum(axis=0) * step for text in texts if text], axis=0).astype(np.float32)
    (ROOM / "pieces.txt").write_text("\n".join(pieces) + "\n", encoding="utf-8")
    np.savez(ROOM / "vectors.npz", vectors=small, step=np.float32(step), middle=middle)
    print(f"{len(pieces)} pieces of {SIZE} numbers")


def _places(text: str, place: dict[str, int]) -> list[int]:
    return [at for word in words_of(text) for at in cut(word, place)]


def _embeddings(path: Path) -> NDArray[np.float32]:
    """The table of the pieces' vectors: a header of JSON, its length before it, then the numbers."""
    raw = path.read_bytes()
    size = int.from_bytes(raw[:8], "little")
    head = json.loads(raw[8 : 8 + size])["embeddings.word_embeddings.weight"]
    start, end = (8 + size + offset for offset in head["data_offsets"])
    return np.frombuffer(raw[start:end], dtype=np.float32).reshape(head["shape"])


if __name__ == "__main__":
    main()
