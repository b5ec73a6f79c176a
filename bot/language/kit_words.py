"""What does a member own, said in words?

    "dumbbells 2-24 by 2, a bench and a pull up bar"     -> items, and a dumbbell ladder 2, 4 ... 24
    "one kettlebell 16kg and bands: yellow red black"    -> a single 16, three bands, lightest first as said
    "barbell 20 with plates 2x20 2x10 4x5 2x2.5"         -> every whole-bar load those plates allow
    "adjustable dumbbells up to 24 kg"                   -> a ladder in steps of 2 (common practice for home sets)

Plan: cut the text where a thing is named, then read the numbers that stand between it and the next thing.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from decimal import Decimal

from bot.training.kit import Kit, KitItem, Ladder, barbell_ladder
from bot.training.loads import Unit

# What people call each thing; tried longest first, at word edges, with an optional plural.
_NAMES: tuple[tuple[str, KitItem], ...] = tuple(
    sorted(
        (
            (name, item)
            for item, names in {
                KitItem.DUMBBELL: "dumbbell|dumbell|dumb bell|db|hand weight|free weight",
                KitItem.BARBELL: "barbell|bar bell|olympic bar|straight bar|bb",
                KitItem.KETTLEBELL: "kettlebell|kettle bell|kb|bell",
                KitItem.PLATE: "weight plate|loose plate",
                KitItem.MINI_BAND: "mini band|miniband|booty band|hip band|glute band|short loop|small loop|short band",
                KitItem.BAND: "resistance band|long band|loop band|power band|pull up band|tube|elastic|rubber band|band",
                KitItem.INCLINE_BENCH: "adjustable bench|incline bench|foldable bench|inclinable bench",
                KitItem.BENCH: "flat bench|weight bench|bench",
                KitItem.RACK: "squat rack|power rack|half rack|squat stand|rack|cage",
                KitItem.PULL_UP_BAR: "pull up bar|pullup bar|pull-up bar|chin up bar|chinup bar|doorway bar|door bar|bar in the door",
                KitItem.DIP_BARS: "dip bar|dip station|dip stand|parallel bar|parallette",
                KitItem.RINGS: "gym ring|ring|suspension strap|suspension trainer|straps|sling",
                KitItem.BOX: "plyo box|box|aerobic step|step|low table|sturdy table|coffee table",
                KitItem.SLIDER: "slider|gliding disc|glider",
                KitItem.BACKPACK: "backpack|rucksack",
                KitItem.SANDBAG: "sandbag|sand bag",
                KitItem.MEDICINE_BALL: "medicine ball|med ball|slam ball",
                KitItem.BALL: "exercise ball|gym ball|stability ball|big ball|yoga ball|ball",
                KitItem.AB_WHEEL: "ab wheel|ab roller|roller wheel",
                KitItem.WEIGHT_VEST: "weight vest|weighted vest|vest",
                KitItem.ANKLE_WEIGHT: "ankle weight",
                KitItem.DOOR_ANCHOR: "door anchor",
                KitItem.FOAM_ROLLER: "foam roller",
                KitItem.EZ_BAR: "ez bar|ez-bar|curl bar|curling bar",
                KitItem.TRAP_BAR: "trap bar|hex bar",
                KitItem.CABLE: "cable machine|cable|pulley",
                KitItem.LANDMINE: "landmine",
                KitItem.LAT_PULLDOWN: "lat pulldown|pulldown",
            }.items()
            for name in names.split("|")
        ),
        key=lambda pair: -len(pair[0]),
    )
)
_BY_NAME = dict(_NAMES)
_THING = re.compile(r"\b(" + "|".join(re.escape(name).replace(r"\ ", r"[ -]?") for name, _ in _NAMES) + r")(?:s|es)?\b")
_NUMBER = r"\d+(?:[.,]\d+)?"
_RANGE = re.compile(rf"({_NUMBER})\s*(?:kg|lbs?|lb)?\s*(?:-|–|to|up to|through)\s*({_NUMBER})")
_UP_TO = re.compile(rf"(?:up to|max(?:imum)?|to)\s*({_NUMBER})")
_STEP = re.compile(
    rf"(?:by|in|steps? of|every|increments? of)\s+(?:steps? of\s+)?({_NUMBER})\s*(?:kg|lbs?)?(?:\s*(?:steps?|jumps?|increments?))?"
)
_COUNTED = re.compile(rf"(\d+)\s*[x×]\s*({_NUMBER})")
_UNIT = re.compile(r"\b(?:\d+(?:[.,]\d+)?)?\s*(kg|kilos?|kgs|lbs?|pounds?)\b")
_WEIGHED = frozenset({KitItem.DUMBBELL, KitItem.KETTLEBELL, KitItem.BARBELL, KitItem.EZ_BAR, KitItem.PLATE})
_NOTHING = re.compile(r"\b(nothing|none|no kit|no equipment|just me|body ?weight( only)?|only (my )?body)\b")
_COLOURS = "yellow|red|green|blue|black|silver|gold|orange|purple|pink|grey|gray|white|brown|tan"
_STRENGTHS = "extra light|x-light|light|medium|heavy|extra heavy|x-heavy"
_BAND_NAME = re.compile(rf"\b({_STRENGTHS}|{_COLOURS})\b")
# Usual first settings when only a top is said (common practice).
_USUAL_STEP = {Unit.KG: Decimal(2), Unit.LB: Decimal(5)}


@dataclass(frozen=True, slots=True)
class KitReading:
    """kit: what was understood; nothing_owned: "nothing" was said; unread: True if no thing was recognised at all."""

    kit: Kit
    nothing_owned: bool = False
    unread: bool = False


def read_kit(text: str, unit: Unit) -> KitReading:
    """Read a member's words about the kit. Amounts without a unit are in the member's."""
    folded = re.sub(r"[ \t]+", " ", text.casefold().replace("\n", ", "))[:1500]
    found = list(_THING.finditer(folded))
    if not found:
        nothing = bool(_NOTHING.search(folded))
        return KitReading(Kit(), nothing_owned=nothing, unread=not nothing)
    kit = Kit()
    for n, thing in enumerate(found):
        start = 0 if n == 0 else _lead_in(folded, found[n - 1].end(), thing.start())
        stop = len(folded) if n + 1 == len(found) else _lead_in(folded, thing.end(), found[n + 1].start())
        before, after = folded[start : thing.start()], folded[thing.end() : stop]
        kit = _with(kit, _item(thing[1]), before, after, unit)
    return KitReading(kit)


def _item(name: str) -> KitItem:
    known = _BY_NAME.get(name) or _BY_NAME.get(name.replace("-", " "))
    return known or next(item for each, item in _NAMES if each.replace(" ", "") == re.sub(r"[ -]", "", name))


def _lead_in(text: str, end: int, start: int) -> int:
    """Where the words that belong to the next thing begin: after the last comma or "and" between two things."""
    between = text[end:start]
    cuts = [cut.end() for cut in re.finditer(r"[,;/]|\band\b|\bplus\b", between)]
    inside = [cut for cut in cuts if not re.search(rf"^\s*{_NUMBER}\s*(?:kg|lbs?)?\s*[,;]", between[cut:])]
    coloured = [found.start() for found in _BAND_NAME.finditer(between)]  # "red and black bands" is one thing
    inside = [cut for cut in inside if not (coloured and coloured[0] < cut <= coloured[-1])]
    return end + (inside[-1] if inside else len(between))


def _with(kit: Kit, item: KitItem, before: str, after: str, unit: Unit) -> Kit:
    kit = replace(kit, items=kit.items | {item})
    if item is KitItem.BAND or item is KitItem.MINI_BAND:
        names = tuple(dict.fromkeys(_BAND_NAME.findall(before + " " + after)))
        return replace(kit, bands=(*kit.bands, *names)) if names and item is KitItem.BAND else kit
    if item not in _WEIGHED:
        return kit
    said = f"{before} {after}"
    own_unit = _unit_in(said) or unit
    if item is KitItem.BARBELL:
        return _with_barbell(kit, after or before, own_unit)
    ladder = _ladder(item, said, own_unit)
    if ladder is None:
        return kit
    others = tuple(other for other in kit.ladders if other.item is not item)
    return replace(kit, ladders=(*others, ladder))


def _unit_in(text: str) -> Unit | None:
    found = _UNIT.search(text)
    return (Unit.KG if found[1].startswith("k") else Unit.LB) if found else None


def _number(text: str) -> Decimal:
    return Decimal(text.replace(",", "."))


def _ladder(item: KitItem, said: str, unit: Unit) -> Ladder | None:
    """The settings that the words describe; None if no number was said."""
    pairs = item is KitItem.DUMBBELL and not re.search(r"\b(one|single|a|1)\s*$|\bsingle\b", said.split(",")[0].strip())
    counted = [(int(n), _number(amount)) for n, amount in _COUNTED.findall(said)]
    if counted:
        return Ladder(item, unit, tuple(sorted({amount for _, amount in counted})), any(n >= 2 for n, _ in counted))
    step = _STEP.search(said)
    plain = said[: step.start()] + said[step.end() :] if step else said
    spans = _RANGE.search(plain)
    top = None if spans else _UP_TO.search(plain)
    if spans or top:
        low, high = (_number(spans[1]), _number(spans[2])) if spans else (None, _number(top[1]) if top else Decimal(0))
        gap = _number(step[1]) if step else (_USUAL_STEP[unit] if high > 10 else Decimal(1))
        first = low if low is not None else gap
        if gap <= 0 or high < first or (high - first) / gap > 200:
            return None
        return Ladder(item, unit, tuple(first + gap * n for n in range(int((high - first) / gap) + 1)), pairs)
    amounts = sorted({_number(amount) for amount in re.findall(_NUMBER, re.sub(r"\b[12]\s*$", "", plain)) if _number(amount) > 0})
    return Ladder(item, unit, tuple(amounts), pairs) if amounts else None


def _with_barbell(kit: Kit, said: str, unit: Unit) -> Kit:
    """A bar and its plates. Plates are counted as owned ("2x20"), so half of them go on each side."""
    plates = tuple((_number(amount), int(count) // 2) for count, amount in _COUNTED.findall(said))
    rest = _COUNTED.sub(" ", said)
    alone = re.findall(_NUMBER, rest.split("plate")[0])
    bar = _number(alone[0]) if alone else (Decimal(20) if unit is Unit.KG else Decimal(45))
    kit = replace(kit, bar=(bar, unit))
    usable = tuple((amount, count) for amount, count in plates if count > 0)
    if not usable:
        return kit
    ladder = barbell_ladder(bar=bar, plates_each_side=usable[:8], unit=unit)
    return replace(kit, ladders=(*(other for other in kit.ladders if other.item is not KitItem.BARBELL), ladder))
