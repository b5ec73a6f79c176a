"""Which block does a typed text describe? Line by line, in whatever style its coach writes.

    Day 1 - Lower                                   opens a day
    Warm-up: 5 min brisk walk                       its warm-up
    A1. Goblet squat 3x10-12 @3110 rest 60s         opens a slot
        last set drop 20% x 2                       says more of the slot above
    cue: ribs down                                  so does a line with a known word in front
    Wed - rest                                      a rest day between
    Week 1: get used to it; week 2+: beat it        aims of the weeks

A line that is none of these is kept as a note of the slot, day or block above it; one with figures that no phrase takes is a mistake.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from bot.language.blocks import headings
from bot.language.blocks.assemble import Assembler
from bot.language.blocks.clauses import read_clauses
from bot.language.blocks.forms import Usual, lines_in, usual_form
from bot.language.blocks.letters import as_sent, controls_removed, even, without_marks
from bot.language.blocks.of_block import take_aims, take_of_block
from bot.language.blocks.phrases.free_words import KEYS
from bot.language.blocks.results import BlockReading
from bot.language.blocks.scan import Clauses
from bot.language.blocks.slot_text import JOINED, KEY_LINE, SET_LINE, SlotText, cut_name
from bot.language.blocks.weeks import split_weeks
from bot.language.problems import Place, error, quoted
from bot.training.blocks import ExerciseId, SetKind
from bot.training.exercises.catalogue import Catalogue

_WEEK_HEADING = re.compile(
    r"^(?:weeks?|wks?)\s*(?P<week>\d{1,2})(?:\s*(?:-|to|&|and)\s*\d{1,2})?\s*(?P<name>[:(,-].{0,40})?$", re.I
)
_BEGINS_WARM = re.compile(
    r"^(?:please\s+|we\s+|always\s+|first\s*,?\s*)*(?:begin|start|open|get\s+(?:warm|going|moving))\b.*\b(?:min(?:ute)?s?|easy|bike|walk|jog|skipping|mobility|circles|swings|stretch\w*)\b",
    re.I,
)
LINE_LIMIT = 1_000  # characters; reading time grows with the square of a line's length


def read_typed(text: str, *, catalogue: Catalogue, own_names: Mapping[str, ExerciseId]) -> BlockReading:
    """Read a whole block from text."""
    reader = TypedReader(Assembler(catalogue, own_names))
    lines = controls_removed(text).split("\n")
    for number, line in enumerate(lines, start=1):
        follows = next((later for later in lines[number:] if later.strip()), "")
        reader.take(line, Place(line=number), follows)
        if reader.to.gives_up(Place(line=number)):
            break
    return reader.to.reading()


class TypedReader:
    """Where we are in the text: before the days, in a day's warm-up, below a slot."""

    def __init__(self, to: Assembler) -> None:
        self.to = to
        self.slots = SlotText(to)
        self.in_warm_up = False
        self.warm_up_has_text = False
        self.week = 1
        self.is_exercise = False  # a column says so: the line names an exercise, whatever it looks like

    def take(self, line: str, place: Place, follows: str = "") -> None:
        set_off = bool(re.match(r"^\s*(?:#{1,6}\s|\*\*.*\*\*\s*:?\s*$|__.*__\s*$|={2,}.*={2,}\s*$|-{2,}\s*\w.*-{2,}\s*$)", line))
        text = without_marks(even(line))
        said = as_sent(line, text)
        if not re.search(r"\w", text):
            self._blank(line)
            return
        if len(text) > LINE_LIMIT:
            self.to.problems.append(error(place, text, f"the line is {len(text)} characters long", "write one exercise a line"))
            return
        for reads in (self._week_part, self._of_block, self._heading, self._warm_up, self._burnout):
            if reads(text, said, place, set_off=set_off, follows=follows):
                return
        if self.slots.add_set_line(text, said, place) or self._superset(text, place):
            return
        beside = lines_in(text)
        if len(beside) > 1:
            for part in beside:
                self._exercise_line(part, part, place, "", is_bullet=False)
            return
        self._exercise_line(text, said, place, follows, is_bullet=text != line.strip())

    def _exercise_line(self, text: str, said: str, place: Place, follows: str, *, is_bullet: bool) -> None:
        """A line in its usual form; exercises that share it are read as a superset."""
        usual = Usual(text) if KEY_LINE.match(text) else usual_form(text, self.slots.knows)
        before = self.to.slot
        if usual.more and self.to.superset is None:
            labelled = headings.read_label(usual.text)
            self.to.open_superset((labelled[0] if labelled else "").rstrip("0123456789"), None, place)
        superset = self.to.superset if usual.more else None
        self._slot_or_more(usual.text, said if usual.text == text else usual.text, place, follows, is_bullet=is_bullet)
        if usual.is_burnout and self.to.slot is not None and self.to.slot is not before:
            self.to.slot.kind = SetKind.BURNOUT
        if usual.note and self.to.slot is not None and self.to.slot is not before:
            self.to.slot.notes.append(usual.note)
        for part in usual.more:
            self.slots.open_joined(None, part, place)
        if superset is not None and superset.rounds is None:
            self.to.close_superset()

    def open_day(self, name: str, place: Place) -> None:
        """A day named in a column of its own, where any word will do."""
        heading = headings.read_day(even(name), set_off=True) or headings.DayHeading(name.strip(" :"))
        self.in_warm_up = self.to.in_notes = False
        self.to.open_day(heading, place, self.week)

    def open_week(self, week: int) -> None:
        """What follows are the days of this week, written out again."""
        self.week = week
        self.in_warm_up = self.to.in_notes = False

    def _blank(self, line: str) -> None:
        if self.in_warm_up and self.to.day is not None and self.to.day.warm_up:
            self.in_warm_up = False
        self.to.in_notes = False
        if not line.strip() and self.to.superset and len(self.to.superset.slots) > 1:
            self.to.close_superset()

    # What is said of the block as a whole.

    def _week_part(self, text: str, said: str, place: Place, *, set_off: bool, follows: str) -> bool:
        alone = _WEEK_HEADING.match(text.strip("=-_: "))
        if self.to.slot is not None:
            if alone and not alone["name"] and SET_LINE.match(without_marks(even(follows))):
                self.to.slot.week = int(alone["week"])
                return True
            before, weeks = split_weeks(text)
            if weeks and not re.search(r"\w", before):
                for part in weeks:
                    self.to.slot.add_week(part.week, part.said, place)
                return True
        if alone and headings.read_day(without_marks(even(follows))) and (self.to.days or not alone["name"]):
            self.open_week(int(alone["week"]))
            if alone["name"] and re.search(r"\w", alone["name"]):
                self.to.add_aim(self.week, None, alone["name"].strip(" :(),-"))
            return True
        return take_aims(self.to, text, said)

    def _of_block(self, text: str, said: str, place: Place, *, set_off: bool, follows: str) -> bool:
        return take_of_block(self.to, text, said, set_off=set_off)

    # Days and their warm-ups.

    def _heading(self, text: str, said: str, place: Place, *, set_off: bool, follows: str) -> bool:
        heading = headings.read_day(text, set_off=set_off) or self._short_day(text, follows)
        if heading is None and headings.could_be_day(text) and not self._is_exercise(text) and _opens_slot(follows):
            heading = headings.DayHeading(text.rstrip(": "))
        if heading is None:
            return False
        if heading.name and len(said) == len(text):
            at = text.rfind(heading.name)
            heading = headings.DayHeading(said[at : at + len(heading.name)], heading.number, heading.weekday, heading.is_rest)
        self.in_warm_up = self.to.in_notes = False
        self.to.open_day(heading, place, self.week)
        superset = headings.read_superset(heading.name)
        if superset is not None and superset.rounds:
            self._superset(heading.name, place)
        return True

    def _short_day(self, text: str, follows: str) -> headings.DayHeading | None:
        """ "D2 PRESS" above "A1 ..." opens a day, where the same below C2 would be an exercise."""
        found = re.match(r"^d\s?(?P<number>\d{1,2})\b\s*[:.)-]*\s*(?P<name>\D{0,40})$", text, re.I)
        below = headings.read_label(without_marks(even(follows))) if found else None
        if not found or not below or below[0] not in ("A", "A1", "1"):
            return None
        return headings.DayHeading(found["name"].strip(), int(found["number"]))

    def _warm_up(self, text: str, said: str, place: Place, *, set_off: bool, follows: str) -> bool:
        found = headings.WARM_UP.match(text)
        if found and not re.match(r"set", found["rest"], re.I):
            if self.to.slot is not None and found["rest"]:
                return False
            day = self.to.need_day(place)
            self.in_warm_up, self.warm_up_has_text = True, bool(found["rest"])
            if found["rest"]:
                day.warm_up.append(said[found.start("rest") :].strip())
            return True
        if (
            self.to.day is not None
            and not self.to.day.slots
            and _BEGINS_WARM.match(text)
            and not re.search(r"\d\s*x\s*\d|\bsets?\b", text)
        ):
            self.to.day.warm_up.append(said)
            return True
        cool = headings.COOL_DOWN.match(text)
        if cool and self.to.day is not None:
            self.to.day.notes.append(said)
            self.to.slot, self.to.in_notes = None, True
            return True
        if self.in_warm_up and headings.MAIN_PART.match(text):
            self.in_warm_up = False
            return True
        return bool(headings.MAIN_PART.match(text) and self.to.day is not None and not self._is_exercise(text))

    def _burnout(self, text: str, said: str, place: Place, *, set_off: bool, follows: str) -> bool:
        """ "Burnout: push-ups to failure" is a slot of its own; without an exercise it is one more set of the slot above."""
        found = headings.BURNOUT.match(text)
        if not found:
            return False
        words = said[found.start("rest") :].strip()
        usual = usual_form(even(words), self.slots.knows).text
        words = words if usual == even(words) else usual
        clauses = read_clauses(words or "AMRAP")
        name = next((piece for _, piece in clauses.left if len(re.findall(r"[^\W\d_]", piece)) > 2), "")
        known = bool(name) and (self.slots.knows(name) or self.slots.knows(cut_name(name)[0]))
        if not known and self.to.slot is not None:
            self.slots.add_burnout(self.to.slot, clauses, place)
        elif name:
            self.to.close_superset()
            slot = self.slots.open(None, words, place)
            slot.kind = SetKind.BURNOUT
        else:
            self.to.problems.append(
                error(
                    place,
                    said,
                    f"{quoted(said)} does not say which exercise",
                    "write it below the exercise, or name one, such as Burnout: push-ups AMRAP",
                )
            )
        return True

    # Slots.

    def _superset(self, text: str, place: Place) -> bool:
        found = headings.read_superset(text)
        if found is None or (JOINED.match(text) and self.to.slot is not None):
            return False
        clauses = read_clauses(found.rest, has_name=False, intervals=True) if found.rest else Clauses()
        in_intervals = "intervals" in clauses.fields and bool(clauses.schemes)
        if (clauses.schemes and not in_intervals) or any(self.to.names.is_sure(piece) for _, piece in clauses.left):
            return False
        self.in_warm_up = False
        superset = self.to.open_superset(found.letter, found.rounds or (clauses.fields.get("set_count") or (None,))[0], place)
        superset.fields = {name: value for name, value in clauses.fields.items() if name == "rest"}
        superset.is_timed = "intervals" in clauses.fields
        if in_intervals:
            superset.intervals = clauses.schemes[0]
        for _, piece in clauses.left:
            self.to.need_day(place).notes.append(f"{superset.letter}: {piece}")
        return True

    def _slot_or_more(self, text: str, said: str, place: Place, follows: str, *, is_bullet: bool) -> None:
        labelled = headings.read_label(text)
        key = KEY_LINE.match(text)
        if key and (labelled is None or len(key["key"]) > 1):
            self.slots.add_keyed_line(KEYS[key["key"].lower()], said[key.start("value") :].strip(), said, place)
            return
        labelled = labelled or self._bare_letter(text)
        if self.in_warm_up and not (labelled and not labelled[0].isdigit()) and not self._ends_warm_up(text, is_bullet):
            self.to.need_day(place).warm_up.append(said)
            return
        if labelled:
            body = said[len(text) - len(labelled[1]) :].strip() if len(said) == len(text) else labelled[1]
            if labelled[0].isdigit() and not self._looks_like_slot(body, follows):
                self.slots.add_line(text, said, place)
                return
            self.in_warm_up = self.to.in_notes = False
            self.slots.open_joined(labelled[0], body, place)
            return
        if self.to.in_notes and not re.search(r"\d\s*x\s*\d", text):
            self.to.note(said)
            return
        if self._looks_like_slot(said, follows):
            self.in_warm_up = False
            self.slots.open_joined(None, said, place)
            return
        self.slots.add_line(text, said, place)

    def _bare_letter(self, text: str) -> tuple[str, str] | None:
        """ "C Push-up 3x10" after B: a letter without a mark is a label where it is the next one and an exercise follows."""
        found = re.match(r"^(?P<letter>[A-H])\s+(?P<rest>[A-Za-z].*)$", text)
        if not found or self.to.day is None or found["letter"] != self.to.next_letter():
            return None
        name = read_clauses(found["rest"]).left
        return (found["letter"], found["rest"]) if name and self.to.names.find(cut_name(name[0][1])[0])[0] else None

    def _ends_warm_up(self, text: str, is_bullet: bool) -> bool:
        return self.warm_up_has_text and not is_bullet and bool(re.search(r"\d\s*(?:x|sets)\s*", text, re.I))

    def _looks_like_slot(self, said: str, follows: str) -> bool:
        """An exercise's name with figures, or alone above a line of figures; figures alone say more of the slot above."""
        if self.is_exercise:
            return True
        if self.to.day is None and not self.to.days and not re.search(r"\d\s*(?:x|sets)", even(said), re.I):
            return False
        clauses = self.slots.clauses(said)
        name = clauses.left[0][1] if clauses.left else ""
        if len(re.findall(r"[^\W\d_]", name)) < 3:
            return False
        exercise, matches, _ = self.to.names.find(cut_name(name)[0])
        has_sets = any(scheme.which is None for scheme in clauses.schemes) or "set_count" in clauses.fields
        if has_sets:
            return exercise is not None or clauses.left[0][0] == 0 or bool(matches and matches[0].score > 0.5)
        if exercise is not None and self.to.superset is not None and self.to.superset.intervals is not None:
            return True  # its sets are those of the heading
        near = exercise is not None or bool(matches and matches[0].score >= 0.8)
        return near and _is_figures(follows) and len(name.split()) <= 7

    def _is_exercise(self, text: str) -> bool:
        return self.to.names.is_sure(text.rstrip(": "))


def _is_figures(line: str) -> bool:
    """Does a line begin with sets and reps, or say them by name?"""
    text = without_marks(even(line))
    return bool(
        re.match(r"(?:w(?:ee)?k?\s?\d\s*[:=-]?\s*\d|sets?\s*[:=]|\d{1,2}\s*(?:x|sets?\b)|reps?\s*[:=]|amrap)", text, re.I)
    )


def _opens_slot(line: str) -> bool:
    text = without_marks(even(line))
    return (
        headings.read_label(text) is not None
        or bool(re.search(r"\d\s*x\s*\d|\d\s+sets\b", text, re.I))
        or bool(headings.WARM_UP.match(text))
        or headings.read_superset(text) is not None
    )
