"""How do the things said about one exercise become a slot? Lines are added one by one; at the end sets, marks and fields are put together.

A mark without a set ("tempo 3-1-1-0") holds for every set; where the coach gives the same kind of mark twice ("2x8 @3110, 1x12
@2010") each holds for the sets before it. A list as long as the sets gives one value a set.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from bot.language.blocks.counts import SETS_LIMIT, Count
from bot.language.blocks.scan import Clauses, Mark, Scheme, Which
from bot.language.blocks.slot_draft import SetLine, SlotDraft
from bot.language.problems import Place, error, quoted, warning
from bot.training.blocks import Measure, PolicyKind, SetKind, SetTarget, Sides, Slot, WeekSets, with_weeks
from bot.training.kit import KitItem
from bot.training.prescriptions import say_range

_TIMED_LIMIT = 60  # rounds of intervals, or minutes
_POLICY_WORDS = {
    "usual": PolicyKind.USUAL, "reps then load": PolicyKind.USUAL, "double progression": PolicyKind.USUAL,
    "reps only": PolicyKind.REPS_ONLY, "reps": PolicyKind.REPS_ONLY, "add reps": PolicyKind.REPS_ONLY,
    "load only": PolicyKind.LOAD_ONLY, "load": PolicyKind.LOAD_ONLY, "add load": PolicyKind.LOAD_ONLY, "weight": PolicyKind.LOAD_ONLY,
    "weight only": PolicyKind.LOAD_ONLY, "add weight": PolicyKind.LOAD_ONLY,
    "hold": PolicyKind.HOLD, "keep": PolicyKind.HOLD, "none": PolicyKind.HOLD, "keep as it is": PolicyKind.HOLD,
    "tempo": PolicyKind.TEMPO, "slower first": PolicyKind.TEMPO, "slower before heavier": PolicyKind.TEMPO,
}  # fmt: skip


def read_policy(text: str) -> PolicyKind | None:
    return _POLICY_WORDS.get(" ".join(text.lower().strip(" .").split()))


def finish(draft: SlotDraft, *, kit_of: Callable[[str], frozenset[KitItem]], later: bool = False) -> Slot:
    """Put a slot together; what is wrong goes into the draft's problems. later: week 1 is known already, only weeks are said."""
    sets, weeks = _sets_by_week(draft, later=later)
    fields = draft.fields
    policy = PolicyKind.USUAL
    if "policy" in fields:
        said = read_policy(fields["policy"])
        policy = said or PolicyKind.USUAL
        if said is None:
            draft.notes.append(f"progress: {fields['policy']}")
    note = "; ".join(part for part in (fields.get("note", ""), *draft.notes) if part)
    kit: frozenset[KitItem] = frozenset()
    if "kit" in fields:
        kit = kit_of(fields["kit"])
        if not kit:
            note = "; ".join(part for part in (note, f"kit: {fields['kit']}") if part)
    return Slot(
        label=draft.label,
        exercise_name=draft.name,
        sets=tuple(sets),
        substitutes=tuple(dict.fromkeys(fields.get("substitutes", ()))),
        kit=kit,
        policy=policy,
        note=note,
        weeks=weeks,
        **{name: fields[name] for name in ("sides", "load_rule", "rest", "cues", "grip", "angle_deg", "demo") if name in fields},
    )


def _sets_by_week(draft: SlotDraft, *, later: bool) -> tuple[list[SetTarget], tuple[WeekSets, ...]]:
    """The sets of week 1 and those of later weeks, as far as they differ from the week before."""
    if not draft.weeks:
        return _sets(draft), ()
    by_week = {week: tuple(_sets(_in_week(draft, week))) for week in sorted(draft.weeks) if _has_sets(draft.weeks[week])}
    if later:
        return [], tuple(WeekSets(week, sets, draft.rests.get(week)) for week, sets in by_week.items())
    first = by_week.pop(1, None)
    if first is None and by_week and not draft.has_own_sets:
        week = min(by_week)
        wrong = f"the sets begin with week {week}"
        draft.problems.append(error(draft.place.of_slot(draft.label), draft.name, wrong, "write those of week 1 too"))
        return [], ()
    base = _sets(draft) if first is None else list(first)
    slot = with_weeks(Slot(draft.label, draft.name, (), rest=draft.fields.get("rest")), {1: tuple(base), **by_week}, draft.rests)
    return base, slot.weeks


