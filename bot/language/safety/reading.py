"""Does a text speak of an emergency, of pain, or of something that is for licensed practice?

Plan: fold and mend the words (words.py), take out what only looks alike, look for the signs (signs.py) clause by clause and for things
said together over the whole text (pictures.py); where neither is seen, weigh the words (likeness.py). Then weigh each sign: denied ("no chest pain"), of somebody else and long ago, long ago, only imagined, said of hard work or as a joke.

    "my chests real tight and cant breath"   -> EMERGENCY
    "had chest pain last night, gone now"    -> SAME_DAY
    "knee hurts 6/10 on B1"                  -> PAIN, knee, 6, "B1"
    "arms numb from the pump"                -> CAUTION, topic "check"
    "that set killed me", "no chest pain"    -> NONE

A sign that might be one counts: a false alarm is a nuisance, a missed emergency is not.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import pairwise

from bot.language.safety import pictures, things
from bot.language.safety.likeness import likeness
from bot.language.safety.lookup import Lookup
from bot.language.safety.signs import (
    CAUTION,
    EMERGENCY,
    FIGURES,
    GROUPS,
    HARMLESS,
    PAIN,
    SAME_DAY,
    SOFT,
    SORENESS,
    Level,
    compiled,
)
from bot.language.safety.words import Clause, clauses_of
from bot.training.safety import JOINTS, PART_OF_WORD, WORST_PAIN

CHECK = "check"  # topic: hard work or a joke that sounds like a sign
EARLIER = "earlier"  # topic: it hurt some day before, and nothing says that it does today
# Certainty of words that alarm and may be everyday talk: the same first step is said, with a question beside it.
DOUBTED = 0.6
WARNING_SIGNS = "warning_signs"  # topic: asked about signs without having them


@dataclass(frozen=True, slots=True)
class SafetyReading:
    """What a text asks for.

    parts: parts of the body in the bot's words, as said first. side: "left", "right", "both" or "". severity: 0 to 10, None if not
    said. exercise_words: the slot ("B1") or exercise as said, "" if none. topic: of a caution ("pregnancy", "medication", "diet",
    "diagnosis", "minor", "self_harm", "eating", "illness", "feelings", "check", "warning_signs"); also set beside pain.
    sign: which sign was seen ("chest", "faint" ...). words: the member's own words that decided. certainty: 0 to 1.
    """

    level: Level = Level.NONE
    parts: tuple[str, ...] = ()
    side: str = ""
    severity: int | None = None
    exercise_words: str = ""
    topic: str = ""
    sign: str = ""
    words: tuple[str, ...] = ()
    certainty: float = 0.0

    @property
    def doubted(self) -> bool:
        """An emergency by its words, which may be everyday talk: the same first step, with a question beside it."""
        return self.level is Level.EMERGENCY and self.certainty <= DOUBTED


@dataclass(slots=True)
class _Seen:
    """One sign that was seen and weighed."""

    level: Level
    name: str
    words: str
    certainty: float
    topic: str = ""
    eased: bool = False  # an emergency's sign, and something said beside it made it less
    rank: int = field(init=False)

    def __post_init__(self) -> None:
        self.rank = list(Level).index(self.level)


_TABLES = (
    (Level.EMERGENCY, EMERGENCY),
    (Level.SAME_DAY, SAME_DAY),
    (Level.PAIN, PAIN),
    (Level.CAUTION, CAUTION),
    (Level.SORENESS, SORENESS),
)
_DENIED = re.compile(
    r"(?: (?:no|not|without|zero|never|dont|didnt|doesnt|isnt|wasnt|havent|hasnt|arent|aint|free of|nothing like)"
    r"(?: (?:have|had|any|feel|feeling|felt|get|got|getting|having|experience|the|a|my|in|more|real|actual|of|been|is|sign|signs|actually|"
    r"really|even|to|sort|kind|like|longer|particular|left|right|" + "|".join(PART_OF_WORD) + r"))*)$"
)
_LISTED_DENIAL = re.compile(r" (?:no|without|any|zero)(?: \w+){1,3}(?: ,(?: \w+){1,3})* (?:,|or|and|nor)(?: or| and| any| no)?$")
_NOT_DENIED = re.compile(
    r"(?:before|like this|no (?:idea|clue|joke|reason|warning|lie|doubt|wonder)|not (?:sure|joking|kidding|good|ok|okay|gonna lie))\b"
)
_BODY_DENIED = re.compile(r" (?:not|isnt|doesnt|dont|wasnt|no longer|never|didnt|arent)(?= )")
_OTHERS = re.compile(
    r" (?:mum|mom|mother|dad|father|wife|husband|partner|boyfriend|girlfriend|friend|mate|buddy|brother|sister|uncle|aunt|grandad|granddad|"
    r"grandma|grandpa|gran|nan|neighbour|neighbor|colleague|boss|coworker|guy|girl|someone|somebody|cousin|father in law|son|daughter|kid|"
    r"husbands|dads|mums|moms|friends|wifes|people|man|woman|lady|character|he|she|dog|cat)(?= |$)"
)
_LONG_AGO = re.compile(
    r" (?:last (?:year|month|summer|winter|spring|autumn|christmas)|(?:years?|months|decades|yrs) (?:ago|back)|in (?:19|20)\d\d|when i was|"
    r"as a (?:kid|child|teen|teenager)|used to|history of|in the past|childhood|once had|runs in|family history|back in (?:the|19|20)\S*|"
    r"died of|passed away|as a baby|ages ago|(?<! stopped)(?<! finished)(?<! rested) long ago|at school|years old)(?= |$)"
)
_RECENT = re.compile(
    r" (?:yesterday|last (?:night|week|session|time|workout|monday|tuesday|wednesday|thursday|friday|saturday|sunday|set of last)|the other (?:day|night)|"
    r"(?:on )?(?:monday|tuesday|wednesday|thursday|friday|saturday|sunday)s?|(?:a few|few|couple|two|three|2|3|4|5) (?:of )?(?:days|weeks) (?:ago|back)|"
    r"days ago|a week ago|weeks ago|earlier this week|at the weekend)(?= |$)"
)
_STILL = re.compile(
    r" (?:since|still|again|now|today|just|keeps|keep|wont|currently|hurts|hurting|is|feels|am|im|cant|having|getting|right|ever|constantly|every)(?= |$)"
)
# What is told of today's work is today's, whatever day is named beside it.
_THIS_SET = re.compile(
    r" (?:(?:this|that|last|first|second|third|my|one|next) (?:set|rep|one)|[a-h][1-9]|reps?|same as|(?<!was )(?<!were )(?<!been )(?:hurting|aching|aches))(?= |$)"
)
# "Stairs were fine yesterday, today I get to the third one and gasp": the day named before is only compared with.
_TODAY_TOO = re.compile(
    r" (?:today|tonight|this morning) (?:i|my|its|it|theres)(?! (?:am |is |feel |feeling |feels |all |much |been |was |totally )*"
    r"(?:fine|ok|okay|better|good|great|alright|gone|normal|over|back to))(?= |$)"
)
_OVER = re.compile(
    r" (?:fine now|ok now|okay now|better now|good now|alright now|all good|(?:fine|ok|okay|good|better|great|alright|gone) (?:today|again|this morning)|gone now|its gone|is gone|went away|gone away|has gone|gone again|passed now|it passed|"
    r"cleared up|feeling better|feel better|recovered|settled now|back to normal|am fine|im fine|im ok|im okay|no problem now|all fine)(?= |$)"
)
_IMAGINED = re.compile(
    r" (?:what if|in case|if (?:i|you|we|someone|anyone|somebody|anybody) (?:ever |should |do |did |was to |were to )?(?:get|feel|start|have|had|felt|got|faint|pass|become|experience|develop|collapse)|"
    r"do i stop when|worried (?:that )?(?:i|ill|id) (?:might|will|may|could|would)?|afraid of|scared of|avoid|prevent|signs of|symptoms of|stop (?:me|myself) from)(?= |$)"
)
_EFFORT = re.compile(
    r" (?:sets?|reps?|squats?|sprints?|burpees?|amrap|finisher|circuit|pump|curls?|stairs|rope|swings?|thrusters?|hiit|cardio|conditioning|intervals?|"
    r"emom|workout|lunges?|rows?|deadlifts?|pullups?|ups|bench|press|presses|raises|carry|carries|grip|session|exercise|run|running|jumps?|plank|hang|"
    r"(?:last|each|every|this|next|first|second|third|fourth|final|one|[1-9]) round|rounds|climb|sled|erg|rower|bike|treadmill|hills?|tabata|ladders?|sprinting|rowing|cycling|ride|metcon|complex|clusters?|holding|dumbbells?|handles?|kettlebells?|bar|skipping|climbers?|wod|hold|holds|extensions|dips|flys|that|those|these)(?= |$)"
)
_LAUGH = re.compile(r" (?:lol|loved it|love it|brutal but|good stuff|in a good way|great session|what a)(?= |$)")
_PRAISE = re.compile(
    r" (?:lol|loved|love|loving|brutal but|good stuff|in a good way|great|what a|brilliant|awesome|fantastic|amazing|magic|ace|buzzing|"
    r"belter|class|so good|fun|proud|happy|chuffed|delighted|worth it|best session|best workout|felt good|felt alive|superb|cracking|epic|"
    r"wicked|mint|sweet)(?= |$)"
)
_WORRY = re.compile(
    r" (?:still|wont|isnt|cant|minutes?|mins?|hour|hours|sitting|sat|lying|resting|nothing|reason|sudden|suddenly|weird|strange|never|worse|scared|worried|help|"
    r"dizzy|faint|lightheaded|sweat|sick|nauseous|pain|hurts|left|right|one (?:side|arm|leg|eye|hand|half|foot|ear)|half|face|speak|vision|since|keeps|always|woke|random|randomly|irregular|"
    r"skipping|fluttering|flutter|skips|skipped|stopped|all day|now and then|not normal|side|back|chest|groin|palpitations|standing|rest|"
    r"settle|calm|slow|away|every time|yesterday|everything|collapsed|floor|conscious|fainted|unconscious)(?= |$)"
)
_MILD_DIZZY = re.compile(
    r" (?:bit|little|slightly|touch|tad|kinda|mildly|somewhat|briefly|quickly|second|sec|moment|stand|stood|standing up)(?= |$)"
)
_DIZZY_ONLY = re.compile(
    r"^(?: \w+)?(?: (?:dizzy|dizziness|lightheaded|woozy|giddy|vertigo|light headed|stars|spots|dots|head|spinning|swimming|see|seeing|saw|some|little|white|black|was|is))+$"
)
_SEVERITY = (
    re.compile(r"(?<![\d.])(10|\d)\s*(?:/|out of|of)\s*10\b"),
    re.compile(
        r"\b(?:pain|hurts?|ache|aching|severity|level|scale|sore|bad|painful)\b(?:\W+(?:is|was|at|a|about|around|like|level|of|maybe|say|score|its|it|s|an?|to|feels?|on|scale|now|only|just|roughly|probably|still)){0,4}\W+(10|\d)(?![\d./]|\s*(?:kg|lbs?|reps?|sets?|min|sec|x|days?|weeks?|times|hours?|months?|years?|of\b))"
    ),
    re.compile(r"(?<![\d.])(10|\d)\s*(?:on (?:the|a) (?:pain )?scale|pain\b(?! free))"),
    re.compile(r"\b(10|\d)\s*[-–]\s*(10|\d)\s*/\s*10"),
)
_WORD_SEVERITY = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10}
_WORDED = re.compile(r"\b(one|two|three|four|five|six|seven|eight|nine|ten) (?:out of|of|on) (?:ten|10)\b")
_SLOT = re.compile(r"\b([a-h][1-9])\b", re.IGNORECASE)
_SETTLED_PAIN = re.compile(
    r" (?<!no )(?<!not )(?<!isnt )(?<!not the )(?<!isnt the )(?<!in a )(?:fine|better|good|great|ok|okay|healed|gone(?! over)|cleared|happy|solid|perfect|improving|improved|pain free|painfree|well) ?(?:now|today|again|lately|this week)?(?= |$)"
)
_MUSCLE_CUE = re.compile(
    r" (?:doms|from|after|yesterday|monday|tuesday|wednesday|thursday|friday|saturday|sunday|workout|session|last|days?|legs day|leg day)(?= |$)"
)


@lru_cache(maxsize=1)
def _vocabulary() -> frozenset[str]:
    """Every word of the tables: what a misspelt word may be mended to."""
    lines = [line for _, table in _TABLES for signs in table.values() for line in signs]
    text = " ".join([*lines, *GROUPS.values(), *PART_OF_WORD])
    return frozenset(re.findall(r"[a-z]{3,}", text.replace("_", " "))) | things.words()


def read_safety(text: str) -> SafetyReading:
    """Read a text for signs of an emergency, for pain and for what is not the bot's to answer. Never raises; pure."""
    clauses = clauses_of(text, _vocabulary())
    seen = [one for clause in clauses for one in _seen_in(text, clause, clauses)]
    seen += _tied_back(text, clauses)
    joined = Clause(tuple(word for clause in clauses for word in clause.words))
    line = _without_harmless(joined.line)
    seen += _pictured(text, joined, line)
    seen = _held_against(seen, clauses)
    seen += _likened(text, clauses, seen)
    seen = [one for one in seen if one.level is not Level.NONE]
    if not seen:
        return SafetyReading(certainty=0.9)
    seen.sort(key=lambda one: (one.rank, -one.certainty))
    first = seen[0]
    topic = first.topic or next((one.topic for one in seen if one.level is Level.CAUTION), "")
    topics = {one.topic for one in seen}
    if first.level is not Level.EMERGENCY and "self_harm" in topics:
        first = next(one for one in seen if one.topic == "self_harm")
        topic = "self_harm"
    elif first.level is Level.PAIN and "pregnancy" in topics:
        first = _Seen(Level.SAME_DAY, "pregnancy", first.words, first.certainty, "pregnancy")
        topic = "pregnancy"
    parts = _parts(clauses)
    return SafetyReading(
        level=first.level,
        parts=parts,
        side=_side(clauses, parts),
        severity=_severity(text) if first.level in (Level.EMERGENCY, Level.SAME_DAY, Level.PAIN) else None,
        exercise_words=_exercise_words(text),
        topic=topic,
        sign=first.name,
        words=tuple(dict.fromkeys(one.words for one in seen if one.level is first.level)),
        certainty=first.certainty,
    )


