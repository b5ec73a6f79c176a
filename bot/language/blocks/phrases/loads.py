"""Which load is asked for, and how does it move from set to set?

"@ 24 kg", "pair of 12 kg", "red band"      -> the load        "60x8, 65x6"  -> loads with their reps
"add weight each set", "same weight"        -> the rule        "24-28 kg"    -> 24 kg to begin with, and the range as a note
"""

from __future__ import annotations

import re
from decimal import Decimal

from bot.language.blocks import counts
from bot.language.blocks.amounts import LOAD_PATTERN, decimal, read_load
from bot.language.blocks.letters import even
from bot.language.blocks.phrases.free_words import add_keyed
from bot.language.blocks.scan import GONE, Scan, Scheme
from bot.training.blocks import LoadRule, Measure
from bot.training.loads import Load, LoadKind, Unit

_EACH_SET = r"(?:\s+(?:a\s+(?:little|bit|touch)|slightly))?(?:[\s,]*(?:each|every|per|from|over\s+the|set\s+(?:by|to)|with\s+each|as\s+(?:the\s+)?reps\s+(?:fall|drop|go\s+down))\s*(?:sets?|time|set\s+to\s+set)?(?:\s+set)?)?"
_WEIGHT = r"(?:the\s+|some\s+|a\s+(?:little|bit\s+of)\s+)?(?:weight|load|resistance|kg|lbs?)s?"
_RULES = (
    (LoadRule.SAME, re.compile(r"\b(?:(?:keep|use|with|hold|at)\s+)?(?:the\s+)?same\s+(?:weight|load|db|dumbbell|kb|band)s?(?:\s+(?:across|for|on|over|through(?:out)?|all|as)(?:\s+(?:all|every|the)?\s*(?:sets?|set\s+\d|way))?)*(?:\s+sets)?\b|\bone\s+(?:weight|load)\s+(?:for|over|across)\s+all\s+sets\b|\b(?:straight|constant)\s+(?:weight|load)\b|\bload\s*[:=]\s*same\b", re.I)),
    (LoadRule.RISES, re.compile(rf"\b(?:add(?:ing)?|increas(?:e|ing)|rais(?:e|ing)|up(?:ping)?|more|bump(?:ing)?(?:\s+up)?)\s+{_WEIGHT}{_EACH_SET}|\b(?:go(?:ing)?\s+up(?:\s+in\s+(?:weight|load))?|(?:go(?:ing)?|get(?:ting)?)\s+heavier){_EACH_SET}|\bheavier(?:\s+with)?\s+(?:each|every)\s+(?:set|time|round|trip)|\bascending\s+(?:weights?|loads?)|\b(?:weights?|loads?)\s+(?:goes|go|rises|going|up|climbs?)(?:\s+up)?{_EACH_SET}|\bramp(?:ing)?(?:\s+up)?(?:\s+(?:the\s+)?(?:weight|load))?{_EACH_SET}|\bwork(?:ing)?\s+up(?:\s+(?:in\s+(?:weight|load)|to\s+(?:a\s+)?(?:heavy|hard|top)(?:\s+(?:set|one|last\s+set))?))?\b|\bload\s*[:=]\s*rises\b|\bbuild(?:ing)?\s+up(?:\s+(?:the\s+)?(?:weight|load))?\b", re.I)),
    (LoadRule.FALLS, re.compile(rf"\b(?:reduc(?:e|ing)|lower(?:ing)?|lighten(?:ing)?|decreas(?:e|ing)|less|drop(?:ping)?|take\s+off|tak(?:e|ing)(?:\s+off)?|strip(?:ping)?)\s+{_WEIGHT}(?:\s+off)?{_EACH_SET}|\b(?:go(?:ing)?|get(?:ting)?)\s+lighter{_EACH_SET}|\blighter(?:\s+with)?\s+(?:each|every)\s+set|\bdescending\s+(?:weights?|loads?)|\b(?:weights?|loads?)\s+(?:comes|goes|falls|drops|coming|going|go|come)(?:\s+down)?{_EACH_SET}|\bload\s*[:=]\s*falls\b", re.I)),
)  # fmt: skip


