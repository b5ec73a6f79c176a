"""A chat can be read afterwards as one page that needs nothing but itself, and as it goes in a terminal."""

from __future__ import annotations

import base64
import io
from html.parser import HTMLParser
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from telegram import InlineKeyboardButton, InlineKeyboardMarkup

from scenarios.pages import Entry, chat_page, index_page, write_page
from scenarios.player import Person
from scenarios.printing import Printer, columns_of, lines_of
from scenarios.standin import User
from scenarios.standin.chats import Chat, Message
from scenarios.standin.entities import as_html, entities_in_plain, read_html, utf16_length
from tests.builders.meeting import MONDAY_NOON, Meeting, meeting

KATHMANDU = ZoneInfo("Asia/Kathmandu")  # UTC+5:45, so that a wrong zone shows
VOID = {"meta", "img", "br", "link"}


class Reader(HTMLParser):
    """Reads a page with the standard library: what is said where, which addresses it has, and whether every tag is closed."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.open: list[tuple[str, str]] = []
        self.said: list[str] = []
        self.by_class: dict[str, list[str]] = {}
        self.addresses: list[str] = []
        self.tags: set[str] = set()
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        self.tags.add(tag)
        self.addresses += [str(value) for name, value in attrs if name in ("src", "href")]
        if tag not in VOID:
            self.open.append((tag, given.get("class") or tag))
            for name in str(given.get("class") or "").split():
                self.by_class.setdefault(name, []).append("")

    def handle_endtag(self, tag: str) -> None:
        assert self.open, f"</{tag}> closes nothing"
        assert self.open.pop()[0] == tag

    def handle_data(self, data: str) -> None:
        self.said.append(data)
        for _, names in self.open:
            for name in names.split():
                if name in self.by_class:
                    self.by_class[name][-1] += data


async def a_conversation(at: Meeting) -> Person:
    mira = await at.newcomer("Mira <3")
    buttons = InlineKeyboardMarkup(
        [[InlineKeyboardButton("Agree", callback_data="a"), InlineKeyboardButton("No", callback_data="n")]]
    )
    asked = await at.bot.send_message(mira.id, "<b>Welcome</b>", parse_mode="HTML", reply_markup=buttons)
    await mira.presses("Agree")
    await asked.edit_text("Agreed.")
    said = await mira.says("20 x 12 <script>alert(1)</script> & more")
    await mira.edits(said, "20 x 11")
    picture = io.BytesIO()
    Image.new("RGB", (20, 10)).save(picture, "PNG")
    await at.bot.send_photo(mira.id, picture.getvalue(), caption="five weeks")
    await at.bot.send_voice(mira.id, b"OggSxyz")
    await at.bot.send_document(mira.id, b"A1;12", filename="sets & more.csv", reply_markup=buttons)
    return mira


@meeting()
async def test_a_page_tells_who_said_what_when_and_what_stood_there_before(at: Meeting) -> None:
    mira = await a_conversation(at)

    page = Reader(chat_page(mira.chat, zone=KATHMANDU, about="One kettlebell."))

    told = " ".join(page.said)
    assert page.open == []
    assert "Monday 5 January 2026" in told
    assert "17:45" in told  # 12:00 UTC
    assert "Hours in Asia/Kathmandu." in told
    assert page.by_class["text"] == [
        "/start",
        "Welcome",
        "Agreed.",
        "20 x 12 <script>alert(1)</script> & more",
        "20 x 11",
        "five weeks",
    ]
    assert "Agree pressed by Mira <3, 17:45" in told
    assert "with Agree, No" in told
    assert page.by_class["pressed"] == ["Agree"]
    assert page.by_class["button"] == ["Agree", "Agree", "No"]
    assert page.by_class["file"] == ["sets & more.csv 5 bytes"]


@meeting()
async def test_a_page_needs_nothing_but_itself(at: Meeting) -> None:
    mira = await a_conversation(at)

    page = Reader(chat_page(mira.chat, zone=KATHMANDU))

    assert "script" not in page.tags
    assert {address.partition(",")[0] for address in page.addresses} == {
        "data:image/png;base64", "data:audio/ogg;base64", "data:text/csv;base64",
    }  # fmt: skip
    assert base64.b64decode(page.addresses[1].partition(",")[2]) == b"OggSxyz"


@meeting()
async def test_an_empty_chat_is_a_page_too(at: Meeting) -> None:
    mira = at.standin.person("Mira")
    assert "Nothing has been written here yet." in chat_page(mira.chat, zone=KATHMANDU)


def test_the_index_leads_to_every_file_and_shows_pictures(tmp_path: Path) -> None:
    entries = [Entry("mira & co.html", "Mira"), Entry("squat.png", "Squat", "five weeks", kind="Charts")]

    path = write_page(tmp_path / "out", "index.html", index_page(entries, title="A month"))

    page = Reader(path.read_text(encoding="utf-8"))
    assert page.addresses == ["mira & co.html", "squat.png", "squat.png"]
    assert page.open == []


@settings(max_examples=150, deadline=None)
@given(st.text(st.characters(codec="utf-8"), max_size=60))
def test_whatever_a_person_writes_stands_on_the_page_as_written(text: str) -> None:
    chat = Chat(1, "private", person=User(1, "Mira"))
    chat.add(Message(1, chat, User(1, "Mira"), MONDAY_NOON, text or "x", tuple(entities_in_plain(text or "x"))))

    page = Reader(chat_page(chat, zone=KATHMANDU))

    newlines = str.maketrans({"\r": "\n", "\0": "\ufffd"})
    assert page.by_class["text"][0].translate(newlines) == (text or "x").translate(newlines)


@settings(max_examples=150, deadline=None)
@given(
    st.lists(
        st.tuples(st.sampled_from(["b", "i", "u", "s", "code", "blockquote"]), st.text("ab <&>💪é\n", max_size=8)), max_size=6
    )
)
def test_marked_text_is_read_and_shown_again_the_same(pieces: list[tuple[str, str]]) -> None:
    """Checked against the standard library's own reader of HTML."""
    from html import escape

    source = "".join(f"<{tag}>{escape(words)}</{tag}>" for tag, words in pieces)

    text, entities = read_html(source)

    assert text == "".join(words for _, words in pieces)
    assert all(entity["offset"] + entity["length"] <= utf16_length(text) for entity in entities)
    assert "".join(Reader(as_html(text, entities)).said) == text


