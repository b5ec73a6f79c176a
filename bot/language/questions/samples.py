"""Which topic is a question most like, going by samples of how people ask? For questions that no cue foresaw.

Plan: fold a question to its shape (exercise -> @, number -> #, weekday -> day, term -> ~), weigh its words and pairs of words by how
telling they are among the samples (rarer is more telling), and vote: each topic has the likeness of its nearest samples.

    "A1 before?"                        -> @ before            -> last_time 1.0
    "have i got time, school run at 9"  -> like "do i have time before the school run" -> duration
"""

from __future__ import annotations

import math
import re
from collections import defaultdict
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from itertools import pairwise

NOTHING = frozenset({"none", "swap", "date"})
# The second and third nearest sample count this much of the nearest (chosen by leaving out each sample in turn).
_SECOND = 0.6
_LETTER_DAYS = r"(?:mon|tues|wednes|thurs|fri|satur|sun)day|mon|tue|tues|wed|thu|thur|thurs|fri|sat|sun"
# Words that ask the same here, each group by its first word (common practice).
_GROUPS = (
    "session workout workouts training gym sesh sessions practice",
    "block program programme plan cycle phase routine blocks programm",
    "weight weights load loads dumbbell dumbbells bells bell kettlebell kettlebells db dbs kb kilo kilos kg kgs lb lbs pounds plates plate dumbell resistance",
    "lifted used handled managed took taken pressed rowed curled benched handle lifting",
    "heavier increase raise raised increasing bump progress progression raising higher",
    "last previous previously latest prior",
    "left remaining remain remains still outstanding",
    "hold pause stop squeeze paused holding stays",
    "down lower lowering lowered descend descending descent sink",
    "best record records pb pr prs pbs max maximum greatest heaviest top strongest highest",
    "rest break breaks breather resting rests recover recovery",
    "minutes mins min minute hour hours",
    "seconds secs sec second",
    "finish finished done end over complete completed ended ends through",
    "next following afterwards",
    "explain clarify describe walk teach",
    "mean means meant meaning define definition stand stands",
    "show send list give gimme lay",
    "missed skipped skip forgot forget missing miss undone left_out",
    "exercise exercises lifts lift movement moves",
    "today tonight todays evening",
    "tomorrow tomorrows",
    "should must shall ought supposed need have_to",
    "begin start starting first beginning",
    "pick grab choose select guess suggest recommend suggestion",
    "start_with initial",
    "alternate alternating superset supersetted pairing paired pair pairs superset swinging mix mixing switch switching",
    "light easy lighter easier feather",
    "slow slowly slower",
    "fast quick quickly faster",
    "reps rep repetitions repetition",
    "sets set rounds round",
    "leg legs",
    "arm arms",
    "sides side both each",
    "see sees read reads reading view",
    "others anybody anyone everyone else somebody people",
    "delete wipe erase remove",
    "log enter record_set type write input",
    "correct fix undo change mistake wrong",
    "buy purchase get_one order",
    "film video recording clip watch",
    "day days",
    "long longer length",
    "time times",
    "many much",
    "what whats which wich wat",
    "how hows",
    "when whens",
    "my our mine",
    "i we im ive",
    "enough ok okay fine alright",
    "kept store stored save saved keep data information info",
    "elbow elbows knee knees foot feet hand hands back hips hip shoulder shoulders head heel heels palms chest toes",
    "# one two three four five six seven eight nine ten twelve fifteen twenty thirty forty half couple",
)
_SAME = {word: group.split()[0] for group in _GROUPS for word in group.split()}
# Chosen by leaving out each sample in turn: how much a pair of words weighs beside a word, and how far rarity is tapered.
_PAIR_WEIGHT, _TAPER = 0.5, 0.7
# From this likeness on one sample decides, whatever its neighbours.
_NEARLY_ITSELF = 0.8
# Politeness and filler: they say nothing about the topic.
_FILLER = frozenset(
    (
        "please", "coach", "hey", "hi", "hello", "so", "ok", "okay", "well", "um", "uh", "just", "really", "actually",
        "now_then", "btw", "thanks", "thx", "cheers", "lol", "haha", "sorry", "quick", "question", "like", "the", "a", "an",
        "of", "to", "for", "in", "at", "and", "or", "it", "its", "this", "that", "these", "those", "is", "are", "am", "be",
        "do", "does", "did", "i", "you",
    )
)  # fmt: skip
# Filler alone, though part of telling pairs ("do i", "is it"); kept at a low weight instead of dropped.
_FILLER_WEIGHT = 0.35


