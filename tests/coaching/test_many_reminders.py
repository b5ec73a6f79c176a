"""Many are reminded at once: each as if alone, at the price of a few."""

from __future__ import annotations

from dataclasses import replace
from typing import Any
from unittest.mock import patch

from sqlalchemy import event

from bot.clock import sweep
from bot.training import people
from bot.training.blocks import ExerciseId
from tests.builders.crowd import crowd_like
from tests.builders.stage import Stage, staged


@staged()
async def test_the_reminders_of_a_crowd_cost_a_few_statements(stage: Stage) -> None:
    """What the members need is read together: six times the members hardly ask more of the database.

    A batch ends by the watch; here it may take its time, so that a busy machine makes no more batches of it.
    """
    mira = await stage.member("Mira")
    engine = stage.program.engines.write
    costs = []
    for more in (9, 50):
        crowd_like(stage, mira, more)
        at = await stage.program.sweep.next_at()
        assert at is not None
        await stage.clock.advance_to(at)
        statements: list[str] = []

        def count(*told: Any, into: list[str] = statements) -> None:
            into.append(told[2])

        event.listen(engine, "before_cursor_execute", count)
        with patch.object(sweep, "BATCH_FOR_S", 60.0):
            swept = await stage.program.sweep.once()
        event.remove(engine, "before_cursor_execute", count)
        costs.append((swept.done, len(statements)))

    (few, cost_of_few), (many, cost_of_many) = costs
    assert (few, many) == (10, 60)
    assert cost_of_many < 3 * cost_of_few, costs


@staged()
async def test_each_of_a_crowd_is_reminded_as_if_alone(stage: Stage) -> None:
    """One took a substitute, one has begun, one has left, one has no block any more: what is read together stays apart."""
    mira = await stage.member("Mira")
    crowd = crowd_like(stage, mira, 6)
    swapper, beginner, gone, without, plain, other = crowd
    now, today = stage.clock.now(), stage.clock.now().date()
    with stage.program.open_uow() as uow:
        uow.swaps.add(
            people.SwapTaken(
                member_id=swapper.id, series=1, day=1, label="A2", exercise=ExerciseId("plank"), instead_of="push_up", reason="", at=now
            )
        )  # fmt: skip
        revision = uow.revisions.newest(group_id=beginner.group_id)
        uow.sessions.add(people.Session(member_id=beginner.id, on=today, day=1, revision_id=revision.id, started_at=now))
        uow.members.save(replace(gone, state=people.MemberState.LEFT))
        assignment = uow.assignments.newest(member_id=without.id, ended_on=None)
        uow.assignments.save(replace(assignment, ended_on=today))
        uow.commit()
    at = await stage.program.sweep.next_at()
    assert at is not None
    await stage.clock.advance_to(at)

    swept = await stage.program.sweep.once()

    assert swept.done == 7
    with stage.uow() as uow:
        rows = {member.id: uow.outbox.find(f"reminder:{member.id}:{today}:0") for member in crowd}
        told = {who: row.fields["reply"]["slots"] if row else None for who, row in rows.items()}
        again = {member.id: len(uow.due.of_member(member.id, kind="reminder")) for member in crowd}
    usual = ["A1 Goblet squat", "A2 Push-up", "B1 Romanian deadlift"]
    assert told == {
        swapper.id: ["A1 Goblet squat", "A2 Plank", "B1 Romanian deadlift"],
        beginner.id: None, gone.id: None, without.id: None, plain.id: usual, other.id: usual,
    }  # fmt: skip
    assert again == {swapper.id: 1, beginner.id: 1, gone.id: 0, without.id: 0, plain.id: 1, other.id: 1}
