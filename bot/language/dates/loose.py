"""A wish in no shape that is known: which words of wishing stand beside which marks, in whatever order?

    "earlier by N0 for everything starting D1"  -> Shift
    "D0 one can do D1 then, raining here"       -> Move
    "scrap D0 and D1"                           -> Skip, Skip

It is one only if every other word says nothing about days. One or two words that are not known make it a question; more, a word of
training, a condition or a doubt make it nothing. What the shapes read is never read again here.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from bot.language.dates import loose_spans
from bot.language.dates.clauses import Clause
from bot.language.dates.desk import LESS_SURE, Desk, PlanReading, ask, say, sure
from bot.language.dates.left_out import spans_of, without
from bot.training.plan import Deed, Move, Shift, Skip, Swap

# Words that leave a wish as it is: little ones, courtesy, what is wished for, and why people cannot train.
_LIGHT = frozenset(
    re.findall(r"\w+", """a an the my our this that these those it its i im ill id ive we were well you your me us to for on at in of by with from into and or so as then than just only also too now here there
    is are be been being was will would can could may might shall should do does doing done did have has had got get getting go goes going gone gonna need needs want wants wanna rather like better prefer let lets
    please thanks thank sorry ok okay yes no hi hey hello coach ah eh oh well right good fine great really very bit little bloody damn all day days one ones thing session sessions workout workouts training train lift lifting
    lifts gym class exercise stuff plan week weeks block everything rest possible instead again still already because since due cause when where up down out over off back along around about
    mate boss bro man guys folks x xx lol haha possibly maybe think guess suppose afraid unfortunately sadly actually anyway though tho rain raining flooded busy work working late sick ill tired knackered shattered
    exhausted sore hungover exam exams dentist doctor doctors appointment wedding party funeral birthday meeting meetings dinner guests visitors family kids kid school wife husband mum mom dad travel travelling traveling
    flight flying holiday shift shifts hockey football match tournament game concert show trip date half whole full early evening morning afternoon night way until till til today time""")
)  # fmt: skip
# Said of exercises and sets, or with a condition: not for this reader.
_NEVER = re.compile(
    r"\b(?:squats?|press(?:es)?|rows?|curls?|bench|deadlifts?|planks?|lunges?|push ?ups?|pull ?ups?|chin ?ups?|dips?|swings?|raises?|bridges?|thrusts?|carry|carries|reps?|sets?|kgs?|kilos?|lbs?|"
    r"dumbbells?|kettlebells?|bells?|barbell|bands?|tempo|rpe|rir|load|weights?|warm ?up|cardio|run|running|[a-h][1-9]|knees?|backs|shoulders?|elbows?|if|unless|whether|who|why|what|whats|how|didnt|dont|"
    r"doesnt|never|nobody|he|she|they|her|him|them|his|felt|feels?|hurts?|went|took|had|best|worst|hard|easy|strong|heavy|next time|last time|soon enough|wait|more than|less than|overhead|heavier|lighter|between sets)\b"
)
_ALL = r"(?:everything(?: else)?|it all|all (?:of )?(?:my |the )?(?:sessions|workouts|days|training|it)|all|(?:the |my )?(?:whole |entire |rest of the |rest of my )?(?:lot|week|plan|block|schedule|calendar|split|sessions))"
_SKIP = r"(?:sack off|sacking off|skip|skipping|cancel|cancelling|scrap|scrapping|drop|ditch|bin|axe|forget|scratch|miss|missing|leave out|leaving out|call off|delete|remove|lose|omit|giving|sit out)"
_CANNOT = r"(?:stuck|aint|too busy|clash(?:es|ing)?|nightmare|hopeless|cant|wont|aint happening|isnt happening|not happening|wont happen|not gonna happen|no can do|unable|not able|impossible|not a chance|not gonna happen|no chance|no go|not possible|no good)"
_UNSURE = r"(?:unlikely|doubtful|not sure|unsure|struggling|struggle|touch and go|tough|tricky|iffy|fifty fifty|probably not|might not|may not)"
_MOVE = r"(?:move|moving|shift|shifting|push|pushing|put|putting|bump|reschedule|rescheduling|postpone|postponing|change|switch|bring|delay|slide|transfer|swap|do|doing|train|training|lift|lifting|have|make|get|fit|squeeze|hop|take|let|slip|happier)"
_SWAP = r"(?:swap|swapping|swop|switch|switching|trade|exchange|flip|change places|other way (?:round|around)|reverse|reversed)"
_BACK = re.compile(r"\b(?:earlier|sooner|forwards?|ahead|bring|pull)\b")
_ON = re.compile(r"\b(?:later|back|delay|postpone|push|along|slide|behind)\b|\+")


def read_loosely(desk: Desk, clause: Clause, *, asking: bool = False) -> PlanReading | None:
    """The wish in a clause of marked words; asking: so many unknown words may stand beside it that it has to be asked about."""
    words = clause.words
    if _NEVER.search(words) or re.search(r"(?<![A-Z\d])\b\d+\b(?! (?:fixed |set |regular |training )?days\b)", words):
        return None  # a number that is no date is one of sets
    for kind in _KINDS:
        found = re.search(rf"\b{kind.pattern}\b", words)
        if found and kind.reader is not loose_spans.done and re.search(r"\b(?:was|been)\b", words):
            continue
        reading = kind.reader(desk, words, clause) if found else None
        if found and reading is not None:
            left = _unknown(words if kind.reader is _move else words.replace(found[0], " "))
            return reading if left <= (kind.asking if asking else kind.sure) else None
    return None


@dataclass(frozen=True)
class _Kind:
    """sure, asking: how many unknown words may stand beside a wish of this kind, for a deed and for a question."""

    pattern: str
    reader: Callable[[Desk, str, Clause], PlanReading | None]
    sure: int = 0
    asking: int = 2


def _unknown(words: str) -> int:
    """How many words are neither marks, nor wishing, nor light."""
    known = re.compile(
        rf"[DPSNTW]\d+s?|{_MOVE}|{_SKIP}|{_SWAP}|{_BACK.pattern}|{_ON.pattern}|\+|by|starting|beginning|onwards?|earlier|later|than|not|both"
    )
    return sum(known.fullmatch(word) is None and word not in _LIGHT for word in re.findall(r"[\w+]+", words))


def _days(desk: Desk, words: str) -> list[date] | None:
    """One date for each day or session named, in order; None where one is unclear or is a rule."""
    dates: list[date] = []
    for mark in re.findall(r"D\d+ S\d+|[DS]\d+", words):
        found = desk.what(mark)
        if (
            len(found) != 1
            or found[0] < desk.today
            or (mark[0] == "D" and desk.is_plural(mark) and mark not in desk.session_marks)
        ):
            return None
        dates.append(found[0])
    return dates


def _shift(desk: Desk, words: str, clause: Clause) -> PlanReading | None:
    counts = [days for mark in re.findall(r"N\d+", words) if (days := desk.days_of(mark))]
    since = re.search(r"\b(?:from|starting|beginning|as of|after|since)(?: on)? ([DP]\d+)", words)
    marks = re.findall(r"[DS]\d+", words)
    if len(counts) != 1 or len(marks) > (1 if since else 0):
        return None
    earlier, later = _BACK.search(words) is not None, _ON.search(words) is not None
    if earlier == later and (earlier or not re.search(r"\b(?:move|moving|shift|shifting|slide|delay|bump|shunt)\b", words)):
        return None
    first = desk.today
    if since:
        starts = desk.dates(since[1]) if since[1][0] == "D" else tuple(span[0] for span in desk.period(since[1]))
        if len(starts) != 1:
            return None
        first = starts[0]
    return sure(Shift(first, -counts[0] if earlier else counts[0]), certainty=LESS_SURE)


def _skip(desk: Desk, words: str, clause: Clause) -> PlanReading | None:
    days = _days(desk, words)
    named = rf"\b{_SKIP}(?: (?:out|the|my|on|all|both|this|that|our|just|only|training|for))* [DS]\d|[DS]\d+ (?:i |ill |im |please |can |we |be |to |gonna )*{_SKIP}\b"
    if not days or re.search(r"\b(?:to|till|til|until)\b", words) or not re.search(named, words):
        return None  # "skip the dead bugs today"
    if re.search(r"S\d", words) and re.search(r"D\d", words):
        return None
    if any(re.fullmatch(r"[\d./]+", desk.words(mark)) for mark in re.findall(r"D\d+", words)):
        return None  # "drop 2.5" is a drop set
    return sure(*(Skip(on) for on in days), certainty=LESS_SURE)


def _cannot(desk: Desk, words: str, clause: Clause) -> PlanReading | None:
    days = _days(desk, words)
    if not days or re.search(r"\b(?:to|till|til|until|instead)\b", words):
        return None
    if len(days) > 1:
        return sure(*spans_of(days), certainty=LESS_SURE)
    desk.cannot = days[0]
    return without(desk, days[0])


def _perhaps_not(desk: Desk, words: str, clause: Clause) -> PlanReading | None:
    """ "Friday is looking unlikely": nothing is decided for them."""
    days = _days(desk, words)
    if not days or len(days) > 1 or desk.open_on(days[0]) is None:
        return None
    free = desk.free_after(days[0])
    options: list[tuple[str, Deed]] = [(f"Move it to {say(on)}", Move(days[0], on)) for on in free]
    return ask("move_or_skip", say(days[0]), [*options, ("Leave it out", Skip(days[0]))])


def _swap(desk: Desk, words: str, clause: Clause) -> PlanReading | None:
    days = _days(desk, words)
    if not days or len(days) > 2 or len(set(days)) != len(days):
        return None
    if len(days) == 2:
        return sure(Swap(min(days), max(days)), certainty=LESS_SURE)
    return _with_which(desk, days[0])


def _with_which(desk: Desk, on: date) -> PlanReading | None:
    """ "Can we swap friday": with the sessions around it, or onto a free day."""
    if desk.open_on(on) is None:
        return None
    near = [
        one.date
        for one in desk.sessions
        if one.date >= desk.today and 0 < abs((one.date - on).days) <= 4 and desk.open_on(one.date)
    ]
    options: list[tuple[str, Deed]] = [(f"With {say(other)}", Swap(min(on, other), max(on, other))) for other in near[:3]]
    options += [(f"Move it to {say(free)}", Move(on, free)) for free in desk.free_after(on)]
    return ask("which_date", say(on), options) if options else None


def _move(desk: Desk, words: str, clause: Clause) -> PlanReading | None:
    """Two days, and a word that tells which is left."""
    days = _days(desk, words)
    marks = re.findall(r"D\d+ S\d+|[DS]\d+", words)
    if not days or len(days) != 2 or days[0] == days[1] or re.search(r"\b(?:from|between|and)\b", words):
        return None
    first, second = days
    between = words[words.index(marks[0]) + len(marks[0]) : words.index(marks[1])]
    if re.search(r"\b(?:instead of|rather than|not|in place of)\b", between):
        return sure(Move(second, first), certainty=LESS_SURE)
    named = marks[0][0] == "S" or " " in marks[0] or marks[0] in desk.session_marks
    tells = re.search(r"\b(?:to|till|til|until|on|onto|for)\s*$", between) or re.search(r"\binstead\b", words)
    if (tells and re.search(rf"\b{_MOVE}\b", words)) or (named and re.search(rf"\b{_MOVE}\b", between)):
        return sure(Move(first, second), certainty=LESS_SURE)
    return None


_KINDS = (
    _Kind(loose_spans.BACK, loose_spans.back, 2, 3),
    _Kind(_ALL, _shift, 1),
    _Kind(_SWAP, _swap),
    _Kind(_SKIP, _skip),
    _Kind(loose_spans.DONE, loose_spans.done, 1),
    _Kind(loose_spans.PAUSE, loose_spans.paused, 1, 3),
    _Kind(loose_spans.GONE, loose_spans.gone, 3, 5),
    _Kind(_CANNOT, _cannot, 1, 4),
    _Kind(_UNSURE, _perhaps_not, 2, 4),
    _Kind(r"[DS]\d+.*[DS]\d+", _move),
    _Kind(loose_spans.BLOCK, loose_spans.block, 1),
    _Kind(r"D\d+.*D\d+", loose_spans.rule, 2, 3),
    _Kind(r"D\d+ (?:to|till|til|until|thru|through|-) (?:next |the )*D\d+", loose_spans.away_perhaps, -1, 6),
)
