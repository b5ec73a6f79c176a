"""What is known of one exercise?"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from bot.training.blocks import ExerciseId, Measure
from bot.training.kit import KitItem


class Pattern(StrEnum):
    """Movement patterns (trade terms; mapped to joint actions in the reference test)."""

    SQUAT = "squat"
    HINGE = "hinge"
    LUNGE = "lunge"
    BRIDGE = "bridge"
    HORIZONTAL_PUSH = "horizontal_push"
    VERTICAL_PUSH = "vertical_push"
    HORIZONTAL_PULL = "horizontal_pull"
    VERTICAL_PULL = "vertical_pull"
    ELBOW_FLEXION = "elbow_flexion"
    ELBOW_EXTENSION = "elbow_extension"
    SHOULDER_RAISE = "shoulder_raise"
    REAR_SHOULDER = "rear_shoulder"
    SHOULDER_ROTATION = "shoulder_rotation"
    CHEST_FLY = "chest_fly"
    SHRUG = "shrug"
    PULLOVER = "pullover"
    HIP_ABDUCTION = "hip_abduction"
    HIP_ADDUCTION = "hip_adduction"
    HIP_FLEXION = "hip_flexion"
    KNEE_FLEXION = "knee_flexion"
    KNEE_EXTENSION = "knee_extension"
    CALF = "calf"
    SHIN = "shin"
    TRUNK_FLEXION = "trunk_flexion"
    TRUNK_EXTENSION = "trunk_extension"
    ROTATION = "rotation"
    ANTI_EXTENSION = "anti_extension"
    ANTI_ROTATION = "anti_rotation"
    ANTI_SIDE_BEND = "anti_side_bend"
    SIDE_BEND = "side_bend"
    CARRY = "carry"
    WRIST = "wrist"
    GRIP = "grip"
    MOBILITY = "mobility"
    CONDITIONING = "conditioning"


class Plane(StrEnum):
    SAGITTAL = "sagittal"
    FRONTAL = "frontal"
    TRANSVERSE = "transverse"
    MIXED = "mixed"


class FirstPhase(StrEnum):
    """With which phase a rep begins."""

    ECCENTRIC = "eccentric"  # squat, bench press: the way down first
    CONCENTRIC = "concentric"  # pull-up, deadlift, curl: the way up first
    HOLD = "hold"


class LoadStyle(StrEnum):
    """How the exercise is loaded, which decides what a bare number means."""

    PAIR = "pair"  # one implement in each hand
    SINGLE = "single"  # one implement (goblet, one arm at a time)
    BARBELL = "barbell"
    BODY = "body"  # body weight; may be added to or assisted
    BAND = "band"
    MACHINE = "machine"
    NONE = "none"  # stretches, drills


@dataclass(frozen=True, slots=True)
class Exercise:
    """One catalogue entry.

    prime, helping: anatomical muscle names, most important first. joints: those it loads ("knee", "shoulder", "lower_back" ...).
    kit: alternatives, each a set that suffices alone; an empty tuple means nothing is needed.
    family: exercises that differ by lever or load only; difficulty 1 (easiest) to 10 inside the whole catalogue's pattern.
    stability: 1 (machine) to 5 (one leg, unstable). lever: how far the load is from the joint, 1 (short) to 5 (long).
    easier, harder: ids of neighbours in the family. quiet: no drops or jumps. room: "mat", "stand", "walk".
    """

    id: ExerciseId
    name: str
    pattern: Pattern
    prime: tuple[str, ...]
    helping: tuple[str, ...]
    joints: tuple[str, ...]
    kit: tuple[frozenset[KitItem], ...]
    load_style: LoadStyle
    first_phase: FirstPhase
    aliases: tuple[str, ...] = ()
    measure: Measure = Measure.REPS
    one_sided: bool = False
    plane: Plane = Plane.SAGITTAL
    family: str = ""
    difficulty: int = 5
    stability: int = 3
    lever: int = 3
    easier: tuple[ExerciseId, ...] = ()
    harder: tuple[ExerciseId, ...] = ()
    quiet: bool = True
    room: str = "stand"
    joint_actions: tuple[str, ...] = ()  # "knee extension", "hip extension": the reference test derives muscles from these
    tempo_note: str = ""
    cues: tuple[str, ...] = ()
    source: str = ""


# First words of names that keep their capital wherever they stand: called after a people, a town, a person or a letter.
_PROPER = frozenset(
    [
        "Bulgarian",
        "Copenhagen",
        "Cossack",
        "Nordic",
        "Pallof",
        "Romanian",
        "Spanish",
        "T",
        "Turkish",
        "W",
        "Y",
        "Zercher",
        "Zottman",
    ]
)


def in_a_sentence(name: str) -> str:
    """An exercise's name as it stands within a sentence.

    "Goblet squat" -> "goblet squat", "Dumbbell Romanian deadlift" -> "dumbbell Romanian deadlift", "Nordic curl" as it is
    """
    first = name.replace("-", " ").split(" ", 1)[0]
    return name if first in _PROPER else name[:1].lower() + name[1:]
