"""Which exercises does a text name? Found by the catalogue, by the coach's own wording and by the member's nicknames."""

from __future__ import annotations

import re
from functools import lru_cache

from bot.language.reading import tongues
from bot.language.reading.words import LEXICON
from bot.language.situation import Situation
from bot.language.tokens import Token, fold
from bot.training.blocks import Day, ExerciseId
from bot.training.exercises.catalogue import Catalogue

# Everyday words of set talk that are also exercise names; they name one only where it is on the day's plan.
_EVERYDAY = frozenset(
    [
        "step",
        "steps",
        "hold",
        "holds",
        "press",
        "pressed",
        "curl",
        "curled",
        "row",
        "rowed",
        "band",
        "bands",
        "bar",
        "bench",
        "plank",
        "planks",
        "raise",
        "raises",
        "side",
        "sides",
        "weight",
        "weights",
        "single",
    ]
)

# Parts of exercise names that name none by themselves ("pack loaded to 18 kilos", "good morning").
_TOO_LITTLE = frozenset(
    [
        "around",
        "bag",
        "book",
        "dead",
        "dog",
        "good",
        "loaded",
        "lower",
        "morning",
        "open",
        "pack",
        "ring",
        "rings",
        "rock",
        "split",
        "world",
        "toes",
        "front",
        "back",
        "side",
    ]
)
_NO_NAMES = re.compile(
    r"\bunassisted\b|\bin a row\b|\bon shuffle\b|\bstep (?:up|down|back)? ?(?:in|from) weight\b|\bgood morning\b(?=[\s,!]*(?:coach|all|everyone|team|folks))|\bboard meeting\b"
)
_VERBS = frozenset(["benched", "squatted", "pressed", "rowed", "curled", "planked", "deadlifted", "lunged"])
_MOST_LINES = 100
_MOST_TOKENS = 450  # a session of sixty lines has about as many; beyond, no names are looked for


def names_in(folded: str, tokens: list[Token], situation: Situation, catalogue: Catalogue) -> list[tuple[int, int, str]]:
    """(start, end, slot label) for exercises of the day; (start, end, "ex:" + id) for others. In reading order, not overlapping."""
    if not any(token.kind == "w" and len(token.text) > 1 and _may_name(token.text) for token in tokens):
        return []
    day = situation.day
    days = [day] if day else []
    if situation.block:
        days += [other for other in situation.block.days if day is None or other.number != day.number]
    own = _own_names(folded, day, situation)
    here = {situation.exercise_of(slot): slot.label for slot in reversed(day.slots)} if day else {}
    planned = {slot.exercise: slot.label for slot in reversed(day.slots)} if day else {}
    due = situation.due
    among = [exercise for exercise in (*here, *planned) if exercise is not None]
    first, last = tokens[0].start, tokens[min(len(tokens), _MOST_TOKENS) - 1].end
    found = list(own)
    for mention in catalogue.names.mentions(_NO_NAMES.sub(lambda m: " " * len(m.group()), folded[first:last]), among=among):
        start, end = mention.start + first, mention.end + first
        if any(start < stop and begin < end for begin, stop, _ in own):
            continue
        exercise = mention.match.exercise
        label = here.get(exercise) or planned.get(exercise)
        if label and due and (slot := situation.slot(due.label)) and situation.exercise_of(slot) == exercise:
            label = due.label
        words = re.findall(r"[^\W\d_]+", folded[start:end])
        if label is None and day is not None:
            label = _slot_with(words, day, situation)
        if (
            label
            and due
            and label != due.label
            and (own_slot := situation.slot(due.label))
            and _all_of(words, own_slot.exercise_name)
        ):
            label = due.label
        if all(
            LEXICON.get(word, "?") in "cbkuQq.x" or (LEXICON.get(word) == "I" and not _in_name(word, label, situation))
            for word in words
        ):
            continue
        if label is None and all(word in _EVERYDAY or word in LEXICON for word in words):
            continue
        if len(words) == 1 and (len(words[0]) == 1 or words[0] in _TOO_LITTLE or (label is None and not mention.match.exact)):
            continue
        if (
            label is not None
            and all(word in ("step", "steps", "hold", "held", "holding", "band", "bands", "bar") for word in words)
            and len(words) == 1
            and len(among) > 1
        ):
            continue
        found.append((start, end, label or f"ex:{exercise}"))
    if (day is not None and not folded.isascii()) or any(token.text in tongues.NAMES for token in tokens):
        found += _in_other_tongues(tokens, found, day, situation, catalogue)
    if day is not None:
        found += _by_its_word(folded, first, last, found, day, situation)
    if "\n" in folded:
        found += _headings(folded, first, last, found, here, catalogue, day, situation)
    if day is not None and (found or _NO_VOWELS.search(folded)):
        found += _garbled_heads(folded, first, last, found, day)
    return sorted(found)


