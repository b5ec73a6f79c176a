"""What a coach says once and means often: conventions above the days, days and exercises like others, sets and rests by week."""

from __future__ import annotations

import pytest

from bot.language.blocks import read_block, write_text
from bot.training.blocks import Block, Rest
from bot.training.exercises.catalogue import load_catalogue
from scenarios.blocks.gold import tell

CATALOGUE = load_catalogue()


def _block(text: str) -> Block:
    reading = read_block(text, catalogue=CATALOGUE)
    assert reading.block is not None, [problem.sentence for problem in reading.problems]
    return reading.block


def _told(text: str) -> list[str]:
    return [line for line in tell(_block(text)) if not line.startswith("day")]


ONE_DAY = "Monday\nA1 Goblet squat 4x8\nB1 Push-up 3x10, rest 60\nC1 Plank 3x30s\n"
SQUAT, PUSH_UP, PLANK = "A1 goblet_squat : 4*8", "B1 push_up : 3*10 rest 60", "C1 plank : 3*30s"

DAYS_LIKE = {
    "Thursday as Monday": [SQUAT, PUSH_UP, PLANK],
    "Thursday = Monday": [SQUAT, PUSH_UP, PLANK],
    "Thursday: same as Monday": [SQUAT, PUSH_UP, PLANK],
    "Thursday\nsame as Monday": [SQUAT, PUSH_UP, PLANK],
    "Day 2: repeat of day 1": [SQUAT, PUSH_UP, PLANK],
    "Thursday as Monday but B1 3x12": [SQUAT, "B1 push_up : 3*12 rest 60", PLANK],
    "Thursday as Monday, no plank": [SQUAT, PUSH_UP],
    "Thursday same as Monday but one set less": ["A1 goblet_squat : 3*8", "B1 push_up : 2*10 rest 60", "C1 plank : 2*30s"],
    "Thursday same as Monday but swap push-ups for floor press": [SQUAT, "B1 floor_press : 3*10 rest 60", PLANK],
    "Thursday as Monday but 1a has 5 sets and 3) is 40 s": ["A1 goblet_squat : 5*8", PUSH_UP, "C1 plank : 3*40s"],
    "Thursday like Monday\nB1 Push-up 4x6\nD1 Hammer curl 2x12": [SQUAT, "B1 push_up : 4*6", PLANK, "D1 hammer_curl : 2*12"],
}


@pytest.mark.parametrize("said", DAYS_LIKE)
def test_a_day_like_another_has_its_exercises_with_the_changes_that_are_said(said: str) -> None:
    assert _told(f"{ONE_DAY}{said}\n")[3:] == DAYS_LIKE[said]


def test_a_change_of_a_repeated_day_that_cannot_be_read_is_a_mistake() -> None:
    reading = read_block(f"{ONE_DAY}Thursday as Monday but with more fire\n", catalogue=CATALOGUE)

    assert [problem.sentence for problem in reading.errors] == [
        'Line 5: "more fire" is a change that I cannot read; write the changed exercises below the day, such as B1 Push-up 3x12.'
    ]


def test_weekdays_that_are_the_same_are_both_trained() -> None:
    block = _block("Mon and Thu the same, Tue and Fri the same\nMonday\nA Push-up 3x10\nTuesday\nA Goblet squat 3x8\n")

    assert [(day.name, day.slots[0].exercise) for day in block.days] == [
        ("Monday", "push_up"), ("Tuesday", "goblet_squat"), ("Thursday", "push_up"), ("Friday", "goblet_squat"),
    ]  # fmt: skip


def test_a_circuit_of_another_day_comes_again_with_other_rounds() -> None:
    text = "Day 1\n3 rounds of\n- push-ups x 10\n- walking lunges x 20 steps\nDay 2\nsame circuit as day 1 but 4 rounds and 12 push-ups\n"

    assert _told(text)[2:] == ["A1 push_up : 4*12", "A2 walking_lunge : 4*20st"]


