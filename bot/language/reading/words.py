"""Which words matter between two sets? Tables only: a word or a phrase, and the one-letter kind that the grammar reads.

Numbers and names
    n number   J slot label   X exercise   # set number
Units and what is counted
    u kilograms or pounds   r reps   z sets   s seconds   i minutes   m "m": metres or minutes   e metres   p steps
Between numbers
    x times   @ at   f for   w with   o of   h then   d drop   & and   , / - + : | as they stand
How a set was
    E each side   L left   R right   H each hand   C total   B body weight   c band colour or strength   b "band"
    Q added   q assisted   I improvised thing   P plate   0 empty bar   a about   Y ... or so
    1 "top set", "working": no warm-up any more
    F failure   g form kept   G form lost   t tempo kept   T tempo lost   W warm-up   K partial   Z rest-pause   M matched
    S effort word RPE   V effort word RIR ("in reserve", "left in the tank")   j "left", which is a side or what was left
    % "also", "left also": as the other side
What is known already
    A same   O as planned   l last time   U up   D down   + more than   v less than   * all   N not   ! meant to be
Others
    . said often, means nothing here   k said of doing ("got")   ? not known
"""

from __future__ import annotations

from functools import lru_cache

from rapidfuzz.distance import OSA

from bot.training.loads import Unit