def a_message(text: str, *, from_bot: bool = False, minutes: int = 0) -> Message:
    from datetime import timedelta

    sender = User(2, "Companion", is_bot=True) if from_bot else User(1, "Mira")
    return Message(1, Chat(1, "private", person=User(1, "Mira")), sender, MONDAY_NOON + timedelta(minutes=minutes), text)


def test_a_conversation_is_printed_with_day_hour_name_and_words() -> None:
    stream = io.StringIO()
    printer = Printer(stream, width=56)

    printer.message(a_message("20 x 12"), zone=KATHMANDU)
    printer.message(a_message("A1 set 1: 12 x 20 kg, last time 10. Next: A2.", from_bot=True), zone=KATHMANDU)
    printer.progress(1, 10, "Monday")
    printer.message(a_message("late one", minutes=700), zone=KATHMANDU, chat="Mira")

    assert stream.getvalue() == (
        "Mon 5 Jan 2026\n"
        "17:45  Mira        20 x 12\n"
        "17:45  Companion   A1 set 1: 12 x 20 kg, last time 10.\n"
        "                   Next: A2.\n"
        "-- 10% Monday\n"
        "Tue 6 Jan 2026\n"
        "Tue 05:25  Mira        late one\n"
    )


def test_chats_on_different_days_at_one_moment_do_not_repeat_the_heading() -> None:
    stream = io.StringIO()
    printer = Printer(stream, width=60)
    for minutes, zone in ((690, KATHMANDU), (691, ZoneInfo("America/Denver")), (692, KATHMANDU)):
        printer.message(a_message("12", minutes=minutes, from_bot=minutes == 692), zone=zone, chat="Mira")

    assert stream.getvalue() == (
        "Tue 6 Jan 2026\nTue 05:15  Mira        12\nMon 16:31  Mira        12\nTue 05:17  to Mira     12\n"
    )  # fmt: skip


def test_progress_is_told_at_each_tenth_however_it_jumps() -> None:
    stream = io.StringIO()
    printer = Printer(stream)
    for done in (0, 3, 130, 150, 480, 1000):
        printer.progress(done, 1000)

    assert stream.getvalue() == "-- 13%\n-- 48%\n-- 100%\n"


def test_colour_and_the_moving_line_are_for_terminals_only() -> None:
    plain, terminal = io.StringIO(), io.StringIO()
    for stream, colour in ((plain, None), (terminal, True)):
        printer = Printer(stream, colour=colour, width=60)
        printer.progress(1, 2, "week 1")
        printer.message(a_message("12"), zone=KATHMANDU)
        printer.finish()

    assert "\x1b" not in plain.getvalue()
    assert "\x1b[33m" in terminal.getvalue()
    assert "[==========          ]  50% week 1" in terminal.getvalue()
    assert terminal.getvalue().endswith("\r\x1b[K")


@settings(max_examples=200, deadline=None)
@given(st.text(st.characters(codec="utf-8"), max_size=120), st.integers(24, 80))
def test_no_text_steers_the_terminal_or_runs_over_its_edge(text: str, room: int) -> None:
    for line in lines_of(a_message(text), room):
        assert columns_of(line) <= room
        assert "\x1b" not in line and "\r" not in line and "\n" not in line


@pytest.mark.parametrize(("text", "columns"), [("abc", 3), ("é", 1), ("e\u0301", 1), ("握力", 4), ("💪", 2), ("", 0)])
def test_wide_signs_take_two_columns(text: str, columns: int) -> None:
    """Widths of Unicode Standard Annex 11, "East Asian Width"."""
    assert columns_of(text) == columns