def _slot_with(words: list[str], day: Day, situation: Situation) -> str | None:
    """The one slot whose name holds all these words: "bridges" where a single-leg bridge is on the plan."""
    swapped = dict(situation.swaps)
    holding = [slot.label for slot in day.slots if slot.label not in swapped and _all_of(words, slot.exercise_name)]
    return holding[0] if len(holding) == 1 else None


def _in_other_tongues(
    tokens: list[Token], found: list[tuple[int, int, str]], day: Day | None, situation: Situation, catalogue: Catalogue
) -> list[tuple[int, int, str]]:
    """ "sentadillas 40 10": the slot whose exercise is of that kind, where the day has one such."""
    more: list[tuple[int, int, str]] = []
    for token in tokens:
        meanings = tongues.NAMES.get(token.text, ())
        if not meanings or any(start < token.end and token.start < stop for start, stop, _ in found):
            continue
        due = situation.slot(situation.due.label) if situation.due is not None else None
        label = due.label if due is not None and any(_all_of(m.split(), due.exercise_name) for m in meanings) else None
        if label is None and day is not None:
            label = next(filter(None, (_slot_with(meant.split(), day, situation) for meant in meanings)), None)
        if label is None:
            best = catalogue.names.find(meanings[0], limit=1)
            label = f"ex:{best[0].exercise}" if best else None
        if label is not None:
            more.append((token.start, token.end, label))
    return more


_THE_ONE = re.compile(r"\b(?:the|my|that|those)\s+(?P<word>[a-z]{4,})\s+(?:ones?|things?|thingy|exercise|move|bit)\b")


def _by_its_word(
    folded: str, first: int, last: int, found: list[tuple[int, int, str]], day: Day, situation: Situation
) -> list[tuple[int, int, str]]:
    """ "the chest one": a word that the name of one exercise of the day holds, and of no other."""
    more: list[tuple[int, int, str]] = []
    for said in _THE_ONE.finditer(folded, first, last):
        label = _slot_with([said["word"]], day, situation)
        if (
            label
            and LEXICON.get(said["word"], "?") in "?I"
            and not any(start < said.end() and said.start() < stop for start, stop, _ in found)
        ):
            more.append((said.start(), said.end(), label))
    return more


def _in_name(word: str, label: str | None, situation: Situation) -> bool:
    """Is it a word of the name of the slot's exercise: "suitcase" of a suitcase carry?"""
    slot = situation.slot(label) if label else None
    return slot is not None and word in slot.exercise_name.lower()


def _all_of(words: list[str], name: str) -> bool:
    """Are these words, by their stems, all in this name?"""
    stems = [word[:5] for word in re.findall(r"[a-z]+", name.lower())]
    if len(words) == 1 and len(words[0]) > 5 and words[0].rstrip("s") in re.sub(r"[^a-z]", "", name.lower()):
        return True  # "pushups" of a hand-release push-up
    words = [word for word in words if LEXICON.get(word) != "."]
    return bool(words) and all(
        any(word[:5] == stem or (len(word) > 3 and stem.startswith(word[:4])) for stem in stems) for word in words
    )


