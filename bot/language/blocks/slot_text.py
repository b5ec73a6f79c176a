"""What does a line of a slot, or a line below one, add to the block? Opens slots, and puts what is said of them where it belongs.

Goblet squat 3x10-12 @3110, ribs down     a slot, its sets, and a note from the words that no phrase took
    last set drop 20% x 2                  more of the slot above
cue: ribs down                             a part said by name
set 2: 8 reps                              one set of it
"""

from __future__ import annotations

import re
from dataclasses import replace

from bot.language.blocks.amounts import TIME_PATTERN, read_rest
from bot.language.blocks.assemble import Assembler
from bot.language.blocks.clauses import read_clauses
from bot.language.blocks.day_repeats import say_again
from bot.language.blocks.growth import growth_in
from bot.language.blocks.headings import read_label
from bot.language.blocks.intervals import SPOKEN_OF
from bot.language.blocks.joined import partner_in
from bot.language.blocks.letters import even
from bot.language.blocks.names import SURE
from bot.language.blocks.phrases.free_words import KEYS, add_keyed, split_names
from bot.language.blocks.prose import (
    alternatives,
    paired,
    sentences,
    weeks_in,
    with_counts_by_name,
    with_shared_sets,
    without_lead,
    without_tail,
)
from bot.language.blocks.repeats import repeated_in, take_over
from bot.language.blocks.scan import Clauses
from bot.language.blocks.slot_draft import SetLine, SlotDraft
from bot.language.blocks.weeks import split_weeks
from bot.language.problems import Place, error, quoted, warning
from bot.training.blocks import SetKind
from bot.training.loads import LoadKind

SET_LINE = re.compile(
    r"^(?P<kind>warm-?up\s+|burn-?out\s+|work(?:ing)?\s+)?set\s*#?\s*(?P<number>\d{1,2})?\s*(?:\((?P<kind2>burnout)\))?\s*:\s*(?P<rest>.*)$",
    re.I,
)
KEY_LINE = re.compile(rf"^(?P<key>{'|'.join(sorted(KEYS, key=len, reverse=True))})\s*[:=]\s*(?P<value>.+)$", re.I)
JOINED = re.compile(
    r"\s*(?:,\s*|\(\s*)?\b(?:super-?\s?set(?:ted)?|ss|paired)\s*(?:with|w/|w)\s*[:]?\s+|\s+into\s+(?=[A-Za-z])", re.I
)
_SIDE_LINE = re.compile(r"^sides?\s*:\s*(?P<rest>.+)$", re.I)
_LOAD_LINE = re.compile(r"^load\s*:\s*(?P<rest>same|rises|falls)\s*$", re.I)
_NOTE_IN_SET = re.compile(r"(?:^|,\s*)note:\s*(?P<note>.*)$", re.I)
_TIME = r"(?:\d+(?:[.,]\d)?(?:\s*-\s*\d+)?\s*(?:s|secs?|seconds?|m|mins?|minutes?|\"|'(?:\d\d\"?)?)|\d:\d\d)"
_BARE_REST = re.compile(_TIME, re.I)
_REST_AT_END = re.compile(rf"^(?P<before>.*[a-z)])[\s/,.;]+(?P<time>{_TIME})$", re.I)  # "2s pause btm 90"", nothing of it a pause
_NAME_AND_FIGURES = re.compile(r"^(?P<name>[a-z][a-z' -]{2,40}?)\s*[-:,]*\s*\d.*$", re.I)
_BARE_FIGURE = re.compile(r"\d{2,3}(?:\s?-\s?\d{2,3})?|[1-5](?:[.,]5)?")
_REST_AT_START = re.compile(rf"^(?P<time>{_TIME})\s*[(,;/]\s*(?=\S)", re.I)
_LEAST_REST_S = 15  # shorter times behind a word are how long to hold
# A pause within each rep: no figure of sets, and no doubt about it.
_PAUSE = re.compile(
    r"(?:with\s+(?:an?\s+)?)?(?:(?:hold|pause|squeeze|stretch)(?:\s+(?:for|of))?\s+\d(?:-\d)?\s*-?\s*(?:s|secs?|seconds?)|\d(?:-\d)?\s*-?\s*(?:s|secs?|seconds?)\s+(?:hold|pause|squeeze|stretch))"
    r"(?:\s+(?:(?:at|in|on)\s+)?(?:the\s+)?[a-z]+(?:\s+[a-z]+)?)?",
    re.I,
)
_QUOTED = re.compile(r'^"(?P<name>(?:[^"]|"")+)"\s*(?::|,|-)?\s*(?P<rest>.*)$')
_OF_THE_WEEK = re.compile(
    r"\b(?:times|days|sessions|workouts|x)\s+(?:a|per|each|every)\s+week\b|^(?:this\s+|the\s+)?(?:block|plan|program(?:me)?)\b.*\b(?:runs?|lasts?|is|goes)\b",
    re.I,
)
_INSTEAD = re.compile(
    r"(?:or|alternatively|alternative|sub(?:stitute)?(?:\s+with)?)\s*:?\s+(?:do\s+|use\s+|try\s+)?(?P<names>\D+)$|"
    r"(?:no|can'?t|cannot|don't\s+have|too)\b[^.;?]*\?\s*(?:(?:then|just|do|use|try|take|go\s+for)\s+)*(?:the\s+|some\s+|an?\s+)?(?P<names3>\D+)$|"
    r"(?:if\b|when\b|no\b|can'?t\b|(?:[\w' -]+\?))[^.;]*?[\s,](?:do|use|try|take|go\s+for|swap(?:\s+(?:it|them|this))?\s+(?:for|to|with)|switch\s+to)\s+(?:the\s+|some\s+)?(?P<names2>\D+?)\s+instead$|"
    r"(?:if|when|no|can'?t)\b[^.;,]*,\s*(?:the\s+|some\s+|an?\s+)?(?P<names4>[^\d,]+?)\s+instead$",
    re.I,
)
_REST_LINE = re.compile(
    rf"^[/>=\s-]*(?:(?:then|and|take|with|also|again)\s+)*(?P<time>{TIME_PATTERN})\s*(?P<words>(?:(?:of|rest|again|same|as|before|here|too|off|break|pause|between|in|after|each|every|all|both|the|one|exercises?|moves?|please|also)\b[\s,]*)*)[.!]?$",
    re.I,
)
_REST_WORD = re.compile(r"\b(?:rest|again|off|break|pause|between|after|same)\b", re.I)
_AFTER_EACH = re.compile(r"\b(?:after|between)\s+(?:each|every|all)\b|\bagain\b|\bsame\b", re.I)


