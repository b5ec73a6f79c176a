"""Which numbers in set talk are no sets at all? Tempos, pulse, rests and plans are blanked, ranges of effort brought to one number.

The text keeps its length, so that places stay places: what is taken out becomes spaces.

    "20x12 tempo 3110"            -> "20x12           "
    "20x12 rpe 8-9"               -> "20x12 rpe 8.5"
    "20x10 failed on the 11th"    -> "20x10 failed            "
"""

from __future__ import annotations

import re

from bot.language.reading.clauses import FULL_SET, NO_LIFT
from bot.language.reading.numbers import PLURAL_WORDS
from bot.language.reading.words import COLOURS, SHADES
from bot.language.tokens import tokens_of

_N = r"\d+(?:[.,]\d+)?"
_TEN = r"(?:10|\d(?:[.,]5)?)"
_BLANK = re.compile(
    rf"(?:@|at|with)?\s*(?:a\s+)?(?:tempo\s*(?:of\s*)?)?(?<![\d.a-z])\d\s?[-–:]\s?\d\s?[-–:]\s?[\dx]\s?[-–:]\s?[\dx](?![\d.])|(?:@\s*|at\s+|with\s+)?tempo\s*(?:of\s*|was\s*|:\s*)?[\dx]{{3,4}}\b"
    rf"|(?:with\s+|w/?\s*)?(?:an?\s+)?{_N}\s?(?:-\s?{_N}\s?)?(?:s|sec|secs|seconds?|count)\s+(?:breaths?|breathers?|rests?|breaks?|gaps?|negatives?|eccentrics?|lowering|pauses?|descents?|tempo|on the way (?:down|up)|down(?=\b(?! to))|holds? at|squeezes?)\b"
    rf"|\b(?:heart ?rate|hr|pulse|bpm)\s*(?:(?:of|was|at|is|around|about|:|got|went|hit|peaked|up|to|reached|showing|says|said)\s*)*\d{{2,3}}\b|\b\d{{2,3}}\s*bpm\b"
    rf"|\b(?:ready for|(?:next (?:time|week|session)|volgende keer|nächstes mal|la prochaine fois|próxima vez|nästa gång)(?: i'?ll)?(?: try| do| go(?: for)?| use| with)?|(?:will|i'?ll|gonna|going to) (?:try|do|go(?: for| to| up to)?|use)|could (?:go|use|try|handle)|could do(?=\s+(?:the\s+)?{_N}\s*(?:kg|kgs|lbs?|kilos?|pounds?|next\b)))\s+(?:the\s+|for\s+|with\s+)?{_N}\s*(?:kg|kgs|lbs?|kilos?|pounds?)?(?:\s+next (?:time|week|session|set))?"
    rf"|\b(?:after|took|in|for|needed|had|with)\s+(?:a\s+|about\s+)?{_N}\s*(?:min|mins|minutes?|m|s|sec|secs|seconds?)\s+(?:of\s+)?(?:rest|break|breather|off|between)\b|\b{_N}\s*(?:min|mins|minutes?|s|sec|secs|seconds?)\s+(?:rest|break|breather|between)\b"
    rf"|\b(?:rest|rested|resting|rests|breaks?)\s*(?:of|for|was|:|in between|between sets)?\s*(?:about\s+|only\s+)?{_N}\s*(?:(?:minutes?|mins?|m|seconds?|secs?|s)\b|\"|')?(?:\s+between(?: sets)?)?"
    rf"|(?<=\d)\s+(?:reps?\s+)?in\s+(?:the|a|one|1|under a)\s+(?:minute|min)\b|(?<=\d) in \d+\s?(?:s|secs?|seconds)\b"
    rf"|\b{_N}\s*-?(?:litres?|liters?|ltr)\b(?=.*\d\s*(?:kg|lb|kilo|pound))|\b{_N}l\b(?=.*\d\s*(?:kg|lb|kilo|pound))(?!.*\d\s?r\b)|(?<!\S)(?:\d|10)/10(?=\s+(?:would|from me|for (?:the|that|this)|recommend|session|workout))"
    rf"|\b(?:\d|one|two|three|four)\s+(?:more\s+)?(?:sets?|exercises?|rounds?|things?|moves?|supersets?)\s+(?:left|to go|to do|remaining|more to go|more)\b(?=\D*\d)|(?<=\w)[\s,.]+(?:only\s+)?(?:\d|one|two|three|four)\s+(?:more\s+)?(?:sets?|exercises?|rounds?|things?|moves?|supersets?)\s+(?:left|to go|to do|remaining|more to go)\b|\bout of \d+ (?:sets|planned)\b|\(?\b(?:up|down) from (?:the\s+)?{_N}\s*(?:kg|kgs|kilos?|lbs?|pounds?|s\b|reps?)?(?:\s+last (?:week|time))?\)?|(?<!last )(?<!this )\bweek \d+\b(?!\s*reps?)|\b(?:round|rd|lap) \d+ (?:done|complete|completed|finished|over|in the bag)\b"
)
_LESS = re.compile(
    r"\b\d+\s+(?:reps?\s+)?(?:less|fewer|more|short)\b(?!\s*(?:than|in|left|to|sets?|rounds?)\b)\s*,?\s*(?:so|=|i\.?e\.?|meaning)?(?=\D*\d)|\b\d+\s+(?:reps?\s+)?short\b"
)
_NTH = (
    r"(?:\d+(?:st|nd|rd|th)?|(?:four|six|seven|eigh|nin|ten|eleven|twelf|thirteen|fourteen|fifteen)th|second|third|fifth|"
    r"two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen)"
)
_FAILED = re.compile(
    rf"\b(?:couldn'?t|could not|didn'?t|cldnt|can'?t)\s+(?:quite\s+)?(?:get|do|finish|manage|hit|make|complete|lock out)(?:\s+(?:the|rep|number|that))*\s+{_NTH}\b(?:\s+(?:rep|one))?"
    rf"|\bfail(?:ed|ing|s|ure(?=\s+(?:at|on|in|during)))?\s+(?:at|on|the|in|during|rep|my|with|attempting|trying|number|\s)*\s*(?:the\s+|rep\s+)?{_NTH}\b(?:\s+(?:rep|one))?|\bmissed\s+(?:the\s+|rep\s+|on\s+)*{_NTH}\b(?:\s+rep)?(?!\s+(?:set|sets|reps|days?|sessions?)\b)"
)
_RANGE_LEFT = re.compile(
    r"\b(\d)\s*(?:-|/|or|to|–)\s*(\d)(?=\s*(?:more\s+)?(?:reps?\s+)?(?:in reserve|in the tank|rir\b|left|more in me|more\b|to spare|from failure|shy))"
)
_RANGE_RIR = re.compile(r"(?<=rir)(\s*:?\s*)(\d)\s*[-/–]\s*(\d)\b")
_RANGE_RPE = re.compile(rf"(?<=rpe)(\s*(?:of|:|was|about|around|~)?\s*)({_TEN})\s*(?:-|/|or|to|–)\s*({_TEN})\b")
_OF_TEN = re.compile(
    rf"(rpe\s*(?:of|:|was)?\s*)({_TEN})\s*(?:/|out of)\s*10\b|\b(?:effort|felt like|hard(?:ness)?|difficulty)\s*(?:was|:|about|an?)*\s*({_TEN})\s*(?:/|out of)\s*10\b|(?<=[\s,(])()({_TEN})\s*(?:/|out of)\s*10\s*(?:effort|difficulty|hard|for effort|rpe)"
)
_OF_TEN_BEHIND = re.compile(  # "85x11, 8 out of 10"
    r"(?<=\d)(?P<set>\s*(?:kgs?|lbs?|kilos?|reps?)?\s*(?:[x×@]|for\b|with\b)\s*(?:the\s+)?\d+(?:[.,]\d+)?\s*(?:kgs?|lbs?|kilos?|reps?)?)"
    rf"(?P<said>,\s+(?P<n>{_TEN})\s*(?:/|out of)\s*10)(?=[^\w]*$|\s*[.!])"
)
_AN_EIGHT = re.compile(
    r"(?:\b(?:was|felt like|feels like|like|rated|call(?:ed)? it|i'?d say|rate it|probably|solid|easy|hard|about)\s+)+(?:about\s+|a solid\s+|a hard\s+|maybe\s+)?an?\s+([5-9](?:[.,]5)?|10)\b(?!\s*(?:kg|lb|reps?|x|sec|min|s\b|/|rir|more|:|left))"
)


