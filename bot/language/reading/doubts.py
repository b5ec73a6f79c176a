"""What is left of doubt becomes one question, the likeliest answer first."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import Decimal

from bot.language.reading.drafts import Draft, load_of
from bot.language.reading.explain import say_done, say_record, say_sets
from bot.language.reading.grammar import Entry
from bot.language.reading.placing import Placed, is_surprising, likely_loads, place
from bot.language.reading.references import planned_counts
from bot.language.reading.setting import Setting
from bot.language.reading.weighing import HABITS, Way
from bot.language.readings import CorrectionHeard, Heard, Option, Question, RepeatHeard, SetsHeard, Why
from bot.training.blocks import SetKind, Sides
from bot.training.loads import Load, LoadKind, Unit, say_load
from bot.training.records import DropDone, Source

SHOWN = 4
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


def heard_of(placed: Placed) -> tuple[Heard, ...]:
    heard: list[Heard] = [SetsHeard(tuple(placed.records))] if placed.records else []
    heard += [CorrectionHeard(old, new) for old, new in placed.corrected]
    if not heard and placed.repeated:
        heard.append(RepeatHeard())
    return tuple(heard)


def label_of_placed(placed: Placed) -> str:
    if placed.records:
        return say_sets(placed.records)[:60]
    if placed.corrected:
        return f"change {say_record(placed.corrected[0][1])}"[:60]
    return "already on record"


def between(ways: list[Way], shares: list[float], setting: Setting, said: str, entry: Entry) -> Settled:
    """Ask which way is meant."""
    options: list[Option] = []
    for way, share in list(zip(ways, shares, strict=True))[: SHOWN + 2]:
        if share < 0.01 and options:
            continue
        placed = place(way.drafts, setting)
        heard = heard_of(placed)
        if not way.drafts or not heard:
            continue
        if placed.missing:
            options += [Option(label, told, share * weight) for label, told, weight in with_loads(placed, setting)[:2]]
            continue
        options.append(Option(label_of_placed(placed), heard, share, _taught(way, entry)))
    options.sort(key=lambda option: -option.certainty)
    return Settled(question=Question(_doubt(ways[0], ways[1]), said[:80], tuple(options[:SHOWN])), certainty=shares[0], said=said)


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
    name, value = HABITS.get(numbered[0].ops[0]), _WAY_HABITS.get(way.parts[0])
    return (name, value) if name and value else None


def load_without_count(entry: Entry, setting: Setting, unit: Unit, said: str) -> Settled:
    """Only a load was said: ask how many."""
    item = entry.items[0]
    load, _ = load_of(next(iter(item.numbers), None), item.marks, setting, unit)
    free = setting.free_numbers
    options: list[Option] = []
    for count in planned_counts(setting, free[0] if free else 1):
        placed = place([Draft(load=load, count=count)], setting)
        options.append(Option(label_of_placed(placed), heard_of(placed), 0.3))
    return Settled(question=Question("missing_count", said[:80], tuple(options[:SHOWN])), certainty=0.3, said=said)


def with_loads(placed: Placed, setting: Setting) -> list[tuple[str, tuple[Heard, ...], float]]:
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
        heard = heard_of(replace(placed, records=records))
        made.append((f"{say_load(load)} ({say_done(replace(records[placed.missing[0]].done))})"[:60], heard, 0.5 / (rank + 1)))
    return made


def troubled(trouble: str, best: Way, placed: Placed, setting: Setting, said: str) -> Settled:
    """Something needed was not said: one question, the likeliest answer first. trouble: the code of what is in doubt."""
    if trouble == "missing_load":
        options = [Option(label, heard, share) for label, heard, share in with_loads(placed, setting)]
        return Settled(question=Question("missing_load", said[:80], tuple(options)), certainty=0.5, said=said)
    if trouble == "missing_help":
        return _which_help(placed, setting, said)
    if trouble == "which_one" and len(best.drafts) != 2:
        trouble = "other_doubt"
    told = _TOLD_APART.get(trouble)
    if told is None:
        options = [Option(label_of_placed(placed), heard_of(placed), 0.4)] if heard_of(placed) and trouble != "bar" else []
        code = {"bar": "bar_weight", "other_doubt": "which_one"}.get(trouble, trouble)
        return Settled(question=Question(code, said[:80], tuple(options)), certainty=0.4, said=said)
    certainty, ways = told
    options = [
        Option(f"{says}{label_of_placed(each)}"[:60], heard_of(each), share)
        for says, drafts, share in ways(best.drafts, setting)
        for each in [placed if drafts is best.drafts else place(drafts, setting)]
        if heard_of(each)
    ]
    return Settled(question=Question(trouble, said[:80], tuple(options)), certainty=certainty, said=said)


Told = tuple[str, list[Draft], float]  # how an answer begins, its sets, how likely it is


def _drop_or_next(drafts: list[Draft], setting: Setting) -> list[Told]:
    return [("a drop: ", _as_drops(drafts), 0.5), ("next set: ", drafts, 0.45)]


def _warm_or_work(drafts: list[Draft], setting: Setting) -> list[Told]:
    return [("last is work: ", [*drafts[:-1], replace(drafts[-1], kind=SetKind.WORK)], 0.5), ("all warm-ups: ", drafts, 0.45)]


def _sides_or_sets(drafts: list[Draft], setting: Setting) -> list[Told]:
    return [("both sides: ", [_two_sides(drafts, setting)], 0.5), ("two sets: ", drafts, 0.45)]


def _too_many_sets(drafts: list[Draft], setting: Setting) -> list[Told]:
    free = len(setting.free_numbers)
    some: list[Told] = [("", drafts[:free], 0.4), ("", drafts[-free:], 0.4)] if free else []
    return [*some, ("", drafts, 0.3)]


def _which_one(drafts: list[Draft], setting: Setting) -> list[Told]:
    """ "7 or 8"."""
    return [*(("", [draft], 0.3) for draft in drafts), ("", drafts, 0.3)]


def _sets_and_counts(drafts: list[Draft], setting: Setting) -> list[Told]:
    return [("", drafts, 0.4), ("", drafts[:1], 0.35), ("", drafts[-1:], 0.2)]


# By the code of a doubt: how certain the first answer is, and all answers.
_TOLD_APART: dict[str, tuple[float, Callable[[list[Draft], Setting], list[Told]]]] = {
    "drop_or_next": (0.5, _drop_or_next),
    "warm_or_work": (0.5, _warm_or_work),
    "sides_or_sets": (0.5, _sides_or_sets),
    "too_many_sets": (0.4, _too_many_sets),
    "which_one": (0.4, _which_one),
    "sets_and_counts": (0.4, _sets_and_counts),
}


def which_of_the_range(drafts: list[Draft], setting: Setting, said: str) -> Settled:
    """ "as planned" where the plan is a range: how many was it?"""
    options: list[Option] = []
    for count in planned_counts(setting, setting.free_numbers[0] if setting.free_numbers else 1):
        placed = place([replace(draft, count=count) for draft in drafts], setting)
        if placed.missing:
            options += [Option(label, heard, share) for label, heard, share in with_loads(placed, setting)[:1]]
        else:
            options.append(Option(label_of_placed(placed), heard_of(placed), 0.3))
    return Settled(question=Question("missing_count", said[:80], tuple(options[:SHOWN])), certainty=0.4, said=said)


def _which_help(placed: Placed, setting: Setting, said: str) -> Settled:
    """Helped by which band? One option for each that the member has."""
    options: list[Option] = []
    for name in setting.situation.kit.bands[:SHOWN]:
        load = Load(LoadKind.ASSISTED, bands=(name,))
        records = [replace(record, done=replace(record.done, load=load, load_source=Source.SAID)) for record in placed.records]
        options.append(Option(say_load(load), heard_of(replace(placed, records=records)), 1 / (1 + len(options))))
    return Settled(question=Question("missing_load", said[:80], tuple(options)), certainty=0.4, said=said)


def _two_sides(drafts: list[Draft], setting: Setting) -> Draft:
    """Two counts as the sides of one set, in the order in which they are done."""
    first, second = drafts[0].count, drafts[1].count
    if setting.slot is not None and setting.slot.sides is Sides.RIGHT_FIRST:
        first, second = second, first
    return replace(drafts[0], count=None, left=first, right=second, end=drafts[1].end)


def _as_drops(drafts: list[Draft]) -> list[Draft]:
    kept: list[Draft] = []
    for draft in drafts:
        before = kept[-1].load if kept else None
        lighter = draft.load is not None and (before is None or (before.amount or 0) > (draft.load.amount or 0))
        if kept and lighter:
            kept[-1] = replace(kept[-1], drops=(*kept[-1].drops, DropDone(draft.load, draft.count)))
        else:
            kept.append(draft)
    return kept


def surprised(placed: Placed, setting: Setting, said: str, why: tuple[Why, ...]) -> Settled:
    options = [Option(label_of_placed(placed), heard_of(placed), 0.5)]
    options += [Option(label_of_placed(other), heard_of(other), 0.3) for other in _likelier(placed, setting)]
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
        tries.append((Decimal(count), int(load.amount)))
    for amount, reps in tries:
        if amount <= 0:
            continue
        other = replace(record, done=replace(record.done, load=replace(load, amount=amount), count=reps))
        if not is_surprising(other, setting):
            found.append(replace(placed, records=[other]))
    return found[:2]