class SlotText:
    """Lines about single exercises, read into the block that is being put together."""

    def __init__(self, to: Assembler) -> None:
        self.to = to

    def open_joined(self, label: str | None, body: str, place: Place) -> None:
        without, partner = partner_in(body)
        if partner:
            self._open_with_partner(label, without, partner, place)
            return
        parts = list(with_shared_sets(with_counts_by_name(paired(body, self.knows), self.to.same_exercise))) or JOINED.split(body)
        if len(parts) > 1 and all(re.search(r"[^\W\d_]{3,}", part) for part in parts):
            superset = self.to.superset or self.to.open_superset((label or "").rstrip("0123456789"), None, place)
            if label and label[-1].isdigit() and label[0].isalpha():
                self.open(label, parts[0], place)
                parts = parts[1:]
            for part in parts:
                self.open(None, part.strip(" )"), place)
            if superset.rounds is None and self.to.superset is superset:
                self.to.close_superset()
            return
        self.open(label, body, place)

    def _open_with_partner(self, label: str | None, body: str, partner: str, place: Place) -> None:
        """ "Row 3x10 (superset with 3)": the numbers of both say that they belong together."""
        above = self.to.slot_above("")
        slot = self.open(label, body, place)
        if partner == "above" and above is not None:
            self.to.join((above.label, slot.label))
        elif partner == "next":
            slot.joins_next = True
        elif partner != "above" and slot.said_label and slot.label.rstrip("0123456789") != partner.rstrip("0123456789"):
            self.to.join((slot.said_label, partner))

    def open(self, label: str | None, body: str, place: Place) -> SlotDraft:
        quoted_name = _QUOTED.match(even(body))
        if quoted_name:
            name = body[quoted_name.start("name") : quoted_name.end("name")].replace('""', '"')
            slot = self.to.open_slot(label, name, place)
            self._say(slot, body[quoted_name.start("rest") :], place)
            return slot
        again = repeated_in(even(body))
        body = again.text if again else body
        shorter, growth = growth_in(even(body))
        body = shorter if growth else body
        without, weeks = split_weeks(even(body))
        body = without if weeks else body
        clauses = self.clauses(body)
        raw = clauses.left[0][1] if clauses.left else ""
        raw = self._exercise_in(re.sub(r"\s+(?:with|for|x|of|at|to|on)$", "", raw, flags=re.I))
        name, rest = (raw, "") if self.to.names.is_sure(raw) else cut_name(raw)
        if not name and re.search(r"[^\W\d_]{2,}", body):
            name = raw
        if not self.knows(name):
            name, tail = without_tail(name, self.knows)
            rest = "; ".join(part for part in (tail, rest) if part)
        if name and not self.knows(name):
            name, rest = self._named_later(name, rest)
        if re.search(r"\d", name) and not self.to.names.is_sure(name):
            name, rest = self._named_first(name, rest)
        name = self.to.names.with_attachment(name, rest)
        others = alternatives(name, self.knows) if not self.to.names.is_sure(name) else ()
        name = others[0] if others else name
        above = self.to.slot_above(again.label) if again else None
        copy = self.to.copied(label, "") if label and not name else None
        if copy is not None and say_again(copy, clauses, place):
            self.to.slot = copy
            return copy
        self._leave_rounds(clauses)
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
        if "substitutes" in clauses.fields:
            clauses.fields["substitutes"] = tuple(self._named_by(one) for one in clauses.fields["substitutes"])
        slot.add(clauses, place)
        slot.grows = growth
        if above is not None:
            take_over(slot, above)
        elif again:
            wrong = f"{quoted(again.label or name)} is to be like an exercise that is not there"
            self.to.problems.append(error(place.of_slot(slot.label), body, wrong, "write its sets and reps, such as 3x8-10"))
        for part in weeks:
            slot.add_week(part.week, part.said, place, rests_so=part.rests_so)
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

    def _leave_rounds(self, clauses: Clauses) -> None:
        """An exercise with another number of sets than the rounds above it is none of them."""
        superset = self.to.superset
        sets = {scheme.sets for scheme in clauses.schemes if scheme.which is None and scheme.sets is not None}
        sets |= {clauses.fields["set_count"][0]} if "set_count" in clauses.fields else set()
        if superset is not None and superset.rounds and len(superset.slots) > 1 and sets - {superset.rounds}:
            self.to.close_superset()

    def _named_first(self, name: str, rest: str) -> tuple[str, str]:
        """ "Incline dumbbell press bench on 30 degrees": the exercise that begins a run of words with figures behind it."""
        first = next(
            (one for one in self.to.names.catalogue.names.mentions(name) if one.start == 0 and one.match.score >= SURE), None
        )
        if first is None or not re.search(r"\d", name[first.end :]):
            return name, rest
        return name[: first.end].strip(), "; ".join(part for part in (name[first.end :].strip(), rest) if part)

    def _named_later(self, name: str, rest: str) -> tuple[str, str]:
        """The exercise behind words that name none: "Einarmiges Rudern (One arm row)", "When you have your breath back, the dead hang"."""
        parts = [part.strip() for part in re.split(r"[,;()\[\]]", rest) if part.strip()]
        for number, part in enumerate(parts[:2]):
            known = without_tail(without_lead(part), self.knows)[0]
            if self.knows(known) and len(known.split()) > 1:
                return known, "; ".join([name, *parts[:number], *parts[number + 1 :]])
        return name, rest

    def _named_by(self, words: str) -> str:
        """ "Incline push-ups on the worktop": the exercise in these words, or all of them."""
        return words if self.knows(words) else without_tail(words, self.knows)[0]

    def knows(self, name: str) -> bool:
        return self.to.names.find(name)[0] is not None

    def _exercise_in(self, name: str) -> str:
        """The name without "we start with" and the like, where that leaves an exercise."""
        short = without_lead(name)
        if short == name or self.knows(name):
            return name
        plain = cut_name(short)[0]
        return short if self.knows(plain) or self.knows(without_tail(plain, self.knows)[0]) else name

    def clauses(self, body: str) -> Clauses:
        """What a slot's line says, in the light of the heading above it."""
        superset, day = self.to.superset, self.to.day
        intervals = bool(day and SPOKEN_OF.search(day.heading.name)) or bool(superset and superset.intervals)
        return read_clauses(
            body, in_rounds=bool(superset and superset.rounds), intervals=intervals, unit=self.to.conventions.unit
        )

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
        if self._takes_substitutes(slot, piece):
            return
        said = sentences(piece)
        if len(said) > 1 and slot.has_sets:
            for one in said:
                self._leftover(slot, one, place)
            return
        bare_rest = _BARE_REST.fullmatch(even(piece))
        rest = read_rest(even(piece)) if bare_rest and "rest" not in slot.fields and slot.has_sets else None
        if rest is not None:
            slot.fields["rest"] = rest
            self.to.rests_behind.append((place.of_slot(slot.label), piece))
            return
        at_start = _REST_AT_START.match(even(piece)) if "rest" not in slot.fields and slot.has_sets else None
        if at_start:
            self._leftover(slot, piece[: at_start.end("time")], place)
            self._leftover(slot, piece[at_start.end() :].strip(), place)
            return
        at_end = _REST_AT_END.match(even(piece)) if "rest" not in slot.fields and slot.has_sets else None
        rest = read_rest(at_end["time"]) if at_end else None
        if at_end and rest is not None and rest.low_s >= _LEAST_REST_S:
            self._leftover(slot, piece[at_end.start("time") :], place)
            self._leftover(slot, piece[: at_end.end("before")], place)
            return
        if slot.has_sets and _PAUSE.fullmatch(even(piece)):
            slot.notes.append(piece)
            return
        if _BARE_FIGURE.fullmatch(piece.strip()) and self._takes_rest(slot, piece.strip(), place):
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

    def _takes_rest(self, slot: SlotDraft, figure: str, place: Place) -> bool:
        """A lone figure is the rest where the coach said what rests are in, or where sets and tempo stand before it."""
        unit = self.to.conventions.rest_unit
        if (
            "rest" in slot.fields
            or not slot.has_sets
            or not (unit or (slot.says("tempo") and int(figure[:3].rstrip("-")) % 15 == 0))
        ):
            return False
        rest = read_rest(f"{figure} {unit or 's'}")
        if rest is None:
            return False
        slot.fields["rest"] = rest
        if not unit:
            self.to.rests_behind.append((place.of_slot(slot.label), figure))
        return True

    def _takes_substitutes(self, slot: SlotDraft, piece: str) -> bool:
        """ "or band rows", "if the shoulder is grumpy do band rows instead"."""
        instead = _INSTEAD.match(piece.strip(" .()"))
        names = (
            self.substitutes_in(instead["names"] or instead["names2"] or instead["names3"] or instead["names4"])
            if instead
            else ()
        )
        if names:
            slot.fields["substitutes"] = (*slot.fields.get("substitutes", ()), *names)
        return bool(names)

    def substitutes_in(self, names: str) -> tuple[str, ...]:
        """The exercises of "ring row or band row"; empty where a part is none."""
        whole = names.strip(" .()")
        return (whole,) if self.knows(whole) else alternatives(whole, self.knows)

    def asks_in_vain(self, text: str) -> bool:
        """Does a line begin with another exercise and go on with figures, but without sets? Nothing of it is for the slot above."""
        labelled = read_label(text)
        found = _NAME_AND_FIGURES.match(labelled[1] if labelled else text)
        if not found or self.to.day is None or not self.to.names.is_sure(found["name"]):
            return False
        return self.to.slot is None or not self.to.same_exercise(self.to.slot.name, found["name"])

    def add_line(self, text: str, said: str, place: Place) -> None:
        """A line below a slot that adds to it; below nothing, a note."""
        slot = self.to.slot
        if self.asks_in_vain(text):
            wrong = f"{quoted(said)} names an exercise, but its figures I cannot read"
            instead = "write sets and reps such as 3x10, or put it behind Note:"
            self.to.problems.append(error(place, said, wrong, instead))
            return
        if slot is None:
            self.to.note(said)
            return
        sides, load = _SIDE_LINE.match(text), _LOAD_LINE.match(text)
        body = said[sides.start("rest") :] if sides else said
        shorter, growth = growth_in(even(body))
        if growth:
            body, slot.grows = shorter, growth
        without, weeks = split_weeks(even(body))
        if weeks:
            body = without
            for part in weeks:
                slot.add_week(part.week, part.said, place, rests_so=part.rests_so)
        clauses = read_clauses(body, has_name=False, in_rounds=slot.rounds is not None and not slot.has_sets)
        if load:
            clauses = read_clauses(f"load: {load['rest']}", has_name=False)
        nothing = not clauses.schemes and not clauses.marks and not clauses.fields and not clauses.faults
        if nothing:
            if self._takes_substitutes(slot, body):
                return
            if _OF_THE_WEEK.search(body):
                self.to.weeks_said = self.to.weeks_said or weeks_in(body)
                self.to.notes.append(said)
                return
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

    def add_rest_line(self, text: str) -> bool:
        """ "75 s rest after each", "60s again" below exercises: the rest of each of their group that has none."""
        found, slot, day = _REST_LINE.match(text), self.to.slot, self.to.day
        if not found or slot is None or day is None or not slot.has_sets or not _REST_WORD.search(text):
            return False
        rest = read_rest(found["time"])
        if rest is None:
            return False
        group = [one for one in day.slots if one.label.rstrip("0123456789") == slot.label.rstrip("0123456789")]
        for one in group if _AFTER_EACH.search(text) else [slot]:
            one.fields.setdefault("rest", rest)
        return True

    def add_keyed_line(self, name: str, value: str, said: str, place: Place) -> None:
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
            self.to.in_notes = True
        else:
            self.to.note(said)

    def add_set_line(self, text: str, said: str, place: Place) -> bool:
        """ "Set 2: 8 reps": one set of the slot above; False if the line is something else."""
        found = SET_LINE.match(text)
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

    def add_burnout(self, slot: SlotDraft, clauses: Clauses, place: Place) -> None:
        line = SetLine(None, SetKind.BURNOUT, clauses, place, "; ".join(piece for _, piece in clauses.left))
        slot.add_set_line(line)

    def remark(self, text: str, place: Place, *, is_cue: bool = False) -> None:
        """A cell of a column of notes or cues: phrases of the trade count ("each side", "last set drop 20%"), all else is kept as said."""
        slot = self.to.slot
        if slot is None:
            self.to.note(text)
            return
        if self._takes_substitutes(slot, text) or (_IN_EACH_HAND.fullmatch(text.strip(" .()")) and _load_each(slot)):
            return
        shorter, growth = growth_in(even(text))
        if growth:
            text, slot.grows = shorter, growth
        clauses = read_clauses(text, has_name=False)
        fields = {name: value for name, value in clauses.fields.items() if name != "note"}
        schemes = [scheme for scheme in clauses.schemes if scheme.which is None]
        if clauses.faults or schemes or not (clauses.marks or fields or clauses.schemes):
            if is_cue:
                slot.fields["cues"] = (*slot.fields.get("cues", ()), text)
            else:
                slot.notes.append(text)
            return
        slot.add(clauses, place)
        slot.notes += [piece for _, piece in clauses.left]


