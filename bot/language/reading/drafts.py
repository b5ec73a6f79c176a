"""What sets does an entry tell of, once its numbers have been given their parts?

A draft is a set before it has a place: what was said of it, and nothing that was not said.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from operator import attrgetter

from bot.language.reading.grammar import Entry, Item, role_of
from bot.language.reading.setting import Setting
from bot.language.reading.terms import Term
from bot.language.reading.tongues import COLOURS
from bot.training.blocks import Measure, SetKind, Sides
from bot.training.exercises.entry import LoadStyle
from bot.training.loads import BODY_WEIGHT, Load, LoadKind, Unit
from bot.training.records import DropDone

_STRENGTHS = frozenset(["light", "medium", "heavy", "thin", "thick", "strong"])
_WARM_UPS = frozenset(("warmups", "wus", "warm-ups", "warm - ups", "warm ups"))
_LONGEST_LIST = 12
_WORK_BEGINS = Decimal("1.8")  # times the warm-up before it
_A_MINUTE = 60
_LIKE_A_LOAD = 0.15  # of a known load: so far may the next one be away
_NEAR = 4  # reps that the two sides of one set may differ by
_FAR_ABOVE = 2.0  # a number so many times the most reps prescribed is a load
_HEAVIEST_STEP = 2  # within one exercise of one text
# "two plates each side" means the largest ones on a full-size bar (common practice); it is asked about all the same.
_MOST_PLATES = 6
_LARGEST_PLATE = {Unit.KG: Decimal(20), Unit.LB: Decimal(45)}
_USUAL_BAR = {Unit.KG: (Decimal(20), Unit.KG), Unit.LB: (Decimal(45), Unit.LB)}
_LIGHTER = Decimal("0.86")  # a load cut by less than this share in "then" talk is a next set rather than a drop


@dataclass(slots=True)
class Draft:
    """One set as told. number: its number where said, else 0. trouble: a code where something needed is not known."""

    number: int = 0
    load: Load | None = None
    load_words: Term | None = None
    count: int | None = None
    left: int | None = None
    right: int | None = None
    measure: Measure | None = None
    kind: SetKind = SetKind.WORK
    rpe: Decimal | None = None
    rir: Decimal | None = None
    failure: bool = False
    form_kept: bool | None = None
    tempo_kept: bool | None = None
    partials: int = 0
    bouts: tuple[int, ...] = ()
    drops: tuple[DropDone, ...] = ()
    about: bool = False
    note: str = ""
    start: int = 0
    end: int = 0
    carried: bool = False  # its load was that of the item before
    trouble: str = ""
    count_words: list[Term] = field(default_factory=list)

    def twin(self) -> Draft:
        """A copy; the library's own replace takes five times as long, and drafts are copied for every way that is tried."""
        return Draft(*_ALL_OF_DRAFT(self))

    @property
    def empty(self) -> bool:
        return self.count is None and self.left is None and self.right is None


_ALL_OF_DRAFT = attrgetter(*Draft.__slots__)


def prepare(entry: Entry, setting: Setting) -> None:
    """Take out of the items what is certain whatever the rest means: efforts, partial reps, pairs, rest-pause bouts."""
    if entry.is_two_numbers and entry.items[0].ops[0] == "x" and _plainly_load_and_count(entry.items[0]):
        return  # "20x12" has nothing of all that
    _join_bouts(entry)
    for item in entry.items:
        _strip(item, partials=False)
    _drop_ordinals(entry)
    _drop_times(entry, setting)
    for item in entry.items:
        if len(item.numbers) >= 4 and set(item.ops) == {"x"}:
            item.ops[1:] = [","] * (len(item.ops) - 1)  # "20 x 12 x 12 x 10"
    _zip_lists(entry)
    _load_then_done(entry, setting)
    _own_bands_only(entry, setting)
    _load_beside_sides(entry, setting)
    if setting.session:
        _as_in_a_session(entry, setting)
    _dashes_apart(entry, setting)
    _counts_before_load(entry, setting)
    _pairs_in_a_row(entry, setting)
    _one_count_for_all(entry, setting)
    _some_fives(entry, setting)
    _each_load_once(entry)
    _drop_told_sets(entry, setting)
    _join_singles(entry)
    _give_sides(entry, setting)
    _sides_in_pairs(entry, setting)
    for item in entry.items:
        all_of = [mark.end for mark in item.marks if mark.kind == "*"]
        for term in item.numbers:
            if not setting.needs_load or any(0 <= term.start - end <= 4 for end in all_of):  # "all 12s"
                term.plural = term.plural and setting.measure is Measure.SECONDS
        _pull_pair(item, setting)
        _strip(item, partials=True)


def _plainly_load_and_count(item: Item) -> bool:
    """Not so "2x12" (two weights, perhaps), "12 x 30 s" and efforts."""
    one, two = item.numbers
    return one.role in ("", "load") and two.role in ("", "count") and one.value != 2 and two.measure is None and not two.ordinal


def _strip(item: Item, *, partials: bool) -> None:
    """Efforts, and partial reps if wanted, become marks of the item."""
    keep = [n for n, t in enumerate(item.numbers) if t.role not in ("rpe", "rir") and not (partials and t.partial)]
    if len(keep) < len(item.numbers):
        item.marks += [term for n, term in enumerate(item.numbers) if n not in keep]
        if keep and keep[0] > 0 and item.ops[keep[0] - 1] in "w@" and item.numbers[keep[0]].bare:
            item.numbers[keep[0]].role = "load"  # "and 4 partials with 30"
        item.ops = [item.ops[place - 1] for place in keep[1:]]
        item.numbers = [item.numbers[place] for place in keep]


def _load_then_done(entry: Entry, setting: Setting) -> None:
    """ "16, got 12": a load that is known here, and after a comma what was done with it."""
    if len(entry.items) != 2 or not entry.items[1].done or not setting.needs_load:
        return
    one, two = entry.items
    if len(one.numbers) != 1 or len(two.numbers) != 1 or one.marks or two.before != "," or not one.numbers[0].bare:
        return
    load, count = one.numbers[0], two.numbers[0]
    known = any(abs(float(load.number) - kg) <= _LIKE_A_LOAD * kg for kg, _ in setting.known_loads)
    target = setting.target(1)
    beyond = target is not None and target.high is not None and load.number > Decimal("1.25") * target.high
    if count.role in ("", "count") and (known or beyond):
        entry.items = [Item([load, count], ["f"], two.marks, before=one.before, set_number=one.set_number)]


