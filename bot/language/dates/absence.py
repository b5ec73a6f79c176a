"""Wishes about whole stretches of days: away, ill, pausing, nothing until then, and back again."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date, timedelta

from bot.language.dates.clauses import Clause
from bot.language.dates.desk import LESS_SURE, Desk, PlanReading, ask, say, sure
from bot.language.dates.left_out import OUT, spans_of, without
from bot.language.dates.moments import DAY, feast_span, weekday_of
from bot.language.dates.shapes import shapes
from bot.language.places import find_places
from bot.training.plan import Away, Deed, Pause, Resume, ZoneMove

Fields = Mapping[str, str]
OPEN = 0.7  # an absence without an end is asked to be told when it is over

_TO = r"(?:to|till|til|until|through|thru|and|up to|up until|-|upto|up till)"
_NEXT = r"(?:(?:and including|the) )?(?:next |following )?"
_AWAY = (
    r"(?:(?:im|ill|i|be|well|were|am|going|heading|ive|got|have|having|stuck|a|will|gonna|we|my|family|the|flying|go|goes|planned|booked|annual|possibly|on|at|for|its|theres) )*"
    r"(?:away|travel?ling|travel|(?:[a-z]+ ){0,2}(?:holidays?|vacation|trip|leave)|holidays?|vacation|out of (?:town|the country|office|action|the house)|out|off|gone|on the road|abroad|overseas|unavailable|not (?:available|around|here|in town|at home|home)|"
    r"(?:[a-z]+ )?trip|tour|cruise|honeymoon|conference|course|retreat|hike|camping|skiing|hiking|sailing|ski trip|camp|visiting [a-z ]+|staying with [a-z ]+|in hospital|busy|ooo|working away|recovering(?: from [a-z ]+?)?|(?:ski|family|work|field|study) week|"
    r"on leave|leave|maternity leave|night shifts?|on call|moving house|on site|offshore|on nights)(?: (?:with|for|at|in|to) [a-z ]+?)?"
)
_NONE = (
    r"(?:(?:there will be |i want |have |theres |so |doing |its )*(?:no training|not training|no sessions?|no workouts?|nothing|no exercise|no gym|no lifting|none)|"
    r"(?:i |we )?(?:cant|wont|unable to|not able to|wont be able to|couldnt|not gonna|not gonna be able to|be unable to|not be able to|no way i can)(?: be)?(?: train| training| do anything| do it| make it| lift| exercise| do any training| make any sessions| do sessions| do the sessions| do much)*|"
    r"(?:skip|cancel|drop|leave out|miss|skipping|missing|clear|blank|free|no more|done)(?: all| everything| all sessions| training)?|out|unavailable|not available|rest|resting|holiday|have to rest|off training|off|(?:wont be|not|not gonna be|im not|ill not be) (?:at )?(?:home|around|here|in|there|back|free|available))"
    r"(?: for me| at all| again| planned| from me| of training| training| sessions?| possible| whatsoever)*"
)
_TAKE = r"(?:(?:i |we |ill |im |need |needing |take |taking |want |have |having |get |getting |go on |to |could use |got |be |do with )+)"
_REST = r"(?:off|break|out|rest|pause|away|time off|off training|off from training|of rest|without training|holiday)"
_ILL = r"(?:sick|ill|unwell|flu|covid|corona|fever|stomach bug|tummy bug|food poisoning|norovirus|chest infection|infection|not well|tonsillitis|bronchitis|in bed(?: sick)?|bedridden|poorly|a virus|virus)"
_MILD = r"(?:(?:a )?cold|throwing up|vomiting|nauseous|(?<=feel )sick|(?<=feeling )sick|(?<=feel )ill|(?<=feeling )ill|under the weather|(?:a )?bug|sniffles|man flu|hungover|a bit rough|rough|run down)"
_LEAD = r"(?:(?:im|ive|i|feeling|feel|been|got|have|having|down with|caught|come down with|came down with|coming down with|a|the|bit|really|very|pretty|am|still|home|sadly|tested positive for|struck by|proper|quite|fighting|battling|my|was|off|with|another) )*"


def between(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """From one date to another, both without training."""
    if re.search(r"^(?:was|been|had)\b", clause.words):
        return None
    firsts = desk.dates(fields["first"])
    said = desk.words(fields["last"])
    if not firsts:
        return None
    ends = list(_after(desk, said, firsts[0]))
    if (
        fields.get("joint") == "and"
        and "between" not in clause.words
        and len(firsts) == 1
        and len(ends) == 1
        and (ends[0] - firsts[0]).days != 1
    ):
        return sure(*spans_of([firsts[0], ends[0]]))  # "away friday and sunday" leaves saturday alone
    if not ends:
        return None
    begun = _begun(desk, fields["first"], firsts, ends[0])
    if begun is not None:
        return begun
    if len(firsts) == 1 and len(ends) == 1:
        return sure(Away(firsts[0], ends[0])) if ends[0] >= firsts[0] else None
    spans = [(a, b) for a in firsts for b in ends if b >= a]
    return ask("which_date", said, [(f"{say(a)} to {say(b)}", Away(a, b)) for a, b in spans[:4]]) if spans else None


def _begun(desk: Desk, mark: str, firsts: tuple[date, ...], last: date) -> PlanReading | None:
    """ "From the 3rd to the 10th", said on the 4th: the span has begun; a reading a month ahead would be the wrong one."""
    before = desk.dates(mark, past=True)
    if not before or len(firsts) != 1 or firsts[0] <= last or not (desk.today - before[0]).days <= 14:
        return None
    return sure(Away(desk.today, last), certainty=LESS_SURE) if last >= desk.today else None


def _after(desk: Desk, field: str, start: date) -> tuple[date, ...]:
    """The end of a span that begins at `start`: "next wed" after friday is the first Wednesday behind it."""
    weekday = re.fullmatch(
        rf"(?:next |the next |following |the following )?({DAY})(?: (?:morning|evening|night|afternoon))?", field
    )
    number = weekday_of(weekday[1]) if weekday else None
    if number is not None:
        return (start + timedelta(days=(number - start.weekday()) % 7 or 7),)
    ends = desk.dates(field)
    if ends and all(end < start for end in ends) and re.search(r"\d", field):
        moved = [end for end in (_month_later(end) for end in ends) if end >= start]
        return tuple(moved[:1]) or ends
    return ends


def _month_later(on: date) -> date:
    return on + timedelta(days=28) if on.month == 2 else (on.replace(day=1) + timedelta(days=32)).replace(day=min(on.day, 28))


def whole_period(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    if "feast" in fields:
        span = feast_span(desk.words(fields["feast"]), today=desk.today)
        return sure(Away(*span)) if span else None
    spans = desk.period(fields["p"])
    if len(spans) > 1:
        return ask("which_date", desk.words(fields["p"]), [(f"{say(a)} to {say(b)}", Away(a, b)) for a, b in spans])
    return sure(Away(*spans[0]))


def for_so_long(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """For so many days, from today or a date on."""
    firsts = desk.dates(fields["first"]) if "first" in fields else _from_period(desk, fields)
    days = desk.days_of(fields["n"])
    spoken = [on for on in desk.mentioned if on > desk.today]
    if days and spoken and not {"first", "p"} & fields.keys():
        # "Op on the 18th, no training for three weeks": from now on, or from then?
        starts = (spoken[-1], desk.today)
        spans: list[tuple[str, Deed]] = [
            (f"From {say(on)} to {say(on + timedelta(days=days - 1))}", Away(on, on + timedelta(days=days - 1))) for on in starts
        ]
        return ask("which_date", desk.words(fields["n"]), spans)
    if len(firsts) != 1 or not days:
        return None
    if days == 1 and "first" not in fields:
        return without(desk, desk.today)
    kind = Pause if "pause" in fields else Away
    last = firsts[0] + timedelta(days=days - 1)
    if "month" in desk.words(fields["n"]):
        last = _months_on(firsts[0], days // 28) - timedelta(days=1)
    return sure(kind(firsts[0], last))


def _months_on(on: date, count: int) -> date:
    month = on.month - 1 + count
    year, month = on.year + month // 12, month % 12 + 1
    for day in range(on.day, 27, -1):
        try:
            return date(year, month, day)
        except ValueError:
            continue
    return date(year, month, min(on.day, 28))


def _from_period(desk: Desk, fields: Fields) -> tuple[date, ...]:
    return (desk.period(fields["p"])[0][0],) if "p" in fields else (desk.today,)


def until(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "No training till monday": none until the day before; "till the end of the month" takes that in."""
    said = desk.words(fields["back"])
    kind = Pause if "pause" in fields else Away
    first = desk.dates(fields["first"])[0] if fields.get("first") and desk.dates(fields["first"]) else desk.today
    if fields["back"][0] == "P":
        begin, _ = desk.period(fields["back"])[-1]
        return sure(kind(first, begin - timedelta(days=1))) if begin > first else None
    backs = [
        on
        if "end of" in said or "including" in clause.words or ("back" in clause.words and _late(desk, fields["back"]))
        else on - timedelta(days=1)
        for on in desk.dates(fields["back"])
    ]
    options: list[tuple[str, Deed]] = [(f"Back {say(on + timedelta(days=1))}", kind(first, on)) for on in backs if on >= first]
    if len(options) == 1:
        return sure(options[0][1])
    return ask("which_date", said, options) if options else None