@dataclass(frozen=True, slots=True)
class Vote:
    """topic: a topic's id, or "none", "swap", "date". likeness: 0 to 1 to its nearest samples. others: of every topic."""

    topic: str
    likeness: float
    others: dict[str, float]
    sample: str = ""


@lru_cache(maxsize=2048)
def vote(shape: str, without: str = "") -> Vote | None:
    """The topic that a shape is most like; None where it shares no word with any sample. without: a sample to leave out (tests)."""
    mine = _vector(shape)
    if not mine:
        return None
    samples, index = _samples(), _index()
    scores: dict[int, float] = defaultdict(float)
    for feature, weight in mine.items():
        for number, theirs in index.get(feature, ()):
            scores[number] += weight * theirs
    topics: dict[str, list[tuple[float, str]]] = defaultdict(list)
    for number, score in scores.items():
        topic, said = samples[number]
        if said != without:
            topics[topic].append((score, said))
    if not topics:
        return None
    voted = {topic: min(1.0, _voted(found)) for topic, found in topics.items()}
    first = max(voted, key=lambda topic: (voted[topic], topic))
    return Vote(first, voted[first], voted, max(topics[first])[1])


def _voted(found: list[tuple[float, str]]) -> float:
    """The nearest three together; a sample that is nearly the text itself speaks alone."""
    best = sorted((score for score, _ in found), reverse=True)[:3]
    together = (best[0] + _SECOND * sum(best[1:])) / (1 + _SECOND * 2)
    return best[0] if best[0] >= _NEARLY_ITSELF else together


def words_of(shape: str) -> list[str]:
    """The words of a shape, days and numbers folded, words that mean the same made one."""
    folded = re.sub(rf"\b(?:{_LETTER_DAYS})s?\b", "day", shape)
    folded = re.sub(r"\d+(?:\.\d+)?", "#", folded)
    return [_SAME.get(word, word) for word in re.findall(r"[a-z]+|[@#~]", folded)]


def _features(shape: str) -> list[str]:
    words = words_of(shape)
    edged = ["^", *words, "$"]
    return [*words, *(f"{one} {two}" for one, two in pairwise(edged))]


def _vector(shape: str) -> dict[str, float]:
    rarity = _rarity()
    found: dict[str, float] = defaultdict(float)
    for feature in _features(shape):
        weight = rarity.get(feature, _unseen() * 0.6 if " " not in feature else 0.0)
        if " " in feature:
            weight *= _PAIR_WEIGHT
        elif feature in _FILLER:
            weight *= _FILLER_WEIGHT
        found[feature] = max(found[feature], weight)
    length = math.sqrt(sum(weight * weight for weight in found.values()))
    return {feature: weight / length for feature, weight in found.items()} if length else {}


@lru_cache(maxsize=1)
def _samples() -> tuple[tuple[str, str], ...]:
    lines = (files(__package__) / "samples.txt").read_text(encoding="utf-8").splitlines()
    pairs = [line.split(" | ", 1) for line in lines if line.strip() and not line.startswith("#")]
    return tuple((topic.strip(), said.strip()) for topic, said in pairs)


@lru_cache(maxsize=1)
def _rarity() -> dict[str, float]:
    seen: dict[str, int] = defaultdict(int)
    for _, said in _samples():
        for feature in set(_features(said)):
            seen[feature] += 1
    count = len(_samples())
    return {feature: math.log(1 + count / number) ** _TAPER for feature, number in seen.items()}


@lru_cache(maxsize=1)
def _unseen() -> float:
    return float(math.log(1 + len(_samples())) ** _TAPER)


@lru_cache(maxsize=1)
def _index() -> dict[str, tuple[tuple[int, float], ...]]:
    index: dict[str, list[tuple[int, float]]] = defaultdict(list)
    for number, (_, said) in enumerate(_samples()):
        for feature, weight in _vector(said).items():
            index[feature].append((number, weight))
    return {feature: tuple(found) for feature, found in index.items()}
