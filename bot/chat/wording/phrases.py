"""How are the small things said: a load, a set, a target, a date? Telegram HTML; whatever a person wrote is escaped."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from html import escape
from itertools import groupby

from bot.training.blocks import LoadRule, Measure, SetTarget, Sides, Slot, work_sets
from bot.training.kit import Kit, KitItem, Ladder
from bot.training.loads import LoadKind, say_amount, say_load
from bot.training.records import SetDone, Source

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
LONG_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
_UNITS = {Measure.REPS: "", Measure.SECONDS: " s", Measure.STEPS: " steps", Measure.METRES: " m"}
_SIDES = {
    Sides.BOTH: "",
    Sides.EACH: "each side",
    Sides.LEFT_FIRST: "each side, left first",
    Sides.RIGHT_FIRST: "each side, right first",
    Sides.WEAKER_FIRST: "each side, weaker side first",
    Sides.ONE_SIDE_THROUGH: "all sets of one side, then the other",
    Sides.ALTERNATING: "alternating, count each side",
}
ITEMS = {item: item.value.replace("_", " ") for item in KitItem} | {
    KitItem.PULL_UP_BAR: "pull-up bar",
    KitItem.MINI_BAND: "short band",
    KitItem.INCLINE_BENCH: "adjustable bench",
    KitItem.BALL: "exercise ball",
    KitItem.RINGS: "rings or straps",
    KitItem.EZ_BAR: "curl bar",
    KitItem.BAND: "long band",
    KitItem.BOX: "box or step",
}


def esc(text: str) -> str:
    """A person's words, safe inside HTML."""
    return escape(text, quote=False)


def bold(text: str) -> str:
    return f"<b>{esc(text)}</b>"


def say_date(on: date) -> str:
    return f"{WEEKDAYS[on.weekday()]} {on.day} {MONTHS[on.month - 1][:3]}"


def say_near_date(on: date, today: date | None) -> str:
    """ "today", "tomorrow", else the date with its weekday."""
    if today is not None and (on - today).days in (0, 1):
        return "today" if on == today else "tomorrow"
    return say_date(on)


def counted(count: int, thing: str) -> str:
    """ "1 set", "3 sets"."""
    return f"{count} {thing}{'' if count == 1 else 's'}"


def and_list(words: Sequence[str]) -> str:
    return " and ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else "".join(words)


def say_count(done: SetDone) -> str:
    """What was counted: "12", "L12 R10", "45 s", "17 (10+4+3)", "9 + 3 partial"."""
    unit = _UNITS[done.measure]
    if done.left is not None or done.right is not None:
        sides = [f"{mark}{count}" for mark, count in (("L", done.left), ("R", done.right)) if count is not None]
        text = " ".join(sides) + unit
    elif done.measure is Measure.SECONDS and done.count is not None and done.count >= 90:
        text = f"{done.count // 60}:{done.count % 60:02d} min"
    else:
        text = f"{done.count}{unit}" if done.count is not None else "done"
    if done.bouts:
        text += f" ({'+'.join(str(bout) for bout in done.bouts)})"
    if done.partials:
        text += f" + {done.partials} partial"
    return f"about {text}" if done.about else text


def say_set(done: SetDone) -> str:
    """One set: "20 kg × 12, RPE 8", "pair of 12 kg × 10, then 8 kg × 6"."""
    count = say_count(done)
    if done.load is None or (done.load.kind is LoadKind.BODY):
        text = f"{count} reps" if done.measure is Measure.REPS and count.isdigit() else count
    else:
        text = f"{say_load(done.load)} × {count}"
    extras = [
        f"then {say_load(drop.load) + ' × ' if drop.load else ''}{drop.count if drop.count is not None else ''}"
        for drop in done.drops
    ]
    if done.rpe is not None:
        extras.append(f"RPE {say_amount(done.rpe)}")
    if done.rir is not None:
        extras.append(f"{say_amount(done.rir)} in reserve")
    if done.failure:
        extras.append("to failure")
    if done.form_kept is False:
        extras.append("form broke down")
    if done.tempo_kept is False:
        extras.append("tempo not kept")
    text = ", ".join([text, *extras])
    return text + (
        " (load as before)" if done.load_source is Source.CARRIED and done.load and done.load.kind is not LoadKind.BODY else ""
    )


def say_sets(sets: Sequence[SetDone]) -> str:
    """Several sets of one exercise, the load said once where it stays: "16 kg × 12, 12, 10"."""
    parts = []
    for load, group in groupby(sets, key=lambda done: done.load):
        counts = ", ".join(say_count(done) for done in group)
        parts.append(counts if load is None or load.kind is LoadKind.BODY else f"{say_load(load)} × {counts}")
    return "; ".join(parts)


