"""Each remark on a block speaks at its limit and is silent just before it. The rules and their sources stand in block_checks."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bot.training.block_checks import MemberKit, Remark, check_block
from bot.training.blocks import Block, Day, ExerciseId, Rest, SetTarget, Slot, WeekSets
from bot.training.exercises.catalogue import load_catalogue
from bot.training.kit import Kit, KitItem
from bot.training.tempo import parse_tempo

CATALOGUE = load_catalogue()


def _slot(
    exercise: str, sets: int, label: str = "A1", *, tempo: str = "", rest: int = 0, substitutes: tuple[str, ...] = ()
) -> Slot:
    entry = CATALOGUE.get(exercise)
    target = SetTarget(8, 10, tempo=parse_tempo(tempo) if tempo else None)
    return Slot(
        label,
        entry.name if entry else exercise,
        (target,) * sets,
        ExerciseId(exercise) if entry else None,
        rest=Rest(rest, rest) if rest else None,
        substitutes=substitutes,
    )


def _block(*days: tuple[Slot, ...], rhythm: tuple[bool, ...] | None = None) -> Block:
    """Its days once a week, one after another unless a rhythm is given."""
    once = tuple(number < len(days) for number in range(7))
    return Block("Block", tuple(Day(number, "", slots) for number, slots in enumerate(days, 1)), rhythm=rhythm or once)


def _said(rule: str, block: Block, **more: object) -> list[Remark]:
    remarks = check_block(block, catalogue=CATALOGUE, **more)  # type: ignore[arg-type]
    return [remark for remark in remarks if remark.rule == rule]


@pytest.mark.parametrize(("push", "pull", "speaks"), [(7, 3, True), (6, 3, False), (3, 7, True), (5, 0, False), (6, 0, True)])
def test_push_against_pull_beyond_two_to_one_is_remarked(push: int, pull: int, speaks: bool) -> None:
    block = _block((_slot("bench_press", push), _slot("barbell_row", pull, "B1")))
    found = _said("balance", block)
    assert bool(found) is speaks
    if speaks:
        assert found[0].text == f"{push} sets of push against {pull} of pull a week."


@pytest.mark.parametrize(("squat", "hinge", "speaks"), [(7, 3, True), (6, 3, False), (3, 7, True)])
def test_squat_against_hinge_beyond_two_to_one_is_remarked(squat: int, hinge: int, speaks: bool) -> None:
    found = _said("balance", _block((_slot("goblet_squat", squat), _slot("romanian_deadlift", hinge, "B1"))))
    assert bool(found) is speaks


@pytest.mark.parametrize(("sets", "speaks"), [(21, True), (20, False)])
def test_more_than_twenty_direct_sets_a_week_are_remarked(sets: int, speaks: bool) -> None:
    block = _block(*((_slot("bench_press", n),) for n in (sets - 14, 7, 7)))
    named = [remark for remark in _said("many_sets", block) if "chest" in remark.text]
    assert bool(named) is speaks


@pytest.mark.parametrize(("sets", "speaks"), [(4, True), (5, False)])
def test_fewer_than_five_weekly_sets_of_a_main_group_are_remarked(sets: int, speaks: bool) -> None:
    text = " ".join(remark.text for remark in _said("few_sets", _block((_slot("bench_press", sets),))))
    assert (f"chest {sets}" in text) is speaks


@pytest.mark.parametrize(
    ("before", "now", "speaks"), [(8, 12, True), (8, 11, False), (4, 7, False), (3, 9, False), (12, 12, False)]
)
def test_a_jump_by_half_and_four_sets_over_the_last_block_is_remarked(before: int, now: int, speaks: bool) -> None:
    last, block = _block((_slot("bench_press", before),)), _block((_slot("bench_press", now),))
    named = [remark for remark in _said("jump", block, last_block=last) if remark.text.startswith("chest")]
    assert bool(named) is speaks


def test_the_first_block_has_nothing_to_jump_from() -> None:
    assert _said("jump", _block((_slot("bench_press", 20),))) == []


@pytest.mark.parametrize(("one", "two", "speaks"), [(6, 6, True), (6, 5, False), (5, 6, False)])
def test_the_same_muscle_hard_on_two_days_running_is_remarked(one: int, two: int, speaks: bool) -> None:
    found = [
        r for r in _said("consecutive", _block((_slot("bench_press", one),), (_slot("bench_press", two),))) if "Chest" in r.text
    ]
    assert bool(found) is speaks


def test_a_rest_day_between_two_hard_days_is_enough() -> None:
    hard = (_slot("bench_press", 8),)
    assert _said("consecutive", _block(hard, hard, rhythm=(True, False, True, False, False, False, False))) == []
    assert _said("consecutive", _block(hard, hard, rhythm=(True, True, False, False, False, False, False)))


def test_without_a_rest_at_the_end_the_last_day_runs_into_the_first_of_the_next_round() -> None:
    hard, light = (_slot("bench_press", 8),), (_slot("bench_press", 1),)
    assert _said("consecutive", _block(hard, light, hard, rhythm=(True, True, True)))
    assert _said("consecutive", _block(hard, light, hard, rhythm=(True, True, True, False))) == []


@pytest.mark.parametrize(("sets", "speaks"), [(30, True), (6, False)])
def test_a_day_that_takes_too_long_is_remarked_with_its_minutes(sets: int, speaks: bool) -> None:
    found = _said("time", _block((_slot("bench_press", sets, rest=180),)))
    assert bool(found) is speaks
    assert all(remark.where == "day 1" and "minutes" in remark.text for remark in found)


@pytest.mark.parametrize(
    ("exercise", "tempo", "speaks"),
    [
        ("goblet_squat", "5-1-5-0", True),  # 11 s
        ("goblet_squat", "5-0-5-0", False),  # 10 s, the limit itself
        ("plank", "3-1-1-0", True),  # a hold has no tempo
        ("plank", "", False),
    ],
)
def test_a_tempo_too_slow_or_on_a_hold_is_remarked(exercise: str, tempo: str, speaks: bool) -> None:
    found = _said("tempo", _block((_slot(exercise, 3, tempo=tempo),)))
    assert bool(found) is speaks
    assert all(remark.where == "day 1 A1" for remark in found)


def test_a_slot_that_needs_kit_and_has_no_substitute_is_remarked() -> None:
    assert _said("no_substitute", _block((_slot("bench_press", 3),)))
    assert not _said("no_substitute", _block((_slot("bench_press", 3, substitutes=("push-up",)),)))
    assert not _said("no_substitute", _block((_slot("push_up", 3),)))


def test_members_who_lack_the_kit_are_named_with_what_they_will_get() -> None:
    block = _block((_slot("pull_up", 3),))
    members = [MemberKit("Ida", Kit(frozenset({KitItem.BAND}))), MemberKit("Tom", Kit(frozenset({KitItem.PULL_UP_BAR})))]
    found = _said("kit", block, members=members, substitutes=lambda slot, kit: "band pulldown")
    assert [remark.text for remark in found] == ["Ida cannot do Pull-up with their kit; they will be offered band pulldown."]


def test_nobody_is_named_when_everybody_has_the_kit() -> None:
    block = _block((_slot("push_up", 3),))
    assert _said("kit", block, members=[MemberKit("Ida", Kit()), MemberKit("Tom", Kit())]) == []


def test_an_exercise_unknown_to_the_catalogue_is_said_not_to_be_counted() -> None:
    block = _block((_slot("zigzag press", 3),))
    assert "zigzag press" in _said("unmatched", block)[0].text
    assert _said("unmatched", _block((_slot("bench_press", 3),))) == []


def test_every_remark_names_its_source() -> None:
    block = _block((_slot("bench_press", 25, rest=180, tempo="6-1-6-0"),), (_slot("bench_press", 8),))
    remarks = check_block(block, catalogue=CATALOGUE, last_block=_block((_slot("bench_press", 6),)))
    assert {remark.rule for remark in remarks} >= {"balance", "few_sets", "many_sets", "jump", "consecutive", "time", "tempo"}
    assert all(remark.source and remark.text for remark in remarks)


def test_the_last_day_of_a_rhythm_is_followed_by_the_first_of_the_next() -> None:
    hard, easy = (_slot("bench_press", 8),), (_slot("goblet_squat", 3),)
    without_rest = _said("consecutive", _block(hard, easy, hard, rhythm=(True, True, True)))
    with_rest = _said("consecutive", _block(hard, easy, hard, rhythm=(True, True, True, False)))
    assert "Chest: 6 or more sets on day 3 and again the day after." in [remark.text for remark in without_rest]
    assert with_rest == []


def test_a_block_by_weeks_is_checked_in_its_hardest_week() -> None:
    slot = _slot("bench_press", 6)
    target = slot.sets[0]
    slot = replace(slot, weeks=(WeekSets(2, (target,) * 22), WeekSets(3, (target,) * 4)))
    block = _block((slot,))

    assert [remark.text for remark in _said("weeks", block)] == [
        "Checked in week 2, which has the most sets: 6, 22 from week 2, 4 from week 3."
    ]
    assert "chest 22" in _said("many_sets", block)[0].text


def test_a_block_alike_in_all_weeks_has_nothing_to_say_of_them() -> None:
    assert _said("weeks", _block((_slot("bench_press", 6),))) == []
