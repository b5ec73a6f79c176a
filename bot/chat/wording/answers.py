"""How is an answer said? Telegram HTML, short, in the block's own context and the member's own numbers."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from bot.chat.wording.phrases import (
    bold,
    counted,
    esc,
    say_date,
    say_kit,
    say_near_date,
    say_prescription,
    say_set,
    say_sets,
    say_target,
)
from bot.coaching import answers as given
from bot.training.blocks import Measure
from bot.training.loads import say_amount, say_load
from bot.training.phases import say_phase


def say_answer(answer: given.Answer) -> str:
    """One answer as Telegram HTML; whatever a person wrote is escaped."""
    return _WORDINGS[type(answer)](answer)


def _slot(label: str, name: str) -> str:
    return bold(f"{label} {name}".strip())


def _tempo(a: given.TempoSaid) -> str:
    where = f"{_slot(a.label, a.name)}, tempo {esc(a.tempo)}" if a.name else f"Tempo {esc(a.tempo)}"
    text = f"{where}: {esc(', '.join(say_phase(phase) for phase in a.phases))}."
    if a.starts_up and a.name:
        text += " Said in the order you do it: this lift begins with the way up, while the first number is always the lowering."
    if a.seconds and a.reps:
        text += f" {a.reps} reps are about {a.seconds} s under load{' (X counted as 1 s)' if a.has_x else ''}."
    return text


def _tempo_unsaid(a: given.TempoUnsaid) -> str:
    return (
        f"{_slot(a.label, a.name)} has no tempo in the block: lower under control, two to three seconds, and lift without a jerk."
    )


def _term(a: given.TermSaid) -> str:
    where = f" Today in {esc(', '.join(a.where))}." if a.where else ""
    return f"{bold(a.name[:1].upper() + a.name[1:])}: {esc(a.says)}{where}"


def _next(a: given.NextSaid) -> str:
    load = f"{say_load(a.load)} × " if a.load and not a.target.load else ""
    text = f"Next: {_slot(a.label, a.name)}, set {a.number} of {a.of}: {esc(load + say_target(a.target))}."
    return text + (f" Last time: {esc(say_set(a.last))}." if a.last else "")


def _all_done(a: given.AllDone) -> str:
    coming = f" Next: {say_date(a.next.on)}, day {a.next.day}{f' {esc(a.next.name)}' if a.next.name else ''}." if a.next else ""
    return ("Nothing is planned today." if a.rest_day else "Everything of today is done.") + coming


def _alternate(a: given.AlternateSaid) -> str:
    if a.order:
        letters = " → ".join(dict.fromkeys(esc(label[:1]) for label in a.order))
        return (
            f"Your coach’s order is {letters}: what wants you fresh comes first. If it has to be another today, go ahead; "
            f"put the slot in front of the set, like <code>{esc(a.labels[0])} 12</code>."
        )
    if a.single or len(a.labels) < 2:
        return (
            f"{_slot(a.labels[0], a.names[0])} stands alone: do all its sets before the next exercise."
            if a.labels
            else "Nothing alternates today."
        )
    turn = " then ".join(esc(label) for label in a.labels)
    return (
        f"{turn}, and around again, because one part works while the other rests: less time for the same sets. "
        "If you have only one place or one weight, doing all of one first is fine too; just rest between its sets."
    )


def _seconds(low: int, high: int) -> str:
    span = str(low) if low == high else f"{low}–{high}"
    return f"{span} s"


def _rest(a: given.RestSaid) -> str:
    span = _seconds(a.low_s, a.high_s)
    source = "as the block says" if a.by_coach else "the block does not say; usual for such reps"
    turn = f" {esc(' and '.join(a.turn))} go in turn: rest after both." if a.turn else ""
    if a.between_sides:
        return f"{_slot(a.label, a.name)}: both sides are one set, so go straight over; a breath or two is fine. Then rest {span} ({source})."
    return f"{_slot(a.label, a.name)}: rest {span} ({source}).{turn}"


def _target(a: given.TargetSaid) -> str:
    note = f" {esc(a.slot.note)}" if a.slot.note else ""
    return f"{_slot(a.slot.label, a.name)}: {esc(say_prescription(a.slot))}.{note}"


def _start(a: given.StartSaid) -> str:
    name = _slot(a.label, a.name)
    if a.load and a.by_coach:
        return f"{name}: your coach wrote {esc(say_load(a.load))}."
    if a.aim:
        seen = f" Last time {esc(say_set(a.seen))}." if a.seen else ""
        return f"{name}: {esc(say_target(a.aim))} today.{seen}"
    if a.load and a.same:
        seen = f" ({esc(say_set(a.seen))} on {say_date(a.seen_on)})" if a.seen and a.seen_on else ""
        cut = f" That is {a.cut_percent}% less than before, since it was a while ago." if a.cut_percent else ""
        return (
            f"{name}: begin with {esc(say_load(a.load))}, as last time{seen}.{cut}"
            if not cut
            else f"{name}: begin with {esc(say_load(a.load))}{seen}.{cut}"
        )
    if a.load and a.seen and a.seen_on:
        why = "it is another exercise" + (" and a while ago" if a.stale else "")
        return (
            f"{name}: try {esc(say_load(a.load))} first. You did {esc(a.seen_name)} with {esc(say_set(a.seen))} on {say_date(a.seen_on)}; "
            f"I took {a.cut_percent}% off because {why}. Go up if the first set is easy, down if form slips."
        )
    reps = f" {a.high or a.low} times" if a.high or a.low else ""
    if a.bodyweight:
        return f"{name}: begin with body weight, and send me the reps."
    return (
        f"{name}: I have no numbers of yours near it. Take something you could surely lift{reps} with two or three to spare, "
        "send me that set, and I will know from then on."
    )


_POLICIES = {
    "reps_only": "Your coach wants more reps here, not more weight.",
    "load_only": "Your coach wants weight to go up here at the same reps.",
    "hold": "Your coach wants it kept as it is for now.",
    "tempo": "Your coach wants it slower before heavier.",
}


def _go_up(a: given.GoUpSaid) -> str:
    if not a.name:
        return "Go up by the smallest step once all sets reach the top of their range with clean form."
    if a.policy in _POLICIES:
        return f"{_slot(a.label, a.name)}: {_POLICIES[a.policy]}"
    rule = f"all sets reach {a.high}" if a.high else "all sets reach their target"
    sets = f" You had {esc(say_sets(a.sets))}." if a.sets else ""
    if a.ready:
        return f"{_slot(a.label, a.name)}: yes, the smallest step up next time, if form and tempo held.{sets}"
    if a.ready is False:
        return f"{_slot(a.label, a.name)}: not yet. Once {rule} with clean form, take the smallest step.{sets}"
    return f"{_slot(a.label, a.name)}: once {rule} with clean form, take the smallest step up and begin at the low end again."


def _block(a: given.BlockSaid) -> str:
    where = f"Week {a.week} of {a.weeks}" if a.week and a.weeks else f"The block runs {a.weeks} weeks"
    left = max(0, a.weeks - a.week) if a.week and a.weeks else None
    rest = f", {left} more to go" if left else ", the last one" if left == 0 else ""
    until = f", until {say_date(a.ends_on)}" if a.ends_on else ""
    return f"{where}{rest}{until}. Your coach may run it {a.low} to {a.high} weeks and will send the next one."


def _duration(a: given.DurationSaid) -> str:
    whole = f"About {a.low_min} to {a.high_min} minutes with rests and warm-up"
    if a.have_min is None:
        return f"{whole}."
    if a.have_min >= a.high_min:
        return f"{whole}, so {a.have_min} are enough."
    first = esc(", ".join(a.first))
    return (
        f"The whole session takes about {a.low_min} to {a.high_min} minutes. In {a.have_min}, do what comes first: {first}. Leave out what is left at the "
        "end, not the warm-up."
    )


def _missed(a: given.MissedSaid) -> str:
    if not a.sessions and not a.open_today:
        return "Nothing: no planned session of the last two weeks is open."
    lines = [f"{say_date(one.on)}: day {one.day}{f' {esc(one.name)}' if one.name else ''}" for one in a.sessions]
    text = (
        "Not done yet: " + "; ".join(lines) + ". Tell me the day if you want to do one, e.g. “day 2 on Saturday”."
        if lines
        else ""
    )
    skipped = f"Skipped today: {esc(', '.join(a.open_today))}." if a.open_today else ""
    return f"{text} {skipped}".strip()


def _left(a: given.LeftSaid) -> str:
    rows = ", ".join(f"{esc(label)} {esc(name)}{f' ({count})' if a.left > 1 else ''}" for label, name, count in a.slots)
    return f"{counted(a.left, 'set')} left: {rows}."


def _last(a: given.LastSaid) -> str:
    return f"{_slot(a.label, a.name)}, {say_date(a.on)}: {esc(say_sets(a.sets))}."


def _last_session(a: given.LastSessionSaid) -> str:
    rows = "\n".join(f"{_slot(label, name)}: {esc(say_sets(sets))}" for label, name, sets in a.slots)
    return f"On {say_date(a.on)}:\n{rows}"


def _best(a: given.BestSaid) -> str:
    text = f"{_slot(a.label, a.name)}: your best so far is {esc(say_set(a.best))}, {say_date(a.on)}."
    return text + (
        f" That suggests a single of about {say_amount(a.e1rm)} {a.unit.value} in all, give or take a tenth." if a.e1rm else ""
    )


def _no_numbers(a: given.NoNumbers) -> str:
    if not a.name:
        return "I have no sets of yours from before today."
    return f"{_slot(a.label, a.name)}: no numbers of yours yet from before today."


def _today(a: given.TodaySaid) -> str:
    rows = "\n".join(f"{_slot(slot.label, name)}: {esc(say_prescription(slot))}" for slot, name in a.slots)
    return f"Today is day {a.day}{f', {esc(a.day_name)}' if a.day_name else ''}:\n{rows}"


def _session(a: given.SessionSaid) -> str:
    if a.week:
        rows = "; ".join(
            f"{say_near_date(one.on, a.today)} day {one.day}{f', {esc(one.name)}' if one.name else ''}" for one in a.week
        )
        return f"In the next seven days: {rows}."
    free = f"{_when(a.asked_on, a.today)} is free. " if a.asked_on else ""
    what = ", ".join(f"{esc(label)} {esc(name)}" for label, name in a.slots)
    day = f"day {a.day}{f', {esc(a.day_name)}' if a.day_name else ''}"
    return f"{free}{_when(a.on, a.today)}: {day}{f': {what}' if what else ''}."


def _when(on: date, today: date) -> str:
    words = say_near_date(on, today)
    return words[:1].upper() + words[1:]


def _how_to(a: given.HowToSaid) -> str:
    works = f"works your {esc(' and '.join(a.works))}. " if a.works else ""
    by = "Your coach: " if a.by_coach else ""
    cues = f"{by}{esc('; '.join(a.cues))}." if a.cues else ""
    demo = f" {esc(a.demo)}" if a.demo else ""
    return f"{_slot(a.label, a.name)}: {works}{cues}{demo}".replace("..", ".").strip()


def _about_me(a: given.AboutMeSaid) -> str:
    if a.kit is not None:
        return f"I have down for you: {esc(say_kit(a.kit))}. Change it in /settings, or tell me, like <code>I now have a bench</code>."
    who = esc(a.coach) if a.coach else "your coach"
    if a.only_coach:
        return (
            f"Your coach is {who}. Write “tell my coach ...” and I pass it on."
            if a.coach
            else "Write “tell my coach ...” and I pass it on."
        )
    return (
        "I keep your name here, zone, units, kit, days, the sets and messages you send, and pain you report. "
        f"You and {who} can see it, nobody else in the group. /mydata sends you everything, /erase removes it."
    )


_HELP = {
    "voice": "Only text: I cannot listen to voice messages. Dictating into the keyboard works.",
    "undo": "Send “undo” to take the last one back, or “no, 11” to correct it. You can also edit the message itself.",
    "days": "Tell me in words: “move today to Friday”, “away Fri till Wed”, “remind me 6:30”. The rest is in /settings.",
    "log": "Send each set as you do it: “20x12”, or just “12” with the same weight. Several at once: “12, 12, 10 @ 20”. Another slot: “B1 30x8”.",
}  # fmt: skip


def _help(a: given.HelpSaid) -> str:
    if a.label:
        example, unit = _EXAMPLES.get(a.measure, ("20x12", "reps, with the weight if there is one"))
        sides = " One side short: “L12 R10”." if a.each_side and a.measure is Measure.REPS else ""
        return f"{_slot(a.label, a.name)}: send the {unit}, like <code>{esc(a.label)} {example}</code>.{sides}"
    if a.about in _HELP:
        return _HELP[a.about]
    return (
        "Send sets as you do them: “20x12”, “12”, “B1 30 kg 8 rpe 8”. Fix one with “no, 11”, take it back with “undo”. "
        "Ask “what’s next”, “last time”, “rest?”, “what does AMRAP mean”. Say “no barbell, what instead of C1”, "
        "“move today to Friday”, or where it hurts. What I cannot answer goes to your coach."
    )


_EXAMPLES = {Measure.SECONDS: ("30s", "seconds"), Measure.STEPS: ("40 steps", "steps"), Measure.METRES: ("40m", "metres")}

_WORDINGS: dict[type[Any], Callable[[Any], str]] = {
    given.TempoSaid: _tempo, given.TempoUnsaid: _tempo_unsaid, given.TermSaid: _term, given.NextSaid: _next, given.AllDone: _all_done,
    given.AlternateSaid: _alternate, given.RestSaid: _rest, given.TargetSaid: _target, given.StartSaid: _start, given.GoUpSaid: _go_up,
    given.BlockSaid: _block, given.DurationSaid: _duration, given.MissedSaid: _missed, given.LeftSaid: _left, given.LastSaid: _last,
    given.LastSessionSaid: _last_session, given.BestSaid: _best, given.NoNumbers: _no_numbers, given.TodaySaid: _today, given.SessionSaid: _session,
    given.HowToSaid: _how_to, given.AboutMeSaid: _about_me, given.HelpSaid: _help,
}  # fmt: skip
