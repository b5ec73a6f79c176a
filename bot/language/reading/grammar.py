"""Which stretches of a clause belong together, and which parts may its numbers play?

Terms are cut into entries (an exercise or slot and what follows it) and entries into items ("20x12", "12", "3 sets of 12 with 15").
In an item every number plays one part: L load, R count, S how many sets, E effort. Where the words leave it open, all parts that the
signs allow are listed, each with how often people mean it so; the situation decides later (ranking.py).

    20x12      L x R  (often)   S x R  (with a small first number)   R x L  (seldom)
    3x12 @ 15  S x R @ L
    20 12 11   L R R            R R R
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from functools import lru_cache
from itertools import product
from math import log

from bot.language.reading.terms import Term
from bot.training.blocks import Measure

# How often each shape is meant: judged, then checked against the corpus (common practice). R stands for a list of counts as well.
_SHAPES: dict[str, float] = {
    "R": 1.0, "L": 0.05, "S": 0.01, "SwL": 0.3, "S@L": 0.01, "LfS": 0.01, "S L": 0.01,
    "LxR": 0.58, "SxR": 0.25, "RxL": 0.20,
    "R@L": 0.85, "L@R": 0.10, "R@E": 0.30, "S@R": 0.01,
    "LfR": 0.90, "RfL": 0.02, "SfR": 0.03,
    "RwL": 0.97, "SwR": 0.01, "LwR": 0.02,
    "SoR": 0.80, "RoL": 0.15, "LoR": 0.10,
    "L:R": 0.95, "R:L": 0.05, "S:R": 0.02,
    "L R": 0.55, "R L": 0.13, "S R": 0.04, "R E": 0.01,
    "L/R": 0.40, "L-R": 0.30, "R/L": 0.05, "L,R": 0.22, "R,L": 0.04, "L+R": 0.05, "L&R": 0.15, "R&L": 0.03,
    "SxRxL": 0.45, "LxRxS": 0.30, "LxSxR": 0.12, "SxLxR": 0.05, "RxSxL": 0.04, "RxLxS": 0.06,
    "SxR@L": 0.90, "LxR@E": 0.50, "RxL@E": 0.08, "SxR@E": 0.10, "LxS@R": 0.01, "RxS@L": 0.03, "LxR@S": 0.005,
    "SxRwL": 0.95, "SxRfL": 0.10, "LfSxR": 0.90, "LxSfR": 0.05, "L SxR": 0.80, "SxR L": 0.70, "LxR S": 0.08, "LxR E": 0.02,
    "SoRwL": 0.97, "SoR@L": 0.97, "LfSoR": 0.95, "L:SxR": 0.95, "SoRxL": 0.60, "SoR L": 0.80, "L SoR": 0.80, "LwSoR": 0.10,
    "LfRxS": 0.60, "R@LxS": 0.60, "LoSxR": 0.30, "L@SxR": 0.50, "SxLfR": 0.40, "S L R": 0.05, "SoLxR": 0.10, "LxRfS": 0.40,
    "RwLxS": 0.50, "L RxS": 0.50, "RfSwL": 0.50, "RfS": 0.35, "S:L:R": 0.05, "RxS": 0.08, "RfSxL": 0.2, "R@LfS": 0.60, "RxSwL": 0.1,
    "L R S": 0.03, "S R L": 0.10, "R L S": 0.02, "LfRfS": 0.60, "RxS@": 0.01, "R L@E": 0.03, "L R@E": 0.45, "R@L@E": 0.60, "LfR@E": 0.80,
    "SxRxL@E": 0.45, "SxR@L@E": 0.90, "LxRxS@E": 0.30, "RwL@E": 0.80, "S,R,L": 0.02, "L,RxS": 0.2, "L,SxR": 0.7, "SxR,L": 0.5, "S@L:R": 0.02,
    "S:R@L": 0.3, "SxL:R": 0.3, "S@L R": 0.3, "S L:R": 0.3, "R-L": 0.03, "S-R": 0.01, "L-SxR": 0.5, "S@LxR": 0.3, "L/RxS": 0.1, "L/SxR": 0.2,
    "R+R": 0.2, "LoR@E": 0.1, "S-L-R": 0.01, "L-R-S": 0.01, "L/R/S": 0.01, "S/R/L": 0.02,
}  # fmt: skip
_LIST_OF = {" ": 0.40, "/": 0.62, "-": 0.40, ",": 0.75, "&": 0.80, "+": 0.30}
_LOG = {shape: log(share) for shape, share in _SHAPES.items()}
_LOG_LIST = {sign: log(share) for sign, share in _LIST_OF.items()}
_UNHEARD_OF = log(0.002)
_MOST_NUMBERS = 40
_OPERATORS = frozenset("x@fwo:/-+")
_GOT = frozenset(("got", "did", "made", "managed", "hit"))
_BETWEEN_ITEMS = frozenset(",|hd&")


@dataclass(slots=True)
class Item:
    """numbers[n] ops[n] numbers[n+1] ...; marks: everything else that was said in it. set_number: said, else 0."""

    numbers: list[Term] = field(default_factory=list)
    ops: list[str] = field(default_factory=list)
    marks: list[Term] = field(default_factory=list)
    before: str = ""  # what parted it from the item before: "," "|" "h" (then) "d" (drop) "&"
    set_number: int = 0
    drop_word: str = ""  # how the drop was said, where before is "d"
    lone_x: bool = False  # "x12": an x with no number before it
    done: bool = False  # "got 12": led by a verb, so what was done

    def has(self, kinds: str) -> bool:
        return any(mark.kind in kinds for mark in self.marks)

    @property
    def start(self) -> int:
        return min((term.start for term in (*self.numbers, *self.marks)), default=0)

    @property
    def end(self) -> int:
        return max((term.end for term in (*self.numbers, *self.marks)), default=0)


@dataclass(slots=True)
class Entry:
    """What was said of one exercise. label, exercise: as named, "" if not."""

    label: str = ""
    exercise: str = ""
    items: list[Item] = field(default_factory=list)
    start: int = 0
    end: int = 0
    named_last: bool = False  # the name came after all its numbers
    head_start: int = 0  # where the name stands, where there is one

    @property
    def is_two_numbers(self) -> bool:
        """ "20x12": two numbers and the sign between them, and nothing said beside them."""
        if len(self.items) != 1 or len(self.items[0].numbers) != 2 or self.items[0].marks or self.items[0].before:
            return False
        one, two = self.items[0].numbers
        return not (one.side or one.each or one.plural or one.partial or one.thing or one.sign) and not (
            two.side or two.each or two.plural or two.partial or two.thing or two.sign
        )

    def twin(self) -> Entry:
        """A copy that may be read in another setting: reading changes items and terms."""
        items = [
            replace(item, numbers=[t.twin() for t in item.numbers], ops=list(item.ops), marks=[t.twin() for t in item.marks])
            for item in self.items
        ]
        return replace(self, items=items)


def entries_of(terms: list[Term]) -> list[Entry]:
    """Cut terms into entries at slot labels and exercise names, whether the name stands before its numbers or after them."""
    heads = [place for place, term in enumerate(terms) if term.kind in "JX"]
    if not heads:
        return [_entry(terms, [])]
    lines: list[list[Term]] = [[]]
    for term in terms:
        if term.kind == "|":
            lines.append([])
        else:
            lines[-1].append(term)
    entries: list[Entry] = []
    for line in lines:
        parts = _parts_of_line(line)
        for number, (head, body) in enumerate(parts):
            if not head and entries and number == 0 and len(parts) == 1:
                # A line without a name goes on with the exercise above it.
                more = _entry(body, [])
                if more.items:
                    more.items[0].before = "|"
                    entries[-1].items += more.items
                    entries[-1].end = more.end
                continue
            entries.append(_entry(body, head))
    return [entry for entry in entries if entry.items or entry.label or entry.exercise]


def _parts_of_line(line: list[Term]) -> list[tuple[list[Term], list[Term]]]:
    """(names, what belongs to them) of one line, in order."""
    heads = [place for place, term in enumerate(line) if term.kind in "JX"]
    if not heads:
        return [([], line)] if line else []
    groups: list[list[int]] = []
    for place in heads:  # "A1 goblet squat" and "goblet squat (A1)" are one head
        apart = line[groups[-1][-1] + 1 : place] if groups else []
        if (
            groups
            and all(term.kind in "-:,." for term in apart)
            and len({line[p].kind for p in (*groups[-1], place)}) > len(groups[-1])
        ):
            groups[-1].append(place)
        else:
            groups.append([place])
    numbers = [place for place, term in enumerate(line) if term.kind == "n"]
    named_after = bool(numbers) and numbers[0] < groups[0][0] and (len(groups) == 1 or numbers[-1] < groups[-1][0])
    parts: list[tuple[list[Term], list[Term]]] = []
    if named_after and len(groups) > 1:
        start = 0
        for group in groups:
            parts.append(([line[p] for p in group], line[start : group[0]]))
            start = group[-1] + 1
        parts[-1] = (parts[-1][0], parts[-1][1] + line[start:])
        return _own_loads(parts)
    if len(groups) > 1 and not named_after and all(_counted_before(line, group) for group in groups):
        return _counted_parts(line, groups)
    if len(groups) == 1 and _two_tellings(line, groups[0]):
        head = groups[0]
        return [([], line[: head[0]]), ([line[p] for p in head], line[head[-1] + 1 :])]
    for number, group in enumerate(groups):
        stop = groups[number + 1][0] if number + 1 < len(groups) else len(line)
        begin = 0 if number == 0 else group[0]
        inside = [term for place, term in enumerate(line[begin:stop], begin) if place not in group]
        if parts and not any(term.kind == "n" for term in inside):
            inside = _taken_from(parts[-1][1]) + inside
        parts.append(([line[p] for p in group], inside))
    return parts


def _counted_before(line: list[Term], group: list[int]) -> bool:
    """ "11 rows": does a bare number or a count of reps stand right before the name?"""
    before = line[group[0] - 1] if group[0] else None
    return before is not None and before.kind == "n" and before.role in ("", "count") and not before.plural


def _counted_parts(line: list[Term], groups: list[list[int]]) -> list[tuple[list[Term], list[Term]]]:
    """ "10 squats at 35 and 11 rows with the 25s": each name has its count before it, and behind it what else is said of it."""
    begins = [0, *(group[0] - 1 for group in groups[1:]), len(line)]
    parts: list[tuple[list[Term], list[Term]]] = []
    for group, begin, stop in zip(groups, begins, begins[1:], strict=False):
        body = [term for place, term in enumerate(line[begin:stop], begin) if place not in group]
        while len(body) > 1 and body[-1].kind in "&,|h+":
            body.pop()
        parts.append(([line[p] for p in group], body))
    return parts


def _taken_from(body: list[Term]) -> list[Term]:
    """ "rdl 60 10, then 11 push ups": the last number before a name that has none after it, where a joint parts it from the others."""
    joints = [place for place, term in enumerate(body) if term.kind in "h,&|"]
    if not joints or not any(term.kind == "n" for term in body[: joints[-1]]):
        return []
    taken = body[joints[-1] + 1 :]
    if sum(term.kind == "n" for term in taken) != 1 or (body[joints[-1]].kind == "," and taken[0].kind != "n"):
        return []
    del body[joints[-1] :]
    return taken


def _own_loads(parts: list[tuple[list[Term], list[Term]]]) -> list[tuple[list[Term], list[Term]]]:
    """ "10 squats at 16, 8 push ups", "7 chins + 11 dips": what follows a name by "at" is still its own; a mere joint is nobody's."""
    for number in range(1, len(parts)):
        head, body = parts[number]
        if len(body) > 2 and body[0].kind in "@wf" and body[1].kind == "n" and any(term.kind == "n" for term in body[2:]):
            parts[number - 1][1].extend(body[:2])
            body = body[2:]
        bands = next((n for n, term in enumerate(body) if term.kind not in "cbB"), len(body))
        if 0 < bands < len(body) - 1 and body[bands].kind in "h&,|" and any(term.kind == "n" for term in body[bands:]):
            parts[number - 1][1].extend(body[:bands])  # "12 press yellow then 18 pull-aparts": yellow is the press's
            body = body[bands:]
        while body and body[0].kind in "+/-,&|hx" and len(body) > 1:
            body = body[1:]
        if body and body[0].kind == "n" and body[0].sign == "+" and not body[0].glued:
            body[0].sign = ""
        parts[number] = (head, body)
    return parts


