"""Own lifts over the weeks, one strip a lift, on a picture that a phone shows whole.

In a strip the height is the count; the shaded band is what the coach asks for. A mark is a week's first set: filled inside the band, a
triangle above it, hollow below, a cross where it is not built on; the thin stroke below it reaches to the week's weakest set. The line breaks
where the load changes, and the load stands under the first week it was used. Right: the next target.
"""

from __future__ import annotations

from collections.abc import Sequence

from bot.chat.pictures.canvas import ACCENT, BAND, FAINT, INK, SOFT, Canvas
from bot.training.reviews import Series, SeriesPoint

__all__ = ["Series", "SeriesPoint", "draw_lifts"]

WIDTH, STRIP, HEAD, FOOT = 900, 178, 96, 64
_LEFT, _RIGHT, MOST_STRIPS = 70, 836, 6
_TRENDS = {"better": "getting stronger", "worse": "falling", "same": "holding"}


def draw_lifts(series: Sequence[Series], *, title: str = "") -> bytes:
    """Draw up to six lifts, in the order given, as a PNG 900 pixels wide. Lifts without sessions are left out."""
    shown = [one for one in series if one.points][:MOST_STRIPS]
    canvas = Canvas(WIDTH, HEAD + STRIP * max(1, len(shown)) + FOOT)
    canvas.text(24, 46, canvas.fit(title or "Your lifts", 34, WIDTH - 48), 34)
    canvas.text(24, 80, "What each week brought, against the range asked for", 22, SOFT)
    if not shown:
        canvas.text(24, HEAD + 80, "Nothing on record yet.", 26, SOFT)
        return canvas.png()
    first = min(point.week for one in shown for point in one.points)
    last = max(point.week for one in shown for point in one.points)
    for n, one in enumerate(shown):
        _strip(canvas, one, HEAD + n * STRIP, first, max(last, first + 3))
    _legend(canvas, canvas.height - 22)
    return canvas.png()


def _strip(canvas: Canvas, one: Series, top: float, first: int, last: int) -> None:
    canvas.line([(24, top + 4), (WIDTH - 24, top + 4)], FAINT, 1)
    trend = _TRENDS.get(one.trend, "")
    trend_width = canvas.text_width(trend, 20) + 20 if trend else 0
    name = canvas.fit(one.name, 26, 400)
    canvas.text(24, top + 34, name, 26)
    if trend:
        canvas.text(24 + canvas.text_width(name, 26) + 14, top + 34, trend, 20, SOFT)
    if one.next:
        room = WIDTH - 60 - canvas.text_width(name, 26) - trend_width - 40
        canvas.text(WIDTH - 24, top + 34, canvas.fit(f"next {one.next}", 22, max(120.0, room)), 22, ACCENT, "rs")
    _plot(canvas, one, top + 52, top + STRIP - 42, first, last)


def _plot(canvas: Canvas, one: Series, top: float, bottom: float, first: int, last: int) -> None:
    counts = [count for point in one.points for count in point.counts]
    ends = [end for end in (one.low, one.high) if end is not None]
    least, most = min(counts + ends), max(counts + ends)
    span = max(4, most - least)

    def y_of(count: float) -> float:
        return bottom - (count - least) / span * (bottom - top)

    def x_of(week: int) -> float:
        return _LEFT + (week - first + 0.5) * (_RIGHT - _LEFT) / (last - first + 1)

    if ends:
        low, high = y_of(min(ends)), y_of(max(ends))
        canvas.block(_LEFT, min(high, low - 6), _RIGHT, low)
        for end in sorted(set(ends)):
            canvas.dashed(_LEFT, y_of(end), _RIGHT)
            canvas.text(_LEFT - 10, y_of(end), str(end), 20, SOFT, "rm")
    run: list[tuple[float, float]] = []
    load = None
    for point in one.points:
        x, y = x_of(point.week), y_of(max(point.counts))
        if point.load != load:
            _join(canvas, run)
            run = []
            canvas.text(x, bottom + 30, point.load, 20, INK, "ms")
            load = point.load
        run.append((x, y))
    _join(canvas, run)
    for point in one.points:
        x = x_of(point.week)
        canvas.line([(x, y_of(max(point.counts))), (x, y_of(min(point.counts)))], INK, 3)
        _mark(canvas, one, point, x, y_of(max(point.counts)))
    latest = one.points[-1]
    canvas.text(x_of(latest.week) + 16, y_of(max(latest.counts)), f"{max(latest.counts)}", 24, INK, "ls")


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


def _legend(canvas: Canvas, y: float) -> None:
    canvas.block(24, y - 18, 56, y + 4, BAND)
    canvas.text(64, y, "range", 20, SOFT)
    canvas.dot(160, y - 7, 8)
    canvas.text(176, y, "in it", 20, SOFT)
    canvas.peak(256, y - 7, 8)
    canvas.text(272, y, "above", 20, SOFT)
    canvas.dot(360, y - 7, 8, hollow=True)
    canvas.text(376, y, "below", 20, SOFT)
    canvas.line([(462, y - 18), (462, y + 4)])
    canvas.text(474, y, "best to weakest set; weights below", 20, SOFT)
