"""Which lines open something? Days ("Day 1 - Lower", "MONDAY: push"), slots ("A1.", "2b)"), supersets, and what is said of the block.

"Day 2: Pull"      -> training day 2, "Pull"         "Wed - rest"       -> a rest day
"Workout B"        -> training day 2                 "3 on, 1 off ..."  -> the rhythm
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from bot.language.blocks.letters import NUMBER_WORDS

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_WEEKDAY = r"(?:mon(?:days?)?|tue(?:s(?:days?)?)?|wed(?:nesdays?|s)?|thu(?:r(?:s(?:days?)?)?)?|fri(?:days?)?|sat(?:urdays?)?|sun(?:days?)?)"
_NUMBERS = "|".join(NUMBER_WORDS)
_DAY = re.compile(
    rf"^(?:(?:training|workout|session|strength)\s+)?(?P<word>day|workout|session|training|wod|d)\s*[#:.-]?\s*(?P<mark>\d{{1,2}}|[a-h](?![a-z])|{_NUMBERS}|i{{1,3}}v?(?![a-z]))\b"
    r"(?!\s*(?:x|sets?|reps?|kg|%|on\b))\s*(?P<rest>.*)$",
    re.I,
)
_NAMED_DAY = re.compile(rf"^(?P<weekday>{_WEEKDAY})\b\.?(?!'s)(?P<rest>.*)$", re.I)
_DAYS_OFF = re.compile(
    rf"^(?P<which3>{_WEEKDAY}\b(?:\s*(?:,|/|&|\+|and)?\s*{_WEEKDAY}\b)+)\s*[:=-]?\s*(?:is\s+|are\s+)?(?:all\s+)?(?:rest|off|free|recovery|nothing|walk(?:s|ing)?|no\s+training)\b.*$|"
    r"^(?:rest|off)\s+days?\s*[:=-]\s*(?P<which>.+)$|^days\s+(?P<which2>[\d,&\s]+(?:and\s+\d+)?)\s*[:=-]?\s*(?:rest|off)\b.*$",
    re.I,
)
_REST_WORDS = re.compile(
    r"^[\s:(,-]*(?:(?:is\s+)?(?:a\s+)?(?:full\s+|complete\s+|active\s+)?(?:rest|off|recovery|nothing|free|no\s+training|day\s+off|walk(?:ing)?(?!\s*(?:lunge|\w*\d)))(?:\s*(?:day|/\s*(?:off|walk|recovery|mobility)|or\s+[\w\s-]+|and\s+[\w\s-]+))*)(?P<more>[\s:;.,()-].*)?$",
    re.I,
)
_SPLIT_WORDS = re.compile(
    r"^(?:the\s+)?(?:(?:heavy|light|home|hard|easy|strength|volume|power|main)\s+)?(?:push|pull|legs?|lower(?:\s+body)?|upper(?:\s+body)?|full[\s-]?body|total\s+body|arms?|core|conditioning|chest|back|shoulders?|glutes?|posterior(?:\s+chain)?|hinge|squat|abs|delts?|hamstrings?|quads?|torso|mobility|"
    r"accessor(?:y|ies))(?:\s*(?:[&+/,]|and|\+)\s*(?:\w+))*(?:\s+(?:heavy|light|hard|easy|strength|volume|power|hypertrophy|strong|fast|quick|long|short))?(?:\s+(?:day|session|workout|focus))?(?:\s*[-:]?\s*(?:[a-d1-7]|i{1,3}))?(?:\s*\(.*\))?\s*:?$",
    re.I,
)
_LABEL = re.compile(
    r"^(?P<label>[a-z]{1,2}\s?-?\s?\d{1,2}|[a-z]|\d{1,2}\s?[a-f]|\d{1,2})(?:\s*[.):\]]+|\s+-\s|(?<=\d)-(?=\s?[A-Za-z])|(?<=\d)\s+(?=[A-Za-z\"\d])|\s*\|)\s*(?P<rest>.*)$",
    re.I,
)
_SUPERSET = re.compile(
    r"^(?:(?P<letter>[a-z]|\d{1,2})\s*[.):-]\s*)?(?P<word>super\s?-?set|tri\s?-?set|giant\s?-?set|circuit|compound\s+set|pair(?:ed)?(?:\s+set)?|complex|finisher\s+circuit|emom|interval|hiit|tabata)s?\b\s*(?P<mark>[a-wyz](?![a-z])|\d{1,2}(?!\s*(?:x|rounds|sets)))?(?P<rest>.*)$",
    re.I,
)
WARM_UP = re.compile(
    r"^(?:general\s+|specific\s+)?(?:warm(?:ing)?[\s-]*up|w/?u(?=\s*[:-]))(?!\s+sets?\b)\b\s*(?:\([^)]*\))?\s*[:.-]?\s*(?P<rest>.*)$",
    re.I,
)
COOL_DOWN = re.compile(r"^(?:cool[\s-]*down|stretch(?:ing)?|finisher notes?)\b\s*[:-]?\s*(?P<rest>.*)$", re.I)
MAIN_PART = re.compile(
    r"^(?:main(?:\s+(?:work|part|session|lifts?))?|strength|workout|accessor(?:y|ies)|exercises?|work|the work|training)\s*:?$",
    re.I,
)
BURNOUT = re.compile(r"^(?:burn-?\s?out|finisher)\b(?!\s+circuit)\s*(?:sets?)?\s*[:-]\s*(?P<rest>.*)$", re.I)
WEEK_AIM = re.compile(
    r"\bw(?:ee)?ks?\.?\s*(?P<low>\d{1,2})\s*(?:(?P<join>-|to|&|and|,|/)\s*(?:w(?:ee)?k\s*)?(?P<high>\d{1,2})|(?P<on>\+|\s*(?:onwards?|on(?=\s*[:=-])|and\s+(?:on|after|beyond))))?(?:\s*[:=-]+\s*|(?<=^wk\d)\s+(?=[a-z])|(?<=^week \d)\s+(?=[a-z]))",
    re.I,
)
_LENGTH = re.compile(
    r"^(?:(?:length|duration|weeks?|block\s+length|runs?(?:\s+for)?|lasts?)\s*[:=-]?\s*)?(?P<weeks>\d{1,2})\s*(?:weeks?)?\s*(?:\(?\s*(?P<low>\d{1,2})\s*(?:-|to)\s*(?P<high>\d{1,2})\s*(?:weeks?)?\s*\)?|(?:-|to)\s*(?P<high2>\d{1,2}))?\s*(?:weeks?|wks?)?\s*\.?$",
    re.I,
)
_ON_OFF = re.compile(r"(\d)\s*(?:days?\s*)?(on|off)\b", re.I)
_ON_OFF_IN_A_ROW = re.compile(r"\bon(?:[\s,/;|-]+(?:on|off)\b){3,}", re.I)
_RHYTHM_WORDS = re.compile(r"^(?:rhythm|schedule|split|pattern)\s*[:=-]\s*(?P<rest>.+)$", re.I)


@dataclass(frozen=True, slots=True)
class DayHeading:
    """number None: not said. weekday 0 (Monday) to 6, or None."""

    name: str
    number: int | None = None
    weekday: int | None = None
    is_rest: bool = False
    after: str = ""  # what stands behind the name and is no part of it
    also: DayHeading | None = None  # the other day of "Day 1 & 3", with the same exercises


_SHARED = re.compile(
    rf"^(?P<one>(?P<word>(?:day|workout|session)\s+)\d|{_WEEKDAY})\s*(?:&|and|\+|/)\s*(?:day\s+)?(?P<two>(?(word)\d|{_WEEKDAY}))\b(?P<rest>.*)$",
    re.I,
)


_NAME_OF_TWO = re.compile(
    rf"^(?P<name>[^\d(]*?[a-z][^(]*?)\s*\(\s*(?P<one>{_WEEKDAY})\s*(?:&|and|\+|/|,)\s*(?P<two>{_WEEKDAY})\s*\)\s*:?$", re.I
)  # "upper (mon & thu)"
_THREE_WEEKDAYS = re.compile(rf"^{_WEEKDAY}\b(?:\s*(?:[,/&+-]|and)*\s*{_WEEKDAY}\b){{2,}}", re.I)


def read_day(line: str, *, set_off: bool = False) -> DayHeading | None:
    """A day's heading; None if the line is none. set_off: it was marked as a heading (hashes, stars), so looser words do."""
    text = line.strip().strip("=-_*#~ ").strip()
    if not text or len(text) > 90:
        return None
    if re.search(r"\d\s*x\s*\d", text) and not re.match(r"day\s*\d", text, re.I):
        return None
    if re.search(r"\bthe\s+same\b", text, re.I) or _THREE_WEEKDAYS.match(text):
        return None
    turned = re.match(r"^(?P<mark>[a-h])[\s-]+(?P<word>day|workout|session)\b(?P<rest>.*)$", text, re.I)
    if turned and not re.match(r"a\s", text):
        text = f"{turned['word']} {turned['mark']}{turned['rest']}"
    shared = _SHARED.match(text)
    if shared:
        first, other = (
            read_day(f"{shared['one']}{shared['rest']}"),
            read_day(f"{shared['word'] or ''}{shared['two']}{shared['rest']}"),
        )
        return replace(first, also=other) if first and other and not first.is_rest else first
    twice = _NAME_OF_TWO.match(text)
    if twice and (set_off or _SPLIT_WORDS.match(twice["name"])):
        other = DayHeading(_clean(twice["name"]), weekday=_weekday(twice["two"]))
        return DayHeading(_clean(twice["name"]), weekday=_weekday(twice["one"]), also=other)
    numbered = _DAY.match(text)
    if numbered and not (numbered["word"].lower() == "d" and not set_off and not re.match(r"^[:\s-]", numbered["rest"] or ":")):
        return _numbered(numbered)
    named = _NAMED_DAY.match(text)
    if named and not re.match(r"\s+[a-z]+\s+[a-z]+\s+[a-z]+\s", named["rest"]):
        weekday = _weekday(named["weekday"])
        is_rest = bool(_REST_WORDS.match(named["rest"]))
        name = _clean(named["rest"])
        return DayHeading("" if is_rest else name or WEEKDAYS[weekday].capitalize(), weekday=weekday, is_rest=is_rest)
    if re.fullmatch(r"(?:active\s+|full\s+)?(?:rest|off|recovery)(?:\s+day)?\s*[.!]?", text, re.I):
        return DayHeading("", is_rest=True)
    behind = re.match(
        rf"^(?P<name>[^\d(]*?[a-z][^(]*?)\s*(?:\(\s*(?P<day>{_WEEKDAY})\s*\)|[-,/]\s*(?P<day2>{_WEEKDAY}))\s*:?$", text, re.I
    )
    if behind and (set_off or _SPLIT_WORDS.match(behind["name"])):
        at = _weekday(behind["day"] or behind["day2"])
        return DayHeading(_clean(behind["name"]), weekday=at)
    numbered_words = re.match(r"^(?P<number>[1-7])\s*[.)]\s*(?P<name>\D+)$", text)
    if numbered_words and _SPLIT_WORDS.match(numbered_words["name"]) and (set_off or numbered_words["name"].isupper()):
        return DayHeading(_clean(numbered_words["name"]), int(numbered_words["number"]))
    if _SPLIT_WORDS.match(text) and (
        set_off or text.endswith(":") or text.isupper() or re.search(r"\b(day|session|workout)\b", text, re.I)
    ):
        return DayHeading(_clean(text.rstrip(":")))
    return None


