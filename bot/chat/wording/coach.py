"""What is said to the coach, and to members about the coach's doings."""

from __future__ import annotations

from bot.chat.outgoing import Button, Outgoing
from bot.chat.wording import says, with_picture
from bot.chat.wording.phrases import and_list, bold, counted, esc, lines, say_date, say_weekdays
from bot.coaching import replies


@says(replies.CoachWelcome)
def coach_welcome(reply: replies.CoachWelcome) -> str:
    return lines(
        f"Welcome, {esc(reply.name)}. You are the coach of a new group.",
        f"1. Send this link to your people: {esc(reply.invite)}",
        "2. Send me your block, as a message or a file (txt, csv, xlsx), in the style you always use. I show you what I understood before "
        "anyone sees it. /template gives you one to start from.",
        "3. Tell me where you live, for your own times: <code>I live in Porto</code>. Name your group: <code>call my group Early birds</code>.",
        "After that I do the asking, reminding and counting, and you get the group's picture every week. /help shows the rest.",
    )


@says(replies.InviteMade)
def invite_made(reply: replies.InviteMade) -> str:
    return f"A new link, good until {say_date(reply.expires_at.date())}: {esc(reply.link)}"


@says(replies.MembersShown)
def members_shown(reply: replies.MembersShown) -> str:
    if not reply.rows:
        return "Nobody has joined yet. /invite makes a link to send to your people."
    rows = []
    for name, state, where, reachable in reply.rows:
        what = where or ("still answering the first questions" if state == "joining" else "no block yet")
        rows.append(f"{bold(name)}: {esc(what)}{'' if reachable else ' (cannot be reached: has blocked me, or is gone)'}")
    return lines(*rows)


@says(replies.BlockUnderstood)
def block_understood(reply: replies.BlockUnderstood) -> str | Outgoing:
    what = "Your change to" if reply.amendment else "I read"
    later = "".join(f", {sets} from week {week}" for week, sets in reply.by_week) if reply.by_week else " a week"
    head = (
        f"{what} <b>{esc(reply.name or 'your block')}</b>: {reply.days} days, {reply.slots} exercises, {reply.sets} sets{later}."
    )
    minutes = ", ".join(f"{esc(name)} {span} min" for name, span in reply.minutes)
    changes = lines(bold("What changes"), *(f"– {esc(change)}" for change in reply.changes)) if reply.changes else ""
    warnings = lines(bold("Please check"), *(f"– {esc(warning)}" for warning in reply.warnings)) if reply.warnings else ""
    remarks = (
        lines(bold("A colleague might say"), *(f"– {esc(remark)}" for remark in reply.remarks[:12])) if reply.remarks else ""
    )
    text = lines(head, f"Estimated: {minutes}." if minutes else "", changes, warnings, remarks, "Nothing has gone out yet.")
    if not reply.picture:
        return text
    picture = reply.picture

    def draw() -> bytes:
        from bot.chat.pictures.volume import draw_volume

        return draw_volume(picture["now"], picture["before"])

    return with_picture(text, draw, "sets.png")


@says(replies.BlockRefused)
def block_refused(reply: replies.BlockRefused) -> str:
    count = len(reply.problems)
    head = f"{'Nothing changed' if reply.amendment else 'Not published'}: {counted(count, 'problem')} to mend first."
    again = "Send the change again." if reply.amendment else "Mend it and send the whole block again."
    warnings = (
        lines(bold("Worth a look too"), *(f"– {esc(warning)}" for warning in reply.warnings[:20])) if reply.warnings else ""
    )
    return lines(head, *(f"– {esc(problem)}" for problem in reply.problems[:40]), warnings, again)


@says(replies.AskExercise)
def ask_exercise(reply: replies.AskExercise) -> str:
    left = f" ({counted(reply.left, 'more name')} after this)" if reply.left else ""
    if reply.typed:
        return f"“{esc(reply.typed)}” I do not know for sure either. What is “{esc(reply.name)}”? Tap one, or type another name for it."
    return (
        f"“{esc(reply.name)}” ({esc(reply.where)}) is new to me. Which exercise do you mean? Tap one, or type another name for it. "
        f"I will remember yours.{left}"
    )


@says(replies.OwnExerciseAsked)
def own_exercise_asked(reply: replies.OwnExerciseAsked) -> str:
    return f"Kept as your own: “{esc(reply.name)}”. Which movement is it most like? Substitutes and set counts follow from that."


