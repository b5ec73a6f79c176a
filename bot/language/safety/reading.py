"""Does a text speak of an emergency, of pain, or of something that is for licensed practice?

Plan: fold and mend the words (words.py), take out what only looks alike, look for the signs (signs.py) clause by clause and for things
said together over the whole text (pictures.py); weigh each sign: denied ("no chest pain"), of somebody else and
long ago, long ago, only imagined, said of hard work or as a joke; and hold it against what the text reads like as a whole, which also
hears what no sign foresaw (unforeseen.py).

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
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from bot.language.safety import pictures
from bot.language.safety.harmless import without_harmless
from bot.language.safety.lookup import Lookup
from bot.language.safety.seen import CHECK, DIZZY, DOUBTED, EARLIER, WARNING_SIGNS, Seen
from bot.language.safety.signs import (
    FIGURES,
    GROUPS,
    SOFT,
    Level,
    compiled,
)
from bot.language.safety.unforeseen import held_against, likened
from bot.language.safety.vocabulary import TABLES, vocabulary
from bot.language.safety.when import IMAGINED, LONG_AGO, OVER, RECENT, STILL, TAKEN_BACK, THIS_SET, TODAY_TOO
from bot.language.safety.where import exercise_words_in, parts_in, severity_of, side_of
from bot.language.safety.words import Clause, clauses_of
from bot.training.safety import JOINTS, PART_OF_WORD


@dataclass(frozen=True, slots=True)
class SafetyReading:
    """What a text asks for.

    parts: parts of the body in the bot's words, as said first. side: "left", "right", "both" or "". severity: 0 to 10, None if not
    said. exercise_words: the slot ("B1") or exercise as said, "" if none. topic: of a caution ("pregnancy", "medication", "diet",
    "diagnosis", "minor", "self_harm", "eating", "illness", "feelings", "dizziness", "check", "warning_signs"); also set beside pain.
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
# What makes more of dizziness than sitting down and waiting (first-aid guidance on feeling faint): how bad, how long, what comes with it, whose it is.
_BESIDE_DIZZY = re.compile(
    r" (?:cant|cannot|wont|not going|doesnt|isnt|worse|"
    r"really|very|so|super|extremely|badly|properly|violently|suddenly|never|worst|"
    r"chest|heart|pulse|palpitations?|breath\w*|jaw|arms?|faint\w*|passe?d|pass|black\w*|collaps\w*|fell|fall\w*|floor|wall|"
    r"see(?!ing)|sight|vision|eyes?|blurr\w*|double|blind|speech|speak|talk|words|slurr\w*|face|numb\w*|weak\w*|tingl\w*|pins|droop\w*|side|confus\w*|"
    r"hit|banged|bumped|knocked|smacked|headaches?|neck|pregnan\w*|trimester|baby|bump|sick|vomit\w*|throw\w*|threw|puk\w*|nause\w*|sweat\w*|clammy|grey|gray|pale|"
    r"diabet\w*|sugars?|insulin|pills?|tablets?|meds|medication|dose|took|taken|blood|bleed\w*|poo|stools?|hot|heat|sun|fever|gas|smoke|fumes|"
    r"stung|sting|hives|rash|itch\w*|swell\w*|swollen|allerg\w*|pain\w*|hurts?|hurting|walk|stand(?! up)|he|she|hes|shes|mum|mom|dad|wife|husband|help|scared)(?= |$)"
)
_LASTS_DIZZY = re.compile(
    r" (?:still|keeps?|hours?|since|all (?:day|morning|night|week)|days|weeks|(?:[2-9]\d|half an|twenty|thirty) (?:minutes?|mins?)|again and again|every (?:time|day|set|session)|"
    r"constantly|all the time)(?= |$)"
)
_SETTLED_PAIN = re.compile(
    r" (?<!no )(?<!not )(?<!isnt )(?<!not the )(?<!isnt the )(?<!in a )(?:fine|better|good|great|ok|okay|healed|gone(?! over)|cleared|happy|solid|perfect|improving|improved|pain free|painfree|well) ?(?:now|today|again|lately|this week)?(?= |$)"
)
_MUSCLE_CUE = re.compile(
    r" (?:doms|from|after|yesterday|monday|tuesday|wednesday|thursday|friday|saturday|sunday|workout|session|last|days?|legs day|leg day)(?= |$)"
)


