"""What does a set mean that is told by another one: same, as planned, up 2.5, one more than last week?

"same"                       the set before, again (at the first set: last time's first set)
"same but 11"                its load, 11 counted
"up 2.5 got 9"               2.5 heavier than the set before (else than last time), 9 counted
"one more than last week"    last time's same set, one rep more
"as planned"                 the coach's numbers, where they are one number and not a range
"""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from bot.language.reading.drafts import Draft, load_of
from bot.language.reading.grammar import Entry, Item
from bot.language.reading.numbers import NUMBER_WORDS
from bot.language.reading.setting import Setting
from bot.language.reading.terms import Term
from bot.language.reading.words import SET_NUMBERS
from bot.training.blocks import Measure
from bot.training.exercises.entry import LoadStyle
from bot.training.loads import Load, Unit, from_kg
from bot.training.records import SetDone, SetRecord, Source

_SLIGHT = 3
_DROPPED = frozenset(("dropped", "drop", "dropping"))
_BEFORE_STEP = frozenset(
    [
        "by",
        "to",
        "with",
        "a",
        "an",
        "the",
        "another",
        "at",
        "on",
        "weight",
        "load",
        "now",
        "got",
        "did",
        "and",
        "of",
        "about",
        "from",
        "only",
        "just",
        "it",
        "for",
        "kg",
        "lb",
    ]
)
_MINUS = re.compile(
    r"\b(?:same(?: again)?|again)\b(?: as (?:the |my )?(?:last|previous|first|one before)(?: set| one| time)?)?[\s,]*(?P<way>minus|less|plus) (?P<n>one|two|three|[1-3])\b(?!\s*(?:kg|kilo|lb|pound))"
)
_AS_LAST_TIME = re.compile(r"(?:as|like|same as) last (?:week|time|session)\b")
_THAN_SET = re.compile(
    r"\bthan (?:the |my )?(?P<n>first|second|third|1st|2nd|3rd) (?:set|one|go|round)\b|\bthan set (?P<m>[1-9])\b"
)
_SAME_BEFORE = re.compile(r"\bsame (?:the )?$")
_AS_FIRST = re.compile(r"\b(?:same|exactly|just) (?:as|like) (?:the |my )?(?:first|1st)(?: one| set| go| round)?\b")
_SAME_COUNT = re.compile(r"\bsame (?:reps?|count|number|amount)\b")


