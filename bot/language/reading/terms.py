"""What is each word or number of a clause about? Tokens become terms: numbers that know their unit, side and doubt, and marks.

"got 9 on the right and 7 on the left with the 20"  -> 9 (right) · & · 7 (left) · with · 20
"3 sets of 12 with 15kg"                            -> 3 (sets) · of · 12 · with · 15 (kg)
"supposed to be 12, got 10ish"                      -> 10 (about); what was aimed at is left out
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from operator import attrgetter

from bot.language.reading.words import LEXICON, ORDINALS, PHRASES, REMARKS, THINGS, UNITS, mended
from bot.language.tokens import Token, fold
from bot.training.blocks import Measure
from bot.training.loads import Unit

_REST = frozenset(("rest", "rested", "resting", "rests", "break"))
_MOST_AIMS = 20
_COUNTED = ("", "count", "minutes_or_metres")
_NUMBERED = frozenset(("number", "num", "nr"))  # "number two" of an exercise is its second set
_MOST_NUMBERED = 6
_AIMING = frozenset(
    ("aiming", "aim", "hoping", "shooting", "trying", "planning", "wanted", "target", "goal", "plan", "nearly", "almost")
)
LIKEWISE = frozenset(("also", "same", "too", "likewise", "ditto", "identical", "matched"))
_HEDGES = frozenset(("maybe", "probably", "roughly", "i", "not", "lost"))


@dataclass(slots=True, repr=False, eq=False)
class Term:
    """kind: the grammar's letter (words.py). value: of numbers; text for names. start, end: places in the text."""

    kind: str
    text: str
    start: int
    end: int
    value: Decimal | None = None
    unit: Unit | None = None
    measure: Measure | None = None
    role: str = ""  # "load", "count", "sets", "rpe", "rir", "minutes_or_metres" where the words say so
    side: str = ""
    sign: str = ""
    thing: str = ""
    each: bool = False
    hand: bool = False
    total: bool = False
    plural: bool = False
    comma: bool = False
    about: bool = False
    partial: bool = False
    ordinal: bool = False
    glued: bool = False

    def twin(self) -> Term:
        """A copy that may be changed."""
        return Term(*_ALL_OF_TERM(self))

    def __repr__(self) -> str:
        return f"{self.kind}:{self.text}{'/' + self.role if self.role else ''}"

    @property
    def number(self) -> Decimal:
        return self.value if self.value is not None else Decimal(0)

    @property
    def bare(self) -> bool:
        """A number of which the words do not say what it is."""
        return self.kind == "n" and not self.role


_ALL_OF_TERM = attrgetter(*Term.__slots__)


@dataclass(slots=True)
class Clause:
    """The terms of one stretch of set talk, and what was said of the whole."""

    terms: list[Term]
    unknown: list[Token] = field(default_factory=list)
    verbs: int = 0
    remarks: list[str] = field(default_factory=list)
    aimed: list[Term] = field(default_factory=list)
    bands: frozenset[str] = frozenset()  # the member's own band names, folded


def terms_of(
    tokens: Sequence[Token],
    labels: frozenset[str],
    names: Sequence[tuple[int, int, str]],
    *,
    sided: bool,
    bands: Sequence[str] = (),
) -> Clause:
    """Read tokens as terms.

    labels: the day's slot labels, upper case. names: (start, end, exercise id) of names found. sided: the due exercise has sides.
    """
    clause = Clause([], bands=frozenset(fold(name) for name in bands))
    _first_pass(tokens, labels, names, clause)
    for one, two in itertools.pairwise(clause.terms):
        if sided and one.text == "r" and two.kind == "n" and two.glued:
            one.kind = "R"  # "r7", of an exercise with sides
    first = next((term for term in clause.terms if term.kind != "."), None)
    if first is not None and first.text == "plus":
        first.kind, first.text = "+", "+"  # "plus 5, 6 reps"
    terms = _sided(_on_the_bar(_merged(clause.terms)), sided=sided)
    clause.terms = _without_aims(terms, clause)
    return clause