def is_rest(line: str) -> bool:
    """Does a line below a day's name say that there is nothing to do?"""
    return (
        len(line) <= 60 and not re.search(r"\d\s*(?:x|s\b|sec|min|sets?)", line, re.I) and bool(_REST_WORDS.match(line.strip()))
    )


def _weekday(word: str) -> int:
    return next(at for at, day in enumerate(WEEKDAYS) if day.startswith(word.lower()[:3]))


_SAME_WEEKDAYS = re.compile(
    rf"(?P<one>{_WEEKDAY})\s*(?:&|and|\+|/|,|=)\s*(?P<two>{_WEEKDAY})\b\s*(?:[:=-]|are|is|have)?\s*(?:both\s+)?(?:the\s+)?(?:same|identical|alike|twins?)\b",
    re.I,
)


def read_weekdays(line: str) -> tuple[int, ...]:
    """ "Mon / Tue / Thu / Fri" or "Days: Mon & Thu": weekdays and nothing else; two alone may be one heading for both."""
    found = re.fullmatch(
        rf"(?P<key>(?:(?:training|our|your|the)\s+)*(?:days?|sessions?|when|schedule|we\s+train)\s*(?:are|on|is)?\s*[:=-]?\s*)?(?P<days>{_WEEKDAY}\b(?:\s*(?:[,/&+-]|and)*\s*{_WEEKDAY}\b)+)\s*(?:plan|split|block|schedule|program(?:me)?|training|only)?\s*[.:]?",
        line.strip(),
        re.I,
    )
    days = tuple(_weekday(word) for word in re.findall(_WEEKDAY + r"\b", found["days"], re.I)) if found else ()
    return days if found and (found["key"] or len(days) > 2) and list(days) == sorted(set(days)) else ()