# Sayings, not journeys.
_SAYING = re.compile(
    r"\b(?:fairies|with it|of it|(?:good|great|bad|slow|rough|flying|cracking|shaky|strong|poor|better|dodgy) (?:start|day|week|one|note|session|foot)|a start|on (?:one|fire)|the (?:charts|rails|boil|ball|mark)|the back of|balance|form|pace|tempo|count)\b"
)
# The first day of a journey, whose end is not told.
_SETS_OFF = re.compile(
    r"\b(?:going away|go away|going (?:on|to|abroad|overseas|travell?ing)|leav(?:e|ing)|off (?:to|on)|heading (?:off|out|away|to))\b"
)
# One day of these may well be made up for on another.
_ENGAGED = re.compile(r"\b(?:shifts?|call|conference|course|house|busy|hospital|site|wedding|trip|visiting|staying)\b")


def _one(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """Away on one date; "from friday" is open."""
    dates = desk.dates(fields["on"])
    if not dates or _SAYING.search(clause.words):
        return None
    if len(dates) == 1 and not fields.get("from") and _ENGAGED.search(clause.words):
        desk.cannot = dates[0]
        return without(desk, dates[0]) if dates[0] >= desk.today else None
    last = None if fields.get("from") else dates[0]
    if len(dates) == 1 and not fields.get("from") and dates[0] > desk.today and _SETS_OFF.search(clause.words):
        only: list[tuple[str, Deed]] = [
            (f"Only {say(dates[0])}", Away(dates[0], dates[0])),
            (f"From {say(dates[0])} on", Away(dates[0])),
        ]
        return ask("away_how_long", say(dates[0]), only)
    if len(dates) > 1:
        return ask(
            "which_date", desk.words(fields["on"]), [(say(on), Away(on, None if fields.get("from") else on)) for on in dates]
        )
    return sure(Away(dates[0], last), certainty=0.9 if last else OPEN)


def _pause_from(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Put me on pause from friday": open, until told otherwise."""
    dates = desk.dates(fields["on"])
    if not dates:
        return None
    if len(dates) > 1:
        return ask("which_date", desk.words(fields["on"]), [(say(on), Pause(on)) for on in dates])
    return sure(Pause(dates[0]), certainty=OPEN)


def _maybe(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Next week I'm swamped" is said of training, too, or only sighed."""
    span = desk.period(fields["p"])[0]
    return ask("confirm", "", [(f"No training {say(span[0])} to {say(span[1])}", Away(*span))])


def _list(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    marks = re.findall(r"D\d+", fields["list"])
    dates = [on for mark in marks for on in desk.dates(mark)[:1]]
    return sure(*spans_of(dates)) if len(dates) >= 2 and not any(map(desk.is_plural, marks)) else None


def _open(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """Away or pausing without an end, unless the clauses before spoke of a stretch or a day."""
    if "pause" in fields:
        # "Called to the door, pausing" is said of the session that runs.
        is_plain = re.fullmatch(r"(?:pause|pausing|hold|on hold|suspend)", clause.words) is not None
        return sure(Pause(desk.today)) if desk.whole or not is_plain else None
    if desk.span is not None:
        return sure(Away(*desk.span), certainty=LESS_SURE)
    coming = [on for on in desk.mentioned if on > desk.today]
    return sure(Away(coming[-1], coming[-1]), certainty=LESS_SURE) if coming else sure(Away(desk.today), certainty=OPEN)


def _some_time(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "I need a break": said between two sets, or of weeks? Only its length tells."""
    today = desk.today
    spans: list[tuple[str, Deed]] = [
        ("A week", Pause(today, today + timedelta(days=6))),
        ("Two weeks", Pause(today, today + timedelta(days=13))),
        ("Until I say so", Pause(today)),
    ]
    return ask("pause_how_long", "", spans) if not clause.asks or clause.polite else None


def _mild(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """A cold, or feeling sick, keeps some at home and others not; nothing is decided for them."""
    options: list[tuple[str, Deed]] = [("I rest until I say so", Away(desk.today))]
    held = desk.open_on(desk.today)
    if held is not None:
        options.insert(0, ("Only today is left out", Away(desk.today, desk.today)))
    return ask("how_long", "ill", options)


def _leaving(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Flying on friday, back on tuesday"."""
    firsts = desk.dates(fields["first"]) if "first" in fields else (desk.today,)
    if len(firsts) != 1:
        return None
    backs = _after(desk, desk.words(fields["back"]), firsts[0])
    if len(backs) != 1 or backs[0] <= firsts[0]:
        return None
    return sure(Away(firsts[0], backs[0] if _late(desk, fields["back"]) else backs[0] - timedelta(days=1)))


def _late(desk: Desk, mark: str) -> bool:
    """ "Back sunday night": there is no training on that sunday."""
    return re.search(r"\b(?:evening|night|nite|late)$", desk.words(mark)) is not None


def _elsewhere(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "In spain from the 13th to the 20th": with both dates said it is a stay without training; one tap takes it back."""
    if _NO_STAY.search(fields["place"]) or len(fields["place"]) < 3:
        return None
    return between(desk, fields, clause)


_NO_STAY = re.compile(
    r"\b(?:gym|bed|pain|office|garden|it|work|agony|zone|on|that|this|them)\b|^(?:the |a )?(?:middle|end|way)\b"
)


def _journey(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Going to crete next week", "flying to dubai for three weeks": away, or training there?"""
    place = re.sub(r"^(?:see |visit )", "", fields["place"].strip(" ."))
    if _NO_STAY.search(place) or _NO_JOURNEY.search(place):
        return None
    read = for_so_long(desk, fields, clause) if "n" in fields else whole_period(desk, fields, clause)
    stay = read.deeds[0] if read is not None and len(read.deeds) == 1 else None
    if not isinstance(stay, Away) or stay.last is None:
        return None
    options: list[tuple[str, Deed]] = [(f"No training {say(stay.first)} to {say(stay.last)}", stay)]
    if find_places(place):
        return ask("away_or_there", place.title(), [*options, (f"I train there, by {place.title()}’s clock", ZoneMove(place))])
    return ask("confirm", "", options) if _FOLKS.search(place) else None


_NO_JOURNEY = re.compile(
    r"\b(?:the )?(?:gym|physio|shops?|doctors?|dentist|work|bed|sleep|school|church|class|pool|park|a|do|try|be|take|need|start|train|add|use|go|get|make|move|skip)\b"
)
_FOLKS = re.compile(
    r"\b(?:mums?|moms?|dads?|parents|sisters?|brothers?|nans?|grans?|grandmas?|aunts?|uncles?|cousins?|inlaws|in laws|family|friends?|cottage|cabin|coast|beach|lake|mountains|countryside|hotel|camp(?:site)?|festival|island|seaside|village|folks)\b"
)


def _stay(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "In perth till the 5th": away from training, or training there by its clock? Only the person knows."""
    place = fields["place"].strip(" .")
    stay_until = until(desk, fields, clause) if not _NO_STAY.search(place) and len(place) >= 3 else None
    if stay_until is None:
        return None
    stays = [option.deed for option in stay_until.question.options] if stay_until.question else list(stay_until.deeds)
    options: list[tuple[str, Deed]] = [
        (f"No training until {say(stay.last)}", stay) for stay in stays if isinstance(stay, Away) and stay.last is not None
    ]
    if find_places(place):
        options.append((f"I train there, by {place.title()}’s clock", ZoneMove(place)))
        return ask("away_or_there", place.title(), options)
    return ask("confirm", "", options)


_STAY = re.compile(
    r"\bfrom (?:my |the |our |a )?(?:[a-z]+ )?(?:holidays?|vacation|trip|travels?|travelling|leave|break|honeymoon|injury|illness|being (?:ill|sick|away)|abroad)\b"
)


def _is_talk(desk: Desk, fields: Fields, clause: Clause) -> bool:
    """ "Back now" between two sets, "feeling better" of somebody who trains: no return from anywhere."""
    if desk.plan.is_away(desk.today):
        return False
    if "soft" in fields:
        return True
    if re.search(r"\b(?:first|second|third|last) (?:time|day|session|week|one|workout)\b", clause.words):
        return True
    if "back" in fields or "p" in fields:
        return False
    away_from = " from " in f" {clause.words} "
    if away_from and not _STAY.search(clause.words):
        return True
    return not desk.whole and re.fullmatch(r"(?:im |ok |now |here )*back(?: now| again| here)*", clause.words) is not None


def back_again(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    backs = desk.dates(fields["back"]) if "back" in fields else (desk.today,)
    if "p" in fields:
        backs = (desk.period(fields["p"])[0][0],)
    if _is_talk(desk, fields, clause):
        return None
    if len(backs) > 1:
        return ask("which_date", desk.words(fields.get("back", "")), [(say(on), Resume(on)) for on in backs])
    if not backs or backs[0] < desk.today:
        return None
    away = desk.plan.is_away(desk.today) or desk.plan.is_away(backs[0])
    if away or backs[0] == desk.today:
        return sure(Resume(backs[0]))
    absent = Away(desk.today, backs[0] - timedelta(days=1))
    if _STAY.search(clause.words):  # nothing was said of that journey before: is today part of it?
        return ask("confirm", "", [(f"No training until {say(backs[0] - timedelta(days=1))}", absent)])
    return sure(absent)


_BACKWARD = r"(?:back|return|returning|home|coming back|coming home|be back|come back|ill be back|im back|im home|returns?)(?: home)?(?: again)?"
_TAILS_OF = rf"(?: (?:from|between|on|starting|this|for))? <D first> (?P<joint>{_TO}) {_NEXT}<D last>(?: (?:inclusive|included))?"
_PAUSE = r"(?P<pause>(?:hit |press )?(?:the )?pause(?: button)?|take me off(?: the plan)?|take a break|taking a break|having a break|have a break|put me on (?:pause|hold)|pausing|freeze|put (?:it|everything|me|my plan|my training|training|the plan) on hold|on hold|hold|suspend|stop|interrupt)(?: (?:everything|the plan|my plan|training|my training|it|all|all training|my sessions|the sessions|the block|my block|the training|from training|me|off|things))*"

ABSENCES = (
    *shapes(
        _leaving,
        rf"(?:[a-z]+ )*?(?:fly(?:ing)?|leav(?:e|ing)|travel(?:l?ing)?|go(?:ing)?|set(?:ting)? off|depart(?:ing)?|head(?:ing)?|driv(?:e|ing)|away|off|out|gone|holiday|trip|abroad)(?: [a-z]+)*? ?<D first>(?:,| and| then| but|;|\.)* (?:[a-z]+ )*?{_BACKWARD}(?: (?:on|by|from))? <D back>",
    ),
    *shapes(
        between,
        rf"{_AWAY}{_TAILS_OF}",
        rf"{_NONE}{_TAILS_OF}",
        rf"{_LEAD}(?:{_ILL}|{_MILD}){_TAILS_OF}",
        rf"{_PAUSE}{_TAILS_OF}",
        rf"<D first> (?P<joint>to|till|until|through|thru|-) {_NEXT}<D last> (?:im |ill be |i am )?(?:[a-z]+ ){{0,2}}(?:trip|away|off|out|holiday|on holiday|no training|unavailable|gone|travelling|vacation|abroad|not available|cant train|i cant train)",
        rf"(?:from )?<D first> (?P<joint>to|till|until|through|thru|-) {_NEXT}<D last> (?:im |ill be |were |well be |i am |i go |going )(?:in|at|to) [a-z .]{{3,30}}",
        rf"{_TAKE}<D first> (?P<joint>{_TO}) {_NEXT}<D last> (?:off|out)",
    ),
    *shapes(
        until,
        rf"(?:{_AWAY}|{_NONE}|{_LEAD}(?:{_ILL}|{_MILD})|{_TAKE}{_REST})(?: from <D first>)? (?:till|til|until|up to|before|not before|up until|thru|through)(?: after)? <D back>(?: at least| earliest| at the earliest)?",
        rf"(?:{_AWAY}|{_NONE}|{_LEAD}(?:{_ILL}|{_MILD})|{_TAKE}{_REST}) (?:till|til|until|up to|before|up until) <P back>",
        rf"{_PAUSE} (?:till|til|until|up to|up until)(?: after)? <D back>",
        rf"{_PAUSE} (?:till|til|until|up to|up until) <P back>",
        r"(?:nothing|no training|not) before <D back>",
    ),
    *shapes(_pause_from, rf"{_PAUSE} (?:from|starting|as of)(?: on)? <D on>(?: on(?:wards)?)?"),
    *shapes(
        for_so_long,
        rf"(?:{_AWAY}|{_LEAD}(?:{_ILL}|{_MILD})|{_NONE}) (?:for )?(?:the )?(?:next )?<N n>(?: (?:from|starting|beginning|as of)(?: on)? <D first>)?",
        rf"(?P<pause>{_TAKE})(?:the )?(?:next |last )?<N n> {_REST}(?: (?:from|starting|beginning|as of|on)(?: on)? (?:<D first>|<P p>))?",
        rf"(?P<pause>{_TAKE})(?:a )?{_REST} (?:for|of) (?:the )?(?:next )?<N n>(?: (?:from|starting|beginning)(?: on)? <D first>)?",
        rf"(?P<pause><N n>) {_REST}(?: (?:from|starting|beginning|on)(?: on)? (?:<D first>|<P p>))?",
        rf"{_PAUSE}(?: for| of)?(?: the next)? <N n>(?: (?:from|starting|beginning)(?: on)? <D first>)?",
        rf"{_PAUSE}(?: from| starting)(?: on)? <D first> for <N n>",
        rf"{_AWAY}(?: (?:on|from|this))? <D first> for (?:the )?<N n>",
        rf"from <D first> (?:on )?(?:im |ill be )?{_AWAY} for <N n>",
    ),
    *shapes(
        whole_period,
        rf"(?:{_AWAY}|{_NONE})(?: (?:for|on|over|in|during))? <P p>",
        rf"(?:{_AWAY}|{_NONE})(?: (?:for|over|at|during|on)) (?:the )?<D feast>(?: holidays?| break| weekend)?",
        rf"{_TAKE}<P p> (?:off|out|as rest|as a rest week|away|free)",
        rf"{_PAUSE}(?: for)? <P p>",
        r"<P p> (?:im |ill be |i am |were |well be )(?:in|at|on|up|down|over|visiting|staying)\b[a-z ]*",
        r"(?:i )?(?:cant|wont|not able to|wont be able to|unable to|no time to|not gonna) (?:train|do anything|make it|do any training|lift|exercise|work)(?: at all)?(?: for| on| in)? <P p>",
        rf"<P p> (?:is |are |looks |will be |a )*{OUT}(?: for me)?",
        r"<P p> (?:off|is off|out|im (?:away|off|out|on holiday)|no training|i cant train|i cant|is impossible|is out|wont work|doesnt work|is a write off|is no good)(?: for me)?",
        rf"{_LEAD}(?:{_ILL}|{_MILD})(?: (?:for|all))? <P p>",
    ),
    *shapes(
        _maybe,
        r"<P p> (?:im |i am |is |ill be |looks |its )*(?:swamped|busy|packed|crazy|hectic|mad|slammed|full|chaos|a nightmare|not good|tricky)(?: for me)?",
    ),
    *shapes(
        _list,
        rf"{_NONE}(?: on)? (?P<list>D\d+(?:(?: and| or| plus| nor|,|) D\d+)+)",
        rf"{_AWAY}(?: on)? (?P<list>D\d+(?:(?: and| or| plus|,|) D\d+)+)",
        rf"{_TAKE}(?P<list>D\d+(?:(?: and| or| plus|,|) D\d+)+) off",
    ),
    *shapes(
        _one,
        rf"{_AWAY} (?P<from>from|starting|as of|after) <D on>(?: on(?:wards)?)?",
        rf"{_AWAY}(?: (?:on|for|all))? <D on>",
        rf"{_LEAD}{_ILL} <D on>",
        r"(?:im |ill be |i am )?(?:at|on|in) (?:a |my |the )?[a-z ]{3,30}? all day <D on>",
    ),
    *shapes(
        _elsewhere,
        rf"(?:business|work|course|conference|im|ill be|well be|were|going|off|be|i go|flying|i|am|go|heading|we go)*(?: ?(?:in|to|at|going|off|flying))+ (?P<place>[a-z .]{{3,30}}?) (?:from |between )?<D first> {_TO} {_NEXT}<D last>",
    ),
    *shapes(
        _journey,
        r"(?:(?:im|ill|be|i|am|well|were|we|gonna|the|family) )*(?:going|go|off|flying|fly|heading|head|travelling|traveling|driving|drive|travel|popping|away|over|up|down|back)(?: (?:off|up|down|over|out|away|back))? (?:to|in|at) (?P<place>[a-z .]{3,30}?) (?:(?:for |on |all )?(?P<p>P\d+)|for (?:the )?(?:next )?(?P<n>N\d+)(?: (?:from|on|starting) <D first>)?)",
        r"(?:(?:im|ill|be|i|am|well|were|we|gonna) )*in (?P<place>[a-z .]{3,30}?) (?:for |on |all )?(?P<p>P\d+)",
        r"in (?P<place>[a-z .]{3,30}?) for (?:the next )?(?P<n>N\d+)",
    ),
    *shapes(
        _stay,
        r"(?:(?:im|ill|be|i|am|well|were|staying|stay|visiting|stuck|working|over|down|up|currently|now|back|home|based|with|the|family|kids) )*(?:in|at|near) (?P<place>[a-z .]{3,30}?)(?: from <D first>)? (?:till|til|until|up to)(?: (?:at least|about))? (?P<back>[DP]\d+)",
    ),
    *shapes(
        back_again,
        r"(?:(?:im|ill be|well be|be|now|finally|am|home|i|were|got|will be|weve been|ive been) )*back(?: now| again| home| here| to training| at it| in action| on track| training| to it| in town| with you| in the game| to normal| in business| to work| on my feet| in| on| from [a-z ]+?)*(?: (?:on|from|by|as of|starting|after))*(?: (?:<D back>|<P p>))?(?: and (?:ready|keen|raring|able|fit|healthy|i can|want)[a-z ]*)?",
        r"(?:pick up where i left off|carry on|resume|resuming|unpause me|unpause|un pause|unfreeze|restart|continue|lets continue)(?: with)?(?: training| my training| the plan| my plan| everything)?(?: (?:on|from))*(?: <D back>)?",
        r"(?:go|start|start me|begin|train|continue|training|starting|lift|up and running|going)(?: training)? again(?: (?:on|from|as of))*(?: <D back>)?",
        r"(?P<soft>returning|home|return)(?: home)?(?: on| by| from)* <D back>",
        r"(?:im )?(?:healthy|ready|fit) again(?: (?:on|from|to train|to go))*(?: <D back>)?",
        r"(?P<soft>(?:im |i |am |ive |feel |feeling |much |all |now |fully |finally |a lot )*(?:better|recovered|well again|well|over (?:it|my cold|the flu|the cold|my flu|covid)|good to go|ready to (?:go|train|start)|healthy|fine again)(?: again| now)*)",
        r"(?:can |ready to |able to )*(?:train|start|start training|do the plan|go) again(?: (?:on|from))*(?: <D back>)?",
        r"(?:i )?(?:can|able to|could|ready to|will|gonna|happy to) (?:train|start|start training|do the plan|go|lift|exercise)(?: again)? (?:from|as of|starting)(?: on)? <D back>(?: on| onwards?)?",
    ),
    *shapes(_open, r"(?:im |ill be |i am )?(?:off|out|away|gone|unavailable) (?:(?:until|till|til) further notice|indefinitely)"),
    *shapes(_mild, rf"(?:im |ive |i have |i |have |got |caught |feeling |feel |a |bit |the )+{_MILD}(?: D\d+)?"),
    *shapes(
        _some_time,
        r"(?:i |we )?(?:need|want|could use|have to take|take|have|do with|taking|having)(?: to (?:take|have))? (?:a (?:bit of a |little |short |long |longer |proper )?break|some (?:time off|rest|weeks off|days off)|time off|a rest from training|a few weeks off)(?: from (?:training|it|this|everything))?",
        r"(?:pause|break|stop training|rest) for (?:a bit|a while|some time)",
    ),
    *shapes(
        _open,
        r"(?P<pause>(?:pause|pausing|stopping)(?: (?:it|everything|things|training))? for now)",
        r"(?P<pause>(?:stop|hold|halt|suspend|interrupt|pause) (?:everything|all training|all my training|my plan|the plan|my training|all sessions|the block|my block|my sessions)|take me off the plan)",
    ),
    *shapes(_open, _PAUSE.replace("|hold|suspend|stop|interrupt", "|suspend"), rf"{_LEAD}{_ILL}(?: again)?"),
    *shapes(
        _open,
        r"(?:im |ill be |i am |we are |were |going )+(?:away|travel?ling|on (?:a )?holiday|on vacation|out of town|abroad|overseas)(?: (?:now|with work|for work))*",
        r"(?:(?:im |ill |be |i |am |we |are |were |going )*(?:away|travel?ling|on (?:a )?holiday|on vacation|out of town|abroad|overseas|off|out|gone))(?: (?:now|with work|for work))* for (?:a while|a bit|some time|the time being|now|the moment|ages|quite (?:a while|some time))",
    ),
)
