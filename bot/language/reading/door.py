"""A text and a situation give a reading: the way from words to sets.

    fold -> short commands -> parts (sets, question, pain ...) -> terms -> entries -> all ways to read them
         -> the best, in the light of the situation -> places and loads -> surprise check -> record, or one question

Sure parts of a text are heard even where another part has to be asked about.
"""

from __future__ import annotations

import itertools
import re
from copy import copy, deepcopy
from dataclasses import dataclass, field, replace

from bot.language.reading import commands
from bot.language.reading.clauses import Parts, pained, parts_of
from bot.language.reading.corrections import correction
from bot.language.reading.days import ToldDay, told_day
from bot.language.reading.grammar import Entry, Item, cut_last, entries_of
from bot.language.reading.names import names_in
from bot.language.reading.noise import without_noise
from bot.language.reading.notes import with_notes
from bot.language.reading.ranking import fit_count, fit_load
from bot.language.reading.setting import Setting, setting_for
from bot.language.reading.settle import Settled, settle_entry
from bot.language.reading.terms import LIKEWISE, Clause, Term, terms_of
from bot.language.readings import (
    Aside,
    AsideKind,
    CorrectionHeard,
    Heard,
    Option,
    Question,
    Reading,
    RepeatHeard,
    SetsHeard,
    SkipHeard,
    Verdict,
    Why,
)
from bot.language.situation import Situation
from bot.language.tokens import Token, fold, tokens_of
from bot.training.blocks import ExerciseId, Measure, SetPlace, Slot, order_of
from bot.training.exercises.catalogue import Catalogue, load_catalogue
from bot.training.exercises.entry import LoadStyle
from bot.training.records import SetRecord

LONGEST = 4096  # characters that are read; the platform sends no more
_WAS = re.compile(r"\s+(?:was|were|should)\b")
_NTH_OF = re.compile(r"(?:the |my )*(?P<nth>first|second|third|fourth|1st|2nd|3rd|4th)\s+$")
_SURE = 0.80  # what is held with less certainty is asked about
_MOST_TOKENS = 1500  # a pasted session of sixty lines has some five hundred
_COMMAND_CERTAINTY = 0.97
_FITS_WELL = -1.2  # log weights: a reading that fits so well in the slot that is due is not looked for elsewhere
_OUT_OF_ORDER = 1.5  # how much rarer a set out of order is than one in order
_CLEARLY = 2.5
_HARDLY = -2.0
_STRENGTHS = frozenset(("heavy", "light", "medium", "strong", "thick", "thin"))
_FELT = frozenset(("felt", "feels", "feel", "was", "were", "too", "so", "pretty", "very", "bit", "really"))
_MOST_UNKNOWN = 7
_NUMBER_OF = re.compile(
    r"(?P<whose>[^\W\d_]+)(?:'?s|\s+(?:(?:is|are|was|were|be|turned|turns|turning|in|at|by|till|until|of|from|page|no|number|since|after|before|for|now|just|only|already|about|the|only)\b\s*)+)\s*$"
)


def read(text: str, situation: Situation, catalogue: Catalogue | None = None) -> Reading:
    """Read a member's text. Never raises; what is not about sets comes back as NOT_SETS with its asides."""
    folded = fold(text[:LONGEST])
    if not folded.strip():
        return Reading(text, Verdict.NOT_SETS)
    known = catalogue if catalogue is not None else load_catalogue()
    short = commands.short_command(folded, situation)
    if short is not None:
        return Reading(text, Verdict.RECORD, short, _COMMAND_CERTAINTY, why=(Why(0, len(folded), "about what is on record"),))
    ended = commands.finish(folded) if situation.day is not None else None
    if ended is not None:
        return Reading(text, Verdict.RECORD, (ended,), 0.95, why=(Why(0, len(folded), "the session is over"),))
    return _Text(text, without_noise(folded), situation, known).read()