def _has_sets(parts: list[tuple[Clauses, Place] | SetLine]) -> bool:
    """Does a week say anything of its sets, or only of the rest between them?"""
    return any(isinstance(part, SetLine) or part[0].schemes or part[0].marks or "set_count" in part[0].fields for part in parts)


def _in_week(draft: SlotDraft, week: int) -> SlotDraft:
    """The slot as if only this week had been written: what is said of all weeks stays where the week says nothing else."""
    parts = draft.weeks[week]
    anew = any(isinstance(part, SetLine) or any(scheme.which is None for scheme in part[0].schemes) for part in parts)
    fewer = next(
        (part[0].fields["set_count"][0] for part in parts if not isinstance(part, SetLine) and "set_count" in part[0].fields),
        None,
    )
    said_now = {mark.field for part in parts if not isinstance(part, SetLine) for mark in part[0].marks}
    general: list[tuple[Clauses, Place] | SetLine] = []
    for part in draft.said:
        if isinstance(part, SetLine):
            general += [] if anew else [part]
            continue
        clauses, place = part
        schemes = [scheme for scheme in clauses.schemes if not anew or scheme.kind is SetKind.WARM_UP]
        schemes = [scheme if anew or fewer is None else with_number_of_sets(scheme, fewer) for scheme in schemes]
        marks = [mark for mark in clauses.marks if mark.field not in said_now and not (anew and _is_of_one_week(mark))]
        general.append((replace(clauses, schemes=schemes, marks=marks), place))
    week_fields = {k: v for part in parts if not isinstance(part, SetLine) for k, v in part[0].fields.items()}
    return SlotDraft(
        draft.place, draft.label, draft.name, [*general, *parts], draft.notes, {**draft.fields, **week_fields}, draft.rounds,
        draft.kind, draft.measure, draft.default, problems=draft.problems,
    )  # fmt: skip


def with_number_of_sets(scheme: Scheme, sets: int) -> Scheme:
    """The same figures over another number of sets: the last is repeated, or the last ones are left out."""
    if scheme.kind is SetKind.WARM_UP or scheme.which is not None:
        return scheme
    counts = scheme.counts if len(scheme.counts) == 1 else (*scheme.counts, *[scheme.counts[-1]] * sets)[:sets]
    return replace(scheme, sets=sets, sets_to=None, counts=counts)


def _is_of_one_week(mark: Mark) -> bool:
    """Values for single sets speak of the sets that were written beside them."""
    return len(mark.values) > 1 or (mark.which is not None and bool(mark.which.numbers))


@dataclass(slots=True)
class _Group:
    """Sets of one scheme: which of the slot's sets, and where in its line it began."""

    indexes: list[int]
    start: int
    part: int


def _sets(draft: SlotDraft) -> list[SetTarget]:
    targets: list[SetTarget] = []
    groups: list[_Group] = []
    overrides: list[tuple[Scheme, Place]] = []
    marks: list[tuple[Mark, Place, int]] = []
    for number, part in enumerate(draft.said):
        if isinstance(part, SetLine):
            _take_set_line(draft, part, targets, overrides, marks, number)
            continue
        clauses, place = part
        for scheme in clauses.schemes:
            if scheme.which is not None and (scheme.sets is None or scheme.which.every):
                overrides.append((scheme, place))
                continue
            made = _of_scheme(draft, scheme, place)
            groups.append(_Group(list(range(len(targets), len(targets) + len(made))), scheme.start, number))
            targets += made
        marks += [(mark, place, number) for mark in clauses.marks]
    if not targets and not overrides and draft.default is not None:
        targets += _of_scheme(draft, draft.default, draft.place)
        groups.append(_Group(list(range(len(targets))), 0, 0))
    if not targets and not overrides:
        targets = _as_many_as_wished(draft, marks)
    if not targets and not overrides:
        return _without_counts(draft)
    _override(draft, targets, overrides)
    _apply(draft, targets, groups, marks)
    return targets


