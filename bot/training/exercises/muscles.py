"""To which everyday group does a muscle belong? Weekly sets are counted by these groups.

Anatomical names are English forms of the Terminologia Anatomica; groups and actions follow the open textbook OpenStax Anatomy and
Physiology 2e, ch. 11. Collective names that the trade uses for one unit (hamstrings, rhomboids) stay collective.
"""

from __future__ import annotations

from enum import StrEnum

from bot.training.exercises.entry import Exercise


class MuscleGroup(StrEnum):
    CHEST = "chest"
    LATS = "lats"
    UPPER_BACK = "upper back"
    TRAPS = "traps"
    FRONT_SHOULDERS = "front shoulders"
    SIDE_SHOULDERS = "side shoulders"
    REAR_SHOULDERS = "rear shoulders"
    ROTATOR_CUFF = "rotator cuff"
    BICEPS = "biceps"
    TRICEPS = "triceps"
    FOREARMS = "forearms"
    ABS = "abs"
    OBLIQUES = "obliques"
    LOWER_BACK = "lower back"
    GLUTES = "glutes"
    QUADRICEPS = "quadriceps"
    HAMSTRINGS = "hamstrings"
    ADDUCTORS = "adductors"
    ABDUCTORS = "abductors"
    HIP_FLEXORS = "hip flexors"
    CALVES = "calves"
    SHIN = "shin"
    NECK = "neck"


_MUSCLES_BY_GROUP: dict[MuscleGroup, str] = {
    MuscleGroup.CHEST: "pectoralis major, upper pectoralis major, lower pectoralis major, pectoralis minor, serratus anterior",
    MuscleGroup.LATS: "latissimus dorsi, teres major",
    MuscleGroup.UPPER_BACK: "rhomboids, middle trapezius, lower trapezius, thoracic erector spinae",
    MuscleGroup.TRAPS: "upper trapezius, levator scapulae",
    MuscleGroup.FRONT_SHOULDERS: "anterior deltoid",
    MuscleGroup.SIDE_SHOULDERS: "lateral deltoid",
    MuscleGroup.REAR_SHOULDERS: "posterior deltoid",
    MuscleGroup.ROTATOR_CUFF: "supraspinatus, infraspinatus, teres minor, subscapularis",
    MuscleGroup.BICEPS: "biceps brachii, brachialis, coracobrachialis",
    MuscleGroup.TRICEPS: "triceps brachii, anconeus",
    MuscleGroup.FOREARMS: "brachioradialis, wrist flexors, wrist extensors, finger flexors, finger extensors, pronators, "
    "supinator",
    MuscleGroup.ABS: "rectus abdominis, transversus abdominis",
    MuscleGroup.OBLIQUES: "obliques",
    MuscleGroup.LOWER_BACK: "erector spinae, multifidus, quadratus lumborum",
    MuscleGroup.GLUTES: "gluteus maximus",
    MuscleGroup.QUADRICEPS: "quadriceps femoris",
    MuscleGroup.HAMSTRINGS: "hamstrings",
    MuscleGroup.ADDUCTORS: "adductor magnus, adductor longus, adductor brevis, pectineus, gracilis",
    MuscleGroup.ABDUCTORS: "gluteus medius, gluteus minimus, tensor fasciae latae, hip external rotators",
    MuscleGroup.HIP_FLEXORS: "iliopsoas, rectus femoris, sartorius",
    MuscleGroup.CALVES: "gastrocnemius, soleus, fibularis muscles, toe flexors",
    MuscleGroup.SHIN: "tibialis anterior",
    MuscleGroup.NECK: "neck flexors, neck extensors",
}

GROUP_OF: dict[str, MuscleGroup] = {
    muscle.strip(): group for group, muscles in _MUSCLES_BY_GROUP.items() for muscle in muscles.split(",")
}


def group_of(muscle: str) -> MuscleGroup:
    """The everyday group of an anatomical name.

    Raises:
        KeyError: not a muscle of the table.
    """
    return GROUP_OF[muscle]


def groups_of(muscles: tuple[str, ...]) -> tuple[MuscleGroup, ...]:
    """Everyday groups of several muscles, each once, most important first."""
    return tuple(dict.fromkeys(GROUP_OF[muscle] for muscle in muscles))


def prime_groups(exercise: Exercise) -> tuple[MuscleGroup, ...]:
    """Groups that a set of this exercise trains directly: a whole set each."""
    return groups_of(exercise.prime)


def helping_groups(exercise: Exercise) -> tuple[MuscleGroup, ...]:
    """Groups that help and are not prime already: counted as a part of a set by those who count so."""
    prime = prime_groups(exercise)
    return tuple(group for group in groups_of(exercise.helping) if group not in prime)