@says(replies.BlockPublished)
def block_published(reply: replies.BlockPublished) -> str:
    people = f"{reply.to} member{'s' if reply.to != 1 else ''}"
    if reply.unreachable and not reply.to:
        when = f" on {say_date(reply.on)}" if reply.on is not None else ""
        return f"<b>{esc(reply.name)}</b> is published{when}, but nobody can be reached now: they blocked me, or are gone."
    if reply.unreachable:
        return f"{_goes_out(reply, people)} {reply.unreachable} cannot be reached now (blocked me, or gone)."
    if not reply.to and reply.amendment:
        return f"<b>{esc(reply.name)}</b> (changed) is published. Nobody trains by it now; whoever begins it gets it so."
    if not reply.to:
        when = f" on {say_date(reply.on)}" if reply.on is not None else ""
        return f"<b>{esc(reply.name)}</b> is published{when}. Nobody has joined yet; whoever joins gets it."
    return _goes_out(reply, people)


def _goes_out(reply: replies.BlockPublished, people: str) -> str:
    if reply.on is not None:
        return f"<b>{esc(reply.name)}</b> goes to {people} on {say_date(reply.on)} at 8:00, each in their own time. You can still withdraw it."
    return f"<b>{esc(reply.name)}</b>{' (changed)' if reply.amendment else ''} is on its way to {people}."


@says(replies.BlockWithdrawn)
def block_withdrawn(reply: replies.BlockWithdrawn) -> str:
    return f"<b>{esc(reply.name or 'The block')}</b> is withdrawn. Nobody gets it."


@says(replies.BlockArrived)
def block_arrived(reply: replies.BlockArrived) -> str:
    head = (
        f"{esc(reply.coach)} has a new block for you: <b>{esc(reply.name)}</b>, {reply.days} days a week for {reply.weeks} weeks."
    )
    aim = f"<i>{esc(reply.aim)}</i>" if reply.aim else ""
    lacking = (
        f"You do not have the kit for {esc(and_list(reply.lacking[:5]))}: ask me for a substitute there." if reply.lacking else ""
    )
    first = f"First session: {say_date(reply.first_on)}. Send <code>today</code> when you are ready." if reply.first_on else ""
    days = f"Your days: {say_weekdays(reply.weekdays)}." if reply.weekdays else ""
    if reply.running:
        first = (
            f"You are still on {esc(reply.running)}. Begin the new one now, or finish that first? Your records stay either way."
        )
    return lines(head, aim, lacking, days, first)


@says(replies.BlockChanged)
def block_changed(reply: replies.BlockChanged) -> str:
    return lines(
        f"Your coach changed <b>{esc(reply.name)}</b>:",
        *(f"– {esc(change)}" for change in reply.changes),
        "A session under way stays as it is.",
    )


@says(replies.BlockInGroup)
def block_in_group(reply: replies.BlockInGroup) -> Outgoing:
    text = f"{esc(reply.coach)} has a new block for you all: <b>{esc(reply.name)}</b>. It is waiting in your own chat with me."
    return Outgoing(text=text, buttons=((Button("Open my chat", url=reply.link),),))


@says(replies.DeliveryShown)
def delivery_shown(reply: replies.DeliveryShown) -> str:
    return lines(
        f"<b>{esc(reply.name)}</b>",
        f"Has it: {esc(and_list(reply.got)) or 'nobody yet'}.",
        f"On its way: {esc(and_list(reply.waiting))}." if reply.waiting else "",
        f"Not reached (blocked the bot or gone): {esc(and_list(reply.unreachable))}." if reply.unreachable else "",
    )


@says(replies.ChangedOver)
def changed_over(reply: replies.ChangedOver) -> str:
    first = f" First session: {say_date(reply.first_on)}." if reply.first_on else ""
    days = f" Your days: {say_weekdays(reply.weekdays)}." if reply.weekdays else ""
    return f"You are on <b>{esc(reply.name)}</b> now.{first}{days} Your old records stay."


@says(replies.StayedOn)
def stayed_on(reply: replies.StayedOn) -> str:
    then = f" {esc(reply.then)} begins after that, by itself." if reply.then else ""
    return f"You stay on <b>{esc(reply.name)}</b> until {say_date(reply.until)}.{then}"


@says(replies.BroadcastSent)
def broadcast_sent(reply: replies.BroadcastSent) -> str:
    rest = f" {reply.unreachable} cannot be reached now (blocked me, or gone)." if reply.unreachable else ""
    return f"On its way to {counted(reply.to, 'member')}.{rest}"


@says(replies.FromCoach)
def from_coach(reply: replies.FromCoach) -> str:
    return f"<b>{esc(reply.coach)}:</b> {esc(reply.text)}"


@says(replies.TargetSet)
def target_set(reply: replies.TargetSet) -> str:
    return f"{esc(reply.member)}'s next target in {esc(reply.label)} is yours: <b>{esc(reply.target)}</b>."


