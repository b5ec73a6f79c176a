"""Where in a text stand dates, spans, times and sessions? Each becomes a mark, so that a wish's shape is short and one for all of them.

    "push legs from fri to sunday" -> "push S0 from D0 to D1", with D0 "fri", D1 "sunday", S0 "legs"

Marks: D one date, P a period ("next week"), N a count of time ("two weeks"), T a time of day, W weekdays ("weekends"), S a session of
the block ("day 2", "leg day"). A mark keeps the words it stands for; what they mean is read only when a shape wants them.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from bot.language.dates.moments import DATE, DAY, MONTH, PERIOD

_COUNT = (
    r"(?:an?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|fifteen|twenty|thirty|forty five|forty|sixty|ninety|"
    r"(?:a )?couple(?: of)?|(?:a )?few|(?<!on )(?<!to )another|\d{1,3})"
)
_UNIT = r"(?:hours?|hrs?|h|minutes?|mins?|days?|weeks?|wks?|months?|fortnights?)"
_SPAN = rf"(?:half an hour|half hour|an hour and a half|(?:a )?quarter of an hour|{_COUNT} ?(?:full |whole |more )?{_UNIT}|(?:a )?fortnight)"
HALF = r"(?: ?(?:am|pm|a\.m\.?|p\.m\.?))"
_HOUR = r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_PART = r"(?: (?:in the )?(?:morning|afternoon|evening|night))"
_MINUTES = r"(?:five|ten|twenty five|twenty|5|10|20|25)(?: minutes?| mins?)?"
_TIME = (
    rf"(?:{_MINUTES} past (?:{_HOUR}|\d{{1,2}})\b{HALF}?{_PART}?|"
    rf"(?:half(?: past)?|(?:a )?quarter (?:to|past)) (?:{_HOUR}|\d{{1,2}})\b{HALF}?{_PART}?|\d{{1,2}}[:.h]\d{{2}}{HALF}?{_PART}?|\d{{1,2}}h\b|"
    rf"\d{{1,2}}{HALF}{_PART}?|\d{{3,4}}{HALF}|(?:\d{{1,2}}|{_HOUR})(?: ?o ?clock){_PART}?|(?:\d{{1,2}}|{_HOUR}) in the (?:morning|afternoon|evening)|"
    rf"noon|midday|midnight|{_HOUR} thirty{HALF}?{_PART}?|{_HOUR}{HALF})"
)
# Beside words of reminding a bare hour is a time, and a weekday's morning is its morning.
_BARE_TIME = rf"(?:{_TIME}|(?:(?<=at )|(?<=before )|(?<=after )|(?<=until )|(?<=till )|(?<=to )|(?<=by )|(?<=from )|(?<=between )|(?<=and )|(?<=around )|(?<=for )|(?<=reminder )|(?<=about )|(?<=me )|(?<=time )|(?<=hours )|(?<=quiet )|(?<=work )|(?<=disturb )|(?<=pings )|(?<=messages )|(?<=texts )|(?<=reminders ))(?:\d{{1,2}}|{_HOUR})(?! ?{_UNIT}\b|[./\d]|(?:st|nd|rd|th)\b| (?:of )?{MONTH}\b)|(?<!\d)(?:[01]?\d|2[0-3])[0-5]\d(?!\d))"
_WEEKDAYS = r"(?:(?:on )?weekends|every weekend|weekdays|week days|every weekday|every ?day|all days|each day|daily|mwf|m/w/f|t/th|seven days a week|7 days a week)"
# "Sun is out", "the sun was in my eyes" speak of the sky.
_WEATHER = (
    r"\bthe sun\b(?! (?:session|workout|one|lift|training))|\bsun(?= (?:is|was|s|isnt|be|keeps?|came|comes|has|gonna)? ?"
    r"(?:out|shining|shines?|hot|blazing|up|down|setting|set|rising|rose|high|low|in my eyes|beating|come out|finally out)\b)|\bsun(?=burn|light|cream| cream| hat| tan| lounger)"
)
# "Quiet from 10 to 7" is a stretch, "remind me 10 to 7" a time of day.
_RANGE = re.compile(r"\b(?:from|between|quiet|no|nothing|dont|silence|silent|mute|disturb|off|not)\b")
REMINDING = re.compile(
    r"\b(?:remind\w*|ping\w*|notif\w+|nudg\w+|nag(?:ging)?|snooze|alerts?|alarms?|quiet|silence|disturb|contact(?:ing)?|bother\w*|bug(?:ging)?|messag\w+|texts?|texting|"
    r"write (?:to )?me|dont write|leave me (?:alone|in peace|be)|wake me|nothing (?:before|after)|not before|shush|mute|buzz\w*|beep\w*|poke|poking|prod(?:ding)?|(?:give|send) (?:me|us) (?:a )?(?:shout|buzz|prod|poke|heads up|kick))\b"
)


@dataclass(frozen=True)
class Marked:
    """words: the text with marks in it; said: mark -> the words it stands for; session_marks: those that are said of a session."""

    words: str
    said: Mapping[str, str]
    session_marks: frozenset[str] = frozenset()

    def plain(self, words: str) -> str:
        """The words as they were said, marks taken back."""
        return re.sub(r"[DPNTWS]\d+", lambda mark: self.said.get(mark[0], mark[0]), words)


def mark(words: str, names: Mapping[int, str]) -> Marked:
    """Mark the fields of a tidied text. names: day number -> the day's name in the block."""
    said: dict[str, str] = {}

    def put(letter: str) -> Callable[[re.Match[str]], str]:
        def mark_one(found: re.Match[str]) -> str:
            name = f"{letter}{len(said)}"
            said[name] = found[0]
            return name

        return mark_one

    def marks(letter: str, pattern: str) -> None:
        nonlocal words
        words = re.sub(rf"(?<![\w./])(?:{pattern})(?![\w])", put(letter), words)

    reminding = bool(REMINDING.search(words))
    marks("S", r"day [1-9]")
    if reminding:
        words = re.sub(r"(?<![\d:.])(\d{1,2}) ?- ?(?=\d{1,2}(?![\d:.]))", r"\1 to ", words)
        words = re.sub(r"\b(?:qtr|quater)\b", "quarter", words)
        marks("T", r"(?:(?<=after )|(?<=before )|(?<=until )|(?<=till )|(?<=from ))(?:0?[5-9]|1\d|2[0-3])h")
        if not _RANGE.search(words):
            marks("T", rf"{_MINUTES} (?:past|to) (?:{_HOUR}|\d{{1,2}})\b{HALF}?{_PART}?")
        marks("N", rf"(?<!at )(?<!to )(?<!for )(?<!around ){_SPAN}")
        marks("T", _BARE_TIME)
    words = re.sub(_WEATHER, "weather", words)
    marks("D", rf"(?:this|next) week (?:on )?{DAY}(?!(?:,? and|,|)? {DAY}\b)")
    marks("W", rf"{_WEEKDAYS}(?! {DAY})")
    marks("D", rf"(?:{DATE})s?(?! week\b)|{DAY} week")
    marks("P", PERIOD)
    if not reminding:
        marks("N", _SPAN)
        marks("T", _TIME)
    words = re.sub(r"(D\d+) ?- ?(?=D\d)", r"\1 to ", words)
    words = re.sub(r" -+ |^-+ | -+$", ", ", words)
    words = _mark_names(words, names, put("S"))
    of_sessions = frozenset(re.findall(rf"\b([DS]\d+)s? {_SESSION}\b", words) + re.findall(rf"{_SESSION_ON} ([DS]\d+)\b", words))
    return Marked(_folded(words), said, of_sessions)


