"""What do the words beside an exercise ask for? Each kind of phrase is taken out of the text by its own recogniser, surest first.

    "Goblet squat 3x10-12 @3110 rest 60s, last set drop 20% x 2"
      rest 60s -> rest;  drop 20% x 2 on the last set -> two drops;  @3110 -> tempo;  3x10-12 -> three sets
      what is left: "Goblet squat" -> the name

Plan: the text is evened out (letters.py), each recogniser blanks the characters that it read, and what stays is the name, a note, or
a mistake. A phrase about some sets only ("set 2", "last set") is tied to them by the piece between commas that it stands in, or, after
a colon, by everything up to the next such mark.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from bot.language.blocks import counts
from bot.language.blocks.amounts import LOAD_PATTERN, TIME_PATTERN, decimal, read_load, read_rest
from bot.language.blocks.intervals import take_every_minute, take_intervals
from bot.language.blocks.letters import even
from bot.language.blocks.scan import ALL, GONE, Clauses, Mark, Scan, Scheme, Which
from bot.language.problems import quoted
from bot.training.blocks import Drop, LoadRule, Measure, Partials, SetKind, Sides
from bot.training.loads import Load, LoadKind, Unit
from bot.training.tempo import parse_tempo

_WHICH = re.compile(
    r"\b(?:(?:on|for|in|during)\s+)?(?:the\s+|your\s+)?(?:"
    r"(?P<word>last|final|first|1st|second|2nd|third|3rd|each|every|all)\s+(?:(?P<many>\d|two|three)\s+)?(?:of\s+)?(?:the\s+)?(?:working\s+)?sets?(?:\s+only)?|"
    r"sets?\s*#?\s*(?P<from>\d(?!\d|\s*\+\s*(?:$|[),;])))(?:\s*(?P<join>-|to|and|&|\+|,)\s*(?P<to>\d{1,2})(?!\s*(?:x|rep)))?)"
    r"(?P<colon>\s*[:=])?(?!\s*[:=]?\s*\d+\s*(?:x|sets))",
    re.I,
)
_ORDINALS = {"first": 1, "1st": 1, "second": 2, "2nd": 2, "third": 3, "3rd": 3}


def read_clauses(
    text: str, *, has_name: bool = True, in_rounds: bool = False, intervals: bool = False, unit: Unit | None = None
) -> Clauses:
    """Read everything that a slot's line says. has_name: the text begins with the exercise's name, which is left untouched.

    in_rounds: a heading gave the number of sets. intervals: the lines around are intervals, so "30/15" is work and rest.
    unit: of loads that are said without one.
    """
    scan = Scan(text)
    take_intervals(scan, spoken_of=intervals)
    take_every_minute(scan)
    for recognise in (
        _links,
        _keyed,
        _alternatives,
        _regions,
        _drops_by_amount,
        _drops,
        _drops_said,
        _rests,
        _tempo_keyed,
        _efforts,
        _partials,
        _burnout_sets,
        _warm_up_sets,
        _sides,
        _rules,
    ):
        recognise(scan)
    _loads(scan)
    _loads_with_reps(scan, unit)
    _percents(scan)
    _tempo_bare(scan, sure=True)
    _schemes(scan)
    _tempo_bare(scan, sure=False)
    _lone_counts(scan, in_rounds=in_rounds)
    name_end = _name_end(scan) if has_name else 0
    name, scan.left = scan.left[:name_end], GONE * name_end + scan.left[name_end:]
    _soft(scan)
    scan.left = name + scan.left[name_end:]
    scan.out.left = list(_pieces(scan))
    return scan.out


def _name_end(scan: Scan) -> int:
    """The name reaches to the first phrase; when a phrase comes first, to the next one after the words."""
    runs = [run for run in re.finditer(rf"[^{GONE}]+", scan.left) if re.search(r"[^\W\d_]{2,}", run[0])]
    return runs[0].end() if runs else 0


def _pieces(scan: Scan) -> Iterator[tuple[int, str]]:
    for run in re.finditer(rf"[^{GONE}]+", scan.left):
        piece = scan.raw[run.start() : run.end()]
        text = piece.strip(" \t,;:|.-–—()[]/+@&\n=")
        if re.search(r"\w", text) and not all(word in _EMPTY_WORDS for word in text.lower().split()):
            yield run.start() + piece.index(text[0]), text


_EMPTY_WORDS = frozenset(
    [
        "angle",
        "rounds",
        "round",
        "between",
        "bench",
        "hold",
        "holds",
        "and",
        "with",
        "then",
        "of",
        "for",
        "at",
        "on",
        "x",
        "the",
        "a",
        "reps",
        "rep",
        "sets",
        "set",
        "by",
        "to",
        "or",
        "total",
        "weight",
        "tempo",
        "rest",
    ]
)


# Links, keyed parts and substitutes come first: their words are free text.

_URL = re.compile(
    r"(?:(?:demo|video|link|watch)\s*[:=]?\s*)?(?:\b(?P<url>https?://[^\s|)\]>,;]+|www\.[^\s|)\]>,;]+)|\b(?P<file>file:(?:[a-z_]+:)?[\w-]{8,}))",
    re.I,
)


def _links(scan: Scan) -> None:
    for found in scan.take(_URL):
        scan.out.fields.setdefault("demo", (found["url"] or found["file"]).rstrip("."))


KEYS = {
    "cue": "cues", "cues": "cues", "coaching cue": "cues", "coaching cues": "cues", "focus": "cues", "focus on": "cues", "think": "cues",
    "sub": "substitutes", "subs": "substitutes", "substitute": "substitutes", "substitutes": "substitutes", "substitution": "substitutes",
    "alt": "substitutes", "alternative": "substitutes", "alternatives": "substitutes", "swap": "substitutes", "swaps": "substitutes",
    "instead": "substitutes", "or": "substitutes", "backup": "substitutes", "option": "substitutes", "options": "substitutes",
    "kit": "kit", "equipment": "kit", "needs": "kit", "gear": "kit", "you need": "kit",
    "note": "note", "notes": "note", "comment": "note", "comments": "note", "nb": "note", "remark": "note", "instructions": "note",
    "grip": "grip", "demo": "demo", "video": "demo", "link": "demo", "progress": "policy", "progression": "policy",
}  # fmt: skip
_KEY_WORDS = "|".join(sorted(KEYS, key=len, reverse=True))
_KEYED = re.compile(
    rf"(?<![\w-])(?P<key>{_KEY_WORDS})\s*[:=]\s*(?P<value>[^|\n]+?)(?=\s*(?:[|\n{GONE}]|$|[;,.(]?\s*(?<![\w-])(?:{_KEY_WORDS}|tempo|rest|sets?|reps?|burnout)\s*[:=]))",
    re.I,
)


def _keyed(scan: Scan) -> None:
    for found in scan.take(_KEYED):
        add_keyed(
            scan.out.fields, KEYS[found["key"].lower()], scan.raw[found.start("value") : found.end("value")].strip(" ;,.)(")
        )


def add_keyed(fields: dict[str, Any], name: str, value: str) -> None:
    """Put a part said by name ("sub: ring row / band row") into a slot's fields."""
    if not value:
        return
    if name == "substitutes":
        fields[name] = (*fields.get(name, ()), *split_names(value))
    elif name == "cues":
        fields[name] = (*fields.get(name, ()), *(cue.strip() for cue in re.split(r"\s*[;\n]\s*", value) if cue.strip()))
    elif name == "note":
        fields[name] = "; ".join(part for part in (fields.get(name, ""), value) if part)
    else:
        fields[name] = value


