"""Which sessions does a plan hold from one date to another?

Problem: a rule that repeats for ever, changes made to it in any order, and sessions done on other days than planned.
Plan: lay out the rule over the dates that matter, carry out the changes one after another on that sheet, then take off the
sheet what was done elsewhere.

    Mon Tue Wed Fri Sat, "move Wednesday to Thursday", day 4 done on Friday's eve
    -> (Mon, 1) (Tue, 2) (Thu, 3, moved_from Wed) ... and Friday's day 4 is gone, because it is done
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta

from bot.training.plan_values import SPANS, Change, ChangeKind, Mode, Plan, PlannedSession

Sheet = dict[date, list[PlannedSession]]
_DAY = timedelta(days=1)
# A session done so near to its planned day is that one, done early or late; further off it is another round of the split.
_SAME_ROUND_DAYS = 6


def sessions_between(
    plan: Plan,
    rhythm: Sequence[bool],
    day_count: int,
    first: date,
    last: date,
    done: Mapping[date, int] | None = None,
    *,
    today: date | None = None,
) -> tuple[PlannedSession, ...]:
    """The sessions from first to last, both included, in order of date.

    done: date -> day number of sessions begun. A done session stands on its own date; its planned place elsewhere is free.
    today: the member's own date; in a rolling plan all before it that was not done has been missed and moved along. Left out,
    the latest done session counts as the present.
    """
    done = done or {}
    if day_count < 1 or last < first:
        return ()
    begin, end = _window(plan, first, last)
    if plan.mode is Mode.ROLLING:
        sheet = _rolling(plan, plan.rhythm or rhythm, day_count, end, done, today or max(done, default=plan.start))
    else:
        sheet = _by_weekday(plan, day_count, begin, end)
    if plan.previous is not None and begin < plan.start:
        before = plan.start - _DAY
        for session in sessions_between(plan.previous, rhythm, day_count, begin, before, done, today=today):
            sheet.setdefault(session.date, []).append(session)
    for change in plan.changes:
        _carry_out(sheet, change, plan.mode)
    if plan.mode is Mode.WEEKDAYS:
        _take_off_done(sheet, done)
    found = [session for on in sorted(sheet) if first <= on <= last for session in sheet[on]]
    return tuple(found)


def _window(plan: Plan, first: date, last: date) -> tuple[date, date]:
    """The dates to lay out: those asked for, and all from which a change may have brought something in."""
    later = sum(change.days for change in plan.changes if change.days > 0)
    earlier = sum(change.days for change in plan.changes if change.days < 0)
    dates = [first - timedelta(days=later), last - timedelta(days=earlier)]
    for change in plan.changes:
        if change.kind not in SPANS:
            dates += [one for one in (change.first, change.second) if one]
    near = timedelta(days=_SAME_ROUND_DAYS)
    if plan.previous is not None:
        return min(dates) - near, max(dates) + near
    begin = min([plan.start, *(old.start for old in plan.former)])
    return max(min(dates) - near, begin), max(dates) + near


def _by_weekday(plan: Plan, day_count: int, begin: date, end: date) -> Sheet:
    sheet: Sheet = {}
    on = begin
    while on <= end:
        number = _number_on(plan, day_count, on)
        if number is not None:
            sheet[on] = [PlannedSession(on, number)]
        on += _DAY
    return sheet


def _number_on(plan: Plan, day_count: int, on: date) -> int | None:
    rule = plan.rule_on(on)
    if on.weekday() not in rule.weekdays or on < rule.start:
        return None
    if len(rule.weekdays) == day_count:
        return rule.weekdays.index(on.weekday()) + 1
    # More or fewer training days than days in the split: they follow one another, round and round, from the start.
    ordered = sorted((weekday - rule.start.weekday()) % 7 for weekday in rule.weekdays)
    weeks, rest = divmod((on - rule.start).days, 7)
    return (weeks * len(ordered) + ordered.index(rest) + rule.first_day - 1) % day_count + 1


def _rolling(plan: Plan, rhythm: Sequence[bool], day_count: int, end: date, done: Mapping[date, int], today: date) -> Sheet:
    """Walk from the start: what is done moves the pointer on, what is missed does not."""
    if not any(rhythm):
        return {}
    sheet: Sheet = {}
    left = {change.first for change in plan.changes if change.kind in (ChangeKind.MOVED, ChangeKind.SKIPPED)}
    swapped = {one for c in plan.changes if c.kind is ChangeKind.SWAPPED for one in (c.first, c.second) if one}
    come = {change.second for change in plan.changes if change.kind is ChangeKind.MOVED} | swapped
    shifts = [change for change in plan.changes if change.kind is ChangeKind.SHIFTED and change.days > 0]
    owed = 0  # days by which everything still goes later
    spot, number, slid_from, on = _first_spot(plan, rhythm, day_count), plan.first_day, None, plan.start
    while on <= end:
        training = rhythm[spot % len(rhythm)]
        owed += sum(change.days for change in shifts if change.first == on or (on == plan.start and change.first < on))
        if owed > 0:
            owed -= 1
        elif plan.is_away(on):
            # Days without training are rest as well, so a rest day that was due is over.
            spot = spot if training else spot + 1
        elif on in done and not (on in come and done[on] != number):
            sheet[on] = [PlannedSession(on, done[on], slid_from)]
            while not rhythm[spot % len(rhythm)]:
                spot += 1
            spot, number, slid_from = spot + 1, done[on] % day_count + 1, None
        elif not training:
            spot += 1
        elif on in left or on in swapped or on >= today:
            sheet[on] = [PlannedSession(on, number, slid_from)]
            spot, number, slid_from = spot + 1, number % day_count + 1, None
        else:
            slid_from = slid_from or on
        on += _DAY
    return sheet


def _first_spot(plan: Plan, rhythm: Sequence[bool], day_count: int) -> int:
    """Where in the rhythm the first day stands: day 3 is the third on-day, where rhythm and split go together; else the first."""
    turns = [spot for spot, on in enumerate(rhythm) if on]
    return turns[plan.first_day - 1] if len(turns) == day_count and plan.first_day <= day_count else 0


def _carry_out(sheet: Sheet, change: Change, mode: Mode) -> None:
    match change.kind:
        case ChangeKind.MOVED if change.second:
            _put(sheet, change.second, sheet.pop(change.first, []))
        case ChangeKind.SWAPPED if change.second:
            one, other = sheet.pop(change.first, []), sheet.pop(change.second, [])
            _put(sheet, change.second, one)
            _put(sheet, change.first, other)
        case ChangeKind.SKIPPED:
            sheet.pop(change.first, None)
        case ChangeKind.SHIFTED if mode is Mode.WEEKDAYS or change.days < 0:
            _shift(sheet, change)
        case ChangeKind.AWAY | ChangeKind.PAUSED if mode is Mode.WEEKDAYS:
            for on in [on for on in sheet if change.covers(on)]:
                del sheet[on]
        case _:
            pass


def _shift(sheet: Sheet, change: Change) -> None:
    """Push a stretch along. A session that would land on one that stays is left out: a day takes one session."""
    inside = sorted(on for on in sheet if on >= change.first and (change.second is None or on < change.second))
    taken = [(on, sheet.pop(on)) for on in inside]
    for on, sessions in taken:
        to = on + timedelta(days=change.days)
        if to not in sheet:
            _put(sheet, to, sessions)


def _put(sheet: Sheet, on: date, sessions: list[PlannedSession]) -> None:
    for session in sessions:
        origin = session.moved_from or session.date
        moved = replace(session, date=on, moved_from=None if origin == on else origin)
        sheet.setdefault(on, []).append(moved)


def _take_off_done(sheet: Sheet, done: Mapping[date, int]) -> None:
    """A day that was done early or late leaves its planned place; what it displaced takes that place, if it is still to come."""
    numbers = {on: [session.day_number for session in sessions] for on, sessions in sheet.items()}
    for did, number in sorted(done.items()):
        if number in numbers.get(did, []):
            continue
        near = [
            on
            for on, sessions in sheet.items()
            if abs((on - did).days) <= _SAME_ROUND_DAYS
            and done.get(on) != number
            and any(session.day_number == number for session in sessions)
        ]
        if not near:
            continue
        place = min(near, key=lambda on: (abs((on - did).days), on < did))
        sheet[place] = [session for session in sheet[place] if session.day_number != number]
        displaced = [] if place < did else sheet.pop(did, [])
        _put(sheet, place, displaced)
