"""What holds for every suggestion, whatever was done: made-up members of all kinds, a few hundred at a time."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.training.blocks import LoadRule, Measure, PolicyKind, SetTarget, Sides
from bot.training.loads import BODY_WEIGHT, Load, LoadKind, Unit, band, weight
from bot.training.plain import from_plain, to_plain
from bot.training.progression import Kind, SlotCase, Suggestion, WeekOfRecords, reason_sentence, suggest, target_words
from bot.training.records import SetDone
from bot.training.tempo import Tempo
from tests.builders.slot_cases import BANDS, COARSE, NOTHING, USUAL, exercise, missed, sets, slot, stepped

QUICK = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])

loads = st.one_of(
    st.none(),
    st.just(BODY_WEIGHT),
    st.integers(2, 60).map(weight),
    st.integers(5, 120).map(lambda n: weight(n, Unit.LB)),
    st.sampled_from([*BANDS, "purple"]).map(band),
    st.integers(2, 30).map(lambda n: Load(LoadKind.ADDED, Decimal(n), Unit.KG)),
    st.integers(2, 40).map(lambda n: Load(LoadKind.ASSISTED, Decimal(n), Unit.KG)),
    st.sampled_from(BANDS).map(lambda name: Load(LoadKind.ASSISTED, bands=(name,))),
)


@st.composite
def targets(draw: st.DrawFn, measure: Measure) -> SetTarget:
    low = draw(st.one_of(st.none(), st.integers(1, 60)))
    high = draw(st.one_of(st.just(low), st.integers(low or 1, (low or 1) + 12)))
    return SetTarget(
        low,
        high,
        measure,
        amrap=draw(st.booleans()) and high is not None,
        tempo=draw(st.sampled_from([None, Tempo(3, 1, 1, 0), Tempo(5, 2, None, 1)])),
        rir=draw(st.sampled_from([None, Decimal(2)])),
        percent_1rm=draw(st.sampled_from([None, None, None, Decimal(75)])),
    )


@st.composite
def done_sets(draw: st.DrawFn, measure: Measure, load: Load | None) -> SetDone:
    count = draw(st.integers(0, 70))
    sided = draw(st.booleans())
    return SetDone(
        measure=measure,
        count=None if sided else count,
        left=count if sided else None,
        right=draw(st.one_of(st.none(), st.integers(0, 70))) if sided else None,
        load=load,
        rir=draw(st.sampled_from([None, None, Decimal(0), Decimal(4)])),
        failure=draw(st.booleans()),
        form_kept=draw(st.sampled_from([None, None, True, False])),
        about=draw(st.booleans()),
    )


@st.composite
def cases(draw: st.DrawFn) -> SlotCase:
    measure = draw(st.sampled_from([Measure.REPS, Measure.REPS, Measure.SECONDS, Measure.STEPS]))
    one = draw(targets(measure))
    asked = (
        [one] * draw(st.integers(1, 4))
        if draw(st.booleans())
        else [draw(targets(measure)) for _ in range(draw(st.integers(1, 4)))]
    )
    load = draw(loads)
    weeks: list[WeekOfRecords] = []
    for n in range(draw(st.integers(0, 5))):
        if draw(st.integers(0, 6)) == 0:
            weeks.append(missed(n))
            continue
        load = draw(loads) if draw(st.integers(0, 5)) == 0 else load
        weeks.append(sets(n, *(draw(done_sets(measure, load)) for _ in range(draw(st.integers(1, 5))))))
    found = slot(*asked, sides=draw(st.sampled_from(list(Sides))), load_rule=draw(st.sampled_from(list(LoadRule))))
    return SlotCase(
        found,
        kit=draw(st.sampled_from([NOTHING, USUAL, COARSE, stepped(2)])),
        unit=draw(st.sampled_from(list(Unit))),
        week=draw(st.integers(1, 8)),
        history=tuple(weeks),
        exercise=draw(st.sampled_from([None, exercise("push_up"), exercise("goblet_squat"), exercise("plank")])),
        policy=draw(st.sampled_from([None, *PolicyKind])),
        painful=draw(st.integers(0, 5)) == 0,
        poor_sleep=draw(st.integers(0, 8)) == 0,
        days_away=draw(st.sampled_from([None, None, None, 3, 20])),
    )


@QUICK
@given(cases())
def test_every_case_gets_a_whole_answer_with_its_reason(case: SlotCase) -> None:
    found = suggest(case)

    assert len(found.sets) == len(case.slot.sets)
    assert [aim.number for aim in found.sets] == list(range(1, len(found.sets) + 1))
    assert reason_sentence(found).endswith((".", "?")) and "None" not in reason_sentence(found)
    assert target_words(found) and "None" not in target_words(found)
    assert from_plain(to_plain(found), Suggestion) == found


@QUICK
@given(cases())
def test_aims_lie_inside_their_own_range_and_are_possible(case: SlotCase) -> None:
    for aim in suggest(case).sets:
        assert aim.low is None or aim.low >= 0
        assert aim.low is None or aim.high is None or aim.low <= aim.high
        if aim.aim is not None:
            assert aim.high is None or aim.aim <= aim.high
            assert aim.low is None or aim.amrap or aim.aim >= aim.low
        assert aim.load is None or aim.load.amount is None or aim.load.amount > 0


@QUICK
@given(cases())
def test_pain_never_raises_anything_whatever_was_done(case: SlotCase) -> None:
    found = suggest(replace(case, painful=True))

    assert found.kind is Kind.AFTER_PAIN and not found.raises and found.coach_note is not None
    by_number = {record.place.number: record.done for week in case.history for record in week.records if record.place}
    for aim in found.sets:
        done = by_number.get(aim.number)
        if (
            done is None
            or aim.load is None
            or done.load is None
            or aim.load.kind is not LoadKind.IMPLEMENT
            or done.load.kind is not aim.load.kind
        ):
            continue
        heaviest = max(
            (
                r.done.load.kg
                for w in case.history
                for r in w.records
                if r.done.load and r.done.load.kg and r.done.load.kind is LoadKind.IMPLEMENT
            ),
            default=None,
        )
        assert heaviest is None or aim.load.kg is None or aim.load.kg <= heaviest


@QUICK
@given(cases())
def test_a_new_load_is_one_the_kit_can_be_set_to_or_one_that_was_done(case: SlotCase) -> None:
    found = suggest(replace(case, exercise=None, unit=Unit.KG))
    ladder = case.kit.ladders[0] if case.kit.ladders else None
    done = {r.done.load.kg for w in case.history for r in w.records if r.done.load is not None}
    for aim in found.sets:
        if ladder is None or aim.load is None or aim.load.kind is not LoadKind.IMPLEMENT or aim.load.kg in done:
            continue
        assert aim.load.amount is not None and aim.load.unit is not None
        assert ladder.has(aim.load.amount, aim.load.unit)


@QUICK
@given(cases())
def test_the_same_case_gives_the_same_answer(case: SlotCase) -> None:
    assert suggest(case) == suggest(case)


@QUICK
@given(
    st.integers(4, 60),
    st.lists(st.integers(6, 14), min_size=3, max_size=3),
    st.sampled_from([USUAL, COARSE, stepped(2), NOTHING]),
)
def test_one_rep_more_never_brings_a_lighter_load(kg: int, counts: list[int], kit) -> None:  # type: ignore[no-untyped-def]
    """A better week is never answered with less."""
    asked = slot(*(SetTarget(8, 12),) * 3)

    def load_after(reps: list[int]) -> Decimal:
        week = sets(0, *(SetDone(count=count, load=weight(kg)) for count in reps))
        return min(
            aim.load.amount for aim in suggest(SlotCase(asked, kit=kit, history=(week,))).sets if aim.load and aim.load.amount
        )

    assert load_after([count + 1 for count in counts]) >= load_after(counts)
