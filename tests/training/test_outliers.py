"""Slips of the thumb: found where a coach would ask, silent where a coach would nod. Both sides of each edge."""

from __future__ import annotations

import pytest

from bot.training.blocks import Measure
from bot.training.loads import BODY_WEIGHT, Load, Unit, band, weight
from bot.training.outliers import SlipKind, find_slips, slip_question, standing_slips
from bot.training.records import SetDone, SetRecord
from tests.builders.slot_cases import week

USUAL = week(0, weight(20), 12, 11, 10).records


def heard(
    load: Load | None, count: int, *, history: tuple[SetRecord, ...] = USUAL, measure: Measure = Measure.REPS, **more: object
):  # type: ignore[no-untyped-def]
    new = week(1, load, count, measure=measure).records
    slips = find_slips(history, [SetRecord(one.done, one.place, one.on, **more) for one in new])  # type: ignore[arg-type]
    return slips[0] if slips else None


@pytest.mark.parametrize(
    ("load", "count", "kind", "meant"),
    [
        (weight(200), 12, SlipKind.TEN_TIMES, SetDone(count=12, load=weight(20))),
        (weight(2), 12, SlipKind.TEN_TIMES, SetDone(count=12, load=weight(20))),
        (
            weight(225),
            10,
            SlipKind.TEN_TIMES,
            SetDone(count=10, load=weight("22.5")),
        ),
        (weight(44), 12, SlipKind.UNIT, SetDone(count=12, load=weight(44, Unit.LB))),
        (weight(20), 110, SlipKind.TEN_TIMES, SetDone(count=11, load=weight(20))),
        (weight(11), 20, SlipKind.SWAPPED, SetDone(count=11, load=weight(20))),
        (weight(36), 12, SlipKind.FAR, None),
        (weight(20), 48, SlipKind.FAR, None),
    ],
    ids=str,
)
def test_a_slip_is_found_with_what_was_likely_meant(load: Load, count: int, kind: SlipKind, meant: SetDone | None) -> None:
    slip = heard(load, count)

    assert slip is not None
    assert (slip.kind, slip.meant) == (kind, meant)


@pytest.mark.parametrize(
    ("load", "count"),
    [
        (weight(20), 12),
        (weight(25), 10),  # a quarter more
        (weight(34), 8),  # seven tenths more, fewer reps: a coach raises an eyebrow, and no more
        (weight(12), 15),  # a lighter set
        (weight(10), 12),  # half: a warm-up, a drop
        (weight(20), 20),
        (weight(20), 3),
        (BODY_WEIGHT, 30),
        (band("red"), 20),
        (None, 12),
    ],
    ids=str,
)
def test_what_a_coach_would_nod_at_is_no_slip(load: Load | None, count: int) -> None:
    assert heard(load, count) is None


@pytest.mark.parametrize(("amount", "is_slip"), [(501, True), (500, False), (180, False)])
def test_without_a_history_only_what_nobody_lifts_is_asked_about(amount: int, is_slip: bool) -> None:
    assert (heard(weight(amount), 5, history=()) is not None) is is_slip


@pytest.mark.parametrize(
    ("measure", "most"), [(Measure.REPS, 200), (Measure.SECONDS, 3600), (Measure.STEPS, 5000), (Measure.METRES, 10000)]
)
def test_a_count_that_nobody_does_is_asked_about(measure: Measure, most: int) -> None:
    assert heard(None, most, history=(), measure=measure) is None
    assert heard(None, most + 1, history=(), measure=measure) is not None


def test_a_mark_of_doubt_is_kept_until_it_is_answered() -> None:
    slip = heard(weight(20), 12, doubtful=True)

    assert slip is not None and slip.kind is SlipKind.DOUBTFUL


def test_painful_and_doubtful_records_are_no_measure_of_the_usual() -> None:
    odd = tuple(SetRecord(one.done, one.place, one.on, painful=True) for one in week(0, weight(200), 12, 12, 12).records)

    assert heard(weight(20), 12, history=odd) is None


def test_kilograms_are_never_compared_with_bands() -> None:
    assert heard(band("red"), 12, history=week(0, weight(200), 5).records) is None


@pytest.mark.parametrize(
    ("load", "count", "sentence"),
    [
        (weight(200), 12, "A1 set 1: you wrote 200 kg x 12. Did you mean 20 kg x 12?"),
        (weight(44), 12, "A1 set 1: you wrote 44 kg x 12. Did you mean 44 lb x 12?"),
        (weight(36), 12, "A1 set 1: you wrote 36 kg x 12, usually it is about 20 kg x 11. Is that right?"),
    ],
)
def test_the_question_is_one_sentence_in_the_members_own_numbers(load: Load, count: int, sentence: str) -> None:
    slip = heard(load, count)

    assert slip is not None and slip_question(slip) == sentence


def test_a_slip_that_nobody_answered_for_stays_out_in_later_weeks_too() -> None:
    slipped = week(1, weight(200), 12).records
    plain = week(2, weight(20), 12, 12, 12).records

    assert standing_slips([*USUAL, *slipped, *plain]) == slipped
    assert standing_slips([*USUAL, *plain]) == ()


def test_honest_progress_over_a_long_block_is_no_slip() -> None:
    """20 to 38 kg in ten weeks."""
    records = [record for n in range(10) for record in week(n, weight(20 + 2 * n), 12, 11, 10).records]

    assert standing_slips(records) == ()