_WORDS = {
    "u": "kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes kilogs kgms keys lb lbs pound pounds pounder pounders pnds pund punds #",
    "r": "stück stuk stuks nos repeticiones repetición repetições répétitions powtórzeń powt wiederholung herhalingen repetitioner repetizioni pulls lifts goes r rep reps repetition repetitions resp repps rps reos wdh wiederholungen reep",
    "z": "trips lengths laps serie series séries serien serii rondes set sets sätze rounds round sts",
    "s": 'segundos segundo secondes seconde sekund seconden secondi sec secs second seconds sek sekunden secon secnds "',
    "i": "min mins minute minutes minuten mns",
    "m": "m",
    "e": "metre metres meter meters mtr mtrs",
    "p": "step steps stp stps paces pace strides",
    "x": "mal keer maal fois veces vezes razy gånger x * times by ×",
    "@": "@ at",
    "f": "voor för por pour para für na for fo fr",
    "w": "whit used con com avec met med mit w with using wi wth wiht widh mit holding wearing",
    "o": "of",
    "h": "then den thn > followed luego puis dann danach poi daarna potem sedan depois ensuite",
    "d": "↓ drop dropped drops dropping dropset dropsets",
    "&": "and & n und plus y et og och",
    ",": "period fullstop comma coma virgule komma",
    "E": "es jeweils cada chaque jede jedes elke każda each ea per-side e/s ps",
    "L": "izquierda izquierdo izq gauche linke linker lewa lewy lewo sinistra vänster venstre esquerda esquerdo l lt lft lhs lefty lefts leftie links",
    "R": "derecha derecho der droite rechte rechter prawa prawy prawo destra höger højre høyre direita direito rt right rigth rght rhs righty rechts rite",
    "j": "left",
    "C": "total altogether combined overall tot",
    "B": "unassisted bw bodyweight body unweighted",
    "c": "rot rotes rote gelb gelbe grün grünes grüne blau blaue schwarz schwarze rouge jaune vert verte bleu bleue noir noire rojo roja amarillo amarilla verde azul negro negra rood rode geel gele groen groene blauw blauwe zwart zwarte vermelho vermelha amarelo amarela preto preta rosso rossa giallo gialla nero nera czerwona zielona niebieska czarna yellow red green blue black silver gold orange purple pink grey gray white brown tan light medium heavy thin thick strong",
    "b": "band bands tube tubes loop loops elastic bnad",
    "Q": "added weighted extra vest",
    "q": "assist assisted assistance helped assisting",
    "I": "backpack rucksack bag sandbag bottle bottles jug jugs bucket kettlebell kettlebells kb kbs dumbbell dumbbells dumbell dumbells db dbs barbell bar plate suitcase",
    "a": "about around approx approximately roughly circa maybe ~ ca like probably nearly almost guess",
    "Y": "ish",
    "F": "failure fail failed amrapped maxed fails failing failure",
    "G": "kipped kipping swung swinging swingy heaved heaving bouncy sloppy ugly cheated cheat cheaty messy shaky cheating",
    "g": "clean strict crisp",
    "T": "rushed",
    "1": "top working work",
    "W": "opwarmen opwarmsets aufwärmen calentamiento calentando échauffement rozgrzewka oppvarming uppvärmning riscaldamento aquecimento warmup warmups wu warming warm-up",
    "K": "halfway halvies halfies halfs half-uns partial partials halves half-reps quarters quarter half lengthened partails partls",
    "Z": "rest-pause restpause rp cluster clusters myo myos myoreps myo-reps",
    "M": "matched matching",
    "S": "rpe",
    "y": "weight load wt gewicht",
    "V": "rir",
    "A": "dasselbe nochmal samma samme stesso znowu samesies igual idem gleich pareil hetzelfde same ditto again repeat likewise",
    "%": "also",
    "U": "up",
    "D": "down",
    "+": "more",
    "v": "less fewer",
    "*": "all every",
    "N": "not",
    "O": "",
    "k": "got did managed hit made done completed finished logged pulled pushed squeezed ground grinded cranked banged repped lifted moved "
    "went have hav had do doing reached kept stayed moved benched squatted pressed rowed curled held hold cranked smashed nailed gotten been",
    ".": "a an the my i im i'm ive i've was were is it it's its that that's thats this these those so and ok okay oh hey hi hello coach just "
    "only on in to too then but well yes yeah yep yup ya no wow phew ugh oof man dude bro lol haha lmao hmm um uh er erm ah alright right then "
    "set's one ones first second third fourth fifth last next today tonight now here there good great nice easy hard tough brutal heavy light "
    "killer rough solid strong weak tired ok fine felt feel feels feeling was really very pretty quite super bit little lot much way too "
    "still barely almost nearly finally even managed actually honestly tbh think reckon guess maybe after before between rest rested side sides "
    "arm arms leg legs hand hands weight weights kilos load reps time try tried attempt more log record save put note add me we be got some "
    "with out off over under from as than also again straight back bang smooth grindy grind slow fast grip sweaty burning pumped pump dead died "
    "dying killed killing me lungs legs done one's both all how about gave up went into thing things went got could would should everything "
    "work working working-set exercise session per myself you u ur your will going go gonna please pls plz thanks thx ty cheers sorry like "
    "kind kinda sort sorta max bad best better worse worst pb pr personal record new first hell damn shit fuck fucking bloody effing god gosh jeez crikey omg "
    "hot sweat sweating need water breather breath proud happy yay woo woohoo whoop boom let's lets come got'em em them em' spot wobbly wobble "
    "balance controlled slowly paused pause full range deep depth clean morning evening another struggled struggle struggling somehow harder easier heavier lighter slower faster quick barely ready managed previous remaining remained remain remains surprise surprised fresh fine fuel hungry sleepy tired-ish meh bleh ouf oooh aah yikes nope nah hm hmmm ahh ohh woah whoa grr aaah argh wobble pretty decent alrighty kk roger noted report reporting update updated entry result results score scores numbers here's heres here-is coming next-set complete okie okey dokie yessir yes! finally! session's felt-good tough-one im-dead bit's legit literally basically totally absolutely definitely certainly somewhat slightly proper properly stupid silly close minor extra-hard folks team guys everyone all-good peachy lovely beautiful awesome amazing fantastic sweet perfect excellent wonderful yeah! left-over because since though tho due set-wise reps' next' goes gone by myself yall did'nt "
    "surprisingly super actual whole entire couple few bro mate buddy boss chief coachy heya yo sup finish finished complete completed "
    "ez buggered knackered moved chair table sofa bench-top ready above otra otro mas más negatives negs eccentrics negative eccentric xx xxx xo xoxo feito hecho fertig fait klaar gotowe pronto listo hecha against despite during while beside onto bruh fam yaar innit mate luv honey love darling dear hun babe cap lightweight yall y'all wey dale vamos allez los genau puh uff ay oi lad lads gents peeps nah naw smashed wahey yas yass yesss "
    "stopped squeeze tempo number two's followed straight away round go" ,
}  # fmt: skip

