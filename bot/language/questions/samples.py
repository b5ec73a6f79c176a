"""Which topic is a question most like, going by samples of how people ask?

Problem: cues (cues.py) know the words that were foreseen; people find others, and put foreseen words to other uses. Plan: fold a
question to its shape (exercise -> @, number -> #, weekday -> day, term -> ~); weigh its words, its pairs of words and the cues that
fit it by how telling they are among the samples (rarer is more telling); beside them, what the question is about
(bot/language/meaning), for words that no sample has; and let a regression over all samples give each topic a score. Two words
together count for more than each alone, since the likeness of two questions is squared: "how long" with "rest" is another question
than with "block".

    "A1 before?"                        -> @ before            -> last_time
    "have i got time, school run at 9"  -> like "do i have time before the school run" -> duration

samples.txt holds the samples and weights.txt what each of them counts for each topic. tests/builders/learn_questions.py makes the
weights beforehand: to learn them at the start would take 200 MB for a moment.

Source: ridge regression in dual variables (Saunders, Gammerman and Vovk 1998), on a quadratic kernel.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

import numpy as np
from numpy.typing import NDArray

from bot.language.meaning import meaning
from bot.language.questions.cues import topics_cued
from bot.language.questions.folding import FILLER, features_of

NOTHING = frozenset({"none", "swap", "date"})
WEIGHTS = "weights.txt"
PARTS = 1000  # weights.txt counts in thousandths
# How much one word in common counts beside two. Like the figures below chosen by leaving out each sample in turn.
ALONE = 0.2
# How much the meanings count beside the words.
MEANINGS = 0.4
# How much a pair of words, a filler and a cue weigh beside a word, and how far rarity is tapered.
_PAIR_WEIGHT, _FILLER_WEIGHT, _CUE_WEIGHT, _UNSEEN_WEIGHT = 0.5, 0.35, 1.0, 0.6
_TAPER = 0.7

_Numbers = NDArray[np.float32]


@dataclass(frozen=True, slots=True)
class Vote:
    """topic: a topic's id, or "none", "swap", "date". likeness: 0 to 1, how sure. others: the same of every topic."""

    topic: str
    likeness: float
    others: dict[str, float]


@lru_cache(maxsize=2048)
def vote(shape: str) -> Vote | None:
    """The topic that a shape is most like; None where it shares no word with any sample."""
    known = samples()
    mine = _weighed(_features(shape), known.rarity)
    likeness = np.zeros(len(known.wanted), dtype=np.float32)
    for feature, weight in mine.items():
        if feature in known.index:
            numbers, weights = known.index[feature]
            likeness[numbers] += weight * weights
    if not likeness.any():
        return None
    likeness = (1 - MEANINGS) * likeness + MEANINGS * (known.about @ _about(shape))
    scores = (likeness + ALONE) ** 2 @ _weights() + known.shares
    others = {topic: min(1.0, max(0.0, float(score))) for topic, score in zip(known.topics, scores, strict=True)}
    first = max(others, key=lambda topic: (others[topic], topic))
    return Vote(first, others[first], others)


@dataclass(frozen=True, slots=True)
class Samples:
    """index: feature -> the samples that have it and its weight in each. about: each sample's meaning. wanted: each sample's topic.

    shares: of each topic among the samples.
    """

    topics: tuple[str, ...]
    rarity: dict[str, float]
    index: dict[str, tuple[NDArray[np.int64], _Numbers]]
    about: _Numbers
    wanted: tuple[str, ...]
    shares: _Numbers


@lru_cache(maxsize=1)
def samples() -> Samples:
    """The samples of samples.txt, each once, in the file's order."""
    lines = (files(__package__) / "samples.txt").read_text(encoding="utf-8").splitlines()
    pairs = [line.split(" | ", 1) for line in lines if line.strip() and not line.startswith("#")]
    told = list(dict.fromkeys((topic.strip(), said.strip()) for topic, said in pairs))
    features = [_features(said) for _, said in told]
    rarity = _rarity(features)
    index = _index([_weighed(each, rarity) for each in features])
    wanted = tuple(topic for topic, _ in told)
    topics = tuple(sorted(set(wanted)))
    shares = np.array([wanted.count(topic) / len(wanted) for topic in topics], dtype=np.float32)
    about = np.array([_about(said) for _, said in told])
    return Samples(topics, rarity, index, about, wanted, shares)


@lru_cache(maxsize=1)
def _weights() -> _Numbers:
    """What each sample (row) counts for each topic (column)."""
    text = (files(__package__) / WEIGHTS).read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    return np.array([line.split() for line in lines], dtype=np.float32) / np.float32(PARTS)


# Words that stand for what a shape leaves out.
_FOR_SIGNS = str.maketrans({"@": "exercise", "#": "3", "~": "jargon"})


def _about(shape: str) -> _Numbers:
    return meaning(shape.translate(_FOR_SIGNS))


def _features(shape: str) -> set[str]:
    """Words, pairs, the cues that fit ("?rest") and the first of them, which counts twice ("?1 rest")."""
    cued = topics_cued(shape)
    return {*features_of(shape), *(f"?{topic}" for topic in cued), *(f"?1{topic}" for topic in cued[:1])}


def _rarity(features: list[set[str]]) -> dict[str, float]:
    seen: dict[str, int] = {}
    for each in features:
        for feature in each:
            seen[feature] = seen.get(feature, 0) + 1
    return {feature: math.log(1 + len(features) / number) ** _TAPER for feature, number in seen.items()}


def _weighed(features: set[str], rarity: dict[str, float]) -> dict[str, float]:
    """Each feature's share, all together of length 1. A word that no sample has takes its share too: it makes less sure."""
    unseen = _UNSEEN_WEIGHT * max(rarity.values())
    found = {}
    for feature in features:
        if feature.startswith("?"):
            found[feature] = _CUE_WEIGHT
        elif " " in feature:
            found[feature] = rarity.get(feature, 0.0) * _PAIR_WEIGHT
        else:
            found[feature] = rarity.get(feature, unseen) * (_FILLER_WEIGHT if feature in FILLER else 1.0)
    length = math.sqrt(sum(weight * weight for weight in found.values())) or 1.0
    return {feature: weight / length for feature, weight in found.items()}


def _index(weighed: list[dict[str, float]]) -> dict[str, tuple[NDArray[np.int64], _Numbers]]:
    gathered: dict[str, list[tuple[int, float]]] = {}
    for number, each in enumerate(weighed):
        for feature, weight in each.items():
            gathered.setdefault(feature, []).append((number, weight))
    return {
        feature: (np.array([number for number, _ in found]), np.array([weight for _, weight in found], dtype=np.float32))
        for feature, found in gathered.items()
    }
