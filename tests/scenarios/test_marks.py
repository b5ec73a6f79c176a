"""Marks in a text are read as the platform reads them: the examples of the Bot API manual, "HTML style", and their odd cases."""

from __future__ import annotations

import pytest

from scenarios.standin.entities import entities_in_plain, read_html, trimmed

# The manual's own example, line by line (from memory), beside the kinds that its lines name.
MANUAL = [
    ("<b>bold</b>, <strong>bold</strong>", ["bold", "bold"]),
    ("<i>italic</i>, <em>italic</em>", ["italic", "italic"]),
    ("<u>underline</u>, <ins>underline</ins>", ["underline", "underline"]),
    ("<s>strikethrough</s>, <strike>strikethrough</strike>, <del>strikethrough</del>", ["strikethrough"] * 3),
    ('<span class="tg-spoiler">spoiler</span>, <tg-spoiler>spoiler</tg-spoiler>', ["spoiler", "spoiler"]),
    ("<b>bold <i>italic bold <s>all</s></i> bold</b>", ["bold", "italic", "strikethrough"]),
    ('<a href="http://www.example.com/">inline URL</a>', ["text_link"]),
    ("<code>inline fixed-width code</code>", ["code"]),
    ("<pre>pre-formatted fixed-width code block</pre>", ["pre"]),
    ('<pre><code class="language-python">code block</code></pre>', ["pre"]),
    ("<blockquote>Block quotation</blockquote>", ["blockquote"]),
    ("<blockquote expandable>Block quotation</blockquote>", ["expandable_blockquote"]),
]


@pytest.mark.parametrize(("source", "kinds"), MANUAL, ids=[line[0][:24] for line in MANUAL])
def test_the_manuals_examples_are_marked_as_it_says(source: str, kinds: list[str]) -> None:
    _, entities = read_html(source)
    assert [entity["type"] for entity in entities] == kinds


@pytest.mark.parametrize(
    ("source", "text", "entities"),
    [
        ("💪 <b>é</b>", "💪 é", [{"type": "bold", "offset": 3, "length": 1}]),
        ("a &lt;b&gt; &amp; &quot;c&quot; &#39; &#x1F4AA; &nbsp; & &unknown;", "a <b> & \"c\" ' 💪 &nbsp; & &unknown;", []),
        ("<B>x</B>", "x", [{"type": "bold", "offset": 0, "length": 1}]),
        ("<b></b>x", "x", []),
        ('<a href="https://example.org/?a=1&amp;b=2">x</a>', "x", [{"type": "text_link", "offset": 0, "length": 1, "url": "https://example.org/?a=1&b=2"}]),
        ("<a>x</a>", "x", []),
        ("5 > 3", "5 > 3", []),
    ],
)  # fmt: skip
def test_odd_cases(source: str, text: str, entities: list[dict[str, object]]) -> None:
    assert read_html(source) == (text, entities)


def test_white_space_around_is_cut_and_the_marks_move_along() -> None:
    text, entities = read_html("\n <b> 12</b> <i> </i>")
    assert trimmed(text, entities) == ("12", [{"type": "bold", "offset": 0, "length": 2}])


@pytest.mark.parametrize(
    ("text", "marked"),
    [
        ("/start abc", [("bot_command", "/start")]),
        ("well /today@stand_in_bot now", [("bot_command", "/today@stand_in_bot")]),
        ("12/10/8", []),
        ("3 sets, 8/side", []),
        ("ask @rosa_lifts", [("mention", "@rosa_lifts")]),
        ("rosa@example.org", [("email", "rosa@example.org")]),
        ("#1 no, #week2 yes", [("hashtag", "#week2")]),
        ("20 @ 8", []),
    ],
)
def test_what_the_platform_marks_by_itself(text: str, marked: list[tuple[str, str]]) -> None:
    found = [(entity["type"], text[entity["offset"] : entity["offset"] + entity["length"]]) for entity in entities_in_plain(text)]
    assert found == marked
