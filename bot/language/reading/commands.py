"""Is the text one of the short things said about the record itself: take back, put back, sent twice, done, skip, going on elsewhere?"""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal

from bot.language.reading.numbers import NUMBER_WORDS
from bot.language.reading.ranking import fit_count
from bot.language.reading.setting import Setting
from bot.language.reading.words import SET_NUMBERS
from bot.language.readings import FinishHeard, Heard, PointHeard, RepeatHeard, SkipHeard, UndoHeard
from bot.language.situation import Situation
from bot.training.blocks import SetPlace, Slot, order_of

_LEAD = r"(?:(?:nah|naw|nope|ne|nee|nein|non|doch|bitte|bas|basta|bruh|bro|yaar|lol|ugh|pfff?|sry|net issue|ok|okay|oh|oops|ah|sorry|no|wait|actually|hey|coach|please|pls|plz|um|hmm|and|so|well|can you|could you|just|that'?s|right|yes|yeah|shit|damn|argh|whoops|my bad|nvm|alright|phew)[\s,.!:]*)*"
_TAIL = r"(?:[\s,.!]*(?:yaar|fam|hun|honey|luv|dear|man|dude|lads|love|x+|bye|sorry|(?:i )?can'?t do (?:any )?more|no more|knackered|dead|please|pls|plz|thanks|thx|ty|sorry|lol|haha|coach|now|ignore|once again|out again|again|then|my bad|mate|bro|cheers|folks|everyone|guys|team|all|buddy|(?:the )?(?:baby|kid|kids)(?:'?s| is| are)? (?:up|awake|crying|home)|dinner'?s ready|phone died))*[\s.!]*"
_IT = r"(?:that last (?:entry|message|text|bit)|that|it|this|the last (?:one|set|entry|message|msg|text|bit)?|last(?: one| set| entry| message| msg| text| bit)?|my last(?: one| set| entry| message| msg| text)?|the last|previous(?: one| set)?|that one|that last one|that last set|the previous(?: one| set)?|that set|this set|those|them)"
_UNDO = re.compile(
    rf"{_LEAD}(?:undo(?: {_IT})?|(?:scrap|nix|scratch|delete|remove|cancel|erase|ignore|disregard|strike|forget|wipe|drop|clear|(?:i )?take back|get rid of|bin|trash|void|revert|reverse|unlog|don'?t (?:count|log|save)|rollback|roll back) {_IT}|(?:ne |nee |doch |bitte )*(?:mach (?:das|es) (?:bitte )?(?:wieder )?(?:weg|rückgängig)|lösch(?:e|en)? (?:das|es)|annuler?(?: ça)?|efface ça|borra (?:eso|lo|esto)|apaga isso|slett (?:det|den)|ta bort (?:det|den)|verwijder (?:dat|die)|usuń to|cancella)|"
    rf"take {_IT} (?:back|off|out)|(?:wrong|mistake|misclick|typo|didn'?t mean(?: to)?(?: send)?(?: that)?|wrong (?:chat|person|number|one|entry|button|message)|sent by (?:mistake|accident)|sent (?:that )?by (?:mistake|accident)|by mistake)(?:[,. ]+(?:undo|delete|remove|ignore)(?: {_IT})?)|never ?mind(?: {_IT})?|that was (?:a mistake|wrong|an error|a typo)[,. ]+(?:please )?(?:undo|delete|remove|ignore)(?: {_IT})?|that (?:wasn'?t|was not) (?:me|real|a set|mine)|go back one|that didn'?t (?:count|happen)|that shouldn'?t count){_TAIL}"
)
# "delete the last set please, it came out wrong": the deed and what it is done to, whatever is said around them.
_UNDO_INSIDE = re.compile(
    r"(?:^|(?<=[\s,.!]))(?:undo|delete|delte|delet|erase|remove|scratch|disregard|scrap|cancel) "
    r"(?:(?:that|this|the|my) (?:very )?(?:last |previous |latest )?(?:one|set|entry|message|text)(?: \w+)?[\s.!]*$"
    r"|(?:(?:that|this|the|my) (?:very )?(?:last |previous |latest )?(?:one|set|entry|message|text)|the last|my last|last (?:one|set|entry)|that|it)"
    r"(?=[\s.!]*$|[,;.!]|\s+(?:please|pls|plz|i|it|it's|its|was|cos|cuz|because|as|sorry)\b))"
)
_TAKE_OFF = re.compile(r"\btake it (?:off|out|back)[\s.!]*(?:(?:please|pls|plz)[\s.!]*)?$")
_TAKE_BACK = re.compile(
    r"\btake (?:that|this|the|my)(?: last| previous)?(?: one| set| entry)? (?:back|off|out)\b(?! (?:the|of)\b)"
)
_REDO = re.compile(
    rf"{_LEAD}(?:redo(?: {_IT})?|undo (?:the|that|my) undo|un-?undo|put {_IT} back(?: in| on)?|bring {_IT} back|restore(?: {_IT})?|undelete(?: {_IT})?|(?:it|that) was (?:right|correct)(?: after all)?|keep {_IT}(?: after all)?|add {_IT} back(?: in)?|i want {_IT} back|undo was (?:a mistake|wrong)|didn'?t mean to undo(?: {_IT})?){_TAIL}"
)
_TWICE = re.compile(
    rf"{_LEAD}(?:i |that |it |phone |my phone |app |net |the net |network |think i |it'?s a |was a |got |may have |must have |accidentally )*(?:(?:sent|posted|typed|logged|entered|submitted|pressed|went|put|hit send)(?: (?:(?:that|the|my) [a-z]{{3,12}}(?= twice)|that|it|this|one|last|in|through|off|send|message|text|the same(?: thing)?|same thing))* (?:twice|two times|2 times|double|2x|2 times|again by (?:mistake|accident)|again by accident)|(?:a )?(?:duplicate|dupe|dup|double (?:sent|post|send|text|message|entry|tap|tapped|posted|logged))(?: message| entry| sorry)?|ignore the (?:second|2nd|duplicate|double|repeat|first)(?: one| message)?|(?:sent|messaged) twice|twice by (?:mistake|accident)){_TAIL}"
)
_FINISH = re.compile(
    rf"{_LEAD}(?:and )?(?:i'?m |im |i am |i |i'?ll |i will |let'?s |all |we'?re |now |that makes me |that was it |that is |and i'?m |so i'?m )*(?:done(?: and dusted)?|finished|finito|complete(?:d)?|finish(?:ed)? already|done already|that'?s (?:the|my) day|done for the day|finish(?:ing)? today|nothing (?:more|else) (?:from me|today|for me)(?: today| tonight)?|done like dinner(?: for (?:the day|today))?|that'?s (?:it|all|me(?: (?:all )?(?:done|finished|through))?|a wrap|everything|that)|thats (?:it|all|me(?: (?:all )?(?:done|finished|through))?|a wrap|everything|that)|that is (?:it|all)|(?:session|workout|training|day)(?: is| was)? (?:over|done|finished|complete(?:d)?)|"
    rf"(?:(?:i )?(?:have to|gotta|got to|need to|will|must|'?ll) )?leave it (?:there|here|at that)|"
    rf"(?:that'?s )?all i (?:can|could|'?ve) (?:do|manage|managed|get done|got)|that concludes (?:today|it|the session|my session)|tutto fatto|fatto tutto|koniec|fini|terminé|terminado|listo|klaar|ferdig|färdig|gotowe|finishing (?:here|up|now|there|early)|that'?ll do(?: me)?|that will do(?: me)?|ready(?= for today)|finished (?:the |my |up |today'?s |with )*(?:session|workout|training|day|everything|it|all|up)|(?:call(?:ing)?|called) it(?: a day| there| quits)?(?!\s*(?:an?\b|rpe|rir|about|around|\d))|(?:end|ended|stop|stopping|close|finish) (?:the |my |today'?s )?(?:session|workout|training|here|there|for today|for the day)|wrapp(?:ed|ing)(?: it)? up|it'?s a wrap|a wrap|it for (?:today|me|now|tonight)|me (?:done|finished|through)|(?:gotta|got to|have to|had to|need to|must) (?:go|run|dash|leave|bail|stop|roll|bounce|scoot|jet|head(?: out| off)?|cut it short)|out of time|ran out of time|that'?s (?:all i (?:got|have|had|can (?:do|manage)|could (?:do|manage))(?: (?:time|the time|energy))?(?: (?:for|in me))?|my lot|enough|plenty|about it)|everything done|all (?:done|finished)|completed (?:the |my |today'?s )?(?:session|workout|everything|all)|fertig)"
    rf"(?:[\s,]*(?:for (?:today|the day|tonight|now|me)|(?:for )?this (?:morning|evening|afternoon)|today|tonight|with (?:everything|it|today|that|the session|the workout|training|this session)|here|now|and dusted|session|workout|finally|everything|all sets|at last))*"
    rf"(?P<rest>(?:[\s,.:;!(-]*(?:in|took(?: me)?|about|around|session|rpe|effort|overall|felt like(?: an?| a)?|it was|was|an?|total|hard(?:ness)?|out of 10|/ ?10|minutes?|mins?|min|m|an hour|hour|hours|and|i'?d say|maybe|today|like|rated|rate it|difficulty|h|(?<![a-z\d])(?<!\d[.,])\d{{1,6}}(?:[.,]\d{{1,3}})?(?![.,]?\d))\)?)*){_TAIL}"
)
_LONGEST_FINISH = 160
_DONE_A_LIST = re.compile(
    r"\s*(?:done|finished)[\s,:!.]+\d+[\s,/:]+\d+[\s,/\d]*(?:m|s|reps)?$"
)  # "done, 4, 6": sets rather than an effort
JUST_DONE = re.compile(r"(?:ok |okay |and |all )?(?:done|finished)[\s!.,]*")  # before sets: they are what is done
_CLAUSES = re.compile(r"[,.;!/()]+\s*|\s+and (?=i\b|i'?m\b)|\s+so\s+|\s+-\s+")
_WRONG_CHAT = re.compile(
    r"(?<=\w)[\s,.]+(?:(?:that was |it was |was )?(?:the )?wrong (?:chat|group|person|window|number)|lol|haha|sorry)(?:[\s,.!]+(?:lol|haha|sorry|oops))*[\s.!]*$"
)
_SIGNS = re.compile(r"[^\w\s.,:;!?()/'~+*@×#-]+")  # emoji
_SKIP = re.compile(
    r"\b(?:(?:can'?t|couldn'?t|cannot) be (?:arsed|bothered) (?:with|to do|doing)|skip(?! rope)|skipped(?! rope)|skipping(?! rope)|skiped|skippin|no time for|no time left for|not doing|(?:i )?(?:don'?t|do not) do|(?:i )?leave(?= (?:the|out|this|that|my))|(?:i )?ai?n'?t (?:touchin|touching|doin|doing|gonna do)|not (?:touching|touchin)|(?:i'?m )?not gonna do|not going to do|didn'?t (?:do|get to|get round to|have time for|manage|finish)|did not (?:do|get to|manage)|leave out|leaving out|left out|leaving|dropping|missed(?: out)?|missing|miss|couldn'?t (?:do|get to|manage|finish)|could not do|cut out|cutting|"
    r"ran out of (?:time|steam|gas) (?:for|before)|out of time for|won'?t (?:do|get to)|passing on|pass on|bailed on|bailing on|ditch(?:ed|ing)?(?! (?:the |my )?(?:belt|band|vest|bag|weights?|straps?|plates?|collars?)\b)|no more|without(?! (?:any |a |the |my )?(?:bands?|weights?|belt|bag|pack|help|assistance|load|vest|stop\w*|rest\w*|pause\w*)\b)|can'?t (?:do|manage|face|finish) (?=(?:the |my )?(?:last|rest|remaining|other|final|any more|another))|giving .{1,12} a miss|sack(?:ing|ed)? off|swerv(?:ing|ed)|bunking off|jibbing|salto(?= |$)|salte|saute|ohne(?= die| den| das)|omit(?:ted|ting)?|sitting out|bin(?:ned|ning))\b(?P<what>[^.;!\n]*)"
)
_TOLD_NEXT = re.compile(r",\s*(?=[^,]*\d\s*(?:kg|lbs?)?\s*[x×@]\s*\d)|,\s*(?=(?:got|did|then|\d))")
_NUMBER_TOLD = re.compile(
    r"(?<!last )(?<!first )(?<!other )(?<!next )(?<![\w.])\d+(?!\d)(?!\s*(?:sets?|rounds?|exercises?|things|of|more|min|mins|st|nd|rd|th|%|left)\b|\s*[.,]?\s*$)(?=\s*(?:[x×@a-z]|kg|\d))"
)
_NO_TODAY = re.compile(r"^(?:ok |and |so )*no (?P<what>[\w' -]{2,40}?)(?: today| tonight| this time| for me)[\s.!]*$")
_NO_NAMED = re.compile(
    r"(?:^|[,.;!\n]|\b(?:and|but|so|ok|heute|vandaag|hoy|i dag|idag|today|tonight))\s*(?:no (?:more )?|keine? |geen |pas de |nada de |ingen |screw |sod |stuff |forget |nope to |no to |bugger |blow off |blowing off )(?:the |my )?(?P<what>[a-z][\w' -]{1,40}?)"
    r"(?=\s*(?:[,.;!\n]|$|\b(?:today|tonight|this time|for me|because|cos|cuz|as|since|though)\b))|"
    r"(?:^|[,.;!\n]|\b(?:and|but|so|ok))\s*(?P<what2>[a-z][\w' -]{1,40}?)\s+(?:not today|not happening|(?:is|are|were)n'?t happening|ain'?t happening|"
    r"(?:was |were |got )?skipped|ain'?t gonna happen|aint happening|(?:say )?no$|(?:is|are) a no|can wait|will have to wait|another day|not tonight|no chance)\b"
)
_GOING_ON = re.compile(
    r"\b(?:and|then|,)?\s*(?:straight|go|going|moving|move|on|onto|jump\w*|head\w*)\s+(?:to|on|onto|with|into)\b"
)
_THEM = re.compile(r"(?:them|those|these|it)\b")
_ONLY_SETS = re.compile(
    r"\b(?:only|just|did|stopped (?:at|after)|managed|got|ended (?:after|with|at)|finished (?:at|after|with)|called it (?:at|after)|cut (?:it )?(?:to|at|down to|short at))\s+(?:did |got |managed |in |to |the |out |have |had |time for |doing |completed |made it through |through )*(?P<n>\d+|one|two|three|four|five)(?: (?:of|out of) (?:the )?(?:\d+|three|four|five))?\s+(?:sets?|rounds?)\b(?! of (?:\d|[a-z]\b)| x|\s*[x@:]\s*\d| (?:with|at|@) )"
)
_REST_OF = re.compile(r"\b(?:the )?(?:rest|remaining|remainder|everything(?: else| after)?|all the rest|others?)\b")
_EXCEPT = re.compile(r"\b(?:but|except(?: for)?|apart from|besides|other than|bar)\b")
_LAST_GROUP = re.compile(r"\blast (?:superset|pair|group|block|two exercises|circuit|giant set|round of exercises|one's)\b")
_LAST_EXERCISE = re.compile(r"\b(?:last|final) (?:exercise|movement|slot|move)\b|\bfinisher\b")
_LAST_SETS = re.compile(
    r"\blast\b\s*(?P<n>\d+|one|two|three|couple(?: of)?|few)?\s*(?:[a-z-]+ ){0,2}?(?P<what>sets?|rounds?|one|(?=[\s.!,]*$))"
)
_NTH_SET = re.compile(
    r"(?:and |the |my )*(?P<nth>first|second|third|fourth|fifth|2nd|3rd|4th)(?: (?:one|set|go|round))?(?: of (?:them|those|these))?"
)
_THIS = re.compile(
    r"\b(?:this(?: one| set| exercise)?|that(?: one| set)?|it|next(?: one| set| exercise)?|these|current(?: one| exercise)?)\b"
)
_GROUP_LETTER = re.compile(r"\b(?P<letter>[a-z])(?:'?s)?(?: (?:superset|block|group|pair|series|section))?\b(?!')")
_POINT = re.compile(
    r"(?:(?:ok|okay|so|right|now|i'?m|im|i am|i'?ll|ill|i will|will|gonna|going to|just|let'?s|lets|have to|need to|want to|then|today|actually|am|and|next|up)[\s,:]*)*"
    r"(?:doing|do|start(?:ing|ed)?(?: with| on| at)?|begin(?:ning)? with|moving (?:on )?(?:to|onto)|move (?:on )?to|moved (?:on )?to|on to|onto|going (?:on )?(?:to|with)|go(?:ing)? (?:straight )?(?:to|with)|switch(?:ing)? to|jump(?:ing|ed)?(?: ahead| straight| back)? to|back to|skip(?:ping)? (?:ahead |forward )?to|over to|first up:?|first|next:?|now|next up:?)\s+(?P<what>[\w'/ -]{1,40}?)(?:\s+(?:first|now|next|instead first|before (?P<other>[\w' -]+)|today|then|already|because.*|cos.*|as .*|since .*|rack.*))*[\s.!]*"
)
_POINT_SHORT = re.compile(
    r"(?:ok |now |right |so )*(?P<what>[\w'/ -]{1,30}?) (?:first|next|now|(?<!last )time)(?: today| then)?[\s.!]*"
)


