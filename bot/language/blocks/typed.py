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
from copy import deepcopy
from dataclasses import replace

from bot.language.blocks import headings
from bot.language.blocks.assemble import Assembler
from bot.language.blocks.clauses import read_clauses
from bot.language.blocks.conventions import (
    sets_first,
    weekdays_by_letters,
    with_brackets_named,
    with_weeks_named,
    with_weights_named,
)
from bot.language.blocks.day_draft import REST_BETWEEN
from bot.language.blocks.day_repeats import change_day, copies_of, part_of_day, repeated_day, slot_named
from bot.language.blocks.forms import Usual, lines_in, usual_form
from bot.language.blocks.joined import joined_in
from bot.language.blocks.letters import as_sent, controls_removed, count_words_as_figures, even, without_marks
from bot.language.blocks.names import SURE
from bot.language.blocks.of_block import take_aims, take_of_block
from bot.language.blocks.page import bare_words, days_by_shape, parts_by_shape
from bot.language.blocks.phrases.free_words import KEYS
from bot.language.blocks.prose import listed, paired, rounds_first, sentences, with_shared_sets, without_lead
from bot.language.blocks.repeats import repeated_in
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
_ASKS = re.compile(r"\d\s*(?:x|sets?\b|lots?\b|rounds?\b|trips?\b|reps?\b|times\b)|\bamrap\b", re.I)
_SAYS_NOTHING = re.compile(
    r"(?:these|those|the|following|two|three|both|for|of|when|you|you've|have|done|after|and|exercises?|moves?|together|as|an?|\s)+",
    re.I,
)
_FIGURES = re.compile(r"\d\s*x\s*\d|\d\s+sets?\b", re.I)
_DAY_AND_MORE = re.compile(
    r"^(?P<day>(?:day|workout|session)\s*\w{1,2}|[a-h]\s+day|[a-z]{1,9}\.?)\s*[:=-]\s*(?P<rest>[a-z].*\d\s*x\s*\S.*)$", re.I
)
_ROW_CUT = re.compile(r"\s*(?:[,;/]|\s\+\s)\s*(?=(?:[12][\s-]?(?:arm|leg))?[a-z ][^\d,;]*\d{1,2}\s*x\s*\S)", re.I)
_NAME_AND_SETS = re.compile(
    r"\s*(?P<name>(?!(?:tempo|rest|rpe|rir|load)\b)(?:[12][\s-]?(?:arm|leg)\s)?[a-z][^\d,;]*?)\s*[-:]?\s*\d{1,2}\s*x\s*\S", re.I
)
_ROUNDS_OF = re.compile(r"^(?P<rounds>\d{1,2}\s+rounds?)\s+of\s+(?P<list>[a-z].*)$", re.I)
_WEEK_AND_DAY = re.compile(
    r"^(?:w|wk|week)\s?(?P<week>\d{1,2})\s*[-,/:.]*\s*(?P<day>(?:d|day|session|workout)\s?\d{1,2}\b.{0,40}|(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\b.{0,40})$",
    re.I,
)  # "W1D1", "Week 2 - Monday"
_CHANGES_FOLLOW = re.compile(
    r"(?:(?:but|only|just|except(?:\s+for)?|with|the|these|this|that|following|some|a|few|small|changes?|differences?|for|is|are|different|here|below)\b[\s,:]*)+",
    re.I,
)  # "same as Tuesday only", "with these changes": what is different stands in the lines below
_REPLACES = re.compile(
    r"^(?:no|skip|drop|leave\s+out|without|lose|cut)\s+(?:the\s+)?(?P<old>[^,;]+?)\s*[,;:-]+\s*(?:(?:and|but|then|instead|we|just)\s+)*(?:do|add|have|use|put\s+in|take|go\s+for)\s+(?:the\s+|some\s+)?(?P<new>.+?)(?:\s+instead)?\W*$",
    re.I,
)
_SAYS_CHANGE = re.compile(
    r"^(?:swap|replace|change|switch|no|skip|drop|leave\s+out|without|instead\s+of|minus|one|two|\d\s+(?:sets?|rounds?))\b", re.I
)
_LEADING_FIGURE = re.compile(r"\d{1,2}(?=\s+rounds?\b)", re.I)
_COUNT_BEHIND = re.compile(r"\s*(?:\bx\s*|(?<=[a-z])\s)(\d{1,3}(?:\s*-\s*\d{1,3})?|max|amrap)\b", re.I)
_SETS_BELOW = re.compile(r"\d{1,2}\s*(?:x\s*\d|sets?\b)|sets?\s*[:=]\s*\d", re.I)
LINE_LIMIT = 1_000  # characters; reading time grows with the square of a line's length