def _two_tellings(line: list[Term], group: list[int]) -> bool:
    """ "20x11 rows 18x12": a whole set on each side of the name; the first is of the exercise that is due."""
    before, after = line[: group[0]], line[group[-1] + 1 :]
    if before and before[-1].kind in "/|" and all(sum(term.kind == "n" for term in part) > 1 for part in (before, after)):
        return True  # "bp 20s-12,11 / csr 18s-12,12"
    return all(any(term.kind == "x" for term in part) and sum(term.kind == "n" for term in part) > 1 for part in (before, after))


def _entry(body: list[Term], head: list[Term]) -> Entry:
    entry = Entry(items=_items(body))
    for term in head:
        if term.kind == "J":
            entry.label = term.text
        else:
            entry.exercise = term.text
    entry.head_start = head[0].start if head else 0
    entry.named_last = bool(head and body) and max(t.start for t in body) < head[0].start
    every = [*head, *body]
    if every:
        entry.start, entry.end = min(t.start for t in every), max(t.end for t in every)
    return entry


def cut_last(entry: Entry) -> tuple[Entry, Entry] | None:
    """The entry as two: all but its last number, and that one. None where nothing parts them."""
    items = entry.items
    last = items[-1]
    ahead = [item for item in items if item.start < entry.head_start]
    if not entry.named_last:
        after_name = items[len(ahead) :]
        if len(ahead) == 1 and ahead[0].numbers and any(item.numbers for item in after_name):
            mine = Entry(items=ahead, start=entry.start, end=ahead[0].end)  # "8s again for 10, dips 12"
            return mine, Entry(entry.label, entry.exercise, after_name, after_name[0].start, entry.end)
        if len(ahead) < 2:
            return None
        mine = Entry(items=ahead[:-1], start=entry.start, end=max(item.end for item in ahead[:-1]))
        others = [ahead[-1], *items[len(ahead) :]]
        return mine, Entry(entry.label, entry.exercise, others, others[0].start, entry.end)
    if len(items) > 1 and len(last.numbers) == 2 and last.before in (",", "h", "&", "|") and last.ops[0] in "xfw@":
        mine = Entry(items=items[:-1], start=entry.start, end=max(item.end for item in items[:-1]))
        return mine, Entry(
            entry.label, entry.exercise, [last], last.start, entry.end, named_last=True
        )  # "10s for 10, 8s for 9 press"
    if len(items) > 1 and len(last.numbers) == 1:
        before, after = items[:-1], Item(last.numbers, [], last.marks)
    elif (
        len(items) == 1
        and len(last.numbers) > 1
        and (last.ops[-1] in "/,&+-" or (last.ops[-1] == " " and (last.numbers[-2].measure or last.numbers[-2].each)))
    ):
        before = [Item(last.numbers[:-1], last.ops[:-1], [])]
        after = Item(last.numbers[-1:], [], last.marks)
    else:
        return None
    if after.numbers[0].sign == "+" and not after.numbers[0].unit:
        after.numbers[0].sign = ""
    mine = Entry(items=before, start=entry.start, end=max(item.end for item in before))
    theirs = Entry(entry.label, entry.exercise, [after], after.start, entry.end, named_last=True)
    return mine, theirs


