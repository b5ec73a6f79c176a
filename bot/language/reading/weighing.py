"""How likely is each way to give an entry's numbers their parts?

Every way is weighed: how often people mean it so (grammar.py), times how well its numbers fit the prescription, this member's
loads and the kit (ranking.py). Ways that come to the same sets are one.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from itertools import product

from bot.language.reading.drafts import Builder, Draft, roles_of
from bot.language.reading.grammar import Entry, Item, shapes
from bot.language.reading.ranking import LIGHTEST_BAR, fit_count, fit_load, fit_sets
from bot.language.reading.setting import Setting
from bot.language.reading.terms import Term
from bot.language.situation import Situation
from bot.training.blocks import Measure, SetKind
from bot.training.exercises.entry import LoadStyle
from bot.training.loads import LoadKind, Unit

Kind = tuple[tuple[str, ...], tuple[str, ...]]  # what the words say of each number, and what stands between them
_MOST_WAYS = 48
_OTHER_MEASURE = 5.0  # and seldom seconds where steps or reps are counted
_AS_THE_OTHERS = 1.2  # log weight: one text is written in one way
_LOAD_AGAIN = 1.0  # log weight: most sets are done with the load of the set before, or of this set last time
_AS_MANY_AS_LEFT = 0.5  # log weight: as many counts as sets are left
_NO_CHANCE = 3.5  # log weight: a way so far behind the best one holds less than three parts in a hundred
_SELDOM = 4.0  # log weight: ways meant so much seldomer than the commonest are looked at only where that one
_FITS_BADLY = -4.0  # hardly fits
_MOST_WARM_UP_REPS = 20  # common practice
_LENGTHS = frozenset((Measure.STEPS, Measure.METRES))
HABITS = {"x": "times", " ": "bare_pair"}  # the sign between two numbers: which habit it is about
_HABIT_WAYS = {"load_reps": "LR", "reps_load": "RL", "sets_reps": "SR"}


@dataclass(slots=True)
class Way:
    score: float
    drafts: list[Draft]
    trouble: str
    parts: tuple[str, ...]


def ways_of(entry: Entry, setting: Setting, unit: Unit, situation: Situation) -> list[Way]:
    """All ways to give the entry's numbers their parts, each weighed; items of one shape are read alike. The best first."""
    keys: list[Kind | None] = []
    for item in entry.items:
        keys.append((roles_of(item, setting), tuple(item.ops)) if item.numbers else None)
    kinds = list(dict.fromkeys(key for key in keys if key is not None))
    choices = [shapes(*kind, _all_small(kind, keys, entry)) for kind in kinds]
    if not all(choices):
        return []
    while _product(choices) > _MOST_WAYS:
        longest = max(range(len(choices)), key=lambda n: len(choices[n]))
        choices[longest] = choices[longest][:-1]
    if len(kinds) == 1 and entry.is_two_numbers:
        return _likely_ways(entry, keys, kinds[0], choices[0], setting, unit, situation)
    likely = [tuple(one for one in each if one[0] >= each[0][0] - _SELDOM) for each in choices]

    def weighed(combinations: Iterable[tuple[tuple[float, str], ...]]) -> list[Way]:
        return [
            _weighed(entry, keys, dict(zip(kinds, combination, strict=True)), setting, unit, situation)
            for combination in combinations
        ]

    ways = weighed(product(*likely))
    if likely != choices and max(way.score for way in ways) < _FITS_BADLY:
        usual = set(product(*likely))
        ways += weighed(each for each in product(*choices) if each not in usual)
    ways.sort(key=lambda way: -way.score)
    return _distinct(ways)


def _likely_ways(
    entry: Entry,
    keys: list[Kind | None],
    kind: Kind,
    choices: tuple[tuple[float, str], ...],
    setting: Setting,
    unit: Unit,
    situation: Situation,
) -> list[Way]:
    """The ways to read two numbers. Only those that have a chance are built; of the others a bound of the weight is kept.

    It comes to the same as weighing all of them, in half the time: "20x12" is what members send most.
    """
    item = entry.items[0]
    ways = [_weighed(entry, keys, {kind: choices[0]}, setting, unit, situation)]
    others = [(_at_most(way, log_share, item, setting, unit, situation), log_share, way) for log_share, way in choices[1:]]
    left_out: list[Way] = []
    for bound, log_share, way in sorted(others, reverse=True):
        if bound < max(other.score for other in ways) - _NO_CHANCE:
            left_out.append(Way(bound, [], "", (way,)))
        else:
            ways.append(_weighed(entry, keys, {kind: (log_share, way)}, setting, unit, situation))
    ways.sort(key=lambda way: -way.score)
    return [*_distinct(ways), *left_out]