@dataclass
class _Text:
    text: str
    folded: str
    situation: Situation
    catalogue: Catalogue
    heard: list[Heard] = field(default_factory=list)
    why: list[Why] = field(default_factory=list)
    asides: list[Aside] = field(default_factory=list)
    unread: list[str] = field(default_factory=list)
    certainty: float = 1.0
    question: Question | None = None
    ended: Heard | None = None
    told_to: int = 0  # where the last name of the set talk ends
    forced: ToldDay | None = None  # the day that a question about days tries out

    def read(self) -> Reading:
        parts = parts_of(self.folded)
        if self.situation.day is not None and not parts.when:
            whole = correction(self._with_labels(), self.situation, self.catalogue)
            if whole is not None:
                return self._corrected(whole)
        tokens = self._set_tokens(parts)
        if tokens:
            self._sets(tokens, parts)
        return self._reading()

    def _with_labels(self) -> str:
        """The text, with "the push ups were" written as "a2 were": a correction may name its exercise."""
        if len(self.folded) > 90 or not _WAS.search(self.folded):
            return self.folded
        names = [name for name in self._names(tokens_of(self.folded)) if self.situation.slot(name[2])]
        if len(names) == 1:
            before, after = self.folded[: names[0][0]], self.folded[names[0][1] :]
            which = _NTH_OF.search(before)
            if which and re.match(r"\s+set\b", after):  # "my second row set was 10"
                return f"{before[: which.start()]}{names[0][2].lower()} set {which['nth']}{after.replace(' set', '', 1)}"
        if len(names) != 1 or not _WAS.match(self.folded[names[0][1] :]):
            return self.folded
        start, end, label = names[0]
        return f"{self.folded[:start]}{label.lower()}{self.folded[end:]}"

    def _corrected(self, found: tuple[tuple[Heard, ...], float, Question | None]) -> Reading:
        heard, certainty, question = found
        verdict = Verdict.ASK if question else Verdict.RECORD
        return Reading(self.text, verdict, heard, certainty, question, why=(Why(0, len(self.folded), "a correction"),))

    def _set_tokens(self, parts: Parts) -> list[Token]:
        """The tokens of all set talk, parted by breaks; the other parts become asides."""
        tokens: list[Token] = []
        for part in parts.parts:
            piece = self.folded[part.start : part.end]
            if part.kind != "sets":
                self.asides.append(Aside(AsideKind(part.kind), self.text[part.start : part.end].strip(" ,.;-\n")))
                continue
            if pained(piece):
                self.asides.append(Aside(AsideKind.PAIN, self.text[part.start : part.end].strip(" ,.;-\n")))
            fresh = tokens_of(piece)[: max(0, _MOST_TOKENS - len(tokens))]
            if not fresh:
                continue
            ended = commands.finish(piece)
            if (
                ended is not None
                and (len(parts.parts) > 1)
                and self.situation.day is not None
                and not any(t.kind == "n" for t in fresh[:1])
                and "out of time" not in piece  # that is why something was left out
            ):
                self.ended = ended
                continue
            if not any(token.kind in "nc" for token in fresh) and self._only_chat(fresh):
                self.asides.append(Aside(AsideKind.CHAT, self.text[part.start : part.end].strip(" ,.;-\n")))
                continue
            if tokens:
                broken = "\n" in self.folded[tokens[-1].end : part.start + 1]
                tokens.append(
                    Token("b", "\n", tokens[-1].end, tokens[-1].end) if broken else Token("s", ",", part.start, part.start)
                )
            tokens += [token._replace(start=token.start + part.start, end=token.end + part.start) for token in fresh]
        return tokens

    def _only_chat(self, tokens: list[Token]) -> bool:
        from bot.language.reading.words import LEXICON, PHRASES

        telling = "FGgtTWAOBcb+vUDMEVSi"
        said = {token.text for token in tokens}
        due = self.situation.due
        slot = self.situation.slot(due.label) if due else None
        entry = self.catalogue.get(self.situation.exercise_of(slot)) if slot else None
        banded = entry is not None and entry.load_style is LoadStyle.BAND
        if said & {"left", "right"} and said & LIKEWISE:
            return False
        for at, token in enumerate(tokens):
            kind = LEXICON.get(token.text)
            if (
                kind is not None
                and kind in telling
                and (token.text not in _STRENGTHS or (banded and not said & _FELT))
                and token.text not in ("up", "down", "more", "less")
            ):
                return False
            if any(
                k in telling
                for rest, k in PHRASES.get(token.text, ())
                if tuple(t.text for t in tokens[at + 1 : at + 1 + len(rest)]) == rest
            ):
                return False
        stretch = self.folded[tokens[0].start : tokens[-1].end]
        return (
            not commands.skip_words(stretch, (), self.situation.day.slots if self.situation.day else ())
            and not commands.point(self.folded, (), self.situation)
            and len(tokens) > 0
            and not self._names(tokens)
        )

    def _names(self, tokens: list[Token]) -> list[tuple[int, int, str]]:
        return _without_others(names_in(self.folded, tokens, self.situation, self.catalogue), self.folded)

    def _sets(self, tokens: list[Token], parts: Parts) -> None:
        situation = self.situation
        told = self.forced
        if parts.when and told is None:
            told = told_day(parts.when, lambda there: names_in(self.folded, tokens, there, self.catalogue), self.situation)
        if told is not None and (told.on, told.day) != (situation.on, situation.day):
            there = replace(situation, day=told.day, today=(), due_override=None, swaps=(), skipped=())
            names = names_in(self.folded, tokens, there, self.catalogue)
        else:
            names = self._names(tokens)
        self.told_to = max((name[1] for name in names), default=0)
        sets_text = self._sets_text(parts)
        if situation.day is not None and not parts.when:
            pointed = commands.point(sets_text, names, situation)
            if pointed is not None and commands.skip_words(sets_text, names, situation.day.slots):
                pointed = None
            if pointed is not None and not any(t.kind == "n" and not t.glued for t in tokens):
                self.heard.append(pointed)
                self.certainty = 0.95
                return
        skipped = commands.skip(sets_text, names, situation) if not parts.when else None
        if skipped is not None:
            tokens, names = self._without_skip(tokens, names, sets_text, skipped)
        only = commands.only_sets(sets_text) if situation.day is not None else None
        if only is not None:
            tokens = self._without_only(tokens, sets_text)
        if any(token.kind in "nc" for token in tokens) or skipped is None:
            self._entries(tokens, names, told or ToldDay(situation.on, situation.day))
        if skipped is not None:
            self.heard.append(skipped)
            self.certainty = min(self.certainty, 0.95)
        if only is not None:
            self._only_sets(only, names)
        if self.ended is not None and (self.heard or not self.question):
            self.heard.append(self.ended)

    def _sets_text(self, parts: Parts) -> str:
        """The set talk alone, every letter and line in its place."""
        kept = ["\n" if letter == "\n" else " " for letter in self.folded]
        for part in parts.parts:
            if part.kind == "sets":
                kept[part.start : part.end] = self.folded[part.start : part.end]
        return "".join(kept)

    def _without_skip(
        self, tokens: list[Token], names: list[tuple[int, int, str]], sets_text: str, skipped: SkipHeard
    ) -> tuple[list[Token], list[tuple[int, int, str]]]:
        """Take the skip's own words out of the set talk."""
        found = commands.skip_words(sets_text, names, self.situation.day.slots if self.situation.day else ())
        assert found is not None
        stop = found.end()
        comma = re_number_after_comma(sets_text, found.start(), stop)
        stop = comma if comma else stop
        kept = [token for token in tokens if token.end <= found.start() or token.start >= stop]
        return kept, [name for name in names if name[1] <= found.start() or name[0] >= stop]

    def _without_only(self, tokens: list[Token], sets_text: str) -> list[Token]:
        found = commands._ONLY_SETS.search(sets_text)
        assert found is not None
        return [token for token in tokens if token.end <= found.start() or token.start >= found.end()]

    def _only_sets(self, only: int, names: list[tuple[int, int, str]]) -> None:
        """ "only did 2 sets": what is left of that slot is skipped."""
        label = next((name for _, _, name in names if self.situation.slot(name)), "")
        told = [record for part in self.heard if isinstance(part, SetsHeard) for record in part.sets if record.place]
        if not label and told and told[-1].place:
            label = told[-1].place.label
        if not label:
            due = self.situation.due
            last = next((r.place.label for r in reversed(self.situation.today) if r.place), "")
            done_of_last = sum(r.place is not None and r.place.label == last for r in self.situation.today)
            label = last if done_of_last == only else due.label if due else last
        gone = {record.place for record in told}
        rest = tuple(p for p in commands.rest_of_slot(self.situation, label) if p not in gone and p.number > only)
        if rest:
            self.heard.append(SkipHeard(rest))
            self.certainty = min(self.certainty, 0.93)

    def _entries(self, tokens: list[Token], names: list[tuple[int, int, str]], told: ToldDay) -> None:
        situation = self.situation
        day = told.day
        labels = frozenset(slot.label for slot in day.slots) if day else frozenset()
        due = situation.due if told.on == situation.on and day is not None and day == situation.day else None
        due_slot = situation.slot(due.label) if due else None
        base = self._setting(due_slot, told) if due_slot else None
        clause = terms_of(tokens, labels, names, sided=bool(base and base.sided), bands=situation.kit.bands)
        if due_slot is not None and clause.unknown:
            _know_words_of(due_slot, clause)
        entries = [entry for entry in _merged(entries_of(clause.terms), self) if entry.items]
        items = [item for entry in entries for item in entry.items]
        if situation.today and not any(item.numbers for item in items) and not clause.unknown:
            for mark in (mark for item in items for mark in item.marks if mark.kind == "M"):
                mark.kind = "A"  # "same on both": as the set before
        if due_slot is not None and base is not None and self._same_for_both(entries, clause, told, due_slot):
            return
        if due_slot is not None and base is not None and self._both(entries, clause, told, due_slot, base):
            return
        completed = self._other_side(entries)
        if completed is not None:
            self.heard.append(completed)
            self.certainty = min(self.certainty, 0.95)
            return
        surely = _tells_sets(clause, entries, running=bool(situation.today))
        if not surely:
            surely = _maybe_sets(clause, entries, base, self.folded, running=bool(situation.today))
        if not surely:
            return
        self.certainty = min(self.certainty, surely)
        if due_slot is not None and base is not None and base.measure is Measure.REPS and _only_time(entries):
            return
        if day is None or (told.options and not day):
            self._which_day(told)
            return
        if _leaves_out(self.folded):
            self.certainty = min(self.certainty, 0.7)
        if len(entries) == 1 and due_slot is not None:
            entries = self._with_partner(entries[0], told, due_slot)
        for entry in entries:
            setting = self._setting_of(entry, told, due_slot)
            if setting is None:
                self._no_place(entry, told, clause)
                continue
            settled = settle_entry(entry, setting, self.folded, self.text, situation, sure=_SURE, alone=len(entries) == 1)
            if not entry.label and not entry.exercise and due_slot is not None and setting.slot is due_slot:
                settled = self._elsewhere(entry, settled, told, due_slot)
                if len(entries) == 1:
                    settled = self._or_partner(entry, settled, told, due_slot)
            self._take(settled)

    def _or_partner(self, entry: Entry, settled: Settled, told: ToldDay, due_slot: Slot) -> Settled:
        """ "12/15" while a superset is done in turns: two sets of this exercise, or one of each?"""
        items = [item for item in entry.items if item.numbers]
        numbers = [term for item in items for term in item.numbers]
        if len(numbers) != 2 or not all(term.bare for term in numbers) or "sets" in self.text.lower():
            return settled
        turns, fresh = self._in_turns(due_slot), self._not_begun(due_slot)
        parted = items[0].ops[0] if len(items) == 1 else items[1].before
        if not turns and not (fresh and parted in "/&+|"):
            return settled
        partner = next((slot for slot in self._nearby(told, due_slot) if slot.group == due_slot.group), None)
        if partner is None or parted not in "/,&+|-h ":
            return settled
        halves = [
            settle_entry(
                Entry(label=slot.label, items=[Item([copy(term)])], start=term.start, end=term.end), self._setting(slot, told),
                self.folded, self.text, self.situation, sure=_SURE, alone=True,
            )
            for slot, term in zip((due_slot, partner), numbers, strict=True)
        ]  # fmt: skip
        if any(half.question is not None or not half.heard for half in halves):
            return settled
        fits = [half.score or 0.0 for half in halves]
        own = self._setting(due_slot, told)
        second_here = fit_count(numbers[1].number, own.target(min(own.free_numbers[1:2] or (1,))), own)
        if parted in ", " and second_here > _HARDLY and not _ROUND.search(self.folded):
            return settled
        if sum(fits) < _HARDLY:
            return settled
        heard = _joined([*halves[0].heard, *halves[1].heard])
        alike = 0.6 <= float(numbers[1].number) / max(float(numbers[0].number), 1.0) <= 1.6
        if own.sided and alike and parted not in "h":
            return settled  # the two sides of a set, perhaps
        if (turns and parted in "/&+|") or _ROUND.search(self.folded):
            return Settled(heard, 0.9, said=settled.said, score=sum(fits))
        each = Option(_label_of(heard)[:60], heard, 0.55)
        mine = settled.question.options if settled.question else (Option(_label_of(settled.heard)[:60], settled.heard, 0.45),)
        return Settled(question=Question("which_slot", settled.said[:80], (each, *mine)[:4]), certainty=0.5, said=settled.said)

    def _in_turns(self, due_slot: Slot) -> bool:
        """Is the group done in turns? Whoever does all sets of one exercise first has none of its partner while some are left."""
        day = self.situation.day
        partners = {slot.label for slot in day.slots if slot.group == due_slot.group and slot is not due_slot} if day else set()
        return any(record.place is not None and record.place.label in partners for record in self.situation.today)

    def _both(self, entries: list[Entry], clause: Clause, told: ToldDay, due_slot: Slot, base: Setting) -> bool:
        """ "both 10", "10 on both exercises" in turns: the count holds for each exercise of the superset."""
        numbers = [term for entry in entries for item in entry.items for term in item.numbers]
        said = _BOTH.search(self.folded)
        if not said or len(numbers) != 1 or not numbers[0].bare or numbers[0].plural or base.sided or clause.unknown:
            return False
        partner = next((slot for slot in self._nearby(told, due_slot) if slot.group == due_slot.group), None)
        if partner is None or not self._in_turns(due_slot) or any(entry.label or entry.exercise for entry in entries):
            return False
        heard: list[Heard] = []
        for slot in (due_slot, partner):
            one = Entry(items=[Item([copy(numbers[0])])], start=numbers[0].start, end=numbers[0].end)
            settled = settle_entry(one, self._setting(slot, told), self.folded, self.text, self.situation, sure=_SURE, alone=True)
            if settled.question is not None or not settled.heard:
                return False
            heard += settled.heard
        self.heard += heard
        self.certainty = min(self.certainty, 0.9)
        return True

    def _not_begun(self, due_slot: Slot) -> bool:
        """Is nothing of this group on record yet?"""
        day = self.situation.day
        group = {slot.label for slot in day.slots if slot.group == due_slot.group} if day else set()
        return not any(record.place is not None and record.place.label in group for record in self.situation.today)

    def _same_for_both(self, entries: list[Entry], clause: Clause, told: ToldDay, due_slot: Slot) -> bool:
        """ "same for both", "same again round 3", while a superset is done in turns: each exercise again."""
        marks = [mark for entry in entries for item in entry.items for mark in item.marks]
        numbers = [term for entry in entries for item in entry.items for term in item.numbers]
        sames = sum(mark.kind == "A" for mark in marks)
        wanted = sames and not numbers and not any(entry.label or entry.exercise for entry in entries)
        day = told.day
        if not wanted or day is None or not _ROUND.search(self.folded):
            return False
        if not self._in_turns(due_slot) or len(clause.unknown) > 1 or "side" in self.folded:
            return False
        heard: list[Heard] = []
        for slot in day.slots:
            if slot.group != due_slot.group:
                continue
            again = Entry(items=[Item(marks=[Term("A", "same", 0, 0)])])
            settled = settle_entry(again, self._setting(slot, told), "same", "same", self.situation, sure=_SURE, alone=True)
            if settled.question is not None or not settled.heard:
                return False
            heard += settled.heard
        self.heard += heard
        self.certainty = min(self.certainty, 0.9)
        return True

    def _other_side(self, entries: list[Entry]) -> CorrectionHeard | None:
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

    def _with_partner(self, entry: Entry, told: ToldDay, due_slot: Slot) -> list[Entry]:
        """A superset told in one go with one name or none: the last thing said may be the partner's.

        "35x10 / 14 dips" while dips are the partner of what is due; "16 press ups then 14 on the heavy band".
        """
        day = told.day
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
                return [mine, theirs] if self._fit_better(mine, theirs, entry, told) else [entry]
            return [entry]
        partner = next(
            (s for s in day.slots if s.group == slot.group and s is not slot and self._setting(s, told).free_numbers), None
        )
        if partner is not None and self._load_of_partner(entry, slot, partner, told):
            last = entry.items.pop()
            last.before = ""
            return [entry, Entry(label=partner.label, items=[last], start=last.start, end=last.end)]
        while len(entry.items) > 1 and not entry.items[-1].numbers and not entry.items[-1].has("cbAF"):
            entry.items[-2].marks += entry.items.pop().marks
        if partner is None or len(entry.items) < 2 or not self._of_partner(entry.items[-1], slot, partner, told):
            return [entry]
        last = entry.items.pop()
        last.before = ""
        return [entry, Entry(label=partner.label, items=[last], start=last.start, end=last.end)]

    def _fit_better(self, mine: Entry, theirs: Entry, whole: Entry, told: ToldDay) -> bool:
        """Do two entries, one for the slot that is due, tell the sets better than one for the slot that was named?"""

        def settled(entry: Entry) -> Settled:
            assert told.day is not None
            setting = self._setting(told.day.slot(entry.label or entry.exercise), told)
            return settle_entry(deepcopy(entry), setting, self.folded, self.text, self.situation, sure=_SURE, alone=True)

        one, two, all_in_one = settled(mine), settled(theirs), settled(whole)
        if one.question is not None or two.question is not None:
            return False
        return all_in_one.question is not None or (one.score or 0.0) + (two.score or 0.0) > (all_in_one.score or 0.0)

    def _load_of_partner(self, entry: Entry, slot: Slot, partner: Slot, told: ToldDay) -> bool:
        """ "14x10 16x11" in turns: is the second load the partner's last one, and the first this exercise's?"""
        if len(entry.items) != 2 or not self._in_turns(slot) or any(len(item.numbers) != 2 for item in entry.items):
            return False
        first, second = (item.numbers[0] for item in entry.items)
        mine, theirs = self._setting(slot, told).load_before(99), self._setting(partner, told).load_before(99)
        if mine is None or theirs is None or mine.amount == theirs.amount:
            return False
        return first.number == mine.amount and second.number == theirs.amount and second.role != "count"

    def _of_partner(self, item: Item, slot: Slot, partner: Slot, told: ToldDay) -> bool:
        """Is it told in a way that suits the partner and not the slot: by a band, or in seconds?"""
        here, there = self._setting(slot, told), self._setting(partner, told)
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
        sided = there.sided and not here.sided and (item.has("E") or any(term.each for term in item.numbers))
        return banded or held or paired or sided

    def _elsewhere(self, entry: Entry, settled: Settled, told: ToldDay, due_slot: Slot) -> Settled:
        """What hardly fits the slot that is due may fit its partner in the superset, or the one just done, far better."""
        if settled.score is None or settled.score > _FITS_WELL:
            return settled
        best, gain = None, 0.0
        for slot in self._nearby(told, due_slot):
            other = settle_entry(
                deepcopy(entry), self._setting(slot, told), self.folded, self.text, self.situation, sure=_SURE, alone=True
            )
            if other.question is None and other.score is not None and any(isinstance(part, SetsHeard) for part in other.heard):
                better = other.score - _OUT_OF_ORDER - settled.score
                if best is None or better > gain:
                    best, gain = other, better
        question = settled.question
        surprised = question is not None and question.code == "surprise"
        if best is None or gain < (-_CLEARLY if surprised else 0.0 if question else 0.2):
            return settled
        last = next((r for r in reversed(self.situation.today) if r.place), None)
        if gain > 1.2 * _CLEARLY and (surprised or question is None) and not _same_as_last(best, last):
            return best
        mine = question.options if question else (Option(_label_of(settled.heard)[:60], settled.heard, 0.4),)
        theirs = Option(_label_of(best.heard)[:60], best.heard, 0.6)
        options = (theirs, *mine) if gain > 0 or surprised else (*mine[:1], theirs, *mine[1:])
        return Settled(question=Question("which_slot", settled.said[:80], options[:4]), certainty=0.5, said=settled.said)

    def _nearby(self, told: ToldDay, due_slot: Slot) -> list[Slot]:
        """Slots of the same superset with sets still to do, the one last recorded first; and that one, whatever its group."""
        assert told.day is not None
        last = next((r.place.label for r in reversed(self.situation.today) if r.place), "")
        near = [s for s in told.day.slots if s is not due_slot and (s.group == due_slot.group or s.label == last)]
        near.sort(key=lambda slot: slot.label != last)
        return [slot for slot in near if self._setting(slot, told).free_numbers]

    def _which_day(self, told: ToldDay) -> None:
        """No day is planned and none is said: ask which day of the block it was."""
        block = self.situation.block
        options: list[Option] = []
        for day in block.days[:7] if block and self.forced is None else ():
            there = replace(self.situation, day=day, today=(), last_time=(), due_override=None)
            inner = _Text(self.text, self.folded, there, self.catalogue, forced=ToldDay(told.on, day))
            inner.read()
            if inner.heard:
                options.append(Option(f"Day {day.number}: {day.name}"[:60], tuple(inner.heard), 0.5))
        self.question = Question("which_day", self.text[:80], tuple(options[:5]))
        self.certainty = 0.4

    def _setting(self, slot: Slot | None, told: ToldDay, exercise: ExerciseId | None = None) -> Setting:
        return setting_for(self.situation, self.catalogue, slot, exercise=exercise, on=told.on, day=told.day)

    def _setting_of(self, entry: Entry, told: ToldDay, due_slot: Slot | None) -> Setting | None:
        day = told.day
        assert day is not None
        label = entry.label or (entry.exercise if day.slot(entry.exercise) else "")
        if label:
            slot = day.slot(label)
            return self._setting(slot, told) if slot else None
        if entry.exercise:
            return None
        if told.on == self.situation.on and due_slot is not None:
            return self._setting(due_slot, told)
        if told.on != self.situation.on and len(day.slots) == 1:
            return self._setting(day.slots[0], told)
        return None

    def _no_place(self, entry: Entry, told: ToldDay, clause: Clause) -> None:
        """A named exercise that is not on the plan, or nothing left to do: ask where it belongs."""
        situation = self.situation
        options: list[Option] = []
        if entry.exercise:
            exercise = ExerciseId(entry.exercise.removeprefix("ex:"))
            for slot in _slots_for(exercise, situation, self.catalogue, told):
                settled = settle_entry(
                    entry, self._setting(slot, told, exercise), self.folded, self.text, situation, sure=0.0, alone=True
                )
                if settled.heard:
                    options.append(Option(f"in place of {slot.label} {slot.exercise_name}"[:60], settled.heard, 0.5))
            code = "which_exercise"
        elif told.on != situation.on:
            for slot in told.day.slots if told.day else ():
                settled = settle_entry(entry, self._setting(slot, told), self.folded, self.text, situation, sure=0.0, alone=True)
                if settled.heard:
                    options.append(Option(f"{slot.label} {slot.exercise_name}"[:60], settled.heard, 0.3))
            code = "which_exercise"
        else:
            code = "no_set_due"
            last = next((record for record in reversed(situation.today) if record.place), None)
            slot_of_last = situation.slot(last.place.label) if last and last.place else None
            if slot_of_last is not None:
                settled = settle_entry(
                    entry, self._setting(slot_of_last, told), self.folded, self.text, situation, sure=0.0, alone=True
                )
                if _same_as_last(settled, last):
                    self.heard.append(RepeatHeard())
                    self.certainty = 0.9
                    return
                if settled.heard:
                    options.append(Option(f"one more set of {slot_of_last.label}", settled.heard, 0.5))
        if self.question is None:
            self.question = Question(code, self.text[entry.start : entry.end][:80], tuple(options[:4]))
            self.certainty = min(self.certainty, 0.5)

    def _take(self, settled: Settled) -> None:
        self.why += settled.why
        if settled.question is not None:
            if self.question is None:
                self.question = settled.question
            else:
                self.unread.append(settled.said)
            self.certainty = min(self.certainty, settled.certainty)
            self.heard += settled.heard_anyway
            return
        self.heard += settled.heard
        self.certainty = min(self.certainty, settled.certainty)

    def _reading(self) -> Reading:
        told_to = max(self.told_to, *(why.end for why in self.why)) if self.why else 0
        heard = with_notes(
            _joined(self.heard), self.text, told_to, [aside.text for aside in self.asides if aside.kind is AsideKind.CHAT]
        )
        if self.ended is not None and not heard and self.question is None:
            heard = (self.ended,)
            self.certainty = 0.93
        if self.question is not None and not self.question.options and self.question.code != "bar_weight":
            open_code = {"missing_load": "which_load", "missing_count": "which_count"}.get(self.question.code, "unclear")
            self.question = replace(self.question, code=open_code)
        if self.question is not None:
            verdict, certainty = Verdict.ASK, self.certainty
        elif heard:
            certainty = self.certainty
            verdict = Verdict.RECORD if certainty >= _SURE else Verdict.ASK
            if verdict is Verdict.ASK:
                self.question = Question("is_that_right", self.text[:80], (Option(_label_of(heard), heard, certainty),))
                heard = ()
        else:
            return Reading(
                self.text, Verdict.NOT_SETS, asides=tuple(self.asides or [Aside(AsideKind.CHAT, self.text[:LONGEST].strip())])
            )
        return Reading(
            self.text, verdict, heard, certainty, self.question, tuple(self.asides), tuple(self.unread), tuple(self.why)
        )