def _as_many_as_wished(draft: SlotDraft, marks: list[tuple[Mark, Place, int]]) -> list[SetTarget]:
    """ "5 sets, stop 2 reps before failure" needs no count: the effort says how many."""
    said = draft.fields.get("set_count")
    if not said or said[0] > SETS_LIMIT or not any(mark.field in ("rir", "rpe") for mark, _, _ in marks):
        return []
    place = draft.place.of_slot(draft.label)
    wrong = f"{quoted(draft.name)} has sets and an effort but no reps, so as many as that effort allows"
    draft.problems.append(warning(place, draft.name, wrong, "write reps such as 3x8-10 if you want a range"))
    return [SetTarget(measure=draft.measure or Measure.REPS, amrap=True, kind=draft.kind)] * said[0]


def _without_counts(draft: SlotDraft) -> list[SetTarget]:
    if draft.problems and any(problem.is_error for problem in draft.problems):
        return []  # the figures are there, and what is wrong with them is said already
    if "set_count" in draft.fields:
        draft.problems.append(
            error(
                draft.place.of_slot(draft.label),
                draft.name,
                f"{quoted(draft.name)} has sets but no reps",
                "write both, such as 3x10",
            )
        )
    else:
        draft.problems.append(
            error(
                draft.place.of_slot(draft.label),
                draft.name,
                f"{quoted(draft.name)} has no sets and reps",
                "write them behind the name, such as 3x8-10",
            )
        )
    return []


def _take_set_line(
    draft: SlotDraft,
    line: SetLine,
    targets: list[SetTarget],
    overrides: list[tuple[Scheme, Place]],
    marks: list[tuple[Mark, Place, int]],
    part: int,
) -> None:
    """A set line about a set that is there changes it; the next number adds a set."""
    numbered = [at for at, target in enumerate(targets) if target.kind is not SetKind.WARM_UP]
    which = Which(numbers=(line.number,)) if line.number is not None else None
    if line.number is not None and line.number <= len(numbered):
        overrides += [(replace(scheme, which=which, sets=None), line.place) for scheme in line.said.schemes]
        marks += [(replace(mark, which=which), line.place, part) for mark in line.said.marks]
        return
    if line.number is not None and line.number > len(numbered) + 1:
        missing = len(numbered) + 1
        draft.problems.append(
            error(
                line.place,
                f"set {line.number}",
                f"set {line.number} comes without set {missing} before it",
                f"write set {missing} too",
            )
        )
    counts = line.said.schemes[0].counts if line.said.schemes else ()
    found = line.said.schemes[0].found if line.said.schemes else ""
    count = counts[0] if counts else Count()
    if not counts and line.kind is SetKind.WORK and not line.said.marks:
        draft.problems.append(
            error(
                line.place,
                f"set {line.number}",
                f"set {line.number} has no reps",
                "write them behind the colon, such as Set 1: 10 reps",
            )
        )
    if len(counts) > 1:
        draft.problems.append(
            error(line.place, found, f"{quoted(found)} gives one set several numbers", "write one number or range a set")
        )
    target = _target(draft, count, line.kind, line.place, found)
    targets.append(replace(target, note=line.note))
    index = len(targets) - 1
    for mark in line.said.marks:
        _set(draft, targets, [index], mark, line.place)


