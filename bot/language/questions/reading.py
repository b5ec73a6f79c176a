"""Which questions does a text ask, and about what?

Plan: cut the text into parts that can each be one question, leave out what swaps and date moves claim, then take for each part the
first topic whose words fit (cues.py), and resolve slot, exercise, tempo and term in it.

    "what does 3-1-1-0 mean and how long do I rest" -> TEMPO 3-1-1-0, REST
    "last time a1?"                                 -> LAST_TIME A1
    "no barbell, what instead of C1?"               -> nothing: a swap
    "why rows and not pull-ups for me?"             -> FOR_COACH
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from bot.language.questions.asked import Asked, Topic
from bot.language.questions.cues import DEFINES, IS_QUESTION, NOT_MINE, WEEKDAYS, cues
from bot.language.questions.samples import NOTHING, Vote, vote
from bot.language.safety.words import mend
from bot.language.situation import Situation
from bot.training.blocks import ExerciseId
from bot.training.exercises.catalogue import Catalogue, load_catalogue
from bot.training.exercises.names import Mention
from bot.training.tempo import Tempo, parse_tempo
from bot.training.terms import terms_by_name, terms_in

_TEMPO = re.compile(
    r"(?<![\d.])(?:\d{1,2}(?P<s>[-–—/.:])\d{1,2}(?P=s)(?:\d{1,2}|[xX])(?:(?P=s)(?:\d{1,2}|[xX]))?|\d{2}[xX\d][\dxX]|\d{2}[xX])(?![\d.])"
)
_SLOT = re.compile(r"\b([a-h])\s?([1-9])\b", re.IGNORECASE)
_CUT = re.compile(
    r"(?<=[?!])\s+|\n+|(?<=[a-z)])\.+\s+|;\s*|(?:,?\s+(?:and|also|&|plus|then)\s+|,\s*)(?=(?:also |then )?(?:(?:for|at|with|on|in) (?=what|how many(?! sec)|which))?(?:what|whats|how|when|where|who|why|which|do i|does|should|can i|is there|is it|is that|am i|did i|have i|will)\b)",
    re.IGNORECASE,
)
# Words that questions turn on, for mending slips.
_VOCABULARY = frozenset(
    [
        "tempo",
        "weight",
        "weights",
        "heavy",
        "heavier",
        "exercise",
        "exercises",
        "session",
        "program",
        "programme",
        "tomorrow",
        "remaining",
        "missed",
        "record",
        "personal",
        "increase",
        "superset",
        "between",
        "alternate",
        "dumbbell",
        "dumbbells",
        "kettlebell",
        "barbell",
        "should",
        "mean",
        "means",
        "meaning",
        "stand",
        "stands",
        "explain",
        "workout",
        "next",
        "start",
        "begin",
        "which",
        "technique",
        "privacy",
        "data",
        "today",
        "todays",
        "previous",
        "heaviest",
        "failure",
        "seconds",
        "where",
        "what",
        "break",
        "resting",
        "left",
        "lower",
    ]
)
_JOINED = {"wot": "what", "wut": "what", "wots": "whats", "wuts": "whats", "hws": "how", "mny": "many", "mch": "much", "lng": "long", "hv": "have", "cud": "could", "wud": "would", "dis": "this", "dat": "that", "abt": "about",
           "thru": "through", "reckon": "think", "diff": "difference", "tht": "that", "exos": "exercises", "excercises": "exercises", "exersises": "exercises", "wat": "what", "wht": "what", "whts": "whats", "wats": "whats", "waht": "what", "hwo": "how", "nxt": "next", "nex": "next", "tmrw": "tomorrow", "tmr": "tomorrow",
           "tmw": "tomorrow", "tomoro": "tomorrow", "2moro": "tomorrow", "pls": "please", "plz": "please", "rn": "now", "wich": "which", "witch": "which", "sholud": "should", "shud": "should",
           "shld": "should", "wen": "when", "hw": "how", "lst": "last", "prev": "previous", "wk": "week", "wks": "weeks", "sesh": "session", "mins": "minutes", "secs": "seconds",
           "exersise": "exercise", "excercise": "exercise", "weigth": "weight", "wieght": "weight", "wgt": "weight", "wt": "weight", "bw": "between", "btw": "btw", "nd": "and", "ive": "ive", "programm": "program"}  # fmt: skip
# In speech these ask nothing.
_RHETORIC = re.compile(
    r"^(?:how (?:nice|cool|great|awesome)|what a\b|why not|who cares|guess what|you know what|can you believe|what the (?:hell|heck)$|whats up|how are you|how is it going|hows it going|will do|can do|is done|done)\b"
)
_STATEMENT = re.compile(
    r"^(?:i|we|my|it|that|this|just|did|done|got|ok|thanks|thank|yes|no|was|had|will|is|can|may|do|have|am|are|were) (?!i\b|we\b|you\b|it\b|this\b|that\b|there\b|the\b|my\b|coach\b)"
)
_DEFINE_BARE = 4  # words: "RIR = ?", "neutral grip, meaning?"


def read_questions(text: str, situation: Situation, catalogue: Catalogue | None = None) -> tuple[Asked, ...]:
    """Every question in a text, in order, each once. Empty where none is asked, and for swaps and date moves. Never raises; pure.

    catalogue: the group's, None for the plain one.
    """
    here = _Here(situation, catalogue or load_catalogue())
    found: dict[tuple[Topic, str, str], Asked] = {}
    for part in _parts(text[:4096], here):
        asked = _read_part(part, here)
        if asked is not None and not (found and _HANGS_ON.search(_line(part))):
            found.setdefault((asked.topic, asked.label or str(asked.exercise or ""), asked.term), asked)
    asks = list(found.values())
    sure = [one for one in asks if one.topic is not Topic.FOR_COACH]
    # A leftover half sentence beside a clear question is no second one for the coach, unless it asks by itself.
    return tuple(one for one in asks if one in sure or not sure or one.text.rstrip().endswith("?"))


@dataclass(frozen=True, slots=True)
class _Here:
    """In the light of what a text is read."""

    situation: Situation
    catalogue: Catalogue

    def mentions(self, text: str) -> tuple[Mention, ...]:
        """The exercises that a text names, today's before any other."""
        todays = self.situation.day.slots if self.situation.day else ()
        among = [exercise for one in todays if (exercise := self.situation.exercise_of(one))]
        names = self.catalogue.names
        return tuple((names.mentions(text, among=among) if among else ()) or names.mentions(text))


