"""Does the text put a set right that is on record? "last one was 11", "that was 18 not 20", "set 2 was 22.5", "*11", "I meant 11"."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from math import log

from bot.language.reading.days import date_of
from bot.language.reading.drafts import load_of
from bot.language.reading.explain import say_record
from bot.language.reading.placing import is_surprising, same_numbers
from bot.language.reading.setting import Setting, setting_for
from bot.language.reading.terms import Term, terms_of
from bot.language.reading.words import SET_NUMBERS, SHADES
from bot.language.readings import CorrectionHeard, Heard, Option, Question, RepeatHeard
from bot.language.situation import Situation
from bot.language.tokens import tokens_of
from bot.training.blocks import SetKind
from bot.training.exercises.catalogue import Catalogue
from bot.training.records import SetDone, SetRecord, Source

_SOFT = r"(?:(?:now|scusa|scusate|oh goodness|goodness|gosh|errado|falsch|fout|fel|feil|pardon|oh dear|apologies|apology|my apologies|bloody autocorrect|autocorrect|stupid phone|fat fingers?|fat thumbs?|for the record|shit|fuck|bollocks|crap|kindly|please|pls|oeps|ups|pardon|perdon|desculpa|disculpa|perdona|sorry about that|ok|oh|oops|whoops|sorry|nah|naw|no|nope|wait|actually|hey|ah|argh|ugh|hmm|um|nah|naw|yo|bruh|bro|lol|haha|mate|hang on|hold on|hold up|my bad|correction|edit|sry|soz|damn|hi|coach|just|my|mistake|typo|fix|so|and|also|i think|but)[\s,.:!-]*)*"
_WAS = r"(?:was(?:n'?t)?|were|war|waren|était|etait|era|foi|is|should(?:'?ve| have)? (?:been|be|say|read)\b|shld be|needs to be|ought to be|must be|had been|=|wuz|wasd)"
_ACTUALLY = r"(?:\s*(?:nur|seulement|solo|só|actually|only|really|just|meant to be|supposed to be|in fact|more like|at|with|a|an|for|to|also|done with|with the|the))*"
_WHICH = r"(?:that (?!last|one|set|was|is)[a-z]{3,12}|that|it|this|those|these|they|that one|that set|the last one|last one|last|last set|the last set|my last set|the last|my last one|my last|previous|previous one|previous set|the previous one|the one before|that last one|that last set|the weight|weight|the load|load|(?:the |my )?(?:bag|backpack|rucksack|pack|kettlebell|kb|bell|dumbbells?|dbs?|bar|vest|sandbag)|reps|the reps|it actually|the kg)"
_SLOT = r"(?:the )?(?:(?P<label>[a-z]{1,2}\s?\d{1,2})[\s,:]*)?(?:(?:set|s|satz)\s*(?P<number>\d{1,2}|one|two|three|four|five|first|second|third|fourth|1st|2nd|3rd|4th)|(?P<ordinal>first|second|third|fourth|1st|2nd|3rd|4th|5th)(?: set| one| [a-z]{3,12}(?= was| were| should| is))?)(?:\s+(?:(?:of|on|for|in)\s+)?(?:the\s+)?(?P<label2>[a-z]{1,2}\s?\d{1,2}))?"
_OF_SLOT = r"(?:(?:to|for|on|of|in)\s+)?(?:the |my )?"
_SHADES = f"(?:{SHADES})"
_SHADE = re.compile(
    rf"{_SOFT}(?:it was |that was |(?:(?:that|the|my) )?(?:band|elastic|tube|loop) was |with |on |the )*(?P<value>{_SHADES}(?: band| one)?)[\s,]+(?:and )?(?:not|instead of|rather than)\s+(?:the )?(?P<shade>{_SHADES})(?: band| one)?(?P<both>[\s,]+(?:on |for )?(?:both|all|each|every) (?:times|sets|time|set))?"
)
_PATTERNS = (
    re.compile(rf"{_SOFT}{_SLOT}\s+(?:actually\s+)?{_WAS}{_ACTUALLY}\s*(?P<value>.+)"),
    re.compile(rf"(?:[a-z]{{2,7}} )?{_SOFT}(?:(?:the|that|this|last|latest|final|my|those) )*(?P<label>[a-z]\d{{1,2}})(?: (?:one|set))?\s+(?:actually\s+)?(?:was|were|should be|should have been){_ACTUALLY}\s*(?P<value>.+)"),
    re.compile(rf"{_SOFT}(?:change|make|edit|fix|update|correct|set|amend|adjust)\s+{_SLOT}\s*(?:to|=|into|as|was)\s*(?P<value>.+)"),
    re.compile(rf"(?:{_SOFT}(?:change|fix|edit|update|amend|adjust|correct|correction|typo)[\s:]+){_OF_SLOT}{_SLOT}\s*(?:set\s*)?[:,-]\s*(?P<value>\d.+)"),
    re.compile(rf"{_SOFT}(?:the |my )?(?P<value>(?:left|right)(?: side| leg| arm| hand| one)?\s+(?:actually\s+)?{_WAS}{_ACTUALLY}\s*\d.*)"),
    re.compile(rf"{_SOFT}(?P<every>all|both|every one|each)(?: of)?(?: (?:them|those|the|my|my last|three|four|five|two|[2-5]|(?P<label3>[a-z]\d)))*(?: [a-z]{{4,12}})?(?: (?:sets?|ones?|of them))?\s+(?:actually\s+)?{_WAS}{_ACTUALLY}\s*(?P<value>.+)"),
    re.compile(rf"{_SOFT}(?P<which>{_WHICH})\s+(?:actually\s+)?{_WAS}{_ACTUALLY}\s*(?P<value>.+)"),
    re.compile(rf"{_SOFT}(?:change|make|edit|fix|update|correct|amend|adjust|call)\s+(?P<which2>{_WHICH})\s*(?:to|=|into|as|be|a)?\s*(?P<value>.+)"),
    re.compile(rf"{_SOFT}(?:i )?(?:meant|mean|ment|said|should say|should read|should be|should've been|should have been|shouldve been|make that|make it|call it|read)(?: to (?:say|type|write|put|send))?{_ACTUALLY}\s*(?P<value>.+)"),
    re.compile(rf"{_SOFT}(?:the |my )?(?P<wrong>\d[\d.,]*)\s*(?:kg|lbs?|reps?|kilos?|s)?\s+(?:was|were|is|should be|should have been){_ACTUALLY}\s*(?P<value>\d.*)"),
    re.compile(r"(?P<label>[a-z]\d)[./](?P<number>\d)\s*[:=]?\s*(?P<wrong>\d[\d.,]*)\s*-?>\s*(?P<value>\d.*)"),
    re.compile(r"s/(?P<wrong>\d[\d.,]*)/(?P<value>\d[\d.,]*)/?"),
    re.compile(r"\s*\*\s*(?P<value>\d.*)"),
    re.compile(r"(?P<value>\d[^*]*)\s*\*\s*"),
    re.compile(r"(?:(?:scusa|errado|falsch|fout|feil|oeps|ups|pardon|perdon|desculpa|disculpa|perdona|oops|whoops|sorry|nah|naw|no|nope|wait|actually|correction|typo|wrong|my bad|edit|sry|hang on|hold on|argh|mistake|ah|oh|fix|scratch that|strike that|my mistake|my error|wrong (?:weight|load|number|reps|one))[\s,.:!-]+)+(?:it'?s |its |that'?s |thats |it was |i got |i did |got |did |was |meant |i meant |should be |make it |make that )?(?P<value>(?:\d|left|right|l\d|r\d).*)"),
    re.compile(r"(?P<value>\d[\d.,]*\s*(?:kg|kgs|lbs?|reps?|kilos?|pounds?|seconds?|secs?|s)?)[\s,]+(?:sorry|i mean|i meant|actually|my bad|correction|rather|\(typo\)|typo)[\s.!]*"),
    re.compile(rf"{_SOFT}(?:i )?(?:used|had|did|got|took|was on|was using|had on)\s+(?:the )?(?P<value>\d[^,]*?)(?: on)?[\s,]+(?:not|instead of|rather than)\s+(?:the )?(?P<wrong>\d+(?:[.,]\d+)?)\s*[a-z']*"),
    re.compile(rf"{_SOFT}(?:(?:the|my) )?(?:last|latest)(?: one| set)?[\s:,]+(?P<value>\d[\d.,]*\s*(?:kg|kgs|lbs?|reps?|kilos?|pounds?)?[\s,]+(?:not|instead of)\s+\d.*)"),
    re.compile(rf"{_SOFT}(?P<value>\d[\d.,]*\s*(?:kg|kgs|lbs?|reps?|kilos?|pounds?)?[\s,]+(?:sorry[\s,]+)?(?:not|pas|nie|nicht|niet|non|não|instead of|rather than)\s+\d.*)"),
    re.compile(r"not\s+(?P<wrong>\d[\d.,]*)\s*(?:kg|kgs|lbs?|reps?|kilos?|pounds?)?[\s,]*(?:but|it was|was|its|it's|,|rather|more like|-)?\s*(?P<value>\d.*)"),
)  # fmt: skip
_PUT = re.compile(
    r"(?:sorry[\s,]*|oops[\s,]*|i think )*(?:i )?(?:put|said|wrote|typed|logged|sent|entered|told you)\s+(?:the )?(?P<wrong>\d+(?:[.,]\d+)?)\s*(?:kg|lbs?|reps?|s)?(?:\s+(?:for|on|in)\s+[\w -]+?)?[\s,]*"
    r"(?:but|and|instead of|it should|should|when|meant|,)[\s,]*(?:it|i|that|actually|really|should|have|been|be|was|were|did|got|had|used|using|holding|meant|to|say|a|an|the|is|,|\s)*\s*(?P<value>\d.*)"
)
_NOT = re.compile(
    r"[\s,(]*\b(?:not|pas|nie|nicht|niet|non|não|instead of|rather than|and not|isntead of)\b\s*(?:the |a |on )?(?P<wrong>\d+(?:[.,]\d+)?)[^\d]*$"
)
_WRONG_FIRST = re.compile(r"^\s*(?P<wrong>\d+(?:[.,]\d+)?)\s*(?:kg|lbs?|reps?)?\s*(?:to|->|=>|→)\s*(?=\d)")
_SORRY = re.compile(r"\b(?:so+r+y+|sorri|srry|soz+|sowwy)\b")
_AFTERWORD = re.compile(
    r"(?<=\d)(?:[.!]+\s+|\s*(?=\())(?!.*\b(?:left|right|then)\b)[^\d]+$"
)  # "row was 125. can't count plates today"
_OF_A_SET = re.compile(r"\b(?:set|first|second|third|fourth)\b")
_NOW = re.compile(r"^(?:now|and now|but|right now)[\s,]+(?=hold|that|wait|no\b|the|it)")
_AIMED = re.compile(r"(?:i )?(?:meant|mean|wanted) to (?:do|get|hit|be)\b")
_IT_WAS = re.compile(
    r"(?:[a-z]\d\b|(?:bar|weight|load|bag|bell|kettlebell|band) (?=was|is|should)|it|that|this|those|the \w+|i meant|should|was|set \d)\b"
)
_DENIES = re.compile(
    r"\b(?:miscounted|mistyped|misread|counted wrong|lost count|error|oh dear|nah|naw|no|nope|sorry|oops|oeps|ups|whoops|wait|actually|wrong|mistake|typo|capped|lied|swap|swapped|my (?:last )?(?:message|text|entry)|fix|correct|correction|hang on|hold on|my bad)\b"
)
# Without one of these no text is a correction; most sets stop here.
_HINT = re.compile(
    r"[*>/]|\b(?:was|wasn|were|is|should|shoulda|shld|needs|ought|must|had|wuz|wasd|change|make|edit|fix|update|correct|set|amend|adjust|call|"
    r"used|had|scratch|strike|mistake|apologies|autocorrect|phone|fingers|thumbs|error|miscounted|mistyped|misread|scusa|errado|falsch|fout|non|não|meant|mean|ment|said|read|not|pas|nie|nicht|niet|non|não|instead|rather|put|wrote|typed|logged|sent|entered|oops|oeps|ups|pardon|perdon|desculpa|disculpa|perdona|whoops|sorry|"
    r"nah|naw|no|nope|wait|actually|correction|typo|wrong|bad|sry|hang|hold|argh|mistake|ah|oh)\b|="
)
_BREAKS_OFF = re.compile(r"\b(?:hurt|pain|then|next|now|but)\b|[;?\n]|\d\s*,\s*\d+\s*,")
_LOADISH = frozenset(["the weight", "weight", "the load", "load", "the kg"])
_THING = re.compile(r"(?:the |my )?(?:bag|backpack|rucksack|pack|kettlebell|kb|bell|dumbbells?|dbs?|bar|vest|sandbag)")
_STORY = re.compile(r"[a-z]{3,}[^a-z]*[,.;]|\b(?:got|did|managed|made)\b")
_ONES = frozenset(
    ("last one", "the last one", "last", "last set", "the last set", "my last set", "that one", "that set", "my last one")
)
_COUNTISH = frozenset(("reps", "the reps"))

_LONGEST = 120
Found = tuple[tuple[Heard, ...], float, Question | None]


def correction(folded: str, situation: Situation, catalogue: Catalogue) -> Found | None:
    """The correction that a whole text says; None if it says none."""
    if not situation.today or not _HINT.search(folded):
        return None
    text = _NOW.sub("", _with_digits(folded).strip(" .!\n"))
    text = _AFTERWORD.sub("", _SORRY.sub("sorry", text))
    put = _PUT.fullmatch(text) if situation.today and len(text) <= 120 else None
    if put:
        return _corrected(put, situation, catalogue, plain=False)
    some = _SOME_SET.match(text)
    if some:
        return _one_of_them(some["value"], situation, catalogue)
    if len(text) > 90 or not any(letter.isdigit() or letter.isalpha() for letter in text) or _BREAKS_OFF.search(text):
        return None
    if not situation.today:
        return None
    shade = _SHADE.fullmatch(text)
    if shade:
        return _corrected(shade, situation, catalogue, plain=False)
    for pattern in _PATTERNS:
        found = pattern.fullmatch(text)
        if found and not _AIMED.match(text):
            return _corrected(found, situation, catalogue, plain=pattern is _PATTERNS[2])
    for comma in re.finditer("[,.:]", text):
        lead, rest = text[: comma.start()], text[comma.end() :].strip()
        if any(letter.isdigit() for letter in lead) or _OF_A_SET.search(lead):
            break
        if rest and _DENIES.search(lead) and (_IT_WAS.match(rest) or _NOT.search(rest)):
            return correction(rest, situation, catalogue)  # "nah i capped, it was 19"; "error: 85, not 82.5"
    return None


_DAY_TOLD = re.compile(
    r"\b(?:on |from |for |in |of )?(?:the )?(?P<when>yesterday|yday|last (?:night|nite)|(?:last )?(?:monday|tuesday|wednesday|thursday|friday|saturday|sunday|mon|tues?|weds?|thurs?|fri|sat|sun)|"
    r"day before yesterday|(?:two|2|three|3) days ago)(?:'?s)?\b(?:\s+(?:session|workout|training))?"
)


def told_of_earlier(folded: str, situation: Situation) -> tuple[str, Situation] | None:
    """The text without the earlier day that it names, and that day's situation; None where nothing of it is on record."""
    if len(folded) > _LONGEST or not _HINT.search(folded):
        return None
    found = _DAY_TOLD.search(folded)
    if found is None:
        return None
    on = date_of(found["when"], situation.now.date())
    records = {r.place: r for r in (*situation.earlier, *situation.last_time) if r.on == on and r.place is not None}
    day = next((r.day for r in records.values() if r.day is not None), None)
    there = situation.block.day(day) if situation.block is not None and day is not None else situation.day
    if not records or there is None:
        return None
    rest = " ".join((folded[: found.start()] + folded[found.end() :]).split()).strip(" ,:-")
    then = replace(
        situation, day=there, today=tuple(records.values()), last_time=(), due_override=None, swaps=(), skipped=(), session_on=on
    )
    return rest, then


