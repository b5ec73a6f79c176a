"""Which words of a question say the same? Folds a shape to the features by which it is compared with others.

"how much more of @"      -> many more @, and its pairs
"which db do i grab for @" -> what weight ... pick ... @
"""

from __future__ import annotations

import re
from itertools import pairwise

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
# Politeness and filler: they say nothing about the topic.
FILLER = frozenset(
    (
        "please", "coach", "hey", "hi", "hello", "so", "ok", "okay", "well", "um", "uh", "just", "really", "actually",
        "now_then", "btw", "thanks", "thx", "cheers", "lol", "haha", "sorry", "quick", "question", "like", "the", "a", "an",
        "of", "to", "for", "in", "at", "and", "or", "it", "its", "this", "that", "these", "those", "is", "are", "am", "be",
        "do", "does", "did", "i", "you",
    )
)  # fmt: skip


def words_of(shape: str) -> list[str]:
    """The words of a shape, days and numbers folded, words that mean the same made one."""
    folded = re.sub(rf"\b(?:{_LETTER_DAYS})s?\b", "day", shape)
    folded = re.sub(r"\d+(?:\.\d+)?", "#", folded)
    return [_SAME.get(word, word) for word in re.findall(r"[a-z]+|[@#~]", folded)]


def features_of(shape: str) -> set[str]:
    """Words, and pairs of neighbours with a space between; "^" and "$" are the ends."""
    words = words_of(shape)
    return {*words, *(f"{one} {two}" for one, two in pairwise(["^", *words, "$"]))}