LEXICON: dict[str, str] = {}
for _kind, _line in reversed(_WORDS.items()):  # the tables above win over the fillers below them
    for _word in _line.split():
        LEXICON[_word] = _kind
LEXICON |= {
    "or": "$",
    "banded": "b",
    "r": "r",
    "s": "s",
    "n": "&",
    "second": ".",
    "right": "R",
    "heavy": "c",
    "light": "c",
    "half": "K",
    "plus": "&",
    "k": ".",
}

# Phrases of two or more words; the first word finds them. The longest that fits wins.
_PHRASES = {
    "E": "e side|e leg|e arm|ea leg|ea arm|p side|pr side|/ side|e sides|cada pierna|cada lado|cada brazo|cada perna|cada braço|por lado|por pierna|por perna|pro seite|je seite|je bein|pro bein|pro arm|par jambe|par côté|par bras|chaque jambe|chaque côté|chaque cote|per kant|per been|per arm|na stronę|na nogę|each side|per side|a side|each way|each arm|each leg|each foot|per arm|per leg|each one side|both sides|either side|on each side|on both sides|"
    "on either side|both arms|both legs|e / s|p / s|each of the sides|per each side|on each|e s|for each side|for each leg|for each arm|to each side|"
    "on each leg|on each arm|on both legs|on both arms|ea side|each side's",
    "H": "both hands|in both hands|each hand|per hand|in each hand|a hand|each dumbbell|per dumbbell|each db|per db|apiece|per implement|each bell",
    "C": "in total|all together|all in",
    "B": "no bag|no pack|no backpack|no rucksack|no dumbbell|no dumbbells|no vest|no belt|without the bag|without the pack|bag off|vest off|sin peso|ohne gewicht|sans poids|nae weight|no band|no bands|without any band|without any bands|without any help|without help|without band|without a band|body weight|no weight|just bodyweight|just body weight|only bodyweight|nothing in my hands|nothing in my hand|nothing in hand|empty handed|empty hands|without weight|without any weight|without weights|without any weights|without added weight|no added weight|no extra weight|no weights|no load|just me|nothing extra|just my body|own weight|my own weight",
    "^": "on the last|for the last|on last|on the last one|on the last set|for the last one|for the last set",
    "$": "weaker side|weak side|stronger side|strong side|other side|bad side|good side|weaker arm|weaker leg|stronger arm|stronger leg|other arm|other leg|bad leg|bad arm|good leg|good arm|first side|second side|dominant side|weak arm|weak leg",
    "c": "extra light|extra heavy|x light|x heavy|super heavy|super light",
    "V": "im tank|in reserve|in the tank|left in the tank|in tank|left in me|in me|reps in reserve|rep in reserve|reps in the tank|rep in the tank|more in me|more in the tank|"
    "left in tank|reps left|rep left|more reps left|more left in the tank|to spare|reps to spare|rep to spare|reps short of failure|from failure|rep from failure|reps from failure|"
    "left over|more in reserve|more left in me|still in the tank|left in the bank|in the bank|reps shy of failure",
    "F": "to failure|till failure|until failure|to fail|went to failure|absolute failure|total failure|couldn't get another|couldnt get another|could not get another|"
    "couldn't do another|couldnt do another|couldn't do more|couldnt do more|all out|couldn't finish the next|till fail|zum versagen|to total failure|"
    "to complete failure|couldn't get the next|couldnt get the next|muscle failure",
    "G": "bit of swing|some swing|bit of a swing|bit swingy|bit of momentum|used momentum|some momentum|bit of body english|bit of heave|bit of bounce|form meh|meh form|form eh|form so so|form was meh|weren't pretty|werent pretty|wasn't pretty|wasnt pretty|not pretty|were ugly|got ugly|was ugly|were trash|trash form|were shaky|were rough|questionable form|bounced out|bounced them|were sloppy|got sloppy|back rounded|rounded back|back rounding|hips shot up|knees caved|knees caving|knee caved|caved in|butt came up|hips sagged|hips sagging|lost position|lost tension|form broke down|form broke|form went|form slipped|bad form|form was bad|form got sloppy|form breakdown|form fell apart|form was off|form gave out|form suffered|"
    "form got ugly|form went off|form was sloppy|form got messy|form gone|form was ugly|ugly form|poor form|sloppy form|lost form|form going|form was going|form started going|"
    "form was shaky|form shaky|form not great|form wasn't great|form wasnt great|form got bad|form was breaking down|form breaking down|form breaking|form died|lost my form|"
    "technique broke down|technique went|technique slipped|form a bit off|form bit off|not clean|form was terrible|form failed|form was poor|form got shaky|form broke at the end",
    "g": "with good form|with great form|with clean form|with perfect form|with strict form|with decent form|decent form|good form|form was good|form good|clean form|form held|form solid|form was solid|perfect form|strict form|form kept|form was fine|form stayed good|form ok|form fine|form was clean|"
    "all clean|form clean|form tight|form on point|form felt good|great form|form great|form was great|form spot on|form stayed solid|form stayed clean|form was perfect",
    "t": "kept the slow lower|kept it slow|slow as written|slow like you said|slow like it says|slow as asked|kept the slow lowering|kept the lowering slow|slow lowering kept|kept lowering slow|slow lowering every rep|tempo keep ok|tempo keep|keep tempo|kept tempo ok|tempo kept|tempo respected|tempo was respected|respected the tempo|tempo honest|tempo true|true to tempo|kept tempo|kept the tempo|tempo good|tempo held|held the tempo|held tempo|on tempo|good tempo|tempo was good|with tempo|tempo ok|tempo fine|in tempo|at tempo|"
    "to tempo|perfect tempo|tempo spot on|tempo perfect|tempo as written|strict tempo|stuck to the tempo|stuck to tempo|kept to tempo|kept to the tempo|tempo stayed",
    "T": "not the slow lowering|not slow enough|not on tempo|tempo lost|lost the tempo|lost tempo|tempo off|tempo was off|tempo not kept|no tempo|without tempo|tempo went|tempo slipped|too fast|tempo broke|tempo gone|"
    "didn't keep tempo|didnt keep tempo|didn't keep the tempo|didnt keep the tempo|tempo too fast|tempo got fast|faster than tempo|couldn't keep the tempo|couldnt keep the tempo|"
    "couldn't keep tempo|couldnt keep tempo|tempo was gone|tempo fell apart|tempo got faster|rushed the tempo|tempo bit fast|tempo was rushed|ignored the tempo|ignored tempo|forgot the tempo|forgot tempo",
    "W": "only to warm|just to warm|to warm up|to get warm|to warm|warmed up with|warmed up at|warmed up on|warmed up|warm up|warm ups|warm up set|warmup set|warm - up|warm - ups|as a warm up|as warm up|warming up|aufwärmsatz|ramp up|feeler set",
    "Z": "rest pause|rest - pause|rest paused|mini sets|with rest pause",
    "K": "half reps|half rep|partial reps|quarter reps|partial rep|bottom halves|top halves|short reps|half ones|short ones|bottom half reps|top half reps|lengthened partials|"
    "bottom partials|top partials|little ones|half range|part reps|half - reps|bouncy halves|pulses",
    "A": "repeated the previous set|repeated the last set|repeated the last one|repeated that|copy paste|carbon copy|exact copy|same plates|same bar|same bell|same bells|same dumbbells|same dbs|same pair|jeszcze raz to samo|to samo|jeszcze raz|lo mismo|el mismo|la misma|le même|la même|la même chose|pareil encore|das gleiche|das selbe|dasselbe nochmal|noch mal|lo stesso|la stessa|samma igen|samma som sist|det samme|samme igjen|o mesmo|a mesma|la fel|de nouveau|like before|as before|otra vez|once again|matched last set|matched the last set|matched that|exactly as the first|exactly like the first|just like the first|just as the first|exactly as the last|exactly like the last|same again|same as before|as before|same thing|the same|and again|once more|one more time|same thing again|same one|same numbers|exactly the same|same as that|"
    "same as the last|same as last set|same as first|same as set one|repeat of that|another one of those|another of the same|same deal|just the same|identical",
    "O": "as planned|as prescribed|as written|per plan|to plan|on plan|as per plan|as programmed|as per the plan|per the plan|as it says|like it says|as told|by the book|as per program|"
    "exactly as planned|as per programme|as in the plan|according to plan|as on the sheet|as on the plan|went to plan|as instructed|hit the target|hit target|hit the plan|as asked|as listed|what the plan says|"
    "what it says|as coach wrote|as scheduled|as per coach",
    "l": "last monday|last tuesday|last wednesday|last thursday|last friday|last saturday|last sunday|last week|last time|previous time|last session|the week before|previous week|last wk|time before|last workout|last week's|previous session|week before|last go|lst week|last weeks",
    "+": "seconds longer|secs longer|sec longer|s longer|one repetition more|1 repetition more|rep better|reps better|one better|one more|1 more|one rep more|1 rep more|an extra rep",
    "v": "one less|1 less|one fewer|1 fewer|one rep less|1 rep less|one rep fewer",
    "!": "nearly had|nearly got|nearly made|almost had|almost made|wanted|supposed to be|supposed to do|supposed to get|meant to be|meant to do|meant to get|was aiming for|aimed for|aiming for|aim was|target was|goal was|plan was|planned|prescribed|"
    "plan said|plan says|should have been|should've been|shouldve been|should be|was going for|was going for|instead of|out of|rather than|asked for|target|goal|the plan was|"
    "tried for|trying for|shooting for|shot for|hoping for|hoped for|was after|aim|called for|calls for|was planning|plan is|supposed to hit|meant to hit|needed|short of|of the planned|sheet says|"
    "program says|prescription was|prescription|sheet said|was hoping for|wanted to get|wanted to do|was supposed to be|was supposed to do|was meant to be|supposed to",
    "Y": "or so|or thereabouts|give or take|more or less|ish|i think|i guess|maybe|lost count|not sure|probably|or something|roughly",
    "a": "something like|close to|about|around|give or take",
    "0": "empty bar|just the bar|bar only|only the bar|the bar|bare bar|naked bar|unloaded bar|empty barbell|just bar|just the barbell",
    "P": "plates a side|plates per side|plates each side|plate a side|plate per side|plate each side",
    "M": "matched it|matched the|to match|same on the other|same other side|the same on the right|the same on the left|same on the right|same on the left|and the same on the other|same each side|both the same|same both sides|same on both|other side the same|same on the other side|"
    "same for the other side|same on other side|other side same|same other leg|same other arm|matched on the|same with the other",
    "d": "drop set|drop - set|dropped to|drop to|down to|then dropped to|dropped down to|dropping to|stripped to|strip to|reduced to|cut to|went down to|then drop to|then down to|dropped it to|drop down to|straight into|then straight into|straight down to|and straight to|then straight to|straight to",
    "h": "and then|followed by|after that|then did|then got|then just",
    "k": "ended up|ended with|ended up with|came out|came to|only got|only did|just did|got to|got up to|called it at|stopped at|stop at|had to stop at|ended on|ended at|finished with",
    "1": "real one|real ones|the real thing|proper set|proper sets|top set|top sets|work set|work sets|working set|working sets|main set|real set|real sets|first work set|straight sets|money set",
    ".": "all up|in a row|gave up|give up|gives up|giving up|set up|line up|on last 2|on last two|on last three|on last 3|on the last 2|on the last 3|for last 2|for last two|last 2 reps|last two reps|last rep or two|on the bar|on bar|all over|all round|all around|all day|from my knees|from the knees|on my knees|from knees|on knees|on the knees|at the end|at end|on the last two|on the last couple|on the last few|on the last three|on the last rep|on the last reps|on the last one or two|for the last two|for the last couple|for the last few|of the last|the last rep|last rep|last reps|last few|last couple|last two|last 2|last three|last 3|of them|on the end|of it|for once|"
    "at all|at least|at last|at most|at first|at the top|at the bottom|for real|for sure|for me|for now|for that|for this|for the first time|with that|with it|with this|with ease|all good|all done|"
    "by far|for today|of that|of those|of this|one of those|this one|that one|last one|first one|next one|time around|lots of|kind of|sort of|bit of|all the way|for a bit|for fun|"
    "of course|for set|at home|in the end|up there|with great|with good|for good|no more|not bad|not too bad|not easy|not great|not gonna lie|not lying|up next|for the|for my|of my|at that|at this|did it|got it|got them all|got em all|got there|all of them|every rep|every one|all reps|and that's that",
}  # fmt: skip