def is_plainly_asked(text: str, situation: Situation, catalogue: Catalogue) -> bool:
    """Is a text, as a whole, surely a question of one of our topics and no wish for another exercise? Never raises; pure."""
    liked = _vote(text[:4096], _Here(situation, catalogue))
    return liked is not None and liked.topic not in NOTHING and liked.likeness >= _LIKE_SURELY and liked.others["swap"] < _NO_SWAP


# Chosen on the tuned corpora of swaps and questions.
_LIKE_SURELY, _NO_SWAP = 0.6, 0.15


def _parts(text: str, here: _Here) -> list[str]:
    """The parts that can each be one question; what only leads up to one ("calves, what am I ...") goes with what follows."""
    cut = [part.strip() for part in _CUT.split(text) if part and part.strip()]
    parts: list[str] = []
    held = ""
    for at, part in enumerate(cut):
        if at + 1 < len(cut) and _leads_up(part):
            held = f"{held} {part}".strip()
            continue
        parts.append(_with_lead(held, part, here))
        held = ""
    return parts


_NAMES_ONLY, _LEADS_UP = 3, 10  # words


def _leads_up(part: str) -> bool:
    """ "calves", "first time on RDLs": no question of its own, so what follows may be about it."""
    return len(part.split()) <= _LEADS_UP and "?" not in part and not IS_QUESTION.search(_line(part))


def _with_lead(lead: str, part: str, here: _Here) -> str:
    """A name always belongs to the question; a longer lead only where the question is the clearer for it."""
    together = f"{lead} {part}".strip()
    if len(lead.split()) <= _NAMES_ONLY:
        return together
    both, alone = (_vote(said, here) for said in (together, part))
    return together if both and both.topic not in NOTHING and (alone is None or both.likeness >= alone.likeness) else part


def _vote(said: str, here: _Here) -> Vote | None:
    return vote(_shape(_spelled(said, here), here))