def read_safety(text: str) -> SafetyReading:
    """Read a text for signs of an emergency, for pain and for what is not the bot's to answer. Never raises; pure."""
    clauses = clauses_of(text, vocabulary())
    seen = [one for clause in clauses for one in _seen_in(text, clause, clauses)]
    seen += _tied_back(text, clauses)
    joined = Clause(tuple(word for clause in clauses for word in clause.words))
    line = without_harmless(joined.line)
    seen += _pictured(text, joined, line)
    seen = held_against(seen, clauses)
    seen += likened(text, clauses, seen)
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
        first = Seen(Level.SAME_DAY, "pregnancy", first.words, first.certainty, "pregnancy")
        topic = "pregnancy"
    parts = parts_in(clauses)
    return SafetyReading(
        level=first.level,
        parts=parts,
        side=side_of(clauses, parts),
        severity=severity_of(text) if first.level in (Level.EMERGENCY, Level.SAME_DAY, Level.PAIN) else None,
        exercise_words=exercise_words_in(text),
        topic=topic,
        sign=first.name,
        words=tuple(dict.fromkeys(one.words for one in seen if one.level is first.level)),
        certainty=first.certainty,
    )


def _seen_in(text: str, clause: Clause, clauses: tuple[Clause, ...]) -> Iterator[Seen]:
    whole = "".join(other.line for other in clauses)
    said = clause.line
    line = without_harmless(said)
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
                yield Seen(Level.NONE, name, "", 0.9, eased=True)
            continue
        start, end = clause.said(text, match.start(), match.end())
        one = _weighed(level, name, line, whole, match, text[start:end], figure)
        if one is not None:
            done.add(key)
            yield one


_STRETCH = re.compile(r".*", re.DOTALL)


def _pictured(text: str, joined: Clause, line: str) -> Iterator[Seen]:
    """What no phrase foresaw: things of one picture said near each other, over full stops too. line: without what is harmless."""
    for picture, start, end in pictures.pictures_in(line):
        match = _STRETCH.match(line, start, end)
        assert match is not None
        start, end = joined.said(text, start, end)
        if picture.sign == "self_harm":
            yield Seen(Level.CAUTION, "self_harm", text[start:end], 0.8, topic="self_harm")
            continue
        if picture.sign == "pain":
            one = _weigh_pain("pain", line, line, match, text[start:end], False)
        else:
            one = _weigh_emergency(picture.sign, line, line, match, text[start:end], soft=picture.sign in _WORK_BRINGS)
        if one and one.level is Level.EMERGENCY and not picture.sure:
            one = Seen(Level.EMERGENCY, picture.sign, one.words, DOUBTED)
        if one:
            yield one


_CHEST_NAMED = compiled("{chest}")
_PRESSES_NOW = re.compile(
    r"^(?: (?:and|so|then|,))*(?: (?:now|it|its|is|just|still|really|feels|feel|feeling|got|gets|getting|gone|very|so|bit|a|all|starting|"
    r"started|to|hurts|hurting|like|today|suddenly|proper))* (?:" + GROUPS["press"] + "|" + GROUPS["pain"] + r")(?= |$)"
)


def _tied_back(text: str, clauses: tuple[Clause, ...]) -> Iterator[Seen]:
    """ "No chest pain earlier but now its tight": what presses now is the chest that was named a clause before."""
    for before, clause in pairwise(clauses):
        match = _PRESSES_NOW.search(clause.line)
        if match and _CHEST_NAMED.search(without_harmless(before.line)):
            start, end = clause.said(text, match.start(), match.end())
            one = _weigh_emergency("chest", clause.line, before.line + clause.line, match, text[start:end])
            if one:
                yield one


