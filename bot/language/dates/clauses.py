"""How is a text cut into clauses, and which words around a wish say nothing about days?

"Hey coach, got a wedding on saturday so can we move it to sunday pls?"
-> "got a wedding on D0", "move it to D1"
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from bot.language.dates.moments import DAY
from bot.language.dates.slips import mend_slips

_MONTHS = r"(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*"


def tidy(text: str) -> str:
    """Lower case, one spelling for signs; commas and stops are kept for cutting."""
    words = text.lower().replace("’", "'").replace("‘", "'")
    words = re.sub(
        rf"\b({DAY})'s\b(?= (?:and|with|to|on|be|for)\b|$)", r"\1 one", words
    )  # "saturdays" without the sign may be every one
    words = words.replace("'", "").replace("´", "").replace("`", "")
    words = re.sub(r"(?<!<)(?<!< )→|➡\ufe0f?|(?<![<=-])[-=]+>", " to ", words).replace("&", " and ")
    words = _out_of_shorthand(mend_slips(re.sub(r"[–—]", " - ", words)))
    words = re.sub(
        rf"\b(\d{{1,2}})(?:st|nd|rd|th)?\.? ?(?:-|to|till|until|through) ?(\d{{1,2}})(?:st|nd|rd|th)?\.? (?:of )?({_MONTHS})\b",
        r"\1 \3 to \2 \3",
        words,
    )
    words = re.sub(
        rf"\b({_MONTHS}) (\d{{1,2}})(?:st|nd|rd|th)? ?- ?(\d{{1,2}})(?:st|nd|rd|th)?\b(?![:.]\d)", r"\2 \1 to \3 \1", words
    )
    words = re.sub(r"\b(\d{1,2})(st|nd|rd|th) ?- ?(\d{1,2})(st|nd|rd|th)\b", r"the \1\2 to the \3\4", words)
    words = re.sub(r"(\d{1,2}\.\d{1,2})\.? ?- ?(\d{1,2}\.\d{1,2})\.?(?!\d)", r"\1 to \2", words)
    words = re.sub(r"(\d[\d:.]* ?(?:am|pm|h)?) ?- ?(\d{1,2}:\d\d|\d{1,2} ?(?:am|pm|h)\b)", r"\1 to \2", words)
    words = re.sub(rf"\b({DAY}) ?- ?({DAY})\b", r"\1 to \2", words)
    words = re.sub(rf"\b({DAY})/(?={DAY}\b)", r"\1 and ", words)
    words = re.sub(rf"\b({DAY})/(?={DAY}\b)", r"\1 and ", words)
    words = re.sub(
        rf"\b{DAY} (\d{{1,2}})(?:st|nd|rd|th)? (?:to|-|till|until) {DAY} (\d{{1,2}})(?:st|nd|rd|th)? ({_MONTHS})\b",
        r"\1 \3 to \2 \3",
        words,
    )
    words = re.sub(r"[\n\r]+", ", ", words)
    words = re.sub(r":(?!\d)", ", ", words)
    words = re.sub(r" at all\b", "", words)
    words = re.sub(r"[()\"“”*_~…]+", " , ", words)
    words = re.sub(r"[^\w\s.,;!?:/+-]", " ", words)
    for slip, right in _SPELLINGS:
        words = re.sub(slip, right, words)
    return re.sub(r"\s+", " ", words).strip(" ,.;-")


def _out_of_shorthand(words: str) -> str:
    """ "cnt train tmrw", "mv fri 2 sun": what thumbs leave out, put back in."""
    for short, long in _SHORTHAND:
        words = re.sub(short, long, words)
    return words


_SHORTHAND = (
    (r"\b(?:tomoz|tmoz|tomos|2mrw|2mro|tmro|tmrrw|tmrow|tmorrow|tomora|tomoro)\b", "tomorrow"),
    (r"\b(?:cnt|cnat|carn t)\b", "cant"),
    (r"\bdnt\b", "dont"),
    (r"\bnxt\b", "next"),
    (r"\bfrm\b", "from"),
    (r"\b(?:hv|hve)\b", "have"),
    (r"\bu\b(?! ?kg)", "you"),
    (r"\bur\b", "your"),
    (r"\b(?:gna|gunna|goin to|gon)\b", "gonna"),
    (r"\bb(?= (?:able|away|back|there|here)\b)", "be"),
    (r"\b(?:trng|trning|trainin|traning|trainning)\b", "training"),
    (r"\bmv\b", "move"),
    (r"\b(?:sesh|sess|sesion|sessoin)\b", "session"),
    (r"\b(?:wrkout|wkout|workot)\b", "workout"),
    (r"\b(?:mrng|mornin|morn)\b", "morning"),
    (r"\barvo\b", "afternoon"),
    (r"\bmsg(s?)\b", r"message\1"),
    (r"\b(?:wkend|w/end|weekd)\b", "weekend"),
    (r"(?<!\S)w/(?= |$)", "with"),
    (rf"\b({DAY}|today|tomorrow|tmrw|2day) (?:n|an|nd) (?={DAY}\b|today|tomorrow|tmrw|2day)", r"\1 and "),
    (r"\bimma\b", "gonna "),
    (r"\b(?:ye|yous)\b", "you"),
    (r"\btae\b", "to"),
    (r"\bdae\b", "do"),
    (r"\bnae\b", "no"),
    (r"\b(?:the night)(?=$|[ ,.!?]*$)", "tonight"),
    (r"\b(?:the morra|the morrow)\b", "tomorrow"),
    (r"\bi shall not\b", "i wont"),
    (r"\bshall not\b", "wont"),
    (rf"\b({DAY}) ?(?:< ?-+ ?>|<=+>|⇄|↔\ufe0f?) ?({DAY})\b", r"swap \1 and \2"),
    (r"\b(?:swop|swopp|swp)(?=\b|ped\b|ping\b)", "swap"),
    (rf"\b({DAY}|\d(?:st|nd|rd|th)|tmrw|tomorrow|today) 2 (?={DAY}\b|the |\d|tmrw|tomorrow|today)", r"\1 to "),
    (r"\b(need|want|have|gonna|able|got|like|try) 2 (?=[a-z])", r"\1 to "),
)
_SPELLINGS = (
    (r"\b(?:pls|plz|plse)\b", "please"),
    (r"\b(?:thx|thnx|tks|cheers|ta)\b", "thanks"),
    (r"\bb4\b", "before"),
    (r"\b(?:cuz|cos|coz|cause|bc|bcs|bcoz)\b", "because"),
    (r"\b(?:wknd|w/e)\b", "weekend"),
    (r"\bwk\b", "week"),
    (r"\b(?:can ?not|cannae|carnt|cant)\b", "cant"),
    (r"\bwont\b", "wont"),
    (r"\bi am\b", "im"),
    (r"\bi will\b", "ill"),
    (r"(?<!could )(?<!can )(?<!may )(?<!should )\bi have\b", "ive"),
    (r"\bi would\b", "id"),
    (r"\bwe are\b", "were"),
    (r"\bwe will\b", "well"),
    (r"\b(?:do not|dnt)\b", "dont"),
    (r"\bdoes not\b", "doesnt"),
    (r"\bis not\b", "isnt"),
    (r"\bwill not\b", "wont"),
    (r"\bwould not\b", "wouldnt"),
    (r"\bcould not\b", "couldnt"),
    (r"\bthat is\b", "thats"),
    (r"\blet us\b", "lets"),
    (r"\bgoing to (?=do|train|skip|move|miss|be|take|have|pause|give|go|need|start|swap|leave)", "gonna "),
    (r"\b(?:work out|working out|workout out)\b", "train"),
    (r"\b(?:programme|program|prog)\b", "plan"),
    (
        r"\b(?:vacay|vaca|vacations|vacation|holidays|hols)(?= (?:from|for|on|till|until|next|this|starting|all|the|D\d)| \d|$)"
        r"|\bleave(?= (?:from|for|on|till|until|next|this|starting|D\d)| \d|$)",
        "holiday",
    ),
)

# Words at the edges of a clause that leave its meaning alone.
_BEFORE = (
    r"(?:hey|hi|hiya|kindly|nah|nope|ngl|tbh|yo|oof|ugh|argh|honestly|respected|regarding|about|re|hello|heya|yo|dear|coach|ok|okay|so|sorry|please|and|but|also|well|hm+|oh|um+|uh|ah|right|just|then|yeah|yes|yep|no worries|"
    r"unfortunately|sadly|annoyingly|(?:my |the )?(?:doctor|doc|physio|gp|wife|husband|boss|surgeon|nurse) (?:says?|said|wants|told me|thinks)(?: that| to)?|im afraid|i think|i guess|i reckon|looks like|it looks like|turns out|apparently|heads up|fyi|quick one|"
    r"actually|btw|by the way|morning|good morning|evening|sorry but|bad news|good news|guys|mate|thing is|the thing is|instead|as (?:i|it)t? said|"
    r"(?:im|i am|well be|were)(?= (?:skipping|having|taking|moving|swapping|switching|leaving|putting|pushing|shifting|dropping|cancelling|sitting|missing|giving) (?:the |my |a |this )?[DSP]\d)|because|as|since|still|now|today(?= move| swap)|for now|from today|alright|all right|anyway|hope thats (?:ok|fine)|if possible|if thats ok|something (?:has )?(?:came|come) up)"
)
_POLITE = (
    r"(?:(?:id|i would|it would|itd|that would|thatd|would)(?: really| greatly)? (?:be (?:really |so |very |most )?(?:grateful|great|good|nice|lovely|helpful|happy|cool|ideal)|appreciate(?: it)?) (?:if|to)(?: (?:you|we|i) (?:could|can|would|will|were to))?|"
    r"would you mind|do you mind|what about|how about(?! (?:if )?(?:i|we)\b)|is it possible to|possible to|(?:i )?will(?= (?:resume|start|train|move|skip|do|be back))|(?:can|could|may|shall|would|will|should|might) (?:we|i|you)(?: please| maybe| possibly| just)?|(?:is it|would it be|its|is that) (?:ok|okay|possible|fine|alright|all right|cool|allowed)(?: with you)? (?:if (?:i|we)|to)|"
    r"is there (?:a|any) (?:way|chance) (?:to|i can|we can|you can|i could|we could)|any chance (?:to|i can|we can|you can|i could|we could|of)|do you mind if i|mind if i|would you mind|"
    r"i(?:d| would)? (?:like|love|prefer(?! [DSW]\d)|want)(?: to| you to)?|id (?:rather|prefer to|like to|love to)|i (?:want|need|wanna|must)(?: to)?|ive (?:got )?to|i gotta|i got to|i have to|"
    r"(?:im |we are |were )?gonna(?: have to)?|lets|let me|let us|ill(?: have to| need to| just)?|i shall|im planning to|i plan to|planning to|how about (?:if )?(?:i|we)?|what if (?:i|we)|need to|want to|wanna|have to|gotta|make it so (?:that )?i|"
    r"(?:can|could|may|would|will|should)(?= (?:[DSWP]\d|my|the|it|everything|all|reminders?|this|that)))"
)
_AFTER = (
    r"(?:please|thanks|thank you|thankyou|ty|ok|okay|coach|if (?:possible|thats ok(?:ay)?|its ok(?:ay)?|thats fine|thats alright|you can|i can|i may)|instead|for me|again|too|also|"
    r"really|at all|for now|sorry|alright|right|would that be (?:ok|okay|fine|possible)|is (?:that|this) (?:ok|okay|fine|possible|alright)|haha+|lol|for (?:this|the) week(?: only)?|just (?:this|the) (?:once|week)|this once|(?:till|til|until) (?:further notice|i (?:say|tell you|let you know|say so|say otherwise)(?: so| otherwise)?|(?:im|i am) back|i (?:come|get) back)|tho|though|mates?|guys|"
    r"bro|bruh|bruv|buddy|bud|pal|man|boss|chief|dude|yaar|fam|hun|ya|yall|eh|innit|my (?:man|friend)|xx?|"
    r"(?:and )?(?:leave|keep) (?:all )?the (?:rest|others?)(?: of (?:it|the week|them))?(?: (?:as (?:it )?(?:is|planned|they are)|alone|the same|where it is))?|(?:and )?(?:the rest|everything else|others?) (?:stays?|is|as)(?: the)? (?:same|put|as is|as it is|as planned|unchanged)|"
    r"(?:with |and |have |got )*(?:no|without)(?: my| any| the| real)? (?:kit|equipment|weights|gear|dumbbells|kettlebells?|barbell)(?: (?:there|with me|around))?|"
    r"(?:and )?(?:i )?(?:dont|wont|no need to|not)(?: (?:want|need|have)(?: to)?)? ?(?:make|making|catch|catching) (?:it|that|this|them) up(?: later)?|(?:and )?(?:i )?(?:dont|no need to)(?: want to)? (?:reschedule|move|replace) it|"
    r"(?:and )?(?:(?:log|note|record|count|save|mark|add|put) (?:it|that|this)(?: (?:down|in|as done))?|(?<!if )(?:i )?(?:just )?(?:forgot|didnt|never|hadnt|havent|not) (?:to )?(?:log|logged|note|noted|record|recorded|write|written|enter|entered|save|saved|tell|text|texted|put|count|counted)(?: (?:it|you|that|it in|it down|down))*|it isnt (?:in )?(?:there|here|logged|showing|recorded|counted|saved)(?: yet)?)|"
    r"sadly|unfortunately|im afraid|i think|i guess|actually|yeah|hope thats (?:ok|fine|okay)|sorry about that|my bad|anymore|any more|if poss|asap|as well|only|i suppose|maybe|perhaps|possibly|or not|yeah|yes)"
)
HEDGE = re.compile(
    r"^(?:maybe|perhaps|possibly|probably|i might|might|i may|im thinking (?:of|about|to)|thinking (?:of|about)|im considering|considering|im not sure if|not sure if|"
    r"not sure (?:i|we) (?:can|will)|i might have to|may have to|might have to|if(?! i (?:still )?(?:havent|have not|dont|didnt|forget|miss|ignore|sleep|overlook)\b.*\b(?:remind|ping|nudge|text|message|poke|buzz|prod))|unless|or(?: maybe)?|dont|do not|never ?mind|what happens if|should i|"
    r"i was gonna|i wanted to|i was thinking (?:of|about)|i almost|almost|i nearly|i wish i could|what if)\b"
)
DOUBLE_BACK = re.compile(
    r"\b(?:no wait|oh wait|wait|scratch that|on second thou?ghts?|forget (?:that|it)|never ?mind|or not|actually no|unless|if|what happens|what then|(?:is|would) that (?:be )?(?:a problem|bad|too much)|does (?:that|it) matter)\b"
)


@dataclass(frozen=True, slots=True)
class Clause:
    """words: without the words that say nothing. polite: it asks for something. asks: a question mark stood behind it."""

    words: str
    polite: bool
    asks: bool
    hedged: bool = False


def bare(words: str) -> Clause:
    """Take away what stands around a wish."""
    asks = words.rstrip(" .!,").endswith("?")
    words = words.strip(" .,;!?")
    polite = hedged = False
    while True:
        before = words
        words = re.sub(rf"^{_BEFORE}(?: |$)", "", words).strip()
        found = re.match(rf"{_POLITE}(?: |$)", words)
        if found:
            polite, words = True, words[found.end() :].strip()
        found = HEDGE.match(words)
        if found and not re.match(
            r"dont (?:remind|bug|bother|message|text|ping|contact|send|write|need|want|disturb|train|have)", words
        ):
            hedged, words = True, words[found.end() :].strip()
        words = re.sub(rf"(?:^| ){_AFTER}$", "", words).strip(" .,")
        if words == before:
            return Clause(words, polite, asks, hedged)


_STRONG = re.compile(r"(?<=[;!?])\s*|[,;]\s*|\.(?=\s|$)\s*|(?<=\?)\s+")
_WEAK = re.compile(
    r" (?:because|so that|so|since(?! [DPT]\d)|as(?= (?:i|my|we|the|im|it|ive)\b)|due to|but|and then|then|and(?= (?:i|im|ill|id|ive|lets|can|could|move|skip|swap|please|also|remind|not|no|none|nothing|pause|we|well|start|set|dont|do|put|push|shift|bring|drop|cancel|make|give|leave|change)\b)|"
    r"which means|meaning|hence|therefore|in case|although|though|thanks to)(?= |$) ?"
    r"| (?=(?:can|could|may|shall) (?:i|we|you)\b)| (?=(?:ill|lets|id rather|id like to|gonna) (?!be back))| (?=please (?:move|skip|swap|cancel|leave|put|push|pause|remind|make|shift))"
    r"| (?=(?:forgot|but didnt) )|(?<! time)(?<! day)(?<! session)(?<! week)(?<! workout)(?<!\bbad)(?<!\bmy)(?<!\bsore)(?<!\blower)(?<!\bupper)(?<!\bstiff)(?<!\btight) (?=(?:and )?(?:back|returning|return|home) (?:again )?(?:on |by )?D\d)"
)


def strong_parts(words: str) -> list[str]:
    """Cut at stops and commas; dates in a list ("D0, D1 and D2") stay together."""
    words = re.sub(r"(?<!not )([DWS]\d+),(?= (?:and )?[DWS]\d+(?:$|[,.]| and| only| [DWS]\d| now| from))", r"\1", words)
    return [part for part in (one.strip() for one in _STRONG.split(words)) if part]


def weak_parts(words: str) -> list[str]:
    """Cut at words that join two thoughts."""
    return [part for part in (one.strip() for one in _WEAK.split(words)) if part]
