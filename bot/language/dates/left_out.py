"""Wishes about sessions that are not done on their day: left out, impossible, missed; and those that were done on another."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date, timedelta

from bot.language.dates.clauses import Clause
from bot.language.dates.desk import LESS_SURE, Desk, PlanReading, ask, say, sure
from bot.language.dates.moments import number_of
from bot.language.dates.shapes import IT, shapes
from bot.training.plan import Away, Backdate, Deed, Missed, Mode, Move, Skip, Weekdays

Fields = Mapping[str, str]

_SKIP = (
    r"(?:skip|skipping|cancel|cancelling|canceling|drop|dropping|leave out|leaving out|miss|missing|sit out|sitting out|pass on|passing on|bail on|bailing on|"
    r"forget about|forget|scrap|scratch|call off|calling off|not doing|bin|ditch|delete|remove|take out|take off|omit|give up|ignore|giving up)"
)
_CANNOT = (
    r"(?:(?:i |we )?(?:cant|wont be able to|not able to|unable to|wont|couldnt|could not|no way i can|no way im|no chance i can|no chance im|theres no way i can|theres no way im|dont think i can|dont think ill be able to|dont think ill|"
    r"dont have (?:the )?time(?: to| for)?|ive no time(?: to| for)?|got no time(?: to| for)?|no time(?: to| for)?|not gonna(?: be able to)?|wouldnt be able to|be unable to|not be able to|"
    r"struggle to|cant seem to|im not|not)"
    r"(?: (?:make it(?: to)?|make|do|train|lift|exercise|come to|come in|come|be training|manage|get to|fit in|fit|squeeze in|be there(?: for)?|be joining|join in|join|joining|attending|attend|turn up|show up|training|doing|coming to|coming|making it(?: to)?|making|anything|workout|be able to|be doing|be coming|be making|be in))+|"
    r"(?:i )?(?:cant|couldnt)|no (?:time|chance|training|session|workout|gym|exercise|class)(?: for me)?|(?:i have |ive |have |got )?no time|"
    r"(?:im )?(?:busy|tied up|unavailable|not available|not free|not around|double booked|overbooked)|(?:i )?wont manage)"
)
OUT = (
    r"(?:doesnt suit(?: me)?|dont suit(?: me)?|no longer (?:works|suits)|no|doesnt work|does not work|dont work|wont work|wouldnt work|isnt (?:possible|happening|gonna happen|gonna work|good|on)|is not (?:possible|happening|gonna happen)|not (?:possible|happening|gonna happen|gonna work|good|great|on)|"
    r"impossible|nope|nah|looking bad|looks bad|not looking good|off the table|out|bad|no good|a no go|no go|a nogo|tricky for me|difficult for me|a problem|cancelled|i cant|cant|i have no time|no time|i am busy|im busy|wont happen|cant happen|aint happening|no can do|full|packed|a write off|off|no chance|no way|not an option|off limits|out of the question|a nope|a no|hopeless)"
)


def _cannot(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """A session cannot be done: slides or drops as the plan says, else one question."""
    what = fields.get("what")
    if what is None and desk.span is not None:
        return sure(Away(*desk.span), certainty=LESS_SURE)
    if what is None and not desk.mentioned and fields.get("alone") and not desk.whole:
        return None
    if what is None and len(desk.just_said) > 1:
        return sure(*spans_of(list(desk.just_said)), certainty=LESS_SURE)  # "On nights wed thu fri so no training then"
    dates = desk.what(what) if what else (desk.mentioned[-1:] or (desk.today,))
    if not dates or dates[0] < desk.today:
        return None
    if len(dates) > 1:
        return ask("which_date", desk.words(what or ""), [(say(on), Skip(on)) for on in dates])
    desk.cannot = dates[0]
    return without(desk, dates[0])


_NO_EVENT = re.compile(
    r"\b(?:question|pain|sessions?|workouts?|training|pb|pr|record|test|legs?|arms?|back|time|free|energy|idea|reps?|sets?|off|new|good|great|rest|gym)\b"
)


def _engaged(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "I have parents' evening on friday": said to a plan, it asks what becomes of that day's session."""
    dates = desk.dates(fields["what"])
    if re.search(r"\b(?:till?|until)\b", clause.words):
        return None
    if len(dates) != 1 or dates[0] < desk.today or not desk.open_on(dates[0]) or _NO_EVENT.search(fields.get("event", "")):
        return None
    desk.cannot = dates[0]
    return without(desk, dates[0])


