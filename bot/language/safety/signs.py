"""Which words are signs of what? A table that can be read and corrected: one sign a block, one way of saying it a line.

A line is words that follow each other. `a|b` is one of several, `{name}` one of a group below, `?x` may be missing, `~3` lets up to
three other words stand between (never a "not", a "but" or another part of the body).

Source of the signs: published guidance (general patient guidance on heart, stroke, fainting, headache, nerves of the
saddle area, muscle breakdown, heat; ACOG's stop signs in pregnancy). How people say them: common practice.
"""

from __future__ import annotations

import re
from enum import StrEnum
from functools import lru_cache

from bot.training.safety import PART_OF_WORD


class Level(StrEnum):
    """What a text asks for, the gravest first."""

    EMERGENCY = "emergency"  # stop, call the local emergency number
    SAME_DAY = "same_day"  # stop, a doctor today
    PAIN = "pain"  # stop the slot, ask where and how bad
    CAUTION = "caution"  # licensed practice and the coach; see the topic
    SORENESS = "soreness"  # ordinary sore muscles: noted
    NONE = "none"


_PARTS = "|".join(sorted(PART_OF_WORD, key=len, reverse=True))
GROUPS: dict[str, str] = {
    "chest": "chest|sternum|breastbone|breast bone|solar plexus",
    "pain": "pain|painful|hurt|hurts|hurting|ache|aches|aching|achy|agony|stabbing|stabs|sharp|discomfort|cramp|cramps|cramping|spasm|spasms|twinge|twinges",
    "press": "tight|tightness|tightening|tighten|tightens|pressure|pressing|crushing|crushed|squeezed|squeezing|heavy|heaviness|constricted|constricting|constriction|gripping|clamped|clamp|vice|vise|tied|weight|burning|stiff|exploding|caving|imploding|crush|squashed",
    "odd": "weird|funny|strange|off|odd|wrong|bad|awful|terrible|uncomfortable|not right|not normal|not good|not ok|messed up|fluttery|fluttering",
    "is": "is|feels|feel|feeling|felt|are|got|getting|gets|went|goes|going|feelin|was|has|have|been|s|keeps",
    "my": "my|the|me|one|his|her|whole|entire|both|a|our|your|their",
    "cant": "cant|can not|could not|not able to|cannot|wont let me|am not able to|struggling to|struggle to|struggled to|hard to|difficult to|barely|hardly|can barely|can hardly|cant really|cant even|fighting to|trying to|impossible to|dont manage to|unable to|difficulty to|not getting to",
    "limb": "arm|arms|leg|legs|hand|hands|foot|feet|fingers|finger|face|side|cheek|lip|lips|tongue|toes|half|body|thigh|thighs|calf|calves|forearm|forearms|limbs|limb",
    "one": "one|left|right|half|whole|entire|1|this|that|my|the|my left|my right|both|both my|other",
    "numb": "numb|numbness|paralysed|paralyzed|no feeling|drooping|droopy|drooped|droop",
    "tingle": "tingle|tingles|tingling|tingly|pins and needles|prickly|prickling|fizzing|fizzy|numb|numbness|asleep|gone to sleep",
    "heart": "heart|heartbeat|heartrate|heart rate|pulse|hr",
    "wild": "racing|race|races|pounding|pound|fluttering|flutter|flutters|fluttery|skipping|skips|skipped|skip|irregular|irregularly|jumping|jumpy|wild|mad|crazy|nuts|mental|bonkers|bananas|haywire|berserk|thumping|hammering|banging|thudding|galloping|erratic|uneven|random|randomly|stuttering|stopping|stopped|stops|dropping|missing|missed|all over|flipping|flip|flopping|sprinting|bursting|exploding|out of|insane|insanely|through the roof",
    "sudden": "sudden|suddenly|out of nowhere|instantly|in a second|in seconds|just now|all of a sudden|straight away|at once|like a bang|like a bolt|from nowhere|like lightning|hit me",
    "bad": "worst|severe|massive|huge|terrible|horrible|awful|blinding|splitting|excruciating|unbearable|crazy|insane|monster|killer|thunderclap|thunder|exploding|explosive|extreme|violent|intense|brutal|worse than ever|agonising|agonizing|mega",
    "breath": "breath|breathe|breathing|breathin|air|oxygen|inhale",
    "vision": "vision|sight|eyes|eyesight",
    "part": _PARTS,
    "joint": "shoulder|shoulders|elbow|elbows|wrist|wrists|neck|hip|hips|knee|knees|ankle|ankles|back|spine|groin|achilles|rotator|collarbone|foot|feet|thumb|finger|fingers|hand|ribs|rib|kneecap|heel|toe|toes|jaw|lower back",
}