_NUMBERED = re.compile(r"^\s*\d{1,2}[.)]\s+")


def _headings(
    folded: str,
    first: int,
    last: int,
    found: list[tuple[int, int, str]],
    here: dict[ExerciseId | None, str],
    catalogue: Catalogue,
    day: Day | None,
    situation: Situation,
) -> list[tuple[int, int, str]]:
    """A line of words alone above lines of numbers names an exercise, even by a word that elsewhere would be too little."""
    more: list[tuple[int, int, str]] = []
    at = 0
    among = [exercise for exercise in here if exercise is not None]
    for line in folded.split("\n")[:_MOST_LINES]:
        start, end = at, at + len(line)
        at = end + 1
        bare = _NUMBERED.sub("", line).strip(" :-.*#")
        if (
            not (first <= start < last)
            or not bare
            or len(bare) > 40
            or any(letter.isdigit() for letter in bare)
            or len(bare.split()) > 5
        ):
            continue
        if any(begin < end and start < stop for begin, stop, _ in found):
            continue
        by_words = _slot_with(bare.split(), day, situation) if day is not None else None
        if by_words and not any(label == by_words for _, _, label in (*found, *more)):
            more.append((start, end, by_words))
            continue
        best = catalogue.names.find(bare, among=among, limit=2)
        if best and best[0].score >= 0.5 and (len(best) < 2 or best[0].score >= 1.2 * best[1].score):
            more.append((start, end, here[best[0].exercise]))
    return more


_NO_VOWELS = re.compile(
    r"(?<![^\W\d_])(?!reps?|kgs?|lbs?|rpe|rdl|wth|smth|thx|pls|plz|hmm|pfft|grr|brb|tbh|nvm|wrm|btw|mth|sth|rst)[bcdfghjklmnpqrstvwxz]{3,6}(?![^\W\d_])"
)
_HEAD = re.compile(
    r"(?:^|\n|[,;.]\s|\band )\s*(?P<word>(?:[^\W\d_]{4,}(?: [^\W\d_]{2,}){0,2}|[^\W\d_]{3} [^\W\d_]{2,}))(?=\s*[:=|-]?\s*\d)"
)


# "lp 100 12": initials at the head of a line.
_INITIALS = re.compile(r"(?:^|\n)\s*(?P<word>[b-df-hj-np-tv-z]{2,5})(?=\s*[:=|-]?\s*\d)")


def _begins_words_of(said: str, name: str) -> bool:
    """ "split sq", "band lats": each word said begins one of the name's."""
    words = fold(name).replace("-", " ").split()
    bare = ["".join(letter for letter in word if letter not in "aeiou") for word in words]

    def begins(each: str) -> bool:
        if not set(each) & set("aeiouy"):  # "flr prss", "sqt"
            return any(word.startswith(each) for word in bare)
        return any(word.startswith(each.removesuffix("s")) for word in words)

    return all(begins(each) for each in said.split())


def _garbled_heads(folded: str, first: int, last: int, found: list[tuple[int, int, str]], day: Day) -> list[tuple[int, int, str]]:
    """ "squat 80 6 6\nbank 62.5 8 7\nrow 60 9 9": a strange word where the other lines have names is one too.

    It names the exercise left between its neighbours in the order of the day, else the one whose name begins as it does.
    """
    labels = [slot.label for slot in day.slots]
    more: list[tuple[int, int, str]] = []
    for said in (*_HEAD.finditer(folded, first, last), *_INITIALS.finditer(folded, first, last)):
        start, stop = said.span("word")
        known = [*found, *more]
        if any(begin < stop and start < end for begin, end, _ in known):
            continue
        named = {name[2] for name in known}
        begun = [
            slot.label
            for slot in day.slots
            if slot.label not in named
            and (said["word"] in _first_letters(slot.exercise_name) or _begins_words_of(said["word"], slot.exercise_name))
        ]
        before = max((name for name in known if name[1] <= start), default=None)
        after = min((name for name in known if name[0] >= stop), default=None)
        low = labels.index(before[2]) if before and before[2] in labels else -1
        high = labels.index(after[2]) if after and after[2] in labels else len(labels) if before and not after else -1
        between = [label for label in labels[low + 1 : max(high, 0)] if label not in named]
        if len(begun) == 1:
            more.append((start, stop, begun[0]))
        elif (
            len(between) == 1 and ("\n" in folded or len(found) > 2) and not all(word in LEXICON for word in said["word"].split())
        ):
            more.append((start, stop, between[0]))
    return more


