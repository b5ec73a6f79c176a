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

from bot.language.safety.things import things_in


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


def _wish(needs: str, within: int) -> Picture:
    return Picture("self_harm", tuple(needs.split(" ")), within, True, _JOKED)


# What makes a picture plain: work for the muscle there, an object, a figure of speech.
_WORKED_CHEST = r" (?:fly|flys|flies|flyes|presses|pushups|push ups|press ups|dips|doms|pump|pumped|sore|day|workout|bench|bands|dumbbell|bar|height|to (?:the )?floor|touch|touching)(?= |$)"
_JOKED = r" (?:squats?|burpees?|lunges?|bulgarians?|finisher|amrap|tempo|sets?|reps?|set|workout|session|rack|box|bench|leg day|plan|app|gym|hill|treadmill|bike|lol)(?= |$)"
_OUTDOORS = r"| (?:glute|hip|leg|bridges|thrust|climb|battle|skipping|kit|run to|photo|view|catch|late|ticket|station|work|home|platform|commute|food|chopping)(?= |$)"
_LITERAL = r" (?:fly|flyes|presses|pushups|push ups|sit ups|situps|ups|carry|carries|walk|march|plank|dips|pump|doms|bench|bar|barbell|dumbbell|kettlebell|plate|band|bands|squat|squats|holding|hugging|held|to (?:the )?floor|lol|nap|purring|playing|cuddle|cuddling|cute)(?= |$)"
_HELD = r" (?:band|bands|grip|strap|straps|handle|wrap|wraps|sleeve|sleeves|pump|doms|curl|curls|row|rows|bar|dumbbell|dumbbells|bell|bells|weight|weights|plate|plates|kg|lb|press|squat|lunge|reps|set|sore|stretch)(?= |$)"
_DRINKS = r" (?:break|stop|pint|cup|mug|quick|zero|diet|shop|kettle|after (?:my|a|the) (?:tea|coffee))(?= |$)"
_STIFF = r" (?:upper back|desk|all day|stiff|stretch|stretching|mobility|foam|roller|massage|doms|posture|sore|band|bands|squats|rack|clean)(?= |$)"
_SCREEN = r" (?:video|videos|plan|plans|app|link|demo|clip|workout|block|sheet|pdf|table|chart|photo|picture|loading|scroll|exercise|exercises|week)(?= |$)"
_POLISH = (
    r" (?:painted|painting|her nails|my nails|toenails|smoothie|gum|mints?|metcon|burpees|sprints?|sets?|rounds?|finisher)(?= |$)"
)
_WORKED = r" (?:doms|pump|pumped|sore|weaker|stronger|than)(?= |$)"