def with_its_like(found: Found | None, rest: str, there: Situation) -> Found | None:
    """Where one load of an exercise is corrected and no set is named, the other sets with that load are meant as well."""
    if found is None or len(found[0]) != 1 or not isinstance(found[0][0], CorrectionHeard) or re.search(r"\bset\b|\bone\b", rest):
        return found
    old, new = found[0][0].old, found[0][0].new
    if old.done.load == new.done.load or old.place is None:
        return found
    alike = [
        r for r in there.today if r is not old and r.place and r.place.label == old.place.label and r.done.load == old.done.load
    ]
    more = [CorrectionHeard(r, replace(r, done=replace(r.done, load=new.done.load, load_source=Source.SAID))) for r in alike]
    return ((*more, found[0][0]), found[1], found[2])


def _with_digits(folded: str) -> str:
    """The text with its number words as digits: "i said seven not eleven"."""
    words = [token for token in tokens_of(folded) if token.kind == "n" and token.text.isalpha()]
    for token in reversed(words):
        folded = f"{folded[: token.start]}{token.value}{'s' if token.plural else ''}{folded[token.end :]}"
    return folded


def _corrected(found: re.Match[str], situation: Situation, catalogue: Catalogue, *, plain: bool) -> Found | None:
    groups = found.groupdict()
    groups["value"] = re.split(
        r"(?: as well| too)?,\s*(?=i\b|my\b|sorry|miscount|not sure|(?:the )?(?:other|rest)\b)|\s+as well\b", groups["value"]
    )[0]
    value, wrong = groups["value"], groups.get("wrong")
    denied = _NOT.search(value)
    if denied:
        wrong, value = denied["wrong"], value[: denied.start()]
    changed = _WRONG_FIRST.match(value)
    if changed:
        wrong, value = changed["wrong"], value[changed.end() :]
    which = groups.get("which") or groups.get("which2") or ""
    if groups.get("every"):
        return _every_one(value, groups.get("label3") or "", situation, catalogue)
    old = _meant(groups, situation, Decimal(wrong.replace(",", ".")) if wrong else None)
    if old is None or old.place is None:
        return None
    slot = situation.slot(old.place.label)
    setting = setting_for(situation, catalogue, slot)
    clause = terms_of(tokens_of(value), frozenset(), [], sided=setting.sided, bands=situation.kit.bands)
    first = next((term for term in clause.terms if term.kind in "nbcB0"), None)
    if first is not None and _STORY.search(value[: first.start]):
        return None  # "that was brutal, got 9": how it was, and then the next set
    if len(clause.unknown) > 1 or (first is not None and any(token.start < first.start for token in clause.unknown)):
        return None
    points = which in _POINTS or (
        SET_NUMBERS.get(groups.get("number") or groups.get("ordinal") or "") == 1
        and not (groups.get("label") or groups.get("label2"))
    )
    if points and not denied and wrong is None and _whole_set(clause.terms) and _begins_another(old, situation):
        return None  # "that was 18 pounds for 10", "first set was 60 for 9", told of the first set of the next exercise
    if points and not denied and wrong is None and _another_set(clause.terms, old, situation):
        return None  # "that was 235 for 5" after 225 for 6: the next set
    news = _changed(old, clause.terms, setting, situation, Decimal(wrong.replace(",", ".")) if wrong else None, which)
    if not news:
        return None
    if len(news) == 1 and same_numbers(news[0][0].done, old.done) and _same_marks(news[0][0].done, old.done):
        return (RepeatHeard(),), 0.9, None
    surprising = "" if denied and len(news) == 1 else is_surprising(news[0][0], setting)
    if len(news) > 1 or surprising:
        options = tuple(Option(f"change {say_record(new)}"[:60], (CorrectionHeard(old, new),), share) for new, share in news)
        return (), news[0][1], Question("surprise" if surprising else "correct_what", found.group()[:80], options)
    found_one: Found = ((CorrectionHeard(old, news[0][0]),), 0.95, None)
    return with_its_like(found_one, "", situation) if groups.get("both") else found_one