def mended_line(text: str) -> str:
    """A text as one line of folded, mended words: what likeness looks at."""
    return "".join(clause.line for clause in clauses_of(text, _vocabulary()))


def _seen_in(text: str, clause: Clause, clauses: tuple[Clause, ...]) -> Iterator[_Seen]:
    whole = "".join(other.line for other in clauses)
    said = clause.line
    line = _without_harmless(said)
    figure = any(compiled(pattern).search(line) for pattern in FIGURES)
    done: set[tuple[str, str]] = set()
    for key, pattern in _signs().ways(set(said.split())):
        if key in done:
            continue
        level, name = Level(key[0]), key[1]
        # A wish to die is looked for in the text as it is: no phrase is harmless beside it.
        match = pattern.search(said if name == "self_harm" else line)
        if match is None:
            continue
        if _denied(line, match, level):
            if level is Level.EMERGENCY:
                yield _Seen(Level.NONE, name, "", 0.9, eased=True)
            continue
        start, end = clause.said(text, match.start(), match.end())
        one = _weighed(level, name, line, whole, match, text[start:end], figure)
        if one is not None:
            done.add(key)
            yield one


_STRETCH = re.compile(r".*", re.DOTALL)


def _pictured(text: str, joined: Clause, line: str) -> Iterator[_Seen]:
    """What no phrase foresaw: things of one picture said near each other, over full stops too. line: without what is harmless."""
    for picture, start, end in pictures.pictures_in(line):
        match = _STRETCH.match(line, start, end)
        assert match is not None
        start, end = joined.said(text, start, end)
        if picture.sign == "self_harm":
            yield _Seen(Level.CAUTION, "self_harm", text[start:end], 0.8, topic="self_harm")
            continue
        if picture.sign == "pain":
            one = _weigh_pain("pain", line, line, match, text[start:end], False)
        else:
            one = _weigh_emergency(picture.sign, line, line, match, text[start:end], soft=picture.sign in _WORK_BRINGS)
        if one and one.level is Level.EMERGENCY and not picture.sure:
            one = _Seen(Level.EMERGENCY, picture.sign, one.words, DOUBTED)
        if one:
            yield one