def read_same_weekdays(line: str) -> tuple[tuple[int, int], ...]:
    """((0, 3), (1, 4)) of "mon + thu the same, tue + fri the same"."""
    return tuple((_weekday(found["one"]), _weekday(found["two"])) for found in _SAME_WEEKDAYS.finditer(line))


def could_be_day(line: str) -> bool:
    """Words of a split alone on a line ("Upper", "Legs & glutes"): a heading when exercises follow."""
    return bool(_SPLIT_WORDS.match(line.strip())) and len(line.split()) <= 5


def could_be_part(line: str) -> bool:
    """ "Core:", "Abs", "Conditioning": words for the end of a session as much as for a day."""
    return bool(re.fullmatch(r"(?:core|abs|arms|conditioning|mobility|accessor(?:y|ies))(?:\s+work)?\s*:?", line.strip(), re.I))


def _numbered(found: re.Match[str]) -> DayHeading:
    mark = found["mark"].lower()
    if mark.isdigit():
        number = int(mark)
    elif mark in NUMBER_WORDS:
        number = NUMBER_WORDS[mark]
    elif re.fullmatch(r"i{1,3}|iv", mark):
        number = {"i": 1, "ii": 2, "iii": 3, "iv": 4}[mark] if len(mark) > 1 else 9 if found["word"].lower() == "workout" else 1
    else:
        number = ord(mark) - ord("a") + 1
    rest = found["rest"]
    if re.match(r'\s*[:-]?\s*"', rest):
        return DayHeading(_clean(rest), number)
    if _REST_WORDS.match(rest):
        return DayHeading("", number, is_rest=True)
    weekday = re.match(
        rf"^[\s:(,/-]*(?:(?:do\s+(?:it|this|that)|for|on)\s+)*(?P<weekday>{_WEEKDAY})\b\)?(?P<rest>.*)$", rest, re.I
    )
    if weekday:
        at = _weekday(weekday["weekday"])
        if _REST_WORDS.match(weekday["rest"]):
            return DayHeading("", number, at, is_rest=True)
        return DayHeading(_clean(weekday["rest"]) or WEEKDAYS[at].capitalize(), number, at)
    behind = re.match(
        rf"^(?P<name>.*?[a-z].*?)\s*(?:\(\s*(?P<day>{_WEEKDAY})\s*\)|[-,/|]\s*(?P<day2>{_WEEKDAY}))\s*:?$", rest, re.I
    )
    if behind:
        return DayHeading(_clean(behind["name"]), number, _weekday(behind["day"] or behind["day2"]))
    return DayHeading(_clean(rest), number)


