"""What is said about the coach's videos."""

from __future__ import annotations

from bot.chat.outgoing import Outgoing
from bot.chat.wording import says
from bot.chat.wording.phrases import and_list, bold, esc
from bot.coaching import replies


@says(replies.DemoAsked)
def demo_asked(reply: replies.DemoAsked) -> str:
    if reply.several:
        return f"“{esc(reply.said)}” fits more than one exercise. Which one does the video show?"
    missing = f"I do not find “{esc(reply.said)}” in your block. " if reply.said else ""
    return f"{missing}Which exercise does the video show? Next time, write its slot or name below it, such as B1 or Ring row."


@says(replies.DemoNotPlaced)
def demo_not_placed(reply: replies.DemoNotPlaced) -> str:
    if reply.has_block:
        return "Which exercise does the video show? Send it once more with the slot or the name below it, such as day 2 B1."
    said = f"“{esc(reply.said)}” is no exercise that I know, and there" if reply.said else "There"
    return f"{said} is no block yet to attach a video to. Send the block first, then the video with a slot below it, such as B1."


@says(replies.DemoKept)
def demo_kept(reply: replies.DemoKept) -> str:
    where = f" ({esc(and_list(reply.places[:6]))})" if reply.places else ", which is not in your block at the moment"
    instead = ", in place of the earlier video" if reply.replaced else ""
    return f"Kept for {bold(reply.name)}{where}{instead}. Members get it when they ask how it is done."


@says(replies.DemoShown)
def demo_shown(reply: replies.DemoShown) -> Outgoing:
    words = "" if reply.kind == "video_note" else bold(f"{reply.label} {reply.name}".strip())
    return Outgoing(text=words, file_id=reply.file_id, file_kind=reply.kind)
