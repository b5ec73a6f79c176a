"""Which tempo is asked for: "@3110", "tempo 3-1-X-0, 2-0-2-0", "3 s down, 1 s pause, drive up"?

With its word a tempo that cannot be read is a mistake; without it four fields stand for themselves, and three only beside sets.
"""

from __future__ import annotations

import itertools
import re

from bot.language.blocks.phrases.free_words import add_keyed
from bot.language.blocks.scan import Scan
from bot.training.tempo import parse_tempo

_TEMPO_TOKEN = (
    r"(?:\d{1,2}\s?[-/.:]\s?\d{1,2}\s?[-/.:]\s?(?:\d{1,2}|x)(?:\s?[-/.:]\s?(?:\d{1,2}|x))?|\d\d(?:\d|x)(?:\d|x)?)(?![\dx]|\s*%)"
)
_TEMPO_KEYED = re.compile(
    rf"(?:\b(?:at\s+a\s+|with\s+(?:a\s+)?)?tempo\s*(?:of\s+)?[:=@]?\s*|(?<![\w])t\s*[:=]\s*|(?<!\w)t\s?(?=\d\d[\dx]{{1,2}}\b)|@\s*(?:tempo\s*)?)(?P<list>{_TEMPO_TOKEN}(?:\s*(?:,|/|then)\s*{_TEMPO_TOKEN})*)(?:\s*tempo)?(?!\s*(?:kg|lb|%|rm))",
    re.I,
)
_TEMPO_BACK = re.compile(rf"(?<![\w.-])(?P<list>{_TEMPO_TOKEN})\s*tempo\b", re.I)
_TEMPO_BAD = re.compile(
    r"\btempo\s*(?:of\s+)?[:=@]?\s*(?P<bad>\d[\dx]*(?:\s?[-/.:]\s?[\dx]+)*)|@\s*(?P<bad2>\d+(?:[-/.:][\dx]+){1,5}(?![-/.:]?\d|\s*%)|\d{3,}|[1-9]\d(?![\d./]|\s?-\s?\d+\s?(?:%|kg|lb)))(?!\s*(?:kg|lb|%|rm|s\b|°|deg))",
    re.I,
)
_TEMPO_WORDS = re.compile(r"\btempo\s*[:=]\s*(?P<words>[a-z][^,;|\n]*)", re.I)


def take_tempos_by_name(scan: Scan) -> None:
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


def take_bare_tempos(scan: Scan, *, sure: bool) -> None:
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


_S = r"\s*-?\s*(?:s|secs?|seconds?|counts?)?\s*-?\s*"
_ON = r"[\s,/;]*(?:(?:and|then|with)\s+)*(?:an?\s+)?"
_NOTHING = r"(?:no\s+(?:hanging\s+about|pause|stop(?:ping)?|rest(?:ing)?|hold)|straight\s+back\s+(?:down|up)|don't\s+(?:stop|pause|rest))"
# Three seconds down, one second at the bottom, one second up and no hanging about at the top.
_DOWN_UP = re.compile(
    rf"(?:(?P<down>\d{{1,2}}){_S}(?:(?:on\s+the\s+way|going|coming)\s+)?(?:down|lowering|lower|eccentrics?|negatives?|to\s+lower|descent)\b|\b(?:lower|go\s+down|down)\s+(?:for\s+|in\s+|over\s+)?(?P<down2>\d{{1,2}})\s*(?:s|secs?|seconds?|counts?)\b)"
    rf"(?:{_ON}(?:(?P<pause>\d{{1,2}}){_S}(?:(?:pause|hold|stre\w*|stop)(?:\s+(?:at|in|on)\s+(?:the\s+)?(?:bottom|stretch|hole|floor|chest))?|(?:at|in|on)\s+(?:the\s+)?(?:bottom|stretch|hole|floor|chest))|{_NOTHING}(?:\s+at\s+(?:the\s+)?bottom)?(?!\s+at\s+(?:the\s+)?top))\b)?"
    rf"(?:{_ON}(?:(?P<up>\d{{1,2}}){_S}(?:(?:on\s+the\s+way|going|coming)\s+)?(?:up|lifting|concentric|to\s+lift)\b|(?P<fast>explode|explosive(?:ly)?|fast|drive|quick(?:ly)?|snap)(?:\s*(?:up|concentric|lift|on\s+the\s+way\s+up))?\b|(?P<up2>up)\s+(?:for\s+|in\s+)?(?P<up3>\d{{1,2}})\b))?"
    rf"(?:{_ON}(?:(?P<top>\d{{1,2}}){_S}(?:(?:squeeze|pause|hold)(?:\s+(?:at|on)\s+(?:the\s+)?top)?|(?:at|on)\s+(?:the\s+)?top)|{_NOTHING}\s+at\s+(?:the\s+)?top)\b)?",
    re.I,
)


def take_tempos_in_words(scan: Scan) -> None:
    for found in scan.take(_DOWN_UP):
        up = found["up"] or found["up3"]
        if not (up or found["fast"]):
            add_keyed(scan.out.fields, "note", scan.original(found))
            scan.doubt(found, "is kept as a note", "write all four numbers, such as 3-1-1-0, to have it as the tempo")
            continue
        tempo = parse_tempo(
            f"{found['down'] or found['down2']}-{found['pause'] or 0}-{'x' if found['fast'] else up or 1}-{found['top'] or 0}"
        )
        if tempo is not None:
            scan.mark("tempo", (tempo,), found)