def _clean(text: str) -> str:
    text = re.sub(r"^\s*(?:is|will\s+be|means)\s+(?:(?:all\s+about|our|the|a|for|your)\s+)*", "", text, flags=re.I)
    quoted = re.fullmatch(r'\W*"(.*)"\W*', text.strip())
    if quoted and quoted[1]:
        return quoted[1].replace('""', '"')
    text = text.strip().strip(":-|=~/,* ").strip()
    if re.fullmatch(
        r"\(?(?:approx\.?|about|around|ca\.?|~)?\s*\d+(?:\s*-\s*\d+)?\s*(?:h|hours?|mins?|minutes?)\.?\)?", text, re.I
    ):
        return ""  # how long it takes is no name
    while text.startswith("(") and text.endswith(")"):
        text = text[1:-1].strip()
    return text


def read_label(line: str) -> tuple[str, str] | None:
    """("A1", the rest) of "A1. Goblet squat", "1a) ...", "B - ..."; None without a label. "1." gives "1", a letter alone the letter."""
    found = _LABEL.match(line.strip())
    if not found or not found["rest"].strip():
        return None
    if re.match(r"[a-z]\s+[12][\s-]?(?:arm|leg|hand)", line.strip(), re.I):
        return None  # "c 1 arm row"
    raw = re.sub(r"[\s-]", "", found["label"]).upper()
    told = re.sub(r"^(?:is|becomes)\s+(?:now\s+)?(?:an?\s+)?(?=\w)", "", found["rest"].strip(), flags=re.I)  # "C2 is keg carry"
    if re.match(r"W(?:K|EEK)?\d", raw):
        return None
    if re.fullmatch(r"\d+", raw) and re.match(
        r"\s*(?:x|sets?|reps?|rounds?|min|s\b|sec|kg|lb|%|-\s?\d)", line.strip()[len(found["label"]) :], re.I
    ):
        return None
    if re.fullmatch(r"\d+", raw) and not re.match(r"\s*[.):|\]]", line.strip()[len(found["label"]) :]):
        return None
    turned = re.fullmatch(r"(\d+)([A-F])", raw)
    if turned:
        return f"{letters_of(int(turned[1]))}{ord(turned[2]) - ord('A') + 1}", told
    return raw, told