# "20x12 that set nearly killed me" speaks of the set, and names no second one.
_THAT_SET = re.compile(
    r"(?<=\d)(?P<gap>[ ,.]*)\b(?:that|this|the last|last) (?:set|one)\b(?=\s+(?:was|is|felt|feels|nearly|almost|really|absolutely|just|totally)?\s*"
    r"(?:killed|destroyed|wrecked|sucked|kicked|got|hard|brutal|tough|easy|rough|felt|crushed|smoked|ended|hurt|awful|great|good|bad|killer)\b)"
)

_LIKE_LAST = re.compile(
    r"^(?P<lead>\s*(?:(?:ok|okay|just|did|done|all|exactly|it|pretty much|was|hey|hi|yes|yep)[ ,]+)*)like(?= (?:last (?:time|week|session|one|set)|the last)\b)"
)
_UNIT = r"(?:kg|kgs|kilos?|lbs?|pounds?)"
_HEAVIER = re.compile(
    rf"\b(?P<by2>{_N})\s+(?P<way2>more|extra|less|fewer)\s+(?P<unit2>{_UNIT})\b(?!\s+(?:than|in|left))|\b(?P<by>{_N}\s*{_UNIT})\s+(?P<way>heavier|lighter|up|more|less|down)\b(?!\s+(?:in|left|to|reps?)\b|\s+than\s+(?!last|before|the last|the one before))(?:\s+than\b)?"
)
_MOVED_TO = re.compile(
    r"\b(?:bumped|moved|switched|changed|increased|raised|upped|stepped|jumped|lowered|reduced|loaded)(?: (?:it|them|the weight|weight|up|down))* to (?=(?:the |a )?\d)(?!\d+ ?(?:reps?|times|sec|s\b|min))"
)
_THIS_SET = re.compile(
    r"(?<=\d)(?P<a>[ ,.]+(?:for |on )?(?:my |the )?(?:last|final|this|that) set)\b(?!\s*(?:was|were|is|should|of|[:=x@\d]))"
    r"|^(?P<b>\s*(?:(?:ok|and|so|for|on|my|the)\s+)*(?:last|final|this) set[ ,:-]+)(?=(?:only |just |got |with |at )*\d)"
)
_COULD_HAVE = re.compile(
    rf"\bcould(?:'?ve| have|a)?\s+(?:easily\s+|maybe\s+|probably\s+)?(?:done|got|gone|managed|hit|do)\s+(?:about\s+|like\s+|maybe\s+)?{_NTH}\b(?!\s*(?:more|in|extra|left))(?:\s+but\b)?"
)
_STUCK = re.compile(
    rf"\b{_NTH}(?:\s+(?:one|rep))?\s+(?:got stuck|was stuck|stuck|didn'?t go|wouldn'?t go|no go|didn'?t move|stalled|died|wouldn'?t move|came back down|got pinned)\b"
)
_QUARTERS = re.compile(r"\b(?P<n>three|3|a|one)?[ -]?quarters? of a min(?:ute)?\b|\bthree[- ]quarter minute\b")
_NOTHING_LEFT = re.compile(
    r"(?<=[\d ,.])(?:absolutely )?(?:nothing|none|zero|nil) (?:left|more)(?: in (?:the tank|me|reserve))?\b|\bnothing in the tank\b"
)
_MATCHED = re.compile(
    r"\b(?:and )?(?:made|had|let|cut|kept|stopped) (?:the |my )?(?:left|right|l|r|other)(?: (?:side|leg|arm))?(?: off| back)?(?: to| at \d+\w*)?(?: to)? match(?:ed)?\b"
)
_PUT_IN = re.compile(
    rf"\b(?:put|added|add|adding|chucked|threw|stuck)\s+(?:in\s+)?(?:another|an extra|extra|a|the)?\s*(?P<by>{_N}\s*{_UNIT})\s+(?:more\s+)?(?:in|on|into|onto|to)(?:\s+(?:the|my)\s+\w+)?"
)
_DOWN = re.compile(
    r"(?P<a>\b(?:every rep|each rep|each one|all reps?)\s+)?(?<![\d.,])\d+\s?(?:s|secs?|seconds?|counts?)?\s+(?:down|lowering|up|on the way down|negatives?)\b(?=\s*(?:$|[,.;!]|like|as|on(?! the (?:left|right))|each|every))"
)
_AS_ASKED = re.compile(r"\b(?:like|as) (?:asked|told|you said|planned|written|prescribed)\b")
_BEFORE_NTH = re.compile(rf"\b(?:quit|stopped|gave up|done|died|dropped it) (?:just )?before (?:the |rep )?{_NTH}\b")
_MORE_THINGS = re.compile(rf"\b\d+ (?:more )?[a-z]+ more,?\s*(?={_N}\s*{_UNIT}\s+now\b)")
_RIGHT_SO = re.compile(
    r"^\s*(?:ok |okay )?right\b[\s,]+(?=so\b|then\b|that|i\b|now\b|well\b|lads|folks|first\b|done\b|we\b|just\b)"
)
_WEEKS = re.compile(r"\b(?:in |for |after |of )?\d+ (?:weeks?|days?(?!\s+ago\b)|months?|years?)\b(?: off| away| out| now)?")
_SO_NOW = re.compile(
    rf"(?:\b\d+\s+)?\b(?:added|more|in|extra|on)\b[^\d,.]{{0,24}}?\bso\s+(?:it'?s |that'?s |now )?(?={_N}\s*{_UNIT})"
)
_AND_A_HALF = re.compile(rf"\b(?P<n>\d+) (?:and|n|&) a half\b(?!\s*(?:{_UNIT}|min|plates?))")
_TWO_ALIKE = re.compile(
    rf"\b(?:with|w|holding|using)\s+(?:a\s+)?(?P<n>{_N})\s*(?P<unit>{_UNIT})?\s*(?:and|&|\+)\s*(?:a\s+|another\s+)?(?P=n)(?!\d|[.,]\d|\s*(?:reps?|x))\b"
)
_AT_REP = re.compile(
    rf"\b(?:at|on|by|from|around|about|until|till|after)\s+(?:the\s+)?(?:rep|reps|number)\s+{_NTH}\b(?:\s*(?:through|thru|to|-|and|&)\s*{_NTH}\b)?|(?:tempo|form|grip|balance|technique|it|speed|breath|shape)\b[^,.;\d]{{0,24}}\b(?P<after>(?:after|from|at|around|by|on|past)\s+(?:about\s+)?(?:the\s+)?(?:rep\s+)?{_NTH})\b(?!\s*(?:{_UNIT}|x|reps?\s+(?:with|at)))"
)
_NOT_THAT = re.compile(
    rf"(?P<wrong>(?:{_N})(?:'?s|\s*{_UNIT}|\s*reps?)?[\s.,…-]*\b(?:no wait|no sorry|wait no|oops no|no no|no|scratch that|i mean|sorry|actually|make that)[\s,.:]+)(?=(?:{_N})(?!\s*(?:more|in|left)\b))"
)
_BOTH_HANDS = re.compile(
    rf"(?P<one>{_N})\s*(?P<unit>{_UNIT})?\s*(?:in|on) (?:one|my left|the left|left|my right|the right|right|each|the one)(?: hand| side)?,?\s*(?:and|&|plus|,)\s*(?:a |an |another )?(?P<two>{_N})\s*(?:{_UNIT})?\s*(?:in|on) (?:the other|my right|the right|right|my left|my other)(?: hand| side| one)?"
)
_WATER = re.compile(
    rf"(?<![\d.,])(?P<n>{_N})\s?(?:l|lt|ltr|litres?|liters?)\s+(?:of\s+)?(?P<what>water|jugs?|bottles?|canisters?|containers?)\b"
)
_W_AND_R = re.compile(rf"\bw\s?(?P<load>{_N})\s*[,/ ]?\s*r\s?(?P<count>\d+)\b")
_AS_LAST = re.compile(r"\blike(?= (?:last (?:time|week|session)|the last time)\b)")
_LETTER_O = re.compile(r"(?<=\d)o(?=[^\w]|kg|lb|x\d|$)")  # "1O" for 10
_POINT_BETWEEN = re.compile(r"(?<=\d(?:kg|lb))\.(?=\d)")
_ROW_OF_TABLE = re.compile(r"(?m)(^[^|\n]*[a-z][^|\n]*\|\s*\d+(?:[.,]\d+)?\s*(?:kg|lbs?)?\s*)\|(?=\s*\d)")
_LONE_TIMES = re.compile(r"\s*x\d+(?:[\s,]+x\d+)+\s*(?:@|at\b|with\b|w\b|$)")
_FIRST_TWO = re.compile(
    r"\bfirst\s+(?P<n>two|three|four|[2-4])\s+(?:sets\s+(?:were\s+|was\s+|at\s+|[:=]\s*)?|were\s+|was\s+|at\s+|[:=]\s*)(?P<count>\d+)\b(?!\s*(?:kg|lbs?|kilos?|pounds?))"
)
_BOTH_SETS = re.compile(r"\bboth sets\b(?!\s+(?:was|were|with|should))")
_FIRST_SETS = re.compile(
    r"(?<=[\ds])(?P<gap>\s+)(?:on|for|in)\s+(?:the\s+|my\s+|all\s+)?(?:first|last|next)\s+(?P<n>two|three|four|[2-5])\s+sets?\b"
)
_PARTS_OF_TOTAL = re.compile(r"\(\s*(?P<one>\d+)\s*\+\s*(?P<two>\d+)\s*\)")
_GIVEN_UP = re.compile(
    rf"\b(?:(?:the|with)\s+)*(?:(?:{SHADES})(?:\s+(?:band|one))?|{_N}\s*(?:kg|kgs|kilos?|lbs?|pounds?)?)\s+(?:was|were|is|felt)\s+(?:way\s+|just\s+|a bit\s+|far\s+|much\s+)*"
    r"too\s+(?:much|heavy|hard|strong|light|easy|thick|thin)\b[ ,.]*(?:so\s+|and\s+|but\s+)*(?:(?:i\s+)?(?:went\s+|dropped\s+|moved\s+|switched\s+)?(?:back|down|up)?\s*to\b|used\b|took\b|did\b|(?=\d|the\b|with\b|"
    + SHADES
    + r"))"
)