_OF_ANOTHER = re.compile(r"\b(?:before|instead of|rather than|after|not)\s+(?:the\s+|my\s+|doing\s+)*$")


_BOTH = re.compile(r"\bboth\b(?! (?:sides?|arms?|legs?|hands?|sets?))")
_ROUND = re.compile(r"\b(?:round|rd|lap|circuit)\b|\bboth\b|\beach (?:one|exercise)\b")


def _without_others(names: list[tuple[int, int, str]], folded: str) -> list[tuple[int, int, str]]:
    """ "rows before deadlifts: 60x8" tells of rows: a name that only says before or instead of what is no name of the sets."""
    if len(names) < 2:
        return names
    own = [name for name in names if not _OF_ANOTHER.search(folded, max(0, name[0] - 24), name[0])]
    return own or names


def re_number_after_comma(text: str, start: int, stop: int) -> int:
    """Where, inside a skip's words, a comma or "and" begins set talk again ("skipped B1, 20x12 on C1"); 0 if nowhere."""
    found = re.compile(r"[,]\s*(?=[^,]*\d\s*[x×@]\s*\d)|,\s*(?=(?:got|did|then|\d))").search(text, start, stop)
    return found.end() if found else 0


def _merged(entries: list[Entry], reader: _Text) -> list[Entry]:
    """Entries of one slot are one; an entry without a name that comes after named ones goes with the last of them."""
    merged: dict[str, Entry] = {}
    for entry in entries:
        key = entry.label or entry.exercise or ""
        if key in merged:
            if entry.items:
                entry.items[0].before = entry.items[0].before or "|"
            merged[key].items += entry.items
            merged[key].end = entry.end
        else:
            merged[key] = entry
    return list(merged.values())


