"""To which exercise of a superset does a number belong? Supersets are told in turns, both at once, by the load or the measure.

"12/15" while two exercises are done in turns        one set of each
"35x10 / 14 dips"                                    the first is what is due, the second its partner's
"50" where steps are due and the partner is a plank  asked about, the partner first
"right 7" after "left 9"                             the set on record gets its second side
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from decimal import Decimal

from bot.language.reading.days import ToldDay
from bot.language.reading.doubts import Settled
from bot.language.reading.grammar import Entry, Item, cut_last
from bot.language.reading.heard import label_of, same_as_last
from bot.language.reading.ranking import fit_count
from bot.language.reading.setting import Setting, setting_for
from bot.language.reading.settle import SURE, settle_entry
from bot.language.reading.telling import HARDLY
from bot.language.reading.terms import Clause, Term
from bot.language.readings import CorrectionHeard, Heard, Option, Question, SetsHeard
from bot.language.situation import Situation
from bot.training.blocks import Measure, Slot
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import LoadStyle
from bot.training.records import SetRecord

_FITS_WELL = -1.2  # log weights: a reading that fits so well in the slot that is due is not looked for elsewhere
_OUT_OF_ORDER = 1.5  # how much rarer a set out of order is than one in order
_GOES_ON = 0.7  # less rare with the very load of the set before
_CLEARLY = 2.5
_NEVER_LOADED = 4.0  # body weight is due, and the load is that of the set before, which was of its partner
_IN_TURNS = 1.0  # while a superset is done in turns, the next two counts are rather one of each
_NEARLY = 0.5
_JOINS = frozenset("x@wfo:")
_THEN = 0.7  # "12 green, then 13 on the chest one": then begins the exercise that is named
_BOTH = re.compile(r"\bboth\b(?! (?:sides?|arms?|legs?|hands?|sets?))")
_ROUND = re.compile(r"\b(?:round|rd|rnd|lap|circuit|tour|runde)\b|^\s*r\d\s*:|\bboth\b|\beach (?:one|exercise)\b")


def _fits(record: SetRecord, setting: Setting) -> bool:
    """Does the count lie within what is prescribed there?"""
    count, number = record.done.worst_count, record.place.number if record.place else 1
    return count is not None and fit_count(Decimal(count), setting.target(number), setting) >= 0.0


def cells_of(entry: Entry) -> list[Item]:
    """The entry's numbers as cells, each a count alone or with its load: "95x5 18" has two, "15/8 15/7" four."""
    cells: list[Item] = []
    for item in entry.items:
        if not item.numbers:
            if cells and item.marks:
                cells[-1].marks += item.marks
            continue
        first = item.numbers[0]
        if cells and first.side and {t.side for t in cells[-1].numbers if t.side} == {"L" if first.side == "R" else "R"}:
            cell = cells[-1]  # "left 7, right 9": the two sides of one set
            cell.numbers.append(first)
            cell.ops.append(item.before or " ")
        else:
            cell = Item([first], [], [], before=item.before)
            cells.append(cell)
        for op, term in zip(item.ops, item.numbers[1:], strict=True):
            whole = any(t.role == "count" or op_ in _JOINS for t, op_ in zip(cell.numbers[1:], cell.ops, strict=True))
            other_side = term.side and {t.side for t in cell.numbers if t.side} == {"L" if term.side == "R" else "R"}
            if (
                (op in _JOINS and not whole)
                or other_side
                or term.role in ("rpe", "rir")
                or (op == " " and cell.numbers[-1].role == "load" and len(cell.numbers) == 1)
            ):
                cell.numbers.append(term)
                cell.ops.append(op)
            else:
                cell = Item([term], [], [], before="+" if term.sign == "+" else op)
                cells.append(cell)
        for mark in item.marks:
            owner = next((c for c in reversed(cells) if c.numbers[0].start <= mark.start), cells[-1])
            owner.marks.append(mark)
    return cells


def _sets_in(heard: tuple[Heard, ...]) -> list[SetRecord]:
    return [record for part in heard if isinstance(part, SetsHeard) for record in part.sets]