# How much more like an emergency than like anything else (likeness.py) a text must read to be taken for one, also where a sign of one
# was weighed down, and to be asked about; and how much less for a sign of one to be asked about, and to be taken for a manner of
# speaking. Chosen on authors left out.
_LIKE, _SURELY_LIKE, _HARDLY, _UNLIKE, _NOTHING_LIKE = 0.15, 0.5, 0.0, -0.4, -0.8
# The same of a wish to die and of pain, where no sign of them was seen; and of no trouble at all, where one of pain was.
_LIKE_HARM, _LIKE_PAIN, _LIKE_NONE = 0.2, 0.3, 1.0
_FEWEST_WORDS = 3  # a text of fewer words says too little to be weighed
_LONG_ENOUGH = 5  # words of a clause that is weighed by itself too, so that sets told beside it don't drown it


def _held_against(seen: list[_Seen], clauses: tuple[Clause, ...]) -> list[_Seen]:
    """Signs in a text that reads like something else are asked about: "dizzy with success, first pull up ever"."""
    if not seen or sum(len(clause.words) for clause in clauses) < _LONG_ENOUGH:
        return seen
    return [_doubted(one, clauses) for one in seen]


def _doubted(one: _Seen, clauses: tuple[Clause, ...]) -> _Seen:
    asked = _Seen(Level.CAUTION, one.name, one.words, DOUBTED, topic=CHECK)
    if one.level in (Level.SAME_DAY, Level.PAIN):
        return asked if not one.topic and _tells_of_nothing(clauses) else one
    if one.level is not Level.EMERGENCY:
        return one
    like = _likest(clauses, "emergency")
    if like >= _UNLIKE or any(likeness(piece)["emergency"] >= _LIKE for piece in _pieces(clauses, mended_line(one.words))):
        return one
    return asked if like < _NOTHING_LIKE else _Seen(one.level, one.name, one.words, min(one.certainty, DOUBTED))


