"""How do days, slots and lines about the block become a block? Readers of text and of tables both hand their findings in here.

Labels: "A1" is kept; "A" is A1; "1", "2", "-" and no label take the next letter; below "Superset" slots share a letter.
Numbers: training days are numbered 1, 2, ... in their order; rest days between them give the rhythm.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from copy import deepcopy
from dataclasses import replace
from typing import Any

from bot.language.blocks.conventions import Conventions
from bot.language.blocks.day_draft import DayDraft, Superset
from bot.language.blocks.day_repeats import change_day, copies_of
from bot.language.blocks.growth import add_sets, grow
from bot.language.blocks.headings import WEEKDAYS, DayHeading, letters_of, read_day
from bot.language.blocks.joined import join
from bot.language.blocks.names import Names, folded, kit_named
from bot.language.blocks.results import BlockReading, Understood, UnknownName
from bot.language.blocks.rhythm import rhythm_of
from bot.language.blocks.scan import Clauses
from bot.language.blocks.slot_draft import SetLine, SlotDraft
from bot.language.blocks.slots import finish
from bot.language.blocks.weeks import WEEKS_LIMIT
from bot.language.problems import Place, Problem, error, quoted, warning
from bot.training.blocks import Block, Day, ExerciseId, Measure, PolicyKind, Slot, work_sets
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import Exercise, LoadStyle
from bot.training.loads import LoadKind
from bot.training.prescriptions import UNIT_WORDS

SLOTS_LIMIT = 300  # written out for four weeks, 7 days of 10 exercises are 280
MISTAKES_LIMIT = 60
_SAID_ONE_BY_ONE = 3  # warnings of one kind


class Assembler:
    """Collects what the readers find; `reading` puts it together, or says everything that is wrong."""

    def __init__(self, catalogue: Catalogue, own_names: Mapping[str, ExerciseId]) -> None:
        self.names = Names(catalogue, own_names)
        self.problems: list[Problem] = []
        self.days: list[DayDraft] = []
        self.name = ""
        self.weeks: tuple[int, int | None, int | None] | None = None
        self.weeks_said: tuple[int, int | None, int | None] | None = None  # within a sentence: less sure than a line of its own
        self.weekdays: tuple[int, ...] = ()  # that the group trains on, Monday 0
        self.same_weekdays: tuple[tuple[int, int], ...] = ()
        self.rhythm: tuple[bool, ...] | None = None
        self.days_off: tuple[str, ...] = ()
        self.aims: dict[int, str] = {}
        self.notes: list[str] = []
        self.policy = PolicyKind.USUAL
        self.aliases: list[tuple[str, str]] = []
        self.superset: Superset | None = None
        self.slot: SlotDraft | None = None
        self.conventions = Conventions()
        self.rests_behind: list[tuple[Place, str]] = []  # times behind the sets, taken for rests
        self.in_notes = False  # the lines that follow a "Note:" belong to it

    def gives_up(self, place: Place) -> bool:
        """Is so much wrong, or so much there, that reading on helps nobody? Said once, at the place reached."""
        slots = sum(len(day.slots) for day in self.days)
        mistakes = sum(problem.is_error for problem in self.problems)
        if slots <= SLOTS_LIMIT and mistakes <= MISTAKES_LIMIT:
            return False
        if slots > SLOTS_LIMIT:
            wrong, instead = f"there are more than {SLOTS_LIMIT} exercises up to here", "send the plan of one block only"
        else:
            wrong, instead = (
                f"there are more than {MISTAKES_LIMIT} mistakes up to here, so I stopped reading",
                "mend these and send it again",
            )
        self.problems.append(error(place, "", wrong, instead))
        return True

    @property
    def day(self) -> DayDraft | None:
        return self.days[-1] if self.days and not self.days[-1].heading.is_rest else None

    def open_day(self, heading: DayHeading, place: Place, week: int = 1) -> None:
        self.close_superset()
        self.slot = None
        if week == 1 or not heading.is_rest:
            self.days.append(DayDraft(heading, place, week=week))

    def need_day(self, place: Place) -> DayDraft:
        if self.day is None:
            self.days.append(DayDraft(DayHeading(""), place, is_given=False))
        assert self.day is not None
        return self.day

    def open_superset(self, letter: str, rounds: int | None, place: Place) -> Superset:
        self.close_superset()
        self.need_day(place)
        self.slot = None
        self.superset = Superset(letter or self.next_letter(), rounds)
        return self.superset

    def close_superset(self) -> None:
        """A rest said for the whole superset is the rest after its last exercise."""
        if self.superset and self.superset.slots:
            *others, last = self.superset.slots
            for name, value in self.superset.fields.items():
                last.fields.setdefault(name, value)
            for slot in others:
                if self.superset.between is not None:
                    slot.fields.setdefault("rest", self.superset.between)
                slot.rests_later = "rest" in self.superset.fields or "rest" in last.fields
        self.superset = None

    def open_slot(self, label: str | None, name: str, place: Place) -> SlotDraft:
        day = self.need_day(place)
        copy = self.copied(label, name)
        given = copy.label if copy else self._label(label)
        above = day.slots[-1] if day.slots else None
        slot = SlotDraft(place.of_slot(given), given, name.strip(), has_label=bool(label), said_label=(label or "").upper())
        if copy is not None:
            day.slots[day.slots.index(copy)] = self.slot = slot
            return slot
        if any(other.label == given for other in day.slots):
            self.problems.append(
                error(
                    place,
                    given,
                    f"{given} is there twice on this day, the second time for {quoted(name)}",
                    "give every exercise a label of its own, such as A1, A2, B1",
                )
            )
        if self.superset:
            slot.rounds, slot.default = self.superset.rounds, self.superset.intervals
            if self.superset.is_timed:
                slot.fields["intervals"] = True
            if slot.default is not None:
                slot.fields.update(self.superset.fields)
            self.superset.slots.append(slot)
        day.slots.append(slot)
        day.rest_below = None
        if above is not None and above.joins_next:
            join(day.slots, (above.label, slot.label))
        self.slot = slot
        return slot

    def join(self, marks: tuple[str, ...]) -> None:
        """Exercises of the day, by their numbers, are a superset; those that come later are joined when the day is put together."""
        day = self.need_day(Place())
        if not join(day.slots, marks):
            day.joined.append(marks)

    def copied(self, label: str | None, name: str) -> SlotDraft | None:
        """The slot taken over from another day whose place a new line takes: that of its label, or of the same exercise."""
        copies = [slot for slot in (self.day.slots if self.day else []) if slot.is_copy]
        if label:
            return next((slot for slot in copies if slot.label in (label.upper(), f"{label.upper()}1")), None)
        return next((slot for slot in copies if self.same_exercise(slot.name, name)), None)

    def same_exercise(self, one: str, other: str) -> bool:
        """Do two names mean one exercise, or is the second a shorter way to say the first?"""
        found = self.names.find(one)[0], self.names.find(other)[0]
        return (
            folded(one) == folded(other)
            or (found[0] == found[1] and found[0] is not None)
            or _shortens(folded(other), folded(one))
        )

    def like_day(self, words: str) -> DayDraft | None:
        """The training day of week 1 that a few words mean: by weekday, number or name."""
        letter = self.conventions.initials.get(words.lower())
        heading = DayHeading("", weekday=letter) if letter is not None else read_day(words) or read_day(f"day {words}")
        days = [day for day in self.days if not day.heading.is_rest and day.week == 1]
        named = [day for day in days if day.heading.name and folded(day.heading.name) == folded(words)]
        if named or heading is None or heading.is_rest:
            return named[0] if named else None
        for name in ("weekday", "number"):
            said = getattr(heading, name)
            if said is not None:
                fitting = [day for day in days if getattr(day.heading, name) == said]
                if not fitting and name == "number" and all(day.heading.number is None for day in days):
                    fitting = days[said - 1 : said]
                return fitting[0] if fitting else None
        return None

    def repeat_day(self, day: DayDraft, of: DayDraft, but: str, place: Place) -> list[str]:
        """Give a day the exercises of another, changed as the words say; returns the changes that could not be read."""
        day.slots += copies_of(of.slots)
        day.warm_up += of.warm_up
        self.slot = None
        return change_day(day.slots, but, self.same_exercise, place) if but else []

    @property
    def labels_given(self) -> bool:
        """Does the exercise before bear a label that the coach wrote?"""
        return bool(self.day and self.day.slots and self.day.slots[-1].has_label)

    def slot_above(self, label: str) -> SlotDraft | None:
        """The slot of this label on the day that is being read ("B" is B1); the last one where no label is said."""
        slots = self.day.slots if self.day else []
        if not label:
            return slots[-1] if slots else None
        return next((slot for slot in reversed(slots) if slot.label in (label, f"{label}1")), None)

    def _label(self, raw: str | None) -> str:
        label = (raw or "").upper()
        if re.fullmatch(r"[A-Z]{1,2}\d{1,2}", label):
            if self.superset and not label.startswith(self.superset.letter):
                self.close_superset()
            return label
        if self.superset and label.isdigit() and self.superset.counts_letters:
            self.close_superset()  # "2. Superset: a, b" ends where "3." begins
        if self.superset and re.fullmatch("[A-Z]", label):
            if not self.superset.slots:
                self.superset.counts_letters = label == "A"
            elif not self.superset.counts_letters and label != self.superset.letter:
                self.close_superset()
        if self.superset:
            return f"{self.superset.letter}{len(self.superset.slots) + 1}"
        if re.fullmatch(r"[A-Z]{1,2}", label):
            return f"{label}1"
        return f"{self.next_letter()}1"

    def next_letter(self) -> str:
        used = {slot.label.rstrip("0123456789") for slot in (self.day.slots if self.day else ())}
        # One more than there are used, so one of them is free.
        return next(letters for letters in map(letters_of, range(1, len(used) + 2)) if letters not in used)

    def note(self, said: str) -> None:
        """Words that are no part of an exercise: of the day, or of the block; the first short line is its name."""
        if self.day is not None:
            self.day.notes.append(said)
        elif not self.name and not self.days and len(said) <= 80 and not self.notes and not self.in_notes:
            self.name = said.rstrip(": ")
        else:
            self.notes.append(said.strip("*_"))

    def add_aim(self, low: int, high: int | None, text: str) -> None:
        for week in range(low, min(high or low, 12) + 1):
            self.aims[week] = "; ".join(part for part in (self.aims.get(week, ""), text) if part)

    def reading(self) -> BlockReading:
        """Put everything together. Problems are in the order of their places."""
        self.close_superset()
        self.names.aliases = {folded(alias): name for alias, name in self.aliases}
        self.names.forget()
        for again in [day for day in self.days if day.week > 1]:
            self._take_week(again)
        self.days = [day for day in self.days if day.week == 1]
        self._write_out_same_weekdays()
        self._write_out_shared_days()
        self._say_rests_behind()
        training = [day for day in self.days if not day.heading.is_rest]
        unknown: dict[str, list[tuple[int, str]]] = {}
        days = tuple(self._day(number, draft, unknown) for number, draft in enumerate(training, start=1))
        self._check_days(training)
        block = self._block(days)
        problems = tuple(sorted(self.problems, key=lambda problem: problem.where.line or 0))
        named = tuple(
            UnknownName(name, tuple(places), self.names.find(name)[1]) for name, places in unknown.items()
        )  # fmt: skip
        understood = Understood(
            len(days), sum(len(day.slots) for day in days), sum(len(work_sets(slot)) for day in days for slot in day.slots)
        )
        has_errors = any(problem.is_error for problem in problems)
        return BlockReading(None if has_errors else block, _once(problems), named, understood)

    def _say_rests_behind(self) -> None:
        """A coach who writes every rest so is told once."""
        many = len(self.rests_behind) > _SAID_ONE_BY_ONE
        for place, said in self.rests_behind[: 1 if many else None]:
            everywhere = f", and so in {len(self.rests_behind)} places" if many else ""
            wrong = f"{quoted(said)} behind the sets is read as the rest{everywhere}"
            self.problems.append(warning(place, said, wrong, f"write rest {said} to be sure"))

    def _write_out_same_weekdays(self) -> None:
        """ "Mon and Thu the same", and only one of them is written out."""
        for pair in self.same_weekdays:
            there = [day for day in self.days if day.heading.weekday in pair and not day.heading.is_rest]
            if len(there) == 1 and there[0].heading.also is None:
                other = next(weekday for weekday in pair if weekday != there[0].heading.weekday)
                name = there[0].heading.name
                name = WEEKDAYS[other].capitalize() if name.lower() in WEEKDAYS else name
                there[0].heading = replace(there[0].heading, also=DayHeading(name, weekday=other))

    def _write_out_shared_days(self) -> None:
        """ "Day 1 & 3" stands for two days with the same exercises, each in its place."""
        twins = [replace(deepcopy(day), heading=day.heading.also) for day in self.days if day.heading.also is not None]
        if not twins:
            return
        self.days += twins
        for of in ("number", "weekday"):
            if all(getattr(day.heading, of) is not None for day in self.days):
                self.days.sort(key=lambda day: getattr(day.heading, of))
                return

    def _take_week(self, again: DayDraft) -> None:
        """A day written out again for a later week: its sets go to the slots of the day that it repeats."""
        day = next((first for first in self.days if first.week == 1 and _same_day(first.heading, again.heading)), None)
        if day is None:
            name = again.heading.name or f"day {again.heading.number}"
            wrong = f"week {again.week} has {quoted(name)}, which week 1 has not"
            self.problems.append(
                error(again.place, name, wrong, "write the same days in every week, or call it a day of week 1 too")
            )
            return
        for slot in again.slots:
            first = next((one for one in day.slots if one.label == slot.label), None)
            if first is None or self._differs(first, slot):
                there = quoted(first.name) if first else "nothing"
                wrong = f"week {again.week} has {quoted(slot.name)} at {slot.label}, where week 1 has {there}"
                instead = "keep each exercise in its place over the weeks, or send the later weeks as the next block"
                self.problems.append(error(slot.place, slot.name, wrong, instead))
                continue
            first.weeks.setdefault(again.week, []).extend(slot.said)
            first.problems += slot.problems

    def _differs(self, first: SlotDraft, again: SlotDraft) -> bool:
        exercises = self.names.find(first.name)[0], self.names.find(again.name)[0]
        return folded(first.name) != folded(again.name) and (None in exercises or exercises[0] != exercises[1])

    def _rest_for_all(self, draft: DayDraft) -> None:
        """A rest below the last of several exercises, the only one of the day, is the rest of all."""
        last = draft.slots[-1] if draft.slots else None
        others = draft.slots[:-1]
        if draft.rest_below is None or last is None or len(others) < 2 or any("rest" in slot.fields for slot in others):
            return
        if any(slot.label.rstrip("0123456789") == last.label.rstrip("0123456789") for slot in others):
            return  # of a superset: it rests after its last exercise
        for slot in others:
            slot.fields["rest"] = draft.rest_below
        wrong = "the rest below the last exercise is taken for all exercises of the day"
        self.problems.append(warning(last.place, "rest", wrong, "write it in the exercise's own line if it is for that one only"))

    def _day(self, number: int, draft: DayDraft, unknown: dict[str, list[tuple[int, str]]]) -> Day:
        for marks in draft.joined:
            if not join(draft.slots, marks):
                draft.notes.append(f"superset: {', '.join(marks)}")
        self._rest_for_all(draft)
        slots = tuple(self._slot(number, slot, unknown, is_first=slot is draft.slots[0]) for slot in draft.slots)
        if not slots:
            name = draft.heading.name or f"day {number}"
            self.problems.append(
                error(draft.place, name, f"{quoted(name)} has no exercises", "write them below it, or call it a rest day")
            )
        return Day(number, draft.heading.name, slots, tuple(draft.warm_up), "; ".join(draft.notes))

    def _slot(self, number: int, draft: SlotDraft, unknown: dict[str, list[tuple[int, str]]], *, is_first: bool) -> Slot:
        exercise, _matches, mended = self.names.find(draft.name)
        entry = self.names.catalogue.get(exercise)
        if entry is not None and entry.load_style is LoadStyle.BODY and not entry.kit and _asks_for_a_bar(draft):
            exercise, entry, mended = self._with_bar(draft, exercise, entry, mended)
        if entry is not None and entry.measure is not Measure.REPS:
            draft.measure = entry.measure
        self._as_usual(draft)
        self._grow(draft)
        self._add_sets(draft, is_first=is_first)
        slot = finish(draft, kit_of=kit_named)
        self.problems += draft.problems
        if exercise is None:
            unknown.setdefault(draft.name, []).append((number, draft.label))
        elif mended and entry is not None:
            self.problems.append(warning(draft.place, draft.name, f"{quoted(draft.name)} is taken as {entry.name}"))
        return Slot(**{**_fields(slot), "exercise": exercise})

    def _with_bar(
        self, draft: SlotDraft, exercise: ExerciseId | None, entry: Exercise, mended: bool
    ) -> tuple[ExerciseId | None, Exercise, bool]:
        """ "Squat 100 kg" is the one with a bar, where the catalogue has one of that name."""
        found = self.names.catalogue.names.find(f"barbell {draft.name}", limit=1)
        other = self.names.catalogue.get(found[0].exercise) if found and found[0].exact else None
        if other is None:
            return exercise, entry, mended
        wrong = f"{quoted(draft.name)} with that load is taken as {other.name}"
        self.problems.append(warning(draft.place, draft.name, wrong, "write its whole name to be sure"))
        return other.id, other, False

    def _grow(self, draft: SlotDraft) -> None:
        """ "Add 5 s every week" is written out over the block's weeks, and said so; where it cannot be, it stays a note."""
        growth = draft.grows
        if growth is None:
            return
        unit = UNIT_WORDS[growth.measure]
        weeks = (self.weeks or self.weeks_said or (Block("", ()).weeks_default,))[0]
        said = f"{growth.more} {unit} more each week"
        if grow(draft, growth, min(weeks, WEEKS_LIMIT)):
            self.problems.append(warning(draft.place, said, f"{quoted(said)} is written out over {weeks} weeks"))
        else:
            draft.notes.append(said)

    def _add_sets(self, draft: SlotDraft, *, is_first: bool) -> None:
        """Sets that the coach adds in later weeks, to this exercise too."""
        more = self.conventions.more_sets
        if more is None or (more.only_first and not is_first):
            return
        weeks = (self.weeks or self.weeks_said or (Block("", ()).weeks_default,))[0]
        if not add_sets(draft, more, weeks):
            wrong = f"the sets on top from week {more.low} on cannot be added here"
            self.problems.append(
                warning(draft.place, draft.name, wrong, f"write week {more.low}: and its sets below the exercise")
            )

    def _as_usual(self, draft: SlotDraft) -> None:
        """What the coach said of every exercise, where this one says nothing else."""
        usual = self.conventions
        if usual.rest is not None and not draft.rests_later:
            draft.fields.setdefault("rest", usual.rest)
        if draft.measure in (None, Measure.REPS):
            marks = [mark for name, mark in usual.marks.items() if not draft.says(name)]
            draft.said += [(Clauses(marks=[mark]), draft.place) for mark in marks]

    def _check_days(self, training: list[DayDraft]) -> None:
        if not training:
            self.problems.append(
                error(
                    Place(),
                    "",
                    "there are no days with exercises in it",
                    "write a line such as Day 1: Lower, and below it lines such as A1 Goblet squat 3x8-10",
                )
            )
            return
        if not training[0].is_given and not any(self.names.find(slot.name)[0] for slot in training[0].slots):
            wrong = "no day and no exercise that I know is named, so I take it for no block"
            self.problems.append(error(Place(), "", wrong, "write Day 1 above the exercises of the first day"))
        elif len(training) == 1 and not training[0].is_given:
            self.problems.append(
                warning(
                    Place(),
                    "",
                    "no day is named, so everything is taken as one day",
                    "write Day 1, Day 2 above the exercises of each day",
                )
            )
        elif not training[0].is_given:
            first = training[0]
            self.problems.append(
                error(
                    first.place,
                    first.slots[0].name if first.slots else "",
                    "there are exercises before the first day",
                    "write the day's name above them, such as Day 1",
                )
            )
        seen: dict[int, Place] = {}
        for number, day in enumerate(training, start=1):
            said = day.heading.number
            if said is None:
                continue
            if said in seen:
                self.problems.append(
                    error(day.place, f"day {said}", f"day {said} is there twice", "give every day a number of its own")
                )
            seen[said] = day.place
            if (
                said != number
                and len(seen) == number
                and not any(d.heading.number and d.heading.number < said and d.heading.is_rest for d in self.days)
                and not any(off.isdigit() and int(off) < said for off in self.days_off)
            ):
                self.problems.append(
                    warning(
                        day.place,
                        f"day {said}",
                        f"day {said} is the block's training day {number}, since no day {number} is written",
                    )
                )

    def _block(self, days: tuple[Day, ...]) -> Block:
        default, least, most = self.weeks or self.weeks_said or (None, None, None)
        plain = Block("", ())
        weeks = default or plain.weeks_default
        low = least if least is not None else min(plain.weeks_min, weeks)
        high = most if most is not None else max(plain.weeks_max, weeks)
        if not 1 <= low <= weeks <= high <= 52:
            self.problems.append(
                error(
                    Place(),
                    str(weeks),
                    f"{weeks} weeks, at least {low} and at most {high}, cannot be",
                    "write the usual length and its bounds, such as Weeks: 4 (4 to 10)",
                )
            )
        last = max(self.aims, default=0)
        aims: list[str] = []
        for week in range(1, last + 1):
            aims.append(self.aims.get(week, aims[-1] if aims else ""))
        return Block(
            name=self.name,
            days=days,
            rhythm=self._rhythm(),
            weeks_default=weeks,
            weeks_min=low,
            weeks_max=high,
            week_aims=tuple(aims),
            note="; ".join(self.notes),
            policy=self.policy,
            aliases=tuple(self.aliases),
        )

    def _rhythm(self) -> tuple[bool, ...]:
        if self.rhythm is None:
            return rhythm_of([day.heading for day in self.days], weekdays=self.weekdays, days_off=self.days_off)
        if not any(self.rhythm):
            wrong, instead = "the rhythm has no training day", "write it like Rhythm: on, on, off"
            self.problems.append(error(Place(), "rhythm", wrong, instead))
        return self.rhythm