@lru_cache(maxsize=1)
def _signs() -> Lookup:
    return Lookup(((level, name), line) for level, table in TABLES for name, lines in table.items() for line in lines)


def _denied(line: str, match: re.Match[str], level: Level) -> bool:
    before = line[: match.start()]
    said = match.group()
    if _NOT_DENIED.search(line) and level is Level.EMERGENCY:
        return False
    if said.split()[0] in ("cant", "not", "no", "dont", "didnt", "lost", "lose", "losing", "wont"):
        return False
    return bool(_DENIED.search(before) or _LISTED_DENIAL.search(before))


def _weighed(level: Level, name: str, line: str, whole: str, match: re.Match[str], words: str, figure: bool) -> Seen | None:
    """What a sign means as it was said here; None if it means nothing."""
    if level is Level.EMERGENCY:
        return _weigh_emergency(name, line, whole, match, words)
    if level is Level.SAME_DAY:
        return _weigh_same_day(name, line, whole, words)
    if level is Level.PAIN:
        return _weigh_pain(name, line, whole, match, words, figure)
    if level is Level.CAUTION:
        if name == "self_harm" and _ENDS_TRAINING.search(match.group() + line[match.end() :]) and not _ONESELF.search(whole):
            return None
        if name == "self_harm" and figure and (_LAUGH.search(whole) or _EFFORT.search(line)) and "myself" not in line:
            return None
        if name == "minor" and _is_no_age(line, match):
            return None
        return Seen(level, name, words, 0.85, topic=name)
    return Seen(level, name, words, 0.8)


# "I want to end it here for today", "ill finish it after set 3 tonight": the session, not a life.
_ENDS_TRAINING = re.compile(
    r"^ (?:end|ending|ended|finish) (?:it|things) (?:up )?(?:here|there|early|earlier|quicker|on a|with|after|at|by|short|for (?:today|tonight|now|this week))(?= )"
)
_ONESELF = re.compile(
    r" (?:life|myself|everyone|everybody|nobody|noone|goodbye|pain|living|alive|forever|pills|tablets|cant go on|anymore)(?= |$)"
)
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


def _weigh_emergency(name: str, line: str, whole: str, match: re.Match[str], words: str, *, soft: bool = True) -> Seen | None:
    one = _as_said(name, line, whole, match, words, soft=soft)
    if one is not None:
        one.eased = one.level is not Level.EMERGENCY
    return one


