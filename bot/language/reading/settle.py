"""Which of all ways to read an entry is meant, and is it sure enough to be put on record?

Every way is weighed: how often people mean it so (grammar.py), times how well its numbers fit the prescription, this member's
loads and the kit (ranking.py). Ways that come to the same sets are one. What is left of doubt becomes one question.
"""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import product

from bot.language.reading.drafts import Builder, Draft, prepare, roles_of
from bot.language.reading.explain import say_done, say_record, say_sets
from bot.language.reading.grammar import Entry, Item, shapes
from bot.language.reading.numbers import NUMBER_WORDS, PLURAL_WORDS
from bot.language.reading.placing import Placed, is_surprising, likely_loads, place
from bot.language.reading.ranking import LIGHTEST_BAR, certainties, fit_count, fit_load, fit_sets
from bot.language.reading.references import planned_counts, told_by_reference
from bot.language.reading.setting import Setting
from bot.language.reading.terms import Term
from bot.language.reading.words import LEXICON
from bot.language.readings import CorrectionHeard, Heard, Option, Question, RepeatHeard, SetsHeard, Why
from bot.language.situation import Situation
from bot.training.blocks import Measure, SetKind, Sides
from bot.training.exercises.entry import LoadStyle
from bot.training.loads import Load, LoadKind, Unit, say_load
from bot.training.records import SetRecord, Source

Kind = tuple[tuple[str, ...], tuple[str, ...]]  # what the words say of each number, and what stands between them
SURE = 0.80  # what is held with less certainty is asked about
_MOST_WAYS = 48
_MOST_NUMBERS = 60  # of one exercise in one text; more is not a record of sets
_SHOWN = 4
_SAID_OF_SETS = frozenset(",urzsimepxfwoh&ELRHCBcbQqIPFgGtTWKZMSVA0")
_COUNT_UNSAID = 3.0  # log weight: people seldom say a load alone
_OTHER_MEASURE = 5.0  # and seldom seconds where steps or reps are counted
_AS_THE_OTHERS = 1.2  # log weight: one text is written in one way
_MOST_WARM_UP_REPS = 20  # common practice
_LENGTHS = frozenset((Measure.STEPS, Measure.METRES))
_HABITS = {"x": "times", " ": "bare_pair"}
_HABIT_WAYS = {"load_reps": "LR", "reps_load": "RL", "sets_reps": "SR"}
_WAY_HABITS = {"LR": "load_reps", "RL": "reps_load", "SR": "sets_reps"}


@dataclass(slots=True)
class Settled:
    """heard: what to carry out. question: where one is needed; then heard_anyway holds what was sure."""

    heard: tuple[Heard, ...] = ()
    certainty: float = 0.0
    question: Question | None = None
    heard_anyway: tuple[Heard, ...] = ()
    why: tuple[Why, ...] = ()
    said: str = ""
    score: float | None = None  # how well it fits, where it was weighed (log weight)
    load_first: bool = False  # was a bare load told before its counts?
    starts: tuple[int, ...] = ()  # where in the text each set stands, where that is known


@dataclass(slots=True)
class Way:
    score: float
    drafts: list[Draft]
    trouble: str
    parts: tuple[str, ...]


def settle_entry(
    entry: Entry, setting: Setting, folded: str, text: str, situation: Situation, *, sure: float, alone: bool
) -> Settled:
    """Read one entry in its setting. sure: below this certainty a question is asked."""
    said = text[entry.start : entry.end]
    unit = _unit_of(entry, situation)
    told = told_by_reference(entry, setting, unit, folded)
    if told is not None:
        drafts, trouble, source = told
        return _referred(drafts, trouble, source, setting, said, entry, folded, text)
    if sum(len(item.numbers) for item in entry.items) > _MOST_NUMBERS:
        return Settled(question=Question("unclear", said[:80], ()), certainty=0.1, said=said)
    prepare(entry, setting)
    ways = _ways(entry, setting, unit, situation)
    if not ways:
        return Settled(question=Question("unclear", said[:80], ()), certainty=0.2, said=said)
    shares = certainties([way.score for way in ways])
    best, share = ways[0], shares[0]
    if not best.drafts:
        counted = _load_without_count(entry, setting, unit, said)
        counted.score = best.score - _COUNT_UNSAID
        return counted
    settled = (
        _between(ways, shares, setting, said, entry)
        if share < sure and len(ways) > 1
        else _placed(best, share, setting, said, folded, text)
    )
    settled.score = best.score
    settled.load_first = settled.question is None and any(part.startswith("LR") for part in best.parts)
    return settled


