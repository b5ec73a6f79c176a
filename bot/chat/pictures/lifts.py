"""Own lifts over the weeks, one strip a lift, on a picture that a phone shows whole.

In a strip the height is the count; the shaded band is what the coach asks for. A mark is a week's best set: filled inside the band, a
triangle above it, hollow below, a cross where it is not built on (pain, a doubtful number); the thin stroke below it reaches to the week's
weakest set. The line breaks where the load changes, and the load stands under the first week it was used. Right: the next target.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bot.chat.pictures.canvas import ACCENT, BAND, FAINT, INK, SOFT, Canvas
from bot.training.reviews import Series, SeriesPoint

__all__ = ["Series", "SeriesPoint", "draw_lifts"]

WIDTH, STRIP, HEAD, FOOT = 900, 190, 96, 96
_LEFT, _RIGHT, MOST_STRIPS = 70, 836, 6
_PLOT_TOP, _PLOT_BOTTOM = 66, 44  # from a strip's upper and lower edge
_TRENDS = {"better": "getting stronger", "worse": "falling", "same": "holding"}


def draw_lifts(series: Sequence[Series], *, title: str = "") -> bytes:
    """Draw up to six lifts, in the order given, as a PNG 900 pixels wide. Lifts without sessions are left out."""
    return sheet_of(series, title=title).png()


def sheet_of(series: Sequence[Series], *, title: str = "") -> Canvas:
    """The drawn sheet, before it becomes a file."""
    shown = [one for one in series if one.points][:MOST_STRIPS]
    canvas = Canvas(WIDTH, HEAD + STRIP * max(1, len(shown)) + FOOT)
    canvas.text(24, 46, canvas.fit(title or "Your lifts", 34, WIDTH - 48), 34)
    canvas.text(24, 80, "What each week brought, against the range asked for", 22, SOFT)
    if not shown:
        canvas.text(24, HEAD + 80, "Nothing on record yet.", 26, SOFT)
        return canvas
    weeks = [point.week for one in shown for point in one.points]
    first, last = min(weeks), max(*weeks, min(weeks) + 3)
    for n, one in enumerate(shown):
        _strip(canvas, one, HEAD + n * STRIP, first, last)
    _weeks(canvas, canvas.height - FOOT + 22, first, last)
    _legend(canvas, canvas.height - 22)
    return canvas


def _strip(canvas: Canvas, one: Series, top: float, first: int, last: int) -> None:
    canvas.line([(24, top + 4), (WIDTH - 24, top + 4)], FAINT, 1)
    trend = _TRENDS.get(one.trend, "")
    wanted = canvas.text_width(f"next {one.next}", 22) if one.next else 0.0
    trend_width = canvas.text_width(trend, 20) + 14 if trend else 0.0
    name = canvas.fit(one.name, 26, max(260.0, WIDTH - 72 - wanted - trend_width))
    canvas.text(24, top + 34, name, 26)
    used = 24 + canvas.text_width(name, 26)
    if trend:
        canvas.text(used + 14, top + 34, trend, 20, SOFT)
    if one.next:
        room = WIDTH - 24 - used - trend_width - 24
        canvas.text(WIDTH - 24, top + 34, canvas.fit(f"next {one.next}", 22, room), 22, ACCENT, "rs")
    _plot(canvas, one, _Field.around(one, top + _PLOT_TOP, top + STRIP - _PLOT_BOTTOM, first, last))


@dataclass(frozen=True, slots=True)
class _Field:
    """Where a count and a week lie on the sheet. A doubtful number never stretches it: it is drawn at the edge."""

    top: float
    bottom: float
    least: int
    span: int
    first: int
    last: int

    @classmethod
    def around(cls, one: Series, top: float, bottom: float, first: int, last: int) -> _Field:
        counts = [count for point in one.points if not point.unsure for count in point.counts]
        ends = [end for end in (one.low, one.high) if end is not None]
        values = counts + ends or [count for point in one.points for count in point.counts]
        return cls(top, bottom, min(values), max(4, max(values) - min(values)), first, last)

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
        canvas.text(field.x(latest.week) + 14, field.y(best) - 5, str(best), 24, INK, "ls")


def _band(canvas: Canvas, one: Series, field: _Field) -> None:
    ends = sorted({end for end in (one.low, one.high) if end is not None})
    if not ends:
        return
    low, high = field.y(ends[0]), field.y(ends[-1])
    canvas.block(_LEFT, min(high, low - 6), _RIGHT, low)
    for end in ends:
        canvas.dashed(_LEFT, field.y(end), _RIGHT)
    apart = low - high
    for at, end in enumerate(ends):
        # Two ends close together would write over each other: they move apart, half a letter each way.
        shift = 0.0 if len(ends) == 1 or apart >= 22 else (11 - apart / 2) * (1 if at == 0 else -1)
        canvas.text(_LEFT - 10, field.y(end) + shift, str(end), 20, SOFT, "rm")


def _loads(canvas: Canvas, one: Series, field: _Field) -> None:
    """The load under the first week it was used: shortened, then left out, where it would run into the one before."""
    load, free_from = None, 0.0
    for point in one.points:
        if point.load == load or point.unsure:
            continue
        load, x = point.load, field.x(point.week)
        for words in (load, load.removeprefix("pair of "), load.removeprefix("pair of ").rsplit(" ", 1)[0]):
            half = canvas.text_width(words, 20) / 2
            if words and x - half >= free_from:
                canvas.text(max(x, half + 6), field.bottom + 30, words, 20, INK, "ms")
                free_from = max(x, half + 6) + half + 8
                break


def _join(canvas: Canvas, run: list[tuple[float, float]]) -> None:
    if len(run) > 1:
        canvas.line(run, SOFT, 2)


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
    canvas.line([(24, y - 18), (WIDTH - 24, y - 18)], FAINT, 1)
    canvas.text(24, y + 6, "week", 20, SOFT)
    for week in range(first, last + 1):
        if week >= 1 and (last - first < 16 or week % 4 == 0):
            canvas.text(_x_of(week, first, last), y + 6, str(week), 20, SOFT, "ms")


def _legend(canvas: Canvas, y: float) -> None:
    canvas.block(24, y - 18, 56, y + 2, BAND)
    canvas.text(64, y, "range", 20, SOFT)
    canvas.dot(146, y - 7, 8)
    canvas.text(162, y, "in it", 20, SOFT)
    canvas.peak(230, y - 7, 8)
    canvas.text(246, y, "above", 20, SOFT)
    canvas.dot(330, y - 7, 8, hollow=True)
    canvas.text(346, y, "below", 20, SOFT)
    canvas.cross(426, y - 7, 7)
    canvas.text(442, y, "not counted", 20, SOFT)
    canvas.line([(576, y - 18), (576, y + 4)])
    canvas.text(588, y, "best to weakest set", 20, SOFT)