def take_load_rules(scan: Scan) -> None:
    for rule, pattern in _RULES:
        for _found in scan.take(pattern):
            scan.out.fields.setdefault("load_rule", rule)


_LOAD_KEYED = re.compile(
    rf"\bload\s*[:=]?\s*(?P<load>(?:pair of\s+|[+-]\s*)?{LOAD_PATTERN}[^,;|\n{GONE}]*|body\s?weight|[^,;|\n{GONE}\d]+\s+bands?(?:\s+of\s+help)?)",
    re.I,
)
_LOADS = re.compile(
    rf"(?:(?:@|(?<![a-z])(?:at|with|using|use|x))\s*)?(?:a\s+)?(?P<load>(?:pair\s+of\s+|(?<![\dx.])2\s*x\s*(?={LOAD_PATTERN})|[+-]\s*)?{LOAD_PATTERN}(?:\s*(?:each(?:\s+hand)?|per\s+hand|in\s+each\s+hand|of\s+help|assist(?:ed|ance)?)\b)?)",
    re.I,
)
_COLOURS = r"(?:extra[\s-]light|extra[\s-]heavy|x-light|x-heavy|light|medium|heavy|yellow|red|green|blue|black|silver|gold|orange|purple|pink|grey|gray|white|brown)"
_BAND = re.compile(
    rf"(?:@|with|using|use)\s*(?:a\s+|the\s+)?(?P<load>{_COLOURS}(?:\s*(?:\+|and)\s*{_COLOURS})*\s+bands?)\b", re.I
)


_LOAD_SPAN = re.compile(
    r"(?:@|at|with|load)?\s*(?<![\d.x])(?P<low>\d+(?:[.,]\d+)?)\s*(?:kgs?|kilos?|lbs?|pounds?)?\s*(?:-|\bto\b|\bor\b)\s*\d+(?:[.,]\d+)?\s*(?P<unit>kgs?\b|kilos?\b|lbs?\b|pounds?\b)",
    re.I,
)


_SIGNED = re.compile(
    r"@\s*(?P<load>\d{2,3}(?:[.,]\d)?)(?![\d.:x%/-]|\s*(?:%|rm\b|rpe\b|rir\b|kgs?\b|kilos?\b|lbs?\b|pounds?\b|s\b|secs?\b|deg|°|tempo))",
    re.I,
)
_COMPACT_TEMPO = re.compile(r"[2-6][0-3][0-3]")


def take_signed_loads(scan: Scan, unit: Unit | None) -> None:
    """ "@55" where the coach said which unit all loads are in; three figures that may be a tempo are one."""
    if unit is None:
        return
    has_tempo = bool(re.search(r"(?<!\w)t(?:empo)?\s*[:=]?\s*\d\d", scan.left, re.I))
    for found in scan.take(_SIGNED, lambda found: has_tempo or not _COMPACT_TEMPO.fullmatch(found["load"])):
        scan.mark("load", (Load(LoadKind.IMPLEMENT, decimal(found["load"]), unit),), found)


_MORE_LOAD = re.compile(
    rf"(?:\b(?:add(?:ing)?|plus|go(?:ing)?\s+up(?:\s+by)?|up|increas(?:e|ing)(?:\s+by)?)\s+|\+\s?){LOAD_PATTERN}(?:\s*-\s*{LOAD_PATTERN})?\s*(?:(?:each|every|per|a)\s+(?:week|session|workout|time)|weekly|when\b[^,;.\n]*|if\b[^,;.\n]*)",
    re.I,
)


_BODY_AND_MORE = re.compile(
    r"(?<![\w])(?:bw|body\s?weight)\s*(?P<sign>[+-])\s*(?P<amount>\d{1,3}(?:[.,]\d{1,2})?)\s*(?P<unit>kgs?\b|kilos?\b|lbs?\b|pounds?\b)?(?!\s*(?:x|reps?)\b)",
    re.I,
)


