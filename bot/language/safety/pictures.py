"""Which things said together make an emergency, in whatever order and words? Pictures, beside the phrases of signs.py.

A phrase has to be foreseen; a picture only needs its parts: a place of the body, what is felt there, what comes with it. Each picture
names the things that must be said near each other; each thing is a list of words (one of them is enough).

    chest + heavy             "theres this heavy thing going on, sort of my chest"      -> sure
    arm + ache + sweating     "both arms ache, sat here dripping with cold sweat"       -> sure
    doom                      "something is really wrong with me"                       -> unsure: stop, and one question

Sure pictures get the advice to stop and call. Unsure ones get the same first step with a question, since everyday talk says it too.

Source of the pictures: published first-aid and patient guidance on heart attack, stroke (face, arms, speech, time), fainting,
breathing, severe allergy, sudden headache, nerves of the saddle area, bleeding and heat. How people say them: common practice.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise, product
from typing import NamedTuple

from bot.language.safety.signs import GROUPS

# Thing -> the ways of saying it; "_" stands for a space. Words are folded and mended before they are looked up (words.py).
THINGS: dict[str, str] = {
    "chest": "chest|sternum|breastbone|breast_bone|ribcage|rib_cage|left_breast|left_boob|left_tit|heart_area",
    "trunk": "upper_body|torso|shoulder_blades|shoulder_blade|shoulderblades|middle_of_my_back|across_my_shoulders|across_the_shoulders|both_shoulders",
    "reach": "arm|arms|jaw|teeth|neck|throat|shoulder|shoulders|upper_back|both_arms|left_hand|elbow",
    "pain": "exploded|exploding|pain|pains|painful|hurt|hurts|hurting|ache|aches|aching|achy|agony|stabbing|stab|stabs|sharp|cramp|cramping|burn|burns|burning|twinge|stitch|"
    "discomfort|throbbing|knifing|tearing|ripping|searing|shooting|gnawing|dull|sore_inside",
    "press": "leaden|tight|tightness|tighter|tightening|pressure|pressing|presses|crushing|crushed|crush|squeeze|squeezed|squeezing|heavy|heaviness|heavier|constricted|"
    "constricting|clamp|clamped|vice|vise|weight|burning|full|fullness|bursting|band|strap|belt|gripped|gripping|grip|lead|brick|stone|elephant|"
    "sitting_on|sat_on|kneeling|kneels|standing_on|fist|knot|lump|boulder|anvil|hugging_too|compressed|corset|cement|concrete|squashing|squashed|on_fire",
    "spread": "spread|spreading|spreads|radiating|radiates|travelling|traveling|travels|creeping|creeps|moving|moved|going|goes|shoots|shooting|runs|running|down|up_to|into",
    "sweat": "sweating|sweaty|sweat|sweats|clammy|drenched|dripping|pouring_off|soaked",
    "sick": "sick|nauseous|nauseated|nausea|queasy|vomit|vomiting|vomited|throw_up|throwing_up|threw_up|puke|pale|grey|gray|ashen|white_as|ghost|dizzy|faint|lightheaded|light_headed|woozy|breathless",
    "rest": "sat_still|sitting_still|sitting|sat|lying|laying|resting|at_rest|doing_nothing|not_doing|not_even|havent_even|havent_started|not_moving|sofa|couch|bed|watching|telly|tv|for_no_reason|"
    "no_reason|out_of_nowhere|not_hot|before_i_started|cold_room|minutes_later|minutes_ago|since_i_stopped|even_though_i_stopped|after_resting",
    "acid": "indigestion|heartburn|heart_burn|acid|reflux|trapped_wind|gassy",
    "dying": "about_to_die|going_to_die|gonna_die|think_im_dying|think_i_am_dying|might_be_dying|feel_like_im_dying|dying_here|am_i_dying|i_am_dying|might_die",
    "doom": "impending_doom|sense_of_doom|feeling_of_doom|"
    "something_is_really_wrong|something_is_very_wrong|something_really_wrong|something_very_wrong|something_badly_wrong|something_seriously_wrong|something_terribly_wrong|"
    "something_is_seriously_wrong|something_is_badly_wrong|somethings_really_wrong|somethings_very_wrong|somethings_seriously_wrong|somethings_badly_wrong|somethings_terribly_wrong|"
    "very_wrong_with_me|really_wrong_with_me|seriously_wrong_with_me|seriously_unwell|really_unwell|very_unwell|proper_unwell|really_really_ill|"
    "feel_like_death|terrible_feeling_that|need_a_doctor_now|need_to_go_to_hospital|need_hospital|need_a_hospital|going_to_hospital|going_to_the_hospital|should_i_call_an|"
    "should_i_go_to_the_hospital|should_i_go_to_hospital|should_i_go_to_er|should_i_go_to_the_er|should_i_go_to_a_and_e|is_this_serious_enough",
    "left_limb": "left_arm|left_hand|left_shoulder|arm|arms",
    "pressed_on": "neck|throat|windpipe|face",
    "purple": "purple|blue|grey|gone_limp|not_breathing|cant_breathe|gasping",
    "blood_up": "blood|bloody",
    "coughed": "cough|coughs|coughed|coughing|brought_up|bringing_up|came_up|spat|spitting|vomit|vomited|retching|hand|hanky|tissue|sink|mouth",
    "heart": "pulserate|heart|heartbeat|heart_beat|pulse|heart_rate|heartrate",
    "leaps": "escape|escaping|leap|leaps|leaping|hop|hopping|drum|drumming|drums|machine_gun|bird|butterfly|butterflies|fish|hummingbird|somersault|somersaults|cartwheel|cartwheels|backflip|backflips|"
    "bounce|bouncing|jackhammer|gallop|galloping|jump_out|jumping_out|burst_out|pound_out|beat_out|beating_out|coming_out|thump_out|misses|missing|skipping|skips|extra|pauses|pausing|"
    "fluttering|flutters|rattling|vibrating|buzzing|spasming|tremor|tap_dancing|jazz|irregular|out_of_rhythm|out_of_time|off_beat|offbeat|hundred_miles|mile_a_minute|million_miles|crazy_fast|going_mental",
    "fast": "fast|racing|pounding|hammering|thumping|banging|quick|rapid|high|through_the_roof|over_1[2-9]0|1[2-9][0-9]|2[0-2][0-9]|flat_out|sky_high",
    "breath": "breath|breathe|breathing|breaths|air|lungs|lung|airway|airways|windpipe|inhale|oxygen|pipes",
    "fails": "straw|half_full|half_empty|fill|filling|full_breath|deep_breath|enough|blocked|stuck|closing|narrowing|narrow|narrowed|shut|shutting|locked|seized|collapsed|collapsing|tight|tighten|tightening|"
    "tightened|squeezed|drowning|underwater|suffocating|panic|panicking|rattling|rattle|whistling|whistle|whistles|wheezing|crackling|gurgling|bubbling|shallow|gasping|gulping|working_hard|refuses|"
    "starved|hungry|not_coming|isnt_coming|wont_come|doesnt_come|not_getting|dont_get|cant_get|cant_seem|not_working|arent_working|stopped_working|giving_up|cut_off|failing|gone|concrete|treacle|cotton_wool|a_plug",
    "cant": "cant|unable|struggle|struggling|struggled|barely|hardly|impossible|difficult|hard_to|not_able|only|only_just|trouble|difficulty|no_longer|wont_let|doesnt_let",
    "utter": "sentence|sentences|word_at_a_time|words_at_a_time|two_words|few_words|three_words|full_sentence|get_the_words_out|speak|talk|talking|speaking|single_word|one_word",
    "floor": "floor|ground|ceiling|deck|mat|carpet|lawn|pavement|concrete|tiles|grass|looking_up|people_over|people_standing|faces_over|standing_over|under_the_bar|beside_the_bar|next_to_the_bar|in_a_heap|face_down",
    "next": "next_thing|next_moment|suddenly_i_was|then_i_was|came_round|came_around|coming_round|coming_to|came_to|woke|woken|wake|found_myself|ended_up|no_idea_how|dont_know_how|dunno_how|no_memory|not_sure_how|how_i_got",
    "gap": "lost|missing|gap|blank|blanked|hole|cant_account|cant_remember|dont_remember|no_memory|no_recollection|memory_of|wiped",
    "moments": "few_seconds|couple_seconds|couple_of_seconds|some_seconds|10_seconds|ten_seconds|5_seconds|20_seconds|30_seconds|few_secs|some_secs|10_secs|half_a_minute|minute_or|some_time|a_bit_of_time|time_there|last_minute|"
    "last_few_minutes|last_five_minutes|what_happened|what_just_happened|in_between|in_my_memory|memory|the_last_rep",
    "sack": "like_a_sack|like_a_ton|like_a_tree|like_a_log|like_a_stone|like_a_domino|like_a_puppet|like_a_rag|like_a_bag|in_a_heap|flat_on_my_face|out_cold|into_a_heap|sparko|lights_out",
    "went": "went_down|dropped|fell|fall|falls|hit_the|crumpled|toppled|slumped|folded|collapsed|keeled|go_down|tumbled|gone_down|sank|slid",
    "fading": "fading|fade|far_away|muffled|greying|graying|grey_edges|edges_went|closing_in|going_dark|gone_dark|went_dark|going_grey|went_grey|going_white|went_white|tunnel|tunnelling|tunneling|swooning|swoon|swimmy|about_to_go|"
    "losing_it|slipping_away|drifting_off|ears_ringing|hearing_went|sound_went|sounds_went|blackness|shutters|curtain|curtains_coming",
    "senses": "vision|sight|eyes|hearing|sound|sounds|voices|everything|world|ears|room|eyesight|head",
    "upright": "sit_down|sat_down|hold_on|held_on|grab|grabbed|lean|leaned|leant|wall|had_to_sit|had_to_lie|lie_down|lay_down|stand_up|stood_up|on_my_feet|knees_buckled|legs_buckled|legs_went|legs_gave",
    "head": "head|skull|brain|temple|temples|forehead|headache|headaches|head_ache|migraine|behind_my_eye|behind_my_eyes|behind_the_eye|behind_the_eyes|back_of_my_neck",
    "worst": "worst|never_had|never_felt|never_known|unlike_anything|like_nothing|unbelievable|blinding|excruciating|unbearable|agonising|agonizing|off_the_scale|10_out_of_10|10_/_10|11_/_10|like_lightning|thunder|thunderclap|"
    "crippling|screaming_pain|ever_had|ever_felt|in_my_life|of_my_life|splitting|insane_pain|brutal_pain|savage",
    "sudden": "sudden|suddenly|all_of_a_sudden|out_of_the_blue|out_of_nowhere|from_nowhere|in_a_flash|in_a_second|in_seconds|within_seconds|bang|instantly|instant|in_an_instant|all_at_once|from_one_second|just_like_that|"
    "snap_of_the_fingers|zero_to|0_to_100|boom|wham|struck|hit_me|shot|exploded|explosion|burst|popped|pop|like_a_switch|10_min|ten_min|ten_minutes_ago|minutes_ago|just_now|a_moment_ago|this_minute",
    "clubbed": "baseball_bat|cricket_bat|bat|hammer|axe|brick|sledgehammer|hatchet|shot|kicked_by|punched_in|hit_me|been_hit|struck|gunshot|cleaver|smashed_over|clubbed|whacked|ice_pick",
    "brain_signs": "thrown_up|been_sick|keep_forgetting|forgetting|forget_what|cant_stay_awake|bigger_than_the|looks_bigger|amnesia|vomit|vomiting|vomited|throwing_up|threw_up|puking|sick|stiff_neck|neck_is_stiff|neck_stiff|neck_is_rigid|cant_bend_my_neck|light_hurts|lights_hurt|blurry|blurred|double|vision|cant_see|"
    "confused|drowsy|sleepy|slurring|slurred|cant_think|cant_remember|numb|unsteady|wobbly|fuzzy|spaced|dazed|cant_focus|pupil|pupils|clear_fluid|fluid_from|ringing",
    "blow": "bumped_heads|knocked_heads|back_of_my_head|back_of_his_head|back_of_her_head|back_of_the_head|hit_my_head_hard|bar_on_my_head|kettlebell_to_the_head|hit_my_head|hit_his_head|hit_her_head|hit_head|banged_my_head|banged_head|bumped_my_head|cracked_my_head|smacked_my_head|whacked_my_head|knocked_my_head|bang_to_the_head|bump_to_the_head|knock_to_the_head|knock_on_the_head|"
    "bang_on_the_head|blow_to_the_head|landed_on_my_head|fell_on_my_head|on_my_head|head_on_the|headbutted|hit_on_the_head|clonked|clocked_my_head|split_my_head",
    "face": "face|mouth|smile|smiling|cheek|eyelid|lip|eye|lips|features",
    "droops": "runs_out|running_out|leaks_out|spills|corner|doesnt_work|isnt_working|one_sided|unequal|not_even|cant_feel|no_feeling|stuck|droop|droops|drooping|droopy|drooped|sag|sags|sagging|saggy|slip|slipped|slipping|slid|sliding|slack|wonky|lopsided|lop_sided|crooked|uneven|hanging|hangs|melted|melting|twisted|frozen|paralysed|paralyzed|"
    "numb|one_side|wont_move|not_moving|doesnt_move|isnt_moving|skewed|skew|half|dribbling|dribble|drooling|drool|asleep|lifeless|dropped|falling|pulled_down|wont_close|cant_close|like_the_dentist|dentist|novocaine",
    "speech": "speech|talking|talk|speak|speaking|voice|words|word|sentence|sentences|tongue|say|saying|sentances|vocab",
    "garbled": "wont_form|not_form|wont_do|make_no_sense|makes_no_sense|making_no_sense|look_foreign|different_language|foreign|gibber|isnt_working|wont_cooperate|not_come_out|wont_come_out|come_out_wrong|coming_out_wrong|coming_out|slur|slurs|slurred|slurring|slurry|jumbled|jumble|nonsense|gibberish|wont_come|not_coming|isnt_coming|arent_coming|dont_come|stuck|mixed_up|muddled|garbled|scrambled|mush|mushy|marbles|mumbling|mumble|mangled|tangled|"
    "weird|funny|strange|thick|backwards|wrong|not_making_sense|no_sense|drunk|broken|gone|lost|cant_find|cant_get|cant_form|cant_think_of|cant_string|sand|cotton|slow|difficult|salad|rubbish|lisp|tripping|stumbling|off|wont_work",
    "side": "left|right|one|half|side|left_side|right_side|one_side|left_half|right_half",
    "limbs": "arm|arms|leg|legs|hand|hands|foot|body|side|face|fingers|half|limb|limbs",
    "dead": "leaden|doesnt_belong|dont_belong|not_belong|not_part_of_me|doesnt_listen|not_listening|wont_do|isnt_doing|useless|lifeless|floppy|limp|paralysed|paralyzed|numb|belong|belongs|not_mine|isnt_mine|someone_elses|somebody_elses|no_strength|zero_strength|no_power|lost_strength|lost_power|wont_listen|wont_obey|doesnt_obey|not_obeying|ignoring|"
    "switched_off|turned_off|shut_down|shut_off|stopped_working|not_working|doesnt_work|wont_work|isnt_working|gone_weak|went_weak|suddenly_weak|all_weak|so_weak|feels_weak|cant_feel|cant_move|cant_lift|cant_raise|"
    "cant_control|wont_move|wont_lift|like_lead|made_of_lead|like_wood|made_of_wood|rubber|like_jelly_on|gone_to_sleep|asleep|missing|isnt_there|not_there|dangling|hanging|dragging|drags|drag|went_dead|gone_dead|feels_dead|wont_grip|clumsy|no_grip",
    "dropping": "dropping|drop|drops|dropped|cant_hold|cant_grip|letting_go",
    "objects": "things|everything|stuff|cup|mug|phone|keys|the_dumbbell|the_dumbbells|the_weight|bottle|glass|fork|pen|it",
    "eye": "eye|eyes|eyesight|vision|sight|see|seeing|saw|view|picture",
    "blinded": "curtain|shutter|veil|half|missing|gone|blind|black|grey|gray|double|blur|blurred|blurry|blurring|two_of|nothing|hole|holes|tunnel|zigzag|zigzags|zig_zags|dark|vanished|disappeared|lost|blotches|patches|patch|blank|doubled|"
    "went_out|only_the_left|only_the_right|one_side|kaleidoscope|static|snow|foggy|fog|smeared|swimming",
    "baffled": "didnt_recognise|dont_recognise|didnt_recognize|dont_recognize|dont_know_how_i_got|dont_know_my|forgot_my|forgotten_where|what_year|cant_work_out_where|brain_fog|in_a_fog|confused|confusion|muddled|disorientated|disoriented|delirious|hallucinating|seeing_things|hearing_things|not_making_sense|talking_rubbish|talking_nonsense|cant_think_straight|cant_think|cant_remember_where|dont_know_where|"
    "dont_know_what_day|no_idea_where|forgot_where|forget_where|out_of_it|not_with_it|cant_understand|rambling|staggering|stumbling|incoherent",
    "stagger": "cant_walk_straight|walking_like|veering|veer|lurching|staggering|stumbling|tipping_over|falling_to|falling_over|cant_balance|no_balance|balance_gone|balance_is_gone|lost_my_balance|cant_stand_straight|cant_stand_up_straight",
    "seat": "saddle|crotch|undercarriage|between_my_legs|between_the_legs|between_my_thighs|private_parts|privates|private_area|bum|bottom|buttocks|inner_thighs|inner_thigh|down_there|downstairs|when_i_wipe|wiping|wipe|where_i_sit|genitals|"
    "genital|vagina|penis|testicles|balls|bits|lady_parts|nether|perineum|anus|arsehole|butthole|backside|groin_area|seat_area|toilet_paper",
    "unfelt": "cannae_feel|canna_feel|cannot_feel|cant_really_feel|numb|numbness|no_feeling|cant_feel|dont_feel|no_sensation|lost_feeling|lost_sensation|dead|asleep|tingling|tingle|tingles|tingly|pins|feel_nothing|nothing_when|barely_feel|cant_tell|not_feel|feeling_gone|feels_weird|feels_strange|feels_funny|novocaine",
    "toilet": "loo|toilet|pee|wee|urine|bladder|bowel|bowels|poo|poop|water_works|waterworks|pass_water|passing_water|urinate|go_number|number_two|hold_it",
    "no_hold": "cant|havent_been|havent_peed|havent_been_able|not_been_able|unable|not_able|no_control|lost_control|losing_control|accident|accidents|without_knowing|without_noticing|didnt_feel|leak|leaking|leaked|dribbling|wont_come|nothing_comes|"
    "not_since|havent_weed|hold_my|wont_hold|not_working|stopped_working|no_urge|dont_feel_when|cant_tell_when",
    "accident": "accident_in_my_pants|accident_in_my_shorts|wet_my_pants|wet_my_shorts|wet_myself|peed_myself|peed_my|pooed_myself|pooped_myself|soiled_myself|shat_myself|shit_myself|messed_myself|pissed_myself|weed_myself|wet_patch",
    "back": "back|spine|lower_back|disc|deadlift|deadlifts|neck",
    "legs": "legs|both_legs|leg|feet|both_feet|toes|foot",
    "nerves": "tingle|tingling|tingles|tingly|numb|numbness|weak|weakness|giving_way|gave_way|wont_work|dead|cant_feel|pins|buckling|wont_hold|wont_move|cant_move|no_strength|paralysed|jelly_and|foot_drop|electric|dragging|floppy",
    "lips": "tounge|toung|tonge|tungue|lip|lips|tongue|face|eyelid|eyelids|throat|mouth|eye|eyes|cheeks|neck|ears",
    "swells": "swell|swells|swelling|swollen|swelled|puffy|puffed|puffing|balloon|ballooning|ballooned|ballooning_up|balloons|huge|massive|fat|enormous|double_the_size|twice_the_size|twice_its_size|bigger|blown_up|blowing_up|getting_big|thick|"
    "closing|tightening|itchy|itching|itches|itch|tingling|tingles|lump|blotchy|burning|scratchy|hoarse",
    "allergen": "stung|sting|bee|wasp|hornet|bitten|allergic|allergy|allergies|anaphylactic|nut|nuts|peanut|peanuts|cashew|almond|almonds|sesame|shellfish|prawn|prawns|shrimp|egg|fish|penicillin|antibiotic|preworkout|supplement|"
    "protein_bar|protein_shake|that_bar|the_bar_i_ate|shake|ate|eaten|eating|latex",
    "reaction": "hives|welts|rash|blotches|itchy|itching|itches|itch|swelling|swollen|swell|swelled|ballooning|ballooned|puffy|wheezy|wheezing|wheeze|throat|cant_swallow|hard_to_swallow|tongue|lips|tingling|faint|"
    "hoarse|vomiting|dizzy|cant_breathe|breathing|red_all_over|bumps_all_over|spots_all_over|flushed",
    "stung": "stung|sting|bee|wasp|hornet|allergic|allergy|anaphylactic|nuts|nut|peanut|peanuts|shellfish|prawn|prawns|penicillin",
    "hives": "hives|welts|rash|itchy_bumps|red_blotches|nettle_rash|bumps",
    "all_over": "all_over|everywhere|whole_body|head_to_toe|spreading|spread|spreads|covered",
    "blood": "blood|bleeding|bleed|bleeds|bled",
    "pours": "pour|pouring|pours|poured|squirt|squirting|squirts|spurt|spurting|spurts|gush|gushing|gushes|pump|pumping|pumps|spray|spraying|sprays|soaked|soaking|soaks|soaked_through|puddle|pool|pools|everywhere|wont_stop|not_stopping|isnt_stopping|"
    "doesnt_stop|cant_stop|keeps_coming|still_coming|through_the_towel|through_three|through_two|fast|loads|buckets|rivers|flooding|streaming|running_down|tons|heavily|heavy|bright_red|dripping_everywhere|all_over|artery|like_a_tap|like_a_fountain",
    "cut": "sliced_my|cut_my|cut_through|cut|gash|gashed|wound|sliced|slice|ripped|split|split_open|laceration|hole|tear|skin|sliced_open|cut_open",
    "deep": "bone|see_bone|see_white|white|tendon|tendons|fat|muscle_showing|gaping|wide_open|hanging_off|hanging_by|flap|to_the_bone|see_inside|yellow_stuff|spurting|artery",
    "digit": "finger|fingers|toe|toes|thumb|fingertip|hand|foot|ear",
    "severed": "severed|cut_off|chopped_off|came_off|come_off|ripped_off|torn_off|sliced_off|took_off|lopped|hanging_off|hanging_by|amputated|taken_clean_off|clean_off|is_off|missing_now",
    "hot": "roasting|boiling|overheated|overheating|overheat|burning_up|baking|sweltering|scorching|hot|heat|heatwave|sun|sunshine|degrees|conservatory|oven|sauna|furnace|too_hot|heated|melting",
    "heat_signs": "stopped_sweating|no_longer_sweating|not_sweating|dont_sweat|no_sweat_anymore|sweat_has_stopped|sweating_stopped|sweat_stopped|dry_skin|skin_is_dry|skin_dry|bone_dry|hallucinating|seeing_things|delirious|confused|confusion|staggering|slurring|"
    "talking_nonsense|not_making_sense|cant_think|dont_know_where|passing_out|passed_out|fainting|twitching|incoherent|gone_weird|out_of_it|41|40_degrees_fever",
    "person": "wife|husband|hubby|partner|boyfriend|girlfriend|mum|mom|mother|dad|father|son|daughter|kid|child|baby|toddler|brother|sister|friend|mate|buddy|guy|bloke|lad|man|woman|lady|girl|boy|neighbour|neighbor|grandad|granddad|grandma|gran|nan|"
    "granny|grandpa|uncle|aunt|cousin|flatmate|roommate|housemate|colleague|client|trainer|stranger|someone|somebody|person|he|she|hes|shes|him|her|member|spotter|training_partner|gym_partner|old_man|old_lady|teammate|they|athlete",
    "down": "some_sort_of_fit|kind_of_fit|having_a_fit|had_a_fit|has_a_fit|type_of_fit|wont_come_round|wont_come_to|cannot_get_him_to|cannot_get_her_to|cant_get_him_to|cant_get_her_to|not_all_there|isnt_all_there|crumpled|slumped|keeled|stopped_talking|not_with_us|eyes_are_open_but|stroke|heart_attack|chest_pain|chest_pains|pain_in_his_chest|pain_in_her_chest|coughing_up_blood|bleeding_from|unrousable|lying_motionless|motionless|blue_round|stopped_responding|collapsed|collapse|collapses|collapsing|unconscious|unresponsive|not_responding|isnt_responding|wont_respond|doesnt_respond|no_response|not_breathing|isnt_breathing|stopped_breathing|wont_wake|not_waking|cant_wake|doesnt_wake|blue|"
    "floppy|limp|lifeless|no_pulse|not_moving|isnt_moving|doesnt_move|out_cold|choking|fitting|convulsing|convulsion|seizure|seizing|jerking|foaming|foam|eyes_rolled|eyes_rolling|eyes_are_rolling|clutching_his_chest|clutching_her_chest|"
    "holding_his_chest|holding_her_chest|grabbing_his_chest|clutching_chest|gurgling|gasping|making_no_sense|talking_gibberish|talking_rubbish|face_drooping|face_has_dropped|slurring|passed_out|fainted|trapped_under|pinned|electrocuted|"
    "bleeding_badly|bleeding_heavily|impaled|drowning|overdosed|swallowed_a|wont_stop_shaking|cant_breathe|cant_talk|cant_speak|gone_grey|gone_gray|gone_white|turned_grey|staring_into|doesnt_recognise|doesnt_recognize|not_conscious|barely_conscious|dropped_dead",
    "seized": "jerking|jerked|twitching|convulsing|thrashing|foaming|foam|bit_my_tongue|bitten_my_tongue|bit_his_tongue|bit_her_tongue|eyes_rolled|stiff_as_a_board",
    "all_shakes": "uncontrollably|uncontrollable|whole_body|cant_stop|couldnt_stop|cant_control|couldnt_control|unconscious|floor|woke|dont_remember|mouth|and_then_confused|violently",
    "stuck_throat": "stuck_in_my_throat|lodged_in_my_throat|down_the_wrong_way|wrong_pipe|stuck_in_throat|caught_in_my_throat|stuck_in_his_throat|stuck_in_her_throat",
    "poison": "bleach|antifreeze|poison|detergent|drain_cleaner|rat_poison|whole_pack_of|whole_bottle_of|whole_packet|all_the_tablets|all_the_pills|all_my_tablets|too_many_tablets|too_many_pills|too_many_painkillers|carbon_monoxide|gas_leak",
    "took": "took|taken|swallowed|drank|drunk|ate|inhaled|breathed|smell|swallow|necked|alarm",
    "gut": "stomach|belly|abdomen|tummy|abdominal|testicle|testicles|ball|balls|flank|guts",
    "rigid": "rigid|hard_as|rock_hard|board|tearing|ripping|doubled_over|cant_stand_up_straight|screaming|worst|unbearable|excruciating|agony|blood|vomiting_blood|twisted",
    "tear": "tearing|ripping|ripped|torn|rips|tears|knife|knifed",
    "spine": "neck|spine|back",
    "joint": "{joint}|tailbone|coccyx|si_joint|si|lumbar|knee_cap|kneecap|kneecaps|knuckle|knuckles|heels|sole|arch|collarbone|collar_bone|shoulder_blade|tendon|tendons|ligament|sit_bone|shin|shins|hip_flexor|hip_flexors|"
    "achilles|ac_joint|sternoclavicular|instep|ball_of_my_foot|elbow_joint|thumbs|toe_joint|big_toe|lower_back|low_back|upper_back|mid_back|it_band|patella|joints|joint",
    "meat": "hamstring|hamstrings|hammy|hammies|quad|quads|thigh|calf|calves|glute|glutes|pec|pecs|bicep|biceps|tricep|triceps|lat|lats|trap|traps|forearm|forearms|groin|adductor|adductors|oblique|obliques|abs|delt|delts|muscle|"
    "upper_arm|hip_flexor|rhomboid|buttock|armpit|stomach_muscle|side",
    "jab": "spasm|spasms|spasmed|spasming|grabbed|grabs|grabbing|grab|zap|zaps|zapped|zapping|zing|zings|stab|stabs|stabbed|stabbing|jab|jabs|jabbing|jabbed|needle|needles|knife|pop|popped|popping|pops|snap|snapped|twang|twanged|ping|pinged|rip|ripped|"
    "ripping|tear|tearing|tore|torn|strain|strained|sprain|sprained|locked_up|locked|locking|seized|seized_up|stuck|jammed|jams|gave_way|gives_way|giving_way|gave_out|gives_out|buckled|buckles|limping|limp|hobbling|hobble|cant_bend|cant_straighten|"
    "cant_turn|cant_raise_it|cant_lift_it|cant_put_weight|hot_wire|hot_poker|electric|shooting|sharp|pinch|pinches|pinching|pinched|catches|catching|caught|clunk|clunks|clunking|clicks|clicking|crunch|crunches|crunching|grinds|grinding|grates|"
    "grating|niggle|niggles|niggling|niggly|tweak|tweaked|twinge|twinges|swollen|swelling|swelled|puffy|bruised|throb|throbs|throbbing|wrenched|twisted|rolled|jarred|overstretched|hurts|hurt|hurting|pain|pains|painful|ache|aches|aching|"
    "stings|sting|stinging|irritated|inflamed|injured|injury|flared|flaring|tender_to_touch|cramped|cramp|cramping|kicked_by|somebody_kicked|someone_kicked|bit_me|biting|bites|zinged|ouch|ow|oww|agony|excruciating",
    "moan": "complaining|complains|complained|moaning|moans|moaned|grumbling|grumbles|grumbled|grumpy|unhappy|not_happy|isnt_happy|not_having_it|isnt_having_it|protesting|protests|screaming|screams|shouting|barking|yelling|angry|cross_with_me|annoyed|hates|"
    "hating|talking_to_me|speaking_to_me|not_right|isnt_right|not_good|no_good|not_great|bad|worse|rubbish|dodgy|iffy|gammy|wonky|crook|knackered|buggered|wrecked|shot|stuffed|shagged|fucked|busted|bust|bung|goosed|banjaxed|killing_me|killing|giving_me_grief|"
    "giving_me_trouble|giving_me_jip|giving_me_gyp|giving_me_bother|playing_up|acting_up|acting|kicking_off|bothering|bothers|bugging|annoying|nagging|nags|sore|tender|stiff|burns|burning|burn|on_fire|fire|wrong|weird|funny|unstable|wobbly|loose|slipping|slips|"
    "slipped|slides_out|comes_out|popping_out|out_again|is_back|back_again|again|thing_is_back|raw|inflamed|flare_up|trouble|problem|problems|issue|issues|twitchy|sensitive|swells|creaking|creaks|creaky|cranky|aggravated|touch_and_go|cant_take",
    "torn": "pulls|pulling|tugs|tugging|went|goes|going|gone|yanked|yanks|bit|nipped|nips|gripping|grips|something_wrong|is_wrong|wrong_with",
    "odd_spot": "near|sit_bone|attachment|insertion|up_high|right_up|inside_of|outside_of|limping|hobbling|hobble|sprint|like_somebody|like_someone|kicked|rep|felt|bang|suddenly|behind|deep",
    "score": "[0-9] / 10|10 / 10|[0-9] out of 10|[0-9] of 10",
    "wrong_there": "something_wrong_with|something_is_wrong_with|somethings_wrong_with|something_wrong_in|something_up_with|something_is_off_with|something_off_with|somethings_off_with|dont_like_the_feeling_in|dont_trust",
    "revived": "slapped_me|slapping_my_face|shook_me_awake|shaken_awake|brought_me_round|brought_me_back|revived|splashed_water|throwing_water|licking_my_face|sniffing_my_face|calling_my_name|shouting_my_name|over_me_asking",
    "swept": "from_under_me|out_from_under|legs_vanished|legs_disappeared|legs_went|legs_gave|legs_just_went|ground_came_up|floor_came_up|floor_was|by_my_nose|face_first|was_out|out_for",
    "bluish": "blue|bluish|purple|purplish|ashen|grey|gray|blue_tinge",
    "edges": "lips|lip|fingertips|fingers|nails|nail_beds|face|mouth|skin",
    "sugar": "sugar|sugars|glucose|insulin|diabetic|hypo|blood_sugar|bg",
    "shaky": "shaking|shaky|sweating|confused|faint|blurry|weak|passing_out|dizzy|jittery|cant_think|trembling",
    "testes": "testicle|testicles|testis|nutsack|scrotum",
    "sore": "sore|hurts|hurt|pain|ache|aches|aching|burns|burning|on_fire|tight|fire|stings|soreness|pulls",
    "no_muscle": "not_a_muscle|not_muscle|not_muscular|not_the_muscle|in_a_bad_way|bad_way|not_the_workout|not_workout|not_the_good|not_in_a_good|not_good_sore|not_from_training|not_the_normal|not_normal|not_doms|not_like_doms|different_to_doms|not_the_usual|"
    "isnt_muscle|isnt_doms|isnt_the_good|isnt_the_usual|not_a_good|never_felt_before|never_had_before|not_the_pump|not_pump",
    "tightness": "tight|tightness|pressure|squeezing|crushing|heaviness|squeeze|vice|band_around|heavy_feeling|pressing",
    "left_arm": "left_hand|left_arm|left_shoulder|left_elbow|arm_tingles|hand_tingles|arm_tingling|arm_is_numb|arm_numb|arm_is_heavy|arm_aches|arm_ache|arm_hurts|arm_pain|jaw|teeth|both_arms",
    "letters": "letters|reading|read|text|sentence|writing|screen",
    "jaw": "jaw",
    "clench": "bite|biting|bit_down|braced|brace|mouthguard|clench|clenching|clenched|grind|grinding|dentist|tooth|chew|chewing|chewed|wisdom|tmj",
    "fall": "fell|fallen|fall|landed|dropped_on|came_down|crushed|folded|snapped|crack|cracked|crunch|crunched|broke|broken",
    "no_limb": "cant_move|cant_feel|no_feeling|numb|paralysed|paralyzed|wont_move|dont_move|arent_moving|no_movement|cant_wiggle|tingling|pins|cant_turn|electric",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Picture:
    """sign: as in signs.py. needs: things that must all be said. within: words from the first to the last. sure: else a question."""

    sign: str
    needs: tuple[str, ...]
    within: int = 9
    sure: bool = True
    unless: str = ""


class Seen(NamedTuple):
    """A picture found in a line: line[start:end] holds all its things."""

    picture: Picture
    start: int
    end: int


def _p(sign: str, needs: str, within: int = 9, *, sure: bool = True, unless: str = "") -> Picture:
    return Picture(sign, tuple(needs.split(" ")), within, sure, unless)


def _pain(needs: str, within: int, *, unless: str = "") -> Picture:
    return Picture("pain", tuple(needs.split(" ")), within, True, unless)


# What makes a picture plain: work for the muscle there, an object, a figure of speech.
_WORKED_CHEST = r" (?:fly|flys|flies|flyes|presses|pushups|push ups|press ups|dips|doms|pump|pumped|sore|day|workout|bench|bands|dumbbell|bar|height|to (?:the )?floor|touch|touching)(?= |$)"
_WORKED = r" (?:doms|pump|pumped|sore|weaker|stronger|than)(?= |$)"

PICTURES: tuple[Picture, ...] = (
    _p("chest", "chest press", 10, unless=_WORKED_CHEST),
    _p("chest", "chest pain", 10, unless=_WORKED_CHEST),
    _p("chest", "chest spread reach", 12, unless=_WORKED_CHEST),
    _p("chest", "chest sweat sick", 16),
    _p("chest", "trunk press sweat", 16),
    _p("chest", "trunk press sick", 16),
    _p("chest", "trunk pain sweat", 16),
    _p("chest", "trunk pain sick", 16),
    _p("chest", "reach pain sweat", 14, unless=_WORKED),
    _p("chest", "left_limb dead sick", 16, unless=_WORKED),
    _p("chest", "left_limb dead sweat", 16, unless=_WORKED),
    _p("breath", "pressed_on purple", 12),
    _p("blood", "blood_up coughed", 8),
    _p("chest", "reach press sweat", 14, unless=_WORKED),
    _p("chest", "reach pain sick", 12, sure=False, unless=_WORKED),
    _p("chest", "acid reach", 12),
    _p("chest", "acid sweat", 12),
    _p("chest", "acid press", 12, sure=False),
    _p("chest", "sweat rest sick", 16),
    _p("chest", "spine tear", 7, sure=False, unless=r" (?:band|shirt|strap)(?= |$)"),
    _p("sweat", "sweat rest", 8, sure=False),
    _p("unwell", "doom", 10, sure=False),
    _p(
        "unwell", "dying", 8, sure=False,
        unless=r" (?:if|when|lol|these|those|that|this|squats|burpees|lunges|program|programme|block|set|sets|reps|workout|session|tomorrow|of (?:boredom|laughter|hunger|shame))(?= |$)",
    ),
    _p("chest", "tightness left_arm", 13, unless=r" (?:grip|strap|handle|wrap|band|sleeve|pump|doms|curls|row|rows)(?= |$)"),
    _p("chest", "chest sore no_muscle", 14),
    _p("chest", "chest leaps", 9, unless=r" (?:bar|barbell|off my chest|off the chest|bounce|bounces|bouncing|rep|reps)(?= |$)"),
    _p("heart", "heart leaps", 10),
    _p("heart", "heart fast rest", 14),
    _p("breath", "breath fails", 8),
    _p("breath", "cant utter breath", 14),
    _p("breath", "cant utter", 7, sure=False, unless=r" (?:trainer|coach to|german|english|boss|work|later|tomorrow|today|on the phone)(?= |$)"),
    _p("breath", "stuck_throat", 8),
    _p("faint", "next floor", 11),
    _p("faint", "gap moments", 8, sure=False, unless=r" (?:timer|rest|queue|looking for|setting|app|video)(?= |$)"),
    _p("faint", "gap moments floor", 16),
    _p("faint", "went sack", 9),
    _p("faint", "swept next", 12),
    _p("faint", "swept revived", 16),
    _p("faint", "next revived", 16),
    _p("faint", "revived", 8, sure=False),
    _p("faint", "senses fading", 9),
    _p("faint", "fading upright", 12),
    _p("head", "head clubbed", 10),
    _p("head", "head worst", 9),
    _p("head", "head pain sudden", 11),
    _p("head", "head pain brain_signs", 12),
    _p("head", "blow brain_signs", 22),
    _p("stroke", "face droops", 7, unless=r" (?:dumbbell|pull|pulls|plank|mask)(?= |$)"),
    _p("stroke", "speech garbled", 7, unless=r" (?:language|german|english|spanish|password|spell|spelling|autocorrect|about|app|bot|exercise|tempo|block|plan|email)(?= |$)"),
    _p("stroke", "side limbs dead", 10, unless=_WORKED),
    _p("stroke", "dropping objects dead", 11),
    _p("stroke", "limbs dead sudden", 10, unless=_WORKED),
    _p("stroke", "eye blinded", 8, unless=r" (?:video|videos|plan|plans|app|screen|picture|photo|link|demo|form|mirror|phone|message)(?= |$)"),
    _p("stroke", "baffled sudden", 10, unless=r" (?:about|tempo|plan|block|exercise|which)(?= |$)"),
    _p("stroke", "stagger sudden", 11),
    _p("stroke", "stagger brain_signs", 11),
    _p("stroke", "baffled sick", 10, unless=r" (?:about|tempo|plan|block|which)(?= |$)"),
    _p("saddle", "seat unfelt", 8),
    _p("saddle", "toilet no_hold", 9, unless=r" (?:taken|occupied|queue|broken|kid|kids|between sets|session|workout|train|straighten|bend|dark|brown)(?= |$)"),
    _p("saddle", "toilet unfelt", 10),
    _p("saddle", "accident", 8),
    _p("saddle", "back legs nerves", 13, unless=_WORKED),
    _p("injury", "spine fall no_limb", 16),
    _p("allergy", "lips swells", 7),
    _p("allergy", "stung reaction", 14),
    _p("allergy", "allergen lips swells", 16),
    _p("allergy", "allergen hives", 14),
    _p("allergy", "hives all_over", 7, sure=False),
    _p("allergy", "hives lips", 12),
    _p("injury", "blood pours", 9),
    _p("injury", "cut deep", 9, unless=r" (?:shirt|skin is|band|gloves|calories|cutting)(?= |$)"),
    _p("injury", "digit severed", 8),
    _p("injury", "took poison", 12),
    _p("injury", "gut pain rigid", 11),
    _p("injury", "testes pain", 10),
    _p("injury", "testes swells", 10),
    _p("sugar", "sugar shaky", 11),
    _p("breath", "edges bluish", 7, unless=r" (?:band|bands|polish|paint|bruise|bruised|dumbbell|lipstick|nail varnish|beard|mask|cold water)(?= |$)"),
    _p("stroke", "letters garbled sudden", 16),
    _p("heat", "hot heat_signs", 18),
    _p("other", "person down", 11),
    _pain("joint jab", 6),
    _pain("joint moan", 6, unless=r" (?:day|days|session|workout|tomorrow|exercise|work|later|good|great|fine|better|row|rows|raise|raises|press|presses|off|squat|squats|stretch|mobility|rest|time|happy|band|sleeve|sleeves|wraps|pain free)(?= |$)"),
    _pain("meat jab", 6, unless=r" (?:pump|doms|good ache|in a good way|machine|ache from|sore|lol)(?= |$)"),
    _pain("meat torn odd_spot", 8, unless=r" (?:pull|pull ups|pump|doms|machine|dead|jelly|lol)(?= |$)"),
    _pain("joint sore no_muscle", 11),
    _pain("meat sore no_muscle", 11),
    _pain("score joint", 7),
    _pain("score meat", 7),
    _pain("wrong_there joint", 5),
    _pain("wrong_there meat", 5),
    _p("seizure", "seized all_shakes", 12),
)  # fmt: skip


def pictures_in(line: str) -> Iterator[Seen]:
    """Every picture that a line holds, in the table's order, each once. line: folded words, a space before each."""
    places = _places(line)
    for picture in PICTURES:
        if not all(need in places for need in picture.needs):
            continue
        if picture.unless and re.search(picture.unless, line):
            continue
        found = _nearest(line, [places[need] for need in picture.needs], picture.within)
        if found:
            yield Seen(picture, *found)


