"""What is said when people come, go, and change their settings."""

from __future__ import annotations

import base64

from bot.chat.outgoing import Outgoing
from bot.chat.wording import says
from bot.chat.wording.phrases import LONG_WEEKDAYS, bold, counted, esc, lines, say_date, say_kit, say_weekdays
from bot.coaching import replies


@says(replies.Stranger)
def stranger(reply: replies.Stranger) -> str:
    return (
        "Hello. I work for a coach and the people who train with that coach's blocks. "
        "Ask your coach for the invite link and open it: that brings you in."
    )


@says(replies.CodeNotGood)
def code_not_good(reply: replies.CodeNotGood) -> str:
    if reply.own:
        return "You are the coach already; that code has done its work. /help shows what you can send me."
    return (
        "That code is not right, or somebody has used it. The program prints it when it is started, as long as there is no coach, "
        "and <code>companion coach</code> makes one for another coach: copy it from there, like <code>1a2b-3c4d-5e6f</code>. If you want to train, ask your coach for the invite link instead."
    )


@says(replies.LinkNotGood)
def link_not_good(reply: replies.LinkNotGood) -> str:
    why = "This invite has run out." if reply.expired else "I do not know this invite."
    return f"{why} Ask your coach for a new link and open that one."


@says(replies.WhatIsKept)
def what_is_kept(reply: replies.WhatIsKept) -> str:
    if reply.again:
        return (
            "First I need your word on what I keep, as written above: your messages, sets, kit, days and place, seen by you and "
            f"{esc(reply.coach)}. Is that all right? Press a button, or type <code>yes</code> or <code>no</code>."
        )
    group = esc(reply.group or f"{reply.coach}'s group")
    return lines(
        f"Welcome to {group}.",
        f"Before we start, this is what I keep: what you type to me, the sets read from it, your kit, days and place. "
        f"{esc(reply.coach)} sees your training, your questions and any pain you report. Other members see none of it.",
        "You can have everything sent to you or erased at any time: /mydata, /erase.",
        "I am a program, not a doctor. If something hurts or feels wrong, stop and ask a professional; in an emergency "
        "call your local emergency number. If you are under 18, pregnant, recovering from an injury or unsure whether training "
        "is safe for you, talk to a doctor and to your coach first.",
        "Is that all right?",
    )


@says(replies.AskUnit)
def ask_unit(reply: replies.AskUnit) -> str:
    unread = f"“{esc(reply.unread)}” is none of the two I know. " if reply.unread else ""
    return f"{unread}Do you think in kilograms or in pounds?"


@says(replies.AskPlace)
def ask_place(reply: replies.AskPlace) -> str:
    first = f"I know no place called “{esc(reply.unknown)}”. " if reply.unknown else ""
    return first + "In which town (or the nearest big one) do you train? I need it for the right local time. Just type its name."


@says(replies.AskWhichPlace)
def ask_which_place(reply: replies.AskWhichPlace) -> str:
    return f"Which one is it? If none fits “{esc(reply.text)}”, type the nearest big town."


@says(replies.AskKit)
def ask_kit(reply: replies.AskKit) -> str:
    unread = f"I found no kit in “{esc(reply.unread)}”. " if reply.unread else ""
    unit = reply.unit.value
    example = (
        "dumbbells 2-24 by 2, bench, bands: yellow red black"
        if unit == "kg"
        else "dumbbells 5-50 by 5, bench, bands: yellow red black"
    )
    have = f"So far: {esc(say_kit(reply.kit))}." if reply.kit.items else ""
    return lines(
        f"{unread}What do you have to train with? Tap what you own, or type it with the weights, like:",
        f"<code>{example}</code>",
        have,
        "With the weights known, I suggest only loads you can set. Press Done when it is right; no kit is fine too.",
    )


@says(replies.AskDays)
def ask_days(reply: replies.AskDays) -> str:
    unread = f"I could not read “{esc(reply.unread)}” as days. " if reply.unread else ""
    if not reply.known:
        return (
            f"{unread}On which weekday shall your training week begin? Or type the days you have, like <code>mon wed fri</code>. "
            "How many it takes, your coach's block says; I fit them when it comes."
        )
    return lines(
        f"{unread}On which weekday should day 1 fall? "
        f"From {LONG_WEEKDAYS[reply.weekdays[0]] if reply.weekdays else 'Monday'} your days would be {say_weekdays(reply.weekdays)}.",
        f"Other days suit you better? Type them in order, best {_number_of_days(len(reply.weekdays))}, like <code>{_example(len(reply.weekdays))}</code>.",
    )