def _tells_sets(clause: Clause, entries: list[Entry], *, running: bool) -> float:
    """Is there enough that speaks of sets? 1 if so, 0 if not; bare numbers among unknown words are not enough by themselves."""
    items = [item for entry in entries for item in entry.items]
    numbers = [term for item in items for term in item.numbers]
    marks = {mark.kind for item in items for mark in item.marks}
    if numbers and clause.unknown and all(term.role == "load" for term in numbers):
        return 0.0
    if not numbers:
        told = marks & set("AO") or ("l" in marks and marks & set("+v")) or (marks & set("+v") and not clause.unknown)
        return (0.6 if clause.unknown else 1.0) if told and len(clause.unknown) <= 1 else 0.0
    named = any(entry.label or entry.exercise for entry in entries)
    strong = any(
        (item.ops and any(op in "x@wf" for op in item.ops) and len(item.numbers) > 1 and not _apart(item, clause.unknown) and not any(term.ordinal for term in item.numbers))
        or any(term.role in ("load", "count", "minutes_or_metres") or term.plural or term.sign for term in item.numbers)
        or item.lone_x or item.set_number
        for item in items
    )  # fmt: skip
    if strong or named:
        crossed = any(op == "x" for item in items for op in item.ops)
        full = any(t.role == "load" or t.plural for t in numbers) and any(t.role == "count" for t in numbers)
        if not running and not named and not crossed and not full and len(clause.unknown) > 1:
            return 0.6
        return float(len(clause.unknown) <= 6 + 3 * len(numbers))
    if clause.verbs or marks & set("EFBcKWAO*$"):
        return float(
            len(clause.unknown) <= 1 + len(numbers) and not _counts_a_thing(clause.terms) and not _before_a_word(clause.terms)
        )
    return float(not clause.unknown)


