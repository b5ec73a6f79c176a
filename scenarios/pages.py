"""How does a chat look to somebody who reads it afterwards? One HTML page that needs nothing but itself: no script, no file.

A page is laid out like the script of a play: the hour in the margin, who speaks, what they say. A message that was edited shows
what stood there before; buttons show what was offered, and which was pressed by whom and when. Hours are those of one zone.
"""

from __future__ import annotations

import base64
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, tzinfo
from html import escape
from itertools import groupby
from pathlib import Path

from scenarios.standin.chats import Chat, Message, Version
from scenarios.standin.files import StoredFile
from scenarios.standin.markup import Button, Rows

MAX_ATTACHED = 512 * 1024  # a larger document is named, but not carried inside the page
SPEAKER_COLOURS = 6  # as many as the style below has


@dataclass(frozen=True)
class Entry:
    """A line of the index: a file in the same folder. kind groups the lines under one heading."""

    file: str
    title: str
    about: str = ""
    kind: str = "Chats"


def chat_page(chat: Chat, *, zone: tzinfo, title: str = "", about: str = "", messages: Sequence[Message] | None = None) -> str:
    """The whole page of a chat. zone: whose hours are shown; about: a sentence on top; messages: only these, oldest first."""
    shown = list(chat.shown() if messages is None else messages)
    speakers = _speakers(shown)
    heading = title or chat.name
    days = [(day, list(group)) for day, group in groupby(shown, key=lambda message: message.at.astimezone(zone).date())]
    parts = [
        f"<header><h1>{escape(heading)}</h1>",
        f"<p>{escape(about)}</p>" if about else "",
        f"<p class=small>{_counted(len(shown), 'message')}, {_counted(len(days), 'day')}.",
        f" {escape(_zone_words(zone, shown))}</p></header>",
        _day_links(days),
    ]
    for day, of_day in days:
        parts.append(f'<section><h2 id="d{day.isoformat()}">{_day_words(day)}</h2>')
        parts.extend(_message(message, zone, speakers) for message in of_day)
        parts.append("</section>")
    if not shown:
        parts.append("<p class=small>Nothing has been written here yet.</p>")
    if chat.reply_rows:
        labels = "".join(f"<span class=button>{escape(label)}</span>" for row in chat.reply_rows for label in row)
        parts.append(f"<footer><p class=small>Offered in place of the keyboard:</p><p class=buttons>{labels}</p></footer>")
    return _document(heading, "".join(parts))


def index_page(entries: Iterable[Entry], *, title: str, about: str = "", pictures: bool = True) -> str:
    """The page that leads to all others. Entries keep their order; pictures are shown where they are named."""
    kinds: dict[str, list[Entry]] = {}
    for entry in entries:
        kinds.setdefault(entry.kind, []).append(entry)
    parts = [f"<header><h1>{escape(title)}</h1>", f"<p>{escape(about)}</p>" if about else "", "</header>"]
    for kind, of_kind in kinds.items():
        lines = "".join(_entry(entry, with_picture=pictures) for entry in of_kind)
        parts.append(f"<section><h2>{escape(kind)}</h2><ul class=index>{lines}</ul></section>")
    return _document(title, "".join(parts))


def write_page(folder: Path, file: str, page: str) -> Path:
    """Put a page into a folder, which is made if it is not there."""
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / file
    path.write_text(page, encoding="utf-8")
    return path


def _entry(entry: Entry, *, with_picture: bool) -> str:
    link = escape(entry.file, quote=True)
    is_picture = with_picture and entry.file.lower().endswith((".png", ".jpg", ".jpeg"))
    picture = f'<img loading=lazy src="{link}" alt="{escape(entry.title, quote=True)}">' if is_picture else ""
    about = f"<span>{escape(entry.about)}</span>" if entry.about else ""
    return f'<li><a href="{link}">{picture}<b>{escape(entry.title)}</b>{about}</a></li>'


# One message