def _first_pass(tokens: Sequence[Token], labels: frozenset[str], names: Sequence[tuple[int, int, str]], clause: Clause) -> None:
    tokens = [
        token._replace(text=meant) if token.kind == "w" and (meant := mended(token.text)) is not token.text else token
        for token in tokens
    ]
    out, at, name_at = clause.terms, 0, 0
    count = len(tokens)
    while at < count:
        token = tokens[at]
        while name_at < len(names) and names[name_at][1] <= token.start:
            name_at += 1
        if name_at < len(names) and names[name_at][0] <= token.start < names[name_at][1]:
            start, stop, exercise = names[name_at]
            out.append(Term("X", exercise, start, stop))
            while at < count and tokens[at].start < stop:
                at += 1
            continue
        used = _label_or_set_number(tokens, at, labels, out)
        if used:
            at += used
            continue
        if token.text == "f" and token.glued and out and out[-1].kind == "n":
            out.append(Term("F", token.text, token.start, token.end))  # "145x5F"
            at += 1
            continue
        if token.kind == "n":
            term = Term("n", token.text, token.start, token.end, token.value)
            term.plural, term.comma, term.ordinal, term.glued = token.plural, token.comma, token.ordinal, token.glued
            out.append(term)
            at += 1
        elif token.kind == "c":
            term = Term("n", token.text, token.start, token.end, token.value)
            term.role, term.measure = "count", Measure.SECONDS
            out.append(term)
            at += 1
        elif token.kind == "b":
            out.append(Term("|", token.text, token.start, token.end))
            at += 1
        else:
            at += _word(tokens, at, clause)


def _label_or_set_number(tokens: Sequence[Token], at: int, labels: frozenset[str], out: list[Term]) -> int:
    """A slot label ("A1", "a 1:"), or a set's number ("set 2", "2nd set", "#2", "s2:"); how many tokens it took, 0 if none."""
    token = tokens[at]
    following = tokens[at + 1] if at + 1 < len(tokens) else None
    if following is None:
        return 0
    if token.kind == "w" and following.kind == "n" and following.value is not None and (following.glued or len(token.text) == 1):
        whole, _, part = following.text.partition(".")
        if part.isdecimal() and len(part) == 1 and f"{token.text}{whole}".upper() in labels and following.glued:
            out.append(Term("J", f"{token.text}{whole}".upper(), token.start, following.end))
            out.append(Term("#", part, following.end, following.end, Decimal(part)))  # "B1.2 70x7"
            return 2
        label = f"{token.text}{following.text}".upper()
        spaced = not following.glued
        if label in labels and (not spaced or (not out and token.text not in "ax")):
            out.append(Term("J", label, token.start, following.end))
            return 2
    if (
        (
            token.text in ("set", "s", "sets", "satz", "round", "rd", "rnd", "tour", "runde")
            or _round_opens(tokens, at)
            or (token.text in _NUMBERED and (following.value or 9) <= _MOST_NUMBERED)
        )
        and following.kind == "n"
        and (token.text != "s" or following.glued)
        and following.value
    ):
        beyond = tokens[at + 2] if at + 2 < len(tokens) else None
        previous = out[-1] if out else None
        counted = previous is not None and previous.kind == "n" and token.text != "s"  # "3 sets 12"
        if (
            following.value <= 12
            and not counted
            and token.text != "sets"
            and not (beyond and beyond.text == "x" and token.text == "s")
        ):
            out.append(Term("#", token.text, token.start, following.end, following.value))
            return 2
    if following.text in ("set", "round", "attempt", "try", "go") and (
        token.text in ORDINALS or (token.kind == "n" and token.ordinal)
    ):
        number = Decimal(ORDINALS[token.text]) if token.text in ORDINALS else token.value
        out.append(Term("#", token.text, token.start, following.end, number))
        return 2
    if token.text == "#" and following.kind == "n" and following.glued and not (out and out[-1].kind == "n" and token.glued):
        out.append(Term("#", token.text, token.start, following.end, following.value))
        return 2
    starts_line = not out or out[-1].kind == "|"
    small = token.value is not None and token.value <= 12 and token.value == int(token.value)
    if token.kind == "n" and starts_line and small and following.text in (")", ".") and following.glued and at + 2 < len(tokens):
        out.append(Term("#", token.text, token.start, following.end, token.value))
        return 2
    if (token.ordinal or token.text in ORDINALS) and following.text in (":", "-", "=", "was"):
        number = token.value if token.value is not None else Decimal(ORDINALS[token.text])
        out.append(Term("#", token.text, token.start, following.end, number))
        return 2
    return 0