def _zip_lists(entry: Entry) -> None:
    """ "40/45/50 x 10/8/6": two lists of one length, load for load and count for count."""
    for place, item in enumerate(entry.items):
        half = len(item.numbers) // 2
        if half < 2 or len(item.numbers) != 2 * half or item.ops[half - 1] not in "x@fw":
            continue
        if set(item.ops[: half - 1] + item.ops[half:]) - set("/,-&") or any(term.role for term in item.numbers):
            continue
        pairs = [
            Item([one, two], [item.ops[half - 1]], before=item.before if not n else ",")
            for n, (one, two) in enumerate(zip(item.numbers[:half], item.numbers[half:], strict=True))
        ]
        pairs[-1].marks = item.marks
        entry.items[place : place + 1] = pairs
        return


def _load_beside_sides(entry: Entry, setting: Setting) -> None:
    """ "8 left 10 right, 6": what is neither the one side's nor the other's is the load."""
    numbers = [term for item in entry.items for term in item.numbers if term.role not in ("rpe", "rir")]
    sides = [term.side for term in numbers if term.side]
    others = [term for term in numbers if not term.side]
    if setting.needs_load and sorted(sides) == ["L", "R"] and len(others) == 1 and others[0].bare and not others[0].partial:
        others[0].role = "load"


def _as_in_a_session(entry: Entry, setting: Setting) -> None:
    """ "A1 10 9, 7, 7" of three sets, among other exercises: a load and a count for each set; "@ 8" is a load, too."""
    numbers = [term for item in entry.items for term in item.numbers]
    if not setting.needs_load or any(term.role == "load" or term.plural for term in numbers):
        return
    for item in entry.items:
        item.ops = ["w" if op == "@" else op for op in item.ops]
    sets = len(setting.free_numbers)
    marked = any(op in "xw@fo" for item in entry.items for op in item.ops)
    marked = marked or any(item.before == "|" for item in entry.items)  # named again: "curl 40 15 pushdown 50 15 curl 40 13"
    counted = all(t.bare or t.role in ("count", "minutes_or_metres") for t in numbers[1:])
    if setting.load_first and not marked and len(numbers) == sets + 1 > 2 and numbers[0].bare and counted:
        numbers[0].role = "load"
        for term in numbers[1:]:
            term.role = term.role or "count"


def _own_bands_only(entry: Entry, setting: Setting) -> None:
    """ "green band, 16 heavy today": where one of the member's own bands is named, heavy is how it felt."""
    own = {name.casefold() for name in setting.situation.kit.bands}
    own |= {word for word, meant in COLOURS.items() if meant in own}
    if any(mark.kind == "c" and mark.text in own for item in entry.items for mark in item.marks):
        for item in entry.items:
            item.marks = [mark for mark in item.marks if mark.kind != "c" or mark.text in own or mark.text not in _STRENGTHS]


def _dashes_apart(entry: Entry, setting: Setting) -> None:
    """ "24 - 17, 20": one dash with room around it parts a load from its counts, as a colon does."""
    for item in entry.items:
        if setting.needs_load and item.ops[:1] == ["-"] and item.ops.count("-") == 1:
            one, two = item.numbers[:2]
            if two.start - one.end >= len(" - ") and (one.number > two.number or len(item.numbers) > 2 or two.role == "count"):
                item.ops[0] = ":"


def _counts_before_load(entry: Entry, setting: Setting) -> None:
    """ "9, 6, 5, 7 @ 60": what stands before the load at the end is a list of counts, where its numbers are alike."""
    for place in range(1, len(entry.items)):
        item, last = entry.items[place], entry.items[place - 1]
        if not setting.needs_load or len(item.numbers) != 2 or item.ops[0] not in "@w" or item.before not in (",", "&"):
            continue
        single = [other for other in entry.items[:place] if len(other.numbers) == 1 and other.before in ("", ",", "&")]
        counts = [*(other.numbers[0] for other in single), item.numbers[0]]
        if (
            len(single) != place
            or last not in single
            or any(t.role not in ("", "count", "minutes_or_metres") or t.plural or t.side or t.partial for t in counts)
        ):
            continue
        few, most = min(t.number for t in counts), max(t.number for t in counts)
        load = item.numbers[1]
        if (
            most > 3 * few
            or load.role not in ("", "load")
            or (load.bare and not load.plural and load.number <= 10 and most > load.number * 2)
        ):
            continue
        for term in counts:
            term.role = term.role or "count"
        item.numbers[1].role = "load"
        return


def _pairs_in_a_row(entry: Entry, setting: Setting) -> None:
    """ "100 5 105 5 110 4", "80 12 12 90 10": loads with their counts behind them, where the numbers can hardly be anything else."""
    for place, item in enumerate(entry.items):
        numbers = item.numbers
        if len(numbers) < 4 or set(item.ops) - set(" ,/") or not setting.needs_load or any(t.side or t.unit for t in numbers):
            continue
        target = setting.target(1)
        most = max(float(target.high or target.low or 0) if target else 0.0, 6.0)
        heavy = [float(term.number) >= _FAR_ABOVE * most for term in numbers]
        loads = [term.number for term, is_load in zip(numbers, heavy, strict=True) if is_load]
        alone = any(one and two for one, two in itertools.pairwise([*heavy, True]))
        if (
            not heavy[0]
            or len(set(loads)) < 2
            or alone
            or any(t.role == "count" for t, is_load in zip(numbers, heavy, strict=True) if is_load)
        ):
            continue
        if max(loads) > _HEAVIEST_STEP * min(loads):
            continue
        pairs: list[Item] = []
        for term, is_load in zip(numbers, heavy, strict=True):
            if is_load:
                pairs.append(Item([term], [], before="," if pairs else item.before))
            else:
                pairs[-1].ops.append("x" if len(pairs[-1].numbers) == 1 else ",")
                pairs[-1].numbers.append(term)
        pairs[-1].marks = item.marks
        entry.items[place : place + 1] = pairs
        return


