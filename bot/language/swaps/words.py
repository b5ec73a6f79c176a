"""Which words ask for another exercise, and which say why? Tables, and the mending of slips in those words."""

from __future__ import annotations

import re

from rapidfuzz.distance import OSA

from bot.training.kit import KitItem

# Words worth mending when misspelt; shorter ones are too like others.
_KEY_WORDS = (
    "alternative", "alternatives", "substitute", "instead", "replacement", "replace", "different", "another", "something", "anything",
    "exercise", "dumbbell", "dumbbells", "barbell", "kettlebell", "easier", "harder", "version", "taken", "neighbours", "original",
)  # fmt: skip
_KNOWN = frozenset({*_KEY_WORDS, "neighbors", "barbells", "kettlebells", "hardest", "easiest", "eases", "versions", "exercises", "take",
                    "token", "another's", "differently", "harden", "alternate", "alternates", "alternating"})  # fmt: skip
_SAME = {"swop": "swap", "swich": "switch", "alt": "alternative", "altern": "alternative", "subs": "sub", "wats": "whats", "wat": "what",
         "cuz": "because", "u": "you", "smth": "something", "sth": "something", "smthing": "something", "neighbor": "neighbour"}  # fmt: skip


def fold(text: str) -> str:
    """Lower case, no apostrophes, one space, slips in key words mended."""
    plain = re.sub(r"[’'`]", "", text.lower())
    plain = re.sub(r"\bw/o\b", "without", plain)
    plain = re.sub(r"\b\d{1,2}(?::\d\d)? ?(?:am|pm)\b|\b\d{1,2}:\d\d\b", " ", plain)  # a time of day says nothing here
    plain = re.sub(r"\s+", " ", plain).strip()
    return re.sub(r"[a-z]+", lambda word: _mend(word[0]), plain)


def _mend(word: str) -> str:
    if word in _SAME:
        return _SAME[word]
    if len(word) < 6 or word in _KNOWN:
        return word
    allowed = 2 if len(word) >= 9 else 1
    best = min(_KEY_WORDS, key=lambda key: OSA.distance(word, key, score_cutoff=3))
    return best if OSA.distance(word, best, score_cutoff=3) <= allowed and word[0] == best[0] else word


def _any_of(*patterns: str) -> re.Pattern[str]:
    return re.compile(r"\b(?:" + "|".join(patterns) + r")\b")


