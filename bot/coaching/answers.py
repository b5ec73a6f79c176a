"""What is the answer to a question, from the block and the member's own numbers? Values only: the wording lives in chat.

`Facts` is what has to be looked up beforehand; everything else stands in the situation. None: the bot has no good answer and the
coach gets the question.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from decimal import Decimal

from bot.language.questions import Asked, Topic
from bot.language.situation import Situation
from bot.training.beginnings import Beginning, suggest_beginning
from bot.training.blocks import (
    Day,
    ExerciseId,
    LoadRule,
    Measure,
    PolicyKind,
    Rest,
    SetPlace,
    SetTarget,
    Sides,
    Slot,
    order_of,
    work_sets,
)
from bot.training.exercises.catalogue import Catalogue, load_catalogue
from bot.training.exercises.entry import Exercise
from bot.training.exercises.muscles import prime_groups
from bot.training.kit import Kit
from bot.training.loads import Load, LoadKind, Unit, from_kg
from bot.training.phases import PhaseWords, explain_tempo
from bot.training.records import SetDone, SetRecord
from bot.training.strength import estimate_e1rm
from bot.training.substitutes import kit_version
from bot.training.tempo import Tempo, time_under_tension_s
from bot.training.terms import explain
from bot.training.volume import session_minutes

# NSCA's usual rest by goal: a convention, not a limit (Singer et al. 2024).
_REST_FEW_REPS, _REST_SOME, _REST_MANY = (120, 180), (60, 90), (30, 60)
_FEW, _MANY = 6, 15
_BETWEEN_SIDES = re.compile(r"\b(?:sides?|legs?|arms?|left|right)\b", re.IGNORECASE)
# Asks about the set just done rather than the one that comes: "was that a record", "that flew, do I go up", "is 18 my best".
_JUST_DONE = re.compile(r"\b(?:that|this was|it was|was it|felt|flew|is \d+)\b", re.IGNORECASE)
# Asks for another order of the slots than the coach's.
_ORDER = re.compile(r"\b(?:first|before|last|order|start(?: with)?|flip|later|at the end|ahead of)\b", re.IGNORECASE)
_MUSCLES = re.compile(r"\b(?:muscles?|works?|working|train|hit|feel|feeling)\b", re.IGNORECASE)
_HELP_ABOUT = (
    ("voice", re.compile(r"\b(?:voice|audio|speak|recordings?)\b", re.IGNORECASE)),
    ("undo", re.compile(r"\b(?:undo|delete|remove|wrong|mistake|fix|correct|edit|change (?:the|what|a|my) (?:weight|number|set|reps|i)|take .*back)\b", re.IGNORECASE)),
    ("days", re.compile(r"\b(?:my days|move|reschedule|away|holiday|remind\w*|pause)\b", re.IGNORECASE)),
    ("log", re.compile(r"\b(?:log|record|enter|write|type|note|send|tell you|put in|report)\b", re.IGNORECASE)),
)  # fmt: skip
_WEEK = re.compile(r"\b(?:week|how many|which days|what days|schedule|my days)\b", re.IGNORECASE)
_KIT_ASKED = re.compile(r"\b(?:kit|equipment|gear|dumb ?bells?|weights|kettle ?bells?|bands?|bells?)\b", re.IGNORECASE)

_WHO_COACHES = re.compile(
    r"\bwho(?:'?s| is| are)? (?:(?:my|the|our) (?:coach|trainer)|(?:coaching|training) (?:me|us)|coaches (?:me|us|this)|runs (?:this|the|our))|"
    r"\b(?:coach|trainer)(?:'?s)? (?:name|called)\b|\bname of (?:my|the|our) (?:coach|trainer)|\bwhat do i call (?:my|the) coach",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Planned:
    """One session of the plan: its date, the day's number and name."""

    on: date
    day: int
    name: str = ""