def _one_count_for_all(entry: Entry, setting: Setting) -> None:
    """ "70 75 80 85 all for 5": loads that change, and one count for each of them."""
    last = entry.items[-1] if entry.items else None
    if last is not None and last.has("*") and len(last.numbers) == 2 and len(entry.items) > 2:
        ahead = entry.items[:-1]
        if all(len(item.numbers) == 1 and not item.marks and item.numbers[0].role in ("", "load") for item in ahead):
            last.numbers = [*(item.numbers[0] for item in ahead), *last.numbers]  # "70, 75, 80, 85 all for 5"
            last.ops = [*("," for _ in ahead), *last.ops]
            entry.items = [last]
    for place, item in enumerate(entry.items):
        count = item.numbers[-1] if len(item.numbers) > 2 else None
        every = count is not None and count.plural and item.ops[-1] == " " and item.has("*")  # "245 255 265 all fives"
        if count is None or not (item.ops[-1] in "fx@" or every) or set(item.ops[:-1]) - set(" /,-&") or not setting.needs_load:
            continue
        loads = item.numbers[:-1]
        target = setting.target(1)
        if (
            any(t.role not in ("", "load") or t.number <= (target.high or 0 if target else 0) for t in loads)
            or count.role == "load"
        ):
            continue
        count.plural = count.plural and not every
        pairs = [Item([load, count.twin()], ["x"], before=item.before if not n else ",") for n, load in enumerate(loads)]
        pairs[-1].marks = [mark for mark in item.marks if mark.kind != "*"]
        entry.items[place : place + 1] = pairs
        return


def _some_fives(entry: Entry, setting: Setting) -> None:
    """ "three fives at 275": sets, what is done in each of them, and a load that is far more than either."""
    for item in entry.items:
        if len(item.numbers) == 3 and item.numbers[1].plural and item.ops[0] == " " and item.ops[1] in "w@":
            sets, count, load = item.numbers
            if not sets.role and setting.needs_load and sets.number <= 6 and load.number >= 2 * count.number:
                sets.role, count.role, count.plural, load.role = "sets", "count", False, "load"


def _each_load_once(entry: Entry) -> None:
    """ "three sets of 5: 140, 145 and 150": as many loads as sets, and one count for each of them."""
    first = entry.items[0] if entry.items else None
    if first is None or len(first.numbers) < 3 or first.numbers[0].role != "sets" or first.ops[0] != "o":
        return
    sets, count, *loads = first.numbers
    loads += [term for item in entry.items[1:] for term in item.numbers]
    if len(loads) == sets.number and all(t.role in ("", "load") and not t.side and t.number >= 2 * count.number for t in loads):
        marks = [mark for item in entry.items for mark in item.marks]
        entry.items = [Item([load, count.twin()], ["x"], before="," if n else "") for n, load in enumerate(loads)]
        entry.items[-1].marks = marks


def _drop_told_sets(entry: Entry, setting: Setting) -> None:
    """ "3 sets with 20: 12, 11, 10": how many sets is said twice; the counts tell it already."""
    _drop_told_pairs(entry)
    _drop_all_of_them(entry)
    numbers = [(item, term) for item in entry.items for term in item.numbers]
    told = [(item, term) for item, term in numbers if term.role == "sets"]
    counts = [term for _, term in numbers if term.role in ("", "count") and not term.plural and not term.partial]
    if len(told) != 1 or not 2 <= told[0][1].number <= len(counts) <= told[0][1].number + 1:
        return
    if any("o" in item.ops and set(item.ops) & set("@wf") for item in entry.items):
        return  # "two sets of 5 at 50": the numbers are a count and a load
    if any("x" in item.ops for item in entry.items) or any(item.before not in ("", ",", "&", " ", "h") for item in entry.items):
        return
    item, term = told[0]
    place = next(n for n, other in enumerate(item.numbers) if other is term)
    following = item.numbers[place + 1] if place + 1 < len(item.numbers) else None
    if len(counts) > term.number:
        before = item.numbers[place - 1] if place else None
        if following is not None and not following.role and item.ops[place] in "w@":
            following.role = "load"
        elif before is not None and before is counts[0] and not before.role and setting.needs_load:
            before.role = "load"  # "65 both sets, 12 and 10"
        else:
            return
    item.numbers.pop(place)
    if item.ops:
        item.ops.pop(min(place, len(item.ops) - 1))
    if not item.numbers and not item.marks:
        entry.items = [other for other in entry.items if other is not item]


def _drop_told_pairs(entry: Entry) -> None:
    """ "all three sets: eight at 65, seven at 70 and six at 75": how many sets is told by the pairs as well."""
    first = entry.items[0] if entry.items else None
    told = first.numbers[0] if first is not None and len(first.numbers) == 3 else None
    if first is None or told is None or told.role != "sets" or len(entry.items) < 2:
        return
    pairs = [first.ops[1:], *(item.ops for item in entry.items[1:] if item.numbers)]
    if len(pairs) == told.number and all(len(ops) == 1 and ops[0] in "@xfw" for ops in pairs):
        del first.numbers[0], first.ops[0]
        first.marks = [mark for mark in first.marks if mark.kind != "*"]


def _drop_all_of_them(entry: Entry) -> None:
    """ "rdl all three: 10, 10, 9 with 12 kg": as many counts as "all three" says."""
    first = entry.items[0] if entry.items else None
    if first is None or not first.has("*") or len(first.numbers) < 2 or first.ops[0] != ":" or not first.numbers[0].bare:
        return
    counts = [t for item in entry.items for t in item.numbers[(1 if item is first else 0) :] if t.role in ("", "count")]
    if len(counts) == first.numbers[0].number:
        del first.numbers[0], first.ops[0]
        first.marks = [mark for mark in first.marks if mark.kind != "*"]


def _join_singles(entry: Entry) -> None:
    """ "20, 12, 12, 11": numbers alone between commas are one list, of which the first may be the load."""
    joined: list[Item] = []
    for item in entry.items:
        last = joined[-1] if joined else None
        first = item.numbers[0] if len(item.numbers) == 1 else None
        alone = (
            first is not None
            and not item.set_number
            and not first.plural
            and (first.bare or _plainly_counted(first, last, joined))
        )
        if last is not None and alone and item.before in ",&" and item.before and _open_list(last):
            last.numbers += item.numbers
            last.ops.append(item.before)
            last.marks += item.marks
        else:
            joined.append(item)
    entry.items = joined


