"""Does a stretch of talk tell of sets at all, and does it say more than a record can hold?

"18 no cap" in the middle of a session is a set; "my daughter is 12" is none; "6, last 2 with a band" is more than one record says.
"""

from __future__ import annotations

import itertools
import re

from bot.language.reading.grammar import Entry, Item
from bot.language.reading.ranking import fit_count, fit_load
from bot.language.reading.setting import Setting
from bot.language.reading.terms import Clause, Term
from bot.language.tokens import Token
from bot.training.blocks import Measure, Slot

HARDLY = -2.0  # log weight: below it a number hardly suits the set that is due
_MOST_UNKNOWN = 7
_NUMBER_OF = re.compile(
    r"(?P<whose>[^\W\d_]+)(?:'?s|\s+(?:(?:is|are|was|were|be|turned|turns|turning|in|at|by|till|until|of|from|page|no|number|since|after|before|for|now|just|only|already|about|the|only)\b\s*)+)\s*$"
)
_AND_MORE = re.compile(
    r"\b(?:then|and|plus|followed by|after)\s+(?:another\s+|did\s+|got\s+|managed\s+|a further\s+|an extra\s+)*(?:\d+|one|two|three|four|five|six)\s+(?:more|extra)\b"
    r"(?!\s+(?:in|left|than|to spare|sets?|kg|kilos?|pounds?|lbs?))|\band (?:a few|a couple|some) more\b"
)
_OTHER_REPS = re.compile(
    r"\b(?:\d+|one|two|three|four|five|a few|couple)\s+(?:of\s+)?(?:negatives?|eccentrics?|forced|assisted|band(?:ed)? ones|cheat(?:ed)? ones)\b"
)


# Words that turn a sentence round: what follows or precedes them may be no set at all, or not as it stands.
_DOUBTFUL = re.compile(
    r"^(?:\w+ ){0,2}(?:if|unless)\b|\b(?:would(?:'?ve| have)?|used to|no idea|how heavy|unsure|dunno|exchanged|swap(?:ped)? (?:those|them|that|it))\b"
    r"|\bthen (?:another|one|a) ?\d* (?:on|more|extra)\b|\bthen another\b|\bsame as the first (?:two|three|\d)\b"
)
_LAST_REPS_HELPED = re.compile(
    r"\b(?:last|final) (?:\d|one|two|three|few|couple)(?: of them| reps?)? (?:with|on|using|w/?|by) (?!(?:an? )?(?:\w+ )?(?:round|rounded|bad|poor|ugly|sloppy|shaky|good|clean|great|bent|arched) )|\b\d+ (?:slow )?(?:negatives?|negs|eccentrics?)\b"
)
_OTHER_TIME = re.compile(
    r"^(?!.*\b(?:more|less|fewer|than|up|down|same|like|as|vs|beat|better|compared|instead|not|this time|today|now)\b)"
    r"(?=.*\b(?:did|got|had|was|were|managed|hit|made|used)\b)(?=.*\blast (?:week|month|year|session)\b)"
)
_LAST_FEW = re.compile(r"\blast (?:two|three|[2-5]) sets (?:were|was)\b")


def tells_sets(clause: Clause, entries: list[Entry], base: Setting | None, *, running: bool) -> float:
    """Is there enough that speaks of sets? 1 if so, 0 if not; bare numbers among unknown words are not enough by themselves."""
    items = [item for entry in entries for item in entry.items]
    numbers = [term for item in items for term in item.numbers]
    marks = {mark.kind for item in items for mark in item.marks}
    if numbers and clause.unknown and all(term.role == "load" for term in numbers):
        return 0.0
    if not numbers:
        told = marks & set("AO") or ("l" in marks and marks & set("+v")) or (marks & set("+v") and not clause.unknown)
        if not told or len(clause.unknown) > 1:
            return 0.0
        said = [mark for item in items for mark in item.marks]
        whole = any(mark.kind == "A" and mark.end - mark.start > len(mark.text) for mark in said)
        addressed = whole and said[-1].kind == "?"  # "same again pet"
        return 1.0 if not clause.unknown or addressed else 0.6
    named = any(entry.label or entry.exercise for entry in entries)
    strong = any(
        (item.ops and any(op in "x@wf:" for op in item.ops) and len(item.numbers) > 1 and not _apart(item, clause.unknown) and not any(term.ordinal for term in item.numbers))
        or any(term.role in ("load", "count", "minutes_or_metres") or term.plural or term.sign for term in item.numbers)
        or item.lone_x or item.set_number
        for item in items
    )  # fmt: skip
    if strong or named:
        crossed = any(op == "x" or (op == "f" and item.numbers[0].plural) for item in items for op in item.ops)
        full = any(t.role == "count" for t in numbers) and (
            any(t.role == "load" or t.plural for t in numbers) or _fits_unloaded(numbers, base)
        )
        if not running and not named and not crossed and not full and len(clause.unknown) > 1:
            return 0.6
        return float(len(clause.unknown) <= 6 + 3 * len(numbers))
    if clause.verbs or marks & set("EFBcKWAO*$"):
        return float(
            len(clause.unknown) <= 1 + len(numbers) and not _counts_a_thing(clause.terms) and not _before_a_word(clause.terms)
        )
    return float(not clause.unknown)


