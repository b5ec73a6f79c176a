"""Wishes about reminders: at what time, a second one, quiet hours, silent days, none.

Here the words stand in any order ("mornings at 6:15 for the reminder"), so what counts is which marks there are beside which words.
"""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import datetime, time, timedelta

from bot.language.dates.clauses import Clause
from bot.language.dates.desk import LESS_SURE, Desk, PlanReading, ask, sure
from bot.language.dates.fields import REMINDING
from bot.language.dates.later import once, once_at, when_once
from bot.training.plan import Deed, QuietHours, ReminderAgain, ReminderAt, SilentDays

_MOST_WORDS = 16
_NO = re.compile(
    r"\b(?:no|dont|stop|never|not|without|quit|cancel|off|disable|mute|pause|skip|hold|silence|less|hate|annoying|nothing|quiet|disturb|dont want|remove|shush|shut up|enough|drop|leave me|ditch|scrap|kill|bin|lose|cut|axe|forget)\b"
)
# Said about a reminder that came, or to somebody else: no wish.
_TALK = re.compile(
    r"\b(?:came|got|arrived|sent|received|didnt (?:get|come|receive)|was|were|helpful|love|like (?:the|your)|thanks for|you (?:guys|all)|ill (?:text|message|remind|ping|let)|i (?:text|message)d?|"
    r"her|him|them|she|he|they|coach|wife|husband|doctor|boss|reminds me of|remind me (?:what|how|which|who|why|of)|what time|when)\b"
)
_WISHES = re.compile(
    r"\b(?:me|us|reminders?|messages?|pings?|texts?|notifications?|alerts?|alarms?|nudges?|quiet|disturb|nothing|contact|snooze|silence|silent|shush|write|texting|messaging|pinging|mute|before|reminding|reminded|remind|nagging|nudging|bugging|bothering|buzz|buzzing|buzzes|beeps?|beeping)\b"
)
_AGAIN = re.compile(
    r"\bif i (?:still )?(?:havent|have not|didnt)\b|\b(?:again|second|twice|once more|one more|another|follow ?up|if i (?:havent|dont|didnt|forget|miss|ignore|sleep|overlook)|a 2nd|repeat)\b"
)
_ONLY_ONE = re.compile(
    r"\b(?:one (?:reminder )?is (?:enough|fine|plenty)|only (?:one|1)|just (?:one|1)|only once|just once|not twice|single reminder)\b"
)
_NIGHT = re.compile(r"\b(?:at night|overnight|during the night|in the night|nights?|while i sleep|when im asleep)\b")
_MORNING = re.compile(r"\b(?:in the mornings?|mornings|early|first thing)\b")
_WORKING = re.compile(r"\b(?:work|working|office|job|school|class|classes|lectures|shift)\b")
_QUIET_NIGHT = (QuietHours(time(22), time(7)), QuietHours(time(21), time(8)))


def read_reminding(desk: Desk, clause: Clause) -> PlanReading | None:
    """One clause about reminders; None if it is none."""
    words = clause.words
    if not REMINDING.search(words) or len(words.split()) > _MOST_WORDS or _TALK.search(words) or not _WISHES.search(words):
        return None
    if clause.asks and not clause.polite:
        return None
    if (both := _limits_and_days(desk, clause)) is not None:
        return both
    times = re.findall(r"T\d+", words)
    counts = [mark for mark in re.findall(r"N\d+", words) if desk.minutes_of(mark) is not None]
    days = re.findall(r"[DW]\d+", words)
    refuses = _NO.search(words) is not None
    if re.search(r"\b(?:evening|night|day) before\b", words):
        return None
    if len(times) == 1 and counts and (found := re.search(rf"{counts[0]} (before|after|earlier than|past|to) {times[0]}", words)):
        return _beside(desk, times[0], counts[0], earlier=found[1] not in ("after", "past")) if not refuses else None
    if (this_once := _once(desk, words, times, counts, days)) is not None and not refuses:
        return this_once
    if times:
        reading = _with_times(desk, words, times, refuses=refuses)
        once = [mark for mark in days if mark[0] == "D" and not desk.is_plural(mark)]
        return _for_every_day(reading) if reading is not None and once else reading
    if counts:
        return _with_counts(desk, words, counts[0], refuses=refuses)
    if days:
        return _with_days(desk, words, days, refuses=refuses)
    return _without_marks(desk, words, refuses=refuses, polite=clause.polite)


# A rule for every training day, or what is to happen if nothing was begun by then, is more than one reminder.
_AS_A_RULE = re.compile(r"\b(?:every|always|each|whenever|if|from now on|training days?|twice|second|daily)\b")