def _message(message: Message, zone: tzinfo, speakers: dict[int, str]) -> str:
    hour = message.at.astimezone(zone)
    inside = "".join(_inside(message, zone))
    return (
        f'<article class="{speakers.get(message.sender.id, "")}" id="m{message.id}">'
        f'<time datetime="{message.at.isoformat()}">{hour:%H:%M}</time>'
        f"<h3>{escape(message.sender.first_name)}</h3><div class=said>{inside}</div></article>"
    )


def _inside(message: Message, zone: tzinfo) -> Iterator[str]:
    if message.forwarded_from:
        yield f"<p class=small>passed on from {escape(message.forwarded_from.first_name)}</p>"
    if message.reply_to:
        first_line = (message.reply_to.text or _file_words(message.reply_to.file)).split("\n")[0]
        yield f"<p class=about>{escape(message.reply_to.sender.first_name)}: {escape(_short(first_line))}</p>"
    yield from (_before(version, zone) for version in message.earlier)
    if message.file:
        yield _file(message.file)
    if message.text:
        yield f"<div class=text>{message.html}</div>"
    if message.poll:
        options = "".join(f"<li>{escape(each['text'])}: {each['voter_count']}</li>" for each in message.poll["options"])
        yield f"<div class=text><b>{escape(message.poll['question'])}</b><ul>{options}</ul></div>"
    if message.service:
        yield f"<p class=small>{escape(_service_words(message))}</p>"
    yield _buttons(message, zone)
    if message.edited_at:
        yield f"<p class=small>changed {message.edited_at.astimezone(zone):%H:%M}</p>"
    signs = " ".join(sign for of_user in message.reactions.values() for sign in of_user)
    if signs:
        yield f"<p class=signs>{escape(signs)}</p>"


def _before(version: Version, zone: tzinfo) -> str:
    labels = _labels(version.buttons)
    offered = f"<p class=small>with {escape(labels)}</p>" if labels else ""
    return (
        f"<details><summary>until {version.until.astimezone(zone):%H:%M}: {escape(_short(version.text))}</summary>"
        f"<div class=text>{version.html}</div>{offered}</details>"
    )


def _buttons(message: Message, zone: tzinfo) -> str:
    pressed = [(press.label, f"{press.user.first_name}, {press.at.astimezone(zone):%H:%M}") for press in message.presses]
    still_there = {button.label for row in message.buttons for button in row}
    rows = "".join(f"<p class=buttons>{''.join(_button(button, pressed) for button in row)}</p>" for row in message.buttons)
    gone = [f"<span class='button pressed'>{escape(label)}</span>" for label, _ in pressed if label not in still_there]
    by_label: dict[str, list[str]] = {}
    for label, by in pressed:
        by_label.setdefault(label, []).append(by)
    who = ". ".join(f"{label} pressed by {'; '.join(people)}" for label, people in by_label.items())
    past = f"<p class=buttons>{''.join(dict.fromkeys(gone))}</p>" if gone else ""
    return rows + past + (f"<p class=small>{escape(who)}</p>" if who else "")


def _button(button: Button, pressed: Sequence[tuple[str, str]]) -> str:
    looks = "button pressed" if any(label == button.label for label, _ in pressed) else "button"
    if button.url:
        return f"<a class='{looks}' href=\"{escape(button.url, quote=True)}\">{escape(button.label)} ↗</a>"
    return f"<span class='{looks}'>{escape(button.label)}</span>"


def _file(file: StoredFile) -> str:
    if file.kind == "photo":
        return f'<img src="{_inline(file)}" width="{file.width}" height="{file.height}" alt="{escape(file.name, quote=True)}">'
    if file.kind in ("voice", "audio"):
        return f'<audio controls preload=metadata src="{_inline(file)}"></audio>'
    name, size = escape(file.name), _size_words(len(file.content))
    if len(file.content) > MAX_ATTACHED:
        return f"<p class=file><b>{name}</b> <span class=small>{size}</span></p>"
    link = f'<a download="{escape(file.name, quote=True)}" href="{_inline(file)}">{name}</a>'
    return f"<p class=file>{link} <span class=small>{size}</span></p>"