PHRASES: dict[str, list[tuple[tuple[str, ...], str]]] = {}
for _kind, _line in _PHRASES.items():
    for _phrase in _line.split("|"):
        _first, *_rest = _phrase.split()
        if _rest or _kind in "Y!" or _first not in LEXICON:
            PHRASES.setdefault(_first, []).append((tuple(_rest), _kind))
for _list in PHRASES.values():
    _list.sort(key=lambda item: -len(item[0]))

# Words that thumbs garble often; only swapped, doubled or dropped letters are mended ("eahc", "weigth"), never a letter for another.
_OFTEN_GARBLED = [
    "each",
    "side",
    "sides",
    "left",
    "right",
    "same",
    "with",
    "band",
    "weight",
    "kilos",
    "reps",
    "sets",
    "both",
    "then",
    "again",
    "seconds",
    "minutes",
    "pounds",
    "failure",
    "metres",
    "steps",
    "without",
    "another",
    "heavy",
    "light",
    "medium",
    "planned",
    "partials",
    "dropped",
    "assisted",
    "bodyweight",
]


@lru_cache(maxsize=4096)
def mended(word: str) -> str:
    """The word as it was meant where only its letters were garbled; else the word itself."""
    if len(word) < 4 or word in LEXICON or word in PHRASES:
        return word
    letters = sorted(set(word))
    for meant in _OFTEN_GARBLED:
        if (
            meant[0] == word[0]
            and sorted(set(meant)) == letters
            and abs(len(meant) - len(word)) <= 1
            and OSA.distance(meant, word) == 1
        ):
            return meant
    return word