_BAR_KG = 40  # more than people hold in their hands for a body-weight exercise


def _asks_for_a_bar(draft: SlotDraft) -> bool:
    """Is a share of the heaviest single wanted, or a load that only a bar takes?"""
    said = [part.said if isinstance(part, SetLine) else part[0] for part in draft.said]
    for mark in (mark for clauses in said for mark in clauses.marks):
        if mark.field == "percent_1rm":
            return True
        if mark.field == "load" and any(load.kind is LoadKind.IMPLEMENT and (load.kg or 0) >= _BAR_KG for load in mark.values):
            return True
    return False


def _same_day(first: DayHeading, again: DayHeading) -> bool:
    if first.is_rest:
        return False
    if first.number is not None and again.number is not None:
        return first.number == again.number
    if first.weekday is not None and again.weekday is not None:
        return first.weekday == again.weekday
    return folded(first.name) == folded(again.name)


def _shortens(short: str, name: str) -> bool:
    """ "rows" of "one arm dumbbell rows": the same last words, singular or plural."""
    plain = [word.rstrip("s") for word in short.split()], [word.rstrip("s") for word in name.split()]
    return bool(plain[0]) and plain[1][-len(plain[0]) :] == plain[0]


def _once(problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
    return tuple({problem.sentence: problem for problem in problems}.values())


def _fields(slot: Slot) -> dict[str, Any]:
    return {name: getattr(slot, name) for name in Slot.__dataclass_fields__}