def _number_of_days(count: int) -> str:
    return f"{count} of them" if count > 1 else "one"


def _example(count: int) -> str:
    """So many days, spread over the week."""
    return " ".join(("tue", "thu", "sun", "wed", "fri", "mon", "sat")[:count]) if count <= 3 else "mon tue thu fri sun"


@says(replies.AskReminder)
def ask_reminder(reply: replies.AskReminder) -> str:
    unread = f"I could not read “{esc(reply.unread)}” as a time of day. " if reply.unread else ""
    return f"{unread}When shall I remind you on training days? Pick a time or type one, like 6:45. You can also do without."


@says(replies.Joined)
def joined(reply: replies.Joined) -> str:
    if not reply.has_block:
        return f"You are in, {esc(reply.name)}. Your coach has not sent a block yet; it will arrive here by itself."
    first = f"Your first session is on {say_date(reply.first_on)}. " if reply.first_on else ""
    return (
        f"You are in, {esc(reply.name)}. {first}Send <code>today</code> to see the session, then text each set as you do it, "
        "like <code>20x12</code>. Ask me anything in between; /help shows more."
    )


@says(replies.SettingsShown)
def settings_shown(reply: replies.SettingsShown) -> str:
    days = say_weekdays(int(day) for day in reply.days.split(",") if day) or "moving along with your sessions"
    return lines(
        bold("Your settings"),
        f"Units: {reply.unit.value}",
        f"Place: {esc(reply.place or reply.zone)} ({esc(reply.zone)})",
        f"Kit: {esc(say_kit(reply.kit))}",
        f"Days: {days}",
        f"Reminder: {reply.reminder or 'none'}",
        f"Rest calls: {'on' if reply.rest_calls else 'off'}",
    )


_CHANGED = {
    "unit": "Units: {}.",
    "place": "Place: {} there now.",
    "kit": "Your kit is noted.",
    "reminder": "Reminder at {}.",
    "rest_calls": "Rest calls are {}.",
}


@says(replies.Changed)
def changed(reply: replies.Changed) -> str:
    if reply.what == "days":
        return f"Your training days are now {say_weekdays(int(day) for day in reply.value.split(','))}."
    if reply.what == "reminder" and not reply.value:
        return "No reminders from now on."
    return _CHANGED.get(reply.what, "Noted.").format(esc(reply.value))


@says(replies.NewMember)
def new_member(reply: replies.NewMember) -> str:
    lacking = f"Not in their kit: {esc('; '.join(reply.lacking[:6]))}. I will offer them substitutes." if reply.lacking else ""
    return lines(f"{bold(reply.name)} has joined ({esc(reply.zone)}). Kit: {esc(say_kit(reply.kit))}.", lacking)


@says(replies.LeaveAsked)
def leave_asked(reply: replies.LeaveAsked) -> str:
    return (
        "Leave the group? I stop writing to you and your coach no longer sees new sets. Your records stay until you erase them."
    )


_STILL_YOURS = "What I keep of you is still yours: /mydata sends it, /erase removes it."


@says(replies.Left)
def left(reply: replies.Left) -> str:
    kept = f" {_STILL_YOURS}" if reply.agreed else ""
    return f"All right, nothing more from me.{kept} If you change your mind, open your coach's invite link again."


@says(replies.Removed)
def removed(reply: replies.Removed) -> str:
    return f"{esc(reply.coach)} has ended your time in the group, so I stop here. {_STILL_YOURS}"


@says(replies.HasLeft)
def has_left(reply: replies.HasLeft) -> str:
    return (
        f"You are not in {esc(reply.coach)}'s group any more, so I keep no sets and pass nothing on. To come back, open the invite link again. "
        "/mydata sends you what I still keep of you, /erase removes it."
    )


@says(replies.AskStop)
def ask_stop(reply: replies.AskStop) -> str:
    return "What shall stop?"


@says(replies.EraseAsked)
def erase_asked(reply: replies.EraseAsked) -> str:
    sets = f", {counted(reply.records, 'set')} included" if reply.records else ""
    return f"Erase everything about you{sets}? This cannot be undone. /mydata sends you a copy first."


@says(replies.Erased)
def erased(reply: replies.Erased) -> str:
    sets = f" ({counted(reply.records, 'set')})" if reply.records else ""
    return f"Everything about you is erased{sets}. Take care."