EMERGENCY: dict[str, tuple[str, ...]] = {
    "chest": (
        "presses|pushes|squeezes|burns|stabs|crushes|pulls|pushing|stings ?hard ?down in|on|at|behind|inside ?my|the {chest}",
        "{chest} ~6 clamp|clamped|vise|vice|belt|strap|band|knife|needles|fire|stuck|blocked|numb|tingling|no_good|not_good|full|bubbling|rumbling|electric|zapping|zap",
        "chets|chesst|cheast|chezt|chext|cehst ~3 pain|tight|hurts|hurting|pressure|heavy",
        "{chest} ~3 burst|bursting|explode|big|dolor|ripped|tearing|aargh|bad|worse",
        "ches tpain|tpains",
        "squeezing|squeeze|tight|tightness|crushing|crush|pressure|band|vice|vise ~3 ribs|ribcage",
        "ribs|ribcage ~3 squeezed|squeezing|crushing|crushed|tight|closing",
        "dolor|schmerz|mal ~3 {chest}",
        "{chest} ~3 someone|somebody|elephant|something|somethings|man|person|brick|bricks|truck|car|horse|ton|stone|slab|boulder|block|cow|bear|anvil|concrete ~4 on|in|against|sat|sitting|standing|parked|stuck",
        "someone|somebody|elephant|man|person|brick|bricks|truck|car|horse|ton|slab|boulder|cow|anvil|fist|weight ~6 {chest}",
        "{chest} help|emergency|pls|please|ambulance",
        "help|emergency|ambulance ?me ?, ?my {chest}",
        "{chest} ~2 dying|stopped|seizing|seized|locked|locking|shooting|knotted|clenching|clenched|hurty|pulling|ripping|tearing|closing",
        "heart|hart ~1 attack",
        "{chest} ~2 not ~1 right|good|normal|ok|okay|happy|great",
        "left arm ?is|feels|has|gone|going|went|all ~2 {odd}|{numb}|tingly|tingling|heavy|dead|weak|lead",
        "{chest} ~4 {pain}",
        "{chest} ~3 {press}",
        "{chest} ?is|feels|feel|feeling|felt|has|gone|got ?really|so|very|super|kinda|a|all|quite|just|bit {odd}",
        "{chest} and|or|n|/ ?my|the|left {part} ~2 {pain}|{press}|numb|tingling",
        "{pain}|{press} ~4 {chest}",
        "something|stuff|thing ~4 {chest}",
        "{odd} ~2 feeling|sensation|thing ~3 {chest}",
        "feeling|sensation|twinge|knot|lump|band|thump|elephant|fist|flutter|fluttering|rock|brick|stone|hand|ton ~4 {chest}",
        "{chest} ~2 bothering|killing|issue|issues|trouble|fluttering|flutters|thumping|pounding|thudding|racing",
        "pain|pains|pressure|pressing|tightness|heaviness ~3 middle|centre|center of my|the",
        "pain|hurts|hurting|pressure|ache|aching ~3 between ?my|the shoulder|the shoulderblades|shoulders|shoulder|shoulderblades",
        "heart ~2 hurts|hurting|hurt|pain|ache|aches|aching",
        "pain|pressure|stabbing ~3 heart",
        "heart|cardiac attack|arrest",
        "angina",
        "pain|ache|numb|numbness|tingling|hurts|hurting|weird|feeling|pressure|tightness|spreading|shooting|radiating|running|going|goes|heavy|heaviness|tingly ~3 left arm",
        "left arm ~3 pain|hurts|hurting|ache|aches|aching|heavy|numb|tingling|tingly|weird|weak|dead|funny|limp|tight",
        "pain|ache|hurts|hurting|tightness|pressure|numb|numbness|tingling|pins ~4 down|into|to|up|through|along ~2 arm|jaw|neck|leg",
        "spreading|radiating|radiates|spreads|shooting|travelling|traveling|moving ~4 arm|arms|jaw|neck|shoulder|back",
        "jaw ~3 pain|hurts|hurting|aches|aching|ache|tight|pressure|numb|clenching",
        "pain|ache|tightness|pressure|hurts ~2 jaw",
    ),
    "faint": (
        "lost ?the|my lights|light|senses|minute|seconds|time ?for ?a ~2 sec|second|seconds|moment|there|bit",
        "i|im|was|were ?just ?was gone for ?a|like|about ?few|couple|some ~1 sec|secs|second|seconds|moment|minute|minutes",
        "found|finds|find|seen ?me|him|her ?lying ?flat on ?the floor|ground|mat|out|unconscious|face",
        "fell|falls|fallen|fall|dropped|collapsed|lies|lying|down ~3 dont|not|doesnt|didnt|wont|isnt|no ~1 answer|answers|answering|talk|speak|respond|react|reacting|get|move",
        "lights ~1 went|gone ~1 out|off|dark",
        "switched|shut|blinked|drifted ~1 off|out|down ~3 sec|second|seconds|moment|minute",
        "consciousness|conscious|conciousness|consciense ~3 lost|gone|out|losing",
        "lost|losing|loosing|loose ?my conscience|consciense|consious|conscienceness",
        "went|gone|going|go|was ~1 out like a light",
        "dizzy|lightheaded|woozy|giddy|vertigo ~2 cant|unable|wont|fall|falling|fell|collapse",
        "really|very|so|super|extremely|properly|incredibly dizzy|lightheaded|woozy ~3 cant|stand|walk|fall|keep",
        "went|gone|dropped|drops|fell|falls|collapsed|down|lying|laying|lies|just|dropped , not|isnt|wont move|moving|respond|responding|answering|talking",
        "guy|he|she|hes|shes|man|woman|wife|husband|partner|mate|friend|buddy|dad|mum|mom|girl|somebody|someone ~4 not|isnt|wont|doesnt ~1 move|moving|wake|waking|breathing|breathe|respond|responding|talk|talking|answering",
        "woke|wake|came|come|next ~8 dont|cant|didnt|not|no ~1 remember|recall|memory|clue",
        "funny|weird|dizzy|strange|bad turn|turns|spell|spells",
        "had|having|took|taken|has ?a|another|one|bit ?of ?a|funny|little ?funny turn",
        "not|isnt|wont|cant|doesnt|didnt|aint|wouldnt ~1 wake|waking|woken|rouse|respond|responding|responsive|answering|come_round|coming_round|coming_to",
        "no|not|barely|hardly responsive|response|responding|pulse",
        "unresponsive|unrousable|lifeless",
        "cpr|defib|defibrillator|aed",
        "came|come|coming round|around on|in|to|with|and|lying",
        "went|gone|going|was|am|out cold",
        "going|went|goes|gone under|limp|floppy ?and",
        "nearly|almost|about_to|gonna|going_to ~1 faint|pass|collapse|keel|black|go_down|drop",
        "on the floor ~4 cant|wont|not ~2 up|move|moving|wake|talk|talking|speaking",
        "slumped|crumpled|went_down|dropped ~3 floor|ground|over|like a|mat",
        "legs ~2 gave ?way|out and|then ~4 floor|ground|out|dark|black",
        "{cant} ~2 stay|keep awake|conscious|eyes",
        "flacked|blaked|conked|zonked|sparked out ~3 floor|set|rep|squat|deadlift|bench|gym|second|sec",
        "fainted|faints|fainting|fainty",
        "faint ?now|again|and|,|after|when|during|like",
        "feel|feeling|felt|feels|about|going|gonna|almost|nearly|may|might|will|gunna|i|bit|little|did|just faint|fainting|pass",
        "passed|past|pass|passing|passes|pased|passd|passt out",
        "blacked|blacking|black|blacks|blaked|blanked|greyed|grayed out",
        "went|goes|going|gone|turned ~2 black|dark|grey|white|blurry ?and|for|then|,|in|when|on|after",
        "everything|vision|eyes|world|room|sight ~2 black|dark|grey|white|spinning|blurry|fuzzy|tunnel|narrow|narrowing|dim|fading|faded",
        "lost|losing|loss|lose|loosing ?of|my|all consciousness|conscious|conciousness",
        "unconscious|unresponsive|uncontious|unconcious",
        "knocked ~2 out|unconscious|cold",
        "collapsed|collapsing|collapse|collapses",
        "keeled|keeling over",
        "woke|wake|woken|came|come|waking ~3 floor|ground|mat|carpet",
        "came|coming|come to ?on|and|lying|with",
        "was|were|went|been out ?cold for ?a|like|about ~2 sec|secs|second|seconds|moment|minute|min",
        "cant|dont|didnt|not ~2 remember|recall ~2 falling|fell|last|happened|minute|minutes|few|getting",
        "hit the floor|deck|ground",
        "see|seeing|saw|seen ?some|little|black|white|bright stars|spots|dots|tunnel",
        "dizzy|dizziness|lightheaded|woozy|giddy|vertigo",
        "light headed",
        "head ~2 spinning|spins|swimming|spinnin|swims",
        "room|everything|world|walls ~2 spinning|spins|moving|swaying",
    ),
    "breath": (
        "breath ~2 gone|stopped|stuck|not|wont|lost|blocked|locked|doesnt|isnt",
        "it|air|breath does|do|wont|will not come|go ?in|out|back",
        "lungs ~2 {cant}|cant|wont|not|dont|empty|full|work|fill|filling|burning|hurt",
        "suffocate|suffocating|suffocation|drowning ~1 air|inside|feeling|here|on",
        "not|dont|cant|no|isnt|never ~1 get|getting|have|having|take|taking ~2 air|oxygen",
        "turned|turning|going|went|gone|is|hes|shes|looks|lips|face ~1 blue",
        "throat|tongue ~3 {odd}|fat|big|thick|swells|puffy|lump",
        "swollen|swelling|puffy|fat|thick|big|swole ?up tongue|lips|lip|throat|mouth|face",
        "epi pen|pens|shot",
        "epipen|epipens|epinephrine",
        "inhaler ~4 not|isnt|wont|doesnt|empty|no|help|left|worse|cant",
        "no|without|forgot|lost|need|wheres|where ?is ?my inhaler",
        "stopped|stop|stops|not|isnt|barely|hardly|no|without ~1 breath|breathe|breathing",
        "{cant}|cant|cannot|hard ~3 get|getting|suck|draw|pull ?enough|any|the|a|no|my air|oxygen|breath",
        "air ~2 wont|not|isnt|doesnt|cant ~2 in|coming|come|going|go|enough|lungs",
        "need|want|help ~2 air|oxygen|breath|breathing|inhaler",
        "throat ~2 close|closing|closed|swell|swelling|tight|tightening|closes",
        "wheeze|wheezes",
        "breathing ~2 bad|worse|hard|not|gone|stopped|trouble|shallow|wrong|rattly|noisy|fast",
        "{cant} ~3 {breath}",
        "{cant} ~2 get|catch|take|draw|pull|suck|find|recover ~4 {breath}",
        "trouble|difficulty|difficulties|problem|problems|hard|struggling|struggle|laboured|labored|issues|unable|tough|troubles|fight ?with|in|to|getting|catching|for ~1 {breath}",
        "{breath} ?is|feels|getting|gets|becoming|so|very ?really|so|very|pretty|too difficult|laboured|labored|shallow|weird|funny|painful|wheezy|harder|worse|restricted|hurts|bad|tight",
        "{breath} is|feels|getting|gets|becoming|seems ?really|so|very|pretty|too hard|heavy|rough",
        "short|shortness|run|running|gasping|fighting|desperate|shorter of|for|on|in ~1 {breath}",
        "out of breath ~4 nothing|reason|walking|sitting|sat|lying|resting|rest|still|talking|standing|stairs|bed|10|15|20|30|ten|twenty|minutes|min|wont|doing|even",
        "still|wont|wont|always|so|constantly|suddenly|totally ~2 out of breath",
        "breath ~3 wont|not|doesnt|isnt|not coming ~1 come|coming|back|settle|return|recover",
        "breathless",
        "gasping|suffocating|suffocate|suffocated|choking|asphyxiating|wheezing|wheezy|hyperventilating",
        "no|not_enough|any|enough air|oxygen",
        "lungs ~3 closing|closed|wont|not|shut|collapsed|tight|hurt|burn|filling|locked",
        "throat|airway|windpipe ~3 closing|closed|swelling|swollen|tight|tightening|shut|swells|closes|close|itchy|blocked",
        "tongue|lips|face|lip ~3 swelling|swollen|swells|puffing|puffed|blue|swelled",
        "lips|fingers ~2 blue|purple",
        "anaphylaxis|anaphylactic|allergic reaction|epipen",
        "asthma attack",
        "having|had|getting asthma",
    ),
    "heart": (
        "{heart} ~2 tripping|stumbling|stumbles|trips|hiccup|hiccups|hiccuping|limping|lurching|lurches|stutters|stutter",
        "palpitashuns|palpatations|palpitashun|palpations|palpitaions|palpitate|palpitating",
        "{odd} ~1 with|in|about|inside ?my|the {heart}",
        "{heart} ?rate|is|at|still|was ~1 1[3-9][0-9]|2[0-9][0-9] ~4 lying|laying|sitting|sat|rest|resting|bed|sofa|couch|still",
        "{heart} ~2 boom|bang|bump|clunk|clunking|stop|stopping|pausing",
        "{heart} ~3 jump|jumping|skip|skipping|flutter|pause|pausing|paused|bump|thud|dance|dancing|misfiring|glitching|buzzing|quivering|trembling|all_over|crazy",
        "{heart} ~2 not ~1 right|normal|ok|okay|good|regular|happy|steady|even|rhythm",
        "{heart} ~4 {wild}",
        "{heart} ~2 {odd}",
        "{heart} ~5 wont|not|isnt|doesnt|cant|refuses|never ~1 settle|settling|slow|slowing|calm|stop|drop|dropping|come|coming|down|go|going|recover|normal|right",
        "{heart} ~3 beating ~4 fast|quick|weird|weirdly|funny|strange|hard|strong|irregular|out|like|too|so|super|odd|oddly|fucked",
        "{heart} ~3 too|so|super|way fast|quick|high",
        "{heart} ~3 gone|going|goes|went|doing|does|did ~4 mad|crazy|wild|nuts|weird|funny|flip|flips|flop|somersault|somersaults|beats|things|thing|skip",
        "skipping|skipped|missing|missed|skips|irregular|extra|weird|dropped ?a|my|some|few ?heart beat|beats|heartbeat|heartbeats|rhythm",
        "palpitations|palpitation|palps|arrhythmia|arrythmia|afib|fibrillation|tachycardia|palpatations|palpitating",
        "racing|pounding|fluttering|irregular|rapid|thumping|jumping heart|heartbeat|pulse",
        "flutter|fluttering|flutters ~2 {chest}|heart",
    ),
    "sweat": (
        "cold sweat|sweats|sweating|sweaty",
        "clammy",
        "sweating|sweaty|sweat|sweats ~3 cold|for_no|without",
        "pale|grey|gray|white ?and|as ~2 sweaty|sweating|shaking|sick|clammy|ghost|sheet",
    ),
    "stroke": (
        "everything|half|stuff|things ~4 blurry|blurred|double|foggy|swimming",
        "{cant} ~1 stop shaking|trembling|twitching|jerking",
        "droop|droops|drooping|drop|sag|sags|sagging ~4 mouth|face|cheek|eye|lip|eyelid",
        "hand|arm|leg|foot|fingers|arms|legs|hands|limb ~1 wont|not|doesnt|cant|dont|isnt|refuse|refuses|ignores|ignoring|disobeys ~2 what|do|listen|grip|close|open|me|hold|lift|work|bend|right",
        "half|part|side|piece|bit ~5 see|sight|vision|view ~3 missing|gone|black|grey|gray|dark|lost",
        "cant|not|dont|unable|wont ~1 move|feel|lift ~4 below|under|beneath|past|waist|neck|down|anything|body|limbs|either",
        "hands|hand|fingers|arm keep|keeps ~1 dropping ~2 things|everything|cup|phone ~4 numb|weak|side|suddenly",
        "balance|coordination ~2 gone|lost|went|off suddenly|and|with|,",
        "walking|walk|staggering ~2 drunk|sideways|zigzag|crooked",
        "mouth|smile|eyelid|lip|cheek ~2 hanging|hangs|drops|droops|slipped|one_side|twisted|wonky|numb|asleep",
        "{sudden}|just ~1 fell|went|gone|goes|fallen ~1 limp|floppy|weak|dead",
        "limb|arm|leg|hand|foot|side ~2 limp|floppy",
        "arm|leg|hand|face and|& ~1 leg|arm|face|hand ~5 weak|weakness|numb|limp|heavy|dead|tingly|tingling|floppy|not",
        "same|one|left|right side ~2 weak|weakness|heavy|dead",
        "{cant}|dont|not ~1 understand ~4 people|anyone|anybody|words|say|saying|says|talking|read|reading|her|him|them",
        "dont|not|cant ~1 know|remember|recall ?the|my|what|which|where|who day|name|month|where|today|i_am|year|date|am",
        "confuse|confused|muddled , ~6 dont|cant|day|where|sweating|hot|headache|dizzy",
        "{cant} ~1 move|lift|feel ~2 {limb}",
        "neck|spine|back ~2 snapped|cracked|broke|broken|popped|crunched ~4 cant|numb|wont|feel|move|legs|arms|tingling",
        "{tingle} ~5 ?left|right|one|half|whole|same side|face|half|lips|tongue|mouth|cheek",
        "side|face|lips|tongue|mouth|cheek ~3 {tingle}",
        "left|right|one|half|whole side|half ~4 {tingle}|gone|dead|asleep|heavy|weird|funny|wrong|strange",
        "lost|losing|lose|loss|no|cant|gone|zero|not ~2 feel|feeling|sensation|feelings|use|control|power|strength ~4 {limb}",
        "{limb} ~2 no|lost|lacks|without feeling|sensation|power|strength|control|use",
        "{limb} ~2 wont|not|doesnt|isnt|cant|stopped|dont|refuses|refusing ~1 move|moving|work|working|respond|responding|lift|obey|listen|obeying|functioning",
        "{cant}|cant|not ~1 see ~1 right|properly|straight|well|clearly|clear|left|out|anything|nothing|one",
        "see|seeing|sees two|2|double|half|everything_twice ?of ?everything",
        "{vision} ~3 not|isnt|aint ~1 right|working|clear|normal|focusing|good|ok",
        "face ~2 fell|falling|drop|slid|sliding|melting|slack|slipping|sloping|slumped",
        "face ~2 gone|went|going|goes|looks|looking ~2 {odd}|{numb}|slack|wonky|lopsided|crooked|dead|grey|blue|ashen|one_side|to_one|down|limp|floppy",
        "{cant}|not|isnt|doesnt|no|wont|aint ~2 make|making|makes|talking|speaking|talk sense|properly|straight|right",
        "talking|speaking|speak|talk|talks|speaks ~1 gibberish|nonsense|funny|weird|slow|rubbish|weirdly|drunk|jumbled|slurred",
        "sound|sounds|sounding|talk|talking|slurring ~2 drunk|slurry|slurred",
        "fitting|seizing ~4 floor|uncontrollably|help|stopped|now",
        "jerking|shaking|twitching ~3 floor|all_over|unconscious|foaming",
        "tia|aneurysm|brain bleed|haemorrhage|hemorrhage",
        "cant ~1 smile|swallow",
        "legs|arms ~2 wont|not|stopped|cant ~1 work|working|move|moving|hold|respond",
        "{limb} ~2 {numb}",
        "{numb} ~4 {limb}",
        "left|right|one|half|whole|1 ?whole side|face|half ~3 weak|weakness|dead|limp|floppy|heavy|useless|gone",
        "{sudden} ~4 weak|weakness|limp|floppy ~3 arm|leg|hand|side",
        "arm|leg|hand|side ~3 weak|weakness|limp|floppy|dead|useless ~2 {sudden}|now",
        "arm|leg|hand|foot ?is|has|went|just_went|gone|is|feels limp|floppy|paralysed",
        "numb|numbness",
        "face ~3 drooping|droopy|droop|drooped|dropped|dropping|lopsided|crooked|uneven|fallen|sagging|twisted|paralysed|paralyzed|funny|weird|numb|hanging",
        "mouth|smile|eyelid ~3 drooping|droopy|crooked|lopsided|sagging|dropped|dropping|wonky",
        "slurring|slurred|slur|slurs|slurry",
        "speech ~3 weird|funny|slow|strange|off|gone|bad|odd|messed|garbled|jumbled|wrong|broken|thick",
        "words ~4 jumbled|wrong|mixed|garbled|muddled|mumbled|out",
        "{cant} ~1 speak|talk", "{cant} ~1 form|say|find|get ?my|the|a|any|out words|word|sentence|sentences|speech",
        "trouble|difficulty|problems|problem|hard ?with|to ?my speaking|talking|speech|speak|talk|words",
        "suddenly|really|very|so|feel|feeling|felt|getting|all confused|disoriented|disorientated",
        "confused and ~2 dizzy|weak|sick|sweating|shaky|cold|faint|hot|numb",
        "disoriented|disorientated|delirious",
        "dont|cant|not ~2 know|remember|recall ~2 where_i_am|who_i_am|what_day_it|what_day_is|my_name|where_am_i",
        "{cant}|dont|not|no ~1 see ?anything|out|well|straight|properly|right|clearly|much|on|with|in|of|a|,|suddenly|anymore|any|my|only|half",
        "{vision} ~3 gone|going|blurry|blurred|blurring|blur|double|black|tunnel|lost|weird|funny|fading|faded|patchy|spotty|fuzzy|dark|disappeared|cloudy|off|narrowing|bad",
        "blurry|blurred|double|lost|losing|tunnel|loss|fuzzy|no|blind|half ?of|in|my|the ?my|left|right {vision}|eye",
        "seeing|see|saw double|flashes|zigzags",
        "blind|blinded ~3 eye|side|suddenly|eyes",
        "cant|not|dont|no|lost|losing|loss|no_longer ~2 feel|feeling|sensation ~4 {limb}",
        "cant ~1 move|lift|raise|control|use|hold|grip|bend|stand ?on|with|up ?my|the|this|one|a ?left|right|one|whole arm|leg|hand|foot|face|fingers|side|body",
        "{limb} ~2 wont|not|doesnt|isnt|cant|stopped|dont|refuses|refusing|no_longer ~1 move|moving|work|working|respond|responding|lift|obey|listen|obeying|functioning|control|listening",
        "left|right|one|half ~2 side|body|face ~4 {numb}|gone|heavy|droopy|useless|funny|weird|strange|tingle",
        "stroke",
        "pins and needles ~5 {limb}",
        "seizure|seizures|convulsing|convulsions|convulsion|convulsed|epileptic_fit",
        "having|had|have a fit",
        "shaking|trembling|twitching ~2 uncontrollably|uncontrollable|violently|cant",
    ),
    "head": (
        "the|a headache|migraine of all|my|a headaches|life|lifetime|thunder",
        "headache|migraine|headpain|head_pain ~4 slap|punch|hammer|explosive|lightning|axe|bat|brick|nowhere|zero|instant|instantly|bomb|knife",
        "like|as_if ~2 slap|punch|hammer|axe|bat|brick|lightning|bomb|knife ~3 head|skull|brain",
        "headache|migraine|head_pain|head_ache ~8 explosion|explosive|boom|bang|shot|kicked|hit|thunder|bolt|suddenly|sudden|scariest|unreal",
        "whacking|banging|stonking|humongous|unreal|killer|monstrous|screaming headache ~4 came|out|from|sudden|suddenly|in|on",
        "brain ~4 bleed|bleeding|burst|exploding|swelling",
        "head|brain ~4 worst pain",
        "{bad} ~3 headache|headaches|migraine|head_ache|head_pain|headpain",
        "headache|headaches|migraine|head_ache|head_pain ~6 {bad}|{sudden}",
        "hit|kicked|shot|struck|stabbed ~4 back_of_the_head|back_of_my_head|in_the_head ~4 headache|pain|bat|hammer|axe",
        "never ~4 headache|head_pain|head_ache ~4 like|this|before|bad",
        "like ?being|i_was|been|got kicked|hit|shot|struck|clubbed ~2 head|skull",
        "{bad}|{sudden} ~4 headache|headaches|migraine|head_ache|head_pain|head_hurts",
        "headache|headaches|migraine|head_ache|head_pain ~6 {bad}|{sudden}|life|never|ever|exploding|explode|worse|vision|vomiting|vomited|throwing|stiff_neck|confused|blurry|numb",
        "head ~4 explode|exploding|exploded|burst|bursting|split|splitting|crack|cracking|pounding|blow|blowing|pop|popping|popped|blown|off|thunder|thunderclap|bang",
        "thunderclap|thunder clap",
        "head ~2 ?suddenly|really {pain} ~4 sudden|suddenly|life|ever|never|so_bad|badly|vision",
        "something popped|burst|snapped|exploded|went|pop ~2 head",
        "pop|snap|bang|burst ~2 my|the head",
        "worst ~2 pain ~4 head|neck|life|ever",
    ),
    "saddle": (
        "{cant} ~2 hold ~2 urine|pee|wee|bladder|stool|it_in",
        "leaking|leaked|dribbling ~1 urine|pee|wee",
        "{cant}|dont|lost|losing|no|wont ~4 pee|wee|urinate|bladder|bowel|bowels|poo|poop|hold_it|toilet|control|piss",
        "peed|wet|pissed|soiled|pooed|pooped|shat|peeing|wetting myself|my_pants|my_shorts|without_feeling",
        "incontinent|incontinence",
        "{numb} ~4 groin|saddle|crotch|genitals|between|private|privates|bum|buttocks|inner|balls|down_there|genital|perineum|butt|backside",
        "groin|saddle|crotch|genitals|bum|buttocks|privates|butt|balls|backside ~3 numb|tingling|numbness|no_feeling|dead",
        "cant|dont|not|no ~1 feel|feeling ~3 between|groin|saddle|crotch|bum|butt|down_there|genitals|privates|backside|seat",
        "legs ~3 gave|giving|given|went|gone|wont|stopped|buckled way|out|under|weak|numb|dead ~4 back",
        "back ~8 legs|leg|foot|feet ~2 weak|numb|giving|gave|dead|tingling|wont|floppy",
    ),
    "injury": (
        "bleeding|blood|bleed|bleeds ~3 heavily|wont|not|lots|everywhere|gushing|pouring|spurting|badly|loads|pool|nonstop|cant|doesnt|still|much|heaps",
        "bleeding|blood|bleed ~2 a_lot|all_over",
        "so|too|lot|lots|loads|losing|lost|pool|puddle ?of much|of|a|lots blood",
        "losing|lost ~2 blood",
        "stopped|not|no_longer|dont|wont|cant ~1 sweat|sweating ~6 hot|heat|burning|sun|confused|dizzy|headache",
        "hot|heat|sun|confused|burning ~6 stopped|not|no_longer|dont ~1 sweat|sweating",
        "hot and|, confused|delirious|shaking|collapsing",
        "sugar|sugars|glucose ~2 low|crashed|crashing|dropping|drops|dropped|gone",
        "low ~1 sugar|sugars|glucose ~6 shaking|confused|shaky|faint|cant|weak|passing|sweating|dizzy",
        "im|am|going|hes|shes|having ?a hypo",
        "neck ~2 snapped|broke|broken|cracked ~4 cant|numb|wont|move|feel",
        "blood ~4 cough|coughing|coughed|vomit|vomiting|sick|spit|spitting|phlegm|sputum|spat",
        "cough|coughing|coughed|coughs|vomiting|vomited|vomit|spitting|spit|spat|threw|throwing|sick|phlegm ~3 blood|bloody",
        "bleeding|blood|bleed ~3 heavily|wont|not stopping|a lot|lots|everywhere|gushing|pouring|spurting|badly|loads|all over|pool",
        "coughing|coughed|cough|vomiting|vomited|spitting|throwing|threw|vomit|spit|spat|peeing|pee|puked|pooping ~2 blood",
        "bone|bones ~4 sticking|out|through|poking|visible|see|showing",
        "trapped|stuck|pinned|crushed|under under|beneath|by ?the|my|a barbell|bar|weight|weights|bench",
        "bar|barbell|weight|dumbbell|plate|kettlebell ~3 on|onto|across|hit|against ?my|me|his|her ?in|on|the ?my neck|throat|head|face|chest|windpipe",
        "dropped|hit|smashed|smacked|banged|whacked|cracked|landed|fell ~5 head|skull ~5 blood|bleeding|dizzy|sick|vomiting|vomited|blurry|out|confused|unconscious|sleepy|headache|vision",
        "leg|arm|ankle|wrist|elbow|knee|finger|shoulder ~3 wrong|bent|funny|weird|strange|odd way|backwards|angle|backward|direction",
        "electric|electrocuted shock|by",
        "ambulance|paramedics|paramedic|emergency_room|emergency_services|call_a_doctor|need_a_doctor|send_help|get_help|medical_emergency",
        "this|its|it is|an ?is ?an emergency ?help|now|please",
        "call|called|calling|dial|ring 999|911|112",
        "overdose|overdosed|overdosing",
        "took|swallowed|taken|ate ~3 many|whole|all|bottle ~3 pills|tablets|meds|painkillers|pill",
        "took|swallowed|taken ~3 pills|tablets|paracetamol ~3 all|die|end|sleep|end_it",
        "heat|sun stroke",
        "heatstroke|sunstroke",
        "stopped|not|no_longer|dont|wont sweating|sweat|sweaty ~6 hot|heat|burning",
        "low|crashed|crashing|dropping|hypo|no blood sugar|sugar|glucose ~6 shaking|confused|shaky|faint|cant|weak|passing|sweating|dizzy",
        "having|had|going ?a|into hypo|hypoglycemic|hypoglycaemic",
        "die|dying ~6 help|serious|seriously|joking|scared|chest|heart|breath|breathe|ambulance",
        "help|seriously|genuinely|scared|actually|literally ~3 dying|die",
    ),
    "pregnancy": (
        "weeks|wks|week|months ?along|gone|pregnant|, ~4 bleeding|bleed|spotting|leaking|contractions|cramping|cramps|waters|blood",
        "bump|baby|womb|uterus ~4 hurts|pain|contractions|bleeding|tightening|blood|hard",
        "pregnant|pregnancy|trimester|baby|postpartum ~9 bleeding|bleed|blood|spotting|contraction|contractions|fluid|leaking|leak|water|waters|cramps|cramping|swollen_calf|moving_less|not_moving|stopped_moving|less_movement|belly_pain",
        "bleeding|blood|spotting|contractions|contraction|waters|leaking|fluid|cramps|cramping ~9 pregnant|pregnancy|trimester|baby",
        "baby ~3 not|isnt|hasnt|stopped|less|barely|no|hardly ~2 moving|moved|kicking|kicked|movement|movements|kicks",
        "waters|water broke|broken|breaking",
    ),
}  # fmt: skip