_FOR_ALL = re.compile(
    r"\b(?:both|all(?: of them| of it| three| four| sets| exercises)?|everything|each exercise)(?:\s+(?:done|were|was))?\s+(?:with|w/?|at|@|using|on|in)\s+(?:the\s+|a\s+|an\s+|my\s+|same\s+)*(?=\d)"
)


def share_load(entries: list[Entry], folded: str) -> None:
    """ "squats 14, rows 13, both with a 10 kg pack": the load told last is that of every entry."""
    said = _FOR_ALL.search(folded)
    if said is None or len(entries) < 2:
        return
    for item in entries[-1].items:
        at = next((n for n, term in enumerate(item.numbers) if term.start == said.end() and term.role in ("", "load")), None)
        if at is None or (at == 0 and len(item.numbers) > 1):
            continue
        load = item.numbers.pop(at)
        if item.ops:
            item.ops.pop(at - 1)
        load.role, load.plural = "load", False
        things = [mark for mark in item.marks if mark.kind in "Iu"]
        item.marks = [mark for mark in item.marks if mark.kind not in "I*"]
        entries[-1].items = [other for other in entries[-1].items if other.numbers or other.marks or other.set_number]
        for entry in entries:
            if not any(term.role == "load" or term.plural for each in entry.items for term in each.numbers):
                entry.items.append(Item([load.twin()], [], [mark.twin() for mark in things], before=","))
        return