def _once(desk: Desk, words: str, times: list[str], counts: list[str], days: list[str]) -> PlanReading | None:
    """ "Remind me again in an hour", "snooze 30 min", "remind me tonight at 8", "remind me again": this session, and once."""
    if _AS_A_RULE.search(words) or not re.match(r"(?:remind|ping|nudge|snooze|text|message|notify|poke|prod|buzz)\b", words):
        return None
    if counts and not times and not days:
        found = re.fullmatch(
            rf"\w+(?: me| it)?(?: about it| again| once more)*(?: (?:for|in|in about|in like))? {counts[0]}(?: again| once more| from now)*",
            words,
        )
        return once(desk, desk.minutes_of(counts[0])) if found else None
    tonight = [mark for mark in days if desk.words(mark) in ("today", "tonight")]
    if len(times) == 1 and not counts and len(days) == len(tonight) and (tonight or re.search(r"\bagain\b|\bonce more\b", words)):
        return once_at(desk, desk.times(times[0]))
    if (
        re.fullmatch(
            r"\w+(?: me| it)?(?: about it)?(?: again| later| later on| once more| in a bit| in a while)*(?: [DT]\d+)?", words
        )
        and not times
    ):
        bare_snooze = words.split()[0] == "snooze" or re.search(r"again|later|once more|in a (?:bit|while)", words)
        return when_once(desk) if bare_snooze and len(days) == len(tonight) else None
    return None


def _limits_and_days(desk: Desk, clause: Clause) -> PlanReading | None:
    """ "No reminders after 10 pm and none on saturdays": one wish of hours, one of days."""
    found = re.fullmatch(
        r"(?P<first>[^DW]*T\d+[^DWT]*) (?:and|or|plus) (?:also |never |none |not |nothing |no )*(?P<then>on [^T]*)", clause.words
    )
    if found is None or not _NO.search(found["first"]):
        return None
    readings = [read_reminding(desk, replace(clause, words=words)) for words in (found["first"], f"no reminders {found['then']}")]
    deeds = [deed for reading in readings if reading is not None for deed in reading.deeds]
    return sure(*deeds) if len(deeds) == 2 else None


def _with_times(desk: Desk, words: str, times: list[str], *, refuses: bool) -> PlanReading | None:
    limits = refuses or re.search(r"\bonly\b", words) is not None
    if len(times) == 2 and re.search(r"\bonly\b.*\b(?:between|from)\b", words):
        until_at, from_at = desk.times(times[0]), desk.times(times[1])
        one_each = len(until_at) == 1 and len(from_at) == 1
        return (
            sure(QuietHours(_evening(from_at[0]) if from_at[0] <= until_at[0] else from_at[0], until_at[0])) if one_each else None
        )
    chosen = re.search(r"(T\d+),? (?:and )?not (?:at )?T\d+$", words)
    if chosen and not re.search(r"\b(?:no|dont|stop|never|nothing|quiet|silence)\b", words):
        return _chosen(desk, chosen[1], "reminder")
    if len(times) == 2 and (refuses or re.search(r"\b(?:between|from)\b", words)):
        # "Not before 9 or after 21" names the end of the night first.
        around = re.search(rf"\b(?:before|earlier than) {times[0]}\b.*\b(?:after|past|later than) {times[1]}", words)
        begin_mark, end_mark = reversed(times) if around and refuses else times
        start, end = desk.times(begin_mark), desk.times(end_mark)
        if not refuses or len(start) != 1 or len(end) != 1:
            return None
        if _WORKING.search(words) and start[0].hour < 12 and end[0] <= start[0]:
            return sure(QuietHours(start[0], _evening(end[0])))
        # "From 10 to 7" is a night: an evening hour without am or pm, before an end in the morning.
        begin = _evening(start[0]) if _is_bare(desk.words(begin_mark)) and end[0] <= start[0] < time(12) else start[0]
        return sure(QuietHours(begin, end[0]))
    instead = re.search(r"(T\d+) (?:instead of|rather than|not|and not|over) (?:at )?T\d+|T\d+ to (T\d+)", words)
    if instead and not refuses | (re.search(r"\bnot\b", words) is not None):
        return _chosen(desk, instead[1] or instead[2], "reminder")
    if len(times) > 1:
        return None
    mark = times[0]
    before = re.search(rf"\b(?:before (?:[a-z]+ ){{0,4}}|(?:until|till|til|earlier than|ahead of|prior to) ){mark}", words)
    after = re.search(rf"\b(?:after|past|later than|from) {mark}", words)
    if limits and (before or after):
        # "Only after 9" is "not before 9".
        if (after if not refuses else before) is not None:
            return _chosen(desk, mark, "end")
        return _chosen(desk, mark, "start")
    if refuses and not re.search(r"\b(?:late|early|off)\b", words):
        return None
    if before and not re.search(r"\bremind\w* me (?:to .*)?before\b|^(?:remind|ping|nudge|text|message)", words):
        return None
    if _AGAIN.search(words):
        return None
    return _chosen(desk, mark, "reminder")