def _tells_of_nothing(clauses: tuple[Clause, ...]) -> bool:
    """Beside sets told, nearly any text reads like nothing much: there a pain is taken at its word."""
    whole = _joined(clauses)
    return likeness(whole)["none"] >= _LIKE_NONE and not any(letter.isdigit() for letter in whole)


def _likened(text: str, clauses: tuple[Clause, ...], seen: list[_Seen]) -> Iterator[_Seen]:
    """What no sign and no picture foresaw, and reads like an emergency, a wish to die or pain all the same: never sure."""
    if any(one.level is Level.EMERGENCY or one.topic == "self_harm" for one in seen):
        return
    if sum(word.word.isalpha() for clause in clauses for word in clause.words) < _FEWEST_WORDS:
        return
    whole = _joined(clauses)
    if _LONG_AGO.search(whole) or _IMAGINED.search(whole):
        return
    if _likest(clauses, "self_harm") >= _LIKE_HARM:
        yield _Seen(Level.CAUTION, "self_harm", text.strip(), DOUBTED, topic="self_harm")
    if _TAKEN_BACK.search(whole) or (_RECENT.search(whole) and not _STILL.search(whole)):
        return
    like = _likest(clauses, "emergency")
    if like >= (_SURELY_LIKE if any(one.eased for one in seen) else _LIKE):
        yield _Seen(Level.EMERGENCY, "other", text.strip(), DOUBTED)
    elif like >= _HARDLY and not seen:
        yield _Seen(Level.CAUTION, "other", text.strip(), DOUBTED, topic=CHECK)
    elif not seen and _likest(clauses, "pain") >= _LIKE_PAIN:
        yield _Seen(Level.PAIN, "pain", text.strip(), DOUBTED)