def _items(body: list[Term]) -> list[Item]:
    items: list[Item] = []
    item = Item()
    op = ""

    def close(sign: str) -> None:
        nonlocal item, op
        if item.numbers or item.marks or item.set_number:
            items.append(item)
            item = Item(before=sign)
        elif sign:
            item.before = sign if item.before in ("", ",", "|", "&") else item.before
        op = ""

    for place, term in enumerate(body):
        if term.kind == "n":
            if item.numbers and not op and _begins_anew(body, place, item):
                close(" ")
            two = (
                term.value == 2
                and place + 1 < len(body)
                and body[place + 1].kind == "n"
                and (body[place + 1].plural or body[place + 1].role == "load")
            )  # "used two 16s", "holding two 8 kg dumbbells"
            if not item.numbers and place and body[place - 1].kind == "k" and body[place - 1].text in _GOT:
                item.done = True
            if not item.numbers and op in "@w" and op and not term.role and not item.has("F") and not two:
                term.role = "load"
            if item.numbers:
                item.ops.append(op or " ")
            elif op == "x":
                item.lone_x = True
            item.numbers.append(term)
            op = ""
        elif term.kind == "#":
            close(item.before if not item.numbers else ",")
            item.set_number = int(term.number)
        elif term.kind in _OPERATORS:
            if term.kind == ":" and not item.numbers:
                continue
            if (term.kind == "@" and op in ("f", "w", "x")) or (term.kind in "/:-" and op in ("w", "@")):
                continue
            if term.kind in "/+-" and item.ops and item.ops[-1] in "x@f:" and _pair_follows(body, place):
                close(",")
                continue
            op = "w" if term.text == "at" else term.kind  # no one says an effort by "at 8"
            if term.kind == "+" and term.text != "+":
                item.marks.append(term)
                op = ""
        elif term.kind in _BETWEEN_ITEMS:
            if term.kind in "&," and _between_bands(body, place):
                continue
            close(term.kind)
            if term.kind == "d":
                item.drop_word = term.text
        elif term.kind == "?":
            item.marks.append(term)
        elif term.kind == "k" and term.text in _GOT and len(item.numbers) == 1 and not op and not item.marks:
            op = "f"  # "16 got 17"
        elif term.kind in "kw.!N":
            continue
        else:
            item.marks.append(term)
            if term.kind in "cbB" and op in ("w", "@"):
                op = ""  # "with the green band 8": eight is no load
    close("")
    return items