# These come with hard work too: said of hard work alone, or as a joke, they get a gentle check instead (our choice).
SOFT = frozenset({"breath", "heart", "stroke", "faint"})

SAME_DAY: dict[str, tuple[str, ...]] = {
    "muscle_breakdown": (
        "pee|urine|toilet|wee|piss ~6 dark|brown|black|cola|coke|tea|red|orange|rusty|coffee|bloody|pink|blood|whisky|muddy|rust|maroon",
        "dark|brown|black|cola|tea|red|bloody|coke|rusty|coffee|pink|blood|coloured|colored ~5 pee|urine|wee|piss",
        "rhabdo|rhabdomyolysis",
        "arm|arms|biceps|forearms|legs|thighs|quads|muscles|muscle|forearm|bicep|calves|thigh ~4 swollen|swelled|ballooned|balloons|balloon|twice|puffy|swelling ~9 cant|wont|straighten|bend|weak|urine|pee|hard",
        "cant ~1 straighten|bend ~3 arm|arms|elbows|legs|knees|biceps",
    ),
    "clot": (
        "calf|leg|shin|calves ~5 swollen|swelling|swelled|hot|red|warm|puffy|puffed|bulging|clot|throbbing|bigger",
        "swollen|swelling|hot|red|warm|puffy|clot|throbbing|swelled ~4 calf|leg|calves",
        "blood clot|clots",
        "dvt",
    ),
    "heat": (
        "heat exhaustion|sick|ill|illness",
        "overheated|overheating|overheat",
        "too hot ~5 shiver|shivering|chills|goosebumps|sick|nauseous|dizzy|stop",
        "goosebumps|chills|shivering|shivers ~6 hot|heat|sun",
    ),
    "injury": (
        "hit|banged|smashed|smacked|bumped|whacked|cracked|knocked|dropped|bonked ~5 head|skull",
        "concussion|concussed",
        "dislocated|dislocate|dislocation|dislocating|subluxed|subluxation",
        "popped|came|slipped|jumped|pops|comes out ?of ~1 socket|place|joint",
        "broke|broken|fractured|fracture|breaking|cracked|break ~3 {part}|bone|rib|ribs",
        "{part}|bone ~2 broken|fractured|broke|shattered",
        "tore|torn|snapped|ruptured|rupture|ripped|snap|tear ~3 bicep|biceps|achilles|pec|hamstring|quad|muscle|tendon|ligament|acl|calf|meniscus|tricep|triceps|rotator",
        "bicep|biceps|achilles|pec|tendon|ligament|acl|hamstring ~3 tore|torn|snapped|ruptured|ripped|popped|rolled",
        "cant ~1 put|bear|take|stand ~4 weight|foot|leg|ankle|knee|it",
        "cant walk",
        "{part}|joint ~3 swollen|swelled|ballooned|swelling|huge|swells ~6 cant|weight|bend|hot|red|walk",
        "needs|need|get stitches",
        "deep|nasty|big|bad|gaping|huge cut|gash|wound",
        "cut|gashed|sliced ~4 open|deep|bleeding|badly",
        "finger|hand|toe|foot ~3 crushed|smashed|trapped",
        "dropped|drop|landed ~6 foot|toe|toes|finger|hand",
    ),
    "head": (
        "headache|head_ache|migraine|head_hurts|head_pain ~6 set|lift|lifting|press|during|exercise|training|every|rep|strain|bracing|after",
        "set|lifting|during|press|strain|every time|bracing ~5 headache|head_ache|migraine|head_pain",
    ),
    "blood": ("bleeding", "blood ~3 stool|poo|poop|toilet|from|out|coming"),
}  # fmt: skip

