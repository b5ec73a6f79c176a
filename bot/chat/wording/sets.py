"""What is said about sets: one short line of what was recorded, how it compares, and what comes next."""

from __future__ import annotations

from collections.abc import Sequence

from bot.chat.wording import says
from bot.chat.wording.phrases import and_list, esc, lines, say_count, say_date, say_range, say_set, say_sets
from bot.coaching import replies
from bot.training.blocks import Measure, SetKind, SetPlace
from bot.training.loads import LoadKind, say_amount, say_load
from bot.training.records import SetDone


def say_next(up: replies.NextUp | None) -> str:
    """ "Next: A2 Ring row, set 2 of 3: 8–12, last time 10." """
    if up is None:
        return ""
    load = f"{say_load(up.load)} × " if up.load and up.load.kind is not LoadKind.BODY else ""
    last = f", last time {say_count(up.last)}" if up.last else ""
    target = say_range(up.target)
    sides = " each side" if up.sides else ""
    return f"Next: <b>{up.place.label}</b> {esc(up.name)}, set {up.place.number} of {up.of}: {esc(load)}{target}{sides}{last}."


def _against(line: replies.SetLine) -> str:
    """How a set compares with the same set of last time: only what can be compared is."""
    now, before = line.record.done, line.before
    if before is None or now.measure is not before.measure:
        return ""
    count, old = now.worst_count, before.worst_count
    if count is None or old is None:
        return ""
    unit = {Measure.REPS: "rep", Measure.SECONDS: "second", Measure.STEPS: "step", Measure.METRES: "metre"}[now.measure]
    if _same_load(now, before):
        difference = count - old
        if difference == 0:
            return "same as last time"
        plural = "" if abs(difference) == 1 else "s"
        return f"{abs(difference)} {unit}{plural} {'more' if difference > 0 else 'fewer'} than last time"
    heavier = _heavier(now, before)
    return f"{heavier} than last time" if heavier else f"last time {say_set_short(before)}"


def say_set_short(done: SetDone) -> str:
    load = f"{say_load(done.load)} × " if done.load and done.load.kind is not LoadKind.BODY else ""
    return f"{load}{say_count(done)}"


def _same_load(a: SetDone, b: SetDone) -> bool:
    if a.load is None or b.load is None:
        return a.load is b.load
    if a.load.bands or b.load.bands:
        return a.load.kind is b.load.kind and sorted(a.load.bands) == sorted(b.load.bands)
    return a.load.kind is b.load.kind and a.load.kg == b.load.kg


def _heavier(a: SetDone, b: SetDone) -> str:
    if a.load is None or b.load is None or a.load.kind is not b.load.kind or a.load.kg is None or b.load.kg is None:
        return ""
    unit = a.load.unit
    difference = a.load.kg - b.load.kg
    if a.load.unit is b.load.unit and a.load.amount is not None and b.load.amount is not None:
        difference = a.load.amount - b.load.amount
    if a.load.kind is LoadKind.ASSISTED:
        return "less help" if difference < 0 else "more help"
    word = "heavier" if difference > 0 else "lighter"
    shown = say_amount(abs(difference)) if a.load.unit is b.load.unit else ""
    return f"{shown} {unit.value if unit and shown else ''} {word}".strip().replace("  ", " ")


def _place(line: replies.SetLine) -> str:
    record = line.record
    if record.done.kind is SetKind.WARM_UP:
        return "Warm-up"
    return f"{record.place.label} set {record.place.number}" if record.place else ""


def _one(line: replies.SetLine) -> str:
    compared = _against(line)
    note = " (marked: pain)" if line.record.painful else ""
    return f"<b>{esc(_place(line))}</b> {esc(say_set(line.record.done))}{note}" + (f": {compared}" if compared else "")