def letters_of(number: int) -> str:
    """1 -> A ... 26 -> Z, 27 -> AA."""
    letters = ""
    while number > 0:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


_WORK_AND_REST = re.compile(
    r"^(?:\d{1,2}\s*(?:x|rounds?(?:\s+of)?)\s*)?[1-9]\d\s*(?:s|secs?|seconds)?\s*(?:on|work)?\s*[/:]\s*[1-9]\d\s*(?:s|secs?|seconds)?\s*(?:off|rest)?(?:\s*,?\s*x?\s*\d{1,2}\s*(?:rounds?|times|x)?)?\s*:$",
    re.I,
)  # "40/20 x 5 rounds:"
_ROUNDS = re.compile(
    r"^(?:(?:then|now|next|finally|and)\s+)*(?:do\s+)?(?P<rounds>\d{1,2})\s*(?:x\s+)?(?:rounds?|times\s+through)(?:\s+of)?\s*(?P<rest>[:,(-].*)?(?<!\d)$",
    re.I,
)


# "Block 1: 4 rounds, rest 90 sec between rounds", "Part B - 3 rounds"
_ROUNDS_BEHIND = re.compile(
    r"^(?:block|part|section|group|round|complex|couplet|triplet|set|finisher|main|station|cluster|[a-h])\s*(?:[a-h]|\d{1,2})?\s*[:,(-]+\s*(?P<rounds>\d{1,2})\s*(?:x\s+)?(?:rounds?|times\s+through)(?:\s+of)?\s*(?P<rest>[:,(-].*)?(?<!\d)$",
    re.I,
)


@dataclass(frozen=True, slots=True)
class SupersetHeading:
    letter: str
    rounds: int | None
    rest: str  # what else stands there