_ANY_NUMBER = re.compile(r"\d|\b(?:" + "|".join(word for word in NUMBER_WORDS if word not in ("one", "zero")) + r")\b")


def short_command(folded: str, situation: Situation) -> tuple[Heard, ...] | None:
    """The whole text as one of the commands about what is on record; None if it is none of them."""
    text = folded.strip() if folded.isascii() else _SIGNS.sub(" ", folded).strip()
    text = _WRONG_CHAT.sub("", text).replace("undo-", "undo ")
    if len(text) > 120 or "?" in text:
        return None
    if _UNDO.fullmatch(text) or (
        (_UNDO_INSIDE.search(text) or _TAKE_BACK.search(text) or _TAKE_OFF.search(text)) and not _ANY_NUMBER.search(text)
    ):
        return (UndoHeard(),)
    if not _ANY_NUMBER.search(text) and any(_UNDO.fullmatch(piece.strip(" :-")) for piece in _CLAUSES.split(text)):
        return (UndoHeard(),)  # "oh no I pressed the wrong thing, please take that one off"
    if _REDO.fullmatch(text):
        return (UndoHeard(redo=True),)
    if _TWICE.fullmatch(text) or (
        not re.search(r"\d", text) and any(_TWICE.fullmatch(piece.strip()) for piece in _CLAUSES.split(text))
    ):
        return (UndoHeard(),) if _recorded_twice(situation) else (RepeatHeard(),)
    return None