_SOME_SET = re.compile(
    r"(?:[a-z]{2,8}[\s,]+){0,2}?(?:one|some|any) of (?:the|my|those|these) (?:sets?|ones|them)\b[^\d]*?(?:was|were|is|should|shd)[^\d]*(?P<value>\d.*)"
)


def _one_of_them(value: str, situation: Situation, catalogue: Catalogue) -> Found | None:
    """ "one of the sets was wrong, it should be 11": which of them is asked about."""
    options: list[Option] = []
    for old in [record for record in situation.today if record.place][-4:]:
        assert old.place is not None
        setting = setting_for(situation, catalogue, situation.slot(old.place.label))
        clause = terms_of(tokens_of(value), frozenset(), [], sided=setting.sided, bands=situation.kit.bands)
        news = _changed(old, clause.terms, setting, situation, None, "")
        if news and not same_numbers(news[0][0].done, old.done):
            options.append(Option(f"change {say_record(news[0][0])}"[:60], (CorrectionHeard(old, news[0][0]),), 0.3))
    return ((), 0.3, Question("correct_what", value[:80], tuple(options))) if options else None


def _every_one(value: str, label: str, situation: Situation, catalogue: Catalogue) -> Found | None:
    """ "all three were 102.5": each set of the slot, the one last recorded where none is named."""
    denied = _NOT.search(value)
    value = value[: denied.start()] if denied else value
    records = [record for record in situation.today if record.place and record.done.kind is not SetKind.WARM_UP]
    slot = label.upper() or (records[-1].place.label if records and records[-1].place else "")
    heard: list[Heard] = []
    for old in (record for record in records if record.place and record.place.label == slot):
        setting = setting_for(situation, catalogue, situation.slot(slot))
        clause = terms_of(tokens_of(value), frozenset(), [], sided=setting.sided, bands=situation.kit.bands)
        news = _changed(old, clause.terms, setting, situation, None, "") if len(clause.unknown) <= 1 else []
        if len(news) != 1 or is_surprising(news[0][0], setting):
            return None
        if not same_numbers(news[0][0].done, old.done):
            heard.append(CorrectionHeard(old, news[0][0]))
    return (tuple(heard), 0.93, None) if heard else None