def _round_opens(tokens: Sequence[Token], at: int) -> bool:
    """ "r3: 5 + 6": a round rather than a right side, for a colon follows and nothing stands before it."""
    colon = tokens[at + 2] if at + 2 < len(tokens) else None
    return (
        tokens[at].text == "r"
        and tokens[at + 1].glued
        and colon is not None
        and colon.text == ":"
        and (not at or tokens[at - 1].kind == "b")
    )


def _word(tokens: Sequence[Token], at: int, clause: Clause) -> int:
    """One word, sign or phrase; returns how many tokens it took."""
    token = tokens[at]
    text = token.text.strip("'")
    if text == "k" and token.glued and clause.terms and clause.terms[-1].kind == "n":
        clause.terms.append(Term("u", "kg", token.start, token.end))  # "24k"
        return 1
    for rest, kind in PHRASES.get(text, ()):
        if at + len(rest) < len(tokens) and all(tokens[at + 1 + n].text == word for n, word in enumerate(rest)):
            if kind == "k":
                clause.verbs += 1
            if kind != ".":
                phrase = " ".join((text, *rest)) if kind in "dW" else text
                clause.terms.append(Term(kind, phrase, token.start, tokens[at + len(rest)].end))
            return 1 + len(rest)
    if text == "warm" and at + 1 < len(tokens) and tokens[at + 1].kind == "n":
        clause.terms.append(Term("W", text, token.start, token.end))  # "warm 50 kg 6"
        return 1
    if text == "twice" and not (
        any(token in clause.unknown for token in tokens[max(0, at - 2) : at]) and any(term.kind == "n" for term in clause.terms)
    ):  # not "8, sternum clicked twice"
        term = Term("n", text, token.start, token.end, Decimal(2))
        term.role = "sets"
        clause.terms.append(term)
        return 1
    known = LEXICON.get(text)
    if known is None and text in clause.bands:
        known = "c"
    elif known is None and text.endswith("ly") and len(text) > 5:
        known = "."  # "10 annoyingly"
    if known is None and text.endswith("'s"):
        known = LEXICON.get(text[:-2])
    if text in REMARKS:
        clause.remarks.append(text)
    if known == "k":
        clause.verbs += 1
        clause.terms.append(Term("k", text, token.start, token.end))
    elif known is None:
        if token.kind == "w":
            clause.unknown.append(token)
            clause.terms.append(Term("?", text, token.start, token.end))
        elif text in ",/-+:;|=()>&.":
            kind = {";": "|", "|": ",", "=": ":", ">": "h", "&": "&", ".": "."}.get(text, text)
            if kind == "-" and text == "-" and _arrow(tokens, at):
                kind = "h"
            if kind not in "().":
                term = Term(kind, text, token.start, token.end)
                term.glued = token.glued
                clause.terms.append(term)
    elif known != "." or text in _REST:
        term = Term("~" if text in _REST else known, text, token.start, token.end)
        term.glued = token.glued
        clause.terms.append(term)
    return 1


def _arrow(tokens: Sequence[Token], at: int) -> bool:
    return at + 1 < len(tokens) and tokens[at + 1].text == ">" and tokens[at + 1].glued


