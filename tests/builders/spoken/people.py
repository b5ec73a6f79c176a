"""Who speaks: people with their day and kit, what they call an exercise, and the loads they use."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property
from itertools import chain

from bot.language.situation import Situation
from bot.training.blocks import Day, Slot
from bot.training.exercises.catalogue import load_catalogue
from bot.training.exercises.entry import Exercise, LoadStyle
from bot.training.loads import Unit
from tests.builders.voices import situation_of

KG, LB = Unit.KG, Unit.LB
_RED_TO_BLACK, _YELLOW_TO_BLUE = "red green black", "yellow red green blue"
_PAIRS_TO_24 = "dumbbell 4 6 8 10 12 14 16 18 20 22 24 kg in pairs"


@dataclass(frozen=True)
class Person:
    """day, unit, kit, bands and bar are written as in voices."""

    name: str
    day: str
    unit: Unit = KG
    kit: str = ""
    bands: str = ""
    bar: str = ""

    def lines(self) -> list[str]:
        """The person as the head of a file of voices."""
        told = {"day": self.day, "unit": self.unit.value, "kit": self.kit, "bands": self.bands, "bar": self.bar}
        return [f"= {self.name}: spoken", *(f"{key}: {value}" for key, value in told.items() if value)]

    @cached_property
    def situation(self) -> Situation:
        return situation_of(dict(line.split(": ", 1) for line in self.lines()[1:]))

    @property
    def plan(self) -> Day:
        assert self.situation.day is not None
        return self.situation.day

    def is_alone(self, slot: Slot) -> bool:
        """Is the slot no part of a superset?"""
        return sum(one.group == slot.group for one in self.plan.slots) == 1

    def amounts(self, exercise: Exercise) -> tuple[Decimal, ...]:
        """The loads this person may use for an exercise, lightest first; none for body weight and bands."""
        style = exercise.load_style
        if style not in AMOUNTS[self.unit]:
            return ()
        needed = set(chain.from_iterable(exercise.kit))
        owned = next((one.amounts for one in self.situation.kit.ladders if one.item in needed), None)
        return owned or tuple(map(Decimal, AMOUNTS[self.unit][style].split()))


# What a person may lift of each kind, in kilograms and in pounds.
AMOUNTS = {
    KG: {
        LoadStyle.PAIR: "6 8 10 12 12.5 14 16 18 20 22 24",
        LoadStyle.SINGLE: "8 10 12 14 16 18 20 24 28",
        LoadStyle.BARBELL: "40 50 52.5 60 62.5 70 80 85 100 110",
        LoadStyle.MACHINE: "30 35 40 45 50 60",
    },
    LB: {
        LoadStyle.PAIR: "10 12 15 20 25 30 35 40 45 50",
        LoadStyle.SINGLE: "15 20 25 30 35 40 45 50 53",
        LoadStyle.BARBELL: "95 115 125 135 145 155 185 205 225",
        LoadStyle.MACHINE: "60 70 85 90 100 110 120",
    },
}

PEOPLE = (
    Person("Ines", "A1 goblet_squat 3x10-12; A2 push_up 3x8-15; B1 dumbbell_romanian_deadlift 3x8-10; B2 one_arm_dumbbell_row 3x10-12 each; C1 plank 3x30-60 s"),
    Person("Bram", "A1 back_squat 4x5-6; B1 bench_press 4x6-8; B2 barbell_row 4x8-10; C1 farmer_carry 3x40 m", bar="20kg"),
    Person("Oona", "A1 dumbbell_bench_press 3x8-12; A2 lateral_raise 3x12-15; B1 bulgarian_split_squat 3x8-10 each; B2 hammer_curl 3x10-12; C1 side_plank 3x20-40 s each"),
    Person("Piet", "A1 deadlift 3x5; B1 overhead_press 3x5-8; C1 pull_up 4x4-8; D1 walking_lunge 3x20 st"),
    Person("Safia", "A1 kettlebell_swing 4x15-20; B1 half_kneeling_press 3x6-8 each; C1 suitcase_carry 3x40 m each; D1 hollow_hold 3x20-40 s"),
    Person("Milo", "A1 leg_press 3x10-12; B1 seated_cable_row 3x10-12; C1 lat_pulldown 3x8-12; D1 dumbbell_curl 3x10-12"),
    Person("Greta", "A1 hip_thrust 3x8-12; A2 chin_up 3x5-8; B1 step_up 3x8-10 each; C1 band_row 3x12-15; D1 skull_crusher 3x10-12", bands=_YELLOW_TO_BLUE),
    Person("Duane", "A1 back_squat 5x5; B1 bench_press 3x8-10; C1 barbell_hip_thrust 3x10; D1 plank 2x45-60 s", LB, bar="45lb"),
    Person("Peggy", "A1 goblet_squat 3x8-10; B1 floor_press 3x10-12; B2 dumbbell_romanian_deadlift 3x10-12; C1 dead_bug 3x8-10 each", LB, "dumbbell 10 15 20 25 30 35 40 45 50 lb in pairs"),
    Person("Ruben", "A1 kettlebell_deadlift 3x10; A2 push_up 3x10-15; B1 clean_and_press 3x5-8 each; B2 goblet_split_squat 3x8 each; C1 kettlebell_halo 2x8-10", kit="kettlebell 12 16 20 24 28 kg"),
    Person("Hana", "A1 dumbbell_shoulder_press 3x8-10; B1 one_arm_dumbbell_row 3x10-12 each; B2 dumbbell_curl 3x10-12; C1 triceps_kickback 3x12-15", kit=_PAIRS_TO_24),
    Person("Yusuf", "A1 banded_squat 3x15-20; A2 band_chest_press 3x12-15; B1 band_pull_apart 3x15-20; C1 pallof_press 3x10-12 each; D1 wall_sit 3x30-60 s", bands=_RED_TO_BLACK),
    Person("Claire", "A1 reverse_lunge 3x8-10 each; A2 incline_push_up 3x10-12; B1 one_leg_romanian_deadlift 3x8-10 each; C1 side_plank 2x20-40 s each", kit="dumbbell 4 6 8 10 12 kg in pairs"),
    Person("Tadeo", "A1 front_squat 4x6-8; B1 romanian_deadlift 3x8-10; C1 leg_extension 3x12-15; C2 lying_leg_curl 3x10-12; D1 standing_calf_raise 3x12-15"),
    Person("Winnie", "A1 box_squat 3x8-10; B1 wall_push_up 3x10-12; C1 band_row 2x12-15; D1 farmer_carry 3x20-30 m", kit="dumbbell 3 4 5 6 kg in pairs", bands=_RED_TO_BLACK),
    Person("Anton", "A1 pull_up 4x5-8; B1 dip 4x6-10; C1 pistol_squat 3x3-6 each; D1 hanging_knee_raise 3x8-12; E1 hollow_hold 3x20-40 s", bands=_RED_TO_BLACK),
    Person("Marta", "A1 trap_bar_deadlift 4x5-6; B1 incline_dumbbell_press 3x8-10; B2 seated_cable_row 3x10-12; C1 farmer_carry 4x30-40 m"),
    Person("Femi", "A1 overhead_press 5x5; B1 barbell_row 4x6-8; C1 ez_bar_curl 3x8-12; C2 cable_pushdown 3x10-15", LB),
    Person("Lotte", "A1 glute_bridge 3x12-15; A2 bird_dog 3x8-10 each; B1 goblet_box_squat 3x8-10; C1 dead_hang 3x20-40 s", kit="dumbbell 6 8 10 12 kg"),
    Person("Kai", "A1 thruster 3x8-10; B1 russian_twist 3x20; C1 suitcase_march 3x40 st each; D1 plank 3x40-60 s"),
    Person("Noemi", "A1 sumo_deadlift 3x5-6; B1 split_squat 3x8-10 each; B2 one_arm_overhead_press 3x6-8 each; C1 weighted_crunch 3x12-15"),
    Person("Ivo", "A1 machine_chest_press 3x8-12; A2 cable_fly 3x12-15; B1 hack_squat 3x8-10; C1 machine_calf_raise 4x10-15", LB),
    Person("Bea", "A1 incline_curl 3x10-12; A2 overhead_extension 3x10-12; B1 front_raise 3x12; C1 dumbbell_shrug 3x12-15", kit=_PAIRS_TO_24),
    Person("Sven", "A1 floor_press 4x8-10; B1 chest_supported_row 4x10-12; C1 goblet_reverse_lunge 3x8-10 each; D1 bear_crawl 3x15-20 m"),
    Person("Lupe", "A1 kettlebell_swing 5x15; B1 goblet_squat 4x8-10; C1 one_arm_floor_press 3x8-10 each; D1 suitcase_carry 3x30-40 m each", LB, "kettlebell 18 26 35 44 53 lb"),
    Person("Jonas", "A1 barbell_bulgarian_split_squat 3x6-8 each; B1 good_morning 3x8-10; C1 barbell_curl 3x8-10; D1 copenhagen_plank 3x15-30 s each", bar="15kg"),
)  # fmt: skip

# How people call an exercise when they text; each is unmistakable on every day above that has it.
_CALLED = """
back_squat: squat, squats, back squat
band_chest_press: band press, chest press, band chest press
band_pull_apart: pull aparts, pull-aparts, band pull aparts
band_row: band rows, rows
banded_squat: squats, band squats, banded squat
barbell_bulgarian_split_squat: bulgarians, split squats, bulgarian split squat
barbell_curl: curls, barbell curls, bb curl
barbell_hip_thrust: hip thrust, thrusts, hip thrusts
barbell_row: rows, bb row, barbell rows, row
bear_crawl: bear crawl, crawls, bear crawls
bench_press: bench, bench press, benching
bird_dog: bird dogs, bird dog
box_squat: squats, box squat, box squats
bulgarian_split_squat: bulgarians, split squat, bss, split squats
cable_fly: flys, cable fly, cable flies
cable_pushdown: pushdowns, cable pushdown, tricep pushdowns
chest_supported_row: rows, supported row, chest supported rows
chin_up: chins, chin ups, chinups
clean_and_press: clean and press, clean & press
copenhagen_plank: copenhagen, copenhagens, copenhagen plank
dead_bug: dead bugs, deadbugs
dead_hang: hang, dead hang, hangs
deadlift: deads, deadlift, DL, deadlifts
dip: dips
dumbbell_bench_press: db bench, bench, db press, dumbbell bench
dumbbell_curl: curls, bicep curls, db curls
dumbbell_romanian_deadlift: rdl, rdls, RDLs, romanian deadlift, romanians
dumbbell_shoulder_press: shoulder press, press, db shoulder press
dumbbell_shrug: shrugs, db shrugs
ez_bar_curl: curls, ez curls, ez bar curl
farmer_carry: carries, farmers, farmer carry, farmer walks
floor_press: floor press, floor presses
front_raise: front raises, front raise
front_squat: front squat, front squats, squats
glute_bridge: bridges, glute bridge, glute bridges
goblet_box_squat: squats, box squats, goblet box squat
goblet_reverse_lunge: lunges, goblet lunges, reverse lunges
goblet_split_squat: split squats, goblet split squat
goblet_squat: goblets, goblet squat, goblet squats, gob squat
good_morning: good mornings, GMs
hack_squat: hack squat, hack squats
half_kneeling_press: half kneeling press, kneeling press
hammer_curl: hammers, hammer curls, curls
hanging_knee_raise: knee raises, hanging knee raises
hip_thrust: hip thrust, thrusts, hip thrusts
hollow_hold: hollow, hollow hold, hollow holds
incline_curl: curls, incline curls
incline_dumbbell_press: incline press, incline, incline db press
incline_push_up: pushups, incline push ups, incline pushups
kettlebell_deadlift: deadlift, deadlifts, kb deadlift
kettlebell_halo: halos, kb halos
kettlebell_swing: swings, kb swings
lat_pulldown: pulldown, lat pulldown, pulldowns
lateral_raise: lat raise, lat raises, laterals, lateral raises, side raises
leg_extension: leg extensions, extensions, leg ext
leg_press: leg press
lying_leg_curl: leg curls, leg curl, lying leg curls
machine_calf_raise: calf raises, calves
machine_chest_press: chest press, machine press
one_arm_dumbbell_row: rows, row, db row, one arm rows
one_arm_floor_press: floor press, one arm floor press
one_arm_overhead_press: one arm press, overhead press, press
one_leg_romanian_deadlift: single leg rdl, sl rdl, rdls
overhead_extension: overhead extensions, extensions, tricep extensions
overhead_press: ohp, OHP, press, overhead press
pallof_press: pallof, pallof press
pistol_squat: pistols, pistol squats
plank: plank
pull_up: pullups, pull ups, pull-ups
push_up: pushups, push ups, push-ups, press ups
reverse_lunge: lunges, reverse lunges
romanian_deadlift: rdl, rdls, romanian deadlift
russian_twist: twists, russian twists
seated_cable_row: cable row, rows, seated row
side_plank: side plank, side planks
skull_crusher: skulls, skull crushers, skullcrushers
split_squat: split squat, split squats
standing_calf_raise: calf raises, calves
step_up: step ups, stepups
suitcase_carry: suitcase, suitcase carry
suitcase_march: march, suitcase march
sumo_deadlift: sumo, sumo deadlift, deadlift
thruster: thrusters
trap_bar_deadlift: deadlift, trap bar, trap bar deadlift
triceps_kickback: kickbacks, tricep kickbacks
walking_lunge: lunges, walking lunges
wall_push_up: wall push ups, pushups, wall pushups
wall_sit: wall sit, wall sits
weighted_crunch: crunches, weighted crunches
"""
CALLED = {exercise: tuple(names.split(", ")) for exercise, names in (line.split(": ") for line in _CALLED.strip().splitlines())}


def exercise_of(slot: Slot) -> Exercise:
    assert slot.exercise is not None
    return load_catalogue().by_id[slot.exercise]