def _apart(item: Item, unknown: list[Token]) -> bool:
    """ "30 copies to mark ... at 9": do words that nobody knows stand between the numbers?"""
    first, last = item.numbers[0].start, item.numbers[-1].end
    return sum(first < token.start < last for token in unknown) > 1


def _maybe_sets(clause: Clause, entries: list[Entry], base: Setting | None, folded: str, *, running: bool) -> float:
    """Numbers among words that nobody knows: 1 where they can hardly be anything else than the set that is due, 0.6 where they may be it.

    They must stand for themselves ("18 no cap", "bruh only 14"), not count a thing ("12 biscuits") nor be something's own number
    ("my daughter is 12"), and suit the set that is due.
    """
    items = [item for entry in entries for item in entry.items]
    numbers = [term for item in items for term in item.numbers]
    if base is None or not numbers or len(numbers) > 3 or len(clause.unknown) > _MOST_UNKNOWN:
        return 0.0
    terms = clause.terms
    if any(_is_of_something(term, folded, clause.unknown) for term in terms if term.kind == "n"):
        return 0.0
    first = numbers[0] if len(numbers) == 1 or all(term.bare for term in numbers) else None
    if _counts_a_thing(terms) and (not running or len(clause.unknown) > 1):
        return 0.0
    if first is None:
        return 0.6 if running else 0.0
    number = base.free_numbers[0] if base.free_numbers else 0
    fits = fit_count(numbers[-1].number, base.target(number), base) > _HARDLY
    pair = len(numbers) == 2 and items[0].ops and items[0].ops[0] in "fw" and fits
    if pair:
        return 1.0 if fit_load(first.number, base.situation.unit, base) > _HARDLY else 0.6
    if not fits or not running:
        return 0.6 if fits else 0.0
    beside = any(one.kind == "?" and two.kind == "n" and two.start - one.end <= 1 for one, two in itertools.pairwise(terms))
    return 0.6 if beside or len(numbers) > 1 or _before_a_word(terms) else 1.0