_EXPECTED = re.compile(
    rf"\b(?:thought|figured|reckoned|expected|expecting|hoped)\s+(?:(?:i|to|for|i'?d|had|have|get|got|do|would|could|it|was|were|at|least)\s+)*{_NTH}\b(?:\s+(?:reps?|in me|in the tank|more|for sure))*"
)
_SO_IN_TOTAL = re.compile(
    r"\bso\s+(?:that'?s |it'?s |it was |that makes )?(?=(?P<n>\d+) (?:in total|total|altogether|all in|overall|in the end)\b)"
)
_DROPPED_FOR_MORE = re.compile(
    rf"\b(?:(?:then|and|so) )?(?:dropped|went|drop|stripped|straight|down)(?: (?:down|it|them|the weight))* (?:to|with)(?P<load> (?:the )?{_N}\s*(?:'?s|{_UNIT})?)(?P<gap>(?: (?:for|x|and|got|did|burn(?:ed|t) out|ground out|squeezed out)|,)* )"
    rf"(?:(?P<another>another|a further) )?(?P<count>{_NTH})(?: (?P<more>more|extra))?\b"
)
_MORE_LEFT = re.compile(
    r"\b(?:i )?(?:could(?:'?ve| have| of|a)?|had|felt like i had|probably had|think i had|still had)\s+(?:(?:easily|maybe|probably|perhaps|definitely|just about|about|at least)\s+)*"
    r"(?:(?:done|do|got|get|gotten|had|squeezed|squeeze|managed|manage|gone|ground|hit|pushed)\s+)?(?:out\s+)?(?:for\s+)?(?:(?:easily|maybe|probably|perhaps|at least)\s+)*"
    r"(?P<n>another one|another|one|two|three|four|a couple|a couple of|a few|[1-5])\s*(?:more|extra|left|in me|in the tank|in reserve|or so|reps?|\s)*(?<=[a-z\d])(?=\s*(?:[,.;!)]|$|\band\b|\bif\b|\bbut\b))"
)
_FEW = {"another one": 1, "another": 1, "one": 1, "two": 2, "three": 3, "four": 4, "a couple": 2, "a couple of": 2, "a few": 3}
_TWO_THINGS = re.compile(
    rf"\b(?:2|two)\s+(?P<thing>(?:[a-z]+\s+){{0,2}}?(?:bottles?|jugs?|cans?|tins?|dumbbells?|dbs?|kettlebells?|kbs?|bells?|plates?|bags?|buckets?|weights?|canisters?|containers?|boxes|bricks|packs?))"
    rf"(?:\s+of\s+[a-z]+)?[\s,(]*(?:at|of|with|weighing)?\s*(?P<n>{_N})\s*(?P<unit>{_UNIT})\s*(?:each|apiece|per hand|a piece)\)?"
)
_FOR_A_TRIPLE = re.compile(
    r"\b(?P<joint>for|x|hit|got|did|made)\s+(?:(?:a|an|one|my|easy|hard|heavy|solid|nice|good|clean|ugly|grindy|smooth)\s+)+(?P<n>single|double|triple)\b(?!\s+(?:drop|leg|arm))"
)
_TRIPLES = {"single": 1, "double": 2, "triple": 3}
_FIRST_SIDE = re.compile(
    r"\b(?P<one>\d+)\s*(?:/|and|&|,|-|then)\s*(?P<two>\d+)\s*[,(]?\s*\(?(?P<side>right|left|r|l)\s*(?:(?:side|arm|leg|hand)\s*)?(?:first\b|/\s*(?:left|right|l|r)\b|then (?:left|right|l|r)\b)\)?"
)
_WENT_FOR = re.compile(
    rf"\b(?:went|was going|going|aiming|aimed|shooting|shot|tried|trying|hoping|hoped|reaching|planned|wanted)\s+(?:for\s+|to get\s+|to do\s+)?(?P<aim>{_NTH})\b(?P<load>\s+(?:with|at|@|on)\s+(?:the\s+)?[\w.]+)?"
    rf"(?P<gap>[\s,.]*(?:(?:reps?|but|and|only|just|i|my|grip|it|legs|arms|body|form|everything)[\s,.]+)*)(?P<verb>got|made|managed|did|hit|had|quit at|stopped at|failed at|died at|gave out at|gave up at|packed in at|went at|ended (?:at|up with|with|on))(?= (?:only |just |about )?{_NTH}(?:reps?)?\b)"
)
_LAST_WEEK = re.compile(
    rf"(?<=[\w)])[\s,.(-]+(?:(?:but|and|when|whereas|while|cos|because)\s+)?(?:last (?:week|time|month|session|mon|tues|wednes|thurs|fri|satur|sun)\w*|a (?:week|month) ago|before)\s+(?:(?:i|it|was|could|only|barely|just|got|did|do|managed|manage|had|with|stuck|on|at|get|the|used|needed|hit)\s+)+{_N}\s*(?:'?s|{_UNIT}|reps?)?\b\)?"
    rf"|(?<=[\w)])[\s,.(-]+(?:(?:vs|versus|was|it was|compared (?:to|with)|from|beats|beating|better than|instead of|not)\s+)(?:the\s+)?{_N}\s*(?:'?s|{_UNIT}|reps?)?\s+(?:last (?:week|time|month|session)|before)\)?"
    rf"|\(\s*(?:did |was |got )?{_N}\s*(?:'?s|{_UNIT}|reps?)?\s+last (?:week|time|month|session)\s*\)"
)
_PREFACE = re.compile(
    r"^(?P<said>[^\n:]{6,70}):\s*(?=\d+(?:[.,]\d+)?\s*(?:(?:kg|lbs?|'?s)?\s*(?:[x×*@]|for)\s*|(?:kg|lbs?)\s+)\d)"
)
_OTHER_NUMBER = re.compile(
    r"(?<=\bat )\d+(?=\s+[a-z])|(?<=\bin )\d+(?=\s+[a-z])|(?<=\btill )\d+|(?<=\buntil )\d+|(?<=\bby )\d+|(?<=\broom )\d+|(?<=\bbus )\d+|(?<=\bline )\d+"
    r"|(?<![\d.,])\d+(?=\s+(?!ki+l|reps|sets|kgs|kilos|lbs|pounds|steps|rounds|plates|bands|seconds|secs|metres)[a-z]{4,}s\b)|\b\d+(?=\s*(?:am|pm|mins?|minutes?|hours?|h|hrs?|days?|weeks?|months?|years?|kids?|people|emails?|meetings?|calls?|patients?|km|miles|o'?clock)\b)"
)
_ACROSS = re.compile(r"\b(?P<n>threes|fours|fives|sixes|eights|tens|\d+)'?s?\s+across(?: the board| all sets| the sets)?\b")
_BOTH_TIMES = re.compile(r"\b(?P<n>both|two|three|four|all three|all four) times\b")
_HELPERS = re.compile(r"band|spot|assist|machine|partner|mate\b|\d helped|helped (?:by|with|on|me (?:with|on|through))")
_LINE_NUMBER = re.compile(r"(?m)^[ ]*\d{1,2}[.)][ ]+(?=[a-z]{2})(?!(?:left|right|set|same|sets|reps)\b)")  # "1. squats 60 8 8"
_PAIR = rf"{_N}\s*(?:'?s|{_UNIT})?\s*(?:[x×*@]|for|with|at)\s*(?:the\s+)?{_N}\s*(?:{_UNIT}|reps?)?"
_TAKING_BACK = r"(?:no wait|wait no|sorry no|no sorry|no no|no|wait|scratch that|strike that|i mean|i meant|sorry|oops|actually|make that|correction|edit|or rather|rather)"
_PAIR_AGAIN = re.compile(rf"{_PAIR}[\s,.…(-]*\b{_TAKING_BACK}\b[\s,.:-]*(?={_PAIR})")
_LOAD_AGAIN = re.compile(
    rf"(?P<old>{_N})(?P<mid>\s*(?P<unit>{_UNIT})\b.{{0,24}}?)[\s,.(]+{_TAKING_BACK}[\s,.:]+(?P<new>{_N})\s*(?P=unit)\b\)?"
)
_COUNT_AGAIN = re.compile(
    rf"(?P<joint>[x×*@]|\bfor|\bgot|\bdid)(?P<gap>\s*){_N}(?P<reps>\s*reps?)?[\s,.…(]+(?:{_TAKING_BACK})[\s,.:]+(?P<new>{_N})\s*(?:reps?)?\)?(?=[\s.!,]*$)"
)
_NOW_THIS = re.compile(rf"(?<![\w.]){_N}[\s.…]+(?P<new>{_N})\s+(?:actually|sorry|i mean|even|no)\b[\s.!]*$")
_ROUND_HEAD = re.compile(
    r"(?m)^[ ]*(?:round|rnd|rd|tour|runde|ronde|circuit|lap|giro|vuelta|r)[ ]*(?:\d|one|two|three|four|five)[ ]*[:.)-]?[ ]*(?=[^\n]*\d)(?![x×*@])"
)
_TIME_OF_DAY = re.compile(
    r"\b(?:the |at |by |before |after |till |until |around )*(?:\d{1,2}\s*(?:o'?clock|am|pm)|(?:[01]?\d|2[0-3])[:.][0-5]\d(?= (?:to|train|bus|service|shift|class|flight|ferry|meeting|call|mass|start|finish|appointment|tram|boat)\b))"
)
_SETS_OF = re.compile(r"\b(?P<n>[2-6])\s+(?P<count>\d+)s(?=\s+(?:at|@|with|w)\b)")
_ALL_SETS_ALL = re.compile(r"\ball (?P<n>[2-6]) sets?[\s,]+(?:all|each|every one|every set)(?: of)?\s+(?P<count>\d+)(?:'?s)?\b")
_BODY_SIDE = re.compile(
    r"\b(?:knee|shoulder|hip|back|elbow|wrist|ankle|hamstring|hammy|calf|quad|glute|neck|groin)\b[^,.;\d]{0,12}\b(?:talk\w*|complain\w*|grumbl\w*|niggl\w*|twing\w*|tight|sore|click\w*|moan\w*|achy?|feels?|felt|bit|funny)\b[^,.;\d]{0,16}?\b(?:on|in) (?:the|my) (?:left|right)\b(?: side)?"
)
_DATE_LINE = re.compile(r"^\s*\(?\d{1,2}[/.-]\d{1,2}(?:[/.-]\d{2,4})?\)?\s*:?[ ]*(?=\n)")
_BAND_GONE = re.compile(
    r"\(?(?:the |my )?(?:yellow|red|green|blue|black|silver|gold|orange|purple|pink|gr[ae]y|white) (?:band |one )?(?:just )?(?:snapped|broke|is broken|ripped|died|is gone|went missing|is lost)[^,.;\d]*\)?"
)
# "green band today, as the red felt easy": why another band was taken.
_BAND_EXCUSE = re.compile(
    rf"\b(?:as|because|cos|cuz|since|cause) (?:the |my )?(?:{COLOURS})(?: band| one)? (?:felt|was|is|feels|got|had got)(?: [a-z]+){{1,3}}"
)
_SAME_DASH = re.compile(r"\b(?P<same>same|idem|ditto)-(?=\d)")
_MORE_ON_IT = re.compile(
    rf"\bmore (?P<by>{_N}\s*(?:{_UNIT})?) on (?:the |my |each |it)?(?:bar|side|bell|dumbbells?)?\b|\b(?P<by2>{_N}\s*{_UNIT}) (?:erbij|mehr|de plus|más|di più)(?![^\W_])"
)
_K_SETS = re.compile(
    rf"\b(?P<k>[2-6])\s*sets?[\s,]+(?P<n>\d+)(?P<reps>\s*reps?)?(?P<gap>[\s,]+)(?P<load>(?:the\s+|two\s+|2\s+|a\s+pair\s+of\s+|pair\s+of\s+)?(?P<m>{_N})\s*(?P<unit>'?s\b|k\b|{_UNIT}\b)?)(?![\s,/]*\d)"
)
_ALL_WITH = re.compile(r"\ball (?=(?:with|at|@|on|w)\b)")
_ALL_SETS_LIST = re.compile(r"\ball (?:the )?sets\b\s*:?(?=\s*\d+[\s,/]+\d)")
_ALL_K_SETS = re.compile(r"\ball (?P<k>[2-6]) sets?[:\s,]+(?P<n>\d+)(?=\s*(?:reps?\s*)?(?:@|at|with|w|x)\b)")
_DOUBLE = re.compile(r"\bdouble (?=\d+(?:\.\d+)?'?s\b)")
_ARROW = re.compile(
    rf"(?P<load>(?:{_N}\s*(?:k|{_UNIT})|\d+[.,]\d+))\s*(?:->|=>|>)\s*(?=\d)|^(?P<head>\s*[a-z]\d\s*:?\s*{_N}\s*(?:k|{_UNIT})?)\s*(?:->|=>|>)\s*(?=\d)"
)
_ON_LOAD = re.compile(
    rf"^(?P<count>\s*(?:(?:did|got|just|managed|hit|ok)\s+)*\d+(?:\s*reps?)?)\s+on\s+(?:the\s+)?(?={_N}(?!\s*(?:left|right)))"
)
_DONE_BY = re.compile(
    r"\b(?:done|finished|out|home|back|over|through|leaving|off) (?:by|at|before) (?:about )?\d{1,2}\b(?!\s*(?:kg|reps?|lb|x))"
)
_COUPLE_LEFT = re.compile(
    r"(?<=\w)[\s,.]+(?:maybe |about |probably |had |a )*(?P<n>couple|few|one|two|three|[1-5])(?: of)?(?: more)?(?: reps?)? (?:left )?(?:in me|in the tank|in reserve|to spare)\b"
)
_B_FOUR = re.compile(r"(?<=\bas )b4\b")
_WAYS = {
    "extra": "up",
    "fewer": "down",
    "heavier": "up",
    "up": "up",
    "more": "up",
    "lighter": "down",
    "less": "down",
    "down": "down",
}