def _may_name(word: str) -> bool:
    kind = LEXICON.get(word)
    return kind is None or kind in "bI" or word in _EVERYDAY or word in _VERBS


def _own_names(folded: str, day: Day | None, situation: Situation) -> list[tuple[int, int, str]]:
    """The coach's own wording, block aliases and the member's nicknames, as slots of the day."""
    if day is None:
        return []
    found: list[tuple[int, int, str]] = []
    for name, label in _own_wording(
        day, situation.block.aliases if situation.block else (), situation.habits.nicknames, situation.swaps
    ):
        for match in re.finditer(rf"(?<![^\W\d_]){re.escape(name)}(?:e?s)?(?![^\W\d_])", folded):
            if len(found) >= _MOST_LINES:
                break
            if not any(match.start() < stop and begin < match.end() for begin, stop, _ in found):
                found.append((match.start(), match.end(), label))
    return found


def _bare_words(name: str) -> list[str]:
    words = re.findall(r"[a-z]+", fold(name))
    return [word for word in words if LEXICON.get(word) not in ("I", "b")] or words


_TWO_IN_ONE = re.compile(r"\b(pull|push|step|dead|chin|skull|kick|side)(?=down|over|up|lift|through|apart|crusher|back)")


def _all_words(name: str) -> list[str]:
    """ "incline dumbbell press" in its words; "pulldown" is two."""
    return re.findall(r"[a-z]+", _TWO_IN_ONE.sub(r"\1 ", fold(name)))


_SHORT_KIT = {"dumbbell": "db", "barbell": "bb", "kettlebell": "kb"}


def _first_letters(name: str) -> tuple[str, ...]:
    """ "lr" and the like for "Lateral raise", "dbsp" for "Dumbbell shoulder press"."""
    ways = (_bare_words(name), _all_words(name), [_SHORT_KIT.get(word, word[0]) for word in _all_words(name)])
    return tuple(dict.fromkeys(["".join(word[0] for word in way) for way in ways[:2]] + ["".join(ways[2])]))


def _initials(day: Day) -> list[tuple[str, str]]:
    """ "lr" for the lateral raise, where only one exercise of the day begins so and the letters mean nothing else."""
    made = [(first, slot.label) for slot in day.slots for first in _first_letters(slot.exercise_name)]
    letters = [first for first, _ in made]
    return [(first, label) for first, label in made if len(first) > 1 and letters.count(first) == 1 and first not in LEXICON]


@lru_cache(maxsize=256)
def _own_wording(
    day: Day, aliases: tuple[tuple[str, str], ...], nicknames: tuple[tuple[str, str], ...], swaps: tuple[tuple[str, str], ...]
) -> tuple[tuple[str, str], ...]:
    swapped = dict(swaps)
    pairs: list[tuple[str, str]] = []
    for slot in day.slots:
        if slot.label not in swapped or slot.exercise is None:
            pairs.append((fold(slot.exercise_name), slot.label))
        pairs += [(fold(alias), slot.label) for alias, name in aliases if fold(name) == fold(slot.exercise_name)]
        pairs += [
            (fold(name), slot.label) for name, exercise in nicknames if exercise in (slot.exercise, swapped.get(slot.label))
        ]
    pairs += _initials(day)
    known = [(name.strip(), label) for name, label in pairs if len(name.strip()) > 1]
    return tuple(sorted(dict(reversed(known)).items(), key=lambda pair: -len(pair[0])))