def _fits_unloaded(numbers: list[Term], base: Setting | None) -> bool:
    """ "chin cleared the bar 7 times": one count that suits the exercise that is due, which wants no load."""
    if base is None or base.needs_load or len(numbers) != 1 or numbers[0].measure is not base.measure:
        return False
    return fit_count(numbers[0].number, base.target(base.free_numbers[0] if base.free_numbers else 1), base) > HARDLY


def _apart(item: Item, unknown: list[Token]) -> bool:
    """ "30 copies to mark ... at 9": do words that nobody knows stand between the numbers?"""
    first, last = item.numbers[0].start, item.numbers[-1].end
    return sum(first < token.start < last for token in unknown) > 1


def maybe_sets(clause: Clause, entries: list[Entry], base: Setting | None, folded: str, *, running: bool) -> float:
    """Numbers among words that nobody knows: 1 where they can hardly be anything else than the set that is due, 0.6 where they may be it.

    They must stand for themselves ("18 no cap", "bruh only 14"), not count a thing ("12 biscuits") nor be something's own number
    ("my daughter is 12"), and suit the set that is due.
    """
    items = [item for entry in entries for item in entry.items]
    numbers = [term for item in items for term in item.numbers]
    if base is None or not numbers or len(numbers) > 3 or len(clause.unknown) > _MOST_UNKNOWN:
        return 0.0
    terms = clause.terms
    if any(_is_of_something(term, folded, clause.unknown) for term in terms if term.kind == "n"):
        return 0.0
    first = numbers[0] if len(numbers) == 1 or all(term.bare for term in numbers) else None
    if _counts_a_thing(terms) and (not running or len(clause.unknown) > 1):
        return 0.0
    if first is None:
        return 0.6 if running else 0.0
    number = base.free_numbers[0] if base.free_numbers else 0
    fits = fit_count(numbers[-1].number, base.target(number), base) > HARDLY
    pair = len(numbers) == 2 and items[0].ops and items[0].ops[0] in "fw " and fits and base.needs_load
    if pair:
        return 1.0 if fit_load(first.number, base.situation.unit, base) > HARDLY else 0.6
    if not fits or not running:
        return 0.6 if fits else 0.0
    beside = any(one.kind == "?" and two.kind == "n" and two.start - one.end <= 1 for one, two in itertools.pairwise(terms))
    return 0.6 if beside or len(numbers) > 1 or _before_a_word(terms) else 1.0


def _is_of_something(number: Term, folded: str, unknown: list[Token]) -> bool:
    """ "my daughter is 12", "bus in 10": a word that says where or what a number is, after one that is no set's."""
    found = _NUMBER_OF.search(folded, max(0, number.start - 40), number.start)
    return found is not None and any(token.start == found.start("whose") for token in unknown)


def know_words_of(slot: Slot, clause: Clause) -> None:
    """ "11 knee ones": a word of the name of the exercise that is due is no stranger."""
    own = {word.rstrip("s") for word in re.findall(r"[a-z]{3,}", slot.exercise_name.lower())}

    def is_own(word: str) -> bool:
        return word.rstrip("s") in own or any(len(each) > 3 and word.startswith(each) for each in own)

    clause.unknown = [token for token in clause.unknown if not is_own(token.text)]
    for term in clause.terms:
        if term.kind == "?" and is_own(term.text):
            term.kind = "."