def with_digits(text: str) -> str:
    """Number words as digits in their places: "forty five for nine" -> "45         for 9   "."""
    if not _NUMBER_WORD.search(text):
        return text
    for token in reversed(tokens_of(text)):
        if token.kind == "n" and token.text[:1].isalpha() and token.value is not None:
            figure = f"{token.value.normalize():f}{'s' if token.plural else ''}"
            room = token.end - token.start
            if len(figure) <= room:
                text = text[: token.start] + figure.ljust(room) + text[token.end :]
    return text


_SPOKEN_STOP = re.compile(
    r"(?<=\d)\s+(?:period|full stop)(?=\s*(?:$|next|last|second|third|then|now|set|and|left|right|\d))"
)  # dictated
_NEXT_SET = re.compile(r"(?<=\d)\s*[.,;]?\s*(?:and |then )?(?:the )?(?:next|last|final) (?:set|one)(?=[\s:]*(?:was |got )?\d)")
_OF_LAST_TIME = re.compile(  # "last week the 24 flew up, 10 10 10": told of a day gone by
    r"(?:^|(?<=[.!?\n]))\s*(?:last (?:week|time|session|month)\b[^.!?\n:]*\b(?:flew|felt|went|moved|killed)\b"
    r"|[^.!?\n]*\b(?:sore|hurt|ached|stiff|wrecked)\b[^.!?\n]*\blast (?:week|time|session))(?:(?!\.\d)[^!?\n.]|\.\d)*"
)
_OF_TODAY = re.compile(r"\b(?:today|tonight|now|this (?:week|time|session|one)|same|again|then|but|so|just)\b")
_POINT_ROW = re.compile(r"\b(?:3|three)[ -]*(?:pt|points?)(?= (?:rows?|plank|hold)\b)")  # a name's number
_SETS_AT = re.compile(
    r"\b(?P<k>[2-6]) sets (?P<n>\d{1,3})(?=\s*(?:reps?\s*)?(?:@|at\b|with\b|per side\b|each\b|e/s\b|a side\b))"
)  # "2 sets 14 @ 50"
_BANDS_IN_TURN = re.compile(
    rf"\b(?:(?:{COLOURS}) \d{{1,3}}(?: (?:{COLOURS}) \d{{1,3}})+|\d{{1,3}} (?:{COLOURS})(?: \d{{1,3}} (?:{COLOURS}))+)\b"
)
_INTENDS = re.compile(
    r"\s*(?:(?:ok|okay|so|right|the|my|today|tonight|coach)[\s,:]+)*(?:aim(?:ing)?|goal|target|plan(?:ning)?|going|gonna go|hoping|shooting)\b[\s:]*"
    r"(?:(?:is|for|to|do|get|hit|today|tonight|the|on)[\s:]+)*\d[^,\n]*(?:,\s*[^\d\n]*)?$"
)
_DONE_WORDS = re.compile(r"\b(?:got|did|made|managed|but|hit(?! me)|had|ended|done|just|was|so far)\b")
_AND_DONE = re.compile(
    r"(?<=\w)\s*,?\s*\b(?:and|so|then)\s+(?:then |now )?(?=(?:i'?m|i am|that'?s me|that is me) (?:all )?done(?: for (?:today|the day|tonight|now))?[\s.!]*$)"
)
_AND_SAME = re.compile(  # "80x5 then the same again": told of two sets
    rf"^\s*(?P<load>{_N}\s*{_UNIT}?\s*(?:[x×@]|for)\s*)?(?P<n>\d+)(?P<reps>\s*reps?)?(?:\s*,?\s+(?:then|and|and then) (?:the )?same(?: again| one)?|\s*,\s*(?:the )?same again)[\s.!]*$"
)
_KEPT_TEMPO = re.compile(
    r"\b(?:kept|held|stuck|keeping|holding) (?:to )?(?:(?:the|a|that) )?(?:(?:slow|full|right|given|same|proper|whole) )?tempo\b"
)
_SAME_FOR_NEXT = re.compile(
    r"\bsame (?:again )?(?:for |on |in )?(?:the )?next (?P<n>[23])(?: (?:sets?|ones?|rounds?))?\b|^(?P<times>[23]) ?[x×] (?:the )?same(?: again)?\b"
)
_TWICE = re.compile(r"(?<=[\d\w)]),\s+twice(?=\s*(?:[.!]|$))")  # "green 12 each side, twice"
_SIDES_FIRST = re.compile(
    rf"(?P<sides>[^()\n]*\b(?:left|right)\b[^()\n]*\b(?:left|right)(?: (?:side|leg|arm|hand))?)[\s,]*\((?P<load>{_N}(?:'?s|\s*{_UNIT})?)\)[\s.!]*"
)


