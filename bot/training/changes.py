"""What differs between two revisions of a block? Values per slot and set, each with one sentence for the people it concerns.

3 x 8-10 reps -> 4 x 8-10 reps            one change of the slot's sets
only set 2 has another tempo              one change of set 2
B2 is another exercise, a day was added   one change each
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from enum import StrEnum
from typing import Any

from bot.training.blocks import Block, Day, SetTarget, Slot, slot_in_week
from bot.training.prescriptions import SIDE_WORDS, say_rest, say_sets, say_target


class ChangeKind(StrEnum):
    BLOCK = "block"
    DAY_ADDED = "day_added"
    DAY_REMOVED = "day_removed"
    DAY = "day"
    SLOT_ADDED = "slot_added"
    SLOT_REMOVED = "slot_removed"
    EXERCISE = "exercise"
    SETS = "sets"
    SET = "set"
    SLOT = "slot"


@dataclass(frozen=True, slots=True)
class Change:
    """One difference. day, label, number: where (None, "" and None where it concerns more). before, after: in words, "" for none.

    subject: what is spoken of ("tempo" is part of "set 2"; "rest", "cues" are fields of a slot).
    """

    kind: ChangeKind
    subject: str
    before: str
    after: str
    day: int | None = None
    label: str = ""
    number: int | None = None
    exercise_name: str = ""

    @property
    def sentence(self) -> str:
        where = "".join((f"Day {self.day}" if self.day else "Block", f", {self.label}" if self.label else ""))
        if self.exercise_name:
            where += f" {self.exercise_name}"
        return f"{where}: {_what(self)}"


def _what(change: Change) -> str:
    if change.kind is ChangeKind.DAY_ADDED:
        return f"new: {change.after}."
    if change.kind is ChangeKind.SLOT_ADDED:
        return f"new, {change.after}."
    if change.kind in (ChangeKind.SLOT_REMOVED, ChangeKind.DAY_REMOVED):
        return "taken out."
    if change.kind is ChangeKind.EXERCISE:
        return f"in place of {change.before}."
    if not change.after:
        return f"{change.subject} taken out (was {change.before})."
    was = f" (was {change.before})" if change.before else ""
    return f"{change.subject} now {change.after}{was}."


_BLOCK_SUBJECTS = {
    "name": "name",
    "rhythm": "rhythm of on and off days",
    "week_aims": "aims of the weeks",
    "note": "note",
    "policy": "way to progress",
}


def changes_between(before: Block, after: Block) -> tuple[Change, ...]:
    """Every difference, the block's own first, then by day and slot in the new order; empty if nothing changed."""
    found = [*_of_block(before, after)]
    for number in sorted({day.number for day in (*before.days, *after.days)}):
        old, new = before.day(number), after.day(number)
        if old is None and new is not None:
            names = ", ".join(f"{slot.label} {slot.exercise_name}" for slot in new.slots)
            found.append(Change(ChangeKind.DAY_ADDED, "day", "", f"{new.name}: {names}" if new.name else names, number))
        elif new is None and old is not None:
            found.append(Change(ChangeKind.DAY_REMOVED, "day", old.name, "", number))
        elif old is not None and new is not None and old != new:
            found += _of_day(old, new)
    return tuple(found)


def _of_block(before: Block, after: Block) -> list[Change]:
    found = [
        Change(ChangeKind.BLOCK, words, _plain(getattr(before, field)), _plain(getattr(after, field)))
        for field, words in _BLOCK_SUBJECTS.items()
        if getattr(before, field) != getattr(after, field)
    ]
    old, new = (_weeks(block) for block in (before, after))
    return found + ([Change(ChangeKind.BLOCK, "length", old, new)] if old != new else [])


def _weeks(block: Block) -> str:
    return f"{block.weeks_default} weeks ({block.weeks_min} to {block.weeks_max})"


def _of_day(old: Day, new: Day) -> list[Change]:
    found = [
        Change(ChangeKind.DAY, words, _plain(getattr(old, field)), _plain(getattr(new, field)), new.number)
        for field, words in {"name": "name", "warm_up": "warm-up", "note": "note"}.items()
        if getattr(old, field) != getattr(new, field)
    ]
    for slot in new.slots:
        was = old.slot(slot.label)
        if was is None:
            found.append(_whole(ChangeKind.SLOT_ADDED, slot, new.number))
        elif was != slot:
            found += _of_slot(was, slot, new.number)
    for slot in old.slots:
        if new.slot(slot.label) is None:
            found.append(_whole(ChangeKind.SLOT_REMOVED, slot, new.number))
    return found