def split_names(text: str) -> tuple[str, ...]:
    parts = re.split(r"\s*[/,;\n]\s*(?!\d)|\s+or\s+", text)
    return tuple(part.strip(" .()") for part in parts if part.strip(" .()"))


_OR = re.compile(
    r"[(\[]\s*(?:or|sub(?:stitute)?s?|alt(?:ernative)?s?|swap|no [\w -]+\?|if no [\w -]+?[:,]|can'?t\?)[:\s]+(?:use |do |with |for )?(?P<names>[^)\]]+)[)\]]",
    re.I,
)
_NO_KIT = re.compile(
    r"(?<![\w(])(?:no [a-z -]+\?|if (?:you have )?no [a-z -]+?[:,])\s*(?:use |do |try )?(?P<names>[^|\n.;)]+)", re.I
)


def _alternatives(scan: Scan) -> None:
    for pattern in (_OR, _NO_KIT):
        for found in scan.take(pattern):
            add_keyed(scan.out.fields, "substitutes", scan.raw[found.start("names") : found.end("names")].strip())


# Which sets a phrase is about.


def _regions(scan: Scan) -> None:
    found_all = [found for found in _WHICH.finditer(scan.left) if GONE not in found[0]]
    found_all = [
        found
        for found in found_all
        if found["word"] is None or found["word"].lower() not in ("each", "every", "all") or not _is_rule(scan.left, found)
    ]
    for at, found in enumerate(found_all):
        limit = found_all[at + 1].start() if at + 1 < len(found_all) else len(scan.left)
        floor = found_all[at - 1].end() if at else 0
        start, end = _region(scan.left, found, floor, limit)
        scan.regions.append((start, end, _which(found)))
    for found in found_all:
        scan.blank(found.start(), found.end())


def _is_rule(text: str, found: re.Match[str]) -> bool:
    """ "add weight each set" speaks of the load over the sets, "all sets left" of the sides; neither picks sets."""
    before, after = text[max(0, found.start() - 45) : found.start()], text[found.end() : found.end() + 25]
    return bool(
        re.search(r"(?:weight|load|heavier|lighter|up|increase|reps)[\w ,]*$", before, re.I)
        or re.match(r"\s*(?:on\s+|of\s+|for\s+)?(?:the\s+)?(?:left|right|one|weak)", after, re.I)
    )


def _which(found: re.Match[str]) -> Which:
    if found["from"]:
        low = int(found["from"])
        high = int(found["to"] or low)
        spread = range(low, high + 1) if found["join"] in ("-", "to", "–") else (low, high)
        return Which(numbers=tuple(dict.fromkeys(spread)))
    word = found["word"].lower()
    many = {"two": 2, "three": 3}.get((found["many"] or "1").lower()) or int(found["many"] or 1)
    if word in ("last", "final"):
        return Which(last=many)
    if word in _ORDINALS:
        return Which(numbers=tuple(range(_ORDINALS[word], _ORDINALS[word] + many)))
    return ALL


def _region(text: str, found: re.Match[str], floor: int, limit: int) -> tuple[int, int]:
    """The characters that belong to a mark: after a colon up to the next mark, else its piece between commas."""
    if found["colon"]:
        stop = re.search(r"[;\n|]", text[found.end() : limit])
        return found.start(), found.end() + stop.start() if stop else limit
    before = [cut.end() for cut in re.finditer(r"[,;.(|\n](?=\s|$)|\(|\s-\s|\band\b|\bthen\b", text[floor : found.start()])]
    start = floor + before[-1] if before else floor
    after = re.search(r"[,;|\n)]|\.(?=\s|$)", text[found.end() : limit])
    end = found.end() + after.start() if after else limit
    alone = not re.search(r"\w", text[start : found.start()]) and not re.search(r"\w", text[found.end() : end])
    if alone and after:
        more = re.search(r"[,;|\n)]", text[end + 1 : limit])
        end = end + 1 + more.start() if more else limit
    if re.search(r"\d\s*x\s*\d|\d\s+sets\b", text[start : found.start()], re.I):
        start = found.start()
    return start, end


# Drops, rests, tempos, efforts.

_DROP = re.compile(
    rf"(?:(?:then|with|plus|\+|and|into|followed by|do|a|an|(?P<lead>\d|one|two|three|double|triple|single)(?=\s*(?:x\s*)?(?:drop|strip))(?:\s*x)?)\s*)*"
    rf"(?<!no )\b(?:drop|strip)(?:\s*-?\s*sets?|s)?\b(?!\s+(?:the\s+|some\s+)?(?:weight|load|hips|knee|to\s+(?:the\s+)?(?:floor|one|knees)|into|down|your|elbows|shoulders|a\s+knee))"
    rf"(?:\s*[:,(-]?\s*(?:by\s*|of\s*|-\s*)?(?P<cut>\d{{1,2}})\s*(?:-\s*(?P<cut_to>\d{{1,2}})\s*)?%(?:\s*(?:of\s+the\s+)?(?:weight|load))?)?(?:\s*to\s*(?P<load>(?:\+|-|pair of\s+)?{LOAD_PATTERN}(?:\s+of\s+help)?(?:\s+(?!for\b|x\b|and\b|then\b)[a-z_]+)?|[a-z]+(?:\s*\+\s*[a-z]+)*\s+bands?(?:\s+of\s+help)?|body\s?weight))?"
    r"(?:\s*(?:x|for|,)?\s*(?:another\s+)?(?:(?P<times>\d)\s*x?(?=\s*(?:drops?|times)\b)|twice|x\s*(?P<times2>\d)(?![\d-])))?"
    r"(?:\s*,?\s*(?:and|then)?\s*(?:(?:for|to|do|go|get)\s+(?:another\s+)?(?P<low>\d{1,3})(?:\s*(?:-|to)\s*(?P<high>\d{1,3}))?(?!\s*(?:%|kg|lb|x))(?:\s*(?:more\s+)?reps?|\s*more)?|(?P<low2>\d{1,3})(?:\s*(?:-|to)\s*(?P<high2>\d{1,3}))?\s*(?:more\s+reps|more|reps)\b))?"
    r"(?:\s*(?:,|and|then|for|go|rep(?:s)?(?:\s+out)?)?\s*(?:to\s+failure|amrap|max(?:\s+reps)?))?(?P<each>\s*(?:each|per|every)\s+drop)?",
    re.I,
)
_TIMES_WORDS = {"one": 1, "two": 2, "three": 3, "single": 1, "double": 2, "triple": 3}