def without_noise(text: str) -> str:
    """Blank what is no set; the same length."""
    text = with_digits(text)
    text = _retold(text)
    if len(numbered := _LINE_NUMBER.findall(text)) > 1 or (numbered and numbered[0].strip() in ("1.", "1)")):
        text = _LINE_NUMBER.sub(_blank, text)
    if "\n" in text:
        text = _DATE_LINE.sub(_blank, text)
        text = _ROUND_HEAD.sub(_blank, text)
    text = _LIKE_LAST.sub(lambda m: m["lead"] + "same", text)
    text = _AS_LAST.sub(lambda m: "same".ljust(len(m.group())), text)
    text = _B_FOUR.sub("  ", text)  # "same as b4"
    text = re.sub(r"\bw\s?/\s?u(?:ps?)?\b", lambda m: "wu".ljust(len(m.group())), text)
    text = _LETTER_O.sub("0", text)
    text = _POINT_BETWEEN.sub(" ", text)
    if "|" in text:
        text = _ROW_OF_TABLE.sub(lambda m: m[1] + ":", text)
    if _LONE_TIMES.match(text):
        text = text.replace("x", " ", len(re.findall(r"(?<![\w.])x\d", text)))
    text = _QUARTERS.sub(lambda m: _padded("45 seconds" if (m["n"] or "three")[0] in "t3" else "15 seconds", m), text)
    text = _THAT_SET.sub(_blank, text)
    if not (any(letter.isdigit() for letter in text) or _NUMBER_WORD.search(text)) or (
        text.isascii() and not _WORDY.search(text)
    ):
        return text
    text = _HEAVIER.sub(_stepped_by, text)
    text = _MOVED_TO.sub(lambda m: "weight".ljust(len(m.group())), text)
    text = _THIS_SET.sub(_blank, text)
    for pattern, word in ((_COULD_HAVE, ""), (_STUCK, "failed"), (_DOWN, "on tempo" if _AS_ASKED.search(text) else "")):
        text = _beside_a_number(pattern, text, word)
    expected = _EXPECTED.search(text)
    if expected and re.search(rf"\d|\b{_NTH}\b", text[expected.end() :]):
        text = _over(expected, "")
    summed = _SO_IN_TOTAL.search(text)
    if (
        summed
        and len(re.findall(r"\d+", text[: summed.start()])) > 1
        and not re.search(r"\d\s*(?:kg|lbs?|x)", text[: summed.start()])
    ):
        text = re.sub(r"\d", " ", text[: summed.start()]) + text[summed.start() :]  # "8, then 4 more, so 12 in total"
    clock = _TIME_OF_DAY.search(text)
    if clock and FULL_SET.search(text[: clock.start()] + "|" + text[clock.end() :]):
        text = _TIME_OF_DAY.sub(_blank, text)
    text = _PAIR_AGAIN.sub(_blank, text)
    text = _LOAD_AGAIN.sub(_newer, text)
    text = _COUNT_AGAIN.sub(lambda m: _padded(f"{m['joint']}{m['gap']}{m['new']}", m), text)
    text = _NOW_THIS.sub(lambda m: m["new"].rjust(len(m.group())), text)
    text = _ALL_SETS_ALL.sub(lambda m: _padded(f"{m['n']}x{m['count']}", m), text)
    text = _K_SETS.sub(_sets_of, text)
    text = _ALL_K_SETS.sub(lambda m: _padded(f"{m['k']}x{m['n']}", m), text)
    text = _ALL_SETS_LIST.sub(lambda m: ":".ljust(len(m.group())), text)
    text = _ALL_WITH.sub(_blank, text)
    text = _DOUBLE.sub(lambda m: "2".ljust(len(m.group())), text)
    text = _ARROW.sub(lambda m: _padded(f"{m['load'] or m['head']}: ", m), text)
    text = _ON_LOAD.sub(lambda m: _padded(f"{m['count']} @ ", m), text)
    text = _DONE_BY.sub(_blank, text)
    spare = _COUPLE_LEFT.search(text)
    if spare:
        few = {"couple": 2, "few": 3, "one": 1, "two": 2, "three": 3}.get(spare["n"]) or spare["n"]
        text = _over(spare, f", rir {few}")
    if "right" in text:
        text = text.replace("reps left", "left     ")  # "7 reps left, 6 reps right"
    text = _SETS_OF.sub(lambda m: _padded(f"{m['n']}x{m['count']}", m), text)
    text = _BODY_SIDE.sub(_blank, text)
    text = _SAME_DASH.sub(lambda m: f"{m['same']} ", text)
    text = _MORE_ON_IT.sub(lambda m: _padded(f"up {m['by'] or m['by2']},", m), text)
    excuse = _BAND_EXCUSE.search(text)
    if excuse and re.search(rf"\b(?:{COLOURS})\b", text[: excuse.start()] + text[excuse.end() :]):
        text = _over(excuse, "")
    gone = _BAND_GONE.search(text)
    if gone and re.search(r"\d", text[: gone.start()] + text[gone.end() :]):
        text = _BAND_GONE.sub(_blank, text)
    text = _WENT_FOR.sub(_got_instead, text)
    compared = _LAST_WEEK.search(text)
    if compared and re.search(r"\d", text[: compared.start() + 1]):
        text = _LAST_WEEK.sub(_blank, text)
    text = _PREFACE.sub(_without_preface, text)
    text = _ACROSS.sub(lambda m: _padded(f"{PLURAL_WORDS.get(m['n'], m['n'])} all", m), text)
    text = _BOTH_TIMES.sub(lambda m: _padded(f"x {_TIMES[m['n']]} sets", m), text)
    if "helped" in text and not _HELPERS.search(text):
        text = text.replace("helped", "      ")  # "music helped"
    text = _RIGHT_SO.sub(_blank, text)
    text = _MORE_THINGS.sub(_blank, text)
    found = _BEFORE_NTH.search(text)
    if found and re.search(r"\d|\b(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)\b", text[: found.start()]):
        text = _over(found, "")
    text = _beside_a_number(_WEEKS, text)
    text = _SO_NOW.sub(lambda m: _padded("weight", m), text)
    text = _AND_A_HALF.sub(_half_more, text)
    text = _TWO_ALIKE.sub(lambda m: _padded(f"w {m['n']}{m['unit'] or 's'} {'each hand' if m['unit'] else ''}", m), text)
    text = _NOTHING_LEFT.sub(lambda m: _padded("rir 0", m), text)
    text = _MATCHED.sub(lambda m: _padded("matched", m), text)
    text = _PUT_IN.sub(lambda m: _padded(f"up {m['by']},", m), text)
    text = _NOT_THAT.sub(_taken_back, text)
    at_rep = _AT_REP.search(text)
    if at_rep and re.search(r"\d", text[: at_rep.start()] + text[at_rep.end() :]):
        start, end = at_rep.span("after") if at_rep["after"] else at_rep.span()
        text = text[:start] + " " * (end - start) + text[end:]
    text = _FOR_A_TRIPLE.sub(lambda m: _padded(f"{m['joint']} {_TRIPLES[m['n']]}", m), text)
    text = _TWO_THINGS.sub(lambda m: _padded(f"{m['n']}{m['unit']} each hand", m), text)
    text = _FIRST_SIDE.sub(_sides_in_order, text)
    left = _MORE_LEFT.search(text)
    if left and re.search(rf"\d|\b{_NTH}\b", text[: left.start()]):
        text = _over(left, f"rir {_FEW.get(left['n']) or left['n']}")
    text = _DROPPED_FOR_MORE.sub(_drop_said, text)
    text = _BOTH_HANDS.sub(_each_hand, text)
    text = _named_sides(text)
    text = _WATER.sub(lambda m: _padded(f"{m['n']}kg", m), text)  # a litre of water weighs a kilogram
    text = _W_AND_R.sub(lambda m: _padded(f"{m['load']}x{m['count']}", m), text)
    text = _PARTS_OF_TOTAL.sub(_total, text)
    text = _FIRST_SETS.sub(lambda m: _padded(f" x {m['n']} sets", m), text)
    text = _FIRST_TWO.sub(lambda m: _padded(f"{m['count']} x {m['n']} sets", m), text)
    text = _BOTH_SETS.sub("2 sets   ", text)
    lifeless = NO_LIFT.search(text)
    if lifeless and FULL_SET.search(text[: lifeless.start()] + "|" + text[lifeless.end() :]):
        text = NO_LIFT.sub(_blank, text, count=1)
    given_up = _GIVEN_UP.search(text)
    if given_up and re.search(r"\d", text[given_up.end() :]):
        text = _GIVEN_UP.sub(_blank, text, count=1)
    text = _BLANK.sub(_blanked, text)
    text = _OF_TEN.sub(_rpe_of_ten, text)
    if "10" in text:
        text = _OF_TEN_BEHIND.sub(lambda m: m["set"] + f" rpe {m['n']}".ljust(len(m["said"])), text)
    text = _RANGE_LEFT.sub(lambda m: _padded(_mean(m[1], m[2]), m), text)
    text = _RANGE_RIR.sub(lambda m: _padded(m[1] + _mean(m[2], m[3]), m), text)
    text = _RANGE_RPE.sub(lambda m: _padded(m[1] + _mean(m[2], m[3]), m), text)
    for pattern, word in ((_FAILED, "failed"), (_LESS, "")):
        text = _beside_a_number(pattern, text, word)
    found = _AN_EIGHT.search(text)
    if found and re.search(r"\d", text[: found.start()]) and found.end() - found.start() >= 6:
        text = _over(found, f"rpe {found[1]}")
    return text