def without(desk: Desk, on: date) -> PlanReading:
    """What becomes of the session of a day on which it cannot be done."""
    free = next(iter(desk.free_after(on)), None)
    if desk.open_on(on) is None or desk.plan.missed is Missed.DROPS or free is None:
        return sure(Skip(on))
    if desk.plan.missed is Missed.SLIDES:
        return sure(Move(on, free))
    return ask("move_or_skip", say(on), [(f"Move it to {say(free)}", Move(on, free)), ("Leave it out", Skip(on))])


def _cannot_list(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Can't do monday and tuesday": both are left free."""
    dates = [on for mark in re.findall(r"D\d+", fields["list"]) for on in desk.dates(mark)[:1]]
    if len(dates) < 2 or any(desk.is_plural(mark) for mark in re.findall(r"D\d+", fields["list"])):
        return None
    return sure(*spans_of(dates))


def spans_of(dates: list[date]) -> tuple[Away, ...]:
    """Dates as absences, neighbours joined."""
    spans: list[Away] = []
    for on in sorted(set(dates)):
        if spans and spans[-1].last == on - timedelta(days=1):
            spans[-1] = Away(spans[-1].first, on)
        else:
            spans.append(Away(on, on))
    return tuple(spans)


def _missed(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "I missed yesterday": make it up on the next free day, or let it go?"""
    marks = re.findall(r"[DS]\d+", fields["what"])
    dates = tuple(on for mark in marks if mark[0] == "D" for on in desk.dates(mark, past=True))
    if not dates and marks:
        numbers = desk.numbers(marks[0])
        dates = tuple(one.date for one in desk.sessions if one.day_number in numbers and one.date < desk.today)[-1:]
    if len(dates) != 1 or dates[0] > desk.today or not desk.open_on(dates[0]):
        return None
    on = desk.cannot = dates[0]
    free = [desk.today] if desk.open_on(desk.today) is None and desk.today != on else []
    free += desk.free_after(desk.today)
    options: list[tuple[str, Deed]] = [(f"Make it up on {say(to)}", Move(on, to)) for to in free[:2]]
    return ask("missed", say(on), [*options, ("Leave it out", Skip(on))])


def _skip(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    what = fields.get("what")
    if what is None and not desk.mentioned:
        return None
    if clause.words.startswith("drop") and re.fullmatch(r"[\d./]+", desk.words(what or "")):
        return None  # "drop 2.5" is a drop set
    if what is None:
        dates = desk.it() or ((desk.today,) if not desk.mentioned else ())
    elif re.fullmatch(r"(?:this|that)(?: one)?|them|mine|it", what) and not desk.mentioned:
        return None  # "scratch that", "skip this one" are said of sets
    else:
        dates = desk.what(what)
    if not dates or (what is not None and re.fullmatch(IT, what) and not desk.open_on(dates[0])):
        return None
    if what is not None and what in desk.said and desk.is_plural(what) and what not in desk.session_marks:
        return _this_or_all(desk, what, dates[0])
    if len(dates) > 1:
        return ask("which_date", desk.words(what or ""), [(say(on), Skip(on)) for on in dates])
    return sure(Skip(dates[0])) if dates[0] >= desk.today or desk.open_on(dates[0]) else None


def _skip_next(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Skip the next two sessions"."""
    count = number_of(fields.get("count", "one")) or 1
    coming = [one.date for one in desk.sessions if one.date >= desk.today and desk.open_on(one.date)]
    return sure(*(Skip(on) for on in coming[:count])) if len(coming) >= count else None


def _this_or_all(desk: Desk, mark: str, on: date) -> PlanReading | None:
    """ "Skip fridays": this one's, or all from now on?"""
    days = tuple(day for day in desk.plan.weekdays if day not in desk.weekdays(mark))
    options: list[tuple[str, Deed]] = [(f"Only {say(on)}", Skip(on))]
    if desk.plan.mode is Mode.WEEKDAYS and days:
        options.append(("Every week from now on", Weekdays(days, desk.today)))
    return ask("once_or_always", desk.words(mark), options)


def _done(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """Done on another day than today, or before it was texted."""
    if clause.polite or clause.hedged:
        return None
    dates = desk.dates(fields["on"], past=True) if "on" in fields else (desk.today - timedelta(days=1),)
    if not dates or dates[0] > desk.today:
        return None
    if "told" in fields and dates[0] == desk.today:
        return None  # today's session is ended by other words
    number: int | None = None
    what = fields.get("what", "")
    marks = re.findall(r"[DS]\d+", what)
    if marks and marks[0][0] == "S":
        numbers = desk.numbers(marks[0])
        if not numbers:
            return None
        number = numbers[0]
    elif marks:
        planned = desk.dates(marks[0], past="yesterday" in desk.words(marks[0]))
        past = [on - timedelta(days=7) if on > desk.today + timedelta(days=3) else on for on in planned]
        if len(past) == 1 and past[0] == dates[0]:
            return sure(Backdate(dates[0], None), certainty=LESS_SURE)
        number = next((one.day_number for one in desk.sessions for on in past if one.date == on), None)
    return sure(Backdate(dates[0], number), certainty=LESS_SURE)


def _done_list(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "I trained on monday and tuesday"."""
    if clause.polite or clause.hedged:
        return None
    dates = [on for mark in re.findall(r"D\d+", fields["list"]) for on in desk.dates(mark, past=True)[:1]]
    if any(on >= desk.today for on in dates):
        return None
    return sure(*(Backdate(on, None) for on in dict.fromkeys(dates)), certainty=LESS_SURE)


SKIPS = (
    *shapes(
        _skip_next, rf"{_SKIP} (?:the |my )?next(?: (?P<count>two|three|2|3|couple of))? (?:sessions?|workouts?|trainings?|ones?)"
    ),
    *shapes(
        _skip,
        rf"{_SKIP} (?:out )?(?:on )?<X what>(?: out)?(?: (?:session|P\d+|entirely|completely|altogether|off))*",
        rf"{_SKIP} (?:my |the )?(?:session|workout|training|gym|one)(?: on| for)? <D what>",
        r"(?:leave|sit|leaving|sitting|take|cross|strike|call|count) <X what> (?:out|off)(?: P\d+)?",
        r"(?:give|giving) (?:it|<Y what>) a (?:miss|rest|pass|skip)",
        r"(?:take|taking|have|having|get|making|make|want|need) <Y what> (?:off|as (?:a )?rest(?: day)?|a rest day|free)",
        r"(?:take|taking|have|having|need|want|its|make it|today is|be)? ?(?:a )?rest(?: day)? (?:on |for )?<D what>",
        r"(?:take|taking|have|having|need|want|its|make it) (?:a )?rest(?: day)?",
        r"(?:(?:take|taking|have|having|need|want) )?(?:a |my )?(?:day off|night off|evening off|free day|off day)(?: from training)? (?:on |for |this )?<D what>",
        r"(?:take|taking|have|having|need|want) N\d+ (?:off|of rest|rest) (?:on )?<D what>",
        r"<Y what> off(?: P\d+)?",
        r"(?:give|get) me <Y what> off",
        r"(?:turn|make) <Y what> (?:into )?(?:a |my )?rest day",
        r"(?:ill |im )?(?:skip|skipping|cancel|pass|passing|giving it a miss)",
        r"no <S what>(?: D\d+| P\d+)?",
    ),
)
CANNOTS = (
    *shapes(
        _missed,
        r"(?:i |ive |we )?(?:missed|skipped|didnt do|didnt make|didnt train|didnt manage|forgot|forgot about|couldnt do|couldnt make|couldnt train|havent done|didnt get to|never did|overslept|slept through|bailed on|had to skip|had to miss)(?: to (?:do|train))?(?: on)? <Y what>(?: at all)?",
        r"(?:i )?(?:didnt|couldnt|forgot to) (?:train|do (?:it|anything|my session|my workout|the session)|make it)(?: on)? <D what>",
        r"<Y what> (?:i )?(?:didnt happen|got missed|was missed|didnt train|missed it|didnt do it|couldnt train)",
    ),
    *shapes(
        _cannot_list,
        r"neither (?P<list>D\d+ nor D\d+)(?: (?:works?|suits?|is possible|are possible|will work|fits?|is ok|are ok))?(?: (?:for )?me)?",
    ),
    *shapes(_cannot_list, rf"(?:both )?(?P<list>D\d+(?:(?: and|,| or| plus|) D\d+)+) (?:are |is |both )*{OUT}(?: for me)?"),
    *shapes(_cannot_list, rf"{_CANNOT}(?: on)? (?P<list>D\d+(?:(?: and|,| or| nor| plus|) D\d+)+)(?: P\d+)?"),
    *shapes(
        _engaged,
        r"(?:im |ill be |i am |i have to be |were )(?:working|at work|on call|on shift|hosting|babysitting|out|at (?:a |an |my |the )?[a-z ]{3,25}?)(?: late| all day| nights?| a double)?(?: on| this)? <D what>(?: night| evening)?",
        r"(?:hospital|dentist|doctors?|appointment|exam|interview|wedding|funeral|party|birthday party|parents evening|night shift|conference|flight|concert|course) (?:on |this )?<D what>(?: night| evening)?",
        r"(?:on )?<D what> (?:im |ill be |i am )(?:in|at|on call|working|hosting|babysitting|travelling|away for)\b[a-z ]*",
        r"(?:on )?<D what> (?:i have |ive got |ive |i have to |theres |is )(?:a |an |my |the |to )(?P<event>[a-z ]{3,30})",
        r"(?:i have|ive|ive got|i got|got|weve got|we have|theres|its) (?:a |an |my |the |his |her |our )?(?P<event>[a-z ]{3,30}?) (?:on|this) <D what>(?: night| evening)?",
    ),
    *shapes(
        _cannot,
        rf"(?:{_CANNOT})(?: (?:on|for|this))? <X what>(?: (?:session|P\d+|sorry|at all))*",
        rf"(?:{_CANNOT})(?: (?:on|for|this))? <X what> (?:have|got|stuck|working|im|ive|too|must|need|because|at|with|due)\b[a-z ]*",
        rf"(?:on )?<Y what>(?<!S\d) (?:i |is |are |its |just |a |was |will be |looks |s )*{OUT}(?: for me)?(?: P\d+)?(?: train| to train| make it| do it)?",
        r"(?:on )?<Y what> (?:i )?(?:cant|couldnt|wont|wont be able to|am unable to) (?:train|make it|do it|make|do|be there|come)",
        r"(?P<alone>(?:so )?(?:i )?cant(?: make it| train| do it| come)?|no can do|wont make it|not gonna make it)",
        r"(?:i )?(?:cant|wont|couldnt|dont have time to|have no time to|not able to|wont be able to) (?:make it|train|do it|do anything|do my (?:session|workout)|lift|exercise)",
        r"not <D what>",
        r"no <D what> for me",
        r"(?:i )?(?:wont|will not|not gonna|might not|not) be (?:available|around|free|there|here|in|able to come)(?: on| this)? <D what>",
        r"(?:no can do|count me out|leave me out|im not in|no go|no luck)(?: for| on)* <D what>",
        r"(?P<alone>(?:so )?(?:no|not) (?:training|sessions?|workouts?)(?: then| for me)?)",
        r"(?P<alone>no time|i have no time|ive no time|no chance|im not training|not training)",
    ),
)
DONES = (
    *shapes(
        _done_list,
        r"(?:i |ive |we )?(?:already |actually |just )?(?:did|trained|finished|completed|done)(?: it)?(?: on)? (?P<list>D\d+(?:(?: and|,| plus) D\d+)+)(?: already)?",
    ),
    *shapes(
        _done,
        r"(?:i |ive |we )?(?:already |actually |just )?(?:did|trained|finished|completed|done|have done|managed|got through|knocked out|ticked off|logged)(?: already)? (?:<X what>(?: already)?(?: on)? )?(?:on )?<D on>(?: already| in fact| though)?",
        r"(?:i |ive )?(?:already |actually )?(?:did|trained|finished|completed|done)(?: already)? <D on>",
        r"<S what> (?:was|were|got|is|are|has been) (?:already )?(?:done|finished|completed) (?:already )?(?:on )?<D on>(?: already)?",
        r"<D on> (?:(?:was|is|got|has been|all) )?(?:already )?(?:done|finished|completed|complete)(?: already)?",
        r"(?:i |ive )?(?:caught up(?: on| with)?) <Y what> <D on>",
        r"<D on> i (?:already |actually )?(?:trained|did (?:it|<S what>|my session|the session|my workout|the workout)|was training)(?: already)?",
        r"(?:i )?(?:trained|did (?:it|my session|my workout|the session|the workout))(?: already)? (?:on )?<D on>",
        r"(?:i |ive |we )?(?:already |actually |just )?(?:did|trained|finished|completed|done)(?: it)?(?: already)? (?:on )?<D on>(?: already)?,? (?:it was |that was |was |with |doing |and did |so )?<S what>",
        r"<Y what> (?:i |was |were |got |is |has been )*(?:already |actually )?(?:did|done|finished|completed)(?: already)? (?:on )?<D on>(?: already| instead)?",
        r"<D on> (?:was|i did|i had|i trained|it was) <S what>",
        r"(?:please )?(?:log|mark|count|note|tick|record|save|put)(?: off| down)? <S what> (?:for|on|as done on|as done|done|as)+ <D on>",
        r"(?P<told>(?:please )?(?:log|mark|count|note|tick|record|save|put)(?: off| down)?) <D on>(?: session)? (?:as |is |down as )?(?:done|finished|completed?|trained)",
    ),
)
