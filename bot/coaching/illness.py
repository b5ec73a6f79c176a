"""Does somebody say that they are ill? Then rest comes first, the coach hears of it, and a pause is offered.

The signs of danger are read elsewhere, and come first; here are the plain words that name nothing but being unwell.
"""

from __future__ import annotations

import re
from dataclasses import replace

from bot.language.safety import Level, SafetyReading

ILLNESS = "illness"
_AM = r"(?:i'?m|i’m|i am|am|feel(?:ing)?|fell|fallen|got|getting|been|still|woke up|both|all)"
_ILL = r"(?:ill|sick|unwell|poorly|under the weather|(?:in bed )?with (?:the |a )?(?:flu|fever|cold|bug|covid))"
_COLD = r"cold(?!\s+(?:bars?|weights?|showers?|bath|plunge|room|gym|garage|feet|drink|beer|one|water|hands?|muscles?))"
_SAYS = re.compile(
    rf"\b{_AM} (?:(?:really|very|so|quite|pretty|a bit|a little|still|now|just|properly|home|off|too|feeling|feel|kind of|down) )*{_ILL}\b"
    rf"|^\W*(?:sorry,? |hi,? |hey,? )*(?:off )?(?:sick|ill|unwell|poorly)(?: (?:today|again|now|this week|since \w+|in bed|at home))+\W*$"
    rf"|\b(?:got|have|having|caught|down with|coming down with|think i have) (?:the |a |some )?(?:bad |stomach |nasty |head )*(?:flu|fever|{_COLD}|bug|virus|covid|temperature|tonsillitis|bronchitis)\b",
    re.IGNORECASE,
)
# "Sick of burpees", "that was sick", "not ill any more", "my son is ill": no illness of the member's now.
_NOT = re.compile(
    r"\b(?:sick (?:of|and tired|pump|workout|session|set|pr|gains)|(?:not|no longer|isn'?t|never|wasn'?t|don'?t feel) (?:\w+ )?(?:ill|sick|unwell)|"
    r"was (?:ill|sick)|(?:have |i'?ve )?been (?:ill|sick)\b.*\b(?:back|better|fine|well|now ok)|better|recovered|over (?:it|my)|if i)\b|\?",
    re.IGNORECASE,
)


def with_illness(safety: SafetyReading, text: str) -> SafetyReading:
    """The reading of safety, and where it found nothing the plain word that somebody is ill."""
    if safety.level is not Level.NONE or len(text) > 300 or not _SAYS.search(text) or _NOT.search(text):
        return safety
    return replace(safety, level=Level.CAUTION, topic=ILLNESS)