def take_body_and_more(scan: Scan, unit: Unit | None) -> None:
    """ "BW+5": so much added to the body's weight, or taken off it."""
    for found in scan.take(_BODY_AND_MORE):
        said = found["unit"] or (unit or Unit.KG).value
        load = read_load(f"{found['sign']}{found['amount']} {said}")
        if load is not None:
            if not found["unit"] and unit is None:
                scan.doubt(found, f"is read as {found['amount']} kg", 'write the unit, or "all loads in lb" above the days')
            scan.mark("load", (load,), found)


def take_loads(scan: Scan) -> None:
    for found in scan.take(_MORE_LOAD):
        add_keyed(scan.out.fields, "note", scan.original(found))
    for found in scan.take(_LOAD_SPAN):
        add_keyed(scan.out.fields, "note", scan.original(found))
        first = read_load(f"{found['low']} {found['unit']}")
        if first is not None:
            scan.doubt(found, f"is read as {found['low']} {found['unit']} to begin with, and kept as a note")
            scan.mark("load", (first,), found)
    for pattern in (_LOAD_KEYED, _BAND, _LOADS):
        for found in scan.take(pattern):
            said = scan.raw[found.start("load") : found.end("load")]
            load = read_load(even(said))
            if load is None:
                scan.fault(found, f'"{said.strip()}" is no load that I can keep', "write a weight with its unit, such as 12.5 kg")
            else:
                scan.mark("load", (load,), found)


# "60x8, 65x6, 70x4": nobody does sixty sets, so the first figure of each pair is the load.
_LOADED_REPS = re.compile(
    r"(?<![\w.x/-])(?P<list>\d{2,3}(?:[.,]5)?\s*x\s*\d{1,2}(?:\s*[,/;]\s*\d{2,3}(?:[.,]5)?\s*x\s*\d{1,2})+)(?![\w.])", re.I
)


_SPOKEN_LOAD = re.compile(
    r"(?:with\s+|use\s+)?(?:the\s+|a\s+pair\s+of\s+)?(?<![\d.x-])(?P<load>\d{2,3})s\s+(?:if\s+you\b[^,;.\n]*|or\s+so\b|dbs?\b|dumbbells?\b|in\s+each\s+hand\b)",
    re.I,
)


def take_loads_with_reps(scan: Scan, unit: Unit | None) -> None:
    """Loads said without a unit: "60x8, 65x6", "the 50s if you have them"."""
    for found in scan.take(_SPOKEN_LOAD):
        if unit is None:
            scan.doubt(
                found, f"is read as {found['load']} kg", 'write the unit, such as 50 lb, or "all loads in lb" above the days'
            )
        scan.mark("load", (Load(LoadKind.IMPLEMENT, decimal(found["load"]), unit or Unit.KG),), found)
    for found in scan.take(_LOADED_REPS, lambda found: all(load > counts.SETS_LIMIT for load, _ in _pairs(found["list"]))):
        pairs = _pairs(found["list"])
        if unit is None:
            scan.doubt(
                found,
                "is read as loads in kg with their reps",
                'write the unit, such as 60 kg x 8, or "all loads in lb" above the days',
            )
        parts = tuple(counts.Count(reps, reps, Measure.REPS) for _, reps in pairs)
        scan.out.schemes.append(Scheme(len(pairs), parts, found.start(), scan.original(found)))
        scan.mark("load", tuple(Load(LoadKind.IMPLEMENT, load, unit or Unit.KG) for load, _ in pairs), found)


def _pairs(text: str) -> list[tuple[Decimal, int]]:
    return [(decimal(load), int(reps)) for load, reps in re.findall(r"(\d{2,3}(?:[.,]5)?)\s*x\s*(\d{1,2})", text, re.I)]