def _plainly_counted(term: Term, last: Item | None, joined: list[Item]) -> bool:
    """ "11, 13, 11 reps", "28 kg for 9, 5, 5 reps": the unit said at the end of a list of counts."""
    if (
        last is None
        or term.side
        or term.partial
        or not (term.role == "minutes_or_metres" or (term.role == "count" and term.measure))
    ):
        return False
    counts = last.numbers if any(len(item.numbers) > 1 or item.has("cb") for item in joined[:-1]) else last.numbers[1:]
    return bool(counts) and all(2 * other.number > term.number > other.number / 2 for other in counts)


def _open_list(item: Item) -> bool:
    return (
        0 < len(item.numbers) <= _LONGEST_LIST
        and all(mark.kind == "?" or mark.role for mark in item.marks)
        and all(term.bare for term in item.numbers)
        and all(op in ",&" for op in item.ops)
    )


def _sides_in_pairs(entry: Entry, setting: Setting) -> None:
    """ "6/6, 5/5, 5/4" of a one-sided exercise: a pair for each set, in the order in which the sides are done."""
    told = [item for item in entry.items if item.numbers]
    alike = all(len(item.numbers) == 2 and item.ops == ["/"] and all(term.bare for term in item.numbers) for item in told)
    if not setting.sided or not alike or not 1 < len(told) <= len(setting.free_numbers):
        return
    right_first = setting.slot is not None and setting.slot.sides is Sides.RIGHT_FIRST
    if any(abs(one.number - two.number) > _NEAR for one, two in (item.numbers for item in told)):
        return
    for item in told:
        for term, side in zip(item.numbers, "RL" if right_first else "LR", strict=True):
            term.side, term.role = side, "count"


def _give_sides(entry: Entry, setting: Setting) -> None:
    """ "12/10" with one set left of a one-sided exercise is its two sides, in the order in which they are done."""
    if not setting.sided or len(setting.free_numbers) != 1 or len([i for i in entry.items if i.numbers]) != 1:
        return
    item = next(i for i in entry.items if i.numbers)
    if len(item.numbers) >= 2 and item.ops[-1] == "/" and all(term.bare for term in item.numbers[-2:]) and len(item.numbers) <= 3:
        right_first = setting.slot is not None and setting.slot.sides is Sides.RIGHT_FIRST
        for term, side in zip(item.numbers[-2:], "RL" if right_first else "LR", strict=True):
            term.side, term.role = side, "count"


def _drop_ordinals(entry: Entry) -> None:
    """ "20x11, failed on the 12th": which rep it was is no count of its own."""
    numbers = [term for item in entry.items for term in item.numbers]
    if not any(term.ordinal for term in numbers) or all(term.ordinal for term in numbers):
        return
    for item in entry.items:
        keep = [place for place, term in enumerate(item.numbers) if not term.ordinal]
        item.ops = [item.ops[place - 1] for place in keep[1:]]
        item.numbers = [item.numbers[place] for place in keep]


def _drop_times(entry: Entry, setting: Setting) -> None:
    """ "9 with the 8 kg, then fed her 20 min, then 8": minutes beside counts of reps are no set."""
    numbers = [term for item in entry.items for term in item.numbers]
    times = [term for term in numbers if term.measure is Measure.SECONDS and term.number >= _A_MINUTE]
    if setting.measure is not Measure.REPS or not times or not any(t.role in ("", "count") for t in numbers if t not in times):
        return
    for item in entry.items:
        keep = [place for place, term in enumerate(item.numbers) if term not in times]
        item.ops = [item.ops[place - 1] for place in keep[1:]]
        item.numbers = [item.numbers[place] for place in keep]


def _join_bouts(entry: Entry) -> None:
    """With "rest-pause" said, the counts of its items are bouts of one set."""
    if not any(item.has("Z") for item in entry.items):
        return
    joined: list[Item] = []
    for item in entry.items:
        bare = all(term.role in ("", "count") for term in item.numbers)
        for term in item.numbers[1 if not joined else 0 :]:
            term.sign = "" if term.sign == "+" and bare else term.sign  # "10 +4 +3 rest pause"
        if joined and joined[-1].numbers and item.numbers and bare and item.before in ",& ":
            joined[-1].ops += ["+", *("+" for _ in item.ops)]
            joined[-1].numbers += item.numbers
            joined[-1].marks += item.marks
        else:
            item.ops = ["+" if op in "/-" else op for op in item.ops]
            joined.append(item)
    entry.items = joined


def _pull_pair(item: Item, setting: Setting) -> None:
    """ "two 12s", "2 x 12kg" with a weight in each hand: the 2 says how many weights."""
    if len(item.numbers) < 2:
        return
    at = next(
        (
            n
            for n in range(1, len(item.numbers) - 1)
            if item.numbers[n].value == 2
            and item.ops[n] == " "
            and (item.numbers[n + 1].plural or (item.numbers[n + 1].role == "load" and item.ops[n - 1] in "w@"))
        ),
        0,
    )  # "20 steps with two 12s", "3 sets of 20 with two 22s", "11 with two 6 kg"
    two = item.numbers[0].value == 2 and not item.numbers[0].role and item.ops[0] in " o"
    if two and setting.style is LoadStyle.BARBELL and item.numbers[1].plural and (item.numbers[1].each or item.has("E")):
        load = item.numbers[1]  # "two 20s each side"
        load.value, load.plural, load.role, load.each = load.number * 2, False, "load", True
        del item.numbers[0], item.ops[0]
        return
    if (
        two
        and setting.style is LoadStyle.PAIR
        and setting.measure is Measure.SECONDS
        and len(item.numbers) == 3
        and item.ops[1] in "f,"
    ):
        item.numbers[1].role, item.numbers[1].hand, item.numbers[1].thing = "load", True, "pair"  # "two 32 for 35 sec"
        del item.numbers[0], item.ops[0]
        return
    if not at and len(item.numbers) == 3 and item.numbers[0].role in ("count", "minutes_or_metres") and item.ops[1] == "x":
        at = 1 if setting.style is LoadStyle.PAIR else 0  # "40 m 2x24"
        if at and item.numbers[1].value == 2 and item.numbers[2].bare:
            item.numbers[2].role, item.numbers[2].hand, item.numbers[2].thing = "load", True, "pair"
            del item.numbers[1], item.ops[1]
            return
        at = 0
    first, second = item.numbers[at], item.numbers[at + 1]
    paired = setting.style is LoadStyle.PAIR and (
        (item.ops[:2] in (["x", "f"], ["x", ","]) and len(item.numbers) == 3)
        or (item.ops[:2] == ["x", ":"] and item.numbers[1].unit is not None)
    )
    if paired and first.value == 2 and not first.role and second.role in ("", "load"):
        second.role, second.hand, second.thing = "load", True, "pair"  # "2x14 for 10", "2x8 kg: 12 and 12"
        del item.numbers[at], item.ops[at]
        return
    if first.value != 2 or (first.role and not at) or item.ops[at] not in " xo":
        return
    counted = setting.measure is not Measure.SECONDS
    loadlike = second.role == "load" or (second.plural and counted)
    if loadlike and (item.ops[at] == " " or setting.style is LoadStyle.PAIR or second.plural):
        second.hand = True
        second.role = "load"
        second.thing = second.thing or "pair"
        del item.numbers[at], item.ops[at]