_NUMBER_WORD = re.compile(
    r"\b(?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|fifteen|twenty|thirty|forty|fifty|tens|twelves|fifties|twenties|thirties)\b"
)
_WORDY = re.compile(r"[a-z]{3}|\bno\b|\d\s?-\s?\d\s?-\s?[\dx]\s?-|rir|rpe|hr|bpm")


_WHICH_SIDE = re.compile(
    r"\b(?:(?:my|the)\s+)?(?P<word>good|bad|weak|weaker|strong|stronger|dominant|better|worse|dodgy|main)\s+(?:arm|leg|side|hand|one)?\s*[(=,]?\s*(?:which is\s+|that'?s\s+|is\s+|the\s+)?(?P<side>left|right)\b\s*\)?"
)
_OTHER_SIDE = re.compile(
    r"\b(?:(?:my|the)\s+)?(?:good|bad|weak|weaker|strong|stronger|dominant|better|worse|dodgy|main|other)\s+(?:arm|leg|side|hand|one)\b(?!\s*[(])|\bthe other\b"
)


def _retold(text: str) -> str:
    """What is told in a roundabout order or by other words, as it is told by most; the same length."""
    if ")" in text and (sides := _SIDES_FIRST.fullmatch(text)):
        text = f"{sides['load']}: {sides['sides']}".ljust(len(text))
    if "period" in text or "full stop" in text:
        text = _SPOKEN_STOP.sub(lambda m: ".".ljust(len(m.group())), text)
    if "last " in text:
        text = _OF_LAST_TIME.sub(lambda m: m.group() if _OF_TODAY.search(m.group()) else _blank(m), text)
    if "pt" in text or "point" in text:
        text = _POINT_ROW.sub(_blank, text)
    if " sets " in text:
        text = _SETS_AT.sub(lambda m: f"{m['k']} x {m['n']}".ljust(len(m.group())), text)
    text = _BANDS_IN_TURN.sub(_parted_bands, text)
    if _INTENDS.match(text) and not _DONE_WORDS.search(text):
        text = re.sub(r"\d", " ", text)
    if "done" in text:
        text = _AND_DONE.sub(lambda m: ".".ljust(len(m.group())), text)
    if "tempo" in text:
        text = _KEPT_TEMPO.sub(lambda m: "tempo kept".ljust(len(m.group())), text)
    if "same" in text:
        text = _AND_SAME.sub(_and_again, text)
        text = _SAME_FOR_NEXT.sub(lambda m: f"same x{m['n'] or m['times']}".ljust(len(m.group())), text)
    if "next set" in text or "next one" in text:
        text = _NEXT_SET.sub(lambda m: ",".rjust(len(m.group())), text)
    if "twice" in text:
        text = _TWICE.sub(lambda m: " x 2 sets".rjust(len(m.group())), text)
    return text