def _unit_of(entry: Entry, situation: Situation) -> Unit:
    """The unit of loads said without one: that of the others in the entry, else the member's own."""
    said = {term.unit for item in entry.items for term in item.numbers if term.unit is not None}
    return said.pop() if len(said) == 1 else situation.unit


def _ways(entry: Entry, setting: Setting, unit: Unit, situation: Situation) -> list[Way]:
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
    ways: list[Way] = []
    for combination in product(*choices):
        chosen = dict(zip(kinds, combination, strict=True))
        way = _weighed(entry, keys, chosen, setting, unit, situation)
        if way is not None:
            ways.append(way)
    ways.sort(key=lambda way: -way.score)
    return _distinct(ways)


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
) -> Way | None:
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


# What people write between two sets of one exercise. Any other word there may mean that the second number is no set.
_BETWEEN_SETS = frozenset(
    [
        "kgx",
        "lbx",
        "lbsx",
        "repsx",
        "kg",
        "kgs",
        "kilo",
        "kilos",
        "lb",
        "lbs",
        "pound",
        "pounds",
        "x",
        "for",
        "reps",
        "rep",
        "and",
        "then",
        "with",
        "w",
        "set",
        "sets",
        "each",
        "es",
        "e",
        "s",
        "side",
        "sides",
        "on",
        "of",
        "at",
        "the",
        "in",
        "l",
        "r",
        "left",
        "right",
        "n",
        "rest",
        "rested",
        "resting",
        "break",
        "min",
        "mins",
        "minutes",
        "sec",
        "secs",
        "seconds",
        "rpe",
        "rir",
        "bar",
        "warm",
        "up",
        "ups",
        "wu",
        "first",
        "second",
        "third",
        "fourth",
        "fifth",
        "last",
        "one",
        "two",
        "three",
        "four",
        "next",
        "now",
        "top",
        "work",
        "working",
        "got",
        "did",
        "only",
        "just",
        "but",
        "followed",
        "by",
        "i",
        "a",
        "es",
        "per",
        "arm",
        "leg",
        "done",
        "again",
        "also",
        "after",
        "that",
        "it",
        "was",
        "were",
        "drop",
        "dropped",
        "down",
        "to",
        "back",
        "m",
        "metres",
        "meters",
        "steps",
        "failure",
        "fail",
        "hand",
        "hands",
        "dbs",
        "k",
        "both",
        "stack",
    ]
)
_WORDS = re.compile(r"[^\W\d_]+")


def _of_sets(word: str) -> bool:
    """Does the word, or what stands before an x glued to it ("dbsx10"), belong to set talk?"""
    return any(LEXICON.get(each, "?") in _SAID_OF_SETS for each in (word, word.removesuffix("x")))


_AN_ADJECTIVE = re.compile(r"\ban?\s+[a-z]+\s*$")  # "then a sad 8"


def _strange_words_between(drafts: list[Draft], folded: str) -> bool:
    """ "30 x 8, falhei na 9": does something unheard of stand between the counts of two sets?"""
    for one, other in itertools.pairwise(drafts):
        if not one.count_words or not other.count_words or one.count_words[-1] is other.count_words[0]:
            continue
        between = _AN_ADJECTIVE.sub(" ", folded[one.count_words[-1].end : other.count_words[0].start])
        if any(
            word not in _BETWEEN_SETS
            and word.removesuffix("x") not in _BETWEEN_SETS
            and word not in NUMBER_WORDS
            and word not in PLURAL_WORDS
            and not _of_sets(word)
            for word in _WORDS.findall(between)
        ):
            return True
        if (
            re.search(r"[.!?]\s", between)
            and re.search(r"[a-z]", between)
            and not re.search(r"set|then|warm|top|\n|\d\s*[x×*]", between)
        ):
            return True
    return False


