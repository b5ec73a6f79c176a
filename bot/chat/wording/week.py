"""What is said at the week's end: to the member what to do next and why, to the coach how everyone is doing."""

from __future__ import annotations

from datetime import timedelta

from bot.chat.outgoing import Outgoing
from bot.chat.wording import says, with_picture
from bot.chat.wording.phrases import and_list, bold, counted, esc, lines, say_date
from bot.coaching import replies
from bot.training.plain import from_plain
from bot.training.progression import AWAY_DAYS


@says(replies.WeekReviewed)
def week_reviewed(reply: replies.WeekReviewed) -> str | Outgoing:
    """Short enough for a phone; the chart goes with it as the picture of the same message."""
    well = f"Went well: {esc('; '.join(reply.well))}." if reply.well else ""
    going_on = "\nIf you stay on this block, aim at this next:" if reply.closing and reply.lines else ""
    text = lines(
        f"{_head(reply)}{_idle(reply)}",
        well,
        *(esc(question) for question in reply.questions),
        going_on,
        _advice(reply.lines),
        _rest_of_table(reply),
        *(esc(total) for total in reply.totals),
    )
    if reply.chart is None:
        return text
    chart = reply.chart

    def draw() -> bytes:
        from bot.chat.pictures.lifts import Series, draw_lifts

        return draw_lifts([from_plain(one, Series) for one in chart["series"]], title=chart.get("title", ""))

    return with_picture(text, draw, "lifts.png")


def _head(reply: replies.WeekReviewed) -> str:
    of = f" of {reply.weeks}" if reply.week <= reply.weeks else ""  # a block that is trained on past its end
    sessions = f"{reply.done} of {counted(reply.planned, 'session')}" if reply.planned else counted(reply.done, "session")
    return f"<b>Week {reply.week}{of}</b>: {sessions if reply.done else 'no session'}."


def _idle(reply: replies.WeekReviewed) -> str:
    """After a week with nothing done there is nothing to advise on: where things stand, in a sentence."""
    if reply.done:
        return ""
    if reply.days_away is not None and reply.days_away >= AWAY_DAYS:
        return f" After {reply.days_away} days away the next session starts lighter, with reps left over; it comes back fast."
    return " Nothing is lost: the next session takes up where you were."


def _rest_of_table(reply: replies.WeekReviewed) -> str:
    if not reply.more:
        return ""
    if not reply.lines:
        return "Send <code>more</code> for your targets."
    return f"\n{reply.more} more: send <code>more</code> for the whole table."


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


# So many lifts stand in one part of a block's review; the rest are counted (our choice for a phone).
_LISTED = 8


@says(replies.BlockReviewed)
def block_reviewed(reply: replies.BlockReviewed) -> str:
    after = _after(reply)
    judged = reply.lines or reply.up or reply.down
    if not (judged or reply.same or reply.hurt):
        if reply.so_far:
            return "It is early: I can hold your sessions against each other once an exercise has been done twice."
        return lines(
            f"<b>{esc(reply.name)}</b> is over. There is too little on record to hold its weeks against each other.", after
        )
    return lines(
        f"<b>{esc(reply.name)}</b> so far, your first session against your latest:"
        if reply.so_far
        else f"<b>{esc(reply.name)}</b> is over. First week against last:",
        _part("For sure", reply.lines),
        _part("Up, but not for sure", reply.up),
        _part("Down, but not for sure", reply.down),
        f"\n<b>As it was</b>: {esc(_some(reply.same))}." if reply.same else "",
        f"\n<b>Not compared, since it hurt</b>: {esc(and_list(reply.hurt))}." if reply.hurt else "",
        "\n<i>For sure: more than a good or a bad day makes.</i>" if judged else "",
        f"\n{after}",
    )


def _after(reply: replies.BlockReviewed) -> str:
    if reply.so_far:
        return "“week” shows your sessions, “more” all your targets."
    if reply.begins:
        return "Your next block begins now, as you wished."
    if reply.next_known:
        return "Your next block is here already. Until you begin it, this one goes on."
    return "Your coach sees how it went, and the next block will build on it. Until it comes, this one goes on."


def _part(title: str, facts: tuple[str, ...]) -> str:
    more = len(facts) - _LISTED
    rest = [f"– and {more} more"] if more > 0 else []
    return lines(f"\n{bold(title)}", *(f"– {esc(fact)}" for fact in facts[:_LISTED]), *rest) if facts else ""


def _some(names: tuple[str, ...]) -> str:
    more = len(names) - _LISTED
    return ", ".join(names[:_LISTED]) + f" and {more} more" if more > 0 else and_list(names)


# A verdict needs some weeks of sessions (bot.training.trend); until then nothing is said of it.
_TRENDS = {"better": ", getting stronger", "same": ", holding", "worse": ", falling back"}
_TOO_EARLY = "Trends show from the fourth session of an exercise on; before that nothing is said of them."


@says(replies.GroupWeek)
def group_week(reply: replies.GroupWeek) -> str:
    if not reply.members:
        return "Nobody has joined yet. /invite makes a link to send to your people."
    ordered = sorted(reply.members, key=_urgency)
    trained = [member for member in reply.members if member.done]
    asked = f"{counted(reply.questions, 'question')} came to you this week." if reply.questions else ""
    slots = lines(bold("Across the group"), *(esc(slot) for slot in reply.slots)) if reply.slots else ""
    forecast = f"<i>{esc(reply.forecast)}</i>" if reply.forecast else ""
    early = f"<i>{_TOO_EARLY}</i>" if trained and not any(member.trend for member in trained) else ""
    days = f"{say_date(reply.week_of)} to {say_date(reply.week_of + timedelta(days=6))}"
    head = f"<b>{esc(reply.group or 'Your group')}</b>, week of {days}"
    return lines(head, *(_member(member) for member in ordered), " ", slots, asked, forecast, early)


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
    facts = [f"pain: {and_list(member.pains)}"] if member.pains else []
    facts += [f"quiet for {member.quiet_days} days"] if member.quiet_days else []
    facts += ["cannot be reached (blocked the bot)"] if not member.reachable else []
    facts += [f"falls back on {and_list(member.worse[:3])}"] if member.worse else []
    facts += [f"stalls on {and_list(member.stalls[:3])}"] if member.stalls else []
    facts += [f"better on {and_list(member.better[:3])}"] if member.better else []
    facts += [f"swapped {and_list(member.swaps[:3])}"] if member.swaps else []
    facts += list(member.notes)
    return lines(f"\n<b>{esc(member.name)}</b>: {_state(member)}", *(f"– {esc(fact)}" for fact in facts))


def _state(member: replies.MemberWeek) -> str:
    """How the week went; of somebody without a session yet, since when they are here and what is awaited."""
    here = f"here since {say_date(member.since)}" if member.since is not None else ""
    if member.joining:
        return f"{here}, still at the first questions"
    if member.awaited_on is not None:
        return f"{here}, first session awaited on {say_date(member.awaited_on)}"
    if here and not member.planned:
        return f"{here}, waiting for a block"
    sessions = f"{member.done} of {counted(member.planned, 'session')}" if member.planned else "no session planned"
    return f"{sessions}{_TRENDS.get(member.trend, '')}" + (f"; {here}, nothing on record yet" if here else "")
