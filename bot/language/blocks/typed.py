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
from bot.language.blocks.amounts import read_rest
from bot.language.blocks.assemble import Assembler
from bot.language.blocks.clauses import KEYS, add_keyed, read_clauses
from bot.language.blocks.forms import Usual, lines_in, usual_form
from bot.language.blocks.intervals import SPOKEN_OF
from bot.language.blocks.letters import as_sent, controls_removed, even, without_marks
from bot.language.blocks.prose import alternatives, paired, training_weekdays, unit_in, weeks_in, without_lead
from bot.language.blocks.results import BlockReading
from bot.language.blocks.scan import Clauses
from bot.language.blocks.slots import SetLine, SlotDraft, read_policy
from bot.language.blocks.weeks import split_weeks
from bot.language.problems import Place, error, quoted, warning
from bot.training.blocks import ExerciseId, SetKind
from bot.training.exercises.catalogue import Catalogue
from bot.training.loads import Unit

_TITLE = re.compile(r"^(?:block|title|program(?:me)?|block name|plan|name)\s*[:=]\s*(?P<name>.+)$", re.I)
_ALIAS = re.compile(r"^(?:short name|alias|abbreviation)s?\s*[:=]\s*(?P<alias>.+?)\s*=\s*(?P<name>.+)$", re.I)
_KEY_LINE = re.compile(rf"^(?P<key>{'|'.join(sorted(KEYS, key=len, reverse=True))})\s*[:=]\s*(?P<value>.+)$", re.I)
_SET_LINE = re.compile(
    r"^(?P<kind>warm-?up\s+|burn-?out\s+|work(?:ing)?\s+)?set\s*#?\s*(?P<number>\d{1,2})?\s*(?:\((?P<kind2>burnout)\))?\s*:\s*(?P<rest>.*)$",
    re.I,
)
_SIDE_LINE = re.compile(r"^sides?\s*:\s*(?P<rest>.+)$", re.I)
_LOAD_LINE = re.compile(r"^load\s*:\s*(?P<rest>same|rises|falls)\s*$", re.I)
_NOTE_IN_SET = re.compile(r"(?:^|,\s*)note:\s*(?P<note>.*)$", re.I)
_WEEK_HEADING = re.compile(
    r"^(?:weeks?|wks?)\s*(?P<week>\d{1,2})(?:\s*(?:-|to|&|and)\s*\d{1,2})?\s*(?P<name>[:(,-].{0,40})?$", re.I
)
_JOINED = re.compile(
    r"\s*(?:,\s*|\(\s*)?\b(?:super-?\s?set(?:ted)?|ss|paired)\s*(?:with|w/|w)\s*[:]?\s+|\s+into\s+(?=[A-Za-z])", re.I
)
_BARE_REST = re.compile(r"\d+(?:\s*-\s*\d+)?\s*(?:s|secs?|seconds?|m|mins?|minutes?|\")", re.I)
# A pause within each rep: no figure of sets, and no doubt about it.
_PAUSE = re.compile(
    r"(?:with\s+(?:an?\s+)?)?(?:(?:hold|pause|squeeze|stretch)(?:\s+(?:for|of))?\s+\d(?:-\d)?\s*-?\s*(?:s|secs?|seconds?)|\d(?:-\d)?\s*-?\s*(?:s|secs?|seconds?)\s+(?:hold|pause|squeeze|stretch))"
    r"(?:\s+(?:at|in|on)\s+(?:the\s+)?[a-z]+(?:\s+[a-z]+)?)?",
    re.I,
)
_BEGINS_WARM = re.compile(
    r"^(?:please\s+|we\s+|always\s+|first\s*,?\s*)*(?:begin|start|open|get\s+(?:warm|going|moving))\b.*\b(?:min(?:ute)?s?|easy|bike|walk|jog|skipping|mobility|circles|swings|stretch\w*)\b",
    re.I,
)
LINE_LIMIT = 1_000  # characters; reading time grows with the square of a line's length
_QUOTED = re.compile(r'^"(?P<name>(?:[^"]|"")+)"\s*(?::|,|-)?\s*(?P<rest>.*)$')


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
        self.in_warm_up = False
        self.warm_up_has_text = False
        self.in_notes = False
        self.in_aims = False
        self.week = 1
        self.is_exercise = False  # a column says so: the line names an exercise, whatever it looks like
        self.unit: Unit | None = None  # of loads without one, where a sentence above the days says so

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
        for reads in (self._week_part, self._of_block, self._heading, self._warm_up, self._burnout, self._set_line):
            if reads(text, said, place, set_off=set_off, follows=follows):
                return
        if self._superset(text, place):
            return
        beside = lines_in(text)
        if len(beside) > 1:
            for part in beside:
                self._exercise_line(part, part, place, "", is_bullet=False)
            return
        self._exercise_line(text, said, place, follows, is_bullet=text != line.strip())

    def _exercise_line(self, text: str, said: str, place: Place, follows: str, *, is_bullet: bool) -> None:
        """A line in its usual form; exercises that share it are read as a superset."""
        usual = Usual(text) if _KEY_LINE.match(text) else usual_form(text, self._known)
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
            self._open_joined(None, part, place)
        if superset is not None and superset.rounds is None:
            self.to.close_superset()

    def open_day(self, name: str, place: Place) -> None:
        """A day named in a column of its own, where any word will do."""
        heading = headings.read_day(even(name), set_off=True) or headings.DayHeading(name.strip(" :"))
        self.in_warm_up = self.in_notes = False
        self.to.open_day(heading, place, self.week)

    def open_week(self, week: int) -> None:
        """What follows are the days of this week, written out again."""
        self.week = week
        self.in_warm_up = self.in_notes = self.in_aims = False

    def remark(self, text: str, place: Place) -> None:
        """A cell of a notes column: phrases of the trade count ("each side", "last set drop 20%"), all else is a note."""
        slot = self.to.slot
        if slot is None:
            self._note(text, place)
            return
        instead = re.match(r"\s*or\s+(?P<names>\D+)$", text, re.I)
        if instead and (names := self._substitutes(instead["names"])):
            slot.fields["substitutes"] = (*slot.fields.get("substitutes", ()), *names)
            return
        clauses = read_clauses(text, has_name=False)
        fields = {name: value for name, value in clauses.fields.items() if name != "note"}
        if clauses.faults or clauses.schemes or not (clauses.marks or fields):
            slot.notes.append(text)
            return
        slot.add(clauses, place)
        slot.notes += [piece for _, piece in clauses.left]

    def _blank(self, line: str) -> None:
        if self.in_warm_up and self.to.day is not None and self.to.day.warm_up:
            self.in_warm_up = False
        self.in_notes = self.in_aims = False
        if not line.strip() and self.to.superset and len(self.to.superset.slots) > 1:
            self.to.close_superset()

    # What is said of the block as a whole.

    def _week_part(self, text: str, said: str, place: Place, *, set_off: bool, follows: str) -> bool:
        alone = _WEEK_HEADING.match(text.strip("=-_: "))
        if self.to.slot is not None:
            if alone and not alone["name"] and _SET_LINE.match(without_marks(even(follows))):
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
        found = list(headings.WEEK_AIM.finditer(text))
        if not found or not re.fullmatch(
            r"(?:(?:aims?|plan|progression|progress|focus|goals?|how to progress)\s*[:-]?\s*)?",
            text[: found[0].start()].strip(),
            re.I,
        ):
            return False
        for at, week in enumerate(found):
            end = found[at + 1].start() if at + 1 < len(found) else len(said)
            aim = said[week.end() : end].strip() if len(said) == len(text) else text[week.end() : end].strip()
            aim = aim.strip() if len(found) == 1 else aim.strip(" ;,|/")
            self.to.add_aim(int(week["low"]), int(week["high"]) if week["high"] else None, aim)
        return True

    def _of_block(self, text: str, said: str, place: Place, *, set_off: bool, follows: str) -> bool:
        if not self.to.days:
            self.to.weekdays = self.to.weekdays or training_weekdays(text)
            self.unit = self.unit or unit_in(text)
            self.to.weeks_said = self.to.weeks_said or weeks_in(text)
        title = _TITLE.match(said)
        if title and not self.to.days:
            self.to.name = title["name"].strip()
            return True
        alias = _ALIAS.match(said)
        if alias:
            self.to.aliases.append((alias["alias"].strip(), alias["name"].strip()))
            return True
        rhythm = headings.read_rhythm(text)
        if rhythm:
            self.to.rhythm = rhythm
            return True
        days_off = headings.read_days_off(text) or (headings.read_overview(text) if not self.to.days else None)
        if days_off:
            self.to.days_off = days_off
            return True
        length = headings.read_length(text)
        if length and (not self.to.days or self.to.slot is None or set_off or ":" in text):
            self.to.weeks = length
            return True
        policy = re.match(r"^progress(?:ion)?\s*:\s*(?P<rest>.+)$", text, re.I)
        if policy and self.to.slot is None and self.to.day is None:
            read = read_policy(policy["rest"])
            if read:
                self.to.policy = read
            else:
                self.to.notes.append(said)
            return True
        return False

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
        self.in_warm_up = self.in_notes = False
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
            self.to.slot, self.in_notes = None, True
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
        usual = usual_form(even(words), self._known).text
        words = words if usual == even(words) else usual
        clauses = read_clauses(words or "AMRAP")
        name = next((piece for _, piece in clauses.left if len(re.findall(r"[^\W\d_]", piece)) > 2), "")
        known = bool(name) and (self._known(name) or self._known(_cut_name(name)[0]))
        if not known and self.to.slot is not None:
            self._as_burnout(self.to.slot, clauses, place)
        elif name:
            self.to.close_superset()
            slot = self._open(None, words, place)
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

    def _as_burnout(self, slot: SlotDraft, clauses: Clauses, place: Place) -> None:
        line = SetLine(None, SetKind.BURNOUT, clauses, place, "; ".join(piece for _, piece in clauses.left))
        slot.add_set_line(line)

    # Slots.

    def _set_line(self, text: str, said: str, place: Place, *, set_off: bool, follows: str) -> bool:
        found = _SET_LINE.match(text)
        slot = self.to.slot
        if not found or slot is None:
            return False
        word = (found["kind"] or found["kind2"] or "").lower()
        kind = SetKind.WARM_UP if word.startswith("warm") else SetKind.BURNOUT if word.startswith("burn") else SetKind.WORK
        rest = said[found.start("rest") :] if len(said) == len(text) else found["rest"]
        note = _NOTE_IN_SET.search(rest)
        if note:
            rest = rest[: note.start()]
        clauses = read_clauses(f"set 1: {rest}", has_name=False)
        for _start, piece in clauses.left:
            if piece.lower() != "as needed":
                self._leftover(slot, piece, place)
        number = int(found["number"]) if found["number"] else None
        slot.add_set_line(SetLine(number, kind, clauses, place, note["note"].strip() if note else ""))
        return True

    def _superset(self, text: str, place: Place) -> bool:
        found = headings.read_superset(text)
        if found is None or (_JOINED.match(text) and self.to.slot is not None):
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
        key = _KEY_LINE.match(text)
        if key and (labelled is None or len(key["key"]) > 1):
            self._keyed(KEYS[key["key"].lower()], said[key.start("value") :].strip(), said, place)
            return
        labelled = labelled or self._bare_letter(text)
        if self.in_warm_up and not (labelled and not labelled[0].isdigit()) and not self._ends_warm_up(text, is_bullet):
            self.to.need_day(place).warm_up.append(said)
            return
        if labelled:
            body = said[len(text) - len(labelled[1]) :].strip() if len(said) == len(text) else labelled[1]
            if labelled[0].isdigit() and not self._looks_like_slot(body, follows):
                self._more(text, said, place)
                return
            self.in_warm_up = self.in_notes = False
            self._open_joined(labelled[0], body, place)
            return
        if self.in_notes and not re.search(r"\d\s*x\s*\d", text):
            self._note(said, place)
            return
        if self._looks_like_slot(said, follows):
            self.in_warm_up = False
            self._open_joined(None, said, place)
            return
        self._more(text, said, place)

    def _bare_letter(self, text: str) -> tuple[str, str] | None:
        """ "C Push-up 3x10" after B: a letter without a mark is a label where it is the next one and an exercise follows."""
        found = re.match(r"^(?P<letter>[A-H])\s+(?P<rest>[A-Za-z].*)$", text)
        if not found or self.to.day is None or found["letter"] != self.to.next_letter():
            return None
        name = read_clauses(found["rest"]).left
        return (found["letter"], found["rest"]) if name and self.to.names.find(_cut_name(name[0][1])[0])[0] else None

    def _ends_warm_up(self, text: str, is_bullet: bool) -> bool:
        return self.warm_up_has_text and not is_bullet and bool(re.search(r"\d\s*(?:x|sets)\s*", text, re.I))

    def _looks_like_slot(self, said: str, follows: str) -> bool:
        """An exercise's name with figures, or alone above a line of figures; figures alone say more of the slot above."""
        if self.is_exercise:
            return True
        if self.to.day is None and not self.to.days and not re.search(r"\d\s*(?:x|sets)", even(said), re.I):
            return False
        clauses = self._clauses(said)
        name = clauses.left[0][1] if clauses.left else ""
        if len(re.findall(r"[^\W\d_]", name)) < 3:
            return False
        exercise, matches, _ = self.to.names.find(_cut_name(name)[0])
        has_sets = any(scheme.which is None for scheme in clauses.schemes) or "set_count" in clauses.fields
        if has_sets:
            return exercise is not None or clauses.left[0][0] == 0 or bool(matches and matches[0].score > 0.5)
        if exercise is not None and self.to.superset is not None and self.to.superset.intervals is not None:
            return True  # its sets are those of the heading
        near = exercise is not None or bool(matches and matches[0].score >= 0.8)
        return near and _is_figures(follows) and len(name.split()) <= 7

    def _open_joined(self, label: str | None, body: str, place: Place) -> None:
        parts = list(paired(body, self._known)) or _JOINED.split(body)
        if len(parts) > 1 and all(re.search(r"[^\W\d_]{3,}", part) for part in parts):
            superset = self.to.superset or self.to.open_superset((label or "").rstrip("0123456789"), None, place)
            if label and label[-1].isdigit() and label[0].isalpha():
                self._open(label, parts[0], place)
                parts = parts[1:]
            for part in parts:
                self._open(None, part.strip(" )"), place)
            if superset.rounds is None and self.to.superset is superset:
                self.to.close_superset()
            return
        self._open(label, body, place)

    def _open(self, label: str | None, body: str, place: Place) -> SlotDraft:
        quoted_name = _QUOTED.match(even(body))
        if quoted_name:
            name = body[quoted_name.start("name") : quoted_name.end("name")].replace('""', '"')
            slot = self.to.open_slot(label, name, place)
            self._say(slot, body[quoted_name.start("rest") :], place)
            return slot
        without, weeks = split_weeks(even(body))
        body = without if weeks else body
        clauses = self._clauses(body)
        raw = clauses.left[0][1] if clauses.left else ""
        raw = self._exercise_in(re.sub(r"\s+(?:with|for|x|of|at|to|on)$", "", raw, flags=re.I))
        name, rest = (raw, "") if self.to.names.is_sure(raw) else _cut_name(raw)
        if not name and re.search(r"[^\W\d_]{2,}", body):
            name = raw
        others = alternatives(name, self._known) if not self.to.names.is_sure(name) else ()
        name = others[0] if others else name
        slot = self.to.open_slot(label, name, place)
        if others:
            slot.fields["substitutes"] = others[1:]
        if not name:
            self.to.problems.append(
                error(
                    place.of_slot(slot.label),
                    body,
                    f"{quoted(body)} has no exercise name",
                    "write it first, such as A1 Goblet squat 3x10",
                )
            )
        slot.add(clauses, place)
        for part in weeks:
            slot.add_week(part.week, part.said, place)
        more = self._other_exercises(clauses)
        if more:
            self.to.problems.append(
                error(
                    place.of_slot(slot.label),
                    body,
                    f"several exercises stand in one line, also {quoted(more[0])}",
                    "write each on a line of its own",
                )
            )
            return slot
        if rest:
            self._say(slot, rest, place)
        for _, piece in clauses.left[1:]:
            self._leftover(slot, piece, place)
        return slot

    def _known(self, name: str) -> bool:
        return self.to.names.find(name)[0] is not None

    def _exercise_in(self, name: str) -> str:
        """The name without "we start with" and the like, where that leaves an exercise."""
        short = without_lead(name)
        return short if short != name and not self._known(name) and self._known(_cut_name(short)[0]) else name

    def _clauses(self, body: str) -> Clauses:
        """What a slot's line says, in the light of the heading above it."""
        superset, day = self.to.superset, self.to.day
        intervals = bool(day and SPOKEN_OF.search(day.heading.name)) or bool(superset and superset.intervals)
        return read_clauses(body, in_rounds=bool(superset and superset.rounds), intervals=intervals, unit=self.unit)

    def _other_exercises(self, clauses: Clauses) -> list[str]:
        """Names of further exercises in a line that gives sets more than once."""
        if len([scheme for scheme in clauses.schemes if scheme.which is None]) < 2:
            return []
        index = self.to.names.catalogue.names
        return [piece[m.start : m.end] for _, piece in clauses.left[1:] for m in index.mentions(piece) if m.match.score >= 0.9]

    def _say(self, slot: SlotDraft, text: str, place: Place) -> None:
        clauses = read_clauses(text, has_name=False, in_rounds=slot.rounds is not None)
        slot.add(clauses, place)
        for _, piece in clauses.left:
            self._leftover(slot, piece, place)

    def _leftover(self, slot: SlotDraft, piece: str, place: Place) -> None:
        """Words that no phrase took: a note, unless they look like figures gone wrong."""
        words = re.findall(r"[^\W\d_]{2,}", piece)
        instead = re.match(r"or\s+(?:do\s+|use\s+|try\s+)?(?P<names>\D+)$", piece, re.I)
        if instead and (names := self._substitutes(instead["names"])):
            slot.fields["substitutes"] = (*slot.fields.get("substitutes", ()), *names)
            return
        bare_rest = _BARE_REST.fullmatch(even(piece))
        rest = read_rest(even(piece)) if bare_rest and "rest" not in slot.fields and slot.has_sets else None
        if rest is not None:
            slot.fields["rest"] = rest
            wrong = f"{quoted(piece)} behind the sets is read as the rest"
            self.to.problems.append(warning(place.of_slot(slot.label), piece, wrong, f"write rest {piece} to be sure"))
            return
        if slot.has_sets and _PAUSE.fullmatch(even(piece)):
            slot.notes.append(piece)
            return
        if re.search(r"\d", piece) and len(words) < 3:
            self.to.problems.append(
                error(
                    place.of_slot(slot.label),
                    piece,
                    f"{quoted(piece)} cannot be read",
                    "write sets and reps such as 3x10, or put it behind Note:",
                )
            )
            return
        if re.search(r"\d", piece):
            self.to.problems.append(warning(place.of_slot(slot.label), piece, f"{quoted(piece)} is kept as a note"))
        slot.notes.append(piece)

    def _substitutes(self, names: str) -> tuple[str, ...]:
        """The exercises of "ring row or band row"; empty where a part is none."""
        whole = names.strip(" .()")
        return (whole,) if self._known(whole) else alternatives(whole, self._known)

    def _more(self, text: str, said: str, place: Place) -> None:
        """A line below a slot that adds to it; below nothing, a note."""
        slot = self.to.slot
        if slot is None:
            self._note(said, place)
            return
        sides, load = _SIDE_LINE.match(text), _LOAD_LINE.match(text)
        body = said[sides.start("rest") :] if sides else said
        clauses = read_clauses(body, has_name=False, in_rounds=slot.rounds is not None and not slot.has_sets)
        if load:
            clauses = read_clauses(f"load: {load['rest']}", has_name=False)
        nothing = not clauses.schemes and not clauses.marks and not clauses.fields and not clauses.faults
        if nothing:
            if re.match(r"^\W*\d", body) and len(re.findall(r"[^\W\d_]{2,}", body)) < 3:
                self._leftover(slot, body, place)
            else:
                slot.notes.append(said)
            return
        if self.to.day is not None and re.match(r"rest\b(?!\s*:)", text, re.I) and "rest" not in slot.fields:
            self.to.day.rest_below = clauses.fields.get("rest")
        slot.add(clauses, place)
        for _, piece in clauses.left:
            self._leftover(slot, piece, place)

    def _keyed(self, name: str, value: str, said: str, place: Place) -> None:
        slot = self.to.slot
        if slot is not None:
            if name == "cues":
                slot.fields["cues"] = (*slot.fields.get("cues", ()), value)
            elif name == "substitutes":
                slot.fields["substitutes"] = (*slot.fields.get("substitutes", ()), *_sub_names(value, self.to))
            elif name == "demo":
                slot.fields["demo"] = value
            else:
                add_keyed(slot.fields, name, value)
        elif name == "note":
            (self.to.notes if self.to.day is None else self.to.day.notes).append(value)
            self.in_notes = True
        else:
            self._note(said, place)

    def _note(self, said: str, place: Place) -> None:
        if self.to.day is not None:
            self.to.day.notes.append(said)
        elif not self.to.name and not self.to.days and len(said) <= 80 and not self.to.notes and not self.in_notes:
            self.to.name = said.rstrip(": ")
        else:
            self.to.notes.append(said.strip("*_"))

    def _is_exercise(self, text: str) -> bool:
        return self.to.names.is_sure(text.rstrip(": "))


def _sub_names(value: str, to: Assembler) -> tuple[str, ...]:
    from bot.language.blocks.clauses import split_names

    whole = value.strip()
    if whole.startswith('"') and whole.endswith('"') and len(whole) > 2:
        return (whole[1:-1].replace('""', '"'),)
    return (whole,) if to.names.is_sure(whole) else split_names(whole)


def _cut_name(text: str) -> tuple[str, str]:
    """The name, and what is added behind a comma, bracket, colon or dash."""
    cut = re.search(r"\s+-+\s+|\s*[,(\[:;|]\s*|\.\s+|\s+@", even(text))
    name, rest = (text[: cut.start()], text[cut.end() :]) if cut and cut.start() else (text, "")
    leading = re.match(r"^(\d{1,2}\s*(?:°|deg(?:rees?)?)\s*)(?P<name>.+)$", name, re.I)
    if leading:
        name, rest = leading["name"], f"{leading[1].strip()}; {rest}".rstrip("; ")
    name = re.sub(r"\s+(?:with|for|x|of|at|to|on)$", "", name.strip(" .-:*"), flags=re.I)
    return name.strip(), rest.strip(" )]")


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
