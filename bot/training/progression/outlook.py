"""How many reps is this member likely to get next time, on each set, at each load?

Every set number has a hidden capacity (ln of the load that could just be moved once at that point of the session, so that tiredness
from set to set is inside it). It is followed from week to week by a small Kalman filter: a slow gain, a day's noise, and an
observation for each set on record. A set that stopped at the top of its range shows only that at least so much was there, so it
never pulls the capacity down. Turned round through the published curve (bot.training.curve) it gives the reps at any load.

Loads without kilograms stand on rough scales used for the chance alone and never shown: body weight as 75 kg, the next band as 1.3
times the band before (neighbours of one published series differ by 23-40 %), a hold's time falling with the square of the load.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from math import erf, exp, log, sqrt
from types import MappingProxyType

from bot.training.blocks import Measure, SetTarget
from bot.training.curve import HardSet, ln_per_rep, member_bend, reps_at, share_for
from bot.training.effort import SAID_TOO_FEW_REPS, rir_sd_reps
from bot.training.loads import Load, LoadKind, Unit
from bot.training.progression.history import Did, SessionDone
from bot.training.progression.values import SetForecast

# Ours, within what is published: strength gains of beginners to trained people lie near 0.3 to 1.5 % a week; a retest varies by 4.2 % with
# equipment, motivation and testers in it (Grgic et al. 2020), a member's own week-to-week noise at home is taken a little lower.
GAIN_A_WEEK, GAIN_SD = 0.005, 0.015
GAIN_LEAST, GAIN_MOST, GAIN_LEARNT = -0.004, 0.025, 0.15  # how far and how fast a member's own gain moves away from the usual one
DAY_NOISE = 0.025
REP_NOISE = 0.7  # reps: rounding to whole reps and the mood of a set
BODY_KG, BAND_STEP = 75.0, 1.3
HOLD_NOISE, HOLD_GAIN, HOLD_POWER = 0.10, 0.01, 2.0
_WORST = 2.0
_MOST_WEEKS = 6.0
_SURPRISE_PRIOR = 6


@dataclass(slots=True)
class _Level:
    mean: float
    var: float
    at_week: float


@dataclass(slots=True)
class Outlook:
    """A member's capacities in one slot. bands: the member's order, lightest first. rough: see the module."""

    measure: Measure
    bands: tuple[str, ...] = ()
    bend: float = 1.0
    levels: dict[int, _Level] = field(default_factory=dict)
    surprise: float = 1.0
    rough: bool = False
    gain: float = GAIN_A_WEEK

    def effective_kg(self, load: Load | None) -> float:
        """The scale that loads of one kind stand on; see the module for those without kilograms."""
        if load is None:
            return 1.0
        if load.kind is LoadKind.IMPLEMENT:  # asked for every set several times over, so the usual unit goes the short way
            return float((load.amount if load.unit is Unit.KG else load.kg) or 0) or 1.0
        if load.kind is LoadKind.BODY:
            return BODY_KG
        if load.kind is LoadKind.BAND or (load.bands and load.amount is None):
            rank = self._rank(load)
            return BODY_KG * (1 - 0.12 * (rank + 1)) if load.kind is LoadKind.ASSISTED else BAND_STEP**rank
        kg = float(load.kg or 0)
        if load.kind is LoadKind.ADDED:
            return BODY_KG + kg
        if load.kind is LoadKind.ASSISTED:
            return max(10.0, BODY_KG - kg)
        return kg or 1.0

    def _rank(self, load: Load) -> int:
        order = [name.lower() for name in self.bands]
        return max((order.index(name.lower()) for name in load.bands if name.lower() in order), default=0)

    def expect(self, number: int, load: Load | None, *, week: float, bonus: float = 0.0) -> tuple[float, float] | None:
        """Mean and SD of what this set could count at a load, in a week; None for a set never seen. bonus: ln capacity on top."""
        level = self.levels.get(number) or self._nearest(number)
        if level is None:
            return None
        ahead = max(0.0, min(_MOST_WEEKS, week - level.at_week))
        if self.measure is not Measure.REPS:
            mean = level.mean + HOLD_GAIN * ahead + bonus - HOLD_POWER * log(self.effective_kg(load))
            expected = exp(mean)
            return expected, expected * sqrt(level.var + HOLD_NOISE**2) * self.surprise
        mean = level.mean + self.gain * ahead + bonus
        expected = reps_at(self.effective_kg(load) / exp(mean), self.bend)
        slope = max(0.008, ln_per_rep(max(1.0, expected), self.bend))
        spread = sqrt(level.var + GAIN_SD**2 * ahead + DAY_NOISE**2) / slope
        return expected, sqrt(spread**2 + REP_NOISE**2) * self.surprise

    def capacity(self, did: Did) -> float:
        """What one set shows, above 0: kg that could be moved once, or the count where the load has no kilograms."""
        kg = self.effective_kg(did.load)
        if self.measure is not Measure.REPS:
            return float(max(1, did.count) * kg**HOLD_POWER)
        return kg / share_for(max(0.5, did.count + float(did.rir or 0)), self.bend)

    def counted(self, did: Did) -> float:
        """As `capacity`, from the count alone: a reserve that is told one week and not the next would look like a change."""
        kg = self.effective_kg(did.load)
        if self.measure is not Measure.REPS:
            return float(max(1, did.count) * kg**HOLD_POWER)
        return kg / share_for(max(0.5, float(did.count)), self.bend)

    def _nearest(self, number: int) -> _Level | None:
        """A set that was never done: as tired as the last one known, a little more."""
        known = [n for n in self.levels if n < number] or list(self.levels)
        if not known:
            return None
        level = self.levels[max(known)]
        return _Level(level.mean - 0.02, level.var + 0.03**2, level.at_week)

    def forecast(
        self, number: int, load: Load | None, low: int | None, high: int | None, *, week: float, bonus: float = 0.0
    ) -> SetForecast | None:
        """The chance to land in low..high, and the count to expect when the member stops at the top."""
        seen = self.expect(number, load, week=week, bonus=bonus)
        if seen is None:
            return None
        mean, sd = seen
        reach = 1.0 if low is None else _above(low - 0.5, mean, sd)
        expected, spread = (mean, sd) if high is None else _stopped_at(high, mean, sd)
        return SetForecast(
            number, round(expected, 2), round(spread, 2), round(min(1.0, max(0.0, reach)), 3), low, high, self.rough
        )


def _above(limit: float, mean: float, sd: float) -> float:
    return 0.5 * (1 - erf((limit - mean) / (sd * sqrt(2))))


def _stopped_at(top: float, mean: float, sd: float) -> tuple[float, float]:
    """Mean and SD of a normal count that is cut off at the top (textbook formulas of the censored normal)."""
    z = (top - mean) / sd
    below, density = 0.5 * (1 + erf(z / sqrt(2))), exp(-z * z / 2) / sqrt(6.283185307179586)
    cut = mean * below - sd * density + top * (1 - below)
    square = (mean * mean + sd * sd) * below - sd * (mean + top) * density + top * top * (1 - below)
    return cut, sqrt(max(0.04, square - cut * cut))


def outlook_of(
    sessions: Sequence[SessionDone],
    targets: Sequence[SetTarget],
    *,
    measure: Measure,
    bands: tuple[str, ...] = (),
    last_tops: Mapping[int, int] = MappingProxyType({}),
) -> Outlook:
    """Follow a member through the sessions, oldest first. last_tops: where the last suggestion asked to stop, by set number."""
    outlook = Outlook(measure, bands)
    if not sessions:
        return outlook
    start = sessions[0].on
    loads = [did.load for session in sessions for did in session.sets]
    outlook.rough = measure is not Measure.REPS or any(load is None or load.kind is not LoadKind.IMPLEMENT for load in loads)
    outlook.bend = _bend(outlook, sessions, targets, start)
    squares: list[float] = []
    for session in sessions:
        week = weeks_between(start, session.on)
        for did in session.sets:
            target = target_of(targets, did.number)
            asked = last_tops.get(did.number) if session is sessions[-1] else None
            _observe(outlook, did, target, week, squares, stopped=asked is not None and did.count >= asked)
    outlook.surprise = min(1.6, max(0.8, sqrt((_SURPRISE_PRIOR + sum(squares)) / (_SURPRISE_PRIOR + len(squares)))))
    return outlook


def weeks_between(start: date, end: date) -> float:
    return (end - start).days / 7


def target_of(targets: Sequence[SetTarget], number: int) -> SetTarget | None:
    return targets[number - 1] if 1 <= number <= len(targets) else None


def reserve_guess(did: Did, target: SetTarget | None) -> tuple[float, float, bool]:
    """Reps that were left (mean, SD) and whether the set was stopped at its top, so that the count is a lower bound.

    Said reserves are taken with half of the published understatement (Halperin et al. 2022). The guesses for sets of which nothing
    was said are ours: a set that ends inside its range usually ends because it became hard.
    """
    if did.done.failure:
        return 0.0, 0.3, False
    if did.rir is not None:
        rir = float(did.rir)
        return rir + SAID_TOO_FEW_REPS / 2, rir_sd_reps(rir), False
    if target is not None and target.amrap:
        return 0.3, 0.5, False
    if target is not None and target.high is not None and did.count >= target.high:
        if target.percent_1rm:  # a share of 1RM with fewer reps than it is good for: the rest was left over on purpose
            return max(1.0, reps_at(float(target.percent_1rm) / 100) - did.count), 1.5, True
        return 1.0, 1.2, True
    if target is not None and target.low is not None and did.count < target.low:
        return 0.2, 0.5, False
    return 0.5, 0.7, False


def _observe(outlook: Outlook, did: Did, target: SetTarget | None, week: float, squares: list[float], *, stopped: bool) -> None:
    left, left_sd, is_bound = reserve_guess(did, target)
    if stopped and did.rir is None:  # done as the last suggestion asked, whatever more was there
        left, left_sd, is_bound = 1.0, 1.2, True
    if outlook.measure is not Measure.REPS:
        value = log(max(1, did.count)) + HOLD_POWER * log(outlook.effective_kg(did.load))
        noise, gain, is_bound = HOLD_NOISE, HOLD_GAIN, is_bound
    else:
        reps = max(0.5, did.count + left)
        value = log(outlook.effective_kg(did.load) / share_for(reps, outlook.bend))
        slope = ln_per_rep(max(1.0, reps), outlook.bend)
        noise, gain = sqrt(DAY_NOISE**2 + (REP_NOISE**2 + left_sd**2) * slope**2), outlook.gain
    level = outlook.levels.get(did.number)
    if level is None:
        outlook.levels[did.number] = _Level(value, noise**2 + (0.02**2 if is_bound else 0.0), week)
        return
    ahead = max(0.0, week - level.at_week)
    mean, var = level.mean + gain * min(ahead, _MOST_WEEKS), level.var + GAIN_SD**2 * ahead
    gap = value - mean
    if is_bound and gap < 0:
        outlook.levels[did.number] = _Level(mean, var, week)
        return
    if not is_bound:
        squares.append(gap * gap / (var + noise * noise))
    if outlook.measure is Measure.REPS and ahead > 0:
        learnt = outlook.gain + GAIN_LEARNT * gap / ahead / 3
        outlook.gain = min(GAIN_MOST, max(GAIN_LEAST, learnt))
    # A session far under what was known is more likely an easy or a bad day than lost strength: it counts as a plain bad one.
    gap = max(gap, -_WORST * sqrt(var + noise * noise))
    weight = var / (var + noise * noise)
    outlook.levels[did.number] = _Level(mean + weight * gap, (1 - weight) * var, week)


def _bend(outlook: Outlook, sessions: Sequence[SessionDone], targets: Sequence[SetTarget], start: date) -> float:
    if outlook.rough:
        return 1.0
    sets = [
        HardSet(outlook.effective_kg(did.load), did.count + left, did.number, weeks_between(start, session.on))
        for session in sessions[-8:]
        for did in session.sets
        if did.count > 0
        for left, _, is_bound in [reserve_guess(did, target_of(targets, did.number))]
        if not is_bound
    ]
    return member_bend(sets)