# Asks about what the part before has asked already: "never heard of RIR, what is it".
_HANGS_ON = re.compile(
    r"^(?:and |so )?(?:what|whats|how|hows)(?: the heck| on earth)?(?: is| does| do| s)? (?:it|that|this|they|those)(?: mean| work| for| about)?$|^(?:and |so )?how do i (?:go on|carry on|continue|proceed|get back into it)$"
    r"|^(?:and |so )?what (?:(?:do|should|can|shall) i (?:do|drop|cut|skip|leave out|do first)|comes first|goes first|then)$"
)


# Said otherwise than written: "hw mny sets 2 go", "wot did i use 4 curls b4", "the rest of it", "have I done all the Bs".
_SPELLED = (
    (re.compile(r"\bthe rest of (?=(?:the|this|it|that|my|today|these|them|what)\b(?! weeks?\b))", re.I), "what remains of "),
    (re.compile(r"\b(use|used|using|weights?|reps?|sets?|tempo|rest|go|heavy|cues|best|record|target|numbers?|time) 4 (?=[a-z])(?!(?:sets?|reps?|kg|x)\b)", re.I), r"\1 for "),
    (re.compile(r"\b2 (?=(?:go|do|use|lift|rest|start|take|log|send)\b)", re.I), "to "),
    (re.compile(r"\bshould of\b", re.I), "should have"),
    (re.compile(r"\bhows many\b", re.I), "how many"),
)  # fmt: skip
_BEFORE = re.compile(r"\bb4\b", re.IGNORECASE)
_GROUP = re.compile(
    r"\b(?:the|my|all) (?:([B-H])s|([b-h])s|(A)s)\b|\b([A-Hb-h]) (?:pair|superset|group|circuit)\b|(?<=\bof )([B-Hb-h])\b"
)


def _spelled(part: str, here: _Here) -> str:
    """The part with slips of ear and thumb put right, and a whole letter ("the Cs") as its first slot."""
    for pattern, said in _SPELLED:
        part = pattern.sub(said, part)
    if here.situation.slot("B4") is None:
        part = _BEFORE.sub("before", part)
    return _GROUP.sub(lambda match: _first_slot(match, here.situation), part)


def _first_slot(match: re.Match[str], situation: Situation) -> str:
    letter = next(group for group in match.groups() if group).upper()
    return f"{letter}1" if situation.slot(f"{letter}1") else match.group()


def _read_part(said: str, here: _Here) -> Asked | None:
    part = _spelled(said, here)
    line = _line(part)
    if not line or (NOT_MINE.search(line) and not _mine_after_all(part, here)):
        return None
    asks = "?" in part or IS_QUESTION.search(line) is not None
    tempo = _tempo(part)
    label, exercise, words = _about(part, here)
    topic, certainty, term = _topic(part, line, tempo, words or label, asks)
    topic, certainty, term = _weighed(topic, certainty, term, _liked(part, here, line), line, _asks_plainly(part, line))
    if topic is None:
        return None
    if label and exercise is None:
        slot = here.situation.slot(label)
        exercise = here.situation.exercise_of(slot) if slot else None
    weekday = next((WEEKDAYS[word] for word in line.split() if word in WEEKDAYS), None)
    ahead = 1 if "tomorrow" in line else 2 if "day after tomorrow" in line else None
    return Asked(topic, said, certainty, label, exercise, words, tempo, term, weekday, ahead)


def _mine_after_all(part: str, here: _Here) -> bool:
    """Words of a swap or a date in what is plainly a question of ours: "remind me what RIR is", "why no bench this month"."""
    liked = vote(_shape(part, here))
    return (
        liked is not None
        and liked.topic not in NOTHING
        and liked.likeness >= max(_LIKE_MINE, liked.others["swap"] + _CLEAR_OF_SWAP)
    )


_LIKE_MINE, _CLEAR_OF_SWAP = 0.45, 0.2


