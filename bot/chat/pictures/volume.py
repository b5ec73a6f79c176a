"""Weekly sets for each muscle group, beside the last block's: one bar a group, the last block as a mark, told apart without colour."""

from __future__ import annotations

from collections.abc import Mapping

from bot.chat.pictures.canvas import ACCENT, BAND, FAINT, INK, PAPER, SOFT, Canvas

WIDTH, ROW, HEAD, FOOT = 900, 44, 104, 84
_LEFT, _RIGHT = 250, 820
# The range most reviews name for one muscle group: 10 (ACSM 2026 and an umbrella review) to 20 (Baz-Valle et al. 2022).
_LOW, _HIGH = 10, 20


def draw_volume(now: Mapping[str, float], before: Mapping[str, float]) -> bytes:
    """Draw the sets of a week by muscle group, most first, as a PNG 900 pixels wide. before: the last block's, empty if there is none."""
    groups = sorted({*now, *before}, key=lambda group: (-now.get(group, 0.0), group))
    most = max([_HIGH, *now.values(), *before.values()]) if groups else _HIGH
    canvas = Canvas(WIDTH, HEAD + ROW * max(1, len(groups)) + FOOT)

    def x_of(sets: float) -> float:
        return _LEFT + (_RIGHT - _LEFT) * sets / most

    canvas.text(24, 44, "Hard sets a week, by muscle group", 32)
    canvas.text(24, 78, "helping muscles count half; the band is 10 to 20 sets", 23, SOFT)
    bottom = HEAD + ROW * len(groups)
    canvas.block(x_of(_LOW), HEAD - 6, x_of(_HIGH), bottom, BAND)
    for row, group in enumerate(groups):
        y = HEAD + row * ROW
        sets = now.get(group, 0.0)
        canvas.text(_LEFT - 14, y + 28, group, 24, anchor="rs")
        canvas.block(_LEFT, y + 8, max(x_of(sets), _LEFT + 2), y + 34, ACCENT)
        if group in before:
            x = x_of(before[group])
            canvas.block(x - 5, y + 2, x + 5, y + 40, PAPER)  # a gap on both sides, so that the stroke is seen on a bar too
            canvas.block(x - 2, y + 2, x + 2, y + 40, INK)
        canvas.text(max(x_of(sets), x_of(before.get(group, 0.0))) + 12, y + 29, f"{round(sets, 1):g}", 22)
    canvas.line([(_LEFT, HEAD - 6), (_LEFT, bottom)], FAINT, 2)
    for sets, words in ((0, "0"), (_LOW, str(_LOW)), (_HIGH, f"{_HIGH} sets")):
        canvas.text(x_of(sets), bottom + 26, words, 21, SOFT, "ms")
    canvas.text(
        24, bottom + 62, "upright stroke: the last block" if before else "the first block: nothing to compare with", 22, SOFT
    )
    return canvas.png()