def _of_scheme(draft: SlotDraft, scheme: Scheme, place: Place) -> list[SetTarget]:
    place = place.of_slot(draft.label)
    kind = draft.kind if scheme.kind is SetKind.WORK else scheme.kind
    counts, sets = scheme.counts, scheme.sets
    if sets is None:
        said = draft.fields.get("set_count")
        sets = said[0] if said else len(counts) if len(counts) > 1 else draft.rounds or (1 if kind is SetKind.BURNOUT else None)
        sets_to = said[1] if said else None
    else:
        sets_to = scheme.sets_to
    if sets is None and len(counts) == 1 and _is_one_long_set(draft, counts[0]):
        sets = 1
        draft.problems.append(warning(place, scheme.found, f"{quoted(scheme.found)} is read as one set"))
    if sets is None:
        draft.problems.append(
            error(
                place,
                scheme.found,
                f"{quoted(scheme.found)} does not say how many sets",
                f"write 3 x {scheme.found.strip()} or the like",
            )
        )
        return []
    if sets == 0:
        draft.problems.append(
            error(place, scheme.found, f"{quoted(scheme.found)} has no sets", "write 1 or more, or leave the exercise out")
        )
        return []
    timed = "intervals" in draft.fields
    if sets > (_TIMED_LIMIT if timed else SETS_LIMIT):
        draft.problems.append(
            error(place, scheme.found, f"{quoted(scheme.found)} means {sets} sets", "write sets first, then reps, such as 3x20")
        )
        return []
    if sets_to and sets_to > sets:
        draft.problems.append(
            warning(place, scheme.found, f"{sets} to {sets_to} sets are kept as {sets}", f"write {sets_to} if all are wanted")
        )
        draft.notes.append(f"up to {sets_to} sets")
    if len(counts) == 2 != sets and counts[0] == counts[1] and "/" in scheme.found:
        counts = counts[:1]  # "3x8/8": eight on each side
        draft.fields.setdefault("sides", Sides.EACH)
    if len(counts) > 1 and len(counts) != sets:
        draft.problems.append(
            error(
                place,
                scheme.found,
                f"{quoted(scheme.found)} has {sets} set{'s' if sets > 1 else ''} but {len(counts)} rep numbers",
                "write one number for all sets, or one for each",
            )
        )
        return []
    spread = counts if len(counts) == sets else counts * sets
    made: list[SetTarget] = []
    for at, count in enumerate(spread):
        made.append(_target(draft, count, kind, place, scheme.found, say=at == 0 or len(counts) > 1))
    return made


def _is_one_long_set(draft: SlotDraft, count: Count) -> bool:
    """Minutes of something, or a long way, are done once where no number of sets is said."""
    long = {Measure.SECONDS: 120, Measure.METRES: 400}.get(count.measure or Measure.REPS)
    return long is not None and count.low is not None and count.low >= long and not count.wrong


def _target(draft: SlotDraft, count: Count, kind: SetKind, place: Place, found: str, *, say: bool = True) -> SetTarget:
    if count.wrong and say:
        draft.problems.append(error(place.of_slot(draft.label), found, count.wrong, count.instead))
    if count.said and not count.wrong and count.said not in draft.notes:
        draft.notes.append(count.said)
        metres = say_range(count.low, count.high)
        draft.problems.append(warning(place.of_slot(draft.label), found, f"{quoted(count.said)} is counted as {metres} m"))
    measure = count.measure or draft.measure or Measure.REPS
    return SetTarget(count.low, count.high, measure, count.amrap, kind)


def _indexes(targets: list[SetTarget], which: Which | None) -> list[int] | None:
    """The sets that are meant, by place in the list; None if one of them is not there. Warm-ups take no number."""
    numbered = [at for at, target in enumerate(targets) if target.kind is not SetKind.WARM_UP]
    if which is None or which.every:
        return numbered
    if which.last:
        return numbered[-which.last :]
    if any(number < 1 or number > len(numbered) for number in which.numbers):
        return None
    return [numbered[number - 1] for number in which.numbers]