DAYS = _any_of(
    r"(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?s?", r"tomorrow|tmrw|tmr|tonight", r"sessions?|days?|weeks?",
    r"reminders?|remind", r"pounds|kilos|lbs|kgs?", r"(?:morning|evening)s?",
)  # fmt: skip
LABEL = re.compile(r"\b([a-z][1-9])\b")
SET_LIKE = re.compile(r"\d\s*(?:x|×|\*|@)\s*\d|\d\s*(?:kg|lbs?|reps?)\b|\d+ instead of|instead of \d")
CORRECTING = _any_of(r"(?:not|no|sorry) \d+", r"\d+ (?:not|rather)", r"i meant?")
# Asks for another exercise in so many words.
OTHER = _any_of(
    r"instead|in place of|rather than", r"alternatives?", r"substitut\w*", r"replac\w+", r"swap\w*", r"switch", r"trade|exchange", r"sub",
    r"(?:something|anything|someth?) (?:else|different|other|new|similar)", r"what else", r"plan b",
    r"(?:other|another|different|new|more) (?:exercises?|options?|moves?|ones?|choices?|ideas?)", r"any other",
    r"options?|other options?", r"variations?", r"(?:can|could|may) (?:i|we) (?:do|use|try)", r"(?:is it )?ok(?:ay)? (?:to|if i) (?:do|use)",
    r"change (?:the )?(?:exercise|[a-h][1-9])",
)  # fmt: skip
WEAK_OTHER = _any_of(
    r"(?:can|could|may) (?:i|we) (?:do|use|try)", r"(?:is it )?ok(?:ay)? (?:to|if i) (?:do|use)", r"options?|choices?|ideas?"
)
ASKING = re.compile(
    r"\?|\b(?:what|whats|any|anything|something|can i|could i|could you|can you|give me|gimme|need|is there|got a|got an|have you|want|suggest|"
    r"please|pls|plz|how about|which)\b"
)
UNDO = _any_of(
    r"undo (?:the |my |that |last )?swap", r"cancel (?:the |my |that )?swap", r"swap (?:it |that |them )?back", r"unswap",
    r"(?:back|return|go back|revert) to (?:the |my )?(?:original|old|coachs?|planned|prescribed|usual)(?: one| exercise| plan)?",
    r"original (?:exercise|one)", r"back to (?:the )?(?:normal|usual|planned) (?:one|exercise)", r"coachs? (?:exercise|one|version) (?:again|back)", r"no swap(?: after all)?", r"forget the swap",
)  # fmt: skip
BACK_TO = re.compile(
    r"\b(?:back to|return to) (?:the |my )?(.+)|\b(?:put|bring|give me|i want|want) (?:me )?(?:the |my )?(.+?) back\b"
)
CANNOT = _any_of(
    r"(?:cant|cannot|can not|not able to|unable to|couldnt|could not|cant even)\s+(?:\w+ly |really |even |yet )?(?:do|manage|perform|get)",
    r"not strong enough", r"never (?:done|managed)",
)  # fmt: skip
LACK = _any_of(
    r"no", r"dont have", r"do not have", r"doesnt have", r"havent(?: got)?", r"i lack|lack(?:ing)?", r"without", r"missing", r"dont own", r"got no",
    r"theres no", r"there is no", r"there isnt", r"forgot(?: my| the)?", r"left (?:my|the)", r"brok(?:e|en)", r"snapped", r"ripped", r"tore",
    r"burst", r"popped", r"lost (?:my|the)", r"isnt here", r"not here", r"(?:wont|doesnt|dont) fit", r"fell (?:off|down)", r"came off",
    r"cant find", r"sold", r"lent", r"nowhere to hang",
)  # fmt: skip
ONLY_HAVE = re.compile(
    r"\bonly (?:have|got|own|a|my|with)\b|\b(?=(?:dumbbells?|bands?|kettlebells?|bodyweight) only\b)|\b(?:have|got|with) only\b|\bjust (?:have|got)\b|\ball i(?:ve| have)? (?:got|have)? ?is\b"
)
KIT_AT_ALL = _any_of(r"kit|equipment|gear|weights?")
TAKEN = _any_of(
    r"taken", r"(?:someone|somebody) (?:took|has|got)", r"in use", r"occupied", r"busy", r"being used", r"(?:someone|somebody|people|another guy|a guy|others?)(?:s| is| are)? (?:on|using|hogging|at)",
    r"hogg\w+", r"not free", r"full", r"queue\w*", r"packed",
)  # fmt: skip
HARD = _any_of(
    r"(?:too|so|way too|much too) (?:hard|heavy|difficult|tough|advanced|brutal|intense)", r"easier", r"less (?:brutal|hard|difficult|intense|demanding)",
    r"too much for me", r"struggl\w+", r"simpler", r"gentler|kinder|softer", r"killing me", r"beyond me", r"impossible", r"regress(?:ion)?", r"(?:for )?beginners?(?= (?:version|option|variation|exercise|one))|for (?:a )?beginners?",
)  # fmt: skip
EASY = _any_of(
    r"(?:too|so|way too) (?:easy|light|simple)", r"harder", r"tougher", r"more (?:difficult|challenging|of a challenge)", r"progression",
    r"not (?:challenging|hard) enough", r"make it hard",
)  # fmt: skip
ROOM = _any_of(
    r"(?:no|not enough|too little|hardly any|little|short of|lack of) (?:space|room)", r"nowhere to (?:walk|move|lie|go)", r"no place to", r"cant (?:lie|lay|get|stretch out)(?: down)? (?:down|here|on)",
    r"(?:tiny|small|narrow|cramped) (?:\w+ )?(?:room|flat|hotel|space|apartment|living room|kitchen)", r"(?:room|flat|space|apartment|place)s? (?:is|are)? ?(?:way |too |so )+(?:small|tiny|narrow|cramped)",
    r"cramped", r"ceiling(?:s)? (?:is |are )?(?:too )?low", r"low ceiling",
)  # fmt: skip
NOISE = _any_of(
    r"nois\w+", r"quiet\w*", r"loud", r"neighbou?rs?", r"baby(?:s)?(?: is)? (?:asleep|sleep\w*)", r"(?:kids?|child|children|wife|husband|flatmate|roommate|everyone|partner)(?: is| are|s)? (?:asleep|sleep\w*)",
    r"no jump\w*", r"cant jump", r"without jump\w*", r"downstairs", r"silent\w*", r"below me|lives below", r"landla?[dr][yd]\w*|landlord", r"thin (?:floors?|walls?)",
)  # fmt: skip
STRONG_NOISE = _any_of(
    r"neighbou?rs?", r"asleep|sleeping", r"no jump\w*", r"cant jump", r"lives? below", r"thin (?:floors?|walls?)"
)
DISLIKE = _any_of(
    r"hate",
    r"dont like",
    r"do not like",
    r"cant stand",
    r"bored (?:of|with)",
    r"sick of",
    r"tired of",
    r"not a fan of",
    r"rather not",
    r"dont (?:want|wanna|feel like)",
    r"not feeling",
    r"over",
    r"fed up with",
)
PAIN = _any_of(
    r"hurts?", r"hurting", r"pain\w*", r"sore", r"bad", r"ach(?:e|es|ing|y)", r"sensitive", r"dodgy", r"cranky", r"irritated", r"acting up", r"playing up",
    r"(?:doesnt|does not|dont) like", r"tweaked", r"injur\w+", r"niggl\w+", r"twinge\w*", r"stiff", r"killing me",
)  # fmt: skip
NO_PAIN = _any_of(
    r"no pain",
    r"pain ?free",
    r"(?:is|are|feels?|feeling) (?:\w+ )?(?:fine|ok|okay|great|good|better)",
    r"doesnt hurt any ?more",
    r"gone",
)
THIS = _any_of(r"this|it|that|these|now|next")
# What follows a thing when both together name an exercise: "bench press", "box jump", "band pull apart".
EXERCISE_NOUNS = (
    r"press|row|squat|deadlift|curl|lunge|thrust|dip|swing|fly|flies|flye|raise|pull|push|jump|step|extension|hip|rdl|romanian|split|shrug|"
    r"clean|snatch|good|face|walk|crunch|slam|carry|bridge|kickback|calf|leg|chest|shoulder|overhead|bent|pullover|up|down|bulgarian"
)

