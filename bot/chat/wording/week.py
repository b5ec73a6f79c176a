"""What is said at the week's end: to the member what to do next and why, to the coach how everyone is doing."""

from __future__ import annotations

from bot.chat.outgoing import Outgoing
from bot.chat.wording import says, with_picture
from bot.chat.wording.phrases import and_list, bold, esc, lines, say_date
from bot.coaching import replies
from bot.training.plain import from_plain


@says(replies.WeekReviewed)
def week_reviewed(reply: replies.WeekReviewed) -> str | Outgoing:
    """Short enough for a phone; the chart goes with it as the picture of the same message."""
    sessions = f"{reply.done} of {reply.planned} sessions" if reply.planned else f"{reply.done} sessions"
    head = f"<b>Week {reply.week} of {reply.weeks}</b>: {sessions}."
    well = f"Went well: {esc('; '.join(reply.well))}." if reply.well else ""
    more = f"\n{reply.more} more: send <code>more</code> for the whole table." if reply.more else ""
    text = lines(
        head,
        well,
        *(esc(question) for question in reply.questions),
        _advice(reply.lines),
        more,
        *(esc(total) for total in reply.totals),
    )
    if reply.chart is None:
        return text
    chart = reply.chart

    def draw() -> bytes:
        from bot.chat.pictures.lifts import Series, draw_lifts

        return draw_lifts([from_plain(one, Series) for one in chart["series"]], title=chart.get("title", ""))

    return with_picture(text, draw, "lifts.png")


def _advice(advised: tuple[replies.AdviceLine, ...]) -> str:
    rows, day = [], None
    for line in advised:
        if line.day != day:
            day = line.day
            rows.append(f"\n<b>Day {day}</b>")
        rows.append(f"<b>{esc(line.label)}</b> {esc(line.name)}: <b>{esc(line.target)}</b>\n<i>{esc(line.reason)}</i>")
    return "\n".join(rows)


@says(replies.WholeAdvice)
def whole_advice(reply: replies.WholeAdvice) -> str:
    if not reply.lines:
        return "There are no targets yet: they come at the end of your first week."
    return lines(f"<b>Your targets for week {reply.week}</b>", _advice(reply.lines))


@says(replies.BlockReviewed)
def block_reviewed(reply: replies.BlockReviewed) -> str:
    after = (
        "Your next block is here already."
        if reply.next_known
        else "Your coach sees this too, and the next block will build on it."
    )
    return lines(f"<b>{esc(reply.name)}</b> is over. First week against last:", *(esc(line) for line in reply.lines), after)


_TRENDS = {"better": "getting stronger", "same": "holding", "worse": "falling back", "": "too little to say"}


@says(replies.GroupWeek)
def group_week(reply: replies.GroupWeek) -> str:
    if not reply.members:
        return "Nobody has joined yet. /invite makes a link to send to your people."
    ordered = sorted(reply.members, key=_urgency)
    asked = f"{reply.questions} question{'s' if reply.questions != 1 else ''} came to you this week." if reply.questions else ""
    slots = lines(bold("Across the group"), *(esc(slot) for slot in reply.slots)) if reply.slots else ""
    forecast = f"<i>{esc(reply.forecast)}</i>" if reply.forecast else ""
    head = f"<b>{esc(reply.group or 'Your group')}</b>, week of {say_date(reply.week_of)}"
    return lines(head, *(_member(member) for member in ordered), " " if slots else "", slots, asked, forecast)


def _urgency(member: replies.MemberWeek) -> tuple[int, str]:
    """Who needs the coach first: pain, then silence, then decline, then stalls."""
    place = (
        0
        if member.pains
        else 1
        if member.quiet_days
        else 2
        if member.trend == "worse" or member.worse
        else 3
        if member.stalls
        else 4
    )
    return place, member.name


def _member(member: replies.MemberWeek) -> str:
    state = _TRENDS.get(member.trend, member.trend)
    facts = [f"pain: {and_list(member.pains)}"] if member.pains else []
    facts += [f"quiet for {member.quiet_days} days"] if member.quiet_days else []
    facts += ["cannot be reached (blocked the bot)"] if not member.reachable else []
    facts += [f"falls back on {and_list(member.worse[:3])}"] if member.worse else []
    facts += [f"stalls on {and_list(member.stalls[:3])}"] if member.stalls else []
    facts += [f"better on {and_list(member.better[:3])}"] if member.better else []
    facts += [f"swapped {and_list(member.swaps[:3])}"] if member.swaps else []
    facts += list(member.notes)
    return lines(
        f"\n<b>{esc(member.name)}</b>: {member.done} of {member.planned} sessions, {state}", *(f"– {esc(fact)}" for fact in facts)
    )