def _merged(terms: list[Term]) -> list[Term]:
    """Give numbers their units, measures and flags; take out what was only said for them."""
    out: list[Term] = []
    sided_letters = any(term.kind == "L" for term in terms)
    at = 0
    while at < len(terms):
        term = terms[at]
        nxt = terms[at + 1] if at + 1 < len(terms) else None
        last = out[-1] if out else None
        kind = term.kind
        if kind == "n":
            at = _number(terms, at, out, sided_letters=sided_letters)
            continue
        if term.text == "der" and kind == "R" and nxt is not None and nxt.kind == "n" and nxt.plural:
            at += 1  # "mit der 12er": a German article, no Spanish right hand
            continue
        if kind == "a" and (nxt is None or nxt.kind != "n") and (term.text == "like" or (nxt is not None and nxt.kind == "?")):
            at += 1  # "legs like jelly", "my back knows about that": no doubt of a number
            continue
        if kind == "*" and (
            (nxt is not None and nxt.kind in "tTgGFE?aY") or ((last is None or last.kind not in "nrzu") and nxt is None)
        ):
            at += 1  # "all on tempo", "wobbled all over"
            continue
        if kind == "*" and nxt is not None and nxt.kind == "n" and not nxt.plural:
            beyond = terms[at + 2] if at + 2 < len(terms) else None
            if beyond is None and 2 <= nxt.number <= 4 and not nxt.role and last is not None and last.kind in "n,Ezse":
                nxt.role = "sets"  # "70 each hand, 40 m, all three"
                at += 1
                continue
            if (last is not None and last.kind == "k") or (beyond is not None and beyond.kind == "r"):
                at += 1  # "got all 12": every rep of one set
                continue
        if kind == "Y" and term.text in _HEDGES and nxt is not None and nxt.kind not in ",|":
            at += 1  # "maybe 2 left", "i think i can": not said of the count before
            if nxt.kind == "n":
                nxt.about = True
                beyond = terms[at + 1] if at + 1 < len(terms) else None
                left_over = beyond is not None and beyond.kind in "V+jS"
                if last is not None and last.kind == "n" and nxt.bare and last.bare and not left_over:
                    out.append(Term("$", term.text, term.start, term.end))  # "10 maybe 11"
            continue
        if kind == "r" and sided_letters and term.text == "r":
            term.kind = "R"
        if kind == "i" and last is not None and last.kind == "K" and last.text == "half":
            out.pop()  # "half a minute"
            out.append(_seconds(term, Decimal(30), last.start))
        elif kind == "i" and (last is None or last.kind != "n"):
            half = [t.text for t in terms[at + 1 : at + 3]] == ["and", "half"]
            quarter = [t.text for t in terms[at + 1 : at + 3]] == ["and", "quarter"]
            more = terms[at + 2] if at + 3 < len(terms) and [t.kind for t in terms[at + 1 : at + 4]] == ["&", "n", "s"] else None
            extra = more.number if more is not None and more.number < 60 else Decimal(30 if half else 15 if quarter else 0)
            out.append(_seconds(term, 60 + extra, term.start))
            at += 3 if more is not None and more.number < 60 else 2 if half or quarter else 0
        elif kind == "Y" and last is not None and last.kind == "n":
            last.about = True
        elif kind == "E" and last is not None and last.kind == "n":
            last.each = True
        elif kind == "H" and last is not None and last.kind == "n":
            if last.role in ("count", "minutes_or_metres") or any(term.unit for term in out[:-1] if term.kind == "n"):
                last.each = True  # "40 m per hand", "24 kg 40 m x3 each hand"
            else:
                last.hand = True
                last.role = last.role or "load"
        elif kind == "C" and last is not None and last.kind == "n":
            last.total = True
        elif kind == "I":
            term.text = THINGS.get(term.text, term.text)
            if term.text == "barbell" and nxt is not None and nxt.kind == "x" and (last is None or last.kind != "n"):
                term.kind = "0"  # "bar x 10"
            if last is not None and last.kind == "n" and (last.unit or last.role == "load"):
                last.thing = term.text
            elif nxt is not None and nxt.kind == "n" and nxt is not terms[-1]:
                out.append(term)
            else:
                out.append(term)
        elif kind == "+" and last is not None and last.kind == "n" and term.text == "more":
            out.append(term)
        elif kind == "~":
            if last is not None and last.kind == "n" and (last.measure is Measure.SECONDS or last.plural):
                out.pop()  # "90s rest"
            elif nxt is not None and nxt.kind == "n":
                at = _skip_time(terms, at + 1)
                continue
        else:
            out.append(term)
        at += 1
    return out