def _at_most(way: str, log_share: float, item: Item, setting: Setting, unit: Unit, situation: Situation) -> float:
    """No less than the weight that `_weighed` would find for this way to read two numbers."""
    weight = log_share + _habit(way, item, situation)
    first = setting.target(setting.free_numbers[0] if setting.free_numbers else len(setting.targets))
    for term, role in zip(item.numbers, way, strict=True):
        if role == "S":
            weight += fit_sets(term.number, setting) + _AS_MANY_AS_LEFT
        elif role == "R" and not term.comma:
            weight += fit_count(term.number, first, setting) if term.measure is None else 0.0
        elif role == "L":
            weight += fit_load(term.number, term.unit or unit, setting) + _LOAD_AGAIN if setting.needs_load else 0.0
    return weight


def _all_small(kind: Kind, keys: list[Kind | None], entry: Entry) -> tuple[bool, ...]:
    """Which numbers are small in every item of this kind."""
    alike = [item.numbers for item, key in zip(entry.items, keys, strict=True) if key == kind]
    return tuple(all(_small(term) for term in column) for column in zip(*alike, strict=True))


def _product(choices: list[tuple[tuple[float, str], ...]]) -> int:
    total = 1
    for choice in choices:
        total *= len(choice)
    return total


def _small(term: Term) -> bool:
    value = term.number
    return value <= 10 and value * 2 == int(value * 2)


def _weighed(
    entry: Entry,
    keys: list[Kind | None],
    chosen: dict[Kind, tuple[float, str]],
    setting: Setting,
    unit: Unit,
    situation: Situation,
) -> Way:
    builder = Builder(setting, unit)
    builder.last_item = next((item for item in reversed(entry.items) if item.numbers), None)
    score = 0.0
    sided = any(term.side for item in entry.items for term in item.numbers)
    parts: list[str] = []
    for item, key in zip(entry.items, keys, strict=True):
        if key is None:
            builder.note_marks(item)
            continue
        log_share, way = chosen[key]
        score += (log_share + _habit(way, item, situation)) / (1 if len(entry.items) < 4 else 2)
        parts.append(way)
        if way == "RL" and item.ops == ["x"] and item.numbers[0].bare and item.numbers[0].number > item.numbers[1].number:
            score -= 0.6  # "12x10": the count first is rare, and rarer where it is the larger number
        if way == "L" and _counts_follow(entry, item):
            score += 1.5
        if way == "L" and item.numbers[0].bare and builder.load_had_unit and item.before in (",", "&"):
            score -= 2.5  # "16 kg: 40, 40": the load is said already
        if (
            way == "LR"
            and item.ops == ["x"]
            and builder.load_had_unit
            and item.before in (",", "&", ":")
            and item.numbers[0].number <= 6
        ):
            score -= 2.5  # "12 kg, 3 x 11"
        if way.endswith("RS") and item.ops[-1] == "x" and int(item.numbers[-2].number) == len(setting.free_numbers) > 1:
            score -= 2.0  # "115 5x4" where five sets are left: the usual order is sets, then reps
        if set(way) == {"S", "L"}:
            score -= 2.0  # "4 with 85": four sets of which nobody says how many reps
        if way == "RR" and setting.needs_load and item.ops == [" "] and item.numbers[0].bare and item.numbers[1].role:
            score -= 2.0  # "16 18 reps": the unit is said of what is counted
        if way == "L" and item.numbers[0].bare and _load_follows(entry, item):
            score -= 4.0  # "40, 40, 40 m (14 kg)"
        if way == "L" and item.before == "h" and item.numbers[0].bare and builder.drafts and not builder.has_load:
            score -= 2.5  # "14 s then 12": what is counted goes on
        if setting.load_first and way.startswith("LR") and not builder.drafts:
            score += _AS_THE_OTHERS
        for term, role in zip(item.numbers, way, strict=True):
            if role == "S":
                score += fit_sets(term.number, setting)
            elif role == "E" and not 5 <= term.number <= 10:
                score -= 4.0
            elif role == "E" and not term.role and "L" not in way and setting.needs_load and setting.load_before(99) is None:
                score -= 1.5  # "12 @ 8" where no load is known: it is told now
            elif role == "R" and term.measure is None and not _countable(term):
                score -= 30.0
            elif role == "R" and not term.role and len(item.numbers) == 1 and _measured_after(entry, item):
                score -= 4.0  # "22, 40 m": what has no unit is rather the load
            elif role == "R" and not term.role and len(item.numbers) == 1 and setting.needs_load and _counted_next(entry, item):
                score -= 1.0  # "16, 12 reps"
            elif role == "R" and not term.side and not term.role and sided:
                score -= 3.0
        if builder.has_load and item.ops and _bare_load_in_list(item, way) and not _pair_after_pair(entry, item):
            score -= 2.5  # the load is said already
        elif (
            "L" in way
            and item.ops
            and item.numbers[way.index("L")].bare
            and set(item.ops) <= {" ", ",", "&"}
            and _load_follows(entry, item)
        ):
            score -= 4.0  # "12 12 and 12 with 12kg": it is said at the end
        builder.add(item, way)
    drafts = builder.drafts
    if drafts and _names_own_band(entry, situation) and not any(draft.load is not None and draft.load.bands for draft in drafts):
        score -= 4.0  # one of the member's bands is named, and no band is used here
    if not drafts and len(entry.items) > 1:
        score -= 2.0
    score += _fit(drafts, setting, unit)
    return Way(score, drafts, builder.trouble, tuple(parts))


