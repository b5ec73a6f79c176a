"""No substitute may break a hard limit, whatever exercise, kit or reason: checked over the whole catalogue.

The limits are the product's promises, not the ranking's: kit at hand, the joint that hurts left alone, three at most, the coach's
own first. What a coach would judge about the choice itself stands in tests/training/substitutes.
"""

from __future__ import annotations

import pytest

from bot.training.blocks import ExerciseId
from bot.training.exercises.catalogue import load_catalogue
from bot.training.exercises.entry import Exercise, Pattern
from bot.training.kit import ALWAYS_AT_HAND, Kit, KitItem
from bot.training.substitutes import Reason, Substitute, substitutes_for
from tests.builders.substitute_corpus import KITS

CATALOGUE = load_catalogue()
ALL = tuple(CATALOGUE)
FOUR = ("nothing", "bands", "dumbbells_flat_bench", "gym")
# Common practice: these load the joint lightly though they name it (bridges for knees, braced trunk work for backs).
LIGHT = {
    "knee": {Pattern.BRIDGE},
    "lower_back": {Pattern.ANTI_EXTENSION, Pattern.ANTI_ROTATION},
}
GENTLE = {"bird_dog"}
SERVES = {KitItem.INCLINE_BENCH: frozenset({KitItem.BENCH}), KitItem.BENCH: frozenset({KitItem.BOX})}  # a bench to step on


def _entry(one: Substitute) -> Exercise:
    entry = CATALOGUE.get(one.exercise)
    assert entry is not None, one.exercise
    return entry


def _has(kit: Kit, entry: Exercise, gone: frozenset[KitItem] = frozenset()) -> bool:
    owned = kit.items - gone
    served = frozenset().union(*(SERVES.get(item, frozenset()) for item in owned))
    at_hand = (owned | served | ALWAYS_AT_HAND) - gone
    return not entry.kit or any(way <= at_hand for way in entry.kit)


def _found(exercise: ExerciseId, kit: str, reason: Reason, **more: object) -> tuple[Substitute, ...]:
    return substitutes_for(exercise, kit=KITS[kit], reason=reason, catalogue=CATALOGUE, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize("kit", FOUR)
@pytest.mark.parametrize("reason", [Reason.MISSING_KIT, Reason.TOO_HARD, Reason.WISH, Reason.NOISE], ids=str)
def test_what_is_offered_can_be_done_is_another_exercise_and_at_most_three(kit: str, reason: Reason) -> None:
    offered = 0
    for entry in ALL:
        found = _found(entry.id, kit, reason)
        offered += len(found)
        names = [one.exercise for one in found]
        assert len(found) <= 3, entry.id
        assert len(set(names)) == len(names), entry.id
        assert entry.id not in names
        for one in found:
            assert _has(KITS[kit], _entry(one)), (entry.id, one.exercise)
            assert 0 <= one.likeness <= 1
            if reason is Reason.NOISE:
                assert _entry(one).quiet, (entry.id, one.exercise)
    assert offered > len(ALL)  # silence everywhere would break no limit


@pytest.mark.parametrize("part", ["knee", "shoulder", "lower back", "elbow", "wrist", "ankle", "hip", "neck"])
def test_the_joint_that_hurts_is_left_alone(part: str) -> None:
    joint = part.replace(" ", "_")
    loading = [entry for entry in ALL if joint in entry.joints]
    assert loading
    for entry in loading:
        for one in _found(entry.id, "gym", Reason.PAIN, hurting=(part,)):
            other = _entry(one)
            light = other.pattern in LIGHT.get(joint, set()) or other.id in GENTLE
            assert joint not in other.joints or light, (entry.id, one.exercise)


@pytest.mark.parametrize("thing", [KitItem.DUMBBELL, KitItem.BARBELL, KitItem.BENCH, KitItem.PULL_UP_BAR])
def test_what_is_taken_or_gone_is_not_needed_for_the_substitute(thing: KitItem) -> None:
    for entry in ALL:
        if not any(thing in way for way in entry.kit):
            continue
        for one in _found(entry.id, "gym", Reason.TAKEN, missing=(thing.value,)):
            assert _has(KITS["gym"], _entry(one), frozenset({thing})), (entry.id, one.exercise)


def test_no_substitute_is_in_another_slot_of_today() -> None:
    for entry in ALL[::3]:
        first = _found(entry.id, "gym", Reason.WISH)
        today = tuple(one.exercise for one in first)
        assert not {one.exercise for one in _found(entry.id, "gym", Reason.WISH, today=today)} & set(today), entry.id


@pytest.mark.parametrize(
    ("exercise", "own", "kit"),
    [
        ("goblet_squat", ("Wall sit", "Reverse lunge"), "nothing"),
        ("bench_press", ("Dumbbell curl", "Push-up"), "dumbbells_flat_bench"),
        ("pull_up", ("Ring row", "Lat pulldown"), "gym"),
    ],
)
def test_the_coach_s_own_substitutes_stand_first_in_the_coach_s_order(exercise: str, own: tuple[str, ...], kit: str) -> None:
    found = _found(ExerciseId(exercise), kit, Reason.WISH, own=own)
    assert [one.by_coach for one in found[:2]] == [True, True]
    assert [one.name.lower() for one in found[:2]] == [name.lower() for name in own]


def test_even_the_coach_s_own_is_not_offered_without_its_kit() -> None:
    found = _found(ExerciseId("goblet_squat"), "nothing", Reason.MISSING_KIT, own=("Leg press", "Reverse lunge"))
    assert [one.name for one in found if one.by_coach] == ["Reverse lunge"]


def test_even_the_coach_s_own_is_not_offered_where_the_knee_hurts() -> None:
    found = _found(ExerciseId("goblet_squat"), "gym", Reason.PAIN, own=("Front squat",), hurting=("knee",))
    assert not any(one.by_coach for one in found)
