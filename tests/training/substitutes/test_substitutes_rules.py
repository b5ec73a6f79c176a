"""The rules of substitutes one by one: the coach first, hard limits, what is said, what changes."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from bot.training.blocks import ExerciseId, Measure, SetPlace, SetTarget, Slot
from bot.training.exercises.catalogue import load_catalogue
from bot.training.kit import Kit, KitItem, even_ladder
from bot.training.loads import weight
from bot.training.records import SetDone, SetRecord
from bot.training.substitutes import Reason, Substitute, kit_version, substitutes_for
from bot.training.substitutes.likeness import likeness
from bot.training.substitutes.limits import strain
from bot.training.tempo import Tempo
from tests.builders.substitute_corpus import KITS

CATALOGUE = load_catalogue()
ON = date(2026, 3, 4)


def ask(exercise: str, kit: str = "dumbbells", reason: Reason = Reason.MISSING_KIT, **more: object) -> tuple[Substitute, ...]:
    return substitutes_for(ExerciseId(exercise), kit=KITS[kit], reason=reason, catalogue=CATALOGUE, **more)  # type: ignore[arg-type]


def record(exercise: str, kg: int, reps: int) -> SetRecord:
    return SetRecord(SetDone(count=reps, load=weight(kg, pair=True)), SetPlace("A1", 1), ON, ExerciseId(exercise), 1)


def test_the_coachs_own_substitute_stands_first() -> None:
    found = ask("pull_up", own=("Lat pullover on the floor", "floor pullover"))

    assert (found[0].exercise, found[0].by_coach) == ("floor_pullover", True)
    assert not any(one.by_coach for one in found[1:])


def test_the_coachs_own_is_left_out_where_kit_or_pain_forbids_it() -> None:
    no_kit = ask("pull_up", "nothing", own=("lat pulldown",))
    hurts = ask("bench_press", "home", Reason.PAIN, own=("push up",), hurting=("wrist",))

    assert not any(one.by_coach for one in (*no_kit, *hurts))
    assert "push_up" not in [one.exercise for one in hurts]


def test_the_coachs_own_is_done_with_the_implement_that_the_member_owns() -> None:
    assert ask("good_morning", own=("RDL",))[0].exercise == "dumbbell_romanian_deadlift"


def test_what_the_member_asked_for_stands_first_when_it_can_be_done() -> None:
    found = ask("burpee", "nothing", Reason.WISH, wanted=ExerciseId("mountain_climber"))

    assert found[0].exercise == "mountain_climber"
    assert found[0].why[0] == "what you asked for"
    assert ask("bench_press", "nothing", Reason.WISH, wanted=ExerciseId("dip"))[0].exercise != "dip"


def test_what_another_slot_of_today_is_already_is_not_offered() -> None:
    first = ask("bench_press", "dumbbells")[0].exercise

    assert first not in [one.exercise for one in ask("bench_press", "dumbbells", today=(first,))]


@pytest.mark.parametrize("said", ["bench", "benches", "Bench"])
def test_a_missing_bench_means_any_bench(said: str) -> None:
    for one in ask("dumbbell_bench_press", "home", missing=(said,)):
        ways = CATALOGUE.by_id[one.exercise].kit
        assert not ways or any(not way & {KitItem.BENCH, KitItem.INCLINE_BENCH} for way in ways), one.exercise


def test_a_taken_station_leaves_the_hand_weights_at_hand() -> None:
    found = [one.exercise for one in ask("dumbbell_bench_press", "gym", Reason.TAKEN)]

    assert "floor_press" in found


def test_warm_ups_and_strength_work_never_stand_in_for_one_another() -> None:
    stretches = ask("couch_stretch", "nothing", Reason.WISH)

    assert stretches
    assert {CATALOGUE.by_id[one.exercise].pattern.value for one in stretches} == {"mobility"}


# Joints and muscles that a movement loads: common practice, one row a part that people name.
@pytest.mark.parametrize(
    ("part", "loads", "spares"),
    [
        ("knee", "goblet_squat reverse_lunge leg_extension jumping_jack", "romanian_deadlift push_up"),
        ("lower back", "deadlift bent_over_dumbbell_row goblet_squat", "split_squat chest_supported_row hip_thrust"),
        ("shoulder", "overhead_press bench_press pull_up", "dumbbell_curl goblet_squat"),
        ("wrist", "push_up", "floor_press"),
        ("elbow", "dumbbell_curl skull_crusher pull_up", "floor_pullover"),
        ("ankle", "one_leg_calf_raise goblet_squat", "hip_thrust"),
        ("hamstring", "romanian_deadlift lying_leg_curl", "leg_extension"),
        ("calf", "standing_calf_raise", "hip_thrust"),
        ("chest", "push_up dumbbell_fly", "one_arm_dumbbell_row"),
    ],
)
def test_a_part_that_hurts_is_known_by_what_loads_it(part: str, loads: str, spares: str) -> None:
    assert [strain(CATALOGUE.by_id[ExerciseId(each)], part) for each in loads.split()] == [2] * len(loads.split())
    assert [strain(CATALOGUE.by_id[ExerciseId(each)], part) for each in spares.split()] == [0] * len(spares.split())


@pytest.mark.parametrize("said", ["knee", "Left knee", "knees"])
def test_a_part_is_understood_however_it_is_said(said: str) -> None:
    found = ask("goblet_squat", "dumbbells", Reason.PAIN, hurting=(said,))

    assert found
    assert not {CATALOGUE.by_id[one.exercise].pattern.value for one in found} & {"squat", "lunge", "knee_extension"}


def test_only_what_does_not_load_a_part_is_said_to_spare_it() -> None:
    words = {one.exercise: one.why for one in ask("goblet_squat", "dumbbells", Reason.PAIN, hurting=("knee",))}

    assert any("spares the knee" in why for why in words.values())
    for exercise, why in words.items():
        assert ("spares the knee" in why) == (strain(CATALOGUE.by_id[exercise], "knee") == 0)


def test_too_hard_goes_down_and_too_easy_goes_up_in_the_same_movement() -> None:
    push_up = CATALOGUE.by_id[ExerciseId("push_up")]
    easier = [CATALOGUE.by_id[one.exercise] for one in ask("push_up", "nothing", Reason.TOO_HARD)]
    harder = [CATALOGUE.by_id[one.exercise] for one in ask("push_up", "nothing", Reason.TOO_EASY)]

    assert {one.family for one in (*easier, *harder)} == {"push_up"}
    assert max(one.difficulty for one in easier) < push_up.difficulty < min(one.difficulty for one in harder)


def test_a_curl_for_a_row_is_the_last_resort_and_says_so() -> None:
    found = ask("barbell_row", "home", Reason.PAIN, hurting=("shoulder",))

    assert found[0].last_resort
    assert found[0].why[0] == "a stand-in at best: works only your biceps"


def test_three_choices_are_not_three_of_a_kind_when_other_kit_is_as_near() -> None:
    found = [CATALOGUE.by_id[one.exercise] for one in ask("push_up", "dumbbells_flat_bench", Reason.WISH)]

    assert len({one.family for one in found}) > 1


def test_a_slow_way_down_keeps_an_exercise_that_has_one() -> None:
    slow = Slot("A1", "Split squat", (SetTarget(8, 10, tempo=Tempo(4, 1, 1)),) * 3, ExerciseId("split_squat"))

    for one in ask("split_squat", "nothing", Reason.WISH, slot=slow):
        assert CATALOGUE.by_id[one.exercise].first_phase.value != "hold"


def test_the_load_to_begin_with_comes_from_own_records_and_keeps_its_doubt() -> None:
    found = ask("romanian_deadlift", records=(record("dumbbell_stiff_leg_deadlift", 20, 10),), on=ON)
    pair = next(one for one in found if one.exercise == "dumbbell_romanian_deadlift")

    assert pair.load is not None and pair.load.pair
    assert pair.load.amount is not None and Decimal(8) <= pair.load.amount <= 20
    assert "cautious guess" in pair.change[0]


def test_what_was_done_before_is_the_load_to_begin_with() -> None:
    found = ask("romanian_deadlift", records=(record("dumbbell_romanian_deadlift", 22, 10),), on=ON)
    pair = next(one for one in found if one.exercise == "dumbbell_romanian_deadlift")

    assert (pair.load, pair.change[0]) == (weight(22, pair=True), "begin with pair of 22 kg, as you did it before")


def test_without_records_no_load_is_invented() -> None:
    assert all(one.load is None for one in ask("romanian_deadlift"))


def test_a_hold_lasts_as_long_as_the_set_that_it_replaces() -> None:
    """3-0-1-0 over 8 reps is 32 s under tension (time under tension is seconds a rep times reps), said as 30 s."""
    slot = Slot("A1", "Farmer march", (SetTarget(8, 8, tempo=Tempo(3, 0, 1)),) * 2, ExerciseId("bodyweight_squat"))
    found = ask("bodyweight_squat", "nothing", Reason.PAIN, hurting=("ankle",), slot=slot)
    hold = next(one for one in found if CATALOGUE.by_id[one.exercise].measure is Measure.SECONDS)

    assert "hold it for 30 s a set" in hold.change
    assert hold.sets is not None
    assert {(target.low, target.high, target.measure, target.tempo) for target in hold.sets} == {(30, 30, Measure.SECONDS, None)}


def test_the_coachs_load_and_percentage_do_not_pass_to_another_exercise() -> None:
    slot = Slot("A1", "Back squat", (SetTarget(5, 5, load=weight(100), percent_1rm=Decimal(80)),), ExerciseId("back_squat"))
    found = ask("back_squat", slot=slot)

    assert all(target.load is None and target.percent_1rm is None for one in found for target in one.sets or ())


def test_an_unknown_exercise_has_no_substitutes() -> None:
    assert ask("nothing_like_it") == ()


def test_likeness_is_even_handed_and_greatest_with_itself() -> None:
    entries = CATALOGUE.all[::17]

    for a in entries:
        for b in entries:
            assert likeness(a, b) == pytest.approx(likeness(b, a))
            assert 0 <= likeness(a, b) <= likeness(a, a) + 1e-9


@pytest.mark.parametrize(
    ("exercise", "kit", "written", "expected"),
    [
        ("romanian_deadlift", "dumbbells", "RDL", "dumbbell_romanian_deadlift"),
        ("romanian_deadlift", "dumbbells", "Barbell RDL", "romanian_deadlift"),  # the coach named the implement
        ("romanian_deadlift", "gym", "RDL", "romanian_deadlift"),
        ("romanian_deadlift", "nothing", "RDL", "kettlebell_romanian_deadlift"),  # with a backpack, which every home has
        ("deadlift", "dumbbells", "Deadlift", "dumbbell_deadlift"),
        ("overhead_press", "dumbbells", "Overhead press", "dumbbell_shoulder_press"),
        ("barbell_row", "dumbbells", "Bent over row", "bent_over_dumbbell_row"),
        ("pull_up", "dumbbells", "Pull-ups", "pull_up"),  # nothing is the same movement
        ("bench_press", "nothing", "Bench press", "bench_press"),  # a push-up is a substitute, not a bench press
    ],
)
def test_the_same_exercise_is_done_with_the_implement_that_is_owned(exercise: str, kit: str, written: str, expected: str) -> None:
    assert kit_version(ExerciseId(exercise), KITS[kit], CATALOGUE, written=written) == expected


def test_a_kit_version_can_always_be_done_and_is_of_the_same_movement() -> None:
    for kit in KITS.values():
        for entry in CATALOGUE:
            other = CATALOGUE.by_id[kit_version(entry.id, kit, CATALOGUE)]
            if other.id != entry.id:
                assert any(not kit.lacks(way) for way in other.kit), (entry.id, other.id)
                assert (other.pattern, other.family, other.one_sided) == (entry.pattern, entry.family, entry.one_sided)


def test_a_lighter_pair_is_taken_where_the_ladder_has_no_such_step() -> None:
    coarse = Kit(frozenset({KitItem.DUMBBELL}), (even_ladder(KitItem.DUMBBELL, low=5, high=25, step=5),))
    found = substitutes_for(
        ExerciseId("romanian_deadlift"), kit=coarse, reason=Reason.MISSING_KIT, catalogue=CATALOGUE,
        records=(record("dumbbell_stiff_leg_deadlift", 20, 10),), on=ON,
    )  # fmt: skip

    assert {one.load.amount for one in found if one.load} <= {Decimal(5), Decimal(10), Decimal(15), Decimal(20)}