PICTURES: tuple[Picture, ...] = (
    _p("chest", "chest press", 10, unless=_WORKED_CHEST),
    _p("chest", "chest pain", 10, unless=_WORKED_CHEST),
    _p("chest", "chest spread reach", 12, unless=_WORKED_CHEST),
    _p("chest", "simile chest load", 12, unless=_WORKED_CHEST),
    _p("chest", "chest load placed", 10, sure=False, unless=_LITERAL),
    _p("chest", "simile load on_me", 10, sure=False),
    _p("chest", "chest odd sweat", 14, unless=_WORKED_CHEST),
    _p("chest", "chest odd sick", 14, unless=_WORKED_CHEST),
    _p("chest", "chest odd rest", 14, unless=_WORKED_CHEST),
    _p("chest", "chest odd", 4, sure=False, unless=_WORKED_CHEST),
    _p("chest", "chest earnest", 8, unless=_WORKED_CHEST),
    _p("chest", "same_chest", 6),
    _p("chest", "jaw_move", 6, sure=False, unless=r" (?:dentist|filling|pump|doms|band|stretch|curl|curls)(?= |$)"),
    _p("chest", "crush stopped_me", 9, sure=False, unless=_HELD + "|" + _STIFF + r"| (?:hamstrings?|calf|calves|hips?|quads?|glutes?|groin|traps|lats|schedule|time)(?= |$)"),
    _p("chest", "press round_me", 6, sure=False, unless=r" (?:arms|hands|wrists|legs|knees|loop|resistance|weight belt|lifting belt|vest|hug|towel|kids|family)(?= |$)"),
    _p("chest", "upfront press", 9, sure=False, unless=_HELD + "|" + _STIFF),
    _p("chest", "pain across", 6, sure=False, unless=_WORKED),
    _p("chest", "crush plea", 8, sure=False, unless=r" (?:it|plan|week|block|with|band|machine|schedule|time|hamstrings|hips|calves|traps)(?= |$)"),
    _p("chest", "three_places", 6, sure=False, unless=_WORKED_CHEST),
    _p("chest", "spray press", 10),
    _p("chest", "spray chest", 10),
    _p("chest", "trunk pain far", 10, sure=False, unless=_WORKED),
    _p("chest", "left_limb dead sick", 16, unless=_WORKED),
    _p("chest", "trunk press far", 12, unless=_WORKED),
    _p("chest", "press spread far", 12, unless=_HELD),
    _p("chest", "trunk press through_back", 14, unless=_STIFF),
    _p("chest", "trunk pain through_back", 14, sure=False, unless=_STIFF),
    _p("chest", "trunk press limbs dead", 14, unless=_WORKED),
    _p("chest", "simile ribcage press", 9, sure=False, unless=_STIFF),
    _p("chest", "trunk press idle", 14, sure=False, unless=_STIFF),
    _p("chest", "chest sweat sick", 16),
    _p("chest", "trunk press sweat", 16),
    _p("chest", "trunk press sick", 16),
    _p("chest", "trunk pain sweat", 16),
    _p("chest", "trunk pain sick", 16),
    _p("chest", "reach pain sweat", 14, unless=_WORKED),
    _p("chest", "left_limb dead sick", 16, unless=_WORKED),
    _p("chest", "left_limb dead sweat", 16, unless=_WORKED),
    _p("breath", "pressed_on purple", 12),
    _p("injury", "bar_on neckparts", 8, unless=r" (?:squat|squats|thrust|thrusts|rack|pad)(?= |$)"),
    _p("blood", "blood_up coughed", 8),
    _p("blood", "coughing reddish", 7, unless=r" (?:wine|face|band|bands|dumbbell|kettlebell|handle|shirt)(?= |$)"),
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
    _p("heart", "heart calm", 9),
    _p("heart", "pulse_place idle", 14),
    _p("heart", "pulse_place calm", 12),
    _p("heart", "rhythm", 8, sure=False, unless=r" (?:music|song|songs|playlist|tempo|metronome|beat of|dance)(?= |$)"),
    _p("heart", "watch fast idle", 12),
    _p("heart", "thump beat_gone", 5, sure=False, unless=r" (?:bass|music|song|neighbours|weights|dropped|floor|door|left|in the tank)(?= |$)"),
    _p("heart", "trunk leaps calm", 14),
    _p("heart", "trunk leaps idle", 14, sure=False),
    _p("breath", "breath fails", 8),
    _p("breath", "puffed idle", 14),
    _p("breath", "throat narrow", 6, unless=r" (?:cold|flu|tonsils|lozenge|lozenges|choked up|film|tie|crying)(?= |$)"),
    _p("breath", "cant utter breath", 14),
    _p("breath", "cant utter", 7, sure=False, unless=r" (?:trainer|coach to|german|english|boss|work|later|tomorrow|today|on the phone)(?= |$)"),
    _p("breath", "stuck_throat", 8),
    _p("faint", "next floor", 11),
    _p("faint", "gap moments", 8, sure=False, unless=r" (?:timer|rest|queue|looking for|setting|app|video)(?= |$)"),
    _p("faint", "gap moments floor", 16),
    _p("faint", "blink downlow", 10),
    _p("faint", "selfoff brief", 10),
    _p("faint", "selfoff downlow", 14),
    _p("faint", "selfoff upright", 14),
    _p("faint", "selfoff next", 12),
    _p("faint", "verge fading", 14),
    _p("faint", "verge sick", 12, sure=False),
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
    _p("stroke", "half_me dead", 10, unless=_WORKED),
    _p("stroke", "one_handed dead", 16),
    _p("stroke", "limbs alien", 6, sure=False, unless=_WORKED + r"| (?:after|lol|day|session|tomorrow)(?= |$)"),
    _p("stroke", "letters swim", 14, sure=False, unless=_SCREEN + r"| (?:glasses|font|language|translate|handwriting)(?= |$)"),
    _p("stroke", "veer", 6, sure=False, unless=r" (?:car|bike|steering|bar path|drunk|night out|lol|wheel|sled|trolley)(?= |$)"),
    _p("head", "pupil uneven", 6),
    _p("head", "blow pupil", 20),
    _p("head", "blow thinners", 24),
    _p("stroke", "side limbs limb_too dead", 16, unless=_WORKED),
    _p("stroke", "limb_too dead", 10, sure=False, unless=_WORKED),
    _p("stroke", "word_swap", 6, sure=False, unless=_SCREEN + r"| (?:hi|hello|thanks|thank|sorry|autocorrect|language|english|german|spanish|exercise|called|name)(?= |$)"),
    _p("stroke", "limbs unfelt sudden", 12, unless=_WORKED),
    _p("stroke", "waist_down no_sense", 9, unless=_WORKED),
    _p("stroke", "one_handed", 8, sure=False, unless=r" (?:baby|coffee|holding|cast|sling|dog|broken|gloves|shake|plaster|lol)(?= |$)"),
    _p("stroke", "see_verb half_seen", 9, unless=_SCREEN),
    _p("stroke", "see_verb half_view", 9, sure=False, unless=_SCREEN),
    _p("stroke", "dropping objects dead", 11),
    _p("stroke", "limbs dead sudden", 10, unless=_WORKED),
    _p("stroke", "eye blinded", 11, unless=r" (?:video|videos|plan|plans|app|screen|picture|photo|link|demo|form|mirror|phone|message)(?= |$)"),
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
    _p("injury", "sliced flesh gushes", 20),
    _p("injury", "sliced deep", 10),
    _p("injury", "cut deep", 9, unless=r" (?:shirt|skin is|band|gloves|calories|cutting)(?= |$)"),
    _p("injury", "digit severed", 8),
    _p("injury", "took poison", 12),
    _p("injury", "got_into medicine mouth_burn", 18),
    _p("injury", "got_into amount medicine", 9),
    _p("injury", "young got_into medicine", 14),
    _p("injury", "gas gas_signs", 14, sure=False, unless=r" (?:lunch|party|food|steak|burger|burgers|dinner|sausages)(?= |$)"),
    _p("injury", "shock shock_signs", 14),
    _p("pregnancy", "weeks_gone preg_sign", 16, unless=r" (?:block|plan|programme|program|training|left|ago|postpartum|post partum)(?= |$)"),
    _p("injury", "burn_how skin_off", 12),
    _p("injury", "nose nose_long", 14, unless=r" (?:run|ran|running|cold|snot|blocked|sneezing)(?= |$)"),
    _p("injury", "stool bleed_stool", 6),
    _p("clot", "legpart swells stabs_breath", 24),
    _p("urine", "urine cola", 8, unless=_DRINKS),
    _p("injury", "gut pain rigid", 11),
    _p("injury", "testes pain", 10),
    _p("injury", "testes swells", 10),
    _p("sugar", "sugar shaky", 11),
    _p("sugar", "diabetic ketone_breath", 24, unless=_POLISH),
    _p("sugar", "no_insulin vomits", 16),
    _p("breath", "edges bluish", 7, unless=r" (?:band|bands|polish|paint|bruise|bruised|dumbbell|lipstick|nail varnish|beard|mask|cold water)(?= |$)"),
    _p("stroke", "letters garbled sudden", 16),
    _p("heat", "hot heat_signs", 18),
    _p("heat", "dry baffled", 18),
    _p("unwell", "fever baffled", 12),
    _p("other", "person down", 18),
    _pain("joint jab", 6),
    _pain("joint moan", 8, unless=r" (?:day|days|session|workout|tomorrow|exercise|work|later|good|great|fine|better|row|rows|raise|raises|press|presses|off|squat|squats|stretch|mobility|rest|time|happy|band|sleeve|sleeves|wraps|pain free)(?= |$)"),
    _pain("meat jab", 6, unless=r" (?:pump|doms|good ache|in a good way|machine|ache from|sore|lol)(?= |$)"),
    _pain("meat torn odd_spot", 8, unless=r" (?:pull|pull ups|pump|doms|machine|dead|jelly|lol)(?= |$)"),
    _pain("joint sore no_muscle", 11),
    _pain("meat sore no_muscle", 11),
    _pain("score joint", 7),
    _pain("score meat", 7),
    _pain("wrong_there joint", 5),
    _pain("joint suffer", 7, unless=r" (?:doms|pump|lol|loved|brilliant|good way|happy)(?= |$)"),
    _pain("meat suffer", 5, unless=r" (?:doms|pump|lol|loved|love|brilliant|good way|happy|sore|burpees|finisher|amrap)(?= |$)"),
    _pain("felt_give joint", 8, unless=r" (?:band|strap|rack|bench|bar|shoe)(?= |$)"),
    _pain("felt_give meat", 8, unless=r" (?:band|strap|rack|bench|bar|shoe)(?= |$)"),
    _pain("wrong_there meat", 5),
    _p("seizure", "seized all_shakes", 12),
    _wish("wish end_self", 7),
    _wish("gone_me better_off", 14),
    _wish("no_more", 12),
    _wish("means", 8),
    _wish("pills tempt", 10),
    Picture("self_harm", ("wish", "means_place"), 11, True, _JOKED + _OUTDOORS),
    _wish("farewell", 8),
)  # fmt: skip