def _named_sides(text: str) -> str:
    """ "11 on the good arm (right), 9 on the bad one": which side is the good one is said, so the bad one is the other."""
    told = _WHICH_SIDE.search(text)
    if told is None or len(re.findall(r"\b(?:left|right)\b", text)) != 1:
        return text
    text = text[: told.start()] + told["side"].ljust(told.end() - told.start()) + text[told.end() :]
    other = "left" if told["side"] == "right" else "right"
    return _OTHER_SIDE.sub(lambda m: _padded(other, m), text)


_FOUR = re.compile(r"(?<![\d.@])\s*(\d)\s?-\s?(\d)\s?-\s?(\d)\s?-\s?(\d)(?![\d.])")


def _blanked(found: re.Match[str]) -> str:
    """A tempo goes; "40 kg: 8-8-7-6" is none, for no phase lasts so long and no other count is said."""
    four = _FOUR.fullmatch(found.group())
    if four is not None:
        phases = [int(each) for each in four.groups()]
        others = re.findall(r"\d+", found.string[: found.start()] + " " + found.string[found.end() :])
        if min(phases) >= 3 and (max(phases) >= 7 or len(others) < 2):
            return found.group().replace("-", ",")
    return _blank(found)


def _sides_in_order(found: re.Match[str]) -> str:
    """ "8/7 (right first)": which of the two counts is whose."""
    one, two = ("right", "left") if found["side"].startswith("r") else ("left", "right")
    return _padded(f"{one[0]}{found['one']} {two[0]}{found['two']}", found)


