"""What does a member wish about days, reminders or place? One deed with concrete dates, one question, or nothing.

    "move tomorrow to saturday"  -> Move(on=Thu 5, to=Sat 7)
    "cant train thurs"           -> a question: move it to the next free day, or leave it out (unless the plan says which)
    "20x12", "sat on the bench"  -> nothing: dates are looked for only beside one of the trade's verbs

Plan: the wish's own words are a small table of shapes, tried from the most telling to the least; each cuts out its date or time
fields, and only those are read. A field that is unclear ("5/12", "half six", "next friday") becomes the question's options.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from bot.language.dates.moments import DATE, DAY, TODAY, TOMORROW, number_of, read_date, times_of_day, weekday_of
from bot.training.plan import (
    Away,
    Backdate,
    Deed,
    Missed,
    Move,
    Pause,
    Plan,
    PlannedSession,
    QuietHours,
    ReminderAgain,
    ReminderAt,
    Resume,
    Shift,
    SilentDays,
    Skip,
    StartBlock,
    Swap,
    Weekdays,
    ZoneMove,
    next_free_day,
    sessions_between,
)

_TIME = r"(?:half(?: past)? \w+|(?:a )?quarter (?:to|past) \w+|\d{1,2}(?:[:.h]\d{2}|h)?(?: ?(?:am|pm|a\.m\.?|p\.m\.?))?|noon|midday|(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)(?: thirty)?(?: ?(?:am|pm))?)(?: (?:in the )?(?:morning|afternoon|evening|night))?"
_THING = r"(?:my |the |this |that |todays? |our )?(?:training|session|workout|gym|exercise|practice|leg day|day \d|class|lift(?:ing)?|(?:\w+ )?day)s?"
_SETS = re.compile(r"\d\s*[x×*]\s*\d|\d\s*(?:kg|lbs?|reps?)\b|\brpe\b", re.IGNORECASE)
_MONTHS = r"(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*"
# One word alone wishes nothing about days: "drop" and "miss" are said of sets, "ill" is also "I'll".
_TOO_SHORT = frozenset(
    {"drop", "miss", "skip", "weekdays", "weekends", "ill", "cancel", "break", "off", "hold", "freeze", "every", "daily", "busy"}
)
# "I'm in the gym now", "in bed", "in a rush" say where somebody is, not by which clock they live.
_NO_PLACE = re.compile(
    r"(?:an?|my|our|no|some|good|bad|great|better|so|between)\b|the (?!hague|netherlands|us\b|usa|uk\b|states|philippines|bronx|algarve)"
    r"|(?:bed|pain|shape|agony|trouble|love|doubt|tears|hospital|recovery|work|training|school|class|town|week \d)\b"
)
_DEFAULT_SURE = 0.9


@dataclass(frozen=True, slots=True)
class PlanOption:
    label: str
    deed: Deed


@dataclass(frozen=True, slots=True)
class PlanQuestion:
    """code: which kind of doubt; about: the words in doubt."""

    code: str
    about: str
    options: tuple[PlanOption, ...]


@dataclass(frozen=True, slots=True)
class PlanReading:
    """deeds: in order, empty if nothing was understood as a wish about days; question: to be asked instead. certainty 0 to 1."""

    deeds: tuple[Deed, ...] = ()
    question: PlanQuestion | None = None
    certainty: float = 0.0


_NOTHING = PlanReading()


@dataclass(frozen=True)
class _Desk:
    """The situation of one reading."""

    today: date
    plan: Plan
    names: Mapping[int, str]
    sessions: tuple[PlannedSession, ...]
    locale: str

    def dates(self, field: str, *, past: bool = False) -> tuple[date, ...]:
        said = read_date(field, today=self.today, locale=self.locale, past=past)
        return said.dates if said else ()

    def on(self, day: date) -> PlannedSession | None:
        return next((one for one in self.sessions if one.date == day), None)

    def next_of(self, number: int) -> date | None:
        """When a day of the split comes next."""
        return next((one.date for one in self.sessions if one.day_number == number and one.date >= self.today), None)

    def what(self, field: str) -> tuple[date, ...]:
        """The dates of the session that a field names: by date, by "day 3", by the day's name ("legs", "leg day")."""
        text = re.sub(r"\b(?:my|the|this|that|session|workout|training|one|s)\b|['’]s\b", " ", field.lower())
        text = re.sub(r"\s+", " ", text).strip(" .,!?'’")
        numbered = re.fullmatch(r"day (\d)", text)
        if numbered:
            on = self.next_of(int(numbered[1]))
            return (on,) if on else ()
        dates = (self.dates(text) or self.dates(text.removesuffix("s"))) if text else ()
        if dates:
            return dates
        stem = re.sub(r"\b(?:day|days)\b", "", text).strip().rstrip("s")
        fitting = [n for n, name in self.names.items() if len(stem) >= 3 and re.search(rf"\b{re.escape(stem)}", name.lower())]
        found = [on for on in (self.next_of(number) for number in fitting) if on is not None]
        return (min(found),) if found else ()


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
    words = _tidy(text)
    if not words or len(words) > 300 or _SETS.search(words) or words.rstrip("?!. ") in _TOO_SHORT:
        return _NOTHING
    names = day_names or {}
    today = now.date()
    count = len(names) or sum(rhythm)
    sessions = sessions_between(plan, rhythm, count, today - timedelta(days=7), today + timedelta(days=35), done, today=today)
    desk = _Desk(today, plan, names, sessions, locale)
    asks = words.endswith("?")
    words = words.rstrip("?!. ")
    polite = re.match(
        r"(?:hey |hi |coach |ok |so |sorry |please |pls |and |but |also )*(?:(?:can|could|may) (?:we|i|you)|is it ok(?:ay)? (?:if i|to)|would it be ok(?:ay)? (?:if i|to)|i(?:d| would) like to|i (?:want|need|wanna|have)(?: to)?|lets|let us|please|pls|im going to|im gonna|ill|i will|i shall|gonna) ",
        words,
    )
    if asks and not polite:
        return _NOTHING
    rest = words[polite.end() :] if polite else words
    for pattern, reader in _SHAPES:
        for tried in dict.fromkeys((rest, words)):
            found = pattern.fullmatch(tried)
            reading = reader(desk, found) if found else None
            if reading is not None:
                return reading
    return _NOTHING