@says(replies.CoachAsked)
def coach_asked(reply: replies.CoachAsked) -> str:
    return "I have asked your coach; the answer comes here." if reply.asked else "I have passed it on to your coach."


@says(replies.QuestionForCoach)
def question_for_coach(reply: replies.QuestionForCoach) -> str:
    where = f"<i>{esc(reply.context)}</i>" if reply.context else ""
    return lines(
        f"{bold(reply.member)} {'asks' if reply.asks else 'writes'}:",
        f"“{esc(reply.question)}”",
        where,
        "Reply to this message to answer.",
    )


@says(replies.FromMember)
def from_member(reply: replies.FromMember) -> Outgoing:
    words = "" if reply.kind == "video_note" else f"From {bold(reply.member)}. Reply to answer."
    return Outgoing(text=words, file_id=reply.file_id, file_kind=reply.kind)


@says(replies.CoachSays)
def coach_says(reply: replies.CoachSays) -> str:
    asked = f"“{esc(reply.question[:120])}”"
    head = f"Your coach has answered this before, to {asked}:" if reply.kept else f"Your coach, to {asked}:"
    return f"{head}\n{esc(reply.answer)}"


@says(replies.AnswerDelivered)
def answer_delivered(reply: replies.AnswerDelivered) -> str:
    return f"{esc(reply.member)} has your answer. Shall I give it to others who ask the same?"


@says(replies.AnswerKept)
def answer_kept(reply: replies.AnswerKept) -> str:
    return "Kept: whoever in the group asks this gets your answer at once."


@says(replies.WentQuiet)
def went_quiet(reply: replies.WentQuiet) -> str:
    return (
        f"{bold(reply.member)} has been quiet for {reply.days} days, a friendly word from me included. "
        f"{'I remind them no more until they write. ' if reply.paused else ''}A word from you may help."
    )


@says(replies.Unreachable)
def unreachable(reply: replies.Unreachable) -> str:
    if reply.back:
        return f"{bold(reply.member)} is back: I can write to them again."
    return f"{bold(reply.member)} has blocked me or is gone; I have stopped writing to them."


_SENTENCES = {
    "not_recorded": "Then nothing of it is recorded. Say it in other words, one set a line, like 20x12.",
    "left_it": "All right, nothing changes.",
    "edit_kept": "I could not read “{0}”, so the sets stay as they were. Send just the set, like 20x12.",
    "group_named": "The group is called {0} now.",
    "coach_zone": "Your own times follow {0} ({1}) now.",
    "which_member": "I find no single member called {0}. /group shows the names.",
    "which_slot": "{0} stands on {1}: say which day, like Mira day 2 {0}: 22.5 x 8-10.",
    "no_target": "I could not read “{2}” as a target. Write it like 22.5 x 8-10.",
    "tell_everyone": "To {0}: “{1}” Send it?",
    "tell_one": "To {0}: “{1}” Send it?",
    "told_one": "Sent to {0}.",
    "not_reached": "{0} cannot be reached now (blocked me, or gone), so nothing was sent.",
    "has_left": "{0} has left the group, so I cannot write to them.",
    "set_aside": "That version of {0} is set aside. Use the buttons under the newest one, or send the block again.",
    "is_out": "{0} is out already. Send a change, like day 2 A1: 4x8-10, or a new block.",
    "block_waits": "{0} waits for {1}, 8:00, each in their own time.",
    "rests_for_pain": "{0} has reported pain at {1}: it rests until you let it go on, and the target waits.",
    "remove_whom": "Take {0} out of the group? They get nothing more and hear that you ended it; what they have sent stays theirs.",
    "removed": "{0} is out of the group.",
    "on_it_already": "You are on {0} already. Send today for the session.",
    "no_block_yet": "There is no block yet. Send me one as a message or a file.",
    "demo_forgotten": "The video is taken off again.",
    "look_at_day": "Which day do you want to see as your members see it?",
    "file_too_large": "That file is larger than 2 MB. A block is a few hundred kilobytes at most: send only the sheet with the block.",
    "members_send_text": "Files are for your coach's blocks. Type your sets, or paste the whole session as text.",
    "file_not_fetched": "I could not get that file from the platform. Please send it once more.",
    "trouble": "Something went wrong on my side with your last message. It is kept, and the operator will see it; please go on with the next.",
    "member_left": "{0} has left the group.",
    "backdate_which_day": "Which day of the block was that? Say it like: I did day 2 yesterday.",
    "group_linked": "This chat is the group's shared chat now: new blocks are announced here.",
}


@says(replies.CoachSaysSentence)
def sentence(reply: replies.CoachSaysSentence) -> str:
    return _SENTENCES[reply.code].format(*(esc(value) for value in reply.values))