def _for_every_day(reading: PlanReading) -> PlanReading:
    """ "Remind me tomorrow at 8": reminders come on every training day, so that is what is offered."""
    deed = reading.deeds[0] if reading.deeds else None
    if not isinstance(deed, ReminderAt) or deed.at is None:
        return reading
    return ask("every_day", f"{deed.at:%H:%M}", [(f"Every training day at {deed.at:%H:%M}", deed)])


def _is_bare(words: str) -> bool:
    return re.fullmatch(r"\d{1,2}(?::\d\d)?|[a-z]+", words) is not None


def _evening(at: time) -> time:
    return at.replace(hour=at.hour % 12 + 12) if at.hour else at


def _chosen(desk: Desk, mark: str, side: str) -> PlanReading | None:
    times = desk.times(mark)
    if side == "start" and times and _is_bare(desk.words(mark)) and times[0].hour < 12:
        # "After 9" is an evening: no reminder could come between nine in the morning and midnight otherwise.
        times = (_evening(times[0]),)
    if side == "reminder" and re.fullmatch(r"(?:half (?:past )?)?(?:5|6|7|five|six|seven)(?: ?o ?clock)?", desk.words(mark)):
        times = tuple(
            dict.fromkeys(both for at in times for both in (at, _evening(at)))
        )  # early birds and late workers both say so
    deeds = [_of_side(at, side) for at in times]
    if len(times) > 1:
        return ask("which_time", desk.words(mark), [(f"{at:%H:%M}", each) for at, each in zip(times, deeds, strict=True)])
    return sure(deeds[0]) if deeds else None


def _of_side(at: time, side: str) -> Deed:
    match side:
        case "end":
            return QuietHours(end=at)
        case "start":
            return QuietHours(start=at)
    return ReminderAt(at)


def _with_counts(desk: Desk, words: str, mark: str, *, refuses: bool) -> PlanReading | None:
    minutes = desk.minutes_of(mark)
    if minutes is None or not 0 < minutes < 24 * 60:
        return None
    if _AGAIN.search(words):
        return sure(ReminderAgain(minutes))
    if not refuses and re.match(
        rf"(?:remind|ping|nudge|snooze|text|message|notify)\w*(?: me)?(?: for| in| after)? {mark}$", words
    ):
        # Once only is not offered; a second reminder is, on every training day.
        return ask("again_always", f"{minutes}", [(f"A second reminder {minutes} minutes later", ReminderAgain(minutes))])
    found = re.search(
        rf"\b{mark} (?:of )?(earlier|sooner|later|forward|back)\b|\b(earlier|later|back|forward)(?: by)? {mark}\b", words
    )
    if found is None or refuses:
        return None
    earlier = (found[1] or found[2]) in ("earlier", "sooner")
    return _shifted(desk, -minutes if earlier else minutes)


def _shifted(desk: Desk, minutes: int) -> PlanReading:
    """So much earlier or later than now; without a reminder so far the time itself is asked for."""
    at = desk.plan.reminder_local
    if at is None:
        return _which_time(desk)
    moved = datetime.combine(desk.today, at) + timedelta(minutes=minutes)
    return sure(ReminderAt(moved.time())) if moved.date() == desk.today else _which_time(desk)


def _beside(desk: Desk, time_mark: str, span_mark: str, *, earlier: bool) -> PlanReading | None:
    """ "Two hours before 8 pm"."""
    times, minutes = desk.times(time_mark), desk.minutes_of(span_mark)
    if len(times) != 1 or minutes is None:
        return None
    at = datetime.combine(desk.today, times[0]) + timedelta(minutes=-minutes if earlier else minutes)
    return sure(ReminderAt(at.time())) if at.date() == desk.today else None


def _which_time(desk: Desk) -> PlanReading:
    return ask("which_time", "reminder", [(f"{hour:02}:00", ReminderAt(time(hour))) for hour in (7, 12, 17, 19)])


def _with_days(desk: Desk, words: str, marks: list[str], *, refuses: bool) -> PlanReading | None:
    if any(desk.words(mark) in ("today", "tonight", "tomorrow") for mark in marks):
        return None
    days = {day for mark in marks for day in desk.weekdays(mark)}
    if not days or re.search(r"N\d", words):
        return None
    if (refuses and re.search(r"\b(?:except|but|only|apart from)\b", words)) or (not refuses and re.search(r"\bonly\b", words)):
        days = set(range(7)) - days
    elif not refuses:
        silent = tuple(day for day in desk.plan.silent_weekdays if day not in days)
        return sure(SilentDays(silent), certainty=LESS_SURE) if silent != desk.plan.silent_weekdays else None
    return sure(SilentDays(tuple(sorted(days | set(desk.plan.silent_weekdays)))))