_BOTH_SIDES = re.compile(r"\bleft\b(?! in\b).*\bright\b|\bright\b.*\bleft\b(?! in\b)", re.DOTALL)


def _one_side_only(record: SetRecord) -> bool:
    return record.done.count is None and (record.done.left is None) != (record.done.right is None)


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
    name = _HABITS.get(item.ops[0])
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
                score += 1.0
        elif setting.style in (LoadStyle.BODY, LoadStyle.NONE) and not setting.has_extra_load() and not _load_was_marked(drafts):
            score -= 4.5 if not (setting.exercise_id or "").startswith("weighted_") else 0.0
    if setting.style is LoadStyle.BAND and loads:
        score -= 4.5 if not _load_was_marked(drafts) else 1.0
    if setting.needs_load and all(draft.load is None for draft in drafts) and setting.load_before(99) is None:
        score -= 0.4
    if len(drafts) == len(free) > 2 and loads and setting.needs_load:
        score += 0.5  # as many counts as sets are left
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


def _unmarked_extra(drafts: list[Draft], setting: Setting) -> bool:
    """A bare number read as extra load on a body-weight exercise that never had any."""
    extra = any(draft.load is not None and draft.load.kind is LoadKind.ADDED for draft in drafts)
    named = (setting.exercise_id or "").startswith("weighted_")
    return extra and not setting.has_extra_load() and not named and not _load_was_marked(drafts) and not _loaded_today(setting)


def _less_than_a_bar(drafts: list[Draft], setting: Setting) -> bool:
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


def _heard_of(placed: Placed) -> tuple[Heard, ...]:
    heard: list[Heard] = [SetsHeard(tuple(placed.records))] if placed.records else []
    heard += [CorrectionHeard(old, new) for old, new in placed.corrected]
    if not heard and placed.repeated:
        heard.append(RepeatHeard())
    return tuple(heard)


def _label(placed: Placed) -> str:
    if placed.records:
        return say_sets(placed.records)[:60]
    if placed.corrected:
        return f"change {say_record(placed.corrected[0][1])}"[:60]
    return "already on record"


def _between(ways: list[Way], shares: list[float], setting: Setting, said: str, entry: Entry) -> Settled:
    """Ask which way is meant."""
    options: list[Option] = []
    for way, share in list(zip(ways, shares, strict=True))[: _SHOWN + 2]:
        if share < 0.01 and options:
            continue
        placed = place(way.drafts, setting)
        heard = _heard_of(placed)
        if not way.drafts or not heard:
            continue
        if placed.missing:
            options += [Option(label, told, share * weight) for label, told, weight in _with_loads(placed, setting)[:2]]
            continue
        options.append(Option(_label(placed), heard, share, _taught(way, entry)))
    options.sort(key=lambda option: -option.certainty)
    return Settled(
        question=Question(_doubt(ways[0], ways[1]), said[:80], tuple(options[:_SHOWN])), certainty=shares[0], said=said
    )


def _doubt(one: Way, other: Way) -> str:
    parts = {part for way in (one, other) for part in way.parts}
    return (
        "sets_or_load"
        if any("S" in part for part in parts)
        else "load_or_reps"
        if any("L" in part for part in parts)
        else "which_reading"
    )


def _taught(way: Way, entry: Entry) -> tuple[str, str] | None:
    numbered = [item for item in entry.items if item.numbers]
    if len(numbered) != 1 or len(numbered[0].numbers) != 2 or any(term.role for term in numbered[0].numbers):
        return None
    name, value = _HABITS.get(numbered[0].ops[0]), _WAY_HABITS.get(way.parts[0])
    return (name, value) if name and value else None