@dataclass(frozen=True, slots=True)
class Facts:
    """What an answer may need beyond the situation.

    records: this member's active records, oldest first, today's left out or not. coming: the plan's sessions from today on,
    soonest first. missed: sessions of the last two weeks that were planned and not done, oldest first. week, weeks: of the block,
    from 1; ends_on: its last day. coach: the coach's name. catalogue: the group's, None for the plain one.
    demos: the coach's videos by exercise, as kept. aims: today's targets by slot, the prescription sharpened by the week's suggestion.
    """

    records: tuple[SetRecord, ...] = ()
    coming: tuple[Planned, ...] = ()
    missed: tuple[Planned, ...] = ()
    week: int | None = None
    weeks: int | None = None
    ends_on: date | None = None
    coach: str = ""
    catalogue: Catalogue | None = None
    demos: Mapping[ExerciseId, str] = field(default_factory=dict)
    aims: Mapping[str, tuple[SetTarget, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class TempoSaid:
    """phases: in the order of a rep. reps, seconds: of a set, None where the reps are open. asked: the tempo was the member's."""

    label: str
    name: str
    tempo: str
    phases: tuple[PhaseWords, ...]
    reps: int | None = None
    seconds: int | None = None
    has_x: bool = False
    note: str = ""
    starts_up: bool = False


@dataclass(frozen=True, slots=True)
class TempoUnsaid:
    label: str
    name: str


@dataclass(frozen=True, slots=True)
class TermSaid:
    """where: the slots of today in which the word stands."""

    term: str
    name: str
    says: str
    where: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class NextSaid:
    label: str
    number: int
    of: int
    name: str
    target: SetTarget
    load: Load | None = None
    last: SetDone | None = None


@dataclass(frozen=True, slots=True)
class AllDone:
    """Nothing is left of today's session; or (rest_day) there is none."""

    rest_day: bool = False
    next: Planned | None = None


@dataclass(frozen=True, slots=True)
class AlternateSaid:
    """labels, names: the slots of one letter. single: the slot stands alone, so nothing alternates. order: every slot of today, where
    another order is what was asked about."""

    labels: tuple[str, ...]
    names: tuple[str, ...]
    single: bool = False
    order: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class RestSaid:
    """by_coach: the block states it; else a usual range. turn: the slots of the letter, done in turn before the rest; none where it
    stands alone. between_sides: the rest asked about is that between left and right."""

    label: str
    name: str
    low_s: int
    high_s: int
    by_coach: bool
    turn: tuple[str, ...] = ()
    between_sides: bool = False


@dataclass(frozen=True, slots=True)
class TargetSaid:
    slot: Slot
    name: str


@dataclass(frozen=True, slots=True)
class StartSaid:
    """load None: no related lift on record. by_coach: the block names it; aim: today's target; seen: the set it was seen in."""

    label: str
    name: str
    load: Load | None = None
    by_coach: bool = False
    seen_name: str = ""
    seen: SetDone | None = None
    seen_on: date | None = None
    same: bool = False
    cut_percent: int = 0
    stale: bool = False
    low: int | None = None
    high: int | None = None
    bodyweight: bool = False
    aim: SetTarget | None = None


@dataclass(frozen=True, slots=True)
class GoUpSaid:
    """ready: every set of last time (or today) reached the top of the range; None where there are no numbers."""

    label: str
    name: str
    policy: str
    low: int | None = None
    high: int | None = None
    ready: bool | None = None
    sets: tuple[SetDone, ...] = ()


@dataclass(frozen=True, slots=True)
class BlockSaid:
    week: int | None
    weeks: int | None
    ends_on: date | None
    low: int
    high: int
    name: str = ""


@dataclass(frozen=True, slots=True)
class DurationSaid:
    """have_min: the minutes that the member has, where it says so; first: the slots of the letters that fit into them."""

    low_min: int
    high_min: int
    have_min: int | None = None
    first: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class MissedSaid:
    sessions: tuple[Planned, ...]
    open_today: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LeftSaid:
    """slots: (label, name, sets left), in order; done: sets on record today."""

    left: int
    done: int
    slots: tuple[tuple[str, str, int], ...]


@dataclass(frozen=True, slots=True)
class LastSaid:
    label: str
    name: str
    on: date
    sets: tuple[SetDone, ...]


@dataclass(frozen=True, slots=True)
class LastSessionSaid:
    """The whole last session: (label, name, sets), in order."""

    on: date
    slots: tuple[tuple[str, str, tuple[SetDone, ...]], ...]


@dataclass(frozen=True, slots=True)
class BestSaid:
    """best: the heaviest set (or most reps where the load is the body); e1rm: rounded, whole outside load, in the member's unit."""

    label: str
    name: str
    best: SetDone
    on: date
    e1rm: Decimal | None = None
    unit: Unit = Unit.KG


@dataclass(frozen=True, slots=True)
class NoNumbers:
    """Nothing is on record for it."""

    label: str
    name: str


@dataclass(frozen=True, slots=True)
class TodaySaid:
    day: int
    day_name: str
    slots: tuple[tuple[Slot, str], ...]


@dataclass(frozen=True, slots=True)
class SessionSaid:
    """A coming session. asked_on: the date that was asked for, where it differs: then that is a rest day. week: all of the next
    seven days, where those were asked about."""

    on: date
    day: int
    day_name: str
    slots: tuple[tuple[str, str], ...]
    today: date
    asked_on: date | None = None
    week: tuple[Planned, ...] = ()


@dataclass(frozen=True, slots=True)
class HowToSaid:
    label: str
    name: str
    cues: tuple[str, ...]
    by_coach: bool
    demo: str = ""
    tempo_note: str = ""
    video: str = ""  # the coach's own, as kept ("file:...")
    works: tuple[str, ...] = ()  # the muscles it is for, where they were asked for


@dataclass(frozen=True, slots=True)
class AboutMeSaid:
    """kit: what the member owns, where that was asked. only_coach: who the coach is was asked, and no more."""

    coach: str
    kit: Kit | None = None
    only_coach: bool = False


@dataclass(frozen=True, slots=True)
class HelpSaid:
    """about: "voice", "undo", "log", "days", or "" for all. label, name, measure, each_side: the slot that the log is about."""

    about: str = ""
    label: str = ""
    name: str = ""
    measure: Measure = Measure.REPS
    each_side: bool = False


Answer = (
    TempoSaid | TempoUnsaid | TermSaid | NextSaid | AllDone | AlternateSaid | RestSaid | TargetSaid | StartSaid | GoUpSaid | BlockSaid | DurationSaid
    | MissedSaid | LeftSaid | LastSaid | LastSessionSaid | BestSaid | NoNumbers | TodaySaid | SessionSaid | HowToSaid | AboutMeSaid | HelpSaid
)  # fmt: skip
# Class name -> class, for reading a queued answer back.
ANSWERS: dict[str, type[Answer]] = {
    kind.__name__: kind
    for kind in (
        TempoSaid, TempoUnsaid, TermSaid, NextSaid, AllDone, AlternateSaid, RestSaid, TargetSaid, StartSaid, GoUpSaid, BlockSaid, DurationSaid,
        MissedSaid, LeftSaid, LastSaid, LastSessionSaid, BestSaid, NoNumbers, TodaySaid, SessionSaid, HowToSaid, AboutMeSaid, HelpSaid,
    )
}  # fmt: skip


def answer(asked: Asked, situation: Situation, facts: Facts) -> Answer | None:
    """Answer one question; None where it is for the coach or there is nothing to answer from."""
    return _Desk(asked, situation, facts).answer()


class _Desk:
    """One question with all that is known, so that each answer below is a few lines."""

    def __init__(self, asked: Asked, situation: Situation, facts: Facts) -> None:
        self.asked, self.situation, self.facts = asked, situation, facts
        self.catalogue = facts.catalogue or load_catalogue()

    def answer(self) -> Answer | None:
        by_topic = {
            Topic.TEMPO: self.tempo, Topic.TERM: self.term, Topic.NEXT: self.next, Topic.WHY_ALTERNATE: self.alternate, Topic.REST: self.rest,
            Topic.TARGET: self.target, Topic.START_WEIGHT: self.start, Topic.GO_UP: self.go_up, Topic.BLOCK_LENGTH: self.block,
            Topic.DURATION: self.duration, Topic.MISSED: self.missed, Topic.SETS_LEFT: self.left, Topic.LAST_TIME: self.last,
            Topic.BEST: self.best, Topic.TODAY: self.today, Topic.NEXT_SESSION: self.session, Topic.HOW_TO: self.how_to,
            Topic.ABOUT_ME: self.about_me, Topic.HELP: self.help,
        }  # fmt: skip
        deed = by_topic.get(self.asked.topic)
        return deed() if deed else None

    # --- what the question is about ---

    def slot(self) -> Slot | None:
        """The slot named, else that of the exercise named, else the one that is due, or was last done."""
        day, asked = self.situation.day, self.asked
        if day is None:
            return None
        if asked.label:
            return day.slot(asked.label)
        if asked.exercise is not None:
            return next((slot for slot in day.slots if self.situation.exercise_of(slot) == asked.exercise), None)
        due = self.situation.due
        last = next((record.place for record in reversed(self.situation.today) if record.place), None)
        if last and asked.topic in (Topic.BEST, Topic.GO_UP) and _JUST_DONE.search(asked.text):
            return day.slot(last.label)
        label = due.label if due else last.label if last else day.slots[0].label if day.slots else ""
        return day.slot(label)

    def exercise_id(self, slot: Slot | None) -> ExerciseId | None:
        if self.asked.exercise is not None:
            return self.asked.exercise
        return self.situation.exercise_of(slot) if slot else None

    def exercise(self, slot: Slot | None) -> Exercise | None:
        return self.catalogue.get(self.exercise_id(slot))

    def name(self, slot: Slot | None) -> str:
        swapped = slot is not None and slot.label in dict(self.situation.swaps)
        if slot is not None and not swapped and self.asked.exercise in (None, slot.exercise):
            return slot.exercise_name
        entry = self.exercise(slot)
        return entry.name if entry else self.asked.exercise_words

    def is_swapped(self, slot: Slot | None) -> bool:
        """Is it another exercise than the coach's, and not just the coach's with the implement that this member owns?"""
        other = dict(self.situation.swaps).get(slot.label) if slot else None
        if slot is None or other is None or slot.exercise is None:
            return other is not None
        return other != kit_version(slot.exercise, self.situation.kit, self.catalogue, written=slot.exercise_name)

    def set_due(self, slot: Slot) -> SetTarget | None:
        """The prescription of the set that comes next in this slot, else its first."""
        targets, due = work_sets(slot), self.situation.due
        if due and due.label == slot.label and due.number <= len(targets):
            return targets[due.number - 1]
        return targets[0] if targets else None

    def records_of(self, exercise: ExerciseId | None) -> list[SetRecord]:
        """This exercise's records before today, oldest first."""
        known = {record.record_id for record in self.facts.records if record.record_id is not None}
        more = [
            r for r in (*self.situation.last_time, *self.situation.earlier) if r.record_id is None or r.record_id not in known
        ]
        everything = [*more, *self.facts.records] if not self.facts.records or known else list(self.facts.records)
        mine = [r for r in everything if r.exercise == exercise and exercise is not None and r.on < self.situation.on]
        return sorted(mine, key=lambda record: record.on)

    # --- the answers ---

    def tempo(self) -> Answer | None:
        slot = self._slot_with_tempo() or self.slot()
        target = self.set_due(slot) if slot else None
        tempo: Tempo | None = self.asked.tempo or (target.tempo if target else None)
        name = self.name(slot)
        if tempo is None:
            term = explain("tempo")
            if slot is None or not name:
                return TermSaid("tempo", "Tempo", term.says) if term else None
            return TempoUnsaid(slot.label, name)
        entry = self.exercise(slot)
        reps = (target.high or target.low) if target and target.measure is Measure.REPS else None
        phases = explain_tempo(tempo, entry)
        return TempoSaid(
            slot.label if slot else "", name, str(tempo), phases, reps, time_under_tension_s(tempo, reps) if reps else None,
            tempo.concentric_s is None, entry.tempo_note if entry else "", phases[0].phase.value == "lifting",
        )  # fmt: skip

    def _slot_with_tempo(self) -> Slot | None:
        """The slot that has the tempo asked about, the one that is due before others; None where one is named, or none has it."""
        asked, day = self.asked, self.situation.day
        if asked.tempo is None or asked.label or asked.exercise is not None or day is None:
            return None
        have = [slot for slot in day.slots if any(target.tempo == asked.tempo for target in work_sets(slot))]
        due = self.situation.due
        return next((slot for slot in have if due and slot.label == due.label), have[0] if have else None)

    def term(self) -> Answer | None:
        term = explain(self.asked.term)
        if term is None:
            return None
        day = self.situation.day
        where = tuple(slot.label for slot in day.slots if _has_term(slot, term.id)) if day else ()
        return TermSaid(term.id, term.names[0], term.says, where)

    def next(self) -> Answer | None:
        day, due = self.situation.day, self.situation.due
        if self.asked.label and day and (after := self._after(day, self.asked.label)):
            due = after
        slot = day.slot(due.label) if day and due else None
        if slot is None or due is None or due.number > len(work_sets(slot)):
            return self._nothing_left()
        aims = self.facts.aims.get(slot.label) or work_sets(slot)
        target = aims[min(due.number, len(aims)) - 1]
        earlier = [r for r in self.situation.today if r.place and r.place.label == slot.label and r.done.load]
        load = target.load or (earlier[-1].done.load if earlier and slot.load_rule in (LoadRule.FREE, LoadRule.SAME) else None)
        last = next((r.done for r in self.situation.last_time if r.place == due), None)
        entry = self.catalogue.get(self.situation.exercise_of(slot))
        swapped = slot.label in dict(self.situation.swaps)
        name = entry.name if swapped and entry else slot.exercise_name
        return NextSaid(slot.label, due.number, len(work_sets(slot)), name, target, load, last)

    def _after(self, day: Day, label: str) -> SetPlace | None:
        """ "What comes after B2?": the first open set of the next slots in the order."""
        labels = [slot.label for slot in day.slots]
        if label not in labels:
            return None
        behind = labels[labels.index(label) + 1 :]
        gone = {record.place for record in self.situation.today} | set(self.situation.skipped)
        return next((place for place in order_of(day) if place.label in behind and place not in gone), None)

    def _nothing_left(self) -> AllDone:
        coming = next((one for one in self.facts.coming if one.on > self.situation.on), None)
        return AllDone(self.situation.day is None, coming)

    def alternate(self) -> Answer | None:
        slot, day = self.slot(), self.situation.day
        if slot is None or day is None:
            term = explain("superset")
            return TermSaid(term.id, term.names[0], term.says) if term else None
        group = [one for one in day.slots if one.group == slot.group]
        if self._asks_for_another_order(day, group):
            return AlternateSaid((slot.label,), (self.name(slot),), order=tuple(one.label for one in day.slots))
        if len(group) < 2 and not self.asked.label:
            group = next((pair for one in day.slots if len(pair := [o for o in day.slots if o.group == one.group]) > 1), group)
        return AlternateSaid(tuple(one.label for one in group), tuple(one.exercise_name for one in group), len(group) < 2)

    def _asks_for_another_order(self, day: Day, group: list[Slot]) -> bool:
        """ "Can I do C1 first", "the Cs before the Bs": more than the turns within one letter."""
        letters = {one.label[0] for one in day.slots}
        named = {said.upper() for said in re.findall(r"\b([B-Hb-h](?=s\b)|A(?=s\b)|[A-Ha-h](?=\d\b))", self.asked.text)} & letters
        return _ORDER.search(self.asked.text) is not None and (len(named) > 1 or (bool(self.asked.label) and len(group) < 2))

    def rest(self) -> Answer | None:
        slot, day = self.slot(), self.situation.day
        if slot is None or day is None:
            return None
        group = [one for one in day.slots if one.group == slot.group]
        turn = tuple(one.label for one in group) if len(group) > 1 else ()
        sides = slot.sides is not Sides.BOTH and _BETWEEN_SIDES.search(self.asked.text) is not None
        stated: Rest | None = slot.rest or next((one.rest for one in reversed(group) if one.rest), None)
        if stated:
            return RestSaid(slot.label, self.name(slot), stated.low_s, stated.high_s, True, turn, sides)
        target = self.set_due(slot)
        reps = (target.high or target.low) if target else None
        low, high = _REST_SOME if reps is None else _REST_FEW_REPS if reps <= _FEW else _REST_MANY if reps > _MANY else _REST_SOME
        return RestSaid(slot.label, self.name(slot), low, high, False, turn, sides)

    def target(self) -> Answer | None:
        slot = self.slot()
        return TargetSaid(slot, self.name(slot)) if slot else None

    def start(self) -> Answer | None:
        slot = self.slot()
        entry, name = self.exercise(slot), self.name(slot)
        target = self.set_due(slot) if slot else None
        label = slot.label if slot else ""
        low, high = (target.low, target.high) if target else (None, None)
        if target and target.load:
            return StartSaid(label, name, target.load, by_coach=True, low=low, high=high)
        if not name:
            return None
        aim = next(iter(self.facts.aims.get(label, ())), None) if self.asked.exercise in (None, self.exercise_id(slot)) else None
        if slot and aim and aim.load:
            last = next((r for r in self.situation.last_time if r.place and r.place.label == label and r.done.load), None)
            return StartSaid(label, name, aim.load, seen=last.done if last else None, seen_on=last.on if last else None, aim=aim)
        past = [
            r
            for r in self.records_of(entry.id if entry else self.exercise_id(slot))
            if not r.doubtful and not r.painful and r.done.load
        ]
        if past and past[-1].done.load and past[-1].done.load.kind is not LoadKind.IMPLEMENT:
            same = next(r for r in past if r.on == past[-1].on)
            return StartSaid(
                label, name, same.done.load, seen_name=name, seen=same.done, seen_on=same.on, same=True, low=low, high=high
            )
        found = self._beginning(entry, high or low)
        if found is None:
            return StartSaid(label, name, low=low, high=high, bodyweight=bool(entry and entry.load_style.value == "body"))
        return StartSaid(
            label, name, found.load, False, found.seen_name, found.seen.done, found.seen.on, found.relation == "same", found.cut_percent,
            found.stale, low, high,
        )  # fmt: skip

    def _beginning(self, entry: Exercise | None, reps: int | None) -> Beginning | None:
        if entry is None:
            return None
        situation = self.situation
        records = [*situation.last_time, *situation.earlier, *self.facts.records]
        records = [record for record in records if record.on < situation.on]
        return suggest_beginning(
            entry, records, self.catalogue, kit=situation.kit, unit=situation.unit, reps=reps or 10, on=situation.on
        )

    def go_up(self) -> Answer | None:
        slot = self.slot()
        if slot is None:
            return GoUpSaid("", "", PolicyKind.USUAL.value)
        target = self.set_due(slot)
        policy = (
            slot.policy if slot.policy is not PolicyKind.USUAL or self.situation.block is None else self.situation.block.policy
        )
        today = [r for r in self.situation.today if r.place and r.place.label == slot.label]
        records = (
            today
            if len(today) >= len(work_sets(slot))
            else [r for r in self.situation.last_time if r.place and r.place.label == slot.label]
        )
        usable = [r for r in records if not r.doubtful]
        top = target.high if target else None
        counts = [r.done.worst_count or 0 for r in usable]
        ready = (
            None
            if not usable or top is None
            else len(usable) >= len(work_sets(slot)) and min(counts) >= top and not any(r.painful for r in usable)
        )
        return GoUpSaid(
            slot.label, self.name(slot), policy.value, target.low if target else None, top, ready, tuple(r.done for r in usable)
        )

    def block(self) -> Answer | None:
        block = self.situation.block
        if block is None:
            return None
        facts = self.facts
        return BlockSaid(
            facts.week, facts.weeks or block.weeks_default, facts.ends_on, block.weeks_min, block.weeks_max, block.name
        )

    def duration(self) -> Answer | None:
        if self.situation.day is None:
            return self._nothing_left()
        day, have = self.situation.day, _minutes_in(self.asked.text)
        whole = session_minutes(day, self.catalogue)
        if have is None:
            return DurationSaid(*whole)
        return DurationSaid(*whole, have, tuple(slot.label for slot in _first_of(day, have, self.catalogue)))

    def missed(self) -> Answer | None:
        day = self.situation.day
        recorded = {record.place.label for record in self.situation.today if record.place}
        skipped = {place.label for place in self.situation.skipped}
        untouched = tuple(slot.label for slot in day.slots if slot.label in skipped and slot.label not in recorded) if day else ()
        return MissedSaid(self.facts.missed, untouched)

    def left(self) -> Answer | None:
        day = self.situation.day
        if day is None:
            return self._nothing_left()
        gone = {record.place for record in self.situation.today} | set(self.situation.skipped)
        open_places = [place for place in order_of(day) if place not in gone]
        if not open_places:
            return self._nothing_left()
        counts = [(slot.label, slot.exercise_name, sum(place.label == slot.label for place in open_places)) for slot in day.slots]
        done = len({record.place for record in self.situation.today if record.place})
        return LeftSaid(len(open_places), done, tuple(row for row in counts if row[2]))

    def last(self) -> Answer | None:
        named = bool(self.asked.label or self.asked.exercise)
        slot = self.slot()
        on = None if named else self._day_before()
        if on is not None and (told := self._session_on(on)):
            return told
        if on is not None and not self.situation.last_time:
            return NoNumbers("", "")
        if not named and self.situation.last_time and (on is not None or self.situation.due is None):
            return self._last_session()
        in_slot = [r for r in self.situation.last_time if slot and r.place and r.place.label == slot.label]
        same = [r for r in in_slot if r.exercise in (None, self.exercise_id(slot))] or self.records_of(self.exercise_id(slot))
        if not same:
            if not named and self.situation.last_time:
                return self._last_session()
            return NoNumbers(slot.label if slot else "", self.name(slot)) if slot or self.asked.exercise_words else None
        newest = max(record.on for record in same)
        return LastSaid(slot.label if slot else "", self.name(slot), newest, tuple(r.done for r in same if r.on == newest))

    def _day_before(self) -> date | None:
        """The date of a day gone by that was asked about: yesterday, or the last such weekday."""
        today = self.situation.now.date()
        if re.search(r"\byesterday\b", self.asked.text, re.IGNORECASE):
            return today - timedelta(days=1)
        if self.asked.weekday is None:
            return None
        return today - timedelta(days=(today.weekday() - self.asked.weekday - 1) % 7 + 1)

    def _session_on(self, on: date) -> LastSessionSaid | None:
        """What is on record on a date, each exercise by its name; None where nothing is."""
        groups: dict[str, list[SetDone]] = {}
        names: dict[str, str] = {}
        for record in self.facts.records:
            if record.on != on:
                continue
            entry = self.catalogue.get(record.exercise)
            label = record.place.label if record.place else ""
            names.setdefault(label, entry.name if entry else label)
            groups.setdefault(label, []).append(record.done)
        rows = tuple((label, names[label], tuple(sets)) for label, sets in sorted(groups.items()))
        return LastSessionSaid(on, rows) if rows else None

    def _last_session(self) -> LastSessionSaid:
        records = self.situation.last_time
        newest = max(record.on for record in records)
        groups: dict[str, list[SetDone]] = {}
        for record in records:
            if record.on == newest and record.place:
                groups.setdefault(record.place.label, []).append(record.done)
        names = {slot.label: slot.exercise_name for slot in self.situation.day.slots} if self.situation.day else {}
        return LastSessionSaid(newest, tuple((label, names.get(label, label), tuple(sets)) for label, sets in groups.items()))

    def best(self) -> Answer | None:
        slot = self.slot()
        exercise = self.exercise_id(slot)
        todays = [r for r in self.situation.today if r.exercise == exercise]
        usable = [r for r in (*self.records_of(exercise), *todays) if not r.doubtful and r.done.worst_count]
        label, name = slot.label if slot else "", self.name(slot)
        if not usable:
            return NoNumbers(label, name) if name else None
        top = max(usable, key=_how_good)
        return BestSaid(label, name, top.done, top.on, _best_e1rm(usable, self.situation.unit), self.situation.unit)

    def today(self) -> Answer | None:
        day = self.situation.day
        if day is None:
            return self._nothing_left()
        swaps = dict(self.situation.swaps)
        rows = tuple(
            (slot, entry.name if (entry := self.catalogue.get(swaps.get(slot.label))) else slot.exercise_name)
            for slot in day.slots
        )
        return TodaySaid(day.number, day.name, rows)

    def session(self) -> Answer | None:
        today = self.situation.on
        asked_on = today + timedelta(days=self.asked.days_ahead) if self.asked.days_ahead else None
        if asked_on is None and self.asked.weekday is not None:
            asked_on = today + timedelta(days=(self.asked.weekday - today.weekday()) % 7 or 7)
        coming = [one for one in self.facts.coming if one.on > today]
        found = next((one for one in coming if one.on == asked_on), None) or next(
            (one for one in coming if asked_on is None or one.on >= asked_on), None
        )
        if found is None:
            return None
        day = self.situation.block.day(found.day) if self.situation.block else None
        slots = tuple((slot.label, slot.exercise_name) for slot in day.slots) if day else ()
        other = asked_on if asked_on and asked_on != found.on else None
        whole = asked_on is None and _WEEK.search(self.asked.text)
        week = tuple(one for one in coming if one.on <= today + timedelta(days=7)) if whole else ()
        return SessionSaid(found.on, found.day, found.name or (day.name if day else ""), slots, today, other, week)

    def how_to(self) -> Answer | None:
        slot = self.slot()
        entry, name = self.exercise(slot), self.name(slot)
        own = slot.cues if slot and self.asked.exercise in (None, slot.exercise, self.situation.exercise_of(slot)) else ()
        swapped = self.is_swapped(slot)
        cues = () if swapped else own
        shown = slot.demo if slot and own is slot.cues and not swapped else ""
        demo, video = ("", shown) if shown.startswith("file:") else (shown, "")
        exercise = self.exercise_id(slot)
        video = video or (self.facts.demos.get(exercise, "") if exercise else "")
        said = cues or (entry.cues if entry else ())
        works = tuple(group.value for group in prime_groups(entry)[:3]) if entry and _MUSCLES.search(self.asked.text) else ()
        if not said and not demo and not video and not works:
            return None
        return HowToSaid(
            slot.label if slot else "", name, said, bool(cues), demo, entry.tempo_note if entry else "", video, works
        )

    def about_me(self) -> Answer | None:
        if _WHO_COACHES.search(self.asked.text):
            return AboutMeSaid(self.facts.coach, only_coach=True)
        return AboutMeSaid(self.facts.coach, self.situation.kit if _KIT_ASKED.search(self.asked.text) else None)

    def help(self) -> Answer | None:
        about = next((about for about, words in _HELP_ABOUT if words.search(self.asked.text)), "")
        slot = self.slot() if self.asked.label or self.asked.exercise else None
        target = self.set_due(slot) if slot else None
        if about != "log" or slot is None or target is None:
            return HelpSaid(about)
        return HelpSaid(about, slot.label, self.name(slot), target.measure, slot.sides is not Sides.BOTH)


_MINUTES = re.compile(
    r"\b(?:(?P<count>\d{1,3}|ten|fifteen|twenty|thirty|forty|forty[- ]five) ?(?:mins?|minutes?|m)\b|(?P<half>half an hour|half hour)|(?P<hour>an hour|one hour|1 ?h(?:our)?)\b)",
    re.IGNORECASE,
)
_COUNTS = {"ten": 10, "fifteen": 15, "twenty": 20, "thirty": 30, "forty": 40, "forty-five": 45, "forty five": 45}


def _minutes_in(text: str) -> int | None:
    """ "only got twenty minutes" -> 20, "half an hour left" -> 30; of several the most."""
    return max((_minutes(found) for found in _MINUTES.finditer(text)), default=None)


def _minutes(found: re.Match[str]) -> int:
    if found["count"]:
        return _COUNTS.get(found["count"].lower()) or int(found["count"])
    return 30 if found["half"] else 60


def _first_of(day: Day, minutes: int, catalogue: Catalogue) -> tuple[Slot, ...]:
    """The slots of the first letters that fit into so many minutes, at least one letter: the coach puts first what matters most."""
    letters = list(dict.fromkeys(slot.label[0] for slot in day.slots))
    kept: tuple[Slot, ...] = ()
    for count in range(1, len(letters) + 1):
        some = tuple(slot for slot in day.slots if slot.label[0] in letters[:count])
        if kept and sum(session_minutes(replace(day, slots=some), catalogue)) / 2 > minutes:
            break
        kept = some
    return kept


def _has_term(slot: Slot, term: str) -> bool:
    targets = work_sets(slot)
    return {
        "amrap": any(t.amrap for t in targets), "rpe": any(t.rpe is not None for t in targets), "rir": any(t.rir is not None for t in targets),
        "drop_set": any(t.drops for t in targets), "partials": any(t.partials for t in targets), "burnout": any(t.kind.value == "burnout" for t in targets),
        "quarter_reps": any(t.partials and t.partials.where == "quarter" for t in targets), "one_rm": any(t.percent_1rm for t in targets),
    }.get(term, term.replace("_", " ") in f"{slot.exercise_name} {slot.grip} {slot.note}".lower().replace("-", " "))  # fmt: skip


def _how_good(record: SetRecord) -> tuple[Decimal, int]:
    load = record.done.load
    sign = -1 if load and load.kind is LoadKind.ASSISTED else 1
    return (sign * (load.kg or Decimal(0)) if load else Decimal(0), record.done.worst_count or 0)


def _best_e1rm(records: list[SetRecord], unit: Unit) -> Decimal | None:
    """The highest estimate of sets of ten reps or fewer with an outside load, in the member's unit, to a tenth; None without one."""
    found = [
        estimate_e1rm(load_kg=load.total_kg, reps=count, rir=r.done.rir or Decimal(0)).kg
        for r in records
        if (load := r.done.load) and load.kind is LoadKind.IMPLEMENT and load.total_kg and (count := r.done.worst_count or 0) + (r.done.rir or 0) <= 10
        and r.done.measure is Measure.REPS
    ]  # fmt: skip
    return from_kg(max(found), unit).quantize(Decimal("0.1")) if found else None