def _bare_load_in_list(item: Item, way: str) -> bool:
    """ "24kg, 15 15 12": is one of the bare numbers of a list, first or last, taken for a load?"""
    place_ = way.find("L")
    ends = place_ in (0, len(way) - 1) and item.numbers[place_].bare if place_ >= 0 else False
    return ends and (item.ops[0] if place_ == 0 else item.ops[-1]) in " ,&/-"


def _names_own_band(entry: Entry, situation: Situation) -> bool:
    colours = {mark.text for item in entry.items for mark in item.marks if mark.kind == "c"}
    return bool(colours) and not colours.isdisjoint(name.casefold() for name in situation.kit.bands)


def _counts_follow(entry: Entry, item: Item) -> bool:
    """ "used 20, 12 reps": a number alone, and a certain count in the item after it."""
    place_ = next(n for n, other in enumerate(entry.items) if other is item)
    following = entry.items[place_ + 1] if place_ + 1 < len(entry.items) else None
    return following is not None and any(term.role == "count" for term in following.numbers)


def _measured_after(entry: Entry, item: Item) -> bool:
    """Does a length or a time follow, told with its unit?"""
    after = [other for other in entry.items if other is not item]
    return any(
        t.measure not in (None, Measure.REPS) or t.role == "minutes_or_metres"
        for other in after
        if len(other.numbers) == 1
        for t in other.numbers
    )


def _counted_next(entry: Entry, item: Item) -> bool:
    """Is the next item, and the last, one count told with its unit?"""
    return entry.items[0] is item and len(entry.items) == 2 and [t.role for t in entry.items[1].numbers] == ["count"]


def _pair_after_pair(entry: Entry, item: Item) -> bool:
    """ "100 5, 105 5": a load and a count, as in the item before."""
    before = next((other for other, this in itertools.pairwise(entry.items) if this is item), None)
    if before is None or len(item.numbers) != 2 or len(before.numbers) != 2:
        return False
    (load, count), (load_before, _) = ([term.number for term in each.numbers] for each in (item, before))
    return load >= 2 * count and 2 * load >= load_before


def _load_follows(entry: Entry, item: Item) -> bool:
    """Do the entry's last words say a load for counts before them, and is none said elsewhere?"""
    last = entry.items[-1]
    if last is item or not last.numbers or last.numbers[-1].role != "load" or (last.ops and last.ops[-1] not in "w@"):
        return False
    return sum(term.role == "load" for other in entry.items for term in other.numbers) == 1


def _countable(term: Term) -> bool:
    return term.value is not None and (term.comma or term.value == term.value.to_integral_value()) and term.value >= 0


def _habit(way: str, item: Item, situation: Situation) -> float:
    """What this member's earlier answers taught outweighs what people mean in general."""
    if len(way) != 2 or not item.ops or any(term.role for term in item.numbers):
        return 0.0
    name = HABITS.get(item.ops[0])
    habit = getattr(situation.habits, name) if name else ""
    if not habit:
        return 0.0
    return 2.5 if _HABIT_WAYS.get(habit) == way else -1.0