def _load_without_count(entry: Entry, setting: Setting, unit: Unit, said: str) -> Settled:
    """Only a load was said: ask how many."""
    from bot.language.reading.drafts import load_of

    item = entry.items[0]
    load, _ = load_of(next(iter(item.numbers), None), item.marks, setting, unit)
    free = setting.free_numbers
    options: list[Option] = []
    for count in planned_counts(setting, free[0] if free else 1):
        placed = place([Draft(load=load, count=count)], setting)
        options.append(Option(_label(placed), _heard_of(placed), 0.3))
    return Settled(question=Question("missing_count", said[:80], tuple(options[:_SHOWN])), certainty=0.3, said=said)


def _with_loads(placed: Placed, setting: Setting) -> list[tuple[str, tuple[Heard, ...], float]]:
    """The placed sets, once for each load that their loadless ones may have had."""
    number = next((placed.records[n].place.number for n in placed.missing if placed.records[n].place), 1)  # type: ignore[union-attr]
    loads = likely_loads(setting, number)
    made: list[tuple[str, tuple[Heard, ...], float]] = []
    for rank, load in enumerate(loads):
        source = Source.CARRIED
        records = [
            replace(r, done=replace(r.done, load=load, load_source=source)) if n in placed.missing else r
            for n, r in enumerate(placed.records)
        ]
        heard = _heard_of(replace(placed, records=records))
        made.append((f"{say_load(load)} ({say_done(replace(records[placed.missing[0]].done))})"[:60], heard, 0.5 / (rank + 1)))
    return made


def _placed(best: Way, share: float, setting: Setting, said: str, folded: str, text: str) -> Settled:
    placed = place(best.drafts, setting)
    why = _why(best.drafts, placed, text)
    trouble = best.trouble or placed.trouble
    if not trouble and len(placed.records) > 1 and _strange_words_between(best.drafts, folded):
        return replace_why(_troubled("sets_and_counts", best, placed, setting, said), why)
    if (
        not trouble
        and "left" in folded
        and _BOTH_SIDES.search(said.lower())
        and any(_one_side_only(record) for record in placed.records)
    ):
        trouble = "which_one"  # both sides were named, and only one has a number
    if trouble:
        return replace_why(_troubled(trouble, best, placed, setting, said), why)
    surprising = next((kind for record in placed.records if (kind := is_surprising(record, setting))), "")
    surprising = surprising or ("load" if _unmarked_extra(best.drafts, setting) or _less_than_a_bar(best.drafts, setting) else "")
    surprising = surprising or next((kind for _, new in placed.corrected if (kind := is_surprising(new, setting))), "")
    if surprising:
        return _surprised(placed, setting, said, why)
    starts = tuple(draft.start for draft in best.drafts) if len(best.drafts) == len(placed.records) else ()
    return Settled(_heard_of(placed), share, why=why, said=said, starts=starts)


def replace_why(settled: Settled, why: tuple[Why, ...]) -> Settled:
    settled.why = why
    return settled


