"""Stretches, rules and what was done, said in no shape that is known: the second half of the loose reading (see loose.py).

"D0 D1 D2 were off camping with the cousins"   -> Away
"hit the freeze button till D0"                 -> Pause
"N0 fixed ones for me, D1 D2 D3 D4"             -> Weekdays
"""

from __future__ import annotations

import re
from datetime import date

from bot.language.dates.absence import between, for_so_long, until, whole_period
from bot.language.dates.clauses import Clause
from bot.language.dates.desk import LESS_SURE, Desk, PlanReading, sure
from bot.language.dates.left_out import spans_of
from bot.language.dates.weeks import chosen, start_of_block
from bot.training.plan import Away, Backdate, Resume

GONE = (
    r"(?:away|off|out|gone|abroad|overseas|(?:on )?(?:a )?holidays?|vacation|trip|travell?ing|leave|hospital|unavailable|camping|skiing|hiking|sailing|cruise|honeymoon|festival|retreat|conference|"
    r"(?:no|without|not|zero) (?:any )?(?:training|sessions?|workouts?|lifting|gym|exercise)|nothing|not (?:here|around|home|available|in town)|(?:cant|wont|unable to|not able to|not gonna)(?: be able to)?(?: (?:train|lift|do (?:anything|it|any|much)|make (?:it|any)|manage|exercise|work out))|"
    r"on nights|night shifts?|quarantine|time off|bedridden|laid up|sick|ill|unwell|flu|covid|surgery|operation|recover(?:y|ing)|write off|written off|visiting|isolating|self isolating|isolation)"
)
PAUSE = r"(?:paus(?:e|ed|ing)|freez(?:e|ing)|frozen|hold|on ice|suspend|stop|halt|break|time ?out|breather)"
# "Put it back", "my back is tired", "start with B" are no return; "back in 30 min" is one to the set.
BACK = (
    r"(?:(?:im|were|am|finally|ive been|got|came|come|now|coming) (?:(?:finally|now|all|fully|much|nearly) )?(?:back(?! (?:in N|soon|later|at (?:the|my)|and|is|to back|off|up|down|out))|home|better|recovered|ready|fit|healthy)|"
    r"unfreeze|unpause|un pause|resum(?:e|ing)|restart(?:ing)?|(?:start|train|training|continue|go|going|carry on|kick (?:things|it) off|get going)(?: me)?(?: up)?(?: with training)? again|"
    r"(?:can|able to|ready to|lets|want to) (?:train|start training|resume|lift again)|back (?:on|from|by|to (?:it|training|normal))|start me|holidays? (?:is |are )?(?:over|cut short|cancelled))"
)
DONE = r"(?:did|done|trained|finished|completed?|managed|smashed|nailed|ticked|knocked out|banged out|squeezed in|sneaked in|got through|caught up)"
BLOCK = r"(?:block|cycle|phase|programme|plan)"
_TO = r"(?:to|till|til|until|thru|through|up to|and|-)"


def gone(desk: Desk, words: str, clause: Clause, *, pause: bool = False) -> PlanReading | None:
    """From when to when, wherever it stands in the clause."""
    kind = {"pause": "pause"} if pause else {}
    if _OTHERS.search(words) or (not pause and _MOVED.search(words)):
        return None  # "the kids are off this week"; "postpone D0 to D1, I have a fever"
    if found := re.search(rf"(?P<first>D\d+) (?P<joint>{_TO}) (?:the |next |following )*(?P<last>D\d+)", words):
        if len(re.findall(r"D\d+", words)) > 2 or (found["joint"] == "and" and not re.search(r"\bbetween\b", words)):
            return _each(desk, words)
        return between(desk, {**found.groupdict(), **kind}, clause)
    if found := re.search(
        r"\b(?:till|til|until|up to|before|back|returning|return|home)(?: (?:on|by|in|the|at least|about))* (?P<back>[DP]\d+)",
        words,
    ):
        first = re.search(r"\b(?:from|starting|as of|after)(?: on)? (?P<first>D\d+)", words)
        fields = {"back": found["back"], **kind, **({"first": first["first"]} if first else {})}
        return until(desk, fields, clause) if len(re.findall(r"[DP]\d", words)) == len(fields) - len(kind) else None
    if found := re.search(r"\b(?P<n>N\d+)", words):
        first = re.search(r"\b(?:from|starting|as of|after|beginning)(?: on)? (?:(?P<first>D\d+)|(?P<p>P\d+))", words)
        started = {key: said for key, said in first.groupdict().items() if said} if first else {}
        return (
            for_so_long(desk, {"n": found["n"], **started, **kind}, clause)
            if len(re.findall(r"[DP]\d", words)) == len(started)
            else None
        )
    if found := re.search(r"P\d+", words):
        return whole_period(desk, {"p": found[0]}, clause) if not re.search(r"D\d", words) else None
    return _each(desk, words)


