"""A name is found however it is typed, and inside a longer text; what is no exercise is not made one."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.training.blocks import ExerciseId
from bot.training.exercises.catalogue import load_catalogue
from bot.training.exercises.entry import in_a_sentence
from bot.training.exercises.folding import fold
from bot.training.exercises.name_words import MODIFIERS

CATALOGUE = load_catalogue()
NAMES = CATALOGUE.names
SURE = 0.5  # below this nobody should act on a match without asking
TODAY = tuple(
    ExerciseId(entry)
    for entry in (
        "goblet_squat", "dumbbell_bench_press", "one_arm_dumbbell_row", "lateral_raise", "dumbbell_romanian_deadlift",
        "hammer_curl", "skull_crusher", "plank",
    )
)  # fmt: skip


def corpus(name: str) -> list[tuple[str, str]]:
    lines = (Path(__file__).parent / name).read_text("utf-8").splitlines()
    return [(line.split("|")[0], line.split("|")[1]) for line in lines if line and not line.startswith("#")]


def best(text: str) -> str:
    found = NAMES.find(text, limit=1)
    return found[0].exercise if found and found[0].score >= SURE else "-"


def test_typed_names_are_found() -> None:
    wrong = {text: best(text) for text, meant in corpus("names_typed.txt") if best(text) != meant}

    assert wrong == {}


def test_most_names_kept_apart_are_found_too() -> None:
    """Never tuned on, so a few misses stay; the figure belongs in the notes, the floor here only guards against a slide."""
    cases = corpus("names_held_out.txt")
    wrong = {text: best(text) for text, meant in cases if best(text) != meant}

    assert len(wrong) / len(cases) <= 0.11, wrong


@pytest.mark.parametrize(
    ("typed", "folded"),
    [
        ("DB Bench-Presses", "dumbbell bench press"),
        ("one armed row", "one arm row"),
        ("1-arm row", "one arm row"),
        ("SA row", "one arm row"),
        ("press-ups", "pushup"),
        ("Pull Ups", "pullup"),
        ("RDLs", "romanian deadlift"),
        ("farmer's walk", "farmer walk"),
        ("flyes", "fly"),
        ("Élévations", "elevation"),
        ("squats20x12", "squat 20 12"),
        ("the row with the band", "row band"),
        ("", ""),
    ],
)
def test_folding_brings_a_name_to_one_form(typed: str, folded: str) -> None:
    assert " ".join(fold(typed)) == folded


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("rows", "one_arm_dumbbell_row"),
        ("press", "dumbbell_bench_press"),
        ("bench", "dumbbell_bench_press"),
        ("bench press", "dumbbell_bench_press"),
        ("squats", "goblet_squat"),
        ("rdl", "dumbbell_romanian_deadlift"),
        ("raises", "lateral_raise"),
        ("curls", "hammer_curl"),
        ("tri ext", "skull_crusher"),
    ],
)
def test_a_short_name_is_clear_among_the_days_exercises(typed: str, meant: str) -> None:
    first = NAMES.find(typed, among=TODAY)[0]

    assert (first.exercise, first.score >= 0.9) == (meant, True)


def test_a_short_name_that_fits_two_of_the_day_stays_in_doubt() -> None:
    among = (ExerciseId("one_arm_dumbbell_row"), ExerciseId("seated_band_row"), ExerciseId("goblet_squat"))

    found = NAMES.find("rows", among=among)

    assert {match.exercise for match in found} == set(among[:2])
    assert all(match.score < 0.9 and not match.exact for match in found)


@pytest.mark.parametrize("typed", ["arms", "dumbbell", "incline", "one", "leg", "push ups", "breakfast"])
def test_a_word_that_names_no_movement_of_the_day_is_never_clear(typed: str) -> None:
    assert all(match.score < 0.9 for match in NAMES.find(typed, among=TODAY))


def test_names_of_describing_words_alone_have_been_looked_at() -> None:
    """In a sentence such a name counts only beside a number or on its own day: "stand on one leg" may be plain talk."""
    looked_at = {"bench", "overhead hold", "one leg standing", "standing one leg", "knee wall", "high knee", "wall ball"}
    bare = {" ".join(fold(name)) for exercise in CATALOGUE for name in (exercise.name, *exercise.aliases)}

    assert {name for name in bare if set(name.split()) <= MODIFIERS} <= looked_at


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("goblet squat 20x12, rdl 40x10", [("goblet squat", "goblet_squat"), ("rdl", "romanian_deadlift")]),
        ("did pushups 20 15 12 and pullups 5 4 3", [("pushups", "push_up"), ("pullups", "pull_up")]),
        ("Chin-ups x 6, Dips x 8", [("Chin-ups", "chin_up"), ("Dips", "dip")]),
        ("romainian deadlifts 30kg then lateral rasies 8",
         [("romainian deadlifts", "romanian_deadlift"), ("lateral rasies", "lateral_raise")]),
        ("db press 20x10 then incline db press 18x9",
         [("db press", "dumbbell_bench_press"), ("incline db press", "incline_dumbbell_press")]),
        ("Bulgarian split squats 12 each", [("Bulgarian split squats", "bulgarian_split_squat")]),
        ("i squatted 60x5", [("squatted", "bodyweight_squat")]),
        ("walk 20 min", [("walk", "brisk_walk")]),
        ("calves 15 15 15", [("calves", "standing_calf_raise")]),
        ("push ups tempo 3110", [("push ups", "push_up")]),
        ("should my chest touch the floor on push ups", [("push ups", "push_up")]),
        ("dips 8, ring rows 10", [("dips", "dip"), ("ring rows", "ring_row")]),
        ("curls; press 20", [("curls", "dumbbell_curl")]),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)  # fmt: skip
def test_names_are_found_inside_a_text_the_longest_first(text: str, found: list[tuple[str, str]]) -> None:
    assert [(text[mention.start : mention.end], mention.match.exercise) for mention in NAMES.mentions(text)] == found


@pytest.mark.parametrize(
    "text",
    [
        "good morning everyone", "lunch was great, feeling strong", "sat on the bench 20x12",
        "my knee hurts when I step down the stairs", "i can only stand on one leg today",
        "going for a run with the dog", "i have a pull up bar and rings", "should i use the band or the box", "hold on a minute",
        "raise the weight next week?", "can you push it to 18:00", "march 3 works for me", "A1 20x12 A2 15x10", "left arm weaker",
        "heart skipping beats and im sat down", "my calf hurts", "a word of caution", "my workout", "waiting in spring",
        "back is sore", "see you at 7:30", "what does 3-1-1-0 mean", "moved the chair against the wall", "went for a walk", "",
    ],
)  # fmt: skip
def test_everyday_talk_names_no_exercise(text: str) -> None:
    assert NAMES.mentions(text) == ()


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (
            "good morning! did my rows 20x12 and rdl 40x10",
            [("rows", "one_arm_dumbbell_row"), ("rdl", "dumbbell_romanian_deadlift")],
        ),
        ("set 1 rows 20x10", [("rows", "one_arm_dumbbell_row")]),
        ("3 rows of 20", [("rows", "one_arm_dumbbell_row")]),
        ("bench 60x8", [("bench", "dumbbell_bench_press")]),
        ("the curls felt heavy", [("curls", "hammer_curl")]),
        ("push up 10", [("push up", "push_up")]),  # not of today, and still heard: the reader decides what it means
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_among_the_days_exercises_short_names_are_found_inside_a_text(text: str, found: list[tuple[str, str]]) -> None:
    assert [(text[mention.start : mention.end], mention.match.exercise) for mention in NAMES.mentions(text, among=TODAY)] == found


def test_nearly_all_messages_kept_apart_name_their_exercises_and_no_others() -> None:
    cases = corpus("mentions_held_out.txt")
    read = {text: ",".join(mention.match.exercise for mention in NAMES.mentions(text)) or "-" for text, _ in cases}
    wrong = {text: read[text] for text, meant in cases if read[text] != meant}

    assert len(wrong) <= 1, wrong


WORDS = st.sampled_from(
    [
        "rows",
        "db",
        "20x12",
        "press,",
        "the",
        "Goblet",
        "SQUAT",
        "é",
        "½",
        "1",
        "arm\n",
        "pull-up",
        "bench",
        "💪",
        "rdl",
        "x",
        "'n'",
    ]
)


@settings(max_examples=150, deadline=None)
@given(st.one_of(st.text(max_size=80), st.lists(WORDS, max_size=12).map(" ".join)))
def test_any_text_is_read_without_a_fault_and_every_place_lies_inside_it(text: str) -> None:
    found = NAMES.mentions(text, among=TODAY)
    matches = NAMES.find(text)

    assert all(0 <= mention.start < mention.end <= len(text) for mention in found)
    assert all(one.end <= next_one.start for one, next_one in pairwise(found))
    assert all(0 < match.score <= 1 for match in matches)
    assert [match.score for match in matches] == sorted((match.score for match in matches), reverse=True)
    assert len({match.exercise for match in matches}) == len(matches) <= 5


def test_the_limit_is_kept() -> None:
    assert len(NAMES.find("row", limit=3)) == 3
    assert NAMES.find("goblet squat", limit=0) == ()


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("Goblet squat", "goblet squat"),
        ("Dumbbell Romanian deadlift", "dumbbell Romanian deadlift"),
        ("Half-kneeling Pallof press", "half-kneeling Pallof press"),
        ("Nordic curl", "Nordic curl"),
        ("T-bar row", "T-bar row"),
        ("90/90 hip switch", "90/90 hip switch"),
    ],
)
def test_a_name_keeps_its_proper_words_within_a_sentence(name: str, said: str) -> None:
    assert in_a_sentence(name) == said


def test_every_word_that_is_a_proper_one_within_a_name_is_one_at_its_beginning() -> None:
    within = {word for entry in CATALOGUE.all for word in entry.name.split()[1:] if word[:1].isupper()}

    assert {word for word in within if in_a_sentence(word) != word} == set()