def told_by_reference(entry: Entry, setting: Setting, unit: Unit, folded: str) -> tuple[list[Draft], str, Source] | None:
    """Drafts of an entry that refers to what is known, a code of trouble, and where the values come from; None if it refers to nothing."""
    marks = [mark for item in entry.items for mark in item.marks]
    numbers = [term for item in entry.items for term in item.numbers]
    bare = not marks and not any(term.sign for term in numbers) and not any(item.before == "d" for item in entry.items)
    if bare and not _KIT_STEP.search(folded):
        return None  # numbers alone refer to nothing
    kinds = {mark.kind for mark in marks}
    if "A" in kinds and numbers and marks_text(marks, "A") == "again" and _again_follows_number(entry, setting):
        kinds.discard("A")
    step_said = bool(_KIT_STEP.search(folded))
    dropped = any(item.before == "d" for item in entry.items)
    if (
        not step_said
        and not dropped
        and not kinds & set("AOl+vUD")
        and not (setting.needs_load and ("Q" in kinds or any(t.sign for t in numbers)))
    ):
        return None
    if len(numbers) > 4:
        return None
    number = _set_number(entry, setting)
    # "did the carries as written", "deadlifts exactly like last week": of an exercise that is named, all its sets are meant.
    named = bool(entry.label or entry.exercise) and not setting.records and not setting.in_turns
    counted = any(term.role in ("", "count") and not term.plural for term in numbers)
    if named and not counted and ("O" in kinds or ("l" in kinds and not kinds & set("+vUD"))):
        entry.items[0].marks.append(Term("*", "all", entry.start, entry.start))
        marks, kinds = [*marks, entry.items[0].marks[-1]], kinds | {"*"}
    if "O" in kinds and numbers and setting.needs_load:
        planned = _planned_with(entry, numbers, marks, number, setting, unit)
        if planned is not None:
            return planned
    if "O" in kinds and not numbers:
        return _as_planned(number, setting, everything=bool({"*"} & kinds))
    compared = "l" in kinds
    before = _last_time(setting, number) if compared else _before(setting, number)
    if (
        compared
        and "*" in kinds
        and len(numbers) <= 1
        and all(t.number == len(setting.targets) for t in numbers)
        and setting.last
    ):
        drafts = [_as_draft(r.done) for n in setting.free_numbers if (r := _last_time(setting, n)) is not None]
        if drafts and len(drafts) == len(setting.free_numbers):
            return drafts, "", Source.CARRIED  # "same as last week, all 4"
    if "A" in kinds and not compared:
        said = next(
            (
                item
                for item in entry.items
                if item.set_number and re.search(r"\bas (?:the )?(?:my )?(?:set|first|second|1st|2nd|s\d|#)", folded)
            ),
            None,
        )
        if said is not None:
            before = next((r for r in setting.records if r.place and r.place.number == said.set_number), before)
            said.set_number = 0
            number = _set_number(entry, setting)
        elif setting.records and _AS_FIRST.search(folded):
            before = setting.records[0]  # "same as the first one"
    stepped = _stepped(folded[entry.start : entry.end + 24], entry, numbers, before, setting)
    if stepped is not None:
        return stepped
    changes = [mark for mark in marks if mark.kind in "+vUD"]
    lighter = _dropped_by(entry, numbers, before) if setting.needs_load else None
    if lighter is not None and not changes:
        return _moved(entry, lighter, numbers, before, setting, unit, folded)
    if changes:
        return _changed(entry, changes[0], numbers, before, setting, unit, folded, number, compared=compared)
    added = "Q" in kinds and setting.needs_load
    signed = next((t for t in numbers if setting.needs_load and (t.sign or (added and (t.unit or t.each or t.hand)))), None)
    if signed is not None and "q" in kinds and not signed.unit:
        return [_as_draft(before.done)] if before is not None else [], "which_one", Source.CARRIED  # "145x6 +2 assisted"
    if signed is not None and before is not None and len(numbers) > 1 and not signed.text.startswith("bw"):
        change = Term("D" if signed.sign == "-" else "U", signed.sign, signed.start, signed.start)
        return _moved(entry, change, numbers, before, setting, unit, folded)
    slight = next((t for t in numbers if t.sign and not t.unit and t.number <= _SLIGHT), None)
    if "A" in kinds and slight is not None and len(numbers) == 1 and before is not None and before.done.count is not None:
        base = _as_draft(before.done)
        base.count = before.done.count + int(slight.number) * (-1 if slight.sign == "-" else 1)
        return [base], "which_one", Source.CARRIED  # "same -1": a rep rather than a kilo, but who knows
    fewer = _MINUS.search(folded)
    if "A" in kinds and fewer and before is not None and before.done.count is not None and len(numbers) <= 1:
        base = _as_draft(before.done)
        step = NUMBER_WORDS.get(fewer["n"], 0) or int(fewer["n"])
        base.count = before.done.count + (step if fewer["way"] == "plus" else -step)
        return [base], "" if base.count > 0 else "which_one", Source.CARRIED  # "same, minus one"
    of_load = (
        compared and bool(_AS_LAST_TIME.match(folded.strip())) and len(numbers) == 1 and numbers[0].bare and setting.needs_load
    ) or (compared and bool(re.search(r"\b(?:weight|load|kilos|kg)\b", folded)) and not any(t.unit or t.plural for t in numbers))
    if "A" in kinds or (compared and not numbers) or of_load:  # "last week's weight, 5 reps"
        return _same(entry, numbers, before, setting, unit, number, folded)
    return None


def marks_text(marks: list[Term], kind: str) -> str:
    return next((mark.text for mark in marks if mark.kind == kind), "")


