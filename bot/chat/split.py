"""How is a text that is too long for one message cut? At line ends, outside of marked stretches, so that every piece reads alone.

Problem: the platform counts UTF-16 units of the text without its marks, and a piece whose marks do not close is refused whole.
Plan: read the text as tags and runs; remember each place where a cut may be made and how good it is (a blank line outside all
marks is best, then a line end outside, then one inside); take the last best place that fits; where a cut falls inside marks,
close them and open them again.

    "<b>A</b>\\n...4,000 units...\\nlast line"  ->  ["<b>A</b>\\n...4,000 units...", "last line"]
"""

from __future__ import annotations

import html
import re

MAX_TEXT = 4096
MAX_CAPTION = 1024
MID_LINE, INSIDE, OUTSIDE, BLANK_LINE = range(4)  # how good a place for a cut is: inside or outside of marks
_TOKEN = re.compile(r"<(/?)([a-zA-Z][\w-]*)([^<>]*)>|&(?:#\d+|#x[0-9a-fA-F]+|\w+);|\n|[^<&\n]+|.", re.DOTALL)


def utf16_length(text: str) -> int:
    """Length as the platform counts: characters beyond the basic plane are two."""
    return len(text) + sum(char > "\uffff" for char in text)


def shown_length(marked: str) -> int:
    """Length of an HTML text once its marks are taken out."""
    return utf16_length(plain(marked))


def plain(marked: str) -> str:
    """The words of an HTML text, without marks."""
    return html.unescape(re.sub(r"</?[a-zA-Z][\w-]*[^<>]*>", "", marked))


def split_html(marked: str, *, limit: int = MAX_TEXT) -> list[str]:
    """Cut an HTML text into pieces of at most `limit` UTF-16 units each; a short one comes back as it is."""
    if len(marked) <= limit // 2 or shown_length(marked) <= limit:
        return [marked]
    pieces = []
    while shown_length(marked) > limit:
        head, marked = _cut(marked, limit)
        if plain(head).strip():
            pieces.append(head)
    return [*pieces, marked] if plain(marked).strip() else pieces


def _cut(marked: str, limit: int) -> tuple[str, str]:
    """The first piece and the rest; the first holds at least one unit."""
    used, open_tags = 0, []
    places: list[tuple[int, int, tuple[tuple[str, str], ...]]] = []  # how good, where, what is open there
    for token in _TOKEN.finditer(marked):
        if name := token[2]:
            if not token[1]:
                open_tags.append((name, token[0]))
            elif open_tags and open_tags[-1][0] == name:
                open_tags.pop()
            continue
        length = utf16_length(html.unescape(token[0]))
        if used + length > limit:
            if not places or places[-1][0] == MID_LINE:  # one line fills the message: cut it where the limit falls
                room, run = limit - used, token[0]
                at = _last_space(run, room) if len(run) > 1 and not run.startswith("&") else 0
                if at or token.start():
                    places.append((MID_LINE, token.start() + at, tuple(open_tags)))
            break
        used += length
        if token[0] == "\n":
            before_is_blank = marked[: token.start()].endswith("\n")
            good = INSIDE if open_tags else BLANK_LINE if before_is_blank else OUTSIDE
            places.append((good, token.end(), tuple(open_tags)))
    outside = [place for place in places if place[0] >= OUTSIDE]
    blank = [place for place in outside if place[0] == BLANK_LINE and place[1] >= outside[-1][1] // 2]  # not for a tiny piece
    _, at, still_open = (blank or outside or places)[-1]
    closing = "".join(f"</{name}>" for name, _ in reversed(still_open))
    opening = "".join(whole for _, whole in still_open)
    return marked[:at].rstrip("\n") + closing, opening + marked[at:].lstrip("\n")


def _last_space(run: str, room: int) -> int:
    """Where to cut a run so that at most `room` units stay before: after its last space, or else hard."""
    at = units = 0
    for char in run:
        units += 2 if char > "\uffff" else 1
        if units > room:
            break
        at += 1
    space = run.rfind(" ", 0, at)
    return space + 1 if space > at // 2 else at