PAIN: dict[str, tuple[str, ...]] = {
    "pain": (
        "stop|stopped|stopping|bail|bailed|quit|end|ended|skip|skipped|cut ~4 , ?my|the ?left|right|bad {joint}",
        "{part} {score}",
        "{part} ~3 {score}",
        "{hurting} ~5 {part}",
        "{trouble} ~3 {joint}",
        "{joint} ~2 {trouble}",
        "stopped|stop|quit|cut|ended|skipped|skipping|bailed|dropped|left|missed|short|early|only|couldnt|paused ~7 because|cos|cause|coz|cuz|bc|due|thanks|from ?of ?to ?my|the ?left|right|bad|old {joint}",
        "{joint} ~2 complained|complaining|complains|moaned|shouted|stopped|stopping|bothering|annoying|nagging|grumbling|moaning|bothered|bothers|limiting|niggly",
        "{joint} ~2 not ~1 me|happy|right|good|great|having|agreeing",
        "{part} ~4 {hurting}",
        "{hurting}|pulled|trapped|slipped|torn|tore|shooting|overstretched ?pain ~3 {part}",
        "{joint} ~3 {trouble}",
        "{trouble} ~1 {joint}",
        "sore|stiff|tight|stiffness|tightness|soreness ~2 knee|elbow|wrist|ankle|neck|achilles|groin|rotator|back|joint|shoulder|hip",
        "threw|thrown|throwing|put|putting|wrecked|fucked|screwed|messed|tweaked|blew|did|done|buggered|knackered ?out|up ?my|the ?lower|left|right|bad {joint} ?out|in|again|up",
        "pain|painful|hurts|hurting|injured|hurt|pains|aching|injury|injuries|niggle|niggles|twinge|twinges",
        "pulled|strained|strain|sprained|tweaked|torn|tore ?a|my|something|muscle|it muscle|something|it|one|hammy|quad|back|groin",
        "felt|heard|hear|feel|something|a ~2 pop|popped|snap|snapped|crack|cracked|tear|tore|rip|ripped|crunch|twang|ping|pinged",
        "sciatica|tendonitis|tendinitis|bursitis|impingement|tendinopathy|shin_splints|tennis_elbow|golfers_elbow|runners_knee|plantar_fasciitis|frozen_shoulder|slipped_disc|slipped_disk|herniated|bulging_disc|hernia",
        "headache|head_ache|migraine|headaches",
        "ouch|oww|owie|ow",
        "cant ~3 without pain",
        "stings|stinging ~3 {part}",
        "nerve ~3 pinched|trapped|zing",
        "pinched|trapped nerve",
        "cant ?really move|turn|bend|lift|straighten|rotate ~1 {joint}",
        "tingling|tingly|pins ~5 hand|hands|finger|fingers|foot|feet|toes|arm|arms|leg|legs",
        "in agony",
    ),
}  # fmt: skip
GROUPS["hurting"] = (
    "pain|painful|hurt|hurts|hurting|agony|stabbing|sharp|twinge|twinges|twinging|twinged|throbbing|throbs|tweaked|tweak|pinch|pinches|"
    "pinching|pinched|niggle|niggles|niggling|niggly|clicking|clicks|popping|popped|pops|cracked|crunching|grinding|catching|locked up|"
    "locking|locks|buckled|swollen|swelling|swelled|bruised|inflamed|irritated|jarred|strained|strain|sprained|sprain|spasm|spasms|"
    "spasming|cramp|cramps|cramping|cramped|seized|burning pain|dodgy|gammy|messed up|fucked|busted|bothering|bothers|complaining|flared|"
    "flaring|flare|ache|aches|aching|achy|injured|injury|stings|stinging|snapped|twisted|wrenched|ricked|cricked|crick|aggravated|"
    "acting up|playing up|unstable|impinged|zinging|zing|pains|rolled|torn|tore|issues|issue|injuries|twinged|ping|pinged|twang"
)
GROUPS["trouble"] = (
    "wonky|angry|knackered|shot|trouble|troubling|bugging|unhappy|grumpy|screaming|cranky|nagging|giving|problem|problems|crunchy|"
    "buggered|crook|killing|not happy|not great|not good|not right|no good|bad|worse|iffy|crap|sore|stiff|off|funny|weird|tight|"
    "uncomfortable|gave way|gives way|gave out|giving way|went|gone|out|tender|rubbish|playing|acting|wobbly|dodgy|weak|bust|bung|trick"
)
GROUPS["score"] = r"(?:[0-9]|10) (?:/|out of|of) 10"