def _again_follows_number(entry: Entry, setting: Setting) -> bool:
    """ "20 again, 12 11 9": again belongs to the number before it."""
    for item in entry.items:
        again = next((mark for mark in item.marks if mark.kind == "A"), None)
        if again is not None and item.numbers and item.numbers[0].start < again.start:
            counted = bool(item.ops) and item.ops[0] in "w@"  # "12 again with 20"
            if counted or not setting.needs_load:
                pass
            elif (len(item.numbers) == 1 and len(entry.items) > 1 and not item.numbers[0].role) or (
                len(item.numbers) > 1 and not item.numbers[0].role and item.numbers[1].start > again.start
            ):
                item.numbers[0].role = "load"
            item.marks.remove(again)
            return True
    return False


def _set_number(entry: Entry, setting: Setting) -> int:
    said = next((item.set_number for item in entry.items if item.set_number), 0)
    return said or (setting.free_numbers[0] if setting.free_numbers else len(setting.targets) or 1)


def _before(setting: Setting, number: int) -> SetRecord | None:
    earlier = [r for r in setting.records if r.place and r.place.number < number] or list(setting.records)
    return earlier[-1] if earlier else _last_time(setting, number)


def _last_time(setting: Setting, number: int) -> SetRecord | None:
    return next((r for r in setting.last if r.place and r.place.number == number), None)


def _as_draft(done: SetDone) -> Draft:
    return Draft(load=done.load, count=done.count, left=done.left, right=done.right, measure=done.measure)


def _as_planned(number: int, setting: Setting, *, everything: bool) -> tuple[list[Draft], str, Source]:
    places = setting.free_numbers if everything else (number,)
    drafts: list[Draft] = []
    trouble = ""
    for each in places:
        target = setting.target(each)
        if target is None or target.low is None or target.low != target.high:
            trouble = "planned_range"
        drafts.append(
            Draft(
                count=target.high if target else None,
                measure=target.measure if target else None,
                load=target.load if target else None,
            )
        )
    return drafts, trouble, Source.ASSUMED


def _planned_with(
    entry: Entry, numbers: list[Term], marks: list[Term], number: int, setting: Setting, unit: Unit
) -> tuple[list[Draft], str, Source] | None:
    """ "as planned with the 18s", "all as planned, 10s with the 16": the load said, the counts those of the plan."""
    everything = any(mark.kind == "*" for mark in marks)
    if everything and len(numbers) > 1:
        numbers = [t for t in numbers if not (t.bare and t.number == len(setting.targets))]  # "as planned, all three at 105"
    if len(numbers) == 1 and (numbers[0].role == "load" or numbers[0].plural):
        planned, trouble, source = _as_planned(number, setting, everything=everything)
        load, _ = load_of(numbers[0], [mark for mark in marks if mark.kind != "*"], setting, unit)
        return [replace(draft, load=load) for draft in planned], trouble, source
    target = setting.target(number)
    if len(numbers) != 2 or target is None:
        return None
    after_with = [t for item in entry.items for op, t in zip(item.ops, item.numbers[1:], strict=True) if op in "w@"]
    heavy = next((t for t in (*after_with, *numbers) if t.role == "load" or t in after_with), None)
    count = next((t for t in numbers if t is not heavy), None)
    if heavy is None or count is None or not (target.low or 0) <= count.number <= (target.high or 0):
        return None
    load, _ = load_of(heavy, [], setting, unit)
    return (
        [Draft(load=load, count=int(count.number)) for _ in (setting.free_numbers if everything else (number,))],
        "",
        Source.SAID,
    )


def _band_said(entry: Entry, setting: Setting, unit: Unit) -> Load | None:
    """ "chest press again. yellow and red together. 10": another band than before."""
    marks = [mark for item in entry.items for mark in item.marks]
    if not any(mark.kind == "c" for mark in marks) or not (setting.style is LoadStyle.BAND or any(m.kind == "b" for m in marks)):
        return None
    load = load_of(None, marks, setting, unit)[0]
    return load if load is not None and load.bands else None