def _drops(scan: Scan) -> None:
    for found in scan.take(_DROP):
        text = found[0].lower()
        said = found["times"] or found["times2"] or (found["lead"] or "")
        times = _TIMES_WORDS.get(said.lower()) or (int(said) if said.isdigit() else 2 if "twice" in text else 1)
        low, high = found["low"] or found["low2"], found["high"] or found["high2"]
        load = read_load(found["load"]) if found["load"] else None
        if found["cut_to"]:
            scan.doubt(found, f"a drop of {found['cut']}-{found['cut_to']}% is kept as {found['cut']}%")
        drop = Drop(
            int(found["cut"]) if found["cut"] else None, load, int(low) if low else None, int(high or low) if low else None
        )
        which = scan.which(found.start()) or scan.which(found.end() - 1) or Which(last=1)
        scan.out.marks.append(Mark("drops", ((drop,) * min(times, 5),), found.start(), which, scan.original(found)))


# "Drop the weight by 30% and keep going" is a drop of that set; "drop the weight each set" is a load that falls.
_DROP_SAID = re.compile(
    r"\b(?:then\s+|and\s+)?(?:drop|lower|reduce|cut|strip|take)\s+(?:off\s+)?(?:the\s+|your\s+)?(?:weight|load)?s?\s*(?:off\s+)?(?:by\s+)?(?P<cut>\d{1,2})\s*%(?:\s+(?:of\s+the\s+(?:weight|load)|off))?"
    r"(?:[\s,]*(?:and\s+|then\s+)?(?P<on>keep\s+going|go\s+(?:again|on|to\s+failure)|carry\s+on|continue|rep\s+out|amrap|(?:to|till|until)\s+failure|repeat))?(?!\s*(?:each|every|per)\b)",
    re.I,
)


def _drops_said(scan: Scan) -> None:
    for found in scan.take(_DROP_SAID, lambda found: bool(found["on"]) or scan.which(found.start()) is not None):
        which = scan.which(found.start()) or Which(last=1)
        scan.out.marks.append(Mark("drops", ((Drop(int(found["cut"])),),), found.start(), which, scan.original(found)))


_DROP_AMOUNT = re.compile(
    rf"(?:(?:then\s+)?(?:a\s+)?(?:double|triple|single)?\s*drops?(?:\s*sets?)?\s*:\s*)?(?:then\s+|and\s+)?\bdrop\s+(?:the\s+weight\s+(?:by\s+)?|by\s+)?(?P<amount>{LOAD_PATTERN})(?:\s+more)?(?!\s*(?:each|every|per))",
    re.I,
)


def _drops_by_amount(scan: Scan) -> None:
    """ "drop 5 lb, drop 5 lb more": two drops; by how much is kept in words, since the load they start from is not known."""
    for found in scan.take(_DROP_AMOUNT):
        which = scan.which(found.end() - 1) or Which(last=1)
        scan.out.marks.append(Mark("drops", ((Drop(),),), found.start(), which, scan.original(found)))
        scan.out.marks.append(
            Mark("note", (f"drop {scan.raw[found.start('amount') : found.end('amount')]}",), found.start(), which, "")
        )


_NO_REST = re.compile(
    r"\b(?:no|zero|without(?:\s+any)?|minimal)\s+rest(?:\s+(?:between|before)\s+\w+(?:\s+(?:and|&)\s+\w+)?)?\b", re.I
)
_REST_FREE = re.compile(
    r"\brest(?:ing)?\s*[:=]?\s*(?:as\s+(?:needed|required|long\s+as\s+you\s+(?:need|like|want))|(?:as\s+)?(?:little|much)\s+as\s+\w+(?:\s+need(?:ed)?)?)"
    rf"(?:\s*[,;(-]?\s*(?:about|around|roughly|usually|say)\s+(?P<time>{TIME_PATTERN}))?",
    re.I,
)
_REST = re.compile(
    rf"\b(?:rest|resting|recovery|recover|break)(?!\s*-?\s*pause)s?(?:\s+(?:between|after|period|time|interval|for|of|about|approx)(?:\s+(?:sets?|rounds?|each\s+(?:set|round)|both|exercises|\w\d(?:\s*/\s*\w\d)?))?)*\s*[:=~]?\s*"
    rf"(?P<time>{TIME_PATTERN})(?:\s*(?:rest|between\s+(?:sets|rounds)|after\s+each\s+(?:set|round)|per\s+set))?|"
    rf"(?<![\d.x@-])(?P<time2>\d+(?:[.,:]\d+)?(?:\s*(?:-|to)\s*\d+(?:[.,]\d+)?)?\s*(?:minutes?|mins?|m|seconds?|secs?|s|\"|'))\s*(?:of\s+|'s\s+)?(?:rest\b(?!\s*-?\s*pause)(?:\s+(?:between|after|per)\s+(?:each\s+)?(?:sets?|rounds?))?|recovery\b|between\s+(?:the\s+)?(?:sets|rounds|exercises|both)\b|break\b)|"
    r"(?<![\w])R\s*[:=]?\s*(?P<time3>\d+(?:\s*-\s*\d+)?\s*(?:s|sec|min|m|\"|')(?![a-z])|\d:\d\d(?!\d)|\d{2,3}(?:\s*-\s*\d{2,3})?(?![\w%/.]))",
    re.I,
)