EXERCISES_LIKE = {
    "B Push-up, ditto": "B1 push_up : 4*8@3-1-1-0",
    "B Push-up: same as above": "B1 push_up : 4*8@3-1-1-0",
    "- Push-up, same again": "B1 push_up : 4*8@3-1-1-0",
    "B Push-up: same sets as A1 but 10-12 reps": "B1 push_up : 4*10-12@3-1-1-0",
    "B Push-up same as A but 3 sets, tempo 2010": "B1 push_up : 3*8@2-0-1-0",
    "B Push-up 3x10, same weight all sets": "B1 push_up same : 3*10",
}


@pytest.mark.parametrize("said", EXERCISES_LIKE)
def test_an_exercise_like_another_has_its_sets(said: str) -> None:
    assert _told(f"Day 1\nA1 Goblet squat 4x8 @3110\n{said}\n")[1] == EXERCISES_LIKE[said]


def test_an_exercise_like_none_that_is_there_is_a_mistake() -> None:
    reading = read_block("Day 1\nA1 Goblet squat 4x8\nB Push-up same as C2\n", catalogue=CATALOGUE)

    assert 'Line 3, slot B1: "C2" is to be like an exercise that is not there; write its sets and reps, such as 3x8-10.' in [
        problem.sentence for problem in reading.errors
    ]


CONVENTIONS = {
    "everything is reps x sets\n{day}A Push-up 10x3\nB Plank 30s x 3\nC Curl AMRAP x2": ["A1 push_up : 3*10", "B1 plank : 3*30s", "C1 dumbbell_curl : 2*amrap"],
    "rest 90 unless I say otherwise\n{day}A Push-up 3x10\nB Plank 3x30s, rest 60": ["A1 push_up : 3*10 rest 90", "B1 plank : 3*30s rest 60"],
    "all sets at RIR 2\n{day}A Push-up 3x10\nB Plank 3x30s\nC Goblet squat 3x8 RIR 1": ["A1 push_up : 3*10rir2", "B1 plank : 3*30s", "C1 goblet_squat : 3*8rir1"],
    "tempo 3110 throughout\n{day}A Push-up 3x10\nB Goblet squat 3x8 @2010": ["A1 push_up : 3*10@3-1-1-0", "B1 goblet_squat : 3*8@2-0-1-0"],
    "all weights in lb\n{day}A Bench press 3x8 @155\nB Goblet squat 3x8 @311": ["A1 bench_press : 3*8=155lb", "B1 goblet_squat : 3*8@3-1-1"],
}  # fmt: skip


@pytest.mark.parametrize("text", CONVENTIONS)
def test_what_is_said_above_the_days_holds_for_exercises_that_say_nothing_else(text: str) -> None:
    expected = [line.replace("@3-1-1", "@3-1-1-0") if line.endswith("@3-1-1") else line for line in CONVENTIONS[text]]

    block = _block(text.format(day="Day 1\n"))

    assert [line for line in tell(block) if not line.startswith("day")] == expected
    assert read_block(write_text(block), catalogue=CATALOGUE).block == block


LETTERS = {
    "M / W / F": (0, "M", "W", "F"),
    "Training days M W F": (0, "M", "W", "F"),
    "Mo Mi Fr": (0, "Mo", "Mi", "Fr"),
    "L, X, V": (0, "L", "X", "V"),
}


@pytest.mark.parametrize("said", LETTERS)
def test_weekdays_may_be_said_by_their_first_letters(said: str) -> None:
    _, *days = LETTERS[said]
    text = f"{said}\n" + "".join(
        f"{day} - part {n}\nA1 Push-up 3x10\n" for n, day in zip(("one", "two", "three"), days, strict=True)
    )

    block = _block(text)

    assert [day.name for day in block.days] == ["part one", "part two", "part three"]
    assert block.rhythm == (True, False, True, False, True, False, False)


