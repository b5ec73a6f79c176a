"""Every entry of the catalogue is walked: what it says must be possible, known, and in line with its neighbours."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable

import pytest
from rapidfuzz.distance import OSA

from bot.training.blocks import Measure
from bot.training.exercises.catalogue import load_catalogue
from bot.training.exercises.entry import Exercise, FirstPhase, LoadStyle, Pattern
from bot.training.exercises.folding import fold, word_set
from bot.training.exercises.muscles import GROUP_OF, MuscleGroup, groups_of, prime_groups
from bot.training.kit import KitItem

CATALOGUE = load_catalogue()
JOINTS = word_set("ankle knee hip lower_back shoulder elbow wrist neck")
COMPOUND_PUSHES = (Pattern.HORIZONTAL_PUSH, Pattern.VERTICAL_PUSH)
SINGLE_JOINT = {
    Pattern.ELBOW_FLEXION: "elbow",
    Pattern.ELBOW_EXTENSION: "elbow",
    Pattern.KNEE_EXTENSION: "knee",
    Pattern.KNEE_FLEXION: "knee",
    Pattern.CALF: "plantar",
    Pattern.SHIN: "dorsiflexion",
    Pattern.WRIST: "wrist",
    Pattern.HIP_ABDUCTION: "hip",
    Pattern.HIP_ADDUCTION: "hip",
    Pattern.HIP_FLEXION: "hip",
    Pattern.CHEST_FLY: "arm",
    Pattern.SHRUG: "scapular",
}


def every_entry(check: Callable[[Exercise], None]) -> Callable[[], None]:
    """Make one test of a check on an entry, which tells of all entries that fail it."""

    def test() -> None:
        faults = []
        for exercise in CATALOGUE:
            try:
                check(exercise)
            except AssertionError as fault:
                faults.append(f"{exercise.id}: {fault}")
        assert not faults, "\n".join(faults)

    test.__name__, test.__doc__ = check.__name__, check.__doc__
    return test


def words_of(exercise: Exercise) -> list[str]:
    return [exercise.name, *exercise.aliases]


def test_the_catalogue_is_large_enough_for_a_home_block() -> None:
    at_home = [
        exercise
        for exercise in CATALOGUE
        if exercise.pattern is not Pattern.MOBILITY and (not exercise.kit or any(not way & GYM_ONLY for way in exercise.kit))
    ]

    assert len(CATALOGUE) >= 270
    assert len(at_home) >= 250


GYM_ONLY = frozenset(
    {
        KitItem.CABLE, KitItem.LAT_PULLDOWN, KitItem.LEG_PRESS, KitItem.LEG_CURL, KitItem.LEG_EXTENSION, KitItem.SMITH_MACHINE,
        KitItem.CHEST_MACHINE, KitItem.ROW_MACHINE, KitItem.CALF_MACHINE,
        KitItem.BACK_EXTENSION_BENCH, KitItem.LANDMINE, KitItem.SLED,
    }
)  # fmt: skip


def test_ids_are_unique_and_plain() -> None:
    ids = [exercise.id for exercise in CATALOGUE]

    assert len(set(ids)) == len(ids)
    assert all(entry == entry.lower() and entry.replace("_", "").isalnum() for entry in ids)


def test_no_two_names_are_equal_once_folded() -> None:
    claimed: dict[str, list[str]] = defaultdict(list)
    for exercise in CATALOGUE:
        for name in words_of(exercise):
            claimed["".join(fold(name))].append(f"{exercise.id}: {name}")

    assert {key: names for key, names in claimed.items() if len(names) > 1} == {}


@every_entry
def test_every_name_reads_back_to_its_own_exercise(exercise: Exercise) -> None:
    for name in words_of(exercise):
        for typed in (name, name.upper(), name.replace(" ", "-"), f"  {name}!"):
            best = CATALOGUE.names.find(typed)[0]
            assert (best.exercise, best.exact) == (exercise.id, True), typed


@every_entry
def test_an_entry_says_all_that_a_member_needs(exercise: Exercise) -> None:
    assert exercise.source
    assert 1 <= len(exercise.cues) <= 2
    assert exercise.prime
    assert exercise.joints
    assert exercise.joint_actions or exercise.pattern is Pattern.MOBILITY
    assert exercise.room in {"mat", "stand", "walk"}


@every_entry
def test_muscles_and_joints_are_known_and_said_once(exercise: Exercise) -> None:
    muscles = (*exercise.prime, *exercise.helping)

    assert set(muscles) <= GROUP_OF.keys()
    assert len(set(muscles)) == len(muscles)
    assert set(exercise.joints) <= JOINTS
    assert len(set(exercise.joints)) == len(exercise.joints)


@every_entry
def test_neighbours_exist_in_the_family_and_easier_really_is_easier(exercise: Exercise) -> None:
    for other_id in (*exercise.easier, *exercise.harder):
        other = CATALOGUE.get(other_id)
        assert other is not None, other_id
        assert other.family == exercise.family
        assert (other.difficulty < exercise.difficulty) is (other_id in exercise.easier)
        assert other.difficulty != exercise.difficulty


@every_entry
def test_the_way_it_is_loaded_fits_the_kit(exercise: Exercise) -> None:
    kit = frozenset[KitItem]().union(*exercise.kit)
    pairs = {KitItem.DUMBBELL, KitItem.KETTLEBELL, KitItem.PLATE, KitItem.BAND, KitItem.BARBELL}
    bars = {KitItem.BARBELL, KitItem.EZ_BAR, KitItem.TRAP_BAR, KitItem.SMITH_MACHINE, KitItem.DUMBBELL}
    bands = {KitItem.BAND, KitItem.MINI_BAND, KitItem.ANKLE_WEIGHT, KitItem.CABLE}

    if exercise.load_style is LoadStyle.PAIR:
        assert kit & pairs
    if exercise.load_style is LoadStyle.BARBELL:
        assert kit & bars
    if exercise.load_style is LoadStyle.BAND:
        assert kit & bands
    if exercise.load_style is LoadStyle.MACHINE:
        assert kit & GYM_ONLY


@every_entry
def test_a_hold_is_counted_in_time_or_distance_and_has_no_first_phase(exercise: Exercise) -> None:
    if exercise.first_phase is FirstPhase.HOLD:
        assert exercise.measure is not Measure.REPS
    if "hold" in exercise.name.lower().split():
        assert exercise.measure is Measure.SECONDS


@every_entry
def test_an_exercise_that_bends_the_elbow_lists_the_biceps_and_never_leads_with_the_triceps(exercise: Exercise) -> None:
    muscles = groups_of((*exercise.prime, *exercise.helping))
    if "elbow flexion" in exercise.joint_actions:
        assert MuscleGroup.BICEPS in muscles
        assert MuscleGroup.TRICEPS not in prime_groups(exercise)
    if "elbow extension" in exercise.joint_actions:
        assert MuscleGroup.TRICEPS in muscles
        assert MuscleGroup.BICEPS not in prime_groups(exercise)


@every_entry
def test_every_compound_push_has_the_triceps_somewhere(exercise: Exercise) -> None:
    if exercise.pattern in COMPOUND_PUSHES and exercise.id != "scapular_push_up":  # straight arms: only the blades move
        assert MuscleGroup.TRICEPS in groups_of((*exercise.prime, *exercise.helping))


@every_entry
def test_a_pattern_has_the_prime_movers_that_its_rule_asks_for(exercise: Exercise) -> None:
    """Which muscles a movement must lead with: common practice, mapped from the textbook's joint actions."""
    prime = set(prime_groups(exercise))
    glutes, hams, quads = MuscleGroup.GLUTES, MuscleGroup.HAMSTRINGS, MuscleGroup.QUADRICEPS
    match exercise.pattern:
        case Pattern.SQUAT | Pattern.LUNGE:
            # Against a wall the hips are carried: the thighs hold alone.
            assert prime >= ({quads} if "wall_sit" in exercise.id else {quads, glutes})
        case Pattern.HINGE:
            assert prime & {glutes, hams}
            assert prime != {quads}
        case Pattern.BRIDGE:
            assert glutes in prime
        case Pattern.HORIZONTAL_PUSH:
            is_chest = MuscleGroup.CHEST in prime
            assert is_chest or exercise.id == "bench_dip"  # done for the triceps
        case Pattern.VERTICAL_PUSH:
            assert prime & {MuscleGroup.FRONT_SHOULDERS, MuscleGroup.SIDE_SHOULDERS}
        case Pattern.HORIZONTAL_PULL:
            assert prime & {MuscleGroup.LATS, MuscleGroup.UPPER_BACK}
        case Pattern.VERTICAL_PULL:
            assert MuscleGroup.LATS in prime
        case Pattern.KNEE_FLEXION:
            assert hams in prime
        case Pattern.KNEE_EXTENSION:
            assert quads in prime
        case Pattern.HIP_ABDUCTION:
            assert MuscleGroup.ABDUCTORS in prime
        case Pattern.HIP_ADDUCTION:
            assert MuscleGroup.ADDUCTORS in prime
        case Pattern.TRUNK_FLEXION:
            assert prime & {MuscleGroup.ABS, MuscleGroup.NECK}
        case Pattern.ANTI_ROTATION | Pattern.ROTATION | Pattern.SIDE_BEND | Pattern.ANTI_SIDE_BEND:
            assert MuscleGroup.OBLIQUES in prime
        case Pattern.ANTI_EXTENSION:
            assert MuscleGroup.ABS in prime


