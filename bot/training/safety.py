"""When must a person look, and what is each part of the body called? Facts for care; nothing here treats or diagnoses."""

from __future__ import annotations

# Thomee 1997 and Silbernagel 2007 (pain-monitoring model), and a clinic's reading of it, disagree below this and agree on it.
# The model is a clinician's tool for tendon pain: here it only decides when a person has to look.
PAIN_CEILING = 5
WORST_PAIN = 10

# Word -> the part as the bot says it (common practice). Plurals and slips are folded before the look-up.
PART_OF_WORD: dict[str, str] = {
    **dict.fromkeys(("shoulder", "shoulders", "delt", "delts", "rotator", "cuff", "ac", "collarbone", "scapula"), "shoulder"),
    **dict.fromkeys(("elbow", "elbows"), "elbow"),
    **dict.fromkeys(("wrist", "wrists"), "wrist"),
    **dict.fromkeys(("neck", "necks"), "neck"),
    **dict.fromkeys(("hip", "hips"), "hip"),
    **dict.fromkeys(("knee", "knees", "kneecap", "patella", "meniscus", "acl", "mcl"), "knee"),
    **dict.fromkeys(("ankle", "ankles", "achilles"), "ankle"),
    **dict.fromkeys(("foot", "feet", "toe", "toes", "heel", "heels", "arch", "plantar"), "foot"),
    **dict.fromkeys(("hand", "hands", "finger", "fingers", "thumb", "thumbs", "palm"), "hand"),
    **dict.fromkeys(("groin", "adductor", "adductors"), "groin"),
    **dict.fromkeys(("hamstring", "hamstrings", "hammy", "hammies", "hams"), "hamstring"),
    **dict.fromkeys(("quad", "quads", "thigh", "thighs"), "thigh"),
    **dict.fromkeys(("calf", "calves"), "calf"),
    **dict.fromkeys(("shin", "shins"), "shin"),
    **dict.fromkeys(("bicep", "biceps", "tricep", "triceps", "arm", "arms"), "upper arm"),
    **dict.fromkeys(("forearm", "forearms"), "forearm"),
    **dict.fromkeys(("glute", "glutes", "butt", "bum"), "glute"),
    **dict.fromkeys(("rib", "ribs", "ribcage"), "ribs"),
    **dict.fromkeys(("chest", "sternum", "breastbone", "pec", "pecs"), "chest"),
    **dict.fromkeys(("head", "headache", "migraine"), "head"),
    **dict.fromkeys(("jaw",), "jaw"),
    **dict.fromkeys(("belly", "stomach", "abdomen", "abs", "tummy", "oblique", "obliques"), "belly"),
    **dict.fromkeys(("back", "spine", "lumbar", "lats", "lat", "traps", "trap", "tailbone", "si"), "back"),
    **dict.fromkeys(("leg", "legs"), "leg"),
    **dict.fromkeys(("eye", "eyes"), "eye"),
}
# The parts that are joints: "sore" said of one of them is taken as pain, said of a muscle as ordinary soreness (our choice).
JOINTS = frozenset(
    {"shoulder", "elbow", "wrist", "neck", "hip", "knee", "ankle", "lower back", "upper back", "back", "foot", "hand", "groin"}
)
# Part -> the catalogue's joint that a substitute has to spare.
JOINT_OF_PART = {
    "shoulder": "shoulder", "chest": "shoulder", "upper arm": "elbow", "elbow": "elbow", "forearm": "wrist", "wrist": "wrist",
    "hand": "wrist", "neck": "neck", "upper back": "shoulder", "back": "lower_back", "lower back": "lower_back", "hip": "hip",
    "groin": "hip", "glute": "hip", "hamstring": "knee", "thigh": "knee", "knee": "knee", "calf": "ankle", "shin": "ankle",
    "ankle": "ankle", "foot": "ankle", "leg": "knee",
}  # fmt: skip


def needs_a_person(severity: int | None) -> bool:
    """Must a person look before this goes on? severity 0 to 10 as the member says it; None if not said: not for that alone."""
    return severity is not None and severity > PAIN_CEILING