def _inline(file: StoredFile) -> str:
    return f"data:{file.mime};base64,{base64.b64encode(file.content).decode()}"


# Words


def _speakers(messages: Iterable[Message]) -> dict[int, str]:
    """Sender to style class: the bot has its own, people get theirs in order of appearance."""
    people = dict.fromkeys(message.sender.id for message in messages if not message.from_bot)
    looks = {user_id: f"person p{at % SPEAKER_COLOURS}" for at, user_id in enumerate(people)}
    return looks | {message.sender.id: "bot" for message in messages if message.from_bot}


def _day_links(days: Sequence[tuple[date, list[Message]]]) -> str:
    if len(days) < 3:
        return ""
    links = "".join(f'<a href="#d{day.isoformat()}">{day:%a} {day.day} {day:%b}</a> ' for day, _ in days)
    return f"<nav><details><summary>Go to a day</summary><p>{links}</p></details></nav>"


def _day_words(day: date) -> str:
    return f"{day:%A} {day.day} {day:%B %Y}"


def _zone_words(zone: tzinfo, messages: Sequence[Message]) -> str:
    moment: datetime | None = messages[0].at if messages else None
    name = str(zone).replace("_", " ")
    return f"Hours in {name}." if moment is None or "/" in name else f"Hours in {moment.astimezone(zone):%Z}."


def _service_words(message: Message) -> str:
    service = message.service
    if "new_chat_members" in service:
        return f"{', '.join(user['first_name'] for user in service['new_chat_members'])} came in"
    if "left_chat_member" in service:
        return f"{service['left_chat_member']['first_name']} went out"
    if "migrate_to_chat_id" in service:
        return "the group moved on to a new id"
    return "the group goes on here" if "migrate_from_chat_id" in service else ", ".join(service)


def _file_words(file: StoredFile | None) -> str:
    return f"[{file.kind}: {file.name}]" if file else ""


def _labels(rows: Rows) -> str:
    return ", ".join(button.label for row in rows for button in row)


def _short(text: str, most: int = 70) -> str:
    line = " ".join(text.split())
    return line if len(line) <= most else f"{line[: most - 1]}…"


def _size_words(size: int) -> str:
    return f"{size} bytes" if size < 1024 else f"{size / 1024:.0f} KB" if size < 1024 * 1024 else f"{size / 1024 / 1024:.1f} MB"


def _counted(number: int, what: str) -> str:
    return f"{number:,} {what}{'' if number == 1 else 's'}"


def _document(title: str, body: str) -> str:
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{escape(title)}</title><style>{STYLE}</style></head><body><main>{body}</main></body></html>\n"
    )


