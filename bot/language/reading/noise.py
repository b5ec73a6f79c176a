"""What stands in the way of reading a message as sets? It is rewritten in place, before it is cut into tokens.

What is told in a roundabout way becomes what most people write, and numbers that are no sets are blanked. The text keeps its
length, so that places stay places. The rewritings stand by theme in retelling/; here is their order, for many read what the ones
before them left: "3 sets 7 155 lbs" has to be a set before a number beside it may be called no lift.

    "20x12 tempo 3110"            -> "20x12           "
    "20x12 rpe 8-9"               -> "20x12 rpe 8.5"
    "20x10 failed on the 11th"    -> "20x10 failed            "
"""

from __future__ import annotations

import re

from bot.language.reading.retelling import aims, efforts, layout, lists, loads, others, sides, taken_back
from bot.language.reading.retelling.rewriting import Rewriting, rewritten
from bot.language.tokens import tokens_of

# Applied to every text, also to one of signs and figures only.
FIRST: tuple[Rewriting, ...] = (
    sides.SIDES_FIRST,
    layout.SPOKEN_STOP,
    aims.OF_LAST_TIME,
    others.POINT_ROW,
    lists.SETS_AT,
    lists.BANDS_IN_TURN,
    aims.INTENDS,
    layout.AND_DONE,
    efforts.KEPT_TEMPO,
    lists.AND_SAME,
    lists.SAME_FOR_NEXT,
    lists.NEXT_SET,
    lists.TWICE,
    layout.LINE_NUMBER,
    layout.DATE_LINE,
    layout.ROUND_HEAD,
    aims.LIKE_LAST,
    aims.AS_LAST,
    aims.B_FOUR,
    others.WARM_UP,
    loads.ARROW,
    others.BACK_AGAIN,
    layout.LETTER_O,
    layout.POINT_BETWEEN,
    layout.ROW_OF_TABLE,
    layout.LONE_TIMES,
    efforts.QUARTERS,
    lists.THAT_SET,
)
# Applied where both a number and words stand.
AMONG_WORDS: tuple[Rewriting, ...] = (
    loads.PAIR_OF,
    loads.WITH_TWO_OF,
    loads.HANGING,
    loads.ADDED,
    loads.HEAVIER,
    loads.BUMPED,
    aims.BEAT_BY,
    aims.FEWER,
    sides.ONE_THEN_OTHER,
    others.BREATHS,
    loads.MOVED_TO,
    lists.THIS_SET,
    efforts.REST_PAUSED,
    efforts.ONLY_HALFWAY,
    efforts.COULD_HAVE,
    efforts.EASILY_MORE,
    efforts.STUCK,
    efforts.DOWN,
    aims.EXPECTED,
    lists.SO_IN_TOTAL,
    others.TIME_OF_DAY,
    taken_back.LAST_ONE_WAS,
    taken_back.TOO_MUCH,
    taken_back.PAIR_AGAIN,
    taken_back.LOAD_AGAIN,
    taken_back.COUNT_AGAIN,
    taken_back.NOW_THIS,
    lists.SINGLE,
    lists.ALL_SETS_ALL,
    lists.K_SETS,
    lists.ALL_K_SETS,
    lists.ALL_SETS_LIST,
    lists.ALL_WITH,
    loads.DOUBLE,
    layout.ARROW,
    loads.ON_LOAD,
    others.DONE_BY,
    efforts.COUPLE_LEFT,
    sides.REPS_LEFT,
    lists.SETS_OF,
    sides.BODY_SIDE,
    lists.SAME_DASH,
    loads.MORE_ON_IT,
    others.BAND_EXCUSE,
    others.BAND_GONE,
    aims.WENT_FOR,
    aims.LAST_WEEK,
    layout.PREFACE,
    lists.ACROSS,
    lists.BOTH_TIMES,
    others.HELPED,
    layout.RIGHT_SO,
    others.MORE_THINGS,
    efforts.BEFORE_NTH,
    others.WEEKS,
    loads.SO_NOW,
    loads.AND_A_HALF,
    loads.TWO_ALIKE,
    efforts.NOTHING_LEFT,
    sides.MATCHED,
    loads.PUT_IN,
    taken_back.NOT_THAT,
    efforts.AT_REP,
    loads.FOR_A_TRIPLE,
    loads.TWO_THINGS,
    sides.FIRST_SIDE,
    efforts.MORE_LEFT,
    loads.DROPPED_FOR_MORE,
    loads.BOTH_HANDS,
    sides.NAMED_SIDES,
    loads.WATER,
    loads.W_AND_R,
    loads.PARTS_OF_TOTAL,
    lists.FIRST_SETS,
    lists.FIRST_TWO,
    lists.BOTH_SETS,
    others.NO_LIFTS,
    others.GIVEN_UP,
    others.NO_COUNTS,
    efforts.OF_TEN,
    efforts.OF_TEN_BEHIND,
    efforts.RANGE_LEFT,
    efforts.RANGE_RIR,
    efforts.RANGE_RPE,
    efforts.FAILED,
    efforts.LESS,
    efforts.AN_EIGHT,
)
_NUMBER_WORD = re.compile(
    r"\b(?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|fifteen|twenty|thirty|forty|fifty|tens|twelves|fifties|twenties|thirties)\b"
)
_WORDY = re.compile(r"[a-z]{3}|\bno\b|\d\s?-\s?\d\s?-\s?[\dx]\s?-|rir|rpe|hr|bpm")


def without_noise(text: str) -> str:
    """What is told in a roundabout way told plainly, and what is no set blanked; the same length."""
    text = rewritten(with_digits(text), FIRST)
    return rewritten(text, AMONG_WORDS) if _tells_a_number(text) and _tells_more(text) else text


def with_digits(text: str) -> str:
    """Number words as digits in their places: "forty five for nine" -> "45         for 9   "."""
    if not _NUMBER_WORD.search(text):
        return text
    for token in reversed(tokens_of(text)):
        if token.kind == "n" and token.text[:1].isalpha() and token.value is not None:
            figure = f"{token.value.normalize():f}{'s' if token.plural else ''}"
            room = token.end - token.start
            if len(figure) <= room:
                text = text[: token.start] + figure.ljust(room) + text[token.end :]
    return text


def _tells_a_number(text: str) -> bool:
    return any(letter.isdigit() for letter in text) or bool(_NUMBER_WORD.search(text))


def _tells_more(text: str) -> bool:
    """Whether it holds words, or a row of signs that means something; letters beyond ASCII may."""
    return not text.isascii() or bool(_WORDY.search(text))
