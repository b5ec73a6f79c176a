"""The coach's own substitutes are offered also where nothing is known of the slot's exercise, but never against a hard limit."""

from __future__ import annotations

from bot.training.blocks import ExerciseId, Measure, SetTarget, Sides, Slot
from bot.training.exercises.catalogue import load_catalogue
from bot.training.exercises.entry import Exercise
from bot.training.loads import Load, LoadKind, Unit
from bot.training.substitutes import Reason, coachs_own, slot_under
from bot.training.tempo import Tempo
from tests.builders.substitute_corpus import KITS

CATALOGUE = load_catalogue()
OWN = ("goblet squat", "barbell back squat", "dead bug", "a name of nobody")


def names(kit: str, reason: Reason = Reason.WISH, **more: tuple[str, ...]) -> list[str]:
    found = coachs_own(OWN, kit=KITS[kit], reason=reason, catalogue=CATALOGUE, **more)
    assert all(one.by_coach for one in found)
    return [one.exercise for one in found]


def test_they_come_in_the_coachs_order_as_far_as_the_kit_goes() -> None:
    assert names("home") == ["goblet_squat", "dead_bug"]
    assert names("gym") == ["goblet_squat", "back_squat", "dead_bug"]


def test_what_hurts_is_spared() -> None:
    assert names("home", Reason.PAIN, hurting=("knee",)) == ["dead_bug"]


def test_what_another_slot_of_today_is_does_not_come_twice() -> None:
    assert names("home", today=("dead_bug",)) == ["goblet_squat"]


def _entry(exercise: str) -> Exercise:
    entry = CATALOGUE.get(ExerciseId(exercise))
    assert entry is not None
    return entry


def test_a_slot_under_a_hold_asks_for_seconds_as_long_as_its_set_took() -> None:
    target = SetTarget(8, 10, tempo=Tempo(3, 1, 1, 0))
    slot = Slot("B1", "Dead bug", (target, target), ExerciseId("dead_bug"))

    under = slot_under(slot, _entry("dead_bug"), _entry("plank"))

    # 8 to 10 reps of 3+1+1+0 s are 40 to 50 s under tension.
    assert [(one.low, one.high, one.measure, one.tempo) for one in under.sets] == [(40, 50, Measure.SECONDS, None)] * 2


def test_a_slot_under_one_sided_work_counts_each_side_and_forgets_the_load_of_the_other_lift() -> None:
    load = Load(LoadKind.IMPLEMENT, 40, Unit.KG)
    slot = Slot("A1", "Goblet squat", (SetTarget(8, 12, load=load),), ExerciseId("goblet_squat"))

    under = slot_under(slot, _entry("goblet_squat"), _entry("bulgarian_split_squat"))

    assert (under.sides, under.sets[0].load, under.sets[0].high) == (Sides.EACH, None, 12)
