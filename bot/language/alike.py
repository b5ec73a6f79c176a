"""Which kept text asks the same as a new one? By meaning, not equal words, and offline.

Each text becomes a set of lemmas: plurals and endings off, words of one meaning brought to one, small words out. Likeness is the
shared weight of the two sets (rare, telling words weigh more than "do" and "set"), slips of the thumb allowed.

    "can I do the block on holiday without weights" ~ "im travelling with no dumbbells, what about the plan"
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from rapidfuzz import fuzz

_WORD = re.compile(r"[a-z]+\d?|\d+")
_SMALL = frozenset(
    (
        "a", "an", "the", "to", "of", "in", "on", "for", "at", "is", "are", "am", "be", "been", "was", "were", "it", "its",
        "i", "im", "ive", "id", "me", "my", "we", "us", "our", "you", "your", "u", "ur", "this", "that", "these", "those",
        "so", "and", "or", "but", "if", "with", "as", "by", "from", "up", "do", "does", "did", "done", "can", "could",
        "should", "shall", "would", "will", "may", "might", "must", "have", "has", "had", "having", "get", "got", "just",
        "also", "really", "very", "please", "pls", "hi", "hey", "hello", "coach", "bot", "there", "here", "what", "which",
        "how", "when", "where", "who", "whats", "hows", "some", "any", "much", "many", "one", "ones", "ok", "okay", "thing",
        "things", "stuff", "about", "into", "out", "over", "then", "than", "too", "gonna", "going", "want", "wanna", "need",
        "think", "guess", "maybe", "actually", "again", "thanks", "thank", "like", "still", "even", "use", "using", "make",
        "know", "tell", "say", "said", "ask", "question", "not", "no", "dont", "doesnt", "isnt", "shouldnt", "allowed",
        "possible", "right", "fine", "good", "best", "useful", "needed", "necessary", "worth", "recommend", "recommended",
        "tips", "tip", "special", "happen", "happens", "year", "days", "advise", "help", "let", "let's", "better", "bad",
        "getting", "come", "comes", "wants",
    )
)  # fmt: skip
_SAME = (
    "train workout work exercise session gym lift training trained", "weight load heavy heavier kg kilo kilos dumbbell weights lb lbs pounds", "block plan program programme schedule phase",
    "holiday travel trip vacation away hotel abroad airport", "run running jog jogging runs", "cardio conditioning", "walk walking", "stretch stretching", "yoga", "mobility flexibility",
    "warmup warm prepare", "rest break recover recovery pause off", "hurt pain ache sore injury injured", "belt", "strap straps", "wraps wrap", "gloves glove",
    "shoe shoes trainers sneakers footwear", "barefoot", "music song playlist headphones", "morning early am dawn", "evening late night", "sleep tired fatigue exhausted",
    "video film record clip recording filmed", "form technique", "eat food meal breakfast", "often frequency times", "change swap replace switch different", "start begin starting",
    "stop quit end finish", "fast quick speed quickly", "slow slowly", "long duration", "goal aim target purpose point focus", "why reason because", "about focus",
    "increase raise add more up progress", "reduce lower less fewer drop lighter", "friend partner wife husband buddy mate family", "price pay cost money fee payment",
    "meet call talk speak phone chat zoom", "competition compete race contest event", "home house", "leg legs lower", "arm arms bicep biceps", "ab abs core belly stomach six",
    "extra additional bonus", "miss missed skip skipped leave", "kid child children baby", "sick ill cold flu", "band bands elastic", "join come member", "row rowing rows", "notice see",
    "squeaky noise noisy loud quiet neighbours neighbors", "floor mat carpet", "knee knees", "wrist wrists", "machine machines", "breathe breathing breath exhale inhale",
    "hard harder tough", "easy easier gentle", "week weekly", "day daily", "twice two double", "buy own purchase", "made wrote written create", "follow following",
)  # fmt: skip
# Where one text has the one and the other text the other, they ask different things.
_OPPOSITES = (
    ("before", "after"), ("increase", "reduce"), ("high", "low"), ("hard", "easy"), ("morning", "evening"), ("start", "stop"), ("join", "leave"),
    ("fast", "slow"), ("long", "short"), ("down", "increase"), ("alone", "friend"), ("add", "remove"), ("extra", "reduce"), ("wide", "narrow"), ("inside", "outside"),
    ("reps", "week"), ("monday", "tuesday"),
)  # fmt: skip
_MEANING = {word: group.split()[0] for group in _SAME for word in group.split()}


# Chosen on half of the pairs in tests/language/questions/alike_*.txt: below it more questions get an answer to something else
# than get their own at once.
SURELY_ALIKE = 0.8


@dataclass(frozen=True, slots=True)
class Alike:
    """index: which of the candidates; certainty 0 to 1."""

    index: int
    certainty: float


def best_match(text: str, candidates: Sequence[str]) -> Alike | None:
    """The candidate that most likely asks the same; None where nothing is shared. Take it from SURELY_ALIKE on."""
    scored = [Alike(index, likeness(text, candidate)) for index, candidate in enumerate(candidates)]
    best = max(scored, key=lambda one: one.certainty, default=None)
    return best if best is not None and best.certainty > 0 else None


def likeness(one: str, other: str) -> float:
    """0 to 1. Equal texts are 1; only shared small words are 0."""
    mine, theirs = _lemmas(one), _lemmas(other)
    if not mine or not theirs:
        return 1.0 if one.strip().lower() == other.strip().lower() else 0.0
    shared_mine = sum(_weight(word) * _nearest(word, theirs) for word in mine)
    shared_theirs = sum(_weight(word) * _nearest(word, mine) for word in theirs)
    cover_mine = shared_mine / sum(_weight(word) for word in mine)
    cover_theirs = shared_theirs / sum(_weight(word) for word in theirs)
    # Both ways count; the shorter text wholly inside the longer one may still ask something else.
    low, high = sorted((cover_mine, cover_theirs))
    telling = [word for word in mine if _nearest(word, theirs) > 0.8 and _weight(word) >= 1]
    score = 0.55 * low + 0.45 * high + (0.08 if len(telling) >= 2 else -0.1)
    if _kind(one) != _kind(other) and _kind(one) and _kind(other):
        score -= 0.25
    if _labels(one) != _labels(other):
        score -= 0.35
    if any(_stand_against(mine, theirs, *pair) for pair in _OPPOSITES):
        score -= _AGAINST
    if _left_over(mine, theirs) and _left_over(theirs, mine):
        score -= _BOTH_LEFT
    return max(0.0, min(1.0, score))


# Taken off where the texts stand against each other, and where each has a telling word that the other has not (our choice).
_AGAINST, _BOTH_LEFT = 0.4, 0.25


def _stand_against(mine: frozenset[str], theirs: frozenset[str], a: str, b: str) -> bool:
    return (a in mine - theirs and b in theirs - mine) or (b in mine - theirs and a in theirs - mine)


def _left_over(mine: frozenset[str], theirs: frozenset[str]) -> bool:
    """Is there a telling word on this side that the other side has nothing for?"""
    return any(_nearest(word, theirs) == 0 and word not in _COMMON and _weight(word) >= 1 for word in mine)


_COMMON = frozenset(["train", "weight", "block", "long", "rest", "start", "change", "set", "rep", "day", "week", "increase"])
_KINDS = {"why": "why", "reason": "why", "when": "when", "where": "where", "who": "who"}


def _kind(text: str) -> str:
    return next((_KINDS[word] for word in _WORD.findall(text.lower()) if word in _KINDS), "")


def _labels(text: str) -> frozenset[str]:
    """Slots, numbers: "on A1" and "on B2" are never the same question."""
    return frozenset(re.findall(r"\b[a-h][1-9]\b|\b\d+\b", text.lower()))


def _weight(word: str) -> float:
    return 0.6 if word in _COMMON else 1.0 + min(len(word), 8) * 0.05


def _nearest(word: str, others: frozenset[str]) -> float:
    if word in others:
        return 1.0
    best = max((fuzz.ratio(word, other) for other in others), default=0.0) / 100 if len(word) >= 5 else 0.0
    return best if best >= 0.84 else 0.0


@lru_cache(maxsize=2048)
def _lemmas(text: str) -> frozenset[str]:
    words = _WORD.findall(re.sub("['’`]", "", text.lower()))
    kept = (_MEANING.get(word) or _MEANING.get(_stem(word)) or _stem(word) for word in words if word not in _SMALL)
    return frozenset(kept)


def _stem(word: str) -> str:
    for ending in ("ings", "ing", "ies", "ed", "es", "s", "ly"):
        if word.endswith(ending) and len(word) - len(ending) >= 3:
            stem = word.removesuffix(ending)
            return stem[:-1] if ending in ("ing", "ed") and len(stem) > 3 and stem[-1] == stem[-2] else stem
    return word
