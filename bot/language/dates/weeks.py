"""Wishes about the rule itself: which weekdays, a rhythm of on and off days, when a block begins, by which place's clock."""

from __future__ import annotations

import re
from collections.abc import Mapping

from bot.language.dates.clauses import Clause
from bot.language.dates.desk import Desk, PlanReading, ask, say, sure
from bot.language.dates.moments import WEEKDAYS, number_of
from bot.language.dates.shapes import shapes
from bot.language.places import find_places
from bot.training.plan import Mode, Rolling, StartBlock, Weekdays, ZoneMove

Fields = Mapping[str, str]
FOR_GOOD = r"(?:from now on|for good|permanently|always|every week|each week|going forward|from here on|in future|in the future|generally|for the rest of the block|all the time|as a rule|regularly)"
_SINCE = rf"(?:(?: {FOR_GOOD}| now| please|(?: as of| from| starting| beginning| since| effective)(?: on)? (?P<since>P\d+|D\d+)(?: on| onwards?)?)*)"


def weekdays_in(desk: Desk, words: str) -> tuple[int, ...]:
    """The weekdays of a list, without those behind "but"."""
    kept, _, left_out = re.sub(
        r" (?:but(?: not)?|except|not|apart from|besides|minus|without|bar) ", "|", words, count=1
    ).partition("|")
    out = {day for mark in re.findall(r"[DW]\d+", left_out) for day in desk.weekdays(mark)}
    named = [day for mark in re.findall(r"[DW]\d+", kept) for day in desk.weekdays(mark)]
    return tuple(dict.fromkeys(day for day in named if day not in out))


