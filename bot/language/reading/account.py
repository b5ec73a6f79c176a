"""Does what was heard account for everything weighty that was said?

A reading may use all the numbers and still miss what a word made of them: "my son squatted 225 for 5" is no set of the member's,
"pullups from yday 8 7 6" none of today, "sorry, the first lot was 10" no new one. Where such a word stands in the text and nothing
that was heard answers to it, the reading is no better than an even guess, and is asked about before it counts.

    "first lot of pressups was 10 not 9" heard as a new set  -> "not 9"
    "my mate did 140x3"                  heard as a new set  -> "my mate did"
    "20 again, 12 11 9"                                      -> ""
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from bot.language.reading.clauses import DAY_NAME
from bot.language.reading.heard import label_of
from bot.language.readings import (
    Aside,
    AsideKind,
    CorrectionHeard,
    FinishHeard,
    Heard,
    Option,
    Question,
    Reading,
    RepeatHeard,
    SetsHeard,
    SkipHeard,
    UndoHeard,
    Verdict,
)
from bot.language.situation import Situation
from bot.language.tokens import fold
from bot.training.records import SetRecord

_EVEN = 0.6  # of readings that such a word contradicts about half were right (measured on messages never seen before)

_PERSON = (
    r"sister|brother|bro|wife|hubby|husband|mum|mom|mother|dad|father|son|daughter|kid|kids|girlfriend|gf|boyfriend|bf|mate|mates|friend|friends|buddy|"
    r"colleague|neighbou?r|cousin|uncle|aunt|aunty|nephew|niece|flatmate|roommate|housemate|boss|twin|grandson|granddaughter|grandad|grandpa|grandma|nan|"
    r"guy|guys|bloke|dude|girl|lad|woman|man|trainer|teammate|missus|teenager"
)
_SEEN_TO = "wants?|said|says|asked|called|rang|calls|told|helped|is|was|came|comes|gave|sat|needs|kept"  # they did no set
_WENT_BEFORE = r"(?<!than )(?<!than on )(?<!like )(?<!as )(?<!as on )(?<!since )(?<!from )(?<!vs )(?<!beat )(?<!until )(?<!till )(?<!by )(?<!see you )(?<!before )(?<!sore )"


@dataclass(frozen=True, slots=True)
class _Weighty:
    """said: words that make something of the numbers. unless: words beside them that take it back. answered: was it heard?"""

    said: re.Pattern[str]
    answered: Callable[[Sequence[Heard], Situation], bool]
    unless: re.Pattern[str] | None = None

    def unanswered(self, text: str, heard: Sequence[Heard], situation: Situation) -> str:
        found = self.said.search(text)
        if found is None or self.answered(heard, situation) or (self.unless is not None and self.unless.search(text)):
            return ""
        return (found["not"] if "not" in found.re.groupindex and found["not"] else found.group()).strip()


def _sets(heard: Sequence[Heard]) -> list[SetRecord]:
    return [record for part in heard if isinstance(part, SetsHeard) for record in part.sets]


def _never(heard: Sequence[Heard], situation: Situation) -> bool:
    return not _sets(heard)


def _put_right(heard: Sequence[Heard], situation: Situation) -> bool:
    return any(isinstance(part, CorrectionHeard | UndoHeard | RepeatHeard) for part in heard)


def _of_sides(heard: Sequence[Heard], situation: Situation) -> bool:
    return any(record.done.left is not None or record.done.right is not None for record in _sets(heard))


def _of_another_day(heard: Sequence[Heard], situation: Situation) -> bool:
    told = _sets(heard)
    return not told or any(record.on != situation.on for record in told)


def _left_out(heard: Sequence[Heard], situation: Situation) -> bool:
    return any(isinstance(part, SkipHeard | FinishHeard | CorrectionHeard | UndoHeard) for part in heard)


def _of_several(heard: Sequence[Heard], situation: Situation) -> bool:
    """More than one set, or one where no more was left to do."""
    told = _sets(heard)
    if len(told) != 1 or len(heard) != 1 or told[0].place is None:
        return True
    slot = situation.slot(told[0].place.label)
    done = {record.place for record in situation.today if record.place}
    left = (
        [n for n in range(1, len(slot.sets) + 1) if not any(p.label == slot.label and p.number == n for p in done)]
        if slot
        else []
    )
    return len(left) < 2


def _load_moved(heard: Sequence[Heard], situation: Situation) -> bool:
    """Whether any load heard is another than the one before it in its slot today; so where there was none before."""
    for record in _sets(heard):
        before = [
            each.done.load for each in situation.today if each.place and record.place and each.place.label == record.place.label
        ]
        if not before or record.done.load != before[-1]:
            return True
    return not _sets(heard)


def _any(*ways: str) -> re.Pattern[str]:
    return re.compile("|".join(ways))


# What somebody else did, or does.
_OTHERS = _Weighty(
    _any(
        rf"\b(?:my|his|her|our|the|an?|some|this|that) (?:\w+ )?(?:{_PERSON})\b(?!'s)(?! (?:{_SEEN_TO})\b)(?=[^.;\n]*\d)",
        r"\b(?:he|she|they) (?:did|does|got|gets|made|lifts?|can|benched|squatted|pulled)\b(?=[^.;\n]*\d)",
    ),
    _never,
    _any(r"\b(?:spotted|with my|borrowed|on my (?:back|shoulders|lap)|from my)\b"),
)
_WEIGHTY = (
    _OTHERS,
    # What is to be put right.
    _Weighty(
        _any(
            r"\b(?:was|were|that'?s|x\d)\b[^.;\n]*?\b(?P<not>(?:not|rather than|instead of) (?:an? |the )?(?:\d+|nine|ten|eleven|twelve|[a-z]+teen)\b"
            r"(?!\d*(?: reps?)? (?:i|as|that|like)\b))",
            r"\b(?:miscount\w*|correction|typo|mistyped|was wrong)\b",
            r"\bshould (?:be|say|read|have (?:been|said))\b",
            r"^\W*(?:oops|whoops|oh no|apologies|sorry|actually)\b[^\d]*\b(?:was|were|is)\b",
        ),
        _put_right,
        _any(r"\bnot \d+ (?:min|sec|hour|per)", r"\b(?:last|previous) week"),
    ),
    # Which side it was.
    _Weighty(_any(r"\bon (?:the |my )?one (?:leg|arm|side|hand)\b.*\bother\b"), _of_sides),
    # What was bought.
    _Weighty(_any(r"\b(?:bucks|quid|euros?|dollars|bought|ordered|on sale)\b", r"[€£$]\s?\d"), _never),
    # What was sent twice.
    _Weighty(
        _any(
            r"\b(?:sent|posted|typed|logged|came through|went through) (?:it |that |this )?(?:twice|again|double|two times)\b",
            r"\b(?:re-?send\w*|resent|duplicate)\b",
            r"\b(?:went|go|gone|came) thr(?:ough|u)\b",
        ),
        _put_right,
    ),
    # What was done on another day.
    _Weighty(
        _any(
            rf"{_WENT_BEFORE}\b(?:yesterday|yday|ystrday|last (?:night|nite|evening)|(?:two|three|2|3) days ago|the other day)\b",
            rf"\b(?:from|for|did|done|on|late) (?:on |last |the )?{DAY_NAME}\b",
        ),
        _of_another_day,
        _any(rf"\b(?:than|like|as|vs|beat|since|sore)\b[^.;\n]*\b(?:yesterday|last|{DAY_NAME})\b", r"\b(?:today|now|tonight)\b"),
    ),
    # What is only meant to be done.
    _Weighty(
        _any(
            r"^\W*(?:[a-z]+ )?(?:aim|aiming|goal|target|plan|planning|hoping|gonna|going to|will|i'?ll|about to|want to|wanna|thinking|maybe|might|ready for)\b(?=[^.;\n]*\d)",
            r"\bwish me luck\b",
            r"\b(?:tomorrow|tmrw)\b(?=[^.;\n]*\d)",
            r"\d[^.;\n]*\b(?:tomorrow|tmrw|next (?:week|time))\s*[.!?]*$",
        ),
        _never,
        _any(r"\b(?:got|did|done|hit|made|managed|had|ended|was|were|came|but|rir)\b", r"\b(?:left|more) (?:in|one)\b"),
    ),
    # Another load, of which it is not said how much it is.
    _Weighty(
        _any(
            r"\b(?:with|at|on) (?:a (?:bit|little|touch|tad) (?:more|less)(?: weight)?(?: on)?|(?:the|some) (?:heavier|lighter|bigger|smaller) (?:ones?|pair|bells?|dumbbells?|weights?))[\s.!]*$",
        ),
        _load_moved,
    ),
    # What is not known any more.
    _Weighty(
        _any(
            r"\b(?:not|un)\W?sure (?:which|what|if i|whether)\b|\b(?:lost my place|lost track|can'?t remember (?:which|what|how)|forgot (?:which|how many))\b"
        ),
        _never,
        _any(r"\d+ (?:or so|ish)\b", r"\babout \d"),
    ),
    # What was left out.
    _Weighty(
        _any(
            r"\bskip(?:ped|ping|s)?\b",
            r"\b(?:no|out of|ran out of) time\b",
            r"\b(?:leaving|leave|left|missing|missed) (?:out |off )?(?:the )?"
            r"(?:other|others|rest|last (?:one|set|round|two)|(?:second|third|fourth|final) (?:one|set|round))\b(?! reps?\b)",
            r"\b(?:ai|is)n'?t happening\b",
            r"\bnot (?:doing|gonna do) (?:the |any )?(?:other|others|rest|last|third|fourth|more)\b",
        ),
        _left_out,
        _any(
            r"\b(?:didn'?t|never|won'?t|no|not|without) skip",
            r"skipp?(?:ed|ing)? (?:lunch|breakfast|dinner|the warm)",
            r"\brope\b",
        ),
    ),
    # What was done more than once.
    _Weighty(
        _any(
            r"\b(?:twice|thrice|(?:two|three|2|3) times)\b",
            r"\b(?:all (?:three|four|of them|sets)|both sets|for (?:both|all))\b(?! (?:reps?|were|was|felt|on the)\b)",
            r"\bfor the (?:next|last) (?:two|2|three|3|to|too)(?=(?: sets?)?\W*$)",
            r"\b(?:exactly |just )?as (?:written|planned|prescribed|asked|programmed)\b",
            r"\b(?P<word>same|idem|ditto|again)\W+(?:and |then )?(?P=word)\b(?!\W*\d)",
        ),
        _of_several,
        _any(
            r"\b(?:click|crack|pop|stop|sent|paus|rest|wobbl|drop|slip)\w* (?:twice|two times|three times)\b",
            r"\b(?:tempo|form|cheated)\b",
            r"\b(?:first|second|third|last|next|this) (?:one|set)\b|\bs\d\b|\bset \d",
        ),
    ),
)


def unaccounted(text: str, heard: Sequence[Heard], asides: Sequence[Aside], situation: Situation) -> str:
    """The first words of a folded text that nothing heard answers to; "" where all is accounted for."""
    for aside in asides:
        if aside.kind is not AsideKind.CHAT or _OTHERS.said.search(fold(aside.text)):
            text = text.replace(fold(aside.text), " ")
    return next((words for each in _WEIGHTY if (words := each.unanswered(text, heard, situation))), "")


def held_to_account(reading: Reading, folded: str, situation: Situation) -> Reading:
    """The reading, or a question where something weighty is not accounted for."""
    if reading.verdict is not Verdict.RECORD or not reading.heard:
        return reading
    if not unaccounted(folded, reading.heard, reading.asides, situation):
        return reading
    option = Option(label_of(reading.heard), reading.heard, _EVEN)
    question = Question("is_that_right", reading.text.strip()[:80], (option,))
    return replace(reading, verdict=Verdict.ASK, heard=(), certainty=_EVEN, question=question)