_POINTS = frozenset(("that", "it", "this"))


def _whole_set(terms: list[Term]) -> bool:
    numbers = [term for term in terms if term.kind == "n" and term.role not in ("rpe", "rir")]
    return len(numbers) > 1 and any(term.role == "load" or term.plural for term in numbers)


def _another_set(terms: list[Term], old: SetRecord, situation: Situation) -> bool:
    """Two numbers neither of which is the old set's, while more sets are left to do of the exercise."""
    numbers = [term for term in terms if term.kind == "n" and term.role not in ("rpe", "rir")]
    due = situation.due
    left = due is not None and old.place is not None and due.label == old.place.label
    return len(numbers) == 2 and left and not any(term.number in _values(old.done) for term in numbers)


def _begins_another(old: SetRecord, situation: Situation) -> bool:
    """Is the first set of another exercise due?"""
    due = situation.due
    return due is not None and old.place is not None and due.label != old.place.label and due.number == 1


def _same_marks(one: SetDone, other: SetDone) -> bool:
    return (one.rpe, one.rir, one.failure, one.partials) == (other.rpe, other.rir, other.failure, other.partials)


def _meant(groups: dict[str, str | None], situation: Situation, wrong: Decimal | None) -> SetRecord | None:
    """The record that the words point to: by slot and number, else by the number that was wrong, else the last one."""
    label = (groups.get("label") or groups.get("label2") or "").replace(" ", "").upper()
    said = groups.get("number") or groups.get("ordinal")
    records = [record for record in situation.today if record.place]
    if not records:
        return None
    if said:
        number = int(said) if said.isdecimal() else SET_NUMBERS.get(said, 0)
        last = records[-1].place
        if not label and wrong is not None:
            return next((r for r in reversed(records) if r.place and r.place.number == number and wrong in _values(r.done)), None)
        slot = label or (last.label if last else "")
        return next((r for r in reversed(records) if r.place and r.place.label == slot and r.place.number == number), None)
    if groups.get("shade"):
        return next((r for r in reversed(records) if r.done.load and groups["shade"] in r.done.load.bands), None)
    if label:
        here = [record for record in records if record.place and record.place.label == label]
        due = situation.due
        if not here or (wrong is None and due is not None and due.label == label):
            return None
        return here[-1]
    if wrong is not None:
        for record in reversed(records[-6:]):
            if wrong in _values(record.done):
                return record
    return records[-1]