CAUTION: dict[str, tuple[str, ...]] = {
    "self_harm": (
        "kill|killing|unalive|end|ending|off|harm|harming ?all|of myself|meself|my_life|my_own_life|it_all|everything",
        "suicidal|suicide|suicidle|sucidal",
        "{endit} ~6 {onpurpose}",
        "{onpurpose} ~6 {endit}",
        "end|ending|ended|finish it|things ~3 tonight|today|now|forever|for_good|all|myself|soon",
        "{nowish} ~3 live|living|be_here|exist|existing|alive|wake_up|be_alive|go_on_living|be_around|keep_living|carry_on_living|wake_up_tomorrow|wake_up_again",
        "want|wanna|wanted|wish|ready|rather|happy ?to|i ?was|were|be die|dead|disappear|gone_forever",
        "{nowish} ~2 point|reason|sense|use ?to|in|of|me ~1 live|living|life|alive|existing|being_here|being_alive|me_being_here|going_on|carrying_on|anymore",
        "whats|what|wheres|see ?is the|any|no|a|much|dont point|reason ?to|in|of|me ~1 live|living|life|alive|being_alive|being_here|going_on|carrying_on|anything_anymore",
        "tired|sick|done|fed_up|finished|weary ?of|with ?my|being|this living|life|alive|existing|world",
        "better|happier|easier|relieved ?off ~4 if_i|without_me|i_wasnt|i_werent|were_gone|was_gone|were_dead|was_dead|wasnt_here|werent_here|wasnt_around",
        "nobody|noone|no_one|none|wouldnt ~3 miss|notice|care ~4 if_i|gone|died|dead|disappeared|me_gone",
        "burden ~3 everyone|everybody|family|all|them|people|kids|wife|husband",
        "thoughts|thinking|thought|think|urge|urges|plan|planning|ways|how|feel_like ~2 ending|dying|death|killing|hurting_myself|harming|cutting|jumping|overdose|overdosing|not_being_here|being_dead|ending_it",
        "jump|jumping|step|stepping|drive|driving ~2 off|front ~3 bridge|train|traffic|roof|building|cliff|lorry|truck|bus|tree|wall",
        "wont|not ~1 be ~1 here|alive|around tomorrow|anymore|any_more|much_longer",
        "self harm|harming|harmed",
        "selfharm|selfharming|self_harming",
        "goodbye ~2 everyone|everybody|all|world|forever",
    ),
    "eating": (
        "purge|purging|purged|binge|binging|bingeing|binged|anorexia|anorexic|bulimia|bulimic|starving myself|starve myself",
        "made|make|making myself sick|throw|vomit|puke",
        "eating disorder",
        "hate ?my|how body|i_look|myself",
        "havent|not|didnt|stopped|hardly|barely|dont eaten|eat|ate|eating ~3 days|day|anything|since|all week|food|meals",
        "scared|afraid|terrified|guilty|punish|punishing|burn|earn ~3 eat|eating|food|ate",
        "laxatives|laxative",
    ),
    "pregnancy": (
        "pregnant|pregnancy|trimester|postpartum|post_partum|postnatal|prenatal|antenatal|miscarriage|miscarried|breastfeeding|breastfeed|breast_feeding|chest_feeding|morning_sickness|midwife|ivf|nursing|gestation",
        "expecting a|our|my|twins|in ?baby|first|second|third|child",
        "im|am|were|be expecting",
        "having|have|had|expect a|our baby",
        "gave|given|giving birth",
        "c|emergency section",
        "csection|caesarean|cesarean|caesar|episiotomy",
        "weeks ?after birth|postpartum|pp",
        "with child",
        "bump is|getting|gets|in|my",
        "baby ?is|was born|due|old|on the way|coming|bump|came",
        "knocked up",
        "due ~1 date|in ~3 baby|pregnant",
    ),
    "minor": (
        "{me} ?only|just|actually|like {years} ?years|yrs|yr|year|yo|y|birthday ?old|o|this|next|in|,|so|and|can|is|should|,|but|btw|too|if|may",
        "im|i|am|me {years} years|yrs|yr|year|yo|y old|o|of",
        "{years} years|yrs|yr|year|yo|y old|o|of ?boy|girl|son|daughter|kid|brother|sister|age",
        "aged|age|turned|turn|turning {years}",
        "under 18|sixteen|eighteen|16",
        "im|am|still|not ?a|still ?a minor|underage|teenager|teen|18_yet",
        "son|daughter|kid|kids|child|children|nephew|niece|teenager|brother|sister|boy|girl ~4 join|do|train|lift|lifting|try|use|start|this|workout|workouts|weights|training|plan|program|block|exercises",
    ),
    "medication": (
        "medication|medications|meds|medicine|medicines|antibiotics|antibiotic|antidepressant|antidepressants|beta_blocker|beta_blockers|betablocker|betablockers|blockers|insulin|statin|statins|ibuprofen|paracetamol|painkiller|painkillers|aspirin|naproxen|codeine|opioid|opioids|tramadol|blood_thinner|blood_thinners|thinners|warfarin|steroid|steroids|cortisone|ssri|ssris|sertraline|metformin|inhaler|ozempic|semaglutide|diuretic|diuretics|testosterone|trt|anabolic|antihistamine|antihistamines|prednisone|adderall|ritalin|lithium|injection|dosage|dose|ventolin|tylenol|advil|nurofen|sarms|clenbuterol|clen",
        "pill|pills|tablet|tablets ~3 for|blood|pressure|heart|from",
        "blood_pressure|bp|thyroid|heart|pressure tablets|pills|pill|tablet|meds",
        "take|taking|took|popped|on|need|have ~1 pill|pills|tablet|tablets",
        "prescribed me|something|some|by|for",
        "doctor|gp|dr ~2 prescribed|prescription|prescribes",
        "roids|peds",
    ),
    "diet": (
        "calories|calorie|kcal|kcals|macros|macro|protein|carbs|carb|keto|fasting|fasted|diet|dieting|nutrition|supplement|supplements|creatine|preworkout|bcaa|bcaas|whey|vegan|vegetarian|meal_plan|meals|weight_loss|fat_loss|intermittent_fasting|deficit|surplus|caffeine|vitamins|vitamin|magnesium|electrolytes|shake|shakes|fat_burner|omega|snack|snacks|collagen|gluten",
        "pre workout",
        "lose|losing|lost|drop|dropping|gain|gaining|put|shed|cut|burn|shift ?some|a|on|few|more|the|my|off|belly|body ?kg|kilos|pounds|body|belly weight|fat|kilos|pounds|kgs|belly|bodyfat|stone|flab",
        "what|when|should|how|anything|something|can ~4 eat|drink|eating|drinking",
        "eat|eating|ate ~3 before|after|enough|more|less|much|meat|training|session|workout",
        "alcohol|beer|wine ~5 training|train|lift|workout|before|session",
        "bulking|bulk|cutting ?or|and|phase|season|calories|weight",
        "how much water",
    ),
    "diagnosis": (
        "do|have|did|has|could|is|would|think|maybe i|it|this|my|he|she|maybe|its ~3 torn|tear|sprain|sprained|broken|fracture|strain|herniated|hernia|tendonitis|tendinitis|arthritis|sciatica|bursitis|impingement|disc|rhabdo|injury|clot|concussion|pinched|hernia|stress",
        "what ~3 injury|diagnosis",
        "whats|what ?is wrong|happened with|to ?my me|{part}",
        "diagnose|diagnosis|diagnosed",
        "mri|xray|x_ray|ultrasound|scan",
        "surgery|surgeon|operation|stent|pacemaker|bypass|valve|transplant|replacement",
        "diabetes|diabetic|asthma|asthmatic|epilepsy|epileptic|hypertension|blood_pressure|heart_condition|heart_disease|heart_problem|heart_problems|murmur|osteoporosis|arthritis|scoliosis|cancer|chemo|long_covid|thyroid|anemia|anaemia|hypermobile|ehlers|fibromyalgia|multiple_sclerosis|prolapse|diastasis|glaucoma|aneurysm|kidney_disease|hernia|autoimmune|lupus|endometriosis|pcos|pots|heart_failure|cholesterol",
        "physio|physiotherapist|doctor|gp|surgeon|chiropractor|osteopath|cardiologist|specialist|consultant ~2 said|says|told|cleared|wants|thinks|advised|recommended|signed|allowed|let",
        "should|do|need ?i|to ~2 see|visit|call|go ~2 doctor|physio|gp|hospital|physiotherapist|er|specialist|chiropractor",
        "ice|heat|foam roll|tape|brace|strap|massage|stretch ~1 it|my|the|injury|or ~3 injury|injured|swelling|ice|heat",
        "am i injured",
    ),
    "illness": (
        "fever|feverish|flu|influenza|covid|pneumonia|bronchitis|infection|norovirus|food_poisoning|stomach_bug|tonsillitis|glandular|mono|shingles|high_temperature|a_temperature|antibiotics|virus|gastro|diarrhea|diarrhoea|vomiting|vomited|threw_up|throwing_up|thrown_up|nauseous|nausea|shivering|chills",
    ),
    "feelings": (
        "depressed|depression|panic_attack|panic_attacks|anxiety_attack|mental_health|burnt_out|burned_out|hopeless|worthless|grieving|breakdown",
    ),
}  # fmt: skip
GROUPS["endit"] = (
    "hurt_myself|hurting_myself|cut_myself|cutting_myself|burn_myself|burning_myself|cut_my_arms|cut_my_wrists|cutting_my_arms|cut_my_arm|punish_myself|hang_myself|shoot_myself|drown_myself|starve_myself|hit_myself|hitting_myself|cutting"
)
GROUPS["onpurpose"] = (
    "on_purpose|deliberately|intentionally|to_feel|do_it_again|again_and_again|want_to|wanna|wanted_to|thinking|thought|thoughts|urge|urges|tempted|feel_like|going_to|gonna|might|stop_myself|worse|relapsed|started|razor|blade|knife|scars"
)
GROUPS["nowish"] = "dont|not|no|longer|didnt|never|wont|cant|without|hardly|barely|whats_the|no_longer|dont_see|dont_want|stopped"
GROUPS["me"] = "im|i am|am|hes|shes|he is|she is|is|me"
GROUPS["years"] = r"(?:8|9|1[0-7]|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen)"

