"""Where does each told set belong, and with which load, where none was said? Drafts become records, or a doubt that is asked about."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from bot.language.reading.drafts import Draft
from bot.language.reading.ranking import heavy_for, on_ladder
from bot.language.reading.setting import Setting, place_of
from bot.training.blocks import LoadRule, Measure, SetKind
from bot.training.exercises.entry import LoadStyle
from bot.training.loads import BODY_WEIGHT, Load, LoadKind
from bot.training.records import SetDone, SetRecord, Source

_HEAVIEST_BAR = 150.0  # kg, where two dumbbells were planned and one bar was used


@dataclass(slots=True)
class Placed:
    """records: new sets. repeated: told again as they stand. corrected: (old, new) where an earlier set was told differently.

    trouble: a code where a question is needed; missing: the records (by place in `records`) that want a load.
    """

    records: list[SetRecord]
    repeated: list[SetRecord]
    corrected: list[tuple[SetRecord, SetRecord]]
    trouble: str = ""
    missing: tuple[int, ...] = ()


def place(drafts: Sequence[Draft], setting: Setting) -> Placed:
    """Give drafts their set numbers and loads in the setting's slot."""
    placed = Placed([], [], [])
    by_number = {record.place.number: record for record in setting.records if record.place}
    free = list(setting.free_numbers)
    told = [draft for draft in drafts if draft.kind is not SetKind.WARM_UP]
    numbers = _numbers(told, free, by_number, setting, placed)
    before: Load | None = None
    missing: list[int] = []
    at = 0
    for draft in drafts:
        number = 0
        if draft.kind is not SetKind.WARM_UP:
            number = numbers[at]
            at += 1
        done, lacking = _done(draft, number, before, setting)
        if done.load is not None and draft.kind is not SetKind.WARM_UP:
            before = done.load
        record = SetRecord(
            done,
            place_of(setting, number) if number else None,
            setting.on,
            setting.exercise_id,
            setting.day.number if setting.day else None,
        )
        standing = by_number.get(number) if number else None
        if standing is not None:
            _again(record, standing, draft, placed)
            continue
        if lacking:
            missing.append(len(placed.records))
        placed.records.append(record)
    if missing:
        placed.missing = tuple(missing)
        placed.trouble = placed.trouble or "missing_load"
    return placed


def _numbers(told: list[Draft], free: list[int], by_number: dict[int, SetRecord], setting: Setting, placed: Placed) -> list[int]:
    """The set number of each told set: said, or the next free ones in order."""
    if (
        len(told) > len(free)
        and len(told) == len(setting.targets)
        and not any(draft.number for draft in told)
        and all(_tells_again(draft, by_number.get(number)) for number, draft in enumerate(told, 1))
    ):
        # A whole slot told again: its first sets may be on record already.
        return list(range(1, len(told) + 1))
    numbers: list[int] = []
    taken: set[int] = set()
    following = 0
    for draft in told:
        if draft.number:
            number = draft.number
        elif following:
            number = following
        else:
            number = next((n for n in free if n not in taken), 0)
        if number == 0:
            if not setting.targets:
                number = (max([*by_number, *numbers], default=0)) + 1
            else:
                placed.trouble = placed.trouble or ("no_set_due" if not free else "too_many_sets")
                number = max([len(setting.targets), *by_number, *numbers]) + 1
        elif setting.targets and number > len(setting.targets) and draft.number:
            placed.trouble = placed.trouble or "too_many_sets"
        following = number + 1 if draft.number else (following + 1 if following else 0)
        if following and (following > len(setting.targets)):
            following = 0
        numbers.append(number)
        taken.add(number)
    return numbers


def _tells_again(draft: Draft, standing: SetRecord | None) -> bool:
    """May this draft repeat the set on record, if there is one?"""
    return standing is None or (draft.count, draft.left, draft.right) == (
        standing.done.count,
        standing.done.left,
        standing.done.right,
    )


def _again(record: SetRecord, standing: SetRecord, draft: Draft, placed: Placed) -> None:
    """A set that is on record already: the same, or a correction."""
    old, new = standing.done, record.done
    if draft.load is None:
        new = replace(new, load=old.load, load_source=old.load_source)
    if draft.empty:
        new = replace(new, count=old.count, left=old.left, right=old.right, measure=old.measure)
    if same_numbers(old, new):
        placed.repeated.append(standing)
    else:
        placed.corrected.append((standing, replace(standing, done=new)))


