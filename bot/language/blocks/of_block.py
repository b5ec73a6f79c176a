"""What is said of the block as a whole: its name, length, rhythm, days off, the coach's short names, how to progress, aims of weeks?"""

from __future__ import annotations

import re

from bot.language.blocks import headings
from bot.language.blocks.assemble import Assembler
from bot.language.blocks.conventions import take_conventions, weekdays_by_letters
from bot.language.blocks.growth import more_sets_in
from bot.language.blocks.letters import count_words_as_figures
from bot.language.blocks.prose import training_weekdays, unit_in, weeks_in
from bot.language.blocks.slots import read_policy

_TITLE = re.compile(r"^(?:block|title|program(?:me)?|block name|plan|name)\s*[:=]\s*(?P<name>.+)$", re.I)
_ALIAS = re.compile(r"^(?:short name|alias|abbreviation)s?\s*[:=]\s*(?P<alias>.+?)\s*=\s*(?P<name>.+)$", re.I)
_NOTE = re.compile(r"^notes?\s*[:=]", re.I)  # free words, whatever they speak of
# Below the days, such a sentence is about the block only where it says so at once; "all sets RIR 2" is about the exercise above.
_FOR_ALL = re.compile(
    r"^(?:(?:all|every)\s+(?:exercises?|rests?|lifts?|moves?|tempos?)|everything|rests?\b.*\b(?:unless|otherwise|throughout|everywhere|everything))\b",
    re.I,
)


def take_of_block(to: Assembler, text: str, said: str, *, set_off: bool) -> bool:
    """Take a line that speaks of the block; False if it speaks of something else. A sentence above the days may tell some on its way."""
    if not to.days and not _NOTE.match(text):
        to.weekdays = to.weekdays or training_weekdays(text)
        to.conventions.unit = to.conventions.unit or unit_in(text)
        letters = weekdays_by_letters(said)
        to.conventions.initials = to.conventions.initials or letters
        to.weekdays = to.weekdays or tuple(letters.values())
        if letters and not re.search(r"[A-Za-z]{3}", re.sub(r"\b(?:training|days?|we|train|on|and)\b", "", said, flags=re.I)):
            return True
        to.weeks_said = to.weeks_said or weeks_in(text)
        to.rhythm = to.rhythm or headings.rhythm_in(text)
        listed = headings.read_weekdays(text)
        if listed:
            to.weekdays = listed
            return True
        same = headings.read_same_weekdays(text)
        if same:
            to.same_weekdays = same
            to.note(said)
            return True
    title = _TITLE.match(said)
    if title and not to.days:
        to.name = title["name"].strip()
        return True
    alias = _ALIAS.match(said)
    if alias:
        to.aliases.append((alias["alias"].strip(), alias["name"].strip()))
        return True
    rhythm = headings.read_rhythm(text)
    if rhythm:
        to.rhythm = rhythm
        return True
    days_off = headings.read_days_off(text) or (headings.read_overview(text) if not to.days else None)
    if days_off:
        to.days_off = days_off
        return True
    length = headings.read_length(text)
    if length and (not to.days or to.slot is None or set_off or ":" in text):
        to.weeks = length
        return True
    policy = re.match(r"^progress(?:ion)?\s*:\s*(?P<rest>.+)$", text, re.I)
    if policy and to.slot is None and to.day is None:
        read = read_policy(policy["rest"])
        if read:
            to.policy = read
        else:
            to.notes.append(said)
        return True
    if (not to.days or _FOR_ALL.match(text)) and not _NOTE.match(text) and take_conventions(to.conventions, text):
        if to.days:
            to.notes.append(said)
        else:
            to.note(said)
        return True
    return False


def take_aims(to: Assembler, text: str, said: str) -> bool:
    """ "Week 1: get used to it; week 2+: beat it": what the coach wants of single weeks."""
    found = list(headings.WEEK_AIM.finditer(text))
    if not found or not re.fullmatch(
        r"(?:(?:aims?|plan|progression|progress|focus|goals?|how to progress)\s*[:-]?\s*)?",
        text[: found[0].start()].strip(),
        re.I,
    ):
        return False
    if not to.days:
        to.conventions.more_sets = more_sets_in(count_words_as_figures(text)) or to.conventions.more_sets
    for at, week in enumerate(found):
        end = found[at + 1].start() if at + 1 < len(found) else len(said)
        aim = said[week.end() : end].strip() if len(said) == len(text) else text[week.end() : end].strip()
        aim = aim.strip() if len(found) == 1 else aim.strip(" ;,|/")
        to.add_aim(int(week["low"]), int(week["high"]) if week["high"] else None, aim)
    return True