SORENESS: dict[str, tuple[str, ...]] = {
    "soreness": (
        "sore|soreness|doms|stiff|stiffness|achy|tender|aching|ache|aches|wrecked|trashed|toast|destroyed|smoked|fried|cooked",
        "{part} ~2 tight|tightness|stiff|sore|hammered|shot|ruined|battered|dead|done|gone|finished",
        "tight ?left|right {part}",
        "cant ~1 sit|walk|climb|lift|raise|use|wash ~3 down|stairs|toilet|hair|arms|straight|properly",
    ),
}  # fmt: skip

# What looks like a sign and is none; taken out of the line before the signs are looked for. Kept short: what stands here can hide
# an emergency, so a line earns its place only by a harmless text that would raise an alarm without it.
HARMLESS: tuple[str, ...] = (
    "single|one|1|straight|stiff leg|arm|legged|armed romanian|rdl|deadlift|deadlifts|row|rows|press|curl|curls|squat|squats|bridge|raise|raises|extension|thrust|hip|glute|calf",
    "leg|calf|arm|hip|neck|back|chest|shoulder|knee|leg press|curl|curls|raise|raises|extension|extensions|thrust|thrusts|fly|flye|row|rows|supported",
    "out cold outside",
    "numb to the|your|it|all|this|that|any",
    "faint|fainter|faintest memory|line|lines|hope|idea|recollection|smell|mark|marks|hearted|clue|praise|signal",
    "grey|gray|white|black ~1 with|hair|beard|haired|bearded ?age",
    "breathless plank|planks|hollow|hold|holds|set|sets|pace",
    "curtain|curtains|bulb|lightbulb|lamp|power_cut|garage|dark ~8 {cant} see",
    "{cant} see the|my plate|plates|bar|number|numbers|weights|timer|mirror|clock|label|labels|screen|app|figures",
    "strokes|stroke a|per minute|min",
    "light headed to|for|off|home|back",
    "cant|dont|wont|not see ?me myself",
    "phone|app|bot|link|watch|video|tracker|screen|laptop|timer|site|page|email|chat ?is not|isnt|wont|doesnt|no|stopped ~1 wake|waking|respond|responding|answering|working|work|move|moving|response|loading|talking",
    "no|not response|responding ?well from|to|yet",
    "blacked|blocked out ~1 monday|tuesday|wednesday|thursday|friday|saturday|sunday|time|slot|calendar|hour|week",
    "see|seeing|sees ?only two|2 videos|plans|exercises|sessions|weights|versions|options|blocks|lists|sets",
    "air con|conditioning|bike|squat|squats|pods|buds|fryer|max|resistance",
    "heartbeat of the|music|song",
    "bag|sandbag|ball|plate|dumbbell|kettlebell|weight|med ball ?held|hugged|resting ?on|to|at|against ?my chest ~4 carry|carries|sit|situp|situps|ups|crunch|crunches|squat|squats|march|walk",
    "bag|sandbag|ball|plate|dumbbell|kettlebell|weight ?held ?on|to|at|against ?my chest ~4 carry|carries|sit|situp|situps|ups|crunch|crunches|squat|squats|march|walk",
    "no pain ?, no gain|gains",
    "pain in|up the|my ass|arse|butt|bum|backside",
    "pain cave|train|killer|barrier|face|scale|free",
    "painfully|painfree|painless",
    "hurts|hurt|sore|pain|ache|burn so|in_a|in_the ?very good|nice|best ?way|kind",
    "good|nice|best|sweet kind|sort ?of|way pain|hurt|ache|sore|soreness",
    "good|nice pain|hurt|ache|burn",
    "hurt|hurts|hurting my|the|his|your pride|ego|feelings|soul|wallet|bank|account|brain",
    "wont|wouldnt|cant|couldnt|doesnt|never hurt to ask|try|check|have|know|be",
    "gave|give|gives|giving|near|nearly|almost|mini me|had|having|gave|a ?a|nearly|mini heart attack ~4 lol|when|with|at|from|seeing|reading|plan",
    "heart attack ~3 price|email|plan|programme|program|block",
    "gave|giving|gives ?us|me ?nearly a heart attack",
    "by heart",
    "heart ?rate|beat ?was|got|hit|at|up|to|of|peaked|peak|averaged|average|avg|max|around|about|reached|stayed|went|in ?up|to|at|around|about|of ?zone \\d{2,3}",
    "heart rate|beat monitor|strap|zone|zones|training|sensor|data|target|watch",
    "{chest} press|presses|pressed|fly|flys|flies|flye|flyes|day|days|workout|workouts|machine|supported|dip|dips|exercise|exercises|session|muscles|gains|pass|expander|opener|openers|routine|height|row|rows|support|hair|freezer|tap|focused|growth",
    "{chest} up|proud|high|out|down|forward|first",
    "weak|weaker|dead point|points|spot|link|sauce|excuse|lift|lifts|bug|bugs|hang|hangs|stop|stops|weight",
    "weaker|weak side|arm|leg|hand ?first",
    "confused ~1 about|by|with|on|which|what|how|whether|between|as|if|why|when|where|lol",
    "black|blackout out|band|tape|curtains band|curtains|bands",
    "passed|pass|passing|past|crashed out ~5 sofa|couch|bed|asleep|drunk|pillow|wine|tv|dinner|sleep|hammock",
    "fell|fall|falling|was asleep ~4 sofa|couch|bed|early|phone",
    "stroke of|rate|technique|volume|play",
    "breast stroke",
    "breaststroke|backstroke",
    "work|worked|working|bust|busted|laughed my|his|her head|ass|butt off",
    "head off|over|out|home|back|to|start|space|band|phones",
    "no|under|without|peer|social|air|any pressure",
    "blood flow|flowing|pumping|type",
    "sweaty|soaked|drenched ~2 shirt|mat|floor",
    "sick pump|gains|workout|session|beat|set|pr|pb|progress|numbers",
    "broke|broken|break|breaking|smashed|tore|snapped|ripped ~2 pr|pb|record|records|best|band|bands|bench|dumbbell|barbell|chair|shorts|phone|handle|mat|strap|streak|leggings|trousers|rules",
    "band|strap|bands|cable|handle|rope|chair|collar|shoe|laces|mat|clip ~2 broke|broken|torn|tore|ripped|cracked|split|popped|snapped|rolled",
    "drop|dropped|dropping ~3 to|down ~2 weight|kg|lb|load",
    "lost|losing|lose ?my|the|a|some|all balance|count|track|motivation|form|rhythm|grip|weight|focus",
    "killing|killer it|set|sets|workout|session|finisher|pump|day|burn|block",
    "crushed|crushing|crush it|that|this|the|my|those|todays",
    "skull crusher|crushers",
    "suicide|suicides sprint|sprints|runs|drill|drills|grip",
    "cant|dont|didnt see|find ?the|my|any|a|where|how|why|what video|link|button|plan|session|workout|today|improvement|progress|point|difference|results|it|message|demo|picture",
    "clicked|clicking|click on|the|link|button|it",
    "pulled|pull|pulling|pulls up|ups|down|downs|over|overs|apart|aparts|through|off|it",
    "hip|hips|glute|knee|knees|back|shoulder|neck|arm|calf|wrist|leg thrust|thrusts|bridge|bridges|raise|raises|extension|extensions|press|presses|curl|curls|squat|squats|circles|hinge|mobility|drive|drives|row|rows|supported|sleeve|sleeves|strap|straps|wraps|tucks|day",
)

