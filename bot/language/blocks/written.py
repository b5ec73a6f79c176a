"""How is a block written as text, so that reading it gives the same block? In plain lines that a coach can go on editing.

    Block: Spring                       A1 Goblet squat: 3 x 8-10 reps, tempo 3-1-1-0
    Weeks: 4 (4 to 10)                    Rest: 60 s
    Rhythm: on, on, off                   Cue: ribs down
    Day 1: Lower                        A2 Curl
    Warm-up: 5 min walk                   Set 1: 12 reps
                                          Set 2: 10 reps, drop 20%

A name that would be read as something else stands in quotes.
"""

from __future__ import annotations

from dataclasses import replace

from bot.language.blocks.assemble import Assembler
from bot.language.blocks.day_repeats import repeated_day
from bot.language.blocks.headings import read_day
from bot.language.blocks.letters import controls_removed
from bot.language.blocks.typed import TypedReader
from bot.language.problems import Place
from bot.training.blocks import Block, Day, PolicyKind, SetKind, SetTarget, Sides, Slot, WeekSets
from bot.training.exercises.catalogue import load_catalogue
from bot.training.prescriptions import SIDE_WORDS, say_rest, say_target

POLICY_WORDS = {
    PolicyKind.USUAL: "usual",
    PolicyKind.REPS_ONLY: "reps only",
    PolicyKind.LOAD_ONLY: "load only",
    PolicyKind.HOLD: "hold",
    PolicyKind.TEMPO: "tempo",
}


def write_text(block: Block) -> str:
    """Write a whole block; `read_block` of it gives the block back (given the same catalogue and own names)."""
    lines = [f"{key}: {value}" for key, value in block_rows(block)]
    for day in block.days:
        lines += ["", day_line(day)]
        lines += [f"{key}: {value}" for key, value in day_rows(day)]
        for slot in day.slots:
            lines += slot_lines(slot)
    return "\n".join(lines) + "\n"


def block_rows(block: Block) -> list[tuple[str, str]]:
    """What is said of the block itself, as (key, value)."""
    rows = [("Block", one_line(block.name))] if block.name else []
    rows.append(("Weeks", f"{block.weeks_default} ({block.weeks_min} to {block.weeks_max})"))
    rows.append(("Rhythm", ", ".join("on" if on else "off" for on in block.rhythm)))
    if block.policy is not PolicyKind.USUAL:
        rows.append(("Progress", POLICY_WORDS[block.policy]))
    rows += [(f"Week {number}", one_line(aim)) for number, aim in enumerate(block.week_aims, start=1)]
    rows += [("Short name", f"{one_line(alias)} = {one_line(name)}") for alias, name in block.aliases]
    if block.note:
        rows.append(("Note", one_line(block.note)))
    return rows


def day_line(day: Day) -> str:
    """ "Day 2: Pull", the name in quotes where it would be taken for something else."""
    if not day.name:
        return f"Day {day.number}"
    name = one_line(day.name)
    heading = read_day(f"Day {day.number}: {name}")
    plain = (
        repeated_day(f"Day {day.number}: {name}") is None and heading is not None and heading.name == name and not heading.is_rest
    )
    return f"Day {day.number}: {name if plain else in_quotes(name)}"


def day_rows(day: Day) -> list[tuple[str, str]]:
    rows = [("Warm-up", one_line(line)) for line in day.warm_up]
    return [*rows, ("Note", one_line(day.note))] if day.note else rows


def slot_lines(slot: Slot) -> list[str]:
    """A slot with everything that is said of it."""
    name = one_line(slot.exercise_name)
    together = "" if slot.weeks else sets_together(slot.sets)
    if not reads_back(slot.label, name, together or ""):
        name = in_quotes(name)
    lines = [f"{slot.label} {name}: {together}" if together else f"{slot.label} {name}"]
    if not together and not slot.weeks:
        lines += [f"  {line}" for line in set_lines(slot.sets)]
    lines += [f"  {key}: {value}" for key, value in field_rows(slot)]
    return lines + [f"  {line}" for line in week_lines(slot)]