def read_superset(line: str) -> SupersetHeading | None:
    """ "Superset A:", "B) Triset x 3", "Circuit - 3 rounds, rest 90s": the slots below belong together."""
    found = _SUPERSET.match(line.strip())
    rounds_only = (_ROUNDS.match(line.strip()) or _ROUNDS_BEHIND.match(line.strip())) if not found else None
    if rounds_only:
        return SupersetHeading("", int(rounds_only["rounds"]), (rounds_only["rest"] or "").strip(" :-()|,."))
    if not found and _WORK_AND_REST.match(line.strip()):
        return SupersetHeading("", None, line.strip())
    if not found:
        return None
    by_clock = (
        f"emom {found['mark'] or ''}" if found["word"].lower().startswith("emom") else ""
    )  # the minutes behind it are its rounds
    rest = by_clock + found["rest"]
    rounds = re.search(r"(?:x\s*(\d{1,2})|(\d{1,2})\s*(?:x\b|rounds?|sets?|times))", rest, re.I)
    remainder = (rest[: rounds.start()] + rest[rounds.end() :]) if rounds else rest
    if re.search(r"\d\s*x\s*\d|\bx\s*\d+\s*$", rest) and not rounds:
        return None
    given = found["letter"] or ""
    letter = (
        letters_of(int(given))
        if given.isdigit()
        else given or (found["mark"] if found["mark"] and found["mark"].isalpha() else "")
    )
    return SupersetHeading(letter.upper(), int(rounds[1] or rounds[2]) if rounds else None, remainder.strip(" :-()|,."))


def read_length(line: str) -> tuple[int, int | None, int | None] | None:
    """(default, least, most) weeks of "4 weeks", "Weeks: 4 (4 to 10)", "6-8 weeks"; None if the line says no length."""
    found = _LENGTH.match(line.strip())
    if not found or not re.search(r"week|wk|length|duration", line, re.I):
        return None
    weeks = int(found["weeks"])
    if found["high2"]:
        return weeks, weeks, int(found["high2"])
    if found["low"]:
        return weeks, int(found["low"]), int(found["high"])
    return weeks, None, None


def read_rhythm(line: str) -> tuple[bool, ...] | None:
    """ "3 on, 1 off, 2 on, 1 off" or "Rhythm: on, on, off"; None if the line is no rhythm."""
    counted = _ON_OFF.findall(line)
    rest = re.sub(_ON_OFF, "", re.sub(r"^(?:rhythm|schedule|split|pattern)\b", "", line.strip(), flags=re.I))
    if len(counted) >= 2 and not re.sub(r"\b(?:and|then)\b|[\s,:;/+&.-]", "", rest):
        return tuple(word.lower() == "on" for count, word in counted for _ in range(int(count)))
    keyed = _RHYTHM_WORDS.match(line.strip()) or re.fullmatch(
        r"(?P<rest>(?:(?:on|off|train|rest)\b[\s,/;|-]*){3,})", line.strip(), re.I
    )
    words = re.split(r"[\s,/;-]+", keyed["rest"].strip().lower()) if keyed else []
    if words and all(word in ("on", "off", "train", "rest", "x", "o") for word in words):
        return tuple(word in ("on", "train", "x") for word in words)
    return None


def rhythm_in(line: str) -> tuple[bool, ...] | None:
    """ "... 4 weeks, on on off on on on off" within a sentence."""
    found = _ON_OFF_IN_A_ROW.search(line)
    return tuple(word.lower() == "on" for word in re.findall(r"\b(?:on|off)\b", found[0], re.I)) if found else None


_OVERVIEW = re.compile(r"\b(?:day|d)\s?(?P<days>\d(?:\s*(?:/|&|\+|and|,)\s*(?:day|d)?\s?\d)*)\s*[:=-]?\s*(?P<what>[a-z]+)", re.I)


def read_overview(line: str) -> tuple[str, ...] | None:
    """Numbers of the days off in "D1 push D2 pull D3 rest D4 legs"; None where a line is no list of at least three days."""
    found = list(_OVERVIEW.finditer(line))
    if len(found) < 3 or re.search(r"\d\s*x\s*\d", line):
        return None
    off = [
        number
        for one in found
        if one["what"].lower() in ("rest", "off", "recovery", "free")
        for number in re.findall(r"\d", one["days"])
    ]
    return tuple(off) or None


def read_days_off(line: str) -> tuple[str, ...] | None:
    """Numbers or weekdays of "Rest days: Wed, Sun" or "Days 4 and 7: rest", as words in lower case."""
    found = _DAYS_OFF.match(line.strip())
    if not found:
        return None
    words = re.findall(rf"{_WEEKDAY}\b|\d+", found["which3"] or found["which"] or found["which2"], re.I)
    return tuple(word.lower()[:3] for word in words) if words else None