_NO_NAME = frozenset(
    {"day", "days", "the", "and", "all", "it", "of", "session", "workout", "training", "week", "body", "with", "work"}
)
_ALSO_VERBS = frozenset({"push", "pull", "press", "carry", "move", "lift", "rest", "hold", "shift", "swing", "hinge", "squat"})


def _mark_names(words: str, names: Mapping[int, str], put: Callable[[re.Match[str]], str]) -> str:
    """The block's own names for its days; one that is a verb as well only where it cannot be one."""
    whole = [re.escape(name.lower()) for name in names.values() if len(name) >= 3 and " " in name]
    single = {word for name in names.values() for word in re.findall(r"[a-z]{3,}", name.lower())} - _NO_NAME
    stems = {word.removesuffix("s") if len(word) > 3 else word for word in single}
    plain = [rf"{re.escape(stem)}s?" for stem in sorted(stems, key=len, reverse=True) if stem not in _ALSO_VERBS]
    verbs = [re.escape(stem) for stem in sorted(stems & _ALSO_VERBS)]
    tail = r"(?: (?:day|days|session|sessions|workout|workouts|training))"
    if whole:
        words = re.sub(rf"\b(?:{'|'.join(whole)})\b{tail}?", put, words)
    if plain:
        words = re.sub(rf"\b(?:{'|'.join(plain)})\b{tail}*", put, words)
    if verbs:
        either = "|".join(verbs)
        words = re.sub(
            rf"\b(?:{either})s?{tail}+|(?<=swap )(?:{either})\b|(?<=and )(?:{either})\b(?= |$)|(?<=with )(?:{either})\b",
            put,
            words,
        )
        words = re.sub(
            rf"(?<=move )(?:{either})\b|(?<=skip )(?:{either})\b(?=$| D)|(?<=do )(?:{either})\b(?=$| on| D)|(?<=did )(?:{either})\b(?= on| D)"
            rf"|\b(?:{either})\b(?= on D)|(?<=my )(?:{either})\b|\b(?:{either})\b(?= and S\d)|\b(?<=S\d and )(?:{either})\b", put, words
        )  # fmt: skip
    return words


_SESSION = r"(?:session|sessions|workout|workouts|training|training session|training day|class|exercise|exercises|stuff|thing|one|ones|lift|gym|practice)"


# "No training from D0 until D1" is a stretch, "the training from D0" a session.
_SESSION_ON = rf"(?<!no )(?<!without )\b{_SESSION} (?:on|for|of|planned for|due|from(?! [DS]\d+ (?:to|till|til|until|through|thru|up|for|on|-)))(?= [DS]\d)"


def _folded(words: str) -> str:
    """ "D0's workout", "the session on D0", "my D0 one" are D0; "D0 S1" (friday's legs) stays two marks."""
    words = re.sub(rf"\b(do|doing) (?:this|todays) {_SESSION} (?=(?:on )?D\d)", r"\1 it ", words)  # today's, put on another day
    words = re.sub(rf"\b([DS]\d+)s?(?: {_SESSION})+\b", r"\1", words)
    words = re.sub(r"\b([DS]\d+)s\b", r"\1", words)
    words = re.sub(rf"(?:\b(?:the|my|our|that|this) )?{_SESSION_ON} ([DS]\d+)\b", r"\1", words)
    return re.sub(r"\b(?:the|my|our|that|this|a) (?=[DS]\d)", "", words)