def _weekdays(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    days = weekdays_in(desk, fields["list"])
    marks = re.findall(r"[DW]\d+", fields["list"])
    if any(desk.words(mark) in ("today", "tomorrow", "tonight", "yesterday") or not desk.weekdays(mark) for mark in marks):
        return None
    rule = any(mark[0] == "W" or (desk.is_plural(mark) and mark not in desk.session_marks) for mark in marks)
    if any(mark in desk.session_marks for mark in marks) and len(marks) > 1 and "rule" not in fields:
        return None  # "saturday's workout friday" names sessions
    if not days or (len(days) == 1 and not rule) or ("bare" in fields and not rule):
        return None
    reading = chosen(desk, days, fields.get("since"))
    if len(days) == 1 and "rule" not in fields and len(desk.plan.weekdays) > 1:
        more = tuple(dict.fromkeys((*desk.plan.weekdays, *days)))
        return ask(
            "only_or_also",
            desk_words(desk, fields["list"]),
            [(f"Only {_names(days)}", Weekdays(days, desk.today)), (f"{_names(days)} as well", Weekdays(more, desk.today))],
        )
    once = clause.polite and not rule and len(days) == 2 and "rule" not in fields and "since" not in fields
    if once and reading is not None and reading.deeds:  # "I'll train friday and sunday" may be this week's alone
        return ask("which_days", desk_words(desk, fields["list"]), [(_names(days) + " every week", reading.deeds[0])])
    return reading


def desk_words(desk: Desk, words: str) -> str:
    return re.sub(r"[DW]\d+", lambda mark: desk.words(mark[0]), words)


def _names(days: tuple[int, ...]) -> str:
    return ", ".join(WEEKDAYS[day][:3].title() for day in days)


def chosen(desk: Desk, days: tuple[int, ...], since_mark: str | None = None, *, certainty: float = 0.9) -> PlanReading | None:
    """These weekdays from a date on."""
    since = desk.today
    if since_mark is not None:
        if since_mark[0] == "P":
            since = max(desk.period(since_mark)[0][0], desk.today)
        else:
            dates = desk.dates(since_mark)
            if not dates:
                return None
            since = dates[0]
    return sure(Weekdays(days, since), certainty=certainty)


_USUAL = {
    1: ((0,), (5,)),
    2: ((0, 3), (1, 4), (5, 6)),
    3: ((0, 2, 4), (1, 3, 5)),
    4: ((0, 1, 3, 4), (0, 2, 4, 5)),
    5: ((0, 1, 2, 4, 5), (0, 1, 3, 4, 5)),
    6: ((0, 1, 2, 3, 4, 5),),
}


def _how_many(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Only three days a week": which ones is the question."""
    if not desk.whole and not re.search(r"\b(?:i|we|can|could|only|just|want|train|down|change|switch)\b", clause.words):
        return None  # said of somebody else, or of something else
    found = re.fullmatch(r"(\w+) days?", desk.words(fields["n"]))
    count = number_of(found[1]) if found else None
    choices = _USUAL.get(count or 0, ())
    return ask("which_weekdays", "", [(_names(days), Weekdays(days, desk.today)) for days in choices]) if choices else None


def _which_days(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Different training days from next week": which ones is the question."""
    if clause.asks and not clause.polite:
        return None
    since = chosen(desk, (0,), fields.get("since"))
    first = since.deeds[0].since if since and isinstance(since.deeds[0], Weekdays) else desk.today
    choices = _USUAL.get(sum(desk.rhythm), _USUAL[3])
    return ask("which_weekdays", "", [(_names(days), Weekdays(days, first)) for days in choices])


def _no_more(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "No more sundays": the rule without that weekday."""
    marks = re.findall(r"[DW]\d+", fields["list"])
    if desk.plan.mode is not Mode.WEEKDAYS or not all(
        mark[0] == "W" or desk.is_plural(mark) or "rule" in fields for mark in marks
    ):
        return None
    gone = {day for mark in marks for day in desk.weekdays(mark)}
    days = tuple(day for day in desk.plan.weekdays if day not in gone)
    return chosen(desk, days, fields.get("since")) if days and gone else None


def _rest_days(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Rest days wed and sun": trained on all others, where the split has as many days."""
    rest = {day for mark in re.findall(r"[DW]\d+", fields["list"]) for day in desk.weekdays(mark)}
    first = desk.plan.weekdays[0] if desk.plan.weekdays else 0
    days = tuple(day for day in ((first + n) % 7 for n in range(7)) if day not in rest)
    return chosen(desk, days, fields.get("since")) if len(rest) == 2 and len(days) == sum(desk.rhythm) else None


def _also(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    """ "Add sundays"."""
    marks = re.findall(r"[DW]\d+", fields["list"])
    if desk.plan.mode is not Mode.WEEKDAYS or not all(mark[0] == "W" or desk.is_plural(mark) for mark in marks):
        return None
    more = [day for mark in marks for day in desk.weekdays(mark)]
    return chosen(desk, tuple(dict.fromkeys((*desk.plan.weekdays, *more))), fields.get("since"))


def replaced(desk: Desk, what: str, to: str) -> PlanReading | None:
    """One weekday of the rule for another, on the same place in the split."""
    old, new = desk.weekdays(what), desk.weekdays(to)
    if what[0] == "S":
        on = next(iter(desk.what(what)), None)
        old = [on.weekday()] if on else []
    if len(old) != 1 or len(new) != 1 or desk.plan.mode is not Mode.WEEKDAYS or old[0] not in desk.plan.weekdays:
        return None
    # The other session of that weekday takes the place that comes free.
    trade = {old[0]: new[0], new[0]: old[0]}
    return chosen(desk, tuple(trade.get(day, day) for day in desk.plan.weekdays))


def _rolling(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    return sure(Rolling(desk.today))


_TURN = r"(?:(?P<count>an?|one|two|three|four|five|six|seven|\d) )?(?:(?:full |whole )?(?:training |rest |work )?days? )?(?P<what>on|off|rest|training)\b(?: days?)?"


def rhythm_in(words: str) -> tuple[bool, ...] | None:
    """ "Three on, one off, two on, one off" as turns; None if the words are no rhythm."""
    is_named = re.search(r"\b(?:rhythm|split|pattern|schedule)\b", words) is not None
    words = re.sub(r"[,/;.+]+|\b(?:and|then|followed by|with)\b", " ", words)
    words = re.sub(r"\s+", " ", words).strip()
    words = re.sub(
        rf"^(?:(?:train|go|do|make it|switch to|use|change to|change it to|my|rhythm|split|pattern|schedule|a|is|to|be|it|set|me|put|on(?= (?:\d|one|two|three|four)))\b ?)+|(?: ?(?:{FOR_GOOD}|please|rhythm|pattern|schedule|split|from P\d+|now|works|works best|suits me|for me|better))+$",
        "",
        words,
    )
    if re.fullmatch(
        r"(?:train )?(?:every|on) (?:other|second|2nd|alternate|alternating) days?|alternate days|alternating days|on (?:and )?off (?:on )?(?:and )?off",
        words,
    ):
        return (True, False)
    if re.fullmatch(r"(?:train )?every third day", words):
        return (True, False, False)
    figures = re.fullmatch(r"(\d)[- ](\d)[- ](\d)[- ](\d)", words)
    if figures and is_named:  # "3-1-1-0" alone is a tempo
        return tuple(turn % 2 == 0 for turn, count in enumerate(figures.groups()) for _ in range(int(count)))
    # "I do shift work: 4 on 4 off": what stands before the first count is no turn.
    if found := re.search(r"(?<!\S)(?:\d|one|two|three|four|five|six) (?:days? )?(?:on|off)\b", words):
        words = words[found.start() :] if len(words[: found.start()].split()) <= 6 else words
    turns: list[bool] = []
    counted = re.match(r"(?:an?|one|two|three|four|five|six|seven|\d) ", words) is not None
    place = 0
    while place < len(words):
        found = re.compile(_TURN).match(words, place)
        if found is None or counted != bool(found["count"]):
            return None
        count = number_of(found["count"] or "one") or 0
        turns += [found["what"] in ("on", "training")] * count
        place = found.end() + 1
    return tuple(turns) if True in turns and False in turns and len(turns) <= 14 and (counted or len(turns) >= 3) else None


def start_of_block(desk: Desk, fields: Fields, clause: Clause) -> PlanReading | None:
    if "period" in fields:
        return sure(StartBlock(desk.period(fields["period"])[0][0]))
    dates = [on for on in desk.dates(fields["on"]) if on >= desk.today]
    if len(dates) > 1:
        return ask("which_date", desk.words(fields["on"]), [(say(on), StartBlock(on)) for on in dates])
    return sure(StartBlock(dates[0])) if dates else None


# "I'm in the gym now", "in bed", "in a rush" say where somebody is, not by which clock they live.
_NO_PLACE = re.compile(
    r"(?:an?|my|our|no|some|good|bad|great|better|so|between|it|this|that|here|there|back)\b|the (?!hague|netherlands|us\b|usa|uk\b|states|philippines|bronx|algarve|united|emirates)"
    r"|(?:bed|pain|shape|agony|trouble|love|doubt|tears|hospital|recovery|work|training|school|class|town|week \d|hotel|quarantine|isolation|transit|traffic)\b"
)


def zone_in(words: str) -> PlanReading | None:
    """The place by whose clock somebody lives now. words: plain, without marks."""
    until = r"(?: (?:now|from now on|from today|for good|permanently|at the moment|these days|this week|last week|next week|since [a-z ]+|(?:until|till|til) [a-z0-9 ]+|for (?:a while|good|now|work|(?:a|the next|\d+|one|two|three|four|couple of|a couple of|a few|few) ?(?:days?|weeks?|months?|while|years?))))*"
    for pattern in (
        r"(?:ive|i have|i|we|weve|were|just|have|im|recently|today|finally)*(?: ?(?:ive|just|have|recently))* ?(?:moved|relocated|flown|flew|emigrated)(?: (?:over|house|home|back|here|from [a-z ]+?))? to (?P<place>[a-z .,'-]{2,40}?)",
        r"(?:(?:im|ill be|were|well be|i) )?(?:now |currently )?(?:living|live|based|staying|stay|live now)(?: now)? in (?P<place>[a-z .,'-]{2,40}?)",
        r"(?:ive |i |we |weve |just |have |finally |now |safely )*(?:landed|arrived|touched down|settled)(?: safely)? in (?P<place>[a-z .,'-]{2,40}?)",
        r"(?:im|were) (?:now |currently )in (?P<place>[a-z .,'-]{2,40}?)",
        r"(?:change|set|switch|put|update) (?:my |the )?(?:time ?zone|zone|place|city|clock|location|local time) to (?P<place>[a-z .,/+'-]{2,40}?)(?: time)?",
        r"(?:my |the )?time ?zone (?:is |now )*(?P<place>[a-z]+/[a-z_/]+|(?:utc|gmt) ?[+-] ?\d{1,2}(?::?\d\d)?)",
        r"(?:my|the) (?:time ?zone|zone|clock|local time|place|city|location) (?:is|should be|changed to|has changed to) (?:now )?(?:on )?(?P<place>[a-z .,/+'-]{2,40}?)(?: time)?",
        r"(?:im|were|ill be)(?: now)? (?:in|on) (?P<place>(?:utc|gmt) ?[+-] ?\d{1,2}(?::?\d\d)?)",
        r"(?:im|were|ill be|i am)(?: now)? on (?P<place>[a-z .,'-]{2,40}?) time",
        r"(?:please )?(?:use|go by|work by|switch to|take) (?P<place>[a-z .,'-]{2,40}?)(?: (?:local )?time| clock| time ?zone| hours)",
        r"(?:please )?(?:set|put|switch|change|move|get) (?:me|us|my (?:reminders?|messages?|times?|clock|everything|zone)|everything|it|the (?:reminders?|times?|clock))(?: over| back| all)? (?:to|on|onto|into) (?P<place>[a-z .,'-]{2,40}?)(?: time| clock| zone| hours| timezone)+",
    ):
        found = re.fullmatch(pattern + until, words)
        if found:
            return _place(found["place"])
    found = re.fullmatch(r"(?:im|were|ill be|well be) in (?P<place>[a-z .,'-]{2,40}?)" + until.removesuffix("*") + "+", words)
    return _place(found["place"]) if found else None


def _place(place: str) -> PlanReading | None:
    """A place that there is; what is asked for beside it is cut off ("leeds please change my clock")."""
    place = _ASKED_BESIDE.split(place.strip(" .,"), maxsplit=1)[0].strip(" .,")
    if not re.search(r"[a-z]{2}", place) or _NO_PLACE.match(place) or not find_places(place):
        return None
    return sure(ZoneMove(place))


_ASKED_BESIDE = re.compile(
    r",? (?:please|so|and|can|could|fix|change|set|update|adjust|correct|my|which|where|with|as|because)\b"
)


_DAYS_ARE = (
    r"(?:(?:change|switch|set|update|make) )?(?:my |the |our )?(?:training |new |gym |own |work ?out |usual )*(?:days|week|schedule|rota|weekdays)"
    r"(?: (?:are|is|should be|will be|be|now|to|to be|would be|on|for|become|from|need to be|have to be|can be|changed to|be changed to|moved to|switched to))*"
)
_TRAIN_ON = (
    r"(?:(?:i |we )?(?:can |could |will |only |just |now |want to |prefer to |prefer |like to |would |be |am |able to |free |have time )*"
    r"(?:train|train me|training|lift|exercise|go|do|do it|work|make it|available|free|have time)?(?: only| just)?(?: N\d+(?: a week)?)?(?: on)?)"
)
RULES = (
    *shapes(
        _no_more,
        rf"(?:{FOR_GOOD} )?(?:no|no more|never|not on|stop|drop|cut|remove|without|dont train|never train|no training|no sessions|not)(?: on| training on| any more| the)? <L list>{_SINCE}",
        rf"(?:i )?(?:cant|cannot|wont|dont|no longer|never|not able to|unable to|cant ever|dont want to|cant)(?: be able to)? (?:(?:train|do|make|work|exercise|have time(?: for| to train)?|can(?: train| do)?|make it)(?: anymore| any more)?(?: on)?|on) <L list>{_SINCE}",
        rf"(?:i )?(?:no longer have time|have no time(?: anymore| any more)?|no time(?: anymore)?)(?: on| for)? <L list>{_SINCE}",
        rf"<L list> (?:are|dont|wont|no longer) (?:out|off limits|unavailable|not an option|work|suit(?: me)?|no good|impossible|bad|gone|off|not possible|no longer possible|always bad|a no go|difficult)(?: for me)?{_SINCE}",
        rf"(?:on )?<L list> i (?:can never|cant ever|never can|can no longer|no longer can) ?(?:train|do it|make it)?{_SINCE}",
    ),
    *shapes(_no_more, rf"(?:keep|leave|have|want)(?: my)? <L list> free{_SINCE}"),
    *shapes(
        _rest_days,
        rf"(?:my |the |make |put |have |set |i want |want )*rest(?: days?)?(?: (?:are|is|on|be|should be|to be|to))* (?P<list>D\d+(?:,? and| or|,) D\d+){_SINCE}",
    ),
    *shapes(
        _also, rf"(?:add|also add|also train|train also|include|also|plus)(?: on)? <L list>(?: as well| too| to my days)?{_SINCE}"
    ),
    *shapes(_weekdays, rf"(?P<rule>{_DAYS_ARE}) <L list>{_SINCE}(?: only)?", rf"(?P<rule>days?) <L list>{_SINCE}"),
    *shapes(
        _weekdays,
        rf"(?P<rule>only|just)(?: on)? <L list>(?: (?:works?|suits?|is possible|are possible|fits?|is ok|are ok)(?: me| for me)?)?{_SINCE}",
    ),
    *shapes(
        _weekdays,
        rf"<L list> (?P<rule>only|works? best(?: for me)?|suits? me(?: best)?|are my (?:new )?(?:training )?days|is my (?:new )?week)(?: for me)?{_SINCE}",
        rf"(?:from|starting|as of) (?P<since>P\d+|D\d+)(?: on(?:wards)?)? {_TRAIN_ON} ?<L list>(?: only)?",
        rf"<L list>(?P<rule> {FOR_GOOD})",
        rf"(?P<rule>{FOR_GOOD}) {_TRAIN_ON} ?<L list>(?: only)?",
        rf"{_TRAIN_ON} <L list>(?: only)?{_SINCE}",
        rf"(?P<bare><L list>)(?: only)?{_SINCE}",
        rf"(?:change|switch|move)(?: me| it)? to <L list>(?P<rule>){_SINCE}",
    ),
    *shapes(
        _how_many,
        r"(?:(?:i |we )?(?:can |could |will |want to |want |only |just |now |do |train |have |manage |make |change |switch |reduce |cut |it |down |to |go |my |plan )*)<N n> (?:N\d+|(?:per|each|every) week)(?: only| now| from now on| please| (?:is|are) (?:enough|plenty|fine|best|max|all i can do))*",
    ),
    *shapes(
        _how_many,
        r"(?:i )?(?:only|just)(?: (?:want|like|need|can|have time|manage))*(?: to)?(?: train| do| for)? <N n>(?: now| from now on)*",
    ),
    *shapes(
        _rolling,
        r"(?:let |make |have |keep )?(?:my |the )?(?:days|sessions|plan|week|everything|it|training|split|schedule) (?:to |should |just )*(?:move|slide|roll|shift|go|moves|slides|rolls)(?: along| on| with me)? (?:when|if|whenever|once) i (?:miss|skip|cant)[a-z ]*",
        r"(?:(?:make|switch|change|go|use|set|do|put|have)(?: it| me| my (?:days|plan|week)| the plan)?(?: to| on| with)? )?(?:a |my |the )?(?:rolling|floating|flexible)(?: (?:week|plan|schedule|rhythm|days|split|order|basis))",
        r"(?:make it|go|switch to|change to|use|a|set it to) rolling|rolling please",
        r"(?:just )?(?:let|make|have) (?:it|them|things|everything|the days|my days|my plan|the plan) (?:just )?(?:roll|float|flow|slide|be flexible)(?: along| on)?",
        r"(?:my |the )?(?:days|plan|sessions|week) (?:should |to |can |must )+roll(?: along| on)?",
        r"(?:just )?(?:go on|carry on|continue|keep going)(?: with)? (?:the |my )?next (?:day|session|one) (?:when|if|whenever) i (?:miss|skip)[a-z ]*",
    ),
)
CHANGES = shapes(
    _which_days,
    rf"(?:(?:change|different|other|new|switch|swap|choose|pick|set|update|edit) )+(?:my |the |our )?(?:training |work ?out |gym )?(?:days|weekdays|schedule){_SINCE}",
    rf"(?:my |the )?(?:training )?days (?:need|have|want|should|must|can|could)(?: to)? (?:change|be different|be changed|move){_SINCE}",
)
STARTS = shapes(
    start_of_block,
    r"(?:start|begin|starting|beginning|kick off|launch)(?: with)?(?: the| my| a| our)?(?: new| next| coming| this)* (?:block|plan|cycle|month|week 1|week one|phase)(?: on| from| only)? <D on>",
    r"(?:start|begin|starting|beginning|kick off)(?: with)?(?: the| my| a| our)?(?: new| next| coming| this)* (?:block|plan|cycle|phase)(?: on| from| in)? <P period>",
    r"(?:im |ill )?(?:start|begin|starting|beginning) (?:on |from )?<D on>",
    r"(?:push|move|put) (?:the |my )?start(?: date)? (?:to|till|until|on|back to) <D on>",
    r"(?:i )?wont (?:start|begin) (?:before|until|till) <D on>",
    r"(?:the |my )?(?:new |next )*(?:block|cycle|plan) (?:to )?(?:starts?|begins?|starting|from|start on|begin on)(?: on| from)? <D on>",
    r"(?:start|begin) (?:it |training )?(?:on )<D on>",
    r"(?:my |the )?(?:first day|day one|start(?: date| day)?|first session) (?:is |be |should |to |will |on |can |shall )*<D on>",
    r"(?:start|begin)(?: the block| it| in| on)? <P period>",
    r"(?:the |my |our )?(?:new|next|coming) (?:block|cycle|plan|phase) (?:on |from |for )?<D on>",
    r"(?:the |my |our )?(?:new|next|coming) (?:block|cycle|plan|phase) (?:on |from |for )?<P period>",
)
