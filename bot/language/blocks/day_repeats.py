"""Which day is to be like another, and what is different on it?

"Thursday as Monday", "Day 3: same as day 1", "Upper B = Upper A again"     -> the exercises of that day once more
"Thu same as Mon but B1 3x12, no plank and one set less"                    -> the same with these changes
"mon + thu the same"                                                        -> the other day, where only one of them is written out

A change that cannot be read is a mistake: the day would be published other than it was meant.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from copy import deepcopy
from dataclasses import replace

from bot.language.blocks.clauses import read_clauses
from bot.language.blocks.headings import letters_of
from bot.language.blocks.letters import count_words_as_figures
from bot.language.blocks.scan import Clauses
from bot.language.blocks.slot_draft import SetLine, SlotDraft
from bot.language.blocks.slots import with_number_of_sets
from bot.language.problems import Place
from bot.training.blocks import SetKind

SameExercise = Callable[[str, str], bool]
_LIKE = re.compile(
    r"[\s:=,(-]*\b(?:(?:is|will\s+be|exactly|just|do|a|an|the)\s+)*(?:(?:same|repeat(?:s|ed)?|copy|identical|again)\b(?:\s+(?:as|of|like|to|with|thing|session|workout|again))*|as|like)\s+(?:(?:on|for|the|in)\s+)*|\s+=\s+|\s+is\s+(?=(?:day|session|workout|mon|tue|wed|thu|fri|sat|sun)[^:]*\bagain\b)|\s*:\s*(?=(?:day|session|workout|mon|tue|wed|thu|fri|sat|sun)[^:]*\bagain\b)",
    re.I,
)
_BUT = re.compile(r"[\s,;:(-]*\b(?:but|except(?:\s+for)?|only|just|with|without|apart\s+from|minus|plus|no)\b", re.I)


def repeated_day(text: str) -> tuple[str, str, str] | None:
    """(the day, the day that it is like, what is different) of "Thursday as Monday but B1 3x12"; the day is "" for a line below it."""
    found = _LIKE.search(text) if len(text) <= 240 else None
    if not found or re.match(r'day\s*\d+\s*:\s*"', text, re.I):
        return None
    day, rest = text[: found.start()].strip(" :=-(,"), text[found.end() :]
    cut = _BUT.search(rest) or re.search(r"\s*[,;(.]\s*(?=\w)", rest)
    of, but = (rest[: cut.start()], rest[cut.start() :]) if cut else (rest, "")
    of = re.sub(r"(?:'s\b.*|\s+(?:again|session|workout|repeat(?:ed)?|please)\b.*)$", "", of.strip(" .)!:,"), flags=re.I).strip(
        " .)!:,"
    )
    return (day, of, but.strip(" ,;:.)(-")) if of else None


_PART = re.compile(
    r"^(?:the\s+|do\s+)*same\s+(?:(?P<which>first|opening|second|third|last|final)\s+)?(?:[\w-]+\s+)??(?:rounds?|circuit|super-?\s?set|tri-?\s?set|part|pair|group|finisher|complex|[a-h]\s+(?:block|group|exercises))(?:\s+\w+){0,2}?\s+(?:as|from|of)\s+(?:on\s+)?(?P<rest>\S.*)$",
    re.I,
)
_WHICH_PART = {"first": 0, "opening": 0, "second": 1, "third": 2, "last": -1, "final": -1}


def part_of_day(text: str) -> tuple[int, str, str] | None:
    """(which letter's exercises, counted from 0, -1 the last; the day; what is different) of "same first circuit as day 1 but ..."."""
    found = _PART.match(text)
    if not found:
        return None
    cut = _BUT.search(found["rest"]) or re.search(r"\s*[,;(.]\s*(?=\w)", found["rest"])
    of, but = (found["rest"][: cut.start()], found["rest"][cut.start() :]) if cut else (found["rest"], "")
    return _WHICH_PART.get((found["which"] or "first").lower(), 0), of.strip(" .)!:,"), but.strip(" ,;:.)(-")


_PIECES = re.compile(
    r"\s*[,;]\s*(?:and\s+|but\s+)?|\s+(?:and|but|plus)\s+(?=\d|(?:no|without|swap|one|two|an?|[a-h]\d|all|only)\b)",
    re.I,
)
_LESS = re.compile(
    r"^(?:(?:with|do|drop|take(?:\s+off)?|minus|cut)\s+)*(?:(?P<n>\d|an?)\s+)?(?:(?:sets?|rounds?)\s+(?P<word>less|fewer|more|extra|off)|(?P<word2>less|fewer|more|extra)\s+(?:sets?|rounds?)|(?:sets?|rounds?))(?:\s+(?:of|on|for|in|off|from)\s+(?:each|every|all|them)\s*\w*|\s+each|\s+everywhere|\s+per\s+exercise)?$",
    re.I,
)
_ALL_SETS = re.compile(
    r"^(?:(?:with|only|just|do|all|everything)\s+)*(?:for\s+|at\s+|in\s+)?(?P<n>\d{1,2})\s+(?:sets?|rounds?)(?:\s+(?:of|on|for|in)\s+(?:each|every\w*|all)\b.*|\s+each|\s+everywhere|\s+per\s+exercise|\s+instead.*)?$",
    re.I,
)
_GONE = re.compile(
    r"^(?:(?:with)?out|no|skip|leave\s+out|drop|minus|except(?:\s+for)?|apart\s+from)\s+(?:the\s+)?(?P<what>.+)$", re.I
)
_SWAP = re.compile(
    r"^(?:(?:with|but)\s+)?(?:(?:swap|replace|change|switch)\s+(?:the\s+)?(?P<old>.+?)\s+(?:for|with|to|by|into)\s+(?P<new>.+)|instead\s+of\s+(?:the\s+)?(?P<old3>.+?)[\s,]+(?:(?:do|use|take|have|try|go\s+for|it's)\s+)+(?P<new3>.+)|(?P<new2>.+?)\s+(?:instead\s+of|for)\s+(?:the\s+)?(?P<old2>.+))$",
    re.I,
)


def change_day(slots: list[SlotDraft], but: str, same: SameExercise, place: Place) -> list[str]:
    """Carry out what is said to be different; returns the pieces that could not be read."""
    words = re.sub(
        r"^(?:but|except(?!\s+for)|with|only|just)\s+(?:with\s+|do\s+|it's\s+)?", "", count_words_as_figures(but), flags=re.I
    )
    words = re.sub(r"\bone(?=\s+(?:more\s+|less\s+|fewer\s+|extra\s+)?(?:sets?|rounds?)\b)", "1", words, flags=re.I)
    unread: list[str] = []
    swapped: SlotDraft | None = None  # what a piece without a name of its own says more of
    for part in _PIECES.split(words):
        piece = re.sub(r"^inst\w*d\s+(?!of\b)", "", part).strip(" .")
        if not re.search(r"\w", piece) or (swapped is not None and _says_more(swapped, piece, place)):
            continue
        before = [slot.name for slot in slots]
        if not _change(slots, piece, same, place):
            unread.append(piece)
        renamed = [slot for slot, name in zip(slots, before, strict=False) if slot.name != name]
        swapped = renamed[0] if len(renamed) == 1 and len(before) == len(slots) else None
    return unread


def _says_more(slot: SlotDraft, piece: str, place: Place) -> bool:
    """ "2 sets of 10, holding the chair" behind "calf raises instead of the heel walk"."""
    clauses = read_clauses(piece, has_name=False)
    if not re.match(r"\d", piece) or not clauses.schemes or clauses.faults or not say_again(slot, clauses, place):
        return False
    slot.notes += [words for _, words in clauses.left]
    return True


_COUNTED = re.compile(r"^(?P<count>\d{1,3}(?:\s*-\s*\d{1,3})?)\s+(?P<name>[a-z].*)$", re.I)


def _change(slots: list[SlotDraft], piece: str, same: SameExercise, place: Place) -> bool:
    less, all_sets = _LESS.match(piece), _ALL_SETS.match(piece)
    if less and (less["word"] or less["word2"] or re.match(r"(?:drop|take|minus|cut)", piece, re.I)):
        word = (less["word"] or less["word2"] or "less").lower()
        by = int(less["n"]) if (less["n"] or "").isdigit() else 1
        return all(_count_anew(slot, more=by if word in ("more", "extra") else -by) for slot in slots)
    if all_sets:
        return all(_count_anew(slot, sets=int(all_sets["n"])) for slot in slots)
    gone = _GONE.match(piece)
    if gone and (slot := slot_named(slots, gone["what"], same)):
        slots.remove(slot)
        return True
    swap = _SWAP.match(piece)
    if swap and (slot := slot_named(slots, swap["old"] or swap["old2"] or swap["old3"], same)):
        return _exchange(slot, swap["new"] or swap["new2"] or swap["new3"], place)
    counted = _COUNTED.match(piece)
    if counted and (slot := slot_named(slots, counted["name"], same)):
        return say_again(slot, read_clauses(f"{counted['count']} reps", has_name=False), place)
    return _say_anew(slots, piece, same, place)


def slot_named(slots: list[SlotDraft], name: str, same: SameExercise) -> SlotDraft | None:
    """The slot that a label, a number of the list or an exercise's name means."""
    name = name.strip(" .:)")
    numbered = re.fullmatch(r"(?P<number>\d{1,2})\s?(?P<letter>[a-f])?", name, re.I)
    if numbered:
        letter = (numbered["letter"] or "a").lower()
        name = f"{letters_of(int(numbered['number']))}{ord(letter) - ord('a') + 1}"
    label = next((slot for slot in slots if slot.label.lower() in (name.lower(), f"{name.lower()}1")), None)
    return label or next((slot for slot in slots if same(slot.name, name)), None)


def _exchange(slot: SlotDraft, words: str, place: Place) -> bool:
    clauses = read_clauses(words, in_rounds=slot.has_sets)
    if not clauses.left:
        return False
    slot.name = re.sub(r"\s+(?:for|x|of|at)$", "", clauses.left[0][1], flags=re.I)
    slot.fields.pop("substitutes", None)
    return not (clauses.schemes or clauses.marks or clauses.fields) or say_again(slot, clauses, place)


def _say_anew(slots: list[SlotDraft], piece: str, same: SameExercise, place: Place) -> bool:
    """ "B1 3x12", "squats 5x5", "RIR 3": for the exercise that is named, else for all."""
    label = re.match(r"^(?P<label>[a-h]\d?|\d{1,2}\s?[a-f]|\d{1,2}(?=\)))(?![\w'])\s*[:.)=-]*\s*(?P<rest>.+)$", piece, re.I)
    slot = slot_named(slots, label["label"], same) if label else None
    clauses = read_clauses(label["rest"] if label and slot else piece, has_name=False)
    words = [
        words
        for _, words in clauses.left
        if not re.fullmatch(
            r"(?:on|for|is|are|at|with|go|goes|gets?|has|have|becomes?|now|to|all|everything|each|the|instead|reps?|\s)+",
            words,
            re.I,
        )
    ]
    if slot is None and words:
        slot = slot_named(slots, re.sub(r"\s+(?:for|to|at|go|goes|are|is|with)$", "", words[0], flags=re.I), same)
        words = words[1:] if slot else words
    says = clauses.schemes or clauses.marks or clauses.fields
    if words or not says or clauses.faults:
        return False
    done = [say_again(one, clauses, place) for one in ([slot] if slot else slots)]
    return all(done)


def say_again(slot: SlotDraft, clauses: Clauses, place: Place) -> bool:
    """Put new sets or wishes in the place of those that a slot has."""
    fields = {part.field for part in clauses.marks}
    counts = clauses.schemes[0].counts if clauses.schemes else None
    whole = any(scheme.sets is not None for scheme in clauses.schemes)
    kept: list[tuple[Clauses, Place] | SetLine] = []
    for part in slot.said:
        if isinstance(part, SetLine):
            if counts is not None:
                return False
            kept.append(part)
            continue
        said, at = part
        schemes = (
            []
            if whole
            else [replace(scheme, counts=counts) if counts and scheme.kind is SetKind.WORK else scheme for scheme in said.schemes]
        )
        kept.append((replace(said, schemes=schemes, marks=[mark for mark in said.marks if mark.field not in fields]), at))
    slot.said = kept
    if counts is not None:
        slot.weeks, slot.grows = {}, None
    slot.add(clauses if whole else replace(clauses, schemes=[]), place)
    sets = clauses.fields.get("set_count")
    return sets is None or _count_anew(slot, sets=sets[0])


def _count_anew(slot: SlotDraft, *, sets: int | None = None, more: int = 0) -> bool:
    """Another number of sets; False where the slot's sets stand line by line."""
    if any(isinstance(part, SetLine) for part in slot.said) or slot.weeks:
        return False
    if slot.rounds is not None:
        slot.rounds = max(1, sets if sets is not None else slot.rounds + more)
    if "set_count" in slot.fields:
        before = slot.fields["set_count"][0]
        slot.fields["set_count"] = (max(1, sets if sets is not None else before + more), None, slot.fields["set_count"][2])
    for at, part in enumerate(slot.said):
        assert not isinstance(part, SetLine)
        clauses, place = part
        schemes = [
            with_number_of_sets(scheme, max(1, sets if sets is not None else (scheme.sets or len(scheme.counts)) + more))
            if scheme.sets is not None or len(scheme.counts) > 1
            else scheme
            for scheme in clauses.schemes
        ]
        slot.said[at] = (replace(clauses, schemes=schemes), place)
    return True


def copies_of(slots: list[SlotDraft]) -> list[SlotDraft]:
    """The exercises of a day for another; what was wrong with them is said once."""
    copies = deepcopy(slots)
    for copy in copies:
        copy.problems, copy.is_copy = [], True
    return copies
