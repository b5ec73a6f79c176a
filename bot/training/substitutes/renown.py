"""What does a coach think of first? Staples are marked up a little, special things down; neither is ever left out.

Both lists are common practice, and decide only between exercises that are nearly equally alike.
"""

from __future__ import annotations

from bot.training.exercises.entry import Exercise
from bot.training.exercises.folding import word_set

_STAPLE = 0.035
_SPECIAL = -0.08

STAPLES = word_set(
    """
    goblet_squat bodyweight_squat box_squat front_squat back_squat leg_press split_squat bulgarian_split_squat reverse_lunge
    goblet_reverse_lunge step_up romanian_deadlift dumbbell_romanian_deadlift kettlebell_romanian_deadlift dumbbell_deadlift deadlift
    kettlebell_deadlift glute_bridge dumbbell_glute_bridge hip_thrust one_leg_glute_bridge sliding_leg_curl lying_leg_curl band_leg_curl
    push_up incline_push_up knee_push_up decline_push_up weighted_push_up dumbbell_bench_press floor_press band_chest_press dip
    dumbbell_shoulder_press seated_dumbbell_press one_arm_overhead_press overhead_press pike_push_up band_overhead_press
    one_arm_dumbbell_row bent_over_dumbbell_row chest_supported_row inverted_row table_row band_row seated_cable_row backpack_row
    pull_up chin_up band_assisted_pull_up eccentric_pull_up lat_pulldown band_pulldown floor_pullover dumbbell_pullover face_pull
    band_pull_apart rear_delt_fly lateral_raise band_lateral_raise dumbbell_curl hammer_curl band_curl overhead_extension
    band_pushdown skull_crusher plank side_plank dead_bug pallof_press bird_dog hollow_hold ab_wheel_rollout slider_rollout
    hanging_knee_raise lying_leg_raise reverse_crunch crunch farmer_carry suitcase_carry farmer_hold standing_calf_raise
    bodyweight_calf_raise one_leg_calf_raise mountain_climber kettlebell_swing band_romanian_deadlift leg_extension wall_sit
    standing_hip_abduction side_lying_leg_raise lateral_band_walk bicycle_crunch russian_twist step_back_burpee
    """
)
SPECIAL = word_set(
    """
    seated_good_morning jefferson_curl cuban_rotation hindu_push_up wall_ball curl_to_press kettlebell_halo lu_raise windmill
    half_get_up turkish_get_up twenty_one_curl pulse_squat one_leg_wall_sit bottoms_up_press push_up_hold thruster lunge_to_press
    clean_and_press kettlebell_high_pull kettlebell_snatch overhead_shrug scapular_push_up svend_press sissy_squat renegade_row
    standing_band_kickback jm_press muscle_up l_sit bird_dog_row seated_leg_lift kettlebell_hip_flexion drag_curl zottman_curl
    squeeze_press decline_dumbbell_press windshield_wiper overhead_squat zercher_squat good_morning doorway_curl hand_squeeze
    towel_wring snatch_grip_romanian_deadlift heels_up_bodyweight_squat shrimp_squat dragon_flag shadow_boxing
    sled_drag sled_push power_clean kettlebell_clean assisted_pistol jump_lunge spiderman_push_up
    """
)


def renown(exercise: Exercise) -> float:
    """What to add to a score for how well known an exercise is."""
    return _STAPLE if exercise.id in STAPLES else _SPECIAL if exercise.id in SPECIAL else 0.0