def same_numbers(one: SetDone, other: SetDone) -> bool:
    """Do two sets say the same load and counts?"""
    return (one.count, one.left, one.right, one.measure) == (other.count, other.left, other.right, other.measure) and (
        one.load == other.load
        or (one.load is not None and other.load is not None and one.load.kg is not None and one.load.kg == other.load.kg)
    )


def _done(draft: Draft, number: int, before: Load | None, setting: Setting) -> tuple[SetDone, bool]:
    """The set as it goes on record, and whether its load has to be asked for."""
    load, source, lacking = draft.load, Source.SAID, False
    if load is None:
        load, source, lacking = unsaid_load(number, before, setting, warm_up=draft.kind is SetKind.WARM_UP)
    if (
        load is not None
        and load.kind is LoadKind.IMPLEMENT
        and setting.style is LoadStyle.PAIR
        and not load.pair
        and load.implement in (None, "dumbbell")
        and not (source is Source.SAID and _too_heavy_for_two(load, setting))
    ):
        load = replace(load, pair=True)
    count, left, right = draft.count, draft.left, draft.right
    if left is not None and left == right:
        count, left, right = left, None, None
    target = setting.target(number)
    kind = draft.kind
    if kind is SetKind.WORK and target is not None and target.kind is SetKind.BURNOUT and number <= len(setting.targets):
        kind = SetKind.BURNOUT
    return (
        SetDone(
            measure=draft.measure or (target.measure if target else setting.measure),
            count=count, left=left, right=right, load=load, kind=kind, rpe=draft.rpe, rir=draft.rir, failure=draft.failure,
            form_kept=draft.form_kept, tempo_kept=draft.tempo_kept, partials=draft.partials, bouts=draft.bouts, drops=draft.drops,
            about=draft.about, note=draft.note, load_source=source,
        ),
        lacking,
    )  # fmt: skip


def _too_heavy_for_two(load: Load, setting: Setting) -> bool:
    """ "calf 60kg 15": what no hand holds, of an exercise of which no load is known, is one bar or machine."""
    return (
        load.kg is not None and not setting.known_loads and setting.ladder is None and float(load.kg) > 1.5 * heavy_for(setting)
    )


def unsaid_load(number: int, before: Load | None, setting: Setting, *, warm_up: bool = False) -> tuple[Load | None, Source, bool]:
    """The load of a set of which only the count was said: carried over, the coach's, body weight, or to be asked for."""
    earlier = before or setting.load_before(number or 99)
    if warm_up:
        return (None, Source.ASSUMED, False) if setting.needs_load else (BODY_WEIGHT, Source.ASSUMED, False)
    target = setting.target(number)
    if setting.steady:
        if earlier is not None:
            return earlier, Source.CARRIED, False
        if target is not None and target.load is not None:
            return target.load, Source.ASSUMED, False
    elif not setting.needs_load and earlier is None:
        return BODY_WEIGHT, Source.ASSUMED, False
    if not setting.needs_load:
        if setting.has_extra_load() or (setting.exercise_id or "").startswith("weighted_"):
            return None, Source.SAID, True
        return BODY_WEIGHT, Source.ASSUMED, False
    return None, Source.SAID, True


def likely_loads(setting: Setting, number: int) -> list[Load]:
    """What the load of a set may have been, the likeliest first: last time's, the set before with the rule's direction, the coach's."""
    found: list[Load] = []
    last = setting.last_set(number)
    if last is not None and last.done.load is not None:
        found.append(last.done.load)
    target = setting.target(number)
    if target is not None and target.load is not None:
        found.insert(0, target.load)
    before = setting.load_before(number)
    ladder = setting.ladder
    if before is not None and before.amount is not None and before.unit is not None and ladder is not None:
        rule = setting.slot.load_rule if setting.slot else LoadRule.FREE
        moved = (
            ladder.next_above(before.amount, before.unit)
            if rule is LoadRule.RISES
            else ladder.next_below(before.amount, before.unit)
        )
        if rule in (LoadRule.RISES, LoadRule.FALLS) and moved is not None:
            found.append(Load(before.kind, moved, ladder.unit, pair=before.pair))
    if before is not None:
        found.append(before)
    if not found and ladder is not None:
        middle = len(ladder.amounts) // 2
        found += [
            Load(LoadKind.IMPLEMENT, amount, ladder.unit, pair=setting.style is LoadStyle.PAIR)
            for amount in ladder.amounts[middle - 1 : middle + 2]
        ]
    if not found and setting.style is LoadStyle.BAND:
        found += [Load(LoadKind.BAND, bands=(name,)) for name in setting.situation.kit.bands[:4]]
    if not setting.needs_load:
        found.append(BODY_WEIGHT)
    return list(dict.fromkeys(found))[:4]


