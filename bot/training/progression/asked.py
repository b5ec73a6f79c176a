"""What was asked of each set, and what was done: the small values and questions that every rule shares."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from bot.training.blocks import Measure, SetTarget
from bot.training.effort import rir_of_rpe
from bot.training.loads import Load
from bot.training.progression.history import Did
from bot.training.progression.scene import Scene
from bot.training.progression.values import Kind, Reason, SetAim


@dataclass(frozen=True, slots=True)
class Decision:
    """What a group of sets gets: the aims in set order, the rule, and a variation to offer."""

    kind: Kind
    aims: tuple[SetAim, ...]
    reason: Reason
    variation: str = ""


@dataclass(frozen=True, slots=True)
class Asked:
    """One set beside its range. An AMRAP set takes the range of the straight sets beside it; high None: as many as possible."""

    did: Did
    target: SetTarget
    low: int | None
    high: int | None

    @property
    def number(self) -> int:
        return self.did.number

    @property
    def count(self) -> int:
        return self.did.count

    @property
    def load(self) -> Load | None:
        return self.did.load

    @property
    def least(self) -> int:
        """The low end; 1 where none was said."""
        return self.low or self.high or 1

    @property
    def most(self) -> int:
        """The top; only for sets that have one."""
        assert self.high is not None
        return self.high

    @property
    def middle(self) -> int:
        """Half-way up the range, rounded down: a new load is aimed no higher."""
        return self.least + (self.most - self.least) // 2


Group = Sequence[Asked]


def target_at(scene: Scene, number: int) -> SetTarget:
    """The prescription of a set; a set beyond the prescribed number is taken as one more of the last."""
    return scene.targets[min(number, len(scene.targets)) - 1]


def asked_of(scene: Scene, group: Sequence[Did]) -> tuple[Asked, ...]:
    own = [(did, target_at(scene, did.number)) for did in group]
    straight = next((t for _, t in own if not t.amrap and (t.low is not None or t.high is not None)), None)
    found = []
    for did, target in own:
        lead = straight if target.amrap and straight is not None else target
        low = lead.low if lead.low is not None else lead.high
        high = lead.high if lead.high is not None or lead.amrap else lead.low
        found.append(Asked(did, target, low, high))
    return tuple(found)


def aim_for(scene: Scene, number: int, low: int | None, high: int | None, aim: int | None, load: Load | None) -> SetAim:
    target = target_at(scene, number)
    return SetAim(
        number, low, None if target.amrap else high, aim, load, target.measure, target.amrap, scene.case.slot.sides,
        scene.tempo(number), target.partials, target.drops, target.rir,
    )  # fmt: skip


def clamp(count: int, low: int | None, high: int | None) -> int:
    count = count if low is None else max(low, count)
    return count if high is None else min(high, count)


def more_of(measure: Measure, count: int) -> int:
    """A little more: a rep; 5 s on a hold of 20 s and more, else 2; a tenth of a distance, in fives (common practice)."""
    if measure is Measure.REPS:
        return count + 1
    if measure is Measure.SECONDS:
        return count + (5 if count >= 20 else 2)
    return count + max(2, 5 * round(count / 50)) if count >= 25 else count + 2


def more_kind(measure: Measure) -> Kind:
    return {Measure.REPS: Kind.ADD_REPS, Measure.SECONDS: Kind.ADD_TIME}.get(measure, Kind.ADD_DISTANCE)


def sides_of(group: Group) -> tuple[int | None, int | None]:
    """Left and right of the first set on which the side that is weaker over all sets is behind; none where neither is."""
    pairs = [(one.did.done.left, one.did.done.right) for one in group]
    known = [(left, right) for left, right in pairs if left is not None and right is not None]
    ahead = sum(left - right for left, right in known)
    return next(((left, right) for left, right in known if (left - right) * ahead > 0), (None, None))


def spare(scene: Scene, one: Asked) -> int:
    """Reps that a said reserve adds: only what lies two or more above the reserve that was wished for (1 where none was)."""
    if one.did.rir is None or scene.measure is not Measure.REPS:
        return 0
    extra = one.did.rir - wished(one.target)
    return int(extra) if extra >= 2 else 0


def wished(target: SetTarget) -> Decimal:
    """The reserve that the coach asked for; 1 where nothing was said."""
    if target.rir is not None:
        return target.rir
    asked = rir_of_rpe(target.rpe) if target.rpe is not None else None
    return Decimal(1) if asked is None else asked


def too_hard(group: Group) -> bool:
    """Done with two reps less in reserve than the coach wished, on most of the sets for which a wish was said."""
    asked = [one for one in group if one.target.rir is not None or one.target.rpe is not None]
    hard = [one for one in asked if one.did.rir is not None and wished(one.target) - one.did.rir >= 2]
    return bool(asked) and len(hard) * 2 > len(asked)


def all_done(scene: Scene) -> bool:
    """Were all the prescribed sets done, on both sides? A topped set out of three shows little."""
    return len(scene.last.sets) >= len(scene.targets) and not has_half(scene)


def has_half(scene: Scene) -> bool:
    """Is a set of last time known of one side only?"""
    return any((did.done.left is None) != (did.done.right is None) for did in scene.last.sets)
