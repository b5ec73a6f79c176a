"""Data files are read into values; a wrong one is refused with file and entry."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bot.training.blocks import ExerciseId, Measure
from bot.training.exercises.catalogue import CatalogueFault, load_catalogue, read_data
from bot.training.exercises.entry import Exercise, FirstPhase, LoadStyle, Pattern
from bot.training.exercises.muscles import MuscleGroup, group_of, helping_groups, prime_groups
from bot.training.kit import KitItem

FILE = """
source = 'common practice'
[row]
pattern = 'horizontal_pull'
prime = 'latissimus dorsi, rhomboids'
helping = 'biceps brachii, brachialis'
joints = 'shoulder, elbow'
moves = 'arm extension, elbow flexion'
first = 'concentric'
load = 'pair'
[row.plain_row]
names = 'Plain row; simple row'
kit = 'dumbbell + bench / band + door_anchor / nothing'
grade = '3 2 3'
cues = 'Pull to the hip; lower slowly'
[row.hard_row]
names = 'Hard row'
load = 'barbell'
sides = 'one'
grade = '6 3 3'
"""


def test_an_entry_takes_what_its_family_shares_and_its_own_word_goes_first() -> None:
    plain, hard = read_data(FILE, "pull.toml")

    assert plain == Exercise(
        id=ExerciseId("plain_row"),
        name="Plain row",
        aliases=("simple row",),
        pattern=Pattern.HORIZONTAL_PULL,
        prime=("latissimus dorsi", "rhomboids"),
        helping=("biceps brachii", "brachialis"),
        joints=("shoulder", "elbow"),
        joint_actions=("arm extension", "elbow flexion"),
        kit=(frozenset({KitItem.DUMBBELL, KitItem.BENCH}), frozenset({KitItem.BAND, KitItem.DOOR_ANCHOR}), frozenset()),
        load_style=LoadStyle.PAIR,
        first_phase=FirstPhase.CONCENTRIC,
        measure=Measure.REPS,
        family="row",
        difficulty=3,
        stability=2,
        lever=3,
        harder=(ExerciseId("hard_row"),),
        cues=("Pull to the hip", "lower slowly"),
        source="common practice",
    )
    assert (hard.load_style, hard.one_sided, hard.easier) == (LoadStyle.BARBELL, True, (ExerciseId("plain_row"),))


@pytest.mark.parametrize(
    ("wrong", "right", "sentence"),
    [
        ("source = 'common practice'", "", "pull.toml: says no source; write source = \"...\" as its first line"),
        ("grade = '6 3 3'", "grade = '11 3 3'",
         "pull.toml [row.hard_row]: grade '11 3 3' must be difficulty 1-10, stability 1-5, "
         "lever 1-5, such as '6 3 2'"),
        ("names = 'Hard row'", "", "pull.toml [row.hard_row]: has no names; write names = 'Name; other name'"),
        ("sides = 'one'", "side = 'one'", "pull.toml [row.hard_row]: has unknown keys ['side']; known are"),
        ("load = 'barbell'", "load = 'heavy'", "pull.toml [row.hard_row]: LoadStyle 'heavy' is none of pair, single, barbell"),
        ("dumbbell + bench", "dumbel + bench", "KitItem 'dumbel' is none of dumbbell, barbell"),
        ("[row]", "[row", "pull.toml: is not valid TOML"),
    ],
)  # fmt: skip
def test_a_wrong_file_is_refused_with_file_and_entry(wrong: str, right: str, sentence: str) -> None:
    with pytest.raises(CatalogueFault) as fault:
        read_data(FILE.replace(wrong, right, 1), "pull.toml")

    assert sentence in str(fault.value)


def test_an_unknown_id_is_none_and_the_catalogue_is_read_once() -> None:
    catalogue = load_catalogue()

    assert catalogue.get("no_such_exercise") is None
    assert catalogue.get(None) is None
    assert load_catalogue() is catalogue


def test_a_coachs_own_exercise_is_found_by_name_and_leaves_the_shared_catalogue_alone() -> None:
    shared = load_catalogue()
    squat = shared.by_id[ExerciseId("goblet_squat")]
    own = replace(squat, id=ExerciseId("own:garden_squat"), name="Garden squat", aliases=("log squat",))

    mine = shared.with_own((own,))

    assert mine.names.find("log squats")[0].exercise == own.id
    assert mine.get("own:garden_squat") == own
    assert len(mine) == len(shared) + 1
    assert shared.get("own:garden_squat") is None
    assert shared.with_own(()) is shared


def test_a_coachs_own_exercise_wins_an_equal_name() -> None:
    squat = load_catalogue().by_id[ExerciseId("goblet_squat")]
    own = replace(squat, id=ExerciseId("own:my_goblet"), name="Goblet squat", aliases=())

    found = load_catalogue().with_own((own,)).names.find("goblet squat")

    assert (found[0].exercise, found[0].exact) == (own.id, True)


def test_a_coach_may_reword_a_shared_exercise() -> None:
    squat = load_catalogue().by_id[ExerciseId("goblet_squat")]
    reworded = replace(squat, cues=("Sit between the heels",))

    mine = load_catalogue().with_own((reworded,))

    assert mine.get("goblet_squat") == reworded
    assert len(mine) == len(load_catalogue())


def test_muscles_are_told_in_everyday_groups() -> None:
    squat = load_catalogue().by_id[ExerciseId("goblet_squat")]

    assert prime_groups(squat) == (MuscleGroup.QUADRICEPS, MuscleGroup.GLUTES)
    assert helping_groups(squat) == (MuscleGroup.ADDUCTORS, MuscleGroup.LOWER_BACK, MuscleGroup.ABS)
    assert group_of("brachialis") is MuscleGroup.BICEPS
