"""Sets, talk and questions never change a plan: nobody's corpus of another reader holds a wish about days, but for the few that are one."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import pytest

from tests.builders import question_corpus, voices
from tests.language.dates.test_wishes import LISBON, LIVES, _heard

LANGUAGE = Path(__file__).parent.parent
VOICES = sorted((LANGUAGE / "reading" / "voices").glob("*.txt"))
READ_IN = (LISBON, LIVES["auckland"], LIVES["new york"])
# Messages and questions of those corpora that do wish something about days, so that a deed or a question is right.
WISHES = (
    "aint touchin the pushdowns today, elbow cranky",  # these two are heard first as an exercise skipped
    "No lunges today, 11 hours in seat. skip",
    "on til 8 tonight, will train tomorrow",
    "remind me at six thirty",
    "remind me at 6 tmrw",
    "can you move my session to the 14th",
    "can't do tuesday, 1 or 2 other days ok?",
    "opening at 6 tomorrow so no training",
    "Year 6 trip tomorrow so moving this to Friday, ok?",
    "Is it ok to do this on Thursday instead?",
    "We're off to Tenby for 4 nights so no training till Monday",
    "mam is 70 on sunday so I'm away",
    "match at 10 on sat so can i move sat to sun",
    "Tomorrow I drive 340 km, can we shift day 2?",
    "boiler job ran 2 hrs over, ill do it sunday",
    "friday doesnt work, saturday ok?",
    "i can not on friday, i come saturday",
    "can i move thursday to saturday",
    "i will miss one week, what happens then",
    "can i move my session because of holiday",
    "can I swap monday and tuesday?",
    "on call till 10, back at it after",
    "26 kids, 3 fights, 1 nosebleed. cannot lift today",
    "Remind me at five thirty please",
    "Can we move the 12th to the 14th?",
    "skipping the arm stuff today",  # one of those lives has a day called arms
    "waves 2m tomorrow at 6, so no training 2 days ok?",
    "Could I carry the bag with a strap? Concert in 9 days",  # asked what is meant by the nine days
    "sunday's... no monday. squats 15s 12 12 11",
    "Couldn't train last night, lockdown on the wing till 11",
    "Move Thursday to Saturday please, 3 pm",
    "Can I shift today's one to Thursday, I'm on nights till then",
    "On shift 48 hours. Back Friday.",
    "row was 125. can't count plates today",  # asked; corrections are read before wishes
    "10 with the 12.5s on the incline, can we do friday instead of saturday this week?",
    "calving at 2am, then clinic 8 til 6. moving today to thurs",
    "double text my bad, only one of those 40s",  # taken for a wish to hear no more by text; sets are read before wishes
    "Forgot Tuesday's: box squat 90 6,6,6 and DB bench 24s 9,8,8",  # asked; sets are read before wishes
)


def _taken(texts: Iterable[str]) -> list[str]:
    heard = ((text, [_heard(text, life) for life in READ_IN]) for text in texts if text not in WISHES)
    return [f"{text!r}: {each}" for text, each in heard if set(each) != {"-"}]


@pytest.mark.parametrize("path", VOICES, ids=lambda path: path.stem)
def test_what_people_text_in_a_session_is_no_wish_about_days(path: Path) -> None:
    assert _taken(message.text for message in voices.messages(path)) == []


@pytest.mark.parametrize("name", ["corpus.txt", "held_out.txt"])
def test_a_question_is_no_wish_about_days(name: str) -> None:
    assert _taken(case.text for case in question_corpus.cases(name)) == []


@pytest.mark.parametrize("name", ["alike_tuned.txt", "alike_aside.txt"])
def test_a_question_to_the_coach_is_no_wish_about_days(name: str) -> None:
    lines = [line.split(" | ") for line in (LANGUAGE / "questions" / name).read_text().splitlines() if line and line[0] != "#"]

    assert _taken(text for line in lines for text in line[1:]) == []
