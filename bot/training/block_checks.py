"""What would a good colleague say about a block before it goes out? Remarks with their rule and source: advice, never a lock."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from bot.training.blocks import Block, Day, Slot, block_in_week, work_sets
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import Exercise, FirstPhase, Pattern
from bot.training.exercises.muscles import prime_groups
from bot.training.kit import Kit
from bot.training.substitutes import can_do, kit_version
from bot.training.volume import hard_sets, say_sets, session_minutes, weekly_sets

_PUSH = frozenset({Pattern.HORIZONTAL_PUSH, Pattern.VERTICAL_PUSH})
_PULL = frozenset({Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PULL, Pattern.REAR_SHOULDER})
_SQUAT = frozenset({Pattern.SQUAT, Pattern.LUNGE})
_HINGE = frozenset({Pattern.HINGE, Pattern.BRIDGE, Pattern.KNEE_FLEXION})
_MAIN_GROUPS = ("chest", "lats", "side shoulders", "quadriceps", "hamstrings", "glutes")
_FEW, _MANY = Decimal(5), Decimal(20)
_JUMP = Decimal("1.5")
_LONG_MIN = 75
_HARD_DAY = 6

Stand_in = Callable[[Slot, Kit], str | None]


@dataclass(frozen=True, slots=True)
class MemberKit:
    name: str
    kit: Kit


@dataclass(frozen=True, slots=True)
class Remark:
    """rule: which check spoke; source: where the rule comes from; where: "day 2 A1" or "" for the whole block; text: for the coach."""

    rule: str
    text: str
    source: str
    where: str = ""


def check_block(
    block: Block,
    *,
    catalogue: Catalogue,
    last_block: Block | None = None,
    members: Sequence[MemberKit] = (),
    substitutes: Stand_in | None = None,
) -> tuple[Remark, ...]:
    """All remarks, the weightiest rules first. substitutes: names what a member would get for a slot, None where nothing fits.

    Where the sets change from week to week, the week with the most of them is looked at, in both blocks.
    """
    weeks, block = tuple(_weeks(block)), block_in_week(block, _hardest_week(block))
    last_block = block_in_week(last_block, _hardest_week(last_block)) if last_block else None
    return (
        *weeks,
        *_kit(block, catalogue, members, substitutes),
        *_balance(block, catalogue),
        *_volume(block, catalogue),
        *_jumps(block, last_block, catalogue),
        *_consecutive(block, catalogue),
        *_time(block, catalogue),
        *_tempo(block, catalogue),
        *_without_substitute(block, catalogue),
    )


def _week_counts(block: Block) -> dict[int, int]:
    """Hard sets of the whole block in week 1 and in every week with other sets."""
    weeks = {1, *(change.week for day in block.days for slot in day.slots for change in slot.weeks)}
    in_week = {week: block_in_week(block, week) for week in sorted(weeks)}
    return {week: sum(hard_sets(slot) for day in held.days for slot in day.slots) for week, held in in_week.items()}


def _hardest_week(block: Block) -> int:
    counts = _week_counts(block)
    return max(counts, key=lambda week: (counts[week], -week))


def _weeks(block: Block) -> Iterable[Remark]:
    counts = _week_counts(block)
    if len(counts) > 1:
        hardest = _hardest_week(block)
        others = ", ".join(f"{sets}{'' if week == 1 else f' from week {week}'}" for week, sets in counts.items())
        yield Remark("weeks", f"Checked in week {hardest}, which has the most sets: {others}.", "the block's own weeks")


def _entries(day: Day, catalogue: Catalogue) -> Iterable[tuple[Slot, Exercise]]:
    for slot in day.slots:
        entry = catalogue.get(slot.exercise)
        if entry is not None:
            yield slot, entry


def _kit(block: Block, catalogue: Catalogue, members: Sequence[MemberKit], substitutes: Stand_in | None) -> Iterable[Remark]:
    """Who lacks what, and what they will be offered."""
    lacking: dict[tuple[str, str], list[str]] = {}
    for day in block.days:
        for slot, entry in _entries(day, catalogue):
            for member in members:
                own = catalogue.get(kit_version(entry.id, member.kit, catalogue, written=slot.exercise_name))
                if own is None or can_do(own, member.kit) is not None:
                    continue
                instead = substitutes(slot, member.kit) if substitutes else None
                lacking.setdefault((slot.exercise_name, instead or "nothing that fits"), []).append(member.name)
    for (name, instead), names in lacking.items():
        who = ", ".join(dict.fromkeys(names))
        yield Remark("kit", f"{who} cannot do {name} with their kit; they will be offered {instead}.", "the members' own kit")


def _balance(block: Block, catalogue: Catalogue) -> Iterable[Remark]:
    def sets(patterns: frozenset[Pattern]) -> int:
        return sum(hard_sets(slot) for day in block.days for slot, entry in _entries(day, catalogue) if entry.pattern in patterns)

    for a, b, first, second in ((_PUSH, _PULL, "push", "pull"), (_SQUAT, _HINGE, "squat and lunge", "hinge")):
        one, two = sets(a), sets(b)
        if max(one, two) >= 6 and max(one, two) > 2 * min(one, two):
            yield Remark(
                "balance", f"{one} sets of {first} against {two} of {second} a week.", "common practice: within two to one"
            )


def _volume(block: Block, catalogue: Catalogue) -> Iterable[Remark]:
    counted = weekly_sets(block, catalogue)
    few = [
        f"{group} {say_sets(counted.fractional.get(group, Decimal(0)))}"
        for group in _MAIN_GROUPS
        if counted.fractional.get(group, Decimal(0)) < _FEW and group in _known_groups()
    ]
    if few:
        yield Remark(
            "few_sets",
            f"Few weekly sets (helping muscles counted half): {', '.join(few)}.",
            "Schoenfeld et al. 2017: least growth under 5; ACSM 2026: about 10",
        )
    many = [f"{group} {say_sets(sets, up=True)}" for group, sets in counted.direct.items() if sets > _MANY]
    if many:
        yield Remark("many_sets", f"Over 20 direct sets a week: {', '.join(many)}.", "Baz-Valle et al. 2022: 12 to 20 suggested")
    if counted.unmatched:
        yield Remark("unmatched", f"Not counted, since I do not know them: {', '.join(counted.unmatched)}.", "the catalogue")


def _known_groups() -> frozenset[str]:
    from bot.training.exercises.muscles import MuscleGroup

    return frozenset(group.value for group in MuscleGroup)


def _jumps(block: Block, last: Block | None, catalogue: Catalogue) -> Iterable[Remark]:
    if last is None:
        return
    now, before = weekly_sets(block, catalogue).fractional, weekly_sets(last, catalogue).fractional
    for group, sets in now.items():
        old = before.get(group, Decimal(0))
        if old >= 4 and sets >= old * _JUMP and sets - old >= 4:
            yield Remark(
                "jump",
                f"{group}: {say_sets(sets)} sets a week after {say_sets(old)} in the last block.",
                "common practice: volume grows by steps",
            )


def _consecutive(block: Block, catalogue: Catalogue) -> Iterable[Remark]:
    """The same muscle hard on days that follow each other without a rest day between."""
    # Round after round: the last day of a rhythm without a rest at its end is followed by the first of the next.
    rounds = len(block.days) + 1 if sum(block.rhythm) != len(block.days) else 2
    numbers = itertools.cycle(block.days)
    order: list[Day | None] = [next(numbers, None) if on else None for on in block.rhythm * rounds]
    told: set[tuple[int, int]] = set()
    for one, two in itertools.pairwise(order):
        if one is None or two is None or (one.number, two.number) in told:
            continue
        told.add((one.number, two.number))
        both = {group for group, sets in _direct(one, catalogue).items() if sets >= _HARD_DAY} & {
            group for group, sets in _direct(two, catalogue).items() if sets >= _HARD_DAY
        }
        for group in sorted(both):
            yield Remark(
                "consecutive",
                f"{group.capitalize()}: {_HARD_DAY} or more sets on day {one.number} and again the day after.",
                "common practice: a day between",
            )


def _direct(day: Day, catalogue: Catalogue) -> dict[str, int]:
    counted: dict[str, int] = {}
    for slot, entry in _entries(day, catalogue):
        for group in prime_groups(entry):
            counted[group.value] = counted.get(group.value, 0) + hard_sets(slot)
    return counted


def _time(block: Block, catalogue: Catalogue) -> Iterable[Remark]:
    for day in block.days:
        low, high = session_minutes(day, catalogue)
        if high > _LONG_MIN:
            yield Remark(
                "time",
                f"Day {day.number} takes about {low} to {high} minutes.",
                "sum of tempo, reps and rest",
                f"day {day.number}",
            )


def _tempo(block: Block, catalogue: Catalogue) -> Iterable[Remark]:
    for day in block.days:
        for slot, entry in _entries(day, catalogue):
            tempi = {target.tempo for target in work_sets(slot) if target.tempo}
            where = f"day {day.number} {slot.label}"
            if tempi and entry.first_phase is FirstPhase.HOLD:
                yield Remark("tempo", f"{where} {slot.exercise_name}: a hold has no tempo.", "the exercise is held", where)
            slow = [tempo for tempo in tempi if tempo.seconds_a_rep > 10]
            if slow:
                yield Remark(
                    "tempo",
                    f"{where} {slot.exercise_name}: {slow[0]} makes {slow[0].seconds_a_rep} s a rep.",
                    "Schoenfeld et al. 2015: over 10 s a rep grew less",
                    where,
                )


def _without_substitute(block: Block, catalogue: Catalogue) -> Iterable[Remark]:
    bare = [
        f"day {day.number} {slot.label}"
        for day in block.days
        for slot, entry in _entries(day, catalogue)
        if not slot.substitutes and all(way for way in entry.kit) and entry.kit
    ]
    if bare:
        more = f" and {len(bare) - 4} more" if len(bare) > 4 else ""
        yield Remark(
            "no_substitute",
            f"No substitute of yours for {', '.join(bare[:4])}{more}: I will compute one where it is asked for.",
            "common practice",
        )