def _rests(scan: Scan) -> None:
    for found in scan.take(_REST_FREE):
        scan.out.fields.setdefault("note", "rest as needed")
        about = read_rest(found["time"]) if found["time"] else None
        if about is not None:
            scan.out.fields["rest"] = about
    for found in scan.take(_NO_REST):
        if re.search(r"between|before", found[0], re.I):
            add_keyed(scan.out.fields, "note", scan.original(found))
        else:
            scan.out.fields["rest"] = read_rest("0")
    for found in scan.take(_REST, lambda found: read_rest(_time_of(found)) is not None or found["time"] is not None):
        rest = read_rest(_time_of(found))
        if rest is None or re.match(r"\s*(?:hours?|hrs?|h|days?)\b", scan.raw[found.end() :], re.I):
            scan.fault(
                found,
                f"{quoted(_with_word_behind(scan.raw, found))} is no rest up to 15 minutes",
                "write it with its unit, such as 90 s or 2 min",
            )
            continue
        if re.fullmatch(r"\s*[1-5](?:[.,]\d)?\s*", _time_of(found)):
            scan.doubt(
                found,
                f'a rest of "{_time_of(found).strip()}" without a unit is read as minutes',
                "write 2 min or 120 s to be sure",
            )
        scan.out.fields["rest"] = rest


def _with_word_behind(text: str, found: re.Match[str]) -> str:
    """What was found, with the unit that the recogniser does not know."""
    more = re.match(r"\s*[a-z]+", text[found.end() :], re.I)
    return text[found.start() : found.end() + (more.end() if more else 0)]


def _time_of(found: re.Match[str]) -> str:
    return found["time"] or found["time2"] or found["time3"] or ""


_TEMPO_TOKEN = (
    r"(?:\d{1,2}\s?[-/.:]\s?\d{1,2}\s?[-/.:]\s?(?:\d{1,2}|x)(?:\s?[-/.:]\s?(?:\d{1,2}|x))?|\d\d(?:\d|x)(?:\d|x)?)(?![\dx]|\s*%)"
)
_TEMPO_KEYED = re.compile(
    rf"(?:\b(?:at\s+a\s+|with\s+(?:a\s+)?)?tempo\s*(?:of\s+)?[:=@]?\s*|(?<![\w])t\s*[:=]\s*|@\s*(?:tempo\s*)?)(?P<list>{_TEMPO_TOKEN}(?:\s*(?:,|/|then)\s*{_TEMPO_TOKEN})*)(?:\s*tempo)?(?!\s*(?:kg|lb|%|rm))",
    re.I,
)
_TEMPO_BACK = re.compile(rf"(?<![\w.-])(?P<list>{_TEMPO_TOKEN})\s*tempo\b", re.I)
_TEMPO_BAD = re.compile(
    r"\btempo\s*(?:of\s+)?[:=@]?\s*(?P<bad>\d[\dx]*(?:\s?[-/.:]\s?[\dx]+)*)|@\s*(?P<bad2>\d+(?:[-/.:][\dx]+){1,5}(?![-/.:]?\d|\s*%)|\d{3,}|[1-9]\d(?![\d./]))(?!\s*(?:kg|lb|%|rm|s\b|°|deg))",
    re.I,
)
_TEMPO_WORDS = re.compile(r"\btempo\s*[:=]\s*(?P<words>[a-z][^,;|\n]*)", re.I)


def _tempo_keyed(scan: Scan) -> None:
    for pattern in (_TEMPO_KEYED, _TEMPO_BACK):
        for found in scan.take(pattern):
            tokens = re.findall(_TEMPO_TOKEN, found["list"], re.I)
            tempos = tuple(parse_tempo(token.replace(" ", "")) for token in tokens)
            if None in tempos:
                _bad_tempo(scan, found, found["list"])
            else:
                scan.mark("tempo", tempos, found)
    for found in scan.take(_TEMPO_BAD):
        _bad_tempo(scan, found, found["bad"] or found["bad2"])
    for found in scan.take(_TEMPO_WORDS):
        add_keyed(scan.out.fields, "note", "tempo: " + scan.raw[found.start("words") : found.end("words")].strip())


_FIELD_WORDS = {1: "one number", 2: "two numbers", 5: "five numbers", 6: "six numbers"}


def _bad_tempo(scan: Scan, found: re.Match[str], token: str) -> None:
    fields = re.findall(r"\d+|x", token, re.I)
    if len(fields) == 1:
        fields = list(token.strip())
    many = _FIELD_WORDS.get(len(fields), f"{len(fields)} numbers")
    wrong = (
        f'tempo "{token.strip()}" has {many} where four are needed'
        if len(fields) not in (3, 4)
        else f'tempo "{token.strip()}" cannot be read'
    )
    scan.fault(found, wrong, "write lowering, pause, lifting, pause, such as 3-1-1-0")


_TEMPO_SURE = re.compile(
    r"(?<![\w.x/-])(?P<list>\d\d[\dx]\d|\d{1,2}-\d{1,2}-x(?:-\d)?|\d-\d-\d-\d|\d{1,2}/\d/(?:\d|x)/\d|\d\.\d\.(?:\d|x)\.\d|\d\dx)(?![\w%/-]|\s*(?:kg|lb|s\b|sec|rep))",
    re.I,
)
_TEMPO_THREE = re.compile(
    r"(?<![\w.x/-])(?P<list>[0-6]-[0-6]-(?:[0-6]|x)|\d{1,2}-\d{1,2}-\d{1,2}-\d{1,2})(?![\w%/-]|\s*(?:kg|lb|s\b|sec|rep))", re.I
)


def _tempo_bare(scan: Scan, *, sure: bool) -> None:
    """A tempo without the word: four fields stand for themselves; three only beside sets that are read already."""
    if not sure and not scan.out.schemes:
        return
    for found in scan.take(
        _TEMPO_SURE if sure else _TEMPO_THREE, lambda found: not (sure and _is_no_tempo(scan.left, found["list"]))
    ):
        tempo = parse_tempo(found["list"])
        if tempo is not None:
            scan.mark("tempo", (tempo,), found)


def _is_no_tempo(text: str, token: str) -> bool:
    """ "8-6-4-2" is a list of reps; "20x3" alone is sets and reps turned round, beside "3x8" a tempo."""
    turned = re.fullmatch(r"\d\dx[2-9]", token, re.I) and not re.search(
        r"\d\s*x\s*\d|\d\s+(?:sets|reps)\b", text.replace(token, "", 1), re.I
    )
    return bool(turned) or _is_falling_list(token)