def roles_of(item: Item, setting: Setting) -> tuple[str, ...]:
    roles = [role_of(term, setting.measure) for term in item.numbers]
    if item.lone_x and not roles[0]:
        roles[0] = "R"
    return tuple(roles)


class Builder:
    """Turns the items of one entry into drafts, for one way of giving parts to numbers."""

    def __init__(self, setting: Setting, unit: Unit) -> None:
        self.setting, self.unit = setting, unit
        self.drafts: list[Draft] = []
        self._load: Load | None = None
        self._load_words: Term | None = None
        self._waiting: list[Term] = []
        self._sets = 0
        self._dropping = False
        self._alike = False
        self._since_then = 0  # how many drafts there were when "then" was said last
        self._warming: Term | None = None
        self.trouble = ""
        self.last_item: Item | None = None  # of the entry, where the caller has told it

    def add(self, item: Item, way: str) -> None:
        loads = [term for term, role in zip(item.numbers, way, strict=False) if role == "L"]
        sets = [int(term.number) for term, role in zip(item.numbers, way, strict=False) if role == "S"]
        efforts = [term for term, role in zip(item.numbers, way, strict=False) if role == "E"]
        counts = [(place, term) for place, (term, role) in enumerate(zip(item.numbers, way, strict=False)) if role == "R"]
        load, words = self._load_said(item, loads)
        self._begin_drop(item)
        if item.has("$") or (
            item.has("^") and load is not None and load.bands and (self.drafts or self._load is not None or len(item.numbers) > 0)
        ):
            self.trouble = "which_one"
        if counts:
            self._counted(item, counts, load, words, sets[0] if sets else 0)
        elif load is not None:
            self._only_load(load, words, item)
        if loads and counts and loads[0].bare and loads[0].each and self.setting.style not in (LoadStyle.BARBELL, LoadStyle.PAIR):
            self.trouble = "which_one"  # "20 each side 10"
        if sets and not counts:
            self._sets = sets[0]
            if len(self.drafts) == 1 and load is None and 1 < sets[0] <= 10:
                self.drafts = [self.drafts[0].twin() for _ in range(sets[0])]  # "9 each, three times"
                self._sets = 0
                for mark in item.marks:
                    apply_mark(mark, self.drafts)
        for term in efforts:
            self._mark_last(term)
        if item.set_number and not counts:
            self._waiting.append(Term("#", "", item.start, item.end, Decimal(item.set_number)))

    @property
    def load_had_unit(self) -> bool:
        """Was the load said with its unit, so that no bare number is another one?"""
        return self._load_words is not None and self._load_words.unit is not None

    @property
    def has_load(self) -> bool:
        return self._load is not None

    def _begin_drop(self, item: Item) -> None:
        """ "drop", "drop set" are drops; "dropped to", "down to" may be a lighter next set just as well."""
        if item.before == "d":
            if (
                "straight" in item.drop_word
                or item.drop_word.startswith(("drop set", "drop - set", "dropset", "drop to", "then drop to"))
                or (self.drafts and "dropped" in item.drop_word)  # behind a set of the same text
                or item.drop_word
                in (
                    "drop",
                    "drops",
                )
            ):
                self._dropping = True
            else:
                item.before = "h"
                self._dropping = self._dropping or (bool(self.drafts) and self._drop_prescribed())

    def _load_said(self, item: Item, loads: list[Term]) -> tuple[Load | None, Term | None]:
        load, trouble = load_of(loads[0] if loads else None, item.marks, self.setting, self.unit)
        warming = item.has("W") or self._warming is not None or any(mark.kind == "W" for mark in self._waiting)
        if trouble and not (trouble == "bar" and warming):
            self.trouble = trouble
        words = loads[0] if loads else next((mark for mark in item.marks if mark.kind in "Bcb0"), None)
        return load, words if load is not None else None

    def _only_load(self, load: Load, words: Term | None, item: Item) -> None:
        if item.has("^") and self.drafts:
            self.trouble = "which_one"  # "6, 6, 5 (red band on the last)"
        loadless = [draft for draft in self.drafts if draft.load is None]
        if loadless and len(loadless) == len(self.drafts) and not self._dropping:
            for draft in loadless:
                draft.load, draft.load_words = load, words
            self.trouble = "" if self.trouble == "missing_help" else self.trouble  # "assisted 4, yellow band"
        self._load, self._load_words = load, words
        self._marks(item, [])

    def _counted(self, item: Item, counts: list[tuple[int, Term]], load: Load | None, words: Term | None, sets: int) -> None:
        said_here = load is not None
        if item.before == "h":
            self._since_then = len(self.drafts)
        if load is None:
            load, words = self._load, self._load_words
        elif (
            (item.ops or load.bands)
            and self.drafts
            and not self._dropping
            and not (load.bands and self.setting.helped and item.before == "h")  # "4 then 3 with the band": help began then
            and all(draft.load is None for draft in self.drafts)
            and _load_comes_last(item, counts, words)
        ):
            for draft in self.drafts:
                draft.load, draft.load_words = load, words
        self._load, self._load_words = load, words
        fresh = self._drafts_of(item, counts)
        if said_here and item.before in (",", "&") and _load_comes_last(item, counts, words) and set(item.ops) <= set("w@"):
            self._shared_back(load, words)
        for draft in fresh:
            draft.load, draft.load_words, draft.carried = load, words, not said_here
            draft.start = min(draft.start, words.start) if words and said_here else draft.start
        if self._dropping and self.drafts and self._is_drop(item, load, fresh):
            self._drop(fresh)
            return
        if item.before == "h" and said_here and self.drafts and self._may_be_drop(load):
            if self._drop_prescribed():
                self._drop(fresh)
                return
            if len(self.drafts) >= len(self.setting.free_numbers) > 0:
                self._drop(fresh)  # no set is left that it could be
                return
            self.trouble = "drop_or_next"
        if self._dropping and item.before == "d" and not self.drafts:
            pass  # "drop set: 20x12, 15x10": the first is the set
        if self._and_another(item, fresh, said_here=said_here):
            self.trouble = "sides_or_sets"
        first_joined = self._completes_side(fresh)
        if first_joined:
            fresh = fresh[1:]
        if fresh and item.set_number:
            fresh[0].number = item.set_number
        times = sets or (self._sets if len(fresh) == 1 and not first_joined else 0)
        if len(fresh) == 1 and item.has("*") and not times and not self.drafts and not item.set_number:
            times = max(1, len(self.setting.free_numbers))
        if self._warming and fresh and item.before in (",", "&", "", " ") and self._still_warming(item, load):
            self._waiting.append(self._warming)
        warm_up = next((mark for mark in (*self._waiting, *item.marks) if mark.kind == "W"), None)
        behind = warm_up is not None and warm_up.start > counts[-1][1].start  # "40x8 warm-up, 60x5": said of that one
        self._warming = None if behind and warm_up not in self._waiting else warm_up
        whole = fresh * min(times, 20) if len(fresh) == 1 and times > 1 else fresh
        copies = whole if whole is fresh else [draft.twin() for draft in whole]
        if times and len(fresh) > 1 and times != len(fresh):
            self.trouble = "sets_and_counts"
        self._sets = 0
        self.drafts += copies
        self._waiting_onto(copies)
        self._marks(item, copies)

    def _shared_back(self, load: Load | None, words: Term | None) -> None:
        """ "15 with 5s then 12 and 12 with the 8s": after then, the load at the end is that of the counts since."""
        since = self.drafts[self._since_then :] if self._since_then else []
        if since and all(draft.carried for draft in since):
            for draft in since:
                draft.load, draft.load_words = load, words

    def _still_warming(self, item: Item, load: Load | None) -> bool:
        """ "w/u 60x5 100x3, top 140x4": warm-ups go on while the load rises, until work sets are named or their load is reached."""
        if item.has("1"):
            return False
        last = self.drafts[-1].load if self.drafts else None
        if load is None or load.kg is None or last is None or last.kg is None:
            return item.before != " "
        work = max((kg for kg, _ in self.setting.known_loads), default=0.0)
        several = self._warming is not None and self._warming.text in _WARM_UPS  # "warm-ups 20x10, 40x5": all of them
        if not work and not several and item is self.last_item:
            if load.kg >= _WORK_BEGINS * last.kg:
                return False  # "wu 40x8, 110x6": what comes last and far heavier is the work
            low = self.setting.targets[0].low if self.setting.targets else None
            if low is not None and any(term.number >= low for term in item.numbers[-1:]):
                self.trouble = self.trouble or "warm_or_work"  # as many reps as the work has
        return load.kg > last.kg and not (work and float(load.kg) > 0.9 * work)

    def _waiting_onto(self, drafts: list[Draft]) -> None:
        for mark in self._waiting:
            if mark.kind == "#" and drafts:
                drafts[0].number = int(mark.number)
            else:
                apply_mark(mark, drafts)
        self._waiting = []

    def _drafts_of(self, item: Item, counts: list[tuple[int, Term]]) -> list[Draft]:
        """Counts to drafts: the two sides of a set together, bouts summed, "12,5" where it is a list of two."""
        made: list[Draft] = []
        if self._both_alike(item, counts):
            counts = counts[:1]
        bouts = (
            len(counts) > 1 and all(item.ops[place - 1] == "+" for place, _ in counts[1:]) and not any(t.side for _, t in counts)
        )
        if self._sides_or_sets(item, counts):
            self.trouble = "sides_or_sets"
        if bouts and not item.has("Z") and self._rather_sets([term for _, term in counts]):
            bouts = False
        if bouts and any(mark.kind in "bc" for mark in item.marks) and not self.setting.needs_load:
            self.trouble = "which_one"  # "5 strict + green band 4"
        if bouts and item.has("?"):
            self.trouble = "which_one"  # "13 + 5 whatnots"
        if bouts and self.setting.sided and len(counts) == 2 and not item.has("Z"):
            self.trouble = "sides_or_bouts"
        if bouts:
            values = tuple(int(term.number) for _, term in counts)
            draft = _counted_draft(counts[0][1], self.setting)
            draft.count, draft.bouts, draft.end = sum(values), values, counts[-1][1].end
            return [draft]
        for _, term in counts:
            if term.side and made and _other_side_open(made[-1], term.side):
                _give_side(made[-1], term)
                continue
            if term.comma and term.value is not None and term.value != term.value.to_integral_value():
                whole, fraction = term.text.split("s")[0].split(",")
                for part in (whole, fraction):
                    draft = _counted_draft(term, self.setting)
                    draft.count, draft.partials = int(part), 0
                    made.append(draft)
                continue
            made.append(_counted_draft(term, self.setting))
        return made

    def _rather_sets(self, terms: list[Term]) -> bool:
        """ "60 kg: 10 + 10 + 9": each of them is a whole set of what is prescribed, and so many are left."""
        target = self.setting.target(1)
        if target is None or target.low is None or len(terms) > len(self.setting.free_numbers):
            return False
        whole = sum(term.number for term in terms) <= (target.high or target.low) * Decimal("1.5")
        return min(term.number for term in terms) >= target.low and not (len(terms) == 2 and whole)

    def _both_alike(self, item: Item, counts: list[tuple[int, Term]]) -> bool:
        """ "10 and 10", "8/8" on a one-sided exercise: one set, the same on both sides."""
        bare = len(counts) == 2 and all(not term.side and not term.each for _, term in counts)
        joined = bare and counts[1][0] == counts[0][0] + 1 and item.ops[counts[0][0]] in "/&+"
        if (self.drafts and not self._alike) or (joined and (item.has("E") or any(term.each for _, term in counts))):
            return False  # "12 kg: 20, 20 and 20": the list goes on
        self._alike = joined
        return joined and self.setting.sided and counts[0][1].number == counts[1][1].number

    def _sides_or_sets(self, item: Item, counts: list[tuple[int, Term]]) -> bool:
        """ "9/11" on a one-sided exercise of several sets: two sides of one set, or two sets."""
        bare = len(counts) == 2 and all(not term.side and not term.each for _, term in counts)
        if bare and self.setting.session and len(self.setting.free_numbers) == 2:
            return False  # a whole session is told: two counts are its two sets
        if bare and counts[0][1].number == counts[1][1].number and item.ops[counts[0][0]] in "/&":
            return False  # "10 and 10": both sides the same
        if bare and item.ops[counts[0][0]] == " " and counts[0][1].number == counts[1][1].number:
            return self.setting.sided and len(self.setting.free_numbers) > 1 and not self.drafts
        slash = bare and counts[1][0] == counts[0][0] + 1 and item.ops[counts[0][0]] in "/&"
        return slash and self.setting.sided and not item.has("E") and len(self.setting.free_numbers) > 1 and not self.drafts

    def _and_another(self, item: Item, fresh: list[Draft], *, said_here: bool) -> bool:
        """ "40 lb 10 and 10" on a one-sided exercise: the other side, or the next set."""
        if not self.setting.sided or item.before != "&" or said_here or len(self.drafts) != 1 or len(fresh) != 1:
            return False
        if self.setting.session and len(self.setting.free_numbers) == 2:
            return False
        told = [self.drafts[0], fresh[0]]
        if (
            told[0].count is not None
            and told[0].count == told[1].count
            and not item.set_number
            and not any(t.each for d in told for t in d.count_words)
        ):
            fresh.clear()  # "40 lb 10 and 10": the same on the other side
            return False
        return (
            all(draft.count is not None and not any(term.each for term in draft.count_words) for draft in told)
            and not item.set_number
        )

    def _completes_side(self, fresh: list[Draft]) -> bool:
        """ "left 9, right 7": the second item gives the other side of the set before."""
        if not (self.drafts and fresh):
            return False
        side = "L" if fresh[0].left is not None else "R" if fresh[0].right is not None else ""
        if not side or fresh[0].count is not None or not _other_side_open(self.drafts[-1], side):
            return False
        if side == "L":
            self.drafts[-1].left = fresh[0].left
        else:
            self.drafts[-1].right = fresh[0].right
        self.drafts[-1].end = max(self.drafts[-1].end, fresh[0].end)
        self.drafts[-1].about = self.drafts[-1].about or fresh[0].about
        if self.drafts[-1].load is None:
            self.drafts[-1].load, self.drafts[-1].load_words = fresh[0].load, fresh[0].load_words
        return True

    def _is_drop(self, item: Item, load: Load | None, fresh: list[Draft]) -> bool:
        last = self._lightest()
        if load is None or last is None or load.amount is None or last.amount is None:
            return True
        return load.amount < last.amount

    def _may_be_drop(self, load: Load | None) -> bool:
        last = self._lightest()
        if load is None or last is None:
            return load is not None and self.drafts[-1].load is None and self._lighter_than_known(load)
        if load.amount is None or last.amount is None or load.unit is not last.unit:
            return False
        return load.amount <= last.amount * _LIGHTER

    def _lighter_than_known(self, load: Load) -> bool:
        before = self.setting.load_before(99)
        known = float(before.kg) if before and before.kg else max((kg for kg, _ in self.setting.known_loads), default=0.0)
        return load.kg is not None and known > 0 and float(load.kg) <= known * float(_LIGHTER)

    def _lightest(self) -> Load | None:
        last = self.drafts[-1]
        return last.drops[-1].load if last.drops else last.load

    def _drop_prescribed(self) -> bool:
        number = self.drafts[-1].number or (self.setting.free_numbers[:1] or (1,))[0]
        target = self.setting.target(number)
        return bool(target and (target.drops or target.kind is SetKind.BURNOUT)) or any(t.drops for t in self.setting.targets)

    def _drop(self, fresh: list[Draft]) -> None:
        last = self.drafts[-1]
        last.drops += tuple(DropDone(draft.load, draft.count) for draft in fresh)
        last.end = max(last.end, *(draft.end for draft in fresh))
        self._load = last.load

    def _marks(self, item: Item, fresh: list[Draft]) -> None:
        for mark in item.marks:
            if mark.kind == "d":
                continue
            if mark.kind == "Z":
                continue
            if mark.kind == "W" and mark.text in _WARM_UPS and fresh and mark.start > fresh[-1].end - 1:
                apply_mark(mark, self.drafts)  # "bar x10, 60x5, 80x3 warm-ups": all of them
                continue
            if fresh:
                apply_mark(mark, fresh)
            elif self.drafts:
                # Said after several sets: form and effort speak of the last; a tempo kept, of all.
                apply_mark(mark, self.drafts if mark.kind == "t" else self.drafts[-1:])
            else:
                self._waiting.append(mark)

    def _mark_last(self, term: Term) -> None:
        if self.drafts:
            self.drafts[-1].rpe = term.number

    def note_marks(self, item: Item) -> None:
        """An item without numbers: its marks go to the set before it, or wait for the next."""
        self._begin_drop(item)
        if item.set_number:
            self._waiting.append(Term("#", "", item.start, item.end, Decimal(item.set_number)))
        load, words = self._load_said(item, [])
        if load is not None:
            self._only_load(load, words, item)
        else:
            self._marks(item, [])