def _without_marks(desk: Desk, words: str, *, refuses: bool, polite: bool) -> PlanReading | None:
    if _ONLY_ONE.search(words) or (refuses and _AGAIN.search(words)):
        return sure(ReminderAgain(None))
    if refuses and _NIGHT.search(words):
        return ask("quiet_when", "night", [(f"{quiet.start:%H:%M} to {quiet.end:%H:%M}", quiet) for quiet in _QUIET_NIGHT])
    if refuses and _MORNING.search(words):
        options: list[tuple[str, Deed]] = [(f"Not before {hour:02}:00", QuietHours(end=time(hour))) for hour in (8, 10, 12)]
        return ask("quiet_when", "morning", options)
    if _AGAIN.search(words) and not re.search(r"\bback on\b|\bstart reminding\b", words):
        return sure(ReminderAgain(120))
    if refuses:
        return sure(ReminderAt(None)) if _stops_all(words) else None
    words = words.replace("too late", "earlier").replace("too early", "later")
    part = re.search(r"\b(mornings?|lunch ?time|afternoons?|evenings?)\b", words)
    if part and re.search(r"\breminders?\b|\bremind me\b", words) and len(words.split()) <= 8:
        hours_of = {"m": (6, 7, 8), "l": (12, 13), "a": (14, 16), "e": (17, 18, 19)}[part[1][0]]
        return ask("which_time", "reminder", [(f"{hour:02}:00", ReminderAt(time(hour))) for hour in hours_of])
    earlier = re.search(r"\b(earlier|sooner|later)\b", words)
    if earlier and desk.plan.reminder_local is not None:
        hours = (-60, -120) if earlier[1] != "later" else (60, 120)
        moved = [datetime.combine(desk.today, desk.plan.reminder_local) + timedelta(minutes=minutes) for minutes in hours]
        return ask("which_time", earlier[1], [(f"{at:%H:%M}", ReminderAt(at.time())) for at in moved])
    wants = r"(?:remind me|(?:turn|switch) (?:my |the )?(?:reminders?|notifications?) (?:back )?on|(?:turn|switch) (?:back )?on (?:my |the )?reminders?|(?:enable|activate|unmute|restart) (?:my |the )?(?:reminders?|notifications?)|(?:start|restart) reminding me|(?:send|give|set) me (?:a )?reminders?|reminders? (?:back )?on|(?:set|change|move) (?:a |my |the )?reminders?(?: time)?|(?:a |some )?reminders?)"
    return (
        _which_time(desk)
        if re.fullmatch(wants + r"(?: again| every day| daily| on training days| to train| about training)*", words)
        and (polite or " " in words)
        else None
    )


def _stops_all(words: str) -> bool:
    kind = r"(?:reminders?|reminding|reminded|remind|pings?|pinged|nudged|notified|pinging|ping|notifications?|notifying|notify|alerts?|buzzing|buzzes|beeping|poking|nudges?|nudging|nudge|bothering|bugging|bug|bother|nagging|nag|messages|messaging|message|texts|texting|text)"
    tail = r"(?: me| us| at all| from now on| now| already| i can remember| i remember myself| completely| altogether| forever| for now| any ?more| to train| about training| about my sessions| of training| every day| daily| from you| from the bot| so much| all the time| them| it| sent)*"
    return (
        re.fullmatch(
            rf"(?:stop|kill|bin|ditch|scrap|lose|cut|axe|forget|shut up with|enough with|enough of|no|no more|dont|do not|never|turn off|switch off|disable|mute|pause|skip|hold|cancel|quit|remove|silence|drop|(?:i )?(?:really )?(?:dont|do not|no longer) (?:want|need|require|like)|dont send|without|(?:theres )?no need(?: for)?|you (?:can|may|could|should) (?:stop|quit|leave off|drop|skip)|(?:you )?(?:dont|no longer|needn t|neednt)(?: have| need)?|stop with|leave off|give up|can do without|im fine without|i can do without)(?: you)?(?: to)?(?: get| have| receive| send| be)?"
            rf"(?: me)?(?: the| my| all| any| more| your| these| those| sending| getting| with| of)*(?: me)? {kind}(?: me)?{tail}", words
        ) is not None
        or re.fullmatch(rf"(?:turn|switch) (?:the |my |all )?{kind} off{tail}|{kind} off|(?:the |your )?{kind} (?:are|is) (?:too )?(?:annoying|a pain|too much)(?: (?:stop|so stop) (?:them|it))?", words) is not None
    )  # fmt: skip
