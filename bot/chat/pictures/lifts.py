"""Own lifts over the weeks, one strip a lift, on a picture that a phone shows whole.

In a strip the height is the count; the shaded band is what the coach asks for. A mark is a week's best set: filled inside the band, a
triangle above it, hollow below, a cross where it is not built on (pain, a doubtful number); the thin stroke below it reaches to the week's
weakest set. The line breaks where the load changes, and the load stands under the first week it was used. Right: the next target.
What the height counts (reps, s, steps, m) stands behind the name.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from bot.chat.pictures.canvas import ACCENT, BAND, FAINT, INK, SOFT, Canvas
from bot.training.reviews import Series, SeriesPoint

__all__ = ["Series", "SeriesPoint", "draw_lifts"]

WIDTH, STRIP, HEAD, FOOT = 900, 200, 100, 104
_LEFT, _RIGHT, MOST_STRIPS = 86, 836, 6
_PLOT_TOP, _PLOT_BOTTOM = 70, 48  # from a strip's upper and lower edge
# A phone shows the sheet at 0.4 of its width and with three dots to a point: 23 here are 9 points there.
_NAME, _NEXT, _COUNT, _SMALL = 28, 24, 27, 23
_TRENDS = {"better": "getting stronger", "worse": "falling", "same": "holding"}


def draw_lifts(series: Sequence[Series], *, title: str = "") -> bytes:
    """Draw up to six lifts, in the order given, as a PNG 900 pixels wide. Lifts without sessions are left out."""
    return sheet_of(series, title=title).png()


def sheet_of(series: Sequence[Series], *, title: str = "") -> Canvas:
    """The drawn sheet, before it becomes a file."""
    shown = [one for one in series if one.points][:MOST_STRIPS]
    canvas = Canvas(WIDTH, HEAD + STRIP * max(1, len(shown)) + FOOT)
    canvas.text(24, 46, canvas.fit(title or "Your lifts", 34, WIDTH - 48), 34)
    canvas.text(24, 82, "What each week brought, against the range asked for", _SMALL, SOFT)
    if not shown:
        canvas.text(24, HEAD + 80, "Nothing on record yet.", 26, SOFT)
        return canvas
    weeks = [point.week for one in shown for point in one.points]
    first, last = min(weeks), max(*weeks, min(weeks) + 3)
    for n, one in enumerate(shown):
        _strip(canvas, one, HEAD + n * STRIP, first, last)
    _weeks(canvas, canvas.height - FOOT + 24, first, last)
    _legend(canvas, canvas.height - 22)
    return canvas


def _strip(canvas: Canvas, one: Series, top: float, first: int, last: int) -> None:
    canvas.line([(24, top + 4), (WIDTH - 24, top + 4)], FAINT, 1)
    trend = _TRENDS.get(one.trend, "")
    unit = f"({one.unit})"
    unit_width = canvas.text_width(unit, _SMALL) + 12
    trend_width = canvas.text_width(trend, _SMALL) + 14 if trend else 0.0
    most = WIDTH - 72 - unit_width - trend_width
    name = canvas.fit(one.name, _NAME, most)  # the name comes before the next target, which the message says too
    canvas.text(24, top + 36, name, _NAME)
    used = canvas.text_width(name, _NAME)
    canvas.text(24 + used + 12, top + 36, unit, _SMALL, SOFT)
    if trend:
        canvas.text(24 + used + unit_width + 14, top + 36, trend, _SMALL, SOFT)
    fitting = [words for words in _next_words(one) if canvas.text_width(words, _NEXT) <= most - used]
    if fitting:
        canvas.text(WIDTH - 24, top + 36, fitting[0], _NEXT, ACCENT, "rs")
    _plot(canvas, one, _Field.around(one, top + _PLOT_TOP, top + STRIP - _PLOT_BOTTOM, first, last))


def _next_words(one: Series) -> list[str]:
    """The next target, and what is left of it where there is less room: never a piece cut off in the middle."""
    if not one.next:
        return []
    if one.rests:
        return [one.next, "rests"]
    untimed = re.sub(r", tempo [^,;]+", "", one.next)
    loads = ", ".join(part.split(": ")[0] for part in untimed.split("; ") if ": " in part)
    said = (one.next, untimed, untimed.replace("pair of ", "2 x "), loads.replace("pair of ", "2 x "))
    return [f"next {words}" for words in dict.fromkeys(said) if words]


@dataclass(frozen=True, slots=True)
class _Field:
    """Where a count and a week lie on the sheet. A doubtful number never stretches it: it is drawn at the edge."""

    top: float
    bottom: float
    least: float
    span: float
    first: int
    last: int

    @classmethod
    def around(cls, one: Series, top: float, bottom: float, first: int, last: int) -> _Field:
        counts = [count for point in one.points if not point.unsure for count in point.counts]
        ends = [end for end in (one.low, one.high) if end is not None]
        values = counts + ends or [count for point in one.points for count in point.counts]
        span = max(values) - min(values)
        room = max(0, 4 - span)  # counts that hardly differ are drawn in the middle, not spread over the strip
        return cls(top, bottom, min(values) - room / 2, span + room, first, last)

    def y(self, count: float) -> float:
        return max(self.top, min(self.bottom, self.bottom - (count - self.least) / self.span * (self.bottom - self.top)))

    def x(self, week: int) -> float:
        return _x_of(week, self.first, self.last)


def _x_of(week: int, first: int, last: int) -> float:
    return _LEFT + (week - first + 0.5) * (_RIGHT - _LEFT) / (last - first + 1)


def _plot(canvas: Canvas, one: Series, field: _Field) -> None:
    _band(canvas, one, field)
    run: list[tuple[float, float]] = []
    load = None
    for point in one.points:
        if point.load != load:
            _join(canvas, run)
            run, load = [], point.load
        if not point.unsure:
            run.append((field.x(point.week), field.y(max(point.counts))))
    _join(canvas, run)
    for point in one.points:
        x, y = field.x(point.week), field.y(max(point.counts))
        canvas.line([(x, y), (x, field.y(min(point.counts)))], INK, 3)
        _mark(canvas, one, point, x, y)
    _loads(canvas, one, field)
    sure = [point for point in one.points if not point.unsure]
    if sure:
        latest, best = sure[-1], max(sure[-1].counts)
        canvas.text(field.x(latest.week) + 16, field.y(best) - 6, str(best), _COUNT, INK, "ls", on_paper=True)


def _band(canvas: Canvas, one: Series, field: _Field) -> None:
    ends = sorted({end for end in (one.low, one.high) if end is not None})
    if not ends:
        _scale(canvas, one, field)
        return
    low, high = field.y(ends[0]), field.y(ends[-1])
    canvas.block(_LEFT, min(high, low - 6), _RIGHT, low)
    for end in ends:
        canvas.dashed(_LEFT, field.y(end), _RIGHT)
    apart = low - high
    for at, end in enumerate(ends):
        # Two ends close together would write over each other: they move apart, half a letter each way.
        shift = 0.0 if len(ends) == 1 or apart >= 24 else (12 - apart / 2) * (1 if at == 0 else -1)
        canvas.text(_LEFT - 10, field.y(end) + shift, str(end), _SMALL, SOFT, "rm")


def _scale(canvas: Canvas, one: Series, field: _Field) -> None:
    """Where no range is asked for, the axis names its lowest and its highest count."""
    counts = [count for point in one.points if not point.unsure for count in point.counts]
    for end in sorted({min(counts), max(counts)}) if counts else ():
        canvas.dashed(_LEFT, field.y(end), _RIGHT, FAINT)
        canvas.text(_LEFT - 10, field.y(end), str(end), _SMALL, SOFT, "rm")


def _loads(canvas: Canvas, one: Series, field: _Field) -> None:
    """The load under the first week it was used, all of a strip in one form: shortened, then left out, where they would run together."""
    used: list[tuple[float, str]] = []
    for point in one.points:
        if not point.unsure and point.load and (not used or point.load != used[-1][1]):
            used.append((field.x(point.week), point.load))
    forms = [[(x, _short(load, level, first=n == 0)) for n, (x, load) in enumerate(used)] for level in range(3)]
    chosen = next((form for form in forms if _apart(canvas, form)), forms[-1])
    free_from = 0.0
    for x, words in chosen:
        left, right = _span(canvas, x, words)
        if left >= free_from:
            canvas.text((left + right) / 2, field.bottom + 32, words, _SMALL, INK, "ms")
            free_from = right + 8


def _short(load: str, level: int, *, first: bool) -> str:
    """ "pair of 12.5 kg", then "12.5 kg", then "12.5" behind a first one that keeps the unit."""
    bare = load.removeprefix("pair of ") if level else load
    return bare.rsplit(" ", 1)[0] if level > 1 and not first else bare


def _span(canvas: Canvas, x: float, words: str) -> tuple[float, float]:
    half = canvas.text_width(words, _SMALL) / 2
    at = min(max(x, half + 6), WIDTH - half - 6)
    return at - half, at + half


def _apart(canvas: Canvas, form: list[tuple[float, str]]) -> bool:
    spans = [_span(canvas, x, words) for x, words in form]
    return all(b[0] >= a[1] + 8 for a, b in pairwise(spans))


def _join(canvas: Canvas, run: list[tuple[float, float]]) -> None:
    if len(run) > 1:
        canvas.line(run, SOFT, 3)


def _mark(canvas: Canvas, one: Series, point: SeriesPoint, x: float, y: float) -> None:
    best = max(point.counts)
    if point.unsure:
        canvas.cross(x, y, 8)
    elif one.high is not None and best > one.high:
        canvas.peak(x, y, 8)
    elif one.low is not None and best < one.low:
        canvas.dot(x, y, 8, hollow=True)
    else:
        canvas.dot(x, y, 8)


def _weeks(canvas: Canvas, y: float, first: int, last: int) -> None:
    canvas.line([(24, y - 20), (WIDTH - 24, y - 20)], FAINT, 1)
    canvas.text(24, y + 6, "week", _SMALL, SOFT)
    for week in range(first, last + 1):
        if week >= 1 and (last - first < 16 or week % 4 == 0):
            canvas.text(_x_of(week, first, last), y + 6, str(week), _SMALL, SOFT, "ms")


def _legend(canvas: Canvas, y: float) -> None:
    canvas.block(24, y - 19, 56, y + 2, BAND)
    canvas.text(64, y, "range", _SMALL, SOFT)
    canvas.dot(154, y - 8, 8)
    canvas.text(170, y, "in it", _SMALL, SOFT)
    canvas.peak(246, y - 8, 8)
    canvas.text(262, y, "above", _SMALL, SOFT)
    canvas.dot(356, y - 8, 8, hollow=True)
    canvas.text(372, y, "below", _SMALL, SOFT)
    canvas.cross(462, y - 8, 7)
    canvas.text(478, y, "not counted", _SMALL, SOFT)
    canvas.line([(626, y - 19), (626, y + 4)])
    canvas.text(638, y, "best to weakest set", _SMALL, SOFT)