def _pair_follows(body: list[Term], place: int) -> bool:
    """Does a whole "22x10" stand after this sign?"""
    after = [term for term in body[place + 1 : place + 5] if term.kind not in "IbEH"]
    return len(after) > 1 and after[0].kind == "n" and after[1].kind in "x@f:"


def _between_bands(body: list[Term], place: int) -> bool:
    """ "red and blue": two bands of one set."""
    return 0 < place < len(body) - 1 and body[place - 1].kind == "c" and body[place + 1].kind == "c"


def _begins_anew(body: list[Term], place: int, item: Item) -> bool:
    """ "20x12 22x10": after a whole pair, a number followed by x begins the next one. So does a number after an effort."""
    if len(item.numbers) == 1 and item.numbers[0].role == "":
        return False
    term = body[place]
    nxt = body[place + 1] if place + 1 < len(body) else None
    if (
        nxt is not None
        and nxt.kind in "x@f:"
        and item.ops
        and item.ops[-1] in "x@f:"
        and not (term.role == "load" and nxt.kind != "x")
    ):
        return not (len(item.numbers) == 2 and item.numbers[0].number <= 6 and nxt.kind == "f")
    if nxt is not None and nxt.kind == "/" and item.ops == ["/"]:
        return True  # "30/8 32.5/6"
    if term.role == "load" and any(number.role == "load" for number in item.numbers):
        return True
    return term.bare and item.numbers[-1].role in ("rpe", "rir")