def _skip_time(terms: list[Term], at: int) -> int:
    """After "rested": the number and its unit."""
    at += 1
    while at < len(terms) and terms[at].kind in "sim":
        at += 1
    return at


def _seconds(term: Term, value: Decimal, start: int) -> Term:
    made = Term("n", term.text, start, term.end, value)
    made.role, made.measure = "count", Measure.SECONDS
    return made


def _number(terms: list[Term], at: int, out: list[Term], *, sided_letters: bool) -> int:
    """One number with what follows it closely; appended to out. Returns where to go on."""
    term = terms[at]
    _signed(term, out)
    out.append(term)
    at += 1
    if at >= len(terms):
        return at
    follower = terms[at]
    kind = follower.kind
    if kind == "Y" and follower.text == "ish":
        term.about = True
        at += 1
        if at >= len(terms):
            return at
        follower = terms[at]
        kind = follower.kind
    if kind == "-" and at + 1 < len(terms) and terms[at + 1].text == "ish":
        term.about = True
        return at + 2
    if kind == "u":
        term.unit, term.role = UNITS.get(follower.text, Unit.KG), "load"
        if len(out) > 1 and out[-2].kind == "C":  # "total 24 kg"
            term.total = True
            del out[-2]
    elif kind == "r" and term.role != "load" and not (sided_letters and follower.text == "r"):
        term.role, term.measure = "count", Measure.REPS
        if at + 1 < len(terms) and terms[at + 1].kind == "K":
            term.partial = True
            at += 1
        elif at + 1 < len(terms) and terms[at + 1].kind == "V" and terms[at + 1].text != "rir":
            term.role = "rir"  # "two repetitions remained in reserve"
            at += 1
    elif kind == "x" and follower.text == "times" and (at + 1 >= len(terms) or terms[at + 1].kind not in "n?"):
        if term.number <= 6 and any(other.each or other.role == "count" for other in out[:-1] if other.kind == "n"):
            term.role = "sets"  # "10 kg, 9 each, three times"
        else:
            term.role, term.measure = "count", Measure.REPS  # "16, 12 times"
    elif kind == "z":
        term.role = "sets"
    elif kind == "s":
        term.role, term.measure = "count", Measure.SECONDS
        term.plural = False
    elif kind in "im":
        return _minutes(terms, at, term, follower)
    elif kind == "e":
        term.role, term.measure = "count", Measure.METRES
    elif kind == "p":
        term.role, term.measure = "count", Measure.STEPS
    elif (kind == "K" and follower.text != "half") or kind == "K":
        term.partial, term.role = True, "count"
    elif kind == "b" and term.number <= 3 and not term.role:
        out.pop()  # "two bands": how many, beside which
        return at + 1
    elif (kind == "V" and not (follower.text == "rir" and at + 1 < len(terms) and terms[at + 1].kind in "n:")) or (
        kind == "+" and follower.text == "more" and _could_have(terms, at)
    ):
        term.role = "rir"
    elif kind == "S" and not (
        at + 1 < len(terms) and (terms[at + 1].kind == "n" or (terms[at + 1].kind in ":@-" and not term.sign))
    ):
        term.role = "rpe"
    else:
        return at
    term.end = max(term.end, follower.end)
    at += 1
    return at