def _same(
    entry: Entry, numbers: list[Term], before: SetRecord | None, setting: Setting, unit: Unit, number: int, folded: str
) -> tuple[list[Draft], str, Source] | None:
    if before is None and re.search(r"\bsame (?:weight|load|kilos|dumbbells?|bell|bar)\b", folded):
        before = next((r for r in reversed(setting.situation.today) if r.done.load is not None), None)
    if before is None:
        return None
    base = _as_draft(before.done)
    if len(numbers) == 1 and numbers[0].bare and _SAME_COUNT.search(folded):
        numbers[0].role = "load"  # "same reps, 22"
    for term in numbers:
        if (
            term.bare
            and before.done.load
            and term.number == before.done.load.amount
            and _SAME_BEFORE.search(folded, 0, term.start)
        ):
            term.role = "load"  # "12 again for the squat, same 24"
    text_load = next((t for t in numbers if t.unit or t.sign or t.plural or t.role == "load"), None)
    times = next((item.numbers[0] for item in entry.items if item.lone_x and item.numbers and item.numbers[0].bare), None)
    if times is not None and len(numbers) == 1 and 1 < times.number <= len(setting.free_numbers):
        times.role = "sets"  # "same x2"
    sets = next((int(t.number) for t in numbers if t.role == "sets"), 0)
    counts = [t for t in numbers if t is not text_load and t.role not in ("sets", "rpe", "rir")]
    if text_load is not None:
        load, _ = load_of(text_load, [m for i in entry.items for m in i.marks], setting, unit)
        base.load = load
    other_band = _band_said(entry, setting, unit)
    if other_band is not None:
        base.load = other_band
    if any(t.side for t in counts):
        base.count = None
        left = next(
            (int(t.number) for t in counts if t.side == "L"),
            before.done.left if before.done.left is not None else before.done.count,
        )
        right = next(
            (int(t.number) for t in counts if t.side == "R"),
            before.done.right if before.done.right is not None else before.done.count,
        )
        base.left, base.right = left, right
        drafts = [base]
    elif counts:
        drafts = []
        if setting.style is LoadStyle.BARBELL and len(counts) > 1:
            counts = [
                t for t in counts if not t.each and not t.hand
            ] or counts  # "same 10 each side, 7": the plates, and the count
        if (
            setting.sided
            and len(counts) == 2
            and counts[0].number == counts[1].number
            and re.search(r"\d\s*(?:and|&|/)\s*\d", folded)
        ):
            counts = counts[:1]  # "same weight, 10 and 10": both sides
        for term in counts:
            if term.value is not None and term.value != term.value.to_integral_value():
                load, _ = load_of(term, [], setting, unit)
                base.load = load
                continue
            if term.role == "" and setting.needs_load and _rather_a_load(term.number, before.done, setting):
                return None
            drafts.append(replace(base, count=int(term.number), left=None, right=None, about=term.about, count_words=[term]))
        drafts = drafts or [base]
    else:
        drafts = [base]
    if sets > 1 and len(drafts) == 1:
        drafts = [replace(drafts[0]) for _ in range(min(sets, 10))]
    if any(item.has("*") for item in entry.items) and len(drafts) == 1:
        drafts = [replace(drafts[0]) for _ in setting.free_numbers] or drafts
    _marks(entry, drafts)
    return drafts, "", Source.CARRIED


def _rather_a_load(value: Decimal, done: SetDone, setting: Setting) -> bool:
    count = done.worst_count or 0
    amount = done.load.amount if done.load and done.load.amount else None
    if amount is None or not count:
        return False
    return abs(float(value) / float(amount) - 1) < 0.3 < abs(float(value) / count - 1)


