"""Which numbers do number words mean?

"twenty two" -> 22, "one thirty five" -> 135 (as bars are spoken), "twelve and a half" -> 12.5, "twenties" -> 20, plural.
A lone "one" stays a word ("the last one"), unless a counted thing follows ("one minute").
"""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bot.language.tokens import Token

_ONES = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
]
_TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
NUMBER_WORDS: dict[str, int] = {word: value for value, word in enumerate(_ONES)}
NUMBER_WORDS |= {word: 20 + 10 * place for place, word in enumerate(_TENS)}
NUMBER_WORDS |= {
    "fourty": 40,
    "twelf": 12,
    "eigth": 8,
    "fiveteen": 15,
    "hundred": 100,
    "dozen": 12,
    "fifthteen": 15,
    "ninty": 90,
    "tweny": 20,
    "twenny": 20,
    "fiver": 5,
    "tenner": 10,
}
PLURAL_WORDS: dict[str, int] = {
    "fives": 5, "sixes": 6, "sevens": 7, "eights": 8, "nines": 9, "tens": 10, "elevens": 11, "twelves": 12, "fourteens": 14,
    "fifteens": 15, "sixteens": 16, "eighteens": 18, "twenties": 20, "thirties": 30, "forties": 40, "fifties": 50, "sixties": 60,
}  # fmt: skip
_COUNTED = frozenset(
    [
        "left",
        "in",
        "rep",
        "reps",
        "set",
        "sets",
        "minute",
        "minutes",
        "min",
        "kg",
        "kilo",
        "kilos",
        "pound",
        "pounds",
        "second",
        "seconds",
        "hundred",
        "each",
        "metre",
        "step",
    ]
)


_POINTS_AT_ONE = frozenset(("first", "second", "third", "last", "next", "that", "this", "which", "other"))
_BEFORE_A_LOAD = frozenset(("at", "with", "used", "using", "@"))  # "at one ten": 110


_UNIT_PLURALS = {"ones": 1, "twos": 2, "threes": 3, "fours": 4}
_AFTER_A_LOAD = frozenset(("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "pound", "pounds", "lb", "lbs", "for"))


def join_number_words(tokens: list[Token]) -> list[Token]:
    """Replace runs of number words by number tokens, places kept."""
    joined: list[Token] = []
    at = 0
    while at < len(tokens):
        used, number = _number_at(tokens, at)
        if number is None:
            joined.append(tokens[at])
            at += 1
        else:
            joined.append(number)
            at += used
    return joined


def _number_at(tokens: list[Token], at: int) -> tuple[int, Token | None]:
    first = tokens[at]
    if first.kind != "w":
        return 1, None
    if first.text == "half" and _word(tokens, at + 2) == "dozen" and _word(tokens, at + 1) == "a":
        return 3, first._replace(kind="n", end=tokens[at + 2].end, value=Decimal(6))
    if first.text in PLURAL_WORDS:
        return 1, first._replace(kind="n", value=Decimal(PLURAL_WORDS[first.text]), plural=True)
    if first.text not in NUMBER_WORDS and not (first.text == "a" and _word(tokens, at + 1) == "hundred"):
        return 1, None
    if first.text == "dozen":
        return 1, first._replace(kind="n", value=Decimal(12))
    total, stop, last_size = 0, at, 0
    if first.text == "hundred" and _word(tokens, at + 1) == "and" and 0 < NUMBER_WORDS.get(_word(tokens, at + 2), 0) < 100:
        total, stop, last_size = 100, at + 1, 3  # "hundred and twenty"
    if first.text == "hundred" and 20 <= NUMBER_WORDS.get(_word(tokens, at + 1), 0) < 100:
        total, stop, last_size = 100, at + 1, 3  # "hundred forty"
    while stop < len(tokens):
        word = _word(tokens, stop)
        value = 1 if word == "a" and stop == at else NUMBER_WORDS.get(word, PLURAL_WORDS.get(word, -1))
        if last_size == 2 and word in _UNIT_PLURALS:
            value = _UNIT_PLURALS[word]  # "the twenty fours"
        if (
            word in ("and", "-")
            and last_size >= 1
            and total % 100 == 0
            and 0 < NUMBER_WORDS.get(_word(tokens, stop + 1), 0) < 100
        ):
            stop += 1
            continue
        if word == "-" and last_size == 2 and 0 < NUMBER_WORDS.get(_word(tokens, stop + 1), 0) < 10:
            stop += 1
            continue
        if word == "-" and last_size == 1 and total < 4 and 20 <= NUMBER_WORDS.get(_word(tokens, stop + 1), 0) < 100:
            stop += 1  # "one-fifty-five"
            continue
        spoken = (
            word not in PLURAL_WORDS and 10 <= value < 20 and last_size == 1 and 0 < total < 4 and _as_of_bars(tokens, at, stop)
        )
        if value < 0 or not (spoken or _fits(total, last_size, value, word, start=stop == at)):
            break
        total, last_size = _add(total, last_size, value, word)
        stop += 1
    if stop == at:  # "hundred" with nothing before it is a hundred; a step of none would never end
        return 1, first._replace(kind="n", value=Decimal(100)) if first.text == "hundred" else None
    after_set = at > 0 and tokens[at - 1].text == "set"
    if first.text == "one" and stop == at + 1 and at > 0 and tokens[at - 1].text in _POINTS_AT_ONE:
        return 1, None  # "first one in the bag"
    if first.text in ("one", "zero") and stop == at + 1 and _word(tokens, at + 1) not in _COUNTED and not after_set:
        return 1, None
    plural = tokens[stop - 1].text in PLURAL_WORDS or (stop - at > 1 and tokens[stop - 1].text in _UNIT_PLURALS)
    amount = Decimal(total)
    if _word(tokens, stop) == "and" and _word(tokens, stop + 1) == "a" and _word(tokens, stop + 2) == "half":
        amount += Decimal("0.5")
        stop += 3
    elif _word(tokens, stop) == "point" and 0 <= NUMBER_WORDS.get(_word(tokens, stop + 1), -1) < 10:
        amount += Decimal(NUMBER_WORDS[_word(tokens, stop + 1)]) / 10
        stop += 2
    return stop - at, first._replace(kind="n", end=tokens[stop - 1].end, value=amount, plural=plural)


def _as_of_bars(tokens: list[Token], at: int, stop: int) -> bool:
    """ "at one ten", "one fifteen kilos": hundreds are left out where the words around speak of a load."""
    return (at > 0 and tokens[at - 1].text in _BEFORE_A_LOAD) or _word(tokens, stop + 1) in _AFTER_A_LOAD


def _word(tokens: list[Token], at: int) -> str:
    return tokens[at].text if at < len(tokens) else ""


def _fits(total: int, size: int, value: int, word: str, *, start: bool) -> bool:
    """size: 1 after a single digit, 2 after tens, 3 after hundred, 9 when nothing more may follow."""
    if start:
        return word != "hundred"
    if word == "dozen":
        return False
    if word == "hundred":
        return size == 1
    if size == 2:
        return 0 < value < 10
    if size == 3:
        return 0 < value < 100
    return size == 1 and 0 < total < 4 and 20 <= value < 100 and word not in PLURAL_WORDS  # "one thirty five", not "two thirties"


def _add(total: int, size: int, value: int, word: str) -> tuple[int, int]:
    if word == "hundred":
        return total * 100, 3
    if size == 1:
        return total * 100 + value, 2
    grown = total + value
    return grown, (1 if 0 < grown < 10 and total == 0 else 2 if value >= 20 and value % 10 == 0 else 9)