_TOLD_TWICE = re.compile(
    r"[\s,.(-]+(?:(?:sorry|oops|whoops|soz|ah|argh|ugh|and|i|think|it|that|was|got|phone|my|just|may|might|have|maybe|btw)[\s,.]+)*"
    r"(?:(?:sent|posted|typed|logged|hit send|went|pressed send|got logged)(?: (?:it|that|this|through|in))? (?:twice|two times|2 times|2x|double|again)(?: by (?:mistake|accident))?"
    r"|(?:duplicate|dupe|double post|resend|resending|resent|re-?sending|sending (?:it |that |this )?again|sent (?:it |that )?again)(?:[\s,]+(?:bad|no|poor|lost|dodgy) (?:signal|connection|internet|wifi|network|reception))?"
    r"|(?:not sure|unsure|no idea|dunno|didn'?t know|don'?t know|wasn'?t sure) (?:if|whether) (?:that|it|this|the (?:last )?(?:one|message))(?: (?:one|last one))? (?:went|sent|got|came|go|send|worked|saved)(?: (?:through|thru|in|ok))?"
    r"|in case (?:that|it|this|the last one)(?: one)? (?:didn'?t|did not|hasn'?t) (?:send|go|come|go through|go thru|sent|save|work|arrive))(?:[\s,]+(?:my bad|sorry|oops|lol|haha|ignore|whoops|soz|apologies))*\)?[\s.!]*$"
)


