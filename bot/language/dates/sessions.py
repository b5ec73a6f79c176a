"""Wishes that put single sessions elsewhere: moved, swapped, pushed along."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date, timedelta

from bot.language.dates.clauses import Clause
from bot.language.dates.desk import Desk, PlanReading, ask, say, sure
from bot.language.dates.moments import WEEKDAYS, number_of, weekday_of
from bot.language.dates.shapes import IT, shapes
from bot.language.dates.weeks import FOR_GOOD, replaced
from bot.training.plan import Away, Deed, Move, Shift, Swap, Weekdays

Fields = Mapping[str, str]

_MOVE = r"(?:move|moving|shift|push|put|reschedule|postpone|bump|change|switch|bring|delay|slide|transfer|drag|carry|get|have|make|set|swap|pull|pop|stick|squeeze|shove|hop|flip|bung|chuck|shunt|shuffle|roll|defer|put off|hold off|swing|kick|knock|nudge)"
_DO = r"(?:do|train|make|doing|training|have|take|get|fit in|fit|squeeze in|complete|run|catch up on|catch up|make up for|make up|hit|finish|tackle|start with|use|go)"
_LATER = r"(?:back|forward|forwards|backwards|on|out|along|up|later|earlier|sooner|ahead|over)"
_ALL = (
    r"(?:everything(?: else)?|it all|(?:the )?(?:whole |entire )?(?:lot|shebang|thing)|all(?: of it| of them)?|all (?:my |the |of my )?(?:sessions|days|workouts|training)|(?:the |my )?(?:whole |entire )?"
    r"(?:week|plan|block|schedule|split|calendar|sessions|workouts|days|training days)|(?:my |the )?P\d+)"
)


def _move(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    froms, tos = desk.what(fields["what"]), desk.dates(fields["to"])
    froms = tuple(on for on in froms if desk.open_on(on)) or froms
    if not froms or not tos:
        return None
    if desk.is_plural(fields["to"]) and fields["to"] not in desk.session_marks:
        return replaced(desk, fields["what"], fields["to"])
    said = desk.words(fields["to"])
    if len(froms) == 1 and tos == (desk.today,) and froms[0] > desk.today and weekday_of(said) is not None:
        tos = (desk.today + timedelta(days=7),)  # who means today says today
    if len(froms) == 1 and len(tos) == 1:
        if froms[0] == tos[0]:
            return None
        if "next week" in said and fields["what"].startswith("D") and froms[0] + timedelta(days=7) != tos[0]:
            # "Friday to sunday next week": whose week is it, both days' or the second's?
            both = [(f"{say(on)} to {say(tos[0])}", Move(on, tos[0])) for on in (froms[0] + timedelta(days=7), froms[0])]
            return ask("which_date", said, both)
        return _moved(froms[0], tos[0])
    pairs = [(a, b) for a in froms for b in tos if a != b]
    doubtful = said if len(tos) > 1 else desk.words(fields["what"])
    return ask("which_date", doubtful, [(f"{say(a)} to {say(b)}", Move(a, b)) for a, b in pairs[:4]]) if pairs else None


def _moved(on: date, to: date, *, certainty: float = 0.9) -> PlanReading:
    return sure(Move(on, to), certainty=certainty)


def _for_good(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Sundays instead of saturdays", "move friday to thursday from now on": the rule itself changes."""
    return replaced(desk, fields["what"], fields["to"])