def _values(done: SetDone) -> list[Decimal]:
    counts = [Decimal(count) for count in (done.count, done.left, done.right) if count is not None]
    return (
        counts
        + ([done.load.amount] if done.load and done.load.amount is not None else [])
        + [n for n in (done.rpe, done.rir) if n is not None]
    )


def _changed(
    old: SetRecord, terms: list[Term], setting: Setting, situation: Situation, wrong: Decimal | None, which: str
) -> list[tuple[SetRecord, float]]:
    """The record as it should be, the likeliest first; more than one where load and count are both possible."""
    done = old.done
    numbers = [term for term in terms if term.kind == "n"]
    if len(numbers) > 1 and numbers[0].value == 2 and (numbers[1].role == "load" or numbers[1].plural):
        numbers = numbers[1:]  # "it was with two 14 kg dumbbells"
        numbers[0].role = "load"
    marks = [term for term in terms if term.kind != "n"]
    bands = load_of(None, marks, setting, situation.unit)[0] if not numbers else None
    if bands is not None:
        return [(replace(old, done=replace(done, load=bands, load_source=Source.SAID)), 1.0)]
    if not numbers or len(numbers) > 3:
        return []
    changed = done
    open_numbers: list[Term] = []
    for term in numbers:
        if term.role == "rpe":
            changed = replace(changed, rpe=term.number)
        elif term.role == "rir":
            changed = replace(changed, rir=term.number)
        elif term.side:
            changed = _side(changed, term)
        elif term.role == "load" or which in _LOADISH or _THING.fullmatch(which):
            load, _ = load_of(
                term,
                marks,
                setting,
                (done.load.unit if done.load and done.load.unit and not term.unit else None) or situation.unit,
            )
            changed = replace(changed, load=load, load_source=Source.SAID)
        elif term.role == "count" or which in _COUNTISH:
            changed = replace(changed, count=int(term.number), left=None, right=None, about=term.about)
        else:
            open_numbers.append(term)
    if not open_numbers:
        return [(replace(old, done=changed), 1.0)]
    if len(open_numbers) == 2:
        return _both(old, changed, open_numbers, setting, situation)
    if len(open_numbers) > 2:
        return []
    return _one(old, changed, open_numbers[0], setting, situation, wrong, which)