def _joined(clauses: tuple[Clause, ...]) -> str:
    return "".join(clause.line for clause in clauses)


def _pieces(clauses: tuple[Clause, ...], sign: str) -> list[str]:
    """What stands between commas and holds the sign: "20x12 10. hey coach, so much blood" is heard by its last words."""
    return [piece for clause in clauses for piece in clause.line.split(" ,") if sign in piece]


def _likest(clauses: tuple[Clause, ...], kind: str) -> float:
    """How like the kind the whole text reads, or the clause that is most like it."""
    parts = [clause.line for clause in clauses if len(clauses) > 1 and len(clause.words) >= _LONG_ENOUGH]
    return max(likeness(part)[kind] for part in (_joined(clauses), *parts))


_CHEST_NAMED = compiled("{chest}")
_PRESSES_NOW = re.compile(
    r"^(?: (?:and|so|then|,))*(?: (?:now|it|its|is|just|still|really|feels|feel|feeling|got|gets|getting|gone|very|so|bit|a|all|starting|"
    r"started|to|hurts|hurting|like|today|suddenly|proper))* (?:" + GROUPS["press"] + "|" + GROUPS["pain"] + r")(?= |$)"
)


def _tied_back(text: str, clauses: tuple[Clause, ...]) -> Iterator[_Seen]:
    """ "No chest pain earlier but now its tight": what presses now is the chest that was named a clause before."""
    for before, clause in pairwise(clauses):
        match = _PRESSES_NOW.search(clause.line)
        if match and _CHEST_NAMED.search(_without_harmless(before.line)):
            start, end = clause.said(text, match.start(), match.end())
            one = _weigh_emergency("chest", clause.line, before.line + clause.line, match, text[start:end])
            if one:
                yield one


def _without_harmless(line: str) -> str:
    """Harmless words become dots of the same length, so that every place stays what it was."""
    for _, pattern in _harmless().ways(set(line.split())):
        line = pattern.sub(lambda match: re.sub(r"\S", "·", match.group()), line)
    return line


@lru_cache(maxsize=1)
def _signs() -> Lookup:
    return Lookup(((level, name), line) for level, table in _TABLES for name, lines in table.items() for line in lines)


@lru_cache(maxsize=1)
def _harmless() -> Lookup:
    return Lookup((("harmless", line), line) for line in HARMLESS)


def _denied(line: str, match: re.Match[str], level: Level) -> bool:
    before = line[: match.start()]
    said = match.group()
    if _NOT_DENIED.search(line) and level is Level.EMERGENCY:
        return False
    if said.split()[0] in ("cant", "not", "no", "dont", "didnt", "lost", "lose", "losing", "wont"):
        return False
    return bool(_DENIED.search(before) or _LISTED_DENIAL.search(before))


def _weighed(level: Level, name: str, line: str, whole: str, match: re.Match[str], words: str, figure: bool) -> _Seen | None:
    """What a sign means as it was said here; None if it means nothing."""
    if level is Level.EMERGENCY:
        return _weigh_emergency(name, line, whole, match, words)
    if level is Level.SAME_DAY:
        return _weigh_same_day(name, line, whole, words)
    if level is Level.PAIN:
        return _weigh_pain(name, line, whole, match, words, figure)
    if level is Level.CAUTION:
        if name == "self_harm" and figure and (_LAUGH.search(whole) or _EFFORT.search(line)) and "myself" not in line:
            return None
        if name == "minor" and _is_no_age(line, match):
            return None
        return _Seen(level, name, words, 0.85, topic=name)
    return _Seen(level, name, words, 0.8)