@every_entry
def test_an_isolation_entry_moves_one_joint(exercise: Exercise) -> None:
    """One joint moves; others may be loaded. A side plank around a hip exercise holds still, so it does not count as moving."""
    joint = SINGLE_JOINT.get(exercise.pattern)
    moving = [move for move in exercise.joint_actions if not move.startswith("resist")]
    more_than_one = {"jm_press"}  # half a press by design
    if joint and exercise.id not in more_than_one:
        assert {move.split()[0] for move in moving} <= {joint, "finger", "forearm"}, moving


def test_seated_calf_raises_lead_with_the_soleus_and_standing_ones_with_the_gastrocnemius() -> None:
    seated, standing = CATALOGUE.by_id["seated_calf_raise"], CATALOGUE.by_id["standing_calf_raise"]  # type: ignore[index]

    assert seated.prime == ("soleus",)
    assert standing.prime[0] == "gastrocnemius"


@pytest.mark.parametrize(
    "entry",
    ["pull_up", "chin_up", "deadlift", "dumbbell_curl", "lateral_raise", "glute_bridge", "barbell_row", "standing_calf_raise"],
)
def test_these_lifts_begin_with_the_way_up(entry: str) -> None:
    """Common practice; a tempo still names the lowering first."""
    assert CATALOGUE.by_id[entry].first_phase is FirstPhase.CONCENTRIC  # type: ignore[index]


