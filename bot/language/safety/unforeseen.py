"""What do the signs make of a text beside what it reads like as a whole (likeness.py)?

Where the two disagree, the member is asked.

    "dizzy with success, first pull up ever"          a sign, in a text that reads like none: asked about
    "carpet on my cheek, dont know how i got here"    no sign, in a text that reads like an emergency: the first step, and a question
"""

from __future__ import annotations

from collections.abc import Iterator

from bot.language.safety.likeness import likeness
from bot.language.safety.seen import CHECK, DIZZY, DOUBTED, Seen
from bot.language.safety.signs import Level
from bot.language.safety.vocabulary import mended_line
from bot.language.safety.when import IMAGINED, LONG_AGO, RECENT, STILL, TAKEN_BACK
from bot.language.safety.words import Clause

# How much more like an emergency than like anything else (likeness.py) a text must read to be taken for one, also where a sign of one
# was weighed down, and to be asked about; and how much less for a sign of one to be asked about, and to be taken for a manner of
# speaking. Chosen on authors left out.
_LIKE, _SURELY_LIKE, _HARDLY, _UNLIKE, _NOTHING_LIKE = 0.15, 0.5, 0.0, -0.4, -0.8
# The same of a wish to die and of pain, where no sign of them was seen; and of no trouble at all, where one of pain was.
_LIKE_HARM, _LIKE_PAIN, _LIKE_NONE = 0.2, 0.3, 1.0
_FEWEST_WORDS = 3  # a text of fewer words says too little to be weighed
_LONG_ENOUGH = 5  # words of a clause that is weighed by itself too, so that sets told beside it don't drown it


def held_against(seen: list[Seen], clauses: tuple[Clause, ...]) -> list[Seen]:
    """Signs in a text that reads like something else are asked about: "dizzy with success, first pull up ever"."""
    if not seen or sum(len(clause.words) for clause in clauses) < _LONG_ENOUGH:
        return seen
    return [_doubted(one, clauses) for one in seen]


def _doubted(one: Seen, clauses: tuple[Clause, ...]) -> Seen:
    asked = Seen(Level.CAUTION, one.name, one.words, DOUBTED, topic=CHECK)
    if one.level in (Level.SAME_DAY, Level.PAIN):
        return asked if not one.topic and _tells_of_nothing(clauses) else one
    if one.level is not Level.EMERGENCY:
        return one
    like = _likest(clauses, "emergency")
    if like >= _UNLIKE or any(likeness(piece)["emergency"] >= _LIKE for piece in _pieces(clauses, mended_line(one.words))):
        return one
    return asked if like < _NOTHING_LIKE else Seen(one.level, one.name, one.words, min(one.certainty, DOUBTED))


def _tells_of_nothing(clauses: tuple[Clause, ...]) -> bool:
    """Beside sets told, nearly any text reads like nothing much: there a pain is taken at its word."""
    whole = _joined(clauses)
    return likeness(whole)["none"] >= _LIKE_NONE and not any(letter.isdigit() for letter in whole)


def likened(text: str, clauses: tuple[Clause, ...], seen: list[Seen]) -> Iterator[Seen]:
    """What no sign and no picture foresaw, and reads like an emergency, a wish to die or pain all the same: never sure."""
    if any(one.level is Level.EMERGENCY or one.topic in ("self_harm", DIZZY) for one in seen):
        return
    if sum(word.word.isalpha() for clause in clauses for word in clause.words) < _FEWEST_WORDS:
        return
    whole = _joined(clauses)
    if LONG_AGO.search(whole) or IMAGINED.search(whole):
        return
    if _likest(clauses, "self_harm") >= _LIKE_HARM:
        yield Seen(Level.CAUTION, "self_harm", text.strip(), DOUBTED, topic="self_harm")
    if TAKEN_BACK.search(whole) or (RECENT.search(whole) and not STILL.search(whole)):
        return
    like = _likest(clauses, "emergency")
    if like >= (_SURELY_LIKE if any(one.eased for one in seen) else _LIKE):
        yield Seen(Level.EMERGENCY, "other", text.strip(), DOUBTED)
    elif like >= _HARDLY and not seen:
        yield Seen(Level.CAUTION, "other", text.strip(), DOUBTED, topic=CHECK)
    elif not seen and _likest(clauses, "pain") >= _LIKE_PAIN:
        yield Seen(Level.PAIN, "pain", text.strip(), DOUBTED)


def _joined(clauses: tuple[Clause, ...]) -> str:
    return "".join(clause.line for clause in clauses)


def _pieces(clauses: tuple[Clause, ...], sign: str) -> list[str]:
    """What stands between commas and holds the sign: "20x12 10. hey coach, so much blood" is heard by its last words."""
    return [piece for clause in clauses for piece in clause.line.split(" ,") if sign in piece]


def _likest(clauses: tuple[Clause, ...], kind: str) -> float:
    """How like the kind the whole text reads, or the clause that is most like it."""
    parts = [clause.line for clause in clauses if len(clauses) > 1 and len(clause.words) >= _LONG_ENOUGH]
    return max(likeness(part)[kind] for part in (_joined(clauses), *parts))
