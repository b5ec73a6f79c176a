"""What is said about substitutes."""

from __future__ import annotations

from bot.chat.wording import says
from bot.chat.wording.phrases import esc, lines
from bot.chat.wording.sets import say_next
from bot.coaching import replies


@says(replies.SwapsOffered)
def swaps_offered(reply: replies.SwapsOffered) -> str:
    instead = f"nstead of <b>{esc(reply.label)} {esc(reply.name)}</b>"
    head = f"I{instead}:"
    if reply.reason == "pain":
        where = f" on your {esc(reply.part)}" if reply.part else ""
        head = f"This should be easier{where}, i{instead}; stop if it is not:"
    elif all(choice.last_resort for choice in reply.choices):
        head = f"Nothing close to it can be done here. A stand-in at best, i{instead}:"
    rows = []
    for number, choice in enumerate(reply.choices, 1):
        own = "your coach's choice; " if choice.by_coach else ""
        rows.append(f"{number}. <b>{esc(choice.name)}</b>: {esc(own)}{esc(', '.join(choice.why))}")
        if choice.change:
            rows.append(f"    <i>{esc('; '.join(choice.change))}</i>")
    return lines(head, *rows)


@says(replies.NoSwapFound)
def no_swap_found(reply: replies.NoSwapFound) -> str:
    own = f" Your coach wrote beside it: {esc(', '.join(reply.written))}." if reply.written else ""
    return (
        f"With your kit I know nothing that does the work of {esc(reply.label)} {esc(reply.name)} well.{own} Leave it out with "
        f"<code>skip {esc(reply.label)}</code>, or ask your coach: just type the question."
    )


@says(replies.AskWhichSlot)
def ask_which_slot(reply: replies.AskWhichSlot) -> str:
    return "Which one do you want to replace?"


@says(replies.SwapDone)
def swap_done(reply: replies.SwapDone) -> str:
    reach = "for the rest of the block" if reply.whole_block else "today"
    return lines(
        f"<b>{esc(reply.label)}</b> is {esc(reply.name)} {reach}, instead of {esc(reply.instead_of)}.", say_next(reply.next)
    )


@says(replies.SwapUndone)
def swap_undone(reply: replies.SwapUndone) -> str:
    return f"<b>{esc(reply.label)}</b> is {esc(reply.name)} again."