def _fit(drafts: list[Draft], setting: Setting, unit: Unit) -> float:
    """How well the drafts fit; of many sets, the mean counts as three."""
    if not drafts:
        return -1.0 if setting.needs_load else -4.0
    counts = 0.0
    free = setting.free_numbers
    for place_, draft in enumerate(drafts):
        number = draft.number or (free[place_] if place_ < len(free) else len(setting.targets))
        if draft.kind is SetKind.WARM_UP:
            counts -= 2.0 if (draft.count or 0) > _MOST_WARM_UP_REPS else 0.0
            continue
        values = list(draft.count_words) or []
        value = draft.count if draft.count is not None else draft.left if draft.left is not None else draft.right
        value = draft.bouts[0] if draft.bouts else value  # of rest-pause the first stretch is what was prescribed
        if value is None or not values:
            continue
        counts += fit_count(Decimal(value), setting.target(number), setting)
        target = setting.target(number)
        meant = target.measure if target else setting.measure
        if draft.measure is not None and draft.measure is not meant and not {draft.measure, meant} <= _LENGTHS:
            counts -= _OTHER_MEASURE
    score = counts * min(len(drafts), 3) / len(drafts)
    loads = list(
        dict.fromkeys(
            (d.load.amount, d.load.unit, d.load.kind)
            for d in drafts
            if d.load is not None and d.load.amount is not None and d.load.unit is not None and d.kind is not SetKind.WARM_UP
        )
    )
    for amount, load_unit, kind in loads:
        assert amount is not None and load_unit is not None
        if kind in (LoadKind.IMPLEMENT,):
            score += fit_load(amount, load_unit, setting, thing=_thing(drafts)) / len(loads)
            if _just_as_last_time(drafts[0], setting) or _just_as_before(drafts[0], setting):
                score += _LOAD_AGAIN
        elif setting.style in (LoadStyle.BODY, LoadStyle.NONE) and not setting.has_extra_load() and not _load_was_marked(drafts):
            score -= 4.5 if not (setting.exercise_id or "").startswith("weighted_") else 0.0
    if setting.style is LoadStyle.BAND and loads:
        score -= 4.5 if not _load_was_marked(drafts) else 1.0
    if setting.needs_load and all(draft.load is None for draft in drafts) and setting.load_before(99) is None:
        score -= 0.4
    if len(drafts) == len(free) > 2 and loads and setting.needs_load:
        score += _AS_MANY_AS_LEFT
    extra = len(drafts) - len(free)
    if extra > 0 and len(drafts) != len(setting.targets) and setting.targets:
        score -= 1.2 * extra
    return score


def _just_as_last_time(draft: Draft, setting: Setting) -> bool:
    """Is it the load of this very set last time?"""
    number = draft.number or (setting.free_numbers[0] if setting.free_numbers else 0)
    return any(
        r.place and r.place.number == number and r.done.load and draft.load and r.done.load.kg == draft.load.kg
        for r in setting.last
    )


def _thing(drafts: list[Draft]) -> str:
    """The implement that was named, "" if none was."""
    return next((draft.load.implement for draft in drafts if draft.load is not None and draft.load.implement), "") or ""


def _just_as_before(draft: Draft, setting: Setting) -> bool:
    """Is it the very load of the set before?"""
    before = setting.load_before(99)
    return before is not None and draft.load is not None and before.kg is not None and before.kg == draft.load.kg


def _load_was_marked(drafts: list[Draft]) -> bool:
    return any(
        d.load_words is not None
        and d.load is not None
        and (d.load_words.unit or d.load_words.sign or d.load_words.thing or d.load.implement or d.load_words.kind != "n")
        for d in drafts
    )


def unmarked_extra(drafts: list[Draft], setting: Setting) -> bool:
    """A bare number read as extra load on a body-weight exercise that never had any."""
    extra = any(draft.load is not None and draft.load.kind is LoadKind.ADDED for draft in drafts)
    named = (setting.exercise_id or "").startswith("weighted_")
    return extra and not setting.has_extra_load() and not named and not _load_was_marked(drafts) and not _loaded_today(setting)


def less_than_a_bar(drafts: list[Draft], setting: Setting) -> bool:
    """ "5x5" of a barbell lift of which no load is known: a bare number lighter than any bar."""
    if setting.style is not LoadStyle.BARBELL or setting.known_loads:
        return False
    bare = [
        d.load
        for d in drafts
        if d.load is not None and d.load_words is not None and d.load_words.unit is None and d.kind is SetKind.WORK
    ]
    return any(load.kg is not None and float(load.kg) < LIGHTEST_BAR for load in bare)


def _loaded_today(setting: Setting) -> bool:
    return any(record.done.load is not None and record.done.load.kind is LoadKind.ADDED for record in setting.records)


def _distinct(ways: list[Way]) -> list[Way]:
    """Ways that come to the same sets are one; their weights are near enough that the best one's is taken."""
    seen: set[object] = set()
    kept: list[Way] = []
    for way in ways:
        key = tuple((d.load, d.count, d.left, d.right, d.rpe, d.number, d.drops, d.partials, d.bouts) for d in way.drafts)
        if key not in seen:
            seen.add(key)
            kept.append(way)
    return kept