def told_twice(folded: str) -> str | None:
    """ "12x12 sorry sent twice": the set without the remark; None where nothing of the kind is said behind a number."""
    found = _TOLD_TWICE.search(folded) if len(folded) <= _LONGEST_FINISH else None
    return folded[: found.start()] if found and re.search(r"\d", folded[: found.start()]) else None


# "that's it for today, knees are shot": whatever follows, as long as it asks and counts nothing
_OVER_FOR_TODAY = re.compile(
    _LEAD
    + r"(?:i'?m |im |that'?s |all )*(?:it|done|finished|all|me(?: done)?) for (?:today|tonight|the day)\b(?!.*\b(?:except|but|apart)\b)[^\d?]{0,40}"
)


def finish(folded: str) -> FinishHeard | None:
    """ "done", "that's it for today, rpe 8, 50 minutes"; None if the text says something else."""
    if len(folded) > _LONGEST_FINISH:
        return None
    told = _SIGNS.sub(" ", folded).strip()
    found = _FINISH.fullmatch(told)
    if not found and _OVER_FOR_TODAY.fullmatch(told):
        return FinishHeard()
    if not found or _DONE_A_LIST.match(folded):
        return None
    rest = found["rest"] or ""
    minutes = re.search(r"(\d+)\s*(?:minutes?|mins?|m)\b", rest)
    hours = re.search(r"(\d+(?:[.,]\d+)?|an)\s*h(?:ours?)?\b(?:\s*(?:and\s*)?(\d+))?", rest)
    without = re.sub(r"\d+\s*(?:minutes?|mins?|m|h|hours?)\b", " ", rest)
    effort = re.search(r"(\d+(?:[.,]\d+)?)", without)
    value = float(effort[1].replace(",", ".")) if effort else None
    if value is not None and value > 10:
        return None
    length = int(minutes[1]) if minutes else None
    if hours:
        amount = 1.0 if hours[1] == "an" else float(hours[1].replace(",", "."))
        length = int(amount * 60) + (int(minutes[1]) if minutes else int(hours[2] or 0))
        value = None if effort and hours[2] and effort[1] == hours[2] else value
    return FinishHeard(effort=value, minutes=length)


