"""How good were last week's forecasts? Scored against what happened, so that the coach can see it.

Brier score: mean of (chance - happened)^2 (Brier 1950, Monthly Weather Review 78:1-3); 0 is perfect, 0.25 is a coin. Calibration: of the
sets said to land with about this chance, how many did.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from bot.training.progression.values import SetForecast, Suggestion
from bot.training.records import SetRecord

_EDGES = (0.0, 0.5, 0.7, 0.85, 1.0001)


@dataclass(frozen=True, slots=True)
class CalibrationBin:
    """Sets whose chance lay in low..high: how many, the mean chance said and the share that landed."""

    low: float
    high: float
    sets: int
    said: float
    landed: float


@dataclass(frozen=True, slots=True)
class ForecastScore:
    """brier, bias None without sets. bias: mean of done minus expected, in the measure's unit. landed: share at or above the low end."""

    sets: int
    landed: float | None
    said: float | None
    brier: float | None
    bias: float | None
    bins: tuple[CalibrationBin, ...] = ()


def pairs_of(suggestion: Suggestion, records: Sequence[SetRecord]) -> list[tuple[SetForecast, int]]:
    """Each forecast beside the count of its set; sets not done, painful, doubtful or done with another load are left out."""
    aims = {aim.number: aim for aim in suggestion.sets}
    found = []
    for forecast in suggestion.forecast:
        for record in records:
            count = record.done.worst_count
            place = record.place
            if place is None or (place.label, place.number) != (suggestion.label, forecast.number) or count is None:
                continue
            aim = aims.get(forecast.number)
            other_load = (
                aim is not None and aim.load is not None and record.done.load is not None and aim.load.kg != record.done.load.kg
            )
            if not (record.painful or record.doubtful or other_load):
                found.append((forecast, count))
    return found


def score_forecasts(forecasts: Iterable[Suggestion], records: Sequence[SetRecord]) -> ForecastScore:
    """Score suggestions against the records of the week they were for."""
    return score_pairs([pair for suggestion in forecasts for pair in pairs_of(suggestion, records)])


def score_pairs(pairs: Sequence[tuple[SetForecast, int]]) -> ForecastScore:
    """Score pairs of a forecast and what was counted."""
    if not pairs:
        return ForecastScore(0, None, None, None, None)
    hits = [(forecast.chance, 1.0 if forecast.low is None or count >= forecast.low else 0.0) for forecast, count in pairs]
    n = len(hits)
    bins = []
    for low, high in pairwise(_EDGES):
        inside = [(said, landed) for said, landed in hits if low <= said < high]
        if inside:
            k = len(inside)
            bins.append(CalibrationBin(low, min(1.0, high), k, sum(s for s, _ in inside) / k, sum(x for _, x in inside) / k))
    return ForecastScore(
        n,
        sum(landed for _, landed in hits) / n,
        sum(said for said, _ in hits) / n,
        sum((said - landed) ** 2 for said, landed in hits) / n,
        sum(count - forecast.expected for forecast, count in pairs) / n,
        tuple(bins),
    )