def _many(recorded: tuple[replies.SetLine, ...]) -> str:
    """Several sets, a line for each slot."""
    slots: dict[str, list[replies.SetLine]] = {}
    for line in recorded:
        slots.setdefault(line.record.place.label if line.record.place else "warm-up", []).append(line)
    rows = []
    for label, its in slots.items():
        done = [line.record.done for line in its]
        short = say_sets(done)
        # Effort, drops and doubts are said set by set; plain sets share one load.
        sets = (
            short
            if all(say_set_short(one) == say_set(one) for one in done if one.load)
            else "; ".join(say_set(one) for one in done)
        )
        compared = list(dict.fromkeys(text for text in (_against(line) for line in its) if text))
        said = f" ({compared[0]})" if len(compared) == 1 else ""
        rows.append(f"<b>{esc(label)}</b> {esc(its[0].name)}: {esc(sets)}{said}")
    return lines(*rows)


@says(replies.SetsRecorded)
def sets_recorded(reply: replies.SetsRecorded) -> str:
    body = _one(reply.lines[0]) if len(reply.lines) == 1 else _many(reply.lines)
    if reply.on is not None:
        body = f"For {say_date(reply.on)}: {body}" if len(reply.lines) == 1 else f"For {say_date(reply.on)}:\n{body}"
    if reply.edited:
        body = f"Changed: {body}" if len(reply.lines) == 1 else f"Changed:\n{body}"
    unread = ""
    if reply.unread:
        said = and_list([f"“{esc(part)}”" for part in reply.unread[:3]])
        unread = f"{said} I could not read: send just that set, like <code>9</code> or <code>20x9</code>."
    return lines(body, unread, say_next(reply.next))


@says(replies.SetsCorrected)
def sets_corrected(reply: replies.SetsCorrected) -> str:
    when = f" for {say_date(reply.on)}" if reply.on else ""
    were = esc(say_sets([record.done for record in reply.was]))
    body = _one(reply.lines[0]) if len(reply.lines) == 1 else _many(reply.lines)
    return lines(f"Corrected{when}: {body} <i>({'was' if len(reply.was) == 1 else 'were'} {were})</i>", say_next(reply.next))


@says(replies.SetsSkipped)
def sets_skipped(reply: replies.SetsSkipped) -> str:
    return lines(f"Left out: {_say_places(reply.places)}.", say_next(reply.next))


@says(replies.DueAgain)
def due_again(reply: replies.DueAgain) -> str:
    return lines(f"To be done after all: {_say_places(reply.places)}.", say_next(reply.next))


def _say_places(places: Sequence[SetPlace]) -> str:
    """ "B1 sets 1, 2 and C1 set 3"."""
    slots: dict[str, list[int]] = {}
    for place in places:
        slots.setdefault(place.label, []).append(place.number)
    words = [f"{label} set{'s' if len(numbers) > 1 else ''} {', '.join(map(str, numbers))}" for label, numbers in slots.items()]
    return and_list(words)


@says(replies.TakenBack)
def taken_back(reply: replies.TakenBack) -> str:
    what = "; ".join(f"{_place(line)} {esc(say_set(line.record.done))}" for line in reply.lines[:6])
    verb = "Back on record" if reply.redo else "Taken back"
    again = "; ".join(f"{_place(line)} {esc(say_set(line.record.done))}" for line in reply.again[:6])
    return lines(f"{verb}: {what}.{f' What was there before stands again: {again}.' if again else ''}", say_next(reply.next))


@says(replies.NothingToTakeBack)
def nothing_to_take_back(reply: replies.NothingToTakeBack) -> str:
    return "There is nothing to take back."


@says(replies.AlreadyOnRecord)
def already_on_record(reply: replies.AlreadyOnRecord) -> str:
    if reply.nothing:
        return "No harm done: what is sent twice is taken once."
    return lines("That is on record already, once.", say_next(reply.next))


@says(replies.GoingOn)
def going_on(reply: replies.GoingOn) -> str:
    return say_next(reply.next)