BY_WEEK = {
    "3x8 wk1+2, 4x8 wk3, 2x8 wk4": ["A1 push_up : 3*8", "  week 3 : 4*8", "  week 4 : 2*8"],
    "2x15 in week 1, 3x15 after that": ["A1 push_up : 2*15", "  week 2 : 3*15"],
    "3x12 (wk4 only 2 sets)": ["A1 push_up : 3*12", "  week 4 : 2*12"],
    "3x8, wk2 3x9. Tempo 3111. Rest 90": ["A1 push_up : 3*8@3-1-1-1 rest 90", "  week 2 : 3*9@3-1-1-1"],
    "2x8, add a rep every week": ["A1 push_up : 2*8", "  week 2 : 2*9", "  week 3 : 2*10", "  week 4 : 2*11"],
    "2x8, +1 rep each week, week 4 back to 8": ["A1 push_up : 2*8", "  week 2 : 2*9", "  week 3 : 2*10", "  week 4 : 2*8"],
    "2x8, add 2.5 kg every week": ["A1 push_up : 2*8"],
}


@pytest.mark.parametrize("said", BY_WEEK)
def test_weeks_are_read_where_they_stand_behind_or_grow(said: str) -> None:
    assert _told(f"4 weeks\nDay 1\nA1 Push-up {said}\n") == BY_WEEK[said]


RESTS = ["A1 Push-up 3x8\nrest 2 min, from wk 3 on 2:30", "A1 Push-up 3x8, rest 120\nweek 3: rest 150 s"]


@pytest.mark.parametrize("said", RESTS)
def test_a_rest_may_change_in_a_later_week(said: str) -> None:
    block = _block(f"4 weeks\nDay 1\n{said}\n")
    slot = block.days[0].slots[0]

    assert (slot.rest, [(change.week, change.rest) for change in slot.weeks]) == (Rest(120, 120), [(3, Rest(150, 150))])
    assert read_block(write_text(block), catalogue=CATALOGUE).block == block


def test_a_rest_below_a_superset_is_for_each_of_it_where_that_is_said() -> None:
    text = "Day 1\nA1 Push-up 3x10\nA2 Goblet squat 3x8\n75s rest after each\nB1 Plank 3x30s\nB2 Dead bug 3x6\n60s again\n"

    assert [slot.rest for slot in _block(text).days[0].slots] == [Rest(75, 75)] * 2 + [Rest(60, 60)] * 2


LENGTHS = {
    "100 ft": (30, "100 ft"),
    "40 yards": (37, "40 yards"),
    "25 yd": (23, "25 yd"),
    "1 mile": (1609, "1 mile"),
    "40 m": (40, ""),
}


@pytest.mark.parametrize("said", LENGTHS)
def test_feet_yards_and_miles_are_counted_in_metres_and_kept_as_said(said: str) -> None:
    slot = _block(f"Day 1\nA1 Farmer carry 3x{said}\n").days[0].slots[0]

    assert (slot.sets[0].low, slot.sets[0].measure.value, slot.note) == (LENGTHS[said][0], "metres", LENGTHS[said][1])


def test_a_range_of_loads_begins_with_its_lower_end_and_is_shown_whole() -> None:
    slot = _block("Day 1\nA1 Goblet squat 3x8, 24-28 kg\n").days[0].slots[0]

    assert (str(slot.sets[0].load.amount) if slot.sets[0].load else "", slot.note) == ("24", "24-28 kg")


def test_a_part_of_a_tempo_stays_a_note_and_a_whole_one_in_words_is_read() -> None:
    whole = "3 seconds down, one second at the bottom, one second up and no pause at the top"
    slots = _block(f"Day 1\nA1 Goblet squat 3x8, {whole}\nB1 Push-up 3x8, 4 s down\n").days[0].slots

    assert [(str(slot.sets[0].tempo or ""), slot.note) for slot in slots] == [("3-1-1-0", ""), ("", "4 s down")]