def _tidy(text: str) -> str:
    words = text.lower().replace("’", "'").replace("'", "").replace("→", " to ")
    words = re.sub(rf"\b(\d{{1,2}}) ?[-–] ?(\d{{1,2}}) ({_MONTHS})", r"\1 \3 to \2 \3", words)
    words = re.sub(r"\s+", " ", re.sub(r"[,;!]+", " ", words)).strip(" .")
    return re.sub(r"^(?:sorry |something (?:has )?(?:came|come) up )+(?=.)", "", words)


def _sure(*deeds: Deed, certainty: float = _DEFAULT_SURE) -> PlanReading:
    return PlanReading(deeds, None, certainty)


def _ask(code: str, about: str, options: Sequence[tuple[str, Deed]]) -> PlanReading:
    return PlanReading((), PlanQuestion(code, about, tuple(PlanOption(label, deed) for label, deed in options)), _DEFAULT_SURE)


def _say(on: date) -> str:
    return f"{on:%a} {on.day} {on:%b}"


def _move(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    froms, tos = desk.what(found["what"]), desk.dates(found["to"])
    if not froms or not tos:
        return None
    froms = tuple(on for on in froms if desk.on(on)) or froms
    if len(froms) == 1 and len(tos) == 1:
        return _sure(Move(froms[0], tos[0])) if froms[0] != tos[0] else None
    pairs = [(a, b) for a in froms for b in tos if a != b]
    doubtful = found["to"] if len(tos) > 1 else found["what"]
    return _ask("which_date", doubtful, [(f"{_say(a)} to {_say(b)}", Move(a, b)) for a, b in pairs[:4]])


def _move_where(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    """ "Move friday": the free days that follow are the question."""
    froms = [on for on in desk.what(found["what"]) if desk.on(on)]
    if len(froms) != 1:
        return None
    free: list[date] = []
    while len(free) < 3 and (on := next_free_day(desk.sessions, free[-1] if free else froms[0], plan=desk.plan)):
        free.append(on)
    return _ask("which_date", found["what"], [(f"Move it to {_say(on)}", Move(froms[0], on)) for on in free]) if free else None


def _day_after(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    froms = desk.what(found["what"])
    return _sure(Move(froms[0], froms[0] + timedelta(days=1))) if len(froms) == 1 else None


def _todays(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    """ "I'll do it tomorrow": today's session, if today has one."""
    tos = desk.dates(found["to"])
    if desk.on(desk.today) is None or not tos or desk.today in tos:
        return None
    if len(tos) > 1:
        return _ask("which_date", found["to"], [(_say(on), Move(desk.today, on)) for on in tos])
    return _sure(Move(desk.today, tos[0]), certainty=0.85)


def _swap(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    a, b = desk.what(found["a"]), desk.what(found["b"])
    if not a or not b:
        return None
    if len(a) == 1 and len(b) == 1:
        return _sure(Swap(a[0], b[0])) if a[0] != b[0] else None
    return _ask("which_date", found["b"], [(f"{_say(x)} and {_say(y)}", Swap(x, y)) for x in a for y in b if x != y][:4])


def _cannot(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    """A session cannot be done: slides or drops as the plan says, else one question."""
    field = found["on"] or "today"
    dates = desk.what(field)
    if not dates:
        return None
    if len(dates) > 1:
        return _ask("which_date", field, [(_say(on), Skip(on)) for on in dates])
    on = dates[0]
    free = next_free_day(desk.sessions, on, plan=desk.plan)
    if desk.on(on) is None or desk.plan.missed is Missed.DROPS or free is None:
        return _sure(Skip(on))
    if desk.plan.missed is Missed.SLIDES:
        return _sure(Move(on, free))
    return _ask("move_or_skip", _say(on), [(f"Move it to {_say(free)}", Move(on, free)), ("Leave it out", Skip(on))])


def _skip(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    dates = desk.what(found["on"] or "today")
    if len(dates) > 1:
        return _ask("which_date", found["on"], [(_say(on), Skip(on)) for on in dates])
    return _sure(Skip(dates[0])) if dates else None


def _shift(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    count = number_of(found["n"] or "a")
    if count is None:
        return None
    days = count * (7 if found["unit"].startswith("week") else 1)
    earlier = (found.groupdict().get("how") or "").strip() in ("forward", "earlier", "up")
    return _sure(Shift(desk.today, -days if earlier else days))


def _away(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    fields = found.groupdict()
    first_field, last_field = fields.get("first"), fields.get("last")
    if first_field == "next week" and not last_field:
        monday = desk.dates("next week")[0]
        return _sure(Away(monday, monday + timedelta(days=6)))
    if first_field == "this week" and not last_field:
        return _sure(Away(desk.today, desk.today + timedelta(days=6 - desk.today.weekday())))
    if first_field in ("the weekend", "this weekend") and not last_field:
        return _sure(Away(*desk.dates("the weekend")))
    firsts = desk.dates(first_field) if first_field else (desk.today,)
    if not firsts:
        return None
    if not last_field:
        lasts: tuple[date | None, ...] = firsts if first_field else (None,)
        return (
            _sure(Away(firsts[0], lasts[0]))
            if len(firsts) == 1
            else _ask("which_date", first_field or "", [(_say(on), Away(on, on)) for on in firsts])
        )
    ends = [end for start in firsts[:1] for end in _after(desk, last_field, start)]
    if not ends:
        return None
    if len(firsts) == 1 and len(ends) == 1:
        return _sure(Away(firsts[0], ends[0]))
    spans = [(a, b) for a in firsts for b in ends if b >= a]
    return _ask("which_date", last_field, [(f"{_say(a)} to {_say(b)}", Away(a, b)) for a, b in spans[:4]])


def _away_for(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    firsts, count = desk.dates(found["first"] or "today"), number_of(found["n"])
    if len(firsts) != 1 or not count:
        return None
    days = count * (7 if found["unit"].startswith("week") else 1)
    return _sure(Away(firsts[0], firsts[0] + timedelta(days=days - 1)))


def _after(desk: _Desk, field: str, start: date) -> tuple[date, ...]:
    """The end of a span that begins at `start`: "next wed" after friday is the first Wednesday behind it."""
    weekday = re.fullmatch(rf"(?:next |the next |following |the following )?({DAY})", field)
    number = weekday_of(weekday[1]) if weekday else None
    if number is not None:
        return (start + timedelta(days=(number - start.weekday()) % 7 or 7),)
    return desk.dates(field)


def _until(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    """ "no training till monday", "back on the 3rd": away until the day before."""
    backs = desk.dates(found["back"])
    if not backs:
        return None
    options = [(_say(on), Away(desk.today, on - timedelta(days=1))) for on in backs if on > desk.today]
    if len(options) == 1:
        return _sure(options[0][1])
    return _ask("which_date", found["back"], options) if options else None


def _back(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    backs = desk.dates(found["back"] or "today")
    if len(backs) > 1:
        return _ask("which_date", found["back"], [(_say(on), Resume(on)) for on in backs])
    if not backs:
        return None
    away = desk.plan.is_away(desk.today) or desk.plan.is_away(backs[0])
    return _sure(Resume(backs[0])) if away or backs[0] == desk.today else _sure(Away(desk.today, backs[0] - timedelta(days=1)))


def _pause(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    fields = found.groupdict()
    if fields.get("n"):
        count = number_of(fields["n"] or "")
        if count is None:
            return None
        days = count * (
            7 if (fields["unit"] or "").startswith("week") else 30 if (fields["unit"] or "").startswith("month") else 1
        )
        return _sure(Pause(desk.today, desk.today + timedelta(days=days - 1)))
    if fields.get("back"):
        backs = desk.dates(fields["back"] or "")
        return _sure(Pause(desk.today, backs[0] - timedelta(days=1))) if len(backs) == 1 else None
    return _sure(Pause(desk.today, None))


def _reminder(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    times = times_of_day(found["at"])
    if len(times) > 1:
        return _ask("which_time", found["at"], [(f"{at:%H:%M}", ReminderAt(at)) for at in times])
    return _sure(ReminderAt(times[0])) if times else None


def _quiet_before(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    times = times_of_day(found["at"])
    if len(times) > 1:
        return _ask("which_time", found["at"], [(f"{at:%H:%M}", QuietHours(end=at)) for at in times])
    return _sure(QuietHours(end=times[0])) if times else None


def _quiet_after(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    hour = found["at"]
    # "After 9" is an evening: no reminder could come between nine in the morning and midnight otherwise.
    bare = re.fullmatch(r"\d{1,2}(?::\d\d)?", hour)
    times = times_of_day(f"{hour} pm" if bare and int(hour.split(":")[0]) <= 11 else hour)
    return _sure(QuietHours(start=times[0])) if times else None


def _quiet_between(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    start, end = times_of_day(found["a"]), times_of_day(found["b"])
    return _sure(QuietHours(start[0], end[0])) if len(start) == 1 and len(end) == 1 else None


def _again(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    fields = found.groupdict()
    if not fields.get("n"):
        return _sure(ReminderAgain(120))
    count = number_of(fields["n"] or "")
    return _sure(ReminderAgain(count * (60 if (fields["unit"] or "").startswith("h") else 1))) if count else None


def _silent(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    days = _days_in(found["days"])
    return _sure(SilentDays(tuple(sorted(days)))) if days else None


def _days_in(field: str) -> list[int]:
    if re.search(r"\bweekends?\b", field):
        return [5, 6]
    if re.search(r"\bweekdays?\b", field):
        return [0, 1, 2, 3, 4]
    return list(dict.fromkeys(n for n in (weekday_of(word) for word in re.findall(DAY, field)) if n is not None))


def _weekdays(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    field = found["days"]
    but = re.search(r"\b(?:but|except|not|apart from|besides)\b(.*)", field)
    left_out = _days_in(but[1]) if but else []
    named = _days_in(field[: but.start()] if but else field)
    if re.search(r"\b(?:every ?day|all days|daily|each day)\b", field):
        named = list(range(7))
    days = tuple(day for day in named if day not in left_out)
    if not days or (len(days) == 1 and not but):
        return None
    since = desk.dates(found["since"]) if found["since"] else (desk.today,)
    return _sure(Weekdays(days, since[0])) if since else None


def _start(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    dates = desk.dates(found["on"])
    if len(dates) > 1:
        return _ask("which_date", found["on"], [(_say(on), StartBlock(on)) for on in dates])
    return _sure(StartBlock(dates[0])) if dates else None


def _zone(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    place = found["place"].strip()
    return _sure(ZoneMove(place)) if re.search(r"[a-z]{2}", place) and not _NO_PLACE.match(place) else None


def _backdate(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    fields = found.groupdict()
    dates = desk.dates(fields.get("on") or "yesterday", past=True)
    if not dates:
        return None
    number = int(fields["n"]) if fields.get("n") else None
    if number is None and fields.get("name"):
        stem = re.sub(r"\b(?:day|days|session|workout)\b", "", fields["name"] or "").strip().rstrip("s")
        fitting = [n for n, name in desk.names.items() if len(stem) >= 3 and stem in name.lower()]
        if not fitting:
            return None
        number = fitting[0]
    if number is not None and desk.names and number not in desk.names:
        return None
    return _sure(Backdate(dates[0], number)) if dates[0] <= desk.today else None


def _instead_today(desk: _Desk, found: re.Match[str]) -> PlanReading | None:
    """ "doing fridays session today", "can we do legs sunday instead"."""
    froms, tos = desk.what(found["what"]), desk.dates(found["to"])
    if len(froms) != 1 or not tos or froms[0] == tos[0]:
        return None
    if len(tos) > 1:
        return _ask("which_date", found["to"], [(_say(on), Move(froms[0], on)) for on in tos])
    return _sure(Move(froms[0], tos[0]), certainty=0.85)


def _shape(
    pattern: str, reader: Callable[[_Desk, re.Match[str]], PlanReading | None]
) -> tuple[re.Pattern[str], Callable[[_Desk, re.Match[str]], PlanReading | None]]:
    return re.compile(pattern + r"(?: (?:please|pls|thanks|thx|ok|if (?:possible|thats ok(?:ay)?)|instead))*"), reader


_MOVE_VERB = r"(?:move|shift|push|put|reschedule|postpone|bump|change|switch|bring|delay|slide)"
_CANNOT = r"(?:(?:i )?(?:cant|cannot|can not|wont be able to|not able to|couldnt|wont)(?: make it| make| do| train| lift| work ?out| exercise| come| be training)?(?: (?:it|anything|training|my session|the session|the workout))?|no (?:time|chance|training|session|workout|gym)|(?:im )?not training|(?:im )?not doing(?: it| training| anything)?|i have no time|im busy|busy)"
_SKIP_VERB = r"(?:skip|cancel|drop|leave out|miss|ill miss|missing|skipping|no training|not training)"
_AWAY_WORD = r"(?:(?:im |i am |ill be |i will be |will be |well be |be |am )?(?:(?:going )?away|travel?ling|on (?:a )?(?:holiday|vacation|trip|business trip)|out of town|off|gone|on the road|abroad)|(?:i )?(?:have|got) (?:a )?(?:holiday|vacation|trip)|holiday|vacation)"
_SICK = r"(?:(?:im |i am |been |feeling )?(?:sick|ill|unwell|down with (?:the )?flu|got (?:the )?flu|have (?:the |a )?(?:flu|cold)|in bed(?: sick)?))"
_SHAPES = (
    _shape(
        rf"(?:remind me|reminders?|my reminders?|set (?:my |the )?reminders?(?: to)?|change (?:my |the )?reminders? to|make (?:it|the reminder|my reminder)|notify me|ping me|nudge me)(?: (?:to|at|for|every day at|daily at|in the morning at))* (?P<at>{_TIME})(?: every ?day| daily| from now on| on training days)?",
        _reminder,
    ),
    _shape(
        rf"(?:remind me )?(?:no|dont send|stop)(?: any)? (?:reminders?|messages|pings|texts)(?: to me)? before (?P<at>{_TIME})|nothing before (?P<at3>{_TIME})|(?:dont|do not|never) (?:remind|message|ping|text|write|bother) me before (?P<at2>{_TIME})",
        lambda desk, found: _quiet_before(desk, _renamed(found)),
    ),
    _shape(
        rf"(?:no|dont send|stop)(?: any)? (?:reminders?|messages|pings|texts)(?: to me)? after (?P<at>{_TIME})|nothing after (?P<at3>{_TIME})|(?:dont|do not|never) (?:remind|message|ping|text|write|bother) me after (?P<at2>{_TIME})",
        lambda desk, found: _quiet_after(desk, _renamed(found)),
    ),
    _shape(
        rf"(?:quiet(?: hours)?|no (?:reminders?|messages)|nothing|do not disturb|(?:dont|do not|never) (?:remind|message|ping|text|write|bother) me)(?: from| between)? (?P<a>{_TIME}) (?:to|and|until|till|-) (?P<b>{_TIME})",
        _quiet_between,
    ),
    _shape(
        r"(?:stop (?:the )?(?:reminding me|reminders?)|no (?:more )?reminders?|dont remind me|do not remind me|turn off (?:the |my )?reminders?|reminders? off) (?:on|at|for) (?P<days>[a-z ]+)",
        _silent,
    ),
    _shape(
        r"(?:stop (?:the |all |my )?(?:reminding me|reminders?)|no (?:more )?reminders?|dont remind me(?: anymore| any more)?|turn (?:the |my )?reminders? off|turn off (?:the |my )?reminders?|reminders? off)",
        lambda desk, found: _sure(ReminderAt(None)),
    ),
    _shape(
        r"(?:remind me (?:again|twice|a second time)|(?:a )?second reminder|one more reminder|nudge me again)(?: (?:in |after )?(?P<n>\d+|an?|one|two|three) ?(?P<unit>h(?:ours?|rs?)?|min(?:ute)?s?)(?: later)?)?",
        _again,
    ),
    _shape(
        r"(?:no second reminder|only one reminder|dont remind me (?:again|twice))", lambda desk, found: _sure(ReminderAgain(None))
    ),
    _shape(
        r"(?:swap|switch|exchange|flip|trade)(?: round| around)? (?P<a>[a-z0-9 ]+?) (?:and|with|for|&) (?P<b>[a-z0-9 ]+?)(?: around| round)?",
        _swap,
    ),
    _shape(
        r"(?:push|move|shift|slide|bump|put|delay)(?: everything| it all| all(?: of it)?| the (?:whole )?(?:week|plan|block)| all sessions)(?P<how> back| forward| along| out| later| earlier| up)?(?: by)? (?P<n>an?|one|two|three|four|five|\d{1,2}) (?P<unit>days?|weeks?)(?: later| back| earlier)?",
        _shift,
    ),
    _shape(rf"{_MOVE_VERB} (?P<what>.+?) to the (?:next day|day after)", _day_after),
    _shape(rf"(?P<what>{DATE})s? (?:is |s )?(?:no good|not good|bad|impossible|out) (?:lets )?make it (?P<to>{DATE})", _move),
    _shape(rf"(?:move|reschedule|postpone) (?P<what>{DATE}s?(?: session| workout)?|day \d|[a-z]+ day)", _move_where),
    _shape(
        rf"(?:do|doing|doing) (?:it|this|(?:todays|the|my|this) (?:session|workout|training)) (?:on )?(?P<to>{DATE})(?: instead(?: of today)?)?"
        rf"|(?:train|training|lift|work ?out|go) (?:on )?(?P<to2>{DATE}) instead(?: of (?:today|tonight))?",
        lambda desk, found: _todays(desk, _renamed(found)),
    ),
    _shape(rf"{_MOVE_VERB} (?P<what>.+?) (?:to|till|until|onto|on|for) (?P<to>{DATE})", _move),
    _shape(rf"(?:do|train|make|doing) (?P<what>.+?) (?:on )?(?P<to>{DATE}) instead(?: of .+)?", _instead_today),
    _shape(
        rf"(?:do|doing|did|training) (?P<what>(?:{DAY}s?|tomorrows?|todays|day \d|.+? day)(?: session| workout| training| one)?) (?P<to>{TODAY}|{TOMORROW})",
        _instead_today,
    ),
    _shape(
        rf"(?:start|begin|starting)(?: with)?(?: the| my| a)?(?: new| next)? (?:block|plan|program|programme|cycle)(?: on| from)? (?P<on>{DATE})",
        _start,
    ),
    _shape(rf"(?:start|begin|starting|beginning) (?:on )?(?P<on>{DATE})", _start),
    _shape(
        rf"(?:i )?did (?:my|the|yesterdays|todays|{DAY}s) (?:session|workout|training)(?: on)? (?P<on>{DATE})",
        _backdate,
    ),
    _shape(
        rf"i (?:did|trained|finished|completed|already did) (?:day (?P<n>\d)|(?:the |my )?(?P<name>[a-z]+(?: day| session| workout)))(?: on)? (?P<on>{DATE})|i (?:trained|did (?:it|the session|my session|the workout|my workout)) (?P<on2>{DATE})",
        lambda desk, found: _backdate(desk, _renamed(found)),
    ),
    _shape(
        rf"{_AWAY_WORD}(?: from| on)? (?P<first>next week|this week|the weekend|this weekend|{DATE})(?: (?:to|till|til|until|through|thru|-|and) (?P<last>(?:the )?(?:next |following )?{DAY}|{DATE}))?",
        _away,
    ),
    _shape(
        rf"{_AWAY_WORD} for (?P<n>an?|one|two|three|four|five|six|\d{{1,2}}) (?P<unit>days?|weeks?)(?: (?:from|starting)(?: on)? (?P<first>{DATE}))?",
        _away_for,
    ),
    _shape(rf"{_AWAY_WORD} (?:till|til|until) (?P<back>{DATE})", _until),
    _shape(
        rf"{_SICK}(?: (?P<first>this week|next week|{TODAY}|{TOMORROW}))?",
        lambda desk, found: _away(desk, found) if found["first"] else _sure(Away(desk.today, None), certainty=0.7),
    ),
    _shape(
        rf"(?:no training|not training|no sessions?|no workouts?|cant train|not able to train|wont train|wont be training)(?: again)? (?:till|til|until|before) (?P<back>{DATE})",
        _until,
    ),
    _shape(
        r"(?:pause|take a break|break|pausing|hold|freeze|i need a break|take|taking)(?: everything| the plan| training| my training| it| off)?(?: for)?(?: the next)? (?P<n>an?|one|two|three|four|five|six|\d{1,2}|couple of|few) (?P<unit>days?|weeks?|months?)(?: off| break)?",
        _pause,
    ),
    _shape(
        rf"(?:pause|take a break|pausing|freeze)(?: everything| (?:the|my) plan| training| my training| it)?(?: (?:till|til|until) (?P<back>{DATE}))?",
        _pause,
    ),
    _shape(
        rf"(?:im |i am |ill be |i will be )?back(?: to training| at it| training| in)?(?: on| from)* (?P<back>{DATE})|(?:(?:im )?back from (?:my )?(?:holidays?|vacation|(?:my |the )?trip|travel?ling)|im back|(?:resume|unpause|continue)(?: training| my training| the plan| my plan)?|back again|im healthy again|ready again)(?: (?:on )?(?P<back2>{DATE}))?",
        lambda desk, found: _back(desk, _renamed(found)),
    ),
    _shape(
        rf"(?:from (?P<since>next week|{DATE}) )?(?:train|training|my (?:training )?days (?:are|should be)|change my (?:training )?days to|i (?:can )?train(?: only)?(?: on)?|days:?|only(?: on)?)? ?(?:on )?(?P<days>(?:every ?day|daily|every weekday|weekdays|every|(?:{DAY})(?: |$)) ?(?:(?:but|except|not|apart from|and|on|weekdays?|weekends?|every ?day|day|/|{DAY})[ /]?)*?)(?: from now on| now| from (?P<since2>next week|{DATE})| starting (?P<since3>next week|{DATE}))?",
        lambda desk, found: _weekdays(desk, _renamed(found)),
    ),
    _shape(
        rf"{_SKIP_VERB}(?: (?:my |the )?(?:session|training|workout|gym|one))?(?: (?:on|for))? ?(?P<on>{DATE}|day \d|[a-z]+ day)?(?:s? (?:session|training|workout))?",
        _skip,
    ),
    _shape(
        rf"{_CANNOT}(?: (?:on|for|this))? ?(?P<on>{DATE}|(?:my |the )?(?:[a-z]+ day|day \d))?(?: (?:sorry|session|training|workout|because .+|im .+|have .+))?",
        _cannot,
    ),
    _shape(
        rf"(?P<on>{DATE}) (?:i cant|cant|i cannot|doesnt work|does not work|is not possible|not possible|wont work|no time|is no good|is bad(?: for me)?|i have no time)(?: for me| train(?:ing)?| make it)?",
        _cannot,
    ),
    _shape(
        r"(?:ive |i have |i |we |weve )?(?:just )?(?:moved|relocated|flew|flown) to (?P<place>[a-z .,-]{2,40})(?: (?:now|this week|last week|for (?:a while|good)))?|(?:im |i am )(?:living|now|based|staying)(?: now)? in (?P<place2>[a-z .,-]{2,40})(?: now)?|(?:im |i am )in (?P<place3>[a-z .,-]{2,40}?) (?:now|this week|(?:until|till|til) [a-z0-9 ]+|for (?:a|the next|\d+|two|three) (?:days?|weeks?|while|months?))|(?:change|set) my (?:time ?zone|zone|place|city) to (?P<place4>[a-z .,/+-]{2,40})",
        lambda desk, found: _zone(desk, _renamed(found)),
    ),
)


def _renamed(found: re.Match[str]) -> re.Match[str]:
    """A match whose alternatives name one field twice ("at", "at2"): the one that was said, under the plain name."""
    return _Merged(found)  # type: ignore[return-value]


class _Merged:
    """Reads like a match; "at2", "on2" ... stand in for "at", "on"."""

    def __init__(self, found: re.Match[str]) -> None:
        self._fields: dict[str, str | None] = {}
        for name, value in found.groupdict().items():
            plain = name.rstrip("234")
            self._fields[plain] = self._fields.get(plain) or value

    def __getitem__(self, name: str) -> str | None:
        return self._fields.get(name)

    def groupdict(self) -> dict[str, str | None]:
        return self._fields