def _topic(part: str, line: str, tempo: Tempo | None, about: str, asks: bool) -> tuple[Topic | None, float, str]:
    bare = len(line.split()) <= _DEFINE_BARE and ("?" in part or "=" in part)
    term = _defined(line, bare, about)
    if term == "tempo" or (tempo is not None and (asks or bare)):
        return Topic.TEMPO, 0.95, ""
    if term:
        return Topic.TERM, 0.93, term
    if _RHETORIC.search(line):
        return None, 0.0, ""
    marked = _marked(line, about)
    if asks or bare or _ASKS_ANYWAY.search(line):
        for topic, pattern, certainty in cues():
            if pattern.search(marked):
                sure = certainty if "?" in part or IS_QUESTION.match(line) else certainty - 0.12
                return topic, sure, ""
    if "?" in part and bare and about:
        return Topic.TARGET, 0.7, ""
    opens = re.match(
        r"(?:so |and |but |coach |hey |hi |hello |please |also |ok )*(?:what|whats|how|when|where|who|why|which|do|does|did|can|could|should|would|will|is|are|am|may|shall)\b",
        line,
    )
    if len(line.split()) >= 3 and (("?" in part and _has_words(line)) or (opens and not _STATEMENT.search(line))):
        return Topic.FOR_COACH, 0.55, ""
    return None, 0.0, ""


# How like the samples a text has to be for their topic to be taken (chosen on the tuned corpus): beside another topic's cue, where
# no cue fits with and without a sign of asking, and to be one that only tells something.
_LIKE_AGAINST, _LIKE_ASKED, _LIKE_UNASKED, _LIKE_NOTHING = 0.35, 0.3, 0.7, 0.3
# So like a question that it is one, whatever its first word.
_LIKE_PLAIN = 0.6
# A text that only tells something must be so much like the questions of its cue's topic to count as one.
_LIKE_TOLD = 0.45


def _weighed(
    topic: Topic | None, certainty: float, term: str, liked: Vote | None, line: str, asks: bool
) -> tuple[Topic | None, float, str]:
    """The cue's topic beside the samples' vote, which knows the cues too: it decides unless it is unsure."""
    if liked is None or (certainty >= 0.93 and not _means_something_else(topic, liked)):
        return topic, certainty, term
    known = topic if topic is not Topic.FOR_COACH else None
    asked = asks or (liked.topic not in NOTHING and liked.likeness >= _LIKE_PLAIN)
    if known and not asked and liked.others[known.value] < _LIKE_TOLD:
        return None, 0.0, ""  # "my knee was hurting on friday" has words of a question and asks nothing
    if liked.topic == topic or liked.likeness < _needed(liked, known, asks):
        return topic, certainty, term
    if liked.topic in NOTHING:
        return None, 0.0, ""
    if liked.topic == Topic.TERM:
        terms = [one for one in terms_in(line) if one != "slot"]
        return (Topic.TERM, 0.8, terms[0]) if terms else (topic, certainty, term)
    return Topic(liked.topic), min(0.6 + 0.3 * liked.likeness, 0.9 if asked else _SUREST_UNASKED), ""


def _needed(liked: Vote, known: Topic | None, asks: bool) -> float:
    needed = _LIKE_AGAINST if known else _LIKE_ASKED if asks else _LIKE_UNASKED
    return max(needed, _LIKE_NOTHING) if liked.topic == "none" else needed


def _means_something_else(topic: Topic | None, liked: Vote) -> bool:
    """ "Is my back meant to be straight in a split squat" has the words of a definition and asks for none."""
    return topic is Topic.TERM and liked.likeness >= _LIKE_INSTEAD and liked.others.get(Topic.TERM.value, 0.0) < _NO_TERM


_LIKE_INSTEAD, _NO_TERM = 0.5, 0.15


# A text without any sign of asking never takes the place of a doubtful set, however like a question it is.
_SUREST_UNASKED = 0.8