def _only_sets(heard: tuple[Heard, ...]) -> bool:
    return bool(heard) and all(isinstance(part, SetsHeard) for part in heard)


def _alternating(first: list[SetRecord], second: list[SetRecord]) -> list[SetRecord]:
    """Rounds of a superset in the order in which they are done."""
    turns = [record for pair in zip(first, second, strict=False) for record in pair]
    return turns + first[len(second) :] + second[len(first) :]


@dataclass
class Group:
    """The slot that is due and the others of its letter, as one text tells of them. folded, text: of the whole message."""

    text: str
    folded: str
    situation: Situation
    catalogue: Catalogue
    told: ToldDay

    def _setting(self, slot: Slot | None) -> Setting:
        return setting_for(self.situation, self.catalogue, slot, on=self.told.on, day=self.told.day)

    def or_partner(self, entry: Entry, settled: Settled, due_slot: Slot) -> Settled:
        """ "12/15", "95x5 18", "15/8 15/7" while a superset is done in turns: sets of this exercise, or one of each?"""
        cells = cells_of(entry)
        if len(cells) < 2 or len(cells) % 2 or "sets" in self.text.lower():
            return settled
        if any(item.set_number for item in entry.items) and not _ROUND.search(self.folded):
            return settled
        if any(mark.kind in "Ol+vUDdWZ" for item in entry.items for mark in item.marks):
            return settled  # told by what is known, or as one set with drops and rests
        partner = self._pair_of(due_slot)
        if partner is None:
            return settled
        turns, fresh = self._in_turns(due_slot), self._not_begun(due_slot)
        parted = cells[1].before
        told = turns or (fresh and (parted in "/&+|" or any(mark.kind in "cb" for cell in cells for mark in cell.marks)))
        if not told:
            return settled
        halves = [self._cells_in(slot, cells[n::2]) for n, slot in enumerate((due_slot, partner))]
        if any(half.question is not None or not _only_sets(half.heard) for half in halves):
            return settled
        apart = (
            sum(half.score or 0.0 for half in halves)
            + (_IN_TURNS if turns else 0.0)
            + (_THEN if _ROUND.search(self.folded) else 0.0)
        )
        together = settled.score if settled.score is not None and settled.question is None else None
        heard = (SetsHeard(tuple(_alternating(*(_sets_in(half.heard) for half in halves)))),)
        if self._may_be_sides(cells, due_slot):
            if not turns or parted == "/":
                return settled
            return self._which(heard, settled, 0.5)
        if apart < HARDLY:
            return settled
        if turns and self._level(due_slot, partner) and (together is None or apart > together - _NEARLY):
            return Settled(heard, 0.9, said=settled.said, score=apart)
        if together is None or apart > together + _CLEARLY or _ROUND.search(self.folded):
            return Settled(heard, 0.85, said=settled.said, score=apart)
        return self._which(heard, settled, 0.55) if apart > together - _NEARLY else settled

    def _which(self, heard: tuple[Heard, ...], settled: Settled, certainty: float) -> Settled:
        """Ask: one set of each exercise, or what the text says of one alone?"""
        each = Option(label_of(heard), heard, certainty)
        mine = settled.question.options if settled.question else (Option(label_of(settled.heard), settled.heard, 1 - certainty),)
        return Settled(question=Question("which_slot", settled.said[:80], (each, *mine)[:4]), certainty=0.5, said=settled.said)

    def _pair_of(self, due_slot: Slot) -> Slot | None:
        """The other exercise of the superset, where it has just two and this one is its first."""
        day = self.told.day
        slots = [slot for slot in day.slots if slot.group == due_slot.group] if day else []
        if len(slots) != 2 or slots[0].label != due_slot.label or not self._setting(slots[1]).free_numbers:
            return None
        return slots[1]

    def _cells_in(self, slot: Slot, cells: list[Item]) -> Settled:
        """The cells of one exercise, read as its sets."""
        items = [replace(cell, before="," if n else "") for n, cell in enumerate(cells)]
        entry = Entry(label=slot.label, items=items, start=cells[0].start, end=cells[-1].end).twin()
        return settle_entry(entry, self._setting(slot), self.folded, self.text, self.situation, sure=SURE, alone=True)

    def _may_be_sides(self, cells: list[Item], due_slot: Slot) -> bool:
        """ "9/8" of a one-sided exercise: two bare counts that are alike may be its two sides."""
        numbers = [term for cell in cells for term in cell.numbers]
        if not self._setting(due_slot).sided or len(numbers) != 2 or any(t.each or t.side or t.role == "load" for t in numbers):
            return False
        return 0.6 <= float(numbers[1].number) / max(float(numbers[0].number), 1.0) <= 1.6 and cells[1].before not in "h"

    def _level(self, due_slot: Slot, partner: Slot) -> bool:
        """Have both exercises as many sets on record, so that a new round begins?"""
        return len(self._setting(due_slot).records) == len(self._setting(partner).records) > 0

    def _in_turns(self, due_slot: Slot) -> bool:
        """Is the group done in turns? Whoever does all sets of one exercise first has none of its partner while some are left."""
        day = self.situation.day
        partners = {slot.label for slot in day.slots if slot.group == due_slot.group and slot is not due_slot} if day else set()
        return any(record.place is not None and record.place.label in partners for record in self.situation.today)

    def both(self, entries: list[Entry], clause: Clause, due_slot: Slot, base: Setting) -> tuple[Heard, ...]:
        """ "both 10", "10 on both exercises" in turns: the count holds for each exercise of the superset."""
        numbers = [term for entry in entries for item in entry.items for term in item.numbers]
        said = _BOTH.search(self.folded)
        if not said or len(numbers) != 1 or not numbers[0].bare or numbers[0].plural or base.sided or clause.unknown:
            return ()
        partner = next((slot for slot in self._nearby(due_slot) if slot.group == due_slot.group), None)
        if partner is None or not self._in_turns(due_slot) or any(entry.label or entry.exercise for entry in entries):
            return ()
        heard: list[Heard] = []
        for slot in (due_slot, partner):
            one = Entry(items=[Item([numbers[0].twin()])], start=numbers[0].start, end=numbers[0].end)
            settled = settle_entry(one, self._setting(slot), self.folded, self.text, self.situation, sure=SURE, alone=True)
            if settled.question is not None or not settled.heard:
                return ()
            heard += settled.heard
        return tuple(heard)

    def _not_begun(self, due_slot: Slot) -> bool:
        """Is nothing of this group on record yet?"""
        day = self.situation.day
        group = {slot.label for slot in day.slots if slot.group == due_slot.group} if day else set()
        return not any(record.place is not None and record.place.label in group for record in self.situation.today)

    def same_for_both(self, entries: list[Entry], clause: Clause, due_slot: Slot) -> tuple[Heard, ...]:
        """ "same for both", "same again round 3", while a superset is done in turns: each exercise again."""
        marks = [mark for entry in entries for item in entry.items for mark in item.marks]
        numbers = [term for entry in entries for item in entry.items for term in item.numbers]
        sames = sum(mark.kind == "A" and mark.text not in ("as", "like", "once", "one") for mark in marks)
        wanted = sames and not numbers and not any(entry.label or entry.exercise for entry in entries)
        day = self.told.day
        if not wanted or day is None or not (_ROUND.search(self.folded) or sames > 1):
            return ()
        if not self._in_turns(due_slot) or len(clause.unknown) > 1 or re.search(r"\b(?:side|left|right)\b", self.folded):
            return ()
        heard: list[Heard] = []
        for slot in day.slots:
            if slot.group != due_slot.group:
                continue
            again = Entry(items=[Item(marks=[Term("A", "same", 0, 0)])])
            settled = settle_entry(again, self._setting(slot), "same", "same", self.situation, sure=SURE, alone=True)
            if settled.question is not None or not settled.heard:
                return ()
            heard += settled.heard
        return tuple(heard)

    def other_side(self, entries: list[Entry]) -> CorrectionHeard | None:
        """ "right 7" after "left 9", "other side 8", "same on the other side": the set on record gets its second side."""
        last = self.situation.today[-1] if self.situation.today else None
        if last is None or last.place is None or (last.done.left is None) == (last.done.right is None) or len(entries) != 1:
            return None
        entry = entries[0]
        lacking = "L" if last.done.left is None else "R"
        numbers = [term for item in entry.items for term in item.numbers]
        other = any(
            mark.kind in "$M" and mark.text in ("other", "same", "matched", "and") for item in entry.items for mark in item.marks
        )
        named = entry.label or entry.exercise
        if (named and named != last.place.label) or len(numbers) > 1 or any(item.set_number for item in entry.items):
            return None
        if not numbers:
            count = last.done.worst_count if other else None
        elif numbers[0].side == lacking or (other and not numbers[0].side and numbers[0].role in ("", "count")):
            count = int(numbers[0].number)
        else:
            return None
        if count is None or (numbers and numbers[0].number != numbers[0].number.to_integral_value()):
            return None
        left, right = (count, last.done.right) if lacking == "L" else (last.done.left, count)
        done = (
            replace(last.done, left=left, right=right) if left != right else replace(last.done, count=left, left=None, right=None)
        )
        return CorrectionHeard(last, replace(last, done=done))

    def with_partner(self, entry: Entry, due_slot: Slot) -> list[Entry]:
        """A superset told in one go with one name or none: the last thing said may be the partner's.

        "35x10 / 14 dips" while dips are the partner of what is due; "16 press ups then 14 on the heavy band".
        """
        day = self.told.day
        assert day is not None
        named = entry.label or entry.exercise
        if not named and len(entry.items) < 2:
            return [entry]
        slot = day.slot(named) if named else due_slot
        if slot is None:
            return [entry]
        first = next((s for s in day.slots if s.label == due_slot.label), None)
        if named and slot.label != due_slot.label and first is not None and slot.group == first.group:
            cut = cut_last(entry)
            if cut is not None:
                mine, theirs = cut
                mine.label, mine.exercise, mine.named_last = due_slot.label, "", False
                return [mine, theirs] if self._fit_better(mine, theirs, entry) else [entry]
            return [entry]
        partner = next((s for s in day.slots if s.group == slot.group and s is not slot and self._setting(s).free_numbers), None)
        if partner is not None and self._load_of_partner(entry, slot, partner):
            last = entry.items.pop()
            last.before = ""
            return [entry, Entry(label=partner.label, items=[last], start=last.start, end=last.end)]
        while len(entry.items) > 1 and not entry.items[-1].numbers and not entry.items[-1].has("cbAF"):
            entry.items[-2].marks += entry.items.pop().marks
        if partner is None or len(entry.items) < 2 or not self._of_partner(entry.items[-1], slot, partner):
            return [entry]
        if all(term.role == "load" or term.plural for item in entry.items[:-1] for term in item.numbers):
            return [entry]  # "18 kg each, 9 per side": the first part alone tells of no set
        last = entry.items.pop()
        last.before = ""
        return [entry, Entry(label=partner.label, items=[last], start=last.start, end=last.end)]

    def _fit_better(self, mine: Entry, theirs: Entry, whole: Entry) -> bool:
        """Do two entries, one for the slot that is due, tell the sets better than one for the slot that was named?"""

        def settled(entry: Entry) -> Settled:
            assert self.told.day is not None
            setting = self._setting(self.told.day.slot(entry.label or entry.exercise))
            return settle_entry(entry.twin(), setting, self.folded, self.text, self.situation, sure=SURE, alone=True)

        one, two, all_in_one = settled(mine), settled(theirs), settled(whole)
        if one.question is not None or two.question is not None:
            return False
        apart = _THEN if whole.items[-1].before == "h" else 0.0
        return all_in_one.question is not None or (one.score or 0.0) + (two.score or 0.0) + apart > (all_in_one.score or 0.0)

    def _load_of_partner(self, entry: Entry, slot: Slot, partner: Slot) -> bool:
        """ "14x10 16x11" in turns: is the second load the partner's last one, and the first this exercise's?"""
        if len(entry.items) != 2 or not self._in_turns(slot) or any(len(item.numbers) != 2 for item in entry.items):
            return False
        first, second = (item.numbers[0] for item in entry.items)
        mine, theirs = self._setting(slot).load_before(99), self._setting(partner).load_before(99)
        if mine is None or theirs is None or mine.amount == theirs.amount:
            return False
        return first.number == mine.amount and second.number == theirs.amount and second.role != "count"

    def _of_partner(self, item: Item, slot: Slot, partner: Slot) -> bool:
        """Is it told in a way that suits the partner and not the slot: by a band, or in seconds?"""
        here, there = self._setting(slot), self._setting(partner)
        banded = item.has("cb") and there.style is LoadStyle.BAND and here.style is not LoadStyle.BAND and not here.helped
        timed = any(term.measure is Measure.SECONDS for term in item.numbers)
        plural = len(item.numbers) == 1 and item.numbers[0].plural
        held = there.measure is Measure.SECONDS and here.measure is not Measure.SECONDS and (timed or plural)
        paired = (
            len(item.numbers) > 1
            and item.numbers[0].plural
            and there.style is LoadStyle.PAIR
            and here.style is not LoadStyle.PAIR
        )
        sided = (
            there.sided and not here.sided and (item.has("E") or any(term.each and term.role != "load" for term in item.numbers))
        )
        return banded or held or paired or sided

    def elsewhere(self, entry: Entry, settled: Settled, due_slot: Slot) -> Settled:
        """What hardly fits the slot that is due may fit its partner in the superset, or the one just done, far better."""
        alike = self._load_just_used(settled, due_slot)
        if settled.score is None or (settled.score > _FITS_WELL and not alike):
            return settled
        if settled.question is not None and settled.question.code == "missing_load":
            return settled
        best, gain = None, 0.0
        for slot in self._nearby(due_slot):
            other = settle_entry(entry.twin(), self._setting(slot), self.folded, self.text, self.situation, sure=SURE, alone=True)
            if other.question is None and other.score is not None and any(isinstance(part, SetsHeard) for part in other.heard):
                better = other.score - (_GOES_ON if alike else _OUT_OF_ORDER) - settled.score
                if alike and not self._setting(due_slot).needs_load:
                    better += _NEVER_LOADED
                if best is None or better > gain:
                    best, gain = other, better
        question = settled.question
        surprised = question is not None and question.code == "surprise"
        if best is None or gain < (-_CLEARLY if surprised else 0.0 if question else 0.2):
            return settled
        last = next((r for r in reversed(self.situation.today) if r.place), None)
        if gain > 1.2 * _CLEARLY and (surprised or question is None) and not same_as_last(best.heard, last):
            return best
        mine = question.options if question else (Option(label_of(settled.heard), settled.heard, 0.4),)
        theirs = Option(label_of(best.heard), best.heard, 0.6)
        options = (theirs, *mine) if gain > 0 or surprised else (*mine[:1], theirs, *mine[1:])
        return Settled(question=Question("which_slot", settled.said[:80], options[:4]), certainty=0.5, said=settled.said)

    def _load_just_used(self, settled: Settled, due_slot: Slot) -> bool:
        """Is it the very load of the last set on record, while none is known of the exercise that is due?"""
        last = next((r for r in reversed(self.situation.today) if r.place), None)
        said = [record.done.load for part in settled.heard if isinstance(part, SetsHeard) for record in part.sets]
        if last is None or last.place is None or last.place.label == due_slot.label or not said or said[0] is None:
            return False
        here = self._setting(due_slot)
        known = here.known_loads if here.needs_load else here.has_extra_load()
        if (
            here.needs_load
            and not known
            and all(_fits(record, here) for part in settled.heard if isinstance(part, SetsHeard) for record in part.sets)
        ):
            return False  # it may be: the same pair of dumbbells does for both
        return not known and last.done.load is not None and said[0].kg is not None and said[0].kg == last.done.load.kg

    def _nearby(self, due_slot: Slot) -> list[Slot]:
        """Slots of the same superset with sets still to do, the one last recorded first; and that one, whatever its group."""
        assert self.told.day is not None
        last = next((r.place.label for r in reversed(self.situation.today) if r.place), "")
        near = [s for s in self.told.day.slots if s is not due_slot and (s.group == due_slot.group or s.label == last)]
        near.sort(key=lambda slot: slot.label != last)
        return [slot for slot in near if self._setting(slot).free_numbers]