KIT_WORDS: tuple[tuple[re.Pattern[str], KitItem], ...] = tuple(
    (re.compile(rf"\b(?:{words})\b"), item)
    for words, item in (
        (r"(?:pull|chin)[ -]?ups?[ -]?bar|door(?:way)? bar", KitItem.PULL_UP_BAR), (r"barbells?|bb", KitItem.BARBELL), (r"dumb ?bells?|dumbells?|dbs?", KitItem.DUMBBELL),
        (r"kettle ?bells?|kbs?", KitItem.KETTLEBELL), (r"mini[ -]?bands?|short bands?|booty bands?", KitItem.MINI_BAND),
        (r"(?:resistance |long |loop )?bands?", KitItem.BAND), (r"(?:incline|adjustable) bench", KitItem.INCLINE_BENCH), (r"bench(?:es)?", KitItem.BENCH),
        (r"(?:squat )?racks?|cage", KitItem.RACK), (r"rings?|straps", KitItem.RINGS), (r"box|step", KitItem.BOX), (r"dip (?:bars?|station)", KitItem.DIP_BARS),
        (r"cables?", KitItem.CABLE), (r"plates?|discs?", KitItem.PLATE), (r"(?:ab )?(?:wheel|roller)", KitItem.AB_WHEEL),
        (r"med(?:icine)? ball", KitItem.MEDICINE_BALL), (r"(?:gym |exercise |swiss )?ball", KitItem.BALL), (r"chairs?", KitItem.CHAIR),
        (r"(?:weight(?:ed)? )?vest", KitItem.WEIGHT_VEST), (r"backpack|rucksack", KitItem.BACKPACK), (r"sliders?", KitItem.SLIDER), (r"door anchor", KitItem.DOOR_ANCHOR),
        (r"trap bar|hex bar", KitItem.TRAP_BAR), (r"ez[ -]?bar|curl bar", KitItem.EZ_BAR), (r"landmine", KitItem.LANDMINE), (r"sled", KitItem.SLED),
        (r"lat pull ?down", KitItem.LAT_PULLDOWN), (r"leg press", KitItem.LEG_PRESS), (r"smith(?: machine)?", KitItem.SMITH_MACHINE), (r"bars?", KitItem.BARBELL),
    )
)  # fmt: skip
# Plain words that are one letter from an exercise's.
PLAIN_WORDS = frozenset(
    {"dumber", "rather", "pushed", "pulled", "raised", "lunged", "spline", "planks", "pressed", "caring", "carried"}
)
SHORT_WISH = re.compile(r"(?:(?:this|it|that|its|thats)(?: is|s)? )?(?:way |far |much )?too (?:hard|easy|heavy|light|difficult)(?: for me)?|"
                        r"(?:make it |something |go )?(?:easier|harder)(?: one| version)?(?: pls| please)?")  # fmt: skip
COMPARING = re.compile(
    r"^(?:so )?(?:why|whats better|which is|which ones? is|is \w+(?: \w+)? (?:better|the same|same)|whats the difference)\b"
)
# Where one clause about kit ends and another begins: "no barbell but I have dumbbells".
CLAUSE = re.compile(
    r"[,.;!?]|\bbut\b|\bonly\b|\bjust\b|\bso\b|(?<!dont )(?<!not )(?<!doesnt )(?<!havent )\b(?:have|got)\b(?! no)"
)
# The same things where they do not stand in front of what makes them an exercise's name.
THINGS: tuple[tuple[re.Pattern[str], KitItem], ...] = tuple(
    (re.compile(rf"(?:{pattern.pattern})(?!s? ?-?(?:{EXERCISE_NOUNS})\w*)"), item) for pattern, item in KIT_WORDS
)
WEIGHT_WORDS = _any_of(r"heavy|light|easy|hard|easier|harder|space|room|over")
