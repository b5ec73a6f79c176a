"""What is said of a session: laid out so that it is read in one glance on a phone."""

from __future__ import annotations

from bot.chat.outgoing import Outgoing
from bot.chat.wording import says
from bot.chat.wording.phrases import (
    bold,
    esc,
    lines,
    say_date,
    say_near_date,
    say_prescription,
    say_sets,
    say_targets,
)
from bot.coaching import replies
from bot.training.blocks import WeekSets, work_sets
from bot.training.prescriptions import say_rest


@says(replies.SessionShown)
def session_shown(reply: replies.SessionShown) -> str:
    name = f" · {esc(reply.day_name)}" if reply.day_name else ""
    head = f"<b>Day {reply.day}{name}</b>"
    when = (
        f"{say_date(reply.on)}, week {_week_of(reply.week, reply.weeks)}" if not reply.preview else "as your members will see it"
    )
    easing = "Back after some time away: lighter than before, and stop a rep or two early." if reply.remark == "easing_in" else ""
    warm_up = f"Warm-up: {esc('; '.join(reply.warm_up))}" if reply.warm_up else ""
    aim = f"<i>{esc(reply.aim)}</i>" if reply.aim else ""
    note = esc(reply.note) if reply.note else ""
    foot = "" if reply.preview else "\nText each set as you do it, like <code>20x12</code>."
    return lines(f"{head}  {when}", aim, easing, warm_up, note, *(_slot(line, reply.preview) for line in reply.lines), foot)


def _week_of(week: int, weeks: int) -> str:
    """ "2 of 4"; beyond the end, where somebody trains on, the number alone."""
    return f"{week} of {weeks}" if week <= weeks else f"{week}"


def _slot(line: replies.SlotLine, preview: bool) -> str:
    """One slot: what, how, last time, today. In a preview also what later weeks ask for."""
    instead = f" <i>for {esc(line.instead_of)}</i>" if line.instead_of else ""
    state = _state(line)
    last = f"last time {esc(say_sets(line.last))}" if line.last else ""
    prescribed = work_sets(line.slot)
    sharpened = line.target and tuple(line.target) != tuple(prescribed)
    today = f"today <b>{esc(say_targets(line.target))}</b>" if sharpened else ""
    done = f"done {esc(say_sets(line.done))}" if line.done else ""
    cue = f"<i>{esc(line.cue)}</i>" if line.cue and not line.done else ""
    note = esc(line.slot.note) if line.slot.note else ""
    demo = f'<a href="{esc(line.slot.demo)}">video</a>' if line.slot.demo.startswith("http") else ""
    weeks = [f"from week {later.week}: {esc(_say_week(later))}" for later in line.slot.weeks if preview and later.week > 1]
    return lines(
        f"\n<b>{esc(line.slot.label)} {esc(line.name)}</b>{instead}{state}",
        esc(say_prescription(line.slot)),
        *weeks,
        last,
        today,
        done,
        cue,
        note,
        demo,
    )


def _state(line: replies.SlotLine) -> str:
    if line.stopped:
        return " (stopped: pain)"
    if line.skipped:
        return " (left out today)"
    return " (pain: rests until your coach clears it)" if line.rests else ""


def _say_week(later: WeekSets) -> str:
    return say_targets(later.sets) + (f", rest {say_rest(later.rest)}" if later.rest is not None else "")


@says(replies.NothingToday)
def nothing_today(reply: replies.NothingToday) -> str:
    if reply.away:
        until = f" Next session: {say_date(reply.next_on)}." if reply.next_on else ""
        return f"You are away, so nothing is planned.{until} Say <code>back</code> when you are, or just text your sets."
    if reply.next_on is None:
        return "Rest day, and nothing is planned ahead. Send <code>week</code> to look, or say when you want to train."
    name = f" ({esc(reply.next_name)})" if reply.next_name else ""
    when = say_near_date(reply.next_on, reply.today)
    return f"Rest day. Next: day {reply.next_day}{name}, {when}. Want to train anyway? Just text your sets."


@says(replies.NoBlock)
def no_block(reply: replies.NoBlock) -> str:
    return f"{esc(reply.coach or 'Your coach')} has not sent a block yet. It will arrive here by itself."


_NEXT_WEEK = "\n<b>After that</b>"


@says(replies.WeekShown)
def week_shown(reply: replies.WeekShown) -> str:
    rows = []
    for on, number, name, done in reply.sessions:
        if reply.next_week is not None and on >= reply.next_week and _NEXT_WEEK not in rows:
            rows.append(_NEXT_WEEK)
        state = "done" if done else "missed" if on < reply.today else "today" if on == reply.today else ""
        rows.append(f"{say_date(on)}  day {number}{f' {esc(name)}' if name else ''}{f'  <i>{state}</i>' if state else ''}")
    if not rows:
        return "Nothing is planned for that week."
    if rows[0] == _NEXT_WEEK:
        rows.insert(0, "Nothing more this week.")
    return lines(
        bold("Next week" if reply.next_week is None else "Your week"),
        *rows,
        *(esc(remark) for remark in reply.remarks),
        " ",
        "To change it: <code>move tomorrow to saturday</code>",
    )


@says(replies.Reminder)
def reminder(reply: replies.Reminder) -> str:
    name = f" · {esc(reply.day_name)}" if reply.day_name else ""
    minutes = f", about {reply.minutes} min" if reply.minutes else ""
    first = "Still time for today's session:" if reply.second else "Today:"
    easing = "You were away for a while: start lighter than last time." if reply.easing else ""
    return lines(
        f"{first} <b>day {reply.day}{name}</b>{minutes}", esc(", ".join(reply.slots)), easing,
        "Send <code>today</code> for the whole session, or <code>move today to ...</code>.",
    )  # fmt: skip


@says(replies.Beat)
def tempo_beat(reply: replies.Beat) -> Outgoing:
    """A voice message; heavy, so drawn beside the event loop."""
    from bot.chat.beat import beat
    from bot.training.exercises.entry import FirstPhase
    from bot.training.tempo import parse_tempo

    tempo = parse_tempo(reply.tempo)
    assert tempo is not None, reply.tempo
    first = FirstPhase.CONCENTRIC if reply.starts_up else FirstPhase.ECCENTRIC
    words = "high tone: up, low tone: down" if not reply.starts_up else "high tone: up first, low tone: down"
    text = f"<b>{esc(reply.label)}</b> {esc(reply.name)}, tempo {esc(reply.tempo)}, {reply.reps} reps after a count of three ({words})."
    return Outgoing(text=text, voice=beat(tempo, reply.reps, first), filename="beat.ogg")


@says(replies.NoTempo)
def no_tempo(reply: replies.NoTempo) -> str:
    return f"<b>{esc(reply.label)}</b> {esc(reply.name)} has no tempo written: move with control, at your own pace."


@says(replies.MissYou)
def miss_you(reply: replies.MissYou) -> str:
    return (
        f"Hi {esc(reply.name)}, a week without a set. No harm done: the block waits for you. "
        "Send <code>today</code> to pick up where you are, <code>pause two weeks</code> if you need time, or tell me what is in the way."
    )


@says(replies.LeftInPeace)
def left_in_peace(reply: replies.LeftInPeace) -> str:
    return (
        f"Hi {esc(reply.name)}, I will stop reminding you now, so that I do not get on your nerves. Your block and your sets are kept: "
        "say <code>back</code> whenever you want to go on."
    )


@says(replies.RestOver)
def rest_over(reply: replies.RestOver) -> str:
    from bot.chat.wording.sets import say_next

    return f"Rest is over. {say_next(reply.next)}" if reply.next else "Rest is over."