_CAPTIONS = {
    "export": "All your sets, one a line, as a table any spreadsheet opens.",
    "export_all": "Everything else I keep about you, as plain data.",
    "calendar": "Your coming sessions. Open the file to put them into your calendar.",
    "template": "A block as text. Change what you like and send it back; your own style is fine too.",
    "template_sheet": "The same as a spreadsheet.",
    "block_as_text": "The current block as text. Change it and send it back for a new one.",
}


@says(replies.File)
def file(reply: replies.File) -> Outgoing:
    return Outgoing(
        text=_CAPTIONS.get(reply.caption, esc(reply.caption)), document=base64.b64decode(reply.data), filename=reply.name
    )


@says(replies.HelpShown)
def help_shown(reply: replies.HelpShown) -> str:
    unknown = f"I do not know /{esc(reply.command)}. " if reply.command else ""
    if reply.coach:
        return lines(
            unknown,
            bold("What you can send me"),
            "A block, as text or file (txt, csv, xlsx), in your own style. I check it, you publish it.",
            "A change to it: <code>day 2 A1: 4x8-10 @ 3-1-1-0</code>, or of one week: <code>day 2 A1 week 3: 4x8</code>",
            "A video of an exercise, with its slot or name below it: members who ask how it is done get it.",
            "A target for one person: <code>Mira day 2 A1: 22.5 x 8-10</code>",
            "<code>tell everyone: ...</code>, or to one of them: <code>tell Mira: ...</code>",
            "Reply to a question, or to any message that tells of a member: your words go to them.",
            "/invite  a new invite link",
            "/group  who is in, and where in the block",
            "/picture  how the week went, member by member",
            "/block  the current block · /template  one to start from",
        )
    return lines(
        unknown,
        bold("Between sets"),
        "<code>20x12</code> · <code>12, 12, 10 @ 20</code> · <code>same</code> · <code>L12 R10</code> · <code>45s</code> · <code>rpe 8</code>",
        "<code>B1 15x10</code> for another slot · <code>skip C1</code> · <code>last one was 11</code> · <code>undo</code> · <code>done</code>",
        "You can also edit your message.",
        bold("Ask"),
        "<code>no bar, what instead of A2?</code> · <code>what does 3-1-1-0 mean</code> · <code>what's next</code> · <code>last time on B1?</code> · <code>beat A1</code>",
        bold("Days"),
        "<code>move tomorrow to saturday</code> · <code>away fri till wed</code> · <code>remind me 6:30</code>",
        bold("Look"),
        "/today · /week · /targets · /settings · /calendar · /undo",
        "If something hurts, say so: I stop that exercise and tell your coach. <code>tell my coach ...</code> goes there word for word.",
        "/privacy tells what I keep, /mydata sends it, /erase removes it; /stop ends the reminders, or all of it.",
        _COACH_TOO if reply.coach_too else "",
    )


_COACH_TOO = (
    "As coach: a block or a change to it, <code>tell everyone: ...</code>, <code>tell Mira: ...</code>, /invite, /group, /picture, "
    "/block, /template."
)


@says(replies.CoachNotUnderstood)
def coach_not_understood(reply: replies.CoachNotUnderstood) -> str:
    return (
        f"I am not sure what to do with “{esc(reply.text)}”. To write to your members: <code>tell everyone: ...</code>. To one of "
        "them: <code>tell Mira: ...</code>, or reply to a message that tells of them. A block or a change comes as text or as a file. /help shows all of it."
    )


@says(replies.PrivacyShown)
def privacy_shown(reply: replies.PrivacyShown) -> str:
    return lines(
        "I keep what you type to me, the sets read from it, and your settings, on your coach's own machine.",
        f"{esc(reply.coach)} sees your sessions, swaps, questions and reported pain. No other member does, and nothing goes anywhere else "
        "than through this chat.",
        "/mydata sends you all of it, /erase removes it, /leave ends it.",
    )


@says(replies.OnlyText)
def only_text(reply: replies.OnlyText) -> str:
    what = esc(reply.what)
    if reply.passed_on:
        return "Your coach has it, with your words."
    if reply.beside_words:
        return f"I read your words; I cannot {'listen to' if reply.what in _HEARD else 'look at'} {what}."
    if reply.coach:
        return f"I can only read text and files (txt, csv, xlsx), not {what}. Please type it, or send it as a file."
    return f"I can only read text, not {what}. Please type it: your sets, like <code>20x12</code>, or your question."


_HEARD = ("voice messages", "audio")