_BARE_EFFORT = re.compile(r"\s*(?:ok |and |all )?(?:done|finished)[\s,:!.]+\d+\s*[.!,]?\s*")


def rather_a_set(folded: str, ended: FinishHeard, setting: Setting | None) -> bool:
    """ "done, 8" while sets are left: eight reps, where eight suit the set that is due, rather than an effort of eight."""
    if setting is None or ended.effort is None or not _BARE_EFFORT.match(folded) or not setting.free_numbers:
        return False
    return fit_count(Decimal(str(ended.effort)), setting.target(setting.free_numbers[0]), setting) > -0.5


def skip(folded: str, names: Sequence[tuple[int, int, str]], situation: Situation) -> SkipHeard | None:
    """Sets that will not be done. names: exercises found in the text, as slot labels where they stand in today's day."""
    if situation.day is None:
        return None
    found = skip_words(folded, names, situation.day.slots)
    if found:
        group = "what2" if "what2" in found.re.groupindex and found["what2"] else "what"
        what = folded[found.start(group) : end_of_skip(folded, found, group)]
        begun = folded.rfind("\n", 0, found.start()) + 1
        line = [name for name in names if begun <= name[0] < found.start()]
        if len(line) == 1 and not what.strip(" .!") and not re.search(r"\d", folded[line[0][1] : found.start()]):
            rest = rest_of_slot(situation, line[0][2])  # "hip thrust - skipped"
            return SkipHeard(rest, "") if rest else None
        what = _GOING_ON.split(what)[0]
        pointed = [name[2] for name in names if name[1] <= found.start() and situation.slot(name[2])]
        if _THEM.match(what.strip()) and pointed:
            rest = rest_of_slot(situation, pointed[-1])  # "calves are toast, skip them and straight to holds"
            return SkipHeard(rest, "") if rest else None
        places = _skipped_places(what, found.start(group), names, situation)
        return SkipHeard(tuple(places), "") if places else None
    return None


