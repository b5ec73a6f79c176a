"""Every reply has its words, every button its label, and a person's words never break the marks."""

from __future__ import annotations

import dataclasses
import inspect
import re

import pytest

from bot.chat import wording
from bot.chat.wording import buttons, render, wording_of
from bot.chat.wording.phrases import say_set, say_sets, say_target, say_targets
from bot.coaching import replies, scene
from bot.training.blocks import SetTarget
from bot.training.loads import BODY_WEIGHT, band, weight
from bot.training.records import SetDone

REPLIES = [
    kind
    for _, kind in inspect.getmembers(replies, inspect.isclass)
    if kind.__module__ == replies.__name__ and dataclasses.is_dataclass(kind)
]
PARTS = {replies.SlotLine, replies.SetLine, replies.NextUp, replies.SwapChoice, replies.AdviceLine, replies.MemberWeek}


def test_every_reply_has_words() -> None:
    wording.load_wording()

    missing = [kind.__name__ for kind in REPLIES if kind not in PARTS and kind.__name__ not in wording._WORDINGS]

    assert missing == []


def test_every_deed_of_a_button_has_a_label() -> None:
    """Deeds whose label depends on data are given one by whoever offers them."""
    given_by_data = {
        "CarryOut",
        "NoteEffort",
        "PainHowBad",
        "NameMeans",
        "OwnPattern",
        "SwapSlot",
        "ChangePlan",
        "KeepDemo",
        "CoachLives",
    }

    unnamed = [
        name
        for name, (kind, _) in scene._DEEDS.items()
        if name not in given_by_data and kind not in buttons._FIXED and f"{name}()" not in inspect.getsource(buttons.button_words)
    ]

    assert unnamed == []


def test_a_persons_words_are_safe_inside_the_marks() -> None:
    fields = {"reply": {"coach": "<b>Ines & Co", "text": "a < b & c > d"}}

    assert render("FromCoach", fields).text == "<b>&lt;b&gt;Ines &amp; Co:</b> a &lt; b &amp; c &gt; d"


@pytest.mark.parametrize(
    ("done", "said"),
    [
        (SetDone(count=12, load=weight(20)), "20 kg × 12"),
        (SetDone(count=12, load=weight("17.5", pair=True)), "pair of 17.5 kg × 12"),
        (SetDone(count=12, load=BODY_WEIGHT), "12 reps"),
        (SetDone(left=12, right=10, load=weight(8)), "8 kg × L12 R10"),
        (SetDone(count=17, bouts=(10, 4, 3), load=weight(20)), "20 kg × 17 (10+4+3)"),
        (SetDone(count=9, partials=3, load=weight(20)), "20 kg × 9 + 3 partial"),
        (SetDone(count=15, load=band("red")), "red band × 15"),
        (SetDone(count=10, load=weight(20), about=True, failure=True), "20 kg × about 10, to failure"),
    ],
)
def test_a_set_is_said_shortly(done: SetDone, said: str) -> None:
    assert say_set(done) == said


def test_a_load_that_stays_is_said_once() -> None:
    assert say_sets([SetDone(count=n, load=weight(16)) for n in (12, 12, 10)]) == "16 kg × 12, 12, 10"


@pytest.mark.parametrize(
    ("target", "said"),
    [
        (SetTarget(8, 12), "8–12"),
        (SetTarget(10, 10), "10"),
        (SetTarget(amrap=True), "AMRAP"),
        (SetTarget(8, 9, load=weight(18)), "18 kg × 8–9"),
    ],
)
def test_a_target_is_said_shortly(target: SetTarget, said: str) -> None:
    assert say_target(target) == said


def test_equal_targets_are_counted() -> None:
    assert say_targets([SetTarget(8, 12)] * 3) == "3 × 8–12"


def test_the_emergency_message_names_the_local_number_and_nothing_else() -> None:
    text = re.sub(r"<[^>]+>", "", wording_of(replies.StopAndCall()).text)

    assert text == (
        "Stop training now. What you describe can be an emergency. Call your local emergency number, or have someone near you call. "
        "Do not drive yourself, and do not stay alone. Your coach is being told."
    )


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"to": 3}, "<b>Spring</b> is on its way to 3 members."),
        ({"to": 1, "amendment": True}, "<b>Spring</b> (changed) is on its way to 1 member."),
        ({"to": 2, "unreachable": 1}, "<b>Spring</b> is on its way to 2 members. 1 cannot be reached now (blocked me, or gone)."),
        ({"to": 0}, "<b>Spring</b> is published. Nobody has joined yet; whoever joins gets it."),
        ({"to": 0, "unreachable": 2}, "<b>Spring</b> is published, but nobody can be reached now: they blocked me, or are gone."),
        (
            {"to": 0, "amendment": True},
            "<b>Spring</b> (changed) is published. Nobody trains by it now; whoever begins it gets it so.",
        ),
    ],
)
def test_a_coach_hears_to_how_many_a_block_goes(fields: dict[str, object], said: str) -> None:
    assert render("BlockPublished", {"reply": {"name": "Spring", **fields}}).text == said
