"""What is said about days: every change in concrete dates."""

from __future__ import annotations

from bot.chat.wording import says
from bot.chat.wording.phrases import esc, lines, say_date
from bot.coaching import replies

_HEADS = {
    "Move": "Moved",
    "Swap": "Swapped",
    "Skip": "Left out",
    "Shift": "Pushed along",
    "Away": "You are away",
    "Pause": "Paused",
    "Resume": "Going on",
    "Weekdays": "Your days are changed",
    "StartBlock": "The block begins",
    "Backdate": "Noted for that day",
    "ReminderAt": "Reminder changed",
    "ReminderAgain": "Second reminder changed",
    "SilentDays": "Reminders changed",
    "Rolling": "Your days are changed",
    "QuietHours": "Quiet hours set",
    "ZoneMove": "Your local time is changed",
}


@says(replies.PlanChanged)
def plan_changed(reply: replies.PlanChanged) -> str:
    head = _HEADS.get(reply.kind, "Changed")
    if reply.kind == "Swap" and not reply.dates:
        head = "Nothing changed"
    value = f": {esc(reply.value)}" if reply.value else ""
    rows = [f"{say_date(on)}  {f'day {number} ' if number else ''}{esc(what)}".rstrip() for on, number, what in reply.dates[:10]]
    return lines(f"<b>{head}</b>{value}.", *rows, *(esc(remark) for remark in reply.remarks))


_NOTHING = {
    "rest": "Nothing is planned today, so there is nothing to remind you of.",
    "begun": "Today's session is under way or done already, so I leave it at that.",
    "day": "By then the day of this session is over. Say move today to ... and it waits for you there.",
}


@says(replies.RemindedOnce)
def reminded_once(reply: replies.RemindedOnce) -> str:
    return _NOTHING.get(reply.nothing) or f"All right, I remind you at {reply.at:%H:%M}, this once."


_QUESTIONS = {
    "put_off": "No hurry. When shall I remind you, once? Tap a time or type one, like “at 20:00”.",
    "which_date": "“{}”: which date do you mean?",
    "which_time": "“{}”: at what time?",
    "which_way": "“{}”: later or earlier?",
    "which_days": "“{}”: every week from now on? For one week only, say which session goes where.",
    "what_with_dates": "“{}”: what shall happen?",
    "move_or_skip": "{}: shall I move the session, or leave it out?",
    "missed": "The session of {}: make it up, or leave it out?",
    "taken": "{} has a session of its own. How shall it be?",
    "rest_day": "Nothing is planned on {}. Which session do you mean?",
    "away_or_there": "“{}”: no training then, or do you train there, by that place’s clock?",
    "away_how_long": "Away on {}: only that day, or from then on until you are back?",
    "how_long": "Get well soon. How long shall I leave you in peace?",
    "pause_how_long": "A break from training? For how long?",
    "quiet_when": "When shall I be silent?",
    "once_or_always": "“{}”: this time, or for good?",
    "only_or_also": "“{}”: only then, or besides the days you have?",
    "which_weekdays": "Which days suit you? Tap, or type them, like “mon wed fri”.",
    "again_always": "I remind once on a training day. I can do it a second time, {} minutes later, on every one. Shall I?",
    "every_day": "Reminders come on all your training days. At {} from now on?",
    "confirm": "Shall I change it?",
}


@says(replies.AskDate)
def ask_date(reply: replies.AskDate) -> str:
    return _QUESTIONS.get(reply.code, "“{}”: which do you mean?").format(esc(reply.about))


@says(replies.PlanRestored)
def plan_restored(reply: replies.PlanRestored) -> str:
    return "Everything is as it was before."