_COUNTED = re.compile(
    r" (?:kg|kgs|kilos?|lb|lbs|pounds?|reps?|sets?|minutes?|mins?|min|seconds?|secs?|sec|s|metres?|meters?|m|steps?|rounds?|times|rpe|percent|hours?)(?= |$)"
)
_OF_AGE = re.compile(r" (?:years|yrs|yr|year|yo|y|old|birthday)(?= |$)")


def _is_no_age(line: str, match: re.Match[str]) -> bool:
    """ "is 10 kg ok", "is 12 enough": a number with its unit behind it, or asked about with nobody before it."""
    said = match.group()
    if _OF_AGE.search(said) or " young" in line:
        return False
    counted = _COUNTED.match(line[match.end() :])
    return counted is not None or (said.split()[0] == "is" and not line[: match.start()].strip())


def _weigh_emergency(name: str, line: str, whole: str, match: re.Match[str], words: str, *, soft: bool = True) -> _Seen | None:
    one = _as_said(name, line, whole, match, words, soft=soft)
    if one is not None:
        one.eased = one.level is not Level.EMERGENCY
    return one


def _as_said(name: str, line: str, whole: str, match: re.Match[str], words: str, *, soft: bool) -> _Seen | None:
    others = _OTHERS.search(line[: match.start()] + " ") is not None
    if _LONG_AGO.search(whole) and not _GOES_ON.search(match.group()):
        return None if others else _Seen(Level.CAUTION, name, words, 0.7, topic="diagnosis")
    recent = _RECENT.search(whole) is not None and _TODAY_TOO.search(whole) is None
    now = _STILL.search(whole) is not None
    if others and recent and not now:
        return None
    if _IMAGINED.search(line[: match.start()] + " "):
        return _Seen(Level.CAUTION, name, words, 0.7, topic=WARNING_SIGNS)
    over = _OVER.search(whole) is not None
    if recent and (over or not now):
        return _Seen(Level.SAME_DAY, name, words, 0.75)
    if name == "faint" and _DIZZY_ONLY.match(match.group()) and (_MILD_DIZZY.search(whole) or over):
        return _Seen(Level.SAME_DAY, name, words, 0.75)
    worry = _WORRY.search(_SOON_OVER.sub("", whole.replace(match.group(), " ", 1))) is not None
    effort, laugh = _EFFORT.search(whole) is not None, _PRAISE.search(whole) is not None
    if soft and name in SOFT and not worry and _soft(_SOON_OVER.sub("", match.group()), effort=effort, laugh=laugh):
        return _Seen(Level.CAUTION, name, words, 0.6, topic=CHECK)
    if name == "stroke" and _lift_that_hurts(match.group(), whole):
        return _Seen(Level.PAIN, "pain", words, 0.7)
    if name == "chest" and _from_the_teeth(match.group(), whole):
        return _Seen(Level.PAIN, "pain", words, 0.7)
    if name == "faint" and "collaps" in match.group() and not worry and _happy_heap(whole):
        return _Seen(Level.CAUTION, name, words, 0.6, topic=CHECK)
    if name == "chest" and _is_worked_chest(line, match, whole):
        return _Seen(Level.SORENESS, name, words, 0.6)
    return _Seen(Level.EMERGENCY, name, words, 0.95)


# Of the pictures only these come with hard work too.
_WORK_BRINGS = frozenset({"breath", "heart"})
_SOON_OVER = re.compile(
    r" (?:fine|ok|okay|good|alright|recovered|back|normal|settled|gone|over it) (?:again |now )?(?:in|after|within) (?:a|one|two|few|a few|1|2|3|half a|about a)"
    r" (?:sec|secs|second|seconds|min|mins|minute|minutes|breaths|moment)(?= |$)"
    r"| (?:fine|ok|okay|good|alright|recovered|normal) (?:again )?(?:a |one |two |few |three |five |[1-5] )*(?:sec|secs|seconds|min|mins|minute|minutes) (?:later|after)(?= |$)"
)
_GOES_ON = re.compile(r"\b(?:wont|isnt|doesnt|still|keeps|not)\b")  # "pulse wont drop and i stopped ages ago" is of now
_NEVER_SOFT = re.compile(
    r"faint|out$|consci|concio|sack|ceiling|floor|collaps|face|slur|speech|speak|talk|words|see|vision|blind|droop|left|right|one|side|half|seizure|chok|suffoc|"
    r"palpit|irregular|skip|flutter|swell|swollen|allerg|asthma|clos|stroke|disorient|lips|tongue|stars|keeled|hit|woke|came|"
    r"turn|spell|light|attack|not|shaking|convuls|fit|person|room|arrest|unwell|pen|throat|inhaler|know|answer|\bair\b|boom|wake|waking|respon|pulse|cpr|defib|two|double|drunk|gibberish|limp|cold"
)
_BREATHLESS = re.compile(r"cant|trouble|difficult|hard|struggl|no |laboured")


