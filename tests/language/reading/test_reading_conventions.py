"""What a set record means, promise by promise, as whole values."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.language import Habits, Verdict, read
from bot.language.readings import AsideKind, CorrectionHeard, RepeatHeard, SetsHeard, UndoHeard
from bot.training.blocks import ExerciseId, Measure, SetKind, SetPlace
from bot.training.kit import Kit
from bot.training.loads import BODY_WEIGHT, Load, LoadKind, Unit, band, weight
from bot.training.records import DropDone, SetDone, SetRecord, Source
from tests.builders.situations import situation
from tests.language.reading.fuzz_reading import SITUATIONS, any_text, well_formed


def sets(text: str, line: str) -> tuple[SetRecord, ...]:
    reading = read(text, situation(line))
    assert reading.verdict is Verdict.RECORD, reading.question
    (heard,) = reading.heard
    assert isinstance(heard, SetsHeard)
    return heard.sets


def done(text: str, line: str) -> SetDone:
    (record,) = sets(text, line)
    return record.done


def test_a_set_carries_its_place_date_day_and_exercise() -> None:
    assert sets("20x12", "home") == (
        SetRecord(SetDone(count=12, load=weight(20)), SetPlace("A1", 1), date(2026, 3, 4), ExerciseId("goblet_squat"), 1),
    )


def test_a_unit_left_unsaid_is_the_members_own() -> None:
    assert done("185x5", "bar").load == weight(185, Unit.LB)


def test_a_unit_that_is_said_stays_as_said() -> None:
    assert done("85kg x 5", "bar").load == weight(85, Unit.KG)


def test_a_pair_is_the_weight_of_one_marked_as_a_pair() -> None:
    assert done("two 16s x 10", "home due=B2.1").load == weight(16, pair=True)


def test_a_total_for_two_hands_is_halved() -> None:
    assert done("32kg total x 10", "home due=B2.1").load == weight(16, pair=True)


def test_plates_per_side_are_added_to_the_bar_that_is_owned() -> None:
    assert done("70 a side x 5", "bar").load == weight(185, Unit.LB)


def test_plates_per_side_are_asked_about_where_no_bar_is_known() -> None:
    reading = read("70 a side x 5", replace(situation("bar"), kit=Kit()))

    assert reading.verdict is Verdict.ASK
    assert reading.question is not None and reading.question.code == "bar_weight"


def test_only_reps_carry_the_load_of_the_set_before_and_say_so() -> None:
    assert done("11", "home A1.1=20x12 due=A1.2") == SetDone(count=11, load=weight(20), load_source=Source.CARRIED)


def test_only_reps_with_nothing_before_are_asked_about_with_last_time_first() -> None:
    reading = read("12", situation("home"))

    assert reading.question is not None and reading.question.code == "missing_load"
    first = reading.question.options[0].heard[0]
    assert isinstance(first, SetsHeard) and first.sets[0].done.load == weight(20)


def test_only_reps_are_asked_about_where_the_block_changes_the_load() -> None:
    reading = read("11", situation("home due=G1.2 G1.1=10x12"))

    assert reading.question is not None and reading.question.code == "missing_load"


def test_a_body_weight_exercise_needs_no_load() -> None:
    assert done("12", "home due=A2.1") == SetDone(count=12, load=BODY_WEIGHT, load_source=Source.ASSUMED)


@pytest.mark.parametrize(
    ("text", "load"),
    [
        ("+5 x 5", Load(LoadKind.ADDED, Decimal(5), Unit.KG)),
        ("-15kg x 8", Load(LoadKind.ASSISTED, Decimal(15), Unit.KG)),
        ("red band x 8", Load(LoadKind.ASSISTED, bands=("red",))),
        ("bw x 7", BODY_WEIGHT),
    ],
)
def test_added_load_help_and_body_weight_are_kinds_of_their_own(text: str, load: Load) -> None:
    assert done(text, "home due=D1.1").load == load


def test_stacked_bands_are_named_each() -> None:
    assert done("red and blue bands x 15", "home due=E1.1").load == band("red", "blue")


def test_left_and_right_in_one_text_are_one_set() -> None:
    assert done("18 L12 R10", "home due=B1.1") == SetDone(left=12, right=10, load=weight(18))


def test_a_count_without_a_side_holds_for_each() -> None:
    assert done("18x12 each side", "home due=B1.1") == SetDone(count=12, load=weight(18))


def test_a_warm_up_takes_no_number() -> None:
    warm, work = sets("warm up 10x10 then 20x12", "home")

    assert (warm.place, warm.done.kind) == (None, SetKind.WARM_UP)
    assert work.place == SetPlace("A1", 1)


def test_a_drop_belongs_to_the_set_before_it() -> None:
    assert done("20x12 drop 14x8", "home").drops == (DropDone(weight(14), 8),)


def test_rest_pause_is_one_set_with_its_bouts() -> None:
    read_done = done("20kg 10+4+3", "home")

    assert (read_done.count, read_done.bouts) == (17, (10, 4, 3))


def test_holds_are_seconds_and_carries_are_metres() -> None:
    assert done("1:05", "home due=C1.1").measure is Measure.SECONDS
    assert done("24s 40m", "home due=C2.1") == SetDone(measure=Measure.METRES, count=40, load=weight(24, pair=True))


def test_what_was_aimed_at_is_not_what_was_done() -> None:
    assert done("supposed to be 12, got 10 with 20", "home").count == 10


def test_doubt_about_a_count_is_kept() -> None:
    assert done("10ish", "home A1.1=20x12 due=A1.2").about


@pytest.mark.parametrize("text", ["200x12", "20x120", "25x12", "30"])
def test_a_number_that_would_surprise_a_coach_is_asked_about(text: str) -> None:
    reading = read(text, situation("home A1.1=20x12 due=A1.2"))

    assert reading.verdict is Verdict.ASK
    assert not reading.heard


def test_a_load_that_only_the_partner_of_a_superset_has_goes_to_the_partner() -> None:
    reading = read("20x10", situation("home A1.1=20x12 A2.1=12 A1.2=20x11"))

    assert isinstance(reading.heard[0], SetsHeard)
    assert [(record.place, record.done.count) for record in reading.heard[0].sets] == [(SetPlace("A1", 3), 10)]


def test_a_set_of_the_partner_that_repeats_its_last_one_is_asked_about() -> None:
    reading = read("20x11", situation("home A1.1=20x12 A2.1=12 A1.2=20x11"))

    assert reading.question is not None
    first = reading.question.options[0].heard[0]
    assert isinstance(first, SetsHeard) and first.sets[0].place == SetPlace("A1", 3)


def test_a_text_that_repeats_what_is_on_record_changes_nothing() -> None:
    assert read("A1 set 2 20x11", situation("home A1.1=20x12 A1.2=20x11")).heard == (RepeatHeard(),)


def test_a_correction_supersedes_the_record_it_names() -> None:
    there = situation("home A1.1=20x12 A1.2=20x11")
    reading = read("that was 18 not 20", there)

    old = there.today[1]
    assert reading.heard == (CorrectionHeard(old, replace(old, done=replace(old.done, load=weight(18)))),)


def test_undo_and_redo_are_heard() -> None:
    assert read("oops undo that", situation("home A1.1=20x12")).heard == (UndoHeard(),)
    assert read("undo the undo", situation("home A1.1=20x12")).heard == (UndoHeard(redo=True),)


def test_sets_beside_pain_stay_and_the_pain_is_passed_on() -> None:
    reading = read("20x12 but my knee hurts", situation("home"))

    assert reading.verdict is Verdict.RECORD
    assert [aside.kind for aside in reading.asides] == [AsideKind.PAIN]


def test_sets_beside_a_question_stay_and_the_question_is_passed_on() -> None:
    reading = read("20x12, should I go up next week?", situation("home"))

    assert reading.verdict is Verdict.RECORD
    assert [(aside.kind, aside.text) for aside in reading.asides] == [(AsideKind.QUESTION, "should I go up next week")]


def test_yesterday_puts_sets_into_the_day_that_holds_the_exercise() -> None:
    (record,) = sets("yesterday: rdl 24x10", "home")

    assert (record.on, record.day, record.place) == (date(2026, 3, 3), 2, SetPlace("A1", 1))


@pytest.mark.parametrize(
    ("text", "on"),
    [
        ("2 days ago: rdl 24x10", date(2026, 3, 2)),
        ("3 days ago rdl 24x10", date(2026, 3, 1)),
        ("Forgot to tell you Monday's rdl: 24x10", date(2026, 3, 2)),
        ("gisteren rdl 24x10", date(2026, 3, 3)),
    ],
)
def test_an_earlier_day_is_known_however_the_message_begins(text: str, on: date) -> None:
    assert {record.on for record in sets(text, "home")} == {on}


def test_a_habit_settles_what_would_be_asked() -> None:
    there = situation("new")
    assert read("10x12", there).verdict is Verdict.ASK

    taught = read("10x12", replace(there, habits=Habits(times="load_reps")))
    assert taught.verdict is Verdict.RECORD


def test_a_reading_says_which_words_gave_which_numbers() -> None:
    reading = read("12 with 20kg", situation("home"))

    told = {reading.text[why.start : why.end]: why.meaning for why in reading.why}
    assert told == {"20kg": "load 20 kg", "12": "count 12"}


def test_the_sure_part_of_a_text_is_heard_where_another_part_is_asked_about() -> None:
    reading = read("A1 20x12, B1 180x12", situation("home"))

    assert reading.verdict is Verdict.ASK
    (heard,) = reading.heard
    assert isinstance(heard, SetsHeard) and heard.sets[0].place == SetPlace("A1", 1)


@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
@given(any_text, st.sampled_from(SITUATIONS))
def test_no_text_raises_and_every_reading_is_well_formed(text: str, there: object) -> None:
    well_formed(read(text, there), text)  # type: ignore[arg-type]


@settings(max_examples=100, deadline=None)
@given(st.integers(5, 12).map(lambda n: 2 * n), st.integers(8, 14))
def test_every_dress_of_a_load_and_a_count_means_the_same(load: int, count: int) -> None:
    there = situation("new")
    dresses = (
        f"{load}kg x {count}",
        f"{count} @ {load}kg",
        f"{load} kg for {count}",
        f"{count} reps with {load}kg",
        f"{load}kg: {count}",
    )

    assert {sets_of(text, there) for text in dresses} == {(weight(load), count)}


def sets_of(text: str, there: object) -> tuple[Load | None, int | None]:
    (heard,) = read(text, there).heard  # type: ignore[arg-type]
    assert isinstance(heard, SetsHeard)
    return heard.sets[0].done.load, heard.sets[0].done.count


def test_a_hundred_said_alone_is_a_number_and_ends() -> None:
    """A step over no word at all once went on for ever."""
    reading = read("hundred kg for 5", situation("bar"))

    assert reading.verdict is not Verdict.NOT_SETS


@pytest.mark.parametrize("text", ["20,0 ½", "20,0 1/2", "12,5 ½ x 10", "10,0 3/4 20,5 ¼ 12"])
def test_a_decimal_comma_beside_a_fraction_is_read_without_raising(text: str) -> None:
    for place in ("home", "bar", "new"):
        well_formed(read(text, situation(place)), text)
