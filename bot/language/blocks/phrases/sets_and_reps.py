"""How many sets of how much: "3x10-12", "Sets: 3 | Reps: 8-12", "last set AMRAP", a list of reps?"""

from __future__ import annotations

import re

from bot.language.blocks import counts
from bot.language.blocks.scan import GONE, Scan, Scheme
from bot.training.blocks import SetKind


def take_schemes(scan: Scan) -> None:
    for found in list(counts.SCHEME.finditer(scan.left)):
        found = _without_rest(scan.left, found)
        if GONE not in found[0]:
            scan.blank(found.start(), found.end())
            _add_scheme(scan, found)
    for pattern in (counts.UNIT_TIMES, counts.REVERSED):
        for found in scan.take(pattern):
            _add_scheme(scan, found)
    if not [scheme for scheme in scan.out.schemes if scheme.kind is SetKind.WORK]:
        for found in scan.take(counts.BARE_LIST, lambda found: scan.which(found.start()) is None):
            scan.out.schemes.append(Scheme(None, counts.read_counts(found["list"]), found.start(), scan.original(found)))
    scan.out.schemes.sort(key=lambda scheme: scheme.start)


_THEN_TIME = re.compile(
    r"[^,]*\d\+?(?:\s*reps?)?(?P<cut>\s*,)\s*\d{1,3}(?:\s*-\s*\d{1,3})?\s*(?:s|secs?|seconds?|m|mins?|minutes?|\"|')\s*", re.I
)


# "5x5 - 3 min", "3 x 40s - 45": a dash with spaces round it, and a time of its own behind it.
_SPACED_TIME = re.compile(
    r"[^,]*?\d\+?\s*(?:(?:reps?)?(?P<cut>\s+-)\s+\d{1,3}(?::\d\d|\s*(?:secs?|seconds?|mins?|minutes?|m|s|\"|'))|(?:s|secs?|m|steps)(?P<cut2>\s+-)\s+\d{2,3})\s*",
    re.I,
)


def _without_rest(text: str, found: re.Match[str]) -> re.Match[str]:
    """ "3x12, 90s" is three sets of 12; a time behind reps is none of them."""
    mixed = _SPACED_TIME.fullmatch(found["list"])
    mixed = mixed or (_THEN_TIME.fullmatch(found["list"]) if found["sets"] != "2" else None)
    return (counts.SCHEME.match(text, found.start(), found.start("list") + _cut(mixed)) if mixed else None) or found


_KINDS_BEFORE = (
    (SetKind.BURNOUT, re.compile(r"burn-?\s?out\s*(?:set)?\s*[:-]?\s*$")),
    (SetKind.WARM_UP, re.compile(r"(?<!\w)w/u\b[^,;]*$")),  # "w/u 1x5 @40% 1x5 @60%, 4x4"
)


def _cut(mixed: re.Match[str]) -> int:
    second = mixed.groupdict().get("cut2")
    return mixed.start("cut2") if second else mixed.start("cut")


def _add_scheme(scan: Scan, found: re.Match[str]) -> None:
    groups = found.groupdict()
    before = scan.raw[: found.start()].lower()
    kind = next((kind for kind, pattern in _KINDS_BEFORE if pattern.search(before)), SetKind.WORK)
    sets_to = int(groups["sets_to"]) if groups.get("sets_to") else None
    which = scan.which(found.start())
    scan.out.schemes.append(
        Scheme(int(found["sets"]), counts.read_counts(found["list"]), found.start(), scan.original(found), kind, which, sets_to)
    )


_HALF = re.compile(r"(?<![\w./-])\d{1,2}\s*x{1,2}\s*(?=$|[,;|)@\x00]|x|tempo\b|rest\b)|(?<![\w./-])\d{1,2}\s*xx+\s*\d+", re.I)


_CROSS_BEFORE = re.compile(r"(?<![\w.])x\s*(?=\d)", re.I)  # "thruster x10" below "4 rounds"


_SETS_BEHIND = re.compile(
    r"(?<![\w.])x\s*(?P<sets>\d{1,2})(?![\w.%]|\s*(?:kg|lb|x|reps?|s\b|sec|m\b|steps))", re.I
)  # "30 yds each hand x 3"


def take_lone_counts(scan: Scan, *, in_rounds: bool) -> None:
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
    if "set_count" not in scan.out.fields and not in_rounds and not scan.out.schemes:
        for found in scan.take(_SETS_BEHIND, lambda found: bool(counts.BARE_COUNT.search(scan.left))):
            scan.out.fields["set_count"] = (int(found["sets"]), None, scan.original(found))
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