UNITS: dict[str, Unit] = dict.fromkeys(
    ("lb", "lbs", "pound", "pounds", "pounder", "pounders", "pnds", "pund", "punds", "#"), Unit.LB
)
THINGS = {
    "kb": "kettlebell", "kbs": "kettlebell", "kettlebells": "kettlebell", "db": "dumbbell", "dbs": "dumbbell", "dumbbells": "dumbbell",
    "dumbell": "dumbbell", "dumbells": "dumbbell", "bar": "barbell", "rucksack": "backpack", "bottles": "bottle", "jugs": "jug", "bag": "backpack",
}  # fmt: skip
# Said as ordinals: "2nd set", "second set".
ORDINALS = {"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6}
# Every way of numbering a set, "set two", "the 2nd", "2": its number.
SET_NUMBERS = ORDINALS | {
    said: number
    for number, ways in enumerate(("1 1st one", "2 2nd two", "3 3rd three", "4 4th four", "5 5th five", "6 6th six"), start=1)
    for said in ways.split()
}
COLOURS = "yellow|red|green|blue|black|silver|gold|orange|purple|pink|gr[ae]y|white|brown"  # of bands, as a part of patterns
SHADES = f"{COLOURS}|tan|light|medium|heavy"
REMARKS = frozenset(
    [
        "easy",
        "hard",
        "tough",
        "brutal",
        "heavy",
        "light",
        "killer",
        "rough",
        "solid",
        "wobbly",
        "shaky",
        "grindy",
        "smooth",
        "slow",
        "paused",
        "burning",
        "grip",
        "sweaty",
        "balance",
        "deep",
        "controlled",
        "tired",
        "weak",
    ]
)
