"""No emergency may be missed: ways of saying it beside what only looks alike, and how many false alarms that costs."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.language.safety import Level, read_safety

HERE = Path(__file__).parent
# False alarms among the look-alikes that we put up with, of all of them. Lower it whenever the reader gets better.
MOST_FALSE_ALARMS = 2
ORDER = list(Level)


def cases(name: str) -> list[tuple[str, str]]:
    """(levels wanted, text) of each line; a "#" starts a comment line."""
    lines = (HERE / name).read_text(encoding="utf-8").splitlines()
    pairs = [line.split(" | ", 1) for line in lines if line.strip() and not line.startswith("#")]
    return [(wanted.strip(), text.strip()) for wanted, text in pairs]


def meets(wanted: str, text: str) -> bool:
    """wanted: levels with a "/" between, each with the topic it must have after a ":"."""
    read = read_safety(text)
    ways = [way.partition(":") for way in wanted.split("/")]
    return any(read.level.value == level and topic in ("", read.topic) for level, _, topic in ways)


TOLD = [
    *cases("emergencies.txt"),
    *cases("second_round.txt"),
    *cases("third_round.txt"),
    *cases("fourth_round.txt"),
    *cases("held_out.txt"),
    *cases("aside.txt"),
    *cases("strangers.txt"),
    *cases("fifth_round.txt"),
    *cases("odd_words.txt"),
    *cases("sixth_round.txt"),
    *cases("seventh_round.txt"),
    *cases("eighth_round.txt"),
    *cases("by_cause.txt"),
]
EMERGENCIES = [text for wanted, text in TOLD if wanted == "emergency"]


@pytest.mark.parametrize("text", EMERGENCIES)
def test_no_emergency_is_missed(text: str) -> None:
    assert read_safety(text).level is Level.EMERGENCY


@pytest.mark.parametrize(("wanted", "text"), [case for case in TOLD if case[0] != "emergency"])
def test_pain_and_cautions_are_read_as_what_they_are(wanted: str, text: str) -> None:
    assert meets(wanted, text), read_safety(text)


def test_look_alikes_raise_few_false_alarms() -> None:
    alarms = [f"{text} -> {read_safety(text).level}" for wanted, text in cases("lookalikes.txt") if not meets(wanted, text)]
    assert len(alarms) <= MOST_FALSE_ALARMS, "\n".join(alarms)


def test_no_look_alike_sends_for_an_ambulance_but_those_listed() -> None:
    sent = {text for _, text in cases("lookalikes.txt") if read_safety(text).level is Level.EMERGENCY}
    assert sent <= set()


def test_the_corpus_is_as_large_as_it_is_said_to_be() -> None:
    assert len(cases("emergencies.txt")) >= 130
    assert len(cases("lookalikes.txt")) >= 65


@pytest.mark.parametrize("text", [text for text in EMERGENCIES if not read_safety(text).doubted])
@pytest.mark.parametrize("dress", ["{}!!!", "hey coach, {}", "A1 20x12 10. {}", "{} \N{FACE WITH TEARS OF JOY}"])
def test_capitals_greetings_sets_and_smiles_hide_no_emergency(text: str, dress: str) -> None:
    read = read_safety(dress.format(text).upper())
    assert ORDER.index(read.level) <= ORDER.index(Level.SAME_DAY), (dress.format(text), read)


@pytest.mark.parametrize("text", ["´", "12 ' 20", "’", "", "`x`", "😂"])
def test_lone_marks_are_read_as_nothing(text: str) -> None:
    assert read_safety(text).level is Level.NONE


@pytest.mark.parametrize(
    "text",
    ["is 10 kg ok for the hammer curl", "is 12 enough for curls", "is 15kg too heavy", "is 10 minutes ok", "im 10 reps in"],
)
def test_a_number_that_is_asked_about_is_nobodys_age(text: str) -> None:
    assert read_safety(text).level is Level.NONE


@pytest.mark.parametrize(
    "text", ["is 14 too young", "im 14", "he is 14 can he train", "my daughter is 12 can she join", "is 15 old enough"]
)
def test_an_age_under_eighteen_is_a_caution(text: str) -> None:
    assert read_safety(text).topic == "minor"