def _load_comes_last(item: Item, counts: list[tuple[int, Term]], words: Term | None) -> bool:
    return words is not None and words.start > counts[0][1].start


def _counted_draft(term: Term, setting: Setting) -> Draft:
    value, measure = _measured(term, setting)
    draft = Draft(measure=measure, about=term.about, start=term.start, end=term.end, count_words=[term])
    if measure in (None, Measure.REPS) and setting.measure is Measure.REPS and term.number - value == Decimal("0.5"):
        draft.partials = 1  # "5 and a half"
    if term.side == "L":
        draft.left = value
    elif term.side == "R":
        draft.right = value
    else:
        draft.count = value
    return draft


def _measured(term: Term, setting: Setting) -> tuple[int, Measure | None]:
    """A count and its measure; "40m" is metres where metres are counted, else minutes."""
    if term.role == "minutes_or_metres":
        if setting.measure in (Measure.METRES, Measure.STEPS):
            return int(term.number), Measure.METRES
        return int(term.number * 60), Measure.SECONDS
    if term.measure is Measure.STEPS and setting.measure is Measure.REPS and "step" in (setting.exercise_id or ""):
        return int(term.number), Measure.REPS  # "8 steps each leg", of step-ups
    return int(term.number), term.measure


def _give_side(draft: Draft, term: Term) -> None:
    if term.side == "L":
        draft.left = int(term.number)
    else:
        draft.right = int(term.number)
    draft.end = max(draft.end, term.end)
    draft.about = draft.about or term.about
    draft.count_words.append(term)