def _signed(term: Term, out: list[Term]) -> None:
    """Take the words just before a number into it: doubt, a sign, an effort word."""
    while out:
        last = out[-1]
        if last.kind == "." and not last.text:
            out.pop()
        elif last.kind == "a" or (last.kind == "Y" and last.text == "maybe"):
            term.about = True
            out.pop()
        elif last.kind in ("S", "V") or (
            last.kind in (":", "@", "-", "=") and len(out) > 1 and out[-2].kind in ("S", "V") and not term.role
        ):
            if last.kind in (":", "@", "-", "="):
                out.pop()
            term.role = "rpe" if out[-1].kind == "S" else "rir"
            out.pop()
            if out and out[-1].kind == "@":
                out.pop()
        elif last.kind == ":" and len(out) > 1 and out[-2].kind == "z" and not term.role:
            term.role = "sets"
            del out[-2:]
        elif last.kind == "o" and len(out) > 1 and out[-2].kind in ("S", "V") and not term.role:
            out.pop()
        elif last.kind == "d" and last.text.endswith(" to") and not term.role:
            term.role = "load"
            return
        elif last.kind == "y" and not term.role and (len(out) < 2 or out[-2].kind != "A"):
            term.role = "load"
            out.pop()
        elif last.kind == "r" and last.text.startswith("rep") and not term.role and (len(out) < 2 or out[-2].kind not in "nA"):
            term.role = "count"
            out.pop()
        elif (
            last.kind in (":", "=")
            and len(out) > 1
            and (out[-2].kind == "y" or (out[-2].kind == "r" and out[-2].text.startswith("rep")))
        ):
            out.pop()
        elif (
            last.kind in ("+", "-")
            and last.text in "+-"
            and (len(out) < 2 or out[-2].kind not in "n" or (not last.glued and term.glued))
        ):
            before = out[-2] if len(out) > 1 else None
            if last.text == "-" and not term.glued:
                return
            term.sign = last.text
            out.pop()
            if before is not None and before.kind == "B":
                out.pop()
                term.role = "load"
            return
        else:
            return


def _minutes(terms: list[Term], at: int, term: Term, follower: Term) -> int:
    """ "1 min 10", "1m10", "2 minutes", "1 minute 30 seconds", "a minute and a half"; a lone "40m" stays open."""
    nxt = terms[at + 1] if at + 1 < len(terms) else None
    minutes = term.number * 60
    if nxt is not None and nxt.kind == "&" and at + 2 < len(terms) and terms[at + 2].text == "half":
        term.value, term.role, term.measure = minutes + 30, "count", Measure.SECONDS
        return at + 3
    if [t.kind for t in terms[at + 1 : at + 4]] == ["&", "n", "s"] and terms[at + 2].number < 60 and follower.kind == "i":
        term.value, term.role, term.measure, term.end = (
            minutes + terms[at + 2].number,
            "count",
            Measure.SECONDS,
            terms[at + 3].end,
        )
        return at + 4  # "one minute and five seconds"
    if nxt is not None and nxt.kind == "n" and nxt.number < 60 and not nxt.unit and (follower.kind == "i" or nxt.glued):
        beyond = terms[at + 2] if at + 2 < len(terms) else None
        if follower.kind == "m" or (beyond is not None and beyond.kind == "s") or nxt.plural or beyond is None:
            term.value, term.role, term.measure, term.end = minutes + nxt.number, "count", Measure.SECONDS, nxt.end
            return at + 2 + (1 if beyond is not None and beyond.kind == "s" else 0)
    term.end = follower.end
    if follower.kind == "m":
        term.role = "minutes_or_metres"
    else:
        term.value, term.role, term.measure = minutes, "count", Measure.SECONDS
    return at + 1


def _could_have(terms: list[Term], at: int) -> bool:
    """ "could have done 2 more", "had 1 more in me": said of what was left over."""
    return any(
        term.text in ("could", "couldve", "could've", "had", "have", "coulda", "left") for term in terms[max(0, at - 6) : at]
    )


def _is_bar(term: Term) -> bool:
    return term.kind == "0" or (term.kind == "I" and term.text == "barbell")


def _on_the_bar(terms: list[Term]) -> list[Term]:
    """ "bar plus 20 each side": what is put on each end is a load."""
    for place, term in enumerate(terms[:-2]):
        following = terms[place + 2]
        if term.kind == "n" and term.bare and term.each and terms[place + 1].kind in "+&" and _is_bar(following):
            term.role = "load"  # "20 a side plus the bar"
            return [other for n, other in enumerate(terms) if n != place + 1]
        if _is_bar(term) and terms[place + 1].kind in "+&w":
            number = following
            if number.value == 2 and [t.kind for t in terms[place + 3 : place + 5]] == ["x", "n"]:
                number = terms[place + 4]  # "bar + 2x15"
                number.role, number.each = "load", True
                return [other for n, other in enumerate(terms) if n not in (place + 1, place + 2, place + 3)]
            beyond = terms[place + 3] if place + 3 < len(terms) else None
            if number.bare and (number.each or (beyond is not None and beyond.kind == "E")):
                number.role, number.each = "load", True
                return [other for n, other in enumerate(terms) if n != place + 1]
    return terms