def _whole(kind: ChangeKind, slot: Slot, day: int) -> Change:
    sets, added = say_sets(slot), kind is ChangeKind.SLOT_ADDED
    return Change(kind, "slot", "" if added else sets, sets if added else "", day, slot.label, None, slot.exercise_name)


def _of_slot(old: Slot, new: Slot, day: int) -> list[Change]:
    at: dict[str, Any] = {"day": day, "label": new.label, "exercise_name": new.exercise_name}
    found: list[Change] = []
    if old.exercise_name != new.exercise_name or old.exercise != new.exercise:
        found.append(Change(ChangeKind.EXERCISE, "exercise", old.exercise_name, new.exercise_name, **at))
    found += _of_sets(old, new, day)
    found += _of_weeks(old, new, at)
    known = {"label", "exercise_name", "exercise", "sets", "weeks"}
    for field in (field.name for field in fields(Slot) if field.name not in known):
        was, now = getattr(old, field), getattr(new, field)
        if was != now:
            subject = _SUBJECTS.get(field, field)
            found.append(Change(ChangeKind.SLOT, subject, _slot_words(field, was), _slot_words(field, now), **at))
    return found


_SUBJECTS = {"load_rule": "load over the sets", "angle_deg": "angle", "substitutes": "substitutes", "policy": "way to progress"}


def _slot_words(field: str, value: object) -> str:
    if field == "rest":
        return say_rest(value) if value else ""  # type: ignore[arg-type]
    if field == "sides":
        return SIDE_WORDS[value] or "both together"  # type: ignore[index]
    if field == "angle_deg":
        return "" if value is None else f"{value}°"
    return _plain(value)


def _of_sets(old: Slot, new: Slot, day: int) -> list[Change]:
    """Set by set where the number of sets is the same and only some differ; else the slot's sets as a whole."""
    if old.sets == new.sets:
        return []
    differ = [n for n, (was, now) in enumerate(zip(old.sets, new.sets, strict=False)) if was != now]
    same_kinds = [target.kind for target in old.sets] == [target.kind for target in new.sets]
    if len(old.sets) != len(new.sets) or not same_kinds or len(differ) == len(new.sets):
        return [Change(ChangeKind.SETS, "sets", say_sets(old), say_sets(new), day, new.label, None, new.exercise_name)]
    return [
        Change(
            ChangeKind.SET, f"set {n + 1}", *_differing(old.sets[n], new.sets[n]), day, new.label, n + 1, new.exercise_name
        )
        for n in differ
    ]  # fmt: skip


def _of_weeks(old: Slot, new: Slot, at: dict[str, Any]) -> list[Change]:
    """Week by week, only those whose sets come out differently; what is said of week 1 alone is told already."""
    weeks = sorted({change.week for change in (*old.weeks, *new.weeks)})
    pairs = [(week, slot_in_week(old, week), slot_in_week(new, week)) for week in weeks]
    was_alike = {week: was.sets == now.sets for week, was, now in pairs}
    same_as_first = {week: was.sets == old.sets and now.sets == new.sets for week, was, now in pairs}
    sets = [
        Change(ChangeKind.SETS, f"sets from week {week} on", say_sets(was), say_sets(now), **at)
        for week, was, now in pairs
        if not was_alike[week] and not same_as_first[week]
    ]
    rests = [
        Change(ChangeKind.SLOT, f"rest from week {week} on", _slot_words("rest", was.rest), _slot_words("rest", now.rest), **at)
        for week, was, now in pairs
        if was.rest != now.rest and (was.rest, now.rest) != (old.rest, new.rest)
    ]
    return sets + rests


def _differing(old: SetTarget, new: SetTarget) -> tuple[str, str]:
    return say_target(old), say_target(new)


def _plain(value: object) -> str:
    if isinstance(value, bool):
        return "on" if value else "off"
    if isinstance(value, tuple | frozenset):
        parts = [_plain(item) for item in (sorted(value, key=str) if isinstance(value, frozenset) else value)]
        return (", " if all(part in ("on", "off") for part in parts) else "; ").join(parts)
    if isinstance(value, StrEnum):
        return value.value.replace("_", " ")
    return "" if value is None else str(value)