def _other_side_open(draft: Draft, side: str) -> bool:
    if draft.count is not None:
        return False
    return (draft.left is None and draft.right is not None) if side == "L" else (draft.right is None and draft.left is not None)


def apply_mark(mark: Term, drafts: Sequence[Draft]) -> None:
    """Put what a mark says onto the drafts; effort and failure of a list belong to its last set."""
    if not drafts:
        return
    same = all(draft.count_words == drafts[0].count_words for draft in drafts)  # "3x12 rpe 8": every set
    last = drafts if same else drafts[-1:]
    kind = mark.kind
    if kind == "n" and mark.role == "rpe":
        for draft in last:
            draft.rpe = mark.number
    elif kind == "n" and mark.role == "rir":
        for draft in last:
            draft.rir = mark.number
    elif kind == "n" and mark.partial:
        last[-1].partials += int(mark.number)
    elif kind == "F":
        for draft in last:
            draft.failure = True
    elif kind in "gG":
        for draft in last:
            draft.form_kept = kind == "g"
    elif kind in "tT":
        for draft in drafts if kind == "t" else last:
            draft.tempo_kept = kind == "t"
    elif kind == "W":
        for draft in drafts:
            draft.kind = SetKind.WARM_UP
    elif kind == "M":
        for draft in drafts:
            if draft.count is None:
                value = draft.left if draft.left is not None else draft.right
                draft.left, draft.right = value, value
    elif kind in "aY":
        drafts[-1].about = True
    if kind in "FgGtTn":
        last[-1].end = max(last[-1].end, mark.end)