@pytest.mark.parametrize(
    "entry", ["back_squat", "bench_press", "push_up", "romanian_deadlift", "split_squat", "dip", "skull_crusher", "nordic_curl"]
)
def test_these_lifts_begin_with_the_way_down(entry: str) -> None:
    assert CATALOGUE.by_id[entry].first_phase is FirstPhase.ECCENTRIC  # type: ignore[index]


def test_exercises_that_jump_or_drop_are_not_called_quiet() -> None:
    loud = {exercise.id for exercise in CATALOGUE if not exercise.quiet}
    jumping = {exercise.id for exercise in CATALOGUE if {"jump", "hop", "clap"} & set(fold(exercise.name))}

    assert jumping - loud == set()
    assert {"burpee", "high_knees", "pendlay_row", "deadlift"} <= loud


# Names of different exercises that a slip of one letter could exchange. Looked at one by one: each pair is either two movements
# that rightly have near names, or told apart by a word that the index keeps.
LOOKED_AT = {
    ("backsquat", "hacksquat"),
    ("bandhipabduction", "bandhipadduction"),  # out or in: a slip here is asked about by nobody, so the cue says the direction
    ("cablehipabduction", "cablehipadduction"),
    ("lyinghipabduction", "lyinghipadduction"),
    ("sidelyingabduction", "sidelyingadduction"),
    ("cablerow", "tablerow"),
    ("floortraise", "flooryraise"),
    ("lyingtraise", "lyingyraise"),
    ("pronetraise", "proneyraise"),
    ("traise", "yraise"),
    ("traise", "wraise"),  # the letter is the shape of the arms
    ("wraise", "yraise"),
    ("pronetraise", "pronewraise"),
    ("pronewraise", "proneyraise"),
    ("lsithold", "vsithold"),
    ("pushup", "tpushup"),
    ("situp", "vsitup"),
    ("t2b", "tib"),
    ("tib", "ttb"),
}


def near_names() -> set[tuple[str, str]]:
    """Pairs of folded names, of different exercises, that one letter more, less or exchanged turns into one another."""
    keys = [("".join(fold(name)), exercise.id) for exercise in CATALOGUE for name in words_of(exercise)]
    by_length: dict[int, list[tuple[str, str]]] = defaultdict(list)
    for key, entry in keys:
        by_length[len(key)].append((key, entry))
    return {
        tuple(sorted((key, other)))  # type: ignore[misc]
        for length, here in by_length.items()
        for key, entry in here
        for other, owner in (*here, *by_length.get(length + 1, []))
        if entry != owner and OSA.distance(key, other, score_cutoff=1) == 1
    }


def test_near_alike_names_of_different_exercises_have_been_looked_at() -> None:
    assert near_names() == LOOKED_AT