def _side(done: SetDone, term: Term) -> SetDone:
    left = done.left if done.left is not None else done.count
    right = done.right if done.right is not None else done.count
    if term.side == "L":
        left = int(term.number)
    else:
        right = int(term.number)
    if left == right:
        return replace(done, count=left, left=None, right=None)
    return replace(done, count=None, left=left, right=right)


def _both(
    old: SetRecord, done: SetDone, numbers: list[Term], setting: Setting, situation: Situation
) -> list[tuple[SetRecord, float]]:
    first, second = numbers
    count = done.worst_count or 1
    amount = done.load.amount if done.load and done.load.amount else None
    swapped = amount is not None and abs(log(float(second.number or 1) / float(amount))) + abs(
        log(float(first.number or 1) / count)
    ) < abs(log(float(first.number or 1) / float(amount))) + abs(log(float(second.number or 1) / max(count, 1)))
    load_term, count_term = (second, first) if swapped else (first, second)
    if count_term.number != count_term.number.to_integral_value():
        return []
    load, _ = load_of(load_term, [], setting, (done.load.unit if done.load else None) or situation.unit)
    return [
        (
            replace(
                old, done=replace(done, load=load, load_source=Source.SAID, count=int(count_term.number), left=None, right=None)
            ),
            1.0,
        )
    ]