_PREFACE = re.compile(r"\s*[^\d:\n]{3,60}:(?=\s*\d)")


def forget_preface(folded: str, clause: Clause) -> None:
    """ "after a dreadful meeting: 8 kg each hand, 8": words before a colon say when or why, not what was lifted."""
    said = _PREFACE.match(folded)
    if said is not None:
        clause.unknown = [token for token in clause.unknown if token.start >= said.end()]


def _counts_a_thing(terms: list[Term]) -> bool:
    """ "12 biscuits": a number just before a plural that nobody says between sets."""
    return any(
        one.bare and two.kind == "?" and two.start - one.end <= 1 and two.text.endswith("s") and len(two.text) > 3
        for one, two in itertools.pairwise(terms)
    )


def _before_a_word(terms: list[Term]) -> bool:
    """ "9 annnd", "21 lesgo": a number just before a word that nobody knows."""
    return any(one.bare and two.kind == "?" and two.start - one.end <= 1 for one, two in itertools.pairwise(terms))


def only_time(entries: list[Entry]) -> bool:
    """ "need 5 mins", while reps are due: nothing but a stretch of time, and no exercise named."""
    numbers = [term for entry in entries for item in entry.items for term in item.numbers]
    named = any(entry.label or entry.exercise for entry in entries)
    return bool(numbers) and not named and all(term.measure is Measure.SECONDS for term in numbers)


_VAGUE = re.compile(
    r"(?:(?:ok|okay|and|so|just|i|also|then|well|yes|yep|hey|coach|sorry)[\s,]+)*(?:"
    r"(?:did|got|managed|completed|hit|done)\s+(?:(?:them|those|it) all|(?:all|most|half|some) (?:of )?(?:them|it|those)|(?:some|a few|a couple|a bit)(?: more| extra)?|more(?: than (?:last time|planned|asked))?|another(?: one| set)?|one more(?: set)?|a set|sum|my sets?|"
    r"the (?:first|second|third|last|next|other)(?: one| set)?(?: (?:too|as well|again|twice))?(?: by (?:mistake|accident))?)"
    r"|(?:a )?(?:few|couple|bit) (?:more|less|fewer) than (?:the )?(?:first|last|second)(?: one| set)?|(?:a bit |slightly |way |much )?(?:more|less|fewer|better|heavier|lighter) than (?:last (?:time|week|session)|before)"
    r"|(?:the )?(?:left|right)(?: one| side| arm| leg)? (?:was|did|got) (?:a bit |slightly |way )?(?:less|more|fewer)"
    r"|(?:change|make|fix) the \d+ (?:to|into) (?:a |an )?\d+|(?:about |like )?\d+ ?(?:ish|or so|something)\s*\?+)[\s.!]*"
)


def speaks_vaguely(folded: str) -> bool:
    """Does it speak of sets without saying what a record needs: "did them all", "more than last time"?"""
    return len(folded) <= 60 and _VAGUE.fullmatch(folded.strip()) is not None


_NOT_HOW_MUCH = re.compile(
    r"(?<!felt )(?<!feels )(?<!was )(?<!seemed )(?:a (?:bit|little|tad|touch)|slightly|bit) (?:heavier|lighter)\b(?! than)(?=[^\d]*\d+[^\d]*$)"
)


def leaves_out(folded: str) -> bool:
    """Is something told beside the sets that no set record says as it was meant: "then two more", "and 2 negatives"?"""
    if _DOUBTFUL.search(folded) or _LAST_REPS_HELPED.search(folded) or _OTHER_TIME.search(folded) or _LAST_FEW.search(folded):
        return True
    heavier = _NOT_HOW_MUCH.search(folded)
    if heavier and not re.search(r"\d", folded[: heavier.start()]):
        return True  # "a bit heavier, 9"
    more = _AND_MORE.search(folded)
    could = re.search(r"\b(?:could|had|have|coulda|maybe|reserve|tank)\b", folded)
    return bool(more and not could) or bool(_OTHER_REPS.search(folded) and len(re.findall(r"\d+|\bthree\b|\btwo\b", folded)) > 1)