def _changed(
    entry: Entry, change: Term, numbers: list[Term], before: SetRecord | None, setting: Setting, unit: Unit, folded: str, number: int,
    *, compared: bool,
) -> tuple[list[Draft], str, Source] | None:  # fmt: skip
    """ "up 2.5 got 9", "down to 18, 10", "one more than last week", "2 less"."""
    if change.kind in "UD":
        return _moved(entry, change, numbers, before, setting, unit, folded)
    than = _THAN_SET.search(folded)
    if than is not None:
        number = SET_NUMBERS[than["n"] or than["m"]]
        before = next((r for r in setting.records if r.place and r.place.number == number), before)
    if before is None:
        return None
    step = 1 if change.text in ("one", "1", "an") and change.end - change.start > 4 else None
    giver = next((t for t in reversed(numbers) if t.end <= change.start and not t.unit), None)
    if giver is not None and re.search(r"[.!?\n]\s|\blast (?:two|few|rep)", folded[giver.end : change.start]):
        return None  # "50s 10. last two were more of a heave than a row"
    if giver is not None and setting.needs_load and giver.number != giver.number.to_integral_value():
        if before.done.load is None or before.done.load.amount is None:
            return None
        load = _moved_load(before.done.load, giver, unit, up=change.kind == "+")
        counts = [t for t in numbers if t is not giver and t.role in ("", "count")]
        drafts = [Draft(load=load, count=int(t.number), about=t.about) for t in counts] if load else []
        return (drafts, "", Source.SAID) if drafts else None
    if step is None and giver is not None:
        step = int(giver.number)
    if step is None and folded[max(0, change.start - 4) : change.start].strip().endswith("one"):
        step = 1
    alone = change.kind == "v" and len(numbers) <= 1
    if step is None or not (compared or alone or "than" in folded or "same" in folded):
        return None
    base = _as_draft(before.done)
    if base.count is None:
        return None
    base.count += step if change.kind == "+" else -step
    if base.count < 0:
        return None
    others = [t for t in numbers if t is not giver]
    if others:
        load, _ = load_of(others[0], [], setting, unit)
        base.load = load if others[0].unit else base.load
    _marks(entry, [base])
    return [base], "", Source.CARRIED


def _moved(
    entry: Entry, change: Term, numbers: list[Term], before: SetRecord | None, setting: Setting, unit: Unit, folded: str
) -> tuple[list[Draft], str, Source] | None:
    near = next((t for t in numbers if 0 <= change.start - t.end <= 1 and (t.unit or t.number % 1)), None)  # "2.5 up, 3 reps"
    by = near or next((t for t in numbers if t.start >= change.end), None)
    if by is None:
        return None
    between = folded[change.end : by.start]
    marks = [mark for item in entry.items for mark in item.marks]
    if any(mark.kind == "c" and change.end <= mark.start < by.start for mark in marks):
        for item in entry.items:
            item.marks = [mark for mark in item.marks if mark is not change]
        return None  # "moved up to grey, 15": the band is said itself
    if " to " in f" {between.strip()} ":
        by.role = "load"
        for item in entry.items:
            item.marks = [mark for mark in item.marks if mark is not change]
        return None  # an absolute load: the grammar has it
    if by.role in ("rir", "rpe") or not set(re.findall(r"[a-z]+", between)) <= _BEFORE_STEP:
        for item in entry.items:
            item.marks = [mark for mark in item.marks if mark is not change]
        return None  # "275x5 went up easy, could have done 3 more"
    if before is None or before.done.load is None or before.done.load.kg is None:
        return None
    if by.unit is None and by.role != "count" and before.done.load.amount and by.number >= before.done.load.amount / 2:
        by.role = "load"  # "bumped up, 22 x 10": that is where it went, not by how much
        for item in entry.items:
            item.marks = [mark for mark in item.marks if mark is not change]
        return None
    if setting.style is LoadStyle.BARBELL and (by.each or by.hand):
        by.value = by.number * 2  # "added a 2.5 per side"
    load = _moved_load(before.done.load, by, unit, up=change.kind == "U")
    counts = [t for t in numbers if t is not by and t.role in ("", "count")]
    if load is None or not counts:
        return None
    drafts = [
        Draft(load=load, count=int(t.number), measure=t.measure, about=t.about, start=t.start, end=t.end, count_words=[t])
        for t in counts
    ]
    _marks(entry, drafts)
    return drafts, "", Source.SAID