@lru_cache(maxsize=4096)
def shapes(roles: tuple[str, ...], ops: tuple[str, ...], small: tuple[bool, ...]) -> tuple[tuple[float, str], ...]:
    """Every way to give the numbers their parts, with the log of how often it is meant; the commonest first.

    roles: what the words say of each number ("L", "R", "S", "E", "" where open). small: may be how many sets, or an effort.
    """
    count = len(roles)
    if count > 4 and all(op in " ,/-&" for op in ops):
        tail = "".join(role or "R" for role in roles[1:])
        heads = [roles[0]] if roles[0] else ["R", "L"]
        ways = [head + tail for head in heads]
    elif count > 6:
        return ()
    else:
        choices = [[role] if role else (_open_roles(n, ops, small[n])) for n, role in enumerate(roles)]
        ways = ["".join(way) for way in product(*choices) if _possible(way, ops)]
    scored = [(_share(way, ops), way) for way in ways]
    return tuple(sorted(scored, key=lambda pair: -pair[0])[:8])


def _open_roles(place: int, ops: tuple[str, ...], small: bool) -> list[str]:
    """An effort only after an at-sign; a number of sets only where it is small."""
    roles = ["L", "R", "S"] if small else ["L", "R"]
    return [*roles, "E"] if small and place and ops[place - 1] == "@" else roles


def _possible(way: tuple[str, ...], ops: tuple[str, ...]) -> bool:
    if way.count("L") > 1 or way.count("S") > 1 or way.count("E") > 1:
        return False
    runs = 0
    for place, role in enumerate(way):
        if role == "R":
            if not place or way[place - 1] != "R":
                runs += 1
            elif ops[place - 1] not in " ,/-&+":
                return False
    return runs == 1 or (runs == 0 and set(way) == {"S", "L"}) or (runs == 0 and "L" in way and len(way) == 1) or way == ("S",)


def _share(way: str, ops: tuple[str, ...]) -> float:
    """How often this way is meant: a run of counts is one R, with what a list of that sign costs."""
    shape, cost = way[0], 0.0
    for place in range(1, len(way)):
        if way[place] == "R" and way[place - 1] == "R":
            cost = min(cost, _LOG_LIST[ops[place - 1]])
        else:
            shape += ops[place - 1] + way[place]
    shape = shape.replace("E", "E")
    if shape not in _LOG and "E" in shape:
        shape = _without_effort(shape)
    return _LOG.get(shape, _UNHEARD_OF) + cost


def _without_effort(shape: str) -> str:
    place = shape.index("E")
    return shape[: place - 1] + shape[place + 1 :] if place else shape[2:]


def role_of(term: Term, measure: Measure) -> str:
    """What the words say about a number, in the light of what the slot counts."""
    if term.role in ("rpe", "rir"):
        return "E"
    if term.role == "sets":
        return "S"
    if term.role == "load" or term.sign or term.hand or (term.total and term.role != "count"):
        return "L"
    if term.role in ("count", "minutes_or_metres"):
        return "R"
    if term.plural:
        return "R" if measure is Measure.SECONDS else "L"
    if term.value is not None and term.value != term.value.to_integral_value() and not term.comma:
        return "" if term.number * 2 == int(term.number * 2) and 5 <= term.number <= 10 else "L"
    return ""
