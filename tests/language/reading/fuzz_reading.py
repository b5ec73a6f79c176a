"""Throw anything at the reading: python tests/language/reading/fuzz_reading.py [examples]. Not collected by the suite."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[3]))

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.language import Reading, Verdict, read
from tests.builders.set_corpus import cases
from tests.builders.situations import situation

SITUATIONS = [
    situation(line)
    for line in (
        "home",
        "home A1.1=20x12 A2.1=12",
        "bar",
        "new due=B1.1",
        "rest",
        "home due=C1.1",
        "home due=E1.2 E1.1=redx20",
        "home due=F1.3 F1.1=8x14",
    )
]
_TEXTS = [case.text for path in sorted((Path(__file__).parent / "corpus").glob("*.txt")) for case in cases(path)]
_PIECES = sorted(
    {word for text in _TEXTS for word in text.split()} | set(",./-+:;|=()*#@x×½¼") | {"\n", "  ", "12,5", "1/2", "9" * 30, "0"}
)


def well_formed(reading: Reading, text: str) -> None:
    """What every reading promises, whatever the text."""
    assert reading.text == text
    assert 0.0 <= reading.certainty <= 1.0
    assert (reading.verdict is Verdict.ASK) == (reading.question is not None)
    assert reading.verdict is not Verdict.RECORD or reading.heard
    assert reading.verdict is not Verdict.NOT_SETS or not reading.heard
    assert all(0 <= why.start <= why.end <= len(text) for why in reading.why)
    assert all(
        len(option.label) <= 60 and option.label and option.heard
        for option in (reading.question.options if reading.question else ())
    )


any_text = st.one_of(
    st.text(max_size=60),
    st.lists(st.sampled_from(_PIECES), max_size=14).map(" ".join),
    st.lists(st.sampled_from(_PIECES), max_size=10).map("".join),
    st.text(alphabet="0123456789xX@,./-+: kglbsrmLRAB#½\n", max_size=40),
)


def main(examples: int) -> None:
    @settings(max_examples=examples, deadline=None, database=None, suppress_health_check=list(HealthCheck))
    @given(any_text, st.sampled_from(SITUATIONS))
    def never_raises(text: str, there: object) -> None:
        well_formed(read(text, there), text)  # type: ignore[arg-type]

    never_raises()
    print(f"{examples} examples, none raised, all well formed")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 20_000)
