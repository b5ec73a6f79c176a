"""A text too long for one message is cut where a person would cut it, and every piece reads alone."""

from __future__ import annotations

from html.parser import HTMLParser

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.chat.outgoing import Button, Outgoing, parts_of
from bot.chat.split import plain, shown_length, split_html, utf16_length


class Balanced(HTMLParser):
    """Reads a piece the way the platform does: what opens must close."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []

    def handle_starttag(self, tag: str, attrs: object) -> None:
        self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def is_balanced(piece: str) -> bool:
    reader = Balanced()
    reader.feed(piece)
    reader.close()
    return reader.open == []


@pytest.mark.parametrize(("text", "units"), [("", 0), ("abc", 3), ("ż", 1), ("🐢", 2), ("a🐢b", 4)])
def test_length_is_counted_as_the_platform_counts(text: str, units: int) -> None:
    """UTF-16 code units (Bot API manual, "Formatting options"); checked against Python's own encoder."""
    assert utf16_length(text) == units == len(text.encode("utf-16-le")) // 2


@pytest.mark.parametrize(
    ("marked", "words"),
    [
        ("<b>A</b> &amp; B", "A & B"),
        ('<a href="x?a=1&amp;b=2">link</a>', "link"),
        ("1 &lt; 2", "1 < 2"),
        ("<pre>x\ny</pre>", "x\ny"),
    ],
)
def test_marks_do_not_count(marked: str, words: str) -> None:
    assert (plain(marked), shown_length(marked)) == (words, len(words))


def test_a_text_that_fits_comes_back_as_it_is() -> None:
    assert split_html("🐢" * 2048) == ["🐢" * 2048]
    assert len(split_html("🐢" * 2048 + "a")) == 2


def test_it_is_cut_at_a_blank_line_before_a_line_end() -> None:
    text = "aaaa\nbbbb\n\ncccc\ndddd"

    assert split_html(text, limit=16) == ["aaaa\nbbbb", "cccc\ndddd"]
    assert split_html(text, limit=8) == ["aaaa", "bbbb", "cccc", "dddd"]


def test_it_is_not_cut_inside_a_mark_when_there_is_a_line_end_outside() -> None:
    text = "one\n<b>two\nthree\nfour</b>\nfive"

    assert split_html(text, limit=16) == ["one", "<b>two\nthree\nfour</b>", "five"]


def test_a_mark_that_is_too_long_is_closed_and_opened_again() -> None:
    pieces = split_html("<pre>" + "0123456789\n" * 3 + "</pre>", limit=22)

    assert pieces == ["<pre>0123456789\n0123456789</pre>", "<pre>0123456789\n</pre>"]


def test_a_line_without_an_end_is_cut_at_a_space_or_else_hard() -> None:
    assert split_html("aaa bbb ccc ddd", limit=8) == ["aaa bbb ", "ccc ddd"]
    assert split_html("a" * 20, limit=8) == ["a" * 8, "a" * 8, "a" * 4]
    assert split_html("🐢" * 5, limit=5) == ["🐢🐢", "🐢🐢", "🐢"]
    assert split_html("&amp;" * 5, limit=2) == ["&amp;&amp;", "&amp;&amp;", "&amp;"]


WORDS = st.sampled_from(["12", "row 20 kg", "🐢", "&amp;", "\n", "\n\n", " ", "ż", "long" * 9])
RUN = st.lists(WORDS, max_size=12).map("".join)
MARKED = st.lists(
    st.one_of(
        RUN,
        st.tuples(st.sampled_from(["b", "i", "code", "pre"]), RUN, RUN).map(lambda t: f"<{t[0]}>{t[1]}<u>{t[2]}</u></{t[0]}>"),
    ),
    max_size=12,
).map("".join)


@settings(max_examples=300, deadline=None)
@given(MARKED, st.integers(min_value=40, max_value=120))
def test_every_piece_fits_and_reads_alone_and_no_word_is_lost(marked: str, limit: int) -> None:
    pieces = split_html(marked, limit=limit)

    assert all(shown_length(piece) <= limit for piece in pieces)
    assert all(is_balanced(piece) for piece in pieces)
    assert "".join("".join(plain(piece) for piece in pieces).split()) == "".join(plain(marked).split())


def test_the_buttons_stand_under_the_last_part_and_the_edit_is_the_first() -> None:
    buttons = ((Button("Yes", data="y"),),)
    parts = parts_of(Outgoing(text=("line\n" * 2_000), buttons=buttons, edit_message_id=5))

    assert [part.buttons for part in parts] == [()] * (len(parts) - 1) + [buttons]
    assert [part.edit_message_id for part in parts] == [5] + [None] * (len(parts) - 1)
    assert len(parts) == 3


def test_a_caption_that_is_too_long_becomes_a_message_of_its_own() -> None:
    parts = parts_of(Outgoing(text="a" * 1_025, photo=b"png", buttons=((Button("Yes", data="y"),),)))

    assert [(part.has_media, len(part.text), len(part.buttons)) for part in parts] == [(True, 0, 0), (False, 1_025, 1)]
    assert len(parts_of(Outgoing(text="a" * 1_024, photo=b"png"))) == 1


@pytest.mark.parametrize(
    ("make", "why"),
    [
        (lambda: Outgoing(), "a message needs a text or a file"),
        (lambda: Button("Yes"), "needs either data or a url"),
        (lambda: Button("Yes", data="ż" * 33), "data of 66 bytes, at most 64"),
        (lambda: Outgoing(text="x", buttons=(tuple(Button(str(n), data=str(n)) for n in range(9)),)), "8 a row"),
        (lambda: Outgoing(text="x", file_id="abc", file_kind="film"), "expected one of photo, document, voice"),
    ],
)
def test_what_the_platform_would_refuse_is_refused_here(make: object, why: str) -> None:
    with pytest.raises(ValueError, match=why):
        make()  # type: ignore[operator]