def _is_falling_list(token: str) -> bool:
    """ "8-6-4-2" is a list of reps rather than a tempo."""
    if not re.fullmatch(r"\d(?:-\d){3}", token):
        return False
    figures = [int(figure) for figure in token.split("-")]
    return all(later < earlier for earlier, later in itertools.pairwise(figures)) and figures[-1] >= 1


_NUM = r"\d{1,2}(?:[.,]5|[.,]0)?"
_NUM_LIST = rf"{_NUM}(?:\s*-\s*{_NUM}|(?:\s*[,/]\s*{_NUM}(?!\d|\.\d|\s*x|\s*[a-z%°\"'-]))+)?"
_RIR = re.compile(
    rf"(?:@\s*)?\brir\s*(?:of\s+)?[:=@]?\s*(?P<list>{_NUM_LIST})|(?:@\s*)?(?<![\d.x])(?P<list2>{_NUM_LIST})\s*(?:rir\b(?!\s*[:=]?\s*\d)|(?:reps?\s+)?(?:left\s+)?in\s+(?:the\s+)?(?:reserve|tank)\b)|\b(?:leave|leaving|keep|stop(?:ping)?)\s+(?:at\s+|with\s+)?(?P<list3>{_NUM_LIST})\s*(?:reps?\b)?(?:\s*(?:left|in\s+(?:the\s+)?(?:tank|reserve)|(?:before|short\s+of|shy\s+of|from|away\s+from)\s+failure))?|(?<![\d.x])(?P<list4>{_NUM_LIST})\s*(?:reps?\s+)?(?:before|short\s+of|shy\s+of|(?:away\s+)?from)\s+failure\b",
    re.I,
)
_RPE = re.compile(
    rf"(?:@\s*)?\brpe\s*(?:of\s+)?[:=@]?\s*(?P<list>{_NUM_LIST})|(?:@\s*)?(?<![\d.x])(?P<list2>{_NUM_LIST})\s*rpe\b(?!\s*[:=]?\s*\d)|(?:effort\s+(?:of\s+|about\s+|around\s+)?)?(?<![\d.x])(?P<list4>{_NUM})\s*(?:out\s+of|/)\s*10\b(?:\s+effort)?|@\s*(?P<list3>(?:10|[5-9](?:[.,]5)?)(?:\s*-\s*(?:10|[5-9](?:[.,]5)?))?)(?![\d.x%/-]|\s*(?:kg|lb|s\b|sec|min|%))",
    re.I,
)


def _efforts(scan: Scan) -> None:
    for name, pattern, top in (("rir", _RIR, 10), ("rpe", _RPE, 10)):
        for found in scan.take(pattern):
            said = next(found[group] for group in ("list", "list2", "list3", "list4") if found.groupdict().get(group))
            values = _effort_values(said)
            if any(value > top or (name == "rpe" and value < 1) for value in values):
                scan.fault(
                    found,
                    f"{name.upper()} {said} is outside the scale",
                    "write RIR 0 to 10" if name == "rir" else "write RPE 1 to 10",
                )
                continue
            if "-" in said:
                low, high = (decimal(part) for part in re.split(r"\s*-\s*", said))
                if abs(high - low) > 1:
                    scan.doubt(
                        found,
                        f"{name.upper()} {said} is kept as its middle, {values[0].normalize():f}",
                        "write one number a set to be exact",
                    )
            scan.mark(name, values, found)


def _effort_values(said: str) -> tuple[Any, ...]:
    """A span of one step has its own point on the scale, halfway ("8-9" is 8.5)."""
    if "-" in said:
        low, high = (decimal(part) for part in re.split(r"\s*-\s*", said))
        return ((low + high) / 2,)
    return tuple(decimal(part) for part in re.split(r"\s*[,/]\s*", said))


_LEAD = r"(?:(?P<plus>\+|\bplus\b|\bthen\b|\band\b|\bwith\b|\bfollowed by\b|\bfinish(?:\s+with)?\b)\s*)"
_WHERE = r"(?:\s*(?:at|in|from|through|of|off|out of)?\s*(?:the\s+)?(?P<where>top|bottom|lower|upper|stretch(?:ed position)?|lengthened(?: position)?|hole)(?:\s+(?:half|quarter|position|end|range))?)?"
_PARTIAL_WORDS = r"(?:(?P<size>quarter|half|1/4|1/2)[\s-]*(?:reps?|range(?:\s*reps?)?|partials?|pulses?)|(?P<before>top|bottom|lower|upper|lengthened)[\s-]*(?:half|quarter|end)?[\s-]*(?:partials?|pulses?|reps?|halves)|(?:lengthened\s+)?partials?(?:\s*reps?)?|pulses?|short\s+reps?)"
_PARTIALS = re.compile(
    rf"{_LEAD}?(?<![\d.x])(?P<count>\d{{1,2}})(?:\s*-\s*\d{{1,2}})?\s*{_PARTIAL_WORDS}{_WHERE}|{_LEAD}{_PARTIAL_WORDS.replace('?P<size>', '?P<size2>').replace('?P<before>', '?P<before2>')}{_WHERE.replace('?P<where>', '?P<where2>')}".replace(
        "?P<plus>", "?:"
    ),
    re.I,
)


def _partials(scan: Scan) -> None:
    for found in scan.take(_PARTIALS):
        size = (found["size"] or found["size2"] or "").lower()
        size = {"1/4": "quarter", "1/2": "half"}.get(size, size)
        said = (found["where"] or found["where2"] or found["before"] or found["before2"] or "").lower()
        where = "" if not said else "top" if said in ("top", "upper") else "bottom"
        scan.mark("partials", (Partials(int(found["count"]) if found["count"] else None, where or size),), found)
        if where and size:
            scan.mark("note", (f"{size} reps at the {where}",), found)


_WARM_SETS = re.compile(
    rf"(?P<sets>\d)(?:\s*-\s*\d)?\s*(?:light(?:er)?\s+)?(?:x\s*)?(?:warm|ramp)(?:ing)?[\s-]*up\s+sets?(?:\s*(?:of|x|:)?\s*(?P<list>{counts.LIST}))?|(?:warm)[\s-]*up(?:\s+sets?)?\s*:?\s*(?P<sets2>\d)\s*x\s*(?P<list2>{counts.LIST})|\bwarm[\s-]*up\s+(?P<sets3>\d)\s*x\s*(?P<free>as needed)",
    re.I | re.X,
)


