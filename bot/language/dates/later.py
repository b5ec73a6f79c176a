"""Not now: a session put off within its own day, and the one reminder asked for.

    "later", "not now, maybe tonight"        -> when shall I remind? in an hour, in two, or move it to a free day
    "remind me again in an hour", "snooze"   -> RemindOnce(18:40), or the same question

Only where today's session is still open; on any other day there is nothing to put off.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import datetime, time, timedelta

from bot.language.dates.clauses import Clause
from bot.language.dates.desk import Desk, PlanReading, ask, say, sure
from bot.training.plan import Deed, Move, RemindOnce

_IT = r"(?:it|this|that|mine|(?:the |my |this |todays )?(?:session|workout|training))"
_DOING = r"(?:do|doing|be doing|train|training|start|starting|begin|go|going|work out|lift|get to|have|make|be)"
_TODAY = r"(?: (?:today|tonight|on|in the (?:day|evening)|this (?:evening|afternoon)))*"
_AFTER = (
    r"after (?:(?:my|the) )?(?:work|dinner|lunch|breakfast|tea|school|supper|shift|nap|meeting|kids(?: are)?(?: in bed| asleep)?)"
)
_PUT_OFF = re.compile(
    rf"(?:(?:i|ill|will|can|im|need|to|just|not now|not yet) )*(?:{_DOING} )?(?:{_IT} )?(?:(?:a )?(?:bit|little|much) )?"
    rf"(?:later{_TODAY}|not (?:right |just )?(?:now|yet|at the moment)(?: {_IT})?|in a (?:bit|while|moment|minute|sec)|{_AFTER}{_TODAY}|"
    rf"(?:cant|cannot|busy|no time) (?:{_DOING} )?(?:{_IT} )?(?:just |right )?(?:now|at the moment)|not ready(?: yet)?|give me (?:a bit|a while|some time))"
    r"(?: (?:today|tonight|this (?:evening|afternoon)|maybe|perhaps|later|please))*"
)
_LATEST = time(22)  # what is offered stays before the night (our choice)
_STEP_MIN = 5


def read_put_off(desk: Desk, whole: str, clause: Clause) -> PlanReading | None:
    """A whole text that only says "not now", or wants to hear of today's session again.

    Where reminders are off, "remind me again" wants them back instead.
    """
    if desk.plan.reminder_local is not None and re.fullmatch(
        r"(?:ok |please |then )*remind me (?:once )?again(?: please| later)*", whole
    ):
        return when_once(desk)
    return when_once(desk) if _PUT_OFF.fullmatch(re.sub(r"[,;.!]+ ?", " ", clause.words)) and not clause.asks else None


def once(desk: Desk, minutes: int | None) -> PlanReading | None:
    """One reminder so many minutes from now."""
    if minutes is None or not 0 < minutes < 24 * 60:
        return None
    return sure(RemindOnce(_minute(desk.now + timedelta(minutes=minutes))))


def once_at(desk: Desk, times: Sequence[time]) -> PlanReading | None:
    """One reminder today at a time of day: of several that the words may mean, the first that is still to come."""
    later = (at.replace(hour=at.hour + 12) for at in times if at.hour < 12)
    coming = [found for at in (*times, *later) if (found := datetime.combine(desk.today, at)) > desk.now]
    return sure(RemindOnce(min(coming))) if coming else None


def when_once(desk: Desk) -> PlanReading | None:
    """When shall the one reminder come? Asked while today's session is still to be done."""
    if desk.open_on(desk.today) is None:
        return None
    options: list[tuple[str, Deed]] = []
    for hours in (1, 2, 3):
        at = _rounded(desk.now + timedelta(hours=hours))
        if at.date() == desk.today and at.time() <= _LATEST:
            options.append((f"At {at:%H:%M}", RemindOnce(at)))
    options += [(f"Move it to {say(on)}", Move(desk.today, on)) for on in desk.free_after(desk.today)]
    return ask("put_off", "", options) if options else None


def _minute(at: datetime) -> datetime:
    return at.replace(second=0, microsecond=0)


def _rounded(at: datetime) -> datetime:
    """To the next five minutes, as people say times."""
    return _minute(at) + timedelta(minutes=-at.minute % _STEP_MIN)
