"""Which exercise does a name mean, however it is typed?

Names are folded (see folding), then three steps, the surest first:

1. the folded name is a known one                        "DB bench presses"   -> dumbbell_bench_press, exact
2. the same words in another order                       "press incline db"   -> incline_dumbbell_press, exact
3. words compared one by one, rare words weighing more,
   each unknown word first mended to words that names use "romainian ded lift" -> romanian_deadlift, not exact

Everything is prepared once for a catalogue, so that a question costs some microseconds. `among` narrows the search to the day's
exercises: there a short "rows" is clear when only one of them is a row.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from heapq import nlargest
from math import log

from rapidfuzz import process
from rapidfuzz.distance import OSA

from bot.training.blocks import ExerciseId
from bot.training.exercises.entry import Exercise
from bot.training.exercises.folding import FILLERS, Word, fold, folded_words
from bot.training.exercises.name_words import ARTICLES, BAR_OF, EVERYDAY, MANNER, OTHER_WORDS, PLACING, SOFT, only_describes

_BREAK = re.compile(r"[,;!?\n]|[.:](?:\s|$)")  # a name does not run on past these
_LONGEST = 7  # words in a name; longer windows are not looked at
_EXTRA_COST, _LACK_COST = 1.0, 0.45  # a word too many says "something else"; a word left out is how people shorten
_UNKNOWN_WEIGHT = 4.0
_COMMON = 60  # names; a word in more than these tells little
_CLEAR_LEAD = 1.35  # a short name is clear when its best reading is this much better than the next


@dataclass(frozen=True, slots=True)
class NameMatch:
    """One exercise that a text may mean.

    score: 0 to 1. exact: every word is accounted for without mending or guessing. alias: the known name that was hit.
    """

    exercise: ExerciseId
    score: float
    exact: bool
    alias: str


@dataclass(frozen=True, slots=True)
class Mention:
    """A name found inside a longer text: text[start:end]."""

    start: int
    end: int
    match: NameMatch


@dataclass(frozen=True, slots=True)
class _Name:
    exercise: ExerciseId
    text: str
    words: tuple[str, ...]
    weight: float


class NameIndex:
    """All names of a set of exercises, ready to be asked. A coach's own exercises (last in the order) win an equal name."""

    def __init__(self, exercises: Sequence[Exercise]) -> None:
        pairs = [(exercise, text, fold(text)) for exercise in exercises for text in (exercise.name, *exercise.aliases)]
        counts: dict[str, int] = defaultdict(int)
        for _, _, words in pairs:
            for word in set(words):
                counts[word] += 1
        self._weight = {word: log(1 + len(pairs) / count) for word, count in counts.items()}
        self._vocabulary = sorted(counts)
        self._by_length: dict[int, list[str]] = defaultdict(list)
        for word in self._vocabulary:
            self._by_length[len(word)].append(word)
        self._implied = {exercise.id: _implied_words(exercise) for exercise in exercises}
        self._names: list[_Name] = []
        self._places: dict[str, set[int]] = defaultdict(set)
        self._of_exercise: dict[ExerciseId, list[int]] = defaultdict(list)
        self._keys: dict[str, int] = {}
        self._bags: dict[tuple[str, ...], int] = {}
        for exercise, text, words in pairs:
            self._add(exercise.id, text, words)
        self._mend = lru_cache(maxsize=4096)(self._mended)

    def _add(self, exercise: ExerciseId, text: str, words: tuple[str, ...]) -> None:
        place = len(self._names)
        self._names.append(_Name(exercise, text, words, sum(self._weight[word] for word in words)))
        self._of_exercise[exercise].append(place)
        for word in set(words):
            self._places[word].add(place)
        self._keys["".join(words)] = place
        self._bags[tuple(sorted(words))] = place

    def find(self, text: str, *, among: Iterable[ExerciseId] | None = None, limit: int = 5) -> tuple[NameMatch, ...]:
        """The exercises that a name may mean, likeliest first; empty if no word of it is known.

        among: look at these exercises only.
        """
        allowed = None if among is None else frozenset(among)
        words = fold(text)
        if not words or limit < 1:
            return ()
        sure = self._sure(words, allowed)
        others = [match for match in self._alike(words, allowed, limit + 1) if sure is None or match.exercise != sure.exercise]
        if sure is None:
            return tuple(others[:limit])
        return (sure, *others[: limit - 1])

    def mentions(self, text: str, *, among: Iterable[ExerciseId] | None = None) -> tuple[Mention, ...]:
        """Exercise names inside a longer text, in reading order, the longest at each place, never overlapping.

        Known names are found (a slip of a letter or two in a longer word is mended); with `among` also a shorter name that fits
        exactly one of these exercises.
        """
        allowed = None if among is None else frozenset(among)
        words = folded_words(text)
        ends = [at for at in range(1, len(words)) if _BREAK.search(text, words[at - 1].end, words[at].start)] + [len(words)]
        found: list[Mention] = []
        start = 0
        while start < len(words):
            end = next(end for end in ends if end > start)
            mention, used = self._mention_at(words, start, end, allowed)
            # Words that were written as one ("DBrow") share their letters: the first name keeps them.
            if mention and (not found or mention.start >= found[-1].end):
                found.append(mention)
            start += used
        return tuple(found)

    def _sure(self, words: tuple[str, ...], allowed: frozenset[ExerciseId] | None, *, any_order: bool = True) -> NameMatch | None:
        plain = tuple(word for word in words if word not in MANNER)
        for key, bag, score in (
            (self._keys.get("".join(words)), self._bags.get(tuple(sorted(words))), 1.0),
            (self._keys.get("".join(plain)), self._bags.get(tuple(sorted(plain))), 0.95),
        ):
            place, score = (key, score) if key is not None else (bag, score - 0.02)
            if place is None or (key is None and not any_order):
                continue
            if allowed is None or self._names[place].exercise in allowed:
                name = self._names[place]
                return NameMatch(name.exercise, score, True, name.text)
        return None

    def _alike(self, words: tuple[str, ...], allowed: frozenset[ExerciseId] | None, limit: int) -> list[NameMatch]:
        sides = [self._readings_of(word) for word in words]
        weights = [max((self._weight[known] for known, _ in side), default=_UNKNOWN_WEIGHT) for side in sides]
        hits = self._hits(sides, allowed)
        best: dict[ExerciseId, tuple[float, bool, float, int]] = {}
        for place, hit in hits.items():
            scored = self._score(self._names[place], words, weights, hit)
            if scored[0] > best.get(self._names[place].exercise, (0.0,))[0]:
                best[self._names[place].exercise] = (*scored, place)
        if allowed is not None and not only_describes(words):
            best = _clear_if_it_leads(best)
        top = nlargest(limit, best.items(), key=lambda item: item[1][0])
        return [NameMatch(exercise, round(score, 3), False, self._names[place].text) for exercise, (score, _, _, place) in top]

    def _hits(
        self, sides: list[tuple[tuple[str, float], ...]], allowed: frozenset[ExerciseId] | None
    ) -> dict[int, dict[int, tuple[float, str]]]:
        """Name's place -> {which word of the question: (quality, the name's word)}."""
        hits: dict[int, dict[int, tuple[float, str]]] = {}
        # Rare words first; a common word ("dumbbell") then only adds to names that a rarer one has found.
        by_rarity = sorted(enumerate(sides), key=lambda item: sum(len(self._places[known]) for known, _ in item[1]))
        for position, side in by_rarity:
            for known, quality in side:
                common = hits and len(self._places[known]) > _COMMON
                for place in hits.keys() & self._places[known] if common else self._places[known]:
                    if allowed is not None and self._names[place].exercise not in allowed:
                        continue
                    mine = hits.setdefault(place, {})
                    if mine.get(position, (0.0, ""))[0] < quality:
                        mine[position] = (quality, known)
        return hits

    def _score(
        self, name: _Name, words: tuple[str, ...], weights: list[float], hit: dict[int, tuple[float, str]]
    ) -> tuple[float, bool, float]:
        """Score, whether every word of the question is accounted for, and the worst mending among them."""
        matched = hit_weight = extra = 0.0
        covered, worst = True, 1.0
        implied = self._implied[name.exercise]
        seen: set[str] = set()
        for position, word in enumerate(words):
            if position in hit:
                quality, known = hit[position]
                matched += self._weight[known] * quality
                if known not in seen:
                    hit_weight += self._weight[known]
                    seen.add(known)
                worst = min(worst, quality)
            elif word in implied:
                extra += 0.1 * weights[position]
            elif word in SOFT:
                extra += 0.25 * weights[position]
            else:
                extra += weights[position]
                covered = False
        lack = max(0.0, name.weight - hit_weight)
        slip = hit_weight - matched if matched < hit_weight else 0.0
        score = matched / (matched + slip + _EXTRA_COST * extra + _LACK_COST * lack)
        return min(score, 0.97), covered, worst

    def _readings_of(self, word: str) -> tuple[tuple[str, float], ...]:
        return ((word, 1.0),) if word in self._weight else self._mend(word)

    def _mended(self, word: str) -> tuple[tuple[str, float], ...]:
        """Known words that an unknown one may be: with slips of the thumb, or cut short; each with a quality below 1."""
        room = _slips_allowed(word)
        near = [known for length in range(len(word) - room, len(word) + room + 1) for known in self._by_length.get(length, ())]
        found = process.extract(word, near, scorer=OSA.distance, score_cutoff=room, limit=4) if room else []
        nearest = min((int(distance) for _, distance, _ in found), default=99)
        mended = {known: 1.0 - 0.08 * distance for known, distance, _ in found if distance == nearest}
        cut_short = [known for known in self._vocabulary if known.startswith(word)] if len(word) >= 3 else []
        if len(cut_short) <= 6:
            mended = dict.fromkeys(cut_short, 0.9) | mended
        return tuple(mended.items())

    def _mention_at(
        self, words: list[Word], start: int, end: int, allowed: frozenset[ExerciseId] | None
    ) -> tuple[Mention | None, int]:
        """The longest name from this word on and before `end`, and how many words to go on by."""
        if words[start].word in FILLERS:
            return None, 1
        for length in range(min(_LONGEST, end - start), 0, -1):
            window = words[start : start + length]
            if window[-1].word in FILLERS or window[-1].word in MANNER:
                continue
            match = self._named_whole(window, allowed) or self._named_shortly(window, allowed)
            if match and _joins_two_things(window, match):
                continue
            if match and not self._only_english(words, start, length, match, allowed):
                return Mention(window[0].start, window[-1].end, match), length
        return None, 1

    def _named_whole(self, window: list[Word], allowed: frozenset[ExerciseId] | None) -> NameMatch | None:
        typed = tuple(word.word for word in window if word.word not in FILLERS)
        if all(word.isdigit() for word in typed):
            return None
        in_one_piece = len(typed) == len(window)  # with small words between, only the usual order is a name
        sure = self._sure(typed, None, any_order=in_one_piece)
        if sure:
            return self._todays(sure, typed, allowed)
        mended = tuple(self._mend_firmly(word, alone=len(typed) == 1) for word in typed)
        if mended == typed:
            return None
        sure = self._sure(mended, None, any_order=in_one_piece)
        return self._todays(NameMatch(sure.exercise, 0.9, False, sure.alias), mended, allowed) if sure else None

    def _todays(self, match: NameMatch, words: tuple[str, ...], allowed: frozenset[ExerciseId] | None) -> NameMatch:
        """Another exercise's name means today's when exactly one of today's fits it ("bench press" on a dumbbell day)."""
        if allowed is None or match.exercise in allowed:
            return match
        return self._only_fit(words, allowed) or match

    def _named_shortly(self, window: list[Word], allowed: frozenset[ExerciseId] | None) -> NameMatch | None:
        if allowed is None or _is_figure(window[0]) or _is_figure(window[-1]):
            return None
        words = tuple(self._mend_firmly(word.word, alone=len(window) == 1) for word in window if word.word not in FILLERS)
        return None if only_describes(words) else self._only_fit(words, allowed)

    def _only_fit(self, words: tuple[str, ...], allowed: frozenset[ExerciseId]) -> NameMatch | None:
        """The one exercise of today whose names (or kit) hold all these words; None if none or several do so alike."""
        if not all(word in self._weight for word in words):
            return None
        matches = self._alike(words, allowed, 1)
        return matches[0] if matches and matches[0].score >= 0.9 and self._holds(matches[0].exercise, words) else None

    def _holds(self, exercise: ExerciseId, words: tuple[str, ...]) -> bool:
        implied = self._implied[exercise]
        return any(all(word in self._names[at].words or word in implied for word in words) for at in self._of_exercise[exercise])

    def _mend_firmly(self, word: str, *, alone: bool = False) -> str:
        """Mend one word only where a single known word is near: inside a sentence most words are no exercise at all.

        alone: no other word of a name stands beside it, so only one slip is forgiven, and never in the first letter.
        """
        if word in self._weight or len(word) < 5 or word in OTHER_WORDS:
            return word
        near = [(known, quality) for known, quality in self._mend(word) if abs(len(known) - len(word)) <= 2]
        if len(near) != 1 or near[0][1] < (0.92 if alone or len(word) < 7 else 0.84):
            return word
        return word if alone and near[0][0][0] != word[0] else near[0][0]

    def _only_english(
        self, words: list[Word], start: int, length: int, match: NameMatch, allowed: frozenset[ExerciseId] | None
    ) -> bool:
        """Is it everyday English rather than a name? "good morning!", "sat on the bench"."""
        window = [word.word for word in words[start : start + length] if word.word not in FILLERS]
        key = "".join(window)
        before = words[start - 1].word if start else ""
        after = words[start + length].word if start + length < len(words) else ""
        if (key == "bench" and before in ARTICLES) or (key in BAR_OF and after in ("bar", "station", "stand")):
            return True
        if not (key in EVERYDAY or only_describes(window)) or (allowed is not None and match.exercise in allowed):
            return False
        beside = [words[at].word for at in (start - 1, start + length) if 0 <= at < len(words)]
        return not any(word.isdigit() for word in beside)