def _as_said(name: str, line: str, whole: str, match: re.Match[str], words: str, *, soft: bool) -> Seen | None:
    others = _OTHERS.search(line[: match.start()] + " ") is not None
    if name == "injury" and _HELP_FOR_FUN.search(whole):
        return None
    if LONG_AGO.search(whole) and not _GOES_ON.search(match.group()):
        return None if others else Seen(Level.CAUTION, name, words, 0.7, topic="diagnosis")
    recent = RECENT.search(whole) is not None and TODAY_TOO.search(whole) is None
    now = STILL.search(whole) is not None
    if others and recent and not now:
        return None
    if IMAGINED.search(line[: match.start()] + " "):
        return Seen(Level.CAUTION, name, words, 0.7, topic=WARNING_SIGNS)
    over = OVER.search(whole) is not None
    if recent and (over or not (now or name in _LASTS)):
        return Seen(Level.SAME_DAY, name, words, 0.75)
    if name == "faint" and _DIZZY_ONLY.match(match.group()) and not _BESIDE_DIZZY.search(whole.replace(match.group(), " ", 1)):
        if _LASTS_DIZZY.search(whole) and not over:
            return Seen(Level.SAME_DAY, name, words, 0.75)
        return Seen(Level.CAUTION, name, words, 0.85, topic=CHECK if _PRAISE.search(whole) else DIZZY)
    if name == "faint" and _DIZZY_ONLY.match(match.group()) and (_MILD_DIZZY.search(whole) or over):
        return Seen(Level.SAME_DAY, name, words, 0.75)
    worry = _WORRY.search(_SOON_OVER.sub("", whole.replace(match.group(), " ", 1))) is not None
    effort, laugh = _EFFORT.search(whole) is not None, _PRAISE.search(whole) is not None
    if soft and name in SOFT and not worry and _soft(_SOON_OVER.sub("", match.group()), effort=effort, laugh=laugh):
        return Seen(Level.CAUTION, name, words, 0.6, topic=CHECK)
    if name == "stroke" and _lift_that_hurts(match.group(), whole):
        return Seen(Level.PAIN, "pain", words, 0.7)
    if name == "chest" and _from_the_teeth(match.group(), whole):
        return Seen(Level.PAIN, "pain", words, 0.7)
    if name == "faint" and "collaps" in match.group() and not worry and _happy_heap(whole):
        return Seen(Level.CAUTION, name, words, 0.6, topic=CHECK)
    if name == "chest" and _is_worked_chest(line, match, whole):
        return Seen(Level.SORENESS, name, words, 0.6)
    return Seen(Level.EMERGENCY, name, words, 0.95)


_HELP_FOR_FUN = re.compile(
    r" (?:ambulance|paramedics?|911|999|112)(?: lol| please)*(?: ,)*(?: just)? (?:but )?(?:not for me|for (?:the|my) (?:bar|bench|weights?|ego|quads|legs|dumbbells?|wallet))(?= |$)"
)

_LASTS = frozenset({"sugar"})  # insulin that was missed yesterday tells today

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


def _weigh_same_day(name: str, line: str, whole: str, words: str) -> Seen | None:
    if TAKEN_BACK.search(whole):
        return None
    if LONG_AGO.search(whole):
        return Seen(Level.CAUTION, name, words, 0.6, topic="diagnosis")
    if _OTHERS.search(line) and RECENT.search(whole):
        return None
    return Seen(Level.SAME_DAY, name, words, 0.85)


_NAMED = re.compile(
    r" (?:sciatica|tendonitis|tendinitis|bursitis|impingement|tendinopathy|hernia|herniated|shin splints|tennis elbow|golfers elbow|"
    r"runners knee|plantar fasciitis|frozen shoulder|slipped dis[ck]|bulging disc)"
)
_ASKS_THE_NAME = re.compile(
    r" (?:could|can|might|may|is|do|does|would|think|maybe|what|whats) (?:\S+ ){0,3}(?:be|have|it|this|i|like|a|an)(?= |$)"
)


def _weigh_pain(name: str, line: str, whole: str, match: re.Match[str], words: str, figure: bool) -> Seen | None:
    said = match.group()
    if _BODY_DENIED.search(said) and " not " not in said:
        return None
    if LONG_AGO.search(whole) and not STILL.search(whole):
        return Seen(Level.CAUTION, name, words, 0.6, topic="diagnosis")
    if _NAMED.fullmatch(said) and _ASKS_THE_NAME.search(whole):
        return Seen(Level.CAUTION, "diagnosis", words, 0.8, topic="diagnosis")
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
        return Seen(Level.SORENESS, "soreness", words, 0.8)
    if RECENT.search(whole) and (OVER.search(whole) or not _is_of_now(whole)):
        return Seen(Level.SORENESS, name, words, 0.85, topic=EARLIER)
    return Seen(Level.PAIN, name, words, 0.9)


def _is_of_now(whole: str) -> bool:
    told = re.sub(r" (?:was|were|felt) (?:\S+ )?hurting(?= |$)", "", whole)
    return STILL.search(told) is not None or THIS_SET.search(told) is not None


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