_BESIDE = 8  # words


def pictures_in(line: str) -> Iterator[Seen]:
    """Every picture that a line holds, in the table's order, each once. line: folded words, a space before each."""
    places = _places(line)
    have = sum(_bits()[thing] for thing in places if thing in _bits())
    for needed, picture in _needed():
        if needed & ~have:
            continue
        found = _nearest(line, [places[need] for need in picture.needs], picture.within)
        if found and not (picture.unless and re.search(picture.unless, _around(line, *found))):
            yield Seen(picture, *found)


def _around(line: str, start: int, end: int) -> str:
    """A stretch of a line and the words beside it: what makes a picture plain stands near it, not anywhere in a long text."""
    before, after = line[:start].rsplit(" ", _BESIDE), line[end:].split(" ", _BESIDE + 1)
    return " " + " ".join([*before[-_BESIDE:], line[start:end].strip(), *after[: _BESIDE + 1]]).replace("  ", " ")


_DENIAL = re.compile(
    r" (?:no|not|without|zero|never|nor|any|isnt|wasnt|arent|dont|didnt|doesnt)(?: (?:any|more|a|my|the|real|really|longer|have|feel|get|in|of))* $"
)


@lru_cache(maxsize=1)
def _bits() -> dict[str, int]:
    """A bit for each thing that a picture needs: whether a line has all of them is then one sum."""
    return {thing: 1 << place for place, thing in enumerate(sorted({need for picture in PICTURES for need in picture.needs}))}


@lru_cache(maxsize=1)
def _needed() -> tuple[tuple[int, Picture], ...]:
    return tuple((sum(_bits()[need] for need in set(picture.needs)), picture) for picture in PICTURES)


_DENIAL_REACH = 80  # characters; the longest denial is shorter


def _places(line: str) -> dict[str, list[tuple[int, int]]]:
    """Thing -> where it is said, and not denied."""
    found: dict[str, list[tuple[int, int]]] = {}
    for name, start, end in things_in(line):
        if not _DENIAL.search(line[max(0, start - _DENIAL_REACH) : start] + " "):
            found.setdefault(name, []).append((start, end))
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
