"""Which of all ways to read an entry is meant, and is it sure enough to be put on record?"""

from __future__ import annotations

import re
from dataclasses import replace

from bot.language.reading.between import strange_words_between
from bot.language.reading.doubts import (
    Settled,
    between,
    heard_of,
    label_of_placed,
    load_without_count,
    surprised,
    troubled,
    which_of_the_range,
)
from bot.language.reading.drafts import Draft, prepare
from bot.language.reading.grammar import Entry
from bot.language.reading.placing import Placed, is_surprising, place
from bot.language.reading.ranking import certainties
from bot.language.reading.references import told_by_reference
from bot.language.reading.setting import Setting
from bot.language.reading.weighing import Way, less_than_a_bar, unmarked_extra, ways_of
from bot.language.readings import Question, Why
from bot.language.situation import Situation
from bot.training.loads import Unit, say_load
from bot.training.records import SetRecord, Source

SURE = 0.80  # what is held with less certainty is asked about
_MOST_NUMBERS = 60  # of one exercise in one text; more is not a record of sets
_COUNT_UNSAID = 3.0  # log weight: people seldom say a load alone
_BOTH_SIDES = re.compile(r"\bleft\b(?! in\b).*\bright\b|\bright\b.*\bleft\b(?! in\b)", re.DOTALL)


def settle_entry(
    entry: Entry, setting: Setting, folded: str, text: str, situation: Situation, *, sure: float, alone: bool
) -> Settled:
    """Read one entry in its setting. sure: below this certainty a question is asked."""
    said = text[entry.start : entry.end]
    unit = _unit_of(entry, situation)
    told = told_by_reference(entry, setting, unit, folded)
    if told is not None:
        drafts, trouble, source = told
        return _referred(drafts, trouble, source, setting, said, entry, folded, text)
    if sum(len(item.numbers) for item in entry.items) > _MOST_NUMBERS:
        return Settled(question=Question("unclear", said[:80], ()), certainty=0.1, said=said)
    prepare(entry, setting)
    ways = ways_of(entry, setting, unit, situation)
    if not ways:
        return Settled(question=Question("unclear", said[:80], ()), certainty=0.2, said=said)
    shares = certainties([way.score for way in ways])
    best, share = ways[0], shares[0]
    if not best.drafts:
        counted = load_without_count(entry, setting, unit, said)
        counted.score = best.score - _COUNT_UNSAID
        return counted
    settled = (
        between(ways, shares, setting, said, entry)
        if share < sure and len(ways) > 1
        else _placed(best, share, setting, said, folded, text)
    )
    settled.score = best.score
    settled.load_first = settled.question is None and any(part.startswith("LR") for part in best.parts)
    return settled


def _unit_of(entry: Entry, situation: Situation) -> Unit:
    """The unit of loads said without one: that of the others in the entry, else the member's own."""
    said = {term.unit for item in entry.items for term in item.numbers if term.unit is not None}
    return said.pop() if len(said) == 1 else situation.unit


def _placed(best: Way, share: float, setting: Setting, said: str, folded: str, text: str) -> Settled:
    placed = place(best.drafts, setting)
    why = _why(best.drafts, placed, text)
    trouble = best.trouble or placed.trouble
    if not trouble and len(placed.records) > 1 and strange_words_between(best.drafts, folded):
        return _explained(troubled("sets_and_counts", best, placed, setting, said), why)
    if (
        not trouble
        and "left" in folded
        and _BOTH_SIDES.search(said.lower())
        and any(_one_side_only(record) for record in placed.records)
    ):
        trouble = "which_one"  # both sides were named, and only one has a number
    if trouble:
        return _explained(troubled(trouble, best, placed, setting, said), why)
    surprising = next((kind for record in placed.records if (kind := is_surprising(record, setting))), "")
    surprising = surprising or ("load" if unmarked_extra(best.drafts, setting) or less_than_a_bar(best.drafts, setting) else "")
    surprising = surprising or next((kind for _, new in placed.corrected if (kind := is_surprising(new, setting))), "")
    if surprising:
        return surprised(placed, setting, said, why)
    starts = tuple(draft.start for draft in best.drafts) if len(best.drafts) == len(placed.records) else ()
    return Settled(heard_of(placed), share, why=why, said=said, starts=starts)


def _one_side_only(record: SetRecord) -> bool:
    return record.done.count is None and (record.done.left is None) != (record.done.right is None)


def _explained(settled: Settled, why: tuple[Why, ...]) -> Settled:
    settled.why = why
    return settled


def _referred(
    drafts: list[Draft], trouble: str, source: Source, setting: Setting, said: str, entry: Entry, folded: str, text: str
) -> Settled:
    """Sets told by other sets: their load is carried over; what was counted anew was said."""
    if trouble == "planned_range":
        return which_of_the_range(drafts, setting, said)
    placed = place(drafts, setting)
    records = []
    for record in placed.records:
        done = record.done
        counted = any(term.role in ("", "count") for item in entry.items for term in item.numbers) and source is Source.CARRIED
        load_said = any(term.unit for item in entry.items for term in item.numbers) or source is Source.SAID
        load_source = Source.SAID if load_said else done.load_source if done.load_source is not Source.SAID else source
        if source is Source.CARRIED and not load_said:
            load_source = Source.CARRIED
        records.append(
            replace(
                record,
                done=replace(
                    done, load_source=load_source, count_source=Source.SAID if counted or source is Source.SAID else source
                ),
            )
        )
    placed.records = records
    way = Way(0.0, drafts, "", ())
    if not placed.trouble and len(placed.records) > 1 and strange_words_between(drafts, folded):
        placed.trouble = "sets_and_counts"
    if placed.trouble:
        return troubled(placed.trouble, way, placed, setting, said)
    surprising = next((kind for record in placed.records if (kind := is_surprising(record, setting))), "")
    if surprising:
        return surprised(placed, setting, said, ())
    why = (Why(entry.start, entry.end, f"told by what is known: {label_of_placed(placed)}"),)
    return Settled(heard_of(placed), 0.95, why=why, said=said)


def _why(drafts: list[Draft], placed: Placed, text: str) -> tuple[Why, ...]:
    found: list[Why] = []
    for draft in drafts:
        if draft.load_words is not None and draft.load is not None:
            found.append(Why(draft.load_words.start, draft.load_words.end, f"load {say_load(draft.load)}"))
        for term in draft.count_words:
            side = {"L": " left", "R": " right"}.get(term.side, "")
            found.append(Why(term.start, term.end, f"count {term.value}{side}"))
    carried: list[SetRecord] = [
        record for record in placed.records if record.done.load_source is Source.CARRIED and record.done.load
    ]
    if carried and carried[0].done.load:
        found.append(Why(0, 0, f"load not said: carried over, {say_load(carried[0].done.load)}"))
    return tuple(dict.fromkeys(found))
