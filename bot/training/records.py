"""What did a member do? One value a set, with what was said kept apart from what was carried over or assumed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from bot.training.blocks import ExerciseId, Measure, SetKind, SetPlace
from bot.training.loads import Load


class Source(StrEnum):
    """Where a value of a record came from."""

    SAID = "said"
    CARRIED = "carried"  # from the set before, or from last time
    ASSUMED = "assumed"  # from the prescription ("as planned") or the kit


@dataclass(frozen=True, slots=True)
class DropDone:
    """One drop after a set: the lighter load and what was done with it."""

    load: Load | None
    count: int | None


@dataclass(frozen=True, slots=True)
class SetDone:
    """What one set was.

    count is in the measure's own unit (reps, seconds, steps, metres). With sides, count is None where left and right differ, and
    left, right hold each side; a count without a side holds for each. load None means not known, never body weight.
    bouts: the parts of a rest-pause set, count being their sum. partials: part-range reps beyond the full ones in count.
    rir, rpe: as said; failure: a rep was tried and missed, or "to failure" was said.
    tempo_kept, form_kept: None if nothing was said of it.
    about: the count was said with doubt ("10ish").
    """

    measure: Measure = Measure.REPS
    count: int | None = None
    left: int | None = None
    right: int | None = None
    load: Load | None = None
    kind: SetKind = SetKind.WORK
    rpe: Decimal | None = None
    rir: Decimal | None = None
    failure: bool = False
    form_kept: bool | None = None
    tempo_kept: bool | None = None
    partials: int = 0
    bouts: tuple[int, ...] = ()
    drops: tuple[DropDone, ...] = ()
    about: bool = False
    note: str = ""
    load_source: Source = Source.SAID
    count_source: Source = Source.SAID

    @property
    def worst_count(self) -> int | None:
        """The count that advice is built on: the lower side where sides differ."""
        if self.count is not None:
            return self.count
        sides = [side for side in (self.left, self.right) if side is not None]
        return min(sides, default=None)


@dataclass(frozen=True, slots=True)
class SetRecord:
    """A set on record: where it belongs, when, under which exercise (a substitute's id where one was taken), and what was done.

    place is None for warm-ups. painful: pain was reported on it; such a record is kept and never progressed.
    """

    done: SetDone
    place: SetPlace | None
    on: date
    exercise: ExerciseId | None = None
    day: int | None = None
    painful: bool = False
    doubtful: bool = False  # a surprising number that the member has not confirmed: kept, not built on
    record_id: int | None = None