STYLE = """
:root{--page:#f6f3ec;--card:#fffdf8;--ink:#25231f;--soft:#6f6a60;--line:#ddd6c8;--bot:#7a3b2e;--p0:#2f5d50;--p1:#3f4f8a;
 --p2:#8a5a00;--p3:#7b3f73;--p4:#1f6a86;--p5:#59631a}
@media(prefers-color-scheme:dark){:root{--page:#1b1a18;--card:#24221f;--ink:#ece7dc;--soft:#a59e90;--line:#3b3731;
 --bot:#e09a86;--p0:#8cc7b5;--p1:#a9b6ec;--p2:#e0b35c;--p3:#d9a2d0;--p4:#86c5dd;--p5:#c1cc7a}}
*{box-sizing:border-box}
body{margin:0;background:var(--page);color:var(--ink);font:16px/1.5 Charter,Georgia,"DejaVu Serif","Noto Color Emoji",serif}
main{max-width:46rem;margin:0 auto;padding:1.2rem 1rem 4rem}
header{border-bottom:3px double var(--line);margin-bottom:1rem}
h1{font-size:1.7rem;line-height:1.2;margin:.2rem 0 .4rem}
header p{margin:.2rem 0 .5rem}
h2{position:sticky;top:0;z-index:1;background:var(--page);font-size:.95rem;letter-spacing:.04em;margin:1.6rem 0 .2rem;
 padding:.5rem 0;border-bottom:1px solid var(--line)}
.small,time,h3,summary,.button,nav{font-family:system-ui,"DejaVu Sans",sans-serif}
.small{font-size:.8rem;color:var(--soft);margin:.25rem 0}
article{display:grid;grid-template-columns:3.2rem 8.6rem 1fr;gap:0 .7rem;padding:.6rem 0;border-bottom:1px dotted var(--line)}
article:target{background:var(--card)}
time{font-size:.8rem;color:var(--soft);font-variant-numeric:tabular-nums;padding-top:.15rem}
h3{font-size:.82rem;font-weight:650;margin:.12rem 0 0;color:var(--who,var(--soft));overflow-wrap:anywhere}
.said{min-width:0}
.text{white-space:pre-wrap;overflow-wrap:anywhere}
.person .text{font-style:italic}
.person .text code,.person .text pre{font-style:normal}
.bot{--who:var(--bot)}.p0{--who:var(--p0)}.p1{--who:var(--p1)}.p2{--who:var(--p2)}.p3{--who:var(--p3)}.p4{--who:var(--p4)}.p5{--who:var(--p5)}
.text ul{margin:.2rem 0;padding-left:1.2rem;white-space:normal}
.about{margin:0 0 .3rem;padding-left:.6rem;border-left:2px solid var(--line);color:var(--soft);font-size:.88rem}
.buttons{margin:.4rem 0 0;display:flex;flex-wrap:wrap;gap:.35rem}
.button{display:inline-block;border:1px dashed var(--soft);border-radius:.2rem;padding:.16rem .6rem;font-size:.85rem;
 color:inherit;text-decoration:none}
.pressed{border:1px solid var(--ink);background:var(--ink);color:var(--page)}
details{margin:0 0 .3rem}
summary{cursor:pointer;font-size:.8rem;color:var(--soft)}
details .text{text-decoration:line-through;text-decoration-color:var(--soft);color:var(--soft);padding:.2rem 0 .2rem .9rem}
img{display:block;max-width:100%;height:auto;margin:.2rem 0 .4rem;border:1px solid var(--line)}
audio{width:100%;max-width:22rem;margin:.2rem 0}
.file{margin:.1rem 0;padding:.35rem .6rem;border:1px solid var(--line);background:var(--card);overflow-wrap:anywhere}
.signs{margin:.2rem 0 0}
code,pre{font-family:"DejaVu Sans Mono",ui-monospace,monospace;font-size:.88em}
blockquote{margin:.2rem 0;padding-left:.7rem;border-left:2px solid var(--line)}
a{color:inherit}
nav a{display:inline-block;margin:0 .5rem .2rem 0;font-size:.85rem}
footer{margin-top:1.5rem}
.index{list-style:none;margin:.8rem 0;padding:0;display:grid;grid-template-columns:repeat(auto-fill,minmax(15rem,1fr));gap:.7rem}
.index a{display:block;height:100%;padding:.7rem .8rem;background:var(--card);border:1px solid var(--line);
 border-top:3px solid var(--bot);text-decoration:none}
.index b,.index span{display:block}
.index span{font-size:.88rem;color:var(--soft)}
@media(max-width:36rem){
 main{padding:.8rem .8rem 3rem}
 article{grid-template-columns:1fr auto;gap:.1rem .6rem}
 h3{grid-column:1;grid-row:1}
 time{grid-column:2;grid-row:1}
 .said{grid-column:1/-1}
 .button{padding:.3rem .7rem}
}
@media print{h2{position:static}details>*{display:block}}
"""