def _both_named(terms: list[Term]) -> list[Term]:
    """ "left and right 10", "14 left and right": both sides named in one breath are each of them."""
    for place in range(len(terms) - 2):
        one, joint, two = terms[place : place + 3]
        if {one.kind, two.kind} in ({"L", "R"}, {"j", "R"}) and joint.kind in "&+/":
            near = [t for t in (*terms[max(0, place - 1) : place], *terms[place + 3 : place + 4]) if t.kind == "n"]
            after = place + 3 < len(terms) and terms[place + 3].kind == "n"
            if after and joint.kind != "&":
                continue  # "L/R 12/10": their numbers follow in turn
            if len(near) == 1 or (len(near) == 2 and near[0].unit):
                return [*terms[:place], Term("E", "each", one.start, two.end), *terms[place + 3 :]]
    return terms


def _sided(terms: list[Term], *, sided: bool) -> list[Term]:
    """Hand each side word to its number; decide whether "left" is a side or what was left over."""
    terms = _both_named(terms) if sided else terms
    if not sided and terms and terms[0].kind == "R" and not any(term.kind in "Lj" for term in terms):
        terms = terms[1:]  # "right, 9 with 100": a way to begin, where both sides work together
    kinds = [term.kind for term in terms]
    if "j" in kinds:
        has_right = "R" in kinds
        numbers = kinds.count("n")
        for place, term in enumerate(terms):
            if term.kind == "j":
                before = terms[place - 1] if place else None
                if (
                    not has_right
                    and before is not None
                    and before.kind == "n"
                    and (numbers > 1 or not sided)
                    and before.number <= 6
                ):
                    before.role = "rir"
                    term.kind = "."
                elif not has_right and not sided and (place + 1 >= len(terms) or terms[place + 1].kind not in "n:"):
                    term.kind = "."  # "only the 25s left"
                else:
                    term.kind = "L"
        kinds = [term.kind for term in terms]
    if "L" not in kinds and "R" not in kinds:
        return terms
    terms = _also_sides(terms)
    kept = [term for term in terms if term.kind not in ".k"]
    side_first = _side_first(kept)
    waiting = ""
    for place, term in enumerate(kept):
        if term.kind in "LR":
            if place and kept[place - 1].kind == "M":
                continue  # "left 8, matched it on the right"
            if side_first and not (waiting == "" and _ends_a_side(kept, place)):
                waiting = term.kind
                continue
            giver = next((t for t in reversed(kept[:place]) if t.kind == "n" and t.role in _COUNTED and not t.side), None)
            if giver is not None:
                giver.side = term.kind
                giver.role = giver.role or "count"
            else:
                waiting = term.kind  # "7 on the left, right was fine for 9"
        elif waiting and term.kind == "n" and term.role in _COUNTED and not term.unit:
            term.side, waiting = waiting, ""
            term.role = term.role or "count"
    terms = [term for place, term in enumerate(terms) if not (term.kind == "k" and place and terms[place - 1].kind in "LR")]
    plain = [
        term for place, term in enumerate(terms)
        if not (term.kind in ":-=/|" and term.kind != "|" and any(terms[n].kind in "LR" for n in (place - 1, place + 1) if 0 <= n < len(terms)))
    ]  # fmt: skip
    return [term for term in plain if term.kind not in "LR"]


def _ends_a_side(terms: list[Term], place: int) -> bool:
    """ "left stopped at 6, did 6 on the right": no number follows this side word, and one before it is nobody's."""
    for term in terms[place + 1 :]:
        if term.kind in "LR":
            break
        if term.kind == "n" and term.role in _COUNTED and not term.unit:
            return False
    free = [t for t in terms[:place] if t.kind == "n" and t.role in ("", "count") and not t.unit and not t.side and not t.plural]
    return bool(free) and any(t.side for t in terms[:place])