def _one(
    old: SetRecord, done: SetDone, term: Term, setting: Setting, situation: Situation, wrong: Decimal | None, which: str
) -> list[tuple[SetRecord, float]]:
    """One number: the load or the count that it replaces, by what it is nearest to."""
    value = term.number
    amount = done.load.amount if done.load and done.load.amount is not None else None
    counts = [Decimal(count) for count in (done.count, done.left, done.right) if count is not None]
    load, _ = load_of(term, [], setting, (done.load.unit if done.load and done.load.unit else None) or situation.unit)
    as_load = replace(old, done=replace(done, load=load, load_source=Source.SAID))
    whole = value == value.to_integral_value()
    as_count = (
        replace(old, done=replace(done, count=int(value), left=None, right=None, about=term.about, bouts=())) if whole else None
    )
    if done.count is None and whole and (done.left is not None or done.right is not None):
        as_count = replace(old, done=replace(done, count=int(value), left=None, right=None))
    if wrong is not None and (wrong == amount) != (wrong in counts):
        return [(as_load, 1.0)] if wrong == amount else [(as_count, 1.0)] if as_count else []
    if as_count is None or term.plural:
        return [(as_load, 1.0)]
    if amount is None or (not setting.needs_load and done.load is not None and done.load.kg is None):
        return [(as_count, 1.0)]
    from_load = abs(log(float(value or 1) / float(amount)))
    from_count = min((abs(log(float(value or 1) / max(float(count), 1))) for count in counts), default=9.0)
    ladder_fits = setting.ladder is None or setting.ladder.has(value, (done.load.unit if done.load else None) or situation.unit)
    if value == amount and value not in counts:
        return [(as_count, 1.0)] if from_count < 0.4 else [(as_count, 0.5), (old, 0.4)]
    if value in counts:
        return [(as_load, 0.5), (as_count, 0.5)] if from_load < 0.35 and ladder_fits else [(as_count, 1.0)]
    if from_count < 0.45 and (from_load > 0.5 or not ladder_fits or from_count * 2 < from_load):
        return [(as_count, 1.0)]
    if from_load < 0.45 and ladder_fits and (from_count > 0.5 or from_load * 2 < from_count):
        return [(as_load, 1.0)]
    if (
        from_count <= from_load
        and setting.ladder is None
        and (which in _ONES or wrong is not None)
        and amount == amount.to_integral_value()
        and value % 2
    ):
        return [(as_count, 1.0)]  # "last one was 11" after 12 kg x 12: dumbbells of 11 kg are rare, sets of 11 are not
    if from_count <= from_load:
        return [(as_count, 0.6), (as_load, 0.4)]
    return [(as_load, 0.6), (as_count, 0.4)]