def _instead(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    if desk.is_plural(fields["to"]) and fields["what"].startswith("D") and desk.is_plural(fields["what"]):
        return replaced(desk, fields["what"], fields["to"])
    return _move(desk, fields, clause)


def _asked_move(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Could friday be thursday", "legs on saturday": only as a request, or where a session is named."""
    named = fields["what"][0] == "S" or fields["what"] in desk.session_marks
    if not (clause.polite or clause.asks or named or desk.cannot):
        return None
    reading = _move(desk, fields, clause)
    if reading is None or clause.polite or clause.asks or desk.cannot or re.fullmatch(r"[DS]\d+ D\d+", clause.words) is None:
        return reading
    # "Day 2 tomorrow" may only say what they take to come.
    return (
        ask("confirm", "", [(f"{say(deed.on)} to {say(deed.to)}", deed) for deed in reading.deeds if isinstance(deed, Move)])
        if reading.deeds
        else reading
    )


def _bare_pair(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Friday to sunday": moved, or away from one to the other? Only the person knows."""
    if fields["what"] in desk.session_marks:
        return _move(desk, fields, clause)
    firsts, lasts = desk.dates(fields["what"]), desk.dates(fields["to"])
    if lasts == (desk.today,) and weekday_of(desk.words(fields["to"])) is not None:
        lasts = (desk.today + timedelta(days=7),)
    if len(firsts) != 1 or len(lasts) != 1 or firsts[0] == lasts[0]:
        return None
    first, last = firsts[0], lasts[0]
    options: list[tuple[str, Deed]] = []
    named = [desk.weekdays(fields[side]) for side in ("what", "to")]
    if len(named[0]) == len(named[1]) == 1 and named[1][0] - named[0][0] >= 3:
        days = tuple(range(named[0][0], named[1][0] + 1))
        options.append(
            (f"Train {WEEKDAYS[days[0]][:3].title()} to {WEEKDAYS[days[-1]][:3].title()} every week", Weekdays(days, desk.today))
        )
    if desk.open_on(first):
        options.append((f"Move {say(first)} to {say(last)}", Move(first, last)))
    if last > first >= desk.today:
        options.append((f"Away {say(first)} to {say(last)}", Away(first, last)))
    return ask("what_with_dates", f"{desk.words(fields['what'])} to {desk.words(fields['to'])}", options) if options else None


def _by_days(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """One session so many days later or earlier."""
    froms, days = desk.what(fields["what"]), desk.days_of(fields["n"])
    if len(froms) != 1 or not days or not desk.open_on(froms[0]):
        return None
    on, earlier = froms[0], _is_earlier(fields)
    if earlier is None:
        both = [on + timedelta(days=days), on - timedelta(days=days)]
        return ask(
            "which_date",
            f"{fields.get('how', 'forward')}",
            [(f"{say(on)} to {say(to)}", Move(on, to)) for to in both if to >= desk.today],
        )
    return _moved(on, on + timedelta(days=-days if earlier else days))


def _is_earlier(fields: Fields) -> bool | None:
    """The direction; None for "push it forward", which is earlier to some and later to others."""
    said = f"{fields.get('verb', '')} {fields.get('how', '')} {fields.get('how2', '')}"
    if re.search(r"earlier|sooner|\bup\b|ahead", said) or (re.search(r"\bbring\b|\bpull\b", said) and "back" not in said):
        return True
    if "forward" in said:
        return None
    return False


def _day_after(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    froms = desk.what(fields["what"])
    if len(froms) != 1:
        return None
    return _moved(froms[0], froms[0] + timedelta(days=-1 if fields["how"].endswith("before") else 1))


def _move_where(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Move friday": the free days that follow are the question."""
    froms = [on for on in desk.what(fields["what"]) if desk.open_on(on)]
    if len(froms) != 1:
        return None
    free = desk.free_after(froms[0], most=3)
    return ask("which_date", say(froms[0]), [(f"Move it to {say(on)}", Move(froms[0], on)) for on in free]) if free else None


def _then(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Tomorrow then", "I'll do it tomorrow": what was spoken of, else today's session, goes there."""
    tos = desk.dates(fields["to"])
    spoken = desk.cannot or (desk.mentioned[-1] if desk.mentioned else None)
    froms = tuple(on for on in ((spoken,) if spoken else (desk.today,)) if desk.open_on(on) and on not in tos)
    if not froms or not tos:
        return None
    if spoken is None and not ("thing" in fields or "instead" in fields):
        return None
    if spoken and not desk.cannot and "thing" not in fields and "instead" not in fields and desk.open_on(tos[0]):
        return None  # "late today so I train tomorrow", when tomorrow has its own session
    if len(tos) > 1:
        return ask("which_date", desk.words(fields["to"]), [(say(on), Move(froms[0], on)) for on in tos])
    return _moved(froms[0], tos[0], certainty=0.85)


def _both(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Both fri and sat on saturday"."""
    tos = desk.dates(fields["to"])
    froms = [on for mark in ("a", "b") for on in desk.what(fields[mark]) if desk.open_on(on) and on not in tos]
    return _moved(froms[0], tos[0]) if len(froms) == 1 and len(tos) == 1 else None


def _two_moves(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Friday on sunday and saturday on thursday"; one in the other's place is a swap."""
    dates = [desk.what(fields["a"]), desk.dates(fields["b"]), desk.what(fields["c"]), desk.dates(fields["d"])]
    if any(len(each) != 1 for each in dates):
        return None
    (a,), (b,), (c,), (d,) = dates
    if a in (b, c) or c == d:
        return None
    if (a, b) == (d, c):
        return sure(Swap(min(a, b), max(a, b)))
    if b == c:  # the second makes room for the first
        return sure(Move(c, d), Move(a, b))
    return sure(Move(a, b), Move(c, d))


def _merged(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Combine friday and saturday": on which of the two?"""
    a, b = desk.what(fields["a"]), desk.what(fields["b"])
    if len(a) != 1 or len(b) != 1 or a == b or not (desk.open_on(a[0]) and desk.open_on(b[0])):
        return None
    options = [(f"Both on {say(to)}", Move(on, to, both=True)) for on, to in ((b[0], a[0]), (a[0], b[0]))]
    return ask("which_date", f"{say(a[0])}, {say(b[0])}", options)


def _swap(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    if all(fields[side][0] == "D" and desk.is_plural(fields[side]) for side in "ab"):
        return replaced(desk, fields["a"], fields["b"])
    a, b = desk.what(fields["a"]), desk.what(fields["b"])
    if not a or not b:
        return None
    if len(a) == 1 and len(b) == 1:
        return sure(Swap(min(a[0], b[0]), max(a[0], b[0]))) if a[0] != b[0] else None
    return ask(
        "which_date", desk.words(fields["b"]), [(f"{say(x)} and {say(y)}", Swap(x, y)) for x in a for y in b if x != y][:4]
    )


def _skip_ahead(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    froms = desk.what(fields["what"])
    return _moved(froms[0], desk.today) if len(froms) == 1 and froms[0] > desk.today else None


def _shift(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    days = desk.days_of(fields["n"]) if "n" in fields else number_of(fields["count"])
    since = desk.dates(fields["since"])[:1] if "since" in fields else (desk.today,)
    if not days or not since:
        return None
    earlier = _is_earlier(fields)
    later, sooner = Shift(since[0], days), Shift(max(since[0], desk.today + timedelta(days=days)), -days)
    if earlier is None:
        return ask("which_way", desk.words(fields.get("n", "forward")), [("Later", later), ("Earlier", sooner)])
    return sure(sooner if earlier else later)


_WHERE = r"(?:to|till|til|until|onto|on to|on|for|over to|across to|into|to be|be|to be on|and (?:do|put|have|make) it on)"
_THING = r"(?P<thing>(?:do|doing|make|move|get|have|put|train|catch|finish|complete) (?:it|this|that|mine|(?:my|the|this|todays) (?:session|workout|training|one)|it up|up)|it|that one|make (?:it|that) up)"

SWAPS = (
    *shapes(
        _two_moves,
        rf"(?:{_DO} )?<Y a> on <D b>,? and (?:{_DO} )?<Y c> on <D d>",
        rf"{_DO} <Y a> <D b>,? and (?:{_DO} )?<Y c> <D d>",
        rf"{_MOVE} <Y a> {_WHERE} <D b>,? and (?:{_MOVE} )?<Y c> {_WHERE} <D d>",
    ),
    *shapes(
        _swap,
        r"(?:swap|switch|exchange|flip|trade|change|reverse)(?: round| around)? <X a> (?:and|with|for|over with|against) <X b>(?: around| round| over)?",
        r"(?:swap|switch|flip)(?: the)?(?: days)? <X a> <X b>(?: around| round)?",
        r"<X a> and <X b> (?:to )?(?:trade|change|swap|switch|exchange)(?: places| days| over| round| around)?(?: P\d+)?",
        r"(?:do |have )?<X a> and <X b> (?:be )?(?:swapped(?: round| around| over)?|the other way (?:round|around)|in reverse|reversed|switched)",
    ),
)
GOOD = rf"(?: {FOR_GOOD})"
MOVES = (
    *shapes(_skip_ahead, r"(?:skip|jump|go) (?:ahead |straight |right )?to <Y what>"),
    *shapes(
        _for_good,
        r"(?:drop|lose|remove|no more|scrap|cut|stop) <D what>,?(?: and| but)? (?:add|do|include|train|put in|take|use|have)(?: on)? <D to>(?: instead)?",
        r"<D what> (?:dont|doesnt|no longer|wont|cant)(?: (?:work|works|suits?|fit|fits|do))?(?: (?:anymore|any more|for me|now))*,?(?: but| so| and)? <D to> (?:do|does|works?|would|instead|are (?:fine|better|ok)|is (?:fine|better|ok)|suits?(?: me)?|fits?)(?: (?:better|instead|now|for me))*",
        rf"{_MOVE} <Y what> {_WHERE} <D to>{GOOD}",
        rf"{FOR_GOOD} {_MOVE} <Y what> {_WHERE} <D to>",
        rf"{FOR_GOOD} (?:train |do )?(?:on )?<D to> (?:instead of|rather than|not|in place of|over) (?:on )?<D what>",
        rf"(?:train |do )?(?:on )?<D to> (?:instead of|rather than|not|in place of|over) (?:on )?<D what>{GOOD}",
    ),
    *shapes(
        _shift,
        rf"(?:(?P<verb>{_MOVE}) )?{_ALL} plus <N n>",
        rf"(?P<verb>{_MOVE}) {_ALL}(?: (?P<how>{_LATER}))? by (?P<count>one|two|three|[1-6])",
        rf"(?P<verb>{_MOVE}) {_ALL} (?P<count>one|two|three) (?P<how>{_LATER})",
        rf"(?P<verb>{_MOVE}) {_ALL}(?: (?P<how>{_LATER}))?(?: by)? <N n>(?: (?P<how2>{_LATER}))?(?: (?:from|starting)(?: on)? <D since>(?: on(?:wards)?)?| {FOR_GOOD})?",
        rf"(?:have |let |get )?{_ALL}(?: (?:be|go|come|is|are|to be|gets?|moved?|shifted|pushed|slides?|shifts?))*(?: (?P<how>{_LATER}))?(?: by)? <N n>(?: (?P<how2>{_LATER}))?(?: (?:P\d+|{FOR_GOOD}))?(?: (?:from|starting)(?: on)? <D since>(?: on(?:wards)?)?)?",
    ),
    *shapes(
        _by_days,
        rf"(?P<verb>{_MOVE}) <X what>(?: (?P<how>{_LATER}))?(?: by)? <N n>(?: (?P<how2>{_LATER}))?",
        r"<Y what> (?:be )?<N n> (?P<how>later|earlier|sooner)",
    ),
    *shapes(
        _day_after, rf"{_MOVE} <X what> (?:to |on |by )?the (?P<how>next day|day after|following day|day before|previous day)"
    ),
    *shapes(
        _move,
        r"<Y what> (?:is |are )?(?:no good|not good|bad|impossible|out|a no go|no go) (?:lets )?(?:make it|move it to|do it(?: on)?) <D to>",
    ),
    *shapes(
        _move,
        rf"{_MOVE} <X what>(?: {_LATER})? {_WHERE} <D to>",
        rf"{_MOVE} <S what> (?:from D\d+ )?(?:to|on) <D to>",
        rf"{_MOVE} <X what> <D to>",
    ),
    *shapes(
        _both,
        r"(?:do |have |train |fit )?(?:both )?<Y a> (?:and|plus|with) <Y b>(?: both)?(?: together)? on <D to>",
    ),
    *shapes(
        _instead,
        rf"(?:{_DO} |train |go |lift |do it |say |make it )?(?:on )?<D to> (?:instead of|rather than|not|in place of|over|in lieu of|than) (?:on )?<X what>",
        r"instead of (?:on )?<X what> (?:i |ill |let me |id like to |i want to |do |train |can i do |its |it |go )*(?:on )?<D to>",
        rf"(?:{_DO}) <X what> (?:on |for )?<D to> (?:instead of|rather than|not|and not|than) (?:on )?(?:D\d+|then|now)",
        r"<S what> (?:on )?<D to> (?:instead of|rather than|not|and not) (?:on )?D\d+",
        r"<D to> (?:works|is|would be|suits|would suit|fits|would work|would fit|looks|will be|be)(?: me)?(?: much| a lot| way| far)? (?:better|easier|best|nicer|preferable)(?: for me)? (?:than|to) <X what>(?: P\d+)?",
        r"rather <D to> than <D what>(?: P\d+)?",
        r"(?:prefer |like )?<D to> (?:to|over|more than) <D what>(?P<prefer>) P\d+",
        r"(?:i |i would |id )?prefer <D to> (?:to|over|more than|instead of|rather than) <D what>(?: P\d+)?",
    ),
    *shapes(
        _move,
        rf"{_DO} <X what> (?:on|for) <D to>(?: P\d+)?",
        rf"{_DO} <Y what> <D to>",
        r"(?:have|do|get) <Y what> done (?:on )?<D to>",
    ),
    *shapes(_move, r"<D to> (?:i |ill |id like to |i want to |lets |can i |i will |we )*(?:do|train|have) <S what>"),
    *shapes(
        _merged,
        r"(?:merge|combine|join|put together|do|have) <Y a> (?:and|with|plus) <Y b>(?: together| into one| in one(?: day| session)?| on (?:one|the same) day| at once)",
    ),
    *shapes(_merged, r"(?:merge|combine|join) <Y a> (?:and|with|plus) <Y b>"),
    *shapes(
        _move,
        r"<Y what> (?:can|could|should|will|would|has to|have to|will have to|needs to|needs|must|might as well|is going to|gonna)(?: have)?(?: to)? (?:wait|hold|be moved|be done|be|move|go|happen|shift|slide|slip)(?: over)?(?: to| till| until| on| onto)? <D to>",
        r"(?P<what>(?:the |my |todays |this )?(?:session|workout|training))(?: is| has been| gets| got)? (?:moved|shifted|pushed|postponed|rescheduled|moves|goes)(?: back| over)? (?:to|till|until|on|onto) <D to>",
    ),
    *shapes(
        _asked_move,
        r"<Y what> (?:to )?(?:be|become|happen|go|be moved|be done|be pushed|move|take place|be on|slide|shift|come|be on|be held|fall|wait|hold|slip|goes|moves|moved|shifted|pushed|switched|becomes|gets done|be pushed back)(?: to| on| onto| till| until)? <D to>(?: P\d+)?",
        r"<Y what> (?:on|for) <D to>(?: P\d+)?",
        r"<Y what> <D to>",
    ),
    *shapes(_bare_pair, r"<D what> (?:to|->|>) <D to>"),
    *shapes(
        _move_where,
        r"(?:move|reschedule|postpone|delay|shift|push|bump) <X what>(?: (?:to|on) (?:another|a different|some other|a later|any other) (?:day|time|date)| somewhere else| elsewhere| (?:to )?later (?:in the week|this week|on))?",
        r"(?:do|put|have|train|get|make) <Y what> (?:(?:to|on) (?:another|a different|some other|a later|any other) (?:day|time|date)|some other (?:day|time)|somewhere else|elsewhere|another (?:day|time)|later (?:in the week|this week))",
    ),
)
SHORT_MOVES = shapes(
    _then,
    r"<D to> (?P<instead>it is)(?: then)?",
    rf"(?P<thing>(?:{_MOVE}|wait|do|hold)) (?:to|till|until|for) <D to>(?: then| instead)?",
    rf"(?P<thing>(?:(?:i|im|ill|can|could|will) )*(?:do|doing|train|training) {IT}) (?:on |for )?<D to>(?: then| instead)?",
    r"(?:will |ill |i will |i can )do (?:it )?<D to>(?: (?P<instead>instead|then))?",
    rf"{_THING} (?:up )?(?:on )?<D to>(?: (?P<instead>instead|then))?(?: instead of D\d+)?",
    r"(?:train|training|lift|go|do|come|exercise|work|make it|how about|what about|lets say|say|or|then|try)? ?(?:on )?<D to> (?P<instead>instead|then|ok|fine|works|is (?:better|fine|ok|good|free)|would (?:work|be better|be good)|suits(?: me)? better)(?: (?:for me|better))*",
    r"(?:train|training|lift|go|do|come|exercise|how about|what about|lets say|or|then|try|can do|available|free)? ?(?:on )?<D to>",
    r"<D to> (?:is )?(?:works|better|fine|free|ok|does|would|yes|yep|yeah|can|instead yes)",
)
