"""What does a member wish about days, reminders or place? Deeds with concrete dates, one question, or nothing.

    "move tomorrow to saturday"                       -> Move(on=Thu 5, to=Sat 7)
    "got a wedding on saturday, can we do it sunday"  -> Move(on=Sat 7, to=Sun 8)
    "cant train thurs"                                -> a question: move it to the next free day, or leave it out
    "20x12", "sat on the bench"                       -> nothing: dates count only in a clause that has a wish's shape

Plan: tidy, mark the fields, cut into clauses; each clause is held against the shapes of its subjects, in the light of the dates that
were spoken of before it; clauses that say nothing about days are reasons and are passed over. What is in doubt becomes a question:
unclear dates ("5/12", "half six", "next friday"), a day that is taken, a rest day moved, a wish taken back in the same breath.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta

from bot.language.dates.absence import ABSENCES
from bot.language.dates.clauses import DOUBLE_BACK, Clause, bare, strong_parts, tidy, weak_parts
from bot.language.dates.desk import NOTHING, Desk, PlanOption, PlanQuestion, PlanReading, say, sure
from bot.language.dates.fields import REMINDING, Marked, mark
from bot.language.dates.later import read_put_off
from bot.language.dates.left_out import CANNOTS, DONES, SKIPS
from bot.language.dates.loose import read_loosely
from bot.language.dates.reminding import read_reminding
from bot.language.dates.sessions import MOVES, SHORT_MOVES, SWAPS
from bot.language.dates.weeks import CHANGES, RULES, STARTS, rhythm_in, zone_in
from bot.training.plan import (
    Away,
    Backdate,
    Deed,
    Move,
    Pause,
    Plan,
    PlannedSession,
    QuietHours,
    ReminderAt,
    Resume,
    Rolling,
    Shift,
    SilentDays,
    Skip,
    Swap,
    Weekdays,
    sessions_between,
)
from bot.training.plan_doubts import Way, doubt_about

_SETS = re.compile(
    r"\d\s*[x×*]\s*\d|\d\s*(?:kg|lbs?|reps?)\b|\brpe\b"
    r"|\b\d+(?:[.,]\d+)?s? for \d+\b(?!\s*(?:days?|nights?|weeks?|wks?|months?|hours?|hrs?|h|min\w*|am|pm|st|nd|rd|th)\b|[:/.]\d)",
    re.IGNORECASE,
)
# One word alone wishes nothing about days: "drop" and "miss" are said of sets, "ill" is also "I'll".
_TOO_SHORT = frozenset(
    {"drop", "miss", "skip", "weekdays", "weekends", "ill", "cancel", "break", "off", "hold", "freeze", "every", "daily", "busy", "back", "home", "out", "rest",
     "gone", "sick?", "away?", "better", "well", "everyday", "every day", "continue", "restart", "stop", "leave", "trip", "course", "tour", "wedding", "unavailable", "virus",
     "reminder", "reminders", "nothing", "next week", "this week", "no training", "not", "all", "cant", "i cant", "holiday", "rolling", "flexible", "camp", "go again", "travel"}
)  # fmt: skip
_LONGEST = 400
_LONGEST_CLAUSE = 24  # words; longer texts are read by their clauses alone
_MOST_MARKS = 12  # a text with more dates than that is a calendar, no wish
_MOST_DEEDS = 4
_ORDER = (DONES, SWAPS, STARTS, RULES, ABSENCES, MOVES, SKIPS, CANNOTS, SHORT_MOVES, CHANGES)


def read_plan_words(
    text: str,
    *,
    now: datetime,
    plan: Plan,
    rhythm: Sequence[bool] = (True, True, True, False, True, True, False),
    day_names: Mapping[int, str] | None = None,
    done: Mapping[date, int] | None = None,
    locale: str = "en",
) -> PlanReading:
    """Read a text as a wish about days.

    now: aware, in the member's zone. day_names: day number -> name, of the block. done: date -> day number of sessions begun.
    """
    if len(text) > _LONGEST or _SETS.search(text):
        return NOTHING
    words = tidy(text)
    if not words or words.rstrip("?!. ") in _TOO_SHORT:
        return NOTHING
    names = day_names or {}
    today = now.date()
    count = len(names) or sum(plan.rhythm or rhythm)
    first, last = today - timedelta(days=8), today + timedelta(days=35)
    sessions = sessions_between(plan, rhythm, count, first, last, done, today=today)
    desk = Desk(today, plan, names, tuple(rhythm), sessions, dict(done or {}), locale, now.replace(tzinfo=None))
    marked = mark(words, names)
    if len(marked.said) > _MOST_MARKS:
        return NOTHING
    desk.said, desk.session_marks = marked.said, marked.session_marks
    reading = (
        read_put_off(desk, words, bare(words))
        or _whole(desk, marked)
        or _by_clauses(desk, marked)
        or _loosely(desk, _flat(marked.words))
        or _beside_unknown_words(desk, marked)
    )
    return _settled(desk, reading) if reading else NOTHING


def _whole(desk: Desk, marked: Marked) -> PlanReading | None:
    """The text as one clause."""
    if len(marked.words.split()) > _LONGEST_CLAUSE:
        return None
    desk.whole = True
    reading = _clause(desk, marked, _flat(marked.words))
    desk.whole = False
    return reading


def _flat(words: str) -> str:
    """Without stops and commas."""
    return re.sub(r"\s+", " ", re.sub(r"[,;!]+ ?|\.(?= |$) ?", " ", words))


def _by_clauses(desk: Desk, marked: Marked) -> PlanReading | None:
    found: list[PlanReading] = []
    doubtful = False
    for strong in strong_parts(marked.words):
        reading = _clause(desk, marked, strong)
        parts = [strong] if reading else weak_parts(strong)
        before = len(found)
        for part in parts:
            reading = reading if len(parts) == 1 and reading else _clause(desk, marked, part) or _none_then(desk, part, found)
            if reading is not None:
                found.append(reading)
            else:
                doubtful = doubtful or DOUBLE_BACK.search(part) is not None
                desk.span = _span_in(desk, part) or desk.span
            _remember(desk, part, understood=reading is not None)
            reading = None
        if len(found) == before and (reading := _loosely(desk, strong)) is not None:
            found.append(reading)
    joined = _joined(found)
    return _confirmed(joined) if joined is not None and doubtful else joined


def _loosely(desk: Desk, words: str, *, asking: bool = False) -> PlanReading | None:
    clause = bare(words)
    if _QUESTION.match(words) or REMINDING.search(words):
        return None
    if re.match(r"(?:im )?not sure (?:if )?(?:i|we) (?:can|will|could|ll)\b", words):
        return read_loosely(desk, replace(clause, words=words), asking=asking)
    if clause.hedged or DOUBLE_BACK.search(words) or (clause.asks and not clause.polite and not _ASKS_FOR.search(words)):
        return None
    return read_loosely(desk, clause, asking=asking)


_QUESTION = re.compile(
    r"(?:so |and |but |coach |hi |hey )*(?:will|would|do|does|did|is|are|should|am i|was|has|have you|whats?|hows?|why|which|when|where|who)\b(?! (?:you|it be (?:ok|possible|alright)|it (?:ok|possible|alright)|D\d|S\d|it|both|my|the|this|that session))"
)
_ASKS_FOR = re.compile(r"\b(?:can|could|may|shall|ok|okay|possible|alright)\b")


def _beside_unknown_words(desk: Desk, marked: Marked) -> PlanReading | None:
    """ "Skip friday nans ninetieth": a wish, as it seems; so it is asked about."""
    for strong in strong_parts(marked.words):
        for part in dict.fromkeys((strong, *weak_parts(strong))):
            reading = _loosely(desk, part, asking=True)
            if reading is not None:
                return _confirmed(reading)
    return None


def _span_in(desk: Desk, words: str) -> tuple[date, date] | None:
    """ "My mum is here from friday to monday", "exams next week": a stretch that a later clause may speak of."""
    if found := re.search(r"(D\d+) (?:to|till|until|through|-) (D\d+)", words):
        firsts, lasts = desk.dates(found[1]), desk.dates(found[2])
        if len(firsts) == 1 and len(lasts) == 1:
            last = lasts[0] + timedelta(days=7) if lasts[0] < firsts[0] and desk.weekdays(found[2]) else lasts[0]
            return (firsts[0], last) if desk.today <= firsts[0] <= last else None
    if found := re.search(r"P\d+", words):
        periods = desk.period(found[0])
        return periods[0] if len(periods) == 1 else None
    return None


def _none_then(desk: Desk, words: str, found: list[PlanReading]) -> PlanReading | None:
    """ "No reminders after 10 pm and none on saturdays"."""
    clause = bare(words)
    none = re.match(
        r"(?:none|nothing|not|no|never)(?: at all| any| ever)?(?= (?:on|before|after|between|from|until|till|at)\b)", clause.words
    )
    if none is None or not found or not any(isinstance(deed, ReminderAt | QuietHours | SilentDays) for deed in found[-1].deeds):
        return None
    return read_reminding(desk, replace(clause, words="no reminders" + clause.words[none.end() :]))


def _remember(desk: Desk, words: str, *, understood: bool) -> None:
    marks = re.findall(r"(?:D\d+ )?S\d+|D\d+", words)
    dates = tuple(on for mark in marks for on in desk.what(mark)[:1])
    desk.just_said = () if understood else dates
    desk.mentioned += dates


def _clause(desk: Desk, marked: Marked, words: str) -> PlanReading | None:
    clause = bare(words)
    desk.next_week = False
    if (found := re.match(r"(P\d+) (?=.*D\d)", clause.words)) and desk.words(found[1]) in ("next week", "this week"):
        desk.next_week = desk.words(found[1]) == "next week"
        clause = replace(clause, words=clause.words[found.end() :])
        clause = replace(bare(clause.words), polite=clause.polite, asks=clause.asks, hedged=clause.hedged)
    if (found := re.fullmatch(r"(.*[DS]\d.*?),? (P\d+)", clause.words)) and desk.words(found[2]) == "this week":
        clause = replace(bare(found[1]), polite=clause.polite, asks=clause.asks, hedged=clause.hedged)
    reading = _read(desk, marked, clause, re.sub(r"\s+", " ", words.strip(" .,;!?")))
    desk.next_week = False
    return _confirmed(reading) if reading is not None and clause.hedged else reading


def _read(desk: Desk, marked: Marked, clause: Clause, whole: str) -> PlanReading | None:
    if not clause.words:
        return _among_shapes(desk, clause, (whole,)) if re.fullmatch(r"(?:im )?ill", whole) is None else None
    parts = strong_parts(marked.words) if desk.whole else []
    several = len(parts) > 1 and (
        re.search(r"[DSP]\d", clause.words) is not None or any(read_reminding(desk, bare(part)) for part in parts)
    )
    reminding = None if several else read_reminding(desk, clause)
    if reminding is not None:
        return reminding
    if (rolling := _rolling_in(desk, marked, clause.words)) is not None:
        return rolling
    if clause.asks and not clause.polite and desk.cannot is None and not desk.mentioned:
        return None
    read = _among_shapes(desk, clause, (clause.words, whole))
    if read is not None or (desk.whole and len(strong_parts(marked.words)) > 1):
        return read  # a place ends at its comma
    plain = marked.plain(clause.words)
    if _CLOCK.search(marked.words) and (found := re.fullmatch(r"(?:im |were |now )*in ([a-z .]{3,30})", plain)):
        plain = f"im now in {found[1]}"
    return zone_in(plain) or zone_in(marked.plain(whole))


# Beside these words "I'm in vienna" says by which clock somebody lives.
_CLOCK = re.compile(
    r"\b(?:clocks?|time ?zones?|local time|times? (?:are|is) (?:wrong|off)|wrong times?|hours? (?:early|late|off|ahead|behind))\b"
)


def _rolling_in(desk: Desk, marked: Marked, words: str) -> PlanReading | None:
    """ "3 on 1 off", "3 on 1 off from tomorrow"."""
    since = re.search(r",? (?:from|starting|as of|beginning)(?: on)? (D\d+)$", words)
    rhythm = rhythm_in(marked.plain(words[: since.start()] if since else words))
    starts = desk.dates(since[1]) if since else (desk.today,)
    if rhythm is None or len(starts) != 1:
        return None
    return sure(Rolling(starts[0], None if rhythm == desk.rhythm else rhythm))


def _among_shapes(desk: Desk, clause: Clause, tries: tuple[str, ...]) -> PlanReading | None:
    for group in _ORDER:
        for shape in group:
            for words in dict.fromkeys(tries):
                reading = shape.read(desk, words, clause)
                if reading is not None:
                    return reading
    return None


def _joined(found: list[PlanReading]) -> PlanReading | None:
    """Several clauses as one reading: a later clause may answer or close what an earlier one opened."""
    kept: list[PlanReading] = []
    for reading in found:
        if kept and _is_said_already(kept[-1], reading):
            continue
        if kept and _answers(kept[-1], reading):
            kept[-1] = _closed(kept[-1], reading)
        elif reading not in kept:
            kept.append(reading)
    if not kept:
        return None
    deeds = tuple(dict.fromkeys(deed for reading in kept for deed in reading.deeds))
    question = next((reading.question for reading in kept if reading.question), None)
    rules = [deed for deed in deeds if isinstance(deed, Weekdays | Rolling)]
    if len(deeds) > _MOST_DEEDS or len(rules) > 1:  # two rules at once: a person has to say which
        return None
    return PlanReading(deeds, question, min(reading.certainty for reading in kept))


def _is_said_already(earlier: PlanReading, later: PlanReading) -> bool:
    """ "Trip from thursday to saturday, so no training": the absence covers what the second clause would ask about."""
    if _is_same_swap(earlier, later):
        return True
    if later.question is None or later.question.code != "move_or_skip" or later.deeds:
        return False
    ons = [option.deed.on for option in later.question.options if isinstance(option.deed, Move | Skip)]
    if ons and set(ons) <= {deed.on for deed in earlier.deeds if isinstance(deed, Move | Skip)}:
        return True  # "Hips on thursday, dentist on friday": that is why
    spans = [deed for deed in earlier.deeds if isinstance(deed, Away | Pause)]
    return bool(ons) and all(any(span.first <= on and (span.last is None or on <= span.last) for span in spans) for on in ons)


def _is_same_swap(earlier: PlanReading, later: PlanReading) -> bool:
    """ "Change monday for friday next week, friday for monday": once is enough."""
    swaps = [deed for reading in (earlier, later) for deed in reading.deeds]
    if len(swaps) != 2 or not all(isinstance(deed, Swap) for deed in swaps):
        return False
    days = [{deed.first.weekday(), deed.second.weekday()} for deed in swaps if isinstance(deed, Swap)]
    return days[0] == days[1]


def _answers(earlier: PlanReading, later: PlanReading) -> bool:
    """Does a later clause settle an earlier one? "Can't do friday. Sunday then", "I'm ill, out until monday"."""
    if earlier.question is not None and earlier.question.code in ("move_or_skip", "missed", "how_long", "which_date"):
        ons = {option.deed.on for option in earlier.question.options if isinstance(option.deed, Move | Skip)}
        return not later.deeds or any(_about(deed, ons) for deed in later.deeds)
    spans = (Away, Pause)
    first = earlier.deeds[0] if len(earlier.deeds) == 1 else None
    second = later.deeds[0] if len(later.deeds) == 1 else None
    if isinstance(first, spans) and isinstance(second, spans):
        return (
            first.last is None
            or first.first == second.first
            or (first.last is not None and first.first <= second.first <= first.last)
        )
    if isinstance(first, Away) and isinstance(second, Resume) and earlier.deeds != later.deeds:
        return first.last is not None and second.on <= first.last
    if isinstance(first, Away) and isinstance(second, Move):
        return first.first == first.last == second.on
    if isinstance(first, Resume) and isinstance(second, Resume):
        return True  # "I'm better, back to it tomorrow"
    return isinstance(first, Move) and isinstance(second, Move) and first.on == second.on


def _about(deed: Deed, ons: set[date]) -> bool:
    if isinstance(deed, Move | Skip):
        return deed.on in ons
    return isinstance(deed, Away | Pause | Shift)


def _closed(earlier: PlanReading, later: PlanReading) -> PlanReading:
    first = earlier.deeds[0] if earlier.deeds else None
    second = later.deeds[0] if later.deeds else None
    if (
        isinstance(first, Away | Pause)
        and isinstance(second, Away | Pause)
        and second.last is not None
        and second.last >= first.first
    ):
        return sure(replace(second, first=first.first), certainty=max(earlier.certainty, later.certainty))
    if isinstance(first, Away) and isinstance(second, Resume) and first.last is not None:
        return sure(Resume(first.last + timedelta(days=1)))  # "back monday, please resume"
    return later


def _confirmed(reading: PlanReading) -> PlanReading:
    """A wish said with a maybe, an if, or taken back in the same breath is asked about."""
    if not reading.deeds or reading.question is not None:
        return reading
    deed = reading.deeds[0]
    return PlanReading((), PlanQuestion("confirm", "", (PlanOption(_label(deed), deed),)), reading.certainty)


def _label(deed: Deed) -> str:
    match deed:
        case Move(on, to):
            return f"Move {say(on)} to {say(to)}"
        case Skip(on):
            return f"Leave out {say(on)}"
        case Away(first, last) | Pause(first, last):
            return f"No training {say(first)} to {say(last)}" if last else f"No training from {say(first)}"
    return "Yes, change it"


def _settled(desk: Desk, reading: PlanReading) -> PlanReading:
    """Moves that land on a taken day, or take a rest day for a session, are asked about."""
    for place, deed in enumerate(reading.deeds):
        if not isinstance(deed, Move):
            continue
        if deed.to < desk.today:
            return _done_already(desk, deed)
        if any(isinstance(before, Move) and before.on == deed.to for before in reading.deeds[:place]):
            continue  # the one before made room
        question = question_about(deed, sessions=desk.sessions, plan=desk.plan, done=desk.done)
        if question is not None:
            return PlanReading(reading.deeds[:place], question, reading.certainty)
    return reading


def question_about(
    move: Move, *, sessions: Sequence[PlannedSession], plan: Plan, done: Mapping[date, int]
) -> PlanQuestion | None:
    """The question that a move raises, if any: its place is taken, or nothing stands on the day that is moved."""
    asked = doubt_about(move, sessions, plan=plan, done=tuple(done))
    if asked is None:
        return None
    options = tuple(PlanOption(_way(way, deed, move), deed) for way, deed in asked.ways)
    return PlanQuestion(asked.doubt.value, say(asked.on), options)


def _way(way: Way, deed: Deed, move: Move) -> str:
    match way, deed:
        case Way.SLIDE, Move(other_to=date() as free):
            return f"Its own session goes to {say(free)}"
        case Way.SWAP, _:
            return "The two change places"
        case Way.BOTH, _:
            return f"Both on {say(move.to)}"
        case Way.OTHER_SESSION, Move(on, to):
            return f"{say(on)} to {say(to)}"
    return "Everything from there on later"


def _done_already(desk: Desk, move: Move) -> PlanReading:
    """Moved to a day behind: was it done then?"""
    session = desk.open_on(move.on)
    if session is None:
        return NOTHING
    return PlanReading(
        (), PlanQuestion("confirm", "", (PlanOption(f"Done on {say(move.to)}", Backdate(move.to, session.day_number)),)), 0.9
    )