def _soft(said: str, *, effort: bool, laugh: bool) -> bool:
    """Hard work explains it: the work is said and it is nothing that work never does; "cant breathe" only with a laugh as well."""
    if _NEVER_SOFT.search(said.strip()) or not effort:
        return False
    return laugh if _BREATHLESS.search(said) else True


def _lift_that_hurts(said: str, whole: str) -> bool:
    """ "Can't lift my arm overhead without a pinch": a joint that hurts, not an arm that fails."""
    return re.search(r" cant (?:\S+ )?(?:lift|raise|move) .*(?:arm|leg)", said) is not None and (
        re.search(r" without (?:a |any |some |it )?(?:pinch\w*|pain\w*|hurt\w*|winc\w*|sting\w*|click\w*|ache|aching)(?= |$)", whole) is not None
    )  # fmt: skip


def _from_the_teeth(said: str, whole: str) -> bool:
    """A jaw that aches alone, with the cause named: clenched teeth, a tooth."""
    return " jaw" in said and re.search(r" (?:clench\w*|bite|biting|grind\w*|dentist|tooth|chew\w*|wisdom|tmj)(?= |$)", whole) is not None and (
        re.search(r" (?:chest|arm|sweat\w*|sick|breath\w*|dizzy|heart)(?= |$)", whole) is None
    )  # fmt: skip


def _happy_heap(whole: str) -> bool:
    """ "I collapsed on the sofa after, great session": a figure of speech of somebody content."""
    return re.search(r"(?:^(?: just| basically| then)?| i| and) collapsed (?:\S+ ){0,3}(?:sofa|couch|bed|settee|chair)(?= |$)", whole) is not None and (
        re.search(r" (?:great|good|lol|happy|done|loved|worth|brutal|session|best|nice|smiling|proud|deserved|earned|cream|cake|tea|beer|wine|telly|movie|film|pizza|bath|treat|bliss|feet)(?= |$)", whole) is not None
    )  # fmt: skip


def _is_worked_chest(line: str, match: re.Match[str], whole: str) -> bool:
    """ "Chest is tight from Monday's flies": a muscle that was worked, with the work or the day named as the cause."""
    if not re.search(r"tight|stiff|sore|ache|aching|achy|cramp|pain|hurts", match.group()):
        return False
    if re.search(
        r"pressure|crush|heavy|breath|arm|jaw|sharp|stab|squeez|left|middle|rest|sweat|dizzy|sick|weird|bad|pain|hurts", whole
    ):
        return False
    return re.search(r" (?:from|after|doms|sore|stiff)(?= |$)", whole) is not None and re.search(
        r" (?:monday|tuesday|wednesday|thursday|friday|saturday|sunday|yesterday|flys|flies|flyes|bench|press|presses|pushups|ups|dips|doms|week|session|workout|day)s?(?= |$)", whole
    ) is not None  # fmt: skip


# "Hit my head ... I mean hit my goal": taken back in the next breath.
_TAKEN_BACK = re.compile(r" (?:just kidding|only kidding|just joking|only joking|i mean)(?= |$)")


def _weigh_same_day(name: str, line: str, whole: str, words: str) -> _Seen | None:
    if _TAKEN_BACK.search(whole):
        return None
    if _LONG_AGO.search(whole):
        return _Seen(Level.CAUTION, name, words, 0.6, topic="diagnosis")
    if _OTHERS.search(line) and _RECENT.search(whole):
        return None
    return _Seen(Level.SAME_DAY, name, words, 0.85)


_NAMED = re.compile(
    r" (?:sciatica|tendonitis|tendinitis|bursitis|impingement|tendinopathy|hernia|herniated|shin splints|tennis elbow|golfers elbow|"
    r"runners knee|plantar fasciitis|frozen shoulder|slipped dis[ck]|bulging disc)"
)
_ASKS_THE_NAME = re.compile(
    r" (?:could|can|might|may|is|do|does|would|think|maybe|what|whats) (?:\S+ ){0,3}(?:be|have|it|this|i|like|a|an)(?= |$)"
)


def _weigh_pain(name: str, line: str, whole: str, match: re.Match[str], words: str, figure: bool) -> _Seen | None:
    said = match.group()
    if _BODY_DENIED.search(said) and " not " not in said:
        return None
    if _LONG_AGO.search(whole) and not _STILL.search(whole):
        return _Seen(Level.CAUTION, name, words, 0.6, topic="diagnosis")
    if _NAMED.fullmatch(said) and _ASKS_THE_NAME.search(whole):
        return _Seen(Level.CAUTION, "diagnosis", words, 0.8, topic="diagnosis")
    if _OTHERS.search(line[: match.start()] + " ") and not re.search(r" (?:my|i|im)(?= )", said):
        return None
    after = line[match.end() :]
    if re.match(
        r"(?: is| has| was|s)?(?: now| all| completely| finally| totally| almost| much)*(?: gone| went away| better| fine| healed| cleared| over| settled| eased| passed| behind me)(?= |$)",
        after,
    ):
        return None
    if _SETTLED_PAIN.search(said) or re.search(r" 0 (?:/|out of|of) 10(?= |$)", said):
        return None
    if re.search(
        r" (?:doms|sore|soreness|stiff|stiffness|tight|tightness|ache|aches|aching|achy|tender)(?= |$)", said
    ) and _is_muscle(said, whole):
        return _Seen(Level.SORENESS, "soreness", words, 0.8)
    if _RECENT.search(whole) and (_OVER.search(whole) or not _is_of_now(whole)):
        return _Seen(Level.SORENESS, name, words, 0.85, topic=EARLIER)
    return _Seen(Level.PAIN, name, words, 0.9)


