"""How is an exercise's name brought to one form, however it was typed?

Case, accents, hyphens, plurals and short forms are folded away; words that carry nothing are left out; word order is kept.

    "DB Bench-Presses"        -> dumbbell bench press
    "one armed row", "SA row" -> one arm row
    "press-ups"               -> pushup
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache
from typing import NamedTuple

# Letters and digits apart, so that "squats20x12" gives its word; an apostrophe stays inside ("farmer's").
_WORD = re.compile(r"\d+|[^\W\d_]+(?:['’`´][^\W\d_]+)*")


def word_set(text: str) -> frozenset[str]:
    """Words written in a line."""
    return frozenset(text.split())


FILLERS = word_set("a an the with of on my your for to in and from using at s x our some this that")

# Short forms and same-meaning words as people type them (common practice). The right side is folded already.
_SAME: dict[str, str] = {
    "db": "dumbbell", "dbs": "dumbbell", "dumbell": "dumbbell", "dumbells": "dumbbell", "dumbel": "dumbbell", "bb": "barbell",
    "barbel": "barbell", "barbells": "barbell", "kb": "kettlebell", "kbs": "kettlebell", "kettle": "kettlebell",
    "bw": "bodyweight", "mb": "medicine ball", "bp": "bench press", "ohp": "overhead press", "mp": "military press",
    "rdl": "romanian deadlift", "rdls": "romanian deadlift", "sldl": "stiff leg deadlift", "sldls": "stiff leg deadlift",
    "slrdl": "one leg romanian deadlift", "srdl": "one leg romanian deadlift", "dl": "deadlift", "dls": "deadlift",
    "bss": "bulgarian split squat", "rfess": "bulgarian split squat", "ffess": "front foot elevated split squat",
    "cgbp": "close grip bench press", "skullcrusher": "skull crusher", "skullcrushers": "skull crusher",
    "ghr": "glute ham raise", "bor": "bentover row", "tgu": "turkish getup", "rkc": "rkc", "dbbp": "dumbbell bench press",
    "sa": "one arm", "sl": "one leg", "single": "one", "1": "one", "unilateral": "one", "armed": "arm", "legged": "leg",
    "handed": "arm", "hand": "arm", "hands": "arm", "straightleg": "stiff leg", "alt": "alternating",
    "alternate": "alternating", "abs": "ab", "dips": "dip", "flye": "fly", "flyes": "fly", "flies": "fly", "flys": "fly", "carries": "carry", "carrys": "carry",
    "calves": "calf", "lat": "lat", "lats": "lat", "oh": "overhead", "ext": "extension", "exts": "extension", "incl": "incline",
    "inc": "incline", "decl": "decline", "biceps": "bicep", "bi": "bicep", "bis": "bicep", "triceps": "tricep", "tri": "tricep",
    "tris": "tricep", "delts": "delt", "deltoid": "delt", "deltoids": "delt", "shoulders": "shoulder", "quads": "quad",
    "quadriceps": "quad", "hams": "hamstring", "hammy": "hamstring", "hammies": "hamstring", "abduct": "abduction",
    "abductions": "abduction", "raised": "raise", "rows": "row", "rowing": "row", "pushing": "push", "squatting": "squat",
    "curling": "curl", "sitting": "seated", "laying": "lying", "laid": "lying", "kneel": "kneeling", "stand": "standing",
    "elevated": "elevated", "feet": "foot", "suspension": "strap", "suspended": "strap", "straps": "strap",
    "swiss": "exercise", "stability": "exercise", "gym": "exercise", "physio": "exercise", "bands": "band", "banded": "band",
    "resistance": "band", "tube": "band", "loop": "band", "minute": "minute", "lateral": "lateral", "laterals": "lateral raise",
    "sideways": "side", "crossbody": "cross body", "butt": "glute", "bum": "glute", "ez": "ez", "easy": "easy", "hip": "hip",
    "pulldowns": "pulldown", "pullups": "pullup", "chins": "chinup", "pressup": "pushup", "pressups": "pushup",
    "tgus": "turkish getup", "hlr": "hanging leg raise", "hlrs": "hanging leg raise", "hkr": "hanging knee raise",
    "parallel": "parallel", "narrow": "close", "neutralgrip": "neutral grip", "palms": "palm", "facing": "facing",
    "bodyweighted": "bodyweight", "goblets": "goblet", "jumprope": "skipping rope", "skipping": "skipping", "ropes": "rope",
    "backpack": "backpack", "rucksack": "backpack", "bag": "backpack", "bentover": "bentover", "stepup": "stepup",
    "farmers": "farmer", "squatted": "squat", "squats": "squat", "benched": "bench press", "benching": "bench press",
    "rowed": "row", "curled": "curl", "lunged": "lunge", "lunging": "lunge", "planked": "plank", "planking": "plank",
    "deadlifted": "deadlift", "deadlifting": "deadlift", "swung": "swing", "swinging": "swing", "dipped": "dip", "hung": "hang",
    "hanged": "hang", "shrugged": "shrug", "crunched": "crunch", "neg": "negative", "negs": "negative",
    "eccentrics": "eccentric", "stepping": "step", "skipped": "skip", "ups": "up", "pres": "press", "deads": "deadlift",
    "sq": "squat", "sqs": "squat", "sqt": "squat", "sqts": "squat", "sqat": "squat", "bsq": "back squat", "bsqt": "back squat",
    "fsq": "front squat", "gsq": "goblet squat", "lpd": "lat pulldown",
    "jmp": "jump", "jmps": "jump", "bx": "box", "ham": "hamstring", "skulls": "skull crusher", "mountainclimber": "mountain climber",
    "mountainclimbers": "mountain climber",
}  # fmt: skip

# Words that people write joined, apart or with a hyphen.
_JOIN = {
    ("push", "up"): "pushup", ("press", "up"): "pushup", ("pull", "up"): "pullup", ("chin", "up"): "chinup",
    ("sit", "up"): "situp", ("step", "up"): "stepup", ("step", "down"): "stepdown", ("pull", "down"): "pulldown",
    ("push", "down"): "pushdown", ("press", "down"): "pushdown", ("pull", "over"): "pullover", ("pull", "apart"): "pullapart",
    ("pull", "through"): "pullthrough", ("dead", "lift"): "deadlift", ("dead", "bug"): "deadbug", ("bird", "dog"): "birddog",
    ("kick", "back"): "kickback", ("bent", "over"): "bentover", ("cross", "over"): "crossover", ("roll", "out"): "rollout",
    ("get", "up"): "getup", ("clam", "shell"): "clamshell", ("dumb", "bell"): "dumbbell", ("bar", "bell"): "barbell",
    ("kettle", "bell"): "kettlebell", ("body", "weight"): "bodyweight", ("wood", "chop"): "woodchop", ("v", "up"): "vup",
    ("wall", "sit"): "wallsit", ("body", "saw"): "bodysaw", ("thruster", "s"): "thruster", ("sit", "out"): "sitout",
    ("walk", "out"): "walkout", ("jump", "rope"): "skippingrope", ("skipping", "rope"): "skippingrope",
    ("skip", "rope"): "skippingrope", ("back", "pack"): "backpack", ("sand", "backpack"): "sandbag",
    ("kettlebell", "bell"): "kettlebell", ("squat", "jump"): "jumpsquat", ("jump", "squat"): "jumpsquat",
    ("straight", "leg"): "straightleg", ("pulse", "up"): "pulseup", ("hamstring", "string"): "hamstring",
}  # fmt: skip

_KEEP_S = word_set("press cross plus bus pass less across")


class Word(NamedTuple):
    """One folded word and the characters it came from: text[start:end]."""

    word: str
    start: int
    end: int


def fold(text: str) -> tuple[str, ...]:
    """The folded words of a name, fillers left out, in the order typed."""
    return tuple(word.word for word in folded_words(text) if word.word not in FILLERS)


def folded_words(text: str) -> list[Word]:
    """Every folded word with its place; fillers still in, so that places have no holes."""
    words: list[Word] = []
    for found in _WORD.finditer(text):
        if found.group() in "wW" and text.startswith("/", found.end()):
            continue  # "w/ a band" is "with a band"; a lone W is a shape
        for part in _folded(found.group()):
            last = words[-1] if words else None
            joined = _JOIN.get((last.word, part)) if last else None
            if joined and last:
                words.pop()
                words += [Word(piece, last.start, found.end()) for piece in _SAME.get(joined, joined).split()]
            else:
                words.append(Word(part, found.start(), found.end()))
    return words


@lru_cache(maxsize=8192)
def _folded(raw: str) -> tuple[str, ...]:
    plain = unicodedata.normalize("NFKD", raw.lower())
    word = "".join(letter for letter in plain if letter.isalnum())
    same = _SAME.get(word) or _SAME.get(singular(word))
    return tuple(same.split()) if same else (singular(word),)


def singular(word: str) -> str:
    """Strip a plural ending: "presses" -> "press", "curls" -> "curl"; short words and "press" itself stay."""
    if len(word) <= 3 or word in _KEEP_S or word.endswith("ss"):
        return word
    if word.endswith(("sses", "shes", "ches", "xes")):
        return word[:-2]
    return word.removesuffix("s")