def skip_words(folded: str, names: Sequence[tuple[int, int, str]], slots: Sequence[Slot]) -> re.Match[str] | None:
    """The words that say that something is left out; "no" alone says so only of a named exercise."""
    found = _SKIP.search(folded) or _NO_TODAY.search(folded)
    if found:
        return found
    for said in _NO_NAMED.finditer(folded):
        group = "what" if said["what"] else "what2"
        start, end = said.span(group)
        named = any(start <= name[0] and name[1] <= end and not name[2].startswith("ex:") for name in names)
        if (named or _by_one_word(said[group], slots) or _NTH_SET.fullmatch(said[group].strip())) and not re.search(
            r"\d", said[group]
        ):
            return said
    return None


def end_of_skip(folded: str, found: re.Match[str], group: str = "") -> int:
    """Where a skip's words end and set talk begins again: "skipped B1, 20x12 on C1", "skipped the last dip, pistols 4 each"."""
    start, stop = found.span(group) if group else found.span()
    told = _TOLD_NEXT.search(folded, start, stop)
    if told:
        return told.start()
    number = _NUMBER_TOLD.search(folded, start, stop)
    if number is None:
        return stop
    comma = max(folded.rfind(",", start, number.start()), folded.rfind(" and ", start, number.start()))
    return comma if comma > start and re.search(r"[a-z]", folded[start:comma]) else number.start()


