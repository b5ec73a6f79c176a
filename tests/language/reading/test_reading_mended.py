"""What was once misheard: words that change how many sets there were, talk beside sets, questions, doses."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from bot.language import Verdict, read
from bot.language.readings import AsideKind, CorrectionHeard, FinishHeard, Reading, SetsHeard, SkipHeard
from bot.training.blocks import Measure, SetPlace
from bot.training.loads import weight
from bot.training.records import SetDone, SetRecord
from tests.builders.situations import NOW, situation


def told(reading: Reading) -> list[tuple[str, int, str, int | None]]:
    """(slot, set, load, count) of every set on record."""
    sets = [one for part in reading.heard if isinstance(part, SetsHeard) for one in part.sets]
    return [
        (
            one.place.label if one.place else "",
            one.place.number if one.place else 0,
            str(one.done.load.amount if one.done.load else None),
            one.done.count,
        )
        for one in sets
    ]


@pytest.mark.parametrize(
    ("text", "counts", "load"),
    [
        ("two sets of 10 at 20", [10, 10], "20"),
        ("2 sets of 12 with 18kg", [12, 12], "18"),
        ("12 reps on the first two sets and 10 on the third, 14 kg.", [12, 12, 10], "14"),
        ("first set twelve second set eleven third set ten all with twenty kilos", [12, 11, 10], "20"),
        ("ok a1 done, 12 12 and 12 with 12kg", [12, 12, 12], "12"),
        ("A1 finished: 12, 12, 11 at 14kg", [12, 12, 11], "14"),
        ("x12 x11 x10 @20", [12, 11, 10], "20"),
        ("20 was too heavy, 16x12", [12], "16"),
        ("20 x 1O", [10], "20"),
        ("half a dozen with 20kg", [6], "20"),
        ("a dozen with twenty", [12], "20"),
    ],
)
def test_as_many_sets_are_recorded_as_the_words_say(text: str, counts: list[int], load: str) -> None:
    reading = read(text, situation("new"))

    assert reading.verdict is Verdict.RECORD
    assert told(reading) == [("A1", number, load, count) for number, count in enumerate(counts, 1)]


@pytest.mark.parametrize("text", ["total 24kg (12+12) 10 reps", "24kg (12+12) 10 reps"])
def test_the_two_halves_of_a_total_are_no_sets(text: str) -> None:
    assert told(read(text, situation("new due=B2.1"))) == [("B2", 1, "12", 10)]


@pytest.mark.parametrize("text", ["got ten with 16 before the phone rang, then two more", "20x8 and then 3 more"])
def test_reps_told_beside_a_set_are_asked_about_and_not_dropped(text: str) -> None:
    assert read(text, situation("new")).verdict is Verdict.ASK


def test_a_band_given_up_is_not_part_of_the_set() -> None:
    (heard,) = read("blue was too much, back to red 13", situation("new due=E1.1")).heard

    assert isinstance(heard, SetsHeard)
    assert heard.sets[0].done.load is not None and heard.sets[0].done.load.bands == ("red",)


def test_a_skip_on_a_line_of_its_own_is_heard_beside_the_sets() -> None:
    reading = read("goblet squat - 20kg - 12,12,12\nplank - skipped", situation("new"))

    assert [count for *_, count in told(reading)] == [12, 12, 12]
    assert [part.places for part in reading.heard if isinstance(part, SkipHeard)] == [
        (SetPlace("C1", 1), SetPlace("C1", 2), SetPlace("C1", 3))
    ]


@pytest.mark.parametrize("text", ["does plank for 45s build abs", "does 20kg for 12 count"])
def test_a_question_without_its_mark_is_still_a_question(text: str) -> None:
    reading = read(text, situation("new"))

    assert reading.verdict is Verdict.NOT_SETS
    assert [aside.kind for aside in reading.asides] == [AsideKind.QUESTION]


@pytest.mark.parametrize(
    ("text", "load", "count"),
    [
        ("20*10 feeling dizzy", "20", 10),
        ("20kg x 10 dizzy now", "20", 10),
        ("wrist hurt little bit 14kg 10", "14", 10),
        ("stopped at 6 because of my hip, 12kg", "12", 6),
    ],
)
def test_sets_stay_and_pain_is_heard_where_nothing_parts_them(text: str, load: str, count: int) -> None:
    reading = read(text, situation("new"))

    assert told(reading) == [("A1", 1, load, count)]
    assert AsideKind.PAIN in [aside.kind for aside in reading.asides]


@pytest.mark.parametrize("text", ["knee hurts at 40kg", "my shoulder hurts when I do 20kg x 10"])
def test_numbers_that_tell_when_it_hurts_are_no_sets(text: str) -> None:
    assert read(text, situation("new")).verdict is Verdict.NOT_SETS


@pytest.mark.parametrize("text", ["That's me finished", "all done 👍", "that's me done 🙌"])
def test_the_end_of_a_session_is_heard_whatever_its_dress(text: str) -> None:
    (heard,) = read(text, situation("new")).heard

    assert isinstance(heard, FinishHeard)


@pytest.mark.parametrize(
    "text", ["I take 2 x 500mg of paracetamol", "pizza 2x1 tonight haha", "bodyweight 82.5 this morning", "had 3 beers"]
)
def test_doses_food_and_ones_own_weight_are_no_sets(text: str) -> None:
    assert read(text, situation("new")).verdict is Verdict.NOT_SETS


@pytest.mark.parametrize(
    ("text", "counts"),
    [
        ("did two sets of ten with the 20s", [10, 10]),
        ("both sets 12 with 20kg", [12, 12]),
        ("first two were 12, last one 10, 20kg", [12, 12, 10]),
        ("took 400mg ibuprofen, 20x12", [12]),
        ("had 2 coffees and 20x12", [12]),
    ],
)
def test_other_talk_and_other_words_for_how_many_leave_the_sets_as_told(text: str, counts: list[int]) -> None:
    reading = read(text, situation("new"))

    assert reading.verdict is Verdict.RECORD
    assert [(load, count) for _, _, load, count in told(reading)] == [("20", count) for count in counts]
    assert not [part for part in reading.heard if isinstance(part, SkipHeard)]


def test_a_skip_ends_where_sets_of_another_exercise_begin() -> None:
    reading = read("skipping the rows, 20x12 squats", situation("new"))

    assert told(reading) == [("A1", 1, "20", 12)]
    assert {place.label for part in reading.heard if isinstance(part, SkipHeard) for place in part.places} == {"B1"}


def test_pain_told_within_set_talk_is_heard_as_well() -> None:
    reading = read("felt dizzy after 20x10", situation("new"))

    assert told(reading) == [("A1", 1, "20", 10)]
    assert [aside.kind for aside in reading.asides] == [AsideKind.PAIN]


@pytest.mark.parametrize("text", ["last week i did 20x12", "did 12 with 20 last week", "last 2 sets were 10 at 18kg"])
def test_sets_of_another_time_are_asked_about(text: str) -> None:
    assert read(text, situation("new")).verdict is Verdict.ASK


def test_where_it_was_stopped_is_kept_beside_the_reason() -> None:
    reading = read("had to stop at 7, back twinge, 20kg", situation("new"))

    assert told(reading) == [("A1", 1, "20", 7)]
    assert [aside.kind for aside in reading.asides] == [AsideKind.PAIN]


def test_two_counts_with_a_stroke_on_a_one_sided_exercise_are_sides_or_sets() -> None:
    reading = read("10/9 with 14kg", situation("new due=B1.1"))

    assert reading.question is not None
    sides, sets = (told(Reading("", Verdict.RECORD, option.heard)) for option in reading.question.options)
    assert [place[:3] for place in sides] == [("B1", 1, "14")]
    assert sets == [("B1", 1, "14", 10), ("B1", 2, "14", 9)]


@pytest.mark.parametrize(
    "text", ["done: " + "9" * 40 + " say", "20x12. done " + "12 " * 60 + "say", "finished " + "1.1" * 40 + " x"]
)
def test_a_finish_with_a_monstrous_number_ends(text: str) -> None:
    """Digits that could be cut anywhere once took for ever; the test ends, or hangs the suite."""
    assert isinstance(read(text, situation("new")), Reading)


def test_what_another_day_has_on_record_is_corrected_by_words() -> None:
    """Without a set's number the load of the whole exercise is meant; with one, that set alone."""
    there = situation("home")
    yesterday = tuple(
        SetRecord(SetDone(Measure.REPS, count=12, load=weight("20")), SetPlace("A1", n), NOW.date() - timedelta(days=1), day=1)
        for n in (1, 2, 3)
    )
    there = replace(there, earlier=yesterday)

    whole = read("yesterday's goblet squats were 22 not 20", there).heard
    assert [(h.old.place, h.new.done.load) for h in whole if isinstance(h, CorrectionHeard)] == [
        (SetPlace("A1", n), weight("22")) for n in (1, 2, 3)
    ]
    (one,) = read("yesterday squat set 2 was 10", there).heard
    assert isinstance(one, CorrectionHeard)
    assert (one.old.place, one.new.done.count, one.new.on) == (SetPlace("A1", 2), 10, yesterday[0].on)