def _drop_said(found: re.Match[str]) -> str:
    """ "dropped to 10s for 8 more": more of the same set, so a drop and no next set."""
    if not (found["another"] or found["more"]):
        return found.group()
    return _padded(f"drop to{found['load']}{found['gap']}{found['count']}", found)


def _stepped_by(found: re.Match[str]) -> str:
    """ "2.5 kg heavier", "10 more lbs": up or down by so much."""
    if found["by2"]:
        return _padded(f"{_WAYS[found['way2']]} {found['by2']} {found['unit2']}", found)
    return _padded(f"{_WAYS[found['way']]} {found['by']}", found)


_TIMES = {"both": 2, "two": 2, "three": 3, "four": 4, "all three": 3, "all four": 4}


def _and_again(found: re.Match[str]) -> str:
    again = f"{found['load']}{found['n']} x2" if found["load"] else f"{found['n']}, {found['n']}"
    return again.ljust(len(found.group()))


def _parted_bands(found: re.Match[str]) -> str:
    """ "yellow 15 green 14 green 12": each count with its own band, parted by signs where blanks stood."""
    words = found.group().split(" ")
    return "".join(word if n == 0 else (";" if n % 2 == 0 else " ") + word for n, word in enumerate(words))


def _got_instead(found: re.Match[str]) -> str:
    """ "went for 5, got 4", "aiming for ten with the fifties and my grip quit at eight": what was aimed at is no count."""
    return _padded(f"{' ' * 4}{found['load'] or ''} got", found)


def _without_preface(found: re.Match[str]) -> str:
    """ "choir practice at 7 so quick one: 50 x 11": numbers of other things before the colon go."""
    said = _OTHER_NUMBER.sub(_blank, found["said"])
    return said + found.group()[len(said) :]


def _newer(found: re.Match[str]) -> str:
    """ "18 kg 9 reps, i mean 16 kg": the load said last, in the place of the first."""
    return _padded(f"{found['new']}{found['mid']}", found)


def _sets_of(found: re.Match[str]) -> str:
    """ "3 sets 7 155 lbs": three sets of seven, where the last number is plainly a load and no second count."""
    plainly = found["unit"] or found["load"] != found["m"] or float(found["m"].replace(",", ".")) >= 2 * int(found["n"])
    return _padded(f"{found['k']}x{found['n']} @ {found['load']}", found) if plainly else found.group()


def _blank(found: re.Match[str]) -> str:
    return " " * (found.end() - found.start())


def _total(found: re.Match[str]) -> str:
    """ "24kg (12+12)": the parts of what was said just before, which is the total then."""
    before = re.search(r"(\d+)\s*[a-z]*\s*$", found.string[: found.start()])
    if before is None or int(before[1]) != int(found["one"]) + int(found["two"]):
        return found.group()
    said = re.search(r"\btotal\b", found.string[: found.start()])
    return _blank(found) if said else _padded("total", found)


def _each_hand(found: re.Match[str]) -> str:
    """ "16 in one hand and 16 in the other": a pair; two different loads stay as they are."""
    if found["one"] != found["two"]:
        return found.group()
    return _padded(f"{found['one']}{found['unit'] or ''} each hand", found)


def _taken_back(found: re.Match[str]) -> str:
    """ "44s ... no 40s x9": the number taken back goes, where what follows is a number of the same kind."""
    return _blank(found)


def _half_more(found: re.Match[str]) -> str:
    """ "5 and a half": five and a half rep, where that is all that is counted; else a load of halves."""
    before, after = found.string[: found.start()], found.string[found.end() :]
    alone = not re.search(r"\d", before + after) or re.search(r"(?:[x×*@]|\bfor|\bgot|\bdid)\s*$", before)
    return _padded(f"{found['n']} +1 half" if alone else f"{found['n']}.5", found)


def _over(found: re.Match[str], word: str) -> str:
    """The text in which it was found, with the word written over that place."""
    return found.string[: found.start()] + word.ljust(found.end() - found.start()) + found.string[found.end() :]


def _beside_a_number(pattern: re.Pattern[str], text: str, word: str = "") -> str:
    """The text with the word in place of what the pattern finds, where a number stands elsewhere in it."""
    found = pattern.search(text)
    return _over(found, word) if found and re.search(r"\d", text[: found.start()] + text[found.end() :]) else text


def _padded(text: str, found: re.Match[str]) -> str:
    room = found.end() - found.start()
    return text.ljust(room) if len(text) <= room else found.group()


def _mean(low: str, high: str) -> str:
    """ "8", "9" -> "8.5"; the lower one where they are far apart (a slip)."""
    one, two = float(low.replace(",", ".")), float(high.replace(",", "."))
    return f"{(one + two) / 2:g}" if abs(two - one) <= 2 else f"{one:g}"


def _rpe_of_ten(found: re.Match[str]) -> str:
    value = found[2] or found[3] or found[5]
    return _padded(f"rpe {value}", found)