_IN_EACH_HAND = re.compile(
    r"(?:weights?\s+(?:is\s+|are\s+)?)?(?:per|(?:in\s+)?each|a)\s+(?:hand|dumbbells?|dbs?|bells?|kettlebells?|kbs?)", re.I
)


def _load_each(slot: SlotDraft) -> bool:
    """ "per hand" beside a load of a column says what is weighed, not how the sides share the sets; False where no load is said."""
    if not slot.says("load"):
        return False
    for at, part in enumerate(slot.said):
        if isinstance(part, SetLine):
            continue
        said, place = part
        marks = [
            replace(mark, values=tuple(replace(load, pair=load.kind is LoadKind.IMPLEMENT) for load in mark.values))
            if mark.field == "load"
            else mark
            for mark in said.marks
        ]
        slot.said[at] = (replace(said, marks=marks), place)
    return True


def _sub_names(value: str, to: Assembler) -> tuple[str, ...]:
    whole = value.strip()
    if whole.startswith('"') and whole.endswith('"') and len(whole) > 2:
        return (whole[1:-1].replace('""', '"'),)
    return (whole,) if to.names.is_sure(whole) else split_names(whole)


def cut_name(text: str) -> tuple[str, str]:
    """The name, and what is added behind a comma, bracket, colon or dash."""
    cut = re.search(r"\s+-+\s+|\s*[,(\[:;|]\s*|\.\s+|\s+@", even(text))
    name, rest = (text[: cut.start()], text[cut.end() :]) if cut and cut.start() else (text, "")
    leading = re.match(r"^(\d{1,2}\s*(?:°|deg(?:rees?)?)\s*)(?P<name>.+)$", name, re.I)
    if leading:
        name, rest = leading["name"], f"{leading[1].strip()}; {rest}".rstrip("; ")
    name = re.sub(r"\s+(?:with|for|x|of|at|to|on)$", "", name.strip(" .-:*"), flags=re.I)
    return name.strip(), rest.strip(" )]")
