"""Which rarer ways of writing a line are turned into the usual one before it is read?

    "C1) Cable fly 3x12 // C2) Lateral raise 3x12"   -> two lines
    "20 swings", "30s plank" in a circuit            -> "swings 20", "plank 30s"
    "100 swings, break it up as you like"            -> "swings 1x100, break it up as you like"
    "Top set: Back squat 1x3 @ 85%"                  -> "Back squat 1x3 @ 85%", and a note
    "Curls + pushdowns superset - 3x12 each"         -> two exercises, 3x12 both
    "Push-up burnout x1"                             -> "Push-up 1xAMRAP", a burnout
    "3x8 (wk1), 3x9 (wk2)"                           -> "week 1: 3x8, week 2: 3x9"

Only where the exercise in it is known: all else stays as it was typed.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

Known = Callable[[str], bool]
_LABEL = r"(?P<label>(?:[A-Z]{1,2}\s?\d{0,2}|\d{1,2}[a-f]?)\s*[.):]\s*|[A-Z]\d{1,2}\s+)?"
_UNIT = r"(?:s|secs?|seconds?|min(?:ute)?s?|m|met(?:re|er)s?|steps|reps?)"
_BESIDE = re.compile(r"\s*(?://|\||;|,|\s[+&]\s)\s*(?=[A-H]\d\s?[.):]\s*[A-Za-z])")
_COUNT_FIRST = re.compile(
    rf"^{_LABEL}(?P<count>\d{{1,3}}(?:\s*-\s*\d{{1,3}})?\s*{_UNIT}?)\s+(?:x\s+|of\s+)?(?P<name>[A-Za-z][^\d@,;:(]*?)(?P<rest>(?:\s*[,;:(@]|\s+-\s|\s+\d|\s+(?:e/s|each|per)\b).*)?$",
    re.I,
)
_BARE_COLUMNS = re.compile(
    rf"^{_LABEL}(?P<name>[A-Za-z][^\d@,;:(/|]*?)\s*(?P<mark>\s[/|-]\s|\|)\s*(?P<sets>[1-9]|10)\s*(?P=mark)\s*(?P<reps>\d{{1,3}}(?:\s?-\s?\d{{1,3}})?\+?(?:\s?(?:s|secs?|m|steps))?(?:\s?(?:/\s?(?:side|leg|arm)|each|e/s))?|amrap|max)(?:\s*(?P=mark)\s*(?P<rest>.*))?$",
    re.I,
)  # "Squat / 5 / 5 / 75%": sets and reps in columns without a head
_NEXT_ONE = re.compile(
    r"^(?:(?:and|then)\s+)*(?:the\s+)?(?:last|final|next|first|second|third)\s+(?:one|up|thing|exercise|move)\b\s*(?:is|are|we\s+have)?\s*[,:-]?\s*(?:the\s+|an?\s+)?(?P<name>[A-Za-z][^\d@,;:(]*?)(?:\s*[,;:(@-]|\s+\d).*$",
    re.I,
)  # "last one farmers walk 3x30 m" is not about the last set
_FREELY = re.compile(
    r"^(?P<count>\d{2,3})\s+(?P<name>[A-Za-z][A-Za-z' -]+?)\s+(?P<rest>(?:as\s+(?:fast|quick|few|slow)|for\s+time|in\s+as\s+few|any\s+way|however|in\s+total|total|no\s+matter|break)\b.*)$",
    re.I,
)  # "50 swings as fast as you can"
_ONE_SET = re.compile(
    r"\b(?:total|in\s+total|break\s+(?:it|them|these)?\s*up|however|any\s+way|as\s+you\s+like|for\s+time|in\s+as\s+few)\b", re.I
)
_HEADED = re.compile(
    rf"^{_LABEL}(?P<what>[A-Za-z][A-Za-z' -]{{2,24}}?)\s*:\s*(?P<rest>(?P<name>[A-Za-z][^\d@,;(:]*?)(?:\s*[,;:(@-]|\s+\d).*)$"
)
_PART = re.compile(
    r"(?:finishers?|burners?|abs?|core|cardio|conditioning|challenge|bonus|main\s+lift|accessory|skill|game)", re.I
)
_TWO = re.compile(
    rf"^{_LABEL}(?P<one>[A-Za-z][^\d+&@,;:(]*?)\s*(?:\+|&|/|\band\b|\bwith\b|\binto\b)\s*(?P<two>[A-Za-z][^\d+&@,;:(]*?)\s*(?:super-?\s?set|ss)?\s*[-:]?\s*(?P<rest>\d.*)$",
    re.I,
)
_LISTED = re.compile(
    r"^(?P<number>\d{1,2})\s+(?P<name>[A-Za-z][^\d@,;:(]*?)(?P<rest>\s*[-:,(]?\s*\d{1,2}(?:\s*-\s*\d{1,2})?\s*(?:x\s*|sets?\b|rounds?\b).*)$",
    re.I,
)  # "2 Floor press 3x8": a number of the list without a mark
_LABEL_BEHIND = re.compile(
    r"^(?P<before>[a-z][^:]{5,40}?)\s*:\s*(?P<rest>[A-H]\d?\s?[.)]\s*[A-Za-z].*)$", re.I
)  # "every minute for 10 min: C. swing x12"
_TOTAL = re.compile(
    rf"^{_LABEL}(?P<name>[A-Za-z][^\d@,;:(]*?)\s*[-:,]?\s*(?P<count>\d{{2,3}})\s*(?:reps?\s+)?(?:in\s+)?total(?P<rest>[\s,;:(].*)?$",
    re.I,
)
_BURNOUT = re.compile(r"\s*\bburn-?\s?outs?(?:\s+sets?)?\b\s*(?:x\s*(?P<times>\d)\b(?!\s*x))?", re.I)
_WEEK_BEHIND = re.compile(
    r"(?P<sets>\d{1,2}\s*x\s*[^,;()]*?)\s*\(\s*(?:weeks?|wks?|w)\s?(?P<week>\d{1,2}(?:\s*-\s*\d{1,2})?)\s*\)", re.I
)


@dataclass(frozen=True, slots=True)
class Usual:
    """A line in its usual form. more: exercises of the same line, to be read below it. note: what stood before the exercise."""

    text: str
    more: tuple[str, ...] = ()
    note: str = ""
    is_burnout: bool = False


def lines_in(text: str) -> tuple[str, ...]:
    """The parts of a line that names several labelled exercises."""
    if not re.match(r"^[A-H]\d\s?[.):]", text):
        return (text,)
    return tuple(part for part in _BESIDE.split(text) if part.strip())


def usual_form(text: str, known: Known) -> Usual:
    text = _WEEK_BEHIND.sub(lambda found: f"week {found['week']}: {found['sets']}", text)
    listed = _LISTED.match(text)
    if listed and _is(known, listed["name"]):
        text = f"{listed['number']}. {listed['name']}{listed['rest']}"
    bare = _BARE_COLUMNS.match(text)
    if bare and ("-" not in bare["mark"] or _is(known, bare["name"])):
        text = (
            f"{bare['label'] or ''}{bare['name']} {bare['sets']}x{bare['reps']}{', ' if bare['rest'] else ''}{bare['rest'] or ''}"
        )
    next_one = _NEXT_ONE.match(text)
    if next_one and _is(known, next_one["name"]):
        text = text[next_one.start("name") :]
    behind = _LABEL_BEHIND.match(text)
    if behind:
        text = f"{behind['rest']}, {behind['before']}"
    headed = _HEADED.match(text)
    if (
        headed
        and (_is(known, headed["name"]) or (headed["label"] and _PART.fullmatch(headed["what"])))
        and not known(headed["what"])
    ):
        return Usual(f"{headed['label'] or ''}{headed['rest']}", note=headed["what"])
    freely = _FREELY.match(text)
    if freely and _is(known, freely["name"]):
        return Usual(f"{freely['name']} 1x{freely['count']}, {freely['rest']}")
    first = _COUNT_FIRST.match(text)
    if first and _is(known, first["name"]) and not re.search(r"\d\s*x\s*\d|\bsets?\b", first["rest"] or ""):
        one_set = "1x" if _ONE_SET.search(text) else ""
        return Usual(f"{first['label'] or ''}{first['name'].strip()} {one_set}{first['count'].strip()}{first['rest'] or ''}")
    total = _TOTAL.match(text)
    if total and _is(known, total["name"]):
        return Usual(f"{total['label'] or ''}{total['name']} 1x{total['count']}{total['rest'] or ''}")
    two = _TWO.match(text)
    if (
        two
        and _is(known, two["one"])
        and _is(known, two["two"])
        and not known(f"{two['one']} {two['two']}")
        and not _names_one(two, known)
    ):
        rest = re.sub(r"\s*\beach\b\s*$", "", two["rest"])
        return Usual(f"{two['label'] or ''}{two['one']} {rest}", (f"{two['two']} {rest}",))
    burnout = _BURNOUT.search(text)
    if (
        burnout
        and not re.search(r"\d\s*x|\bsets?\b|\d\s*(?:s|reps?)\b|amrap|max", text.replace(burnout[0], " "), re.I)
        and text[: burnout.start()].strip()
    ):
        return Usual(f"{text[: burnout.start()]} {burnout['times'] or 1}xAMRAP{text[burnout.end() :]}", is_burnout=True)
    return Usual(text)


def _is(known: Known, name: str) -> bool:
    bare = re.sub(r"\s+(?:for|x|of|then)$", "", name.strip(), flags=re.I)
    return known(bare) or all(known(part) for part in re.split(r"\s+or\s+", bare, flags=re.I))


def _names_one(two: re.Match[str], known: Known) -> bool:
    """ "Clean and press" is one exercise, whatever its halves are."""
    return known(two[0][two.start("one") - two.start() : two.end("two") - two.start()])