def only_sets(folded: str) -> int | None:
    """ "only did 2 sets": how many; None if not said."""
    found = _ONLY_SETS.search(folded)
    if not found:
        return None
    return int(found["n"]) if found["n"].isdecimal() else NUMBER_WORDS.get(found["n"])


def rest_of_slot(situation: Situation, label: str) -> tuple[SetPlace, ...]:
    """The sets of a slot that are neither on record nor skipped."""
    return tuple(place for place in open_places(situation) if place.label == label)


def open_places(situation: Situation) -> list[SetPlace]:
    if situation.day is None:
        return []
    gone = {record.place for record in situation.today if record.place} | set(situation.skipped)
    return [place for place in order_of(situation.day) if place not in gone]


def point(folded: str, names: Sequence[tuple[int, int, str]], situation: Situation) -> PointHeard | None:
    """ "doing B1 first": where the member goes on."""
    text = folded.strip()
    if situation.day is None or len(text) > 80 or "?" in text:
        return None
    found = _POINT.fullmatch(text) or _POINT_SHORT.fullmatch(text)
    if not found:  # "rack is taken so starting with pulldowns"
        parts = [part.strip() for part in re.split(r"\bso\b|,", text)]
        text = next((part for part in (parts[-1], parts[0]) if len(parts) > 1 and _POINT.fullmatch(part)), "")
        found = _POINT.fullmatch(text) if text else None
    if not found:
        return None
    what = found["what"].strip()
    offset = folded.index(text) + found.start("what")
    labels = _labels_in(what, offset, names, situation, letters=True)
    for label in labels[:1]:
        rest = rest_of_slot(situation, label)
        return PointHeard(rest[0]) if rest else None
    return None


def _recorded_twice(situation: Situation) -> bool:
    """Are the last two sets on record one and the same, one after the other?"""
    if len(situation.today) < 2:
        return False
    one, two = situation.today[-2:]
    return bool(
        one.place
        and two.place
        and one.place.label == two.place.label
        and (one.done.load, one.done.count) == (two.done.load, two.done.count)
    )