def _warm_up_sets(scan: Scan) -> None:
    for found in scan.take(_WARM_SETS):
        said = found["list"] or found["list2"]
        parts = counts.read_counts(said) if said else (counts.Count(),)
        sets = int(found["sets"] or found["sets2"] or found["sets3"])
        scan.out.schemes.append(Scheme(sets, parts, found.start(), scan.original(found), SetKind.WARM_UP))


_BURNOUT_SET = re.compile(r"\b(?:is\s+|as\s+)?(?:an?\s+|the\s+|your\s+)?burn-?\s?out(?:\s+set)?\b(?!\s*:)", re.I)


def _burnout_sets(scan: Scan) -> None:
    """ "last set burnout": a set that is there already, done till nothing is left."""
    for found in scan.take(_BURNOUT_SET, lambda found: _near(scan, found) is not None):
        scan.out.marks.append(Mark("kind", (SetKind.BURNOUT,), found.start(), _near(scan, found), scan.original(found)))


def _near(scan: Scan, found: re.Match[str]) -> Which | None:
    return scan.which(found.start()) or scan.which(found.end() - 1)


# Sides and how the load moves.

_LIMB = r"(?:side|leg|arm|hand|way|limb|foot|direction)s?\b"
_SIDES = (
    (Sides.ONE_SIDE_THROUGH, re.compile(rf"(?:do\s+|finish\s+|complete\s+)?\ball\s+(?:\d+\s+)?sets?\s+(?:on\s+|of\s+|for\s+|with\s+)?(?:the\s+)?(?:left|right|one|1|first|weak\w*|same)(?:\s+{_LIMB})?(?:\s+first)?(?:\s*(?:,|and|&|then|before|->)\s*)*(?:then\s+|all\s+)*(?:on\s+|moving\s+to\s+|the\s+|switch(?:ing)?(?:\s+to)?\s*)*(?:the\s+)?(?:other|right|left|second)?(?:\s+{_LIMB})?|\bone\s+side\s+(?:all\s+the\s+way\s+)?through\b|\bfinish\s+(?:one|all\s+sets\s+on\s+one)\s+{_LIMB}(?:\s+(?:first|before\s+[\w ]+))?", re.I)),
    (Sides.WEAKER_FIRST, re.compile(rf"\b(?:start(?:ing)?\s+(?:with|on)\s+)?(?:your\s+|the\s+)?weak(?:er)?(?:\s+{_LIMB})?\s+first(?:[,;]?\s*(?:and\s+|then\s+)?(?:the\s+)?(?:strong(?:er)?|other|match)\b[\w ]*)?|\b(?:start(?:ing)?|begin)\s+(?:with|on)\s+(?:your\s+|the\s+)?weak(?:er)?(?:\s+{_LIMB})?", re.I)),
    (Sides.LEFT_FIRST, re.compile(rf"\b(?:start(?:ing)?\s+(?:with|on)\s+)?(?:your\s+|the\s+)?left(?:\s+{_LIMB})?\s+first|\b(?:start(?:ing)?|begin)\s+(?:with\s+|on\s+)?(?:your\s+|the\s+)?left(?:\s+{_LIMB})?", re.I)),
    (Sides.RIGHT_FIRST, re.compile(rf"\b(?:start(?:ing)?\s+(?:with|on)\s+)?(?:your\s+|the\s+)?right(?:\s+{_LIMB})?\s+first|\b(?:start(?:ing)?|begin)\s+(?:with\s+|on\s+)?(?:your\s+|the\s+)?right(?:\s+{_LIMB})?", re.I)),
    (Sides.ALTERNATING, re.compile(r"(?<=[\d,;(\x00])\s*\balternat(?:ing|e)(?:\s+(?:sides|legs|arms|each\s+rep))?\b(?=\s*(?:$|[,;.)|\n\x00]))|\balternat(?:ing|e)\s+(?:sides|legs|arms)\b", re.I)),
    (Sides.EACH, re.compile(rf"(?:,\s*)?(?:\b(?:each|per|ea\.?)\s*/?\s*{_LIMB}|(?<=[\ds\"'m])\s*/\s*{_LIMB}|\be/s\b|(?<=\d)\s*/?\s*(?:es|ea|ps)\b\.?|(?<=\d[sm])\s+(?:es|ea|ps)\b\.?|\bp/s\b|\bl/r\b|\bl\s*\+\s*r\b|\bl\s*&\s*r\b|(?<=\d)\s*/\s*s\b|\bleft\s+(?:and|&)\s+right\b|(?<=[\ds'\"p])\s+each\b(?:\s*{_LIMB})?(?!\s+(?:set|week|round|session|rep|time|exercise|drop|of)))", re.I)),
)  # fmt: skip


def _sides(scan: Scan) -> None:
    for sides, pattern in _SIDES:
        for _found in scan.take(pattern):
            if sides is not Sides.EACH or "sides" not in scan.out.fields:
                scan.out.fields["sides"] = sides


_EACH_SET = r"(?:\s+(?:a\s+(?:little|bit|touch)|slightly))?(?:[\s,]*(?:each|every|per|from|over\s+the|set\s+(?:by|to)|with\s+each|as\s+(?:the\s+)?reps\s+(?:fall|drop|go\s+down))\s*(?:sets?|time|set\s+to\s+set)?(?:\s+set)?)?"
_WEIGHT = r"(?:the\s+|some\s+|a\s+(?:little|bit\s+of)\s+)?(?:weight|load|resistance|kg|lbs?)s?"
_RULES = (
    (LoadRule.SAME, re.compile(r"\b(?:(?:keep|use|with|hold|at)\s+)?(?:the\s+)?same\s+(?:weight|load|db|dumbbell|kb|band)s?(?:\s+(?:across|for|on|over|through(?:out)?|all|as)(?:\s+(?:all|every|the)?\s*(?:sets?|set\s+\d|way))?)*(?:\s+sets)?\b|\bone\s+(?:weight|load)\s+(?:for|over|across)\s+all\s+sets\b|\b(?:straight|constant)\s+(?:weight|load)\b|\bload\s*[:=]\s*same\b", re.I)),
    (LoadRule.RISES, re.compile(rf"\b(?:add(?:ing)?|increas(?:e|ing)|rais(?:e|ing)|up(?:ping)?|more|bump(?:ing)?(?:\s+up)?)\s+{_WEIGHT}{_EACH_SET}|\b(?:go(?:ing)?\s+up(?:\s+in\s+(?:weight|load))?|(?:go(?:ing)?|get(?:ting)?)\s+heavier){_EACH_SET}|\bheavier(?:\s+with)?\s+(?:each|every)\s+set|\bascending\s+(?:weights?|loads?)|\b(?:weights?|loads?)\s+(?:goes|go|rises|going|up|climbs?)(?:\s+up)?{_EACH_SET}|\bramp(?:ing)?(?:\s+up)?(?:\s+(?:the\s+)?(?:weight|load))?{_EACH_SET}|\bwork(?:ing)?\s+up(?:\s+(?:in\s+(?:weight|load)|to\s+(?:a\s+)?(?:heavy|hard|top)(?:\s+(?:set|one|last\s+set))?))?\b|\bload\s*[:=]\s*rises\b|\bbuild(?:ing)?\s+up(?:\s+(?:the\s+)?(?:weight|load))?\b", re.I)),
    (LoadRule.FALLS, re.compile(rf"\b(?:reduc(?:e|ing)|lower(?:ing)?|lighten(?:ing)?|decreas(?:e|ing)|less|drop(?:ping)?|take\s+off|tak(?:e|ing)(?:\s+off)?|strip(?:ping)?)\s+{_WEIGHT}(?:\s+off)?{_EACH_SET}|\b(?:go(?:ing)?|get(?:ting)?)\s+lighter{_EACH_SET}|\blighter(?:\s+with)?\s+(?:each|every)\s+set|\bdescending\s+(?:weights?|loads?)|\b(?:weights?|loads?)\s+(?:comes|goes|falls|drops|coming|going|go|come)(?:\s+down)?{_EACH_SET}|\bload\s*[:=]\s*falls\b", re.I)),
)  # fmt: skip


