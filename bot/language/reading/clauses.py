"""Which parts of a text talk of what? A text is cut into clauses, and each is set talk, a question, pain, a swap, a date, or chat.

"20x12, knee hurts a bit"            -> sets · pain
"got 10. should I go up?"            -> sets · question
"see you at 7:30"                    -> date
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_QUESTION_START = (
    r"(?:can|could|should|shall|may|do|does|is|are|was it|was \\d[^.]*\\btoo|am|will|would|did (?:you|u|we))\s+(?:i|we|you|it|that|this|there|my|the|these|those|u|someone|one)\b"
    r"|(?:what|whats|what's|why|how|hows|how's|when|which(?! (?:i|we) (?:forgot|missed|did|never|had))|where|who|wheres|whens|wich|wat|hw)\b(?!\s+a\b)"
    r"|does\b|was \d[^.]*\btoo\b|(?:do|should|would) (?!i\b)(?:a |an |the |my |your )?[a-z]{3,}\b(?! reps)(?=.* (?:build|help|work|burn|make|count|need|mean|have|hurt|grow|hit|train|target|use|beat|give|get)s?\b)|(?:is|are|any|anyone|anybody)\b|remind me what|tell me (?:what|how|why|when)|wonder(?:ing)?\b|not sure (?:if|how|what|whether)|ok to\b|okay to\b|any (?:idea|tips|advice|alternatives?)"
)
_QUESTION = re.compile(
    rf"^(?:(?:ok|so|and|but|hey|hi|coach|also|btw|um|then|or|quick question|question|q)[\s,:]+)*(?:{_QUESTION_START})"
)
_QUESTION_INSIDE = re.compile(
    r"(?<![\w'])(?:(?:and |but |so |also )?(?:can|could|should|shall|may)\s+(?:i|we|you)\b|(?:do|does|is|are|was)\s+(?:i|we|you|that|this|it)\s+(?:ok|okay|enough|too|right|good|normal|have|need|still|go|rest|count|supposed|do|take)\b"
    r"|what(?:'?s| is| are| does| do| should)\s|how (?:do|does|long|much|many|should|come|heavy)\b|why (?:do|does|is|are|am)\b|when (?:do|should|can|is)\b|which (?:weight|one|exercise)\b|where (?:do|should)\b|what next|whats next|(?:is|was) (?:that|this|it)(?: one)? (?:harder|easier|heavier|lighter|better|worse|stronger|ok|okay|enough|right|normal|good|bad|fine|too)\b)"
)
_BODY = (
    r"(?:knees?|shoulders?|lower back|back|elbows?|wrists?|hips?|ankles?|neck|hamstrings?|hammys?|quads?|calf|calves|groin|achilles|shins?|"
    r"forearms?|thumb|fingers?|foot|feet|heel|chest|ribs?|spine|glutes?|biceps?|triceps?|pec|traps?|hand|leg|arm|side)"
)
_PAIN = re.compile(
    rf"\b(?:hurts?|hurting|pain|painful|pains|ache|aches|aching|achy|twinged?|twinges|tweaked|tweaky|tweak|stabbing|injur\w+|strained|pulled (?:my|a|something)|"
    rf"numb|tingl\w+|dizzy|lightheaded|light[- ]headed|(?:felt|feel|feeling|feels) (?:a bit |really |so |very |quite )*(?:sick|queasy|unwell)|queasy|threw up|blacked out|faint\w*|nause\w+|swollen|pinch(?:ed|ing|es)?|niggl\w+|clicking|popped|sprain\w*|sharp|cramp\w*|ouch|owie?|"
    rf"throbbing|throbs|bothering|bugging|acting up|acts up|playing up|flar\w+ up|complain\w*|not happy|angry|unhappy|short of breath|cant breathe|can't breathe|passed out)\b"
    rf"|\b{_BODY}\s+(?:is|was|feels?|felt|got|went|been|gave|started|still|a bit|bit|really|quite)?\s*(?:a bit |bit |really |quite |so |kinda |pretty |very |feeling |super )*"
    rf"(?:sore|stiff|tight|bad|weird|off|funny|dodgy|iffy|cranky|grumpy|wonky|unstable|odd|strange|giving way|gave way)\b"
    rf"|\b(?:because of|cos of|cuz of|due to|on account of) (?:my|the) (?:left |right |lower |bad |sore |dodgy |poor )*{_BODY}\b(?! (?:day|workout|press|curl))"
    rf"|\b{_BODY}(?:'?s| is| are| was| were)? (?:a |an |at |about )*(?:\d|10)(?:\s*/\s*| out of | outta )10\b"
    rf"|\b{_BODY}(?:'?s| is| are| was| were)? killing\b|\b(?:sore|dodgy|bad|stiff|tight|iffy|weird) (?!side|arm|leg){_BODY}\b"
)
_OWN_BODY = re.compile(rf"\b(?:(?:and|but|with) )?(?:my )?(?:left |right |lower |upper |both )?{_BODY}\b")
_OTHERS = re.compile(
    r"^(?:(?:and|but|so|meanwhile|lol|haha|ha|also|even|though|well|hey|ok|oh|while|whereas|because|cos)[\s,]+)*"
    r"(?:(?:my|his|her|our|the)\s+(?:\w+\s+){0,2}?(?:sister|brother|bro|wife|hubby|husband|mum|mom|mother|dad|father|son|daughter|kid|kids|girlfriend|gf|boyfriend|bf|partner|mate|friend|buddy|"
    r"colleague|coworker|neighbou?r|cousin|grandson|granddaughter|niece|in-?law|teammate|coworker|uncle|aunt|aunty|nephew|niece|flatmate|roommate|housemate|boss|twin|grandad|granddad|grandpa|grandma|gran|nan|fiance|missus|lad|teenager|trainer|physio)"
    r"|(?:flatmate|roommate|housemate|hubby|the missus)(?= )|(?:bro|dad|mum|mom|sis|wifey|hubby|grandad|grandpa)(?= (?:benches|lifts|does|squats|presses|rows|curls|deadlifts|pulls|gets|can)\b)|he|she|they|(?:this|that|some|the) (?:guy|bloke|dude|girl|lad|woman|man|kid))(?:'s)?\s+"
    r"(?:just |always |still |only |even |can |could |has |had |then )*(?:did|does|do|done|got|gets|get|hit|hits|lifts?|lifted|bench(?:es|ed)?|squats?|squatted|deadlifts?|deadlifted|curls?|curled|rows?|rowed|"
    r"press(?:es|ed)?|managed?s?|pulled|pulls|beat|made|went|uses?|used|holds?|held|repped|reps|knocked|cranked|smashed|pushed|pushes|moved|moves|handles?|handled)\b"
)
_OTHERS_SEEN = re.compile(
    r"\b(?:saw|watched|seen|heard|know|spotted)\s+(?:of\s+)?(?:a|an|this|that|some|one|my|the|our|two)\s+(?:\w+\s+){0,3}?(?:do|doing|did|lift|lifting|bench|benching|squat|squatting|deadlift|pull|press|pressing|curl|curling|who|with)\b"
)
_CHAT = re.compile(
    r"\b(?:only have|have only|i have|i own|i'?ve got|bought|ordered|ordering|buying|borrowed|selling|sold)\s+(?:myself )?(?:about |like |a |an |the |some |a pair of |a set of |new |two |those )*\d+|\bback in \d+|\b(?:week|day) \d+ (?:was|is|of)|\d+ days? to go|\b(?:feel|feeling|felt|mood|energy|sleep|motivation|stress|tired)\s*(?:is|was|at|:|like|about)*\s*\d{1,2}\s*/\s*10\b|\bi'?m (?:at|down to|up to|about|now|back to|back at) \d+(?:[.,]\d+)?\s*(?:kg|kilos?|lbs?|pounds?|stone)\s*(?:now|today|already|again|this (?:week|morning))?\s*(?:,|$|\bdown\b|\bup\b|\bfrom\b)|\b\d{1,2}\s*/\s*10\s+(?:energy|mood|sleep|motivation|today|stress)\b|\b(?:session|workout|coach|class|week)\b[^\d]{0,16}\b(?:10|\d)\s*/\s*10\b(?!\s*(?:with|w|@|at|x|kg|each))|\b(?:weigh|weighed|weighing|wiege|peso|pèse|weeg|väger|veier)\b|\b(?:slept|ran|walked|cycled|drank|ate) \d(?!\d*\s*(?:m|metres|meters|steps|yards|paces)?\s*(?:with|w|@|at|x|each)\b)|"
    r"^(?:my |the )?plans? for\b|\bmy max\b|\byears? old\b|\border\b|\broom \d|\bturned \d|\bcall me\b"
)
_MONEY_AND_MILES = r"[$€£]\s*\d+|\b\d+(?:[.,]\d+)?\s*(?:%|percent|€|£|euros?|dollars?|bucks|quid|km|km/h|kph|mph|m/s|mm|cm|oz|kilomet\w+|miles?|°c?|degrees)(?!\w)"
_FOOD = r"(?:pizzas?|beers?|pints?|wines?|coffees?|teas?|espressos?|biscuits?|cookies|eggs?|burgers?|bananas?|slices?|cups?|tablets?|pills?|capsules?|paracetamol|ibuprofen|aspirin|scoops?)"
NO_LIFT = re.compile(
    rf"{_MONEY_AND_MILES}|\bblood pressure\b|\bbp (?:is |was )?\d{{2,3}}\s?(?:/|over)\s?\d{{2,3}}\b|\b\d{{2,3}} over \d{{2,3}}\b|\b(?:minus|plus)? ?-?\d+ (?:degrees|celsius|fahrenheit|(?:in|out in) (?:the|my) (?:garage|shed|room|house|gym|flat|office|attic))\b|\b(?:won|lost|beat \w+)(?: at \w+)? \d+ ?(?:to|-|:) ?\d+|\b(?:in|since|from) (?:19|20)\d\d\b|\b\d+(?:[.,]\d+)?\s*-?h(?:rs?|ours?)?\b(?:\s+(?:of\s+)?sleep)?|\b\d+(?:[.,]\d+)?\s*(?:mg|mcg|ml|cl|kcal|iu|calories)\b|\b{_FOOD}\s+\d+\s*(?:x\s*\d+)?(?=\s|$)(?!\s*(?:kg|lb|reps?))|\b\d+\s*(?:x\s*\d*\s*)?(?:of\s+)?{_FOOD}\b"
    rf"|\b(?:body ?weight|my weight|(?<![a-z] )weight|scales?)\s+(?:is |was |says? |said |at )*\d+(?:[.,]\d+)?\s*(?:kg|kilos?|lbs?|pounds?)?\s+(?:this morning|today|now|yesterday|tonight)\b"
    rf"|\b\d{{1,2}}\s*/\s*10\s+for\s+(?:that|the|this|today'?s|my)\b.{{0,20}}\b(?:session|workout|class|plan|coach|app)\b"
)
# A load and a count, told together.
FULL_SET = re.compile(
    r"\d(?:'?s|\s*(?:kgs?|lbs?|kilos?|pounds?))?\s*[x×*@]\s*(?:the\s+)?\d|\d+\s*(?:reps?|each(?: side| leg| arm)?|per side|e/s)?\s*(?:[a-z][a-z-]{1,12}\s+){0,2}(?:with|w/?|at|@)\s*(?:the\s+|a\s+|my\s+|two\s+)*\d"
    r"|\d(?:'?s|\s*(?:kgs?|lbs?|kilos?|pounds?))\s*(?:,|:|for|got|did|-)?\s*\d|\d\s+for\s+\d|\d+\s*reps?\b"
    r"|\d\s*(?:in\s+)?(?:each(?: hand| side| arm| leg)?|per hand|apiece)\s*[x×@]\s*\d|\dk?\s*[x×]\s*\d"
    r"|\d\s*(?:kgs?|lbs?|kilos?)\s+(?:[a-z][a-z-]+\s+){1,2}\d"
)
_NO_PAIN = re.compile(
    r"\b(?:no|without|zero|didn'?t|not|doesn'?t|don'?t|pain[- ]?free|isn'?t)\b[^,.]{0,14}\b(?:pain|hurt|hurts|ache|aches|twinge)\b|\bpain[- ]?free\b|no pain no gain"
)
_SWAP = re.compile(
    r"\b(?:swap|swapped|swapping|switch|substitut\w+|alternatives?|replacement|replace|instead|don'?t have|dont have|haven'?t got|havent got|no (?:barbell|bench|band|bands|bar|dumbbells?|kettlebell|box|rack|equipment|kit|cable)|"
    r"can'?t do (?:the )?[a-z]|cant do (?:the )?[a-z]|(?:band|bench|bar) (?:snapped|broke|is taken|taken)|something (?:else|easier|lighter))\b"
)
_DATE = re.compile(
    r"\b(?:see you|see u|cu at|remind(?:er)?s?|reschedul\w+|move (?:it|this|that|today|tomorrow|tmrw|my|the|monday|tuesday|wednesday|thursday|friday|saturday|sunday|session|training|leg|push|pull|it's)|"
    r"tomorrow|tmrw|tmw|next (?:week|monday|tuesday|wednesday|thursday|friday|saturday|sunday)|train(?:ing)? (?:at|on|later|tonight)|(?:away|travell?ing|holiday|vacation) (?:from|till|until|for|next|on)|"
    r"be (?:there|back|home) (?:at|by|on|in)|(?:spin|class|yoga|pilates|swim|dentist|doctor|interview|lesson|match|practice|choir|pick ?up|lunch|breakfast|meet|call|gym|start|starting|appointment|session|dinner|work|shift|bus|train|flight) (?:at|is at|from|starts at|till|until) \d|wake|"
    r"(?:pause|resume) (?:me|my|the|training|reminders)|push (?:it|today|this) to|i'?ll (?:do|train|be)|ill (?:do|train|be)|will train|can'?t train|cant train|not training|running late|\d+ ?(?:min|mins|minutes|m) (?:now|later|late|away|early|to go)|quiet hours|time ?zone)\b|\b(?:until|till|til|about \w+ at) (?:\d{1,2}|one|two|three|four|five|six|seven|eight|nine|ten|noon)\b(?! (?:reps?|failure|kg|lb))|\b(?:at|by|around|till|until) (?:half|quarter|five|ten|twenty|\d{1,2}) (?:past|to) |\bat (?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve) (?:fifteen|thirty|forty|o'?clock)\b|\b\d{1,2}(?:st|nd|rd|th)? (?:january|february|march|april|june|july|august|september|october|november|december)\b|\bon the \d{1,2}(?:st|nd|rd|th)?\b(?=[,.]|$)|(?<![\d.,/x])\b\d{1,2}h(?:[0-5]\d)?\b(?!\s?(?:old|hold))|\b\d{1,2}(?::\d\d)?\s?(?:am|pm|o'?clock)\b|\b(?:at|till?|until|by|around|since|before) (?:\d{1,2}:\d\d|(?:[01]?\d|2[0-3])\.(?:[0-5]\d)(?<!25)(?<!50))\b(?!\s*(?:kg|kilo|lb|pound))|\b(?:at|about|around|by|past|before|after|until) (?:\d{1,2}|six|seven|eight|nine|ten|eleven|twelve) (?:tonight|tomorrow|this (?:morning|evening|afternoon)|in the (?:morning|evening|afternoon)|sharp)\b"
)
_WHEN = re.compile(
    r"^(?:(?:(?:i )?forgot(?: to (?:log|send|say|add|tell you|write|record|note|put(?: in)?|enter|mention)(?: it| this| that| my)?)?|did|my|was|to log|note|quick|catch up|missed|ok|hi|hey|so|and|also|oh|well|now|update|forgot|sorry|forgot to log|late log|logging late|catching up|btw|adding|logging|forgot to send|here'?s|here is|this is|from|for|on|log|these are|this was|my)[\s,:]+)*"
    r"(?P<when>yesterday(?:'?s)?|gisteren|gestern|ayer|ontem|ieri|wczoraj|yday|yest|ystrday|yesterdy|last nite|last night|day before yesterday|(?:last |this |on )?(?:monday|tuesday|wednesday|thursday|friday|saturday|sunday|mon|tues?|wed|weds|thurs?|thu|fri|sat|sun)(?:'?s)?\b|day \d{1,2}(?:'?s)?(?! (?:of|without|in|on|since|after|no)\b)|(?:two|2|three|3) days ago)"
    r"(?:\s+(?:session|workout|training|sets|numbers|was|were|i did|i got|did|evening|morning|night|stuff|log))*\s*[:\-,]?\s*"
)
DAY_NAME = r"(?:monday|tuesday|wednesday|thursday|friday|saturday|sunday|mon|tues?|weds?|thurs?|thu|fri|sat|sun)"
_WHEN_INSIDE = re.compile(
    rf"^(?![^\d\n]*\b(?:plan(?:s|ned|ning)?|next|will|gonna|going to|aim(?:ing)?|target|coming|hoping|if)\b)(?=[^\d\n]*\b(?:did|done|doing|trained|log|logged|forgot|late|missed|entry|session|workout|numbers|sets|was|were|here'?s|these are|got|catch(?:ing)? up|from|for|yesterday'?s|backlog|add)\b)"
    rf"[^\d\n]{{1,60}}?(?<!than)(?<!as)(?<!like)(?<!since)(?<!vs)(?<!sore)(?<!sore from)(?<!before)(?<!after)(?<!until)(?<!till)(?<!see you)\s"
    rf"(?P<when>yesterday(?:'?s)?|yday|day before yesterday|last (?:night|nite)|(?:(?:on|for|from|last|this)\s+)+{DAY_NAME}\b|{DAY_NAME}'s|(?:two|2|three|3) days ago)"
    r"(?![^\n]*\b(?:today|now|tonight)\b)(?:[^\d\n]{0,40}?[:,]|[^\d\n,:]{0,40}?(?=\s\d))\s*"
)
_WHEN_LATE = re.compile(
    r"\s*[,(]?\s*\b(?:(?:that was|this was|it was|was|were|from|for|on|that'?s|did (?:it|this|that|these|those)(?: on)?|these were|those were|done(?: on)?|all)\s+)?"
    r"(?P<when>yesterday|yday|day before yesterday|(?:last |on |(?<=\()|(?<=\d )|(?<=\d, ))(?:monday|tuesday|wednesday|thursday|friday|saturday|sunday)|two days ago|2 days ago)\)?\s*[.!]*\s*$"
)
_TO_COME = re.compile(r"\b(?:plan\w*|next|will|gonna|going to|aim\w*|target|coming|hoping|if|maybe|might|so)\b")
_BARE_DAY = re.compile(rf"{DAY_NAME}")
_THEN_AND_NOW = re.compile(
    rf"^[^\n]{{0,30}}?\b(?:last (?:week|time|session|month)|(?:last |on )?{DAY_NAME})\b[^\n]{{0,40}}?\d[^\n]{{0,30}}?\b(?:today|now|this time|tonight)[\s,:]+"
)
_LAST_WEEK_FIRST = re.compile(
    r"^\s*(?:so )?last (?:week|wk|time|session) (?:was |i did |i got |it was )?[^.;\n]*\d[^.;\n]*[.;]\s+(?=[^\n]*\d)"
)
_TODAY_AFTER_ALL = re.compile(r"[^\d\n]*\b(?:today|now|tonight|this morning)\b")
_COMPARED = re.compile(
    r"\b(?:than|as|like|since|vs|versus|after|before|beat|beats|over|until|till|by|see you|next)\s+(?:i did |it was |the )*(?:on |from |last )*$"
)
_BREAKS = re.compile(
    r"[.!?…]+(?=\s|$)|;|\n|(?<!\d)(?<!ish)\?|\s[-–]\s(?=[a-z]{3,})|(?<=[a-z\d)])\s*[(](?=[a-z]{3})|,(?=\s*[a-z'’ ]{3,})|,(?=\s*\d+\s+(?:years?|months?|weeks?|days?|hours?|kids?|people|degrees|pages?|emails?|coffees?)\b)|\b(?:and|while|whereas) (?=(?:me|i|i'm|im|mine|my)\b[^,.]{0,20}\d)|\b(?:but|though|although|however|because|due to|on account of|cos|cuz|btw|ps)\b|\bso\b(?=\s+(?:i\s+)?(?:only|just|did|got|managed|had to|ended)\b)"
)
_SET_LIKE = re.compile(r"\d")
_HARD_SETS = re.compile(
    r"\d\s*(?:kg|lbs?|kilos?|pounds?)?\s*[x×*@]\s*\d|\b\d+\s*(?:reps?|sets?|kg|lbs?|secs?|seconds)\b|\b(?:got|did|hit|managed|made|done|only|just|completed|finished)\b[^.,;]{0,25}\d|^\s*\d+(?:[.,]\d+)?(?:[ ,/]+\d+)*\s*$"
)
_ONLY_A_SCORE = re.compile(r"[\s,]*(?:maybe |about |like |say |so |it'?s |an? |around )*\d{1,2}\s*(?:/|out of|of)\s*10[\s.,!]*")
_PHYSICAL_SCORE = re.compile(r"\b\d{1,2}\s*(?:/|out of|of)\s*10\b")


@dataclass(frozen=True, slots=True)
class Part:
    """text[start:end] and what it is: "sets", "question", "pain", "swap", "date" or "chat"."""

    start: int
    end: int
    kind: str


@dataclass(frozen=True, slots=True)
class Parts:
    parts: tuple[Part, ...]
    when: str = ""  # "yesterday", "monday", "day 2" where the sets are told of another day


def parts_of(folded: str) -> Parts:
    """Cut a folded text into parts, and take off a day that it begins or ends with."""
    start, end, when = 0, len(folded), ""
    then = _THEN_AND_NOW.match(folded) or _LAST_WEEK_FIRST.match(folded)
    if then and _SET_LIKE.search(folded[then.end() :]):
        start = then.end()
    head: list[tuple[int, int, bool]] = []
    found = _WHEN.match(folded) if not start else None
    if found and _SET_LIKE.search(folded[found.end() :]) and not _TODAY_AFTER_ALL.match(folded, found.end()):
        when, start = found["when"], found.end()
    elif not start and (inside := _WHEN_INSIDE.match(folded)) and _SET_LIKE.search(folded[inside.end() :]):
        when, start = inside["when"], inside.end("when")
        head = _cut(folded, 0, inside.start("when"))  # it may name the exercise
    else:
        late = _WHEN_LATE.search(folded)
        to_come = late is not None and _BARE_DAY.fullmatch(late["when"]) and _TO_COME.search(folded)
        if (
            late
            and not to_come
            and _SET_LIKE.search(folded[: late.start()])
            and not _COMPARED.search(folded, 0, late.start("when"))
        ):
            when, end = late["when"], late.start()
    if not head and folded[start:end].isascii() and not _ANY_WORD.search(folded, start, end):
        return Parts((Part(start, end, "sets"),), when)
    cut = [*head, *_cut(folded, start, end)]
    parts: list[Part] = []
    for begin, stop, asked in cut:
        kind = _kind(folded[begin:stop], asked)
        if kind == "sets" and parts and parts[-1].kind == "pain" and _ONLY_A_SCORE.fullmatch(folded[begin:stop]):
            kind = "pain"  # "knee's a bit grumpy, 3 out of 10"
        if parts and parts[-1].kind == kind and kind != "sets":
            parts[-1] = Part(parts[-1].start, stop, kind)
        else:
            parts.append(Part(begin, stop, kind))
    return Parts(tuple(parts), when)


_ANY_WORD = re.compile(r"[a-z?]{3,}|\?")


def _cut(folded: str, start: int, end: int) -> list[tuple[int, int, bool]]:
    """(start, end, ends with a question mark) of each clause; set talk that goes on over a comma is put together again later."""
    cuts: list[tuple[int, int, bool]] = []
    begin = start
    for found in _BREAKS.finditer(folded, start, end):
        if found.start() <= begin:
            if "?" in found.group():
                begin = found.end()
            continue
        sign = found.group()
        word = sign[0].isalpha() or sign[0] == "\n"
        _add(folded, begin, found.start(), "?" in sign, cuts)
        begin = found.start() if word and sign != "\n" else found.end()
    _add(folded, begin, end, False, cuts)
    return cuts


def _add(folded: str, begin: int, stop: int, asked: bool, cuts: list[tuple[int, int, bool]]) -> None:
    """Add a clause; a question or a pain in its middle begins a clause of its own."""
    piece = folded[begin:stop]
    if not piece.strip(" ,.-"):
        return
    inside = _QUESTION_INSIDE.search(piece) or (_ASKED_BEHIND.search(piece) if asked else None)
    if inside and inside.start() > 2 and _SET_LIKE.search(piece[: inside.start()]):
        cuts.append((begin, begin + inside.start(), False))
        cuts.append((begin + inside.start(), stop, True))
        return
    pain = _PAIN.search(piece)
    part = next(
        (
            found
            for found in _OWN_BODY.finditer(piece)
            if pain and found.start() <= pain.start() and found.end() + 24 > pain.start()
        ),
        None,
    )
    if pain and part and _SET_LIKE.search(piece[: part.start()]) and not _NO_PAIN.search(piece):
        cuts.append((begin, begin + part.start(), False))
        cuts.append((begin + part.start(), stop, asked))
        return
    if pain and pain.start() > 2:
        joint = max(
            piece.rfind(" then ", 0, pain.start()),
            piece.rfind(" but ", 0, pain.start()),
            piece.rfind(" and ", 0, pain.start()),
            piece.rfind(" with ", 0, pain.start()),
            piece.rfind(",", 0, pain.start()),
            piece.rfind(" my ", 0, pain.start()),
        )
        if joint > 0 and _SET_LIKE.search(piece[:joint]):
            cuts.append((begin, begin + joint, False))
            _add_pain(piece, begin, begin + joint, stop, asked, cuts)
            return
        told = _TOLD_BEFORE.match(piece[: pain.start()])
        if told and not _NO_PAIN.search(piece):  # "20*10 feeling dizzy": nothing parts the two
            cuts.append((begin, begin + told.end(), False))
            cuts.append((begin + told.end(), stop, asked))
            return
    if pain and not _NO_PAIN.search(piece):
        _add_pain(piece, begin, begin, stop, asked, cuts)
        return
    cuts.append((begin, stop, asked))


_ASKED_BEHIND = re.compile(
    r"(?<=\d)[\s,]+(?:(?:and|so|but|ok|also)\s+)*(?=(?:what|which|when|where|why|how|who|is|are|am|should|shall|do|does|can|could|will|would)\b)"
)
_TOLD_BEFORE = re.compile(
    r"^[^a-z]*\d+(?:[.,]\d+)?\s*(?:kg|lbs?|kilos?|pounds?)?\s*(?:[x×*@]|for|reps? (?:with|at))\s*\d+(?:[.,]\d+)?\s*(?:kg|lbs?|kilos?|pounds?|reps?|each(?: side)?)?(?=\W|$)"
    r"|^[^a-z\d]*\d+(?:[.,]\d+)?\s*(?:kg|lbs?|kilos?|pounds?)(?:[\s,/]+\d+)+(?=\W|$)"
    r"|^[^a-z\d]*\d+(?:[.,]\d+)?(?:'?s)?(?:[\s,]+\d+)+(?=\s|$)"
)
_TOLD_AFTER = re.compile(
    r"[\s,]+so\s+(?=(?:i\s+)?(?:only|just|did|got|managed|stopped at|cut it at)\b[^.]{0,20}\d)|"
    r"(?<!\bat)(?<!\bwith)(?<!\bafter)(?<!\bover)(?<!\babove)(?<!\bfrom)(?<!\bfor)(?<!\bthan)(?<!\babout)(?<!\baround)(?<!\bdo)(?<!\bdid)(?<!\bpast)(?<!\bon)(?<!\bthe)(?<!\bto)"
    r"[\s,]+(?=\d+(?:[.,]\d+)?\s*(?:(?:kg|lbs?|kilos?|pounds?)\s*(?:[x×*@:,]\s*)?(?:for )?\d|[x×*@]\s*\d|(?:kg|lbs?|kilos?|pounds?)\s*$))"
)


def _add_pain(piece: str, begin: int, start: int, stop: int, asked: bool, cuts: list[tuple[int, int, bool]]) -> None:
    """Add a clause that tells of pain; sets told after it begin one of their own ("wrist hurts a bit 14kg 10 10")."""
    pain = _PAIN.search(piece, start - begin)
    told = _TOLD_AFTER.search(piece, pain.end()) if pain else None
    if told is None:
        cuts.append((start, stop, asked))
        return
    cuts.append((start, begin + told.start(), False))
    cuts.append((begin + told.end(), stop, asked))


def pained(piece: str) -> bool:
    """Is pain told in a piece that tells of sets as well ("felt dizzy after 20x10")?"""
    return bool(_PAIN.search(piece)) and not _NO_PAIN.search(piece)


_THING_IS = re.compile(
    r"^(?:my |the |this )?(?:bag|backpack|pack|bell|kettlebell|bar|band|dumbbells?|plates?) (?:is|weighs|are) (?:about |only )?\d"
)
_CONDITION = re.compile(r"(?:so |and |but |also |hey |coach )*(?:if|unless|once i|when i)\b")
_FUTURE = re.compile(
    r"\b(?:i'?ll|i will|we'll|gonna|going to|about to|planning (?:to|on)|thinking (?:of|about)|hoping to|want to|wanna|need to|have to|might)\b"
    r"(?!\s+(?:log|record|put|count|call|say|write|note|add|take)\b)"
    r"|\b(?:volgende keer|nächstes mal|prochaine fois|la próxima|próxima vez|nästa gång|neste gang|næste gang|następnym razem|prossima volta)\b"
)
_NOT_YET = re.compile(
    r"^(?:(?:ok|so|and|but|then|also|maybe|think|i think|right|probably)[\s,]+)*(?:i\s+)?(?:next (?:time|week|session|go|round)\b|(?:i'?ll|will|gonna|going to|might|should|hope to|hoping to|want to|wanna|planning to|plan to)\s+(?:try|do|go|use|aim|get|attempt|start|move|hit|load|put|bump|jump)\b|tomorrow\b|thinking (?:of|about)\b|plan (?:is|for)\b|doing (?:\d|two|three|four) more (?:sets?|rounds?)\b.*\b(?:after|when|then|once|later|before)\b|aiming for\b.*\b(?:next|tomorrow|friday|monday))"
)
_MAYBE_THEN = re.compile(
    r"\b(?:maybe|might|will|gonna|going to|planning|hoping|aim(?:ing)? (?:for|at)|thinking|want to|can i)\b[^.]*\b(?:tomorrow|tmrw|tonight|next (?:week|time|session)|later|(?:mon|tues|wednes|thurs|fri|satur|sun)day|for the (?:last|next|other|remaining) (?:two|three|2|3|few)? ?sets?)\b"
    r"|^(?:thinking|hoping for|ziel|goal|target|plan)\b|\bjutro\b|\bmorgen\b.*\?|\bmañana\b.*\?"
)
_OPINION = re.compile(
    r"\d\s*[x×]\s*\d+\s+(?:is|are|was|would be|seems?|sounds?)\s+(?:\w+\s+)?(?:better|worse|harder|easier|more|too|best|good|enough)\b|\b(?:reckons?|thinks?|says?|told me|swears by|recommends?)\s+(?:that\s+|to do\s+|i should\s+|doing\s+|you\s+)*\d+\s*[x×]\s*\d"
)
_SHOPPING = re.compile(
    r"^(?:(?:ok|and|also|btw|hey|can you|could you|pls|please|remember to)[\s,]+)*(?:need|buy|bought|grab|pick up|get me|shopping(?: list)?|order(?:ed)?)\b[^\d]{0,20}\b(?!sets?|reps?|weights?|rest)[a-z]{3,}\s*(?:x\s*)?\d"
)
_LABEL = re.compile(r"\b[a-z]\d{1,2}\b")
_ANY_NUMBER = re.compile(r"\d|\b(?:one|two|three|four|five|six|seven|eight|nine|ten|twelve|fifteen|twenty|thirty)\b")
_PAST = re.compile(r"\b(?:got|did|done|made|hit|managed|was|were|had|finished|completed)\b")


def _kind(piece: str, asked: bool) -> str:
    hard = _HARD_SETS.search(piece)
    bare = piece.strip(" ,.!-")
    if _QUESTION.match(bare) or (asked and not (hard and not re.search(r"\b(?:ok|okay|enough|right|instead|yes|yeah)\b", piece))):
        return "question"
    if _PAIN.search(piece) and not _NO_PAIN.search(piece):
        scored = _PHYSICAL_SCORE.sub("", piece)
        if not (re.search(r"\d\s*[x×*@]\s*\d", scored)):
            return "pain"
    if NO_LIFT.search(piece) or _THING_IS.search(piece) or _OTHERS.search(bare) or _OTHERS_SEEN.search(piece):
        return "chat"
    if (
        ((_NOT_YET.match(bare) or _MAYBE_THEN.search(bare)) and not _PAST.search(piece))
        or _OPINION.search(piece)
        or _SHOPPING.match(bare)
    ):
        return "question" if asked else "chat"
    if _CONDITION.match(bare):
        return "question" if asked else "chat"
    if (
        _FUTURE.search(piece)
        and not re.search(r"\bskip", piece)
        and _ANY_NUMBER.search(_LABEL.sub("", piece))
        and not _PAST.search(piece)
        and not re.search(r"\d\s*(?:kg|lbs?)?\s*[x×@]\s*\d|\d\s*(?:kg|lbs?|kilos|pounds|reps)", piece)
    ):
        return "chat"
    if _CHAT.search(piece) and not FULL_SET.search(piece):
        return "chat"
    if _DATE.search(piece) and not re.search(r"\d\s*(?:kg|lbs?)?\s*[x×]\s*\d", piece):
        return "date"
    if _SWAP.search(piece) and not re.search(
        r"\b(?:swapped|switched|changed|moved) (?:up |down |over )?(?:to|onto) (?:the |a )?[a-z]+ (?:band|one)|\d\s*(?:kg|lbs?)?\s*[x×]\s*\d|\b(?:got|did)\b.*\d|instead of \d|\d+ [a-z][a-z -]{2,20} (?:with )?no bands?|no bands?(?: this time| today| now| on that)?,? \d",
        piece,
    ):
        return "swap"
    return "sets"