# Jokes and hard work: what people say of a set, not of a sickness.
FIGURES: tuple[str, ...] = (
    "killed|kills|killing|kill|murdered|destroyed|slaughtered|finished|ended|wrecked|broke|murders|ruined ?me|us|my ?quads|legs|arms|glutes|abs|core|lungs|forearms|grip|calves|soul|biceps|triceps|hamstrings|shoulders",
    "killed|kills|killing|kill me",
    "dying|died|dead|die",
    "want|wanna|wanted ?to die ~6 lol|squats|burpees|lunges|set|sets|finisher|workout",
)

_STOP_WORDS = (
    "not|no|isnt|doesnt|dont|didnt|wasnt|without|never|arent|none|nor|havent|hasnt|gone|fine|ok|okay|"
    "elbow|elbows|knee|knees|wrist|wrists|ankle|ankles|hip|hips|shoulder|back|neck|quads|glutes|hamstring|hamstrings|calves|calf"
)
_GROUP = re.compile(r"\{([a-z]+)\}")
_GAP = rf"(?: (?!(?:{_STOP_WORDS})(?= |$))\S+){{0,%s}}?"


def _expand(item: str) -> str:
    """Alternatives with the groups among them opened; "_" stands for a space inside one alternative."""
    return _GROUP.sub(lambda match: _GROUP.sub(lambda inner: GROUPS[inner.group(1)], GROUPS[match.group(1)]), item).replace(
        "_", " "
    )


@lru_cache(maxsize=1024)
def compiled(line: str) -> re.Pattern[str]:
    """One line of the table as a pattern over a clause's line (a space before each word)."""
    pattern = ""
    for item in line.split(" "):
        if item.startswith("~"):
            pattern += _GAP % item[1:]
        elif item.startswith("?") and len(item) > 1:
            pattern += rf"(?: (?:{_expand(item[1:])})(?= |$))?"
        else:
            pattern += rf" (?:{_expand(item)})(?= |$)"
    return re.compile(pattern)