def _is_of_now(whole: str) -> bool:
    told = re.sub(r" (?:was|were|felt) (?:\S+ )?hurting(?= |$)", "", whole)
    return _STILL.search(told) is not None or _THIS_SET.search(told) is not None


def _is_muscle(said: str, whole: str) -> bool:
    """Ordinary soreness: a muscle, or a joint's region that is sore "from Monday"; never where a sharper word stands beside."""
    if re.search(
        r" (?:pain|sharp|stabbing|hurts|hurt|pinch|pop|popped|click|swollen|worse|tweaked|pulled|fell|fall|landed|knocked|bashed|limping|one spot|to breathe)(?= |$)",
        whole,
    ):
        return False
    parts = [PART_OF_WORD[word] for word in said.split() if word in PART_OF_WORD]
    if parts and not any(part in JOINTS for part in parts):
        return True
    single_joint = re.search(r" (?:knees?|kneecaps?|elbows?|wrists?|ankles?|achilles|groin|rotator|joints?)(?= |$)", said)
    return not single_joint and _MUSCLE_CUE.search(whole) is not None


_BACK = re.compile(r" (lower|low|upper|mid|middle|bottom|top|small)(?: of(?: my| the)?)? (?:back|spine)(?= |$)")
_NOT_THE_PART = re.compile(
    r" (?:(?:came|come|go|going|went|get|got|be|been|put|step|set|hold|held|cut|scale|pull|fall|fell|am|im|bounce|welcome|right|straight|day|text|write|feed|hear) back|back (?:to|at|on|in|then|from|up|off|again)|"
    r"on (?:the )?other hand|head (?:to|off|up|over)|foot elevated|hand (?:weights?|held)|by hand|first hand|leg day|arm day|back day)(?= |$)"
)


def _parts(clauses: tuple[Clause, ...]) -> tuple[str, ...]:
    found: dict[str, None] = {}
    for clause in clauses:
        line = _NOT_THE_PART.sub(lambda match: " " + "·" * (len(match.group()) - 1), _without_harmless(clause.line))
        where = {match.end(): match.group(1) for match in _BACK.finditer(line)}
        at = 0
        for word in line.split(" ")[1:]:
            at += 1 + len(word)
            part = PART_OF_WORD.get(word)
            if part == "back":
                said = where.get(at, "")
                part = (
                    "upper back"
                    if said in ("upper", "mid", "middle", "top") or word.startswith(("lat", "trap"))
                    else "lower back"
                    if said
                    else "back"
                )
                part = "lower back" if word in ("lumbar", "si", "tailbone") else part
            if part:
                found[part] = None
    return tuple(found)


def _side(clauses: tuple[Clause, ...], parts: tuple[str, ...]) -> str:
    said = {word.word for clause in clauses for word in clause.words}
    if "both" in said or {"left", "right"} <= said:
        return "both"
    if "left" in said or ("l" in said and parts):
        return "left"
    # "right" is a side only beside a part of the body: "right in the middle", "all right".
    line = "".join(clause.line for clause in clauses)
    words = "|".join(PART_OF_WORD)
    return "right" if re.search(rf" (?:right|r) (?:\S+ )?(?:{words}|side)(?= |$)|(?:{words}) (?:on the )?right", line) else ""


def _severity(text: str) -> int | None:
    lowered = text.lower()
    span = _SEVERITY[3].search(lowered)
    if span:
        return max(int(span.group(1)), int(span.group(2)))
    for pattern in _SEVERITY[:3]:
        for match in pattern.finditer(lowered):
            if not re.search(r"(?:rpe|effort|rir)\W*(?:was|of|about|is)?\W*$", lowered[: match.start(1)]):
                return min(int(match.group(1)), WORST_PAIN)
    worded = _WORDED.search(lowered)
    return _WORD_SEVERITY[worded.group(1)] if worded else None


def _exercise_words(text: str) -> str:
    slot = _SLOT.search(text)
    if slot:
        return slot.group(1).upper()
    from bot.training.exercises.catalogue import load_catalogue

    mentions = load_catalogue().names.mentions(text)
    return text[mentions[0].start : mentions[0].end] if mentions else ""