def load_of(term: Term | None, marks: Sequence[Term], setting: Setting, unit: Unit) -> tuple[Load | None, str]:
    """The load that a number and the words around it say, and a code of trouble ("bar": the bar's own weight is not known)."""
    kinds = {mark.kind for mark in marks}
    helped = "q" in kinds and not setting.needs_load  # "spotter helped on the last" says nothing of the load
    if term is None:
        if "0" in kinds and setting.style not in (LoadStyle.BODY, LoadStyle.NONE, LoadStyle.BAND):
            bar = setting.situation.kit.bar
            return (Load(LoadKind.IMPLEMENT, bar[0], bar[1]), "") if bar else (None, "bar")
        names = band_names(marks, setting)
        if names:
            kind = LoadKind.ASSISTED if helped or setting.helped else LoadKind.BAND
            return Load(kind, bands=names), ""
        if (
            setting.style is LoadStyle.BARBELL
            and any(mark.kind == "I" and mark.text == "barbell" for mark in marks)
            and setting.situation.kit.bar
        ):
            return Load(LoadKind.IMPLEMENT, *setting.situation.kit.bar), ""
        if helped and not setting.needs_load and "B" not in kinds:
            return None, "missing_help"  # "6 assisted": by which band?
        return (BODY_WEIGHT, "") if "B" in kinds else (None, "")
    own_unit = term.unit or unit
    amount = term.number
    if amount <= 0:
        return None, ""
    thing = term.thing if term.thing != "pair" else ""
    thing = thing or next((mark.text for mark in marks if mark.kind == "I"), "")
    implement = thing or None
    style = setting.style
    if term.sign == "-" or helped:
        return Load(LoadKind.ASSISTED, amount, own_unit), ""
    if style is LoadStyle.BARBELL and "P" in kinds and not term.unit and amount <= _MOST_PLATES:
        bar = setting.situation.kit.bar or _USUAL_BAR[own_unit]
        if bar[1] is own_unit:
            return Load(LoadKind.IMPLEMENT, bar[0] + 2 * amount * _LARGEST_PLATE[own_unit], own_unit), "plates"
    on_bar = style is LoadStyle.BARBELL and bool(kinds & {"0", "P"} or thing in ("barbell", "plate"))
    if term.sign == "+" and on_bar and not (term.each or term.hand or "E" in kinds):
        return None, "bar"  # "bar + 20": whether on each side is not said
    if term.sign == "+" and not term.unit and "?" in kinds and not setting.needs_load:
        return Load(LoadKind.ADDED, amount, own_unit, implement=implement), "which_one"  # "7 + 2 whatnots"
    if (term.sign == "+" and not on_bar) or "Q" in kinds or style in (LoadStyle.BODY, LoadStyle.NONE) or "B" in kinds:
        return Load(LoadKind.ADDED, amount, own_unit, implement=implement), ""
    if (
        style is LoadStyle.BARBELL
        and (term.each or term.hand or ("E" in kinds and term.role == "load"))
        and thing in ("", "barbell", "plate")
    ):
        bar = setting.situation.kit.bar
        if bar is None:
            return None, "bar"
        if bar[1] is not own_unit:
            return None, "bar"
        return Load(LoadKind.IMPLEMENT, bar[0] + 2 * amount, own_unit), ""
    pair = style is LoadStyle.PAIR or term.thing == "pair"
    if term.total and pair:
        amount = amount / 2
    return Load(LoadKind.IMPLEMENT, amount, own_unit, pair=pair, implement=implement), ""


def band_names(marks: Sequence[Term], setting: Setting) -> tuple[str, ...]:
    """Band names as the member's kit has them; a strength word counts only where a band is spoken of or used."""
    banded = any(mark.kind == "b" for mark in marks) or setting.style is LoadStyle.BAND
    own = {name.casefold(): name for name in setting.situation.kit.bands}
    own |= {word: own[meant] for word, meant in COLOURS.items() if meant in own and word not in own}
    if not banded and not (setting.helped and own):
        return ()
    found = [own.get(mark.text, mark.text) for mark in marks if mark.kind == "c" and (banded or mark.text in own)]
    if any(name.casefold() in own for name in found):
        found = [name for name in found if name.casefold() in own or name not in _STRENGTHS]  # "green, heavy today"
    return tuple(dict.fromkeys(found))
