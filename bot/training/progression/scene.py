"""Everything that the rules look at, worked out once for a case."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from bot.training.blocks import LoadRule, Measure, PolicyKind, SetTarget
from bot.training.loads import BODY_WEIGHT, Load, LoadKind
from bot.training.progression.history import Did, SessionDone, exercise_id, measure_of, sessions_of, targets
from bot.training.progression.outlook import Outlook, outlook_of, weeks_between
from bot.training.progression.steps import added_loads, heavier, ladder_for, lighter, next_band
from bot.training.progression.values import Kind, SlotCase
from bot.training.tempo import Tempo

_CAN_HOLD_ADDED = frozenset(
    {"vertical_pull", "horizontal_push", "vertical_push", "squat", "lunge", "bridge", "horizontal_pull", "calf"}
)
# The hands are on the floor: a dumbbell cannot be hung on these, a vest, a plate on the back or a backpack can.
_NOTHING_IN_HAND = frozenset({"horizontal_push", "vertical_push"})


@dataclass(frozen=True, slots=True)
class Scene:
    case: SlotCase
    targets: tuple[SetTarget, ...]
    sessions: tuple[SessionDone, ...]
    outlook: Outlook
    policy: PolicyKind
    measure: Measure

    @property
    def last(self) -> SessionDone:
        return self.sessions[-1]

    @property
    def on(self) -> date:
        """The date the targets are for: handed in, else a week after the last week's start."""
        if self.case.on is not None:
            return self.case.on
        ahead = timedelta(days=7)
        return max(self.case.history[-1].week_start, self.last.on) + ahead if self.case.history else self.last.on + ahead

    @property
    def week(self) -> float:
        return weeks_between(self.sessions[0].on, self.on) if self.sessions else 0.0

    def tempo(self, number: int) -> Tempo | None:
        """The tempo in force: last suggestion's where it slowed things, else the block's."""
        before = self.case.before
        if before is not None and before.exercise == exercise_id(self.case):
            aim = next((aim for aim in before.sets if aim.number == number), None)
            if aim is not None and aim.tempo is not None:
                return aim.tempo
        return self.targets[number - 1].tempo if number <= len(self.targets) else None

    def up(self, load: Load | None) -> list[Load]:
        """What comes next and is harder, nearest first; empty where nothing is known."""
        case = self.case
        if load is None:
            return []
        if load.kind is LoadKind.BAND:
            found = next_band(load, case.kit, up=True)
            return [found] if found else []
        if load.kind is LoadKind.ASSISTED:
            if load.bands:
                less = next_band(load, case.kit, up=False)
                return [less or BODY_WEIGHT] if len(load.bands) == 1 else []
            return [*lighter(load, self._ladder(load), case.exercise), BODY_WEIGHT]
        if load.kind is LoadKind.BODY:
            pattern = case.exercise.pattern.value if case.exercise is not None else ""
            fits = case.exercise is None or pattern in _CAN_HOLD_ADDED or self.measure is Measure.SECONDS
            in_hand = self.measure is Measure.SECONDS or pattern not in _NOTHING_IN_HAND
            return added_loads(case.kit, case.unit, in_hand=in_hand) if fits else []
        return list(heavier(load, self._ladder(load), case.exercise))

    def down(self, load: Load | None) -> list[Load]:
        """What comes next and is easier, nearest first."""
        case = self.case
        if load is None or load.kind is LoadKind.BODY:
            return []
        if load.kind is LoadKind.BAND:
            found = next_band(load, case.kit, up=False)
            return [found] if found else []
        if load.kind is LoadKind.ASSISTED:
            if load.bands:
                more = next_band(load, case.kit, up=True)
                return [more] if more else []
            return list(heavier(load, self._ladder(load), case.exercise))
        found_down = list(lighter(load, self._ladder(load), case.exercise))
        return [*found_down, BODY_WEIGHT] if load.kind is LoadKind.ADDED else found_down

    def _ladder(self, load: Load):  # type: ignore[no-untyped-def]
        return ladder_for(load, self.case.kit, self.case.exercise, self.case.slot.kit)


def scene_of(case: SlotCase) -> Scene:
    found = targets(case.slot)
    sessions = sessions_of(case)
    measure = measure_of(case)
    outlook = outlook_of(sessions, found, measure=measure, bands=case.kit.bands, last_tops=_last_tops(case))
    return Scene(case, found, sessions, outlook, case.policy or case.slot.policy, measure)


def _last_tops(case: SlotCase) -> dict[int, int]:
    """Where the last suggestion asked to stop, of those that asked for less than the member had."""
    before = case.before
    if before is None or before.kind not in (Kind.EASE, Kind.BACK_IN, Kind.AFTER_PAIN, Kind.FIRST_WEEK):
        return {}
    return {aim.number: aim.aim for aim in before.sets if aim.aim is not None and not aim.amrap}


def same_load(a: Load | None, b: Load | None) -> bool:
    if a is None or b is None:
        return a is b
    if a.kind is not b.kind or {x.lower() for x in a.bands} != {x.lower() for x in b.bands}:
        return False
    return a.kg == b.kg or (a.kg is not None and b.kg is not None and abs(a.kg - b.kg) < a.kg / 200)


def groups_of(scene: Scene) -> list[list[Did]]:
    """Sets that move together: same load and same range (AMRAP sets go with their load). Others go each by itself.

    Sets that the coach wants at one load, or tells apart by their tempo alone, stay together too: the hardest of them leads.
    """
    groups: list[list[Did]] = []
    for did in scene.last.sets:
        for group in groups:
            if same_load(group[0].load, did.load) and _move_together(scene, group[0].number, did.number):
                group.append(did)
                break
        else:
            groups.append([did])
    return groups


def _move_together(scene: Scene, one: int, other: int) -> bool:
    if max(one, other) > len(scene.targets) or scene.case.slot.load_rule is LoadRule.SAME:
        return True
    first, second = scene.targets[one - 1], scene.targets[other - 1]
    same_range = (first.low, first.high) == (second.low, second.high)
    return first.amrap or second.amrap or same_range or first.tempo != second.tempo