LANGUAGES = {
    "german": "Montag\nPush-up 3 Sätze à 10 Wdh, Pause 60\nMittwoch\nPlank 3x30 Sek pro Seite\n",
    "spanish": "Lunes\nPush-up 3 series de 10, descanso 60 s\nMiércoles\nPlank 3x30 seg por lado\n",
    "french": "Lundi\nPush-up 3 séries de 10, repos 60 s\nMercredi\nPlank 3x30 secondes par côté\n",
    "dutch": "maandag\nPush-up 3 sets van 10, rust 60 s\nwoensdag\nPlank 3x30 seconden per kant\n",
    "italian": "Lunedì\nPush-up 3 serie da 10, riposo 60 s\nMercoledì\nPlank 3x30 secondi per lato\n",
    "portuguese": "Segunda\nPush-up 3 séries de 10, descanso 60 s\nQuarta\nPlank 3x30 segundos por lado\n",
}


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_shape_of_a_plan_is_read_in_other_languages(language: str) -> None:
    block = _block(LANGUAGES[language])

    assert [line for line in tell(block) if not line.startswith("day")] == ["A1 push_up : 3*10 rest 60", "A1 plank each : 3*30s"]
    assert block.rhythm == (True, False, True, False, False, False, False)


# Ways of writing that were met in plans and are held here, each beside what it means.

WAYS = {
    "a day and its exercises in one line": (
        "mon: squat 5x5, bench press 5x5, plank 3x1min\nwed: deadlift 1x5, pull-up 3xmax\n",
        ["A1 bodyweight_squat : 5*5", "B1 bench_press : 5*5", "C1 plank : 3*60s", "A1 deadlift : 5", "B1 pull_up : 3*amrap"],
    ),
    "a numbered superset": (
        "Day 1\n1. Push-up 3x10\n2. Superset:\n a. Goblet squat 3x8\n b. Plank 3x30s\n3. Hammer curl 2x12\n",
        ["A1 push_up : 3*10", "B1 goblet_squat : 3*8", "B2 plank : 3*30s", "C1 hammer_curl : 2*12"],
    ),
    "cells without a head": (
        "Day 1\na1 back squat | 4 | 6-8 | 3110 | 2m\na2 step up | 3 | 10/leg | - | 75s\nb1 plank | 2 | 30s | - | 45s\n",
        ["A1 back_squat : 4*6-8@3-1-1-0 rest 120", "A2 step_up each : 3*10 rest 75", "B1 plank : 2*30s rest 45"],
    ),
    "a rest behind a comma": ("Day 1\nA Push-up 3x12, 90s\nB Plank 3x30s, 40s, 50s\n", ["A1 push_up : 3*12 rest 90", "B1 plank : 30s 40s 50s"]),
    "a name alone above its sets, known or not": (
        "Day 1\nGoblet squat\n3 sets x 8\nrest 90\nHip hinge with rope\n3 sets x 15\nTurkish get-up\n3 each side, 3 sets\n",
        ["A1 goblet_squat : 3*8 rest 90", "B1 ?Hip hinge with rope : 3*15", "C1 turkish_get_up each : 3*3"],
    ),
    "A day and B day": ("A day: push-up 3x10, plank 3x30s\nB day\nGoblet squat 3x8\n", ["A1 push_up : 3*10", "B1 plank : 3*30s", "A1 goblet_squat : 3*8"]),
    "reps by": ("Day 1\nA Push-up 4 by 12\n", ["A1 push_up : 4*12"]),
    "seconds behind a colon": ("Day 1\nA Plank 3 x :30\n", ["A1 plank : 3*30s"]),
    "a rest behind a colon": ("Day 1\nA-1) Push-up - 3 sets of 10, :90\n", ["A1 push_up : 3*10 rest 90"]),
    "the same length for each side": ("Day 1\nA Suitcase carry 4x20m/20m\n", ["A1 suitcase_carry each : 4*20m"]),
    "columns by other names": (
        "Weekday;Station;What to do;Name of exercise;Break\nMonday;1A;3x10;Push up;90\nMonday;1B;3x8/8;Split squat;60\n",
        ["A1 push_up : 3*10 rest 90", "A2 split_squat each : 3*8 rest 60"],
    ),
    "two left of as many as possible": ("Day 1\nA Push-up 3x AMRAP-2\n", ["A1 push_up : 3*amraprir2"]),
    "minutes of something": ("Day 1\nA Push-up 3x10\nB Skipping rope 5 min\n", ["A1 push_up : 3*10", "B1 skipping_rope : 300s"]),
    "either load": ("Day 1\nA Goblet squat 3x8, 16 or 20 kg\n", ["A1 goblet_squat : 3*8=16kg"]),
    "then, in lines of their own": (
        "Day 1\n3 rounds:\n- push-ups x 10\n- plank 30s\nthen: wall sit 2x40s\n",
        ["A1 push_up : 3*10", "A2 plank : 3*30s", "B1 wall_sit : 2*40s"],
    ),
    "sentences": (
        "Monday is leg day. Warm up for five minutes. First up, goblet squats, four sets of eight, two minutes off in between. "
        "Then back and forth between push-ups (3 sets of 10) and planks (3 sets of 30 seconds), resting a minute after both. "
        "If the wrist is sore do wall sits instead.\n",
        ["A1 goblet_squat : 4*8 rest 120", "B1 push_up : 3*10", "B2 plank : 3*30s rest 60 or wall sits"],
    ),
    "columns of weeks for more than sets": (
        "Day,Exercise,W1 sets,W1 reps,W2 sets,W2 reps,Rest W1,Rest W2\n1,Push-up,3,10,4,8,60,90\n1,Plank,2,30s,3,30s,60,60\n",
        ["A1 push_up : 3*10 rest 60", "  week 2 : 4*8", "B1 plank : 2*30s rest 60", "  week 2 : 3*30s"],
    ),
    "names of days above the rows of a table": (
        "HEAVY THINGS,,\nExercise,Sets,Reps\nPush-up,3,10\nPlank,2,30s\nQUICK THINGS,,\nExercise,Sets,Reps\nGoblet squat,3,8\nBurpee,3,6\n",
        ["A1 push_up : 3*10", "B1 plank : 2*30s", "A1 goblet_squat : 3*8", "B1 burpee : 3*6"],
    ),
}  # fmt: skip