def _is_of_something(number: Term, folded: str, unknown: list[Token]) -> bool:
    """ "my daughter is 12", "bus in 10": a word that says where or what a number is, after one that is no set's."""
    found = _NUMBER_OF.search(folded, max(0, number.start - 40), number.start)
    return found is not None and any(token.start == found.start("whose") for token in unknown)


def _know_words_of(slot: Slot, clause: Clause) -> None:
    """ "11 knee ones": a word of the name of the exercise that is due is no stranger."""
    own = {word.rstrip("s") for word in re.findall(r"[a-z]{3,}", slot.exercise_name.lower())}

    def is_own(word: str) -> bool:
        return word.rstrip("s") in own or any(len(each) > 3 and word.startswith(each) for each in own)

    clause.unknown = [token for token in clause.unknown if not is_own(token.text)]
    for term in clause.terms:
        if term.kind == "?" and is_own(term.text):
            term.kind = "."


def _counts_a_thing(terms: list[Term]) -> bool:
    """ "12 biscuits": a number just before a plural that nobody says between sets."""
    return any(
        one.bare and two.kind == "?" and two.start - one.end <= 1 and two.text.endswith("s") and len(two.text) > 3
        for one, two in itertools.pairwise(terms)
    )


def _before_a_word(terms: list[Term]) -> bool:
    """ "9 annnd", "21 lesgo": a number just before a word that nobody knows."""
    return any(one.bare and two.kind == "?" and two.start - one.end <= 1 for one, two in itertools.pairwise(terms))