_MOVED = re.compile(r"\b(?:move|moving|shift|postpone|push|reschedule|swap|switch|change|bring|put|instead|do|doing)\b")
_OTHERS = re.compile(
    r"\b(?:kids?|sons?|daughters?|wife|husband|boss|coach|mates?|friends?|school|gym|shops?|mum|mom|dad|partner|girlfriend|boyfriend)(?: (?:is|are|has|have|s|will|be|being|got|goes?))+ \w"
)


def _each(desk: Desk, words: str) -> PlanReading | None:
    marks = re.findall(r"D\d+", words)
    dates: list[date] = []
    for mark in marks:
        found = desk.dates(mark)
        if len(found) != 1 or found[0] < desk.today or desk.is_plural(mark):
            return None
        dates.append(found[0])
    return sure(*spans_of(dates), certainty=LESS_SURE) if len(dates) > 1 else None


def away_perhaps(desk: Desk, words: str, clause: Clause) -> PlanReading | None:
    """ "Taking the kids to the coast D0 to D1": with no word of being away it can only be asked about."""
    told = re.findall(r"[a-z]+ed\b", words)
    if (
        any(word not in ("planned", "booked", "needed", "closed", "supposed") for word in told)
        or len(re.findall(r"[DPST]\d", words)) != 2
    ):
        return None
    named = [desk.weekdays(mark) for mark in re.findall(r"D\d+", words)]
    reading = gone(desk, words, clause) if named != [[0], [4]] else None  # "from monday to friday" is said of every week
    return reading if reading is not None and reading.deeds and isinstance(reading.deeds[0], Away) else None


def paused(desk: Desk, words: str, clause: Clause) -> PlanReading | None:
    if not re.search(r"\b(?:training|plan|everything|sessions?|block|me|all|things|on hold|paus\w+|fr[eo]+z\w+|ice)\b", words):
        return None  # "stop", "hold" and "break" are also said of a set
    return gone(desk, words, clause, pause=True)


def back(desk: Desk, words: str, clause: Clause) -> PlanReading | None:
    """Of somebody who is away or pausing, nearly every word of coming back is one."""
    marks = re.findall(r"D\d+", words)
    dates = desk.dates(marks[0]) if marks else (desk.today,)
    if re.search(r"\bmy back\b|[NTSP]\d", words):
        return None
    if len(marks) > 1 or len(dates) != 1 or dates[0] < desk.today or not desk.plan.is_away(desk.today):
        return None
    return sure(Resume(dates[0]), certainty=LESS_SURE) if not re.search(r"\b(?:not|till|til|until|wont|cant)\b", words) else None


def done(desk: Desk, words: str, clause: Clause) -> PlanReading | None:
    """A session done on a day behind, whatever is said beside it."""
    if re.search(r"\b(?:can|could|will|ill|shall|want|let|lets|gonna|would|not|cant)\b", words) or clause.polite or clause.hedged:
        return None
    days = [mark for mark in re.findall(r"D\d+", words) if mark not in desk.session_marks]
    told = re.findall(r"S\d+", words)
    if len(days) != 1 or len(told) > 1:
        return None
    dates = desk.dates(days[0], past=True)
    if len(dates) != 1 or dates[0] >= desk.today:
        return None
    numbers = desk.numbers(told[0]) if told else ()
    named = told or re.search(r"\b(?:session|workout|it|trained|training|one)\b", words)
    return (
        sure(Backdate(dates[0], numbers[0] if numbers else None), certainty=LESS_SURE)
        if named and bool(numbers) == bool(told)
        else None
    )


def block(desk: Desk, words: str, clause: Clause) -> PlanReading | None:
    marks = re.findall(r"[DP]\d+", words)
    if len(marks) != 1 or not re.search(
        r"\b(?:start|starts|starting|begin|begins|beginning|kick|launch|go|new|next|first day|day one)\b", words
    ):
        return None
    return start_of_block(desk, {"on" if marks[0][0] == "D" else "period": marks[0]}, clause)


def rule(desk: Desk, words: str, clause: Clause) -> PlanReading | None:
    """Several weekdays beside a word that says they are for good."""
    since = re.search(r"\b(?:from|starting|as of|since|beginning)(?: on)? (D\d+|P\d+)", words)
    rest = words.replace(since[0], " ") if since else words
    if not re.search(
        r"\b(?:best|better|ideal|prefer|rota|shifts|days|weekdays|schedule|fixed|set|always|only|every|permanently|for good|from now on|works?|suits?|regular|usual|split|week)\b",
        rest,
    ):
        return None
    marks = re.findall(r"D\d+", rest)
    days = [desk.weekdays(mark) for mark in marks]
    if (
        len(marks) < 2
        or any(len(each) != 1 for each in days)
        or re.search(
            r"\b(?:not|except|but|instead|no|without|this week|and then|neither|nor|cant|wont|impossible|out|off)\b|P\d|D\d+ (?:to|till|until|through|-) ",
            rest,
        )
    ):
        return None
    return chosen(desk, tuple(dict.fromkeys(each[0] for each in days)), since[1] if since else None, certainty=LESS_SURE)