def _troubled(trouble: str, best: Way, placed: Placed, setting: Setting, said: str) -> Settled:
    """Something needed was not said: one question, the likeliest answer first."""
    if trouble == "missing_load":
        options = [Option(label, heard, share) for label, heard, share in _with_loads(placed, setting)]
        return Settled(question=Question("missing_load", said[:80], tuple(options)), certainty=0.5, said=said)
    if trouble == "missing_help":
        return _which_help(placed, setting, said)
    if trouble == "drop_or_next":
        dropped = _as_drops(best.drafts)
        first = place(dropped, setting)
        options = [
            Option(f"a drop: {_label(first)}"[:60], _heard_of(first), 0.5),
            Option(f"next set: {_label(placed)}"[:60], _heard_of(placed), 0.45),
        ]
        return Settled(question=Question("drop_or_next", said[:80], tuple(options)), certainty=0.5, said=said)
    if trouble == "warm_or_work":
        last = replace(best.drafts[-1], kind=SetKind.WORK)
        worked = place([*best.drafts[:-1], last], setting)
        options = [
            Option(f"last is work: {_label(worked)}"[:60], _heard_of(worked), 0.5),
            Option(f"all warm-ups: {_label(placed)}"[:60], _heard_of(placed), 0.45),
        ]
        return Settled(question=Question("warm_or_work", said[:80], tuple(options)), certainty=0.5, said=said)
    if trouble == "sides_or_sets":
        joined = place([_two_sides(best.drafts, setting)], setting)
        options = [
            Option(f"both sides: {_label(joined)}"[:60], _heard_of(joined), 0.5),
            Option(f"two sets: {_label(placed)}"[:60], _heard_of(placed), 0.45),
        ]
        return Settled(question=Question("sides_or_sets", said[:80], tuple(options)), certainty=0.5, said=said)
    if trouble == "too_many_sets":
        free = len(setting.free_numbers)
        options = []
        if free:
            for kept in (best.drafts[:free], best.drafts[-free:]):
                some = place(kept, setting)
                options.append(Option(_label(some), _heard_of(some), 0.4))
        options.append(Option(_label(placed), _heard_of(placed), 0.3))
        return Settled(question=Question("too_many_sets", said[:80], tuple(options)), certainty=0.4, said=said)
    if trouble == "which_one" and len(best.drafts) == 2:
        tried = [place([draft], setting) for draft in best.drafts] + [placed]  # "7 or 8"
        options = [Option(_label(each), _heard_of(each), 0.3) for each in tried if _heard_of(each)]
        return Settled(question=Question(trouble, said[:80], tuple(options)), certainty=0.4, said=said)
    if trouble == "sets_and_counts":
        ways = [best.drafts, best.drafts[:1], best.drafts[-1:]]
        tried = [place(drafts, setting) for drafts in ways]
        options = [
            Option(_label(each), _heard_of(each), share)
            for each, share in zip(tried, (0.4, 0.35, 0.2), strict=True)
            if _heard_of(each)
        ]
        return Settled(question=Question(trouble, said[:80], tuple(options)), certainty=0.4, said=said)
    options = [Option(_label(placed), _heard_of(placed), 0.4)] if _heard_of(placed) and trouble != "bar" else []
    return Settled(
        question=Question("bar_weight" if trouble == "bar" else trouble, said[:80], tuple(options)), certainty=0.4, said=said
    )


def _which_help(placed: Placed, setting: Setting, said: str) -> Settled:
    """Helped by which band? One option for each that the member has."""
    options: list[Option] = []
    for name in setting.situation.kit.bands[:_SHOWN]:
        load = Load(LoadKind.ASSISTED, bands=(name,))
        records = [replace(record, done=replace(record.done, load=load, load_source=Source.SAID)) for record in placed.records]
        options.append(Option(say_load(load), _heard_of(replace(placed, records=records)), 1 / (1 + len(options))))
    return Settled(question=Question("missing_load", said[:80], tuple(options)), certainty=0.4, said=said)


def _two_sides(drafts: list[Draft], setting: Setting) -> Draft:
    """Two counts as the sides of one set, in the order in which they are done."""
    first, second = drafts[0].count, drafts[1].count
    if setting.slot is not None and setting.slot.sides is Sides.RIGHT_FIRST:
        first, second = second, first
    return replace(drafts[0], count=None, left=first, right=second, end=drafts[1].end)


def _as_drops(drafts: list[Draft]) -> list[Draft]:
    from bot.training.records import DropDone

    kept: list[Draft] = []
    for draft in drafts:
        before = kept[-1].load if kept else None
        lighter = draft.load is not None and (before is None or (before.amount or 0) > (draft.load.amount or 0))
        if kept and lighter:
            kept[-1] = replace(kept[-1], drops=(*kept[-1].drops, DropDone(draft.load, draft.count)))
        else:
            kept.append(draft)
    return kept