def week_lines(slot: Slot) -> list[str]:
    """The sets of each week that differ from those of the week before; none where all weeks are alike."""
    lines: list[str] = []
    for change in (WeekSets(1, slot.sets), *slot.weeks) if slot.weeks else ():
        together = sets_together(change.sets)
        lines += (
            [f"Week {change.week}: {together}"]
            if together
            else [f"Week {change.week}", *(f"  {line}" for line in set_lines(change.sets))]
        )
        if change.rest is not None:
            lines.append(f"Week {change.week}: rest {say_rest(change.rest)}")
    return lines


def sets_together(sets: tuple[SetTarget, ...]) -> str:
    """ "3 x 8-10 reps, tempo 3-1-1-0" where all sets are alike and simple; "" where each needs its line."""
    first = sets[0] if sets else SetTarget()
    alike = all(target == first for target in sets)
    if (
        not sets
        or not alike
        or first.kind is not SetKind.WORK
        or first.drops
        or first.note
        or (first.low is None and not first.amrap)
    ):
        return ""
    return f"{len(sets)} x {say_target(first)}"


def set_lines(sets: tuple[SetTarget, ...]) -> list[str]:
    """One line a set; warm-ups take no number."""
    lines: list[str] = []
    number = 0
    for target in sets:
        if target.kind is SetKind.WARM_UP:
            lines.append(f"Warm-up set: {_said(target)}")
            continue
        number += 1
        lines.append(f"Set {number}{' (burnout)' if target.kind is SetKind.BURNOUT else ''}: {_said(target)}")
    return lines


def _said(target: SetTarget) -> str:
    return say_target(replace(target, note=one_line(target.note)))


def field_rows(slot: Slot) -> list[tuple[str, str]]:
    """Everything but label, name and sets, as (key, value)."""
    rows: list[tuple[str, str]] = []
    if slot.rest is not None:
        rows.append(("Rest", say_rest(slot.rest)))
    if slot.sides is not Sides.BOTH:
        rows.append(("Sides", SIDE_WORDS[slot.sides]))
    if slot.load_rule.value != "free":
        rows.append(("Load", slot.load_rule.value))
    rows += [("Sub", name_in_list(one_line(name))) for name in slot.substitutes]
    rows += [("Cue", one_line(cue)) for cue in slot.cues]
    if slot.kit:
        rows.append(("Kit", ", ".join(sorted(item.value.replace("_", " ") for item in slot.kit))))
    if slot.grip:
        rows.append(("Grip", one_line(slot.grip)))
    if slot.angle_deg is not None:
        rows.append(("Angle", f"{slot.angle_deg}°"))
    if slot.demo:
        rows.append(("Demo", one_line(slot.demo)))
    if slot.policy is not PolicyKind.USUAL:
        rows.append(("Progress", POLICY_WORDS[slot.policy]))
    if slot.note:
        rows.append(("Note", one_line(slot.note)))
    return rows


def reads_back(label: str, name: str, sets: str) -> bool:
    """Is this name, written plainly, read as itself and nothing more?"""
    reader = TypedReader(Assembler(load_catalogue(), {}))
    reader.to.need_day(Place(line=1))
    reader.take(f"{label} {name}: {sets}" if sets else f"{label} {name}", Place(line=2), "Set 1: 5 reps")
    slots = [slot for day in reader.to.days for slot in day.slots]
    if len(slots) != 1 or slots[0].name != name or slots[0].label != label or slots[0].notes or slots[0].fields:
        return False
    return sum(len(part[0].schemes) for part in slots[0].said if isinstance(part, tuple)) == (1 if sets else 0)


def in_quotes(name: str) -> str:
    return '"' + name.replace('"', '""') + '"'


def name_in_list(name: str) -> str:
    """A substitute's name; in quotes where it holds what parts a list."""
    return in_quotes(name) if any(mark in name for mark in '/,;"') or " or " in name.lower() else name


def one_line(text: str) -> str:
    return " ".join(controls_removed(text).split())