def _labels_in(
    what: str, offset: int, names: Sequence[tuple[int, int, str]], situation: Situation, *, letters: bool
) -> list[str]:
    day = situation.day
    assert day is not None
    labels = [slot.label for slot in day.slots]
    found = [
        label
        for label in labels
        if re.search(rf"(?<![a-z\d]){re.escape(label.lower()[0])}\s?-?{re.escape(label.lower()[1:])}(?!\d)", what)
    ]
    named = [label for start, _, label in names if offset <= start < offset + max(len(what), 1) and label in labels]
    found += [label for label in named if label not in found]
    found = found or _by_one_word(what, day.slots)
    if not found and letters:
        for match in _GROUP_LETTER.finditer(what):
            group = [slot.label for slot in day.slots if slot.group.lower() == match["letter"]]
            if (group and match["letter"] not in ("a", "i")) or (group and match.group().strip() == what.strip()):
                found += [label for label in group if label not in found]
    return found


def _by_one_word(what: str, slots: Sequence[Slot]) -> list[str]:
    """ "no carries": a word that the name of just one exercise of the day holds, in the singular or plural."""
    said = {_stem(word) for word in re.findall(r"[a-z]{4,}", what)}
    holding = [
        slot.label for slot in slots if said & {_stem(word) for word in re.findall(r"[a-z]{4,}", slot.exercise_name.lower())}
    ]
    return holding if len(holding) == 1 else []


def _stem(word: str) -> str:
    return word[:-3] + "y" if word.endswith("ies") else word[:-2] if word.endswith("shes") else word.removesuffix("s")


def _skipped_places(what: str, offset: int, names: Sequence[tuple[int, int, str]], situation: Situation) -> list[SetPlace]:
    day, remaining = situation.day, open_places(situation)
    assert day is not None
    due = situation.due
    excepted = _EXCEPT.search(what)
    if excepted and _REST_OF.search(what[: excepted.start()]):
        kept = _labels_in(what[excepted.end() :], offset + excepted.end(), names, situation, letters=True)
        return [place for place in remaining if place.label not in kept] if kept else []
    labels = _labels_in(what, offset, names, situation, letters=True)
    sets = _LAST_SETS.search(what)
    number = re.search(r"\bset (\d+)\b", what)
    if labels:
        places = [place for place in remaining if place.label in labels]
        if number:
            return [place for place in places if place.number == int(number[1])]
        if sets and sets["what"] != "one":
            return places[-_how_many(sets["n"]) :]
        return places
    nth = _NTH_SET.match(what.strip(" ,.!"))
    if nth and due and re.match(r"(?:and |the |my )*\w+(?: (?:one|set|go|round)\b|\s*$)", what.strip(" ,.!")):
        return [place for place in remaining if place.label == due.label and place.number == SET_NUMBERS[nth["nth"]]]
    if number and due:
        return [place for place in remaining if place.label == due.label and place.number == int(number[1])]
    if _LAST_GROUP.search(what):
        group = _group(day.slots[-1])
        return [place for place in remaining if _group_of(place, day.slots) == group]
    if _LAST_EXERCISE.search(what):
        return [place for place in remaining if place.label == day.slots[-1].label]
    if sets and due:
        group = _group_of(due, day.slots)
        whose = {slot.label for slot in day.slots if slot.group == group} if sets["what"].startswith("round") else {due.label}
        return [p for label in sorted(whose) for p in [q for q in remaining if q.label == label][-_how_many(sets["n"]) :]]
    if _REST_OF.search(what):
        return remaining
    bare = what.strip(" ,.!")
    if due and (not bare or _THIS.match(bare)):
        whole = re.search(r"exercise|these|movement", bare)
        here = [place for place in remaining if place.label == due.label]
        return here if whole or "set" not in bare else here[:1]
    return []


def _how_many(word: str | None) -> int:
    if not word:
        return 1
    if word.startswith(("couple", "few")):
        return 2
    return int(word) if word.isdecimal() else NUMBER_WORDS.get(word, 1)


def _group(slot: Slot) -> str:
    return slot.group


def _group_of(place: SetPlace, slots: Sequence[Slot]) -> str:
    return next((slot.group for slot in slots if slot.label == place.label), "")