def say_range(target: SetTarget) -> str:
    """What to count to: "8–12", "10", "AMRAP", "at least 8", "30 s"."""
    unit = _UNITS[target.measure]
    if target.low is None and target.high is None:
        return "AMRAP" if target.amrap or target.measure is Measure.REPS else "as long as it goes"
    if target.amrap:
        return f"AMRAP ({target.low}+{unit})"
    if target.high is None:
        return f"{target.low}+{unit}"
    if target.low == target.high or target.low is None:
        return f"{target.high}{unit}"
    return f"{target.low}–{target.high}{unit}"


def say_target(target: SetTarget) -> str:
    """A set's target with its load: "18 kg × 8–9"."""
    return f"{say_load(target.load)} × {say_range(target)}" if target.load else say_range(target)


def say_targets(targets: Sequence[SetTarget]) -> str:
    """The targets of a slot, equal ones counted: "3 × 8–12" or "12, 10, 8"."""
    said = [say_target(target) for target in targets]
    if not said:
        return ""
    if len(set(said)) == 1:
        return f"{len(said)} × {said[0]}" if targets[0].load is None else f"{len(said)} sets: {said[0]}"
    loads = {target.load for target in targets}
    if len(loads) == 1 and targets[0].load:
        return f"{say_load(targets[0].load)} × {', '.join(say_range(target) for target in targets)}"
    return ", ".join(said)


def say_prescription(slot: Slot) -> str:
    """What the coach wrote for a slot, on one line."""
    targets = work_sets(slot)
    bare = [say_range(target) for target in targets]
    parts = [f"{len(bare)} × {bare[0]}" if len(set(bare)) == 1 and bare else ", ".join(bare)]
    if _SIDES[slot.sides]:
        parts.append(_SIDES[slot.sides])
    tempi = [str(target.tempo) for target in targets if target.tempo]
    if tempi:
        parts.append("tempo " + (tempi[0] if len(set(tempi)) == 1 else " / ".join(tempi)))
    efforts = {f"{say_amount(t.rir)} in reserve" for t in targets if t.rir is not None}
    efforts |= {f"RPE {say_amount(t.rpe)}" for t in targets if t.rpe is not None}
    efforts |= {f"{say_amount(t.percent_1rm)}% of 1RM" for t in targets if t.percent_1rm is not None}
    parts += sorted(efforts)
    if slot.load_rule in (LoadRule.RISES, LoadRule.FALLS):
        parts.append(f"load {slot.load_rule.value} each set")
    elif slot.load_rule is LoadRule.SAME:
        parts.append("same load for all sets")
    if slot.rest:
        span = f"{slot.rest.low_s}" if slot.rest.low_s == slot.rest.high_s else f"{slot.rest.low_s}–{slot.rest.high_s}"
        parts.append(f"rest {span} s")
    parts += _specials(targets)
    if slot.angle_deg is not None:
        parts.append(f"{slot.angle_deg}°")
    if slot.grip:
        parts.append(f"{slot.grip} grip" if "grip" not in slot.grip else slot.grip)
    return " · ".join(parts)


def _specials(targets: Sequence[SetTarget]) -> list[str]:
    said = []
    for number, target in enumerate(targets, 1):
        which = "" if all(bool(t.drops) == bool(target.drops) for t in targets) else f"set {number}: "
        if target.drops:
            cuts = [f"{drop.cut_percent}%" for drop in target.drops if drop.cut_percent]
            said.append(
                f"{which}{len(target.drops)} drop{'s' if len(target.drops) > 1 else ''}" + (f" of {cuts[0]}" if cuts else "")
            )
        if target.partials:
            where = (
                f" at the {target.partials.where}" if target.partials.where in ("top", "bottom") else f" {target.partials.where}"
            )
            said.append(f"+ {target.partials.count or ''} partial reps{where}".replace("  ", " ").rstrip())
    return list(dict.fromkeys(said))


def say_ladder(ladder: Ladder) -> str:
    amounts = [say_amount(amount) for amount in ladder.amounts]
    if len(amounts) > 4:
        gaps = {b - a for a, b in zip(ladder.amounts, ladder.amounts[1:], strict=False)}
        step = f" by {say_amount(gaps.pop())}" if len(gaps) == 1 else ""
        return f"{amounts[0]}–{amounts[-1]}{step} {ladder.unit.value}"
    return f"{', '.join(amounts)} {ladder.unit.value}"


def say_kit(kit: Kit) -> str:
    """What a member owns, with settings where they are known."""
    said = []
    for item in sorted(kit.items):
        ladder = kit.ladder(item)
        words = ITEMS[item] + (f" ({say_ladder(ladder)})" if ladder else "")
        if item is KitItem.BAND and kit.bands:
            words += f" ({', '.join(kit.bands)}; lightest first)"
        said.append(words)
    return ", ".join(said) or "nothing but the floor"


def say_weekdays(numbers: Iterable[int]) -> str:
    return ", ".join(WEEKDAYS[n] for n in numbers)


def lines(*parts: str) -> str:
    """Join lines, leaving out empty ones; a part of one space stays as an empty line."""
    return "\n".join("" if part == " " else part for part in parts if part)