def _also_sides(terms: list[Term]) -> list[Term]:
    """ "right 7, left also", "left the same": a side that matches the other one."""
    for place, term in enumerate(terms[:-1]):
        following = terms[place + 1]
        beyond = terms[place + 2] if place + 2 < len(terms) else None
        alone = beyond is None or beyond.kind not in "n"
        if term.kind in "LR" and following.kind in "A%" and following.text in LIKEWISE and alone and place:
            made = Term("M", following.text, term.start, following.end)
            return [*terms[:place], made, *terms[place + 2 :]]
    return terms


def _side_first(terms: list[Term]) -> bool:
    first = next((place for place, term in enumerate(terms) if term.kind in "LR"), None)
    if first is None:
        return True
    following = terms[first + 1] if first + 1 < len(terms) else None
    if following is not None and following.kind == "n" and following.glued:
        return True
    near = first - 1
    while near > 0 and terms[near].kind in "UDtTgG?Yr~w":
        near -= 1  # "six up on the left"
    before = terms[near] if first else None
    if before is None or before.kind != "n" or before.unit or before.role in ("load", "rpe", "rir"):
        return True
    # "20 left 12 right 10" has one number more than sides.
    numbers = sum(term.kind == "n" and term.role in _COUNTED for term in terms)
    sides = sum(term.kind in "LR" for term in terms)
    return (
        numbers > sides and following is not None and following.kind == "n" and terms[-1].kind == "n" and terms[-2].kind in "LR"
    )


def _without_aims(terms: list[Term], clause: Clause) -> list[Term]:
    """Leave out what was only aimed at ("supposed to be 12") and what was denied ("not 12"), if another number is left."""
    terms = _without_planned(_without_denied_bands(terms))
    marks = [place for place, term in enumerate(terms) if term.kind in "!N"][:_MOST_AIMS]
    for place in reversed(marks):
        numbers = [n for n, term in enumerate(terms) if term.kind == "n" and term.role in ("", "count")]
        after = next((n for n in range(place + 1, min(place + 4, len(terms))) if terms[n].kind == "n"), None)
        before = place - 1 if place and terms[place - 1].kind == "n" else None
        if before is not None and terms[place].text in ("planned", "prescribed", "target", "goal"):
            after = before
        if after is not None and len(numbers) == 1 and terms[place].text in _AIMING and not clause.verbs:
            return [term for n, term in enumerate(terms) if n not in (after, place)]  # "aiming for 8 today": not done yet
        if after is not None and len(numbers) > 1:
            clause.aimed.append(terms[after])
            terms = [term for n, term in enumerate(terms) if n not in (after, place)]
        else:
            terms = [term for n, term in enumerate(terms) if n != place]
    return terms


def _without_denied_bands(terms: list[Term]) -> list[Term]:
    """ "not the grey, the orange": of two bands the one denied was not used."""
    bands = [place for place, term in enumerate(terms) if term.kind == "c"]
    denied = [
        place
        for place in bands
        if any(term.kind == "N" or (term.kind == "!" and term.text == "instead") for term in terms[max(0, place - 2) : place])
    ]
    return [term for place, term in enumerate(terms) if place not in denied] if 0 < len(denied) < len(bands) else terms


def _without_planned(terms: list[Term]) -> list[Term]:
    """ "got 10 of 12": of so many planned. A small first number is how many sets."""
    for place in range(len(terms) - 2):
        one, of, two = terms[place : place + 3]
        if one.kind == "n" == two.kind and of.kind == "o" and one.bare and two.bare and not two.plural:
            beyond = terms[place + 3] if place + 3 < len(terms) else None
            if 5 <= one.number < two.number <= one.number + 5 and (beyond is None or beyond.kind not in "xw@u"):
                one.role = "count"
                return [*terms[: place + 1], *terms[place + 3 :]]
    return terms
