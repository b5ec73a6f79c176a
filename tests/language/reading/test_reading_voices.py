"""More than six thousand messages by some seven hundred people, each in the light of the person's own day, against the gold beside it.

Today, over all: of 5,105 clear messages 4,831 (94.6 %) are recorded exactly, 218 asked about, 32 taken for no sets and 24 recorded wrong;
60 of 5,279 records (1.14 %) are wrong without a question, a fifth of them in `said_in_passing`; of 711 messages that are not about sets
none is recorded and 71 are asked about. The reading has been tuned on these messages: those of a stranger fare worse. At first sight
80.8 % of the clear ones in `strangers_last` were recorded exactly, and 5.2 % of all its messages recorded wrong.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.language.readings import SetsHeard
from tests.builders.situations import HOME, NOW
from tests.builders.voices import Mark, Outcome, messages, outcomes
from tests.builders.voices_gold import differences, gold

VOICES = Path(__file__).parent / "voices"
# The least share of clear messages recorded exactly, in percent: a little under today's figure, which stands behind it.
FLOORS = {
    "all_sorts.txt": 90.0,  # 93.4
    "every_kind.txt": 97.5,  # 99.2
    "first_voices.txt": 97.5,  # 99.6
    "hard_to_read.txt": 86.0,  # 89.0
    "here_and_there.txt": 97.5,  # 98.5
    "in_turns.txt": 91.0,  # 94.2
    "item_by_item.txt": 88.0,  # 89.5
    "late_comers.txt": 94.5,  # 97.5
    "long_and_short.txt": 87.5,  # 91.2
    "many_towns.txt": 97.5,  # 99.4
    "many_trades.txt": 97.0,  # 98.7
    "more_sessions.txt": 96.0,  # 97.5
    "old_hands.txt": 95.5,  # 96.6
    "ordinary_days.txt": 94.0,  # 95.6
    "own_layouts.txt": 92.5,  # 94.0
    "said_in_passing.txt": 81.5,  # 82.8
    "sealed_till_the_end.txt": 90.0,  # 91.9
    "short_and_plain.txt": 95.5,  # 98.2
    "short_of_time.txt": 95.5,  # 97.4
    "strangers_last.txt": 87.0,  # 88.5
    "whole_sessions.txt": 93.5,  # 95.1
    "with_a_thumb.txt": 94.0,  # 96.8
    "young_and_old.txt": 96.0,  # 98.4
}


def every() -> list[tuple[str, Outcome]]:
    return [(name, one) for name in FLOORS for one in outcomes(VOICES / name)]


def listed(found: list[tuple[str, Outcome]]) -> str:
    return "\n".join(f"{name}:{one}" for name, one in found)


def test_every_file_of_voices_has_its_floor() -> None:
    assert sorted(path.name for path in VOICES.iterdir()) == sorted(FLOORS)
    assert len(every()) >= 4000


def test_nearly_all_clear_messages_are_recorded_exactly() -> None:
    clear = [(name, one) for name, one in every() if one.message.mark is Mark.CLEAR]
    otherwise = [(name, one) for name, one in clear if one.kind != "right"]

    assert len(otherwise) <= 0.055 * len(clear), listed(otherwise)


@pytest.mark.parametrize("name", FLOORS)
def test_each_kind_of_people_is_understood(name: str) -> None:
    clear = [one for one in outcomes(VOICES / name) if one.message.mark is Mark.CLEAR]
    otherwise = [(name, one) for one in clear if one.kind != "right"]

    assert 100 * (len(clear) - len(otherwise)) >= FLOORS[name] * len(clear), listed(otherwise)


def test_hardly_a_record_of_any_voice_is_wrong_without_a_question() -> None:
    recorded = [(name, one) for name, one in every() if one.recorded]
    wrong = [(name, one) for name, one in recorded if one.kind == "wrong"]

    assert len(wrong) < 0.012 * len(recorded), listed(wrong)


def test_of_messages_that_are_not_about_sets_at_most_one_in_a_hundred_is_recorded() -> None:
    others = [(name, one) for name, one in every() if one.message.mark is Mark.NOT_SETS]
    recorded = [(name, one) for name, one in others if one.recorded]

    assert len(others) >= 250
    assert len(recorded) <= 0.01 * len(others), listed(recorded)


@pytest.mark.parametrize(
    "otherwise",
    [
        pytest.param("B1.1 18kg 11", id="another count"),
        pytest.param("B1.1 18kg L12/R11", id="another side"),
        pytest.param("B1.1 16kg 12", id="another load"),
        pytest.param("B1.1 18lb 12", id="another unit"),
        pytest.param("B1.1 18kg*2 12", id="a pair for one"),
        pytest.param("B1.1 +18kg 12", id="another kind of load"),
        pytest.param("B1.1 ? 12", id="no load"),
        pytest.param("B1.2 18kg 12", id="another place"),
        pytest.param("B1 18kg 12 warm", id="a warm-up"),
        pytest.param("B1.1 18kg 12 on-1", id="another day"),
        pytest.param("B1.1 18kg 12 rpe8", id="an effort"),
        pytest.param("B1.1 18kg 12 fail", id="a failure"),
        pytest.param("B1.1 18kg 12 drop:10kg:8", id="a drop"),
        pytest.param("B1.1-2 18kg 12", id="a set more"),
    ],
)
def test_a_record_that_differs_from_the_gold_in_one_thing_is_noticed(otherwise: str) -> None:
    want = gold("B1.1 18kg 12", HOME, NOW.date())
    heard = SetsHeard(tuple(one.record for one in gold(otherwise, HOME, NOW.date()).sets))

    assert differences(want, (heard,))
    assert not differences(gold(otherwise, HOME, NOW.date()), (heard,))


@pytest.mark.parametrize(
    ("written", "complaint"),
    [
        ("= Ann\nday: A1 goblet_squat 3x10\n@\n20 x 10", "has no gold"),
        ("20 x 10 | A1.1 20kg 10", "nobody who wrote it"),
        ("= Ann\nday: A1 goblet_squat 3x10\n@\n20 x 10 | B1.1 20kg 10", "no slot B1"),
        ("= Ann\nday: A1 plank 3x45 s\n@\n45 | A1.1 bw 45", "no count in seconds"),
        ("= Ann\nday: A1 goblet_squat 3x10\n@\n20 x 10 | A1.1 20 10", "no load"),
        ("= Ann\nday: A1 goblet_squat 3x10\n@\n20 x 10, hard | A1.1 20kg 10 hard", "not a word of the notation"),
        ("= Ann\nday: A1 goblet_squat 3x10 eech\n@\n20 x 10 | A1.1 20kg 10", "nothing to say of a slot"),
        ("= Ann\nage: 31\nday: A1 goblet_squat 3x10\n@", "nothing to tell of a person"),
    ],
)
def test_a_line_that_is_not_in_the_format_is_named(tmp_path: Path, written: str, complaint: str) -> None:
    path = tmp_path / "ann.txt"
    path.write_text(written, "utf-8")

    with pytest.raises(ValueError, match=rf"ann\.txt:\d+: .*{complaint}"):
        messages(path)