def _override(draft: SlotDraft, targets: list[SetTarget], overrides: Iterable[tuple[Scheme, Place]]) -> None:
    """Counts said for some sets only; "set 1: 12, set 2: 10" also builds the sets when nothing else did."""
    builds = not targets
    for scheme, place in overrides:
        which = scheme.which
        if builds and which and which.numbers:
            while len(targets) < max(which.numbers) <= SETS_LIMIT:
                targets.append(SetTarget(kind=draft.kind, measure=draft.measure or Measure.REPS))
        indexes = _indexes(targets, which)
        if not indexes:
            _no_such_set(draft, scheme.found, which, len(targets), place)
            continue
        for index in indexes:
            made = _target(draft, scheme.counts[0], targets[index].kind, place, scheme.found)
            measure = made.measure if scheme.counts[0].measure else targets[index].measure
            targets[index] = replace(targets[index], low=made.low, high=made.high, measure=measure, amrap=made.amrap)
    gaps = [at + 1 for at, target in enumerate(targets) if builds and target.low is None and not target.amrap]
    if gaps:
        draft.problems.append(
            error(
                draft.place.of_slot(draft.label),
                draft.name,
                f"set {gaps[0]} has no reps",
                f"write set {gaps[0]} too, such as set {gaps[0]}: 10",
            )
        )


def _no_such_set(draft: SlotDraft, found: str, which: Which | None, there: int, place: Place) -> None:
    number = max(which.numbers) if which and which.numbers else 1
    draft.problems.append(
        error(
            place.of_slot(draft.label),
            found,
            f"{quoted(found)} is about set {number}, but there are {there} sets",
            "write a number that is there, or add the set",
        )
    )


_ONCE = frozenset({"tempo", "rir", "rpe", "percent_1rm", "load"})


def _apply(draft: SlotDraft, targets: list[SetTarget], groups: list[_Group], marks: list[tuple[Mark, Place, int]]) -> None:
    for mark, place, part in marks:
        alike = [other for other, _, _ in marks if other.field == mark.field and other.which is None]
        if mark.which is None and mark.field in _ONCE and len(alike) > 1 and len(groups) > 1:
            before = [group for group in groups if (group.part, group.start) <= (part, mark.start)]
            indexes: list[int] | None = before[-1].indexes if before else groups[0].indexes
        else:
            indexes = _indexes(targets, mark.which)
        if mark.which is None and mark.field == "partials" and mark.found.lower().lstrip().startswith(("finish", "then finish")):
            indexes = _indexes(targets, Which(last=1))
        if indexes is None:
            _no_such_set(draft, mark.found, mark.which, len(targets), place)
            continue
        if mark.which is None and mark.field in _ONCE and len(alike) > 1 and len(groups) <= 1 and mark is not alike[0]:
            draft.problems.append(
                error(
                    place,
                    mark.found,
                    f"{_FIELD_NAMES[mark.field]} is said twice, here {quoted(mark.found)}",
                    'say which set it is for, such as "set 2: ..."',
                )
            )
            continue
        _set(draft, targets, indexes, mark, place)


_FIELD_NAMES = {"tempo": "the tempo", "rir": "RIR", "rpe": "RPE", "percent_1rm": "the percentage", "load": "the load"}


def _set(draft: SlotDraft, targets: list[SetTarget], indexes: list[int], mark: Mark, place: Place) -> None:
    values = mark.values
    if len(values) > 1 and len(values) != len(indexes):
        draft.problems.append(
            error(
                place.of_slot(draft.label),
                mark.found,
                f"{quoted(mark.found)} gives {len(values)} values for {len(indexes)} sets",
                "write one for all sets, or one for each",
            )
        )
        return
    for at, index in enumerate(indexes):
        value = values[at] if len(values) > 1 else values[0]
        if mark.field == "note" and targets[index].note:
            value = f"{targets[index].note}; {value}"
        if mark.field == "drops":
            value = (*targets[index].drops, *value)
        targets[index] = replace(targets[index], **{mark.field: value})