_KIT_STEP = re.compile(
    r"\b(?P<way>up|down) (?:a|one) (?:band|bell|size|notch|weight|step|dumbbell|level|colou?r|pair)\b(?! to)|\bnext (?:band|bell|size|weight|dumbbells?|kettlebell|pair|colou?r)(?: up)?\b(?! to)"
    r"|\b(?P<than>heavier|stronger|thicker|lighter|thinner|weaker) (?:band|bell|weight|dumbbells?|pair|kettlebell)\b(?! to)|\b(?:band|bell|size) (?P<way2>up|down)\b(?! to)"
)
_LIGHTER = frozenset(("down", "lighter", "thinner", "weaker"))


def _stepped(
    said: str, entry: Entry, numbers: list[Term], before: SetRecord | None, setting: Setting
) -> tuple[list[Draft], str, Source] | None:
    """ "went up a band, 12", "next bell up, 6": the next step of the member's own kit."""
    found = _KIT_STEP.search(said)
    counts = [t for t in numbers if t.role in ("", "count") and not t.unit and not t.plural]
    if found is None or before is None or before.done.load is None or not counts or len(counts) < len(numbers):
        return None
    up = not {found["way"], found["than"], found["way2"]} & _LIGHTER
    load = _next_load(before.done.load, setting, up=up)
    drafts = [Draft(load=load, count=int(t.number), measure=t.measure, about=t.about, count_words=[t]) for t in counts]
    _marks(entry, drafts)
    return drafts, "" if load is not None else "missing_load", Source.SAID


def _next_load(load: Load, setting: Setting, *, up: bool) -> Load | None:
    if load.bands:
        names = [name.casefold() for name in setting.situation.kit.bands]
        if load.bands[0].casefold() not in names:
            return None
        place = names.index(load.bands[0].casefold()) + (1 if up else -1)
        return replace(load, bands=(setting.situation.kit.bands[place],)) if 0 <= place < len(names) else None
    if setting.ladder is None or load.amount is None or load.unit is None:
        return None
    ladder = setting.ladder
    amount = ladder.next_above(load.amount, load.unit) if up else ladder.next_below(load.amount, load.unit)
    return replace(load, amount=amount, unit=ladder.unit) if amount is not None else None


def _dropped_by(entry: Entry, numbers: list[Term], before: SetRecord | None) -> Term | None:
    """ "dropped 5 pounds, 12": a drop by so much, as no one drops to so little."""
    drop = next((item for item in entry.items if item.before == "d" and item.drop_word in _DROPPED and item.numbers), None)
    by = drop.numbers[0] if drop is not None else None
    known = before.done.load.amount if before is not None and before.done.load is not None else None
    if drop is None or by is None or known is None or len(numbers) < 2 or by.role == "count":
        return None
    if by.number > known * (Decimal("0.4") if by.unit is not None else Decimal("0.1")):
        return None
    drop.before = ","
    return Term("D", drop.drop_word, by.start, by.start)


def _moved_load(load: Load, by: Term, unit: Unit, *, up: bool) -> Load | None:
    assert load.amount is not None and load.unit is not None
    step_unit = by.unit or (load.unit if by.unit is None else unit)
    step = (
        by.number
        if step_unit is load.unit
        else from_kg(replace(load, amount=by.number, unit=step_unit).kg or Decimal(0), load.unit)
    )
    amount = load.amount + step if up else load.amount - step
    return replace(load, amount=amount) if amount > 0 else None


def _marks(entry: Entry, drafts: list[Draft]) -> None:
    from bot.language.reading.drafts import apply_mark

    for item in entry.items:
        for mark in _effects(item):
            apply_mark(mark, drafts)


def _effects(item: Item) -> list[Term]:
    return [
        mark
        for mark in item.marks
        if mark.kind in "FgGtTWY" or (mark.kind == "n" and (mark.role in ("rpe", "rir") or mark.partial))
    ] + [term for term in item.numbers if term.role in ("rpe", "rir")]


def planned_counts(setting: Setting, number: int) -> list[int]:
    """The counts a range allows, the top first: what "as planned" may have meant."""
    target = setting.target(number)
    if target is None or target.high is None:
        return []
    low = target.low if target.low is not None else target.high
    step = 1 if target.measure is Measure.REPS else 5
    return list(range(target.high, low - 1, -step))[:4]