def _rules(scan: Scan) -> None:
    for rule, pattern in _RULES:
        for _found in scan.take(pattern):
            scan.out.fields.setdefault("load_rule", rule)


_LOAD_KEYED = re.compile(
    rf"\bload\s*[:=]?\s*(?P<load>(?:pair of\s+|[+-]\s*)?{LOAD_PATTERN}[^,;|\n{GONE}]*|body\s?weight|[^,;|\n{GONE}\d]+\s+bands?(?:\s+of\s+help)?)",
    re.I,
)
_LOADS = re.compile(
    rf"(?:(?:@|at|with|using|use|x)\s*)?(?:a\s+)?(?P<load>(?:pair\s+of\s+|(?<![\dx.])2\s*x\s*(?={LOAD_PATTERN})|[+-]\s*)?{LOAD_PATTERN}(?:\s*(?:each(?:\s+hand)?|per\s+hand|in\s+each\s+hand|of\s+help|assist(?:ed|ance)?)\b)?)",
    re.I,
)
_COLOURS = r"(?:extra[\s-]light|extra[\s-]heavy|x-light|x-heavy|light|medium|heavy|yellow|red|green|blue|black|silver|gold|orange|purple|pink|grey|gray|white|brown)"
_BAND = re.compile(
    rf"(?:@|with|using|use)\s*(?:a\s+|the\s+)?(?P<load>{_COLOURS}(?:\s*(?:\+|and)\s*{_COLOURS})*\s+bands?)\b", re.I
)


_LOAD_SPAN = re.compile(r"(?:@|at|with|load)?\s*(?<![\d.x])\d+(?:[.,]\d+)?\s*(?:-|to)\s*" + LOAD_PATTERN, re.I)


def _loads(scan: Scan) -> None:
    for found in scan.take(_LOAD_SPAN):
        scan.doubt(
            found, "is kept as a note, since a target has one load", "write the load to begin with to have it shown as the target"
        )
        add_keyed(scan.out.fields, "note", scan.original(found))
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


def _loads_with_reps(scan: Scan, unit: Unit | None) -> None:
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


_PCT = r"\d{2,3}(?:[.,]\d)?"
_PERCENT = re.compile(
    rf"(?:(?:@|at)\s*)?(?P<list>{_PCT}%?(?:\s*(?:-|to)\s*{_PCT}|(?:\s*[,/]\s*{_PCT}%?)+)?)\s*%(?:\s*(?:of\s+)?(?:your\s+|the\s+)?(?:e?\s?1\s*rm|max|one\s+rep\s+max))?",
    re.I,
)


def _percents(scan: Scan) -> None:
    for found in scan.take(_PERCENT):
        said = found["list"].replace("%", "")
        spread = re.split(r"\s*(?:-|to)\s*", said)
        if len(spread) == 2:
            values: tuple[Any, ...] = ((decimal(spread[0]) + decimal(spread[1])) / 2,)
            scan.doubt(found, f"{said}% is kept as its middle, {values[0].normalize():f}%", "write one percentage to be exact")
        else:
            values = tuple(decimal(part) for part in re.split(r"\s*[,/]\s*", said))
        if any(not 20 <= value <= 110 for value in values):
            scan.fault(found, f"{said}% of the 1RM is outside 20 to 110", "write a percentage such as 70%")
        else:
            scan.mark("percent_1rm", values, found)


# Sets and counts.


def _schemes(scan: Scan) -> None:
    for pattern in (counts.SCHEME, counts.UNIT_TIMES, counts.REVERSED):
        for found in scan.take(pattern):
            _add_scheme(scan, found)
    if not [scheme for scheme in scan.out.schemes if scheme.kind is SetKind.WORK]:
        for found in scan.take(counts.BARE_LIST, lambda found: scan.which(found.start()) is None):
            scan.out.schemes.append(Scheme(None, counts.read_counts(found["list"]), found.start(), scan.original(found)))
    scan.out.schemes.sort(key=lambda scheme: scheme.start)


def _add_scheme(scan: Scan, found: re.Match[str]) -> None:
    groups = found.groupdict()
    before = scan.raw[: found.start()].lower()
    kind = SetKind.BURNOUT if re.search(r"burn-?\s?out\s*(?:set)?\s*[:-]?\s*$", before) else SetKind.WORK
    sets_to = int(groups["sets_to"]) if groups.get("sets_to") else None
    which = scan.which(found.start())
    scan.out.schemes.append(
        Scheme(int(found["sets"]), counts.read_counts(found["list"]), found.start(), scan.original(found), kind, which, sets_to)
    )


_HALF = re.compile(r"(?<![\w./-])\d{1,2}\s*x{1,2}\s*(?=$|[,;|)@\x00]|x|tempo\b|rest\b)|(?<![\w./-])\d{1,2}\s*xx+\s*\d+", re.I)


_CROSS_BEFORE = re.compile(r"(?<![\w.])x\s*(?=\d)", re.I)  # "thruster x10" below "4 rounds"