_OPENS = re.compile(
    r"^(?:(?:so|and|but|coach|hey|hi|hello|please|also|ok|sorry|um|then|just) )*"
    r"(?:(?:at|in|on|with|until|for|up to|by|from|under|im up to|since) (?=what|which|when|how))?(?:what|whats|wheres|whens|whos|how|hows|when|where|who|why|which|wth|wtf|do|does|did|can|cant|could|should|would|will|is|are|am|may|shall|must|might|explain|tell|show|remind|give|send|list|describe|define|any|any idea|no idea|no clue|not sure|dunno|dont know)\b|(?:\d|\w) or (?:less|more|not|enough|longer|done|stay|same|\d+$)|yes or no|^(?:\S+ ){0,3}(?:what|how|when|which|where|why|who)\b|\bhow (?:many|much|long|heavy|often|slow)\b|\bpossible$"
    r"|\bi (?:forget|forgot|cant remember|dont remember)\b|\bin (?:\w+ )?(?:english|words|terms)\b"
    r"|(?<!so )(?<!nor )(?<!neither )(?<!as )(?<!than )\b(?:do|did|shall|should|can|could|may|am|have|was|will|would|must) i\b"
    r"|^(?:was|were|has|have|had) (?:i|we|my|it|that|this)\b|\b(?:is|was|are) (?:it|that|this|there|the|my) (?!\w+ing\b)[^,]* or\b|^(?:(?:so|the|a|with) )*\d+ (?:s|kgs?|lbs?) or \d+ (?:s|kgs?|lbs?)\b"
)
_TELLS = re.compile(
    r"^(?:did|done|got|will|can|may|might|do|have|is|was|are|am) (?:do|done|try|see|get|the same|all|my|\d|it all|good|nice|ready|back|so|not)\b(?!.*\b(?:i|we|you)\b)"
)
_NUMBERS = re.compile(
    r"[#\d]|\b(?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|eighteen|twenty|thirty|forty|fifty)\b"
)


def _asks_plainly(part: str, line: str) -> bool:
    return "?" in part or (_OPENS.search(line) is not None and not _TELLS.search(line))


def _liked(part: str, here: _Here, line: str) -> Vote | None:
    """The samples' vote; nothing for a text that asks nothing and tells numbers: "20x12 lost the tempo"."""
    shape = _shape(part, here)
    liked = vote(shape)
    if liked and liked.likeness < _LIKE_ITSELF and not _asks_plainly(part, line) and (_NUMBERS.search(shape) or shape in _TOLD):
        return None
    return liked


_LIKE_ITSELF = 0.8


_TOLD = frozenset(("same", "one more", "same again", "more", "less", "done", "@", "left", "right"))


_PLAIN_TERMS = frozenset(
    (
        "slot",
        "tempo",
        "warm_up",
        "pr",
        "per_side",
        "failure",
        "drop",
        "split",
        "frequency",
        "elevated",
        "volume",
        "intensity",
        "partials",
        "explosive",
        "anterior",
        "one_rm",
        "e1rm",
        "eccentric",
        "concentric",
        "superset",
        "rep",
    )
)


def _shape(part: str, here: _Here) -> str:
    """The question with what it is about taken out: exercises and slots become @, terms ~, a tempo its four numbers."""
    text = _TEMPO.sub(lambda match: match.group() if parse_tempo(match.group()) is None else " # # # # ", part)
    text = _SLOT.sub(" @ ", text)
    for one in reversed(here.mentions(text)):
        text = f"{text[: one.start]} @ {text[one.end :]}"
    line = " ".join(re.findall(r"[a-z]+|\d+(?:\.\d+)?|[@#]", re.sub("['’‘`´]", "", text.lower())))
    words = [word if word in "@#" or not word.isalpha() else _line(word) or word for word in line.split()]
    return _without_terms(" ".join(words))


# Names of terms that are everyday words as well.
_PLAIN_NAMES = frozenset(("drop", "single leg", "single arm", "stall", "stalled", "plateau", "plateauing", "racked", "positive", "negative", "same side",
                          "opposite side", "easy week", "full range", "ramp", "neutral", "finisher", "circuit", "cluster"))  # fmt: skip


def _without_terms(line: str) -> str:
    for name, term in terms_by_name():
        if term not in _PLAIN_TERMS and name not in _PLAIN_NAMES and name in line:
            line = re.sub(rf"(?<!\S){re.escape(name)}s?(?!\S)", "~", line)
    return line


# Short calls that ask without a question word or mark.
_ASKS_ANYWAY = re.compile(
    r"^(?:help|commands|menu|whats next|next(?: one| set| exercise)?|today|todays (?:session|plan|workout)|rest time|sets left|last time(?: [a-h]\d)?|my (?:pr|pb|best|record)s?\b.*|show .*|best .*|(?:record|pr|pb)s? (?:in|on|for|at) .*|(?:i |we )?(?:have |ve |have got |got |ive )?(?:only |just )(?:have |got |have got )?(?:about |around |like |maybe )?(?:\d+|ten|fifteen|twenty|thirty|forty|half an|an) (?:minutes|mins?|hour)(?! (?:late|later|ago|early|rest|left|more|to go|walk|run|behind|over)\b).*|(?:rest|tempo|target|reps|sets|weight|order)(?: [a-h]\d)?)$"
)