def _only_time(entries: list[Entry]) -> bool:
    """ "need 5 mins", while reps are due: nothing but a stretch of time, and no exercise named."""
    numbers = [term for entry in entries for item in entry.items for term in item.numbers]
    named = any(entry.label or entry.exercise for entry in entries)
    return bool(numbers) and not named and all(term.measure is Measure.SECONDS for term in numbers)


_AND_MORE = re.compile(
    r"\b(?:then|and|plus|followed by|after)\s+(?:another\s+|did\s+|got\s+|managed\s+|a further\s+|an extra\s+)*(?:\d+|one|two|three|four|five|six)\s+(?:more|extra)\b"
    r"(?!\s+(?:in|left|than|to spare|sets?|kg|kilos?|pounds?|lbs?))|\band (?:a few|a couple|some) more\b"
)
_OTHER_REPS = re.compile(
    r"\b(?:\d+|one|two|three|four|five|a few|couple)\s+(?:of\s+)?(?:negatives?|eccentrics?|forced|assisted|band(?:ed)? ones|cheat(?:ed)? ones)\b"
)


# Words that turn a sentence round: what follows or precedes them may be no set at all, or not as it stands.
_DOUBTFUL = re.compile(
    r"^(?:\w+ ){0,2}(?:if|unless)\b|\b(?:would(?:'?ve| have)?|used to|no idea|how heavy|unsure|dunno|exchanged|swap(?:ped)? (?:those|them|that|it))\b"
    r"|\bthen (?:another|one|a) ?\d* (?:on|more|extra)\b|\bthen another\b|\bsame as the first (?:two|three|\d)\b"
)
_LAST_REPS_HELPED = re.compile(
    r"\b(?:last|final) (?:\d|one|two|three|few|couple)(?: of them| reps?)? (?:with|on|using|w/?|by) |\b\d+ (?:slow )?(?:negatives?|negs|eccentrics?)\b"
)
_OTHER_TIME = re.compile(
    r"^(?!.*\b(?:more|less|fewer|than|up|down|same|like|as|vs|beat|better|compared|instead|not|this time|today|now)\b)"
    r"(?=.*\b(?:did|got|had|was|were|managed|hit|made|used)\b)(?=.*\blast (?:week|month|year|session)\b)"
)
_LAST_FEW = re.compile(r"\blast (?:two|three|[2-5]) sets (?:were|was)\b")


