"""One message in its situation: its parts, commands, corrections and sets, and the question that is left, put together as a reading."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from bot.language.reading import commands
from bot.language.reading.clauses import FULL_SET, Parts, pained, parts_of
from bot.language.reading.corrections import Found, correction, told_of_earlier, with_its_like
from bot.language.reading.days import ToldDay, told_day
from bot.language.reading.doubts import Settled
from bot.language.reading.grammar import Entry, entries_of, share_load
from bot.language.reading.heard import joined, label_of, same_as_last
from bot.language.reading.names import names_in
from bot.language.reading.notes import with_notes
from bot.language.reading.setting import Setting, setting_for
from bot.language.reading.settle import SURE, settle_entry
from bot.language.reading.supersets import Group
from bot.language.reading.telling import (
    forget_preface,
    know_words_of,
    leaves_out,
    maybe_sets,
    only_time,
    speaks_vaguely,
    tells_sets,
)
from bot.language.reading.terms import LIKEWISE, Clause, terms_of
from bot.language.reading.words import LEXICON, PHRASES
from bot.language.readings import (
    Aside,
    AsideKind,
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
from bot.language.tokens import Token, tokens_of
from bot.training.blocks import ExerciseId, Measure, Slot
from bot.training.exercises.catalogue import Catalogue
from bot.training.exercises.entry import LoadStyle
from bot.training.records import SetRecord

LONGEST = 4096  # characters that are read; the platform sends no more
_PUTS_RIGHT = re.compile(r"\W*(?:correction|correct|fix|change|edit|update|typo|pardon|sorry|oops|whoops)\b")
_WAS = re.compile(r"\s+(?:was|were|should)\b")
_NTH_OF = re.compile(
    r"(?:the |my )*(?P<nth>first|second|third|fourth|last|final|1st|2nd|3rd|4th)(?: (?:set|lot|go|one|round))?(?: (?:of|on|for|in))?(?: (?:the|my))*\s+$"
)
_NTH_BEHIND = re.compile(
    r"\s*,?\s*\b(?:on |in |for )?(?:the |my )?(?P<nth>first|second|third|fourth|last|final) (?:set|one|go|round)\b"
)
_ITS_SET = re.compile(r"^\s+(?:set|one|go)(?=\s+(?:was|were|should)\b)")  # "that goblet set was 11"
_SET_WAS = re.compile(r"\s+set \d\s+(?:was|were|should)\b")
_ON_IT = re.compile(r"\s+(?:on|for|in|with) (?:the |my )?$")
_IT_WAS = re.compile(r"^.*?\b(?:it|that|this|they|those)\s+(?=was|were|should)")
_GOES_FIRST = re.compile(
    r"\b(?:do|doing|start|starting) (?:the |my )?[a-z' -]{2,30} first\b|\b(?:do|doing|start|starting)(?: with)? (?:the |my )?[a-z' -]{2,30} before (?:the |my )?[a-z' -]{2,30}"
)
_LONGEST_CORRECTION = 120
_LONGEST_STORY = 400  # characters in which strange numbers are looked for
_MOST_TOKENS = 1500  # a pasted session of sixty lines has some five hundred
_ONLY_THAT = re.compile(
    r"(?:and )?that(?:'?s| is) (?:all|it)|done|finished|all done|klaar|fertig|fini|listo|hecho|fatto|ferdig|gotowe"
)  # behind a number it may speak of the set
_AT_ONCE = 0.9
_STRENGTHS = frozenset(("heavy", "light", "medium", "strong", "thick", "thin"))
_FELT = frozenset(("felt", "feels", "feel", "was", "were", "too", "so", "pretty", "very", "bit", "really"))


@dataclass
class Message:
    """A folded text, its numbers in their places, in the light of a situation; `read` may be called once."""

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
    strange: int = 0  # how many words of the set talk nobody knows, where no exercise is named in it
    forced: ToldDay | None = None  # the day that a question about days tries out

    def read(self) -> Reading:
        of_earlier = self._correction_of_earlier()
        if of_earlier is not None:
            return self._corrected(of_earlier)
        parts = parts_of(self.folded)
        if self.situation.day is not None and not parts.when:
            labelled = self._with_labels()
            whole = correction(labelled, self.situation, self.catalogue)
            if whole is not None and labelled != self.folded:
                whole = with_its_like(whole, labelled, self.situation)
            if whole is not None:
                return self._corrected(whole)
        if self._goes_on():
            return self._reading()
        tokens = self._set_tokens(parts)
        if tokens:
            self._sets(tokens, parts)
        return self._reading()

    def _goes_on(self) -> bool:
        """ "gonna do the rows first": nothing but where the member goes on."""
        if self.situation.day is None or not _GOES_FIRST.search(self.folded) or any(letter.isdigit() for letter in self.folded):
            return False
        names = self._names(tokens_of(self.folded))
        pointed = commands.point(self.folded, names, self.situation)
        if pointed is None or commands.skip_words(self.folded, names, self.situation.day.slots):
            return False
        self.heard.append(pointed)
        self.certainty = 0.95
        return True

    def read_plain(self) -> Reading:
        """Numbers, signs and units alone: no command, question, name or remark can be in them."""
        self._entries(tokens_of(self.folded), [], ToldDay(self.situation.on, self.situation.day))
        return self._reading()

    def _with_labels(self) -> str:
        """The text, with "the push ups were" written as "a2 were": a correction may name its exercise, and a set of it."""
        if len(self.folded) > _LONGEST_CORRECTION or not (_WAS.search(self.folded) or _PUTS_RIGHT.match(self.folded)):
            return self.folded
        names = [name for name in self._names(tokens_of(self.folded)) if self.situation.slot(name[2])]
        if len(names) != 1:
            return self.folded
        start, end, label = names[0]
        before, after = self.folded[:start], self.folded[end:]
        behind = _ON_IT.search(before)
        if behind and not after.strip(" .!") and _WAS.search(before):  # "it was the 25s on the curls"
            was = _IT_WAS.sub("", before[: behind.start()]).strip()
            return f"{label.lower()} {was}" if was.startswith(("was", "were", "should")) else self.folded
        which = _NTH_OF.search(before)
        which_behind = _NTH_BEHIND.search(after)
        nth = which["nth"] if which else which_behind["nth"] if which_behind else ""
        if nth and re.match(r"\s+(?:sets?\s*)?(?:(?:was|were|is|should)\b|[:,])", after):
            number = self._number_of_last(label) if nth in ("last", "final") else nth
            if which_behind and not which:
                after = after[: which_behind.start()] + after[which_behind.end() :]
            after = re.sub(r"^\s+sets?\b", "", after)
            before = re.sub(r"\b(?:the|my|those) $", "", before)
            return f"{before[: which.start()] if which else before}{label.lower()} set {number}{after}"
        after = _ITS_SET.sub("", after)
        if _PUTS_RIGHT.match(before):
            after = re.sub(r"^ is\b", " was", after)  # "pardon, the curl is 13"
        if not _WAS.match(after) and not _SET_WAS.match(after):
            return self.folded
        return f"{before}{label.lower()}{after}"

    def _number_of_last(self, label: str) -> int:
        return max((r.place.number for r in self.situation.today if r.place and r.place.label == label), default=1)

    def _correction_of_earlier(self) -> Found | None:
        """ "yesterday's bench was 82.5 not 80": a correction of what another day has on record."""
        told = told_of_earlier(self.folded, self.situation)
        if told is None:
            return None
        rest, there = told
        inner = Message(self.text, rest, there, self.catalogue)
        return with_its_like(correction(inner._with_labels(), there, self.catalogue), rest, there)

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
            fresh = [
                token._replace(start=token.start + part.start, end=token.end + part.start)
                for token in tokens_of(piece)[: max(0, _MOST_TOKENS - len(tokens))]
            ]
            if not fresh:
                continue
            ended = commands.finish(piece)
            if (
                ended is not None
                and (len(parts.parts) > 1)
                and self.situation.day is not None
                and not any(t.kind == "n" for t in fresh[:1])
                and not (tokens and _ONLY_THAT.fullmatch(piece.strip(" ,.!")))
                and not (not tokens and commands.JUST_DONE.fullmatch(piece.strip()) and re.search(r"\d", self.folded[part.end :]))
                and "out of time" not in piece  # that is why something was left out
            ):
                self.ended = ended
                continue
            if any(token.kind in "nc" for token in fresh) and self._of_something_else(fresh, piece, parts):
                self.asides.append(Aside(AsideKind.CHAT, self.text[part.start : part.end].strip(" ,.;-\n")))
                continue
            if not any(token.kind in "nc" for token in fresh) and self._only_chat(fresh):
                self.asides.append(Aside(AsideKind.CHAT, self.text[part.start : part.end].strip(" ,.;-\n")))
                continue
            if tokens:
                broken = "\n" in self.folded[tokens[-1].end : part.start + 1]
                tokens.append(
                    Token("b", "\n", tokens[-1].end, tokens[-1].end) if broken else Token("s", ",", part.start, part.start)
                )
            tokens += fresh
        return tokens

    def _of_something_else(self, tokens: list[Token], piece: str, parts: Parts) -> bool:
        """ "kid is 4 and climbing on me" beside "22 kg x 11": numbers among strange words, while a whole set is told elsewhere."""
        if len(parts.parts) < 2 or FULL_SET.search(piece) or len(self.folded) > _LONGEST_STORY:
            return False
        if "\n" in self.folded or sum(token.kind == "n" for token in tokens) > 2:
            return False  # a line of a session whose exercise has an unknown name
        if not any(FULL_SET.search(self.folded[part.start : part.end]) for part in parts.parts if part.kind == "sets"):
            return False
        strange = [
            token for token in tokens if token.kind == "w" and LEXICON.get(token.text) is None and token.text not in PHRASES
        ]
        return (
            len(strange) > 1
            and not self._names(tokens)
            and not any(LEXICON.get(token.text, "?") in "urzLRFWK" for token in tokens)
        )

    def _only_chat(self, tokens: list[Token]) -> bool:
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
            if pointed is not None and not any((t.kind == "n" and not t.glued) or t.text == "minute" for t in tokens):
                self.heard.append(pointed)
                self.certainty = 0.95
                return
        skipped = commands.skip(sets_text, names, situation) if not parts.when else None
        if skipped is not None:
            tokens, names = self._without_skip(tokens, names, sets_text, skipped)
            self.situation = situation = replace(situation, skipped=(*situation.skipped, *skipped.places), due_override=None)
        only = commands.only_sets(sets_text) if situation.day is not None else None
        if only is not None:
            tokens = self._without_only(tokens, sets_text)
        if any(token.kind in "nc" for token in tokens) or skipped is None:
            self._entries(tokens, names, told or ToldDay(situation.on, situation.day))
        if skipped is not None:
            told_now = {record.place for record in _sets_of(self.heard)}
            left = tuple(place for place in skipped.places if place not in told_now)
            self.heard.append(replace(skipped, places=left) if left else skipped)
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
        stop = commands.end_of_skip(sets_text, found)
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
            know_words_of(due_slot, clause)
            forget_preface(self.folded, clause)
        self.strange = 0 if names or any(term.kind == "J" for term in clause.terms) else len(clause.unknown)
        entries = [entry for entry in _merged(entries_of(clause.terms), self) if entry.items]
        if len(entries) > 1:
            entries = [entry for entry in entries if _tells_something(entry)] or entries
        share_load(entries, self.folded)
        items = [item for entry in entries for item in entry.items]
        if situation.today and not any(item.numbers for item in items) and not clause.unknown:
            for mark in (mark for item in items for mark in item.marks if mark.kind == "M"):
                mark.kind = "A"  # "same on both": as the set before
        group = Group(self.text, self.folded, situation, self.catalogue, told)
        told_at_once = self._told_at_once(group, entries, clause, due_slot, base)
        if told_at_once:
            self.heard += told_at_once
            self.certainty = min(self.certainty, _AT_ONCE)
            return
        surely = tells_sets(clause, entries, base, running=bool(situation.today))
        if not surely:
            surely = maybe_sets(clause, entries, base, self.folded, running=bool(situation.today))
        if not surely:
            return
        self.certainty = min(self.certainty, surely)
        if due_slot is not None and base is not None and base.measure is Measure.REPS and only_time(entries):
            return
        if day is None or (told.options and not day):
            self._which_day(told)
            return
        if leaves_out(self.folded):
            self.certainty = min(self.certainty, 0.7)
        if len(entries) == 1 and due_slot is not None:
            entries = group.with_partner(entries[0], due_slot)
        self._settle(entries, names, told, due_slot, group, clause)

    def _settle(
        self,
        entries: list[Entry],
        names: list[tuple[int, int, str]],
        told: ToldDay,
        due_slot: Slot | None,
        group: Group,
        clause: Clause,
    ) -> None:
        """Read each entry in its setting, those first that say their loads plainly; they are heard in the order told."""
        spoken = _without(names, self.folded)
        settings = [self._setting_of(entry, told, due_slot) for entry in entries]
        results: list[Settled | None] = [None] * len(entries)
        load_first = len(entries) > 1 and any(
            _one_more_than_sets(e, s) for e, s in zip(entries, settings, strict=True) if s is not None
        )
        for place in _surest_first(entries):
            setting, entry = settings[place], entries[place]
            if setting is None:
                continue
            setting.load_first, setting.session = load_first, len(entries) > 1
            as_told = entry.twin() if len(entries) == 1 else entry
            settled = settle_entry(entry, setting, spoken, self.text, self.situation, sure=SURE, alone=len(entries) == 1)
            load_first = load_first or settled.load_first
            if not entry.label and not entry.exercise and due_slot is not None and setting.slot is due_slot:
                settled = group.elsewhere(entry, settled, due_slot)
                if len(entries) == 1:
                    settled = group.or_partner(as_told, settled, due_slot)
            results[place] = settled
        for entry, result in zip(entries, results, strict=True):
            if result is None:
                self._no_place(entry, told, clause)
            else:
                self._take(result)
        self._in_order_told([result for result in results if result is not None])

    def _in_order_told(self, results: list[Settled]) -> None:
        """ "bench 16x10, row 18x10, bench 16x9": sets that take turns are heard in their turns."""
        told = [(start, record) for r in results for start, record in zip(r.starts, _sets_of(r.heard), strict=False)]
        heard = _sets_of(self.heard)
        starts = [start for start, _ in told]
        if len(results) > 1 and len(told) == len(heard) and starts != sorted(starts):
            told.sort(key=lambda pair: pair[0])
            others = [part for part in self.heard if not isinstance(part, SetsHeard)]
            self.heard = [SetsHeard(tuple(record for _, record in told)), *others]

    def _told_at_once(
        self, group: Group, entries: list[Entry], clause: Clause, due_slot: Slot | None, base: Setting | None
    ) -> tuple[Heard, ...]:
        """Sets that few words tell of a whole superset, or of the second side of the set before."""
        if due_slot is not None and base is not None:
            heard = group.same_for_both(entries, clause, due_slot) or group.both(entries, clause, due_slot, base)
            if heard:
                return heard
        completed = group.other_side(entries)
        return (completed,) if completed is not None else ()

    def _which_day(self, told: ToldDay) -> None:
        """No day is planned and none is said: ask which day of the block it was."""
        block = self.situation.block
        options: list[Option] = []
        for day in block.days[:7] if block and self.forced is None else ():
            there = replace(self.situation, day=day, today=(), last_time=(), due_override=None)
            inner = Message(self.text, self.folded, there, self.catalogue, forced=ToldDay(told.on, day))
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
                if same_as_last(settled.heard, last):
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

    def _hardly_speaks_of_sets(self, question: Question) -> bool:
        """Only a load or only a count among words that nobody knows is rather talk than half a set."""
        return question.code in ("missing_count", "missing_load") and self.strange > 1

    def _reading(self) -> Reading:
        told_to = max(self.told_to, *(why.end for why in self.why)) if self.why else 0
        heard = with_notes(
            joined(self.heard), self.text, told_to, [aside.text for aside in self.asides if aside.kind is AsideKind.CHAT]
        )
        if self.ended is not None and not heard and self.question is None:
            heard = (self.ended,)
            self.certainty = 0.93
        if self.question is not None and not heard and self._hardly_speaks_of_sets(self.question):
            self.question = None  # "route 46 was 20 min behind all day"
        if self.question is not None and not self.question.options and self.question.code != "bar_weight":
            open_code = {"missing_load": "which_load", "missing_count": "which_count"}.get(self.question.code, "unclear")
            self.question = replace(self.question, code=open_code)
        if self.question is not None:
            verdict, certainty = Verdict.ASK, self.certainty
        elif heard:
            certainty = self.certainty
            verdict = Verdict.RECORD if certainty >= SURE else Verdict.ASK
            if verdict is Verdict.ASK:
                self.question = Question("is_that_right", self.text[:80], (Option(label_of(heard), heard, certainty),))
                heard = ()
        elif self.situation.day is not None and speaks_vaguely(self.folded):
            return Reading(self.text, Verdict.ASK, (), 0.3, Question("which_count", self.text.strip()[:80], ()))
        else:
            return Reading(
                self.text, Verdict.NOT_SETS, asides=tuple(self.asides or [Aside(AsideKind.CHAT, self.text[:LONGEST].strip())])
            )
        return Reading(
            self.text, verdict, heard, certainty, self.question, tuple(self.asides), tuple(self.unread), tuple(self.why)
        )


_OF_ANOTHER = re.compile(r"\b(?:before|instead of|rather than|after|not)\s+(?:the\s+|my\s+|doing\s+)*$")


def _without_others(names: list[tuple[int, int, str]], folded: str) -> list[tuple[int, int, str]]:
    """ "rows before deadlifts: 60x8" tells of rows: a name that only says before or instead of what is no name of the sets."""
    if len(names) < 2:
        return names
    own = [name for name in names if not _OF_ANOTHER.search(folded, max(0, name[0] - 24), name[0])]
    return own or names


def _tells_something(entry: Entry) -> bool:
    """Not so the heading of a session, "todays session": words alone, which nobody says of sets."""
    return bool(entry.label or entry.exercise) or any(
        item.numbers or any(m.kind != "?" for m in item.marks) for item in entry.items
    )


def _one_more_than_sets(entry: Entry, setting: Setting) -> bool:
    """ "bench 60 8 8 7" of three sets: a load and a count for each of them."""
    numbers = [term for item in entry.items for term in item.numbers]
    return (
        setting.needs_load
        and len(numbers) == len(setting.free_numbers) + 1 > 3
        and all(t.bare or t is numbers[-1] for t in numbers)
    )


def _sets_of(heard: Iterable[Heard]) -> list[SetRecord]:
    return [record for part in heard if isinstance(part, SetsHeard) for record in part.sets]


def _surest_first(entries: list[Entry]) -> list[int]:
    """Of several exercises those first that say their loads plainly: how one is written tells how the others are."""
    plain = [n for n, e in enumerate(entries) if any(t.role == "load" or t.plural for item in e.items for t in item.numbers[:1])]
    return plain + [place for place in range(len(entries)) if place not in plain]


def _without(names: list[tuple[int, int, str]], folded: str) -> str:
    """The text with the names blanked: what is left is said of sets."""
    for start, end, _ in names:
        folded = folded[:start] + " " * (end - start) + folded[end:]
    return folded


def _merged(entries: list[Entry], reader: Message) -> list[Entry]:
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