def words() -> frozenset[str]:
    """Every word of the things: what a misspelt word may be mended to."""
    return frozenset(re.findall(r"[a-z]{3,}", " ".join(THINGS.values()).replace("_", " ")))


def _said(said: str) -> str:
    """A thing's words as alternatives of a pattern, the longest first, so that "not breathing" is taken before "breathing"."""
    opened = said.replace("{joint}", GROUPS["joint"]).replace("_", " ").split("|")
    return "|".join(sorted(dict.fromkeys(opened), key=len, reverse=True))


_DENIAL = re.compile(
    r" (?:no|not|without|zero|never|nor|any|isnt|wasnt|arent|dont|didnt|doesnt)(?: (?:any|more|a|my|the|real|really|longer|have|feel|get|in|of))* $"
)


def _places(line: str) -> dict[str, list[tuple[int, int]]]:
    """Thing -> where it is said, and not denied."""
    found: dict[str, list[tuple[int, int]]] = {}
    for name, pattern in _patterns().items():
        spans = [match.span() for match in pattern.finditer(line)]
        spans = [span for span in spans if not _DENIAL.search(line[: span[0]] + " ")]
        if spans:
            found[name] = spans
    return found


def _nearest(line: str, choices: list[list[tuple[int, int]]], within: int) -> tuple[int, int] | None:
    """The tightest stretch that holds one place of each thing, no two sharing a word; None when it is longer than `within` words."""
    best: tuple[int, int] | None = None
    for spans in product(*(places[:4] for places in choices)):
        ordered = sorted(spans)
        if any(left[1] > right[0] for left, right in pairwise(ordered)):
            continue
        start, end = ordered[0][0], ordered[-1][1]
        if line[start:end].count(" ") <= within and (best is None or end - start < best[1] - best[0]):
            best = (start, end)
    return best


@lru_cache(maxsize=1)
def _patterns() -> dict[str, re.Pattern[str]]:
    return {name: re.compile(rf" (?:{_said(said)})(?= |$)") for name, said in THINGS.items()}