_QUESTIONS = {
    "load_or_reps": "“{}”: which is the load and which the count?",
    "sets_or_load": "“{}”: which is how many sets, which the load?",
    "which_reading": "“{}”: which of these do you mean?",
    "which_exercise": "“{}”: which exercise is that?",
    "which_slot": "“{}”: which exercise is that for?",
    "which_day": "“{}”: which day is that for?",
    "missing_load": "“{}”: with which load?",
    "missing_count": "“{}”: and how many?",
    "which_load": "“{}”: with which load? Please send both, such as <code>20x12</code>.",
    "which_count": "“{}”: and how many? Please send both, such as <code>20x12</code>.",
    "planned_range": "The plan leaves a range there. How many was it?",
    "surprise": "“{}” is far from what you usually do here. Is it right?",
    "still_open": "“{}” is not on record yet. How shall I take it?",
    "surprise_first": "“{}” is not what your kit and your plan made me expect. Is it right?",
    "too_many_sets": "“{}” is more than is left to do here. How shall I take it?",
    "no_set_due": "“{}”: all that was planned is on record already. What is this one?",
    "rests": "“{}”: that one rests today, since it hurt. Did you do this set all the same? If it hurts again, stop.",
    "sides_or_sets": "“{}”: the two sides of one set, or two sets?",
    "sides_or_bouts": "“{}”: left and right, or one set with a short rest inside?",
    "sets_and_counts": "“{}”: how many sets was that?",
    "drop_or_next": "“{}”: a drop within the same set, or the next set?",
    "warm_or_work": "“{}”: is the last one a work set, or still a warm-up?",
    "which_one": "“{}”: I am not sure I have that right. Is it this?",
    "is_that_right": "“{}”: did I get that right?",
    "plates": "“{}”: counted as the largest plates on a full-size bar. Is that right?",
    "bar_weight": "“{}”: I do not know what your empty bar weighs. Please send the whole load, such as <code>60x5</code>.",
    "correct_what": "“{}”: what shall I change?",
    "unclear": "I cannot sort “{}” out. One set a line helps, such as <code>20x12</code>.",
}


@says(replies.AskReading)
def ask_reading(reply: replies.AskReading) -> str:
    return _QUESTIONS.get(reply.code, "“{}”: which of these do you mean?").format(esc((reply.about or reply.said).strip()))


@says(replies.SessionFinished)
def session_finished(reply: replies.SessionFinished) -> str:
    minutes = f" in {reply.minutes} min" if reply.minutes and 5 <= reply.minutes <= 240 else ""
    head = "Session complete" if reply.done >= reply.planned else "Session closed"
    left_out = f" Not done: {and_list([esc(label) for label in reply.left_out])}." if reply.left_out else ""
    body = f"<b>{head}</b>: {reply.done} of {reply.planned} sets{minutes}.{left_out}"
    if reply.effort is not None:
        return f"{body} Effort {say_amount(reply.effort)} of 10, noted."
    return f"{body} How hard was it as a whole? (1 very easy, 5 hard, 10 the hardest)"


@says(replies.EffortNoted)
def effort_noted(reply: replies.EffortNoted) -> str:
    return f"Effort {say_amount(reply.effort)} of 10, noted. Well done."


@says(replies.NothingDoneYet)
def nothing_done_yet(reply: replies.NothingDoneYet) -> str:
    return "Nothing is on record today yet. Send your sets, such as <code>20x12, 12, 10</code>, or <code>skip today</code> to leave the session out."


@says(replies.NotUnderstood)
def not_understood(reply: replies.NotUnderstood) -> str:
    hint = "A set looks like <code>20x12</code> (load, then reps) or just <code>12</code>; /help shows more."
    return f"I could not make sense of “{esc(reply.text[:80])}”. {hint} Shall I pass it on to your coach?"


@says(replies.Acknowledged)
def acknowledged(reply: replies.Acknowledged) -> str:
    if reply.kind == "greeting" and reply.coach:
        return "Hello. Send me a block, or /help for all that I can do."
    if reply.kind == "greeting":
        return "Hello. Send <code>today</code> for your session."
    return _SMALL_TALK.get(reply.kind, "Good.") if reply.kind == "thanks" or not reply.coach else "Good."


_SMALL_TALK = {
    "thanks": "You are welcome.",
    "glad": "Good to hear.",
    "low": "Some days are like that. Fewer sets or less weight are fine: <code>skip B1</code>, or <code>done</code> for today.",
    "unwell": "If you feel unwell, stop for today: the block waits. If something hurts, tell me where.",
    "cross": "Fair enough. If something is in the way, say what: <code>tell my coach ...</code> goes there word for word.",
}


@says(replies.AnswerOver)
def answer_over(reply: replies.AnswerOver) -> str:
    return "That question is closed: it was answered, or we have moved on. To change something, just type it."