@pytest.mark.parametrize("way", WAYS)
def test_a_way_of_writing_means_what_its_coach_meant(way: str) -> None:
    text, expected = WAYS[way]

    assert _told(text) == expected


def test_a_day_by_its_letters_may_end_in_a_figure() -> None:
    block = _block("Mo Di Do\nMO - Upper 1\nA Push-up 3x10\nDI - Lower\nA Goblet squat 3x8\nDO - Upper 2\nA Plank 3x30s\n")

    assert [day.name for day in block.days] == ["Upper 1", "Lower", "Upper 2"]


NO_BLOCKS = [
    "Shopping\n- 3 x 400 g tomatoes\n- 2x1 l milk\n",
    "rest in peace, 3x10",
    "Timetable\nMon | maths 3x45 | art\nTue | french 2x45 | music\n",
    "Curl your hair 3x10 min",
    "rest day\nrest day\nrest day",
    "Chess: 1. e4 e5 2. Nf3 Nc6",
]


@pytest.mark.parametrize("text", NO_BLOCKS)
def test_a_text_that_names_neither_a_day_nor_an_exercise_is_no_block(text: str) -> None:
    assert read_block(text, catalogue=CATALOGUE).block is None


def test_figures_beside_words_that_are_no_exercise_get_a_sentence() -> None:
    assert [problem.sentence for problem in read_block("Paint 3x10 fences", catalogue=CATALOGUE).errors] == [
        "No day and no exercise that I know is named, so I take it for no block; write Day 1 above the exercises of the first day."
    ]


def test_an_old_western_encoding_keeps_its_accents() -> None:
    text = "Day,Exercise,Sets,Reps\nLegs é,Goblet squat,3,10\n"

    reading = read_block(text.encode("cp1252"), filename="plan.csv", catalogue=CATALOGUE)

    assert reading.block is not None
    assert reading.block.days[0].name == "Legs é"