def _defined(line: str, bare: bool, about: str) -> str:
    """The term that is asked to be explained, "" if none is."""
    found = terms_in(line)
    if not found:
        return ""
    real = sorted((term for term in found if term != "slot"), key=lambda term: term == "rep")
    if real == ["rep"] and line.startswith("what a "):  # "what a set": an exclamation
        return ""
    named = DEFINES.search(line)
    mine = re.search(
        r"\b(?:my|did i|have i|do i have|should i (?:use|aim|take|go)|today|last time|is next|for next|how many|how much|how long|when|left)\b",
        line,
    )
    if re.search(
        r"\bmean(?:s|t|ing)?\b|\bstands? for\b|\bexplain|\bdefin|\bnever heard|\bno idea what|\bdont (?:get|understand|know what)\b",
        line,
    ):
        return (real or list(found))[0]
    if not real or mine:
        return ""
    if bare and len(line.split()) <= len(real[0].split("_")) + 2 and not about and real[0] not in ("warm_up", "pr"):
        return real[0]
    after = re.search(
        r"\b(?:what|whats|wtf)\b(?: (?:the|exactly|even|actually|is|are|s|a|an|was|this|that|these|those|heck|hell|does|do|difference|between))*$",
        line[: _start_of(line, real[0])].rstrip(),
    )
    return (
        real[0]
        if named and after and not re.search(r"\b(?:for|on|at|of|in|should|do i) (?:me|it|this|i|[a-h]\d|next|the)\b", line)
        else ""
    )


def _start_of(line: str, term: str) -> int:
    words = line.split(" ")
    for at in range(len(words)):
        if terms_in(" ".join(words[at:]))[:1] != (term,):
            return len(" ".join(words[: at - 1])) if at else 0
    return len(" ".join(words[:-1]))


def _has_words(line: str) -> bool:
    return sum(word.isalpha() for word in line.split()) >= 2


def _marked(line: str, about: str) -> str:
    """The exercise or slot named becomes "@", so that cues can ask for one."""
    if not about:
        return line
    folded = _line(about)
    return line.replace(folded, "@") if folded and folded in line else f"{line} @"


@lru_cache(maxsize=512)
def _line(text: str) -> str:
    plain = re.sub("['’‘`´]", "", text.lower())
    words = re.findall(r"[a-z]+\d?|\d+(?:\.\d+)?|[^\W\d_]+", plain)
    return " ".join(
        _JOINED.get(word) or (mend(word, _VOCABULARY) if word.isalpha() and len(word) >= 4 else word) for word in words
    )


def _tempo(part: str) -> Tempo | None:
    for match in _TEMPO.finditer(part):
        if re.fullmatch(r"\d{3,4}", match.group()) and not re.search(r"tempo|mean|numbers|\?", part, re.IGNORECASE):
            continue
        if re.fullmatch(r"\d{1,2}[/.:]\d{1,2}[/.:]\d{2,4}", match.group()) and "tempo" not in part.lower():
            continue
        found = parse_tempo(match.group())
        if found is not None:
            return found
    return None


def _about(part: str, here: _Here) -> tuple[str, ExerciseId | None, str]:
    """Slot label, exercise and the words that named it."""
    slot = _SLOT.search(part)
    if slot:
        label = (slot.group(1) + slot.group(2)).upper()
        return label, None, ""
    situation = here.situation
    todays = situation.day.slots if situation.day else ()
    for one in todays:  # the coach's own wording first
        if len(one.exercise_name) > 3 and one.exercise_name.lower() in part.lower():
            return one.label, situation.exercise_of(one), one.exercise_name
    mentions = here.mentions(part)
    if not mentions:
        return "", None, ""
    first = mentions[0]
    labels = [one.label for one in todays if situation.exercise_of(one) == first.match.exercise]
    return (labels[0] if labels else ""), first.match.exercise, part[first.start : first.end]
