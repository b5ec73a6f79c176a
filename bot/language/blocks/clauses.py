"""What do the words beside an exercise ask for? Each kind of phrase is taken out of the text by its own recogniser, surest first.

    "Goblet squat 3x10-12 @3110 rest 60s, last set drop 20% x 2"
      rest 60s -> rest;  drop 20% x 2 on the last set -> two drops;  @3110 -> tempo;  3x10-12 -> three sets
      what is left: "Goblet squat" -> the name

Plan: the text is evened out (letters.py), each recogniser (phrases/) blanks the characters that it read, and what stays is the name, a
note, or a mistake.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import partial

from bot.language.blocks.intervals import take_every_minute, take_intervals
from bot.language.blocks.phrases.efforts import take_efforts, take_percents
from bot.language.blocks.phrases.extras import (
    take_burnout_sets,
    take_drops,
    take_drops_by_amount,
    take_drops_said,
    take_one_more,
    take_partials,
    take_warm_up_sets,
)
from bot.language.blocks.phrases.free_words import take_alternatives, take_keyed, take_links
from bot.language.blocks.phrases.loads import (
    take_body_and_more,
    take_load_rules,
    take_loads,
    take_loads_with_reps,
    take_signed_loads,
)
from bot.language.blocks.phrases.rests import take_rests
from bot.language.blocks.phrases.sets_and_reps import take_lone_counts, take_schemes
from bot.language.blocks.phrases.setting_up import take_angles_and_grips
from bot.language.blocks.phrases.sides import take_sides
from bot.language.blocks.phrases.tempos import take_bare_tempos, take_tempos_by_name, take_tempos_in_words
from bot.language.blocks.phrases.which_sets import take_regions
from bot.language.blocks.scan import GONE, Clauses, Scan
from bot.training.loads import Unit

_SECONDS_OF_REST = re.compile(r"(?<=[,;–-]\s):([1-9]\d)(?![\d:])")  # ":90" behind the sets
_BOTH_SIDES_ALIKE = re.compile(
    r"(?<=x)(?P<one>\s?(?P<n>\d{1,3})\s?(?P<unit>m|s|secs?|steps))\s?/\s?(?P=n)\s?(?P=unit)\b", re.I
)  # "4x20m/20m"


def read_clauses(
    text: str, *, has_name: bool = True, in_rounds: bool = False, intervals: bool = False, unit: Unit | None = None
) -> Clauses:
    """Read everything that a slot's line says. has_name: the text begins with the exercise's name, which is left untouched.

    in_rounds: a heading gave the number of sets. intervals: the lines around are intervals, so "30/15" is work and rest.
    unit: of loads that are said without one.
    """
    scan = Scan(_SECONDS_OF_REST.sub(r"rest \1 s", _BOTH_SIDES_ALIKE.sub(r"\g<one> each", text)))
    take_intervals(scan, spoken_of=intervals)
    take_every_minute(scan)
    for recognise in (
        take_links,
        take_keyed,
        take_alternatives,
        take_regions,
        take_drops_by_amount,
        take_drops,
        take_drops_said,
        take_rests,
        partial(take_signed_loads, unit=unit),
        take_tempos_by_name,
        take_efforts,
        take_partials,
        take_one_more,
        take_burnout_sets,
        take_warm_up_sets,
        take_sides,
        take_load_rules,
    ):
        recognise(scan)
    take_body_and_more(scan, unit)
    take_loads(scan)
    take_loads_with_reps(scan, unit)
    take_percents(scan)
    take_bare_tempos(scan, sure=True)
    take_schemes(scan)
    take_bare_tempos(scan, sure=False)
    take_lone_counts(scan, in_rounds=in_rounds)
    name_end = _name_end(scan) if has_name else 0
    name, scan.left = scan.left[:name_end], GONE * name_end + scan.left[name_end:]
    take_angles_and_grips(scan)
    take_tempos_in_words(scan)
    scan.left = name + scan.left[name_end:]
    scan.out.left = list(_pieces(scan, has_name=has_name))
    return scan.out


def _name_end(scan: Scan) -> int:
    """The name reaches to the first phrase; when a phrase comes first, to the next one after the words."""
    runs = [run for run in re.finditer(rf"[^{GONE}]+", scan.left) if re.search(r"[^\W\d_]{2,}", run[0])]
    return runs[0].end() if runs else 0


def _pieces(scan: Scan, *, has_name: bool) -> Iterator[tuple[int, str]]:
    for run in re.finditer(rf"[^{GONE}]+", scan.left):
        piece = scan.raw[run.start() : run.end()]
        text = piece.strip(" \t,;:|.-–—()[]/+@&\n=·•")
        is_name = has_name and run.start() == 0 and text.lower() == "bench"
        if is_name or (re.search(r"\w", text) and not all(word in _EMPTY_WORDS for word in text.lower().split())):
            yield run.start() + piece.index(text[0]), text


_EMPTY_WORDS = frozenset(
    [
        "angle",
        "rounds",
        "round",
        "between",
        "bench",
        "hold",
        "holds",
        "and",
        "with",
        "then",
        "of",
        "for",
        "at",
        "on",
        "x",
        "the",
        "a",
        "reps",
        "rep",
        "sets",
        "set",
        "by",
        "to",
        "or",
        "total",
        "weight",
        "tempo",
        "rest",
        "w/u",
    ]
)