def _joins_two_things(window: list[Word], match: NameMatch) -> bool:
    """As in "floor on push ups": a small word of place between two things, unless the name itself has it ("push up on knees")."""
    return bool({word.word for word in window} & PLACING - set(match.alias.lower().split()))


def _is_figure(word: Word) -> bool:
    """Was it typed as digits? A lone 1 folds to "one", yet beside a short name it is a count."""
    return word.word.isdigit() or (word.word == "one" and word.end - word.start == 1)


def _implied_words(exercise: Exercise) -> frozenset[str]:
    """Words that add nothing to this exercise's name: the kit it may use, one side at a time."""
    kit = " ".join(item.value.replace("_", " ") for way in exercise.kit for item in way)
    words = set(fold(kit))
    if exercise.one_sided:
        words |= {"one", "arm", "leg", "alternating"}
    return frozenset(words)


def _clear_if_it_leads(
    best: dict[ExerciseId, tuple[float, bool, float, int]],
) -> dict[ExerciseId, tuple[float, bool, float, int]]:
    """Among a few exercises a short name is clear when only one has all its words, or has them far more closely."""
    whole = nlargest(2, (item for item in best.items() if item[1][1]), key=lambda item: item[1][0])
    if not whole or (len(whole) == 2 and whole[0][1][0] < _CLEAR_LEAD * whole[1][1][0]):
        return best
    exercise, (score, covered, worst, place) = whole[0]
    return {**best, exercise: (max(score, 0.92 * worst), covered, worst, place)}


def _slips_allowed(word: str) -> int:
    """How many letters may be wrong: none in short words, where another word is too near."""
    return 0 if len(word) < 4 else 1 if len(word) < 6 else 2 if len(word) < 9 else 3