def is_surprising(record: SetRecord, setting: Setting) -> str:
    """Would a coach look twice? "load", "count" or "" if not: far from this member's history or target, or outside the kit."""
    done = record.done
    if done.kind is SetKind.WARM_UP:
        return ""
    number = record.place.number if record.place else 1
    if _count_surprises(done, number, setting):
        return "count"
    return "load" if done.load_source is Source.SAID and _load_surprises(done.load, setting) else ""


def _count_surprises(done: SetDone, number: int, setting: Setting) -> bool:
    counts = [count for count in (done.count, done.left, done.right) if count is not None]
    if not counts:
        return False
    target = setting.target(number)
    measure = target.measure if target else setting.measure
    if done.measure is not measure and not {done.measure, measure} <= {Measure.STEPS, Measure.METRES}:
        return True
    last = setting.last_set(number)
    known = (
        [c for c in (last.done.worst_count,) if c is not None] if last is not None and last.done.measure is done.measure else []
    )
    low = min([n for n in (target.low if target else None, *known) if n is not None], default=None)
    high = max([n for n in (target.high if target else None, *known) if n is not None], default=None)
    top, bottom = max(counts), min(counts)
    if bottom < 0 or (measure is Measure.REPS and top > 100):
        return True
    if low is None or high is None:
        return top > {Measure.REPS: 60, Measure.SECONDS: 600, Measure.STEPS: 400, Measure.METRES: 1000}[measure]
    loose = target is not None and target.amrap
    room = Decimal("2.5") if loose or measure is not Measure.REPS else Decimal("1.75")
    if top > high * room + (6 if measure is Measure.REPS else 15):
        return True
    return bottom < low * Decimal("0.3") and low - bottom > 4 and not done.failure


def _load_surprises(load: Load | None, setting: Setting) -> bool:
    if load is None or load.kg is None:
        return False
    kg = float(load.kg)
    if kg > 500:
        return True
    kind_known = [known for known, _ in setting.known_loads]
    if load.kind is LoadKind.ADDED:
        return kg > 60 and not any(abs(known - kg) < 15 for known in kind_known)
    if load.kind is LoadKind.ASSISTED:
        return kg > 90
    ladder = setting.ladder
    one_of_two = setting.style is LoadStyle.PAIR and not load.pair
    too_heavy = _HEAVIEST_BAR if one_of_two else 1.5 * heavy_for(setting)
    if not kind_known and ladder is None and load.kind is LoadKind.IMPLEMENT and kg > too_heavy:
        return True
    if kind_known and not any(0.62 <= kg / known <= 1.45 for known in kind_known if known > 0):
        steps_away = _steps_away(load, kind_known, setting)
        if steps_away is None or steps_away > 2:
            return True
    if ladder is not None and load.implement in (None, ladder.item.value) and load.amount is not None and load.unit is not None:
        same_as_known = any(abs(known - kg) < 0.06 for known in kind_known)
        return not on_ladder(ladder, load.amount, load.unit) and not same_as_known
    return False


def _steps_away(load: Load, known: list[float], setting: Setting) -> int | None:
    ladder = setting.ladder
    if ladder is None or load.amount is None or load.unit is None:
        return 0 if any(abs(float(load.kg or 0) - each) <= 3 for each in known) else None
    mine = ladder.amounts.index(ladder.nearest(load.amount, load.unit))
    theirs = [ladder.amounts.index(ladder.nearest(Decimal(str(round(each, 3))), type(ladder.unit).KG)) for each in known]
    return min(abs(mine - each) for each in theirs)