def _surprised(placed: Placed, setting: Setting, said: str, why: tuple[Why, ...]) -> Settled:
    options = [Option(_label(placed), _heard_of(placed), 0.5)]
    options += [Option(_label(other), _heard_of(other), 0.3) for other in _likelier(placed, setting)]
    return Settled(question=Question("surprise", said[:80], tuple(options)), certainty=0.5, why=why, said=said)


def _likelier(placed: Placed, setting: Setting) -> list[Placed]:
    """What a slip of the thumb may have hidden: a digit too many, load and count the wrong way round, half of a total."""
    found: list[Placed] = []
    if len(placed.records) != 1:
        return found
    record = placed.records[0]
    load, count = record.done.load, record.done.count
    if load is None or load.amount is None or count is None:
        return found
    tries = [(load.amount / 10, count), (load.amount / 2, count)]
    if load.amount == load.amount.to_integral_value() and load.amount < 200:
        from decimal import Decimal

        tries.append((Decimal(count), int(load.amount)))
    for amount, reps in tries:
        if amount <= 0:
            continue
        other = replace(record, done=replace(record.done, load=replace(load, amount=amount), count=reps))
        if not is_surprising(other, setting):
            found.append(replace(placed, records=[other]))
    return found[:2]


def _referred(
    drafts: list[Draft], trouble: str, source: Source, setting: Setting, said: str, entry: Entry, folded: str, text: str
) -> Settled:
    """Sets told by other sets: their load is carried over; what was counted anew was said."""
    if trouble == "planned_range":
        number = setting.free_numbers[0] if setting.free_numbers else 1
        options = []
        for count in planned_counts(setting, number):
            placed = place([replace(draft, count=count) for draft in drafts], setting)
            if placed.missing:
                options += [Option(label, heard, share) for label, heard, share in _with_loads(placed, setting)[:1]]
            else:
                options.append(Option(_label(placed), _heard_of(placed), 0.3))
        return Settled(question=Question("missing_count", said[:80], tuple(options[:_SHOWN])), certainty=0.4, said=said)
    placed = place(drafts, setting)
    records = []
    for record in placed.records:
        done = record.done
        counted = any(term.role in ("", "count") for item in entry.items for term in item.numbers) and source is Source.CARRIED
        load_said = any(term.unit for item in entry.items for term in item.numbers) or source is Source.SAID
        load_source = Source.SAID if load_said else done.load_source if done.load_source is not Source.SAID else source
        if source is Source.CARRIED and not load_said:
            load_source = Source.CARRIED
        records.append(
            replace(
                record,
                done=replace(
                    done, load_source=load_source, count_source=Source.SAID if counted or source is Source.SAID else source
                ),
            )
        )
    placed.records = records
    way = Way(0.0, drafts, "", ())
    if not placed.trouble and len(placed.records) > 1 and _strange_words_between(drafts, folded):
        placed.trouble = "sets_and_counts"
    if placed.trouble:
        return _troubled(placed.trouble, way, placed, setting, said)
    surprising = next((kind for record in placed.records if (kind := is_surprising(record, setting))), "")
    if surprising:
        return _surprised(placed, setting, said, ())
    why = (Why(entry.start, entry.end, f"told by what is known: {_label(placed)}"),)
    return Settled(_heard_of(placed), 0.95, why=why, said=said)


def _why(drafts: list[Draft], placed: Placed, text: str) -> tuple[Why, ...]:
    found: list[Why] = []
    for draft in drafts:
        if draft.load_words is not None and draft.load is not None:
            found.append(Why(draft.load_words.start, draft.load_words.end, f"load {say_load(draft.load)}"))
        for term in draft.count_words:
            side = {"L": " left", "R": " right"}.get(term.side, "")
            found.append(Why(term.start, term.end, f"count {term.value}{side}"))
    carried: list[SetRecord] = [
        record for record in placed.records if record.done.load_source is Source.CARRIED and record.done.load
    ]
    if carried and carried[0].done.load:
        found.append(Why(0, 0, f"load not said: carried over, {say_load(carried[0].done.load)}"))
    return tuple(dict.fromkeys(found))