def _leaves_out(folded: str) -> bool:
    """Is something told beside the sets that no set record says as it was meant: "then two more", "and 2 negatives"?"""
    if _DOUBTFUL.search(folded) or _LAST_REPS_HELPED.search(folded) or _OTHER_TIME.search(folded) or _LAST_FEW.search(folded):
        return True
    more = _AND_MORE.search(folded)
    could = re.search(r"\b(?:could|had|have|coulda|maybe|reserve|tank)\b", folded)
    return bool(more and not could) or bool(_OTHER_REPS.search(folded) and len(re.findall(r"\d+|\bthree\b|\btwo\b", folded)) > 1)


def _slots_for(exercise: ExerciseId, situation: Situation, catalogue: Catalogue, told: ToldDay) -> list[Slot]:
    """Slots whose place an unplanned exercise may have taken: those of its kind first, then the one that is due."""
    day = told.day
    entry = catalogue.get(exercise)
    if day is None or entry is None:
        return []
    alike = [
        s for s in day.slots if (other := catalogue.get(situation.exercise_of(s))) is not None and other.pattern is entry.pattern
    ]
    due = situation.due
    due_slot = situation.slot(due.label) if due else None
    return list({slot.label: slot for slot in [*alike, *([due_slot] if due_slot else [])]}.values())[:3]


def _same_as_last(settled: Settled, last: SetRecord | None) -> bool:
    from bot.language.reading.placing import same_numbers

    if last is None or len(settled.heard) != 1 or not isinstance(settled.heard[0], SetsHeard):
        return False
    sets = settled.heard[0].sets
    return len(sets) == 1 and same_numbers(sets[0].done, last.done)


def _joined(heard: list[Heard]) -> tuple[Heard, ...]:
    """Sets of several slots in one value, in the order told; repeats drop out where anything new was said."""
    sets = [record for part in heard if isinstance(part, SetsHeard) for record in part.sets]
    others = [part for part in heard if not isinstance(part, SetsHeard | RepeatHeard)]
    repeats = [part for part in heard if isinstance(part, RepeatHeard)]
    result: list[Heard] = [SetsHeard(tuple(sets))] if sets else []
    result += others
    return tuple(result) if result else tuple(repeats[:1])


def _label_of(heard: tuple[Heard, ...]) -> str:
    from bot.language.reading.explain import say_heard

    return say_heard(heard)


__all__ = ["LONGEST", "CorrectionHeard", "SetPlace", "order_of", "read"]