def _lone_counts(scan: Scan, *, in_rounds: bool) -> None:
    """A number of sets and a count that stand apart ("Sets: 3 | Reps: 8-12"), or a count about one set ("last set AMRAP")."""
    for found in scan.take(_HALF, lambda found: not scan.out.schemes):
        scan.fault(found, f'"{scan.original(found)}" is half of a prescription', "write sets x reps, such as 3x10")
    for pattern in (counts.KEYED_SETS, counts.SET_COUNT):
        for found in scan.take(pattern):
            sets_to = int(found["sets_to"]) if found["sets_to"] else None
            scan.out.fields.setdefault("set_count", (int(found["sets"]), sets_to, scan.original(found)))
    for found in scan.take(counts.KEYED_COUNT):
        scan.out.schemes.append(
            Scheme(None, counts.read_counts(found["list"]), found.start(), scan.original(found), which=scan.which(found.start()))
        )
    for start, end, which in scan.regions:
        for found in list(counts.ANY_LIST.finditer(scan.left, start, end)):
            if GONE not in found[0] and (which.numbers or which.last):
                scan.blank(found.start(), found.end())
                scan.out.schemes.append(
                    Scheme(None, counts.read_counts(found["list"]), found.start(), scan.original(found), which=which)
                )
                break
    waits = "set_count" in scan.out.fields or in_rounds
    if waits:
        scan.left = _CROSS_BEFORE.sub(lambda found: " " * len(found[0]), scan.left)
    if waits and not [scheme for scheme in scan.out.schemes if scheme.kind is SetKind.WORK]:
        pattern = counts.ANY_LIST if in_rounds or "set_count" in scan.out.fields else counts.BARE_COUNT
        for found in scan.take(pattern, lambda found: not _in_name(scan.left, found)):
            scan.out.schemes.append(Scheme(None, counts.read_counts(found["list"]), found.start(), scan.original(found)))
            break
    for found in scan.take(counts.BARE_COUNT, lambda found: not scan.out.schemes):
        scan.out.schemes.append(Scheme(None, counts.read_counts(found["list"]), found.start(), scan.original(found)))
    scan.out.schemes.sort(key=lambda scheme: scheme.start)


def _in_name(text: str, found: re.Match[str]) -> bool:
    """ "90/90 hip switch", "45-degree": a figure that a hyphen or slash ties to what follows is part of a name."""
    return bool(re.match(r"[-/]?\s?(?:degree|arm|leg|point|way|90)", text[found.end() :], re.I))


# Phrases that would also fit inside a name, so they are read only behind it.

_ANGLE = re.compile(
    r"(?P<sign>-\s?)?(?<!\d)(?P<angle>\d{1,2})\s*-?\s*(?:°|deg(?:rees?)?\b)(?:\s*(?:incline|decline|bench|angle))*", re.I
)
_INCLINE_AT = re.compile(r"\b(?:bench|incline)\s+(?:at|to|set\s+to)\s+(?P<angle>\d{1,2})\b(?!\s*(?:kg|lb|x|rep))", re.I)
_GRIP_WORDS = r"neutral|pronated|supinated|overhand|underhand|wide|close|narrow|mixed|hook|false|reverse|semi-?supinated|shoulder[\s-]width|hammer|rotating|palms[\s-](?:up|down|in|facing(?:\s+(?:in|each\s+other|away|you|forward))?)"
_GRIP = re.compile(
    rf"\b(?P<grip>(?:medium[\s-]|slightly\s+)?(?:{_GRIP_WORDS})(?:[\s/-]+(?:{_GRIP_WORDS}))?)(?:[\s-]*grip\b|(?<=palms.up)|(?<=palms.in)|(?<=palms.down)|(?<=each other))|\bgrip\s*[:=]\s*(?P<grip2>[^,;|\n\x00]+)",
    re.I,
)
_DOWN_UP = re.compile(
    r"(?P<down>\d{1,2})\s*(?:-\s*)?(?:s|secs?|seconds?)?\s*(?:-\s*)?(?:down|lowering|lower|eccentrics?|negatives?)\b(?:[\s,/]*(?:(?P<pause>\d{1,2})\s*(?:-\s*)?(?:s|secs?|seconds?)?\s*(?:pause|hold|stretch)(?:\s+(?:at|in)\s+(?:the\s+)?(?:bottom|stretch|hole))?))?(?:[\s,/]*(?:(?P<up>\d{1,2})\s*(?:-\s*)?(?:s|secs?|seconds?)?\s*(?:-\s*)?(?:up|lifting|concentric)\b|(?P<fast>explode|explosive|fast|drive)(?:\s*(?:up|concentric|lift))?\b))?(?:[\s,/]*(?:(?P<top>\d{1,2})\s*(?:s|secs?|seconds?)?\s*(?:squeeze|pause|hold)(?:\s+(?:at|on)\s+(?:the\s+)?top)?))?",
    re.I,
)


def _is_of_the_body(text: str, found: re.Match[str]) -> bool:
    """ "Elbows at 45 degrees to the body" says nothing of a bench."""
    before, after = text[max(0, found.start() - 30) : found.start()], text[found.end() : found.end() + 20]
    return bool(
        re.search(r"\b(?:elbows?|knees?|arms?|torso|feet|toes|hips?|hinge|back|shins?)\b[^,;]*$", before, re.I)
        or re.match(r"\s*(?:to|from|at)\s+(?:the|your)\s+(?:body|torso|hips?|knees?|floor)", after, re.I)
    )


def _soft(scan: Scan) -> None:
    for pattern in (_ANGLE, _INCLINE_AT):
        for found in scan.take(pattern, lambda found: not _is_of_the_body(scan.left, found)):
            down = ("sign" in found.groupdict() and found["sign"]) or re.search("decline", found[0], re.I)
            scan.out.fields["angle_deg"] = -int(found["angle"]) if down else int(found["angle"])
    for found in scan.take(_GRIP):
        scan.out.fields["grip"] = (found["grip"] or found["grip2"]).strip().lower()
    for found in scan.take(_DOWN_UP):
        tempo = parse_tempo(
            f"{found['down']}-{found['pause'] or 0}-{'x' if found['fast'] else found['up'] or 1}-{found['top'] or 0}"
        )
        if tempo is None:
            continue
        if not (found["up"] or found["fast"]):
            scan.doubt(found, f"is read as tempo {tempo}", "write all four numbers to be exact")
        scan.mark("tempo", (tempo,), found)