def read_typed(text: str, *, catalogue: Catalogue, own_names: Mapping[str, ExerciseId]) -> BlockReading:
    """Read a whole block from text."""
    reader = TypedReader(Assembler(catalogue, own_names))
    lines = controls_removed(text).split("\n")
    reader.shown = days_by_shape(lines, reader.is_exercise_alone)
    reader.parts = parts_by_shape(lines)
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
        self.shown: Mapping[int, headings.DayHeading] = {}  # days that the page's shape tells, by their line from 0
        self.parts: frozenset[str] = frozenset()  # words that come back on the page and name parts of days
        self.is_exercise = False  # a column says so: the line names an exercise, whatever it looks like

    def take(self, line: str, place: Place, follows: str = "") -> None:
        set_off = bool(re.match(r"^\s*(?:#{1,6}\s|\*\*.*\*\*\s*:?\s*$|__.*__\s*$|={2,}.*={2,}\s*$|-{2,}\s*\w.*-{2,}\s*$)", line))
        text = without_marks(even(line))
        if self.to.conventions.reps_first:
            text = sets_first(text)
        if self.to.conventions.week_in_brackets and self.to.days:
            text = with_weeks_named(text, self.to.conventions.week_in_brackets)
        if self.to.conventions.weights and self.to.days:
            text = with_weights_named(text, self.to.conventions.weights)
        if self.to.conventions.bracketed:
            text = with_brackets_named(text, self.to.conventions.bracketed)
        said = as_sent(line, text)
        if not re.search(r"\w", text):
            self._blank(line)
            return
        if len(text) > LINE_LIMIT:
            self.to.problems.append(error(place, text, f"the line is {len(text)} characters long", "write one exercise a line"))
            return
        if self._paragraph(text, place, follows):
            return
        week_and_day = _WEEK_AND_DAY.match(text)
        if week_and_day and headings.read_day(week_and_day["day"]) is not None:
            self.open_week(int(week_and_day["week"]))
            self.take(week_and_day["day"], place, follows)
            return
        for reads in (
            self._rest_day,
            self._week_part,
            self._day_again,
            self._of_block,
            self._heading,
            self._warm_up,
            self._burnout,
        ):
            if reads(text, said, place, set_off=set_off, follows=follows):
                return
        marks = joined_in(text) if self.to.day is not None else ()
        if marks:
            self.to.join(marks)
            return
        if self._change_of_copy(text, place) or self._part_again(text, place) or self._row_of_exercises(text, place, follows):
            return
        if re.fullmatch(r"(?:and\s+)?(?:then|next|after\s+that|now)\s*[.:,-]*", text, re.I) and self.to.day is not None:
            self.to.close_superset()
            return
        if (
            self.slots.add_set_line(text, said, place)
            or self._rest_between(text)
            or self.slots.add_rest_line(text)
            or self._superset_with_list(text, place)
            or self._superset(text, place)
        ):
            return
        beside = lines_in(text)
        if len(beside) > 1:
            for part in beside:
                self._exercise_line(part, part, place, "", is_bullet=False)
            return
        self._exercise_line(text, said, place, follows, is_bullet=text != line.strip())

    def _paragraph(self, text: str, place: Place, follows: str) -> bool:
        """Sentences about several exercises, or about a day and its exercises, are read one by one."""
        parts = sentences(text)
        if len(parts) < 2 or headings.read_label(text) is not None or KEY_LINE.match(text):
            return False
        about = sum(self._asks_for_sets(part) for part in parts)
        is_day = headings.read_day(parts[0]) is not None
        rounds = headings.read_superset(parts[0])
        in_rounds = rounds is not None and bool(rounds.rounds) and REST_BETWEEN.search(text)
        if about < 2 and not (is_day and about) and not in_rounds:
            return False
        for number, part in enumerate(parts):
            self.take(part, place, parts[number + 1] if number + 1 < len(parts) else follows)
            self.in_warm_up = False
        return True

    def _names_exercise(self, text: str) -> bool:
        """Does a known exercise stand in these words, alone or among others?"""
        return self.slots.knows(text) or any(one.match.score >= SURE for one in self.to.names.catalogue.names.mentions(text))

    def _asks_for_sets(self, text: str) -> bool:
        if not _ASKS.search(count_words_as_figures(text)):
            return False
        return self._names_exercise(text)

    def _exercise_line(self, text: str, said: str, place: Place, follows: str, *, is_bullet: bool) -> None:
        """A line in its usual form; exercises that share it are read as a superset."""
        closes = re.match(r"^(?:and\s+)?(?:then|after(?:wards|\s+that)|finally|last)\s*:\s*(?=\w)", text, re.I)
        if closes and len(said) == len(text):
            self.to.close_superset()
            text, said = text[closes.end() :], said[closes.end() :]
        usual = Usual(text) if KEY_LINE.match(text) or paired(text, self.slots.knows) else usual_form(text, self.slots.knows)
        before = self.to.slot
        if usual.more and self.to.superset is None:
            labelled = headings.read_label(usual.text)
            self.to.open_superset((labelled[0] if labelled else "").rstrip("0123456789"), None, place)
        if usual.note and self.to.superset is not None and self.to.superset.slots and _FIGURES.search(usual.text):
            self.to.close_superset()  # "Core: dead bug 3x8" below a superset is none of it
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

    def _rest_day(self, text: str, said: str, place: Place, *, set_off: bool, follows: str) -> bool:
        """ "off, maybe a walk" below a day's name."""
        day = self.to.day
        if day is None or not day.is_given or day.slots or day.warm_up or not headings.is_rest(text):
            return False
        also = replace(day.heading.also, name="", is_rest=True) if day.heading.also else None
        day.heading = replace(day.heading, name="", is_rest=True, also=also)
        return True

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
                    self.to.slot.add_week(part.week, part.said, place, rests_so=part.rests_so)
                return True
        below = without_marks(even(follows))
        if alone and (headings.read_day(below) or _DAY_AND_MORE.match(below)) and (self.to.days or not alone["name"]):
            self.open_week(int(alone["week"]))
            if alone["name"] and re.search(r"\w", alone["name"]):
                self.to.add_aim(self.week, None, alone["name"].strip(" :(),-"))
            return True
        return take_aims(self.to, text, said)

    def _of_block(self, text: str, said: str, place: Place, *, set_off: bool, follows: str) -> bool:
        return take_of_block(self.to, text, said, set_off=set_off)

    # Days and their warm-ups.

    def _heading(self, text: str, said: str, place: Place, *, set_off: bool, follows: str) -> bool:
        if self._day_and_exercises(text, said, place):
            return True
        heading = headings.read_day(text, set_off=set_off) or self._by_letter(text) or self.shown.get((place.line or 0) - 1)
        if heading is None and headings.could_be_day(text) and not self._is_exercise(text) and _opens_slot(follows):
            heading = headings.DayHeading(text.rstrip(": "))
        if heading is None:
            return False
        if heading.number is None and heading.weekday is None and not heading.is_rest and self._is_part(text):
            self.to.close_superset()
            return True
        at = text.rfind(heading.name) if heading.name else -1
        if at >= 0 and len(said) == len(text):
            heading = replace(heading, name=said[at : at + len(heading.name)])
        self.in_warm_up = self.to.in_notes = False
        superset = headings.read_superset(heading.name)
        in_rounds = superset is not None and bool(superset.rounds)
        plain = headings.WEEKDAYS[heading.weekday].capitalize() if heading.weekday is not None else ""
        self.to.open_day(replace(heading, name=plain) if in_rounds else heading, place, self.week)
        if in_rounds:
            self._superset(heading.name, place)
        return True

    def _is_part(self, text: str) -> bool:
        """Are these words a part of the day, such as "Core:", rather than a day of their own?"""
        days = [day.heading for day in self.to.days if day.is_given]
        named = bool(days) and all(day.number is not None or day.weekday is not None for day in days)
        return self.to.day is not None and (bare_words(text) in self.parts or (named and headings.could_be_part(text)))

    def _day_and_exercises(self, text: str, said: str, place: Place) -> bool:
        """ "mon: squat 5x5, bench 5x5": a day and its exercises in one line."""
        found = _DAY_AND_MORE.match(text)
        heading = (headings.read_day(found["day"]) or self._by_letter(found["day"])) if found else None
        if found is None or heading is None or heading.is_rest or len(said) != len(text):
            return False
        self.in_warm_up = self.to.in_notes = False
        self.to.open_day(heading, place, self.week)
        self.take(said[found.start("rest") :], place)
        return True

    def _row_of_exercises(self, text: str, place: Place, follows: str) -> bool:
        """ "squat 5x5, bench 5x5, plank 3x1min": exercises in a row, each with its sets; a plus between them makes them a superset."""
        label, text = headings.read_label(text) or self._bare_letter(text, follows) or ("", text)
        cuts = list(_ROW_CUT.finditer(text))
        starts, ends = [0, *(cut.end() for cut in cuts)], [*(cut.start() for cut in cuts), len(text)]
        parts = [text[start:end] for start, end in zip(starts, ends, strict=True)]
        named = [_NAME_AND_SETS.match(part) for part in parts]
        if (
            len(parts) < 2
            or paired(text, self.slots.knows)
            or not all(named)
            or sum(self._names_exercise(found["name"]) for found in named if found) * 2 < len(parts)
        ):
            return False
        together = all("+" in cut[0] for cut in cuts)
        if label and not together:
            return False
        self.to.close_superset()
        if together:
            self.to.open_superset(label.rstrip("0123456789"), None, place)
        for number, part in enumerate(parts):
            self.slots.open(label if number == 0 and label else None, part.strip(), place)
        if together:
            self.to.close_superset()
        return True

    def _day_again(self, text: str, said: str, place: Place, *, set_off: bool, follows: str) -> bool:
        """ "Thursday as Monday, but B1 3x12"; "same as Monday" below the day's own heading."""
        found = repeated_day(text)
        of = self.to.like_day(found[1]) if found else None
        if found is None or of is None:
            return False
        day = self.to.day
        if found[0]:
            heading = headings.read_day(found[0], set_off=True) or self._by_letter(found[0])
            if heading is None and headings.could_be_day(found[0]):
                heading = headings.DayHeading(found[0])
            if heading is None or heading.is_rest:
                return False
            plain = headings.WEEKDAYS[heading.weekday].capitalize() if heading.weekday is not None else ""
            theirs = of.heading.name if of.heading.name.lower() not in headings.WEEKDAYS else ""
            if theirs and heading.name in ("", plain):
                heading = replace(heading, name=theirs)
            self.to.open_day(heading, place, self.week)
            day = self.to.day
        if day is None or day is of or day.slots:
            return False
        self.in_warm_up = self.to.in_notes = False
        but = "" if _CHANGES_FOLLOW.fullmatch(found[2]) else found[2]
        for piece in self.to.repeat_day(day, of, but, place):
            self._more_of_copy(piece, place)
        return True

    def _change_of_copy(self, text: str, place: Place) -> bool:
        """ "swap the ring row for pull-ups x 6", "no planks, do sled push 4 x 20 m" below a day that is like another."""
        day = self.to.day
        if day is None or not any(slot.is_copy for slot in day.slots) or headings.read_label(text) is not None:
            return False
        replaced = _REPLACES.match(text)
        old = slot_named(day.slots, replaced["old"], self.to.same_exercise) if replaced else None
        if replaced and old is not None and self.slots.clauses(replaced["new"]).schemes:
            at = day.slots.index(old)
            day.slots.remove(old)
            self.slots.open(old.label, replaced["new"], place)
            day.slots.insert(at, day.slots.pop())
            return True
        head, colon, tail = rounds_first(text, self.slots.knows).partition(":")
        rounds = _LEADING_FIGURE.match(head)
        if colon and rounds:
            parts = listed(tail.strip(), self.slots.knows)
            changes = ", ".join(_COUNT_BEHIND.sub(rf" {rounds[0]}x\1", part) for part in parts)
        elif _SAYS_CHANGE.match(text):
            changes = text
        else:
            return False
        slots = deepcopy(day.slots)
        if not changes or change_day(slots, changes, self.to.same_exercise, place):
            return False
        day.slots, self.to.slot = slots, None
        return True

    def _part_again(self, text: str, place: Place) -> bool:
        """ "Same first circuit as day 1 but 4 rounds": exercises of one letter of another day, under the next letter of this one."""
        found = part_of_day(text)
        of = self.to.like_day(found[1]) if found else None
        if found is None or of is None or of is self.to.day or not of.slots:
            return False
        day = self.to.need_day(place)
        groups = list(dict.fromkeys(slot.label.rstrip("0123456789") for slot in of.slots))
        wanted = groups[min(found[0], len(groups) - 1)] if found[0] >= 0 else groups[-1]
        copies = copies_of([slot for slot in of.slots if slot.label.rstrip("0123456789") == wanted])
        letter = self.to.next_letter()
        for slot in copies:
            slot.label = letter + slot.label[len(wanted) :]
        self.to.close_superset()
        unread = change_day(copies, found[2], self.to.same_exercise, place) if found[2] else []
        day.slots += copies
        self.to.slot, self.in_warm_up = None, False
        for piece in unread:
            self._more_of_copy(piece, place)
        return True

    def _more_of_copy(self, piece: str, place: Place) -> None:
        """ "3) Dead hang 3x max": one more exercise of a day that is like another; what is none is a mistake."""
        labelled = headings.read_label(piece)
        if labelled and self._looks_like_slot(labelled[1], "") and self.slots.clauses(labelled[1]).schemes:
            number = labelled[0]
            self.slots.open(headings.letters_of(int(number)) if number.isdigit() else number, labelled[1], place)
            return
        wrong = f"{quoted(piece)} is a change that I cannot read"
        self.to.problems.append(error(place, piece, wrong, "write the changed exercises below the day, such as B1 Push-up 3x12"))

    def _by_letter(self, text: str) -> headings.DayHeading | None:
        """ "W - pull" where the coach trains on M, W and F."""
        found = re.match(r"^(?P<letter>[A-Z][A-Za-z]?)(?:\s*[-:/(|.]+\s*(?P<name>.{0,40}))?$", text)
        if found and found["name"] and (_FIGURES.search(found["name"]) or re.match(r"\d", found["name"])):
            return None
        weekday = self.to.conventions.initials.get(found["letter"].lower()) if found and not weekdays_by_letters(text) else None
        if found is None or weekday is None or self._is_exercise(found["name"] or ""):
            return None
        name = (found["name"] or "").strip(" :()-*=~#_")
        if re.fullmatch(r"(?:rest|off)(?:\s+day)?", name, re.I):
            return headings.DayHeading("", weekday=weekday, is_rest=True)
        return headings.DayHeading(name or headings.WEEKDAYS[weekday].capitalize(), weekday=weekday)

    def _warm_up(self, text: str, said: str, place: Place, *, set_off: bool, follows: str) -> bool:
        found = headings.WARM_UP.match(text)
        if found and not re.match(r"set", found["rest"], re.I):
            if self.to.slot is not None and re.search(r"\d\s*x|\bsets?\b|^\W*$", found["rest"], re.I):
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
        known = bool(name) and (self.slots.knows(name) or self._names_exercise(cut_name(name)[0]))
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

    def _rest_between(self, text: str) -> bool:
        """ "Rest 30 s between exercises and 2 min between rounds" below the head of a circuit."""
        found = REST_BETWEEN.search(text)
        if not found or self.to.superset is None or re.search(r"\w", text[: found.start()] + text[found.end() :]):
            return False
        self.to.superset.take_rests(found)
        return True

    def _superset(self, text: str, place: Place) -> bool:
        rests = REST_BETWEEN.search(text)
        found = headings.read_superset(f"{text[: rests.start()]}{text[rests.end() :]}" if rests else text)
        if found is None or (JOINED.match(text) and self.to.slot is not None):
            return False
        clauses = read_clauses(found.rest, has_name=False, intervals=True) if found.rest else Clauses()
        in_intervals = "intervals" in clauses.fields and bool(clauses.schemes)
        if (clauses.schemes and not in_intervals) or any(self.to.names.is_sure(piece) for _, piece in clauses.left):
            return False
        if paired(text, self.slots.knows):
            return False  # the exercises themselves stand in the line
        self.in_warm_up = False
        superset = self.to.open_superset(found.letter, found.rounds or (clauses.fields.get("set_count") or (None,))[0], place)
        superset.fields = {name: value for name, value in clauses.fields.items() if name == "rest"}
        superset.is_timed = "intervals" in clauses.fields
        if rests:
            superset.take_rests(rests)
        if in_intervals:
            superset.intervals = clauses.schemes[0]
        for _, piece in clauses.left:
            if not _SAYS_NOTHING.fullmatch(piece):
                self.to.need_day(place).notes.append(f"{superset.letter}: {piece}")
        return True

    def _superset_with_list(self, text: str, place: Place) -> bool:
        """ "Then superset these for three rounds: lunges, 10 each leg, and push-ups, max reps"."""
        text = rounds_first(text, self.slots.knows)
        counted = _ROUNDS_OF.match(without_lead(text))
        head, colon, tail = (counted["rounds"], ":", counted["list"]) if counted else without_lead(text).partition(":")
        parts = listed(tail.strip(), self.slots.knows) if colon else ()
        if len(parts) < 2 or not self._superset(count_words_as_figures(head), place):
            return False
        for part in with_shared_sets(parts):
            self.slots.open(None, part, place)
        self.to.close_superset()
        return True

    def _slot_or_more(self, text: str, said: str, place: Place, follows: str, *, is_bullet: bool) -> None:
        labelled = headings.read_label(text)
        key = KEY_LINE.match(text)
        if key and (labelled is None or len(key["key"]) > 1):
            self.slots.add_keyed_line(KEYS[key["key"].lower()], said[key.start("value") :].strip(), said, place)
            return
        labelled = labelled or self._bare_letter(text, follows)
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

    def _bare_letter(self, text: str, follows: str) -> tuple[str, str] | None:
        """ "C Push-up 3x10" after B: a letter without a mark is a label where it is the next one and an exercise or the next label follows."""
        found = re.match(r"^(?P<letter>[A-Ha-h])\s+(?P<rest>(?:[12][\s-]?(?:arm|leg))?[A-Za-z ].*)$", text)
        if not found or self.to.day is None or found["letter"].upper() != self.to.next_letter():
            return None
        letter = found["letter"].upper()
        again = repeated_in(found["rest"])
        name = read_clauses(again.text if again else found["rest"]).left
        known = bool(name) and self.slots.knows(cut_name(name[0][1])[0]) and found["letter"] == letter
        more = re.match(rf"^(?:{found['letter']}2|{chr(ord(found['letter']) + 1)}\d?)\b", without_marks(even(follows)))
        goes_on = bool((letter > "A" and self.to.labels_given) or more) and bool(_ASKS.search(even(found["rest"])))
        return (letter, found["rest"]) if known or goes_on else None

    def _ends_warm_up(self, text: str, is_bullet: bool) -> bool:
        return self.warm_up_has_text and not is_bullet and bool(re.search(r"\d\s*(?:x|sets)\s*", text, re.I))

    def _begins_anew(self, said: str, follows: str) -> bool:
        """Words alone between two lines of sets: an exercise whose name is not known, rather than a word on the one above."""
        slot = self.to.slot
        words = re.fullmatch(r"[^\W\d_][^\d:;,.!?]*", even(said).strip())
        return bool(words and slot is not None and slot.has_own_sets and _SETS_BELOW.match(without_marks(even(follows))))

    def _looks_like_slot(self, said: str, follows: str) -> bool:
        """An exercise's name with figures, or alone above a line of figures; figures alone say more of the slot above."""
        if self.is_exercise:
            return True
        if self.to.day is None and not self.to.days and not re.search(r"\d\s*(?:x|sets)", even(said), re.I):
            return False
        if part_of_day(even(said)):
            return False
        again = repeated_in(even(said))
        clauses = self.slots.clauses(again.text if again else said)
        name = clauses.left[0][1] if clauses.left else ""
        if len(re.findall(r"[^\W\d_]", name)) < 3:
            return False
        exercise, matches, _ = self.to.names.find(cut_name(name)[0])
        has_sets = any(scheme.which is None for scheme in clauses.schemes) or "set_count" in clauses.fields
        if again and exercise is not None:
            return True
        if has_sets:
            return exercise is not None or clauses.left[0][0] == 0 or bool(matches and matches[0].score > 0.5)
        if exercise is not None and self.to.superset is not None and self.to.superset.intervals is not None:
            return True  # its sets are those of the heading
        near = exercise is not None or bool(matches and matches[0].score >= 0.8) or self._begins_anew(said, follows)
        return near and _is_figures(follows) and len(name.split()) <= 7

    def is_exercise_alone(self, text: str) -> bool:
        """Is a line without sets an exercise's name, and no heading?"""
        labelled = headings.read_label(text)
        return self.slots.knows(labelled[1] if labelled else text)

    def _is_exercise(self, text: str) -> bool:
        return self.to.names.is_sure(text.rstrip(": "))


def _is_figures(line: str) -> bool:
    """Does a line begin with sets and reps, or say them by name?"""
    text = without_marks(even(line))
    return bool(
        re.match(
            r"(?:w(?:ee)?k?\s?\d\s*[:=-]?\s*\d|sets?\s*[:=]|\d{1,2}\s*(?:x|sets?\b)|reps?\s*[:=]|amrap|\d{1,3}(?:\s*-\s*\d{1,3})?\s*(?:each|per|reps?\b|s\b|sec|/)[^.]*\bsets?\b)",
            text,
            re.I,
        )
    )


def _opens_slot(line: str) -> bool:
    text = without_marks(even(line))
    return (
        headings.read_label(text) is not None
        or bool(re.search(r"\d\s*x\s*\d|\d\s+sets\b", text, re.I))
        or bool(headings.WARM_UP.match(text))
        or headings.read_superset(text) is not None
    )
